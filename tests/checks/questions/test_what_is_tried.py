"""How far answers are tried, and on which part of a house: budgets, order and parts worked out by hand."""

from __future__ import annotations

from collections.abc import Mapping
from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck import read_job_text
from beamcheck.checks.core.asking.question import PlausibleAnswer, Question
from beamcheck.checks.core.result import Check, PieceResult
from beamcheck.checks.questions import trial as trial_module
from beamcheck.checks.questions.best_answers import spared
from beamcheck.checks.questions.collect import collect
from beamcheck.checks.questions.explore import explore
from beamcheck.checks.questions.reach import FRAMES, RIDGES, Reach, _joins
from beamcheck.checks.questions.rulings import entry_of, piece_mark
from beamcheck.checks.questions.trial import Budget, Trial
from beamcheck.model.job import Job
from beamcheck.model.job_paths import with_values
from beamcheck.model.joints.joint import Joint
from beamcheck.model.reading.reader import job_from_data

from ...doors.jobs import PASSES
from .. import houses
from ..frames.jobs import KING, king
from .test_changed_answers import a_joint
from .test_engine import JOB, SEAT, bearing_of, piece, question, refers, tried
from .test_order_and_thresholds import KEPT, RULE, SECOND, explored, world

# ---- budgets ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("runs", "until", "used", "left"), [
    (2, None, 1, True), (2, None, 2, False), (0, None, 0, False), (2, 5.1, 0, True), (2, 5.0, 0, False),
    (2, 4.9, 0, False), (0, 9.0, 0, False),
])  # fmt: skip
def test_what_is_left_of_a_budget(
    runs: int, until: float | None, used: int, left: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """At five seconds of the thread."""
    monkeypatch.setattr(trial_module.time, "thread_time", lambda: 5.0)
    assert Budget(runs, until, used).left() is left and Budget(runs).used == 0


def test_each_run_counts_once() -> None:
    ran: list[Job] = []

    def run(job: Job) -> Mapping[str, PieceResult]:
        ran.append(job)
        return {}

    made = Trial(JOB, {}, run, Budget(3))
    tried = [made.tried([PlausibleAnswer("x", ((SEAT, "4 in"),))]) for _ in range(4)]
    assert tried == [{}, {}, {}, None] and len(ran) == 3
    assert Trial(JOB, {}, run, Budget(3)).tried([PlausibleAnswer("x", (("beam.J1.nothing", "4 in"),))]) is None


def test_a_break_point_takes_as_many_runs_as_halves() -> None:
    """3 in are 48 sixteenths: each run halves them, after at most six one is left; two answers before."""
    ran: list[float] = []
    inner = world(bearing_of, least=2.03)

    def run(job: Job) -> Mapping[str, PieceResult]:
        ran.append(bearing_of(job))
        return inner(job)

    (found,) = explored(run, question("J1/a", "4 in", "1 in"))
    assert found.threshold == "2 1/16 in or more: J1 passes" and 7 <= len(ran) <= 8 and len(set(ran)) == len(ran)


def test_no_break_point_lies_between_answers_to_two_fields() -> None:
    answers = tuple(PlausibleAnswer(one, ((at, one),)) for one, at in (("4 in", SEAT), ("1 in", SECOND)))
    asked = Question("J1/a", "?", "tape", SEAT, "length", answers)
    (found,) = explored(world(lambda job: job.beam[0].supports[1].bearing or 0.0, least=2.0), asked)
    assert found.threshold == "" and [one.effects[0].verdict for one in found.answers] == ["passes", "fails"]
    alone = (PlausibleAnswer("nothing"), *(PlausibleAnswer(one, ((SEAT, one),)) for one in ("4 in", "1 in")))
    asked = Question("J1/a", "?", "tape", SEAT, "length", alone)
    (found,) = explored(world(bearing_of, least=2.0), asked)
    assert found.threshold == "2 in or more: J1 passes"


# ---- order -----------------------------------------------------------------------------------------------------------


def test_what_settles_as_much_alone_is_no_bundle() -> None:
    """One of two answers settles: 1/2; both questions together 1/2 as well."""
    first, second = question("J1/a", "4 in", "1 in"), question("J1/b", "4 in", at=SECOND)

    def run(job: Job) -> Mapping[str, PieceResult]:
        return {"J1": piece("J1", KEPT if bearing_of(job) >= 4.0 else refers(first))}

    job = job_from_data(houses.job(beam=[houses.beam(
        *(houses.seat(at, "wall") | {"bearing": "2 in"} for at in ("0 ft", "8 ft")), name="J1")]))  # fmt: skip
    before = [piece("J1", refers(first), refers(second))]
    found = {one.id: one for one in explore(job, before, collect(before), run, runs=60)}
    assert (found["J1/a"].worth, found["J1/a"].needs) == (pytest.approx(1 / 2), ())
    assert (found["J1/b"].worth, found["J1/b"].needs) == (pytest.approx(1 / 2), ("J1/a",))


def test_a_question_stands_where_the_first_of_its_pieces_does() -> None:
    """One of the last and of the first piece comes before one of the second; of no piece at all comes last."""
    both, middle, nowhere = question("x/b"), question("x/m"), question("x/n")
    before = [piece("A", refers(both, "A")), piece("B", refers(middle, "B")), piece("C", refers(both, "C"))]
    whole = [Check.refers("x", "the job", "snow", "c", ask=nowhere)]
    asked = collect(before, (), whole)
    found = explore(JOB, before, asked[::-1], lambda job: {}, runs=9)
    assert [one.id for one in found] == ["x/b", "x/m", "x/n"]


# ---- best answers ----------------------------------------------------------------------------------------------------


def failing(*asked: Any, what: str = "bearing") -> Check:
    return Check.of_ratio("beam.bearing", "J1", what, "c", demand=2.0, capacity=1.0, kind="force", ask=asked)


@pytest.mark.parametrize(("count", "waiting"), [(2, ["J1/0"]), (12, ["J1/0"]), (13, None)])
def test_what_helps_by_itself_is_what_is_waited_for(count: int, waiting: list[str] | None) -> None:
    """Of many questions all together are tried only, and all are waited for."""
    asked = [question("J1/0", "4 in"), *(question(f"J1/{i}", "4 in", at=SECOND) for i in range(1, count))]
    job = read_job_text(PASSES.replace('bearing = "4 in"', 'bearing = "1 in"'))
    open_ = [refers(one, what=one.id) for one in asked]
    (found,) = spared(job, [piece("J1", failing(), *open_)], tried(world(bearing_of, least=2.0)))
    assert found.verdict == "refer"
    assert [one.id for one in found.checks[0].questions] == (waiting or [one.id for one in asked])


def test_what_is_cured_only_together_waits_for_all() -> None:
    asked = [question("J1/0", "4 in"), question("J1/1", "4 in", at=SECOND)]
    job = read_job_text(PASSES.replace('bearing = "4 in"', 'bearing = "1 in"'))
    least = world(lambda job: min(one.bearing or 0.0 for one in job.beam[0].supports), least=2.0)
    (found,) = spared(job, [piece("J1", failing(*asked))], tried(least))
    assert found.verdict == "refer" and [one.id for one in found.checks[0].questions] == ["J1/0", "J1/1"]


@pytest.mark.parametrize(("least", "verdict", "waiting"), [(2.0, "refer", ["J1/0"]), (5.0, "fails", None)])
def test_answers_that_do_not_go_together_are_tried_alone(least: float, verdict: str, waiting: list[str] | None) -> None:
    """Of two of which one cannot be read the other may cure all the same."""
    asked = [question("J1/0", "4 in"), question("J1/1", "no length at all", at=SECOND)]
    job = read_job_text(PASSES.replace('bearing = "4 in"', 'bearing = "1 in"'))
    open_ = [refers(one, what=one.id) for one in asked]
    (found,) = spared(job, [piece("J1", failing(), *open_)], tried(world(bearing_of, least=least)))
    assert found.verdict == verdict and (waiting is None or [one.id for one in found.checks[0].questions] == waiting)


def test_a_check_that_is_not_made_any_more_is_cured_where_nothing_fails_instead() -> None:
    asked = question("J1/0", "4 in")
    unknown = failing(asked, what="wood of unknown grade")
    for instead, verdict in ((KEPT, "refer"), (RULE, "fails")):
        (found,) = spared(JOB, [piece("J1", unknown)], lambda job, name, one=instead: piece("J1", one))
        assert found.verdict == verdict
    other = Check.of_ratio("beam.bearing", "J1", "bearing", "c", demand=2.0, capacity=1.0, kind="force", where="x")
    mixed = piece("J1", KEPT, other, failing(what="bearing"))
    (found,) = spared(JOB, [piece("J1", failing(asked), other)], lambda job, name: mixed)
    assert found.verdict == "fails"
    assert spared(JOB, [piece("J1", failing(asked))], lambda job, name: None)[0].verdict == "fails"
    assert spared(JOB, [piece("J1", KEPT)], lambda job, name: None)[0].verdict == "passes"


# ---- rulings ---------------------------------------------------------------------------------------------------------


def test_whom_a_ruling_is_on() -> None:
    """Of a member, or a point, of a frame the frame. A mark in a job file keeps its twelve letters."""
    frame = job_from_data(king())
    assert entry_of(frame, "truss: king post") is entry_of(frame, "truss") is frame.frame[0]
    assert entry_of(frame, "trusses") is None and entry_of(frame, "west wall") is frame.existing[0]
    assert len(piece_mark(JOB.beam[0])) == 12


# ---- the part of a house that decides --------------------------------------------------------------------------------


def joist(name: str, on: str = "wall", **more: Any) -> houses.Data:
    return houses.beam(houses.seat("0 ft", on), houses.seat("8 ft", on), name=name, **more)


def house(**more: Any) -> Job:
    """J1 and J2 on the wall, J3 on a post on J4; J5 speaks of J2."""
    under = houses.post(on="J4", lands_at="4 ft")
    note = [{"what": "as the boards of J2", "dead": "9 plf"}]
    beams = [joist("J1"), joist("J2"), joist("J3", "P"), joist("J4"), joist("J5", carries=note)]
    return job_from_data(houses.job(beam=beams, post=[under], **more))


def part(job: Job, name: str, of: Job | None = None) -> tuple[list[str], set[str]] | None:
    found = Reach(of or job).part(job, name)
    if found is None:
        return None
    some, left_out = found
    return [one.name for kind in (some.beam, some.rafter, some.post) for one in kind], set(left_out)


@pytest.mark.parametrize(("name", "there"), [
    ("J1", ["J1"]), ("J2", ["J2", "J5"]), ("J5", ["J2", "J5"]), ("P", ["J3", "J4", "P"]), ("J3", ["J3", "J4", "P"]),
])  # fmt: skip
def test_a_part_is_what_is_named_on_the_way(name: str, there: list[str]) -> None:
    every = {"J1", "J2", "J3", "J4", "J5", "P"}
    assert part(house(), name) == (there, every - set(there))


def test_a_part_has_what_was_changed_and_what_hangs_together_with_it() -> None:
    job = house()
    other = with_values(job, [("beam.J1.supports.1.bearing", "2 in")])
    assert part(other, "J2", job) == (["J1", "J2", "J5"], {"J3", "J4", "P"})
    moved = with_values(job, [("beam.J1.supports.1.on", "J2"), ("beam.J1.supports.1.lands_at", "2 ft")])
    assert part(moved, "J1", job) == (["J1", "J2", "J5"], {"J3", "J4", "P"})
    assert part(with_values(job, [("existing.wall.takes", "9,000 lb")]), "J1", job) is None  # which joins them anew
    assert part(with_values(job, [("beam.J1.name", "J9")]), "J1", job) is None
    assert part(job.model_copy(update={"beam": job.beam[:-1]}), "J1", job) is None


def test_frames_and_a_joint_of_stated_forces_are_one_part() -> None:
    """It may be a splice of a member of any of them; without one they are apart."""
    both = {
        **king(),
        "beam": [joist("B", "west wall")],
        "stock": [*KING["stock"], houses.BEAM_STOCK, *a_joint()["stock"]],
    }
    stated = job_from_data({**both, "joint": a_joint()["joint"]})
    for name in ("J", "truss: tie"):
        found = Reach(stated).part(stated, name)
        assert found is not None and found[1] == {"B"} and found[0].frame and found[0].joint
    alone = job_from_data(both)
    found = Reach(alone).part(alone, "B")
    assert found is not None and "truss: tie" in found[1] and not found[0].frame


ANSWER = {"by": "the carpenter", "how": "tape", "date": "2026-03-02"}


def test_a_part_has_its_answers_and_what_a_ruling_or_a_changed_answer_is_about() -> None:
    held = [{"to": f"beam.{name}.supports.1.bearing", "value": "5.5 in", **ANSWER} for name in ("J1", "J4")]
    found = Reach(house(answer=held)).part(house(answer=held), "J1")
    assert found is None  # of another job no entry is the same
    job = house(answer=held)
    found = Reach(job).part(job, "J1")
    assert found is not None and [one.to for one in found[0].answer] == ["beam.J1.supports.1.bearing"]
    changed = house(answer=[{"to": "beam.J4.supports.1.bearing", "value": "9 in", **ANSWER}])
    assert part(changed, "J1") == (["J1", "J3", "J4", "P"], {"J2", "J5"})
    ruling = {"on": "J2", "question": "x", "says": "detail S-4 holds", "by": "A. Invented, PE 00000",
              "date": "2026-03-09", "document": "letters/J2.pdf"}  # fmt: skip
    assert part(house(ruling=[ruling]), "J1") == (["J1", "J2", "J5"], {"J3", "J4", "P"})


@pytest.mark.parametrize(("more", "joined"), [
    ({}, []), ({"existing": [{"takes": 9.0}]}, ["e"]), ({"existing": [{"takes": None, "takes_for": None}]}, []),
    ({"existing": [{"takes": 9.0, "takes_for": "each seat"}]}, []),
    ({"existing": [{"takes": 9.0, "takes_for": "all together"}]}, ["e"]),
    ({"stock": [{"survey": 1}]}, ["e"]), ({"stock": [{}]}, []),
    ({"rafter": [{"pair": True}]}, []), ({"rafter": [{"pair": True}, {"pair": False}]}, [RIDGES]),
])  # fmt: skip
def test_what_is_counted_together(more: Any, joined: list[str]) -> None:
    usual = {"name": "e", "takes": None, "takes_for": None, "survey": None}
    entries = {kind: [SimpleNamespace(**{**usual, **one}) for one in more.get(kind, ())]
               for kind in ("existing", "stock", "rafter", "joint")}  # fmt: skip
    made: Any = SimpleNamespace(**entries)
    assert sorted(_joins(made)) == joined


@pytest.mark.parametrize(("more", "joined"), [
    ({}, True), ({"frame": "truss"}, False), ({"post": "P"}, False),
])  # fmt: skip
def test_a_joint_whose_forces_are_stated_joins_the_frames(more: dict[str, str], joined: bool) -> None:
    one = Joint.model_construct(name="J", **{"frame": None, "post": None, **more})
    made: Any = SimpleNamespace(existing=(), stock=(), rafter=(), joint=(one,))
    assert (FRAMES in _joins(made)) is joined
