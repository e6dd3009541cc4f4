"""The steel of anchor groups against AISC 360-16 ASD typed out by hand (how: memory, as the reference notes have it).

A plate A36 (F_y 36, F_u 58 ksi) 3/8 x 9 x 9 in in a 6x12, three bolts 5/8 in A307 (F_nt 45, F_nv 27 ksi) in one column
4 1/2 in from the end, 3 in apart, under 3,000 lb taken 4 1/2 in from their middle. The data are invented.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.anchors.group import Group
from beamcheck.checks.anchors.steel.bolts import margins_of
from beamcheck.checks.core.result import Check
from beamcheck.errors import OutOfRange

from .anchors import beside, couple, find, group, said, steel, step, stock

BOLT = {"kind": "bolt", "size": "5/8 in", "steel": "A307", "length": "7 in"}
PLATE = {
    "steel": "A36", "thickness": "3/8 in", "width": "9 in", "length": "9 in", "slot": "7/16 in", "weld": "1/4 in",
}  # fmt: skip
PLAIN = {**PLATE, "slot": None}
HOLES = {"rows": 3, "columns": 1, "row_spacing": "3 in", "end": "4 1/2 in", "edge": "2 3/4 in"}
V, ARM = 3000.0, 4.5
A_B = math.pi / 4 * 0.625**2
D_NET = 0.625 + 1 / 16 + 1 / 16


def knife(across: list[float] | None = None, along: list[float] | None = None, **more: Any) -> Group:
    data = {
        "held": stock("6x12 dressed"), "manner": "concealed plate", "fastener": BOLT, "plate": PLATE, "holes": HOLES,
        "arm": "4 1/2 in", "other": None, **more,
    }  # fmt: skip
    return group(across if across is not None else [V], along, **data)


def checks(**more: Any) -> list[Check]:
    return steel(knife(**more))


def named(found: list[Check], what: str) -> Check:
    """The one check with exactly this name."""
    return next(check for check in found if check.what == what)


def test_bolts_share_an_off_center_load_by_the_vector_method_and_shear_in_two_planes() -> None:
    """P = hypot(V/3, M y/I_p), I_p = 2 x 3^2; V_a = F_nv A_b 2/2 (J3.6)."""
    check = find(checks(), "shear of the bolts")
    P = math.hypot(V * ARM * 3 / 18, V / 3)
    assert check.demand == pytest.approx(P)
    assert check.capacity == pytest.approx(27000 * A_B * 2 / 2)
    assert check.where in ("row 1, column 1", "row 3, column 1")


def test_threads_clear_of_the_plane_count_only_when_stated() -> None:
    """A325: 54 ksi with the threads in the plane, 68 ksi out of it (Table J3.2)."""
    inside = find(checks(fastener={**BOLT, "steel": "A325"}), "shear of the bolts")
    outside = find(checks(fastener={**BOLT, "steel": "A325", "threads": "clear of it"}), "shear of the bolts")
    assert inside.capacity == pytest.approx(54000 * A_B)
    assert outside.capacity == pytest.approx(68000 * A_B)


def test_a_pin_of_bar_steel_has_the_shear_of_a_threaded_part() -> None:
    """0.450 F_u of A36 in two planes, Omega 2 (Table J3.2)."""
    pin = {"kind": "pin", "size": "5/8 in", "steel": "A36", "length": "5 1/2 in"}
    assert find(checks(fastener=pin), "shear of the pins").capacity == pytest.approx(0.45 * 58000 * A_B)


def test_bearing_and_tear_out_take_the_nearest_edge() -> None:
    """l_c = 1.5 - (5/8 + 1/16)/2; R_a = least of 2.4 D t F_u/2 and 1.2 l_c t F_u/2 (J3.10)."""
    check = find(checks(), "bearing and tear-out of the plate")
    l_c = 1.5 - 0.6875 / 2
    assert check.capacity == pytest.approx(min(2.4 * 0.625, 1.2 * l_c) * 0.375 * 58000 / 2)


def test_two_plates_bear_together() -> None:
    one = find(checks(manner="plate one side", arm="0 in", plate=PLAIN), "bearing and tear-out")
    two = find(checks(manner="plates both sides", arm="0 in", plate=PLAIN), "bearing and tear-out")
    assert one.capacity is not None
    assert two.capacity == pytest.approx(2 * one.capacity)
    shear = find(checks(manner="plates both sides", arm="0 in", plate=PLAIN), "plate: shear, whole section")
    assert shear.demand == pytest.approx(V / 2)  # on one of them


def test_shear_yield_and_rupture_of_the_plate() -> None:
    """0.60 F_y A_gv/1.50; 0.60 F_u A_nv/2 with three holes of 3/4 in off 9 in (J4.2, B4.3b)."""
    assert find(checks(), "plate: shear, whole section").capacity == pytest.approx(0.6 * 36000 * 9 * 0.375 / 1.5)
    net = (9 - 3 * D_NET) * 0.375
    assert find(checks(), "plate: shear through the holes").capacity == pytest.approx(0.6 * 58000 * net / 2)


def test_block_shear_across_and_along() -> None:
    """0.60 F_u A_nv + U_bs F_u A_nt, at most 0.60 F_y A_gv + U_bs F_u A_nt, Omega 2 (J4.3)."""
    A_gv, A_nv = 7.5 * 0.375, (7.5 - 2.5 * D_NET) * 0.375
    A_nt = (4.5 - 0.5 * D_NET) * 0.375
    pulled = 0.5 * 58000 * A_nt
    R_n = min(0.6 * 58000 * A_nv, 0.6 * 36000 * A_gv) + pulled
    assert find(checks(), "plate: block shear across").capacity == pytest.approx(R_n / 2)
    A_gv, A_nv = 2 * 4.5 * 0.375, 2 * (4.5 - 0.5 * D_NET) * 0.375
    A_nt = (6 - 2 * D_NET) * 0.375
    R_n = min(0.6 * 58000 * A_nv, 0.6 * 36000 * A_gv) + 58000 * A_nt
    assert find(checks(across=[0.0], along=[V]), "plate: block shear along").capacity == pytest.approx(R_n / 2)


def test_pull_on_the_plate() -> None:
    """F_y A_g/1.67; F_u A_n/2 (D2, J4.1)."""
    found = checks(across=[0.0], along=[V])
    assert find(found, "plate: pull, whole section").capacity == pytest.approx(36000 * 9 * 0.375 / 1.67)
    net = (9 - 3 * D_NET) * 0.375
    assert find(found, "plate: pull through the holes").capacity == pytest.approx(58000 * net / 2)


def test_bending_of_the_plate_on_edge() -> None:
    """M_a = least of F_y Z/1.67, 1.6 F_y S/1.67 (F11) and F_u Z_n/2 with all three holes out of the plastic modulus."""
    check = named(checks(), "plate: bending")
    Z, S = 0.375 * 81 / 4, 0.375 * 81 / 6
    Z_n = Z - 0.375 * D_NET * (2 * 3.0 + 3 * D_NET / 4)
    assert check.demand == pytest.approx(V * ARM)
    assert check.capacity == pytest.approx(min(36000 * Z / 1.67, 1.6 * 36000 * S / 1.67, 58000 * Z_n / 2))


def test_bending_with_shear() -> None:
    found = checks()
    bent = named(found, "plate: bending").ratio
    sheared = max(
        c.ratio or 0.0 for c in found if c.what in ("plate: shear, whole section", "plate: shear through the holes")
    )
    both = find(found, "plate: bending, pull and shear together")
    assert bent is not None and both.ratio == pytest.approx(bent**2 + sheared**2)


def test_the_leg_of_an_angle_bends_the_flat_way() -> None:
    """Z = b t^2/4, S = b t^2/6 of a leg 9 in wide and 3/8 in thick; net Z with F_u/2. Its heel is at the beam's end."""
    found = checks(manner="let-in angle", arm="2 in", plate={**PLAIN, "weld": None})
    check = named(found, "plate: bending")
    Z, S = 9 * 0.375**2 / 4, 9 * 0.375**2 / 6
    Z_n = (9 - 3 * D_NET) * 0.375**2 / 4
    assert check.capacity == pytest.approx(min(36000 * Z / 1.67, 1.6 * 36000 * S / 1.67, 58000 * Z_n / 2))
    assert check.demand == pytest.approx(V * 4.5)  # farther than the arm of 2 in


def test_weld_of_two_fillets() -> None:
    """f = hypot(V/2w, 6M/(2 w^2)); 0.60 x 70 ksi x 0.707 x leg/2, and 0.60 F_u (t/2)/2 of the plate (J2.4, J4.2)."""
    check = find(checks(), "weld")
    f = math.hypot(V / 18, 6 * V * ARM / (2 * 81))
    assert check.demand == pytest.approx(f)
    assert check.capacity == pytest.approx(min(0.6 * 70000 * 0.707 * 0.25 / 2, 0.6 * 58000 * 0.1875 / 2))


def test_a_weld_below_the_least_leg_fails() -> None:
    """3/16 in for a part over 1/4 up to 1/2 in (Table J2.4)."""
    check = find(checks(plate={**PLATE, "weld": "1/8 in"}), "weld: least leg")
    assert check.verdict == "fails" and "0.1875" in check.notes[0]


def test_a_slender_plate_on_edge_twists_or_is_referred() -> None:
    """L_b d/t^2 = 6 x 9/(1/4)^2 = 864, over 0.08 x 29,000/36 = 64.4: F11.2, (1.52 - 0.274 x 864 x 36/29,000) F_y S.

    Over 1.9 E/F_y = 1531 there is no value. The wood holds it inside its slot."""
    thin = {**PLATE, "thickness": "1/4 in", "weld": "1/8 in"}
    far = checks(plate=thin, arm="10 1/2 in")
    assert not [c for c in far if c.what == "plate: held sideways"]
    S = 0.25 * 81 / 6
    twists = (1.52 - 0.274 * 864 * 36000 / 29e6) * 36000 * S / 1.67
    (bending,) = [one for one in far if one.what == "plate: bending"]
    assert bending.capacity == pytest.approx(min(twists, 36000 * 1.5 * S / 1.67), rel=1e-6)
    thinner = find(checks(plate={**PLATE, "thickness": "3/16 in", "weld": "1/8 in"}, arm="10 1/2 in"), "plate: held")
    assert thinner.verdict == "refer" and "1536" in thinner.notes[0]


def test_a_plate_that_is_pressed_is_short_or_buckles() -> None:
    """K L/r = 1.2 x 6 sqrt(12)/(3/8) = 66.5, over 25 (J4.4): E3; inside the slot it is held."""
    short = find(checks(across=[0.0], along=[-V]), "plate: pressing along")
    assert short.capacity == pytest.approx(36000 * 9 * 0.375 / 1.67)
    far = find(checks(across=[0.0], along=[-V], arm="10 1/2 in"), "plate: pressing along")
    F_e = math.pi**2 * 29e6 / (1.2 * 6 * math.sqrt(12) / 0.375) ** 2
    assert far.capacity == pytest.approx(0.658 ** (36000 / F_e) * 36000 * 9 * 0.375 / 1.67, rel=1e-6)


def test_what_is_not_given_is_referred() -> None:
    bare = {"kind": "bolt", "size": "5/8 in"}
    assert "grade of the bolts is not given" in said(checks(fastener=bare), "refer")
    assert named(checks(arm=None), "plate: bending").verdict == "refer"


def test_steel_takes_no_load_duration() -> None:
    """The same force under wind (C_D 1.6) and under live load (1.0): the same capacities, to the last digit."""
    live = {c.what: c.capacity for c in checks(kinds="L")}
    wind = {c.what: c.capacity for c in checks(kinds="W")}
    assert live == wind


def test_holes_outside_the_plate_fail() -> None:
    small = {**PLATE, "length": "4 in"}
    assert find(checks(plate=small), "bearing and tear-out").verdict == "fails"
    cut = {**PLATE, "width": f"{float(np.ptp(knife().y)) + 0.5} in"}  # its edges run through the holes
    assert [check.id for check in checks(plate=cut) if check.verdict == "fails"] == ["anchor.plate_holes"]
    with pytest.raises(OutOfRange, match="do not lie in the plate"):
        margins_of(knife(plate=small), knife(plate=small).anchor.plate)  # type: ignore[arg-type]


def test_screws_have_no_steel_check_of_their_own() -> None:
    lag = {"kind": "lag screw", "size": "1/2 in", "length": "4 in"}
    found = checks(manner="plate one side", fastener=lag, arm="0 in", plate=PLAIN)
    assert not [c for c in found if c.what.startswith(("shear of", "pull on"))]
    assert find(found, "bearing and tear-out").verdict == "passes"


# ---- a load in front of the wall -----------------------------------------------------------------------------------

LEDGER = {"rows": 2, "columns": 2, "spacing": "6 in", "row_spacing": "6 in", "end": "5 in", "edge": "3 in"}


def ledger(across: list[float], **more: Any) -> Group:
    return group(across, manner="ledger", fastener=BOLT, holes=LEDGER, **{"arm": "2 in", **more})


def test_the_couple_is_all_on_the_top_row() -> None:
    """T_1 = V e/(eta d_1) with eta 0.70, d_1 = 9 in, shared by two (lever-arm rule); the lower row has none."""
    pull = couple(ledger([1000.0]))
    assert pull is not None
    T = 1000 * 2 / (0.7 * 9) / 2
    assert pull.each[:, 0] == pytest.approx([0.0, 0.0, T, T])


def test_lifting_puts_it_on_the_lowest_row() -> None:
    """From the top edge of 11 1/4 in down to the row 3 in up: 8 1/4 in."""
    pull = couple(ledger([1000.0, -400.0]))
    assert pull is not None
    T = 400 * 2 / (0.7 * 8.25) / 2
    assert pull.each[:, 1] == pytest.approx([T, T, 0.0, 0.0])


def test_pull_and_shear_on_a_bolt() -> None:
    """F'_nt = 1.3 F_nt - 2 F_nt/F_nv f_rv, at most F_nt (J3.7)."""
    too_much = find(steel(ledger([20000.0])), "pull on the bolts with shear")
    assert too_much.verdict == "fails"  # 16,297 psi of shear, over F_nv/2: no tension is left to them
    small = find(steel(ledger([12000.0])), "pull on the bolts with shear")
    f_rv = 12000 / 4 / A_B
    assert small.capacity == pytest.approx(min(1.3 * 45000 - 2 * 45000 / 27000 * f_rv, 45000) * A_B / 2)
    assert step(small, "T_i") == pytest.approx(12000 * 2 / (0.7 * 9) / 2)


def test_a_ledger_off_the_wall_is_referred_and_so_is_one_without_an_arm() -> None:
    assert "across the grain" in said(beside(ledger([1000.0])), "refer")
    assert "`arm`" in said(beside(ledger([1000.0], arm=None)), "refer")
    assert beside(knife()) == []


def test_every_figure_is_a_number() -> None:
    for check in [*checks(), *steel(ledger([1000.0, -400.0]))]:
        assert check.ratio is None or np.isfinite(check.ratio)
