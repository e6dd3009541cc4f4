"""Every table loads, from wherever the package is installed: this file needs nothing but the installed package."""

import csv

import pytest

from beamcheck.values.loader import CONFIDENCE, HOW, checksum, manifest, rows, source_of, table_names, tables_dir


@pytest.mark.parametrize("name", table_names())
def test_the_table_loads_with_its_provenance(name: str) -> None:
    found = rows(name)
    assert len(found) == int(manifest()[f"{name}.csv"]["rows"]) > 0
    for row in found:
        source = source_of(row)
        assert source.document and source.how in HOW and source.confidence in CONFIDENCE


@pytest.mark.parametrize("file", list(manifest()))
def test_the_checksum_is_that_of_the_manifest(file: str) -> None:
    """An edit that is meant: run `python -m beamcheck.values.loader` and put its lines into the manifest."""
    assert checksum(tables_dir() / file) == manifest()[file]["sha256"]


def test_the_folder_holds_the_listed_files_and_nothing_else() -> None:
    held = {path.name for path in tables_dir().iterdir() if path.name != "__pycache__"}
    assert held == {*manifest(), "manifest.csv"}


def test_each_document_is_in_the_bibliography() -> None:
    known = {row["key"]: row["edition"] for row in rows("bibliography")}
    for line in manifest().values():
        assert line["edition"] == known[line["document"]]


@pytest.mark.parametrize("name", table_names())
def test_each_column_of_numbers_has_its_unit_in_the_manifest(name: str) -> None:
    stated = dict(part.split(": ", 1) for part in manifest()[f"{name}.csv"]["units"].split("; ") if part)
    for column in rows(name)[0]:
        cells = [row[column] for row in rows(name) if row[column]]
        if cells and all(_is_number(cell) for cell in cells) and column != "sha256":
            assert column in stated, f"{name}: column {column} holds numbers, its unit is not in the manifest"
    assert set(stated) <= set(rows(name)[0])


def test_the_files_are_plain_utf_8_with_one_header() -> None:
    for file in manifest():
        text = (tables_dir() / file).read_text(encoding="utf-8")
        header = next(csv.reader(text.splitlines()))
        assert len(set(header)) == len(header) and not text.startswith("﻿")


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True
