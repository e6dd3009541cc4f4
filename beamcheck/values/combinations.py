"""Load combinations as the load standard lists them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from ..provenance import Source
from .loader import rows, source_of

LOAD_KINDS = ("D", "L", "Lr", "S", "W")


@dataclass(frozen=True)
class Combination:
    """One allowable-stress combination: `factors` has an entry for each load kind in it.

    `duration_load` is the load of shortest duration in it when all its loads are present; NDS 2018 2.3.2 takes C_D from
    the shortest load that is really there. W is the strength-level wind load.
    """

    name: str
    factors: Mapping[str, float]
    duration_load: str
    clause: str
    source: Source


@cache
def asd_combinations() -> tuple[Combination, ...]:
    """The combinations of ASCE 7-16 2.4.1 (dead, live, roof live, snow, wind; earthquake is not among them)."""
    return tuple(
        Combination(
            row["combination"],
            MappingProxyType({kind: float(row[kind]) for kind in LOAD_KINDS if float(row[kind])}),
            row["C_D_load"],
            f"{row['source']} no. {row['number']}",
            source_of(row),
        )
        for row in rows("asce_7_16_asd_combinations")
    )
