"""What is asked about a beam, of whom and where the answer goes; each rule at its limit. Sources beside each."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from beamcheck.checks.core.result import Check, PieceResult

from ..beams import LETTER, Data, beam, find, floor, known, result_of, seat, step, stock

WOOD = known("6 in x 12 in")
DEEP = known("2x12")  # d/b of 6 by nominal sizes
OWN = 5 / 1728 * 72  # lb/in


def of(id: str, result: PieceResult) -> list[Check]:
    return [one for one in result.checks if one.id == id]


# ---- limits of one's own, and grading --------------------------------------------------------------------------------


@pytest.mark.parametrize(("more", "asked"), [
    ({"limit_live": 360}, []), ({"limit_live": 359}, [("live", 359, 360)]), ({"limit_total": 240}, []),
    ({"limit_total": 239}, [("total", 239, 240)]),
    ({"limit_total": 120, "limit_live": 180}, [("live", 180, 360), ("total", 120, 240)]),
])  # fmt: skip
def test_a_limit_of_ones_own_that_is_laxer_than_that_of_the_code(more: Data, asked: list[tuple[str, int, int]]) -> None:
    """L/360 and L/240 of a floor (IBC Table 1604.3, read)."""
    found = of("beam.own_limit", result_of(beam(limit_why="letter", **more), wood=WOOD))
    assert [one.what for one in found] == [f"own limit for {load} load" for load, _, _ in asked]
    for one, (load, mine, theirs) in zip(found, asked, strict=True):
        assert f"length/{mine} is laxer than the length/{theirs}" in one.notes[0]
        (question,) = one.questions
        assert f"length/{mine} under {load} load" in question.ask and f"length/{theirs}" in question.ask


TIMBER = {key: value for key, value in stock("6x10 dressed").items() if key != "graded_over"}


@pytest.mark.parametrize(("supports", "wood", "asks"), [
    ([seat("0 ft"), seat("12 ft")], TIMBER, False), ([seat("0 ft"), seat("6 ft"), seat("12 ft")], TIMBER, True),
    ([seat("3 ft"), seat("12 ft")], TIMBER, True), ([seat("3 ft"), seat("12 ft")], stock("4x12"), False),
    ([seat("3 ft"), seat("12 ft")], {**TIMBER, "graded_over": "whole length"}, False),
    ([seat("3 ft"), seat("12 ft")], {**TIMBER, "size": "6x6 dressed"}, False),
])  # fmt: skip
def test_grading_of_a_timber_that_bends_over_a_support(supports: list[Data], wood: Data, asks: bool) -> None:
    """Beam and stringer grades are for a span between two ends (NDS 2018 4.2.5.5, memory)."""
    found = of("beam.graded_over", result_of(beam(supports=supports, length="12 ft"), wood=wood))
    assert [one.questions[0].field for one in found] == ["stock.wood.graded_over"] * asks


# ---- ends ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("held", "verdict", "fields"), [
    ((True, True), "", []), ((None, True), "refer", [1]), ((True, None), "refer", [2]), ((None, None), "refer", [1, 2]),
    ((False, None), "fails", []), ((True, False), "fails", []),
])  # fmt: skip
def test_ends_held_upright(held: tuple[bool | None, bool | None], verdict: str, fields: list[int]) -> None:
    """d/b over 2 (NDS 2018 3.3.3.4, memory): one question for all ends of which nothing is said."""
    ends = [seat("0 ft"), seat("12 ft", "other")]
    for end, value in zip(ends, held, strict=True):
        end["restrained"] = value
    ends = [{key: value for key, value in end.items() if value is not None} for end in ends]
    result = result_of(beam(supports=ends), wood=DEEP, existing=[{**LETTER, "name": "other"}])
    found = of("beam.ends_upright", result)
    assert [one.verdict for one in found] == ([verdict] if verdict else [])
    if fields:
        (question,) = found[0].questions
        paths = [f"beam.B.supports.{number}.restrained" for number in fields]
        assert question.field == paths[0]
        assert [answer.sets for answer in question.answers] == [
            tuple((path, value) for path in paths) for value in (True, False)
        ]
        on = [("on wall", "on other")[number - 1] for number in fields]
        assert " and ".join(on) in question.ask
        assert all(f"support {number} on" in found[0].notes[0] for number in fields)
    if verdict == "fails":
        number = held.index(False) + 1
        assert f"support {number} on" in found[0].notes[0] and "d/b is over 2" in found[0].notes[0]


@pytest.mark.parametrize(("size", "asks"), [("4x8", False), ("2x4", False), ("2x6", True), ("4x12", True)])
def test_which_proportions_ask_for_ends_held_upright(size: str, asks: bool) -> None:
    """Up to 2 by nominal sizes nothing (NDS 2018 4.4.1.2, memory)."""
    ends = [{key: value for key, value in seat(at).items() if key != "restrained"} for at in ("0 ft", "6 ft")]
    light = floor(dead="10 psf", live="40 psf", width="1 ft", meant={"width": "measured so"})
    assert bool(of("beam.ends_upright", result_of(beam(supports=ends, carries=[light]), wood=known(size)))) is asks


LIFTED = [floor(dead="10 plf", wind="-100 plf")]  # 0.6 (100 - 10 - 2.5) plf over 6 ft: 315 lb at each end


def lifting(on: Data | None = None, carries: list[Data] | None = None, **end: Any) -> PieceResult:
    ends = [seat("0 ft", "pad", **end), seat("12 ft")]
    pad = {**LETTER, "name": "pad", **(on or {})}
    return result_of(beam(service="roof", supports=ends, carries=carries or LIFTED), wood=WOOD, existing=[pad])


FORCE = 0.6 * (100 - 10) * 6 - 0.6 * OWN * 72


def test_what_lifts_is_asked_at_the_end_and_of_what_it_is_tied_to() -> None:
    (end,) = [one for one in of("beam.uplift", lifting()) if "support 1" in one.what]
    assert end.verdict == "refer" and end.demand == pytest.approx(FORCE)
    (question,) = end.questions
    assert question.field == "beam.B.supports.1.held_by" and question.forces["up"] == pytest.approx(FORCE)
    assert "nothing is said to hold it down" in end.notes[0]
    tied = [one for one in of("beam.uplift", lifting(tied_down="two straps")) if "support 1" in one.what]
    assert tied[0].verdict == "refer" and "'two straps', which is not checked here" in tied[0].notes[0]


@pytest.mark.parametrize(("on", "verdict"), [
    ({"takes_uplift": "316 lb"}, "passes"), ({"takes_uplift": "314 lb"}, "fails"), ({}, "refer"),
    ({"takes": "15,740 lb"}, "refer"), ({"takes": "15,760 lb"}, "passes"),  # 2 % of what a wall takes (common practice)
    ({"takes": "15,760 lb", "material": "wood"}, "refer"), ({"takes": "15,760 lb", "material": "masonry"}, "passes"),
    ({"takes": "15,760 lb", "confirmed_by": ""}, "refer"),
])  # fmt: skip
def test_what_an_end_is_tied_to_has_to_take_it(on: Data, verdict: str) -> None:
    (found,) = [one for one in of("seat.takes_uplift", lifting(on)) if "pad" in one.what]
    assert found.verdict == verdict
    if verdict == "refer":
        question = found.questions[0]
        assert question.field == "existing.pad.takes_uplift"
        # a quarter more, two and a half times, half of it; rounded up to 50 lb
        assert [answer.says for answer in question.answers] == ["400 lb", "800 lb", "200 lb"]


@pytest.mark.parametrize(("plf", "stated", "verdict"), [
    (18.0, "2,000 lb", "passes"), (18.1, "2,000 lb", "refer"), (18.0, "1,900 lb", "refer"), (12.6, None, ""),
    (12.7, None, "passes"),
])  # fmt: skip
def test_what_lifts_next_to_nothing(plf: float, stated: str | None, verdict: str) -> None:
    """0.6 x 6 ft of what is over 12.5 plf: up to 20 lb and 1 % of what is stated or presses; 1/2 lb is nothing."""
    loads = [floor(dead="10 plf", snow="600 plf", wind=f"{-plf} plf")]
    found = lifting({"takes_uplift": stated} if stated else None, loads)
    assert [one.verdict for one in of("beam.uplift", found) if "support 1" in one.what] == (
        [verdict] if verdict else []
    )


@pytest.mark.parametrize(("middle", "wind", "leaves"), [
    ({"settles": "1 in"}, False, True), ({"settles": "1 in", "tied_down": "strap"}, False, False),
    ({"settles": "1 in"}, True, False),
])  # fmt: skip
def test_a_support_that_goes_down_is_left(middle: Data, wind: bool, leaves: bool) -> None:
    """Between others, with nothing that ties it there: nothing lies on it then. Its sinking is for an engineer."""
    load = floor(dead="10 plf", live="20 plf", **({"wind": "-1 plf"} if wind else {}))
    ends = [seat("0 ft"), seat("6 ft", **middle), seat("12 ft")]
    result = result_of(beam(supports=ends, carries=[load]), wood=WOOD)
    found = [one for one in of("beam.uplift", result) if one.verdict == "refer"]
    assert [one.what for one in found] == ["span past support 2 on wall" if leaves else "uplift at support 2 on wall"]
    assert ("the beam leaves it" in found[0].notes[0]) is leaves
    (sinks,) = of("beam.settlement", result)
    assert sinks.what == "settlement of support 2 on wall" and "1 in" in sinks.questions[0].ask


@pytest.mark.parametrize("first", [True, False])
def test_an_outer_support_that_goes_down_is_not_left(first: bool) -> None:
    places = [seat("0 ft"), seat("2 ft"), seat("12 ft")] if first else [seat("0 ft"), seat("10 ft"), seat("12 ft")]
    places[0 if first else 2]["settles"] = "1/2 in"
    result = result_of(beam(supports=places, carries=[floor(dead="10 plf", live="20 plf")]), wood=WOOD)
    assert not [one for one in result.checks if one.what.startswith("span past")]


def test_a_support_that_nothing_but_its_neighbors_lift_is_held_down() -> None:
    """Live load in the first of three spans of 10, 1 and 10 ft lifts off the third support: it does not go down."""
    ends = [seat(f"{x} ft", bearing="3 in") for x in (0, 10, 11, 21)]
    result = result_of(beam(supports=ends, carries=[floor(dead="5 plf", live="100 plf")]), wood=WOOD)
    whats = [one.what for one in result.checks if one.verdict == "refer" and "support 3" in one.what]
    assert "uplift at support 3 on wall" in whats and "span past support 3 on wall" not in whats


# ---- cuts and plies --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("at", "full"), [
    ("15.3 in", False), ("15.2 in", True), ("128.7 in", False), ("128.8 in", True),
])  # fmt: skip
def test_a_hole_a_depth_from_the_face_of_a_seat(at: str, full: bool) -> None:
    """2 3/4 in of seat, 12 in of depth and half of an inch: nearer nothing is left out of the shear there (3.4.3)."""
    hole = {"kind": "hole", "at": at, "depth": "1 in", "from_bottom": "6 in"}
    check = find(result_of(beam(carries=[floor(live="240 plf")], cuts=[hole]), wood=WOOD), "shear")
    assert any("cut near the support" in note for note in check.notes) is full
    start = float(at.split()[0]) - 0.5 if float(at.split()[0]) < 72 else 144.0 - float(at.split()[0]) - 0.5
    part = 20 * (144 - start) ** 2 / 288 + OWN * (72 - 14.75)  # people may stand on one side of a cut only
    assert step(check, "V") == pytest.approx((20 + OWN) * 72 if full else part, rel=1e-3)


@pytest.mark.parametrize(("end", "at", "asks"), [
    ({}, "0 in", False), ({"holds": "hung"}, "0 in", True), ({"holds": "hung"}, "12 ft", False),
])  # fmt: skip
def test_a_notched_end_in_a_hanger(end: Data, at: str, asks: bool) -> None:
    notch = {"kind": "notch", "at": at, "depth": "1 in", "length": "4 in", "face": "bottom"}
    ends = [seat("0 ft", **end), seat("12 ft")]
    found = of("beam.hung_notch", result_of(beam(supports=ends, cuts=[notch]), wood=WOOD))
    assert [one.verdict for one in found] == ["refer"] * asks


@pytest.mark.parametrize(("width", "asks"), [("3 in", False), ("2 15/16 in", True)])
def test_plies_of_which_each_bears_on_every_seat(width: str, asks: bool) -> None:
    by = {"plies": 2, "in_a_row": False, "plies_fastened": "10d nails, two rows, 12 in apart"}
    light = [floor(dead="10 psf", live="40 psf", width="1 ft")]
    result = result_of(
        beam(supports=[seat("0 ft", bearing_width=width), seat("12 ft")], carries=light, **by), wood=DEEP
    )
    (found,) = of("beam.plies", result)
    assert (found.verdict == "refer") is asks
    assert not asks or "support 1 on wall: not every ply bears there" in found.notes[0]


@pytest.mark.parametrize("number", [1, 2])
def test_fastenings_are_asked_in_the_load_that_they_hold(number: int) -> None:
    """Of the load in its place in the list: 1 in or 3 in to the highest, 6 in to the lowest as answers."""
    aside = {"what": "joists", "live": "100 plf", "applied": "side"}
    loads = [floor(what="floor", live="10 plf"), aside] if number == 2 else [aside]
    (found,) = of("beam.side_load", result_of(beam(carries=copy.deepcopy(loads)), wood=WOOD))
    (question,) = found.questions
    base = f"beam.B.carries.{number}.fastened"
    assert question.field == f"{base}.highest" and f"load {number}" in question.id
    assert [answer.sets for answer in question.answers] == [
        ((f"{base}.highest", high), (f"{base}.lowest", "6 in")) for high in ("1 in", "3 in")
    ]


def test_the_seat_of_a_load_is_asked_in_its_place_in_the_list() -> None:
    loads = [floor(live="10 plf"), {"what": "column", "live": "100 lb", "at": "6 ft"}]
    (found,) = of("beam.load_seat", result_of(beam(carries=loads), wood=WOOD))
    assert [one.field for one in found.questions] == ["beam.B.carries.2.applied", "beam.B.carries.2.bearing"]
    said = [floor(live="10 plf"), {**loads[1], "bearing": "3 in"}]
    (found,) = of("beam.load_seat", result_of(beam(carries=said), wood=WOOD))
    assert [one.field for one in found.questions] == ["beam.B.carries.2.applied"]


def test_the_seat_of_a_beam_above_is_asked_in_that_beam() -> None:
    ends = [seat("12 ft"), {"at": "0 ft", "on": "B", "lands_at": "6 ft", "restrained": True}]
    above = beam(name="A", supports=ends, carries=[floor(live="40 plf")])
    (found,) = of("beam.load_seat", result_of(beam(carries=[]), above, wood=WOOD))
    assert [one.field for one in found.questions] == ["beam.A.supports.2.bearing"]
    assert "support 2" in found.questions[0].ask


# ---- what goes with bending and shear --------------------------------------------------------------------------------


def fields(result: PieceResult, what: str) -> list[str]:
    return [one.field for one in find(result, what).questions]


@pytest.mark.parametrize(("size", "asked"), [("4x8", False), ("2x6", True), ("2x8", True), ("2x10", False)])
def test_ends_are_asked_with_bending_where_upright_is_enough(size: str, asked: bool) -> None:
    """d/b over 2 and up to 4 by nominal sizes: held upright the ends are all that it needs (4.4.1.2(b), memory)."""
    ends = [{key: value for key, value in seat(at).items() if key != "restrained"} for at in ("0 ft", "6 ft")]
    one = beam(supports=ends, top_held="ends only", carries=[floor(dead="10 psf", live="40 psf", width="1 ft")])
    paths = fields(result_of(one, wood=known(size)), "bending")
    assert paths == ["beam.B.supports.1.restrained"] * asked


@pytest.mark.parametrize(("loads", "paths"), [
    ([{"at": "4 ft"}, {"at": "8 ft", "comes_by": "beam"}], ["beam.B.carries.1.comes_by"]),
    ([{"at": "4 ft", "comes_by": "beam"}, {"at": "8 ft"}], ["beam.B.carries.2.comes_by"]),
    ([{"at": "4 ft", "comes_by": "other"}], []),
])  # fmt: skip
def test_what_comes_on_is_asked_where_it_may_hold_the_edge(loads: list[Data], paths: list[str]) -> None:
    entries = [{"what": f"p{i}", "live": "100 lb", "applied": "top", "bearing": "3 in", **one}
               for i, one in enumerate(loads)]  # fmt: skip
    made = beam(top_held="at loads", carries=entries)
    found = [one for one in fields(result_of(made, wood=DEEP), "bending") if one.endswith("comes_by")]
    assert found == paths
    held = beam(carries=entries)
    assert not [one for one in fields(result_of(held, wood=DEEP), "bending") if one.endswith("comes_by")]


def test_what_is_not_said_of_shear_is_asked_with_it() -> None:
    """A seat without its length at the second end, and a second load of which nobody says how it comes on."""
    ends = [seat("0 ft"), {"at": "12 ft", "on": "wall", "restrained": True}]
    loads = [floor(live="40 plf"), {"what": "joists", "live": "40 plf"}]
    assert fields(result_of(beam(supports=ends, carries=loads[:1]), wood=WOOD), "shear") == [
        "beam.B.supports.2.bearing"]  # fmt: skip
    assert fields(result_of(beam(carries=loads), wood=WOOD), "shear") == ["beam.B.carries.2.applied"]
    aside = [floor(live="40 plf"), {**loads[1], "applied": "side", "fastened": {"highest": "2 in", "lowest": "6 in"}}]
    assert fields(result_of(beam(carries=aside), wood=WOOD), "shear") == []
    assert fields(result_of(beam(carries=loads[:1]), wood=WOOD), "shear") == []


@pytest.mark.parametrize(("words", "asks"), [("3/4 in plywood, nailed", False), ("", True), ("the walls", True)])
def test_what_neighbors_share_through_is_asked_with_bending(words: str, asks: bool) -> None:
    made = beam(spacing="16 in", members=4, carries=[floor(dead="10 psf", live="40 psf", width="16 in")],
                **({"shared_by": words} if words else {}))  # fmt: skip
    if not words:
        made.pop("members")
    paths = fields(result_of(made, wood=DEEP), "bending")
    assert ("beam.B.shared_by" in paths) is (asks and bool(words))
