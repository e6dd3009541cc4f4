"""A hanger rod: from a nut and washer on the top of one beam to a nut and washer under another."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ....analysis.beams.combinations import Loaded
from ....calc.pad import Pad
from ....errors import OutOfRange
from ....formulas.connections import tear_out as tear
from ....formulas.connections import washer as wash
from ....formulas.steel import bolts
from ....formulas.wood import bearing as br
from ....formulas.wood.section import round_area
from ....model.anchors.anchor import Fastener
from ....model.beams import Beam, beam_length
from ....model.links.hardware import diameter
from ....units import show
from ....values.hardware import connections as tables
from ....values.hardware.fasteners import washer
from ....values.hardware.steels import bolt_grades, bolt_steel, steel
from ....values.judgment import judgment
from ....values.lumber import read_size
from ...beams.beam import section_of
from ...core.asking.question import PlausibleAnswer
from ...core.context import Context
from ...core.result import Check
from ...core.trivial import negligible, trivial
from ...core.wood.govern import Criterion, at, govern, out_of_range
from ...core.wood.material import WoodMaterial, bearing_prime, is_unknown, named, reference_values, wood_of
from ...core.wood.strength import Outcome
from ..far_side import far_side_checks
from ..fasteners.layout import washer_checks
from ..group import Group
from ..joint import HAIR
from ..unsaid import Open, grade_open
from .base import Manner, evidence_checks, line_checks

Array = np.ndarray
ROD, LOW, STANDARD = "AISC 360-16 J3.6", "NDS 2018 3.8.2", "NDS 2018 12.1.3.3"


class HangerRod(Manner):
    """It pulls and cannot push; its washers bear on wood, all of them."""

    name = "hanger rod"

    def checks(self, group: Group, context: Context) -> list[Check]:
        fastener = group.anchor.fastener
        if fastener is None:
            text = "the rod is not described (`fastener`)"
            return [group.refers("anchor.rod", "hanger rod", ROD, Open(text, "fastener", "fastener.size"))]
        rod = _Rod(group, context, fastener)
        return [
            *rod.checks(), *washer_checks(group), *_split(group), *evidence_checks(group), *far_side_checks(group),
            *line_checks(group),
        ]  # fmt: skip

    @property
    def drawn(self) -> bool:
        return True

    def assumptions(self, group: Group) -> Iterator[str]:
        yield "The rod goes through both pieces, with a nut and washer on the top of the one and under the other."


class _Rod:
    """One rod with the two pieces that it goes through."""

    def __init__(self, group: Group, context: Context, fastener: Fastener) -> None:
        self.group, self.context, self.fastener = group, context, fastener
        self.carrying = group.into if isinstance(group.into, Beam) else None
        self.T = group.parts["down"]
        self.D = diameter(fastener.kind, fastener.size)
        self.d_h = float(tear.bolt_hole(self.D))
        standard = washer(fastener.size)
        self.standard = standard.reason
        self.D_w = standard.value.outer if fastener.washer is None else min(fastener.washer, standard.value.outer)

    def checks(self) -> list[Check]:
        group, found = self.group, [*self._uplift()]
        if group.x.size > 1:
            text = "how several rods share the load is for an engineer; each is taken to carry all of it"
            found.append(group.refers("anchor.rods", "several rods", "statics", Open(text, "several_rods")))
        if self.fastener.counterbore is not None:
            text = (
                "the bores for its nuts are not taken off the beams: set the nuts on the faces, or enter them as cuts"
            )
            open_ = Open(text, "rod_bores")
            found.append(group.refers("anchor.rod_bores", "bores of a rod", "NDS 2018 3.1.2", open_))
        return [*found, self._tension(), *self._washers(), *self._place(), *self._upper_end()]

    def _uplift(self) -> Iterator[Check]:
        group, lift = self.group, float(np.max(self.group.parts["up"]))
        if lift <= negligible():
            return
        id, what, clause = "anchor.rod_uplift", "uplift on a rod", "ASCE 7-16 2.4.1"
        if trivial(lift, float(np.max(self.T))):
            text = f"it lifts with {show(lift, 'force')}, next to nothing beside what hangs on it"
            yield Check.keeps_rule(id, group.name, what, clause, text)
            return
        text = f"the end lifts with {show(lift, 'force')}: a rod pulls, it does not push"
        yield Check.breaks_rule(id, group.name, what, clause, text)

    def _upper_end(self) -> Iterator[Check]:
        """Whether the rod is long enough to go through both: one that ends low in a beam tears it across the grain."""
        group, carrying, fastener = self.group, self.carrying, self.fastener
        if carrying is None:
            text = "the rod does not hang from a beam of this job: what it hangs from is not checked"
            open_ = Open(text, "rod_upper_end")
            yield group.refers("anchor.rod_upper_end", "upper end of the rod", "load path", open_)
            return
        size = read_size(self.context.stock(carrying.stock).size)
        both = float(section_of(size, carrying.laid, carrying.plies).d) + float(group.section.d)
        id, what = "anchor.rod_length", "the rod goes right through"
        needed = both + judgment("nuts and washers of a rod").value * self.D
        if fastener.length is None:
            text = f"its length is not given; through {carrying.name} and {group.piece} it needs over "
            answers = (show(np.ceil(needed + 0.5), "length"),)
            open_ = Open(text + show(needed, "length"), "length", "fastener.length", answers)
            yield group.refers(id, what, LOW, open_)
        elif fastener.length <= needed:
            text = (
                f"{show(fastener.length, 'length')} long it does not go through {carrying.name} and {group.piece}, "
                f"together {show(both, 'length')} deep, with a washer and a nut at either end: a rod that ends low in "
                "a beam pulls it apart across the grain"
            )
            yield Check.breaks_rule(id, group.name, what, LOW, text)
        else:
            text = f"long enough to take a nut on the top of {carrying.name} and one under {group.piece}"
            yield Check.keeps_rule(id, group.name, what, LOW, text)

    def _tension(self) -> Check:
        group, grade, D, T = self.group, self.fastener.steel, self.D, self.T
        criterion = Criterion(
            group.name, "tension of the rod", ROD, "force", notes=("steel takes no factor for duration",),
            id="anchor.rod_tension",
        )  # fmt: skip
        if not grade:
            text = "the steel of the rod is not given (`steel`)"
            return group.refers(criterion.id, criterion.what, ROD, Open(text, "rod_steel", "fastener.steel"))
        as_bolt = grade.casefold() in map(str.casefold, bolt_grades())

        def calculate(pad: Pad, which: int | slice) -> Outcome:
            pull = pad.take("T", at(T, which), "lbf", note="from the analysis")
            A_b = pad(round_area, symbol="A_b", D=D)
            if as_bolt:
                bolt = bolt_steel(grade)
                F_nt = pad.take("F_nt", bolt.value.F_nt, "psi", note=bolt.reason, source=bolt.source)
            else:
                rod = steel(grade)
                F_u = pad.take("F_u", rod.value.F_u, "psi", note=rod.reason, source=rod.source)
                F_nt = pad(bolts.threaded_tension_strength, F_u=F_u)
            T_a = pad(bolts.bolt_tension, F_nt=F_nt, A_b=A_b)
            return Outcome(pull, T_a, pull / T_a)

        return govern(criterion, group.forces.combinations, calculate)

    # ---- washers

    def _washers(self) -> Iterator[Check]:
        """The wood under both washers. A washer wider than the standard one is not counted wider: it may bend."""
        group, fastener, carrying, D_w = self.group, self.fastener, self.carrying, self.D_w
        notes: tuple[str, ...] = ()
        if fastener.washer is None:
            text = f"not given; {self.standard} is counted, and must be there before the nut is covered (`washer`)"
            open_ = Open(text, "washer", "fastener.washer", (show(D_w, "length"),))
            yield group.refers("anchor.washers", "washers of the rod", STANDARD, open_)
        elif fastener.washer > D_w * (1.0 + 1e-6):
            notes = (f"counted as wide as {self.standard}: how thick a wider one is, is not known here",)
        if D_w <= self.d_h:
            text = f"{show(D_w, 'length')} across, in a hole of {show(self.d_h, 'length')}: it is pulled through"
            yield Check.breaks_rule("anchor.washers", group.name, "washers of the rod", STANDARD, text)
            return
        clear = tables.connection_limit("washer from the end, for C_b").value
        inner = (float(group.x[0]) if group.x.size else 0.0) - 0.5 * D_w
        yield self._washer(group.wood, f"washer under {group.piece}", inner >= clear, notes)
        if carrying is None:
            return
        stock, what = self.context.stock(carrying.stock), f"washer on the top of {carrying.name}"
        if is_unknown(stock):
            text = f"the wood of {carrying.name} is not known"
            yield group.refers("anchor.washer", what, wash.WASHER, grade_open(text, stock))
            return
        wood = named(wood_of(stock, reference_values(stock), laid=carrying.laid, form="beam"), carrying.name)
        at_end, length = group.lands_at, beam_length(carrying)
        end = -1.0 if at_end is None else min(at_end, length - at_end) - 0.5 * D_w
        yield self._washer(wood, what, end >= clear, notes)

    def _washer(self, wood: WoodMaterial, what: str, clear: bool, notes: tuple[str, ...]) -> Check:
        criterion = Criterion(self.group.name, what, wash.WASHER, "force", notes=notes, id="anchor.washer")
        combinations: tuple[Loaded, ...] = self.group.forces.combinations
        D_w, d_h, T = self.D_w, self.d_h, self.T

        def calculate(pad: Pad, which: int | slice) -> Outcome:
            pull = pad.take("T", at(T, which), "lbf", note="from the analysis")
            A = pad(wash.round_washer_area, D_w=D_w, d_h=d_h)
            if clear:
                C_b = pad(br.bearing_area_factor, l_b=D_w)
            else:
                C_b = pad.take("C_b", 1.0, clause="NDS 2018 3.10.4", note="not shown to be 3 in clear of the end")
            T_w = pad(wash.washer_bearing, F_c_perp_prime=bearing_prime(pad, wood, C_b), A_b=A)
            return Outcome(pull, T_w, pull / T_w)

        try:
            return govern(criterion, combinations, calculate)
        except OutOfRange as error:  # of the wood's own values, before any combination
            return out_of_range(criterion, error)

    # ---- where it stands

    def _place(self) -> Iterator[Check]:
        """End and edge distance in both pieces, and washers with all of their rim on wood."""
        group, b = self.group, float(self.group.section.b)
        if not group.x.size:
            text = "where the rod stands in the piece is not given (`holes`)"
            line = group.line if group.line is not None else 0.5 * b
            along, aside = show(line, "length"), show(0.5 * b, "length")
            holes = {"rows": 1, "columns": 1, "end": along, "edge": aside}
            answer = PlausibleAnswer(f"{along} from the end, {aside} from the side", ((group.field("holes"), holes),))
            open_ = Open(text, "rod_place", "holes", (answer,))
            yield group.refers("anchor.rod_place", "place of the rod", "geometry", open_)
            return
        side = float(group.y[0])
        if side > b + HAIR:
            text = (
                f"it is said to stand {show(side, 'length')} from the side of {group.piece}, {show(b, 'length')} broad"
            )
            open_ = Open(text, "rod_edge", "holes.edge", (show(0.5 * b, "length"),))
            yield group.refers("anchor.rod_place", "place of the rod", "geometry", open_)
            return
        yield from self._room(group.piece, float(group.x[0]), side, b)
        yield from self._beside(group.piece, abs(side - 0.5 * b))
        carrying = self.carrying
        if carrying is None:
            return
        broad = float(section_of(self.context.size(carrying.stock), carrying.laid, carrying.plies).b)
        off = abs(float(group.x[0]) - group.line) if group.line is not None else 0.0
        end = None if group.lands_at is None else min(group.lands_at, beam_length(carrying) - group.lands_at)
        yield from self._beside(carrying.name, off)
        yield from self._through_a_seat(carrying)
        yield from self._room(carrying.name, end, 0.5 * broad - off, broad)

    def _beside(self, name: str, off: float) -> Iterator[Check]:
        """A rod beside the middle of a piece twists it; something else has to keep it from turning."""
        group, most = self.group, float(np.max(self.T))
        if off <= judgment("rod beside the middle").value or most <= negligible():
            return
        id, what, rule = "anchor.couple", f"twist of {name} by the rod", "statics; NDS 2018 11.1.3"
        text = f"it stands {show(off, 'length')} beside the middle of {name}: {show(off * most, 'moment')} twist it"
        if group.kept_from_turning:
            text += f", not on the rod: {group.anchor.twist_held_by}"
            yield Check.keeps_rule(id, group.name, what, rule, text)
            return
        yield group.refers(id, what, rule, Open(text, "twist_held_by", "twist_held_by"))

    def _through_a_seat(self, carrying: Beam) -> Iterator[Check]:
        """A rod that would come out in what the carrying piece rests on."""
        group, lands = self.group, self.group.lands_at
        if lands is None:
            return
        for support in carrying.supports:
            half = 0.5 * (support.bearing or 0.0)
            if support.holds != "rests" or abs(support.at - lands) >= half + 0.5 * self.d_h - HAIR:
                continue
            text = (
                f"{show(lands, 'length')} along {carrying.name} is its seat on {support.on}: the rod would go through "
                "the seat and into what carries it"
            )
            beside = half + 2.0 * self.D_w
            places = (support.at + beside, support.at - beside)
            answers = tuple(show(at, "length") for at in places if 0.0 < at < beam_length(carrying))
            field = f"{group.support}.lands_at" if group.support else ""
            open_ = Open(text, "rod_through_seat", field, answers, of=group.piece if field else "")
            yield group.refers("anchor.rod_place", f"place of the rod in {carrying.name}", "geometry", open_)

    def _room(self, name: str, end: float | None, side: float, broad: float) -> Iterator[Check]:
        """Room around the rod in one piece: `end` from its end (None: not known), `side` from one of its sides."""
        group, D = self.group, self.D
        id, what = "anchor.rod_place", f"place of the rod in {name}"
        near = min(side, broad - side)
        least_end = tables.end_distance("across", towards_end=False, hardwood=False).value.full
        assert least_end is not None
        least_edge = tables.distance("edge", "across", "unloaded").value.least
        short = []
        if end is not None and end < least_end * D - HAIR:
            short.append(f"{show(end, 'length')} from the end, at least {show(least_end * D, 'length')} asked")
        if near < least_edge * D - HAIR:
            short.append(f"{show(near, 'length')} from the side, at least {show(least_edge * D, 'length')} asked")
        rim = min(near, end if end is not None else near)
        if rim < 0.5 * self.D_w - HAIR:
            short.append(
                f"a washer {show(self.D_w, 'length')} across hangs over by {show(0.5 * self.D_w - rim, 'length')}"
            )
        clause = "NDS 2018 12.5.1 (as for bolts: common practice), 3.10.2"
        given = self.fastener.washer
        if given is not None and given > self.D_w + HAIR and rim < 0.5 * given - HAIR:
            text = f"a washer {show(given, 'length')} across hangs over by {show(0.5 * given - rim, 'length')}"
            open_ = Open(text, "washer", "fastener.washer", (show(self.D_w, "length"),))
            yield group.refers("anchor.washers", f"washer on {name}", clause, open_)
        if short:
            yield Check.breaks_rule(id, group.name, what, clause, *short)
        else:
            yield Check.keeps_rule(id, group.name, what, clause, "clear of end and sides, washer wholly on wood")


def _split(group: Group) -> Iterator[Check]:
    if group.anchor.split == "check across the holes":
        text = "a check or split runs through the hole of the rod"
        yield group.refers("anchor.split", "checks and splits at the rod", "NDS 2018 11.1", Open(text, "split_seen"))
