"""Words of a load beside its figure: another kind ('people' beside snow), or one heavy thing ('a safe')."""

from __future__ import annotations

from collections.abc import Iterator

from ...model.loads import sort_of
from ...values.loads import told
from ..core.asking.question import ask
from ..core.result import Check
from .entries import CLAUSE as USES
from .entries import KIND_WORDS, WHAT, Loaded, as_it_is, is_meant, moved, path_of, with_kind

ID, CLAUSE = "loads.kind", "NDS 2018 2.3.2"
# words of this sort, the kinds under which they may stand, and the kind that they are
_SORTS = (("people", ("live", "roof_live"), "live"), ("snow", ("snow",), "snow"))


def kind_checks(piece: Loaded) -> Iterator[Check]:
    """A load that lasts ten minutes or two months lets the wood bear more than people do; so the kind must be right."""
    for index, load in enumerate(piece.carries):
        given = [kind for kind in KIND_WORDS if getattr(load, kind) is not None]
        for sort, fit, right in _SORTS:
            found = told(load.what, sort)
            others = [kind for kind in given if kind not in fit and kind != "dead" and not is_meant(kind, piece, load)]
            if not found or any(kind in fit for kind in given) or not others:
                continue
            kind = others[0]
            text = f"{load.what}: {found[0].words!r} stands beside {KIND_WORDS[kind]}, which is another kind of load"
            answers = [moved(piece, index, load, kind, right, f"it is {KIND_WORDS[right]}"),
                       as_it_is(piece, index, kind, f"it is {KIND_WORDS[kind]}")]  # fmt: skip
            question = ask("kind_of_load", piece.name, f"{path_of(piece, index)}.{kind}", answers=answers,
                           load=load.what, given=KIND_WORDS[kind], other=KIND_WORDS[right])  # fmt: skip
            yield Check.refers(ID, piece.name, WHAT, CLAUSE, text, ask=question)


def heavy_thing_checks(piece: Loaded) -> Iterator[Check]:
    """A heavy thing that stands on its feet, named where only a load per area is given: a room's load is people."""
    points = any(sort_of(load) == "point" for load in piece.carries)
    for index, load in with_kind(piece, "live"):
        found = told(load.what, "heavy thing")
        if points or not found or sort_of(load) != "area":
            continue
        things = " and ".join(one.words for one in found)
        text = f"{load.what}: {things} stands on its feet, and only a load per area is given"
        answers = [as_it_is(piece, index, "live", "an engineer has its weight and feet: the load per area covers it")]
        question = ask("heavy_thing", piece.name, f"{path_of(piece, index)}.meant.live", answers=answers,
                       load=load.what, things=things)  # fmt: skip
        yield Check.refers("loads.heavy_thing", piece.name, WHAT, USES, text, ask=question)
