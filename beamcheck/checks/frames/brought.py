"""What beams bring to the points of a frame: by kind, as forces at the point on which they rest."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from ...analysis.beams.member_loads import TransferredLoad
from ...model.frames.frame import Frame, FrameForce
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import ask
from ..core.context import Context
from ..core.draft import transfer_doubts
from ..core.result import Check

FIELD = {"D": "dead", "L": "live", "Lr": "roof_live", "S": "snow"}
LITTLE = 1.0  # lbf: rounding
ID, CLAUSE = "path.load", "load path"


def with_brought(frame: Frame, transfers: Sequence[TransferredLoad]) -> Frame:
    """The frame with what rests on it among its forces; the same one where nothing does."""
    forces = [force for transfer in transfers if transfer.point for force in _forces(transfer)]
    return frame.model_copy(update={"carries": (*frame.carries, *forces)}) if forces else frame


def _forces(transfer: TransferredLoad) -> Iterator[FrameForce]:
    """Of each kind the largest; wind that presses and wind that lifts, with what of the weight may be gone then."""
    what = f"from {transfer.from_piece}"
    given: dict[str, Any] = {FIELD[kind]: high for kind, (high, _) in transfer.forces.items() if kind in FIELD and high}
    if given:
        yield FrameForce.model_construct(None, what=what, at=transfer.point, **given)
    presses, lifts = transfer.forces.get("W", (0.0, 0.0))
    if presses > 0.0:
        yield FrameForce.model_construct(what=what, at=transfer.point, wind=presses)
    if lifts < 0.0:
        high, low = transfer.forces.get("D", (0.0, 0.0))
        yield FrameForce.model_construct(what=what, at=transfer.point, wind=lifts - (high - low))


def brought_doubts(frame: Frame, context: Context) -> Iterator[Check]:
    """What comes from above and is not known, stands for a row, or lifts without wind."""
    yield from transfer_doubts(frame.name, context)
    for transfer in context.transfers:
        what = f"load from {transfer.from_piece}"
        if transfer.spread is not None:
            text = (
                f"{transfer.from_piece} stands for a row, one every {show(transfer.spread, 'length')}: one of them is "
                f"counted at the {transfer.point}. If more of them come there, put the beam that gathers them between"
            )
            asked = ask("row_on_one", frame.name, row=transfer.from_piece)
            yield Check.refers("path.row", frame.name, f"row of {transfer.from_piece}", CLAUSE, text, ask=asked)
        most = max((max(abs(high), abs(low)) for high, low in transfer.forces.values()), default=0.0)
        if not transfer.point and not transfer.unknown and most > judgment("light trim").value:
            text = f"{transfer.from_piece} puts {show(most, 'force')} on it at no point of the frame: it is not counted"
            asked = ask("load_from", frame.name, above=transfer.from_piece)
            yield Check.refers(ID, frame.name, what, CLAUSE, text, ask=asked)
        lifting = [kind for kind, (_, low) in transfer.forces.items() if kind != "W" and low < -LITTLE]
        if lifting:
            kinds = " and ".join(lifting)
            text = f"{transfer.from_piece} may lift there under {kinds}, which is not followed into the frame"
            asked = ask("load_from", frame.name, above=transfer.from_piece)
            yield Check.refers(ID, frame.name, what, CLAUSE, text, ask=asked)
