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
from .entries import WHAT, as_it_is, is_floor, is_meant, is_of_a_roof, judged_load, of_area, path_of, psf

ID, CLAUSE = "loads.dead", "ASCE 7-16 3.1, Table C3.1-1"
_PEOPLE = ("live", "roof_live", "snow")


def weight_checks(piece: Beam | Rafter) -> Iterator[Check]:
    """Only where a floor or roof is on it: some load per area of people or snow. A floor and a roof each by itself."""
    if any(is_meant("dead", piece, load) for load in piece.carries):
        return
    spread = [(i, load) for i, load in enumerate(piece.carries) if sort_of(load) == "area"]
    on_it = [(i, load) for i, load in spread if any(getattr(load, kind) is not None for kind in _PEOPLE)]
    roofs = [one for one in on_it if is_of_a_roof(one[1])]
    others = [one for one in on_it if one not in roofs]
    if roofs and others and is_floor(piece):
        alone = [one for one in spread if one not in on_it]  # weight that either may have
        yield from _light(piece, [*others, *alone], others[0][0], "floor")
        yield from _light(piece, [*roofs, *alone], roofs[0][0], "roof")
    elif on_it:
        yield from _light(piece, spread, on_it[0][0], "floor" if is_floor(piece) else "roof")


def _light(piece: Beam | Rafter, spread: list[tuple[int, Load]], first: int, kind: str) -> Iterator[Check]:
    """Less weight than that floor or roof has at least; the figure goes to the entry that has some, else to `first`."""
    loads = [load for _, load in spread]
    given = sum(of_area(load, "dead") for load in loads) + _of_lines(piece, loads)
    finish = piece.finish if is_floor(piece) == (kind == "floor") else ""  # a roof beside a floor has none of its own
    words = "; ".join((finish, *(load.what for load in (*loads, *_lines(piece)))))
    layers = [layer for layer in told(words, "layer") if layer.weight]
    least = _least(piece, loads, layers, kind)
    if given >= least * (1.0 - 1e-9):
        return
    index = next((i for i, load in spread if load.dead is not None), first)
    named = " and ".join(f"{layer.says} alone weighs {show((layer.weight or 0.0, 'area'), 'load')}" for layer in layers)
    text = (
        f"{show((given, 'area'), 'load')} of weight that stays is less than a {kind} weighs, "
        f"{show((least, 'area'), 'load')} at least{f': {named}' if named else ''}"
    )
    field = f"{path_of(piece, index)}.dead"
    answers = [PlausibleAnswer(psf(least), ((field, psf(least)),)),
               as_it_is(piece, index, "dead", "weighed: so little it is")]  # fmt: skip
    question = ask("dead", piece.name, field, answers=answers, floor=kind)
    yield Check.refers(ID, piece.name, WHAT, CLAUSE, text, ask=question)


def _of_lines(piece: Beam | Rafter, spread: list[Load]) -> float:
    """Dead load given per length, over the strip that the piece carries; walls stand beside the floor and the roof."""
    widths = [load.width for load in spread if load.width is not None]
    width = max(widths, default=piece.spacing)
    lines = sum(load.dead[0] for load in _lines(piece) if load.dead is not None and load.dead[1] == "line")
    return lines / width if width else 0.0


def _lines(piece: Beam | Rafter) -> list[Load]:
    return [load for load in piece.carries if sort_of(load) == "line" and not told(load.what, "wall")]


def _least(piece: Beam | Rafter, loads: list[Load], layers: list[Told], kind: str) -> float:
    """What it weighs at least without its own weight, lbf/in2."""
    words = "; ".join(load.what for load in loads)
    if kind == "floor":
        place = "a deck" if told(words, "outdoors") else "a floor"
    else:
        place = "an open roof" if told(words, "open") else "a roof"
    one_of_a_row = isinstance(piece, Rafter) or piece.spacing is not None
    least = judged_load(f"least weight of {place}, {'one of a row' if one_of_a_row else 'on a beam'}")
    if place == "a roof" and any(one.says == "shingles" for one in told(words, "roofing")):
        least = max(least, judged_load("least weight of a roof with shingles"))
    return least + sum(layer.weight or 0.0 for layer in layers)
