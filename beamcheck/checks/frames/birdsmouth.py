"""The foot of a rafter that stands on a plate by itself: the level cut in its lower edge and the shear beside it."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ...analysis.trusses.record import SolvedFrame
from ...calc.pad import Pad
from ...model.frames.frame import Frame, FrameFoot
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import ask
from ..core.result import Check
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.sticks import FROM_FRAME
from ..core.wood.strength import Outcome, notch_shear
from .member import MadeOf

CUT, SHEAR, WHAT = "NDS 2018 4.4.3.1", "NDS 2018 3.4.3.2", "birdsmouth"
STANDS = 85.0  # deg: what is steeper stands on its end grain
HAIR = 1e-9


def stands_by_itself(one: MadeOf) -> bool:
    """Whether what lies on a seat is a rafter and no level tie or upright post."""
    return one.member.slope > 0.0 and not stands_on_end(one) and not one.section.round


def stands_on_end(one: MadeOf) -> bool:
    """Whether it is a post: what leans on one beside it lies on no seat of its own."""
    return one.member.slope >= STANDS


def seat_of(one: MadeOf, foot: FrameFoot) -> float:
    """How much of the seat a rafter touches: no more than its level cut is long, in."""
    assert foot.bearing is not None
    sine = math.sin(math.radians(one.member.slope))
    return min(foot.bearing, float(one.section.d) / sine, math.inf if foot.cut is None else foot.cut / sine)


def birdsmouth_checks(
    frame: Frame, number: int, foot: FrameFoot, one: MadeOf, solved: SolvedFrame
) -> Iterator[Check]:  # fmt: skip
    """The cut that the level seat makes in the lower edge, as an end notch on the tension side."""
    id, d, name = "frame.birdsmouth", float(one.section.d), one.member.stick
    what = f"{WHAT} of {name}"
    if not stands_by_itself(one):
        if foot.cut is not None:
            text = f"a level cut is given at the {foot.at}, where {name} lies on the seat uncut: leave cut out"
            yield Check.breaks_rule(id, frame.name, what, CUT, text, where=foot.at)
        return
    most = judgment("birdsmouth over depth").value * d
    if foot.cut is None:
        text = f"how deep the level cut in the foot of {name} is, square to it, is not given"
        answers = [show(math.floor(8.0 * most) / 8.0, "length"), show(0.5 * d, "length")]
        field = f"frame.{frame.name}.feet.{number}.cut"
        asked = ask("frame_birdsmouth", f"{frame.name}: {foot.at}", field, answers=answers, member=name)
        yield Check.refers(id, frame.name, what, CUT, text, ask=asked, where=foot.at)
        return
    deep = show(foot.cut, "length")
    if foot.cut > most * (1.0 + HAIR):
        text = f"{deep} deep in {show(d, 'length')}: an end notch may take at most a quarter of the depth"
        yield Check.breaks_rule(id, frame.name, what, CUT, text, where=foot.at)
    else:
        text = f"{deep} deep, at most {show(most, 'length')}"
        yield Check.keeps_rule(id, frame.name, what, CUT, text, where=foot.at)
    if foot.cut >= d:
        return
    cut, V_all = foot.cut, np.max(solved.members[name].V, axis=1)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_all, which), "lbf", note=f"largest in {name}, {FROM_FRAME}")
        C_D = duration(pad, solved.combinations, which)
        return notch_shear(pad, one.wood, one.section, V=V, C_D=C_D, depth=cut)

    criterion = Criterion(frame.name, f"shear of {name} at its {WHAT}", SHEAR, "force", foot.at,
                          id="frame.birdsmouth_shear")  # fmt: skip
    yield govern(criterion, solved.combinations, calculate)
