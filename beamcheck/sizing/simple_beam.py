"""A simple beam as a sizing question asks about it, and a batch of such beams as arrays."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np

from ..analysis.beams.load_cases import PATTERNED, Applied, Case
from ..analysis.beams.member_loads import KIND_OF_FIELD, applied_loads
from ..checks.beams.beam import section_of
from ..checks.beams.bracing import Span, bracing_of, needs_end_restraint
from ..checks.beams.deflection import finish_checks, limits_of, total_counts
from ..checks.core.context import Site
from ..checks.core.seat import least_seat_length
from ..checks.core.wood.material import (
    Factor,
    Property,
    WoodMaterial,
    is_unknown,
    reference_values,
    sharing_of,
    wood_of,
)
from ..checks.core.wood.strength import Bracing, Section
from ..checks.loads.given import load_doubts
from ..checks.loads.wind import ID as WIND
from ..errors import JobError, OutOfRange, Problem
from ..model.beams import Beam, beam_length
from ..model.existing import Existing
from ..model.fields.said import shares_load
from ..model.reading.reader import job_from_data
from ..model.stock import Stock
from ..provenance import Source
from ..records import dataclass
from ..units import show
from ..values.factors import DeflectionLimits, effective_length, load_duration
from ..values.loads import asd_combinations
from ..values.lumber import DesignValues, Size, read_size
from .batch import KINDS, Beams
from .batch_rows import PROPERTIES, Array, stacked
from .meant import SEARCHED, parted

FIELD_OF_KIND = {kind: field for field, kind in KIND_OF_FIELD.items() if kind in KINDS}
NAME = "the beam"
QUESTION = "the sizing question"
_ASKED_AS = {"width": "spacing", "bearing": "seat", "carries 1": "loads", "grade_from": "grade"}
PSF = 1.0 / 144.0  # lbf/in2
SHARED = 3  # members that C_r asks for at least (NDS 2018 4.3.9)


@dataclass(frozen=True)
class Member:
    """What is known of a beam before its span, size or load is: its wood, and the beam over some span.

    `loads` holds the load per area of each kind given, lbf/in2. Made by `member`.
    """

    stock: Stock
    beam: Beam
    spacing: float
    seat: float
    loads: Mapping[str, float]

    def with_size(self, size: str) -> Member:
        """The same of another size."""
        return replace(self, stock=self.stock.model_copy(update={"size": size}))

    def with_load(self, kind: str, amount: float) -> Member:
        """The same with another load of one kind, lbf/in2."""
        carried = self.beam.carries[0].model_copy(update={FIELD_OF_KIND[kind]: (amount, "area")})
        beam = self.beam.model_copy(update={"carries": (carried,)})
        return replace(self, beam=beam, loads={**self.loads, kind: amount})


def member(
    species: str,
    grade: str,
    size: str,
    *,
    spacing: object,
    finish: str,
    service: str,
    moisture: str,
    top_held: object,
    dead: object = None,
    live: object = None,
    roof_live: object = None,
    snow: object = None,
    seat: object = None,
    plies: int = 1,
    shared_by: str = "",
    agency: str = "",
    incised: bool = False,
    measured_moisture: object = None,
    limit_live: int | None = None,
    limit_total: int | None = None,
    limit_why: str = "",
    meant: Mapping[str, str] | None = None,
) -> Member:
    """Describe a level simple beam, or one of many at a spacing, under loads per area.

    Parameters
    ----------
    species, grade, size, agency, moisture, measured_moisture, incised
        As in the `[[stock]]` of a job file.
    finish, service, top_held, plies, limit_live, limit_total, limit_why
        As in its `[[beam]]`.
    spacing : str or pint quantity
        From middle to middle of the beams: the width of floor or roof that comes to each.
    dead, live, roof_live, snow : str or pint quantity
        Loads per area, such as '40 psf'; at least one. Own weight is added.
    seat : str or pint quantity
        Length of each seat along the beam; by default the least that is allowed, the safe side for bearing.
    shared_by : str
        The deck that makes three or more of them share the load (C_r); nothing is counted for it when blank.
    meant : mapping, optional
        Why an odd figure is right all the same, by its field: `{"dead": "a green roof, by its maker"}`.

    Raises
    ------
    JobError
        With every problem of what was given.
    """
    of_wood, of_beam = parted(meant)
    stock = {
        "name": "wood", "species": species, "grade": grade, "size": size, "moisture": moisture, "agency": agency,
        "incised": incised, "measured_moisture": measured_moisture, "grade_from": "stamp",
        "evidence": "stamp of an agency: asked of whoever uses the answer", "meant": of_wood,
    }  # fmt: skip
    beam = {
        "name": NAME, "stock": "wood", "finish": finish, "service": service, "top_held": top_held, "plies": plies,
        "spacing": spacing, "members": SHARED if shares_load(shared_by) else 1, "shared_by": shared_by,
        "limit_live": limit_live, "limit_total": limit_total, "limit_why": limit_why,
        "meant": {**of_beam, **SEARCHED},
        "supports": [{"at": at, "on": "seats", "bearing": seat or f"{least_seat_length().value} in"}
                     for at in ("0 ft", "10 ft")],
        "carries": [{"what": service, "width": spacing, "dead": dead, "live": live, "roof_live": roof_live,
                     "snow": snow}],
    }  # fmt: skip
    data = {
        "job": {"title": "a sizing question", "standard": "NDS 2018", "loads": "ASCE 7-16"},
        "stock": [stock], "beam": [beam], "existing": [{"name": "seats", "what": "whatever holds the ends"}],
    }  # fmt: skip
    try:
        job = job_from_data(data, QUESTION)
    except JobError as error:
        raise JobError(QUESTION, list(dict.fromkeys(map(_as_asked, error.problems)))) from None
    made, wood = job.beam[0], job.stock[0]
    carried, bearing = made.carries[0], made.supports[0].bearing
    loads = {
        kind: amount[0] for kind, field in FIELD_OF_KIND.items() if (amount := getattr(carried, field)) is not None
    }
    problems = [
        Problem(field, "a load per area is asked for, such as '40 psf'")
        for field in FIELD_OF_KIND.values()
        if (amount := getattr(carried, field)) is not None and amount[1] != "area"
    ]
    if is_unknown(wood):
        problems.append(Problem("species", "sizing is for known wood; what is unknown is screened in a job file"))
    if made.top_held == "at loads":
        problems.append(
            Problem("top_held", "there is no point load that could hold the edge: say 'ends only' or a spacing")
        )
    if made.spacing is None or bearing is None:
        problems.append(Problem("spacing" if made.spacing is None else "seat", "missing"))
    elif bearing < least_seat_length().value:
        least = show(least_seat_length().value, "length")
        problems.append(Problem("seat", f"{show(bearing, 'length')} is too short: at least {least} (IRC R502.6)"))
    if problems or made.spacing is None or bearing is None:
        raise JobError(QUESTION, problems)
    return Member(wood, made, made.spacing, bearing, loads)


def _on_masonry() -> float:
    """The shortest seat that is allowed on masonry or concrete, inches."""
    return least_seat_length(Existing(name="masonry", what="masonry", material="masonry")).value


def _as_asked(problem: Problem) -> Problem:
    """A problem of the job that the question was put as, with the name that it has in the question."""
    field = problem.where.rpartition(", ")[2]
    return Problem(_ASKED_AS.get(field, field), problem.text)


@dataclass(frozen=True)
class Ready:
    """A member with everything looked up that does not depend on its span."""

    member: Member
    size: Size
    section: Section
    values: DesignValues
    wood: WoodMaterial
    bracing: Bracing  # l_u is the spacing of braces; infinite where only the ends hold
    limits: DeflectionLimits
    doubts: tuple[str, ...]  # what keeps a job's verdict from 'passes' with this wood, finish and loads


def ready(one: Member) -> Ready:
    """Look up values and factors.

    Raises UnknownName, OutOfRange if the tables have no such wood at this size, or it is round.
    """
    size = read_size(one.stock.size)
    if size.surface == "round":
        raise OutOfRange(
            f"size {size.text!r}: sizing is for rectangles; a round piece on a flat seat is for an engineer"
        )
    section = section_of(size, "on edge", one.beam.plies)
    values = reference_values(one.stock)
    wood = wood_of(one.stock, values, sharing=sharing_of(one.beam))
    # a span without end: l_u comes out as the spacing of braces, and as infinite where only the ends hold
    uniform = Applied("D", 0.0, math.inf, w_start=1.0, w_end=1.0)
    endless = Span(0.0, math.inf, False, upright=True)  # that the ends are held is among the conditions
    bracing = bracing_of(one.beam, size, section, endless, [uniform], simple=True, top=True)
    finish = (text for check in finish_checks(one.beam, one.beam.service) for text in check.notes)
    limits = limits_of(one.beam, one.beam.service)
    doubts = (*(doubt.text for doubt in wood.doubts), *finish, *_of_loads(one.beam, section))
    return Ready(one, size, section, values, wood, bracing, limits, doubts)


def _of_loads(beam: Beam, section: Section) -> Iterator[str]:
    """What a job doubts in such loads. Wind is none of it: that there is none is among the conditions."""
    loads = applied_loads(beam.carries, beam_length(beam))
    cases = [Case(kind, "", tuple(load for load in loads if load.kind == kind)) for kind in KINDS]
    for check in load_doubts(beam, cases, loads, section, Site()):
        if check.verdict == "refer" and check.id != WIND:
            yield from check.notes


def batch(rows: Sequence[Ready], span: Array) -> Beams:
    """The members over these spans, each with its own loads. Shear is taken in full: nothing is left out near seats."""
    column = {kind: np.array([row.member.loads.get(kind, 0.0) * row.member.spacing for row in rows]) for kind in KINDS}
    caps = [row.limits.total_at_most for row in rows]
    return Beams(
        section=Section(
            np.array([row.section.b for row in rows]), np.array([row.section.d for row in rows]),
            np.array([row.section.breadth_alone for row in rows]),
        ),
        wood=stacked([row.wood for row in rows]),
        span=span,
        seat=np.array([row.member.seat for row in rows]),
        loads={kind: load for kind, load in column.items() if kind == "D" or load.any()},
        held=np.array([row.bracing.held for row in rows]),
        braces=np.array([math.inf if row.bracing.held else row.bracing.l_u for row in rows]),
        limit_live=np.array([row.limits.live.value for row in rows]),
        limit_roof=np.array([row.limits.snow.value for row in rows]),
        limit_total=np.array([row.limits.total.value for row in rows]),
        dead_counts=np.array([float(total_counts(row.limits, row.wood).value) for row in rows]),
        total_at_most=np.array([math.inf if cap is None else cap.value for cap in caps]),
    )  # fmt: skip


def conditions(row: Ready) -> tuple[str, ...]:
    """What must be so for the answer to hold; none of it was checked."""
    beam, one = row.member.beam, row.member
    held = beam.top_held if isinstance(beam.top_held, str) else f"every {show(beam.top_held, 'length')}"
    found = [
        "For lumber stamped with this species and grade only: no evidence of the grade was asked for.",
        "One level span, from middle to middle of its seats, with the load spread evenly over all of it: no point "
        "load, no wind, no uplift, no overhang, no slope.",
        "Whole sections: a notch, hole, mortise or decay changes the answer.",
        f"Seats of {show(one.seat, 'length')} or more over the full breadth, on masonry or concrete of "
        f"{show(max(one.seat, _on_masonry()), 'length')} or more; what carries them is not checked.",
        f"Service: {row.member.stock.moisture}, up to 100 deg F. Finish: {beam.finish}.",
        f"Top edge held sideways: {held}.",
    ]
    if needs_end_restraint(row.size, row.section):
        found.append("Both ends held against turning over (NDS 2018 3.3.3.4, 4.4.1.2).")
    if beam.plies > 1:
        found.append(f"{beam.plies} plies fastened together so that they act as one; the fastening is not checked.")
    if shares_load(beam.shared_by):
        found.append(f"Three or more side by side share the load (C_r): {beam.shared_by}.")
    if beam.limit_live or beam.limit_total:
        found.append(f"Deflection limits of one's own: {beam.limit_why}.")
    return tuple(found)


def sources(row: Ready) -> tuple[Source, ...]:
    """The distinct sources of everything that was looked up."""
    return tuple(dict.fromkeys(_sources(row)))


def _sources(row: Ready) -> Iterator[Source]:
    yield row.size.source
    for name in PROPERTIES:
        given: Property = getattr(row.wood, name)
        yield from filter(None, [given.source, *(f.source for f in vars(given).values() if isinstance(f, Factor))])
    if (counted := total_counts(row.limits, row.wood).source) is not None:
        yield counted
    if not row.bracing.held:
        yield effective_length("simple_uniform").source
    limits = row.limits
    yield from (limits.live.source, limits.snow.source, limits.total.source)
    if limits.total_at_most is not None:
        yield limits.total_at_most.source
    yield from (one.source for one in asd_combinations() if set(one.factors) <= set(KINDS))
    yield from (load_duration(kind).source for kind in ("D", *PATTERNED) if row.member.loads.get(kind))
