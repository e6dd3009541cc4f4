"""Every figure of a bent arc from statics, curved-bar theory and the NDS. 1 1/2 in thick, 2 in deep, round 8 in."""

from __future__ import annotations

import math
from typing import Any, NamedTuple

import pytest

from beamcheck.checks.brackets.body import Body
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.core.result import Check

from ...anchors.anchors import stock
from ..brackets import BENT, Data, bracket, find, fixings, loads_of, structure, wood
from ..by_hand import F_PERP, F_T, F_V, E, bending, buckling, column

SAWN: Data = {**BENT, "made": "sawn", "lamination": None, "glue": ""}
T, D, R_I = 1.5, 2.0, 8.0
R_O, R_M, A = R_I + D, R_I + D / 2.0, T * D
R_N = D / math.log(R_O / R_I)
E_C = R_M - R_N
FOLLOWS = 1.0 + 0.4 * D / R_M


class Forces(NamedTuple):
    """The largest of all sections, without signs: lbf in and lbf; V is the load."""

    M: float
    press: float
    pull: float
    V: float


def body(shape: Data, *carries: Data, **more: Any) -> Body:
    here = structure()
    piece = bracket(shape, carries=list(carries), **more)
    return family_of(piece).body(loads_of(piece, here), wood(here), here)


def shelf(live: str, at: str, **more: Any) -> Data:
    return {"what": "shelf", "live": live, "at": at, **more}


def winkler(M: float) -> float:
    """Stress along the hollow side, psi."""
    return M * (R_N - R_I) / (A * E_C * R_I)


def values(sweep: float, C_D: float) -> tuple[float, float, float, float]:
    """F_b' without C_c, F_c', F_cE1, F_t' of the arc as a bar of its length, held at its foot only."""
    length = math.radians(sweep) * R_M
    free = 2.1 * length
    return bending(T, D, length, C_D), column(T, D, free, C_D), buckling(free, D), F_T * C_D


def along(f: Forces, sweep: float, C_D: float, k: float, C_c: float) -> float:
    """NDS eq. 3.9-3, or 3.9-1 where some section is pulled."""
    F_b, F_c, F_cE1, F_t = values(sweep, C_D)
    f_b, f_c = k * winkler(f.M), f.press / A
    bent = (f_c / F_c) ** 2 + f_b / (F_b * C_c * (1.0 - f_c / F_cE1))
    return max(bent, f.pull / A / F_t + f_b / (F_b * C_c)) if f.pull else bent


# a load at x: at the foot its whole moment and force; beyond 90 deg it pulls, most at the last of sections 5 deg apart
# that it stands beyond (18 in out: at 150 deg, 10 - 9 cos 150 = 17.79 in)
CASES = [
    (BENT, 90.0, shelf("20 lb", "9 in"), Forces(180.0, 20.0, 0.0, 20.0), 1.0),
    (BENT, 90.0, shelf("0.1 lb", "9 in"), Forces(0.9, 0.1, 0.0, 0.1), 1.0),
    (BENT, 90.0, {"what": "clock", "dead": "20 lb", "at": "8 in"}, Forces(160.0, 20.0, 0.0, 20.0), 0.9),
    ({**BENT, "sweep": "60 deg"}, 60.0, shelf("40 lb", "4 in"), Forces(160.0, 40.0, 0.0, 40.0), 1.0),
    ({**BENT, "sweep": "180 deg"}, 180.0, shelf("15 lb", "18 in"),
     Forces(270.0, 15.0, 15.0 * math.cos(math.radians(30.0)), 15.0), 1.0),
]  # fmt: skip


@pytest.mark.parametrize(("shape", "sweep", "load", "f", "C_D"), CASES)
@pytest.mark.parametrize("sawn", [False, True])
def test_every_figure(shape: Data, sweep: float, load: Data, f: Forces, C_D: float, sawn: bool) -> None:
    k = 1.6 if sawn else FOLLOWS  # judgment: straight grain in a curved edge
    C_c = 1.0 if sawn else 1.0 - 2000.0 * (0.0625 / 8.0) ** 2  # NDS 5.3.8
    made = body({**SAWN, "sweep": f"{sweep} deg"} if sawn else shape, load)
    figures = {
        "stress along the arc": (along(f, sweep, C_D, k, C_c), 1.0),
        "arc with a check along it": (along(f, sweep, C_D, 2.0 * k, C_c), 1.0),
        "pressure across the arc": (3.0 * f.M / (2.0 * R_M * A), F_PERP),
        "shear of the arc": (1.5 * f.V / A, F_V * C_D),
    }
    for what, (demand, capacity) in figures.items():
        check = find(made.checks, what)
        assert (check.demand, check.capacity) == pytest.approx((demand, capacity)), what
        assert check.ratio == pytest.approx(demand / capacity), what
    assert not [check for check in made.checks if check.what == "tension across the arc"]


def test_what_lifts_opens_it() -> None:
    """25 lb of gust up at 9 in: 225 lbf in open it: 225 x 3/(2 x 9 x 3) = 12.5 psi across, of 15 (5.2.8); it pulls."""
    made = body(BENT, {"what": "gust", "wind": "-25 lb", "at": "9 in"})
    across, pressed = find(made.checks, "tension across the arc"), find(made.checks, "pressure across the arc")
    down = 0.6 * 225.0  # ASCE 7-16 2.4.1: D + 0.6 W, of which nothing presses
    assert (across.demand, across.capacity) == pytest.approx((3.0 * down / (2.0 * R_M * A), 15.0))
    assert pressed.demand == pytest.approx(0.0)
    f, C_c = Forces(down, 0.0, 15.0, 15.0), 1.0 - 2000.0 * (0.0625 / 8.0) ** 2
    assert find(made.checks, "stress along the arc").ratio == pytest.approx(along(f, 90.0, 1.6, FOLLOWS, C_c))
    assert find(made.checks, "shear of the arc").demand == pytest.approx(7.5)


@pytest.mark.parametrize(("moment", "asked"), [(1.001, True), (0.999, False)])
def test_a_moment_that_is_rounding_pulls_on_nothing(moment: float, asked: bool) -> None:
    """Beneath 1 lbf in (judgment) nobody asks about tension across it."""
    gust = {"what": "gust", "wind": f"-{moment / 0.6 / 10.0} lb", "at": "10 in"}
    found = [check.what for check in body(BENT, gust).checks]
    assert ("tension across the arc" in found) is asked


def test_short_grain_of_a_flat_sawn_arc() -> None:
    """Sweep 20 deg: the grain meets the edge at 10. sigma sin^2 10 of 15 psi; Hankinson to the power 3/2 in tension."""
    flat = {**SAWN, "sweep": "20 deg", "inner_radius": "60 in"}
    made = body(flat, shelf("50 lb", "3 in"))
    r_n = 2.0 / math.log(62.0 / 60.0)
    sigma = 1.6 * 150.0 * (r_n - 60.0) / (3.0 * (61.0 - r_n) * 60.0)
    s, c = math.sin(math.radians(10.0)), math.cos(math.radians(10.0))
    across, aslant = find(made.checks, "tension across the grain"), find(made.checks, "tension aslant to the grain")
    assert (across.demand, across.capacity) == pytest.approx((sigma * s**2, 15.0))
    assert (aslant.demand, aslant.capacity) == pytest.approx((sigma, F_T * 15.0 / (F_T * s**1.5 + 15.0 * c**1.5)))
    for check in (across, aslant):
        assert check.ratio == pytest.approx((check.demand or 0.0) / (check.capacity or 0.0))
    assert not made.weak_grain
    assert "across its grain" in body(flat, shelf("150 lb", "3 in")).weak_grain


@pytest.mark.parametrize(("sweep", "weak"), [(30.0, False), (30.2, True)])
def test_grain_steeper_than_fifteen_degrees_at_an_edge_is_short(sweep: float, weak: bool) -> None:
    made = body({**SAWN, "sweep": f"{sweep} deg", "inner_radius": "20 in"}, shelf("0.1 lb", "1 in"))
    assert bool(made.weak_grain) is weak


@pytest.mark.parametrize(
    ("species", "thick", "covered"),
    [("Douglas Fir-Larch", 8.0 / 125.0, True), ("Douglas Fir-Larch", 8.01 / 125.0, False),
     ("Red Oak", 8.0 / 100.0, True), ("Red Oak", 8.01 / 100.0, False)],
)  # fmt: skip
def test_how_tight_a_lamination_may_be_bent(species: str, thick: float, covered: bool) -> None:
    """NDS 5.3.8: t/R at most 1/125 of softwoods and 1/100 of hardwoods."""
    here = structure(wood=stock("4x6 dressed", species=species))
    piece = bracket({**BENT, "lamination": f"{thick:.6f} in"}, "5 lb", "9 in")
    found = family_of(piece).body(loads_of(piece, here), wood(here), here).checks
    assert (not [check for check in found if check.what == "bend of the laminations"]) is covered


def test_even_the_tightest_bend_leaves_a_figure() -> None:
    """C_c = 1 - 2000 (1/4 / 8)^2 is less than nothing: it stays 1/20, and refers."""
    found = find(body({**BENT, "lamination": "1/4 in"}, shelf("5 lb", "9 in")).checks, "stress along the arc")
    assert found.ratio == pytest.approx(along(Forces(45.0, 5.0, 0.0, 5.0), 90.0, 1.0, FOLLOWS, 0.05))


def stiff(share: float) -> float:
    """Castigliano of a quarter arc: 1/k = [pi/4 (r/e - 1)/E + 1.2 pi/4/G] r/A."""
    return A / (R_M * math.pi / 4.0 * ((R_M / E_C - 1.0) / E + 1.2 / (E * share)))


def test_how_far_the_nose_sinks() -> None:
    """P = M/10 of the nose, times K_cr of dry wood 1.5 (NDS 3.5.2), over the lower stiffness: that of the lesser
    G_LT over E_L of Douglas fir and western larch (Wood Handbook Table 5-1: 0.078, 0.069), over 1.6 (judgment)."""
    made = body(BENT, shelf("20 lb", "9 in"), deflects="1/8 in")
    sunk = find(made.checks, "sinking of the nose")
    low, high = family_of(bracket(BENT)).stiffness(stock("4x6 dressed"))
    assert high == pytest.approx(stiff(0.078)) and low == pytest.approx(stiff(0.069) / 1.6)
    assert (sunk.demand, sunk.capacity) == pytest.approx((1.5 * 18.0 / low, 0.125))
    assert sunk.ratio == pytest.approx(1.5 * 18.0 / low / 0.125)
    lifted = body(BENT, {"what": "gust", "wind": "-25 lb", "at": "9 in"}, deflects="1/8 in")
    assert find(lifted.checks, "sinking of the nose").demand == 0.0


def test_who_knows_nothing_of_the_wood_knows_no_stiffness() -> None:
    unknown = stock("4x6 dressed", species="unknown", grade="unstamped", grade_from=None, evidence="")
    bent, sawn = family_of(bracket(BENT)), family_of(bracket(SAWN))
    assert bent.stiffness(None) == (0.0, math.inf)
    assert bent.stiffness(unknown)[1] == math.inf and bent.stiffness(unknown)[0] > 0.0
    assert sawn.stiffness(stock("4x6 dressed")) == pytest.approx((0.0, stiff(0.078)))
    for sweep, known in ((89.4, False), (89.6, True), (90.4, True), (90.6, False)):  # within half a degree of a quarter
        low, _ = family_of(bracket({**BENT, "sweep": f"{sweep} deg"})).stiffness(stock("4x6 dressed"))
        assert (low > 0.0) is known


def test_its_sizes_and_weight() -> None:
    for sweep, high, out in ((90.0, 10.0, 10.0), (60.0, 10.0 * math.sin(math.radians(60.0)), 6.0), (180.0, 10.0, 20.0)):
        arc = family_of(bracket({**BENT, "sweep": f"{sweep} deg"}))
        assert arc.back == pytest.approx(high) and arc.swells == 2.0
        assert arc.depth_at_back == pytest.approx(out)
        ((start, end, weight),) = arc.weight(0.02)
        ring = 0.5 * math.radians(sweep) * (R_O**2 - R_I**2)
        assert (start, end, weight) == pytest.approx((0.0, out, 0.02 * T * ring))


@pytest.mark.parametrize("sweep", [60.0, 90.0, 180.0])
def test_its_picture_is_a_ring_from_the_wall_to_its_nose(sweep: float) -> None:
    """The points lie on two circles about the place r_o out and level with the foot; the nose is at its sweep."""
    view = family_of(bracket({**BENT, "sweep": f"{sweep} deg"})).side_view()
    ((name, outline, grain),) = view.parts
    low = max(y for _, y in outline)  # the foot, on the wall; y runs down
    radii = [math.hypot(x - R_O, y - low) for x, y in outline]
    assert name == "arc" and grain is None and min(y for _, y in outline) == pytest.approx(0.0)
    assert radii[: len(radii) // 2] == pytest.approx([R_O] * (len(radii) // 2))
    assert radii[len(radii) // 2 :] == pytest.approx([R_I] * (len(radii) // 2))
    s, c = math.sin(math.radians(sweep)), math.cos(math.radians(sweep))
    assert outline[0] == pytest.approx((0.0, low)) and outline[-1] == pytest.approx((D, low))
    nose = outline[len(outline) // 2 - 1]
    assert nose == pytest.approx((R_O - R_O * c, low - R_O * s))
    assert view.height == pytest.approx(R_O * (1.0 if sweep >= 90.0 else s))
    assert view.reach == pytest.approx(max(R_O - R_O * c, R_O - R_I * c))


def test_grain_of_a_sawn_arc_runs_from_end_to_end() -> None:
    """A quarter of a ring: its ends lie 9 in out and 9 in up from each other, 45 degrees."""
    ((_, _, grain),) = family_of(bracket(SAWN)).side_view().parts
    assert grain == pytest.approx(45.0)
    ((_, _, half),) = family_of(bracket({**SAWN, "sweep": "180 deg"})).side_view().parts
    assert half == pytest.approx(0.0) or half == pytest.approx(180.0)
    ((_, _, slight),) = family_of(bracket({**SAWN, "sweep": "60 deg"})).side_view().parts
    assert slight == pytest.approx(60.0)  # the chord of 60 deg leans by half of it from the wall


def rows(down: float, through: str | None) -> list[Check]:
    made = fixings(rows=[{"below_top": f"{down} in", "count": 1}], through=through)
    return [
        one for one in family_of(bracket(BENT, "5 lb", "9 in", fixings=made)).fixing_doubts() if one.verdict == "fails"
    ]


def test_a_row_may_stand_off_the_wall_by_a_sixteenth() -> None:
    """The full side of radius 10 in is 1/16 in off the wall sqrt(20/16 - 1/256) = 1.116 in above the foot."""
    s = math.sqrt(2.0 * R_O / 16.0 - 1.0 / 256.0)
    assert [one.what for one in rows(10.0 - 1.01 * s, "2 in")] == ["row that crosses air"]
    assert not rows(10.0 - 0.99 * s, "2 in") and not rows(10.0, None)
    assert not rows(9.9, "1 1/2 in") and rows(9.9, "1 31/64 in")  # 3/4 of the arc's depth (judgment)
    assert not [one for one in family_of(bracket(BENT, "5 lb", "9 in")).fixing_doubts() if one.verdict == "fails"]


def shown(check: Check) -> str:
    return "; ".join(f"{step.symbol} {step.note}" for step in check.steps)


def test_steps_show_the_factor_of_the_bend_and_the_pull_only_where_there_is_one() -> None:
    pulled = {**BENT, "sweep": "180 deg"}
    for shape, load, bend, pull in (
        (BENT, shelf("20 lb", "9 in"), True, False), (SAWN, shelf("20 lb", "9 in"), False, False),
        (pulled, shelf("15 lb", "18 in"), True, True),
    ):  # fmt: skip
        steps = shown(find(body(shape, load).checks, "stress along the arc"))
        assert ("times C_c" in steps) is bend and ("f_t " in steps) is pull


@pytest.mark.parametrize(("sweep", "known"), [(89.5, True), (90.5, True), (89.49, False), (90.51, False)])
def test_half_a_degree_more_or_less_is_a_quarter(sweep: float, known: bool) -> None:
    low, _ = family_of(bracket({**BENT, "sweep": f"{sweep} deg"})).stiffness(stock("4x6 dressed"))
    assert (low > 0.0) is known


def test_wood_under_a_load_on_an_arc_is_taken_as_level() -> None:
    """Its grain turns with the arc: F_c_perp under every load, the weaker way."""
    found = find(body(BENT, shelf("20 lb", "5 in", bearing="1 in")).checks, "bearing of shelf")
    assert (found.demand, found.capacity) == (pytest.approx(20.0 / T), F_PERP)


def test_a_row_that_stands_off_the_wall_by_just_a_sixteenth_lies_on_it() -> None:
    """Outer radius 7 1/16 in: 15/16 in above the foot it is 7 1/16 - 7 in off (225 + 112^2 = 113^2 in sixteenths)."""
    arc = {**BENT, "inner_radius": "5.0625 in"}
    made = fixings(rows=[{"below_top": "6.125 in", "count": 1}], through="2 in")
    found = family_of(bracket(arc, "5 lb", "6 in", fixings=made)).fixing_doubts()
    assert not [one for one in found if one.verdict == "fails"]
