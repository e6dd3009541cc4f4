"""Rows along a tie cross the rafter on a slant; how far they reach across it, by hand. 2x8 at 8:12, 7 1/4 in wide."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path

import pytest

from beamcheck.checks.core.result import Check
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import job_from_data

ATTIC = Path(__file__).parents[2] / "trials" / "roofs" / "attic_roof_with_ceiling_joists.toml"
SLOPE, WIDE, EDGE, ROWS_APART = math.atan2(8.0, 12.0), 7.25, 2.0, 2.0


def heel(columns: int, spacing: str, **fastener: str) -> list[Check]:
    data = tomllib.loads(ATTIC.read_text())
    nails = data["anchor"][0]
    nails["holes"] |= {"columns": columns, "spacing": spacing}
    nails["fastener"] |= fastener
    (found,) = (piece for piece in check_job(job_from_data(data)).pieces if piece.name == "heel nails")
    return list(found.checks)


def reach(columns: int, spacing: float) -> float:
    """Of a rectangle of fasteners, across the slope."""
    return (columns - 1) * spacing * math.sin(SLOPE) + ROWS_APART * math.cos(SLOPE)


@pytest.mark.parametrize(("columns", "spacing"), [(3, 2.25), (4, 2.0), (5, 2.25), (9, 2.25), (3, 27.0)])
def test_nails_of_a_heel_are_in_the_rafter(columns: int, spacing: float) -> None:
    """Three in a row at 2 1/4 in come to 6.16 in of 7 1/4 in, five to 8.65 in: the last ones would meet air."""
    missed = [one for one in heel(columns, f"{spacing} in") if one.id == "anchor.far_holes" and one.verdict == "fails"]
    assert bool(missed) == (EDGE + reach(columns, spacing) > WIDE)


def test_bolts_of_a_heel_keep_the_far_edge() -> None:
    """Three 3/8 in bolts in a row at 2 1/4 in: 7.25 - 2 - 4.16 = 1.09 in are left at the far edge of the rafter."""
    found = heel(3, "2 1/4 in", kind="bolt", size="3/8 in", length="4 in", steel="A307")
    (far,) = (one for one in found if one.what == "distance to the far edge in the rafters")
    assert far.capacity == pytest.approx(WIDE - EDGE - reach(3, 2.25), abs=1e-4)
