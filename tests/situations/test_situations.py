"""Every ready situation makes a job that is read; with everyday answers nothing fails, and what is open has a cure."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from typing import Any

import pytest

from beamcheck.api import check_text
from beamcheck.checks.core.asking.question import RULING
from beamcheck.errors import UnknownName
from beamcheck.model.reading.reader import job_from_data
from beamcheck.situations.situation import (
    Ask,
    BadAnswer,
    Choice,
    Situation,
    Wood,
    job_text,
    read_answer,
    situation,
    situations,
)

EVERY = situations()
NAMES = [one.name for one in EVERY]


def ordinary(of: Situation) -> dict[str, Any]:
    """Everyday answers to all questions that are asked."""
    given: dict[str, Any] = {}
    for ask in of.asks:
        if ask in of.asked(given) and ask.ordinary:
            given[ask.key] = read_answer(ask, ask.ordinary)
    return given


def only_needed(of: Situation) -> dict[str, Any]:
    return {key: value for key, value in ordinary(of).items() if of.ask(key).needed}


def test_there_are_about_fifteen_and_each_says_when_to_take_it() -> None:
    assert 15 <= len(EVERY) <= 20
    for name in ("old-beam", "joists", "header", "porch-beam", "ridge-beam", "rafters", "deck", "landing-beam", "post",
                 "hidden-plate", "hanger-rod", "ledger", "mantel", "bracket", "boxed-beam"):  # fmt: skip
        assert name in NAMES
    assert all(one.fits.endswith((".", "?")) and one.bring for one in EVERY)


@pytest.mark.parametrize("name", NAMES)
def test_it_asks_few_questions_in_words_of_the_trade(name: str) -> None:
    of = situation(name)
    assert 7 <= len(of.asked(ordinary(of))) <= 14
    for ask in of.asks:
        assert not re.search(r"[_{}<>]|F_|C_", ask.ask), ask.ask
        assert len(ask.ask) <= 100
        assert ask.kind != "choice" or ask.choices


@pytest.mark.parametrize("name", NAMES)
def test_with_everyday_answers_nothing_fails_and_what_is_open_can_be_cured(name: str) -> None:
    of = situation(name)
    text = job_text(of, ordinary(of))
    result = check_text(text)
    assert result.verdict in ("passes", "refer")
    for piece in result.pieces:
        assert piece.closest is None or piece.closest.ratio is None or piece.closest.ratio <= 1.0
    for one in result.questions:
        assert one.question.ask.endswith("?")
        assert one.question.field == RULING or one.question.field.partition(".")[0] in tomllib.loads(text)


@pytest.mark.parametrize("name", NAMES)
def test_with_the_least_answers_it_is_read_and_nothing_is_assumed(name: str) -> None:
    of = situation(name)
    assert check_text(job_text(of, only_needed(of))).verdict == "refer"


@pytest.mark.parametrize("name", NAMES)
def test_each_line_says_why_it_is_there_and_the_first_names_the_schema(name: str) -> None:
    of = situation(name)
    for answers in (ordinary(of), only_needed(of)):
        text = job_text(of, answers)
        assert text.startswith("#:schema ./whatcarries-job.schema.json\n")
        assert "\n\n\n" not in text and not re.search(r"[ \t]\n", text)
        plain = [line for line in text.splitlines() if "=" in line and "#" not in line and not line.startswith("#")]
        assert all(re.match(r"(?:name|stock|on|into|manner|standard|  \{)", line) for line in plain), plain


@pytest.mark.parametrize(
    ("made", "psf"),
    [("boards", 0.0), ("boards and gypsum board", 2.2), ("boards and plaster on lath", 8.0),
     ("boards and thin brick", 12.0)],
)  # fmt: skip
def test_a_boxed_beam_weighs_what_it_is_made_of(made: str, psf: float) -> None:
    """8 ft by 18 in of 1 1/2 in boards at 62.4 x 0.50/(1 + 0.50 x 0.171) x 1.19 pcf (NDS Supplement 3.1.3; G memory),
    and what lies on them (ASCE 7 Table C3.1-1)."""
    of = situation("boxed-beam")
    answers = {**ordinary(of), "made": read_answer(of.ask("made"), made)}
    (trim,) = job_from_data(tomllib.loads(job_text(of, answers))).trim
    boards = 62.4 * 0.50 / (1.0 + 0.50 * 0.009 * 19.0) * 1.19 * 8.0 * 1.5 * 0.125
    assert trim.weight == pytest.approx(boards + psf * 8.0 * 1.5, rel=1e-3)
    weighed = job_text(of, {**answers, "made": "weighed", "weight": "24 lb"})
    assert 'weight = "24 lb"' in weighed and "made_of" not in weighed


@pytest.mark.parametrize("name", NAMES)
def test_hostile_words_stay_words(name: str) -> None:
    of = situation(name)
    hostile = 'x" ]]\n[job]\ntitle = {{ 7 * 7 }} {% raise %} \\ \x7f'
    answers = ordinary(of)
    for ask in of.asks:
        if ask.kind == "text" and ask.key in answers and ask.key not in ("evidence", "plies_fastened"):
            answers[ask.key] = hostile
    data = tomllib.loads(job_text(of, answers, title=hostile))
    assert data["job"]["title"] == hostile


def test_what_is_needed_is_asked_for_by_name() -> None:
    with pytest.raises(BadAnswer, match="clear, roof-width, size"):
        job_text(situation("porch-beam"), {})
    with pytest.raises(BadAnswer, match="nothing to check"):
        read_answer(situation("porch-beam").ask("clear"), "")
    with pytest.raises(UnknownName, match="porch-beam"):
        situation("porch-beems")
    with pytest.raises(UnknownName, match="roof-width"):
        situation("porch-beam").ask("roof-widht")


FLOOR = Ask(
    "room", "What is it used for", "choice", choices=(Choice("a bedroom", "sleeping room"), Choice("a hall", "other"))
)


@pytest.mark.parametrize(
    ("ask", "said", "value"),
    [
        (FLOOR, "1", "sleeping room"), (FLOOR, "A Bedroom", "sleeping room"), (FLOOR, "sleeping room", "sleeping room"),
        (FLOOR, "", None), (FLOOR, "?", None),
        (Ask("w", "Which wood", "wood"), "Douglas Fir-Larch No.1", Wood("Douglas Fir-Larch", "No.1")),
        (Ask("w", "Which wood", "wood"), "douglas fir larch Select Structural",
         Wood("Douglas Fir-Larch", "Select Structural")),
        (Ask("w", "Which wood", "wood"), "Hem-Fir, No.2", Wood("Hem-Fir", "No.2")),
        (Ask("n", "How many", "count"), "3", 3), (Ask("y", "Is it", "yes-no"), "Y", True),
        (Ask("y", "Is it", "yes-no"), "no", False), (Ask("s", "Size", "size"), "2x10", "2x10"),
        (Ask("g", "Gap", "gap"), "0", "0 in"), (Ask("p", "Slope", "slope"), "6:12", "6:12"),
    ],
)  # fmt: skip
def test_answers_are_read(ask: Ask, said: str, value: object) -> None:
    assert read_answer(ask, said) == value


@pytest.mark.parametrize(
    ("kind", "said"),
    [("choice", "3"), ("wood", "oak"), ("wood", "Hem-Fir"), ("count", "0"), ("count", "many"), ("yes-no", "perhaps"),
     ("size", "6x"), ("slope", "steep"), ("feet", "long"), ("percent", "wet")],
)  # fmt: skip
def test_what_is_no_answer_is_refused_in_words(kind: Any, said: str) -> None:
    with pytest.raises(BadAnswer) as caught:
        read_answer(Ask("k", "What", kind, choices=FLOOR.choices if kind == "choice" else ()), said)
    assert len(str(caught.value)) > 10


def test_a_question_may_depend_on_another() -> None:
    of = situation("porch-beam")
    given: Mapping[str, Any] = {"strap": "report 12 of 2025"}
    assert "strap_takes" in [ask.key for ask in of.asked(given)]
    assert "strap_takes" not in [ask.key for ask in of.asked({})]
