"""Where the random inputs of the formulas of solid and bent brackets are drawn from, by file."""

from __future__ import annotations

_WOOD = {
    "E_L": (0.8e6, 2.0e6), "E_T": (4e4, 1.5e5), "G_LT": (6e4, 1.5e5), "nu_LT": (0.2, 0.5), "psi": (-90.0, 180.0),
    "phi": (0.0, 90.0), "alpha_s": (0.0, 90.0), "F_perp": (10.0, 60.0), "tau": (-90.0, 90.0),
    "s_par": (-900.0, 900.0), "s_perp": (-40.0, 40.0), "sigma_t": (0.0, 900.0), "F_v": (100.0, 200.0),
    "E_off": (5e4, 2e6),
}  # fmt: skip
_SECTION = {
    "alpha_s": (0.0, 90.0), "y_s": (1.0, 6.0), "x_L": (8.0, 16.0),
    "l_out": (6.0, 16.0), "P_o": (-900.0, 900.0), "M": (-9000.0, 9000.0), "N": (-900.0, 900.0), "t": (0.75, 3.5),
    "k_fe": (1.0, 1.7), "E_0": (2e5, 1.6e6), "E_1": (-2e4, 2e4), "E_2": (2e4, 1.3e5), "eps_0": (-1e-4, 1e-4),
    "eps_b": (-1e-3, 1e-3), "sigma_v": (0.0, 900.0), "sigma_lin": (0.0, 900.0), "sigma_fan": (0.0, 900.0),
    "sigma_lin_s": (0.0, 900.0), "sigma_fan_s": (0.0, 900.0), "E_off": (5e4, 2e6),
}  # fmt: skip
_BENT = {
    "r_i": (5.0, 5.1), "d": (2.0, 2.2), "r_n": (5.2, 5.9), "e_c": (0.05, 0.5), "r_m": (5.5, 20.0),
    "M": (-9000.0, 9000.0), "N": (-900.0, 900.0), "A": (2.0, 9.0), "t": (0.75, 3.5), "phi_b": (10.0, 180.0),
    "E_L": (0.8e6, 2.0e6), "G_LT": (6e4, 1.5e5),
}  # fmt: skip
_FILES = {
    "wood.off_axis": _WOOD,
    "brackets.fan_sections brackets.section_forces brackets.section_stress": _SECTION,
    "brackets.curved_bar": _BENT,
}
BY_FILE = {file: ranges for files, ranges in _FILES.items() for file in files.split()}
FILES = tuple(BY_FILE)
