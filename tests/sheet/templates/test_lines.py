"""Templates: the lines of brackets and hole patterns, and the DXF and SVG drawings of them read back.

Expected places are closed forms of circle and ellipse typed here; nothing is taken from what the code draws.
"""

from __future__ import annotations

import io
import math
import re
from typing import Any
from xml.etree import ElementTree

import ezdxf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.errors import BeamcheckError, UnknownName
from beamcheck.model.brackets.bracket import Bracket
from beamcheck.sheet.templates.dxf import template_dxf
from beamcheck.sheet.templates.geometry import Hole, Round, Template
from beamcheck.sheet.templates.shapes import Drawn, bracket_drawn, hole_diameter
from beamcheck.sheet.templates.svg import template_svg

NEAR = 1e-6  # in
SOLID = {
    "family": "solid", "thickness": "1 1/2 in", "height": "11 in", "projection": "9 in", "foot": "2 1/4 in",
    "nose": "2 in", "soffit": "concave", "grain": "upright",
}  # fmt: skip
FIXINGS = {
    "fastener": {"kind": "lag screw", "size": "1/4 in", "length": "5 in", "counterbore": "3/4 in",
                 "counterbore_depth": "3/4 in"},
    "rows": [{"below_top": "2 1/2 in", "count": 1}, {"below_top": "9 1/2 in", "count": 1}],
}  # fmt: skip
PLIERS = '<b>&amp; %%d \\U+0041 ^J #eval("1") \x07'


def bracket(shape: dict[str, Any], **more: Any) -> Bracket:
    return Bracket.model_validate(
        {"name": "K1", "role": "carries", "stock": "board", "on": "wall", "shape": shape, **more}
    )


def template(drawn: Drawn, **more: Any) -> Template:
    said: dict[str, Any] = {
        "name": "K1", "title": "Bracket K1", "verdict": "passes", "banner": "CARRIES", "stop": False,
        "caution": "Caution text.", "sign_off": "Sign here: ____", "job": "Invented", "version": "0.0",
        "fingerprint": "f" * 64,
    }  # fmt: skip
    return Template(
        **{**said, **more}, contours=tuple(drawn.contours), holes=tuple(drawn.holes), grain=tuple(drawn.grain),
        measures=tuple(drawn.measures), labels=tuple(drawn.labels),
    )  # fmt: skip


def read(text: str) -> Any:
    drawing = ezdxf.read(io.StringIO(text))  # type: ignore[attr-defined]
    audit = drawing.audit()
    assert not audit.errors and not audit.fixes
    return drawing


def test_concave_soffit_reads_back_as_one_closed_polyline_along_the_quarter_ellipse() -> None:
    """Center (P, 0), half axes P - a and H - b, from (a, 0) to (P, H - b), wall on the left, y up (closed form).

    The middle of an arc lies bulge times half the chord beside the middle of the chord (geometry of a circle).
    """
    space = read(template_dxf(template(bracket_drawn(bracket(SOLID))))).modelspace()
    assert not space.query("ELLIPSE")
    (line,) = space.query('LWPOLYLINE[layer=="CUT"]')
    assert line.closed
    points = [tuple(map(float, point)) for point in line.get_points("xyb")]
    curve = [(one, two) for one, two in zip(points, [*points[1:], points[0]], strict=True) if one[2]]
    assert len(curve) > 10
    for (x0, y0, bulge), (x1, y1, _) in curve:
        for share in (0.0, 0.25, 0.5, 0.75, 1.0):
            # on the arc by its own circle: sagitta h, radius r, middle of the circle
            dx, dy = x1 - x0, y1 - y0
            chord = math.hypot(dx, dy)
            h = 0.5 * bulge * chord
            r = (0.25 * chord**2 + h**2) / (2.0 * h)
            ux, uy = dx / chord, dy / chord
            along = (share - 0.5) * chord
            off = math.copysign(math.sqrt(r * r - along**2), r) - (r - h)
            x, y = 0.5 * (x0 + x1) + along * ux + off * uy, 0.5 * (y0 + y1) + along * uy - off * ux
            level = math.hypot((x - 9.0) / 6.75, y / 9.0)
            assert abs(level - 1.0) * 9.0 < 0.0005  # in, as the drawing says of itself
    corners = [(x, y) for x, y, bulge in points if bulge == 0.0]
    wanted = [(9.0, 9.0), (9.0, 11.0), (0.0, 11.0), (0.0, 0.0)]
    for place, corner in zip(corners, wanted, strict=True):
        assert place == pytest.approx(corner, abs=NEAR)
    assert curve[0][0][:2] == pytest.approx((2.25, 0.0), abs=NEAR)


@settings(max_examples=25, deadline=None)
@given(
    height=st.floats(6.0, 40.0), projection=st.floats(6.0, 40.0), part=st.floats(0.05, 0.48),
    soffit=st.sampled_from(["hollow arc", "full arc"]),
)  # fmt: skip
def test_arc_soffit_reads_back_as_one_closed_polyline_with_its_bulge(
    height: float, projection: float, part: float, soffit: str
) -> None:
    """Bulge = tan(quarter of the angle) = 2 sagitta / chord (DXF reference, memory; geometry of a circle)."""
    foot, nose = (2.0, 0.0), (projection, height - 2.0)
    chord = math.dist(foot, nose)
    sagitta = part * min(chord, 4.0) * 0.5
    shape = {
        **SOLID, "height": f"{height:.6f} in", "projection": f"{projection:.6f} in", "foot": "2 in", "nose": "2 in",
        "soffit": soffit, "sagitta": f"{sagitta:.6f} in",
    }  # fmt: skip
    try:
        drawn = bracket_drawn(bracket(shape))
    except BeamcheckError:  # an arc that leaves the box of height and projection is no bracket
        return
    space = read(template_dxf(template(drawn))).modelspace()
    (line,) = space.query('LWPOLYLINE[layer=="CUT"]')
    assert line.closed
    ((x, y, bulge),) = [point for point in line.get_points("xyb") if point[2]]
    chord = math.dist((2.0, 0.0), (round(projection, 6), round(height, 6) - 2.0))
    assert (x, y) == pytest.approx((2.0, 0.0), abs=NEAR)
    assert abs(bulge) == pytest.approx(2.0 * round(sagitta, 6) / chord, abs=1e-9)
    assert (bulge < 0.0) == (soffit == "hollow arc")  # counterclockwise bulges away from the wood's corner O


def test_millimetres_are_written_with_their_unit() -> None:
    """$INSUNITS 1 is the inch, 4 the millimetre (DXF reference, memory)."""
    drawn = bracket_drawn(bracket(SOLID, fixings=FIXINGS))
    for units, code, factor in (("in", 1, 1.0), ("mm", 4, 25.4)):
        drawing = read(template_dxf(template(drawn), units))
        assert drawing.header["$INSUNITS"] == code and drawing.dxfversion == "AC1024"
        assert {"CUT", "DRILL", "GRAIN", "NOTES"} <= {layer.dxf.name for layer in drawing.layers}
        rings = sorted(drawing.modelspace().query('CIRCLE[layer=="DRILL"]'), key=lambda one: -one.dxf.center.y)
        # 1/4 in lag screws in the middle of the 1 1/2 in wide face, 1 1/2 in beside the nose at 9 in
        for ring, below in zip(rings, (2.5, 9.5), strict=True):
            assert ring.dxf.radius == pytest.approx(0.125 * factor, abs=NEAR)
            assert ring.dxf.center.y == pytest.approx((11.0 - below) * factor, abs=NEAR)
            assert ring.dxf.center.x == pytest.approx((9.0 + 1.5 + 0.75) * factor, abs=NEAR)


def test_same_template_is_the_same_file() -> None:
    made = [template_dxf(template(bracket_drawn(bracket(SOLID)))) for _ in range(2)]
    assert made[0] == made[1]
    assert made[0].startswith("999\ngenerator: whatcarries ")


def test_texts_of_the_job_stay_texts_in_a_drawing() -> None:
    made = template(bracket_drawn(bracket(SOLID)), title=PLIERS, stop=True, banner="DO NOT BUILD FROM THIS: it fails")
    said = [one.dxf.text for one in read(template_dxf(made)).modelspace().query("TEXT")]
    assert any("DO NOT BUILD FROM THIS" in line for line in said)
    assert any("Caution text." in line for line in said) and any("Sign here" in line for line in said)
    assert any("<b>&amp; % %d" in line for line in said)
    root = ElementTree.fromstring(template_svg(made))
    texts = ["".join(one.itertext()) for one in root.iter("{http://www.w3.org/2000/svg}text")]
    assert any(line.startswith("<b>&amp; %%d") for line in texts) and "DO NOT BUILD FROM THIS: it fails" in texts
    assert not list(root.iter("{http://www.w3.org/2000/svg}b"))


@pytest.mark.parametrize(("units", "factor"), [("in", 1.0), ("mm", 25.4)])
def test_svg_is_as_large_as_it_says(units: str, factor: float) -> None:
    """Width over viewBox is one: a unit of the drawing is a unit on paper. Radii: P - a and H - b (closed form)."""
    root = ElementTree.fromstring(template_svg(template(bracket_drawn(bracket(SOLID))), units))
    left, top, wide, high = map(float, root.attrib["viewBox"].split())
    assert root.attrib["width"] == f"{wide:.7f}".rstrip("0").rstrip(".") + units
    assert float(root.attrib["height"].removesuffix(units)) == pytest.approx(high) and (left, top) == (0.0, 0.0)
    (cut,) = [one for one in root if one.get("id") == "CUT"]
    path = cut[0].attrib["d"]
    rx, ry, end_x, end_y = map(float, re.search(r"A(\S+) (\S+) \S+ 0 \d (\S+) (\S+?)L", path).groups())  # type: ignore[union-attr]
    assert (rx, ry) == pytest.approx((6.75 * factor, 9.0 * factor), abs=NEAR * factor)
    x, y = map(float, re.match(r"M(\S+) ([^LA]+)", path).groups())  # type: ignore[union-attr]
    assert (end_x - x, y - end_y) == pytest.approx((6.75 * factor, 9.0 * factor), abs=NEAR * factor)


def test_straight_brace_ends_on_the_faces_of_the_legs() -> None:
    """At 45 degrees the edges of a brace of depth t are t/2 from the axis: ends t/2 * sqrt(2) from its ends."""
    shape = {
        "family": "braced", "thickness": "2 in", "height": "18 in", "projection": "18 in", "wall_leg": "2 in",
        "top_leg": "2 in", "brace": "2 in", "brace_out": "14 in", "brace_down": "14 in",
    }  # fmt: skip
    brace = bracket_drawn(bracket(shape)).contours[2].points()
    root = math.sqrt(2.0)
    wanted = [(2.0, 4.0 - root), (14.0 + root, 16.0), (14.0 - root, 16.0), (2.0, 4.0 + root)]
    for place, corner in zip(brace, [*wanted, wanted[0]], strict=True):
        assert place == pytest.approx(corner, abs=1e-9)


def test_curved_brace_has_concentric_edges() -> None:
    """Radius from the sagitta s and chord c: (c^2/4 + s^2)/(2 s), more and less half the depth (closed form)."""
    shape = {
        "family": "braced", "thickness": "2 in", "height": "18 in", "projection": "18 in", "wall_leg": "2 in",
        "top_leg": "2 in", "brace": "2 in", "brace_out": "14 in", "brace_down": "14 in", "sagitta": "1 in",
    }  # fmt: skip
    brace = bracket_drawn(bracket(shape)).contours[2]
    arcs = [edge for edge in brace.edges if isinstance(edge, Round)]
    r = (288.0 / 4.0 + 1.0) / 2.0
    assert [arc.radii[0] for arc in arcs] == pytest.approx([r + 1.0, r - 1.0])
    assert arcs[0].center == pytest.approx(arcs[1].center)
    # the axis through (2, 4) and (14, 16) bows away from the corner at (2, 16): the middle lies on that corner's side
    assert arcs[0].center == pytest.approx((8.0 - (r - 1.0) / math.sqrt(2.0), 10.0 + (r - 1.0) / math.sqrt(2.0)))
    assert brace.start[0] == pytest.approx(2.0) and arcs[0].end[1] == pytest.approx(16.0)


def test_bent_bracket_is_two_arcs_about_one_middle() -> None:
    shape = {"family": "bent", "thickness": "1 in", "depth": "2 in", "inner_radius": "10 in", "sweep": "90 deg"}
    made = template(bracket_drawn(bracket(shape)))
    (line,) = read(template_dxf(made)).modelspace().query('LWPOLYLINE[layer=="CUT"]')
    bulges = [bulge for *_, bulge in line.get_points("xyb") if bulge]
    assert [abs(bulge) for bulge in bulges] == pytest.approx([math.tan(math.pi / 8.0)] * 2)  # a quarter of a circle
    places = [(x, y) for x, y, _ in line.get_points("xyb")]
    for place, corner in zip(places, [(0, 0), (12, 12), (12, 10), (2, 0)], strict=True):
        assert place == pytest.approx(corner, abs=NEAR)


def test_points_of_a_soffit_are_corners_of_the_cut() -> None:
    points = [{"x": "2 in", "y": "11 in"}, {"x": "3 in", "y": "5 in"}, {"x": "9 in", "y": "2 in"}]
    shape = {**SOLID, "foot": "2 in", "soffit": "points", "points": points}
    contour = bracket_drawn(bracket(shape)).contours[0]
    assert any(math.dist(place, (3.0, 6.0)) < NEAR for place in contour.points())


def test_pocket_right_through_is_cut_and_another_is_only_marked() -> None:
    pocket = {"top": "2 in", "height": "4 in", "depth": "1 in"}
    through = bracket_drawn(bracket({**SOLID, "pocket": pocket}))
    assert {(1.0, 9.0), (1.0, 5.0), (0.0, 9.0), (0.0, 5.0)} <= set(through.contours[0].points())
    part = bracket_drawn(bracket({**SOLID, "pocket": {**pocket, "width": "1 in"}}))
    assert [one.layer for one in part.contours] == ["CUT", "NOTES"]


def test_drill_of_a_bolt_is_at_most_a_sixteenth_wider() -> None:
    """NDS 2018 12.1.3.2 (read): 1/32 in to 1/16 in over the bolt. Screws and nails go by the wood."""
    assert hole_diameter("bolt", 0.625) == 0.6875
    assert hole_diameter("lag screw", 0.625) == 0.625
    assert hole_diameter("wood screw", 0.19) is None


def test_hole_without_a_known_drill_is_a_point() -> None:
    drawn = bracket_drawn(bracket(SOLID))
    drawn.holes = [Hole(1.0, 2.0, 0.19, None)]
    space = read(template_dxf(template(drawn))).modelspace()
    assert not space.query('CIRCLE[layer=="DRILL"]') and len(space.query('POINT[layer=="DRILL"]')) == 1


def test_unknown_unit_is_refused() -> None:
    with pytest.raises(UnknownName, match="unit of a drawing"):
        template_dxf(template(bracket_drawn(bracket(SOLID))), "yd")
    with pytest.raises(UnknownName, match="unit of a drawing"):
        template_svg(template(bracket_drawn(bracket(SOLID))), "yd")


def test_brace_whose_edge_misses_a_leg_says_so() -> None:
    shape = {
        "family": "braced", "thickness": "2 in", "height": "18 in", "projection": "18 in", "wall_leg": "2 in",
        "top_leg": "2 in", "brace": "6 in", "brace_out": "14 in", "brace_down": "14 in", "sagitta": "8.4 in",
    }  # fmt: skip
    with pytest.raises(BeamcheckError, match="does not reach both legs: check its sagitta and depth"):
        bracket_drawn(bracket(shape))
