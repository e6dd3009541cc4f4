"""The statics of a post: what arrives, added up, and the stress that it makes."""

from __future__ import annotations

import numpy as np

from ...calc.pad import SilentPad
from ...formulas.wood.compression import compression_stress
from ..core.statics import BY_HAND, Statics, force_line, four, stress_line, terms
from .post_run import PostRun

ADDED_UP = "What arrives, added up in pounds under the combination with the largest sum."


def post_statics(run: PostRun) -> Statics | None:
    """The largest load of a post as a sum, and over its area; nothing where it is never pressed."""
    index = int(np.argmax(run.P))
    P = float(run.P[index])
    if P <= 0.0:
        return None
    combination = run.combinations[index]
    parts = [
        (factor, load)
        for factor, case in zip(combination.factors, run.cases, strict=True)
        if factor
        for load in case.loads
    ]
    numbers = terms([(factor, load.P) for factor, load in parts])
    names = ", ".join(dict.fromkeys(load.what for _, load in parts))
    lines = [force_line("P", "", numbers, P, f"{combination.name}: {names}")]
    if not run.apart and not run.section.round:
        area = float(run.section.area(SilentPad()))
        sides = f"{four(P)} / ({four(float(run.section.b))} × {four(float(run.section.d))})"
        lines.append(stress_line("f_c", "P / A", sides, float(compression_stress(P, area))))
    return Statics(BY_HAND, ADDED_UP, tuple(lines))
