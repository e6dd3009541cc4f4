"""From a bracket of the job file to the numbers of its elevation: places and angles by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from beamcheck.checks.brackets.drawing import BORE, DEEPER, LIFTS, elevation_of
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.core.pictures.others import Elevation

from .brackets import BENT, BRACED, CORBEL, LAG, SOLID, STRAP, Data, bracket, fixings, loads_of, structure


def elevation(shape: Data, load: str | None = None, **more: object) -> Elevation:
    piece = bracket(shape, load, "4 in", **more)
    return elevation_of(family_of(piece), loads_of(piece, structure(), weight=2.0))


def part(found: Elevation, name: str) -> tuple[tuple[float, float], ...]:
    return dict(found.parts)[name]


def test_a_solid_bracket_with_its_pocket_and_grain() -> None:
    pocket = {"top": "4 in", "height": "2 in", "depth": "1 in"}
    found = elevation({**SOLID, "pocket": pocket})
    assert set(part(found, "")) >= {(0.0, 0.0), (10.0, 0.0), (10.0, 3.0), (3.0, 12.0), (0.0, 12.0)}
    assert (found.grain, found.height, found.projection) == ((90.0,), 12.0, 10.0)
    assert found.voids == (("pocket", ((0.0, 4.0), (1.0, 4.0), (1.0, 6.0), (0.0, 6.0))),)
    assert ("x", 0.0, 3.0, "foot") in found.dimensions
    assert ("y", 0.0, 3.0, "nose") in found.dimensions


def test_fasteners_reach_into_the_wall_by_what_the_bracket_leaves_of_their_length() -> None:
    """5 in long through 2 in of wood: 3 in."""
    found = elevation(SOLID, fixings=fixings())
    assert [(y, into) for y, into, _ in found.anchors] == [(3.0, 3.0), (7.0, 3.0)]
    assert found.anchors[0][2] == "row 1, 3 in down: 1 × 3/8 in lag screw, 5 in long"
    without = elevation(SOLID, fixings=fixings(fastener=None))
    assert without.anchors[0] == (3.0, 0.0, "row 1, 3 in down: 1 × fasteners")


def test_a_bore_runs_from_the_head_to_the_front() -> None:
    """The soffit from (3, 12) to (10, 3) stands at 3 + 7 x 5/9 out where it is 7 in down; 3 in down it ends at 10."""
    fastener = {**LAG, "counterbore": "1 in", "counterbore_depth": "3/4 in"}
    found = elevation(SOLID, fixings=fixings(fastener=fastener))
    (_, high), (name, low) = found.voids
    assert name == DEEPER  # from 6 8/9 in to 2 in is more than 3/4 in
    assert np.array(high) == pytest.approx(np.array([(2.0, 2.5), (10.0, 2.5), (10.0, 3.5), (2.0, 3.5)]))
    assert low[1] == pytest.approx((3.0 + 7.0 * 5.0 / 9.0, 6.5))


def test_a_bore_as_deep_as_is_given_is_enough_and_a_head_at_the_front_needs_none() -> None:
    """Steel needs none; 2 in of wood and a bore of 8 in make up the 10 in of the nose."""
    fastener = {**LAG, "counterbore": "1 in", "counterbore_depth": "8 in"}
    assert [name for name, _ in elevation(SOLID, fixings=fixings(fastener=fastener)).voids] == [BORE, BORE]
    flush = elevation({**CORBEL, "projection": "2 in"}, fixings=fixings())
    assert flush.voids == ()


def test_a_straight_brace_is_cut_to_the_faces_of_both_legs() -> None:
    """Axis from (2.5, 15) to (15, 2.5), 2.5 in deep: its edges lie 1.25 sqrt(2) beside it along either face."""
    found = elevation(BRACED)
    half = 1.25 * math.sqrt(2.0)
    expected = [(2.5, 15.0 + half), (15.0 + half, 2.5), (15.0 - half, 2.5), (2.5, 15.0 - half)]
    assert [tuple(point) for point in part(found, "brace")] == [pytest.approx(point) for point in expected]
    assert list(found.grain) == pytest.approx([90.0, 0.0, 45.0])


def test_a_curved_brace_rises_towards_the_corner_by_its_sagitta() -> None:
    """The middle of the axis, (8.75, 8.75), moves by 1.5 in along the diagonal."""
    ring = part(elevation({**BRACED, "sagitta": "1 1/2 in"}), "brace")
    diagonal = sorted((x + y) / math.sqrt(2.0) for x, y in ring if abs(x - y) < 0.2)
    middle = 8.75 * math.sqrt(2.0) - 1.5
    assert diagonal[0] == pytest.approx(middle - 1.25, abs=0.02)
    assert diagonal[-1] == pytest.approx(middle + 1.25, abs=0.02)
    assert all(x >= 2.5 - 1e-9 and y >= 2.5 - 1e-9 for x, y in ring)


@pytest.mark.parametrize("sweep", [60.0, 90.0, 130.0])
def test_an_arc_stands_upright_at_its_foot_and_its_top_is_at_zero(sweep: float) -> None:
    """Outer radius 10: the foot from 0 to 2 out; up to 90 degrees it rises by 10 sin(sweep), then by 10."""
    found = elevation({**BENT, "sweep": f"{sweep} deg"})
    ring = part(found, "arc")
    assert min(y for _, y in ring) == pytest.approx(0.0)
    assert found.height == pytest.approx(10.0 * math.sin(math.radians(min(sweep, 90.0))), abs=0.005)
    foot = sorted(x for x, y in ring if abs(y - found.height) < 1e-9)
    assert [foot[0], foot[-1]] == pytest.approx([0.0, 2.0])
    assert found.grain == (None,)  # along the curve


def test_a_sawn_arc_has_straight_grain_between_its_ends() -> None:
    """A quarter of a circle: 45 degrees."""
    found = elevation({**BENT, "made": "sawn", "lamination": None, "glue": ""})
    assert list(found.grain) == pytest.approx([45.0])


def test_steel_and_corbel() -> None:
    steel = elevation({**STRAP, "gusset_depth": "2 in", "gusset_thickness": "1/4 in"})
    assert [name for name, _ in steel.parts] == ["bar", "bar", "gusset"]
    assert (steel.height, steel.projection) == (3.0, 8.0)
    corbel = elevation({**CORBEL, "seat": "1/2 in", "below_seat": "6 in"})
    assert min(x for x, _ in part(corbel, "block")) == -0.5


def test_loads_of_one_cause_at_one_place_are_one_load() -> None:
    carries = [
        {"what": "shelf", "dead": "20 lb", "live": "60 lb", "at": "4 in"},
        {"what": "awning", "wind": "-30 lb", "at": "4 in"},
    ]
    piece = bracket(SOLID, carries=carries)
    found = elevation_of(family_of(piece), loads_of(piece, structure(), weight=5.0))
    assert found.loads == (
        (4.0, 4.0, "shelf: dead 20 lb, live 60 lb"), (4.0, 4.0, f"awning: wind 30 lb{LIFTS}"),
    )  # fmt: skip


def test_the_beam_above_and_its_gap() -> None:
    found = elevation(SOLID, near={"beam": "B1", "at": "2 ft", "gap": "1/4 in"})
    assert found.beam == (0.25, "B1")
