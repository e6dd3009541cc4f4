"""Concrete anchors and inclined screws by report, against hand sums typed here; invented."""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.checks.anchors.manners.rated_hardware import no_less
from beamcheck.checks.core.result import PieceResult
from beamcheck.errors import JobError

from ..jobs import SHEET, Data, checked, joint, member, step_value, the, wood

RATING: Data = {
    "source": "evaluation report ER-0000, 2025 edition, table 3", "along": "3,000 lbf", "down": "3,000 lbf",
    "duration": "included", "loads": "floor", "conditions": "Douglas Fir-Larch, concrete 3,000 psi, dry",
    "conditions_met": True,
}  # fmt: skip
BOLT: Data = {"kind": "bolt", "size": "1/2 in", "length": "6 in", "steel": "A307", "threads": "clear of it",
              "thread_length": "1 in", "washer": "1 3/8 in"}  # fmt: skip
PLATE = wood("plate", "1 1/2 in x 7 1/4 in", G=0.5)


def anchored(down: float, **more: Any) -> PieceResult:
    one = joint(
        "concrete anchor",
        member("plate", "plate", 0.0, down=down,
               holes={"rows": 1, "columns": 2, "spacing": "6 in", "end": "40 in", "edge": "3 in"}, arm="0 in"),
        **{"fastener": BOLT, "rating": RATING, "embedded": "4 in", "split": "none seen", "seasoned": "dry",
           "stands_on": "slab", "twist_held_by": f"joists, {SHEET}", **more},
    )  # fmt: skip
    return checked(one, PLATE)


def test_wood_beside_the_concrete_decides_or_the_report() -> None:
    """The report of 3,000 lb for the group; the wood of 1 1/2 in across its grain by the yield equations, no C_D."""
    piece = anchored(600.0)
    lateral = the(piece, "anchor.lateral")
    assert lateral.demand == pytest.approx(300.0)
    assert lateral.capacity is not None and 250.0 < lateral.capacity < 700.0
    assert the(piece, "anchor.rated", what="down").ratio == pytest.approx(600.0 / 3000.0)
    assert piece.verdict == "passes", [(one.id, one.what, one.notes) for one in piece.checks if one.verdict != "passes"]
    assert anchored(6000.0).verdict == "fails"


def test_load_before_the_face_is_asked_unless_something_keeps_it_from_turning() -> None:
    asked = the(anchored(600.0, twist_held_by=""), "joint.concrete_pull")
    assert asked.verdict == "refer" and asked.questions[0].forces["pulls out"] > 0.0


def test_anchor_without_its_report_is_told() -> None:
    with pytest.raises(Exception, match="rating"):
        anchored(600.0, rating=None)


BRACE, POST = wood("brace", "5 1/2 in x 5 1/2 in"), wood("post", "5 1/2 in x 7 1/2 in")


def screwed(
    pull: float, angle: str = "45 deg", crossed: bool = False, more: float = 0.0, count: int = 4, slope: str = "60 deg"
) -> PieceResult:
    forces = [("brace", 45.0, pull, more), ("post", 225.0, pull, more)]
    one = joint(
        "inclined screws",
        *(member(name, name, direction, force, down=0.0) for name, direction, force, _ in forces),
        rating={**RATING, "along": "850 lbf", "slope": slope}, split="none seen",
        screws={"count": count, "angle": angle, "crossed": crossed},
    )  # fmt: skip
    if more:
        for entry in one["members"]:
            entry["forces"].append({"load": "wind", "pull": f"{-more} lbf"})
    return checked(one, BRACE, POST)


def test_slip_of_inclined_screws_by_hand() -> None:
    """n T cos(alpha) of the pulled ones, of crossed pairs half; the faces pressed with P tan(alpha)."""
    for crossed, n in ((False, 4), (True, 2)):
        piece = screwed(1000.0, crossed=crossed)
        rated = next(one for one in piece.checks if one.id == "anchor.rated" and one.ratio is not None)
        assert rated.ratio == pytest.approx(1000.0 / (n * 850.0 * math.cos(math.radians(45.0))), rel=1e-6)
        assert step_value(the(piece, "joint.screws_press", "brace"), "R") == pytest.approx(1000.0)
    assert screwed(1000.0).verdict == "passes"
    assert screwed(3000.0).verdict == "fails"


def test_figures_up_to_a_slope_say_nothing_of_a_steeper_piece() -> None:
    """The brace stands at 45 degrees: 12 in 12."""
    check = the(screwed(1000.0, slope="44 deg"), "anchor.rated_fit", what="slope")
    assert check.verdict == "refer" and check.questions[0].field == "joint.J.rating.slope"
    ((_, slope),) = check.questions[0].answers[0].sets
    assert screwed(1000.0, slope=str(slope)).verdict == "passes"


@pytest.mark.parametrize(("slope", "words"), [
    (50.12, "50.2 deg"), (18.43494, "18.5 deg"), (5.05, "5.1 deg"), (22.4999, "22.5 deg"), (60.0, "60 deg"),
    (math.degrees(math.atan(8 / 12)), "8:12"),
])  # fmt: skip
def test_a_slope_that_is_offered_holds_for_the_piece(slope: float, words: str) -> None:
    assert no_less(slope) == words


def test_screws_that_lean_one_way_hold_one_way() -> None:
    """Wind turns the force round: 1,000 lb of live load and 0.6 times 3,000 lb the other way."""
    for crossed, verdict in ((False, "refer"), (True, None)):
        found = [check.verdict for check in screwed(1000.0, crossed=crossed, more=3000.0).checks
                 if check.what == "load both ways"]  # fmt: skip
        assert found == ([verdict] if verdict else [])


def test_flat_screws_and_a_report_without_a_pull_are_asked() -> None:
    for angle in ("20 deg", "80 deg", "90 deg"):  # short loads only; bent rather than pulled
        assert the(screwed(500.0, angle=angle), "joint.screws").verdict == "refer"


def test_crossed_screws_stand_in_pairs() -> None:
    """Of three one is pulled for certain; one alone crosses no other, and nobody is asked whether it does."""
    piece = screwed(500.0, crossed=True, count=3)
    assert step_value(the(piece, "joint.screws_press", "brace"), "T") == pytest.approx(500.0 * math.sqrt(2.0))
    with pytest.raises(JobError, match="crosses no other"):
        screwed(500.0, crossed=True, count=1)
    (both,) = (check for check in screwed(1000.0, more=3000.0, count=1).checks if check.what == "load both ways")
    assert both.questions[0].id == "J/joint_screws"


def test_what_one_member_brings_goes_into_something() -> None:
    asked = the(anchored(600.0, stands_on=""), "joint.balance")
    assert asked.verdict == "refer" and asked.questions[0].field == "joint.J.stands_on"
    assert "into slab" in the(anchored(600.0), "joint.balance").notes[0]


def test_anchor_shorter_than_it_is_deep() -> None:
    assert the(anchored(600.0, embedded="8 in"), "joint.concrete_length").verdict == "fails"
