"""The survey on the phone: begun, walked through and printed; what it says so far stands beside it."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from beamcheck.model.conditions.survey import Survey
from beamcheck.page.form.words import SECTIONS
from beamcheck.sheet.survey.form import blank_form

from ..sheet.pdf.pdf_reader import Sheet, squeezed
from .pages import digest_of, visitor, without_first_survey


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return without_first_survey(tmp_path)


def put(client: Any, path: str, value: Any) -> Any:
    at = f"stock.timber 1.survey{path and '.'}{path}"
    body = {"page": "t", "digest": digest_of(client, "old"), "sets": [[at, value]], "kind": "stock", "number": 1}
    return client.post("/job/old/set", json=body).json()


def held(folder: Path) -> dict[str, Any]:
    found: dict[str, Any] = tomllib.loads((folder / "old.toml").read_text(encoding="utf-8"))["stock"][0]["survey"]
    return found


def test_a_survey_from_nothing_to_what_it_says(folder: Path) -> None:
    client = visitor(folder)
    assert "Add the survey of this timber" in client.get("/job/old/survey/1").text
    said = put(client, "", {"length": "14 ft", "by": "the carpenter, 9 October 2026", "species_by": "look"})
    assert said["written"] and "not looked at: sections" in said["see"]
    stations = {
        str(n): {"at": at, "breadth": "7 1/2", "depth": "9 1/2"} for n, at in enumerate(("1 ft", "7 ft", "13 ft"), 1)
    }
    assert put(client, "stations", stations)["written"]
    for path, value in (("meter", "pins"), ("readings.1", {"at": "3 ft", "moisture": "24"}), ("knots", "none"),
                        ("openings", "none"), ("losses", "none"), ("not_seen", "none"),
                        ("cuts.1", {"kind": "hole", "at": "5 ft", "depth": "1", "face": "side", "from_bottom": "4"}),
                        ("photographs", "top, left end")):  # fmt: skip
        assert put(client, path, value).get("written"), path
    found = held(folder)
    assert [one["at"] for one in found["stations"]] == ["1 ft", "7 ft", "13 ft"]
    assert (found["knots"], found["openings"], found["losses"], found["not_seen"]) == ([], [], [], [])
    text = client.get("/job/old/survey/1").text
    assert "looked, there is none" in text and "wettest reading 24 %" in text
    assert "decay" in text and "not looked at" in text  # what is left open is said


@pytest.mark.parametrize(
    ("path", "value", "words"),
    [("readings.1", {"at": "3 ft", "moisture": "24"}, "which kind of meter"),
     ("knots.1", {"at": "40 ft", "face": "left", "width": "1"}, "beyond the end"),
     ("knots.1", {"at": "4 ft", "face": "left", "width": "12"}, "does not fit on a face"),
     ("stations", {"1": {"at": "1 ft", "breadth": "7", "depth": "9"}}, "1 only")],
)  # fmt: skip
def test_what_cannot_be_is_told_and_not_written(folder: Path, path: str, value: Any, words: str) -> None:
    client = visitor(folder)
    put(client, "", {"length": "14 ft"})
    said = put(client, path, value)
    assert any(words in one["text"] for one in said["problems"]) and not said.get("written")
    assert held(folder) == {"length": "14 ft"}


def test_the_filled_form_prints(folder: Path) -> None:
    client = visitor(folder)
    text = squeezed(Sheet(client.get("/job/old/survey/2.pdf").content).text)
    assert squeezed("Survey of an old timber: timber 2") in text and squeezed("9 October 2026") in text
    assert client.get("/job/old/survey/1.pdf").status_code == 409  # nobody has looked at that one
    assert client.get("/job/old/survey/99").status_code == 404


def test_every_entry_has_its_step_and_the_steps_are_those_of_the_printed_form() -> None:
    steps = SECTIONS["Survey"]
    placed = [name for _, names in steps for name in names]
    assert sorted(placed) == sorted(Survey.model_fields)
    assert [title for title, _ in steps] == [one.title for one in blank_form().sections]
