"""Outlines of brackets from drawings: DXF and SVG that say the same, and what is wrong with a drawing in plain words.

The drawings are made here, with sizes chosen by hand; everything is invented.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from beamcheck.errors import BeamcheckError, UnknownName
from beamcheck.model.outlines.files import MOST_BYTES, read_outline
from beamcheck.model.outlines.profile import OutlineError, Profile
from beamcheck.model.reading.reader import read_job_text

from ..bracket_jobs import GOOD_BRACKETS

# 12 in high, 10 in out, 2 in at foot and nose; x out, y down
STRAIGHT = [(0.0, 0.0), (0.0, 12.0), (2.0, 12.0), (4.0, 9.0), (5.5, 4.0), (10.0, 2.0), (10.0, 0.0)]
QUARTER = 'd="M0,0 V{H} H{a} A{w},{h} 0 0 1 {P},{b} V0 Z"'
INCH = 'width="20in" height="20in" viewBox="0 0 20 20"'
SOFFIT = STRAIGHT[2:6]

Written = Callable[[str, str], Path]


@pytest.fixture
def drawn(tmp_path: Path) -> Written:
    def write(name: str, text: str) -> Path:
        path = tmp_path / name
        path.write_text(text)
        return path

    return write


def svg(body: str, page: str = INCH) -> str:
    return f'<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg" {page}>{body}</svg>'


def polygon(points: list[tuple[float, float]], factor: float = 1.0) -> str:
    return '<polygon points="' + " ".join(f"{x * factor!r},{y * factor!r}" for x, y in points) + '"/>'


def new(units: int = 1) -> tuple[Any, Any]:
    drawing = ezdxf.new()  # type: ignore[attr-defined]
    drawing.header["$INSUNITS"] = units
    return drawing, drawing.modelspace()


def up(points: list[tuple[float, float]], factor: float = 1.0) -> list[tuple[float, float]]:
    """As a DXF drawing counts y, moved away from its origin."""
    return [(7.0 + x * factor, 31.0 - y * factor) for x, y in points]


def saved(drawing: Any, tmp_path: Path) -> Path:
    path = tmp_path / "side.dxf"
    drawing.saveas(path)
    return path


def box(profile: Profile) -> tuple[float, float, float, float]:
    return profile.height, profile.projection, profile.foot, profile.nose


def refused(path: Path, units: str | None = None) -> str:
    with pytest.raises(OutlineError) as caught:
        read_outline(path, units)
    assert str(caught.value).startswith(f"{path}: ")
    return str(caught.value)


@pytest.mark.parametrize(
    ("units", "factor", "given_units"),
    [(1, 1.0, None), (4, 25.4, None), (5, 2.54, None), (6, 0.0254, None), (2, 1 / 12, None), (0, 25.4, "mm")],
)
def test_a_dxf_comes_back_within_a_millionth_of_an_inch(
    tmp_path: Path, units: int, factor: float, given_units: str | None
) -> None:
    """1 in = 25.4 mm = 2.54 cm = 0.0254 m = 1/12 ft; also through the text of the job file."""
    drawing, space = new(units)
    space.add_lwpolyline(up(STRAIGHT, factor), close=True)
    profile = read_outline(saved(drawing, tmp_path), given_units)
    assert box(profile) == pytest.approx((12, 10, 2, 2), abs=1e-6)
    assert np.array(profile.points) == pytest.approx(np.array(SOFFIT), abs=1e-6)
    job = read_job_text(_with_shape(profile))
    shape = job.bracket[0].shape
    assert shape.family == "solid"
    assert np.array([(p.x, p.y) for p in shape.points]) == pytest.approx(np.array(SOFFIT), abs=1e-6)


def _with_shape(profile: Profile) -> str:
    """The good job with the printed table in place of the first bracket's shape, its thickness filled in."""
    start = GOOD_BRACKETS.index("  [bracket.shape]")
    end = GOOD_BRACKETS.index("  [bracket.fixings]", start)
    table = profile.toml().replace('# thickness = "1 1/2 in"', 'thickness = "1 1/2 in"')
    return GOOD_BRACKETS[:start] + table + GOOD_BRACKETS[end:]


@given(
    st.lists(st.tuples(st.floats(0.5, 9.5), st.floats(2.5, 11.5)), min_size=0, max_size=6, unique_by=lambda p: p[0]),
    st.floats(8.0, 40.0),
)
@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_corners_of_any_drawing_come_back(tmp_path: Path, inner: list[tuple[float, float]], size: float) -> None:
    """A soffit that runs outwards and upwards from corner to corner: each corner is kept to within the tolerance."""
    xs, ys = sorted(x for x, _ in inner), sorted((y for _, y in inner), reverse=True)
    soffit = [(2.0, 12.0), *zip([max(x, 2.01) for x in xs], ys, strict=True), (10.0, 2.0)]
    ring = [(x * size / 12, y * size / 12) for x, y in [(0.0, 0.0), (0.0, 12.0), *soffit, (10.0, 0.0)]]
    drawing, space = new()
    space.add_lwpolyline(up(ring), close=True)
    profile = read_outline(saved(drawing, tmp_path))
    assert box(profile) == pytest.approx((size, size * 10 / 12, size / 6, size / 6), abs=2e-3)
    points = np.array(profile.points)
    for x, y in np.array(soffit) * size / 12:
        step = np.diff(points, axis=0)
        share = ((x, y) - points[:-1]) * step
        part = np.clip(share.sum(axis=1) / (step**2).sum(axis=1), 0, 1)[:, None]
        assert np.hypot(*(points[:-1] + part * step - (x, y)).T).min() <= 0.0031


def test_bulges_lines_arcs_splines_and_ellipses_of_a_dxf(tmp_path: Path) -> None:
    """A quarter circle of 8 in about (10, 10), from (2, 10) to (10, 2): the points lie on it, the straight pieces
    between them within 0.007 in (0.005 of the curve and 0.002 of the thinning)."""
    corners = [(0.0, 0.0), (0.0, 10.0), (2.0, 10.0), (10.0, 2.0), (10.0, 0.0)]
    flat = up(corners)
    found = []
    for kind in ("bulge", "mirrored", "arc", "ellipse", "spline", "old polyline"):
        drawing, space = new()
        # seen with y up the arc from (2, 10) to (10, 2) turns with the clock: its bulge is -tan(90/4 deg)
        bulge = -math.tan(math.pi / 8)
        if kind == "bulge":
            space.add_lwpolyline([(x, y, bulge if i == 2 else 0.0) for i, (x, y) in enumerate(flat)], "xyb", close=True)
        elif kind == "mirrored":  # drawn from behind: x counts the other way, and so do the turns
            points = [(-x, y, -bulge if i == 2 else 0.0) for i, (x, y) in enumerate(flat)]
            space.add_lwpolyline(points, "xyb", close=True, dxfattribs={"extrusion": (0, 0, -1)})
        elif kind == "old polyline":
            points = [(x, y, bulge if i == 2 else 0.0) for i, (x, y) in enumerate(flat)]
            space.add_polyline2d(points, format="xyb", close=True)
        else:
            for one, two in ((0, 1), (1, 2), (4, 3), (4, 0)):  # one of them the other way round
                space.add_line(flat[one], flat[two])
            middle = (17.0, 21.0)
            if kind == "arc":
                space.add_arc(middle, 8.0, 90.0, 180.0)
            elif kind == "ellipse":
                space.add_ellipse(middle, (8.0, 0.0), 1.0, math.pi / 2, math.pi)
            else:
                # a quarter circle as a rational spline: the weight of its middle point is cos 45 deg
                space.add_rational_spline(
                    [(9.0, 21.0), (9.0, 29.0), (17.0, 29.0)], [1.0, math.sqrt(0.5), 1.0], degree=2,
                    knots=[0, 0, 0, 1, 1, 1],
                )  # fmt: skip
        profile = read_outline(saved(drawing, tmp_path))
        assert box(profile) == pytest.approx((10, 10, 2, 2), abs=1e-6), kind
        points = np.array(profile.points)
        assert np.hypot(*(points - (10, 10)).T) == pytest.approx(8.0, abs=1e-6), kind
        chords = 0.5 * (points[:-1] + points[1:])
        assert (8.0 - np.hypot(*(chords - (10, 10)).T)).max() <= 0.007, kind
        found.append(len(points))
    assert max(found) < 60


def test_what_is_not_drawn_is_left_out_and_said(tmp_path: Path) -> None:
    drawing, space = new(4)
    space.add_lwpolyline(up(STRAIGHT, 25.4), close=True)
    space.add_text("side view")
    drawing.layers.add("old").freeze()
    space.add_line((0, 0), (5, 5), dxfattribs={"layer": "old"})
    profile = read_outline(saved(drawing, tmp_path))
    assert profile.notes == ("Left out of it: 1 x TEXT.",)
    assert (profile.unit, profile.source) == ("mm", "side.dxf")
    text = profile.toml()
    assert text.startswith(
        "# Outline read from side.dxf, in units of 1 mm.\n# Left out of it: 1 x TEXT.\n# Hold these sizes"
    )
    assert 'height = "12 in"\nprojection = "10 in"\nfoot = "2 in"\nnose = "2 in"\nsoffit = "points"\n' in text
    assert "thickness" not in text.replace("# thickness", "")


ROUND = {
    "inches": (svg(f"<path {QUARTER.format(H=12, a=2, w=8, h=10, P=10, b=2)}/>"), None),
    "millimetres": (
        svg(f"<path {QUARTER.format(H=304.8, a=50.8, w=203.2, h=254, P=254, b=50.8)}/>",
            'width="300mm" height="400mm" viewBox="0 0 300 400"'), None,
    ),
    "drawn to a scale": (
        svg(f"<path {QUARTER.format(H=6, a=1, w=4, h=5, P=5, b=1)}/>", 'width="20in" viewBox="0 0 10 10"'), None,
    ),
    "units given": (svg(f"<path {QUARTER.format(H=12, a=2, w=8, h=10, P=10, b=2)}/>", 'width="20" height="20px"'),
     "in"),
    "centimetres given": (
        svg(f"<path {QUARTER.format(H=30.48, a=5.08, w=20.32, h=25.4, P=25.4, b=5.08)}/>", 'viewBox="0 0 90 90"'), "cm",
    ),
    "in groups": (
        svg('<g transform="translate(3 4) rotate(90)"><g transform="rotate(-90), scale(2)">'
            f"<path {QUARTER.format(H=6, a=1, w=4, h=5, P=5, b=1)}/></g></g>"), None,
    ),
    "matrix and skews": (
        svg('<g transform="matrix(1 0 0 1 1 1) skewX(30) skewY(0)"><g transform="skewX(-30) rotate(0 3 3)">'
            f"<path {QUARTER.format(H=12, a=2, w=8, h=10, P=10, b=2)}/></g></g>"), None,
    ),
    "relative, packed": (svg('<path d="m1 1v12h2a8 10 0 018-10v-2z"/>'), None),
    "in pieces": (
        svg('<line x1="0" y1="0" x2="0" y2="12"/><polyline points="2 12 0 12"/><path d="M2 12A8 10 0 0 1 10 2V0H0"/>'),
        None,
    ),
    "hidden things": (
        svg('<!-- page --><defs><path d="M0 0H3"/></defs><g style="display:none"><path d="M0 0H3"/></g>'
            '<rect width="9" height="9" display="none"/><style>text {fill: red}</style><text>12 in</text>'
            f"<path {QUARTER.format(H=12, a=2, w=8, h=10, P=10, b=2)} style='text-transform:none'/>"), None,
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", ROUND)
def test_an_svg_with_a_quarter_ellipse(drawn: Written, name: str) -> None:
    """Half axes 8 and 10 in about (10, 12): each point lies on the ellipse to 1e-6 of it."""
    text, units = ROUND[name]
    profile = read_outline(drawn("side.svg", text), units)
    assert box(profile) == pytest.approx((12, 10, 2, 2), abs=1e-6)
    x, y = np.array(profile.points).T
    assert ((x - 10) / 8) ** 2 + ((y - 12) / 10) ** 2 == pytest.approx(1.0, abs=1e-6)
    assert 10 < len(x) < 80


@pytest.mark.parametrize(
    "curve",
    [
        "C3 12 6 10 6 7 C6 4 7 2 10 2",
        "c1 0 4 -2 4 -5 s1 -5 4 -5",
        "Q6 12 6 7 Q6 2 10 2",
        "q4 0 4 -5 t4 -5",
        "L6 12 L6 2 L10 2",
    ],
)
def test_curves_of_an_svg_path(drawn: Written, curve: str) -> None:
    """By de Casteljau's halving: the middle of each piece of curve lies within 0.007 in of the points' line."""
    profile = read_outline(drawn("side.svg", svg(f'<path d="M0 0V12H2{curve}V0Z"/>')))
    middles = {
        "C3 12 6 10 6 7 C6 4 7 2 10 2": [(4.375, 10.625), (6.875, 3.375)],  # (P0 + 3 P1 + 3 P2 + P3)/8
        "c1 0 4 -2 4 -5 s1 -5 4 -5": [(4.375, 10.625), (6.875, 3.375)],  # the mirrored control is (6, 4)
        "Q6 12 6 7 Q6 2 10 2": [(5.0, 10.75), (7.0, 3.25)],  # (P0 + 2 P1 + P2)/4
        "q4 0 4 -5 t4 -5": [(5.0, 10.75), (7.0, 3.25)],
        "L6 12 L6 2 L10 2": [(6.0, 5.0)],
    }[curve]
    points = np.array(profile.points)
    for place in middles:
        step = np.diff(points, axis=0)
        part = np.clip(((place - points[:-1]) * step).sum(axis=1) / (step**2).sum(axis=1), 0, 1)[:, None]
        assert np.hypot(*(points[:-1] + part * step - place).T).min() <= 0.007


def ring(*points: tuple[float, float]) -> str:
    return svg(polygon(list(points)))


SAW = "".join(f"L{2 + i * 0.007:.4f} {12 - 0.009 * i - 0.1 * (i % 2):.4f}" for i in range(1, 1001))
SHAPES = [
    (ring((0, 0), (0, 12), (2, 12), (8, 10), (3, 5), (3, 9), (10, 2), (10, 0)),
     "crosses or touches itself at (5, 7) in"),
    (svg('<path d="M0 0V12H2L10 2V0.5"/>'),
     "the outline is open: between (0, 0) in of the drawing and (10, 0.5) in of the drawing is a gap of 10.01 in"),
    (svg('<path d="M0 0V12H2L10 2V0H0.02"/>'), "is a gap of 0.02 in"),
    (svg(polygon(STRAIGHT) + '<circle cx="3" cy="3" r="0.5"/>'), "there are 2 closed outlines: leave only that of one"),
    (svg(polygon(STRAIGHT) + '<line x1="12" y1="0" x2="12" y2="3"/>'), "make 1 closed and 1 open outlines instead of"),
    (svg('<path d="M0 0V12H2"/><path d="M2.1 12L10 2V0H0.3"/>'),
     "make 0 closed and 2 open outlines instead of one that is closed; the nearest open ends, at (2, 12)"),
    (svg('<path d="M0 0V12H2L10 2V0"/><path d="M10 0H0"/><path d="M10 0H12"/>'),
     "more than two lines meet at (10, 0) in"),
    (svg('<path d="M0 0V12H2L10 2V0"/><path d="M10 0H0"/><path d="M10 0H0"/>'), "or lie on each other there"),
    (ring((0, 0), (1, 12), (3, 12), (10, 2), (10, 0)), "the outline has no upright wall face at its left"),
    (ring((0, 1), (0, 12), (2, 12), (10, 2), (10, 0), (1, 0)),
     "no top edge that meets the wall face, in a square corner"),
    (ring((0, 0), (0, 12), (2, 12), (10, 3), (10, 1)),
     "the outline has no level top edge: draw it with the wall on its"),
    (ring((0, 0), (3, 12), (5, 12), (10, 2), (10, 0)), "no upright wall face at its left: draw it"),
    (ring((0, 0), (0, 12), (10, 2), (10, 0)), "at its foot the bracket comes to an edge 0 in deep: draw a level foot"),
    (ring((0, 0), (0, 12), (2, 12), (10, 0)),
     "at its nose the bracket comes to an edge 0 in deep: draw an upright nose"),
    (ring((0, 0), (0, 12), (2, 12), (11, 6), (10, 2), (10, 0)), "reaches 1 in further out than its top edge"),
    (ring((0, 0), (0, 12), (2, 12), (4, 13), (10, 2), (10, 0)), "reaches 1 in further down than its wall face"),
    (ring((0, 0), (0, 12), (10, 12), (10, 0)), "this is a plain block without a soffit"),
    (svg(polygon(STRAIGHT, 20.0)),
     "the outline is 200 x 240 in: no bracket is larger than 120 in; are the units right?"),
    (svg(polygon(STRAIGHT, 0.03)), "the outline is 0.3 x 0.36 in: no bracket is smaller than 0.5 in; are the units"),
    (svg(""), "there is no outline in the drawing"),
    (svg(f'<path d="M0 0V12H2{SAW}L10 2V0Z"/>'), "and 500 are read: draw it with smoother lines"),
    (svg('<path d="M0 0L0 0"/>' * 5001), "more than 2,000 lines are no outline of a bracket"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "said"), SHAPES)
def test_outlines_that_are_none(drawn: Written, text: str, said: str) -> None:
    assert said in refused(drawn("side.svg", text))


GOOD_PATH = polygon(STRAIGHT)
SVGS = [
    (svg(GOOD_PATH, ""), "does not say how large its units are"),
    (svg(GOOD_PATH, 'width="20in"'), "give --units in, mm or cm"),  # without a viewBox: pixels of whatever size
    (svg(GOOD_PATH, 'width="100%" viewBox="0 0 20 20"'), "give --units in, mm or cm"),
    (svg(GOOD_PATH, 'width="20in" height="10in" viewBox="0 0 20 20"'), "the drawing would be stretched"),
    (svg(GOOD_PATH, 'width="0in" viewBox="0 0 20 20"'), "the drawing would be stretched"),
    (svg(GOOD_PATH, 'width="20in" viewBox="0 0 20"'), "its viewBox is not four numbers"),
    (svg(GOOD_PATH, 'width="20furlong" viewBox="0 0 20 20"'), "its width '20furlong' is not a length"),
    ("<html><body/></html>", "this is no SVG drawing: it begins with <html>"),
    ("not a drawing", "this is no SVG drawing: syntax error: line 1"),
    ("", "this is no SVG drawing: no element found"),
    (svg(GOOD_PATH)[:-3], "this is no SVG drawing: unclosed token"),
    ('<?xml version="1.0" encoding="klingon"?><svg/>', "this is no SVG drawing: unknown encoding"),
    (
        '<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><svg>&b;</svg>',
        "declarations within a document type are not",
    ),
    (svg('<use href="#a"/>'), "a copy by <use> is not read"),
    (svg("<svg/>"), "<svg> within <svg>"),
    (svg("<g>" * 300 + "</g>" * 300), "groups within groups, too deep"),
    (svg('<g transform="spin(3)"/>'), "the transform 'spin(3)' is not understood"),
    (svg('<g transform="rotate(1 2)"/>'), "rotate of a transform does not take 2 numbers"),
    (svg('<g style="transform: scale(2)"/>'), "a transform within a style is not read"),
    (svg("<style>path { transform: scale(2) }</style>"), "a transform within a style is not read"),
    (svg('<path d="L3 3"/>'), "a path begins with M"),
    (svg('<path d="M3"/>'), "a path cannot be read at '': a number is missing"),
    (svg('<path d="M0 0 X"/>'), "a path cannot be read at 'X': a letter of path data is expected"),
    (svg('<path d="M0 0 A1 1 0 2 0 3 3"/>'), "a flag of an arc is 0 or 1"),
    (svg('<path d="M0 0 L1e9 3"/>'), "1e9 cannot be right in a path"),
    (svg('<path d="M0 0' + "h1" * 20_002 + '"/>'), "a path of more than 20,000 lines and curves"),
    (svg('<polygon points="0 0 1"/>'), "the points of a <polygon> are pairs, but there are 3 numbers"),
    (svg('<polygon points="0 0 x 1"/>'), "'x 1' is not a number, in points of a <polygon>"),
    (svg('<rect width="3" height="3" rx="1"/>'), "rounded corners of a <rect> are not read"),
    (svg('<circle r="3 4"/>'), "r of a <circle> is not one number: '3 4'"),
    (svg('<rect width="1in" height="3"/>'), "'in' is not a number, in width of a <rect>"),
    (svg('<ellipse cx="3" cy="3" rx="3" ry="2"/>'), "no upright wall face at its left"),
]


@pytest.mark.parametrize(("text", "said"), SVGS)
def test_svg_files_that_are_refused(drawn: Written, text: str, said: str) -> None:
    assert said in refused(drawn("side.svg", text))


def test_units_that_the_drawing_contradicts_or_leaves_open(drawn: Written, tmp_path: Path) -> None:
    millimetres = drawn("side.svg", svg(polygon(STRAIGHT, 25.4), 'width="300mm" viewBox="0 0 300 300"'))
    assert "the drawing says that its unit is mm, not in: leave --units out" in refused(millimetres, "in")
    assert read_outline(millimetres, "mm") == read_outline(millimetres)
    scaled = drawn("scaled.svg", svg(GOOD_PATH, 'width="300" viewBox="0 0 100 100"'))
    assert 'its viewBox 100: which of them is in mm? Write its width with a unit, such as width="100mm"' in refused(
        scaled, "mm"
    )
    drawing, space = new(0)
    space.add_lwpolyline(up(STRAIGHT), close=True)
    path = saved(drawing, tmp_path)
    assert "the drawing does not say its unit: give --units in, mm or cm" in refused(path)
    assert box(read_outline(path, "in")) == pytest.approx((12, 10, 2, 2), abs=1e-9)
    drawing.header["$INSUNITS"] = 13
    assert "is in a unit that is not read ($INSUNITS 13): give" in refused(saved(drawing, tmp_path))
    drawing.header["$INSUNITS"] = 6
    assert "its unit is m, not in: leave --units out, or correct" in refused(saved(drawing, tmp_path), "in")
    with pytest.raises(UnknownName, match="unit of a drawing 'inch' is not known"):
        read_outline(path, "inch")


def _text(drawing: Any, space: Any) -> None:
    space.add_text("nothing else")


def _block(drawing: Any, space: Any) -> None:
    drawing.blocks.new("side").add_lwpolyline(up(STRAIGHT), close=True)
    space.add_blockref("side", (0, 0))


def _tilted(drawing: Any, space: Any) -> None:
    space.add_polyline3d([(x, y, 0.1 * x) for x, y in up(STRAIGHT)], close=True)


def _mesh(drawing: Any, space: Any) -> None:
    space.add_polyface()


def _many(drawing: Any, space: Any) -> None:
    for i in range(5001):
        space.add_line((i, 0), (i, 1))


def _gap(drawing: Any, space: Any) -> None:
    points = up(STRAIGHT)
    for one, two in pairwise(points):
        space.add_line(one, two)


@pytest.mark.parametrize(
    ("draw", "said"),
    [
        (_text, "there is no outline in the drawing"),
        (_block, "it holds a block (INSERT): take it apart (explode it) into lines and arcs"),
        (_tilted, "the drawing is not flat, its lines lie at different z"),
        (_mesh, "a POLYLINE that is a mesh is no outline"),
        (_many, "5,001 lines are no outline of a bracket"),
        (
            _gap,
            "the outline is open: between (7, 31) in of the drawing and (17, 31) in of the drawing is a gap of 10 in",
        ),
    ],
)
def test_dxf_files_that_are_refused(tmp_path: Path, draw: Callable[[Any, Any], None], said: str) -> None:
    drawing, space = new()
    draw(drawing, space)
    assert said in refused(saved(drawing, tmp_path))


def test_files_that_cannot_be_read(drawn: Written, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert "there is no such file" in refused(tmp_path / "none.dxf")
    assert "this is a folder: name the drawing in it" in refused(tmp_path)
    assert "the name of a drawing ends in .dxf or .svg" in refused(drawn("side.pdf", "x"))
    assert "this is no DXF drawing that can be read: " in refused(drawn("side.dxf", "0\nSECTION\nrubbish"))
    assert "this is no DXF drawing that can be read: " in refused(drawn("side.dxf", ""))
    assert "larger than 5 MB" in refused(drawn("side.svg", " " * (MOST_BYTES + 1)))
    with pytest.raises(OutlineError, match="cannot be read: "):
        read_outline("a\0b.svg")
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    text = refused(drawn("side.dxf", "x"))
    assert 'needs a library that is not installed here: pip install "whatcarries[drawings]"' in text


def _read(path: Path) -> None:
    """What is said of it can be written to a terminal."""
    try:
        assert all(note.encode() for note in read_outline(path, "in").notes)
    except BeamcheckError as error:
        assert str(error).encode()


@settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.sampled_from([text for text, _ in ROUND.values()]), st.integers(0, 400), st.integers(0, 9), st.text(max_size=4)
)
def test_a_damaged_svg_is_read_or_refused_in_words(tmp_path: Path, text: str, at: int, length: int, new: str) -> None:
    path = tmp_path / "side.svg"
    path.write_bytes((text[:at] + new + text[at + length :]).encode("utf-8", "surrogatepass"))
    _read(path)


@settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(st.sampled_from("MmLlHhVvCcSsQqTtAaZz"), max_size=12), st.lists(st.floats(-20, 20), min_size=1, max_size=9)
)
def test_any_path_is_read_or_refused_in_words(tmp_path: Path, letters: list[str], values: list[float]) -> None:
    data = "M0 0" + "".join(f"{letter} {' '.join(map(repr, values))}" for letter in letters)
    path = tmp_path / "side.svg"
    path.write_text(svg(f'<path d="{data}"/>'))
    _read(path)


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.integers(0, 100_000), st.binary(max_size=6), st.integers(0, 30))
def test_a_damaged_dxf_is_read_or_refused_in_words(tmp_path: Path, at: int, new_bytes: bytes, length: int) -> None:
    drawing, space = new()
    space.add_lwpolyline(up(STRAIGHT), close=True)
    path = saved(drawing, tmp_path)
    raw = path.read_bytes()
    start = at % len(raw)
    path.write_bytes(raw[:start] + new_bytes + raw[start + length :])
    _read(path)
