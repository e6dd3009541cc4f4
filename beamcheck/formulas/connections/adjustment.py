"""Reference design values of fasteners times the factors that apply to them (NDS 2018 Table 11.3.1, ASD).

A product says nothing about whether a factor's value is right: that is looked up and reasoned elsewhere. Where metal,
concrete or masonry governs, C_D does not apply (11.2.3, 11.2.4, how: memory).
"""

from __future__ import annotations

from ...calc.core import Number, formula, valid
from ...calc.ranges import NOISE, given, positive, reduction
from .ranges import LONGEST_LASTING

TABLE = "NDS 2018 Table 11.3.1"


@formula(symbol="Z_prime", clause=TABLE, unit="lbf")
def adjusted_lateral(
    Z: Number,
    C_D: Number,
    C_M: Number,
    C_t: Number,
    C_g: Number,
    C_delta: Number,
    C_eg: Number,
    C_di: Number,
    C_tn: Number,
) -> Number:
    """Adjusted lateral design value of one fastener in a group.

    Parameters
    ----------
    Z : float or array
        Reference lateral design value. [lbf]
    C_D, C_M, C_t, C_g, C_delta : float or array
        Load duration (at most 1.6), wet service, temperature, group action and geometry factor. [-]
    C_eg, C_di, C_tn : float or array
        End grain, diaphragm (1 or 1.1, nails only) and toe-nail factor. [-]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive, C_D over 1.6, C_di not 1 to 1.1, or another factor over 1.

    Notes
    -----
    No impact factor 2.0 on a connection (Table 2.3.2, footnote). Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(adjusted_lateral(600.0, 1.15, 1.0, 1.0, 0.95, 0.9, 1.0, 1.0, 1.0), 2)
    589.95
    """
    C_di = valid(C_di, (C_di >= 1) & (C_di <= 1.1 + NOISE), f"C_di must be 1 to 1.1{given(C_di)}", TABLE)
    whole = positive("Z", Z, TABLE) * _duration(C_D) * reduction("C_M", C_M, TABLE) * reduction("C_t", C_t, TABLE)
    placed = whole * reduction("C_g", C_g, TABLE) * reduction("C_delta", C_delta, TABLE)
    return placed * reduction("C_eg", C_eg, TABLE) * C_di * reduction("C_tn", C_tn, TABLE)


@formula(symbol="W_prime", clause=TABLE, unit="lbf/in")
def adjusted_withdrawal(W_w: Number, C_D: Number, C_M: Number, C_t: Number, C_eg: Number, C_tn: Number) -> Number:
    """Adjusted withdrawal design value, per inch.

    Parameters
    ----------
    W_w : float or array
        Reference withdrawal design value. [lbf/in]
    C_D, C_M, C_t, C_eg, C_tn : float or array
        Load duration (at most 1.6), wet service, temperature, end grain and toe-nail factor. [-]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If a value is not positive, C_D over 1.6 or another factor over 1.

    Notes
    -----
    C_M once: the small 2 beside it in the 2018 table is a footnote mark. For toe-nails C_M is 1. Changed from the
    source: nothing. How known: read.

    Examples
    --------
    >>> round(adjusted_withdrawal(378.4, 1.0, 0.7, 1.0, 1.0, 1.0), 2)
    264.88
    """
    whole = positive("W_w", W_w, TABLE) * _duration(C_D) * reduction("C_M", C_M, TABLE) * reduction("C_t", C_t, TABLE)
    return whole * reduction("C_eg", C_eg, TABLE) * reduction("C_tn", C_tn, TABLE)


@formula(symbol="W_H_prime", clause=TABLE, unit="lbf")
def adjusted_pull_through(W_H: Number, C_D: Number, C_M: Number, C_t: Number) -> Number:
    """Adjusted head pull-through design value.

    Parameters
    ----------
    W_H : float or array
        Reference head pull-through design value. [lbf]
    C_D, C_M, C_t : float or array
        Load duration (at most 1.6), wet service and temperature factor. [-]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive, C_D over 1.6 or another factor over 1.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(adjusted_pull_through(140.0, 1.6, 1.0, 1.0), 1)
    224.0
    """
    return positive("W_H", W_H, TABLE) * _duration(C_D) * reduction("C_M", C_M, TABLE) * reduction("C_t", C_t, TABLE)


def _duration(C_D: Number) -> Number:
    because = f"C_D must be above 0 and at most 1.6 on a connection{given(C_D)}"
    return valid(C_D, (C_D > 0) & (C_D <= LONGEST_LASTING), because, "NDS 2018 Table 2.3.2")
