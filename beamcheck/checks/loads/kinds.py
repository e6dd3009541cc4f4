"""Words of a load beside its figure: another kind ('people' beside snow), a heavy thing, a use with a point load."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from ...model.beams import Beam, beam_length
from ...model.loads import Load, sort_of
from ...units import show
from ...values.judgment import judgment
from ...values.loads import point_load_beside, told
from ..core.asking.question import PlausibleAnswer, Question, ask
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


def use_point_checks(beam: Beam, depth: float) -> Iterator[Check]:
    """A use that has a point load beside its load per area, a garage or an office: the worse of both counts.

    A uniform load of twice the point load on a span bends and shears it more than the point load does, and so it does
    an overhang. A point load of the job counts where it may stand anywhere.
    """
    single = max((load.live[0] for load in beam.carries if load.live and load.moves), default=0.0)
    for index, load in with_kind(beam, "live"):
        use = load.room or next((one.says for one in told(load.what, "use")), "")
        if not use or load.live is None or load.live[1] != "area" or load.width is None or is_meant("live", beam, load):
            continue
        found = point_load_beside(use)
        if found is None or found[0].value < judgment("least point load of a use").value:
            continue
        P = found[0].value * min(1.0, (beam.spacing or found[1]) / found[1])  # joists share what is broad
        if single >= P * (1.0 - 1e-9) or load.live[0] * load.width * _least_stretch(beam, depth) >= 2.0 * P:
            continue
        text = f"{load.what}: {found[0].reason}, which may be worse than the load per area, and is not among the loads"
        yield Check.refers("loads.use_point", beam.name, WHAT, found[0].source.document, text,
                           ask=_ask_point(beam, index, load, P, found[1]))  # fmt: skip


def _least_stretch(beam: Beam, depth: float) -> float:
    """The shortest span or overhang, in; an end that reaches no more than a depth beyond its seat is none."""
    supports = sorted(beam.supports, key=lambda support: support.at)
    first, last = supports[0], supports[-1]
    beyond = ((first, first.at), (last, beam_length(beam) - last.at))
    overhangs = (long for end, long in beyond if long > 0.5 * (end.bearing or 0.0) + depth)
    return min((*(b.at - a.at for a, b in pairwise(supports)), *overhangs), default=0.0)


def _ask_point(beam: Beam, index: int, load: Load, P: float, side: float) -> Question:
    force, path = show(P, "force", "US"), f"beam.{beam.name}.carries"
    single = {"what": f"in one place: {load.what}", "live": force, "moves": True, "applied": "top",
              "bearing": show(side, "length", "US")}  # fmt: skip
    answers = [
        PlausibleAnswer(f"yes: {force} anywhere along it", ((f"{path}.{len(beam.carries) + 1}", single),)),
        as_it_is(beam, index, "live", "an engineer has looked: the load per area is worse, or none comes there"),
    ]
    return ask("point_load_of_use", beam.name, f"{path}.{len(beam.carries) + 1}", answers=answers, load=force)
