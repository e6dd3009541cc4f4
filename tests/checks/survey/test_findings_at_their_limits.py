"""Every entry of a survey at its threshold and just beside it; the timber is 7 1/2 x 9 1/2 in and 14 ft (168 in) long.

The thresholds are rows of `tables/survey_thresholds.csv` (practice); what is measured against them is by hand here.
"""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.survey.findings import Finding, findings
from beamcheck.model.stock import Stock

from .timbers import CLEAN, Data, data

G, E, N = "grader", "engineer", "nothing"


def all_of(leave: tuple[str, ...] = (), **survey: Any) -> list[Finding]:
    wood = data()["stock"][0]
    kept = {key: value for key, value in {**CLEAN, **survey}.items() if key not in leave}
    return findings(Stock.model_validate({**wood, "survey": kept}))


def of(entry: str, leave: tuple[str, ...] = (), **survey: Any) -> list[tuple[str, str]]:
    return [(one.for_whom, one.text) for one in all_of(leave, **survey) if one.entry == entry]


def whom(entry: str, leave: tuple[str, ...] = (), **survey: Any) -> list[str]:
    return [for_whom for for_whom, _ in of(entry, leave, **survey)]


def read(*percent: float, **more: Any) -> Data:
    return {"readings": [{"at": f"{2 + i} ft", "moisture": f"{p} %", **more} for i, p in enumerate(percent)]}


def grain(*faces: tuple[str, float]) -> Data:
    return {"grain": [{"face": face, "one_in": run} for face, run in faces]}


def knot(face: str, width: float, **more: Any) -> Data:
    return {"knots": [{"at": "7 ft", "face": face, "width": f"{width} in", **more}]}


def opening(kind: str, start: float, end: float, **more: Any) -> Data:
    return {"openings": [{"kind": kind, "start": f"{start} in", "end": f"{end} in", **more}]}


def loss(what: str, where: str, depth: float, start: str = "6 ft") -> Data:
    return {"losses": [{"what": what, "start": start, "end": "8 ft", "where": where, "depth": f"{depth} in"}]}


def test_a_clean_survey_has_every_entry_once() -> None:
    assert [one.entry for one in all_of()] == [
        "not looked at", "faces not seen", "photographs", "species by look", "moisture", "outside the meter",
        "slope of grain", "heart checks", "decay", "insects, old", "insects, active", "metal", "seat crushed", "fire",
        "chemicals", "overload", "sag", "use", "old cuts",
    ]  # fmt: skip
    assert {one.for_whom for one in all_of()} == {N}


@pytest.mark.parametrize(
    ("entry", "survey", "expected"),
    [
        # moisture over 20 and over 30 %, the wettest; a pin meter tells 6 to 30 %, a plate meter 4 to 30
        ("moisture", read(13.0, 20.0, 12.0), [N]), ("moisture", read(13.0, 20.01, 12.0), [G]),
        ("moisture", read(30.0), [G]), ("moisture", read(30.01), [E]),
        ("outside the meter", read(6.0, 30.0), [N]), ("outside the meter", read(5.99), [G]),
        ("outside the meter", read(30.1), [G]), ("outside the meter", {**read(4.0), "meter": "plate"}, [N]),
        ("outside the meter", {**read(3.99), "meter": "plate"}, [G]),
        # a fifth of 7 1/2 in, where every reading says how deep it was
        ("readings near the face", read(13.0, deep="1 1/2 in"), [N]),
        ("readings near the face", read(13.0, deep="1.49 in"), [G]), ("readings near the face", read(13.0), []),
        # rise over run from 1/8 and 1/6; faces that meet together, those across from each other not
        ("slope of grain", grain(("left", 8.0)), [G]), ("slope of grain", grain(("right", 8.002)), [N]),
        ("slope of grain", grain(("top", 6.0)), [E]), ("slope of grain", grain(("bottom", 6.01)), [G]),
        ("slope of grain", grain(("left", 10.0), ("bottom", 40.0 / 3.0)), [G]),
        ("slope of grain", grain(("right", 40.0 / 3.0), ("top", 10.0)), [G]),
        ("slope of grain", grain(("left", 10.0), ("right", 10.0)), [N]),
        ("slope of grain", grain(("top", 10.0), ("bottom", 10.0)), [N]), ("slope of grain", {"grain": []}, []),
        # a quarter of the depth at an edge, half of the breadth on a narrow face
        ("edge knot", knot("left", 2.375), [N]), ("edge knot", knot("right", 2.376), [G]),
        ("edge knot", knot("left", 4.0, place="center"), []), ("edge knot", knot("top", 4.0), []),
        ("narrow face knot", knot("top", 3.75), [N]), ("narrow face knot", knot("bottom", 3.76), [G]),
        ("narrow face knot", knot("left", 4.0), []),
        ("unsound knot", knot("left", 0.5, sound=False), [G]), ("unsound knot", knot("left", 0.5), []),
        # checks within three depths (28 1/2 in) of an end: half of the breadth, both sides together
        ("checks at the ends", opening("check", 28.4, 40.0, depth="2 in", other_side="1.75 in"), [N]),
        ("checks at the ends", opening("check", 28.4, 40.0, depth="2 in", other_side="1.76 in"), [E]),
        ("checks at the ends", opening("shake", 28.5, 139.5, depth="4 in"), []),
        ("checks at the ends", opening("check", 100.0, 139.6, depth="4 in"), [E]),
        # what goes right through is a split; within half an inch of an end it is an end split
        ("split away from the ends", opening("check", 60.0, 72.0, depth="4 in", other_side="3.5 in"), [E]),
        ("split away from the ends", opening("check", 60.0, 72.0, depth="4 in", other_side="3.49 in"), []),
        ("split away from the ends", opening("split", 0.51, 10.0), [E]),
        ("split away from the ends", opening("split", 160.0, 167.49), [E]),
        ("end split", opening("split", 0.0, 9.5), [N]), ("end split", opening("split", 0.5, 10.1), [G]),
        ("end split", opening("split", 0.0, 14.25), [G]), ("end split", opening("split", 0.0, 14.3), [E]),
        ("end split", opening("split", 158.4, 168.0), [G]), ("end split", opening("split", 158.5, 167.5), [N]),
        ("split at bolts", opening("check", 60.0, 72.0, depth="1 in", at_bolts=True), [E]),
        ("split at bolts", opening("check", 60.0, 72.0, depth="1 in"), []),
        ("heart checks", {"heart_checks": "to an end or the tension face"}, [G]),
        # a tenth of section modulus or area: of the breadth both alike, of the depth S goes first
        ("section lost", loss("hewing", "left", 0.75), [N]), ("section lost", loss("hewing", "left", 0.76), [E]),
        ("section lost", loss("hewing", "top", 0.48), [N]), ("section lost", loss("hewing", "top", 0.49), [E]),
        # signs
        ("metal", {"metal": "sound"}, [N]), ("metal", {"metal": "loose or corroded"}, [E]),
        ("seat crushed", {"crushed": "1/8 in"}, [N]), ("seat crushed", {"crushed": "0.13 in"}, [E]),
        ("fire", {"fire": "smoke only"}, [E]), ("chemicals", {"chemicals": "seen"}, [E]),
        ("overload", {"overload": "seen"}, [E]), ("sag", {"sag": "0.7 in"}, [N]), ("sag", {"sag": "0.701 in"}, [E]),
        ("use", {"use": "more load, a new cut, or a support gone"}, [E]),
        ("old cuts", {"cuts": [{"kind": "hole", "at": "3 ft", "depth": "1 in", "from_bottom": "4 in"}]}, [G]),
        ("faces not seen", {"not_seen": ["left end"]}, [G]),
        ("photographs", {"photographs": ["1"] * 5}, [G]), ("photographs", {"photographs": ["1"] * 7}, [N]),
        ("species by look", {"species_by": "look"}, [G]), ("species by look", {"species_by": "hearsay"}, [G]),
    ],
)  # fmt: skip
def test_an_entry_at_its_limit_and_beside_it(entry: str, survey: Data, expected: list[str]) -> None:
    assert whom(entry, **survey) == expected


@pytest.mark.parametrize(
    ("leave", "survey", "expected"),
    [
        ((), {}, {"decay": (N, "none"), "insects, old": (N, "no old holes"), "insects, active": (N, "none")}),
        ((), loss("decay", "left", 0.1), {"decay": (E, "as measured")}),
        (("decay",), loss("decay", "left", 0.1), {"decay": (E, "as measured")}),
        ((), {"decay": "rot", **loss("decay", "left", 0.1)}, {"decay": (E, "rot")}),
        ((), {"decay": "dull, soft or short break"}, {"decay": (E, "dull, soft or short break")}),
        (("decay",), {}, {}),
        ((), {"insects": "old holes"}, {"insects, old": (G, "old holes"), "insects, active": (N, "old holes")}),
        ((), {"insects": "active"}, {"insects, old": (N, "no old holes"), "insects, active": (E, "active")}),
        ((), {"insects": "active", **loss("insects", "left", 0.1)},
         {"insects, old": (N, "no old holes"), "insects, active": (E, "active")}),
        (("insects",), loss("insects", "left", 0.1),
         {"insects, old": (G, "old holes"), "insects, active": (N, "old holes")}),
        (("insects",), {}, {}),
        (("fire",), loss("char", "left", 0.1), {"fire": (E, "char")}), (("fire",), {}, {}),
        ((), loss("char", "left", 0.1), {"fire": (E, "none")}), ((), {"fire": "none"}, {"fire": (N, "none")}),
    ],
)  # fmt: skip
def test_what_was_seen_and_what_was_measured_of_decay_insects_and_fire(
    leave: tuple[str, ...], survey: Data, expected: dict[str, tuple[str, str]]
) -> None:
    found = {one.entry: (one.for_whom, one.text.split(": ")[1]) for one in all_of(leave, **survey)
             if one.entry in ("decay", "insects, old", "insects, active", "fire")}  # fmt: skip
    named = {word.split(",")[0] for word in expected} or {leave[0]}
    assert {entry: said for entry, said in found.items() if entry.split(",")[0] in named} == expected


@pytest.mark.parametrize(
    "entry", ["species_by", "heart_checks", "decay", "insects", "metal", "crushed", "fire", "chemicals", "overload",
              "sag", "use", "cuts", "readings"],
)  # fmt: skip
def test_what_was_not_looked_at_is_said_once_and_has_no_line_of_its_own(entry: str) -> None:
    lines = {one.entry.split(",")[0] for one in all_of()} - {one.entry.split(",")[0] for one in all_of((entry,))}
    own = {
        "species_by": "species by look",
        "crushed": "seat crushed",
        "cuts": "old cuts",
        "heart_checks": "heart checks",
    }
    expected = {"moisture", "outside the meter"} if entry == "readings" else {own.get(entry, entry)}
    assert lines == expected


def test_how_much_was_not_looked_at() -> None:
    """Named in words; faces of which the slope was never read and a looker without a day count, too."""
    assert of("not looked at") == [(N, "not looked at: nothing")]
    assert of("not looked at", ("decay", "sag")) == [(G, "not looked at: decay, sag")]
    assert of("not looked at", grain=[]) == [(G, "not looked at: slope of grain")]
    assert of("not looked at", by="a carpenter") == [(G, "not looked at: on which day it was looked at")]
    assert of("not looked at", ("by",)) == [(G, "not looked at: who looked, and when")]
    assert of("not looked at", stations=[]) == [(G, "not looked at: sections at three places")]


def test_the_figures_that_are_said() -> None:
    wet = [*read(13.0)["readings"], {"at": "7 ft", "moisture": "21 %", "near": "roof"}]
    assert of("moisture", readings=wet) == [(G, "wettest reading 21 % at 7 ft, near the roof")]
    assert of("slope of grain", **grain(("left", 10.0))) == [(N, "slope of grain 1 in 10, the faces together")]
    assert of("outside the meter", **read(5.0, 13.0, 31.0))[0][1].endswith("(6 to 30 %): 5 %, 31 %")
    assert of("readings near the face", **read(13.0, deep="1 in")) == [(G, "deepest reading 1 in; 1 1/2 in are wanted")]
    assert of("checks at the ends", **opening("check", 0.0, 24.0, depth="2 in", other_side="1 in")) == [
        (N, "check 2 ft long from 0 in, 3 in deep, both sides added")]  # fmt: skip
    assert of("photographs", photographs=["1", "2"]) == [(G, "2 photographs, 6 are wanted")]
    (said,) = of("section lost", **loss("hewing", "left", 1.5))
    assert said == (E, "the least section from 6 ft to 7 ft (hewing left): 20 % of the section modulus and 20 % of the "
                       "area are gone")  # fmt: skip
    two = {"losses": [*loss("hewing", "left", 0.75)["losses"], *loss("hewing", "top", 1.9, "7 ft")["losses"]]}
    assert "36 % of the section modulus" not in of("section lost", **two)[0][1]  # both together: 1 - 0.9 x 0.64
    assert "42 % of the section modulus and 28 % of the area" in of("section lost", **two)[0][1]


@pytest.mark.parametrize(("back", "expected"), [(False, [E]), (True, [N]), (None, [N])])
def test_a_sag_that_stayed(back: bool | None, expected: list[str]) -> None:
    test = {"span": "13 ft", "weight": "600 lb", "sag": "0.2 in", "supports_sank": "0 in"}
    assert whom("sag that stayed", sag_test={**test, **({} if back is None else {"came_back": back})}) == expected
    assert whom("sag that stayed", sag_test={"span": "13 ft", "weight": "600 lb"}) == []
