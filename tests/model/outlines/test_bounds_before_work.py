"""Drawings that would take hours or all memory are refused before they are made points; processor time is bounded.

The limits are far from any bracket; the time limit tells an answer from a hang and is no figure of speed.
"""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from beamcheck.model.outlines.files import read_outline
from beamcheck.model.outlines.profile import OutlineError

HEAD = "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n1\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n"
TAIL = "0\nENDSEC\n0\nEOF\n"
SPLINE = "0\nSPLINE\n100\nAcDbEntity\n8\n0\n100\nAcDbSpline\n70\n8\n71\n3\n72\n8\n73\n4\n74\n0\n"
KNOTS = "".join(f"40\n{knot}\n" for knot in (0, 0, 0, 0, 1, 1, 1, 1))
POLYLINE = "0\nLWPOLYLINE\n100\nAcDbEntity\n8\n0\n100\nAcDbPolyline\n90\n2\n70\n0\n"
ELLIPSE = "0\nELLIPSE\n8\n0\n100\nAcDbEntity\n100\nAcDbEllipse\n10\n0\n20\n0\n30\n0\n"
LARGE = "that is no bracket; are the units right"
DXF = {
    "circle": ("0\nCIRCLE\n8\n0\n10\n0\n20\n0\n40\n1e9\n", LARGE),
    "shallow arc": ("0\nARC\n8\n0\n10\n0\n20\n0\n40\n1e12\n50\n0\n51\n1e-9\n", LARGE),
    "ellipse": (f"{ELLIPSE}11\n1e9\n21\n0\n31\n0\n40\n0.5\n41\n0\n42\n6.28\n", LARGE),
    "spline": (
        SPLINE + KNOTS + "".join(f"10\n{x}\n20\n{y}\n30\n0\n" for x, y in ((0, 0), (1e9, 1), (2, 1e9), (3, 3))), LARGE,
    ),
    "spline through many points": (
        SPLINE.replace("72\n8\n73\n4\n74\n0", "72\n0\n73\n0\n74\n300")
        + "".join(f"11\n{i % 8}\n21\n{i % 7}\n31\n0\n" for i in range(300)), "a spline through 300 points",
    ),
    "bulge": (f"{POLYLINE}10\n0\n20\n0\n42\n1\n10\n1e8\n20\n0\n", LARGE),
    "flat bulge": (f"{POLYLINE}10\n0\n20\n0\n42\n1e-30\n10\n8\n20\n0\n", LARGE),
    "many bulges": (
        POLYLINE + "".join(f"10\n{i % 9}\n20\n{i % 7}\n42\n0.3\n" for i in range(20_000)), "more than 60,000 points",
    ),
    "many points": (POLYLINE + "".join(f"10\n{i}\n20\n1\n" for i in range(70_000)), "things or 60,000 points"),
    "many lines": ("".join(f"0\nLINE\n8\n0\n10\n{i}\n20\n1\n11\n{i}\n21\n9\n" for i in range(2_500)), "at most 2,000"),
    "many things": ("0\nPOINT\n8\n0\n10\n1\n20\n1\n" * 30_000, "more than 20,000 things"),
}  # fmt: skip
PAGE = '<svg xmlns="http://www.w3.org/2000/svg" width="9in" height="9in" viewBox="0 0 9 9">{}</svg>'
ZIGZAG = " ".join(f"L{i % 9}.{i % 7} {i % 8}.{i % 3}" for i in range(15_000))
SVG = {
    "spaces in a transform": (f'<g transform="{" " * 400_000}x"><path d="M0 0H8"/></g>', "of 400,001 letters"),
    "spaces in a short transform": (f'<g transform="scale(1){" " * 1_900}x"><path d="M0 0H8"/></g>', "not understood"),
    "many curves": (f'<path d="M0 0{"C1e6 1e6 -1e6 1e6 8 8" * 500}"/>', "more than 60,000 points"),
    "many paths": ('<path d="M0 0H8"/>' * 5_000, "more than 2,000 lines"),
    "zigzag": (f'<path d="M0 0{ZIGZAG}Z"/>', "more than 2,000 points"),
    "nested groups": ("<g>" * 300 + '<path d="M0 0H8"/>' + "</g>" * 300, "groups within groups, too deep"),
    "spaces in points": (f'<polygon points="{" " * 400_000}x"/>', "is not a number"),
    "digits in a length": (f'<rect width="{"0" * 100_000}!" height="1"/>', "is not a number"),
}  # fmt: skip


def refused(path: Path, why: str) -> None:
    began = time.process_time()
    with pytest.raises(OutlineError, match=why):
        read_outline(path)
    assert time.process_time() - began < 5.0


@pytest.mark.parametrize("case", DXF)
def test_drawings_that_a_reader_would_choke_on(case: str, tmp_path: Path) -> None:
    drawn, why = DXF[case]
    path = tmp_path / "a.dxf"
    path.write_text(HEAD + drawn + TAIL)
    refused(path, why)


def test_a_binary_drawing_is_told(tmp_path: Path) -> None:
    path = tmp_path / "a.dxf"
    path.write_bytes(b"AutoCAD Binary DXF\r\n\x1a\x00" + bytes(1000))
    refused(path, "save it as text")


@pytest.mark.parametrize("case", SVG)
def test_svg_drawings_that_a_reader_would_choke_on(case: str, tmp_path: Path) -> None:
    drawn, why = SVG[case]
    path = tmp_path / "a.svg"
    path.write_text(PAGE.format(drawn))
    refused(path, why)


def test_a_page_whose_width_has_no_end(tmp_path: Path) -> None:
    path = tmp_path / "a.svg"
    path.write_text(PAGE.format('<path d="M0 0H8"/>').replace('"9in"', f'"{"0" * 100_000}!"', 1))
    refused(path, "is not a length")
