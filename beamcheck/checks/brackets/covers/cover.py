"""A cover: room for what it hides, seasonal movement, how it is held, and in which order it may be closed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from ....calc.core import Number
from ....calc.pad import Pad
from ....formulas.wood.shrinkage import clearance_needed, cross_grain_movement
from ....model.brackets.bracket import Bracket, Cover, Pocket
from ....units import show
from ....values.brackets import movement_coefficient
from ....values.found import Found
from ....values.judgment import judgment
from ...core.asking.question import PlausibleAnswer
from ...core.context import Context
from ...core.result import Check
from ...core.wood.govern import Criterion, govern
from ...core.wood.strength import Outcome
from ..asking import ask_engineer, ask_for, path_of
from ..family import Family
from ..loads import BracketLoads
from ..wood import known_species
from .hidden_hardware import hidden_checks, on_a_frame
from .place import place_checks

ROOM = "judgment: clearance of a cover"
MOVES = "Wood Handbook ch. 13"
HAIR = 1e-9
SIZES = ("heads_stand_out", "heads_width", "heads_height", "hidden_moves", "change")


def cover_checks(family: Family[Any], loads: BracketLoads, context: Context) -> list[Check]:
    """All that belongs to a cover, its fixings left out."""
    bracket, name, cover = family.bracket, family.bracket.name, family.bracket.cover
    if cover is None or not cover.hides:
        text = "which anchor groups it hides is not said (`cover.hides`)"
        answers = [
            PlausibleAnswer(one, ((path_of(bracket, "cover.hides"), [one]),))
            for one, anchor in context.structure.anchors.items() if anchor.into == bracket.on
        ]  # fmt: skip
        answers += [
            PlausibleAnswer(joint.name, ((path_of(bracket, "cover.hides"), [joint.name]),))
            for joint in context.structure.all_joints if bracket.on in (joint.frame, joint.post)
        ]  # fmt: skip
        asked = ask_for(bracket, "hides", "cover.hides", answers)
        return [Check.refers("cover.hides", name, "what it hides", "load path", text, ask=asked)]
    found = []
    for hidden in cover.hides:
        text = f"{hidden} must be inspected and photographed before this cover closes it"
        what = f"order of assembly: {hidden} first"
        found.append(Check.keeps_rule("cover.order", name, what, "judgment", text))
    found += hidden_checks(bracket, cover, context)
    found += on_a_frame(bracket, float(np.max(loads.F, initial=0.0)), context)
    found += place_checks(family, cover, context)
    found += _room(family, cover, loads, context)
    found += _movement(family, cover, loads, context)
    return found


def _coefficient(bracket: Bracket, context: Context) -> Found[float]:
    """Movement per point of moisture of the cover's wood: the largest of what it may be."""
    stock = context.stock(bracket.stock) if bracket.stock is not None else None
    return movement_coefficient(known_species(stock))[0]


def _swing(pad: Pad, bracket: Bracket, context: Context, change: float, across: float) -> Number:
    """How much its wood moves across the grain, in."""
    found = _coefficient(bracket, context)
    C_w = pad.take("C_w", found.value, note=found.reason, source=found.source)
    return pad(cross_grain_movement, C_w=C_w, dMC=change, h=across)


def _room(family: Family[Any], cover: Cover, loads: BracketLoads, context: Context) -> Iterator[Check]:
    """The pocket against the hardware: deep, wide and high enough when everything has moved."""
    bracket, name, pocket, what = family.bracket, family.bracket.name, family.pocket, "room for the hardware"
    if pocket is None:
        text = "no pocket is described (`shape.pocket`): whether the hardware finds room is not known"
        asked = ask_for(bracket, "pocket", "shape.pocket") if family.can_have_pocket else ask_engineer(
            bracket, "room_without_pocket", why="A bracket of this kind has no pocket in the job file."
        )  # fmt: skip
        yield Check.refers("cover.room", name, what, ROOM, text, ask=asked)
        return
    sizes = {field: size for field in SIZES if (size := getattr(cover, field)) is not None}
    missing = [field for field in SIZES if field not in sizes]
    if missing:
        text = f"not given: {', '.join(f'`cover.{field}`' for field in missing)}"
        asks = [ask_for(bracket, field, f"cover.{field}", anchor=", ".join(cover.hides)) for field in missing]
        yield Check.refers("cover.room", name, what, ROOM, text, ask=asks)
        return
    thickness = bracket.shape.side_to_side
    width = pocket.width if pocket.width is not None else thickness
    change, moves = sizes["change"], sizes["hidden_moves"]
    least = judgment("clearance around hidden heads")
    for words, size, room, sides in (
        ("depth", sizes["heads_stand_out"], pocket.depth, 1.0),
        ("width", sizes["heads_width"], width, 2.0),
        ("height", sizes["heads_height"], pocket.height, 2.0),
    ):

        def calculate(
            pad: Pad, which: int | slice, size: float = size, room: float = room, sides: float = sides
        ) -> Outcome:
            swing = _swing(pad, bracket, context, change, room)
            c_min = pad.take("c_min", least.value, "in", note=least.reason, source=least.source)
            clear = pad(clearance_needed, c_min=c_min, Delta_w=swing, Delta_hid=moves)
            needed = size + sides * clear
            if not isinstance(which, slice):
                pad.take("d_needed", float(needed), "in", note=f"hardware of {size:g} in, clear on {sides:g} side(s)")
            return Outcome(needed, room, needed / room)

        criterion = Criterion(name, f"{words} of the pocket", ROOM, "length", id="cover.pocket")
        yield govern(criterion, loads.combinations[:1], calculate)
    yield _front(family, pocket)
    yield _beside(family, pocket, 0.5 * (thickness - width))


def _beside(family: Family[Any], pocket: Pocket, beside: float) -> Check:
    """Wood beside the pocket."""
    bracket, id, what, wall = family.bracket, "cover.pocket_walls", "walls of the pocket", judgment("wall of a pocket")
    if pocket.width is None:
        text = "the pocket runs right through the thickness: it is open at both sides and its hardware shows"
        wide = bracket.shape.side_to_side - 2.0 * wall.value
        asked = ask_for(bracket, "pocket_width", "shape.pocket.width", [f"{wide:g} in"] if wide > 0.0 else [])
        return Check.refers(id, bracket.name, what, ROOM, text, ask=asked)
    text = f"{show(max(beside, 0.0), 'length')} of wood beside the pocket; at least {show(wall.value, 'length')}"
    if beside <= 0.0:
        return Check.breaks_rule(id, bracket.name, what, ROOM, text)
    return Check.of_ratio(
        id, bracket.name, what, ROOM, text, demand=wall.value, capacity=beside, kind="length"
    )  # fmt: skip


def _front(family: Family[Any], pocket: Pocket) -> Check:
    """Wood above the pocket and in front of it, where its lowest corner comes nearest to the soffit."""
    id, what, least = "cover.pocket_front", "wood around the pocket", judgment("wall of a pocket").value
    corner = pocket.depth + least
    inside = float(family.depths_below(np.array([corner]))[0]) >= pocket.top + pocket.height + least - HAIR
    if pocket.top >= least - HAIR and inside:
        text = f"at least {show(least, 'length')} of wood above the pocket and between it and the soffit"
        return Check.keeps_rule(id, family.bracket.name, what, ROOM, text)
    text = f"less than {show(least, 'length')} of wood is left above the pocket, or between it and the soffit"
    return Check.breaks_rule(id, family.bracket.name, what, ROOM, text)


def _movement(family: Family[Any], cover: Cover, loads: BracketLoads, context: Context) -> Iterator[Check]:
    """The gap to what it meets, and that it can shrink and swell."""
    bracket, name, grain = family.bracket, family.bracket.name, getattr(family.shape, "grain", None)
    if cover.fixed_at_one_line is not True:
        text = "it must be fixed along one line only, with slots elsewhere, or it splits (`cover.fixed_at_one_line`)"
        asked = ask_for(bracket, "fixed_at_one_line", "cover.fixed_at_one_line")
        what = "free to shrink and swell"
        yield Check.refers("cover.one_line", name, what, MOVES, text, ask=asked)
    yield from _lines(bracket, grain, cover, context)
    missing = [
        ask_for(bracket, key, field, anchor=", ".join(cover.hides))
        for key, field, given in (
            ("reveal", "cover.reveal", cover.reveal), ("change", "cover.change", cover.change),
            ("grain", "shape.grain", grain),
        ) if given is None
    ]  # fmt: skip
    id, what = "cover.reveal", "reveal"
    if missing or cover.reveal is None or grain is None:
        text = "reveal, change of moisture or grain are not given: whether the gap holds is not known"
        yield Check.refers(id, name, what, MOVES, text, ask=missing)
        return
    upright = float(np.sin(np.radians(grain)) ** 2)
    across = family.back * (1.0 - upright)  # of grain aslant the part that lies across; upright grain hardly moves
    reveal, change, moves = cover.reveal, cover.change or 0.0, cover.hidden_moves or 0.0
    if across < HAIR and moves <= 0.0:
        text = "the grain stands upright: its height hardly changes"
        yield Check.keeps_rule(id, name, what, MOVES, text)
        return
    if reveal <= 0.0:
        text = "there is no gap to what it meets, and the wood swells or the joint that it hides sinks"
        yield Check.breaks_rule(id, name, what, MOVES, text)
        return

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        swing = _swing(pad, bracket, context, change, across) if across >= HAIR else 0.0
        sinks = pad.take("Delta_hid", moves, "in", note="what the hidden joint sinks under its full load, as given")
        needed = swing + sinks
        return Outcome(needed, reveal, needed / reveal)

    yield govern(Criterion(name, what, MOVES, "small length", id=id), loads.combinations[:1], calculate)


def _lines(bracket: Bracket, grain: float | None, cover: Cover, context: Context) -> Iterator[Check]:
    """That it is fixed along one line, as it is said to be: tight rows may move apart by what their holes give."""
    rows = bracket.fixings.rows if bracket.fixings is not None else ()
    tight = [row.below_top for row in rows if row.slot is None]
    if cover.fixed_at_one_line is not True or cover.change is None or grain is None or len(tight) < 2:
        return
    apart = max(tight) - min(tight)
    across = apart * float(np.cos(np.radians(grain)) ** 2)
    moves = float(cross_grain_movement(_coefficient(bracket, context).value, cover.change, across))
    if moves > judgment("play of a hole").value:
        text = (
            f"said to be fixed along one line, but its tight rows are {show(apart, 'length')} apart, and the wood "
            f"between them moves by {show(moves, 'small length')}: slot one of them, or it splits"
        )
        lowest = max(range(len(rows)), key=lambda i: rows[i].below_top)
        asked = ask_for(bracket, "slot_a_row", f"fixings.rows.{lowest + 1}.slot")
        what = "free to shrink and swell: tight rows"
        yield Check.refers("cover.one_line", bracket.name, what, MOVES, text, ask=asked)
