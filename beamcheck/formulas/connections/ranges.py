"""Ranges of the rules for bolts, screws and nails. As in `ranges`: a number outside raises, an array element is NaN."""

from __future__ import annotations

import math

from ...calc.core import Number, valid
from ...calc.ranges import between, given, shown

WOOD = "NDS 2018 Table 12.3.3"
LATERAL = "NDS 2018 Table 12.3.1B"

LARGE = 0.25  # in; from here on the direction of the grain, C_g and C_delta matter
THICKEST = 1.0  # in; above it the lateral rules end
LONGEST_LASTING = 1.6  # the largest C_D on a connection


def finite(name: str, value: Number, clause: str = "") -> Number:
    """A value with a sign."""
    return valid(value, abs(value) < math.inf, f"{name} must be a finite number{given(value)}", clause)


def gravity(G: Number) -> Number:
    """Specific gravity within the tables of dowel bearing strength."""
    return between("G", G, 0.31, 0.73, WOOD)


def any_diameter(D: Number) -> Number:
    """A diameter with which the yield equations hold."""
    because = f"D must be above 0 and at most 1 in{given(D)}"
    return valid(D, (D > 0) & (D <= THICKEST), because, LATERAL)


def large_diameter(D: Number, clause: str = LATERAL) -> Number:
    """A nominal diameter of 1/4 in to 1 in."""
    return between("D", D, LARGE, THICKEST, clause, "in")


def to_grain(theta: Number, clause: str = "NDS 2018 12.3.3") -> Number:
    """Angle between load and grain."""
    return between("theta", theta, 0, 90, clause, "deg")


def at_least(name: str, value: Number, limit_name: str, limit: Number, clause: str = "") -> Number:
    """A finite value that may not be smaller than another one."""
    because = f"{name} must be {limit_name}{shown(limit)} or more{given(value)}"
    return valid(value, (value >= limit) & (value < math.inf), because, clause)
