"""What an argument of a formula may be, declared in its signature: `V: NotNegative`, `p: Annotated[..., at_most("L")]`.

The decorator `formula` reads the declaration, checks what is given and words the message: what it is, what is allowed,
what was given. On the result (`-> Annotated[Number, up_to(50)]`) it limits what the formula may give.

A bound is a number, or an expression of other arguments as text ("d", "L / 2").
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from functools import cache, cached_property
from types import CodeType
from typing import Annotated, Any

import numpy as np

from ..errors import Called, OutOfRange
from ..records import dataclass

Number = Any  # a float, a numpy array, a Term or a sympy expression: formulas take them all
Bound = float | str

# a factor computed from the standard's own equation may exceed 1 by the noise of double precision, never by more
NOISE = 1e-9
_SYMBOL = re.compile(r"[A-Za-z_]\w*")


@dataclass(frozen=True)
class Range:
    """Two bounds. Each counts as inside or not; a counted one is stretched by `noise` times the size of the bounds.

    Attributes
    ----------
    low, high : float or str
        The bounds; text is an expression of other arguments.
    from_low, to_high : bool
        Does the bound itself count?
    unit : str
        Unit that the message names.
    because : str
        What the message adds: what it means, or what to do.
    clause : str
        The rule that sets the range, where it is not that of the formula.
    """

    low: Bound = -math.inf
    high: Bound = math.inf
    from_low: bool = False
    to_high: bool = False
    unit: str = ""
    because: str = ""
    clause: str = ""
    noise: float = 0.0

    @cached_property
    def relative(self) -> bool:
        """Does a bound rest on other arguments?"""
        return isinstance(self.low, str) or isinstance(self.high, str)

    def holds(self, value: Number, given: Mapping[str, Number]) -> Any:
        """Is the value inside? A truth value, for an array one for each element; NaN is outside."""
        low, high = self._stretched(given) if self.relative else self._fixed
        above = value >= low if self.from_low else value > low
        return above & (value <= high if self.to_high else value < high)

    @cached_property
    def _fixed(self) -> tuple[Number, Number]:
        """The bounds of a range that rests on no other argument."""
        return self._stretched({})

    def _stretched(self, given: Mapping[str, Number]) -> tuple[Number, Number]:
        """The bounds with their noise."""
        low, high = self._bound(self.low, given), self._bound(self.high, given)
        if not self.noise:
            return low, high
        slack = self.noise * sum(abs(bound) for bound in (low, high) if np.isfinite(bound).all())
        return low - slack if self.from_low else low, high + slack if self.to_high else high

    def words(self, given: Mapping[str, Number] | None = None, called: Called | None = None) -> str:
        """What is allowed: `above 0 and at most d`; with what was given `above 0 and at most d 9.5`."""
        low, high = self._named(self.low, given, called), self._named(self.high, given, called)
        unit = f" {self.unit}" if self.unit else ""
        if self.high == math.inf:
            if self.low == -math.inf:
                return "a finite number"
            if self.to_high:
                return f"above {low}{unit}, or infinite"
            if self.low == 0 and given is not None and called is None:
                return "a finite number, 0 or more" if self.from_low else "a finite number above 0"
            return f"{low}{unit} or more" if self.from_low else f"above {low}{unit}"
        above = f"{low} or more" if self.from_low else f"above {low}"
        under = f"at most {high}{unit}" if self.to_high else f"less than {high}{unit}"
        if self.low == -math.inf:
            return under
        return f"{low} to {high}{unit}" if self.from_low and self.to_high else f"{above} and {under}"

    def refusal(self, name: str, given: Mapping[str, Number], value: Number, called: Called | None = None) -> str:
        """The message for an argument that is outside; with words for symbols if it is told how each is `called`."""
        because = f": {self.because}" if self.because else ""
        words, unit = called(name) if called is not None else (name, "")
        return f"{words} must be {self.words(given, called)}, given{shown(value)}{unit}{because}"

    def refusal_of_result(
        self, symbol: str, given: Mapping[str, Number], value: Number, called: Called | None = None
    ) -> str:
        """The message for a result that is outside."""
        because = f": {self.because}" if self.because else ""
        words, unit = called(symbol) if called is not None else (symbol, "")
        return f"{words} is{shown(value)}{unit} and must be {self.words(given, called)}{because}"

    def _bound(self, bound: Bound, given: Mapping[str, Number]) -> Number:
        if isinstance(bound, str):
            return given[bound] if bound in given else eval(_compiled(bound), {}, dict(given))
        return bound

    def _named(self, bound: Bound, given: Mapping[str, Number] | None, called: Called | None = None) -> str:
        if not isinstance(bound, str):
            return f"{bound:g}"
        if given is None:
            return bound
        text = bound if called is None else _SYMBOL.sub(lambda found: called(found[0])[0], bound)
        return f"{text}{'' if bound in given else ' ='}{shown(self._bound(bound, given))}"


@cache
def _compiled(bound: str) -> CodeType:
    return compile(bound, "<bound of a range>", "eval")


def ranges_of(annotation: Any) -> tuple[Range, ...]:
    """The ranges that an annotation such as `Positive` declares: all of them hold."""
    return tuple(each for each in getattr(annotation, "__metadata__", ()) if isinstance(each, Range))


def checked(name: str, value: Number, annotation: Any, clause: str = "") -> Number:
    """`value`, held to a range outside a formula: a number raises `OutOfRange`, an array element becomes NaN."""
    for allowed in ranges_of(annotation):
        holds = allowed.holds(value, {})
        if isinstance(holds, np.ndarray):
            value = value if holds.all() else np.where(holds, value, np.nan)
        elif not holds:
            raise OutOfRange(allowed.refusal(name, {}, value), allowed.clause or clause)
    return value


def shown(value: Number) -> str:
    """` 9.25` for a message; nothing for an array or a symbol."""
    return f" {value:.6g}" if isinstance(value, (int, float, np.number)) else ""


def at_most(high: Bound, **more: Any) -> Range:
    """Above 0 and at most so much."""
    return Range(0, high, to_high=True, **more)


def below(high: Bound, **more: Any) -> Range:
    """0 or more and less than so much."""
    return Range(0, high, from_low=True, **more)


def between(low: Bound, high: Bound, unit: str = "", **more: Any) -> Range:
    """From `low` to `high`, both included."""
    return Range(low, high, True, True, unit, **more)


def inside(low: Bound, high: Bound, unit: str = "", **more: Any) -> Range:
    """More than `low` and less than `high`."""
    return Range(low, high, unit=unit, **more)


def at_least(low: Bound, **more: Any) -> Range:
    """So much or more, and finite."""
    return Range(low, from_low=True, **more)


def more_than(low: Bound, **more: Any) -> Range:
    """More than so much, and finite."""
    return Range(low, **more)


def up_to(high: Bound, **more: Any) -> Range:
    """At most so much, with any sign."""
    return Range(high=high, to_high=True, **more)


def reduction(**more: Any) -> Range:
    """Above 0 and at most 1."""
    return Range(0, 1, to_high=True, noise=NOISE, **more)


Finite = Annotated[Number, Range()]
"""A value with a sign."""
Positive = Annotated[Number, Range(0)]
NotNegative = Annotated[Number, Range(0, from_low=True)]
"""The size of something: a minus sign would turn a check into nonsense that passes."""
PositiveOrInfinite = Annotated[Number, Range(0, to_high=True)]
"""A buckling stress: infinite where the piece is held along its whole length."""
Reduction = Annotated[Number, reduction()]
"""A factor that can only reduce."""
AcuteAngle = Annotated[Number, between(0, 90, "deg")]
"""An angle between two lines."""
