"""The signs of the verdicts: a beam on two posts; the beam broken between them; one post and a question mark."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

BOX = 24.0  # each is drawn in a box of this size


class Stroke(NamedTuple):
    """An SVG path that is stroked, and how broad."""

    path: str
    width: float


SIGNS: Mapping[str, tuple[Stroke, ...]] = {
    "passes": (Stroke("M1 7H23", 5.0), Stroke("M4 9V23M20 9V23", 2.8)),
    "fails": (Stroke("M1 4L12 17L23 4", 5.0), Stroke("M4 9V23M20 9V23", 2.8)),
    "refer": (
        Stroke("M1 5H23", 4.0), Stroke("M4 7V23", 2.8), Stroke("M12 13C12 9 20 9 20 13C20 16 16 16 16 19", 2.4),
        Stroke("M16 21V23.500", 2.6),
    ),
}  # fmt: skip
