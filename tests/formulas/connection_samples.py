"""Where the random inputs of the fastener formulas are drawn from: sizes of bolts, screws, nails and thin plates.

By file, since D is the diameter of a post elsewhere and of a bolt here.
"""

from __future__ import annotations

_DOWEL = {
    "D": (0.1, 0.95), "D_nom": (0.2, 0.4), "G": (0.31, 0.73), "theta": (0.0, 89.0),
    "F_e": (1500.0, 9000.0), "F_e_par": (3500.0, 8000.0), "F_e_perp": (1200.0, 5000.0), "F_em": (1500.0, 9000.0),
    "F_es": (1500.0, 9000.0), "F_yb": (45000.0, 100000.0), "F_y": (30000.0, 60000.0), "F_u": (45000.0, 120000.0),
    "l_m": (0.5, 6.0), "l_s": (0.5, 6.0), "R_e": (0.2, 5.0), "R_t": (0.2, 5.0), "K_theta": (1.0, 1.25),
    "k_1": (0.2, 2.0), "k_2": (0.5, 3.0), "k_3": (0.5, 3.0), "R_d": (2.2, 5.0), "R_d_I": (2.2, 5.0),
    "R_d_II": (2.2, 4.5), "R_d_III": (2.2, 4.0), "q_m": (500.0, 5000.0), "q_s": (500.0, 5000.0),
    "M_m": (50.0, 4000.0), "M_s": (50.0, 4000.0), "g": (0.0, 1.5), "p": (1.0, 6.0), "E_tip": (0.1, 0.9),
    "L_f": (1.0, 12.0), "T_thread": (1.0, 6.0), "t_w": (0.0, 1.0), "t": (0.1, 0.9), "w_slot": (0.2, 1.2),
    "t_s": (0.3, 3.0),
}  # fmt: skip
_HOLDING = {
    "G": (0.31, 0.73), "D": (0.1, 0.4), "D_H": (0.2, 0.7), "t_s": (0.3, 2.0), "W_prime": (30.0, 900.0),
    "p_t": (0.5, 6.0), "W_p": (50.0, 3000.0), "Z_prime": (50.0, 3000.0), "V": (1.0, 3000.0),
    "T": (1.0, 3000.0), "Z": (50.0, 3000.0), "C_D": (0.9, 1.6), "C_di": (1.0, 1.1), "W_w": (30.0, 900.0),
}  # fmt: skip
_GROUP = {
    "D": (0.25, 1.0), "E_m": (0.8e6, 30e6), "E_s": (0.8e6, 30e6), "A_m": (3.0, 100.0), "A_s": (3.0, 100.0),
    "gamma": (2e4, 2.7e5), "s": (0.8, 8.0), "u": (1.001, 3.0), "m": (0.05, 0.98), "n": (1.0, 12.0),
    "R_EA": (0.05, 1.0), "l_end": (0.5, 8.0), "k_full": (4.0, 7.0), "k": (1.5, 7.0), "l_w": (0.5, 6.0),
    "s_row": (0.5, 5.0), "l_m": (0.5, 6.0), "l_s": (0.5, 6.0),
    "t": (0.5, 6.0), "s_crit": (0.5, 6.0), "n_row": (2.0, 5.0), "d_h": (0.2, 1.1), "D_w": (0.7, 3.0), "b": (1.0, 6.0),
    "A_b": (0.5, 9.0), "T": (100.0, 5000.0), "h_1": (3.0, 20.0),
    "P_x": (-3000.0, 3000.0), "P_y": (-3000.0, 3000.0), "P_xi": (-900.0, 900.0), "P_yi": (-900.0, 900.0),
    "M": (-30000.0, 30000.0), "x_i": (-9.0, 9.0), "y_i": (-9.0, 9.0), "eta": (0.4, 0.9),
}  # fmt: skip
_STEEL = {
    "D": (0.2, 0.95), "F_y": (30000.0, 60000.0), "F_u": (45000.0, 120000.0), "F_nt": (40000.0, 90000.0),
    "F_nv": (25000.0, 70000.0), "f_rv": (0.0, 30000.0), "A_b": (0.05, 0.8), "n": (1.0, 2.0), "V": (0.0, 5000.0),
    "d_h": (0.2, 1.1), "l_end": (0.5, 4.0), "s": (1.0, 4.0), "t": (0.1, 1.0), "l_c": (0.2, 3.0), "A_g": (0.2, 4.0),
    "A_e": (0.2, 4.0), "A_gv": (0.2, 4.0), "A_nv": (0.2, 4.0), "A_nt": (0.1, 2.0), "U_bs": (0.5, 1.0),
    "l_e": (0.5, 8.0), "F_EXX": (60000.0, 80000.0), "w_leg": (0.1, 0.5), "L_w": (1.0, 8.0), "theta_w": (0.0, 90.0),
    "b": (1.0, 6.0), "Z_x": (0.01, 0.7), "S_x": (0.005, 0.6), "L_b": (2.0, 20.0), "d": (1.0, 8.0),
    "E_steel": (28e6, 30e6), "T": (100.0, 5000.0),
}  # fmt: skip
_FILES = {
    "toe_nails dowel_bearing dowel_lengths": _DOWEL,
    "yield_modes.single_shear yield_modes.double_shear yield_modes.gap yield_modes.terms": _DOWEL,
    "adjustment withdrawal": _HOLDING,
    "bolt_pattern spacing group_action tear_out washer": _GROUP,
}
BY_FILE = {f"connections.{file}": ranges for files, ranges in _FILES.items() for file in files.split()}
BY_FILE |= dict.fromkeys(("steel.bending", "steel.bolts", "steel.holes", "steel.plates"), _STEEL)
FILES = tuple(BY_FILE)
