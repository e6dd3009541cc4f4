"""What the checks of a bracket's body hand back, whatever its family."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from ..core.pictures import Picture
from ..core.result import Check, Table


@dataclass
class Body:
    """A bracket's own strength and stiffness, without its fixings.

    `weak_grain` says why the wood is not to be relied on for load, whatever the ratios say ('' where that is not so).
    `k_low` and `k_high` bound the stiffness under a force at the nose, lbf/in; None where it is not known: then a beam
    above is taken to meet something rigid. `pull` is the pull on the top row of fasteners per combination, lbf, where
    the family knows better than the lever arm of its table; `eta` names the row of that table.
    """

    checks: list[Check] = field(default_factory=list)
    weak_grain: str = ""
    k_low: float | None = None
    k_high: float | None = None
    pull: np.ndarray | None = None
    eta: str = ""
    pictures: list[Picture] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)
    inputs: list[tuple[str, str]] = field(default_factory=list)
    assumptions: list[str] = field(default_factory=list)
