"""Pieces that meet at no angle of a step: no figure, and no sheet of metal would give one."""

from __future__ import annotations

import pytest

from beamcheck.checks.joints.kinds.carpentry.step import StepJoint, _bearing, feet_of
from beamcheck.checks.joints.kinds.carpentry.tenon import MortiseAndTenon
from beamcheck.model.joints.parts import Step, Tenon

from ..meetings import arriving, meeting


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


@pytest.mark.parametrize(("beta", "sine"), [(30.0, 0.5), (150.0, 0.5), (11.6, 0.20108), (11.5, 0.2), (5.0, 0.2)])
def test_what_hardly_leans_cuts_no_longer_than_five_depths(beta: float, sine: float) -> None:
    """10 in of landing piece over the sine of the angle, of which no less than 0.2 counts; a tenon 5 in wide alike."""
    step = Step.model_validate({"depth": "1 in", "behind": "12 in"})
    tie = arriving("tie", 0.0, entry={"part": "notched"})
    two = meeting(tie, arriving("rafter", beta, number=2, entry={"part": "landing"}), step=step)
    (notch,) = StepJoint().cuts(two, tie, 30.0, True)
    assert notch.length == pytest.approx(10.0 / sine, rel=1e-4)
    assert (notch.at, notch.depth, notch.face) == (30.0, 1.0, "top")
    tenon = Tenon.model_construct(thickness=1.5, width=5.0, length=4.0, housing=0.5)
    post = arriving("post", 0.0, entry={"part": "mortised"})
    two = meeting(post, arriving("brace", -beta, number=2, entry={"part": "tenoned"}), tenon=tenon)
    mortise, housing = MortiseAndTenon().cuts(two, post, -2.0, True)
    assert mortise.length == pytest.approx(5.0 / sine, rel=1e-4) and housing.length == pytest.approx(
        10.0 / sine, rel=1e-4
    )
    assert (mortise.at, mortise.depth, mortise.width, mortise.from_bottom) == (0.0, 4.5, 1.5, 2.25)
    assert (housing.at, housing.depth, housing.face) == (0.0, 0.5, "bottom")
    assert StepJoint().cuts(two, post, 0.0, True) == [] == MortiseAndTenon().cuts(two, two.members[1], 0.0, True)
