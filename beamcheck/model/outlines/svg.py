"""Lines of an SVG drawing, in inches, y down. Read with a plain XML parser: no entities, no document types, no styles.

Source of the grammar: SVG 1.1, second edition, chapters 7 (coordinates), 8 (paths), 9 (shapes) and appendix F.6
(arcs); from memory.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import partial
from xml.parsers import expat

import numpy as np

from .geometry import Array
from .profile import MOST_DRAWN, MOST_LINES, OutlineError
from .svg_path import Walk, numbers, sampled, walks_of

INCH = {"in": 1.0, "mm": 1.0 / 25.4, "cm": 1.0 / 2.54, "pt": 1.0 / 72.0, "pc": 1.0 / 6.0}  # what has a size of its own
MOST_DEEP = 200
MOST_OF_A_TRANSFORM, MOST_OF_A_LENGTH = 2_000, 60  # letters
_NOT_DRAWN = {
    "defs", "clipPath", "symbol", "marker", "mask", "pattern", "metadata", "title", "desc", "style", "script", "text",
    "filter", "linearGradient", "radialGradient", "foreignObject", "image", "animate", "set",
}  # fmt: skip
_REFUSED = {
    "use": "a copy by <use> is not read: make it a path of its own",
    "svg": "a drawing within the drawing (<svg> within <svg>) is not read: leave only the outline in it",
}
_LENGTH = re.compile(r"\s*+([+-]?(?:\d++\.?\d*+|\.\d++)(?:[eE][+-]?\d++)?)\s*+([a-zA-Z%]*+)\s*+")
_STYLED = re.compile(r"(?<![-\w])transform(?:-origin|-box)?\s*:")
_MOVES = re.compile(r"[\s,]*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)")


def svg_lines(raw: bytes, units: str | None) -> tuple[list[Array], str, tuple[str, ...]]:
    """Lines (n, 2) in inches, y down; the unit of the drawing; what was left out of it.

    Raises OutlineError if it is no SVG drawing, does not say its unit, or holds what is not read here.
    """
    reader = _Reader(units)
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.StartDoctypeDeclHandler = reader.doctype
    parser.EntityDeclHandler = reader.entity
    parser.StartElementHandler = reader.start
    parser.EndElementHandler = reader.end
    parser.CharacterDataHandler = reader.text
    try:
        parser.Parse(raw, True)
    except OutlineError:
        raise
    except (expat.ExpatError, ValueError, LookupError) as error:
        raise OutlineError(f"this is no SVG drawing: {error}") from None
    left_out = [f"{count} x <{tag}>" for tag, count in reader.left_out.items()]
    return reader.lines, reader.unit, (f"Left out of it: {', '.join(left_out)}.",) if left_out else ()


class _Reader:
    """Handlers of the parser: a stack of what each open element does to its coordinates."""

    def __init__(self, units: str | None) -> None:
        self.units, self.unit = units, ""
        self.lines: list[Array] = []
        self.left_out: dict[str, int] = {}
        self.stack: list[Array] = []  # of each open element: the matrix (2, 3) to inches
        self.points = 0  # of all lines
        self.hidden = 0  # open elements within one that is not drawn
        self.in_style = False

    def doctype(self, _name: str, _system: str | None, _public: str | None, own: bool) -> None:
        if own:
            raise OutlineError("declarations within a document type are not read: delete <!DOCTYPE ... [ ... ]>")

    def entity(self, *_: object) -> None:
        raise OutlineError("entity declarations are not read: delete <!ENTITY ...>")

    def text(self, text: str) -> None:
        if self.in_style:
            _unstyled(text)

    def start(self, tag: str, given: dict[str, str]) -> None:
        space, _, name = tag.rpartition(" ")
        if not self.stack and not self.hidden:
            if name != "svg":
                raise OutlineError(f"this is no SVG drawing: it begins with <{name[:40]}>")
            matrix, self.unit = _page(given, self.units)
            self.stack.append(matrix)
            return
        self.in_style = name == "style"
        foreign = bool(space) and space != "http://www.w3.org/2000/svg"
        drawn = not (foreign or name in _NOT_DRAWN or given.get("display") == "none")
        drawn = drawn and re.search(r"(?<![-\w])display\s*:\s*none", given.get("style", "")) is None
        if self.hidden or not drawn:
            self.hidden += 1
            if self.hidden == 1 and name in ("text", "image", "foreignObject"):
                self.left_out[name] = self.left_out.get(name, 0) + 1
            return
        if len(self.stack) > MOST_DEEP:
            raise OutlineError("groups within groups, too deep: leave only the outline in the drawing")
        if name in _REFUSED:
            raise OutlineError(_REFUSED[name])
        _unstyled(given.get("style", ""))
        matrix = _times(self.stack[-1], _moves(given.get("transform", "")))
        self.stack.append(matrix)
        for walk in _walks(name, given):
            self.lines.append(sampled(walk, partial(_moved, matrix), MOST_DRAWN - self.points))
            self.points += len(self.lines[-1])
            if len(self.lines) > MOST_LINES:
                raise OutlineError(f"more than {MOST_LINES:,} lines are no outline of a bracket")

    def end(self, _tag: str) -> None:
        self.in_style = False
        if self.hidden:
            self.hidden -= 1
        else:
            self.stack.pop()


def _unstyled(text: str) -> None:
    if _STYLED.search(text):
        raise OutlineError("a transform within a style is not read: put it into the coordinates")


def _walks(name: str, given: Mapping[str, str]) -> list[Walk]:
    """What an element draws, in its own coordinates."""
    if name == "path":
        return walks_of(given.get("d", ""))
    if name in ("polygon", "polyline"):
        values = numbers(given.get("points", ""), f"points of a <{name}>")
        if len(values) % 2:
            raise OutlineError(f"the points of a <{name}> are pairs, but there are {len(values)} numbers")
        points = [complex(x, y) for x, y in zip(values[::2], values[1::2], strict=True)]
        ends = [*points[1:], *(points[:1] if name == "polygon" else [])]
        return [Walk.straight(points[0], ends)] if points else []
    if name not in ("line", "rect", "circle", "ellipse"):
        return []

    def of(field: str, default: float = 0.0) -> float:
        values = numbers(given[field], f"{field} of a <{name}>") if field in given else [default]
        if len(values) != 1:
            raise OutlineError(f"{field} of a <{name}> is not one number: {given[field][:40]!r}")
        return values[0]

    if name == "line":
        return [Walk.straight(complex(of("x1"), of("y1")), [complex(of("x2"), of("y2"))])]
    if name == "rect":
        if of("rx") or of("ry"):
            raise OutlineError("rounded corners of a <rect> are not read: make it a path")
        x, y, w, h = of("x"), of("y"), of("width"), of("height")
        corners = [complex(x + w, y), complex(x + w, y + h), complex(x, y + h), complex(x, y)]
        return [Walk.straight(complex(x, y), corners)]
    middle = complex(of("cx"), of("cy"))
    rx, ry = (of("r"), of("r")) if name == "circle" else (of("rx"), of("ry"))
    walk = Walk(middle + rx)
    walk.steps.append(lambda t: np.asarray(middle + rx * np.cos(2 * np.pi * t) + 1j * ry * np.sin(2 * np.pi * t)))
    return [walk]


def _page(given: Mapping[str, str], units: str | None) -> tuple[Array, str]:
    """From user units to inches, and the unit in words. The file says its unit, or --units does, never both unlike."""
    box = numbers(given["viewBox"], "viewBox") if "viewBox" in given else None
    if box is not None and (len(box) != 4 or min(box[2:]) <= 0.0):
        raise OutlineError("its viewBox is not four numbers with a width and height above zero")
    sides = [_side(given.get(field), field) for field in ("width", "height")]
    told = [(i, size, unit) for i, (size, unit) in enumerate(sides) if unit in INCH]
    if box is not None and told:
        scales = [size * INCH[unit] / box[2 + i] for i, size, unit in told]
        if min(scales) <= 0.0 or max(scales) > 1.001 * min(scales):
            raise OutlineError("its width and height do not go with its viewBox: the drawing would be stretched")
        unit = told[0][2]
        if units is not None and units != unit:
            raise OutlineError(f"the drawing says that its unit is {unit}, not {units}: leave --units out")
        return _scaled(scales[0]), unit
    if units is None:
        text = "the drawing does not say how large its units are (no width in mm, cm or in together with a viewBox)"
        raise OutlineError(f"{text}: give --units in, mm or cm")
    for i, (size, _) in enumerate(sides):
        if box is not None and size and abs(size / box[2 + i] - 1.0) > 1e-6:
            text = f"it is {size:g} units wide or high, but its viewBox {box[2 + i]:g}: which of them is in {units}?"
            raise OutlineError(f'{text} Write its width with a unit, such as width="{box[2 + i]:g}{units}"')
    return _scaled(INCH[units]), units


def _side(text: str | None, field: str) -> tuple[float, str]:
    """Number and unit of the page's width or height; (0, '') where nothing or a share is said."""
    if text is None or text.strip() in ("", "auto"):
        return 0.0, ""
    match = _LENGTH.fullmatch(text) if len(text) <= MOST_OF_A_LENGTH else None
    if match is None or match[2].casefold() not in {*INCH, "", "px", "%", "em", "ex"}:
        raise OutlineError(f"its {field} {text[:40]!r} is not a length")
    size, unit = float(match[1]), match[2].casefold()
    return (size, unit) if unit in INCH or unit in ("", "px") else (0.0, "")


def _scaled(factor: float) -> Array:
    return np.array([[factor, 0.0, 0.0], [0.0, factor, 0.0]])


def _times(outer: Array, inner: Array) -> Array:
    turned = outer[:, :2] @ inner
    turned[:, 2] += outer[:, 2]
    return np.asarray(turned)


def _moved(matrix: Array, z: Array) -> Array:
    return np.asarray(np.column_stack((z.real, z.imag)) @ matrix[:, :2].T + matrix[:, 2])


def _moves(text: str) -> Array:
    """The matrix of a transform attribute."""
    if len(text) > MOST_OF_A_TRANSFORM:
        raise OutlineError(f"a transform of {len(text):,} letters is not read: put it into the coordinates")
    text = text.strip()
    matrix, place = _scaled(1.0), 0
    while place < len(text):
        match = _MOVES.match(text, place)
        if match is None:
            raise OutlineError(f"the transform {text[:60]!r} is not understood: put it into the coordinates")
        matrix, place = _times(matrix, _move(match[1], numbers(match[2], f"transform {match[1]}"))), match.end()
    return matrix


def _move(kind: str, v: list[float]) -> Array:
    right = {"matrix": (6,), "translate": (1, 2), "scale": (1, 2), "rotate": (1, 3), "skewX": (1,), "skewY": (1,)}
    if len(v) not in right[kind]:
        raise OutlineError(f"{kind} of a transform does not take {len(v)} numbers")
    if kind == "matrix":
        return np.array([[v[0], v[2], v[4]], [v[1], v[3], v[5]]])
    if kind == "translate":
        return np.array([[1.0, 0.0, v[0]], [0.0, 1.0, v[1] if len(v) == 2 else 0.0]])
    if kind == "scale":
        return np.array([[v[0], 0.0, 0.0], [0.0, v[-1], 0.0]])
    angle = np.radians(v[0])
    if kind == "skewX":
        return np.array([[1.0, np.tan(angle), 0.0], [0.0, 1.0, 0.0]])
    if kind == "skewY":
        return np.array([[1.0, 0.0, 0.0], [np.tan(angle), 1.0, 0.0]])
    c, s, (x, y) = np.cos(angle), np.sin(angle), v[1:] if len(v) == 3 else (0.0, 0.0)
    return np.array([[c, -s, x - c * x + s * y], [s, c, y - s * x - c * y]])
