"""What holds an end of a level piece: against lifting, against turning, and who answers for what it is held by."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ...analysis.beams.solved_beam import SolvedBeam
from ...model.beams import Beam
from ...model.classes import is_bracket
from ...model.existing import Existing
from ...model.posts import Post
from ...units import show
from ..core.context import Context
from ..core.result import Check
from ..core.seat import answered, bears_nothing
from ..core.trivial import negligible, trivial
from ..core.wood.stated_capacity import uplift_taken
from .seats import Seat

UPLIFT = "ASCE 7-16 2.4.1"


def hangs(seat: Seat, context: Context) -> bool:
    """Whether the end hangs in an anchor group, which is then checked for all of its reaction."""
    anchor = context.anchor(seat.support.held_by)
    return anchor is not None and seat.support.holds == "hung" and anchor.made.hangs


def end_checks(beam: Beam, solved: SolvedBeam, seat: Seat, context: Context) -> Iterator[Check]:
    """Uplift, what holds the end, and what it rests on."""
    lifting = solved.lifting(seat.index)
    if float(np.min(lifting)) < -negligible():
        yield from _uplift(beam, solved, seat, lifting, context)
    yield from _held(beam, solved, seat, context)
    if seat.support.settles:
        down = show(seat.support.settles, "small length")
        text = f"it goes down by {down}: all is checked with that and without; whether it goes on is for an engineer"
        question = seat.asks("settlement", beam, down=down)
        what = f"settlement of {seat.name}"
        yield Check.refers("beam.settlement", beam.name, what, "load path", text, ask=question, where=seat.where)


def _uplift(
    beam: Beam, solved: SolvedBeam, seat: Seat, lifting: np.ndarray, context: Context
) -> Iterator[Check]:  # fmt: skip
    """What pulls up: what is fastened there must hold it, and what that is fastened to must take it."""
    support, under = seat.support, context.under(seat.support.on)
    worst = int(np.argmin(lifting))
    force, id, what = -float(lifting[worst]), "beam.uplift", f"uplift at {seat.name}"
    text = f"the end lifts with {show(force, 'force')} under {solved.combinations[worst].name}"
    stated = under.takes_uplift or under.takes if isinstance(under, Existing) else None
    if trivial(force, stated or float(np.max(solved.pressing(seat.index)))):
        text += ": next to nothing beside what presses there or may; no fastening is asked for"
        yield Check.keeps_rule(id, beam.name, what, UPLIFT, text, where=seat.where)
        return
    if _leaves(beam, solved, seat):
        down = show(support.settles, "small length")
        text = f"it goes down by {down}, and the beam leaves it: nothing lies on it then"
        question = seat.asks("leaves_seat", beam, forces={"up": force})
        yield Check.refers(id, beam.name, f"span past {seat.name}", "statics", text, ask=question, where=seat.where)
        return
    if (anchor := context.anchor(support.held_by)) is not None:
        text += f": checked in anchor {anchor.name}, a piece of its own here"
        yield Check.keeps_rule(id, beam.name, what, UPLIFT, text, where=seat.where)
    else:
        tied = support.tied_down.strip()
        text += f"; said to be held down by {tied!r}, which is not checked here" if tied else (
            " and nothing is said to hold it down")  # fmt: skip
        question = seat.asks("uplift", beam, "held_by", force=show(force, "force"), forces={"up": force})
        found = Check.refers(id, beam.name, what, UPLIFT, text, ask=question, where=seat.where)
        yield replace(found, kind="force", demand=force, combination=solved.combinations[worst].name)
    if isinstance(under, Existing) and not bears_nothing(under):
        pulls = np.maximum(-lifting, 0.0)
        what = f"what {under.name} takes upward"
        yield from uplift_taken(beam.name, what, under, solved.combinations, pulls, seat.where)


def _leaves(beam: Beam, solved: SolvedBeam, seat: Seat) -> bool:
    """Whether a support between others that goes down is merely left: nothing ties it there, no wind lifts."""
    support, places = seat.support, [one.at for one in beam.supports]
    tied = bool(support.held_by or support.tied_down.strip())
    between = min(places) < support.at < max(places)
    return support.settles > 0.0 and between and not tied and all(case.kind != "W" for case in solved.cases)


def _held(beam: Beam, solved: SolvedBeam, seat: Seat, context: Context) -> Iterator[Check]:
    """What the end rests on or hangs from, and whether anybody answers for that."""
    support, under = seat.support, context.under(seat.support.on)
    id, what, clause, where = "beam.end_held", f"what holds {seat.name}", "load path", seat.where
    force = float(np.max(solved.pressing(seat.index)))
    if support.holds == "fixed":
        low, _, high, _ = solved.moments(seat.x, seat.x)
        moment = max(float(np.max(np.abs(low))), float(np.max(np.abs(high))))
        text = (
            f"an end that cannot turn needs a designed connection, here for {show(moment, 'moment')} with "
            f"{show(force, 'force')}; it is not checked here"
        )
        question = seat.asks("end_fixed", beam, moment=show(moment, "moment"), forces={"down": force})
        yield Check.refers(id, beam.name, what, clause, text, ask=question, where=where)
    elif support.holds == "hung" and (anchor := context.anchor(support.held_by)) is not None:
        text = f"by anchor {anchor.name}, a piece of its own here"
        yield Check.keeps_rule(id, beam.name, what, clause, text, where=where)
    elif support.holds == "hung":
        text = f"the hanger or fastening to {under.name} is not checked"
        question = seat.asks("hanger", beam, force=show(force, "force"), forces={"down": force})
        yield Check.refers(id, beam.name, what, clause, text, ask=question, where=where)
    elif not isinstance(under, (Beam, Post, Existing)) and not is_bracket(under):
        text = f"{beam.name} rests on {under.name}, which cannot be checked for that"
        question = seat.asks("odd_carrier", beam, forces={"down": force})
        yield Check.refers(id, beam.name, what, clause, text, ask=question, where=where)
    if isinstance(under, Existing) and not bears_nothing(under):
        yield answered(beam.name, what, under, where=where)
