"""Where the random inputs of the formulas of glued, composite and steel beams are drawn from, by file."""

from __future__ import annotations

BY_FILE = {
    "engineered.glued": {
        "L": (120.0, 480.0), "d": (6.0, 60.0), "b": (3.0, 9.0), "x_V": (10.0, 20.0), "d_0": (9.0, 14.0),
        "m_V": (0.05, 0.2), "C_V": (0.7, 1.2), "C_L": (0.5, 1.0),
    },
}  # fmt: skip
