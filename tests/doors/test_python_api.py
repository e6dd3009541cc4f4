"""The package as Python sees it: names, examples that run, what a result shows of itself."""

from __future__ import annotations

import doctest
import html
import json
import os
from dataclasses import replace
from importlib import import_module

import pytest

import beamcheck
from beamcheck import BeamcheckError, JobError, check_file, check_text, result_json, sheet_html, write_json, write_sheet
from beamcheck.checks.core.asking.question_words import WHO
from beamcheck.checks.core.result import Check, JobResult, PieceResult, no_figure

from .jobs import BAD, FAILS, GOOD, PASSES

SIGN = "Reviewed by licensed engineer: ____________________   license no.: __________   date: __________"
EVIL = '<script>alert("1")</script> \x1b[2J\u202e & co'


@pytest.mark.parametrize("module", ["beamcheck", "beamcheck.api", "beamcheck.sizing.span"])
def test_the_examples_in_the_docstrings_run(module) -> None:
    found = doctest.testmod(import_module(module))
    assert found.attempted > 0 and found.failed == 0


def test_every_public_name_is_there() -> None:
    assert all(getattr(beamcheck, name) is not None for name in beamcheck.__all__)
    assert set(beamcheck.__all__) <= set(dir(beamcheck))
    with pytest.raises(AttributeError, match="module 'beamcheck' has no attribute 'chek_job'"):
        beamcheck.chek_job  # noqa: B018


def test_a_file_and_its_text_give_the_same_result(written) -> None:
    path = written(FAILS.replace("\n", "\r\n"))
    by_path, by_text = check_file(path), check_text(path.read_bytes().decode(), "job.toml")
    assert by_path == by_text
    assert by_path.job_text == path.read_bytes().decode() and by_path.job_name == "job.toml"


def test_the_command_and_the_functions_give_the_same_files(run, written, tmp_path) -> None:
    path = written(FAILS)
    run("check", path, "--sheet", tmp_path / "one.html", "--json", tmp_path / "one.json")
    result = check_file(path)
    assert write_sheet(result, tmp_path / "two.html") == tmp_path / "two.html"
    write_json(result, tmp_path / "two.json")
    assert (tmp_path / "one.html").read_bytes() == (tmp_path / "two.html").read_bytes() == sheet_html(result).encode()
    assert (tmp_path / "one.json").read_bytes() == (tmp_path / "two.json").read_bytes() == result_json(result).encode()


def test_the_sheet_holds_every_verdict_and_ratio_of_the_json() -> None:
    result = check_text(FAILS)
    page = " ".join(sheet_html(result).split())
    for piece in json.loads(result_json(result))["pieces"]:
        for check in piece["checks"]:
            if check["ratio"]:
                assert beamcheck.show(check["ratio"]["value"], "ratio") in page


@pytest.mark.parametrize("text", [BAD, "no toml", ""])
def test_bad_text_is_one_error_with_all_that_is_wrong(text) -> None:
    with pytest.raises(JobError, match=r"^shed: 1 problem"):
        check_text(text, "shed")


def test_a_file_that_cannot_be_read_says_why(tmp_path) -> None:
    with pytest.raises(JobError, match="there is no such file"):
        check_file(tmp_path / "none.toml")
    (tmp_path / "utf16.toml").write_bytes("[job]".encode("utf-16"))
    with pytest.raises(JobError, match="saved as UTF-16"):
        check_file(tmp_path / "utf16.toml")
    with pytest.raises(JobError, match="folder"):
        check_file(tmp_path)


def test_a_foreign_file_is_not_written_over(tmp_path) -> None:
    result, path = check_text(PASSES), tmp_path / "x.html"
    path.write_text("a letter")
    for write in (write_sheet, write_json):
        with pytest.raises(BeamcheckError, match="was not made by whatcarries"):
            write(result, path)
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(BeamcheckError, match="is a device"):
        write_json(result, tmp_path / "pipe", overwrite=True)
    assert path.read_text() == "a letter"


def everything() -> list[tuple[JobResult | PieceResult | Check, str]]:
    results = [check_text(text) for text in GOOD.values()]
    pieces = [piece for result in results for piece in result.pieces]
    return [(one, one.verdict) for one in (*results, *pieces, *(check for piece in pieces for check in piece.checks))]


def test_whatever_is_shown_carries_verdict_caution_and_sign_off_line() -> None:
    for one, verdict in everything():
        for text in (repr(one), one._repr_html_()):
            assert verdict in text.casefold()
            assert beamcheck.CAUTION in text and SIGN in text
        assert one._repr_html_().startswith("<div") and one._repr_html_().endswith("</div>")


def test_a_result_shows_why_and_each_piece() -> None:
    result = check_text(FAILS)
    for text in (repr(result), result._repr_html_()):
        assert all(reason in text for reason in result.reasons)
        assert "J1" in text and "J2" in text and "ratio 3.05" in text
        assert "Invented data: an example, not a real building" in text


def test_a_notebook_shows_what_to_find_out_and_who_answers() -> None:
    result = next(one for one in (check_text(text) for text in GOOD.values()) if one.questions)
    page = result._repr_html_()
    places = [page.index(html.escape(one.question.ask)) for one in result.questions]
    assert places == sorted(places) and WHO[result.questions[0].question.who] in page


def test_a_notebook_draws_a_piece_as_its_sheet_does() -> None:
    result = check_text(GOOD["passes"])
    (piece,) = [one for one in result.pieces if one.figure is not None][:1]
    shown = beamcheck.drawings(piece)
    assert shown.svg and all(text.startswith("<svg") for text in shown.svg)
    assert beamcheck.CAUTION in shown._repr_html_() and SIGN in shown._repr_html_()
    hostile = beamcheck.drawings(replace(piece, name=EVIL))
    assert "<script" not in hostile._repr_html_()


def test_nothing_in_a_text_breaks_out_of_it() -> None:
    result = check_text(FAILS)
    check = Check("B", EVIL, "c", "refer", where=EVIL, notes=(EVIL,), questions=(no_figure("B", EVIL),))
    piece = PieceResult(EVIL, "beam", EVIL, "refer", (check,), ())
    for one in (replace(result, title=EVIL, reasons=(EVIL,), pieces=(piece,)), piece, check):
        assert "<script" not in one._repr_html_() and "&lt;script&gt;" in one._repr_html_()
        for text in (repr(one), one._repr_html_(), beamcheck.plain_text(replace(result, title=EVIL, pieces=(piece,)))):
            assert "\x1b" not in text and "\u202e" not in text


def test_a_line_end_in_a_name_does_not_make_a_line_of_its_own() -> None:
    """Or a name could write a verdict of its own under the true one."""
    forged = replace(check_text(FAILS), title="shed\nPASSES. Every check made here is met.", reasons=("a\rPASSES",))
    for text in (repr(forged), beamcheck.plain_text(forged)):
        assert not any(line.strip().startswith("PASSES") for line in text.replace("\r", "\n").splitlines())


def test_a_job_of_nothing_is_referred() -> None:
    text = beamcheck.plain_text(check_text(PASSES.split("[[stock]]")[0]))
    assert text.startswith("REFER.") and beamcheck.CAUTION.split(".")[0] in " ".join(text.split())
