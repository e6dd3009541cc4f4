"""What is written down is what was computed: steps lead to the ratio, formulas re-run, tables have sources."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from beamcheck.checks.core.result import Check, PieceResult
from beamcheck.checks.core.wood.govern import figures_only
from beamcheck.values.loader import rows

from .beams import Data, beam, checked, floor, known, result_of, seat, stock

FROM_TABLES = {
    "F_b", "F_v", "F_c_perp", "E", "E_min", "C_D", "C_M", "C_t", "C_F", "C_fu", "C_i", "C_r", "K_cr", "n", "k_short",
    "k_long", "k_d",
}  # fmt: skip
MORTISE = {"kind": "mortise", "at": "2 ft", "length": "3 in", "depth": "2 in", "width": "1 in", "from_bottom": "6 in"}
NOTCH = {"kind": "notch", "at": "0 ft", "length": "5 in", "depth": "1 in", "face": "top"}
HOLE = {"kind": "hole", "at": "9 ft", "depth": "2 in", "from_bottom": "6 in"}
POINT = floor(what="column", live="800 lb", at="5 ft", bearing="4 in")


def jobs() -> Iterator[tuple[Data, Data]]:
    uniform = [floor(dead="10 psf", live="40 psf", snow="20 psf", width="4 ft")]
    wind = [floor(wind="-40 psf", dead="5 psf", width="4 ft"), POINT]
    yield beam(top_held="ends only", cuts=[NOTCH, MORTISE, HOLE], carries=uniform), stock("6x12 dressed")
    yield beam(top_held="ends only", carries=uniform), stock("4x12", moisture="wet", temperature="120 F", incised=True)
    yield beam(top_held="3 ft", carries=wind, length="15 ft", service="roof"), stock("6x14 dressed")
    yield beam(laid="flat", carries=uniform, finish="masonry veneer"), stock("6x12 dressed")
    yield (
        beam(top_held="at loads", carries=[POINT], supports=[seat("0 ft"), seat("10 ft")]),
        stock("2x12", grade="No.2"),
    )
    yield beam(members=5, spacing="16 in", shared_by="boards", carries=uniform), stock("2x10", grade="No.2")
    yield beam(supports=[seat("0 ft"), seat("12 ft"), seat("20 ft")], carries=uniform), stock("10 in round")
    yield beam(carries=uniform), known("6 in x 12 in")


RESULTS = [result_of(piece, wood=wood) for piece, wood in jobs()]
CHECKS = [check for result in RESULTS for check in result.checks if check.ratio is not None]


def test_there_is_much_to_look_at() -> None:
    assert len(CHECKS) > 50
    assert {"bending", "shear"} < {check.what for check in CHECKS}


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.what)
def test_the_steps_lead_to_demand_and_capacity(check: Check) -> None:
    assert check.demand is not None and check.capacity is not None and check.ratio is not None
    values = [each.value for each in check.steps]
    assert any(value == pytest.approx(check.demand, rel=1e-9) for value in values)
    assert values[-1] == pytest.approx(check.capacity, rel=1e-9)
    assert check.ratio == pytest.approx(check.demand / check.capacity, rel=1e-12)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.what)
def test_each_formula_gives_its_value_again(check: Check) -> None:
    for each in check.steps:
        if each.formula is not None:
            assert each.formula(**each.inputs) == pytest.approx(each.value, rel=1e-12), each.symbol


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.what)
def test_what_comes_from_a_table_names_it(check: Check) -> None:
    for each in check.steps:
        if each.formula is None and each.symbol in FROM_TABLES and each.value != 1.0:
            assert each.source is not None, each.symbol
            assert each.source.document and each.source.how


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.what)
def test_every_input_of_a_formula_is_there_before(check: Check) -> None:
    """A number that enters a formula was written down, is a factor of 1, or is a size of the piece, load or cut."""
    given = {"b", "d", "d_cut", "l_b", "D", "c", "x", "e", "C_T", "M", "V", "I"}
    known_before: set[str] = set()
    for each in check.steps:
        for name, value in each.inputs.items():
            assert name in known_before | given or value == 1.0, (each.symbol, name)
        known_before.add(each.symbol)


def test_every_symbol_is_listed() -> None:
    listed = {row["name"] for row in rows("nomenclature")}
    assert {each.symbol for check in CHECKS for each in check.steps} <= listed


def summary(result: PieceResult) -> list[tuple[str, str, float | None]]:
    return [(check.what, check.verdict, check.ratio) for check in result.checks]


def test_figures_without_steps_are_the_same_figures() -> None:
    """What the search for remedies looks at is what is printed."""
    for piece, wood in jobs():
        with figures_only():
            quick = checked(piece, wood=wood).pieces[0]
        full = checked(piece, wood=wood).pieces[0]
        assert [(what, verdict) for what, verdict, _ in summary(quick)] == [
            (what, verdict) for what, verdict, _ in summary(full)
        ]
        for one, two in zip(quick.checks, full.checks, strict=True):
            assert one.ratio == (None if two.ratio is None else pytest.approx(two.ratio, rel=1e-12))
            assert one.steps == () or one.ratio is None
