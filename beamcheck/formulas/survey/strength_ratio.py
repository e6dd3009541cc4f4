"""Strength ratios of what is seen in a timber (ASTM D245). The lowest at a place counts; they are never multiplied.

Slope of grain is looked up. Up to 12 in deep and 6 in wide the plain ratio is the lower one; beyond, that of the
standard with its square root.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, largest, smallest, sqrt, where
from ...calc.ranges import NotNegative, Positive, between

D245 = "ASTM D245; Wood Handbook ch. 7"
OnDepth = Annotated[Number, between(0, "h", because="a knot is no wider than the face it is in")]
OnBreadth = Annotated[Number, between(0, "b", because="a knot is no wider than the face it is in")]


@formula(symbol="SR", clause=D245, unit="", known="derived")
def edge_knot_ratio(d_k: OnDepth, h: Positive) -> Number:
    """Of a knot at the edge of the wide face: it counts as lost depth.

    d_k: of the knot or cluster, between lines along the edges.
    h: of the face.

    >>> edge_knot_ratio(2.0, 8.0)
    0.5625
    """
    deep = largest(1 - largest(d_k - 1 / 24, 0) / sqrt(12 * (h + 1 / 2)), 0) ** 2
    return where(h > 12, smallest((1 - d_k / h) ** 2, deep), (1 - d_k / h) ** 2)


@formula(symbol="SR", clause=D245, unit="", known="derived")
def center_knot_ratio(d_k: OnDepth, h: Positive) -> Number:
    """Of a knot on the center line of the wide face, or on a face of a post.

    d_k: of the knot or cluster, between lines along the edges.
    h: of the face.

    >>> center_knot_ratio(2.5, 10.0)
    0.75
    """
    deep = largest(1 - largest(d_k - 1 / 24, 0) / sqrt(12 * (h + 1 / 2)), 0)
    return where(h > 12, smallest(1 - d_k / h, deep), 1 - d_k / h)


@formula(symbol="SR", clause=D245, unit="", known="derived")
def narrow_knot_ratio(d_k: OnBreadth, b: Positive) -> Number:
    """Of a knot on the narrow face of a beam, top or bottom.

    d_k: of the knot or cluster, between lines along the edges.

    >>> narrow_knot_ratio(2.0, 6.0)
    0.6666666666666667
    """
    wide = largest(1 - largest(d_k - 1 / 24, 0) / sqrt(6 * (b + 1 / 2)), 0)
    return where(b > 6, smallest(1 - d_k / b, wide), 1 - d_k / b)


@formula(symbol="s_g", clause="ASTM D245", unit="", known="memory", reference=True)
def slope_on_two_faces(s_1: NotNegative, s_2: NotNegative) -> Number:
    """Slope of grain by what is measured on two faces that meet.

    s_1, s_2: rise over run, 1 in 12 is 0.083.

    >>> round(1 / slope_on_two_faces(1 / 12, 1 / 16), 1)
    9.6
    """
    return sqrt(s_1**2 + s_2**2)
