"""Published examples as jobs: each must give the figures printed in its source (named in the .expect.toml by it)."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import read_job

FOLDER = Path(__file__).parents[2] / "worked_examples" / "published"
JOBS = sorted(path for path in FOLDER.glob("*.toml") if not path.name.endswith(".expect.toml"))


def figures() -> list[tuple[str, dict[str, object]]]:
    found = []
    for path in JOBS:
        expected = tomllib.loads(path.with_suffix(".expect.toml").read_text())
        assert expected["source"] and expected["how"], f"{path.name}: every expectation names its source"
        found += [(path.stem, figure) for figure in expected["figure"]]
    return found


@pytest.mark.parametrize(
    ("job", "figure"), figures(), ids=lambda v: v if isinstance(v, str) else f"{v['check']}-{v['of']}"
)
def test_published_figure(job: str, figure: dict[str, object]) -> None:
    """The figure of the source, within the tolerance that its `why` explains."""
    result = check_job(read_job(FOLDER / f"{job}.toml"))
    piece = next(piece for piece in result.pieces if piece.name == figure["piece"])
    check = next(check for check in piece.checks if check.what == figure["check"])
    got = getattr(check, str(figure["of"]))
    if isinstance(figure["value"], str):
        assert got == figure["value"], figure["why"]
    else:
        assert got == pytest.approx(figure["value"], rel=float(figure["within"])), figure["why"]  # type: ignore[arg-type]


def test_there_are_published_jobs() -> None:
    """Five jobs, each with its expectations beside it."""
    assert len(JOBS) >= 5
    assert all(path.with_suffix(".expect.toml").exists() for path in JOBS)


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_no_example_passes_on_assumed_grades(path: Path) -> None:
    """The sources say nothing of a grade mark, so none of them may come out as `passes`."""
    assert check_job(read_job(path)).verdict != "passes"
