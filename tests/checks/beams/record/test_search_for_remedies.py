"""How a remedy is searched for: few tries, each answer tried, and what need not be tried. Laws of growth typed here."""

from __future__ import annotations

import math
from collections.abc import Callable
from contextlib import suppress
from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.calc.pad import Step
from beamcheck.checks.beams.record import remedies
from beamcheck.checks.beams.record.remedies import _largest_scale, _may_do
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.model.beams import Beam
from beamcheck.model.stock import Stock
from beamcheck.values.lumber import read_size

from ..beams import beam, seat, stock


def searched(law: Callable[[float], float], step: float = 0.01) -> tuple[float | None, list[float]]:
    """What is found, and where the law was looked at."""
    tried: list[float] = []

    def ratio(factor: float) -> float:
        tried.append(factor)
        return law(factor)

    return _largest_scale(ratio, law(1.0), step), tried


@pytest.mark.parametrize("power", [0.5, 1, 2, 3, 4])
@pytest.mark.parametrize("holds", [0.27, 0.4, 0.63, 0.9, 0.97])
def test_a_power_is_found_with_a_few_tries(power: float, holds: float) -> None:
    """(f/h)^p: moment by its square, sag by its fourth power; the first guess is h, the next shows that more fails."""
    found, tried = searched(lambda factor: (factor / holds) ** power)
    assert found is not None and holds - 0.0101 <= found <= holds * (1 + 1e-9)
    assert len(tried) <= 4 and all(0.25 <= one < 1.0 for one in tried)


@pytest.mark.parametrize("holds", [0.26, 0.5, 0.8, 0.985])
@pytest.mark.parametrize(("below", "above"), [(0.9, math.inf), (0.0, 2.0)])
def test_without_a_law_it_is_halved(holds: float, below: float, above: float) -> None:
    """Between a quarter and all of it there are 75 steps of 0.01: seven halvings."""
    found, tried = searched(lambda factor: below if factor <= holds else above)
    assert found is not None and holds - 0.0101 <= found <= holds
    assert len(tried) <= 9


@pytest.mark.parametrize(("holds", "there"), [(0.25, True), (0.2499, False)])
def test_less_than_a_quarter_is_another_beam(holds: float, there: bool) -> None:
    found, tried = searched(lambda factor: factor / holds)
    assert (found is not None) is there and (there or tried == [0.25])


def failing(what: str, ratio: float | None, kind: str = "stress", C_L: float = 1.0, verdict: Any = "fails") -> Check:
    return Check("B", what, "", verdict, kind, ratio=ratio, steps=(Step("C_L", C_L, ""), Step("K", 1.0, "")))


@pytest.mark.parametrize(("check", "tried"), [
    (failing("sag", 1.78, "small length"), True), (failing("sag", 1.79, "small length"), False),
    (failing("bending", 1.48), True), (failing("bending", 1.49), False), (failing("bending", 9.0, C_L=0.99), True),
    (failing("shear", 9.0), True), (failing("sag", None, "small length"), True),
    (failing("sag", 9.0, "small length", verdict="passes"), True),
])  # fmt: skip
def test_sizes_that_the_figures_rule_out_are_not_tried(check: Check, tried: bool) -> None:
    """From 4 x 10 to 4 x 12 in I grows by 1.2^3 = 1.728 and S by 1.44; 0.97 of what is wanted is near enough."""
    made, now, then = Beam.model_validate(beam()), read_size("4 in x 10 in"), read_size("4 in x 12 in")
    assert _may_do(made, now, then, [failing("shear", None), check]) is tried


@pytest.mark.parametrize(("holds", "told"), [
    (25.0, ["2 ft", "2 ft 1 in"]), (23.99, []), (35.0, []),
    (100.0, ["8 ft 3 in", "8 ft 4 in"]), (143.5, ["11 ft 10 in", "11 ft 11 in"]),
])  # fmt: skip
def test_a_shorter_piece_in_whole_inches(holds: float, told: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a ratio that grows with the length: short by an inch at most; under 2 ft, or a quarter, it is none."""
    length = 144.0 if holds > 30.0 else 90.0
    supports = [seat("0 ft"), seat(f"{length} in")]
    monkeypatch.setattr(remedies, "_ratio", lambda piece, wood, context: piece.supports[-1].at / holds)
    made = Beam.model_validate(beam(supports=supports))
    context = Context(Structure({}, {}))
    found = list(remedies._shorter(made, None, context, length / holds))  # type: ignore[arg-type]
    assert [any(f"holds up to {one} over all" in text for one in told) for text in found] == [True] * bool(told)


@pytest.mark.parametrize(("many", "searched_for"), [(400, True), (401, False)])
def test_with_very_many_combinations_nothing_is_searched_for(many: int, searched_for: bool) -> None:
    run: Any = SimpleNamespace(solved=SimpleNamespace(combinations=range(many)))
    asked: list[Any] = []

    def make(values: Any) -> Any:
        asked.append(values)
        raise InterruptedError

    made, wood = Beam.model_validate(beam()), Stock.model_validate(stock())
    with suppress(InterruptedError):
        (text,) = remedies.beam_remedies(made, wood, make, Context(Structure({}, {})), [failing("x", 2.0)], run)
        assert "no remedy was searched for" in text
    assert bool(asked) is searched_for


@pytest.mark.parametrize(("size", "species", "next_"), [
    ("6x12 dressed", "Douglas Fir-Larch", "6x14 dressed"), ("8x12 dressed", "Douglas Fir-Larch", "8x14 dressed"),
    ("3x6", "Hem-Fir", "3x8"), ("2x8", "Hem-Fir", "3x6"), ("4x16", "Hem-Fir", None),
])  # fmt: skip
def test_which_size_is_tried_next(size: str, species: str, next_: str | None, monkeypatch: pytest.MonkeyPatch) -> None:
    """The least of its class with a larger section that is no thinner: no 6x18 for 8x12, no 2x12 for 3x6."""
    monkeypatch.setattr(remedies, "_ratio", lambda piece, wood, context: 0.5)
    monkeypatch.setattr(remedies, "_may_do", lambda *all: True)
    made, wood = Beam.model_validate(beam()), Stock.model_validate(stock(size, species=species, grade="No.1"))
    found = list(remedies._next_size(made, wood, Context(Structure({"wood": wood}, {})), []))
    assert [one.split(": ")[1].split(" (")[0] for one in found] == ([next_] if next_ else [])
