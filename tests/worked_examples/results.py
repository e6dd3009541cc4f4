"""Results of the worked examples, worked out once for all tests of a process."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from beamcheck.api import check_file
from beamcheck.checks.core.result import JobResult

FOLDER = Path(__file__).parents[2] / "worked_examples"


@cache
def example(name: str) -> JobResult:
    """The result of worked_examples/NAME.toml, which may lie in a folder there."""
    return check_file(FOLDER / f"{name}.toml")
