"""The invented job about brackets tells what each of them is in truth."""

from __future__ import annotations

from pathlib import Path

import pytest

from beamcheck.checks.core.result import JobResult, PieceResult
from beamcheck.checks.job import check_job
from beamcheck.checks.pieces import Memory
from beamcheck.model.reading.reader import read_job_text
from beamcheck.sheet.terminal.everything import plain_text

JOB = Path(__file__).parents[2] / "worked_examples" / "chart_room.toml"


MEMORY = Memory()  # of the job as it stands: where a word of it is changed only what it touches is worked out


def worked(text: str) -> JobResult:
    return check_job(read_job_text(text, JOB.name), text=text, name=JOB.name, memory=MEMORY)


@pytest.fixture(scope="module")
def text() -> str:
    return JOB.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def job(text: str) -> JobResult:
    return worked(text)


def piece(result: JobResult, name: str) -> PieceResult:
    return next(one for one in result.pieces if one.name == name)


@pytest.mark.parametrize(
    ("name", "verdict", "finding"),
    [
        ("K1", "fails", "decoration only"),  # sawn with upright grain, asked to carry a shelf
        ("K2", "fails", "decoration only"),
        ("K3", "passes", "carries"),  # the same shelf on concealed steel
        ("K4", "passes", "carries"),
        ("K5", "fails", "acts as a prop"),  # tight under a plastered beam
        ("K6", "passes", "decoration only"),  # the same with its gap
        ("K7", "passes", "decoration only"),  # a cover over lag screws
        ("boxed seam", "passes", "decoration only"),
    ],
)
def test_each_is_told_what_it_is(job: JobResult, name: str, verdict: str, finding: str) -> None:
    assert (piece(job, name).verdict, piece(job, name).finding) == (verdict, finding)


def test_the_job_says_it_is_invented_and_carries_the_caution(job: JobResult) -> None:
    said = plain_text(job)
    assert job.invented and "Invented data" in said
    assert job.caution in " ".join(said.split())


def test_the_prop_is_said_in_a_plain_sentence_with_what_frees_it(job: JobResult) -> None:
    tight = piece(job, "K5")
    assert "B1 rests on K5" in tight.reason and "treat it as structural or free it" in tight.reason
    assert any("leave" in one and "slot the upper fixing" in one and "engineer" in one for one in tight.remedies)


def test_the_beam_above_is_not_relieved_by_the_bracket(job: JobResult) -> None:
    """B1 and B2 are alike but for the bracket under B1: their figures are the same (the text of the job, invented)."""
    ratios = [[check.ratio for check in piece(job, name).checks] for name in ("B1", "B2")]
    assert ratios[0] == ratios[1]


def test_order_of_assembly(job: JobResult) -> None:
    assert any("post lags inspected" in one for one in piece(job, "K7").to_see)


def test_turning_the_grain_does_not_save_the_sawn_brackets(text: str) -> None:
    for grain in ("level", "45 deg"):
        turned = text.replace(
            'nose = "2 in", soffit = "concave", grain = "upright"',
            f'nose = "2 in", soffit = "concave", grain = "{grain}"',
        )
        assert turned != text
        assert piece(worked(turned), "K1").verdict != "passes"


def test_declaring_them_decorative_does_not_help_either(text: str) -> None:
    """1,240 lb or 83: what rests on a piece that is declared decorative fails, with the sentence."""
    turned = text.replace('name = "K1"\nrole = "carries"', 'name = "K1"\nrole = "decorative"')
    found = piece(worked(turned), "K1")
    assert found.verdict == "fails"
    assert any("rests on bracket K1, which is declared decorative" in note for c in found.checks for note in c.notes)
