"""The PDF on the disk: known as ours, never over somebody else's work, and whole or not there."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck import write_pdf
from beamcheck.errors import BeamcheckError
from beamcheck.sheet.pdf.render import sheet_pdf
from beamcheck.sheet.record.pdf_mark import marked, unchanged

from ..sample import job
from .pdf_reader import Sheet

SMALL = b"%PDF-1.7\nobjects\ntrailer\nstartxref\n9\n%%EOF"


@pytest.fixture(scope="module")
def pdf() -> bytes:
    return sheet_pdf(job())


def test_a_pdf_of_ours_is_known_as_it_was_made(pdf: bytes) -> None:
    assert unchanged(pdf)
    assert b"%generator: whatcarries 0.1.0, SHA-256 of all other bytes " in pdf[-1024:]


def test_the_mark_moves_no_object(pdf: bytes) -> None:
    """Where the file says its table of objects begins, it begins."""
    start = int(pdf.rsplit(b"startxref", 1)[1].split()[0])
    assert pdf[start : start + 4] == b"xref"
    assert Sheet(pdf).reader.xref[0]


@given(st.data())
@settings(max_examples=60)
def test_one_changed_byte_shows(data: st.DataObject) -> None:
    whole = marked(SMALL, "0.1.0")
    place = data.draw(st.integers(0, len(whole) - 1))
    other = data.draw(st.integers(0, 255).filter(lambda byte: byte != whole[place]))
    changed = whole[:place] + bytes([other]) + whole[place + 1 :]
    assert unchanged(whole) and not unchanged(changed)


@pytest.mark.parametrize(
    "change",
    [
        lambda pdf: pdf + b"\n1 0 obj\n<</Type/Sig/ByteRange[0 1 2 3]>>\nendobj\nxref\ntrailer\nstartxref\n7\n%%EOF\n",
        lambda pdf: pdf[:-7],
        lambda pdf: b"x" + pdf,
        lambda pdf: SMALL,
        lambda pdf: b"",
    ],
    ids=["signed", "cut", "shifted", "not ours", "empty"],
)
def test_a_pdf_that_was_signed_or_changed_is_no_longer_ours(pdf: bytes, change) -> None:  # type: ignore[no-untyped-def]
    assert not unchanged(change(pdf))


def test_what_is_no_pdf_gets_no_mark() -> None:
    with pytest.raises(BeamcheckError, match="does not end as expected"):
        marked(b"%PDF-1.7 nothing", "0.1.0")


def test_a_version_cannot_leave_the_mark() -> None:
    whole = marked(SMALL, "0\nstartxref\n1\né")
    assert unchanged(whole) and whole.count(b"\n") == SMALL.count(b"\n") + 1


def test_our_own_is_written_again(tmp_path: Path, pdf: bytes) -> None:
    target = tmp_path / "sheet.pdf"
    assert write_pdf(job(), target) == target
    write_pdf(job(title="another"), target)
    assert target.read_bytes() != pdf
    write_pdf(job(), target)
    assert target.read_bytes() == pdf


@pytest.mark.parametrize("what", ["foreign", "signed"])
def test_work_of_others_is_kept(tmp_path: Path, pdf: bytes, what: str) -> None:
    target = tmp_path / "sheet.pdf"
    old = (
        SMALL
        if what == "foreign"
        else pdf + b"\n9 0 obj\n<</Type/Sig/ByteRange[0 1 2 3]>>\nendobj\nstartxref\n7\n%%EOF\n"
    )
    target.write_bytes(old)
    with pytest.raises(BeamcheckError, match=r"sheet\.pdf exists and .*; give another name, or allow replacing it"):
        write_pdf(job(), target)
    assert target.read_bytes() == old
    write_pdf(job(), target, overwrite=True)
    assert target.read_bytes() == pdf


def test_a_missing_folder_is_said(tmp_path: Path) -> None:
    with pytest.raises(BeamcheckError, match="could not be written: No such file or directory; check that the folder"):
        write_pdf(job(), tmp_path / "none" / "sheet.pdf")
    with pytest.raises(BeamcheckError, match="is a folder; give the name of a file in it"):
        write_pdf(job(), tmp_path)


def test_a_folder_that_may_not_be_written_to_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_args: object, **_how: object) -> int:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("beamcheck.sheet.write.open", refused, raising=False)
    with pytest.raises(BeamcheckError, match="could not be written: Permission denied; check that the folder"):
        write_pdf(job(), tmp_path / "sheet.pdf")
    assert list(tmp_path.iterdir()) == []


def test_a_full_disk_leaves_the_old_sheet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, pdf: bytes) -> None:
    def full(*_args: object) -> None:
        raise OSError(28, "No space left on device")

    target = tmp_path / "sheet.pdf"
    target.write_bytes(pdf)
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(BeamcheckError, match="could not be written: No space left on device"):
        write_pdf(job(title="another"), target)
    assert target.read_bytes() == pdf
    assert list(tmp_path.iterdir()) == [target]
