"""What the drawings of brackets and of the load path hold, as records of a result in JSON."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Annotated, Literal

from pydantic import Field

from ...checks.core import pictures as found
from .json_values import Column, NoNumber, Quantity, Record, column, maybe, quantity


class Points(Record):
    """Corners of a line or an area; x out from the wall face, y down from the top."""

    x: Column
    y: Column


class Part(Record):
    name: str
    outline: Points
    grain: Quantity | NoNumber | None = Field(description="above level, towards the nose; null: not known")


class Void(Record):
    name: str
    outline: Points


class Fastener(Record):
    below_top: Quantity | NoNumber
    into_wall: Quantity | NoNumber
    name: str


class TopLoad(Record):
    start: Quantity | NoNumber
    end: Quantity | NoNumber
    text: str


class BeamAbove(Record):
    name: str
    gap: Quantity | NoNumber | None


class Measure(Record):
    axis: Literal["x", "y"]
    start: Quantity | NoNumber
    end: Quantity | NoNumber
    text: str


class Cross(Record):
    """A section that the checks name."""

    name: str
    line: Points


class Elevation(Record):
    """A bracket to scale, from its side."""

    picture: Literal["elevation"]
    name: str
    height: Quantity | NoNumber
    projection: Quantity | NoNumber
    parts: tuple[Part, ...]
    voids: tuple[Void, ...]
    anchors: tuple[Fastener, ...]
    loads: tuple[TopLoad, ...]
    beam: BeamAbove | None
    wall: str
    dimensions: tuple[Measure, ...]
    sections: tuple[Cross, ...]


class StressMark(Record):
    at: Points
    text: str


class StressPicture(Record):
    """One stress over a bracket, cell by cell."""

    picture: Literal["stress"]
    name: str
    what: str
    outline: Points
    cells: tuple[Points, ...]
    values: Column
    limit: Quantity | NoNumber
    left_out: tuple[Points, ...]
    marks: tuple[StressMark, ...]


class Closing(Record):
    what: str
    closes: Quantity | NoNumber


class GapPicture(Record):
    """The gap under a beam, and what closes it."""

    picture: Literal["gap"]
    name: str
    beam: str
    gap: Quantity | NoNumber | None
    steps: tuple[Closing, ...]
    needed: Quantity | NoNumber
    force: Quantity | NoNumber = Field(description="that it attracts; 0 while it stays free")


Picture = Annotated[Elevation | StressPicture | GapPicture, Field(discriminator="picture")]


class PathNode(Record):
    name: str = Field(description="'' for the opposite wall of a pair of rafters, which nobody names")
    kind: str
    role: Literal["carries", "decorative", "cover"]
    verdict: str
    ends: str = Field(description="where the path ends; '' where it goes on")


class PathEdge(Record):
    above: str
    below: str
    largest: Quantity | NoNumber = Field(description="down, over all combinations")
    least: Quantity | NoNumber = Field(description="negative where it lifts")
    wrong: str = Field(description="why a load must not go this way; '' where it may")


class PathTotal(Record):
    combination: str
    applied: Quantity | NoNumber
    arriving: Quantity | NoNumber


class LoadPath(Record):
    """What rests on what, from the top down; and what is applied and arrives with all loads on at once."""

    nodes: tuple[PathNode, ...]
    edges: tuple[PathEdge, ...]
    totals: tuple[PathTotal, ...]


def load_path(path: found.LoadPath) -> LoadPath:
    """The record of a load path; forces in lbf."""
    return LoadPath(
        nodes=tuple(PathNode(name=one.name, kind=one.kind, role=one.role, verdict=one.verdict, ends=one.ends)
                    for one in path.nodes),
        edges=tuple(PathEdge(above=one.above, below=one.below, largest=quantity(one.largest, "lbf"),
                             least=quantity(one.least, "lbf"), wrong=one.wrong) for one in path.edges),
        totals=tuple(PathTotal(combination=name, applied=quantity(applied, "lbf"), arriving=quantity(arriving, "lbf"))
                     for name, applied, arriving in path.totals),
    )  # fmt: skip


def picture(drawn: found.Picture) -> Elevation | StressPicture | GapPicture:
    """The record of a drawing of a bracket; lengths in inches, stresses in psi."""
    if isinstance(drawn, found.Elevation):
        return _elevation(drawn)
    if isinstance(drawn, found.StressPicture):
        return StressPicture(
            picture="stress", name=drawn.name, what=drawn.what, outline=_points(drawn.outline),
            cells=tuple(map(_points, drawn.cells)), values=column(drawn.values, "psi"),
            limit=quantity(drawn.limit, "psi"), left_out=tuple(map(_points, drawn.left_out)),
            marks=tuple(StressMark(at=_points([(x, y)]), text=text) for x, y, text in drawn.marks),
        )  # fmt: skip
    return GapPicture(
        picture="gap", name=drawn.name, beam=drawn.beam, gap=maybe(drawn.gap, "in"),
        steps=tuple(Closing(what=what, closes=_inches(value)) for what, value in drawn.steps),
        needed=_inches(drawn.needed), force=quantity(drawn.force, "lbf"),
    )  # fmt: skip


def _elevation(drawn: found.Elevation) -> Elevation:
    beam = drawn.beam
    return Elevation(
        picture="elevation", name=drawn.name, height=_inches(drawn.height), projection=_inches(drawn.projection),
        parts=tuple(Part(name=name, outline=_points(points), grain=maybe(grain, "deg"))
                    for (name, points), grain in zip(drawn.parts, drawn.grain, strict=True)),
        voids=tuple(Void(name=name, outline=_points(points)) for name, points in drawn.voids),
        anchors=tuple(Fastener(below_top=_inches(y), into_wall=_inches(deep), name=name)
                      for y, deep, name in drawn.anchors),
        loads=tuple(TopLoad(start=_inches(x0), end=_inches(x1), text=text) for x0, x1, text in drawn.loads),
        beam=None if beam is None else BeamAbove(name=beam[1], gap=maybe(beam[0], "in")), wall=drawn.wall,
        dimensions=tuple(Measure(axis=axis, start=_inches(start), end=_inches(end), text=text)
                         for axis, start, end, text in drawn.dimensions),
        sections=tuple(Cross(name=name, line=_points([(x0, y0), (x1, y1)]))
                       for x0, y0, x1, y1, name in drawn.sections),
    )  # fmt: skip


def _inches(value: float) -> Quantity | NoNumber:
    return quantity(value, "in")


def _points(points: Iterable[tuple[float, float]]) -> Points:
    kept = tuple(points)
    return Points(x=column([x for x, _ in kept], "in"), y=column([y for _, y in kept], "in"))
