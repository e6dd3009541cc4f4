"""The drawing of a load path: pieces in levels from the top to the ground, arrows with their forces, what is wrong."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from textwrap import wrap
from typing import Any

from ...checks.core.pictures import LoadPath, PathEdge, PathNode
from ...checks.core.trivial import NEGLIGIBLE
from ...units import show
from .load_path_layers import Arrow, Layers, Slot, goes_down, layers_of, parts_of, spread
from .svg import GRAY, INK, PAPER, Board, clipped, text_width

WIDTH, SIDE = 440.0, 6.0
BOX, NARROW, THIN, GAP = 136.0, 84.0, 14.0, 10.0  # widths: of a box, at least, of a passing arrow, between them
LINE, PAD = 16.0, 5.0
LANE, LABEL, HEAD = 9.0, 17.0, 12.0  # between two levels: a sideways run, a row of lettering, an arrowhead
NAME_LINES = 2
MOST_NODES, MOST_PARTS = 40, 12
OTHER_WALL = "opposite wall"  # where the far rafter of a pair ends: it has no name in the job
DASH = "5 3"
_LETTERS, _LINES = 54, 6  # of a sentence below the drawing


def drawable(path: LoadPath) -> tuple[list[LoadPath], int]:
    """The parts of a house that are drawn, first those with something wrong if they are many; and how many are not."""
    parts = parts_of(path)
    fit = [
        part for part in parts
        if len(part.nodes) <= MOST_NODES and goes_down(part) and _laid_out(part)[1] >= NARROW
    ]  # fmt: skip
    if len(fit) > MOST_PARTS:
        fit = sorted(fit, key=lambda part: not any(edge.wrong for edge in part.edges))[:MOST_PARTS]
    return fit, len(parts) - len(fit)


def path_figure(path: LoadPath, name: str, system: Any = "US", key: str = "path") -> str:
    """The drawing of one part as an `<svg>` element.

    Parameters
    ----------
    path : LoadPath
        Forces in lbf. One of the parts that `drawable` hands back.
    name : str
        What the drawing is called; any text.
    system : 'US' or 'SI'
        Units of the labels.
    key : str
        Unique in the page; the alternative text is tied to the drawing by it.
    """
    layers, _ = _laid_out(path)
    nodes = {node.name: node for node in path.nodes}
    wrong = list(dict.fromkeys(edge.wrong for edge in path.edges if edge.wrong))
    board = Board(WIDTH, key, f"{name}: what rests on what, from the top down", describe(path, system))
    top = 4.0
    ports = _ports(layers)
    boxes: list[tuple[Slot, float]] = []
    labels: list[tuple[float, float, str, str]] = []
    for row, following in zip(layers.levels, [*layers.levels[1:], None], strict=True):
        height = max((_height(nodes[slot.name], slot.width) for slot in row if not slot.passing), default=LINE)
        boxes += [(slot, top) for slot in row if not slot.passing]
        for slot in row:
            if slot.passing:
                board.line((slot.x, top), (slot.x, top + height), width=1.4)
            else:  # a shorter box is joined to the arrows below it
                for x in ports[1].get(id(slot), {}).values():
                    board.line((x, top + PAD), (x, top + height), width=1.4)
        top += height
        if following is not None:
            top = _between(board, layers, row, ports, top, labels, wrong, system)
    for slot, y in boxes:
        _box(board, nodes[slot.name], slot, y)
    for x, y, text, anchor in labels:
        board.lettering(x, y, text, anchor=anchor)
    for index, text in enumerate(wrong):
        top = _sentence(board, f"{_letter(index)}: {text}", top)
    return board.done(top + 8)


def describe(path: LoadPath, system: Any = "US") -> str:
    """The drawing in words, for readers who do not see it."""
    said = [f"{_called(node)}{_state(node)}." for node in path.nodes]
    for edge in path.edges:
        force = _force((edge,), system)
        said.append(f"From {edge.above} to {edge.below or OTHER_WALL}: {force}.")
    said += [f"Wrong: {text}." for text in dict.fromkeys(edge.wrong for edge in path.edges if edge.wrong)]
    return " ".join(said)


def _called(node: PathNode) -> str:
    role = "" if node.role == "carries" else f", {node.role}"
    return f"{node.kind} {node.name or OTHER_WALL}{role}"


def _state(node: PathNode) -> str:
    return "".join(f": {text}" for text in (node.verdict, node.ends) if text)


def _laid_out(path: LoadPath) -> tuple[Layers, float]:
    layers = layers_of(path)
    return layers, spread(layers, SIDE, WIDTH - SIDE, BOX, THIN, GAP)


def _force(edges: Sequence[PathEdge], system: Any) -> str:
    """'1,240 lb', '297 lb, lifts 14 lb', '1,240 + 980 lb' for two supports on one thing."""
    if any(math.isnan(edge.largest) for edge in edges):
        return "not worked out"
    down = [show(edge.largest, "force", system) for edge in edges if edge.largest > NEGLIGIBLE]
    up = min(edge.least for edge in edges)
    if len(down) > 2:
        most = show(max(edge.largest for edge in edges), "force", system)
        down = [f"{len(down)} × up to {most}"]
    lifts = [f"lifts {show(-up, 'force', system)}"] if up < -NEGLIGIBLE else []
    return ", ".join(filter(None, (" + ".join(down), *lifts))) or show(0.0, "force", system)


Ports = tuple[dict[int, dict[int, float]], dict[int, dict[int, float]]]  # by slot and arrow: x at its top, at its foot


def _ports(layers: Layers) -> Ports:
    """Where arrows come to a slot and leave it: side by side in the order of where they come from and go to."""
    coming: dict[int, list[tuple[float, int]]] = {}
    leaving: dict[int, list[tuple[float, int]]] = {}
    widths = {id(slot): slot for row in layers.levels for slot in row}
    for index, arrow in enumerate(layers.arrows):
        for upper, lower in pairwise(arrow.slots):
            leaving.setdefault(id(upper), []).append((lower.x, index))
            coming.setdefault(id(lower), []).append((upper.x, index))
    return _side_by_side(coming, widths), _side_by_side(leaving, widths)


def _side_by_side(found: dict[int, list[tuple[float, int]]], slots: dict[int, Slot]) -> dict[int, dict[int, float]]:
    made = {}
    for which, arrows in found.items():
        slot, count = slots[which], len(arrows)
        made[which] = {
            index: slot.x + slot.width * ((place + 1) / (count + 1) - 0.5) if count > 1 else slot.x
            for place, (_, index) in enumerate(sorted(arrows))
        }
    return made


def _between(
    board: Board, layers: Layers, row: Sequence[Slot], ports: Ports, top: float,
    labels: list[tuple[float, float, str, str]], wrong: Sequence[str], system: Any,
) -> float:  # fmt: skip
    """The arrows to the next level: down, sideways in a lane of their own, down. Returns where that level begins."""
    here = {id(slot) for slot in row}
    runs = [
        (ports[1][id(upper)][index], ports[0][id(lower)][index], arrow, lower)
        for index, arrow in enumerate(layers.arrows) for upper, lower in pairwise(arrow.slots) if id(upper) in here
    ]  # fmt: skip
    lanes = _packed([(min(a, b) - 3.0, max(a, b) + 3.0) if abs(a - b) > 0.5 else None for a, b, *_ in runs])
    texts = [_label(arrow, wrong, system) if not lower.passing else "" for _, _, arrow, lower in runs]
    spans = [_beside(b, text) if text else None for (_, b, *_), text in zip(runs, texts, strict=True)]
    rows = _packed(spans)
    turn = top + LANE * (1 + max((lane for lane in lanes if lane is not None), default=-1))
    foot = turn + 8.0 + LABEL * (1 + max((one for one in rows if one is not None), default=-1)) + HEAD
    for (a, b, arrow, lower), lane, text, level, span in zip(runs, lanes, texts, rows, spans, strict=True):
        y = top + LANE * (lane + 0.5) if lane is not None else turn
        broad = 2.4 if any(edge.wrong for edge in arrow.edges) else 1.4
        end = foot if lower.passing else foot - 7.0
        board.line((a, top), (a, y), (b, y), (b, end), width=broad)
        if lower.passing:
            continue
        board.shape(((b - 4, foot - 9), (b + 4, foot - 9), (b, foot - 1)), fill=INK)
        if span is not None and level is not None:
            y = turn + LABEL * (level + 1)
            labels.append((b + 8.0, y, text, "start") if span[0] > b else (b - 8.0, y, text, "end"))
            board.disc(b, y - 5.0, 3.0)  # which arrow the lettering belongs to
        if any(edge.wrong for edge in arrow.edges):
            for lean in (-1, 1):
                board.line((b - 7, foot - 10 - 7 * lean), (b + 7, foot - 10 + 7 * lean), width=2.4)
    return foot


def _beside(x: float, text: str) -> tuple[float, float]:
    """Where the lettering beside an arrow begins and ends: to its right where there is room."""
    wide = text_width(text) + 6.0
    left = x + 8.0 if x + 8.0 + wide < WIDTH - 2.0 else max(x - 8.0 - wide, 2.0)
    return left, left + wide


def _label(arrow: Arrow, wrong: Sequence[str], system: Any) -> str:
    marks = dict.fromkeys(_letter(wrong.index(edge.wrong)) for edge in arrow.edges if edge.wrong)
    said = _force(arrow.edges, system)
    return clipped(f"{said} (wrong: {', '.join(marks)})" if marks else said, WIDTH - 40.0)


def _letter(index: int) -> str:
    return chr(ord("a") + index) if index < 26 else str(index + 1)


def _packed(spans: Sequence[tuple[float, float] | None]) -> list[int | None]:
    """A row for each stretch, so that none in a row touch; None for none."""
    ends: list[float] = []
    found: list[int | None] = [None] * len(spans)
    for index, span in sorted(enumerate(spans), key=lambda one: one[1] or (0.0, 0.0)):
        if span is None:
            continue
        row = next((i for i, end in enumerate(ends) if end < span[0]), len(ends))
        ends[row:] = [span[1], *ends[row + 1 :]]
        found[index] = row
    return found


def _name_lines(node: PathNode, width: float) -> list[str]:
    name = " ".join((node.name or OTHER_WALL).split())
    lines = wrap(name, max(int((width - 2 * PAD) / text_width("n")), 4)) or [name]
    if len(lines) > NAME_LINES:
        lines = [*lines[: NAME_LINES - 1], f"{lines[NAME_LINES - 1]}…"]
    return [clipped(line, width - 2 * PAD) for line in lines]


def _words(node: PathNode, width: float) -> Iterator[str]:
    if not node.ends:
        yield node.kind
    if node.role != "carries":
        yield node.role
    yield from wrap(node.ends, max(int((width - 2 * PAD) / text_width("n")), 4))


def _height(node: PathNode, width: float) -> float:
    lines = len(_name_lines(node, width)) + len(list(_words(node, width))) + bool(node.verdict)
    return LINE * lines + 2 * PAD


def _box(board: Board, node: PathNode, slot: Slot, top: float) -> None:
    left, width, height = slot.x - 0.5 * slot.width, slot.width, _height(node, slot.width)
    corners = ((left, top), (left + width, top), (left + width, top + height), (left, top + height))
    idle = node.role != "carries"
    board.shape(corners, fill=PAPER if idle or node.ends else "#f1f1f1", width=1.6, dash=DASH if idle else "")
    if node.ends:  # the strokes under ground
        for x in range(int(left) + 8, int(left + width), 10):
            board.line((x, top + height), (x - 6, top + height + 6), width=1.0, stroke=GRAY)
    y = top + PAD + 12.0
    for line in _name_lines(node, width):
        board.lettering(left + PAD, y, line, bold=True, tip=node.name or OTHER_WALL)
        y += LINE
    for line in _words(node, width):
        board.lettering(left + PAD, y, clipped(line, width - 2 * PAD), tip=node.ends or line)
        y += LINE
    if node.verdict:
        _mark(board, node.verdict, left + PAD + 5.0, y - 5.0)
        board.lettering(left + PAD + 15.0, y, node.verdict)


def _mark(board: Board, verdict: str, x: float, y: float) -> None:
    """passes: a ring; refer: a diamond; fails: a black square with a cross."""
    if verdict == "passes":
        board.ring(x, y, 4.6, width=1.6)
    elif verdict == "fails":
        board.box(x - 5, y - 5, 10, 10, fill=INK)
        board.line((x - 3, y - 3), (x + 3, y + 3), width=1.6, stroke=PAPER)
        board.line((x - 3, y + 3), (x + 3, y - 3), width=1.6, stroke=PAPER)
    else:
        board.shape(((x, y - 6), (x + 6, y), (x, y + 6), (x - 6, y)), width=1.6)


def _sentence(board: Board, text: str, top: float) -> float:
    top += 8.0
    lines = wrap(" ".join(text.split()), _LETTERS, subsequent_indent=" ")
    shown = [*lines[: _LINES - 1], f"{lines[_LINES - 1]}…"] if len(lines) > _LINES else lines
    for line in shown:
        top += LINE
        board.lettering(SIDE, top, clipped(line, WIDTH - 12.0), tip=text)
    return top
