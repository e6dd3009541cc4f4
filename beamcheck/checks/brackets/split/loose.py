"""A part of a bracket beyond a check that nothing holds and that carries nothing: it may come down by itself."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ....analysis.splits.cut import cut
from ....analysis.splits.holds import Held
from ....model.brackets.bracket import Bracket
from ....units import show
from ....values.judgment import judgment
from ...core.result import Check
from ...core.wood.material import WoodMaterial
from ..asking import ask_engineer, sentence

LINES = 80


def loose_tip(bracket: Bracket, held: Held, wood: WoodMaterial, grain: float) -> Iterator[Check]:
    """The heaviest part outside the last grain line at which a fastener or the load still holds something."""
    theta = math.radians(grain)
    across = np.array([math.sin(theta), math.cos(theta)])
    # a head holds what is inside of it, a load presses what is under it, a rod what it goes through
    holds = [across @ (row.head, row.y + k * row.washer) for row in held.rows for k in (-0.5, 0.5)]
    holds += [across @ (0.0, row.y) for row in held.rows]
    holds += [across @ (seat.x1, 0.0) for seat in held.seats]
    holds += [across @ end for rod in held.rods for end in (rod.start, rod.end)]
    if held.ledge is not None:
        holds.append(across @ (0.0, held.H))
    last = float(max(holds))
    strips = cut(held.outline, grain, LINES, [last])
    outside = strips.centroid @ across > last
    weight = float(strips.area[outside].sum()) * held.t * float(wood.density)
    limit = judgment("tip that may come down")
    id, what, clause = "bracket.loose_tip", "part that a check may loosen", "judgment"
    if weight <= 0.05:
        return
    text = (
        f"beyond the last fastener nothing holds the tip with a check along its grain: {show(weight, 'force')} would "
        "fall"
    )
    if weight <= limit.value:
        yield Check.keeps_rule(id, bracket.name, what, clause, text)
        return
    asked = ask_engineer(bracket, "loose_tip", why=sentence(text), forces={"down": weight})
    yield Check.refers(id, bracket.name, what, clause, text, ask=asked)
