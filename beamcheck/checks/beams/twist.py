"""A beam with a bracket on its side: the load beside its axis twists it, and there is no check of twist here."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ...model.brackets import Bracket
from ...units import show
from ...values.combinations import asd_combinations
from ..core.context import Context
from ..core.govern import stated
from ..core.result import Check
from ..core.strength import Section

# psi: torque over b^2 d. The shear of twist in a rectangle is at most 4.81 times that (a square; derived): 2 psi, or
# about a hundredth of the least shear value of any sawn timber. For a bracket's own weight only. Judgement, no source.
TINY = 0.4


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
    for transfer in context.transfers:
        if transfer.off is None:
            continue
        piece = context.structure.pieces.get(transfer.from_piece)
        torque = largest_force(transfer.forces) * (transfer.off + 0.5 * b)
        own = isinstance(piece, Bracket) and piece.role != "carries" and set(transfer.forces) <= {"D"}
        if own and not transfer.perhaps and torque <= TINY * thin**2 * deep:
            text = f"{show(torque, 'moment')} from its own weight only: next to nothing for this section, left out"
            yield stated(name, f"twist by {transfer.from_piece}", "judgement", "passes", text)
            continue
        text = (
            f"{transfer.from_piece} on its side twists it with {show(torque, 'moment')}; twist, and what keeps the "
            "beam from turning at its supports, are not checked here"
        )
        yield stated(name, f"twist by {transfer.from_piece}", "statics", "refer", text)
