"""Stress fields against an independent finite-element program: nine-node quadrilaterals, orthotropic plane stress.

The values are `derived` by that other program (case names of the bracket checks). Its meshes have 0.12 in x 40 cells;
these here are much coarser. Tolerances are those of the rows unless a comment says why not.
"""

from dataclasses import replace

import numpy as np
import pytest

from beamcheck.analysis.fields.field import Backing, Elastic, Patch, Press, Spring, Zone, refined_field, solve_field
from beamcheck.analysis.fields.outline import outline_of
from tests.analysis.fields.arc import arc_field, arc_on

from .test_outline import solid

LT, LR = (1.6e6, 80000.0, 124800.0, 0.449), (1.6e6, 108800.0, 102400.0, 0.292)

# soffit, H, P, a, b, thickness, elastic, grain, load from, to; k; top stress at parts of P; soffit stress at x
CLAMPED = {
    "B01": (("straight", 12, 12, 2, 2), 1.5, LT, 0, (11, 12), 33916.1, (88.4272, 91.8282, 109.266), (9.88, -35.3068)),
    "B03": (("concave", 10, 10, 2, 2), 1.5, LR, 0, (9, 10), 21334.7, (187.814, 195.901, 181.406), (7.81, -191.281)),
    "B05": (("convex", 8, 6, 1, 1), 3.0, LT, 0, (0, 6), 462472.0, (6.24398, -0.294298, -1.79747), None),
    "B07": (("concave", 12, 12, 1.5, 1.5), 1.5, LT, 45, (11, 12), 6433.47, (49.3623, 108.063, 214.071),
            (6.24, -451.892)),
}  # fmt: skip


def clamped(name, across, **more):
    size, thickness, elastic, grain, load, *_ = CLAMPED[name]
    press = [Press(*map(float, load), 100.0)]
    outline = outline_of(solid(*size))
    return solve_field(outline, thickness, Elastic(*elastic, grain), Backing("bonded"), press, across=across, **more)


def top_at(field, x):
    return float(np.interp(x, field.top.x, field.top.sigma_t))


@pytest.mark.parametrize("name", CLAMPED)
def test_clamped_brackets(name):
    field = clamped(name, 14)
    size, *_, k, top, soffit = CLAMPED[name]
    assert field.stiffness == pytest.approx(k, rel=0.003)
    for part, expected in zip((0.3, 0.5, 0.7), top, strict=True):
        # 0.5 %; next to the sign change of B05 the absolute part of that, of the 6.2 psi at the first place
        assert top_at(field, part * size[2]) == pytest.approx(expected, rel=0.005, abs=0.005 * abs(top[0]))
    if soffit is not None:  # B05 gives its value 0.01 in from the foot, on the rim of what it reads: see below
        at, expected = soffit
        assert float(np.interp(at, field.soffit.x, field.soffit.sigma_t)) == pytest.approx(expected, rel=0.005)
    assert field.residual < 1e-10


def test_soffit_beside_the_foot_of_a_convex_bracket():
    """B05: -3.16861 psi at x = 1.01, where the stress changes by a fifth within 0.1 in: 2 % instead of 0.5 %."""
    field = clamped("B05", 20)
    assert float(np.interp(1.01, field.soffit.x, field.soffit.sigma_t)) == pytest.approx(-3.16861, rel=0.02)


def test_short_grain_at_the_top_edge():
    """B07: 119.952 psi across the grain at x = 9.46; the rule sigma_t sin^2 phi gives 120.03."""
    field = clamped("B07", 14)
    assert field.peak("across tension").value == pytest.approx(119.952, rel=0.005)
    assert field.peak("across tension").y == pytest.approx(0.0, abs=1e-9)
    assert float(np.max(field.top.across[(field.top.x > 8) & (field.top.x < 10.2)])) == pytest.approx(120.03, rel=0.01)


@pytest.mark.parametrize(
    ("name", "expected", "x", "y"),
    [("B01", 1.10085, 1.01, 1.26), ("B03", 1.9093, 1.20, 1.56), ("B07", 119.44, 9.46, 0.0)],
)
def test_largest_tension_across_the_grain_anywhere(name, expected, x, y):
    """The other program leaves out 1 in at the wall, as the places of its peaks show, and the nose under the load."""
    field = clamped(name, 24)
    H, P = field.outline.H, field.outline.P
    zones = (Zone(0, 0, 0, H, 1.0, "wall"), Zone(P - 0.5, 0, P - 0.5, field.outline.b, 1.5, "load"))
    peak = replace(field, left_out=zones).peak("across tension")
    assert peak.value == pytest.approx(expected, rel=0.02)
    assert field.grain_stress(np.array([[x, y + 1e-6]]))[0, 1] == pytest.approx(expected, rel=0.02)


def test_grain_along_the_top_edge_has_no_tension_across_it_there():
    """B01, B03, B05: 0 within 1 psi."""
    assert np.abs(clamped("B01", 8).top.across).max() < 1e-9


PULLS = [
    ("B01a", ("straight", 12, 12, 2, 2), 1.5, 2.0, 149.609, 127.741),
    ("B09a", ("concave", 14, 10, 2, 2), 2.5, 2.0, 165.597, 118.235),
    ("A2a", ("concave", 14, 10, 3.5, 2), 2.5, 1.5, 134.697, 92.885),
    ("A1a", ("convex", 10, 8, 1.5, 1.5), 2.5, 1.5, 93.7191, 94.4901),
]


@pytest.mark.parametrize("row", PULLS, ids=[row[0] for row in PULLS])
@pytest.mark.parametrize("case", [(50000.0, 1e7), (10000.0, 23000.0)], ids=["stiff", "soft"])
def test_pull_on_the_anchors(row, case):
    """Anchors spread over 3/4 in of the wall face, a wall that presses only. The rows allow 2 %; 0.3 % is reached."""
    _, size, thickness, y, *expected = row
    k, wall = case
    outline = outline_of(solid(*size))
    press = [Press(outline.P - 1, outline.P, 100.0)]
    for triangles in (False, True):
        field = solve_field(
            outline, thickness, Elastic(*LT, 0), Backing("springs", (Spring(y, k, 1e6),), wall), press, across=7,
            triangles=triangles,
        )  # fmt: skip
        assert field.pulls[0] == pytest.approx(expected[0 if k == 50000.0 else 1], rel=0.003)


def held_by_patches(across, triangles=False):
    backing = Backing("patches", patches=(Patch(1.625, 2.375), Patch(12.5, 14.0, "out")))
    outline = outline_of(solid("concave", 14, 10, 2, 2))
    return solve_field(
        outline, 2.5, Elastic(*LT, 0), backing, [Press(9, 10, 100.0)], across=across, triangles=triangles
    )


def test_bracket_held_by_two_rigid_patches():
    """B09. What does not depend on how the patch is cut into cells is met within the rows' 0.5 %.

    The rest does depend on it: on cells of 0.12 in, as in the other program, a patch of 0.75 in cannot end where it
    should, and moving its end by one node moves k from 6765 to 7844 (tried). The row's k of 7280 lies in there, 5 %
    above the value that k tends to with finer cells, 6936; so its 0.3 % cannot be asked for. Two meshes agree on it.
    """
    field, other = held_by_patches(21), held_by_patches(21, triangles=True)
    assert top_at(field, 7.0) == pytest.approx(100.72, rel=0.005)
    assert top_at(field, 5.0) == pytest.approx(82.8279, rel=0.006)
    assert float(np.interp(8.10, field.soffit.x, field.soffit.sigma_t)) == pytest.approx(-100.406, rel=0.005)
    for one in (field, other):
        assert one.stiffness == pytest.approx(7279.71, rel=0.06)
        assert top_at(one, 3.0) == pytest.approx(35.0852, rel=0.04)
        assert one.peak("across tension").value == pytest.approx(59.0601, rel=0.06)
        wall = one.peak("wall tension")
        assert wall.value == pytest.approx(53.3182, rel=0.06)
        assert wall.y == pytest.approx(7.09, abs=0.15)
    assert other.stiffness == pytest.approx(field.stiffness, rel=0.035)


ARCS = [
    ("R1", (1.6e6, 1.6e6, 615384.6, 0.3), 2.0, -374.549, 184.419, -45.7971, 71403.4),
    ("R3", LT, 8.0, -895.187, 712.806, -43.7788, 2449.52),
]


@pytest.mark.parametrize("row", ARCS, ids=[row[0] for row in ARCS])
def test_arcs_with_the_grain_along_them(row):
    """R1 and R3: a quarter ring, 100 lb at its tip, read 60 deg from the tip."""
    _, elastic, r_i, inner, outer, radial, k = row
    field = arc_on(r_i, 2.0, 90.0, 1.5, Elastic(*elastic, 0.0), 100.0, across=16)
    assert field.inner_at(60.0) == pytest.approx(inner, rel=0.01)
    assert field.outer_at(60.0) == pytest.approx(outer, rel=0.01)
    assert field.radial_at(60.0).min() == pytest.approx(radial, rel=0.01)
    assert field.stiffness == pytest.approx(k, rel=0.005)


def golovin(r, a, b, force, degrees):
    """Exact stresses of a curved bar loaded by a force at its end (Golovin; Timoshenko and Goodier; memory)."""
    N = a**2 - b**2 + (a**2 + b**2) * np.log(b / a)
    part = force / N * np.sin(np.radians(degrees))
    radial = part * (r + a**2 * b**2 / r**3 - (a**2 + b**2) / r)
    return part * (3 * r - a**2 * b**2 / r**3 - (a**2 + b**2) / r), radial


@pytest.mark.parametrize("degrees", [40.0, 60.0])
def test_exact_curved_bar(degrees):
    """R1-exact: within 1.5 %, and closer in a bar whose ends are farther away."""
    for r_i, close in ((2.0, 0.015), (6.0, 0.004)):
        field = arc_on(r_i, 2.0, 90.0, 1.5, Elastic(1.6e6, 1.6e6, 1.6e6 / 2.6, 0.3, 0.0), 100.0, across=16)
        inner, _ = golovin(r_i, r_i, r_i + 2.0, 100.0 / 1.5, degrees)
        outer, _ = golovin(r_i + 2.0, r_i, r_i + 2.0, 100.0 / 1.5, degrees)
        _, radial = golovin(field.radii, r_i, r_i + 2.0, 100.0 / 1.5, degrees)
        assert field.inner_at(degrees) == pytest.approx(inner, rel=close)
        assert field.outer_at(degrees) == pytest.approx(outer, rel=close)
        assert field.radial_at(degrees).min() == pytest.approx(radial.min(), rel=max(close, 0.012))


def test_refined_arc_says_how_far_it_moved():
    field = arc_field(8.0, 2.0, 90.0, 1.5, Elastic(*LT, 0.0), 100.0)
    assert 0.0 < field.moved < 0.02
    assert field.stiffness == pytest.approx(2449.52, rel=0.005)


def test_refined_field_of_a_published_row():
    size, thickness, elastic, grain, load, k, top, _ = CLAMPED["B07"]
    press = [Press(*map(float, load), 100.0)]
    field = refined_field(outline_of(solid(*size)), thickness, Elastic(*elastic, grain), Backing("bonded"), press)
    assert 0.0 < field.moved < 0.02
    assert field.stiffness == pytest.approx(k, rel=0.003)
    assert top_at(field, 6.0) == pytest.approx(top[1], rel=0.005)
