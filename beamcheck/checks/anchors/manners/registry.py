"""Every manner of anchoring by its name in the job file: the one place where a group finds its rules."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from ....model.anchors.anchor import Anchor
from ...core.result import Check
from ..fasteners.connection import Connection
from ..group import Group
from .base import Manner
from .hanger_rod import HangerRod
from .no_joint import ByOthers, HoldsNothing
from .plates import Concealed, LetIn, OneSide, TwoSides
from .rated_hardware import RatedHardware
from .toe_nails import ToeNails
from .wood import BothSides, IntoTheEnd, Lap, Ledger

REGISTRY: Mapping[str, Manner] = MappingProxyType({
    manner.name: manner
    for manner in (
        Lap(), BothSides(), IntoTheEnd(), Ledger(), OneSide(), LetIn(), TwoSides(), Concealed(), ToeNails(),
        HangerRod(), RatedHardware(), ByOthers(), HoldsNothing(),
    )
})  # fmt: skip


def manner_of(anchor: Anchor) -> Manner:
    """The manner of an anchor group."""
    return REGISTRY[anchor.manner]


def connect(group: Group) -> Connection:
    """The group with its joint and the spread of its force, resolved once for all checks.

    Raises NotSaid, UnknownName, OutOfRange if there is no value.
    """
    return manner_of(group.anchor).connection(group)


def resolved(group: Group) -> Connection | Check:
    """The same, or the check that says why there is no value."""
    return manner_of(group.anchor).resolved(group)
