"""The wood of a joint where fasteners are concerned: its specific gravity, and what stands in for wood not known."""

from __future__ import annotations

from ...model.pieces import Stock
from ...values.lumber import lowest, specific_gravity
from ...values.screening import fallback
from ..core.material import WoodMaterial, is_unknown, rows_to_screen, wood_of


def gravity(stock: Stock | None, wood: WoodMaterial | None, name: str, doubts: list[str]) -> tuple[float, str]:
    """Specific gravity for the fasteners and where it is from; the lowest plausible one where the wood is not known."""
    if stock is None:
        doubts.append(f"the wood of {name} is not known: name its stock (`other.stock`)")
        least = fallback("specific gravity")
        return float(least.value), f"not known; for information {least.reason}"
    if is_unknown(stock):
        doubts.append(f"the wood of {name} is not known: have it identified; figures are for information")
        G = lowest(rows_to_screen(stock), "lowest plausible").G
        if G is not None:
            return G, "lowest of what the wood might plausibly be"
    if wood is not None and wood.G is not None and not is_unknown(stock):
        return wood.G, f"of {wood.label}"
    if not is_unknown(stock) and stock.species.casefold() != "unknown":
        return specific_gravity(stock.species)[0], f"of {stock.species}, NDS 2018 Table 12.3.3A"
    doubts.append(f"the specific gravity of {name} is not given (`values.G` of its stock)")
    least = fallback("specific gravity")
    return float(least.value), f"not given; for information {least.reason}"


def weak_wood(stock: Stock, wood: WoodMaterial) -> WoodMaterial:
    """The wood itself; of unknown wood the lowest of each property over all it might be."""
    return wood_of(stock, lowest(rows_to_screen(stock), "lowest plausible")) if is_unknown(stock) else wood
