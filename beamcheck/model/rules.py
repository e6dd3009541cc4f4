"""Rules that tie the fields of one piece together. What needs a second piece is in links.py.

Each rule yields (path within the piece, sentence that says what is wrong and what would be right). They run when all
fields of that piece could be read, in the job file and in the Python API alike.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import combinations
from typing import TYPE_CHECKING, Any

from .anchor_manners import SAME_PLACE
from .bounds import BOUNDS, LOADS
from .reading.lines import Path

if TYPE_CHECKING:  # these import this module
    from .base import Piece
    from .loads import Load
    from .pieces import Beam, Cut, GivenValues, Post, Rafter, Stick, Stock, Tie

Fault = tuple[Path, str]
LARGEST_SHARE = 0.55  # E_min of E: 0.51 for machine-stress-rated lumber, COV 0.11 (NDS 2018 Appendix D, memory)
KINDS = ("dead", "live", "roof_live", "snow", "wind")


class PieceFaults(ValueError):
    """What is wrong with one piece: all of it, each fault with its path within the piece."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("; ".join(f"{', '.join(map(str, path))}: {text}" if path else text for path, text in faults))


def faults_of(piece: Piece) -> Iterator[Fault]:
    """All faults of one piece, its bases' rules included."""
    for cls in reversed(type(piece).__mro__):
        for field, bound in BOUNDS.get(cls.__name__, {}).items():
            value = getattr(piece, field)
            if isinstance(value, float) and not bound.admits(value):
                yield (type(piece).model_fields[field].alias or field,), bound.text(value)
        for rule in _RULES.get(cls.__name__, ()):
            yield from rule(piece)
        if "faults" in vars(cls):  # a class yields its own faults
            yield from vars(cls)["faults"](piece)


def sort_of(load: Load) -> str | None:
    """'area', 'line' or 'point': the sort that all kinds of a load share; None when they differ or there is none."""
    sorts = {amount[1] for kind in KINDS if (amount := getattr(load, kind)) is not None}
    return sorts.pop() if len(sorts) == 1 else None


def slope_length(rafter: Rafter) -> float:
    """Length of a rafter up the slope from its lower end to the ridge, inches."""
    return rafter.wall.at + rafter.run / math.cos(math.radians(rafter.slope))


def beam_length(beam: Beam) -> float:
    """Length of a beam over all, inches."""
    return beam.length if beam.length is not None else max(support.at for support in beam.supports)


def feet(inches: float) -> str:
    """A length for a message: feet and decimal inches."""
    whole, rest = divmod(inches, 12.0)
    return f"{whole:.0f} ft {rest:.4g} in" if rest >= 0.0005 else f"{whole:.0f} ft"


def _load(load: Load) -> Iterator[Fault]:
    given = [kind for kind in KINDS if getattr(load, kind) is not None]
    if not given:
        yield (), 'a load without a kind: say dead, live, roof_live, snow or wind, for example dead = "10 psf"'
        return
    for kind in given:
        value, sort = getattr(load, kind)
        if not LOADS[sort].admits(abs(value)):
            yield (kind,), LOADS[sort].text(value)
        elif value < 0 and kind != "wind":
            yield (kind,), "only wind may be negative (it then lifts); write this load as a positive amount"
    sort = sort_of(load)
    if sort is None:
        yield (), "one entry holds loads of one sort (all per area, all per length, or all forces): make two entries"
    elif sort == "point":
        yield from _point_load(load, given)
    else:
        yield from _spread_load(load, sort)
    yield from _measured(load, given)


def _point_load(load: Load, given: list[str]) -> Iterator[Fault]:
    if load.width is not None:
        yield ("width",), "a force has no tributary width: leave width out, or give the load per area (psf)"
    for field, name in (("start", "from"), ("end", "to")):
        if getattr(load, field) is not None:
            yield (name,), f"a force stands at one place: write `at` in place of `{name}`, or give the load per length"
    if load.moves and given != ["live"]:
        yield ("moves",), "only a live load moves: put the other kinds into an entry of their own"
    if load.moves and load.at is not None:
        yield ("at",), "a load that moves may stand anywhere: leave `at` out, or leave `moves` out"
    if load.bearing is not None and load.applied in ("side", "below"):
        yield ("bearing",), "a load that hangs from the side or from below has no seat on the top: leave bearing out"


def _spread_load(load: Load, sort: str) -> Iterator[Fault]:
    if sort == "line" and load.width is not None:
        yield ("width",), "a load per length has no tributary width: leave width out, or give the load per area (psf)"
    if load.at is not None:
        yield ("at",), 'a spread load has no `at`: write from = "..." and to = "...", or give a force (lbf)'
    if load.moves:
        yield ("moves",), "`moves` is for a live force (lbf) only"
    if load.bearing is not None:
        yield ("bearing",), "`bearing` is the seat of a force (lbf) on the top; a spread load has none"
    if load.end is not None and load.end <= (load.start or 0.0):
        yield ("to",), f"it stops at {feet(load.end)}, which is not beyond its beginning at {feet(load.start or 0.0)}"


def _measured(load: Load, given: list[str]) -> Iterator[Fault]:
    if load.measured is None:
        return
    if load.dead is None:
        yield ("measured",), "`measured` belongs to the dead load; snow and live load are always per area of plan"
    elif load.measured == "slope" and (others := [kind for kind in given if kind in ("live", "roof_live", "snow")]):
        yield ("measured",), f"{' and '.join(others)} is per area of plan: put it into an entry of its own"
    if load.measured == "plan" and load.wind is not None:
        yield ("measured",), "wind presses square to the slope and is not measured on plan: make two entries"


def _cut(cut: Cut) -> Iterator[Fault]:
    if cut.kind in ("hole", "mortise"):
        if cut.from_bottom is None:
            yield ("from_bottom",), f'missing: a {cut.kind} needs its height, for example from_bottom = "4 in"'
    else:
        if cut.face == "side":
            text = f'a {cut.kind} is cut from the top or the bottom: write face = "top" or face = "bottom"'
            yield ("face",), f"{text} (wood taken from the side is a mortise)"
        if cut.from_bottom is not None:
            yield ("from_bottom",), f"a {cut.kind} starts at its face: leave from_bottom out"
    if cut.kind != "hole" and cut.length <= 0:
        yield ("length",), f'missing: a {cut.kind} needs its extent along the piece, for example length = "6 in"'
    if cut.kind == "mortise" and cut.width is None:
        yield ("width",), 'missing: a mortise needs its breadth across the piece, for example width = "1 1/2 in"'
    if cut.kind in ("hole", "taper") and cut.width is not None:
        yield ("width",), f"a {cut.kind} goes through the full breadth: leave width out"


def _given_values(values: GivenValues) -> Iterator[Fault]:
    if values.E_min >= values.E:
        yield ("E_min",), "E_min (for stability) is always less than E (the mean): are the two exchanged?"
    elif values.E_min > LARGEST_SHARE * values.E:
        text = "E_min (for stability) is about 0.37 of E for sawn lumber graded by eye, and never over 0.55"
        yield ("E_min",), f"{text} (NDS 2018 Appendix D); here it is {values.E_min / values.E:.2f} of E"


def _stock(stock: Stock) -> Iterator[Fault]:
    if stock.species != "unknown" and stock.candidates:
        yield ("candidates",), 'only for species = "unknown"; leave them out when the species is known'
    if stock.values is not None:
        return  # the letter that gives the values is the evidence
    if stock.grade == "unstamped":
        if stock.grade_from in ("stamp", "certificate", "engineer"):
            yield ("grade_from",), f"the grade is unstamped, so no {stock.grade_from} can vouch for it: write the grade"
    elif stock.grade_from is None:
        text = 'missing: who says that it is that grade; for example grade_from = "stamp"'
        yield ("grade_from",), f'{text} (allowed are "stamp", "certificate", "engineer" and "assumed")'


def _stick(stick: Stick) -> Iterator[Fault]:
    for field in ("limit_live", "limit_total"):
        if getattr(stick, field) is not None and not stick.limit_why.strip():
            yield ("limit_why",), f'missing: {field} overrides the usual limit; say why, for example limit_why = "..."'
            break
    if stick.members > 1:
        if stick.spacing is None:
            yield ("spacing",), 'missing: members that share a load need their spacing, for example spacing = "16 in"'
        if not stick.shared_by.strip():
            yield (
                ("shared_by",),
                'missing: members share a load only through a deck; for example shared_by = "1 in boards"',
            )
    if stick.laid == "flat" and stick.plies > 1:
        yield ("plies",), "plies laid flat on one another slide and do not act as one: describe one ply"


def _beam(beam: Beam) -> Iterator[Fault]:
    supports = beam.supports
    if not supports:
        yield (
            ("supports",),
            'none given: a beam needs something to rest on, for example supports = [{ at = "0 ft", on = "west post" }]',
        )
        return
    if len(supports) == 1 and supports[0].holds != "fixed":
        yield ("supports",), 'one support cannot hold it level: give a second one, or holds = "fixed" for a cantilever'
    for (i, one), (j, two) in combinations(enumerate(supports), 2):
        if abs(one.at - two.at) < SAME_PLACE:
            yield (
                ("supports", j, "at"),
                f"at {feet(two.at)} stands support {i + 1} already; two supports need two places",
            )
    length = beam_length(beam)
    if length <= 0:
        if len(supports) == 1:
            yield ("length",), 'missing: with its only support at 0 the beam has no length, for example length = "4 ft"'
        return
    for i, support in enumerate(supports):
        yield from _inside(("supports", i, "at"), support.at, length, "the beam")
    yield from _places_inside(beam.carries, beam.cuts, length, "the beam")
    yield from _widths(beam.carries)


def _rafter(rafter: Rafter) -> Iterator[Fault]:
    if rafter.slope == 0:
        yield ("slope",), "a level rafter is a beam: describe it as [[beam]]"
    if rafter.ridge == "beam" and rafter.ridge_on is None:
        yield ("ridge_on",), 'missing: say which piece carries the upper ends, for example ridge_on = "ridge beam"'
    if rafter.ridge == "board" and rafter.ridge_on is not None:
        yield ("ridge_on",), 'a ridge board carries nothing: leave ridge_on out, or write ridge = "beam"'
    if rafter.ridge == "beam" and rafter.tie is not None:
        text = "leave tie out, and describe a piece that carries a ceiling as a [[beam]]"
        yield ("tie",), f"with a ridge beam a tie takes no part in the check and would go unchecked: {text}"
    if rafter.ridge == "board" and not rafter.pair:
        yield ("pair",), 'one rafter alone cannot lean on a ridge board: write ridge = "beam", or leave pair out'
    length = slope_length(rafter)
    if length <= 2400:
        yield from _places_inside(rafter.carries, rafter.cuts, length, "the rafter", measured=True)
    elif rafter.run <= 1200 and rafter.slope <= 85:  # otherwise said already
        yield (), f"{feet(length)} up the slope cannot be right: check run and slope"


def _tie(tie: Tie) -> Iterator[Fault]:
    yield from _widths(tie.carries)
    yield from _places_inside(tie.carries, (), math.inf, "the tie")


def _post(post: Post) -> Iterator[Fault]:
    if post.base_restraint == "pinned" and post.top_restraint == "free":
        yield ("top_restraint",), "a post pinned at the foot and free at the top falls over: what holds it?"
    for i, load in enumerate(post.carries):
        if sort_of(load) in ("area", "line"):
            yield (
                ("carries", i),
                "a post carries forces (lbf) on its top: multiply the load by the area or length it comes from",
            )
        if load.at is not None:
            yield ("carries", i, "at"), "a post's own loads stand on its top: leave `at` out"
        if load.measured is not None:
            yield ("carries", i, "measured"), "`measured` is for rafters"
        if load.moves:
            yield ("carries", i, "moves"), "a load on a post does not move: leave `moves` out"
    for i, cut in enumerate(post.cuts):
        yield from _inside(("cuts", i, "at"), cut.at, post.height, "the post")


def _widths(loads: Sequence[Load]) -> Iterator[Fault]:
    for i, load in enumerate(loads):
        if load.width is None and sort_of(load) == "area":
            text = "missing: a load per area needs the width that comes to this piece"
            yield ("carries", i, "width"), f'{text}, for example width = "4 ft" (for repeated pieces their spacing)'


def _places_inside(
    loads: Sequence[Load], cuts: Sequence[Cut], length: float, what: str, *, measured: bool = False
) -> Iterator[Fault]:
    """Loads and cuts lie within the piece; a force says where; `measured` is for rafters."""
    for i, load in enumerate(loads):
        if sort_of(load) == "point" and load.at is None and not load.moves:
            yield ("carries", i, "at"), 'missing: a force needs its place, for example at = "7 ft"'
        if load.measured is not None and not measured:
            yield ("carries", i, "measured"), "`measured` is for rafters: a level piece has no slope"
        for field, name in (("at", "at"), ("start", "from"), ("end", "to")):
            if (place := getattr(load, field)) is not None:
                yield from _inside(("carries", i, name), place, length, what)
    for i, cut in enumerate(cuts):
        yield from _inside(("cuts", i, "at"), cut.at, length, what)


def _inside(path: Path, place: float, length: float, what: str) -> Iterator[Fault]:
    if place > length + SAME_PLACE:
        yield path, f"{feet(place)} is beyond the end: {what} is {feet(length)} long"


_RULES: dict[str, tuple[Callable[[Any], Iterator[Fault]], ...]] = {
    "Load": (_load,), "Cut": (_cut,), "GivenValues": (_given_values,), "Stock": (_stock,), "Stick": (_stick,),
    "Beam": (_beam,), "Rafter": (_rafter,), "Tie": (_tie,), "Post": (_post,),
}  # fmt: skip
