"""The load path as one drawing: walls and footings along the bottom, pieces above them, each load on its own line."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from textwrap import wrap
from typing import Any

from ...checks.core.pictures.beams import LoadPath, PathEdge, PathNode
from ...units import show
from .load_path_plan import Drop, Plan, heights, parts_of, planned, together, width_needed
from .svg import GRAY, INK, PAPER, TEXT, Board, clipped, letters_in, text_width, tied

WIDTH, SIDE = 896.0, 4.0  # as wide as the text of a page, on either paper
PAD, LINE = 6.0, 15.0
END_PAD = 3.0  # beside the words of a wall or footing at least
WIDEST, WIDEST_END = 225.0, 92.0  # of a piece, and of a wall or footing, with its words
SIGN = 18.0  # room for the sign of a verdict
MOST_FIGURES = 6
OTHER_WALL = "opposite wall"  # where the far rafter of a pair ends: it has no name in the job
DASH, BRIDGED = "5 3", "2 3"
NEGLIGIBLE = 0.5  # lbf: below this an uplift is rounding
NOT_YET, BY_OTHERS = "not confirmed", "by others, "
_LINES, _NAME_LINES, _END_LINES = 3, 3, 6


def drawable(path: LoadPath) -> tuple[list[LoadPath], int]:
    """What is drawn: one figure where all of it fits, else several of whole parts; and how many parts are not drawn."""
    figures: list[list[LoadPath]] = []
    left_out = 0
    parts = sorted(parts_of(path), key=lambda part: not any(edge.wrong for edge in part.edges))
    for part in parts:
        if heights(part) is None or not _fits(part):
            left_out += 1
        elif figures and _fits(together([*figures[-1], part])):
            figures[-1].append(part)
        elif len(figures) < MOST_FIGURES:
            figures.append([part])
        else:
            left_out += 1
    return [_as_in(path, some) for some in figures], left_out


def _as_in(path: LoadPath, some: Sequence[LoadPath]) -> LoadPath:
    """Some parts as one, in the order of the whole."""
    one = together(some)
    names = {node.name for node in one.nodes}
    above = {edge.above for edge in one.edges}
    return LoadPath(
        tuple(node for node in path.nodes if node.name in names),
        tuple(edge for edge in path.edges if edge.above in above),
    )


def _fits(path: LoadPath) -> bool:
    return width_needed(path, _least(path)) <= WIDTH - 2 * SIDE


def path_figure(path: LoadPath, name: str, system: Any = "US", key: str = "path") -> str:
    """The drawing as an `<svg>` element.

    `path`: forces in lbf. One that `drawable` hands back. `name`: what the drawing is called; any text. `system`: 'US'
    or 'SI': units of the labels. `key`: unique in the page; the alternative text is tied to the drawing by it.
    """
    plan = planned(path, _least(path), SIDE, WIDTH - SIDE)
    nodes = {node.name: node for node in path.nodes}
    wrong = list(dict.fromkeys(edge.wrong for edge in path.edges if edge.wrong))
    board = Board(WIDTH, key, f"{name}: what rests on what, from the top down", describe(path, system))
    tops = _tops(plan, nodes, wrong, system)
    for drop in plan.drops:
        _line(board, drop, nodes, tops)
    for bar in plan.bars:  # what passes a piece that it does not rest on goes behind it
        top, height = tops[bar.row], _height(nodes[bar.name])
        board.shape(_corners(bar.x0 - 3, top - 4, bar.x1 + 3, top + height + 4), fill=PAPER, width=0.0, stroke=PAPER)
        behind = [
            drop.x for drop in plan.drops
            if drop.lower.row < bar.row < drop.upper.row and bar.x0 - 3 < drop.x < bar.x1 + 3
        ]  # fmt: skip
        _box(board, nodes[bar.name], bar.x0, bar.x1, top, behind)
    for drop in plan.drops:
        _arrival(board, drop, tops, wrong, system)
    foot = max((tops[bar.row] + _height(nodes[bar.name]) for bar in plan.bars), default=0.0) + 8
    for index, text in enumerate(wrong):
        foot = _sentence(board, f"{_letter(index)}: {text}", foot)
    return board.done(foot + 6)


def describe(path: LoadPath, system: Any = "US") -> str:
    """The drawing in words, for readers who do not see it."""
    said = [f"{_called(node)}{_state(node)}." for node in path.nodes]
    for edge in path.edges:
        said.append(f"From {edge.above} to {edge.below or OTHER_WALL}: {_force(edge, system)}.")
    said += [f"Wrong: {text}." for text in dict.fromkeys(edge.wrong for edge in path.edges if edge.wrong)]
    return " ".join(said)


def _called(node: PathNode) -> str:
    role = "" if node.role == "carries" else f", {node.role}"
    return f"{node.kind} {node.name or OTHER_WALL}{role}"


def _state(node: PathNode) -> str:
    return "".join(f": {text}" for text in (node.verdict, node.ends) if text)


def _force(edge: PathEdge, system: Any) -> str:
    """'1,240 lb', '297 lb, lifts 14 lb'."""
    if math.isnan(edge.largest):
        return "not worked out"
    down = [show(edge.largest, "force", system)] if edge.largest > NEGLIGIBLE else []
    lifts = [f"lifts {show(-edge.least, 'force', system)}"] if edge.least < -NEGLIGIBLE else []
    return ", ".join((*down, *lifts)) or show(0.0, "force", system)


def _label(drop: Drop, wrong: Sequence[str], system: Any) -> str:
    said = _force(drop.edge, system)
    return f"{said} (wrong: {_letter(wrong.index(drop.edge.wrong))})" if drop.edge.wrong else said


def _letter(index: int) -> str:
    return chr(ord("a") + index) if index < 26 else str(index + 1)


def _least(path: LoadPath) -> dict[str, float]:
    """The width that the words of each piece need."""
    return {node.name: _wide(node) for node in path.nodes}


def _wide(node: PathNode) -> float:
    if node.ends:
        return min(_answers_wide(node) + 2 * END_PAD, WIDEST_END)
    return max(map(text_width, _names(node))) + PAD + _verdict(node)


def _answers_wide(node: PathNode) -> float:
    return max(map(text_width, _answers(node)), default=0.0)


def _name(node: PathNode) -> str:
    name = " ".join((node.name or OTHER_WALL).split())
    return name if node.role == "carries" or node.ends else f"{name}, {node.role}"


def _names(node: PathNode) -> list[str]:
    """The name of a piece in the lines of its bar; only one that is longer than all of them is cut off."""
    room = WIDEST - _verdict(node) - PAD
    lines = wrap(_name(node), letters_in(room)) or [""]
    return lines if len(lines) <= _NAME_LINES else [*lines[: _NAME_LINES - 1], clipped(_rest(lines), room)]


def _rest(lines: Sequence[str]) -> str:
    return " ".join(lines[_NAME_LINES - 1 :])


def _verdict(node: PathNode) -> float:
    """The width of all but the name of a piece."""
    return text_width(node.verdict) + SIGN + 2 * PAD


def _answers(node: PathNode) -> list[str]:
    """The lines in the box of a wall or footing: its name, and who answers for it."""
    letters = letters_in(WIDEST_END - 2 * END_PAD)
    ends = node.ends.removeprefix(BY_OTHERS)  # which the hatching says
    lines = [*wrap(_name(node), letters)[:_NAME_LINES], *wrap(ends, letters)]
    return [clipped(line, WIDEST_END - 2 * END_PAD) for line in lines[:_END_LINES]]


def _height(node: PathNode) -> float:
    return LINE * len(_answers(node) if node.ends else _names(node)) + 8.0


def _tops(plan: Plan, nodes: Mapping[str, PathNode], wrong: Sequence[str], system: Any) -> dict[int, float]:
    """The upper edge of each row: over it stands the lettering of the lines that come to it."""
    rows = range(max((bar.row for bar in plan.bars), default=0), -1, -1)
    tops: dict[int, float] = {}
    y = 4.0
    for row in rows:
        said = [
            text_width(_label(drop, wrong, system)) + _over_arrow(drop) for drop in plan.drops if drop.lower.row == row
        ]
        y += max(said) + 6.0 if said else 12.0 if tops else 0.0
        tops[row] = y
        y += max((_height(nodes[bar.name]) for bar in plan.bars if bar.row == row), default=0.0)
    return tops


def _corners(left: float, top: float, right: float, foot: float) -> tuple[tuple[float, float], ...]:
    return (left, top), (right, top), (right, foot), (left, foot)


def _line(board: Board, drop: Drop, nodes: Mapping[str, PathNode], tops: Mapping[int, float]) -> None:
    """From the piece down to what it rests on; broken where nobody answers for that yet."""
    begins = tops[drop.upper.row] + _height(nodes[drop.upper.name])
    open_ = NOT_YET in nodes[drop.lower.name].ends
    width = 2.4 if drop.edge.wrong else 1.4
    board.line((drop.x, begins), (drop.x, tops[drop.lower.row] - 7), width=width, dash=DASH if open_ else "")


def _over_arrow(drop: Drop) -> float:
    """How far over the foot of a line its lettering begins."""
    return 26.0 if drop.edge.wrong else 13.0


def _arrival(board: Board, drop: Drop, tops: Mapping[int, float], wrong: Sequence[str], system: Any) -> None:
    """The arrowhead, the force along the line, and a cross where no load may go."""
    x, foot = drop.x, tops[drop.lower.row]
    board.shape(((x - 4, foot - 9), (x + 4, foot - 9), (x, foot - 1)), fill=INK)
    board.lettering(x - 6, foot - _over_arrow(drop), _label(drop, wrong, system), upright=True)
    if drop.edge.wrong:
        for lean in (-1, 1):
            board.line((x - 7, foot - 12 - 7 * lean), (x + 7, foot - 12 + 7 * lean), width=2.4)


def _box(board: Board, node: PathNode, left: float, right: float, top: float, behind: Sequence[float]) -> None:
    """A piece, or what is at the end; `behind`: where lines pass it."""
    height, idle = _height(node), node.role != "carries"
    open_ = idle or NOT_YET in node.ends
    fill = PAPER if idle or node.ends else "#f1f1f1"
    board.shape(_corners(left, top, right, top + height), fill=fill, width=1.6, dash=DASH if open_ else "")
    for x in behind:
        board.line((x, top - 4), (x, top + height + 4), width=1.0, stroke=GRAY, dash=BRIDGED)
    y = top + 15.0
    if not node.ends:
        for number, line in enumerate(_names(node)):
            board.lettering(left + PAD, y + LINE * number, line, bold=True, tip=node.name, ground=fill)
        x = right - PAD - text_width(node.verdict)
        board.sign(node.verdict, x - 0.5 * SIGN, y - 5.0)
        board.lettering(x, y, node.verdict, ground=fill)
        return
    strokes = [((x, top + height), (x - 6.0, top + height + 6)) for x in range(int(left) + 8, int(right), 10)]
    board.strokes(strokes, width=1.0, stroke=GRAY)
    names = len(_answers(replace(node, ends="")))
    aside = max(min(PAD, (right - left - _answers_wide(node)) / 2), END_PAD)
    for number, line in enumerate(_answers(node)):
        board.lettering(left + aside, y, line, bold=number < names, tip=f"{_name(node)}: {node.ends}", ground=fill)
        y += LINE


def _sentence(board: Board, text: str, top: float) -> float:
    top += 8.0
    lines = wrap(tied(text), letters_in(WIDTH - 12.0), subsequent_indent=" ")
    shown = [*lines[: _LINES - 1], f"{lines[_LINES - 1]}…"] if len(lines) > _LINES else lines
    for line in shown:
        top += TEXT + 1
        board.lettering(SIDE, top, clipped(line, WIDTH - 12.0), tip=text)
    return top
