"""One stick of a roof under forces that are given: NDS 2018 3.3 to 3.9 typed here, and what its section asks besides.

A 2x10 of a letter: F_b 1000, F_t 600, F_c 1000, E_min 500,000 psi; D + S, C_D 1.15; the top edge held all along.
"""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.result import Check
from beamcheck.checks.roofs.framed_stick import FramedStick, framed
from beamcheck.checks.roofs.member import Forces, _rules, forces_checks, stick_checks
from beamcheck.model.roofs import Tie
from beamcheck.model.sticks import Cut

from ..houses import Data, tie
from .test_ridge_by_force import TWO, setting

B, D, C_D, LENGTH = 1.5, 9.25, 1.15, 107.0
A, S = B * D, B * D**2 / 6
HELD: Data = {"top_held": "full length"}


def forces(push: float = 0.0, pull: float = 0.0, V: float = 0.0, top: float = 0.0, bottom: float = 0.0) -> Forces:
    return Forces(*(np.array([0.0, one]) for one in (push, pull, V, top, bottom)))


def found(given: Forces, *, free: float = 0.0, stick: Data | None = None, **more: Any) -> list[Check]:
    made = replace(setting(stock="given", **{**HELD, **more})[0], **(stick or {}))
    return forces_checks(made, TWO, given, length=LENGTH, free=free)  # type: ignore[arg-type]


def the(checks: list[Check], what: str) -> Check:
    (check,) = [one for one in checks if one.what == what]
    return check


def column(l_e: float, d: float) -> tuple[float, float]:
    """F_c' and F_cE (eq. 3.7-1, c 0.8)."""
    F_cE = 0.822 * 5e5 / (l_e / d) ** 2
    r = F_cE / (1000.0 * C_D)
    return 1000.0 * C_D * ((1 + r) / 1.6 - math.sqrt(((1 + r) / 1.6) ** 2 - r / 0.8)), F_cE


def tipping(l_u: float) -> tuple[float, float]:
    """C_L and F_bE: l_e 1.63 l_u + 3 d, l_u/d over 7 (Table 3.3.3, any loading)."""
    F_bE = 1.20 * 5e5 * B**2 / ((1.63 * l_u + 3 * D) * D)
    r = F_bE / (1000.0 * C_D)
    return (1 + r) / 1.9 - math.sqrt(((1 + r) / 1.9) ** 2 - r / 0.95), F_bE


@pytest.mark.parametrize("free", [0.0, 24.0])
def test_pressed_and_bent(free: float) -> None:
    """Eq. 3.9-3 and 3.9-4: a column from wall to ridge, an edge that nothing holds over the whole length."""
    checks = found(forces(push=900.0, top=9000.0, bottom=4000.0), free=free)
    F_c, F_cE = column(LENGTH - free, D)
    f_c = 900.0 / A
    C_L, F_bE = tipping(LENGTH)
    for M, edge, C in ((9000.0, "", 1.0), (4000.0, ", bottom edge pressed", C_L)):
        whole = (f_c / F_c) ** 2 + M / S / (1000.0 * C_D * C * (1 - f_c / F_cE))
        assert the(checks, f"bending with compression{edge}").ratio == pytest.approx(whole, rel=1e-6)
        alone = the(checks, f"bending{edge}")
        assert alone.demand == pytest.approx(M / S) and alone.capacity == pytest.approx(1000.0 * C_D * C, rel=1e-6)
    sideways = the(checks, "bending with compression, bottom edge pressed, sideways")
    assert sideways.ratio == pytest.approx((4000.0 / S / F_bE) ** 2, rel=1e-6)
    assert "bending with compression, sideways" not in [one.what for one in checks]  # the top edge is held all along


@pytest.mark.parametrize(("held", "l_e2"), [("30 in", 30.0), ("ends only", LENGTH - 40.0), ("200 in", LENGTH - 40.0)])
def test_sideways_it_buckles_between_what_holds_it(held: str, l_e2: float) -> None:
    checks = found(forces(push=400.0, top=4000.0), free=40.0, top_held=held)
    F_cE = 0.822 * 5e5 / (l_e2 / B) ** 2
    l_u = min(float(held.split()[0]), LENGTH) if held[0].isdigit() else LENGTH
    _, F_bE = tipping(l_u)
    if l_u / D <= 7.0:
        F_bE = 1.20 * 5e5 * B**2 / (2.06 * l_u * D)
    elif l_u / D > 14.3:
        F_bE = 1.20 * 5e5 * B**2 / (1.84 * l_u * D)
    sideways = the(checks, "bending with compression, sideways")
    assert sideways.ratio == pytest.approx(400.0 / A / F_cE + (4000.0 / S / F_bE) ** 2, rel=1e-6)


def test_pulled_and_bent() -> None:
    """f_t/F_t' + f_b/F_b* (eq. 3.9-1), and each alone."""
    checks = found(forces(pull=3000.0, top=5000.0))
    assert the(checks, "tension").demand == pytest.approx(3000.0 / A)
    assert the(checks, "tension").capacity == pytest.approx(600.0 * C_D)
    both = the(checks, "bending with tension")
    assert both.ratio == pytest.approx(3000.0 / A / (600 * C_D) + 5000.0 / S / (1000 * C_D))
    assert [one.what for one in checks] == ["tension", "bending with tension", "bending"]


@pytest.mark.parametrize("size", [1.0, 1.1])
def test_a_pound_is_rounding(size: float) -> None:
    what = {one.what for one in found(forces(size, size, size, size, size))}
    more = {"tension", "bending with compression", "bending with tension", "bending, bottom edge pressed",
            "bending with compression, bottom edge pressed, sideways"}  # fmt: skip
    assert "bending" in what and (more <= what if size > 1.0 else not more & what)


def test_stiffness_and_weight_of_a_stick() -> None:
    """E A, E I, (5/6) G A with G = E/16, and 5 pcf, of 1 1/2 x 9 1/4 in; E 1,400,000 psi."""
    stiff = setting(stock="given")[0].stiff
    along, bent = stiff.EA, stiff.EI
    assert [along, bent] == pytest.approx([1.4e6 * A, 1.4e6 * B * D**3 / 12])
    assert stiff.GA_s == pytest.approx(1.4e6 / 16 * A * 5 / 6) and stiff.w == pytest.approx(5 / 1728 * A)


def test_forces_of_a_line_are_the_largest_of_each_way() -> None:
    """Of two combinations; what is pulled all along is not pressed."""
    two = {"N": ([-5.0, 2.0], [-3.0, 9.0]), "V": ([-30.0, -2.0], [20.0, 3.0]), "M": ([-4.0, 8.0], [-2.0, 11.0])}

    def extremes(what: str) -> tuple[np.ndarray, ...]:
        low, high = (np.array(one) for one in two[what])
        return low, low, high, high

    line: Any = SimpleNamespace(extremes=extremes)
    got = {name: list(values) for name, values in vars(Forces.of(line)).items()}
    assert got == {"compression": [5.0, 0.0], "tension": [0.0, 9.0], "V": [30.0, 3.0], "M_top": [0.0, 11.0],
                   "M_bottom": [4.0, 0.0]}  # fmt: skip


@pytest.mark.parametrize(("stamp_up", "asked"), [(None, True), (True, False), (False, False)])
def test_which_face_of_an_unbalanced_layup_lies_up_is_asked_of_rafters(stamp_up: bool | None, asked: bool) -> None:
    stick, context = setting(stock="given", **HELD)
    layup = {"wood": replace(stick.wood, F_b_other=stick.wood.F_b)}
    more = {} if stamp_up is None else {"stamp_up": stamp_up}
    given = forces(push=300.0, pull=300.0, top=4000.0)
    for check in found(given, stick=layup, **more):
        fields = [one.field for one in check.questions]
        assert ("rafter.R.stamp_up" in fields) is (asked and check.id != "roof.tension")
    assert not any("stamp_up" in one.field for check in found(given) for one in check.questions)
    one = replace(framed(Tie.model_validate(tie(stock="given")), stick.wood, context), **layup)
    of_tie = forces_checks(one, TWO, given, length=LENGTH, free=0.0)  # type: ignore[arg-type]
    assert not any("stamp_up" in one.field for check in of_tie for one in check.questions)


# ---- what the section asks besides -----------------------------------------------------------------------------------


def thin(ratio: float, **more: Any) -> FramedStick:
    """A rafter so many times as deep as broad, as measured."""
    stick, _ = setting(stock="given", **{**HELD, **more})
    return replace(stick, size=replace(stick.size, b=1.5, d=1.5 * ratio, nominal_b=None, nominal_d=None,
                                       surface="measured"))  # fmt: skip


@pytest.mark.parametrize(("ratio", "given", "held", "asked"), [
    (5.0, forces(push=500.0, bottom=500.0), {}, False), (5.1, forces(push=500.0, bottom=500.0), {}, True),
    (5.1, forces(push=500.0), {}, False), (6.0, forces(push=500.0), {}, False), (6.1, forces(push=500.0), {}, True),
    (6.1, forces(pull=500.0), {}, False),
    (5.1, forces(push=500.0, bottom=500.0), {"bottom_held": "full length"}, False),
    (6.1, forces(push=500.0), {"bottom_held": "full length"}, False),
    (6.1, forces(push=500.0), {"top_held": "ends only"}, True),
])  # fmt: skip
def test_thin_sections_that_are_pressed(ratio: float, given: Forces, held: Data, asked: bool) -> None:
    """NDS 2018 4.4.1.3: above 5 both edges are held, but up to 6 where the free one is never pressed."""
    checks = [one for one in _rules(thin(ratio, **held), given) if one.id == "roof.slender"]
    assert [one.questions[0].field for one in checks] == (["rafter.R.bottom_held"] if asked else [])


def test_missing_wood_is_asked_with_the_forces() -> None:
    given = forces(push=500.0, pull=300.0)
    cut = {"kind": "notch", "at": "3 ft", "depth": "1 in", "length": "2 in", "face": "top"}
    old = replace(thin(3.0), old_cuts=(Cut.model_construct(kind="notch"),))
    for stick in (thin(3.0, cuts=[cut]), old):
        (check,) = _rules(stick, given)
        assert check.id == "roof.cuts" and dict(check.questions[0].forces) == {"presses": 500.0, "pulls": 300.0}
    assert _rules(thin(3.0), given) == []


@pytest.mark.parametrize(("plies", "said", "verdict"), [
    (1, "", ""), (2, "", "refer"), (3, "", "refer"), (2, "glue", "refer"), (2, "10d at 12 in, two rows", "passes"),
])  # fmt: skip
def test_plies_say_how_they_are_fastened(plies: int, said: str, verdict: str) -> None:
    stick, _ = setting(stock="given", plies=plies, plies_fastened=said)
    checks = _rules(stick, forces())
    assert [one.verdict for one in checks] == ([verdict] if verdict else [])
    assert not verdict or f"{plies} plies are counted together" in checks[0].notes[0]
    assert verdict != "refer" or checks[0].questions[0].field == "rafter.R.plies_fastened"


@pytest.mark.parametrize(("thick", "bolts"), [(1.5, False), (3.0, True)])
def test_plies_that_a_nail_does_not_reach_are_bolted(thick: float, bolts: bool) -> None:
    """A 10d nail, 3 in long, goes through 1 1/2 in into the next ply, and through 3 in into nothing."""
    stick, _ = setting(stock="given", plies=2)
    (check,) = _rules(replace(stick, size=replace(stick.size, b=thick)), forces())
    words = " ".join(one.says for one in check.questions[0].answers)
    assert ("bolt" in words) is bolts


def test_a_round_stick_is_for_an_engineer() -> None:
    stick, _ = setting(stock="log")
    run: Any = TWO
    (check,) = stick_checks(stick, run, None, free=0.0, steep=False)  # type: ignore[arg-type]
    assert (check.id, check.verdict) == ("roof.round", "refer")
