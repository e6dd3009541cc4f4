"""Sizes and grades of hardware that no table has are refused where they stand, with those that are known."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from beamcheck.errors import JobError
from beamcheck.model.reading.reader import job_from_data

ROOT = Path(__file__).parents[2]
BASE = ROOT / "tests" / "trials" / "joined_members" / "post_base_held_down.toml"
SHELF = ROOT / "worked_examples" / "shelf_on_three_piece_brackets.toml"


def put(data: dict[str, Any], path: str, value: str) -> dict[str, Any]:
    place: Any = data
    *parts, last = path.split(".")
    for part in parts:
        place = place[int(part)] if part.isdigit() else place[part]
    place[last] = value
    return data


@pytest.mark.parametrize(
    ("file", "path", "value", "says"),
    [
        (BASE, "joint.0.fastener.size", "9/16 in", "fastener, size: bolt size '9/16 in' is not known"),
        (BASE, "joint.0.fastener.steel", "A3O7", "fastener, steel: grade of a bolt 'A3O7' is not known; did you mean"),
        (BASE, "joint.0.base.steel", "A572", "base, steel: grade of steel 'A572' is not known; did you mean 'A572 Gr"),
        (BASE, "joint.0.members.0.plate.steel", "S235", "plate, steel: grade of steel 'S235' is not known; known are"),
        (
            SHELF,
            "bracket.0.shape.legs_joint.fastener.steel",
            "tin",
            "fastener, steel: grade of a bolt 'tin' is not",
        ),
        (SHELF, "bracket.0.shape.legs_joint.fastener.size", "thin", "fastener, size: bolt size 'thin' is not known"),
    ],
)
def test_hardware_that_no_table_has(file: Path, path: str, value: str, says: str) -> None:
    job_from_data(tomllib.loads(file.read_text()))
    with pytest.raises(JobError) as error:
        job_from_data(put(tomllib.loads(file.read_text()), path, value))
    assert says in str(error.value)
