"""How loads come onto a beam: seats of point loads on its top, loads framed into the side, loads hung from below."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from ...analysis.beams.load_cases import SLIVER, Applied
from ...analysis.beams.solved_beam import SolvedBeam
from ...calc.pad import Pad
from ...model.pieces import Beam, Post
from ...units import show
from ..core.context import Context
from ..core.govern import Criterion, at, govern, stated
from ..core.material import WoodMaterial
from ..core.result import Check
from ..core.strength import Outcome, Section, bearing

NO_RULE = {
    "below": (
        "loads hung from below", "NDS 2018 3.8.2",
        "a load hung low pulls the wood apart across the grain; no design value covers that. An engineer must see "
        "how high its fastening sits",
    ),
    "side": (
        "loads on the side", "NDS 2018 3.4.3.3, 3.8.2",
        "at a fastening in the side only the depth beyond it counts in shear; a low one pulls the wood apart across "
        "the grain: the height of the fastening is not given here, so an engineer must look at it",
    ),
    "seats": (
        "seats of repeated pieces", "NDS 2018 3.10.2",
        "how each of them sits on this beam, and what seat it needs, is not checked",
    ),
    "unknown": (
        "how loads come on", "NDS 2018 3.4.3.1, 3.8.2",
        "whether it bears on the top, is framed into the side or hangs from below is not said (`applied`)",
    ),
}  # fmt: skip


def load_checks(beam: Beam, solved: SolvedBeam, wood: WoodMaterial, section: Section, context: Context) -> list[Check]:
    """Point loads on the top need a seat; loads on the side or from below, or said to be neither, are referred."""
    on_top = [load for load in solved.loads if load.is_point and load.applied in ("top", "unknown")]
    found = []
    for x, what in dict.fromkeys((load.start, load.what) for load in on_top):
        here = [load for load in on_top if (load.start, load.what) == (x, what)]
        found.append(_seat_of(beam, solved, wood, section, context, here))
    for way, (what, clause, text) in NO_RULE.items():
        names = dict.fromkeys(load.what for load in solved.loads if _way(load) == way)
        if names:
            found.append(stated(beam.name, what, clause, "refer", f"{', '.join(names)}: {text}"))
    return found


def _way(load: Applied) -> str:
    """Which rule is missing for a load; a point load on the top, or who knows where, is asked for its seat instead."""
    if load.applied != "unknown":
        return load.applied
    return "seat" if load.is_point else "seats" if load.from_piece else "unknown"


def _seat_of(
    beam: Beam, solved: SolvedBeam, wood: WoodMaterial, section: Section, context: Context, loads: Sequence[Applied]
) -> Check:  # fmt: skip
    """Bearing of the beam's top under one point load. The loads are those of each kind from one source at one place."""
    x, what, clause = loads[0].start, loads[0].what.removeprefix("from ") or "a point load", "NDS 2018 3.10.2"
    where = "anywhere" if any(load.moves for load in loads) else show(x, "length")
    title = f"seat of {what} on the top"
    lengths = [load.bearing for load in loads]
    l_b = min((length for length in lengths if length), default=0.0)
    broad, note = _breadth(beam, section, context, loads, l_b)
    if not all(lengths) or not broad or any(load.applied == "unknown" for load in loads):
        text = "how this point load reaches the beam, or the size of its seat, is not given (`applied`, `bearing`)"
        return stated(beam.name, title, clause, "refer", text, where=where)
    if section.round:
        return stated(beam.name, title, clause, "refer", "a seat on a round piece is for an engineer", where=where)
    P = _largest(solved, loads)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(P, which), "lbf", note="the point load")
        return bearing(pad, wood, R=R, b=broad, l_b=l_b, near_end=True)

    return govern(Criterion(beam.name, title, clause, "stress", where, (note,)), solved.combinations, calculate)


def _largest(solved: SolvedBeam, loads: Sequence[Applied]) -> np.ndarray:
    """(combinations,) the whole force on one seat, lbf: patterns do not ease it, and what lifts does not either."""
    total = np.zeros(len(solved.combinations))
    for kind in {load.kind for load in loads}:
        most = sum(max(load.P, 0.0) for load in loads if load.kind == kind)
        of_kind = np.array([case.kind == kind for case in solved.cases])
        total += most * np.max(solved.factors * of_kind, axis=1)
    return total


def _breadth(
    beam: Beam, section: Section, context: Context, loads: Sequence[Applied], l_b: float
) -> tuple[float, str]:  # fmt: skip
    """How broad a seat is across the beam, inches (0: not known), and why."""
    b = float(section.b)
    if not loads[0].from_piece:
        return min(b, l_b), "the seat is taken to be square, or as broad as the beam where that is less"
    seats = [*_seats_from(beam, context, loads[0])]
    return min(
        [b, *seats]
    ) if seats else 0.0, f"as broad as {loads[0].what.removeprefix('from ')} reaches over the beam"


def _seats_from(beam: Beam, context: Context, load: Applied) -> Iterator[float]:
    """The seats that the piece above has there, along itself, which is across this beam; 0 where it is not given."""
    for transfer in context.transfers:
        above = context.structure.pieces.get(transfer.from_piece)
        if load.what != f"from {transfer.from_piece}":
            continue
        if isinstance(above, Post):
            yield transfer.bearing or 0.0
        if not isinstance(above, Beam):
            continue
        for support in above.supports:
            if support.on == beam.name and abs((support.lands_at or 0.0) - load.start) < SLIVER:
                yield support.bearing or 0.0
