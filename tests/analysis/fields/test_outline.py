"""Outlines of solid brackets: closed forms of plane geometry (derived), corners, and outlines that cannot be cut."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.analysis.fields.outline import MOST_POINTS, crossing, outline_of
from beamcheck.errors import OutOfRange
from beamcheck.model.brackets.bracket import Point, Solid


def solid(soffit="concave", H=10.0, P=10.0, a=2.0, b=2.0, points=(), **more):
    """A bracket without the checks of the job file, which would catch some faults before the outline does."""
    return Solid.model_construct(
        family="solid", thickness=more.pop("thickness", 1.5), height=H, projection=P, foot=a, nose=b, soffit=soffit,
        sagitta=more.pop("sagitta", None), points=tuple(Point.model_construct(x=x, y=y) for x, y in points), **more,
    )  # fmt: skip


def composite(H, P, a, b, area, x, y):
    """Area and centroid of the outline from those of the part between the box corner (a, b) and the soffit."""
    parts = [(a * H, a / 2, H / 2), ((P - a) * b, a + (P - a) / 2, b / 2), (area, x, y)]
    total = sum(part[0] for part in parts)
    return total, sum(A * cx for A, cx, _ in parts) / total, sum(A * cy for A, _, cy in parts) / total


def closed_form(soffit, H, P, a, b):
    """Table of section a of the calculation basis (derived)."""
    w, h, q = P - a, H - b, np.pi / 4
    if soffit == "straight":
        return composite(H, P, a, b, w * h / 2, a + w / 3, b + h / 3)
    if soffit == "convex":
        return composite(H, P, a, b, q * w * h, a + 4 * w / (3 * np.pi), b + 4 * h / (3 * np.pi))
    # box minus a quarter ellipse whose center is the far corner of the box
    rest = w * h * (1 - q)
    x = (w * h * w / 2 - q * w * h * (w - 4 * w / (3 * np.pi))) / rest
    y = (w * h * h / 2 - q * w * h * (h - 4 * h / (3 * np.pi))) / rest
    return composite(H, P, a, b, rest, a + x, b + y)


sizes = st.tuples(st.floats(4, 30), st.floats(4, 30), st.floats(0.1, 0.7), st.floats(0.1, 0.7))


@given(sizes, st.sampled_from(["straight", "convex", "concave"]))
@settings(max_examples=40, deadline=None)
def test_area_and_centroid_of_the_families(size, soffit):
    H, P, part_a, part_b = size
    a, b = part_a * P, part_b * H
    area, x, y = closed_form(soffit, H, P, a, b)
    outline = outline_of(solid(soffit, H, P, a, b))
    assert outline.area == pytest.approx(area, rel=1e-4)
    assert outline.centroid == pytest.approx((x, y), rel=1e-4)


@pytest.mark.parametrize(
    ("soffit", "size", "area", "centroid"),
    [
        ("straight", (12, 12, 2, 2), 94.0, (4.58156, 4.58156)),
        ("concave", (10, 10, 2, 2), 49.7345, (3.37817, 3.37817)),
    ],
)
def test_published_rows(soffit, size, area, centroid):
    """Cases B01 and B03 of the bracket checks (derived: closed form and polygon by another program)."""
    outline = outline_of(solid(soffit, *size))
    assert outline.area == pytest.approx(area, rel=1e-4)
    assert outline.centroid == pytest.approx(centroid, rel=1e-4)


def test_ogee_halves_the_box_and_runs_level_in_its_middle():
    outline = outline_of(solid("ogee", 14.0, 11.0, 2.0, 3.0))
    assert outline.area == pytest.approx(2 * 14 + 9 * 3 + 9 * 11 / 2, rel=1e-4)
    middle = len(outline.soffit) // 2
    assert outline.soffit[middle] == pytest.approx([6.5, 8.5])
    assert outline.tangent[[0, middle, -1]] == pytest.approx([90.0, 0.0, 90.0], abs=1e-6)
    assert outline.kinks == ()
    assert outline.radius[1] > 0.0 > outline.radius[-2]  # hollow below, full above


@pytest.mark.parametrize("sagitta", [0.3, 1.0, 2.0])
@pytest.mark.parametrize("soffit", ["hollow arc", "full arc"])
def test_arcs_by_their_sagitta(soffit, sagitta):
    """Circle segment r^2(phi - sin phi)/2 taken from, or added to, the triangle (elementary geometry)."""
    outline = outline_of(solid(soffit, 12.0, 10.0, 2.0, 2.0, sagitta=sagitta))
    chord = np.hypot(8.0, 10.0)
    r = (chord**2 / 4 + sagitta**2) / (2 * sagitta)
    phi = 2 * np.arcsin(chord / (2 * r))
    sign = -1.0 if soffit == "hollow arc" else 1.0
    area = 2 * 12 + 8 * 2 + 8 * 10 / 2 + sign * r * r * (phi - np.sin(phi)) / 2
    assert outline.area == pytest.approx(area, rel=1e-4)
    assert outline.radius == pytest.approx(np.full(len(outline.radius), -sign * r))
    middle = outline.at(np.array([0.5]))[0] - [6.0, 7.0]
    assert np.hypot(*middle) == pytest.approx(sagitta)


def test_tangent_angles_of_a_quarter_circle():
    outline = outline_of(solid("concave"))
    q = np.degrees(np.arctan2(10 - outline.soffit[:, 1], 10 - outline.soffit[:, 0]))  # seen from its center
    assert outline.tangent == pytest.approx(90.0 - q, abs=1e-9)
    assert outline.radius == pytest.approx(np.full(len(outline.radius), 8.0))


def test_depth_below_the_top_edge():
    outline = outline_of(solid("straight", 12.0, 12.0, 2.0, 2.0))
    assert outline.depth(1.0) == 12.0
    assert outline.depth(6.0) == pytest.approx(8.0)
    assert outline.depth(12.0) == pytest.approx(2.0)
    with pytest.raises(OutOfRange, match=r"x = 12.5 in is not on the top edge, which is 12 in long"):
        outline.depth(12.5)


STEPPED = [(2, 10), (2, 6), (5, 6), (5, 3), (10, 2)]


def test_corners_and_those_that_point_inwards():
    outline = outline_of(solid("points", points=STEPPED))
    assert [tuple(outline.soffit[i]) for i in outline.kinks] == [(2, 6), (5, 6), (5, 3)]
    assert [tuple(outline.soffit[i]) for i in outline.re_entrant] == [(2, 6), (5, 3)]
    assert outline.area == pytest.approx(2 * 10 + 3 * 6 + 5 * 2.5)


def test_points_of_a_curve_make_a_curve():
    """Twenty points on a quarter circle: no corner is left, and the area is that of the circle within a part in 300."""
    q = np.linspace(0, np.pi / 2, 20)
    outline = outline_of(solid("points", points=list(zip(10 - 8 * np.cos(q), 10 - 8 * np.sin(q), strict=True))))
    assert outline.kinks == ()
    assert outline.area == pytest.approx(outline_of(solid("concave")).area, rel=1 / 300)
    assert np.abs(np.hypot(*(outline.soffit - 10.0).T) - 8.0).max() < 1 / 32


def test_points_given_twice_and_ends_that_nearly_meet_are_taken():
    outline = outline_of(solid("points", points=[(2.01, 10), (5, 6), (5, 6), (10, 2)]))
    assert outline.soffit[0] == pytest.approx([2.0, 10.0])
    assert np.all(np.isfinite(outline.tangent))


@pytest.mark.parametrize(
    ("shape", "message"),
    [
        (solid("points", points=[(2, 10), (7, 3), (3, 3), (8, 8), (10, 2)]), "the outline crosses itself near"),
        (solid("points", points=[(2, 10), (5, 5), (3, 7), (10, 2)]), "the outline crosses itself near"),
        (solid("points", points=[(3, 10), (10, 2)]),
         r"the outline is open: the first point of the soffit is \(3, 10\) in, but the foot ends at \(2, 10\) in"),
        (solid("points", points=[(2, 10), (10, 3)]),
         r"the last point of the soffit is \(10, 3\) in, but the nose ends at \(10, 2\) in"),
        (solid("points", points=[(2, 10), (11, 5), (10, 2)]),
         r"leaves the box of height and projection at \(11, 5\) in: x must stay between 0 and 10 in"),
        (solid("points", points=[(2, 10), (5, 0), (10, 2)]), r"cuts through to the wall face or the top edge"),
        (solid("points", points=[(2, 10)]), "needs at least two"),
        (solid("points", points=[(2, 10), (float("nan"), 5), (10, 2)]), "a point of the soffit is not a number"),
        (solid("points", points=[(2, 10)] + [(2 + i / 100, 9.9) for i in range(MOST_POINTS)] + [(10, 2)]),
         "a soffit of 502 points; at most 500 are read"),
        (solid(thickness=0.0), "the thickness of a bracket must be more than zero, not 0 in"),
        (solid(thickness=float("nan")), "the thickness of a bracket must be more than zero"),
        (solid(P=0.0), "the projection of a bracket must be more than zero"),
        (solid(a=11.0), "the foot is 11 in deep, more than the projection of 10 in"),
        (solid(b=11.0), "the nose is 11 in deep, more than the height of 10 in"),
        (solid("straight", a=10.0, b=10.0), "no length is left for a soffit"),
        (solid("convex", a=10.0), "needs a foot less deep than the projection"),
        (solid("full arc"), "an arc needs its sagitta"),
        (solid("hollow arc", sagitta=6.0), r"a sagitta of 6 in is more than a half circle.*at most 5.657"),
        (solid("full arc", sagitta=4.0), "leaves the box of height and projection"),
        (solid("hollow arc", a=0.2, b=0.2, sagitta=7.0), "more than a half circle"),
    ],
)  # fmt: skip
def test_outlines_that_cannot_be_cut(shape, message):
    with pytest.raises(OutOfRange, match=message):
        outline_of(shape)


def test_crossing_of_a_bow_tie_and_of_a_square():
    square = np.array([[0, 0], [1, 0], [1, 1], [0, 1]], dtype=float)
    assert crossing(square) is None
    assert crossing(square[[0, 2, 1, 3]]) is not None


@given(st.lists(st.tuples(st.floats(-1, 12), st.floats(-1, 12)), max_size=8))
@settings(max_examples=60, deadline=None)
def test_any_points_give_an_outline_that_is_sound_or_a_plain_refusal(points):
    try:
        outline = outline_of(solid("points", points=[(2.0, 10.0), *points, (10.0, 2.0)]))
    except OutOfRange as error:
        assert str(error)
        return
    assert 0.0 < outline.area <= 100.0 + 1e-9
    x, y = outline.centroid
    assert 0.0 < x < 10.0 and 0.0 < y < 10.0
    assert np.all(np.isfinite(outline.tangent))
