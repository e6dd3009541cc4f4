"""Beams that are the same turned end for end: the left end of one is the right end of the other."""

from __future__ import annotations

import json
import re
from collections import Counter
from dataclasses import replace

from ....checks.core.result import Check, PieceResult
from ....checks.core.statics import Statics

_DIGITS = 9  # significant: two figures that agree in them are one
_PLACE = re.compile(r" at [^,]+")
_OF_ENDS = ("reactions", "forces under")  # tables that the checks and the reactions have as well
_REACTIONS = "reactions"


def turned(one: PieceResult, other: PieceResult, names: re.Pattern[str]) -> bool:
    """Is one the other turned end for end, in all but the names of what is beside it?

    Both are loaded alike all along, their supports stand where those of the other turned would, and every check of
    one has one of the other with the same figures, verdict, clause and questions.
    """
    if one.kind != "beam" or other.kind != "beam" or one.figure is None or other.figure is None:
        return False
    if (
        one.figure.cuts
        or other.figure.cuts
        or any(each.held_by or each.pictures or each.drawing for each in (one, other))
    ):
        return False
    if any((load.start, load.end) != (0.0, one.figure.length) for load in one.figure.loads):
        return False
    return (
        one.figure.loads == other.figure.loads
        and _supports(one) == _supports(other, turn=True)
        and _inputs(one, names) == _inputs(other, names)
        and _reactions(one) == _reactions(other)[::-1]
        and _told(one, names) == _told(other, names)
        and Counter(_key(check, names) for check in one.checks) == Counter(_key(check, names) for check in other.checks)
    )


def ends_of(piece: PieceResult) -> tuple[str, ...]:
    """What it rests on, from left to right."""
    return tuple(mark.name for mark in piece.figure.supports) if piece.figure is not None else ()


def _supports(piece: PieceResult, *, turn: bool = False) -> list[tuple[str, str]]:
    if piece.figure is None:
        return []
    long = piece.figure.length
    marks = [(f"{long - mark.at if turn else mark.at:.{_DIGITS}g}", mark.holds) for mark in piece.figure.supports]
    return marks[::-1] if turn else marks


def _inputs(piece: PieceResult, names: re.Pattern[str]) -> Counter[str]:
    """What was told, in any order; of a support all but its place, which the drawing has."""
    return Counter(
        names.sub("", _PLACE.sub("", text, count=1)) if label.startswith("support ") else f"{label}: {text}"
        for label, text in piece.inputs
    )


def _reactions(piece: PieceResult) -> list[tuple[str, ...]]:
    return [row[1:] for table in piece.tables if table.title.casefold().startswith(_REACTIONS) for row in table.rows]


def _told(piece: PieceResult, names: re.Pattern[str]) -> str:
    """Statics, remedies and tables without names and without those of each end."""
    from ...record.records import record

    statics = replace(piece.statics, stations=None) if piece.statics is not None else Statics("", "")
    tables = [record(table) for table in piece.tables if not table.title.casefold().startswith(_OF_ENDS)]
    kept = (piece.assumptions, piece.remedies, piece.to_see, piece.finding, piece.verdict)
    return names.sub("", json.dumps([record(statics), tables, kept], default=str))


def _key(check: Check, names: re.Pattern[str]) -> tuple[object, ...]:
    figures = tuple(
        None if value is None else f"{value:.{_DIGITS}g}" for value in (check.demand, check.capacity, check.ratio)
    )
    notes = tuple(names.sub("", note) for note in check.notes)
    asked = tuple(sorted(question.id.partition("/")[2] for question in check.questions))
    return check.id, check.verdict, check.kind, check.clause, check.combination, figures, notes, asked
