"""Arcs on the wall: air behind a row, a check at mid-depth (reference on brackets that carry, section 5: derived)."""

from __future__ import annotations

import math

import pytest

from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.core.result import Check
from beamcheck.formulas.brackets.curved_bar import arc_off_wall
from beamcheck.values.judgment import judgment

from ..brackets import BENT, body_of, bracket, find, fixings, loaded_body, structure


@pytest.mark.parametrize(("s", "off"), [(2.0, 0.192236), (4.0, 0.791756)])  # BC078, BC079
def test_air_between_arc_and_wall(s: float, off: float) -> None:
    assert float(arc_off_wall(10.5, s)) == pytest.approx(off, rel=0.005)


def test_how_far_up_it_lies_on_the_wall() -> None:
    """sqrt(2 r_o g - g^2), g = 1/16 in (BC080: 1.144 in)."""
    g = judgment("air behind a row of an arc").value
    s = math.sqrt(2 * 10.5 * g - g**2)
    assert s == pytest.approx(1.14394, rel=0.005) and float(arc_off_wall(10.5, s)) == pytest.approx(g)


def test_a_check_at_mid_depth_doubles_the_bending() -> None:
    """Half the moment on a quarter of S is twice the stress (BC081: 0.45 to 0.9)."""
    checks = body_of(bracket(BENT, "20 lb", "9 in"), structure()).checks
    whole, checked = find(checks, "stress along the arc"), find(checks, "arc with a check along it")
    bent = [next(step.value for step in check.steps if step.symbol == "f_b" and step.unit == "psi")
            for check in (whole, checked)]  # fmt: skip
    assert checked.ratio is not None and whole.ratio is not None and checked.ratio > 1.5 * whole.ratio
    assert bent[0] == pytest.approx(bent[1])  # of the whole arc; it is doubled beside it


def rows(down: str, through: str) -> list[Check]:
    piece = bracket(BENT, "5 lb", "9 in", fixings=fixings(rows=[{"below_top": down, "count": 1}], through=through))
    return list(family_of(piece).fixing_doubts())


def test_rows_stand_where_the_arc_lies_on_the_wall() -> None:
    """Outer radius 10 in: 4 in above the foot it is 10 - sqrt(84) = 0.83 in off the wall."""
    assert find(rows("6 in", "2 in"), "row that crosses air").verdict == "fails"
    assert not [check for check in rows("9 1/2 in", "2 in") if check.verdict == "fails"]
    assert find(rows("9 1/2 in", "3/4 in"), "row through both halves").verdict == "fails"


@pytest.mark.parametrize(
    ("glue", "vouched"),
    [("resorcinol, maker's sheet 12", True), ("wood glue", False), ("resorcinol", False), ("not known", False)],
)
def test_somebody_vouches_for_the_glue(glue: str, vouched: bool) -> None:
    how = find(loaded_body({**BENT, "glue": glue}), "how the arc is made")
    assert (how.verdict == "passes") == vouched
    assert (
        vouched or find(loaded_body({**BENT, "glue": how.questions[0].answers[0].says}), how.what).verdict == "passes"
    )
