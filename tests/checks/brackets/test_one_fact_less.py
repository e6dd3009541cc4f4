"""Worked jobs that pass, with one fact changed or taken out: asked or refused, and what closes the question."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from beamcheck.checks.job import check_job
from beamcheck.checks.questions.best_answers import best
from beamcheck.model.job_paths import with_values
from beamcheck.model.reading.reader import job_from_data, read_job_text

from .brackets import Data

EXAMPLES = Path(__file__).parents[3] / "worked_examples"
TRIALS = Path(__file__).parents[2] / "trials" / "brackets_and_props"
MANTEL = (EXAMPLES / "mantel_on_wooden_brackets.toml").read_text(encoding="utf-8")
SHELF = (EXAMPLES / "shelf_on_three_piece_brackets.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("job", "old", "new", "what", "verdict"),
    [
        (MANTEL, "3 1/2\" x 13\"", "3 1/2\" x 7 1/4\"", "cut from one piece", "refer"),  # 10 1/2 in across its grain
        (MANTEL, ', { below_top = "10 in", count = 1, through = "5 1/2 in", length = "9 in" }', "",
         "fasteners that hold it up", "fails"),
        (MANTEL, 'through = "5 1/2 in"', 'through = "6 1/4 in"', "seat of the head", "refer"),  # 5 7/8 in at its edge
        (MANTEL, 'through = "8 in"\n', "", "fixings", "refer"),  # while another row has its own
        (SHELF, ', { below_top = "11 in", count = 1 }', "", "fasteners that hold it up", "fails"),
        (SHELF, 'end = "1 3/4 in"\n', "", "joint of the legs, its end", "refer"),
    ],
)  # fmt: skip
def test_one_fact_less_is_asked_or_refused(job: str, old: str, new: str, what: str, verdict: str) -> None:
    """A mantel and a shelf that pass, each with one fact taken out or made smaller."""
    assert job.count(old) == 1
    (piece,) = check_job(read_job_text(job.replace(old, new))).pieces
    (found,) = [check for check in piece.checks if check.what == what]
    assert found.verdict == verdict == piece.verdict
    assert verdict == "fails" or found.questions


@pytest.mark.parametrize(
    ("what", "asked"),
    [("4x12 girder over the hall", True), ("roof trusses, by others", True), ("double top plate on studs", False),
     ("pocket for the girder", False), ("stud wall under the old beam", False)],
)  # fmt: skip
def test_a_gap_over_a_beam_of_others_is_asked(what: str, asked: bool) -> None:
    """A trial that passes, its plate said to be something else: a beam that stands on a beam comes down with it."""
    text = (
        (TRIALS / "two_brackets_with_their_gap.toml")
        .read_text(encoding="utf-8")
        .replace('what = "double top plate on studs"', f'what = "{what}"')
    )
    found = check_job(read_job_text(text))
    assert found.verdict == ("refer" if asked else "passes")


def shelf_at(at: str, bearing: str) -> str:
    """The shelf on three-piece brackets with its load in another place."""
    return SHELF.replace('at = "12 in", bearing = "2 in"', f'at = "{at}", bearing = "{bearing}"')


@pytest.mark.parametrize(("at", "bearing"), [("0 in", "10 in"), ("1 in", "10 in"), ("0 in", "2 in")])
def test_a_load_measured_to_its_near_end(at: str, bearing: str) -> None:
    """10 in of seat from the wall out have their middle 5 in out: at 0 in the load would turn nothing."""
    job = read_job_text(shelf_at(at, bearing))
    result = check_job(job)
    assert result.verdict == "refer"
    (place,) = (one.question for one in result.questions if one.question.id.startswith("left bracket/load_place"))
    answered = with_values(job, best(place))
    assert answered.bracket[0].carries[0].at == pytest.approx(0.5 * float(bearing.split()[0]))
    assert check_job(answered).verdict == "passes"


def test_a_load_that_begins_at_the_wall() -> None:
    assert check_job(read_job_text(shelf_at("5 in", "10 in"))).verdict == "passes"


def test_the_letter_that_answers_for_a_wall_closes_its_question() -> None:
    job = with_values(read_job_text(SHELF), [("existing.wall post.confirmed_by", None)])
    result = check_job(job)
    (letter,) = (one.question for one in result.questions if one.question.id == "wall post/answers_for")
    assert (result.verdict, check_job(with_values(job, best(letter))).verdict) == ("refer", "passes")


@pytest.mark.parametrize("out", ["0 in", "1/2 in", "1 1/4 in"])
def test_a_beam_measured_to_the_near_end_of_its_seat(out: str) -> None:
    """A seat of 3 in has its middle 1 1/2 in from the wall at the least; nearer, its arm would be too short."""
    job = with_values(
        read_job_text((TRIALS / "corbel_in_a_dap.toml").read_text()), [("beam.B1.supports.1.lands_at", out)]
    )
    result = check_job(job)
    assert result.verdict == "refer"
    (middle,) = (one.question for one in result.questions if one.question.id.startswith("B1/middle_of_seat"))
    answered = with_values(job, best(middle))
    assert answered.beam[0].supports[0].lands_at == pytest.approx(1.5)
    assert check_job(answered).verdict == "passes"


RATED: Data = {
    "source": "evaluation report no. 9999 (invented), 2025, table 2", "up": "500 lb", "down": "500 lb",
    "along": "500 lb", "duration": "included", "conditions": "solid brick, 4 in deep", "conditions_met": True,
}  # fmt: skip


@pytest.mark.parametrize("material", ["masonry", "concrete"])
def test_anchors_in_brick_are_asked_for_by_their_report(material: str) -> None:
    """No brick has a grain: who leaves out what the fasteners go into is asked for the report of the anchors."""
    data = tomllib.loads(SHELF)
    data["existing"][0] |= {"what": "chimney breast", "material": material}
    fixed = data["bracket"][0]["fixings"]
    del fixed["other"]
    fixed["wall"] = "masonry"
    result = check_job(job_from_data(data))
    assert [one.question.id for one in result.questions] == ["left bracket/anchor_report"]
    fixed["rating"] = RATED
    assert (result.verdict, check_job(job_from_data(data)).verdict) == ("refer", "passes")


def test_anchors_in_brick_leave_the_split_test_to_who_answers_for_them() -> None:
    """A bracket of one piece: how thick a brick is along its grain nobody can say, an engineer can rule."""
    data = tomllib.loads(MANTEL)
    data["existing"][0] |= {"what": "chimney breast", "material": "masonry"}
    fixed = data["bracket"][0]["fixings"]
    del fixed["other"]
    fixed["wall"] = "masonry"
    fixed["rating"] = RATED
    result = check_job(job_from_data(data))
    assert [(one.question.id, one.question.field) for one in result.questions] == [
        ("left bracket/split_by_others", "ruling")
    ]
