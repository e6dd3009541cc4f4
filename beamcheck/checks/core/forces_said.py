"""Forces that the words of a paper name: it answers for those, and for no larger ones."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...errors import BeamcheckError
from ...units import read
from ...values.judgment import judgment

_FORCE = re.compile(
    r"(?<![\w.,])(\d[\d,]{0,9}(?:\.\d{1,3})?) ?(lbs?|lbf|pounds?|kips?|kN)\b(?! ?/| per\b)", re.IGNORECASE
)
_UNITS = {"lbs": "lb", "pound": "lb", "pounds": "lb", "kips": "kip", "kn": "kN"}


def forces_said(text: str) -> Iterator[float]:
    """Every force that such words name, lbf."""
    for number, unit in _FORCE.findall(text):
        try:
            yield read(f"{number} {_UNITS.get(unit.casefold(), unit.casefold())}", "force")
        except BeamcheckError:
            continue


def same_force(one: float, other: float) -> bool:
    """Whether two figures differ by no more than rounding between units."""
    return abs(one - other) <= judgment("forces of one paper and one entry").value * other


def named_too_small(text: str, force: float) -> float | None:
    """The largest force that a paper names, where more comes to what it answers for; lbf."""
    most = max(forces_said(text), default=0.0)
    return most if 0.0 < most < force and not same_force(most, force) else None
