"""What a look-up hands back."""

from __future__ import annotations

from typing import Generic, NamedTuple, TypeVar

from ..provenance import Source

T = TypeVar("T")


class Found(NamedTuple, Generic[T]):
    """A value, where it comes from, and the reason for it in words."""

    value: T
    source: Source
    reason: str
