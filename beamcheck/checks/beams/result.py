"""From the checks of a beam or a post to its result: words, tables, drawing, and what it hands to the pieces below."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ...analysis.beams.member_loads import TransferredLoad
from ...errors import BeamcheckError
from ...model.anchor_manners import MANNERS
from ...model.pieces import Beam, Post
from ...model.rules import beam_length
from ...units import show
from ...values.lumber import DesignValues
from ..anchors.results import anchors_of_beam
from ..core.context import Context
from ..core.draft import (
    GENERAL,
    SHEAR_SAG,
    Draft,
    Reactions,
    SupportForces,
    even_loads,
    spread_words,
    transfer_doubts,
    unknown_below,
)
from ..core.govern import writing
from ..core.input_words import beam_inputs, post_inputs, stick_inputs, stock_inputs, wood_words
from ..core.material import Sharing, WoodMaterial, is_unknown, reference_values, wood_of
from ..core.result import PieceResult
from ..core.screening import screen, screening_woods
from ..core.tables import forces_table, line_forces_table, loads_table, post_loads_table, reactions_table
from ..posts.post import check_post
from ..posts.post_run import PostRun
from .beam import BeamRun, check_beam
from .figure import straight_figure
from .remedies import beam_remedies
from .twist import twist_checks

SEATS = (
    "`at` is the middle of a seat; spans run from middle to middle, which is not less than the span of NDS 2018 3.2.1."
)
BRACES = "Braces of the post are taken as given: their strength, stiffness and fastening are not checked."

GROUPS_LEFT_OUT = "What would make it pass was tried for the beam alone: its anchor groups must be checked anew then."


def beam_result(beam: Beam, context: Context) -> tuple[PieceResult, Reactions]:
    """Check a beam."""
    stock = context.stock(beam.stock)
    draft = Draft(beam.name, "beam", f"{wood_words(stock)}, {show(beam_length(beam), 'length')}")
    draft.inputs = [*stock_inputs(stock), *stick_inputs(beam), *beam_inputs(beam)]
    draft.assumptions = [SEATS, SHEAR_SAG, *GENERAL, *spread_words(beam.name, context)]
    draft.checks = [*transfer_doubts(beam.name, context)]
    try:
        run = _checked_beam(draft, beam, context)
    except BeamcheckError as error:
        draft.outside(error)
        run = None
    if run is None:
        missing = unknown_below(beam.name, [support.on for support in beam.supports])
        return draft.done(), replace(missing, anchors=tuple(anchors_of_beam(beam, None, context)))
    context.structure.runs[beam.name] = run
    if draft.remedies and any(support.held_by for support in beam.supports):
        draft.assumptions.append(GROUPS_LEFT_OUT)
    draft.checks += twist_checks(beam.name, run.section, context)
    draft.checks += even_loads(beam.name, context, [end - start for start, end in run.solved.spans])
    draft.tables += [
        loads_table(run.solved.loads), reactions_table(run.solved, beam.supports),
        line_forces_table(run.solved.combinations, run.solved.combined.line),
    ]  # fmt: skip
    supports = [(support.at, support.on, support.holds) for support in beam.supports]
    K_cr = float(run.wood.K_cr.value)
    draft.figure = straight_figure(run.solved, float(run.section.d), supports, run.regions, K_cr)
    done = draft.done()
    context.structure.verdicts[beam.name] = done.verdict
    return done, replace(_beam_reactions(run, context), anchors=tuple(anchors_of_beam(beam, run, context)))


def _checked_beam(draft: Draft, beam: Beam, context: Context) -> BeamRun | None:
    """Run the checks of a beam, or screen it when its wood is not known; the run is that of the heaviest candidate."""
    stock = context.stock(beam.stock)
    sharing = Sharing(beam.members, beam.spacing or 0.0, bool(beam.shared_by.strip()))

    def make(values: DesignValues) -> WoodMaterial:
        return wood_of(stock, values, laid=beam.laid, sharing=sharing)

    if is_unknown(stock):
        checks, table, _ = screen(beam.name, stock, make, lambda wood: check_beam(beam, wood, context)[1])
        draft.tables.append(table)
        wood = screening_woods(stock, make)[0][1]
        run, _ = check_beam(beam, wood, context)
    else:
        wood = make(reference_values(stock))
        run, checks = check_beam(beam, wood, context)
        draft.remedies = beam_remedies(beam, stock, make, context, checks) if writing() else ()
    draft.checks = [*checks, *draft.checks]
    draft.assumptions = [*wood.notes, *draft.assumptions]
    return run


def _beam_reactions(run: BeamRun, context: Context) -> Reactions:
    rows, below = [], []
    for index, support in enumerate(run.beam.supports):
        by_kind = run.solved.reaction_by_kind(index)
        combined = run.solved.reactions(index)
        rows.append(SupportForces(support.on, by_kind, float(np.max(combined)), float(np.min(combined))))
        on_top = support.holds == "rests"
        anchor = context.anchor(support.held_by)
        on_a_rod = anchor is not None and MANNERS[anchor.manner].upright  # its nut is on the top: seen to in the group
        # a beam described with a spacing stands for a row of them: what carries it carries them all
        transfer = TransferredLoad(
            run.beam.name, by_kind, at=support.lands_at, spread=run.beam.spacing,
            applied="rod" if on_a_rod else "top" if on_top else "side",
            bearing=float(run.section.b) if on_top else None,
        )  # fmt: skip
        below.append((support.on, transfer))
    return Reactions(run.beam.name, tuple(rows), tuple(below))


def post_result(post: Post, context: Context) -> tuple[PieceResult, Reactions]:
    """Check a post."""
    stock = context.stock(post.stock)
    draft = Draft(post.name, "post", f"{wood_words(stock)} post, {show(post.height, 'length')} high")
    draft.inputs = [*stock_inputs(stock), *post_inputs(post)]
    draft.assumptions = [*GENERAL, *([BRACES] if post.braced_strong or post.braced_weak else [])]
    draft.checks = [*transfer_doubts(post.name, context)]
    try:
        run = _checked_post(draft, post, context)
    except BeamcheckError as error:
        draft.outside(error)
        return draft.done(), unknown_below(post.name, [post.on])
    draft.tables += [post_loads_table(run.loads), forces_table(run.combinations, {"P": (run.P, "force")})]
    by_kind = run.by_kind()
    transfer = TransferredLoad(post.name, by_kind, at=post.lands_at, applied="top", bearing=min(run.sides))
    row = SupportForces(post.on, by_kind, float(np.max(run.P)), float(np.min(run.P)))
    return draft.done(), Reactions(post.name, (row,), ((post.on, transfer),))


def _checked_post(draft: Draft, post: Post, context: Context) -> PostRun:
    """Run the checks of a post, or screen it when its wood is not known."""
    stock = context.stock(post.stock)
    flat: dict[tuple[str, float, float], WoodMaterial] = {}  # the same wood on the flat, by what tells the rows apart

    def key(wood: WoodMaterial) -> tuple[str, float, float]:
        return wood.label, float(wood.F_c.value), float(wood.E.value)

    def make(values: DesignValues) -> WoodMaterial:
        wood = wood_of(stock, values)
        flat[key(wood)] = wood_of(stock, values, laid="flat")
        return wood

    if is_unknown(stock):
        checks, table, _ = screen(
            post.name, stock, make, lambda wood: check_post(post, wood, flat[key(wood)], context)[1]
        )
        draft.tables.append(table)
        wood = screening_woods(stock, make)[0][1]
        run, _ = check_post(post, wood, flat[key(wood)], context)
    else:
        wood = make(reference_values(stock))
        run, checks = check_post(post, wood, flat[key(wood)], context)
    draft.checks = [*checks, *draft.checks]
    draft.assumptions = [*wood.notes, *draft.assumptions]
    return run
