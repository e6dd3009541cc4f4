"""What every kind of joint has in common."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator
from typing import ClassVar

from ....model.joints.kinds import MADE, MadeOf
from ....model.sticks import Cut
from ...anchors.manners.base import Fastened
from ...core.pictures.others import HoleDrawing
from ...core.result import Check, Table
from ...core.wood.group_cut import GroupCut
from ..groups import MemberGroup
from ..meeting import Arriving, Meeting


def into_which(meeting: Meeting) -> Check:
    """What comes from outside goes through the joint or past it, by the member that it goes into."""
    text = (
        "what the joint stands on, or bears at its point, goes into one of its members; into which is not said "
        "(`bears_on`): what goes straight into the others does not go through the joint"
    )
    answers = [one.name for one in meeting.members] + (["steel"] if MADE[meeting.joint.kind].plated else [])
    return meeting.refers("joint.bears_on", "way of the reaction", "load path", text, "joint_bears_on", "bears_on",
                          answers=answers)  # fmt: skip


class Kind(ABC):
    """One kind of joint. There is one object of each class: it holds nothing about a joint."""

    name: ClassVar[str]

    @property
    def made(self) -> MadeOf:
        """What it is made of and what the job file must say."""
        return MADE[self.name]

    @abstractmethod
    def checks(self, meeting: Meeting) -> list[Check]:
        """Everything that is asked of such a joint.

        Raises
        ------
        BeamcheckError
            If it could not be worked out.
        """

    def groups(self, meeting: Meeting) -> list[tuple[MemberGroup, Fastened]]:
        """The group of each member with the rules by which it holds; none where nothing is fastened member by member.

        Raises
        ------
        OutOfRange
            If a layout does not say where the holes are.
        """
        return []

    def cuts(self, meeting: Meeting, member: Arriving, place: float, ahead: bool) -> list[GroupCut | Cut]:
        """What it takes out of a member.

        Parameters
        ----------
        place : float
            Of the joint along the member, from the member's first point. [in]
        ahead : bool
            Whether the member goes on from the joint in the direction in which it is measured.
        """
        return []

    def tables(self, meeting: Meeting) -> list[Table]:
        """Hole layouts, hardware, what to drill."""
        return []

    def drawing(self, meeting: Meeting) -> HoleDrawing | None:
        """A layout of holes, where there is one."""
        return None

    def to_see(self, meeting: Meeting) -> Iterator[str]:
        """What to see and to photograph before the joint is covered."""
        yield from ()

    def assumptions(self, meeting: Meeting) -> Iterator[str]:
        """What is taken for granted, in sentences."""
        yield from ()
