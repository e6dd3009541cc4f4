"""Every distance that a group is asked for, in each member and each direction of the load, as a multiple written here.

NDS 2018 Tables 12.5.1A to D (memory). Bolts of 1/2 in: D 0.5. A load aslant asks in full for what its smaller part asks
once that is half of the larger one (judgment). Groups are invented.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from beamcheck.calc.pad import Pad, SilentPad
from beamcheck.checks.anchors.fasteners.distances import far_width, geometry_factor, is_hardwood, shares
from beamcheck.checks.anchors.group import Group
from beamcheck.checks.anchors.manners.registry import connect
from beamcheck.errors import OutOfRange

from ..anchors import OTHER, PLATE, Data, find, group, lateral, layout, step, stock

FOUR: Data = {"rows": 2, "columns": 2, "end": "4 in", "edge": "3 in", "spacing": "3 in", "row_spacing": "4 in"}
ONE: Data = {"rows": 1, "columns": 1, "end": "4 in", "edge": "6 in"}
Asked = dict[str, tuple[list[float], float, float | None]]


def asked(made: Group, member: str) -> Asked:
    """What is asked in a member under the first combination: actual of each hole, least and full in diameters."""
    found: Asked = {}
    for need in connect(made).needs:
        if need.member == member and float(need.least[:, 0].max()) > 0.0:
            full = None if need.full is None else float(need.full[:, 0].max()) / 0.5
            found[need.what] = (
                [float(value) for value in need.actual[:, 0]], float(need.least[:, 0].max()) / 0.5, full,
            )  # fmt: skip
    return found


HELD, FAR = "held piece B", "post"
ROWS = (5 * 1.5 + 10 * 0.5) / 8 / 0.5  # between rows across the grain, wood of 1 1/2 in: l/D 3


def test_a_load_down_crosses_the_grain_of_the_piece_and_runs_along_that_of_its_post() -> None:
    made = group([100.0], holes=FOUR, other=OTHER)
    assert asked(made, HELD) == {
        "end distance": ([4.0, 7.0, 4.0, 7.0], 2.0, 4.0),
        "spacing across the grain": ([4.0] * 4, 3.0, 4.0),
        "distance between rows across the grain": ([3.0] * 4, ROWS, None),
        "distance to the bottom edge": ([3.0, 3.0, 7.0, 7.0], 1.5, None),
        "distance to the top edge": ([8.25, 8.25, 4.25, 4.25], 4.0, None),
    }
    assert asked(made, FAR) == {
        "end distance": ([6.0] * 4, 3.5, 7.0),
        "spacing along the grain": ([4.0] * 4, 3.0, 4.0),
        "distance between rows along the grain": ([3.0] * 4, 1.5, None),
        "distance to the given edge": ([5.0, 8.0, 5.0, 8.0], 1.5, None),
        "distance to the far edge": ([6.25, 3.25, 6.25, 3.25], 1.5, None),
    }


@pytest.mark.parametrize(("along", "end"), [(100.0, (3.5, 7.0)), (-100.0, (2.0, 4.0))])
def test_a_load_along_the_piece(along: float, end: tuple[float, float]) -> None:
    """Pulled towards its end 3 1/2 and 7 D, pressed away from it 2 and 4; of the post it is not said: both count."""
    level = {**FOUR, "edge": "3.625 in"}  # the middle of the group in the middle of the depth
    made = group([0.0], [along], holes=level, other=OTHER)
    edges = [3.625, 3.625, 7.625, 7.625]
    assert asked(made, HELD) == {
        "end distance": ([4.0, 7.0, 4.0, 7.0], *end),
        "spacing along the grain": ([3.0] * 4, 3.0, 4.0),
        "distance between rows along the grain": ([4.0] * 4, 1.5, None),
        "distance to the bottom edge": (pytest.approx(edges), 1.5, None),
        "distance to the top edge": (pytest.approx(edges[::-1]), 1.5, None),
    }
    assert asked(made, FAR) == {
        "end distance": ([6.0] * 4, 2.0, 4.0),
        "spacing across the grain": ([3.0] * 4, 3.0, 4.0),
        "distance between rows across the grain": ([4.0] * 4, ROWS, None),
        "distance to the given edge": ([5.0, 8.0, 5.0, 8.0], 4.0, None),
        "distance to the far edge": ([6.25, 3.25, 6.25, 3.25], 4.0, None),
    }


def test_what_lifts_loads_the_other_edge() -> None:
    found = asked(group([-100.0], holes=FOUR, other={**OTHER, "grain": "along"}), HELD)
    assert (found["distance to the bottom edge"][1], found["distance to the top edge"][1]) == (4.0, 1.5)
    far = asked(group([-100.0], holes=FOUR, other={**OTHER, "grain": "along"}), FAR)
    assert far["distance to the given edge"] == ([5.0, 5.0, 9.0, 9.0], 1.5, None)
    assert far["distance to the far edge"] == ([6.25, 6.25, 2.25, 2.25], 4.0, None)


@pytest.mark.parametrize("degrees", [8.0, 15.0, 26.5, 26.6, 45.0, 63.4, 63.5, 75.0, 82.0])
def test_a_load_aslant_in_proportion_to_its_parts(degrees: float) -> None:
    """tan 26.57 is a half: from there both parts ask in full."""
    t = math.radians(degrees)
    along, across = min(math.cos(t) / math.sin(t) / 0.5, 1.0), min(math.sin(t) / math.cos(t) / 0.5, 1.0)
    found = shares(np.array([[degrees]]), np.array([[True]]))
    assert [float(one[0, 0]) for one in found] == pytest.approx([along, across])
    made = group([100.0 * math.sin(t)], [100.0 * math.cos(t)], holes=ONE, other=OTHER)
    piece = asked(made, HELD)
    assert piece["end distance"][1:] == pytest.approx((2.0 + 1.5 * along, 4.0 + 3.0 * along))
    assert piece["distance to the top edge"][1] == pytest.approx(1.5 + 2.5 * across)
    assert piece["distance to the bottom edge"][1] == pytest.approx(1.5)
    post = asked(made, FAR)
    assert post["end distance"][1:] == pytest.approx((2.0 + 1.5 * across, 4.0 + 3.0 * across))
    assert post["distance to the given edge"][1] == pytest.approx(1.5 + 2.5 * along)
    pressed = group([100.0 * math.sin(t)], [-100.0 * math.cos(t)], holes=ONE, other=OTHER)
    assert asked(pressed, HELD)["end distance"][1:] == pytest.approx((2.0, 4.0))


def test_no_load_asks_for_nothing() -> None:
    found = shares(np.array([[0.0, 45.0, 90.0]]), np.array([[False, False, False]]))
    assert all(float(np.abs(one).max()) == 0.0 for one in found)
    along, across = shares(np.array([[0.0, 90.0]]), np.array([[True, True]]))
    assert along.tolist() == [[1.0, 0.0]] and across.tolist() == [[0.0, 1.0]]
    assert asked(group([0.0], holes=FOUR, other=OTHER), HELD) == {}


def test_fasteners_into_the_end() -> None:
    """All of the load is across the grain of the piece: spacing 3 and 4 D both ways, 4 D to the loaded edge, 1 1/2 to
    the other one and to the nearer side of 5 1/2 in."""
    lag = {"kind": "lag screw", "size": "1/2 in", "length": "8 in"}
    holes = {"rows": 2, "columns": 2, "end": "1 in", "edge": "3 in", "spacing": "2 1/2 in", "row_spacing": "4 in"}
    more: Data = {"manner": "into the end", "fastener": lag, "held": stock("6x12 dressed"), "holes": holes,
                  "other": {**OTHER, "thickness": "3 1/2 in", "grain": "along"},
                  "into": stock("4x12 dressed")}  # fmt: skip
    found = asked(group([100.0], **more), HELD)
    assert found == {
        "spacing up and down in the end": ([4.0] * 4, 3.0, 4.0), "spacing sideways in the end": ([2.5] * 4, 3.0, 4.0),
        "distance to the bottom edge": ([3.0, 3.0, 7.0, 7.0], 1.5, None),
        "distance to the top edge": ([8.5, 8.5, 4.5, 4.5], 4.0, None),
        "distance to the side": ([1.0, 2.0, 1.0, 2.0], 1.5, None),
    }  # fmt: skip
    lifted = asked(group([-100.0], **more), HELD)
    assert (lifted["distance to the bottom edge"][1], lifted["distance to the top edge"][1]) == (4.0, 1.5)


def test_end_grain_of_the_other_piece_has_no_end_distance() -> None:
    made = group([100.0], holes=FOUR, other={**OTHER, "grain": "end"})
    assert "end distance" not in asked(made, FAR) and "end distance" in asked(made, HELD)


def test_small_fasteners_toe_nails_and_steel_ask_for_nothing() -> None:
    nail = {"kind": "nail", "size": "16d common"}
    assert connect(group([100.0], fastener=nail, other=OTHER)).needs == []
    assert connect(group([100.0], manner="toe-nails", fastener=nail, other=OTHER)).needs == []
    plated = connect(group([100.0], manner="plates both sides", plate=PLATE, other=None))
    assert {need.member for need in plated.needs} == {HELD}


@pytest.mark.parametrize(("thick", "multiple"), [("4x12 dressed", 4.0), ("2x12 dressed", 1.5)])
def test_wood_thick_against_the_bolt(thick: str, multiple: float) -> None:
    """l/D of the piece 7 or 3: over 6 half the widest distance between rows, here 6 in."""
    places = [{"x": "4 in", "y": f"{y} in"} for y in (1.5, 3.5, 9.5)]
    bolt = {"kind": "bolt", "size": "1/2 in", "threads": "clear of it"}
    made = group([0.0], [100.0], held=stock(thick), manner="plates both sides", plate=PLATE, other=None,
                 holes={"places": places}, fastener=bolt)  # fmt: skip
    wide = 3.0 / 0.5 if thick == "4x12 dressed" else multiple
    assert asked(made, HELD)["distance to the top edge"][1] == pytest.approx(wide)


@pytest.mark.parametrize(("species", "hard"), [
    ("Mixed Oak", True), ("red oak", True), ("Douglas Fir-Larch", False), ("unknown", False),
])  # fmt: skip
def test_hardwoods_by_the_table(species: str, hard: bool) -> None:
    """Table 12.3.3A (read); what is not known is taken for softwood, which asks for more."""
    assert is_hardwood(stock(species=species, grade="No.2")) is hard
    assert is_hardwood(None) is False


def test_the_side_of_the_other_piece_in_the_plane_of_the_joint() -> None:
    """A 2x12 laid against it with 1 1/2 in of thickness is 11 1/4 in wide; on edge 1 1/2 in."""
    made = group([100.0])
    other = made.anchor.other
    assert other is not None
    for thickness, wide in ((1.5, 11.25), (11.25, 1.5), (6.375, 11.25)):
        assert far_width(other.model_copy(update={"thickness": thickness}), stock()) == wide
    assert far_width(other, None) is None
    unknown = asked(group([100.0], holes=FOUR, other={**OTHER, "stock": None}), "post")
    assert "distance to the given edge" in unknown and "distance to the far edge" not in unknown


# ---- C_delta ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("holes", "C_delta"), [
    # along, 5 3/8 in of post and 11 1/4 in of piece: end of 7 D, spacing of 4 D
    ({"end": "3 1/2 in", "spacing": "2 in"}, 1.0), ({"end": "3 in", "spacing": "2 in"}, 3.0 / 3.5),
    ({"end": "4 in", "spacing": "1 3/4 in"}, 1.75 / 2.0), ({"end": "3 in", "spacing": "1.6 in"}, 1.6 / 2.0),
    ({"end": "1.75 in", "spacing": "2 in"}, 0.5),
    ({"end": "2.1 in", "spacing": "1 1/2 in"}, 0.6),  # the spacing is the least that has a value: 0.75
])  # fmt: skip
def test_the_least_of_end_and_spacing_counts_for_all(holes: Data, C_delta: float) -> None:
    """12.5.1.2 (read): the smallest of any fastener in any member, whether worked out for one case or for all."""
    laid = {"rows": 1, "columns": 2, "edge": "5 5/8 in", **holes}
    made = connect(group([0.0], [100.0], holes=laid, other={**OTHER, "grain": "along", "end": "8 in"}))
    assert geometry_factor(SilentPad(), made.needs, 0.5, slice(None)) == pytest.approx([C_delta], rel=1e-5)
    assert geometry_factor(Pad(), made.needs, 0.5, 0) == pytest.approx(C_delta, rel=1e-5)
    check = find(lateral(made.group), "lateral load")
    assert step(check, "C_delta") == pytest.approx(C_delta, rel=1e-5)


@pytest.mark.parametrize(("end", "C_delta"), [("1 in", 1.0), ("0.9 in", 0.9), ("0.6 in", 0.6)])
def test_distances_of_thin_bolts_in_full(end: str, C_delta: float) -> None:
    """4 D of 1/4 in are 1 in."""
    bolt = {"kind": "bolt", "size": "1/4 in", "threads": "clear of it"}
    made = connect(group([10.0], fastener=bolt, holes={**ONE, "end": end}, other=OTHER))
    assert geometry_factor(SilentPad(), made.needs, 0.25, slice(None)) == pytest.approx([C_delta], rel=1e-4)
    assert geometry_factor(Pad(), made.needs, 0.25, 0) == pytest.approx(C_delta, rel=1e-4)


def test_below_the_least_distance_there_is_no_value() -> None:
    laid = {"rows": 1, "columns": 1, "edge": "5 5/8 in", "end": "1.74 in"}
    made = connect(group([0.0, 0.0], [100.0, -100.0], holes=laid, other={**OTHER, "grain": "along", "end": "8 in"}))
    every = geometry_factor(SilentPad(), made.needs, 0.5, slice(None))
    assert np.isnan(every[0]) and every[1] == pytest.approx(1.74 / 2.0, rel=1e-5), "pressed, 4 D are in full"  # type: ignore[index]
    with pytest.raises(OutOfRange):
        geometry_factor(Pad(), made.needs, 0.5, 0)
    assert geometry_factor(SilentPad(), [], 0.5, slice(None)) == pytest.approx([1.0])
    assert geometry_factor(Pad(), [], 0.5, 0) == 1.0


def test_a_distance_beyond_the_edge_is_no_ratio() -> None:
    """4 D to the top asked, 1 in beyond it or on the very edge: short by 2 in and what is beyond."""
    for y, words in (("11.25 in", "on the very edge or 0 in beyond it: short by 2 in"),
                     ("12.25 in", "on the very edge or 1 in beyond it: short by 3 in")):  # fmt: skip
        made = group([100.0], holes={"places": [{"x": "6 in", "y": y}]})
        check = find(layout(made), "distance to the top edge in the held piece B")
        assert check.verdict == "fails" and words in check.notes[0] and "2 in asked" in check.notes[0]
