"""One member of a frame under forces that are given: every figure recomputed by NDS 2018 3.3 to 3.9 typed here.

A 6x8 dressed (5 1/2 x 7 1/2 in) of Douglas Fir-Larch No. 1, posts and timbers: F_b 1200, F_t 825, F_c 1000, F_v 170,
E_min 580,000 psi (Table 4D, read); snow, C_D 1.15. The forces are invented.
"""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.trusses.record import MemberForces
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood.material import reference_values, wood_of
from beamcheck.checks.frames.member import made_of, member_checks
from beamcheck.checks.frames.tables import member_forces_table
from beamcheck.model.frames.frame import FrameStick
from beamcheck.model.reading.reader import job_from_data
from beamcheck.model.stock import Stock

from ..anchors.anchors import loaded
from ..joints.jobs import Data
from ..joints.jobs import wood as letter_of
from .jobs import king, stock

B, D, C_D = 5.5, 7.5, 1.15
F_B, F_T, F_C, F_V, E_MIN = 1200.0 * C_D, 825.0 * C_D, 1000.0 * C_D, 170.0 * C_D, 580000.0
A, S = B * D, B * D**2 / 6


def strut(**entry: Any) -> tuple[FrameStick, Stock]:
    """The left strut of the truss of `jobs.KING`, 86.53 in long."""
    data = king()
    next(one for one in data["frame"][0]["members"] if one["name"] == "struts").update(entry)
    job = job_from_data(data)
    stick = next(one for one in job.frame[0].sticks if one.stick == "left strut")
    return stick, next(one for one in job.stock if one.name == stick.stock)


def member(
    *, push: float = 0.0, pull: float = 0.0, top: float = 0.0, bottom: float = 0.0, V: float = 500.0,
    in_plane: float = 80.0, leans: bool = False, size: str = "6x8 dressed", letter: Data | None = None, **entry: Any,
) -> list[Check]:  # fmt: skip
    """Two columns: nothing, and the forces; M positive presses the upper edge."""
    stick, wood = strut(**entry)
    wood = wood.model_copy(update={"size": size}) if letter is None else Stock.model_validate(letter)
    stick = stick.model_copy(update={"stock": wood.name})
    made = made_of(stick, wood_of(wood, reference_values(wood), laid="on edge"),
                   Context(Structure({wood.name: wood}, {})))  # fmt: skip
    column = np.array([[0.0], [1.0]])
    forces = MemberForces("left strut", (float(stick.length),), -push * column, pull * column, V * column,
                          -bottom * column, top * column, np.zeros(2, bool), False)  # fmt: skip
    combinations = (loaded("D", "D"), loaded("D + S", "S"))
    return member_checks(made, forces, combinations, (in_plane, "as given"), leans=leans)


def the(found: list[Check], id: str, what: str = "") -> Check:
    (check,) = [one for one in found if one.id == id and what in (one.what, "")]
    return check


def ids(found: list[Check]) -> set[str]:
    return {check.id for check in found}


def column(l_e1: float, l_e2: float, b: float = B, d: float = D) -> tuple[float, float, float]:
    """F_c' by the greater slenderness (eq. 3.7-1, c 0.8), F_cE1 and F_cE2."""
    F_cE1, F_cE2 = (0.822 * E_MIN / max(length / side, 1e-9) ** 2 for length, side in ((l_e1, d), (l_e2, b)))
    r = min(F_cE1, F_cE2) / F_C
    C_P = (1 + r) / 1.6 - math.sqrt(((1 + r) / 1.6) ** 2 - r / 0.8)
    return F_C * C_P, F_cE1, F_cE2


def beam_factor(l_u: float, b: float, d: float) -> tuple[float, float]:
    """C_L and F_bE of a length that nothing holds: l_e 1.63 l_u + 3 d, l_u/d over 7 (Table 3.3.3, any loading)."""
    R_B = math.sqrt((1.63 * l_u + 3 * d) * d / b**2)
    F_bE = 1.20 * E_MIN / R_B**2
    r = F_bE / F_B
    return (1 + r) / 1.9 - math.sqrt(((1 + r) / 1.9) ** 2 - r / 0.95), F_bE


LONG = math.hypot(72.0, 48.0)


PLANK = letter_of("plank", "3 in x 12 in", F_b=1200, F_t=825, F_c=1000, E_min=580000)


@pytest.mark.parametrize("thin", [False, True])
@pytest.mark.parametrize(("top", "bottom"), [(12000.0, 4000.0), (4000.0, 12000.0), (9000.0, 0.0)])
def test_pressed_and_bent(top: float, bottom: float, thin: bool) -> None:
    """Eq. 3.9-3 and 3.9-4, either edge, with C_L and the slenderness out of the plane of the whole length; up to
    twice as deep as broad it does not turn over (4.4.1.2)."""
    P, b, d = 9000.0, *((3.0, 12.0) if thin else (B, D))
    found = member(push=P, top=top, bottom=bottom, letter=PLANK if thin else None)
    F_c_, F_cE1, F_cE2 = column(80.0, LONG, b, d)
    C_L, F_bE = beam_factor(LONG, b, d) if thin else (1.0, math.inf)
    A, S = b * d, b * d**2 / 6
    for M, edge in ((top, ""), (bottom, ", lower edge pressed")):
        if not M:
            assert not [one for one in found if edge and edge in one.what]
            continue
        f_c, f_b = P / A, M / S
        whole = (f_c / F_c_) ** 2 + f_b / (F_B * C_L * (1 - f_c / F_cE1))
        assert the(found, "frame.bending_with_compression", f"bending with compression{edge}").ratio == pytest.approx(
            whole, rel=1e-6)  # fmt: skip
        sideways = f_c / F_cE2 + (f_b / F_bE) ** 2
        name = f"bending with compression{edge}, sideways"
        assert the(found, "frame.bending_sideways", name).ratio == pytest.approx(sideways, rel=1e-6)
        alone = the(found, "frame.bending", f"bending{edge}")
        assert alone.demand == pytest.approx(f_b) and alone.capacity == pytest.approx(F_B * C_L, rel=1e-6)


def test_pulled_and_bent() -> None:
    """f_t/F_t' + f_b/F_b* (eq. 3.9-1), and the pull alone; no column."""
    found = member(pull=12000.0, top=8000.0)
    f_t, f_b = 12000.0 / A, 8000.0 / S
    assert the(found, "frame.tension").demand == pytest.approx(f_t)
    assert the(found, "frame.tension").capacity == pytest.approx(F_T)
    assert the(found, "frame.bending_with_tension").ratio == pytest.approx(f_t / F_T + f_b / F_B)
    assert not {"frame.bending_with_compression", "frame.slender"} & ids(found)


def test_shear() -> None:
    """1 1/2 V/(b d) with all of it, either way."""
    check = the(member(V=2000.0), "frame.shear")
    assert check.demand == pytest.approx(1.5 * 2000.0 / A) and check.capacity == pytest.approx(F_V)


def test_rounding_is_no_force() -> None:
    """A pound or a pound-inch of the analysis asks for no check of its own."""
    found = member(push=1.0, pull=1.0, top=1.0, bottom=1.0)
    assert ids(found) == {"frame.shear"}
    some = member(push=1.1, pull=1.1, top=1.1, bottom=1.1)
    assert {"frame.tension", "frame.bending", "frame.bending_with_tension", "frame.bending_with_compression"} <= ids(
        some
    )


def test_a_strut_is_pressed_off_its_middle() -> None:
    """A sixth of its depth, as a post of which nobody says (common practice): on either edge."""
    found = member(push=6000.0, top=1000.0, leans=True)
    for edge, M in (("", 1000.0 + 6000.0 * D / 6), (", lower edge pressed", 6000.0 * D / 6)):
        assert the(found, "frame.bending", f"bending{edge}").demand == pytest.approx(M / S)
    straight = member(push=6000.0, top=1000.0)
    assert the(straight, "frame.bending", "bending").demand == pytest.approx(1000.0 / S)


@pytest.mark.parametrize(("held", "l_e2"), [
    ({}, LONG), ({"top_held": "24 in"}, 24.0), ({"bottom_held": "30 in"}, 30.0),
    ({"top_held": "40 in", "bottom_held": "30 in"}, 30.0), ({"top_held": "120 in"}, LONG),
    ({"top_held": "full length"}, 0.0),
])  # fmt: skip
def test_length_that_buckles_out_of_the_plane(held: dict[str, str], l_e2: float) -> None:
    """The closest of what holds either edge; none of it where one is held all along."""
    f_c = 9000.0 / A
    F_c_, _, F_cE2 = column(20.0, l_e2)
    found = member(push=9000.0, in_plane=20.0, **held)
    whole = the(found, "frame.bending_with_compression").ratio
    assert whole == pytest.approx((f_c / F_c_) ** 2, rel=1e-5)
    sideways = [one for one in found if one.id == "frame.bending_sideways"]
    assert len(sideways) == (0 if l_e2 == 0.0 else 1)
    assert not sideways or sideways[0].ratio == pytest.approx(f_c / F_cE2, rel=1e-5)


def test_slenderness_in_and_out_of_the_plane() -> None:
    """l_e/d of 50 (3.7.1.4): 375 in on 7 1/2 in, 275 in on 5 1/2 in."""
    for in_plane, asked in ((375.0, False), (375.1, True)):
        found = [one for one in member(push=100.0, in_plane=in_plane, top_held="24 in") if one.id == "frame.slender"]
        assert [one.what for one in found] == (["slenderness in its plane"] if asked else [])
        assert all(one.verdict == "fails" and one.demand == pytest.approx(in_plane / 7.5) for one in found)
    thin = [one for one in member(push=100.0, size="2x8") if one.id == "frame.slender"]
    assert [one.what for one in thin] == ["slenderness out of its plane"]
    assert thin[0].demand == pytest.approx(LONG / 1.5) and thin[0].capacity == 50.0
    assert "frame.slender" not in ids(member(pull=100.0, in_plane=400.0))


@pytest.mark.parametrize(("size", "held", "asked"), [
    ("2x12", {"top_held": "full length"}, True), ("2x12", {}, True), ("2x10", {}, False),
    ("2x12", {"top_held": "full length", "bottom_held": "full length"}, False),
])  # fmt: skip
def test_thin_members_that_are_pressed(size: str, held: dict[str, str], asked: bool) -> None:
    """d/b above 5 by nominal sizes: both edges held all along (4.4.1.3)."""
    found = [one for one in member(push=500.0, size=size, **held) if one.id == "frame.thin"]
    assert [one.verdict for one in found] == (["refer"] if asked else [])
    assert all(one.questions[0].field == "frame.truss.members.4.bottom_held" for one in found)
    assert "frame.thin" not in ids(member(pull=500.0, size="2x12"))


def test_round_members_are_for_an_engineer() -> None:
    assert [(one.id, one.verdict) for one in member(push=500.0, size="8 in round")] == [("frame.round", "refer")]
    assert stock("6x8", "6x8 dressed")["grade"] == "No.1"


@pytest.mark.parametrize(("most", "least", "moment"), [(2400.0, -1200.0, "200 lb-ft"), (1200.0, -2400.0, "200 lb-ft")])
def test_table_of_forces_says_the_larger_of_both_moments(most: float, least: float, moment: str) -> None:
    one = np.array([[0.0], [1.0]])
    forces = MemberForces("left strut", (86.53,), 0.0 * one, 0.0 * one, 300.0 * one, least * one, most * one,
                          np.zeros(2, bool), False)  # fmt: skip
    solved: Any = SimpleNamespace(members={"left strut": forces}, combinations=(loaded("D", "D"), loaded("D + S", "S")))
    table = member_forces_table(strut()[0], solved)
    assert table.rows == (("D", "–", "–", "0 lb-ft", "0 lb"), ("D + S", "–", "–", moment, "300 lb"))
