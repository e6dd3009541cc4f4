"""The outline of a solid bracket as seen from its side: wall face, top edge, nose, soffit, foot.

x out from the wall face, y down from the top edge, inch; O is the corner of wall face and top edge. The soffit runs
from the foot (a, H) to the nose (P, b). Families: straight line, quarter ellipses, circular arc by its sagitta, points.
"""

from __future__ import annotations

from functools import cached_property

import numpy as np

from ...errors import OutOfRange
from ...model.brackets.bracket import Solid
from ...records import dataclass
from ..frames.polynomial import Array
from .soffit_curves import Line, Piece, Turn, through

SMOOTH = 20.0  # deg: points that turn by less lie on a curve; more is a corner
EASE = 1.0 / 64.0  # in: no corner between points is rounded by more, about what a saw leaves
MOST_POINTS = 500
PER_CURVE = 200  # straight pieces that stand for a curved one
MEETS = 1.0 / 64.0  # in: how well given points must meet foot and nose


@dataclass(frozen=True, eq=False)
class Outline:
    """A solid bracket from its side.

    H, P, a, b : height of the wall face, length of the top edge, depth of the foot, depth of the nose (in).
    pieces : the soffit as exact curves, from foot to nose.
    soffit : (n, 2) points on it, dense on curves, both ends included.
    u : (n,) their parameters: number of the piece plus the part of it.
    kinks : indices into `soffit` of corners (neither end is one); `re_entrant` are those that point into the wood.
    """

    H: float
    P: float
    a: float
    b: float
    pieces: tuple[Piece, ...]
    soffit: Array
    u: Array
    kinks: tuple[int, ...]
    re_entrant: tuple[int, ...]

    def at(self, u: Array) -> Array:
        """(n, 2) exact points of the soffit for parameters u (0 at the foot, the number of pieces at the nose)."""
        return self._each("point", u)

    def _each(self, what: str, u: Array) -> Array:
        u = np.atleast_1d(np.asarray(u, dtype=float))
        which = np.clip(np.floor(u).astype(np.intp), 0, len(self.pieces) - 1)
        out = np.empty((len(u), 2))
        for i in np.unique(which):
            here = which == i
            out[here] = getattr(self.pieces[i], what)(u[here] - i)
        return out

    def direction(self, u: Array) -> Array:
        """(n, 2) unit tangents from the foot towards the nose."""
        slope = self._each("slope", u)
        return slope / np.hypot(slope[:, 0], slope[:, 1])[:, None]

    @cached_property
    def tangent(self) -> Array:
        """(n,) deg above level of the soffit's tangent at the points of `soffit`: 0 level, 90 upright."""
        t = self.direction(self.u)
        return np.degrees(np.arctan2(-t[:, 1], t[:, 0]))

    @cached_property
    def radius(self) -> Array:
        """(n,) radius of curvature (in) at the points of `soffit`: above zero where hollow, inf where straight."""
        p, q = self._each("slope", self.u), self._each("bend", self.u)
        cross = p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]
        curved = np.abs(cross) > 1e-12 * (p**2).sum(axis=1)
        return np.where(curved, (p**2).sum(axis=1) ** 1.5 / np.where(curved, cross, 1.0), np.inf)

    @cached_property
    def lengths(self) -> Array:
        """(n,) length of the soffit from the foot to each of its points (in)."""
        step = np.diff(self.soffit, axis=0)
        return np.concatenate([[0.0], np.cumsum(np.hypot(step[:, 0], step[:, 1]))])

    def closed(self) -> Array:
        """(n + 3, 2) the whole outline: O, the top of the nose, the soffit from nose to foot, the foot at the wall."""
        ends = np.array([[0.0, 0.0], [self.P, 0.0]])
        return np.concatenate([ends, self.soffit[::-1], [[0.0, self.H]]])

    @cached_property
    def _moments(self) -> tuple[float, float, float]:
        p, q = self.closed(), np.roll(self.closed(), -1, axis=0)
        cross = p[:, 0] * q[:, 1] - q[:, 0] * p[:, 1]
        x, y = ((p + q) * cross[:, None]).sum(axis=0) / 6
        return float(cross.sum() / 2), float(x), float(y)

    @property
    def area(self) -> float:
        """Area (in2)."""
        return self._moments[0]

    @property
    def centroid(self) -> tuple[float, float]:
        """Centroid (x, y) (in)."""
        return self._moments[1] / self._moments[0], self._moments[2] / self._moments[0]

    def depth(self, x: float) -> float:
        """Depth (in) of the wood straight below the top edge at x, down to the first edge that is met."""
        return float(self.depths(np.array([x]))[0])

    def depths(self, x: Array) -> Array:
        """(n,) depths as in `depth`."""
        if not np.all((x >= 0.0) & (x <= self.P)):
            raise OutOfRange(f"x = {x.max():g} in is not on the top edge, which is {self.P:g} in long")
        p, q = self.soffit[:-1, None], self.soffit[1:, None]
        run = q[..., 0] - p[..., 0]
        hit = (np.minimum(p[..., 0], q[..., 0]) <= x) & (x <= np.maximum(p[..., 0], q[..., 0])) & (run != 0.0)
        below = p[..., 1] + (x - p[..., 0]) / np.where(run != 0.0, run, 1.0) * (q[..., 1] - p[..., 1])
        return np.asarray(np.minimum(np.where(hit, below, np.inf).min(axis=0), np.where(x <= self.a, self.H, np.inf)))


def outline_of(shape: Solid) -> Outline:
    """The outline of a solid bracket.

    Raises OutOfRange: a soffit that crosses itself, does not start at the foot or end at the nose, leaves the box of
    height and projection, cuts through the wall face or the top edge; a foot or nose that does not fit; a sagitta of
    more than a half circle; more than 500 points; no thickness.
    """
    H, P, a, b = shape.height, shape.projection, shape.foot, shape.nose
    for name, value in (("thickness", shape.thickness), ("height", H), ("projection", P), ("foot", a), ("nose", b)):
        if not (np.isfinite(value) and value > 0.0):
            raise OutOfRange(f"the {name} of a bracket must be more than zero, not {value:g} in")
    if a > P:
        raise OutOfRange(
            f"the foot is {a:g} in deep, more than the projection of {P:g} in; it cannot be the deeper one"
        )
    if b > H:
        raise OutOfRange(f"the nose is {b:g} in deep, more than the height of {H:g} in; it cannot be the deeper one")
    if a == P and b == H:
        raise OutOfRange("foot and nose meet in one corner: no length is left for a soffit; make one of them smaller")
    return _made(H, P, a, b, _pieces(shape))


def _pieces(shape: Solid) -> tuple[Piece, ...]:
    foot, nose = np.array([shape.foot, shape.height]), np.array([shape.projection, shape.nose])
    w, h = nose[0] - foot[0], foot[1] - nose[1]
    quarter = 0.5 * np.pi
    if shape.soffit == "straight":
        return (Line(foot, nose),)
    if shape.soffit in ("hollow arc", "full arc"):
        return (_arc(foot, nose, shape.sagitta, 1.0 if shape.soffit == "hollow arc" else -1.0),)
    if shape.soffit == "points":
        return _from_points(shape, foot, nose)
    if w <= 0.0 or h <= 0.0:
        raise OutOfRange(
            f"a {shape.soffit} soffit needs a foot less deep than the projection, a nose less than the height"
        )
    out, down = np.array([w, 0.0]), np.array([0.0, h])
    concave = np.array([nose[0], foot[1]])
    convex = np.array([foot[0], nose[1]])
    if shape.soffit == "concave":
        return (Turn(concave, -out, -down, 0.0, quarter),)
    if shape.soffit == "convex":
        return (Turn(convex, down, out, 0.0, quarter),)
    middle = 0.5 * (foot + nose)  # ogee: hollow below, full above, level where they meet
    low, high = np.array([middle[0], foot[1]]), np.array([middle[0], nose[1]])
    return Turn(low, -out / 2, -down / 2, 0.0, quarter), Turn(high, down / 2, out / 2, 0.0, quarter)


def _arc(foot: Array, nose: Array, sagitta: float | None, inward: float) -> Turn:
    """Circle through both ends; `inward` 1 bends towards O, -1 away from it."""
    chord = nose - foot
    c = float(np.hypot(*chord))
    if sagitta is None or not (np.isfinite(sagitta) and sagitta > 0.0):
        raise OutOfRange(
            "an arc needs its sagitta: how far its middle lies from the straight line between foot and nose"
        )
    if sagitta > 0.5 * c:
        raise OutOfRange(
            f"a sagitta of {sagitta:g} in is more than a half circle over {c:.4g} in from foot to nose;"
            f" give at most {0.5 * c:.4g} in"
        )
    r = (0.25 * c * c + sagitta * sagitta) / (2.0 * sagitta)
    along = chord / c
    to_o = inward * np.array([along[1], -along[0]])  # for inward = 1 a unit vector from the chord to the side of O
    half = np.arcsin(min(0.5 * c / r, 1.0))
    return Turn(0.5 * (foot + nose) + (sagitta - r) * to_o, r * to_o, r * along, -half, half)


def _from_points(shape: Solid, foot: Array, nose: Array) -> tuple[Piece, ...]:
    if len(shape.points) > MOST_POINTS:
        raise OutOfRange(f"a soffit of {len(shape.points)} points; at most {MOST_POINTS} are read")
    if len(shape.points) < 2:
        raise OutOfRange("a soffit of points needs at least two: the one at the foot and the one at the nose")
    points = np.array([[point.x, point.y] for point in shape.points])
    if not np.all(np.isfinite(points)):
        raise OutOfRange("a point of the soffit is not a number")
    for name, given, right in (("first", points[0], foot), ("last", points[-1], nose)):
        if np.hypot(*(given - right)) > MEETS:
            raise OutOfRange(
                f"the outline is open: the {name} point of the soffit is ({given[0]:g}, {given[1]:g}) in,"
                f" but the {'foot' if name == 'first' else 'nose'} ends at ({right[0]:g}, {right[1]:g}) in"
            )
    points[0], points[-1] = foot, nose
    keep = np.concatenate([[True], np.any(np.abs(np.diff(points, axis=0)) > 1e-9, axis=1)])
    points = points[keep]
    return through(points, SMOOTH, EASE)


def _made(H: float, P: float, a: float, b: float, pieces: tuple[Piece, ...]) -> Outline:
    """Sample the pieces, find the corners, prove that the outline is one that can be cut."""
    curved = sum(not piece.flat for piece in pieces)
    per_curve = max(8, PER_CURVE // max(curved, 1), PER_CURVE if curved <= 2 else 0)
    counts = [max(per_curve if not piece.flat else 0, 2 + 38 // len(pieces)) for piece in pieces]
    parts = [piece.point(np.arange(n) / n) for piece, n in zip(pieces, counts, strict=True)]
    u = np.concatenate([i + np.arange(n) / n for i, n in enumerate(counts)] + [[float(len(pieces))]])
    soffit = np.concatenate([*parts, pieces[-1].point(np.array([1.0]))])
    kinks, inward = [], []
    for i, start in enumerate(np.cumsum(counts)[:-1]):
        before, after = pieces[i].slope(np.array([1.0]))[0], pieces[i + 1].slope(np.array([0.0]))[0]
        cross = before[0] * after[1] - before[1] * after[0]
        turn = np.degrees(np.arctan2(cross, before @ after))
        if abs(turn) > 1e-3:  # lines through points that turn by less than SMOOTH have been eased already
            kinks.append(int(start))
            if turn > 0.0:
                inward.append(int(start))
    outline = Outline(H, P, a, b, pieces, soffit, u, tuple(kinks), tuple(inward))
    _prove(outline)
    return outline


def _prove(outline: Outline) -> None:
    points, H, P = outline.soffit, outline.H, outline.P
    slack = 1e-9 * (H + P)
    for i, (name, low, high) in enumerate((("x", 0.0, P), ("y", 0.0, H))):
        worst = int(np.argmax(np.maximum(points[:, i] - high, low - points[:, i])))
        value = points[worst, i]
        if value > high + slack or value < low - slack:
            raise OutOfRange(
                f"the soffit leaves the box of height and projection at ({points[worst, 0]:.4g},"
                f" {points[worst, 1]:.4g}) in: {name} must stay between 0 and {high:g} in"
            )
    inner = points[1:-1]
    through_face = np.flatnonzero((inner[:, 0] <= slack) | (inner[:, 1] <= slack))
    if len(through_face):
        x, y = inner[through_face[0]]
        raise OutOfRange(f"the soffit cuts through to the wall face or the top edge at ({x:.4g}, {y:.4g}) in")
    found = crossing(outline.closed())
    if found is not None:
        raise OutOfRange(
            f"the outline crosses itself near ({found[0]:.4g}, {found[1]:.4g}) in; it must enclose one piece"
        )


def crossing(polygon: Array) -> tuple[float, float] | None:
    """Where two sides of a closed polygon that are no neighbors meet, or neighbors turn back; None when nowhere."""
    p, q = polygon, np.roll(polygon, -1, axis=0)
    n = len(p)
    side = q - p
    back = np.roll(side, -1, axis=0)
    cross = side[:, 0] * back[:, 1] - side[:, 1] * back[:, 0]
    size = np.hypot(side[:, 0], side[:, 1]) * np.hypot(back[:, 0], back[:, 1])
    turned = np.flatnonzero(((side * back).sum(axis=1) < 0.0) & (np.abs(cross) <= 1e-12 * size))
    if len(turned):
        return float(q[turned[0], 0]), float(q[turned[0], 1])

    def which_side(ends: Array) -> Array:  # (n, n): of line i, where does end j lie
        away = ends[None, :, :] - p[:, None, :]
        value = side[:, None, 0] * away[..., 1] - side[:, None, 1] * away[..., 0]
        return np.where(np.abs(value) <= 1e-12 * np.abs(side).max() ** 2, 0.0, np.sign(value))

    left, right = which_side(p), which_side(q)
    low, high = np.minimum(p, q), np.maximum(p, q)
    boxes = np.all((low[:, None] <= high[None]) & (low[None] <= high[:, None]), axis=-1)
    meet = (left * right <= 0.0) & ((left * right).T <= 0.0) & boxes
    i = np.arange(n)
    gap = np.abs(i[:, None] - i[None, :])
    meet &= (gap > 1) & (gap < n - 1)
    if not np.any(meet):
        return None
    j = int(np.argwhere(meet)[0][0])
    return float(0.5 * (p[j, 0] + q[j, 0])), float(0.5 * (p[j, 1] + q[j, 1]))
