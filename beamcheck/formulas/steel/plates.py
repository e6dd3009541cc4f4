"""Steel plates, bars and welds (AISC 360-16, ASD: the values are R_n/Omega). Steel takes no C_D."""

from __future__ import annotations

import math
from typing import Annotated

from ...calc.core import Number, formula, sin, smallest
from ...calc.ranges import AcuteAngle, Positive, at_most, between

TENSION, SHEAR, BLOCK = "AISC 360-16 D2, J4.1", "AISC 360-16 J4.2", "AISC 360-16 J4.3"
SHORT, BUCKLES, WELD = "AISC 360-16 J4.4", "AISC 360-16 E3", "AISC 360-16 J2.4"
SHORT_SLENDERNESS = 25.0  # J4.4: above it a plate in compression is a column


@formula(symbol="P_a", clause=TENSION, unit="lbf", known="memory")
def tension_yield(F_y: Positive, A_g: Positive) -> Number:
    """Allowable tension of the gross section (Omega 1.67).

    >>> round(tension_yield(36000.0, 0.75), 1)
    16167.7
    """
    return F_y * A_g / 1.67


@formula(symbol="P_a", clause=TENSION, unit="lbf", known="memory")
def tension_rupture(F_u: Positive, A_e: Positive) -> Number:
    """Allowable tension of the net section (Omega 2.00).

    A_e: for a threaded part the root area.

    >>> tension_rupture(58000.0, 0.5)
    14500.0
    """
    return F_u * A_e / 2


@formula(symbol="V_a", clause=SHEAR, unit="lbf", known="memory")
def shear_yield(F_y: Positive, A_gv: Positive) -> Number:
    """Allowable shear of the gross section (Omega 1.50).

    >>> shear_yield(36000.0, 0.75)
    10800.0
    """
    return 0.60 * F_y * A_gv / 1.50


@formula(symbol="V_a", clause=SHEAR, unit="lbf", known="memory")
def shear_rupture(F_u: Positive, A_nv: Positive) -> Number:
    """Allowable shear of the net section; also of the steel beside a weld (Omega 2.00).

    >>> shear_rupture(58000.0, 0.5)
    8700.0
    """
    return 0.60 * F_u * A_nv / 2


@formula(symbol="R_a", clause=BLOCK, unit="lbf", known="memory")
def block_shear(
    F_y: Positive, F_u: Positive, A_gv: Positive, A_nv: Annotated[Number, at_most("A_gv")], A_nt: Positive,
    U_bs: Annotated[Number, between(0.5, 1)],
) -> Number:  # fmt: skip
    """Allowable load at which a block shears out of a plate (Omega 2.00).

    U_bs: 1 where the tension is even, 0.5 where not.

    >>> round(block_shear(36000.0, 58000.0, 1.0, 0.7, 0.25, 1.0), 1)
    18050.0
    """
    pulled = U_bs * F_u * A_nt
    return smallest(0.60 * F_u * A_nv + pulled, 0.60 * F_y * A_gv + pulled) / 2


@formula(symbol="P_a", clause=SHORT, unit="lbf", known="memory")
def short_compression(F_y: Positive, A_g: Positive) -> Number:
    """Allowable compression of a short part (Omega 1.67). Only while l_e over the radius of gyration is 25 or less.

    >>> round(short_compression(36000.0, 0.75), 1)
    16167.7
    """
    return F_y * A_g / 1.67


@formula(symbol="P_a", clause=BUCKLES, unit="lbf", known="memory")
def slender_compression(F_y: Positive, A_g: Positive, slenderness: Positive, E_steel: Positive) -> Number:
    """Allowable compression of a bar that may buckle (Omega 1.67).

    slenderness: K L over the radius of gyration, up to 4.71 times the root of E over F_y.

    >>> round(slender_compression(36000.0, 2.4, 58.2, 29.0e6), 0)
    43287.0
    """
    return 0.658 ** (F_y * (slenderness / math.pi) ** 2 / E_steel) * F_y * A_g / 1.67


@formula(symbol="R_a", clause=WELD, unit="lbf", known="memory")
def fillet_weld(F_EXX: Positive, w_leg: Positive, L_w: Positive, theta_w: AcuteAngle) -> Number:
    """Allowable force of a fillet weld (Omega 2.00, throat 0.707 of the leg).

    theta_w: 0 where in doubt. It counts only for a weld, or welds of one direction, loaded through their centroid.

    >>> round(fillet_weld(70000.0, 0.1875, 2.0, 0.0), 1)
    5567.6
    """
    return 0.60 * F_EXX * (1 + 0.50 * sin(theta_w) ** 1.5) * (0.707 * w_leg * L_w) / 2
