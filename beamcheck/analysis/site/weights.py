"""Dead load of a roof or floor, layer by layer (ASCE 7-16 3.1): what weighs, and the least that is sure to stay."""

from __future__ import annotations

from collections.abc import Iterable

from ...calc.pad import Pad
from ...formulas.loads.roof import dead_on_plan
from ...provenance import Source
from ...records import dataclass
from ...values.site import assembly_weight, layer_weight_of


@dataclass(frozen=True)
class Layer:
    """A layer by its name in the tables, or with a weight of its own, psi."""

    name: str
    weight: float | None = None


@dataclass(frozen=True)
class Assembled:
    """Sum of layers on plan, psi: all of it presses, the least holds down. `rows`: name, psi, source."""

    weight: float
    least: float
    rows: tuple[tuple[str, float, Source], ...]


GIVEN = Source("weight as given", "given")
LEAST_OF_GIVEN = 0.6  # of a weight of which one figure is given; judgment, no source


def assembled(pad: Pad, layers: Iterable[Layer], slope: float = 0.0) -> Assembled:
    """The weight of layers per area of plan.

    `slope`: degrees; what lies along the slope weighs more on plan. A weight of its own is taken along the slope.
    Raises UnknownName if a layer without a weight is not listed.
    """
    total = least = 0.0
    found: list[tuple[str, float, Source]] = []
    for layer in layers:
        if layer.weight is None:
            known, low, sloped = layer_weight_of(layer.name)
            value, source, note = known.value, known.source, known.reason
        else:
            value, low, sloped = layer.weight, LEAST_OF_GIVEN * layer.weight, True
            source, note = GIVEN, layer.name
        weight = pad.take("w_lay", value, "psi", note=note, source=source)
        if sloped and slope > 0.0:
            weight = pad(dead_on_plan, w_slope=weight, theta=slope)
            low = dead_on_plan(w_slope=low, theta=slope)
        total, least = total + float(weight), least + float(low)
        found.append((layer.name, float(weight), source))
    return Assembled(total, least, tuple(found))


def whole_assembly(pad: Pad, name: str) -> Assembled:
    """A whole roof, floor or wall by its name in the tables, framing included; 0.6 of it is sure to stay.

    Raises UnknownName if it is not listed.
    """
    found = assembly_weight(name)
    weight = float(pad.take("w_lay", found.value, "psi", note=found.reason, source=found.source))
    return Assembled(weight, LEAST_OF_GIVEN * weight, ((name, weight, found.source),))
