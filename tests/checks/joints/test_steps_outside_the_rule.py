"""Pieces that meet at no angle of a step: no figure, and no sheet of metal would give one."""

from __future__ import annotations

import pytest

from beamcheck.checks.joints.kinds.step import _bearing, feet_of
from beamcheck.model.joints.parts import Step

from .meetings import arriving, meeting


@pytest.mark.parametrize("metal", [False, True])
@pytest.mark.parametrize(("beta", "within"), [(0.0, False), (1.0, True), (89.0, True), (90.0, False)])
def test_a_step_is_cut_at_more_than_nothing_and_less_than_a_right_angle(beta: float, within: bool, metal: bool) -> None:
    step = Step.model_validate({"depth": "1 in", "behind": "12 in", "metal": metal})
    two = meeting(arriving("tie", 0.0, entry={"part": "notched"}),
                  arriving("rafter", beta, N=(-500.0,), number=2, entry={"part": "landing"}), step=step)  # fmt: skip
    found = {check.id: check for check in _bearing(feet_of(two)[0])}
    assert set(found) == {"joint.step_bearing", "joint.step_metal"}
    for check in found.values():
        assert check.verdict == ("passes" if within else "fails") and (check.demand is not None) is within
        assert within or "outside the limits of the rule" in check.notes[0]
