"""Distances between fasteners and to edges and ends, fasteners of 1/4 in and more (NDS 2018 12.5.1).

D is the nominal diameter; the multiples of it stand in tables/nds_2018_12_5_1_distances.csv. A distance between the
least and the full one reduces the value of the whole group by C_delta; below the least one there is no value. Edge and
row distances are hard.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, largest, smallest, where
from ...calc.ranges import NOISE, Positive, at_least
from .ranges import LargeDiameter

FACTOR = "NDS 2018 12.5.1.2"


@formula(symbol="C_delta", clause=f"{FACTOR}(a), Table 12.5.1A", unit="", known="memory")
def geometry_factor_end(
    l_end: Annotated[Number, at_least("k_full * D / 2", because="the least end distance", noise=NOISE)],
    D: LargeDiameter,
    k_full: Positive,
) -> Number:
    """Geometry factor for the end distance. The least end distance is half the full one in every case of the table.

    >>> geometry_factor_end(2.625, 0.5, 7.0)
    0.75
    """
    return smallest(l_end / (k_full * D), 1)


@formula(symbol="C_delta", clause=f"{FACTOR}(c), Table 12.5.1B", unit="", known="memory")
def geometry_factor_spacing(
    s: Annotated[Number, at_least("3 * k_full * D / 4", because="the least spacing in a row", noise=NOISE)],
    D: LargeDiameter,
    k_full: Positive,
) -> Number:
    """Geometry factor for the spacing in a row. The least spacing of 3 D is three quarters of the full 4 D.

    >>> geometry_factor_spacing(1.75, 0.5, 4.0)
    0.875
    """
    return smallest(s / (k_full * D), 1)


@formula(symbol="a_req", clause="NDS 2018 Table 12.5.1", unit="in", known="memory")
def distance(k: Positive, D: LargeDiameter) -> Number:
    """A distance given as a multiple of the diameter.

    >>> distance(4.0, 0.5)
    2.0
    """
    return k * D


@formula(symbol="a_req", clause="NDS 2018 Table 12.5.1C", unit="in", known="memory")
def edge_distance_parallel(l_w: Positive, D: LargeDiameter, s_row: Positive) -> Number:
    """Least edge distance under load along the grain.

    With a single row give 1.5 D or less as s_row: then only 1.5 D counts.

    >>> edge_distance_parallel(3.5, 0.5, 3.0)
    1.5
    """
    return where(l_w / D <= 6, 1.5 * D, largest(1.5 * D, s_row / 2))


@formula(symbol="a_req", clause="NDS 2018 Table 12.5.1D", unit="in", known="memory")
def row_spacing_perpendicular(l_w: Positive, D: LargeDiameter) -> Number:
    """Least distance between rows under load across the grain.

    >>> row_spacing_perpendicular(1.0, 0.5)
    1.25
    >>> row_spacing_perpendicular(2.0, 0.5)
    1.875
    >>> row_spacing_perpendicular(3.5, 0.5)
    2.5
    """
    return where(l_w / D <= 2, 2.5 * D, where(l_w / D < 6, (5 * l_w + 10 * D) / 8, 5 * D))
