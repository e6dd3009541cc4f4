"""Expression trees: what a formula does, recorded in the order in which it is written.

A formula is called once with `Term` objects in place of numbers. Python's operators build the tree, so the tree is
the code that runs, neither simplified nor reordered. The sheet typesets it; tests hand it to sympy.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np


class Term:
    """A node: `op` is 'symbol', 'number', an operator, a relation, or a helper's name such as 'sqrt' or 'where'."""

    __slots__ = ("args", "op", "value")
    # numpy must hand `array * term` to Term.__rmul__ instead of looping over the array
    __array_ufunc__ = None

    def __init__(self, op: str, args: tuple[Term, ...] = (), value: Any = None) -> None:
        self.op, self.args, self.value = op, args, value

    @staticmethod
    def of(value: Any) -> Term:
        return value if isinstance(value, Term) else Term("number", value=value)

    @staticmethod
    def symbol(name: str) -> Term:
        return Term("symbol", value=name)

    def __repr__(self) -> str:
        if self.op in ("symbol", "number"):
            return str(self.value)
        return f"{self.op}({', '.join(map(repr, self.args))})"

    def __bool__(self) -> bool:
        raise TypeError("a formula must branch with where(), smallest() or largest(), not with `if`")

    def __add__(self, other: Any) -> Term:
        return Term("+", (self, Term.of(other)))

    def __radd__(self, other: Any) -> Term:
        return Term("+", (Term.of(other), self))

    def __sub__(self, other: Any) -> Term:
        return Term("-", (self, Term.of(other)))

    def __rsub__(self, other: Any) -> Term:
        return Term("-", (Term.of(other), self))

    def __mul__(self, other: Any) -> Term:
        return Term("*", (self, Term.of(other)))

    def __rmul__(self, other: Any) -> Term:
        return Term("*", (Term.of(other), self))

    def __truediv__(self, other: Any) -> Term:
        return Term("/", (self, Term.of(other)))

    def __rtruediv__(self, other: Any) -> Term:
        return Term("/", (Term.of(other), self))

    def __pow__(self, other: Any) -> Term:
        return Term("^", (self, Term.of(other)))

    def __rpow__(self, other: Any) -> Term:
        return Term("^", (Term.of(other), self))

    def __neg__(self) -> Term:
        return Term("neg", (self,))

    def __abs__(self) -> Term:
        return Term("abs", (self,))

    def __lt__(self, other: Any) -> Term:
        return Term("<", (self, Term.of(other)))

    def __le__(self, other: Any) -> Term:
        return Term("<=", (self, Term.of(other)))

    def __gt__(self, other: Any) -> Term:
        return Term(">", (self, Term.of(other)))

    def __ge__(self, other: Any) -> Term:
        return Term(">=", (self, Term.of(other)))

    def __and__(self, other: Any) -> Term:
        return Term("and", (self, Term.of(other)))

    def __or__(self, other: Any) -> Term:
        return Term("or", (self, Term.of(other)))

    def symbols(self) -> list[str]:
        """Names of the symbols in the tree, in order of first appearance."""
        if self.op == "symbol":
            return [self.value]
        seen: dict[str, None] = {}
        for arg in self.args:
            seen.update(dict.fromkeys(arg.symbols()))
        return list(seen)


def evaluate(term: Term, values: Mapping[str, Any]) -> Any:
    """The number the tree stands for. The same as calling the formula; used to prove that, and to choose a branch."""
    if term.op == "symbol":
        return values[term.value]
    if term.op == "number":
        return term.value
    if term.op == "where":  # only the branch in force: the other may divide by zero
        condition = evaluate(term.args[0], values)
        return evaluate(term.args[1] if bool(condition) else term.args[2], values)
    return _NUMERIC[term.op](*(evaluate(arg, values) for arg in term.args))


def to_sympy(term: Term) -> Any:
    """The tree as a sympy expression, for proofs in tests."""
    import sympy

    if term.op == "symbol":
        return sympy.Symbol(term.value, positive=True)
    if term.op == "number":
        return sympy.nsimplify(term.value, rational=True)
    args = [to_sympy(arg) for arg in term.args]
    if term.op == "where":
        return sympy.Piecewise((args[1], args[0]), (args[2], True))
    named = {
        "sqrt": sympy.sqrt, "smallest": sympy.Min, "largest": sympy.Max, "abs": sympy.Abs, "and": sympy.And,
        "or": sympy.Or, "<": sympy.Lt, "<=": sympy.Le, ">": sympy.Gt, ">=": sympy.Ge,
        "sin": lambda x: sympy.sin(x * sympy.pi / 180), "cos": lambda x: sympy.cos(x * sympy.pi / 180),
        "tan": lambda x: sympy.tan(x * sympy.pi / 180),
    }  # fmt: skip
    return named[term.op](*args) if term.op in named else _NUMERIC[term.op](*args)


_NUMERIC: dict[str, Any] = {
    "+": lambda a, b: a + b,
    "-": lambda a, b: a - b,
    "*": lambda a, b: a * b,
    "/": lambda a, b: a / b,
    "^": lambda a, b: a**b,
    "neg": lambda a: -a,
    "abs": abs,
    "<": lambda a, b: a < b,
    "<=": lambda a, b: a <= b,
    ">": lambda a, b: a > b,
    ">=": lambda a, b: a >= b,
    "and": lambda a, b: a & b,
    "or": lambda a, b: a | b,
    "sqrt": np.sqrt,
    "sin": lambda a: np.sin(np.radians(a)),
    "cos": lambda a: np.cos(np.radians(a)),
    "tan": lambda a: np.tan(np.radians(a)),
    "smallest": lambda *a: np.nan if any(x != x for x in a) else min(a),
    "largest": lambda *a: np.nan if any(x != x for x in a) else max(a),
}
