"""Reads the typeset arithmetic of a sheet back into a number, by the rules a reader of mathematics uses.

Independent of the code that writes it: usual precedence, left to right, a leading minus only where a sum begins.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

_TOKEN = re.compile(r'\s*(?:"([0-9,]+(?:\.[0-9]+)?)"|([0-9]+(?:\.[0-9]+)?)|([A-Za-z]+)|([-+^(),]))')
_FUNCTIONS = {
    "frac": lambda a, b: a / b, "sqrt": math.sqrt, "abs": abs, "min": lambda *a: min(a), "max": lambda *a: max(a),
}  # fmt: skip
_ANGLES = {"sin": math.sin, "cos": math.cos, "tan": math.tan}


def read_back(source: str, names: Mapping[str, float] | None = None) -> float:
    """The number that the typst source stands for; `names` gives the value of each symbol by its typst source."""
    reader = _Reader(source, dict(names or {}))
    value = reader.sum()
    if reader.next() != "":
        raise ValueError(f"left over at {reader.place} of {source!r}")
    return value


class _Reader:
    def __init__(self, source: str, names: dict[str, float]) -> None:
        self.source, self.place = source, 0
        self.names = sorted(names.items(), key=lambda item: -len(item[0]))

    def _scan(self) -> tuple[str, float | None, int]:
        rest = self.source[self.place :]
        gap = len(rest) - len(rest.lstrip())
        for name, value in self.names:
            if re.match(re.escape(name) + r"(?![A-Za-z0-9_'(])(?!\^\*)", rest[gap:]):
                return "number", value, self.place + gap + len(name)
        found = _TOKEN.match(rest)
        if found is None:
            if rest.strip():
                raise ValueError(f"not understood: {rest!r}")
            return "", None, self.place
        quoted, digits, word, sign = found.groups()
        end = self.place + found.end()
        if quoted or digits:
            return "number", float((quoted or digits).replace(",", "")), end
        return word or sign, None, end

    def next(self) -> str:
        return self._scan()[0]

    def take(self, expected: str = "") -> tuple[str, float | None]:
        token, value, end = self._scan()
        if expected and token != expected:
            raise ValueError(f"{expected!r} expected at {self.place} of {self.source!r}, found {token!r}")
        self.place = end
        return token, value

    def sum(self) -> float:
        sign = -1.0 if self.next() == "-" else 1.0
        if sign < 0:
            self.take()
        total = sign * self.product()
        while self.next() in ("+", "-"):
            sign = 1.0 if self.take()[0] == "+" else -1.0
            total += sign * self.product()
        return total

    def product(self) -> float:
        result = self.power()
        while self.next() in ("times", "thin", "slash"):
            if self.take()[0] == "slash":
                result /= self.power()
            else:
                result *= self.power()
        return result

    def power(self) -> float:
        token, _value, _end = self._scan()
        if token in _ANGLES:
            return self._angle()
        base = self.atom()
        if self.next() == "^":
            self.take()
            base = base ** self.atom()
        return base

    def _angle(self) -> float:
        function = _ANGLES[self.take()[0]]
        exponent = 1.0
        if self.next() == "^":
            self.take()
            exponent = self.atom()
        self.take("(")
        degrees = self.sum()
        if self.next() == "degree":
            self.take()
        self.take(")")
        return function(math.radians(degrees)) ** exponent

    def atom(self) -> float:
        token, value = self.take()
        if token == "number" and value is not None:
            return value
        if token == "(":
            inner = self.sum()
            self.take(")")
            return inner
        if token == "pi":
            return math.pi
        if token in _FUNCTIONS:
            self.take("(")
            arguments = [self.sum()]
            while self.next() == ",":
                self.take()
                arguments.append(self.sum())
            self.take(")")
            return _FUNCTIONS[token](*arguments)
        raise ValueError(f"a value was expected before {self.place} of {self.source!r}, found {token!r}")
