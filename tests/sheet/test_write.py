"""Files are whole or absent, and nobody else's file is lost."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from beamcheck.errors import BeamcheckError
from beamcheck.own_digest import BLANK, with_digest
from beamcheck.sheet.write import WriteError, write_atomically

MARK = '<!DOCTYPE html><meta name="generator" content="whatcarries 0.1.0">'
OURS = with_digest(f'{MARK}<meta name="digest" content="{BLANK}">')
LIST = with_digest(f"# generator: beamcheck 0.2.0\n# digest: {BLANK}\na,b\n")


def test_writes_text_and_bytes_as_they_are(tmp_path: Path) -> None:
    assert write_atomically(tmp_path / "a.html", "é\r\n").read_bytes() == b"\xc3\xa9\r\n"
    assert write_atomically(tmp_path / "a.pdf", b"\x00\xff").read_bytes() == b"\x00\xff"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.html", "a.pdf"]


@pytest.mark.parametrize("old", [OURS, LIST, ""])
def test_own_and_empty_files_are_replaced(tmp_path: Path, old: str) -> None:
    target = tmp_path / "a.html"
    target.write_text(old)
    write_atomically(target, "new")
    assert target.read_text() == "new"


@pytest.mark.parametrize("old", ["my notes on whatcarries", "x" * 4096 + MARK, 'generator" content="other'])
def test_a_strange_file_is_kept(tmp_path: Path, old: str) -> None:
    target = tmp_path / "a.html"
    target.write_text(old)
    with pytest.raises(WriteError, match=r"a\.html exists and was not made by whatcarries; give another name"):
        write_atomically(target, "new")
    assert target.read_text() == old
    write_atomically(target, "new", overwrite=True)
    assert target.read_text() == "new"


def test_a_missing_folder_is_said(tmp_path: Path) -> None:
    with pytest.raises(BeamcheckError, match="could not be written: No such file or directory; check that the folder"):
        write_atomically(tmp_path / "none" / "a.html", "new")


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(WriteError, match="is a folder; give the name of a file in it"):
        write_atomically(tmp_path, "new", overwrite=True)


def test_a_folder_in_the_way_of_the_path(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(WriteError, match="could not be written"):
        write_atomically(tmp_path / "file" / "a.html", "new")


@pytest.mark.parametrize("name", ["x" * 400 + ".html", "a\x00b.html"])
def test_a_name_that_no_file_can_have(tmp_path: Path, name: str) -> None:
    with pytest.raises(WriteError, match="could not be written"):
        write_atomically(tmp_path / name, "new")


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_trouble_half_way_leaves_the_old_file_and_no_scrap(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    def fails(*_args: object) -> None:
        raise OSError(28, "No space left on device")

    target = tmp_path / "a.html"
    target.write_text(OURS)
    monkeypatch.setattr(os, step, fails)
    with pytest.raises(WriteError, match="could not be written: No space left on device"):
        write_atomically(target, "new")
    assert target.read_text() == OURS
    assert list(tmp_path.iterdir()) == [target]


def test_an_interruption_leaves_no_scrap(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(*_args: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "replace", stopped)
    with pytest.raises(KeyboardInterrupt):
        write_atomically(tmp_path / "a.html", "new")
    assert list(tmp_path.iterdir()) == []


def test_permissions_and_links_stay(tmp_path: Path) -> None:
    target, link = tmp_path / "a.html", tmp_path / "link.html"
    target.write_text(OURS)
    target.chmod(0o640)
    link.symlink_to(target)
    write_atomically(link, "new")
    assert link.is_symlink() and target.read_text() == "new"
    assert target.stat().st_mode & 0o777 == 0o640
