"""The lines on a page of a PDF in its own units, points of 1/72 in, read from its content stream."""

from __future__ import annotations

from dataclasses import dataclass, field
from io import BytesIO
from typing import Any

Matrix = tuple[float, float, float, float, float, float]
Point = tuple[float, float]


@dataclass
class Path:
    """Corners and ends of curves, and whether it was stroked with at least one curve in it."""

    points: list[Point] = field(default_factory=list)
    handles: list[Point] = field(default_factory=list)
    curves: int = 0
    width: float = 0.0


def joined(first: Matrix, then: Matrix) -> Matrix:
    """ISO 32000-1 8.3.4: the new matrix is multiplied from the left."""
    a, b, c, d, e, f = first
    p, q, r, s, t, u = then
    return (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u)


def moved(matrix: Matrix, x: float, y: float) -> Point:
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f


def stroked_paths(pdf: bytes, page: int) -> tuple[list[Path], tuple[float, float]]:
    """All stroked paths of a page (counted from 0), and its width and height."""
    from pypdf import PdfReader

    reader = PdfReader(BytesIO(pdf))
    sheet = reader.pages[page]
    assert sheet.user_unit == 1.0
    found: list[Path] = []
    _read(sheet.get_contents(), sheet["/Resources"], (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), found)
    return found, (float(sheet.mediabox.width), float(sheet.mediabox.height))


def _read(content: Any, resources: Any, matrix: Matrix, found: list[Path]) -> None:
    kept: list[tuple[Matrix, float]] = []
    path, width = Path(), 1.0
    for operands, operator in content.operations:
        v = [float(one) for one in operands] if operator in (b"cm", b"m", b"l", b"c", b"re", b"w") else []
        if operator == b"q":
            kept.append((matrix, width))
        elif operator == b"Q":
            matrix, width = kept.pop()
        elif operator == b"cm":
            matrix = joined((v[0], v[1], v[2], v[3], v[4], v[5]), matrix)
        elif operator == b"w":
            width = v[0]
        elif operator in (b"m", b"l"):
            path.points.append(moved(matrix, *v))
        elif operator == b"c":
            path.handles += [moved(matrix, v[0], v[1]), moved(matrix, v[2], v[3])]
            path.points.append(moved(matrix, v[4], v[5]))
            path.curves += 1
        elif operator == b"re":
            path.points += [moved(matrix, v[0], v[1]), moved(matrix, v[0] + v[2], v[1] + v[3])]
        elif operator in (b"S", b"s", b"B", b"b"):
            path.width = width
            found.append(path)
            path = Path()
        elif operator in (b"n", b"f", b"F", b"f*"):
            path = Path()
        elif operator == b"Do":
            form = resources["/XObject"][operands[0]]
            if form["/Subtype"] == "/Form":
                from pypdf.generic import ContentStream

                inner = tuple(float(one) for one in form.get("/Matrix", (1, 0, 0, 1, 0, 0)))
                _read(ContentStream(form, None), form.get("/Resources", resources), joined(inner, matrix), found)  # type: ignore[arg-type]
