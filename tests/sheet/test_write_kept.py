"""What is signed, edited or foreign is never written over without being told."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path

import pytest

from beamcheck import check_text, checks_csv, result_json, result_xlsx, sheet_html
from beamcheck.sheet.pdf.render import sheet_pdf
from beamcheck.sheet.write import WriteError, made_here, why_kept, write_atomically

from ..doors.jobs import PASSES

RESULT = check_text(PASSES)
EDITED = "was edited after whatcarries wrote it"
FOREIGN = "was not made by whatcarries"


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


@pytest.mark.parametrize("kind", ["html", "json", "csv", "pdf", "xlsx"])
def test_own_files_are_written_over(kind, tmp_path) -> None:
    path = tmp_path / f"a.{kind}"
    path.write_bytes(own(kind))
    assert made_here(path)
    write_atomically(path, "new")
    assert path.read_text() == "new"


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
