"""What the feet of a frame stand on: the seat, who answers for it, uplift, and the thrust that comes to it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

import numpy as np

from ...analysis.trusses.record import SolvedFrame
from ...calc.pad import Pad
from ...formulas.wood import bearing as br
from ...model.existing import Existing
from ...model.fields.evidence import vouched
from ...model.frames.frame import Frame, FrameFoot
from ...model.frames.names import piece_name
from ...provenance import Source
from ...units import show
from ..core.asking.question import PlausibleAnswer, Question, ask
from ..core.context import Context
from ..core.result import Check
from ..core.seat import answered, least_seat, wood_under
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.material import bearing_prime, compression_star
from ..core.wood.stated_capacity import enough, uplift_taken
from ..core.wood.sticks import FROM_FRAME, LITTLE
from ..core.wood.strength import Outcome
from .birdsmouth import birdsmouth_checks, seat_of, stands_on_end
from .member import MadeOf

THRUST = "statics"
TO_THE_GROUND = ("post base", "by others")  # joints that also say how a foot sits on what is under it


def feet_checks(
    frame: Frame, solved: SolvedFrame, made: Mapping[str, MadeOf], context: Context
) -> Iterator[Check]:  # fmt: skip
    """Everything about what carries a frame."""
    for number, foot in enumerate(frame.feet, 1):
        reaction = solved.nodes[foot.at].reaction
        yield from _seat(frame, number, foot, solved, made, context)
        yield from _under(frame, foot, solved, reaction, context)
        yield from _lifted(frame, foot, reaction, solved, context)
        yield _thrust(frame, foot, solved, context)


def on_the_seat(frame: Frame, foot: FrameFoot, made: Mapping[str, MadeOf], context: Context) -> MadeOf:
    """The member whose wood lies on the seat: that into which a joint there says that it bears, or of those that meet
    there the one that is most level."""
    for joint in context.structure.joints_of(frame.name):
        said = str(joint.bears_on).removeprefix(piece_name(frame.name, ""))
        if joint.at == foot.at and said in made:
            return made[said]
    there = [path.name for path in frame.shape.sticks if foot.at in path.points]
    return min((made[name] for name in there), key=lambda one: one.member.slope)


def _seat(
    frame: Frame, number: int, foot: FrameFoot, solved: SolvedFrame, made: Mapping[str, MadeOf], context: Context
) -> Iterator[Check]:
    one = on_the_seat(frame, foot, made, context)
    id, what, clause = "frame.bearing", f"bearing of the {one.member.stick} on {foot.on}", "NDS 2018 3.10.3"
    if one.section.round:
        return  # referred as a whole
    if foot.bearing is None:
        text = f"how long the seat of the {foot.at} is, is not given"
        asked = ask("frame_seat", f"{frame.name}: {foot.at}", f"frame.{frame.name}.feet.{number}.bearing")
        yield Check.refers(id, frame.name, what, clause, text, ask=asked)
        return
    b = float(min(foot.bearing_width or one.section.b, one.section.b))
    pressed = np.maximum(solved.nodes[foot.at].reaction[:, 1], 0.0)
    upright = one.member.slope
    l_b = foot.bearing if upright <= 0.0 else seat_of(one, foot)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(pressed, which), "lbf", note=FROM_FRAME)
        length = pad.take("l_b", l_b, "in", note="along the span, as given")
        f = pad(br.bearing_stress, R=R, b=b, l_b=length)
        F_c_star = compression_star(pad, one.wood, duration(pad, solved.combinations, which))
        F_c_perp_prime = bearing_prime(pad, one.wood, 1.0)
        theta = pad.take("theta", 90.0 - upright, "deg", note="between the upright load and the grain")
        F = pad(br.bearing_at_angle, F_c_star=F_c_star, F_c_perp_prime=F_c_perp_prime, theta=theta)
        return Outcome(f, F, f / F)

    yield govern(Criterion(frame.name, what, clause, "stress", id=id), solved.combinations, calculate)
    here = [joint for joint in context.structure.joints_of(frame.name) if joint.at == foot.at]
    there = [made[path.name] for path in frame.shape.sticks if foot.at in path.points]
    if not any(joint.kind in TO_THE_GROUND for joint in here) and not any(map(stands_on_end, there)):
        yield from birdsmouth_checks(frame, number, foot, one, solved)
    under = context.under(foot.on)
    yield from least_seat(frame.name, f"least seat length on {foot.on}", l_b, under, "IRC R502.6 (memory)")
    yield from wood_under(frame.name, solved.combinations, pressed, b, l_b, under, context)


def _under(
    frame: Frame, foot: FrameFoot, solved: SolvedFrame, reaction: np.ndarray, context: Context
) -> Iterator[Check]:
    """Who answers for what is under it."""
    under, what = context.under(foot.on), f"what holds the {foot.at} on {foot.on}"
    if isinstance(under, Existing):
        yield answered(frame.name, what, under)
        yield from enough(frame.name, f"what {under.name} takes", under, solved.combinations, reaction[:, 1])
        return
    here = [joint for joint in context.structure.joints_of(frame.name) if joint.at == foot.at]
    alone = sum(foot.at in path.points for path in frame.shape.sticks) == 1
    if any(alone or joint.kind in TO_THE_GROUND for joint in here):
        yield Check.keeps_rule("frame.foot", frame.name, what, "load path", "by the joint there, a piece of its own")
        return
    text = f"how the {foot.at} sits on {foot.on} is not described: a [[joint]] there, or a letter"
    asked = ask("frame_foot", f"{frame.name}: {foot.at}", on=foot.on,
                forces={"presses": max(float(np.max(reaction[:, 1])), 0.0)})  # fmt: skip
    yield Check.refers("frame.foot", frame.name, what, "load path", text, ask=asked)


def _lifted(
    frame: Frame, foot: FrameFoot, reaction: np.ndarray, solved: SolvedFrame, context: Context
) -> Iterator[Check]:
    lifts = np.maximum(-reaction[:, 1], 0.0)
    if float(np.max(lifts)) <= LITTLE:
        return
    under, what = context.under(foot.on), f"uplift at {foot.on}"
    if isinstance(under, Existing):
        yield from uplift_taken(frame.name, what, under, solved.combinations, lifts)
        return
    force = show(float(np.max(lifts)), "force")
    asked = ask("frame_uplift", f"{frame.name}: {foot.at}", on=foot.on, force=force,
                forces={"lifts": float(np.max(lifts))})  # fmt: skip
    text = f"it lifts with {force}; what ties it to {foot.on} is not worked out here"
    yield Check.refers("frame.uplift", frame.name, what, "ASCE 7-16 2.4.1", text, ask=asked)


def _thrust(frame: Frame, foot: FrameFoot, solved: SolvedFrame, context: Context) -> Check:
    """Level force on what it stands on: none where a foot slides, else it must be taken by somebody."""
    id, what = "frame.thrust", f"thrust on {foot.on}"
    level = np.abs(solved.nodes[foot.at].reaction[:, 0])
    most = float(np.max(level))
    sliding = [one for one in frame.feet if one.slides]
    if most <= LITTLE:
        unproved = [one for one in sliding if not vouched(one.slides_by, "structure")]
        if unproved:
            asked = ask("frame_slides", f"{frame.name}: {unproved[0].at}",
                        f"frame.{frame.name}.feet.{frame.feet.index(unproved[0]) + 1}.slides_by")  # fmt: skip
            text = f"no thrust as long as the {unproved[0].at} slides, and nobody answers for that"
            return Check.refers(id, frame.name, what, THRUST, text, ask=asked)
        return Check.keeps_rule(id, frame.name, what, THRUST, "no thrust: by statics and by the feet as they are held")
    under = context.under(foot.on)
    if isinstance(under, Existing) and under.takes_sideways is not None:
        source = Source(under.confirmed_by or "the job file", "given")
        limit = under.takes_sideways

        def calculate(pad: Pad, which: int | slice) -> Outcome:
            H = pad.take("H", at(level, which), "lbf", note=f"with feet held, {FROM_FRAME}")
            allowed = pad.take("H_allowed", limit, "lbf", note=f"stated for {under.name}, sideways",
                               source=source)  # fmt: skip
            return Outcome(H, allowed, H / allowed)

        return govern(Criterion(frame.name, what, THRUST, "force", id=id), solved.combinations, calculate)
    force = show(most, "force")
    text = f"held feet push with up to {force}: neither is it said that one slides, nor what {foot.on} takes sideways"
    if any(one.slides for one in frame.feet):
        text = f"pushed level with up to {force} as the foot that is held: what {foot.on} takes sideways is not said"
    elif solved.leans:
        text = f"it stands only as long as its feet are held, and pushes with up to {force}: who takes that is not said"
    return Check.refers(id, frame.name, what, THRUST, text, ask=ask_thrust(frame, solved, context))


def held_by_nobodys_word(frame: Frame, solved: SolvedFrame, context: Context) -> bool:
    """Whether its feet are run as held though nobody said that they are."""
    under = [context.under(foot.on) for foot in frame.feet]
    stated = all(isinstance(one, Existing) and one.takes_sideways is not None for one in under)
    return any(solved.held) and not frame.shape.anchored and not stated


def ask_thrust(frame: Frame, solved: SolvedFrame, context: Context) -> Question:
    """Whether one foot slides, or what all that it stands on takes sideways."""
    level: dict[str, float] = {}
    for foot in frame.feet:
        force_here = float(np.max(np.abs(solved.nodes[foot.at].reaction[:, 0])))
        if force_here > LITTLE:
            level[foot.on] = max(force_here, level.get(foot.on, 0.0))
    most = max(level.values())
    force, last = show(most, "force"), frame.shape.feet[-1]
    number = next(i for i, foot in enumerate(frame.feet, 1) if foot.at == last)
    where, answers = f"frame.{frame.name}.feet.{number}", []
    held = any(foot.slides for foot in frame.feet) or frame.shape.anchored or solved.leans  # one way or another
    if not held:
        slides = ((f"{where}.slides", True), (f"{where}.slides_by", "engineer's sheet S-2 of 3 May 2025"))
        answers.append(PlausibleAnswer(f"the {last} slides: slotted holes, by the engineer's sheet", slides))
    walls = [one for on in level if isinstance(one := context.under(on), Existing)]
    if len(walls) == len(level):
        taken = f"{math.ceil(most / 100.0) * 100} lb"
        sets = tuple((f"existing.{wall.name}.takes_sideways", taken) for wall in walls)
        answers.append(PlausibleAnswer(f"each takes {taken}", sets))
    names = " and ".join(level)
    if not answers:
        return ask("frame_thrust_by_engineer", frame.name, on=names, force=force, forces={"pushes": most})
    field = answers[0].sets[0][0]
    if held:
        return ask("frame_push", frame.name, field, answers=answers, on=names, force=force, forces={"pushes": most})
    return ask("frame_thrust", frame.name, field, answers=answers, on=names, foot=last, force=force,
               forces={"pushes": most})  # fmt: skip
