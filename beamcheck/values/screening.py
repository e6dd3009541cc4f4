"""What is assumed of ungraded wood for a first look, never for a pass."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..errors import UnknownName
from .found import Found
from .loader import rows, source_of, weakest
from .lumber import DesignValues, lowest, screening_rows
from .sizes import Size


def fallback(item: str) -> Found[str]:
    """The assumption for one item ('grade', 'specific gravity', 'moisture' ...) of ungraded wood; blank: only in words.

    Raises
    ------
    UnknownName
        For another item.
    """
    table = rows("screening_fallback")
    for row in table:
        if row["item"] == item:
            return Found(row["value"], source_of(row), row["assume"])
    raise UnknownName("assumption about", item, [row["item"] for row in table])


def screening_values(candidates: Sequence[str], size: Size) -> DesignValues:
    """The lowest of each property over the candidate species (all species when none is named), in the fall-back grade.

    It holds for sound and clean timber only, and is a first look: the verdict stays with a grader or an engineer. For
    the weight of the piece take the heaviest candidate, not this G.

    Raises
    ------
    UnknownName, OutOfRange
        If a candidate is unknown or has no values at this size.
    """
    grade = fallback("grade")
    found = screening_rows(candidates, size, grade.value)
    species = list(dict.fromkeys(values.species for values in found))
    rule = fallback("species among candidates" if candidates else "species, no candidates")
    said = rule.reason if candidates else "lowest of all species in the tables, hardwoods too, property by property"
    why = f"ungraded: {grade.reason}; {said} ({len(species)} species)"
    low = lowest(found, why)
    G = low.G if candidates or low.G is None else min(low.G, float(fallback("specific gravity").value))
    return replace(
        low, G=G, species=species[0] if len(species) == 1 else "unknown", grade=f"{grade.value} (assumed)",
        source=weakest([low.source, grade.source, rule.source]),
    )  # fmt: skip
