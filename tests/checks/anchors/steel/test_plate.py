"""A plate in or on a piece as a bar of steel: each force at its limit, by AISC 360-16 ASD typed here (memory).

A36: F_y 36, F_u 58 ksi; A572 Grade 50: 50 and 65. Plates 9 x 9 in, three bolts of 5/8 in (holes of 11/16 in, 3/4 in
counted) in a column 4 1/2 in from the end and 3 in apart, in a 6x12. Groups are invented.
"""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.anchors.fasteners.spread import spread_of
from beamcheck.checks.anchors.group import Group
from beamcheck.checks.anchors.steel.bolts import margins_of, steel_checks
from beamcheck.checks.anchors.steel.plate import plate_checks
from beamcheck.checks.core.asking.question import RULING
from beamcheck.checks.core.result import Check

from ..anchors import Data, couple, find, group, stock

BOLT: Data = {"kind": "bolt", "size": "5/8 in", "steel": "A307", "length": "7 in"}
PLATE: Data = {"steel": "A36", "thickness": "3/8 in", "width": "9 in", "length": "9 in", "weld": "1/4 in"}
HOLES: Data = {"rows": 3, "columns": 1, "row_spacing": "3 in", "end": "4 1/2 in", "edge": "2 3/4 in"}
W, T, D_NET = 9.0, 0.375, 0.75


def made(across: float = 0.0, along: float = 0.0, *, turning: float | None = None, **more: Any) -> Group:
    manner = more.get("manner", "concealed plate")
    plate = {**PLATE, **({"slot": "7/16 in"} if manner == "concealed plate" else {}), **more.pop("plate", {})}
    data = {"held": stock("6x12 dressed"), "manner": manner, "fastener": BOLT, "plate": plate, "holes": HOLES,
            "arm": "4 1/2 in", "other": None, **more}  # fmt: skip
    one = group([across], [along], **data)
    return one if turning is None else replace(one, forces=replace(one.forces, turning=np.array([turning])))


def plated(*given: float, off: float = 0.0, **more: Any) -> list[Check]:
    one = made(*given, **more)
    assert one.anchor.plate is not None
    return plate_checks(one, one.anchor.plate, 0.625, off)


def named(found: list[Check], what: str) -> Check:
    return next(check for check in found if check.what == what)


def ids(found: list[Check]) -> set[str]:
    return {check.id for check in found}


# ---- forces ----------------------------------------------------------------------------------------------------------


def test_forces_of_up_to_a_pound_are_rounding() -> None:
    assert ids(plated(1.0)) == {"anchor.plate_bending", "anchor.plate_together", "anchor.weld"}
    assert {"anchor.plate_shear", "anchor.plate_shear_net", "anchor.plate_block"} <= ids(plated(1.01))
    assert {"anchor.plate_pull", "anchor.plate_pull_net", "anchor.plate_block"}.isdisjoint(ids(plated(0.0, 1.0)))
    assert {"anchor.plate_pull", "anchor.plate_pull_net", "anchor.plate_block"} <= ids(plated(0.0, 1.01))
    assert "anchor.plate_pressed" not in ids(plated(0.0, -1.0)) and "anchor.plate_pressed" in ids(plated(0.0, -1.01))
    assert ids(plated()) == {"anchor.weld"}


@pytest.mark.parametrize(("manner", "n"), [("plates both sides", 2), ("concealed plate", 1)])
def test_two_plates_share_force_and_moment(manner: str, n: int) -> None:
    """1,000 lb at 4 1/2 in and 600 lb-in that turn the end; each of two takes half."""
    found = plated(1000.0, manner=manner, turning=-600.0)
    assert named(found, "plate: bending").demand == pytest.approx((1000.0 * 4.5 + 600.0) / n)
    assert named(found, "plate: shear, whole section").demand == pytest.approx(1000.0 / n)
    pulled = plated(0.0, 500.0, manner=manner)
    assert named(pulled, "plate: pull, whole section").demand == pytest.approx(500.0 / n)


@pytest.mark.parametrize(("arm", "e"), [("2 in", 4.5), ("4 1/2 in", 4.5), ("6 in", 6.0), (None, 4.5)])
def test_the_moment_where_the_plate_comes_out_or_where_the_load_is_taken(arm: str | None, e: float) -> None:
    """No nearer than the end of the piece, 4 1/2 in from the bolts; where no arm is said, it is asked for beside."""
    found = plated(1000.0, arm=arm)
    bending = [check for check in found if check.what == "plate: bending"]
    assert bending[-1].demand == pytest.approx(1000.0 * e)
    asked = [check for check in bending if check.verdict == "refer"]
    assert bool(asked) is (arm is None)
    if asked:
        assert asked[0].questions[0].field == "anchor.A.arm"
        assert [answer.says for answer in asked[0].questions[0].answers] == ["0 in", "4 1/2 in"]
    assert not [check for check in plated(1.0, arm=None) if check.verdict == "refer"], "for a pound nobody is asked"
    beyond = replace(made(1000.0), line=10.5)  # the support 6 in farther in than the bolts
    assert beyond.anchor.plate is not None
    assert named(plate_checks(beyond, beyond.anchor.plate, 0.625, 0.0), "plate: bending").demand == 6000.0


# ---- sections and blocks ---------------------------------------------------------------------------------------------


def test_a_pull_on_whole_and_net_section() -> None:
    """A572: F_y A_g/1.67 against F_u A_n/2, three holes off 9 in; one row leaves more."""
    found = plated(0.0, 1000.0, plate={"steel": "A572 Grade 50"})
    assert named(found, "plate: pull, whole section").capacity == pytest.approx(50000 * W * T / 1.67)
    assert named(found, "plate: pull through the holes").capacity == pytest.approx(65000 * (W - 3 * D_NET) * T / 2)
    one = {"rows": 1, "columns": 2, "spacing": "3 in", "end": "3 in", "edge": "5 3/4 in"}
    assert named(plated(0.0, 1000.0, holes=one), "plate: pull through the holes").capacity == pytest.approx(
        58000 * (W - D_NET) * T / 2)  # fmt: skip


ROWS = {1: {"rows": 1, "edge": "5 3/4 in"}, 2: {"rows": 2, "edge": "4 in", "row_spacing": "3 1/2 in"}}
FOUR = {"columns": 4, "spacing": "1.7 in", "end": "2 in"}


def block(steel: tuple[float, float], lines: int, long: float, cut: float, wide: float, out: float, U: float) -> float:
    """J4.3: sheared over `long` less `cut` holes on each of `lines`, pulled over `wide` less `out` holes."""
    F_y, F_u = steel
    A_gv, A_nv, A_nt = lines * long * T, lines * (long - cut * D_NET) * T, (wide - out * D_NET) * T
    return min(0.6 * F_u * A_nv, 0.6 * F_y * A_gv) / 2 + U * F_u * A_nt / 2


@pytest.mark.parametrize("grade", ["A36", "A572 Grade 50"])
@pytest.mark.parametrize("rows", [1, 2])
def test_blocks_of_many_holes(rows: int, grade: str) -> None:
    """Four columns 1.7 in apart, the first 2 in from the end: 0.95 in of 9 in behind the last (half of what they leave
    is more). One row: unevenly pulled beside its edge; two: evenly between them, sheared on two lines."""
    steel = (36000.0, 58000.0) if grade == "A36" else (50000.0, 65000.0)
    holes = {**ROWS[rows], **FOUR}
    along = named(plated(0.0, 1000.0, holes=holes, plate={"steel": grade}), "plate: block shear along the piece")
    edge_x = min((9.0 - 5.1) / 2, 9.0 - 7.1)
    long, edge_y = edge_x + 5.1, (9.0 - (0.0 if rows == 1 else 3.5)) / 2
    expected = block(steel, 1, long, 3.5, edge_y, 0.5, 0.5) if rows == 1 else block(steel, 2, long, 3.5, 3.5, 1.0, 1.0)
    assert along.capacity == pytest.approx(expected)
    across = named(plated(1000.0, holes=holes, plate={"steel": grade}), "plate: block shear across the piece")
    down = edge_y + (0.0 if rows == 1 else 3.5)
    assert across.capacity == pytest.approx(block(steel, 1, down, rows - 0.5, long, 3.5, 0.5))


def test_modulus_with_holes_off_the_middle() -> None:
    """Holes at 3, 5 and 9 in, middle 5 2/3: each takes t d (its distance and d/4) of the plastic modulus."""
    places = {"places": [{"x": "4 1/2 in", "y": f"{y} in"} for y in (3, 5, 9)]}
    check = named(plated(1000.0, holes=places, plate={"steel": "A572 Grade 50"}), "plate: bending")
    taken = sum(T * D_NET * (abs(y - 17 / 3) + D_NET / 4) for y in (3, 5, 9))
    Z, S = T * W**2 / 4, T * W**2 / 6
    assert check.capacity == pytest.approx(min(50000 * Z / 1.67, 1.6 * 50000 * S / 1.67, 65000 * (Z - taken) / 2))
    assert 65000 * (Z - taken) / 2 < 50000 * Z / 1.67


def test_modulus_of_a_leg_through_its_holes() -> None:
    """The flat way, A572: F_u of what three holes leave of 9 in is less than F_y of all of it."""
    more: Data = {"manner": "let-in angle", "plate": {"steel": "A572 Grade 50", "weld": None}}
    check = named(plated(100.0, **more), "plate: bending")
    Z, Z_n = W * T**2 / 4, (W - 3 * D_NET) * T**2 / 4
    assert check.capacity == pytest.approx(65000 * Z_n / 2) and 65000 * Z_n / 2 < 50000 * Z / 1.67


# ---- slender ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("arm", "thickness", "kind"), [
    # free beyond the bolts: 0.5, 0.7, 1.0 in; L_b d/t^2 over 64.4 it twists, over 1,531 it has no value
    ("4.75 in", "3/16 in", "whole"), ("4.76 in", "3/16 in", "twists"), ("5 in", "3/16 in", "twists"),
    ("5.16 in", "1/16 in", "twists"), ("5.17 in", "1/16 in", "refer"), ("4 1/2 in", "1/16 in", "whole"),
])  # fmt: skip
def test_a_plate_on_edge_that_is_free_over_little(arm: str, thickness: str, kind: str) -> None:
    """F11.2: (1.52 - 0.274 slenderness F_y/E) F_y S; slenderness 64.4 at 0.2517 in of 3/16 in."""
    found = plated(1000.0, arm=arm, plate={"thickness": thickness})
    t, L = float(Fraction(thickness.split()[0])), float(arm.split()[0]) - 4.5 if "/" not in arm else 0.0
    slender = L * W / t**2
    assert (slender > 64.44) is (kind != "whole") and (slender > 1530.6) is (kind == "refer")
    assert bool([check for check in found if check.id == "anchor.plate_held"]) is (kind == "refer")
    S, Z = t * W**2 / 6, t * W**2 / 4
    Z_n = Z - t * D_NET * (2 * 3.0 + 3 * D_NET / 4)
    M_a = min(36000 * Z / 1.67, 1.6 * 36000 * S / 1.67, 58000 * Z_n / 2)
    if kind != "whole":
        M_a = min(M_a, (1.52 - 0.274 * slender * 36000 / 29e6) * 36000 * S / 1.67)
    assert named(found, "plate: bending").capacity == pytest.approx(M_a)


def test_a_leg_bent_the_flat_way_is_not_held_sideways() -> None:
    found = plated(1000.0, manner="let-in angle", arm="12 in", plate={"thickness": "1/16 in", "weld": None})
    assert "anchor.plate_held" not in ids(found)
    assert "the flat way" in named(found, "plate: bending").notes[0]
    assert "flat way" not in named(plated(1000.0), "plate: bending").notes[0]


@pytest.mark.parametrize(("manner", "free"), [("concealed plate", 3.0), ("plates both sides", 7.5)])
def test_how_far_a_plate_stands_free(manner: str, free: float) -> None:
    """In a slot the wood holds it to the end; on a face to the first bolt only. Taken 7 1/2 in from the middle."""
    holes = {"rows": 1, "columns": 2, "spacing": "3 in", "end": "3 in", "edge": "5 3/4 in"}
    check = next(c for c in plated(0.0, -1000.0, manner=manner, arm="7 1/2 in", holes=holes) if "pressing" in c.what)
    L = free if manner == "concealed plate" else 7.5 - 1.5
    slender = 1.2 * L / T * math.sqrt(12)
    F_e = math.pi**2 * 29e6 / slender**2
    assert check.capacity == pytest.approx(0.658 ** (36000 / F_e) * 36000 * W * T / 1.67)


# ---- twist and weld --------------------------------------------------------------------------------------------------


def test_a_load_beside_the_plate_twists_it() -> None:
    """3 V off/(w t^2) against 0.6 F_y/1.5."""
    check = named(plated(1000.0, off=2.0), "plate: twist by the load beside it")
    assert check.demand == pytest.approx(3 * 1000 * 2.0 / (W * T**2))
    assert check.capacity == pytest.approx(0.6 * 36000 / 1.5)
    assert "anchor.plate_twist" not in ids(plated(1000.0))


@pytest.mark.parametrize(("along", "off"), [(600.0, 0.0), (-600.0, 0.0), (0.0, 2.0)])
def test_what_is_on_an_inch_of_weld(along: float, off: float) -> None:
    """Pull or push over both lines; the lesser of weld metal (70 ksi) and half the plate."""
    check = named(plated(1000.0, along, off=off), "weld")
    f_b, f_t = 3 * 4500.0 / W**2 + abs(along) / (2 * W), 3 * 1000.0 * off / W**2
    assert check.demand == pytest.approx(math.sqrt((1000.0 / (2 * W)) ** 2 + f_b**2 + f_t**2))
    assert check.capacity == pytest.approx(min(0.6 * 70000 * 0.707 * 0.25 / 2, 0.6 * 58000 * T / 2 / 2))
    thick = named(plated(1000.0, plate={"thickness": "3/4 in", "slot": "13/16 in"}), "weld")
    assert thick.capacity == pytest.approx(0.6 * 70000 * 0.707 * 0.25 / 2), "here the weld metal is less"


@pytest.mark.parametrize(("leg", "thickness", "fails"), [
    ("3/16 in", "3/8 in", False), ("0.187 in", "3/8 in", True), ("1/8 in", "1/4 in", False),
    ("0.12 in", "1/4 in", True),
])  # fmt: skip
def test_least_leg_of_a_fillet(leg: str, thickness: str, fails: bool) -> None:
    """Table J2.4 (read): 1/8 in to 1/4 in of thickness, 3/16 in to 1/2 in."""
    found = plated(1000.0, plate={"weld": leg, "thickness": thickness})
    assert [check.verdict for check in found if check.id == "anchor.weld_leg"] == (["fails"] if fails else [])
    assert "anchor.weld" not in ids(plated(1000.0, plate={"weld": None}))


# ---- what is asked ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("change", "field"), [
    ({"plate": {"width": "7.87 in"}}, RULING), ({"plate": {"length": "5.43 in"}}, RULING),
    ({"plate": {"length": "5.4375 in"}}, ""), ({"plate": {"width": "7.875 in"}}, ""),
])  # fmt: skip
def test_holes_near_the_edges_of_the_plate(change: Data, field: str) -> None:
    """1 1/2 D, 15/16 in, beyond the outer holes across and along (AISC 360-16 Table J3.4)."""
    found = [check for check in plated(1000.0, **change) if check.id == "anchor.plate_edge"]
    assert [check.questions[0].field for check in found] == ([field] if field else [])


@pytest.mark.parametrize(("length", "whole"), [("4.84375 in", False), ("4.85 in", True)])
def test_holes_that_run_out_of_the_plate_are_told_once(length: str, whole: bool) -> None:
    """Half a hole of 11/16 in beyond the bolts."""
    assert ("anchor.weld" in ids(plated(1000.0, plate={"length": length}))) is whole


# ---- bolts and holes -------------------------------------------------------------------------------------------------


def steel(*given: float, **more: Any) -> list[Check]:
    one = made(*given, **more)
    return steel_checks(one, spread_of(one), couple(one))


@pytest.mark.parametrize(("holes", "plate", "l_c"), [
    # 1 1/2 in across, 4 1/2 along less half a hole; 2 in to the next one less a hole; half of what a column leaves
    ({}, {}, 1.5 - 0.34375), ({"row_spacing": "1 1/2 in", "edge": "4 in"}, {}, 1.5 - 0.6875),
    ({"rows": 1, "row_spacing": None, "edge": "5 3/4 in", "columns": 2, "spacing": "5 in", "end": "2 in"}, {},
     2.0 - 0.34375),
    ({"rows": 1, "row_spacing": None, "edge": "5 3/4 in", "columns": 2, "spacing": "5 in", "end": "3 in"}, {},
     1.0 - 0.34375),
    ({"rows": 1, "row_spacing": None, "edge": "5 3/4 in"}, {"width": "2 1/2 in"}, 1.25 - 0.34375),
])  # fmt: skip
def test_tear_out_towards_the_nearest_edge_or_hole(holes: Data, plate: Data, l_c: float) -> None:
    """1.2 l_c t F_u/2, at most 2.4 D t F_u/2 (J3.10)."""
    laid = {key: value for key, value in {**HOLES, **holes}.items() if value is not None}
    check = find(steel(1000.0, holes=laid, plate=plate), "bearing and tear-out of the plate")
    assert check.capacity == pytest.approx(min(1.2 * l_c, 2.4 * 0.625) * T * 58000 / 2)


def test_nothing_twists_a_plate_of_which_no_load_lies_beside_it() -> None:
    assert "anchor.plate_twist" not in ids(steel(1000.0)) and "anchor.plate_pull" not in ids(steel(1000.0))


def test_margins_are_told() -> None:
    one = made(1000.0)
    assert one.anchor.plate is not None
    found = margins_of(one, one.anchor.plate)
    assert (found.across, found.along, found.apart) == pytest.approx((1.5, 4.5, 3.0))
    alone = made(1000.0, holes={"rows": 1, "columns": 1, "end": "4 1/2 in", "edge": "5 in"})
    assert margins_of(alone, one.anchor.plate).apart is None
    check = find(steel(1000.0), "bearing and tear-out of the plate")
    assert "there must be 1.5 in across the piece and 4.5 in along it" in check.notes[0]


def test_no_couple_no_pull() -> None:
    """A lap under nothing but a pull along has no couple; a bolt of no grade waits for it."""
    lap = group([0.0], [500.0], fastener=BOLT)
    assert [check.id for check in steel_checks(lap, spread_of(lap), couple(lap))] == ["anchor.bolt_shear"]
    loaded = group([0.001], [500.0], fastener=BOLT)
    assert [check.id for check in steel_checks(loaded, spread_of(loaded), couple(loaded))][1:] == ["anchor.bolt_pull"]
    assert [check.id for check in steel_checks(lap, spread_of(lap))] == ["anchor.bolt_shear"]
    bare = group([500.0], fastener={"kind": "bolt", "size": "5/8 in"})
    (check,) = steel_checks(bare, spread_of(bare), couple(bare))
    assert check.verdict == "refer" and check.questions[0].field == "anchor.A.fastener.steel"
    nails = group([100.0], fastener={"kind": "nail", "size": "16d common"})
    assert steel_checks(nails, spread_of(nails), couple(nails)) == []
