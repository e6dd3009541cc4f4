"""ASD load combinations of ASCE 7-16 2.4.1, each with the load duration factor of the loads that are really there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from ..values.combinations import Combination, asd_combinations
from ..values.factors import load_duration
from ..values.found import Found
from .loading import PATTERNED, SETTLED, Case


@dataclass(frozen=True)
class Loaded:
    """A combination as it applies to one piece, in one pattern.

    `factors` has one entry per load case of the piece; `C_D` follows the shortest of the loads that are present
    (NDS 2018 2.3.2): a combination with snow in its name but none on the piece gets no snow factor.
    """

    name: str
    factors: tuple[float, ...]
    C_D: float
    shortest: str
    kinds: tuple[str, ...]
    clause: str
    duration: Found[float]  # C_D with its source and reason


def combine(cases: Sequence[Case]) -> list[Loaded]:
    """All combinations of a piece's load cases. Two that come to the same factors and C_D are listed once.

    A pattern takes all variable loads away from the same spans: their influence has the same sign there. Where supports
    settle, each combination is there with the settlement and without, for it may ease as well as strain.
    """
    variable = [case for case in cases if case.kind in PATTERNED]
    shapes = list(dict.fromkeys((case.pattern, case.spans, case.words) for case in variable)) or [("", "", "")]
    winds = list(dict.fromkeys((case.pattern, case.words) for case in cases if case.kind == "W")) or [("", "")]
    settled = [0.0, 1.0] if any(case.kind == SETTLED for case in cases) else [0.0]
    named = {(case.kind, case.pattern) for case in variable}
    found: dict[tuple[tuple[float, ...], float], Loaded] = {}
    for combination in asd_combinations():
        for (pattern, spans, words), (wind, wind_words), settling in product(shapes, winds, settled):
            wanted = {kind: pattern if (kind, pattern) in named else spans for kind in PATTERNED}
            wanted |= {"D": "", "W": wind}
            loaded = _apply(combination, cases, wanted, settling, (words or pattern, wind_words or wind))
            if loaded is not None:
                found.setdefault((loaded.factors, loaded.C_D), loaded)
    return list(found.values())


def _apply(
    combination: Combination, cases: Sequence[Case], wanted: Mapping[str, str], settling: float, words: tuple[str, str]
) -> Loaded | None:
    """One combination in one pattern (`wanted`: kind -> pattern); None when none of its loads is there."""
    factors = tuple(
        settling if case.kind == SETTLED
        else combination.factors.get(case.kind, 0.0) if case.pattern == wanted[case.kind] else 0.0
        for case in cases
    )  # fmt: skip
    present = {case.kind for case, factor in zip(cases, factors, strict=True) if factor and case.loads}
    if not present:
        return None
    durations = {kind: load_duration(kind) for kind in present}
    shortest = max(durations, key=lambda kind: durations[kind].value)
    shape, wind = words
    parts = [_name(combination, present)]
    if shape and present & set(PATTERNED):
        parts.append(shape)
    if "W" in present:
        parts.append(wind)
    if settling:
        parts.append("supports settled")
    kinds = tuple(kind for kind in combination.factors if kind in present)
    C_D = durations[shortest]
    return Loaded(", ".join(parts), factors, C_D.value, shortest, kinds, combination.clause, C_D)


def _name(combination: Combination, present: set[str]) -> str:
    """The combination without the loads that this piece does not have: '0.6 D + 0.6 W'."""
    parts = []
    for kind, factor in combination.factors.items():
        if kind in present and factor:
            parts.append(kind if factor == 1.0 else f"{factor:g} {kind}")
    return " + ".join(parts)


def matrix(combinations: Sequence[Loaded]) -> np.ndarray:
    """Factors as an array (combinations, cases), ready to superpose a solution."""
    return np.array([combination.factors for combination in combinations], dtype=float)
