"""A good job file with brackets, damaged at random, is read or refused with a JobError; nothing else comes out."""

from __future__ import annotations

import re

from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.errors import JobError
from beamcheck.model.job import Job
from beamcheck.model.reading.reader import read_job_text

from ..bracket_jobs import GOOD_BRACKETS

LINES = tuple(GOOD_BRACKETS.split("\n"))
QUOTED = [match.span() for match in re.finditer(r'"[^"\n]*"', GOOD_BRACKETS)]
VALUES = st.sampled_from(
    [
        '""',
        '"x"',
        '" "',
        "0",
        "-1",
        "1.5",
        "nan",
        "inf",
        "true",
        "[]",
        "{}",
        "[[1]]",
        "[{}]",
        "{ a = 1 }",
        '"-1 ft"',
        '"1e300 ft"',
        '"0 ft"',
        '"nan psf"',
        '"14 ft"',
        '"10 psf"',
        '"10 lbf"',
        '"10 plf"',
        '"B1"',
        '"J1"',
        '"west post"',
        '"old beam"',
        '"T1"',
        '"R1"',
        '"K1"',
        '"crown"',
        '"solid"',
        '"bent"',
        '"points"',
        '"45 deg"',
        '"not for load"',
        '{ family = "solid" }',
        "2025-05-03",
        "10:30:00",
        "0x" + "f" * 5000,
        '"\\u001b[31m"',
        '"ends only"',
        "99999999999999999999",
        '"' + "x" * 6000 + '"',
    ]
)


def _read(text: str) -> None:
    try:
        job = read_job_text(text)
    except JobError as error:
        assert error.problems
        count = text.count("\n") + 1
        assert all(problem.line is None or 1 <= problem.line <= count for problem in error.problems)
        assert all(problem.text for problem in error.problems)
    else:
        assert isinstance(job, Job)


@st.composite
def damaged_lines(draw: st.DrawFn) -> str:
    """Lines deleted, doubled, moved, or given another value."""
    lines = list(LINES)
    for _ in range(draw(st.integers(1, 5))):
        at, other = draw(st.integers(0, len(lines) - 1)), draw(st.integers(0, len(lines) - 1))
        match draw(st.sampled_from(["delete", "double", "swap", "copy", "value"])):
            case "delete" if len(lines) > 1:
                del lines[at]
            case "double":
                lines.insert(at, lines[at])
            case "swap":
                lines[at], lines[other] = lines[other], lines[at]
            case "copy":
                lines[at] = lines[other]
            case _:
                lines[at] = f"{lines[at].partition('=')[0]}= {draw(VALUES)}"
    return "\n".join(lines)


@settings(deadline=None)
@given(damaged_lines())
def test_lines_deleted_doubled_moved_or_rewritten(text: str) -> None:
    _read(text)


@settings(deadline=None)
@given(st.sampled_from(QUOTED), VALUES)
def test_one_text_replaced(span: tuple[int, int], new: str) -> None:
    """Every quoted text of the file has its turn, those inside braces too."""
    _read(GOOD_BRACKETS[: span[0]] + new + GOOD_BRACKETS[span[1] :])


@settings(deadline=None)
@given(st.integers(0, len(GOOD_BRACKETS)), st.integers(0, 8), st.text(max_size=4))
def test_a_few_characters_replaced(at: int, length: int, new: str) -> None:
    _read(GOOD_BRACKETS[:at] + new + GOOD_BRACKETS[at + length :])


@settings(deadline=None)
@given(st.integers(0, len(GOOD_BRACKETS)))
def test_cut_off_anywhere(at: int) -> None:
    _read(GOOD_BRACKETS[:at])
