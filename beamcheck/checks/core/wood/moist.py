"""A timber as it would be in another moisture: what a moisture profile would change is worked out with it."""

from __future__ import annotations

from dataclasses import replace

from ....model.conditions.survey import Reading
from ....model.stock import Stock
from ....values.judgment import judgment
from ....values.lumber import DesignValues, read_size
from .material import wood_of
from .record import PROPERTIES, WoodMaterial


def metered_wet(stock: Stock) -> bool:
    """A reading says that it is wetter than wood that counts as dry."""
    return stock.metered is not None and stock.metered > judgment("wettest wood that counts as dry").value


def core_readings(stock: Stock) -> list[Reading]:
    """The readings that were taken in its core; none without a survey."""
    if stock.survey is None:
        return []
    size = read_size(stock.size)
    least = judgment("depth of a core reading").value * min(size.b, size.d)
    return [one for one in stock.survey.readings if one.deep is not None and one.deep >= least * (1.0 - 1e-6)]


def in_moisture(stock: Stock, *, dry: bool, metered: float | None = None) -> Stock:
    """The same stock in that moisture, as if nothing of it had been metered but that."""
    survey = None if stock.survey is None else stock.survey.model_copy(update={"readings": ()})
    if dry and metered is None:
        metered = judgment("wettest wood that counts as dry").value
    return stock.model_copy(
        update={"moisture": "dry" if dry else "wet", "measured_moisture": metered, "survey": survey, "assumed": ()}
    )


def moist_like(wood: WoodMaterial, other: WoodMaterial) -> WoodMaterial:
    """The wood with the moisture of another, and with all else its own."""
    properties = {name: replace(getattr(wood, name), C_M=getattr(other, name).C_M) for name in PROPERTIES}
    return replace(wood, **properties, K_cr=other.K_cr, dead_share=other.dead_share, dry=other.dry)


def otherwise_moist(wood: WoodMaterial, stock: Stock, values: DesignValues) -> WoodMaterial:
    """Dry wood as it would be wet, wet wood as it would be dry; its weight stays the same."""
    return moist_like(wood, wood_of(in_moisture(stock, dry=not wood.dry), values))
