"""Spans that the code's own tables print for joists: to look across at, never a permission."""

from __future__ import annotations

from .found import Found
from .loader import Row, rows, source_of
from .species import folded, known_species

SAME = 0.01  # share by which a spacing or a load may miss that of a row


def code_joist_span(
    species: str, grade: str, size: str, spacing: float, live: float, dead: float
) -> Found[float] | None:
    """The clear span that IRC 2018 Table R502.3.1 prints for a floor joist, inches; None where no row is for it.

    `spacing`: inches. `live`, `dead`: Psf: the live load of the row, and no more dead load than the row has.
    """
    wood, wanted = known_species(species), folded(size.casefold().replace("dressed", "").strip())
    for row in rows("irc_2018_joist_spans"):
        same = row["species"] == wood and _grade(row, grade) and folded(row["size"]) == wanted
        if same and _loads(row, live, dead) and abs(float(row["spacing"]) - spacing) <= SAME * spacing:
            words = f"{row['size']} {row['species']} {row['grade']} at {row['spacing']} in, {row['live']} psf live"
            return Found(float(row["span"]), source_of(row), f"{words} and {row['dead']} psf dead")
    return None


def _grade(row: Row, grade: str) -> bool:
    return folded(grade) in {folded(row["grade"]), *(folded(part) for part in row["grade"].split("/"))}


def _loads(row: Row, live: float, dead: float) -> bool:
    return abs(float(row["live"]) - live) <= SAME * live and dead <= float(row["dead"]) * (1.0 + SAME)
