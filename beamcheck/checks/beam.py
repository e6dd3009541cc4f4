"""A level beam, from its entry in the job to a result."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..analysis.beam_frame import Section as Stretch
from ..analysis.carried import applied_loads, arrived_loads, self_weight
from ..analysis.loading import Applied
from ..analysis.straight import Held, Straight, solve_straight
from ..errors import OutOfRange, Unstable
from ..formulas.deflection import shear_modulus_from_E
from ..formulas.pad import Pad, SilentPad
from ..model.pieces import Beam
from ..units import show
from ..values.lumber import Size, read_size
from .bent import bending_checks, rule_checks
from .bracing import Span
from .context import Around
from .cuts import Region, limits, net_section, overlapping, regions
from .deflect import deflection_checks, limits_of
from .demand import Asked, at, govern, stated
from .result import Check
from .sheared import shear_checks
from .strength import Outcome, Section, bearing
from .supports import Seat, seats_of, support_checks
from .wood import Wood, modulus_prime

SHEAR_PART = 5.0 / 6.0  # of a rectangle's area works in shear deflection (Timoshenko); 0.9 of a circle's
KINDS_OF_HOLD = {"rests": "roller", "hung": "roller", "fixed": "fixed"}


@dataclass(frozen=True, eq=False)
class BeamRun:
    """A beam that has been solved: what the checks read."""

    beam: Beam
    size: Size
    section: Section
    wood: Wood
    straight: Straight
    spans: tuple[Span, ...]
    seats: list[Seat]
    regions: list[Region]


def section_of(size: Size, laid: str, plies: int) -> Section:
    """The section as it stands under load."""
    if size.surface == "round":
        return Section(size.d, size.d, size.d, round=True)
    b, d = (size.d, size.b) if laid == "flat" else (size.b, size.d)
    return Section(plies * b, d, b)


def beam_length(beam: Beam) -> float:
    """Over all, inches."""
    return beam.length if beam.length is not None else max(support.at for support in beam.supports)


def run_beam(beam: Beam, wood: Wood, around: Around) -> BeamRun:
    """Solve a beam made of the given wood.

    Raises
    ------
    Unstable, OutOfRange
        If the supports leave it free to move, or a value lies outside the rules.
    """
    size = read_size(around.stock(beam.stock).size)
    section = section_of(size, beam.laid, beam.plies)
    length = beam_length(beam)
    silent = SilentPad()
    area, inertia = float(section.area(silent)), float(section.inertia(silent))
    E = float(modulus_prime(silent, wood))
    G = float(silent(shear_modulus_from_E, E=E))
    part = 0.9 if section.round else SHEAR_PART
    loads = [
        *applied_loads(beam.carries, length),
        *arrived_loads(around.arrivals, length),
        self_weight(float(wood.density), area, length),
    ]
    held = [Held(support.at, KINDS_OF_HOLD[support.holds], support.settles) for support in beam.supports]
    seats = seats_of(beam.supports, length)
    cuts = regions(beam.cuts, length, seats[0].end, seats[-1].start)
    weaker = [
        Stretch(region.start, region.end, E * float(net.I), G * part * float(net.A))
        for region in cuts
        if not section.round and region.cut.depth < section.d and region.end > region.start
        for net in [net_section(silent, section, region.cut)]
    ]
    straight = solve_straight(
        length, held, loads, depth=float(section.d), EI=E * inertia, GA_s=G * part * area, sections=weaker
    )
    places = [support.at for support in beam.supports]
    spans = tuple(Span(start, end, not (start in places and end in places)) for start, end in straight.spans)
    return BeamRun(beam, size, section, wood, straight, spans, seats, cuts)


def beam_checks(run: BeamRun, around: Around) -> list[Check]:
    """Every check of a beam of known wood."""
    beam, straight, section, wood = run.beam, run.straight, run.section, run.wood
    stock = around.stock(beam.stock)
    single = len(run.spans) == 1
    found = [
        *bending_checks(beam, straight, run.spans, run.regions, wood, run.size, section, run.seats),
        *shear_checks(beam, straight, run.seats, run.regions, wood, section),
        *support_checks(beam, straight, run.seats, wood, section, around),
        *deflection_checks(beam.name, straight, run.spans, wood, limits_of(beam, beam.service)),
        *rule_checks(beam, stock, run.spans, run.size, section, run.seats),
    ]
    for region in run.regions:
        found += [
            stated(beam.name, f"limits of the {region.cut.kind}", limit.clause, limit.verdict, limit.text)  # type: ignore[arg-type]
            for limit in limits(region, section, [(s.start, s.end) for s in run.spans], single_span=single)
        ]
    found += [stated(beam.name, "cuts", "NDS 2018 3.1.2", "refer", text) for text in overlapping(run.regions)]
    found += _loads_on(run)
    if beam.plies > 1:
        found.append(stated(beam.name, "fastening of the plies", "NDS 2018 3.3.3, 15.3", "refer",
                            f"{beam.plies} plies are counted together in strength; their fastening is not checked"))  # fmt: skip
    return found


def _loads_on(run: BeamRun) -> list[Check]:
    """Point loads on the top need a seat; loads from below pull across the grain; one-sided wind needs a look."""
    found = []
    points = [load for load in run.straight.loads if load.is_point and load.applied in ("top", "unknown")]
    for x, what in dict.fromkeys((load.start, load.what) for load in points):
        found.append(_seat_on(run, x, what, [load for load in points if (load.start, load.what) == (x, what)]))
    hung = [load.what for load in run.straight.loads if load.applied == "below"]
    if hung:
        found.append(
            stated(run.beam.name, "loads hung from below", "NDS 2018 3.8.2", "refer",
                   f"{', '.join(dict.fromkeys(hung))}: a load hung low pulls the wood apart across the grain; there is no "
                   "design value for that. Show how high its fastening sits")
        )  # fmt: skip
    return found


def _seat_on(run: BeamRun, x: float, what: str, loads: Sequence[Applied]) -> Check:
    """Bearing of the beam's top under one point load."""
    title, where = f"seat of {what.removeprefix('from ') or 'a point load'} on the top", show(x, "length")
    l_b = min((load.bearing for load in loads if load.bearing), default=None)
    if l_b is None or any(load.applied == "unknown" for load in loads):
        return stated(run.beam.name, title, "NDS 2018 3.10.2", "refer",
                      "how this point load reaches the beam, or the length of its seat, is not given (`applied`, `bearing`)",
                      where=where)  # fmt: skip
    straight, total = run.straight, np.zeros(len(run.straight.combinations))
    for kind in {load.kind for load in loads}:
        most = sum(max(load.P, 0.0) for load in loads if load.kind == kind)
        of_kind = np.array([case.kind == kind for case in straight.cases])
        total += most * np.max(straight.factors * of_kind, axis=1)  # patterns do not ease a seat
    asked = Asked(run.beam.name, title, "NDS 2018 3.10.2", "stress", where, ("breadth of the seat: the beam's own",))

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(total, which), "lbf", note="the point load")
        return bearing(pad, run.wood, R=R, b=run.section.b, l_b=l_b, near_end=True)

    return govern(asked, straight.combinations, calculate)


def check_beam(beam: Beam, wood: Wood, around: Around) -> tuple[BeamRun | None, list[Check]]:
    """Solve and check; what cannot be solved is one failing check that says why."""
    try:
        run = run_beam(beam, wood, around)
    except Unstable as error:
        return None, [stated(beam.name, "stands still", "statics", "fails", str(error))]
    except OutOfRange as error:
        return None, [stated(beam.name, "within the rules", error.clause or "NDS 2018", "refer", str(error))]
    return run, [*beam_checks(run, around), *doubts(beam.name, wood)]


def doubts(name: str, wood: Wood) -> list[Check]:
    """What is in doubt about the wood itself, each a check that refers."""
    return [stated(name, "evidence for the wood", "NDS 2018 4.1", "refer", text) for text in wood.doubts]


def largest_ratio(checks: Sequence[Check]) -> float:
    """The governing ratio of some checks; 0 when none has a number, infinite when one failed without."""
    ratios = [check.ratio for check in checks if check.ratio is not None]
    if any(check.verdict == "fails" and check.ratio is None for check in checks):
        return float("inf")
    return float(np.max(ratios)) if ratios else 0.0
