"""Beams and posts in a fire: what is not run, wind, seats that burn from one side or two, spans, by hand.

An hour is 1.8 in of char (NDS 2018 16.2, memory): of 7 1/2 x 11 1/2 in three faces leave 3.9 x 9.7 in.
"""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.core.result import Check, PieceResult

from .test_fire import Data, job, run, wood

OWN = "self weight"


def beam(**more: Any) -> PieceResult:
    return run(job(**more)).pieces[0]


def of(piece: PieceResult, id: str) -> list[Check]:
    return [one for one in piece.checks if one.id == id]


def step(check: Check, symbol: str) -> float:
    return [one.value for one in check.steps if one.symbol == symbol][-1]


def seats(*places: tuple[str, str]) -> list[Data]:
    return [{"at": at, "on": "walls", "bearing": long, "restrained": True} for at, long in places]


HOLE = {"kind": "hole", "at": "4 ft", "depth": "1 in", "from_bottom": "5 3/4 in"}
BY = {"plies_fastened": "1/2 in bolts at 24 in", "in_a_row": False}


@pytest.mark.parametrize(("more", "words"), [
    ({}, None), ({"cuts": [HOLE]}, "wood is missing from it"), ({"plies": 2, **BY}, "the fire gets between plies"),
    ({"plies": 2, "cuts": [HOLE], **BY}, "the fire gets between plies"),
])  # fmt: skip
def test_plies_and_cuts_let_the_fire_in(more: Data, words: str | None) -> None:
    found = of(beam(**more), "fire.engineer")
    assert [one.verdict for one in found] == (["refer"] if words else [])
    assert all(str(words) in one.notes[0] and "60" in one.questions[0].ask for one in found)


@pytest.mark.parametrize(("at", "bearing", "burns"), [
    ("3 in", "6 in", 1), ("9 in", "6 in", 2), ("3 in", "5 in", 2), ("2 1/2 in", "5 in", 1),
])  # fmt: skip
def test_a_seat_burns_from_each_side_on_which_the_beam_runs_on(at: str, bearing: str, burns: int) -> None:
    """At the very end it burns from its inner side only."""
    found = of(beam(supports=seats((at, bearing), ("13 ft 9 in", "6 in"))), "fire.bearing")
    (first,) = [one for one in found if "support 1" in one.what]
    long = float(bearing.split()[0]) - 1.8 * burns
    assert step(first, "l_b") == pytest.approx(long)
    assert first.demand == pytest.approx(step(first, "R") / (3.9 * long), rel=1e-6)


def test_a_seat_whose_bottom_is_covered_keeps_its_length() -> None:
    fire = {"exposed": ["left", "right", "top"]}
    (first, _) = of(beam(fire=fire), "fire.bearing")
    assert step(first, "l_b") == pytest.approx(6.0) and first.demand == pytest.approx(step(first, "R") / (3.9 * 6.0))


@pytest.mark.parametrize(("bearing", "burnt"), [("1.9 in", False), ("1.8 in", True), ("1.7 in", True)])
def test_a_seat_that_burns_away(bearing: str, burnt: bool) -> None:
    half = f"{float(bearing.split()[0]) / 2} in"
    found = of(beam(supports=seats((half, bearing), ("13 ft 9 in", "6 in"))), "fire.bearing")
    (first,) = [one for one in found if "support 1" in one.what]
    assert ("burns from each side" in " ".join(first.notes)) is burnt


def test_wind_is_left_out() -> None:
    """Moment, shear and reaction of what lies on it without the wind: that of the calm beam."""
    load = {"what": "roof", "dead": "10 psf", "snow": "40 psf", "width": "8 ft", "applied": "top"}
    calm, windy = (beam(service="roof", carries=[{**load, **wind}]) for wind in ({}, {"wind": "60 psf"}))
    for id in ("fire.bending", "fire.shear", "fire.bearing"):
        for one, other in zip(of(calm, id), of(windy, id), strict=True):
            assert one.demand == pytest.approx(other.demand) and one.capacity == pytest.approx(other.capacity), id


def test_bending_by_hand_and_over_a_middle_support() -> None:
    """M over S of what is left, 3.9 x 9.7^2/6 in3; pressed below over a middle support a check of its own."""
    above = of(beam(), "fire.bending")[0]
    assert above.demand == pytest.approx(step(above, "M") / (3.9 * 9.7**2 / 6), rel=1e-3)
    two = beam(supports=seats(("3 in", "6 in"), ("7 ft", "6 in"), ("13 ft 9 in", "6 in")))
    both = of(two, "fire.bending")
    assert [one.what for one in both] == [
        "after 60 min of fire: bending", "after 60 min of fire: bending, bottom edge pressed"]  # fmt: skip
    assert step(both[1], "M") > step(both[0], "M")
    assert all("its bracing lasts as long" not in " ".join(one.notes) for one in both)
    loose = of(beam(fire={"bracing_lasts": ""}), "fire.bending")
    assert "its bracing lasts as long is not said" in " ".join(loose[0].notes)


def test_a_seat_that_nobody_measured_is_asked_for_cold() -> None:
    bare = seats(("3 in", "6 in"), ("13 ft 9 in", "6 in"))
    del bare[0]["bearing"]
    assert [one.what for one in of(beam(supports=bare), "fire.bearing")] == [
        "after 60 min of fire: bearing at support 2 on walls"]  # fmt: skip


# ---- posts -----------------------------------------------------------------------------------------------------------


def post(fire: Data | None = None, **more: Any) -> PieceResult:
    data = job()
    data["stock"] += [wood("p", "8x8 dressed"), wood("2x", "2x8"), wood("thin", "6x6 dressed")]
    data["beam"] = []
    burns = {"minutes": 60, "exposed": ["top", "bottom", "left", "right"], **(fire or {})}
    data["post"] = [{"name": "P1", "stock": "p", "height": "8 ft", "on": "walls", "top_restraint": "pinned",
                     "eccentricity": "0 in", "eccentricity_weak": "0 in", "fire": burns,
                     "carries": [{"what": "floor", "dead": "2000 lb", "live": "3000 lb"}], **more}]  # fmt: skip
    return next(piece for piece in run(data).pieces if piece.name == "P1")


@pytest.mark.parametrize(("more", "asked"), [
    ({}, False), ({"cuts": [{**HOLE, "from_bottom": "3 3/4 in"}]}, True), ({"braced_strong": "4 ft"}, True),
    ({"braced_weak": "4 ft"}, True), ({"stock": "2x", "plies": 4, "plies_joined": "none"}, True),
    ({"plies": 2, "plies_joined": "none"}, True),
])  # fmt: skip
def test_plies_cuts_and_braces_of_a_post_are_for_an_engineer(more: Data, asked: bool) -> None:
    fire = {"minutes": 30} if more.get("stock") == "2x" else {}
    found = of(post(fire, **more), "fire.engineer")
    assert [one.verdict for one in found] == ["refer"] * asked


def test_a_post_in_a_fire_by_hand() -> None:
    """5,000 lb and its weight over 3.9 x 3.9 in; an inch off center 6 P e/(b d^2) beside it; wind left out."""
    plain = of(post(), "fire.post")
    assert [one.what for one in plain] == ["after 60 min of fire: compression"]
    P = step(plain[0], "P")
    assert plain[0].demand == pytest.approx(P / 3.9**2) and 5000 < P < 5200
    off = of(post(eccentricity="1 in"), "fire.post")
    assert [one.what.split(": ")[1] for one in off] == [
        "compression", "load off center the deep way", "load off center the deep way, sideways"]  # fmt: skip
    windy = of(post(carries=[{"what": "roof", "dead": "2000 lb", "live": "3000 lb", "wind": "4000 lb"}]), "fire.post")
    assert step(windy[0], "P") == pytest.approx(P)


def test_nothing_is_left_of_a_thin_post() -> None:
    """Two hours char over 3 in deep: of 5 1/2 in from two sides nothing, of 7 1/2 in a little over an inch."""
    thin = post({"minutes": 120}, stock="thin")
    assert [one.verdict for one in of(thin, "fire.section")] == ["fails"] and not of(thin, "fire.post")
    assert not of(post({"minutes": 120}), "fire.section")
