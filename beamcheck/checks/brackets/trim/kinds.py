"""How a piece of trim hangs: below, where its weight pulls on its fasteners, or on a face, where it shears them."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import ClassVar

import numpy as np

from ....calc.pad import Pad
from ....formulas.steel import bolts
from ....formulas.wood.section import round_area
from ....model.brackets.bracket import Trim
from ....units import show
from ....values.found import Found
from ....values.hardware.fasteners import bolt
from ....values.hardware.steels import bolt_steel
from ....values.judgment import judgment
from ...anchors.fasteners.axial import axial_checks
from ...anchors.fasteners.connection import Connection
from ...anchors.fasteners.lateral import lateral_checks
from ...anchors.fasteners.layout import layout_checks
from ...anchors.group import Forces
from ...anchors.manners.registry import resolved
from ...core.result import Check
from ...core.wood.govern import Criterion, at, govern
from ...core.wood.strength import Outcome
from ..asking import ask_for

Array = np.ndarray
HOLES = "NDS 2018 11.1"


class Kind(ABC):
    """What hanging in one way asks of the fasteners."""

    applied: ClassVar[str]  # how it comes on what it is fixed to
    turns: ClassVar[bool] = False  # weight that stands out turns it off what it is fixed to

    @abstractmethod
    def counted(self, trim: Trim, forces: Array) -> tuple[Array, Check]:
        """The force that its fasteners are checked for, and what makes it up."""

    @abstractmethod
    def loaded(self, forces: Array) -> tuple[Array, Array]:
        """That force along and across the grain of the trim, as an anchor group takes it."""

    @abstractmethod
    def checks(self, trim: Trim, joint: Connection, forces: Array) -> Iterator[Check]:
        """All fasteners together."""

    def pulled(self, trim: Trim, joint: Connection, each: Array) -> Iterator[Check]:
        """So much pull on one fastener."""
        yield from axial_checks(joint, each)
        yield from _bolts(trim, joint, each)

    @abstractmethod
    def on_one(self, trim: Trim, joint: Connection, force: Array) -> list[Check]:
        """One fastener alone, with a force on it."""


class Below(Kind):
    """It hangs below: its weight pulls."""

    applied = "below"

    @property
    def over(self) -> Found[float]:
        return judgment("holding over weight of a cover")

    def counted(self, trim: Trim, forces: Array) -> tuple[Array, Check]:
        over = self.over
        weight = over.value * trim.weight
        text = (
            f"{over.value:g} times its weight of {show(trim.weight, 'force')}: {show(weight, 'force')} ({over.reason})"
        )
        said = Check.keeps_rule("trim.weight_counted", trim.name, "weight counted", "judgment", text)
        return np.maximum(forces, weight), said

    def loaded(self, forces: Array) -> tuple[Array, Array]:
        none = np.zeros_like(forces)
        return none, none

    def checks(self, trim: Trim, joint: Connection, forces: Array) -> Iterator[Check]:
        each = forces / joint.group.x.size
        note = f"{self.over.value:g} times the weight is counted (judgment)"
        for fault in joint.joint.faults:  # a point that comes out has its thread outside of the wood
            if fault.id == "anchor.length":
                yield Check.breaks_rule(fault.id, trim.name, fault.what, fault.clause, fault.text)
        for check in axial_checks(joint, each):
            yield replace(check, notes=(*check.notes, note)) if check.ratio is not None else check
        yield from _layout(joint)
        yield from _sound(trim)
        yield from _bolts(trim, joint, each)

    def on_one(self, trim: Trim, joint: Connection, force: Array) -> list[Check]:
        return list(self.pulled(trim, joint, force))


class OnTheFace(Kind):
    """It hangs on a face: its weight shears its fasteners."""

    applied = "side"
    turns = True

    def counted(self, trim: Trim, forces: Array) -> tuple[Array, Check]:
        text = f"its weight of {show(trim.weight, 'force')}, once: on a face it shears its fasteners"
        return forces, Check.keeps_rule("trim.weight_counted", trim.name, "weight counted", "judgment", text)

    def loaded(self, forces: Array) -> tuple[Array, Array]:
        return np.zeros_like(forces), forces

    def checks(self, trim: Trim, joint: Connection, forces: Array) -> Iterator[Check]:
        yield from lateral_checks(joint)
        yield from _layout(joint)

    def on_one(self, trim: Trim, joint: Connection, force: Array) -> list[Check]:
        group = joint.group
        forces = Forces(group.forces.combinations, *self.loaded(force))
        alone = resolved(replace(group, x=group.x[:1], y=group.y[:1], forces=forces))
        return lateral_checks(alone) if isinstance(alone, Connection) else [alone]


KINDS: Mapping[str, Kind] = MappingProxyType({"below": Below(), "on the face": OnTheFace()})


def _layout(joint: Connection) -> Iterator[Check]:
    """Length and breadth of the boards are not asked for: the layout in them is the carpenter's."""
    yield from (check for check in layout_checks(joint) if "held piece" not in check.what or "spacing" in check.what)


def _sound(trim: Trim) -> Iterator[Check]:
    """Wood that is not split along the screws."""
    fixings = trim.fixings
    if fixings is None or fixings.split == "none seen":
        return
    seen = {None: "is not said (`split`)", "not looked at": "nobody looked"}.get(fixings.split, "there are some")
    text = f"checks and splits along the fasteners: {seen}; one in a split holds little or nothing when it is pulled"
    asked = ask_for(trim, "split_at_fasteners", "fixings.split")
    yield Check.refers("trim.split", trim.name, "checks and splits at the holes", HOLES, text, ask=asked)


def _bolts(trim: Trim, joint: Connection, T: Array) -> Iterator[Check]:
    """The steel of bolts in pull."""
    fastener, name, id, what = joint.group.anchor.fastener, trim.name, "trim.bolt_steel", "pull on the bolts"
    if fastener is None or fastener.kind != "bolt":
        return
    if not fastener.steel:
        text = "the grade of the bolts is not given (`fastener.steel`): their steel cannot be checked"
        asked = ask_for(trim, "bolt_steel", "fixings.fastener.steel")
        yield Check.refers(id, name, what, bolts.STRENGTH, text, ask=asked)
        return
    grade, D = bolt_steel(fastener.steel), bolt(fastener.size).value.D

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        pull = pad.take("T", at(T, which), "lbf", note="on one bolt")
        F_nt = pad.take("F_nt", grade.value.F_nt, "psi", note=grade.reason, source=grade.source)
        T_a = pad(bolts.bolt_tension, F_nt=F_nt, A_b=pad(round_area, symbol="A_b", D=D))
        return Outcome(pull, T_a, pull / T_a)

    criterion = Criterion(name, what, bolts.STRENGTH, "force", id=id)
    yield govern(criterion, joint.group.forces.combinations, calculate)
