"""The good job with brackets of every family and a piece of trim. Everything in it is invented."""

from __future__ import annotations

from .jobs import GOOD, edited

BRACKETS = """
[[anchor]]
name = "grip"
manner = "by others"

[[stock]]
name = "board"
species = "Douglas Fir-Larch"
grade = "No.2"
grade_from = "stamp"
size = "1 1/2 in x 11 1/4 in"
moisture = "dry"

[[stock]]
name = "block"
species = "Eastern White Pine"
grade = "unstamped"
size = "3 1/2 in x 9 in"
moisture = "dry"

[[existing]]
name = "plaster wall"
what = "plaster on lath"
material = "plaster"

[[bracket]]
name = "K1"
role = "carries"
stock = "board"
on = "west post"
at = "6 ft"
knots = "none in the throat"
carries = [
  { what = "shelf", dead = "5 psf", live = "10 psf", width = "24 in", from = "1 in", to = "9 in" },
  { what = "lamp", dead = "4 lb", at = "9 1/2 in" },
]
  [bracket.shape]
  family = "solid"
  thickness = "1 1/2 in"
  height = "12 in"
  projection = "10 in"
  foot = "2 in"
  nose = "2 in"
  soffit = "concave"
  grain = "upright"
  pocket = { top = "5 in", height = "2 in", depth = "1/2 in", width = "1 in" }
  [bracket.fixings]
  fastener = { kind = "wood screw", size = "No. 10", length = "4 in" }
  rows = [{ below_top = "2 in", count = 1 }, { below_top = "10 in", count = 1, slot = "1 in" }]
  through = "2 in"
  wall = "wood"

[[bracket]]
name = "K2"
role = "decorative"
stock = "block"
on = "plaster wall"
accidental = "not for load"
shape = { family = "braced", thickness = "2 1/2 in", height = "18 in", projection = "18 in", \
wall_leg = "2 in", top_leg = "2 in", brace = "2 1/2 in", brace_out = "15 in", brace_down = "15 in", \
joints = "housed", housing = "1/2 in" }
near = { beam = "B1", at = "2 ft", gap = "1/4 in", pad = "2,000 lb/in", pad_squeezes = "1/8 in", \
closing = [{ what = "sill", height = "3 in", change = "6 %" }] }

[[bracket]]
name = "K3"
role = "decorative"
stock = "board"
on = "north wall"
shape = { family = "bent", thickness = "1 1/2 in", depth = "2 in", inner_radius = "10 in", \
sweep = "90 deg", made = "laminated", lamination = "1/8 in", glue = "resorcinol, by the shop" }
accidental = "200 lb"
accidental_from = "the owner"

[[bracket]]
name = "K4"
role = "cover"
on = "B1"
at = "13 ft"
shape = { family = "steel core", steel = "A36", width = "1 1/2 in", thickness = "1/4 in", \
projection = "8 in", down = "3 in" }
cover = { hides = ["grip"], heads_stand_out = "3/4 in", change = "6 %" }

[[bracket]]
name = "K5"
role = "carries"
stock = "block"
on = "west post"
at = "5 ft"
shape = { family = "corbel", thickness = "3 1/2 in", height = "9 in", projection = "3 1/2 in", \
grain = "upright", seat = "3/4 in", below_seat = "4 ft" }

[[trim]]
name = "crown"
role = "decorative"
what = "molding"
on = "B1"
weight = "35 lb"
hangs = "below"
carries = [{ what = "lamp", dead = "10 lb" }]

[[beam]]
name = "B9"
stock = "2x6"
supports = [{ at = "0 ft", on = "K5", lands_at = "2 in" }, { at = "6 ft", on = "crown" }]
finish = "none"
top_held = "full length"
service = "floor"
"""

GOOD_BRACKETS = edited(('on = "hidden plate A" }', 'on = "hidden plate A", held_by = "grip" }'), text=GOOD) + BRACKETS
CURVE = 'soffit = "concave"'


def changed(*changes: tuple[str, str]) -> str:
    """The good job with brackets, changed; each `old` is sought from the brackets on."""
    start = GOOD_BRACKETS.index("[[anchor]]")
    return GOOD_BRACKETS[:start] + edited(*changes, text=GOOD_BRACKETS[start:])
