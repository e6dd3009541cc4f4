"""What is not known keeps a beam from passing: each piece of evidence by itself, taken from a job that passes."""

from __future__ import annotations

import copy
import math
from collections.abc import Callable
from typing import Any

import pytest

from beamcheck.checks.core.result import PieceResult, Verdict, judge, worst
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import job_from_data

from ..beams import SAWN, Data, beam, find, floor, job, known, result_of, said, seat, stock

POINT = {"what": "column", "live": "500 lb", "at": "5 ft", "applied": "top", "bearing": "4 in"}


def good() -> Data:
    """Everything that can be said, in one job: d/b over 2, a point load, two spans, a wooden plate, its own limits."""
    plate = {
        "name": "plate",
        "what": "plate",
        "material": "wood",
        "F_c_perp": "500 psi",
        "confirmed_by": "letter of the engineer, 3 May 2025",
    }
    piece = beam(
        supports=[seat("0 ft"), seat("10 ft", on="plate"), seat("20 ft", tied_down="strap")],
        carries=[floor(dead="20 plf", live="20 plf"), POINT],
    )
    return copy.deepcopy(job(piece, wood=stock("4x12"), existing=[plate]))


def verdict_of(data: Data) -> PieceResult:
    return check_job(job_from_data(data)).pieces[0]


def test_the_job_from_which_evidence_is_taken_passes() -> None:
    result = verdict_of(good())
    assert (result.verdict, said(result, "refer"), said(result, "fails")) == ("passes", "", "")


WITHOUT: list[tuple[str, Callable[[Data], Any]]] = [
    ("unstamped", lambda data: data["stock"][0].update(grade="unstamped", grade_from=None, evidence="")),
    ("species unknown", lambda data: data["stock"][0].update(species="unknown", agency="")),
    ("grade assumed", lambda data: data["stock"][0].update(grade_from="assumed")),
    ("stamp not copied", lambda data: data["stock"][0].update(evidence="  ")),
    ("treated with something", lambda data: data["stock"][0].update(treated=True)),
    ("rough by name", lambda data: data["stock"][0].update(size="6x12 rough", graded_over="whole length")),
    ("no seat", lambda data: data["beam"][0]["supports"][0].pop("bearing")),
    ("no seat inside", lambda data: data["beam"][0]["supports"][1].pop("bearing")),
    ("ends not said to be held", lambda data: data["beam"][0]["supports"][0].pop("restrained")),
    ("ends not held", lambda data: data["beam"][0]["supports"][0].update(restrained=False)),
    ("nobody answers", lambda data: data["existing"][0].pop("confirmed_by")),
    ("an empty answer", lambda data: data["existing"][0].update(confirmed_by="   ")),
    ("value of the plate", lambda data: data["existing"][1].pop("F_c_perp")),
    ("in a hanger", lambda data: data["beam"][0]["supports"][0].update(holds="hung")),
    ("clamped", lambda data: data["beam"][0]["supports"][0].update(holds="fixed")),
    ("settles", lambda data: data["beam"][0]["supports"][1].update(settles="1/8 in")),
    ("seat of the column", lambda data: data["beam"][0]["carries"][1].pop("bearing")),
    ("how the column comes on", lambda data: data["beam"][0]["carries"][1].pop("applied")),
    ("how the floor comes on", lambda data: data["beam"][0]["carries"][0].pop("applied")),
    ("from the side", lambda data: data["beam"][0]["carries"][0].update(applied="side")),
    ("from below", lambda data: data["beam"][0]["carries"][0].update(applied="below")),
    ("plies", lambda data: data["beam"][0].update(plies=2)),
    ("masonry", lambda data: data["beam"][0].update(finish="masonry veneer")),
    ("own lax limit", lambda data: data["beam"][0].update(limit_live=120, limit_why="because")),
    ("a mortise in the middle", lambda data: data["beam"][0].update(cuts=[
        {"kind": "mortise", "at": "5 ft", "length": "3 in", "depth": "2 in", "width": "1 in", "from_bottom": "6 in"}])),
    ("timber graded over its middle", lambda data: data["stock"][0].update(size="6x12 dressed")),
    ("incised timber", lambda data: data["stock"][0].update(size="6x8 dressed", incised=True)),
    ("low confidence", lambda data: data["stock"][0].update(species="Redwood", agency="RIS")),
]  # fmt: skip


@pytest.mark.parametrize("change", [change for _, change in WITHOUT], ids=[name for name, _ in WITHOUT])
def test_without_it_nothing_passes(change: Callable[[Data], Any]) -> None:
    data = good()
    change(data)
    for table in ("stock", "beam"):
        data[table] = [{key: value for key, value in entry.items() if value is not None} for entry in data[table]]
    assert verdict_of(data).verdict != "passes"


@pytest.mark.parametrize("first", range(0, len(WITHOUT), 7))
def test_taking_away_more_never_mends_it(first: int) -> None:
    """Dropping evidence never turns refer or fails into passes: two at a time, where they are not the same thing."""
    for _, change in WITHOUT[first : first + 7]:
        for _, other in (WITHOUT[3], WITHOUT[7], WITHOUT[10]):
            if other is change:
                continue
            data = good()
            change(data)
            other(data)
            data["stock"] = [{key: value for key, value in one.items() if value is not None} for one in data["stock"]]
            assert verdict_of(data).verdict != "passes"


class TestWords:
    def test_an_assumed_grade_is_preliminary(self) -> None:
        result = result_of(wood=stock(grade_from="assumed"))
        assert result.verdict == "refer"
        assert "PRELIMINARY: the grade of stock 'wood' is assumed; have it graded" in said(result, "refer")

    def test_a_rough_size_is_only_a_name(self) -> None:
        result = result_of(wood=stock("6x12 rough"))
        assert "measure the least section" in said(result, "refer")
        assert result_of(wood=stock("6 in x 12 in", meant=SAWN)).verdict == "passes"

    def test_low_confidence(self) -> None:
        wood = stock("6x12 dressed", species="Redwood", agency="RIS")
        result = result_of(wood=wood)
        assert "the tabulated values are recalled with low confidence" in said(result, "refer")
        asked = [question for check in result.checks for question in check.questions]
        assert any("agree with the printed table?" in question.ask for question in asked)

    def test_values_by_letter_are_evidence(self) -> None:
        assert result_of(wood=known("6 in x 12 in")).verdict == "passes"
        assumed = result_of(wood=known("6 in x 12 in") | {"grade_from": "assumed"})
        assert "PRELIMINARY" in said(assumed, "refer")

    def test_treated_wood_with_values_by_letter(self) -> None:
        assert result_of(wood=known("6 in x 12 in") | {"treated": True}).verdict == "passes"


class TestWetAndGreen:
    """NDS 2018 4.3.3 with the project's rule: wet unless metered (or stamped and dressed lumber)."""

    @pytest.mark.parametrize(("said_", "metered", "C_M"), [
        ("dry", "12 %", 1.0), ("dry", "19 %", 1.0), ("dry", "20 %", 0.67), ("dry", None, 0.67), ("green", "12 %", 0.67),
        ("wet", None, 0.67),
    ])  # fmt: skip
    def test_bearing_of_a_timber(self, said_: str, metered: str | None, C_M: float) -> None:
        wood = stock(moisture=said_) | ({"measured_moisture": metered} if metered else {})
        if metered is None:
            del wood["measured_moisture"]
        assert find(result_of(wood=wood), "bearing at support 1 on wall").capacity == pytest.approx(625 * C_M)

    def test_stamped_lumber_said_to_be_dry(self) -> None:
        wood = stock("4x12")
        del wood["measured_moisture"]
        assert find(result_of(wood=wood), "bearing at support 1 on wall").capacity == pytest.approx(625)


class TestVerdicts:
    @pytest.mark.parametrize(("ratio", "strict", "verdict"), [
        (0.0, False, "passes"), (1.0, False, "passes"), (1.0, True, "fails"), (0.9999999999, True, "passes"),
        (1.0000000000000002, False, "fails"), (float("inf"), False, "refer"), (float("nan"), False, "refer"),
        (float("nan"), True, "refer"), (None, False, "refer"), (-0.5, False, "refer"), (-math.inf, False, "refer"),
    ])  # fmt: skip
    def test_one_ratio(self, ratio: float | None, strict: bool, verdict: str) -> None:
        """Never rounded into passing; eq. 3.9-4 asks for less than 1."""
        assert judge(ratio, strict=strict) == verdict

    @pytest.mark.parametrize(("several", "verdict"), [
        ([], "refer"), (["passes"], "passes"), (["passes", "refer"], "refer"), (["refer", "fails"], "fails"),
        (["fails", "passes"], "fails"),
    ])  # fmt: skip
    def test_several(self, several: list[Verdict], verdict: str) -> None:
        assert worst(several) == verdict
