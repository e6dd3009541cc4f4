"""Single values of heavy joints: one peg, the distances it needs, one group of bolts in a plate that is turned.

As in `single.py` a value is no verdict. Values of pegs rest on memory and are for screening only.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from .calc.pad import Pad
from .errors import BeamcheckError
from .formulas.connections import bolt_pattern as pattern
from .formulas.connections import dowel_bearing, lateral, yield_terms
from .formulas.joints import peg_modes, pegs
from .single import SingleValue
from .units import read, show
from .values.pegs import PegDistances
from .values.pegs import peg_distances as listed_distances
from .values.species import specific_gravity

SCREENING = "from memory: for screening, until the printed standard confirms it"


def _gravity(wood: float | str) -> float:
    return float(specific_gravity(wood)[0]) if isinstance(wood, str) else float(wood)


def peg_value(
    diameter: object, *, peg: float | str, timber: float | str, tenon: object, cheek: object,
    tenon_angle: object = "0 deg", cheek_angle: object = "90 deg",
) -> SingleValue:  # fmt: skip
    """Reference value of one hardwood peg through a tenon and both cheeks, before any factor.

    Parameters
    ----------
    diameter, tenon, cheek : str or pint quantity
        Of the peg; thickness of the tenon and of the thinner cheek.
    peg, timber : str or float
        Species, or specific gravity. Of tenon and mortised piece of different species the lighter one.
    tenon_angle, cheek_angle : str or pint quantity
        Angle between load and grain in the tenon and in the mortised piece.

    Returns
    -------
    SingleValue
        lbf; the note names the mode and says that it is for screening.

    Raises
    ------
    BeamcheckError
        If a species is not in the tables, a unit is missing, or a number is outside what was tested.
    """
    pad, D, G_p, G_t = Pad(), float(read(diameter, "length")), _gravity(peg), _gravity(timber)
    l_m, l_s = float(read(tenon, "length")), float(read(cheek, "length"))
    angles = [float(read(angle, "angle")) for angle in (tenon_angle, cheek_angle)]
    if l_m < 1.5:
        raise BeamcheckError(f"the tenon is {show(l_m, 'length')} thick: pegs were tested in 1 1/2 in and thicker")
    if l_s < l_m:
        raise BeamcheckError(
            f"the cheek is {show(l_s, 'length')} and the tenon {show(l_m, 'length')} thick: cheeks thinner than the "
            "tenon split; no value"
        )
    along = pad(pegs.peg_bearing_parallel, G_p=G_p)
    across = pad(pegs.peg_bearing_perpendicular, G_p=G_p, G_t=G_t)
    F_em, F_es = (
        float(pad(dowel_bearing.dowel_bearing_at_angle, symbol=symbol, F_e_par=along, F_e_perp=across, theta=angle))
        for symbol, angle in zip(("F_em", "F_es"), angles, strict=True)
    )
    F_yb = pad(pegs.peg_bending_yield, G_p=G_p)
    F_vy = pad(pegs.peg_shear_strength, G_p=G_p, G_t=G_t)
    K_theta = pad(yield_terms.angle_coefficient, theta=max(angles))
    R_e = pad(yield_terms.bearing_strength_ratio, F_em=F_em, F_es=F_es)
    k_3 = pad(peg_modes.peg_hinge_coefficient, R_e=R_e, F_yb=F_yb, D=D, F_em=F_em, l_s=l_s)
    modes = {
        "Im": pad(peg_modes.peg_Im, D=D, l_m=l_m, F_em=F_em, K_theta=K_theta),
        "Is": pad(peg_modes.peg_Is, D=D, l_s=l_s, F_es=F_es, K_theta=K_theta),
        "IIIs": pad(peg_modes.peg_IIIs, k_3=k_3, D=D, l_s=l_s, F_em=F_em, R_e=R_e, K_theta=K_theta),
        "IV": pad(peg_modes.peg_IV, D=D, F_em=F_em, F_yb=F_yb, R_e=R_e, K_theta=K_theta),
        "V": pad(peg_modes.peg_V, D=D, F_vy=F_vy),
    }
    Z = pad(peg_modes.peg_value, **{f"Z_{mode}": value for mode, value in modes.items()})
    mode = min(modes, key=lambda each: float(modes[each]))
    return SingleValue("lateral value of one peg", float(Z), "force", tuple(pad.steps), f"mode {mode}; {SCREENING}")


def peg_distances(species: str) -> PegDistances:
    """Least distances of pegs in a frame of that species, as multiples of the peg's diameter.

    Parameters
    ----------
    species : str
        Of the frame. A species without a row of its own gets the largest of all.

    Raises
    ------
    UnknownName
        If no table knows the species.
    """
    return listed_distances(species)


@dataclass(frozen=True)
class TurnedGroup:
    """A group of bolts in a slotted-in plate under a load off its middle: the bolt that is worst off for its value.

    `forces` lbf, `angles` to the grain in degrees and `values` Z lbf of every bolt (no factor but that of angle);
    `ratio` the largest force over value, `worst` which bolt.
    """

    forces: tuple[float, ...]
    angles: tuple[float, ...]
    values: tuple[float, ...]
    worst: int
    ratio: float


def turned_group(
    *, x: Sequence[object], y: Sequence[object], level: object = "0 lb", upright: object = "0 lb",
    moment: object = "0 lb*in", grain: object = "0 deg", bolt: object, cheek: object, plate: object,
    wood: float | str, F_yb: float = 45000.0, F_plate: float = 87000.0, slot: object | None = None,
) -> TurnedGroup:  # fmt: skip
    """Elastic forces on the bolts of a plate in a slot, each against its own value at its own angle to the grain.

    Ask once for each member that the plate joins, with that member's grain: the worst bolt of one is seldom that of
    the other, and it is the ratio that counts, not the largest force.

    Parameters
    ----------
    x, y : list of str or pint quantity
        Places of the bolts, x to the right, y up.
    level, upright, moment : str or pint quantity
        Load on the group at its middle, along x and y; the moment turns x towards y (counter-clockwise).
    grain : str or pint quantity
        Angle of the grain to x: '0 deg' for a level beam, '90 deg' for a post.
    bolt, cheek, plate : str or pint quantity
        Diameter; thickness of the thinner cheek and of the plate.
    wood : str or float
        Species, or specific gravity.
    F_yb, F_plate : float
        Bending yield of the bolt and bearing strength of the plate, psi.
    slot : str or pint quantity, optional
        Width of the slot: what it is wider than the plate counts as a gap on both sides.

    Returns
    -------
    TurnedGroup
        Without C_D, C_M, C_g and C_delta.

    Raises
    ------
    BeamcheckError
        If a unit is missing, there is no bolt, all are in one place under a moment, or a number is outside the rules.
    """
    D, l_s, t = (float(read(value, "length")) for value in (bolt, cheek, plate))
    g = 0.0 if slot is None else float(read(slot, "length")) - t
    if g < 0.0:
        raise BeamcheckError("the slot is narrower than the plate: it must be as wide or wider")
    V, H, M = (float(read(v, k)) for v, k in ((upright, "force"), (level, "force"), (moment, "moment")))
    xs, ys = pattern.about_centroid([float(read(at, "length")) for at in x], [float(read(at, "length")) for at in y])
    n, I_p = float(len(xs)), float(pattern.polar_sum(xs, ys))
    if I_p == 0.0 and M != 0.0:
        raise BeamcheckError("all bolts are in one place: they hold no moment; give the moment to another group")
    turning = I_p or 1.0
    P_x = np.array([float(pattern.fastener_force_x(H, n, M, float(at), turning)) for at in ys])
    P_y = np.array([float(pattern.fastener_force_y(V, n, M, float(at), turning)) for at in xs])
    forces = np.asarray(pattern.fastener_force(P_x, P_y), dtype=float)
    angles = pattern.angle_to_grain(P_x, P_y, float(read(grain, "angle")))
    values = [_plate_value(D, l_s, t, _gravity(wood), float(a), F_yb, F_plate, g) if f > 0 else np.inf
              for f, a in zip(forces, angles, strict=True)]  # fmt: skip
    ratios = forces / np.array(values)
    worst = int(np.argmax(ratios))
    forces_, angles_, values_ = (tuple(map(float, each)) for each in (forces, angles, values))
    return TurnedGroup(forces_, angles_, values_, worst, float(ratios[worst]))


def _plate_value(
    D: float, l_s: float, t: float, G: float, theta: float, F_yb: float, F_plate: float, g: float
) -> float:
    """Z of a bolt through a plate in a slot: the plate is the main member, the cheeks the side members."""
    pad = Pad()
    F_es = lateral.wood_bearing(pad, G=G, D_nom=D, theta=theta)
    common: dict[str, Any] = {"D_nom": D, "l_m": t, "l_s": l_s, "F_em": F_plate, "F_es": F_es, "F_yb": F_yb}
    if g > 0.0:
        return float(lateral.shear_across_gap(pad, two_planes=True, D_m=D, D_s=D, theta=theta, g=g, **common).Z)
    return float(lateral.double_shear(pad, D=D, theta=theta, **common).Z)
