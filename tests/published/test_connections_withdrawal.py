"""NDS 2018 withdrawal tables, every row that is held: tests/published/published_withdrawal.csv.

How known: Table 12.2A (lag screws) read in scanned pages; 12.2B and 12.2C recalled, and as an equation fixes each value
that is weak evidence (column `how`, note). `W_recomputed` is derived.
"""

from __future__ import annotations

import re
from collections import Counter

import pytest

from beamcheck.errors import OutOfRange
from beamcheck.formulas.connections import adjustment as connection_adjustment
from beamcheck.formulas.connections import withdrawal
from beamcheck.formulas.connections.dowel_lengths import lag_thread_held
from beamcheck.values.hardware.connections import connection_factor
from beamcheck.values.hardware.fasteners import lag_screw, lag_screw_sizes, wood_screw

from .lateral_rows import read

ROWS = read("published_withdrawal.csv")
FORMULA = {
    "12.2A": withdrawal.withdrawal_lag,
    "12.2B": withdrawal.withdrawal_wood_screw,
    "12.2C": withdrawal.withdrawal_nail,
}


def test_all_rows_are_there() -> None:
    assert Counter((row["table"], row["how"]) for row in ROWS) == {
        ("12.2A", "read"): 145, ("12.2B", "memory, reproduced"): 45, ("12.2C", "memory, reproduced"): 50,
    }  # fmt: skip


@pytest.mark.parametrize("row", [pytest.param(row, id=row["row_id"]) for row in ROWS])
def test_the_published_value(row: dict[str, str]) -> None:
    """To half a pound per inch, the last digit of the print."""
    W = FORMULA[row["table"]](float(row["G"]), float(row["D_in"]))
    assert abs(W - float(row["W_published_lbf_per_in"])) <= 0.5
    assert float(W) == pytest.approx(float(row["W_recomputed"]), abs=0.0051)


def test_the_diameters_are_those_of_the_size_tables() -> None:
    lags = {lag_screw(size).value.D for size in lag_screw_sizes()}
    for row in ROWS:
        if row["table"] == "12.2A":
            assert float(row["D_in"]) in lags
        if row["table"] == "12.2B":
            assert float(row["D_in"]) == wood_screw(row["fastener"].removeprefix("wood screw ")).value.D


def test_x4_pull_on_a_nail() -> None:
    """G 0.45, D 0.203 in: 38 lbf per inch (read, a web reference that quotes a note of the Forest Service)."""
    W = withdrawal.withdrawal_nail(0.45, 0.203)
    assert round(W) == 38
    assert float(W) == pytest.approx(1380 * 0.45**2.5 * 0.203)


def test_a_lag_screw_from_end_to_end() -> None:
    """3/8 x 4 lag screw, G 0.50, 2-1/2 in of it in the post: W 305 (Table 12.2A, read), thread less tip (derived)."""
    W = withdrawal.withdrawal_lag(0.50, 0.375)
    assert round(W) == 305
    p_t = lag_thread_held(2.5, 2.5, 0.21875)
    assert p_t == 2.28125
    W_prime = connection_adjustment.adjusted_withdrawal(W, 1.15, 1.0, 1.0, 1.0, 1.0)
    assert withdrawal.withdrawal_value(W_prime, p_t) == pytest.approx(304.94 * 1.15 * 2.28125, rel=1e-4)


# --- traps ------------------------------------------------------------------------------------------------------------


def test_trap_the_2_beside_C_M_is_a_footnote_mark() -> None:
    """NDS 2018 Table 11.3.1, read: C_M of withdrawal once, 0.7 and not 0.49."""
    assert connection_adjustment.adjusted_withdrawal(100.0, 1.0, 0.7, 1.0, 1.0, 1.0) == pytest.approx(70.0)


def test_trap_no_C_D_above_1_6() -> None:
    """No impact factor on a connection (memory)."""
    ones = {"C_M": 1.0, "C_t": 1.0}
    told = re.escape("C_D must be above 0 and at most 1.6, given 2: no more on a connection (NDS 2018 Table 2.3.2)")
    with pytest.raises(OutOfRange, match=told):
        connection_adjustment.adjusted_withdrawal(100.0, 2.0, **ones, C_eg=1.0, C_tn=1.0)
    with pytest.raises(OutOfRange, match=told):
        connection_adjustment.adjusted_pull_through(100.0, 2.0, **ones)
    with pytest.raises(OutOfRange, match=told):
        connection_adjustment.adjusted_lateral(100.0, 2.0, **ones, C_g=1.0, C_delta=1.0, C_eg=1.0, C_di=1.0, C_tn=1.0)


@pytest.mark.parametrize("fastener", ["nail", "wood screw"])
def test_trap_nails_and_screws_hold_nothing_in_end_grain(fastener: str) -> None:
    """A failure, not a factor (memory)."""
    told = re.escape(f"end grain, withdrawal of a {fastener}: not allowed; no value, whatever the load")
    with pytest.raises(OutOfRange, match=told):
        connection_factor(f"end grain, withdrawal of a {fastener}")
    assert connection_factor("end grain, withdrawal of a lag screw").value == 0.75


def test_sizes_and_woods_outside_the_tables_are_refused() -> None:
    for formula, D, told in (
        (withdrawal.withdrawal_lag, 0.2, "D must be 0.25 to 1.25 in, given 0.2 (NDS 2018 12.2.1)"),
        (withdrawal.withdrawal_wood_screw, 0.4, "D must be 0.138 to 0.372 in, given 0.4 (NDS 2018 12.2.2)"),
        (withdrawal.withdrawal_nail, 0.05, "D must be 0.092 to 0.375 in, given 0.05 (NDS 2018 12.2.3)"),
    ):
        with pytest.raises(OutOfRange, match=re.escape(told)):
            formula(0.5, D)
        with pytest.raises(OutOfRange, match=re.escape("G must be 0.31 to 0.73, given 0.8")):
            formula(0.8, 0.25)
