"""The pull that a load in front of the wall puts on the top row of a ledger's fasteners: the lever-arm rule."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...calc.core import Number
from ...calc.pad import Pad, SilentPad
from ...formulas.connections import bolt_pattern as pattern
from ...units import show
from ...values.connections import lever_arm
from ...values.found import Found
from ..core.govern import stated
from ..core.result import Check
from .group import Group

Array = np.ndarray
RULE, ACROSS = "lever-arm rule for brackets", "NDS 2018 3.8.2, 11.1.3"
BLOCK = "bracket, convex, ogee or straight soffit"  # a straight-sided block on a wall that may be soft
STANDS_OFF = ("ledger",)


@dataclass(frozen=True, eq=False)
class Pull:
    """Pull out of the wall on each fastener, lbf, (holes, combinations); `M` is the couple, lb-in, per combination.

    All of the couple is on the row farthest from the edge on which the ledger bears: the top row under a load that
    presses down, the lowest under one that lifts.
    """

    each: Array
    M: Array
    eta: Found[float]
    heights: tuple[float, float]  # of those rows above the edge that bears, inches: pressed down, lifted
    counts: tuple[int, int]
    down: Array  # (combinations,) whether the load presses down

    def written(self, pad: Pad, k: int, which: int | slice) -> Number:
        """The pull on fastener k; step by step for one combination."""
        if isinstance(which, slice):
            return np.asarray(self.each[k])[which]
        side = 0 if self.down[which] else 1
        M = pad.take("M", float(self.M[which]), "lbf*in", note="load times its distance from the wall (`arm`)")
        if self.each[k, which] == 0.0:
            return pad.take("T_i", 0.0, "lbf", note="no pull on this row")
        eta = pad.take("eta", self.eta.value, note=self.eta.reason, source=self.eta.source)
        T_1 = pad(pattern.lever_arm_tension, M=M, eta=eta, h_1=self.heights[side])
        return pad(pattern.share_of_row, T_1=T_1, n_row=float(self.counts[side]))


def pull_of(group: Group) -> Pull | None:
    """The pull on each fastener of a ledger; None where nothing stands off a wall, or the arm is not given."""
    arm = group.anchor.arm
    if group.anchor.manner not in STANDS_OFF or arm is None or group.x.size == 0:
        return None
    eta, pad, d = lever_arm(BLOCK), SilentPad(), float(group.section.d)
    across = np.asarray(group.forces.across, dtype=float)
    M, down = np.abs(across * arm), across >= 0.0
    rows = group.rows
    heights = (float(group.y[rows[-1][0]]), d - float(group.y[rows[0][0]]))
    each = np.zeros((group.x.size, across.size))
    for row, h_1, here in ((rows[-1], heights[0], down), (rows[0], heights[1], ~down)):
        T_1 = pad(pattern.lever_arm_tension, M=M, eta=eta.value, h_1=h_1)
        each[np.ix_(row, np.flatnonzero(here))] = pad(pattern.share_of_row, T_1=T_1, n_row=float(row.size))[here]
    return Pull(each, M, eta, heights, (rows[-1].size, rows[0].size), down)


def stands_off_checks(group: Group) -> list[Check]:
    """What the lever arm itself asks for: that it is given, and the wood of the ledger across its grain."""
    anchor = group.anchor
    if anchor.manner not in STANDS_OFF:
        return []
    what = "couple between load and wall"
    if anchor.arm is None:
        text = (
            "how far from the wall the load comes down is not given (`arm`): the pull it puts on the top row is missing"
        )
        return [stated(anchor.name, what, RULE, "refer", text)]
    pull = pull_of(group)
    most = 0.0 if pull is None else float(np.max(pull.M, initial=0.0))
    if most <= 0.0:
        return []
    text = (
        f"a load {show(abs(anchor.arm), 'length')} in front of the wall turns the ledger over with up to "
        f"{show(most, 'moment')}. That bends its wood across the grain, for which there is no design value: a seat or "
        "a rim under it, or an engineer"
    )
    return [stated(anchor.name, "wood of the ledger across its grain", ACROSS, "refer", text)]
