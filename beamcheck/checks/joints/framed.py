"""The joints of a frame: its members where they meet, with the forces of the solved frame, and what they cut out."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from ...analysis.trusses.record import EndForces, NodeForces, SolvedFrame
from ...errors import BeamcheckError
from ...model.frames.frame import Frame, FrameStick
from ...model.frames.names import piece_name
from ...model.joints.joint import Joint
from ...model.joints.parts import Member
from ...model.sticks import Cut
from ..beams.beam import section_of
from ..core.context import Context
from ..core.result import PieceResult
from ..core.wood.group_cut import GroupCut, Void
from ..core.wood.strength import Section
from .kinds.registry import kind_of
from .meeting import Arriving, Meeting, stick_beside, wood_here
from .results import joint_result, not_worked_out
from .splice import splice_meeting

Array = np.ndarray


def joint_results(frame: Frame, solved: SolvedFrame | None, context: Context) -> list[PieceResult]:
    """One result for each [[joint]] of a frame; of a frame that could not be solved each refers."""
    return [_result(joint, frame, solved, context) for joint in context.structure.joints_of(frame.name)]


def _result(joint: Joint, frame: Frame, solved: SolvedFrame | None, context: Context) -> PieceResult:
    if solved is None:
        return not_worked_out(joint, f"the frame {frame.name} could not be worked out")
    try:
        if joint.spliced:
            return joint_result(splice_meeting(joint, frame, solved, context))
        return joint_result(_meeting(joint, frame, solved, context))
    except BeamcheckError as error:
        return not_worked_out(joint, error)


def cuts_of(frame: Frame, context: Context) -> dict[str, list[GroupCut | Cut]]:
    """What the joints of a frame take out of each member, by its name among the pieces."""
    found: dict[str, list[GroupCut | Cut]] = {}
    for joint in context.structure.joints_of(frame.name):
        if joint.spliced and (joint.splice_at is None or joint.stated):
            continue  # where it is, or what it is made of there, is not known: the joint asks
        try:
            if joint.spliced:
                meeting = splice_meeting(joint, frame, None, context)
            else:
                meeting = _meeting(joint, frame, None, context)
            for member in meeting.members:
                place, ahead = _place(frame, joint, member.entry)
                found.setdefault(member.piece, []).extend(kind_of(joint).cuts(meeting, member, place, ahead))
        except BeamcheckError:
            continue  # the joint itself says what is wrong with it
    sizes = {stick.name: section_of(context.size(stick.stock), stick.laid, stick.plies) for stick in frame.sticks}
    return {name: together(cuts, sizes[name]) for name, cuts in found.items()}


def together(cuts: list[GroupCut | Cut], section: Section) -> list[GroupCut | Cut]:
    """Cuts that meet along a member count in one section (NDS 2018 3.1.2)."""
    found: list[list[GroupCut | Cut]] = []
    for cut in sorted(cuts, key=_start):
        if found and _start(cut) < max(map(_end, found[-1])):
            found[-1].append(cut)
        else:
            found.append([cut])
    return [group[0] if len(group) == 1 else _as_one(group, section) for group in found]


def _half(cut: GroupCut | Cut) -> float:
    return 0.5 * max(cut.length, cut.depth if isinstance(cut, Cut) and cut.kind == "hole" else 0.0)


def _start(cut: GroupCut | Cut) -> float:
    return cut.at - _half(cut)


def _end(cut: GroupCut | Cut) -> float:
    return cut.at + _half(cut)


def _as_one(cuts: list[GroupCut | Cut], section: Section) -> GroupCut:
    b, d = float(section.b), float(section.d)
    start, end = min(map(_start, cuts)), max(map(_end, cuts))
    slot = max((cut.width for cut in cuts if isinstance(cut, GroupCut)), default=0.0)
    voids = dict.fromkeys(void for cut in cuts for void in _voids(cut, b - slot, d))
    return GroupCut(
        "", 0.5 * (start + end), end - start, slot, tuple(voids), d, 0.5 * d, made_by="joint",
        called="cuts of the joints, in one section,",
    )  # fmt: skip


def _voids(cut: GroupCut | Cut, b: float, d: float) -> tuple[Void, ...]:
    """What a cut takes out of the breadth that is left beside a slot."""
    if isinstance(cut, GroupCut):
        return tuple(Void(void.y, void.height, min(void.breadth, b)) for void in cut.voids)
    deep = min(cut.depth, d)
    y = cut.from_bottom if cut.from_bottom is not None else (d - 0.5 * deep if cut.face == "top" else 0.5 * deep)
    return (Void(y, deep, min(cut.width or b, b)),)


def _meeting(joint: Joint, frame: Frame, solved: SolvedFrame | None, context: Context) -> Meeting:
    """The members of a joint as they meet; without a solution only their places count."""
    node = None if solved is None else solved.nodes[str(joint.at)]
    combinations = () if solved is None else solved.combinations
    sticks = {stick.stick: stick for stick in frame.sticks}
    members = []
    for number, entry in enumerate(joint.members, start=1):
        stick = sticks[_stick(frame, entry)]
        ends = [] if node is None else [end for end in node.ends if end.stick == stick.stick]
        members.append(_arriving(entry, number, stick, joint, frame, ends, len(combinations), context))
    if node is not None:
        members = [replace(one, force=one.force + _brought(joint, one.entry, frame, node, context)) for one in members]
    outside = np.zeros((len(combinations), 2)) if node is None else node.reaction + node.load
    on, beside = "" if node is None else node.on, stick_beside(joint, context)
    return Meeting(joint, combinations, tuple(members), outside, on, beside=beside, air=context.structure.air,
                   described=context.structure.bolt_rows)  # fmt: skip


def _brought(joint: Joint, entry: Member, frame: Frame, node: NodeForces, context: Context) -> Array:
    """(combinations, 2) what other joints at the point hang on a member: it goes through this joint as well, lbf."""
    own = [_stick(frame, one) for one in joint.members]
    there = [one for one in context.structure.joints_of(frame.name) if one.at == joint.at and one.name != joint.name]
    reached, left = {_stick(frame, entry)}, there
    while near := [one for one in left if any(_stick(frame, other) in reached for other in one.members)]:
        left = [one for one in left if one not in near]
        reached |= {_stick(frame, other) for one in near for other in one.members} - set(own)
    hung = reached - set(own)
    return sum((end.force for end in node.ends if end.stick in hung), np.zeros_like(node.reaction))


def _stick(frame: Frame, entry: Member) -> str:
    return entry.name.removeprefix(piece_name(frame.name, ""))


def _arriving(
    entry: Member, number: int, stick: FrameStick, joint: Joint, frame: Frame, ends: list[EndForces], n: int,
    context: Context,
) -> Arriving:  # fmt: skip
    stock = context.stock(stick.stock)
    whole = section_of(context.size(stick.stock), stick.laid, 1)
    plies = entry.plies or stick.plies
    section = Section(float(whole.b) * plies, whole.d, whole.breadth_alone, whole.round)
    points, at = frame.shape.stick(stick.stick).points, str(joint.at)
    passes = at not in (points[0], points[-1])
    place = points.index(at)
    other = points[place + 1] if place + 1 < len(points) else points[place - 1]
    (x, y), (x_0, y_0) = frame.shape.points[other], frame.shape.points[at]
    long = math.hypot(x - x_0, y - y_0)
    direction = np.array([(x - x_0) / long, (y - y_0) / long])
    force, M = np.zeros((n, 2)), np.zeros(n)
    for end in ends:
        force, M = force + end.force, M + end.M
    in_it, V = None, None
    if ends:
        square = np.array([-direction[1], direction[0]])
        V = np.max([np.abs(end.force @ square) for end in ends], axis=0)
        in_it = (np.max([np.abs(end.N) for end in ends], axis=0), np.max([np.abs(end.M) for end in ends], axis=0))
    if passes:  # what runs through bends through: the joint takes what changes there
        M = np.zeros(n)
    return Arriving(entry, number, stick.name, stock, wood_here(stock, stick.name), section, direction, passes, force,
                    M, in_it, V, min(_along(frame, stick.stick, at)))  # fmt: skip


def _along(frame: Frame, stick: str, point: str) -> tuple[float, float]:
    """How far a point of a member is from either end of it, in."""
    places = frame.shape.places(stick)
    return places[point], max(places.values()) - places[point]


def _place(frame: Frame, joint: Joint, entry: Member) -> tuple[float, bool]:
    """Where the joint lies along a member, from its first point, and whether it goes on ahead from there."""
    if joint.splice_at is not None:
        return joint.splice_at, entry is joint.members[1]
    stick, at = frame.shape.stick(_stick(frame, entry)), str(joint.at)
    return frame.shape.places(stick.name)[at], at != stick.points[-1]
