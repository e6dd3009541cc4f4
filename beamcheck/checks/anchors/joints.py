"""The anchor groups of a job, as the beams that they hold ask for them."""

from __future__ import annotations

from ...model.anchors.anchor import Anchor
from ...model.beams import Beam
from ..beams.beam_run import BeamRun
from ..core.context import Context
from ..core.result import PieceResult
from ..core.wood.group_cut import GroupCut
from ..core.wood.strength import Section
from .cuts import cuts_by_anchors, slot_width
from .results import anchors_of_beam


class AnchorGroups:
    """See `core.context.Joints`."""

    def cuts(self, beam: Beam, context: Context, section: Section) -> list[GroupCut]:
        return cuts_by_anchors(beam, context, section)

    def slot(self, anchor: Anchor | None) -> float:
        return slot_width(anchor)

    def results(self, beam: Beam, run: BeamRun | None, context: Context) -> list[PieceResult]:
        return anchors_of_beam(beam, run, context)
