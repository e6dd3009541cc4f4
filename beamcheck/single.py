"""Single values for an engineer: one fastener, one design value, one row, one beam, each with its steps and units.

They run the very functions that fill a sheet. A value is no verdict: who uses it answers for what it is used for.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Literal

import numpy as np

from .analysis.frames.beam_frame import LineLoad, PointLoad
from .analysis.frames.member_line import straight_beam
from .calc.pad import Pad, Step
from .checks.anchors.fastener import dowel_of
from .checks.core.result import CAUTION, SIGN_OFF
from .checks.core.wood import material
from .errors import BeamcheckError, OutOfRange
from .formulas.connections import group_action as action
from .formulas.connections import lateral
from .formulas.connections import withdrawal as pull
from .formulas.wood.section import rectangle_inertia
from .model.anchors.anchor import Fastener
from .model.stock import Stock
from .records import dataclass
from .units import KINDS, read, show, to_pint
from .values.factors import load_duration
from .values.hardware.steels import bearing_materials, other_bearing
from .values.lumber import read_size
from .values.species import specific_gravity

Property = Literal[
    "bending", "tension", "shear", "bearing across the grain", "compression", "modulus", "modulus for stability"
]
Wooden = Stock | str  # a stock of the job file, or a species by name


@dataclass(frozen=True)
class SingleValue:
    """A value in its inner unit with the steps that led to it; `float()`, `.text` and `.quantity` hand it out."""

    what: str
    value: float
    kind: str
    steps: tuple[Step, ...]
    note: str = ""

    @property
    def unit(self) -> str:
        """The inner unit: psi, lbf, in ..."""
        return KINDS[self.kind].inner

    @property
    def text(self) -> str:
        """For people: '1,240 lb'."""
        return show(self.value, self.kind)

    @property
    def quantity(self) -> Any:
        """As a pint quantity."""
        return to_pint(self.value, self.kind)

    def __float__(self) -> float:
        return self.value

    def __repr__(self) -> str:
        note = f"\n  {self.note}" if self.note else ""
        steps = "".join(
            f"\n  {step.symbol} = {step.value:.6g} {step.unit}".rstrip() + f"  ({step.clause or step.note})"
            for step in self.steps
        )
        return f"{self.what}: {self.text}{note}{steps}\nCaution: {CAUTION}\n{SIGN_OFF}"


def design_value(stock: Stock, of: Property, *, duration: str = "D", laid: str = "on edge") -> SingleValue:
    """An adjusted design value of a stock with its factors (NDS 2018 Table 4.3.1), C_L and C_P left at 1.

    Parameters
    ----------
    stock : Stock
        Species, grade, size and moisture as in a job file.
    of : str
        'bending', 'tension', 'shear', 'bearing across the grain', 'compression', 'modulus', 'modulus for stability'.
    duration : str
        The load of shortest duration that acts: 'D', 'L', 'S', 'Lr', 'W'. Bearing and moduli take no C_D.
    laid : 'on edge' or 'flat'

    Returns
    -------
    SingleValue
        psi.

    Raises
    ------
    BeamcheckError
        If the tables have no such wood.
    """
    wood = material.wood_of(stock, material.reference_values(stock), laid=laid)
    pad = Pad()
    found = load_duration(duration)
    C_D = pad.take("C_D", found.value, note=found.reason, source=found.source)
    ways = {
        "bending": lambda: material.bending_star(pad, wood, C_D),
        "tension": lambda: material.tension_prime(pad, wood, C_D),
        "shear": lambda: material.shear_prime(pad, wood, C_D),
        "bearing across the grain": lambda: material.bearing_prime(pad, wood, 1.0),
        "compression": lambda: material.compression_star(pad, wood, C_D),
        "modulus": lambda: material.modulus_prime(pad, wood),
        "modulus for stability": lambda: material.modulus_min_prime(pad, wood),
    }
    if of not in ways:
        raise BeamcheckError(f"there is no design value {of!r}: one of {', '.join(ways)}")
    value = float(ways[of]())
    return SingleValue(
        f"{of} of {wood.label}", value, "stress", tuple(pad.steps), "; ".join(doubt.text for doubt in wood.doubts)
    )


def lateral_value(
    fastener: Fastener, *, main: Wooden, main_length: object, side: Wooden, side_length: object,
    main_angle: object = "0 deg", side_angle: object = "0 deg", planes: Literal[1, 2] = 1, end_grain: bool = False,
) -> SingleValue:  # fmt: skip
    """Reference lateral design value Z of one fastener (NDS 2018 12.3), before any factor.

    Parameters
    ----------
    fastener : Fastener
        Kind, size and, for screws, length, as in an `[[anchor]]` group.
    main, side : Stock or str
        Wood by stock or species; steel or concrete as `bearing_materials` of values/hardware/steels.py lists it.
    main_length, side_length : str or pint quantity
        Bearing length in each: thickness, or penetration less the tip where the standard deducts it.
    main_angle, side_angle : str or pint quantity
        Angle between load and grain.
    planes : 1 or 2
        Shear planes; with two both sides are alike.
    end_grain : bool
        The fastener stands in end grain of the main member; C_eg is not in the value.

    Returns
    -------
    SingleValue
        lbf; the note names the yield mode.

    Raises
    ------
    BeamcheckError
        If a name is not in the tables, a unit is missing, or a number is outside the rules.
    """
    dowel, pad = dowel_of(fastener), Pad()
    angles = [float(read(angle, "angle")) for angle in (main_angle, side_angle)]
    F_em = _bearing(pad, main, dowel.D, angles[0], end_grain)
    F_es = _bearing(pad, side, dowel.D, angles[1], False)
    rule = lateral.single_shear if planes == 1 else lateral.double_shear
    found = rule(
        pad, D=dowel.D_calc, D_nom=dowel.D, l_m=float(read(main_length, "length")),
        l_s=float(read(side_length, "length")), F_em=F_em, F_es=F_es, F_yb=dowel.F_yb,
        theta=90.0 if end_grain else max(angles),
    )  # fmt: skip
    what = f"lateral value of one {fastener.kind} {fastener.size}"
    return SingleValue(what, float(found.Z), "force", tuple(pad.steps), f"yield mode {found.mode}")


def withdrawal_value(fastener: Fastener, *, wood: Wooden, held: object) -> SingleValue:
    """Reference withdrawal design value of one fastener out of side grain (NDS 2018 12.2), before any factor.

    Parameters
    ----------
    fastener : Fastener
        A lag screw, wood screw or smooth nail.
    wood : Stock or str
    held : str or pint quantity
        Length that holds: thread in the wood less the tip (screws), penetration (nails).

    Returns
    -------
    SingleValue
        lbf.

    Raises
    ------
    BeamcheckError
        If the fastener has no withdrawal value, or a name or number is not in the rules.
    """
    rules = {"lag screw": pull.withdrawal_lag, "wood screw": pull.withdrawal_wood_screw, "nail": pull.withdrawal_nail}
    if fastener.kind not in rules:
        raise BeamcheckError(f"a {fastener.kind} has no withdrawal value: one of {', '.join(rules)}")
    dowel, pad = dowel_of(fastener), Pad()
    W = pad(rules[fastener.kind], G=_gravity(wood), D=dowel.D)
    value = pad(pull.withdrawal_value, W_prime=W, p_t=float(read(held, "length")))
    return SingleValue(f"withdrawal of one {fastener.kind} {fastener.size}", float(value), "force", tuple(pad.steps))


def group_action_factor(
    *, n: int, spacing: object, D: object, main: tuple[object, object], side: tuple[object, object],
    steel_side: bool = False,
) -> SingleValue:  # fmt: skip
    """C_g of a row of fasteners along the load (NDS 2018 11.3.6).

    Parameters
    ----------
    n : int
        Fasteners in the row.
    spacing, D : str or pint quantity
        From middle to middle, and diameter.
    main, side : tuple of two
        Modulus of elasticity and gross section area of each.
    steel_side : bool
        The side members are steel.

    Returns
    -------
    SingleValue
        A pure number.

    Raises
    ------
    BeamcheckError
        If a unit is missing or a number is outside the rule.
    """
    pad = Pad()
    E_m, E_s = (float(read(one[0], "stress")) for one in (main, side))
    A_m, A_s = (float(read(one[1], "area")) for one in (main, side))
    gamma = pad(action.load_slip_metal if steel_side else action.load_slip_wood, D=float(read(D, "length")))
    u = pad(
        action.group_u, gamma=gamma, s=float(read(spacing, "length")), E_m=E_m, A_m=A_m, E_s=E_s, A_s=A_s
    )  # fmt: skip
    R_EA = pad(action.stiffness_ratio, E_m=E_m, A_m=A_m, E_s=E_s, A_s=A_s)
    value = pad(action.group_action_factor, m=pad(action.group_m, u=u), n=float(n), R_EA=R_EA)
    return SingleValue(f"C_g of {n} in a row", float(value), "ratio", tuple(pad.steps))


@dataclass(frozen=True)
class SolvedBeam:
    """A straight beam under one set of loads: reactions lbf (up positive), largest moment and shear, deflection in."""

    reactions: tuple[float, ...]
    largest_moment: float
    least_moment: float
    largest_shear: float
    deflection: float

    def __repr__(self) -> str:
        rows = [
            f"reactions: {', '.join(show(one, 'force') for one in self.reactions)}",
            f"moment: {show(self.least_moment, 'moment')} to {show(self.largest_moment, 'moment')}",
            f"shear: {show(self.largest_shear, 'force')}",
            f"deflection: {show(self.deflection, 'small length')}",
        ]
        return "\n  ".join(["solved beam", *rows]) + f"\nCaution: {CAUTION}\n{SIGN_OFF}"


def solved_beam(
    length: object, *, supports: Sequence[object], size: str, E: object, even: object = None,
    points: Sequence[tuple[object, object]] = (),
) -> SolvedBeam:  # fmt: skip
    """A straight level beam on knife edges, shear deflection left out, by the frame solver that every check uses.

    Parameters
    ----------
    length : str or pint quantity
    supports : sequence
        Places along it, from the left end.
    size : str
        As in a job file: '6x10 dressed', '5 1/2 in x 9 1/4 in'.
    E : str or pint quantity
    even : str or pint quantity, optional
        A load per length over all of it, such as '200 plf'.
    points : sequence of (place, force)

    Returns
    -------
    SolvedBeam

    Raises
    ------
    BeamcheckError
        If a unit is missing or the beam can move freely.
    """
    section = read_size(size)
    L = float(read(length, "length"))
    EI = float(read(E, "stress")) * float(rectangle_inertia(b=section.b, d=section.d))
    loads: list[LineLoad | PointLoad] = [
        PointLoad(float(read(at, "length")), float(read(P, "force"))) for at, P in points
    ]
    if even is not None:
        loads.append(LineLoad(0.0, L, w := float(read(even, "line load")), w))
    places = [float(read(at, "length")) for at in supports]
    try:
        found = straight_beam(L, [(at, "roller") for at in places], [loads], EI)
    except (ValueError, ArithmeticError) as error:
        raise OutOfRange(f"this beam cannot be solved: {error}") from None
    low, _, high, _ = found.line.extremes("M")
    shear = found.line.extremes("V")
    v = found.line.extremes("v")
    return SolvedBeam(
        tuple(float(one) for one in np.atleast_2d(found.reactions[0])[:, 1]), float(np.max(high)), float(np.min(low)),
        float(max(np.max(shear[2]), -np.min(shear[0]))), float(-np.min(v[0])),
    )  # fmt: skip


def _gravity(wood: Wooden) -> float:
    if isinstance(wood, Stock):
        G = material.reference_values(wood).G
        return float(G if G is not None else specific_gravity(wood.species)[0])
    return float(specific_gravity(wood)[0])


def _bearing(pad: Pad, member: Wooden, D: float, angle: float, end_grain: bool) -> float:
    if isinstance(member, str) and member in bearing_materials():
        found = other_bearing(member)
        return float(pad.take("F_e", found.value, "psi", note=found.reason, source=found.source))
    return float(lateral.wood_bearing(pad, G=_gravity(member), D_nom=D, theta=angle, end_grain=end_grain))
