"""A level beam with the wood it is made of, solved under all its loads: what the checks of a beam read."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cached_property

import numpy as np

from ...analysis.beams.load_cases import SLIVER, Applied, Stretch, spans_of, without_tails
from ...analysis.beams.member_loads import TransferredLoad, applied_loads, self_weight, transferred_loads
from ...analysis.beams.solved_beam import BeamSupport, SolvedBeam, solve_beam
from ...analysis.frames.beam_frame import Section as Stretched
from ...calc.pad import SilentPad
from ...formulas.wood.deflection import shear_free_modulus, shear_modulus_from_E
from ...model.beams import Beam
from ...model.made.plate import FlitchPlate
from ...model.sticks import Cut, Support
from ...model.stock import Stock
from ...records import dataclass
from ...values.lumber import Size, read_size
from ..core.context import Context
from ..core.wood.lost import Lost, losses_of
from ..core.wood.material import WoodMaterial, modulus_prime
from ..core.wood.sticks import SHEAR_PART
from ..core.wood.strength import Section
from .bracing import Span
from .cuts import Region, has_net_section, net_section, regions
from .rows import placed_rows
from .seats import Seat, seats_of

STEEL_SHEARS = 2.6  # E/G of steel, 2 (1 + 0.3)
KINDS_OF_HOLD = {"rests": "roller", "hung": "roller", "fixed": "fixed"}
LOOKED_AT = 61  # places along a span where it is looked at which edge is pressed; what lies between two counts too
PRESSES = 1.0  # lb-in: a moment below this presses on no edge; rounding


@dataclass(frozen=True, eq=False)
class BeamRun:
    """A beam that has been solved."""

    beam: Beam
    size: Size
    section: Section
    wood: WoodMaterial
    solved: SolvedBeam
    spans: tuple[Span, ...]  # without the ends that only reach over their seats
    seats: list[Seat]
    regions: list[Region]
    E: float
    soft: Callable[[], SolvedBeam]  # solves the beam once more, see `with_shear`
    GA: float  # stiffness in shear per area of the section, psi

    @cached_property
    def with_shear(self) -> SolvedBeam:
        """The beam on the tabulated E with shear deflection on top: the softest that it is taken, for gaps under it."""
        return self.soft()

    @property
    def simple(self) -> bool:
        """One span, with ends that can turn and do not overhang."""
        clamped = any(seat.support.holds == "fixed" for seat in self.seats)
        return len(self.spans) == 1 and not self.spans[0].overhang and not clamped


def section_of(size: Size, laid: str, plies: int) -> Section:
    """The section as it stands under load."""
    if size.surface == "round":
        return Section(size.d, size.d, size.d, round=True)
    b, d = (size.d, size.b) if laid == "flat" else (size.b, size.d)
    return Section(plies * b, d, b)


def beam_length(beam: Beam) -> float:
    """Over all, inches; a last support that lies a hair beyond the given length is still on the beam."""
    last = max(support.at for support in beam.supports)
    return last if beam.length is None else max(beam.length, last)


class BeamSolver:
    """Solves one beam in its surroundings, for one wood after another; what weighs the same is solved once."""

    def __init__(self, beam: Beam, context: Context) -> None:
        self.beam, self.context = beam, context
        self.last: BeamRun | None = None

    def run(self, wood: WoodMaterial) -> BeamRun:
        """The beam made of the given wood.

        Raises Unstable, OutOfRange if the supports leave it free to move, or a value lies outside the rules.
        """
        E, last = float(modulus_prime(SilentPad(), wood)), self.last
        moves = bool(self.context.sinks) or any(support.settles for support in self.beam.supports)
        moves = moves or self.beam.flitch is not None  # how wood and plate share hangs on the modulus of the wood
        same = last is not None and (last.wood.density, last.wood.dry_density) == (wood.density, wood.dry_density)
        if last is not None and same and not moves:
            ratio = last.E / E
            softer, before = last.solved.softer(ratio), last
            return replace(last, wood=wood, solved=softer, E=E, soft=lambda: before.with_shear.softer(ratio))
        self.last = solved_run(self.beam, wood, self.context)
        return self.last


def solved_run(beam: Beam, wood: WoodMaterial, context: Context, at: Sequence[float] = ()) -> BeamRun:
    """Solve a beam. `at`: where the analysis has its supports, if not in the middle of the seats, inches."""
    pad, size = SilentPad(), read_size(context.stock(beam.stock).size)
    section, length = section_of(size, beam.laid, beam.plies), beam_length(beam)
    if wood.made != "sawn":
        section = _made_section(context.stock(beam.stock), section)
    if beam.flitch is not None:
        section, wood = _with_plate(beam.flitch, section, wood)
    d, area, inertia = float(section.d), float(section.area(pad)), float(section.inertia(pad))
    E = float(modulus_prime(pad, wood))
    E_sf = E if wood.shear_free else float(pad(shear_free_modulus, E=E))
    GA = float(pad(shear_modulus_from_E, E=E)) * (0.9 if section.round else SHEAR_PART)
    if wood.made == "steel":
        GA = E / STEEL_SHEARS * section.shear_area / area  # type: ignore[attr-defined]
    if beam.flitch is not None:  # the plate helps little in shear, and is left out there
        GA *= section.wood_area / area  # type: ignore[attr-defined]
    loads = loads_on(beam, wood, area, context.transfers)
    seats = seats_of(beam.supports, length, at)
    spans = spans_of(length, [seat.x for seat in seats])
    overhangs = [span for span in (spans[0], spans[-1]) if _is_free(span, seats)]
    stubs = [span for span in overhangs if _is_stub(span, seats, loads, d)]
    hanging = [span for span in overhangs if span not in stubs]
    by_place = sorted(seats, key=lambda seat: seat.support.at)
    own = _cuts(beam, context.stock(beam.stock), length)
    cuts = regions(
        [*own, *context.structure.joints.cuts(beam, context, section)], length,
        None if any(span[0] == 0.0 for span in hanging) else (by_place[0].start, by_place[0].end),
        None if any(span[1] == length for span in hanging) else (by_place[-1].start, by_place[-1].end),
    )  # fmt: skip
    nets = [
        (region, net_section(pad, section, region.cut)) for region in cuts
        if has_net_section(section, region.cut) and region.end - region.start > SLIVER
    ]  # fmt: skip

    def solve(modulus: float, bending_only: float = 0.0) -> SolvedBeam:
        return solve_beam(
            length,
            [_support(seat, context) for seat in seats],
            loads,
            depth=d,
            EI=modulus * inertia,
            GA_s=GA * area,
            sections=[
                Stretched(region.start, region.end, modulus * float(net.I), GA * float(net.A)) for region, net in nets
            ],
            stands=_stands(seats, cuts, d),
            parts=[x for region in cuts for x in (region.start, region.end)],
            loaded=without_tails(spans, [span for span in stubs if _over_its_seat(span, seats)]),
            bending_only=bending_only,
        )

    solved = solve(E_sf, E / E_sf)
    checked = tuple(_span(span, span in overhangs, solved, seats) for span in spans if span not in stubs)
    return BeamRun(beam, size, section, wood, solved, checked, seats, cuts, E, lambda: solve(E), GA)


def _with_plate(plate: FlitchPlate, section: Section, wood: WoodMaterial) -> tuple[Section, WoodMaterial]:
    """Two plies with a plate between them. The tabulated E counts, with shear deflection on top: the softer way."""
    from ..core.wood.made.flitch_section import flitch_section

    E = float(modulus_prime(SilentPad(), wood))
    return flitch_section(section, plate, E, float(wood.density)), replace(wood, shear_free=True)


def _made_section(stock: Stock, section: Section) -> Section:
    """The section of what is not sawn."""
    if stock.made != "steel":
        return replace(section, sawn=False)
    from ..core.wood.made.steel_section import rolled_section

    return rolled_section(stock)


def _cuts(beam: Beam, stock: Stock, length: float) -> list[Cut | Lost]:
    """The cuts of the beam, and of a surveyed timber what was found in it; what lies beyond the beam is cut off it."""
    old: list[Cut | Lost] = [*(stock.survey.cuts or () if stock.survey is not None else ()), *losses_of(stock)]
    return [*beam.cuts, *(cut for cut in old if _begins(cut) < length - SLIVER)]


def _begins(cut: Cut | Lost) -> float:
    return cut.at - 0.5 * (max(cut.length, cut.depth) if cut.kind == "hole" else cut.length)


def loads_on(
    beam: Beam, wood: WoodMaterial, area: float, transfers: Sequence[TransferredLoad]
) -> list[Applied]:  # fmt: skip
    """All that lies on a beam, its own weight too unless a dead load holds that already."""
    length = beam_length(beam)
    own = self_weight(float(wood.density), area, length, float(wood.dry_density))
    placed = [row.transfer for row in placed_rows(beam, transfers)]
    loads = [*applied_loads(beam.carries, length), *transferred_loads(placed, length)]
    return loads if own_weight_is_stated(beam) else [*loads, own]


def own_weight_is_stated(beam: Beam) -> bool:
    """Whether a dead load of the beam is said to hold the beam's own weight."""
    return any(load.dead_includes_own_weight for load in beam.carries)


def support_of(support: Support) -> BeamSupport:
    """A support as the analysis has it, on something that stands still."""
    return BeamSupport(support.at, KINDS_OF_HOLD[support.holds], support.settles)


def _support(seat: Seat, context: Context) -> BeamSupport:
    gives, sags = context.sinks.get(seat.index, (0.0, 0.0))
    return replace(support_of(seat.support), x=seat.x, gives=gives, sags=sags)


def _span(span: Stretch, overhang: bool, solved: SolvedBeam, seats: Sequence[Seat]) -> Span:
    ends = [seat for seat in seats if seat.x in span]
    upright = all(seat.support.restrained is True for seat in ends)
    return Span(*span, overhang, upright, None if overhang else _pressed_below(solved, span))


def _pressed_below(solved: SolvedBeam, span: Stretch) -> tuple[float, float]:
    """How far from either end of a span its bottom edge may be pressed, under any combination, inches.

    Where it is pressed away from the ends as well, both reach over the whole span.
    """
    if float(np.min(solved.moments(*span)[0])) >= -PRESSES:
        return 0.0, 0.0
    places = np.linspace(*span, LOOKED_AT)
    pressed = np.min(solved.least_moments_at(places.tolist()), axis=0) < -PRESSES
    free = np.flatnonzero(~pressed)
    if free.size == 0 or pressed[free[0] : free[-1]].any():
        return span[1] - span[0], span[1] - span[0]
    left = float(places[free[0]]) - span[0] if pressed[0] else 0.0
    right = span[1] - float(places[free[-1]]) if pressed[-1] else 0.0
    return left, right


def _is_free(span: Stretch, seats: Sequence[Seat]) -> bool:
    return not all(any(seat.x == x for seat in seats) for x in span)


def _is_stub(span: Stretch, seats: Sequence[Seat], loads: Sequence[Applied], d: float) -> bool:
    """An end that reaches over its seat by no more than the depth of the piece, with no point load on it.

    Its forces count like all others; but it is no cantilever for the limits of deflection, for the grading of
    overhanging timbers and for Table 3.3.3 (common practice, no source).
    """
    seat = next(seat for seat in seats if seat.x in span)
    reach = span[1] if seat.x == span[0] else span[0]
    if abs(reach - seat.support.at) > 0.5 * (seat.support.bearing or 0.0) + d or seat.support.holds == "fixed":
        return False
    inside = (load for load in loads if load.is_point and span[0] <= load.start <= span[1])
    return not any(load.moves for load in loads) and all(abs(load.start - seat.x) < SLIVER for load in inside)


def _over_its_seat(span: Stretch, seats: Sequence[Seat]) -> bool:
    """Whether a stub is no longer than its seat: then it is no span that loads come and go on by itself."""
    seat = next(seat for seat in seats if seat.x in span)
    reach = span[1] if seat.x == span[0] else span[0]
    return abs(reach - seat.support.at) <= (seat.support.bearing or 0.0)


def _stands(seats: Sequence[Seat], cuts: Sequence[Region], d: float) -> list[float]:
    """Where a moving load does most for shear: beside a support, at d from the face of a seat, at the edges of cuts."""
    beside = [x for seat in seats for x in (seat.x - SLIVER, seat.x + SLIVER)]
    from_faces = [x for seat in seats for x in (seat.start - d, seat.end + d)]
    return [*beside, *from_faces, *(x for region in cuts for x in (region.start, region.end))]
