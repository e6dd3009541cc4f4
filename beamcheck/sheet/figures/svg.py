"""A small drawing board: SVG through xml.etree, black and gray only, fixed number format."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from xml.etree import ElementTree

from ...checks.core.summary import legible
from .signs import BOX, SIGNS

Point = tuple[float, float]
INK, GRAY, PAPER = "#000", "#767676", "#fff"
_UNIT = re.compile(r"(?<=[0-9]) (?=(?:lb|plf|psf|psi|in|ft|kN|mm|m|MPa|kPa|deg|%)\b|[0-9]+/[0-9]+)")
PRINTED = 0.86  # of the width that is reckoned with: letters as they are printed are narrower
_WORD = re.compile(r"[^ \t\n\r\f\v]+")  # what is tied already stays so
_INCHES = re.compile(r"(?<=ft) (?=[0-9])")
TEXT = 14.8  # size of lettering in drawing units: over 8 pt where a sheet prints half a page of them


def fixed(number: float) -> str:
    """Two decimals at most, never in powers of ten, never -0."""
    text = f"{number:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def tied(text: str) -> str:
    """The text on one line, a number and its unit held together where it is broken into lines."""
    return _INCHES.sub("\u00a0", _UNIT.sub("\u00a0", " ".join(_WORD.findall(text))))


def text_width(text: str) -> float:
    """A generous guess at the width of lettering."""
    return TEXT * sum(1.05 if unicodedata.east_asian_width(letter) in "WF" else 0.56 for letter in text)


def letters_in(width: float) -> int:
    """How many letters of usual width a line of that width holds."""
    return max(int(width / text_width("n")), 1)


def clipped(text: str, width: float) -> str:
    """The text, or as much of it as fits into the width and a dot-dot-dot."""
    line = " ".join(legible(text).split())
    if text_width(line) <= width:
        return line
    while line and text_width(line + "…") > width:
        line = line[: max(len(line) - 1, 0)].rstrip() if len(line) < 200 else line[:199]
    return line + "…"


class Board:
    """A drawing of fixed width whose height is set when it is done."""

    def __init__(self, width: float, key: str, title: str, about: str) -> None:
        self.width = width
        self.root = ElementTree.Element("svg", {"xmlns": "http://www.w3.org/2000/svg", "role": "img"})
        self.root.set("aria-labelledby", f"{key}-title {key}-about")
        self.root.set("font-family", "sans-serif")
        self.root.set("font-size", fixed(TEXT))
        ElementTree.SubElement(self.root, "title", {"id": f"{key}-title"}).text = legible(title)
        ElementTree.SubElement(self.root, "desc", {"id": f"{key}-about"}).text = legible(about)

    def _add(self, tag: str, attributes: dict[str, str]) -> ElementTree.Element:
        return ElementTree.SubElement(self.root, tag, attributes)

    def line(self, *points: Point, width: float = 1.0, stroke: str = INK, dash: str = "") -> None:
        """A line through the points."""
        self.shape(points, fill="none", width=width, stroke=stroke, dash=dash, closed=False)

    def shape(
        self,
        points: Sequence[Point],
        *,
        fill: str = PAPER,
        width: float = 1.0,
        stroke: str = INK,
        dash: str = "",
        closed: bool = True,
    ) -> None:
        """An area bounded by the points, or an open line."""
        path = "M" + "L".join(f"{fixed(x)} {fixed(y)}" for x, y in points) + ("Z" if closed else "")
        attributes = {
            "d": path,
            "fill": fill,
            "stroke": stroke,
            "stroke-width": fixed(width),
            "stroke-linejoin": "round",
        }
        if dash:
            attributes["stroke-dasharray"] = dash
        self._add("path", attributes)

    def area(
        self, rings: Sequence[Sequence[Point]], *, fill: str = PAPER, width: float = 0.0, stroke: str = INK
    ) -> None:  # fmt: skip
        """What lies inside an odd number of the rings."""
        path = "".join("M" + "L".join(f"{fixed(x)} {fixed(y)}" for x, y in ring) + "Z" for ring in rings)
        attributes = {"d": path, "fill": fill, "fill-rule": "evenodd"}
        if width:
            attributes |= {"stroke": stroke, "stroke-width": fixed(width), "stroke-linejoin": "round"}
        self._add("path", attributes)

    def strokes(self, lines: Sequence[tuple[Point, Point]], *, width: float = 0.6, stroke: str = INK) -> None:
        """Many short straight lines as one path; none for none."""
        if lines:
            path = "".join(f"M{fixed(a)} {fixed(b)}L{fixed(c)} {fixed(d)}" for (a, b), (c, d) in lines)
            self._add("path", {"d": path, "fill": "none", "stroke": stroke, "stroke-width": fixed(width)})

    def box(self, x: float, y: float, width: float, height: float, *, fill: str = PAPER, stroke: float = 1.0) -> None:
        """A rectangle from its upper left corner."""
        corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
        self.shape(corners, fill=fill, width=stroke)

    def ring(self, x: float, y: float, radius: float, *, fill: str = PAPER, width: float = 1.0, dash: str = "") -> None:
        """A circle with its outline."""
        attributes = {"cx": fixed(x), "cy": fixed(y), "r": fixed(radius), "fill": fill, "stroke": INK}
        attributes["stroke-width"] = fixed(width)
        if dash:
            attributes["stroke-dasharray"] = dash
        self._add("circle", attributes)

    def sign(self, verdict: str, x: float, y: float, size: float = 13.0) -> None:
        """The sign of a verdict about a point; nothing for another word."""
        scale = size / BOX
        place = f"translate({fixed(x - size / 2)} {fixed(y - size / 2)}) scale({fixed(scale)})"
        for stroke in SIGNS.get(verdict, ()):
            self._add("path", {"d": stroke.path, "fill": "none", "stroke": INK, "stroke-width": fixed(stroke.width),
                               "stroke-linejoin": "bevel", "transform": place})  # fmt: skip

    def disc(self, x: float, y: float, radius: float, fill: str = INK) -> None:
        """A filled circle."""
        self._add("circle", {"cx": fixed(x), "cy": fixed(y), "r": fixed(radius), "fill": fill})

    def lettering(
        self,
        x: float,
        y: float,
        text: str,
        *,
        anchor: str = "start",
        bold: bool = False,
        tip: str = "",
        upright: bool = False,
        ground: str = PAPER,
    ) -> None:
        """Text on a white halo, kept inside the drawing; `tip` is the full wording where the text was clipped.

        `upright`: it reads from below to above. `ground`: what it stands on.
        """
        shown = clipped(text, self.width - 4)
        wide = text_width(shown)
        left = {"start": x, "middle": x - wide / 2, "end": x - wide}[anchor]
        if not upright:
            x += min(max(left, 2.0), self.width - 2 - wide) - left
        element = self._add("text", {"x": fixed(x), "y": fixed(y), "text-anchor": anchor})
        element.set("paint-order", "stroke")
        element.set("stroke", ground)
        element.set("stroke-width", "3")
        element.set("stroke-linejoin", "round")
        if upright:
            element.set("transform", f"rotate(-90 {fixed(x)} {fixed(y)})")
        if bold:
            element.set("font-weight", "bold")
        element.text = shown
        if tip and legible(tip) != shown:
            ElementTree.SubElement(element, "title").text = legible(tip)

    def done(self, height: float) -> str:
        """The finished drawing as text."""
        self.root.set("viewBox", f"0 0 {fixed(self.width)} {fixed(height)}")
        return ElementTree.tostring(self.root, encoding="unicode")
