"""Plies that take load from the side: nails or bolts pass it on from the ply where it comes in (NDS 2018 chapter 12).

All of it is taken to come in on one outer ply, and each ply to carry an equal share.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from ....analysis.beams.load_cases import Applied
from ....calc.core import smallest
from ....calc.pad import Pad
from ....errors import BeamcheckError
from ....formulas.connections import adjustment as adj
from ....formulas.connections import lateral
from ....formulas.connections import plies as formulas
from ....formulas.connections.ranges import LONGEST_LASTING
from ....formulas.connections.spacing import row_spacing_perpendicular
from ....model.links.hardware import diameter_and_length
from ....model.made.schedule import PlySchedule
from ....model.stock import Stock
from ....provenance import Source
from ....records import dataclass
from ....units import show
from ....values.found import Found
from ....values.hardware.connections import Moist, connection_temperature, connection_wet_service, distance
from ....values.hardware.fasteners import bending_yield
from ....values.judgment import judgment
from ....values.loader import rows
from ....values.refused import in_trade_words
from ....values.species import specific_gravity
from ...core.asking.question import PlausibleAnswer, Question, ask
from ...core.context import Context
from ...core.result import Check
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.material import WoodMaterial, is_unknown
from ...core.wood.strength import Outcome
from ..beam_run import BeamRun

CLAUSE = "NDS 2018 11.3, 12.3"
HAIR = 1e-6


@dataclass(frozen=True)
class _Joined:
    """Two neighboring plies and what joins them."""

    by: PlySchedule
    D: float
    length: float | None  # of a nail
    thick: float
    G: float
    F_yb: float
    source: Source


def side_loads(run: BeamRun) -> list[Applied]:
    """The loads that come in on a side."""
    return [load for load in run.solved.loads if load.applied in ("side", "below", "rod")]


def ply_checks(run: BeamRun, context: Context) -> Iterator[Check]:
    """Plies with a schedule: its distances, and the load that it passes on."""
    beam, id, what = run.beam, "beam.plies", "fastening of the plies"
    by, aside = beam.plies_schedule, side_loads(run)
    names = ", ".join(sorted({load.what for load in aside}))
    if any(load.is_point for load in aside) or beam.plies > 3 or run.section.round:
        text = f"{names}: " + (
            "four plies or more, or round ones" if beam.plies > 3 or run.section.round
            else "a single force needs fasteners of its own where it comes in"
        )  # fmt: skip
        yield Check.refers(id, beam.name, what, CLAUSE, text, ask=ask("plies_load", beam.name, why=text))
        return
    if by is None:
        text = f"{names} come in from the side: the fastening must carry them from ply to ply, and is not described"
        yield Check.refers(id, beam.name, what, CLAUSE, text, ask=_ask_schedule(run, context))
        return
    try:
        joined = _joined(run, by, context)
    except BeamcheckError as error:
        text = in_trade_words(error)
        yield Check.refers(id, beam.name, what, CLAUSE, text, ask=ask("plies_load", beam.name, why=text))
        return
    if broken := "; ".join(_broken(run, joined)):
        yield Check.breaks_rule(id, beam.name, what, "NDS 2018 12.1, 12.5", broken)
        return
    if unsaid := _unsaid(run, by):
        field, text = unsaid
        question = ask(f"plies_{field}", beam.name, f"beam.{beam.name}.plies_schedule.{field}")
        yield Check.refers(id, beam.name, what, "NDS 2018 12.1, 12.5", text, ask=question)
    elif joined.length is not None and (short := _close(joined)):
        yield Check.refers(id, beam.name, what, "NDS 2018 12.1.6", short, ask=ask("plies_load", beam.name, why=short))
    else:
        text = f"{by.size}, {by.rows} rows every {show(by.spacing, 'length')}: distances within the rules"
        yield Check.keeps_rule(id, beam.name, what, "NDS 2018 12.1, 12.5", text)
    yield _passes_on(run, joined, context, aside)


def _joined(run: BeamRun, by: PlySchedule, context: Context) -> _Joined:
    stock = context.stock(run.beam.stock)
    D, length = diameter_and_length(by.kind, by.size)
    G = run.wood.G if run.wood.G is not None or is_unknown(stock) else specific_gravity(stock.species)[0]
    if G is None:
        raise BeamcheckError(f"the specific gravity of {stock.name} for fasteners is not known")
    yielding = bending_yield(by.kind, D)
    return _Joined(by, D, length, run.size.b, G, yielding.value, yielding.source)


def _broken(run: BeamRun, one: _Joined) -> Iterator[str]:
    """Distances that are too small, and nails that do not reach."""
    by, D, d = one.by, one.D, run.size.d
    bolt = by.kind == "bolt"
    across = d - 2.0 * by.edge
    needed = [
        ("from the end", by.end, (4.0 if bolt else 10.0) * D),
        ("in a row", by.spacing, bolts_apart(one.thick, D) if bolt else 5.0 * D),
        ("from the edge", by.edge, (4.0 if bolt else 2.5) * D),
    ]  # fmt: skip
    if by.row_spacing is not None:
        needed.append(("from row to row", by.row_spacing, 5.0 * D))
    for words, there, least in needed:
        if there < least - HAIR:
            yield f"{show(there, 'length')} {words}: {show(least, 'small length')} is needed"
    if by.row_spacing is not None and (by.rows - 1) * by.row_spacing > across + HAIR:
        yield "the rows do not fit between the edges"
    if one.length is not None:
        reach = min(one.length - one.thick, one.thick)
        if reach < 6.0 * D - HAIR:
            into = show(max(reach, 0.0), "small length")
            yield f"nails {show(one.length, 'length')} long reach {into} into the next ply"
        if run.beam.plies > 2 and by.from_both_sides is False:
            yield "of three plies each outer one needs its own nails (`from_both_sides`)"
    elif by.washers is False:
        yield "bolts need a washer under head and nut (`washers`)"


def bolts_apart(thick: float, D: float) -> float:
    """Least distance of bolts along the grain, in: under load across it they are rows of Table 12.5.1D."""
    return max(4.0 * D, float(row_spacing_perpendicular(thick, D)))


def _unsaid(run: BeamRun, by: PlySchedule) -> tuple[str, str] | None:
    """The field that nobody filled in and that decides, with the sentence that says so."""
    if by.kind == "nail" and run.beam.plies > 2 and by.from_both_sides is None:
        return "from_both_sides", "of three plies each outer one needs its own nails: from which sides is not said"
    if by.kind == "bolt" and by.washers is None:
        return "washers", "bolts need a washer under head and nut: whether they have them is not said"
    return None


def moist(wood: WoodMaterial, stock: Stock, D: float, one_row: bool) -> Found[float]:
    """C_M of what joins plies: the lowest of what may come true. Wood that is put in green may dry in its place."""
    ways: list[tuple[Moist, Moist]] = [("dry", "dry")] if wood.dry else [("wet", "wet")]
    if not wood.dry and stock.moisture != "wet":
        ways.append(("wet", "dry"))
    found = [connection_wet_service("lateral", made, service, D, one_row) for made, service in ways]
    return min(found, key=lambda one: one.value)


def _close(one: _Joined) -> str:
    """Nails so close in a row that wood which is not bored ahead splits, as the commentary advises; '' where not."""
    advised = distance("thin", "not prebored", "spacing along").value.least * one.D
    if one.by.spacing >= advised - HAIR:
        return ""
    there, least = show(one.by.spacing, "length"), show(advised, "small length")
    return f"{there} from nail to nail in a row: {least} is advised where holes are not bored ahead"


def _length_in_main(one: _Joined) -> float:
    """Bearing length in the second ply; the point of a nail that ends in it does not count (12.3.5.3)."""
    if one.length is None or one.length >= 2.0 * one.thick:
        return one.thick
    return one.length - one.thick - one.D


def _passes_on(run: BeamRun, one: _Joined, context: Context, aside: Sequence[Applied]) -> Check:
    beam, by, stock = run.beam, one.by, context.stock(run.beam.stock)
    w_all = _per_length(run, aside)
    criterion = Criterion(
        beam.name, "load from ply to ply", CLAUSE, "line load", id="beam.plies.shear",
        notes=("all of it is taken to come in on one outer ply",),
    )  # fmt: skip
    C_M = moist(run.wood, stock, one.D, by.rows == 1)
    heat = connection_temperature(stock.temperature, not run.wood.dry)
    share = judgment("group action of bolts through plies")

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        w_side = pad.take("w_side", at(w_all, which), "lbf/in", note="what comes in on the side")
        w = pad(formulas.transferred_to_the_rest, w_side=w_side, n=float(beam.plies))
        G = pad.take("G", one.G, note=run.wood.label)
        F_e = float(lateral.wood_bearing(pad, G=G, D_nom=one.D, theta=90.0))
        F_yb = pad.take("F_yb", one.F_yb, "psi", source=one.source)
        Z = lateral.single_shear(
            pad, D=one.D, D_nom=one.D, l_m=_length_in_main(one), l_s=one.thick, F_em=F_e, F_es=F_e, F_yb=F_yb,
            theta=90.0,
        ).Z  # fmt: skip
        C_g = 1.0
        if by.kind == "bolt":
            C_g = pad.take("C_g", share.value, note=share.reason, source=share.source)
        Z_prime = pad(
            adj.adjusted_lateral, Z=Z, C_D=smallest(duration(pad, run.solved.combinations, which), LONGEST_LASTING),
            C_M=pad.take("C_M", C_M.value, note=C_M.reason, source=C_M.source),
            C_t=pad.take("C_t", heat.value, note=heat.reason, source=heat.source), C_g=C_g, C_delta=1.0, C_eg=1.0,
            C_di=1.0, C_tn=1.0,
        )  # fmt: skip
        most = pad(formulas.rows_of_fasteners, Z_prime=Z_prime, n=float(by.rows), s=by.spacing)
        return Outcome(w, most, w / most)

    return govern(criterion, run.solved.combinations, calculate)


def _per_length(run: BeamRun, loads: Sequence[Applied]) -> np.ndarray:
    """(combinations,) the most that comes in per length, lbf/in; what lifts counts by its size."""
    solved = run.solved
    total = np.zeros(len(solved.combinations))
    for kind in {load.kind for load in loads}:
        most = sum(max(abs(load.w_start), abs(load.w_end)) for load in loads if load.kind == kind)
        of_kind = np.array([case.kind == kind for case in solved.cases])
        total += most * np.max(np.abs(solved.factors) * of_kind, axis=1)
    return total


def _ask_schedule(run: BeamRun, context: Context) -> Question:
    """The nails or bolts; the best answer is a schedule that would do."""
    path = f"beam.{run.beam.name}.plies_schedule"
    answers = []
    for row in rows("ply_schedules"):
        spacing = float(row["spacing"])
        given = _nails(run, int(row["rows"]), spacing)
        if given is None:
            break
        try:
            one = _joined(run, given, context)
        except BeamcheckError:
            break
        if any(_broken(run, one)):
            continue
        check = _passes_on(run, one, context, side_loads(run))
        if check.verdict == "passes":
            said = f"{given.size} nails, {given.rows} rows every {show(spacing, 'length')}"
            answers.append(PlausibleAnswer(said, ((path, _as_text(given)),)))
            break
    return ask("plies_schedule_of_beam", run.beam.name, path, answers=answers)


def _nails(run: BeamRun, lines: int, spacing: float) -> PlySchedule | None:
    """The shortest common nail that goes well into the second ply."""
    well = judgment("nail well in the next ply").value
    for size in ("10d common", "16d common", "20d common", "40d common"):
        D, length = diameter_and_length("nail", size)
        if length is not None and min(length - run.size.b, run.size.b) >= well * D:
            edge = max(2.5 * D, 1.5)
            between = (run.size.d - 2.0 * edge) / max(lines - 1, 1)
            return PlySchedule.model_validate({
                "kind": "nail", "size": size, "rows": lines, "spacing": f"{spacing:g} in", "edge": f"{edge:.4g} in",
                "row_spacing": f"{between:.4g} in", "end": f"{max(10.0 * D, 3.0):.4g} in", "from_both_sides": True,
            })  # fmt: skip
    return None


def _as_text(by: PlySchedule) -> dict[str, object]:
    """A schedule as it stands in a job file."""
    return {
        "kind": by.kind, "size": by.size, "rows": by.rows, "spacing": f"{by.spacing:.4g} in",
        "row_spacing": f"{by.row_spacing:.4g} in", "end": f"{by.end:.4g} in", "edge": f"{by.edge:.4g} in",
        "from_both_sides": True,
    }  # fmt: skip
