"""Single values of heavy joints: one peg, the distances it needs, one group of bolts in a plate that is turned.

As in `single.py` a value is no verdict. Values of pegs rest on memory and are for screening only.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Literal

import numpy as np

from .calc.pad import Pad
from .errors import BeamcheckError, OutOfRange, UnknownName
from .formulas.connections import bolt_pattern as pattern
from .formulas.connections import lateral
from .formulas.joints import steps
from .formulas.joints.pegged import peg_in_double_shear
from .formulas.joints.pegs import PEGS
from .formulas.wood.bearing import bearing_at_angle
from .records import dataclass
from .single import SingleValue
from .units import read, show
from .values.hardware.pegs import PegDistances
from .values.hardware.pegs import peg_distances as listed_distances
from .values.judgment import judgment
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
    _within_what_was_tested(G_p, G_t, l_m)
    if l_s < l_m:
        raise BeamcheckError(
            f"the cheek is {show(l_s, 'length')} and the tenon {show(l_m, 'length')} thick: cheeks thinner than the "
            "tenon split; no value"
        )
    found = peg_in_double_shear(pad, D=D, G_p=G_p, G_t=G_t, l_m=l_m, l_s=l_s, theta_m=angles[0], theta_s=angles[1])
    return SingleValue(
        "lateral value of one peg", float(found.Z), "force", tuple(pad.steps), f"mode {found.mode}; {SCREENING}"
    )


def _within_what_was_tested(G_p: float, G_t: float, tenon: float) -> None:
    """Raises `OutOfRange` where nobody has tried pegs."""
    leanest, low, high, thinnest = (
        judgment(name).value
        for name in (
            "leanest peg", "lightest timber with pegs", "heaviest timber with pegs", "thinnest tenon with pegs"
        )
    )  # fmt: skip
    if G_p < max(leanest, G_t):
        raise OutOfRange(
            f"a peg of specific gravity {G_p:g} in timber of {G_t:g}: pegs are of hardwood of {leanest:g} and "
            "more, and not lighter than the timber", PEGS,
        )  # fmt: skip
    if not low <= G_t <= high:
        raise OutOfRange(
            f"timber of specific gravity {G_t:g}: pegs were tested in {low:g} to {high:g}; "
            "an engineer answers for others",
            PEGS,
        )
    if tenon < thinnest:
        raise OutOfRange(
            f"the tenon is {show(tenon, 'length')} thick: pegs were tested in {show(thinnest, 'length')} and thicker",
            PEGS,
        )


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


Face = Literal["bisector", "square to the rafter", "square to the tie"]


@dataclass(frozen=True)
class StepJoint:
    """A step joint by its ratios; no verdict. Lengths in, stresses psi, moment lbf in.

    `bearing` and `shear` are shares of what is allowed, `pressure` on the front face, `allowed_tie` and
    `allowed_rafter` against it, `length` that counts in shear, `deepest` the deepest notch that the angle allows,
    `moment` in the tie under the notch. `refused` says why it has no value as it is: nothing may pass then.
    """

    pressure: float
    allowed_tie: float
    allowed_rafter: float
    bearing: float
    length: float
    shear: float
    deepest: float
    moment: float
    refused: tuple[str, ...]


def step_joint(
    push: object, *, angle: object, width: object, notch: object, behind: object, tie_depth: object, F_c_star: object,
    F_c_perp: object, F_v: object, face: Face = "bisector", reaction_outward: object = "0 in",
) -> StepJoint:  # fmt: skip
    """The foot of a rafter or strut let into a tie, chord or post by a single step. Friction is not counted.

    Parameters
    ----------
    push : str or pint quantity
        In the rafter.
    angle : str or pint quantity
        Between rafter and tie.
    width, notch, behind, tie_depth : str or pint quantity
        Of the narrower piece; depth of the notch; from its root to the end of the tie; depth of the tie.
    F_c_star, F_c_perp, F_v : str or pint quantity
        Adjusted values of both pieces, the lower of each: along the grain without C_P, across it, in shear.
    face : 'bisector', 'square to the rafter' or 'square to the tie'
        How the front face is cut.
    reaction_outward : str or pint quantity
        From the middle of the foot outward to the reaction of the support; inward with a minus sign.

    Returns
    -------
    StepJoint

    Raises
    ------
    BeamcheckError
        If a unit is missing or a number is outside the rules.
    """
    N, beta = float(read(push, "force")), float(read(angle, "angle"))
    b, t_n, l_v, d = (float(read(one, "length")) for one in (width, notch, behind, tie_depth))
    F_c, F_perp, F_v_prime = (float(read(one, "stress")) for one in (F_c_star, F_c_perp, F_v))
    x_R = float(read(reaction_outward, "offset"))
    if face not in ("bisector", "square to the rafter", "square to the tie"):
        raise UnknownName("face of a step", face, ["bisector", "square to the rafter", "square to the tie"])
    pressed = steps.step_on_bisector if face == "bisector" else steps.step_square
    pressure = float(pressed(N, beta, b, t_n))
    in_tie, in_rafter = {
        "bisector": (beta / 2, beta / 2), "square to the rafter": (beta, 0.0), "square to the tie": (0.0, beta),
    }[face]  # fmt: skip
    tie, rafter = (float(bearing_at_angle(F_c, F_perp, at)) for at in (in_tie, in_rafter))
    T, V = N * float(np.cos(np.radians(beta))), N * float(np.sin(np.radians(beta)))
    deepest, refused = float(steps.deepest_step(d, beta)), []
    if t_n > deepest * (1 + 1e-9):
        refused.append(f"the notch is deeper than {show(deepest, 'length')}, the most at this angle")
    least = judgment("least length behind a step").value
    length = float(steps.step_shear_length(l_v, t_n)) if l_v >= least else 0.0
    if length == 0.0:
        refused.append(f"less than {show(least, 'length')} of wood behind the notch splits off")
    k_v = judgment("largest over mean shear behind a step").value
    shear = float(steps.step_shear(T, b, length, k_v)) / F_v_prime if length else np.inf
    return StepJoint(
        pressure, tie, rafter, pressure / min(tie, rafter), length, float(shear), deepest,
        float(steps.moment_under_step(T, d, V, x_R)), tuple(refused),
    )  # fmt: skip
