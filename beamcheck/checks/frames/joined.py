"""What the joints of a frame say: each point at which members meet has its joint, and what a joint cuts out counts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

import numpy as np

from ...analysis.trusses.record import NodeForces, SolvedFrame
from ...model.fields.evidence import vouched
from ...model.frames.frame import Frame, FrameStick
from ...model.joints.joint import Joint
from ...model.sticks import Cut
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import Question, ask
from ..core.context import Context
from ..core.result import Check, PieceResult
from ..core.wood.group_cut import GroupCut

ID, CLAUSE, LITTLE = "frame.joints", "NDS 2018 chapters 11 to 14", 1.0  # lbf: rounding


def joint_results(frame: Frame, solved: SolvedFrame | None, context: Context) -> list[PieceResult]:
    """The joints of a frame, checked with its forces; none where the job describes none."""
    if not context.structure.joints_of(frame.name):
        return []
    from ..joints import framed  # most jobs have no joint of a frame

    return framed.joint_results(frame, solved, context)


def cuts_of(frame: Frame, context: Context) -> dict[str, list[GroupCut | Cut]]:
    """What the joints take out of each member, by its name among the pieces."""
    if not context.structure.joints_of(frame.name):
        return {}
    from ..joints import framed

    return framed.cuts_of(frame, context)


def splices_of(frame: Frame, context: Context) -> dict[str, list[float]]:
    """By member where its lengths meet, from its first point, inches."""
    found: dict[str, list[float]] = {}
    for joint in context.structure.joints_of(frame.name):
        if joint.splice_at is not None:
            found.setdefault(joint.spliced.partition(": ")[2], []).append(joint.splice_at)
    return found


def softest_joint(frame: Frame) -> float:
    """Stiffness of the softest joint, lbf/in: stiffer than usual only where somebody answers for that."""
    usual, said = judgment("softest joint of a frame").value, frame.joint_stiffness
    return usual if said is None or (said > usual and not _answered(frame)) else said


def _answered(frame: Frame) -> bool:
    return vouched(frame.joints_by, "structure")


def plays_of(frame: Frame, context: Context) -> dict[str, float]:
    """By how much the bolted joints of each member let go before they bear, inches: of both its ends together."""
    usual, said = judgment("play of a bolted joint").value, frame.joint_play
    each = usual if said is None or (said < usual and not _answered(frame)) else said
    names = [path.name for path in frame.shape.sticks]
    bolted = [
        joint for joint in context.structure.joints_of(frame.name) if getattr(joint.fastener, "kind", "") == "bolt"
    ]
    ends = Counter(one.name for joint in bolted for one in joint.members if one.name in names)
    ends.update(joint.spliced.partition(": ")[2] for joint in bolted if joint.spliced for _ in joint.members)
    return {name: each * count for name, count in ends.items()}


def described(frame: Frame, solved: SolvedFrame, context: Context) -> Iterator[Check]:
    """Each point at which members meet needs its joint, and none joins what does not meet."""
    joints = context.structure.joints_of(frame.name)
    for node in solved.nodes.values():
        if len({end.stick for end in node.ends}) < 2:
            continue
        here = [joint for joint in joints if joint.at == node.name]
        left = _left_out(node, here)
        if not left:
            yield _held_together(frame, node, here)
            continue
        forces = {stick: said for stick, said in _forces(node).items() if stick in left}
        asked = _asked(frame, node)
        words = ", ".join(f"{stick} {said}" for stick, (said, _) in forces.items())
        text = f"{words}; how they are joined is not described, and no member is better than its joints"
        yield Check.refers(ID, frame.name, f"joint at the {node.name}", CLAUSE, text, ask=asked)


def _held_together(frame: Frame, node: NodeForces, here: list[Joint]) -> Check:
    """Joints of one point that hold all of its members to each other, by however many steps."""
    what, apart = f"joint at the {node.name}", _apart(node, here)
    if len(apart) < 2:
        return Check.keeps_rule(ID, frame.name, what, CLAUSE, "a piece of its own here")
    parts = ", nor ".join(f"{' and '.join(part)} to the rest" for part in apart)
    text = f"each member is in a joint there, but none holds {parts}"
    return Check.refers(ID, frame.name, what, CLAUSE, text, ask=_asked(frame, node))


def of_member(member: FrameStick, frame: Frame, solved: SolvedFrame, context: Context) -> Iterator[Check]:
    """A member is no better than the joints along it: those that nobody described keep it from passing."""
    joints = context.structure.joints_of(frame.name)
    open_ = [
        node for node in map(solved.nodes.__getitem__, frame.shape.stick(member.stick).points)
        if len(dict.fromkeys(end.stick for end in node.ends)) > 1
        and _open(node, [joint for joint in joints if joint.at == node.name], member.stick)
    ]  # fmt: skip
    if open_:
        text = f"not described: those at the {', the '.join(node.name for node in open_)}"
        asked = [_asked(frame, node) for node in open_]
        yield Check.refers(ID, member.name, "its joints", CLAUSE, text, ask=asked)


def _asked(frame: Frame, node: NodeForces) -> Question:
    forces = {stick: force for stick, (_, force) in _forces(node).items()}
    return ask("frame_joint", f"{frame.name}: {node.name}", frame=frame.name, node=node.name, forces=forces)


def _left_out(node: NodeForces, joints: list[Joint]) -> list[str]:
    """The members at a point that no joint there names."""
    named = {one.name for joint in joints for one in joint.members}
    return list(dict.fromkeys(end.stick for end in node.ends if end.stick not in named and end.piece not in named))


def _apart(node: NodeForces, joints: list[Joint]) -> list[set[str]]:
    """The members at a point in groups, each held together by joints there."""
    stick_of = {name: end.stick for end in node.ends for name in (end.stick, end.piece)}
    groups = [{stick} for stick in dict.fromkeys(end.stick for end in node.ends)]
    for joint in joints:
        held = {stick_of[one.name] for one in joint.members if one.name in stick_of}
        joined = [group for group in groups if group & held]
        groups = [*(group for group in groups if not group & held), *([set[str]().union(*joined)] if joined else [])]
    return groups


def _open(node: NodeForces, joints: list[Joint], stick: str) -> bool:
    """Whether no joint at a point names a member, or none holds it to all that meet there."""
    left = _left_out(node, joints)
    return stick in left or (not left and len(_apart(node, joints)) > 1)


def _forces(node: NodeForces) -> dict[str, tuple[str, float]]:
    """What each member brings to a point at the most: words, and lbf."""
    found: dict[str, tuple[str, float]] = {}
    for end in node.ends:
        push, pull = float(np.max(-end.N)), float(np.max(end.N))
        said = [f"{way} up to {show(force, 'force')}" for way, force in (("pushes", push), ("pulls", pull))
                if force > LITTLE]  # fmt: skip
        force = max(push, pull, 0.0)
        if end.stick not in found or force > found[end.stick][1]:
            found[end.stick] = (" and ".join(said) or "brings next to nothing", force)
    return found
