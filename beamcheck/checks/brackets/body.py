"""What the checks of a bracket's body hand back, whatever its family."""

from __future__ import annotations

from dataclasses import field

import numpy as np

from ...records import dataclass
from ..core.pictures.others import Picture
from ..core.result import Check, Table


@dataclass
class Body:
    """A bracket's own strength, without its fixings.

    `weak_grain` says why the wood is not to be relied on for load, whatever the ratios say ('' where that is not so).
    `pull` is the pull on the top row of fasteners per combination, lbf, where the family knows better than the lever
    arm of its table.
    """

    checks: list[Check] = field(default_factory=list)
    weak_grain: str = ""
    pull: np.ndarray | None = None
    pictures: list[Picture] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)
    inputs: list[tuple[str, str]] = field(default_factory=list)
    assumptions: list[str] = field(default_factory=list)
