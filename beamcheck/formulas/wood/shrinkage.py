"""Wood that moves across its grain with its moisture, and the room it needs. Along the grain it hardly moves."""

from __future__ import annotations

from ...calc.core import Number, formula, valid
from ...calc.ranges import between, given, not_negative, positive

MOVEMENT = "Wood Handbook ch. 13"


@formula(symbol="Delta_w", clause="Wood Handbook ch. 13 (eq. 13-2)", unit="in")
def cross_grain_movement(C_w: Number, dMC: Number, h: Number) -> Number:
    """Shrinkage or swelling of wood across its grain.

    Parameters
    ----------
    C_w : float or array
        Dimensional change coefficient, radial or tangential, per point of moisture content. [-]
    dMC : float or array
        Change of the moisture content in points, at most 30. [%]
    h : float or array
        Dimension across the grain. [in]

    Returns
    -------
    float or array
        Without sign. [in]

    Raises
    ------
    OutOfRange
        If C_w is not above 0 and at most 0.01, dMC not 0 to 30, or the dimension not positive.

    Notes
    -----
    The coefficient is that of 6 to 14 %. Wood that starts wetter moves less per point (eq. 13-3 divides by 3000/S -
    30 + M_i), so it is on the safe side there; wood that starts drier moves up to 5 % more. Above the fibre
    saturation point, some 30 %, nothing moves. Changed from the source: without sign, and up to 30 points. How
    known: read.

    Examples
    --------
    A flat-sawn red oak board of 12 in, 5 points:

    >>> round(cross_grain_movement(0.00369, 5.0, 12.0), 3)
    0.221
    """
    because = f"C_w must be above 0 and at most 0.01 per point{given(C_w)}"
    C_w = valid(C_w, (C_w > 0) & (C_w <= 0.01), because, MOVEMENT)
    return C_w * between("dMC", dMC, 0, 30, MOVEMENT, "points") * positive("h", h, MOVEMENT)


@formula(symbol="c_req", clause="practice", unit="in")
def clearance_needed(c_min: Number, Delta_w: Number, Delta_hid: Number) -> Number:
    """Room that a pocket or reveal needs around hidden hardware.

    Parameters
    ----------
    c_min : float or array
        Room that stays when everything has moved. [in]
    Delta_w : float or array
        Movement of the wood. [in]
    Delta_hid : float or array
        How far the hidden joint moves under its full load. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is negative.

    Notes
    -----
    They may all go the same way. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> clearance_needed(0.125, 0.0625, 0.03125)
    0.21875
    """
    return not_negative("c_min", c_min) + not_negative("Delta_w", Delta_w) + not_negative("Delta_hid", Delta_hid)
