"""`whatcarries check`: exit status, order of the text, files written whole or not at all."""

from __future__ import annotations

import json
import os
import re

import pytest

from beamcheck import CAUTION, SIGN_OFF, check_text
from beamcheck.checks.core.summary import MEANING
from beamcheck.sheet.terminal.look import CAUTION as LAST_CAUTION
from beamcheck.sheet.terminal.look import SIGN_OFF as LAST_LINE

from .jobs import BAD, BY_STATUS, FAILS, GOOD, NOT_TOML, PASSES, REFER


def flat(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("status", BY_STATUS)
def test_the_exit_status_is_the_verdict(status, run, written) -> None:
    """0 passes, 3 refer, 4 fails, 2 bad input: as `--help` says."""
    assert run("check", written(BY_STATUS[status])).exit_code == status


@pytest.mark.parametrize("verdict", GOOD)
def test_the_verdict_comes_first_and_the_caution_last(verdict, run, written) -> None:
    said = flat(run("check", written(GOOD[verdict]), "--all").stdout)
    assert said.startswith(f"{verdict.upper()}. {MEANING[verdict]}")
    details, _, short = said.partition(f"Caution: {CAUTION} {flat(SIGN_OFF)}")
    assert details and short.strip("= ").startswith(verdict.upper())  # the short answer is what stays on the screen
    assert short.endswith(f"{flat(LAST_CAUTION)} {flat(LAST_LINE)}")


def test_lines_are_at_most_100_columns_and_never_ragged(run, written, monkeypatch) -> None:
    for columns, most in ((40, 80), (80, 80), (93, 93), (300, 100)):
        monkeypatch.setenv("COLUMNS", str(columns))
        lines = run("check", written(FAILS), "--all").stdout.splitlines()
        assert most - 12 < max(map(len, lines)) <= most
        assert all(line == line.rstrip() for line in lines)


def test_every_check_is_there_with_ratio_figures_and_governing_load(run, written) -> None:
    said = flat(run("check", written(FAILS), "--all").stdout)
    for piece in check_text(FAILS).pieces:
        assert f"{piece.name} {piece.verdict.upper()}: beam, 2x10 Hem-Fir No.2, 12 ft" in said
        for check in piece.checks:
            assert flat(check.what) in said
            if check.verdict != "passes":
                assert all(flat(note) in said for note in check.notes)
    # closed form M = wL2/8, with w = (10 + 200) psf x 16 in + 0.239 lbf/in own weight = 23.57 lbf/in and S = 21.39 in3
    assert "bending, from 0 in to 12 ft: 2,856 psi of 935 psi, under D + L" in said
    assert re.search(r"fails 3\.0[56] bending", said)


def test_a_failing_piece_says_what_would_make_it_pass(run, written) -> None:
    said = flat(run("check", written(FAILS), "--all").stdout)
    remedies = check_text(FAILS).pieces[1].remedies
    assert remedies
    assert "What would make J2 pass: " + " ".join(f"- {flat(text)}" for text in remedies) in said
    assert "What would make J1 pass" not in said


def test_values_in_si_hold_no_other_units(run, written) -> None:
    said = run("check", written(FAILS), "--units", "SI", "--all").stdout
    values = re.findall(r"\d (?:ft|in|lb|psi|psf|plf|lb-ft)\b", said.replace("What would", "").split("Caution")[0])
    assert values == []
    assert "MPa" in said and " m" in said and " mm" in said


def test_units_are_those_of_the_job_unless_told_otherwise(run, written) -> None:
    job = written(PASSES.replace("[job]\n", '[job]\nunits = "SI"\n'))
    assert "MPa" in run("check", job, "--all").stdout
    assert "psi" in run("check", job, "--units", "US", "--all").stdout


def test_invented_data_is_said_to_be_that(run, written) -> None:
    assert "Invented data: an example, not a real building." in run("check", written(PASSES), "--all").stdout
    assert "Invented data" not in run("check", written(PASSES.replace("invented = true\n", ""))).stdout


def test_all_outputs_hold_the_same_result(run, written, tmp_path) -> None:
    job, sheet, out = written(FAILS), tmp_path / "sheet.html", tmp_path / "out.json"
    done = run("check", job, "--sheet", sheet, "--json", out)
    assert done.exit_code == 4
    assert flat(done.stdout).startswith(f"Written: {sheet} Written: {out} FAILS")
    page, found = sheet.read_text(encoding="utf-8"), json.loads(out.read_text(encoding="ascii"))
    expected = check_text(FAILS, "job.toml")
    for text in (page, out.read_text(encoding="ascii")):
        assert CAUTION in text and expected.fingerprint in text
        assert expected.sign_off.split(":")[0] in text
    assert [piece["verdict"] for piece in found["pieces"]] == [piece.verdict for piece in expected.pieces]
    assert found["job_file"]["text"] == FAILS


def test_json_on_standard_output_is_nothing_but_json(run, written, tmp_path) -> None:
    job, out = written(REFER), tmp_path / "out.json"
    done = run("check", job, "--json", "-")
    assert done.exit_code == 3
    assert run("check", job, "--json", out).exit_code == 3
    assert done.stdout == out.read_text(encoding="ascii")
    assert json.loads(done.stdout)["verdict"] == "refer"


class TestNothingIsWrittenWhenSomethingIsWrong:
    @pytest.mark.parametrize("text", [BAD, NOT_TOML, "\x00", ""])
    def test_a_bad_job_writes_nothing_and_leaves_what_is_there(self, text, run, written, tmp_path) -> None:
        sheet, out = tmp_path / "sheet.html", tmp_path / "out.json"
        run("check", written(PASSES), "--sheet", sheet, "--json", out)
        before = sheet.read_bytes(), out.read_bytes()
        done = run("check", written(text), "--sheet", sheet, "--json", out, "--overwrite")
        assert done.exit_code == 2 and done.stdout == ""
        assert (sheet.read_bytes(), out.read_bytes()) == before
        assert sorted(path.name for path in tmp_path.iterdir()) == ["job.toml", "out.json", "sheet.html"]

    def test_the_error_says_where_and_what_would_be_right(self, run, written) -> None:
        job = written(BAD)
        said = run("check", job).stderr
        assert said.startswith(f"whatcarries: {job}: 1 problem\n  line ")
        assert "carries 1, live: '40' has no unit; a load is written with one, for example '40 psf'" in said

    def test_a_job_that_is_not_there(self, run, tmp_path) -> None:
        done = run("check", tmp_path / "no.toml")
        assert (done.exit_code, done.stdout) == (2, "")
        assert "there is no such file" in done.stderr

    def test_the_job_file_itself_is_never_written_over(self, run, written, tmp_path) -> None:
        job = written(PASSES)
        (tmp_path / "link.html").symlink_to(job)
        os.link(job, tmp_path / "hard.json")
        for option, name in zip(
            ("--sheet", "--json") * 2, ("job.toml", "job.toml", "link.html", "hard.json"), strict=True
        ):
            path = tmp_path / name
            done = run("check", job, option, path, "--overwrite")
            assert done.exit_code == 2
            assert "is the same file as the job file: give it another name" in done.stderr
        assert job.read_text() == PASSES

    def test_two_outputs_need_two_files(self, run, written, tmp_path) -> None:
        done = run("check", written(PASSES), "--sheet", tmp_path / "o", "--json", tmp_path / "." / "o")
        assert done.exit_code == 2 and "is the same file as --sheet" in done.stderr
        assert not (tmp_path / "o").exists()

    def test_a_foreign_file_is_replaced_only_when_told(self, run, written, tmp_path) -> None:
        job, sheet, foreign = written(PASSES), tmp_path / "sheet.html", tmp_path / "letter.json"
        foreign.write_text("a letter")
        done = run("check", job, "--sheet", sheet, "--json", foreign)
        assert done.exit_code == 2 and "was not made by whatcarries" in done.stderr
        assert foreign.read_text() == "a letter" and not sheet.exists()
        assert run("check", job, "--json", foreign, "--overwrite").exit_code == 0
        assert run("check", job, "--json", foreign).exit_code == 0  # its own files are known by their mark

    @pytest.mark.parametrize(
        ("target", "said"),
        [("no/folder.html", "No such file or directory"), ("job.toml/x.html", "Not a directory"), (".", "is a folder")],
    )
    def test_a_place_that_cannot_be_written(self, target, said, run, written, tmp_path) -> None:
        job = written(PASSES)
        done = run("check", job, "--sheet", tmp_path / target)
        assert (done.exit_code, done.stdout) == (2, "")
        assert said in done.stderr and "Traceback" not in done.stderr

    def test_a_pipe_or_device_is_no_file(self, run, written, tmp_path) -> None:
        """It must stay what it is: put a file in the place of a device, and other programs lose it."""
        pipe = tmp_path / "pipe"
        os.mkfifo(pipe)
        done = run("check", written(PASSES), "--sheet", pipe, "--overwrite")
        assert done.exit_code == 2 and "is a device or a pipe, not a file" in done.stderr
        assert pipe.is_fifo()

    def test_a_folder_that_refuses_leaves_the_old_file(self, run, written, tmp_path, monkeypatch) -> None:
        """The superuser may write anywhere, so the refusal of the folder is put in its place."""
        job, sheet = written(PASSES), tmp_path / "sheet.html"
        run("check", job, "--sheet", sheet)
        before = sheet.read_bytes()

        def refuse(*_: object) -> None:
            raise PermissionError(13, "Permission denied")

        monkeypatch.setattr("os.replace", refuse)
        done = run("check", job, "--sheet", sheet)
        assert done.exit_code == 2 and "Permission denied" in done.stderr
        assert sheet.read_bytes() == before
        assert [path.name for path in tmp_path.iterdir() if path.suffix == ".part"] == []

    def test_when_the_second_file_fails_none_is_written(self, run, written, tmp_path) -> None:
        sheet = tmp_path / "sheet.html"
        done = run("check", written(PASSES), "--sheet", sheet, "--json", tmp_path / "no" / "out.json")
        assert done.exit_code == 2
        assert "out.json could not be written" in done.stderr and not sheet.exists()

    def test_a_sheet_cannot_go_to_standard_output(self, run, written) -> None:
        assert "a page is not for standard output" in run("check", written(PASSES), "--sheet", "-").stderr


class TestSlips:
    @pytest.mark.parametrize(
        ("arguments", "said"),
        [
            (["check", "--shet", "x"], "'--sheet'"),
            (["chek"], "there is no command 'chek'; did you mean 'check'"),
            (["house.toml"], "did you mean `whatcarries check house.toml`?"),
            (["check"], "Missing argument 'JOB.toml'"),
            (["check", "a.toml", "--units", "metric"], "'US', 'SI'"),
            (["check", "a.toml", "b.toml"], "unexpected extra argument"),
            (["schema", "house"], "'job', 'result'"),
        ],
    )
    def test_a_slip_is_told_and_the_right_word_offered(self, arguments, said, run) -> None:
        done = run(*arguments)
        assert done.exit_code == 2 and done.stdout == ""
        assert said in done.stderr
        assert "--help` says what can be given." in done.stderr

    def test_without_a_command_the_help_is_shown(self, run) -> None:
        done = run()
        assert done.exit_code == 2 and done.stdout == ""
        assert "check" in done.stderr and "span" in done.stderr

    @pytest.mark.parametrize("arguments", [["--help"], ["check", "-h"], ["span", "--help"]])
    def test_the_help_states_the_exit_status(self, arguments, run) -> None:
        done = run(*arguments)
        assert done.exit_code == 0
        for line in ("0  every piece passes", "3  refer:", "4  at least one piece fails", "2  bad input or usage"):
            assert line in done.stdout

    def test_version(self, run) -> None:
        from beamcheck import __version__

        assert run("--version").stdout == f"whatcarries {__version__}\n"
