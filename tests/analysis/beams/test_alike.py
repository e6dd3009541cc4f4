"""Beams that are alike in all numbers share what was found; nothing of it shows in what a beam says of itself."""

from __future__ import annotations

import numpy as np
import pytest

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.analysis.beams.solved_beam import BeamSupport, SolvedBeam, _numbers, solve_beam

SPAN = 144.0


def beam(what: str = "floor", w: float = 5.0, **more: float) -> SolvedBeam:
    loads = [Applied("D", 0.0, SPAN, w, w, what=what), Applied("L", 0.0, SPAN, 4.0 * w, 4.0 * w, what=what)]
    given = {"depth": 9.25, "EI": 1.6e8, "GA_s": 1.0e6, "bending_only": 0.97} | more
    return solve_beam(SPAN, [BeamSupport(0.0, "pin"), BeamSupport(SPAN)], loads, **given)


def test_names_are_no_part_of_a_solution() -> None:
    one, other = beam("floor"), beam("another floor")
    assert other.cases_run is one.cases_run and other.combined is one.combined
    assert [load.what for load in other.loads] == ["another floor"] * 2
    assert {load.what for case in other.cases for load in case.loads} == {"another floor"}


@pytest.mark.parametrize("more", [{"w": 5.0 + 1e-12}, {"EI": 1.6e8 + 1.0}, {"GA_s": 1.1e6}, {"bending_only": 0.96}])
def test_any_other_number_is_another_solution(more: dict[str, float]) -> None:
    one, other = beam(), beam(**more)
    assert [other.cases_run, *(way.run for way in other.others)] != [
        one.cases_run, *(way.run for way in one.others)
    ]  # fmt: skip
    assert other.read is not one.read


def test_what_a_softer_one_asked_first_changes_no_digit() -> None:
    """The figures of a piece do not hang on what was checked before it."""
    fresh = beam().deflections(0.0, SPAN, False, beam().factors)
    _numbers.cache_clear()
    softer = beam().softer(1.0 / 3.0)
    softly = softer.deflections(0.0, SPAN, False, softer.factors)
    again = beam().deflections(0.0, SPAN, False, beam().factors)
    for a, b in zip(fresh, again, strict=True):
        assert np.array_equal(a, b)
    np.testing.assert_allclose(softly[0], fresh[0] / 3.0, rtol=1e-14)


def test_the_extremes_along_a_part_are_not_those_of_the_whole() -> None:
    line = beam().combined.line
    whole = line.extremes("M")[2]
    assert line.extremes("M", 0.0, SPAN / 4.0)[2] == pytest.approx(0.75 * whole)  # w L^2/8 and 3/4 of it at L/4
    assert line.extremes("M")[2] is whole
    assert line.combine(2.0 * np.eye(len(whole))).extremes("M")[2] == pytest.approx(2.0 * whole)
