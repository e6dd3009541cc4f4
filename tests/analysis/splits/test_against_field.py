"""The split test is the safe side of the plate with a free crack, over twelve shapes and three directions of grain.

Two ways of fixing, with no check, with the worst one of the strips, and with five more. The whole table is written by
`python -m tests.analysis.splits.against_field`; here it is read, and some of its rows are worked out again.
"""

from __future__ import annotations

import csv
from dataclasses import replace

import numpy as np
import pytest

from beamcheck.analysis.splits.split import allowed, split

from .against_field import FILE, cases, field_load
from .crack_model import Hold, Plate
from .shapes import SHAPES, held_shape, outline

ROWS = list(csv.DictReader(FILE.read_text().splitlines()))
BLOCK = outline({"soffit": "block", "H": 12, "P": 5.5})
LAG = {"k_axial": 30_000.0, "EI": 11_500.0, "foundation": 250_000.0, "in_wall": 3.0}


def test_the_table_has_every_case() -> None:
    assert [(one["shape"], one["grain"], one["heads"]) for one in ROWS] == list(cases()) and len(SHAPES) == 12


def test_what_is_allowed_is_never_above_the_field() -> None:
    ratios = [float(one["allowed_over_field_least"]) for one in ROWS if float(one["load_allowed_lb"]) > 1.0]
    assert len(ratios) >= 36 and max(ratios) <= 1.0


def test_a_row_of_the_table() -> None:
    said = next(one for one in ROWS if (one["shape"], one["grain"], one["heads"]) == ("B1", "upright", "front"))
    held = replace(held_shape("B1", "front"), strict=True)
    assert allowed(held, 90.0, 7.0, 1.3).load == pytest.approx(float(said["load_allowed_lb"]), rel=0.03)
    worst = field_load(held, 90.0, float(said["worst_check_s_in"]))
    assert worst == pytest.approx(float(said["field_with_worst_check_lb"]), rel=0.05)


def test_pull_and_sideways_force_count_together_along_the_whole_dowel() -> None:
    """Why: counted at the wall alone, a long row passes its load on to the next one behind the check, and the plate
    reaches its value sooner (O1, upright grain, heads in front)."""
    held = held_shape("O1", "front")
    field = field_load(held, 90.0, 10.8)
    assert split(held, 90.0).least / 1.3 > 1.2 * field
    assert split(replace(held, strict=True), 90.0).least / 1.3 < field


def test_the_plate_gives_the_values_of_another_one() -> None:
    """Check values of the reference (derived, its own plane stress model): pulls and sideways force per 100 lb."""
    strut = outline({"soffit": "straight", "H": 12, "P": 10, "a": 2.5, "b": 2})
    rows = [Hold(y, 2.0, 1.0, **LAG) for y in (2.5, 9.0)]
    checked = Plate(strut, 1.5, 50.0, rows, (7.0, 9.0), crack=5.0).solve(100.0)
    assert checked.pulls[1] == pytest.approx(295.0, rel=0.10) and checked.shears[1] == pytest.approx(100.0, rel=0.03)
    front = [Hold(y, 5.45, 1.5, **LAG) for y in (2.75, 9.0)]
    for crack in (None, 3.0):
        assert Plate(BLOCK, 3.5, 90.0, front, (3.0, 5.0), crack=crack).solve(100.0).pulls[0] == pytest.approx(
            46.7, rel=0.1
        )
    deep = [Hold(y, 2.0, 1.5, **LAG) for y in (2.75, 9.0)]
    assert not Plate(BLOCK, 3.5, 90.0, deep, (3.0, 5.0), crack=2.5).solve(100.0).holds


def test_the_mesh_fills_the_outline() -> None:
    plate = Plate(BLOCK, 3.5, 30.0, [], (3.0, 5.0), crack=6.0)
    assert plate.gradients()[1].sum() == pytest.approx(66.0, rel=1e-6) and np.isfinite(plate.nodes).all()
