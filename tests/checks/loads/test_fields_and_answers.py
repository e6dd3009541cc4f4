"""Where the answers to questions about loads go and what they say: entries by their number, sums, paths, amounts.

Amounts: 20 psf of men on a roof, 40, 30 and 10 psf of rooms and attics (ASCE 7-16 4.8, IRC Table R301.5, memory).
"""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.core.asking.question import Question
from beamcheck.checks.core.result import Check, PieceResult

from .. import houses
from ..beams.beams import Data, beam, floor, result_of, seat
from .test_guards import BY, WOOD, clean, guards, of, roof

LINES = {"dead": "60 plf", "live": "1 plf"}  # next to nothing beside its weight


def ids(result: PieceResult, id: str) -> list[Check]:
    return [one for one in result.checks if one.id == id and one.verdict == "refer"]


def the(found: list[Check]) -> Question:
    (check,) = found
    return check.questions[0]


def sets(question: Question) -> list[dict[str, Any]]:
    return [dict(answer.sets) for answer in question.answers]


# ---- per length ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("above", "asks"), [
    ({"live": "40 plf"}, False), ({"snow": "40 plf"}, False), ({"roof_live": "40 plf"}, False),
    ({"dead": "9 plf"}, True), ({"wind": "-40 plf"}, True),
])  # fmt: skip
def test_lines_are_not_asked_where_another_piece_brings_people_or_snow(above: Data, asks: bool) -> None:
    """Beside its own line of 1 plf: whatever else of that kind is its own."""
    upper = beam(name="A", supports=[seat("0 ft", "B", lands_at="6 ft"), seat("12 ft")], carries=[floor(**above)])
    found = result_of(beam(carries=[floor(**LINES)]), upper, wood=WOOD)
    assert bool(ids(found, "loads.line")) is asks


@pytest.mark.parametrize(("loads", "path"), [
    ([{"dead": "60 plf"}, {"live": "1 plf"}], "2.live"), ([{"dead": "60 plf", "snow": "1 plf"}], "1.snow"),
    ([{"dead": "60 plf", "live": "1 plf", "meant": {"live": "a store, by the plan"}}], None),
    ([LINES, {"snow": "1 plf", "meant": {"snow": "a store, by the plan"}}], None), ([{"dead": "60 plf"}], None),
    ([LINES, {"live": "9 lb", "at": "3 ft", "bearing": "2 in"}], "1.live"),
])  # fmt: skip
def test_a_line_of_next_to_nothing_is_asked_at_its_entry(loads: list[Data], path: str | None) -> None:
    result, _ = of([floor(what=f"load {i}", **one) for i, one in enumerate(loads)])
    found = ids(result, "loads.line")
    assert [one.questions[0].field for one in found] == ([f"beam.B.carries.{path}"] if path else [])
    if path:
        assert [list(one) for one in sets(the(found))] == [[f"beam.B.carries.{path[0]}.meant.{path[2:]}"]]


# ---- kinds -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("load", "field", "moved"), [
    ({"what": "people", "snow": "30 psf"}, "snow", {"live": "30 psf", "snow": None}),
    ({"what": "snow", "roof_live": "20 psf"}, "roof_live", {"snow": "20 psf", "roof_live": None}),
    ({"what": "people", "wind": "9 psf", "snow": "5 psf"}, "snow", {"live": "5 psf", "snow": None}),
])  # fmt: skip
def test_words_of_another_kind_move_the_figure(load: Data, field: str, moved: Data) -> None:
    """The first of them, as the second entry of the list; weight beside it is no other kind."""
    other = {"what": "roof", "dead": "10 psf", "roof_live": "20 psf", "width": "4 ft", "applied": "top"}
    result, _ = of([other, floor(width="4 ft", dead="5 psf", **load)], service="roof")
    question = the(ids(result, "loads.kind"))
    assert question.field == f"beam.B.carries.2.{field}"
    assert sets(question)[0] == {f"beam.B.carries.2.{key}": value for key, value in moved.items()}
    assert list(sets(question)[1]) == [f"beam.B.carries.2.meant.{field}"]


def test_a_heavy_thing_is_asked_at_its_entry() -> None:
    safe = floor(what="bedroom with a safe", live="40 psf", dead="10 psf", width="4 ft")
    question = the(ids(of([floor(what="wall", dead="10 plf"), safe])[0], "loads.heavy_thing"))
    assert question.field == "beam.B.carries.2.meant.live" and list(sets(question)[0]) == [question.field]
    line = [floor(what="bedroom with a safe", live="40 plf", dead="10 plf")]
    assert not ids(of(line)[0], "loads.heavy_thing"), "per length it is no load of a room"


# ---- floors ----------------------------------------------------------------------------------------------------------

ROOMS = [("40 psf", "other room"), ("30 psf", "sleeping room"), ("10 psf", "attic without storage")]


@pytest.mark.parametrize(("loads", "entry"), [
    ([floor(what="wall", dead="40 plf"), floor(what="a", dead="10 psf", width="6 ft")], 2),
    ([floor(what="a", dead="10 psf", width="6 ft"), floor(what="b", dead="10 psf", width="6 ft")], 1),
])  # fmt: skip
def test_rooms_are_offered_where_nobody_says_which_it_is(loads: list[Data], entry: int) -> None:
    (check,) = [one for one in ids(of(loads)[0], "loads.floor") if "no live load" in one.notes[0]]
    path = f"beam.B.carries.{entry}"
    found = sets(check.questions[0])
    assert found[:3] == [{f"{path}.live": live, f"{path}.room": use} for live, use in ROOMS]
    assert list(found[3]) == ["beam.B.bears_nothing_else", "beam.B.meant.live"]


def test_without_an_area_there_is_only_the_reason_to_give() -> None:
    (check,) = ids(of([floor(what="wall", dead="40 plf")])[0], "loads.floor")
    assert [list(one) for one in sets(check.questions[0])] == [["beam.B.bears_nothing_else"]]


@pytest.mark.parametrize(("reason", "more", "asks"), [
    ("a lintel over a window", {}, True), ("a lintel over a window", {"meant": {"live": "nobody gets there"}}, False),
])  # fmt: skip
def test_a_floor_bears_people_whatever_it_says(reason: str, more: Data, asks: bool) -> None:
    """What carries a load per area is a floor; a load per length may be a wall."""
    area = of([floor(dead="10 psf", width="6 ft")], bears_nothing_else=reason, **more)[0]
    line = of([floor(dead="40 plf")], bears_nothing_else=reason, **more)[0]
    assert bool([one for one in ids(area, "loads.floor") if "no live load" in one.notes[0]]) is asks
    assert not [one for one in ids(line, "loads.floor") if "no live load" in one.notes[0]]


@pytest.mark.parametrize(("load", "first", "rest"), [
    ({"what": "living room", "live": "30 psf"}, {"live": "40 psf"}, ["sleeping room"]),
    ({"what": "x", "room": "sleeping room", "live": "20 psf"}, {"live": "30 psf"}, ["other room"]),
    ({"what": "ceiling", "live": "5 psf"}, {"live": "40 psf", "room": "other room"}, ["sleeping room", ""]),
])  # fmt: skip
def test_more_live_load_is_offered_with_its_use(load: Data, first: Data, rest: list[str]) -> None:
    """That of the room named first; then those of other rooms; at a ceiling an attic last."""
    question = the(ids(of([floor(dead="10 psf", width="6 ft", **load)])[0], "loads.floor"))
    found = sets(question)
    assert found[0] == {f"beam.B.carries.1.{key}": value for key, value in first.items()}
    assert [one.get("beam.B.carries.1.room", "") for one in found[1:]] == rest
    if load["what"] == "ceiling":
        assert found[-1] == {"beam.B.carries.1.live": "10 psf"}


def test_a_joist_of_no_named_room_may_be_one_of_an_attic() -> None:
    load = floor(dead="10 psf", live="14 psf", width="16 in")
    question = the(ids(of([load], spacing="16 in")[0], "loads.floor"))
    assert sets(question)[-1] == {"beam.B.carries.1.room": "attic without storage"}
    assert "no room has less than 30 psf" in guards(of([load], spacing="16 in")[0], "loads.floor")[0].notes[0]


@pytest.mark.parametrize(("dead", "asks"), [("4 psf", True), ("3.99 psf", False)])
def test_an_area_of_floor_without_people_beside_one_with(dead: str, asks: bool) -> None:
    """As heavy as a floor at the least, 4 psf (common practice); asked at the heaviest of such entries."""
    person = {"what": "one person", "live": "300 lb", "moves": True, "applied": "top", "bearing": "2 in"}
    light = floor(what="tiles", dead="0 psf", width="6 ft")
    found = ids(of([light, person, floor(what="b", dead=dead, width="6 ft")])[0], "loads.floor")
    assert [one.questions[0].field for one in found] == ["beam.B.carries.3.live"] * asks
    if asks:
        answers = sets(the(found))
        assert answers[0] == {"beam.B.carries.3.live": "40 psf", "beam.B.carries.3.room": "other room"}
        assert list(answers[3]) == ["beam.B.carries.3.meant.live"]


@pytest.mark.parametrize(("loads", "path"), [
    ([{"what": "ceiling", "dead": "10 psf"}], "1.live"),
    ([{"what": "hooks", "dead": "5 lb", "at": "3 ft"}, {"what": "ceiling", "dead": "10 psf"}], "2.live"),
    ([{"what": "ceiling", "dead": "10 psf", "live": "10 psf"}], None),
    ([{"what": "ceiling", "dead": "10 psf", "meant": {"live": "no way up to it"}}], None), ([], None),
])  # fmt: skip
def test_an_attic_over_a_tie(loads: list[Data], path: str | None) -> None:
    """10 psf of an attic without storage, or nothing that lies there."""
    tie = houses.tie(carries=[{**one, **({"width": "2 ft"} if "at" not in one else {})} for one in loads])
    result = houses.checked(rafter=[houses.rafter(tie="T")], tie=[tie])
    found = ids(houses.piece(result, "T"), "loads.floor")
    assert [one.questions[0].field for one in found] == ([f"tie.T.carries.{path}"] if path else [])
    if path:
        number = path[0]
        assert sets(the(found))[0] == {f"tie.T.carries.{number}.live": "10 psf"}
        assert list(sets(the(found))[1]) == [f"tie.T.carries.{number}.meant.live"]


@pytest.mark.parametrize(("width", "more", "asks"), [
    ("15 in", {}, True), ("1 in", {}, True), ("16 in", {}, False), ("2 ft", {}, False),
    ("12 in", {"spacing": "12 in"}, False), ("11 in", {"spacing": "12 in"}, True),
])  # fmt: skip
def test_a_ceiling_joist_carries_all_the_way_to_the_next(width: str, more: Data, asks: bool) -> None:
    """Its rafters stand 16 in apart, and so do ties of which nothing else is said."""
    ceiling = {"what": "ceiling", "dead": "10 psf", "live": "10 psf", "width": width}
    result = houses.checked(rafter=[houses.rafter(tie="T")], tie=[houses.tie(carries=[ceiling], **more)])
    found = ids(houses.piece(result, "T"), "loads.strip")
    assert [one.questions[0].field for one in found] == ["tie.T.carries.1.width"] * asks


@pytest.mark.parametrize(("kind", "answers"), [
    ("snow", [{"live": "50 psf", "snow": None}, {"meant.snow": ""}]), ("wind", [{"meant.wind": ""}]),
    ("roof_live", [{"live": "50 psf", "roof_live": None}, {"meant.roof_live": ""}]),
])  # fmt: skip
def test_a_load_of_a_roof_on_a_floor_moves_to_its_people(kind: str, answers: list[Data]) -> None:
    """40 and 10 psf together; wind does not become people."""
    load = floor(dead="10 psf", live="40 psf", width="6 ft", **{kind: "10 psf"})
    question = the(ids(of([floor(what="wall", dead="9 plf"), load])[0], "loads.floor"))
    assert question.field == f"beam.B.carries.2.{kind}"
    found = [{path.removeprefix("beam.B.carries.2."): value for path, value in one.items()} for one in sets(question)]
    assert [{key: value if "meant" not in key else "" for key, value in one.items()} for one in found] == answers


# ---- roofs -----------------------------------------------------------------------------------------------------------


def roofs(*loads: Data) -> list[Data]:
    return clean([roof(**{"dead": None, **one})[0] for one in loads])


@pytest.mark.parametrize(("loads", "path"), [
    ([{"dead": "9 psf"}, {}], "1"), ([{"dead": "9 plf", "width": None}, {"dead": "9 psf"}], "2"),
    ([{"dead": "9 psf", "measured": "slope"}, {"dead": "1 psf"}], "2"),
])  # fmt: skip
def test_men_on_a_roof_are_offered_where_there_is_an_area_on_plan(loads: list[Data], path: str) -> None:
    given = [{**one, "what": f"roof {i}"} for i, one in enumerate(roofs(*[{"dead": "1 psf", **one} for one in loads]))]
    given = [{key: value for key, value in one.items() if value is not None} for one in given]
    if any("measured" in one for one in given):
        result = houses.checked(rafter=[houses.rafter(carries=[
            {"what": "roof 0", "dead": "9 psf", "measured": "slope"}, {"what": "roof 1", "dead": "1 psf"}], tie="T")],
            tie=[houses.tie()])  # fmt: skip
        piece, name = houses.piece(result, "R"), "rafter.R"
    else:
        piece, name = of(given, service="roof")[0], "beam.B"
    question = the(ids(piece, "loads.roof"))
    assert sets(question)[0] == {f"{name}.carries.{path}.roof_live": "20 psf"}
    assert question.field == f"{name}.carries.{path}.roof_live"


def test_people_and_men_on_a_roof_add_up_over_its_entries() -> None:
    for second, asks in (("12 psf", False), ("11.9 psf", True)):
        loads = roofs({"dead": "9 psf", "roof_live": "8 psf"}, {"roof_live": second})
        assert bool(ids(of(loads, service="roof")[0], "loads.roof")) is asks
    short = roofs({"dead": "9 psf"}, {"roof_live": "12 psf"})
    question = the(ids(of(short, service="roof")[0], "loads.roof"))
    assert question.field == "beam.B.carries.2.roof_live" and sets(question)[0] == {question.field: "20 psf"}
    assert list(sets(question)[1]) == ["beam.B.carries.2.meant.roof_live"]
    people = roofs({"dead": "9 psf"}, {"live": "12 psf"})
    assert the(ids(of(people, service="roof")[0], "loads.roof")).field == "beam.B.carries.2.live"


def test_little_snow_is_asked_at_the_first_entry_with_some() -> None:
    """0.7 of 50 psf; those of all entries together."""
    about = {"ground_snow": "50 psf"}
    for first, asks in (("15 psf", False), ("14.9 psf", True)):
        loads = roofs({"dead": "9 psf"}, {"snow": first}, {"snow": "20 psf"})
        found = ids(of(loads, about, service="roof")[0], "loads.snow")
        assert bool(found) is asks
        if asks:
            assert found[0].questions[0].field == "beam.B.carries.2.snow"
            assert sets(found[0].questions[0]) == [{"beam.B.carries.2.snow": "35 psf"}]
            assert [one.field for one in found[0].questions] == ["beam.B.carries.2.snow", "job.snow.by"]


@pytest.mark.parametrize(("load", "sets_"), [
    ({"what": "roof terrace with people", "roof_live": "20 psf"}, {"live": "60 psf", "roof_live": None}),
    ({"what": "roof", "roof_live": "25 psf"}, {"live": "25 psf", "roof_live": None}),
    ({"what": "roof", "roof_live": "25 psf", "live": "5 psf"}, {"live": "30 psf", "roof_live": None}),
])  # fmt: skip
def test_men_who_stay_become_people(load: Data, sets_: Data) -> None:
    """With all that is given; at least the live load of that use where it is named."""
    loads = [*roofs({"dead": "9 psf"}), {**roofs({"dead": "1 psf"})[0], **load}]
    found = [one for one in ids(of(loads, service="roof")[0], "loads.roof")
             if one.questions[0].field == "beam.B.carries.2.roof_live"]  # fmt: skip
    first = sets(found[0].questions[0])[0]
    if "people" in load["what"]:
        live = float(str(first["beam.B.carries.2.live"]).split()[0])
        assert live >= 40.0 and first["beam.B.carries.2.roof_live"] is None
    else:
        assert first == {f"beam.B.carries.2.{key}": value for key, value in sets_.items()}


# ---- wind ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("wind", "sets_"), [
    ({"wind": "-1 psf", "width": "2 ft"}, {"2.wind": "-3 psf", "2.width": "48 in"}),
    ({"wind": "-1 psf", "width": "4 ft"}, {"2.wind": "-3 psf"}), ({"wind": "-1 plf"}, {"1.wind": "-3 psf"}),
])  # fmt: skip
def test_wind_is_offered_over_all_of_the_roof(wind: Data, sets_: Data) -> None:
    """At the entry that holds wind per area, over 4 ft of roof; else at the first that can take it."""
    loads = [*clean(roof(roof_live="20 psf")), {"what": "wind", "applied": "top", **wind}]
    question = the(ids(of(loads, service="roof")[0], "loads.wind"))
    assert sets(question)[0] == {f"beam.B.carries.{path}": value for path, value in sets_.items()}
    assert list(sets(question)[1]) == ["beam.B.carries.2.meant.wind"]


@pytest.mark.parametrize(("loads", "asks"), [
    ([{"wind": "-1 psf", "meant": {"wind": "sheet S-2 of the engineer"}}], False),
    ([{"meant": {"wind": "sheet S-2 of the engineer"}}], True),  # nothing is meant of what is not given
    ([{"wind": "9 psf"}, {"wind": "-3 psf"}], False),
])  # fmt: skip
def test_wind_that_is_meant(loads: list[Data], asks: bool) -> None:
    entries = [{**clean(roof(roof_live="20 psf" if not i else None))[0], **one} for i, one in enumerate(loads)]  # type: ignore[arg-type]
    assert bool(ids(of(entries, service="roof")[0], "loads.wind")) is asks


def test_wind_from_a_piece_above_is_enough() -> None:
    """What arrives from elsewhere is asked there; men and snow that arrive are no wind."""
    for above, asks in (({"wind": "-100 plf"}, False), ({"roof_live": "40 plf"}, True)):
        upper = beam(name="A", service="roof", supports=[seat("0 ft", "B", lands_at="6 ft"), seat("12 ft")],
                     carries=[floor(what="roof", dead="10 plf", **above)])  # fmt: skip
        own = beam(service="roof", carries=clean(roof(roof_live="20 psf")))
        assert bool(ids(result_of(own, upper, wood=WOOD), "loads.wind")) is asks


def test_a_letter_about_wind_is_of_no_use_over_open_air() -> None:
    open_ = [{**clean(roof(roof_live="20 psf"))[0], "what": "porch roof"}]
    question = the(ids(of(open_, {"wind_by": BY}, service="roof")[0], "loads.wind"))
    assert question.field == "beam.B.carries.1.wind" and sets(question)[0] == {"beam.B.carries.1.wind": "-10 psf"}
