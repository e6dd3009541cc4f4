"""Figures that are probably slips: refused with what was perhaps meant, and taken with a reason.

Design: a slip has a suggestion and one way to insist. The figures are rows of `tables/judgment_slips.csv`: common
practice, no source, but for the span in depths (the longest of the code's own span tables is 36 depths).
"""

from __future__ import annotations

import re
from typing import Any

import pytest

from beamcheck.checks.job import check_job
from beamcheck.errors import JobError
from beamcheck.model.reading.reader import job_from_data, read_job_text
from beamcheck.values.judgment import judgment

from ..checks.frames.jobs import king

JOB = """\
[job]
title = "Slips (invented)"
standard = "NDS 2018"
loads = "ASCE 7-16"
invented = true

[[stock]]
name = "beam"
species = "Douglas Fir-Larch"
grade = "No.1"
size = "6x10 dressed"
moisture = "dry"
grade_from = "stamp"
evidence = "stamp: agency mark, mill 12, No.1, Douglas Fir-Larch"

[[existing]]
name = "wall"
what = "concrete wall"
material = "concrete"
confirmed_by = "letter of the engineer of record, 3 May 2025"
takes = "20,000 lb"

[[beam]]
name = "B"
stock = "beam"
service = "floor"
finish = "none"
top_held = "full length"
supports = [
  { at = "0 ft", on = "wall", bearing = "5 1/2 in", restrained = true },
  { at = "13 ft", on = "wall", bearing = "5 1/2 in", restrained = true },
]
carries = [{ what = "floor", dead = "12 psf", live = "40 psf", width = "4 ft", applied = "top" }]

[[post]]
name = "P"
stock = "beam"
height = "8 ft"
on = "wall"
top_restraint = "pinned"
eccentricity = "0 in"
eccentricity_weak = "0 in"
carries = [{ what = "girder", dead = "500 lb", live = "1,000 lb" }]
"""

# what is written in place of what; where; what was odd; what is asked; the field of `meant`; the table that has it
SLIPS = [
    ('"13 ft"', '"13 in"', 'beam "B", supports 2, at', "1.4 times the depth", "did you mean 13 ft?", "at", "beam"),
    ('"13 ft"', '"156 ft"', 'beam "B", supports 2, at', "times the depth", "did you mean 156 in?", "at", "beam"),
    ('"8 ft"', '"8 in"', 'post "P", height', "hardly a post", "did you mean 8 ft?", "height", "post"),
    ('"8 ft"', '"96 ft"', 'post "P", height', "taller than a house", "did you mean 96 in?", "height", "post"),
    ('width = "4 ft"', 'width = "4 in"', 'beam "B", carries 1, width', "a strip", "did you mean 4 ft?", "width",
     "beam"),
    ('width = "4 ft"', 'width = "12 in"', 'beam "B", carries 1, width', "a strip", "did you mean 12 ft?", "width",
     "beam"),  # 9 1/2 in deep: 1.26 depths
    ('live = "40 psf", width = "4 ft"', 'snow = "30 psf", width = "12 in"', 'beam "B", carries 1, width', "a strip",
     "did you mean 12 ft?", "width", "beam"),
    ('width = "4 ft"', 'width = "48 ft"', 'beam "B", carries 1, width', "48 ft wide", "did you mean 48 in?", "width",
     "beam"),
    ('live = "40 psf"', 'live = "400 psf"', 'beam "B", carries 1, live', "more than a house", "did you mean 40 psf?",
     "live", "beam"),
    ('live = "40 psf"', 'live = "1.9 psf"', 'beam "B", carries 1, live', "less than any code", "did you mean 1.9 kPa?",
     "live", "beam"),
    ('live = "40 psf"', 'live = "4 psf"', 'beam "B", carries 1, live', "less than any code", "did you mean 4 kPa?",
     "live", "beam"),
    ('bearing = "5 1/2 in"', 'bearing = "5 1/2 ft"', 'beam "B", supports 1, bearing', "a seat 5.5 ft long",
     "did you mean 5.5 in?", "bearing", "beam"),
    ('service', 'spacing = "1.6 in"\nservice', 'beam "B", spacing', "pieces 5.5 in thick", "did you mean 16 in?",
     "spacing", "beam"),
    ('service', 'spacing = "4 ft"\nmembers = 500\nshared_by = "2 in deck, nailed"\nservice', 'beam "B", members',
     "reach over 2,000 ft", "is it right?", "members", "beam"),
    ('invented = true', 'invented = true\nground_snow = "500 kPa"', "job, ground_snow", "cannot be right", "", "", ""),
    ('invented = true', 'invented = true\nground_snow = "300 psf"', "job, ground_snow", "more than any map",
     "did you mean 30 psf?", "ground_snow", "job"),
    ('invented = true', 'invented = true\nground_snow = "1.9 psf"', "job, ground_snow", "less than any map",
     "did you mean 1.9 kPa?", "ground_snow", "job"),
    ('moisture = "dry"', 'moisture = "dry"\nmeasured_moisture = "1.2 %"', 'stock "beam", measured_moisture',
     "drier than wood", "did you mean 12 %?", "measured_moisture", "stock"),
    ('moisture = "dry"', 'moisture = "wet"\nmeasured_moisture = "150 %"', 'stock "beam", measured_moisture',
     "more than a meter", "did you mean 15 %?", "measured_moisture", "stock"),
    ('"6x10 dressed"', "'6 in x 10 in'", 'stock "beam", size', "is the nominal size", '"6x10 dressed"', "size",
     "stock"),
]  # fmt: skip


@pytest.mark.parametrize(("written", "slip", "where", "odd", "asked", "key", "table"), SLIPS)
def test_a_slip_is_refused_with_a_suggestion_and_taken_with_a_reason(
    written: str, slip: str, where: str, odd: str, asked: str, key: str, table: str
) -> None:
    read_job_text(JOB)
    bad = JOB.replace(written, slip)
    with pytest.raises(JobError) as caught:
        read_job_text(bad)
    texts = [problem.text for problem in caught.value.problems if problem.where == where]
    assert texts and odd in texts[0] and asked in texts[0], str(caught.value)
    if not key:
        return
    assert f'meant = {{ {key} = "..." }}' in texts[0]
    name = {"job": "[job]", "stock": 'name = "beam"', "beam": 'name = "B"', "post": 'name = "P"'}[table]
    insisted = bad.replace(name, f'{name}\nmeant = {{ {key} = "measured twice in the old house" }}', 1)
    try:
        problems = {problem.where for problem in caught.value.problems} if read_job_text(insisted) else set()
    except JobError as still:  # another field can be odd for the same slip
        problems = {problem.where for problem in still.problems}
        assert where not in problems, str(still)


def test_the_reason_says_something_and_is_printed() -> None:
    odd = JOB.replace('"13 ft"', '"36 in"').replace('name = "B"', 'name = "B"\nmeant = { at = "door, 36 in wide" }')
    inputs = dict(check_job(read_job_text(odd)).pieces[0].inputs)
    assert inputs["place is meant"] == "door, 36 in wide"
    for filler in ("yes", "none", "?", "36 in"):
        with pytest.raises(JobError, match="at least 8 letters"):
            read_job_text(odd.replace("door, 36 in wide", filler))
    with pytest.raises(JobError, match="meant, spam: there is no such field"):
        read_job_text(odd.replace("meant = { at", "meant = { spam"))


def test_a_line_load_with_a_width_shows_what_it_would_be_per_area() -> None:
    """320 plf on a strip 8 ft wide are 40 psf."""
    with pytest.raises(JobError, match=r"did you mean 40 psf\?"):
        read_job_text(JOB.replace('live = "40 psf", width = "4 ft"', 'live = "320 plf", width = "8 ft"')
                      .replace('dead = "12 psf", ', ""))  # fmt: skip


@pytest.mark.parametrize(
    "change",
    [
        ('width = "4 ft"', 'width = "14 1/4 in"'),  # 1.5 depths of 9 1/2 in
        ('what = "floor", dead = "12 psf", live = "40 psf"', 'what = "storage", dead = "12 psf", live = "240 psf"'),
        ("service", 'spacing = "5 1/2 in"\nservice'),
        ("service", 'spacing = "8 ft"\nservice'),
        ('"13 ft"', '"3 ft 2 in"'),
        ('"13 ft"', '"31 ft 8 in"'),
        ('height = "8 ft"', 'height = "2 ft"'),
        ('"6x10 dressed"', "'5 1/2 in x 9 1/2 in'"),
        ('"6x10 dressed"', '"6x10 rough"'),
    ],
)
def test_what_occurs_in_houses_is_no_slip(change: tuple[str, str]) -> None:
    read_job_text(JOB.replace(*change))


def test_the_ends_of_a_span_are_those_of_the_table() -> None:
    """Three depths of 9 1/2 in are 28 1/2 in, forty are 380 in: those pass, a hair beyond does not."""
    least, most = judgment("slip: span, least depths").value, judgment("slip: span, most depths").value
    for depths, ok in ((least, True), (least - 0.01, False), (most, True), (most + 0.01, False)):
        text = JOB.replace('"13 ft"', f'"{9.5 * depths} in"')
        if ok:
            read_job_text(text)
        else:
            with pytest.raises(JobError, match="times the depth"):
                read_job_text(text)


def test_a_deep_header_over_a_door_is_no_slip() -> None:
    """A 4x12 over 3 ft clear on single trimmers: 37 1/2 in of 11 1/4 in, 3.3 depths; 13 in of 9 1/2 in stays one."""
    header = JOB.replace("6x10 dressed", "4x12").replace('"13 ft"', '"37 1/2 in"').replace("5 1/2 in", "1 1/2 in")
    read_job_text(header)


def test_many_near_supports_are_no_slip() -> None:
    """A ledger on studs at 16 in: each span is under two depths, the whole is not."""
    supports = ", ".join(f'{{ at = "{16 * i} in", on = "wall", bearing = "1 1/2 in" }}' for i in range(6))
    start, end = JOB.index("supports = ["), JOB.index("]\n", JOB.index("supports = [")) + 1
    read_job_text(JOB[:start] + f"supports = [{supports}]" + JOB[end:])


def test_a_strip_of_a_beam_on_which_others_land_may_be_narrow() -> None:
    joists = """
[[beam]]
name = "J"
stock = "beam"
service = "floor"
finish = "none"
top_held = "full length"
spacing = "16 in"
supports = [{ at = "0 ft", on = "B", lands_at = "3 ft" }, { at = "10 ft", on = "wall" }]
carries = [{ what = "floor", dead = "12 psf", live = "40 psf", width = "16 in" }]
"""
    narrow = JOB.replace('width = "4 ft"', 'width = "2 in"')
    read_job_text(narrow + joists)
    with pytest.raises(JobError, match="one beam alone"):
        read_job_text(narrow)


BESIDE = {
    "wind of the same strip": '{ what = "wind", wind = "-25 psf", width = "4 ft" }',
    "a wall": '{ what = "wall above", dead = "80 plf" }',
}


@pytest.mark.parametrize(
    ("beside", "kind", "width", "believed"),
    [
        # beside nothing but wind 1 1/2 depths of 9 1/2 in; on a header under a wall 12 in, an eave
        ("wind of the same strip", "roof_live", "14 in", False),
        ("wind of the same strip", "snow", "15 in", True),
        ("a wall", "snow", "12 in", True),
        ("a wall", "snow", "11 in", False),
        ("a wall", "roof_live", "5 in", False),
        ("a wall", "dead", "5 in", True),
    ],
)
def test_a_strip_of_a_roof_is_no_narrower_beside_wind_or_a_wall(
    beside: str, kind: str, width: str, believed: bool
) -> None:
    row = f'{{ what = "roof", {kind} = "20 psf", width = "{width}" }}'
    start, end = JOB.index("carries = ["), JOB.index("]\n", JOB.index("carries = [")) + 1
    text = JOB[:start] + f"carries = [{row}, {BESIDE[beside]}]" + JOB[end:]
    if believed:
        read_job_text(text)
    else:
        with pytest.raises(JobError, match="one beam alone"):
            read_job_text(text)


def test_a_stick_longer_than_any_is_asked_about() -> None:
    with pytest.raises(JobError, match="describe two pieces that meet"):
        read_job_text(JOB.replace('"13 ft"', '"31 ft"').replace('name = "B"', 'name = "B"\nlength = "42 ft"'))


@pytest.mark.parametrize(
    ("path", "slip", "asked", "key"),
    [
        (("feet", 0, "bearing"), "8 ft", "did you mean 8 in?", "bearing"),
        (("spacing",), "8 in", "did you mean 8 ft?", "spacing"),
        (("members", 0, "carries", 0, "width"), "8 in", "did you mean 8 ft?", "width"),
    ],
)
def test_slips_of_a_frame(path: tuple[Any, ...], slip: str, asked: str, key: str) -> None:
    data = king()
    at: Any = data["frame"][0]
    for step in path[:-1]:
        at = at[step]
    at[path[-1]] = slip
    with pytest.raises(JobError, match=re.escape(asked)):
        job_from_data(data)
    at["meant"] = {key: "measured twice in the old house"}
    job_from_data(data)


def test_a_long_house_has_a_long_row() -> None:
    """84 pieces at 16 in reach over 112 ft."""
    row = 'spacing = "16 in"\nmembers = 84\nshared_by = "2 in deck, nailed"\nservice'
    assert read_job_text(JOB.replace("service", row, 1)).beam[0].members == 84
