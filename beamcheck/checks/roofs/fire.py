"""Rafters and ties in a fire: their checks made of what is left of them, under the forces of the whole frame."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...analysis.frames.member_line import Line
from ...analysis.roofs.roof_frame import RoofRun
from ...errors import OutOfRange
from ..core.asking.question import ask
from ..core.context import Context
from ..core.result import Check
from ..core.unsaid import with_unsaid
from ..core.wood.burnt import (
    CLAUSE,
    bracing_asked,
    burning_wood,
    burnt,
    cover_checks,
    in_the_fire,
    lasts,
    left_as_size,
    nothing_is_left,
    steel_check,
    without_duration,
    without_wind,
)
from .framed_stick import FramedStick
from .member import Forces, forces_checks


def fire_checks(stick: FramedStick, run: RoofRun, line: Line, context: Context, *, free: float) -> Iterator[Check]:
    """Nothing for a stick of which no fire is asked."""
    piece, fire = stick.piece, stick.piece.fire
    if fire is None:
        return
    kind = type(piece).__name__.casefold()
    yield from cover_checks(piece.name, kind, fire)
    try:
        left = burnt(fire, stick.section)
    except OutOfRange as error:
        yield nothing_is_left(piece.name, fire, error)
        return
    if piece.plies > 1 or piece.cuts:
        why = "plies and cuts in a fire are not worked out here"
        asked = ask("fire_engineer", piece.name, why="Plies and cuts let the fire in.", minutes=f"{fire.minutes:g}")
        yield Check.refers("fire.engineer", piece.name, "what the fire leaves", CLAUSE, why, ask=asked)
    bare = piece if lasts(fire.bracing_lasts, fire.minutes) else piece.model_copy(
        update={"top_held": "ends only", "bottom_held": "ends only"}
    )  # fmt: skip
    burns = replace(stick, piece=bare, size=left_as_size(stick.size, left.section), section=left.section,
                    wood=burning_wood(stick.wood))  # fmt: skip
    counts = without_wind(run.combinations)
    forces = Forces(*(values * counts for values in vars(Forces.of(line)).values()))
    still = replace(run, combinations=tuple(without_duration(run.combinations)))
    asked_bracing = bracing_asked(piece.name, kind, fire)
    checks = with_unsaid(forces_checks(burns, still, forces, length=float(line.length), free=free), asked_bracing)
    yield from in_the_fire(checks, "fire.roof", fire.minutes, left.steps)
    held = getattr(piece, "ends_held_by", None) or getattr(getattr(piece, "wall", None), "held_by", None)
    if (anchor := context.anchor(held)) is not None:
        yield steel_check(piece.name, anchor.name, anchor.fire_cover, anchor.fire_covered_by, fire, left.a_eff)
