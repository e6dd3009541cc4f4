"""How the force on a group is spread over its fasteners in the plane of the face: the elastic vector method."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...calc.core import Number
from ...calc.pad import Pad, SilentPad
from ...errors import OutOfRange
from ...formulas.connections import bolt_pattern as pattern
from ...units import show
from ..core.govern import at
from .fastener import NotSaid
from .group import Group

Array = np.ndarray
NOTHING = 1e-6  # of the group's largest force on a fastener: less is rounding and has no direction
NEGLIGIBLE = 0.5  # lbf on the group: less is rounding of the analysis, as everywhere in the checks


@dataclass(frozen=True, eq=False)
class Spread:
    """Forces of the held piece on each fastener, lbf, each (holes, combinations); x inwards from the end, y up.

    The fastener pushes the wood of the held piece the other way. `M` is the moment about the centroid, lb-in, turning
    x towards y, per combination; `theta` the angle to the grain of the held piece, deg (0 where there is no force);
    `doubts` keep the group from passing.
    """

    x_i: Array
    y_i: Array
    I_p: float
    M: Array
    P_x: Array
    P_y: Array
    P: Array
    theta: Array
    doubts: tuple[str, ...]

    @property
    def loaded(self) -> Array:
        """(holes, combinations) where there is a force at all."""
        least = max(NOTHING * float(self.P.max(initial=0.0)), NEGLIGIBLE / self.P.shape[0])
        return np.asarray(least < self.P)

    def written(self, pad: Pad, group: Group, k: int, which: int) -> Number:
        """The force on fastener k under one combination, step by step, lbf."""
        n, forces = float(group.x.size), group.forces
        across = pad.take("P_y", -at(forces.across, which), "lbf", note="across the grain, up; from the held piece")
        along = pad.take("P_x", at(forces.along, which), "lbf", note="along the grain, out of the joint")
        if n == 1.0:
            return pad(pattern.fastener_force, P_xi=along, P_yi=across)
        M = pad.take("M", at(self.M, which), "lbf*in", note="of the load about the middle of the group")
        P_x = pad(pattern.fastener_force_x, P_x=along, n=n, M=M, y_i=float(self.y_i[k]), I_p=self.I_p)
        P_y = pad(pattern.fastener_force_y, P_y=across, n=n, M=M, x_i=float(self.x_i[k]), I_p=self.I_p)
        return pad(pattern.fastener_force, P_xi=P_x, P_yi=P_y)


def spread_of(group: Group) -> Spread:
    """Spread the forces: an even share, and the moment in proportion to the distance from the centroid.

    The line on which the other side takes the load lies `arm` beyond the middle of the group, towards the end of the
    held piece. Where the arm is not given it is taken from the middle of the group to the end of the held piece.

    Raises
    ------
    NotSaid
        If there is no fastener.
    OutOfRange
        If all of them stand in one place.
    """
    n = group.x.size
    if n == 0:
        raise NotSaid("the layout does not say where the fasteners are (`holes`)")
    x_i, y_i = pattern.about_centroid(group.x, group.y)
    along, across = np.asarray(group.forces.along, float), np.asarray(group.forces.across, float)
    silent, doubts = SilentPad(), []
    if group.anchor.manner == "toe-nails" or n == 1:
        if group.anchor.arm and group.anchor.manner != "ledger":
            doubts.append("one fastener, or toe-nails, take no moment: what takes that of the given `arm` is not shown")
        M, I_p = np.zeros_like(across), 1.0
    else:
        arm = group.anchor.arm
        if group.anchor.manner == "ledger":
            arm = 0.0  # its `arm` is square to the wall: see anchor_pull.py
        if arm is None:
            arm = float(np.mean(group.x))
            doubts.append(
                "the arm is not given (`arm`: from the middle of the group to the line on which the other side takes "
                f"the load): {show(arm, 'length')} to the end of the piece is taken, for information"
            )
        I_p = float(pattern.polar_sum(x_i, y_i))
        if I_p <= 0.0:
            raise OutOfRange("all fasteners stand in one place", pattern.VECTOR)
        # a pull along the grain acts in the middle of the piece's depth
        M = arm * across - along * (0.5 * float(group.section.d) - float(np.mean(group.y)))
    P_x = silent(pattern.fastener_force_x, P_x=along, n=float(n), M=M, y_i=y_i[:, None], I_p=I_p)
    P_y = silent(pattern.fastener_force_y, P_y=-across, n=float(n), M=M, x_i=x_i[:, None], I_p=I_p)
    P_x, P_y = np.broadcast_arrays(P_x, P_y)
    P = silent(pattern.fastener_force, P_xi=P_x, P_yi=P_y)
    small = NOTHING * max(float(np.max(P, initial=0.0)), 1e-9)
    # a part that is only rounding must not ask for the distances of a load that way
    P_x, P_y = np.where(np.abs(P_x) <= small, 0.0, P_x), np.where(np.abs(P_y) <= small, 0.0, P_y)
    theta = np.nan_to_num(pattern.angle_to_grain(P_x, P_y, 0.0))
    return Spread(x_i, y_i, I_p, M, P_x, P_y, P, theta, tuple(doubts))
