"""`whatcarries check JOB --pdf OUT.pdf`: the same sheet as from Python, and the same care for files."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import beamcheck
from beamcheck.cli import main

from ...doors.jobs import REFER as JOB
from .pdf_reader import Sheet

REFER = 3


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB, encoding="utf-8")
    return path


def run(*arguments: object) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments], prog_name="whatcarries")


def test_the_pdf_is_written_and_the_verdict_said(job: Path, tmp_path: Path) -> None:
    target = tmp_path / "sheet.pdf"
    done = run("check", job, "--pdf", target)
    assert done.exit_code == REFER and f"Written: {target}" in done.stdout
    assert target.read_bytes() == beamcheck.sheet_pdf(beamcheck.check_file(job))
    assert Sheet(target.read_bytes()).attached["job.toml"].decode() == JOB


def test_a_file_of_somebody_else_is_kept_and_nothing_else_is_written(job: Path, tmp_path: Path) -> None:
    target, page = tmp_path / "letter.pdf", tmp_path / "sheet.html"
    target.write_bytes(b"%PDF-1.4 a letter")
    done = run("check", job, "--pdf", target, "--sheet", page)
    assert done.exit_code == 2
    assert "letter.pdf exists and was not made by whatcarries; give another name, or allow replacing it" in done.stderr
    assert target.read_bytes() == b"%PDF-1.4 a letter" and not page.exists()
    assert run("check", job, "--pdf", target, "--overwrite").exit_code == REFER
    assert target.read_bytes().startswith(b"%PDF-1.7")


def test_two_outputs_in_one_file_are_refused(job: Path, tmp_path: Path) -> None:
    done = run("check", job, "--pdf", tmp_path / "o", "--sheet", tmp_path / "o")
    assert done.exit_code == 2 and "is the same file as" in done.stderr
    done = run("check", job, "--pdf", "-")
    assert done.exit_code == 2 and "needs the name of a file" in done.stderr


def test_the_question_of_a_span_has_a_pdf_too(tmp_path: Path) -> None:
    target = tmp_path / "span.pdf"
    done = run(
        "span", "2x10", "--species", "Hem-Fir", "--grade", "No.2", "--dead", "10 psf", "--live", "40 psf",
        "--spacing", "16 in", "--finish", "none", "--length", "10 ft", "--pdf", target,
    )  # fmt: skip
    assert done.exit_code == REFER, done.output
    assert "Hem-Fir" in Sheet(target.read_bytes()).text


@pytest.mark.parametrize("name", ["beam_4x8_center_load", "rafter_2x12_snow"])
def test_a_job_of_one_member_is_four_pages_at_most(name: str) -> None:
    published = Path(__file__).parents[3] / "worked_examples" / "published" / f"{name}.toml"
    assert len(Sheet(beamcheck.sheet_pdf(beamcheck.check_file(published))).pages) <= 4
