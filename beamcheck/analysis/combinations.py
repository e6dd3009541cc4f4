"""ASD load combinations of ASCE 7-16 2.4.1, each with the load duration factor of the loads that are really there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from ..values.combinations import Combination, asd_combinations
from ..values.factors import load_duration
from .loading import PATTERNED, Case


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


def combine(cases: Sequence[Case]) -> list[Loaded]:
    """All combinations of a piece's load cases. Two that come to the same factors and C_D are listed once.

    A pattern takes all variable loads away from the same spans: their influence has the same sign there.
    """
    variable = [case for case in cases if case.kind in PATTERNED]
    patterns = list(dict.fromkeys((case.pattern, case.spans) for case in variable)) or [("", "")]
    winds = [case.pattern for case in cases if case.kind == "W"] or [""]
    named = {(case.kind, case.pattern) for case in variable}
    found: dict[tuple[tuple[float, ...], float], Loaded] = {}
    for combination in asd_combinations():
        for (pattern, spans), wind in product(patterns, winds):
            wanted = {kind: pattern if (kind, pattern) in named else spans for kind in PATTERNED}
            loaded = _apply(combination, cases, {**wanted, "D": "", "W": wind}, pattern, wind)
            if loaded is not None:
                found.setdefault((loaded.factors, loaded.C_D), loaded)
    return list(found.values())


def _apply(
    combination: Combination, cases: Sequence[Case], wanted: Mapping[str, str], pattern: str, wind: str
) -> Loaded | None:
    factors = tuple(
        combination.factors.get(case.kind, 0.0) if case.pattern == wanted[case.kind] else 0.0 for case in cases
    )
    present = {case.kind for case, factor in zip(cases, factors, strict=True) if factor and case.loads}
    if not present:
        return None
    durations = {kind: float(load_duration(kind)[0]) for kind in present}
    shortest = max(durations, key=lambda kind: durations[kind])
    patterned = pattern and present & set(PATTERNED)
    name = ", ".join([
        _name(combination, present), *([pattern] if patterned else []), *([wind] if "W" in present else []),
    ])  # fmt: skip
    kinds = tuple(kind for kind in combination.factors if kind in present)
    return Loaded(name, factors, durations[shortest], shortest, kinds, combination.clause)


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
