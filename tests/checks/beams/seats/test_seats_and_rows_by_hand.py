"""Seats on posts and beams, rows that land on a beam, and its own weight: what counts, what is asked, which answers.

Measures by hand; what a lone beam is (3 in thick, a strip of 32 in) is common practice.
"""

from __future__ import annotations

from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.beams.beam_run import section_of
from beamcheck.checks.beams.seats import contact_of, seats_of
from beamcheck.checks.core.asking.question import Question
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check, PieceResult
from beamcheck.model.beams import Beam
from beamcheck.model.stock import Stock
from beamcheck.values.lumber import read_size

from ...houses import TWO_BY_TEN, rafter
from ..beams import SAWN, Data, beam, find, floor, known, result_of, seat, step, stock

WOOD = known("6 in x 12 in")
POST: Data = {"name": "P", "stock": "flat", "height": "8 ft", "on": "wall", "top_restraint": "pinned"}
FLAT = stock("4x8", name="flat")  # 3 1/2 x 7 1/4 in


def of(id: str, result: PieceResult) -> list[Check]:
    return [one for one in result.checks if one.id == id]


def said(question: Question) -> list[str]:
    return [answer.says for answer in question.answers]


# ---- seats -----------------------------------------------------------------------------------------------------------


def on_post(bearing: str = "3 1/2 in", post: Data | None = None, **more: Any) -> PieceResult:
    piece = beam(supports=[seat("0 ft", "P", bearing=bearing, **more), seat("12 ft")], carries=[floor(live="240 plf")])
    return result_of(piece, wood=WOOD, stocks=[FLAT], post=[POST | (post or {})])


@pytest.mark.parametrize(("bearing", "more", "breadths"), [
    ("3 1/2 in", {}, ["6 in", "3 1/2 in"]), ("3 9/16 in", {}, None), ("3 1/2 in", {"bearing_width": "6 in"}, None),
    ("3 1/2 in", {"bearing_width": "3 1/2 in"}, None),
])  # fmt: skip
def test_which_side_of_a_post_lies_across_the_beam(bearing: str, more: Data, breadths: list[str] | None) -> None:
    """The thin side counts unless the breadth is given: asked where the seat fits on it, with both sides as answers."""
    questions = find(on_post(bearing, **more), "bearing at support 1 on P").questions
    found = [one for one in questions if one.field == "beam.B.supports.1.bearing_width"]
    assert [said(one) for one in found] == ([breadths] if breadths else [])


@pytest.mark.parametrize(("bearing", "plies", "long"), [
    ("7 1/4 in", 1, None), ("7 5/16 in", 1, "7 1/4 in"), ("10 1/2 in", 3, None), ("10 9/16 in", 3, "10 1/2 in"),
])  # fmt: skip
def test_a_seat_as_long_as_the_post_is_deep(bearing: str, plies: int, long: str | None) -> None:
    """7 1/4 in of one stick, 3 x 3 1/2 in of three."""
    found = of("beam.seat_size", on_post(bearing, {"plies": plies}))
    assert [one.notes[0] for one in found] == (
        [f"the seat is said to be longer than P is broad ({long})"] if long else []
    )
    if found:
        assert said(found[0].questions[0]) == ["5 1/2 in", "3 1/2 in", "1 1/2 in"]
        assert found[0].questions[0].field == "beam.B.supports.1.bearing"


@pytest.mark.parametrize(("post", "answers"), [
    ({}, ["5 1/2 in", "3 1/2 in", "1 1/2 in"]), ({"stock": "thin"}, ["3 1/2 in", "1 1/2 in"]),
    ({"stock": "log"}, ["4.2 in", "3 1/2 in", "1 1/2 in"]),
    ({"stock": "thin", "plies": 2}, ["5 1/2 in", "3 1/2 in", "1 1/2 in"]),
    ({"stock": "thin", "bearing_plate": True}, ["5 1/2 in", "3 1/2 in", "1 1/2 in"]),
])  # fmt: skip
def test_answers_to_a_seat_that_is_not_given_are_no_longer_than_its_post(post: Data, answers: list[str]) -> None:
    """Of a round post 0.7 of its width; with a plate on its top it may be any."""
    ends = [{"at": "0 ft", "on": "P", "restrained": True}, seat("12 ft")]
    woods = [FLAT, stock("4x4", name="thin"), known("6 in round") | {"name": "log"}]
    result = result_of(beam(supports=ends), wood=WOOD, stocks=woods, post=[POST | post])
    (question,) = find(result, "bearing at support 1 on P").questions
    assert [one.replace("4 3/16", "4.2") for one in said(question)] == answers


@pytest.mark.parametrize(("apart", "crowded"), [("6 in", False), ("5 15/16 in", True), ("0 in", True)])
def test_two_beams_that_land_beside_each_other_on_a_third(apart: str, crowded: bool) -> None:
    """Both 6 in broad; where they share a place their seats, 3 1/2 in each, are more than the 6 in below have."""
    ends = [[seat("0 ft", "U", bearing="3 1/2 in", lands_at=at), seat("12 ft")]
            for at in ("60 in", f"{60 + _inches(apart)} in")]  # fmt: skip
    one, two = (beam(name=name, supports=both, carries=[]) for name, both in zip("BC", ends, strict=True))
    found = of("beam.seat_size", result_of(one, two, beam(name="U", carries=[]), wood=WOOD))
    assert bool(found) is crowded
    if found:
        assert "the seats on U add up to more than there is room for" in found[0].notes[0]
    short = [{**one, "supports": [{**one["supports"][0], "bearing": "3 in"}, one["supports"][1]]}, two]
    short[1] = {**two, "supports": [{**two["supports"][0], "bearing": "3 in"}, two["supports"][1]]}
    assert not of("beam.seat_size", result_of(*short, beam(name="U", carries=[]), wood=WOOD))


def _inches(text: str) -> float:
    return float(sum(Fraction(part) for part in text.removesuffix(" in").split()))


@pytest.mark.parametrize(("at", "length", "seen"), [
    ("2 3/4 in", "12 ft", 5.5), ("2 in", "12 ft", 4.75), ("0 in", "12 ft", 2.75), ("141.25 in", "12 ft", 5.5),
    ("142 in", "12 ft", 4.75), ("0 in", None, 5.5),
])  # fmt: skip
def test_a_seat_reaches_no_further_than_the_beam(at: str, length: str | None, seen: float) -> None:
    """A support is given by the middle of its seat, 5 1/2 in long; beyond a stated length nothing lies on it."""
    other = seat("60 in")
    ends = [seat(at), other] if at[:2] in ("2 ", "0 ") else [other, seat(at)]
    piece = beam(supports=ends, carries=[floor(live="240 plf")], **({"length": length} if length else {}))
    check = find(result_of(piece, wood=WOOD), f"bearing at support {2 - ends.index(other)} on wall")
    assert check.demand is not None and step(check, "R") / (6 * check.demand) == pytest.approx(seen)
    assert any("lies on this seat" in note for note in check.notes) is (seen < 5.5)


@pytest.mark.parametrize(("at", "near"), [
    ((6.0, 138.0), (False, False)), ((5.7, 138.0), (True, False)), ((6.0, 138.3), (False, True)),
    ((-1.0, 138.0), (True, False)), ((6.0, 145.0), (False, True)),
])  # fmt: skip
def test_seats_near_either_end(at: tuple[float, float], near: tuple[bool, bool]) -> None:
    """Three inches of wood beyond 5 1/2 in of seat (NDS 2018 3.10.4, memory); one beyond the end is at the end."""
    made = Beam.model_validate(beam())
    supports = [one.model_copy(update={"at": x}) for one, x in zip(made.supports, at, strict=True)]
    assert tuple(one.near_end for one in seats_of(supports, 144.0)) == near


@pytest.mark.parametrize(("first", "apart"), [("5 1/2 in", True), ("5 9/16 in", False)])
def test_seats_that_touch_are_apart(first: str, apart: bool) -> None:
    ends = [seat("0 in", bearing=first), seat("5 1/2 in"), seat("12 ft")]
    found = of("beam.seats_apart", result_of(beam(supports=ends, carries=[floor(live="5 plf")]), wood=WOOD))
    assert bool(found) is not apart
    if found:
        assert [one.field for one in found[0].questions] == ["beam.B.supports.1.bearing", "beam.B.supports.2.bearing"]


@pytest.mark.parametrize(("support", "slot", "b", "l_b"), [
    ({}, 0.0, 6.0, 5.5), ({"bearing_width": "5 in"}, 0.3125, 4.6875, 5.5), ({"bearing_width": "7 in"}, 0.0, 6.0, 5.5),
    ({}, 6.0, 0.0, 5.5), ({"bearing_width": "1/4 in"}, 0.3125, 0.0, 5.5), ({"bearing": None}, 0.0, 6.0, 0.0),
    ({"on": "U"}, 0.0, 6.0, 3.5), ({"on": "F"}, 0.0, 6.0, 5.5), ({"on": "F", "bearing": "8 in"}, 0.0, 6.0, 7.25),
    ({"on": "two"}, 0.0, 6.0, 5.5), ({"on": "two", "bearing": "8 in"}, 0.0, 6.0, 7.0),
    ({"on": "U", "holds": "hung"}, 0.0, 6.0, 5.5),
])  # fmt: skip
def test_what_touches_on_a_seat(support: Data, slot: float, b: float, l_b: float) -> None:
    """6 in less a slot, never less than nothing; along it no more than what lies below: 3 1/2 in, 7 1/4 in laid flat,
    7 in of two plies."""
    end = {key: value for key, value in seat("72 in", **support).items() if value is not None}
    one = Beam.model_validate(beam(supports=[end, seat("0 ft")]))
    below = {"U": {}, "F": {"laid": "flat"}, "two": {"plies": 2}}
    pieces = {name: Beam.model_validate(beam(name=name, stock="flat", **more)) for name, more in below.items()}
    stocks = {each["name"]: Stock.model_validate(each) for each in (WOOD, FLAT)}
    wall: Any = SimpleNamespace(name="wall")
    joints: Any = SimpleNamespace(slot=lambda anchor: slot)
    context = Context(Structure(stocks, {"B": one, "wall": wall, **pieces}, joints=joints))
    found = contact_of(one, seats_of(one.supports, 72.0)[0], section_of(read_size(WOOD["size"]), "edge", 1), context)
    assert (found.b, found.l_b) == (b, l_b)


def test_a_seat_that_is_not_given_says_what_the_reaction_needs() -> None:
    """R/(b F_c_perp'): 1,455 lb on 6 in, or on the 2 in that the seat is said to be broad, of 400 psi."""
    for more, long in (({}, 1455 / 2400), ({"bearing_width": "1/4 in"}, 1455 / 100)):
        ends = [{"at": "0 ft", "on": "wall", "restrained": True, **more}, seat("12 ft")]
        check = find(result_of(beam(supports=ends, carries=[floor(live="240 plf")]), wood=WOOD),
                     "bearing at support 1 on wall")  # fmt: skip
        needed = check.notes[0].split("about ")[1].split(" for")[0]
        assert check.verdict == "refer" and _feet(needed) == pytest.approx(long, abs=1 / 16)


def _feet(text: str) -> float:
    feet, _, inches = text.rpartition(" ft")
    return 12.0 * float(feet or 0) + _inches(inches)


# ---- rows ------------------------------------------------------------------------------------------------------------


def row(members: int, last: str, spacing: str = "16 in", **more: Any) -> PieceResult:
    end = seat("0 ft", "U", bearing="3 in", lands_from="0 ft", lands_to=last)
    joists = beam(name="J", supports=[end, seat("8 ft")], spacing=spacing, members=members, stock="joist",
                  shared_by="boards", carries=[floor(dead="10 psf", live="40 psf", width=spacing)], **more)  # fmt: skip
    return result_of(beam(name="U", carries=[]), joists, wood=WOOD, stocks=[known("2x10") | {"name": "joist"}])


@pytest.mark.parametrize(("members", "last", "fit"), [
    (9, "128 in", None), (10, "128 in", None), (11, "128 in", 9), (11, "144 in", None), (12, "144 in", 10),
    (4, "16 in", 2), (3, "0 in", 1),
])  # fmt: skip
def test_more_pieces_of_a_row_than_find_room(members: int, last: str, fit: int | None) -> None:
    """16 in apart: nine from 0 to 128 in; one more may stand beside the ends, two may not."""
    found = [one for one in row(members, last).checks if "land here" in one.what]
    assert [said(one.questions[0]) for one in found] == (
        [[f"{fit} land here", "the others land elsewhere and are described there"]] if fit else []
    )
    if fit:
        assert found[0].questions[0].answers[0].sets == (("beam.J.members", fit),)
        assert found[0].questions[0].answers[1].sets[0][0] == "beam.J.meant.members"
        assert not [one for one in row(members, last, meant={"members": "the rest on the porch"}).checks
                    if "land here" in one.what]  # fmt: skip


def lone(width: str | None, thick: str, spacing: str | None = None, in_a_row: bool | None = None) -> list[Check]:
    load = floor(dead="10 psf", live="40 psf", width=width) if width else floor(dead="20 plf", live="40 plf")
    more: Data = {**({"spacing": spacing} if spacing else {}), **({} if in_a_row is None else {"in_a_row": in_a_row})}
    end = seat("0 ft", "U", bearing="3 in", lands_at="6 ft")
    above = beam(name="A", stock="above", supports=[end, seat("8 ft")], carries=[load], meant=SAWN, **more)
    woods = [known(f"{thick} in x 9 in") | {"name": "above"}]
    found = [one for one in result_of(beam(name="U", carries=[]), above, wood=WOOD, stocks=woods).checks
             if "alone or one of a row" in one.what]  # fmt: skip
    own = [one for one in result_of(above, beam(name="U", carries=[]), wood=WOOD, stocks=woods).checks
           if "alone or one of a row" in one.what]  # fmt: skip
    assert [one.verdict for one in own] == [one.verdict for one in found], "asked of it, and of what carries it"
    return found


@pytest.mark.parametrize(("width", "thick", "more", "asks"), [
    ("33 in", "3", {}, False), ("33 in", "2.9", {}, True), ("32 in", "3", {}, True), ("32.1 in", "3", {}, False),
    (None, "1.5", {}, False), ("16 in", "1.5", {"in_a_row": False}, False), ("16 in", "1.5", {"in_a_row": True}, True),
])  # fmt: skip
def test_a_beam_that_may_be_one_of_a_row(width: str | None, thick: str, more: Any, asks: bool) -> None:
    found = lone(width, thick, **more)
    assert [one.verdict for one in found] == ["refer"] * asks
    if asks:
        (question,) = found[0].questions
        assert question.field == "beam.A.in_a_row" and question.answers[0].sets == (("beam.A.in_a_row", False),)
        assert [path for path, _ in question.answers[1].sets] == ["beam.A.spacing"]
        inches = float(str(width).split()[0])
        assert float(str(question.answers[1].sets[0][1]).split()[0]) == pytest.approx(inches)


def test_where_a_row_lands_is_asked_in_the_entry_that_brings_it() -> None:
    """Over two spans: from where to where, from end to end as the first answer."""
    end = seat("8 ft", "U", bearing="3 in", lands_at="6 ft")
    joists = beam(name="J", supports=[seat("0 ft"), end], spacing="16 in", members=3, stock="joist", shared_by="boards",
                  carries=[floor(dead="10 psf", live="40 psf", width="16 in")])  # fmt: skip
    under = beam(name="U", supports=[seat("0 ft"), seat("6 ft"), seat("12 ft")], carries=[])
    result = result_of(under, joists, wood=WOOD, stocks=[known("2x10") | {"name": "joist"}])
    (found,) = [one for one in result.checks if one.what == "row of J"]
    (question,) = found.questions
    assert question.field == "beam.J.supports.2.lands_from"
    (answer,) = question.answers
    paths = dict(answer.sets)
    assert list(paths) == ["beam.J.supports.2.lands_from", "beam.J.supports.2.lands_to"]
    assert [float(str(value).split()[0]) for value in paths.values()] == [0.0, 144.0] and "12 ft" in answer.says


ON_RIDGE: Data = {"ridge": "beam", "ridge_on": "U", "pair": True}


@pytest.mark.parametrize(("where", "field"), [
    (ON_RIDGE, "rafter.R.upper.lands_from"), ({"wall": {"on": "U"}}, "rafter.R.wall.lands_from"),
    ({"other_wall": "U"}, "ruling"), ({**ON_RIDGE, "spacing": "25 in"}, "rafter.R.upper.lands_from"),
    ({**ON_RIDGE, "spacing": "24 in"}, None),
])  # fmt: skip
def test_where_rafters_land_is_asked_of_the_end_that_lands(where: Data, field: str | None) -> None:
    """Four to the shortest span, here of 8 ft, are an even load (common practice); fewer are asked for."""
    one = rafter(**{"spacing": "48 in", "members": 4, "meant": {"spacing": "measured so on the spot"}, **where})
    under = beam(name="U", service="roof", supports=[seat("0 ft"), seat("9 ft"), seat("17 ft")], carries=[])

    def asked(piece: Data) -> list[Question]:
        found = of("beam.row", result_of(under, wood=WOOD, stocks=[TWO_BY_TEN], rafter=[piece]))
        assert all("on a stretch of 8 ft:" in each.notes[0] for each in found)
        return [question for each in found for question in each.questions]

    questions = asked(one)
    assert [each.field for each in questions] == [field] * (field is not None)
    if field not in (None, "ruling"):
        (answer,) = questions[0].answers
        assert [(path, float(str(value).split()[0])) for path, value in answer.sets] == [
            (field, 0.0), (str(field).replace("_from", "_to"), 204.0)]  # fmt: skip
        end = str(field).split(".")[2]
        given = {path.rsplit(".", 1)[1]: value for path, value in answer.sets}
        assert not asked({**one, end: {**one.get(end, {}), **given}})


# ---- own weight ------------------------------------------------------------------------------------------------------

OWN = 2.5  # plf: half a square foot of 5 lb/ft3


def own(*loads: Data) -> list[Check]:
    entries = [floor(**{"what": f"load {i}", "live": "40 plf", **one}) for i, one in enumerate(loads, 1)]
    return of("beam.own_weight", result_of(beam(carries=entries), wood=WOOD))


@pytest.mark.parametrize(("loads", "verdict", "number"), [
    ([(2.51, True)], "passes", 0), ([(2.49, True)], "refer", 1), ([(1.26, True), (1.26, True)], "passes", 0),
    ([(9.0, False), (2.4, True)], "refer", 2), ([(9.0, None), (2.4, True), (0.05, True)], "refer", 2),
])  # fmt: skip
def test_a_dead_load_that_is_said_to_hold_the_beam(
    loads: list[tuple[float, bool | None]], verdict: str, number: int
) -> None:
    entries = [{"dead": f"{dead} plf", **({} if holds is None else {"dead_includes_own_weight": holds})}
               for dead, holds in loads]  # fmt: skip
    (found,) = own(*entries)
    assert found.verdict == verdict
    fields = [f"beam.B.carries.{number}.dead_includes_own_weight"] if number else []
    assert [one.field for one in found.questions] == fields


@pytest.mark.parametrize(("loads", "number"), [
    ([{"dead": "2.51 plf"}], 1), ([{"dead": "2.49 plf"}], None), ([{"dead": "9 plf", "from": "2 ft"}], None),
    ([{"dead": "9 plf", "to": "8 ft"}], None), ([{"dead": "9 plf", "dead_includes_own_weight": False}], None),
    ([{}, {"dead": "1 plf"}, {"dead": "9 plf"}, {"dead": "9 plf"}], 3),
    ([{"live": None, "dead": "90 lb", "at": "3 ft", "bearing": "2 in", "comes_by": "other"}], None),
])  # fmt: skip
def test_own_weight_that_a_dead_load_may_hold_already(loads: list[Data], number: int | None) -> None:
    """It is counted beside, and asked once, of the first that is even, whole and at least so much."""
    kept = [{key: value for key, value in {"live": "40 plf", **one}.items() if value is not None} for one in loads]
    entries = [floor(what=f"load {i}", **one) for i, one in enumerate(kept, 1)]
    found = of("beam.own_weight", result_of(beam(carries=entries), wood=WOOD))
    fields = [question.field for one in found for question in one.questions]
    assert fields == ([f"beam.B.carries.{number}.dead_includes_own_weight"] if number else [])
    assert all(one.verdict == "passes" and one.notes[0].startswith("2.5 ") for one in found)
