"""Weight that stays: less than the floor or roof can weigh, or more than any does."""

from __future__ import annotations

from collections.abc import Iterator

from ...model.beams import Beam
from ...model.loads import Load, sort_of
from ...model.roofs import Rafter
from ...units import show
from ...values.loads import Told, told
from ..core.asking.question import PlausibleAnswer, ask
from ..core.result import Check
from .entries import WHAT, as_it_is, is_meant, judged_load, of_area, path_of, psf

ID, CLAUSE = "loads.dead", "ASCE 7-16 3.1, Table C3.1-1"
_PEOPLE = ("live", "roof_live", "snow")


def weight_checks(piece: Beam | Rafter) -> Iterator[Check]:
    """Only where a floor or roof is on it: some load per area of people or snow."""
    spread = [(i, load) for i, load in enumerate(piece.carries) if sort_of(load) == "area"]
    on_it = [(i, load) for i, load in spread if any(getattr(load, kind) is not None for kind in _PEOPLE)]
    if not on_it or any(is_meant("dead", piece, load) for load in piece.carries):
        return
    given = sum(of_area(load, "dead") for _, load in spread) + _of_lines(piece, [load for _, load in spread])
    layers = _layers(piece)
    least = _least(piece, layers)
    if given >= least * (1.0 - 1e-9):
        return
    index = next((i for i, load in spread if load.dead is not None), on_it[0][0])
    named = " and ".join(f"{layer.says} alone weighs {show((layer.weight or 0.0, 'area'), 'load')}" for layer in layers)
    text = (
        f"{show((given, 'area'), 'load')} of weight that stays is less than a {_kind(piece)} weighs, "
        f"{show((least, 'area'), 'load')} at least{f': {named}' if named else ''}"
    )
    field = f"{path_of(piece, index)}.dead"
    answers = [PlausibleAnswer(psf(least), ((field, psf(least)),)),
               as_it_is(piece, index, "dead", "weighed: so little it is")]  # fmt: skip
    question = ask("dead", piece.name, field, answers=answers, floor=_kind(piece))
    yield Check.refers(ID, piece.name, WHAT, CLAUSE, text, ask=question)


def _of_lines(piece: Beam | Rafter, spread: list[Load]) -> float:
    """Dead load given per length, over the strip that the piece carries."""
    widths = [load.width for load in spread if load.width is not None]
    width = max(widths, default=piece.spacing)
    lines = sum(load.dead[0] for load in piece.carries if load.dead is not None and load.dead[1] == "line")
    return lines / width if width else 0.0


def _layers(piece: Beam | Rafter) -> list[Told]:
    """Heavy layers that the words or the finish name, each once."""
    words = "; ".join((piece.finish, *(load.what for load in piece.carries)))
    return [layer for layer in told(words, "layer") if layer.weight]


def _least(piece: Beam | Rafter, layers: list[Told]) -> float:
    """What it weighs at least without its own weight, lbf/in2."""
    words = "; ".join(load.what for load in piece.carries)
    if isinstance(piece, Beam) and piece.service == "floor":
        place = "a deck" if told(words, "outdoors") else "a floor"
    else:
        place = "an open roof" if told(words, "open") else "a roof"
    one_of_a_row = isinstance(piece, Rafter) or piece.spacing is not None
    least = judged_load(f"least weight of {place}, {'one of a row' if one_of_a_row else 'on a beam'}")
    if place == "a roof" and any(one.says == "shingles" for one in told(words, "roofing")):
        least = max(least, judged_load("least weight of a roof with shingles"))
    return least + sum(layer.weight or 0.0 for layer in layers)


def _kind(piece: Beam | Rafter) -> str:
    return "floor" if isinstance(piece, Beam) and piece.service == "floor" else "roof"
