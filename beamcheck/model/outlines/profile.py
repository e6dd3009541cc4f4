"""From the lines of a drawing to the profile of a bracket: one closed outline, its wall face, top edge and soffit.

Lines come as arrays of points (n, 2) in inches as they are drawn: the wall on the left, the top edge above.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ...errors import BeamcheckError
from ...records import dataclass
from ..fields.places import plain
from .geometry import Array, first_crossing, simplified

FLAT = 0.005  # in, between a curve and the straight pieces that stand for it
TOLERANCE = 0.002  # in, that the points of the soffit may lie off the drawing's
JOINS = 0.001  # in, between ends that are meant to meet
ON_EDGE = 0.001  # in, off a straight edge
MOST_POINTS = 500  # of a soffit, as in brackets.py
MOST_LINES, MOST_DRAWN = 2_000, 60_000  # lines of a drawing, and points of all of them
MOST_KEPT = 2_000  # points of an outline that is thinned out
LARGEST, SMALLEST = 120.0, 0.5  # in, of a bracket's box
_MOST_COMPARED = 500  # open lines, each end with each
_LEAST = 1.0 / 16.0  # in, of foot and nose
_HOW = "draw it with the wall on its left and the top edge above, level and square to the wall"


class OutlineError(BeamcheckError, ValueError):
    """A drawing from which no outline of a bracket can be read; the text says why and what would be right."""


@dataclass(frozen=True)
class Profile:
    """The side view of a solid bracket, inches: x out from the wall face, y down from the top edge.

    `points` of the soffit run from (foot, height) to (projection, nose). `unit` is that of the drawing, `notes` what
    was left out of it.
    """

    height: float
    projection: float
    foot: float
    nose: float
    points: tuple[tuple[float, float], ...]
    source: str = ""
    unit: str = ""
    notes: tuple[str, ...] = ()

    def toml(self) -> str:
        """The `[bracket.shape]` table of a job file, with comments. Thickness and grain, which no side view tells, are
        left for the user: without them the job file is refused or referred."""
        said = [
            f"Outline read from {plain(self.source)}, in units of 1 {self.unit}.", *self.notes,
            "Hold these sizes against the bracket itself. Put this table below its [[bracket]] entry.",
        ]  # fmt: skip
        names = ("height", "projection", "foot", "nose")
        sizes = "".join(f'{name} = "{_size(getattr(self, name))}"\n' for name in names)
        points = "".join(f'  {{ x = "{_size(x)}", y = "{_size(y)}" }},\n' for x, y in self.points)
        return (
            "".join(f"# {line}\n" for line in said) + '[bracket.shape]\nfamily = "solid"\n'
            '# thickness = "1 1/2 in"  # measure it\n# grain = "upright"  # or "level", or an angle: look at it\n'
            f'{sizes}soffit = "points"\npoints = [\n{points}]\n'
        )


def _size(value: float) -> str:
    """A length as the job file writes it, to a millionth of an inch."""
    return f"{value:.7f}".rstrip("0").rstrip(".") + " in"


def profile_of(lines: Sequence[Array], *, y_up: bool) -> Profile:
    """The profile of a bracket whose whole outline these lines are; `y_up` when y is counted upwards.

    Raises OutlineError: no outline, several, an open one, one that crosses itself, has no wall face or top edge, or
    cannot be a bracket.
    """
    ring = _ring(lines)
    low, high = ring.min(axis=0), ring.max(axis=0)
    width, height = (float(side) for side in high - low)
    if not max(width, height) <= LARGEST:
        raise OutlineError(f"{_box(width, height)}: no bracket is larger than {LARGEST:g} in; are the units right?")
    if min(width, height) < SMALLEST:
        raise OutlineError(f"{_box(width, height)}: no bracket is smaller than {SMALLEST:g} in; are the units right?")
    crossing = first_crossing(_thinned(ring))
    if crossing is not None:
        at = _drawn(crossing[2:])
        raise OutlineError(f"the outline crosses or touches itself at {at}: draw one line around the bracket")
    return _read((ring - (low[0], high[1])) * (1.0, -1.0) if y_up else ring - low)


def _thinned(ring: Array) -> Array:
    """The ring with few points: halves between its two furthest corners, each simplified."""
    far = int(np.argmax(np.hypot(*(ring - ring[0]).T)))
    one = simplified(ring[: far + 1], TOLERANCE, MOST_KEPT)
    two = simplified(np.vstack((ring[far:], ring[:1])), TOLERANCE, MOST_KEPT)
    thin = np.vstack((one[:-1], two[:-1]))
    if len(thin) > MOST_KEPT:
        text = f"the outline takes more than {MOST_KEPT:,} points to be followed within {TOLERANCE:g} in"
        raise OutlineError(f"{text}: draw it with smoother lines")
    return thin


def _box(width: float, height: float) -> str:
    return f"the outline is {width:.4g} x {height:.4g} in"


def _drawn(point: Sequence[float] | Array) -> str:
    return f"({point[0]:.5g}, {point[1]:.5g}) in of the drawing"


def _ring(lines: Sequence[Array]) -> Array:
    """The one closed ring that the lines make, each point once."""
    count = sum(map(len, lines))
    if len(lines) > MOST_LINES or count > MOST_DRAWN:
        text = f"{len(lines):,} lines with {count:,} points are no outline of a bracket"
        raise OutlineError(f"{text}: at most {MOST_LINES:,} lines and {MOST_DRAWN:,} points are read")
    if not all(np.isfinite(line).all() and (np.abs(line) < 1e9).all() for line in lines):
        raise OutlineError("a coordinate of the drawing is not a number, or far too large")
    kept = [line for line in map(_each_once, lines) if len(line) > 1 and np.ptp(line, axis=0).max() > 0.5 * JOINS]
    if not kept:
        raise OutlineError("there is no outline in the drawing: draw the side of the bracket as one closed line")
    chains = _chains(kept)
    closed = [chain for chain in chains if _gap(chain) <= JOINS and len(chain) > 3]
    opened = [chain for chain in chains if not (_gap(chain) <= JOINS and len(chain) > 3)]
    if len(closed) == 1 and not opened:
        return closed[0][:-1]
    raise OutlineError(_why_not_one(closed, opened))


def _each_once(line: Array) -> Array:
    return line[np.concatenate(([True], np.hypot(*np.diff(line, axis=0).T) > 1e-9))]


def _gap(chain: Array) -> float:
    return float(np.hypot(*(chain[0] - chain[-1])))


def _chains(lines: Sequence[Array]) -> list[Array]:
    """Lines that meet at their ends, put together."""
    ends = np.array([(line[0], line[-1]) for line in lines]).reshape(-1, 2, 2)
    free = np.ones(len(lines), dtype=bool)
    chains = []
    for first in range(len(lines)):
        if not free[first]:
            continue
        free[first] = False
        chain = [lines[first]]
        for _ in range(2):  # onwards from its end, then, turned round, from its start
            while np.hypot(*(chain[0][0] - chain[-1][-1])) > JOINS or (len(chain) == 1 and len(chain[0]) < 4):
                away = np.where(free[:, None], np.hypot(*np.moveaxis(ends - chain[-1][-1], 2, 0)), np.inf)
                near = np.argwhere(away <= JOINS)
                if not len(near):
                    break
                if len(near) > 1:
                    at = _drawn(chain[-1][-1])
                    text = f"more than two lines meet at {at}"
                    raise OutlineError(f"{text}, or lie on each other there: leave only the outline in the drawing")
                which, end = near[0]
                free[which] = False
                chain.append(lines[which] if end == 0 else lines[which][::-1])
            chain = [line[::-1] for line in reversed(chain)]
        chains.append(_each_once(np.vstack([chain[0], *(line[1:] for line in chain[1:])])))
    return chains


def _why_not_one(closed: Sequence[Array], opened: Sequence[Array]) -> str:
    if len(opened) == 1 and not closed:
        chain = opened[0]
        where = f"between {_drawn(chain[0])} and {_drawn(chain[-1])}"
        return f"the outline is open: {where} is a gap of {_gap(chain):.4g} in"
    if not opened:
        return f"there are {len(closed)} closed outlines: leave only that of one bracket in the drawing, without holes"
    text = f"the lines make {len(closed)} closed and {len(opened)} open outlines instead of one that is closed"
    if len(opened) > _MOST_COMPARED:
        return text
    ends = np.array([end for chain in opened for end in (chain[0], chain[-1])])
    away = np.hypot(*(ends[:, None, :] - ends[None, :, :]).T) + np.where(np.eye(len(ends)), np.inf, 0.0)
    one, two = np.unravel_index(int(np.argmin(away)), away.shape)
    where = f"at {_drawn(ends[one])} and {_drawn(ends[two])}"
    return f"{text}; the nearest open ends, {where}, are {away[one, two]:.4g} in apart"


def _read(points: Array) -> Profile:
    """Walk from the corner of wall and top edge down the wall and along the foot, then out to the nose and down.

    `points` of the ring: x from its leftmost, y down from its highest point.
    """
    corner = np.flatnonzero((points[:, 0] <= ON_EDGE) & (points[:, 1] <= ON_EDGE))
    if not len(corner):
        on_wall = int(np.count_nonzero(points[:, 0] <= ON_EDGE)) > 1
        what = "top edge that meets the wall face" if on_wall else "upright wall face at its left"
        raise OutlineError(f"the outline has no {what}, in a square corner: {_HOW}")
    points = np.roll(points, -int(corner[0]), axis=0)
    area = float(np.sum(points[:, 0] * np.roll(points[:, 1], -1) - points[:, 1] * np.roll(points[:, 0], -1)))
    if area > 0.0:  # turn it so that it runs down the wall first
        points = np.roll(points[::-1], 1, axis=0)
    wall = _while(points, 0, 0)
    if wall == 0:
        raise OutlineError(f"the outline has no upright wall face at its left: {_HOW}")
    foot = _while(points, wall, 1)
    back = np.vstack((points[:1], points[:0:-1]))  # the same, the other way round
    top = _while(back, 0, 1)
    if top == 0:
        raise OutlineError(f"the outline has no level top edge: {_HOW}")
    nose = _while(back, top, 0)
    H, a, P, b = points[wall, 1], points[foot, 0], back[top, 0], back[nose, 1]
    _whole(points, float(H), float(a), float(P), float(b))
    soffit = np.array(points[foot : len(points) - nose + 1])
    if len(soffit) < 2:
        raise OutlineError("this is a plain block without a soffit: write it as a corbel, or as a straight bracket")
    soffit[0], soffit[-1] = (a, H), (P, b)
    soffit = simplified(soffit, TOLERANCE, MOST_KEPT)
    if len(soffit) > MOST_POINTS:
        text = f"the soffit needs {len(soffit)} points or more to be followed within {TOLERANCE:g} in"
        raise OutlineError(f"{text}, and {MOST_POINTS} are read: draw it with smoother lines")
    return Profile(float(H), float(P), float(a), float(b), tuple((float(x), float(y)) for x, y in soffit))


def _while(points: Array, start: int, axis: int) -> int:
    """The last point that is reached from `start` along a straight edge on which the coordinate `axis` stays."""
    last = start
    for i in range(start + 1, len(points)):
        if abs(points[i, axis] - points[start, axis]) > ON_EDGE:
            break
        last = i
    return last


def _whole(points: Array, H: float, a: float, P: float, b: float) -> None:
    """The wall face is the lowest, the top edge the furthest out, and both leave something at their ends."""
    for size, end, edge in ((a, "foot", "a level foot"), (b, "nose", "an upright nose")):
        if size < _LEAST:
            text = f"at its {end} the bracket comes to an edge {max(size, 0.0):.4g} in deep"
            raise OutlineError(f"{text}: draw {edge} of {_LEAST:g} in or more")
    over, below = float(points[:, 0].max()) - P, float(points[:, 1].max()) - H
    if over > ON_EDGE:
        raise OutlineError(f"the outline reaches {over:.4g} in further out than its top edge: {_HOW}")
    if below > ON_EDGE:
        raise OutlineError(f"the outline reaches {below:.4g} in further down than its wall face: {_HOW}")
