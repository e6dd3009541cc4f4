"""Invented jobs for the doors: one that passes, one that is referred, one that fails, and ones that cannot be read."""

from __future__ import annotations

HEAD = """\
# Invented example. There is no such building.
[job]
title = "Invented shed"
standard = "NDS 2018"
loads = "ASCE 7-16"
invented = true
"""

STOCK = """
[[stock]]
name = "joist stock"
species = "Hem-Fir"
grade = "No.2"
size = "2x10"
moisture = "dry"
grade_from = "stamp"
evidence = "invented: Hem-Fir No.2 S-DRY"
"""

WALL = """
[[existing]]
name = "wall"
what = "stone wall"
material = "masonry"
confirmed_by = "invented sheet S-1, engineer"
"""


def joist(name: str = "J1", live: str = "40 psf", more: str = "", span: str = "12 ft") -> str:
    """A joist on two walls; at 12 ft and 40 psf it passes."""
    return f"""
[[beam]]
name = "{name}"
stock = "joist stock"
service = "floor"
finish = "none"
top_held = "full length"
{more}
supports = [
  {{ at = "0 ft", on = "wall", bearing = "4 in", restrained = true }},
  {{ at = "{span}", on = "wall", bearing = "4 in", restrained = true }},
]
carries = [{{ what = "floor", dead = "10 psf", live = "{live}", width = "16 in", applied = "top" }}]
"""


PASSES = HEAD + STOCK + WALL + joist()
REFER = HEAD + STOCK + WALL.replace('confirmed_by = "invented sheet S-1, engineer"\n', "") + joist()
FAILS = HEAD + STOCK + WALL + joist() + joist("J2", live="200 psf")
BAD = HEAD + STOCK + WALL + joist(live="40")
NOT_TOML = "this is no job file"

BY_STATUS = {0: PASSES, 3: REFER, 4: FAILS, 2: BAD}
GOOD = {"passes": PASSES, "refer": REFER, "fails": FAILS}
