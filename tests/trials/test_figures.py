"""No figure of a job changes unseen: verdicts, demands, capacities, ratios and questions.

What is right is said by the tests of each room. This is the alarm: `python -m tests.trials.figures --write` writes the
figures anew, and a change that a user may have on paper gets a line under "Changes of computed numbers".
"""

from __future__ import annotations

import math

import pytest

from .figures import Row, jobs, kept, rows

SUBJECTS = jobs()
AGREE = 1e-6  # relative; the same on other machines
HOW = "on purpose? Then python -m tests.trials.figures --write, and a line in DEVELOPERS.md"


def alike(one: str, other: str) -> bool:
    try:
        return one == other or math.isclose(float(one), float(other), rel_tol=AGREE, abs_tol=1e-9)
    except ValueError:
        return False


@pytest.mark.parametrize("subject", sorted(SUBJECTS))
def test_the_figures_are_those_that_were_written_down(subject: str) -> None:
    was, now = kept(subject), list(rows(SUBJECTS[subject]))
    pairs = zip(was, now, strict=False)
    changed: list[tuple[Row, Row]] = [
        (one, other) for one, other in pairs if not all(map(alike, one, other)) or len(one) != len(other)
    ]
    assert not changed, (HOW, changed[:5])
    assert len(was) == len(now), (HOW, len(was), len(now))
