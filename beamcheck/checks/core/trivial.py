"""Forces next to nothing: they need no rule of their own, and nobody's word."""

from __future__ import annotations

from ...values.judgment import judgment


def negligible() -> float:
    """A force below it is rounding of the analysis, lbf."""
    return judgment("negligible force").value


def trivial(force: float, capacity: float) -> bool:
    """Whether a force is small by itself and beside what the piece or joint carries, both in lbf."""
    return force <= judgment("trivial force").value and force <= judgment("trivial share of capacity").value * capacity
