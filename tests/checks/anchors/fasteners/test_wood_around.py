"""Wood torn and split around a group, how its force spreads, group action: limits and figures by hand.

Douglas Fir-Larch No.1, 2x12 unless said: F_t 675, F_v 180, F_c_perp 625 psi, E 1,700,000 psi, G 0.50 (read). Invented.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.anchors.fasteners.factors import _stiff, group_action, temperature
from beamcheck.checks.anchors.fasteners.spread import spread_of
from beamcheck.checks.anchors.manners.registry import connect
from beamcheck.checks.core.asking.question import RULING
from beamcheck.errors import OutOfRange
from beamcheck.model.beams import Beam
from beamcheck.model.roofs import Rafter

from ... import houses
from ...beams.beams import beam
from ..anchors import (
    A36,
    DEEP,
    HALF,
    NAIL,
    ONE,
    OTHER,
    PLATE,
    TIMBER,
    Data,
    find,
    group,
    lateral,
    step,
    stock,
    tear_out,
    those,
)

# ---- torn out along the grain ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(("places", "rows", "block"), [
    # one row of three, 2 and 3 in apart, 4 in from the end: 3 x 180 x 1.5 x 2
    ([(4, 5.625), (6, 5.625), (9, 5.625)], 3 * 180 * 1.5 * 2.0, None),
    # two rows, the upper one 5 in from the end and alone in it: 2 x 180 x 1.5 x 3 and 180 x 1.5 x 5
    ([(4, 4.125), (7, 4.125), (5, 7.125)], 2 * 180 * 1.5 * 3.0 + 180 * 1.5 * 5.0,
     (2 * 180 * 1.5 * 3.0 + 180 * 1.5 * 5.0) / 2 + 675 * (3.0 - 0.5625) * 1.5),
    # three rows: the block between the outer ones, 5 in less two holes
    ([(4, 3), (4, 5.5), (4, 8)], 3 * 180 * 1.5 * 4.0, 180 * 1.5 * 4.0 + 675 * (5.0 - 2 * 0.5625) * 1.5),
])  # fmt: skip
def test_rows_and_blocks(places: Any, rows: float, block: float | None) -> None:
    """n F_v' t s_crit of each row (Appendix E.3); half of the outer rows and F_t' between them (E.4)."""
    laid = {"places": [{"x": f"{x} in", "y": f"{y} in"} for x, y in places]}
    found = tear_out(group([0.0], [500.0], holes=laid))
    assert find(found, "row tear-out in the held").capacity == pytest.approx(rows)
    blocks = [check.capacity for check in those(found, "anchor.group_tear_out", "held")]
    assert blocks == ([pytest.approx(block)] if block is not None else [])


def test_what_the_other_piece_is_torn_by() -> None:
    """A post: 6 in to its nearer end, the bolts 3 in apart along it; whichever way it is pushed."""
    two = {"rows": 2, "columns": 1, "end": "4 in", "edge": "4 in", "row_spacing": "3 in"}
    for force in (500.0, -500.0):
        check = find(tear_out(group([force], holes=two, other=OTHER)), "row tear-out in the post")
        assert (check.demand, check.capacity) == (500.0, pytest.approx(2 * 180 * 1.5 * 3.0))
    level = find(
        tear_out(group([0.0], [-500.0], holes=two, other={**OTHER, "grain": "along"})), "row tear-out in the post"
    )
    assert level.capacity == pytest.approx(2 * 180 * 1.5 * 6.0), "two rows of one, 6 in from the end"
    no_end = {key: value for key, value in OTHER.items() if key != "end"}
    assert not those(tear_out(group([500.0], holes=two, other=no_end)), "anchor.row_tear_out", "post")
    assert not those(tear_out(group([0.4], [0.0], holes=two)), "anchor.row_tear_out")
    assert not those(tear_out(group([500.0], other={**OTHER, "grain": "end"})), "anchor.row_tear_out", "post")


@pytest.mark.parametrize(("held", "more", "area"), [
    # 11 1/4 in less a hole of 9/16 in, by 1 1/2 in; bores take 15/16 in more over half an inch of 5 1/2 in
    ("2x12 dressed", {}, (11.25 - 0.5625) * 1.5),
    ("6x12 dressed", {"fastener": {**HALF, "counterbore": "1 1/2 in", "counterbore_depth": "1/2 in"}},
     (11.5 - 0.5625) * 5.5 - 0.9375 * 0.5),
    # a slot of 5/16 in through all of the depth, or 9 in of it
    ("6x12 dressed", {"manner": "concealed plate", "plate": A36, "other": None}, (11.5 - 0.5625) * 5.1875),
    ("6x12 dressed", {"manner": "concealed plate", "plate": {**A36, "slot_height": "9 in"}, "other": None},
     5.5 * 11.5 - 0.3125 * 9.0 - 0.5625 * 5.1875),
    # a lag screw of 1/2 in into the piece: as deep as its point, 4 in less plate and washer
    ("6x12 dressed", {"manner": "plate one side", "plate": PLATE, "other": None,
                      "fastener": {"kind": "lag screw", "size": "1/2 in", "length": "4 in"}},
     5.5 * 11.5 - 0.5 * (4 - 0.25 - 0.109)),
    # through the piece it counts all of its breadth
    ("2x12 dressed", {"other": DEEP, "fastener": {"kind": "lag screw", "size": "1/2 in", "length": "6 in"}},
     (11.25 - 0.5) * 1.5),
])  # fmt: skip
def test_net_section_of_the_held_piece(held: str, more: Data, area: float) -> None:
    wood = {"2x12 dressed": 675.0, "6x12 dressed": 675.0}[held]
    check = find(tear_out(group([0.0], [500.0], held=stock(held), holes=ONE, **more)), "net section")
    assert check.capacity == pytest.approx(area * wood)


@pytest.mark.parametrize(("pull", "there"), [(0.5, False), (0.51, True)])
def test_half_a_pound_tears_nothing(pull: float, there: bool) -> None:
    assert bool(those(tear_out(group([0.0], [pull])), "anchor.net_section")) is there
    assert bool(those(tear_out(group([pull])), "anchor.connection_shear")) is there


# ---- across the grain ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("end", "near"), [("56.24 in", True), ("56.25 in", False)])
def test_near_the_end_of_a_member(end: str, near: bool) -> None:
    """5 d, 56 1/4 in (3.4.3.3): beyond it no more than F_v' on d_e; before it with its square."""
    holes = {"rows": 1, "columns": 1, "end": end, "edge": "4 in"}
    check = find(tear_out(group([100.0], holes=holes)), "shear at the connection")
    d_e = 11.25 - 4.0
    assert check.capacity == pytest.approx(
        2 / 3 * 180 * 1.5 * d_e * ((d_e / 11.25) ** 2 if near else 1.5 * 2 / 3 * 1.0)
    )
    assert check.notes[0].startswith("less than" if near else "not less than")


def test_breadth_less_the_slot_is_sheared() -> None:
    made = group([100.0], held=TIMBER, manner="concealed plate", plate=A36, other=None, holes={**ONE, "edge": "4 in"})
    check = find(tear_out(made), "shear at the connection")
    d_e = 11.5 - 4.0
    assert step(check, "b") == pytest.approx(5.1875)
    assert check.capacity == pytest.approx(2 / 3 * 170 * 5.1875 * d_e * (d_e / 11.5) ** 2), "F_v 170 psi of a timber"


@pytest.mark.parametrize(("force", "edge", "half"), [
    (100.0, "5 5/8 in", ""), (100.0, "5.63 in", "upper"), (-100.0, "5 5/8 in", ""), (-100.0, "5.62 in", "lower"),
    (100.0, "5.62 in", ""), (-100.0, "5.63 in", ""), (0.4, "9 in", ""),
    (2.5, "5.63 in", ""), (2.6, "5.63 in", "upper"),
])  # fmt: skip
def test_pushed_to_the_nearer_side(force: float, edge: str, half: str) -> None:
    """3.8.2: bolts above the middle of 11 1/4 in under what presses down, below it under what lifts; up to 1 % of the
    252 lb of shear there is next to nothing."""
    found = those(tear_out(group([force], holes={**ONE, "edge": edge})), "anchor.tension_across")
    assert [check.verdict for check in found] == (["refer"] if half else [])
    assert all(f"in the {half} half" in check.notes[0] for check in found)


def test_what_is_loaded_across_its_grain_on_the_other_side() -> None:
    """A girder or a rafter that says where the fastenings sit is asked itself; a trifle asks nobody."""
    along = {**OTHER, "grain": "along"}
    made = group([500.0], other=along)
    assert len(those(tear_out(made), "anchor.far_across")) == 1
    girder = Beam.model_validate(beam(name="post"))
    assert those(tear_out(replace(made, into=girder)), "anchor.far_across") == []
    rafter = Rafter.model_validate(houses.rafter(name="post"))
    assert len(those(tear_out(replace(made, into=rafter)), "anchor.far_across")) == 1
    told = group([500.0], other=along, on_girder={"highest": "2 in", "lowest": "9 in"})
    assert those(tear_out(replace(told, into=rafter)), "anchor.far_across") == []
    assert those(tear_out(group([2.0], other=along)), "anchor.far_across") == []
    assert those(tear_out(group([0.0], [500.0], other=along)), "anchor.far_across") == []
    assert len(those(tear_out(group([0.0], [500.0], other=OTHER)), "anchor.far_across")) == 1


# ---- how the force spreads -------------------------------------------------------------------------------------------

SQUARE: Data = {"rows": 2, "columns": 2, "end": "4 in", "edge": "3 5/8 in", "spacing": "4 in", "row_spacing": "4 in"}


def test_forces_of_a_square_group() -> None:
    """Middle 6 in from the end, I_p 32: 800 lb by 3 in and a pull 1 in below the middle, with 400 lb-in of the end."""
    made = group([800.0], [200.0], holes={**SQUARE, "edge": "2 5/8 in"}, arm="3 in")
    made = replace(made, forces=replace(made.forces, turning=np.array([400.0])))
    M = 3 * 800.0 - 200.0 * 1.0 + 400.0
    found = spread_of(made)
    assert found.M[0] == pytest.approx(M) and found.I_p == 32.0
    assert found.P_x[:, 0] == pytest.approx([50 + M * 2 / 32] * 2 + [50 - M * 2 / 32] * 2)
    assert found.P_y[:, 0] == pytest.approx([-200 - M * 2 / 32, -200 + M * 2 / 32] * 2)
    assert found.worst == int(np.argmax(found.P[:, 0])) and found.loaded.all()
    check = find(lateral(made), "lateral load")
    k = int(check.where.split()[1][0]) * 2 - 2 + int(check.where.split()[-1]) - 1
    assert check.demand == pytest.approx(found.P[k, 0]) and step(check, "M") == pytest.approx(M)
    assert step(check, "P_y") == -800.0 and step(check, "P_x") == 200.0


def test_directions_of_a_force() -> None:
    """Toward the upper edge is positive, between -90 and 90."""

    def toward(across: float, along: float) -> float:
        return float(spread_of(group([across], [along])).toward[0, 0])

    assert toward(-100.0, 100.0) == pytest.approx(45.0) and toward(100.0, 100.0) == pytest.approx(-45.0)
    assert toward(100.0, -100.0) == pytest.approx(45.0) and toward(-50.0, 100.0) == pytest.approx(26.565, abs=1e-3)


def test_what_is_only_rounding_has_no_direction() -> None:
    made = spread_of(group([1000.0, 0.0], [1e-4, 0.4]))
    assert made.P_x[0, 0] == 0.0 and made.theta[0, 0] == 90.0
    assert made.loaded.tolist() == [[True, False]]
    assert spread_of(group([0.0], [0.51])).loaded.all() and not spread_of(group([0.0], [0.5])).loaded.any()


def test_fasteners_in_one_place_take_no_moment() -> None:
    made = replace(group([100.0], holes=SQUARE), x=np.full(4, 4.0), y=np.full(4, 5.0))
    with pytest.raises(OutOfRange, match="stand in one place"):
        spread_of(made)


def test_an_arm_that_is_not_said_is_taken_to_the_end() -> None:
    found = spread_of(group([400.0], holes=SQUARE, arm=None))
    assert found.M[0] == pytest.approx(6.0 * 400.0)
    (open_,) = found.doubts
    assert (open_.field, open_.answers) == ("arm", ("0 in", "6 in")) and "6 in to the end" in open_.text
    (one,) = spread_of(group([400.0], arm="2 in")).doubts
    assert (one.field, one.answers) == ("arm", ("0 in",))
    assert (
        not spread_of(group([400.0], arm="0 in")).doubts
        and not spread_of(group([400.0], manner="ledger", arm="2 in")).doubts
    )


@pytest.mark.parametrize(("arm", "both"), [("1.99 in", False), ("2.01 in", True), ("2 in", False)])
def test_pushed_one_way_up_and_the_other_down(arm: str, both: bool) -> None:
    """Two bolts 4 in apart: the one far from the end has half the load less a quarter of it for each inch of arm."""
    holes = {"rows": 1, "columns": 2, "end": "4 in", "edge": "6 in", "spacing": "4 in"}
    found = those(lateral(group([1000.0], holes=holes, arm=arm)), "anchor.both_ways")
    assert [check.questions[0].field for check in found] == ([RULING] if both else [])


# ---- factors ---------------------------------------------------------------------------------------------------------


def C_g(n: int, s: float, D: float, E_m: float, A_m: float, E_s: float, A_s: float, gamma: float) -> float:
    """NDS 2018 eq. 11.3-1 (read)."""
    u = 1 + gamma * s / 2 * (1 / (E_m * A_m) + 1 / (E_s * A_s))
    m = u - math.sqrt(u**2 - 1)
    R = min(E_s * A_s / (E_m * A_m), E_m * A_m / (E_s * A_s))
    part = m * (1 - m ** (2 * n)) / (n * ((1 + R * m**n) * (1 + m) - 1 + m ** (2 * n)))
    return part * (1 + R) / (1 - m)


E_DF = 1.7e6


@pytest.mark.parametrize(("more", "A_m", "A_s", "E_s", "metal"), [
    # main the post, side the piece; along the grain of the piece its whole section, across that of the post 1 1/2 in by
    # the least of spacing, 3 D
    ({"other": {**OTHER, "grain": "along"}}, 16.875, 16.875, E_DF, False),
    ({"other": OTHER}, 1.5 * 1.5, 16.875, E_DF, False),
    ({"other": {**OTHER, "grain": "end"}}, 1.5 * 1.5, 16.875, E_DF, False),
    # main the piece, side a plate 6 x 1/4 in, or two of them; in a slot the plate is the main member
    ({"manner": "plate one side", "plate": PLATE, "other": None}, 16.875, 1.5, 30e6, True),
    ({"manner": "plates both sides", "plate": PLATE, "other": None}, 16.875, 3.0, 30e6, True),
])  # fmt: skip
def test_group_action_of_a_row(more: Data, A_m: float, A_s: float, E_s: float, metal: bool) -> None:
    """Four bolts of 1/2 in, 3 in apart, pulled along their row; stiffness 180,000 D^1.5, 270,000 beside metal."""
    row = {"rows": 1, "columns": 4, "end": "4 in", "edge": "5 5/8 in", "spacing": "3 in"}
    made = group([0.0], [100.0], holes=row, **more)
    joint = connect(made).joint
    found = group_action(SilentPad(), made, joint, 0, "along")
    E_m, E_side = (E_DF, E_s) if metal or E_s == E_DF else (E_s, E_DF)
    gamma = (270_000 if metal else 180_000) * 0.5**1.5
    assert found == pytest.approx(C_g(4, 3.0, 0.5, E_m, A_m, E_side, A_s, gamma))


def test_widths_of_a_group_across_the_grain() -> None:
    """Two rows 4 in apart: 4 in of the piece across; one row: 3 D."""
    two = group([100.0], holes={"rows": 2, "columns": 2, "end": "4 in", "edge": "3 in", "spacing": "3 in",
                                "row_spacing": "4 in"}, other=OTHER)  # fmt: skip
    joint = connect(two).joint
    held, post = joint.held_part, joint.other
    assert _stiff(two, joint, held, "across")[1] == pytest.approx(1.5 * 3.0)
    assert _stiff(two, joint, held, "along")[1] == pytest.approx(1.5 * 11.25)
    assert _stiff(two, joint, post, "across")[1] == pytest.approx(1.5 * 11.25)
    assert _stiff(two, joint, post, "along")[1] == pytest.approx(1.5 * 4.0)
    one = group([100.0], other=OTHER)
    assert _stiff(one, connect(one).joint, connect(one).joint.held_part, "across")[1] == pytest.approx(1.5 * 1.5)
    slot = group([100.0], held=TIMBER, manner="concealed plate", plate=A36, other=None)
    joint = connect(slot).joint
    assert _stiff(slot, joint, joint.side, "along")[1] == pytest.approx(5.1875 * 11.5), "both cheeks"
    assert _stiff(slot, joint, joint.main, "along")[1] == pytest.approx(0.25 * 6.0)
    assert _stiff(slot, joint, joint.main, "across")[1] == pytest.approx(0.25 * 10.0)


@pytest.mark.parametrize(("lift", "n"), [(0.7, 4), (0.8, 2)])
def test_staggered_rows_count_as_one(lift: float, n: int) -> None:
    """11.3.6.2: lines nearer than a quarter of 3 in between the closest of them, here 6 in a row."""
    places = [(4, 5), (10, 5), (7, 5 + lift), (13, 5 + lift)]
    made = group([0.0], [100.0], holes={"places": [{"x": f"{x} in", "y": f"{y} in"} for x, y in places]},
                 other={**OTHER, "grain": "along"})  # fmt: skip
    found = group_action(SilentPad(), made, connect(made).joint, 0, "along")
    s = 3.0 if n == 4 else 6.0
    assert found == pytest.approx(C_g(n, s, 0.5, E_DF, 16.875, E_DF, 16.875, 180_000 * 0.5**1.5))


def test_no_group_action_below_a_quarter_inch_or_of_one() -> None:
    row = {"rows": 1, "columns": 4, "end": "4 in", "edge": "5 5/8 in", "spacing": "3 in"}
    nails = group([0.0], [50.0], holes=row, fastener=NAIL, other=DEEP, into=TIMBER)
    assert group_action(SilentPad(), nails, connect(nails).joint, 0, "along") == 1.0
    one = group([0.0], [50.0])
    assert group_action(SilentPad(), one, connect(one).joint, 0, "along") == 1.0
    assert temperature(connect(group([10.0], other={**OTHER, "stock": None})).joint).value == 1.0
