"""Answers and rulings as the job file holds them, the paths that they name, and what counts as evidence."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from beamcheck.errors import JobError
from beamcheck.model.fields.evidence import read_evidence
from beamcheck.model.job import Job
from beamcheck.model.job_paths import get_field, same_value, with_values
from beamcheck.model.reading.reader import job_from_data

STOCK = {
    "name": "old 6x12, wall", "species": "Douglas Fir-Larch", "grade": "No.1", "size": "6x12 dressed",
    "moisture": "dry", "grade_from": "stamp", "evidence": "stamp: agency mark, mill 12",
}  # fmt: skip
BEAM = {
    "name": "B. 1", "stock": "old 6x12, wall", "service": "floor", "finish": "none", "top_held": "full length",
    "supports": [{"at": "0 ft", "on": "wall"}, {"at": "12 ft", "on": "wall"}],
    "carries": [{"what": "floor", "live": "240 plf", "from": "1 ft"}],
}  # fmt: skip
ANSWER = {
    "to": "beam.B. 1.supports.2.bearing", "value": "3 1/2 in", "by": "the carpenter", "how": "tape",
    "date": "2026-03-02",
}  # fmt: skip
RULING = {
    "on": "B. 1", "question": "twist", "says": "detail S-4", "up_to": {"press": "450 lb"}, "by": "the engineer",
    "date": "2026-03-09", "document": "letters/B1.pdf",
}  # fmt: skip


def data(**more: Any) -> dict[str, Any]:
    about = {"title": "Test (invented)", "standard": "NDS 2018", "loads": "ASCE 7-16"}
    wall = {"name": "wall", "what": "wall", "confirmed_by": "invented sheet S-1, engineer"}
    return copy.deepcopy({"job": about, "stock": [STOCK], "beam": [BEAM], "existing": [wall], **more})


def read(**more: Any) -> Job:
    return job_from_data(data(**more))


def refused(**more: Any) -> str:
    with pytest.raises(JobError) as caught:
        read(**more)
    return "\n".join(map(str, caught.value.problems))


class TestPaths:
    @pytest.mark.parametrize(("path", "value", "inside"), [
        ("beam.B. 1.supports.2.bearing", "3 1/2 in", 3.5),
        ("beam.B. 1.supports.2.restrained", True, True),
        ("beam.B. 1.supports.2.restrained", "no", False),
        ("beam.B. 1.carries.1.from", "2 ft", 24.0),
        ("beam.B. 1.plies", "2", 2),
        ("beam.B. 1.top_held", "32 in", 32.0),
        ("stock.old 6x12, wall.measured_moisture", "12 %", 12.0),
        ("existing.wall.takes", "4,000 lb", 4000.0),
        ("job.ground_snow", "40 psf", (40.0 / 144.0, "area")),
        ("beam.B. 1.meant.at", "a niche, as wide as that", "a niche, as wide as that"),
    ])  # fmt: skip
    def test_a_value_is_read_by_its_field(self, path: str, value: Any, inside: Any) -> None:
        before = read()
        job = with_values(before, [(path, value)])
        assert get_field(job, path) == inside
        assert same_value(job, path, value)
        assert not same_value(before, path, value)

    def test_all_else_stays_the_same_object(self) -> None:
        before = read()
        job = with_values(before, [("beam.B. 1.supports.2.bearing", "3 in")])
        assert job.stock[0] is before.stock[0] and job.existing[0] is before.existing[0]
        assert job.beam[0].supports[0] is before.beam[0].supports[0]
        assert before.beam[0].supports[1].bearing is None

    def test_entries_are_added(self) -> None:
        """A new table of the job, a new entry of a list, a table within a piece that was not there yet."""
        strap = {
            "name": "strap", "manner": "rated hardware",
            "rating": {"source": "report no. 1 (invented), table 2", "up": "400 lb", "duration": "included"},
        }  # fmt: skip
        job = with_values(read(), [
            ("anchor", strap), ("beam.B. 1.supports.1.held_by", "strap"),
            ("beam.B. 1.carries", {"what": "shelf", "dead": "10 plf"}),
            ("beam.B. 1.carries.3", {"what": "lamp", "dead": "12 lb", "at": "6 ft"}),
        ])  # fmt: skip
        assert [anchor.name for anchor in job.anchor] == ["strap"]
        assert [load.what for load in job.beam[0].carries] == ["floor", "shelf", "lamp"]

    def test_nothing_takes_a_value_away(self) -> None:
        job = with_values(read(), [("beam.B. 1.supports.2.bearing", "3 in"), ("beam.B. 1.supports.2.bearing", None)])
        assert job == read()

    @pytest.mark.parametrize(("path", "value", "says"), [
        ("beem.B. 1.plies", "2", "there is no table 'beem'"),
        ("beam.C.plies", "2", "there is no [[beam]] of that name"),
        ("beam.B. 1.ply", "2", "there is no field 'ply'"),
        ("beam.B. 1.supports.5.bearing", "2 in", "supports has 2 entries"),
        ("beam.B. 1.supports.1.bearing", "2 psf", "cannot be read there"),
        ("beam.B. 1.length", "2 ft", "beyond the end"),
    ])  # fmt: skip
    def test_what_cannot_be_set_says_why(self, path: str, value: Any, says: str) -> None:
        with pytest.raises(JobError) as caught:
            with_values(read(), [(path, value)])
        assert says in str(caught.value)


class TestEntries:
    def test_they_are_read(self) -> None:
        job = read(answer=[ANSWER], ruling=[RULING])
        assert job.answer[0].words == "3 1/2 in, tape, the carpenter, 2026-03-02"
        assert (job.ruling[0].answers, job.ruling[0].up_to) == ("B. 1/twist", {"press": 450.0})

    @pytest.mark.parametrize("word", ["assumed", "probably 3 in", "?", " "])
    def test_a_guess_is_no_answer(self, word: str) -> None:
        assert "is no answer" in refused(answer=[{**ANSWER, "value": word}])
        assert "is no answer" in refused(ruling=[{**RULING, "says": word}])

    @pytest.mark.parametrize("who", ["me", "?", "I", "probably the mason"])
    def test_somebody_answers(self, who: str) -> None:
        assert "is nobody" in refused(answer=[{**ANSWER, "by": who}])
        assert "is nobody" in refused(ruling=[{**RULING, "by": who}])

    @pytest.mark.parametrize(("change", "says"), [
        ({"how": "a look"}, "tape"), ({"date": "last week"}, "year-month-day"),
        ({"to": "beam.C.plies"}, "of that name"),
        ({"value": "4 psf"}, "cannot be read there"), ({"date": "2026-02-30"}, "year-month-day"),
    ])  # fmt: skip
    def test_bad_answers_say_where(self, change: dict[str, str], says: str) -> None:
        text = refused(answer=[{**ANSWER, **change}])
        assert says in text and "answer" in text

    def test_a_ruling_is_on_something(self) -> None:
        assert "there is nothing named 'C'" in refused(ruling=[{**RULING, "on": "C"}])
        assert "above zero" in refused(ruling=[{**RULING, "up_to": {"press": "0 lb"}}])


class TestMeant:
    def test_it_says_why(self) -> None:
        job = read(beam=[{**BEAM, "meant": {"at": "niche, 13 in wide"}}])
        assert job.beam[0].insists_on("at") and not job.beam[0].insists_on("length")

    @pytest.mark.parametrize(("field", "why", "says"), [
        ("at", "yes", "at least 8 letters"), ("att", "niche, 13 in wide", "there is no such field here"),
    ])  # fmt: skip
    def test_it_is_a_reason_for_a_field(self, field: str, why: str, says: str) -> None:
        assert says in refused(beam=[{**BEAM, "meant": {field: why}}])


class TestEvidence:
    @pytest.mark.parametrize("text", [
        "letter of engineer 2 of 2026-01-12", "engineer's sheet S-1", "grading certificate 7, four faces",
        "letter of the engineer of record (invented), license no. 00000, 2 March 2026, sheet S-2",
        "B. Invented, engineer, letter of 3 May", "the owner, letter of 3 May 2025",
        "by: Ann Example; date: 2026-03-02",
    ])  # fmt: skip
    def test_who_and_when_or_what(self, text: str) -> None:
        assert read_evidence(text).vouched and not read_evidence(text).missing

    @pytest.mark.parametrize(("text", "missing"), [
        ("letter", "who says so"), ("letter of 3 May 2025", "who says so"), ("me", "who says so"),
        ("the engineer said so", "when, or in which document"), ("should be fine", "no answer yet"),
        ("TODO", "no answer yet"), ("ask the engineer, 3 May 2025", "no answer yet"),
        ("the engineer will write by 3 May 2025", "no answer yet"),
        ("probably the engineer, 3 May 2025", "no answer yet"), ("there is no stamp on it", "who says so"),
        ("by: me; date: 2026-03-02", "who says so"), ("by: Ann Example", "when, or in which document"),
        ("refused by the engineer, letter of 3 May 2025", "no answer yet"),
        ("not seen by the grader, 3 May 2025", "no answer yet"),
    ])  # fmt: skip
    def test_words_alone_are_none(self, text: str, missing: str) -> None:
        assert not read_evidence(text).vouched
        assert missing in read_evidence(text).missing

    def test_a_table_says_the_same(self) -> None:
        """The parts of evidence as fields of their own."""
        wall = {"name": "wall", "what": "wall", "confirmed_by": {"by": "the engineer", "document": "letter 2"}}
        job = read(existing=[wall])
        assert job.existing[0].confirmed_by == "by: the engineer; document: letter 2"
        assert read_evidence(job.existing[0].confirmed_by).vouched
        assert "by, date, document" in refused(existing=[{**wall, "confirmed_by": {"who": "me"}}])
