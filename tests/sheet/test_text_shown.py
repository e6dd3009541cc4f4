"""Text that nobody sees, or that turns what follows round, is shown by its number; text of every script prints."""

from __future__ import annotations

from pathlib import Path

import pytest

import beamcheck
from beamcheck import check_text, checks_csv, recheck, sheet_html
from beamcheck.api import shop_sheets
from beamcheck.lettering import legible
from beamcheck.sheet.lists.csv_out import starts_formula
from beamcheck.sheet.pdf.render import sheet_pdf
from beamcheck.sheet.record.enclosed import read_back
from beamcheck.sheet.register.page import register_html
from beamcheck.sheet.survey.form import blank_form
from beamcheck.sheet.survey.write import survey_html
from beamcheck.sheet.terminal.short import short_text

from ..doors.jobs import PASSES

POLICY = "default-src 'none'; style-src 'unsafe-inline'"
MIXED = "بيت الجسر בית הקורה 🏠 👨\u200d👩\u200d👧 Дом 梁 12 ft"
TURNED = PASSES.replace("# Invented example", "# \u202etnuoc ton seod\u202c \u2066x\u2069 Invented example")


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("a\u202eb", "a[U+202E]b"),
        ("\u2066x\u2069", "[U+2066]x[U+2069]"),
        ("a\u200fb\u061cc", "a[U+200F]b[U+061C]c"),
        ("ze\u200bro", "ze[U+200B]ro"),
        ("\x1b[31mred", "[U+001B][31mred"),
        ("one\u2028two", "one[U+2028]two"),
        ("tag\U000e0041", "tag[U+E0041]"),
        ("half\ud800", "half[U+D800]"),
        ("two\nlines\tkept", "two\nlines\tkept"),
        ("a\u200db", "a\u200db"),
    ],
)
def test_what_nobody_sees_is_shown_by_its_number(text: str, shown: str) -> None:
    assert legible(text) == shown


@pytest.mark.parametrize("kind", ["html", "pdf"])
def test_a_comment_that_turns_round_is_shown_and_read_back(kind: str, tmp_path: Path) -> None:
    result = check_text(TURNED, "job.toml")
    path = tmp_path / f"a.{kind}"
    path.write_bytes(sheet_html(result).encode() if kind == "html" else sheet_pdf(result))
    if kind == "html":
        page = path.read_text()
        assert "[U+202E]" in page and not {"\u202e", "\u202c", "\u2066", "\u2069"} & set(page)
    carried = read_back(path)
    assert carried.job_text == TURNED and carried.printed_job == TURNED
    assert recheck(path).state == "same"


def test_a_number_that_was_put_in_is_found(tmp_path: Path) -> None:
    from .recheck.test_got_round import sealed

    path = tmp_path / "a.html"
    page = sheet_html(check_text(PASSES, "job.toml"))
    path.write_text(sealed(page.replace("40 psf", '4<b data-letter="30">0</b> psf')))
    assert recheck(path).state == "tampered"


def test_a_title_of_many_scripts_prints() -> None:
    import pypdfium2

    result = check_text(PASSES.replace("Invented shed", MIXED), "job.toml")
    assert MIXED in result.title
    page = sheet_html(result)
    assert "בית הקורה" in page and "بيت الجسر" in page and "🏠" in page
    with pypdfium2.PdfDocument(sheet_pdf(result)) as document:
        printed = "".join(one.get_textpage().get_text_bounded() for one in document)
    for number in ("U+1F3E0", "U+6881"):  # what the typefaces lack stands there by its number
        assert number in printed.replace("\r\n", "").replace("\n", "")
    assert "Дом" in printed and "12 ft" in printed.replace("\u00a0", " ")
    assert "Дом" in short_text(result, width=80, source="job.toml")
    assert next(iter(shop_sheets(result, "a.pdf")))[:5] == b"%PDF-"


@pytest.mark.parametrize(
    "hidden", ["", " ", "\u00ad", "\u200d", "\u200c\u200d", "\u2800", "\u3164", "\ufe0f", "\u034f \u00ad", "\u00a0"]
)
@pytest.mark.parametrize("sign", ["=", "+", "-", "@", "＝"])
def test_a_cell_that_begins_with_what_nobody_sees_is_no_formula(hidden: str, sign: str) -> None:
    assert starts_formula(f"{hidden}{sign}cmd()")


def test_no_cell_of_a_list_begins_a_formula() -> None:
    import csv

    text = PASSES.replace('confirmed_by = "', 'confirmed_by = "\u00ad=1+1, \u200d@x; ')
    rows = csv.reader(line for line in checks_csv(check_text(text)).splitlines() if not line.startswith("#"))
    for row in rows:
        for cell in row:
            bare = cell.strip("\u00ad\u200d \u00a0")
            assert not bare.startswith(("=", "@", "+")), cell


def test_every_page_has_a_content_security_policy() -> None:
    result = check_text(PASSES)
    table = beamcheck.span_table(
        ["Hem-Fir"], ["No.2"], ["2x8"], ["16 in"], finish="none", service="floor", moisture="dry",
        top_held="full length", dead="10 psf", live="40 psf",
    )  # fmt: skip
    pages = [
        sheet_html(result),
        shop_sheets(result, "a.html"),
        register_html(),
        survey_html(blank_form()),
        table.html(),
    ]
    for page in pages:
        assert isinstance(page, str)
        head = page[: page.index("</head>")]
        assert (
            """http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">""" in head
        )
        assert "<script" not in page
