"""Seats on brackets, seats that crowd each other, and plies that do not all bear: just inside and just outside."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.beams.seats import _crowd, _on_bracket, _too_long, room_for_a_seat, seats_of
from beamcheck.model.beams import Beam
from beamcheck.model.posts import Post
from beamcheck.model.sticks import Support

from ..beams import Data, beam, floor, known, result_of, seat

PIECE = Beam.model_validate(beam())


def lying(**more: Any) -> Any:
    """A seat 5 1/2 in long in the middle of 12 ft."""
    return seats_of([Support.model_validate(seat("72 in", **more))], 144.0)[0]


@pytest.mark.parametrize(("b", "l_b", "thick", "out", "contact", "doubts"), [
    (3.5, 5.5, 3.5, 10.0, (3.5, 5.5), 0), (3.6, 5.5, 3.5, 10.0, (3.5, 5.5), 0), (3.5, 10.0, 3.5, 10.0, (3.5, 10.0), 0),
    (3.5, 10.1, 3.5, 10.0, (3.5, 10.0), 1), (3.5, 12.0, 12.0, 10.0, (3.5, 12.0), 0),
    (3.5, 12.1, 12.0, 10.0, (3.5, 12.0), 1),
])  # fmt: skip
def test_a_seat_on_a_bracket(
    b: float, l_b: float, thick: float, out: float, contact: tuple[float, float], doubts: int
) -> None:
    """No broader than it is thick, and told so; no longer than it stands out, or is thick: which way is not known."""
    under: Any = SimpleNamespace(name="K", shape=SimpleNamespace(side_to_side=thick, longest_seat=max(thick, out)))
    found = _on_bracket(PIECE, lying(), under, b, l_b)
    assert ((found.b, found.l_b), len(found.doubts)) == (contact, doubts)
    assert bool(found.notes) is (b > thick)


@pytest.mark.parametrize(("b", "l_b", "lands", "inside"), [
    (6.0, 5.5, "2.75 in", False), (6.0, 5.5, "2.73 in", True), (3.5, 5.5, "1.75 in", False),
    (3.5, 5.5, "1.73 in", True), (3.5, 5.5, None, False),
])  # fmt: skip
def test_a_seat_does_not_begin_inside_the_wall(b: float, l_b: float, lands: str | None, inside: bool) -> None:
    """Its middle stands half of it out, whichever way the piece runs: the halves of both sides are offered."""
    under: Any = SimpleNamespace(name="K", shape=SimpleNamespace(side_to_side=12.0, longest_seat=12.0))
    found = _on_bracket(PIECE, lying(**({"lands_at": lands} if lands else {})), under, b, l_b)
    assert [question.field for _, question in found.doubts] == ["beam.B.supports.1.lands_at"] * inside
    if inside:
        says = [one.says for one in found.doubts[0][1].answers]
        assert says == ["2 3/4 in", {6.0: "3 in", 3.5: "1 3/4 in"}[b]]


def house(*above: Data, size: tuple[float, float] = (1.5, 5.5)) -> Any:
    """Beams that lie on one below, all of sticks of one size."""
    beams = [Beam.model_validate(one) for one in above]
    structure = SimpleNamespace(beams_on=lambda name: beams)
    return SimpleNamespace(structure=structure, size=lambda stock: SimpleNamespace(b=size[0], d=size[1]))


def on(name: str, bearing: str, lands: str | None = "30 in", **more: Any) -> Data:
    placed = {"lands_at": lands} if lands else {}
    return beam(name=name, supports=[seat("0 ft", "U", bearing=bearing, **placed), seat("12 ft")], **more)


@pytest.mark.parametrize(("one", "two", "room", "crowded"), [
    (on("A", "3 in"), on("C", "3 in"), 6.0, False), (on("A", "3 in"), on("C", "3.1 in"), 6.0, True),
    (on("A", "3 in"), on("C", "3.1 in", "28.51 in"), 6.0, True),
    (on("A", "3 in"), on("C", "3.1 in", "28.5 in"), 6.0, False),
    (on("A", "3 in"), on("C", "3.1 in", "31.5 in", plies=2), 6.0, True),
    (on("A", "3 in"), on("C", "3.1 in", "33 in", laid="flat"), 6.0, True),
    (on("A", "7 in"), on("C", "1 in", "60 in"), 6.0, False),
])  # fmt: skip
def test_two_seats_in_one_place_of_a_beam(one: Data, two: Data, room: float, crowded: bool) -> None:
    """Sticks 1 1/2 in broad (5 1/2 in laid flat) touch where their middles are less than their half breadths apart."""
    held = lying(on="U", lands_at="30 in")
    below: Any = SimpleNamespace(name="U")
    assert bool(_crowd(PIECE, held, below, 1.5, room, house(one, two))) is crowded


@pytest.mark.parametrize(("bearings", "more", "crowded"), [
    (("3 in", "2.5 in"), {}, False), (("3 in", "2.6 in"), {}, True), (("9 in",), {}, False),
    (("3 in", "3 in"), {"width": "1.25 in"}, False), (("3 in", "3 in"), {"holds": "hung"}, False),
])  # fmt: skip
def test_seats_on_one_post_by_their_areas(bearings: tuple[str, ...], more: Data, crowded: bool) -> None:
    """1 1/2 in broad on a top of 1 1/2 x 5 1/2 in: 8.25 in2 for all of them; what hangs takes nothing of it."""
    above = []
    for number, bearing in enumerate(bearings):
        one = on(f"A{number}", bearing, None)
        if number and "width" in more:
            one["supports"][0]["bearing_width"] = more["width"]
        if number and "holds" in more:
            one["supports"][0]["holds"] = more["holds"]
        above.append(one)
    below: Any = SimpleNamespace(name="U")
    assert bool(_crowd(PIECE, lying(on="U"), below, 1.5, 5.5, house(*above), 1.5)) is crowded


@pytest.mark.parametrize(("long", "there", "doubts"), [(3.5, 3.5, 0), (3.51, 3.5, 1), (3.49, 3.5, 0)])
def test_a_seat_longer_than_what_is_below_is_broad(long: float, there: float, doubts: int) -> None:
    assert len(_too_long(PIECE, lying(), "U", long, there)) == doubts


@pytest.mark.parametrize(("under", "room"), [
    (Beam.model_construct(name="U", laid="on edge", plies=3, stock="s"), 4.5),
    (Beam.model_construct(name="U", laid="flat", plies=1, stock="s"), 5.5),
    (Post.model_construct(name="U", plies=1, stock="s", bearing_plate=False), 5.5),
    (Post.model_construct(name="U", plies=5, stock="s", bearing_plate=False), 7.5),
    (Post.model_construct(name="U", plies=1, stock="s", bearing_plate=True), None), (SimpleNamespace(name="U"), None),
])  # fmt: skip
def test_how_much_room_there_is_for_a_seat(under: Any, room: float | None) -> None:
    size = SimpleNamespace(b=1.5, d=5.5, surface="dressed")
    context: Any = SimpleNamespace(under=lambda name: under, size=lambda stock: size)
    assert room_for_a_seat(lying(on="U"), context) == room


@pytest.mark.parametrize(("width", "verdict"), [("3 in", "passes"), ("2.99 in", "refer"), (None, "passes")])
def test_plies_that_do_not_all_bear(width: str | None, verdict: str) -> None:
    """Two of 1 1/2 in, kept in line by bolts that are described."""
    ends = [seat("0 ft", **({"bearing_width": width} if width else {})), seat("12 ft")]
    made = beam(plies=2, in_a_row=False, supports=ends, plies_fastened="1/2 in bolts, two rows, 24 in apart",
                carries=[floor(live="40 plf")])  # fmt: skip
    (check,) = [one for one in result_of(made, wood=known("1 1/2 in x 11 1/4 in")).checks if one.id == "beam.plies"]
    assert check.verdict == verdict
