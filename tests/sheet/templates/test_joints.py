"""Templates of steps and tenons: places by trigonometry typed here; made of the invented boat shed."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from beamcheck import check_text
from beamcheck.checks.core.result import JobResult
from beamcheck.errors import BeamcheckError
from beamcheck.model.joints.parts import Step
from beamcheck.sheet.templates.joints import foot_points, step_points
from beamcheck.sheet.templates.piece import template_of

from ...worked_examples.results import example

ROOT = Path(__file__).parents[3]
BETA = 33.69


@pytest.fixture(scope="module")
def shed() -> JobResult:
    return example("plated_truss")


@pytest.mark.parametrize(
    ("face", "lean"),
    [("bisector", BETA / 2), ("square to the landing piece", BETA), ("square to the notched piece", 0.0)],
)
def test_places_of_a_notch(face: str, lean: float) -> None:
    """The front face leans by half the angle, the whole of it or not at all; the foot is as deep as the rafter."""
    step = Step(depth="1 3/4 in", behind="12 in", face=face)
    front, root, heel = step_points(step, 9.5, 7.5, BETA)
    assert root == (12.0, 9.5 - 1.75)
    assert math.degrees(math.atan2(root[0] - front[0], front[1] - root[1])) == pytest.approx(lean)
    assert (heel[0] - front[0]) * math.sin(math.radians(BETA)) == pytest.approx(7.5)


def test_foot_fits_its_notch() -> None:
    """Same lengths and angles in both pieces; toe on the upper edge, heel on the lower one."""
    three = step_points(Step(depth="1 3/4 in", behind="12 in"), 9.5, 7.5, BETA)
    foot = foot_points(*three, 7.5, BETA)
    for i, j in ((0, 1), (1, 2), (0, 2)):
        assert math.dist(three[i], three[j]) == pytest.approx(math.dist(foot[i], foot[j]))
    assert foot[0] == pytest.approx((0.0, 7.5)) and foot[2][1] == pytest.approx(0.0)


def test_template_of_a_step(shed: JobResult) -> None:
    made = template_of(shed, "left strut head")
    assert len(made.contours) == 2 and made.grain and any("bisector" in note for note in made.notes)
    x = [point[0] for point in made.contours[0].points()]
    assert min(x) == 0.0 and 30.0 in [round(one, 6) for one in x]


def test_template_of_bolts_in_a_joint(shed: JobResult) -> None:
    made = template_of(shed, "left heel plates")
    assert len(made.holes) == 1 and made.holes[0].x == pytest.approx(7.0)


def test_template_of_a_tenon_with_pegs() -> None:
    text = (ROOT / "tests/trials/joined_members/girt_that_pulls_on_pegs.toml").read_text(encoding="utf-8")
    result = check_text(text)
    made = template_of(result, result.pieces[0].name)
    assert made.holes and all(hole.drill == hole.size for hole in made.holes)


def test_what_has_no_template_says_so(shed: JobResult) -> None:
    with pytest.raises(BeamcheckError, match="templates are made of"):
        template_of(shed, "truss: tie")
