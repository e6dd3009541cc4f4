"""Answers and rulings written into a job: the value, how it is known, and the question is closed."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from beamcheck.api import check_text
from beamcheck.checks.core.asking.question import RULING, Question
from beamcheck.errors import BeamcheckError, JobError
from beamcheck.jobfile.answer import answer_of, with_answer, with_ruling
from beamcheck.jobfile.edit import with_fields
from beamcheck.model.reading.reader import read_job_text

from .test_edit import TRIALS, differing

# an invented porch whose beam sits on seats that nobody measured
TEXT = """[job]
title = "Net store (invented)"
standard = "NDS 2018"
loads = "ASCE 7-16"

[[stock]]
name = "w"
species = "Douglas Fir-Larch"
grade = "No.2"
size = "4x10"
moisture = "dry"
grade_from = "assumed"          # nobody has seen the stamp

[[existing]]
name = "wall"
what = "stud wall"
material = "wood"
F_c_perp = "405 psi"
takes = "2,000 lb"
confirmed_by = "letter of the engineer, 3 May 2025"

[[beam]]
name = "B1"
stock = "w"
service = "floor"
finish = "none"
top_held = "full length"
supports = [
  { at = "0 ft", on = "wall", restrained = true },
  { at = "9 ft", on = "wall", bearing = "3 in", restrained = true },
]
carries = [{ what = "floor of a bedroom", dead = "10 psf", live = "40 psf", width = "4 ft", applied = "top" }]
"""


def question(text: str, name: str) -> Question:
    found = [one.question for one in check_text(text).questions if one.id == name]
    assert found, [one.id for one in check_text(text).questions]
    return found[0]


def ids(text: str) -> list[str]:
    return [one.id for one in check_text(text).questions]


def seat() -> Question:
    found = [one.question for one in check_text(TEXT).questions if one.question.field.endswith(".bearing")]
    return found[0]


def test_the_value_goes_where_it_belongs_and_one_entry_says_how_it_is_known() -> None:
    asked = seat()
    made = with_answer(TEXT, asked, answer_of(asked, "3 1/2 in"), by="the carpenter", on="2026-03-02",
                       evidence="photos/B1-seat-1.jpg")  # fmt: skip
    gone, new = differing(TEXT, made)
    assert gone == ['  { at = "0 ft", on = "wall", restrained = true },\n']
    assert new == [
        '  { at = "0 ft", on = "wall", restrained = true, bearing = "3 1/2 in" },\n', "\n", "[[answer]]\n",
        'to = "beam.B1.supports.1.bearing"\n', 'value = "3 1/2 in"\n', 'by = "the carpenter"\n', 'how = "tape"\n',
        'date = "2026-03-02"\n', 'evidence = "photos/B1-seat-1.jpg"\n',
    ]  # fmt: skip
    assert asked.id not in ids(made) and asked.id in ids(TEXT)


def test_answered_anew_the_earlier_entry_gives_way() -> None:
    asked = seat()
    once = with_answer(TEXT, asked, answer_of(asked, "3 in"), by="the carpenter", on="2026-03-02")
    twice = with_answer(once, asked, answer_of(asked, "3 1/2 in"), by="the carpenter", on="2026-03-03")
    (answer,) = read_job_text(twice).answer
    assert (answer.value, answer.date) == ("3 1/2 in", "2026-03-03")


@pytest.mark.parametrize("said", ["about a hand", "?", "-3 in", "", "3"])
def test_what_is_no_answer_is_refused(said: str) -> None:
    asked = seat()
    with pytest.raises(BeamcheckError):
        with_answer(TEXT, asked, answer_of(asked, said), by="the carpenter")


def test_nobody_does_not_answer() -> None:
    asked = seat()
    with pytest.raises(JobError, match="is nobody"):
        with_answer(TEXT, asked, answer_of(asked, "3 in"), by="?")


def rulings() -> Iterator[tuple[str, Question]]:
    for path in sorted(TRIALS.glob("roofs/*.toml")) + sorted(TRIALS.glob("joints/*.toml")):
        text = path.read_text()
        try:
            result = check_text(text)
        except BeamcheckError:
            continue
        yield from ((text, one.question) for one in result.questions if one.question.field == RULING)


def test_a_ruling_closes_its_question_and_only_an_engineer_or_a_department_can_give_it() -> None:
    text, asked = next(rulings())
    forces = {part: f"{abs(force) + 1.0:.0f} lb" for part, force in asked.forces.items()}
    made = with_ruling(text, asked, says="detail S-4", by="the engineer, license 12", document="letters/S-4.pdf",
                       up_to=forces, on="2026-03-09")  # fmt: skip
    assert made.startswith(text.rstrip("\n"))
    assert asked.id not in ids(made)
    again = with_ruling(made, asked, says="detail S-5", by="the engineer, license 12", document="letters/S-5.pdf",
                        up_to=forces, on="2026-03-10")  # fmt: skip
    assert [one.says for one in read_job_text(again).ruling] == ["detail S-5"]
    with pytest.raises(JobError, match="engineer or a building department"):
        with_answer(text, asked, answer_of(asked, "yes, fine"), by="the carpenter")


def test_a_ruling_on_a_piece_that_is_changed_afterwards_opens_again() -> None:
    for text, asked in rulings():
        forces = {part: f"{abs(force) + 1.0:.0f} lb" for part, force in asked.forces.items()}
        made = with_ruling(text, asked, says="detail S-4", by="the engineer", document="letters/S-4.pdf", up_to=forces)
        piece = read_job_text(made).ruling[-1].on
        for kind in ("beam", "rafter", "tie", "post"):
            if piece in [one.name for one in getattr(read_job_text(text), kind)]:
                assert asked.id not in ids(made)
                assert asked.id in ids(with_fields(made, [(f"{kind}.{piece}.called", "the long one")]))
                return
    pytest.fail("no ruling was tried")
