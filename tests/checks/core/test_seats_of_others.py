"""What an end rests on: who answers for it, which wood lies across the load, how long a seat is at least."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.seat import (
    _across_the_load,
    answered,
    bracket_wood,
    least_seat,
    least_seat_length,
    nobody_answers,
    wood_under,
)
from beamcheck.checks.core.wood.material import WoodMaterial
from beamcheck.model.beams import Beam
from beamcheck.model.brackets.bracket import Bracket
from beamcheck.model.brackets.shapes import Solid, SteelCore
from beamcheck.model.existing import Existing
from beamcheck.model.posts import Post
from beamcheck.model.stock import Stock

from ..anchors.anchors import loaded
from ..beams.beams import Data, beam, known, stock
from ..houses import post

BY = "invented sheet S-1, engineer"


def existing(**more: Any) -> Existing:
    return Existing.model_validate(
        {"name": "wall", "what": "old wall", "material": "concrete", "confirmed_by": BY, **more}
    )


STOCKS: dict[str, Data] = {
    "wood": known("6 in x 12 in"),
    "old": {key: value for key, value in stock(grade="unstamped").items() if key not in ("grade_from", "evidence")},
    "steel": {"name": "s", "made": "steel", "grade": "A992", "grade_from": "certificate", "evidence": "no. 4",
              "steel": {"shape": "W8x18"}},
}  # fmt: skip


def context() -> Any:
    made = {name: Stock.model_validate(one) for name, one in STOCKS.items()}
    return SimpleNamespace(stock=lambda name: made[name])


def bracket(name: str | None, steel: bool = False) -> Bracket:
    shape: Any = SteelCore.model_construct(width=1.5) if steel else Solid.model_construct(thickness=3.5)
    return Bracket.model_construct(name="K", shape=shape, stock=name)


@pytest.mark.parametrize(("under", "field"), [
    (existing(material="other"), "existing.wall.material"), (existing(material="wood"), "existing.wall.F_c_perp"),
    (bracket(None), "bracket.K.stock"), (bracket("steel"), "bracket.K.stock"), (bracket("old"), "stock.wood.grade"),
    (Beam.model_validate(beam(stock="old")), "stock.wood.grade"),
])  # fmt: skip
def test_wood_under_an_end_that_is_not_known_is_asked_for(under: Any, field: str) -> None:
    found = _across_the_load(under, context())
    assert isinstance(found, tuple)
    assert found[1].field == field or (field.endswith("grade") and found[1].field.startswith("stock.wood."))


@pytest.mark.parametrize("under", [
    existing(), existing(material="steel"), bracket(None, steel=True), Post.model_validate(post()),
    Beam.model_validate(beam(stock="steel")),
])  # fmt: skip
def test_where_no_wood_lies_across_the_load(under: Any) -> None:
    """Concrete, steel, a post that bears on its end grain."""
    assert _across_the_load(under, context()) is None


def test_wood_under_an_end_that_is_known() -> None:
    assert _across_the_load(existing(material="wood", F_c_perp="300 psi"), context()) == 300.0
    for under in (Beam.model_validate(beam(stock="wood")), bracket("wood")):
        found = _across_the_load(under, context())
        assert isinstance(found, WoodMaterial) and found.F_c_perp.value == 400.0
    assert isinstance(bracket_wood(bracket("wood"), context()), WoodMaterial)


@pytest.mark.parametrize(("material", "least"), [
    ("masonry", 3.0), ("concrete", 3.0), ("wood", 1.5), ("steel", 1.5), ("other", 1.5),
])  # fmt: skip
def test_least_length_of_a_seat(material: str, least: float) -> None:
    """3 in on masonry or concrete, 1 1/2 in on wood or metal (IRC R502.6, memory)."""
    under = existing(material=material)
    assert least_seat_length(under).value == least and least_seat_length().value == 1.5
    assert least_seat("B", "seat", least, under, "c") == []
    assert least_seat_length(Beam.model_validate(beam())).value == 1.5
    (found,) = least_seat("B", "seat", least - 0.01, under, "c", where="x")
    assert found.verdict == "fails" and found.where == "x"
    assert ("masonry or concrete" in found.notes[0]) is (least == 3.0)


@pytest.mark.parametrize(("more", "verdict", "words"), [
    ({}, "passes", f"confirmed: {BY}"), ({"confirmed_by": ""}, "refer", "nobody is named who answers for it"),
    ({"confirmed_by": "looks fine to me"}, "refer", "'looks fine to me' does not confirm it: "),
    ({"material": "plaster"}, "fails", "plaster bears nothing"), ({"material": "board"}, "fails", "bears nothing"),
])  # fmt: skip
def test_who_answers_for_what_is_there(more: Data, verdict: str, words: str) -> None:
    found = answered("B", "what", existing(**more))
    assert found.verdict == verdict and words in found.notes[0]
    assert [one.field for one in found.questions] == ["existing.wall.confirmed_by"] * (verdict == "refer")
    if verdict == "refer":
        assert nobody_answers(existing(**more)) in found.notes[0]


@pytest.mark.parametrize(("under", "takes"), [
    (existing(material="wood", F_c_perp="300 psi"), 300.0), (Beam.model_validate(beam(stock="wood")), 400.0),
])  # fmt: skip
def test_wood_across_the_load_under_an_end(under: Any, takes: float) -> None:
    """R over the contact against F_c_perp' without C_b, as near an end (NDS 2018 3.10.2)."""
    found = wood_under("C", [loaded("D"), loaded("D + L")], np.array([500.0, 900.0]), 3.0, 1.5, under, context())
    assert [(one.demand, one.capacity, one.combination) for one in found] == [(900.0 / 4.5, takes, "D + L")]
    assert found[0].ratio == pytest.approx(200.0 / takes)
    assert wood_under("C", [loaded("D")], np.array([500.0]), 3.0, 1.5, existing(), context()) == []
    (asked,) = wood_under("C", [loaded("D")], np.array([500.0]), 3.0, 1.5, existing(material="other"), context())
    assert asked.verdict == "refer" and asked.questions[0].field == "existing.wall.material"
