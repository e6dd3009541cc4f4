"""Forces that the words of a paper name: it answers for those, and for no larger ones."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...errors import BeamcheckError
from ...units import read
from ...values.judgment import judgment

_FORCE = re.compile(
    r"(?<![\w.,])(\d[\d,]{0,9}(?:\.\d{1,3})?)(#(?!\w)| ?(?:lbs?|lbf|pounds?|kips?|kN|tons?)\b(?! ?/| per\b))",
    re.IGNORECASE,
)
_UNITS = {"#": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb", "kips": "kip", "kn": "kN", "ton": "kip", "tons": "kip"}
_SHORT_TON = 2.0  # kip: the lightest of the tons


def forces_said(text: str) -> Iterator[float]:
    """Every force that such words name, lbf."""
    for number, said in _FORCE.findall(text):
        unit = said.strip().casefold()
        try:
            force = read(f"{number} {_UNITS.get(unit, unit)}", "force")
        except BeamcheckError:
            continue
        yield _SHORT_TON * force if unit.startswith("ton") else force


def same_force(one: float, other: float) -> bool:
    """Whether two figures differ by no more than rounding between units."""
    return abs(one - other) <= judgment("forces of one paper and one entry").value * other


def named_too_small(text: str, force: float) -> float | None:
    """The largest force that a paper names, where more comes to what it answers for; lbf."""
    most = max(forces_said(text), default=0.0)
    return most if 0.0 < most < force and not same_force(most, force) else None
