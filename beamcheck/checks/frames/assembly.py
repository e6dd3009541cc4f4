"""The order in which a frame goes together on the ground: no member is left whose tenons have no way in."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from ...model.frames.frame import Frame, piece_name
from ...model.joints.joint import Joint
from ..core.context import Context
from ..core.result import Table

ENTERS = ("tenoned",)  # parts of a joint that go into another piece along themselves
HOSTS = ("mortised",)
LATER = ("strap", "plates both sides", "post cap")  # put on from outside, once the pieces lie


def assembly_table(frame: Frame, context: Context) -> Table | None:
    """Member after member with the joints that it closes; None where no joint is described."""
    joints = [joint for joint in context.structure.joints_of(frame.name) if joint.at is not None]
    if not joints:
        return None
    order = order_of(frame, joints)
    laid: list[str] = []
    rows = []
    for number, stick in enumerate(order, start=1):
        laid.append(stick)
        closed = [joint for joint in joints if stick in _sticks(frame, joint) and _sticks(frame, joint) <= set(laid)]
        now = [joint.name for joint in closed if joint.kind not in LATER]
        after = [joint.name for joint in closed if joint.kind in LATER]
        note = "; ".join(_notes(frame, stick, laid[:-1], joints))
        rows.append((str(number), stick, ", ".join(now) or "–", ", ".join(after) or "–", note or "–"))
    heads = ("step", "member", "joints that it closes", "then put on", "with care")
    note = "Laid flat and square on blocks; bolts by hand until all lies true, pegs and nuts last (common practice)."
    return Table("Order of assembly", heads, tuple(rows), note)


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
