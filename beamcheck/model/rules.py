"""Names that moved; see places.py, loads.py, beams.py, roofs.py."""

from __future__ import annotations

from .beams import beam_length
from .loads import KINDS, sort_of
from .places import Fault, feet
from .roofs import slope_length
from .wording import PieceFaults

__all__ = ["KINDS", "Fault", "PieceFaults", "beam_length", "feet", "slope_length", "sort_of"]
