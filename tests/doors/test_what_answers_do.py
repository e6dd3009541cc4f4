"""The short answer says what an answer would do, within a small time, and files are made of the same result as ever."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from beamcheck.api import check_file, looked_ahead
from beamcheck.checks.pieces import Memory
from beamcheck.commands.ask import _does
from beamcheck.console import Shown, StoppedAt, waiting
from beamcheck.sheet.terminal.short import short_text

from .jobs import HEAD, PASSES, STOCK, WALL, joist

SEAT = HEAD + STOCK + WALL + joist().replace(', bearing = "4 in"', "", 1)  # one seat that nobody measured


@pytest.fixture
def open_seat(written):
    memory = Memory()
    result = check_file(written(SEAT), memory=memory)
    return result, memory


def test_the_short_answer_says_what_an_answer_does(open_seat) -> None:
    result, memory = open_seat
    assert [one.question.kind for one in result.questions if one.state != "idle"] == ["length"]
    assert not any(one.answers for one in result.questions)
    ahead = looked_ahead(result, memory, seconds=60.0)
    one = next(one for one in ahead.questions if one.state != "idle")
    assert one.answers and "J1 passes" in (one.threshold or " ".join(_does(one)))
    assert "J1 passes" in " ".join(short_text(ahead, source="job.toml").split())
    assert replace(ahead, questions=result.questions) == result  # nothing else has become known
    assert [each.id for each in ahead.questions] == [each.id for each in result.questions]


def test_without_time_nothing_is_tried_and_the_order_stays(open_seat) -> None:
    result, memory = open_seat
    ahead = looked_ahead(result, memory, seconds=0.0)
    assert [one.id for one in ahead.questions] == [one.id for one in result.questions]
    assert not any(one.answers for one in ahead.questions)


def test_where_nothing_is_open_nothing_is_run(written) -> None:
    memory = Memory()
    result = check_file(written(PASSES), memory=memory)
    before = memory.worked_out
    assert looked_ahead(result, memory, seconds=60.0) is result
    assert memory.worked_out == before


def test_a_file_is_the_same_with_the_short_answer_as_without(run, written, tmp_path) -> None:
    job, out = written(SEAT), tmp_path / "out.json"
    done = run("check", job, "--json", out)
    assert "J1 passes" in " ".join(done.stdout.split())
    assert json.loads(out.read_text()) == json.loads(run("check", job, "--json", "-").stdout)


def test_what_was_not_tried_is_said_so(open_seat) -> None:
    result, memory = open_seat
    ahead = looked_ahead(result, memory, seconds=60.0)
    one = next(one for one in ahead.questions if one.state != "idle")
    assert not any("not tried" in text for text in _does(one))
    cut = replace(one, answers=one.answers[:1])
    said = [*_does(cut)]
    assert len(said) == len(one.question.answers)
    assert [text.endswith("not tried") for text in said].count(True) == len(said) - 1


def test_a_stop_from_the_keyboard_says_in_the_middle_of_what() -> None:
    with pytest.raises(StoppedAt, match=r"checking a job, piece 2 of 3: B2"), waiting("checking a job") as shown:
        shown.piece("B1", 3)
        shown.piece("B2", 3)
        raise KeyboardInterrupt
    shown = Shown("checking")
    shown.piece("B1", 1)
    shown.question(2, 5)
    shown.piece("B1", 1)
    assert str(shown) == "checking, question 2 of 5: what answers do"
