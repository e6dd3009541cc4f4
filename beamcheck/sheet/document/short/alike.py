"""Like members: equal in everything but their names and those of what is beside them, to the last digit."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass

from ....checks.core.result import JobResult, PieceResult
from ...record.records import record


@dataclass(frozen=True)
class Group:
    """Pieces that are alike; `index` is the place of the first among all. `renamed`: for each other piece, the names
    that take the place of those on the page of the first.
    """

    index: int
    pieces: tuple[PieceResult, ...]
    renamed: tuple[tuple[tuple[str, str], ...], ...] = ()

    @property
    def first(self) -> PieceResult:
        return self.pieces[0]


def groups_of(result: JobResult) -> tuple[Group, ...]:
    """The pieces in their order, each with those alike that come after it."""
    names = {piece.name for piece in result.pieces}
    if result.path is not None:
        names |= {node.name for node in result.path.nodes}
    pattern = re.compile("|".join(rf"\b{re.escape(name)}\b" for name in sorted(names, key=len, reverse=True) if name))
    made: list[Group] = []
    by_outline: dict[tuple[object, ...], list[int]] = {}
    bare: dict[int, tuple[str, tuple[str, ...]]] = {}
    for index, piece in enumerate(result.pieces):
        places = by_outline.setdefault(_outline(piece), [])
        for place in places:
            group = made[place]
            for one, at in ((group.first, group.index), (piece, index)):
                if at not in bare:
                    bare[at] = _without_names(one, pattern)
            if bare[group.index][0] == bare[index][0]:
                both = zip(bare[group.index][1], bare[index][1], strict=True)
                renamed = tuple((was, now) for was, now in both if was != now and was != group.first.name)
                made[place] = Group(group.index, (*group.pieces, piece), (*group.renamed, renamed))
                break
        else:
            places.append(len(made))
            made.append(Group(index, (piece,)))
    return tuple(made)


def _outline(piece: PieceResult) -> tuple[object, ...]:
    """A first glance, without names: pieces that differ in it are not alike."""
    ratios = tuple(None if check.ratio is None else f"{check.ratio:.12g}" for check in piece.checks)
    return piece.kind, piece.verdict, tuple(check.id for check in piece.checks), ratios


def _without_names(piece: PieceResult, pattern: re.Pattern[str]) -> tuple[str, tuple[str, ...]]:
    """All of a piece as text, with a number in place of each name; and the names in the order of these numbers."""
    found: dict[str, int] = {}

    def number(name: re.Match[str]) -> str:
        return f"\x00{found.setdefault(name[0], len(found))}\x00"

    text = pattern.sub(number, json.dumps(record(piece), default=str)) if pattern.pattern else ""
    return text, tuple(found)


def words_for(group: Group, marks: Sequence[str]) -> tuple[str, ...]:
    """What is to be read otherwise for the other members of a group."""
    told = []
    for mark, changes in zip(marks[1:], group.renamed, strict=True):
        if changes:
            told.append(f"{mark}: read " + ", ".join(f"{now} for {was}" for was, now in changes))
    return tuple(told)
