"""A group with its joint and the spread of its force, resolved once: what all its checks are made from."""

from __future__ import annotations

from functools import cached_property

import numpy as np

from ....calc.core import Number, smallest
from ....calc.pad import Pad, SilentPad
from ....formulas.connections import adjustment as adj
from ....formulas.connections.ranges import LONGEST_LASTING
from ....records import dataclass
from ....values.hardware.connections import connection_factor
from ...core.wood.govern import at, duration
from ..group import Group
from ..joint import Joint, pin_share
from .distances import Need, geometry_factor, large_part, needs
from .factors import Way, group_action, group_action_factors, temperature, wet_service
from .spread import Spread

Array = np.ndarray


@dataclass(frozen=True, eq=False)
class Connection:
    """Lateral values of every fastener in every combination."""

    group: Group
    joint: Joint
    spread: Spread

    @cached_property
    def needs(self) -> list[Need]:
        return needs(self.group, self.joint, self.spread)

    @cached_property
    def ways(self) -> dict[Way, Array]:
        """Where the force has a part along and across the grain of the held piece."""
        along, across = large_part(self.spread.theta, self.spread.loaded)
        return {"along": along, "across": across}

    @property
    def directions(self) -> Array:
        """(holes, combinations) of the forces to the grain of the held piece, deg; signed where a member is turned."""
        return self.spread.toward if self.joint.turned else self.spread.theta

    @cached_property
    def C_g(self) -> tuple[Array, dict[Way, Array]]:
        """Per fastener and combination; and per way and fastener."""
        return group_action_factors(self.group, self.joint, self.ways)

    @cached_property
    def Z_prime(self) -> Array:
        """(holes, combinations), lbf; NaN where there is no value.

        Raises OutOfRange if an input that all fasteners share is outside the rules.
        """
        pad = SilentPad()
        Z = self._reference(pad, self.directions)
        C_delta = geometry_factor(pad, self.needs, self.joint.dowel.D, slice(None))
        return np.broadcast_to(self._adjusted(pad, Z, slice(None), C_delta, self.C_g[0]), self.spread.P.shape)

    @cached_property
    def ratio(self) -> Array:
        """Force over value, (holes, combinations); 0 where there is no force, NaN where there is no value."""
        return np.where(self.spread.loaded, self.spread.P / self.Z_prime, 0.0)

    @cached_property
    def worst(self) -> int:
        """The fastener that uses most of its value; one without a value outweighs all."""
        return int(np.argmax(np.where(np.isnan(self.ratio), np.inf, self.ratio).max(axis=1)))

    def lateral(self, pad: Pad, k: int, which: int | slice) -> Number:
        """Z' of fastener k, written down for one combination or as an array over all, lbf."""
        if isinstance(which, slice):
            return at(self.Z_prime[k], which)
        theta = pad.take("theta", float(self.spread.theta[k, which]), "deg",
                         note="angle of its force to the grain of the held piece")  # fmt: skip
        Z = self._reference(pad, float(self.directions[k, which]) if self.joint.turned else theta)
        C_delta = geometry_factor(pad, self.needs, self.joint.dowel.D, which)
        ways = [way for way, there in self.ways.items() if there[k, which]]
        C_g = 1.0
        if ways:
            own = self.C_g[1]
            C_g = group_action(pad, self.group, self.joint, k, min(ways, key=lambda way: own[way][k]))
        if C_g == 1.0:
            note = "one fastener in line with the load" if self.joint.dowel.large else "thinner than 1/4 in"
            C_g = float(pad.take("C_g", 1.0, clause="NDS 2018 11.3.6", note=note))
        return float(self._adjusted(pad, Z, which, C_delta, C_g))

    def _reference(self, pad: Pad, theta: Number) -> Number:
        Z = self.joint.reference(pad, theta).Z
        return pin_share(pad, Z) if self.joint.dowel.kind == "pin" else Z

    def _adjusted(self, pad: Pad, Z: Number, which: int | slice, C_delta: Number, C_g: Number) -> Number:
        C_M, C_t = wet_service(self.group, self.joint, "lateral"), temperature(self.joint)
        toe = self.group.made.aslant
        one: dict[str, Number] = {"C_eg": 1.0, "C_tn": 1.0}
        for name, there, case in (
            ("C_eg", self.joint.end_grain and not toe, "end grain, lateral"), ("C_tn", toe, "toe-nail, lateral"),
        ):  # fmt: skip
            if there:
                found = connection_factor(case)
                one[name] = pad.take(name, found.value, note=found.reason, source=found.source)
        return pad(
            adj.adjusted_lateral, Z=Z, C_D=connection_duration(pad, self.group, self.joint, which),
            C_M=pad.take("C_M", C_M.value, note=C_M.reason, source=C_M.source),
            C_t=pad.take("C_t", C_t.value, note=C_t.reason, source=C_t.source),
            C_g=C_g, C_delta=C_delta, C_di=1.0, **one,
        )  # fmt: skip


def connection_duration(pad: Pad, group: Group, joint: Joint, which: int | slice) -> Number:
    """C_D, at most 1.6 in a connection (11.3.2), and no increase where concrete bears (11.2.4)."""
    C_D = duration(pad, group.forces.combinations, which)
    limit = 1.0 if any(part.material == "concrete" for part in joint.parts) else LONGEST_LASTING
    most = smallest(C_D, limit)
    if not isinstance(which, slice) and most < C_D:
        pad.take("C_D", most, clause="NDS 2018 11.3.2, 11.2.4", note="the most that counts here")
    return most
