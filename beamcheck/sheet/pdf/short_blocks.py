"""The blocks of the short form as plain data for the typst template."""

from __future__ import annotations

from collections.abc import Sequence

from ..document import rich_blocks as rich
from ..document.prose import tied
from ..document.symbols import plain_symbol, symbol_source
from .text import LONGEST_IN_CELL, Data, cell_text, cut, prose

BESIDE_TOLD = 11  # letters of the verdict of a side
HEADING, RUNNING = 300, 34  # letters of a heading, and of what the head of a page says of it


class ShortBlocks:
    """Makes data of them; `anchors` are the places to which links may lead."""

    def __init__(self, anchors: frozenset[str]) -> None:
        self._anchors = anchors

    def _link(self, anchor: str) -> str:
        return anchor if anchor in self._anchors else ""

    def _RichTable(self, block: rich.RichTable) -> Data:
        return {
            "title": block.title, "look": block.kind, "anchor": block.anchor, "note": prose(block.note),
            "widths": list(block.widths), "right": list(block.right), "heads": self._cells(block.heads),
            "rows": [self._cells(row) for row in block.rows],
        }  # fmt: skip

    def _cells(self, cells: Sequence[rich.Cell]) -> list[Data]:
        return [self._cell(cell) for cell in cells]

    def _cell(self, cell: rich.Cell) -> Data:
        if isinstance(cell, str):
            return {"cell": "text", "text": prose(cell, LONGEST_IN_CELL)}
        data: Data = {"cell": type(cell).__name__}
        if isinstance(cell, rich.Marks):
            data["items"] = [{"mark": cell_text(mark), "to": self._link(anchor)} for mark, anchor in cell.items]
        elif isinstance(cell, rich.Bar):
            data |= {"text": cell.text, "share": cell.share, "verdict": cell.verdict}
        elif isinstance(cell, rich.Word):
            data["verdict"] = cell.verdict
        elif isinstance(cell, rich.Go):
            data |= {"text": cell_text(cell.text), "to": self._link(cell.anchor)}
        elif isinstance(cell, rich.PageOf):
            data["to"] = self._link(cell.anchor)
        elif isinstance(cell, rich.Symbol):
            data |= _symbol(cell.name)
        elif isinstance(cell, rich.Across):
            data["text"] = cell.text
        elif isinstance(cell, rich.Strong):
            data["text"] = prose(cell.text, LONGEST_IN_CELL)
        return data

    def _MemberHead(self, block: rich.MemberHead) -> Data:
        sides = [
            {"name": one.name, "verdict": one.verdict, "told": prose(one.told),
             "letters": len(one.name) + len(one.told) + BESIDE_TOLD}
            for one in block.sides
        ]  # fmt: skip
        return {
            "marks": [cell_text(mark) for mark in block.marks], "title": tied(cut(block.title, HEADING)),
            "anchor": block.anchor, "running": _running(block), "sides": sides,
            "understood": block.understood, "alike": list(block.alike), "plan": _plan(block.plan),
        }  # fmt: skip

    def _StaticsBlock(self, block: rich.StaticsBlock) -> Data:
        lines = [
            {**_symbol(line.symbol), "formula": line.formula, "numbers": line.numbers, "text": line.text,
             "note": line.note}
            for line in block.lines
        ]  # fmt: skip
        return {"words": block.words, "lines": lines}

    def _Decisions(self, block: rich.Decisions) -> Data:
        return {"marks": [cell_text(mark) for mark in block.marks], "outcomes": list(block.outcomes)}


def _running(block: rich.MemberHead) -> str:
    """What the head of a page says of a member: its mark and name, the mark alone where both are long."""
    return cut(block.running if len(block.running) <= RUNNING else ", ".join(block.marks), RUNNING)


def _plan(plan: rich.KeyPlan | None) -> Data:
    """The key plan in numbers; `rows` 0 for none."""
    if plan is None:
        return {"rows": 0, "bars": [], "lines": []}
    bars = [{"x0": one.x0, "x1": one.x1, "row": one.row, "here": one.here, "end": one.end} for one in plan.bars]
    return {"rows": plan.rows, "bars": bars, "lines": [list(line) for line in plan.lines]}


def _symbol(name: str) -> Data:
    return {"math": symbol_source(name).source, "alt": plain_symbol(name)}
