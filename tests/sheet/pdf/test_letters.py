"""How large letters are printed: notes and drawings in at least 8 pt; only scripts and subscripts are smaller."""

from __future__ import annotations

import ctypes
import math
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pypdfium2.raw as raw
import pytest
from pypdfium2 import PdfDocument

from beamcheck import check_file
from beamcheck.sheet.pdf.render import sheet_pdf

from ...worked_examples.results import example

EXAMPLES = Path(__file__).parents[3] / "worked_examples"
LEAST = 8.0  # pt
SCRIPTS = 4.4  # pt; of an exponent in an exponent
SUBSCRIPT, SUBSCRIPTS = 8, 6.7  # letters of the longest one; pt
DEEP = 15  # drawings within drawings


class Printed(NamedTuple):
    page: int
    size: float
    face: str
    text: str


def printed(pdf: bytes) -> Iterator[Printed]:
    """Each piece of text with its size on paper: that of its typeface times its own matrix and that of its drawing."""
    with PdfDocument(pdf) as document:
        for number, page in enumerate(document, start=1):
            words = page.get_textpage()
            for one in page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT], max_depth=DEEP):
                size = ctypes.c_float()
                assert raw.FPDFTextObj_GetFontSize(one.raw, size)
                matrix, around = one.get_matrix(), one.container
                while around is not None:
                    matrix, around = matrix.multiply(around.get_matrix()), around.container
                text = read(raw.FPDFTextObj_GetText, one.raw, words.raw, ctypes.POINTER(raw.FPDF_WCHAR))
                yield Printed(number, size.value * math.hypot(matrix.c, matrix.d), face_of(one), text.strip())


def read(get: object, of: object, words: object, kind: object) -> str:
    long = get(of, words, None, 0)  # type: ignore[operator]
    letters = ctypes.create_string_buffer(long)
    get(of, words, ctypes.cast(letters, kind), long)  # type: ignore[operator, arg-type]
    return letters.raw[:long].decode("utf-16-le").rstrip("\0")


def face_of(one: object) -> str:
    name = ctypes.create_string_buffer(200)
    raw.FPDFFont_GetBaseFontName(raw.FPDFTextObj_GetFont(one.raw), name, len(name))  # type: ignore[attr-defined]
    return name.value.decode()


def too_small(one: Printed) -> bool:
    if "Math" in one.face:
        return one.size < SCRIPTS
    script = 0.7 * LEAST < one.size < SUBSCRIPTS and len(one.text) <= SUBSCRIPT and " " not in one.text
    return one.size < LEAST - 0.01 and not script


@pytest.mark.parametrize("name", ["net_loft", "chart_room", "plated_truss", "old_timbers"])
def test_every_letter_can_be_read(name: str) -> None:
    pieces = list(printed(sheet_pdf(example(name))))
    assert {one.page for one in pieces} >= {1, 2, 3} and any(one.size > 16.0 for one in pieces)
    assert [one for one in pieces if one.text and too_small(one)] == []


def test_on_the_other_paper_too() -> None:
    pieces = list(printed(sheet_pdf(check_file(EXAMPLES / "net_loft.toml", units="SI"))))
    assert any("kN" in one.text for one in pieces)
    assert [one for one in pieces if one.text and too_small(one)] == []
