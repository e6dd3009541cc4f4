"""Steel beside wood: grades of plates, strength of bolts, dowel bearing of steel and concrete, least welds. psi, in."""

from __future__ import annotations

from ...records import dataclass
from ..found import Found
from ..loader import listed, numbers, row_of, rows, source_of


@dataclass(frozen=True)
class Steel:
    """Steel of a plate or bar: yield point and tensile strength, 'hot-rolled' or 'cold-formed'."""

    grade: str
    F_y: float
    F_u: float
    rolled: str


@dataclass(frozen=True)
class BoltSteel:
    """Nominal strength of a bolt per area of its body; shear with the threads in the plane, and out of it."""

    grade: str
    F_nt: float
    F_nv_threads_in: float
    F_nv_threads_out: float


def steel_grades() -> tuple[str, ...]:
    """The grades that `steel` knows."""
    return listed("steel_grades", "grade")


def steel(grade: str) -> Found[Steel]:
    """Steel of a plate or bar by its grade, such as 'A36'. Raises UnknownName if the table does not list the grade."""
    row = row_of("steel_grades", "grade", grade, "grade of steel", str.casefold)
    F_y, F_u = numbers(row, "F_y", "F_u")
    return Found(Steel(row["grade"], F_y, F_u, row["rolled"]), source_of(row), f"steel {grade}")


def bolt_grades() -> tuple[str, ...]:
    """The grades that `bolt_steel` knows."""
    return listed("aisc_360_16_j3_2_bolts", "grade")


def bolt_steel(grade: str) -> Found[BoltSteel]:
    """Nominal strength of a bolt by its grade, such as 'A307': AISC 360-16 Table J3.2.

    Raises UnknownName if the table does not list the grade. Rods of other steel: `threaded_tension_strength` and its
    like.
    """
    row = row_of("aisc_360_16_j3_2_bolts", "grade", grade, "grade of bolt", str.casefold)
    made = BoltSteel(row["grade"], *numbers(row, "F_nt", "F_nv_threads_in", "F_nv_threads_out"))
    return Found(made, source_of(row), f"bolt {grade}" + (f": {row['note']}" if row["note"] else ""))


def bearing_materials() -> tuple[str, ...]:
    """The materials that `other_bearing` knows."""
    return listed("nds_2018_dowel_bearing_other", "material")


def other_bearing(material: str) -> Found[float]:
    """Dowel bearing strength F_e of steel or concrete as the lateral tables of NDS 2018 take it.

    Raises UnknownName if the table does not list the material; masonry is not in it, and concrete does not stand in for
    it.
    """
    row = row_of("nds_2018_dowel_bearing_other", "material", material, "material", str.casefold)
    return Found(float(row["F_e"]), source_of(row), f"{row['material']}: {row['note']}")


def least_fillet(thickness: float) -> Found[float]:
    """Least leg of a fillet weld by the thickness of the thinner part (in): AISC 360-16 Table J2.4."""
    table = rows("aisc_360_16_j2_4_fillet")
    row = next((row for row in table if row["t_up_to"] and thickness <= float(row["t_up_to"])), table[-1])
    return Found(float(row["leg"]), source_of(row), f"thinner part {thickness:g} in")
