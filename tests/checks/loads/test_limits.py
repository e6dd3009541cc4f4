"""Each guard of the loads at its limit and just beside it; the limits are added up here by hand.

Beams are 12 ft long unless said; psf, lb and ft as on a job. Sources: ASCE 7-16 4.8, 7.3, 8.4, 27.3.2, IRC R301.5 (all
memory); least weights and single weights are common practice.
"""

from __future__ import annotations

import pytest

from beamcheck import job_from_data
from beamcheck.checks.core.result import Check
from beamcheck.checks.loads.given import job_checks
from beamcheck.checks.loads.weather import weather_checks
from beamcheck.model.beams import Beam
from beamcheck.model.stock import Stock

from .. import houses
from ..beams.beams import Data, beam, floor, job, seat
from .test_guards import BY, WOOD, clean, closes, guards, of, roof

HAIR = 0.001  # psf, or 1 lb in a thousand


def asked(found: list[Check]) -> str:
    """Path of the field that takes the first answer."""
    return found[0].questions[0].field


# ---- wind ------------------------------------------------------------------------------------------------------------

# what presses the roof upward with 3 psf over 12 ft by 4 ft: 144 lb in all
LIFTS: list[tuple[Data, float, str]] = [
    ({}, 3.0, "psf"), ({"width": "2 ft"}, 6.0, "psf"), ({"width": "8 ft"}, 3.0 * 4 / 4, "psf"),
    ({"width": "4 ft", "to": "4 ft"}, 9.0, "psf"), ({"width": "4 ft", "from": "2 ft", "to": "5 ft"}, 12.0, "psf"),
    ({"width": "4 ft", "from": "6 ft"}, 6.0, "psf"), ({"width": None}, 12.0, "plf"),
    ({"width": None, "from": "3 ft", "to": "9 ft"}, 24.0, "plf"), ({"width": None, "at": "3 ft"}, 144.0, "lb"),
]  # fmt: skip


@pytest.mark.parametrize(("entry", "least", "unit"), LIFTS)
def test_wind_that_lifts_is_counted_over_the_roof(entry: Data, least: float, unit: str) -> None:
    """All of it together over the widest strip of the beam: at least 3 psf on a closed roof."""
    roofed = clean(roof(roof_live="20 psf", width=entry["width"] if entry.get("width") == "8 ft" else "4 ft"))
    wide = {"width": "4 ft"} if "width" not in entry and unit == "psf" else {}
    for share, asks in ((1.0, False), (1.0 - HAIR, True)):
        wind = {"what": "wind", "applied": "top", **wide, **entry, "wind": f"{-least * share} {unit}"}
        if "at" in wind:
            wind["comes_by"] = "other"
        result, _ = of([*roofed, *clean([wind])], service="roof")
        assert bool(guards(result, "loads.wind")) is asks, (entry, share)


def test_winds_of_several_entries_add_up_and_one_that_presses_takes_nothing_off() -> None:
    entries = [{"what": "wind", "applied": "top", "width": "4 ft", "wind": f"{-psf} psf"} for psf in (1.0, 2.0)]
    pressing = {"what": "wind", "applied": "top", "width": "4 ft", "wind": "9 psf"}
    roofed = clean(roof(roof_live="20 psf"))
    assert not guards(of([*roofed, *entries, pressing], service="roof")[0], "loads.wind")
    assert guards(of([*roofed, entries[0], pressing], service="roof")[0], "loads.wind")


@pytest.mark.parametrize(("what", "least"), [("roof", 3.0), ("porch roof", 10.0)])
def test_answers_to_wind_that_is_missing(what: str, least: float) -> None:
    """What stands there, the first entry that can take it, and how much is proposed."""
    load = clean(roof(roof_live="20 psf", wind="-1 psf"))[0] | {"what": what}
    result, read = of([load], service="roof")
    (check,) = guards(result, "loads.wind")
    answers = check.questions[0].answers
    assert asked([check]).endswith("carries.1.wind")
    assert answers[0].sets == (("beam.B.carries.1.wind", f"-{least:g} psf"),)
    assert [path for path, _ in answers[1].sets] == ["beam.B.carries.1.meant.wind"]
    assert "1 psf of wind that lifts is given" in check.notes[0]
    assert not closes(read, check, 1)


def test_wind_words() -> None:
    for wind, words in ((None, "no wind is given"), ("9 psf", "only wind that presses is given")):
        load = clean(roof(roof_live="20 psf", wind=wind))  # type: ignore[arg-type]
        (check,) = guards(of(load, service="roof")[0], "loads.wind")
        assert words in check.notes[0]
    said = of(clean(roof(roof_live="20 psf")), {"wind_by": BY}, service="roof")[0]
    (kept,) = [check for check in said.checks if check.id == "loads.wind"]
    assert kept.verdict == "passes" and BY in kept.notes[0]


def test_wind_on_a_rafter_is_spread_over_its_slope() -> None:
    """A run of 8 ft at 6:12 is 8.944 ft of slope, rafters 16 in apart: 3 psf are 4 plf, or 35.8 lb in one place."""
    slope = 8.0 * (1 + 0.25) ** 0.5
    for wind, least in (({}, 3.0), ({"at": "3 ft"}, 3.0 * slope * 4 / 3)):
        for share, asks in ((1.0, False), (1.0 - HAIR, True)):
            unit = "lb" if wind else "psf"
            entry = {"what": "wind", "wind": f"{-least * share} {unit}", **wind}
            rafter = houses.rafter(carries=[{"what": "roof", "dead": "10 psf", "snow": "20 psf"}, entry],
                                   tie="T")  # fmt: skip
            result = houses.checked(rafter=[rafter], tie=[houses.tie()])
            found = [one for one in houses.piece(result, "R").checks if one.id == "loads.wind"]
            assert bool([one for one in found if one.verdict == "refer"]) is asks, (wind, share)


# ---- weight ----------------------------------------------------------------------------------------------------------

ROW = {"spacing": "16 in"}
WEIGHTS: list[tuple[str, str, Data, float]] = [
    ("floor", "floor", {}, 4.0), ("floor", "floor", ROW, 2.0), ("floor", "deck outdoors", {}, 5.0),
    ("floor", "deck outdoors", ROW, 3.0), ("roof", "roof", {}, 3.0), ("roof", "roof", ROW, 2.0),
    ("roof", "porch roof", {}, 2.5), ("roof", "porch roof", ROW, 2.0), ("roof", "roof with shingles", {}, 3.5),
    ("roof", "roof with shingles", ROW, 3.5), ("roof", "porch roof with shingles", {}, 2.5),
]  # fmt: skip


@pytest.mark.parametrize(("service", "what", "more", "least"), WEIGHTS)
@pytest.mark.parametrize("line", [False, True])
def test_least_weights(service: str, what: str, more: Data, least: float, line: bool) -> None:
    """Per area, or as a load per length over the strip of 16 in."""
    kind = "live" if service == "floor" else "roof_live"
    for share, asks in ((1.0, False), (1.0 - HAIR, True)):
        load: Data = {"what": what, "applied": "top", "width": "16 in", kind: "60 psf" if kind == "live" else "20 psf"}
        loads = [load]
        if line:
            loads.append({"what": what, "applied": "top", "dead": f"{least * share * 4 / 3} plf"})
        else:
            load["dead"] = f"{least * share} psf"
        result, read = of(loads, service=service, meant={"width": "as measured"}, **more)
        found = guards(result, "loads.dead")
        assert bool(found) is asks, share
        if asks:
            assert f"{least:.4g} psf at least" in found[0].notes[0] and asked(found) == "beam.B.carries.1.dead"
            assert line or not closes(read, found[0])


def test_weight_is_asked_only_under_people_or_snow_per_area() -> None:
    for kind, asks in (("live", True), ("dead", False)):
        load = floor(**{"dead": "1 psf", "width": "4 ft", **({kind: "40 psf"} if kind == "live" else {})})
        assert bool(guards(of([load])[0], "loads.dead")) is asks


def test_heavy_layers_are_added_to_the_least() -> None:
    """Plaster of 6 psf, named in words and again as the finish, counts once: 4 + 6 psf."""
    for dead, asks in (("10 psf", False), ("9.99 psf", True)):
        load = floor(what="floor with a plaster ceiling", dead=dead, live="40 psf", width="4 ft")
        assert bool(guards(of([load], finish="plaster")[0], "loads.dead")) is asks


# ---- floors ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("weights", "top", "verdict"), [
    ((150, 150), "ends only", "passes"), ((150, 151), "ends only", "refer"), ((150, 100), "full length", "refer"),
])  # fmt: skip
def test_single_weights_on_a_beam_without_a_floor(weights: tuple[int, int], top: str, verdict: str) -> None:
    """Up to 300 lb together, and no deck that holds its top: common practice."""
    loads = [{"what": f"bell {i}", "dead": f"{lb} lb", "at": f"{3 * i + 3} ft", "applied": "top"} for i, lb in
             enumerate(weights)]  # fmt: skip
    result, _ = of(loads, top_held=top)
    assert [check.verdict for check in result.checks if check.id == "loads.floor"] == [verdict]


def test_a_weight_spread_over_the_beam_is_a_floor() -> None:
    result, _ = of([floor(what="bench", dead="10 plf")], top_held="ends only")
    assert [check.verdict for check in result.checks if check.id == "loads.floor"] == ["refer"]


@pytest.mark.parametrize(("width", "asks"), [("32 in", True), ("32 1/4 in", False)])
def test_a_strip_as_narrow_as_that_of_a_joist(width: str, asks: bool) -> None:
    """14 psf: below every room, but as much as an attic of a lone timber (10 psf)."""
    load = floor(dead="10 psf", live="14 psf", width=width)
    assert bool(guards(of([load], meant={"width": "as measured"})[0], "loads.floor")) is asks


@pytest.mark.parametrize(("live", "asks"), [("10 psf", False), ("9.99 psf", True)])
def test_least_live_load_of_an_attic(live: str, asks: bool) -> None:
    load = floor(what="ceiling", dead="10 psf", live=live, width="4 ft")
    assert bool(guards(of([load])[0], "loads.floor")) is asks


def test_the_larger_of_two_uses_counts() -> None:
    for live, asks in (("40 psf", False), ("39.9 psf", True)):
        load = floor(what="bedroom and living room", dead="10 psf", live=live, width="6 ft")
        found = guards(of([load])[0], "loads.floor")
        assert bool(found) is asks and (not asks or "40 psf" in found[0].notes[0])


def test_a_live_load_that_is_missing_is_asked_at_the_entry_per_area() -> None:
    loads = [floor(what="wall", dead="40 plf"), floor(what="floor", dead="10 psf", width="6 ft")]
    result, read = of(loads)
    (check,) = [one for one in guards(result, "loads.floor") if "no live load" in one.notes[0]]
    assert asked([check]) == "beam.B.carries.2.live" and not closes(read, check)
    assert [answer.sets[0][1] for answer in check.questions[0].answers[:3]] == ["40 psf", "30 psf", "10 psf"]
    result, _ = of([floor(what="wall", dead="40 plf")])
    (check,) = [one for one in guards(result, "loads.floor") if "no live load" in one.notes[0]]
    assert asked([check]) == "beam.B.bears_nothing_else"


@pytest.mark.parametrize(("width", "spacing", "asks"), [
    ("16 in", "16 in", False), ("15.99 in", "16 in", True), ("6 in", "5 1/2 in", False), ("6 in", "5.4 in", True),
])  # fmt: skip
def test_strips_of_joists(width: str, spacing: str, asks: bool) -> None:
    """Not narrower than from middle to middle; and no closer than the 5 1/2 in that the piece is broad."""
    load = floor(dead="10 psf", live="40 psf", width=width)
    result, _ = of([load], spacing=spacing, meant={"spacing": "measured so on site"})
    assert bool(guards(result, "loads.strip")) is asks


# ---- roofs -----------------------------------------------------------------------------------------------------------

# span ft, width ft, slope in 12, least psf = 20 (1 - 0.001 (A - 200)) (1 - 0.05 (F - 4)), from 12 to 20
EARNED = [(12, 16, None, 20.0), (12, 25, None, 18.0), (12, 50, None, 12.0), (12, 60, None, 12.0), (12, 4, 4, 20.0),
          (12, 4, 6, 18.0), (12, 25, 6, 16.2), (12, 4, 12, 12.0), (12, 4, 14, 12.0)]  # fmt: skip


@pytest.mark.parametrize(("span", "width", "rise", "least"), EARNED)
def test_roof_live_load_by_area_and_slope(span: int, width: int, rise: int | None, least: float) -> None:
    slope = {} if rise is None else {"roof_slope": f"{rise}:12"}
    for share, asks in ((1.0, False), (1.0 - HAIR, True)):
        load = clean(roof(roof_live=f"{least * share} psf", width=f"{width} ft"))
        load[0]["meant"] = {"width": "measured so on the plan"}
        result, _ = of(load, service="roof", **slope)
        assert bool(guards(result, "loads.roof")) is asks, share


def test_area_goes_by_the_longest_span() -> None:
    """8 ft and 12 ft over three supports, 25 ft of roof: 300 ft2, 18 psf."""
    supports = [seat("0 ft"), seat("8 ft"), seat("20 ft")]
    for live, asks in (("18 psf", False), ("17.9 psf", True)):
        load = clean(roof(roof_live=live, width="25 ft"))
        assert bool(guards(of(load, service="roof", supports=supports)[0], "loads.roof")) is asks


def test_snow_as_heavy_as_men_is_enough_and_two_kinds_do_not_add_up() -> None:
    for loads, asks in (({"snow": "20 psf"}, False), ({"snow": "19.9 psf"}, True),
                        ({"snow": "11 psf", "roof_live": "11 psf"}, True)):  # fmt: skip
        found = guards(of(clean(roof(**loads)), service="roof")[0], "loads.roof")
        assert bool(found) is asks, loads
        if asks:
            assert asked(found).endswith("carries.1.roof_live") and "20 psf" in found[0].notes[0]


@pytest.mark.parametrize(("live", "asks"), [("20 psf", False), ("20.1 psf", True)])
def test_more_than_men_who_repair_it(live: str, asks: bool) -> None:
    found = guards(of(clean(roof(roof_live=live)), service="roof")[0], "loads.roof")
    assert bool(found) is asks


@pytest.mark.parametrize(("what", "share"), [("roof", 0.7), ("porch roof", 0.84)])
@pytest.mark.parametrize(("slope", "holds"), [(None, True), ("30 deg", True), ("30.1 deg", False)])
def test_snow_that_is_less_than_on_a_flat_roof(what: str, share: float, slope: str | None, holds: bool) -> None:
    """0.7 of the ground snow, 0.84 where it is open below (C_t 1.2); steeper than 30 degrees some slides off."""
    more = {} if slope is None else {"roof_slope": slope}
    for part, asks in ((1.0, False), (1.0 - HAIR, holds)):
        load = clean(roof(snow=f"{share * 50.0 * part} psf"))[0] | {"what": what}
        found = guards(of([load], {"ground_snow": "50 psf"}, service="roof", **more)[0], "loads.snow")
        assert bool(found) is asks, part
        if asks:
            assert f"{share * 50:.4g} psf are usual" in found[0].notes[0]
    assert not guards(of([load], {"ground_snow": "0 psf"}, service="roof", **more)[0], "loads.snow")


@pytest.mark.parametrize(("slope", "asks"), [("1.19 deg", False), ("1.18 deg", True)])
def test_slope_from_which_water_runs_off(slope: str, asks: bool) -> None:
    """1/4 in to a foot is 1.19 degrees."""
    result, _ = of(clean(roof(roof_live="20 psf")), service="roof", roof_slope=slope)
    assert bool(guards(result, "loads.ponding")) is asks


@pytest.mark.parametrize(("live", "dead", "asks"), [("6 plf", "60 plf", False), ("5.99 plf", "60 plf", True)])
def test_people_per_length_of_a_tenth_of_the_weight(live: str, dead: str, asks: bool) -> None:
    found = guards(of([floor(what="floor", dead=dead, live=live)])[0], "loads.line")
    assert bool(found) is asks and (not asks or asked(found) == "beam.B.carries.1.live")


def test_lines_are_added_up_by_their_largest_kind() -> None:
    """4 and 3 lb/ft are a tenth of 70 lb/ft; snow beside people does not add up, the larger counts."""
    for first, asks in (({"live": "4.01 plf"}, False), ({"live": "3.9 plf", "snow": "2 plf"}, True)):
        loads = [floor(what="one", dead="40 plf", **first), floor(what="other", dead="30 plf", live="3 plf")]
        assert bool(guards(of(loads)[0], "loads.line")) is asks


def test_with_a_load_per_area_lines_are_not_asked() -> None:
    loads = [floor(what="wall", dead="400 plf", live="1 plf"), floor(dead="10 psf", live="40 psf", width="6 ft")]
    assert not guards(of(loads)[0], "loads.line")


def test_one_heavy_thing_and_its_feet() -> None:
    safe = floor(what="floor with a safe", dead="10 psf", live="40 psf", width="4 ft")
    (check,) = guards(of([safe])[0], "loads.heavy_thing")
    assert check.questions[0].field == "beam.B.carries.1.meant.live"
    foot = {"what": "foot of the safe", "live": "500 lb", "at": "3 ft", "applied": "top"}
    assert not guards(of([safe, foot])[0], "loads.heavy_thing")


# ---- the head of the job ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("head", "load", "service", "keys"), [
    ({"ground_snow": "40 psf"}, {}, "roof", "ground_snow_unused"), ({"ground_snow": "0 psf"}, {}, "roof", ""),
    ({"ground_snow": "40 psf"}, {"snow": "28 psf"}, "roof", ""), ({}, {}, "roof", ""),
    ({"wind_speed": "115 mph"}, {}, "roof", "wind_speed"), ({"wind_speed": "115 mph"}, {}, "floor", ""),
    ({"wind_speed": "115 mph"}, {"wind": "-10 psf"}, "roof", ""),
    ({"wind_speed": "115 mph", "wind_by": BY}, {}, "roof", ""),
])  # fmt: skip
def test_what_the_head_speaks_of_and_nothing_carries(head: Data, load: Data, service: str, keys: str) -> None:
    data = job(beam(carries=[floor(live="40 psf", dead="10 psf", width="4 ft", **load)], service=service), wood=WOOD)
    data["job"] |= head
    found = list(job_checks(job_from_data(data)))
    assert [one.verdict for one in found] == ["refer"] * len(keys.split())
    answers = {question.id.split("/")[1]: question.answers for one in found for question in one.questions}
    assert set(answers) == set(keys.split())
    if keys == "ground_snow_unused":  # 0.7 of it on a flat roof (ASCE 7-16 7.3, memory), or none
        assert [one.sets for one in answers[keys]] == [
            (("beam.B.carries.1.snow", "28 psf"),), (("job.ground_snow", "0 psf"),)
        ]  # fmt: skip


# ---- outdoors --------------------------------------------------------------------------------------------------------

DRY_BY, LASTS = {"meant": {"moisture": "a roof keeps rain off"}}, {"meant": {"treated": "heart of redwood"}}
TREATED: Data = {"treated": True, "treated_with": "preservative"}


@pytest.mark.parametrize(("what", "service", "wood", "keys"), [
    ("deck", "floor", {}, "weather_rot weather_wet"), ("deck", "floor", {"moisture": "wet"}, "weather_rot"),
    ("deck", "floor", DRY_BY, "weather_rot"), ("deck", "floor", LASTS, "weather_wet"),
    ("deck", "floor", {"moisture": "wet", **TREATED}, ""), ("deck", "floor", TREATED, "weather_wet"),
    ("deck", "floor", {"moisture": "wet", **DRY_BY}, "weather_rot"), ("floor", "floor", {}, ""),
    ("deck", "roof", {}, ""),
])  # fmt: skip
def test_wood_outdoors(what: str, service: str, wood: Data, keys: str) -> None:
    """Rain makes it wet service (NDS 2018 4.1.4, memory), and something has to keep it from rot; of a roof neither."""
    piece = Beam.model_validate(beam(carries=[floor(what=what, live="60 psf", width="6 ft")], service=service))
    bare = {key: value for key, value in WOOD.items() if key != "measured_moisture"}
    found = weather_checks(piece, Stock.model_validate({**bare, **wood}))
    assert sorted(question.id.split("/")[1] for one in found for question in one.questions) == keys.split()


@pytest.mark.parametrize(
    ("psf", "answer"), [("20 psf", None), ("20.1 psf", 20.1), ("33 psf", 33.0), ("200 psf", 200.0)]
)
def test_more_roof_live_load_than_repairs_bring_is_offered_as_live_load(psf: str, answer: float | None) -> None:
    """20 psf is what men bring who repair it (ASCE 7-16 4.8.3); nobody is said to stay: no least counts."""
    result, _ = of(clean(roof(roof_live=psf, wind="-18 psf")), service="roof")
    found = [one.questions[0].answers[0] for one in guards(result, "loads.roof")
             if one.questions[0].field.endswith(".roof_live")]  # fmt: skip
    assert [float(str(one.sets[0][1]).split(" ")[0]) for one in found] == ([] if answer is None else [answer])


@pytest.mark.parametrize(("dead", "number"), [
    ((None, "3 psf", None), 2), ((None, None, "3 psf"), 3), (("2 psf", "1 psf", None), 1), ((None, None, None), 1),
])  # fmt: skip
def test_weight_that_is_missing_is_asked_where_some_is_given(dead: tuple[str | None, ...], number: int) -> None:
    """3 psf is less than any floor weighs; the answer goes to the first entry with weight, else to that with people."""
    loads = [floor(what="floor", width="4 ft", dead=one, live="40 psf" if place == 0 else None)
             for place, one in enumerate(dead)]  # fmt: skip
    loads = [load for load in clean(loads) if "dead" in load or "live" in load]
    at = [place for place, one in enumerate(dead) if one is not None or place == 0].index(number - 1) + 1
    (check,) = guards(of(loads)[0], "loads.dead")
    assert asked([check]) == f"beam.B.carries.{at}.dead"
