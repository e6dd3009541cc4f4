"""What a survey asks of whom, what its papers lift, what it indicates and what a profile says: at their limits."""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.survey.findings import findings
from beamcheck.checks.survey.indicated import indicated, indicated_table, strength_ratios
from beamcheck.checks.survey.profile import profile_table
from beamcheck.checks.survey.timber import _another, _longer_than, _one_of_many, confirm_table, survey_checks
from beamcheck.model.beams import Beam
from beamcheck.model.posts import Post
from beamcheck.model.stock import Stock
from beamcheck.values.conditions import clear_wood as table
from beamcheck.values.lumber import read_size

from .timbers import CERTIFICATE, CLEAN, Data, data

LETTER: Data = {"grade_from": "engineer", "evidence": "letter no. 7 of 9 May 2025, A. Example, structural engineer"}


def timber(survey: Data | None = None, **wood: Any) -> Stock:
    return Stock.model_validate({**data()["stock"][0], "survey": {**CLEAN, **(survey or {})}, **wood})


def unseen() -> Stock:
    """One that nobody surveyed."""
    return timber().model_copy(update={"survey": None})


# ---- whom it is for -------------------------------------------------------------------------------------------------


TWO: Data = {"knots": [{"at": f"{x} ft", "face": "left", "width": "2 1/2 in"} for x in (3, 7)], "fire": "smoke only"}


@pytest.mark.parametrize(
    ("paper", "asked"),
    [({}, ["grader", "grader", "engineer"]), (CERTIFICATE, ["engineer"]),
     ({**CERTIFICATE, **LETTER}, []), ({**CERTIFICATE, "evidence": "certificate no. 22, A. Example, grader"},
                                       ["survey_certificate", "grader", "grader", "engineer"])],
)  # fmt: skip
def test_who_is_asked_beside_which_paper(paper: Data, asked: list[str]) -> None:
    """A grader's certificate covers what is a grader's; an engineer's letter all; a paper without a day nothing."""
    stock = timber(TWO, **paper)
    found = findings(stock)
    checks = list(survey_checks("B1", stock, found))
    ids = [one.questions[0].id.rpartition("/")[2] for one in checks if one.verdict == "refer"]
    assert [
        one.removeprefix("survey_").partition(" of ")[0] if "certificate" not in one else one for one in ids
    ] == asked
    assert ("edge knot 2" in " ".join(ids)) is (asked.count("grader") == 2)  # each has a question of its own
    open_ = [row[0] for row in confirm_table(found, stock).rows if not row[1].startswith("species and grade")]
    wanted = sorted(one for one in asked if one != "survey_certificate")
    assert open_ == (wanted or ["nobody"] if paper else wanted)
    clean = sum(one.for_whom == "nothing" for one in found)
    assert f"{clean} entries that ask for nobody" in " ".join(one.what for one in checks)
    assert confirm_table(found, stock).note == f"{clean} more entries of the survey ask for nobody."


def test_what_is_covered_by_a_paper_says_so_and_a_written_no_fails() -> None:
    stock = timber(TWO, **CERTIFICATE)
    kept = [one for one in survey_checks("B1", stock, findings(stock)) if one.what == "found in the survey: edge knot"]
    assert [one.verdict for one in kept] == ["passes", "passes"] and "graded with it" in kept[0].notes[0]
    no = timber({"rejected": "A. Example, grader, 9 May 2025, no. 3: not fit"}, **CERTIFICATE)
    assert "fails" in [one.verdict for one in survey_checks("B1", no, findings(no))]


@pytest.mark.parametrize(
    ("words", "name", "other"),
    [("certificate 4 for timber 7", "timber 2", "timber 7"), ("for timber 2 and timber 7", "timber 2", ""),
     ("for Timber-2", "timber 2", ""), ("certificate no. 4", "timber 2", ""), ("for timber 7", "old timber", ""),
     ("for timber 2", "timber2", ""), ("for timber 22", "timber 2", "timber 22")],
)  # fmt: skip
def test_a_paper_that_names_another_timber(words: str, name: str, other: str) -> None:
    assert _another(words, name) == other


@pytest.mark.parametrize(("long", "said"), [("14 ft", False), ("13 ft 11 in", False), ("13 ft 10.9 in", True)])
def test_a_timber_longer_than_its_piece_by_more_than_an_inch(long: str, said: bool) -> None:
    beam = Beam.model_validate({**data()["beam"][0], "length": long})
    assert bool(list(_longer_than(beam, timber()))) is said
    post = Post.model_validate({"name": "P", "stock": "w", "height": long, "on": "slab", "top_restraint": "pinned"})
    assert bool(list(_longer_than(post, timber()))) is said
    assert not list(_longer_than(None, timber())) and not list(_longer_than(beam, unseen()))


def test_one_timber_stands_for_itself_alone() -> None:
    beam = Beam.model_validate(data()["beam"][0])
    assert not list(_one_of_many(beam))
    row = Beam.model_validate({**data()["beam"][0], "spacing": "4 ft"})
    assert [(one.for_whom, one.text) for one in _one_of_many(row)] == [
        ("grader", "one timber was looked at, and the entry stands for a row of them, 4 ft apart")]  # fmt: skip

    class Pair:
        pair, spacing = True, None

    assert "a pair of them" in next(_one_of_many(Pair())).text


# ---- what it indicates (ASTM D245) -------------------------------------------------------------------------------


NARROWED = 1.0 - (4.0 - 1.0 / 24.0) / math.sqrt(6.0 * (7.5 + 0.5))  # D245, memory


def seen(**survey: Any) -> tuple[float, float]:
    stock = timber(survey)
    assert stock.survey is not None
    found = strength_ratios(stock.survey, read_size(stock.size))
    assert found is not None
    return found.bending, found.compression


@pytest.mark.parametrize(
    ("face", "place", "width", "bending", "compression"),
    [
        # (1 - d/h)^2 at the edge of the wide face, 1 - d/h in its middle; on a narrow face over 6 in as below
        ("left", "edge", 3.0, (1.0 - 3.0 / 9.5) ** 2, 1.0 - 3.0 / 9.5),
        ("right", "center", 5.0, 1.0 - 5.0 / 9.5, 1.0 - 5.0 / 9.5),
        ("bottom", "edge", 4.0, NARROWED, 1.0 - 4.0 / 7.5),
        ("top", "center", 4.0, NARROWED, 1.0 - 4.0 / 7.5),
    ],
)  # fmt: skip
def test_strength_ratio_of_a_knot(face: str, place: str, width: float, bending: float, compression: float) -> None:
    knots = [{"at": "7 ft", "face": face, "place": place, "width": f"{width} in"}]
    assert seen(knots=knots) == pytest.approx((bending, compression), rel=0.01)
    smaller = [*knots, {"at": "2 ft", "face": "left", "width": "1/2 in"}]
    assert seen(knots=smaller) == seen(knots=knots)  # the lowest anywhere


def test_what_was_not_measured_has_no_ratio() -> None:
    stock = timber({"knots": None})
    assert stock.survey is not None and strength_ratios(stock.survey, read_size(stock.size)) is None
    none = timber({"grain": []})
    assert none.survey is not None and strength_ratios(none.survey, read_size(none.size)) is None
    shown = indicated_table(none)
    assert shown is not None and shown.rows == (("none",),) and "not both measured" in shown.note


def test_build_up_of_each_stress_from_clear_wood() -> None:
    """B_05 = mean - 1.645 sd; bending SR/2.1 and (2/d)^(1/9), tension 0.55 of that without depth, shear at a ratio of
    1/2, compression SR/1.9 (softwood; ASTM D245 and D2555, memory)."""
    for one in table.clear_wood("Eastern Hemlock"):
        wood = one.value
        low = {name: mean - 1.645 * sd for name, (mean, sd) in
               (("MOR", wood.MOR), ("F_v", wood.F_v), ("F_c", wood.F_c))}  # fmt: skip
        pad = SilentPad()
        bending = indicated(pad, wood, "bending", 0.6, 9.5)
        assert bending == pytest.approx(low["MOR"] * 0.6 / 2.1 * (2.0 / 9.5) ** (1.0 / 9.0), rel=1e-3)
        assert indicated(pad, wood, "tension", 0.6) == pytest.approx(0.55 * low["MOR"] * 0.6 / 2.1, rel=1e-3)
        assert indicated(pad, wood, "shear") == pytest.approx(0.5 * low["F_v"] / 2.1, rel=1e-3)
        assert indicated(pad, wood, "compression", 0.6) == pytest.approx(low["F_c"] * 0.6 / 1.9, rel=1e-3)


def test_the_table_of_what_it_indicates() -> None:
    """The lowest of each where there are several; woods without clear values are named; E to the next 10,000 psi."""
    both = indicated_table(timber())
    assert both is not None and [row[0] for row in both.rows] == [
        "Eastern White Pine",
        "Eastern Hemlock",
        "lowest of each",
    ]
    figures = [[float(cell.split()[0].replace(",", "")) for cell in row[4:9]] for row in both.rows]
    assert figures[2] == [min(pair) for pair in zip(*figures[:2], strict=True)]
    assert all(figure % 10000 == 0 for figure in (row[4] for row in figures))
    assert both.rows[2][2] == min(row[2] for row in both.rows[:2]) and both.rows[2][1] == ""
    one = indicated_table(timber(None, candidates=["Eastern Hemlock"]))
    assert one is not None and len(one.rows) == 1 and "nothing is indicated" not in one.note
    known = indicated_table(timber(None, **CERTIFICATE))
    assert known is not None and known.rows[0][0] == "Eastern Hemlock" and known.rows[0][9] != "none"
    assert indicated_table(unseen()) is None


# ---- a profile ------------------------------------------------------------------------------------------------------


def test_a_profile_that_was_made_and_one_that_was_not() -> None:
    made, open_ = (profile_table(timber({"readings": [{"at": "7 ft", "moisture": "13 %", "deep": deep}]}), None)
                   for deep in ("3 in", "1 in"))  # fmt: skip
    assert made is not None and made.heads == ("where", "reading", "what it says") and made.note.startswith("As made. ")
    assert open_ is not None and open_.heads == ("reading", "what it rules out")
    assert open_.note.startswith("As it would be read, before it is made. ")


def profile(*readings: tuple[int, float, float | None], **wood: Any) -> list[tuple[str, ...]]:
    read = [{"at": f"{at} ft", "moisture": f"{p} %"} | ({} if deep is None else {"deep": f"{deep} in"})
            for at, p, deep in readings]  # fmt: skip
    found = profile_table(timber({"readings": read}, **wood), None)
    assert found is not None
    return list(found.rows)


@pytest.mark.parametrize(("face", "says"), [(11.0, "still drying"), (11.1, "at rest"), (16.0, "at rest")])
def test_a_core_four_points_wetter_than_its_face_still_dries(face: float, says: str) -> None:
    """A core reading is 0.4 of 7 1/2 in deep, 3 in; the nearest of the others is its face."""
    ((where, reading, words),) = profile((7, 15.0, 3.0), (8, face, 1.0), (2, 5.0, 1.0))
    assert where == "7 ft" and reading == f"15 % in the core, {face:g} % nearer the face" and words.startswith(says)


def test_a_core_alone_and_readings_that_are_no_core() -> None:
    assert profile((7, 15.0, 3.0)) == [("7 ft", "15 % in the core", "no reading nearer the face to hold it against")]
    assert len(profile((7, 15.0, 2.9))[0]) == 2 and len(profile((7, 15.0, None))[0]) == 2  # still to be made
    assert profile_table(unseen(), None) is None


def test_what_a_profile_would_say_of_woods_of_no_table_and_of_wet_ones() -> None:
    dry = dict(profile((7, 13.0, None)))["19 % or less from face to core"]
    assert dry.startswith("wet service is ruled out: bearing x 0.67, compression x 0.91 and creep 2 in place of 1.5")
    assert "its depth of 9 1/2 in shrinks by at most 0.287 in" in dry
    wet = dict(profile((7, 13.0, None), moisture="wet"))["19 % or less from face to core"]
    assert wet.startswith("nothing, as it is wet in service")
    core = dict(profile((7, 13.0, None)))
    assert core["over 19 % in the core, whatever the face reads"].endswith("shrinks by at most 0.517 in")
    assert "core 4 points or more over the face" in core and "over 20 % anywhere" in core
