"""Jobs as data and as classes in Python, and the schema of the job file."""

from __future__ import annotations

import json
import tomllib
from typing import Any

import jsonschema  # type: ignore[import-untyped]
import pytest
from pydantic import ValidationError

from beamcheck.errors import JobError
from beamcheck.model.beams import Beam
from beamcheck.model.job import About, Job
from beamcheck.model.loads import Load
from beamcheck.model.reading.reader import job_from_data, read_job_text
from beamcheck.model.reading.schema import job_schema
from beamcheck.model.sticks import Support
from beamcheck.units import registry

from .jobs import GOOD, edited


def _data() -> dict[str, Any]:
    return tomllib.loads(GOOD)


def test_data_and_text_give_the_same_job() -> None:
    assert job_from_data(_data()) == read_job_text(GOOD)


def test_data_may_hold_pint_quantities_and_pieces() -> None:
    """4.2672 m are exactly 14 ft (1 ft = 0.3048 m)."""
    data = _data()
    data["beam"][0]["supports"][1]["at"] = registry().Quantity(4.2672, "m")
    data["post"] = list(read_job_text(GOOD).post)
    job = job_from_data(data)
    assert job.beam[0].supports[1].at == pytest.approx(168.0, rel=1e-12)
    assert job.post == read_job_text(GOOD).post


def test_wrong_data_gives_all_problems_without_lines() -> None:
    data = _data()
    del data["beam"][0]["finish"]
    data["post"][0]["on"] = "foting"
    data["post"][0]["height"] = registry().Quantity(8, "psi")
    with pytest.raises(JobError) as caught:
        job_from_data(data)
    found = caught.value.problems
    assert {problem.where for problem in found} == {
        'beam "B1", finish',
        'post "west post", on',
        'post "west post", height',
    }
    assert all(problem.line is None for problem in found)
    assert str(caught.value).startswith("job: 3 problems\n")


@pytest.mark.parametrize("data", [None, 3, "text", [], Job], ids=["none", "number", "text", "list", "class"])
def test_what_is_no_data(data: Any) -> None:
    with pytest.raises(JobError, match="a job is a dictionary, not "):
        job_from_data(data)


@pytest.mark.parametrize(
    ("data", "text"),
    [
        ({5: 1}, "5 is not the name of a field"),
        ({"job": {5: 1}}, "job: 5 is not the name of a field: names are text"),
        ({"beam": [{"cuts": {"x": object}}]}, "cuts"),
        ({"job": {"title": "\ud800"}}, "job, title: '\\ud800': "),
        ({"beam": [[]]}, "beam 1"),
        ({"beam": [{"name": 10**5000}]}, "that is not text"),
        ({"job": {"title": "x", "\x1b[31m": 1}}, "'\\x1b[31m'"),
    ],
    ids=["key", "inner key", "object", "half a character", "list", "large number", "escape"],
)  # fmt: skip
def test_odd_data_is_refused_in_words(data: Any, text: str) -> None:
    with pytest.raises(JobError) as caught:
        job_from_data(data)
    assert text in str(caught.value)
    assert "\x1b" not in str(caught.value)


# a type checker knows the fields as they are stored, not as they may be given
make_beam: Any = Beam
make_load: Any = Load
make_support: Any = Support
make_about: Any = About
REST = {"name": "B1", "stock": "old beam", "finish": "none", "service": "floor", "top_held": "2 ft"}


def test_the_classes_take_text_lists_and_quantities() -> None:
    beam = make_beam(
        **REST,
        supports=[make_support(at="0 ft", on="wall"), {"at": registry().Quantity(12, "ft"), "on": "wall"}],
        carries=[make_load(what="x", dead="10 plf", start="1 ft", end="2 ft")],
    )
    assert (beam.top_held, beam.supports[1].at, beam.carries[0].start) == (24.0, 144.0, 12.0)
    assert isinstance(beam.supports, tuple)


def test_the_classes_refuse_in_the_same_words() -> None:
    with pytest.raises(JobError, match="say dead, live, roof_live, snow or wind"):
        make_load(what="x")
    supports = [make_support(at="0 ft", on="a"), make_support(at="9 ft", on="b")]
    with pytest.raises(JobError, match="carries 1, width: missing: a load per area needs the width"):
        make_beam(**REST, supports=supports, carries=[make_load(what="x", dead="10 psf")])
    with pytest.raises(JobError, match="NDS 2018"):
        make_about(title="x", standard="NDS 2005", loads="ASCE 7-16")


def test_pieces_cannot_be_changed_afterwards() -> None:
    job = read_job_text(GOOD)
    with pytest.raises(ValidationError, match="frozen"):
        job.beam[0].plies = 3  # type: ignore[misc]


def test_the_schema_is_sound_stable_and_without_an_address() -> None:
    schema = job_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    assert json.dumps(schema) == json.dumps(job_schema())
    assert "$id" not in json.dumps(schema)
    assert schema["title"] == "whatcarries job file"


def test_the_schema_accepts_the_good_job_and_names_slips() -> None:
    validator = jsonschema.Draft202012Validator(job_schema())
    assert list(validator.iter_errors(_data())) == []
    bad = tomllib.loads(edited(('finish = "plaster"', 'finsh = "plaster"'), ('height = "8 ft"', "height = 8")))
    messages = " ".join(error.message for error in validator.iter_errors(bad))
    assert "'finish' is a required property" in messages
    assert "'finsh' was unexpected" in messages
    assert "8 is not of type 'string'" in messages


def test_every_table_and_field_of_the_schema_is_described() -> None:
    schema = job_schema()
    for name, table in schema["$defs"].items():
        assert table["description"], name
        for field, said in table["properties"].items():
            assert said.get("description"), f"{name}.{field}"
    assert {"from", "to"} <= set(schema["$defs"]["Load"]["properties"])
