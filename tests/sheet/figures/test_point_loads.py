"""Words beside the arrows of point loads: they cross no arrow, and nothing of them is lost."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from beamcheck.checks.core.pictures.beams import LoadMark
from beamcheck.sheet.figures.point_loads import draw_point_loads
from beamcheck.sheet.figures.svg import Board, text_width

SVG = "{http://www.w3.org/2000/svg}"
WIDTH = 440.0
ROOF = "roof, 64 square feet, 3,584 lb"


def drawn(loads: list[tuple[float, str, str]]) -> ElementTree.Element:
    board = Board(WIDTH, "key", "title", "about")
    marks = [LoadMark(x, x, text, kind, "point") for x, text, kind in loads]
    return ElementTree.fromstring(board.done(draw_point_loads(board, marks, lambda x: x, 0.0)))


def arrows(root: ElementTree.Element) -> list[tuple[float, float, float]]:
    """Place, top and foot of each shaft."""
    found = []
    for path in root.iter(f"{SVG}path"):
        n = [float(one) for one in re.findall(r"-?\d+(?:\.\d+)?", path.get("d", ""))]
        if path.get("stroke-width") == "1.6" and len(n) == 4 and n[0] == n[2]:
            found.append((n[0], min(n[1], n[3]), max(n[1], n[3])))
    return found


def lettered(root: ElementTree.Element) -> list[tuple[float, float, float, str]]:
    """Left, right and base line of each line of words."""
    found = []
    for one in root.iter(f"{SVG}text"):
        text, x = one.text or "", float(one.get("x", "0"))
        wide = text_width(text)
        left = x - wide if one.get("text-anchor") == "end" else x
        found.append((left, left + wide, float(one.get("y", "0")), text))
    return found


@pytest.mark.parametrize("places", [
    (125.0, 220.0, 315.0), (60.0,), (380.0,), (220.0,), (100.0, 130.0), (40.0, 400.0), (70.0, 200.0, 330.0),
])  # fmt: skip
def test_no_words_cross_an_arrow(places: tuple[float, ...]) -> None:
    root = drawn([(x, ROOF, kind) for x in places for kind in ("dead", "snow")])
    shafts, words = arrows(root), lettered(root)
    assert len(shafts) == 2 * len(places)
    for left, right, y, text in words:
        assert left >= 0.0 and right <= WIDTH, text
        assert not [x for x, top, foot in shafts if left < x < right and top < y < foot], text


def test_all_of_the_words_are_there_also_among_many_arrows() -> None:
    few = " ".join(text for *_, text in lettered(drawn([(x, ROOF, "dead") for x in (125.0, 220.0, 315.0)])))
    assert few.replace("\u00a0", " ").count(f"dead: {ROOF}") == 3
    many = " ".join(
        text for *_, text in lettered(drawn([(30.0 * x, "from joist, 349 lb", "live") for x in range(1, 14)]))
    )
    assert many.replace("\u00a0", " ").count("live: from joist, 349 lb") == 13


def test_a_load_that_lifts_points_up() -> None:
    root = drawn([(100.0, "from porch, 244 lb", "wind up")])
    assert any("↑" in text for *_, text in lettered(root))
