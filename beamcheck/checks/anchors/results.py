"""An anchor group as a piece of the job: its checks by its manner, its inputs, tables and drawing."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

import numpy as np

from ...analysis.beams.combinations import Loaded
from ...analysis.roofs.roof_frame import RoofRun
from ...errors import BeamcheckError
from ...model.anchors.anchor import Anchor
from ...model.beams import Beam
from ...model.posts import Post
from ...model.roofs import Rafter, Tie
from ...values.refused import in_trade_words
from ..beams.beam import BeamRun
from ..core.asking.question import ask
from ..core.context import Context
from ..core.draft import Draft
from ..core.result import Check, PieceResult, Table
from ..core.tables import forces_table
from ..core.trivial import negligible
from ..core.wood.material import WoodMaterial
from ..core.wood.strength import Section
from .group import PART_WORDS, Group, Part
from .held_end import (
    HeldEnd,
    end_of_beam,
    end_of_post,
    ends_of_tie,
    foot_of_rafter,
    group_of,
    head_of_rafter,
    ridge_of_pair,
)
from .manners.registry import manner_of
from .outputs import anchor_inputs, anchor_tables, hole_drawing

ALWAYS: tuple[Part, ...] = ("down", "up")
NOT_ADDED = (
    "A seat and a group of fasteners are not added: the group is checked for all of the reaction, for it may come to "
    "carry all of it when the wood shrinks off its seat."
)
IN_THE_SEAT = "What presses down is left to the seat, which the held piece is checked for; what lifts comes here."


def anchor_result(group: Group, context: Context) -> PieceResult:
    """Check one anchor group."""
    anchor, manner = group.anchor, manner_of(group.anchor)
    context.structure.groups.setdefault(anchor.name, []).append(group)
    draft = Draft(anchor.name, "anchor", f"{anchor.manner}, {group.end} end of {group.piece}")
    draft.inputs = anchor_inputs(group)
    bare = not (group.made.fastened or group.made.upright)
    if group.rests:
        draft.assumptions.append(IN_THE_SEAT if bare else NOT_ADDED)
    try:
        draft.checks = manner.checks(group, context)
        draft.assumptions += manner.assumptions(group)
        draft.tables = [_forces(group), *anchor_tables(group)]
    except BeamcheckError as error:
        draft.outside(error)
    done = draft.done()
    drawing = hole_drawing(group, _governing(group, done.checks), done.checks) if manner.drawn and done.tables else None
    return replace(done, to_see=manner.to_see(group), drawing=drawing)


def _forces(group: Group) -> Table:
    parts = group.parts
    columns = {
        text: (parts[key], "force") for key, text in PART_WORDS.items()
        if key in ALWAYS or float(np.max(parts[key])) > negligible()
    }  # fmt: skip
    return forces_table(group.forces.combinations, columns)


def _governing(group: Group, checks: Sequence[Check]) -> int | None:
    """The fastener that the check with the largest ratio names."""
    places = {group.name_of(k): k for k in range(group.x.size)}
    named = [check for check in checks if check.where in places and check.ratio is not None]
    return places[max(named, key=lambda check: check.ratio or 0.0).where] if named else None


# ---- from the pieces that are held to their groups ----------------------------------------------------------------


def anchors_of_beam(beam: Beam, run: BeamRun | None, context: Context) -> list[PieceResult]:
    """The groups at the supports of a beam; of a beam that could not be worked out each says so."""
    found = []
    for index, support in enumerate(beam.supports):
        anchor = context.anchor(support.held_by)
        if anchor is None:
            continue
        where = f"support {index + 1} of {beam.name}"
        if run is None:
            found.append(not_worked_out(anchor, where, _not_solved(beam.name)))
            continue
        try:
            group = group_of(anchor, end_of_beam(beam, run, index, context), context, (beam, index))
        except BeamcheckError as error:
            found.append(not_worked_out(anchor, where, in_trade_words(error)))
            continue
        result = anchor_result(group, context)
        if support.holds == "fixed":
            text = "that the end cannot turn at all is more than fasteners in wood can promise"
            asked = ask("fixed_end", beam.name, f"{group.support}.holds", piece=beam.name)
            fixed = Check.refers("anchor.fixed_end", anchor.name, "fixed end", "load path", text, ask=asked)
            result = with_checks(result, fixed)
        found.append(result)
    return found


def anchors_of_tie(tie: Tie, rafter: Rafter, run: RoofRun | None, context: Context) -> list[PieceResult]:
    """The group at each end of a tie; the worse of the two ends."""
    anchor = context.anchor(tie.ends_held_by)
    if anchor is None:
        return []
    where = f"ends of {tie.name}"
    if run is None:
        return [not_worked_out(anchor, where, _not_solved(tie.name))]
    try:
        ends = ends_of_tie(tie, rafter, run, context)
        results = [anchor_result(group_of(anchor, end, context), context) for end in ends]
    except BeamcheckError as error:
        return [not_worked_out(anchor, where, in_trade_words(error))]
    return [worst_result(results)]


def anchors_of_rafter(
    rafter: Rafter, run: RoofRun | None, context: Context, *, ridge: str | None = None
) -> list[PieceResult]:
    """The groups at a rafter's foot and, where one is named, at the ridge beam or the ridge board."""
    ends: tuple[tuple[str | None, str, Callable[[Rafter, RoofRun, Context], HeldEnd]], ...] = (
        (rafter.wall.held_by, f"foot of {rafter.name}", foot_of_rafter),
        (ridge, f"upper end of {rafter.name}", head_of_rafter),
        (rafter.ridge_held_by, f"ridge of {rafter.name}", ridge_of_pair),
    )
    found = []
    for name, where, make in ends:
        anchor = context.anchor(name)
        if anchor is None:
            continue
        if run is None:
            found.append(not_worked_out(anchor, where, _not_solved(rafter.name)))
            continue
        try:
            found.append(anchor_result(group_of(anchor, make(rafter, run, context), context), context))
        except BeamcheckError as error:
            found.append(not_worked_out(anchor, where, in_trade_words(error)))
    return found


def anchors_of_post(
    post: Post, wood: WoodMaterial, section: Section, combinations: Sequence[Loaded], ends: Mapping[str, np.ndarray],
    context: Context,
) -> list[PieceResult]:  # fmt: skip
    """The groups at foot and head of a post; `ends` holds what lifts at each, lbf."""
    found = []
    for name, where in ((post.foot_held_by, "foot"), (post.head_held_by, "head")):
        anchor = context.anchor(name)
        if anchor is None:
            continue
        try:
            held = end_of_post(post, anchor, wood, section, combinations, ends[where], context, head=where == "head")
            found.append(anchor_result(group_of(anchor, held, context), context))
        except BeamcheckError as error:
            found.append(not_worked_out(anchor, f"{where} of {post.name}", in_trade_words(error)))
    return found


def _not_solved(name: str) -> str:
    return f"{name} could not be worked out, so the forces on it are not known"


def not_worked_out(anchor: Anchor, where: str, text: str) -> PieceResult:
    """A group whose forces or layout are not known: it never passes."""
    draft = Draft(anchor.name, "anchor", f"{anchor.manner}, {where}")
    asked = ask("anchor_forces", anchor.name, where=where)
    draft.checks = [
        Check.refers("anchor.forces", anchor.name, "forces and layout", "load path", text, ask=asked)
    ]  # fmt: skip
    return draft.done()


def held_by_nobody(anchor: Anchor) -> PieceResult:
    """A group that no piece names, as that of a tie that no rafter names."""
    return not_worked_out(anchor, "holds nothing in this job", "no piece that was worked out is held by it")


def worst_result(results: Sequence[PieceResult]) -> PieceResult:
    """Of one group that holds several ends the worst, with a word on the others."""
    if len(results) == 1:
        return results[0]

    def bad(result: PieceResult) -> tuple[int, list[float]]:
        ratios = (check.ratio for check in result.checks if check.ratio is not None)
        worse = ("passes", "refer", "fails").index(result.verdict)
        return worse, sorted((np.inf if np.isnan(one) else one for one in ratios), reverse=True)

    worst = max(results, key=bad)
    note = f"It holds {len(results)} ends, each checked by itself; this is the worst: {worst.title}."
    return replace(worst, assumptions=(note, *worst.assumptions))


def with_checks(result: PieceResult, *more: Check) -> PieceResult:
    """The same result with checks added, and its verdict made again."""
    draft = Draft(result.name, result.kind, result.title, checks=[*result.checks, *more])
    return replace(result, checks=draft.done().checks, verdict=draft.done().verdict)
