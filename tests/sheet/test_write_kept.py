"""What is signed, edited or foreign is never written over without being told."""

from __future__ import annotations

import io
import re
import zipfile
from functools import cache
from pathlib import Path

import pytest

import beamcheck
from beamcheck import check_text, checks_csv, hardware_csv, result_json, result_xlsx, sheet_html
from beamcheck.api import shop_sheets, template_files
from beamcheck.sheet.pdf.render import sheet_pdf
from beamcheck.sheet.register.page import register_html
from beamcheck.sheet.survey.form import blank_form
from beamcheck.sheet.survey.write import survey_html, survey_pdf
from beamcheck.sheet.write import WriteError, made_here, why_kept, write_atomically

from ..doors.jobs import PASSES
from ..worked_examples.results import example

RESULT = check_text(PASSES)
EDITED = "was edited after whatcarries wrote it"
FOREIGN = "was not made by whatcarries"


@cache
def own(kind: str) -> bytes:
    match kind:
        case "html":
            return sheet_html(RESULT).encode()
        case "json":
            return result_json(RESULT).encode()
        case "csv":
            return checks_csv(RESULT).encode()
        case "pdf":
            return sheet_pdf(RESULT)
        case _:
            return result_xlsx(RESULT)


@cache
def made(kind: str) -> bytes:
    """Every file that is written, by its name."""
    match kind:
        case "hardware.csv":
            found = hardware_csv(RESULT)
        case "shop.html" | "shop.pdf":
            sheets = shop_sheets(RESULT, kind)
            found = sheets if isinstance(sheets, str) else b"".join(sheets)
        case "template.svg" | "template.dxf" | "template.pdf":
            found = template_files(example("chart_room"), "K1", [kind])[0][0][1]
        case "span.csv" | "span.html":
            table = beamcheck.span_table(
                ["Hem-Fir"], ["No.2"], ["2x8"], ["16 in"], finish="none", service="floor", moisture="dry",
                top_held="full length", dead="10 psf", live="40 psf",
            )  # fmt: skip
            found = table.csv() if kind == "span.csv" else table.html()
        case "register.html":
            found = register_html()
        case "survey.html":
            found = survey_html(blank_form())
        case "survey.pdf":
            found = survey_pdf(blank_form())
        case _:
            found = own(kind)
    return found.encode() if isinstance(found, str) else found


KINDS = (
    "html", "json", "csv", "pdf", "xlsx", "hardware.csv", "shop.html", "shop.pdf", "template.svg", "template.dxf",
    "template.pdf", "span.csv", "span.html", "register.html", "survey.html", "survey.pdf",
)  # fmt: skip


def signed_pdf() -> bytes:
    raw = own("pdf")
    return raw + b"9 0 obj\n<< /Type /Sig /ByteRange [0 1 2 3] >>\nendobj\n" + raw[raw.rfind(b"startxref") :]


def saved_again() -> bytes:
    """A PDF of ours, annotated by another program."""
    from pypdf import PdfReader, PdfWriter

    writer, out = PdfWriter(clone_from=PdfReader(io.BytesIO(own("pdf")))), io.BytesIO()
    writer.write(out)
    return out.getvalue()


def foreign_pdf() -> bytes:
    from pypdf import PdfWriter

    writer, out = PdfWriter(), io.BytesIO()
    writer.add_blank_page(100, 100)
    writer.write(out)
    return out.getvalue()


def worked_in(more: str = "", old: bytes = b"J1", new: bytes = b"J9") -> bytes:
    """A spreadsheet of ours with another word in a cell, or with one more part."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(own("xlsx"))) as file, zipfile.ZipFile(out, "w") as made:
        for name in file.namelist():
            made.writestr(name, file.read(name).replace(old, new))
        if more:
            made.writestr(more, "<x/>")
    return out.getvalue()


def archive(name: str, content: str) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as made:
        made.writestr(name, content)
    return out.getvalue()


@pytest.mark.parametrize("kind", KINDS)
def test_own_files_are_written_over(kind, tmp_path) -> None:
    path = tmp_path / f"a.{kind}"
    path.write_bytes(made(kind))
    assert made_here(path)
    write_atomically(path, "new")
    assert path.read_text() == "new"


@pytest.mark.parametrize("kind", KINDS)
def test_what_a_user_typed_into_a_file_is_kept(kind, tmp_path) -> None:
    """Prices beside a list, a note on a shop sheet, a line in a drawing: one letter is enough."""
    path = tmp_path / f"a.{kind}"
    raw = worked_in() if kind == "xlsx" else made(kind)
    if kind != "xlsx":
        raw = raw.replace(b"\n", b"\n ", 20).replace(b"\n ", b"\n", 19)  # a space somewhere in the twentieth line
        raw = raw if kind.endswith("pdf") or raw != made(kind) else raw + b" "
    path.write_bytes(raw + (b" " if kind.endswith("pdf") else b""))
    with pytest.raises(WriteError, match=r"exists and (was edited|was changed|was not made)"):
        write_atomically(path, "new")
    assert path.read_bytes() != b"new"


@pytest.mark.parametrize(
    "kind", ["hardware.csv", "shop.html", "template.svg", "template.dxf", "survey.html", "html", "json"]
)
def test_a_file_that_lost_its_digest_is_kept(kind, tmp_path) -> None:
    path = tmp_path / f"a.{kind}"
    path.write_bytes(re.sub(rb"[0-9a-f]{64}", b"", made(kind)))
    with pytest.raises(WriteError, match=r"exists and (was edited|carries no digest|was not made)"):
        write_atomically(path, "new")


def test_a_file_with_a_signature_beside_it_is_kept(tmp_path) -> None:
    path = tmp_path / "a.html"
    path.write_bytes(own("html"))
    (tmp_path / "a.html.asc").write_text("signature")
    with pytest.raises(WriteError, match=r"a\.html exists and is signed in a\.html\.asc; give another name"):
        write_atomically(path, "new")


@pytest.mark.parametrize("content", [lambda: own("html"), lambda: b""])
def test_a_read_only_file_is_kept(content, tmp_path) -> None:
    path = tmp_path / "a.html"
    path.write_bytes(content())
    path.chmod(0o444)
    with pytest.raises(WriteError, match=r"a\.html exists and is read-only"):
        write_atomically(path, "new")
    write_atomically(path, "new", overwrite=True)
    assert path.read_text() == "new" and path.stat().st_mode & 0o777 == 0o444


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (lambda: own("html").replace(b"0.751", b"0.651", 1), EDITED),
        (lambda: own("html").replace(b"</main>", b"<p>signed: N.N.</p></main>"), EDITED),
        (lambda: own("json").replace(b"passes", b"fails", 1), EDITED),
        (lambda: own("json")[:-20], EDITED),
        (signed_pdf, "is signed"),
        (saved_again, "was changed after whatcarries wrote it"),
        (foreign_pdf, FOREIGN),
        (lambda: b"%PDF-1.7 broken", FOREIGN),
        (worked_in, EDITED),
        (lambda: worked_in("_xmlsignatures/sig1.xml"), "is signed"),
        (lambda: archive("docProps/core.xml", "<a/>"), FOREIGN),
        (lambda: archive("a", "b"), FOREIGN),
        (lambda: b"PK broken", FOREIGN),
        (lambda: b"a letter", FOREIGN),
    ],
)
def test_others_are_kept_unless_told(content, why, tmp_path) -> None:
    path: Path = tmp_path / "a"
    path.write_bytes(content())
    before = path.read_bytes()
    assert why_kept(path) == why
    with pytest.raises(WriteError) as error:
        write_atomically(path, "new")
    assert str(error.value) == f"{path} exists and {why}; give another name, or allow replacing it"
    assert path.read_bytes() == before and list(tmp_path.iterdir()) == [path]
    write_atomically(path, "new", overwrite=True)
    assert path.read_text() == "new"


def test_line_ends_that_a_mail_program_changed_are_no_edit(tmp_path) -> None:
    path = tmp_path / "a.html"
    path.write_bytes(own("html").replace(b"\n", b"\r\n"))
    assert why_kept(path) == ""
