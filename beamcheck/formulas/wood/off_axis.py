"""Wood stressed at an angle to its grain: stiffness, parts of an edge stress, strength.

In the plane of the piece L runs along the grain and T across it (radially or tangentially, as the board was sawn).
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, cos, formula, sin, sqrt
from ...calc.ranges import AcuteAngle, Finite, NotNegative, Positive, at_most, more_than

ORTHOTROPIC = "mechanics of orthotropic materials"
EDGE = "equilibrium at a free edge"
HANKINSON = "Wood Handbook ch. 5 (Hankinson's form, tension)"
QUADRATIC = "Tsai-Hill criterion"


@formula(symbol="E_off", clause=ORTHOTROPIC, unit="psi", known="derived")
def off_axis_modulus(
    E_L: Positive, E_T: Positive, G_LT: Positive, nu_LT: NotNegative, psi: Finite
) -> Annotated[Number, more_than(0, because="E_L, E_T, G_LT and nu_LT do not belong to one material")]:
    """Modulus of elasticity in a direction at an angle to the grain. 0 gives E_L, 90 gives E_T.

    >>> round(off_axis_modulus(1.6e6, 80000.0, 124800.0, 0.449, 45.0))
    194396
    """
    along, across = cos(psi) ** 2, sin(psi) ** 2
    softness = along**2 / E_L + across**2 / E_T
    return 1 / (softness + across * along * (1 / G_LT - 2 * nu_LT / E_L))


@formula(symbol="s_perp", clause=EDGE, unit="psi", known="derived")
def stress_across(sigma_t: Finite, phi: AcuteAngle) -> Number:
    """Stress across the grain at a free edge.

    No reference value exists for tension across the grain of sawn lumber (NDS 2018 3.8.2).
    sigma_t: the only one there; tension positive.

    >>> round(stress_across(100.0, 30.0), 6)
    25.0
    """
    return sigma_t * sin(phi) ** 2


@formula(symbol="F_t_phi", clause=HANKINSON, unit="psi", known="memory")
def hankinson_tension(F_par: Positive, F_perp: Annotated[Number, at_most("F_par")], phi: AcuteAngle) -> Number:
    """What an edge bears in tension at an angle to the grain.

    The source gives an exponent of 1.5 to 2 for tension: 1.5 is the safe end. Judge by `quadratic_index` as well.
    F_perp: no standard gives it.

    >>> round(hankinson_tension(900.0, 15.0, 30.0), 1)
    40.9
    """
    return F_par * F_perp / (F_par * sin(phi) ** 1.5 + F_perp * cos(phi) ** 1.5)


@formula(symbol="U", clause=QUADRATIC, unit="", known="memory")
def quadratic_index(
    s_par: Finite, s_perp: Finite, tau: Finite, F_par: Positive, F_perp: Annotated[Number, at_most("F_par")],
    F_v: Positive,
) -> Number:  # fmt: skip
    """Stresses along the grain, across it and in shear at one point, as a share of what they may be together.

    The form with F_par F_perp in the second term is not used: it lets tension at 5 deg exceed F_par. Changed from the
    source: the square root, so that the result grows with the load.
    s_par, s_perp, tau: tension positive.
    F_par, F_perp, F_v: for tension or compression as the sign of the stress is.
    U: up to 1 is allowed; twice the stresses give twice the share.

    >>> round(quadratic_index(75.0, 25.0, 43.3, 900.0, 15.0, 180.0), 4)
    1.6853
    """
    return sqrt((s_par / F_par) ** 2 - s_par * s_perp / F_par**2 + (s_perp / F_perp) ** 2 + (tau / F_v) ** 2)
