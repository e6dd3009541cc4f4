"""A braced bracket as a strut and two ties: figures by moments and a closed triangle, done by hand."""

from __future__ import annotations

import math
from xml.etree import ElementTree

import numpy as np

from beamcheck.checks.brackets.families.braced_strut import strut_picture
from beamcheck.checks.core.pictures.others import StrutPicture
from beamcheck.sheet.figures.brackets.strut import describe, strut_figure

SVG = "{http://www.w3.org/2000/svg}"
# 298 lb 15.76 in out, brace from 20 in down to 19 in out at 46.8 degrees: 298 x 15.76 / (19 sin 46.8) = 339 lb;
# 339 cos 46.8 = 232 lb level and 339 sin 46.8 = 247 lb upright (by hand)
BY_HAND = StrutPicture(
    "K2", "D + S", 298.0, 15.76, 19.0, 20.0, 46.8, 339.1, 232.1, 247.2, 3.5, 3.5, about_the_wall=True
)


def test_the_sketch_says_the_forces_and_how_to_redo_them() -> None:
    texts = ElementTree.fromstring(strut_figure(BY_HAND, "K2")).iter(f"{SVG}text")
    seen = [(text.text or "").replace("\u00a0", " ") for text in texts]
    assert {"pulled 232 lb", "pressed 339 lb", "P 298 lb", "closes at 46.8°"} <= set(seen)
    assert "brace: 298 lb × 15.8 in / (19 in × sin 46.8°) = 339 lb" in " ".join(seen)
    assert "on the joint of the legs, down: 50.8 lb" in seen
    assert "presses the brace with 339 lb" in describe(BY_HAND)


class _Force:
    """Two combinations; the second presses more."""

    beta = 45.0
    F, x_L = np.array([100.0, 200.0]), np.array([12.0, 12.0])
    N = np.array([100.0 / math.sin(math.radians(45.0)), 200.0 / math.sin(math.radians(45.0))])


class _Named:
    def __init__(self, name: str) -> None:
        self.name = name


class _Loads:
    combinations = (_Named("D"), _Named("D + L"))


class _Shape:
    brace_out, brace_down, wall_leg, top_leg = 12.0, 12.0, 2.0, 2.0


def test_the_combination_that_presses_the_brace_most_is_shown() -> None:
    """At 45 degrees under a load at the brace: N = P sqrt 2, and both ties take P (by hand)."""
    found = strut_picture("K", _Shape(), _Loads(), _Force())  # type: ignore[arg-type]
    assert found is not None
    assert found.combination == "D + L"
    assert math.isclose(found.brace, 200.0 * math.sqrt(2.0))
    assert math.isclose(found.level, 200.0)
    assert math.isclose(found.upright, 200.0)
    assert found.about_the_wall


def test_nothing_is_drawn_where_nothing_presses() -> None:
    idle = _Force()
    idle.N = np.zeros(2)
    assert strut_picture("K", _Shape(), _Loads(), idle) is None  # type: ignore[arg-type]
