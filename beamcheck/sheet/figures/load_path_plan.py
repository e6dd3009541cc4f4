"""Where the pieces of a load path stand: bars over the line of walls and footings, each load a line of its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field

from ...checks.core.pictures.beams import LoadPath, PathEdge
from ...records import dataclass

PITCH, CLOSE = 19.0, 8.0  # between two lines, each with its lettering along it; and at the very least
PAD = 6.0
APART = 6.0  # between walls and footings that stand side by side
SWEEPS = 4  # times that the order of walls is improved by what rests on them
TRIES = 80  # places looked at on each side for a free one


@dataclass(eq=False)
class Bar:
    """A piece, or an end of the path; `row` counts up from the ends, which are 0."""

    name: str
    least: float  # width that its words need
    x0: float = 0.0
    x1: float = 0.0
    row: int = 0


@dataclass(frozen=True)
class Drop:
    """One load: straight down at `x`."""

    edge: PathEdge
    x: float
    upper: Bar
    lower: Bar


@dataclass
class Plan:
    bars: list[Bar] = field(default_factory=list)
    drops: list[Drop] = field(default_factory=list)


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


def together(parts: Sequence[LoadPath]) -> LoadPath:
    """Several parts as one, walls and footings once."""
    nodes = {node.name: node for part in parts for node in part.nodes}
    return LoadPath(tuple(nodes.values()), tuple(edge for part in parts for edge in part.edges))


def heights(path: LoadPath) -> dict[str, int] | None:
    """How many pieces each is above its ends at most; None where a load comes back to where it was."""
    below: dict[str, set[str]] = {node.name: set() for node in path.nodes}
    for edge in path.edges:
        below[edge.above].add(edge.below)
    found: dict[str, int] = {}
    left = list(below)
    while left:
        ready = [name for name in left if below[name] <= found.keys()]
        if not ready:
            return None
        for name in ready:
            found[name] = 1 + max((found[one] for one in below[name]), default=-1)
        left = [name for name in left if name not in found]
    ends = {node.name for node in path.nodes if node.ends}
    return {name: 0 if name in ends else max(height, 1) for name, height in found.items()}


def width_needed(path: LoadPath, least: Mapping[str, float]) -> float:
    """The width below which lines or words would run into each other."""
    ends = [node.name for node in path.nodes if node.ends]
    boxes = sum(max(least[name], PITCH * _arriving(path, name) + 2 * PAD) + APART for name in ends)
    return max(boxes, PITCH * (len(path.edges) + 2))


def planned(path: LoadPath, least: Mapping[str, float], left: float, right: float) -> Plan:
    """Places of all bars and lines between `left` and `right`; `least` are the widths that the words need."""
    tall = heights(path) or {}
    order = _order(path, tall)
    bars = {node.name: Bar(node.name, least[node.name]) for node in path.nodes}
    used: list[float] = []
    drops: list[Drop] = []
    _ends(path, bars, order, left, right)
    for name in sorted(bars, key=lambda one: (tall[one], order[one])):
        bar = bars[name]
        leaving = [drop.x for drop in drops if drop.upper is bar]
        if tall[name]:
            low, high = (min(leaving), max(leaving)) if leaving else (0.5 * (left + right),) * 2
            arriving = _arriving(path, name)
            wide = max(bar.least, PITCH * (arriving + 1))
            for _ in range(SWEEPS):  # room beside the lines that are there already
                more = max(wide - (high - low + 2 * PAD), 0.0) / 2
                bar.x0, bar.x1 = low - PAD - more, high + PAD + more
                wide = max(wide, PITCH * (arriving + 1 + sum(bar.x0 <= x <= bar.x1 for x in used) * bool(arriving)))
            shift = max(left - bar.x0, 0.0) - max(bar.x1 - right, 0.0)
            bar.x0, bar.x1 = bar.x0 + shift, bar.x1 + shift
        coming = sorted((edge for edge in path.edges if edge.below == name), key=lambda edge: order[edge.above])
        for number, edge in enumerate(coming, start=1):
            wanted = bar.x0 + (bar.x1 - bar.x0) * number / (len(coming) + 1)
            x = _free(wanted, used, max(bar.x0 + 2, left), min(bar.x1 - 2, right))
            used.append(x)
            drops.append(Drop(edge, x, bars[edge.above], bar))
    _rows(bars, tall, drops)
    return Plan(list(bars.values()), drops)


def _arriving(path: LoadPath, name: str) -> int:
    return sum(edge.below == name for edge in path.edges)


def _order(path: LoadPath, tall: Mapping[str, int]) -> dict[str, float]:
    """From left to right: walls beside those that the same pieces rest on, each piece over what it rests on."""
    ends = [node.name for node in path.nodes if node.ends]
    places = {name: float(i) for i, name in enumerate(ends)}
    pieces = sorted((node.name for node in path.nodes if not node.ends), key=tall.__getitem__)
    for _ in range(SWEEPS):
        for name in pieces:
            under = [places[edge.below] for edge in path.edges if edge.above == name and edge.below in places]
            places[name] = sum(under) / len(under) if under else 0.0
        over = {
            name: [places[edge.above] for edge in path.edges if edge.below == name] or [places[name]] for name in ends
        }
        ranked = sorted(ends, key=lambda name: sum(over[name]) / len(over[name]))
        places |= {name: float(i) for i, name in enumerate(ranked)}
    return places


def _ends(path: LoadPath, bars: Mapping[str, Bar], order: Mapping[str, float], left: float, right: float) -> None:
    """Walls and footings side by side along the bottom."""
    ends = sorted((node.name for node in path.nodes if node.ends), key=order.__getitem__)
    if not ends:
        return
    widths = [max(bars[name].least, PITCH * _arriving(path, name) + 2 * PAD) for name in ends]
    gap = max((right - left - sum(widths)) / len(ends), APART)
    x = left + gap / 2
    for name, width in zip(ends, widths, strict=True):
        wider = min(0.4 * gap, 0.5 * width)  # room between its lines for those that pass
        bars[name].x0, bars[name].x1 = x - wider / 2, x + width + wider / 2
        x += width + gap


def _free(wanted: float, used: Sequence[float], left: float, right: float) -> float:
    """The place nearest to the wanted one that keeps away from other lines."""
    for apart in (PITCH, 0.75 * PITCH, CLOSE):
        for step in range(TRIES):
            for x in (wanted + 2.0 * step, wanted - 2.0 * step):
                if left <= x <= right and all(abs(x - other) >= apart for other in used):
                    return x
    return wanted


def _rows(bars: Mapping[str, Bar], tall: Mapping[str, int], drops: Sequence[Drop]) -> None:
    """Each bar above all that it rests on, and none over another in its row."""
    taken: dict[int, list[tuple[float, float]]] = {}
    for name in sorted(bars, key=lambda one: (tall[one], bars[one].x0)):
        bar = bars[name]
        if tall[name]:
            bar.row = 1 + max((drop.lower.row for drop in drops if drop.upper is bar), default=0)
            while any(bar.x0 < b + 2 * PAD and a < bar.x1 + 2 * PAD for a, b in taken.get(bar.row, ())):
                bar.row += 1
        taken.setdefault(bar.row, []).append((bar.x0, bar.x1))
