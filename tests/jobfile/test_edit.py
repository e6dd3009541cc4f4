"""Fields set in the text of a job file: only the lines that are touched change."""

from __future__ import annotations

import tomllib
from difflib import ndiff
from pathlib import Path

import pytest

from beamcheck.api import check_file
from beamcheck.errors import BeamcheckError, JobError
from beamcheck.jobfile.edit import with_fields
from beamcheck.jobfile.layout import changed_lines, with_entry, without_entry
from beamcheck.model.job_paths import get_field, with_values
from beamcheck.model.reading.reader import read_job_text

TRIALS = Path(__file__).parents[1] / "trials"
# an invented job in which tables of one kind stand apart, with comments where people put them
TEXT = '''# whoever reads this: ask Ana first
[job]
title = "Net store (invented)"   # the small one
standard = "NDS 2018"
loads = "ASCE 7-16"
invented = true

[[beam]]
name = "B 1.5"          # a name with a dot
stock = "w"
service = "floor"
finish = "none"
top_held = "full length"
supports = [
  { at = "0 ft",  on = "P" },     # left, on the post
  { at = "9 ft", on = "wall", bearing = "3 in" },
]
carries = [{what="floor", dead="10 psf", live="40 psf", width="4 ft"}]
# about the post: it was found in the yard

[[post]]
name = "P"
stock = "p"
on = "wall"
height = "8 ft"
top_restraint = "pinned"

[[beam]]
name = "B2"
stock = "w"
service = "floor"
finish = "none"
top_held = "ends only"

[[beam.supports]]
at = "0 ft"
# seat not measured
on = "wall"

[[beam.supports]]
at = "7 ft"
on = "wall"

# what it is made of
[[stock]]
name = "w"
species = "Hem-Fir"
grade = "No.2"
size = "4x10"
moisture = "dry"
grade_from = "assumed"

[[stock]]
name = "p"
species = "Hem-Fir"
grade = "No.2"
size = "6x6 dressed"
moisture = "green"
grade_from = "assumed"

[[existing]]
name = "wall"
what = """a wall
[[beam]]
# of two lines"""
'''


def differing(before: str, after: str) -> tuple[list[str], list[str]]:
    """Lines taken away and lines put in, with their ends."""
    lines = list(ndiff(before.splitlines(keepends=True), after.splitlines(keepends=True)))
    return [line[2:] for line in lines if line[0] == "-"], [line[2:] for line in lines if line[0] == "+"]


CASES = [
    ("beam.B 1.5.supports.1.bearing", "5 1/2 in",
     ['  { at = "0 ft",  on = "P" },     # left, on the post\n'],
     ['  { at = "0 ft",  on = "P", bearing = "5 1/2 in" },     # left, on the post\n']),
    ("beam.B 1.5.supports.2.bearing", "4 in",
     ['  { at = "9 ft", on = "wall", bearing = "3 in" },\n'], ['  { at = "9 ft", on = "wall", bearing = "4 in" },\n']),
    ("beam.B 1.5.length", "10 ft", [], ['length = "10 ft"\n']),
    ("beam.B2.supports.1.bearing", "4 in", [], ['bearing = "4 in"\n']),
    ("beam.B2.supports.2.at", "7 ft 1 in", ['at = "7 ft"\n'], ['at = "7 ft 1 in"\n']),
    ("post.P.height", "8 ft 1 in", ['height = "8 ft"\n'], ['height = "8 ft 1 in"\n']),
    ("post.P.meant.height", "as it was found", [], ['meant = { height = "as it was found" }\n']),
    ("beam.B2.place.from", "0 ft, 8 ft", [], ['place = { from = "0 ft, 8 ft" }\n']),
    ("beam.B2.place.start", "0 ft, 8 ft", [], ['place = { from = "0 ft, 8 ft" }\n']),
    ("beam.B2.plies", "2", [], ["plies = 2\n"]),
    ("beam.B2.supports.1.restrained", "yes", [], ["restrained = true\n"]),
    ("job.title", "Net store", ['title = "Net store (invented)"   # the small one\n'],
     ['title = "Net store"   # the small one\n']),
    ("job.invented", None, ["invented = true\n"], []),
    ("stock.w.evidence", "stamp: Hem-Fir No.2", [], ['evidence = "stamp: Hem-Fir No.2"\n']),
    ("existing.wall.material", "wood", [], ['material = "wood"\n']),
]  # fmt: skip


@pytest.mark.parametrize(("path", "value", "gone", "new"), CASES, ids=[case[0] for case in CASES])
@pytest.mark.parametrize("end", ["\n", "\r\n"], ids=["unix", "dos"])
def test_only_the_touched_lines_change(path: str, value: object, gone: list[str], new: list[str], end: str) -> None:
    text = TEXT.replace("\n", end)
    made = with_fields(text, [(path, value)])
    assert differing(text, made) == tuple([line.replace("\n", end) for line in lines] for lines in (gone, new))


def test_a_new_field_stands_in_its_entry_and_not_behind_a_comment_about_the_next() -> None:
    made = with_fields(TEXT, [("beam.B 1.5.length", "10 ft")])
    assert 'width="4 ft"}]\nlength = "10 ft"\n# about the post' in made


def test_setting_what_stands_there_changes_nothing() -> None:
    assert with_fields(TEXT, [("beam.B2.supports.2.at", "7 ft")]) == TEXT


def test_a_byte_order_mark_and_a_missing_last_line_end_stay() -> None:
    text = "\ufeff" + TEXT.rstrip("\n")
    made = with_fields(text, [("post.P.height", "8 ft 1 in")])
    assert made == text.replace('"8 ft"', '"8 ft 1 in"')
    assert with_fields(text, [("existing.wall.material", "wood")]).endswith('of two lines"""\nmaterial = "wood"\n')


def test_lines_that_changed_are_told_with_their_numbers() -> None:
    made = with_fields(TEXT, [("beam.B2.supports.2.at", "7 ft 1 in"), ("post.P.meant.height", "as it was found")])
    assert changed_lines(TEXT, made) == [(27, 'meant = { height = "as it was found" }'), (42, 'at = "7 ft 1 in"')]


def test_entries_are_added_at_the_end_and_taken_out_again() -> None:
    entry = {"on": "B2", "question": "ridge", "up_to": {"press": "450 lb"}}
    made = with_entry(TEXT, "ruling", entry)
    assert made == TEXT + '\n[[ruling]]\non = "B2"\nquestion = "ridge"\nup_to = {press = "450 lb"}\n'
    assert tomllib.loads(made)["ruling"] == [entry]
    assert without_entry(made, "ruling", 0) == TEXT


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        ("beam.B3.length", "10 ft", "there is no [[beam]] of that name"),
        ("beam.B2.supports.5.at", "10 ft", "no such place"),
        ("beam.B2.length", "ten feet", "ten feet"),
        ("beam.B2.lenght", "10 ft", "lenght"),
        ("beam.B2.stock", "nothing", "nothing"),
        ("job.title.more", "x", "no such place"),
    ],
)
def test_what_cannot_stand_there_is_refused(path: str, value: object, says: str) -> None:
    with pytest.raises(JobError, match=says.replace("[", r"\[").replace("]", r"\]")):
        with_fields(TEXT, [(path, value)])


def test_a_file_that_cannot_be_read_is_not_edited() -> None:
    with pytest.raises(JobError, match="standard"):
        with_fields('[job]\ntitle = "x"\n', [("job.title", "y")])


def every_answer() -> list[tuple[str, str, tuple[tuple[str, object], ...]]]:
    """All plausible answers to the questions of the trial jobs."""
    found = []
    for path in sorted(TRIALS.glob("*/*.toml"))[::3]:
        try:
            result = check_file(path)
        except BeamcheckError:
            continue
        found += [(path.name, path.read_text(), one.sets) for asked in result.questions
                  for one in asked.question.answers if one.sets]  # fmt: skip
    return found


def test_an_answer_in_the_text_makes_the_job_that_was_tried_with_it() -> None:
    """Written into the file and read anew, each answer to the questions of the trial jobs gives what was tried."""
    tried = 0
    for name, text, sets in every_answer():
        try:
            wanted = with_values(read_job_text(text), sets)
            made = with_fields(text, sets)
        except JobError:
            continue
        assert read_job_text(made) == wanted, (name, sets)
        gone, _ = differing(text, made)
        assert len(gone) <= len(sets), (name, sets)
        tried += 1
    assert tried > 30


def test_what_goes_together_may_be_set_one_after_the_other() -> None:
    job = read_job_text(TEXT)
    made = with_values(
        job, [("beam.B2.members", 3), ("beam.B2.spacing", "16 in"), ("beam.B2.shared_by", "1 in boards")]
    )
    assert get_field(made, "beam.B2.members") == 3
    with pytest.raises(JobError, match="spacing"):
        with_values(job, [("beam.B2.members", 3)])
