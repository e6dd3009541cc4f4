"""A check, a piece and a job as they show themselves; questions as their rows write them; tables of loads."""

from __future__ import annotations

import json
import math
from typing import Any, get_args

import pytest

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.checks.core import tables
from beamcheck.checks.core.asking.open_questions import Effect, OpenQuestion, WorkedAnswer
from beamcheck.checks.core.asking.question import (
    RULING,
    PlausibleAnswer,
    Question,
    QuestionKind,
    Who,
    ask,
    question_tables,
    written,
)
from beamcheck.checks.core.asking.question_words import answers_of, place_of, waiting_of
from beamcheck.checks.core.asking.settling import settling_fact
from beamcheck.checks.core.result import Check, JobResult, PieceResult, judge
from beamcheck.checks.core.summary import CAUTION, SIGN_OFF, by_gravity, job_text, piece_text
from beamcheck.checks.core.wood.govern import Criterion, drawing, figures_only, out_of_range, verdicts_only, writing
from beamcheck.errors import OutOfRange, UnknownName
from beamcheck.sheet.record.as_json import result_json
from beamcheck.values.loader import rows
from beamcheck.values.lumber import design_values, read_size

OPEN = ask("moisture", "w", "stock.w.measured_moisture")
OVER = Check.of_ratio("beam.bending", "B", "bending", "", "too much", demand=1.5, capacity=1.0, kind="force",
                      where="at 3 ft", combination="D + L")  # fmt: skip
FINE = Check.of_ratio("beam.shear", "B", "shear", "", "as is", demand=0.5, capacity=1.0, kind="force")
ASKED = Check.refers("beam.x", "B", "grade", "", "not said", ask=OPEN)


def piece(*checks: Check) -> PieceResult:
    return PieceResult("B", "beam", "6x12", "fails", checks, ())


def job(**more: Any) -> JobResult:
    return JobResult("Shed", "fails", ("B is over",), (piece(FINE, ASKED, OVER),), (), (), "", "", "", "", **more)


def test_a_piece_and_a_job_as_they_show_themselves() -> None:
    """The worst first; notes of what passes are left out; one line a check, set in below its head."""
    head, *lines = piece_text(piece(FINE, ASKED, OVER)).splitlines()
    assert head == "FAILS: beam B, 6x12. At least one check of this piece is not met."
    assert lines == ["  fails: B, bending, ratio 1.50, at 3 ft, D + L; too much", "  refer: B, grade; not said",
                     "  passes: B, shear, ratio 0.500", f"Caution: {CAUTION}", SIGN_OFF]  # fmt: skip
    said = job_text(job()).splitlines()
    assert said[1:3] == ["  - B is over", "  fails B: bending, ratio 1.50"] and len(said) == 5
    assert job_text(job(invented=True)).splitlines()[1].startswith("Invented data")
    assert [check.what for check in by_gravity((FINE, ASKED, OVER))] == ["bending", "grade", "shear"]


def test_a_check_a_piece_and_a_job_in_a_notebook() -> None:
    cells = '<td style="text-align:left">{}</td>'
    for check, row in ((OVER, ("1.50", "B, bending, at 3 ft, D + L", "too much")), (FINE, ("0.500", "B, shear", "")),
                       (ASKED, ("", "B, grade", "not said"))):  # fmt: skip
        first = f"<tr>{cells.format(f'<strong>{check.verdict}</strong>')}"
        assert first + "".join(map(cells.format, row)) + "</tr>" in check._repr_html_()  # type: ignore[attr-defined]
    shown = piece(FINE, OVER)._repr_html_()  # type: ignore[attr-defined]
    assert "<p>beam B: 6x12</p>" in shown and shown.index("bending") < shown.index("shear") and "FAILS" in shown
    assert "<li>B is over</li>" in job()._repr_html_() and "Invented" not in job()._repr_html_()  # type: ignore[attr-defined]
    bare = JobResult("Shed", "refer", (), (), (), (), "", "", "", "")._repr_html_()  # type: ignore[attr-defined]
    assert not any(mark in bare for mark in ("<ul>", "<table>", "<ol>")) and "Invented" not in bare
    asks = job(questions=(OpenQuestion(OPEN, (("B", "grade"),)),))._repr_html_()  # type: ignore[attr-defined]
    assert "To find out, in this order" in asks and "you, with a moisture meter" in asks


def test_demand_and_capacity_of_a_record_have_the_unit_of_their_kind() -> None:
    found = json.loads(result_json(job()))
    checks = (found.get("result") or found)["pieces"][0]["checks"]
    assert [checks[-1][name] for name in ("demand", "capacity")] == [
        {"value": 1.5, "unit": "lbf"}, {"value": 1.0, "unit": "lbf"}]  # fmt: skip


def test_nothing_said_of_strictness_and_kind() -> None:
    """At 1 a check passes; without a capacity it is no measure; a distance of nothing for nothing is none either."""
    assert judge(1.0) == "passes" and judge(math.inf) == "refer"
    whole = {"demand": 1.0, "capacity": 1.0, "kind": "force"}
    assert Check.of_ratio("a", "B", "b", "", **whole).verdict == "passes"  # type: ignore[arg-type]
    assert Check.of_ratio("a", "B", "b", "", **whole, strict=True).verdict == "fails"  # type: ignore[arg-type]
    none = Check.of_ratio("a", "B", "b", "", demand=0.0, capacity=0.0, kind="length")
    assert none.verdict == "refer" and none.ratio is not None and math.isnan(none.ratio)
    assert Check.of_ratio("a", "B", "b", "", demand=1.0, capacity=0.0, kind="length").ratio == math.inf


def test_what_is_written_and_drawn() -> None:
    """Within a trial no steps; where only verdicts count no drawing either; afterwards all as before."""
    assert writing() and drawing()
    with figures_only():
        assert not writing() and drawing()
        with verdicts_only():
            assert not writing() and not drawing()
        assert not writing() and drawing()
    assert writing() and drawing()


def test_out_of_the_range_of_a_rule_it_fails_by_the_clause_of_the_error() -> None:
    for clause, given in (("NDS 2018 3.3", "NDS 2018 3.3"), ("", "NDS 2018 3")):
        for asked in (OPEN, (OPEN,)):
            found = out_of_range(
                Criterion("B", "b", "NDS 2018 3", "force", id="a", ask=asked), OutOfRange("no", clause)
            )
            assert (found.clause, found.verdict, found.questions) == (given, "fails", (OPEN,))


# ---- questions ------------------------------------------------------------------------------------------------------


def test_rows_of_questions_name_who_answers_and_what_kind_of_answer() -> None:
    every = [row for table in question_tables() for row in rows(table)]
    assert {row["who"] for row in every} <= set(get_args(Who))
    assert {row["kind"] for row in every} <= set(get_args(QuestionKind))
    with pytest.raises(UnknownName, match="no such question"):
        ask("no such question", "B")


def test_answers_of_a_row_and_of_who_asks() -> None:
    """An answer writes itself, or what is behind its equal sign; yes and no are true and false; rulings write none."""
    assert (written("yes"), written("no"), written("3 in")) == (True, False, "3 in")
    for row in (row for table in question_tables() for row in rows(table) if row["answers"]):
        names = dict.fromkeys(("what", "force", "minutes", "needed", "grade", "other", "wood", "kind"), "x")
        texts = [text.strip() for text in row["answers"].split("|")]
        try:
            at, ruled = ask(row["question"], "B", "beam.B.a", **names), ask(row["question"], "B", **names)
        except KeyError:
            continue  # other names in its braces
        for text, one, bare in zip(texts, at.answers, ruled.answers, strict=True):
            says, _, value = (part.strip() for part in text.partition(" = "))
            assert (one.says, one.sets) == (says, (("beam.B.a", written(value or says)),))
            assert (bare.says, bare.sets) == (says, ()) and ruled.field == RULING
    mixed = ["12 %", PlausibleAnswer("dry", (("b", 1),))]
    own = ask("moisture", "w", "a", answers=mixed, why="because", forces={"up": 2.0})
    assert [one.sets for one in own.answers] == [(("a", "12 %"),), (("b", 1),)]
    assert own.why == "because" and own.forces == {"up": 2.0} and OPEN.forces == {} and OPEN.why


def test_where_an_answer_goes_and_what_waits_for_it() -> None:
    ruled = Question("B/x/y", "Is it?", "engineer", RULING, "yes-no", (PlausibleAnswer("yes"),))
    two = OpenQuestion(ruled, (("A", "shear"), ("B", "shear"), ("B", "bending")))
    assert place_of(two) == '[[ruling]] on = "B", question = "x/y"' and two.worth == 0.0
    assert place_of(OpenQuestion(ruled, (("A", "shear"),))) == '[[ruling]] on = "B", question = "x/y"'
    assert place_of(OpenQuestion(OPEN, ())) == "stock.w.measured_moisture"
    assert waiting_of(two) == "3 checks of A, B" and waiting_of(OpenQuestion(ruled, two.closes[:1])) == "1 check of A"
    assert answers_of(two) == ("yes",)
    effects = (Effect("A", "passes", "", None, "passes"), Effect("B", "refer", "", None, "refers"))
    yes = ruled.answers[0]
    worked = OpenQuestion(ruled, (), answers=(WorkedAnswer(yes, effects), WorkedAnswer(yes, ())))
    assert answers_of(worked) == ("yes: A passes; B refers", "yes") and worked.answers[0].settles == ("A",)


SIZE = read_size("6x12 dressed")
SHORT = {"Hem-Fir": "hem", "Douglas Fir-Larch": "fir", "Eastern White Pine": "pine", "Select Structural": "SS"}
ROWS = {f"{SHORT[a]} {SHORT.get(b, b)}": design_values(a, b, SIZE) for a in list(SHORT)[:3]
        for b in ("Select Structural", "No.1", "No.2")}  # fmt: skip


@pytest.mark.parametrize(("holds", "fact"), [
    ([], ""), ([*ROWS], "Every candidate stays within the limits: a certificate of any of these grades settles it, "
               "whatever the species."),
    (["fir SS", "fir No.1", "fir No.2"], "The species settles it: fir would hold in every grade here, hem and pine in "
     "none. Send a sample to a laboratory; the grade still has to be certified."),
    (["hem SS", "fir SS", "pine SS"], "The grade settles it: a certificate of SS would do for every candidate "
     "species."),
    (["hem SS", "fir SS", "pine SS", "hem No.1", "fir No.1", "pine No.1", "fir No.2"], "The grade settles it: "
     "a certificate of SS or No.1 would do for every candidate species. So would fir No.2."),
    (["fir SS", "hem SS", "fir No.1"], "Species and grade together settle it: hem SS, fir SS and fir No.1 would hold; "
     "pine would not hold in any grade. Send a sample, then have it graded."),
    (["fir SS", "hem No.1", "pine No.2"], "Species and grade together settle it: hem No.1, fir SS and pine No.2 would "
     "hold. Send a sample, then have it graded."),
])  # fmt: skip
def test_the_one_fact_that_settles_which_wood_it_is(holds: list[str], fact: str) -> None:
    found = settling_fact([(values, key in holds) for key, values in ROWS.items()])
    for name, short in SHORT.items():
        found = found.replace(name, short)
    assert found == fact


# ---- loads as they act ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("load", "kind", "amount"), [
    (Applied("W", 0.0, 120.0, w_start=-2.0, w_end=-2.0), "wind up", "−24 plf"),
    (Applied("W", 0.0, 120.0, w_start=2.0, w_end=3.0), "wind", "24 plf to 36 plf"),
    (Applied("L", 0.0, 120.0), "live", "0 plf"), (Applied("L", 0.0, 0.0, P=0.5), "live", "0.5 lb"),
    (Applied("D", 0.0, 0.0, P=1240.0), "dead", "1,240 lb"),
])  # fmt: skip
def test_kind_and_amount_of_a_load(load: Applied, kind: str, amount: str) -> None:
    assert (tables.kind_words(load), tables.amount_words(load)) == (kind, amount)


@pytest.mark.parametrize(("low", "least"), [(None, "–"), (0.0, "–"), (0.4, "–"), (-0.4, "−0.4 lb"), (-90.0, "−90 lb")])
def test_the_least_of_what_a_post_takes(low: float | None, least: str) -> None:
    """Of loads that lift alone."""
    (row,) = tables.post_loads_table([Applied("W", 0.0, 0.0, P=50.0, P_low=low)]).rows
    assert row[3] == least
