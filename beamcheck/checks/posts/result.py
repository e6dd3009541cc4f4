"""From the checks of a post to its result: words, tables, and what it hands to the piece below it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ...analysis.beams.member_loads import TransferredLoad
from ...errors import BeamcheckError
from ...model.joints.joint import Joint
from ...model.joints.parts import Member
from ...model.posts import Post
from ...units import show
from ...values.lumber import DesignValues
from ..anchors.results import anchors_of_post, not_worked_out
from ..core.context import Context
from ..core.draft import GENERAL, Draft, Reactions, SupportForces, transfer_doubts, unknown_below
from ..core.result import PieceResult
from ..core.screening import screen, screening_woods
from ..core.tables import forces_table, post_loads_table
from ..core.understood import post_inputs, stick_words, stock_inputs
from ..core.unsaid import unsaid_of, with_unsaid
from ..core.wood.govern import writing
from ..core.wood.material import WoodMaterial, is_unknown, reference_values, wood_of
from ..core.wood.moist import moist_like
from ..joints.meeting import Arriving, Meeting, stick_beside
from ..joints.results import joint_result
from .brackets import brackets_on, sideways_push
from .holding import lifting, own_lift
from .picture import post_picture
from .post import check_post
from .post_run import PostRun
from .statics import post_statics

BRACES = "Braces of the post are taken as given: their strength, stiffness and fastening are not checked."


def post_result(post: Post, context: Context) -> tuple[PieceResult, Reactions]:
    """Check a post."""
    stock = context.stock(post.stock)
    draft = Draft(post.name, "post", f"{stick_words(post, stock)} post, {show(post.height, 'length')} high")
    draft.inputs = [*stock_inputs(stock), *post_inputs(post)]
    draft.assumptions = [*GENERAL, *([BRACES] if post.braced_strong or post.braced_weak else [])]
    draft.checks = [*transfer_doubts(post.name, context)]
    try:
        run = _checked_post(draft, post, context)
    except BeamcheckError as error:
        draft.outside(error)
        names = filter(None, (context.anchor(post.foot_held_by), context.anchor(post.head_held_by)))
        text = f"{post.name} could not be worked out, so the forces on it are not known"
        held = tuple(not_worked_out(anchor, f"end of {post.name}", text) for anchor in names)
        return draft.done(), replace(unknown_below(post.name, [post.on]), anchors=held)
    draft.tables += [post_loads_table(run.loads), forces_table(run.combinations, {"P": (run.P, "force")})]
    draft.statics = post_statics(run) if writing() else None
    draft.pictures = (post_picture(run),) if writing() else ()
    by_kind = run.by_kind()
    transfer = TransferredLoad(post.name, by_kind, at=post.lands_at, applied="top", bearing=min(run.sides), by="post")
    # what lasts is counted at its upper end unless it may lift: where nothing lifts its lower end is the least
    lasts = by_kind["D"][1] if "D" in by_kind else np.inf
    row = SupportForces(post.on, by_kind, float(np.max(run.P)), min(float(np.min(run.P)), lasts))
    ends = {"foot": -lifting(run), "head": -own_lift(run)}
    groups = anchors_of_post(post, run.wood, run.section, run.combinations, ends, context)
    if (joint := context.structure.joint_of_post(post.name)) is not None:
        groups.append(foot_result(joint, run))
    return draft.done(), Reactions(post.name, (row,), ((post.on, transfer),), tuple(groups))


def _checked_post(draft: Draft, post: Post, context: Context) -> PostRun:
    """Run the checks of a post, or screen it when its wood is not known."""
    stock = context.stock(post.stock)
    flat: dict[tuple[str, float, float], WoodMaterial] = {}  # the same wood on the flat, by what tells the rows apart

    def key(wood: WoodMaterial) -> tuple[str, float, float]:
        return wood.label, float(wood.F_c.value), float(wood.E.value)

    def make(values: DesignValues) -> WoodMaterial:
        wood = wood_of(stock, values, form="post")
        flat[key(wood)] = wood_of(stock, values, laid="flat", form="post")
        return wood

    def flat_of(wood: WoodMaterial) -> WoodMaterial:
        found = flat[key(wood)]
        return found if found.dry == wood.dry else moist_like(found, wood)

    if is_unknown(stock):
        checks, table, _ = screen(
            post.name, stock, make, lambda wood: check_post(post, wood, flat_of(wood), context)[1]
        )
        draft.tables.append(table)
        wood = screening_woods(stock, make)[0][1]
        run, _ = check_post(post, wood, flat[key(wood)], context)
    else:
        wood = make(reference_values(stock))
        run, checks = check_post(post, wood, flat[key(wood)], context)
    draft.checks = [*with_unsaid(checks, unsaid_of(stock)), *draft.checks]
    draft.assumptions = [*wood.notes, *draft.assumptions]
    return run


def foot_result(joint: Joint, run: PostRun) -> PieceResult:
    """The joint, checked."""
    return joint_result(foot_meeting(joint, run))


def foot_meeting(joint: Joint, run: PostRun) -> Meeting:
    """The post on its joint: it pushes with all that it carries, and lifts without what brackets weigh."""
    post, context = run.post, run.context
    entry = joint.members[0] if joint.members else Member.model_construct(name=post.name)
    comes = lifting(run)
    up = np.where(comes < 0.0, -comes, -run.P)
    level = sideways_push(run) if brackets_on(run) else np.zeros_like(up)
    force = np.stack([level, up], axis=1)
    one = Arriving(
        entry, 1, post.name, context.stock(post.stock), run.wood, run.section, np.array([0.0, 1.0]), False, force,
        np.zeros_like(up),
    )  # fmt: skip
    return Meeting(joint, tuple(run.combinations), (one,), -force, post.on, context.under(post.on),
                   beside=stick_beside(joint, context), air=context.structure.air,
                   described=context.structure.bolt_rows)  # fmt: skip
