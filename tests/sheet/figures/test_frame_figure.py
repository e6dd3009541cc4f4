"""The drawing of a frame: to scale, every member with its forces, the one that is meant dark."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from beamcheck.checks.core.pictures.others import FrameBar, FrameFootMark, FramePicture, StressMark
from beamcheck.sheet.figures.frame import DARK, frame_figure

BARS = (
    FrameBar("left rafter", 0.0, 0.0, 144.0, 96.0, 7.5, 7155.0, 0.0),
    FrameBar("right rafter", 144.0, 96.0, 288.0, 0.0, 7.5, 7155.0, 0.0),
    FrameBar("tie", 0.0, 0.0, 288.0, 0.0, 9.5, 310.0, 5550.0),
)  # fmt: skip
POINTS = (StressMark(0.0, 0.0, "left heel"), StressMark(144.0, 96.0, "ridge"), StressMark(288.0, 0.0, "right heel"))
FEET = (FrameFootMark(0.0, 0.0, "west wall", 4656.0, -120.0, 0.0), FrameFootMark(288.0, 0.0, "east wall", 4656.0, 0, 0))


def shapes(svg: str) -> list[tuple[str, list[tuple[float, float]]]]:
    """Fill and corners of each closed shape."""
    found = []
    for path in ElementTree.fromstring(svg).iter("{http://www.w3.org/2000/svg}path"):
        numbers = [float(x) for x in re.findall(r"-?\d+(?:\.\d+)?", path.get("d", ""))]
        if path.get("d", "").endswith("Z") and len(numbers) == 8:
            found.append((path.get("fill", ""), list(zip(numbers[::2], numbers[1::2], strict=True))))
    return found


def test_members_are_to_scale_and_the_one_that_is_meant_is_dark() -> None:
    """A tie 288 by 9.5 in is 30.3 times as long as high; the slope of a rafter is 96 to 144."""
    svg = frame_figure(FramePicture("truss", BARS, FEET, POINTS, (), "left rafter"), "truss")
    dark = [corners for fill, corners in shapes(svg) if fill == DARK]
    assert len(dark) == 1
    (x0, y0), (x1, y1), *_ = dark[0]
    assert (y0 - y1) / (x1 - x0) == pytest.approx(96 / 144, rel=1e-3)
    wide = [(max(x for x, _ in c) - min(x for x, _ in c), max(y for _, y in c) - min(y for _, y in c))
            for _, c in shapes(svg)]  # fmt: skip
    assert any(w / h == pytest.approx(288 / 9.5, rel=0.01) for w, h in wide if h > 0)


def test_forces_are_told_in_the_drawing_and_in_words() -> None:
    svg = frame_figure(FramePicture("truss", BARS, FEET, POINTS, ("roof dead 12 psf",)), "truss")
    texts = [element.text or "" for element in ElementTree.fromstring(svg).iter()]
    for words in ("− 7,155 lb", "+ 5,550 lb", "− 310 lb", "west wall", "lifts 120 lb", "roof dead 12 psf"):
        assert any(words in text for text in texts), words
    about = next(text for text in texts if "push 310 lb, pull 5,550 lb" in text)
    assert "2 ridge" in about
