"""`whatcarries recheck`, `whatcarries compare` and the lists of `whatcarries check`: exit status, words, files."""

from __future__ import annotations

import csv
import sys

import pytest

from beamcheck import CAUTION
from beamcheck.console import progress

from .jobs import BAD, FAILS, PASSES

LISTS = ("--checks-csv", "--hardware-csv", "--xlsx")


@pytest.fixture
def sheet(run, written, tmp_path):
    path = tmp_path / "sheet.html"
    assert run("check", written(FAILS), "--sheet", path).exit_code == 4
    return path


def test_the_exit_status_says_what_was_found(run, sheet, written, tmp_path) -> None:
    """0 same, 3 changed, 4 tampered, 2 bad input: as `--help` says. That the verdict is 'fails' does not count here."""
    done = run("recheck", sheet)
    assert done.exit_code == 0 and done.stdout.startswith("SAME. ")
    assert "Verdict of the first: fails" in done.stdout and CAUTION in done.stdout
    assert run("recheck", sheet, "--job", written(FAILS)).exit_code == 0
    done = run("recheck", sheet, "--job", written(FAILS.replace('"200 psf"', '"100 psf"')))
    assert done.exit_code == 3 and done.stdout.startswith("CHANGED INPUTS. ")
    assert """beam "J2", carries 1, live: was '200 psf', is '100 psf'""" in done.stdout
    sheet.write_text(sheet.read_text(encoding="utf-8").replace("Ratio 3.05", "Ratio 0.95"), encoding="utf-8")
    done = run("recheck", sheet)
    assert done.exit_code == 4 and done.stdout.startswith("TAMPERED. ")
    assert "printed: was '3.05:', is '0.95:'" in done.stdout
    assert "no signature" in done.stdout


def test_one_line_a_difference(run, sheet, written, monkeypatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    lines = run("recheck", sheet, "--job", written(FAILS.replace('"200 psf"', '"100 psf"'))).stdout.splitlines()
    assert lines[0].startswith("CHANGED INPUTS") and "changed inputs: 1" in lines[1].casefold()
    assert all(line.startswith("  - ") for line in lines[lines.index("Changed inputs:") + 1 :][:1])


def test_two_files_compared(run, sheet, written, tmp_path) -> None:
    other = tmp_path / "other.toml"
    other.write_text(PASSES)
    done = run("compare", sheet, other)
    assert done.exit_code == 3
    assert 'beam "J2": is gone' in done.stdout and "beam J2: is gone, was verdict fails" in done.stdout
    assert run("compare", sheet, written(FAILS)).exit_code == 0


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["recheck", "none.html"], "none.html cannot be read: No such file or directory"),
        (["recheck", "job.toml"], "is no sheet and carries no result"),
        (["recheck", "sheet.html", "--job", "bad.toml"], "has no unit"),
        (["compare", "sheet.html", "none.toml"], "none.toml cannot be read"),
        (["compare", "sheet.html", "letter.html"], "letter.html carries no result"),
        (["compare", "sheet.html", "bad.toml"], "has no unit"),
        (["compare", "sheet.html"], "SECOND"),
    ],
)
def test_bad_input_is_told(arguments, said, run, sheet, written, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "bad.toml").write_text(BAD)
    (tmp_path / "letter.html").write_text("<p>a letter</p>")
    done = run(*arguments)
    assert done.exit_code == 2 and done.stdout == ""
    assert said in done.stderr and "Traceback" not in done.stderr


def test_help_says_what_the_status_means(run) -> None:
    for command in ("recheck", "compare"):
        said = run(command, "--help").stdout
        assert "3  changed inputs or results" in said and "4  tampered" in said


def test_the_lists_are_written_and_known_as_ours(run, written, tmp_path) -> None:
    outs = [tmp_path / name for name in ("c.csv", "h.csv", "l.xlsx")]
    arguments = [part for pair in zip(LISTS, outs, strict=True) for part in pair]
    for _ in range(2):  # the second time over its own files
        done = run("check", written(FAILS), *arguments)
        assert done.exit_code == 4
        assert all(f"Written: {path}" in done.stdout for path in outs)
    with outs[0].open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    assert any(row["piece"] == "J2" and row["verdict"] == "fails" for row in rows)
    assert outs[2].read_bytes().startswith(b"PK")


@pytest.mark.parametrize("option", [*LISTS, "--sheet"])
def test_a_foreign_file_stops_it_before_any_work(option, run, written, tmp_path) -> None:
    letter, other = tmp_path / "letter", tmp_path / "c.json"
    letter.write_text("a letter")
    done = run("check", written(PASSES), option, letter, "--json", other)
    assert done.exit_code == 2 and "exists and was not made by whatcarries" in done.stderr
    assert letter.read_text() == "a letter" and not other.exists()
    assert run("check", written(PASSES), option, letter, "--overwrite").exit_code == 0
    assert letter.read_bytes() != b"a letter"


def test_an_edited_sheet_is_kept_unless_told(run, sheet, written) -> None:
    edited = sheet.read_text(encoding="utf-8").replace("</main>", "<p>reviewed</p></main>")
    sheet.write_text(edited, encoding="utf-8")
    done = run("check", written(FAILS), "--sheet", sheet)
    assert done.exit_code == 2 and "exists and was edited after whatcarries wrote it" in done.stderr
    assert sheet.read_text(encoding="utf-8") == edited
    assert run("check", written(FAILS), "--sheet", sheet, "--overwrite").exit_code == 4
    assert run("recheck", sheet).exit_code == 0


@pytest.mark.parametrize("option", LISTS)
def test_a_list_is_not_the_job_file(option, run, written) -> None:
    job = written(PASSES)
    done = run("check", job, option, job, "--overwrite")
    assert done.exit_code == 2 and "is the same file as the job file" in done.stderr
    assert job.read_text() == PASSES


@pytest.mark.parametrize("terminal", [True, False])
def test_progress_is_for_terminals_only(terminal, capsys, monkeypatch) -> None:
    monkeypatch.setattr(sys.stderr, "isatty", lambda: terminal, raising=False)
    progress("reading\x1b[2J a\nsheet")
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err == ("reading[U+001B][2J a sheet ...\n" if terminal else "")


def test_a_pdf_does_not_take_the_place_of_a_page(run, written, sheet) -> None:
    before = sheet.read_bytes()
    done = run("check", written(PASSES), "--pdf", sheet)
    assert done.exit_code == 2 and "the name must end in .pdf" in done.stderr
    assert sheet.read_bytes() == before
