"""What looks like evidence and is none, loads that cannot be all there is: none of it may end in `passes`."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.job import check_job
from beamcheck.errors import JobError
from beamcheck.model.reading.reader import job_from_data

from .beams.beams import beam, checked, find, floor, job, known, result_of, seat, stock


def test_the_beam_these_tests_start_from_passes() -> None:
    assert result_of(beam()).verdict == "passes"


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"carries": []}, "no live load"),
        ({"carries": [floor(dead="10 psf", width="6 ft")]}, "no live load"),
        ({"carries": [floor(live="6 psf", width="6 ft")]}, "less than any code asks for"),
        ({"service": "roof", "carries": [floor(dead="10 psf", width="6 ft")]}, "neither snow nor roof live load"),
        ({"carries": [floor(live="10 psf", roof_live="40 psf", width="4 ft")]}, "roof live load stands on a floor"),
        ({"spacing": "8 ft"}, "less than the spacing"),
        ({"spacing": "1 in", "meant": {"spacing": "measured"}}, "less than the piece is broad"),
    ],
)  # fmt: skip
def test_loads_that_cannot_be_all(change: dict[str, Any], said: str) -> None:
    result = result_of(beam(**change))
    assert result.verdict == "refer"
    assert any(said in note for check in result.checks if check.verdict == "refer" for note in check.notes)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"carries": [floor(live="1 psf", width="6 ft")]}, "a live load of 1 psf is less than any code asks for"),
        ({"spacing": "1 in"}, "1 in from middle to middle of pieces 5.5 in thick"),
    ],
)
def test_what_is_probably_a_slip_is_not_even_looked_at(change: dict[str, Any], said: str) -> None:
    with pytest.raises(JobError, match=said):
        result_of(beam(**change))


@pytest.mark.parametrize(
    "filler", ["none", "Nothing", "?", "--", "not yet, ask the engineer", "n/a", "tbd", "x", "unknown"]
)
def test_fillers_are_no_evidence(filler: str) -> None:
    """In place of a letter, of a stamp's text, and of the deck that shares load."""
    wall = {"name": "wall", "what": "wall", "material": "concrete", "confirmed_by": filler}
    data = job(beam())
    data["existing"] = [wall]
    assert check_job(job_from_data(data)).verdict == "refer"
    assert result_of(beam(), wood=stock(evidence=filler)).verdict == "refer"


def test_what_a_seat_takes_is_compared() -> None:
    """12 ft of 6 ft x 50 psf: 1,800 lb and own weight on each wall."""
    data = job(beam())
    data["existing"][0]["takes"] = "1,700 lb"
    assert check_job(job_from_data(data)).verdict == "fails"
    data["existing"][0]["takes"] = "2,500 lb"
    result = check_job(job_from_data(data))
    check = next(check for check in result.pieces[0].checks if check.what == "what wall takes")
    assert result.verdict == "passes" and check.capacity == 2500.0 and check.demand == pytest.approx(1900, rel=0.05)


def test_a_seat_of_unsaid_material_is_referred() -> None:
    data = job(beam())
    del data["existing"][0]["material"]
    assert check_job(job_from_data(data)).verdict == "refer"


def test_a_seat_counts_only_where_there_is_wood() -> None:
    """`at` is the middle of a seat: with the length given, half of a seat at the end hangs in the air."""
    whole, cut = result_of(beam()), result_of(beam(length="12 ft"))
    ratios = [find(one, "bearing at support 1 on wall").ratio for one in (whole, cut)]
    assert ratios[1] == pytest.approx(2.0 * ratios[0])


def test_a_row_of_joists_loads_its_girder_as_a_row() -> None:
    """Joists at 2 ft put R/24 in on the girder (statics), not one reaction."""
    girder = beam(name="G", supports=[seat("0 ft"), seat("10 ft")], carries=[floor(live="10 plf")])
    joist = beam(
        name="J", carries=[floor(dead="10 psf", live="40 psf", width="2 ft")], spacing="2 ft",
        supports=[seat("0 ft"), seat("12 ft", on="G", lands_at="5 ft")],
    )  # fmt: skip
    pieces = {piece.name: piece for piece in checked(joist, girder).pieces}
    row = next(table for table in pieces["G"].tables if table.title.startswith("Loads"))
    assert any(line[0] == "from J" and line[3] == "0 in to 10 ft" for line in row.rows)
    M = next(step.value for step in find(pieces["G"], "bending").steps if step.symbol == "M")
    reaction = 50 * 2 * 6.0  # lb at each end of a joist, its own weight aside
    assert (reaction / 2.0) * 10.0**2 / 8.0 * 12.0 < M


def test_a_row_of_joists_on_one_post_is_referred() -> None:
    """Only one reaction of the row is counted on the post."""
    joist = beam(
        name="J", carries=[floor(dead="10 psf", live="40 psf", width="2 ft")],
        supports=[seat("0 ft"), seat("12 ft", on="P")],
    )  # fmt: skip
    post = {
        "name": "P", "stock": "wood", "height": "8 ft", "on": "wall", "top_restraint": "pinned",
        "eccentricity": "0 in", "eccentricity_weak": "0 in",
    }  # fmt: skip
    verdicts = {}
    for spacing in (None, "2 ft"):
        one = {**joist, **({"spacing": spacing} if spacing else {})}
        verdicts[spacing] = next(
            p for p in check_job(job_from_data(job(one, post=[post]))).pieces if p.name == "P"
        ).verdict
    assert verdicts == {None: "passes", "2 ft": "refer"}


@pytest.mark.parametrize(("name", "value"), [("F_b", 9000.0), ("F_v", 900.0), ("E", 4e6)])
def test_a_letter_that_gives_more_than_any_lumber_has(name: str, value: float) -> None:
    extra = {"E_min": 1.4e6} if name == "E" else {}
    result = result_of(beam(), wood=known("6x12 dressed", **{name: value, **extra}))
    assert result.verdict == "refer"
    assert any("more than any sawn lumber" in note for check in result.checks for note in check.notes)


def test_ground_snow_that_nothing_carries() -> None:
    data = job(beam())
    data["job"]["ground_snow"] = "60 psf"
    result = check_job(job_from_data(data))
    assert result.verdict == "refer" and any("no piece carries snow" in reason for reason in result.reasons)


def test_settlement_of_one_support_of_a_simple_beam_is_worked_out() -> None:
    """No forces arise in it (statics); whether it goes on is for an engineer."""
    result = result_of(beam(supports=[seat("0 ft"), seat("12 ft", settles="1/8 in")]))
    plain = result_of(beam())
    assert result.verdict == "refer"
    assert find(result, "bending").ratio == pytest.approx(find(plain, "bending").ratio, rel=1e-9)
