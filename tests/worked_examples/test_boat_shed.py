"""The boat shed: its truss passes; with less wood behind a heel, with pegs in place of the stirrup, with a tie that is
cut, it does not."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from beamcheck.checks.core.result import JobResult
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import job_from_data, read_job

FILE = Path(__file__).parents[2] / "worked_examples" / "boat_shed.toml"


def data() -> dict[str, Any]:
    return tomllib.loads(FILE.read_text(encoding="utf-8"))


def verdicts(result: JobResult, wanted: str) -> set[str]:
    return {piece.name for piece in result.pieces if piece.verdict == wanted}


def test_the_truss_passes_with_a_page_for_each_member_and_joint() -> None:
    result = check_job(read_job(FILE))
    assert result.verdict == "passes" and result.invented
    kinds = [piece.kind for piece in result.pieces]
    assert (kinds.count("frame"), kinds.count("member"), kinds.count("joint")) == (1, 6, 7)
    assert result.questions == ()


def test_too_little_wood_behind_a_heel_fails() -> None:
    """Less than 8 in behind the notch is no joint (German annex to Eurocode 5, second-hand); the members that it holds
    do not hold either, the struts do."""
    job = data()
    heel = next(one for one in job["joint"] if one["name"] == "left heel")
    heel["step"]["behind"] = "6 in"
    found = check_job(job_from_data(job))
    assert verdicts(found, "fails") == {"left heel", "truss: tie", "truss: left rafter"}


def test_pegs_hold_nothing_that_anybody_may_rely_on() -> None:
    """Pegged pulls are screening figures from memory: an engineer has to rule on them."""
    job = data()
    joint = next(one for one in job["joint"] if one["name"] == "stirrup")
    for field in ("fastener", "strap", "split", "seasoned"):
        del joint[field]
    pegs = {"wood": "White Oak", "diameter": "1 in", "count": 1, "end": "2 1/2 in", "edge": "2 in", "side": "3 1/2 in",
            "straight": True}  # fmt: skip
    joint |= {
        "kind": "mortise and tenon", "members": [{"name": "tie", "part": "mortised"},
                                                 {"name": "king post", "part": "tenoned"}],
        "tenon": {"thickness": "2 in", "width": "7 in", "length": "5 in", "cheek": "1 3/4 in", "shoulder": "tight",
                  "pegs": pegs},
    }  # fmt: skip
    result = check_job(job_from_data(job))
    assert result.verdict != "passes" and "stirrup" in verdicts(result, "refer") | verdicts(result, "fails")


def test_a_tie_that_is_cut_through_for_a_stair_is_no_tie() -> None:
    """9 of its 9 1/2 in gone: 2.75 in2 at 825 psi and C_D 1.15 bear 2,600 lb, the tie pulls 5,500."""
    job = data()
    tie = next(one for one in job["frame"][0]["members"] if one["name"] == "tie")
    tie["cuts"] = [{"kind": "notch", "at": "6 ft", "length": "3 ft", "depth": "9 in", "face": "top"}]
    assert "truss: tie" in verdicts(check_job(job_from_data(job)), "fails")


@pytest.mark.parametrize("field", ["upright_by"])
def test_what_nobody_answers_for_refers(field: str) -> None:
    job = data()
    del job["frame"][0][field]
    assert check_job(job_from_data(job)).verdict == "refer"
