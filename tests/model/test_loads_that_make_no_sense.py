"""What is wrong within one load of a piece: kinds, extent, and what goes with what."""

from __future__ import annotations

import pytest

from .jobs import CEILING, edited, only_problem_within

# what is written in place of what in the good job; where; what is said
LOADS: list[tuple[str, str, str, str]] = [
    # loads
    (
        CEILING,
        '{ what = "ceiling", width = "4 ft" }',
        'beam "B1", carries 1',
        "say dead, live, roof_live, snow or wind",
    ),
    (
        CEILING,
        '{ what = "ceiling", dead = "10 psf" }',
        'beam "B1", carries 1, width',
        "missing: a load per area needs the width",
    ),
    (CEILING, '{ what = "ceiling", dead = "0 plf" }', 'beam "B1", carries 1, dead', "say what it weighs"),
    (CEILING, '{ what = "hoist", live = "100 lbf" }', 'beam "B1", carries 1, at', "missing: a force needs its place"),
    (
        CEILING,
        '{ what = "hoist", live = "100 lbf", at = "3 ft", width = "4 ft" }',
        'beam "B1", carries 1, width',
        "no tributary width",
    ),
    (
        CEILING,
        '{ what = "hoist", live = "100 lbf", at = "3 ft", from = "2 ft" }',
        'beam "B1", carries 1, from',
        "stands at one place",
    ),
    (
        CEILING,
        '{ what = "hoist", live = "100 lbf", at = "3 ft", to = "2 ft" }',
        'beam "B1", carries 1, to',
        "write `at` in place of `to`",
    ),
    (
        CEILING,
        '{ what = "hoist", live = "100 lbf", at = "3 ft", moves = true }',
        'beam "B1", carries 1, at',
        "may stand anywhere",
    ),
    (
        CEILING,
        '{ what = "hoist", dead = "100 lbf", moves = true }',
        'beam "B1", carries 1, moves',
        "only a live load moves",
    ),
    (
        CEILING,
        '{ what = "rail", live = "20 plf", moves = true }',
        'beam "B1", carries 1, moves',
        "for a live force (lbf) only",
    ),
    (
        CEILING,
        '{ what = "rail", live = "20 plf", at = "3 ft" }',
        'beam "B1", carries 1, at',
        "a spread load has no `at`",
    ),
    (
        CEILING,
        '{ what = "rail", live = "20 plf", width = "3 ft" }',
        'beam "B1", carries 1, width',
        "no tributary width",
    ),
    (
        CEILING,
        '{ what = "rail", live = "20 plf", bearing = "3 in" }',
        'beam "B1", carries 1, bearing',
        "a spread load has none",
    ),
    (
        CEILING,
        '{ what = "rail", live = "20 plf", from = "4 ft", to = "4 ft" }',
        'beam "B1", carries 1, to',
        "not beyond its beginning at 4 ft",
    ),
    (
        CEILING,
        '{ what = "rail", live = "20 plf", to = "14 ft 1 in" }',
        'beam "B1", carries 1, to',
        "14 ft 1 in is beyond the end",
    ),
    (
        CEILING,
        '{ what = "rail", live = "20 plf", from = "15 ft" }',
        'beam "B1", carries 1, from',
        "the beam is 14 ft long",
    ),
    (
        CEILING,
        '{ what = "hoist", live = "100 lbf", at = "15 ft" }',
        'beam "B1", carries 1, at',
        "15 ft is beyond the end",
    ),
    (
        CEILING,
        '{ what = "hoist", live = "100 lbf", at = "1 ft", applied = "below", bearing = "3 in" }',
        'beam "B1", carries 1, bearing',
        "has no seat",
    ),
    (
        CEILING,
        '{ what = "hoist", live = "-100 lbf", at = "1 ft" }',
        'beam "B1", carries 1, live',
        "only wind may be negative",
    ),
    (CEILING, '{ what = "mixed", dead = "10 plf", live = "100 lbf" }', 'beam "B1", carries 1', "loads of one sort"),
    (
        CEILING,
        '{ what = "x", dead = "10 plf", measured = "plan" }',
        'beam "B1", carries 1, measured',
        "a level piece has no slope",
    ),
    (
        'snow = "30 psf"',
        'snow = "30 psf"\n  measured = "plan"',
        'rafter "R1", carries 2, measured',
        "belongs to the dead load",
    ),
    (
        'measured = "slope"',
        'measured = "slope"\n  snow = "9 psf"',
        'rafter "R1", carries 1, measured',
        "snow is per area of plan",
    ),
    (
        'measured = "slope"',
        'measured = "plan"\n  wind = "9 psf"',
        'rafter "R1", carries 1, measured',
        "wind presses square to the slope",
    ),
    (
        'dead = "200 lbf" }',
        'dead = "20 psf", width = "4 ft" }',
        'post "west post", carries 1',
        "a post carries forces (lbf) on its top",
    ),
    ('dead = "200 lbf" }', 'dead = "200 lbf", at = "4 ft" }', 'post "west post", carries 1, at', "stand on its top"),
    ('dead = "200 lbf" }', 'live = "200 lbf", moves = true }', 'post "west post", carries 1, moves', "does not move"),
    (
        'dead = "200 lbf" }',
        'dead = "200 lbf", measured = "plan" }',
        'post "west post", carries 1, measured',
        "is for rafters",
    ),
]


@pytest.mark.parametrize(("old", "new", "where", "text"), LOADS)
def test_a_load_that_makes_no_sense(old: str, new: str, where: str, text: str) -> None:
    problem = only_problem_within(edited((old, new)), new)
    assert problem.where == where
    assert text in problem.text
