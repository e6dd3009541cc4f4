"""Members and joints of a frame that are the mirror image of others: left of one is right of the other."""

from __future__ import annotations

from dataclasses import replace

from ....checks.core.asking.question import Question
from ....checks.core.pictures.others import FrameBar, FramePicture, JointBar, JointPicture
from ....checks.core.result import Check, PieceResult, Table
from .sides import KINDS

FORCES = "forces under each combination"
_DIGITS = 10  # significant, as those to which members are alike
_FULL, _HALF = 360.0, 180.0  # degrees


def governed(table: Table, piece: PieceResult) -> Table:
    """Of the forces under each combination those under the ones that govern a check."""
    names = {check.combination for check in piece.checks if check.combination}
    rows = tuple(row for row in table.rows if any(f"{name}, ".startswith(f"{row[0]}, ") for name in names))
    return Table(f"{table.title} that governs", table.heads, rows) if rows else table


def as_read(piece: PieceResult, beside: PieceResult, *, turn: bool = False) -> PieceResult | None:
    """What a page of it shows, of which two mirror images have the same but for left and right; None for a piece
    that has none.

    Left out are a frame to scale (`opposite` compares that) and what is asked of both as one question; a joint is
    seen from its other side with `turn`.
    """
    if piece.kind not in KINDS or piece.figure is not None:
        return None
    shared = sorted({one.id for one in piece.questions} & {one.id for one in beside.questions})
    tables = tuple(governed(one, piece) if one.title.casefold() == FORCES else one for one in piece.tables)
    drawn = tuple(
        _seen(one, turn=turn) if isinstance(one, JointPicture) else one
        for one in piece.pictures
        if not isinstance(one, FramePicture)
    )
    checks = tuple(_asking(check, shared) for check in piece.checks)
    holes = piece.drawing
    if turn and holes is not None:
        holes = replace(holes, end="right" if holes.end == "left" else "left")
    return replace(piece, checks=checks, tables=tables, pictures=drawn, drawing=holes)


def _asking(check: Check, shared: list[str]) -> Check:
    """The check with a number for each question that is the same for both: that does not change sides."""
    asked = (
        Question(str(shared.index(one.id)), "", one.who, "", one.kind) if one.id in shared else one
        for one in check.questions
    )
    return replace(check, questions=tuple(asked))


def opposite(one: PieceResult, other: PieceResult) -> bool:
    """Does each lie in the frame where the mirror image of the other would, with the same forces?"""
    pairs = zip(_frames(one), _frames(other), strict=False)
    return len(_frames(one)) == len(_frames(other)) and all(_opposite(first, second) for first, second in pairs)


def _frames(piece: PieceResult) -> list[FramePicture]:
    return [one for one in piece.pictures if isinstance(one, FramePicture)]


def _opposite(one: FramePicture, other: FramePicture) -> bool:
    if replace(one, shown="") != replace(other, shown=""):
        return False
    here, there = (next((bar for bar in each.bars if bar.name == each.shown), None) for each in (one, other))
    if here is None or there is None:
        return False
    xs = [x for bar in one.bars for x in (bar.x0, bar.x1)]
    return _figures(here) == _figures(_mirror(there, min(xs) + max(xs)))


def _mirror(bar: FrameBar, ends: float) -> FrameBar:
    return bar._replace(x0=ends - bar.x1, y0=bar.y1, x1=ends - bar.x0, y1=bar.y0)


def _figures(bar: FrameBar) -> tuple[str, ...]:
    return tuple(f"{value:.{_DIGITS}g}" for value in bar[1:])


def _seen(picture: JointPicture, *, turn: bool) -> JointPicture:
    return replace(picture, bars=tuple(_bar(bar, turn=turn) for bar in picture.bars))


def _bar(bar: JointBar, *, turn: bool) -> JointBar:
    angle = round(_HALF - bar.angle if turn else bar.angle, _DIGITS - 1) % _FULL
    side = -1.0 if turn else 1.0
    holes = tuple(hole._replace(x=side * hole.x + 0.0, y=hole.y + 0.0) for hole in bar.holes)  # no minus before 0
    return bar._replace(angle=angle, holes=holes)
