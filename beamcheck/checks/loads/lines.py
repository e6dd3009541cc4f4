"""Loads per length: people or snow that are next to nothing beside the weight that stays, as by a slip of the unit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...analysis.beams.load_cases import Case
from ...model.beams import Beam
from ...model.loads import Load, sort_of
from ...model.roofs import Rafter
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import ask
from ..core.result import Check
from .entries import WHAT, as_it_is, is_meant, path_of

ID, CLAUSE = "loads.line", "IRC R301.5, ASCE 7-16 chapter 4"
_KINDS = ("live", "roof_live", "snow")


def line_checks(piece: Beam | Rafter, cases: Sequence[Case] = ()) -> Iterator[Check]:
    """Only where nothing is given per area and no other piece brings people or snow: those are read elsewhere."""
    lines = [(i, load) for i, load in enumerate(piece.carries) if sort_of(load) == "line"]
    brought = any(case.kind in ("L", "Lr", "S") and any(load.from_piece for load in case.loads) for case in cases)
    if brought or any(sort_of(load) == "area" for load in piece.carries):
        return
    given = [(i, load, kind) for i, load in lines for kind in _KINDS if getattr(load, kind) is not None]
    if not given or any(is_meant(kind, piece, load) for _, load, kind in given):
        return
    most = sum(_largest(load) for _, load in lines)
    dead = sum(load.dead[0] for _, load in lines if load.dead is not None)
    share = judgment("people or snow per length over the weight that stays").value
    if most >= share * dead:
        return
    index, load, kind = given[0]
    text = (
        f"{load.what}: {show((most, 'line'), 'load')} of people or snow beside {show((dead, 'line'), 'load')} of "
        "weight that stays is next to nothing: is it per area?"
    )
    answers = [as_it_is(piece, index, kind, "per length it is, from the sum of the loads")]
    question = ask("light_line_load", piece.name, f"{path_of(piece, index)}.{kind}", answers=answers, load=load.what)
    yield Check.refers(ID, piece.name, WHAT, CLAUSE, text, ask=question)


def _largest(load: Load) -> float:
    return max((amount[0] for kind in _KINDS if (amount := getattr(load, kind)) is not None), default=0.0)
