"""Whether nails that are named in words reach from one ply into the next."""

from __future__ import annotations

import re

from .....units import show
from .....values.hardware.fasteners import nail, nail_sizes
from ...asking.question import PlausibleAnswer

_PENNY = re.compile(r"\b(\d{1,2})[\s-]?(?:d|penny)\b", re.IGNORECASE)
BOLTS = "1/2 in bolts with washers, two rows, 24 in apart, staggered"
INTO = 6.0  # diameters that a nail goes into what it holds at least (NDS 2018 12.1.6.5)


def falls_short(words: str, thick: float) -> str:
    """Why none of the nails reaches from a ply so thick (in) into the next; '' where one does, or none is named."""
    named = [
        nail("common", f"{penny}d").value for penny in _PENNY.findall(words) if f"{penny}d" in nail_sizes("common")
    ]
    if not named:
        return ""
    longest = max(named, key=lambda one: one.L)
    if longest.L - thick >= INTO * longest.D:
        return ""
    return (
        f"nails {show(longest.L, 'length')} long do not join plies {show(thick, 'length')} thick: "
        f"{show(INTO * longest.D, 'small length')} in the next ply is the least"
    )


def bolts_at(path: str) -> list[PlausibleAnswer]:
    """What joins plies that nails do not reach through."""
    return [PlausibleAnswer(BOLTS, ((path, BOLTS),))]
