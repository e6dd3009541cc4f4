"""The sketch of a split test: its figures are those of the check, and stand in the drawing."""

from __future__ import annotations

import math
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from beamcheck.checks.core.pictures.split import SplitPicture
from beamcheck.checks.core.result import PieceResult
from beamcheck.sheet.figures.brackets.split import describe, split_figure
from beamcheck.units import show

from ...worked_examples.results import example

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def bracket() -> PieceResult:
    result = example("mantel_on_wooden_brackets")
    return next(piece for piece in result.pieces if piece.kind == "bracket")


@pytest.fixture(scope="module")
def sketch(bracket: PieceResult) -> SplitPicture:
    (found,) = (one for one in bracket.pictures if isinstance(one, SplitPicture))
    return found


def lettered(drawn: SplitPicture, units: str = "US") -> str:
    return " ".join(
        text.text or "" for text in ElementTree.fromstring(split_figure(drawn, "K", units)).iter(f"{SVG}text")
    )


def test_its_figures_are_those_of_the_check(bracket: PieceResult, sketch: SplitPicture) -> None:
    (check,) = (one for one in bracket.checks if one.id == "bracket.split")
    assert (sketch.comes, sketch.allowed) == (check.demand, pytest.approx(check.capacity))
    (stands,) = (step.value for step in check.steps if step.symbol == "P_s")
    assert sketch.stands == stands
    assert sketch.place == check.where and sketch.combination == check.combination


def test_the_forces_on_the_part_beyond_close(sketch: SplitPicture) -> None:
    assert sum(one.right for one in sketch.forces) == pytest.approx(0.0, abs=1e-6)
    assert sum(one.down for one in sketch.forces) == pytest.approx(0.0, abs=1e-6)
    assert {one.what for one in sketch.forces} >= {"load", "heads", "dowels", "wall", "check"}


@pytest.mark.parametrize("units", ["US", "SI"])
def test_every_force_is_lettered(sketch: SplitPicture, units: str) -> None:
    text = lettered(sketch, units)
    for force in sketch.forces:
        assert show(math.hypot(force.right, force.down), "force", units) in text, force
    for value in (sketch.stands, sketch.whole, sketch.allowed, sketch.comes):
        assert show(value, "force", units) in text
        assert show(value, "force", units) in describe(sketch, units)


def test_the_check_is_drawn_where_it_runs(sketch: SplitPicture) -> None:
    """From the top edge 4 1/2 in out, along grain that rises 55 degrees: it meets the wall 4.51 x tan 55 down."""
    ((low, high),) = sketch.check
    assert high == (pytest.approx(4.5, abs=1 / 16), pytest.approx(0.0, abs=1e-6))
    assert low == (pytest.approx(0.0, abs=1e-6), pytest.approx(high[0] * math.tan(math.radians(55.0))))
    for stretch in sketch.pressed:
        for x, y in stretch:
            assert y == pytest.approx((high[0] - x) * math.tan(math.radians(55.0)), abs=1e-6)


def test_what_carries_nothing_says_so(sketch: SplitPicture) -> None:
    nothing = replace(sketch, stands=0.0, whole=0.0, allowed=0.0, check=(), pressed=(), forces=())
    assert "It carries nothing" in lettered(nothing)
    assert "thick" not in lettered(nothing)
