"""Sticks of a frame, whatever it belongs to: their stiffness for the analysis, and what is said of their forces."""

from __future__ import annotations

from ....calc.pad import SilentPad
from ....formulas.wood.deflection import shear_modulus_from_E
from .material import WoodMaterial, modulus_prime
from .strength import Section

SHEAR_PART = 5.0 / 6.0  # of a rectangle's area works in shear deflection (Timoshenko); 0.9 of a circle's
LITTLE = 1.0  # lbf or lb-in: below this a computed force is rounding
TOGETHER = "the largest moment and the largest axial force of each combination are taken together (safe side)"
FROM_FRAME = "from the frame analysis"


def stiffness_of(section: Section, wood: WoodMaterial) -> tuple[float, float, float, float]:
    """E A (lbf), E I (lbf in2), G A in shear (lbf) and weight (lbf/in)."""
    pad = SilentPad()
    A, inertia = float(section.area(pad)), float(section.inertia(pad))
    E = float(modulus_prime(pad, wood))
    G = float(pad(shear_modulus_from_E, E=E))
    return E * A, E * inertia, G * A * SHEAR_PART, float(wood.density) * A
