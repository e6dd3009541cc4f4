"""One stick of a roof frame with its section and its wood."""

from __future__ import annotations

from dataclasses import replace

from ...analysis.roofs.roof_frame import Stiff
from ...model.roofs import Rafter, Tie, slope_length
from ...model.sticks import Cut
from ...records import dataclass
from ...values.lumber import Size
from ..beams.beam_run import section_of
from ..core.context import Context
from ..core.wood.lost import least_section
from ..core.wood.material import WoodMaterial
from ..core.wood.sticks import stiffness_of
from ..core.wood.strength import Section


@dataclass(frozen=True, eq=False)
class FramedStick:
    """One stick of the roof frame with its wood."""

    piece: Rafter | Tie
    size: Size
    section: Section
    wood: WoodMaterial
    old_cuts: tuple[Cut, ...] = ()  # that a survey found

    @property
    def stiff(self) -> Stiff:
        """What the frame analysis needs of it."""
        return Stiff(*stiffness_of(self.section, self.wood))


def framed(piece: Rafter | Tie, wood: WoodMaterial, context: Context) -> FramedStick:
    """A rafter or tie with its section; of a surveyed timber the least breadth and depth anywhere, all along it."""
    size, stock = context.size(piece.stock), context.stock(piece.stock)
    cuts = () if stock.survey is None else stock.survey.cuts or ()
    if wood.volume is not None and isinstance(piece, Rafter):
        wood = replace(wood, volume=replace(wood.volume, L=slope_length(piece)))
    section = least_section(stock, section_of(size, piece.laid, piece.plies))
    return FramedStick(piece, size, section, wood, cuts)
