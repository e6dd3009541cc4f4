"""Rows of the lateral tables run through the package: what they give is turned into inputs by its own tables."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import Literal

from beamcheck.calc.pad import Pad, SilentPad
from beamcheck.formulas.connections.lateral import Yield, double_shear, single_shear, wood_bearing
from beamcheck.values.hardware.fasteners import Family, bending_yield
from beamcheck.values.hardware.steels import other_bearing

Row = dict[str, str]

STEELS = {
    "steel A36": "A36 plate, hot-rolled, 1/4 in and thicker",
    "steel A653 Gr 33": "A653 Grade 33 sheet, cold-formed",
}
CONCRETE = "concrete, 2500 psi or more"
# angle between load and grain in the main and in the side member, by the tables' column
ANGLES = {"par": (0.0, 0.0), "perp": (90.0, 90.0), "mperp": (90.0, 0.0), "sperp": (0.0, 90.0), "any": (0.0, 0.0)}


def read(name: str) -> list[Row]:
    with (Path(__file__).parent / name).open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def family(row: Row) -> Family:
    named: dict[str, Family] = {"bolt": "bolt", "lag": "lag screw", "wood": "wood screw", "nail": "nail"}
    return named[row["fastener"].split()[0]]


def bearing(row: Row, member: Literal["main", "side"]) -> float:
    """Dowel bearing strength of a member, from its material, G, diameter and the angle of the load."""
    material = row.get(f"{member}_material", "wood")
    if material in STEELS:
        return other_bearing(STEELS[material]).value
    if material.startswith("concrete"):
        return other_bearing(CONCRETE).value
    theta = ANGLES[row["direction"]][0 if member == "main" else 1]
    return float(wood_bearing(SilentPad(), G=float(row["G"]), D_nom=float(row["D_nominal_in"]), theta=theta))


def worst_angle(row: Row) -> float:
    """Largest angle of the load in a wood member. The column 'perp' of a steel side means the main member."""
    return max(ANGLES[row["direction"]])


def value(row: Row, pad: Pad) -> Yield:
    """The row's layout through the package, nothing taken from its result columns."""
    run = double_shear if row.get("config") == "double" else single_shear
    return run(
        pad,
        D=float(row["D_calc_in"]),
        D_nom=float(row["D_nominal_in"]),
        l_m=float(row["lm_in"]),
        l_s=float(row["ts_in"]),
        F_em=bearing(row, "main"),
        F_es=bearing(row, "side"),
        F_yb=bending_yield(family(row), float(row["D_nominal_in"])).value,
        theta=worst_angle(row),
    )
