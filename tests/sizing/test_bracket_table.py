"""The table of hand rule against field analysis is current, complete, and bears out the band that the tool claims."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from beamcheck.checks.brackets.families.solid_comparison import band
from beamcheck.sizing.bracket_table import HEADS, Case, cases, rows_of

FILE = Path(__file__).parents[2] / "worked_examples" / "bracket_hand_rule_against_field.csv"
FIGURES = ("least_hand_over_field", "largest_hand_over_field", "least_outside_rule", "largest_outside_rule")
CURRENT = 0.02
SAMPLE = [  # all soffits, grains, sizes, loads and ways of holding; among them those that set the ends of the bands
    ("full arc", 0.0, 2, "tip", "bonded"), ("ogee", 45.0, 2, "tip", "bonded"), ("concave", 0.0, 4, "shelf", "anchors"),
    ("convex", 0.0, 2, "tip", "anchors"), ("convex", 45.0, 2, "tip", "bonded"), ("concave", 0.0, 2, "tip", "bonded"),
    ("straight", 90.0, 0, "shelf", "anchors"), ("hollow arc", 90.0, 1, "tip", "anchors"),
    ("ogee", 0.0, 3, "shelf", "anchors"),
]  # fmt: skip


def table() -> list[dict[str, str]]:
    with FILE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def key(row: dict[str, str]) -> tuple[str, ...]:
    return (*(row[head] for head in HEADS[:8]), row["edge"])


def name(case: Case) -> tuple[str, ...]:
    return (case.soffit, f"{case.grain:g}", *(f"{one:g}" for one in case.size), case.load, case.held)


def test_no_bracket_is_left_out() -> None:
    wanted = {
        (*name(case), edge)
        for case in cases() for edge in ("top", "soffit", *(["wall"] if case.held == "anchors" else []))
    }  # fmt: skip
    rows = table()
    assert tuple(rows[0]) == HEADS
    assert {key(row) for row in rows} == wanted and len(rows) == len(wanted) == 900


@pytest.mark.parametrize(("soffit", "grain", "size", "load", "held"), SAMPLE)
def test_a_row_is_what_the_code_says_today(soffit: str, grain: float, size: int, load: str, held: str) -> None:
    sizes = list(dict.fromkeys(case.size for case in cases()))
    case = Case(soffit, grain, sizes[size], load, held)
    kept = {key(row): row for row in table()}
    for row in rows_of(case):
        old = kept[key(row)]
        assert old["claimed"] == row["claimed"]
        for figure in FIGURES:
            assert bool(old[figure]) == bool(row[figure]), (figure, old, row)
            if row[figure]:
                assert float(old[figure]) == pytest.approx(float(row[figure]), rel=CURRENT), figure


def test_the_band_claimed_is_the_band_shown() -> None:
    """Every row within the rule lies in the band, and the band is not wider than the rows need (5 %)."""
    rows = [row for row in table() if row["claimed"] not in ("", "no claim")]
    for edge in ("top", "soffit"):
        low = min(float(row["least_hand_over_field"]) for row in rows if row["edge"] == edge)
        high = max(float(row["largest_hand_over_field"]) for row in rows if row["edge"] == edge)
        claimed = band("top" if edge == "top" else "soffit", "bonded")
        assert claimed is not None
        assert claimed[0] <= low <= 1.06 * claimed[0] and 0.94 * claimed[1] <= high <= claimed[1]
    assert band("top", "springs") == band("top", "bonded")
    # what is not claimed is shown: on anchors the rule is unsafe for the soffit, wild for the wall edge
    soffit = [row for row in table() if row["claimed"] == "no claim" and row["edge"] == "soffit"]
    assert min(float(row["least_hand_over_field"]) for row in soffit) < 0.5
