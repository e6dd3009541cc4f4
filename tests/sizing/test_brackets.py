"""Sizes of one bracket of a job: each answer and the step beyond it go through the checks again."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner

from beamcheck.checks.job import check_job
from beamcheck.cli import main
from beamcheck.errors import OutOfRange, UnknownName
from beamcheck.model.job import Job
from beamcheck.model.reading.reader import read_job_text
from beamcheck.sizing.brackets import GOALS, in_words, size_bracket

STEEL = """family = "steel core", steel = "A36", width = "2 in", thickness = "1/2 in", projection = "9 in", \
down = "8 in", tip_clear = "1/4 in", skin = "two boards of fir, open at the back" """
SOLID = """family = "solid", thickness = "1 1/2 in", height = "11 in", projection = "9 in", foot = "2 1/4 in", \
nose = "2 in", soffit = "concave", grain = "upright" """
TEXT = """
[job]
title = "A bracket (invented)"
standard = "NDS 2018"
loads = "ASCE 7-16"
invented = true
[[stock]]
name = "board"
species = "Douglas Fir-Larch"
grade = "No.1"
size = '1 1/2" x 11 1/4"'
moisture = "dry"
grade_from = "stamp"
evidence = "invented stamp, mill 12"
[[stock]]
name = "stud"
species = "Douglas Fir-Larch"
grade = "No.2"
size = '3 1/2" x 5 1/2"'
moisture = "dry"
grade_from = "stamp"
evidence = "invented stamp, mill 12"
[[existing]]
name = "studs"
what = "studs of a wall"
confirmed_by = "invented sheet S-1, engineer"
material = "wood"
takes = "3,000 lb"
F_c_perp = "625 psi"
[[bracket]]
name = "K"
role = "ROLE"
STOCK
on = "studs"
knots = "none in the throat"
deflects = "1/4 in"
shape = { SHAPE }
CARRIES
[bracket.fixings]
fastener = { kind = "lag screw", size = "3/8 in", length = "4 in" }
rows = [{ below_top = "2 in", count = 1 }, { below_top = "7 in", count = 1 }]
through = "1 1/2 in"
other = { stock = "stud", thickness = "5 1/2 in", grain = "along", edge = "1 3/4 in", end = "12 in" }
wall = "wood"
seasoned = "dry"
split = "none seen"
"""
LOAD = 'carries = [{ what = "shelf", live = "80 lb", at = "5 in", bearing = "2 in", applied = "top" }]'


def job(shape: str, *, role: str = "carries", load: str = LOAD) -> Job:
    stock = 'stock = "board"' if "solid" in shape else ""
    text = TEXT.replace("SHAPE", shape).replace("ROLE", role).replace("CARRIES", load).replace("STOCK", stock)
    return read_job_text(text, "invented")


def with_size(of: Job, **update: float) -> Job:
    (one,) = of.bracket
    return of.model_copy(update={"bracket": (one.model_copy(update={"shape": one.shape.model_copy(update=update)}),)})


def verdict(of: Job) -> str:
    return next(piece.verdict for piece in check_job(of).pieces if piece.name == "K")


def test_least_thickness_of_a_bar_is_the_least() -> None:
    found = size_bracket(job(STEEL), "K")
    assert found.found and found.verdict == "passes"
    assert verdict(with_size(job(STEEL), thickness=found.value)) == "passes"
    assert verdict(with_size(job(STEEL), thickness=found.value - 1.0 / 16.0)) == "fails"
    assert "the next step does not: " in found.words


def test_largest_load_times_what_is_stated() -> None:
    found = size_bracket(job(STEEL), "K", "largest load")
    assert found.found and found.value > 1.0
    assert "referred" in found.words  # more than 6,000 psi at the root: the steel of the lags is asked for
    for share, wanted in ((found.value, "refer"), (found.value + 0.01, "fails")):
        load = LOAD.replace("80 lb", f"{80.0 * share} lb")
        assert verdict(job(STEEL, load=load)) == wanted
    bar = 490.0 / 1728.0 * 2.0 * 0.5 * 17.0  # own weight of steel, lb
    assert found.load == pytest.approx(80.0 * found.value + bar, rel=0.01)


def test_largest_projection_of_a_bar() -> None:
    found = size_bracket(job(STEEL), "K", "largest projection")
    assert found.found and found.value > 9.0
    for out, wanted in ((found.value, "passes"), (found.value + 0.125, "fails")):
        load = LOAD.replace('"5 in"', f'"{5.0 * out / 9.0} in"')  # the place of the load goes along
        longer = STEEL.replace('projection = "9 in"', f'projection = "{out} in"')
        assert verdict(job(longer, load=load)) == wanted


def test_short_grain_is_said_plainly() -> None:
    found = size_bracket(job(SOLID), "K")
    assert not found.found and found.verdict == "fails" and np.isnan(found.value)
    assert (
        "no thickness from 1/2 in to 1 1/2 in, the side of the stock, carries: without a single check nothing holds "
        in found.words
    )
    assert found.tried == 1
    text = in_words(found)
    assert "Caution: " in text and "Reviewed by licensed engineer" in text
    assert "Write the size" not in text  # there is none


@pytest.mark.parametrize(
    ("made", "name", "goal", "said"),
    [
        (job(STEEL), "K9", GOALS[0], "did you mean 'K'"),
        (job(STEEL), "K", "biggest", "largest load"),
        (job(STEEL, role="decorative"), "K", GOALS[0], "only a bracket that carries"),
        (job(STEEL, load=""), "K", GOALS[2], "no load is stated on K"),
    ],
)
def test_questions_without_meaning(made: Job, name: str, goal: str, said: str) -> None:
    with pytest.raises((UnknownName, OutOfRange), match=said):
        size_bracket(made, name, goal)  # type: ignore[arg-type]


def test_the_command(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    text = TEXT.replace("SHAPE", STEEL).replace("ROLE", "carries").replace("CARRIES", LOAD).replace("STOCK", "")
    path.write_text(text, encoding="utf-8")
    done = CliRunner().invoke(main, ["bracket", str(path), "K", "--goal", "least thickness"], prog_name="whatcarries")
    assert done.exit_code == 0 and done.stdout.startswith("K: least thickness ") and "Caution: " in done.stdout
    wrong = CliRunner().invoke(main, ["bracket", str(path), "K2"], prog_name="whatcarries")
    assert wrong.exit_code == 2 and "did you mean 'K'" in wrong.stderr and "Traceback" not in wrong.stderr
