"""Exposed wood in a standard fire (ASTM E119), up to two hours: how deep it chars and what is left of a section."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import NotNegative, Positive, between, more_than

CHAR = "NDS 2018 16.2.1; AWC Technical Report 10"
Hours = Annotated[Number, between(0.25, 2, "h", because="the method is for fires up to two hours")]


@formula(symbol="a_char", clause=CHAR, unit="in", known="memory")
def char_depth(beta_t: Positive, t_fire: Hours) -> Number:
    """Depth to which wood has turned to char.

    beta_t: 1.5 in in the first hour, for most sawn lumber.

    >>> round(char_depth(1.5, 1.5), 2)
    2.09
    """
    return beta_t * t_fire**0.813


@formula(symbol="a_eff", clause=CHAR, unit="in", known="read")
def effective_char_depth(a_char: Positive) -> Number:
    """Depth that no longer counts: a fifth more, for rounded corners and the hot layer behind the char.

    >>> round(effective_char_depth(char_depth(1.5, 1.0)), 2)
    1.8
    """
    return 1.2 * a_char


@formula(symbol="beta_eff", clause=CHAR, unit="in/h", known="memory", reference=True)
def effective_char_rate(beta_n: Positive, t_fire: Hours) -> Number:
    """Mean rate of that depth over a fire, as older editions print it.

    beta_n: 1.5 for most sawn lumber.

    >>> round(effective_char_rate(1.5, 2.0), 2)
    1.58
    """
    return 1.2 * beta_n / t_fire**0.187


@formula(symbol="b_fire", clause=CHAR, unit="in", known="read")
def residual_breadth(
    b: Positive, n_sides: Annotated[Number, between(0, 2)], a_eff: NotNegative
) -> Annotated[Number, more_than(0, because="nothing is left of it")]:
    """Breadth left after a fire.

    n_sides: sides that are exposed, 0 to 2.

    >>> round(residual_breadth(6.75, 2.0, 1.8), 2)
    3.15
    """
    return b - n_sides * a_eff


@formula(symbol="d_fire", clause=CHAR, unit="in", known="read")
def residual_depth(
    d: Positive, n_faces: Annotated[Number, between(0, 2)], a_eff: NotNegative
) -> Annotated[Number, more_than(0, because="nothing is left of it")]:
    """Depth left after a fire.

    n_faces: of top and bottom, those that are exposed, 0 to 2.

    >>> round(residual_depth(13.5, 1.0, 1.8), 2)
    11.7
    """
    return d - n_faces * a_eff


@formula(symbol="F_fire", clause="NDS 2018 Table 16.2.2", unit="psi", known="memory")
def fire_value(K_fire: Annotated[Number, between(1, 3)], F_ref: Positive) -> Number:
    """Strength in a fire by a reference design value, stability apart.

    K_fire: 2.85 bending and tension, 2.58 compression, 2.03 buckling.
    F_ref: with the size factor of the section before the fire; no C_D, C_M, C_t.

    >>> round(fire_value(2.85, 2400.0))
    6840
    """
    return K_fire * F_ref
