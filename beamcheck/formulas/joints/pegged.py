"""The value of one peg from end to end: strengths of peg and timber, all five modes, the least of them. From memory."""

from __future__ import annotations

from ...calc.core import Number
from ...calc.pad import Pad
from ..connections import dowel_bearing
from ..connections.lateral import Yield
from ..connections.yield_modes import terms as yield_terms
from . import peg_modes, pegs


def peg_in_double_shear(
    pad: Pad, *, D: float, G_p: float, G_t: float, l_m: float, l_s: float, theta_m: float, theta_s: float
) -> Yield:  # fmt: skip
    """Reference value of one peg through a tenon and both cheeks.

    `pad`: where the steps are written. `D`, `l_m`, `l_s`: diameter of the peg; thickness of the tenon and of the
    thinner cheek, in. `G_p`, `G_t`: specific gravity of peg and timber. `theta_m`, `theta_s`: angle between load and
    grain in the tenon and in the mortised piece, deg.
    """
    along = pad(pegs.peg_bearing_parallel, G_p=G_p)
    across = pad(pegs.peg_bearing_perpendicular, G_p=G_p, G_t=G_t)
    F_em, F_es = (
        pad(dowel_bearing.dowel_bearing_at_angle, symbol=symbol, F_e_par=along, F_e_perp=across, theta=angle)
        for symbol, angle in (("F_em", theta_m), ("F_es", theta_s))
    )
    F_yb, F_vy = pad(pegs.peg_bending_yield, G_p=G_p), pad(pegs.peg_shear_strength, G_p=G_p, G_t=G_t)
    K_theta = pad(yield_terms.angle_coefficient, theta=max(theta_m, theta_s))
    R_e = pad(yield_terms.bearing_strength_ratio, F_em=F_em, F_es=F_es)
    k_3 = pad(peg_modes.peg_hinge_coefficient, R_e=R_e, F_yb=F_yb, D=D, F_em=F_em, l_s=l_s)
    modes: dict[str, Number] = {
        "Im": pad(peg_modes.peg_Im, D=D, l_m=l_m, F_em=F_em, K_theta=K_theta),
        "Is": pad(peg_modes.peg_Is, D=D, l_s=l_s, F_es=F_es, K_theta=K_theta),
        "IIIs": pad(peg_modes.peg_IIIs, k_3=k_3, D=D, l_s=l_s, F_em=F_em, R_e=R_e, K_theta=K_theta),
        "IV": pad(peg_modes.peg_IV, D=D, F_em=F_em, F_yb=F_yb, R_e=R_e, K_theta=K_theta),
        "V": pad(peg_modes.peg_V, D=D, F_vy=F_vy),
    }
    return Yield(pad(peg_modes.peg_value, **{f"Z_{mode}": value for mode, value in modes.items()}), modes)
