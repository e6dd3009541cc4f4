"""How the load goes through a braced bracket: a strut and two ties, by statics, under what presses the brace most."""

from __future__ import annotations

import math

import numpy as np

from ....formulas.brackets import brace as br
from ....model.brackets.bracket import Braced
from ...core.pictures.others import StrutPicture
from ..loads import BracketLoads
from .braced_force import Force

CLOSE = 0.005  # relative: a line farther from what was checked is not shown
LEAST = 1.0  # lbf: less is nothing


def strut_picture(name: str, shape: Braced, loads: BracketLoads, force: Force) -> StrutPicture | None:
    """Forces in brace and legs; nothing where nothing presses."""
    if not force.N.size or not np.all(np.isfinite(force.N)) or float(np.max(force.N)) < LEAST:
        return None
    most = int(np.argmax(force.N))
    P, x_L, N = float(force.F[most]), float(force.x_L[most]), float(force.N[most])
    about_wall = float(br.brace_force(P=P, x_L=x_L, x_b=shape.brace_out, beta_b=force.beta))
    beta = math.radians(force.beta)
    return StrutPicture(
        name, loads.combinations[most].name, P, x_L, shape.brace_out, shape.brace_down, force.beta, N,
        N * math.cos(beta), N * math.sin(beta), shape.wall_leg, shape.top_leg,
        math.isclose(about_wall, N, rel_tol=CLOSE),
    )  # fmt: skip
