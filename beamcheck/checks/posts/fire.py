"""A post in a fire: the checks of the post made of what is left of it."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from functools import partial

from ..core.result import Check
from ..core.wood import burnt
from ..core.wood.govern import Criterion, govern
from .eccentricity import off_center_checks, straight_down
from .post_run import PostRun


def fire_checks(run: PostRun) -> Iterator[Check]:
    """Nothing for a post of which no fire is asked."""
    post, fire = run.post, run.post.fire
    if fire is None:
        return
    checks, left = burnt.begin(post.name, "post", fire, run.section)
    yield from checks
    if left is None:
        return
    if post.plies > 1 or post.cuts or post.braced_strong or post.braced_weak:
        why = "plies, cuts and braces in a fire are not worked out here"
        yield burnt.not_worked_out(post.name, fire, why, "Plies, cuts and braces let the fire in, or burn first.")
    burns = copy.copy(run)
    burns.size = burnt.left_as_size(run.size, left.section)
    burns.section = burns.column = left.section
    burns.wood, burns.flat = burnt.burning_wood(run.wood), burnt.burning_wood(run.flat)
    burns.pressed = run.pressed * burnt.without_wind(run.combinations)
    burns.P = run.P * burnt.without_wind(run.combinations)
    burns.combinations = burnt.without_duration(run.combinations)
    criterion = Criterion(post.name, "compression", "3.6, 3.7", "stress")
    straight = govern(criterion, burns.combinations, partial(straight_down, burns))
    off = [one for one in off_center_checks(burns) if one.ratio is not None]
    yield from burnt.in_the_fire([straight, *off], "fire.post", left)
    yield from burnt.carrier_checks(post.name, [run.context.under(post.on)], fire)
    for name in filter(None, (post.head_held_by, post.foot_held_by)):
        anchor = run.context.anchor(name)
        if anchor is not None:
            yield burnt.steel_check(post.name, anchor, fire, left.a_eff, run.section)
