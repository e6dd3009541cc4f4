"""From the run of a post to the plain numbers of its picture."""

from __future__ import annotations

import numpy as np

from ..core.pictures.beams import CutMark
from ..core.pictures.others import OnTop, PostPicture, Way
from .post_run import PostRun


def post_picture(run: PostRun) -> PostPicture:
    """The post from both sides, with what stands on it."""
    post = run.post
    names = dict.fromkeys(transfer.from_piece for transfer in run.context.transfers)
    top = [OnTop(name, float(np.max(run.comes_from(name)))) for name in names]
    own = float(sum(load.total for load in run.loads if load.what not in {f"from {name}" for name in names}))
    rest = [OnTop("its own and other loads", own)] if own else []
    ways = (
        Way("deep way", run.sides[0], post.braced_strong, post.eccentricity),
        Way("thin way", run.sides[1], post.braced_weak, post.eccentricity_weak),
    )
    cuts = tuple(
        CutMark(cut.at - 0.5 * (cut.length or 0.0), cut.at + 0.5 * (cut.length or 0.0), 0.0, cut.depth, cut.kind)
        for cut in post.cuts
    )
    return PostPicture(
        post.name, post.height, ways, post.on, (*top, *rest), float(np.max(run.P)),
        (post.top_restraint, post.base_restraint), cuts,
    )  # fmt: skip
