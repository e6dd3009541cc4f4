"""Lateral strength of a group: published values of one fastener, the spread of forces, factors, what is refused."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.anchors.fasteners.factors import group_action
from beamcheck.checks.anchors.fasteners.spread import spread_of
from beamcheck.checks.anchors.manners.registry import connect, manner_of
from beamcheck.checks.core.wood.strength import Section

from .anchors import A36, PLATE, Data, find, group, lateral, said, step, stock

WORST = "lateral load on the worst"
ALONG: Data = {"stock": "wood", "thickness": "1 1/2 in", "grain": "along", "end": "6 in", "edge": "5 in"}
SQUARE: Data = {
    "rows": 2, "columns": 2, "end": "4 in", "edge": "3 5/8 in", "spacing": "4 in", "row_spacing": "4 in"
}  # fmt: skip
LONG_AND_SHORT = ((4, 4.5), (5.75, 4.5), (7.5, 4.5), (4, 9))  # in; three in a row and one above them


def capacity(**more: object) -> float:
    found = find(lateral(group(**more)), WORST).capacity  # type: ignore[arg-type]
    assert found is not None
    return found


def known(size: str, G: float = 0.5, E: float = 1.4e6) -> Data:
    psi = {"F_b": 1000, "F_t": 600, "F_v": 150, "F_c_perp": 400, "F_c": 1000, "E": E, "E_min": 5e5}
    return {
        "species": "unknown", "grade": "unstamped", "size": size, "grade_from": None, "evidence": "",
        "values": {**{name: f"{value} psi" for name, value in psi.items()}, "G": G, "source": "invented letter"},
    }  # fmt: skip


@pytest.mark.parametrize(
    ("across", "along", "grain", "published"),
    [(0.0, 100.0, "along", 483.0), (100.0, 0.0, "across", 298.0), (100.0, 0.0, "along", 217.0)],
)
def test_one_half_inch_bolt(across: float, along: float, grain: str, published: float) -> None:
    """Worked example X3 (read): 1/2 in bolt, 1-1/2 in and 1-1/2 in, G 0.50; a group of one equals the fastener."""
    made = group([across], [along], other={**ALONG, "grain": grain})
    check = find(lateral(made), WORST)
    assert check.capacity == pytest.approx(published, abs=0.6)
    assert check.demand == pytest.approx(100.0)
    assert check.verdict == "passes"
    assert check.where == "row 1, column 1"


@pytest.mark.parametrize(
    ("fastener", "across", "along", "published"),
    [
        ({"kind": "lag screw", "size": "1/4 in", "length": "3 in"}, 0.0, 10.0, 119.1),
        ({"kind": "lag screw", "size": "1/4 in", "length": "3 in"}, 10.0, 0.0, 82.4),
        ({"kind": "wood screw", "size": "No. 10", "length": "3 in"}, 10.0, 0.0, 89.9),
    ],
)
def test_small_lag_and_screw(fastener: Data, across: float, along: float, published: float) -> None:
    """Worked example X2 (read): side 0.5 in, G 0.50; the root diameter with the K_D terms."""
    made = group(
        [across], [along], into=stock("4x6 dressed"), fastener=fastener, other={**ALONG, "thickness": "3 1/2 in"},
        held=stock("2x6 dressed"), holes={"rows": 1, "columns": 1, "end": "4 in", "edge": "3 in"},
    )  # fmt: skip
    value = find(lateral(replace(made, section=Section(0.5, 5.5, 0.5))), WORST).capacity
    assert value == pytest.approx(published, abs=0.2)


def test_a_common_nail_under_wind() -> None:
    """X1 (derived there from the equations): 16d common, G 0.50, 141 lbf in mode IV, times 1.6."""
    nail = {"kind": "nail", "size": "16d common"}
    value = capacity(across=[100.0], kinds="W", fastener=nail, other={**ALONG, "thickness": "3 1/2 in"})
    assert value == pytest.approx(1.6 * 140.89, rel=1e-3)


@pytest.mark.parametrize(("gap", "expected"), [("0 in", 615), ("1/4 in", 537), ("1 in", 379)])
def test_a_gap_takes_capacity(gap: str, expected: float) -> None:
    """dowel_connections.md section 6 (derived there): 1/2 in bolt, G 0.50, along the grain, 3-1/2 and 1-1/2 in."""
    value = capacity(along=[10.0], gap=gap, other={**ALONG, "thickness": "3 1/2 in"})
    assert value == pytest.approx(expected, abs=0.6)


@pytest.mark.parametrize(("gap", "expected"), [("0 in", 826), ("1/2 in", 537)])
def test_a_gap_behind_a_plate(gap: str, expected: float) -> None:
    """The same with a 1/4 in A36 plate."""
    value = capacity(
        along=[10.0], gap=gap, other=None, plate=PLATE, manner="plate one side", held=stock("4x12 dressed")
    )  # fmt: skip
    assert value == pytest.approx(expected, abs=0.6)


def test_plates_on_both_sides() -> None:
    """Mode Im of Table 12.3.1A by hand: 0.5 x 1.5 x 5600 / 4 = 1050 lbf."""
    value = capacity(along=[10.0], other=None, plate=PLATE, manner="plates both sides")
    assert value == pytest.approx(1050.0)


def test_a_plate_in_a_slot() -> None:
    """Double shear with a steel main member, Table 12.3.1A written out: 1/2 in bolt, snug slot, along the grain."""
    D, l_s, F_es, F_em, F_yb = 0.5, (3.5 - 0.25) / 2, 5600.0, 87000.0, 45000.0
    R_e = F_em / F_es
    k_3 = -1 + math.sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D**2 / (3 * F_em * l_s**2))
    expected = min(
        D * 0.25 * F_em / 4, 2 * D * l_s * F_es / 4, 2 * k_3 * D * l_s * F_em / ((2 + R_e) * 3.2),
        2 * D**2 / 3.2 * math.sqrt(2 * F_em * F_yb / (3 * (1 + R_e))),
    )  # fmt: skip
    made: Data = {
        "along": [10.0], "other": None, "manner": "concealed plate", "held": stock("4x12 dressed"),
        "plate": {**A36, "slot": "1/4 in"},
    }  # fmt: skip
    assert capacity(**made) == pytest.approx(expected)
    assert capacity(**{**made, "plate": {**A36, "slot": "1/2 in"}}) < expected
    bored = {"kind": "bolt", "size": "1/2 in", "threads": "clear of it", "counterbore": "1 1/2 in",
             "counterbore_depth": "1/2 in"}  # fmt: skip
    check = find(lateral(group(**{**made, "fastener": bored})), WORST)
    assert step(check, "l_s") == pytest.approx((3.5 - 0.25) / 2 - 0.5)


def test_threads_lie_in_the_plane_unless_said_otherwise() -> None:
    bolt = {"kind": "bolt", "size": "1/2 in"}
    check = find(lateral(group([100.0], fastener=bolt)), WORST)
    assert step(check, "D") == pytest.approx(0.406)  # Table L1 (read)


def test_four_bolts_off_center() -> None:
    """By hand: 4 in square, 1000 lbf, arm 4 in: I_p 32; (250 + 250) down and 250 sideways next to the end."""
    made = group([1000.0], holes=SQUARE, arm="4 in")
    spread = spread_of(made)
    assert spread.P[:, 0] == pytest.approx([math.hypot(500, 250), 250.0, math.hypot(500, 250), 250.0])
    assert spread.theta[:, 0] == pytest.approx([math.degrees(math.atan2(500, 250)), 0.0] * 2)
    assert float(spread.P_y.sum()) == pytest.approx(-1000.0)
    assert find(lateral(made), WORST).where in ("row 1, column 1", "row 2, column 1")


def test_the_arm_of_a_ledger_is_no_moment_in_its_plane() -> None:
    made = group([1000.0], manner="ledger", holes=SQUARE, arm="4 in")
    assert spread_of(made).P[:, 0] == pytest.approx(250.0)


def test_one_bolt_is_a_hinge() -> None:
    assert "takes no moment" in said(lateral(group([100.0], arm="4 in")), "refer")
    assert "takes no moment" not in said(lateral(group([100.0], arm=None)), "refer")


def test_a_pull_beside_the_middle_turns_the_group() -> None:
    """By hand: the pull acts at half the depth (5-5/8 in); 1 in below it the bolts get 1 in x 1000 lbf of moment."""
    made = group([0.0], [1000.0], holes={**SQUARE, "edge": "2 5/8 in"})
    assert spread_of(made).M[0] == pytest.approx(-1000.0)


@pytest.mark.parametrize("row", [(2, 0.98), (4, 0.84), (8, 0.55)])
def test_published_group_action(row: tuple[int, float]) -> None:
    """Table 11.3.6A (memory, reproduced): A_s/A_m 0.5, A_m 10 in2, D 1 in, s 4 in, E 1,400,000 psi."""
    n, published = row
    made = group(
        [0.0], [100.0], held=stock(**known("2 in x 5 in")), into=stock(**known("2 in x 5 in")),
        fastener={"kind": "bolt", "size": "1 in"}, other={**ALONG, "thickness": "2 in"},
        holes={"rows": 1, "columns": n, "end": "7 in", "edge": "2 1/2 in", "spacing": "4 in"},
    )  # fmt: skip
    made = replace(made, section=Section(1.0, 5.0, 1.0))
    assert group_action(SilentPad(), made, manner_of(made.anchor).joint_of(made), 0, "along") == pytest.approx(
        published, abs=0.006
    )


def test_short_end_distance_reduces_and_then_leaves_nothing() -> None:
    """12.5.1.2 (read): 5.25 D of 7 D is 0.75; below 3.5 D there is no value."""
    full = capacity(along=[10.0], other=ALONG)
    end = {"rows": 1, "columns": 1, "edge": "6 in"}
    assert capacity(along=[10.0], other=ALONG, holes={**end, "end": "2 5/8 in"}) == pytest.approx(0.75 * full, rel=1e-5)
    check = find(lateral(group([0.0], [10.0], other=ALONG, holes={**end, "end": "1 1/2 in"})), WORST)
    assert check.verdict == "fails"
    assert "12.5.1.2" in check.clause
    pressed = find(lateral(group([0.0], [-10.0], other={**ALONG, "end": "6 in"},
                                        holes={**end, "end": "2 in"})), WORST)  # fmt: skip
    assert step(pressed, "C_delta") == 1.0  # pressed against the end 4 D are enough


def test_rows_of_unlike_length() -> None:
    """By hand: 3.5 D of 4 D in the row of three is 0.875 for all four; C_g 1 for the one that stands alone."""
    places = {"places": [{"x": f"{x} in", "y": f"{y} in"} for x, y in LONG_AND_SHORT]}
    made = connect(group([0.0], [300.0], holes=places, other=ALONG))
    alone = connect(group([0.0], [300.0], other=ALONG)).Z_prime[0, 0]
    assert made.Z_prime[3, 0] == pytest.approx(0.875 * alone, rel=1e-5)  # the centroid is at half the depth
    assert made.Z_prime[0, 0] < 0.875 * alone


@pytest.mark.parametrize(
    ("seasoned", "moisture", "rows", "C_M"),
    [("dry", "dry", 2, 1.0), ("green", "dry", 2, 0.4), ("green", "dry", 1, 1.0), ("dry", "wet", 2, 0.7),
     ("green", "wet", 2, 0.7), (None, "green", 2, 0.4)],
)  # fmt: skip
def test_moisture(seasoned: str | None, moisture: str, rows: int, C_M: float) -> None:
    """Table 11.3.3 (read); what is not known of the moisture counts with the worst."""
    wood = stock(moisture=moisture, measured_moisture="12 %" if moisture == "dry" else None)
    holes = {"rows": rows, "columns": 1, "end": "4 in", "edge": "4 in"}
    holes |= {"row_spacing": "3 in"} if rows > 1 else {}
    made = group([0.0], [100.0], held=wood, holes=holes, seasoned=seasoned, other=None, plate=PLATE,
                 manner="plate one side")  # fmt: skip
    assert step(find(lateral(made), WORST), "C_M") == C_M


def test_duration_is_held_to_1_6_in_a_connection() -> None:
    made = group([100.0])
    longer = replace(made.forces.combinations[0], C_D=2.0, duration=made.forces.combinations[0].duration)
    longer = replace(longer, duration=type(longer.duration)(2.0, longer.duration.source, "impact"))
    made = replace(made, forces=replace(made.forces, combinations=(longer,)))
    check = find(lateral(made), WORST)
    assert check.capacity == pytest.approx(1.6 * 298.35, rel=1e-4)


def test_end_grain_takes_less() -> None:
    """12.5.2 and 12.3.3.4 (read): 0.67, with F_e across the grain whatever the direction."""
    into_end: Data = {"stock": "wood", "thickness": "1 1/2 in", "grain": "end", "edge": "5 in"}
    assert capacity(across=[10.0], other=into_end) == pytest.approx(0.67 * 217.46, rel=1e-3)


def test_toe_nails() -> None:
    """12.5.4 (read) 0.83; lengths of 12.1.6.3: min(t_s, L/3) and L cos 30 - L/3 less half the tip."""
    holes = {"rows": 4, "columns": 1, "end": "1 1/8 in", "edge": "2 in", "row_spacing": "2 in"}
    made = group([100.0], manner="toe-nails", fastener={"kind": "nail", "size": "16d common"}, holes=holes,
                 other={**ALONG, "thickness": "5 1/2 in"})  # fmt: skip
    check = find(lateral(made), WORST)
    assert check.demand == pytest.approx(25.0)
    assert step(check, "C_tn") == 0.83
    assert step(check, "l_s") == pytest.approx(3.5 / 3)
    assert step(check, "l_m") == pytest.approx(3.5 * math.cos(math.radians(30)) - 3.5 / 3 - 0.162)


def test_upside_down_is_the_same() -> None:
    """A group turned over with its forces: the same ratios, rows in the other order."""
    made = group([900.0, -300.0], [200.0, 0.0], held=stock("4x12 dressed"), arm="3 in",
                 holes={**SQUARE, "edge": "2 1/2 in"}, other={**ALONG, "grain": "across"})  # fmt: skip
    over = replace(
        made, y=float(made.section.d) - made.y, forces=replace(made.forces, across=-made.forces.across)
    )  # fmt: skip
    one, two = connect(made), connect(over)
    assert two.ratio == pytest.approx(one.ratio)
    assert over.name_of(two.worst) != made.name_of(one.worst)


@settings(deadline=None, max_examples=25)
@given(st.floats(2.0, 12.0), st.floats(0.0, 6.0), st.floats(1.0, 5.0), st.floats(0.0, 3.0), st.floats(0.0, 89.0))
def test_more_end_distance_or_more_wood_never_takes_capacity(
    end: float, more: float, thick: float, thicker: float, theta: float
) -> None:
    def ratio(end: float, thick: float) -> float:
        made = group(
            [500.0 * math.sin(math.radians(theta))], [500.0 * math.cos(math.radians(theta))],
            holes={"rows": 1, "columns": 1, "end": f"{end} in", "edge": "5 in"},
            other={**ALONG, "stock": None, "thickness": f"{thick} in"},
        )  # fmt: skip
        return float(connect(made).ratio.max())

    least = ratio(end, thick)
    for other in (ratio(end + more, thick), ratio(end, thick + thicker)):
        assert math.isnan(least) or other <= least * (1 + 1e-9)


def test_what_is_not_said_refers() -> None:
    full = group([100.0])
    bare = replace(full, anchor=full.anchor.model_copy(update={"other": None}))
    assert "other side is not described" in said(lateral(bare), "refer")
    bare = replace(full, anchor=full.anchor.model_copy(update={"fastener": None}))
    assert "no fastener is described" in said(lateral(bare), "refer")
    bare = replace(full, x=full.x[:0], y=full.y[:0])
    assert "where the fasteners are" in said(lateral(bare), "refer")
    assert "arm is not given" in said(lateral(group([400.0], holes=SQUARE, arm=None)), "refer")
    assert "look for checks" in said(lateral(group([100.0], split=None)), "refer")
    assert "look for checks" in said(lateral(group([100.0], split="not looked at")), "refer")
    assert "split runs through" in said(lateral(group([100.0], split="check across the holes")), "refer")
    assert "name its stock" in said(lateral(group([100.0], other={**ALONG, "stock": None})), "refer")
    pins = lateral(group([100.0], fastener={"kind": "pin", "size": "1/2 in"}))
    assert "clamp the joint" in said(pins, "refer")
    assert find(pins, WORST).capacity == pytest.approx(0.75 * 298.35, rel=1e-4)
    steel = lateral(group([100.0], fastener={"kind": "nail", "size": "16d common", "coating": "stainless"}))
    assert "enter the maker's" in said(steel, "refer")
    for size in ("9/16 in", "2 1/2 in"):
        assert "is not known" in said(lateral(group([100.0], fastener={"kind": "bolt", "size": size})), "refer")
    screw = {"kind": "lag screw", "size": "1/2 in", "length": "5 in"}
    lag, slot = group([100.0], fastener=screw), group([100.0], manner="concealed plate", plate=A36, other=None)
    odd = replace(slot, anchor=slot.anchor.model_copy(update={"fastener": lag.anchor.fastener}))
    assert "two shear planes need bolts" in said(lateral(odd), "refer")
    concrete = {"thickness": "6 in", "grain": "along", "material": "concrete"}
    assert "own report" in said(lateral(group([100.0], other=concrete, kinds="W")), "refer")


def test_concrete_gives_no_increase_for_short_loads() -> None:
    """11.2.4 (memory): what concrete limits is not raised by C_D."""
    concrete = {"thickness": "6 in", "grain": "along", "material": "concrete"}
    assert capacity(across=[100.0], other=concrete, kinds="W") == pytest.approx(
        capacity(across=[100.0], other=concrete, kinds="L")
    )


def test_wood_that_is_not_known_is_shown_for_information() -> None:
    unknown = stock(
        species="unknown",
        grade="unstamped",
        grade_from=None,
        evidence="",
        candidates=["Eastern White Pine", "Douglas Fir-Larch"],
    )
    checks = lateral(group([100.0], held=unknown))
    assert find(checks, WORST).verdict == "refer"
    assert step(find(checks, WORST), "C_M") > 0
    assert min(each.value for each in find(checks, WORST).steps if each.symbol == "G") == pytest.approx(0.36)
    assert "have it identified" in said(checks, "refer")


def test_lengths_that_do_not_fit_fail() -> None:
    def fails(**more: object) -> str:
        return said(lateral(group([50.0], **more)), "fails")  # type: ignore[arg-type]

    lag = {"kind": "lag screw", "size": "3/8 in"}
    thick = {**ALONG, "thickness": "3 1/2 in"}
    short = fails(fastener={**lag, "length": "2 1/2 in"}, other=thick)
    assert "asked for: no lateral value" in short
    assert "the point comes out by" in fails(fastener={**lag, "length": "6 in"}, other=thick)
    assert "too short" in fails(fastener={"kind": "bolt", "size": "1/2 in", "length": "3 in"})
    bored = {"kind": "bolt", "size": "1/2 in", "counterbore": "1 1/2 in", "counterbore_depth": "1/4 in"}
    assert "comes out of the face" in fails(fastener={**bored, "length": "4 in"})
    assert fails(fastener={"kind": "bolt", "size": "1/2 in", "length": "4 in"}) == ""
    assert "no wood is left" in fails(fastener={**bored, "counterbore_depth": "1 1/2 in"})
    slot = group([50.0], manner="concealed plate", plate=A36, other=None, held=stock("4x12 dressed"))
    assert slot.anchor.plate is not None
    tight = slot.anchor.model_copy(update={"plate": slot.anchor.plate.model_copy(update={"slot": 0.125})})
    assert "at most width of a slot" in said(lateral(replace(slot, anchor=tight)), "fails")


def test_a_gap_wider_than_the_model_allows_refers() -> None:
    assert "wider than 2 D" in said(lateral(group([50.0], gap="1 1/4 in")), "refer")


def test_a_moment_that_pushes_both_ways_across_the_grain_refers() -> None:
    """11.1.3: the bolts far from the end push down where the others push up."""
    wide = {"rows": 1, "columns": 2, "end": "4 in", "edge": "6 in", "spacing": "4 in"}
    assert "tension across the grain" in said(lateral(group([200.0], holes=wide, arm="4 in")), "refer")
    assert "tension across the grain" not in said(lateral(group([200.0], holes=wide, arm="1 in")), "refer")


def test_lifting_counts_with_its_own_sign() -> None:
    """A small uplift with wind governs when it is the larger share; no force asks for nothing."""
    checks = lateral(group([100.0, -400.0, 0.0], kinds="LWL"))
    assert find(checks, WORST).combination == "case 2"
    assert find(checks, WORST).capacity == pytest.approx(1.6 * 298.35, rel=1e-4)
    assert np.all(connect(group([100.0, -400.0, 0.0])).ratio[:, 2] == 0.0)
