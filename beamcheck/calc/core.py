"""What every formula file is written with: the `formula` decorator, and helpers that take floats, arrays and symbols.

A formula is one function: plain arithmetic, no rounding, no default for a physical quantity, no I/O. Inside it branches
are made with `where`, `smallest` and `largest`; a range is set with `valid`. Angles are in degrees.
"""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable
from functools import cached_property
from typing import Any

import numpy as np

from ..errors import OutOfRange
from .trace import Term

Number = Any  # a float, a numpy array, a Term or a sympy expression: formulas take them all


class Formula:
    """A published equation: callable, and knowing its symbol, clause and unit.

    Attributes
    ----------
    name : str
        The function's name, unique in the package.
    symbol : str
        Symbol of the result, as listed in tables/nomenclature.csv.
    clause : str
        Document and clause or equation number.
    unit : str
        Unit of the result ('' for none).
    """

    def __init__(self, function: Callable[..., Number], symbol: str, clause: str, unit: str) -> None:
        self.function, self.symbol, self.clause, self.unit = function, symbol, clause, unit
        self.name = function.__name__
        self.__name__, self.__doc__, self.__module__ = function.__name__, function.__doc__, function.__module__
        self.__qualname__, self.__wrapped__ = function.__qualname__, function
        self.arguments = tuple(inspect.signature(function).parameters)

    def __call__(self, *args: Number, **kwargs: Number) -> Number:
        return self.function(*args, **kwargs)

    def __repr__(self) -> str:
        return f"<formula {self.name}: {self.symbol}, {self.clause}>"

    @cached_property
    def tree(self) -> Term:
        """The expression in the order in which it is written."""
        return Term.of(self.function(*(Term.symbol(name) for name in self.arguments)))


REGISTRY: dict[str, Formula] = {}


def formula(*, symbol: str, clause: str, unit: str) -> Callable[[Callable[..., Number]], Formula]:
    """Mark a function as a published equation. The name must be new."""

    def mark(function: Callable[..., Number]) -> Formula:
        made = Formula(function, symbol, clause, unit)
        if made.name in REGISTRY:
            raise ValueError(f"two formulas are called {made.name!r}")
        REGISTRY[made.name] = made
        return made

    return mark


def _kind(values: tuple[Any, ...]) -> str:
    kind = "number"
    for value in values:
        if isinstance(value, Term):
            return "term"
        if isinstance(value, np.ndarray):
            kind = "array"
        elif not isinstance(value, (int, float, bool, np.number, np.bool_)):
            return "sympy"
    return kind


def _sympy() -> Any:
    import sympy

    return sympy


def where(condition: Any, yes: Number, no: Number) -> Number:
    """`yes` where the condition holds, else `no`."""
    if isinstance(condition, Term):
        return Term("where", (condition, Term.of(yes), Term.of(no)))
    if isinstance(condition, (bool, np.bool_)):
        return yes if condition else no
    if isinstance(condition, np.ndarray):
        return np.where(condition, yes, no)
    return _sympy().Piecewise((yes, condition), (no, True))


def smallest(*values: Number) -> Number:
    """The least of the values (elementwise)."""
    kind = _kind(values)
    if kind == "term":
        return Term("smallest", tuple(map(Term.of, values)))
    if kind == "number":
        return math.nan if any(math.isnan(value) for value in values) else min(values)
    if kind == "sympy":
        return _sympy().Min(*values)
    least = values[0]
    for value in values[1:]:
        least = np.minimum(least, value)
    return least


def largest(*values: Number) -> Number:
    """The greatest of the values (elementwise)."""
    kind = _kind(values)
    if kind == "term":
        return Term("largest", tuple(map(Term.of, values)))
    if kind == "number":
        return math.nan if any(math.isnan(value) for value in values) else max(values)
    if kind == "sympy":
        return _sympy().Max(*values)
    most = values[0]
    for value in values[1:]:
        most = np.maximum(most, value)
    return most


def sqrt(x: Number) -> Number:
    """Square root; a negative number has none and raises (an array gets NaN there)."""
    kind = _kind((x,))
    if kind == "term":
        return Term("sqrt", (x,))
    if kind == "number":
        if x < 0:
            raise OutOfRange(f"square root of {x:.6g}")
        return math.sqrt(x)
    if kind == "sympy":
        return _sympy().sqrt(x)
    with np.errstate(invalid="ignore"):
        return np.sqrt(x)


def _angle(name: str, x: Number) -> Number:
    kind = _kind((x,))
    if kind == "term":
        return Term(name, (x,))
    if kind == "number":
        return getattr(math, name)(math.radians(x))
    if kind == "sympy":
        return getattr(_sympy(), name)(x * _sympy().pi / 180)
    return getattr(np, name)(np.radians(x))


def sin(x: Number) -> Number:
    """Sine of an angle in degrees."""
    return _angle("sin", x)


def cos(x: Number) -> Number:
    """Cosine of an angle in degrees."""
    return _angle("cos", x)


def tan(x: Number) -> Number:
    """Tangent of an angle in degrees."""
    return _angle("tan", x)


def valid(value: Number, when: Any, because: str, clause: str = "") -> Number:
    """`value` inside the range of the rule. Outside it a number raises `OutOfRange`, an array element becomes NaN.

    NaN never passes a check, so a sweep stays on the safe side without stopping at its first bad row.
    """
    if isinstance(when, (bool, np.bool_)):
        if not when:
            raise OutOfRange(because, clause)
        return value
    if isinstance(when, np.ndarray):
        return np.where(when, value, np.nan)
    return value  # a symbol: the range is stated in the docstring and enforced on numbers
