"""NDS 2018 Tables 11.3.6A and C, every row that is held: tests/published/published_group_action.csv.

How known: recalled and reproduced (column `how`). The tables rest on D = 1 in, s = 4 in, E 1.4e6 psi for wood, 30e6 psi
for steel, and on gross areas.
"""

from __future__ import annotations

import pytest

from beamcheck.formulas.connections import group_action as group

from .lateral_rows import read

ROWS = read("published_group_action.csv")


def C_g(E_m: float, A_m: float, E_s: float, A_s: float, *, n: float, s: float, gamma: float) -> float:
    m = group.group_m(group.group_u(gamma, s, E_m, A_m, E_s, A_s))
    return float(group.group_action_factor(m, n, group.stiffness_ratio(E_m, A_m, E_s, A_s)))


def inputs(row: dict[str, str]) -> tuple[float, float, float, float]:
    E_wood = float(row["E_wood_psi"])
    return E_wood, float(row["Am_in2"]), float(row["E_steel_psi"] or E_wood), float(row["As_in2"])


def test_all_rows_are_there() -> None:
    assert len(ROWS) == 132 and {row["how"] for row in ROWS} == {"memory, reproduced"}
    assert {row["D_in"] for row in ROWS} == {"1"} and {row["s_in"] for row in ROWS} == {"4"}


@pytest.mark.parametrize("row", [pytest.param(row, id=row["row_id"]) for row in ROWS])
def test_the_published_value(row: dict[str, str]) -> None:
    """To half of the second decimal, the last of the print."""
    slip = group.load_slip_metal if row["side"] == "steel" else group.load_slip_wood
    found = C_g(*inputs(row), n=float(row["n"]), s=float(row["s_in"]), gamma=slip(float(row["D_in"])))
    assert abs(found - float(row["Cg_published"])) <= 0.005 + 1e-9
    assert found == pytest.approx(float(row["Cg_recomputed"]), abs=5.1e-5)


def test_trap_the_areas_are_gross() -> None:
    """The table's basis (read): with the holes of a 1 in bolt taken off, a printed value is missed."""
    (row,) = [row for row in ROWS if row["row_id"] == "G004"]
    E_m, A_m, E_s, A_s = inputs(row)
    gamma, n, s = group.load_slip_wood(1.0), float(row["n"]), float(row["s_in"])
    gross = C_g(E_m, A_m, E_s, A_s, n=n, s=s, gamma=gamma)
    net = C_g(E_m, 0.8 * A_m, E_s, 0.8 * A_s, n=n, s=s, gamma=gamma)
    assert round(gross, 2) == float(row["Cg_published"]) != round(net, 2)
