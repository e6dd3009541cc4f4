"""Newer prints of the standards: what is known of them beside the print that is run here."""

from __future__ import annotations

from typing import Literal

from ..provenance import Source
from ..records import dataclass
from .loader import rows, source_of

State = Literal["same", "differs", "not known"]


@dataclass(frozen=True)
class Difference:
    """One subject of a newer print: as here, known to differ, or not known."""

    subject: str
    state: str
    what: str
    source: Source


def run_as(edition: str) -> str:
    """The print whose rules are run for a job of that edition: itself where that is the one that is run."""
    return next((row["run_as"] for row in rows("editions") if row["edition"] == edition), edition)


def differences(edition: str) -> tuple[Difference, ...]:
    """What is known of an edition beside the one that is run; nothing for the one that is run."""
    return tuple(
        Difference(row["subject"], row["state"], row["what"], source_of(row))
        for row in rows("editions") if row["edition"] == edition
    )  # fmt: skip
