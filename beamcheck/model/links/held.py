"""Which ends of pieces are held by which anchor group."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ...records import dataclass
from ..fields.places import Path, entries, fields
from .entries import Entry

# kind of piece -> its fields that name an anchor group, beside those of its supports
HELD_BY = {
    "tie": ("ends_held_by",), "rafter": ("upper_held_by", "ridge_held_by"), "post": ("head_held_by", "foot_held_by"),
}  # fmt: skip
OR_EXISTING = ("head_held_by",)  # may name an [[existing]] entry as well


@dataclass(frozen=True)
class Use:
    """One end that an anchor group holds: who names it, and where."""

    path: Path
    name: str
    user: Entry


def uses_of(entry: Entry) -> Iterator[Use]:
    """The anchor groups that a piece names."""
    named: list[tuple[Path, Any]] = []
    if entry.kind == "beam":
        for i, support in enumerate(entries(entry.data.get("supports"))):
            named.append((("supports", i, "held_by"), fields(support).get("held_by")))
    elif entry.kind == "rafter":
        named.append((("wall", "held_by"), fields(entry.data.get("wall")).get("held_by")))
    named += [((field,), entry.data.get(field)) for field in HELD_BY.get(entry.kind, ())]
    for path, name in named:
        if isinstance(name, str) and name.strip():
            yield Use((*entry.path, *path), name, entry)
