"""A tie beside its strength: its ends, what they sit on, and whether there is one at each pair."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...analysis.roofs.roof_frame import RoofRun
from ...calc.pad import Pad
from ...formulas.wood import bearing as br
from ...model.existing import Existing
from ...model.roofs import Tie
from ...units import show
from ...values.judgment import judgment
from ..beams.bracing import needs_end_restraint
from ..core.asking.question import ask
from ..core.context import Context
from ..core.result import Check
from ..core.seat import answered, wood_under
from ..core.wood.govern import Criterion, at, govern
from ..core.wood.material import bearing_prime
from ..core.wood.stated_capacity import enough
from ..core.wood.sticks import FROM_FRAME, LITTLE
from ..core.wood.strength import Outcome
from .framed_stick import FramedStick

THRUST, ENDS = "IRC R802.5.2", "NDS 2018 4.4.1.2"


def tie_rules(run: RoofRun, tie: Tie, stick: FramedStick, context: Context) -> Iterator[Check]:
    """Everything about a tie that its strength does not tell."""
    yield from _joints(run, tie, context)
    if needs_end_restraint(stick.size, stick.section):
        yield _upright(tie)
    yield from _at_each_pair(run, tie)
    if tie.ends_rest_on is not None:
        yield from _on_the_plate(run, tie, stick, context)


def _joints(run: RoofRun, tie: Tie, context: Context) -> Iterator[Check]:
    N_low, _, N_high, _ = run.tie_line.extremes("N")
    pulls = int(np.argmax(N_high))
    pull = max(float(N_high[pulls]), 0.0)
    force = f"{show(pull, 'force')} under {run.combinations[pulls].name}"
    id, what, clause = "tie.ends", "joints at its ends", "NDS 2018 chapter 12"
    if (anchor := context.anchor(tie.ends_held_by)) is not None:
        text = f"{force} must pass through each end: by anchor {anchor.name}, a piece of its own here"
        yield Check.keeps_rule(id, tie.name, what, clause, text)
        return
    text = f"{force} must pass through each end ({tie.end_connection}); the joint is not described"
    pressed = -float(np.min(N_low))
    if pressed > LITTLE:
        text += f", nor for the {show(pressed, 'force')} that press it"
    asked = ask("tie_ends", tie.name, f"tie.{tie.name}.ends_held_by", force=show(pull, "force"),
                forces={"pulls": pull, "presses": max(pressed, 0.0)})  # fmt: skip
    yield Check.refers(id, tie.name, what, clause, text, ask=asked)


def _upright(tie: Tie) -> Check:
    id, what = "tie.ends_upright", "ends held upright"
    if tie.ends_upright:
        return Check.keeps_rule(id, tie.name, what, ENDS, "d/b is over 2, and the ends are said to be held upright")
    asked = ask("ends_upright", tie.name, f"tie.{tie.name}.ends_upright")
    if tie.ends_upright is None:
        return Check.refers(id, tie.name, what, ENDS, "d/b is over 2: whether the ends are held upright is not said",
                            ask=asked)  # fmt: skip
    return Check.breaks_rule(id, tie.name, what, ENDS, "d/b is over 2, and the ends are not held upright")


def _at_each_pair(run: RoofRun, tie: Tie) -> Iterator[Check]:
    if tie.spacing is not None and tie.spacing > run.rafter.spacing * (1.0 + 1e-6):
        text = (
            f"ties are {show(tie.spacing, 'length')} apart and the pairs {show(run.rafter.spacing, 'length')}: the "
            "frame has a tie at each pair. A pair without one is not held, and a tie that serves several pulls harder"
        )
        asked = ask("tie_spacing", tie.name, f"tie.{tie.name}.spacing", answers=(show(run.rafter.spacing, "length"),))
        yield Check.refers("tie.spacing", tie.name, "a tie at each pair", THRUST, text, ask=asked)


def _on_the_plate(run: RoofRun, tie: Tie, stick: FramedStick, context: Context) -> Iterator[Check]:
    """A ceiling joist sits on the plate: that bears what hangs on it, and its nails take the thrust alone."""
    assert tie.ends_rest_on is not None
    under = context.under(tie.ends_rest_on)
    line = run.tie_line
    up = np.maximum(np.asarray(line.at("V", 0.0, "right")), -np.asarray(line.at("V", float(line.length), "left")))
    pressed = np.maximum(up, 0.0)
    l_b, b = judgment("seat of a ceiling joist").value, float(stick.section.b)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(pressed, which), "lbf", note=FROM_FRAME)
        length = pad.take("l_b", l_b, "in", note="the least seat of the code (IRC R502.6)")
        f = pad(br.bearing_stress, R=R, b=b, l_b=length)
        F = bearing_prime(pad, stick.wood, 1.0)
        return Outcome(f, F, f / F)

    criterion = Criterion(tie.name, f"bearing on {under.name}", "NDS 2018 3.10.2", "stress", id="tie.bearing")
    yield govern(criterion, run.combinations, calculate)
    yield from wood_under(tie.name, run.combinations, pressed, b, l_b, under, context)
    if isinstance(under, Existing):
        yield answered(tie.name, f"what its ends rest on: {under.name}", under)
        if under.name not in (run.rafter.wall.on, run.rafter.other_wall):  # else it is part of what the rafter brings
            yield from enough(tie.name, f"what {under.name} takes", under, run.combinations, pressed)
