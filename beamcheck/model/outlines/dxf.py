"""Lines of a DXF drawing, in inches, y up. The library that reads the format is loaded only here."""

from __future__ import annotations

import logging
import math
from collections import Counter
from collections.abc import Iterator, Sequence
from importlib import import_module
from itertools import pairwise
from typing import Any

import numpy as np

from .dxf_bounds import check_arc, check_count, check_curve
from .geometry import Array
from .profile import FLAT, JOINS, MOST_DRAWN, MOST_LINES, OutlineError

# $INSUNITS of the header (DXF reference, memory) -> unit and inches in it
UNITS = {1: ("in", 1.0), 2: ("ft", 12.0), 4: ("mm", 1.0 / 25.4), 5: ("cm", 1.0 / 2.54), 6: ("m", 1.0 / 0.0254)}
FACTORS = dict(UNITS.values())
_DRAWS = ("LINE", "ARC", "CIRCLE", "ELLIPSE", "SPLINE", "LWPOLYLINE", "POLYLINE")
_SEGMENTS = 8  # at least, between two knots of a spline and of an ellipse


def dxf_lines(path: str, units: str | None) -> tuple[list[Array], str, tuple[str, ...]]:
    """Lines (n, 2) in inches, y up; the unit of the drawing; what was left out of it.

    Raises OutlineError if it is no DXF drawing, does not say its unit, is not flat, or the reading library is missing.
    """
    try:
        library: Any = import_module("ezdxf")
    except ImportError:
        text = "a DXF drawing needs a library that is not installed here"
        raise OutlineError(f'{text}: pip install "whatcarries[drawings]", or save the outline as SVG') from None
    logging.getLogger("ezdxf").setLevel(logging.CRITICAL)  # what it mutters about a file is said in our words, or not
    try:
        drawing = library.readfile(path)
        unit, factor = _unit(drawing, units)
        hidden = {layer.dxf.name.casefold() for layer in drawing.layers if layer.is_off() or layer.is_frozen()}
        seen = [entity for entity in drawing.modelspace() if str(entity.dxf.layer).casefold() not in hidden]
        kinds = Counter(str(entity.dxftype()) for entity in seen)
        if kinds["INSERT"]:
            raise OutlineError("it holds a block (INSERT): take it apart (explode it) into lines and arcs")
        drawn = [entity for entity in seen if entity.dxftype() in _DRAWS]
        if len(drawn) > MOST_LINES:
            raise OutlineError(f"{len(drawn):,} lines are no outline of a bracket: at most {MOST_LINES:,} are read")
        lines = check_count(line for entity in drawn for line in _lines(entity, FLAT / factor, factor))
    except OutlineError:
        raise
    except Exception as error:  # a foreign reader of foreign bytes: whatever it trips over, the file is at fault
        first = _printable((str(error).splitlines() or [type(error).__name__])[0][:200])
        raise OutlineError(f"this is no DXF drawing that can be read: {first}") from None
    _flat(lines, factor)
    left_out = [f"{count} x {_printable(kind)}" for kind, count in sorted(kinds.items()) if kind not in _DRAWS]
    notes = (f"Left out of it: {', '.join(left_out)}.",) if left_out else ()
    return [line[:, :2] * factor for line in lines], unit, notes


def _printable(text: str) -> str:
    """Bytes that are no text, which the library hands on, cannot be written to a terminal."""
    return text.encode("utf-8", "backslashreplace").decode()


def _unit(drawing: Any, units: str | None) -> tuple[str, float]:
    code = int(drawing.header.get("$INSUNITS", 0))
    told = UNITS.get(code)
    if units is None and told is None:
        said = "does not say its unit" if code == 0 else f"is in a unit that is not read ($INSUNITS {code})"
        raise OutlineError(f"the drawing {said}: give --units in, mm or cm")
    if units is None or told is None:
        return told or (str(units), FACTORS[str(units)])
    if told[0] != units:
        text = f"the drawing says that its unit is {told[0]}, not {units}"
        raise OutlineError(f"{text}: leave --units out, or correct the drawing's own unit ($INSUNITS)")
    return told


def _lines(entity: Any, flat: float, factor: float) -> Iterator[Array]:
    """Points (n, 3) of one thing in the drawing, in its units of `factor` inches, within `flat` of its curves."""
    kind = entity.dxftype()
    check_curve(entity, factor)
    if kind == "LINE":
        yield _points([entity.dxf.start, entity.dxf.end])
    elif kind in ("ARC", "CIRCLE"):
        if entity.dxf.radius > 0.0:
            yield _points(entity.flattening(min(flat, 0.1 * entity.dxf.radius)))
    elif kind in ("ELLIPSE", "SPLINE"):
        yield _points(entity.flattening(flat, _SEGMENTS))
    elif kind == "LWPOLYLINE":
        yield _bulged(entity, flat, factor)
    elif entity.is_2d_polyline or entity.is_3d_polyline:
        for part in entity.virtual_entities():
            yield from _lines(part, flat, factor)
    else:
        raise OutlineError("a POLYLINE that is a mesh is no outline")


def _points(points: Any) -> Array:
    return np.array([(point.x, point.y, point.z) for point in points], dtype=float).reshape(-1, 3)


def _bulged(entity: Any, flat: float, factor: float) -> Array:
    """An LWPOLYLINE: straight pieces, and arcs given by their bulge, a quarter of the included angle's tangent."""
    corners = [(complex(x, y), bulge) for x, y, bulge in entity.get_points("xyb")]
    if entity.closed and corners:
        corners.append((corners[0][0], 0.0))
    found = [corners[0][0]] if corners else []
    for (start, bulge), (end, _) in pairwise(corners):
        found += [*_arc(start, end, bulge, flat, factor), end] if bulge and start != end else [end]
    height = float(entity.dxf.elevation)
    place = import_module("ezdxf.math").Vec3
    return _points(entity.ocs().points_to_wcs([place(z.real, z.imag, height) for z in found]))


def _arc(start: complex, end: complex, bulge: float, flat: float, factor: float) -> Sequence[complex]:
    """Points between the ends of an arc; with a bulge above 0 it runs against the clock."""
    half = 2.0 * math.atan(bulge)  # of the angle it covers
    middle = 0.5 * (start + end) + 0.5j * (end - start) / math.tan(half)
    r = abs(start - middle)
    step = 2.0 * math.acos(max(1.0 - flat / r, 0.0)) if r > 0.0 else math.pi
    count = max(math.ceil(2.0 * abs(half) / step), 4) if step > 0.0 else MOST_DRAWN + 1
    check_arc(2.0 * abs(half) * r * factor, r * factor, count)
    return [middle + (start - middle) * np.exp(2j * half * i / count) for i in range(1, count)]


def _flat(lines: Sequence[Array], factor: float) -> None:
    heights = np.concatenate([line[:, 2] for line in lines]) if lines else np.zeros(1)
    if not np.ptp(heights) * factor <= JOINS:
        raise OutlineError("the drawing is not flat, its lines lie at different z: draw the side view in x and y")
