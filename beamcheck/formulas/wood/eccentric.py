"""A column whose load comes off centre one way only: NDS 2018 15.4.1 with the other way's bending left at zero."""

from __future__ import annotations

from ...calc.core import Number, formula, valid
from ...calc.ranges import not_negative, positive, positive_or_infinite

ECCENTRIC = "NDS 2018 15.4.1"


@formula(symbol="U", clause="NDS 2018 15.4.1 (eq. 15.4-1, one way)", unit="")
def eccentric_column_one_way(
    f_c: Number, F_c_prime: Number, F_b1_prime: Number, e_1: Number, d_1: Number, F_cE1: Number
) -> Number:
    """Compression with a load off centre one way.

    Parameters
    ----------
    f_c : float or array
        Compression stress. [psi]
    F_c_prime : float or array
        Adjusted compression design value, with the smaller C_P of both ways. [psi]
    F_b1_prime : float or array
        Adjusted bending design value for bending that way. [psi]
    e_1, d_1 : float or array
        Distance of the load from the axis, and the side of the column along it. [in]
    F_cE1 : float or array
        Critical buckling stress for buckling that way; infinite where held along the whole length. [psi]

    Returns
    -------
    float or array
        Up to 1 is allowed. [-]

    Raises
    ------
    OutOfRange
        If the stress reaches the buckling stress, a stress or distance is negative, or another value not positive.

    Notes
    -----
    Changed from the source: no side load, and no offset the other way. How known: memory.

    Examples
    --------
    >>> round(eccentric_column_one_way(200.0, 800.0, 1000.0, 1.0, 6.0, 1000.0), 5)
    0.3242
    """
    f_c = not_negative("f_c", f_c, ECCENTRIC)
    F_cE1 = positive_or_infinite("F_cE1", F_cE1)
    f_c = valid(f_c, f_c < F_cE1, "f_c must be less than the buckling stress F_cE1: the piece buckles", ECCENTRIC)
    off = f_c * (6 * not_negative("e_1", e_1, ECCENTRIC) / positive("d_1", d_1, ECCENTRIC))
    return (f_c / positive("F_c_prime", F_c_prime)) ** 2 + off * (1 + 0.234 * (f_c / F_cE1)) / (
        positive("F_b1_prime", F_b1_prime) * (1 - f_c / F_cE1)
    )
