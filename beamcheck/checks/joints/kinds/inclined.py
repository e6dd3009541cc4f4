"""Long screws at an angle to the faces: pulled along their axes by a report's load of one; the faces are pressed."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....calc.pad import Pad
from ....formulas.joints.inclined_screws import inclined_pressing_force, inclined_slip_force
from ....model.anchors.anchor import Rating
from ....model.joints.parts import Screws
from ....units import show
from ....values.judgment import judgment
from ...core.result import Check
from ...core.wood.govern import Criterion, at, govern
from ...core.wood.material import bearing_prime
from ...core.wood.strength import Outcome
from ..groups import pulls, report_checks
from ..meeting import Meeting, angle_between, wood_checks
from .base import into_which
from .others import Rated

STATICS = "statics; friction not counted"


class InclinedScrews(Rated):
    """Screws by a report, all leaning one way or crossed; `along` of the report is the pull of one along its axis."""

    name = "inclined screws"

    def checks(self, meeting: Meeting) -> list[Check]:
        if meeting.bears is False:
            return [into_which(meeting), *wood_checks(meeting)]
        screws, rating = _screws(meeting), meeting.joint.rating
        assert rating is not None
        flat, steep = judgment("flattest screw").value, judgment("steepest screw").value
        if not flat <= screws.angle <= steep:
            text = (
                f"{show(screws.angle, 'angle')} to the faces: from {flat:g} to {steep:g} deg the load draws on screws "
                "along their axes; others are for an engineer"
            )
            return [meeting.refers("joint.screws", "angle of the screws", STATICS, text, "joint_screws"),
                    *wood_checks(meeting)]  # fmt: skip
        if rating.along is None:
            text = "what one screw may be pulled with along its axis is not said (`along` of the rating)"
            return [meeting.refers("joint.screws", "pull of one screw", STATICS, text, "joint_screws_pull",
                                   "rating.along"), *wood_checks(meeting)]  # fmt: skip
        held = float(inclined_slip_force(n=_pulled(screws), T=rating.along, alpha=screws.angle))
        whole = rating.model_copy(update={"along": max(held, 1e-6), "down": None, "up": None})
        group = replace(meeting, joint=meeting.joint.model_copy(update={"rating": Rating.model_construct(
            **{name: getattr(whole, name) for name in Rating.model_fields})}))  # fmt: skip
        first = meeting.members[0]
        slip = np.abs(meeting.through(first) @ first.direction)
        reported = report_checks(group, first, pulls(meeting, slip))
        return [*reported, *_shown(meeting, slip, rating.along), *_ways(meeting), *wood_checks(meeting)]

    def to_see(self, meeting: Meeting) -> Iterator[str]:
        screws = _screws(meeting)
        ways = ", half of them leaning each way" if screws.crossed else ""
        yield f"{screws.count} screws at {show(screws.angle, 'angle')} to the faces, by a template{ways}"
        yield from super().to_see(meeting)
        if not _screws(meeting).crossed:
            yield f"every screw leans so that the load of {meeting.members[0].name} draws on it, by the template"

    def assumptions(self, meeting: Meeting) -> Iterator[str]:
        yield "Screws count along their axes only; of crossed pairs only those that are pulled; friction for nothing."


def _screws(meeting: Meeting) -> Screws:
    assert meeting.joint.screws is not None
    return meeting.joint.screws


def _pulled(screws: Screws) -> float:
    """Screws that are pulled: of crossed pairs half."""
    return float(screws.count // 2 if screws.crossed else screws.count)


def _shown(meeting: Meeting, slip: np.ndarray, along: float) -> Iterator[Check]:
    """The faces where the screws press them together, on the area that both pieces share."""
    screws, (one, other) = _screws(meeting), meeting.members
    sine = math.sin(math.radians(angle_between(one, other)))
    area = one.d * other.d / sine if sine > 0.2 else min(one.d, other.d) ** 2  # hardly crossing: a square of the lesser
    for piece in (one, other):

        def calculate(pad: Pad, which: int | slice, piece: object = piece) -> Outcome:
            P = pad.take("P", at(slip, which), "lbf", note=f"along {one.name}")
            n = _pulled(screws)
            T = pad.take("T", P / (n * math.cos(math.radians(screws.angle))), "lbf", note="pull of one screw")
            pad(inclined_slip_force, n=n, T=along, alpha=screws.angle, note="at the load of one by its report")
            R = pad(inclined_pressing_force, n=n, T=T, alpha=screws.angle)
            f = pad.take("f", R / area, "psi", note="on the face that both share")
            F = bearing_prime(pad, piece.wood, 1.0)  # type: ignore[attr-defined]
            return Outcome(f, F, f / F)

        criterion = Criterion(meeting.name, f"face of {piece.name} under the screws", "NDS 2018 3.10.2", "stress",
                              piece.name, id="joint.screws_press")  # fmt: skip
        yield govern(criterion, meeting.combinations, calculate)


def _ways(meeting: Meeting) -> Iterator[Check]:
    """Screws that lean one way work one way, and along the first piece only."""
    first = meeting.members[0]
    N, across = meeting.through(first) @ first.direction, np.abs(first.across(meeting.through(first)))
    id, most = "joint.screws", float(np.max(across, initial=0.0))
    if not meeting.next_to_nothing(most):
        text = f"{show(most, 'force')} come square to {first.name}, across the way in which the screws lean"
        yield meeting.refers(id, "load across the screws", STATICS, text, "joint_screws")
    both = [float(np.max(part, initial=0.0)) for part in (N, -N)]
    if not _screws(meeting).crossed and not any(meeting.next_to_nothing(one) for one in both):
        text = (
            f"{show(both[0], 'force')} one way and {show(both[1], 'force')} the other: screws of one lean hold one way"
        )
        asked = ("joint_screws_crossed", "screws.crossed") if _screws(meeting).count > 1 else ("joint_screws",)
        yield meeting.refers(id, "load both ways", STATICS, text, *asked)
