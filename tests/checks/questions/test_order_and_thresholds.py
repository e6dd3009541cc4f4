"""What answers do, where a quantity breaks, what is asked first, what an answer closes: on worlds made by hand."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from beamcheck import read_job_text
from beamcheck.checks.core.asking.open_questions import Effect, OpenQuestion, WorkedAnswer
from beamcheck.checks.core.asking.question import RULING, PlausibleAnswer, _of_row, _read_out, ask, written
from beamcheck.checks.core.asking.question_words import answers_of, place_of, waiting_of
from beamcheck.checks.core.asking.settling import settling_fact
from beamcheck.checks.core.result import Check, PieceResult
from beamcheck.checks.questions.collect import collect
from beamcheck.checks.questions.explore import effect_of, explore
from beamcheck.checks.questions.rulings import changed_answers, entry_of, ruled
from beamcheck.model.job import Job
from beamcheck.values.lumber import DesignValues, design_values, read_size

from ...doors.jobs import HEAD, PASSES, STOCK, WALL, joist
from .test_engine import JOB, SEAT, bearing_of, piece, question, refers, splice, with_ruling

METERED = "stock.joist stock.measured_moisture"
TAKES = "existing.wall.takes"
SECOND = "beam.J1.supports.2.bearing"
World = Callable[[Job], Mapping[str, PieceResult]]


def world(there: Callable[[Job], float], least: float = 0.0, most: float = 1e9, name: str = "J1") -> World:
    """In which a piece passes while something is at least, and at most, so much."""

    def run(job: Job) -> Mapping[str, PieceResult]:
        value = there(job)
        ratio = max(least / value if value else 9.0, value / most)
        check = Check.of_ratio("beam.bearing", name, "bearing", "c", demand=ratio, capacity=1.0, kind="force")
        return {name: piece(name, check)}

    return run


def explored(run: World, *asked: Any, runs: int = 60) -> tuple[OpenQuestion, ...]:
    base = [piece("J1", *(refers(one) for one in asked))]
    return explore(JOB, base, collect(base), run, runs=runs)


# ---- where it breaks -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("there", "at", "kind", "answers", "bounds", "says"), [
    (bearing_of, SEAT, "length", ("4 in", "1 in"), {"least": 2.03}, "2 1/16 in or more: J1 passes"),
    (bearing_of, SEAT, "length", ("4 in", "1 in"), {"least": 2.0}, "2 in or more: J1 passes"),
    (bearing_of, SEAT, "length", ("1 in", "4 in"), {"most": 2.03}, "2 in or less: J1 passes"),
    (lambda job: job.stock[0].measured_moisture or 0.0, METERED, "percent", ("12 %", "28 %"), {"most": 18.5},
     "18 % or less: J1 passes"),
    (lambda job: job.stock[0].measured_moisture or 0.0, METERED, "percent", ("12 %", "28 %"), {"least": 18.5},
     "19 % or more: J1 passes"),
    (lambda job: job.existing[0].takes or 0.0, TAKES, "force", ("500 lb", "900 lb"), {"least": 641.0},
     "650 lb or more: J1 passes"),
    (bearing_of, SEAT, "length", ("4 in", "3 in"), {"least": 2.0}, ""), (bearing_of, SEAT, "length", ("4 in",), {}, ""),
    (bearing_of, SEAT, "choice", ("4 in", "1 in"), {"least": 2.0}, ""),
    # an answer between two marks of the tape is no break point: the mark beside it that passes is
    (bearing_of, SEAT, "length", ("1 in", "1.068 in"), {"least": 1.065}, "1 1/8 in or more: J1 passes"),
    (bearing_of, SEAT, "length", ("1 in", "1.03 in"), {"least": 1.02}, "1 1/16 in or more: J1 passes"),
    (bearing_of, SEAT, "length", ("1.03 in", "2 in"), {"most": 1.03}, "1 in or less: J1 passes"),
    (lambda job: job.existing[0].takes or 0.0, TAKES, "force", ("640 lb", "644 lb"), {"least": 644.0},
     "650 lb or more: J1 passes"),
    (lambda job: job.existing[0].takes or 0.0, TAKES, "force", ("2 lb", "400,000 lb"), {"least": 123452.0},
     "123,460 lb or more: J1 passes"),
])  # fmt: skip
def test_the_break_point_lies_on_the_side_that_passes(
    there: Any, at: str, kind: str, answers: tuple[str, ...], bounds: dict[str, float], says: str
) -> None:
    """To a sixteenth of an inch, a per cent, ten pounds."""
    (found,) = explored(world(there, **bounds), question("J1/a", *answers, at=at, kind=kind))
    assert found.threshold == says


def test_two_break_points_and_answers_that_are_no_quantities() -> None:
    between = world(bearing_of, least=2.0, most=5.0)
    (found,) = explored(between, question("J1/a", "8 in", "4 in", "1 in"))
    assert found.threshold == "2 in or more: J1 passes; 5 in or less: J1 passes"
    both = question("J1/a", "4 in")
    pair = PlausibleAnswer("both", ((SEAT, "1 in"), (SECOND, "1 in")))
    (found,) = explored(world(bearing_of, least=2.0), both.__class__(
        both.id, both.ask, both.who, SEAT, "length", (*both.answers, pair)))  # fmt: skip
    assert found.threshold == "" and [one.answer.says for one in found.answers] == ["4 in", "both"]


def test_without_runs_the_break_point_is_an_answer_that_was_tried() -> None:
    (found,) = explored(world(bearing_of, least=2.03), question("J1/a", "4 in", "1 in"), runs=2)
    assert found.threshold == "4 in or more: J1 passes"


# ---- what an answer does ---------------------------------------------------------------------------------------------


def ratio(value: float, what: str = "bending") -> Check:
    return Check.of_ratio("beam.bending", "J1", what, "c", demand=value, capacity=1.0, kind="force")


RULE, KEPT = Check.breaks_rule("x", "J1", "rule", "c"), Check.keeps_rule("x", "J1", "kept", "c")


@pytest.mark.parametrize(("checks", "says", "closest", "used"), [
    ((ratio(0.5), ratio(0.75, "shear")), "passes, closest 0.750 in shear", "shear", 0.75),
    ((KEPT,), "passes", "", None), ((RULE, ratio(0.5)), "fails in rule", "bending", 0.5),
    ((ratio(1.5), ratio(0.5, "shear")), "fails in bending, 1.50", "bending", 1.5),
    ((refers(question("J1/a", "1 in")), KEPT), "still open: seat", "", None),
    ((refers(question("J1/a", "1 in")), refers(question("J1/b", "1 in"))), "still open, 2 questions", "", None),
])  # fmt: skip
def test_what_becomes_of_a_piece_in_a_phrase(
    checks: tuple[Check, ...], says: str, closest: str, used: float | None
) -> None:
    found = effect_of(piece("J1", *checks))
    assert (found.says, found.closest, found.ratio) == (says, closest, used)


def test_other_pieces_are_told_of_where_their_verdict_changes() -> None:
    """J2 fails by the answer, J3 stays as it is, J4 is new: of those that do not wait only J2 is told."""
    asked = question("J1/a", "4 in")
    before = [piece("J1", refers(asked)), piece("J2", KEPT), piece("J3", KEPT)]

    def run(job: Job) -> Mapping[str, PieceResult]:
        return {"J3": piece("J3", KEPT), "J2": piece("J2", RULE), "J1": piece("J1", KEPT), "J4": piece("J4", RULE)}

    (found,) = explore(JOB, before, collect(before), run, runs=9)
    assert [one.piece for one in found.answers[0].effects] == ["J1", "J2"]
    assert found.answers[0].settles == ("J1", "J2")


def test_what_only_an_engineer_answers_and_what_is_idle_is_not_tried() -> None:
    runs: list[Job] = []

    def counted(job: Job) -> Mapping[str, PieceResult]:
        runs.append(job)
        return {"J1": piece("J1", KEPT)}

    ruling = question("J1/r", "holds", at=RULING, who="engineer", kind="text")
    idle = piece("J2", refers(question("J2/c", "1 in"), "J2"), RULE)
    before = [piece("J1", refers(ruling)), idle]
    told: list[tuple[int, int]] = []
    found = explore(JOB, before, collect(before), counted, runs=9, tell=lambda *at: told.append(at))
    assert runs == [] and [one.answers for one in found] == [(), ()] and told == [(1, 2), (2, 2)]
    assert [one.state for one in found] == ["open", "idle"]


# ---- what is asked first ---------------------------------------------------------------------------------------------


def test_what_settles_more_for_less_trouble_comes_first() -> None:
    """One of two answers settles: 1/2 over 1; both, over the 2 of a supplier; one of two of an engineer: 1/2 over 4."""
    tape = question("J1/a", "4 in", "1 in")
    yard = question("J2/b", "4 in", "3 in", who="supplier")
    letter = question("J3/c", "4 in", "1 in", who="engineer")
    before = [piece(name, refers(one, name)) for name, one in (("J3", letter), ("J1", tape), ("J2", yard))]

    def run(job: Job) -> Mapping[str, PieceResult]:
        enough = bearing_of(job) >= 2.0
        asks = {"J1": tape, "J2": yard, "J3": letter}
        return {name: piece(name, KEPT if enough else refers(one, name)) for name, one in asks.items()}

    found = explore(JOB, before, collect(before), run, runs=60)
    assert [one.id for one in found] == ["J1/a", "J2/b", "J3/c"]
    worth = {one.id: one.worth for one in found}
    assert worth == {"J1/a": pytest.approx(3 / 2), "J2/b": pytest.approx(6 / 2 / 2), "J3/c": pytest.approx(3 / 2 / 4)}


@pytest.mark.parametrize(("who", "both", "worth", "needs"), [
    ("tape", True, 1 / 2, ("J1/b",)), ("engineer", True, 1 / 5, ("J1/b",)), ("tape", False, 0.0, ()),
])  # fmt: skip
def test_what_settles_only_together_is_a_bundle(who: str, both: bool, worth: float, needs: tuple[str, ...]) -> None:
    """Over the trouble of all that is needed: two tapes, or a tape and an engineer."""
    first, second = question("J1/a", "4 in"), question("J1/b", "4 in", at=SECOND, who=who)

    def run(job: Job) -> Mapping[str, PieceResult]:
        seats = [one.bearing or 0.0 for one in job.beam[0].supports]
        holds = both and min(seats) >= 4.0
        return {"J1": piece("J1", KEPT if holds else refers(first))}

    job = read_job_text(PASSES.replace('bearing = "4 in"', 'bearing = "3.5 in"'))
    before = [piece("J1", refers(first), refers(second))]
    found = {one.id: one for one in explore(job, before, collect(before), run, runs=60)}
    assert found["J1/a"].worth == pytest.approx(worth) and found["J1/a"].needs == needs
    assert found["J1/b"].needs == (("J1/a",) if needs else ())


def test_a_bundle_needs_a_best_answer_to_each() -> None:
    first, second = question("J1/a", "4 in"), question("J1/b", at=SECOND)
    found = explored(lambda job: {"J1": piece("J1", KEPT)}, first, second)
    assert all(one.needs == () for one in found)


def test_of_equal_worth_the_first_piece_and_the_least_trouble() -> None:
    asks = [question("J1/a", who="engineer"), question("J1/b"), question("J0/c")]
    before = [piece("J0", refers(asks[2], "J0")), piece("J1", refers(asks[0]), refers(asks[1]))]
    found = explore(JOB, before, collect(before), lambda job: {}, runs=9)
    assert [one.id for one in found] == ["J0/c", "J1/b", "J1/a"]


# ---- collected, ruled on, answered -----------------------------------------------------------------------------------


def test_the_largest_of_the_forces_that_a_ruling_has_to_cover() -> None:
    asks = [question("J1/r", at=RULING, who="engineer", kind="text", forces=forces)
            for forces in ({"press": 10.0, "up": 5.0}, {"press": -30.0, "side": 2.0}, {"press": 20.0})]  # fmt: skip
    (found,) = collect([piece("J1", *(refers(one, what=str(n)) for n, one in enumerate(asks)))])
    assert dict(found.question.forces) == {"press": -30.0, "up": 5.0, "side": 2.0}


def test_what_the_job_as_a_whole_asks_and_what_is_open_again() -> None:
    own = Check.refers("x", "the job", "snow", "c", ask=question("the job/s", "1 in", who="engineer"))
    kept = Check.of_ratio("x", "the job", "m", "c", demand=0.5, capacity=1.0, kind="force", ask=question("the job/m"))
    again = piece("J1", refers(question("J1/r", at=RULING, who="engineer")))
    found = collect([again], ["J1/r"], [own, kept])
    assert [(one.id, one.state, one.closes) for one in found] == [
        ("J1/r", "reopened", (("J1", "seat"),)), ("the job/s", "open", (("the job", "snow"),))]  # fmt: skip


@pytest.mark.parametrize(("force", "verdict"), [(450.0, "passes"), (450.1, "refer"), (-450.1, "refer")])
def test_a_ruling_holds_at_just_its_force(force: float, verdict: str) -> None:
    (found,), _ = ruled(with_ruling('up_to = { press = "450 lb" }'), [piece("J1", splice(press=force))])
    assert found.verdict == verdict


def test_a_ruling_on_one_of_two_questions_leaves_the_other() -> None:
    both = Check.refers("x", "J1", "seat", "c", ask=(*splice().questions, question("J1/seat", "4 in")))
    (found,), reopened = ruled(with_ruling(), [piece("J1", both, KEPT)])
    assert found.verdict == "refer" and [one.id for one in found.checks[0].questions] == ["J1/seat"]
    assert reopened == () and "with a ruling: detail S-4 holds" in found.checks[0].notes[-1]
    other = piece("J1", refers(question("J1/other", at=RULING)))
    assert ruled(with_ruling(), [other])[0] == (other,)
    assert entry_of(JOB, "J1") is JOB.beam[0] and entry_of(JOB, "nobody") is None


ANSWER = """
[[answer]]
to = "{to}"
value = "{value}"
by = "the carpenter"
how = "tape"
date = "2026-03-02"
"""


@pytest.mark.parametrize(("to", "value", "touched"), [
    ("beam.J1.finish", "plaster", ["J1"]), ("stock.joist stock.grade", "No.1", ["J1", "J2"]),
    ("existing.wall.what", "brick wall", ["J1", "J2"]), ("beam.J2.finish", "plaster", ["J2"]),
])  # fmt: skip
def test_an_answer_that_was_changed_is_asked_of_each_piece_that_it_is_about(
    to: str, value: str, touched: list[str]
) -> None:
    """The piece itself, what is made of that wood, what stands on that wall."""
    text = HEAD + STOCK + WALL + joist() + joist("J2") + ANSWER.format(to=to, value=value)
    found = changed_answers(read_job_text(text), [piece("J1", KEPT), piece("J2", KEPT), piece("J10", KEPT)])
    assert [one.name for one in found if one.verdict == "refer"] == touched
    (check,) = next(one for one in found if one.name == touched[0]).checks[1:]
    assert check.questions[0].field == to and check.questions[0].answers[0].says == value


# ---- words -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("text", "read"), [
    ("0.3125 in", "5/16 in"), ("2.5 in", "2 1/2 in"), ("3.0 in", "3 in"), ("0.0 in", "0 in"), ("0.33 in", "0.33 in"),
    ("0.03125 in", "1/32 in"), ("0.015625 in", "0.015625 in"), ("2.5 ft", "2.5 ft"), ("4 in", "4 in"),
])  # fmt: skip
def test_inches_as_a_tape_has_them(text: str, read: str) -> None:
    assert _read_out(text) == read


def test_answers_of_a_row() -> None:
    """`a | b | words = value`; a ruling has no field to write into."""
    row: Any = {"answers": "yes | no | two of them = 2 | "}
    assert [(one.says, one.sets) for one in _of_row(row, "a.b")] == [
        ("yes", (("a.b", True),)), ("no", (("a.b", False),)), ("two of them", (("a.b", "2"),))]  # fmt: skip
    assert [one.sets for one in _of_row(row, RULING)] == [(), (), ()] and _of_row({"answers": ""}, "a") == ()
    assert written("maybe") == "maybe" and ask("seat_length", "B", "f", end="1", on="w").answers[0].says == "5 1/2 in"
    given = ask("seat_length", "B", "f", end="1", on="w", answers=("2.5 in",), why="so").answers[0]
    assert (given.says, given.sets) == ("2 1/2 in", (("f", "2.5 in"),))


def test_where_an_answer_goes_and_what_waits_for_it() -> None:
    asked = question("J1/seat", "4 in", "1 in")
    effects = (Effect("J1", "passes", "", None, "passes"), Effect("J2", "fails", "", None, "fails in rule"))
    worked = (WorkedAnswer(asked.answers[0], effects), WorkedAnswer(asked.answers[1], ()))
    plain = OpenQuestion(asked, (("J1", "seat"),))
    assert answers_of(plain) == ("4 in", "1 in") and place_of(plain) == SEAT and waiting_of(plain) == "1 check of J1"
    told = OpenQuestion(asked, (("J1", "seat"), ("J2", "a"), ("J2", "b")), answers=worked)
    assert (
        answers_of(told) == ("4 in: J1 passes; J2 fails in rule", "1 in") and waiting_of(told) == "3 checks of J1, J2"
    )
    ruling = question("J2/side/x", at=RULING)
    assert place_of(OpenQuestion(ruling, (("J1", "s"), ("J2", "s")))) == '[[ruling]] on = "J2", question = "side/x"'
    assert place_of(OpenQuestion(ruling, (("J1", "s"),))) == '[[ruling]] on = "J2", question = "side/x"'


SIZE = read_size("6x12 dressed")


def wood(species: str, grade: str) -> DesignValues:
    return design_values({"fir": "Douglas Fir-Larch", "pine": "Eastern White Pine"}[species], grade, SIZE)


@pytest.mark.parametrize(("tried_", "says"), [
    ([("fir", "No.1", False), ("pine", "No.1", False)], ""),
    ([("fir", "No.1", True), ("pine", "No.2", True)], "Every candidate stays within the limits"),
    ([("fir", "No.1", True), ("fir", "No.2", True), ("pine", "No.1", False)],
     "The species settles it: Douglas Fir-Larch would hold in every grade here, Eastern White Pine in none."),
    ([("fir", "No.1", True), ("fir", "No.2", False), ("pine", "No.1", True), ("pine", "No.2", False)],
     "The grade settles it: a certificate of No.1 would do for every candidate species."),
    ([("fir", "No.1", True), ("fir", "No.2", True), ("pine", "No.1", True), ("pine", "No.2", False)],
     "for every candidate species. So would Douglas Fir-Larch No.2."),
    ([("fir", "No.1", True), ("fir", "No.2", False), ("pine", "No.1", False), ("pine", "No.2", False)],
     "Species and grade together settle it: Douglas Fir-Larch No.1 would hold; Eastern White Pine would not hold in"),
    ([("fir", "No.1", True), ("fir", "No.2", False), ("pine", "No.1", False), ("pine", "No.2", True)],
     "settle it: Douglas Fir-Larch No.1 and Eastern White Pine No.2 would hold. Send a sample"),
])  # fmt: skip
def test_the_one_fact_that_settles_it(tried_: list[tuple[str, str, bool]], says: str) -> None:
    found = settling_fact([(wood(species, grade), holds) for species, grade, holds in tried_])
    assert says in found and bool(found) is bool(says)
