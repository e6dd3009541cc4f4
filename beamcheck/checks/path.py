"""The load path as a table: what rests on what, and the force that goes there, kind by kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..analysis.loading import KINDS
from ..model.pieces import Existing, Job
from ..units import show
from .draft import Handed, Reactions
from .result import Table

HEADS = ("piece", "puts on", "by kind, unfactored", "largest", "least", "where the path ends")
NOTE = (
    "Down to the ground or to what is there already, by others. A rafter that is repeated stands for one of them; a "
    "ridge beam takes both sides of the roof."
)


def load_path_table(job: Job, reactions: Sequence[Reactions]) -> Table:
    """One row for each support of each piece."""
    ends = {piece.name: piece for piece in job.existing}
    rows = tuple(
        (handed.name, _carrier(row), _forces(row), show(row.largest, "force"), show(row.least, "force"),
         _end(row, ends))
        for handed in reactions for row in handed.rows
    )  # fmt: skip
    return Table("Load path", HEADS, rows, NOTE)


def _carrier(row: Handed) -> str:
    on = row.on or "the opposite wall"
    return f"{on}, every {show(row.spacing, 'length')}" if row.spacing else on


def _forces(row: Handed) -> str:
    """'D 120 lb, S 340 lb (up to 20 lb upwards)'."""
    said = []
    for kind in KINDS:
        if kind in row.by_kind:
            high, low = row.by_kind[kind]
            upwards = f" (up to {show(-low, 'force')} upwards)" if low < 0 and kind != "D" else ""
            said.append(f"{kind} {show(high, 'force')}{upwards}")
    return ", ".join(said)


def _end(row: Handed, ends: Mapping[str, Existing]) -> str:
    existing = ends.get(row.on)
    if existing is None:
        return "goes on" if row.on else "not named: nobody answers for it"
    if existing.confirmed_by.strip():
        return f"by others, confirmed: {existing.confirmed_by}"
    return "by others, not confirmed"
