"""A long sheet cut into parts that typst sets one after the other, so that it never holds more than one of them.

A part begins on a page of its own, with a heading of the first level or the head of a member where that can be, since
headings within a part must not skip a level. What is very long (a schedule of a thousand members) is cut between rows.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import field
from typing import Any

from ...records import dataclass
from .text import Data

_ROWS = {"RichTable": "rows", "TableBlock": "rows", "Bullets": "items"}  # what may be cut, and between which
_OPENS = {"RichTable": "title", "TableBlock": "title", "Bullets": "title"}  # stands over the first of what was cut
_CLOSES = {"RichTable": "note", "TableBlock": "note", "Bullets": "note"}  # stands below the last
_ANCHOR = re.compile(r'"anchor": "([^"\\]+)"')
_DEEPER = frozenset(("Statements", "CheckBlock"))  # have headings of lower levels


@dataclass
class Part:
    """Some blocks of a sheet as JSON, the places that links lead to, and whether it `asks` for the numbers of pages.

    `running` is what runs on in it from the page before.
    """

    running: str = ""
    texts: list[str] = field(default_factory=list)
    anchors: list[str] = field(default_factory=list)
    asks: bool = False
    weight: int = 0

    @property
    def blocks(self) -> str:
        """All of them as one text of JSON."""
        return f"[{','.join(self.texts)}]"


def parts_of(runs: Iterable[list[Data]], most: int) -> Iterator[Part]:
    """The parts of a sheet, each made when the one before is done with; `most`: letters of one, about."""
    part, running = Part(), ""
    for run in runs:
        pieces = [(piece, json.dumps(piece)) for block in run for piece in _pieces(block, most)]
        weight = sum(_weight(*one) for one in pieces)
        if part.texts and part.weight + weight > most:
            yield part
            part = Part()
        loose = weight > most and not any(map(_has_lower_heading, run))
        before = ""
        for piece, text in pieces:
            if loose and part.texts and before != "Heading" and part.weight + _weight(piece, text) > most:
                yield part
                part = Part(running)
            before = piece["kind"]
            running = _running(piece) or running
            part.asks |= _asks(text)
            part.anchors += _anchors(piece, text)
            part.weight += _weight(piece, text)
            part.texts.append(text)
    yield part


def _weight(piece: Data, text: str) -> int:
    """Letters of data; a table fills twice the pages of other things, or takes typst twice the memory."""
    return len(text) * (2 if piece["kind"] in ("TableBlock", "RichTable") else 1)


def _has_lower_heading(block: Data) -> bool:
    if block["kind"] == "Heading":
        return bool(block["level"] > 1)
    if block["kind"] == "Start":
        return any(map(_has_lower_heading, block["blocks"]))
    return (block["kind"] in _DEEPER and not block.get("short")) or (block["kind"] in ("Bullets", "References")
                                                                     and bool(block["title"]))  # fmt: skip


def _pieces(block: Data, most: int) -> Iterator[Data]:
    """A block, or where it is too long for a part several of the same kind."""
    key = _ROWS.get(block["kind"], "")
    rows: list[Any] = block.get(key, [])
    weight = _weight(block, json.dumps(block)) if len(rows) > 1 else 0
    count = -(-weight // most)
    if count < 2:
        yield block
        return
    each = -(-len(rows) // count)
    for start in range(0, len(rows), each):
        piece = {**block, key: rows[start : start + each]}
        if "weights" in block:
            piece["weights"] = block["weights"][start : start + each]
        if start:
            piece |= {_OPENS[block["kind"]]: ""} | ({"anchor": ""} if "anchor" in block else {})
        if start + each < len(rows):
            piece[_CLOSES[block["kind"]]] = []
        yield piece


def _running(block: Data) -> str:
    """What the head of a page says of what begins with this block."""
    if block["kind"] == "Start":
        return _running(block["blocks"][0])
    return str(block.get("running", "")) if block["kind"] == "MemberHead" or block.get("level") == 1 else ""


def _asks(text: str) -> bool:
    """Does it print the number of another page? Told by its text, in which what a user wrote has no bare quotes."""
    return '"cell": "PageOf"' in text or '"kind": "Contents"' in text


def _anchors(piece: Data, text: str) -> Iterator[str]:
    """The places in it to which links may lead."""
    yield from _ANCHOR.findall(text)
    if piece["kind"] == "References" and not piece["short"]:
        yield from (str(row["to"]) for row in piece["rows"] if row["to"])
