"""Files that cannot be read at all, and text that is not TOML: one JobError in plain words, never a traceback."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.errors import JobError
from beamcheck.model.reading.reader import MOST_BYTES, read_job, read_job_text

from ..jobs import GOOD, edited, line_with, only_problem


def _refused(path: Path) -> str:
    with pytest.raises(JobError) as caught:
        read_job(path)
    assert caught.value.source == str(path)
    assert len(caught.value.problems) == 1
    return str(caught.value)


def test_a_good_file_is_read_by_path_and_by_text(tmp_path: Path) -> None:
    path = tmp_path / "house.toml"
    path.write_text(GOOD, encoding="utf-8")
    assert read_job(path) == read_job(str(path)) == read_job_text(GOOD)


def test_a_missing_file(tmp_path: Path) -> None:
    assert "there is no such file" in _refused(tmp_path / "house.toml")
    assert "there is no folder" in _refused(tmp_path / "no" / "house.toml")


def test_a_folder(tmp_path: Path) -> None:
    assert "this is a folder: name the job file in it" in _refused(tmp_path)


def test_a_name_no_file_can_have(tmp_path: Path) -> None:
    with pytest.raises(JobError, match="not a file name"):
        read_job("house\0.toml")
    assert "cannot be read" in _refused(tmp_path / ("x" * 5000))


def test_no_permission(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The refusal is staged, since the superuser may read everything."""
    path = tmp_path / "house.toml"
    path.write_text(GOOD, encoding="utf-8")

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr("builtins.open", refuse)
    assert "no permission to read this file" in _refused(path)


def test_ten_megabytes_of_garbage_are_refused_unread(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "garbage.toml"
    path.write_bytes(os.urandom(1000) * 10_000)

    def parse(_: str) -> None:
        raise AssertionError("it must not come to parsing")

    monkeypatch.setattr("beamcheck.model.reading.reader.tomllib.loads", parse)
    assert "larger than 2 MB: this is not a job file" in _refused(path)
    with pytest.raises(JobError, match="larger than 2 MB"):
        read_job_text("#" * (MOST_BYTES + 1))


@pytest.mark.parametrize(
    ("raw", "text"),
    [
        (GOOD.encode("utf-16"), "saved as UTF-16: save it as UTF-8"),
        ("\ufeff".encode("utf-16-be") + GOOD.encode("utf-16-be"), "saved as UTF-16: save it as UTF-8"),
        (GOOD.encode("utf-16-le"), "this is not a text file"),
        (b"\x7fELF\x02\x01\x01\0\0\0\0\0", "this is not a text file"),
        (b'[job]\ntitle = "7\xbd in"\n', "line 2: byte 0xbd is not UTF-8: save the file as plain text in UTF-8"),
    ],
)
def test_other_encodings_and_binary_files(raw: bytes, text: str, tmp_path: Path) -> None:
    path = tmp_path / "house.toml"
    path.write_bytes(raw)
    assert text in _refused(path)


def test_the_mark_that_some_editors_put_before_utf8_is_harmless(tmp_path: Path) -> None:
    path = tmp_path / "house.toml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    assert read_job(path) == read_job_text(GOOD)


STOPPED = "(reading stopped here; there may be more below)"


@pytest.mark.parametrize(
    ("changes", "at_line_with", "text"),
    [
        ([('height = "8 ft"', "height = 8 ft")], "height =", 'put quantities and text in quotes: height = "8 ft"'),
        ([('at = "14 ft", on', "at = 14 ft, on")], "at = 14 ft", 'put quantities and text in quotes: at = "14 ft"'),
        (
            [('finish = "plaster"', "finish = plaster")],
            "= plaster",
            'put quantities and text in quotes: finish = "plaster"',
        ),
        ([('height = "8 ft"', "height = 8'-6\"")], "8'-6", 'write feet and inches as words, such as "7 ft 6 1/2 in"'),
        (
            [('height = "8 ft"', 'height = "8\'-6""')],
            "8'-6",
            "the text ended at its second quote and something follows",
        ),
        (
            [('height = "8 ft"', "height = “8 ft”")],
            "“8 ft”",
            "curly quotes, as a word processor makes them, are not read",
        ),
        ([('height = "8 ft"', 'height = "8 ft')], "height =", "a text in quotes is not closed"),
        ([('height = "8 ft"', "height =")], "height =", 'height has no value: write height = "..."'),
        ([('height = "8 ft"', 'height: "8 ft"')], "height:", 'not of the form name = value, such as height = "8 ft"'),
        ([('height = "8 ft"', 'clear height = "8 ft"')], "clear", "not of the form name = value"),
        ([('height = "8 ft"', '= "8 feet"')], '= "8 feet"', "this line cannot be read"),
        ([('height = "8 ft"', 'height = "8 \\ft"\nx = "\\q"')], "\\q", "a backslash has a meaning of its own"),
        ([('height = "8 ft"', 'height = "8 ft"\nheight = "9 ft"')], "9 ft", "a name is given twice in the same table"),
        ([('holds = "hung" }', 'holds = "hung", }')], '"hung"', "an entry in braces { } must stand on one line"),
        ([('holds = "hung" }', 'holds = "hung",\n }')], '"hung"', "an entry in braces { } must stand on one line"),
        (
            [('holds = "hung" },', 'holds = "hung" }')],
            '"8 ft", on = "north wall"',
            "a comma between two of its entries is missing",
        ),
        ([('height = "8 ft"', 'height = 96"')], '96"', "write feet and inches as words"),
        (
            [('  { at = "8 ft", on = "north wall" }', "  eight feet")],
            "eight",
            "put quantities and text in quotes, such as",
        ),
        ([("[rafter.wall]", "carries = []\n  [rafter.wall]")], "[[rafter.carries]]", "given on one line already"),
        ([("[job]", "[[job]")], "[[job]", "a table's name stands between two brackets, such as [job]"),
        ([("[job]", "[job]]")], "[job]]", "a table's name stands between two brackets, such as [job]"),
        ([("[[post]]", "[job]")], None, "the table [job] stands here a second time: put its lines together"),
        ([("[[post]]", "[[beam]]\n[beam]")], None, "write [[beam]] above each piece"),
    ],
)
def test_slips_of_spelling_are_named_in_plain_words(
    changes: list[tuple[str, str]], at_line_with: str | None, text: str
) -> None:
    bad = edited(*changes)
    problem = only_problem(bad)
    assert text in problem.text
    assert problem.text.endswith(STOPPED)
    if at_line_with is None:  # the table that stands a second time
        header = changes[0][1].split("\n")[-1]
        assert problem.line == len(bad[: bad.rindex(f"{header}\n")].split("\n"))
    else:
        assert problem.line == line_with(bad, at_line_with)


def test_what_is_left_open_at_the_end_is_found_where_it_began() -> None:
    bad = edited(('  { what = "attic, no storage", live = "10 psf", width = "4 ft" },\n]', ""))
    problem = only_problem(bad)
    assert "this line is right by itself, so a list [ ] above it is not closed" in problem.text
    assert problem.line == line_with(bad, 'finish = "plaster"')
    assert only_problem(GOOD + '\nwhat = """old\nand\nlong\n').line == GOOD.count("\n") + 2
    assert only_problem(GOOD + '\ncuts = [\n  { kind = "hole" },\n').line == GOOD.count("\n") + 2


@pytest.mark.parametrize(
    "text",
    [
        "Dear carpenter,\nplease check the beam.\n",
        "<html><body>beam</body></html>",
        '{"job": {"title": "x"}}',
        "beam: B1\n  span: 12\n",
    ],
)
def test_prose_and_other_formats(text: str) -> None:
    problem = only_problem(text)
    assert problem.line == 1
    assert "name = value" in problem.text or "a job file has lines such as [[beam]]" in problem.text


def test_an_empty_file_misses_the_job_table() -> None:
    problem = only_problem("")
    assert (problem.where, problem.line) == ("job", None)
    assert problem.text.startswith("missing: the [job] table")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a = " + "[" * 900_000, "brackets within brackets, too deep"),
        ("a = " + "{b=" * 3000 + "1" + "}" * 3000, "brackets within brackets, too deep"),
        ("members = " + "9" * 5000, "a number in it is too long"),
        ("ok = 1\na" + ".a" * 900_000 + " = 1", "a dotted name of so many parts"),
        ("[[beam]]\n" * 1000, "more than 500 entries in one list"),
        ("[[beam]]\nsupports = [" + "{},\n" * 1000 + "]", "more than 500 entries in one list"),
    ],
)
def test_hostile_files_end_quickly_in_one_problem(text: str, said: str) -> None:
    assert said in only_problem(text).text


def test_no_more_than_two_hundred_problems_are_told() -> None:
    with pytest.raises(JobError) as caught:
        read_job_text(GOOD + "[[beam]]\n" * 100)
    assert len(caught.value.problems) == 201
    assert caught.value.problems[-1].text == "and more: these are the first ones only"


@given(st.binary(max_size=300))
def test_random_bytes_are_refused_politely(tmp_path_factory: pytest.TempPathFactory, raw: bytes) -> None:
    path = tmp_path_factory.getbasetemp() / "random.toml"
    path.write_bytes(raw)
    with pytest.raises(JobError):
        read_job(path)
