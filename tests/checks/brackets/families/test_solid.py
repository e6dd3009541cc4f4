"""Brackets cut from one piece: what the field says, what the grain forbids, and what is never passed in silence."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.fields.field import Backing, Elastic, Press, solve_field
from beamcheck.analysis.fields.outline import outline_of
from beamcheck.checks.brackets.body import Body
from beamcheck.checks.brackets.bracket import bracket_results
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.families.solid_field import model_of
from beamcheck.checks.brackets.families.solid_hand_rule import EdgeLoad, Moduli, hand_rule
from beamcheck.checks.core.result import PieceResult
from beamcheck.model.brackets.bracket import Bracket, Solid
from beamcheck.model.loads import Load

from ..brackets import SOLID, Data, bracket, find, fixings, loads_of, structure, wood

GOOD: Data = {"knots": "none in the throat", "deflects": "1/8 in"}
SLENDER: Data = {
    **SOLID, "height": "5 1/2 in", "projection": "12 in", "nose": "2 in", "soffit": "straight", "grain": "level",
}  # fmt: skip
B07: Data = {
    "family": "solid", "thickness": "1 1/2 in", "height": "12 in", "projection": "12 in", "foot": "1 1/2 in",
    "nose": "1 1/2 in", "soffit": "concave", "grain": "45 deg",
}  # fmt: skip


def row(below_top: str) -> Data:
    return {"below_top": below_top, "count": 1}


def result_of(piece: Bracket) -> PieceResult:
    context = structure()
    known = replace(context.structure, pieces={**context.structure.pieces, piece.name: piece})
    return bracket_results(piece, replace(context, structure=known))[0]


def loaded(shape: Data, live: str = "20 lb", **more: Any) -> Bracket:
    """With a load 1 in inside its nose, 1 in long; nothing said about fixings unless it is given."""
    out = Solid.model_validate(shape).projection - 1.0
    load = Load.model_validate({"what": "shelf", "live": live, "at": f"{out} in", "bearing": "1 in", "applied": "top"})
    return bracket(shape, **{**GOOD, **more}).model_copy(update={"carries": (load,)})


def body(piece: Bracket) -> Body:
    assert isinstance(piece.shape, Solid)
    context = structure()
    return family_of(piece).body(loads_of(piece, context), wood(context), context)


def verdicts(found: Body) -> dict[str, str]:
    return {check.what: check.verdict for check in found.checks}


def ratio(found: Body, what: str = "stresses along the grain") -> float:
    value = find(found.checks, what).ratio
    assert value is not None
    return value


def test_b07_tension_across_the_grain() -> None:
    """bracket_checks.csv B07 (derived, 65,000 unknowns): 120 psi on the top edge, 119.4 anywhere, per 100 lb."""
    shape = Solid.model_validate(B07)
    field = solve_field(
        outline_of(shape), 1.5, Elastic(1.6e6, 80000.0, 124800.0, 0.449, 45.0), Backing("bonded"),
        [Press(11.0, 12.0, 100.0)], across=9,
    )  # fmt: skip
    assert field.peak("across tension").value == pytest.approx(119.952, rel=0.01)


def test_b07_hand_rule() -> None:
    """bracket_checks.csv B07 (derived) at x = 6 in: vertical 192.2, linear 238.1, fan 133.1 psi; 1.3 times the most."""
    outline = outline_of(Solid.model_validate(B07))
    rule = hand_rule(
        outline,
        1.5,
        Moduli(1.6e6, 80000.0, 124800.0, 0.449, 45.0),
        EdgeLoad([(11.0, 12.0, 100.0)], 12.0),
        diagonal=True,
    )
    assert np.interp(6.0, rule.x_0, rule.top) == pytest.approx(1.3 * 238.074, rel=0.01)
    assert np.interp(3.6, rule.x_0, rule.top) == pytest.approx(1.3 * 166.402, rel=0.01)
    # soffit: fan 414.5 psi, linear 293.8, at the peak of the field; 1.7 for diagonal grain
    assert rule.soffit.max() == pytest.approx(1.7 * 414.519, rel=0.02)


@pytest.mark.parametrize("grain", ["upright", "135 deg"])
def test_heads_deep_in_grain_that_runs_off_the_load_carry_nothing(grain: str) -> None:
    shape = {**SOLID, "soffit": "concave", "foot": "2 in", "nose": "2 in", "projection": "12 in", "grain": grain}
    found = body(loaded(shape, "60 lb", fixings=fixings(rows=[row("2 in"), row("10 in")])))
    assert "not to be relied on" in found.weak_grain and find(found.checks, "split test").verdict == "fails"


def test_short_grain_fails_the_bracket_that_is_to_carry() -> None:
    result = result_of(loaded({**SOLID, "soffit": "concave"}, "60 lb", fixings=fixings()))
    assert (result.verdict, result.finding) == ("fails", "decoration only")


def test_grain_not_given_refers_and_shows_what_each_would_mean() -> None:
    found = body(loaded({**SLENDER, "grain": None}))
    assert verdicts(found) == {"grain": "refer"}
    (table,) = found.tables
    assert [row[0] for row in table.rows] == ["0 deg", "45 deg", "90 deg", "135 deg"]


def test_uplift_refers() -> None:
    piece = loaded(SLENDER)
    up = Load.model_validate({"what": "wind", "wind": "-200 lb", "at": "11 in", "bearing": "1 in", "applied": "top"})
    found = body(piece.model_copy(update={"carries": (*piece.carries, up)}))
    assert find(found.checks, "uplift").verdict == "refer"


def test_a_pocket_refers() -> None:
    pocket = {"top": "2 in", "height": "1 in", "depth": "1/2 in"}
    found = body(loaded({**SLENDER, "pocket": pocket}))
    assert find(found.checks, "corners of the pocket").verdict == "refer"


@pytest.mark.parametrize("knots", ["in the throat", "not looked at", None])
def test_knots_refer(knots: str | None) -> None:
    assert find(body(loaded({**SLENDER, "grain": None}, knots=knots)).checks, "knots").verdict == "refer"


def test_an_inward_corner_refers() -> None:
    points = [{"x": "3 in", "y": "5 1/2 in"}, {"x": "4 in", "y": "3 in"}, {"x": "12 in", "y": "2 in"}]
    found = body(loaded({**SLENDER, "soffit": "points", "points": points}))
    check = find(found.checks, "inward corner")
    assert check.verdict == "refer" and "4 in out, 3 in down" in check.notes[0]


def test_loads_of_two_kinds_in_one_place_bear_together() -> None:
    """40 lb dead and 60 lb live on 1 in of a 3 1/2 in thick top edge: 100/3.5 = 28.6 psi (statics)."""
    piece = loaded(SLENDER)
    both = Load.model_validate(
        {"what": "lamp", "dead": "40 lb", "live": "60 lb", "at": "11 in", "bearing": "1 in", "applied": "top"}
    )
    check = find(body(piece.model_copy(update={"carries": (both,)})).checks, "bearing of lamp")
    assert check.demand == pytest.approx(100.0 / 3.5)


def test_the_nose_sinks_more_than_the_place_of_the_load() -> None:
    """On anchors it turns about its foot: a load halfway out sinks by half of what the nose does (rigid body)."""
    piece = loaded(SLENDER, fixings=fixings(rows=[row("2 in"), row("4 in")]))
    piece = piece.model_copy(update={"carries": (piece.carries[0].model_copy(update={"at": 6.0}),)})
    context = structure()
    assert isinstance(piece.shape, Solid)
    model = model_of(piece.shape, piece.fixings, context.stock("wood"), wood(context), grain=0.0)
    presses = [Press(5.5, 6.5, 20.0)]
    under = max(
        20.0 / solve_field(model.outline, 3.5, one.elastic, one.backing, presses, across=6).stiffness
        for one in model.variants
    )
    demand = find(body(piece).checks, "sinking of the nose").demand
    assert demand is not None and 1.6 * under * 1.2 < demand < 1.6 * under * 2.2


def test_thicker_is_never_worse_and_more_load_never_better() -> None:
    one = body(loaded(SLENDER))
    thick, heavy = body(loaded({**SLENDER, "thickness": "5 in"})), body(loaded(SLENDER, "30 lb"))
    for what in ("stresses along the grain", "sinking of the nose"):
        assert ratio(thick, what) <= ratio(one, what) <= ratio(heavy, what)
    # without own weight stress goes with load over thickness exactly (linear elasticity)
    assert ratio(one) / ratio(thick) == pytest.approx(5.0 / 3.5, rel=1e-6)
    assert ratio(heavy) / ratio(one) == pytest.approx(1.5, rel=1e-6)


def test_grain_turned_half_round_is_the_same() -> None:
    """A direction of grain has no sense: 0 and nearly 180 deg are one."""
    level, turned = body(loaded(SLENDER)), body(loaded({**SLENDER, "grain": "179.999999 deg"}))
    assert ratio(turned) == pytest.approx(ratio(level), rel=1e-4)
    assert turned.weak_grain == level.weak_grain == ""


FRONT: Data = {
    "fastener": {"kind": "lag screw", "size": "1/2 in", "length": "12 in", "washer": "1 3/4 in"}, "through": "9.2 in",
    "rows": [
        {"below_top": "2 1/2 in", "count": 1, "through": "9.2 in", "length": "12 in"},
        {"below_top": "10 in", "count": 1, "through": "5.6 in", "length": "9 in"},
    ],
}  # fmt: skip
STRUT: Data = {**SOLID, "height": "14 in", "foot": "4 in", "nose": "4 in", "grain": "59 deg"}


def test_a_bracket_with_its_grain_from_foot_to_nose_and_heads_in_front_carries() -> None:
    """Reference, section 7 (derived): some 0.45 of the sum of the lateral values, here 2 x 158 lb in end grain."""
    found = body(loaded(STRUT, "100 lb", fixings=fixings(**FRONT)))
    check = find(found.checks, "split test")
    assert check.verdict == "passes" and check.capacity == pytest.approx(0.45 * 316.0, rel=0.15)
    open = [what for what, verdict in verdicts(found).items() if verdict != "passes"]
    assert not found.weak_grain and open == ["cut from one piece"]  # a 4x6 is 5 1/2 in wide, the bracket 10 1/2 in


def test_the_same_with_its_grain_level_or_heads_deep_does_not() -> None:
    deep = fixings(fastener={**FRONT["fastener"], "length": "5 in"}, through="2 in",
                   rows=[row("2 1/2 in"), row("10 in")])  # fmt: skip
    level = find(body(loaded({**STRUT, "grain": "level"}, "200 lb", fixings=fixings(**FRONT))).checks, "split test")
    inside = find(body(loaded({**STRUT, "grain": "upright"}, "100 lb", fixings=deep)).checks, "split test")
    assert level.verdict == inside.verdict == "fails"


def test_fixings_that_are_not_described_refer() -> None:
    found = body(loaded(SLENDER))
    assert find(found.checks, "split test").verdict == "refer" and not found.weak_grain


@pytest.mark.parametrize(("moisture", "asked"), [("dry", False), ("green", True)])
def test_wood_that_still_dries_refers(moisture: str, asked: bool) -> None:
    found = body(loaded(STRUT, "100 lb", fixings=fixings(**FRONT, seasoned=moisture)))
    assert any(check.what == "dry wood" for check in found.checks) is asked
