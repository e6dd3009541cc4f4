"""What every formula file is written with: the `formula` decorator, and helpers that take floats, arrays and symbols.

A formula is one function, and its body is the equation: plain arithmetic, no rounding, no default for a physical
quantity, no I/O. What each argument may be is declared in the signature (see `ranges`) and checked by the decorator.
Branches are made with `where`, `smallest` and `largest`. Angles are in degrees.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from functools import cached_property, partial
from typing import Any, get_type_hints

import numpy as np

from ..errors import OutOfRange
from .ranges import Number, Range, ranges_of
from .trace import Term

__all__ = [
    "REGISTRY", "Formula", "Number", "cos", "distinct", "formula", "largest", "sin", "smallest", "sqrt", "tan",
    "valid", "where",
]  # fmt: skip

_NUMERIC = (float, int, np.ndarray, np.generic)
_PLAIN = frozenset({float, int, np.ndarray, np.float64})  # what nearly all numbers are


class _Documentation:
    """`__doc__` of a formula, put together on first look from declaration, equation and nomenclature."""

    def __init__(self, of_the_class: str) -> None:
        self.of_the_class = of_the_class

    def __get__(self, instance: Formula | None, owner: type) -> str:
        if instance is None:
            return self.of_the_class
        return instance.documentation


class Formula:
    __doc__ = _Documentation(
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
    known : str
        How it is known: 'read', 'derived', 'practice' or 'memory', and what else is to be said of that.
    reference : bool
        Named for use from outside; no check of the package needs to run it.
    function : callable
        The bare equation, without its ranges.
    arguments : tuple of str
        Names in order.
    """
    )

    def __init__(
        self,
        function: Callable[..., Number],
        symbol: str,
        clause: str,
        unit: str,
        known: str = "",
        reference: bool = False,
    ) -> None:
        self.function, self.symbol, self.clause, self.unit = function, symbol, clause, unit
        self.known, self.reference = known, reference
        self.name = function.__name__
        self.__name__, self.__module__ = function.__name__, function.__module__
        self.__qualname__, self.__wrapped__ = function.__qualname__, function
        code = function.__code__
        self.arguments = code.co_varnames[: code.co_argcount + code.co_kwonlyargcount]

    def __call__(self, *args: Number, **given: Number) -> Number:
        """The result. Outside a declared range a number raises `OutOfRange`; in an array that element gets NaN.

        NaN never passes a check, so a sweep stays on the safe side without stopping at its first bad row. Symbols are
        handed through unchecked.
        """
        if args:
            if len(args) + len(given) > len(self.arguments):
                return self.function(*args, **given)  # which says what is wrong
            given = {**dict(zip(self.arguments, args, strict=False)), **given}
        if given.keys() != self._names:
            return self.function(**given)
        if not _PLAIN.issuperset(map(type, given.values())):
            for value in given.values():
                if not isinstance(value, _NUMERIC):
                    return self.function(**given)
        outside: Any = None
        for name, allowed in self._limits:
            value = given[name]
            holds = allowed.holds(value, given)
            if holds is True:
                continue
            if isinstance(holds, np.ndarray):
                if not holds.all():
                    given[name] = np.where(holds, value, np.nan)
                    outside = ~holds if outside is None else outside | ~holds
            elif not holds:
                text, clause = allowed.refusal(name, given, value), allowed.clause or self.clause
                raise OutOfRange(text, clause, partial(allowed.refusal, name, given, value))
        result = self.function(**given)
        for allowed in self.result_ranges:
            holds = allowed.holds(result, given)
            if isinstance(holds, np.ndarray):
                result = result if holds.all() else np.where(holds, result, np.nan)
            elif not holds:
                text, clause = allowed.refusal_of_result(self.symbol, given, result), allowed.clause or self.clause
                raise OutOfRange(text, clause, partial(allowed.refusal_of_result, self.symbol, given, result))
        # a branch with `where` would take NaN for the other side and lose it: what was outside has no result
        return result if outside is None else np.where(outside, np.nan, result)

    def __repr__(self) -> str:
        return f"<formula {self.name}: {self.symbol}, {self.clause}>"

    @cached_property
    def ranges(self) -> Mapping[str, tuple[Range, ...]]:
        """What each argument may be: the ranges declared for it, none where any number will do."""
        return {name: ranges_of(self._declared.get(name)) for name in self.arguments}

    @cached_property
    def result_ranges(self) -> tuple[Range, ...]:
        """What the result may be, where that is declared."""
        return ranges_of(self._declared.get("return"))

    @cached_property
    def tree(self) -> Term:
        """The expression in the order in which it is written."""
        return Term.of(self.function(*(Term.symbol(name) for name in self.arguments)))

    @cached_property
    def documentation(self) -> str:
        """What `help` shows: equation, units, ranges, clause, and what its author wrote."""
        from .describe import documentation

        return documentation(self)

    @cached_property
    def _declared(self) -> dict[str, Any]:
        written, names = self.function.__annotations__, self.function.__globals__
        if names.keys() >= {*written.values()}:  # names of the module and no more: nothing has to be evaluated
            return {argument: names[name] for argument, name in written.items()}
        return get_type_hints(self.function, include_extras=True)

    @cached_property
    def _limits(self) -> tuple[tuple[str, Range], ...]:
        found = [(name, allowed) for name, ranges in self.ranges.items() for allowed in ranges]
        return tuple(sorted(found, key=lambda each: each[1].relative))  # first what does not rest on another argument

    @cached_property
    def _names(self) -> frozenset[str]:
        return frozenset(self.arguments)


REGISTRY: dict[str, Formula] = {}


def formula(
    *, symbol: str, clause: str, unit: str, known: str = "", reference: bool = False
) -> Callable[[Callable[..., Number]], Formula]:
    """Mark a function as a published equation. The name must be new.

    Parameters
    ----------
    symbol, clause, unit : str
        Of the result; document and clause.
    known : str
        'read', 'derived', 'practice' or 'memory', and what else is to be said of that.
    reference : bool
        Named for use from outside; no check of the package needs to run it.
    """

    def mark(function: Callable[..., Number]) -> Formula:
        made = Formula(function, symbol, clause, unit, known, reference)
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


def distinct(values: Any) -> np.ndarray[Any, Any]:
    """The numbers that differ, from the least on. Asked for no counts `unique` loads masked arrays first."""
    return np.unique(values, return_counts=True)[0]
