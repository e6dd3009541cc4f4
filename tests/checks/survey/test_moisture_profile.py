"""A moisture profile: what it would rule out is said before it is made, and comes true once it is made."""

from __future__ import annotations

import re
from typing import Any

import pytest

from beamcheck.checks.core.result import PieceResult, Table
from beamcheck.sheet.document.short.member import BELOW, _tables

from .timbers import found, result

THIN: dict[str, Any] = {"size": "3 in x 9 1/2 in", "candidates": ["Douglas Fir-Larch", "Hem-Fir"]}
STATIONS = [{"at": at, "breadth": "3 in", "depth": "9 1/2 in"} for at in ("1 ft", "7 ft", "13 ft")]
CORE = "1 1/2 in"


def thin(moisture: str, deep: str | None = None) -> PieceResult:
    """A stick of dimension lumber, of which wet wood has 0.85 of F_b and 0.9 of E (NDS 2018 Table 4A, memory)."""
    reading = {"at": "7 ft", "moisture": moisture, **({} if deep is None else {"deep": deep})}
    return result({"stations": STATIONS, "readings": [reading]}, THIN)


def kept(piece: PieceResult) -> int:
    said = re.search(r"(\d+) of 12 candidates would stay within the limits; a grader", found(piece, "refer"))
    assert said is not None
    return int(said[1])


def profile(piece: PieceResult) -> Table:
    return next(table for table in piece.tables if table.title.startswith("Moisture profile"))


def test_what_it_would_rule_out_comes_true() -> None:
    """Dry by its face: a wet core is told to leave fewer candidates, and one that is found so leaves those."""
    dry, wet = thin("13 %"), thin("24 %", CORE)
    assert f"would leave {kept(wet)} of 12 candidates within the limits, not {kept(dry)}" in found(dry, "refer")
    assert "not 3: Douglas Fir-Larch No.1 & Btr would no longer hold" in found(dry, "refer")


def test_what_drying_would_bring_comes_true() -> None:
    wet, dry = thin("24 %"), thin("13 %", CORE)
    said = f"from face to core, {kept(dry)} of 12 candidates would stay within the limits, not {kept(wet)}"
    assert said in found(wet, "refer") and kept(dry) > kept(wet)


def test_one_that_would_change_nothing_says_so_and_one_that_was_made_is_no_longer_offered() -> None:
    assert "over 19 % in the core would change nothing here" in found(result(), "refer")
    assert "profile" not in found(thin("13 %", CORE), "refer")
    green = result(stock={"moisture": "wet"})  # it stays wet in service, whatever it is now
    assert "profile" not in found(green, "refer")


def test_each_result_with_what_it_rules_out_before_it_is_made() -> None:
    """9 1/2 in of the candidate that moves most, eastern hemlock, S_T 6.8 %: from 19 to 6 % 9.5 x 13/(3000/6.8 - 11) =
    0.287 in; from 30 % 0.517 in (eq. 13-3, memory). Wet timbers: 0.67 across the grain, 0.91 along (Table 4D)."""
    table = profile(result())
    says = dict(table.rows)
    dry, wet = says["19 % or less from face to core"], says["over 19 % in the core, whatever the face reads"]
    assert "bearing x 0.67, compression x 0.91 and creep 2 in place of 1.5 do not count" in dry and "0.287 in" in dry
    assert "that it counts as dry is ruled out" in wet and "0.517 in" in wet
    assert "between 6 and 10 %" in says["the face alone"] and says["the face alone"].startswith("nothing")
    assert "over 20 % anywhere" in says and "never shows strength" in table.note


def test_the_sheet_shows_it() -> None:
    assert profile(result()) in list(_tables(result(), BELOW))


def test_what_a_profile_found() -> None:
    readings = [{"at": "7 ft", "moisture": "11 %", "deep": "1 in"}, {"at": "7 ft", "moisture": "17 %", "deep": "3 in"},
                {"at": "1 ft", "moisture": "12 %", "deep": "3 in"}]  # fmt: skip
    middle, end = profile(result({"readings": readings})).rows
    assert middle[1] == "17 % in the core, 11 % nearer the face" and middle[2].startswith("still drying")
    assert end[2] == "at rest"


@pytest.mark.parametrize(("deep", "asked"), [("1/2 in", True), ("1 1/2 in", False), (None, False)])
def test_readings_that_stay_near_the_face_are_for_a_grader(deep: str | None, asked: bool) -> None:
    """A fifth of 7 1/2 in is 1 1/2 in; what is not said is a quarter, as the form says."""
    reading = {"at": "7 ft", "moisture": "13 %", **({} if deep is None else {"deep": deep})}
    assert ("deepest reading" in found(result({"readings": [reading]}), "refer")) is asked
