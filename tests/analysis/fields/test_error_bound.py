"""The bound on the error of a stress field, against meshes of 40 cells: a table of runs, and one of them run again.

`worked_examples/stress_field_against_fine_mesh.csv`: 12 shapes in three grains and 30 drawn at random, on soft anchors
and wall and on stiff ones; 1,000 lb on 3 in (of the 12 shapes: their own thickness), E_L = 1,700,000 psi, E_T 0.05 and
G 0.078 of it; index with F_t 675, F_c 1,500, F_v 180, F_c_perp 625 psi.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from beamcheck.analysis.fields.field import Backing, Elastic, Press, Spring, solve_field
from beamcheck.analysis.fields.outline import outline_of
from beamcheck.checks.brackets.families.solid_stress import OVER, _index, error_bound
from beamcheck.model.brackets.shapes import Solid

with (Path(__file__).parents[3] / "worked_examples/stress_field_against_fine_mesh.csv").open(encoding="utf-8") as file:
    ROWS = list(csv.DictReader(file))
STRENGTH = {"F_t": 675.0, "F_c": 1500.0, "F_v": 180.0, "F_c_perp": 625.0}


def ratios(figure: str, mesh: str, least: float = 0.0) -> list[float]:
    """Figure on 40 cells over that on a mesh, where it is a part of the index that matters."""
    found = [(row[f"{figure}_40_cells"], row[f"{figure}_{mesh}"], row["index_40_cells"]) for row in ROWS]
    return [float(a) / float(b) for a, b, i in found if a and b and float(a) >= least * float(i)]


@pytest.mark.parametrize(
    ("of", "figure", "mesh"),
    [
        ("coarse", "index", "6_cells"), ("coarse", "wall_tension", "6_cells"),
        ("refined, in the wood", "index", "refined"), ("refined, at an edge", "wall_tension", "refined"),
    ],
)  # fmt: skip
def test_no_run_is_beyond_the_bound(of: str, figure: str, mesh: str) -> None:
    most = max(ratios(figure, mesh, least=0.3))
    assert len(ROWS) >= 100 and 1.1 < most <= error_bound(of).value


def test_what_fails_on_a_coarse_mesh_fails_on_a_fine_one() -> None:
    assert OVER * min(ratios("index", "6_cells")) > 1.0


def test_a_run_of_the_table_again() -> None:
    row = next(row for row in ROWS if row["bracket"] == "r18" and row["backing"] == "soft")
    H, P, a, b, x0, x1, y1, y2, grain = (
        float(row[key])
        for key in ("height", "projection", "foot", "nose", "load_from", "load_to", "row_1", "row_2", "grain")
    )
    shape = Solid.model_construct(
        family="solid", thickness=3.0, height=H, projection=P, foot=a, nose=b, soffit=row["soffit"], sagitta=None,
        points=(), grain=grain, pocket=None,
    )  # fmt: skip
    elastic = Elastic(1.7e6, 1.7e6 * 0.05, 1.7e6 * 0.078, 0.449, grain)
    backing = Backing("springs", tuple(Spring(y, 1e4, 2e4) for y in (y1, y2)), 2e3)
    field = solve_field(outline_of(shape), 3.0, elastic, backing, [Press(x0, x1, 1000.0)], across=6)
    assert _index(field, STRENGTH, 1.0)[0] == pytest.approx(float(row["index_6_cells"]), rel=0.02)
