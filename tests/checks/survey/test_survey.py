"""A survey screens: what it finds, whom it asks, what lifts it, and that a worse timber never does better."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.core.result import PieceResult
from beamcheck.checks.core.wood.lost import Lost, least_breadth, losses_of, lost_net
from beamcheck.checks.core.wood.strength import Section
from beamcheck.checks.job import check_job
from beamcheck.checks.survey.findings import ENTRIES, findings
from beamcheck.checks.survey.indicated import indicated_table, strength_ratios
from beamcheck.errors import JobError
from beamcheck.model.conditions.survey import Survey
from beamcheck.model.reading.reader import job_from_data
from beamcheck.model.stock import Stock
from beamcheck.values.lumber import read_size

from .timbers import CERTIFICATE, CLEAN, Data, data, found, result

ORDER = {"nothing": 0, "grader": 1, "engineer": 2}


def stock(**survey: Any) -> Stock:
    return job_from_data(data(survey)).stock[0]


def whom(entry: str, **survey: Any) -> str:
    return max((one.for_whom for one in findings(stock(**survey)) if one.entry == entry), key=ORDER.__getitem__)


class TestSectionLoss:
    """Reference: section by parts; wane of 8x8 by a textbook's triangles (derived)."""

    @pytest.mark.parametrize(("leg", "share"), [(2.0, 0.81), (1.0, 0.95)])
    def test_both_bottom_corners_of_8x8(self, leg: float, share: float) -> None:
        lost = Lost(0.0, 1.0, 0.0, 0.0, ((leg, False), (leg, False)), "wane")
        S, *_ = lost_net(SilentPad(), Section(8.0, 8.0, 8.0), lost)
        assert pytest.approx(share, abs=0.006) == S / (8.0**3 / 6.0)

    def test_faces_come_off_whole(self) -> None:
        lost = Lost(0.0, 1.0, 0.5, 1.0, (), "decay")
        S, A, d, I_n = lost_net(SilentPad(), Section(7.5, 9.5, 7.5), lost)
        assert (S, A, d, I_n) == pytest.approx((7.0 * 8.5**2 / 6, 7.0 * 8.5, 8.5, 7.0 * 8.5**3 / 12))

    def test_between_two_stations_the_lesser_counts_and_decay_takes_an_inch_more(self) -> None:
        small = [{"at": "1 ft", "breadth": "7 1/2 in", "depth": "9 1/2 in"},
                 {"at": "7 ft", "breadth": "7 1/4 in", "depth": "9 1/2 in"},
                 {"at": "13 ft", "breadth": "7 1/2 in", "depth": "9 in"}]  # fmt: skip
        rot = [{"what": "decay", "start": "12 ft", "end": "14 ft", "where": "bottom", "depth": "1/2 in"}]
        zones = losses_of(stock(stations=small, losses=rot, decay="rot"))
        at_5, at_10, at_13 = (
            next(z for z in zones if z.at - 0.5 * z.length <= x <= z.at + 0.5 * z.length) for x in (60, 120, 155)
        )
        assert (at_5.width, at_5.depth) == pytest.approx((0.25, 0.0))
        assert (at_10.width, at_10.depth) == pytest.approx((0.25, 0.5))
        assert (at_13.width, at_13.depth) == pytest.approx((0.25, 0.5 + 1.5))

    def test_the_beam_is_checked_with_what_is_left_at_that_place(self) -> None:
        """Bending in the lost stretch is M over the S that is left there, by hand from the whole section's stress."""
        wane = [{"what": "hewing", "start": "6 ft", "end": "8 ft", "where": "bottom", "depth": "1 in"}]
        piece = result({"losses": wane}, CERTIFICATE)
        whole = next(check for check in piece.checks if check.id == "beam.bending")
        there = next(check for check in piece.checks if check.id == "beam.bending.cut")
        assert there.ratio == pytest.approx((whole.ratio or 0.0) * (9.5 / 8.5) ** 2, rel=0.01)

    def test_a_seat_bears_on_the_breadth_that_is_left(self) -> None:
        wane = [{"what": "wane", "start": "0 ft", "end": "1 ft", "where": "bottom left", "depth": "1 1/2 in"}]
        assert least_breadth(stock(losses=wane), 0.0, 6.0) == pytest.approx(1.5)
        seats = [check.ratio for check in result({"losses": wane}, CERTIFICATE).checks if check.id == "beam.bearing"]
        assert (seats[0] or 0) / (seats[1] or 1) == pytest.approx(7.5 / 6.0, rel=0.01)

    def test_nothing_left_fails(self) -> None:
        both = [{"what": "decay", "start": "6 ft", "end": "8 ft", "where": face, "depth": "3 1/2 in"}
                for face in ("left", "right")]  # fmt: skip
        assert "nothing is left" in found(result({"losses": both, "decay": "rot"}, CERTIFICATE), "fails")


class TestFindings:
    @pytest.mark.parametrize(
        ("entry", "survey", "for_whom"),
        [
            ("moisture", {"readings": [{"at": "1 ft", "moisture": "21 %"}]}, "grader"),
            ("moisture", {"readings": [{"at": "1 ft", "moisture": "32 %"}]}, "engineer"),
            ("outside the meter", {"readings": [{"at": "1 ft", "moisture": "5 %"}]}, "grader"),
            ("outside the meter", {"readings": [{"at": "1 ft", "moisture": "5 %"}], "meter": "plate"}, "nothing"),
            ("slope of grain", {"grain": [{"face": "left", "one_in": 10}]}, "nothing"),
            ("slope of grain", {"grain": [{"face": "left", "one_in": 8}]}, "grader"),
            ("slope of grain", {"grain": [{"face": "left", "one_in": 6}]}, "engineer"),
            ("edge knot", {"knots": [{"at": "7 ft", "face": "left", "width": "2 1/2 in"}]}, "grader"),
            ("edge knot", {"knots": [{"at": "7 ft", "face": "left", "width": "2 in"}]}, "nothing"),
            ("narrow face knot", {"knots": [{"at": "7 ft", "face": "bottom", "width": "4 in"}]}, "grader"),
            ("unsound knot", {"knots": [{"at": "7 ft", "face": "top", "width": "1 in", "sound": False}]}, "grader"),
            ("end split", {"openings": [{"kind": "split", "start": "0 ft", "end": "10 in"}]}, "grader"),
            ("end split", {"openings": [{"kind": "split", "start": "0 ft", "end": "15 in"}]}, "engineer"),
            ("split away from the ends", {"openings": [{"kind": "split", "start": "5 ft", "end": "6 ft"}]}, "engineer"),
            ("checks at the ends",
             {"openings": [{"kind": "check", "start": "0 ft", "end": "2 ft", "depth": "2 in", "other_side": "2 in"}]},
             "engineer"),
            ("split at bolts",
             {"openings": [{"kind": "check", "start": "5 ft", "end": "6 ft", "depth": "1 in", "at_bolts": True}]},
             "engineer"),
            ("decay", {"decay": "dull, soft or short break"}, "engineer"),
            ("insects, old", {"insects": "old holes"}, "grader"),
            ("insects, active", {"insects": "active"}, "engineer"),
            ("seat crushed", {"crushed": "3/16 in"}, "engineer"),
            ("fire", {"fire": "char"}, "engineer"),
            ("sag", {"sag": "3/4 in"}, "engineer"),
            ("use", {"use": "more load, a new cut, or a support gone"}, "engineer"),
            ("faces not seen", {"not_seen": ["top"]}, "grader"),
            ("section lost",
             {"losses": [{"what": "hewing", "start": "6 ft", "end": "8 ft", "where": "top", "depth": "1 in"}]},
             "engineer"),
        ],
    )  # fmt: skip
    def test_an_entry_is_for(self, entry: str, survey: Data, for_whom: str) -> None:
        assert whom(entry, **survey) == for_whom

    def test_a_clean_survey_asks_nobody_but_for_the_grade(self) -> None:
        assert {one.for_whom for one in findings(stock())} == {"nothing"}
        piece = result()
        open_ = {question.who for check in piece.checks if check.verdict == "refer" for question in check.questions}
        assert piece.verdict == "refer" and "grader" in open_ and "engineer" not in open_

    @pytest.mark.parametrize("entry", [name for name in ENTRIES if name not in ("readings",)])
    def test_what_was_not_looked_at_is_asked(self, entry: str) -> None:
        survey = {key: value for key, value in CLEAN.items() if key != entry}
        bare = Stock.model_validate({**data()["stock"][0], "survey": survey})
        assert next(one for one in findings(bare) if one.entry == "not looked at").for_whom == "grader"


class TestWhatLifts:
    def test_a_certificate_with_name_date_and_number(self) -> None:
        assert result({"insects": "old holes"}, CERTIFICATE).verdict == "passes"

    @pytest.mark.parametrize(
        "words",
        ["A. Example, grader, certificate no. 22", "grading certificate of 9 May 2025", "grader, 9 May 2025",
         "certificate no. 22 of 9 May 2025, to be signed by the grader"],
    )  # fmt: skip
    def test_one_that_cannot_be_found_again_lifts_nothing(self, words: str) -> None:
        piece = result({"insects": "old holes"}, {**CERTIFICATE, "evidence": words})
        assert piece.verdict == "refer" and "does not say" in found(piece, "refer")

    def test_a_grader_does_not_answer_for_what_is_an_engineers(self) -> None:
        assert result({"decay": "rot"}, CERTIFICATE).verdict == "refer"
        letter = {**CERTIFICATE, "grade_from": "engineer",
                  "evidence": "letter no. 7 of 9 May 2025 of A. Example, licensed engineer"}  # fmt: skip
        assert result({"decay": "rot"}, letter).verdict == "passes"

    def test_a_stamp_of_old_days_does_not_cover_what_came_since(self) -> None:
        stamped = {**CERTIFICATE, "grade_from": "stamp", "evidence": "stamp NELMA, mill 12, No.1, E HEM"}
        assert result({"insects": "old holes"}, stamped).verdict == "refer"

    def test_a_ruling_of_an_engineer(self) -> None:
        job = data({"decay": "rot"}, CERTIFICATE)
        (asked,) = (one for one in result({"decay": "rot"}, CERTIFICATE).questions if one.who == "engineer")
        key, by = asked.id.removeprefix("B1/"), "A. Example, licensed engineer"
        job["ruling"] = [{"on": "B1", "question": key, "says": "accepted", "date": "2025-05-10", "by": by,
                          "document": "letter no. 8"}]  # fmt: skip
        assert check_job(job_from_data(job)).pieces[0].verdict == "passes"

    def test_a_written_no_fails(self) -> None:
        no = {"rejected": "A. Example, grader, letter no. 18 of 4 May 2025: decay at the east end"}
        piece = result(no, CERTIFICATE)
        assert piece.verdict == "fails" and "letter no. 18" in found(piece, "fails")

    def test_the_sheet_says_what_to_have_confirmed(self) -> None:
        piece = result({"decay": "rot", "insects": "old holes"})
        (table,) = (one for one in piece.tables if one.title == "To be confirmed in writing")
        assert [row[0] for row in table.rows] == ["grader", "engineer", "grader"]


class TestIndicated:
    def test_the_lowest_ratio_counts_and_the_lowest_candidate_is_named(self) -> None:
        """1 in 12 and 1 in 16 together are 1 in 9.6, counted as 1 in 8: 0.53; a 2 in edge knot of 9.5 in: 0.623."""
        survey = stock(grain=[{"face": "left", "one_in": 12}, {"face": "top", "one_in": 16}],
                       knots=[{"at": "7 ft", "face": "left", "width": "2 in"}])  # fmt: skip
        assert survey.survey is not None
        seen = strength_ratios(survey.survey, read_size(survey.size))
        assert seen is not None and seen.bending == pytest.approx(0.53) and "slope" in seen.bending_by
        table = indicated_table(survey)
        assert table is not None and table.rows[-1][0] == "lowest of each"
        # white pine: 3632 psi * 0.53/2.1 * (2/9.5)^(1/9) = 771 psi; hemlock 1,004 psi
        assert [row[4] for row in table.rows] == ["771 psi", "1,004 psi", "771 psi"]

    def test_heart_checks_take_a_sixth_of_bending(self) -> None:
        plain, checked = (indicated_table(stock(heart_checks=how)) for how in ("no", "to an end or the tension face"))
        assert plain is not None and checked is not None
        first, second = (float(one.rows[0][4].split()[0].replace(",", "")) for one in (plain, checked))
        assert second / first == pytest.approx(0.85, abs=0.002)
        assert plain.rows[0][8] == checked.rows[0][8]  # the modulus stays

    def test_grain_too_steep_indicates_nothing(self) -> None:
        table = indicated_table(stock(grain=[{"face": "left", "one_in": 5}]))
        assert table is not None and table.rows == (("none",),)

    def test_it_changes_no_check(self) -> None:
        good, bad = result(), result({"knots": [{"at": "7 ft", "face": "left", "width": "2 in"}]})
        figures = [[check.ratio for check in one.checks if check.ratio is not None] for one in (good, bad)]
        assert figures[0] == figures[1]


class TestBadInput:
    @pytest.mark.parametrize(
        ("survey", "where", "text"),
        [
            ({"stations": CLEAN["stations"][:2]}, "stations", "2 only"),
            ({"readings": [{"at": "15 ft", "moisture": "12 %"}]}, "readings 1, at", "the timber is 14 ft long"),
            ({"readings": [{"at": "1 ft", "moisture": "230 %"}]}, "readings 1, moisture", "230"),
            ({"knots": [{"at": "1 ft", "face": "top", "width": "8 in"}]}, "knots 1, width", "does not fit on a face"),
            ({"losses": [{"what": "decay", "start": "1 ft", "end": "2 ft", "where": "top", "depth": "10 in"}]},
             "losses 1, depth", "nothing is left"),
            ({"losses": [{"what": "wane", "start": "1 ft", "end": "2 ft", "where": "top", "depth": "1 in"}]},
             "losses 1, where", "from a corner"),
            ({"openings": [{"kind": "check", "start": "2 ft", "end": "1 ft", "depth": "1 in"}]}, "openings 1, end",
             "exchange the two"),
            ({"openings": [{"kind": "check", "start": "1 ft", "end": "2 ft"}]}, "openings 1, depth", "feeler"),
            ({"meter": None}, "meter", "which kind of meter"),
            ({"length": "10 ft"}, "", "10 ft"),
            ({"sag_test": {"span": "13 ft", "weight": "600 lb", "sag": "0.1 in"}}, "supports_sank", "watched"),
            ({"sag_test": {"span": "13 ft", "weight": "600 lb", "sag": "0.1 in", "supports_sank": "0.08 in",
                           "sag_off": "1/16 in"}}, "sag_test, sag", "it says nothing so"),
            ({"weighing": {"weight": "10 lb", "weight_off": "12 lb", "length": "2 ft", "moisture": "12 %"}},
             "weighing, weight", "no larger than its error"),
            ({"weighing": {"weight": "900 lb", "length": "2 ft", "moisture": "12 %"}}, "weighing, weight", "no wood"),
            ({"weighing": {"weight": "2 lb", "length": "12 ft", "moisture": "12 %"}}, "weighing, weight", "is no wood"),
            ({"weighing": {"weight": "30 lb", "length": "2 ft", "breadth": "20 in", "moisture": "12 %"}},
             "weighing, breadth", "no larger than its timber"),
            ({"readings": [{"at": "1 ft", "moisture": "12 %", "deep": "20 in"}]}, "readings 1, deep", "20 in deep"),
            ({"sag_test": {"span": "13 ft", "weight": "6,000 lb", "sag": "0.1 in", "supports_sank": "0 in",
                           "sag_off": "0.01 in"}}, "sag_test, sag", "no wood has over 4"),
            ({"stations": [{**CLEAN["stations"][0], "at": "-1 ft"}, *CLEAN["stations"][1:]]}, "stations 1, at",
             "a length has no sign"),
            ({"stations": [{**CLEAN["stations"][0], "at": "15 ft"}, *CLEAN["stations"][1:]]}, "stations 1, at",
             "the timber is 14 ft long"),
        ],
    )  # fmt: skip
    def test_what_cannot_be_is_told_with_its_place(self, survey: Data, where: str, text: str) -> None:
        with pytest.raises(JobError) as caught:
            job_from_data(data(survey))
        assert text in str(caught.value) and where in str(caught.value)

    def test_a_survey_is_of_one_timber(self) -> None:
        job = data()
        job["beam"].append({**job["beam"][0], "name": "B2"})
        with pytest.raises(JobError, match="a survey is of one timber"):
            job_from_data(job)

    def test_a_piece_longer_than_what_was_looked_at(self) -> None:
        with pytest.raises(JobError, match="the survey looked at 14 ft"):
            job_from_data(data(length="16 ft"))


def _worst(piece: PieceResult) -> float:
    return max(check.ratio for check in piece.checks if check.ratio is not None)


@settings(max_examples=15)
@given(depth=st.floats(0.1, 2.0), more=st.floats(0.05, 1.0), where=st.sampled_from(["top", "bottom", "left", "right"]))
def test_a_deeper_loss_never_helps(depth: float, more: float, where: str) -> None:
    def lost(deep: float) -> PieceResult:
        loss = {"what": "hewing", "start": "5 ft", "end": "9 ft", "where": where, "depth": f"{deep} in"}
        return result({"losses": [loss]}, CERTIFICATE)

    assert _worst(lost(depth + more)) >= _worst(lost(depth)) * (1 - 1e-9)


@settings(max_examples=40)
@given(width=st.floats(0.1, 7.0), more=st.floats(0.01, 0.4), face=st.sampled_from(["left", "top"]))
def test_a_wider_knot_never_helps(width: float, more: float, face: str) -> None:
    def seen(wide: float) -> float:
        survey = Survey.model_validate({**CLEAN, "knots": [{"at": "7 ft", "face": face, "width": f"{wide} in"}]})
        ratios = strength_ratios(survey, read_size("7 1/2 in x 9 1/2 in"))
        assert ratios is not None
        return ratios.bending

    assert seen(width + more) <= seen(width) + 1e-12


def test_an_unknown_never_beats_the_worst_known_candidate() -> None:
    ranks = {"fails": 0, "refer": 1, "passes": 2}
    for live in ("20 psf", "60 psf", "110 psf", "200 psf"):
        unknown = result(live=live)
        known = [result(stock={**CERTIFICATE, "species": one, "grade": grade}, live=live).verdict
                 for one in ("Eastern White Pine", "Eastern Hemlock") for grade in ("No.2", "No.1")]  # fmt: skip
        assert ranks[unknown.verdict] <= max(1, min(ranks[one] for one in known)) and unknown.verdict != "passes"


@pytest.mark.parametrize("what", ["stations", "losses", "cuts"])
def test_what_lies_beyond_the_piece_is_cut_off_it(what: str) -> None:
    """A timber of 20 ft for a beam of 14 ft: what was found at 17 ft is not in it, and that is said."""
    stations = [{"at": at, "breadth": "7 1/2 in", "depth": "9 1/2 in"} for at in ("1 ft", "10 ft", "14 ft")]
    beyond: dict[str, Any] = {
        "stations": [*stations, {"at": "17 ft", "breadth": "7 in", "depth": "9 in"},
                     {"at": "19 ft", "breadth": "7 in", "depth": "9 in"}],
        "losses": [{"what": "decay", "start": "17 ft", "end": "18 ft", "where": "bottom", "depth": "2 in"}],
        "cuts": [{"kind": "notch", "at": "17 ft", "length": "4 in", "depth": "3 in", "face": "bottom"}],
    }  # fmt: skip
    long = {"length": "20 ft", "stations": [*stations, {"at": "19 ft", "breadth": "7 1/2 in", "depth": "9 1/2 in"}]}
    whole, found_there = result(long, CERTIFICATE), result({**long, what: beyond[what]}, CERTIFICATE)
    assert [one.ratio for one in whole.checks if one.ratio] == [one.ratio for one in found_there.checks if one.ratio]
    assert any("begins at the left end of the timber" in one for one in found_there.assumptions)


WORSE: dict[str, list[Any]] = {  # of each entry what was found, milder first
    "readings": [[{"at": "7 ft", "moisture": f"{percent} %"}] for percent in (13, 19, 21, 31)],
    "grain": [[{"face": "left", "one_in": run}] for run in (20, 12, 8, 5)],
    "openings": [[], *([{"kind": "split", "start": "0 ft", "end": end}] for end in ("10 in", "12 in", "2 ft"))],
    "cuts": [[], *([{"kind": "hole", "at": "5 ft", "depth": wide, "face": "side", "from_bottom": "4 3/4 in"}]
                   for wide in ("1/2 in", "2 in", "3 in"))],
    "insects": ["none", "old holes", "active"],
    "crushed": ["0 in", "1/8 in", "1/4 in"],
    "sag": ["1/4 in", "1 in", "2 in"],
}  # fmt: skip


@pytest.mark.parametrize("entry", WORSE)
def test_a_worse_defect_never_helps(entry: str) -> None:
    """No ratio gets smaller, the verdict no better, and who has to look is never one who knows less."""
    looked, kept, ratio = -1, -1, 0.0
    for worse in WORSE[entry]:
        survey = {entry: worse}
        piece = result(survey, CERTIFICATE)
        looks = max(("nothing", "grader", "engineer").index(one.for_whom) for one in findings(stock(**survey)))
        verdict = ("passes", "refer", "fails").index(piece.verdict)
        most = max(one.ratio for one in piece.checks if one.ratio is not None)
        assert looks >= looked and verdict >= kept and most >= ratio * (1.0 - 1e-9)
        looked, kept, ratio = looks, verdict, most
