"""The engine of questions: collecting, trying answers, rulings, and what was not said. Checks here are made by hand."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

import pytest

from beamcheck import read_job_text
from beamcheck.checks.core.asking.question import RULING, PlausibleAnswer, Question, question_tables
from beamcheck.checks.core.result import Check, PieceResult, worst
from beamcheck.checks.questions.best_answers import spared
from beamcheck.checks.questions.collect import collect
from beamcheck.checks.questions.explore import explore
from beamcheck.checks.questions.rulings import changed_answers, piece_mark, ruled
from beamcheck.model.job import Job
from beamcheck.values.loader import rows

from ...doors.jobs import PASSES

JOB = read_job_text(PASSES)
SEAT = "beam.J1.supports.1.bearing"


def question(
    name: str, *answers: str, at: str = SEAT, who: str = "tape", kind: str = "length", **more: object
) -> Question:
    made = tuple(PlausibleAnswer(one, ((at, one),)) for one in answers)
    return Question(name, f"What about {name}?", who, at, kind, made, **more)  # type: ignore[arg-type]


def piece(name: str, *checks: Check) -> PieceResult:
    return PieceResult(name, "beam", name, worst(one.verdict for one in checks), checks, ())


def refers(asked: Question, name: str = "J1", what: str = "seat") -> Check:
    return Check.refers("beam.seat", name, what, "clause", ask=asked)


def bearing_of(job: Job) -> float:
    return job.beam[0].supports[0].bearing or 0.0


def by_seat(least: float):
    """A world in which J1 passes when its first seat is long enough."""

    def run(job: Job) -> Mapping[str, PieceResult]:
        there = bearing_of(job)
        check = Check.of_ratio("beam.bearing", "J1", "bearing", "c", demand=least, capacity=there, kind="force")
        return {"J1": piece("J1", check)}

    return run


def tried(run: Callable[[Job], Mapping[str, PieceResult]]):
    return lambda job, name: run(job).get(name)


def test_one_fact_is_one_question_whatever_waits_for_it() -> None:
    gap = question("K1/gap", "1 in")
    found = collect([piece("K1", refers(gap, "K1", "prop"), refers(gap, "K1", "nose")), piece("P1", refers(gap, "P1"))])
    assert [one.id for one in found] == ["K1/gap"]
    assert found[0].closes == (("K1", "prop"), ("K1", "nose"), ("P1", "seat")) and found[0].pieces == ("K1", "P1")


def test_a_check_that_passes_on_the_safe_side_asks_nothing() -> None:
    asked = question("J1/moisture", "12 %")
    check = Check.of_ratio("beam.bending", "J1", "bending", "c", demand=1.0, capacity=2.0, kind="stress", ask=asked)
    assert check.holds and collect([piece("J1", check)]) == ()


def test_least_trouble_first_and_idle_last() -> None:
    tape, engineer = question("J1/a", "1 in"), question("J1/b", "1 in", who="engineer")
    dead = piece("J2", refers(question("J2/c", "1 in")), Check.breaks_rule("beam.rule", "J2", "rule", "c"))
    found = collect([dead, piece("J1", refers(engineer), refers(tape))])
    assert [(one.id, one.state) for one in found] == [("J1/a", "open"), ("J1/b", "open"), ("J2/c", "idle")]


def test_each_answer_shows_what_a_run_with_it_gives() -> None:
    asked = question("J1/seat", "4 in", "1 in")
    base = [piece("J1", refers(asked))]
    (found,) = explore(JOB, base, collect(base), by_seat(2.0), runs=50)
    assert [(a.answer.says, a.effects[0].verdict) for a in found.answers] == [("4 in", "passes"), ("1 in", "fails")]
    assert found.answers[0].effects[0].says == "passes, closest 0.500 in bearing"
    assert found.worth == pytest.approx((1 + 1) / 2 / 1)


def test_the_break_point_is_on_the_safe_side_to_a_sixteenth() -> None:
    asked = question("J1/seat", "4 in", "1 in")
    base = [piece("J1", refers(asked))]
    (found,) = explore(JOB, base, collect(base), by_seat(2.03), runs=50)
    assert found.threshold == "2 1/16 in or more: J1 passes"


def test_the_budget_is_a_number_of_runs() -> None:
    asked = question("J1/seat", "4 in", "1 in")
    base = [piece("J1", refers(asked))]
    runs: list[Job] = []

    def counted(job: Job) -> Mapping[str, PieceResult]:
        runs.append(job)
        return by_seat(2.0)(job)

    explore(JOB, base, collect(base), counted, runs=1)
    assert len(runs) == 1


def test_what_was_not_said_is_not_fails() -> None:
    """meeting.md rule 2 in short: `fails` only where the best plausible answer fails too."""
    asked = question("J1/seat", "4 in", "1 in")
    failing = Check.of_ratio("beam.bearing", "J1", "bearing", "c", demand=2.0, capacity=1.0, kind="force", ask=asked)
    (found,) = spared(JOB, [piece("J1", failing)], tried(by_seat(2.0)))
    assert found.verdict == "refer" and found.checks[0].questions == (asked,) and found.checks[0].ratio == 2.0
    (still,) = spared(JOB, [piece("J1", failing)], tried(by_seat(5.0)))
    assert still.verdict == "fails"


def test_an_answer_that_does_not_fit_the_job_cures_nothing() -> None:
    asked = question("J1/seat", "no length at all")
    failing = Check.of_ratio("beam.bearing", "J1", "bearing", "c", demand=2.0, capacity=1.0, kind="force", ask=asked)
    assert spared(JOB, [piece("J1", failing)], tried(by_seat(0.0)))[0].verdict == "fails"


RULED = """
[[ruling]]
on = "J1"
question = "splice"
says = "detail S-4 holds"
{more}
by = "A. Invented, PE 00000"
date = "2026-03-09"
document = "letters/J1-splice.pdf"
"""


def with_ruling(more: str = "") -> Job:
    return read_job_text(PASSES + RULED.format(more=more))


def splice(**forces: float) -> Check:
    return refers(question("J1/splice", at=RULING, who="engineer", kind="text", forces=forces))


def test_a_ruling_closes_its_question_only() -> None:
    other = refers(question("J1/seat", "4 in"))
    (found,), reopened = ruled(with_ruling(), [piece("J1", splice(), other)])
    assert [one.verdict for one in found.checks] == ["passes", "refer"] and reopened == ()
    assert "with a ruling: detail S-4 holds" in found.checks[0].notes[-1]


def test_a_ruling_never_turns_fails() -> None:
    failing = Check.breaks_rule("beam.rule", "J1", "splice", "c")
    (found,), _ = ruled(with_ruling(), [piece("J1", replace(failing, questions=splice().questions))])
    assert found.verdict == "fails"


@pytest.mark.parametrize(("force", "verdict"), [(440.0, "passes"), (-450.0, "passes"), (460.0, "refer")])
def test_a_ruling_holds_up_to_its_force(force: float, verdict: str) -> None:
    (found,), reopened = ruled(with_ruling('up_to = { press = "450 lb" }'), [piece("J1", splice(press=force))])
    assert found.verdict == verdict and reopened == (() if verdict == "passes" else ("J1/splice",))


def test_a_ruling_that_does_not_name_the_force_does_not_cover_it() -> None:
    (found,), _ = ruled(with_ruling(), [piece("J1", splice(press=10.0))])
    assert found.verdict == "refer" and "does not say up to which press" in found.checks[0].notes[-1]


def test_a_ruling_reopens_when_its_piece_is_changed() -> None:
    mark = piece_mark(JOB.beam[0])
    kept = with_ruling(f'piece = "{mark}"')
    assert ruled(kept, [piece("J1", splice())])[0][0].verdict == "passes"
    changed = kept.model_copy(update={"beam": (kept.beam[0].model_copy(update={"finish": "flexible"}),)})
    (found,), reopened = ruled(changed, [piece("J1", splice())])
    assert found.verdict == "refer" and reopened == ("J1/splice",)


ANSWERED = """
[[answer]]
to = "beam.J1.supports.1.bearing"
value = "{value}"
by = "the carpenter"
how = "tape"
date = "2026-03-02"
"""


@pytest.mark.parametrize(("value", "verdict"), [("same", "passes"), ("9 in", "refer")])
def test_an_answer_whose_field_was_changed_opens_its_question_again(value: str, verdict: str) -> None:
    text = PASSES + ANSWERED.format(value=f"{bearing_of(JOB):g} in" if value == "same" else value)
    fine = piece("J1", Check.keeps_rule("beam.rule", "J1", "rule", "c"))
    (found,) = changed_answers(read_job_text(text), [fine])
    assert found.verdict == verdict
    if verdict == "refer":
        assert "changed since it was found out" in found.checks[-1].notes[0]
        assert found.checks[-1].questions[0].field == SEAT


def test_each_question_of_the_tables_has_a_name_of_its_own() -> None:
    """Of two with one name the second would never be asked, or with words that are not its own."""
    names = [row["question"] for table in question_tables() for row in rows(table)]
    assert sorted(name for name in set(names) if names.count(name) > 1) == []
