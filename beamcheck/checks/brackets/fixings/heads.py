"""How wide the heads and washers of fasteners are."""

from __future__ import annotations

from ....errors import BeamcheckError
from ....model.anchors.anchor import Fastener
from ....model.links.hardware import diameter
from ....values.judgment import judgment

HEADS = {
    "bolt": "width of a hexagon head over diameter", "lag screw": "width of a hexagon head over diameter",
    "wood screw": "width of a round head over diameter", "nail": "width of a round head over diameter",
}  # fmt: skip


def head_width(fastener: Fastener | None) -> float:
    """Of head or washer, whichever is said or usual, in; 0 where the fastener is not known, which is said elsewhere."""
    if fastener is None:
        return 0.0
    try:
        D = diameter(fastener.kind, fastener.size)
    except BeamcheckError:
        return fastener.washer or 0.0
    row = HEADS.get(fastener.kind)  # a pin has no head
    return max(fastener.washer or 0.0, D * (1.0 if row is None else judgment(row).value))
