"""What the tests of every formula share: the formulas, units of their arguments, and valid random inputs for each."""

from __future__ import annotations

import importlib
import math
import pkgutil
import random

import beamcheck.formulas
from beamcheck.calc.core import REGISTRY, Formula
from beamcheck.calc.describe import unit_of
from beamcheck.errors import OutOfRange

from .bracket_samples import BY_FILE as OF_BRACKETS
from .connection_samples import BY_FILE
from .joint_samples import BY_FILE as OF_JOINTS
from .made_samples import BY_FILE as OF_MADE

for found in pkgutil.walk_packages(beamcheck.formulas.__path__, "beamcheck.formulas."):
    importlib.import_module(found.name)

NAMES = sorted(REGISTRY)


def file_of(name: str) -> str:
    """The file of a formula below `beamcheck.formulas`: 'wood.shear'."""
    return REGISTRY[name].__module__.removeprefix("beamcheck.formulas.")


# unit -> powers of length and force
POWERS = {
    "": (0, 0), "deg": (0, 0), "%": (0, 0), "in": (1, 0), "in2": (2, 0), "in3": (3, 0), "in4": (4, 0),
    "psi": (-2, 1), "lbf": (0, 1), "lbf/in": (-1, 1), "lbf*in": (1, 1), "lbf/in3": (-3, 1), "pcf": (-3, 1),
    "in/lbf": (1, -1), "deg F": (0, 0), "h": (0, 0), "in/h": (1, 0),
}  # fmt: skip

BY_UNIT = {
    "": (0.3, 0.95), "deg": (5.0, 60.0), "%": (5.0, 29.0), "in": (2.0, 12.0), "in2": (20.0, 200.0),
    "in3": (50.0, 500.0), "in4": (200.0, 2000.0), "psi": (300.0, 2000.0), "lbf": (100.0, 5000.0),
    "lbf/in": (5.0, 50.0), "lbf*in": (1e4, 1e5), "lbf/in3": (0.01, 0.03), "pcf": (20.0, 60.0),
    "in/lbf": (1e-6, 1e-4), "deg F": (30.0, 130.0), "h": (0.5, 2.0), "in/h": (1.0, 2.0),
}  # fmt: skip

BY_NAME = {
    "E": (5e5, 2e6), "E_min": (2e5, 8e5), "E_min_prime": (2e5, 8e5), "G_v": (5e4, 1e5),
    "L": (60.0, 200.0), "l": (80.0, 120.0), "l_e": (40.0, 140.0), "l_u": (20.0, 200.0), "l_p": (60.0, 120.0),
    "d": (4.0, 20.0), "d_n": (3.0, 12.0), "d_e": (3.0, 12.0), "d_cut": (0.2, 3.0), "d_h": (0.2, 2.0),
    "b_v": (0.5, 6.0), "d_v": (0.5, 8.0), "y_v": (0.5, 10.0), "x": (0.0, 20.0), "e": (0.0, 12.0),
    "e_1": (0.0, 2.0), "e_2": (0.0, 2.0), "d_1": (6.0, 12.0), "d_2": (6.0, 12.0), "D": (4.0, 16.0),
    "f_c": (5.0, 400.0), "f_b1": (5.0, 500.0), "f_b2": (5.0, 500.0),
    "F_cE1": (900.0, 5000.0), "F_cE2": (900.0, 5000.0), "F_bE": (2000.0, 9000.0), "F_cE": (100.0, 5000.0),
    "L_o": (12.1 / 144, 19.9 / 144), "p_g": (0.03, 0.5), "p_f": (0.03, 0.5), "A_t": (1e4, 2e5),
    "w_slope": (0.05, 0.2), "C_b": (1.0, 1.75), "C_T": (1.0, 1.2), "C_r": (1.0, 1.15), "C_D": (0.9, 2.0),
    "C_e": (0.7, 1.2), "C_t": (0.86, 1.0), "I_s": (0.8, 1.2), "K_cr": (1.0, 2.0),
    "s_D": (0.5, 1.0), "K_e": (0.65, 2.4), "G": (0.3, 0.8),
    "n": (120.0, 480.0), "F": (0.0, 14.0), "R_B": (1.0, 50.0),
    "theta": (0.0, 89.0), "theta_0": (5.0, 45.0), "k_d": (0.0, 3.0), "COV": (0.1, 0.25),
    "l_e_over_d": (2.0, 50.0),
    "s_b": (0.0, 3.0), "k_off": (0.0, 0.2), "k_v": (1.0, 2.0), "k_s": (1.0, 2.0), "k_l": (4.0, 10.0), "c_v": (1.0, 3.0),
    "E_steel": (28e6, 30e6), "C_w": (0.0008, 0.0045), "k_n": (1e3, 5e4), "k_pad": (500.0, 5e3),
    "Delta_0": (0.6, 2.0), "Delta_in": (0.0, 0.5), "Delta_LT": (0.5, 1.0),
    "Delta_ST": (0.0, 1.0), "K_zt": (1.0, 2.0), "V_mph": (80.0, 180.0), "W_2": (0.26, 0.64), "W_e": (60.0, 500.0),
    "l_fetch": (60.0, 900.0), "z": (60.0, 260.0), "z_g": (8000.0, 15000.0), "alpha_z": (7.0, 11.5), "p_S": (0.1, 0.6),
    "A_I": (2e4, 5e5), "p_s": (0.05, 0.4), "w_D": (0.01, 0.2), "p_w": (-0.4, 0.2), "w_sl": (2.0, 30.0),
    "h_rel": (0.05, 0.95), "W_h": (330.0, 420.0), "K_h": (0.78, 0.84), "K_h1": (4.0, 6.3), "K_h2": (1.9, 3.4),
    "S_pct": (2.0, 12.0), "S_i": (1.0, 5.0), "S_f": (1.0, 5.0), "FSP": (20.0, 30.0), "n_f": (1.9, 2.3),
    "E_test": (5e5, 2e6), "B_mean": (3000.0, 8000.0), "B_sd": (300.0, 1300.0),
    "Delta_t": (0.3, 0.8), "Delta_R": (0.0, 0.3), "d_k": (0.2, 2.0), "s_1": (0.03, 0.2), "s_2": (0.03, 0.2),
    "beta_t": (1.0, 2.0), "n_sides": (0.0, 2.0),
    "a_P": (0.0, 60.0), "a_Pt": (0.0, 40.0), "L_t": (40.0, 100.0), "m_size": (10.0, 25.0), "s_taper": (0.02, 0.3),
    "n_faces": (0.0, 2.0), "a_eff": (0.0, 2.0), "K_fire": (2.0, 2.9), "d_fire": (2.0, 12.0),
}  # fmt: skip

BY_FORMULA = {
    ("green_timber_density", "MC"): (31.0, 200.0),
    ("brace_force_butted", "x_p"): (0.0, 3.0),
    ("arc_off_wall", "r_o"): (8.0, 12.0),
    ("arc_off_wall", "s_f"): (0.5, 6.0),
    ("edge_knot_ratio", "h"): (8.0, 24.0),
    ("center_knot_ratio", "h"): (14.0, 30.0),
    ("center_knot_ratio", "d_k"): (4.0, 9.0),
    **{(name, "g"): (0.0, 0.5) for name in ("prop_force",)},
    ("rain_on_snow", "p_g"): (0.02, 0.16),
    ("rain_on_snow", "theta"): (0.1, 1.5),
    ("deck_live_load", "L_o"): (0.3, 0.9),
    ("drift_height", "l_fetch"): (60.0, 600.0),
    ("floor_frequency", "W"): (100.0, 600.0),
}


def units(name: str) -> dict[str, str]:
    """Unit of each argument, by the nomenclature."""
    return {each: unit_of(each) for each in REGISTRY[name].arguments}


def interval(name: str, argument: str) -> tuple[float, float]:
    """Where the argument of that formula is drawn from."""
    unit = unit_of(argument)
    of_file = (BY_FILE | OF_BRACKETS | OF_JOINTS | OF_MADE).get(file_of(name), {}).get(argument)
    return BY_FORMULA.get((name, argument)) or of_file or BY_NAME.get(argument) or BY_UNIT[unit]


def draw(name: str, count: int) -> list[dict[str, float]]:
    """So many inputs for which the formula has a value; the same ones every time."""
    formula, dice = REGISTRY[name], random.Random(name)
    drawn: list[dict[str, float]] = []
    for _ in range(400 * count):
        inputs = {each: dice.uniform(*interval(name, each)) for each in formula.arguments}
        if has_value(formula, inputs):
            drawn.append(inputs)
        if len(drawn) == count:
            return drawn
    raise AssertionError(f"{name}: no valid inputs found; give its arguments a range in tests/formulas/samples.py")


def has_value(formula: Formula, inputs: dict[str, float]) -> bool:
    try:
        return math.isfinite(float(formula(**inputs)))
    except OutOfRange:
        return False
