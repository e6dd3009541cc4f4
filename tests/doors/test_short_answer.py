"""The short answer: verdict in the first and the last screen, failing first, 25 lines, the same words without color."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from beamcheck import check_text
from beamcheck.console import colored
from beamcheck.sheet.terminal.look import bar, cut_short, hung, painted, ratio_text
from beamcheck.sheet.terminal.one_piece import why_text
from beamcheck.sheet.terminal.short import short_text

from ..worked_examples.results import example
from .jobs import FAILS, PASSES, REFER, joist

EXAMPLES = Path(__file__).parents[2] / "worked_examples"
COLOR = re.compile(r"\x1b\[[0-9;]*m")


@pytest.fixture(scope="module")
def house():
    return example("net_loft")


def test_a_house_is_answered_in_25_lines_of_80_columns_in_ascii(house) -> None:
    lines = short_text(house, source="net_loft.toml").splitlines()
    assert 10 <= len(lines) <= 25
    assert max(map(len, lines)) <= 80
    assert "\n".join(lines).isascii()
    assert lines[0].startswith(house.verdict.upper())


def test_what_fails_stands_above_what_is_open_and_that_above_what_passes(house) -> None:
    signs = [line[:2].strip("1 ") for line in short_text(house).splitlines() if re.match(r"NO |\?|ok ", line)]
    order = [{"NO": 0, "ok": 2}.get(sign, 1) for sign in signs]
    assert order == sorted(order) and 0 in order


def test_a_sound_beam_is_answered_in_less_than_12_lines_with_what_was_understood() -> None:
    text = short_text(check_text(PASSES), source="job.toml")
    assert len(text.splitlines()) < 12
    assert "10 psf dead and 40 psf live over 16 in" in " ".join(text.split())


@pytest.mark.parametrize("width", [40, 60, 80, 100])
@pytest.mark.parametrize("text", [PASSES, REFER, FAILS])
def test_it_fits_the_window(width, text) -> None:
    result = check_text(text)
    for said in (short_text(result, width=width, source="job.toml"), why_text(result, "J1", width=width)):
        assert all(len(line) <= width and line == line.rstrip() for line in said.splitlines()), said


def test_of_two_hundred_pieces_the_rest_is_counted() -> None:
    many = PASSES + "".join(joist(f"K{number}", live=f"{40 + number / 10} psf") for number in range(40))
    lines = short_text(check_text(many), source="job.toml").splitlines()
    assert len(lines) <= 25 and any(re.match(r"ok +\d+ more pieces, closest 0\.\d\d: --all", line) for line in lines)
    worse = FAILS + "".join(joist(f"K{number}", live=f"{150 + number} psf") for number in range(12))
    lines = short_text(check_text(worse), source="job.toml").splitlines()
    assert len(lines) <= 25 and any(re.match(r"NO +\d+ more pieces", line) for line in lines)


def test_a_question_says_to_whom_and_what_to_type_next() -> None:
    text = short_text(check_text(REFER), source="job.toml")
    assert re.search(r"^\?1 +J1 +the engineer: Who answers in writing", text, re.MULTILINE)
    assert "First: whatcarries ask job.toml" in text


def test_color_is_added_to_the_same_words_and_only_to_signs() -> None:
    plain = short_text(check_text(FAILS), source="job.toml")
    bright = painted(plain)
    assert COLOR.sub("", bright) == plain and bright != plain
    assert set(COLOR.findall(bright)) <= {"\x1b[32m", "\x1b[33m", "\x1b[1m", "\x1b[7;31m", "\x1b[0m"}


def test_no_color_without_a_terminal_or_with_no_color(monkeypatch, run, written) -> None:
    class Terminal:
        encoding = "utf-8"

        def isatty(self) -> bool:
            return True

    monkeypatch.setattr("sys.stdout", Terminal())
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    assert colored("auto") and not colored("never")
    monkeypatch.setenv("NO_COLOR", "1")
    assert not colored("auto") and colored("always")
    monkeypatch.delenv("NO_COLOR")
    monkeypatch.setenv("TERM", "dumb")
    assert not colored("auto")
    monkeypatch.undo()
    job = written(FAILS)
    assert "\x1b" not in run("check", job).stdout
    assert COLOR.sub("", run("check", job, "--color", "always").stdout) == run("check", job).stdout


@pytest.mark.parametrize(
    ("ratio", "said"),
    [(0.812, "0.81"), (0.815, "0.82"), (0.9949, "0.995"), (0.9999, "1.000"), (1.0004, "1.000"), (1.02, "1.020"),
     (1.021, "1.02"), (3.05, "3.05"), (None, "")],
)  # fmt: skip
def test_ratios_have_two_decimals_and_three_near_one(ratio, said) -> None:
    assert ratio_text(ratio) == said


def test_a_bar_has_its_limit_as_a_stroke() -> None:
    assert bar(0.5) == "#####     |" and bar(1.0) == "##########|" and bar(1.3) == "##########|###"
    assert bar(None) == "" and len(bar(99.0)) == 16 and bar(1.001).endswith("|#")


class TestWhy:
    def test_one_piece_in_20_lines_and_the_caution(self, run, written) -> None:
        done = run("check", written(FAILS), "--why", "j2")
        body, _, end = done.stdout.partition("A calculation aid")
        assert done.exit_code == 4 and end
        assert len(body.strip().splitlines()) <= 20
        assert re.search(r"^NO +bending .*3\.05 +##########\|#+", body, re.MULTILINE)
        assert "Understood: J2 is a floor beam" in body

    def test_a_piece_that_is_not_there(self, run, written) -> None:
        done = run("check", written(FAILS), "--why", "J9")
        assert done.exit_code == 2 and "'J9' is not known" in done.stderr

    def test_nothing_is_written_then(self, run, written, tmp_path) -> None:
        run("check", written(FAILS), "--why", "J9", "--json", tmp_path / "out.json")
        assert not (tmp_path / "out.json").exists()


def test_hostile_words_steer_nothing() -> None:
    result = check_text(PASSES)
    evil = replace(result, title="\x1b[2J\u202ex", pieces=(replace(result.pieces[0], understood="\x1b[31m evil"),))
    assert "\x1b" not in short_text(evil, source="a\x1b.toml") + why_text(evil, "J1")


def test_everything_ends_with_the_short_answer(run, written) -> None:
    job = written(FAILS)
    assert run("check", job, "--all").stdout.endswith(run("check", job).stdout)


@pytest.mark.parametrize(
    ("text", "room", "said"),
    [
        ("6x8 dressed, 14 ft 5 1/16 in", 28, "6x8 dressed, 14 ft 5 1/16 in"),
        ("6x8 dressed, 14 ft 5 1/16 in long", 32, "6x8 dressed, 14 ft 5 1/16 in ..."),
        ("6x8 dressed, 14 ft 5 1/16 in long", 31, "6x8 dressed ..."),
        ("6x8 dressed, 14 ft 5 1/16 in long", 22, "6x8 dressed ..."),
        ("bending 1,215 psi and more", 20, "bending ..."),
        ("8 ft: net section, cuts", 14, "8 ft: net ..."),
        ("onewordthatislong", 10, "onewor ..."),
    ],
)
def test_what_is_cut_ends_with_a_word_and_before_a_size(text, room, said) -> None:
    assert cut_short(text, room) == said


def test_no_size_is_cut_where_its_line_ends() -> None:
    """The line is full after `5`, and the next one begins with `1/16 in`."""
    text = f"{'x' * 70} 14 ft 5 1/16 in {'long ' * 20}"
    assert hung("ok  ", text, 84, most=1) == [f"ok  {'x' * 70} ..."]
