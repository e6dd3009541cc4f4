"""Reference values of glued laminated timber by its layup (NDS Supplement 2018 Table 5A), and its factors."""

from __future__ import annotations

import re

from ..errors import UnknownName
from ..provenance import Source
from ..records import dataclass
from .found import Found
from .loader import numbers, row_of, rows, source_of


@dataclass(frozen=True)
class Layup:
    """One layup, psi: `F_b` with the face made for tension pulled, `F_b_other` with the other face pulled.

    `F_b_y`: bent the other way. E is that of bending across the laminations, E_min that of buckling sideways.
    `x_V`: power of the volume factor.
    """

    name: str
    outer: str
    balanced: bool
    F_b: float
    F_b_other: float
    F_b_y: float
    F_t: float
    F_v: float
    F_c_perp: float
    F_c: float
    E: float
    E_min: float
    G: float
    x_V: float
    source: Source


def _folded(name: str) -> str:
    """'24f v4 df' and '24F-V4/DF' are one; so are 'DF/DF' and 'DF' behind the symbol."""
    parts = re.findall(r"[a-z0-9.]+", name.casefold())
    return "-".join(dict.fromkeys(parts))


def layup(name: str) -> Layup:
    """A layup by its combination symbol or stress class, such as '24F-V4/DF'.

    Raises UnknownName if the table does not list it.
    """
    row = row_of("nds_2018_supplement_5a", "layup", name, "layup of glued laminated timber", _folded)
    up, down, F_b_y, F_t, F_v, F_c_perp, F_c, E, E_min, G, x_V = numbers(
        row, "F_b", "F_b_other", "F_b_y", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_y_min", "G", "x_V"
    )
    return Layup(
        row["layup"], row["outer"], row["balanced"] == "yes", up, down, F_b_y, F_t, F_v, F_c_perp, F_c, E, E_min, G,
        x_V, source_of(row),
    )  # fmt: skip


def glued_factor(factor: str, property: str) -> Found[float]:
    """C_M or C_vr of glued laminated timber on one property ('F_b', 'F_v', ...; E_min takes that of E)."""
    wanted = "E" if property == "E_min" else property
    for row in rows("nds_2018_5_3_glued"):
        if row["factor"] == factor and row["property"] == wanted:
            return Found(float(row["value"]), source_of(row), row["note"])
    raise UnknownName("factor of glued laminated timber", f"{factor} on {property}", [])
