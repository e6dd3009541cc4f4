"""One bracket's stress field at the public door: statics by hand, and the figures of the job's own sheet."""

from __future__ import annotations

import pytest

import beamcheck
from beamcheck import Fastener, Fixings, OutOfRange, Row, Solid, Stock, bracket_field

OAK = Stock(
    name="board", species="White Oak", grade="No.2", size="1 1/2 in x 11 1/4 in", moisture="dry", grade_from="stamp",
    evidence="invented stamp: agency mark, mill 12",
)  # fmt: skip
SHELF = Solid(
    family="solid", thickness="1 1/2 in", height="12 in", projection="10 in", foot="2 in", nose="2 in",
    soffit="straight", grain="upright",
)  # fmt: skip


def field(force: str = "100 lb", fixings: Fixings | None = None) -> beamcheck.BracketField:
    return bracket_field(SHELF, OAK, grain="90 deg", loads=[("6 in", "8 in", force)], fixings=fixings)


def test_rows_carry_the_load_and_the_wall_presses_with_what_they_pull() -> None:
    """Equilibrium: 100 lb down; level forces cancel; moment about the foot of the wall face: 700 lb-in."""
    lag = Fastener(kind="lag screw", size="3/8 in", length="6 in")
    rows = Fixings(fastener=lag, rows=(Row(below_top="2 in", count=1), Row(below_top="10 in", count=1)))
    for case in field(fixings=rows).cases:
        assert sum(case.shears) == pytest.approx(100.0, rel=1e-6)
        assert case.contact[2] == pytest.approx(sum(case.pulls), rel=1e-3)
        assert case.stiffness > 0.0 and case.moved < 0.03


def test_twice_the_load_is_twice_the_stress() -> None:
    """Linear where the wall face is held everywhere."""
    once, twice = field().cases[0], field("200 lb").cases[0]
    for (name, value, place), (other, more, there) in zip(once.peaks, twice.peaks, strict=True):
        assert (name, place) == (other, there) and more == pytest.approx(2.0 * value, rel=1e-9)


def test_both_ends_of_what_is_not_known_are_there_and_the_caution() -> None:
    found = field()
    assert len({case.case for case in found.cases}) == len(found.cases) >= 2
    assert beamcheck.SIGN_OFF in repr(found)


@pytest.mark.parametrize(
    ("loads", "told"),
    [([], "a field needs a load"), ([("6 in", "12 in", "100 lb")], "top edge"), ([("6 in", "8 in", "100")], "unit")],
)  # fmt: skip
def test_what_cannot_be_is_told(loads, told) -> None:
    with pytest.raises(beamcheck.BeamcheckError, match=told):
        bracket_field(SHELF, OAK, grain="90 deg", loads=loads)


def test_a_shape_that_is_none_is_told() -> None:
    shape = SHELF.model_copy(update={"foot": 40.0})
    with pytest.raises(OutOfRange, match="foot"):
        bracket_field(shape, OAK, grain="90 deg", loads=[("6 in", "8 in", "100 lb")])
