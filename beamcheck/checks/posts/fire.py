"""A post in a fire: the checks of the post made of what is left of it."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from functools import partial

from ...errors import OutOfRange
from ..core.asking.question import ask
from ..core.result import Check
from ..core.wood.burnt import (
    CLAUSE,
    burning_wood,
    burnt,
    carrier_checks,
    cover_checks,
    in_the_fire,
    left_as_size,
    nothing_is_left,
    steel_check,
    without_duration,
    without_wind,
)
from ..core.wood.govern import Criterion, govern
from .eccentricity import off_center_checks, straight_down
from .post_run import PostRun


def fire_checks(run: PostRun) -> Iterator[Check]:
    """Nothing for a post of which no fire is asked."""
    post, fire = run.post, run.post.fire
    if fire is None:
        return
    yield from cover_checks(post.name, "post", fire)
    try:
        left = burnt(fire, run.section)
    except OutOfRange as error:
        yield nothing_is_left(post.name, fire, error)
        return
    if post.plies > 1 or post.cuts or post.braced_strong or post.braced_weak:
        why = "plies, cuts and braces in a fire are not worked out here"
        asked = ask("fire_engineer", post.name, why="Plies, cuts and braces let the fire in, or burn first.",
                    minutes=f"{fire.minutes:g}")  # fmt: skip
        yield Check.refers("fire.engineer", post.name, "what the fire leaves", CLAUSE, why, ask=asked)
    burns = copy.copy(run)
    burns.size = left_as_size(run.size, left.section)
    burns.section = burns.column = left.section
    burns.wood, burns.flat = burning_wood(run.wood), burning_wood(run.flat)
    burns.pressed = run.pressed * without_wind(run.combinations)
    burns.P = run.P * without_wind(run.combinations)
    burns.combinations = without_duration(run.combinations)
    criterion = Criterion(post.name, "compression", "3.6, 3.7", "stress")
    straight = govern(criterion, burns.combinations, partial(straight_down, burns))
    off = [one for one in off_center_checks(burns) if one.ratio is not None]
    yield from in_the_fire([straight, *off], "fire.post", fire.minutes, left.steps)
    yield from carrier_checks(post.name, [run.context.under(post.on)], fire)
    for name in filter(None, (post.head_held_by, post.foot_held_by)):
        anchor = run.context.anchor(name)
        if anchor is not None:
            cover, said = anchor.fire_cover, anchor.fire_covered_by
            yield steel_check(post.name, anchor.name, cover, said, fire, left.a_eff, run.section)
