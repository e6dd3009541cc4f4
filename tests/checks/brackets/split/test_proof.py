"""Size of what is pulled across the grain, and the test of each piece: information, a question, a plain no."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from beamcheck.analysis.fields.size import over_one_cubic_inch
from beamcheck.checks.core.result import JobResult, PieceResult
from beamcheck.checks.job import check_job
from beamcheck.errors import JobError
from beamcheck.model.reading.reader import read_job_text
from beamcheck.values.judgment import judgment

JOB = (Path(__file__).parents[4] / "worked_examples/mantel_on_tested_brackets.toml").read_text(encoding="utf-8")


def checked(*changes: tuple[str, str]) -> JobResult:
    text = JOB
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return check_job(read_job_text(text))


def test_weakest_link_by_hand() -> None:
    """Reference on brackets that carry, section 3 (derived from the two strengths of Barrett 1974, abstract read)."""
    assert over_one_cubic_inch(np.array([10.0]), np.array([50.0]), 5.0) == pytest.approx(21.8672, rel=1e-5)  # BC066
    n = 20_000  # linear over a depth of 2 in, one square inch of it: the pulled half counts a twelfth of 2 in3 (BC065)
    s = np.linspace(-1.0, 1.0, 2 * n + 1)[1::2]
    one = over_one_cubic_inch(s, np.full(s.size, 2.0 / s.size), 5.0)
    assert one**5 / 2.0 == pytest.approx(0.0833333, rel=0.005)
    assert over_one_cubic_inch(np.array([-5.0]), np.array([1.0]), 5.0) == 0.0


def test_the_figure_for_clear_fir() -> None:
    """BC059, BC062, BC063: k from 460 psi at 1 in3 and 100 at 2,000; 5 % value of a Weibull mean; over 2.1."""
    assert math.log(2000.0) / math.log(4.6) == pytest.approx(judgment("exponent of the size effect").value, rel=0.005)
    low = 460.0 / math.gamma(1.2) * (-math.log(0.95)) ** 0.2
    assert low == pytest.approx(276.597, rel=0.005)
    assert judgment("stress over one cubic inch, clear fir").value == pytest.approx(low / 2.1, rel=0.005)


def test_a_test_is_a_question_and_no_permission() -> None:
    found = checked()
    (piece,) = found.pieces
    assert piece.verdict == "refer"
    split = next(check for check in piece.checks if check.what == "split test")
    assert split.questions[0].who == "engineer" and "190 lb for 24 hours" in split.notes[0]  # twice 95 lb
    names = [table.title for table in piece.tables]
    assert "Test of each piece: how it runs" in names and "Test of each piece: record" in names


@pytest.mark.parametrize("words", ["", "yes", "me, tested in the yard", "engineer to be asked"])
def test_words_that_name_no_engineer_ask_for_no_test(words: str) -> None:
    found = checked(("the engineer of record, letter of 4 March 2026", words))
    assert found.verdict == "fails"


def test_without_an_engineer_who_wants_it_the_answer_stays_no() -> None:
    found = checked(('proof_test = "the engineer of record, letter of 4 March 2026"\n', ""))
    assert found.verdict == "fails"
    assert not [table for table in found.pieces[0].tables if table.title.startswith("Test of each piece")]


def test_what_sound_wood_would_not_bear_is_a_plain_no() -> None:
    thin = ('thickness = "3 1/2 in", height', 'thickness = "1 1/2 in", height')
    hollow = (
        'foot = "4 in", nose = "4 in", soffit = "straight"',
        'foot = "2 1/4 in", nose = "2 in", soffit = "concave"',
    )
    found = checked(thin, hollow, ('live = "60 lb"', 'live = "900 lb"'))
    assert found.verdict == "fails"
    assert any(check.what == "test of each piece" for check in found.pieces[0].checks if check.verdict == "fails")


def test_a_corbel_without_a_dap_is_tested_like_the_solid_bracket_of_its_outline() -> None:
    sizes = 'thickness = "3 1/2 in", height = "14 in", projection = "10 in", grain = "upright"'
    points = "[{ x = '5 in', y = '14 in' }, { x = '10 in', y = '14 in' }, { x = '10 in', y = '7 in' }]"
    shape = next(line for line in JOB.splitlines() if line.startswith("shape = "))
    solid = (
        f'shape = {{ family = "solid", {sizes}, foot = "5 in", nose = "7 in", soffit = "points", points = {points} }}'
    )
    block, same = (checked((shape, one)).pieces[0] for one in (f'shape = {{ family = "corbel", {sizes} }}', solid))
    tests = [next(table for table in piece.tables if table.title.endswith("record")) for piece in (block, same)]
    assert tests[0] == tests[1] and block.verdict == same.verdict == "refer"
    assert figures(block) == pytest.approx(figures(same), rel=1e-9)


def figures(piece: PieceResult) -> dict[str, float]:
    """Ratios by what is checked; the plain shear of a block is asked of a corbel only."""
    return {one.what: one.ratio for one in piece.checks if one.ratio is not None and one.id != "bracket.shear"}


def test_a_dap_is_no_case_for_it() -> None:
    sizes = 'thickness = "3 1/2 in", height = "14 in", projection = "10 in", grain = "upright", seat = "1 in"'
    shape = next(line for line in JOB.splitlines() if line.startswith("shape = "))
    with pytest.raises(JobError, match="without a dap"):
        checked((shape, f'shape = {{ family = "corbel", {sizes} }}'))


def test_the_steps_of_the_load_and_what_the_engineer_is_asked() -> None:
    """Quarters of twice 94.8 lb, to three figures; the question says why in a sentence."""
    (piece,) = checked().pieces
    how, record = (next(one for one in piece.tables if one.title == f"Test of each piece: {title}")
                   for title in ("how it runs", "record"))  # fmt: skip
    assert "47.4 lb, 94.8 lb, 142 lb, then 190 lb" in how.rows[1][1]
    assert [row[0] for row in record.rows[:4]] == ["47.4 lb", "94.8 lb", "142 lb", "190 lb"]
    asked = next(check for check in piece.checks if check.what == "split test").questions[0]
    assert "The split test allows it less than its load" in asked.why
