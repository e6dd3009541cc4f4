"""What stands beside what on paper: blocks after two columns fill the shorter one, as far as that saves room.

Heights are estimates from numbers of letters: a wrong one costs room, nothing else.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any

from ..document.short.factors import REFERENCE
from .text import Data

Pair = tuple[list[Data], list[Data]]

WIDE = 246.0  # points; half of the text of a page
ROW, GAP, TITLE = 9.0, 8.0, 10.0  # points
HIGH = 380.0  # points; of columns between which no page ends
SAVED = 80.0  # points by which they are lower then
EVEN, LEAST = 32.0, 100.0  # points; gaps of two columns at one height, and what stands above them at least
UNIT = 0.55  # points; of a unit of a drawing, as in sheet.typ
SMALLER = 0.8  # a drawing may be set so much smaller and still be read
LABEL, PAIR = 19, 40  # letters of a line of a label, and of what stands beside it
FACTOR, FEW_FACTORS = 6, 24  # letters of a column of factors, and of those with what they are under in half the page
FEW = 58  # letters of a row that go into half the page
NARROW = frozenset(" \u00a0.,:;'fijlrt/-|()")
BROAD = frozenset("mwABCDEFGHKLMNOPQRTUVWXYZ%")
WRAPPED = 1.6  # of that, in a table that is read in half the page with two lines a row
SENTENCES = 3.0  # of that, in a table of two columns, one of them sentences
LETTER, CELL = 4.0, 5.2  # points; of a letter of a table in half the page, and of what a cell keeps clear at its sides


def stacked(left: list[Data], right: list[Data], flow: Sequence[Data]) -> Iterator[Pair | Data]:
    """Pairs of columns and what stands below them in all of the width, from the top down.

    Columns that would come out very high are two pairs, one under the other, so that a page may end between them.
    """
    first = _beside(list(left), list(right), flow)
    high, least = (max(sum(map(height, side)) for side in pair) for pair in (first[:2], (left, right)))
    if high > HIGH and high > least + SAVED:
        first = left, right, list(flow)
    yield from [first[:2]] if early(*first[:2]) else _cut(*first[:2])
    rest = first[2]
    if sum(map(narrow, rest)) > 1:
        start = next(number for number, block in enumerate(rest) if narrow(block))
        one, other, rest = _beside([rest[start]], [], rest[:start] + rest[start + 1 :])
        yield one, other
    yield from rest


def drawn_first(column: Sequence[Data]) -> bool:
    """Does a drawing stand at the top of a column? Then a page may end below it, and none before it."""
    return bool(column) and column[0]["kind"] in ("FigureBlock", "Figures")


def early(left: Sequence[Data], right: Sequence[Data]) -> bool:
    """May what was told of a piece end a page whose room its drawing exceeds? Either column then ends where it does."""
    return drawn_first(right) and bool(left) and left[0]["kind"] == "Pairs" and height(left[0]) <= HIGH


def _cut(left: list[Data], right: list[Data]) -> Iterator[Pair]:
    """Two pairs, one under the other, where both columns have a gap at about the same height: a page may end there."""
    downs = [[sum(map(height, side[:count])) for count in range(1, len(side))] for side in (left, right)]
    gaps = [
        (abs(one - other), i, j)
        for i, one in enumerate(downs[0], start=1)
        for j, other in enumerate(downs[1], start=1)
        if abs(one - other) <= EVEN and min(one, other) >= LEAST
    ]
    if not gaps:
        yield left, right
        return
    _, i, j = min(gaps)
    yield left[:i], right[:j]
    yield from _cut(left[i:], right[j:])


def _beside(left: list[Data], right: list[Data], flow: Sequence[Data]) -> tuple[list[Data], list[Data], list[Data]]:
    """Left, right and what remains below them."""
    sides, rest = (left, right), []
    heights = [sum(map(height, side)) for side in sides]
    for block in flow:
        if narrow(block):
            short = 0 if heights[0] <= heights[1] else 1
            new = heights[short] + height(block)
            if max(new, heights[1 - short]) - max(heights) < 0.8 * height(block, 2.0):
                sides[short].append(block)
                heights[short] = new
                continue
        rest.append(block)
    return left, right, rest


def narrow(block: Data) -> bool:
    """Can it be read in half the width?"""
    kind = block["kind"]
    if kind == "Figures":
        return all(one["width"] * UNIT * SMALLER <= WIDE for one in block["figures"])
    if kind == "FigureBlock":
        return bool(block["width"] * UNIT * SMALLER <= WIDE)
    if kind == "RichTable":
        return block["look"] == "factors" and _factors_and_words(block) <= FEW_FACTORS
    if kind != "TableBlock":
        return False
    between = 2 * len(block["heads"])
    room = WIDE - CELL * len(block["heads"])
    most = WRAPPED if len(block["heads"]) > 2 else SENTENCES
    return sum(_letters(block)) + between <= most * FEW and LETTER * sum(_words(block)) <= room


def _factors_and_words(block: Data) -> int:
    """Letters of the columns of factors, and of those before them that say whose a value is and under what."""
    first = [_text(head.get("text", "")) for head in block["heads"]].index(REFERENCE)
    words = (max((len(_text(row[one]["text"])) for row in block["rows"]), default=0) for one in range(1, first))
    return sum(words) + FACTOR * (len(block["heads"]) - first - 2)


def height(block: Data, halves: float = 1.0) -> float:
    """Points that a block takes in half the width, or in `halves` of it."""
    kind = block["kind"]
    if kind == "Pairs":
        return GAP + sum(
            ROW * max(_lines(_text(label), LABEL), _lines(_text(text), PAIR)) for label, text in block["rows"]
        )
    if kind == "Figures":
        return max((height(one, halves) for one in block["figures"]), default=0.0)
    if kind == "FigureBlock":
        scale = min(UNIT, halves * WIDE / float(block["width"]))
        return GAP + scale * float(block["height"]) + ROW * _lines(block["caption"], round(FEW * halves))
    if kind == "TableBlock":
        lines = 1 + sum(math.ceil((len(_text(row)) + 2 * len(row)) / (FEW * halves)) for row in block["rows"])
        note = ROW * _lines(_text(block["note"]), round(FEW * halves)) if block["note"] else 0.0
        return GAP + (TITLE if block["title"] else 0.0) + ROW * lines + note
    if kind == "RichTable":
        note = ROW * _lines(_text(block["note"]), round(FEW * halves)) if block["note"] else 0.0
        return GAP + TITLE + 1.25 * ROW * (len(block["rows"]) + 1) + note
    return GAP


def _letters(block: Data) -> list[float]:
    """The longest text of each column of a table."""
    rows = [block["heads"], *block["rows"]]
    return [max(_wide(_text(row[number])) for row in rows) for number in range(len(block["heads"]))]


def _words(block: Data) -> list[float]:
    """The longest word of each column, below which it cannot be set."""
    rows = [block["heads"], *block["rows"]]
    columns = range(len(block["heads"]))
    return [max(_wide(word) for row in rows for word in _text(row[one]).split(" ")) for one in columns]


def _wide(text: str) -> float:
    """The width of a text in letters, of which those of points and strokes are narrow and m and w are broad."""
    return sum(0.6 if letter in NARROW else 1.4 if letter in BROAD else 1.0 for letter in text)


def in_half(block: Data) -> Data:
    """A table as it is set in half the page: where its lines break, each column is as wide as its longest word."""
    whole, least = _letters(block), _words(block)
    spare = WIDE / LETTER - CELL / LETTER * len(whole)
    columns = block["columns"]
    if sum(whole) > spare:
        more = [wide - word for wide, word in zip(whole, least, strict=True)]
        share = max(spare - sum(least), 0.0) / max(sum(more), 1.0)
        columns = [round(word + CELL / LETTER + share * one, 2) for word, one in zip(least, more, strict=True)]
    return {**block, "half": True, "columns": columns}


def _text(pieces: Any) -> str:
    """A text of pieces without its marks."""
    if isinstance(pieces, str):
        return pieces
    if isinstance(pieces, dict):
        return "".join(_text(one) for one in pieces.values())
    return "".join(map(_text, pieces))


def _lines(text: str, letters: int) -> int:
    return max(math.ceil(len(text) / letters), 1)
