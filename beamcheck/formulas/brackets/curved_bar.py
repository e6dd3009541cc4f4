"""A bent arc of constant depth: stress along its edges, stress across it, and its stiffness (curved-bar theory).

r_i and r_o are the radii of the hollow and of the full side, r_m that of the middle. M is positive when it straightens
the arc and N is tension; a load that hangs on the nose of a bracket closes the arc and compresses its hollow side.
"""

from __future__ import annotations

import math
from typing import Annotated

import numpy as np

from ...calc.core import Number, cos, formula, sin, valid
from ...calc.ranges import Finite, NotNegative, Positive, at_least, at_most, between, checked, inside, shown

BAR = "curved-bar theory (Winkler-Bach)"
FIT = "fit to plane stress models"
RADIAL = "NDS 2018 5.4.1"
ENERGY = "curved-bar theory (Castigliano)"

Tight = Annotated[Number, at_most("0.55 * r_m", because="the tightest arc that was modeled")]


def neutral_radius(d: float, r_o: float, r_i: float) -> float:
    """Radius of the layer that a moment alone leaves unstressed: d over the logarithm of r_o/r_i, inches.

    Floats or arrays. Beside the formulas, since they know no logarithm. Curved-bar theory (Winkler-Bach), memory.
    """
    r_i, r_o = checked("r_i", r_i, Positive, BAR), checked("r_o", r_o, Positive, BAR)
    because = f"the depth d must be r_o less r_i, given{shown(d)}"
    d = valid(checked("d", d, Positive, BAR), abs(d - (r_o - r_i)) <= 1e-9 * r_o, because, BAR)
    radius: float = d / np.log(r_o / r_i)
    return radius


@formula(symbol="sigma_i", clause=BAR, unit="psi", known="memory")
def curved_inner_stress(
    M: Finite, N: Finite, A: Positive, e_c: Positive, r_n: Annotated[Number, at_least("r_i")], r_i: Positive
) -> Number:
    """Stress along the hollow side of a bent bar.

    Wood whose grain follows the arc gives more: `grain_following_factor`.

    >>> round(curved_inner_stress(-259.808, -86.603, 3.0, 0.11461, 2.88539, 2.0), 1)
    -363.4
    """
    return N / A + M * (r_n - r_i) / (A * e_c * r_i)


@formula(symbol="k_g", clause=FIT, unit="", known="derived")
def grain_following_factor(d: Tight, r_m: Positive) -> Number:
    """Factor on the stress at the hollow side of a bent bar whose grain follows the arc.

    For moduli along and across the grain about 15 to 20 apart; rests on two models, d/r_m 0.22 and 0.55.

    >>> round(grain_following_factor(2.0, 9.0), 4)
    1.0889
    """
    return 1 + 0.4 * (d / r_m)


@formula(symbol="f_r", clause=RADIAL, unit="psi", known="memory")
def radial_stress(M: NotNegative, r_m: Positive, t: Positive, d: Positive) -> Number:
    """Largest stress across a bent bar, at the middle of its depth.

    Plane stress models gave 0.98 to 1.06 of it.
    f_r: tension when the moment straightens the arc, compression when it closes it.

    >>> round(radial_stress(779.42, 9.0, 1.5, 2.0), 2)
    43.3
    """
    return 3 * M / (2 * r_m * t * d)


@formula(symbol="g_a", clause="geometry of the circle", unit="in", known="derived")
def arc_off_wall(
    r_o: Positive, s_f: Annotated[Number, between(0, "r_o", because="no arc is higher above its foot")]
) -> Number:  # fmt: skip
    """How far the full side of an arc that leaves the wall upright stands off it.

    s_f: above the foot of the arc.

    >>> round(arc_off_wall(10.5, 2.0), 4)
    0.1922
    """
    return r_o - (r_o**2 - s_f**2) ** 0.5


@formula(symbol="k_n", clause=ENERGY, unit="lbf/in", known="derived")
def curved_bar_stiffness(
    E_L: Positive, G_LT: Positive, A: Positive, r_m: Positive, e_c: Annotated[Number, inside(0, "r_m")],
    phi_b: Annotated[Number, between(1, 180, "deg")],
) -> Number:  # fmt: skip
    """Force at the nose of a bent bar, square to it there, over the nose's movement; the other end is held fast.

    Bending, force along the bar and their mixed term, and shear with 1.2. Plane stress models gave 0.93 to 0.99 of it:
    an upper value.

    >>> round(curved_bar_stiffness(1.6e6, 615384.6, 3.0, 3.0, 0.1146099, 90.0))
    71996
    """
    half, both = math.pi * phi_b / 360, sin(phi_b) * cos(phi_b) / 2
    bending = (half - both) * (r_m / e_c - 1) / E_L
    return A / (r_m * (bending + 1.2 * (half + both) / G_LT))
