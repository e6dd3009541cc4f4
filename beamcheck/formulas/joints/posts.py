"""What a beam on the side of a post puts into it, and a plate's far side."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, largest, smallest
from ...calc.ranges import NotNegative, Positive, below

STATICS = "statics"


@formula(symbol="R", clause=STATICS, unit="lbf", known="derived", reference=True)
def couple_at_ends(V: NotNegative, e: NotNegative, l: Positive) -> Number:  # noqa: E741
    """Level force at foot and head of a post, pinned at both, by a load off its axis. Both need something to hold.

    e: from the post's axis.

    >>> round(couple_at_ends(3200.0, 7.25, 120.0), 2)
    193.33
    """
    return V * e / l


@formula(symbol="M", clause=STATICS, unit="lbf*in", known="derived", reference=True)
def couple_in_post(V: NotNegative, e: NotNegative, l: Positive, h: Annotated[Number, below("l")]) -> Number:  # noqa: E741
    """Larger moment in a post pinned at foot and head, just below or just above a load off its axis.

    e: from the post's axis.
    h: of the joint above the foot.

    >>> couple_in_post(3200.0, 7.25, 120.0, 96.0)
    18560.0
    """
    return V * e * largest(h, l - h) / l


@formula(symbol="M", clause=STATICS, unit="lbf*in", known="derived", reference=True)
def couple_of_two(V_1: NotNegative, e_1: NotNegative, V_2: NotNegative, e_2: NotNegative) -> Number:
    """Moment put into a post by beams on both sides. The lighter side with its dead load only.

    e_1, e_2: from the post's axis.

    >>> couple_of_two(3200.0, 6.0, 900.0, 6.0)
    13800.0
    """
    return largest(V_1 * e_1, V_2 * e_2) - smallest(V_1 * e_1, V_2 * e_2)


@formula(
    symbol="e", clause="judgment: a bending beam presses the outer edge", unit="in", known="practice", reference=True
)
def shoulder_offset(d: Positive, l_b: Positive) -> Number:
    """Where a beam on a shoulder or seat that stands out of a post rests, from the post's axis.

    d: of the post.
    l_b: how far the seat stands out.

    >>> shoulder_offset(7.5, 1.5)
    4.75
    """
    return d / 2 + 2 * l_b / 3


@formula(
    symbol="M", clause="judgment: encloses every place of zero moment", unit="lbf*in", known="practice", reference=True
)
def far_side_moment(V: NotNegative, a: NotNegative) -> Number:
    """Moment on one group of a plate that joins two, the other group having none; then the other way round.

    A group of one true pin has none, and the other all.
    a: between the middles of the groups, or from one to the face on which a back plate lies.

    >>> far_side_moment(2400.0, 5.0)
    12000.0
    """
    return V * a
