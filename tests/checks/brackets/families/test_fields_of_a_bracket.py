"""What a solid bracket hands to its stress fields and takes from them: wood, anchors, loads, pull, sinking; by hand."""

from __future__ import annotations

import math
from itertools import pairwise
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.analysis.fields.field import Backing, Elastic, Press, Spring, Void
from beamcheck.analysis.fields.outline import outline_of
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.families.solid import _nose, _nose_sinks, _one_in
from beamcheck.checks.brackets.families.solid_field import FieldRuns, model_of, pull_per_moment
from beamcheck.checks.brackets.loads import bracket_loads
from beamcheck.model.brackets.bracket import Solid

from ...anchors.anchors import stock
from ..brackets import LAG, SOLID, Data, bracket, fixings, loads_of, structure, wood
from ..by_hand import E

DOUGLAS = (0.050, 0.068, 0.064, 0.078, 0.292, 0.449)  # E_T, E_R, G_LR, G_LT, nu_LR, nu_LT: Wood Handbook 5-1, 5-2
LARCH = (0.065, 0.079, 0.063, 0.069, 0.355, 0.276)


def model(shape: Data | None = None, held: Data | None = None, grain: float = 30.0) -> Any:
    here = structure()
    piece = bracket({**SOLID, **(shape or {})}, fixings=held) if held else bracket({**SOLID, **(shape or {})})
    assert isinstance(piece.shape, Solid)
    return model_of(piece.shape, piece.fixings, here.stock("wood"), wood(here), grain=grain)


def test_the_softest_and_the_stiffest_wood_that_it_may_be() -> None:
    """Of the two species of Douglas Fir-Larch the one softer across the grain, rings flat, and the stiffer, upright."""
    soft, stiff = model().variants
    assert soft.elastic == Elastic(E, E * DOUGLAS[0], E * DOUGLAS[3], DOUGLAS[5], 30.0)
    assert stiff.elastic == Elastic(E, E * LARCH[1], E * LARCH[2], LARCH[4], 30.0)
    assert soft.words == "Douglas-fir, rings flat; wall face held everywhere, since the fixings are not described"
    assert {one.backing.kind for one in (soft, stiff)} == {"bonded"}


ROWS: list[Data] = [
    {"below_top": "3 in", "count": 2, "apart": "1 in"},
    {"below_top": "7 in", "count": 1, "slot": "1 in"},
]


@pytest.mark.parametrize(
    ("fastener", "D"),
    [(LAG, 0.375), ({"kind": "wood screw", "size": "No. 10", "length": "3 in"}, 0.25), (None, 0.25),
     ({**LAG, "size": "1 in", "length": "8 in"}, 1.0)],
)  # fmt: skip
def test_anchors_and_walls_at_both_ends(fastener: Data | None, D: float) -> None:
    """10,000 and 50,000 lb/in a screw (practice); sideways 180,000 D^1.5 (NDS 2018 11.3.6), of what is thinner than
    1/4 in as of that; in slots nothing. Wood of 23,000 and stone of 1e7 psi/in."""
    variants = model(held=fixings(fastener=fastener, rows=ROWS)).variants
    k = 180000.0 * D**1.5
    backings = [
        Backing("springs", (Spring(3.0, 2.0 * k_a, pytest.approx(2.0 * k)), Spring(7.0, k_a, 1.0)), wall)
        for k_a, wall in ((1e4, 23000.0), (5e4, 1e7))
    ]
    assert [one.backing for one in variants] == backings * 2


@pytest.mark.parametrize(("width", "left"), [("2 in", 1.5), (None, 0.0), ("3 1/2 in", 0.0)])
def test_what_a_pocket_leaves_of_the_thickness(width: str | None, left: float) -> None:
    pocket = {"top": "4 in", "height": "2 in", "depth": "1 in"} | ({"width": width} if width else {})
    assert model({"pocket": pocket}).voids == (Void(4.0, 2.0, 1.0, left),)
    assert model().voids == ()


def runs(*loads: Applied, weight: float = 6.0, held: Data | None = None) -> FieldRuns:
    made = bracket_loads(bracket(SOLID), structure(), [(0.0, 10.0, weight)] if weight else [], more=loads)
    return FieldRuns("K", model(held=held), made)


def test_its_own_weight_lies_evenly_along_the_top_edge() -> None:
    shelf = Applied("L", 5.0, 5.0, P=60.0, bearing=2.0)
    for weight, own in ((6.0, [Press(0.0, 10.0, pytest.approx(6.0))]), (0.0, [])):
        found = runs(shelf, weight=weight)
        assert found.presses(int(np.argmax(found.loads.F))) == [Press(4.0, 6.0, 60.0), *own]


def test_pull_on_the_top_row_for_each_inch_pound_of_moment() -> None:
    """The largest over variants and combinations; what lifts, or has no moment, pulls on nothing."""
    rows = [{"below_top": "3 in", "count": 1}, {"below_top": "7 in", "count": 1}]
    made = model(held=fixings(rows=rows))
    pulls = {(v, c): [10.0 * (v + 1) * (c + 1), 1000.0] for v in range(4) for c in range(4)}
    many: Any = SimpleNamespace(
        model=made, loads=SimpleNamespace(M_wall=np.array([100.0, 50.0, -80.0, 0.0])),
        coarse=lambda v, c: SimpleNamespace(pulls=pulls[v, c]),
    )  # fmt: skip
    assert pull_per_moment(many, [0, 1, 2, 3]) == pytest.approx(80.0 / 50.0)
    assert pull_per_moment(many, [0]) == pytest.approx(40.0 / 100.0)
    assert pull_per_moment(many, [2]) == 0.0
    small: Any = SimpleNamespace(model=made, loads=SimpleNamespace(M_wall=np.array([0.5])), coarse=many.coarse)
    assert pull_per_moment(small, [0]) == pytest.approx(40.0 / 0.5)
    bonded: Any = SimpleNamespace(model=model(), loads=many.loads, coarse=many.coarse)
    assert pull_per_moment(bonded, [0]) == 0.0


def deformed(nose: float, stiffness: float, *forces: float) -> Any:
    """The upper corner of the nose, (10, 0), comes down so far; 1 in beside it and at the foot ten times as much."""
    nodes = np.array([(0.0, 12.0), (9.0, 0.0), (10.0, 0.0), (10.0, 1.0)])
    down = np.array([(0.0, 10.0 * nose), (5.0, 10.0 * nose), (5.0, nose), (5.0, 10.0 * nose)])
    return SimpleNamespace(
        mesh=SimpleNamespace(nodes=nodes), outline=SimpleNamespace(P=10.0), solution=SimpleNamespace(moves=down),
        presses=[SimpleNamespace(force=one) for one in forces], stiffness=stiffness,
    )  # fmt: skip


def test_how_far_a_nose_sinks_or_the_loads_on_it() -> None:
    assert _nose_sinks(deformed(0.02, 1000.0, 15.0, 5.0)) == pytest.approx(0.02)
    assert _nose_sinks(deformed(0.01, 1000.0, 15.0, 5.0)) == pytest.approx(20.0 / 1000.0)
    assert _nose_sinks(deformed(-0.01, 1000.0, 5.0, -15.0)) == 0.0


def test_the_softest_variant_sinks_most_and_counts_with_the_divisor() -> None:
    """1.6 times what the field says (judgment: stiffness by section rules over it)."""
    piece = bracket(
        SOLID, carries=[{"what": "shelf", "live": "20 lb", "dead": "5 lb", "at": "4 in"}], deflects="1/16 in"
    )
    loads = loads_of(piece, structure())
    which = list(range(len(loads.combinations)))
    sunk = {(v, c): 0.001 * (3 - v) * (1 + c) for v in range(2) for c in which}
    many: Any = SimpleNamespace(
        model=SimpleNamespace(variants=(0, 1)), loads=loads, coarse=lambda v, c: deformed(sunk[v, c], 1e9, 1.0)
    )
    (check,) = _nose(piece, many, which)
    assert (check.demand, check.capacity) == pytest.approx((1.6 * 0.003 * len(which), 0.0625))
    assert check.combination == loads.combinations[-1].name
    (asked,) = _nose(piece.model_copy(update={"deflects": None}), many, which)
    assert asked.verdict == "refer"


@pytest.mark.parametrize(
    ("residual", "words"), [(1e-6, "a millionth"), (1.1e-6, "0.00011 percent"), (0.02, "2 percent")]
)
def test_how_well_forces_balance_in_words(residual: float, words: str) -> None:
    assert _one_in(residual) == words


@pytest.mark.parametrize("shape", [SOLID, {**SOLID, "soffit": "concave"}, {**SOLID, "soffit": "convex"}])
def test_own_weight_is_that_of_its_outline_and_lies_where_it_is_deep(shape: Data) -> None:
    """Twelve strips along the top edge; straight: 3 x 12 + 7 (12 + 3)/2 = 88.5 in2, deeper at the wall."""
    piece = bracket(shape)
    strips = family_of(piece).weight(0.02)
    assert isinstance(piece.shape, Solid)
    area = outline_of(piece.shape).area
    assert shape is not SOLID or area == pytest.approx(88.5)
    assert sum(weight for _, _, weight in strips) == pytest.approx(0.02 * 3.5 * area)
    edges = [10.0 * i / 12.0 for i in range(13)]
    assert [one[:2] for one in strips] == [pytest.approx(pair) for pair in pairwise(edges)]
    heavy = [weight for _, _, weight in strips]
    assert heavy == sorted(heavy, reverse=True) and heavy[0] > heavy[-1]
    if shape is SOLID:
        x = 10.0 * 10.5 / 12.0  # the middle of the last but one: 3 + 9 (10 - x)/7 deep
        assert heavy[10] / heavy[0] == pytest.approx((3.0 + 9.0 * (10.0 - x) / 7.0) / 12.0)


def test_a_stiffness_has_no_upper_bound_in_wood_that_nobody_knows(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("beamcheck.checks.brackets.families.solid._stiffness", lambda *given: (500.0, 9000.0))
    family, unknown = family_of(bracket(SOLID)), stock("4x6 dressed", species="unknown", grade="unstamped",
                                                       grade_from=None, evidence="")  # fmt: skip
    assert family.stiffness(stock("4x6 dressed")) == (500.0, 9000.0)
    assert family.stiffness(unknown) == (500.0, math.inf)


def test_what_is_said_of_its_shape() -> None:
    pocket = {"top": "4 in", "height": "2 in", "depth": "1 in"}
    said = dict(family_of(bracket({**SOLID, "pocket": pocket})).inputs())
    assert said["pocket"] == "2 in high, 1 in deep, from 4 in below the top" and "soffit points" not in said
    view = family_of(bracket({**SOLID, "pocket": pocket})).side_view()
    assert view.voids == [("pocket", ((0.0, 4.0), (1.0, 4.0), (1.0, 6.0), (0.0, 6.0)))]
    assert view.dimensions == [("x", 0.0, 3.0, "foot"), ("y", 0.0, 3.0, "nose")]
    assert family_of(bracket(SOLID)).side_view().voids == []


@pytest.mark.parametrize(("F", "M", "lifts"), [([5.0, 1.0], [9.0, 2.0], False), ([5.0, -1.0], [9.0, 2.0], True),
                                               ([5.0, 1.0], [9.0, -2.0], True), ([0.0], [0.0], False)])  # fmt: skip
def test_corners_and_what_lifts_are_for_an_engineer(F: list[float], M: list[float], lifts: bool) -> None:
    family: Any = family_of(bracket(SOLID))
    loads: Any = SimpleNamespace(F=np.array(F), M_wall=np.array(M), most={"down": 5.0})
    plain = SimpleNamespace(outline=SimpleNamespace(re_entrant=()), voids=())
    found = [check.id for check in family._corners(plain, loads)]
    assert found == (["bracket.uplift"] if lifts else [])
    soffit = np.array([(0.0, 12.0), (4.0, 3.0), (10.0, 3.0)])
    cornered = SimpleNamespace(outline=SimpleNamespace(re_entrant=(1,), soffit=soffit), voids=(1,))
    said = list(family._corners(cornered, loads))
    assert [check.what for check in said][:2] == ["inward corner", "corners of the pocket"]
    assert "4 in out, 3 in down" in said[0].notes[0] and all(check.verdict == "refer" for check in said)


def test_beyond_its_nose_there_is_no_wood() -> None:
    family = family_of(bracket(SOLID))
    assert list(family.depths_below(np.array([1.0, 6.5, 9.99, 10.0, 11.0]))) == pytest.approx(
        [12.0, 7.5, 3.0 + 9.0 * 0.01 / 7.0, 0.0, 0.0], abs=1e-6)  # fmt: skip


@pytest.mark.parametrize(("grain", "along"), [(75.0, True), (105.0, True), (74.9, False), (105.1, False), (0.0, False)])
def test_grain_within_fifteen_degrees_runs_along_the_wall(grain: float, along: bool) -> None:
    assert family_of(bracket({**SOLID, "grain": f"{grain} deg"})).upright_at_wall is along
    assert family_of(bracket({**SOLID, "grain": None})).upright_at_wall is None


@pytest.mark.parametrize(
    ("grain", "held", "swells"),
    [("upright", True, 0.0), ("level", True, 3.0), ("60 deg", True, 0.75), (None, True, 3.0), ("level", False, 12.0)],
)
def test_wood_that_swells_lies_across_the_grain_above_the_upper_row(
    grain: str | None, held: bool, swells: float
) -> None:
    piece = bracket({**SOLID, "grain": grain}, **({"fixings": fixings()} if held else {}))
    assert family_of(piece).swells == pytest.approx(swells)


def test_of_grain_that_nobody_says_the_softest_and_the_stiffest_count(monkeypatch: pytest.MonkeyPatch) -> None:
    """Level, 45 degrees to either side and upright are tried; of grain that is said only that."""
    seen: list[float] = []

    def bounds(made: Any) -> tuple[float, float]:
        grain = float(made.variants[0].elastic.grain)
        seen.append(grain)
        return {0.0: (30.0, 90.0), 45.0: (20.0, 70.0), 90.0: (40.0, 50.0), 135.0: (35.0, 60.0)}[grain]

    monkeypatch.setattr("beamcheck.checks.brackets.families.solid.nose_stiffness", bounds)
    monkeypatch.setattr("beamcheck.checks.brackets.families.solid._KNOWN", {})
    wood_here = stock("4x6 dressed")
    assert family_of(bracket({**SOLID, "grain": None})).stiffness(wood_here) == (20.0, 90.0)
    assert seen == [0.0, 45.0, 90.0, 135.0]
    assert family_of(bracket({**SOLID, "grain": "45 deg"})).stiffness(wood_here) == (20.0, 70.0)


def test_what_each_direction_of_the_grain_would_mean(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where nothing is said of why it is weak, what the split test says; no load where none was worked out."""
    said = {
        0.0: (50.0, "", ("row 1", "row 2")), 45.0: (math.nan, "", ("not described",)), 90.0: (0.0, "weak", ("unsaid",)),
        135.0: (math.inf, "", ("held",)),
    }  # fmt: skip
    seen = []

    def split(family: Any, *given: Any) -> Any:
        seen.append((family.shape.grain, given[-1]))
        allowed, weak, notes = said[given[-1]]
        return SimpleNamespace(allowed=allowed, weak=weak, checks=[SimpleNamespace(notes=notes), None])

    monkeypatch.setattr("beamcheck.checks.brackets.families.solid.split_checks", split)
    here, piece = structure(), bracket({**SOLID, "grain": None}, "20 lb", "4 in")
    family: Any = family_of(piece)
    table = family._spread(loads_of(piece, here), wood(here), here)
    assert seen == [(grain, grain) for grain in said]
    assert table.rows == (
        ("0 deg", "50 lb", "row 1; row 2"), ("45 deg", "–", "not described"), ("90 deg", "0 lb", "weak"),
        ("135 deg", "–", "held"),
    )  # fmt: skip
