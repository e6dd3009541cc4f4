"""What is put on rafters and their tie, and what their frame hands on, every load of a kind at once."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from ...analysis.beams.member_loads import KIND_OF_FIELD
from ...model.loads import Load, ends_of
from ...model.roofs import Rafter, Tie, slope_length

if TYPE_CHECKING:
    from ...analysis.roofs.roof_frame import RoofRun

MIDDLE = "load at 0.5 of the span"  # where a moving load of a roof is put here
ROUNDING = 1e-6  # of a load or a length: what a difference of two sums may be off
_FIELD_OF = {kind: field for field, kind in KIND_OF_FIELD.items()}


def tie_length(rafter: Rafter, tie: Tie) -> float:
    """Between the rafters of its pair, in."""
    return 2.0 * (rafter.run - tie.height / math.tan(math.radians(rafter.slope)))


def at_once(run: RoofRun, support: int) -> dict[str, float]:
    """Upward force with every load of a kind on at once, one that moves at the middle of the slope."""
    forces = {
        (case.kind, case.pattern): (float(force), case.spans)
        for case, force in zip(run.cases, run.solution.reactions[:, support, 1], strict=True)
    }
    found: dict[str, float] = {}
    for kind in dict.fromkeys(case.kind for case in run.cases):
        if kind == "W":
            found[kind] = sum(forces.get((kind, f"wind {way}"), (0.0, ""))[0] for way in ("down", "up"))
            continue
        found[kind] = forces[kind, ""][0]
        for pattern in ("", "not on the tails, "):
            if moved := forces.get((kind, f"{pattern}{MIDDLE}")):
                found[kind] += moved[0] - forces[kind, moved[1]][0]
    return found


def put_on_rafters(rafter: Rafter, sticks: float) -> Iterator[tuple[str, float]]:
    """Upright part of the loads of one rafter, or of both of a pair: (kind, lbf)."""
    whole, level = slope_length(rafter), math.cos(math.radians(rafter.slope))
    for load in rafter.carries:
        for kind, value, sort in _amounts(load):
            lean = level if kind == "W" else 1.0  # wind is square to the slope
            if sort == "point":
                at_ridge = (load.at or 0.0) > whole * (1.0 - ROUNDING)
                yield kind, value * lean * (1.0 if load.moves or at_ridge else sticks)
                continue
            start, end = load.start or 0.0, min(load.end if load.end is not None else whole, whole)
            on_plan = level if kind not in ("D", "W") or load.measured == "plan" else lean
            wide = (load.width or rafter.spacing) if sort == "area" else 1.0
            even = 0.5 * sum(ends_of(load, _FIELD_OF[kind]))
            yield kind, value * wide * max(end - start, 0.0) * on_plan * sticks * even


def put_on_tie(rafter: Rafter, tie: Tie, length: float) -> Iterator[tuple[str, float]]:
    for load in tie.carries:
        for kind, value, sort in _amounts(load):
            if sort == "point":
                yield kind, value
                continue
            start, end = load.start or 0.0, min(load.end if load.end is not None else length, length)
            yield kind, value * ((load.width or rafter.spacing) if sort == "area" else 1.0) * max(end - start, 0.0)


def _amounts(load: Load) -> Iterator[tuple[str, float, str]]:
    for field, kind in KIND_OF_FIELD.items():
        if (amount := getattr(load, field)) is not None:
            yield kind, amount[0], amount[1]
