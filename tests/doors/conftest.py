"""What the tests of the doors share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from beamcheck.cli import main


@pytest.fixture
def run() -> Callable[..., Result]:
    """Run the command line in this process: `run("check", "job.toml")`."""

    def call(*arguments: object) -> Result:
        return CliRunner().invoke(main, [str(argument) for argument in arguments], prog_name="whatcarries")

    return call


@pytest.fixture
def written(tmp_path: Path) -> Callable[[str], Path]:
    """Write a job file and say where."""

    def write(text: str) -> Path:
        path = tmp_path / "job.toml"
        path.write_bytes(text.encode())
        return path

    return write
