"""Like members: equal in everything but their names and those of what is beside them, or that turned end for end, or
as its mirror image in a frame.
"""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import replace
from math import isclose

from ....checks.core.result import JobResult, PieceResult
from ....records import dataclass
from .sides import KINDS, other_side
from .turned import ends_of, turned

_DIGITS = 4  # of ratios, for a first glance
_NUMBER = r"-?[0-9]{1,30}(?:\.[0-9]{1,30}(?:e[+-]?[0-9]{1,3})?|e-[0-9]{1,3})"
_SAME = 1e-8  # two figures of one solver that differ by no more than this of their size are one
_NOTHING = 1e-9  # what a solver leaves of nothing


@dataclass(frozen=True)
class _Bare:
    """A piece as text with a mark in place of each name and number; the names and the numbers in their order."""

    text: str
    names: tuple[str, ...]
    numbers: tuple[float, ...]

    def same(self, other: _Bare) -> bool:
        """All but the names."""
        pairs = zip(self.numbers, other.numbers, strict=False)
        return self.text == other.text and all(isclose(*pair, rel_tol=_SAME, abs_tol=_NOTHING) for pair in pairs)


@dataclass(frozen=True)
class Group:
    """Pieces that are alike; `index` is the place of the first among all. `renamed`: for each other piece, the names
    that take the place of those on the page of the first. `turned`: the names of those that are the same turned end
    for end; `mirrored`: of those that are its mirror image.
    """

    index: int
    pieces: tuple[PieceResult, ...]
    renamed: tuple[tuple[tuple[str, str], ...], ...] = ()
    turned: frozenset[str] = frozenset()
    mirrored: frozenset[str] = frozenset()

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
    bare: dict[int, _Bare] = {}
    for index, piece in enumerate(result.pieces):
        places = by_outline.setdefault(_outline(piece), [])
        for place in places:
            group = made[place]
            for one, at in ((group.first, group.index), (piece, index)):
                if at not in bare:
                    bare[at] = _without_names(one, pattern)
            if bare[group.index].same(bare[index]):
                both = zip(bare[group.index].names, bare[index].names, strict=True)
                renamed = tuple((was, now) for was, now in both if was != now and was != group.first.name)
                made[place] = replace(group, pieces=(*group.pieces, piece), renamed=(*group.renamed, renamed))
                break
        else:
            if (found := _turned(piece, made, pattern)) is not None:
                group = made[found]
                ends = zip(ends_of(group.first), reversed(ends_of(piece)), strict=True)
                renamed = tuple((was, now) for was, now in dict.fromkeys(ends) if was != now)
                made[found] = replace(
                    group,
                    pieces=(*group.pieces, piece),
                    renamed=(*group.renamed, renamed),
                    turned=group.turned | {piece.name},
                )
                continue
            if (image := _mirrored(piece, made, pattern)) is not None:
                at, names_of = image
                group = made[at]
                made[at] = replace(
                    group,
                    pieces=(*group.pieces, piece),
                    renamed=(*group.renamed, names_of),
                    mirrored=group.mirrored | {piece.name},
                )
                continue
            places.append(len(made))
            made.append(Group(index, (piece,)))
    return tuple(made)


def _turned(piece: PieceResult, made: Sequence[Group], names: re.Pattern[str]) -> int | None:
    """The group of which a beam is one turned end for end."""
    if piece.kind != "beam" or not names.pattern:
        return None
    for place, group in enumerate(made):
        first = group.first
        alike = (first.kind, first.verdict, len(first.checks)) == (piece.kind, piece.verdict, len(piece.checks))
        if alike and turned(first, piece, names):
            return place
    return None


def _mirrored(
    piece: PieceResult, made: Sequence[Group], names: re.Pattern[str]
) -> tuple[int, tuple[tuple[str, str], ...]] | None:
    """The group of which a member or joint of a frame is the mirror image, and the names to be read otherwise."""
    if piece.kind not in KINDS or not names.pattern:
        return None
    from .mirrored import as_read, opposite

    for place, group in enumerate(made):
        first = group.first
        if _outline(first) != _outline(piece) or not opposite(first, piece):
            continue
        here, there = as_read(first, piece), as_read(piece, first, turn=True)
        if here is None or there is None:
            continue
        was, image = _without_names(here, names), _without_names(there, names, mirror=True)
        if was.same(image):
            both = zip(was.names, map(other_side, image.names), strict=True)
            return place, tuple((was, now) for was, now in both if now not in (was, other_side(was)))
    return None


def _outline(piece: PieceResult) -> tuple[object, ...]:
    """A first glance, without names: pieces that differ in it are not alike."""
    ratios = tuple(None if check.ratio is None else f"{check.ratio:.{_DIGITS}g}" for check in piece.checks)
    return piece.kind, piece.verdict, tuple(check.id for check in piece.checks), ratios


def _without_names(piece: PieceResult, names: re.Pattern[str], *, mirror: bool = False) -> _Bare:
    """`mirror`: left and right change places before."""
    from ...record.records import record

    found: dict[str, int] = {}
    numbers: list[float] = []

    def mark(one: re.Match[str]) -> str:
        if one["number"]:
            numbers.append(float(one["number"]))
            return "\x01"
        return f"\x00{found.setdefault(one[0], len(found))}\x00"

    text = json.dumps(record(piece), default=str)
    # numbers first: a piece may be called "4", and no figure is its name; a name may have a number in it
    text = re.sub(f"(?P<number>{_NUMBER})|{names.pattern}", mark, other_side(text) if mirror else text)
    return _Bare(text, tuple(found), tuple(numbers))


def words_for(group: Group, marks: Sequence[str]) -> tuple[str, ...]:
    """What is to be read otherwise for the other members of a group."""
    told = []
    for mark, piece, changes in zip(marks[1:], group.pieces[1:], group.renamed, strict=True):
        said = ["turned end for end"] if piece.name in group.turned else []
        if piece.name in group.mirrored:
            said.append("the mirror image")
            changes = (("left", "right"), *changes)
        if changes:
            said.append("read " + ", ".join(f"{now} for {was}" for was, now in changes))
        if said:
            told.append(f"{mark}: {', '.join(said)}")
    return tuple(told)


def names_in_one(names: list[str]) -> str:
    """The names one after the other; what stands before a colon in all of them, once."""
    owner, colon, _ = names[0].partition(": ") if names else ("", "", "")
    if colon and all(name.startswith(owner + colon) for name in names):
        return f"{owner}{colon}{', '.join(name.removeprefix(owner + colon) for name in names)}"
    return ", ".join(names)
