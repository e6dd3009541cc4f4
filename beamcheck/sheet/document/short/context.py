"""What every part of a short sheet needs to know of the whole: marks, like members, numbers of sources, questions."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field

from ....checks.core.result import JobResult, PieceResult
from ....provenance import Source
from ....records import dataclass
from ...figures.load_path_plan import Plan
from ..piece import piece_anchor
from ..rich_blocks import Marks
from .alike import Group, groups_of

LETTERS = {
    "beam": "B", "rafter": "R", "tie": "T", "post": "P", "anchor": "A", "bracket": "K", "trim": "M", "frame": "F",
    "member": "S", "joint": "J",
}  # fmt: skip
_IS_MARK = re.compile(r"[A-Z]{1,2}-?[0-9]{1,3}[a-z]?")


@dataclass(frozen=True)
class Sheet:
    """A result with what is named on every page of its sheet."""

    result: JobResult
    marks: Mapping[str, str]  # by name of the piece
    groups: tuple[Group, ...]
    numbers: Mapping[Source, int]
    asked: Mapping[str, int]  # number of an open question by its id
    letters: Mapping[str, str]  # of what is assumed
    anchors: Mapping[str, str] = field(default_factory=dict)  # of the page of each piece, by name
    bars: Mapping[str, str] = field(default_factory=dict)  # of the key plan, by name of the piece
    plan: Plan | None = None

    def chips(self, names: Iterable[str]) -> Marks:
        """The marks of some pieces, with their pages."""
        return Marks(tuple((self.marks[name], self.anchors[name]) for name in names if name in self.marks))


def sheet_of(result: JobResult) -> Sheet:
    """Gather marks, groups and numbers of a result."""
    groups = groups_of(result)
    anchors = {piece.name: piece_anchor(group.index) for group in groups for piece in group.pieces}
    asked = {one.id: number for number, one in enumerate(result.questions, start=1)}
    numbers = {source: number for number, source in enumerate(result.sources, start=1)}
    said = dict.fromkeys(text for piece in result.pieces for text in piece.assumptions)
    letters = {text: _letter(number) for number, text in enumerate(said)}
    return Sheet(result, marks_of(result.pieces), groups, numbers, asked, letters, anchors)


def marks_of(pieces: Iterable[PieceResult]) -> dict[str, str]:
    """A mark for each piece: its name where that is one, else the letter of its kind and a number."""
    names = list(pieces)
    own = {piece.name for piece in names if _IS_MARK.fullmatch(piece.name)}
    return dict(_marked(names, own))


def _marked(pieces: Iterable[PieceResult], own: set[str]) -> Iterator[tuple[str, str]]:
    last: dict[str, int] = {}
    for piece in pieces:
        if piece.name in own:
            yield piece.name, piece.name
            continue
        letter = LETTERS.get(piece.kind, "X")
        number = last.get(letter, 0) + 1
        while f"{letter}{number}" in own:
            number += 1
        last[letter] = number
        yield piece.name, f"{letter}{number}"


def _letter(number: int) -> str:
    """a, b, ... z, aa, ab, ..."""
    text = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(ord("a") + rest) + text
    return text
