"""The hand rule on a bracket of even depth, where it is the beam formula; loads along an edge; which factor counts."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.fields.outline import outline_of
from beamcheck.checks.brackets.families.solid_comparison import ComparedSection, _along, _push, band
from beamcheck.checks.brackets.families.solid_hand_rule import (
    EdgeLoad,
    HandRule,
    Moduli,
    _spaced,
    _start,
    hand_rule,
    is_diagonal,
    section_rule,
    wall_rule,
)
from beamcheck.model.brackets.bracket import Solid

T, D = 1.5, 4.0
WOOD = Moduli(1.6e6, 80000.0, 124800.0, 0.449, 0.0)
AT = np.array([0.5, 1.0, 4.0, 8.0, 11.0])


def even(line: EdgeLoad, *, diagonal: bool = False, moduli: Moduli = WOOD, k: float | None = None) -> HandRule:
    """Sections square to both edges, 4 in deep and 1 1/2 in thick."""
    where = (AT, AT, np.full(AT.shape, D), np.zeros(AT.shape))
    return section_rule(where, np.full(AT.shape, D), T, moduli, line, diagonal=diagonal, k=k)


@pytest.mark.parametrize(("diagonal", "soffit"), [(False, 1.2), (True, 1.7)])
def test_an_even_bracket_is_a_beam(diagonal: bool, soffit: float) -> None:
    """100 lb from 11 to 12 in: 6 M/(t d^2) about each section times 1.3 above and 1.2 (or 1.7) below; shear 1.5 V/A."""
    rule = even(EdgeLoad([(11.0, 12.0, 100.0)], 12.0), diagonal=diagonal)
    sigma = 6.0 * 100.0 * (11.5 - AT) / (T * D**2)
    assert rule.top == pytest.approx(1.3 * sigma, rel=1e-6) and rule.soffit == pytest.approx(soffit * sigma, rel=1e-6)
    assert rule.shear == pytest.approx(np.full(AT.shape, 1.5 * 100.0 / (T * D)))
    assert rule.arm == pytest.approx((11.5 - AT) / D) and list(rule.phi) == [0.0] * 5
    assert list(rule.x_0) == list(AT) and list(rule.d) == [D] * 5
    assert even(EdgeLoad([(11.0, 12.0, 100.0)], 12.0), k=2.0).top == pytest.approx(2.0 * sigma, rel=1e-6)


def test_grain_at_an_angle_to_the_soffit() -> None:
    line = EdgeLoad([(11.0, 12.0, 100.0)], 12.0)
    for grain, phi in ((30.0, 30.0), (150.0, 30.0), (90.0, 90.0), (180.0, 0.0)):
        assert list(even(line, moduli=Moduli(1.6e6, 80000.0, 124800.0, 0.449, grain)).phi) == [phi] * 5


@pytest.mark.parametrize(
    ("start", "end", "holds"),
    [
        # arm over depth 0.75 at least; the load half a depth (2 in) away; an arm of one depth at the wall
        (11.0, 12.0, [True, True, True, True, False]), (9.9, 10.1, [True, True, True, False, False]),
        (6.0, 6.1, [True, True, False, False, False]), (3.9, 4.1, [False] * 5),
        (0.0, 12.0, [True, True, True, False, False]),  # a wide load keeps no distance
        (10.95, 11.05, [True, True, True, True, False]), (4.45, 4.55, [True, True, False, False, False]),
    ],
)  # fmt: skip
def test_where_the_rule_holds(start: float, end: float, holds: list[bool]) -> None:
    assert list(even(EdgeLoad([(start, end, 100.0)], 12.0)).holds) == holds


def test_the_distance_of_a_narrow_load_and_loads_that_keep_none() -> None:
    line = EdgeLoad([(6.0, 6.1, 100.0)], 12.0)
    x, d = np.array([4.0, 4.01, 7.0, 8.09, 8.1]), np.full(5, D)
    assert list(line.clear_of(x, d)) == [True, False, False, False, True]
    assert EdgeLoad([(6.0, 6.1, 100.0)], 12.0, kept_clear=False).clear_of(x, d).all()
    share = 6.0  # of 12 in, half: how wide a load is that keeps no distance
    wide, narrow = EdgeLoad([(6.0, 6.0 + share * 1.01, 1.0)], 12.0), EdgeLoad([(6.0, 6.0 + share * 0.5, 1.0)], 12.0)
    assert wide.clear_of(x, d).all() and not narrow.clear_of(x, d).all()
    assert not EdgeLoad([(6.0, 6.0 + share, 1.0)], 12.0).clear_of(x, d).all()


def test_what_lies_beyond_a_place_along_the_edge() -> None:
    """100 lb from 2 to 6 in and 30 lb from 7 to 8: at 4 in half of the first and all of the second."""
    line = EdgeLoad([(2.0, 6.0, 100.0), (7.0, 8.0, 30.0)], 12.0)
    force, moment = line.beyond(np.array([0.0, 4.0, 7.5, 9.0]))
    assert list(force) == pytest.approx([130.0, 80.0, 15.0, 0.0])
    assert list(moment) == pytest.approx([400.0 + 225.0, 50.0 + 30.0 * 3.5, 15.0 * 0.25, 0.0])


@pytest.mark.parametrize(
    ("grain", "soffit", "kinks", "diagonal"),
    [(0.0, "straight", False, False), (15.0, "straight", False, False), (15.1, "straight", False, True),
     (74.9, "concave", False, True), (75.0, "concave", False, False), (105.1, "straight", False, True),
     (165.0, "straight", False, False), (0.0, "ogee", False, True), (0.0, "straight", True, True)],
)  # fmt: skip
def test_which_factor_counts_on_the_soffit(grain: float, soffit: str, kinks: bool, diagonal: bool) -> None:
    assert is_diagonal(grain, soffit, kinks) is diagonal


def test_sections_start_where_they_make_equal_angles() -> None:
    """From (4, 3) on a soffit of 60 degrees: 4 - 3 tan 30 = 2.268 in along the top edge."""
    assert float(_start(np.array(4.0), np.array(3.0), np.array(60.0))) == pytest.approx(
        4.0 - 3.0 * math.tan(math.pi / 6)
    )
    x_s, y_s = np.array([1.0, 2.0, 3.0, 4.0, 5.0, 30.0]), np.array([3.0, 3.0, 0.0, 3.0, 3.0, 3.0])
    x, y, alpha = _spaced(x_s, y_s, np.array([0.0, -1.0, 0.0, 91.0, 90.0, 0.0]), 12.0)
    assert list(zip(x, y, alpha, strict=True)) == [(1.0, 3.0, 0.0), (5.0, 3.0, 90.0)]  # at 1 in and 5 - 3 in


SHAPE = Solid.model_validate({
    "family": "solid", "thickness": "1 1/2 in", "height": "12 in", "projection": "12 in", "foot": "2 in",
    "nose": "2 in", "soffit": "concave", "grain": "45 deg",
})  # fmt: skip


def test_a_bracket_that_is_its_own_mirror_image_has_the_same_stresses_in_both_legs() -> None:
    """Mirrored over its corner with the same push on the wall; the top edge has vertical sections besides."""
    outline, moduli = outline_of(SHAPE), Moduli(1.6e6, 80000.0, 124800.0, 0.449, 45.0)
    line = EdgeLoad([(11.0, 12.0, 100.0)], 12.0)
    top, wall = (rule(outline, T, moduli, line, diagonal=True) for rule in (hand_rule, wall_rule))
    for x in (2.0, 4.0, 6.0, 8.0):
        values = [float(np.interp(x, rule.x_0, rule.soffit)) for rule in (top, wall)]
        assert values[0] == pytest.approx(values[1], rel=0.02), x
        depths = [float(np.interp(x, rule.x_0, rule.d)) for rule in (top, wall)]
        assert depths[0] == pytest.approx(depths[1], rel=0.01)
        edges = [float(np.interp(x, rule.x_0, rule.top)) for rule in (top, wall)]
        assert edges[1] <= edges[0] * 1.001  # no vertical sections along the wall


def test_what_band_is_claimed() -> None:
    assert band("wall", "springs") is None and band("soffit", "springs") is None
    for edge, held in (("top", "bonded"), ("top", "springs"), ("soffit", "bonded")):
        found = band(edge, held)  # type: ignore[arg-type]
        assert found is not None and 0.0 < found[0] < found[1]


# ---- beside a stress field ---------------------------------------------------------------------------------------


def rule(**more: np.ndarray) -> HandRule:
    """Sections at 2, 4, 6 and 8 in along an edge, the soffit 5 in below; stresses by the rule that are easy to tell."""
    x = np.array([2.0, 4.0, 6.0, 8.0])
    given = {"x_0": x, "x_s": x, "y_s": np.full(4, 5.0), "d": np.full(4, 5.0), "arm": np.array([1.6, 1.2, 0.8, 0.4]),
             "top": np.array([80.0, 60.0, 40.0, 20.0]), "soffit": np.array([8.0, 6.0, 4.0, 2.0]), "shear": x,
             "holds": np.array([True, True, False, False]), "phi": x, **more}  # fmt: skip
    return HandRule(**given)


def read(edge: str, *rows: tuple[float, float, float]) -> Any:
    """A solved field 10 in out with stress read along one edge: (x, y, psi); what lies beyond 90 in is not read."""
    x, y, sigma = np.array(rows).T if rows else np.zeros((3, 0))
    there = SimpleNamespace(x=x, y=y, sigma_t=sigma)
    return SimpleNamespace(
        readable=lambda at: at[:, 0] < 90.0, outline=SimpleNamespace(P=10.0),
        **{name: there for name in ("top", "soffit", "wall_edge") if name.startswith(edge)},
    )  # fmt: skip


def test_stress_of_the_field_between_two_places_along_the_top() -> None:
    """Read at 8, 1.8, 2.2 and 4.4 in: at 2 in halfway; 4 in is 0.4 in from a place (up to 0.5), 6 in is too far."""
    found = _along(read("top", (8.0, 0.0, 10.0), (1.8, 0.0, 90.0), (2.2, 0.0, 70.0), (4.4, 0.0, 62.0),
                        (95.0, 0.0, 999.0)), "top", rule(), 60)  # fmt: skip
    assert [one.x for one in found] == [2.0, 4.0, 8.0]
    assert [one.field for one in found] == pytest.approx([80.0, 62.0 + 8.0 * 0.4 / 2.2, 10.0])
    assert [one.hand for one in found] == [80.0, 60.0, 20.0] and found[0].ratio == pytest.approx(1.0)
    assert [(one.d, one.arm, one.covered) for one in found] == [(5.0, 1.6, True), (5.0, 1.2, True), (5.0, 0.4, False)]
    assert [one.counts for one in found] == [True, True, False]  # half of the largest, 45 psi, is worth a ratio


def test_stress_along_the_wall_runs_down_it_and_that_of_the_soffit_is_pressure() -> None:
    wall = _along(read("wall", (0.0, 1.0, 50.0), (0.0, 3.0, 30.0), (0.0, 8.2, 5.0)), "wall", rule(), 60)
    assert [(one.x, one.field) for one in wall] == [(8.0, pytest.approx(5.0 + 25.0 * 0.2 / 5.2))]
    near = _along(read("wall", (0.0, 1.8, 50.0), (0.0, 2.2, 30.0)), "wall", rule(), 60)
    assert [(one.x, one.field, one.hand) for one in near] == [(2.0, pytest.approx(40.0), 80.0)]
    soffit = _along(read("soffit", (2.1, 5.0, -9.0), (1.8, 5.0, -7.0), (4.0, 5.6, -6.0)), "soffit", rule(), 60)
    assert [(one.x, one.field, one.hand) for one in soffit] == [(2.0, 9.0, 8.0)]  # the nearest place that is read


def test_a_stress_that_is_rounding_says_nothing_and_nothing_read_compares_with_nothing() -> None:
    low = _along(read("top", (2.0, 0.0, 0.9), (4.0, 0.0, 0.6)), "top", rule(), 60)
    assert [one.counts for one in low] == [False, False]  # less than 1 psi
    at = _along(read("top", (2.0, 0.0, 1.0), (4.0, 0.0, -1.0)), "top", rule(), 60)
    assert [one.counts for one in at] == [True, False] and math.isnan(at[1].ratio)
    assert _along(read("top"), "top", rule(), 60) == []
    none = rule(**{name: np.zeros(0) for name in ("x_0", "x_s", "y_s", "d", "arm", "top", "soffit", "holds")})
    assert _along(read("top", (2.0, 0.0, 9.0)), "top", none, 60) == []


def test_as_many_sections_as_are_asked_for() -> None:
    every = read("top", *((float(x), 0.0, 50.0) for x in (2, 4, 6, 8)))
    assert [one.x for one in _along(every, "top", rule(), 2)] == [2.0, 8.0]
    assert [one.x for one in _along(every, "top", rule(), 3)] == [2.0, 4.0, 8.0]


def test_what_pushes_on_the_wall_face() -> None:
    """Pressure times length times thickness at each place of contact, less the pulls of the anchors."""
    wall = SimpleNamespace(length=np.array([[0.5], [0.5]]), cells=np.array([1, 0]),
                           place=np.array([[(0.0, 9.0)], [(0.0, 10.0)]]))  # fmt: skip
    solution = SimpleNamespace(contact=np.array([[8.0], [0.0]]), wall=wall)
    field: Any = SimpleNamespace(solution=solution, mesh=SimpleNamespace(thickness=np.array([9.0, 3.0])), pulls=[7.0],
                                 backing=SimpleNamespace(springs=[SimpleNamespace(y=2.0)]))  # fmt: skip
    found = _push(field)
    assert [(0.5 * (low + high), force) for low, high, force in found] == [(9.0, 8.0 * 0.5 * 3.0), (2.0, -7.0)]
    assert [high - low for low, high, _ in found] == pytest.approx([0.01, 0.01])


def test_where_the_field_has_no_stress_a_ratio_says_nothing() -> None:
    for field, ratio in ((20.0, 4.0), (-20.0, None), (0.0, None)):
        one = ComparedSection("top", 2.0, 5.0, 1.0, 80.0, field, True, True)
        assert math.isnan(one.ratio) if ratio is None else one.ratio == ratio


@pytest.mark.parametrize(("beyond", "acts"), [(5e-5, False), (2e-4, True)])
def test_less_than_a_millionth_of_the_load_beyond_a_section_is_none(beyond: float, acts: bool) -> None:
    """100 lb near the wall and next to nothing at the nose, 11 1/2 in out."""
    rule = even(EdgeLoad([(0.6, 0.9, 100.0), (11.0, 12.0, beyond)], 12.0))
    assert list(rule.arm[2:]) == pytest.approx([(11.5 - x) / D if acts else 0.0 for x in AT[2:]])


def test_sections_begin_next_to_the_corner_and_end_before_the_nose() -> None:
    outline, moduli = outline_of(SHAPE), Moduli(1.6e6, 80000.0, 124800.0, 0.449, 45.0)
    line = EdgeLoad([(11.0, 12.0, 100.0)], 12.0)
    for rule in (hand_rule, wall_rule):
        found = rule(outline, T, moduli, line, diagonal=True)
        assert 0.0 <= found.x_0[0] < 0.3 and 10.0 < found.x_0[-1] < 12.0 and 30 < found.x_0.size <= 60
        assert list(found.x_0) == sorted(found.x_0)


def test_legs_of_unlike_size_have_the_stresses_of_their_mirror_image() -> None:
    """8 in out and 12 in high, grain 30 degrees: its wall leg is the top leg of 12 in out and 8 in high at 60."""

    def made(out: str, high: str, foot: str, nose: str) -> object:
        return outline_of(Solid.model_validate({
            "family": "solid", "thickness": "1 1/2 in", "height": high, "projection": out, "foot": foot, "nose": nose,
            "soffit": "straight", "grain": "level",
        }))  # fmt: skip

    line = EdgeLoad([(10.5, 11.5, 100.0)], 12.0, kept_clear=False)
    wood = (1.6e6, 80000.0, 124800.0, 0.449)
    wall = wall_rule(made("8 in", "12 in", "3 in", "2 in"), T, Moduli(*wood, 30.0), line, diagonal=True)  # type: ignore[arg-type]
    top = hand_rule(made("12 in", "8 in", "2 in", "3 in"), T, Moduli(*wood, 60.0), line, diagonal=True)  # type: ignore[arg-type]
    for x in (1.0, 3.0, 5.0, 7.0):
        for name in ("d", "arm", "soffit", "shear"):
            pair = [float(np.interp(x, rule.x_0, getattr(rule, name))) for rule in (wall, top)]
            assert pair[0] == pytest.approx(pair[1], rel=0.02), (x, name)
