"""Equilibrium moisture content of wood in still air of one temperature and humidity, of any species.

The form with two hydrates of the Wood Handbook. It was held against 187 entries of Table 4-2 (30 to 130 F, 5 to 85 %).
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import Positive, between

CLAUSE = "Wood Handbook ch. 4 (eq. 4-5)"
AirTemperature = Annotated[Number, between(-40, 200, "deg F")]
Humidity = Annotated[Number, between(0, 1, because="a share of what the air can hold: 65 % is 0.65")]


@formula(symbol="W_h", clause=CLAUSE, unit="", known="read")
def hydrate_weight(T_air: AirTemperature) -> Number:
    """Weight of dry wood per mole of water that it can bind.

    Changed from the source: T_air is in deg F, turned into deg C inside.

    >>> round(hydrate_weight(70.0), 2)
    382.25
    """
    return 349 + 1.29 * ((T_air - 32) / 1.8) + 0.0135 * ((T_air - 32) / 1.8) ** 2


@formula(symbol="K_h", clause=CLAUSE, unit="", known="read")
def hydrate_dissolved(T_air: AirTemperature) -> Number:
    """Coefficient of the water that is dissolved in wood.

    >>> round(hydrate_dissolved(70.0), 4)
    0.8193
    """
    return 0.805 + 0.000736 * ((T_air - 32) / 1.8) - 0.00000273 * ((T_air - 32) / 1.8) ** 2


@formula(symbol="K_h1", clause=CLAUSE, unit="", known="read")
def hydrate_first(T_air: AirTemperature) -> Number:
    """Coefficient of the first hydrate.

    >>> round(hydrate_first(70.0), 3)
    5.937
    """
    return 6.27 - 0.00938 * ((T_air - 32) / 1.8) - 0.000303 * ((T_air - 32) / 1.8) ** 2


@formula(symbol="K_h2", clause=CLAUSE, unit="", known="read")
def hydrate_second(T_air: AirTemperature) -> Number:
    """Coefficient of the second hydrate.

    >>> round(hydrate_second(70.0), 3)
    2.639
    """
    return 1.91 + 0.0407 * ((T_air - 32) / 1.8) - 0.000293 * ((T_air - 32) / 1.8) ** 2


@formula(symbol="EMC", clause=CLAUSE, unit="%", known="read")
def equilibrium_moisture(W_h: Positive, K_h: Positive, K_h1: Positive, K_h2: Positive, h_rel: Humidity) -> Number:
    """Moisture content at which wood neither takes on nor gives off water.

    Above about 95 % humidity it is carried on beyond what was measured. Wood that dries stays a little wetter than
    this, wood that takes on water a little drier. A big timber lags by months.

    >>> round(equilibrium_moisture(382.25, 0.8193, 5.937, 2.639, 0.50), 1)
    9.2
    """
    first = K_h * h_rel / (1 - K_h * h_rel)
    second = K_h1 * K_h * h_rel + 2 * K_h1 * K_h2 * (K_h * h_rel) ** 2
    return 1800 / W_h * (first + second / (1 + K_h1 * K_h * h_rel + K_h1 * K_h2 * (K_h * h_rel) ** 2))
