"""Blocks as plain data for the typst template: dicts, lists, texts and true or false, nothing else.

No text gets into typst source. Equations, which are of our own making, are the only texts that typst reads as source;
they stand under the key `math`, and nothing else does.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Any
from xml.etree import ElementTree

from ...calc.pad import Step
from ...checks.core.result import Figure
from ..document import blocks as doc
from ..document.mathematics import equation, result_text
from ..document.prose import sentence
from ..document.repeated_steps import warning
from ..document.symbols import meaning, plain_symbol, symbol_source
from ..figures.drawers import drawn
from ..figures.svg import PAPER, PRINTED, TEXT, fixed, text_width
from ..html.render import brief_reason, reason
from .columns import drawn_first, early, in_half, stacked
from .short_blocks import ShortBlocks
from .text import LONGEST_IN_CELL, LONGEST_IN_CODE, Data, cell_text, cut, prose, spoken
from .typefaces import TEXT_FACE, in_drawing, printable

HALF, BESIDE, WHOLE = 20.0, 31.0, 47.0  # em; of an equation on half a line, with its reason beside it, alone
ROW = 40.0  # em; of an equation in a row of a short sheet
HEADING, DESCRIPTION = 300, 3000  # letters of a heading, and of a drawing in words: a PDF holds no endless ones there
IN_A_HALF, IN_A_THIRD = 58, 34  # letters on a line of half the page, and of a symbol in a third of it
BESIDE_HALF = 30  # letters of what stands beside an equation on half a line
PAIRS_SHORT, PAIRS_MANY = 64, 8  # letters and rows: pairs so short and so many stand in two columns
ON_A_LINE = 90  # letters of a table that need no column to give way
RUNNING_PIECE = 30  # letters in the head of each page
# paper has the caution at the foot of each page
ON_A_SCREEN = frozenset(("Caution", "MemberList", "FoldStart", "FoldEnd"))
Told = Callable[[Step], str]
_REMARK = re.compile(r"(?<=\S) {3,}#")  # of a job file: set far to the right it would break its line
_SVG = "{http://www.w3.org/2000/svg}"


def _lines_of(text: str, letters: int) -> int:
    """About how many lines a text fills, so that columns come out alike."""
    return 1 + len(text) // letters


def _in_parts(blocks: Sequence[doc.Block]) -> Iterator[doc.Block]:
    """The drawing of a beam as two, between which a page may end: the beam, and its diagrams."""
    for block in blocks:
        if isinstance(block, doc.FigureBlock) and isinstance(block.figure, Figure):
            yield replace(block, part="sketch", caption="", key=f"{block.key}-sketch")
            yield replace(block, part="diagrams")
        else:
            yield block


def _one_by_one(data: list[Data]) -> list[Data]:
    """Drawings of a column, one under the other."""
    return [{"kind": "Figures", "figures": [each]} if each["kind"] == "FigureBlock" else each for each in data]


class Maker(ShortBlocks):
    """Turns blocks into data; `anchors` are the places to which links may lead."""

    def block(self, block: doc.Block) -> Iterator[Data]:
        """The data of one block."""
        name = type(block).__name__
        if name in ON_A_SCREEN:
            return
        if isinstance(block, doc.Columns):
            yield from self._columns(block)
        elif hasattr(self, f"_{name}"):
            yield {"kind": name} | getattr(self, f"_{name}")(block)
        else:  # a drawing of another kind
            yield {"kind": "FigureBlock"} | self._FigureBlock(block)

    def _Heading(self, block: doc.Heading) -> Data:
        return {
            "text": cut(block.text, HEADING), "level": block.level - 1, "anchor": block.anchor,
            "new_page": block.new_page, "running": cut(block.running or block.text, RUNNING_PIECE),
        }  # fmt: skip

    def _Paragraph(self, block: doc.Paragraph) -> Data:
        return {"text": prose(block.text)}

    def _VerdictBlock(self, block: doc.VerdictBlock) -> Data:
        return {"verdict": block.verdict, "large": block.large, "meaning": block.meaning,
                "reasons": [prose(text) for text in block.reasons]}  # fmt: skip

    def _SignOff(self, block: doc.SignOff) -> Data:
        return {"fields": list(block.fields), "outcomes": list(block.outcomes), "note": prose(block.note)}

    def _Contents(self, block: doc.Contents) -> Data:
        return {"rows": [{"text": text, "to": self._link(anchor)} for text, anchor in block.rows]}

    def _Pairs(self, block: doc.Pairs) -> Data:
        halves = len(block.rows) > PAIRS_MANY and all(len(text) <= PAIRS_SHORT for _, text in block.rows)
        look = "halves" if halves else "wide"
        return {
            "rows": [[prose(label, LONGEST_IN_CELL), prose(text, LONGEST_IN_CELL)] for label, text in block.rows],
            "look": look,
        }

    def _Beside(self, block: doc.Beside) -> Data:
        return {"pairs": self._Pairs(block.pairs)["rows"], "figure": self._FigureBlock(block.figure)}

    def _columns(self, block: doc.Columns) -> Iterator[Data]:
        """Two columns, and below them what of the flow has found no room in the shorter one."""
        sides = (block.left, _in_parts(block.right), _in_parts(block.flow))
        left, right, flow = ([each for one in side for each in self.block(one)] for side in sides)
        for pair in stacked(left, right, flow):
            if isinstance(pair, dict):
                yield pair
                continue
            for each in (*pair[0], *pair[1]):
                if each["kind"] == "Pairs":
                    each |= {"look": "narrow"}
                if each["kind"] == "TableBlock":
                    each |= in_half(each)
            yield {"kind": "Columns", "left": _one_by_one(pair[0]), "right": _one_by_one(pair[1]),
                   "shares": list(block.shares), "whole": block.whole and not drawn_first(pair[1]),
                   "early": early(*pair)}  # fmt: skip

    def _FigureBlock(self, block: Any) -> Data:
        svg, about, wide, high = for_typst(drawn(block))
        return {"svg": svg, "alt": cut(about, DESCRIPTION), "caption": block.caption, "width": wide, "height": high}

    def _TableBlock(self, block: doc.TableBlock) -> Data:
        return {
            "title": block.title, "note": prose(block.note), "columns": _widths(block),
            "heads": [prose(head, LONGEST_IN_CELL) for head in block.heads],
            "rows": [[prose(cell, LONGEST_IN_CELL) for cell in row] for row in block.rows],
            "brief": len(block.rows) <= 8, "half": False,
        }  # fmt: skip

    def _Summary(self, block: doc.Summary) -> Data:
        rows = [
            {"piece": cell_text(row.piece), "what": prose(f"{row.number}. {row.what}", LONGEST_IN_CELL),
             "place": cell_text(row.place), "verdict": row.verdict, "ratio": row.ratio, "demand": row.demand,
             "capacity": row.capacity, "governed": cell_text(row.governed), "to": self._link(row.anchor)}
            for row in block.rows
        ]  # fmt: skip
        return {"open": self._stated(block.open), "rows": rows, "met": self._stated(block.met)}

    def _stated(self, rows: Sequence[doc.SummaryStatement]) -> list[Data]:
        return [
            {"verdict": row.verdict, "piece": row.piece, "to": self._link(row.anchor),
             "text": prose(f"without numbers: {'; '.join(row.names)}.")}
            for row in rows
        ]  # fmt: skip

    def _Lines(self, block: doc.Lines) -> Data:
        return {"lines": self._lines(block)}

    def _CheckBlock(self, block: doc.CheckBlock) -> Data:
        return {
            "title": prose(cut(block.title, HEADING)), "anchor": block.anchor, "verdict": block.verdict,
            "line": block.line, "clause": prose(block.clause), "lines": self._lines(block.lines),
            "notes": [prose(note) for note in block.notes], "short": block.short,
            "brief": len(block.lines.lines) <= (3 if block.short else 6),
        }  # fmt: skip

    def _lines(self, block: doc.Lines) -> list[Data]:
        known: list[Data] = [{"kind": "known", "groups": [self._known(each) for each in block.known]}]
        told = brief_reason if block.brief else reason
        lines = [
            self._taken(line, told) if isinstance(line, doc.Taken) else self._worked(line, told) for line in block.lines
        ]
        return [*(known if block.known else []), *lines]

    def _known(self, known: doc.Known) -> Data:
        values = [
            {"math": symbol_source(entry.step.symbol).source, "alt": plain_symbol(entry.step.symbol),
             "value": result_text(entry.step), **(self._source(entry) if entry.mark else _NO_SOURCE)}
            for entry in known.entries
        ]  # fmt: skip
        return {"label": known.label, "to": self._link(known.anchor), "values": values}

    def _taken(self, line: doc.Taken, told: Told) -> Data:
        return {"kind": "taken", "entries": [self._entry(entry, 2 * WHOLE, told) for entry in line.entries]}

    def _worked(self, line: doc.Worked, told: Told) -> Data:
        room = ROW if told is brief_reason else BESIDE
        width = max(box.width for box in equation(line.entry.step).lines(room))
        wide = width > room
        entry = self._entry(line.entry, WHOLE if wide else room, told)
        half = equation(line.entry.step).width <= HALF and len(told(line.entry.step)) <= BESIDE_HALF
        return {"kind": "worked", "wide": wide, "half": half, **entry}

    def _entry(self, entry: doc.Entry, width: float, told: Told) -> Data:
        math = equation(entry.step).source(width)
        return {
            "math": math,
            "alt": spoken(math),
            "reason": prose(told(entry.step)),
            **self._source(entry, full=told is reason),
        }

    def _source(self, entry: doc.Entry, *, full: bool = False) -> Data:
        """The number of the source, and with `full` what it is called and how sure it is."""
        source = entry.step.source
        if source is None or not entry.reference:
            return dict(_NO_SOURCE)
        said = entry.step.clause == source.document or source.document in reason(entry.step)
        document = source.document if full and not said else ""
        sure = f"{source.confidence} confidence" if source.confidence and "confidence" not in entry.mark else ""
        known = "" if source.how in entry.mark else source.how
        how = ", ".join(filter(None, (known, sure))) if full else ""
        return {"number": str(entry.reference), "to": self._link(f"source-{entry.reference}"),
                "document": document, "mark": entry.mark, "how": how}  # fmt: skip

    def _Statements(self, block: doc.Statements) -> Data:
        items = [
            {"verdict": item.verdict, "title": prose(item.title), "text": prose(item.text),
             "clause": sentence(item.clause)}
            for item in block.items
        ]  # fmt: skip
        return {"title": cut(block.title, HEADING), "items": items}

    def _References(self, block: doc.References) -> Data:
        rows = [
            {"number": str(row.number), "to": self._link(f"source-{row.number}"), "document": row.source.document,
             "how": row.source.how, "warned": bool(warning(row.source)),
             "sure": f", {row.source.confidence} confidence" if row.source.confidence else "",
             "used": prose(f"For {row.used}." if row.used else ""), "note": prose(sentence(row.source.note)),
             "weight": _lines_of(f"{row.source.document} {row.used} {row.source.note}", IN_A_HALF)}
            for row in block.rows
        ]  # fmt: skip
        return {"title": cut(block.title, HEADING), "rows": rows, "note": block.note, "short": block.short}

    def _Bullets(self, block: doc.Bullets) -> Data:
        return {
            "title": cut(block.title, HEADING),
            "items": [prose(item) for item in block.items],
            "weights": [_lines_of(item, IN_A_HALF) for item in block.items],
            "note": prose(block.note),
            "marked": block.marked,
        }

    def _Symbols(self, block: doc.Symbols) -> Data:
        rows = [
            {"math": symbol_source(name).source, "alt": plain_symbol(name), "text": prose(meaning(name)),
             "weight": _lines_of(meaning(name), IN_A_THIRD)}
            for name in block.names
        ]  # fmt: skip
        return {"rows": rows}

    def _JobText(self, block: doc.JobText) -> Data:
        if not block.printed:
            return {"name": cut(block.name, HEADING), "code": ""}
        return {
            "name": cut(block.name, HEADING),
            "code": printable(_REMARK.sub("  #", block.text.replace("\t", "    ")), LONGEST_IN_CODE),
        }


_NO_SOURCE: Data = {"number": "", "to": "", "document": "", "mark": "", "how": ""}


def _widths(block: doc.TableBlock) -> list[float]:
    """A weight for each column, 0 for one that takes the room it needs."""
    letters = [
        max([len(cell) for cell in column] + [len(head)])
        for head, *column in zip(block.heads, *block.rows, strict=True)
    ]
    narrow = [count <= 14 or sum(letters) <= ON_A_LINE for count in letters]
    if sum(count for count, small in zip(letters, narrow, strict=True) if small) > ON_A_LINE:
        narrow = [False] * len(letters)
    return [0.0 if small else round(min(count, 80) ** 0.6, 2) for count, small in zip(letters, narrow, strict=True)]


def _knock_out(parent: ElementTree.Element) -> None:
    """White paper behind each lettering in place of its halo, which typst draws letter by letter in outlines."""
    for place, text in reversed([*enumerate(parent)]):
        if text.attrib.pop("paint-order", "") != "stroke":
            continue
        ground = text.get("stroke", PAPER)
        for name in ("stroke", "stroke-width", "stroke-linejoin"):
            text.attrib.pop(name, None)
        wide, x, y = PRINTED * text_width(text.text or ""), float(text.get("x", "0")), float(text.get("y", "0"))
        left = {"middle": x - wide / 2, "end": x - wide}.get(text.get("text-anchor", "start"), x)
        box = {"x": fixed(left), "y": fixed(y - 0.72 * TEXT), "width": fixed(wide), "height": fixed(0.9 * TEXT)}
        box["fill"] = ground
        box |= {"transform": text.get("transform", "")} if "transform" in text.attrib else {}
        parent.insert(place, ElementTree.Element(f"{_SVG}rect", box))


def for_typst(svg: str) -> tuple[str, str, float, float]:
    """The drawing in a typeface that typst has, its description, its width and its height in units of its own."""
    root = ElementTree.fromstring(
        svg if "xmlns=" in svg[:200] else svg.replace("<svg", f'<svg xmlns="{_SVG[1:-1]}"', 1)
    )
    about = " ".join(root.findtext(f"{_SVG}desc", "").split()) or root.findtext(f"{_SVG}title", "") or "drawing"
    for element in root.iter():
        _knock_out(element)
        if "font-family" in element.attrib:
            element.set("font-family", TEXT_FACE)
        if element.text:
            element.text = in_drawing(element.text)
        for tip in element.findall(f"{_SVG}title"):
            element.remove(tip)
    wide, high = map(float, root.get("viewBox", "0 0 440 1").split()[2:4])
    ElementTree.register_namespace("", _SVG[1:-1])
    return ElementTree.tostring(root, encoding="unicode"), about, wide, high
