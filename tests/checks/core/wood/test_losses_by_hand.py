"""What a survey found missing, stretch by stretch, as a tape would give it; and the least section of what stands."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.core.wood.lost import (
    Lost,
    all_is_lost,
    behind,
    least_breadth,
    least_section,
    losses_of,
    lost_net,
    one_sided,
    share_lost,
)  # fmt: skip
from beamcheck.checks.core.wood.section import Section
from beamcheck.model.stock import Stock

from ...survey.timbers import CLEAN, Data, data

B, D = 7.5, 9.5  # of 14 ft
WHOLE = Section(B, D, B)


def timber(**survey: Any) -> Stock:
    return Stock.model_validate({**data()["stock"][0], "survey": {**CLEAN, **survey}})


def loss(what: str, start: str, end: str, where: str, depth: str) -> Data:
    return {"what": what, "start": start, "end": end, "where": where, "depth": depth}


def stations(*sides: tuple[str, str, str]) -> Data:
    return {"stations": [{"at": at, "breadth": f"{b} in", "depth": f"{d} in"} for at, b, d in sides]}


def stretches(stock: Stock) -> list[tuple[Any, ...]]:
    return [(one.at, one.length, one.width, one.depth, one.corners) for one in losses_of(stock)]


def test_between_two_stations_the_lesser_side_of_both_counts() -> None:
    """Before the first and behind the last that one alone; a side larger than its size is no gain."""
    found = timber(**stations(("13 ft", "7", "9.25"), ("1 ft", "7.5", "9.5"), ("7 ft", "7.25", "10")))
    assert stretches(found) == [(48.0, 72.0, 0.25, 0.0, ()), (120.0, 72.0, 0.5, 0.25, ()), (162.0, 12.0, 0.5, 0.25, ())]
    assert {one.why for one in losses_of(found)} == {"as measured"}
    first = timber(**stations(("1 ft", "7", "9.5"), ("7 ft", "7.5", "9.5"), ("13 ft", "7.5", "9.5")))
    assert stretches(first) == [(6.0, 12.0, 0.5, 0.0, ()), (48.0, 72.0, 0.5, 0.0, ())]
    both = ("7 ft", "7.5", "9"), ("7 ft", "7.5", "9.25")  # of two at one place, too
    deep = timber(**stations(("1 ft", "7.5", "9.5"), *both, ("13 ft", "8", "9.5")))
    assert stretches(deep) == [(48.0, 72.0, 0.0, 0.5, ()), (120.0, 72.0, 0.0, 0.5, ())]
    assert stretches(timber()) == stretches(timber(losses=None)) == []
    assert losses_of(timber().model_copy(update={"survey": None})) == []


@pytest.mark.parametrize(("what", "start", "end", "where", "depth", "stretch"), [
    ("hewing", "3 ft", "5 ft", "left", "1/2 in", (48.0, 24.0, 0.5, 0.0, ())),
    ("insects", "3 ft", "5 ft", "top", "1/2 in", (48.0, 24.0, 0.0, 0.5, ())),
    ("decay", "3 ft", "5 ft", "bottom", "1/2 in", (48.0, 26.0, 0.0, 1.5, ())),  # 1 in behind it, every way
    ("char", "3 ft", "5 ft", "right", "1/2 in", (48.0, 24.5, 0.75, 0.0, ())),  # 1/4 in
    ("wane", "3 ft", "5 ft", "top left", "2 in", (48.0, 24.0, 0.0, 0.0, ((2.0, True),))),
    ("wane", "3 ft", "5 ft", "bottom right", "2 in", (48.0, 24.0, 0.0, 0.0, ((2.0, False),))),
    ("decay", "0.5 in", "10.5 in", "left", "1/2 in", (5.75, 11.5, 1.5, 0.0, ())),
    ("hewing", "13 ft 6 in", "14 ft", "left", "1/2 in", (165.0, 6.0, 0.5, 0.0, ())),
    ("decay", "13 ft 6 in", "14 ft", "left", "1/2 in", (164.5, 7.0, 1.5, 0.0, ())),  # no further than its end
])  # fmt: skip
def test_one_loss(what: str, start: str, end: str, where: str, depth: str, stretch: tuple[Any, ...]) -> None:
    stock = timber(stations=[], losses=[loss(what, start, end, where, depth)])
    assert stretches(stock) == [stretch]
    (one,) = losses_of(stock)
    assert one.why == f"{what} {where}" and (one.kind, one.face, one.from_bottom) == ("loss", "side", None)
    assert stock.survey is not None and behind(stock.survey.losses[0]) == {"decay": 1.0, "char": 0.25}.get(what, 0.0)  # type: ignore[index]


LOSSES = [loss("hewing", "2 ft", "6 ft", "left", "1/2 in"), loss("insects", "4 ft", "8 ft", "left", "3/4 in"),
          loss("hewing", "4 ft", "6 ft", "right", "1/4 in"), loss("char", "4 ft", "6 ft", "top", "1/2 in"),
          loss("hewing", "4 ft", "6 ft", "bottom", "1 in"), loss("wane", "6 ft", "8 ft", "top left", "1 in"),
          loss("wane", "6 ft", "8 ft", "bottom left", "1 1/4 in")]  # fmt: skip


def test_losses_of_one_face_count_once_and_of_faces_opposite_together() -> None:
    """On top of what the stations say; what only touches a stretch is no loss of it."""
    found = timber(losses=LOSSES, **stations(("1 ft", "7.5", "9.5"), ("7 ft", "7.25", "9.5"), ("13 ft", "7.5", "9.5")))
    assert stretches(found) == [
        (18.0, 12.0, 0.25, 0.0, ()),  # 1 to 2 ft, as measured
        (35.875, 23.75, 0.75, 0.0, ()),
        (47.875, 0.25, 0.75, 0.75, ()),  # char 1/4 in further than is seen
        (60.0, 24.0, 0.25 + 0.75 + 0.25, 0.75 + 1.0, ()),
        (72.125, 0.25, 0.25 + 0.75, 0.75, ((1.0, True), (1.25, False))),
        (78.125, 11.75, 1.0, 0.0, ((1.0, True), (1.25, False))),
        (90.0, 12.0, 1.0, 0.0, ((1.0, True), (1.25, False))),
        (126.0, 60.0, 0.25, 0.0, ()),
    ]
    assert losses_of(found)[3].why == "as measured, hewing left, insects left, hewing right, char top, hewing bottom"
    assert losses_of(found)[3].words.startswith("the least section from 4 ft to 6 ft (as measured, hewing left")


@pytest.mark.parametrize(("start", "end", "less"), [
    (0.0, 24.0, 0.0), (0.0, 24.1, 0.5), (36.0, 47.0, 0.5), (36.0, 60.0, 1.0), (84.0, 90.0, 2.0), (96.0, 168.0, 0.0),
    (95.9, 168.0, 2.0),
])  # fmt: skip
def test_how_much_narrower_the_bottom_is_over_a_seat(start: float, end: float, less: float) -> None:
    """Both sides and the corners below; the stretch that loses most of those under it, none that only touches it."""
    assert least_breadth(timber(losses=LOSSES), start, end) == pytest.approx(less)
    assert least_breadth(timber(), start, end) == 0.0


def test_shares_of_modulus_and_area_that_are_lost() -> None:
    cut = [loss("hewing", "2 ft", "4 ft", "bottom", "1 in"), loss("decay", "8 ft", "9 ft", "left", "6.5 in")]
    (first, *shares), (_, *all_of_it) = share_lost(timber(losses=cut))
    assert first.at == 36.0 and shares == pytest.approx([1.0 - (8.5 / 9.5) ** 2, 1.0 - 8.5 / 9.5])
    assert all_of_it == [1.0, 1.0] and list(share_lost(timber())) == []


@pytest.mark.parametrize(("losses", "deep", "thin"), [
    ([], 0.0, 0.0), ([loss("hewing", "2 ft", "4 ft", "top", "1 in")], 0.5, 0.0),
    ([loss("decay", "2 ft", "4 ft", "bottom", "1 in"), loss("hewing", "2 ft", "4 ft", "top", "2 in"),
      loss("char", "2 ft", "4 ft", "left", "1/2 in")], 1.0, 0.375),
    ([loss("hewing", "2 ft", "4 ft", "right", "1 in"), loss("wane", "5 ft", "6 ft", "top left", "1/2 in")], 0.0, 0.5),
])  # fmt: skip
def test_how_far_off_the_middle_what_is_left_lies(losses: list[Data], deep: float, thin: float) -> None:
    """Half of what the worst face lost."""
    assert one_sided(timber(losses=losses)) == (deep, thin)
    assert one_sided(timber().model_copy(update={"survey": None})) == one_sided(timber(losses=None)) == (0.0, 0.0)


# ---- the least section of what stands upright -----------------------------------------------------------------------


@pytest.mark.parametrize(("losses", "b", "d"), [
    ([], B, D), (LOSSES[:1], 7.0, D), (LOSSES[:6], 7.5 - 1.0 - 1.0, 9.5 - 1.75),
    ([loss("wane", "2 ft", "4 ft", "top left", "1 in"), loss("wane", "6 ft", "7 ft", "top right", "1.2 in")], 6.3, D),
    ([loss("wane", "2 ft", "4 ft", "top left", "1.2 in"), loss("wane", "2 ft", "4 ft", "top right", "1.3 in"),
      loss("wane", "2 ft", "4 ft", "bottom right", "1 in")], 7.5 - 1.2 - 1.3, D),  # over a sixth of 7 1/2 in
])  # fmt: skip
def test_least_breadth_and_depth_anywhere(losses: list[Data], b: float, d: float) -> None:
    """Faces at their worst wherever that is; of wane the largest leg, where it is large one on either side."""
    found = least_section(timber(losses=losses), WHOLE)
    assert (found.b, found.d, found.breadth_alone) == pytest.approx((b, d, b))
    assert least_section(timber(losses=losses), Section(B, D, 2.0)).breadth_alone == 2.0


LEG = st.floats(0.05, 3.6)


@given(legs=st.lists(LEG, min_size=1, max_size=4), which=st.permutations([(t, s) for t in (1, 0) for s in "lr"]))
@example(legs=[3.0] * 4, which=[(t, s) for t in (1, 0) for s in "lr"])
@example(legs=[1.9] * 4, which=[(t, s) for t in (1, 0) for s in "lr"])
def test_what_is_counted_is_never_stiffer_than_what_is_left(legs: list[float], which: list[tuple[int, str]]) -> None:
    """Area, modulus and moment of area of all missing corners, worked out whole, both ways."""
    side = {"l": "left", "r": "right"}
    corners = list(zip(legs, which, strict=False))
    stock = timber(losses=[loss("wane", "2 ft", "4 ft", f"{'top' if top else 'bottom'} {side[at]}", f"{leg} in")
                           for leg, (top, at) in corners])  # fmt: skip
    counted, pad = least_section(stock, WHOLE), SilentPad()
    up, over = (tuple((leg, one[way] in (1, "l")) for leg, one in corners) for way in (0, 1))
    thin = Section(counted.d, counted.b, counted.d)
    for whole, turned, seen in ((WHOLE, counted, up), (Section(D, B, D), thin, over)):
        lost = Lost(36.0, 24.0, 0.0, 0.0, seen, "")
        assume(not all_is_lost(whole, lost))
        S, A, _, inertia = lost_net(pad, whole, lost)
        assert turned.modulus(pad) <= S * 1.001 and turned.area(pad) <= A and turned.inertia(pad) <= inertia * 1.001
