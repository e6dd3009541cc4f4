"""What the drawings of brackets and of the load path need: plain numbers, without a word about how they are drawn.

Lengths in, forces lbf, stresses psi. A bracket is seen from its side: x out from the wall face, y down from its top.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Points = tuple[tuple[float, float], ...]
Role = Literal["carries", "decorative", "cover"]


@dataclass(frozen=True)
class Elevation:
    """A bracket to scale.

    `parts`: closed outlines with a name ('', 'wall leg', 'top leg', 'brace', 'bar', 'gusset', 'skin', 'block', 'post');
    `grain`: the angle of the grain of each part, deg above level towards the nose, None where it is not known.
    `voids`: pockets and bores cut out, with a name. `anchors`: (y down from the top, how far into the wall, name).
    `loads`: (x from, x to, text), equal places for a point load. `beam`: (gap above the nose, name) of a beam above.
    `wall`: what is behind it. `dimensions`: (axis, from, to, what it is). `sections`: places named in the checks,
    (x0, y0, x1, y1, name).
    """

    name: str
    parts: tuple[tuple[str, Points], ...]
    grain: tuple[float | None, ...]
    height: float
    projection: float
    voids: tuple[tuple[str, Points], ...] = ()
    anchors: tuple[tuple[float, float, str], ...] = ()
    loads: tuple[tuple[float, float, str], ...] = ()
    beam: tuple[float | None, str] | None = None
    wall: str = ""
    dimensions: tuple[tuple[Literal["x", "y"], float, float, str], ...] = ()
    sections: tuple[tuple[float, float, float, float, str], ...] = ()


@dataclass(frozen=True)
class StressPicture:
    """A stress over a bracket: small cells with one value each, and marks at the extremes.

    `cells`: polygons; `values`: psi, one each. `left_out`: areas where no stress is read (inward corners, anchors,
    loads). `marks`: (x, y, text).
    """

    name: str
    what: str  # 'stress across the grain'
    outline: Points
    cells: tuple[Points, ...]
    values: tuple[float, ...]
    limit: float  # psi: the value at which the scale has its mark
    left_out: tuple[Points, ...] = ()
    marks: tuple[tuple[float, float, str], ...] = ()


@dataclass(frozen=True)
class GapPicture:
    """Beam above a bracket: the gap as left, what closes it bit by bit, and what is left or missing.

    `steps`: (what, how much it closes, lengths in).
    """

    name: str
    beam: str
    gap: float | None
    steps: tuple[tuple[str, float], ...]
    needed: float
    force: float  # that it attracts, lbf; 0 while it stays free


@dataclass(frozen=True)
class PathNode:
    """A piece. `ends`: 'ground', 'by others, confirmed', 'by others, not confirmed', '' if the path goes on."""

    name: str
    kind: str
    role: Role
    verdict: str  # of the piece; '' for an existing entry
    ends: str = ""


@dataclass(frozen=True)
class PathEdge:
    """What one piece puts on another: largest force down over all combinations, and least (negative lifts), lbf."""

    above: str
    below: str
    largest: float
    least: float
    wrong: str = ""  # why a load must not go this way; '' where it may


@dataclass(frozen=True)
class LoadPath:
    """The whole path, from the top down; and by combination what is applied and what arrives at its ends, lbf.

    `totals`: (combination, applied, arriving), both down positive, with every load of the combination on at once.
    """

    nodes: tuple[PathNode, ...]
    edges: tuple[PathEdge, ...]
    totals: tuple[tuple[str, float, float], ...] = ()


Picture = Elevation | StressPicture | GapPicture
