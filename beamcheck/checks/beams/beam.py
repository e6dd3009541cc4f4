"""A level beam, from its entry in the job to a result."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ...analysis.beams.beam_frame import Section as Stretched
from ...analysis.beams.load_cases import SLIVER, Applied, Stretch, spans_of
from ...analysis.beams.member_loads import applied_loads, self_weight, transferred_loads
from ...analysis.beams.solved_beam import BeamSupport, SolvedBeam, solve_beam
from ...calc.pad import SilentPad
from ...errors import OutOfRange, Unstable
from ...formulas.wood.deflection import shear_modulus_from_E
from ...model.pieces import Beam
from ...values.lumber import Size, read_size
from ..anchors.cuts import cuts_by_anchors
from ..core.context import Context
from ..core.govern import stated
from ..core.material import WoodMaterial, modulus_prime
from ..core.plausible import load_doubts
from ..core.result import Check
from ..core.strength import Section
from .bearing import Seat, seats_of, support_checks
from .bending import bending_checks, rule_checks
from .bracing import Span
from .cut_rules import limit, on_seats, too_near
from .cuts import Region, has_net_section, net_section, regions
from .deflection import deflection_checks, finish_checks, limits_of
from .load_entry import load_checks
from .shear import pulled_edges, shear_checks

SHEAR_PART = 5.0 / 6.0  # of a rectangle's area works in shear deflection (Timoshenko); 0.9 of a circle's
KINDS_OF_HOLD = {"rests": "roller", "hung": "roller", "fixed": "fixed"}


@dataclass(frozen=True, eq=False)
class BeamRun:
    """A beam that has been solved: what the checks read."""

    beam: Beam
    size: Size
    section: Section
    wood: WoodMaterial
    solved: SolvedBeam
    spans: tuple[Span, ...]  # without the ends that only reach over their seats
    seats: list[Seat]
    regions: list[Region]
    E: float

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


def run_beam(beam: Beam, wood: WoodMaterial, context: Context) -> BeamRun:
    """Solve a beam made of the given wood.

    Raises
    ------
    Unstable, OutOfRange
        If the supports leave it free to move, or a value lies outside the rules.
    """
    E = float(modulus_prime(SilentPad(), wood))
    last, settles = context.memory.get("beam"), any(support.settles for support in beam.supports)
    if isinstance(last, BeamRun) and last.beam is beam and last.wood.density == wood.density and not settles:
        return replace(last, wood=wood, solved=last.solved.softer(last.E / E), E=E)
    run = _solved(beam, wood, context, E)
    context.memory["beam"] = run
    return run


def _solved(beam: Beam, wood: WoodMaterial, context: Context, E: float) -> BeamRun:
    size = read_size(context.stock(beam.stock).size)
    section, length, pad = section_of(size, beam.laid, beam.plies), beam_length(beam), SilentPad()
    d, area, inertia = float(section.d), float(section.area(pad)), float(section.inertia(pad))
    GA = float(pad(shear_modulus_from_E, E=E)) * (0.9 if section.round else SHEAR_PART)
    loads = [
        *applied_loads(beam.carries, length),
        *transferred_loads(context.transfers, length),
        self_weight(float(wood.density), area, length),
    ]
    seats = seats_of(beam.supports, length)
    spans = spans_of(length, [support.at for support in beam.supports])
    overhangs = [span for span in (spans[0], spans[-1]) if _is_free(span, seats)]
    stubs = [span for span in overhangs if _is_stub(span, seats, loads, d)]
    hanging = [span for span in overhangs if span not in stubs]
    by_place = sorted(seats, key=lambda seat: seat.support.at)
    cuts = regions(
        [*beam.cuts, *cuts_by_anchors(beam, context, section)], length,
        None if any(span[0] == 0.0 for span in hanging) else (by_place[0].start, by_place[0].end),
        None if any(span[1] == length for span in hanging) else (by_place[-1].start, by_place[-1].end),
    )  # fmt: skip
    weaker = [
        Stretched(region.start, region.end, E * float(net.I), GA * float(net.A))
        for region in cuts if has_net_section(section, region.cut) and region.end - region.start > SLIVER
        for net in [net_section(pad, section, region.cut)]
    ]  # fmt: skip
    solved = solve_beam(
        length, [BeamSupport(support.at, KINDS_OF_HOLD[support.holds], support.settles) for support in beam.supports],
        loads, depth=d, EI=E * inertia, GA_s=GA * area, sections=weaker, stands=_stands(seats, cuts, d),
        parts=[x for region in cuts for x in (region.start, region.end)],
    )  # fmt: skip
    checked = tuple(Span(*span, span in overhangs) for span in spans if span not in stubs)
    return BeamRun(beam, size, section, wood, solved, checked, seats, cuts, E)


def _is_free(span: Stretch, seats: Sequence[Seat]) -> bool:
    return not all(any(seat.support.at == x for seat in seats) for x in span)


def _is_stub(span: Stretch, seats: Sequence[Seat], loads: Sequence[Applied], d: float) -> bool:
    """An end that reaches over its seat by no more than the depth of the piece, with no point load on it.

    Its forces count like all others; but it is no cantilever for the limits of deflection, for the grading of
    overhanging timbers and for Table 3.3.3 (common practice, no source).
    """
    seat = next(seat for seat in seats if seat.support.at in span)
    if span[1] - span[0] > 0.5 * (seat.support.bearing or 0.0) + d or seat.support.holds == "fixed":
        return False
    inside = (load for load in loads if load.is_point and span[0] - SLIVER <= load.start <= span[1] + SLIVER)
    return not any(load.moves for load in loads) and all(abs(load.start - seat.support.at) < SLIVER for load in inside)


def _stands(seats: Sequence[Seat], cuts: Sequence[Region], d: float) -> list[float]:
    """Where a moving load does most for shear: beside a support, at d from the face of a seat, at the edges of cuts."""
    beside = [x for seat in seats for x in (seat.support.at - SLIVER, seat.support.at + SLIVER)]
    from_faces = [x for seat in seats for x in (seat.start - d, seat.end + d)]
    return [*beside, *from_faces, *(x for region in cuts for x in (region.start, region.end))]


def beam_checks(run: BeamRun, context: Context) -> list[Check]:
    """Every check of a beam of known wood."""
    beam, solved, section, wood = run.beam, run.solved, run.section, run.wood
    name, stock = beam.name, context.stock(beam.stock)
    seats: list[Stretch] = [(seat.start, seat.end) for seat in run.seats]
    found = [
        *bending_checks(beam, solved, run.spans, run.regions, wood, run.size, section, simple=run.simple),
        *shear_checks(beam, solved, run.seats, run.regions, wood, section),
        *support_checks(beam, solved, run.seats, wood, section, context),
        *deflection_checks(name, solved, run.spans, wood, limits_of(beam, beam.service)),
        *rule_checks(beam, stock, run.spans, run.size, section, run.seats),
        *finish_checks(beam, beam.service),
    ]
    for region in run.regions:
        pulled = pulled_edges(solved, region)
        rule = limit(region, section, [(s.start, s.end) for s in run.spans], single_span=run.simple, pulled=pulled)
        found.append(stated(name, f"limits of the {region.cut.kind}", rule.clause, rule.verdict, rule.text))
    together = (*too_near(run.regions, float(section.d)), *on_seats(run.regions, seats))
    found += [stated(name, "cuts", "NDS 2018 3.1.2", "refer", text) for text in together]
    found += load_checks(beam, solved, wood, section, context)
    found += load_doubts(beam, solved.cases, solved.loads, section)
    if beam.plies > 1:
        text = f"{beam.plies} plies are counted together in strength; their fastening is not checked"
        found.append(stated(name, "fastening of the plies", "NDS 2018 3.3.3, 15.3", "refer", text))
    return found


def check_beam(beam: Beam, wood: WoodMaterial, context: Context) -> tuple[BeamRun | None, list[Check]]:
    """Solve and check; what cannot be solved is one check that says why."""
    try:
        run = run_beam(beam, wood, context)
        return run, [*beam_checks(run, context), *doubts(beam.name, wood)]
    except Unstable as error:
        return None, [stated(beam.name, "stands still", "statics", "fails", str(error))]
    except OutOfRange as error:
        return None, [stated(beam.name, "within the rules", error.clause or "NDS 2018", "refer", str(error))]


def doubts(name: str, wood: WoodMaterial) -> list[Check]:
    """What is in doubt about the wood itself, each a check that refers."""
    return [stated(name, "evidence for the wood", "NDS 2018 4.1", "refer", text) for text in wood.doubts]


def largest_ratio(checks: Sequence[Check]) -> float:
    """The governing ratio of some checks; infinite when one failed without a number, or has one that is none."""
    if any(check.verdict == "fails" and check.ratio is None for check in checks):
        return float("inf")
    ratios = [check.ratio for check in checks if check.ratio is not None]
    return float("inf") if np.isnan(ratios).any() else max(ratios, default=0.0)
