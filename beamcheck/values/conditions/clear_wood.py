"""Look-ups behind an indicated grade: clear wood (ASTM D2555), divisors, strength ratios and grades (ASTM D245).

None of these is a design value: what comes of them is shown beside the listed grades and lifts nothing.
"""

from __future__ import annotations

import math
from typing import Literal

from ...errors import OutOfRange
from ...records import dataclass
from ..brackets import rows_for_species
from ..found import Found
from ..loader import Row, row_of, rows, source_of

CLEAR, FACTORS, SLOPES = "astm_d2555_clear_wood", "astm_d245_factors", "astm_d245_slope_of_grain"
GRADES, QUALITY, VARIATION = "astm_d245_grade_ratios", "astm_d245_modulus_quality", "astm_d2555_variation"
HAIR = 1e-9
ClearProperty = Literal["MOR", "MOE", "F_c", "F_v"]


@dataclass(frozen=True)
class ClearWood:
    """One botanical species, green: means and standard deviations, psi; specific gravity of the green volume."""

    species: str
    kind: Literal["softwood", "hardwood"]
    MOR: tuple[float, float]
    MOE: tuple[float, float]
    F_c: tuple[float, float]
    F_v: tuple[float, float]
    G: float


def clear_wood(species: str) -> tuple[Found[ClearWood], ...]:
    """The rows of a species: every botanical one of a stock species; none where the table has none of it.

    Raises UnknownName if no table knows the species.
    """
    found = rows_for_species(CLEAR, species)
    return tuple(Found(_clear(row), source_of(row), why) for row, why in found if "one of all rows" not in why)


def _clear(row: Row) -> ClearWood:
    def pair(name: str, unit: float = 1.0) -> tuple[float, float]:
        return float(row[f"{name}_mean"]) * unit, float(row[f"{name}_sd"]) * unit

    kind: Literal["softwood", "hardwood"] = "hardwood" if row["kind"] == "hardwood" else "softwood"
    moduli = float(row["MOE_mean"]) * 1000.0, float(row["MOE_sd"]) * 1000.0
    return ClearWood(row["species"], kind, pair("MOR"), moduli, pair("F_c"), pair("F_v"), float(row["G"]))


def variation(property: str) -> Found[float]:
    """Coefficient of variation of a property where no deviation was measured.

    Raises UnknownName for another property.
    """
    row = row_of(VARIATION, "property", property, "property")
    return Found(float(row["COV"]), source_of(row), f"coefficient of variation of {property}")


def divisor(property: str, kind: Literal["softwood", "hardwood"]) -> Found[float]:
    """Divisor or share of ASTM D245 for a property ('bending', 'tension', 'compression', 'shear', 'modulus').

    Raises UnknownName for another property.
    """
    row = row_of(FACTORS, "property", property, "property")
    return Found(float(row[kind]), source_of(row), f"{property}, {kind}: {row[kind]}")


def slope_ratio(run: float, of: Literal["bending", "compression"] = "bending") -> Found[float]:
    """Strength ratio by slope of grain, one in `run`; between two rows of the table the steeper counts.

    Raises OutOfRange if the grain is steeper than the steepest row, which has no ratio: an engineer has to look.
    """
    table = rows(SLOPES)
    least = min(float(row["run"]) for row in table)
    if not run >= least - HAIR:
        raise OutOfRange(f"grain of 1 in {run:g}: there is no strength ratio steeper than 1 in {least:g}", "ASTM D245")
    row = max((row for row in table if float(row["run"]) <= run + HAIR), key=lambda row: float(row["run"]))
    ratio = float(row[of])
    return Found(ratio, source_of(row), f"slope of grain 1 in {run:.3g}, counted as 1 in {row['run']}: {ratio:g}")


def modulus_quality(ratio: float) -> Found[float]:
    """Quality factor of the modulus of elasticity by the strength ratio."""
    row = max((row for row in rows(QUALITY) if float(row["ratio_from"]) <= ratio + HAIR),
              key=lambda row: float(row["ratio_from"]))  # fmt: skip
    return Found(float(row["factor"]), source_of(row), f"strength ratio {ratio:.2f}: {row['factor']}")


def indicated_grade(ratio: float, size_class: str) -> Found[str] | None:
    """The best grade whose least strength ratio is reached; None below all of them."""
    reached = [row for row in rows(GRADES) if row["size_class"] == size_class and ratio >= float(row["ratio"]) - HAIR]
    if not reached or math.isnan(ratio):
        return None
    row = max(reached, key=lambda row: float(row["ratio"]))
    return Found(row["grade"], source_of(row), f"strength ratio {ratio:.2f}, least of {row['grade']} {row['ratio']}")
