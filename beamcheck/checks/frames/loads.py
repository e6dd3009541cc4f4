"""Whether the loads of a frame can be all: a roof bears men or snow, wind lifts it, snow lies unevenly on a truss."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ...analysis.beams.load_cases import cases_for
from ...analysis.beams.member_loads import applied_loads
from ...analysis.trusses.record import SolvedFrame
from ...model.beams import Beam
from ...model.fields.evidence import vouched
from ...model.frames.frame import Frame, FrameStick
from ...model.loads import FormedLoad, Load
from ...model.roofs import Rafter
from ...model.sticks import Support
from ...units import show
from ...values.judgment import judgment
from ..beams.beam import section_of
from ..core.asking.question import PlausibleAnswer, Question, ask
from ..core.context import Context
from ..core.result import Check
from ..loads.entries import is_of_a_roof
from ..loads.given import load_doubts, roof_doubts
from ..roofs.snow import drifted
from .member import address

ONE_SIDED, PEOPLE, WIND = "ASCE 7-16 7.6.1", "ASCE 7-16 4.8, Table 4.3-1", "ASCE 7-16 chapters 26 to 30"
LEVEL, UPRIGHT = 1.0, 60.0  # degrees from level: between them it is a slope of the roof


def frame_loads(
    frame: Frame, members: Sequence[FrameStick], solved: SolvedFrame, context: Context
) -> Iterator[Check]:  # fmt: skip
    """What is asked of the frame as a whole."""
    kinds = {case.kind for case in solved.cases}
    if not kinds & {"S", "Lr", "L"}:
        text = "neither snow nor people nor men on a roof are given: a frame bears more than its own weight"
        asked = ask("frame_loads", frame.name)
        yield Check.refers("loads.roof", frame.name, "loads as given", PEOPLE, text, ask=asked)
    yield from _one_side(frame, members)
    if kinds & {"S", "Lr"} and "W" not in kinds and not vouched(context.structure.site.wind_by, "structure"):
        text = "no wind load is given, and nobody is named who answers for uplift"
        yield Check.refers("loads.wind", frame.name, "wind", WIND, text, ask=ask("frame_wind", "job", "job.wind_by"))
    if "S" in kinds:
        yield _unevenly(frame, members, context)
        if not _all_formed(frame, members):
            yield from drifted(frame.name, context)


def _one_side(frame: Frame, members: Sequence[FrameStick]) -> Iterator[Check]:
    """A roof lies on both sides of its ridge."""
    slopes = [member for member in members if member.to_ridge and _sloped(member)]
    bears = [member for member in slopes if any(map(_variable, member.carries))]
    shared = {point for member in bears for point in frame.shape.stick(member.stick).points}
    forced = {force.at for force in frame.carries if force.snow or force.roof_live or force.live} - shared
    empty = [member for member in slopes if member not in bears]
    bare = [member for member in empty if not forced & {*frame.shape.stick(member.stick).points}]
    if bears and bare:
        names = " and ".join(member.stick for member in bare)
        text = f"the {bears[0].stick} bears a roof, and no snow nor men lie on the {names}"
        yield Check.refers("loads.roof", frame.name, "loads as given", PEOPLE, text, ask=ask("frame_loads", frame.name))


def _variable(load: Load) -> bool:
    """Whether it puts people, men on a roof or snow there."""
    return any(amount is not None and amount[0] > 0.0 for amount in (load.snow, load.roof_live, load.live))


def _sloped(member: FrameStick) -> bool:
    return LEVEL < member.slope < UPRIGHT


def _unevenly(frame: Frame, members: Sequence[FrameStick], context: Context) -> Check:
    """The even figure for simple rafters does not hold for a truss: the lee side has its heap at the ridge."""
    id, what = "frame.snow", "snow on one side"
    snowy = [(member, load) for member in members for load in member.carries if load.snow and load.snow[0] > 0.0]
    slopes = [member.slope for member, _ in snowy if _sloped(member)] or [
        member.slope for member in members if _sloped(member)
    ]
    low, high = judgment("flattest roof with one-sided snow").value, judgment("steepest roof with one-sided snow").value
    if not any(low <= slope <= high for slope in slopes):
        text = "not asked for: no slope of the roof between 1/2:12 and 7:12"
        return Check.keeps_rule(id, frame.name, what, ONE_SIDED, text)
    if _all_formed(frame, members):
        names = dict.fromkeys(load.roof or "" for _, load in snowy)
        roofs = [context.structure.areas.roofs[name][0] for name in names if name in context.structure.areas.roofs]
        simple = [roof for roof in roofs if roof.ridge in ("beam", "board")]
        if not simple:
            text = "with its heap at the ridge, formed from the site; tried on all of the frame and on either half"
            return Check.keeps_rule(id, frame.name, what, ONE_SIDED, text)
        asked = ask("frame_roof_ridge", simple[0].name, f"roof.{simple[0].name}.ridge", answers=("ties or trusses",))
        text = f"the roof {simple[0].name} is said to have simple rafters; on a truss snow heaps up at the ridge"
        return Check.refers(id, frame.name, what, ONE_SIDED, text, ask=asked)
    return _stated(frame, [load.snow[0] for _, load in snowy if load.snow and load.snow[1] == "area"], context)


def _all_formed(frame: Frame, members: Sequence[FrameStick]) -> bool:
    """Whether all of its snow follows from the site, drifts and all."""
    snowy = [load for member in members for load in member.carries if load.snow and load.snow[0] > 0.0]
    formed = all(isinstance(load, FormedLoad) and (load.more or "snow" in load.formed) for load in snowy)
    return bool(snowy) and formed and not any(force.snow for force in frame.carries)


def _stated(frame: Frame, given: Sequence[float], context: Context) -> Check:
    id, what, snow = "frame.snow", "snow on one side", context.structure.site.snow
    if snow is not None and snow.one_side is not None and vouched(snow.by, "structure"):
        text = f"on the lee side alone, by {snow.by}; tried on all of the frame and on either half"
        if not given:
            return Check.keeps_rule(id, frame.name, what, ONE_SIDED, text)
        return Check.of_ratio(id, frame.name, what, ONE_SIDED, text, demand=snow.one_side[0], capacity=max(given),
                              kind="area load")  # fmt: skip
    answers = []
    if given:
        words = show((max(given), "area"), "load")
        sets = (("job.snow.one_side", f"{max(given) * 144.0:.4g} psf"),
                ("job.snow.by", "engineer's sheet S-2 of 3 May 2025"))  # fmt: skip
        answers.append(PlausibleAnswer(f"no more than {words}, by the engineer's sheet", sets))
    field = "job.snow.one_side" if answers else "ruling"
    asked: Question = ask("frame_snow", frame.name, field, answers=answers)
    text = "on a truss snow heaps up on the lee side of the ridge; how much is given by nobody"
    return Check.refers(id, frame.name, what, ONE_SIDED, text, ask=asked)


def member_loads(frame: Frame, member: FrameStick, context: Context) -> Iterator[Check]:
    """What makes the loads of a member look incomplete: of a sloped one as of any rafter, of a level one under a roof
    as of any beam."""
    if not member.carries:
        return
    if _sloped(member):
        found, old = _as_rafter(frame, member, context), f"rafter.{member.name}."
    elif member.slope <= LEVEL:
        found, old = _as_beam(frame, member, context), f"beam.{member.name}."
    else:
        return
    for check in found:
        if check.id == "loads.wind" and check.verdict == "refer":
            continue  # asked of the frame
        questions = tuple(_readdressed(asked, old, f"{address(member)}.") for asked in check.questions)
        yield replace(check, questions=questions)


def _as_beam(frame: Frame, member: FrameStick, context: Context) -> Iterator[Check]:
    of_a_roof = any(load.snow or load.roof_live or is_of_a_roof(load) for load in member.carries)
    beam = Beam.model_construct(
        name=member.name, service="roof" if of_a_roof else "floor", spacing=frame.spacing, carries=member.carries,
        meant=member.meant, finish=member.finish, top_held=member.top_held, length=member.length, stock=member.stock,
        bears_nothing_else=member.bears_nothing_else,
        supports=(Support.model_construct(at=0.0, on=""), Support.model_construct(at=member.length, on="")),
    )  # fmt: skip
    site = context.structure.site
    if of_a_roof:
        yield from roof_doubts(beam, site)
        return
    wide = [load if load.width else load.model_copy(update={"width": frame.spacing}) for load in member.carries]
    loads = applied_loads(wide, member.length)
    section = section_of(context.size(member.stock), member.laid, member.plies)
    yield from load_doubts(beam, cases_for(loads, [(0.0, member.length)], member.length), loads, section, site)


def _as_rafter(frame: Frame, member: FrameStick, context: Context) -> Iterator[Check]:
    rafter = Rafter.model_construct(
        name=member.name, run=member.length * math.cos(math.radians(member.slope)), slope=member.slope,
        spacing=frame.spacing or 0.0, ridge="board", carries=member.carries, meant=member.meant,
        finish=member.finish, top_held=member.top_held,
        wall=Support.model_construct(at=0.0, on=""), stock=member.stock,
    )  # fmt: skip
    yield from roof_doubts(rafter, context.structure.site)


def _readdressed(asked: Question, old: str, new: str) -> Question:
    """The question with its field, and those that its answers set, where the member stands in the job file."""

    def moved(field: str) -> str:
        return new + field.removeprefix(old) if field.startswith(old) else field

    answers = tuple(
        replace(answer, sets=tuple((moved(field), value) for field, value in answer.sets)) for answer in asked.answers
    )
    return replace(asked, field=moved(asked.field), answers=answers)
