"""The joint of a group: which member is the main one, which the side, how long the fastener bears in each of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ...calc.core import Number, largest
from ...calc.pad import Pad, SilentPad
from ...errors import OutOfRange
from ...formulas.connections import dowel_bearing as bearing
from ...formulas.connections import dowel_lengths as ln
from ...formulas.connections import gap as gaps
from ...formulas.connections.lateral import Yield, double_shear, shear_across_gap, single_shear, wood_bearing
from ...formulas.connections.toe_nails import toe_nail_main_length, toe_nail_side_length
from ...model.anchors import Plate
from ...model.pieces import Stock
from ...units import show
from ...values.connections import connection_limit
from ...values.lumber import read_size
from ...values.steels import other_bearing, steel
from ..core.material import WoodMaterial
from .fastener import Dowel, NotSaid, dowel_of
from .group import Group
from .wood import gravity

COVERED = (
    "wood side", "plate one side", "plates both sides", "concealed plate", "ledger", "let-in angle", "toe-nails",
)  # fmt: skip
LEAST_UNDER_BORE = 1.5  # in of wood under the washer in a bore: judgement, no source
CONCRETE = "concrete, 2500 psi or more"
HAIR = 1e-6  # in, of rounding in sums of lengths
Grain = Literal["held", "along", "across", "end"]


@dataclass(frozen=True)
class Part:
    """One member of the joint; `length` is how long the fastener bears in it (in one of two side members), in.

    `grain` is that of the member against the grain of the held piece; 'held' is the held piece itself.
    """

    name: str
    material: Literal["wood", "steel", "concrete"]
    length: float
    grain: Grain = "held"
    G: float = 0.0
    F_e: float = 0.0
    why: str = ""
    wood: WoodMaterial | None = None
    stock: Stock | None = None

    def angle(self, theta: Number) -> Number:
        """Angle of the load to this member's grain, from that to the grain of the held piece, deg."""
        if self.grain == "end":
            return 0.0 * theta + 90.0
        return 90.0 - theta if self.grain == "across" else theta

    def bearing(self, pad: Pad, dowel: Dowel, theta: Number, symbol: str) -> Number:
        """Dowel bearing strength, psi."""
        if self.material != "wood":
            return pad.take(symbol, self.F_e, "psi", note=self.why)
        G = pad.take("G", self.G, note=f"{self.name}: {self.why}")
        F_e = wood_bearing(pad, G=G, D_nom=dowel.D, theta=self.angle(theta), end_grain=self.grain == "end")
        return pad.take(symbol, F_e, "psi", note=self.name)


@dataclass(frozen=True)
class Joint:
    """Main and side member, shear planes, gap (in); `penetration` of a fastener that has a point, in.

    `doubts` keep the group from passing; `faults` fail it: (what, clause, text). `held` is the held piece's own length
    of bearing in all, in; `bored` what the bores take of its breadth, `slot` what the slot does.
    """

    dowel: Dowel
    main: Part
    side: Part
    two_planes: bool
    gap: float
    held: float
    slot: float = 0.0
    bored: float = 0.0
    penetration: float | None = None
    doubts: tuple[str, ...] = ()
    faults: tuple[tuple[str, str, str], ...] = ()

    @property
    def parts(self) -> tuple[Part, Part]:
        return self.main, self.side

    @property
    def woods(self) -> list[Part]:
        return [part for part in self.parts if part.material == "wood"]

    @property
    def other(self) -> Part:
        """The member that is not the held piece."""
        return self.side if self.main.grain == "held" and self.main.material == "wood" else self.main

    @property
    def end_grain(self) -> bool:
        return any(part.grain == "end" for part in self.woods)

    @property
    def wood_length(self) -> float:
        """Length l of l/D: the lesser of main and all side members, wood only, in."""
        lengths = [self.main.length] if self.main.material == "wood" else []
        if self.side.material == "wood":
            lengths.append(self.side.length * (2 if self.two_planes else 1))
        return min(lengths)

    def theta(self, theta: Number) -> Number:
        """Largest angle of the load to the grain in any member, deg."""
        angles = [part.angle(theta) for part in self.woods]
        return largest(*angles) if len(angles) > 1 else angles[0]

    def reference(self, pad: Pad, theta: Number) -> Yield:
        """Reference lateral value of one fastener, lbf, at an angle `theta` (deg) to the grain of the held piece."""
        dowel = self.dowel
        lengths = {
            "l_m": pad.take("l_m", self.main.length, "in", note=f"in the {self.main.name}"),
            "l_s": pad.take("l_s", self.side.length, "in", note=f"in the {self.side.name}"),
        }
        D = pad.take("D", dowel.D_calc, "in", note=dowel.why_D, source=dowel.source)
        F_yb = pad.take("F_yb", dowel.F_yb, "psi", note=dowel.why_F_yb, source=dowel.source_F_yb)
        strengths = {
            "F_em": self.main.bearing(pad, dowel, theta, "F_em"),
            "F_es": self.side.bearing(pad, dowel, theta, "F_es"),
        }
        most = pad.take("theta", self.theta(theta), "deg", note="largest angle of load to grain in any member")
        if self.gap > 0.0:
            return shear_across_gap(
                pad, two_planes=self.two_planes, D_m=D, D_s=D, D_nom=dowel.D, **lengths, **strengths, F_yb=F_yb,
                theta=most, g=pad.take("g", self.gap, "in", note="gap between the faces"),
            )  # fmt: skip
        run = double_shear if self.two_planes else single_shear
        return run(pad, D=D, D_nom=dowel.D, **lengths, **strengths, F_yb=F_yb, theta=most)


def joint_of(group: Group) -> Joint:
    """Make out main and side member and the bearing lengths.

    Raises
    ------
    NotSaid
        If something without which there is no value is not given.
    UnknownName, OutOfRange
        If a size or grade is not in the tables, or the parts do not fit each other.
    """
    anchor = group.anchor
    if anchor.fastener is None:
        raise NotSaid("no fastener is described (`fastener`)")
    if group.section.round:
        raise NotSaid("a round piece: the rules for edges and faces do not hold, an engineer must judge the joint")
    dowel = dowel_of(anchor.fastener)
    doubts, bore = list(dowel.doubts), _bore(group)
    if dowel.kind == "pin":
        doubts.append("pins without heads do not hold the parts together: at least two bolts must clamp the joint")
    maker = {
        "wood side": _wood_side, "ledger": _wood_side, "plate one side": _plate_one_side,
        "let-in angle": _plate_one_side, "plates both sides": _plates_both_sides, "concealed plate": _concealed_plate,
        "toe-nails": _toe_nails,
    }.get(anchor.manner)  # fmt: skip
    if maker is None:
        raise NotSaid(f"manner {anchor.manner!r} has no wood joint with fasteners of its own")
    joint = maker(group, dowel, bore, doubts)
    if joint.gap > float(gaps.widest_gap(dowel.D)):
        doubts.append(
            f"a gap of {show(joint.gap, 'length')} is wider than 2 D = {show(2 * dowel.D, 'length')}: the reduction "
            "terms are for closed joints; an engineer's case"
        )
    return Joint(**{**joint.__dict__, "doubts": tuple(dict.fromkeys(doubts))})


def held_part(group: Group, length: float, doubts: list[str]) -> Part:
    """The held piece as a member of the joint."""
    G, why = gravity(group.stock, group.wood, f"{group.piece}", doubts)
    return Part(f"held piece {group.piece}", "wood", length, "held", G, why=why, wood=group.wood, stock=group.stock)


def other_part(group: Group, length: float, doubts: list[str]) -> Part:
    """The wood or concrete on the other side."""
    other = group.anchor.other
    if other is None:
        raise NotSaid("the member on the other side is not described (`other`)")
    name = group.anchor.into or "other member"
    if other.material == "concrete":
        doubts.append(
            "into concrete: only the wood side has a value here; the anchor in the concrete goes by its own report"
        )
        found = other_bearing(CONCRETE)
        return Part(name, "concrete", length, other.grain, F_e=found.value, why=found.reason)
    G, why = gravity(group.into_stock, group.into_wood, name, doubts)
    if other.stock is not None and group.into_stock is not None:
        size = read_size(group.into_stock.size)
        if min(abs(other.thickness - side) for side in (size.b, size.d)) > 0.25:
            doubts.append(f"the thickness given for {name} is that of neither side of its stock {size.text!r}")
    return Part(name, "wood", length, other.grain, G, why=why, wood=group.into_wood, stock=group.into_stock)


def steel_part(plate: Plate, length: float) -> Part:
    """A plate as a member of the joint."""
    found = steel(plate.steel)
    if found.value.rolled == "hot-rolled":
        F_e, why = float(bearing.steel_bearing_hot_rolled(found.value.F_u)), f"1.5 F_u of {plate.steel}"
    else:  # the tables print 61,850 for the cold-formed grade they know: never more than that
        printed = other_bearing("A653 Grade 33 sheet, cold-formed").value
        exact = float(bearing.steel_bearing_cold_formed(found.value.F_u))
        F_e, why = (printed if abs(exact - printed) < 50.0 else exact), f"1.375 F_u of {plate.steel}, as printed"
    return Part(f"plate {plate.steel}", "steel", length, F_e=F_e, why=why)


def pin_share(pad: Pad, Z: Number) -> Number:
    """What a headless pin counts of a bolt's value."""
    share = connection_limit("headless pin, share of the bolt value")
    k = pad.take("k_pin", share.value, note=share.reason, source=share.source)
    return pad.take("Z", k * Z, "lbf", note="headless pin")


def _bore(group: Group) -> float:
    fastener = group.anchor.fastener
    assert fastener is not None
    if fastener.counterbore is None and fastener.counterbore_depth is None:
        return 0.0
    if fastener.counterbore is None or fastener.counterbore_depth is None:
        raise NotSaid("a counterbore needs both its diameter and its depth (`counterbore`, `counterbore_depth`)")
    return fastener.counterbore_depth


def _left(whole: float, *taken: float) -> float:
    left = whole - sum(taken)
    if left <= HAIR:
        raise OutOfRange(f"no wood is left of {whole:g} in: slot, bores and plate take {sum(taken):g} in", "geometry")
    return left


def _plate(group: Group) -> Plate:
    if group.anchor.plate is None:
        raise NotSaid("the plate is not described (`plate`)")
    return group.anchor.plate


def _grip(dowel: Dowel, grip: float, room: float, faults: list[tuple[str, str, str]]) -> None:
    """Whether a bolt or pin of the given length fits: head to nut, and within the bores where it is to be hidden.

    A nut is about as high as the bolt is thick (common practice).
    """
    if dowel.length is None:
        return
    needed = grip + (2 * dowel.washer_thickness + dowel.D if dowel.kind == "bolt" else 0.0)
    what, clause = f"length of the {dowel.kind}", "NDS 2018 12.1.3"
    if dowel.length < needed - HAIR:
        parts = " with washers and a nut" if dowel.kind == "bolt" else ""
        faults.append((what, clause, f"{show(dowel.length, 'length')} is too short: the parts{parts} need "
                       f"{show(needed, 'length')}"))  # fmt: skip
    elif dowel.length > room + HAIR:
        faults.append((what, clause, f"{show(dowel.length, 'length')} is too long: it comes out of the face, there is "
                       f"room for {show(room, 'length')}"))  # fmt: skip


def _point(
    group: Group, dowel: Dowel, crossed: float, more: float, thickness: float, faults: list[tuple[str, str, str]]
) -> tuple[float, float]:
    """Bearing length and penetration in the member that holds the point."""
    assert dowel.length is not None
    pad = SilentPad()
    p = float(pad(ln.penetration, L_f=dowel.length, l_s=crossed, t_w=more))
    least = float(dowel.least_penetration(pad))
    what, clause = f"penetration of the {dowel.kind}", dowel.penetration_clause
    if min(p, thickness) < least - HAIR:
        faults.append((what, clause, f"{show(min(p, thickness), 'length')} in the member that holds the point, at "
                       f"least {show(least, 'length')} asked for: no lateral value"))  # fmt: skip
    if p > thickness + HAIR:
        faults.append((f"length of the {dowel.kind}", clause, f"{show(dowel.length, 'length')} is too long: the point "
                       f"comes out by {show(p - thickness, 'length')}"))  # fmt: skip
    return min(float(dowel.main_length(pad, p)), thickness), min(p, thickness)


def _wood_side(group: Group, dowel: Dowel, bore: float, doubts: list[str]) -> Joint:
    other, b, gap = group.anchor.other, float(group.section.b), max(group.anchor.gap, 0.0)
    if other is None:
        raise NotSaid("the member on the other side is not described (`other`)")
    faults: list[tuple[str, str, str]] = []
    held = _left(b, bore)
    if dowel.through and other.material == "wood":
        main, p = _left(other.thickness, bore if dowel.kind == "bolt" else 0.0), None
        room = b + other.thickness + gap if bore or dowel.kind == "pin" else float("inf")
        _grip(dowel, held + gap + main, room, faults)
    elif dowel.through:  # an anchor in concrete: as deep as is given
        main, p = other.thickness, None
    else:
        washer = dowel.washer_thickness if dowel.kind == "lag screw" else 0.0
        main, p = _point(group, dowel, held, washer + gap, other.thickness, faults)
    return Joint(
        dowel, other_part(group, main, doubts), held_part(group, held, doubts), False, gap, held, bored=bore,
        penetration=p, faults=tuple(faults),
    )  # fmt: skip


def _plate_one_side(group: Group, dowel: Dowel, bore: float, doubts: list[str]) -> Joint:
    plate, b, gap = _plate(group), float(group.section.b), max(group.anchor.gap, 0.0)
    let_in = plate.thickness if group.anchor.manner == "let-in angle" else 0.0
    faults: list[tuple[str, str, str]] = []
    p: float | None = None
    if dowel.through:
        held = _left(b, bore, let_in)
        room = b + plate.thickness - let_in + gap if bore else float("inf")
        _grip(dowel, held + plate.thickness + gap, room, faults)
    else:
        if bore:
            doubts.append("a counterbore under a head that bears on steel: it takes no wood, see whether it is meant")
        washer = dowel.washer_thickness if dowel.kind == "lag screw" else 0.0
        held, p = _point(group, dowel, plate.thickness, washer + gap, _left(b, let_in), faults)
    return Joint(
        dowel, held_part(group, held, doubts), steel_part(plate, plate.thickness), False, gap, held, slot=let_in,
        bored=bore if dowel.through else 0.0, penetration=p, faults=tuple(faults),
    )  # fmt: skip


def _plates_both_sides(group: Group, dowel: Dowel, bore: float, doubts: list[str]) -> Joint:
    plate, b, gap = _plate(group), float(group.section.b), max(group.anchor.gap, 0.0)
    _needs_through(dowel)
    if bore:
        doubts.append("a counterbore where both heads bear on steel: it takes no wood, see whether it is meant")
    faults: list[tuple[str, str, str]] = []
    _grip(dowel, b + 2 * (plate.thickness + gap), float("inf"), faults)
    return Joint(
        dowel, held_part(group, b, doubts), steel_part(plate, plate.thickness), True, gap, b, faults=tuple(faults)
    )


def _concealed_plate(group: Group, dowel: Dowel, bore: float, doubts: list[str]) -> Joint:
    plate, b = _plate(group), float(group.section.b)
    _needs_through(dowel)
    if plate.slot is None:
        doubts.append("the width of the slot is not given (`plate.slot`): a snug one is taken, for information")
    slot = plate.thickness if plate.slot is None else plate.slot
    g = max(float(gaps.slot_gap(slot, plate.thickness)), group.anchor.gap)
    bores = bore if dowel.kind == "bolt" else 0.0  # pins are driven through: plugs over their ends are no bores
    cheek = _left(b, slot, 2 * bores) / 2
    if dowel.kind == "pin":
        cheek = _left(b, slot, 2 * bore) / 2
        if dowel.length is not None:
            cheek = min(cheek, _left(dowel.length, slot) / 2)
    faults: list[tuple[str, str, str]] = []
    _grip(dowel, slot + 2 * cheek, b, faults) if bore or dowel.kind == "pin" else _grip(dowel, b, float("inf"), faults)
    return Joint(
        dowel, steel_part(plate, plate.thickness), held_part(group, cheek, doubts), True, g, 2 * cheek, slot=slot,
        bored=2 * bore, faults=tuple(faults),
    )  # fmt: skip


def _toe_nails(group: Group, dowel: Dowel, bore: float, doubts: list[str]) -> Joint:
    other, b, gap = group.anchor.other, float(group.section.b), max(group.anchor.gap, 0.0)
    if dowel.kind != "nail":
        raise NotSaid(f"toe-nails are nails, not a {dowel.kind}: a {dowel.kind} driven aslant is an engineer's case")
    if other is None:
        raise NotSaid("the member on the other side is not described (`other`)")
    assert dowel.length is not None
    pad, faults = SilentPad(), []
    p = float(pad(toe_nail_main_length, L_f=dowel.length))
    least = float(dowel.least_penetration(pad))
    if p < least - HAIR:
        faults.append(("penetration of the toe-nails", dowel.penetration_clause,
                       f"{show(p, 'length')} in the main member, at least {show(least, 'length')} asked"))  # fmt: skip
    if p > other.thickness + HAIR:
        faults.append(("length of the toe-nails", dowel.penetration_clause, "too long: the points come out"))
    if other.grain == "end":
        doubts.append("toe-nails into end grain: an engineer must judge them")
    side = float(pad(toe_nail_side_length, t_s=b, L_f=dowel.length))
    main = float(dowel.main_length(pad, p))  # half the tip left out: the safe reading of the commentary
    return Joint(
        dowel, other_part(group, main, doubts), held_part(group, side, doubts), False, gap, side, penetration=p,
        faults=tuple(faults),
    )  # fmt: skip


def _needs_through(dowel: Dowel) -> None:
    if not dowel.through:
        raise NotSaid(f"two shear planes need bolts or pins right through, not a {dowel.kind}: an engineer's case")
