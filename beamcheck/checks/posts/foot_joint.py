"""The joint at the foot of a post, with the forces that the post has there."""

from __future__ import annotations

import numpy as np

from ...model.joints.joint import Joint
from ...model.joints.parts import Member
from ..core.result import PieceResult
from ..joints.meeting import Arriving, Meeting
from ..joints.results import joint_result
from .brackets import brackets_on, sideways_push
from .holding import lifting
from .post_run import PostRun


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
    return Meeting(joint, tuple(run.combinations), (one,), -force, post.on, air=context.structure.air,
                   described=context.structure.bolt_rows)  # fmt: skip
