"""The moistures between which wood lives: by a place of the Wood Handbook, or by the air of both seasons."""

from __future__ import annotations

from ...calc.pad import Pad, SilentPad
from ...formulas.movement import moisture
from ...model.conditions.air import Air, Climate
from ...records import dataclass
from ...units import show
from ...values.conditions.moisture import in_use

USUAL = "indoors, most of the USA"


@dataclass(frozen=True)
class Lives:
    """Moisture in use, percent: the driest, the mean, the dampest; and where that is from."""

    low: float
    mean: float
    high: float
    why: str


def moisture_in(pad: Pad, T_air: float, h_rel: float) -> float:
    """Equilibrium moisture in still air with its four coefficients on a pad, percent; deg F and a share."""
    W_h, K_h = pad(moisture.hydrate_weight, T_air=T_air), pad(moisture.hydrate_dissolved, T_air=T_air)
    K_h1, K_h2 = pad(moisture.hydrate_first, T_air=T_air), pad(moisture.hydrate_second, T_air=T_air)
    return float(pad(moisture.equilibrium_moisture, W_h=W_h, K_h=K_h, K_h1=K_h1, K_h2=K_h2, h_rel=h_rel))


def lives_in(climate: Climate | None) -> Lives:
    """Where nobody says, the usual place; the words say so."""
    if climate is not None and climate.winter is not None and climate.summer is not None:
        ends = [_of(climate.winter), _of(climate.summer)]
        words = f"winter {_words(climate.winter)}, summer {_words(climate.summer)}"
        return Lives(min(ends), 0.5 * sum(ends), max(ends), words)
    place = USUAL if climate is None or climate.place is None else climate.place
    found = in_use(place).value
    said = "" if climate is not None else ", not said: taken"
    return Lives(found.low, found.mean, found.high, f"{place}{said}")


def _of(air: Air) -> float:
    return min(moisture_in(SilentPad(), air.temperature, air.humidity / 100.0), 30.0)


def _words(air: Air) -> str:
    return f"{show(air.temperature, 'temperature')} at {air.humidity:g} % humidity"
