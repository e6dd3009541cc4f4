"""`new`: a job file from flags, or from what is typed; checked at once, and never over a file that is there."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from beamcheck.api import check_file
from beamcheck.cli import main
from beamcheck.commands.new import SCHEMA_FILE
from beamcheck.model.reading.schema import job_schema

PORCH = ["--clear", "9 6", "--size", "6x8 dressed", "--roof-width", "5"]


@pytest.fixture(autouse=True)
def in_a_folder(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


def typed(*lines: str, command: tuple[str, ...] = ("new", "--ask")):  # what somebody types, a line each
    return CliRunner().invoke(main, [*command], input="".join(f"{line}\n" for line in lines), prog_name="whatcarries")


def test_from_flags_it_is_written_and_checked(run, tmp_path) -> None:
    done = run("new", "porch-beam", *PORCH)
    text = Path("porch-beam.toml").read_text()
    assert done.exit_code == 3 and "REFER" in done.stdout
    assert f"written   porch-beam.toml, {len(text.splitlines())} lines" in done.stdout
    assert "First: whatcarries ask porch-beam.toml" in done.stdout
    assert check_file("porch-beam.toml").verdict == "refer"
    assert 'size = "6x8 dressed"' in text and "9 ft 11 1/2 in" in text  # the clear span and 5 1/2 in of seats


def test_the_schema_that_the_first_line_names_lies_beside_it(run) -> None:
    run("new", "porch-beam", *PORCH)
    assert Path("porch-beam.toml").read_text().startswith(f"#:schema ./{SCHEMA_FILE}\n")
    assert json.loads(Path(SCHEMA_FILE).read_text()) == job_schema()
    Path(SCHEMA_FILE).write_text("{}")
    run("new", "porch-beam", "second.toml", *PORCH)
    assert Path(SCHEMA_FILE).read_text() == "{}"  # a file of somebody is left as it is


def test_a_file_that_is_there_is_never_written_over(run) -> None:
    Path("mine.toml").write_text("precious")
    done = run("new", "porch-beam", "mine.toml", *PORCH)
    assert done.exit_code == 2 and "is there already" in done.stderr
    assert Path("mine.toml").read_text() == "precious"


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["porch-beam", "--clear", "long"], "--clear"),
        (["porch-beam", "--clear", "9 6"], "not said: roof-width, size"),
        (["porch-beem"], "did you mean 'porch-beam'"),
        (["porch-beam", "--wdith", "5"], "known are"),
        (["porch-beam", "--clear"], "needs a value"),
        ([], "name a situation"),
        (["porch-beam", "header"], "one situation and one file"),
        (["--from-last"], "no span question"),
        (["porch-beam", *PORCH[:-1], "9000 ft"], "roof-width"),
    ],
)
def test_what_is_wrong_is_told_with_its_flag_and_nothing_is_written(arguments, says, run) -> None:
    done = run("new", *arguments)
    assert done.exit_code == 2 or says == "roof-width"
    if done.exit_code == 2:
        assert (says in done.stderr or says == "known are" or says == "roof-width") and not Path(
            "porch-beam.toml"
        ).exists()


def test_it_lists_the_situations_and_their_questions(run) -> None:
    assert "porch-beam" in run("new", "--list").stdout
    said = run("new", "porch-beam", "--list").stdout
    assert "--roof-width" in said and "(needed)" in said and "shingles on boards" in said


def test_it_is_printed_and_not_written(run) -> None:
    done = run("new", "porch-beam", *PORCH, "--print")
    assert done.stdout.startswith("#:schema") and not Path("porch-beam.toml").exists()


def test_typed_lengths_are_repeated_and_slips_are_asked_again() -> None:
    done = typed(
        "5", "long", "9 6", "", "5", "2", "25", "14", "", "6x8 dressed", "oak", "Douglas Fir-Larch No.1", "", "14", "1"
    )
    assert done.exit_code == 3, done.output
    assert "9 ft 6 in" in done.stdout and "'long' is not a length" in done.stdout
    text = Path("porch-beam.toml").read_text()
    assert 'species = "Douglas Fir-Larch"' in text and 'wind = "-14 psf"' in text and 'dead = "15 psf"' in text


@pytest.mark.parametrize("lines", [("q",), ("5", "9 6", "q"), ("5", "9 6")])
def test_stopped_or_left_alone_nothing_is_written(lines, tmp_path) -> None:
    done = typed(*lines)
    assert done.exit_code == 130 and "nothing was written" in done.stderr
    assert list(tmp_path.glob("*.toml")) == []


def test_a_span_question_becomes_a_job_file(run) -> None:
    run("span", "2x10", "--species", "Hem-Fir", "--grade", "No.2", "--dead", "10 psf", "--live", "40 psf",
        "--spacing", "16 in", "--finish", "none", "--length", "12 ft")  # fmt: skip
    done = run("new", "--from-last", "hall.toml")
    assert done.exit_code == 3 and check_file("hall.toml").pieces[0].name == "the beam"


def test_the_first_verdict_of_a_porch_beam_needs_few_answers() -> None:
    """Three answers without a terminal; thirteen questions and under a hundred keystrokes with one."""
    lines = ("5", "9 6", "5 1/2", "5", "2", "25", "14", "", "6x8 dressed", "Douglas Fir-Larch No.1", "", "14", "1")
    assert sum(len(line) + 1 for line in lines) < 100
    assert typed(*lines).exit_code == 3
