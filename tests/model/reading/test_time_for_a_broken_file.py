"""A job file that nobody can read is refused soon, however long its lines are.

The time limit tells an answer from a hang and is no figure of speed: what is tried here took from 12 s to hours.
"""

from __future__ import annotations

import re
import time
from contextlib import suppress

import pytest

from beamcheck import check_text
from beamcheck.errors import JobError

from ...doors.jobs import REFER

LONG = 400_000
BROKEN = {
    "a text that is not closed": 'x = "' + "a" * LONG,
    "a word without a value": "a" * LONG,
    "a word and spaces": f"a = {' ' * LONG}x y",
    "single quotes": "x = " + "'a" * LONG,
    "quotes": "x = " + '"' * LONG,
    "a text of many lines that is not closed": 'x = """' + "a\n" * LONG,
    "brackets": "x = " + "[" * LONG,
    "backslashes": 'x = "' + "\\" * LONG,
    "a name with spaces in it": f'["{" " * LONG}"]\n["{" " * LONG}"]\n',
    "many open lines": 'x = "a\n' * (LONG // 8),
    "curly quotes": "x = “" * (LONG // 4),
}


@pytest.mark.parametrize("what", BROKEN)
def test_refused_soon(what: str) -> None:
    began = time.process_time()
    with pytest.raises(JobError):
        check_text(REFER + BROKEN[what])
    assert time.process_time() - began < 5.0


HARD = (
    "9" * 4900, "psf " * 1200, "9 " * 2400, " " * 4900 + "x", "nobody " + " " * 4800 + "\nx", "A" * 4900 + "_",
    "report " * 700, "2x" * 2400, "1 1/2 " * 800, "at " * 1600, "of " * 1600, "-" * 4900,
)  # fmt: skip


@pytest.mark.parametrize("hard", HARD, ids=lambda text: text[:8].strip() or "spaces")
def test_long_texts_in_every_field_are_read_soon(hard: str) -> None:
    """Each text of a good job in turn is a long one: answered or refused."""
    began, count = time.process_time(), 0
    for match in re.finditer(r'"[^"\n]*"', REFER):
        with suppress(JobError):
            check_text(REFER[: match.start()] + f'"{hard}"'.replace("\n", "\\n") + REFER[match.end() :])
        count += 1
    assert count > 15 and time.process_time() - began < 0.5 * count
