"""Stress fields that must not be answered: each with a sentence that says what is wrong."""

from dataclasses import replace

import numpy as np
import pytest

from beamcheck.analysis.fields import field as field_module
from beamcheck.analysis.fields import solve as field_solve
from beamcheck.analysis.fields import triangles as field_triangles
from beamcheck.analysis.fields.field import Backing, Elastic, Press, Spring, Void, Zone, refined_field, solve_field
from beamcheck.analysis.fields.mesh import mapped
from beamcheck.analysis.fields.outline import outline_of
from beamcheck.errors import BeamcheckError, OutOfRange
from tests.analysis.fields.arc import arc_field

from .test_outline import solid

outline = outline_of(solid("concave", 12.0, 11.0, 2.0, 2.0))
wood = Elastic(1.6e6, 80000.0, 124800.0, 0.449, 0.0)
bonded = Backing("bonded")
load = Press(10.0, 11.0, 100.0)


def springs(*rows, stiffness=1e6):
    return Backing("springs", tuple(Spring(*row) for row in rows), stiffness)


@pytest.mark.parametrize(
    ("values", "message"),
    [
        ((0.0, 8e4, 1e5, 0.4, 0.0), "E_L = 0 psi: a stiffness of wood is more than zero"),
        ((1.6e6, float("nan"), 1e5, 0.4, 0.0), "E_T = nan psi"),
        ((1.6e6, 8e4, -1.0, 0.4, 0.0), "G_LT = -1 psi"),
        ((1e5, 1e6, 1e5, 0.4, 0.0), r"nu_LT\^2 E_T/E_L must be less than 1"),
        ((1.6e6, 8e4, 1e5, 0.4, float("inf")), "a grain angle of inf is none"),
    ],
)
def test_no_such_wood(values, message):
    with pytest.raises(OutOfRange, match=message):
        Elastic(*values)


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"thickness": 0.0}, "the thickness of a bracket must be more than zero, not 0 in"),
        ({"across": 1}, "1 cells across: a mesh needs 2 to 200"),
        ({"presses": []}, "nothing acts on the bracket: give a load or its own weight"),
        ({"density": -1.0}, "a density of -1 lb/in3 is none"),
        ({"presses": [Press(10.0, 11.5, 1.0)]}, "from x = 10 to 11.5 in does not lie on the top edge.* 0 to 11 in"),
        ({"presses": [Press(5.0, 5.0, 1.0)]}, "or it has no width"),
        ({"presses": [Press(5.0, 6.0, float("nan"))]}, "does not lie on the top edge"),
        ({"backing": springs()}, "without a row of anchors nothing holds the bracket"),
        ({"backing": springs((2.0, 1e4, 1e5), stiffness=0.0)}, "a wall that presses needs a stiffness above zero"),
        ({"backing": springs((2.0, 0.0, 1e5))}, "the anchors at 2 in need stiffnesses above zero"),
        ({"backing": springs((0.2, 1e4, 1e5))}, "the anchors at 0.2 in below the top are not on the wall face"),
        ({"backing": springs((11.9, 1e4, 1e5))}, "they can be from 0.375 to 11.625 in"),
        ({"voids": [Void(0.0, 2.0, 1.0)]}, "a pocket needs a height and a depth, and must start below the top edge"),
        ({"voids": [Void(2.0, 2.0, 1.0, 1.5)]}, "a pocket cannot leave 1.5 in of a thickness of 1.5 in"),
        ({"voids": [Void(9.0, 3.0, 1.0)]}, "a pocket down to 12 in runs out of the foot at 12 in"),
        ({"voids": [Void(5.0, 4.0, 6.0)]}, "the pockets overlap, or one cuts through the soffit"),
        ({"voids": [Void(3.0, 3.0, 1.0), Void(5.0, 2.0, 0.5, 0.5)]}, "the pockets overlap"),
        ({"voids": [Void(3.0, 3.0, 1.0)], "backing": springs((4.0, 1e4, 1e5))},
         "the anchors at 4 in below the top stand in a pocket that is cut right through"),
    ],
)  # fmt: skip
def test_no_such_bracket(changes, message):
    given = {"thickness": 1.5, "backing": bonded, "presses": [load], "across": 4, **changes}
    with pytest.raises(OutOfRange, match=message):
        solve_field(outline, given.pop("thickness"), wood, given.pop("backing"), given.pop("presses"), **given)


def test_no_such_tolerance():
    with pytest.raises(OutOfRange, match="a tolerance of 0 is none"):
        refined_field(outline, 1.5, wood, bonded, [load], tolerance=0.0)


def test_what_does_not_settle_is_not_answered():
    with pytest.raises(BeamcheckError, match=r"does not settle: the .* still moves by .* % on the finest mesh"):
        refined_field(outline, 1.5, wood, bonded, [load], tolerance=1e-7)


def test_out_of_balance_is_not_answered(monkeypatch):
    monkeypatch.setattr(field_solve, "BALANCED", 0.0)
    with pytest.raises(BeamcheckError, match=r"the stress field is out of balance by .* no figure is given"):
        solve_field(outline, 1.5, wood, bonded, [load], across=4)


def test_nothing_that_holds_is_not_answered():
    with pytest.raises(BeamcheckError, match=r"the bracket is not held|out of balance"):
        solve_field(outline, 1.5, wood, Backing("patches"), [load], across=4)


def test_a_contact_that_does_not_settle_is_not_answered(monkeypatch):
    monkeypatch.setattr(field_solve, "MOST_TURNS", 1)
    with pytest.raises(BeamcheckError, match="the contact does not settle"):
        solve_field(outline, 1.5, wood, springs((2.0, 5e4, 1e5), stiffness=1e7), [load], across=6)


def test_no_mesh_is_not_answered(monkeypatch):
    monkeypatch.setattr(field_triangles, "FLAT", 1.1)
    with pytest.raises(BeamcheckError, match="this outline could not be divided into sound cells"):
        solve_field(outline, 1.5, wood, bonded, [load], across=3, triangles=True)


def test_a_folded_mapping_is_seen_and_triangles_take_over():
    """A soffit with a hook: straight columns from wall and top would cross it."""
    points = [(2, 12), (2, 8), (8, 11), (9, 10), (4, 5), (11, 2)]
    hooked = outline_of(solid("points", 12.0, 11.0, 2.0, 2.0, points=points))
    assert mapped(hooked, 1.5, 8, [], [10.0]) is None
    field = solve_field(hooked, 1.5, wood, bonded, [load], across=6)
    assert field.mesh.kind == "triangles"
    assert float(field.mesh.work.area.sum()) == pytest.approx(hooked.area, rel=1e-3)
    found = field.resultant(9.0, 0.0, 9.0, hooked.depth(9.0)).M
    assert found == pytest.approx(150.0, rel=0.02)


def test_stiffness_needs_a_load():
    field = solve_field(outline, 1.5, wood, bonded, [], across=4, density=0.02)
    with pytest.raises(OutOfRange, match="there is no stiffness without a load"):
        _ = field.stiffness
    cancelled = solve_field(outline, 1.5, wood, bonded, [Press(2, 3, 50.0), Press(8, 9, -50.0)], across=4)
    with pytest.raises(OutOfRange, match="nor where loads up and down cancel"):
        _ = cancelled.stiffness


def test_a_bonded_face_has_no_edge_stress():
    field = solve_field(outline, 1.5, wood, bonded, [load], across=4)
    with pytest.raises(OutOfRange, match="a bonded wall face is no free edge"):
        field.peak("wall tension")
    with pytest.raises(OutOfRange, match="a section needs two different ends"):
        field.resultant(3.0, 0.0, 3.0, 0.0)


def test_a_peak_where_nothing_is_left_to_read():
    field = solve_field(outline, 1.5, wood, bonded, [load], across=4)
    everything = replace(field, left_out=(Zone(5, 5, 6, 6, 99.0, "everywhere"),))
    with pytest.raises(BeamcheckError, match="top tension: no place is left to read"):
        everything.peak("top tension")


def test_zones_are_those_of_the_comparison():
    """0.15 P at a clamped wall, 0.10 P at anchors, half the depth beside a load (section b6)."""
    whys = {zone.why: zone.r for zone in solve_field(outline, 1.5, wood, bonded, [load], across=4).left_out}
    assert whys["at the clamped wall face"] == pytest.approx(0.15 * 11)
    assert whys["under a load"] == pytest.approx(0.5 * outline.depth(10.0))
    held = field_module._zones(outline, springs((2.0, 1e4, 1e4)), [Press(1.0, 10.0, 1.0)], [])
    assert [(zone.why, zone.r) for zone in held] == [("at the anchors", pytest.approx(1.1))]


@pytest.mark.parametrize(
    ("values", "message"),
    [
        ((0.0, 2.0, 90.0, 1.5), "the inner radius of an arc must be more than zero"),
        ((8.0, 2.0, 190.0, 1.5), "a sweep of 190 deg is more than half a circle"),
        ((8.0, 2.0, float("nan"), 1.5), "the sweep of an arc must be more than zero"),
    ],
)
def test_no_such_arc(values, message):
    with pytest.raises(OutOfRange, match=message):
        arc_field(*values, wood, 100.0)


def test_no_load_on_an_arc_and_no_tolerance():
    with pytest.raises(OutOfRange, match="without a load at the nose"):
        arc_field(8.0, 2.0, 90.0, 1.5, wood, 0.0)
    with pytest.raises(OutOfRange, match="a tolerance of nan is none"):
        arc_field(8.0, 2.0, 90.0, 1.5, wood, 10.0, tolerance=float("nan"))
    with pytest.raises(BeamcheckError, match="the stress field of the arc does not settle"):
        arc_field(8.0, 2.0, 90.0, 1.5, wood, 10.0, tolerance=1e-12)


def test_figures_are_numbers():
    field = solve_field(outline, 1.5, wood, springs((2.0, 5e4, 1e5)), [load], across=4)
    assert all(np.isfinite(value) for value in field.governing().values())
