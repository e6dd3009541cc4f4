"""What an anchor group takes from the section of the piece that it holds."""

from __future__ import annotations

from beamcheck.checks.anchors.cuts import anchor_cuts
from beamcheck.checks.core.wood.strength import Section
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.model.beams import Beam

from .anchor_jobs import KNIFE, B, D, hung

HOLE = 5 / 8 + 1 / 16  # in
PLATES = {"steel": "A36", "thickness": "1/4 in", "width": "7 in", "length": "9 in"}


def test_two_rows_of_bolts_take_their_holes() -> None:
    """Bolts 3 in and 6 1/2 in above the bottom, 4 1/2 in from the end: a drawing shows them from hole to hole."""
    anchor = Anchor.model_validate({**KNIFE, "manner": "plates both sides", "plate": PLATES})
    (cut,) = anchor_cuts(anchor, Beam.model_validate(hung()), 0, Section(B, D, B))
    assert [(void.y, void.height, void.breadth) for void in cut.voids] == [(3.0, HOLE, B), (6.5, HOLE, B)]
    assert (cut.at, cut.length, cut.width) == (4.5, HOLE, 0.0)
    assert (cut.depth, cut.from_bottom) == (3.5 + HOLE, 4.75)


def test_a_slot_takes_the_whole_depth_of_its_breadth() -> None:
    """A slot of 7/16 in, 9 1/2 in deep from the end: the holes lie in what is left of the breadth."""
    (cut,) = anchor_cuts(Anchor.model_validate(KNIFE), Beam.model_validate(hung()), 0, Section(B, D, B))
    assert (cut.width, cut.length, cut.at) == (7 / 16, 9.5, 4.75)
    assert (cut.depth, cut.from_bottom) == (D, D / 2)
    assert all(void.breadth == B - 7 / 16 for void in cut.voids)
