"""The splice of a member of a frame: its forces are those of the frame there, or are held against them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ...analysis.trusses.record import SolvedFrame
from ...calc.pad import Pad
from ...errors import OutOfRange
from ...model.frames.frame import Frame, FrameStick
from ...model.joints.joint import Joint
from ...units import show
from ..beams.beam import section_of
from ..core.context import Context
from ..core.result import Check
from ..core.wood.govern import Criterion, govern
from ..core.wood.strength import Outcome, Section
from .meeting import Arriving, Meeting, stated_meeting, wood_here

Array = np.ndarray
ID = "joint.splices"
FROM_FRAME = "along the member, from the frame"


def splice_meeting(joint: Joint, frame: Frame, solved: SolvedFrame | None, context: Context) -> Meeting:
    """The two lengths of a member where they meet; without a solution only their places count.

    Raises OutOfRange if nobody says where along the member it is.
    """
    stick = next(one for one in frame.sticks if one.name == joint.spliced)
    if joint.stated and solved is not None:
        meeting = stated_meeting(joint, context)
        return replace(meeting, doubts=(*meeting.doubts, *_against_the_frame(meeting, stick, solved)))
    if joint.splice_at is None:
        return _of_nowhere(joint, stick, solved, context)
    axis = _axis(frame, stick)
    n = 0 if solved is None else len(solved.combinations)
    N, V, M = (np.zeros(n) if solved is None else _there(solved, stick, what, joint.splice_at) for what in "NVM")
    points = frame.shape.stick(stick.stick).points
    turned = frame.shape.points[points[0]] > frame.shape.points[points[-1]]
    members = []
    for number, entry in enumerate(joint.members, start=1):
        rises = (number == 2) != turned  # whether it lies on the side to which `axis` points
        direction = axis if rises else -axis
        across = np.array([-direction[1], direction[0]])
        force = np.outer(N, direction) - np.outer(V, across)
        members.append(_length(joint, stick, number, direction, force, M if rises else -M, context))
        assert entry is members[-1].entry
    combinations = () if solved is None else solved.combinations
    said = "The splice is a hinge of the frame: bolts have play; what comes square to the member has its arm."
    meeting = Meeting(joint, combinations, tuple(members), np.zeros((n, 2)), assumptions=(said,))
    return replace(meeting, doubts=tuple(_pushed(meeting, stick)))


def _pushed(meeting: Meeting, stick: FrameStick) -> Iterator[Check]:
    """A push buckles a member at a hinge: its length counts from point to point, as if it were whole."""
    push = float(np.max(-meeting.members[0].N, initial=0.0))
    if not meeting.next_to_nothing(push):
        text = f"{show(push, 'force')} push through the splice, which is a hinge in {stick.name}: it may buckle there"
        yield meeting.refers(ID, "push through the splice", "NDS 2018 3.7.1", text, "joint_splice_push")


def _axis(frame: Frame, stick: FrameStick) -> Array:
    """Unit vector along it from left to right, of an upright one up."""
    points = frame.shape.stick(stick.stick).points
    low, high = sorted(frame.shape.points[point] for point in (points[0], points[-1]))
    run = np.array(high) - np.array(low)
    return np.asarray(run / np.hypot(*run))


def _there(solved: SolvedFrame, stick: FrameStick, what: str, place: float) -> Array:
    low, high = solved.between(stick.stick, what, place, place)  # type: ignore[arg-type]
    return np.asarray(np.where(np.abs(low) > np.abs(high), low, high))


def _length(
    joint: Joint, stick: FrameStick, number: int, direction: Array, force: Array, M: Array, context: Context
) -> Arriving:  # fmt: skip
    stock = context.stock(stick.stock)
    whole = section_of(context.size(stick.stock), stick.laid, 1)
    entry = joint.members[number - 1]
    section = Section(float(whole.b) * (entry.plies or stick.plies), whole.d, whole.breadth_alone, whole.round)
    return Arriving(entry, number, stick.name, stock, wood_here(stock, stick.name), section, direction, False, force, M)


def _of_nowhere(joint: Joint, stick: FrameStick, solved: SolvedFrame | None, context: Context) -> Meeting:
    """Of a splice whose place nobody says the largest pull and push of the member are told."""
    if solved is None:
        raise OutOfRange(f"where along {stick.name} it is, is not said", "splice_at")
    one = solved.members[stick.stick]
    frame_axis = np.array([1.0, 0.0])
    N = np.where(one.pulled >= one.pressed, one.pulled, -one.pressed)
    members = tuple(
        _length(joint, stick, number, sign * frame_axis, np.outer(N, sign * frame_axis), np.zeros(len(N)), context)
        for number, sign in ((1, -1.0), (2, 1.0))
    )
    meeting = Meeting(joint, solved.combinations, members, np.zeros_like(members[0].force))
    text = f"where along {stick.name} it is, is not said: the forces there are not known"
    asked = meeting.refers(ID, "place of the splice", "statics", text, "joint_splice_at", "splice_at")
    return replace(meeting, doubts=(asked,))


def _against_the_frame(meeting: Meeting, stick: FrameStick, solved: SolvedFrame) -> Iterator[Check]:
    """Stated forces are no less than what the frame puts through the member, at its worst place where none is said."""
    at, one = meeting.joint.splice_at, solved.members[stick.stick]
    N = None if at is None else _there(solved, stick, "N", at)
    V = np.max(one.V, axis=1) if at is None else np.abs(_there(solved, stick, "V", at))
    pulled, pressed = (one.pulled, one.pressed) if N is None else (np.maximum(N, 0.0), np.maximum(-N, 0.0))
    first = meeting.members[0]
    for words, come, stated in (("pull", pulled, first.N), ("push", pressed, -first.N),
                                ("square to it", V, np.abs(first.down))):  # fmt: skip
        most, said = (float(np.max(values, initial=0.0)) for values in (come, stated))
        if meeting.next_to_nothing(most):
            continue
        what = f"{words} of {stick.name} against what is stated"
        if meeting.next_to_nothing(said):
            text = f"{show(most, 'force')} come there by the frame, and next to nothing is stated"
            yield Check.breaks_rule(ID, meeting.name, what, "statics", text)
            continue

        def calculate(pad: Pad, which: int | slice, come: Array = come, said: float = said) -> Outcome:
            P = pad.take("P", come[which] if isinstance(which, slice) else float(come[which]), "lbf", note=FROM_FRAME)
            most_said = pad.take("P_said", said, "lbf", note="the largest that is stated for the splice")
            return Outcome(P, most_said, P / most_said)

        yield govern(Criterion(meeting.name, what, "statics", "force", show(said, "force"), id=ID),
                     solved.combinations, calculate)  # fmt: skip
