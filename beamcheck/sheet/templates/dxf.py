"""A template as a DXF drawing: R2010, its unit written in it, layers CUT, DRILL, GRAIN and NOTES.

Every outline is one polyline with arcs as bulges; part of an ellipse is short arcs, within 0.0005 in of it.
The library that writes the format is loaded only here. What is written is read back, compared and audited first.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterator
from importlib import import_module
from typing import Any

from ...errors import BeamcheckError, UnknownName
from ...lettering import legible
from ...own_digest import BLANK, with_digest
from .geometry import LAYERS, Contour, Hole, Round, Template

UNITS = {"in": (1, 1.0), "mm": (4, 25.4)}  # $INSUNITS (DXF reference, memory), units in an inch
NEAR = 1e-6  # in: what is read back must lie this near
COLOR = 7  # black on white, white on black: what a line is for is told by its layer and its kind of line
LINES = {"CUT": "CONTINUOUS", "DRILL": "CENTER", "GRAIN": "DASHED", "NOTES": "CONTINUOUS"}
TEXT = 0.14  # in: height of lettering
LINE = 0.24
DASH = "DASHED"


def template_dxf(template: Template, units: str = "in") -> str:
    """The drawing as text.

    `units`: 'in' or 'mm': of the drawing. Raises UnknownName if there is no such unit; BeamcheckError if the library is
    missing, or what it wrote does not read back as it was drawn.
    """
    if units not in UNITS:
        raise UnknownName("unit of a drawing", units, list(UNITS))
    try:
        library: Any = import_module("ezdxf")
    except ImportError:
        raise BeamcheckError(
            'a DXF drawing needs a library that is not installed here: pip install "whatcarries[drawings]"'
        ) from None
    text = _written(library, template, units)
    _prove(library, text, template, units)
    return text


def _written(library: Any, template: Template, units: str) -> str:
    code, factor = UNITS[units]
    kept = library.options.write_fixed_meta_data_for_testing
    library.options.write_fixed_meta_data_for_testing = True  # the same drawing is the same file, byte for byte
    try:
        drawing = library.new("R2010", setup=["linetypes"])
        drawing.header["$INSUNITS"] = code
        drawing.header["$MEASUREMENT"] = 0 if units == "in" else 1
        drawing.header["$LTSCALE"] = 0.5 * factor
        for layer in LAYERS:
            drawing.layers.add(layer, color=COLOR, linetype=LINES[layer])
        space = drawing.modelspace()
        for contour in template.contours:
            _contour(space, contour, factor)
        for hole in template.holes:
            _hole(space, hole, factor)
        _marks(space, template, factor)
        _texts(space, template, factor, units)
        out = io.StringIO()
        drawing.write(out)
    finally:
        library.options.write_fixed_meta_data_for_testing = kept
    version = "".join(letter for letter in template.version if letter.isascii() and letter.isprintable())
    return with_digest(f"999\ngenerator: whatcarries {version}\n999\ndigest: {BLANK}\n{out.getvalue()}")


def _contour(space: Any, contour: Contour, factor: float) -> None:
    """One polyline."""
    style = {"layer": contour.layer, **({"linetype": DASH} if contour.dashed else {})}
    run = _run(contour.start, contour.edges, factor)
    if contour.closed and math.dist(run[0][:2], run[-1][:2]) < 1e-9 * factor:
        run.pop()
    space.add_lwpolyline(run, format="xyb", close=contour.closed, dxfattribs=style)


def _run(start: tuple[float, float], edges: Any, factor: float) -> list[tuple[float, float, float]]:
    """Points with the bulge of the edge that leaves each."""
    found: list[tuple[float, float, float]] = []
    here = start
    for edge in edges:
        if isinstance(edge, Round) and not edge.circular:
            for end, bulge in edge.arcs():
                found.append((here[0] * factor, here[1] * factor, bulge))
                here = end
        elif isinstance(edge, Round) and abs(edge.turn) > math.pi:  # one bulge stands for less than a full turn
            middle = edge.at(0.5 * (edge.first + edge.last))
            bulge = math.tan(edge.turn / 8.0)
            found += [(here[0] * factor, here[1] * factor, bulge), (middle[0] * factor, middle[1] * factor, bulge)]
        else:
            bulge = math.tan(edge.turn / 4.0) if isinstance(edge, Round) else 0.0
            found.append((here[0] * factor, here[1] * factor, bulge))
        here = edge.end
    return [*found, (here[0] * factor, here[1] * factor, 0.0)]


def _hole(space: Any, hole: Hole, factor: float) -> None:
    center = (hole.x * factor, hole.y * factor)
    if hole.drill is not None:
        space.add_circle(center, 0.5 * hole.drill * factor, dxfattribs={"layer": "DRILL"})
    else:
        space.add_point(center, dxfattribs={"layer": "DRILL"})
        if hole.size:
            space.add_circle(center, 0.5 * hole.size * factor, dxfattribs={"layer": "NOTES", "linetype": DASH})
    if hole.bore:
        space.add_circle(center, 0.5 * hole.bore * factor, dxfattribs={"layer": "NOTES", "linetype": DASH})
    reach = 0.5 * max(hole.drill or 0.0, hole.size, hole.bore) + 0.12
    for dx, dy in ((reach, 0.0), (0.0, reach)):
        ends = [((hole.x + s * dx) * factor, (hole.y + s * dy) * factor) for s in (-1, 1)]
        space.add_line(*ends, dxfattribs={"layer": "NOTES"})
    _text(space, hole.x + reach, hole.y + 0.05, hole.label, factor, "NOTES")


def _marks(space: Any, template: Template, factor: float) -> None:
    """Grain, dimensions and lettering in the drawing."""
    for arrow in template.grain:
        (x0, y0), (x1, y1) = arrow.start, arrow.end
        direction = math.atan2(y1 - y0, x1 - x0)
        for tip, back in ((arrow.end, math.pi), (arrow.start, 0.0)):
            wings = [
                (tip[0] + 0.15 * math.cos(direction + back + side), tip[1] + 0.15 * math.sin(direction + back + side))
                for side in (0.4, -0.4)
            ]
            points = [(x * factor, y * factor) for x, y in (wings[0], tip, wings[1])]
            space.add_lwpolyline(points, dxfattribs={"layer": "GRAIN"})
        space.add_line((x0 * factor, y0 * factor), (x1 * factor, y1 * factor), dxfattribs={"layer": "GRAIN"})
        _text(space, 0.5 * (x0 + x1) + 0.08, 0.5 * (y0 + y1) + 0.08, "GRAIN", factor, "GRAIN")
    for one in template.measures:
        ends = [(one.start, one.at), (one.end, one.at)]
        ends = ends if one.axis == "x" else [(y, x) for x, y in ends]
        space.add_line(*[(x * factor, y * factor) for x, y in ends], dxfattribs={"layer": "NOTES"})
        for x, y in ends:
            points = [((x + s * 0.06) * factor, (y + s * 0.06) * factor) for s in (-1, 1)]
            space.add_line(*points, dxfattribs={"layer": "NOTES"})
        middle = [0.5 * (a + b) for a, b in zip(*ends, strict=True)]
        _text(space, middle[0] + 0.05, middle[1] + 0.05, one.text, factor, "NOTES")
    for label in template.labels:
        _text(space, label.x, label.y, label.text, factor, "NOTES")


def _texts(space: Any, template: Template, factor: float, units: str) -> None:
    """Verdict above; title, notes, caution and the line to sign below."""
    x0, y0, _, y1 = template.box
    _text(space, x0, y1 + 0.5, template.banner, factor, "NOTES", 0.3)
    if template.invented:
        _text(space, x0, y1 + 1.0, "Invented data: an example, not a real building", factor, "NOTES")
    unit = "inch" if units == "in" else "millimeter"
    curve = "Each outline is one closed polyline; circles are its bulges, other curves short arcs within 0.0005 in."
    lines = [
        template.title, f"Job: {template.job} (job file {template.fingerprint[:12]})", f"Unit of this drawing: {unit}.",
        curve, *template.notes, f"Caution. {template.caution}", template.sign_off,
    ]  # fmt: skip
    y = y0 - 1.5
    for line in lines:
        for part in wrapped(line):
            _text(space, x0, y, part, factor, "NOTES")
            y -= LINE


def wrapped(text: str, letters: int = 90) -> list[str]:
    """A text in lines."""
    from textwrap import wrap

    return wrap(" ".join(legible(text).split()), letters)


def _text(space: Any, x: float, y: float, text: str, factor: float, layer: str, height: float = TEXT) -> None:
    """One line; what begins a code in this format is parted, so that it stays a text."""
    line = " ".join(legible(text).split()).replace("%%", "% %").replace("^", "^ ")
    if line:
        space.add_text(
            line[:240], height=height * factor, dxfattribs={"layer": layer, "insert": (x * factor, y * factor)}
        )


def _prove(library: Any, text: str, template: Template, units: str) -> None:
    """Read the drawing back: unit, outlines and holes are those of the template, and the audit finds no fault.

    Raises BeamcheckError if not.
    """
    code, factor = UNITS[units]
    wrong = "the DXF drawing does not read back as it was drawn"
    drawing = library.read(io.StringIO(text))
    audit = drawing.audit()
    if audit.errors or audit.fixes:
        raise BeamcheckError(f"{wrong}: its audit finds {len(audit.errors) + len(audit.fixes)} faults")
    if drawing.header.get("$INSUNITS") != code:
        raise BeamcheckError(f"{wrong}: its unit is another")
    space, near = drawing.modelspace(), NEAR * factor
    places = [place for entity in space.query('*[layer=="CUT"]') for place in _places(entity)]
    for contour in template.contours:
        for edge in contour.edges if contour.layer == "CUT" else ():
            wanted = [edge.end, edge.at(0.5 * (edge.first + edge.last))] if isinstance(edge, Round) else [edge.end]
            for x, y in wanted:
                if not any(math.dist((x * factor, y * factor), place) <= near for place in places):
                    raise BeamcheckError(f"{wrong}: no edge at {x:.4f}, {y:.4f} in")
    holes = sorted((e.dxf.center.x, e.dxf.center.y, e.dxf.radius) for e in space.query('CIRCLE[layer=="DRILL"]'))
    asked = sorted((h.x * factor, h.y * factor, 0.5 * h.drill * factor) for h in template.holes if h.drill is not None)
    if len(holes) != len(asked) or any(math.dist(a, b) > near for a, b in zip(holes, asked, strict=True)):
        raise BeamcheckError(f"{wrong}: its holes are others")


def _places(entity: Any) -> Iterator[tuple[float, float]]:
    """Corners and middles of arcs of what was read."""
    points = list(entity.get_points("xyb"))
    for (x0, y0, bulge), (x1, y1, _) in zip(points, [*points[1:], points[0]], strict=True):
        yield x0, y0
        if bulge:  # the sagitta is bulge times half the chord, to the right of it
            yield 0.5 * (x0 + x1) + 0.5 * bulge * (y1 - y0), 0.5 * (y0 + y1) - 0.5 * bulge * (x1 - x0)
