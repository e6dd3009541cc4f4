"""What a load beside the joint does: it turns the held piece out of its plane and pulls on the row far from the edge
on which it bears (the lever-arm rule), and it bends a ledger across its grain.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...calc.core import Number
from ...calc.pad import Pad, SilentPad
from ...formulas.connections import bolt_pattern as pattern
from ...formulas.wood.bending import bending_stress
from ...formulas.wood.section import rectangle_modulus
from ...records import dataclass
from ...units import show
from ...values.found import Found
from ...values.hardware.connections import lever_arm
from ...values.judgment import judgment
from ..core.result import Check
from .group import Group
from .unsaid import Open

Array = np.ndarray
RULE, ACROSS = "lever-arm rule for brackets", "NDS 2018 3.8.2, 11.1.3"
BLOCK = "bracket, convex, ogee or straight soffit"  # a straight-sided block on a wall that may be soft


@dataclass(frozen=True, eq=False)
class Couple:
    """Pull out of the face on each fastener, lbf, (holes, combinations); `M` is the couple, lb-in, per combination.

    All of it is on the row farthest from the edge on which the piece bears: the top row under a load that presses down,
    the lowest under one that lifts. `off` is how far the load is from what takes it, in.
    """

    each: Array
    M: Array
    off: float
    eta: Found[float]
    heights: tuple[float, float]  # of those rows above the edge that bears, inches: pressed down, lifted
    counts: tuple[int, int]
    down: Array  # (combinations,) whether the load presses down

    @property
    def worst(self) -> int:
        """The fastener with the largest pull under any combination."""
        return int(np.argmax(self.each.max(axis=1)))

    def pull(self, pad: Pad, k: int, which: int | slice) -> Number:
        """The pull on fastener k; step by step for one combination, lbf."""
        if isinstance(which, slice):
            return np.asarray(self.each[k])[which]
        side = 0 if self.down[which] else 1
        M = pad.take("M", float(self.M[which]), "lbf*in", note="load times its distance from what takes it")
        if self.each[k, which] == 0.0:
            return pad.take("T_i", 0.0, "lbf", note="no pull on this row")
        eta = pad.take("eta", self.eta.value, note=self.eta.reason, source=self.eta.source)
        T_1 = pad(pattern.lever_arm_tension, M=M, eta=eta, h_1=self.heights[side])
        return pad(pattern.share_of_row, T_1=T_1, n_row=float(self.counts[side]))


def couple_of(group: Group, off: float, edges: tuple[float, float] | None = None) -> Couple:
    """The pull on each fastener.

    `off`: how far the load is from the face or the middle of what takes it, square to the face [in]. `edges`: lower and
    upper edge of what bears on the piece, above its bottom edge; None for the piece's own edges [in].
    """
    eta, pad = lever_arm(BLOCK), SilentPad()
    low, high = edges if edges is not None else (0.0, float(group.section.d))
    across = np.asarray(group.forces.across, dtype=float)
    M, down = np.abs(across * off), across >= 0.0
    rows = group.rows
    heights = (float(group.y[rows[-1][0]]) - low, high - float(group.y[rows[0][0]]))
    each = np.zeros((group.x.size, across.size))
    for row, h_1, here in ((rows[-1], heights[0], down), (rows[0], heights[1], ~down)):
        T_1 = pad(pattern.lever_arm_tension, M=M, eta=eta.value, h_1=h_1)
        each[np.ix_(row, np.flatnonzero(here))] = pad(pattern.share_of_row, T_1=T_1, n_row=float(row.size))[here]
    return Couple(each, M, abs(off), eta, heights, (rows[-1].size, rows[0].size), down)


def across_the_grain(group: Group, couple: Couple) -> Iterator[Check]:
    """The wood of a ledger, which the couple bends across its grain: there is no design value for that.

    Next to nothing is what would stress a stretch as long as the ledger is deep no more than glued timber is allowed
    across its grain.
    """
    id, what = "anchor.ledger_wood", "wood of the ledger across its grain"
    most = float(np.max(couple.M))
    if most <= 0.0:
        return
    b, d, little = float(group.section.b), float(group.section.d), judgment("tension across the grain")
    stress = float(bending_stress(M=most, S=rectangle_modulus(b=d, d=b)))
    turned = (
        f"a load {show(couple.off, 'length')} in front of the wall turns the ledger over with up to "
        f"{show(most, 'moment')}"
    )
    if stress <= little.value:
        text = (
            f"{turned}: {show(stress, 'stress')} across its grain on a stretch as long as it is deep, next to nothing "
            f"(up to {show(little.value, 'stress')}: judgment)"
        )
        yield Check.keeps_rule(id, group.name, what, ACROSS, text)
        return
    text = (
        f"{turned}. That bends its wood across the grain with {show(stress, 'stress')}, for which there is no design "
        "value: a seat or a rim under it, or an engineer"
    )
    yield group.refers(id, what, ACROSS, Open(text, "ledger_wood"))
