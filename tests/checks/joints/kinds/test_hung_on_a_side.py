"""Hardware by report in the side of a girder: NDS 3.4.3.3 by the figures of frames/checks.csv (F230 to F233, F285)."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.errors import JobError

from ..jobs import SHEET, Data, checked, joint, member, step_value, the, wood
from .test_by_report import RATING

HUNG, GIRDER = wood("joist", "3 1/2 in x 9 1/4 in"), wood("girder", "5 1/2 in x 11 1/2 in")


def hanger(high: str | None, low: str = "10 in", *, down: float = 900.0, **girder: Any) -> Any:
    """A beam end of 900 lb in a rated hanger on the side of a girder, seen along the girder."""
    heights: Data = {} if high is None else {"on_girder": {"highest": high, "lowest": low}}
    one = joint(
        "rated",
        member("joist", "joist", 180.0, down=down),
        member("girder", "girder", 0.0, down=-down, **{"shear": "1,200 lbf", "passes": True, **heights, **girder}),
        rating=RATING, split="none seen", stands_on="girder",
    )  # fmt: skip
    return checked(one, HUNG, GIRDER)


def test_shear_on_the_depth_beyond_by_the_worked_row() -> None:
    """b 5.5, d 11.5, c_u 4, F_v' 170, near the end: V_r' = 1,988 lb (F230); at c_u 8 it is 202 lb (F232)."""
    check = the(hanger("4 in"), "joint.on_side_shear")
    assert check.capacity == pytest.approx(1988.42 * 1.0, rel=1e-5) and check.demand == 1200.0
    assert the(hanger("8 in"), "joint.on_side_shear").capacity == pytest.approx(202.083, rel=1e-5)
    assert the(hanger("8 in"), "joint.on_side_shear").verdict == "fails"


def test_the_order_in_which_a_job_names_its_members_decides_nothing() -> None:
    """The joist ends in the hanger and the girder runs through: the report is for the joist."""
    members = [member("joist", "joist", 180.0, down=900.0),
               member("girder", "girder", 0.0, down=-900.0, shear="1,200 lbf", passes=True)]  # fmt: skip
    figures = []
    for number, order in ((2, members), (1, members[::-1])):
        piece = checked(joint("rated", *order, rating=RATING, split="none seen", stands_on="girder"), HUNG, GIRDER)
        assert the(piece, "joint.on_side").questions[0].field == f"joint.J.members.{number}.on_girder"
        figures.append({check.what: check.ratio for check in piece.checks})
    assert figures[0] == figures[1]


def test_low_on_the_side_does_not_pass() -> None:
    """900 lb, topmost fastener 7 in below the top of a 6x12: below its middle, no value (F285)."""
    piece = hanger("7 in")
    assert piece.verdict != "passes"
    assert the(piece, "joint.on_side_low").questions[0].field == "ruling"
    assert not [one for one in hanger("3 in").checks if one.id == "joint.on_side_low"]


def test_height_is_asked_and_each_answer_is_taken() -> None:
    check = the(hanger(None), "joint.on_side")
    (asked,) = check.questions
    assert check.verdict == "refer" and asked.field == "joint.J.members.2.on_girder" and asked.who == "tape"
    for answer in asked.answers:
        ((place, value),) = answer.sets
        answered = hanger(None, **{place.rpartition(".")[2]: value})
        assert not [one for one in answered.checks if one.id == "joint.on_side"]


def test_shear_is_asked_where_no_frame_says_it() -> None:
    check = the(hanger("4 in", shear="0 lbf"), "joint.on_side_shear")
    assert check.demand == pytest.approx(450.0)  # half of what is hung, no less
    one = joint("rated", member("joist", "joist", 180.0, down=900.0),
                member("girder", "girder", 0.0, down=-900.0, on_girder={"highest": "4 in", "lowest": "9 in"}),
                rating=RATING, split="none seen")  # fmt: skip
    asked = the(checked(one, HUNG, GIRDER), "joint.on_side_shear")
    assert asked.verdict == "refer" and asked.questions[0].field == "joint.J.members.2.shear"


def test_what_lifts_counts_from_the_other_edge() -> None:
    """The lowest fastener 10 in under the top of 11 1/2 in is 1 1/2 in from the edge that a lift leaves."""
    check = the(hanger("4 in", "10 in", down=-900.0), "joint.on_side_shear")
    assert step_value(check, "c_u") == pytest.approx(1.5)


def test_seat_of_the_hardware_presses() -> None:
    """900 lb that a girder 5 1/2 in broad brings onto 3 in: 54.5 psi. What hangs on it instead is held at its side."""
    piece = hanger(None, seat="3 in", down=-900.0)
    assert the(piece, "joint.on_seat").demand == pytest.approx(900 / (5.5 * 3))
    assert not [one for one in piece.checks if one.id.startswith("joint.on_side")]
    (asked,) = the(hanger(None, seat="3 in"), "joint.on_side").questions
    ((place, value),) = asked.answers[0].sets
    answered = hanger(None, seat="3 in", **{place.rpartition(".")[2]: value})
    assert answered.verdict == "passes" and len(asked.answers) == 2
    low = the(hanger("7 in", seat="3 in"), "joint.on_side_shear")  # what hangs on it counts from its upper edge
    assert step_value(low, "c_u") == pytest.approx(7.0)


def test_slips() -> None:
    assert the(hanger("4 in", "12 in"), "joint.on_side").verdict == "fails"
    one = joint("by others", member("a", "girder", 0.0, 1.0, on_girder={"highest": "1 in", "lowest": "2 in"}),
                confirmed_by=SHEET)  # fmt: skip
    with pytest.raises(JobError, match="does not belong to 'by others'"):
        checked(one, GIRDER)


@pytest.mark.parametrize("down", [900.0, -900.0])
def test_best_answer_of_the_height_is_far_enough_from_the_edge(down: float) -> None:
    """A beam that hangs on the girder, and one that the girder hangs on."""
    (asked,) = the(hanger(None, down=down), "joint.on_side").questions
    ((place, value),) = asked.answers[0].sets
    answered = hanger(None, down=down, **{place.rpartition(".")[2]: value})
    assert not [one.id for one in answered.checks if one.id.startswith("joint.on_side") and one.verdict != "passes"]
