"""Where the boxes of a load path stand: levels from the top down, order within a level, places across the drawing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from ...checks.core.pictures import LoadPath, PathEdge

ACROSS = 3  # boxes side by side
SWEEPS = 4  # times that the order is improved from the top down and back


@dataclass(eq=False, repr=False)
class Slot:
    """A box, or (`name` '' and `passing` set) the place where a long arrow passes a level."""

    name: str
    level: int
    passing: bool = False
    x: float = 0.0
    width: float = 0.0
    above: list[Slot] = field(default_factory=list)
    below: list[Slot] = field(default_factory=list)


@dataclass(frozen=True)
class Arrow:
    """All that one piece puts on another, with the slots that it passes from top to bottom."""

    edges: tuple[PathEdge, ...]
    slots: tuple[Slot, ...]


@dataclass(frozen=True)
class Layers:
    """Slots level by level from left to right, and the arrows between them."""

    levels: list[list[Slot]]
    arrows: list[Arrow]


def parts_of(path: LoadPath) -> list[LoadPath]:
    """The parts of a house that share no piece; walls and footings by others do not join them and stand in each."""
    ends = {node.name for node in path.nodes if node.ends}
    joined = {node.name: node.name for node in path.nodes if node.name not in ends}

    def root(name: str) -> str:
        while joined[name] != name:
            joined[name] = joined[joined[name]]
            name = joined[name]
        return name

    for edge in path.edges:
        if edge.above in joined and edge.below in joined:
            joined[root(edge.below)] = root(edge.above)
    found = []
    for first in dict.fromkeys(root(name) for name in joined):
        edges = tuple(edge for edge in path.edges if edge.above in joined and root(edge.above) == first)
        names = {name for name in joined if root(name) == first} | {edge.below for edge in edges}
        found.append(LoadPath(tuple(node for node in path.nodes if node.name in names), edges))
    return found


def goes_down(path: LoadPath) -> bool:
    """Whether no load comes back to where it was: a beam may come down on a bracket fixed to a piece above it."""
    return len(_levels(path, [(edge.above, edge.below) for edge in path.edges])) == len(path.nodes)


def layers_of(path: LoadPath) -> Layers:
    """Boxes in levels: each below all that rests on it, few enough side by side; long arrows get their own places.

    The path must go down all the way.
    """
    together: dict[tuple[str, str], list[PathEdge]] = {}
    for edge in path.edges:
        together.setdefault((edge.above, edge.below), []).append(edge)
    slots = {name: Slot(name, level) for name, level in _levels(path, list(together)).items()}
    rows: list[list[Slot]] = [[] for _ in range(1 + max((slot.level for slot in slots.values()), default=-1))]
    for slot in slots.values():
        rows[slot.level].append(slot)
    arrows = []
    for (above, below), edges in together.items():
        passed = [Slot("", level, passing=True) for level in range(slots[above].level + 1, slots[below].level)]
        for slot in passed:
            rows[slot.level].append(slot)
        chain = (slots[above], *passed, slots[below])
        for upper, lower in pairwise(chain):
            upper.below.append(lower)
            lower.above.append(upper)
        arrows.append(Arrow(tuple(edges), chain))
    _sort(rows)
    return Layers(rows, arrows)


def _levels(path: LoadPath, steps: Sequence[tuple[str, str]]) -> dict[str, int]:
    carriers: dict[str, list[str]] = {node.name: [] for node in path.nodes}
    waiting = dict.fromkeys(carriers, 0)
    for above, below in steps:
        carriers[above].append(below)
        waiting[below] += 1
    level = dict.fromkeys(carriers, 0)
    filled: dict[int, int] = {}
    ready = [name for name, count in waiting.items() if count == 0]
    for name in ready:  # grows while it is walked
        while filled.get(level[name], 0) >= ACROSS:
            level[name] += 1
        filled[level[name]] = filled.get(level[name], 0) + 1
        for below in carriers[name]:
            level[below] = max(level[below], level[name] + 1)
            waiting[below] -= 1
            if waiting[below] == 0:
                ready.append(below)
    return {name: level[name] for name in ready}


def _sort(rows: list[list[Slot]]) -> None:
    """Put each slot near the middle of those that it hangs together with, so that few arrows cross."""
    for sweep in range(SWEEPS):
        downwards = sweep % 2 == 0
        for row in rows if downwards else reversed(rows):
            place = {id(slot): index for other in rows for index, slot in enumerate(other)}
            row.sort(key=lambda slot: _middle(slot.above if downwards else slot.below, place, slot))


def _middle(others: Sequence[Slot], place: Mapping[int, int], slot: Slot) -> float:
    return sum(place[id(other)] for other in others) / len(others) if others else float(place[id(slot)])


def spread(layers: Layers, left: float, right: float, box: float, thin: float, gap: float) -> float:
    """Give every slot its width and its place between two edges of the drawing.

    Returns
    -------
    float
        The width of the narrowest box.
    """
    narrowest = box
    for row in layers.levels:
        boxes = sum(not slot.passing for slot in row)
        room = right - left - gap * (len(row) - 1) - thin * (len(row) - boxes)
        wide = min(box, room / max(boxes, 1))
        narrowest = min(narrowest, wide)
        for slot in row:
            slot.width = thin if slot.passing else wide
        _place(row, left, right, gap)
    for row in reversed(layers.levels[:-1]):  # once more, nearer to what they rest on
        _place(row, left, right, gap, upwards=True)
    every = [slot for row in layers.levels for slot in row]
    if every:  # in the middle of the drawing
        first, last = min(slot.x - 0.5 * slot.width for slot in every), max(slot.x + 0.5 * slot.width for slot in every)
        for slot in every:
            slot.x += 0.5 * (left + right - first - last)
    return narrowest


def _place(row: Sequence[Slot], left: float, right: float, gap: float, *, upwards: bool = False) -> None:
    whole = sum(slot.width for slot in row) + gap * (len(row) - 1)
    x = 0.5 * (left + right - whole)
    for slot in row:  # side by side about the middle, then towards what they hang together with
        others = slot.below if upwards else slot.above
        slot.x = sum(other.x for other in others) / len(others) if others else slot.x or x + 0.5 * slot.width
        x += slot.width + gap
    edge = left
    for slot in row:
        slot.x = max(slot.x, edge + 0.5 * slot.width)
        edge = slot.x + 0.5 * slot.width + gap
    edge = right
    for slot in reversed(row):
        slot.x = min(slot.x, edge - 0.5 * slot.width)
        edge = slot.x - 0.5 * slot.width - gap
