"""Fields of one piece that do not go together, and sizes no house has."""

from __future__ import annotations

import pytest

from beamcheck.model.reading.reader import read_job_text

from .jobs import CEILING, GOOD, LETTER, edited, line_with, only_problem, only_problem_within

NOTCH = '{ kind = "notch", at = "0 ft", length = "6 in", depth = "1 1/2 in", face = "bottom" }'

# what is written in place of what in the good job; where; what is said
RULES: list[tuple[str, str, str, str]] = [
    # cuts
    (
        NOTCH,
        '{ kind = "notch", at = "0 ft", length = "6 in", depth = "1 in" }',
        'beam "B1", cuts 1, face',
        'face = "top" or face = "bottom"',
    ),
    (
        NOTCH,
        '{ kind = "notch", at = "0 ft", depth = "1 in", face = "top" }',
        'beam "B1", cuts 1, length',
        "needs its extent along the piece",
    ),
    (
        NOTCH,
        '{ kind = "notch", at = "0 ft", length = "6 in", depth = "1 in", face = "top", from_bottom = "1 in" }',
        'beam "B1", cuts 1, from_bottom',
        "starts at its face",
    ),
    (
        NOTCH,
        '{ kind = "hole", at = "1 ft", depth = "1 in" }',
        'beam "B1", cuts 1, from_bottom',
        "missing: a hole needs its height",
    ),
    (
        NOTCH,
        '{ kind = "hole", at = "1 ft", depth = "1 in", from_bottom = "4 in", width = "2 in" }',
        'beam "B1", cuts 1, width',
        "full breadth",
    ),
    (
        NOTCH,
        '{ kind = "mortise", at = "1 ft", length = "4 in", depth = "1 in", from_bottom = "4 in" }',
        'beam "B1", cuts 1, width',
        "needs its breadth",
    ),
    (
        NOTCH,
        '{ kind = "mortise", at = "1 ft", length = "4 in", depth = "1 in", width = "1 in" }',
        'beam "B1", cuts 1, from_bottom',
        "needs its height",
    ),
    (
        NOTCH,
        '{ kind = "taper", at = "0 ft", length = "2 ft", depth = "1 in", face = "top", width = "2 in" }',
        'beam "B1", cuts 1, width',
        "leave width out",
    ),
    (
        NOTCH,
        '{ kind = "hole", at = "15 ft", depth = "1 in", from_bottom = "4 in" }',
        'beam "B1", cuts 1, at',
        "15 ft is beyond the end",
    ),
    (
        'height = "8 ft"',
        'height = "8 ft"\ncuts = [{ kind = "hole", at = "9 ft", depth = "1 in", from_bottom = "4 in" }]',
        'post "west post", cuts 1, at',
        "9 ft is beyond the end: the post is 8 ft long",
    ),
    # stock
    (
        'grade_from = "stamp"\n',
        "",
        'stock "2x6", grade_from',
        'missing: who says that it is that grade; for example grade_from = "stamp"',
    ),
    (
        'grade = "unstamped"',
        'grade = "unstamped"\ngrade_from = "stamp"',
        'stock "old beam", grade_from',
        "no stamp can vouch for it",
    ),
    (
        'grade = "unstamped"',
        'grade = "unstamped"\ncandidates = ["Redwood"]',
        'stock "old beam", candidates',
        'only for species = "unknown"',
    ),
    (
        'grade = "unstamped"',
        'grade = "unstamped"\n' + LETTER.replace('"400,000 psi"', '"1,200,000 psi"'),
        'stock "old beam", values, E_min',
        "always less than E",
    ),
    (
        'grade = "unstamped"',
        'grade = "unstamped"\n'
        + LETTER.replace('"1,100,000 psi"', '"90,000 psi"').replace('"400,000 psi"', '"40,000 psi"'),
        'stock "old beam", values, E',
        "cannot be right",
    ),
    (
        'grade = "unstamped"',
        'grade = "unstamped"\n' + LETTER.replace(', source = "letter of the grader, 3 May 2025"', ""),
        'stock "old beam", values, source',
        "missing: who says so, in which letter, of which date",
    ),
    # sticks
    ('name = "B1"', 'name = "B1"\nlimit_live = 480', 'beam "B1", limit_why', "limit_live overrides the usual limit"),
    (
        'name = "B1"',
        'name = "B1"\nmembers = 3\nshared_by = "boards"',
        'beam "B1", spacing',
        "missing: members that share a load",
    ),
    ('name = "B1"', 'name = "B1"\nmembers = 3\nspacing = "2 ft"', 'beam "B1", shared_by', "only through a deck"),
    ('name = "B1"', 'name = "B1"\nlaid = "flat"\nplies = 2', 'beam "B1", plies', "plies laid flat"),
    # beams
    ('at = "14 ft", on', 'at = "0 ft", on', 'beam "B1", supports 2, at', "at 0 ft stands support 1 already"),
    (
        'name = "B1"',
        'name = "B1"\nlength = "13 ft"',
        'beam "B1", supports 2, at',
        "14 ft is beyond the end: the beam is 13 ft long",
    ),
    # rafters, ties, posts
    ('run = "12 ft"\nslope = "8:12"', 'run = "90 ft"\nslope = "70 deg"', 'rafter "R1"', "263 ft 1.709 in up the slope"),
    ('slope = "8:12"', 'slope = "0 deg"', 'rafter "R1", slope', "a level rafter is a beam"),
    ('slope = "8:12"', 'slope = "89 deg"', 'rafter "R1", slope', "89 deg cannot be right"),
    (
        'ridge = "beam"\nridge_on = "B1"',
        'ridge = "beam"',
        'rafter "R2", ridge_on',
        "say which piece carries the upper ends",
    ),
    (
        'ridge = "board"',
        'ridge = "board"\npair = false',
        'rafter "R1", pair',
        "one rafter alone cannot lean on a ridge board",
    ),
    ('ridge = "board"', 'ridge = "board"\nridge_on = "B1"', 'rafter "R1", ridge_on', "a ridge board carries nothing"),
    (
        'snow = "30 psf"',
        'snow = "30 plf"\n  to = "15 ft"',
        'rafter "R1", carries 2, to',
        "the rafter is 14 ft 5.066 in long",
    ),
    (
        'height = "1 ft"',
        'height = "1 ft"\ncarries = [{ what = "x", dead = "9 psf" }]',
        'tie "T1", carries 1, width',
        "needs the width",
    ),
    (
        'top_restraint = "pinned"',
        'top_restraint = "free"',
        'post "west post", top_restraint',
        "pinned at the foot and free at the top falls over",
    ),
    # sizes and loads no house has
    (
        'at = "14 ft", on',
        'at = "201 ft", on',
        'beam "B1", supports 2, at',
        "201 ft cannot be right: from 0 to 200 ft can be read",
    ),
    ('name = "B1"', 'name = "B1"\nlength = "201 ft"', 'beam "B1", length', "201 ft cannot be right"),
    (
        CEILING,
        CEILING.replace("10 psf", "5001 psf"),
        'beam "B1", carries 1, dead',
        "5,001 psf cannot be right: from 0 to 5,000 psf",
    ),
    (CEILING, '{ what = "x", dead = "200 klf" }', 'beam "B1", carries 1, dead', "200,000 plf cannot be right"),
    (
        CEILING,
        '{ what = "x", wind = "-5001 psf", width = "4 ft" }',
        'beam "B1", carries 1, wind',
        "-5,001 psf cannot be right",
    ),
    (
        CEILING,
        '{ what = "x", dead = "2000 kip", at = "1 ft" }',
        'beam "B1", carries 1, dead',
        "cannot be right: from 0 to 1,000,000 lbf",
    ),
    ('height = "8 ft"', 'height = "101 ft"', 'post "west post", height', "101 ft cannot be right"),
    (
        'moisture = "dry"',
        'moisture = "dry"\ntemperature = "900 F"',
        'stock "old beam", temperature',
        "900 deg F cannot be right",
    ),
    (
        'moisture = "dry"',
        'moisture = "dry"\ndensity = "400 pcf"',
        'stock "old beam", density',
        "400 pcf cannot be right",
    ),
]


@pytest.mark.parametrize(("old", "new", "where", "text"), RULES)
def test_fields_that_do_not_go_together(old: str, new: str, where: str, text: str) -> None:
    problem = only_problem_within(edited((old, new)), new or 'name = "2x6"')
    assert problem.where == where
    assert text in problem.text


def test_a_tie_under_a_ridge_beam_is_not_passed_over_in_silence() -> None:
    problem = only_problem(edited(('ridge = "board"', 'ridge = "beam"\nridge_on = "north wall"')))
    assert problem.where == 'rafter "R1", tie'
    assert "with a ridge beam a tie takes no part in the check and would go unchecked" in problem.text


@pytest.mark.parametrize(
    ("supports", "where", "text"),
    [
        ("supports = []", 'beam "J1", supports', "none given: a beam needs something to rest on"),
        ('supports = [{ at = "8 ft", on = "north wall" }]', 'beam "J1", supports', "one support cannot hold it level"),
        (
            'supports = [{ at = "0 ft", on = "north wall", holds = "fixed" }]',
            'beam "J1", length',
            "the beam has no length",
        ),
    ],
)
def test_a_beam_needs_its_supports(supports: str, where: str, text: str) -> None:
    start = GOOD.index("supports", GOOD.index('name = "J1"'))
    end = GOOD.index("]\n", start) + 1
    bad = GOOD[:start] + supports + GOOD[end:]
    problem = only_problem(bad)
    assert (problem.where, problem.line) == (
        where,
        line_with(bad, supports) if "supports" in where else line_with(bad, 'name = "J1"') - 1,
    )
    assert text in problem.text


def test_a_cantilever_with_one_fixed_support_is_allowed() -> None:
    start = GOOD.index("supports", GOOD.index('name = "J1"'))
    end = GOOD.index("]\n", start) + 1
    job = read_job_text(
        GOOD[:start] + 'length = "3 ft"\nsupports = [{ at = "0 ft", on = "north wall", holds = "fixed" }]' + GOOD[end:]
    )
    assert job.beam[1].length == 36.0


@pytest.mark.parametrize(
    "change",
    [
        ('name = "B1"', 'name = "B1"\nlength = "39 ft"'),
        (CEILING, CEILING.replace("10 psf", "190 psf")),
        (CEILING, '{ what = "uplift", wind = "-20 psf", width = "4 ft" }'),
        (CEILING, '{ what = "hoist", live = "100 lbf", moves = true }'),
        (CEILING, '{ what = "both", dead = "10 psf", live = "20 psf", width = "4 ft", from = "1 ft", to = "14 ft" }'),
        ('name = "B1"', 'name = "B1"\nlimit_live = 480\nlimit_why = "stone floor"'),
        ('name = "B1"', 'name = "B1"\nmembers = 3\nspacing = "2 ft"\nshared_by = "1 in boards"'),
        ('top_held = "ends only"', 'top_held = "2 ft"'),
        ('species = "Eastern White Pine"', 'species = "Unknown"\ncandidates = ["Eastern White Pine"]'),
        ('grade = "unstamped"', 'grade = "unstamped"\n' + LETTER),
        ('measured = "slope"', 'measured = "plan"\n  snow = "9 psf"'),
    ],
)
def test_what_is_unusual_but_right_is_read(change: tuple[str, str]) -> None:
    assert read_job_text(edited(change)) != read_job_text(GOOD)
