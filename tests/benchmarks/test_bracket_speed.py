"""Brackets: field analysis of one, the whole check of one and of many, what would carry. Nothing is asserted."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

from beamcheck.analysis.fields.field import Backing, Elastic, Press, Spring, refined_field
from beamcheck.analysis.fields.outline import outline_of
from beamcheck.api import check_text
from beamcheck.checks.brackets.families import solid_field
from beamcheck.model.brackets.bracket import Solid
from beamcheck.model.reading.reader import read_job_text
from beamcheck.sizing.bracket_wish import what_would_carry

from ..worked_examples.results import FOLDER

MANY = 24
SHAPE = Solid.model_validate({
    "family": "solid", "thickness": "1 1/2 in", "height": "12 in", "projection": "10 in", "foot": "2 in",
    "nose": "2 in", "soffit": "concave", "grain": "upright",
})  # fmt: skip
HEAD, _, REST = (FOLDER / "mantel_on_wooden_brackets.toml").read_text(encoding="utf-8").partition("[[bracket]]\n")
ONE = "[[bracket]]\n" + REST.partition("[[bracket]]\n")[0]


def brackets(count: int) -> str:
    """A job of brackets that are all a little different."""
    each = (ONE.replace("left bracket", f"bracket {n}").replace('"14 in"', f'"{14 + n / 16} in"') for n in range(count))
    return HEAD + "".join(each)


def told(what: str, run: Callable[[], object], rounds: int) -> None:
    """Processor time, with no field kept from the round before."""
    spent = []
    for _ in range(rounds):
        solid_field._KNOWN.clear()
        begins = time.process_time()
        run()
        spent.append(time.process_time() - begins)
    print(f"\n{what}: first {spent[0]:.2f} s, best {min(spent):.2f} s of processor time")


def test_field_of_one_bracket(benchmark: Any) -> None:
    """Refined until its figures stand still, on two rows of anchors. Aim: under 0.25 s."""
    elastic = Elastic(1.6e6, 80000.0, 124800.0, 0.449, 90.0)
    backing = Backing("springs", (Spring(2.0, 10000.0, 20000.0), Spring(10.0, 10000.0, 20000.0)), 1.0e6)
    outline = outline_of(SHAPE)
    field = benchmark(refined_field, outline, 1.5, elastic, backing, [Press(8.0, 9.0, 100.0)], tolerance=0.03)
    assert field.residual < 1e-8


def test_a_solid_bracket_on_anchors() -> None:
    """The whole job with all split lines. Aim: under 0.25 s."""
    assert check_text(brackets(1)).verdict == "passes"
    told("one solid bracket on anchors", lambda: check_text(brackets(1)), 9)


def test_many_brackets() -> None:
    """Aim: under 6 s."""
    told(f"{MANY} solid brackets, no two alike", lambda: check_text(brackets(MANY)), 1)


def test_what_would_carry() -> None:
    """Aim: under 3 s."""
    wrong = (FOLDER / "mantel_with_the_grain_wrong.toml").read_text(encoding="utf-8")
    job = read_job_text(wrong)
    told("what would carry", lambda: what_would_carry(job, job.bracket[0].name), 3)
