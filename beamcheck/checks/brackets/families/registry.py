"""Which family a bracket belongs to: one class each, found by the word of the job file."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from ....model.brackets.bracket import Bracket
from ..family import Family
from .bent import BentArc
from .braced import BracedBracket
from .concealed_bar import ConcealedBar
from .corbel import CorbelBlock
from .solid import SolidBracket

FAMILIES: Mapping[str, type[Family[Any]]] = MappingProxyType({
    "solid": SolidBracket, "braced": BracedBracket, "bent": BentArc, "steel core": ConcealedBar, "corbel": CorbelBlock,
})  # fmt: skip


def family_of(bracket: Bracket) -> Family[Any]:
    """A bracket as its family sees it."""
    shape = bracket.shape
    return FAMILIES[shape.family](bracket, shape)
