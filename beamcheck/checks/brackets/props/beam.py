"""What a bracket that props a beam does to that beam: ends that lift, hogging over it, more bending or shear elsewhere.

The beam itself has to pass without the bracket, which may break, shrink away or be taken down; so nothing here is ever
counted in its favor.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from ....analysis.beams.solved_beam import SolvedBeam
from ....analysis.props.props import OnProps
from ....calc.pad import Pad
from ....units import show
from ....values.judgment import judgment
from ...beams.beam import BeamRun
from ...beams.bending import bending_checks
from ...beams.seats import Seat
from ...beams.shear import shear_checks
from ...core.asking.question import Question, ask
from ...core.context import Context
from ...core.result import Check
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.record import named
from ...core.wood.strength import Outcome, shear
from .gap import PropAsk

MORE = 1e-6  # part by which something has to grow to be worth a line
UPLIFT = "ASCE 7-16 2.4.1"


def effects(
    run: BeamRun, states: Sequence[tuple[OnProps, str]], own: PropAsk, context: Context, *,
    waits_for: Sequence[Question],
) -> list[Check]:  # fmt: skip
    """Checks of a beam with props acting; of several states the worst of each kind, and only what is worse than before.

    `states`: sequence of (OnProps, str): the beam with some props, and the names of those that act. `own`: the bracket
    whose result this is. `waits_for`: sequence of Question: what has to be known before it can be said that they act;
    then nothing fails.
    """
    found: dict[str, Check] = {}
    run = replace(run, wood=named(run.wood, run.beam.name))
    mine, place = own.name, own.near.at
    open = tuple(waits_for) or (ask("propped_beam", mine, beam=run.beam.name),)
    alone = _strength(run, run.solved, mine, simple=run.simple)
    for beam, names in states:
        checks = [check for seat in run.seats for check in _reactions(run, beam, seat, names, mine, context, open)]
        checks += _hogging(run, beam, mine, place, open)
        for what, check in _strength(run, beam, mine, simple=False).items():
            if what not in alone or _grows(check, alone[what]):
                checks.append(replace(check, what=f"{what} of {run.beam.name}, propped", notes=(_with(names),)))
        for check in checks:
            before = found.get(check.what)
            if before is None or _weight(check) > _weight(before):
                found[check.what] = check
    return [_until(check, waits_for) for check in found.values()]


def _until(check: Check, waits_for: Sequence[Question]) -> Check:
    """A check that does not fail before it is known that the props act."""
    if not waits_for or check.holds or check.questions:
        return check
    said = f"{show(check.ratio, 'ratio')} of what is allowed" if check.ratio is not None else "not allowed"
    notes = (f"{said}, if there is no gap", *check.notes)
    return Check.refers(check.id, check.subject, check.what, check.clause, *notes, ask=waits_for, where=check.where)


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
    spans = [replace(span, pressed_below=None) for span in run.spans]  # that was worked out without the props
    bent = bending_checks(run.beam, beam, spans, run.regions, run.wood, run.size, run.section, simple=simple)
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

    return govern(
        Criterion(mine, "shear", "NDS 2018 3.4.2", "stress", id="bracket.beam_shear"), beam.combinations, calculate
    )


def _reactions(
    run: BeamRun, beam: OnProps, seat: Seat, names: str, mine: str, context: Context, open: Sequence[Question]
) -> Iterator[Check]:  # fmt: skip
    """An end that lifts, and a seat that gets more, where the props make it so."""
    propped, alone, name = beam.reactions(seat.index), run.solved.reactions(seat.index), run.beam.name
    rounding = judgment("force that is rounding").value
    worst, least = int(np.argmin(propped)), float(np.min(propped))
    if least < min(0.0, float(np.min(alone))) - rounding:
        held = _held_down(seat, context)
        id, what = "bracket.beam_lifted", f"uplift of {name} at {seat.name}"
        text = f"{_with(names)} the beam lifts there with {show(-least, 'force')}; "
        found = (
            Check.refers(id, mine, what, UPLIFT, text + held, ask=open, where=seat.where) if held
            else Check.breaks_rule(id, mine, what, UPLIFT, f"{text}nothing is said to hold it down", where=seat.where)
        )  # fmt: skip
        yield replace(found, kind="force", demand=-least, combination=beam.combinations[worst].name)
    worst, most, before = int(np.argmax(propped)), float(np.max(propped)), float(np.max(alone))
    if most > before + rounding:
        text = (
            f"{_with(names)} the beam presses there with {show(most, 'force')} instead of {show(before, 'force')}; its "
            "seat and what is below are not checked for that"
        )
        id, what = "bracket.beam_pressed", f"reaction of {name} at {seat.name}"
        found = Check.refers(id, mine, what, "statics", text, ask=open, where=seat.where)
        yield replace(found, kind="force", demand=most, combination=beam.combinations[worst].name)


def _held_down(seat: Seat, context: Context) -> str:
    """What is said to hold it down, which is not checked for this; '' for nothing."""
    if (anchor := context.anchor(seat.support.held_by)) is not None:
        return f"anchor {anchor.name} is checked without that"
    if tied := seat.support.tied_down.strip():
        return f"said to be held down by {tied!r}, which is not checked here"
    return "what holds that end is not checked here" if seat.support.holds == "fixed" else ""


def _hogging(run: BeamRun, beam: OnProps, mine: str, place: float, open: Sequence[Question]) -> Iterator[Check]:
    """The moment over the bracket, where it pulls on the top of the beam more than without the props."""
    propped, *_ = beam.moments(place, place)
    alone, *_ = run.solved.moments(place, place)
    worst = int(np.argmin(propped))
    low = float(propped[worst])
    if low < min(0.0, float(np.min(alone))) - judgment("moment that is rounding").value:
        text = (
            f"the beam hogs over {mine} with {show(-low, 'moment')}: its top is in tension there, so notches in it, "
            "its grading there and what keeps its lower edge from moving sideways have to be looked at"
        )
        id, what = "bracket.beam_hogs", f"hogging of {run.beam.name} over {mine}"
        found = Check.refers(id, mine, what, "statics", text, ask=open, where=show(place, "length"))
        yield replace(found, kind="moment", demand=-low, combination=beam.combinations[worst].name)
