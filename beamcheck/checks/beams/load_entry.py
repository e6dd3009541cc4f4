"""How loads come onto a beam: seats of point loads on its top, fastenings in its side, brackets that twist it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from ...analysis.beams.load_cases import SLIVER, Applied
from ...analysis.beams.solved_beam import SolvedBeam
from ...calc.pad import Pad
from ...model.beams import Beam
from ...model.classes import is_bracket
from ...model.posts import Post
from ...model.roofs import Rafter
from ...units import show
from ...values.hardware.connections import connection_limit
from ...values.judgment import judgment
from ...values.loads import asd_combinations
from ..core.asking.question import PlausibleAnswer, Question, ask
from ..core.context import Context
from ..core.result import Check
from ..core.seat import BEARING
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.material import WoodMaterial, shear_prime_at_cut
from ..core.wood.strength import Outcome, Section, bearing, shear_at_connection
from .seats import told_apart

Array = np.ndarray
SIDE, LOW = "NDS 2018 3.4.3.3", "NDS 2018 3.8.2"


def field_of(beam: Beam, load: Applied, name: str) -> str:
    """The place of a field of a load of the beam's own in the job file."""
    return f"beam.{beam.name}.carries.{(load.entry or 0) + 1}.{name}"


def _ask_of(key: str, beam: Beam, load: Applied, name: str, **words: str) -> Question:
    asked = ask(key, beam.name, at=field_of(beam, load, name), **{"what": load.what, **words})  # type: ignore[arg-type]
    return told_apart(asked, f"load {(load.entry or 0) + 1}")


def ask_what_brings(beam: Beam, load: Applied) -> Question:
    """What stands or hangs where a point load of the beam's own comes on."""
    return _ask_of("comes_by", beam, load, "comes_by", place=show(load.start, "length"))


def ask_applied(beam: Beam, load: Applied) -> Question:
    """How a load of the beam's own comes on."""
    return _ask_of("applied", beam, load, "applied")


def load_checks(
    beam: Beam, solved: SolvedBeam, wood: WoodMaterial, section: Section, context: Context
) -> Iterator[Check]:  # fmt: skip
    """Point loads on the top need a seat; those in the side or from below need to know where they are fastened."""
    on_top = [load for load in solved.loads if load.is_point and load.applied in ("top", "unknown")]
    for x, what in dict.fromkeys((load.start, load.what) for load in on_top):
        here = [load for load in on_top if (load.start, load.what) == (x, what)]
        yield _seat_of(beam, solved, wood, section, context, here)
    aside = [load for load in solved.loads if load.applied in ("side", "below")]
    for what in dict.fromkeys(load.what for load in aside):
        yield from _fastened(beam, solved, wood, section, context, [load for load in aside if load.what == what])
    for load in solved.loads:
        if load.applied == "unknown" and not load.is_point:
            yield unsaid_entry(beam, load)


def unsaid_entry(beam: Beam, load: Applied) -> Check:
    """How a load comes on is not said."""
    id, what = "beam.load_entry", f"how {_name(load)} comes on"
    if load.entry is None:
        text = f"how each of {_name(load)} sits on this beam, and what seat it needs, is not checked"
        question = ask("row_seats", beam.name, row=_name(load))
        return Check.refers(id, beam.name, what, BEARING, text, ask=question)
    text = f"{load.what}: whether it bears on the top, is framed into the side or hangs from below is not said"
    question = ask_applied(beam, load)
    return Check.refers(id, beam.name, what, f"NDS 2018 3.4.3.1, {LOW}", text, ask=question)


def _name(load: Applied) -> str:
    return load.what.removeprefix("from ")


# ---- on the top -------------------------------------------------------------------------------------------------


def _seat_of(
    beam: Beam, solved: SolvedBeam, wood: WoodMaterial, section: Section, context: Context, loads: Sequence[Applied]
) -> Check:  # fmt: skip
    """Bearing of the beam's top under one point load. The loads are those of each kind from one source at one place."""
    load, what = loads[0], _name(loads[0]) or "a point load"
    where = "anywhere" if any(one.moves for one in loads) else show(load.start, "length")
    id, title = "beam.load_seat", f"seat of {what} on the top"
    lengths = [one.bearing for one in loads]
    l_b = min((length for length in lengths if length), default=0.0)
    broad, note = _breadth(beam, section, context, loads, l_b)
    if not all(lengths) or not broad or any(one.applied == "unknown" for one in loads):
        text = "how this point load reaches the beam, or the size of its seat, is not given"
        return Check.refers(id, beam.name, title, BEARING, text, ask=seat_asks(beam, context, loads), where=where)
    P = solved.whole_force(loads)
    if section.round:
        text = "a seat on a round piece is for an engineer"
        question = ask("round_top", beam.name, what=what, forces={"press": float(np.max(P))})
        return Check.refers(id, beam.name, title, BEARING, text, ask=question, where=where)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(P, which), "lbf", note="the point load")
        return bearing(pad, wood, R=R, b=broad, l_b=l_b, near_end=True)

    return govern(Criterion(beam.name, title, BEARING, "stress", where, (note,), id=id), solved.combinations, calculate)


def seat_asks(beam: Beam, context: Context, loads: Sequence[Applied]) -> list[Question]:
    """How it comes on, and how long its seat is; of a piece above that is said in the entry of that piece."""
    found = []
    for load in loads:
        if load.entry is not None:
            if load.applied == "unknown":
                found.append(ask_applied(beam, load))
            if not load.bearing:
                found.append(_ask_of("load_seat", beam, load, "bearing"))
    above = context.structure.pieces.get(_name(loads[0])) if loads[0].from_piece else None
    if isinstance(above, Beam):
        for index, support in enumerate(above.supports):
            if support.on == beam.name and not support.bearing:
                field = f"beam.{above.name}.supports.{index + 1}.bearing"
                end = f"support {index + 1}"
                asked = ask("seat_length", above.name, field, end=end, on=beam.name, place=show(support.at, "length"))
                found.append(told_apart(asked, end))
    return found or [ask("load_comes", beam.name, what=_name(loads[0]))]


def _breadth(
    beam: Beam, section: Section, context: Context, loads: Sequence[Applied], l_b: float
) -> tuple[float, str]:  # fmt: skip
    """How broad a seat is across the beam, inches (0: not known), and why."""
    b = float(section.b)
    if not loads[0].from_piece:
        return min(b, l_b), "the seat is taken to be square, or as broad as the beam where that is less"
    seats = [*_seats_from(beam, context, loads[0])]
    note = f"as broad as {_name(loads[0])} reaches over the beam"
    return (min([b, *seats]) if seats else 0.0), note


def _seats_from(beam: Beam, context: Context, load: Applied) -> Iterator[float]:
    """The seats that the piece above has there, along itself, which is across this beam; 0 where it is not given."""
    for transfer in context.transfers:
        above = context.structure.pieces.get(transfer.from_piece)
        if load.what != f"from {transfer.from_piece}":
            continue
        if isinstance(above, Post):
            yield transfer.bearing or 0.0
        if isinstance(above, Rafter):
            yield from _seats_of_rafter(above, beam)
        if not isinstance(above, Beam):
            continue
        for support in above.supports:
            lands = support.lands_at is not None and abs(support.lands_at - load.start) < SLIVER
            if support.on == beam.name and (lands or support.lands_from is not None):
                yield support.bearing or 0.0


def _seats_of_rafter(rafter: Rafter, beam: Beam) -> Iterator[float]:
    """The level seats of one rafter on a beam; at the ridge those of both of a pair, which bring the load of both."""
    if rafter.wall.on == beam.name:
        yield rafter.wall.bearing or 0.0
    if rafter.ridge_on == beam.name and rafter.upper is not None:
        yield (2.0 if rafter.pair else 1.0) * (rafter.upper.bearing or 0.0)


# ---- in the side, and from below --------------------------------------------------------------------------------


def _fastened(
    beam: Beam, solved: SolvedBeam, wood: WoodMaterial, section: Section, context: Context, loads: Sequence[Applied]
) -> Iterator[Check]:  # fmt: skip
    """Loads of one source that are fastened in the side: shear beside the fastenings, and wood pulled across its
    grain.
    """
    name, d = _name(loads[0]), float(section.d)
    id, what = "beam.side_load", f"{name} fastened in the side"
    places = [load.fastened for load in loads]
    if section.round or not all(places):
        text = (
            f"{name}: at a fastening in the side only the depth below the highest of them counts in shear, and a "
            f"low one "
            "pulls the wood apart across the grain: how high they sit is not given"
        )
        yield Check.refers(id, beam.name, what, f"{SIDE}, {LOW}", text, ask=_heights(beam, solved, d, context, loads))
        return
    highest = max(place[0] for place in places if place)
    lowest = max(place[1] for place in places if place)
    if any(load.lifts for load in loads):  # what lifts counts from the other edge
        highest = max(highest, d - min(place[1] for place in places if place))
    if lowest > d:
        text = f"the lowest fastening is said to sit {show(lowest, 'length')} under the top, below the beam"
        yield Check.refers(id, beam.name, what, "geometry", text, ask=_heights(beam, solved, d, context, loads))
        return
    share = judgment("depth beyond side fastenings over the depth")
    if d - highest < share.value * d:
        text = (
            f"the highest fastening sits {show(highest, 'length')} under the edge: below {1.0 - share.value:.0%} "
            f"of the "
            "depth a load pulls the wood apart across the grain, for which there is no design value"
        )
        question = ask("low_fastening", beam.name, what=name, forces={"down": float(np.max(_total(solved, loads)))})
        yield Check.refers("beam.side_load.low", beam.name, f"{name} pulls across the grain", LOW, text, ask=question)
    apart = connection_limit("outer fasteners across the grain, sawn wood").value
    if lowest - min(place[0] for place in places if place) > apart and not wood.dry and loads[0].entry is not None:
        text = (
            f"its fastenings are spread over more than {show(apart, 'length')} across the grain of wood that is "
            f"still to "
            "dry: it may split between them"
        )
        question = ask("spread_fastenings", beam.name, what=name, forces={"down": float(np.max(_total(solved, loads)))})
        what_spread = f"{name} fastened over a great height"
        yield Check.refers("beam.side_load.spread", beam.name, what_spread, "NDS 2018 12.5.1.3", text, ask=question)
    yield from _beside_fastenings(beam, solved, wood, section, loads, highest)


def _heights(beam: Beam, solved: SolvedBeam, d: float, context: Context, loads: Sequence[Applied]) -> Question:
    """How high the fastenings sit: a field of the load, or of the hanger that brings it, where that has one."""
    from ...model.anchors.manners import says_heights

    load = loads[0]
    anchor = context.anchor(load.held_by or None)
    if load.entry is not None:
        base = field_of(beam, load, "fastened")
    elif anchor is not None and not says_heights(anchor.manner):
        forces = {"down": float(np.max(_total(solved, loads)))}
        return ask(
            "side_by_steel", beam.name, what=_name(load), anchor=anchor.name, manner=anchor.manner, forces=forces
        )
    elif load.held_by:
        base = f"anchor.{load.held_by}.on_girder"
    else:
        return ask("side_load", beam.name, what=_name(load))
    lowest = min(6.0, d - 0.5)  # in the wood
    usual = [(show(high, "length", "US"), show(lowest, "length", "US")) for high in (1.0, 0.5 * lowest)]
    answers = [
        PlausibleAnswer(f"{high} and {low}", ((f"{base}.highest", high), (f"{base}.lowest", low)))
        for high, low in usual
    ]
    asked = ask("fastened", beam.name, f"{base}.highest", what=_name(load), answers=answers)
    return told_apart(asked, load.held_by or f"load {(load.entry or 0) + 1}")


def _beside_fastenings(
    beam: Beam, solved: SolvedBeam, wood: WoodMaterial, section: Section, loads: Sequence[Applied], highest: float
) -> Iterator[Check]:
    """Shear on the depth beyond the fastenings, with the full shear (NDS 2018 3.4.3.3)."""
    reach, name = judgment("near the end of a member").value * float(section.d), _name(loads[0])
    near: list[tuple[float, float]] = []
    inner: list[tuple[float, float]] = []
    for load in loads:
        for start, end in ((0.0, reach), (solved.length - reach, solved.length)):
            low, high = max(start, load.start), min(end, load.end)
            if low <= high:
                near.append((low, high))
        low, high = max(reach, load.start), min(solved.length - reach, load.end)
        if low <= high:
            inner.append((low, high))
    for stretches, words in ((near, "near an end"), (inner, "away from the ends")):
        if not stretches:
            continue
        found = [solved.shears(max(a, 0.0), min(b, solved.length)) for a, b in stretches]
        V_all = np.max([np.maximum(np.abs(low), np.abs(high)) for low, _, high, _ in found], axis=0)
        criterion = Criterion(
            beam.name, f"shear beside the fastenings of {name}, {words}", SIDE, "force", id="beam.side_load",
            notes=("the full shear is taken at a connection",),
        )  # fmt: skip

        def calculate(
            pad: Pad, which: int | slice, V_all: Array = V_all, near_end: bool = stretches is near
        ) -> Outcome:
            V = pad.take("V", at(V_all, which), "lbf", note="largest there, from the analysis")
            F_v_prime = shear_prime_at_cut(pad, wood, duration(pad, solved.combinations, which))
            c_u = pad.take("c_u", highest, "in", note="from the unloaded edge to the nearest fastening")
            return shear_at_connection(pad, F_v_prime, V=V, b=section.b, d=section.d, c_u=c_u, near_end=near_end)

        yield govern(criterion, solved.combinations, calculate)


def _total(solved: SolvedBeam, loads: Sequence[Applied]) -> Array:
    """(combinations,) all that comes down in these loads, lbf."""
    total = np.zeros(len(solved.combinations))
    for load in loads:
        of_kind = np.array([case.kind == load.kind for case in solved.cases])
        total += max(load.total, 0.0) * np.max(solved.factors * of_kind, axis=1)
    return total


# ---- twist ------------------------------------------------------------------------------------------------------


def largest_force(forces: Mapping[str, tuple[float, float]]) -> float:
    """The most that forces of several kinds come to under a combination, up or down, lbf."""
    found = 0.0
    for one in asd_combinations():
        for i in (0, 1):
            found = max(found, abs(sum(one.factors.get(kind, 0.0) * both[i] for kind, both in forces.items())))
    return found


def twist_checks(name: str, section: Section, context: Context) -> Iterator[Check]:
    """Torque of each bracket on the side of a beam: left out where it is tiny, else referred."""
    b, d = float(section.b), float(section.d)
    thin, deep = sorted((float(section.breadth_alone), d))
    tiny = judgment("torque over b^2 d that is left out").value
    for transfer in context.transfers:
        if transfer.off is None:
            continue
        piece = context.structure.pieces.get(transfer.from_piece)
        torque = largest_force(transfer.forces) * (transfer.off + 0.5 * b)
        own = is_bracket(piece) and piece.role != "carries" and set(transfer.forces) <= {"D"}
        id, what = "beam.twist", f"twist by {transfer.from_piece}"
        if own and not transfer.perhaps and torque <= tiny * thin**2 * deep:
            text = f"{show(torque, 'moment')} from its own weight only: next to nothing for this section, left out"
            yield Check.keeps_rule(id, name, what, "judgment", text)
            continue
        text = (
            f"{transfer.from_piece} on its side twists it with {show(torque, 'moment')}; twist, and what keeps "
            f"the beam "
            "from turning at its supports, are not checked here"
        )
        question = ask("twist", name, bracket=transfer.from_piece, torque=show(torque, "moment"))
        yield Check.refers(id, name, what, "statics", text, ask=question)
