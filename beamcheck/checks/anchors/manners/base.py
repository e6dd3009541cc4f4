"""What every manner of anchoring has in common, and those with a joint of wood and fasteners of its own."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator
from itertools import chain
from typing import ClassVar

import numpy as np

from ....errors import BeamcheckError, OutOfRange
from ....model.anchors.manners import MANNERS, Made
from ....units import show
from ....values.hardware import fasteners
from ....values.judgment import judgment
from ....values.refused import in_trade_words
from ...core.context import Context
from ...core.result import Check
from ...core.wood.govern import Criterion, out_of_range
from ...core.wood.material import is_unknown
from ...core.wood.wood_doubts import wood_evidence_checks
from ..couple import Couple
from ..far_side import far_side_checks, passed_on
from ..fastener import FAMILIES, dowel_of
from ..fasteners.axial import axial_checks
from ..fasteners.connection import Connection
from ..fasteners.lateral import CLAUSE, ID, WHAT, lateral_checks
from ..fasteners.layout import layout_checks
from ..fasteners.moving import moving_checks
from ..fasteners.spread import Spread, holding_the_end, spread_of
from ..fasteners.tear_out import tear_out_checks
from ..group import Group
from ..joint import Joint, JointMaker
from ..outputs import fastened_seen
from ..steel.back import held_behind_checks
from ..steel.bolts import SCREW_STEEL, steel_checks
from ..unsaid import NotSaid, Open, grade_open

DRIVEN = ("lag screw", "wood screw", "nail")


class Manner(ABC):
    """One manner of anchoring. There is one object of each class: it holds nothing about a group."""

    name: ClassVar[str]

    @property
    def made(self) -> Made:
        """What it is made of and what the job file must say."""
        return MANNERS[self.name]

    @abstractmethod
    def checks(self, group: Group, context: Context) -> list[Check]:
        """Everything that is asked of such a group."""

    def joint(self, make: JointMaker) -> Joint:
        """Main and side member, and how long the fastener bears in each.

        Raises NotSaid if something without which there is no value is not given; UnknownName, OutOfRange if a size or
        grade is not in the tables, or the parts do not fit each other.
        """
        text = f"manner {self.name!r} has no wood joint with fasteners of its own"
        raise NotSaid(text, "joint_by_engineer")

    def connection(self, group: Group) -> Connection:
        """The group with its joint and the spread of its force.

        Raises NotSaid, UnknownName, OutOfRange if there is no value.
        """
        joint = self.joint_of(group)
        group = holding_the_end(group, joint)
        return Connection(group, joint, spread_of(group))

    def resolved(self, group: Group) -> Connection | Check:
        """The connection, or the check that says why there is none."""
        try:
            return self.connection(group)
        except OutOfRange as error:
            return out_of_range(Criterion(group.name, WHAT, CLAUSE, "force", id=ID), error)
        except NotSaid as error:
            return group.refers(ID, WHAT, CLAUSE, error.open)
        except BeamcheckError as error:
            return group.refers(ID, WHAT, CLAUSE, Open(in_trade_words(error), "joint_by_engineer"))

    def joint_of(self, group: Group) -> Joint:
        """The joint of a group. Raises NotSaid, UnknownName, OutOfRange if there is no value."""
        if group.anchor.fastener is None:
            raise NotSaid("no fastener is described (`fastener`)", "fastener", "fastener.size")
        if group.section.round:
            text = "a round piece: the rules for edges and faces do not hold, an engineer must judge the joint"
            raise NotSaid(text, "round_piece")
        return self.joint(JointMaker(group, dowel_of(group.anchor.fastener)))

    def assumptions(self, group: Group) -> Iterator[str]:
        """What is taken for granted, in sentences."""
        yield from ()

    def to_see(self, group: Group) -> tuple[str, ...]:
        """What to see and to photograph before the cover goes on."""
        return fastened_seen(group)

    @property
    def drawn(self) -> bool:
        """Whether there is a layout that a drawing can show."""
        return self.made.fastened and not self.made.in_the_end


class Fastened(Manner):
    """A joint of the held wood with fasteners of its own."""

    def checks(self, group: Group, context: Context) -> list[Check]:
        connection = self.resolved(group)
        if not isinstance(connection, Check):
            found = list(chain.from_iterable(self.stages(connection)))
            return [*found, *self._known(connection.group)]
        found = [connection]
        if group.x.size:  # the steel does not wait for what is not known of the wood
            found += self._steel(group, spread_of(group), self.couple(group), False)
        return [*found, *self._known(group)]

    @staticmethod
    def _known(group: Group) -> list[Check]:
        return [*evidence_checks(group), *far_side_checks(group), *line_checks(group)]

    def stages(self, connection: Connection) -> Iterator[list[Check]]:
        """The checks of wood, fasteners and steel, one stage after the other: what stops a layout comes early."""
        group = connection.group
        couple = self.couple(group)
        yield [*lateral_checks(connection), *held_behind_checks(connection)]
        yield [*layout_checks(connection), *moving_checks(connection)]
        yield tear_out_checks(connection)
        yield self.beside(connection, couple)
        yield self._steel(group, connection.spread, couple, connection.joint.threads_clear)

    def _steel(self, group: Group, spread: Spread, couple: Couple | None, clear: bool) -> list[Check]:
        counted = couple if self.counts_couple(group) else None
        off = counted.off if counted is not None and self.made.plates else 0.0
        return steel_checks(group, spread, counted, threads_clear=clear, off=off)

    def couple(self, group: Group) -> Couple | None:
        """What a load beside the joint does to its fasteners; None where there is none."""
        return None

    def counts_couple(self, group: Group) -> bool:
        """Whether the fasteners have to hold the couple."""
        return True

    def beside(self, connection: Connection, couple: Couple | None) -> list[Check]:
        """The checks of that couple in the wood."""
        return []

    def assumptions(self, group: Group) -> Iterator[str]:
        yield from passed_on(group)
        if group.anchor.fastener is not None and group.anchor.fastener.kind in DRIVEN:
            yield SCREW_STEEL


def evidence_checks(group: Group) -> list[Check]:
    """What is said of wood and fasteners against what is known of them."""
    return [*wood_checks(group), *sense_checks(group)]


def sense_checks(group: Group) -> list[Check]:
    """What contradicts itself, or is more than usual, in the fasteners and in how they are put in."""
    return [*_moisture(group), *_coating(group), *_bending_yield(group)]


def wood_checks(group: Group) -> Iterator[Check]:
    """Whether the wood on either side is known, and how."""
    if is_unknown(group.stock):
        text = "a grader or engineer must say what it is; figures here are of the weakest wood that it might be"
        open_ = grade_open(text, group.stock)
        yield group.refers("anchor.wood", f"wood of {group.piece} not known", "NDS 2018 4.1", open_)
    else:
        yield from wood_evidence_checks(group.name, group.wood.doubts)
    if group.into_wood is not None and group.into_stock is not None and not is_unknown(group.into_stock):
        yield from wood_evidence_checks(group.name, group.into_wood.doubts)


def _moisture(group: Group) -> Iterator[Check]:
    """A group that is said to be put together dry, of wood that is not."""
    if group.anchor.seasoned != "dry":
        return
    for stock in (group.stock, group.into_stock):
        if stock is not None and stock.moisture != "dry":
            text = f"the group is said to be put together dry, but stock {stock.name!r} is {stock.moisture}"
            open_ = Open(text, "seasoned", "seasoned")
            yield group.refers("anchor.moisture", "wood put together dry", "NDS 2018 11.3.3", open_)
            return


def _coating(group: Group) -> Iterator[Check]:
    """Bare steel in treated wood rusts."""
    fastener = group.anchor.fastener
    if fastener is None or fastener.coating in ("hot-dip galvanized", "stainless"):
        return
    for stock in (group.stock, group.into_stock):
        if stock is not None and stock.treated:
            said = f"coated: {fastener.coating}" if fastener.coating else "what they are coated with is not said"
            text = f"stock {stock.name!r} is treated, and its salts eat bare steel; the fasteners: {said}"
            open_ = Open(text, "coating", "fastener.coating")
            yield group.refers("anchor.coating", "steel in treated wood", "IRC 2018 R317.3.1", open_)
            return


def _bending_yield(group: Group) -> Iterator[Check]:
    """A maker's bending yield strength far above that of the table."""
    fastener = group.anchor.fastener
    if fastener is None or fastener.F_yb is None:
        return
    try:
        usual = fasteners.bending_yield(FAMILIES[fastener.kind], dowel_of(fastener).D).value
    except BeamcheckError:
        usual = 0.0
    if fastener.F_yb > judgment("bending yield above the table").value * usual:
        text = (
            f"{show(fastener.F_yb, 'stress')} is far above the table's {show(usual, 'stress')} for that fastener: an "
            "engineer must see the maker's document"
        )
        open_ = Open(text, "maker_document_seen")
        yield group.refers("anchor.bending_yield", "bending yield strength", "NDS 2018 Appendix I", open_)


def line_checks(group: Group) -> Iterator[Check]:
    """The arm that is said against that by the holes and the place of the support, which counts.

    What takes no moment (one fastener, toe-nails, a rod) must stand in the line of the support itself.
    """
    if group.line is None or group.x.size == 0 or group.made.in_the_end:
        return
    id, what, near = "anchor.support_line", "line of the support", judgment("arm as said and as laid out").value
    middle, said = float(np.mean(group.x)), group.anchor.arm
    if group.made.in_line or group.x.size == 1:
        if abs(middle - group.line) > judgment("one fastener off the line of its support").value:
            text = (
                f"the support of {group.piece} is {_from_end(group.line)}, but its fasteners are "
                f"{_from_end(middle)}: nothing takes the moment between them"
            )
            answers = (show(middle, "length"),) if group.place == group.line else None
            open_ = Open(text, "support_place", group.support_field, answers, of=group.piece)
            yield group.refers(id, what, "statics", open_)
        return
    arm = abs(middle - group.line)  # it has no sign in the job file
    if said is not None and abs(said - arm) > near:
        text = (
            f"by the holes and the support the arm is {show(arm, 'length')}, which is counted; it is said to be "
            f"{show(said, 'length')}: one of them is not right"
        )
        open_ = Open(text, "arm", "arm", (show(arm, "length"),))
        yield group.refers(id, what, "statics", open_)


def pulled_checks(connection: Connection, couple: Couple | None) -> list[Check]:
    """The wood where the couple pulls on the fasteners along their axes."""
    return [] if couple is None else axial_checks(connection, couple.each.max(axis=0))


def _from_end(x: float) -> str:
    return f"{show(abs(x), 'length')} {'beyond' if x < 0.0 else 'from'} its end"
