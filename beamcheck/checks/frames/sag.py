"""How far a frame comes down: elastic, by the slip of its joints, and with creep, against what the finish bears."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

import numpy as np

from ...analysis.trusses.record import SolvedFrame
from ...calc.pad import Pad
from ...formulas.wood import deflection as df
from ...model.fields.evidence import vouched
from ...model.frames.frame import Frame
from ...units import show
from ...values.factors import deflection_limit
from ...values.judgment import judgment
from ..core.asking.question import PlausibleAnswer, Question, ask
from ..core.result import Check
from ..core.wood.govern import Criterion, at, govern
from ..core.wood.strength import Outcome
from .member import MadeOf

CLAUSE = "IBC Table 1604.3, NDS 2018 3.5"
FROM_FRAME = "from the frame analysis with its softest joints"


def sag_checks(frame: Frame, solved: SolvedFrame, made: Mapping[str, MadeOf]) -> Iterator[Check]:
    """The lowest point between the feet, and each loaded member between its points; then how far the feet part."""
    x = [frame.shape.points[foot][0] for foot in frame.shape.feet]
    K_cr = max(float(one.wood.K_cr.value) for one in made.values())
    points = np.stack([solved.drop(name) for name in solved.nodes], axis=1)
    yield from _against(frame, solved, "the frame", points, max(x) - min(x), K_cr, solved.play)
    for name, one in made.items():
        if one.member.carries or frame.shape.slope(name) < 1.0:
            sag = _of_member(solved, name)
            yield from _against(frame, solved, f"the {name} between its points", sag, max(solved.members[name].panels),
                                float(one.wood.K_cr.value))  # fmt: skip
    yield from _spread(frame, solved, K_cr)


def _of_member(solved: SolvedFrame, stick: str) -> np.ndarray:
    """(n, panels) most by which a member bends off the line between two points of the frame, inches."""
    ends = np.cumsum([0.0, *solved.members[stick].panels])
    found = []
    for line in solved.lines(stick):
        total = float(line.length)
        each = [line.sag_between(min(a, total), min(b, total)) for a, b in pairwise(ends)]
        found.append(np.stack([np.maximum(np.abs(low), np.abs(high)) for low, _, high, _ in each], axis=1))
    return np.concatenate(found)


def _against(
    frame: Frame,
    solved: SolvedFrame,
    what: str,
    moved: np.ndarray,
    length: float,
    K_cr: float,
    play: np.ndarray | float = 0.0,
) -> Iterator[Check]:
    """Under variable load alone, and all with play and creep; `moved` is (n, places), each place by itself."""
    people = any(case.kind == "L" for case in solved.cases)  # a floor on it, or what hangs there
    limits = deflection_limit("floor" if people else "roof", frame.finish)
    lasting = np.array([one.factors[0] for one in solved.combinations])[:, None] * _dead(solved, moved)
    passing = np.maximum(np.max(moved - lasting, axis=1), 0.0)
    whole = np.maximum(np.max(moved + (K_cr - 1.0) * lasting + K_cr * play, axis=1), 0.0)
    asked = tuple(_asked(frame))
    variable = max(limits.live.value, limits.snow.value, limits.wind.value)
    for id, words, values, limit in (
        ("frame.deflection", "under variable load", passing, variable),
        ("frame.deflection.total", "in all, with creep", whole, limits.total.value),
    ):
        if not limit:
            continue

        def calculate(pad: Pad, which: int | slice, values: np.ndarray = values, limit: int = limit) -> Outcome:
            delta = pad.take("Delta", at(values, which), "in", note=FROM_FRAME)
            allowed = pad(df.deflection_limit, L=length, n=limit)
            return Outcome(delta, allowed, delta / allowed)

        criterion = Criterion(frame.name, f"deflection of {what} {words}", CLAUSE, "small length", id=id, ask=asked)
        yield govern(criterion, solved.combinations, calculate)


def _asked(frame: Frame) -> Iterator[Question]:
    """How stiff its joints are, or who says so: what nobody answers for counts no better than usual."""
    where, sheet = f"frame.{frame.name}", "engineer's sheet S-2 of 3 May 2025"
    if frame.joint_stiffness is None:
        stiff = ((f"{where}.joint_stiffness", "60000 lb/in"), (f"{where}.joints_by", sheet))
        answers = [PlausibleAnswer("60,000 lb/in, by the engineer's sheet", stiff)]
        yield ask("frame_slip", frame.name, f"{where}.joint_stiffness", answers=answers)
    if not vouched(frame.joints_by, "structure") and (frame.joint_stiffness or frame.joint_play is not None):
        yield ask("frame_joints_by", frame.name, f"{where}.joints_by")


def _dead(solved: SolvedFrame, moved: np.ndarray) -> np.ndarray:
    """(n, places) what dead load alone does in the run of each column."""
    alone = [i for i, one in enumerate(solved.combinations) if one.kinds == ("D",) and one.factors[0] == 1.0]
    by_run = {int(solved.run_of[i]): moved[i] for i in alone}
    return np.stack([by_run[int(run)] for run in solved.run_of])


def _spread(frame: Frame, solved: SolvedFrame, K_cr: float) -> Iterator[Check]:
    """Feet that part push finished walls."""
    first, last = frame.shape.feet[0], frame.shape.feet[-1]
    spread = solved.sideways(last) - solved.sideways(first)
    most = float(np.max(spread)) + (K_cr - 1.0) * max(float(np.max(_dead(solved, spread[:, None]))), 0.0)
    limit = judgment("spread of the feet of a frame").value
    id, what = "frame.spread", "how far its feet part"
    text = f"{show(max(most, 0.0), 'small length')} with creep"
    if frame.finish == "none" or most <= limit:
        yield Check.keeps_rule(id, frame.name, what, "judgment", text)
        return
    asked = ask("frame_spread", frame.name, spread=show(most, "small length"))
    yield Check.refers(id, frame.name, what, "judgment", f"{text}, with a finish that cracks beside it", ask=asked)
