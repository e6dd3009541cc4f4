"""A lateral design value from end to end: bearing strengths, reduction terms, all yield modes, the least of them.

Written on a pad step by step, or with `SilentPad` over arrays: one layout to an element, no loop. `D` is the diameter
used in the equations (the full one, or the root D_r where threads bear: NDS 2018 12.3.7), `D_nom` the nominal one.
`OutOfRange` where a number does not fit the rules.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from ...calc.core import Number, smallest
from ...calc.pad import Pad
from ...records import dataclass
from . import dowel_bearing as bearing
from .ranges import LARGE, WOOD
from .yield_modes import double_shear as double
from .yield_modes import gap, terms
from .yield_modes import single_shear as single

SINGLE = ("Im", "Is", "II", "IIIm", "IIIs", "IV")
DOUBLE = ("Im", "Is", "IIIs", "IV")
ROUNDED = "to the nearest 50 psi, as the table prints it"


@dataclass(frozen=True)
class Yield:
    """Reference lateral design value of one fastener.

    `Z`: the least of the modes, lbf. `modes`: mode ('Im', 'Is', 'II', 'IIIm', 'IIIs', 'IV') to its value, lbf.
    """

    Z: Number
    modes: Mapping[str, Number]

    @property
    def mode(self) -> Any:
        """The mode that governs: a name, or an array of names ('' where there is no value)."""
        names, values = np.array(list(self.modes)), np.stack(np.broadcast_arrays(*self.modes.values()))
        found = np.where(np.isnan(values).any(axis=0), "", names[np.argmin(values, axis=0)])
        return str(found) if found.ndim == 0 else found


def wood_bearing(pad: Pad, *, G: Number, D_nom: Number, theta: Number, end_grain: bool = False) -> Number:
    """Dowel bearing strength of a wood member, psi, from strengths rounded as NDS 2018 Table 12.3.3 prints them.

    `pad`: where the steps are written. `G`: specific gravity. `D_nom`: nominal diameter, in: below 1/4 in the direction
    does not matter. An array needs a silent pad. `theta`: angle between load and grain, deg. `end_grain`: the fastener
    stands in end grain: across the grain, whatever theta (12.3.3.4).
    """
    if isinstance(D_nom, np.ndarray):
        small = bearing.as_tabulated(bearing.dowel_bearing_small(G))
        return np.where(D_nom < LARGE, small, _large(pad, G, D_nom, theta, end_grain))
    if D_nom < LARGE:
        return _tabulated(pad, "F_e", pad(bearing.dowel_bearing_small, G=G))
    return _large(pad, G, D_nom, theta, end_grain)


def single_shear(
    pad: Pad, *, D: Number, D_nom: Number, l_m: Number, l_s: Number, F_em: Number, F_es: Number, F_yb: Number,
    theta: Number,
) -> Yield:  # fmt: skip
    """Reference lateral design value in one shear plane, NDS 2018 Table 12.3.1A.

    `pad`: where the steps are written. `D`, `D_nom`: diameter used in the equations, and nominal, in. `l_m`, `l_s`:
    bearing lengths in the main and in the side member, in. `F_em`, `F_es`: dowel bearing strengths at the angle of the
    load, psi. `F_yb`: bending yield strength of the fastener, psi. `theta`: largest angle of load to grain in any
    member, deg.
    """
    R_I, R_II, R_III = _reductions(pad, D, D_nom, theta)
    R_e = pad(terms.bearing_strength_ratio, F_em=F_em, F_es=F_es)
    R_t = pad(terms.bearing_length_ratio, l_m=l_m, l_s=l_s)
    k_1 = pad(terms.yield_coefficient_1, R_e=R_e, R_t=R_t)
    k_2 = pad(terms.yield_coefficient_2, R_e=R_e, F_yb=F_yb, D=D, F_em=F_em, l_m=l_m)
    k_3 = pad(terms.yield_coefficient_3, R_e=R_e, F_yb=F_yb, D=D, F_em=F_em, l_s=l_s)
    modes = {
        "Im": pad(single.single_shear_Im, D=D, l_m=l_m, F_em=F_em, R_d_I=R_I),
        "Is": pad(single.single_shear_Is, D=D, l_s=l_s, F_es=F_es, R_d_I=R_I),
        "II": pad(single.single_shear_II, k_1=k_1, D=D, l_s=l_s, F_es=F_es, R_d_II=R_II),
        "IIIm": pad(single.single_shear_IIIm, k_2=k_2, D=D, l_m=l_m, F_em=F_em, R_e=R_e, R_d_III=R_III),
        "IIIs": pad(single.single_shear_IIIs, k_3=k_3, D=D, l_s=l_s, F_em=F_em, R_e=R_e, R_d_III=R_III),
        "IV": pad(single.single_shear_IV, D=D, F_em=F_em, F_yb=F_yb, R_e=R_e, R_d_III=R_III),
    }
    return Yield(pad(single.single_shear, **_named(modes)), modes)


def double_shear(
    pad: Pad, *, D: Number, D_nom: Number, l_m: Number, l_s: Number, F_em: Number, F_es: Number, F_yb: Number,
    theta: Number,
) -> Yield:  # fmt: skip
    """Reference lateral design value in two shear planes, both side members alike: NDS 2018 Table 12.3.1A.

    Parameters as for `single_shear`; `l_s` is the length in one side member. Of unlike side members give the smaller
    length with the smaller strength: the weaker side stands for both.
    """
    R_I, _, R_III = _reductions(pad, D, D_nom, theta, two_planes=True)
    R_e = pad(terms.bearing_strength_ratio, F_em=F_em, F_es=F_es)
    k_3 = pad(terms.yield_coefficient_3, R_e=R_e, F_yb=F_yb, D=D, F_em=F_em, l_s=l_s)
    modes = {
        "Im": pad(double.double_shear_Im, D=D, l_m=l_m, F_em=F_em, R_d_I=R_I),
        "Is": pad(double.double_shear_Is, D=D, l_s=l_s, F_es=F_es, R_d_I=R_I),
        "IIIs": pad(double.double_shear_IIIs, k_3=k_3, D=D, l_s=l_s, F_em=F_em, R_e=R_e, R_d_III=R_III),
        "IV": pad(double.double_shear_IV, D=D, F_em=F_em, F_yb=F_yb, R_e=R_e, R_d_III=R_III),
    }
    return Yield(pad(double.double_shear, **_named(modes)), modes)


def shear_across_gap(
    pad: Pad, *, two_planes: bool, D_m: Number, D_s: Number, D_nom: Number, l_m: Number, l_s: Number, F_em: Number,
    F_es: Number, F_yb: Number, theta: Number, g: Number,
) -> Yield:  # fmt: skip
    """Reference lateral design value of a fastener across a gap, general dowel equations (TR12).

    `pad`: where the steps are written. `two_planes`: two shear planes with the same gap at both (of unlike gaps the
    larger), or one. `D_m`, `D_s`: diameter in the main and in the side member, in: the root where threads bear. `g`:
    gap between the faces, in. Plaster, board, lath and air are gap. The others as for `single_shear`.
    """
    R_I, R_II, R_III = _reductions(pad, smallest(D_m, D_s), D_nom, theta, two_planes=two_planes)
    q_m = pad(gap.bearing_per_length, symbol="q_m", F_e=F_em, D=D_m)
    q_s = pad(gap.bearing_per_length, symbol="q_s", F_e=F_es, D=D_s)
    M_m = pad(gap.dowel_yield_moment, symbol="M_m", F_yb=F_yb, D=D_m)
    M_s = pad(gap.dowel_yield_moment, symbol="M_s", F_yb=F_yb, D=D_s)
    once = gap.gap_value
    each = gap.gap_value_two_planes if two_planes else once
    P_Im = pad(gap.gap_mode_Im, q_m=q_m, l_m=l_m)
    P_Is = pad(gap.gap_mode_Is, q_s=q_s, l_s=l_s)
    P_IIIs = pad(gap.gap_mode_IIIs, q_m=q_m, q_s=q_s, l_s=l_s, g=g, M_m=M_m)
    P_IV = pad(gap.gap_mode_IV, q_m=q_m, q_s=q_s, g=g, M_m=M_m, M_s=M_s)
    modes = {"Im": pad(once, symbol="Z_Im", P=P_Im, R_d=R_I), "Is": pad(each, symbol="Z_Is", P=P_Is, R_d=R_I)}
    if not two_planes:
        P_II = pad(gap.gap_mode_II, q_m=q_m, q_s=q_s, l_m=l_m, l_s=l_s, g=g)
        P_IIIm = pad(gap.gap_mode_IIIm, q_m=q_m, q_s=q_s, l_m=l_m, g=g, M_s=M_s)
        modes["II"] = pad(once, symbol="Z_II", P=P_II, R_d=R_II)
        modes["IIIm"] = pad(once, symbol="Z_IIIm", P=P_IIIm, R_d=R_III)
    modes["IIIs"] = pad(each, symbol="Z_IIIs", P=P_IIIs, R_d=R_III)
    modes["IV"] = pad(each, symbol="Z_IV", P=P_IV, R_d=R_III)
    least = double.double_shear if two_planes else single.single_shear
    return Yield(pad(least, **_named(modes)), modes)


def _named(modes: Mapping[str, Number]) -> dict[str, Number]:
    return {f"Z_{mode}": value for mode, value in modes.items()}


def _reductions(
    pad: Pad, D: Number, D_nom: Number, theta: Number, *, two_planes: bool = False
) -> tuple[Number, Number, Number]:
    """R_d of modes I, II and III; that of mode II is left out (0) where two planes have no such mode."""
    K_theta = pad(terms.angle_coefficient, theta=theta)
    R_I = pad(terms.reduction_term_I, D=D, D_nom=D_nom, K_theta=K_theta)
    R_II = 0.0 if two_planes else pad(terms.reduction_term_II, D=D, D_nom=D_nom, K_theta=K_theta)
    return R_I, R_II, pad(terms.reduction_term_III_IV, D=D, D_nom=D_nom, K_theta=K_theta)


def _large(pad: Pad, G: Number, D_nom: Number, theta: Number, end_grain: bool) -> Number:
    across = _tabulated(pad, "F_e_perp", pad(bearing.dowel_bearing_perpendicular, G=G, D=D_nom))
    if end_grain:
        return across
    along = _tabulated(pad, "F_e_par", pad(bearing.dowel_bearing_parallel, G=G))
    return pad(bearing.dowel_bearing_at_angle, F_e_par=along, F_e_perp=across, theta=theta)


def _tabulated(pad: Pad, symbol: str, exact: Number) -> Number:
    return pad.take(symbol, bearing.as_tabulated(exact), "psi", clause=WOOD, note=ROUNDED)
