"""Group action: fasteners in a row along the load do not share it evenly (NDS 2018 11.3.6).

For fasteners of 1/4 in and more; thinner ones have C_g = 1. The areas are gross: holes are not deducted.
"""

from __future__ import annotations

from ...calc.core import Number, formula, smallest, sqrt, valid
from ...calc.ranges import given, positive
from .ranges import large_diameter

GROUP = "NDS 2018 11.3.6"


@formula(symbol="gamma", clause=GROUP, unit="lbf/in")
def load_slip_wood(D: Number) -> Number:
    """Load over slip of one fastener between wood and wood.

    Parameters
    ----------
    D : float or array
        Nominal diameter, 1/4 to 1. [in]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If D is out of range.

    Notes
    -----
    180,000 is in lbf/in over in^1.5. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> load_slip_wood(1.0)
    180000.0
    """
    return 180000 * large_diameter(D, GROUP) ** 1.5


@formula(symbol="gamma", clause=GROUP, unit="lbf/in")
def load_slip_metal(D: Number) -> Number:
    """Load over slip of one fastener between wood and metal.

    Parameters
    ----------
    D : float or array
        Nominal diameter, 1/4 to 1. [in]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If D is out of range.

    Notes
    -----
    270,000 is in lbf/in over in^1.5. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> load_slip_metal(1.0)
    270000.0
    """
    return 270000 * large_diameter(D, GROUP) ** 1.5


@formula(symbol="R_EA", clause=GROUP, unit="")
def stiffness_ratio(E_m: Number, A_m: Number, E_s: Number, A_s: Number) -> Number:
    """Smaller over larger axial stiffness of the members.

    Parameters
    ----------
    E_m, E_s : float or array
        Modulus of elasticity of the main and of the side members. [psi]
    A_m, A_s : float or array
        Gross area of the main member, and of all side members together. [in2]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Load across the grain: the area is thickness times the width of the fastener group. Changed from the source:
    nothing. How known: read.

    Examples
    --------
    >>> round(stiffness_ratio(1.4e6, 10.0, 1.4e6, 5.0), 3)
    0.5
    """
    main = positive("E_m", E_m, GROUP) * positive("A_m", A_m, GROUP)
    side = positive("E_s", E_s, GROUP) * positive("A_s", A_s, GROUP)
    return smallest(side / main, main / side)


@formula(symbol="u", clause=GROUP, unit="")
def group_u(gamma: Number, s: Number, E_m: Number, A_m: Number, E_s: Number, A_s: Number) -> Number:
    """Parameter u of the group action factor.

    Parameters
    ----------
    gamma : float or array
        Load over slip of one fastener. [lbf/in]
    s : float or array
        Spacing in the row; with unlike spacings the largest. [in]
    E_m, E_s : float or array
        Modulus of elasticity of the main and of the side members. [psi]
    A_m, A_s : float or array
        Gross area of the main member, and of all side members together. [in2]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(group_u(180000.0, 4.0, 1.4e6, 10.0, 1.4e6, 5.0), 5)
    1.07714
    """
    softness = 1 / (positive("E_m", E_m, GROUP) * positive("A_m", A_m, GROUP))
    softness = softness + 1 / (positive("E_s", E_s, GROUP) * positive("A_s", A_s, GROUP))
    return 1 + positive("gamma", gamma, GROUP) * (positive("s", s, GROUP) / 2) * softness


@formula(symbol="m", clause=GROUP, unit="")
def group_m(u: Number) -> Number:
    """Parameter m of the group action factor.

    Parameters
    ----------
    u : float or array
        Parameter u, above 1. [-]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If u is not above 1.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(group_m(1.077143), 5)
    0.67685
    """
    u = valid(u, u > 1, f"u must be above 1{given(u)}", GROUP)
    return u - sqrt(u**2 - 1)


@formula(symbol="C_g", clause=f"{GROUP} (eq. 11.3-1)", unit="")
def group_action_factor(m: Number, n: Number, R_EA: Number) -> Number:
    """Group action factor of a row of fasteners along the load.

    Parameters
    ----------
    m : float or array
        Parameter m, between 0 and 1. [-]
    n : float or array
        Number of fasteners in the row. [-]
    R_EA : float or array
        Smaller over larger axial stiffness of the members, at most 1. [-]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If m is not between 0 and 1, n below 1, or R_EA not above 0 and at most 1.

    Notes
    -----
    1 for a single fastener, and towards 1 as m goes to 1 (stiff members). Changed from the source: nothing. How known:
    read.

    Examples
    --------
    >>> round(group_action_factor(0.675864, 8.0, 0.5), 3)
    0.546
    """
    m = valid(m, (m > 0) & (m < 1), f"m must be above 0 and below 1{given(m)}", GROUP)
    n = valid(n, (n >= 1) & (n < 1000), f"n must be 1 or more{given(n)}", GROUP)
    R_EA = valid(R_EA, (R_EA > 0) & (R_EA <= 1), f"R_EA must be above 0 and at most 1{given(R_EA)}", GROUP)
    row = m * (1 - m ** (2 * n)) / (n * ((1 + R_EA * m**n) * (1 + m) - 1 + m ** (2 * n)))
    return row * ((1 + R_EA) / (1 - m))
