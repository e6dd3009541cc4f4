"""Every check of a level beam: the wood, its ends and cuts, and how its loads come on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np

from ...analysis.beams.load_cases import Stretch
from ...calc.pad import SilentPad
from ...errors import OutOfRange, Unstable
from ...formulas.wood import bearing as br
from ...model.beams import Beam
from ...model.fields.said import fastens
from ...units import show
from ...values.refused import in_trade_words
from ..core.asking.question import ask
from ..core.context import Context
from ..core.result import Check
from ..core.wood.material import WoodMaterial, bearing_prime
from ..core.wood.wood_doubts import named_engineered, wood_evidence_checks
from ..loads.given import load_doubts
from ..loads.roofs import unsaid_slope_checks
from ..loads.weather import weather_checks
from .beam_run import BeamRun as BeamRun
from .beam_run import BeamSolver, own_weight_is_stated, solved_run
from .beam_run import section_of as section_of
from .bearing import support_checks
from .bending import bending_checks, rule_checks
from .cuts import cut_checks
from .deflection import deflection_checks, finish_checks, limits_of
from .load_entry import load_checks
from .rows import own_row_checks, row_checks
from .seats import Seat, contact_of, solved_at
from .shear import pulled_edges, shear_checks

OF_THE_SPAN = (
    "beam.bending",
    "beam.bending.below",
    "beam.shear",
    "beam.deflection.live",
    "beam.deflection.snow",
    "beam.deflection.wind",
    "beam.deflection.total",
)  # fmt: skip - checks that go with the length of a span
SPAN = "NDS 2018 3.2.1"


def check_beam(
    beam: Beam, wood: WoodMaterial, context: Context, solver: BeamSolver | None = None
) -> tuple[BeamRun | None, list[Check]]:
    """Solve and check; what cannot be solved is one check that says why."""
    try:
        run = (solver or BeamSolver(beam, context)).run(wood)
        named = named_engineered(beam) if wood.made == "sawn" else []
        return run, [*beam_checks(run, context), *wood_evidence_checks(beam.name, wood.doubts), *named]
    except Unstable as error:
        return None, [Check.breaks_rule("beam.stands", beam.name, "stands still", "statics", str(error))]
    except OutOfRange as error:
        question = ask("outside_rules", beam.name, rule=in_trade_words(error))
        clause = error.clause or "NDS 2018"
        what = "within the rules"
        return None, [Check.refers("beam.within_rules", beam.name, what, clause, in_trade_words(error), ask=question)]


def beam_checks(run: BeamRun, context: Context) -> list[Check]:
    """Every check of a beam of known wood."""
    if run.wood.made == "steel":
        return _of_steel(run, context)
    found = [*_of_the_span(run, context)]
    if any(check.verdict == "fails" for check in found) and (shorter := _by_the_code_span(run, context)):
        found = [_beside(check, shorter) for check in found]
    beam, solved, section, wood = run.beam, run.solved, run.section, run.wood
    seats: list[Stretch] = [(seat.start, seat.end) for seat in run.seats]
    spans = [(span.start, span.end) for span in run.spans]
    return [
        *found,
        *support_checks(beam, solved, run.seats, wood, section, context),
        *rule_checks(beam, context.stock(beam.stock), run.spans, run.size, section, run.seats),
        *finish_checks(beam, beam.service),
        *_cuts(run, context, spans, seats),
        *load_checks(beam, solved, wood, section, context),
        *load_doubts(beam, solved.cases, solved.loads, section, context.structure.site),
        *unsaid_slope_checks(beam),
        *weather_checks(beam, context.stock(beam.stock)),
        *row_checks(beam, context),
        *own_row_checks(beam, context),
        *(_in_a_fire(run, context) if wood.made == "sawn" else _of_its_make(run, context)),
        *_own_weight(run),
        *_plies(run, context),
    ]  # fmt: skip


def _in_a_fire(run: BeamRun, context: Context) -> Iterator[Check]:
    if run.beam.fire is not None:
        from .fire import fire_checks

        yield from fire_checks(run, context)


def _cuts(run: BeamRun, context: Context, spans: Sequence[Stretch], seats: Sequence[Stretch]) -> Iterator[Check]:
    """Where cuts may be, by the rules of the wood that it is."""
    pulled = [pulled_edges(run.solved, region) for region in run.regions]
    if run.wood.made == "sawn":
        yield from cut_checks(
            run.beam.name, run.regions, run.section, spans, seats, single_span=run.simple, pulled=pulled
        )
    elif run.regions:
        from .made.engineered import cuts_by_make

        stock = context.stock(run.beam.stock)
        yield from cuts_by_make(run.beam, stock, run.regions, run.section, spans, seats, pulled)


def _of_steel(run: BeamRun, context: Context) -> list[Check]:
    """Every check of a steel beam."""
    from .made.steel import steel_checks

    beam, solved = run.beam, run.solved
    return [
        *steel_checks(run, context),
        *load_doubts(beam, solved.cases, solved.loads, run.section, context.structure.site),
        *unsaid_slope_checks(beam),
        *weather_checks(beam, context.stock(beam.stock)),
        *row_checks(beam, context),
        *own_row_checks(beam, context),
        *_own_weight(run),
    ]


def _of_its_make(run: BeamRun, context: Context) -> Iterator[Check]:
    from .made.engineered import engineered_checks

    yield from engineered_checks(run.beam, context.stock(run.beam.stock), context)


def _of_the_span(run: BeamRun, context: Context) -> Iterator[Check]:
    """Bending, shear and deflection."""
    beam, solved, section, wood = run.beam, run.solved, run.section, run.wood
    yield from bending_checks(
        beam, solved, run.spans, run.regions, wood, run.size, section, simple=run.simple, seats=run.seats
    )
    yield from shear_checks(beam, solved, run.seats, run.regions, wood, section)
    yield from deflection_checks(beam.name, solved, run.spans, wood, limits_of(beam, beam.service), beam.sag_limits)


# ---- the span of NDS 2018 3.2.1 ---------------------------------------------------------------------------------


def _by_the_code_span(run: BeamRun, context: Context) -> dict[tuple[str, str], Check]:
    """The checks of the span once more, with the span that the standard allows; nothing where that is no shorter."""
    places = [_bears_at(run, seat, context) for seat in run.seats]
    if places == [seat.x for seat in run.seats]:
        return {}
    shorter = solved_run(run.beam, run.wood, context, places)
    return {(check.id, check.what): check for check in _of_the_span(shorter, context)}


def _bears_at(run: BeamRun, seat: Seat, context: Context) -> float:
    """Half the bearing length that the reaction needs behind the inner face of an end seat; else its middle."""
    support, x = seat.support, seat.x
    others = [other.x for other in run.seats if other is not seat]
    inner = [span for span in run.spans if x in (span.start, span.end)]
    at_an_end = len(inner) == 1 and not inner[0].overhang and others
    if not at_an_end or support.holds != "rests" or not support.bearing or run.section.round:
        return x
    contact = contact_of(run.beam, seat, run.section, context)
    if not contact.b > 0.0 or contact.doubts:
        return x
    pad, R = SilentPad(), max(float(np.max(run.solved.pressing(seat.index))), 0.0)
    needed = float(pad(br.required_bearing_length, R=R, b=contact.b, F_c_perp_prime=bearing_prime(pad, run.wood, 1.0)))
    inward = 1.0 if inner[0].start == x else -1.0
    return solved_at(x + inward * max(0.5 * (support.bearing - needed), 0.0), run.solved.length)


def _beside(check: Check, shorter: Mapping[tuple[str, str], Check]) -> Check:
    """What fails from middle to middle of the seats says what it would be over the span of the standard."""
    other = shorter.get((check.id, check.what))
    if check.verdict != "fails" or check.id not in OF_THE_SPAN or other is None or other.ratio is None:
        return check
    note = (
        f"from middle to middle of the seats; over the clear span and half the bearing length needed at each end "
        f"({SPAN}) it is at {show(other.ratio, 'ratio')}"
    )
    return replace(check, notes=(*check.notes, note))


# ---- own weight, plies, wood ------------------------------------------------------------------------------------


def _own_weight(run: BeamRun) -> Iterator[Check]:
    """A dead load that is said to hold the weight of the piece must be at least that."""
    beam = run.beam
    id, what = "beam.own_weight", "own weight within the dead load"
    own = float(run.wood.density) * float(run.section.area(SilentPad()))
    if not own_weight_is_stated(beam):
        yield from _perhaps_within(run, own)
        return
    there = sum(
        load.w_start for load in run.solved.loads
        if load.kind == "D" and load.entry is not None and beam.carries[load.entry].dead_includes_own_weight
    )  # fmt: skip
    if there < own:
        text = f"the dead load is {show(there, 'line load')}, and the piece alone weighs {show(own, 'line load')}"
        number = next(i for i, load in enumerate(beam.carries, 1) if load.dead_includes_own_weight)
        question = ask("own_weight", beam.name, f"beam.{beam.name}.carries.{number}.dead_includes_own_weight")
        yield Check.refers(id, beam.name, what, "statics", text, ask=question)
        return
    text = f"{show(own, 'line load')} of the {show(there, 'line load')} dead load is the piece itself, as said"
    yield Check.keeps_rule(id, beam.name, what, "statics", text)


def _perhaps_within(run: BeamRun, own: float) -> Iterator[Check]:
    """Own weight is added; whether the dead load holds it already, as that of a code's table does, nobody has said."""
    for number, load in enumerate(run.beam.carries, 1):
        whole = [one for one in run.solved.loads if one.kind == "D" and one.entry == number - 1 and not one.is_point]
        unsaid = load.dead_includes_own_weight is None and load.start is None and load.end is None
        if not unsaid or sum(one.w_start for one in whole) < own:
            continue
        field = f"beam.{run.beam.name}.carries.{number}.dead_includes_own_weight"
        text = f"{show(own, 'line load')} of own weight is counted beside the dead load of {load.what}"
        check = Check.keeps_rule("beam.own_weight", run.beam.name, "own weight", "statics", text)
        yield replace(check, questions=(ask("own_weight_within", run.beam.name, field, load=load.what),))
        return


def _plies(run: BeamRun, context: Context) -> Iterator[Check]:
    """Plies act together where each bears on every seat, takes load from the top like the others, and is kept "
    "in line."""
    beam, id, what, clause = run.beam, "beam.plies", "fastening of the plies", "IRC Table R602.3(1), common practice"
    if beam.flitch is not None:
        from .made.flitch import flitch_checks

        yield from flitch_checks(run, context)
    if beam.plies == 1:
        return
    from ..core.wood.made.nails import bolts_at, falls_short

    narrow = [seat for seat in run.seats if _is_narrow(seat, run)]
    aside = sorted({load.what for load in run.solved.loads if load.applied in ("side", "below", "rod")})
    if narrow:
        text = f"{', '.join(seat.name for seat in narrow)}: not every ply bears there, so the fastening must carry load"
        question = ask("plies_load", beam.name, why=text)
        yield Check.refers(id, beam.name, what, clause, text, ask=question)
    elif aside:
        from .made.plies import ply_checks

        yield from ply_checks(run, context)
    elif fastens(beam.plies_fastened) or beam.plies_schedule is not None or beam.flitch is not None:
        by = beam.plies_schedule
        said = (
            beam.plies_fastened or "the bolts of the plate"
            if by is None
            else f"{by.size}, {by.rows} rows every {show(by.spacing, 'length')}"
        )
        if short := falls_short(said, run.size.b):
            text = f"said to be: {said}. {short}"
            if by is not None:
                yield Check.breaks_rule(id, beam.name, what, "NDS 2018 12.1.6.5", text)
                return
            field = f"beam.{beam.name}.plies_fastened"
            question = ask("plies_fastened", beam.name, field, answers=bolts_at(field), why=f"{text}.")
            yield Check.refers(id, beam.name, what, "NDS 2018 12.1.6.5", text, ask=question)
            return
        text = (
            f"said to be: {said}. Each of {beam.plies} plies bears on every seat and takes load "
            f"from the "
            "top like the others, so that it only keeps them in line; for sideways buckling one ply counts"
        )
        yield Check.keeps_rule(id, beam.name, what, clause, text)
    else:
        text = f"{beam.plies} plies are counted together in strength; how they are fastened is not said"
        if said := beam.plies_fastened.strip():
            text += f" by {said!r}: fasteners with their size or spacing"
        field = f"beam.{beam.name}.plies_fastened"
        usual = bolts_at(field) if falls_short("10d", run.size.b) else None  # the nails of the table do not reach
        question = ask("plies_fastened", beam.name, field, answers=usual)
        yield Check.refers(id, beam.name, what, clause, text, ask=question)


def _is_narrow(seat: Seat, run: BeamRun) -> bool:
    width = seat.support.bearing_width
    return seat.support.holds == "rests" and width is not None and width < float(run.section.b)


def largest_ratio(checks: Sequence[Check]) -> float:
    """The governing ratio of some checks; infinite when one failed without a number, or has one that is none."""
    if any(check.verdict == "fails" and check.ratio is None for check in checks):
        return float("inf")
    ratios = [check.ratio for check in checks if check.ratio is not None]
    return float("inf") if np.isnan(ratios).any() else max(ratios, default=0.0)
