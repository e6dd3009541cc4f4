"""What keeps wood from passing: whom its words concern, sizes in words at their limits, nails, steel, the grade that is
asked for, and what a fire asks."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.core.asking.question import ask
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood import burnt as fire_of
from beamcheck.checks.core.wood.grade_asked import ask_grade
from beamcheck.checks.core.wood.group_cut import GroupCut, Void, slot_net
from beamcheck.checks.core.wood.made.nails import BOLTS, bolts_at, falls_short
from beamcheck.checks.core.wood.made.steel_section import rolled_section, shape_of
from beamcheck.checks.core.wood.material import reference_values, rows_to_screen, wood_of
from beamcheck.checks.core.wood.section import Section
from beamcheck.checks.core.wood.stated_capacity import enough, uplift_taken
from beamcheck.checks.core.wood.wood_doubts import (
    WoodDoubt,
    _alike,
    differs,
    names_grade,
    other_size,
    stated_grade_doubts,
    wood_doubts,
    wood_evidence_checks,
)  # fmt: skip
from beamcheck.errors import OutOfRange
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.model.stock import Stock
from beamcheck.values.hardware.fasteners import nail
from beamcheck.values.lumber import read_size

from ...anchors.anchors import loaded
from ...anchors.anchors import stock as sawn
from .test_made_wood_by_hand import glulam
from .test_wood_by_hand import PAPER, fire, wall

OPEN = ask("moisture", "w", "stock.w.measured_moisture")


@pytest.mark.parametrize(("upright", "shown"), [(None, ["a", "b"]), (False, ["a", "b"]), (True, ["a"])])
def test_a_doubt_of_bending_is_none_of_what_only_stands(upright: bool | None, shown: list[str]) -> None:
    doubts = (WoodDoubt("a", OPEN), WoodDoubt("b", OPEN, of_bending=True))
    found = wood_evidence_checks("B", doubts, **({} if upright is None else {"upright": upright}))
    assert [(one.notes, one.verdict, one.questions) for one in found] == [((text,), "refer", (OPEN,)) for text in shown]


@pytest.mark.parametrize(("size", "words", "more", "other"), [
    ("6x12 dressed", "No.1 post and timber", {}, "posts and timbers"),
    ("6x12 dressed", "No.1 beam and stringer", {}, ""),
    ("6x12 dressed", "No.1 P&T", {}, "posts and timbers"), ("8x8 dressed", "No.1 B&S", {}, "beams and stringers"),
    ("8x8 dressed", "No.1 Posts & Timbers", {}, ""), ("4x12", "No.1 post and timber", {}, ""),
    ("6x12 dressed", "No.1 post and timber", {"graded_as": "posts and timbers"}, ""),
    ("8x10 dressed", "No.1 as beams and stringers or posts", {}, ""),
    ("6x12 dressed", "No.1 as posts and timbers or as beams", {}, ""),
    ("6x12 dressed", "No.1, beams and stringers, posts and timbers", {}, ""), ("6x12 dressed", "No.1", {}, ""),
])  # fmt: skip
def test_the_class_that_a_certificate_names(size: str, words: str, more: dict[str, Any], other: str) -> None:
    """Douglas Fir-Larch No.1 in bending: 1,350 psi as beam and stringer, 1,200 psi as post and timber (NDS 4.1.3)."""
    stock = sawn(
        size, evidence=f"grader's letter 22 of 2026-03-04, four faces, {words}", grade_from="certificate", **more
    )
    found = [one.question for one in wood_doubts(stock, read_size(size), reference_values(stock))]
    assert [one.field for one in found] == (["stock.wood.graded_as"] if other else [])
    assert [answer.sets for one in found for answer in one.answers] == (
        [(("stock.wood.graded_as", other),)] if other else []
    )


@pytest.mark.parametrize(("words", "asks", "of_bending"), [
    ("vertical use only", "upright_only", True), ("for the posts", "evidence", True), ("glulam", "engineered", False),
    ("16 ft", None, False), ("FRT", "fire_retardant", False), ("fire-retardant-treated", "fire_retardant", False),
    ("FRT-W", "fire_retardant", False), ("ACQ, not fire retardant", None, False),
])  # fmt: skip
def test_words_that_forbid_bending(words: str, asks: str | None, of_bending: bool) -> None:
    stock = sawn("6x12 dressed", evidence=f"stamp: mill 12, No.1, {words}")
    found = list(wood_doubts(stock, read_size(stock.size), reference_values(stock)))
    told = [(one.question.id.removeprefix("wood/"), one.of_bending) for one in found]
    assert told == ([(asks, of_bending)] if asks else [])


@pytest.mark.parametrize(("evidence", "asks"), [
    ("grading certificate 12 of 2026-01-08", []), ("seen by the neighbor", ["evidence"]),
    ("grading certificate 12 of 2026-01-08, of another lot", ["evidence"]),
])  # fmt: skip
def test_a_certificate_names_its_writer_and_this_lot(evidence: str, asks: list[str]) -> None:
    stock = sawn("6x12 dressed", grade_from="certificate", evidence=evidence)
    found = list(wood_doubts(stock, read_size(stock.size), reference_values(stock)))
    assert [one.question.id.removeprefix("wood/") for one in found] == asks


def test_a_row_of_low_confidence_is_asked_about() -> None:
    stock = sawn("6x12 dressed", evidence="stamp: mill 12, No.1")
    values = reference_values(stock)
    for confidence, asks in (("low", True), ("medium", False)):
        row = replace(values, source=replace(values.source, confidence=confidence))
        ids = [one.question.id for one in wood_doubts(stock, read_size(stock.size), row)]
        assert ids == ["wood/low_confidence"] * asks


@pytest.mark.parametrize(("grade", "evidence", "named", "other"), [
    ("24F-V4/DF", "24F-V4; the posts are 20F-V3", True, False), ("24F-V4", "20F-V3 or 16F-V3", False, True),
    ("x", "20F-V3", False, False), ("24F-1.8E", "24F-1.8E", True, False),
])  # fmt: skip
def test_of_several_grades_in_words_one_is_enough(grade: str, evidence: str, named: bool, other: bool) -> None:
    assert names_grade("glulam", grade, evidence) is named and differs("glulam", grade, evidence) is other
    assert not differs("steel", "A572 Grade 50", "ASTM A572, plates A36")


@pytest.mark.parametrize(("words", "asks"), [
    ("24F-V4/DF", []), ("20F-V3", ["made_grade_differs"]), ("of glulam", ["made_grade"]), ("", ["evidence"]),
])  # fmt: skip
def test_evidence_of_a_layup(words: str, asks: list[str]) -> None:
    evidence = f"stamp: agency mark, plant 31, {words}" if words else ""
    found = list(stated_grade_doubts(glulam(evidence=evidence)))
    assert [one.question.id.rpartition("/")[2] for one in found] == asks
    if asks == ["made_grade"]:
        assert found[0].question.answers[0].sets == (("stock.w.evidence", f"{evidence}, 24F-V4/DF"),)


# ---- sizes in words -------------------------------------------------------------------------------------------------

NUMBERS = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10, "twelve": 12}


@pytest.mark.parametrize("word", NUMBERS)
def test_numbers_in_words(word: str) -> None:
    assert other_size(f"{word} by four", read_size("16x16 dressed"))[0] == "x".join(map(str, (NUMBERS[word], 4)))


@pytest.mark.parametrize(("words", "size", "written"), [
    ("5.5 in x 40 in", "6x12 dressed", "5 1/2 in x 3 ft 4 in"), ("12 x 36", "6x12 dressed", "12 in x 3 ft"),
    ("12 x 37", "6x12 dressed", "1/2 in x 1 7/16 in"),  # of no inches: no stick is wider than 36 in
    ("6 1/0 x 8", "6x12 dressed", ""), ("6x8, 6x10", "6x10 dressed", ""), ("6x10, 6x8", "6x10 dressed", ""),
])  # fmt: skip
def test_units_of_sizes_in_words(words: str, size: str, written: str) -> None:
    said, as_written = other_size(words, read_size(size))
    assert as_written.startswith(written) and bool(said) is bool(written)


@pytest.mark.parametrize(("one", "other", "alike"), [
    ((0.3, 8.0), (0.0, 8.0), True), ((4.3, 8.0), (4.9, 8.0), False), ((4.5, 8.0), (5.2, 8.0), True),
    ((4.4, 8.0), (4.8, 8.0), False), ((1.5, 5.5), (1.5, 6.2), True), ((1.5, 3.5), (1.5, 4.2), False),
    ((1.5, 9.0), (5.5, 9.0), False),
])  # fmt: skip
def test_sides_of_one_stick(one: Any, other: Any, alike: bool) -> None:
    """0.3 in apart at most where the lesser is under 4 1/2 in, else 0.8 in (judgment); both sides."""
    assert _alike(one, other) is _alike(other, one) is alike


# ---- nails and steel ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("words", "thick", "short"), [
    ("10d nails", 3.0 - 6.0 * 0.148 - 0.001, False), ("10d nails", 3.0 - 6.0 * 0.148 + 0.001, True),
    ("8d and 16 penny", 2.5, False), ("8d", 2.5, True), ("bolts", 9.0, False), ("99d", 9.0, False), ("8 d", 2.5, True),
])  # fmt: skip
def test_nails_reach_six_diameters_into_the_next_ply(words: str, thick: float, short: bool) -> None:
    """NDS 2018 12.1.6.5 (memory); 10d common: 3 in by 0.148 in (Table L4, memory). The longest that is named counts."""
    assert bool(falls_short(words, thick)) is short
    assert (nail("common", "10d").value.L, nail("common", "10d").value.D) == (3.0, 0.148)
    assert [(one.says, one.sets) for one in bolts_at("beam.B.x")] == [(BOLTS, (("beam.B.x", BOLTS),))]


STEEL: dict[str, Any] = {"name": "g", "made": "steel", "grade": "A36", "grade_from": "certificate",
                         "evidence": "no. 4, A36"}  # fmt: skip


def test_steel_is_counted_in_level_beams_on_edge_alone() -> None:
    """490 pcf and 29 million psi; it does not creep, and all of its dead load counts once; no value of wood passes."""
    stock = Stock.model_validate({**STEEL, "steel": {"shape": "W8x18"}})
    for laid, form in (("flat", "beam"), ("on edge", "post"), ("on edge", "")):
        with pytest.raises(OutOfRange, match="level beams on edge"):
            wood_of(stock, reference_values(stock), laid=laid, form=form)  # type: ignore[arg-type]
    made = wood_of(stock, reference_values(stock), form="beam")
    assert (made.K_cr.value, made.dead_share.value, made.shear_free, made.made) == (1.0, 1.0, True, "steel")
    assert made.density == pytest.approx(490.0 / 1728.0) and made.E.value == 29e6 and made.F_b.value == 1.0


def test_a_shape_by_its_name_and_as_measured() -> None:
    measured = {"depth": "8 in", "flange_width": "4 in", "flange": "3/8 in", "web": "1/4 in"}
    section = rolled_section(Stock.model_validate({**STEEL, "steel": measured}))
    assert (section.b, section.d, section.breadth_alone, section.sawn, section.round) == (4.0, 8.0, 0.25, False, False)
    assert section.shear_area == 2.0 and section.area(SilentPad()) == pytest.approx(2 * 4.0 * 0.375 + 7.25 * 0.25)
    inertia = (4.0 * 8.0**3 - 3.75 * 7.25**3) / 12.0
    assert (section.inertia(SilentPad()), section.modulus(SilentPad())) == pytest.approx((inertia, inertia / 4.0))
    named = Stock.model_validate({**STEEL, "steel": {"shape": "W8x18"}})
    assert named.steel is not None and shape_of(named.steel).d == pytest.approx(8.14)  # AISC Manual Table 1-1, memory


# ---- which wood it is -----------------------------------------------------------------------------------------------

UNSTAMPED: Any = {"grade": "unstamped", "grade_from": None, "evidence": ""}


@pytest.mark.parametrize(("wood", "best"), [
    ({}, ["Douglas Fir-Larch No.2", "Southern Pine No.2", "Spruce-Pine-Fir No.1/No.2", "Hem-Fir No.2"]),
    ({"candidates": ["Hem-Fir", "Douglas Fir-Larch"]}, ["Douglas Fir-Larch", "Hem-Fir", "Hem-Fir"]),
    ({"species": "Douglas Fir-Larch"}, ["Douglas Fir-Larch", "Douglas Fir-Larch"]),
    ({"candidates": ["Hem-Fir", "Douglas Fir-Larch", "Southern Pine", "Spruce-Pine-Fir"]}, ["", "", "", ""]),
    ({"candidates": ["No such wood"]}, []),
])  # fmt: skip
def test_woods_that_an_answer_may_name(wood: dict[str, Any], best: list[str]) -> None:
    """What framing is sold as; of said candidates the strongest of each, three at most, and the weakest of all."""
    stock = sawn("2x10", **{**UNSTAMPED, "species": "unknown", **wood})
    answers = ask_grade(stock).answers
    assert len(answers) == len(best) and all(one.says.startswith(says) for one, says in zip(answers, best, strict=True))
    for one in answers:
        sets = dict(one.sets)
        assert one.says == f"{sets['stock.wood.species']} {sets['stock.wood.grade']}"
        assert sets["stock.wood.grade_from"] == "stamp" and ("stock.wood.candidates" in sets) is ("candidates" in wood)
    if wood and best:
        F_b = {f"{row.species} {row.grade}": row.F_b for row in rows_to_screen(stock)}
        asked = [F_b[one.says] for one in answers]
        assert asked[0] == max(F_b.values()) and asked[-1] == min(F_b.values()) and asked == sorted(asked, reverse=True)


# ---- other people's walls; groups -----------------------------------------------------------------------------------


def test_uplift_that_nobody_answers_for_is_asked_with_amounts_around_it() -> None:
    """Over it by a quarter first, then well over it, then half of it; a step of 50 lb each."""
    (found,) = uplift_taken("B", "what", wall(takes=None), [loaded("case")], np.array([1000.0]))
    assert [one.says for one in found.questions[0].answers] == ["1,250 lb", "2,500 lb", "500 lb"]


@pytest.mark.parametrize("by", ["engineer, letter no. 4 of 3 May 2025", ""])
def test_whose_figure_a_capacity_is(by: str) -> None:
    (found,) = enough("B", "what", wall(confirmed_by=by), [loaded("case")], np.array([500.0]))
    assert [step.source.document for step in found.steps if step.source is not None] == [by or "the job file"]


def test_a_group_in_words_and_in_a_small_stick() -> None:
    called = GroupCut("A", 12.0, 6.0, 0.0, (), 2.0, 1.0, called="socket")
    assert called.words == "socket at 12 in"
    assert replace(called, called="", width=0.5, length=0.0).words == "slot 1/2 in wide at 12 in, cut by anchor A"
    row = replace(called, called="", voids=(Void(0.75, 0.25, 1.5),))
    S, A, _, inertia = slot_net(SilentPad(), Section(1.5, 1.5, 1.5), row)
    inner = 1.5 * (1.5**3 - 0.25**3) / 12.0  # less than 1 in4, and stiff all the same
    assert (A, inertia, S) == pytest.approx((1.5 * 1.25, inner, inner / 0.75))


# ---- fire -----------------------------------------------------------------------------------------------------------


def test_a_depth_just_eaten_is_gone() -> None:
    eaten = fire_of.burnt(fire(60.0, "bottom"), Section(7.5, 11.5, 7.5)).a_eff
    with pytest.raises(fire_of.OutOfRange, match="from 1 side of a depth"):
        fire_of.burnt(fire(60.0, "bottom"), Section(7.5, eaten, 7.5))
    checks, left = fire_of.begin("B", "beam", fire(60.0, "bottom", others_covered_by="boards"), Section(7.5, 1.0, 7.5))
    assert left is None and [one.verdict for one in checks] == ["refer", "fails"]


def test_combinations_in_a_fire() -> None:
    (one,) = fire_of.without_duration([loaded("D + S", "S")])
    assert one.C_D == one.duration.value == 1.0 and one.name == "D + S"


def shear(demand: float) -> Check:
    return Check.of_ratio("a", "B", "shear", "c", demand=demand, capacity=1.0, kind="stress")


@pytest.mark.parametrize(("check", "verdict", "says"), [
    (shear(0.5), "passes", None), (shear(1.5), "refer", ": 1.50 of it; the factor"),
    (Check.breaks_rule("a", "B", "shear", "c"), "refer", "on what is left; the factor"),
])  # fmt: skip
def test_shear_and_bearing_of_what_is_left(check: Check, verdict: str, says: str | None) -> None:
    found = fire_of.without_a_factor(check, "fire.shear", fire_of.Burnt(60.0, Section(3.9, 9.7, 3.9), 1.8, ()))
    assert (found.verdict, found.what) == (verdict, "after 60 min of fire: shear")
    assert says is None or says in found.notes[0]


@pytest.mark.parametrize(("more", "why"), [("", "Too deep a check."), ("It is cut.", "It is cut.")])
def test_why_an_engineer_has_to_look(more: str, why: str) -> None:
    found = fire_of.not_worked_out("B", fire(60.0, "bottom"), "too deep a check", more)
    assert found.questions[0].why.startswith(why) or why in found.questions[0].ask


@pytest.mark.parametrize(("exposed", "covered"), [
    (("bottom", "left", "right"), ["top"]), (("top", "bottom", "left", "right"), []),
    (("bottom",), ["top", "left", "right"]),
])  # fmt: skip
def test_faces_that_are_covered(exposed: tuple[str, ...], covered: list[str]) -> None:
    for said, verdict in (("", "refer"), ("boards", "refer"), (PAPER, "passes")):
        found = list(fire_of.cover_checks("B", "beam", fire(60.0, *exposed, others_covered_by=said)))
        assert [one.verdict for one in found] == [verdict] * bool(covered)
        assert all(one.notes[0].startswith(" and ".join(covered)) for one in found)


@pytest.mark.parametrize(
    ("a_eff", "b", "best"), [(1.75, 3.5, "1 3/4 in"), (1.76, 3.5, "boards"), (1.8, 8.0, "1 13/16 in")]
)
def test_cover_that_steel_needs_to_the_next_sixteenth(a_eff: float, b: float, best: str) -> None:
    anchor = Anchor.model_construct(name="A", manner="wood side", fire_cover=None, fire_covered_by="")
    found = fire_of.steel_check("B", anchor, fire(60.0, "bottom"), a_eff, Section(b, 11.5, b))
    assert found.questions[0].answers[0].says.startswith(best)
