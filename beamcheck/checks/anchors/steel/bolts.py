"""The steel of an anchor group: its bolts, and the bearing of these on a plate (AISC 360-16 ASD; no C_D on steel)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....calc.core import Number, smallest
from ....calc.pad import Pad
from ....errors import OutOfRange
from ....formulas.steel import bolts, holes
from ....formulas.wood.section import round_area
from ....model.anchors.anchor import Fastener, Plate
from ....model.links.hardware import diameter
from ....records import dataclass
from ....values.hardware.steels import Steel, bolt_grades, bolt_steel, steel
from ...core.result import Check
from ...core.wood.govern import Criterion, govern, out_of_range
from ...core.wood.strength import Outcome
from ..couple import Couple
from ..fasteners.spread import Spread
from ..group import Group
from ..unsaid import Open
from .plate import plate_checks

Array = np.ndarray
NO_C_D = "steel takes no factor for duration"
SCREW_STEEL = (
    "The steel of lag screws, wood screws and nails in pull is not checked: their standards name no steel. In shear "
    "the yield modes of NDS 2018 chapter 12 count it."
)


def steel_checks(
    group: Group, spread: Spread, couple: Couple | None = None, *, threads_clear: bool = False, off: float = 0.0
) -> list[Check]:
    """Bolts and pins in shear and pull; then the plate at its holes, as a bar, and its weld.

    `couple`: what pulls on the fasteners along their axes. `threads_clear`: whether the threads are clear of the shear
    planes. `off`: how far the load lies beside the plate [in].
    """
    anchor, fastener = group.anchor, group.anchor.fastener
    if fastener is None:
        return []
    found: list[Check] = []
    if fastener.kind in ("bolt", "pin"):
        found += _bolt_checks(group, fastener, spread, couple, threads_clear)
    if group.made.plates and anchor.plate is not None:
        found += [
            _at_holes(group, fastener, anchor.plate, spread),
            *plate_checks(group, anchor.plate, diameter_of(group), off),
        ]
    return found


def diameter_of(group: Group) -> float:
    """Nominal diameter of the fasteners, inches."""
    fastener = group.anchor.fastener
    assert fastener is not None
    return diameter(fastener.kind, fastener.size)


@dataclass(frozen=True)
class _Strength:
    """Nominal strengths of a bolt, written down, psi."""

    F_nt: Number
    F_nv: Number


def _strength(pad: Pad, fastener: Fastener, clear: bool) -> _Strength:
    """By the table of bolts, or from F_u of the bar that a pin is made of."""
    grade = fastener.steel or ""
    where = "threads clear of the plane" if clear else "threads taken in the plane"
    if grade.casefold() in map(str.casefold, bolt_grades()):
        found = bolt_steel(grade)
        shear = found.value.F_nv_threads_out if clear else found.value.F_nv_threads_in
        F_nt = pad.take("F_nt", found.value.F_nt, "psi", note=found.reason, source=found.source)
        return _Strength(F_nt, pad.take("F_nv", shear, "psi", note=where, source=found.source))
    bar = steel(grade)
    F_u = pad.take("F_u", bar.value.F_u, "psi", note=bar.reason, source=bar.source)
    F_nv = pad(bolts.shank_shear_strength if clear else bolts.threaded_shear_strength, note=where, F_u=F_u)
    return _Strength(pad(bolts.threaded_tension_strength, F_u=F_u), F_nv)


def _bolt_checks(
    group: Group, fastener: Fastener, spread: Spread, couple: Couple | None, clear: bool
) -> Iterator[Check]:
    """Each bolt has its share of the group; the worst decides."""
    name, what, id = group.name, f"shear of the {fastener.kind}s", "anchor.bolt_shear"
    if not fastener.steel:
        text = f"the grade of the {fastener.kind}s is not given (`fastener.steel`): their steel cannot be checked"
        yield group.refers(id, what, bolts.STRENGTH, Open(text, "bolt_grade", "fastener.steel"))
        return
    planes, k, D = float(group.made.planes), spread.worst, diameter_of(group)
    criterion = Criterion(name, what, bolts.STRENGTH, "force", group.name_of(k), (NO_C_D,), id=id)

    def sheared(pad: Pad, which: int | slice) -> Outcome:
        P = spread.force(pad, group, k, which)
        A_b = pad(round_area, symbol="A_b", D=D)
        V_a = pad(bolts.bolt_shear, F_nv=_strength(pad, fastener, clear).F_nv, A_b=A_b, n=planes)
        return Outcome(P, V_a, P / V_a)

    yield govern(criterion, group.forces.combinations, sheared)
    if couple is None or float(np.max(couple.each)) <= 0.0:
        return
    m = couple.worst
    criterion = Criterion(
        name, f"pull on the {fastener.kind}s with shear", bolts.BOTH, "force", group.name_of(m), (NO_C_D,),
        id="anchor.bolt_pull",
    )  # fmt: skip

    def pulled(pad: Pad, which: int | slice) -> Outcome:
        T = couple.pull(pad, m, which)
        P = spread.force(pad, group, m, which)
        strength, A_b = _strength(pad, fastener, clear), pad(round_area, symbol="A_b", D=D)
        f_rv = pad(bolts.bolt_shear_stress, V=P / planes, A_b=A_b)
        F_nt = pad(bolts.bolt_tension_with_shear, F_nt=strength.F_nt, F_nv=strength.F_nv, f_rv=f_rv)
        T_a = pad(bolts.bolt_tension, F_nt=F_nt, A_b=A_b)
        return Outcome(T, T_a, T / T_a)

    yield govern(criterion, group.forces.combinations, pulled)


@dataclass(frozen=True)
class Margins:
    """How far the holes are from the edges of the plate and from each other, inches.

    The plate is taken to lie with the rows in the middle of its width, and to reach beyond the last column by half of
    what the columns leave of its length, but by no more than is left when it begins at the end of the held piece.
    """

    across: float
    along: float
    apart: float | None


def margins_of(group: Group, plate: Plate) -> Margins:
    """Distances in the plate. Raises OutOfRange if the holes do not lie in the plate."""
    x, y = group.x, group.y
    across = 0.5 * (plate.width - float(np.ptp(y)))
    along = min(0.5 * (plate.length - float(np.ptp(x))), plate.length - float(np.max(x)))
    if min(across, along) <= 0.5 * float(holes.standard_hole(diameter_of(group))):
        raise OutOfRange(
            f"the holes do not lie in the plate of {plate.width:g} in by {plate.length:g} in, which is taken to "
            "begin at the end of the held piece", holes.HOLE,
        )  # fmt: skip
    apart = [float(np.hypot(x[i] - x[j], y[i] - y[j])) for i in range(x.size) for j in range(i)]
    return Margins(across, along, min(apart, default=None))


def _at_holes(group: Group, fastener: Fastener, plate: Plate, spread: Spread) -> Check:
    """Bearing and tear-out at the fastener that pushes hardest, towards the nearest edge whichever way it pushes."""
    plates, k, D = float(group.made.plates), spread.worst, diameter_of(group)
    criterion = Criterion(
        group.name, "bearing and tear-out of the plate", holes.HOLE, "force", group.name_of(k), (NO_C_D,),
        id="anchor.plate_holes",
    )  # fmt: skip
    try:
        margins = margins_of(group, plate)
    except OutOfRange as error:
        return out_of_range(criterion, error)
    text = (
        "the nearest edge and the nearest other hole count, whichever way the fastener pushes. From the middle of a "
        f"hole to the edges of the plate there must be {margins.across:.4g} in across the piece and "
        f"{margins.along:.4g} in along it: drill it so"
    )
    criterion = replace(criterion, notes=(text, NO_C_D))

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        P = spread.force(pad, group, k, which)
        F_u = steel_of(pad, plate).F_u
        d_h = pad(holes.standard_hole, D=D)
        l_c = pad(holes.clear_to_edge, l_end=min(margins.across, margins.along), d_h=d_h)
        if margins.apart is not None:
            l_c = smallest(l_c, pad(holes.clear_to_next, s=margins.apart, d_h=d_h))
        bears = pad(holes.plate_bearing, D=D, t=plate.thickness, F_u=F_u)
        R_a = smallest(bears, pad(holes.plate_tear_out, l_c=l_c, t=plate.thickness, F_u=F_u))
        R_a = pad.take("R_a", R_a * plates, "lbf", note="the lesser" + (", of both plates" if plates > 1 else ""))
        return Outcome(P, R_a, P / R_a)

    return govern(criterion, group.forces.combinations, calculate)


def steel_of(pad: Pad, plate: Plate) -> Steel:
    """The steel of a plate, written down."""
    found = steel(plate.steel)
    pad.take("F_y", found.value.F_y, "psi", note=found.reason, source=found.source)
    pad.take("F_u", found.value.F_u, "psi", note=found.reason, source=found.source)
    return found.value
