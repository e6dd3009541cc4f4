"""The figures of every trial job and worked example as they are now: python -m tests.trials.figures --write

They are no expected values, which come from outside the code, but an alarm: what changes here may stand on somebody's
paper. Whoever changes a figure on purpose writes these anew, looks at what differs, and gives it a line under "Changes
of computed numbers" in DEVELOPERS.md. Each subject has a file of its own, so that two people do not collide.
"""

from __future__ import annotations

import csv
import io
import sys
from collections.abc import Iterator
from pathlib import Path

from beamcheck.checks.core.result import JobResult
from beamcheck.checks.job import check_job
from beamcheck.errors import BeamcheckError
from beamcheck.model.reading.reader import read_job

TOP = Path(__file__).parents[2]
KEPT = Path(__file__).parent / "figures"
COLUMNS = ("job", "piece", "check", "verdict", "demand", "capacity", "ratio", "asks")
Row = tuple[str, ...]


def jobs() -> dict[str, list[Path]]:
    """The jobs of each subject."""
    found: dict[str, list[Path]] = {}
    for folder in ("tests/trials", "worked_examples"):
        for path in sorted((TOP / folder).rglob("*.toml")):
            inside = path.relative_to(TOP / folder).parts
            found.setdefault(inside[0] if len(inside) > 1 else folder, []).append(path)
    return found


def rows(paths: list[Path]) -> Iterator[Row]:
    """One row a piece and a check of each job."""
    for path in paths:
        name = path.stem
        try:
            result = check_job(read_job(path))
        except BeamcheckError:
            yield (name, "", "", "refused", *[""] * 4)
            continue
        yield from _of_job(name, result)


def _of_job(name: str, result: JobResult) -> Iterator[Row]:
    open_ = " ".join(sorted(f"{one.question.id}:{one.state}" for one in result.questions))
    yield (name, "", "", result.verdict, "", "", "", open_)
    for piece in result.pieces:
        yield (name, piece.name, "", piece.verdict, "", "", "", "")
        for check in piece.checks:
            figures = ("" if each is None else f"{each:.8g}" for each in (check.demand, check.capacity, check.ratio))
            asks = " ".join(sorted(question.id for question in check.questions))
            yield (name, piece.name, check.id, check.verdict, *figures, asks)


def kept(subject: str) -> list[Row]:
    """What was written down of a subject."""
    with (KEPT / f"{subject}.csv").open(newline="", encoding="utf-8") as file:
        return [tuple(row) for row in csv.reader(file)][1:]


def main() -> None:
    """Write them all."""
    if sys.argv[1:] != ["--write"]:
        raise SystemExit(__doc__)
    KEPT.mkdir(exist_ok=True)
    for subject, paths in jobs().items():
        text = io.StringIO()
        made = csv.writer(text, lineterminator="\n")
        made.writerows([COLUMNS, *rows(paths)])
        (KEPT / f"{subject}.csv").write_text(text.getvalue(), encoding="utf-8")


if __name__ == "__main__":
    main()
