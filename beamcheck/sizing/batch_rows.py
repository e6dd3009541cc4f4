"""Values of many beams at once: one number for all of them, or an array with one for each."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np

from ..calc.core import Number
from ..checks.core.wood.material import Factor, Property, WoodMaterial
from ..errors import OutOfRange

Array = np.ndarray
Rows = slice | Array

PROPERTIES = ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min")
FACTORS = ("C_M", "C_t", "C_F", "C_i", "C_fu", "C_r")


def column(name: str, value: Number, n: int | None = None) -> Number:
    """A value as a float, or as an array of floats (n,).

    Raises OutOfRange if it is neither, or an array of another length than `n`.
    """
    try:
        made = np.ascontiguousarray(value, dtype=float) if np.ndim(value) else float(value)
    except (TypeError, ValueError):
        said = f"{name} must be a number or an array of numbers, not {type(value).__name__}"
        raise OutOfRange(said) from None
    if isinstance(made, np.ndarray) and (made.ndim != 1 or n not in (None, made.size)):
        each = "one for each" if n is None else f"one for each of the {n}"
        raise OutOfRange(f"{name} has the shape {made.shape}: give one number for all beams, or {each}")
    return made


def taken(value: Number, rows: Rows) -> Number:
    """Some rows of an array; a number stays what it is."""
    return value[rows] if isinstance(value, np.ndarray) else value


def numbers_of(wood: WoodMaterial) -> dict[str, Number]:
    """Every number of a wood that a batch counts with, by name: 'F_b', 'F_b C_M' and so on, 'density'."""
    found: dict[str, Number] = {"density": wood.density}
    for name in PROPERTIES:
        given: Property = getattr(wood, name)
        found[name] = given.value
        found.update((f"{name} {factor}", getattr(given, factor).value) for factor in FACTORS)
    return found


def bare_wood(numbers: Mapping[str, Number]) -> WoodMaterial:
    """A wood of these numbers, without words: for a silent pad.

    How far dead load counts in the total deflection is a number of the batch, not of its wood: K_cr is none here.
    """

    def given(name: str) -> Property:
        C_M, C_t, C_F, C_i, C_fu, C_r = (Factor(numbers[f"{name} {factor}"]) for factor in FACTORS)
        return Property(numbers[name], C_M, C_t, C_F, C_i, C_fu, C_r)

    F_b, F_t, F_v, F_c_perp, F_c, E, E_min = (given(name) for name in PROPERTIES)
    return WoodMaterial(
        F_b=F_b, F_t=F_t, F_v=F_v, F_c_perp=F_c_perp, F_c=F_c, E=E, E_min=E_min, K_cr=Factor(math.nan),
        density=numbers["density"],
    )  # fmt: skip


def stacked(woods: Sequence[WoodMaterial]) -> WoodMaterial:
    """One wood for a batch, row i with the numbers of the i-th. A number that all share stays one number.

    Words (reasons, sources, doubts, notes) are left behind: keep the single woods for what is to be printed.

    Raises OutOfRange if there is none.
    """
    if not woods:
        raise OutOfRange("no wood to put together: give at least one")
    lists = [numbers_of(wood) for wood in woods]
    joined: dict[str, Number] = {}
    for name, first in lists[0].items():
        values = [float(one[name]) for one in lists]
        joined[name] = float(first) if values.count(values[0]) == len(values) else np.array(values)
    return bare_wood(joined)
