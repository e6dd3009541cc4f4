"""Head of a king post. Its foot: `steps` for strut seats, bolts and straps as anywhere, `bearing_stress` under a strap.

Rafters stand square on inclined shoulders of the post; the post's grain meets the push at 90 - beta_r.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, cos, formula, sin
from ...calc.ranges import NotNegative, Positive, inside
from .steps import OverMean

STATICS = "statics of the joint"
Slope = Annotated[Number, inside(0, 90, "deg")]


@formula(symbol="f_theta", clause=STATICS, unit="psi", known="derived", reference=True)
def shoulder_pressure(N: NotNegative, b: Positive, d_c: Positive) -> Number:
    """Pressure on a shoulder that is square to the rafter.

    Rafter: against F_c*; post: `bearing_at_angle` at 90 - beta_r.
    N: push in the rafter.

    >>> round(shoulder_pressure(3245.0, 5.5, 5.5), 2)
    107.27
    """
    return N / (b * d_c)


@formula(symbol="f_v", clause=STATICS, unit="psi", known="derived", reference=True)
def shear_above_shoulder(N: NotNegative, beta_r: Slope, b: Positive, l_v_ef: Positive, k_v: OverMean) -> Number:
    """Shear along the post in the wood above (or below) a shoulder, by the upright part of the push.

    l_v_ef: at most eight times the depth of the shoulder.

    >>> round(shear_above_shoulder(3245.0, 33.69, 5.5, 11.0, 1.5), 2)
    44.63
    """
    return k_v * N * sin(beta_r) / (b * l_v_ef)


@formula(symbol="V", clause="statics of a pair of rafters", unit="lbf", known="derived", reference=True)
def upright_at_ridge(w_1: NotNegative, w_2: NotNegative, L: Positive) -> Number:
    """Upright force from one rafter to the other at the ridge when the sides are loaded unlike. Sign by the sides.

    A butted ridge needs a shoulder or a fastener for it.
    L: of the pair.

    >>> upright_at_ridge(30.0, 9.0, 288.0)
    756.0
    """
    return (w_1 - w_2) * L / 8


@formula(symbol="Delta", clause="geometry", unit="in", known="derived", reference=True)
def drop_at_head(Delta_w: NotNegative, beta_r: Slope) -> Number:
    """How far rafters that butt level on a post come down when the post dries.

    Delta_w: that the post loses in width.

    >>> round(drop_at_head(0.2, 33.69), 3)
    0.15
    """
    return Delta_w / 2 * cos(beta_r) / sin(beta_r)
