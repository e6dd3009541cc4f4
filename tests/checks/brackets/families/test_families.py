"""Bodies of brackets: brace, steel bar, corbel, bent arc against statics typed here and the reference's rows."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.checks.brackets.body import Body
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.core.context import Context
from beamcheck.model.brackets.bracket import Bent, Bracket

from ...anchors.anchors import said, step, stock
from ..brackets import BENT, BRACED, CORBEL, STRAP, Data, bracket, find, fixings, loads_of, structure, wood

FORCES = st.floats(min_value=5.0, max_value=400.0)
SHAPES = {"braced": BRACED, "steel core": STRAP, "corbel": CORBEL, "bent": BENT}


def body(
    shape: Data, load: str | None = "100 lb", at: str = "3 in", context: Context | None = None, **more: Any
) -> Body:
    here = context or structure()
    piece: Bracket = bracket(shape, load, at, **more)
    return family_of(piece).body(loads_of(piece, here), wood(here), here)


def stiffness(shape: Data) -> tuple[float, float]:
    """Least and largest, lbf/in."""
    return family_of(bracket(shape)).stiffness(structure().stock("wood"))


def worst(made: Body) -> float:
    return max((check.ratio for check in made.checks if check.ratio is not None), default=math.nan)


def ratio(made: Body, what: str) -> float:
    found = find(made.checks, what).ratio
    assert found is not None
    return found


# ---- brace ------------------------------------------------------------------------------------------------------


def test_force_in_the_brace_k1() -> None:
    """Row K1 (derived): 100 lb at 15 in over a brace at 15 in and 45 deg gives 141.421 lb; its level part is 100 lb."""
    made = body(BRACED, "100 lb", "15 in")
    brace = find(made.checks, "brace")
    assert step(brace, "N_b") == pytest.approx(141.421, abs=0.001)
    assert step(brace, "f_c") == pytest.approx(141.421 / 6.25, abs=0.01)
    assert step(brace, "e_1") == pytest.approx(0.5)  # a fifth of 2 1/2 in
    assert "100 lb" in "".join(find(made.checks, "joint of the legs").notes)


def test_a_bowed_brace_k4() -> None:
    """Row K4 (derived): bow of 1 1/2 in, N/A + 6 N s/(t d^2) = 104.086 psi; the grain runs out at its ends."""
    made = body({**BRACED, "sagitta": "1 1/2 in", "joints": "butted", "housing": None, "behind_housing": None,
                 "true_pins": True}, "100 lb", "15 in")  # fmt: skip
    brace = find(made.checks, "brace")
    N, e = step(brace, "N_b"), step(brace, "e_1")
    assert N / 6.25 * (1.0 + 6.0 * e / 2.5) == pytest.approx(104.086, abs=0.001)
    length = math.hypot(12.5, 12.5)
    angle = math.degrees(2.0 * math.atan(2.0 * 1.5 / length))
    assert find(made.checks, "grain of the curved brace").demand == pytest.approx(angle)
    assert find(made.checks, "grain of the curved brace").verdict == "refer"


def test_load_beyond_the_brace_turns_about_the_wall_leg() -> None:
    """Moments about the face of the wall leg: N sin 45 (15 - 2.5) = F (18 - 2.5); the joint of the legs is lifted."""
    made = body(BRACED, "100 lb", "18 in")
    N = 100.0 * (18.0 - 2.5) / (12.5 * math.sin(math.radians(45.0)))
    assert step(find(made.checks, "brace"), "N_b") == pytest.approx(N)
    assert "upwards" in "".join(find(made.checks, "joint of the legs").notes)


def test_top_leg_with_its_tie() -> None:
    """100 lb at the very nose: M = 100 x (18 - 15) over the brace; net of the housing 2 1/2 x 2 in."""
    leg = find(body(BRACED, "100 lb", "18 in").checks, "top leg")
    assert step(leg, "M") == pytest.approx(300.0)
    assert step(leg, "f_b") == pytest.approx(300.0 / (2.5 * 2.0**2 / 6.0))


def test_pull_is_taken_where_the_brace_ends() -> None:
    """The brace presses on the wall 15 in down, not at the foot 18 in down: T (15 - 3) = 100 x 15."""
    made = body(BRACED, "100 lb", "15 in", fixings=fixings())
    assert made.pull is not None
    assert float(made.pull.max()) == pytest.approx(100.0 * 15.0 / 12.0)


def test_housing_bears_and_shears() -> None:
    """H = 100 lb on 2 1/2 x 1/2 in: 80 psi; behind it 1 in counts, 1.5 H/(2 1/2 x 1) = 60 psi."""
    made = body(BRACED, "100 lb", "15 in")
    assert find(made.checks, "housing in the top leg").demand == pytest.approx(80.0)
    assert find(made.checks, "wood behind the housing in the top leg").demand == pytest.approx(60.0)


def test_wood_behind_a_housing_is_never_more_than_there_is() -> None:
    """18 - 15 - 2.5/(2 sin 45) = 1.232 in to the end of the leg, whatever is stated."""
    made = body({**BRACED, "behind_housing": "6 in"}, "100 lb", "15 in")
    f = find(made.checks, "wood behind the housing in the top leg").demand
    assert f == pytest.approx(1.5 * 100.0 / (2.5 * (3.0 - 1.25 / math.sin(math.radians(45.0)))))


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"joints": None, "housing": None, "behind_housing": None}, "`shape.joints`"),
        ({"joints": "butted", "housing": None, "behind_housing": None}, "`end_screws`"),
        ({"behind_housing": None}, "`behind_housing`"),
        ({"legs_joint": None}, "`legs_joint`"),
        ({"legs_joint": None, "legs_joined": "pegged"}, "which is no value"),
    ],
)
def test_a_brace_without_evidence_refers(change: Data, words: str) -> None:
    assert words in said(body({**BRACED, **change}, "50 lb", "15 in").checks, "refer")


def test_glued_joints_are_not_relied_on() -> None:
    made = body({**BRACED, "joints": "glued only", "housing": None, "behind_housing": None}, "5 lb", "15 in")
    assert "only glued" in made.weak_grain


# ---- steel bar --------------------------------------------------------------------------------------------------


def test_strap_st1() -> None:
    """Row ST1 (derived): 50 lb at 8 in on 1/4 x 1 1/2 in, 3 in down: 25,600 psi; 0.320147 in with constant moment."""
    made = body(STRAP, "50 lb", "8 in", deflects="1/2 in")
    elastic = find(made.checks, "elastic bending stress")
    assert elastic.demand == pytest.approx(25600.0)
    assert elastic.verdict == "fails"  # 0.6 x 36,000 = 21,600 psi
    sunk = find(made.checks, "sinking of the nose").demand
    assert sunk == pytest.approx(0.320147, rel=1e-5)
    low, high = stiffness(STRAP)
    assert 50.0 / low == pytest.approx(0.320147, rel=1e-5)
    assert 50.0 / high == pytest.approx(0.207154, rel=1e-5)


def test_holes_side_by_side_are_all_deducted() -> None:
    """Two 3/8 in lags beside each other: 2 x (3/8 + 1/16 + 1/16) of 1 1/2 in; S = 0.5 x 0.25^2/6."""
    rows = [{"below_top": "1 in", "count": 2, "apart": "3/4 in"}]
    made = body(STRAP, "5 lb", "8 in", fixings=fixings(rows=rows))
    assert find(made.checks, "elastic bending").demand == pytest.approx(5.0 * 8.0 / (0.5 * 0.25**2 / 6.0))


def test_upright_leg_below_a_short_gusset_is_not_forgotten() -> None:
    """A gusset 2 in deep on a leg of 6 in: with rows at 1 and 6 in, (6 - 2)/(6 - 1) of the moment is left below it."""
    gusset = {"gusset_depth": "2 in", "gusset_thickness": "1/4 in", "gusset_edge": "2.83 in", "weld": "3/16 in"}
    rows = [{"below_top": "1 in", "count": 1}, {"below_top": "6 in", "count": 1}]
    made = body({**STRAP, "down": "6 in", **gusset}, "50 lb", "8 in", fixings=fixings(rows=rows))
    below = find(made.checks, "bending of the upright leg below the gusset")
    assert below.demand == pytest.approx(0.8 * 50.0 * 8.0)
    assert stiffness({**STRAP, "down": "6 in", **gusset})[1] == math.inf
    full = body({**STRAP, "down": "6 in", **gusset}, "50 lb", "8 in")
    assert find(full.checks, "bending of the upright leg").demand == pytest.approx(50.0 * 8.0)


@pytest.mark.parametrize(
    ("change", "words"),
    [({"gusset_depth": "3 in", "gusset_thickness": "1/4 in"}, "`gusset_edge`"),
     ({"skin": "oak, 5/8 in"}, "`tip_clear`"), ({}, "`deflects`")],
)  # fmt: skip
def test_a_bar_without_evidence_refers(change: Data, words: str) -> None:
    assert words in said(body({**STRAP, **change}, "5 lb", "3 in").checks, "refer")


# ---- corbel -----------------------------------------------------------------------------------------------------


def test_corbel_by_hand() -> None:
    """300 lb at 2 in on 3 1/2 x 9 in: 1.5 V/A."""
    made = body(CORBEL, "300 lb", "2 in")
    assert find(made.checks, "shear of the block").demand == pytest.approx(1.5 * 300.0 / 31.5)


def test_a_corbel_whose_load_lies_beyond_its_heads_carries_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Upright grain: a check between heads and load drops the part outside (reference 1.5; statics), whatever its
    stress field would say."""
    monkeypatch.setattr("beamcheck.checks.brackets.families.solid.SolidBracket.read_field", lambda *given: None)
    inside = body(CORBEL, "40 lb", "1 in", fixings=fixings(through="3 in"), knots="none in the throat")
    beyond = body(CORBEL, "40 lb", "3 in", fixings=fixings(through="2 in"), knots="none in the throat")
    assert not inside.weak_grain and find(inside.checks, "split test").verdict == "passes"
    assert "bring a head" in beyond.weak_grain and find(beyond.checks, "split test").verdict == "fails"


def test_grain_of_a_corbel() -> None:
    assert "`shape.grain`" in said(body({**CORBEL, "grain": None}, "5 lb", "2 in").checks, "refer")


def test_a_dap_by_hand() -> None:
    """200 lb on 3 1/2 x 3/4 in of end grain; below it 6 in count of 20: 1.5 x 200/(3 1/2 x 6)."""
    made = body({**CORBEL, "seat": "3/4 in", "below_seat": "20 in"}, "200 lb", "2 in", fixings=fixings())
    assert find(made.checks, "foot of the block").demand == pytest.approx(200.0 / (3.5 * 0.75))
    assert find(made.checks, "wood of the post below").demand == pytest.approx(1.5 * 200.0 / (3.5 * 6.0))
    assert find(made.checks, "dap counted in post").verdict == "refer"
    assert made.pull is not None
    assert float(made.pull.max()) == pytest.approx(200.0 * (2.0 + 0.375) / (0.7 * 6.0))


def test_a_block_broader_than_its_post_stands_on_the_post_only() -> None:
    made = body({**CORBEL, "thickness": "5 1/2 in", "seat": "1 in", "below_seat": "9 in"}, "200 lb", "2 in")
    assert find(made.checks, "foot of the block").demand == pytest.approx(200.0 / 3.5)


# ---- bent arc ---------------------------------------------------------------------------------------------------


def test_stress_of_a_quarter_arc_by_hand() -> None:
    """Winkler-Bach (read) at the foot: r_n = h/ln(r_o/r_i), sigma = M (r_n - r_i)/(A e r_i), times 1 + 0.4 h/R."""
    made = body({**BENT, "lamination": "1/32 in"}, "20 lb", "9 in")
    M, r_n, r_m = 20.0 * 9.0, 2.0 / math.log(10.0 / 8.0), 9.0
    sigma = M * (r_n - 8.0) / (3.0 * (r_m - r_n) * 8.0)
    along = find(made.checks, "stress along the arc")
    assert step(along, "f_b") == pytest.approx(sigma * (1.0 + 0.4 * 2.0 / 9.0))
    across = find(made.checks, "pressure across the arc")
    assert across.demand == pytest.approx(3.0 * M / (2.0 * 9.0 * 3.0))


def test_projection_of_an_arc_is_to_its_farthest_point() -> None:
    for sweep, out in ((90.0, 10.0), (60.0, 10.0 - 8.0 * 0.5), (180.0, 20.0)):
        shape = Bent.model_validate({**BENT, "sweep": f"{sweep} deg"})
        assert shape.stands_out == pytest.approx(out)


def test_laminations_lose_strength_by_their_bend() -> None:
    """NDS 5.3.8 (memory): C_c = 1 - 2000 (t/R)^2; 1/16 in round 8 in gives 0.8779."""
    along = find(body(BENT, "20 lb", "9 in").checks, "stress along the arc")
    notes = " ".join(str(one.note) for one in along.steps)
    assert f"C_c = {1.0 - 2000.0 * (0.0625 / 8.0) ** 2:.4g}" in notes


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"made": None, "lamination": None, "glue": ""}, "`made`"),
        ({"made": "steam-bent", "lamination": None, "glue": ""}, "no table has values for steam-bent"),
        ({"glue": ""}, "`glue`"),
        ({"lamination": None}, "`lamination`"),
        ({"lamination": "1/4 in"}, "bent tighter they have no value"),
    ],
)
def test_an_arc_without_evidence_refers(change: Data, words: str) -> None:
    assert words in said(body({**BENT, **change}, "5 lb", "9 in", deflects="1 in").checks, "refer")


def test_a_sawn_arc_is_not_relied_on() -> None:
    sawn = {**BENT, "made": "sawn", "lamination": None, "glue": ""}
    made = body(sawn, "5 lb", "9 in")
    assert "45" in made.weak_grain
    assert stiffness({**BENT, "made": "sawn", "lamination": None, "glue": ""})[0] == 0.0
    flat = body({**sawn, "sweep": "20 deg", "inner_radius": "60 in"}, "500 lb", "2 in")
    assert "across its grain" in flat.weak_grain


def test_stiffness_of_a_quarter_arc() -> None:
    """Castigliano (derived) typed here: 1/k = [S (r/e - 1)/E + 1.2 C/G] r/A with S = C = pi/4."""
    made = stiffness(BENT)
    E, e, A = 1.7e6, 9.0 - 2.0 / math.log(1.25), 3.0
    low, high = (A / (9.0 * math.pi / 4.0 * ((9.0 / e - 1.0) / E + 1.2 / (E * share))) for share in (0.06, 0.09))
    assert low < made[1] < high
    assert 0.0 < made[0] < made[1] / 1.5
    assert stiffness({**BENT, "sweep": "60 deg"}) == (0.0, math.inf)


# ---- all families -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("family", SHAPES)
def test_uplift_refers(family: str) -> None:
    piece: Data = {"carries": [{"what": "gust", "wind": "-300 lb", "at": "3 in"}]}
    assert "lift" in said(body(SHAPES[family], None, **piece).checks, "refer")


@pytest.mark.parametrize("family", SHAPES)
def test_no_load_is_no_crash_and_uses_nothing(family: str) -> None:
    made = body(SHAPES[family], "0.001 lb")
    assert worst(made) < 1.2 or family == "steel core"  # a slenderness has no load in it
    assert made.weak_grain == ""


@pytest.mark.parametrize("family", ["braced", "corbel", "bent"])
def test_wet_wood_is_never_better(family: str) -> None:
    wet = structure(wood=stock("4x6 dressed", moisture="green", measured_moisture=None))
    assert worst(body(SHAPES[family], "50 lb", context=wet)) >= worst(body(SHAPES[family], "50 lb"))


@pytest.mark.parametrize("family", ["braced", "corbel", "bent"])
def test_unknown_wood_does_not_crash(family: str) -> None:
    unknown = structure(wood=stock("4x6 dressed", species="unknown", grade="unstamped", grade_from=None, evidence=""))
    assert worst(body(SHAPES[family], "50 lb", context=unknown)) > 0.0


def loaded(family: str, P: float, at: str) -> float:
    return worst(body(SHAPES[family], f"{P} lb", at))


@pytest.mark.parametrize("family", SHAPES)
@settings(max_examples=5, deadline=None)  # a block has a stress field under each load
@given(P=FORCES)
def test_more_load_never_helps(family: str, P: float) -> None:
    assert loaded(family, 1.1 * P, "3 in") >= loaded(family, P, "3 in") * (1.0 - 1e-9)


@pytest.mark.parametrize("family", ["braced", "corbel", "bent"])
@pytest.mark.parametrize(("thin", "thick"), [("2 1/2 in", "3 in"), ("3 in", "3 1/2 in")])
def test_thicker_is_never_worse(family: str, thin: str, thick: str) -> None:
    ratios = [worst(body({**SHAPES[family], "thickness": t}, "60 lb")) for t in (thin, thick)]
    assert ratios[1] <= ratios[0] * (1.0 + 1e-9)


@pytest.mark.parametrize("family", ["steel core", "bent"])  # a block has the peak of its field under its load
def test_farther_out_is_never_better(family: str) -> None:
    ratios = [loaded(family, 40.0, at) for at in ("1/2 in", "1 in", "2 in", "3 in")]
    assert all(farther >= nearer * (1.0 - 1e-9) for nearer, farther in pairwise(ratios))


def test_a_load_farther_out_never_eases_the_brace() -> None:
    ratios = [ratio(body(BRACED, "60 lb", f"{x} in"), "brace") for x in (2.0, 2.6, 5.0, 14.0, 16.0, 18.0)]
    assert ratios == sorted(ratios)
