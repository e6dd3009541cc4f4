"""`whatcarries table`: a span table as CSV and HTML. Its cells must be the answers of the span question."""

from __future__ import annotations

import csv

import pytest

from beamcheck import CAUTION, SIGN_OFF, longest_span, longest_span_of, member, read_job_text, span_question

LOADS = {"dead": "10 psf", "live": "40 psf", "finish": "gypsum board"}
ASK = ["table", "--species", "Hem-Fir", "--grade", "No.2", "--size", "2x8", "--size", "2x10", "--spacing", "16 in",
       "--spacing", "24 in", "--dead", "10 psf", "--live", "40 psf", "--finish", "gypsum board", "--moisture", "dry",
       "--top-held", "full length"]  # fmt: skip


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))


def test_csv_goes_to_standard_output_with_its_caution(run) -> None:
    done = run(*ASK)
    assert done.exit_code == 0
    assert CAUTION in done.stdout and " ".join(SIGN_OFF.split()) in done.stdout
    assert [(row["size"], row["spacing_in"]) for row in rows_of(done.stdout)] == [
        ("2x8", "16"), ("2x8", "24"), ("2x10", "16"), ("2x10", "24"),
    ]  # fmt: skip


@pytest.mark.parametrize(("size", "spacing"), [("2x8", "24 in"), ("2x10", "16 in")])
def test_table_and_question_agree(size, spacing) -> None:
    """Two programs of the same checks: arrays on one side, whole jobs on the other. Seats of 1 1/2 in on both."""
    words = {**LOADS, "moisture": "dry", "top_held": "full length", "spacing": spacing, "seat": "1.5 in"}
    in_table = longest_span(member("Hem-Fir", "No.2", size, service="floor", **words)).span
    asked = span_question(size, "Hem-Fir", "No.2", length="5 ft", **words)
    assert in_table == longest_span_of(read_job_text(asked.job_text))


def test_files_are_written_and_known_as_ours(run, tmp_path) -> None:
    table, page = tmp_path / "spans.csv", tmp_path / "spans.html"
    for _ in range(2):  # the second time over its own files
        done = run(*ASK, "--csv", table, "--html", page, "--title", "Invented floor")
        assert done.exit_code == 0
        assert done.stdout == f"Written: {table}\nWritten: {page}\n"
    assert len(rows_of(table.read_text(encoding="utf-8"))) == 4
    assert "<h1>Invented floor</h1>" in page.read_text(encoding="utf-8") and CAUTION in page.read_text(encoding="utf-8")
    assert run(*ASK, "--csv", "-", "--html", page).stdout.startswith("# generator: whatcarries")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--species", "Hem-Fri"], "did you mean 'Hem-Fir'?"),
        (["--spacing", "16"], "Invalid value for '--spacing'"),
        (["--live", "40 lb"], "the sizing question: 1 problem"),
        (["--csv", "x.csv", "--html", "x.csv"], "is the same file as --csv"),
        (["--html", "-"], "a page is not for standard output"),
        (["--grades", "No.1"], "'--grade'"),
    ],
)
def test_a_slip_is_told(arguments, said, run, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    done = run(*ASK, *arguments)
    assert done.exit_code == 2 and done.stdout == ""
    assert said in done.stderr and "Traceback" not in done.stderr
    assert list(tmp_path.iterdir()) == []


def test_a_load_that_looks_like_a_slip_is_meant_with_a_reason(run) -> None:
    heavy = [*ASK, "--dead", "900 psf"]
    asked = run(*heavy)
    assert asked.exit_code == 2 and "did you mean 90 psf?" in asked.stderr
    assert run(*heavy, "--meant", "dead=an invented roof of earth").exit_code == 0
