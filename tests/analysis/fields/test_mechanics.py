"""Stress fields against closed forms and the laws of mechanics: statics, beams, rigid bodies, reciprocity, scaling."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.analysis.fields.field import Backing, Elastic, Press, Spring, Void, refined_field, solve_field
from beamcheck.analysis.fields.outline import outline_of
from beamcheck.analysis.fields.solve import SHAPE, line

from .test_outline import STEPPED, solid

WOOD = (1.6e6, 80000.0, 124800.0, 0.449)
HELD = Backing("springs", (Spring(2.0, 40000.0, 1e5), Spring(9.0, 20000.0, 5e4)), 3e5)
BONDED = Backing("bonded")
outline = outline_of(solid("concave", 12.0, 11.0, 2.0, 2.0))


def solved(presses=((10.0, 11.0, 100.0),), backing=BONDED, grain=20.0, across=6, thickness=1.5, shape=outline, **more):
    press = [Press(*one) for one in presses]
    return solve_field(shape, thickness, Elastic(*WOOD, grain), backing, press, across=across, **more)


def sinking(field, press):
    where = line(field.mesh, field.mesh.edges["top"], press[0], press[1])
    down = np.einsum("qn,kn->kq", SHAPE, field.solution.moves[where.nodes, 1])
    return float((down * where.length).sum() / where.length.sum())


@pytest.mark.parametrize("E_T", [1.6e6, 80000.0])
def test_cantilever_sinks_and_bends_as_a_beam(E_T):
    """S. Timoshenko: F x^3/(3 E I) + 1.2 F x/(G A) at the load, 6 M/(t d^2) at the edges."""
    G = 1.6e6 / 2.6 if E_T == 1.6e6 else 1e5
    beam = outline_of(solid("straight", 2.0, 40.0, 2.0, 2.0))
    field = solve_field(beam, 1.5, Elastic(1.6e6, E_T, G, 0.3, 0.0), BONDED, [Press(39.0, 40.0, 60.0)], across=16)
    x, inertia, area = 39.5, 1.5 * 2.0**3 / 12, 1.5 * 2.0
    expected = x**3 / (3 * 1.6e6 * inertia) + 1.2 * x / (G * area)
    assert 1 / field.stiffness == pytest.approx(expected, rel=0.004)
    for at in (10.0, 20.0, 30.0):
        bending = 6 * 60.0 * (x - at) / (1.5 * 2.0**2)
        assert np.interp(at, field.top.x, field.top.sigma_t) == pytest.approx(bending, rel=0.004)
        assert np.interp(at, field.soffit.x, field.soffit.sigma_t) == pytest.approx(-bending, rel=0.004)
    middle = field.grain_stress(np.array([[20.0, 1.0]]))[0]  # along, across, shear: the parabola's top is 1.5 V/A
    assert abs(middle[2]) == pytest.approx(1.5 * 60.0 / area, rel=0.02)


def test_rigid_bracket_on_an_elastic_wall():
    """Triangular pressure below the anchors: k_w t c^2/2 = k_a (d_1 - c), T = k_a (d_1 - c) theta (derived)."""
    k_a, k_w, t, y = 30000.0, 20000.0, 2.0, 2.5
    stone = Elastic(1e9, 1e9, 4e8, 0.25, 0.0)
    backing = Backing("springs", (Spring(y, k_a, 1e6, height=0.1),), k_w)
    field = solve_field(outline, t, stone, backing, [Press(10.0, 11.0, 100.0)], across=8)
    d_1 = 12.0 - y
    c = (-k_a + np.sqrt(k_a**2 + 2 * k_w * t * k_a * d_1)) / (k_w * t)
    theta = 100.0 * 10.5 / (k_a * (d_1 - c) ** 2 + k_w * t * c**3 / 3)
    assert field.pulls[0] == pytest.approx(k_a * (d_1 - c) * theta, rel=0.005)
    start, end, force, center = field.contact
    assert (start, end) == pytest.approx((12.0 - c, 12.0), abs=0.15)
    assert force == pytest.approx(field.pulls[0], rel=1e-8)
    assert 12.0 - center == pytest.approx(c / 3, rel=0.01)


@pytest.mark.parametrize("force", [100.0, -100.0])
def test_anchors_and_wall_hold_the_bracket_in_balance(force):
    """Without friction: sum of shears = load, contact = sum of pulls, moments about O."""
    field = solved([(10.0, 11.0, force)], HELD)
    *_, pressed, center = field.contact
    assert sum(field.shears) == pytest.approx(force, rel=1e-8)
    assert sum(field.pulls) == pytest.approx(pressed, rel=1e-8)
    moment = pressed * center - sum(pull * s.y for pull, s in zip(field.pulls, HELD.springs, strict=True))
    # the pull of a row of 3/4 in is not quite in its middle
    assert moment == pytest.approx(force * 10.5, rel=0.02)
    assert field.residual < 1e-10
    if force < 0.0:  # the top corner bears, and the upper anchors hold against it
        assert center < 1.0


def test_own_weight_hangs_on_the_anchors():
    field = solved((), HELD, density=0.02)
    assert sum(field.shears) == pytest.approx(0.02 * 1.5 * outline.area, rel=1e-4)
    *_, pressed, center = field.contact
    moment = pressed * center - sum(pull * s.y for pull, s in zip(field.pulls, HELD.springs, strict=True))
    assert moment == pytest.approx(0.02 * 1.5 * outline.area * outline.centroid[0], rel=0.02)


def test_weight_does_not_change_the_stiffness_of_what_is_bonded():
    assert solved(density=0.05).stiffness == pytest.approx(solved().stiffness, rel=1e-9)


@pytest.mark.parametrize("section", [(4.0, 0.0, 4.0), (6.0, 0.0, 6.0), (5.0, 0.0, 6.5)])
@pytest.mark.parametrize("triangles", [False, True])
def test_resultants_on_a_section_follow_from_statics(section, triangles):
    """From the load to the right of the section: N, V, M by equilibrium."""
    x0, y0, x1 = section
    # where the section meets the circle-like soffit: the ellipse about (11, 12) with half axes 9 and 10
    y1 = 12.0 - 10.0 * np.sqrt(1 - ((11.0 - x1) / 9.0) ** 2)
    field = solved(across=14, triangles=triangles)
    found = field.resultant(x0, y0, x1, y1)
    run = np.array([x1 - x0, y1 - y0])
    cos, sin = run[1] / np.hypot(*run), run[0] / np.hypot(*run)
    assert abs(found.N + 100.0 * sin) < 0.8 and abs(found.V - 100.0 * cos) < 0.8
    moment = 100.0 * (10.5 - (x0 + x1) / 2)
    assert abs(found.M - moment) < 0.01 * moment


def test_free_edges_carry_nothing_across_them():
    """Stress along the grain, across it and shear at the top edge are sigma_t cos^2, sin^2, sin cos."""
    field = solved(grain=35.0, across=16)
    places = np.array([[x, 1e-9] for x in (4.0, 5.0, 6.0, 7.0)])
    along, across, shear = field.grain_stress(places).T
    sigma = np.interp(places[:, 0], field.top.x, field.top.sigma_t)
    c, s = np.cos(np.radians(35.0)), np.sin(np.radians(35.0))
    assert along == pytest.approx(sigma * c * c, rel=0.02)
    assert across == pytest.approx(sigma * s * s, rel=0.02)
    assert np.abs(shear) == pytest.approx(np.abs(sigma) * s * c, rel=0.02)


@given(st.floats(0.0, 179.0), st.floats(0.5, 3.0), st.sampled_from(["straight", "convex", "ogee"]))
@settings(max_examples=10, deadline=None)
def test_grain_turned_half_round_and_thickness_scale(grain, factor, soffit):
    shape = outline_of(solid(soffit, 12.0, 11.0, 2.0, 2.0))
    field = solved(grain=grain, across=5, shape=shape)
    turned = solved(grain=grain + 180.0, across=5, shape=shape)
    thick = solved(grain=grain, across=5, shape=shape, thickness=1.5 * factor)
    assert turned.stiffness == pytest.approx(field.stiffness, rel=1e-9)
    assert turned.top.sigma_t == pytest.approx(field.top.sigma_t, rel=1e-6, abs=1e-6)
    assert thick.stiffness == pytest.approx(field.stiffness * factor, rel=1e-9)
    assert thick.soffit.sigma_t == pytest.approx(field.soffit.sigma_t / factor, rel=1e-6, abs=1e-6)


@given(st.floats(-200, 200), st.floats(-200, 200))
@settings(max_examples=8, deadline=None)
def test_superposition_where_the_wall_does_not_open(first, second):
    stops = ((2.0, 4.0), (9.0, 11.0))
    fields = [solved([(*stops[0], p), (*stops[1], q)], across=5) for p, q in ((1, 0), (0, 1), (first, second))]
    one, two, both = (f.top.sigma_t for f in fields)
    size = (1 + abs(first) + abs(second)) * np.abs(one).max()
    assert both == pytest.approx(first * one + second * two, abs=1e-9 * size)


@pytest.mark.parametrize("triangles", [False, True])
def test_reciprocity(triangles):
    """Maxwell and Betti: the sinking at one place from a load at another is the same the other way round."""
    a, b = (2.0, 4.0), (9.0, 11.0)
    fields = [solved([(*a, p), (*b, q)], triangles=triangles) for p, q in ((1.0, 1e-30), (1e-30, 1.0))]
    assert sinking(fields[0], b) == pytest.approx(sinking(fields[1], a), rel=1e-8)


def test_a_bonded_bracket_is_stiffer_than_one_on_springs_and_more_load_pulls_in_proportion():
    soft, double = solved(backing=HELD), solved([(10.0, 11.0, 200.0)], HELD)
    assert solved().stiffness > soft.stiffness
    assert double.pulls == pytest.approx([2 * pull for pull in soft.pulls], rel=1e-7)


@pytest.mark.parametrize("backing", [BONDED, HELD], ids=["bonded", "held"])
@pytest.mark.parametrize("soffit", ["straight", "convex", "ogee"])
def test_two_kinds_of_mesh_agree(backing, soffit):
    shape = outline_of(solid(soffit, 12.0, 11.0, 2.0, 2.0))
    mapped, filled = (solved(backing=backing, shape=shape, across=n, triangles=n == 12) for n in (20, 12))
    assert (mapped.mesh.kind, filled.mesh.kind) == ("mapped", "triangles")
    assert filled.stiffness == pytest.approx(mapped.stiffness, rel=0.003)
    for x in (4.0, 6.0, 8.0):
        one, other = (float(np.interp(x, f.top.x, f.top.sigma_t)) for f in (mapped, filled))
        assert other == pytest.approx(one, rel=0.02, abs=0.2)
    assert filled.pulls == pytest.approx(mapped.pulls, rel=0.002, abs=0.01)


def test_finer_meshes_do_not_change_the_answer():
    coarse, fine = solved(backing=HELD, across=6), solved(backing=HELD, across=16)
    assert coarse.stiffness == pytest.approx(fine.stiffness, rel=0.005)
    assert coarse.pulls == pytest.approx(fine.pulls, rel=0.005)
    assert coarse.peak("top tension").value == pytest.approx(fine.peak("top tension").value, rel=0.03)


@pytest.mark.parametrize("left", [0.0, 0.5])
def test_pockets_weaken(left):
    whole = refined_field(outline, 1.5, Elastic(*WOOD, 90.0), HELD, [Press(10.0, 11.0, 100.0)])
    void = Void(4.0, 3.0, 0.6, left)
    cut = refined_field(outline, 1.5, Elastic(*WOOD, 90.0), HELD, [Press(10.0, 11.0, 100.0)], voids=[void])
    assert cut.mesh.kind == "triangles"
    assert cut.moved < 0.02 and whole.moved < 0.02
    assert cut.stiffness < whole.stiffness
    area = float((cut.mesh.work.area * cut.mesh.thickness[:, None]).sum())
    assert area == pytest.approx(1.5 * outline.area - 1.8 * (1.5 - left), rel=2e-4)
    assert sum(cut.shears) == pytest.approx(100.0, rel=1e-8)


def test_a_pocket_that_takes_nothing_away_changes_nothing():
    nothing = Void(4.0, 3.0, 0.6, 1.4999999)
    plain, cut = (solved(backing=HELD, across=8, triangles=True, voids=v) for v in ((), (nothing,)))
    assert cut.stiffness == pytest.approx(plain.stiffness, rel=1e-3)
    assert cut.pulls == pytest.approx(plain.pulls, rel=1e-3)


def test_inward_corners_are_found_meshed_and_left_out():
    shape = outline_of(solid("points", 10.0, 10.0, 2.0, 2.0, points=STEPPED))
    field = solved([(9.0, 10.0, 100.0)], shape=shape, across=14)
    corners = [zone for zone in field.left_out if zone.why == "at an inward corner"]
    assert [(zone.x0, zone.y0) for zone in corners] == [(2.0, 6.0), (5.0, 3.0)]
    assert not field.readable(np.array([[5.3, 2.9]]))[0]
    peak = field.peak("soffit compression")
    assert all(np.hypot(peak.x - zone.x0, peak.y - zone.y0) > 0.999 * zone.r for zone in corners)
    # M at x = 3.5 over the depth of 6 in: statics
    found = field.resultant(3.5, 0.0, 3.5, 6.0).M
    assert found == pytest.approx(100.0 * 6.0, rel=0.01)


def test_what_drawings_need():
    field = solved(backing=HELD)
    cells, values = field.cells, field.values("across")
    assert len(cells) == len(values)
    x, y = (np.array([[corner[i] for corner in cell] for cell in cells]) for i in (0, 1))
    area = 0.5 * np.abs((x * np.roll(y, -1, axis=1) - np.roll(x, -1, axis=1) * y).sum(axis=1)).sum()
    assert area == pytest.approx(outline.area, rel=2e-3)
    assert {zone.why for zone in field.left_out} == {"at the anchors", "under a load"}
    ring = np.array(field.left_out[0].polygon())
    assert np.hypot(ring[:, 0], np.maximum(np.abs(ring[:, 1] - 2.0) - 0.375, 0.0)) == pytest.approx(
        np.full(len(ring), 1.1), rel=1e-9
    )
    assert np.all(np.isnan(field.grain_stress(np.array([[20.0, 20.0]]))))
