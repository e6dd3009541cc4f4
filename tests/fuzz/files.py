"""Sheets, results, lists and drawings to break: one of each kind, made from an invented job."""

from __future__ import annotations

from functools import cache

from beamcheck import check_text, checks_csv, result_json, result_xlsx, sheet_html
from beamcheck.sheet.pdf.render import sheet_pdf

from ..doors.jobs import FAILS

SVG = (
    b'<svg xmlns="http://www.w3.org/2000/svg" width="9in" height="9in" viewBox="0 0 9 9"><g transform="translate(0 '
    b'0.1) scale(1)"><path d="M0 0H8V2C6 2.5 3 4 2 8H0Z"/></g></svg>'
)
DXF = "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n1\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n{}0\nENDSEC\n0\nEOF\n"
LINES = ((0, 0, 0, 8), (0, 8, 8, 8), (8, 8, 8, 6), (2, 0, 0, 0))


@cache
def of_every_kind() -> dict[str, list[bytes]]:
    """Files by the end of their name."""
    result = check_text(FAILS)
    lines = "".join(f"0\nLINE\n8\n0\n10\n{a}\n20\n{b}\n11\n{c}\n21\n{d}\n" for a, b, c, d in LINES)
    arc = "0\nARC\n8\n0\n10\n8\n20\n0\n40\n6\n50\n90\n51\n180\n"
    return {
        ".html": [sheet_html(result).encode()], ".json": [result_json(result).encode()], ".pdf": [sheet_pdf(result)],
        ".csv": [checks_csv(result).encode()], ".xlsx": [result_xlsx(result)], ".svg": [SVG],
        ".dxf": [DXF.format(lines + arc).encode()],
    }  # fmt: skip
