"""The upper end of a rafter, at a ridge board or on a ridge beam, and the foot of the opposite rafter."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...analysis.roofs.roof_frame import RoofRun
from ...calc.pad import Pad, SilentPad
from ...formulas.wood import bearing as br
from ...model.existing import Existing
from ...model.roofs import Rafter
from ...units import show
from ..core.asking.question import PlausibleAnswer, ask
from ..core.context import Context
from ..core.result import Check
from ..core.seat import answered
from ..core.trivial import trivial
from ..core.wood.govern import Criterion, at, govern
from ..core.wood.material import bearing_prime
from ..core.wood.stated_capacity import enough, uplift_taken
from ..core.wood.sticks import FROM_FRAME, LITTLE
from ..core.wood.strength import Outcome
from .framed_stick import FramedStick
from .upper_seat import upper_seat_checks, usual_seat

PATH = "load path"


def upper_end_checks(run: RoofRun, stick: FramedStick, context: Context) -> Iterator[Check]:
    """The joint at a ridge board, or what holds the upper end at a ridge beam."""
    if run.rafter.ridge_on is None:
        yield from _at_the_board(run, stick, context)
    else:
        yield from _at_the_beam(run, stick, context)


def _at_the_board(run: RoofRun, stick: FramedStick, context: Context) -> Iterator[Check]:
    """Two rafters press on each other through the board, and are nailed to it for what pulls and slides."""
    rafter, name = run.rafter, run.rafter.name
    level, plumb = run.ridge_pull, run.ridge_down
    pressed, pulled, slid = float(np.max(-level)), float(np.max(level)), float(np.max(np.abs(plumb)))
    if pressed > LITTLE and not stick.section.round:
        yield _pressed(run, stick, np.maximum(-level, 0.0))
    most = max(pulled, slid)
    if most <= LITTLE:
        return
    what, id = "joint at the ridge", "roof.ridge_joint"
    text = (
        f"the rafters pull apart with up to {show(max(pulled, 0.0), 'force')} and slide on each other, up and down, "
        f"with up to {show(slid, 'force')}"
    )
    if (anchor := context.anchor(rafter.ridge_held_by)) is not None:
        yield Check.keeps_rule(
            id, name, what, PATH, f"{text}: checked in anchor {anchor.name}, a piece of its own here"
        )
    elif trivial(most, _holds(stick)):
        yield Check.keeps_rule(id, name, what, PATH, f"{text}: next to nothing; any nails hold that")
    else:
        asked = ask("ridge", name, f"rafter.{name}.ridge_held_by", force=show(most, "force"),
                    forces={"pulls": max(pulled, 0.0), "slides": slid, "presses": max(pressed, 0.0)})  # fmt: skip
        yield Check.refers(id, name, what, PATH, f"{text}; what joins them is not stated", ask=asked)


def _holds(stick: FramedStick) -> float:
    """What the rafter's end bears across the grain, lbf: beside it a force may be next to nothing."""
    pad = SilentPad()
    return float(bearing_prime(pad, stick.wood, 1.0)) * float(stick.section.area(pad))


def _pressed(run: RoofRun, stick: FramedStick, pressed: np.ndarray) -> Check:
    """Plumb cut against the board, as if the wood were pressed across its grain, which is the least that it bears."""
    section = stick.section
    note = "the board is taken to be no softer than the rafter, and the plumb cut to bear all over"

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(pressed, which), "lbf", note=f"level, {FROM_FRAME}")
        l_b = pad.take("l_b", float(section.d), "in", note="no more than square across: the plumb cut is longer")
        f = pad(br.bearing_stress, R=R, b=section.b, l_b=l_b)
        F = bearing_prime(pad, stick.wood, 1.0)
        return Outcome(f, F, f / F)

    criterion = Criterion(run.rafter.name, "bearing at the ridge", "NDS 2018 3.10.2", "stress", notes=(note,),
                          id="roof.ridge_bearing")  # fmt: skip
    return govern(criterion, run.combinations, calculate)


def _at_the_beam(run: RoofRun, stick: FramedStick, context: Context) -> Iterator[Check]:
    rafter, name = run.rafter, run.rafter.name
    assert rafter.ridge_on is not None
    up = run.far_reactions
    high, low = float(np.max(up)), float(np.min(up))
    text = f"each rafter presses down with up to {show(max(high, 0.0), 'force')}"
    text += f" and lifts with up to {show(-low, 'force')}" if low < -LITTLE else ""
    what, id = f"upper end on {rafter.ridge_on}", "roof.upper_end"
    seated = rafter.upper is not None and rafter.upper.bearing is not None
    if seated:
        yield from upper_seat_checks(run, stick, context)
    if (anchor := context.anchor(rafter.upper_held_by)) is not None:
        text = f"{text}: checked in anchor {anchor.name}, a piece of its own here"
        yield Check.keeps_rule(id, name, what, PATH, text)
    elif seated and trivial(max(-low, 0.0), _holds(stick)):
        text = f"{text} on its level seat, which pushes nothing sideways: any nails keep it there"
        yield Check.keeps_rule(id, name, what, PATH, text)
    else:
        key, path = "upper_strap" if seated else "upper_end", f"rafter.{name}.upper_held_by"
        answers = () if seated else usual_seat(run, stick, context)
        asked = ask(key, name, path, ridge=rafter.ridge_on, answers=answers,
                    force=show(-low if seated else max(high, -low), "force"),
                    forces={"presses down": max(high, 0.0), "lifts": max(-low, 0.0)})  # fmt: skip
        yield Check.refers(id, name, what, PATH, f"{text}; what holds it there is not stated", ask=asked)
    under = context.under(rafter.ridge_on)
    if isinstance(under, Existing):
        yield answered(name, f"what carries the upper end on {under.name}", under)
        if low < -LITTLE and not trivial(-low, _holds(stick)):
            pulls = np.maximum(-up, 0.0)
            yield from uplift_taken(name, f"what {under.name} takes upward", under, run.combinations, pulls)


def other_side_checks(run: RoofRun, stick: FramedStick, context: Context) -> Iterator[Check]:
    """Where the opposite rafter of a pair stands: the same forces come down there."""
    rafter = run.rafter
    if rafter.ridge != "board":
        yield from _nobody_across(rafter, context)
        return
    what, id = "the opposite rafter", "roof.other_wall"
    if rafter.other_wall is None:
        text = (
            "taken as the mirror image of this one. What its foot rests on is not named: the same forces come down "
            "there, and no piece of this job is checked for them"
        )
        asked = ask("other_wall", rafter.name, f"rafter.{rafter.name}.other_wall", answers=(rafter.wall.on,))
        yield Check.refers(id, rafter.name, what, PATH, text, ask=asked)
        return
    under = context.under(rafter.other_wall)
    text = f"the mirror image of this one, seated alike on {under.name}: the same forces come down there"
    yield Check.keeps_rule(id, rafter.name, what, PATH, text)
    if isinstance(under, Existing) and rafter.other_wall != rafter.wall.on:
        yield answered(rafter.name, f"what carries the opposite foot on {under.name}", under)
        yield from enough(rafter.name, f"what {under.name} takes", under, run.combinations, run.far_reactions)


def _nobody_across(rafter: Rafter, context: Context) -> Iterator[Check]:
    """A roof of two slopes brings both to its ridge beam: with `pair = false` another piece brings the other."""
    if rafter.pair or rafter.insists_on("pair"):
        return
    pieces, known = context.structure.pieces.values(), context.structure.site.areas.roofs
    on = [known[load.roof][0] for load in rafter.carries if load.roof is not None and load.roof in known]
    two = [roof for roof in on if roof.shape != "monoslope"]
    others = [one for one in pieces if isinstance(one, Rafter) and one.name != rafter.name]
    if not two or any(one.ridge_on == rafter.ridge_on for one in others):
        return
    path, ridge = f"rafter.{rafter.name}", str(rafter.ridge_on)
    text = f"{two[0].name} has two slopes, and nothing of this job brings the other one to {ridge}"
    why = "the other slope is carried elsewhere"
    answers = [PlausibleAnswer("another rafter leans on it", ((f"{path}.pair", True),)),
               PlausibleAnswer(why, ((f"{path}.meant.pair", why),))]  # fmt: skip
    asked = ask("other_slope", rafter.name, f"{path}.pair", answers=answers, ridge=ridge, roof=two[0].name)
    yield Check.refers("roof.other_slope", rafter.name, f"other slope of {two[0].name}", PATH, text, ask=asked)
