"""Forces that the words of a paper name: which figures are forces, in pounds, which way; what is next to nothing."""

from __future__ import annotations

import pytest

from beamcheck.checks.core.forces_said import forces_said, named_too_small, same_force
from beamcheck.checks.core.trivial import negligible, trivial

KN = 224.808943  # lbf


@pytest.mark.parametrize(("words", "pounds"), [
    ("1,200 lb", [1200.0]), ("takes 1200 lbs and 300 pounds", [1200.0, 300.0]), ("500#", [500.0]), ("1 lbf", [1.0]),
    ("1 pound", [1.0]), ("1.5 kips", [1500.0]), ("2 kip", [2000.0]), ("2 kN", [2.0 * KN]), ("0.5 KN", [0.5 * KN]),
    ("1 ton", [2000.0]), ("1.5 tons", [3000.0]), ("40 lb/ft", []), ("40 lb / ft", []), ("40 lb per foot", []),
    ("900 lb per seat", [900.0]), ("900 lb per post", [900.0]), ("bolt 1/2 in, letter 1200", []), ("A500 lb", []),
    ("report 12, 500 lbx", []), ("#500", []), ("", []), ("5 in, 6 ft", []),
])  # fmt: skip
def test_figures_of_force(words: str, pounds: list[float]) -> None:
    """4.44822 N are a pound; a ton is the short one, the lightest; loads by length are no forces."""
    assert list(forces_said(words)) == pytest.approx(pounds)


@pytest.mark.parametrize(("words", "down", "up", "sideways"), [
    ("1,200 lb", [1200], [], []), ("1,200 lb down and 300 lb up", [1200], [300], []),
    ("uplift of 300 lb, 150 lb sideways", [], [300], [150]), ("hold-down 900 lb", [], [900], []),
    ("holddown: 900 lb", [], [900], []), ("900 lb hold-down", [], [900], []), ("900 lb of lift", [], [900], []),
    ("lateral load 200 lb", [], [], [200]), ("200 lb lateral", [], [], [200]),
    ("horizontal force of 200 lb", [], [], [200]),
    ("thrust = 200 lb", [], [], [200]), ("900 lb gravity", [900], [], []), ("900 lb vertical", [900], [], []),
    ("uplift up to 300 lb", [], [300], []), ("300 lb up to 500 lb", [300, 500], [], []),
    ("300 lb uplift 500 lb", [500], [300], []), ("uplift 300 lb uplift 500 lb", [], [300, 500], []),
    ("300 lb sideways, 500 lb", [500], [], [300]), ("upwards 300 lb and down 500 lb", [500], [300], []),
    ("300 lb net uplift", [], [300], []), ("300 lb upstairs", [300], [], []),
])  # fmt: skip
def test_which_way_a_figure_is_for(words: str, down: list[float], up: list[float], sideways: list[float]) -> None:
    """By the word right behind it or right before it, which is then not that of the next one."""
    assert [list(forces_said(words, way)) for way in ("", "up", "sideways")] == [down, up, sideways]
    assert sorted(forces_said(words)) == sorted([*down, *up, *sideways])


@pytest.mark.parametrize(("words", "force", "named"), [
    ("1,000 lb", 1011.0, 1000.0), ("990 lb", 1000.0, None), ("989 lb", 1000.0, 989.0), ("1,000 lb", 1000.0, None),
    ("1,000 lb", 900.0, None), ("500 lb and 700 lb", 900.0, 700.0), ("500 lb and 950 lb", 900.0, None),
    ("by hand", 900.0, None), ("0.5 lb", 900.0, 0.5),
])  # fmt: skip
def test_a_paper_that_names_less_than_comes(words: str, force: float, named: float | None) -> None:
    """By more than a hundredth, which is rounding between units."""
    assert named_too_small(words, force) == named


@pytest.mark.parametrize(("one", "other", "same"), [
    (990.0, 1000.0, True), (1010.0, 1000.0, True), (989.9, 1000.0, False), (1010.1, 1000.0, False), (0.0, 0.0, True),
])  # fmt: skip
def test_figures_that_differ_by_rounding(one: float, other: float, same: bool) -> None:
    assert same_force(one, other) is same


@pytest.mark.parametrize(("force", "capacity", "next_to_nothing"), [
    (20.0, 2000.0, True), (20.1, 1e6, False), (20.0, 1e6, True), (10.0, 1000.0, True), (10.1, 1000.0, False),
    (20.0, 1900.0, False), (0.0, 0.0, True),
])  # fmt: skip
def test_a_force_next_to_nothing(force: float, capacity: float, next_to_nothing: bool) -> None:
    """Up to 20 lb and up to a hundredth of what carries it (judgment)."""
    assert trivial(force, capacity) is next_to_nothing and negligible() == 0.5
