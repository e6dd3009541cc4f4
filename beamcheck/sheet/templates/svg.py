"""A template as an SVG drawing at full size: its width is in inches or millimeters, its numbers are those units."""

from __future__ import annotations

import math
from xml.etree import ElementTree

from ...checks.core.summary import INVENTED
from ...errors import UnknownName
from ...lettering import legible
from ...own_digest import BLANK, with_digest
from .dxf import UNITS, wrapped
from .geometry import Contour, Point, Round, Template

MARGIN, TEXT, LINE = 0.6, 0.14, 0.2  # in
COLORS = {"CUT": "#000", "DRILL": "#000", "GRAIN": "#555", "NOTES": "#777"}
WIDTHS = {"CUT": 0.02, "DRILL": 0.016, "GRAIN": 0.012, "NOTES": 0.008}
BAR_IN, BAR_MM = 4.0, 100.0 / 25.4


def template_svg(template: Template, units: str = "in") -> str:
    """The drawing as text. `units`: 'in' or 'mm'. Raises UnknownName if there is no such unit."""
    if units not in UNITS:
        raise UnknownName("unit of a drawing", units, list(UNITS))
    return _Drawing(template, units).done()


class _Drawing:
    """One drawing; y down from the top, in the unit asked for."""

    def __init__(self, template: Template, units: str) -> None:
        self.template, self.units, self.factor = template, units, UNITS[units][1]
        self.lines = [
            template.title, f"Job: {template.job} (job file {template.fingerprint[:12]})", *template.notes,
            f"Caution. {template.caution}", template.sign_off,
        ]  # fmt: skip
        x0, y0, x1, y1 = template.box
        self.wide = max(x1 - x0 + 2 * MARGIN, 7.0)
        letters = int((self.wide - 2 * MARGIN) / (0.55 * TEXT))
        self.texts = [part for line in self.lines for part in wrapped(line, letters)]
        self.head = wrapped(template.banner, int(letters * TEXT / 0.3))
        self.left, self.top = x0 - MARGIN, y1 + MARGIN + 0.36 * len(self.head) + (0.3 if template.invented else 0.0)
        self.foot = y0 - MARGIN
        self.high = self.top - self.foot + 1.2 + LINE * len(self.texts) + 0.3
        version = "".join(letter for letter in template.version if letter.isascii() and letter.isprintable())
        self.root = ElementTree.Element("svg", {
            "xmlns": "http://www.w3.org/2000/svg", "data-generator": f"whatcarries {version}", "data-digest": BLANK,
            "data-unit": units,
            "width": f"{self.n(self.wide)}{units}", "height": f"{self.n(self.high)}{units}",
            "viewBox": f"0 0 {self.n(self.wide)} {self.n(self.high)}",
            "font-family": "sans-serif", "font-size": self.n(TEXT), "role": "img",
        })  # fmt: skip
        ElementTree.SubElement(self.root, "title").text = legible(f"{template.banner}. {template.title}")
        ElementTree.SubElement(self.root, "desc").text = legible(" ".join(self.lines))
        self.groups = {
            layer: ElementTree.SubElement(
                self.root, "g", {"id": layer, "fill": "none", "stroke": color, "stroke-width": self.n(WIDTHS[layer])}
            )
            for layer, color in COLORS.items()
        }

    def n(self, inches: float) -> str:
        """A length in the unit of the drawing, to a ten-millionth."""
        text = f"{inches * self.factor:.7f}".rstrip("0").rstrip(".")
        return "0" if text == "-0" else text

    def at(self, point: Point) -> str:
        return f"{self.n(point[0] - self.left)} {self.n(self.top - point[1])}"

    def done(self) -> str:
        """The drawing as text."""
        template = self.template
        for contour in template.contours:
            self.path(contour.layer, self.contour(contour), dashed=contour.dashed)
        for hole in template.holes:
            at = (hole.x, hole.y)
            if hole.drill is not None:
                self.ring("DRILL", at, hole.drill)
            elif hole.size:
                self.ring("NOTES", at, hole.size, dashed=True)
            if hole.bore:
                self.ring("NOTES", at, hole.bore, dashed=True)
            reach = 0.5 * max(hole.drill or 0.0, hole.size, hole.bore) + 0.12
            for dx, dy in ((reach, 0.0), (0.0, reach)):
                self.path("DRILL", f"M{self.at((hole.x - dx, hole.y - dy))}L{self.at((hole.x + dx, hole.y + dy))}")
            self.text(hole.x + reach, hole.y + 0.05, hole.label)
        self.marks()
        self.head_and_foot()
        drawing = ElementTree.tostring(self.root, encoding="unicode")
        return with_digest(f'<?xml version="1.0" encoding="UTF-8"?>\n{drawing}\n')

    def contour(self, contour: Contour) -> str:
        made = f"M{self.at(contour.start)}"
        for edge in contour.edges:
            if not isinstance(edge, Round):
                made += f"L{self.at(edge.end)}"
                continue
            a, b = edge.radii
            tilt = -math.degrees(math.atan2(edge.cosine[1], edge.cosine[0]))
            large, clockwise = int(abs(edge.turn) > math.pi), int(edge.turn < 0.0)
            made += f"A{self.n(a)} {self.n(b)} {tilt:.7g} {large} {clockwise} {self.at(edge.end)}"
        return made + ("Z" if contour.closed else "")

    def path(self, layer: str, d: str, *, dashed: bool = False) -> None:
        dash = {"stroke-dasharray": f"{self.n(0.12)} {self.n(0.06)}"} if dashed else {}
        ElementTree.SubElement(self.groups[layer], "path", {"d": d, **dash})

    def ring(self, layer: str, at: Point, diameter: float, *, dashed: bool = False) -> None:
        dash = {"stroke-dasharray": f"{self.n(0.08)} {self.n(0.05)}"} if dashed else {}
        x, y = self.at(at).split()
        ElementTree.SubElement(self.groups[layer], "circle", {"cx": x, "cy": y, "r": self.n(0.5 * diameter), **dash})

    def marks(self) -> None:
        """Grain, dimensions, lettering."""
        for arrow in self.template.grain:
            (x0, y0), (x1, y1) = arrow.start, arrow.end
            turn = math.atan2(y1 - y0, x1 - x0)
            self.path("GRAIN", f"M{self.at(arrow.start)}L{self.at(arrow.end)}")
            for (x, y), back in ((arrow.end, math.pi), (arrow.start, 0.0)):
                wings = [
                    (x + 0.15 * math.cos(turn + back + s), y + 0.15 * math.sin(turn + back + s)) for s in (0.4, -0.4)
                ]
                self.path("GRAIN", f"M{self.at(wings[0])}L{self.at((x, y))}L{self.at(wings[1])}")
            self.text(0.5 * (x0 + x1) + 0.08, 0.5 * (y0 + y1) + 0.08, "GRAIN")
        for one in self.template.measures:
            ends = [(one.start, one.at), (one.end, one.at)]
            ends = ends if one.axis == "x" else [(y, x) for x, y in ends]
            self.path("NOTES", f"M{self.at(ends[0])}L{self.at(ends[1])}")
            for x, y in ends:
                self.path("NOTES", f"M{self.at((x - 0.06, y - 0.06))}L{self.at((x + 0.06, y + 0.06))}")
            self.text(0.5 * (ends[0][0] + ends[1][0]) + 0.05, 0.5 * (ends[0][1] + ends[1][1]) + 0.05, one.text)
        for label in self.template.labels:
            self.text(label.x, label.y, label.text)

    def text(self, x: float, y: float, text: str, *, size: float = TEXT, bold: bool = False) -> None:
        if not text:
            return
        place = self.at((x, y)).split()
        looks = {"font-size": self.n(size), **({"font-weight": "bold"} if bold else {})}
        element = ElementTree.SubElement(self.root, "text", {"x": place[0], "y": place[1], "fill": "#000", **looks})
        element.text = legible(text)

    def head_and_foot(self) -> None:
        """Verdict in large letters; scale bars, notes, caution and the line to sign."""
        x = self.left + MARGIN
        y = self.top - 0.4
        for part in self.head:
            self.text(x, y, part, size=0.3, bold=True)
            y -= 0.36
        if self.template.invented:
            self.text(x, y + 0.05, INVENTED, size=0.18, bold=True)
        y = self.foot - 0.3
        for i, (long, said) in enumerate(((BAR_IN, "4 in"), (BAR_MM, "100 mm"))):
            at = y - 0.35 * i
            self.path("NOTES", f"M{self.at((x, at))}L{self.at((x + long, at))}")
            for end in (x, x + long):
                self.path("NOTES", f"M{self.at((end, at - 0.08))}L{self.at((end, at + 0.08))}")
            self.text(x + long + 0.12, at - 0.04, f"{said}, to check the scale on paper")
        y -= 0.9
        for part in self.texts:
            self.text(x, y, part)
            y -= LINE
