"""Soffits as points, crossings, thinning: against closed forms of the bracket reference and by hand."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.model.brackets.bracket import Solid
from beamcheck.model.outlines.geometry import dense, first_crossing, simplified, soffit_of

make: Any = Solid


def solid(soffit: str, **more: str) -> Solid:
    """12 in high, 10 in out, 2 in at the foot, 3 in at the nose: w = 8, h = 9."""
    made = make(
        family="solid", thickness="1 in", height="12 in", projection="10 in", foot="2 in", nose="3 in", soffit=soffit,
        **more,
    )  # fmt: skip
    assert isinstance(made, Solid)
    return made


def area(shape: Solid) -> float:
    """Shoelace over wall face, foot, soffit, nose and top edge."""
    x, y = np.vstack(([(0.0, 0.0), (0.0, shape.height)], soffit_of(shape), [(shape.projection, 0.0)])).T
    return float(0.5 * abs(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1))))


# area between the corner (foot, nose) and the curve: brackets.md, section a (derived there)
CORNER = {
    "straight": 8 * 9 / 2,
    "concave": 8 * 9 * (1 - math.pi / 4),
    "convex": math.pi * 8 * 9 / 4,
    "ogee": 8 * 9 / 2,
}


@pytest.mark.parametrize("soffit", CORNER)
def test_areas_under_the_soffits(soffit: str) -> None:
    """A = a H + w b + A3; 256 chords of an ellipse miss it by some 1e-5 of its area."""
    assert area(solid(soffit)) == pytest.approx(2 * 12 + 8 * 3 + CORNER[soffit], rel=3e-5)


@pytest.mark.parametrize(("soffit", "sign"), [("hollow arc", -1), ("full arc", 1)])
def test_arcs_are_circles_of_their_sagitta(soffit: str, sign: int) -> None:
    """r = (c^2/4 + s^2)/(2 s) for the chord c; the segment r^2 (phi - sin phi)/2, phi = 2 asin(c / 2r) (section a)."""
    s, c = 1.5, math.hypot(8, 9)
    r = (c * c / 4 + s * s) / (2 * s)
    phi = 2 * math.asin(c / (2 * r))
    shape = solid(soffit, sagitta="1.5 in")
    points = soffit_of(shape)
    middle = np.array([6.0, 7.5]) + sign * (s - r) * np.array([9, 8]) / c
    assert np.hypot(*(points - middle).T) == pytest.approx(r, rel=1e-12)
    assert points[0] == pytest.approx((2, 12), abs=1e-12) and points[-1] == pytest.approx((10, 3), abs=1e-12)
    expected = 2 * 12 + 8 * 3 + 36 + sign * r * r * (phi - math.sin(phi)) / 2
    assert area(shape) == pytest.approx(expected, rel=1e-5)  # 256 chords: 2 (phi/256)^2/12 of the segment


SQUARE = [(0, 0), (0, 4), (4, 4), (4, 0)]


@pytest.mark.parametrize(
    ("ring", "found"),
    [
        (SQUARE, None),
        ([(0, 0), (0, 4), (2, 4), (4, 4), (4, 0)], None),  # points along an edge
        ([(0, 0), (4, 4), (0, 4), (4, 0)], (0, 2, 2.0, 2.0)),  # an hourglass: its diagonals cross in the middle
        ([(0, 0), (0, 4), (4, 4), (0, 2), (4, 0)], (0, 2, 0.0, 2.0)),  # a corner on the wall
        ([(0, 0), (0, 4), (4, 4), (2, 4), (4, 0)], (1, 2, 2.0, 4.0)),  # a fold back along the foot
        ([(0, 0), (0, 4), (-4, 4), (4, 4), (4, 0)], (1, 2, 0.0, 4.0)),
    ],
)
def test_crossings(ring: list[tuple[float, float]], found: tuple[int, int, float, float] | None) -> None:
    got = first_crossing(np.array(ring, dtype=float))
    assert got == found or (got is not None and found is not None and got[2:] == found[2:])


@settings(deadline=None, max_examples=30)
@given(st.integers(3, 600), st.floats(0.0, 0.9))
def test_a_star_shaped_ring_never_crosses_and_a_swap_does(count: int, ripple: float) -> None:
    q = np.arange(count) * 2 * np.pi / count
    ring = 10 * (1 + ripple * np.sin(5 * q))[:, None] * np.column_stack((np.cos(q), np.sin(q)))
    assert first_crossing(ring) is None
    if count > 3:  # two corners of a convex ring taken in the wrong order always make it cross
        circle = np.column_stack((np.cos(q), np.sin(q)))
        circle[[0, 1]] = circle[[1, 0]]
        assert first_crossing(10 * circle) is not None


@given(st.lists(st.tuples(st.floats(0, 10), st.floats(0, 10)), min_size=2, max_size=80), st.floats(1e-4, 1.0))
def test_thinning_keeps_the_ends_and_stays_within_the_tolerance(line: list[tuple[float, float]], off: float) -> None:
    points = np.array(line)
    thin = simplified(points, off, len(points))
    assert (thin[0] == points[0]).all() and (thin[-1] == points[-1]).all() and len(thin) <= len(points)
    for point in points:
        start, step = thin[:-1], np.diff(thin, axis=0)
        length2 = np.maximum((step**2).sum(axis=1), 1e-300)
        share = np.clip(((point - start) * step).sum(axis=1) / length2, 0, 1)[:, None]
        assert np.hypot(*(start + share * step - point).T).min() <= off + 1e-12


def test_points_in_between() -> None:
    line = dense(np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 0.3)]), 0.25)
    assert np.hypot(*np.diff(line, axis=0).T).max() <= 0.25 + 1e-12
    assert len(line) == 1 + 4 + 2
