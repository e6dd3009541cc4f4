"""Many shop sheets are set some at a time and joined: to whoever reads them they are one file. Parts are short here."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from beamcheck.api import write_shop
from beamcheck.sheet.record.pdf_mark import unchanged
from beamcheck.sheet.shop import pdf
from beamcheck.sheet.shop.pdf import pdf_of, shop_pdf
from beamcheck.sheet.shop.shop import ShopPage, shop_pages

from ...worked_examples.results import example
from ..pdf.pdf_reader import Sheet

HOUSE = example("boat_shed")


@pytest.fixture(scope="module")
def pages() -> tuple[ShopPage, ...]:
    return shop_pages(HOUSE)


def _whole(pages: tuple[ShopPage, ...], monkeypatch: pytest.MonkeyPatch) -> Sheet:
    with monkeypatch.context() as patch:
        patch.setattr(pdf, "PART", len(pages))
        return Sheet(pdf_of(HOUSE, pages))


def test_it_reads_as_if_it_were_set_in_one_piece(pages: tuple[ShopPage, ...], monkeypatch: pytest.MonkeyPatch) -> None:
    whole = _whole(pages, monkeypatch)
    monkeypatch.setattr(pdf, "PART", 4)
    made = shop_pdf(HOUSE)
    sheet = Sheet(made)
    assert sheet.pages == whole.pages and len(sheet.pages) == len(pages) > 8
    assert f"page {len(pages)} of {len(pages)}." in " ".join(sheet.pages[-1].split())
    assert sheet.reader.metadata == whole.reader.metadata
    assert unchanged(made) and shop_pdf(HOUSE) == made


def test_every_page_finds_its_tags(pages: tuple[ShopPage, ...], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf, "PART", 4)
    sheet = Sheet(pdf_of(HOUSE, pages[:9]))
    root: Any = sheet.reader.root_object["/StructTreeRoot"]
    numbers = root["/ParentTree"]["/Nums"]
    assert list(numbers[0::2]) == sorted(set(numbers[0::2]))
    of = dict(zip(map(int, numbers[0::2]), numbers[1::2], strict=True))
    for page in sheet.reader.pages:
        tags = [tag.get_object() for tag in of[page["/StructParents"]]]
        assert tags and all(tag["/P"] for tag in tags)
    (document,) = root["/K"]
    assert [part.get_object()["/S"] for part in document.get_object()["/K"]] == ["/Part"] * 3


def test_a_piece_that_fills_two_pages_is_counted(pages: tuple[ShopPage, ...], monkeypatch: pytest.MonkeyPatch) -> None:
    full = replace(pages[0], reasons=tuple(f"Reason {number} of many that are not short." for number in range(80)))
    some = (pages[1], full, pages[2], pages[3])
    monkeypatch.setattr(pdf, "PART", 2)
    sheet = Sheet(pdf_of(HOUSE, some))
    assert len(sheet.pages) > 4
    for number, page in enumerate(sheet.pages, start=1):
        assert f"page {number} of {len(sheet.pages)}." in " ".join(page.split())
    monkeypatch.setattr(pdf, "TRIES", 1)  # where their number does not come to rest all are set at once
    assert Sheet(pdf_of(HOUSE, some)).pages == sheet.pages


def test_the_file_is_known_as_ours(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(pdf, "PART", 4)
    out, some = tmp_path / "shop.pdf", replace(HOUSE, pieces=HOUSE.pieces[:7])
    assert len(shop_pages(some)) > pdf.PART
    assert write_shop(some, out) == write_shop(some, out)
