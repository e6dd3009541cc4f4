"""The drawing of a joint: members at their angles, fasteners where they are, forces in words."""

from __future__ import annotations

import math
import re
from xml.etree import ElementTree

import pytest

from beamcheck.checks.core.pictures.others import JointBar, JointHole, JointPicture
from beamcheck.sheet.figures.joint import describe, joint_figure

PICTURE = JointPicture(
    "heel",
    (
        JointBar("tie", 0.0, 9.5, False, 0.0, 3640.0, 73.0, (JointHole(3.0, 0.0, 0.75), JointHole(7.0, 0.0, 0.75))),
        JointBar("rafter", 33.69, 7.5, False, 4684.0, 0.0, 463.0, ()),
    ),
    "west wall",
    ("notch 1 3/4 in deep, 12 in of wood behind it",),
)
SVG = "{http://www.w3.org/2000/svg}"


def test_members_lie_at_their_angles_and_fasteners_to_one_scale() -> None:
    drawn = ElementTree.fromstring(joint_figure(PICTURE, "heel"))
    paths = [path.get("d", "") for path in drawn.iter(f"{SVG}path")]
    shapes = [[tuple(map(float, pair.split())) for pair in re.findall(r"-?[\d.]+ -?[\d.]+", path)] for path in paths]
    bars = [points for points in shapes if len(points) == 4]
    assert len(bars) == 2
    angles, deep = [], []
    for a, b, c, _ in bars:
        angles.append(math.degrees(math.atan2(a[1] - b[1], b[0] - a[0])))
        deep.append(math.dist(b, c))
    assert sorted(angles) == pytest.approx([0.0, 33.69], abs=0.1)
    assert max(deep) / min(deep) == pytest.approx(9.5 / 7.5, rel=0.01)
    rings = [(float(one.get("cx", "0")), float(one.get("r", "0"))) for one in drawn.iter(f"{SVG}circle")]
    places = sorted(x for x, r in rings if 1.0 < r < 7.0)
    assert places[1] - places[0] == pytest.approx(4.0 * max(deep) / 9.5, rel=0.02)


def test_it_is_told_in_words() -> None:
    said = describe(PICTURE)
    assert "tie: pulls 3,640 lb, square to it 73 lb." in said and "rafter: pushes 4,684 lb" in said
    assert "12 in of wood behind it" in said
