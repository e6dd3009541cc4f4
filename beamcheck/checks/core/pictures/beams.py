"""What the drawings of a beam and of the load path need: plain numbers, without a word about how they are drawn.

Lengths in, forces lbf, moments lbf*in, stresses psi; the marks beside the types tell JSON.
"""

from __future__ import annotations

from typing import Annotated, Literal, NamedTuple

from ....records import dataclass
from ....units.marks import Degrees, In, Inches, Pounds

Role = Literal["carries", "decorative", "cover"]


class Label(NamedTuple):
    """A label and its text."""

    label: str
    text: str


Points = Annotated[tuple[tuple[float, float], ...], In("in")]  # x and y of a closed outline, or of a line


class Span(NamedTuple):
    """From where to where, and what it is."""

    start: Inches
    end: Inches
    text: str


class Dimension(NamedTuple):
    axis: Literal["x", "y"]
    start: Inches
    end: Inches
    text: str


@dataclass(frozen=True)
class Table:
    """A small table of texts: title, heads, rows."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


class SupportMark(NamedTuple):
    at: Inches
    name: str
    holds: str  # 'rests', 'hung', 'fixed'
    seat: Inches = 0.0  # length of the seat, 0 where nobody gave it


class LoadMark(NamedTuple):
    start: Inches
    end: Inches
    text: str
    kind: str
    shape: str  # 'line', 'point'


class CutMark(NamedTuple):
    start: Inches
    end: Inches
    from_bottom: Inches
    depth: Inches
    text: str


class SectionPart(NamedTuple):
    """One stick, ply or plate of a section: its lower left corner from that of the whole, and its size."""

    x: Inches
    y: Inches
    width: Inches
    height: Inches
    what: Literal["wood", "steel", "round"]


class CurveMark(NamedTuple):
    """An extreme of a curve: 'V_high', 'V_low', 'M_high', 'M_low'."""

    curve: str
    at: Inches
    text: str


@dataclass(frozen=True)
class Figure:
    """What a beam drawing needs, along the piece from its left end.

    The curves are envelopes over all combinations at stations `x`; `sag` is the governing long-term deflection, down
    positive.
    """

    length: Inches
    depth: Inches
    slope: Degrees
    supports: tuple[SupportMark, ...]
    loads: tuple[LoadMark, ...]
    cuts: tuple[CutMark, ...]
    x: Annotated[tuple[float, ...], In("in")]
    V_high: Annotated[tuple[float, ...], In("lbf")]
    V_low: Annotated[tuple[float, ...], In("lbf")]
    M_high: Annotated[tuple[float, ...], In("lbf*in")]
    M_low: Annotated[tuple[float, ...], In("lbf*in")]
    sag: Annotated[tuple[float, ...], In("in")]
    marks: tuple[CurveMark, ...] = ()
    section: tuple[SectionPart, ...] = ()


class PathTotal(NamedTuple):
    """With every load of the combination on at once, down positive."""

    combination: str
    applied: Pounds
    arriving: Pounds


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
    largest: Pounds
    least: Pounds
    wrong: str = ""  # why a load must not go this way; '' where it may


@dataclass(frozen=True)
class LoadPath:
    """The whole path, from the top down; and by combination what is applied and what arrives at its ends, lbf.

    `totals`: (combination, applied, arriving), both down positive, with every load of the combination on at once.
    `uncounted`: of which pieces the load is not counted in what, where that is all by which less arrives.
    """

    nodes: tuple[PathNode, ...]
    edges: tuple[PathEdge, ...]
    totals: tuple[PathTotal, ...] = ()
    uncounted: str = ""
