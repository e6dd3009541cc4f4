"""Bolts and rods as steel parts (AISC 360-16, ASD: the values are R_n/Omega). Steel takes no C_D."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, smallest
from ...calc.ranges import NotNegative, Positive, between

STRENGTH, BOTH, TABLE = "AISC 360-16 J3.6", "AISC 360-16 J3.7", "AISC 360-16 Table J3.2"
FULL_SHEAR = between(0, "F_nv / 2", because="with more the bolt shears")


@formula(symbol="T_a", clause=STRENGTH, unit="lbf", known="memory")
def bolt_tension(F_nt: Positive, A_b: Positive) -> Number:
    """Allowable tension of a bolt or rod (Omega 2.00). Prying comes on top of the load.

    >>> round(bolt_tension(45000.0, 0.19635), 1)
    4417.9
    """
    return F_nt * A_b / 2


@formula(symbol="V_a", clause=STRENGTH, unit="lbf", known="memory")
def bolt_shear(F_nv: Positive, A_b: Positive, n: Positive) -> Number:
    """Allowable shear of a bolt or rod (Omega 2.00).

    F_nv: that with threads where threads cross a plane.
    n: shear planes.

    >>> round(bolt_shear(27000.0, 0.19635, 2.0), 1)
    5301.4
    """
    return F_nv * A_b * n / 2


@formula(symbol="f_rv", clause=STRENGTH, unit="psi", known="memory")
def bolt_shear_stress(V: NotNegative, A_b: Positive) -> Number:
    """Shear stress of a bolt at one plane.

    >>> round(bolt_shear_stress(1000.0, 0.19635), 1)
    5092.9
    """
    return V / A_b


@formula(symbol="F_nt_prime", clause=BOTH, unit="psi", known="memory")
def bolt_tension_with_shear(F_nt: Positive, F_nv: Positive, f_rv: Annotated[Number, FULL_SHEAR]) -> Number:
    """Nominal tensile strength of a bolt that also carries shear.

    ASD form, Omega 2.00: 1.3 F_nt less 2.00 F_nt/F_nv f_rv, at most F_nt.
    f_rv: under ASD loads.

    >>> round(bolt_tension_with_shear(45000.0, 27000.0, 9000.0), 1)
    28500.0
    """
    return smallest(1.3 * F_nt - 2 * F_nt / F_nv * f_rv, F_nt)


@formula(symbol="F_nt", clause=TABLE, unit="psi", known="memory")
def threaded_tension_strength(F_u: Positive) -> Number:
    """Nominal tensile strength of a threaded rod, per area of the full body.

    >>> round(threaded_tension_strength(58000.0), 6)
    43500.0
    """
    return 0.75 * F_u


@formula(symbol="F_nv", clause=TABLE, unit="psi", known="memory")
def threaded_shear_strength(F_u: Positive) -> Number:
    """Nominal shear strength of a threaded rod, threads in the plane, per area of the full body.

    >>> round(threaded_shear_strength(58000.0), 6)
    26100.0
    """
    return 0.450 * F_u


@formula(symbol="F_nv", clause=TABLE, unit="psi", known="memory")
def shank_shear_strength(F_u: Positive) -> Number:
    """Nominal shear strength of a rod, threads out of the plane, per area of the full body.

    >>> round(shank_shear_strength(58000.0), 6)
    32654.0
    """
    return 0.563 * F_u
