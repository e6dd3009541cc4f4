"""Distances between fasteners and to edges and ends, fasteners of 1/4 in and more (NDS 2018 12.5.1).

The multiples of D stand in tables/nds_2018_12_5_1_distances.csv. A distance between the least and the full one reduces
the value of the whole group by C_delta; below the least one there is no value. Edge and row distances are hard.
"""

from __future__ import annotations

from ...calc.core import Number, formula, largest, smallest, valid, where
from ...calc.ranges import NOISE, carried, given, positive
from .ranges import large_diameter

FACTOR, EDGE, ROWS, SLANT = (
    "NDS 2018 12.5.1.2",
    "NDS 2018 Table 12.5.1C",
    "NDS 2018 Table 12.5.1D",
    "NDS 2018 12.5.1.2(b)",
)


@formula(symbol="C_delta", clause=f"{FACTOR}(a), Table 12.5.1A", unit="")
def geometry_factor_end(l_end: Number, D: Number, k_full: Number) -> Number:
    """Geometry factor for the end distance.

    Parameters
    ----------
    l_end : float or array
        From the end of the piece to the nearest fastener. [in]
    D : float or array
        Nominal diameter, 1/4 to 1. [in]
    k_full : float or array
        Multiple of D at which the factor is 1. [-]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a value is not positive, D out of range, or the distance below half the full one.

    Notes
    -----
    A plain ratio. The least end distance is half the full one in every case of the table. Changed from the source:
    nothing. How known: read.

    Examples
    --------
    >>> geometry_factor_end(2.625, 0.5, 7.0)
    0.75
    """
    return _share("l_end", l_end, D, k_full, 0.5)


@formula(symbol="C_delta", clause=f"{FACTOR}(c), Table 12.5.1B", unit="")
def geometry_factor_spacing(s: Number, D: Number, k_full: Number) -> Number:
    """Geometry factor for the spacing in a row.

    Parameters
    ----------
    s : float or array
        Spacing in the row. [in]
    D : float or array
        Nominal diameter, 1/4 to 1. [in]
    k_full : float or array
        Multiple of D at which the factor is 1. [-]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If a value is not positive, D out of range, or the spacing below three quarters of the full one.

    Notes
    -----
    A plain ratio. The least spacing of 3 D is three quarters of the full 4 D. Changed from the source: nothing. How
    known: read.

    Examples
    --------
    >>> geometry_factor_spacing(1.75, 0.5, 4.0)
    0.875
    """
    return _share("s", s, D, k_full, 0.75)


@formula(symbol="C_delta", clause=SLANT, unit="")
def geometry_factor_shear_area(A_sh: Number, A_full: Number) -> Number:
    """Geometry factor of a fastener that crosses its member aslant.

    Parameters
    ----------
    A_sh : float or array
        Area of wood that would shear out beyond the fastener. [in2]
    A_full : float or array
        The same for a fastener square to the member at the full end distance. [in2]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If an area is not positive or the share below a half.

    Notes
    -----
    Changed from the source: nothing. How known: memory; clause read.

    Examples
    --------
    >>> geometry_factor_shear_area(9.0, 12.0)
    0.75
    """
    share = positive("A_sh", A_sh, SLANT) / positive("A_full", A_full, SLANT)
    because = f"A_sh must be at least half of A_full, share given{given(share)}"
    return smallest(valid(share, share >= 0.5 - NOISE, because, SLANT), 1)


@formula(symbol="a_req", clause="NDS 2018 Table 12.5.1", unit="in")
def distance(k: Number, D: Number) -> Number:
    """A distance given as a multiple of the diameter.

    Parameters
    ----------
    k : float or array
        Multiple of the diameter. [-]
    D : float or array
        Nominal diameter, 1/4 to 1. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is not positive or D out of range.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> distance(4.0, 0.5)
    2.0
    """
    return positive("k", k) * large_diameter(D, FACTOR)


@formula(symbol="l_w", clause="NDS 2018 Table 12.5.1C, footnote", unit="in")
def least_bearing_length(l_m: Number, l_s: Number) -> Number:
    """Bearing length l of the ratio l/D: the lesser of the main member's and of all side members' together.

    Parameters
    ----------
    l_m, l_s : float or array
        Bearing length in the main member, and in all side members together; wood only. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a length is not positive.

    Notes
    -----
    Of members of steel only the wood counts: give its length twice. Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> least_bearing_length(3.5, 3.0)
    3.0
    """
    return smallest(positive("l_m", l_m, EDGE), positive("l_s", l_s, EDGE))


@formula(symbol="a_req", clause=EDGE, unit="in")
def edge_distance_parallel(l_w: Number, D: Number, s_row: Number) -> Number:
    """Least edge distance under load along the grain.

    Parameters
    ----------
    l_w : float or array
        Least bearing length. [in]
    D : float or array
        Nominal diameter, 1/4 to 1. [in]
    s_row : float or array
        Distance between rows. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is not positive or D out of range.

    Notes
    -----
    With a single row give 1.5 D or less as s_row: then only 1.5 D counts. Changed from the source: nothing. How known:
    read.

    Examples
    --------
    >>> edge_distance_parallel(3.5, 0.5, 3.0)
    1.5
    """
    l_w, D, s_row = positive("l_w", l_w, EDGE), large_diameter(D, EDGE), positive("s_row", s_row, EDGE)
    return carried(where(l_w / D <= 6, 1.5 * D, largest(1.5 * D, s_row / 2)), l_w, D, s_row)


@formula(symbol="a_req", clause=ROWS, unit="in")
def row_spacing_perpendicular(l_w: Number, D: Number) -> Number:
    """Least distance between rows under load across the grain.

    Parameters
    ----------
    l_w : float or array
        Least bearing length. [in]
    D : float or array
        Nominal diameter, 1/4 to 1. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the length is not positive or D out of range.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> row_spacing_perpendicular(1.0, 0.5)
    1.25
    >>> row_spacing_perpendicular(2.0, 0.5)
    1.875
    >>> row_spacing_perpendicular(3.5, 0.5)
    2.5
    """
    l_w, D = positive("l_w", l_w, ROWS), large_diameter(D, ROWS)
    return carried(where(l_w / D <= 2, 2.5 * D, where(l_w / D < 6, (5 * l_w + 10 * D) / 8, 5 * D)), l_w, D)


def _share(name: str, value: Number, D: Number, k_full: Number, least: float) -> Number:
    share = positive(name, value, FACTOR) / (positive("k_full", k_full, FACTOR) * large_diameter(D, FACTOR))
    because = f"{name} must be at least {least:g} of k_full D, share{given(share).removeprefix(',')}"
    return smallest(valid(share, share >= least - NOISE, because, FACTOR), 1)
