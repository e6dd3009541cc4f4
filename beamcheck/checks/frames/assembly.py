"""The order in which a frame goes together on the ground: no member is left whose tenons have no way in."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping, Sequence

from ...model.frames.frame import Frame
from ...model.frames.names import piece_name
from ...model.joints.joint import Joint
from ..core.context import Context
from ..core.pictures.assembled import TITLE, AssemblyPicture, Laid
from ..core.pictures.beams import Points
from ..core.result import Table

ENTERS = ("tenoned",)  # parts of a joint that go into another piece along themselves
HOSTS = ("mortised",)
LATER = ("strap", "plates both sides", "post cap")  # put on from outside, once the pieces lie


def assembly_of(
    frame: Frame, depths: Mapping[str, float], context: Context
) -> tuple[Table, AssemblyPicture] | None:  # fmt: skip
    """Member after member with the joints that it closes, a row and a panel each; None where no joint is described.

    `depths`: of the members in the plane of the frame, in.
    """
    joints = [joint for joint in context.structure.joints_of(frame.name) if joint.at is not None]
    if not joints:
        return None
    order = order_of(frame, joints)
    rows, steps, laid = [], [], list[Laid]()
    for number, stick in enumerate(order, start=1):
        there = set(order[:number])
        closed = [joint for joint in joints if stick in _sticks(frame, joint) and _sticks(frame, joint) <= there]
        now = ", ".join(joint.name for joint in closed if joint.kind not in LATER)
        after = ", ".join(joint.name for joint in closed if joint.kind in LATER)
        note = "; ".join(_notes(frame, stick, order[: number - 1], joints))
        rows.append((str(number), stick, now or "–", after or "–", note or "–"))
        told = (stick, now and f"closes {now}", after and f"then put on {after}", note)
        steps.append("; ".join(filter(None, told)))
        laid.append(Laid("wood", stick, _lying(frame, stick, depths[stick]), number))
        laid += [Laid("joint", one.name, (_at(frame, one.at),), number) for one in closed if one.at is not None]
    heads = ("step", "member", "joints that it closes", "then put on", "with care")
    note = "Laid flat and square on blocks; bolts by hand until all lies true, pegs and nuts last (common practice)."
    table = Table(TITLE, heads, tuple(rows), note)
    return table, AssemblyPicture(frame.name, tuple(steps), tuple(laid))


def _at(frame: Frame, point: str) -> tuple[float, float]:
    x, y = frame.shape.points[point]
    return x, -y


def _lying(frame: Frame, stick: str, depth: float) -> Points:
    """A member about the line between its outer points, y down."""
    path = frame.shape.stick(stick)
    (x0, y0), (x1, y1) = _at(frame, path.points[0]), _at(frame, path.points[-1])
    long = math.hypot(x1 - x0, y1 - y0) or 1.0
    u, v = 0.5 * depth * (y0 - y1) / long, 0.5 * depth * (x1 - x0) / long
    return ((x0 + u, y0 + v), (x1 + u, y1 + v), (x1 - u, y1 - v), (x0 - u, y0 - v))


def order_of(frame: Frame, joints: Sequence[Joint]) -> list[str]:
    """The members, each joined to those before it, and none left that has to enter two pieces already laid."""
    names = [path.name for path in frame.shape.sticks]
    joined = {name: sum(name in _sticks(frame, joint) for joint in joints) for name in names}
    level = {name: frame.shape.slope(name) for name in names}
    laid = [min(names, key=lambda name: (level[name] > 1.0, -joined[name], names.index(name)))]
    while len(laid) < len(names):
        left = [name for name in names if name not in laid]
        near = [name for name in left if any({name} < _sticks(frame, joint) and _sticks(frame, joint) & set(laid)
                                             for joint in joints)]  # fmt: skip
        laid.append(min(near or left, key=lambda name: (
            len(_shut_out(frame, joints, [*laid, name])), -_closes(frame, joints, [*laid, name]), names.index(name)
        )))  # fmt: skip
    return laid


def _sticks(frame: Frame, joint: Joint) -> set[str]:
    return {one.name.removeprefix(piece_name(frame.name, "")) for one in joint.members}


def _closes(frame: Frame, joints: Sequence[Joint], laid: Collection[str]) -> int:
    return sum(_sticks(frame, joint) <= set(laid) for joint in joints)


def _hosts(frame: Frame, joints: Sequence[Joint], stick: str) -> list[str]:
    """The pieces into which a member has to go along itself."""
    found = []
    for joint in joints:
        parts = {one.name.removeprefix(piece_name(frame.name, "")): one.part for one in joint.members}
        if parts.get(stick) in ENTERS:
            found += [name for name, part in parts.items() if part in HOSTS]
    return found


def _shut_out(frame: Frame, joints: Sequence[Joint], laid: Collection[str]) -> list[str]:
    """Members not laid yet that would have to enter two pieces that lie already."""
    left = [path.name for path in frame.shape.sticks if path.name not in laid]
    return [name for name in left if sum(host in laid for host in _hosts(frame, joints, name)) > 1]


def _notes(frame: Frame, stick: str, before: Sequence[str], joints: Sequence[Joint]) -> Iterator[str]:
    inside = [host for host in _hosts(frame, joints, stick) if host in before]
    if len(inside) > 1:
        yield f"its tenons go into {' and '.join(inside)} at once: leave one of these loose until then"
    for joint in joints:
        landing = [one.name for one in joint.members if one.part == "landing"]
        notched = [one.name for one in joint.members if one.part == "notched"]
        if stick in landing and set(notched) <= set(before):
            yield f"set into its notch, {joint.name}, and held there until the frame is closed"
