"""What a bracket that props a beam does to that beam: ends that lift, hogging over it, more bending or shear elsewhere.

The beam itself has to pass without the bracket, which may break, shrink away or be taken down; so nothing here is ever
counted in its favour.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from ....analysis.beams.solved_beam import SolvedBeam
from ....analysis.props.props import OnProps
from ....calc.pad import Pad
from ....units import show
from ...beams.beam import BeamRun
from ...beams.bearing import NEGLIGIBLE, Seat
from ...beams.bending import bending_checks
from ...beams.shear import shear_checks
from ...core.context import Context
from ...core.govern import Criterion, at, duration, govern
from ...core.result import Check, Verdict
from ...core.strength import Outcome, shear

SMALL = 1.0  # lb-in: a moment below this pulls on no edge
MORE = 1e-6  # part by which something has to grow to be worth a line
UPLIFT = "ASCE 7-16 2.4.1"


def effects(
    run: BeamRun, states: Sequence[tuple[OnProps, str]], mine: str, place: float, context: Context, *, sure: bool
) -> list[Check]:
    """Checks of a beam with props acting; of several states the worst of each kind, and only what is worse than before.

    Parameters
    ----------
    states : sequence of (OnProps, str)
        The beam with some props, and the names of those that act.
    mine, place : str, float
        The bracket whose result this is, and where it meets the beam. [in]
    sure : bool
        Whether they are known to act; if not, nothing fails, it refers.
    """
    found: dict[str, Check] = {}
    alone = _strength(run, run.solved, mine, simple=run.simple)
    for beam, names in states:
        checks = [check for seat in run.seats for check in _reactions(run, beam, seat, names, mine, context)]
        checks += _hogging(run, beam, mine, place)
        for what, check in _strength(run, beam, mine, simple=False).items():
            if what not in alone or _grows(check, alone[what]):
                checks.append(replace(check, what=f"{what} of {run.beam.name}, propped", notes=(_with(names),)))
        for check in checks:
            before = found.get(check.what)
            if before is None or _weight(check) > _weight(before):
                found[check.what] = check
    return [check if sure or check.verdict != "fails" else replace(check, verdict="refer") for check in found.values()]


def _with(names: str) -> str:
    return f"with {names} acting as a prop"


def _weight(check: Check) -> float:
    value = check.ratio if check.ratio is not None else check.demand
    return float("inf") if value is None or np.isnan(value) else value


def _grows(check: Check, without: Check) -> bool:
    now, before = check.ratio, without.ratio
    return now is None or before is None or not now <= before * (1.0 + MORE)


def _strength(run: BeamRun, beam: SolvedBeam, mine: str, *, simple: bool) -> dict[str, Check]:
    """Bending and shear by name."""
    bent = bending_checks(run.beam, beam, run.spans, run.regions, run.wood, run.size, run.section, simple=simple)
    at_cuts = shear_checks(run.beam, beam, run.seats, run.regions, run.wood, run.section)
    every = [*bent, *(check for check in at_cuts if check.what != "shear"), _shear(run, beam, mine)]
    return {check.what: replace(check, subject=mine) for check in every}


def _shear(run: BeamRun, beam: SolvedBeam, mine: str) -> Check:
    """In full: near a seat nothing is left out, since a prop pushes from the side on which the seat is."""
    low, _, high, _ = beam.shears(0.0, beam.length)
    V_all = np.maximum(np.abs(low), np.abs(high))

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_all, which), "lbf", note="largest anywhere, from the analysis; nothing is left out")
        return shear(pad, run.wood, run.section, V=V, C_D=duration(pad, beam.combinations, which))

    return govern(Criterion(mine, "shear", "NDS 2018 3.4.2", "stress"), beam.combinations, calculate)


def _reactions(
    run: BeamRun, beam: OnProps, seat: Seat, names: str, mine: str, context: Context
) -> Iterator[Check]:  # fmt: skip
    """An end that lifts, and a seat that gets more, where the props make it so."""
    propped, alone, name = beam.reactions(seat.index), run.solved.reactions(seat.index), run.beam.name
    worst, least = int(np.argmin(propped)), float(np.min(propped))
    if least < min(0.0, float(np.min(alone))) - NEGLIGIBLE:
        held, verdict = _held_down(seat, context)
        text = f"{_with(names)} the beam lifts there with {show(-least, 'force')}; {held}"
        yield Check(
            mine, f"uplift of {name} at {seat.name}", UPLIFT, verdict, "force", -least,
            combination=beam.combinations[worst].name, where=seat.where, notes=(text,),
        )  # fmt: skip
    worst, most, before = int(np.argmax(propped)), float(np.max(propped)), float(np.max(alone))
    if most > before + abs(before) * MORE + NEGLIGIBLE:
        text = (
            f"{_with(names)} the beam presses there with {show(most, 'force')} instead of {show(before, 'force')}; its "
            "seat and what is below are not checked for that"
        )
        yield Check(
            mine, f"reaction of {name} at {seat.name}", "statics", "refer", "force", most,
            combination=beam.combinations[worst].name, where=seat.where, notes=(text,),
        )  # fmt: skip


def _held_down(seat: Seat, context: Context) -> tuple[str, Verdict]:
    if (anchor := context.anchor(seat.support.held_by)) is not None:
        return f"anchor {anchor.name} is checked without that", "refer"
    if tied := seat.support.tied_down.strip():
        return f"said to be held down by {tied!r}, which is not checked here", "refer"
    if seat.support.holds == "fixed":
        return "what holds that end is not checked here", "refer"
    return "nothing is said to hold it down", "fails"


def _hogging(run: BeamRun, beam: OnProps, mine: str, place: float) -> Iterator[Check]:
    """The moment over the bracket, where it pulls on the top of the beam more than without the props."""
    propped, *_ = beam.moments(place, place)
    alone, *_ = run.solved.moments(place, place)
    worst = int(np.argmin(propped))
    low = float(propped[worst])
    if low < min(0.0, float(np.min(alone))) - SMALL:
        text = (
            f"the beam hogs over {mine} with {show(-low, 'moment')}: its top is in tension there, so notches in it, "
            "its grading there and what keeps its lower edge from moving sideways have to be looked at"
        )
        yield Check(
            mine, f"hogging of {run.beam.name} over {mine}", "statics", "refer", "moment", -low,
            combination=beam.combinations[worst].name, where=show(place, "length"), notes=(text,),
        )  # fmt: skip
