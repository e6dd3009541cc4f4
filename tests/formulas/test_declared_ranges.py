"""What a formula declares of its arguments and result, and what the decorator makes of it: for any formula."""

from __future__ import annotations

import math
import re
from typing import Annotated, Any

import numpy as np
import pytest
import sympy

from beamcheck.calc.core import Formula, Number, where
from beamcheck.calc.ranges import (
    NOISE,
    Finite,
    NotNegative,
    Positive,
    PositiveOrInfinite,
    Range,
    Reduction,
    at_least,
    at_most,
    below,
    between,
    checked,
    inside,
    more_than,
    up_to,
)
from beamcheck.calc.trace import Term
from beamcheck.errors import OutOfRange


def made(function: Any) -> Formula:
    """A formula outside the register."""
    return Formula(function, "y", "clause 7", "in", "derived")


def share(a: Annotated[Number, at_most("L / 2", because="no more than half")], L: Positive) -> Number:
    """Share."""
    return a / L


def branch(x: Finite, d: Positive) -> Annotated[Number, up_to(50, because="take less", clause="clause 8")]:
    """Branch."""
    return where(x < d, x / d, 60.0)


SHARE, BRANCH = made(share), made(branch)


@pytest.mark.parametrize(
    ("allowed", "words"),
    [
        (Range(), "a finite number"),
        (Range(0), "above 0"),
        (Range(0, from_low=True), "0 or more"),
        (Range(0, to_high=True), "above 0, or infinite"),
        (between(0, 90, "deg"), "0 to 90 deg"),
        (at_most("d"), "above 0 and at most d"),
        (below("d"), "0 or more and less than d"),
        (inside(0, "l / 2"), "above 0 and less than l / 2"),
        (at_least(1), "1 or more"),
        (more_than("2 * D"), "above 2 * D"),
        (up_to(50), "at most 50"),
    ],
)
def test_a_range_in_words(allowed: Range, words: str) -> None:
    assert allowed.words() == words


def test_a_refusal_says_what_is_allowed_and_what_was_given() -> None:
    told = "a must be above 0 and at most L / 2 = 6, given 7: no more than half (clause 7)"
    with pytest.raises(OutOfRange, match=f"^{re.escape(told)}$") as refusal:
        SHARE(7.0, 12.0)
    assert refusal.value.clause == "clause 7"
    with pytest.raises(OutOfRange, match=re.escape("y is 60 and must be at most 50: take less (clause 8)")):
        BRANCH(2.0, 1.0)
    with pytest.raises(OutOfRange, match="x must be a finite number, given nan"):
        BRANCH(math.nan, 1.0)


def test_what_does_not_rest_on_another_argument_is_looked_at_first() -> None:
    with pytest.raises(OutOfRange, match="L must be a finite number above 0, given -12"):
        SHARE(7.0, -12.0)


def test_in_an_array_only_the_element_outside_is_lost() -> None:
    lengths = np.array([12.0, 12.0, -1.0, math.nan])
    np.testing.assert_array_equal(SHARE(np.array([3.0, 7.0, 3.0, 3.0]), lengths), [0.25, math.nan, math.nan, math.nan])
    np.testing.assert_array_equal(SHARE(3.0, lengths), [0.25, 0.25, math.nan, math.nan])  # a number beside an array
    assert lengths[2] == -1.0  # what was given is left as it was


def test_a_branch_does_not_lose_what_is_not_a_number() -> None:
    """NaN < d is false: without care the other branch, 60 or a number that passes, would stand there."""
    found = BRANCH(np.array([0.5, math.nan, 0.5]), np.array([1.0, 1.0, 0.0]))
    np.testing.assert_array_equal(found, [0.5, math.nan, math.nan])
    np.testing.assert_array_equal(BRANCH(np.array([0.5, 2.0]), 1.0), [0.5, math.nan])  # 60 is over the result's range


def test_noise_is_let_through_at_a_bound_that_counts() -> None:
    for value in (1.0, 1.0 + 0.5 * NOISE):
        assert checked("C", value, Reduction) == value
    for value in (1.0 + 3 * NOISE, 0.0, -0.5 * NOISE):
        with pytest.raises(OutOfRange, match="C must be above 0 and at most 1"):
            checked("C", value, Reduction)
    assert checked("C", 1.0 - 0.5 * NOISE, Annotated[Number, at_least(1, noise=NOISE)]) < 1.0


def test_a_value_outside_a_formula_is_held_to_the_same_ranges() -> None:
    assert checked("load", 0.0, NotNegative) == 0.0 and checked("F", math.inf, PositiveOrInfinite) == math.inf
    np.testing.assert_array_equal(checked("load", np.array([1.0, -1.0]), NotNegative), [1.0, math.nan])
    with pytest.raises(OutOfRange, match=re.escape("load must be a finite number, 0 or more, given -1 (rule)")):
        checked("load", -1.0, NotNegative, "rule")


def test_symbols_are_handed_through() -> None:
    a, L = sympy.symbols("a L")
    assert SHARE(a, L) == a / L and SHARE(-3.0, L) == -3.0 / L
    assert repr(SHARE(Term.symbol("a"), 2.0)) == "/(a, 2.0)"
    assert SHARE.tree.symbols() == ["a", "L"]


def test_arguments_that_do_not_fit_are_said_by_name() -> None:
    for call in (lambda: SHARE(1.0), lambda: SHARE(1.0, 2.0, 3.0), lambda: SHARE(1.0, b=2.0), lambda: SHARE()):
        with pytest.raises(TypeError, match="share"):
            call()
    assert SHARE(a=3.0, L=12.0) == SHARE(3.0, L=12.0) == 0.25
