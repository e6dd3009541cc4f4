"""From the checks of a beam to its result: words, tables, drawing, and what it hands to the pieces below it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ...analysis.beams.member_loads import TransferredLoad
from ...analysis.beams.solved_beam import GIVES
from ...errors import BeamcheckError
from ...model.beams import Beam, beam_length
from ...model.sticks import Support
from ...model.stock import Stock
from ...units import show
from ...values.lumber import DesignValues
from ..core.context import Context
from ..core.draft import (
    GENERAL,
    Draft,
    Reactions,
    SupportForces,
    light_trim_words,
    transfer_doubts,
    unknown_below,
)
from ..core.pictures.beams import SupportMark
from ..core.result import PieceResult
from ..core.tables import line_forces_table, loads_table, reactions_table
from ..core.understood import beam_inputs, stick_inputs, stick_words, stock_inputs
from ..core.unsaid import unsaid_of, with_unsaid
from ..core.wood.govern import drawing, writing
from ..core.wood.material import WoodMaterial, is_unknown, reference_values, sharing_of, wood_of
from .beam import check_beam
from .beam_run import BeamRun, BeamSolver
from .load_entry import twist_checks
from .record.figure import beam_figure
from .record.remedies import beam_remedies
from .record.statics import beam_statics
from .rows import row_words

SEATS = (
    "A support is given by the middle of its seat; spans run from middle to middle, which is not less than the span of "
    "NDS 2018 3.2.1. What fails so shows the figure over that span too."
)
SAG = (
    "Deflection is the larger of two ways: the tabulated E with bending alone, and 1.03 E with shear deflection beside "
    "it, G = E/16 (NDS 2018 Appendix F; common practice). The first governs slender pieces, the second deep short ones."
)
STEEL_SAG = (
    "Deflection holds that of the web in shear, and all of the dead load once. Whatever is said to hold the top edge "
    "of steel must be fastened to the flange, for example to a bolted nailer (common practice, no source)."
)
BENDING_ONLY = "Forces of a piece on more than two supports are the worst with shear deflection and without it."
MOVING = (
    "{name} stands on beams that come down: it is solved on supports that stand still, and on supports that give with "
    "the stiffness of what carries them, creep included; the worse of both counts. {words}"
)
GROUPS_LEFT_OUT = "What would make it pass was tried for the beam alone: its anchor groups must be checked anew then."


def beam_result(beam: Beam, context: Context) -> tuple[PieceResult, Reactions]:
    """Check a beam."""
    stock = context.stock(beam.stock)
    draft = Draft(beam.name, "beam", f"{stick_words(beam, stock)}, {show(beam_length(beam), 'length')}")
    draft.inputs = [*stock_inputs(stock), *stick_inputs(beam), *beam_inputs(beam)]
    draft.assumptions = [
        SEATS,
        STEEL_SAG if stock.made == "steel" else SAG,
        *GENERAL,
        *row_words(beam, context.transfers),
        *light_trim_words(beam.name, context),
    ]
    draft.checks = [*transfer_doubts(beam.name, context)]
    try:
        run = _checked_beam(draft, beam, context)
    except BeamcheckError as error:
        draft.outside(error)
        run = None
    if run is None:
        missing = unknown_below(beam.name, [support.on for support in beam.supports])
        return draft.done(), replace(missing, anchors=tuple(context.structure.joints.results(beam, None, context)))
    context.structure.runs[beam.name] = run
    if stock.made == "steel":
        draft.inputs.insert(2, ("section", _steel_words(run)))
    if draft.remedies and any(support.held_by for support in beam.supports):
        draft.assumptions.append(GROUPS_LEFT_OUT)
    draft.checks += twist_checks(beam.name, run.section, context)
    draft.assumptions += _ways(run)
    if beam.service == "floor" and writing() and not is_unknown(stock):
        from .record.felt import floor_words

        draft.assumptions += floor_words(run, context)
    if drawing():
        _show(draft, run, stock)
    done = draft.done()
    context.structure.verdicts[beam.name] = done.verdict
    return done, replace(
        _beam_reactions(run, context), anchors=tuple(context.structure.joints.results(beam, run, context))
    )


def _show(draft: Draft, run: BeamRun, stock: Stock) -> None:
    """Tables, drawing and statics."""
    beam, solved = run.beam, run.solved
    draft.tables += [
        loads_table(solved.loads), reactions_table(solved, beam.supports),
        line_forces_table(solved.combinations, solved.combined.line),
    ]  # fmt: skip
    supports = [SupportMark(one.at, one.on, one.holds, one.bearing or 0.0) for one in beam.supports]
    draft.figure = beam_figure(solved, run.section, supports, run.regions, float(run.wood.K_cr.value))
    known = not is_unknown(stock)
    draft.statics = beam_statics(run, draft.figure, known=known) if writing() else None


def _checked_beam(draft: Draft, beam: Beam, context: Context) -> BeamRun | None:
    """Run the checks of a beam, or screen it when its wood is not known; the run is that of the heaviest candidate."""
    stock = context.stock(beam.stock)
    solver = BeamSolver(beam, context)

    def make(values: DesignValues) -> WoodMaterial:
        return wood_of(stock, values, laid=beam.laid, sharing=sharing_of(beam), form="beam")

    if is_unknown(stock):
        from ..core.screening import screen, screening_woods

        checks, table, _ = screen(beam.name, stock, make, lambda wood: check_beam(beam, wood, context, solver)[1])
        draft.tables.append(table)
        wood = screening_woods(stock, make)[0][1]
        run, _ = check_beam(beam, wood, context, solver)
    else:
        wood = make(reference_values(stock))
        run, checks = check_beam(beam, wood, context, solver)
        draft.remedies = (
            beam_remedies(beam, stock, make, context, checks, run)
            if writing() and stock.survey is None and stock.made == "sawn" and beam.flitch is None
            else ()
        )
    draft.checks = [*with_unsaid(checks, unsaid_of(stock, beam)), *draft.checks]
    draft.assumptions = [*wood.notes, *draft.assumptions]
    return run


def _steel_words(run: BeamRun) -> str:
    from ..core.wood.made.steel_section import RolledSection
    from .made.steel import section_words

    return section_words(run.section) if isinstance(run.section, RolledSection) else ""


def _ways(run: BeamRun) -> list[str]:
    """How a piece whose forces depend on stiffness was solved."""
    found = []
    if not run.solved.determinate:
        found.append(BENDING_ONLY)
    if any(way.words == GIVES for way in run.solved.others):
        words = "; ".join(
            f"{run.beam.supports[i].on} under support {i + 1} gives {show(1000.0 * one.gives, 'small length')} "
            f"for each "
            f"1,000 lb and {show(one.sags, 'small length')} under what else it carries"
            for i, one in enumerate(run.solved.supports)
            if one.gives or one.sags
        )
        found.append(MOVING.format(name=run.beam.name, words=words))
    return found


def _beam_reactions(run: BeamRun, context: Context) -> Reactions:
    rows, below = [], []
    for index, support in enumerate(run.beam.supports):
        by_kind = run.solved.reaction_by_kind(index)
        largest, least = float(np.max(run.solved.pressing(index))), float(np.min(run.solved.lifting(index)))
        rows.append(SupportForces(support.on, by_kind, largest, least))
        below.append((support.on, _transferred(run, support, by_kind, context)))
    return Reactions(run.beam.name, tuple(rows), tuple(below))


def _transferred(
    run: BeamRun, support: Support, by_kind: dict[str, tuple[float, float]], context: Context
) -> TransferredLoad:
    """What one end puts on the piece below; a beam with a spacing stands for a row: what carries it carries "
    "them all."""
    beam, on_top, anchor = run.beam, support.holds == "rests", context.anchor(support.held_by)
    on_a_rod = anchor is not None and anchor.made.upright  # its nut is on the top: seen to in the group
    heights = None if anchor is None or anchor.on_girder is None else anchor.on_girder
    return TransferredLoad(
        beam.name, by_kind, at=support.lands_at, spread=beam.spacing,
        applied="rod" if on_a_rod else "top" if on_top else "side",
        bearing=float(run.section.b) if on_top else None, by="beam", held_by=support.held_by or "",
        fastened=None if heights is None else (heights.highest, heights.lowest),
        row=support.row, members=beam.members, point=support.lands_on or "",
    )  # fmt: skip
