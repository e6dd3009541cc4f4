"""The split test against values of an independent run (reference on brackets that carry, its check values: derived)."""

from __future__ import annotations

import csv
import json
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.splits.cut import cut
from beamcheck.analysis.splits.split import allowed, split

from .shapes import SHAPES, grains, held_of, held_shape

VALUES = list(csv.DictReader((Path(__file__).parent / "split_values.csv").read_text().splitlines()))


@pytest.mark.parametrize("value", VALUES, ids=[one["id"] for one in VALUES])
def test_check_value(value: dict[str, str]) -> None:
    inputs: dict[str, Any] = json.loads(value["inputs"])
    held, grain, lines = held_of(inputs), inputs["grain_deg"], inputs["lines"]
    if value["quantity"] == "load_allowed":
        found = allowed(held, grain, 7.0, 1.3, lines).load
    else:
        one = split(held, grain, lines)
        found = one.none if value["quantity"] == "load_none" else one.least
    expected, (size, unit) = float(value["expected"]), value["tolerance"].split()
    tolerance = float(size) if unit == "lbf" else 0.01 * float(size) * expected
    assert found == pytest.approx(expected, abs=tolerance)


def test_cuts_keep_the_area_and_its_center() -> None:
    """Area and centroid by the shoelace formula."""
    for name in ("C1", "O2", "B1"):
        for grain in (0.0, 37.0, 90.0, 143.0):
            held = held_shape(name, "front")
            strips = cut(held.outline, grain, 23)
            p, q = held.outline, np.roll(held.outline, -1, axis=0)
            cross = p[:, 0] * q[:, 1] - q[:, 0] * p[:, 1]
            area = cross.sum() / 2
            assert strips.area.sum() == pytest.approx(abs(area), rel=1e-6)
            middle = ((p + q) * cross[:, None]).sum(axis=0) / (6 * area)
            assert (strips.area @ strips.centroid) / strips.area.sum() == pytest.approx(
                middle, rel=2e-3
            )  # by the middles of slabs


@pytest.mark.parametrize("name", ["C2", "T1", "X1", "B2"])
@pytest.mark.parametrize("grain", ["level", "upright", "strut"])
def test_a_check_never_raises_the_load(name: str, grain: str) -> None:
    held = held_shape(name, "front")
    found = split(held, grains(name)[grain], 20)
    assert found.least <= found.none * (1.0 + 1e-6)


def test_deeper_heads_never_lower_it() -> None:
    """Upright grain: the farther out the head, the more it holds."""
    from dataclasses import replace

    held = held_shape("B1", "front")
    found = []
    for head in (2.0, 3.0, 4.5, 5.45):
        moved = replace(held, rows=tuple(replace(row, head=head) for row in held.rows))
        found.append(split(moved, 90.0, 20).least)
    assert found[0] < 1.0 < found[-1]
    assert all(later >= 0.97 * earlier for earlier, later in pairwise(found))  # points along a dowel move with it


def test_grain_away_from_the_strut_never_raises_it() -> None:
    """Heads deep: from the direction foot to nose towards upright (T1)."""
    held = held_shape("T1", "deep")
    found = [split(held, grain, 20).least for grain in (50.0, 60.0, 75.0, 90.0)]
    assert all(later <= earlier * 1.02 + 1.0 for earlier, later in pairwise(found))


def test_steel_never_lowers_it() -> None:
    from dataclasses import replace

    from beamcheck.analysis.splits.holds import Rod

    for name, rod in (
        ("B1", Rod((5.45, 1.0), (0.3, 1.0), 400.0, 2400.0, 200.0, 1500.0)),
        ("T2", Rod((9.95, 2.5), (0.3, 0.5), 400.0, 2400.0, 200.0, 1500.0)),
    ):
        for grain in grains(name).values():
            held = held_shape(name, "deep")
            assert split(replace(held, rods=(rod,)), grain, 20).least >= split(held, grain, 20).least - 1e-6


def test_a_check_that_is_there_counts_beside_the_one_that_is_tried() -> None:
    from dataclasses import replace

    held = held_shape("T2", "front")
    for place in ((5.0, 0.0), (0.0, 6.0)):
        seen = split(replace(held, seen=(place,)), 59.0, 20)
        assert seen.least <= split(held, 59.0, 20).least * (1.0 + 1e-6)


def test_twelve_shapes_agree_with_the_table() -> None:
    """Two rows, heads in front, upright grain: load_split of table 1.6 (derived), lb."""
    table = {"C2": 349, "T1": 205, "T2": 368, "X1": 211, "X2": 368, "O2": 205, "B1": 211, "B2": 737, "S1": 349}
    for name, expected in table.items():
        assert split(held_shape(name, "front"), 90.0).least == pytest.approx(expected, rel=0.08), name
    assert set(table) < set(SHAPES)


# load allowed with two rows, heads deep and in front: typed from the table of the reference, section 1.6 (derived)
PRINTED = {
    ("C2", "level"): (91, 91), ("C1", "upright"): (0, 0), ("C1", "strut"): (0, 145),
    ("T2", "upright"): (0, 274), ("T2", "strut"): (0, 270),
    ("X1", "upright"): (0, 156), ("X2", "upright"): (0, 275), ("O1", "upright"): (0, 447), ("O2", "level"): (67, 67),
    ("B1", "upright"): (0, 160), ("B1", "strut"): (98, 168), ("B2", "strut"): (0, 536), ("L1", "upright"): (0, 143),
}  # fmt: skip


@pytest.mark.parametrize(("shape", "grain"), list(PRINTED))
def test_the_kept_table_of_twelve_shapes(shape: str, grain: str) -> None:
    """`worked_examples/twelve_shapes_load_allowed.csv`: before, no sawn bracket on anchors passed at any load."""
    path = Path(__file__).parents[3] / "worked_examples/twelve_shapes_load_allowed.csv"
    rows = list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))
    assert len(rows) == 12 * 3 * 2
    for heads, printed in zip(("deep", "front"), PRINTED[shape, grain], strict=True):
        (row,) = (r for r in rows if (r["shape"], r["grain"], r["heads"]) == (shape, grain, heads))
        at_wall = float(row["load_allowed_lbf_at_the_wall_alone"])
        assert at_wall == pytest.approx(printed, rel=0.10, abs=1.0)
        assert float(row["load_allowed_lbf"]) <= at_wall  # what jobs are allowed is never more
