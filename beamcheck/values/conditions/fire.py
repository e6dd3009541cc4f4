"""Look-ups for exposed wood in a fire: NDS 2018 Table 16.2.2."""

from __future__ import annotations

from ..found import Found
from ..loader import row_of, source_of

TABLE = "nds_2018_16_2_2_fire"


def fire_factor(property: str) -> Found[float]:
    """Factor on a reference design value: 'bending', 'tension', 'compression', 'beam buckling', 'column buckling'.

    Raises UnknownName for another property: shear has no factor here, look it up in the edition in force.
    """
    row = row_of(TABLE, "property", property, "property in a fire")
    return Found(float(row["factor"]), source_of(row), f"{property} in a fire: {row['factor']}")
