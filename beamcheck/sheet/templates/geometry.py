"""The lines of a full-size template: straight edges, parts of circles and ellipses, holes, marks. Inches, y up."""

from __future__ import annotations

import math
from typing import Literal

import numpy as np

from ...analysis.fields.outline import outline_of
from ...analysis.fields.soffit_curves import Line, Turn
from ...analysis.frames.polynomial import Array
from ...checks.core.result import Verdict
from ...model.brackets.bracket import Solid
from ...records import dataclass

Point = tuple[float, float]
Layer = Literal["CUT", "DRILL", "GRAIN", "NOTES"]
LAYERS: tuple[Layer, ...] = ("CUT", "DRILL", "GRAIN", "NOTES")
EASED = 0.0005  # in: chords of an eased corner lie this near to it
ROUND = 1e-9  # relative: below this an ellipse is a circle
ARC = math.radians(3.0)  # of an ellipse for which one circular arc stands
STEP = math.radians(15.0)  # of a curve for which one Bezier piece stands: off by less than 1e-7 of the radius


@dataclass(frozen=True)
class Straight:
    """A straight edge to `end`."""

    end: Point


@dataclass(frozen=True)
class Round:
    """Part of an ellipse to `end`: center + cosine cos q + sine sin q, q from `first` to `last` (rad)."""

    end: Point
    center: Point
    cosine: Point
    sine: Point
    first: float
    last: float

    @property
    def radii(self) -> tuple[float, float]:
        return math.hypot(*self.cosine), math.hypot(*self.sine)

    @property
    def circular(self) -> bool:
        a, b = self.radii
        return abs(a - b) <= ROUND * max(a, b)

    @property
    def turn(self) -> float:
        """Angle swept, counterclockwise positive (rad)."""
        hand = self.cosine[0] * self.sine[1] - self.cosine[1] * self.sine[0]
        return math.copysign(self.last - self.first, hand * (self.last - self.first))

    def at(self, q: float) -> Point:
        return (
            self.center[0] + self.cosine[0] * math.cos(q) + self.sine[0] * math.sin(q),
            self.center[1] + self.cosine[1] * math.cos(q) + self.sine[1] * math.sin(q),
        )

    def slope(self, q: float) -> Point:
        return (
            self.sine[0] * math.cos(q) - self.cosine[0] * math.sin(q),
            self.sine[1] * math.cos(q) - self.cosine[1] * math.sin(q),
        )

    def arcs(self) -> list[tuple[Point, float]]:
        """Short circular arcs that lie within 0.0005 in of it: the end and the bulge of each, the middle on the curve.

        A bulge is twice the sagitta over the chord, counterclockwise positive (DXF reference, memory).
        """
        n = 2 * max(1, math.ceil(abs(self.last - self.first) / (2.0 * ARC)))
        found: list[tuple[Point, float]] = []
        here = self.at(self.first)
        for i in range(n):
            q0, q1 = (self.first + (self.last - self.first) * (i + k) / n for k in (0, 1))
            end, middle = self.end if i == n - 1 else self.at(q1), self.at(0.5 * (q0 + q1))
            dx, dy = end[0] - here[0], end[1] - here[1]
            off = (middle[0] - 0.5 * (here[0] + end[0])) * dy - (middle[1] - 0.5 * (here[1] + end[1])) * dx
            found.append((end, 2.0 * off / (dx * dx + dy * dy)))
            here = end
        return found

    def beziers(self) -> list[tuple[Point, Point, Point]]:
        """Cubic pieces: two handles and an end each."""
        n = max(1, math.ceil(abs(self.last - self.first) / STEP - 1e-9))
        dq = (self.last - self.first) / n
        k = 4.0 / 3.0 * math.tan(dq / 4.0)
        found = []
        for i in range(n):
            q0, q1 = self.first + i * dq, self.first + (i + 1) * dq
            p0, p1, s0, s1 = self.at(q0), self.at(q1), self.slope(q0), self.slope(q1)
            end = self.end if i == n - 1 else p1
            found.append(((p0[0] + k * s0[0], p0[1] + k * s0[1]), (p1[0] - k * s1[0], p1[1] - k * s1[1]), end))
        return found


Edge = Straight | Round


@dataclass(frozen=True)
class Contour:
    """Edges from `start` on; `closed` ends where it began. `dashed`: hidden, or a mark only."""

    layer: Layer
    start: Point
    edges: tuple[Edge, ...]
    closed: bool = True
    dashed: bool = False

    def points(self, step: float = math.radians(3.0)) -> list[Point]:
        """Points along it, curves as chords of `step`."""
        found = [self.start]
        for edge in self.edges:
            if isinstance(edge, Round):
                n = max(2, math.ceil(abs(edge.last - edge.first) / step))
                found += [edge.at(edge.first + (edge.last - edge.first) * i / n) for i in range(1, n)]
            found.append(edge.end)
        return found


@dataclass(frozen=True)
class Hole:
    """A hole to drill: its middle, the diameter `drill` (None: by the table, only its middle is marked), a label.

    `size` is the diameter of the fastener; `bore` of a counterbore round it, 0 for none.
    """

    x: float
    y: float
    size: float
    drill: float | None
    label: str = ""
    bore: float = 0.0


@dataclass(frozen=True)
class Arrow:
    """The direction of the grain."""

    start: Point
    end: Point


@dataclass(frozen=True)
class Measure:
    """A dimension, along x at height `at` or along y at `at`; `text` says how long it is."""

    axis: Literal["x", "y"]
    start: float
    end: float
    at: float
    text: str


@dataclass(frozen=True)
class Label:
    """Lettering at a place."""

    x: float
    y: float
    text: str


@dataclass(frozen=True)
class Template:
    """A full-size template, and everything that must be said on it.

    `banner` is the verdict in words; `stop` when nothing may be built from it. `texts`: notes, caution, sign-off line.
    """

    name: str
    title: str
    verdict: Verdict
    banner: str
    stop: bool
    contours: tuple[Contour, ...] = ()
    holes: tuple[Hole, ...] = ()
    grain: tuple[Arrow, ...] = ()
    measures: tuple[Measure, ...] = ()
    labels: tuple[Label, ...] = ()
    notes: tuple[str, ...] = ()
    caution: str = ""
    sign_off: str = ""
    invented: bool = False
    job: str = ""
    fingerprint: str = ""
    version: str = ""
    day: tuple[int, int, int] | None = None

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Least x, least y, largest x, largest y of all that is drawn (in)."""
        places = [point for contour in self.contours for point in contour.points()]
        for hole in self.holes:
            r = 0.5 * max(hole.drill or 0.0, hole.size, hole.bore)
            places += [(hole.x - r, hole.y - r), (hole.x + r, hole.y + r)]
        for one in self.measures:
            ends = ((one.start, one.at), (one.end, one.at))
            places += ends if one.axis == "x" else [(y, x) for x, y in ends]
        xs, ys = [x for x, _ in places], [y for _, y in places]
        return min(xs), min(ys), max(xs), max(ys)


def polygon(layer: Layer, *points: Point, closed: bool = True, dashed: bool = False) -> Contour:
    """A contour of straight edges through the points."""
    rest = [*points[1:], points[0]] if closed else list(points[1:])
    return Contour(layer, points[0], tuple(map(Straight, rest)), closed, dashed)


def rectangle(layer: Layer, x0: float, y0: float, x1: float, y1: float, *, dashed: bool = False) -> Contour:
    """A rectangle between two corners."""
    return polygon(layer, (x0, y0), (x1, y0), (x1, y1), (x0, y1), dashed=dashed)


def slotted(x: float, y: float, width: float, length: float) -> Contour:
    """An upright slot with round ends, `length` from end to end."""
    r, half = 0.5 * width, max(0.5 * (length - width), 0.0)
    right, left = x + r, x - r
    top = Round((left, y + half), (x, y + half), (r, 0.0), (0.0, r), 0.0, math.pi)
    foot = Round((right, y - half), (x, y - half), (r, 0.0), (0.0, r), math.pi, 2.0 * math.pi)
    return Contour("DRILL", (right, y - half), (Straight((right, y + half)), top, Straight((left, y - half)), foot))


def circle_arc(start: Point, end: Point, center: Point, *, left: bool) -> Round:
    """Part of a circle of less than half a turn; `left`: counterclockwise."""
    r = math.dist(start, center)
    first = math.atan2(start[1] - center[1], start[0] - center[0])
    sweep = math.remainder(math.atan2(end[1] - center[1], end[0] - center[0]) - first, 2.0 * math.pi)
    if left != (sweep > 0.0):
        sweep += math.copysign(2.0 * math.pi, -sweep)
    return Round(end, center, (r, 0.0), (0.0, r), first, first + sweep)


def solid_contour(shape: Solid) -> Contour:
    """The side view of a solid bracket, its wall on the left at x = 0, its lowest edge at y = 0.

    A pocket right through the thickness is cut out of the wall side.

    Raises OutOfRange as `outline_of`.
    """
    outline = outline_of(shape)
    H, P = outline.H, outline.P

    def up(point: Array) -> Point:
        return float(point[0]), float(H - point[1])

    edges: list[Edge] = []
    for piece in outline.pieces:  # from foot to nose
        end = up(piece.point(np.array([1.0]))[0])
        if isinstance(piece, Line):
            edges.append(Straight(end))
        elif isinstance(piece, Turn):
            edges.append(
                Round(end, up(piece.center), _turned(piece.cosine), _turned(piece.sine), piece.first, piece.last)
            )
        else:  # the parabola of an eased corner: chords
            bend = float(np.hypot(*piece.bend(np.array([0.0]))[0]))
            n = max(2, math.ceil(math.sqrt(bend / (8.0 * EASED))))
            edges += [Straight(up(point)) for point in piece.point(np.arange(1, n + 1) / n)]
    start = (float(outline.a), 0.0)
    edges += [Straight((P, H)), Straight((0.0, H))]
    pocket = shape.pocket
    if pocket is not None and pocket.width is None:
        top, low = H - pocket.top, H - pocket.top - pocket.height
        edges += [Straight((0.0, top)), Straight((pocket.depth, top)), Straight((pocket.depth, low)),
                  Straight((0.0, low))]  # fmt: skip
    return Contour("CUT", start, (*edges, Straight((0.0, 0.0)), Straight(start)))


def _turned(vector: Array) -> Point:
    return float(vector[0]), -float(vector[1])
