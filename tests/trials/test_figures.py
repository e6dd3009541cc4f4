"""No figure of a job changes unseen: verdicts, demands, capacities, ratios and questions.

What is right is said by the tests of each room. This is the alarm: `python -m tests.trials.figures --write` writes the
figures anew, and a change that a user may have on paper gets a line under "Changes of computed numbers".
"""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest

from .figures import Row, jobs, kept, rows

SUBJECTS = jobs()
JOBS = [(subject, path) for subject in sorted(SUBJECTS) for path in SUBJECTS[subject]]
AGREE = 1e-6  # relative; the same on other machines
HOW = "on purpose? Then python -m tests.trials.figures --write, and a line in DEVELOPERS.md"


def alike(one: str, other: str) -> bool:
    try:
        return one == other or math.isclose(float(one), float(other), rel_tol=AGREE, abs_tol=1e-9)
    except ValueError:
        return False


@cache
def was(subject: str) -> dict[str, list[Row]]:
    """What was written down of each job of a subject."""
    found: dict[str, list[Row]] = {}
    for row in kept(subject):
        found.setdefault(row[0], []).append(row)
    return found


@pytest.mark.parametrize(("subject", "path"), JOBS, ids=[f"{subject}/{path.stem}" for subject, path in JOBS])
def test_the_figures_are_those_that_were_written_down(subject: str, path: Path) -> None:
    then, now = was(subject)[path.stem], list(rows([path]))
    pairs = zip(then, now, strict=False)
    changed: list[tuple[Row, Row]] = [
        (one, other) for one, other in pairs if not all(map(alike, one, other)) or len(one) != len(other)
    ]
    assert not changed, (HOW, changed[:5])
    assert len(then) == len(now), (HOW, len(then), len(now))


@pytest.mark.parametrize("subject", sorted(SUBJECTS))
def test_no_job_is_written_down_that_is_gone(subject: str) -> None:
    assert list(was(subject)) == [path.stem for path in SUBJECTS[subject]], HOW
