"""What a beam above a bracket stands on, and what it carries: how far its supports come down, and which load stays."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from ....analysis.props.props import carried_down, sinking, unit_sags
from ....calc.pad import SilentPad
from ....formulas.brackets.prop import softened_modulus
from ....model.beams import Beam
from ....model.brackets.bracket import Bracket
from ....model.existing import Existing
from ....values.judgment import judgment
from ...beams.beam import BeamRun
from ...core.asking.question import Question, ask
from ...core.context import Context
from ...core.wood.material import modulus_prime

Array = np.ndarray
SPANS = r"(?:beam|girder|header|lintel|joist|purlin|rafter)s?|truss(?:es)?"  # what spans and comes down
MOST_DEEP = 12  # beams that stand on beams, one on the other


class Moving(NamedTuple):
    """A support that comes down: by `sags` in the long run (in), and by `gives` under each pound more (in/lbf)."""

    sags: float = 0.0
    gives: float = 0.0


def moving_supports(beam: Beam, context: Context, *, live_stays: bool, deep: int = 0) -> tuple[list[Moving], str]:
    """How each support moves, and the name of one for which it is not known.

    A support on a beam comes down with that beam, under all that it carries, with creep, as soft as one beam in twenty
    is; a support on a bracket by as much as its nose may sink.
    """
    found: list[Moving] = []
    for support in beam.supports:
        under = context.under(support.on)
        moves: Moving | None = Moving()
        if isinstance(under, Bracket):
            moves = Moving(under.deflects or 0.0)
        elif isinstance(under, Beam) and support.lands_at is not None:
            run = context.structure.runs.get(under.name)
            moves = None
            if run is not None and deep < MOST_DEEP:
                moves = _moves(run, support.lands_at, context, live_stays, deep)
        if moves is None:
            return found, under.name
        found.append(moves)
    return found, ""


def beams_of_others(beam: Beam, context: Context) -> list[str]:
    """Supports that by their words are beams of somebody else, of which nothing says how far they come down."""
    found = []
    for support in beam.supports:
        under = context.under(support.on)
        if isinstance(under, Existing) and not support.settles:
            head = re.split(r"[,;:(]|\b(?:under|on|below|beside|over|in|at|of|for|with|above)\b", under.what.lower())[0]
            if re.fullmatch(SPANS, (head.split() or [""])[-1]):
                found.append(under.name)
    return list(dict.fromkeys(found))


def _moves(run: BeamRun, place: float, context: Context, live_stays: bool, deep: int) -> Moving | None:
    """How a solved beam comes down at a place, with its own supports; None where that is not known."""
    pad = SilentPad()
    E = modulus_prime(pad, run.wood)
    softness = float(E / softened_modulus(E, judgment("COV of E, visually graded").value))
    sink = sinking(run.with_shear, [place], softness)
    if live_stays:
        sink = sink.with_live_that_stays()
    own = float(np.max(sink.long_term(float(run.wood.K_cr.value)), initial=0.0))
    below, unknown = moving_supports(run.beam, context, live_stays=live_stays, deep=deep + 1)
    if unknown:
        return None
    sags, gives = with_supports(run, below, [place])
    return Moving(own + float(sags[0]), float(unit_sags(run.with_shear, [place], softness)[0, 0] + gives[0]))


def with_supports(run: BeamRun, supports: Sequence[Moving], places: Sequence[float]) -> tuple[Array, Array]:
    """(places,) how far a beam comes down with its supports, in, and under each pound at the place, in/lbf.

    A support that comes down is never counted where it lifts the place.
    """
    if not any(one.sags or one.gives for one in supports):
        return np.zeros(len(places)), np.zeros(len(places))
    part = np.maximum(carried_down(run.with_shear, places), 0.0)
    return np.array([one.sags for one in supports]) @ part, np.array([one.gives for one in supports]) @ part**2


def live_that_stays(beam: Beam, context: Context) -> tuple[bool | None, tuple[Question, ...]]:
    """Whether live load of a beam, or of beams that stand on it, is stored for years; None with what asks for it."""
    open_, seen, todo = [], set(), [beam]
    while todo:
        one = todo.pop()
        if one.name in seen:
            continue
        seen.add(one.name)
        for number, load in enumerate(one.carries, start=1):
            if load.live is None or load.live[0] == 0.0:
                continue
            if load.stays:
                return True, ()
            if load.stays is None:
                field = f"beam.{one.name}.carries.{number}.stays"
                open_.append(ask("stays", one.name, field, load=load.what or "the live load"))
        todo += context.structure.beams_on(one.name)
    return (None, tuple(open_)) if open_ else (False, ())
