"""The load path as a table: what rests on what, and the force that goes there, kind by kind."""

from __future__ import annotations

from collections.abc import Sequence

from ..analysis.loading import KINDS
from ..model.pieces import Existing, Job
from ..units import show
from .piece import Reactions
from .result import Table


def load_path_table(job: Job, reactions: Sequence[Reactions]) -> Table:
    """One row for each support of each piece."""
    ends = {piece.name: piece for piece in job.existing}
    rows = []
    for handed in reactions:
        for on, by_kind, largest, least in handed.rows:
            forces = ", ".join(
                f"{kind} {show(by_kind[kind][0], 'force')}" + (f" (up to {show(-by_kind[kind][1], 'force')} upwards)" if by_kind[kind][1] < 0 else "")
                for kind in KINDS if kind in by_kind
            )  # fmt: skip
            rows.append((handed.name, on, forces, show(largest, "force"), show(least, "force"), _end(ends.get(on))))
    heads = ("piece", "puts on", "by kind, unfactored", "largest", "least", "where the path ends")
    return Table(
        "Load path",
        heads,
        tuple(rows),
        "down to the ground or to what is there already, by others; rafters: one of each",
    )


def _end(existing: Existing | None) -> str:
    if existing is None:
        return "goes on"
    return (
        f"by others, confirmed: {existing.confirmed_by}"
        if existing.confirmed_by.strip()
        else "by others, not confirmed"
    )
