"""Every ready situation, begun by `new` with everyday answers, reaches `passes` through `ask --answer` alone.

Answers are the best plausible one of each question; words in writing are an invented engineer's; what only an engineer
can answer is ruled on in an invented letter, last, since a ruling holds for a piece as it stood.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from beamcheck.api import check_file
from beamcheck.checks.core.asking.open_questions import OpenQuestion
from beamcheck.checks.core.asking.question import RULING
from beamcheck.checks.pieces import Memory
from beamcheck.cli import main
from beamcheck.situations.situation import read_answer, situation, situations

ROUNDS = 30
WORDS = "engineer's sheet S-9 of 2026-01-02"
STAMP = "stamp: agency mark, mill 12, No.2, S-DRY"
BY_HAND = ("rafters/ridge", "ties/tie_ends")  # a joint to be described as an [[anchor]]: here an engineer rules on it


def new(name: str, path: Path) -> None:
    """`new NAME` with the everyday answers of its questions, typed as people say them."""
    arguments = ["new", name, str(path), "--no-ask"]
    given: dict[str, Any] = {}
    of = situation(name)
    for ask in of.asks:
        if ask in of.asked(given) and ask.ordinary:
            given[ask.key] = read_answer(ask, ask.ordinary)
            arguments += [f"--{ask.key.replace('_', '-')}", ask.ordinary]
    done = CliRunner().invoke(main, arguments, prog_name="whatcarries")
    assert done.exit_code in (0, 3), done.output


def ruled(one: OpenQuestion) -> bool:
    return one.question.field == RULING or one.id in BY_HAND


def answered(path: Path, waiting: list[OpenQuestion]) -> None:
    """The questions that are open, by flags of one command; a ruling has one of its own."""
    by, one = ["--by", "A. Example, P.E. 12345"], waiting[0]
    if ruled(one):
        by += ["--document", "letters/R1.pdf"]
        for part, force in one.question.forces.items():
            by += ["--up-to", f"{part}={abs(force) + 1.0:.0f} lb"]
        given = ["--answer", f"{one.id}=accepted as drawn"]
    else:
        given = [part for each in waiting if not ruled(each) for part in ("--answer", f"{each.id}={said(each)}")]
    done = CliRunner().invoke(main, ["ask", str(path), *given, *by], prog_name="whatcarries")
    assert done.exit_code in (0, 3), (given, done.output)


def said(one: OpenQuestion) -> str:
    if one.id.endswith("/evidence"):
        return STAMP
    return one.question.answers[0].says if one.question.answers else WORDS


@pytest.mark.parametrize("name", [one.name for one in situations()])
def test_it_reaches_passes(name: str, tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    new(name, path)
    asked: list[str] = []
    memory = Memory()
    for _ in range(ROUNDS):
        result = check_file(path, memory=memory)
        waiting = sorted((one for one in result.questions if one.state != "idle"), key=ruled)
        if result.verdict == "passes" or not waiting:
            break
        assert asked[-2:] != [waiting[0].id] * 2, f"{waiting[0].id} is asked again and again"
        asked.append(waiting[0].id)
        answered(path, waiting)
    assert result.verdict == "passes", asked
    assert path.read_text(encoding="utf-8").startswith("#:schema")  # the commented file of `new`, comments kept
