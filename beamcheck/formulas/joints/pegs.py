"""Strengths of hardwood pegs in timber frames, as a timber framers' standard beside NDS has them.

All from memory; no print was seen: what comes out is for screening, until it is compared with the standard.
F_yb is a mean at failure, not a value with safety in it: the safety stands in the reduction terms of `peg_modes`.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula, sqrt
from ...calc.ranges import between
from ..connections.ranges import Gravity

PEGS = "timber frame standard, pegs"

PegGravity = Annotated[Number, between(0.5, 0.9, because="pegs are of dense hardwood", clause=PEGS)]
"""Specific gravity of a peg. What was tested is less wide: see tables/judgment_joints.csv."""


@formula(symbol="F_e_par", clause=PEGS, unit="psi", known="memory")
def peg_bearing_parallel(G_p: PegGravity) -> Number:
    """Bearing strength of peg and timber together, load along the grain of the timber.

    Less than steel dowels have in the same wood: the peg crushes too.

    >>> round(peg_bearing_parallel(0.73), 1)
    3148.5
    """
    return 4770 * G_p**1.32


@formula(symbol="F_e_perp", clause=PEGS, unit="psi", known="memory")
def peg_bearing_perpendicular(G_p: PegGravity, G_t: Gravity) -> Number:
    """Bearing strength of peg and timber together, load across the grain of the timber.

    At an angle between: `dowel_bearing_at_angle`.

    >>> round(peg_bearing_perpendicular(0.73, 0.5), 1)
    2529.3
    """
    return 4900 * G_p * sqrt(G_t)


@formula(symbol="F_yb", clause=PEGS, unit="psi", known="memory")
def peg_bending_yield(G_p: PegGravity) -> Number:
    """Bending strength of a peg: the mean modulus of rupture of dry hardwood of that gravity.

    >>> round(peg_bending_yield(0.73), 1)
    17413.3
    """
    return 24850 * G_p**1.13


@formula(symbol="F_vy", clause=PEGS, unit="psi", known="memory")
def peg_shear_strength(G_p: PegGravity, G_t: Gravity) -> Number:
    """Shear strength of a peg across its grain; soft timber holds it less and it bends as it shears.

    >>> round(peg_shear_strength(0.73, 0.5), 1)
    2105.2
    """
    return 4850 * G_p * G_t**0.75
