"""What a row of the design value tables says it was worked out from is worked out again: F_b and E from printed spans.

Source: the 2018 International Residential Code, Tables R502.3.1(2), R802.4.1(5), R802.4.1(7) and R802.5.1(2), rows seen
(how: read) in tests/published/joist_spans.csv. A span printed to the inch stands for half an inch either way; the
convention of these tables is told in tests/published/test_joist_spans.py. F_b is a multiple of 25 psi, E of 100,000.
"""

import csv
import math
import re
from collections import defaultdict
from pathlib import Path

import pytest

from beamcheck.values.loader import Row, rows

SPANS = Path(__file__).parents[1] / "published" / "joist_spans.csv"
WIDE = {"2x4": 3.5, "2x6": 5.5, "2x8": 7.25, "2x10": 9.25, "2x12": 11.25}  # PS 20, dressed dry
C_F = {"2x4": 1.5, "2x6": 1.3, "2x8": 1.2, "2x10": 1.1, "2x12": 1.0}  # Table 4A; built in for Southern Pine
C_R, THICK = 1.15, 1.5
SPECIES = {"Douglas fir-larch": "Douglas Fir-Larch", "Hem-fir": "Hem-Fir", "Southern pine": "Southern Pine",
           "Spruce-pine-fir": "Spruce-Pine-Fir"}  # fmt: skip
GRADES = {"SS": "Select Structural", "#1": "No.1", "#2": "No.2", "#3": "No.3", "#1/#2": "No.1/No.2"}
STEP = {"F_b": 25.0, "E": 100000.0}
CLAIM = re.compile(
    r"(F_b and E|F_b|E) worked out from printed spans \(2018 IRC\)|F_b again in a teaching text, and worked"
)

Key = tuple[str, str, str, str]  # property, species, grade, narrowest width of the row


def key_of(name: str, span: Row) -> Key:
    species, grade = SPECIES[span["species"]], GRADES[span["grade"]]
    if species != "Southern Pine":
        return name, species, "No.1/No.2" if species == "Spruce-Pine-Fir" and grade in ("No.1", "No.2") else grade, "2"
    band = {"2x4": "2", "2x6": "5"}.get(span["size"], span["size"].removeprefix("2x"))
    return name, species, "No.3 and Stud" if grade == "No.3" else grade, band


def asked_for(span: Row, length: float) -> tuple[str, float]:
    """F_b (bending governs) or E (deflection governs) that makes a joist reach just so far."""
    spacing, wide = float(span["spacing_in"]), WIDE[span["size"]]
    live = float(span["live_psf"]) * spacing / 144
    whole = live + float(span["dead_psf"]) * spacing / 144
    if span["governs"] == "bending":
        f_b = whole * length**2 / 8 / (THICK * wide**2 / 6)
        own = 1.0 if span["species"] == "Southern pine" else C_F[span["size"]]
        return "F_b", f_b / (own * C_R * float(span["CD"]))
    limit = float(span["defl_limit"].removeprefix("L/"))
    return "E", 5 * live * length**3 * limit / 384 / (THICK * wide**3 / 12)


def printed_spans() -> list[Row]:
    """The spans that were seen, of the tables for joists and rafters of one species."""
    spans = csv.DictReader(SPANS.read_text(encoding="utf-8").splitlines())
    return [span for span in spans if span["how"] == "read" and span["convention"] in ("C1", "C3")]


def worked_out() -> dict[Key, float]:
    """The one multiple of the step that all printed spans leave; rows that leave more than one are not in it."""
    bounds: dict[Key, tuple[float, float]] = defaultdict(lambda: (0.0, math.inf))
    for span in printed_spans():
        name, low = asked_for(span, float(span["published_in"]) - 0.5)
        _, high = asked_for(span, float(span["published_in"]) + 0.5)
        key = key_of(name, span)
        bounds[key] = max(bounds[key][0], low), min(bounds[key][1], high)
    found = {}
    for key, (low, high) in bounds.items():
        step, hair = STEP[key[0]], 1e-9
        first, last = math.ceil(low / step - hair), math.floor(high / step + hair)
        assert first <= last, (key, low, high)
        if first == last:
            found[key] = first * step
    return found


def claimed() -> dict[Key, float]:
    """The figures whose rows say that they were worked out from printed spans."""
    found = {}
    for table in ("4a", "4b", "4d"):
        for row in rows(f"nds_2018_supplement_{table}"):
            for match in CLAIM.finditer(row["note"]):
                for name in (match[1] or "F_b").split(" and "):
                    found[name, row["species"], row["grade"], row.get("width_from", "")] = float(row[name])
    return found


def test_every_figure_that_claims_printed_spans_follows_from_them_and_no_other_does() -> None:
    assert claimed() == worked_out()


def test_one_of_them_by_hand() -> None:
    """Southern Pine No.2 2x10 at 24 in, 20 + 10 psf, printed 14-9 (177 in): 5 lb/in, S 21.39 in3, C_D 1.0, C_r 1.15.

    5 x 176.5^2 / 8 / 21.39 / 1.15 = 791.5 psi and 5 x 177.5^2 / 8 / 21.39 / 1.15 = 800.5 psi: 800 is between them.
    """
    (span,) = [span for span in printed_spans() if span["id"] == "S0108"]
    assert (span["species"], span["grade"], span["size"], span["published"]) == ("Southern pine", "#2", "2x10", "14-9")
    for length, F_b in ((176.5, 791.5), (177.5, 800.5)):
        name, found = asked_for(span, length)
        assert name == "F_b" and found == pytest.approx(F_b, abs=0.05)
    assert claimed()["F_b", "Southern Pine", "No.2", "10"] == 800.0
