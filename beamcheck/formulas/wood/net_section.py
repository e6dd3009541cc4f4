"""A rectangle with a rectangular void in it: hole, mortise, slot, pocket, housing. Section properties and shear stress.

The void is `b_v` across and `d_v` along the depth; its middle is `y_v` above the bottom. In section a round hole is a
rectangle too: bored from side to side b_v = b and d_v its diameter, bored from top to bottom the other way round.

A void in one side (`side_void_...`: a housing, a blind mortise) reaches b_v in from that side. The section is lopsided
and also bends sideways, with nothing to keep it from that: the stress is then the largest.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, largest
from ...calc.ranges import NOISE, NotNegative, Positive, at_most, below, between, inside, more_than

NET = "NDS 2018 3.1.2"

VoidBreadth = Annotated[Number, at_most("b")]
VoidHeight = Annotated[Number, at_most("d")]
# a billionth of the depth is let go: a slot from an edge touches it only as far as floats can say
VoidPlace = Annotated[
    Number, between("d_v / 2", "d - d_v / 2", because="the void must lie inside the depth", noise=NOISE)
]
Centroid = Annotated[Number, inside(0, "d", because="it must lie inside the depth")]


@formula(symbol="A_n", clause=NET, unit="in2", known="derived")
def net_area(
    b: Positive, d: Positive, b_v: VoidBreadth, d_v: VoidHeight
) -> Annotated[Number, more_than(0, because="the void takes the whole section")]:
    """Area of a rectangle less a rectangular void (hole, mortise, slot, housing).

    For shear 1.5 V/A_n is right for a through hole at mid-depth only: see `shear_stress_net`, `shear_stress_parts`.

    >>> net_area(7.5, 9.5, 2.0, 4.0)
    63.25
    """
    return b * d - b_v * d_v


@formula(symbol="y_bar", clause=NET, unit="in", known="derived")
def net_centroid(b: Positive, d: Positive, b_v: VoidBreadth, d_v: VoidHeight, y_v: VoidPlace) -> Number:
    """Height of the centroid above the bottom, with a rectangular void.

    A slot 2 in wide and 4 in deep in the bottom face:

    >>> round(net_centroid(7.5, 9.5, 2.0, 4.0, 2.0), 3)
    5.098
    """
    return (b * d * (d / 2) - b_v * d_v * y_v) / net_area(b, d, b_v, d_v)


@formula(symbol="I_net", clause=NET, unit="in4", known="derived")
def net_inertia(b: Positive, d: Positive, b_v: VoidBreadth, d_v: VoidHeight, y_v: VoidPlace) -> Number:
    """Second moment of area about the net centroid, with a rectangular void.

    Parallel-axis theorem with the shift of the centroid worked in. A void that is not in the middle of the breadth
    also bends the piece sideways; that is not in it.

    >>> round(net_inertia(7.5, 9.5, 2.0, 4.0, 2.0), 1)
    457.0
    """
    shift = b * d * (b_v * d_v) / net_area(b, d, b_v, d_v) * (y_v - d / 2) ** 2
    return b * d**3 / 12 - b_v * d_v**3 / 12 - shift


@formula(symbol="S_net", clause=NET, unit="in3", known="derived")
def net_modulus_bottom(I_net: Positive, y_bar: Positive) -> Number:
    """Section modulus of any net section for the stress at the bottom edge.

    For a void as broad as the piece and open at the bottom the edge is gone: that is a notch, see `notched_depth`.

    The slot of `net_centroid`:

    >>> round(net_modulus_bottom(457.04, 5.0978), 1)
    89.7
    """
    return I_net / y_bar


@formula(symbol="S_net", clause=NET, unit="in3", known="derived")
def net_modulus_top(I_net: Positive, d: Positive, y_bar: Centroid) -> Number:
    """Section modulus of any net section for the stress at the top edge.

    For a void as broad as the piece and open at the top the edge is gone: that is a notch.

    >>> round(net_modulus_top(457.04, 9.5, 5.0978), 1)
    103.8
    """
    return I_net / (d - y_bar)


@formula(symbol="Q_net", clause="NDS 2018 3.4.2 (eq. 3.4-1)", unit="in3", known="derived")
def net_first_moment(
    b: Positive, d: Positive, b_v: VoidBreadth, d_v: VoidHeight, y_v: VoidPlace, y_bar: Centroid
) -> Number:
    """First moment, about the net centroid, of what lies above it: the largest one of the section.

    What the void takes away above the centroid is the difference of two moments, each from the centroid up to an edge
    of the void (nothing for an edge below it).

    >>> round(net_first_moment(7.5, 9.5, 2.0, 4.0, 2.0, 5.097826), 2)
    72.67
    """
    top, low = largest(y_v + d_v / 2 - y_bar, 0), largest(y_v - d_v / 2 - y_bar, 0)
    return b * (d - y_bar) ** 2 / 2 - b_v * (top**2 - low**2) / 2


@formula(symbol="f_v", clause="NDS 2018 3.1.2, 3.4.2 (eq. 3.4-1)", unit="psi", known="derived")
def shear_stress_net(
    V: NotNegative, Q_net: Positive, I_net: Positive, b: Positive, b_v: Annotated[Number, below("b")]
) -> Number:
    """Shear stress beside a mortise, slot or pocket that does not go right through.

    The largest first moment over the least breadth: exact where the void holds the centroid, else on the safe side.
    1.5 V over the net area is not: for a mortise 3 in square at mid-depth of 7.5 x 9.5 in it is 29 % too low. Changed
    from the source: breadth and first moment need not be at one level.

    >>> round(shear_stress_net(1000.0, 81.234375, 529.109375, 7.5, 3.0), 2)
    34.12
    """
    return V * Q_net / (I_net * (b - b_v))


@formula(symbol="f_v", clause="NDS 2018 3.1.2, 3.4.2", unit="psi", known="derived")
def shear_stress_parts(V: NotNegative, b: Positive, d_a: Positive, d_b: Positive) -> Number:
    """Shear stress in the deeper of the two parts beside a hole right through the breadth.

    The parts bend together, so each takes its share as the cube of its depth. With equal parts this is 1.5 V over the
    net area. Long openings also bend each part by itself: not covered. Changed from the source: NDS has no rule for
    it.

    >>> round(shear_stress_parts(1000.0, 7.5, 3.75, 3.75), 3)
    26.667
    """
    return 3 * V * largest(d_a, d_b) ** 2 / (2 * b * (d_a**3 + d_b**3))


@formula(symbol="I_y", clause=NET, unit="in4", known="derived")
def side_void_inertia(b: Positive, d: Positive, b_v: VoidBreadth, d_v: VoidHeight) -> Number:
    """Second moment of area for bending sideways, with a rectangular void that begins at one side.

    About the upright axis through the net centroid.

    A housing 2 in deep and 3 in high in the side:

    >>> round(side_void_inertia(7.5, 11.5, 2.0, 3.0), 1)
    353.5
    """
    A_n = net_area(b, d, b_v, d_v)
    return b**3 * d / 12 - b_v**3 * d_v / 12 - b * d * (b_v * d_v) / A_n * ((b - b_v) / 2) ** 2


@formula(symbol="I_xy", clause=NET, unit="in4", known="derived")
def side_void_product(b: Positive, d: Positive, b_v: VoidBreadth, d_v: VoidHeight, y_v: VoidPlace) -> Number:
    """Product moment of area about the net centroid, without sign, with a rectangular void that begins at one side.

    Zero for a void at mid-depth.

    >>> round(side_void_product(7.5, 11.5, 2.0, 3.0, 2.75), 2)
    53.2
    """
    A_n = net_area(b, d, b_v, d_v)
    return b * d * (b_v * d_v) / A_n * ((b - b_v) / 2) * abs(y_v - d / 2)


@formula(symbol="S_net", clause=NET, unit="in3", known="derived")
def side_void_modulus(
    I_net: Positive, I_y: Positive, I_xy: Annotated[Number, below("(I_net * I_y) ** 0.5")], b: Positive, d: Positive,
    b_v: VoidBreadth, d_v: VoidHeight, y_bar: Centroid,
) -> Number:  # fmt: skip
    """Section modulus for the stress in the worst corner, with a rectangular void that begins at one side.

    f = M (y I_y + x I_xy)/(I_x I_y - I_xy^2), in the corner that is farthest from the centroid both ways: the void has
    pushed the centroid away from itself both ways, and the two parts have the same sign there. Changed from the
    source: NDS asks for the net section and gives no formula.

    >>> round(side_void_modulus(888.01, 353.53, 53.2, 7.5, 11.5, 2.0, 3.0, 5.9743), 1)
    134.0
    """
    edge = largest(y_bar, d - y_bar)
    side = b / 2 + b_v * d_v * (b - b_v) / (2 * net_area(b, d, b_v, d_v))
    return (I_net * I_y - I_xy**2) / (edge * I_y + side * I_xy)
