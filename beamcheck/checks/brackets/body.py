"""What the checks of a bracket's body hand back, whatever its family."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from ..core.pictures import Picture
from ..core.result import Check, Table


@dataclass
class Body:
    """A bracket's own strength, without its fixings.

    `weak_grain` says why the wood is not to be relied on for load, whatever the ratios say ('' where that is not so);
    `grain_doubt` why an engineer has to look at it, where what pulls across the grain stays small.
    `pull` is the pull on the top row of fasteners per combination, lbf, where the family knows better than the lever
    arm of its table.
    """

    checks: list[Check] = field(default_factory=list)
    weak_grain: str = ""
    grain_doubt: str = ""
    pull: np.ndarray | None = None
    pictures: list[Picture] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)
    inputs: list[tuple[str, str]] = field(default_factory=list)
    assumptions: list[str] = field(default_factory=list)
