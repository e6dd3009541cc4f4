"""What is over a post that is not meant to carry: a beam that comes down on it would make it a prop."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ...model.posts import Post
from ...units import show
from ..core.asking.question import ask
from ..core.context import Context
from ..core.result import Check

ID, WHAT, PATH = "post.above", "what is above it", "load path"


def above_checks(post: Post, context: Context) -> Iterator[Check]:
    """Only of posts that are declared decorative or a cover."""
    if post.role == "carries" or post.above == "nothing":
        return
    field = f"post.{post.name}"
    if post.near is None:
        text = "whether it stands tight under a beam is not said: as that sags, the post would carry it"
        asked = ask("post_above", post.name, f"{field}.above")
        yield Check.refers(ID, post.name, WHAT, PATH, text, ask=asked)
        return
    needed = _needed(post, context)
    if needed is None:
        text = f"{post.near.beam} could not be worked out, so how far it comes down is not known"
        asked = ask("post_gap_by_others", post.name, beam=post.near.beam)
        yield Check.refers(ID, post.name, WHAT, PATH, text, ask=asked)
        return
    what = f"gap under {post.near.beam}"
    if post.near.gap is None:
        text = f"no gap is stated; {post.near.beam} may come down by {show(needed, 'small length')} there"
        wide = f"{math.ceil(16.0 * needed + 1.0) / 16.0:.4g} in"
        asked = ask("post_gap", post.name, f"{field}.near.gap", beam=post.near.beam, answers=(wide, "0 in"), why=text)
        yield Check.refers(ID, post.name, what, PATH, text, ask=asked)
        return
    text = "loads, creep, and wood that moves, of a beam as soft as one in twenty is"
    yield Check.of_ratio(ID, post.name, what, PATH, text, demand=needed, capacity=post.near.gap, kind="small length")


def _needed(post: Post, context: Context) -> float | None:
    """The gap that keeps it free, inches."""
    from ..brackets.props.gap import Nearby, PropAsk  # most posts have no beam near them

    assert post.near is not None
    run = context.structure.runs.get(post.near.beam)
    if run is None:
        return None
    return float(np.max(Nearby(run, [PropAsk(post.name, post.near, 0.0, math.inf)]).needed))
