"""Properties of posts: more load, more height and more offset never help; units and order change nothing."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.checks.core.context import Context
from beamcheck.checks.posts.result import post_result
from beamcheck.model.reading.reader import job_from_data

from ..houses import (
    UNKNOWN,
    checked,
    job,
    piece,
    post,
    ratios,
)
from .by_hand import own_weight_of_post, structure_of

quick = settings(max_examples=15, deadline=None)
LIVE = [{"what": "test load", "live": "1000 lb"}]  # C_D = 1.0


def test_screening_lists_what_the_wood_might_be() -> None:
    result = checked(post=[post(stock="old")])
    table = next(one for one in piece(result, "P").tables if one.title.startswith("Screening"))
    assert {row[0] for row in table.rows} == set(UNKNOWN["candidates"])
    assert all(one.verdict != "passes" or one.ratio is None for one in piece(result, "P").checks)


def test_uplift_goes_down_with_what_holds_nothing() -> None:
    """The force at the foot by kind: presses and lifts apart; dead load has one value."""
    carries = [
        {"what": "roof", "dead": "500 lb", "wind": "-900 lb"},
        {"what": "wall", "wind": "300 lb", "live": "100 lb"},
    ]
    whole = job_from_data(job(post=[post(carries=carries)]))
    _, handed = post_result(whole.post[0], Context(structure_of(whole)))
    by_kind = handed.rows[0].by_kind
    assert by_kind["W"] == (300.0, -900.0)
    assert by_kind["L"] == (100.0, 0.0)
    assert by_kind["D"][0] == by_kind["D"][1] == pytest.approx(500 + own_weight_of_post(), rel=1e-3)
    assert handed.rows[0].least == pytest.approx(0.6 * by_kind["D"][0] - 0.6 * 900)


heights = st.integers(3, 16)
forces = st.integers(500, 15_000)
offsets = st.integers(0, 16).map(lambda x: x / 8)


@quick
@given(height=heights, load=forces)
def test_a_taller_post_never_does_better(height: int, load: int) -> None:
    carries = [{"what": "floor", "dead": f"{load} lb"}]
    low, tall = (
        ratios(checked(post=[post(height=f"{h} ft", carries=carries, eccentricity="1 in")]), "P")
        for h in (height, height + 1)
    )
    assert all(tall[what] >= low[what] for what in low.keys() & tall.keys())


@quick
@given(load=forces, e=offsets, other=offsets)
def test_an_offset_never_helps(load: int, e: float, other: float) -> None:
    carries = [{"what": "floor", "live": f"{load} lb"}]
    central = ratios(checked(post=[post(carries=carries)]), "P")["compression"]
    found = ratios(checked(post=[post(carries=carries, eccentricity=f"{e} in", eccentricity_weak=f"{other} in")]), "P")
    off = [ratio for what, ratio in found.items() if what.startswith("load off center") and "sideways" not in what]
    assert found["compression"] == central
    assert all(ratio >= central**2 for ratio in off)
    assert bool(off) == (e > 0 or other > 0)


@quick
@given(load=forces, more=st.integers(1, 5000))
def test_more_load_never_lowers_a_ratio(load: int, more: int) -> None:
    small, large = (
        ratios(checked(post=[post(carries=[{"what": "floor", "live": f"{P} lb"}], eccentricity="1/2 in")]), "P")
        for P in (load, load + more)
    )
    assert all(large[what] >= small[what] for what in small.keys() & large.keys())


def test_metric_is_the_same_post() -> None:
    imperial = ratios(checked(post=[post(eccentricity="1 in")]), "P")
    carries = [{"what": "floor", "dead": "8.896443230521 kN", "live": "26.689329691563 kN"}]
    metric = ratios(checked(post=[post(height="2.4384 m", carries=carries, eccentricity="25.4 mm")]), "P")
    assert metric == pytest.approx(imperial, rel=1e-9)


def test_loads_in_another_order_are_the_same_post() -> None:
    loads = [{"what": "a", "dead": "900 lb"}, {"what": "b", "snow": "800 lb"}, {"what": "c", "live": "700 lb"}]
    one, other = (ratios(checked(post=[post(carries=order)]), "P") for order in (loads, loads[::-1]))
    assert one == pytest.approx(other, rel=1e-12)
