"""Loads, heads, rods and checks of a sawn bracket stand where it has wood; what is not there lends it nothing."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from beamcheck.checks.brackets.bracket import bracket_results
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.split.wood_as_it_is import more_checks
from beamcheck.checks.core.result import Check
from beamcheck.errors import JobError
from beamcheck.model.outlines.geometry import in_the_wood

from ..anchors.anchors import made, said, stock
from .brackets import CORBEL, SOLID, Data, bracket, fixings, held, loads_of, structure

GOOD: Data = {"knots": "none in the throat", "deflects": "1/8 in", "checks": []}
ROD: Data = {
    "out_from": "8 in", "down_from": "1 in", "out_to": "8 in", "down_to": "4 in", "bond": "400 lb/in",
    "steel": "2,400 lb", "across": "200 lb", "report": "report 7",
}  # fmt: skip


@pytest.mark.parametrize(("at", "bearing"), [(10.0, 3.0), (9.5, 3.0), (9.0, 3.0), (6.0, 12.0), (4.0, 20.0)])
def test_a_wide_seat_does_not_bring_a_load_nearer_to_the_wall(at: float, bearing: float) -> None:
    """The middle of what bears is where the load is said to be; at the very nose half of a quarter inch inside."""
    carries = [{"what": "shelf", "live": "60 lb", "at": f"{at} in", "bearing": f"{bearing} in", "applied": "top"}]
    loads = loads_of(bracket(SOLID, carries=carries), structure())
    for i in range(len(loads.combinations)):
        strips = [one for one in loads.strips(i) if not one.own and one.force > 0.0]
        assert all(one.end <= 10.0 + 1e-9 for one in strips)
        for one in strips:
            assert 0.5 * (one.start + one.end) >= at - 0.125 - 1e-9


def row(below_top: str, **more: str) -> Data:
    return {"below_top": below_top, "count": 1, **more}


def fixed(through: str, rows: list[Data]) -> list[Check]:
    lag = {"kind": "lag screw", "size": "3/8 in", "length": "12 in"}
    piece = bracket(SOLID, "60 lb", "6 in", fixings=fixings(through=through, fastener=lag, rows=rows))
    return [check for check in held(piece, structure()) if check.id == "bracket.through"]


def test_heads_of_a_lower_row_do_not_stand_in_the_air() -> None:
    """12 x 10 in, foot and nose 3 in, straight: 6.11 in deep at 8 in below the top (3 + 4 x 7/9)."""
    assert "in the air" in said(fixed("9 in", [row("3 in"), row("8 in")]), "refer")
    assert "in the air" in said(fixed("9 in", [row("2 in", through="9 in"), row("8 in")]), "refer")
    assert not fixed("5 1/2 in", [row("3 in"), row("8 in")])


@pytest.mark.parametrize(
    ("down", "deep", "asked"),
    [("8 in", "6.11 in", ["seat of the head"]), ("8 in", "5.7 in", []), ("2 in", "10 in", []),
     ("3 in", "10 in", ["seat of the head"])],
)  # fmt: skip
def test_a_washer_lies_on_wood_down_to_its_lower_edge(down: str, deep: str, asked: list[str]) -> None:
    """The cut washer of a 3/8 in lag is 1 in across: at 8 1/2 in down the wood is 3 + 3.5 x 7/9 = 5.72 in deep."""
    assert [check.what for check in fixed("4 in", [row(down, through=deep)])] == asked


def test_a_rod_holds_in_wood_all_along_it() -> None:
    """One that ends below the soffit, and one whose ends alone are in the wood of a hollow soffit."""
    bracket(SOLID, rods=[ROD])
    with pytest.raises(JobError, match="no wood"):
        bracket(SOLID, rods=[{**ROD, "down_to": "11 in"}])
    aslant = {**ROD, "out_from": "9 in", "down_from": "2 1/2 in", "out_to": "2 1/2 in", "down_to": "11 in"}
    bracket(SOLID, rods=[aslant])
    with pytest.raises(JobError, match="no wood"):
        bracket({**SOLID, "soffit": "concave"}, rods=[aslant])


@pytest.mark.parametrize("place", [("9 in", "11 in"), ("40 in", "2 in"), ("10 in", "13 in")])
def test_a_check_is_in_the_wood(place: tuple[str, str]) -> None:
    inside, outside = {"x": "3 in", "y": "3 in"}, {"x": place[0], "y": place[1]}
    bracket(SOLID, checks=[inside])
    for shape in (SOLID, CORBEL):
        with pytest.raises(JobError, match="no wood"):
            bracket(shape, checks=[outside])


def test_where_an_outline_has_wood() -> None:
    """The line from (3, 12) to (10, 3): at 6.5 out it is 7.5 down."""
    shape = bracket(SOLID).shape
    points = np.array([(6.5, 7.4), (6.5, 7.6), (0.0, 0.0), (10.0, 3.0), (10.1, 1.0), (5.0, -0.1), (-0.1, 5.0)])
    assert in_the_wood(shape, points, 0.01).tolist() == [True, False, True, True, False, False, False]  # type: ignore[arg-type]


def test_wood_that_a_meter_reads_as_wet_does_not_pass() -> None:
    here = structure(oak=stock("4x12 dressed", measured_moisture="22 %"))
    piece = bracket(SOLID, "20 lb", "6 in", stock="oak", **GOOD)
    found = list(more_checks(family_of(piece), here, loads_of(piece, here), made(here.stock("oak"))))
    assert "not dry" in said(found, "refer")


def test_glue_alone_fails_where_no_stress_can_be_read() -> None:
    here = structure()
    piece = bracket(SOLID, "20 lb", "5 in", fixings={"by_hand": "glue"}, **GOOD)
    known = replace(here.structure, pieces={**here.structure.pieces, piece.name: piece})
    assert bracket_results(piece, replace(here, structure=known))[0].verdict == "fails"
