"""The frame under one combination: push and pull told apart without color, and only forces that act together."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from beamcheck.checks.core.pictures.others import FrameBar, FrameFootMark, FrameForces, FramePicture, StressMark
from beamcheck.sheet.figures.frame_forces import DARK, WIDEST, forces_figure
from beamcheck.sheet.figures.svg import INK, PAPER

from ...checks.frames.jobs import checked, king, piece

# a pair of rafters 3 to 4 under 600 lb at the ridge: N = -500 lb, tie 400 lb, feet 300 lb (statics)
BARS = (
    FrameBar("left rafter", 0.0, 0.0, 48.0, 36.0, 5.5, 500.0, 0.0),
    FrameBar("right rafter", 48.0, 36.0, 96.0, 0.0, 5.5, 500.0, 0.0),
    FrameBar("tie", 0.0, 0.0, 96.0, 0.0, 5.5, 0.0, 400.0),
    FrameBar("idle post", 48.0, 0.0, 48.0, 36.0, 5.5, 0.0, 0.0),
)  # fmt: skip
POINTS = (StressMark(0.0, 0.0, "left"), StressMark(48.0, 36.0, "ridge"), StressMark(96.0, 0.0, "right"))
FEET = (FrameFootMark(0.0, 0.0, "wall", 300.0, 300.0, 0.0), FrameFootMark(96.0, 0.0, "pier", -120.0, -120.0, 0.0))
PATH = "{http://www.w3.org/2000/svg}path"


def drawn() -> ElementTree.Element:
    return ElementTree.fromstring(forces_figure(FrameForces("F", "D + S", BARS, FEET, POINTS), "F"))


def test_bands_arrows_and_signs_tell_push_from_pull() -> None:
    paths = list(drawn().iter(PATH))
    bands = [one for one in paths if one.get("fill") == DARK]
    arrows = [one for one in paths if one.get("fill") == INK and one.get("d", "").count("L") == 2 and
              float(one.get("stroke-width", "0")) == 1.2]  # fmt: skip
    assert len(bands) == 2 and len(arrows) == 4  # both rafters
    texts = [element.text or "" for element in drawn().iter()]
    assert texts.count("− 500 lb") == 2 and texts.count("+ 400 lb") == 1
    assert "lifts 120 lb" in texts and "Under D + S" in texts
    assert "idle post: next to nothing." in next(text for text in texts if "left rafter: pushed 500 lb" in text)


def test_arrows_of_what_is_pushed_point_to_its_ends() -> None:
    """Of the tie, level, the left arrow points right (away from its end); of a pushed one it would point left."""

    def tips(bar: FrameBar) -> list[float]:
        picture = FrameForces("F", "D", (bar,), (), POINTS)
        found = []
        for one in ElementTree.fromstring(forces_figure(picture, "F")).iter(PATH):
            d = one.get("d", "")
            if d.count("L") == 2 and d.endswith("Z"):
                xs = [float(point.split()[0]) for point in d[1:-1].split("L")]
                found.append(xs[0] - 0.5 * (xs[1] + xs[2]))
        return found

    left, right = tips(BARS[2])
    assert left > 0 > right
    left, right = tips(BARS[2]._replace(push=400.0, pull=0.0))
    assert left < 0 < right


def test_the_band_is_as_broad_as_the_force() -> None:
    """The largest has the full width."""
    found = [one.get("d", "") for one in drawn().iter(PATH) if one.get("fill") == PAPER and
             one.get("d", "").count("L") == 3]  # fmt: skip
    ys = [[float(point.split()[1]) for point in d[1:-1].split("L")] for d in found]
    level = [max(one) - min(one) for one in ys if one[0] == one[1]]
    assert any(high == pytest.approx(3.0 + (WIDEST - 3.0) * 0.8, abs=0.02) for high in level)  # 400 of 500 lb


def test_the_page_of_a_frame_draws_the_combinations_that_govern_its_members() -> None:
    result = checked(king())
    pictures = piece(result, "truss").pictures
    envelope, *under = pictures
    assert isinstance(envelope, FramePicture) and under
    members = [one for one in result.pieces if one.kind == "member"]
    found = [check for member in members for check in member.checks if check.combination]
    worst = max(found, key=lambda one: one.ratio or 0.0)
    assert isinstance(under[0], FrameForces) and under[0].under == worst.combination
    most = {bar.name: (bar.push, bar.pull) for bar in envelope.bars}
    for picture in under:
        assert isinstance(picture, FrameForces)
        for bar in picture.bars:
            assert bar.push <= most[bar.name][0] + 1e-9 and bar.pull <= most[bar.name][1] + 1e-9
        assert sum(foot.up for foot in picture.feet) == pytest.approx(sum(foot.least for foot in picture.feet))
    assert len({picture.under for picture in under if isinstance(picture, FrameForces)}) == len(under)
