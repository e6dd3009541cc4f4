"""A soft pad between a bracket and the beam over it: in series with the bracket, until it is squeezed flat."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from beamcheck.checks.brackets.props.gap import pad_in_series
from beamcheck.checks.core.context import Context

from ...beams import beams
from .near_a_beam import DELTA, ask, asked, context, find, largest, unit


@pytest.fixture(scope="module")
def simple() -> Context:
    """People and furniture: nothing on it stays for years."""
    return context(beams.beam(carries=[beams.floor(dead="10 psf", live="40 psf", width="6 ft", stays=False)]))


def test_soft_pad_in_series(simple: Context) -> None:
    """1/k + 1/k_p, from the first movement on; the bracket still gets force, so it is a prop (brackets.md sec. f)."""
    result = asked(simple, ask(gap="1/2 in", pad="200 lb/in", pad_squeezes="3/8 in"))
    expected = DELTA / (1 / 8000 + 1 / 200 + unit())
    assert expected / 200 < 3 / 8
    assert largest(result) == pytest.approx(expected, rel=1e-6)
    check = find(result, "force")
    assert (check.verdict, result.touches) == ("fails", True)
    assert beams.step(check, "k_n") == pytest.approx(1 / (1 / 8000 + 1 / 200), rel=1e-9)
    rigid = asked(simple, ask(gap="1/2 in", pad="200 lb/in", pad_squeezes="3/8 in", k=math.inf, k_low=0.0))
    assert largest(rigid) == pytest.approx(DELTA / (1 / 200 + unit()), rel=1e-6)
    assert beams.step(find(rigid, "force"), "R") == pytest.approx(largest(rigid), rel=1e-9)


@pytest.mark.parametrize(
    ("squeezes", "text"), [("1/16 in", "squeezed flat"), (None, "how far the pad can be squeezed is not given")]
)
def test_a_pad_that_is_squeezed_flat_does_not_count(simple: Context, squeezes: str | None, text: str) -> None:
    more = {"pad_squeezes": squeezes} if squeezes else {}
    result = asked(simple, ask(gap="1/8 in", pad="200 lb/in", **more))
    assert largest(result) == pytest.approx(DELTA / (1 / 8000 + unit()), rel=1e-6)
    assert text in find(result, "force").notes[1]


def test_a_pad_that_is_squeezed_to_its_very_limit_counts(simple: Context) -> None:
    """R = Delta/(1/k + 1/k_p + f_xx) squeezes it by R/k_p: so much is still soft, a hair less is flat."""
    soft = ask(gap="1/2 in", pad="200 lb/in", pad_squeezes="3/8 in")
    limit = largest(asked(simple, soft)) / 200.0
    for squeezes, counts in ((limit, True), (limit * (1.0 - 1e-9), False)):
        near = soft.near.model_copy(update={"pad_squeezes": squeezes})
        k = 1 / 8000 + counts / 200
        assert largest(asked(simple, replace(soft, near=near))) == pytest.approx(DELTA / (k + unit()), rel=1e-6)


@pytest.mark.parametrize(
    ("k", "k_pad", "both"),
    [(0.0, 200.0, 0.0), (math.inf, 200.0, 200.0), (1.0, 200.0, 200.0 / 201.0), (600.0, 200.0, 150.0)],
)
def test_a_bracket_behind_a_pad(k: float, k_pad: float, both: float) -> None:
    """k k_p/(k + k_p); one without stiffness stays so, of a rigid one the pad is left."""
    assert pad_in_series(k, k_pad) == pytest.approx(both)
