"""Compression in the brace of a braced bracket, by statics."""

from __future__ import annotations

import numpy as np

from ....calc.pad import Pad, SilentPad
from ....formulas.brackets import brace as br
from ....model.brackets.bracket import Braced
from ...core.wood.govern import at
from ..loads import BracketLoads

Array = np.ndarray


class Force:
    """Compression in the brace, lbf, on a pad or over all combinations."""

    def __init__(self, shape: Braced, loads: BracketLoads, beta: float) -> None:
        self.shape, self.loads, self.beta = shape, loads, beta
        self.F = np.maximum(loads.F, 0.0)
        self.x_L = np.clip(loads.x_L, 1e-6, None)
        self.N = np.asarray(self.on(SilentPad(), slice(None)), dtype=float)

    def on(self, pad: Pad, which: int | slice) -> float | Array:
        P = pad.take("P", at(self.F, which), "lbf", note="all the load")
        x_L = pad.take("x_L", at(self.x_L, which), "in", note="where it acts")
        beta = pad.take("beta_b", self.beta, "deg", note="slope of the brace")
        N = pad(br.brace_force, P=P, x_L=x_L, x_b=self.shape.brace_out, beta_b=beta)
        beyond = np.maximum(x_L, self.shape.wall_leg * (1.0 + 1e-9))
        if isinstance(which, slice):
            M = br.brace_force_butted(P, beyond, self.shape.brace_out, self.shape.wall_leg, beta)
            return np.asarray(np.maximum(N, np.where(x_L > self.shape.wall_leg, M, 0.0)), dtype=float)
        if float(x_L) <= self.shape.wall_leg:
            return float(N)
        M = pad(br.brace_force_butted, P=P, x_L=x_L, x_b=self.shape.brace_out, x_p=self.shape.wall_leg, beta_b=beta)
        return float(pad.take("N_b", max(float(N), float(M)), "lbf", note="the larger"))
