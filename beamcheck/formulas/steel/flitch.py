"""A flitch beam: one steel plate bolted between two plies of wood, which bend together."""

from __future__ import annotations

from ...calc.core import Number, formula
from ...calc.ranges import NotNegative, Positive

CLAUSE = "mechanics of materials, parts that bend together"


@formula(symbol="I_hole", clause=CLAUSE, unit="in4", known="derived")
def inertia_of_holes(b: Positive, d_h: Positive, y_far: NotNegative, n: Positive) -> Number:
    """What holes take from the moment of inertia of a breadth, all as far from the middle as the outer ones.

    >>> round(inertia_of_holes(3.0, 0.5625, 2.0, 2.0), 3)
    13.589
    """
    return n * b * (d_h**3 / 12 + d_h * y_far**2)


@formula(symbol="I_eq", clause=CLAUSE, unit="in4", known="derived")
def inertia_as_wood(I_wood: Positive, I_plate: Positive, E_steel: Positive, E_wood: Positive) -> Number:
    """Moment of inertia of both as if all were wood.

    >>> round(inertia_as_wood(230.8, 30.38, 29.0e6, 1.6e6), 2)
    781.44
    """
    return I_wood + I_plate * E_steel / E_wood


@formula(symbol="s_steel", clause=CLAUSE, unit="", known="derived")
def steel_share(E_steel: Positive, I_plate: Positive, E_wood: Positive, K_cr: Positive, I_wood: Positive) -> Number:
    """Share of the moment that the plate takes once the wood has crept.

    >>> round(steel_share(29.0e6, 30.38, 1.6e6, 1.5, 230.8), 4)
    0.7816
    """
    return E_steel * I_plate / (E_steel * I_plate + E_wood / K_cr * I_wood)


@formula(symbol="M_a", clause="AISC 360-16 F11, first yield", unit="lbf*in", known="memory")
def plate_at_first_yield(F_y: Positive, I_plate: Positive, h_plate: Positive) -> Number:
    """Allowable moment of a plate on edge that stays elastic (Omega 1.67).

    >>> round(plate_at_first_yield(36000.0, 30.38, 9.0))
    145533
    """
    return F_y * 2 * I_plate / h_plate / 1.67


@formula(symbol="slenderness_max", clause="AISC 360-16 F11.2(b)", unit="", known="memory")
def slenderness_at_first_yield(E_steel: Positive, F_y: Positive) -> Number:
    """Slenderness L_b d/t^2 up to which a plate on edge reaches first yield before it turns over.

    Up to it eq. F11-2, 1.52 - 0.274 (L_b d/t^2) F_y/E, is 1 and more.

    >>> round(slenderness_at_first_yield(29.0e6, 36000.0), 1)
    1530.6
    """
    return 1.9 * E_steel / F_y


@formula(symbol="w_bolts", clause=CLAUSE, unit="lbf/in", known="derived")
def load_into_the_plate(w: NotNegative, s_steel: Positive) -> Number:
    """Load per length that bolts carry over from the wood, on which it comes, into the plate.

    >>> load_into_the_plate(50.0, 0.6)
    30.0
    """
    return w * s_steel


@formula(symbol="F_bolts", clause=CLAUSE, unit="lbf", known="derived")
def force_out_of_the_plate(R: NotNegative, s_steel: Positive) -> Number:
    """Force that bolts at an end carry back into the wood, which alone lies on the seat.

    >>> force_out_of_the_plate(3000.0, 0.6)
    1800.0
    """
    return R * s_steel


@formula(symbol="F_a", clause="NDS 2018 11.3", unit="lbf", known="derived")
def bolts_at_an_end(Z_prime: Positive, n: Positive) -> Number:
    """Force that the bolts at an end take.

    >>> bolts_at_an_end(900.0, 2.0)
    1800.0
    """
    return Z_prime * n
