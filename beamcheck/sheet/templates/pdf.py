"""A template as a PDF: true size over as many pages as it needs, with crosses, tile names and a ruler on each."""

from __future__ import annotations

import itertools
import math
from pathlib import Path
from typing import Any

from ...checks.core.summary import INVENTED
from ...errors import BeamcheckError, UnknownName
from ..pdf.text import shown_text as printed
from ..pdf.typeset import set_pdf
from ..record.pdf_mark import marked
from .geometry import Contour, Point, Round, Template

SOURCE = Path(__file__).parent / "template.typ"
# paper: width and height (in) of the sheet, then of the drawing on it; the rest is for the head, the ruler, the caution
PAPERS = {"letter": (8.5, 11.0, 7.5, 8.4), "a4": (210.0 / 25.4, 297.0 / 25.4, 7.25, 9.1)}
ROLLS = {
    "roll24": (24.0, 23.0),
    "roll36": (36.0, 35.0),
}  # width of the roll and of the drawing on it; as long as needed
LONGEST = 96.0  # in of a roll in one piece
ENDS = 2.6  # in of a roll beside the drawing, for head and foot
OVERLAP = 0.5  # in of drawing that neighbors share; their crosses lie in its middle
MOST_TILES = 120
STRAIGHT = 40  # stretches of a straight line that are looked at one by one
BESIDE = 0.14  # in from an arrow to its lettering
AROUND = 0.45  # in kept free round the drawing


def template_pdf(template: Template, paper: str = "letter") -> bytes:
    """The template as a PDF: one page in words with a plan of the tiles, then the tiles A1, A2, ..., B1, ...

    `paper`: 'letter', 'a4', 'roll24' or 'roll36': the last two are rolls 24 and 36 in wide. Tiles on which nothing is
    drawn are left out. Raises UnknownName if there is no such paper; BeamcheckError if it needs too many pages, or
    typst is missing or cannot set it.
    """
    if paper not in PAPERS and paper not in ROLLS:
        raise UnknownName("paper", paper, [*PAPERS, *ROLLS])
    return marked(set_pdf(SOURCE, tile_data(template, paper), template.day), template.version)


def tiles_of(template: Template, paper: str) -> tuple[int, int]:
    """How many tiles in a row and in a column. Raises BeamcheckError if there are too many."""
    _, _, wide, high = _paper(template, paper)
    x0, y0, x1, y1 = template.box

    def many(long: float, tile: float) -> int:
        return max(1, math.ceil((long + 2 * AROUND - OVERLAP) / (tile - OVERLAP) - 1e-9))

    across, down = many(x1 - x0, wide), many(y1 - y0, high)
    if across * down > MOST_TILES:
        raise BeamcheckError(
            f"{template.name} would need {across * down} pages, more than {MOST_TILES}: give the DXF or SVG drawing to "
            "a plotter instead"
        )
    return across, down


def _paper(template: Template, paper: str) -> tuple[float, float, float, float]:
    """Width and height of the sheet, then of the drawing on it; of a roll as long as the drawing."""
    if paper in PAPERS:
        return PAPERS[paper]
    width, wide = ROLLS[paper]
    _, y0, _, y1 = template.box
    high = min(max(y1 - y0 + 2 * AROUND, 4.0), LONGEST)
    return width, high + ENDS, wide, high


def tile_data(template: Template, paper: str) -> dict[str, Any]:
    """All that the pages show, as plain data for typst; lengths in inches as numbers, x right, y down."""
    width, height, wide, high = _paper(template, paper)
    across, down = tiles_of(template, paper)
    x0, y0, x1, y1 = template.box
    total = (across * (wide - OVERLAP) + OVERLAP, down * (high - OVERLAP) + OVERLAP)
    left, top = x0 - 0.5 * (total[0] - (x1 - x0)), y1 + 0.5 * (total[1] - (y1 - y0))

    def put(point: Point) -> list[float]:
        return [point[0] - left, top - point[1]]

    shapes = [_shape(contour, put) for contour in template.contours]
    rings, texts = [], []
    for hole in template.holes:
        diameters = [(hole.drill, False)] if hole.drill is not None else [(hole.size, True)] if hole.size else []
        diameters += [(hole.bore, True)] if hole.bore else []
        rings += [{"at": put((hole.x, hole.y)), "r": 0.5 * size, "dashed": dashed} for size, dashed in diameters]
        reach = 0.5 * max(hole.drill or 0.0, hole.size, hole.bore) + 0.12
        for dx, dy in ((reach, 0.0), (0.0, reach)):
            shapes.append(_line("DRILL", [put((hole.x - dx, hole.y - dy)), put((hole.x + dx, hole.y + dy))]))
        texts.append({"at": put((hole.x + reach, hole.y + 0.05)), "text": hole.label})
    _marks(template, put, shapes, texts)
    day = "" if template.day is None else f"{template.day[0]:04}-{template.day[1]:02}-{template.day[2]:02}"
    said = printed({
        "name": template.name, "title": template.title, "banner": template.banner, "notes": list(template.notes),
        "caution": template.caution, "sign_off": template.sign_off, "invented": INVENTED if template.invented else "",
        "job": template.job, "fingerprint": template.fingerprint[:12], "tool": f"whatcarries {template.version}",
        "day": day, "texts": [one["text"] for one in texts],
    })  # fmt: skip
    places = [one["at"] for one in texts]
    words = [{"at": at, "text": text} for at, text in zip(places, said.pop("texts"), strict=True) if text]
    return {
        **said, "stop": template.stop, "paper": [width, height], "tile": [wide, high], "overlap": OVERLAP,
        "across": across, "down": down, "blank": _blank(shapes, rings, words, (across, down), (wide, high)),
        "shapes": shapes, "rings": rings, "words": words,
    }  # fmt: skip


def _blank(
    shapes: list[dict[str, Any]], rings: list[dict[str, Any]], words: list[dict[str, Any]],
    many: tuple[int, int], tile: tuple[float, float],
) -> list[list[int]]:  # fmt: skip
    """Row and column of the tiles on which nothing is drawn: every stretch counts with the box about it."""
    boxes: list[tuple[float, float, float, float]] = []
    for shape in shapes:
        points = [shape["start"], *shape["steps"], *([shape["start"]] if shape["closed"] else [])]
        for one, two in itertools.pairwise(points):
            places = [one[-2:], *(two[k : k + 2] for k in range(0, len(two), 2))]
            steps = STRAIGHT if len(two) == 2 else 1
            (ax, ay), (bx, by) = places[0], places[-1]
            for k in range(steps):
                part = [(ax + (bx - ax) * t, ay + (by - ay) * t) for t in (k / steps, (k + 1) / steps)]
                boxes.append(_about(part if steps > 1 else places))
    boxes += [
        _about([(r["at"][0] - r["r"], r["at"][1] - r["r"]), (r["at"][0] + r["r"], r["at"][1] + r["r"])]) for r in rings
    ]
    boxes += [_about([word["at"], (word["at"][0] + 0.09 * len(word["text"]), word["at"][1] - 0.2)]) for word in words]
    found = []
    for row, column in itertools.product(range(many[1]), range(many[0])):
        x, y = column * (tile[0] - OVERLAP), row * (tile[1] - OVERLAP)
        if not any(a < x + tile[0] and c > x and b < y + tile[1] and d > y for a, b, c, d in boxes):
            found.append([row, column])
    return found


def _about(points: Any) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _line(layer: str, points: list[list[float]], *, dashed: bool = False, closed: bool = False) -> dict[str, Any]:
    return {"layer": layer, "start": points[0], "steps": points[1:], "closed": closed, "dashed": dashed}


def _shape(contour: Contour, put: Any) -> dict[str, Any]:
    """A contour; a step of two numbers is a straight edge, one of six a Bezier piece."""
    steps: list[list[float]] = []
    for edge in contour.edges:
        if isinstance(edge, Round):
            steps += [[*put(one), *put(two), *put(end)] for one, two, end in edge.beziers()]
        else:
            steps.append(put(edge.end))
    made = _line(contour.layer, [put(contour.start)], dashed=contour.dashed, closed=contour.closed)
    return made | {"steps": steps}


def _beside(start: Point, end: Point) -> Point:
    """Where lettering begins beside the middle of an arrow: on its right, above a level one."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    long = math.hypot(dx, dy) or 1.0
    across, up = -dy / long, dx / long
    if across < -1e-9 or (abs(across) <= 1e-9 and up < 0.0):
        across, up = -across, -up
    return 0.5 * (start[0] + end[0]) + BESIDE * across, 0.5 * (start[1] + end[1]) + BESIDE * up


def _marks(template: Template, put: Any, shapes: list[dict[str, Any]], texts: list[dict[str, Any]]) -> None:
    for arrow in template.grain:
        (x0, y0), (x1, y1) = arrow.start, arrow.end
        turn = math.atan2(y1 - y0, x1 - x0)
        shapes.append(_line("GRAIN", [put(arrow.start), put(arrow.end)]))
        for (x, y), back in ((arrow.end, math.pi), (arrow.start, 0.0)):
            wings = [(x + 0.15 * math.cos(turn + back + s), y + 0.15 * math.sin(turn + back + s)) for s in (0.4, -0.4)]
            shapes.append(_line("GRAIN", [put(wings[0]), put((x, y)), put(wings[1])]))
        texts.append({"at": put(_beside(arrow.start, arrow.end)), "text": "GRAIN"})
    for one in template.measures:
        ends = [(one.start, one.at), (one.end, one.at)]
        ends = ends if one.axis == "x" else [(y, x) for x, y in ends]
        shapes.append(_line("NOTES", [put(end) for end in ends]))
        for x, y in ends:
            shapes.append(_line("NOTES", [put((x - 0.06, y - 0.06)), put((x + 0.06, y + 0.06))]))
        middle = (0.5 * (ends[0][0] + ends[1][0]) + 0.05, 0.5 * (ends[0][1] + ends[1][1]) + 0.05)
        texts.append({"at": put(middle), "text": one.text})
    texts += [{"at": put((label.x, label.y)), "text": label.text} for label in template.labels]
