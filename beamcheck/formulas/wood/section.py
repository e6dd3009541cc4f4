"""Section properties: whole, round, notched. With a hole, mortise or slot: `net_section`.

`b` is the breadth across and `d` the depth in the plane of the load; for bending the other way they change places.
"""

from __future__ import annotations

import math
from typing import Annotated

from ...calc.core import Number, formula, sqrt
from ...calc.ranges import Positive, below

MECHANICS = "mechanics of materials"


@formula(symbol="A", clause=MECHANICS, unit="in2", known="derived")
def rectangle_area(b: Positive, d: Positive) -> Number:
    """Area of a rectangle.

    >>> rectangle_area(3.5, 7.25)
    25.375
    """
    return b * d


@formula(symbol="S_x", clause="NDS 2018 3.3.2 (eq. 3.3-4)", unit="in3", known="derived")
def rectangle_modulus(b: Positive, d: Positive) -> Number:
    """Section modulus of a rectangle, bent in the plane of d.

    >>> round(rectangle_modulus(3.5, 7.25), 2)
    30.66
    """
    return b * d**2 / 6


@formula(symbol="I_x", clause="NDS 2018 3.3.2 (eq. 3.3-3)", unit="in4", known="derived")
def rectangle_inertia(b: Positive, d: Positive) -> Number:
    """Second moment of area of a rectangle, bent in the plane of d.

    >>> round(rectangle_inertia(1.5, 3.5), 3)
    5.359
    """
    return b * d**3 / 12


@formula(symbol="A", clause=MECHANICS, unit="in2", known="derived")
def round_area(D: Positive) -> Number:
    """Area of a circle.

    >>> round(round_area(10.0), 3)
    78.54
    """
    return math.pi * D**2 / 4


@formula(symbol="S_x", clause=MECHANICS, unit="in3", known="derived")
def round_modulus(D: Positive) -> Number:
    """Section modulus of a circle.

    No form factor goes with it: old editions raised F_b by 1.18 for a round section, the 2018 one does not (memory).

    >>> round(round_modulus(10.0), 3)
    98.175
    """
    return math.pi * D**3 / 32


@formula(symbol="I_x", clause=MECHANICS, unit="in4", known="derived")
def round_inertia(D: Positive) -> Number:
    """Second moment of area of a circle.

    >>> round(round_inertia(10.0), 3)
    490.874
    """
    return math.pi * D**4 / 64


@formula(symbol="d", clause="NDS 2018 3.7.3, 4.3.6.3", unit="in", known="memory")
def equal_area_square(D: Positive) -> Number:
    """Side of the square with the area of a round piece: the depth that stands for it in column and size rules.

    Changed from the source: the exact root of the area, of which handbooks print the rounded form 0.886 D.

    >>> round(equal_area_square(10.0), 4)
    8.8623
    """
    return sqrt(math.pi * D**2 / 4)


@formula(symbol="d_n", clause="NDS 2018 3.4.3.2, 4.4.3", unit="in", known="memory")
def notched_depth(d: Positive, d_cut: Annotated[Number, below("d")]) -> Number:
    """Depth that remains at a notch.

    Does not say whether the notch is allowed (4.4.3). At a beveled end the depth counts at the inner edge of the
    support.

    >>> notched_depth(9.25, 2.0)
    7.25
    """
    return d - d_cut
