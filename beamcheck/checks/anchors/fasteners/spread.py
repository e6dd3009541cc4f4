"""How the force on a group is spread over its fasteners in the plane of the face: the elastic vector method.

A group that keeps the end from turning gets a moment from that: its stiffness against turning, by the load/slip modulus
of NDS 2018 11.3.6, times what is left of the rotation that the end would have on a hinge.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ....calc.core import Number
from ....calc.pad import Pad, SilentPad
from ....errors import OutOfRange
from ....formulas.connections import bolt_pattern as pattern
from ....formulas.connections import group_action as act
from ....formulas.connections.ranges import LARGE
from ....records import dataclass
from ....units import show
from ...core.trivial import negligible
from ...core.wood.govern import at
from ..group import Forces, Group
from ..joint import Joint
from ..unsaid import NotSaid, Open

Array = np.ndarray
NOTHING = 1e-6  # of the group's largest force on a fastener: less is rounding and has no direction
TURNING = 0.01  # of the largest force on a fastener: less from the end that cannot turn freely is not worth a word
STIFF = "end not free to turn"


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
    doubts: tuple[Open, ...]

    @property
    def loaded(self) -> Array:
        """(holes, combinations) where there is a force at all."""
        least = max(NOTHING * float(self.P.max()), negligible() / self.P.shape[0])
        return np.asarray(least < self.P)

    @property
    def toward(self) -> Array:
        """(holes, combinations) direction of the force, deg, -90 to 90: positive toward the upper edge."""
        return np.asarray((np.degrees(np.arctan2(self.P_y, self.P_x)) + 90.0) % 180.0 - 90.0)

    @property
    def worst(self) -> int:
        """The fastener with the largest force under any combination."""
        return int(np.argmax(self.P.max(axis=1)))

    def force(self, pad: Pad, group: Group, k: int, which: int | slice) -> Number:
        """Force on fastener k, step by step for one combination, lbf."""
        if isinstance(which, slice):
            return np.asarray(self.P[k])[which]
        n, forces = float(group.x.size), group.forces
        across = pad.take("P_y", -at(forces.across, which), "lbf", note="across the grain, up; from the held piece")
        along = pad.take("P_x", at(group.along_in_plane, which), "lbf", note="along the grain, out of the joint")
        if n == 1.0:
            return pad(pattern.fastener_force, P_xi=along, P_yi=across)
        note = "of the load about the middle of the group"
        if forces.turning is not None and at(forces.turning, which):
            note += f", with {show(float(at(forces.turning, which)), 'moment')} from the end that cannot turn freely"
        M = pad.take("M", at(self.M, which), "lbf*in", note=note)
        P_x = pad(pattern.fastener_force_x, P_x=along, n=n, M=M, y_i=float(self.y_i[k]), I_p=self.I_p)
        P_y = pad(pattern.fastener_force_y, P_y=across, n=n, M=M, x_i=float(self.x_i[k]), I_p=self.I_p)
        return pad(pattern.fastener_force, P_xi=P_x, P_yi=P_y)


def spread_of(group: Group) -> Spread:
    """Spread the forces: an even share, and the moment in proportion to the distance from the centroid.

    The line on which the other side takes the load lies an arm beyond the middle of the group, towards the end of the
    held piece. Where nothing says how far, it is taken from the middle of the group to the end of the held piece.

    Raises NotSaid if there is no fastener; OutOfRange if all of them stand in one place.
    """
    n = group.x.size
    if n == 0:
        raise NotSaid("the layout does not say where the fasteners are (`holes`)", "holes", "holes")
    x_i, y_i = pattern.about_centroid(group.x, group.y)
    along, across = group.along_in_plane, np.asarray(group.forces.across, float)
    silent, doubts = SilentPad(), []
    if group.made.in_line or n == 1:
        if group.anchor.arm and not group.made.in_line:
            text = "one fastener takes no moment: what takes that of the given `arm` is not shown"
            doubts.append(Open(text, "arm", "arm", ("0 in",)))
        M, I_p = np.zeros_like(across), 1.0
    else:
        arm = group.arm
        if arm is None:
            arm = float(np.mean(group.x))
            text = (
                "the arm is not given (`arm`: from the middle of the group to the line on which the other side takes "
                f"the load): {show(arm, 'length')} to the end of the piece is taken, for information"
            )
            doubts.append(Open(text, "arm", "arm", ("0 in", show(arm, "length"))))
        I_p = float(pattern.polar_sum(x_i, y_i))
        if I_p <= 0.0:
            raise OutOfRange("all fasteners stand in one place", pattern.VECTOR)
        # a pull along the grain acts in the middle of the piece's depth
        M = arm * across - along * (0.5 * float(group.section.d) - float(np.mean(group.y)))
        if group.forces.turning is not None:
            M = M + group.forces.turning
    P_x = silent(pattern.fastener_force_x, P_x=along, n=float(n), M=M, y_i=y_i[:, None], I_p=I_p)
    P_y = silent(pattern.fastener_force_y, P_y=-across, n=float(n), M=M, x_i=x_i[:, None], I_p=I_p)
    P_x, P_y = np.broadcast_arrays(P_x, P_y)
    P = silent(pattern.fastener_force, P_xi=P_x, P_yi=P_y)
    small = NOTHING * float(np.max(P))
    # a part that is only rounding must not ask for the distances of a load that way
    P_x, P_y = np.where(np.abs(P_x) <= small, 0.0, P_x), np.where(np.abs(P_y) <= small, 0.0, P_y)
    theta = np.nan_to_num(pattern.angle_to_grain(P_x, P_y, 0.0))
    return Spread(x_i, y_i, I_p, M, P_x, P_y, P, theta, tuple(doubts))


def holding_the_end(group: Group, joint: Joint) -> Group:
    """The group with every combination twice: the end free to turn, and kept from it by the fasteners themselves.

    A single fastener is a hinge, and so is what stands in one line across the force of nothing but shear. Of a beam
    whose rotation is not known, and where the moment is next to nothing, the group stays as it is.
    """
    if group.turn is None or group.made.in_line or group.x.size < 2:
        return group
    x_i, y_i = pattern.about_centroid(group.x, group.y)
    I_p = float(pattern.polar_sum(x_i, y_i))
    if I_p <= 0.0:
        return group
    only_wood = all(part.material == "wood" for part in joint.parts)
    # below 1/4 in the standard gives no load/slip modulus: the same equation is carried on (judgment)
    D, slip = joint.dowel.D, act.load_slip_wood if only_wood else act.load_slip_metal
    gamma = float(slip(max(D, LARGE))) * min(D / LARGE, 1.0) ** 1.5
    M = group.turn.rotation / (1.0 / (gamma * I_p) + group.turn.softness)
    forces, farthest = group.forces, float(np.max(np.hypot(x_i, y_i)))
    even = np.max(np.hypot(forces.across, forces.along)) / group.x.size
    if float(np.max(np.abs(M))) * farthest / I_p <= TURNING * even:
        return group
    stiff = tuple(replace(one, name=f"{one.name}, {STIFF}") for one in forces.combinations)
    before = np.zeros_like(M) if forces.turning is None else forces.turning
    both = Forces(
        (*forces.combinations, *stiff), np.tile(forces.across, 2), np.tile(forces.along, 2),
        np.concatenate([before, before - M]),
    )  # fmt: skip
    return replace(group, forces=both)
