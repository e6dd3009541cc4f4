"""Pieces from the top down, and results used again: a run with a memory equals one without, whatever is changed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from beamcheck.checks.core.wood.govern import figures_only
from beamcheck.checks.pieces import Memory, Run, run_pieces
from beamcheck.model.job import Job
from beamcheck.model.job_paths import with_values
from beamcheck.model.reading.reader import read_job

EXAMPLE = Path(__file__).parents[2] / "worked_examples" / "net_loft.toml"


@pytest.fixture(scope="module")
def job() -> Job:
    return read_job(EXAMPLE)


def figures(run: Run) -> list[Any]:
    return [
        (piece.name, piece.verdict, [(c.subject, c.what, c.where, c.verdict, c.ratio, c.notes) for c in piece.checks])
        for piece in run.results
    ]  # fmt: skip


def changes(job: Job) -> list[tuple[str, Any]]:
    """One change of each sort of thing: a stock, a seat, a load, what is there already, an anchor, a post."""
    beam, post = job.beam[0], job.post[0]
    return [
        (f"stock.{job.stock[0].name}.measured_moisture", "25 %"),
        (f"beam.{beam.name}.supports.1.bearing", "2 1/4 in"),
        (f"beam.{beam.name}.carries", {"what": "more", "live": "20 plf", "applied": "top"}),
        (f"existing.{job.existing[0].name}.takes", "900 lb"),
        (f"post.{post.name}.eccentricity", "1/2 in"),
        (f"anchor.{job.anchor[0].name}.split", "not looked at"),
    ]


def test_a_memory_changes_nothing(job: Job) -> None:
    """Each change by itself and all of them together, in a memory that has seen the others."""
    memory = Memory()
    run_pieces(job, memory)
    with figures_only():
        for sets in [*([one] for one in changes(job)), changes(job)]:
            changed = with_values(job, sets)
            assert figures(run_pieces(changed, memory)) == figures(run_pieces(changed))


def test_what_did_not_change_is_not_worked_out_again(job: Job) -> None:
    memory = Memory()
    run_pieces(job, memory)
    pieces = memory.worked_out
    run_pieces(job, memory)
    assert memory.worked_out == pieces
    with figures_only():
        run_pieces(with_values(job, [(f"existing.{job.existing[0].name}.takes", "900 lb")]), memory)
    assert memory.worked_out - pieces < pieces


def test_anchor_groups_come_from_memory_too(job: Job) -> None:
    memory = Memory()
    first = run_pieces(job, memory).structure.groups
    again = run_pieces(job, memory).structure.groups
    assert {name: len(groups) for name, groups in again.items()} == {name: len(g) for name, g in first.items()}
