"""A cover: room for what it hides, seasonal movement, how it is held, and in which order it may be closed."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...analysis.fields.outline import outline_of
from ...calc.pad import Pad
from ...formulas.wood.shrinkage import clearance_needed, cross_grain_movement
from ...model.brackets import Bracket, Cover, Pocket, Solid
from ...units import show
from ...values.brackets import accidental_loads, movement_coefficient
from ...values.judgment import judgment
from ..core.context import Context
from ..core.govern import Criterion, govern, stated
from ..core.material import WoodMaterial
from ..core.result import Check, judge
from ..core.strength import Outcome
from .hidden_hardware import hidden_checks
from .loads import BracketLoads

ROOM = "judgement: clearance of a cover"
MOVES = "Wood Handbook ch. 13"
HOLES_GIVE = 1.0 / 32.0  # in: a hole is at least so much larger than its bolt (NDS 2018 12.1.3.2, memory)
WHAT_IF = "somebody who hangs on it"


def cover_checks(bracket: Bracket, loads: BracketLoads, wood: WoodMaterial | None, context: Context) -> list[Check]:
    """All that belongs to a cover, its fixings left out."""
    name, cover = bracket.name, bracket.cover
    found = list(accidental_checks(name, bracket.accidental, bracket.accidental_from))
    if cover is None or not cover.hides:
        text = "which anchor groups it hides is not said (`cover.hides`)"
        return [*found, stated(name, "what it hides", "load path", "refer", text)]
    for hidden in cover.hides:
        text = f"{hidden} must be inspected and photographed before this cover closes it"
        found.append(stated(name, f"order of assembly: {hidden} first", "judgement", "passes", text))
    found += hidden_checks(bracket, cover, context)
    found += _room(bracket, cover, loads, context)
    found += _movement(bracket, cover, loads, context)
    return found


def accidental_checks(name: str, accidental: float | str | None, chosen_by: str) -> Iterator[Check]:
    """Whether it is decided what happens when somebody hangs on it; the usual figures are offered, never taken."""
    if accidental is None:
        usual = "; ".join(one.reason for one in accidental_loads())
        text = (
            'not decided (`accidental`): give a force, or write "not for load" where it is labelled so and comes off '
            f"harmlessly. No code asks for it; common practice, no source: {usual}"
        )
        yield stated(name, WHAT_IF, "common practice, no source", "refer", text)
    elif accidental == "not for load":
        text = "declared not for load: label it so, and see that it comes off without hurting anybody"
        yield stated(name, WHAT_IF, "common practice, no source", "passes", text)
    elif not chosen_by.strip():
        text = "who chose that force is not said (`accidental_from`)"
        yield stated(name, WHAT_IF, "common practice, no source", "refer", text)


def _swing(bracket: Bracket, context: Context) -> tuple[float, str, object]:
    """Movement per point of moisture of the cover's wood: the largest coefficient of what it may be."""
    species = None
    if bracket.stock is not None:
        species = context.stock(bracket.stock).species
        species = None if species.casefold() == "unknown" else species
    coefficient = movement_coefficient(species)[0]
    return coefficient.value, coefficient.reason, coefficient.source


def _room(bracket: Bracket, cover: Cover, loads: BracketLoads, context: Context) -> Iterator[Check]:
    """The pocket against the hardware: deep, wide and high enough when everything has moved."""
    name, shape = bracket.name, bracket.shape
    if not isinstance(shape, Solid) or (pocket := shape.pocket) is None:
        text = "no pocket is described (`shape.pocket`): whether the hardware finds room is not known"
        yield stated(name, "room for the hardware", ROOM, "refer", text)
        return
    missing = [
        field for field in ("heads_stand_out", "heads_width", "heads_height", "hidden_moves", "change")
        if getattr(cover, field) is None
    ]  # fmt: skip
    if missing:
        text = f"not given: {', '.join(f'`cover.{field}`' for field in missing)}"
        yield stated(name, "room for the hardware", ROOM, "refer", text)
        return
    width = pocket.width if pocket.width is not None else shape.thickness
    C_w, why, source = _swing(bracket, context)
    change, moves = cover.change or 0.0, cover.hidden_moves or 0.0
    least = judgment("clearance around hidden heads")
    for words, size, room, sides in (
        ("depth", cover.heads_stand_out or 0.0, pocket.depth, 1.0),
        ("width", cover.heads_width or 0.0, width, 2.0),
        ("height", cover.heads_height or 0.0, pocket.height, 2.0),
    ):

        def calculate(
            pad: Pad, which: int | slice, size: float = size, room: float = room, sides: float = sides
        ) -> Outcome:
            coefficient = pad.take("C_w", C_w, note=why, source=source)  # type: ignore[arg-type]
            swing = pad(cross_grain_movement, C_w=coefficient, dMC=change, h=room)
            c_min = pad.take("c_min", least.value, "in", note=least.reason, source=least.source)
            clear = pad(clearance_needed, c_min=c_min, Delta_w=swing, Delta_hid=moves)
            needed = size + sides * clear
            if not isinstance(which, slice):
                pad.take("d_needed", float(needed), "in", note=f"hardware of {size:g} in, clear on {sides:g} side(s)")
            return Outcome(needed, room, needed / room)

        criterion = Criterion(name, f"{words} of the pocket", ROOM, "length")
        yield govern(criterion, loads.combinations[:1], calculate)
    yield from _front(bracket, pocket)
    beside = 0.5 * (shape.thickness - width)
    wall = judgment("wall of a pocket")
    if pocket.width is None:
        text = "the pocket runs right through the thickness: it is open at both sides and its hardware shows"
        yield stated(name, "walls of the pocket", ROOM, "refer", text)
    else:
        ratio = wall.value / beside if beside > 0.0 else np.inf
        verdict = judge(ratio, distance=True)
        text = f"{show(max(beside, 0.0), 'length')} of wood beside the pocket; at least {show(wall.value, 'length')}"
        yield stated(name, "walls of the pocket", ROOM, verdict, text)


def _front(bracket: Bracket, pocket: Pocket) -> Iterator[Check]:
    """Wood above the pocket and in front of it, where its lowest corner comes nearest to the soffit."""
    shape, least = bracket.shape, judgment("wall of a pocket").value
    assert isinstance(shape, Solid)
    what, corner = "wood around the pocket", pocket.depth + least
    inside = corner < shape.projection and outline_of(shape).depth(corner) >= pocket.top + pocket.height + least - 1e-9
    if pocket.top >= least - 1e-9 and inside:
        text = f"at least {show(least, 'length')} of wood above the pocket and between it and the soffit"
        yield stated(bracket.name, what, ROOM, "passes", text)
    else:
        text = f"less than {show(least, 'length')} of wood is left above the pocket, or between it and the soffit"
        yield stated(bracket.name, what, ROOM, "fails", text)


def _movement(bracket: Bracket, cover: Cover, loads: BracketLoads, context: Context) -> Iterator[Check]:
    """The gap to what it meets, and that it can shrink and swell."""
    name, shape = bracket.name, bracket.shape
    if cover.fixed_at_one_line is not True:
        text = "it must be fixed along one line only, with slots elsewhere, or it splits (`cover.fixed_at_one_line`)"
        yield stated(name, "free to shrink and swell", MOVES, "refer", text)
    grain = getattr(shape, "grain", None)
    yield from _lines(bracket, cover, context)
    if cover.reveal is None or cover.change is None or grain is None:
        text = "reveal, change of moisture or grain are not given: whether the gap holds is not known"
        yield stated(name, "reveal", MOVES, "refer", text)
        return
    height = float(getattr(shape, "height", 0.0))
    upright = float(np.sin(np.radians(grain)) ** 2)
    across = height * (1.0 - upright)  # of grain aslant the part that lies across; upright grain hardly moves
    C_w, why, source = _swing(bracket, context)
    reveal, change = cover.reveal, cover.change
    if across < 1e-6:
        text = "the grain stands upright: its height hardly changes"
        yield stated(name, "reveal", MOVES, "passes", text)
        return

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        coefficient = pad.take("C_w", C_w, note=why, source=source)  # type: ignore[arg-type]
        needed = pad(cross_grain_movement, C_w=coefficient, dMC=change, h=across)
        return Outcome(needed, reveal, needed / reveal if reveal > 0.0 else np.inf)

    yield govern(Criterion(name, "reveal", MOVES, "length"), loads.combinations[:1], calculate)


def _lines(bracket: Bracket, cover: Cover, context: Context) -> Iterator[Check]:
    """That it is fixed along one line, as it is said to be: tight rows may move apart by what their holes give."""
    rows = bracket.fixings.rows if bracket.fixings is not None else ()
    tight = [row.below_top for row in rows if row.slot is None]
    grain = getattr(bracket.shape, "grain", None)
    if cover.fixed_at_one_line is not True or cover.change is None or grain is None or len(tight) < 2:
        return
    apart = max(tight) - min(tight)
    moves = float(
        cross_grain_movement(_swing(bracket, context)[0], cover.change, apart * np.cos(np.radians(grain)) ** 2)
    )
    if moves > HOLES_GIVE:
        text = (
            f"said to be fixed along one line, but its tight rows are {show(apart, 'length')} apart, and the wood "
            f"between them moves by {show(moves, 'small length')}: slot one of them, or it splits"
        )
        yield stated(bracket.name, "free to shrink and swell: tight rows", MOVES, "refer", text)
