"""Where the random inputs of the formulas of heavy joints are drawn from. By file, as in `connection_samples`."""

from __future__ import annotations

_PEGS = {
    "G_p": (0.58, 0.8), "G_t": (0.36, 0.56), "D": (0.78, 1.2), "l_m": (1.5, 3.0), "l_s": (1.5, 3.0),
    "F_em": (1500.0, 4000.0), "F_es": (1500.0, 4000.0), "F_yb": (10000.0, 20000.0), "F_vy": (1500.0, 2500.0),
    "K_theta": (1.0, 1.25), "R_e": (0.6, 1.6), "k_3": (0.8, 3.0),
}  # fmt: skip
_CUTS = {
    "l_h": (0.5, 1.5), "b": (3.0, 12.0), "dMC": (2.0, 15.0), "beta_r": (15.0, 75.0), "t_n": (0.5, 3.0),
    "l_v": (8.0, 30.0), "l_v_ef": (8.0, 24.0), "t_heel": (1.0, 4.0), "x_R": (-6.0, 6.0), "d_c": (1.0, 4.0),
    "Delta_w": (0.05, 0.5),
}  # fmt: skip
_OTHERS = {
    "h": (40.0, 80.0), "e": (1.0, 9.0), "e_1": (1.0, 9.0), "e_2": (1.0, 9.0), "w_slot": (0.2, 0.6), "a": (1.0, 9.0),
    "d": (8.0, 14.0), "h_e": (2.0, 7.0), "n": (1.0, 9.0), "alpha": (30.0, 90.0), "k_c": (1.0, 1.25),
    "w": (5.0, 40.0), "g": (0.0, 0.25), "beta_r": (20.0, 70.0), "k_b": (0.01, 0.05), "dN": (-4000.0, 4000.0),
    "gamma": (2e4, 2.7e5), "k_1s": (2e4, 2e5), "k_2s": (2e4, 2e5), "D": (0.4, 0.9), "d_h": (0.5, 1.0),
    "p_b": (2.0, 5.0), "t": (0.2, 0.9), "t_c": (0.3, 0.8), "delta_p": (0.6, 0.9), "alpha_p": (0.05, 1.5),
    "F_u": (45000.0, 70000.0), "b_p": (0.6, 2.5), "a_p": (0.6, 2.5), "B": (1000.0, 9000.0),
    "s": (2.0, 6.0), "b": (1.0, 2.5), "T": (200.0, 9000.0),
}  # fmt: skip
BY_FILE = dict.fromkeys(("joints.pegs", "joints.peg_modes"), _PEGS)
BY_FILE |= dict.fromkeys(("joints.tenons", "joints.steps", "joints.king_posts"), _CUTS)
BY_FILE |= dict.fromkeys(
    (f"joints.{file}" for file in ["posts", "bases", "girders", "inclined_screws", "ledgers", "prying", "slip"]),
    _OTHERS,
)
FILES = tuple(BY_FILE)
