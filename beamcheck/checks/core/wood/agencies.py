"""Which agency graded a stock, where agencies have rows of their own for one grade (NDS Supplement Table 4D)."""

from __future__ import annotations

import re

from ....model.stock import Stock
from ....values.lumber import Size, agencies_apart
from ....values.species import known_species


def agency_of(stock: Stock, size: Size) -> str:
    """The agency that graded it: as entered, or where its rows differ the one that the words of the evidence name."""
    if stock.agency.strip() or stock.grade_from not in ("stamp", "certificate"):
        return stock.agency
    words = re.findall(r"[A-Z]+", stock.evidence)
    named = [one for one in agencies_apart(stock.species, stock.grade, size) if one in words]
    return named[0] if len(named) == 1 else ""


def agencies_open(stock: Stock, size: Size) -> tuple[str, ...]:
    """The agencies between which nobody has said; none where it is said, or nothing to the values."""
    tabulated = stock.made == "sawn" and stock.values is None and bool(known_species(stock.species))
    if not tabulated or agency_of(stock, size).strip():
        return ()
    return agencies_apart(stock.species, stock.grade, size)
