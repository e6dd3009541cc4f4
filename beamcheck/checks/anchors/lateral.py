"""Lateral strength of a group in wood: the worst fastener by row and column (NDS 2018 chapters 11 and 12)."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from ...calc.core import Number, smallest
from ...calc.pad import Pad, SilentPad
from ...errors import BeamcheckError, OutOfRange
from ...formulas.connections import adjustment as adj
from ...formulas.connections.ranges import LONGEST_LASTING
from ...values.connections import connection_factor
from ..core.govern import Criterion, at, duration, govern, out_of_range, stated
from ..core.result import Check
from ..core.strength import Outcome
from .distances import Need, geometry_factor, large_part, needs
from .factors import Way, group_action, group_action_factors, temperature, wet_service
from .fastener import NotSaid
from .group import Group
from .group_forces import Spread, spread_of
from .joint import COVERED, Joint, joint_of, pin_share

Array = np.ndarray
WHAT, CLAUSE = "lateral load on the worst fastener", "NDS 2018 11.3, 12.3"
LOOK = "look for checks and splits along the holes, before and after boring, and say what is seen (`split`)"


@dataclass(frozen=True, eq=False)
class Lateral:
    """A group with its joint and the spread of its force: lateral values of every fastener in every combination."""

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

    @cached_property
    def C_g(self) -> tuple[Array, dict[Way, Array]]:
        """Per fastener and combination; and per way and fastener."""
        return group_action_factors(self.group, self.joint, self.ways)

    @cached_property
    def Z_prime(self) -> Array:
        """(holes, combinations), lbf; NaN where there is no value.

        Raises
        ------
        OutOfRange
            If an input that all fasteners share is outside the rules.
        """
        pad = SilentPad()
        Z = self._reference(pad, self.spread.theta)
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

    def value(self, pad: Pad, k: int, which: int) -> float:
        """Z' of fastener k under one combination, step by step, lbf."""
        theta = pad.take("theta", float(self.spread.theta[k, which]), "deg",
                         note="angle of its force to the grain of the held piece")  # fmt: skip
        Z = self._reference(pad, theta)
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
        toe = self.group.anchor.manner == "toe-nails"
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


def lateral_of(group: Group) -> Lateral:
    """Everything about the lateral value of a group.

    Raises
    ------
    NotSaid, UnknownName, OutOfRange
        If there is no value: as `joint_of` and `spread_of`.
    """
    return Lateral(group, joint_of(group), spread_of(group))


def lateral_checks(group: Group) -> list[Check]:
    """The worst fastener in the plane of the face, and what keeps the group from passing whatever its figures."""
    name = group.anchor.name
    if group.anchor.manner not in COVERED:
        return []
    try:
        lateral = lateral_of(group)
    except OutOfRange as error:
        return [out_of_range(Criterion(name, WHAT, CLAUSE, "force"), error)]
    except BeamcheckError as error:
        return [stated(name, WHAT, CLAUSE, "refer", str(error))]
    joint, found = lateral.joint, []
    if any(what.startswith("penetration") for what, _, _ in joint.faults):
        text = "the point does not reach deep enough: there is no lateral value at all"
        found.append(stated(name, WHAT, joint.dowel.penetration_clause, "fails", text))
    else:
        found.append(_for_information(_worst(lateral), joint))
    found += [stated(name, what, clause, "fails", text) for what, clause, text in joint.faults]
    found += [stated(name, "what is known of the joint", "NDS 2018 11.1", "refer", text) for text in joint.doubts]
    found += [stated(name, "eccentric group", "NDS 2018 11.1.3", "refer", text) for text in lateral.spread.doubts]
    return [*found, *_seen(group), *_across(lateral)]


def _worst(lateral: Lateral) -> Check:
    group = lateral.group
    criterion = Criterion(group.anchor.name, WHAT, CLAUSE, "force")
    try:
        k = lateral.worst
    except OutOfRange as error:
        return out_of_range(criterion, error)
    except NotSaid as error:
        return stated(group.anchor.name, WHAT, CLAUSE, "refer", str(error))
    criterion = replace(
        criterion, where=group.name_of(k), notes=(f"{group.x.size} fasteners; {_words(lateral.joint)}",)
    )

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        if isinstance(which, slice):
            return Outcome(lateral.spread.P[k], lateral.Z_prime[k], lateral.ratio[k])
        P, Z_prime = lateral.spread.written(pad, group, k, which), lateral.value(pad, k, which)
        ratio = P / Z_prime if lateral.spread.loaded[k, which] else 0.0
        return Outcome(P, Z_prime, ratio)

    return govern(criterion, group.forces.combinations, calculate)


def _words(joint: Joint) -> str:
    planes = "two shear planes" if joint.two_planes else "one shear plane"
    return f"{planes}, main member {joint.main.name}, side member {joint.side.name}"


def _for_information(check: Check, joint: Joint) -> Check:
    """Where the wood is not known the lowest plausible is taken: that neither passes nor fails it."""
    lowest = ("the wood of", "the specific gravity of")
    if not any(doubt.startswith(lowest) for doubt in joint.doubts) or check.ratio is None:
        return check
    return replace(check, verdict="refer", notes=("for information: see what is not known", *check.notes))


def _seen(group: Group) -> list[Check]:
    """Checks and splits along the holes."""
    name, split = group.anchor.name, group.anchor.split
    if split == "none seen":
        return []
    if split == "check across the holes":
        text = (
            "a check or split runs through the holes: the rows have no value against tearing out, and what else holds "
            "is for an engineer"
        )
        return [stated(name, "checks and splits at the holes", "NDS 2018 11.1, Appendix E", "refer", text)]
    return [stated(name, "checks and splits at the holes", "NDS 2018 11.1", "refer", LOOK)]


def _across(lateral: Lateral) -> list[Check]:
    """A moment that makes some fasteners push up and others down pulls the wood apart across its grain (11.1.3)."""
    spread = lateral.spread
    small = 1e-3 * np.max(spread.P, axis=0, initial=0.0)
    both = (spread.P_y > small).any(axis=0) & (spread.P_y < -small).any(axis=0)
    if not bool(both.any()):
        return []
    text = (
        "the moment on the group makes some fasteners push one way across the grain and some the other: tension across "
        "the grain, which has no design value; it must be reinforced or laid out otherwise"
    )
    return [stated(lateral.group.anchor.name, "eccentric group", "NDS 2018 11.1.3, 3.8.2", "refer", text)]


def value_at(lateral: Lateral, pad: Pad, k: int, which: int | slice) -> Number:
    """Z' of fastener k, written down for one combination or as an array over all, lbf."""
    return at(lateral.Z_prime[k], which) if isinstance(which, slice) else lateral.value(pad, k, which)
