"""The wood of a bracket, and what is in doubt about it."""

from __future__ import annotations

from typing import Any

from ...model.brackets.bracket import Bracket
from ...model.stock import Stock
from ..core.context import Context
from ..core.result import Check
from ..core.wood.grade_asked import ask_grade
from ..core.wood.material import WoodMaterial, is_unknown, named, reference_values, rows_to_screen, wood_of
from ..core.wood.wood_doubts import wood_evidence_checks
from .family import Family, Strips

EVIDENCE = "evidence for the wood"


def known_species(stock: Stock | None) -> str | None:
    """The species of a stock; None where it is not known."""
    return None if stock is None or stock.species.casefold() == "unknown" else stock.species


def wood_or_weakest(stock: Stock) -> WoodMaterial:
    """Its wood; of wood that is not known the first row of the screening."""
    return wood_of(stock, rows_to_screen(stock)[0] if is_unknown(stock) else reference_values(stock))


def known_wood(stock: Stock | None, name: str = "") -> WoodMaterial | None:
    """The wood of a stock that is known by species and grade, or None; `name`: of the piece that is cut from it."""
    return None if stock is None or is_unknown(stock) else named(wood_of(stock, reference_values(stock)), name)


def not_known(subject: str, stock: Stock, text: str, what: str = EVIDENCE) -> Check:
    """That a wood is not known: the same question whatever is cut from it."""
    return Check.refers("bracket.wood", subject, what, "NDS 2018 4.1", text, ask=ask_grade(stock))


def weight_of(family: Family[Any], wood: WoodMaterial | None) -> Strips:
    """Own weight in strips along the top edge: (from, to, lbf)."""
    return family.weight(float(wood.density) if wood is not None else 0.0)


def wood_of_bracket(bracket: Bracket, context: Context) -> tuple[WoodMaterial | None, list[Check]]:
    """Its wood, and what is in doubt about it. Of wood that is not known the first row of the screening is taken."""
    if bracket.stock is None:
        return None, []
    stock = context.stock(bracket.stock)
    wood, found = wood_or_weakest(stock), []
    if is_unknown(stock):
        text = f"the wood of {stock.name} is not known by species and grade: its figures here are those of {wood.label}"
        found = [not_known(bracket.name, stock, text)]
    if bracket.role == "carries":
        found += wood_evidence_checks(bracket.name, wood.doubts)
    return wood, found
