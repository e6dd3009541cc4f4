"""What somebody else's wall, pad or footing is said to take, against what comes to it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ...analysis.beams.combinations import Loaded
from ...calc.pad import Pad
from ...model.pieces import Existing
from ...provenance import Source
from .govern import Criterion, at, govern
from .result import Check
from .strength import Outcome


def enough(
    subject: str, what: str, under: Existing, combinations: Sequence[Loaded], forces: np.ndarray, where: str = ""
) -> list[Check]:
    """The force on one seat against what it is said to take; nothing where no figure is given.

    Parameters
    ----------
    forces : (combinations,)
        Down on the seat. [lbf]
    """
    if under.takes is None:
        return []
    allowed, source = under.takes, Source(under.confirmed_by or "the job file", "given")

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(np.maximum(forces, 0.0), which), "lbf", note="from the analysis")
        limit = pad.take("R_allowed", allowed, "lbf", note="what the seat is said to take", source=source)
        return Outcome(R, limit, R / limit)

    return [govern(Criterion(subject, what, "load path", "force", where), combinations, calculate)]
