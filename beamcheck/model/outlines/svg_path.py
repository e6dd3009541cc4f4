"""The path data of an SVG drawing: lines, curves and arcs as points that stay within a tolerance of them."""

from __future__ import annotations

import cmath
import math
import re
from collections.abc import Callable, Sequence
from dataclasses import field

import numpy as np

from ...records import dataclass
from .geometry import Array
from .profile import FLAT, MOST_DRAWN, OutlineError

Curve = Callable[[Array], Array]  # from 0..1 to complex numbers x + iy
MOST_STEPS = 20_000  # lines and curves of one path
FINEST = 4_096  # pieces of one curve
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")
_GAP = re.compile(r"[\s,]*")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
_LARGEST = 1e7  # in any unit: what is larger is no coordinate


@dataclass
class Walk:
    """One line without a lift of the pen: where it starts, and its straight ends (complex) and curves in turn."""

    start: complex
    steps: list[complex | Curve] = field(default_factory=list)

    @classmethod
    def straight(cls, start: complex, ends: Sequence[complex]) -> Walk:
        return cls(start, list(ends))


def number(text: str, what: str) -> float:
    """One number of a drawing. Raises OutlineError if it is beyond all coordinates."""
    value = float(text)
    if not abs(value) <= _LARGEST:
        raise OutlineError(f"{text[:40]} cannot be right in {what}")
    return value


def numbers(text: str, what: str) -> list[float]:
    """All numbers of an attribute. Raises OutlineError if it holds something else."""
    found, place = [], _gap(text, 0)
    while place < len(text):
        match = _NUMBER.match(text, place)
        if match is None:
            raise OutlineError(f"{text[place : place + 20]!r} is not a number, in {what}")
        found.append(number(match.group(), what))
        place = _gap(text, match.end())
    return found


def _gap(text: str, place: int) -> int:
    match = _GAP.match(text, place)
    return match.end() if match else place


def sampled(walk: Walk, to_inches: Callable[[Array], Array], most: int) -> Array:
    """Points (n, 2) of a line in inches, everywhere within FLAT of it.

    Raises OutlineError if it takes more than `most` of them.
    """
    parts = [to_inches(np.array([walk.start]))]
    for step in walk.steps:
        most -= len(parts[-1])
        if most < 0:
            raise OutlineError(f"its curves take more than {MOST_DRAWN:,} points: that is no outline of a bracket")
        if isinstance(step, complex):
            parts.append(to_inches(np.array([step])))
            continue
        count = 8
        points = to_inches(step(np.linspace(0.0, 1.0, count + 1)))
        while count < FINEST:
            finer = to_inches(step(np.linspace(0.0, 1.0, 2 * count + 1)))
            off = finer[1::2] - 0.5 * (points[:-1] + points[1:])  # a chord is left by no more than this
            points, count = finer, 2 * count
            if np.hypot(*off.T).max() <= FLAT:
                break
        parts.append(points[1:])
    return np.vstack(parts)


def walks_of(data: str) -> list[Walk]:
    """The lines of a path's `d`. Raises OutlineError if it is not path data."""
    pen = _Pen(data)
    while pen.place < len(data):
        pen.command()
    return [walk for walk in pen.walks if walk.steps]


class _Pen:
    """Where the pen is, and where in the text."""

    def __init__(self, data: str) -> None:
        self.data, self.place = data, _gap(data, 0)
        self.walks: list[Walk] = []
        self.at = self.start = 0j
        self.control: tuple[str, complex] | None = None  # of the curve before, for the smooth ones
        self.count, self.closed = 0, False

    def value(self) -> float:
        match = _NUMBER.match(self.data, self.place)
        if match is None:
            raise self.trouble("a number is missing")
        self.place = _gap(self.data, match.end())
        return number(match.group(), "a path")

    def flag(self) -> bool:
        """Of an arc: 0 or 1, which may stand without a gap before the next number."""
        given = self.data[self.place : self.place + 1]
        if given not in ("0", "1"):
            raise self.trouble("a flag of an arc is 0 or 1")
        self.place = _gap(self.data, self.place + 1)
        return given == "1"

    def trouble(self, why: str) -> OutlineError:
        return OutlineError(f"a path cannot be read at {self.data[self.place : self.place + 20]!r}: {why}")

    def command(self) -> None:
        letter = self.data[self.place]
        kind = letter.upper()
        if kind not in _TAKES:
            raise self.trouble("a letter of path data is expected")
        if not self.walks and kind != "M":
            raise self.trouble("a path begins with M")
        self.place = _gap(self.data, self.place + 1)
        if kind == "Z":
            self.line(self.start)
            self.at, self.closed = self.start, True
            return
        while True:
            self.count += 1
            if self.count > MOST_STEPS:
                raise OutlineError(f"a path of more than {MOST_STEPS:,} lines and curves is no outline of a bracket")
            self.one(kind, relative=letter.islower())
            kind = "L" if kind == "M" else kind  # further pairs after M are lines
            if not _NUMBER.match(self.data, self.place):
                return

    def one(self, kind: str, *, relative: bool) -> None:
        if self.closed and kind != "M":  # after a Z it goes on from where that line began
            self.walks.append(Walk(self.at))
        self.closed = False
        origin = self.at if relative else 0j
        if kind == "A":
            rx, ry, turn = self.value(), self.value(), self.value()
            large, sweep = self.flag(), self.flag()
            self.arc(abs(rx), abs(ry), math.radians(turn), large, sweep, origin + complex(self.value(), self.value()))
            self.control = None
            return
        if kind in "HV":
            along = self.value()
            x, y = (origin.real + along, self.at.imag) if kind == "H" else (self.at.real, origin.imag + along)
            self.line(complex(x, y))
            return
        points = [origin + complex(self.value(), self.value()) for _ in range(_TAKES[kind] // 2)]
        if kind == "M":
            self.at = self.start = points[0]
            self.walks.append(Walk(self.at))
            self.control = None
        elif kind == "L":
            self.line(points[0])
        else:
            self.bezier(kind, points)

    def line(self, end: complex) -> None:
        self.walks[-1].steps.append(end)
        self.at, self.control = end, None

    def bezier(self, kind: str, points: list[complex]) -> None:
        start, family = self.at, "C" if kind in "CS" else "Q"
        if kind in "ST":
            before = self.control
            mirrored = 2.0 * start - before[1] if before is not None and before[0] == family else start
            points = [mirrored, *points]
        ends = (start, *points)

        def cubic(t: Array, p: tuple[complex, ...] = ends) -> Array:
            u = 1.0 - t
            return np.asarray(u * u * u * p[0] + 3.0 * u * u * t * p[1] + 3.0 * u * t * t * p[2] + t * t * t * p[3])

        def quadratic(t: Array, p: tuple[complex, ...] = ends) -> Array:
            u = 1.0 - t
            return np.asarray(u * u * p[0] + 2.0 * u * t * p[1] + t * t * p[2])

        self.walks[-1].steps.append(cubic if family == "C" else quadratic)
        self.at, self.control = points[-1], (family, points[-2])

    def arc(self, rx: float, ry: float, turn: float, large: bool, sweep: bool, end: complex) -> None:
        """SVG 1.1, F.6.5 and F.6.6: from the ends to the center, with radii made as large as they have to be."""
        start = self.at
        if rx == 0.0 or ry == 0.0 or start == end:
            self.line(end)
            return
        axis = cmath.rect(1.0, turn)
        half = 0.5 * (start - end) / axis
        one = complex(half.real / rx, half.imag / ry)  # on the circle of radius 1
        grow = max(abs(one), 1.0)
        rx, ry, one = rx * grow, ry * grow, one / grow
        reach = math.sqrt(max(1.0 - abs(one) * abs(one), 0.0))
        side = 1j * one / abs(one) * reach * (1.0 if large == sweep else -1.0)
        first, last = cmath.phase(one - side), cmath.phase(-one - side)
        angle = (last - first) % (2.0 * math.pi)
        angle = angle if sweep else angle - 2.0 * math.pi
        middle = 0.5 * (start + end) + axis * complex(rx * side.real, ry * side.imag)

        def curve(t: Array) -> Array:
            q = first + angle * t
            return np.asarray(middle + axis * (rx * np.cos(q) + 1j * ry * np.sin(q)))

        self.walks[-1].steps.append(curve)
        self.at = end
