"""Ranges that many formulas share, with the message that a user reads: what it is, what is allowed, what was given.

Each hands the value back. Outside its range a number raises `OutOfRange`, an array element becomes NaN (see `valid`).
"""

from __future__ import annotations

import math

import numpy as np

from .core import Number, valid

# a factor computed from the standard's own equation may exceed 1 by the noise of double precision, never by more
NOISE = 1e-9


def shown(value: Number) -> str:
    """` 9.25` for a message; nothing for an array or a symbol."""
    return f" {value:.6g}" if isinstance(value, (int, float, np.number)) else ""


def given(value: Number) -> str:
    """`, given 9.25` for a message; nothing for an array or a symbol."""
    text = shown(value)
    return f", given{text}" if text else ""


def positive(name: str, value: Number, clause: str = "") -> Number:
    """A value above zero and finite."""
    because = f"{name} must be a finite number above 0{given(value)}"
    return valid(value, (value > 0) & (value < math.inf), because, clause)


def positive_or_infinite(name: str, value: Number, clause: str = "") -> Number:
    """A buckling stress: infinite where the piece is held along its whole length."""
    return valid(value, value > 0, f"{name} must be above 0 (infinite where it cannot buckle){given(value)}", clause)


def not_negative(name: str, value: Number, clause: str = "") -> Number:
    """The size of something: a minus sign would turn a check into nonsense that passes."""
    because = f"{name} must be a finite number, 0 or more{given(value)}"
    return valid(value, (value >= 0) & (value < math.inf), because, clause)


def between(name: str, value: Number, low: float, high: float, clause: str = "", unit: str = "") -> Number:
    """A value from `low` to `high`, both included."""
    because = f"{name} must be {low:g} to {high:g}{' ' + unit if unit else ''}{given(value)}"
    return valid(value, (value >= low) & (value <= high), because, clause)


def at_most(name: str, value: Number, limit_name: str, limit: Number, clause: str = "") -> Number:
    """A positive value that may not exceed another one."""
    because = f"{name} must be above 0 and at most {limit_name}{shown(limit)}{given(value)}"
    return valid(value, (value > 0) & (value <= limit), because, clause)


def below(name: str, value: Number, limit_name: str, limit: Number, clause: str = "") -> Number:
    """A value of zero or more that stays below another one."""
    because = f"{name} must be 0 or more and less than {limit_name}{shown(limit)}{given(value)}"
    return valid(value, (value >= 0) & (value < limit), because, clause)


def carried(value: Number, *inputs: Number) -> Number:
    """`value`, but NaN where an input is NaN: a branch with `where` would take it for the other side and drop it."""
    for each in inputs:
        value = valid(value, each == each, "an input is not a number")
    return value


def reduction(name: str, value: Number, clause: str = "") -> Number:
    """A factor that can only reduce: above 0, at most 1."""
    because = f"{name} must be above 0 and at most 1{given(value)}"
    return valid(value, (value > 0) & (value <= 1 + NOISE), because, clause)
