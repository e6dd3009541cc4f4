"""A long sheet is set in parts that are joined: to whoever reads it, it is one sheet. The parts are made short here."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.checks.core.result import JobResult
from beamcheck.sheet.pdf import long, render
from beamcheck.sheet.pdf.cuts import parts_of
from beamcheck.sheet.pdf.objects import renumbered
from beamcheck.sheet.pdf.render import sheet_pdf
from beamcheck.sheet.recheck.recheck import recheck
from beamcheck.sheet.record.as_json import result_json
from beamcheck.sheet.record.pdf_mark import unchanged
from beamcheck.sheet.spool import IN_MEMORY, Spool

from ...worked_examples.results import example
from ..sample import job
from .pdf_reader import Sheet, squeezed

LETTERS = 9_000  # of data in a part: a member, and tables in pieces


@pytest.fixture(scope="module")
def short_parts() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(render, "LONG", 0)
        patch.setattr(long, "PART", LETTERS)
        yield


@pytest.fixture(scope="module")
def house() -> JobResult:
    return example("boat_shed")


@pytest.fixture(scope="module")
def whole(house: JobResult) -> Sheet:
    return Sheet(sheet_pdf(house))


@pytest.fixture(scope="module")
def pdf(house: JobResult, whole: Sheet, short_parts: None) -> bytes:  # `whole` is made before parts are short
    return sheet_pdf(house)


@pytest.fixture(scope="module")
def sheet(pdf: bytes) -> Sheet:
    return Sheet(pdf)


def test_the_pages_are_numbered_through(sheet: Sheet, whole: Sheet, house: JobResult) -> None:
    assert len(sheet.pages) > len(whole.pages)  # it was cut: a part begins on a page of its own
    for number, page in enumerate(sheet.pages, start=1):
        assert page.count(f"page {number} of {len(sheet.pages)}\n") == 1 and len(re.findall(r"page \d+ of", page)) == 1
        assert f"job {house.fingerprint[:12]}" in page and "0000" not in page


def test_no_word_is_lost_or_put_in(sheet: Sheet, whole: Sheet) -> None:
    """But for the numbers of pages, and what stands in the heads of pages."""
    texts = ["".join(page.split("\n", 1)[1] for page in each.pages) for each in (sheet, whole)]
    for one in (r"[^\W\d]{2,}", r"\d+\.\d+"):
        found, expected = (set(re.findall(one, text)) for text in texts)
        assert found == expected and len(found) > 50


def test_bookmarks_are_those_of_the_whole_and_lead_to_their_pages(sheet: Sheet, whole: Sheet) -> None:
    assert [mark[:2] for mark in sheet.bookmarks] == [mark[:2] for mark in whole.bookmarks]
    for _depth, title, page in sheet.bookmarks:
        assert squeezed(title.replace("\u00a0", " ")) in squeezed(sheet.pages[page - 1].replace("\u00a0", " ")), title


def test_the_schedule_has_the_pages_of_the_members(sheet: Sheet, house: JobResult) -> None:
    start = sheet.page_of("Member schedule")
    schedule = squeezed("".join(sheet.pages[start - 1 : sheet.page_of("Key plan and load path")]))
    members = [(title, page) for _depth, title, page in sheet.bookmarks if re.match(r"[A-Z]+[0-9]", title)]
    assert len(members) > 5
    for title, page in members:
        mark = title.split()[0].rstrip(",")
        assert re.search(rf"{mark}(?!\d).*?(passes|refer|fails){page}(?!\d)", schedule), title


def test_links_lead_within_the_sheet_to_the_page_that_they_say(sheet: Sheet, whole: Sheet) -> None:
    reader: Any = sheet.reader
    links = [note.get_object() for page in reader.pages for note in page.get("/Annots", ())]
    assert len(links) == sum(len(page.get("/Annots", ())) for page in whole.reader.pages) > 20
    for link in links:
        assert link["/Subtype"] == "/Link" and "/A" not in link
        place = reader.named_destinations[link["/Dest"]]
        assert link["/Contents"] == f"page {reader.get_destination_page_number(place) + 1}"
        assert 0 <= place.top <= 792 and 0 <= place.left <= 612


def test_tags_of_all_parts_are_one_document(sheet: Sheet, whole: Sheet) -> None:
    """Each page and link finds its tags, and each cell of a table the heads that it names."""
    root: Any = sheet.reader.root_object["/StructTreeRoot"]
    numbers = root["/ParentTree"]["/Nums"]
    keys = numbers[0::2]
    assert keys == sorted(set(keys))
    of = dict(zip(map(int, keys), numbers[1::2], strict=True))
    for page in sheet.reader.pages:
        assert all(tag.get_object()["/P"] for tag in of[page["/StructParents"]] if tag.get_object())
        for note in page.get("/Annots", ()):
            assert of[note.get_object()["/StructParent"]].get_object()["/S"] == "/Link"
    names = [str(name) for name in root["/IDTree"]["/Names"][0::2]]
    assert names == sorted(set(names))
    assert _tags(root) | {"/Part": 0} == _tags(whole.reader.root_object["/StructTreeRoot"]) | {"/Part": 0}


def _tags(root: Any) -> dict[str, int]:
    """How many tags of each kind there are, but for rows of heads, which stand again where a table was cut."""
    found: dict[str, int] = {}
    left = [root["/K"]]
    while left:
        one = left.pop().get_object()
        if isinstance(one, list):
            left += one
        elif isinstance(one, dict) and "/S" in one:
            found[one["/S"]] = found.get(one["/S"], 0) + 1
            left += [one["/K"]] if "/K" in one else []
    return {
        kind: count for kind, count in found.items() if kind in ("/Document", "/Formula", "/Figure", "/H1", "/Link")
    }


def test_it_says_of_itself_what_the_whole_says(sheet: Sheet, whole: Sheet, pdf: bytes, house: JobResult) -> None:
    assert sheet.reader.metadata == whole.reader.metadata
    assert sheet.attached == {
        "job.toml": house.job_text.encode(), "result.json": result_json(house).encode("ascii")
    }  # fmt: skip
    told = sheet.reader.root_object["/Metadata"].get_data().decode()  # type: ignore[union-attr]
    assert f"<xmpTPg:NPages>{len(sheet.pages)}<" in told and "<pdfuaid:part>1<" in told and "<pdfaid:part>3<" in told
    one, other = (each.reader.trailer["/ID"] for each in (sheet, whole))  # type: ignore[index]
    assert one[0] == other[0] and one[1] != other[1] and str(one[1]) in told


def test_it_is_ours_and_the_same_again(pdf: bytes, house: JobResult, short_parts: None) -> None:
    assert unchanged(pdf) and sheet_pdf(house) == pdf


@pytest.fixture(scope="module")
def few_pieces(whole: Sheet, short_parts: None) -> bytes:
    """Of a job that is checked and set anew in a second; in parts, too."""
    made = sheet_pdf(example("mantel_on_wooden_brackets"))
    root: Any = Sheet(made).reader.root_object["/StructTreeRoot"]
    (document,) = root["/K"]
    assert [part.get_object()["/S"] for part in document.get_object()["/K"]].count("/Part") > 2
    return made


def test_it_is_read_back_and_found_as_it_was_made(few_pieces: bytes, short_parts: None, tmp_path: Path) -> None:
    path = tmp_path / "sheet.pdf"
    path.write_bytes(few_pieces)
    assert recheck(path).state == "same"
    path.write_bytes(few_pieces.replace(b"%generator: whatcarries", b"%generator: whatcarriez"))
    assert recheck(path).state == "tampered"


def test_it_can_be_signed(few_pieces: bytes, short_parts: None, tmp_path: Path) -> None:
    pytest.importorskip("pyhanko", reason="signing needs it")
    from beamcheck.sheet.sign import signed_pdf

    from ...doors.test_sign_command import made_key

    key, path = made_key(), tmp_path / "signed.pdf"
    path.write_bytes(signed_pdf(few_pieces, key.raw, key.password))
    found = recheck(path)
    assert found.state == "same" and "Signature 1 holds, and covers the whole file" in " ".join(str(found).split())


def test_the_full_form_has_contents_with_the_pages_of_all_parts(short_parts: None) -> None:
    sheet = Sheet(sheet_pdf(job(), all_steps=True))
    contents = squeezed(sheet.pages[sheet.page_of("Contents") - 1])
    parts = [(title, page) for depth, title, page in sheet.bookmarks if depth == 1]
    assert len(parts) > 5
    for title, page in parts:
        if title not in ("Project", "Contents"):
            assert re.search(rf"{re.escape(squeezed(title))}\.*{page}(?!\d)", contents), title


def test_where_the_numbers_of_pages_do_not_come_to_rest_it_is_set_whole(
    short_parts: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(long, "TRIES", 1)
    in_parts = sheet_pdf(job())
    monkeypatch.setattr(render, "LONG", 10**9)
    assert in_parts == sheet_pdf(job())


def _table(rows: int) -> dict[str, Any]:
    return {"kind": "RichTable", "title": "Schedule", "note": ["end"], "anchor": "here",
            "rows": [[{"cell": "text", "text": [f"row {n}"]}] for n in range(rows)]}  # fmt: skip


def _heading(level: int, text: str = "A") -> dict[str, Any]:
    return {"kind": "Heading", "level": level, "text": text, "anchor": text.casefold(), "running": text}


def _blocks(parts: list[Any]) -> list[list[dict[str, Any]]]:
    import json

    return [json.loads(part.blocks) for part in parts]


def test_a_long_table_is_cut_between_rows() -> None:
    table = _table(100)
    parts = list(parts_of([[_heading(1, "List"), table]], 1_500))
    tables = [block for part in _blocks(parts) for block in part if block["kind"] == "RichTable"]
    assert len(tables) > 2 and [row for one in tables for row in one["rows"]] == table["rows"]
    assert [one["title"] for one in tables] == ["Schedule"] + [""] * (len(tables) - 1)
    assert [one["note"] for one in tables] == [[]] * (len(tables) - 1) + [["end"]]
    assert [part.anchors for part in parts] == [["list", "here"]] + [[]] * (len(parts) - 1)
    assert [part.running for part in parts] == [""] + ["List"] * (len(parts) - 1)


def test_what_has_headings_of_lower_levels_begins_with_its_own() -> None:
    """A heading of the second level must not be the first of a part."""
    run = [_heading(1, "B"), *({"kind": "Paragraph", "text": ["x" * 400]} for _ in range(4)), _heading(2, "C")]
    parts = _blocks(list(parts_of([[_heading(1)], run], 1_000)))
    assert parts == [[_heading(1)], run]


def test_a_part_that_prints_numbers_of_pages_says_so() -> None:
    asking = _table(1) | {"rows": [[{"cell": "PageOf", "to": "here"}]]}
    runs = [[_heading(1), _table(9)], [_heading(1), asking], [_heading(1), {"kind": "Contents", "rows": []}]]
    assert [part.asks for run in runs for part in parts_of([run], 10_000)] == [False, True, True]


@given(st.text(alphabet="() \\R0123456789ab", max_size=30))
def test_a_text_that_reads_like_a_reference_is_left_as_it_is(text: str) -> None:
    said = "/T(" + re.sub(r"[()\\]", r"\\\g<0>", text) + ")"
    body = f"<</P 3 0 R{said}/K[4 0 R 5 0 R]/StructParent 6/N 7>>".encode()
    assert renumbered(body, lambda old: old + 100, 20) == (
        f"<</P 103 0 R{said}/K[104 0 R 105 0 R]/StructParent 26/N 7>>".encode()
    )


def test_brackets_in_brackets_of_a_text_are_counted() -> None:
    assert renumbered(b"(a (1 0 R) 2 0 R) 3 0 R", lambda old: 9, 0) == b"(a (1 0 R) 2 0 R) 9 0 R"


def test_what_is_spooled_comes_back_in_pieces() -> None:
    spool, written = Spool(), b""
    for number in range(7):
        piece = bytes([number]) * (IN_MEMORY // 5)
        spool.write(piece)
        written += piece
    assert b"".join(spool) == written == b"".join(spool) and len(list(spool)) > 3
    spool.write(b"more")
    assert b"".join(spool) == written + b"more"


def test_what_fits_in_a_part_is_not_cut() -> None:
    runs = [[_heading(1, str(n)), *({"kind": "Paragraph", "text": ["x" * 100]} for _ in range(4))] for n in range(5)]
    parts = _blocks(list(parts_of(runs, 900)))
    assert parts == runs
