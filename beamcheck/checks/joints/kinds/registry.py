"""Every kind of joint by its name in the job file: the one place where a joint finds its rules."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from ....model.joints.joint import Joint
from .base import Kind
from .bolted import BoltedBetween, BoltedLap
from .carpentry.step import StepJoint
from .carpentry.tenon import MortiseAndTenon
from .concrete import ConcreteAnchor
from .inclined import InclinedScrews
from .ledger import LedgerRow
from .others import BondedRods, ByOthers, Rated, Scarf
from .plated import KnifePlate, Plated, StrapJoint
from .post_ends.post_base import PostBase
from .post_ends.post_cap import PostCap

REGISTRY: Mapping[str, Kind] = MappingProxyType({
    kind.name: kind
    for kind in (
        StepJoint(), BoltedLap(), BoltedBetween(), Plated(), KnifePlate(), StrapJoint(), MortiseAndTenon(), PostBase(),
        Rated(), ByOthers(), Scarf(), BondedRods(), PostCap(), LedgerRow(),
        ConcreteAnchor(), InclinedScrews(),
    )
})  # fmt: skip


def kind_of(joint: Joint) -> Kind:
    """The kind of a joint."""
    return REGISTRY[joint.kind]
