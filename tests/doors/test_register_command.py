"""`whatcarries register`: the book of formulas and tables, as text, page and PDF."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

import beamcheck
from beamcheck.calc.core import REGISTRY
from beamcheck.sheet.register.book import register
from beamcheck.sheet.write import made_here
from beamcheck.values.loader import manifest, tables_dir

from ..sheet.pdf.pdf_reader import Sheet, squeezed


@pytest.fixture(scope="module")
def told(request: pytest.FixtureRequest) -> str:
    from beamcheck.sheet.register.text import register_text

    return register_text()


def test_every_formula_and_every_table_is_in_it(told: str) -> None:
    book = register()
    assert {entry.formula.name for chapter in book.chapters for entry in chapter.entries} == set(REGISTRY)
    assert {table.name for table in book.tables} == set(manifest())
    for formula in REGISTRY.values():
        assert f"  {formula.name}: {formula.symbol} = " in told and formula.clause in told
    assert beamcheck.CAUTION in told and beamcheck.SIGN_OFF in told


def test_one_formula_in_full(run) -> None:
    done = run("register", "shear_stress")
    assert done.exit_code == 0
    for words in ("NDS 2018 3.4.2", "3 * V / (2 * b * d)", "How known", ">>> round(shear_stress"):
        assert words in done.stdout


def test_one_table_with_its_sources(run) -> None:
    done = run("register", "nds_2018_creep")
    with (tables_dir() / "nds_2018_creep.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            assert row["source"] in done.stdout


def test_a_name_that_is_not_there_is_told(run) -> None:
    done = run("register", "sheer_stress")
    assert done.exit_code == 2 and "shear_stress" in done.stderr


def test_the_page_and_the_pdf_hold_the_same_book(run, tmp_path: Path) -> None:
    page, pdf = tmp_path / "book.html", tmp_path / "book.pdf"
    done = run("register", "--html", page, "--pdf", pdf)
    assert done.exit_code == 0 and done.stdout == f"Written: {page}\nWritten: {pdf}\n"
    assert made_here(pdf)  # it is written over; with one letter more it is not
    html, sheet = page.read_text(encoding="utf-8"), Sheet(pdf.read_bytes())
    for formula in REGISTRY.values():
        assert f'id="{formula.name}"' in html
        assert squeezed(formula.name) in sheet.squeezed and squeezed(formula.clause) in sheet.squeezed
    assert html.count("<math") == len(REGISTRY) and "<script" not in html
    assert run("register", "--html", page).exit_code == 0  # its own file is written again
    assert run("register", "shear_stress", "--html", page).exit_code == 2
    pdf.write_bytes(pdf.read_bytes() + b" ")
    assert not made_here(pdf)
