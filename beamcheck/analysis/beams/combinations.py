"""ASD load combinations of ASCE 7-16 2.4.1, each with the load duration factor of the loads that are really there."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import product
from typing import NamedTuple

import numpy as np

from ...records import dataclass
from ...values.factors import load_duration
from ...values.found import Found
from ...values.loads import Combination, asd_combinations
from .load_cases import DRIES, MAY_LIFT, PATTERNED, SETTLED, Case


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


class _Named(NamedTuple):
    """What combinations ask of a case: whether there are loads in it, and not which."""

    kind: str
    pattern: str
    loads: bool
    spans: str
    words: str


def combine(cases: Sequence[Case]) -> list[Loaded]:
    """All combinations of a piece's load cases. Two that come to the same factors and C_D are listed once.

    A pattern takes all variable loads away from the same spans: their influence has the same sign there. Where supports
    settle, each combination is there with the settlement and without, for it may ease as well as strain. Where a
    combination counts only a part of the dead load, because that holds down, the water of green wood is left out of it.
    A dead load that another piece hands on as a range and that lifts at the least of it is there at both of its ends.
    """
    return list(_combined(tuple(_Named(one.kind, one.pattern, bool(one.loads), one.spans, one.words) for one in cases)))


@lru_cache(maxsize=32)
def _combined(cases: tuple[_Named, ...]) -> tuple[Loaded, ...]:
    settling = [i for i, case in enumerate(cases) if case.kind == SETTLED]
    drying = [i for i, case in enumerate(cases) if case.kind == DRIES and case.pattern != MAY_LIFT]
    lifting = [i for i, case in enumerate(cases) if case.kind == DRIES and case.pattern == MAY_LIFT]
    found: dict[tuple[tuple[tuple[int, float], ...], float], Loaded] = {}
    arrangements = _arrangements(cases)
    for combination in asd_combinations():
        for there, shape, wind in arrangements:
            parts = [(kind, i, factor) for kind, i in there if (factor := combination.factors.get(kind, 0.0))]
            present = {kind for kind, i, _ in parts if cases[i].loads}
            if not present:
                continue
            durations = {kind: load_duration(kind) for kind in present}
            shortest = max(durations, key=lambda kind: durations[kind].value)
            words = [_name(combination, present), *([shape] if shape and present & set(PATTERNED) else []),
                     *([wind] if "W" in present else [])]  # fmt: skip
            kinds = tuple(kind for kind in combination.factors if kind in present)
            dead = combination.factors.get("D", 0.0)
            gone = [(i, -dead) for i in drying] if 0.0 < dead < 1.0 else []
            for settled, less in product(([], settling) if settling else ([],), ([], lifting) if lifting else ([],)):
                weights = tuple(sorted([
                    *((i, factor) for _, i, factor in parts), *gone, *((i, 1.0) for i in settled),
                    *((i, -dead) for i in less),
                ]))  # fmt: skip
                C_D = durations[shortest]
                if (weights, C_D.value) in found:
                    continue
                by_case = dict(weights)
                found[weights, C_D.value] = Loaded(
                    ", ".join([*words, *(["supports settled"] if settled else []),
                               *(["dead load that lifts most"] if less else [])]),
                    tuple(by_case.get(i, 0.0) for i in range(len(cases))), C_D.value, shortest, kinds,
                    combination.clause, C_D,
                )  # fmt: skip
    return tuple(found.values())


def _arrangements(cases: Sequence[_Named]) -> list[tuple[list[tuple[str, int]], str, str]]:
    """Every pattern with every wind: the cases that are there (kind, number), and the words for pattern and wind."""
    by_pattern = {(case.kind, case.pattern): i for i, case in enumerate(cases)}
    variable = [case for case in cases if case.kind in PATTERNED]
    shapes = list(dict.fromkeys((case.pattern, case.spans, case.words) for case in variable)) or [("", "", "")]
    winds = list(dict.fromkeys((case.pattern, case.words) for case in cases if case.kind == "W")) or [("", "")]
    found = []
    for (pattern, spans, words), (wind, wind_words) in product(shapes, winds):
        wanted = [("D", ""), ("W", wind)]
        wanted += [(kind, pattern if (kind, pattern) in by_pattern else spans) for kind in PATTERNED]
        there = [(kind, by_pattern[kind, name]) for kind, name in wanted if (kind, name) in by_pattern]
        found.append((there, words or pattern, wind_words or wind))
    return found


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
