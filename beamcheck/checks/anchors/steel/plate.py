"""A steel plate or the leg of an angle as a bar: pull, shear, block shear, bending, its weld (AISC 360-16 ASD)."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np

from ....calc.core import Number, smallest, sqrt
from ....calc.pad import Pad
from ....formulas.steel import bending as bend
from ....formulas.steel import holes, plates
from ....formulas.wood.section import rectangle_modulus
from ....model.anchors.anchor import Plate
from ....records import dataclass
from ....units import show
from ....values.hardware.steels import least_fillet, steel
from ....values.judgment import judgment
from ...core.result import Check
from ...core.wood.govern import Criterion, at, govern
from ...core.wood.strength import Outcome
from ..group import Group
from ..unsaid import Open

Array = np.ndarray
NO_C_D = "steel takes no factor for duration"
LITTLE = 1.0  # lbf: less is rounding
HAIR = 1e-6
TWISTS = 1.9  # times E over F_y: slenderness up to which F11.2 has a value for a bar on edge
TOGETHER = "AISC Manual part 10 (extended plates)"


@dataclass(frozen=True, eq=False)
class _Loaded:
    """A plate with the forces on one of `n` alike, (combinations,): across V, pull N, pressing C, moment M at its base.

    `free` is the length between what holds the plate sideways, `rows` and `columns` count its holes; `edge_y`, `edge_x`
    are from the outermost holes to the edges, `span_y`, `span_x` between the outermost holes, inches.
    """

    group: Group
    plate: Plate
    D: float
    V: Array
    N: Array
    C: Array
    M: Array
    free: float
    rows: int
    columns: int
    edge_y: float
    edge_x: float
    span_y: float
    span_x: float
    on_edge: bool  # the moment bends it in its own plane
    off: float  # from its middle to that of the load, square to it

    def check(self, id: str, what: str, clause: str, force: Array, allowed: Callable[[Pad], Number]) -> Check:
        """One force on one plate against one allowable force."""
        criterion = Criterion(self.group.name, f"plate: {what}", clause, "force", notes=(NO_C_D,), id=id)

        def calculate(pad: Pad, which: int | slice) -> Outcome:
            R = pad.take("R", at(force, which), "lbf", note="on one plate, from the analysis")
            R_a = allowed(pad)
            return Outcome(R, R_a, R / R_a)

        return govern(criterion, self.group.forces.combinations, calculate)

    def net_hole(self, pad: Pad) -> Number:
        return pad(holes.net_hole_width, d_h=pad(holes.standard_hole, D=self.D))

    @property
    def F_y(self) -> float:
        return steel(self.plate.steel).value.F_y

    @property
    def F_u(self) -> float:
        return steel(self.plate.steel).value.F_u


def plate_checks(group: Group, plate: Plate, D: float, off: float) -> list[Check]:
    """Every check of the plate but bearing and tear-out at single holes; `off` is how far a load lies beside it, in.

    The moment is that where the other side takes the load: `arm` from the middle of the group, and at least at the end
    of the held piece, where the plate comes out of it, even when the fasteners are worked out without a moment.
    """
    n, arm = float(group.made.plates), group.arm
    across, along = np.asarray(group.forces.across, float) / n, np.asarray(group.forces.along, float) / n
    found: list[Check] = []
    if arm is None and float(np.max(np.abs(across))) > LITTLE:
        text = "how far the load is from the line that takes it is not given (`arm`): bending is not checked"
        answers = ("0 in", show(float(np.mean(group.x)), "length"))
        found.append(
            group.refers("anchor.plate_bending", "plate: bending", bend.BAR, Open(text, "arm", "arm", answers))
        )
    x, y = group.x, group.y
    behind = 0.0 if group.anchor.back is None else group.anchor.back.clear
    e = max(abs(arm or 0.0), float(np.mean(x)) + behind)
    aside = abs(0.5 * float(group.section.d) - float(np.mean(y)))  # a pull acts in the middle of the piece's depth
    first = float(np.mean(x)) if group.made.in_a_slot else float(np.mean(x) - np.min(x))
    turning = np.zeros_like(across) if group.forces.turning is None else np.abs(group.forces.turning) / n
    loaded = _Loaded(
        group, plate, D, V=np.abs(across), N=np.maximum(along, 0.0), C=np.maximum(-along, 0.0),
        M=np.abs(across) * e + np.maximum(along, 0.0) * aside + turning, free=e - first,
        rows=len(group.rows), columns=int(group.column.max(initial=0)) + 1,
        edge_y=0.5 * (plate.width - float(np.ptp(y))),
        edge_x=min(0.5 * (plate.length - float(np.ptp(x))), plate.length - float(np.max(x))),
        span_y=float(np.ptp(y)), span_x=float(np.ptp(x)), on_edge=not group.made.let_in, off=off,
    )  # fmt: skip
    if min(loaded.edge_x, loaded.edge_y) <= 0.5 * float(holes.standard_hole(D)):
        return found  # the holes are outside the plate, or run out of it: said where they bear on it
    return [
        *found, *_lies(group, plate), *_near_edges(loaded), *_sections(loaded), *_blocks(loaded), *_bending(loaded),
        *_pressed(loaded), *_twisted(loaded), *_weld(loaded),
    ]  # fmt: skip


def _lies(group: Group, plate: Plate) -> Iterator[Check]:
    """A plate that is longer than its slot, and a gap that does not fit the slot."""
    if plate.slot_length is not None and plate.slot_length < plate.length - HAIR:
        text = (
            f"the plate is {show(plate.length, 'length')} long and its slot {show(plate.slot_length, 'length')}: how "
            "much of it lies in the wood, and how far it stands out, is not given"
        )
        answers = (show(plate.length, "length"),)
        open_ = Open(text, "slot_length", "plate.slot_length", answers)
        yield group.refers("anchor.slot", "plate in its slot", "geometry", open_)
    if plate.slot is not None and group.anchor.gap > max(plate.slot - plate.thickness, 0.0) + HAIR:
        text = (
            f"a gap of {show(group.anchor.gap, 'length')} does not fit a slot of {show(plate.slot, 'length')} with a "
            f"plate of {show(plate.thickness, 'length')} in it"
        )
        yield group.refers("anchor.slot", "gap beside the plate", "geometry", Open(text, "slot_gap", "gap", ("0 in",)))


def _near_edges(one: _Loaded) -> Iterator[Check]:
    """Holes near the edge of the plate."""
    least = judgment("hole from the edge of a plate")
    if min(one.edge_y, one.edge_x) < least.value * one.D - HAIR:
        text = (
            f"{show(min(one.edge_y, one.edge_x), 'length')} from the middle of a hole to the edge of the plate; less "
            f"than {least.value:g} times the diameter is not taken here"
        )
        what, clause = "holes near the edge of the plate", "AISC 360-16 Table J3.4 (memory)"
        yield one.group.refers("anchor.plate_edge", what, clause, Open(text, "plate_edge"))


def _sections(one: _Loaded) -> Iterator[Check]:
    """Shear and pull on the whole section and on that through the holes."""
    t, w = one.plate.thickness, one.plate.width

    def net(pad: Pad) -> Number:
        left = pad.take("w_n", w - one.rows * one.net_hole(pad), "in", note="width less one hole in each row")
        return pad.take("A_n", left * t, "in2")

    if float(np.max(one.V)) > LITTLE:
        yield one.check("anchor.plate_shear", "shear, whole section", plates.SHEAR, one.V,
                        lambda pad: pad(plates.shear_yield, F_y=one.F_y, A_gv=w * t))  # fmt: skip
        yield one.check("anchor.plate_shear_net", "shear through the holes", plates.SHEAR, one.V,
                        lambda pad: pad(plates.shear_rupture, F_u=one.F_u, A_nv=net(pad)))  # fmt: skip
    if float(np.max(one.N)) > LITTLE:
        yield one.check("anchor.plate_pull", "pull, whole section", plates.TENSION, one.N,
                        lambda pad: pad(plates.tension_yield, F_y=one.F_y, A_g=w * t))  # fmt: skip
        yield one.check("anchor.plate_pull_net", "pull through the holes", plates.TENSION, one.N,
                        lambda pad: pad(plates.tension_rupture, F_u=one.F_u, A_e=net(pad)))  # fmt: skip


def _blocks(one: _Loaded) -> Iterator[Check]:
    """A block that tears out: sheared along one line and pulled along the other, down under V or out under N."""
    t, uneven = one.plate.thickness, judgment("block shear, uneven pull").value

    def block(long: float, holes_in_shear: float, wide: float, holes_in_pull: float, lines: int, U_bs: float) -> (
        Callable[[Pad], Number]
    ):  # fmt: skip
        def allowed(pad: Pad) -> Number:
            d = one.net_hole(pad)
            A_gv = pad.take("A_gv", lines * long * t, "in2")
            A_nv = pad.take("A_nv", lines * (long - holes_in_shear * d) * t, "in2")
            A_nt = pad.take("A_nt", (wide - holes_in_pull * d) * t, "in2")
            return pad(plates.block_shear, F_y=one.F_y, F_u=one.F_u, A_gv=A_gv, A_nv=A_nv, A_nt=A_nt, U_bs=U_bs)

        return allowed

    if float(np.max(one.V)) > LITTLE:
        yield one.check(
            "anchor.plate_block", "block shear across the piece", plates.BLOCK, one.V,
            block(one.edge_y + one.span_y, one.rows - 0.5, one.edge_x + one.span_x, one.columns - 0.5, 1, uneven),
        )  # fmt: skip
    if float(np.max(one.N)) > LITTLE:
        long = one.edge_x + one.span_x
        if one.rows > 1:
            even = judgment("block shear, even pull").value
            allowed = block(long, one.columns - 0.5, one.span_y, one.rows - 1.0, 2, even)
        else:
            allowed = block(long, one.columns - 0.5, one.edge_y, 0.5, 1, uneven)
        yield one.check("anchor.plate_block", "block shear along the piece", plates.BLOCK, one.N, allowed)


def _modulus(pad: Pad, one: _Loaded) -> tuple[Number, Number, Number]:
    """Plastic and elastic modulus of the whole section, plastic modulus through the holes, in3."""
    t, w = one.plate.thickness, one.plate.width
    b, h = (t, w) if one.on_edge else (w, t)  # h lies in the plane of the load
    Z = pad(bend.bar_plastic_modulus, b=b, t=h)
    S = pad(rectangle_modulus, symbol="S_x", b=b, d=h)
    d = one.net_hole(pad)
    heights = [float(one.group.y[row[0]]) for row in one.group.rows]
    if one.on_edge:  # a hole in the middle takes t d^2/4, one off the middle t d times its distance: the sum is safe
        middle = float(np.mean(one.group.y))
        taken = sum(t * d * (abs(y - middle) + d / 4.0) for y in heights)
        Z_n = pad.take("Z_n", Z - taken, "in3", note="through the holes of all rows")
    else:
        Z_n = pad(bend.bar_plastic_modulus, symbol="Z_n", b=w - one.rows * d, t=t)
    return Z, S, Z_n


def _bending(one: _Loaded) -> Iterator[Check]:
    """The moment at the line that takes the load, on the whole section and through the holes; with pull and shear."""
    if float(np.max(one.M)) <= 0.0:
        return
    group, t, w = one.group, one.plate.thickness, one.plate.width
    if one.on_edge and one.free > 0.0:
        slender = float(bend.lateral_slenderness(one.free, w, t))
        limit = TWISTS * judgment("modulus of steel").value / one.F_y
        if slender > limit:
            text = (
                f"on edge and free over {one.free:.4g} in it is too slender ({slender:.4g}, at most {limit:.4g}): it "
                "would turn over sideways first. A thicker plate, less distance, or an engineer"
            )
            yield group.refers("anchor.plate_held", "plate: held sideways", bend.BAR, Open(text, "slender_plate"))
    notes = () if one.on_edge else ("the leg is taken to bend the flat way, its weak way",)
    criterion = Criterion(
        group.name, "plate: bending", bend.BAR, "moment", notes=(*notes, NO_C_D), id="anchor.plate_bending"
    )

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        M = pad.take(
            "M",
            at(one.M, which),
            "lbf*in",
            note="where the plate leaves the held piece, or at the end of its arm; on one plate",
        )
        M_a = _allowed_moment(pad, one)
        return Outcome(M, M_a, M / M_a)

    yield govern(criterion, group.forces.combinations, calculate)
    both = Criterion(
        group.name, "plate: bending, pull and shear together", TOGETHER, "ratio",
        notes=("the squares of two shares, of bending with pull and of shear: at most 1", NO_C_D),
        id="anchor.plate_together",
    )  # fmt: skip

    def together(pad: Pad, which: int | slice) -> Outcome:
        M, N, V = (
            pad.take(symbol, at(values, which), unit, note="on one plate")
            for symbol, values, unit in (("M", one.M, "lbf*in"), ("N", one.N, "lbf"), ("V", one.V, "lbf"))
        )
        M_a = _allowed_moment(pad, one)
        net = (w - one.rows * one.net_hole(pad)) * t
        P_a = smallest(
            pad(plates.tension_yield, F_y=one.F_y, A_g=w * t), pad(plates.tension_rupture, F_u=one.F_u, A_e=net)
        )
        V_a = smallest(
            pad(plates.shear_yield, F_y=one.F_y, A_gv=w * t), pad(plates.shear_rupture, F_u=one.F_u, A_nv=net)
        )
        used = pad.take("used", (M / M_a + N / P_a) ** 2 + (V / V_a) ** 2)
        return Outcome(used, 1.0, used)

    yield govern(both, group.forces.combinations, together)


def _allowed_moment(pad: Pad, one: _Loaded) -> Number:
    Z, S, Z_n = _modulus(pad, one)
    whole = pad(bend.bar_bending, F_y=one.F_y, Z_x=Z, S_x=S)
    M_a = smallest(whole, pad(bend.bar_bending_rupture, F_u=one.F_u, Z_x=Z_n))
    if one.on_edge and one.free > 0.0:
        E = judgment("modulus of steel").value
        slender = pad(bend.lateral_slenderness, L_b=one.free, d=one.plate.width, t=one.plate.thickness)
        if float(slender) > float(bend.lateral_slenderness_limit(E, one.F_y)):
            M_a = smallest(M_a, pad(bend.bar_that_twists, F_y=one.F_y, S_x=S, slenderness=slender, E_steel=E))
    return pad.take("M_a", M_a, "lbf*in", note="the lesser of the whole section and that through the holes")


def _pressed(one: _Loaded) -> Iterator[Check]:
    """Pressing along the piece: only while the free part of the plate is short."""
    if float(np.max(one.C)) <= LITTLE:
        return
    id, what = "anchor.plate_pressed", "plate: pressing along the piece"
    slender = judgment("K of a plate whose ends may shift").value * one.free / one.plate.thickness * np.sqrt(12.0)
    area, E = one.plate.width * one.plate.thickness, judgment("modulus of steel").value
    most = 4.71 * float(np.sqrt(E / one.F_y))  # AISC 360-16 E3; of every steel less than 200
    if slender > most:
        text = f"free over {one.free:.4g} in the plate is too slender a column ({slender:.3g}, at most {most:.4g})"
        yield one.group.refers(id, what, plates.BUCKLES, Open(text, "slender_plate"))
        return
    if slender > plates.SHORT_SLENDERNESS:
        yield one.check(
            id, what.removeprefix("plate: "), plates.BUCKLES, one.C,
            lambda pad: pad(plates.slender_compression, F_y=one.F_y, A_g=area, slenderness=slender, E_steel=E),
        )  # fmt: skip
        return
    yield one.check(id, what.removeprefix("plate: "), plates.SHORT, one.C,
                    lambda pad: pad(plates.short_compression, F_y=one.F_y, A_g=area))  # fmt: skip


def _twisted(one: _Loaded) -> Iterator[Check]:
    """A plate on one side, twisted by a load beside its plane: the shear of twist in a flat bar, 3 T over w t^2."""
    if one.off <= 0.0:
        return
    t, w = one.plate.thickness, one.plate.width
    what = "plate: twist by the load beside it"
    criterion = Criterion(one.group.name, what, plates.SHEAR, "stress", notes=(NO_C_D,), id="anchor.plate_twist")

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(one.V, which), "lbf", note="on one plate")
        T = pad.take("T_t", V * one.off, "lbf*in", note=f"{one.off:.4g} in beside the middle of the plate")
        f = pad.take("f_v", 3.0 * T / (w * t**2), "psi", note="3 T over w t^2, a flat bar in twist")
        allowed = pad.take("F_a", plates.shear_yield(F_y=one.F_y, A_gv=1.0), "psi", note="yield in shear, on 1 in2")
        return Outcome(f, allowed, f / allowed)

    yield govern(criterion, one.group.forces.combinations, calculate)


def _weld(one: _Loaded) -> Iterator[Check]:
    """Fillet welds on both faces over the width of the plate, as two lines: shear, and bending with pull."""
    leg, group = one.plate.weld, one.group
    if leg is None:
        return
    t, w, least = one.plate.thickness, one.plate.width, least_fillet(one.plate.thickness)
    if leg < least.value - HAIR:
        text = f"a leg of {leg:.4g} in is less than the least of {least.value:.4g} in for a part {t:.4g} in thick"
        clause = "AISC 360-16 Table J2.4"
        yield Check.breaks_rule("anchor.weld_leg", group.name, "weld: least leg", clause, text)
    if not one.on_edge:
        text = "a weld at the bend of an angle's leg is not checked here"
        yield group.refers("anchor.weld", "weld", plates.WELD, Open(text, "weld_of_an_angle"))
        return
    note = "two lines along the width; all taken along the weld, which is its weaker way"
    criterion = Criterion(group.name, "weld", plates.WELD, "line load", notes=(note, NO_C_D), id="anchor.weld")
    electrode = judgment("strength of the weld metal")

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(one.V, which), "lbf", note="on one plate")
        N = pad.take("N", at(np.maximum(one.N, one.C), which), "lbf", note="on one plate")
        M = pad.take("M", at(one.M, which), "lbf*in", note="at the weld")
        f_v = pad.take("f_v", V / (2 * w), "lbf/in", note="V over both lines")
        f_b = pad.take("f_b", 3 * M / w**2 + N / (2 * w), "lbf/in", note="M over S = 2 w^2/6 of the lines, and N")
        f_t = pad.take("f_t", 3 * V * one.off / w**2, "lbf/in", note="twist of the plate, over the ends of the lines")
        f = pad.take("f", sqrt(f_v**2 + f_b**2 + f_t**2), "lbf/in", note="on an inch of one weld")
        F_EXX = pad.take("F_EXX", electrode.value, "psi", source=electrode.source, note="must be so welded")
        metal = pad(plates.fillet_weld, F_EXX=F_EXX, w_leg=leg, L_w=1.0, theta_w=0.0)
        base = pad(plates.shear_rupture, F_u=one.F_u, A_nv=t / 2, note="of the plate, for an inch of one of two welds")
        f_a = pad.take("f_a", smallest(metal, base), "lbf/in", note="the lesser of weld and plate")
        return Outcome(f, f_a, f / f_a)

    yield govern(criterion, group.forces.combinations, calculate)
