"""Brackets of wood whose species or grade nobody knows."""

from __future__ import annotations

import pytest

from beamcheck.checks.core.wood.material import rows_to_screen
from beamcheck.checks.job import check_job
from beamcheck.errors import UnknownName
from beamcheck.model.reading.reader import read_job_text
from beamcheck.values.lumber import read_size, screening_rows

from ..anchors.anchors import stock

JOB = """
[job]
title = "Invented"
invented = true
standard = "NDS 2018"
loads = "ASCE 7-16"
date = "2 October 2026"

[[stock]]
name = "wood"
species = "unknown"
grade = "{grade}"{vouched}
size = '3 1/2" x 9 1/4"'
moisture = "dry"

[[existing]]
name = "wall"
what = "wall"
confirmed_by = "invented sheet S-1, engineer"
material = "wood"

[[beam]]
name = "B"
stock = "wood"
service = "floor"
finish = "none"
top_held = "full length"
supports = [{{ at = "0 ft", on = "wall", bearing = "3 in" }}, {{ at = "8 ft", on = "wall", bearing = "3 in" }}]
carries = [{{ what = "floor", live = "40 plf", applied = "top" }}]

[[bracket]]
name = "K"
role = "decorative"
stock = "wood"
on = "wall"
accidental = "not for load"
shape = {{ family = "corbel", thickness = "3 1/2 in", height = "9 in", projection = "3 in", grain = "upright" }}
"""


@pytest.mark.parametrize("grade", ["unknown", "Unknown", "unstamped", "No.77"])
def test_wood_of_unknown_species_and_grade_never_passes_and_never_crashes(grade: str) -> None:
    vouched = "" if grade == "unstamped" else '\ngrade_from = "assumed"'
    text = JOB.format(grade=grade, vouched=vouched)
    result = check_job(read_job_text(text, "job.toml"), text=text, name="job.toml")
    notes = " ".join(note for piece in result.pieces for check in piece.checks for note in check.notes)
    assert {piece.verdict for piece in result.pieces} == {"refer"}
    assert "fault in whatcarries" not in notes
    if grade == "No.77":
        assert "'No.77'" in notes and "did you mean" in notes


def test_a_grade_that_nobody_knows_is_as_good_as_none() -> None:
    unstamped = stock("4x10 dressed", species="unknown", grade="unstamped", grade_from=None, evidence="")
    unknown = unstamped.model_copy(update={"grade": "unknown"})
    assert rows_to_screen(unknown) == rows_to_screen(unstamped)


def test_a_grade_that_no_candidate_has_is_named() -> None:
    with pytest.raises(UnknownName, match=r"No\.77"):
        screening_rows([], read_size("4x10 dressed"), "No.77")
    assert {row.grade for row in screening_rows([], read_size("4x10 dressed"), "No.2")} >= {"No.2"}
