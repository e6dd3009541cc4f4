"""What would carry a load: every proposal, written into the job file, passes the check of the whole job."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from beamcheck.checks.job import check_job
from beamcheck.cli import main
from beamcheck.errors import OutOfRange, UnknownName
from beamcheck.model.reading.reader import read_job_text
from beamcheck.sizing.bracket_wish import Proposal, what_would_carry

PATH = Path(__file__).parents[2] / "worked_examples/mantel_with_the_grain_wrong.toml"
JOB = PATH.read_text(encoding="utf-8")


def written(one: Proposal, job: str) -> str:
    """The job file with a proposal in it, by its text alone."""
    shape, table, *rest = one.lines
    assert table == "[bracket.fixings]"
    text = re.sub(r"(?m)^shape = .*$", lambda _: shape, job)
    for line in rest:
        key = line.split(" = ")[0]
        text, count = re.subn(rf"(?m)^{key} = .*$", lambda _, line=line: line, text)
        assert count == 1, key
    if "steel core" in shape:
        head, tail = text.split("[[bracket]]")
        text = head + "[[bracket]]" + re.sub(r"(?m)^(stock|checks) = .*\n", "", tail)
    return text


def test_the_mantel_with_the_grain_wrong_has_ways_out() -> None:
    told: list[str] = []
    wish = what_would_carry(read_job_text(JOB), "left bracket", told.append)
    assert len(told) == wish.tried and len(wish.proposals) >= 2
    assert check_job(read_job_text(JOB)).verdict == "fails"
    for one in wish.proposals:
        found = check_job(read_job_text(written(one, JOB)))
        assert found.verdict == one.verdict == "passes" or one.open, one.words
        assert found.pieces[0].finding == "carries" or one.open
    assert any("hidden A36 bar" in one.words for one in wish.proposals)


def test_it_never_says_only_nothing() -> None:
    heavy = JOB.replace('live = "60 lb"', 'live = "5,900 lb"').replace('takes = "2,000 lb"', 'takes = "20,000 lb"')
    wish = what_would_carry(read_job_text(heavy), "left bracket")
    assert not wish.proposals and wish.nearest


def test_questions_without_meaning() -> None:
    with pytest.raises(UnknownName):
        what_would_carry(read_job_text(JOB), "K9")
    bare = re.sub(r"(?m)^carries = .*\n", "", JOB)
    with pytest.raises(OutOfRange, match="no load is stated"):
        what_would_carry(read_job_text(bare), "left bracket")
    with pytest.raises(OutOfRange, match="only a bracket that carries"):
        what_would_carry(read_job_text(bare.replace('role = "carries"', 'role = "decorative"')), "left bracket")


def test_the_command() -> None:
    done = CliRunner().invoke(main, ["bracket", str(PATH), "left bracket", "--goal", "what would carry"])
    assert done.exit_code == 0
    assert "left bracket: what would carry" in done.stdout and "Caution: " in done.stdout
    assert "looking at heads out to the front" in done.stderr
