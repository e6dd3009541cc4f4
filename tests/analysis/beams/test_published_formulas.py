"""Every row of the collected closed-form beam formulas, against the solver.

Source: tests/published/beam_formulas.csv, columns `how` and `source` (AWC/AF&PA Design Aid 6 case list and standard
beam tables, recalled; how = memory, checked there by an independent finite-element run). Rows whose coefficient is
'exact' hold to 1e-9; rows 'rounded in source' to half a unit of the last printed digit of their coefficient.
"""

import csv
import json
import re
from collections.abc import Callable
from math import sqrt
from pathlib import Path
from typing import Any

import pytest

from beamcheck.analysis.frames.member_line import BeamResult, LineLoad, PointLoad, straight_beam

TEXT = (Path(__file__).parents[2] / "published" / "beam_formulas.csv").read_text(encoding="utf-8")
ROWS = list(csv.DictReader(TEXT.splitlines()))

Beam = tuple[float, list[tuple[float, str]], list[Any]]  # length, supports, loads


def simple(length: float, *loads: Any) -> Beam:
    return length, [(0.0, "pin"), (length, "roller")], list(loads)


def spans(length: float, n: int, *loads: Any) -> Beam:
    return n * length, [(i * length, "pin" if i == 0 else "roller") for i in range(n + 1)], list(loads)


def held(length: float, left: str, right: str, *loads: Any) -> Beam:
    ends = [(0.0, left), (length, right)]
    return length, [(s, kind) for s, kind in ends if kind], list(loads)


def overhang(length: float, beyond: float, *loads: Any) -> Beam:
    return length + beyond, [(0.0, "pin"), (length, "roller")], list(loads)


BEAMS: dict[str, Callable[..., Beam]] = {
    "B01": lambda L, w, **_: simple(L, LineLoad(0, L, w)),
    "B03": lambda L, w, a, **_: simple(L, LineLoad(0, a, w)),
    "B04": lambda L, w, a, w2, c, **_: simple(L, LineLoad(0, a, w), LineLoad(L - c, L, w2)),
    "B05": lambda L, w, **_: simple(L, LineLoad(0, L, 0, w)),
    "B06": lambda L, w, **_: simple(L, LineLoad(0, L / 2, 0, w), LineLoad(L / 2, L, w, 0)),
    "B07": lambda L, P, **_: simple(L, PointLoad(L / 2, P)),
    "B09": lambda L, P, a, **_: simple(L, PointLoad(a, P), PointLoad(L - a, P)),
    "B10": lambda L, P, a, b, **_: simple(L, PointLoad(a, P), PointLoad(L - b, P)),
    "B13": lambda L, w, **_: held(L, "", "fixed", LineLoad(0, L, w)),
    "B14": lambda L, P, **_: held(L, "", "fixed", PointLoad(0, P)),
    "B15": lambda L, P, b, **_: held(L, "", "fixed", PointLoad(L - b, P)),
    "B17": lambda L, w, **_: held(L, "pin", "fixed", LineLoad(0, L, w)),
    "B18": lambda L, P, **_: held(L, "pin", "fixed", PointLoad(L / 2, P)),
    "B20": lambda L, w, **_: held(L, "fixed", "fixed", LineLoad(0, L, w)),
    "B21": lambda L, P, **_: held(L, "fixed", "fixed", PointLoad(L / 2, P)),
    "B23": lambda L, w, a, **_: overhang(L, a, LineLoad(0, L + a, w)),
    "B24": lambda L, w, a, **_: overhang(L, a, LineLoad(L, L + a, w)),
    "B26": lambda L, w, a, **_: overhang(L, a, LineLoad(0, L, w)),
    "B27": lambda L, P, d, c, **_: overhang(L, c, PointLoad(d, P)),
    "B29": lambda L, w, **_: spans(L, 2, LineLoad(0, 2 * L, w)),
    "B31": lambda L, P, **_: spans(L, 2, PointLoad(L / 2, P)),
    "B33": lambda L, P, **_: spans(L, 2, PointLoad(L / 2, P), PointLoad(1.5 * L, P)),
    "B34": lambda L, w, L2, **_: (
        L + L2, [(0.0, "pin"), (L, "roller"), (L + L2, "roller")], [LineLoad(0, L + L2, w)],
    ),
    "B35": lambda L, w, **_: spans(L, 3, LineLoad(0, 3 * L, w)),
    "B38": lambda L, w, **_: spans(L, 3, LineLoad(L, 2 * L, w)),
    "B39": lambda L, w, **_: spans(L, 3, LineLoad(0, L, w)),
}  # fmt: skip


def place_of(name: str, given: dict[str, float], case_id: str, length: float) -> float:
    L = given["L"]
    if name.startswith("x="):
        return float(evaluated(name[2:], given))
    load = {"B09": given.get("a"), "B15": L - given.get("b", 0.0)}.get(case_id, L / 2)
    places = {"midspan": L / 2, "load": load, "tip": length, "free end": 0.0, "mid of center span": 1.5 * L}
    return float(places[name])  # type: ignore[arg-type]


def evaluated(expression: str, given: dict[str, float]) -> float:
    return float(eval(expression, {"__builtins__": {}}, {"sqrt": sqrt, **given}))


def solved(row: dict[str, str]) -> tuple[BeamResult, dict[str, float], float]:
    given = json.loads(row["instance_inputs"])
    length, supports, loads = BEAMS[row["case_id"]](**given)
    return straight_beam(length, supports, [loads], given["EI"]), given, length


def computed(row: dict[str, str]) -> float:
    """The row's quantity by the solver: R reaction up, V, M sagging, D down, U up."""
    beam, given, length = solved(row)
    name, line = row["quantity"], beam.line
    if found := re.fullmatch(r"(abs\()?R(\d)\)?", name):
        value = float(beam.reactions[0, int(found[2]) - 1, 1])
        return abs(value) if found[1] else value
    if name in ("Vmax", "abs(M)max"):
        low, _, high, _ = line.extremes("V" if name == "Vmax" else "M")
        return float(max(-low[0], high[0]))
    if name in ("Mmax", "M+"):
        return float(line.extremes("M")[2][0])
    if name == "abs(M2)":
        return abs(float(line.at("M", given["L"])[0]))
    if name == "Dmax":
        return -float(line.extremes("v")[0][0])
    if name == "U(span)max":
        return float(line.extremes("v", 0.0, given["L"])[2][0])
    if found := re.fullmatch(r"([MDU])\((.*)\)", name):
        place = place_of(found[2], given, row["case_id"], length)
        value = float(line.at("M" if found[1] == "M" else "v", place)[0])
        return -value if found[1] == "D" else value
    raise AssertionError(f"no reading for {name}")


def rounding(expression: str) -> float:
    """Half a unit of the last digit of the longest number in the expression, as a part of that number."""
    number = max(re.findall(r"(?<![\w*.])\d+\.?\d*|(?<=\()\d+", expression), key=len)
    decimals = len(number.partition(".")[2])
    return float(0.5 * 10.0**-decimals / float(number))


def label(row: dict[str, str]) -> str:
    return f"{row['case_id']} {row['quantity']}"


@pytest.mark.parametrize("row", [row for row in ROWS if row["coefficient"] == "exact"], ids=label)
def test_exact_rows_to_nine_digits(row: dict[str, str]) -> None:
    assert computed(row) == pytest.approx(evaluated(row["expression"], json.loads(row["instance_inputs"])), rel=1e-9)


@pytest.mark.parametrize("row", [row for row in ROWS if row["coefficient"] == "rounded in source"], ids=label)
def test_rounded_rows_to_their_rounding(row: dict[str, str]) -> None:
    expected = evaluated(row["expression"], json.loads(row["instance_inputs"]))
    part = rounding(row["expression"])
    assert 1e-4 < part < 0.05
    assert computed(row) == pytest.approx(expected, rel=part)


def test_the_list_is_whole() -> None:
    assert len(ROWS) == 101
    assert {row["coefficient"] for row in ROWS} == {"exact", "rounded in source"}


PLACES = [row for row in ROWS if row["quantity"] in ("Mmax", "M+", "Dmax") and re.search(r"\bx=", row["location"])]


@pytest.mark.parametrize("row", PLACES, ids=label)
def test_where_the_extreme_is(row: dict[str, str]) -> None:
    """Column `location`: printed with at most four digits where it is a decimal, exact otherwise."""
    beam, given, _ = solved(row)
    expression = re.search(r"\bx=(.*)$", row["location"])[1]  # type: ignore[index]
    reaction = {"R1": float(beam.reactions[0, 0, 1])}
    expected = evaluated(expression, {**given, **reaction})
    _, s_low, _, s_high = beam.line.extremes("v" if row["quantity"] == "Dmax" else "M")
    s = float(s_low[0] if row["quantity"] == "Dmax" else s_high[0])
    length = float(beam.line.length)
    # a symmetrical beam has the same extreme mirrored; decimals of L are rounded to the digits printed
    slack = 5e-4 * given["L"] if re.search(r"0\.\d{3,}", expression) else 1e-7 * length
    assert min(abs(s - expected), abs(length - s - expected)) <= slack
