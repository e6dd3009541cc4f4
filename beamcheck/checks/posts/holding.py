"""What holds the ends of a post where it is lifted or pushed sideways, and the post in tension between them."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import numpy as np

from ...calc.pad import Pad
from ...model.existing import Existing
from ...provenance import Source
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import ask
from ..core.result import Check
from ..core.trivial import negligible, trivial
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.stated_capacity import uplift_taken
from ..core.wood.strength import Outcome, tension
from .brackets import brackets_on, sideways_push
from .cuts import least_area
from .post_run import PostRun

UPLIFT, PATH = "ASCE 7-16 2.4.1", "load path"


def holding_checks(run: PostRun, capacity: float) -> list[Check]:
    """Uplift at foot and head, and what pushes the ends sideways.

    `capacity`: what the post carries in compression: beside it a force may be next to nothing [lbf].
    """
    lifted = -lifting(run)
    found = [*_foot(run, lifted, capacity), *_head(run, -own_lift(run), capacity)]
    if float(np.max(lifted)) > negligible():
        criterion = Criterion(run.post.name, "tension", "NDS 2018 3.8.1", "stress", id="post.tension")
        found.append(govern(criterion, run.combinations, partial(_tension, run, np.maximum(lifted, 0.0))))
    return [*found, *_sideways(run, capacity)]


def lifting(run: PostRun) -> np.ndarray:
    """(combinations,) what comes down at the foot, lifting negative, lbf.

    What brackets weigh is not counted on against uplift: they may be taken off.
    """
    weights = [np.maximum(run.comes_from(one.name), 0.0) for one in brackets_on(run)]
    return np.asarray(run.P - sum(weights))


def own_lift(run: PostRun) -> np.ndarray:
    """(combinations,) of the loads that the job puts on the top of the post itself, lbf, down positive."""
    names = {load.what for load in run.post.carries}
    by_case = [sum(load.P for load in case.loads if load.what in names) for case in run.cases]
    return np.asarray(run.factors @ np.array(by_case))


def _foot(run: PostRun, lifted: np.ndarray, capacity: float) -> Iterator[Check]:
    post, id, what = run.post, "post.uplift_foot", "uplift at the foot"
    most, worst = float(np.max(lifted)), int(np.argmax(lifted))
    if most <= negligible():
        return
    words = f"{show(most, 'force')} pulls up under {run.combinations[worst].name}"
    under = run.context.under(post.on)
    if (anchor := run.context.anchor(post.foot_held_by)) is not None:
        text = f"{words}: checked in anchor {anchor.name}, a piece of its own here"
        yield Check.keeps_rule(id, post.name, what, UPLIFT, text)
        if isinstance(under, Existing) and not trivial(most, capacity):
            what = f"what {under.name} takes upward"
            yield from uplift_taken(post.name, what, under, run.combinations, np.maximum(lifted, 0.0))
        return
    elif (joint := run.context.structure.joint_of_post(post.name)) is not None:
        text = f"{words}: checked in joint {joint.name}, a piece of its own here"
        yield Check.keeps_rule(id, post.name, what, UPLIFT, text)
        what = "uplift of its base"
        if not isinstance(under, Existing):
            text = f"{words}: how its base is held on {under.name} is not worked out"
            asked = ask("base_on_a_piece", post.name, under=under.name, forces={"pulls up": most})
            yield Check.refers(id, post.name, what, PATH, text, ask=asked)
            return
    elif trivial(most, capacity):
        text = f"{words}: next to nothing beside what the post carries; any nail holds it"
        yield Check.keeps_rule(id, post.name, what, UPLIFT, text)
        return
    if isinstance(under, Existing) and under.takes_uplift is not None:
        yield _stated(run, id, what, UPLIFT, "takes_uplift", np.maximum(lifted, 0.0), under, under.takes_uplift)
        return
    existing = isinstance(under, Existing)
    field = f"existing.{under.name}.takes_uplift" if existing else f"post.{post.name}.foot_held_by"
    answers = (_rounded(1.25 * most),) if existing else ()
    asked = ask("foot_uplift" if existing else "foot_held_by", post.name, field, answers=answers, under=under.name,
                force=show(most, "force"), forces={"pulls up": most})  # fmt: skip
    yield Check.refers(id, post.name, what, UPLIFT, f"{words}; what holds the post down is not stated", ask=asked)


def _head(run: PostRun, lifted: np.ndarray, capacity: float) -> Iterator[Check]:
    """What the job's own loads lift off the top; what beams lift is asked of them at their seats."""
    post, id, what = run.post, "post.uplift_head", "uplift at the head"
    most, worst = float(np.max(lifted)), int(np.argmax(lifted))
    if most <= negligible():
        return
    words = f"{show(most, 'force')} pulls up under {run.combinations[worst].name}"
    if (anchor := run.context.anchor(post.head_held_by)) is not None:
        yield Check.keeps_rule(id, post.name, what, UPLIFT, f"{words}: checked in anchor {anchor.name}, a piece of its "
                               "own here")  # fmt: skip
    elif (held := _existing_head(run)) is not None and held.takes_uplift is not None:
        yield _stated(run, id, what, UPLIFT, "takes_uplift", np.maximum(lifted, 0.0), held, held.takes_uplift)
    elif trivial(most, capacity):
        text = f"{words}: next to nothing beside what the post carries; any nail holds it"
        yield Check.keeps_rule(id, post.name, what, UPLIFT, text)
    else:
        field = f"existing.{held.name}.takes_uplift" if held is not None else f"post.{post.name}.head_held_by"
        asked = ask("head_held_by", post.name, field, force=show(most, "force"), forces={"pulls up": most},
                    answers=(_rounded(1.25 * most),) if held is not None else ())  # fmt: skip
        yield Check.refers(id, post.name, what, UPLIFT, f"{words}; what holds the load down on the post is not stated",
                           ask=asked)  # fmt: skip


def _existing_head(run: PostRun) -> Existing | None:
    named = run.post.head_held_by
    piece = run.context.structure.pieces.get(named) if named else None
    return piece if isinstance(piece, Existing) else None


def _stated(
    run: PostRun, id: str, what: str, clause: str, field: str, forces: np.ndarray, under: Existing, allowed: float
) -> Check:  # fmt: skip
    """A force against what somebody states for it."""
    source = Source(under.confirmed_by or "the job file", "given")

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        F = pad.take("R", at(forces, which), "lbf", note="from the analysis")
        limit = pad.take("R_allowed", allowed, "lbf", note=f"stated for {under.name} (`{field}`)", source=source)
        return Outcome(F, limit, F / limit)

    pending = () if under.confirmed else (
        ask("who_confirms", under.name, f"existing.{under.name}.confirmed_by", what=under.what),)  # fmt: skip
    criterion = Criterion(run.post.name, what, clause, "force", id=id, pending=pending)
    return govern(criterion, run.combinations, calculate)


def _tension(run: PostRun, lifted: np.ndarray, pad: Pad, which: int | slice) -> Outcome:
    A_n = pad.take("A_n", least_area(run), "in2", note="the smallest section")
    T = pad.take("T", at(lifted, which), "lbf", note="what lifts, from the analysis")
    return tension(pad, run.wood, run.section, T=T, C_D=duration(pad, run.combinations, which), A_n=A_n)


def _sideways(run: PostRun, capacity: float) -> Iterator[Check]:
    """Each end pushes sideways; small against what holds a column in any case, or held by something stated."""
    if not brackets_on(run):
        return
    H = sideways_push(run)
    most, worst = float(np.max(H)), int(np.argmax(H))
    share = judgment("sideways share of a column").value
    names = ", ".join(one.name for one in brackets_on(run))
    words = f"top and foot must take {show(most, 'force')} sideways from {names}"
    name, id, what = run.post.name, "post.sideways", "sideways push at top and foot"
    if most <= max(share * float(run.pressed[worst]), negligible()):
        text = f"{words}, no more than what holds a column has to take in any case (2 % of its load, common practice)"
        yield Check.keeps_rule(id, name, what, "statics", text)
        return
    small = judgment("trivial share of capacity").value * capacity
    if most <= min(judgment("sideways push that any ends hold").value, small):
        yield Check.keeps_rule(id, name, what, "statics", f"{words}: any fastening of its ends holds that")
        return
    under, held = run.context.under(run.post.on), _existing_head(run)
    for end, by, field in (("foot", under, "foot_held_by"), ("head", held, "head_held_by")):
        if isinstance(by, Existing) and by.takes_sideways is not None:
            yield _stated(run, id, f"sideways push at the {end}", "statics", "takes_sideways", H, by, by.takes_sideways)
            continue
        place = f"existing.{by.name}.takes_sideways" if isinstance(by, Existing) else f"post.{name}.{field}"
        answers = (_rounded(1.25 * most),) if isinstance(by, Existing) else ()
        asked = ask(f"{end}_sideways", name, place, answers=answers, force=show(most, "force"),
                    forces={"sideways": most})  # fmt: skip
        yield Check.refers(id, name, f"sideways push at the {end}", "statics", f"{words}: what holds it there is not "
                           "stated", ask=asked)  # fmt: skip


def _rounded(force: float) -> str:
    """A plausible figure, rounded up to 10 lb."""
    return f"{10.0 * np.ceil(force / 10.0):,.0f} lb"
