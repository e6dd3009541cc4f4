"""Lateral strength of a group in wood: the worst fastener by row and column (NDS 2018 chapters 11 and 12)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ....calc.pad import Pad
from ....errors import OutOfRange
from ...core.result import Check
from ...core.wood.govern import Criterion, govern, out_of_range
from ...core.wood.strength import Outcome
from ..group import Group
from ..joint import Joint
from ..unsaid import NotSaid, Open
from .connection import Connection

ID, WHAT, CLAUSE = "anchor.lateral", "lateral load on the worst fastener", "NDS 2018 11.3, 12.3"
BOTH_WAYS = 1e-3  # of the largest force: less is no push the other way


def lateral_checks(connection: Connection) -> list[Check]:
    """The worst fastener in the plane of the face, and what keeps the group from passing whatever its figures."""
    group, joint = connection.group, connection.joint
    found = [
        Check.breaks_rule(fault.id, group.name, fault.what, fault.clause, fault.text) for fault in joint.faults
    ]  # fmt: skip
    if not any(fault.id == "anchor.penetration" for fault in joint.faults):
        found.insert(0, _worst(connection))
    found += [group.refers("anchor.joint", "what is known of the joint", "NDS 2018 11.1", one) for one in joint.doubts]
    found += [
        group.refers("anchor.eccentric", "eccentric group", "NDS 2018 11.1.3", one) for one in connection.spread.doubts
    ]
    return [*found, *split_checks(group), *_across(connection)]


def _worst(connection: Connection) -> Check:
    group, joint = connection.group, connection.joint
    criterion = Criterion(group.name, WHAT, CLAUSE, "force", id=ID)
    try:
        k = connection.worst
    except OutOfRange as error:
        return out_of_range(criterion, error)
    except NotSaid as error:
        return group.refers(ID, WHAT, CLAUSE, error.open)
    words = f"{group.x.size} fasteners; {_words(joint)}"
    criterion = replace(criterion, where=group.name_of(k), notes=(words,))

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        if isinstance(which, slice):
            return Outcome(connection.spread.P[k], connection.Z_prime[k], connection.ratio[k])
        P, Z_prime = connection.spread.force(pad, group, k, which), connection.lateral(pad, k, which)
        ratio = P / Z_prime if connection.spread.loaded[k, which] else 0.0
        return Outcome(P, Z_prime, ratio)

    return for_information(govern(criterion, group.forces.combinations, calculate), group, joint)


def _words(joint: Joint) -> str:
    planes = "two shear planes" if joint.two_planes else "one shear plane"
    return f"{planes}, main member {joint.main.name}, side member {joint.side.name}"


def for_information(check: Check, group: Group, joint: Joint) -> Check:
    """Where the wood is not known the lowest plausible is taken: that neither passes nor fails it."""
    if not joint.guessed or check.ratio is None:
        return check
    asked = (group.question(one) for one in joint.guessed)
    return check.waits_for(*asked, note="for information: see what is not known")


def split_checks(group: Group) -> Iterator[Check]:
    """Checks and splits along the holes."""
    what, split = "checks and splits at the holes", group.anchor.split
    if split == "none seen":
        return
    if split == "check across the holes":
        text = (
            "a check or split runs through the holes: the rows have no value against tearing out, and what else holds "
            "is for an engineer"
        )
        yield group.refers("anchor.split", what, "NDS 2018 11.1, Appendix E", Open(text, "split_seen"))
        return
    text = "look for checks and splits along the holes, before and after boring, and say what is seen (`split`)"
    yield group.refers("anchor.split", what, "NDS 2018 11.1", Open(text, "split", "split"))


def _across(connection: Connection) -> list[Check]:
    """A moment that makes some fasteners push up and others down pulls the wood apart across its grain (11.1.3)."""
    spread = connection.spread
    small = BOTH_WAYS * np.max(spread.P, axis=0)
    both = (spread.P_y > small).any(axis=0) & (spread.P_y < -small).any(axis=0)
    if connection.joint.held_part.grain == "into" or not bool(both.any()):
        return []
    text = (
        "the moment on the group makes some fasteners push one way across the grain and some the other: tension across "
        "the grain, which has no design value; it must be reinforced or laid out otherwise"
    )
    open_ = Open(text, "pushes_both_ways")
    return [connection.group.refers("anchor.both_ways", "eccentric group", "NDS 2018 11.1.3, 3.8.2", open_)]
