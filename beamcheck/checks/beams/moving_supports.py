"""Beams that stand on beams: how far the beam below comes down where they land, by its own stiffness, creep included.

Only where the forces of the beam above depend on it: with two supports that let it turn they do not. It comes down
under what the beam above puts there itself, a spring, and under all else that it carries. What it stands on in turn
comes down with it. Posts, walls and brackets count as standing still.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np

from ...analysis.beams.load_cases import Applied, Stretch
from ...analysis.beams.solved_beam import is_determinate
from ...model.beams import Beam
from ...model.sticks import Support
from ...records import dataclass
from ...values.loads import asd_combinations
from ..core.context import Structure
from .beam_run import BeamRun, beam_length, support_of

Sinks = dict[int, tuple[float, float]]


@dataclass(frozen=True)
class _Landing:
    """Where a beam, or a row of it, presses on another: one place, or a stretch under a row with its spacing; in."""

    x: float
    row: Stretch | None = None
    spacing: float = 1.0

    def unit(self) -> Applied:
        """One pound there, or one pound from each piece of the row."""
        if self.row is None:
            return Applied("D", self.x, self.x, P=1.0)
        w = 1.0 / self.spacing
        return Applied("D", *self.row, w_start=w, w_end=w)


def sinks_of(beams: Iterable[Beam], structure: Structure) -> dict[str, Sinks]:
    """For each beam whose forces depend on it, by support: how far what carries it gives, and sags; nothing else.

    The structure holds all beams solved on supports that stand still.
    """
    found = {
        beam.name: _of_beam(beam, structure)
        for beam in beams if not is_determinate([support_of(support) for support in beam.supports])
    }  # fmt: skip
    return {name: sinks for name, sinks in found.items() if sinks}


def _of_beam(beam: Beam, structure: Structure) -> Sinks:
    found: Sinks = {}
    for index, support in enumerate(beam.supports):
        run = _run_under(support, structure)
        if run is not None and support.holds != "fixed":
            landing = _landing(beam, support, run)
            found[index] = _gives(run, landing, structure), _sags(run, landing, beam.name, structure)
    return found


def _run_under(support: Support, structure: Structure) -> BeamRun | None:
    """The solved beam under a support; None where something else is there, or it could not be solved."""
    under = structure.pieces.get(support.on)
    return structure.runs.get(support.on) if isinstance(under, Beam) else None


def _landing(beam: Beam, support: Support, below: BeamRun) -> _Landing:
    length = beam_length(below.beam)
    x = 0.5 * length if support.lands_at is None else min(support.lands_at, length)
    if beam.spacing is None:
        return _Landing(x)
    row = (0.0, length)
    if support.row is not None:
        half = 0.5 * beam.spacing
        row = (max(support.row[0] - half, 0.0), min(support.row[1] + half, length))
    ends = [held.x for held in below.solved.supports]
    worst = 0.5 * (min(ends) + max(ends))  # the piece of the row over the middle comes down most
    return _Landing(worst if row[0] <= worst <= row[1] else x, row, beam.spacing)


def _responses(run: BeamRun, loads: list[list[Applied]], x: float) -> tuple[np.ndarray, np.ndarray]:
    """(loads,) how far the beam comes down at a place, in, and (loads, supports) what its supports take, lbf."""
    assert run.solved.again is not None
    result = run.solved.again(loads)[0]
    return -result.line.at("v", x), np.asarray(result.reactions[..., 1])


def _shares(run: BeamRun, x: float) -> np.ndarray:
    """(supports,) how far a place moves when one support moves by one: what that takes of a pound there."""
    return np.asarray(_responses(run, [[Applied("D", x, x, P=1.0)]], x)[1][0])


def _gives(run: BeamRun, landing: _Landing, structure: Structure) -> float:
    """In/lbf, with the creep factor of its wood."""
    down, reactions = _responses(run, [[landing.unit()]], landing.x)
    total = float(run.wood.K_cr.value) * float(down[0])
    for j, share in enumerate(_shares(run, landing.x)):
        if (below := _run_under(run.beam.supports[j], structure)) is not None:
            at = _landing(run.beam, run.beam.supports[j], below)
            total += float(share) * float(reactions[0, j]) * _gives(below, at, structure)
    return max(total, 0.0)


def _sags(run: BeamRun, landing: _Landing, without: str, structure: Structure) -> float:
    """In, under the worst combination of all that it carries but for one piece."""
    by_kind = _down_by_kind(run, landing, without, structure)
    found = 0.0
    for one in asd_combinations():
        found = max(found, sum(factor * max(by_kind.get(kind, 0.0), 0.0) for kind, factor in one.factors.items()))
    return found


def _down_by_kind(run: BeamRun, landing: _Landing, without: str, structure: Structure) -> Mapping[str, float]:
    """How far it comes down at a place under each kind of load; dead load with creep, wind where it presses."""
    loads = [load for load in run.solved.loads if load.what != f"from {without}" and load.total > 0.0]
    kinds = list(dict.fromkeys(load.kind for load in loads))
    if not kinds:
        return {}
    down, reactions = _responses(run, [[load for load in loads if load.kind == kind] for kind in kinds], landing.x)
    creep = {"D": float(run.wood.K_cr.value)}
    found = {kind: creep.get(kind, 1.0) * float(v) for kind, v in zip(kinds, down, strict=True)}
    for j, share in enumerate(_shares(run, landing.x)):
        support = run.beam.supports[j]
        if (below := _run_under(support, structure)) is None:
            continue
        at = _landing(run.beam, support, below)
        softness = _gives(below, at, structure)
        for i, kind in enumerate(kinds):
            found[kind] += float(share) * softness * float(reactions[i, j])
        for kind, v in _down_by_kind(below, at, run.beam.name, structure).items():
            found[kind] = found.get(kind, 0.0) + float(share) * v
    return found
