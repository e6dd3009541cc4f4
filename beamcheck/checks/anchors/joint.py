"""The joint of a group: which member is the main one, which the side, how long the fastener bears in each of them.

Which member is which belongs to the manner of anchoring: the joints are made in `manners/`, of the parts that are here.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Literal

from ...calc.core import Number, largest, smallest
from ...calc.pad import Pad, SilentPad
from ...errors import OutOfRange
from ...formulas.connections import dowel_bearing as bearing
from ...formulas.connections import dowel_lengths as ln
from ...formulas.connections.lateral import Yield, double_shear, shear_across_gap, single_shear, wood_bearing
from ...formulas.connections.yield_modes import gap as gaps
from ...model.anchors.anchor import Other, Plate
from ...model.roofs import Rafter
from ...model.stock import Stock
from ...records import dataclass
from ...units import show
from ...values.hardware.connections import connection_limit
from ...values.hardware.steels import other_bearing, steel
from ...values.judgment import judgment
from ...values.lumber import fallback, lowest, read_size, specific_gravity
from ..core.wood.material import WoodMaterial, is_unknown, rows_to_screen, wood_of
from .fastener import THREADED, Dowel
from .group import Group
from .unsaid import NotSaid, Open, grade_open

CONCRETE = "concrete, 2500 psi or more"
SHEET = "A653 Grade 33 sheet, cold-formed"
HAIR = 1e-6  # in, of rounding in sums of lengths
SAME_SIDE = 0.25  # in: as a side of the stock, when measured
GUESSED = ("grade", "other_stock", "gravity")  # questions of wood for which the lowest plausible stands in
Grain = Literal["held", "along", "across", "end", "into", "turned"]


@dataclass(frozen=True)
class Fault:
    """What keeps the joint from holding, whatever its figures."""

    id: str
    what: str
    clause: str
    text: str


@dataclass(frozen=True)
class Part:
    """One member of the joint; `length` is how long the fastener bears in it (in one of two side members), in.

    `grain` is that of the member against the grain of the held piece; 'held' is the held piece itself, 'into' the held
    piece with the fastener going along its grain; of the other member 'end' is that. A 'turned' one lies at an angle
    `turn` to the held piece, deg, from inwards along it toward its upper edge; with the distances that it has it is
    checked as a held piece of its own.
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
    turn: float = 0.0

    @property
    def is_held(self) -> bool:
        return self.material == "wood" and self.grain in ("held", "into")

    @property
    def end_grain(self) -> bool:
        """The fastener goes along its grain."""
        return self.grain in ("end", "into")

    def angle(self, theta: Number) -> Number:
        """Angle of the load to this member's grain, from that to the grain of the held piece, deg.

        Where a member is turned, `theta` has a sign: positive toward the upper edge of the held piece.
        """
        if self.end_grain:
            return 0.0 * theta + 90.0
        if self.grain == "turned":
            return abs((theta - self.turn + 90.0) % 180.0 - 90.0)
        if self.turn:  # a rafter said to run along a piece that it leans against: the worse of both ways to turn
            return smallest(abs(theta) + self.turn, 90.0)
        return 90.0 - theta if self.grain == "across" else abs(theta)

    def bearing(self, pad: Pad, dowel: Dowel, theta: Number, symbol: str) -> Number:
        """Dowel bearing strength, psi."""
        if self.material != "wood":
            return pad.take(symbol, self.F_e, "psi", note=self.why)
        G = pad.take("G", self.G, note=f"{self.name}: {self.why}")
        F_e = wood_bearing(pad, G=G, D_nom=dowel.D, theta=self.angle(theta), end_grain=self.end_grain)
        return pad.take(symbol, F_e, "psi", note=self.name)


@dataclass(frozen=True)
class Joint:
    """Main and side member, shear planes, gap (in); `penetration` of a fastener that has a point, in.

    `doubts` keep the group from passing, each with its question; `faults` fail it. `held` is the held piece's own
    length of bearing in all, in; `bored` what the bores take of its breadth, `slot` what the slot does.
    """

    dowel: Dowel
    main: Part
    side: Part
    two_planes: bool
    gap: float
    held: float
    slot: float
    bored: float
    penetration: float | None
    threads_clear: bool  # of the shear planes
    doubts: tuple[Open, ...]
    faults: tuple[Fault, ...]

    @property
    def parts(self) -> tuple[Part, Part]:
        return self.main, self.side

    @property
    def woods(self) -> list[Part]:
        return [part for part in self.parts if part.material == "wood"]

    @property
    def other(self) -> Part:
        """The member that is not the held piece."""
        return self.side if self.main.is_held else self.main

    @property
    def held_part(self) -> Part:
        """The held piece."""
        return self.main if self.main.is_held else self.side

    @property
    def turned(self) -> bool:
        """Whether its members lie at an angle of their own to each other."""
        return any(part.grain == "turned" for part in self.parts)

    @property
    def end_grain(self) -> bool:
        return any(part.end_grain for part in self.woods)

    @property
    def guessed(self) -> list[Open]:
        """Woods that are not known: figures with the lowest plausible are for information."""
        return [open_ for open_ in self.doubts if open_.key in GUESSED]

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


class JointMaker:
    """What making a joint gathers on its way: the dowel, the parts of the job, doubts and faults."""

    def __init__(self, group: Group, dowel: Dowel) -> None:
        anchor = group.anchor
        self.group, self.dowel = group, dowel
        self.doubts: list[Open] = list(dowel.doubts)
        self.faults: list[Fault] = []
        self.threads_clear = False
        self.gap = anchor.gap
        self.breadth = float(group.section.b)
        if dowel.kind == "pin" and anchor.clamped is not True:
            text = "pins without heads do not hold the parts together: at least two bolts must clamp the joint"
            self.doubts.append(Open(text, "clamped", "clamped"))

    @property
    def bore(self) -> float:
        """Depth of one bore, in; 0 where there is none."""
        fastener = self.group.anchor.fastener
        assert fastener is not None
        if fastener.counterbore is None and fastener.counterbore_depth is None:
            return 0.0
        if fastener.counterbore is None or fastener.counterbore_depth is None:
            text = "a counterbore needs both its diameter and its depth (`counterbore`, `counterbore_depth`)"
            raise NotSaid(text, "bore", "fastener.counterbore_depth")
        return fastener.counterbore_depth

    @property
    def washer(self) -> float:
        """Thickness under the head of a lag screw, in."""
        return self.dowel.washer_thickness if self.dowel.kind == "lag screw" else 0.0

    @property
    def other(self) -> Other:
        if self.group.anchor.other is None:
            raise NotSaid("the member on the other side is not described (`other`)", "far_member", "other.thickness")
        return self.group.anchor.other

    @property
    def plate(self) -> Plate:
        if self.group.anchor.plate is None:
            raise NotSaid("the plate is not described (`plate`)", "plate", "plate.thickness")
        return self.group.anchor.plate

    # ---- members

    def held(self, length: float, grain: Grain = "held") -> Part:
        """The held piece as a member of the joint."""
        group = self.group
        G, why = gravity(group.stock, group.wood, group.piece, self.doubts)
        return Part(f"held piece {group.piece}", "wood", length, grain, G, why=why, wood=group.wood, stock=group.stock)

    def far(self, length: float, grain: Grain | None = None) -> Part:
        """The wood or concrete on the other side."""
        group, other = self.group, self.other
        grain = other.grain if grain is None else grain
        if other.material == "concrete":
            text = "into concrete: only the wood side has a value here; the anchor in it goes by its own report"
            self.doubts.append(Open(text, "concrete_anchor"))
            found = other_bearing(CONCRETE)
            return Part(group.far, "concrete", length, grain, F_e=found.value, why=found.reason)
        G, why = gravity(group.into_stock, group.into_wood, group.far, self.doubts)
        if other.stock is not None and group.into_stock is not None:
            size = read_size(group.into_stock.size)
            if min(abs(other.thickness - side) for side in (size.b, size.d)) > SAME_SIDE:
                text = f"the thickness given for {group.far} is that of neither side of its stock {size.text!r}"
                sides = tuple(show(side, "length") for side in dict.fromkeys((size.b, size.d)))
                self.doubts.append(Open(text, "other_thickness", "other.thickness", sides))
        return Part(group.far, "wood", length, grain, G, why=why, wood=group.into_wood, stock=group.into_stock,
                    turn=_leans(group) if grain == "along" else 0.0)  # fmt: skip

    def steel(self) -> Part:
        """The plate as a member of the joint."""
        plate = self.plate
        found = steel(plate.steel)
        if found.value.rolled == "hot-rolled":
            F_e, why = float(bearing.steel_bearing_hot_rolled(found.value.F_u)), f"1.5 F_u of {plate.steel}"
        else:  # the tables print 61,850 for the cold-formed grade they know: never more than that
            printed = other_bearing(SHEET).value
            exact = float(bearing.steel_bearing_cold_formed(found.value.F_u))
            F_e, why = (printed if abs(exact - printed) < 50.0 else exact), f"1.375 F_u of {plate.steel}, as printed"
        return Part(f"plate {plate.steel}", "steel", plate.thickness, F_e=F_e, why=why)

    # ---- lengths

    @staticmethod
    def left(whole: float, *taken: float) -> float:
        """What slot, bores and plate leave of a piece, in. Raises OutOfRange if they leave nothing."""
        left = whole - sum(taken)
        if left <= HAIR:
            text = f"no wood is left of {whole:g} in: slot, bores and plate take {sum(taken):g} in"
            raise OutOfRange(text, "geometry")
        return left

    def through(self, grip: float, last: float, beyond: float = 0.0, room: float = float("inf")) -> None:
        """A bolt or pin right through: whether it fits, and where its threads lie.

        `grip`: from washer to washer [in]. `last`: bearing length in the wood that is next to the nut, and `beyond`
        what lies between that and the washer [in]. `room`: between the faces, where it is to be hidden [in].
        """
        dowel = self.dowel
        if dowel.length is not None:
            self._fits(grip, room)
        if dowel.kind != "bolt" or not dowel.smooth:
            fastener = self.group.anchor.fastener
            said = fastener is not None and fastener.threads == "clear of it"
            self.threads_clear = dowel.kind == "pin" and said
            return
        if dowel.length is None or dowel.thread is None:
            text = "the threads are said to be clear of the shear plane; the length of the bolts is not given"
            least = dowel.washer_thickness * 2.0 + grip + dowel.D
            self.doubts.append(Open(text, "length", "fastener.length", (_quarter(least), _quarter(least + 1.0))))
            self.threads_clear = True
            return
        covered = max(dowel.washer_thickness + grip - beyond - (dowel.length - dowel.thread), 0.0)
        self.threads_clear = covered <= last
        if covered > judgment("threads in the bearing length").value * last + HAIR:
            why = (
                f"the thread, {show(dowel.thread, 'length')} of {show(dowel.length, 'length')}, lies over "
                f"{show(min(covered, last), 'length')} of the {show(last, 'length')} beside the nut, more than a "
                f"quarter: {THREADED}"
            )
            self.dowel = replace(dowel, D_calc=dowel.D_r, why_D=why)

    def _fits(self, grip: float, room: float) -> None:
        """Head to nut, and within the bores. A nut is about as high as the bolt is thick (common practice)."""
        dowel = self.dowel
        assert dowel.length is not None
        needed = grip + (2 * dowel.washer_thickness + dowel.D if dowel.kind == "bolt" else 0.0)
        what, clause, text = f"length of the {dowel.kind}", "NDS 2018 12.1.3", ""
        if dowel.length < needed - HAIR:
            parts = " with washers and a nut" if dowel.kind == "bolt" else ""
            text = f"{show(dowel.length, 'length')} is too short: the parts{parts} need {show(needed, 'length')}"
        elif dowel.length > room + HAIR:
            text = (
                f"{show(dowel.length, 'length')} is too long: it comes out of the face, there is room for "
                f"{show(room, 'length')}"
            )
        if text:
            self.faults.append(Fault("anchor.length", what, clause, text))
            return
        between = grip + 4.0 * dowel.washer_thickness  # two washers at either end are usual
        if dowel.kind == "bolt" and dowel.thread is not None and dowel.length - dowel.thread > between + HAIR:
            text = (
                f"{show(dowel.length, 'length')} long with {show(dowel.thread, 'length')} of thread, the nut comes to "
                f"the end of the thread {show(dowel.length - dowel.thread - between, 'length')} before the washer: it "
                f"cannot clamp parts that are {show(grip, 'length')} thick"
            )
            answers = (_quarter(dowel.length - between + dowel.D), show(dowel.length, "length"))
            self.doubts.append(Open(text, "bolt_thread", "fastener.thread_length", answers))

    def point(self, crossed: float, more: float, thickness: float) -> tuple[float, float]:
        """Bearing length and penetration in the member that holds the point.

        `crossed`, `more`: wood or steel before that member; washer and gap [in]. `thickness`: of that member [in].
        """
        dowel = self.dowel
        assert dowel.length is not None
        pad = SilentPad()
        least, clause = float(dowel.least_penetration(pad)), dowel.penetration_clause
        p = 0.0  # ends before that member
        if dowel.length > crossed + more:
            p = float(pad(ln.penetration, L_f=dowel.length, l_s=crossed, t_w=more))
        if min(p, thickness) < least - HAIR:
            text = (
                f"{show(min(p, thickness), 'length')} in the member that holds the point, at least "
                f"{show(least, 'length')} asked for: no lateral value"
            )
            self.faults.append(Fault("anchor.penetration", f"penetration of the {dowel.kind}", clause, text))
        if p > thickness + HAIR:
            text = f"{show(dowel.length, 'length')} is too long: the point comes out by {show(p - thickness, 'length')}"
            self.faults.append(Fault("anchor.length", f"length of the {dowel.kind}", clause, text))
        bears = float(dowel.main_length(pad, max(p, least)))  # one that reaches less deep has no value at all
        return min(bears, thickness), min(p, thickness)

    def joint(
        self, main: Part, side: Part, *, held: float, two_planes: bool = False, gap: float | None = None,
        slot: float = 0.0, bored: float = 0.0, penetration: float | None = None,
    ) -> Joint:  # fmt: skip
        """The joint, with all that was gathered."""
        gap = self.gap if gap is None else gap
        if gap > float(gaps.widest_gap(self.dowel.D)):
            text = (
                f"a gap of {show(gap, 'length')} is wider than 2 D = {show(2 * self.dowel.D, 'length')}: the reduction "
                "terms are for closed joints; an engineer's case"
            )
            self.doubts.append(Open(text, "wide_gap"))
        return Joint(
            self.dowel, main, side, two_planes, gap, held, slot, bored, penetration, self.threads_clear,
            tuple({open_.text: open_ for open_ in self.doubts}.values()), tuple(self.faults),
        )  # fmt: skip


def pin_share(pad: Pad, Z: Number) -> Number:
    """What a headless pin counts of a bolt's value."""
    share = connection_limit("headless pin, share of the bolt value")
    k = pad.take("k_pin", share.value, note=share.reason, source=share.source)
    return pad.take("Z", k * Z, "lbf", note="headless pin")


def _leans(group: Group) -> float:
    """Angle between the grain of the held piece and that of a rafter that it is fastened to, deg."""
    into = group.into
    if not isinstance(into, Rafter):
        return 0.0
    if into.name == group.piece:  # the opposite rafter at the ridge
        return min(2.0 * into.slope, 90.0)
    return abs(into.slope - abs(group.slope))


def gravity(stock: Stock | None, wood: WoodMaterial | None, name: str, doubts: list[Open]) -> tuple[float, str]:
    """Specific gravity for the fasteners and where it is from; the lowest plausible one where the wood is not known."""
    if stock is None:
        doubts.append(Open(f"the wood of {name} is not known: name its stock (`other.stock`)", "other_stock",
                           "other.stock"))  # fmt: skip
        least = fallback("specific gravity")
        return float(least.value), f"not known; for information {least.reason}"
    if is_unknown(stock):
        text = f"the wood of {name} is not known: have it identified; figures are for information"
        doubts.append(grade_open(text, stock))
        G = lowest(rows_to_screen(stock), "lowest plausible").G
        if G is not None:
            return G, "lowest of what the wood might plausibly be"
    elif wood is not None and wood.G is not None:
        return wood.G, f"of {wood.label}"
    elif stock.species.casefold() != "unknown":
        return specific_gravity(stock.species)[0], f"of {stock.species}, NDS 2018 Table 12.3.3A"
    text = f"the specific gravity of {name} is not given (`values.G` of its stock)"
    doubts.append(Open(text, "gravity", f"stock.{stock.name}.values.G", of=stock.name))
    least = fallback("specific gravity")
    return float(least.value), f"not given; for information {least.reason}"


def weak_wood(stock: Stock, wood: WoodMaterial) -> WoodMaterial:
    """The wood itself; of unknown wood the lowest of each property over all it might be."""
    return wood_of(stock, lowest(rows_to_screen(stock), "lowest plausible")) if is_unknown(stock) else wood


def _quarter(length: float) -> str:
    """A length rounded up to 1/4 in, as bolts are sold."""
    return show(math.ceil(4.0 * length - HAIR) / 4.0, "length")
