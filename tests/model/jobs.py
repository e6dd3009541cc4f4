"""A good job file and what the tests do to it. Everything in it is invented."""

from __future__ import annotations

import pytest

from beamcheck.errors import JobError, Problem
from beamcheck.model.reading.reader import read_job_text

GOOD = """\
[job]
title = "Boathouse, main room (invented)"
standard = "NDS 2018"
loads = "ASCE 7-16"
invented = true

[[stock]]
name = "old beam"
species = "Eastern White Pine"
grade = "unstamped"
size = '7 1/4" x 9 3/4"'
moisture = "dry"

[[stock]]
name = "2x6"
species = "Douglas Fir-Larch"
grade = "No.2"
grade_from = "stamp"
size = "2x6"
moisture = "dry"

[[beam]]
name = "B1"
stock = "old beam"
supports = [
  { at = "0 ft", on = "west post", bearing = "5 1/2 in" },
  { at = "14 ft", on = "hidden plate A" },
]
carries = [
  { what = "plaster ceiling", dead = "10 psf", width = "4 ft" },
  { what = "attic, no storage", live = "10 psf", width = "4 ft" },
]
finish = "plaster"
top_held = "ends only"
service = "floor"
cuts = [
  { kind = "notch", at = "0 ft", length = "6 in", depth = "1 1/2 in", face = "bottom" },
  { kind = "mortise", at = "7 ft", length = "4 in", depth = "2 in", width = "1 1/2 in", from_bottom = "5 in" },
]

[[beam]]
name = "J1"
stock = "2x6"
supports = [
  { at = "0 ft", on = "B1", lands_at = "3 ft", holds = "hung" },
  { at = "8 ft", on = "north wall" },
]
finish = "gypsum board"
top_held = "full length"
service = "floor"

[[post]]
name = "west post"
stock = "old beam"
height = "8 ft"
on = "footing"
carries = [{ what = "chimney breast, invented", dead = "200 lbf" }]
top_restraint = "pinned"

[[rafter]]
name = "R1"
stock = "2x6"
run = "12 ft"
slope = "8:12"
spacing = "24 in"
ridge = "board"
tie = "T1"
finish = "none"
top_held = "full length"
  [rafter.wall]
  at = "0 ft"
  on = "north wall"
  [[rafter.carries]]
  what = "roofing"
  dead = "10 psf"
  measured = "slope"
  [[rafter.carries]]
  what = "snow"
  snow = "30 psf"

[[tie]]
name = "T1"
stock = "2x6"
height = "1 ft"
finish = "none"
top_held = "ends only"

[[rafter]]
name = "R2"
stock = "2x6"
run = "10 ft"
slope = "30 deg"
spacing = "16 in"
ridge = "beam"
ridge_on = "B1"
wall = { at = "1 ft", on = "north wall" }
finish = "none"
top_held = "full length"

[[existing]]
name = "hidden plate A"
what = "steel plate in the east wall"

[[existing]]
name = "north wall"
what = "stud wall"

[[existing]]
name = "footing"
what = "stone footing"
material = "masonry"
"""

CEILING = '{ what = "plaster ceiling", dead = "10 psf", width = "4 ft" }'
LETTER = (
    'values = { F_b = "900 psi", F_t = "500 psi", F_v = "120 psi", F_c_perp = "350 psi", F_c = "700 psi", '
    'E = "1,100,000 psi", E_min = "400,000 psi", G = 0.4, source = "letter of the grader, 3 May 2025" }'
)


def edited(*changes: tuple[str, str], text: str = GOOD) -> str:
    """The good job with the first of each `old` replaced by `new`; an `old` that is not there fails the test."""
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


def line_with(text: str, part: str) -> int:
    """The number of the first line that holds `part`."""
    return next(number for number, line in enumerate(text.split("\n"), start=1) if part in line)


def problems(text: str) -> tuple[Problem, ...]:
    """The problems of a bad job."""
    with pytest.raises(JobError) as caught:
        read_job_text(text)
    assert caught.value.problems
    return caught.value.problems


def only_problem(text: str) -> Problem:
    """The problem of a job that has just one."""
    found = problems(text)
    assert len(found) == 1, found
    return found[0]


def only_problem_within(text: str, new: str) -> Problem:
    """The problem of a job that has just one, on a line of the piece in which `new` was written."""
    problem = only_problem(text)
    written = line_with(text, new.split("\n")[0])
    headers = [number for number, line in enumerate(text.split("\n"), start=1) if line.startswith("[[")]
    begins = max(number for number in headers if number <= written)
    ends = min((number for number in headers if number > written), default=len(text.split("\n")))
    assert problem.line is not None
    assert begins <= problem.line < ends
    return problem
