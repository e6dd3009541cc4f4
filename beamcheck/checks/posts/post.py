"""A post: compression with buckling both ways, load off centre, its ends, what pulls it up."""

from __future__ import annotations

import numpy as np

from ...calc.pad import Pad
from ...model.pieces import Post
from ...units import show
from ..beams.beam import doubts
from ..beams.bearing import NEGLIGIBLE
from ..core.context import Context
from ..core.govern import Criterion, duration, govern, stated
from ..core.material import WoodMaterial
from ..core.result import Check
from ..core.strength import Outcome, compression
from .brackets import bracket_checks, brackets_on, only_decoration
from .eccentricity import off_centre_checks
from .ends import end_checks
from .post_run import MOST_PLIES, THINNEST_PLY, PostRun, column_wood, force, lengths


def check_post(post: Post, wood: WoodMaterial, flat: WoodMaterial, context: Context) -> tuple[PostRun, list[Check]]:
    """Every check of a post of known wood.

    Parameters
    ----------
    wood, flat : Wood
        The wood on edge, and the same on the flat.

    Raises
    ------
    OutOfRange
        If a value lies outside the rules before any check is made.
    """
    run = PostRun(post, wood, flat, context)
    if post.top_restraint == "free":
        text = "the top is held by nothing: a post that must stay up by its foot alone is for an engineer"
        free = stated(post.name, "stands still", "NDS 2018 Appendix G", "refer", text)
        return run, [free, *end_checks(run), *doubts(post.name, wood)]
    criterion = Criterion(post.name, "compression", "NDS 2018 3.6, 3.7", "stress")
    found = [*_unloaded(run), govern(criterion, run.combinations, lambda pad, which: _straight_down(run, pad, which))]
    found += off_centre_checks(run)
    found += bracket_checks(run)
    found += end_checks(run)
    # what brackets weigh is not counted on against uplift: they may be taken off
    lifted = run.P - sum(np.maximum(run.comes_from(one.name), 0.0) for one in brackets_on(run))
    if float(np.min(lifted)) < -NEGLIGIBLE:
        worst = int(np.argmin(lifted))
        found.append(stated(post.name, "uplift", "ASCE 7-16 2.4.1", "refer",
                            f"{show(-float(lifted[worst]), 'force')} pulls up under {run.combinations[worst].name}; "
                            "what holds the post down is not checked"))  # fmt: skip
    if post.plies > 1:
        found.append(stated(post.name, "fastening of the plies", "NDS 2018 15.3", "refer", _plies_words(run)))
    return run, [*found, *doubts(post.name, wood)]


def _unloaded(run: PostRun) -> list[Check]:
    """A post that carries nothing is not described to its end."""
    decoration = [f"from {one.name}" for one in brackets_on(run) if only_decoration(run, one.name)]
    if any(not load.own and load.what not in decoration for load in run.loads):
        return []
    return [stated(run.post.name, "loads as given", "load path", "refer", "nothing is said to stand on this post")]


def _straight_down(run: PostRun, pad: Pad, which: int | slice) -> Outcome:
    P = force(run, pad, which)
    l_e1, l_e2 = lengths(run, pad)
    return compression(
        pad,
        column_wood(run),
        run.column,
        P=P,
        C_D=duration(pad, run.combinations, which),
        l_e1=l_e1,
        l_e2=l_e2,
        K_f=run.K_f or 1.0,
    )


def _plies_words(run: PostRun) -> str:
    if run.apart:
        return (
            f"{run.post.plies} plies not joined by the rules (nailed or bolted; 2 to {MOST_PLIES} plies, each at least "
            f"{show(THINNEST_PLY, 'length')} thick): each counts as a post of its own with an equal share of the load"
        )
    return f"{run.post.plies} plies said to be {run.post.plies_joined}: their fastening is not checked"
