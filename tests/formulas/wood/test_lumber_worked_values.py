"""Printed worked values, row by row: tests/published/lumber_worked_values.csv. Each row names source, clause, `how`.

Each chain below takes its numbers from the row's `inputs` where the row writes them as name=value, and types the few
that the row gives in words. Tolerances are those of the row, which follow the digits of the print; the column
`recomputed` (unrounded arithmetic by whoever collected the rows, how: derived) is held as well.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from beamcheck.formulas.wood import adjustment as adj
from beamcheck.formulas.wood import bearing, bending, combined, compression, deflection, section, shear

TABLE = Path(__file__).parents[2] / "published" / "lumber_worked_values.csv"
with TABLE.open(newline="", encoding="utf-8") as file:
    ROWS = {row["id"]: row for row in csv.DictReader(file)}

Given = dict[str, float]


def given_in(row: dict[str, str]) -> Given:
    return {name: float(number) for name, number in re.findall(r"([A-Za-z_*/]+)=(\d[\d.]*(?:e\d+)?)", row["inputs"])}


def hem_fir_bending(g: Given) -> float:
    F_b_star = adj.adjusted_bending_star(g["Fb"], g["CD"], 1.0, 1.0, C_F=1.1, C_i=1.0, C_r=g["Cr"])
    return float(adj.adjusted_bending(F_b_star, C_L=1.0, C_fu=1.0))


def column_of_31(g: Given, feet: float) -> float:
    """C_P of the 3.5 x 7.25 column. The book has 0.3 E in the place of 0.822 E_min: E_min = 0.3 E/0.822 is entered."""
    slenderness = compression.slenderness_column(12 * feet, 3.5)
    F_cE = compression.critical_buckling_column(0.3 * 1.3e6 / 0.822, l_e=12 * feet, d=3.5)
    assert slenderness == pytest.approx(12 * feet / 3.5)
    return float(compression.column_stability(F_cE, F_c_star=1000.0, c=0.8))


def moment_lrfd(g: Given) -> float:
    """The package is ASD only. LRFD is the same product with K_F, phi and lambda in the place of C_D, put in here."""
    nominal = adj.adjusted_bending_star(g["Fb"], 1.0, 1.0, 1.0, C_F=g["CF"], C_i=1.0, C_r=1.0)
    return float(nominal * (2.16 / 0.85) * g["phi"] * g["lambda"] * g["S"] / 1000)


def beam_column(g: Given) -> float:
    A = section.rectangle_area(5.5, 5.5)
    F_cE = compression.critical_buckling_column(g["Emin"], l_e=g["le"], d=5.5)
    C_P = compression.column_stability(F_cE, g["Fc*"], c=0.8)
    f_c = compression.compression_stress(g["P"], A)
    R_B = bending.slenderness_ratio(g["le"], 5.5, 5.5)
    return float(
        combined.eccentric_column(
            f_c, adj.adjusted_compression(g["Fc*"], C_P), f_b1=400.0, F_b1_prime=1200.0, f_b2=0.0, F_b2_prime=1200.0,
            F_cE1=F_cE, F_cE2=F_cE, F_bE=bending.critical_buckling_bending(g["Emin"], R_B),
            e_1=0.0, d_1=5.5, e_2=0.0, d_2=5.5,
        )
    )  # fmt: skip


def beam_stability_23(g: Given) -> float:
    F_bE = bending.critical_buckling_bending(620000.0, bending.slenderness_ratio(g["le"], 7.25, 3.5))
    return float(bending.beam_stability(F_bE, g["Fb*"]))


CHAINS: dict[str, Callable[[Given], float]] = {
    "W01": hem_fir_bending,
    "W02": lambda g: adj.adjusted_tension(g["Ft"], g["CD"], 1.0, 1.0, C_F=1.1, C_i=1.0),
    "W03": lambda g: adj.adjusted_shear(g["Fv"], g["CD"], 1.0, 1.0, 1.0),
    "W04": lambda g: adj.adjusted_compression(
        adj.adjusted_compression_star(g["Fc"], g["CD"], 1.0, 1.0, C_F=1.0, C_i=1.0), C_P=1.0
    ),
    "W05": lambda g: adj.adjusted_bending(
        adj.adjusted_bending_star(g["Fb"], g["CD"], 1.0, 1.0, C_F=g["CF"], C_i=1.0, C_r=1.0), C_L=1.0, C_fu=1.0
    ),
    "W06": lambda g: adj.adjusted_shear(g["Fv"], g["CD"], 1.0, 1.0, 1.0),
    "W07": lambda g: bending.bending_stress((g["P"] + 1600.0) * g["L"] / 4, g["S"]),
    "W08": lambda g: shear.shear_stress((g["P"] + 1600.0) / 2, b=g["A"], d=1.0),
    "W09": lambda g: 1600.0 * g["L"] ** 3 / (48 * adj.adjusted_modulus(g["E"], 1.0, 1.0, 1.0, 1.0) * g["I"]),
    "W10": lambda g: deflection.deflection_limit(g["L"], 360),
    "W11": moment_lrfd,
    "W12": lambda g: column_of_31(g, 8.0),
    "W13": lambda g: column_of_31(g, 6.0),
    "W14": lambda g: adj.adjusted_compression(1000.0, column_of_31(g, 10.0)) * section.rectangle_area(3.5, 7.25) / 1000,
    "W15": lambda g: compression.column_stability(
        compression.critical_buckling_column(0.3 * g["E"] / 0.822, l_e=g["L/d"], d=1.0), g["Fc*"], g["c"]
    ),
    "W16": lambda g: compression.column_stability(g["FcE"], g["Fc*"], g["c"]),
    "W17": lambda g: bending.beam_stability(2.83, 1.0),
    # nominal LRFD value: K_F alone, no factor of ASD
    "W18": lambda g: adj.adjusted_bending_star(g["Fb"], 1.0, 1.0, 1.0, 1.0, 1.0, 1.0) * (2.16 / 0.85),
    "W19": lambda g: deflection.simple_uniform_deflection(g["W"] / g["L"], g["L"], g["E"], g["I"]),
    "W20": lambda g: adj.adjusted_bending_star(g["Fb"], 1.0, 1.0, 1.0, C_F=g["CF"], C_i=1.0, C_r=1.0),
    "W21": lambda g: section.rectangle_inertia(1.5, 3.5),
    "W22": lambda g: section.rectangle_modulus(b=9.25, d=3.5),
    "W23": beam_stability_23,
    "W24": lambda g: shear.end_notch_tension_shear(g["Fv_adj"], 1.5, 9.25, g["dn"]),
    "W25": lambda g: bearing.bearing_area_factor(3.5),
    "W26": beam_column,
}


@pytest.mark.parametrize("key", ROWS)
def test_the_formulas_give_the_printed_value(key: str) -> None:
    row = ROWS[key]
    value = CHAINS[key](given_in(row))
    assert value == pytest.approx(float(row["expected"]), rel=float(row["tolerance_rel"]))
    assert value == pytest.approx(float(row["recomputed"]), rel=1e-5)


def test_no_chain_is_without_its_row() -> None:
    assert set(CHAINS) == set(ROWS)
