"""The tables of a job as they were written: plain data, and the piece where all of it could be read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, TypeGuard

from pydantic import ValidationError

from ...errors import BeamcheckError
from ...records import dataclass
from ...values.lumber import Size, read_size
from ..classes import class_of
from ..fields.base import Piece
from ..fields.places import LONGEST_NAME, Path, entries, fields
from ..job import Job

KINDS = ("stock", "existing", "beam", "rafter", "tie", "post", "anchor", "joint", "bracket", "trim", "frame")
HOLDERS = ("beam", "post", "existing")  # what a rafter may rest on
CARRIERS = (*HOLDERS, "bracket", "trim")  # what a beam or post may name; that trim carries nothing is for the checks
FIXED_TO = {"bracket": (*HOLDERS, "trim", "frame"), "trim": CARRIERS}


@dataclass(frozen=True)
class Entry:
    """One table of the job: `data` by field name; `piece` only when all of it could be read."""

    kind: str
    index: int
    data: Mapping[str, Any]
    piece: Piece | None

    @property
    def path(self) -> Path:
        return (self.kind, self.index)

    def text(self, field: str) -> str | None:
        value = self.data.get(field)
        return value if is_name(value) else None

    def rests_on(self) -> list[tuple[Path, str, tuple[str, ...]]]:
        """Everything it names as carrying it: path, name, kinds of piece that may."""
        named: list[tuple[Path, Any, tuple[str, ...]]] = []
        if self.kind == "beam":
            for i, support in enumerate(entries(self.data.get("supports"))):
                named.append(((*self.path, "supports", i, "on"), fields(support).get("on"), (*CARRIERS, "frame")))
        elif self.kind == "rafter":
            named.append(((*self.path, "wall", "on"), fields(self.data.get("wall")).get("on"), HOLDERS))
            named.append(((*self.path, "ridge_on"), self.data.get("ridge_on"), ("beam", "existing")))
        elif self.kind == "post":
            named.append(((*self.path, "on"), self.data.get("on"), CARRIERS))
        elif self.kind == "frame":
            for i, foot in enumerate(entries(self.data.get("feet"))):
                named.append(((*self.path, "feet", i, "on"), fields(foot).get("on"), HOLDERS))
        elif self.kind in FIXED_TO:
            named.append(((*self.path, "on"), self.data.get("on"), FIXED_TO[self.kind]))
        return [(path, name, kinds) for path, name, kinds in named if is_name(name)]


def is_name(value: Any) -> TypeGuard[str]:
    """Whether it can be a name at all; what cannot is reported with its field."""
    return isinstance(value, str) and 0 < len(value.strip()) <= LONGEST_NAME


def entries_of(job: Job | Mapping[str, Any], kind: str) -> Iterator[Entry]:
    for index, thing in enumerate(entries(fields(job).get(kind))):
        piece = thing if isinstance(thing, Piece) else _read(kind, thing)
        yield Entry(kind, index, fields(thing), piece)


def _read(kind: str, thing: Any) -> Piece | None:
    if kind not in KINDS:
        return None
    try:
        return class_of(kind).model_validate(thing)
    except ValidationError:
        return None


def size_of(stock: Entry | None) -> Size | None:
    try:
        return read_size(stock.text("size") or "") if stock is not None else None
    except BeamcheckError:
        return None
