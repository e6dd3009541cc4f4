"""Every quantity of the job file has bounds; nothing below zero, no nothing and no absurd figure gets through."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, get_args

import pytest
from pydantic import BaseModel

from beamcheck.errors import BeamcheckError, JobError
from beamcheck.model.fields.bounds import BOUNDS
from beamcheck.model.job import Job
from beamcheck.model.reading.reader import read_job_text

from .test_slips import JOB

# told by a rule of the class or by the type itself: signed loads, angles of grain, forces that may be words, a slope
BY_RULE = {
    "ground_snow", "one_side", "dead", "live", "roof_live", "snow", "wind", "grain", "sweep", "accidental", "start",
    "end", "roof_slope", "up_to", "lifts", "presses", "partitions",
}  # fmt: skip


def parts(annotation: Any) -> list[Any]:
    return [annotation, *(part for inner in get_args(annotation) for part in parts(inner))]


def classes(model: type[BaseModel], seen: set[type[BaseModel]]) -> Iterator[type[BaseModel]]:
    if model in seen:
        return
    seen.add(model)
    yield model
    for info in model.model_fields.values():
        for part in parts(info.annotation):
            if isinstance(part, type) and issubclass(part, BaseModel):
                yield from classes(part, seen)


@pytest.mark.parametrize("model", list(classes(Job, set())), ids=lambda model: model.__name__)
def test_every_quantity_has_bounds(model: type[BaseModel]) -> None:
    bounds = {field for cls in model.__mro__ for field in BOUNDS.get(cls.__name__, {})}
    for name, info in model.model_fields.items():
        extras = [
            *info.metadata,
            *(one for part in parts(info.annotation) for one in getattr(part, "__metadata__", ())),
        ]
        if any("its unit" in str(getattr(extra, "json_schema", "")) for extra in extras):
            assert name in bounds | BY_RULE, f"{model.__name__}.{name}"


@pytest.mark.parametrize(
    ("written", "bad", "where", "text"),
    [
        ('takes = "20,000 lb"', 'takes = "0 lb"', 'existing "wall", takes', "leave takes out"),
        ('takes = "20,000 lb"', 'takes = "-8,000 lb"', 'existing "wall", takes', 'for example takes = "8,000 lb"'),
        ('takes = "20,000 lb"', 'takes = "1,000,000,000 lb"', 'existing "wall", takes', "cannot be right"),
        ('takes = "20,000 lb"', 'F_c_perp = "3,000 psi"', 'existing "wall", F_c_perp', "from 100 to 1,500 psi"),
        ('what = "concrete wall"', 'what = " "', 'existing "wall", what', "what is it?"),
        ('what = "floor"', 'what = ""', 'beam "B", carries 1, what', "what is it that loads the piece?"),
        ('top_held = "full length"', 'top_held = "0.0001 in"', 'beam "B", top_held', "from 1 to 2,400 in"),
        ('top_held = "full length"', 'top_held = "-2 ft"', 'beam "B", top_held', "a length has no sign"),
        ("invented = true", 'invented = true\nground_snow = "-40 psf"', "job, ground_snow", 'ground_snow = "0 psf"'),
        ("invented = true", 'invented = true\nground_snow = "99,999 psf"', "job, ground_snow", "cannot be right"),
        ("invented = true", 'invented = true\nground_snow = "40 plf"', "job, ground_snow", "a load per area"),
        ('name = "wall"', 'name = "wa\u202ell"', "existing", "U+202E"),
        ('what = "floor"', 'what = "flo\u2066or"', 'beam "B", carries 1, what', "U+2066"),
    ],
)
def test_what_no_house_has_is_refused_with_place_and_cure(written: str, bad: str, where: str, text: str) -> None:
    assert written in JOB
    with pytest.raises(JobError) as caught:
        read_job_text(JOB.replace(written, bad, 1))
    assert any(problem.where.startswith(where) and text in problem.text for problem in caught.value.problems), str(
        caught.value
    )


def test_a_bad_argument_in_python_is_told_in_our_words_with_its_place() -> None:
    from beamcheck import Beam, Existing, Load, Support

    for make, text in (
        (lambda: Load(what="a", live="40"), r"Load: 1 problem\n  live: '40' has no unit"),
        (lambda: Load(what="a", live="40 psf", start="x"), "start: 'x' is not a length"),
        (lambda: Existing(name="E", what="wall", takes="-1 lb"), 'Existing "E": 1 problem\n  takes: nothing, or less'),
        (lambda: Support(at="0 ft"), "on: missing: the name of another piece"),
        (lambda: Beam(name="B", supports=[{"at": "0 ft"}]), "supports 1, on: missing"),
    ):
        with pytest.raises(BeamcheckError, match=text):
            make()
