"""Tension parallel to grain (NDS 2018 3.8)."""

from __future__ import annotations

from ...calc.core import Number, formula
from ...calc.ranges import not_negative, positive

CLAUSE = "NDS 2018 3.8.1"


@formula(symbol="f_t", clause=CLAUSE, unit="psi")
def tension_stress(T: Number, A_n: Number) -> Number:
    """Tension stress on the net area.

    Parameters
    ----------
    T : float or array
        Tension, without sign. [lbf]
    A_n : float or array
        Area less bolt holes, mortises and the like (3.1.2). [in2]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the force is negative or the area not positive.

    Notes
    -----
    Tension across the grain has no design value (3.8.2) and no formula here.
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> tension_stress(6000.0, 24.0)
    250.0
    """
    return not_negative("T", T, CLAUSE) / positive("A_n", A_n, CLAUSE)
