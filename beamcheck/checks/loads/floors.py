"""Whether what is said to come onto a floor can be all: people by the use of the room, and no load of a roof."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from ...analysis.beams.load_cases import Applied, Case
from ...model.beams import Beam
from ...model.fields.said import gives_a_reason
from ...model.loads import sort_of
from ...model.roofs import Tie
from ...units import show
from ...values.judgment import judgment
from ...values.loads import live_load, told
from ..core.asking.question import PlausibleAnswer, ask
from ..core.result import Check
from ..core.wood.strength import Section
from .entries import (
    CLAUSE,
    KIND_WORDS,
    WHAT,
    as_it_is,
    formed,
    is_meant,
    is_of_a_roof,
    judged_load,
    moved,
    path_of,
    psf,
    spread_entry,
    with_kind,
)

ID = "loads.floor"
_USES = {"other room": "living room", "sleeping room": "bedroom", "attic without storage": "attic, no storage"}


def floor_checks(beam: Beam, cases: Sequence[Case], loads: Sequence[Applied]) -> Iterator[Check]:
    """What makes the loads of a floor look incomplete; each keeps it from passing."""
    present = {case.kind for case in cases if any(load.total for load in case.loads)}
    if "L" not in present and not _bears_nothing_else(beam):
        yield _no_floor(beam) if _bears_a_little_only(beam, loads) else _no_live_load(beam)
    elif "L" in present:
        yield from _weight_without_people(beam)
    yield from _loads_of_a_roof(beam)
    yield from light_live_loads(beam)


def strip_checks(beam: Beam, section: Section) -> Iterator[Check]:
    """A joist that carries less than the strip from middle to middle, or stands closer than it is broad."""
    if beam.spacing is None:
        return
    yield from narrow_strips(beam, beam.spacing)
    if beam.spacing < float(section.b):
        text = f"the spacing {show(beam.spacing, 'length')} is less than the piece is broad"
        question = ask("spacing", beam.name, f"beam.{beam.name}.spacing")
        yield Check.refers("loads.strip", beam.name, WHAT, CLAUSE, text, ask=question)


def narrow_strips(piece: Beam | Tie, spacing: float) -> Iterator[Check]:
    """Loads on a strip narrower than the way from one piece to the next."""
    for index, load in enumerate(piece.carries):
        if load.width is not None and load.width < spacing * (1.0 - 1e-9):
            text = (
                f"{load.what}: the load width {show(load.width, 'length')} is less than the spacing "
                f"{show(spacing, 'length')}; what carries the rest?"
            )
            path, width = f"{path_of(piece, index)}.width", show(spacing, "length", "US")
            answers = [PlausibleAnswer(width, ((path, width),))]
            question = ask("load_width", piece.name, path, answers=answers, load=load.what)
            yield Check.refers("loads.strip", piece.name, WHAT, CLAUSE, text, ask=question)


def _bears_a_little_only(beam: Beam, loads: Sequence[Applied]) -> bool:
    """Whether nothing is on it but some small weights in their places: a lamp, a bell. No deck, no other piece."""
    if beam.top_held != "ends only" or any(load.from_piece for load in loads):
        return False
    others = [load for load in loads if not load.own]
    points = all(load.is_point and load.kind == "D" for load in others)
    return (
        bool(others)
        and points
        and sum(load.P for load in others) <= judgment("weights on a beam without a floor").value
    )


def _bears_nothing_else(beam: Beam) -> bool:
    """Whether a reason is given why nobody comes there; what carries a load per area is a floor, whatever it says."""
    floor = any(sort_of(load) == "area" and not load.insists_on("live") for load in beam.carries)
    return gives_a_reason(beam.bears_nothing_else) and (not floor or beam.insists_on("live"))


def _no_floor(beam: Beam) -> Check:
    text = (
        "nothing is on it but single weights in their places, and no deck holds its top: there is no floor, so it "
        "needs no live load (common practice)"
    )
    return Check.keeps_rule(ID, beam.name, WHAT, CLAUSE, text)


def _weight_without_people(beam: Beam) -> Iterator[Check]:
    """An area of floor with weight alone, though people stand elsewhere on the piece or one person in one place."""
    areas = [(i, load) for i, load in enumerate(beam.carries) if sort_of(load) == "area" and not is_of_a_roof(load)]
    bare = [(i, load) for i, load in areas if load.dead and not told(load.what, "wall")]
    weight = sum(load.dead[0] for _, load in bare if load.dead is not None)
    least = judged_load(f"least weight of a floor, {'one of a row' if beam.spacing is not None else 'on a beam'}")
    if any(load.live for _, load in areas) or weight < least * (1.0 - 1e-9):
        return
    index, load = max(bare, key=lambda one: one[1].dead or (0.0, ""))
    if not is_meant("live", beam, load):
        text = f"{load.what}: weight per area of floor without people, who stand elsewhere on it or in one place only"
        only = as_it_is(beam, index, "live", "weight only: the people over it come through other pieces")
        yield _asks_for_people(beam, index, text, [*_rooms(path_of(beam, index)), only])


def attic_checks(tie: Tie) -> Iterator[Check]:
    """Of a tie that bears more than itself: over a ceiling is an attic, in which somebody may put something."""
    yield from light_live_loads(tie)
    if any(load.live for load in tie.carries):
        return
    for index, load in enumerate(tie.carries):
        if load.dead and not is_meant("live", tie, load) and sort_of(load) == "area":
            low, path = psf(live_load("attic without storage").value), f"{path_of(tie, index)}.live"
            attic = PlausibleAnswer(f"an attic without storage, under 42 in high: {low}", ((path, low),))
            none = as_it_is(tie, index, "live", "no attic: nothing lies on it and nobody gets there")
            text = f"{load.what}: no live load is given, and over a ceiling is an attic"
            yield _asks_for_people(tie, index, text, [attic, none])
            return


def _asks_for_people(piece: Beam | Tie, index: int, text: str, answers: list[PlausibleAnswer]) -> Check:
    question = ask("live", piece.name, f"{path_of(piece, index)}.live", answers=answers)
    return Check.refers(ID, piece.name, WHAT, CLAUSE, text, ask=question)


def _no_live_load(beam: Beam) -> Check:
    """A floor without live load: what the room is used for, or that there is no floor at all."""
    path, answers = spread_entry(beam), []
    if path is not None:
        answers = _rooms(path)
    reason = "there is no floor and no attic over it"
    sets: list[tuple[str, Any]] = [(f"beam.{beam.name}.bears_nothing_else", reason)]
    if path is not None:
        sets.append((f"beam.{beam.name}.meant.live", reason))
    answers.append(PlausibleAnswer(f"nothing else ever: {reason}", tuple(sets)))
    question = ask(
        "live", beam.name, f"{path}.live" if path else f"beam.{beam.name}.bears_nothing_else", answers=answers
    )
    return Check.refers(ID, beam.name, WHAT, CLAUSE, "no live load is given, and a floor has one", ask=question)


def _rooms(entry: str) -> list[PlausibleAnswer]:
    """Ordinary uses with their live load, which the load at that path takes."""
    loads = [(use, words, psf(live_load(use).value)) for use, words in _USES.items()]
    return [PlausibleAnswer(f"{words}: {load}", ((f"{entry}.live", load), (f"{entry}.room", use)))
            for use, words, load in loads]  # fmt: skip


def light_live_loads(beam: Beam | Tie) -> Iterator[Check]:
    """A live load under that of the use which is named, or under that of every room where none is."""
    for index, load in with_kind(beam, "live"):
        if load.live is None or load.live[1] != "area" or is_of_a_roof(load):
            continue
        room = load.room or _most_of(one.says for one in told(load.what, "use"))
        ceiling = bool(told(load.what, "ceiling"))
        below = ceiling and not load.room  # a room named beside a ceiling may lie under it
        known, like_a_room = bool(room) and not below, not ceiling and not room and _one_of_a_row(beam)
        use = room if known else "sleeping room" if like_a_room else "attic without storage"
        least = live_load(use, least=True)
        if load.live[0] >= least.value * (1.0 - 1e-9):
            continue
        value = show((least.value, "area"), "load")
        asked = (
            f"the code asks {value} there" if known
            else f"no room has less than {value}, and which room it is was not said" if like_a_room
            else "that is less than any code asks for"
        )  # fmt: skip
        text = f"{load.what}: a live load of {show(load.live, 'load')}; {asked}"
        path = path_of(beam, index)
        answers = [PlausibleAnswer(f"{words}: {psf(live_load(use).value)}",
                                   ((f"{path}.live", psf(live_load(use).value)), (f"{path}.room", use)))
                   for use, words in list(_USES.items())[:2] if use != room]  # fmt: skip
        if room:
            answers.insert(0, PlausibleAnswer(f"{room}: {psf(least.value)}", ((f"{path}.live", psf(least.value)),)))
        elif like_a_room:
            answers.append(PlausibleAnswer("an attic without storage, under 42 in high",
                                           ((f"{path}.room", "attic without storage"),)))  # fmt: skip
        else:
            low = psf(least.value)
            answers.append(
                PlausibleAnswer(f"an attic without storage, under 42 in high: {low}", ((f"{path}.live", low),))
            )
        question = ask("light_live_load", beam.name, f"{path}.live", answers=answers, load=load.what)
        yield Check.refers(ID, beam.name, WHAT, least.source.document, text, ask=question)


def _most_of(uses: Iterable[str]) -> str:
    """Of several uses named that with the largest load; '' where none is named."""
    return max(uses, key=lambda use: live_load(use, least=True).value, default="")


def _one_of_a_row(beam: Beam | Tie) -> bool:
    """Whether it is a joist of a floor: spaced, or with a strip as narrow as theirs. Over a tie is an attic."""
    if isinstance(beam, Tie):
        return False
    widths = [load.width for load in beam.carries if load.width is not None]
    narrow = judgment("width of floor of a beam that stands alone").value
    return beam.spacing is not None or (bool(widths) and max(widths) <= narrow)


def _loads_of_a_roof(beam: Beam) -> Iterator[Check]:
    """Snow, wind and roof live load have load duration factors that people do not have, and no patterns with them."""
    for kind in ("roof_live", "snow", "wind"):
        for index, load in with_kind(beam, kind):
            if (
                load.roof
                or formed(load, kind)
                or is_of_a_roof(load)
                or (kind != "roof_live" and told(load.what, "outdoors"))
            ):
                continue
            text = (
                f"{load.what}: {KIND_WORDS[kind]} stands on a floor; with it the wood is allowed more than with people "
                "and furniture"
            )
            field = f"{path_of(beam, index)}.{kind}"
            answers = [as_it_is(beam, index, kind, f"{KIND_WORDS[kind]} it is: a deck or balcony outdoors")]
            if kind != "wind":
                answers.insert(0, moved(beam, index, load, kind, "live", "people and furniture: live load"))
            question = ask("roof_load_on_floor", beam.name, field, answers=answers, load=load.what,
                           kind=KIND_WORDS[kind])  # fmt: skip
            yield Check.refers(ID, beam.name, WHAT, "NDS 2018 2.3.2", text, ask=question)
