"""The drawings of posts and rafters: to scale, with every figure that they are given, and text that stays text."""

from __future__ import annotations

import math
import re
from xml.etree import ElementTree

import pytest

from beamcheck.api import check_text
from beamcheck.checks.core.pictures.beams import CutMark
from beamcheck.checks.core.pictures.others import OnTop, PostPicture, RafterPicture, Way
from beamcheck.sheet.figures.post import describe, post_figure
from beamcheck.sheet.figures.rafter import rafter_figure

POST = PostPicture(
    "P1", 96.0, (Way("deep way", 7.5, 48.0, 1.25), Way("thin way", 5.5, None, None)), "footing",
    (OnTop("B1", 3311.0), OnTop("<B2>", 1200.0)), 4600.0, ("pinned", "fixed"),
    (CutMark(40.0, 44.0, 0.0, 1.0, "notch"),),
)  # fmt: skip
RAFTER = RafterPicture(
    "R1", 96.0, math.degrees(math.atan(8 / 12)), 7.25, 12.0, "plate", "ridge board", True, "", 806.0, -25.0,
    790.0, 38.9,
    1.25, 2.25, "T1", 0.0, 5.5, 504.0, ("snow 30 psf on plan",),
)  # fmt: skip


def words(svg: str) -> str:
    return " ".join(one.text or "" for one in ElementTree.fromstring(svg).iter() if one.tag.endswith("}text"))


def test_a_post_says_what_stands_on_it_how_it_is_held_and_braced() -> None:
    said = words(post_figure(POST, "P1"))
    for text in ("B1: 3,311 lb", "<B2>: 1,200 lb", "8 ft", "7.5 in side", "5.5 in side", "braced 4 ft", "not braced",
                 "1 1/4 in off center", "off center: not given", "on footing: 4,600 lb at most",
                 "top pinned, foot fixed"):  # fmt: skip
        assert text in said
    assert "Deep way: side 7.5 in, braced every 4 ft, load off center 1 1/4 in." in describe(POST)


def test_a_post_is_drawn_at_one_scale() -> None:
    """Width to height as 7.5 to 96 and 5.5 to 96."""
    shares = []
    for path in re.findall(r'd="M([^"]*)Z"[^>]*stroke-width="1.8"', post_figure(POST, "P1")):
        numbers = [float(one) for one in re.findall(r"-?[0-9.]+", path)]
        shares.append((max(numbers[::2]) - min(numbers[::2])) / (max(numbers[1::2]) - min(numbers[1::2])))
    assert shares == pytest.approx([7.5 / 96.0, 5.5 / 96.0], rel=0.01)


def test_a_rafter_says_its_cuts_and_forces() -> None:
    said = words(rafter_figure(RAFTER, "R1"))
    for text in ("slope 8:12", "run 8 ft", "snow 30 psf on plan", "806 lb", "lifts 25 lb", "plate", "opposite wall",
                 "level seat 2 1/4 in", "Tail: 12 in", "pressed by 790 lb", "pulled by 504 lb",
                 "mirror image"):  # fmt: skip
        assert text in said.replace("  ", " ")


def test_a_rafter_stands_at_its_slope() -> None:
    """The upper edge rises as 8 to 12."""
    (path, *_) = re.findall(r'd="M([^"]*)Z" fill="#f1f1f1"', rafter_figure(RAFTER, "R1"))
    points = [tuple(map(float, pair.split())) for pair in path.split("L")]
    (x0, y0), (x1, y1) = points[-2:]
    assert abs((y1 - y0) / (x1 - x0)) == pytest.approx(8 / 12, rel=0.01)


def test_the_pictures_come_with_the_results() -> None:
    result = check_text(JOB)
    (post,) = (piece for piece in result.pieces if piece.kind == "post")
    (picture,) = post.pictures
    assert isinstance(picture, PostPicture)
    assert picture.height == 96.0 and [way.side for way in picture.ways] == [5.5, 5.5]
    assert 3000.0 < picture.force < 3100.0  # dead and snow of the roof, and its own weight


JOB = """
[job]
title = "Invented porch"
standard = "NDS 2018"
loads = "ASCE 7-16"
invented = true
[[stock]]
name = "stick"
species = "Douglas Fir-Larch"
grade = "No.1"
size = "6x6 dressed"
moisture = "dry"
grade_from = "stamp"
evidence = "invented: stamp of an agency, No.1 Douglas Fir-Larch"
[[existing]]
name = "footing"
what = "invented footing"
material = "concrete"
[[post]]
name = "P1"
stock = "stick"
height = "8 ft"
on = "footing"
top_restraint = "pinned"
carries = [{ what = "roof", dead = "1000 lbf", snow = "2000 lbf" }]
"""
