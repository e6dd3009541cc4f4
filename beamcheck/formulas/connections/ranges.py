"""Ranges that the rules for bolts, screws and nails share."""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number
from ...calc.ranges import at_least, at_most, between

WOOD = "NDS 2018 Table 12.3.3"
LATERAL = "NDS 2018 Table 12.3.1B"

LARGE = 0.25  # in; from here on the direction of the grain, C_g and C_delta matter
THICKEST = 1.0  # in; above it the lateral rules end
LONGEST_LASTING = 1.6  # the largest C_D on a connection

Gravity = Annotated[Number, between(0.31, 0.73, clause=WOOD)]
"""Specific gravity within the tables of dowel bearing strength."""
AnyDiameter = Annotated[Number, at_most(THICKEST, unit="in", clause=LATERAL)]
"""A diameter with which the yield equations hold."""
LargeDiameter = Annotated[Number, between(LARGE, THICKEST, "in")]
"""A nominal diameter of 1/4 in to 1 in."""
Count = Annotated[Number, at_least(1)]
"""A number of fasteners."""
Duration = Annotated[Number, at_most(LONGEST_LASTING, because="no more on a connection", clause="NDS 2018 Table 2.3.2")]
"""Load duration factor on a connection."""
