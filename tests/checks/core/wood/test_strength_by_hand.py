"""Demand, capacity and ratio of each strength check of one section, by the equations of the standard typed here."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from beamcheck.calc.pad import Pad, SilentPad
from beamcheck.checks.core.wood import strength as of
from beamcheck.checks.core.wood.made.engineered import of_properties
from beamcheck.checks.core.wood.record import Factor, Property
from beamcheck.checks.core.wood.section import Section
from beamcheck.formulas.wood.shear import shear_stress

PSI = {"F_b": 1200.0, "F_t": 700.0, "F_v": 150.0, "F_c_perp": 400.0, "F_c": 1100.0, "E": 1.5e6, "E_min": 5.5e5}
WOOD = of_properties({name: Property(value) for name, value in PSI.items()})
B, D, C_D = 3.5, 9.25, 1.15
SECTION, ROUND = Section(B, D, B), Section(8.0, 8.0, 8.0, round=True)
A, S = B * D, B * D**2 / 6.0
HELD, FREE = of.Bracing(True, "a deck"), of.Bracing(False, "", l_u=96.0)


def outcome(found: of.Outcome, demand: float, capacity: float) -> None:
    assert (found.demand, found.capacity) == pytest.approx((demand, capacity))
    assert found.ratio == pytest.approx(demand / capacity)


def parabola(ratio: float, c: float) -> float:
    """C_P of eq. 3.7-1, and C_L of 3.3-6 with c = 0.95."""
    half = (1.0 + ratio) / (2.0 * c)
    return half - math.sqrt(half**2 - ratio / c)


def sideways(l_u: float = 96.0) -> float:
    """F_bE: 1.20 E_min/R_B^2 with l_e of any other loading (Table 3.3.3, memory), by l_u/d of 10.4: 1.63 l_u + 3 d."""
    return 1.2 * PSI["E_min"] / ((1.63 * l_u + 3.0 * D) * D / B**2)


C_L = parabola(sideways() / (1200.0 * C_D), 0.95)


def C_P(l_e: float, side: float, c: float = 0.8) -> float:
    return parabola(0.822 * PSI["E_min"] / (l_e / side) ** 2 / (1100.0 * C_D), c)


def test_bending() -> None:
    outcome(of.bending(SilentPad(), WOOD, SECTION, HELD, M=30_000.0, C_D=C_D), 30_000.0 / S, 1200.0 * C_D)
    outcome(of.bending(SilentPad(), WOOD, SECTION, HELD, M=30_000.0, C_D=C_D, S=20.0), 1500.0, 1200.0 * C_D)
    outcome(of.bending(SilentPad(), WOOD, SECTION, FREE, M=30_000.0, C_D=C_D), 30_000.0 / S, 1200.0 * C_D * C_L)
    flat = replace(WOOD, F_b=replace(WOOD.F_b, C_fu=Factor(1.1, "laid flat")))
    outcome(of.bending(SilentPad(), flat, SECTION, HELD, M=30_000.0, C_D=C_D), 30_000.0 / S, 1200.0 * C_D * 1.1)
    pad = Pad()
    of.bending(pad, flat, SECTION, HELD, M=30_000.0, C_D=C_D)
    steps = {step.symbol: step.value for step in pad.steps}
    assert steps["C_L"] == 1.0 and steps["C_fu"] == 1.1
    of.bending(plain := Pad(), WOOD, SECTION, HELD, M=30_000.0, C_D=C_D)
    assert "C_fu" not in [step.symbol for step in plain.steps]


def test_shear() -> None:
    outcome(of.shear(SilentPad(), WOOD, SECTION, V=2000.0, C_D=C_D), 3000.0 / A, 150.0 * C_D)
    outcome(of.shear(SilentPad(), WOOD, ROUND, V=2000.0, C_D=C_D), 4.0 / 3.0 * 2000.0 / (16.0 * math.pi), 150.0 * C_D)
    cut: Any = lambda pad, V: pad(shear_stress, V=V, b=B, d=6.0)  # noqa: E731
    outcome(of.shear(SilentPad(), WOOD, SECTION, V=2000.0, C_D=C_D, stress=cut), 3000.0 / (B * 6.0), 150.0 * C_D)
    glued = replace(WOOD, C_vr=Factor(0.72, "at cuts", of.Source("x", "given")))
    outcome(of.shear(SilentPad(), glued, SECTION, V=2000.0, C_D=C_D, stress=cut), 3000.0 / (B * 6.0), 108.0 * C_D)
    outcome(of.shear(SilentPad(), glued, SECTION, V=2000.0, C_D=C_D), 3000.0 / A, 150.0 * C_D)


def test_shear_at_a_notch() -> None:
    """Eq. 3.4-3 for the side that is pulled; 3.4.3.2 (e) for the one that is pressed (memory)."""
    d_n, F_v = D - 2.0, 150.0 * C_D
    found = of.notch_shear(SilentPad(), WOOD, SECTION, V=1000.0, C_D=C_D, depth=2.0)
    outcome(found, 1000.0, 2.0 / 3.0 * F_v * B * d_n * (d_n / D) ** 2)
    for e, d in ((0.0, D), (3.0, D - 2.0 / d_n * 3.0)):
        found = of.notch_shear(SilentPad(), WOOD, SECTION, V=1000.0, C_D=C_D, depth=2.0, pressed_past=e)
        outcome(found, 1000.0, 2.0 / 3.0 * F_v * B * d)


@pytest.mark.parametrize(("near_end", "lowered"), [(True, (7.25 / 9.25) ** 2), (False, 1.0)])
def test_shear_at_a_connection(near_end: bool, lowered: float) -> None:
    """Eq. 3.4-6 within five depths of the end, 3.4-5 beyond (memory): on what lies past the fasteners."""
    found = of.shear_at_connection(SilentPad(), 150.0, V=1000.0, b=B, d=D, c_u=2.0, near_end=near_end)
    outcome(found, 1000.0, 2.0 / 3.0 * 150.0 * B * 7.25 * lowered)


@pytest.mark.parametrize(("made", "near_end", "C_b"), [
    ("sawn", True, 1.0), ("sawn", False, 3.375 / 3.0), ("composite", False, 1.0), ("composite", True, 1.0),
    ("glulam", False, 3.375 / 3.0),
])  # fmt: skip
def test_bearing(made: str, near_end: bool, C_b: float) -> None:
    """C_b (l_b + 3/8)/l_b away from the end (3.10.4); of composite lumber none. No C_D."""
    found = of.bearing(SilentPad(), replace(WOOD, made=made), R=3000.0, b=B, l_b=3.0, near_end=near_end)
    outcome(found, 3000.0 / (B * 3.0), 400.0 * C_b)


@pytest.mark.parametrize(("l_e1", "l_e2", "factor"), [
    (0.0, 0.0, 1.0), (120.0, 0.0, C_P(120.0, D)), (0.0, 60.0, C_P(60.0, B)),
    (120.0, 20.0, min(C_P(120.0, D), C_P(20.0, B))),
    (120.0, 60.0, C_P(60.0, B)), (1.0, 1.0, min(C_P(1.0, D), C_P(1.0, B))),
])  # fmt: skip
def test_compression(l_e1: float, l_e2: float, factor: float) -> None:
    """The lesser of both ways: the deep way by d, the thin way by b; held all along nothing is taken off."""
    found = of.compression(SilentPad(), WOOD, SECTION, P=8000.0, C_D=C_D, l_e1=l_e1, l_e2=l_e2)
    outcome(found, 8000.0 / A, 1100.0 * C_D * factor)


def test_compression_of_plies_and_of_round_posts() -> None:
    """K_f on the thin way alone (15.3); a round one as a square of equal area (3.7.3); c of the wood."""

    def nailed(l_e1: float, l_e2: float, K_f: float, factor: float) -> None:
        found = of.compression(SilentPad(), WOOD, SECTION, P=8000.0, C_D=C_D, l_e1=l_e1, l_e2=l_e2, K_f=K_f)
        outcome(found, 8000.0 / A, 1100.0 * C_D * factor)

    nailed(120.0, 60.0, 0.6, 0.6 * C_P(60.0, B))
    nailed(120.0, 0.0, 0.6, C_P(120.0, D))
    nailed(120.0, 60.0, 1.0, C_P(60.0, B))
    side = 8.0 * math.sqrt(math.pi / 4.0)
    found = of.compression(SilentPad(), WOOD, ROUND, P=8000.0, C_D=C_D, l_e1=120.0, l_e2=120.0)
    outcome(found, 8000.0 / (16.0 * math.pi), 1100.0 * C_D * C_P(120.0, side))
    glued = of.compression(SilentPad(), replace(WOOD, c=0.9), SECTION, P=8000.0, C_D=C_D, l_e1=0.0, l_e2=60.0)
    outcome(glued, 8000.0 / A, 1100.0 * C_D * C_P(60.0, B, 0.9))


@pytest.mark.parametrize(("plate", "allowed"), [(True, 1.0), (False, 0.75)])
@pytest.mark.parametrize("area", [None, 20.0])
def test_end_grain(plate: bool, allowed: float, area: float | None) -> None:
    """Over 0.75 of F_c* a plate is asked for (3.10.1.3)."""
    found = of.end_grain(SilentPad(), WOOD, SECTION, P=8000.0, C_D=C_D, plate=plate, A_n=area)
    outcome(found, 8000.0 / (area or A) / (1100.0 * C_D), allowed)


def test_tension_and_both_at_once() -> None:
    """Eq. 3.9-1 and 3.9-2: flat use counts in F_b* as well, C_L in the second alone."""
    outcome(of.tension(SilentPad(), WOOD, SECTION, T=5000.0, C_D=C_D), 5000.0 / A, 700.0 * C_D)
    outcome(of.tension(SilentPad(), WOOD, SECTION, T=5000.0, C_D=C_D, A_n=20.0), 250.0, 700.0 * C_D)
    for C_fu in (1.0, 0.86):
        flat = replace(WOOD, F_b=replace(WOOD.F_b, C_fu=Factor(C_fu)))
        both = of.bending_with_tension(SilentPad(), flat, SECTION, FREE, M=30_000.0, T=5000.0, C_D=C_D)
        f_t, f_b = 5000.0 / A, 30_000.0 / S
        outcome(both[0], f_t / (700.0 * C_D) + f_b / (1200.0 * C_D * C_fu), 1.0)
        outcome(both[1], (f_b - f_t) / (1200.0 * C_D * C_L * C_fu), 1.0)


@pytest.mark.parametrize("bracing", [HELD, FREE])
def test_bending_with_compression(bracing: of.Bracing) -> None:
    """Eq. 3.9-3 with bending the strong way only, and 3.9-4 (memory)."""
    f_c, f_b = 4000.0 / A, 30_000.0 / S
    F_c, F_b = 1100.0 * C_D * C_P(60.0, B), 1200.0 * C_D * (1.0 if bracing.held else C_L)
    F_cE1, F_cE2 = (0.822 * PSI["E_min"] / (l_e / side) ** 2 for l_e, side in ((120.0, D), (60.0, B)))
    both = of.bending_with_compression(
        SilentPad(), WOOD, SECTION, bracing, M=30_000.0, P=4000.0, C_D=C_D, l_e1=120.0, l_e2=60.0)  # fmt: skip
    outcome(both[0], (f_c / F_c) ** 2 + f_b / (F_b * (1.0 - f_c / F_cE1)), 1.0)
    outcome(both[1], f_c / F_cE2 + (0.0 if bracing.held else (f_b / sideways()) ** 2), 1.0)
