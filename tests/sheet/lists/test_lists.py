"""The flat lists of checks and hardware, as CSV and as a spreadsheet. Readers: csv (RFC 4180), zipfile and XML."""

from __future__ import annotations

import csv
import io
import math
import re
import zipfile
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from beamcheck import CAUTION, SIGN_OFF, check_file, check_text, checks_csv, hardware_csv, result_xlsx
from beamcheck.checks.core.result import Check, JobResult, PieceResult
from beamcheck.errors import BeamcheckError
from beamcheck.sheet.lists.rows import check_rows, hardware_rows

from ...doors.jobs import FAILS, HEAD, PASSES, REFER, STOCK, WALL, joist

WORKED = Path(__file__).parents[3] / "worked_examples"
MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
FORMULA = ("=", "+", "-", "@")
HELD = """
[[beam]]
name = "{name}"
stock = "joist stock"
service = "floor"
finish = "none"
top_held = "full length"
supports = [
  {{ at = "0 ft", on = "wall", holds = "hung", held_by = "plate", restrained = true }},
  {{ at = "8 ft", on = "wall", holds = "hung", held_by = "plate", restrained = true }},
]
carries = [{{ what = "floor", dead = "10 psf", live = "40 psf", width = "16 in", applied = "top" }}]
"""
PLATE = """
[[anchor]]
name = "plate"
manner = "plates both sides"
into = "wall"
seasoned = "dry"
split = "none seen"
fastener = { kind = "bolt", size = "1/2 in", length = "4 in", steel = "A307", coating = "hot-dip galvanized" }
holes = { rows = 1, columns = 3, spacing = "2 in", end = "4 in", edge = "4 in" }
plate = { steel = "A36", thickness = "1/4 in", width = "3 in", length = "9 in" }
"""
BRACKET = """
[[bracket]]
name = "K1"
role = "decorative"
stock = "joist stock"
on = "wall"
shape = { family = "solid", thickness = "1 1/2 in", height = "12 in", projection = "10 in", foot = "2 in", nose = "2 in", soffit = "concave", grain = "upright" }
[bracket.fixings]
through = "1 1/2 in"
fastener = { kind = "bolt", size = "3/8 in", length = "5 in", steel = "A307", washer = "1 in" }
rows = [{ below_top = "2 in", count = 1 }, { below_top = "9 in", count = 2, apart = "3/4 in" }]
"""  # noqa: E501
HELD_JOB = HEAD + STOCK + WALL + HELD.format(name="H1") + HELD.format(name="H2") + PLATE


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(line for line in text.splitlines(keepends=True) if not line.startswith("#")))


def pages_of(raw: bytes) -> dict[str, list[list[tuple[str, str]]]]:
    """The pages of a spreadsheet by name: rows of (type of the cell, text), by ECMA-376 part 1, 18.3."""
    with zipfile.ZipFile(io.BytesIO(raw)) as file:
        names = [
            one.get("name", "") for one in ElementTree.fromstring(file.read("xl/workbook.xml")).iter(f"{MAIN}sheet")
        ]
        found = {}
        for number, name in enumerate(names, start=1):
            root = ElementTree.fromstring(file.read(f"xl/worksheets/sheet{number}.xml"))
            assert root.find(f".//{MAIN}f") is None, "a formula"
            found[name] = [[_cell(cell) for cell in row] for row in root.iter(f"{MAIN}row")]
    return found


def _cell(cell: ElementTree.Element) -> tuple[str, str]:
    kind = cell.get("t", "n")
    if kind == "inlineStr":
        return "text", "".join(part.text or "" for part in cell.iter(f"{MAIN}t"))
    return kind, cell.findtext(f"{MAIN}v", "")


RESULT = check_text(PASSES)


def with_check(**changes: object) -> JobResult:
    check = replace(Check("B", "bending", "clause", "fails", "stress", 2.0, 1.0, 2.0, "D + L", "at 1 ft"), **changes)
    return replace(RESULT, pieces=(PieceResult(check.subject, "beam", "t", check.verdict, (check,), ()),))


def test_one_row_a_check_with_its_figures() -> None:
    result = check_text(FAILS)
    rows = rows_of(checks_csv(result))
    checks = [check for piece in result.pieces for check in piece.checks]
    assert [(row["check"], row["verdict"]) for row in rows] == [(check.what, check.verdict) for check in checks]
    bending = next(row for row in rows if row["piece"] == "J2" and row["check"] == "bending")
    # M = w l^2 / 8 with 210 psf on 16 in and the own weight of the stick, S = b d^2 / 6 of a dressed 2x10
    stress = (210 / 144 * 16 + 0.239) * 144**2 / 8 / (1.5 * 9.25**2 / 6)
    assert float(bending["demand"]) == pytest.approx(stress, rel=1e-3)
    assert bending["unit"] == "psi" and bending["kind"] == "beam" and bending["combination"] == "D + L"
    assert float(bending["ratio"]) == pytest.approx(float(bending["demand"]) / float(bending["capacity"]))


def test_numbers_are_in_the_units_of_the_job() -> None:
    """1 psi = 0.00689476 MPa, 1 in = 25.4 mm (NIST SP 811)."""
    us, si = (check_rows(check_text(FAILS, units=units)) for units in ("US", "SI"))
    factor = {"psi": ("MPa", 0.006894757), "in": ("mm", 25.4), "lb": ("kN", 0.0044482216), "": ("", 1.0)}
    seen = set()
    for one, other in zip(us, si, strict=True):
        unit, times = factor[one.unit]
        assert other.unit == unit and one.ratio == other.ratio
        if isinstance(one.demand, float):
            seen.add(unit)
            assert other.demand == pytest.approx(one.demand * times, rel=1e-6)
    assert {"MPa", "mm"} <= seen


def test_a_check_without_figures_says_why_in_its_row() -> None:
    row = next(row for row in rows_of(checks_csv(check_text(REFER))) if row["verdict"] == "refer")
    assert (row["demand"], row["capacity"], row["ratio"]) == ("", "", "")
    assert row["notes"]


@pytest.mark.parametrize(
    ("value", "said"), [(math.inf, "infinite"), (-math.inf, "minus infinite"), (math.nan, "not a number")]
)
def test_what_is_no_number_is_a_word(value, said) -> None:
    assert rows_of(checks_csv(with_check(demand=value)))[0]["demand"] == said


@example("#")
@given(st.text(max_size=12))
def test_no_text_becomes_a_formula_or_a_line(text) -> None:
    made = checks_csv(replace(with_check(what=text, subject=text, notes=(text,)), title=text, job_name=text))
    (row,) = rows_of(made)
    for cell in row.values():
        assert not cell.lstrip().startswith(FORMULA)
    for line in made.splitlines():
        assert not re.search(r"[,;]\s*[=+@-]", line)


def test_a_formula_keeps_its_words() -> None:
    assert rows_of(checks_csv(with_check(what="=1+1")))[0]["check"] == "'=1+1"
    assert float(rows_of(checks_csv(with_check(demand=-2.0)))[0]["demand"]) == -2.0


@pytest.mark.parametrize("made", [checks_csv, hardware_csv])
def test_every_list_carries_caution_and_sign_off_line(made) -> None:
    text = made(check_text(FAILS))
    assert text.startswith("# generator: whatcarries ")
    assert CAUTION in text and " ".join(SIGN_OFF.split()) in text and "# verdict: fails" in text
    assert "# invented data:" in text


def test_hardware_is_counted_for_every_end() -> None:
    """Three bolts at each of four ends: 12 bolts, 24 washers, 12 nuts; a plate on both sides of each: 8."""
    rows = rows_of(hardware_csv(check_text(HELD_JOB)))
    assert {row["what"]: (row["for each end"], row["ends"], row["in all"]) for row in rows} == {
        "bolt": ("3", "4", "12"), "washer": ("6", "4", "24"), "nut": ("3", "4", "12"), "plate": ("2", "4", "8"),
    }  # fmt: skip
    bolt = rows[0]
    assert (bolt["group"], bolt["size"], bolt["length"]) == ("plate", "1/2 in", "4 in")
    assert bolt["steel and coating"] == "steel A307, hot-dip galvanized"
    assert bolt["holds"] == "H1 at support 1; H1 at support 2; H2 at support 1; H2 at support 2"


def test_fixings_of_a_bracket_are_counted() -> None:
    rows = [row for row in hardware_rows(check_text(PASSES + BRACKET)) if row.group == "K1"]
    found = {row.what: (row.size, row.length, row.in_all, row.holds) for row in rows}
    assert found == {
        "bolt": ("3/8 in", "5 in", 3, "wall"), "washer": ("1 in across", "", 6, "wall"),
        "nut": ("3/8 in", "", 3, "wall"),
    }  # fmt: skip


def test_a_job_without_hardware_has_a_head_only() -> None:
    assert rows_of(hardware_csv(check_text(PASSES))) == []


def test_a_list_needs_the_job() -> None:
    with pytest.raises(BeamcheckError, match="the hardware list needs the job"):
        hardware_csv(replace(check_text(PASSES), job_text=""))


class TestSpreadsheet:
    def test_its_rows_are_those_of_the_csv(self) -> None:
        result = check_text(HELD_JOB + joist("J3"))
        pages = pages_of(result_xlsx(result))
        assert list(pages) == ["Checks", "Hardware"]
        for name, text in (("Checks", checks_csv(result)), ("Hardware", hardware_csv(result))):
            expected = list(csv.reader(line for line in text.splitlines(keepends=True) if not line.startswith("#")))
            found = [[value for _, value in row] for row in pages[name]][-len(expected) :]
            for row, other in zip(found, expected, strict=True):
                row += [""] * (len(other) - len(row))
                for cell, there in zip(row, other, strict=True):
                    try:
                        assert float(cell) == pytest.approx(float(there), rel=1e-12)
                    except ValueError:
                        assert cell == there.removeprefix("'")

    def test_the_caution_stands_in_the_first_row_of_each_page(self) -> None:
        for rows in pages_of(result_xlsx(check_text(FAILS))).values():
            assert [value for _, value in rows[0]] == ["caution", CAUTION]
            assert any(value == " ".join(SIGN_OFF.split()) for row in rows for _, value in row)

    def test_figures_are_numbers_and_texts_are_texts(self) -> None:
        rows = pages_of(result_xlsx(with_check(what="=HYPERLINK(1)", subject="@a", where="+1", demand=-2.5)))["Checks"]
        last = rows[-1]
        assert last[2] == ("text", "=HYPERLINK(1)") and last[0] == ("text", "@a") and ("n", "-2.5") in last

    def test_letters_that_xml_cannot_hold(self) -> None:
        rows = pages_of(result_xlsx(with_check(what="a\x00\x1b\ud800b", notes=("n" * 40_000,))))["Checks"]
        assert rows[-1][2][1].startswith("a") and rows[-1][2][1].endswith("b")

    def test_the_same_result_gives_the_same_bytes(self) -> None:
        assert result_xlsx(check_text(FAILS)) == result_xlsx(check_text(FAILS))

    def test_it_names_no_other_program(self) -> None:
        with zipfile.ZipFile(io.BytesIO(result_xlsx(check_text(PASSES)))) as file:
            assert b"<Application>whatcarries " in file.read("docProps/app.xml")
            assert b"<dc:creator>whatcarries " in file.read("docProps/core.xml")

    def test_without_its_package_it_says_so(self, monkeypatch) -> None:
        monkeypatch.setitem(__import__("sys").modules, "openpyxl", None)
        with pytest.raises(BeamcheckError, match="needs the package openpyxl: install it, or write CSV instead"):
            result_xlsx(check_text(PASSES))


def test_what_joins_the_legs_of_a_bracket_is_bought_too() -> None:
    """Two bolts through the lap, with washers and nuts, beside the lag screws into the wall."""
    result = check_file(WORKED / "shelf_on_three_piece_brackets.toml")
    bought = [
        (row.what, row.size, row.length, row.in_all) for row in hardware_rows(result) if row.group == "left bracket"
    ]
    assert bought == [
        ("lag screw", "3/8 in", "7 in", 2), ("washer", "1 in across", "", 2),
        ("bolt", "1/4 in", "4 in", 2), ("nut", "1/4 in", "", 2),
    ]  # fmt: skip


def test_rows_of_a_bracket_with_screws_of_two_lengths() -> None:
    result = check_file(WORKED / "mantel_on_wooden_brackets.toml")
    screws = [(row.length, row.in_all) for row in hardware_rows(result)
              if row.group == "left bracket" and row.what == "lag screw"]  # fmt: skip
    assert screws == [("12 in", 1), ("9 in", 1)]
