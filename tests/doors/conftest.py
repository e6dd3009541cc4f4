"""What the tests of the doors share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from beamcheck.cli import main


@pytest.fixture
def run() -> Callable[..., Result]:
    """Run the command line in this process: `run("check", "job.toml")`; `typed` comes in on standard input."""

    def call(*arguments: object, typed: str | None = None) -> Result:
        words = [str(argument) for argument in arguments]
        return CliRunner().invoke(main, words, input=typed, prog_name="whatcarries")

    return call


@pytest.fixture
def written(tmp_path: Path) -> Callable[[str], Path]:
    """Write a job file and say where."""

    def write(text: str) -> Path:
        path = tmp_path / "job.toml"
        path.write_bytes(text.encode())
        return path

    return write
