"""The manners of anchoring: what each is made of, what the job file must say of it, and which fasteners do.

How strong each is stands in `checks/anchors/manners/`; both sides find a manner by the name that the job file writes.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from ...records import dataclass

Manner = Literal[
    "wood side", "wood both sides", "into the end", "plate one side", "plates both sides", "concealed plate", "ledger",
    "hanger rod", "let-in angle", "toe-nails", "rated hardware", "by others", "holds nothing",
]  # fmt: skip
Held = Literal["other", "held"]

NAILED: tuple[str, ...] = ("bolt", "lag screw", "wood screw", "nail")
ANY: tuple[str, ...] = (*NAILED, "pin")
_WOOD = ("fastener", "holes", "other")
_STEEL = ("fastener", "holes", "plate")
_LAID = ("gap", "arm")


@dataclass(frozen=True)
class Made:
    """What a manner is made of.

    `needed`, `may`: fields that it must have, and may have beside them. `kinds`: kinds of fastener that do; none where
    it has none of its own. `why`: why the rest does not belong to it. `fastened`: a joint of the held wood with
    fasteners of its own. `planes`: shear planes of each fastener. `plates`: steel plates, or legs of angles. `sheets`,
    `gaps`, `others`: plates, gaps and other members that a fastener right through crosses outside of the held piece.
    `bores`: bores that one fastener right through has in wood, for its head and its nut. `faces_bored`: how many of
    them are in the held piece. `point`: 'other' or 'held': the member that holds the point of a screw or nail.
    `in_a_slot`, `let_in`, `aslant`, `upright`, `in_the_end`: the plate sits in a slot; its leg in a recess; the
    fasteners are driven aslant; stand upright in the piece; go along its grain into its end. `in_line`: the line of its
    support runs through the middle of its fasteners, whatever its `arm`. `hangs`: an end can hang in it without a seat.
    `beside`: the held piece lies along the face of what carries it; ends in other manners butt against that face.
    `holds`: it holds something.
    """

    needed: tuple[str, ...]
    may: tuple[str, ...]
    kinds: tuple[str, ...]
    why: str
    fastened: bool = True
    planes: int = 1
    plates: int = 0
    sheets: int = 0
    gaps: int = 1
    others: int = 0
    bores: int = 1
    faces_bored: int = 1
    point: Held = "other"
    in_a_slot: bool = False
    let_in: bool = False
    aslant: bool = False
    upright: bool = False
    in_the_end: bool = False
    in_line: bool = False
    hangs: bool = True
    beside: bool = False
    holds: bool = True


MANNERS: Mapping[str, Made] = MappingProxyType({
    "wood side": Made(_WOOD, (*_LAID, "twist_held_by", "on_girder"), ANY, "it is wood against wood or concrete",
                      others=1, bores=2, beside=True),
    "wood both sides": Made(_WOOD, (*_LAID, "on_girder"), ("bolt",),
                            "it stands between two pieces of wood, bolted right through", planes=2, gaps=2,
                            others=2, bores=2, faces_bored=0, beside=True),
    "into the end": Made(_WOOD, ("gap", "on_girder"), ("lag screw", "wood screw", "nail"),
                         "they are driven through the other side into the end of the piece", point="held",
                         in_the_end=True, in_line=True),
    "plate one side": Made(_STEEL, (*_LAID, "twist_held_by"), NAILED, "the plate is its other side", plates=1, sheets=1,
                           point="held"),
    "plates both sides": Made(_STEEL, (*_LAID, "back"), ("bolt",), "two plates are its other side", planes=2,
                              plates=2, sheets=2, gaps=2, bores=0, faces_bored=2),
    "concealed plate": Made(_STEEL, (*_LAID, "back"), ("bolt", "pin"), "what goes right through holds it",
                            planes=2, plates=1, gaps=0, bores=2, faces_bored=2, in_a_slot=True),
    "ledger": Made(_WOOD, (*_LAID, "on_girder"), ANY, "a ledger is wood against wood or concrete", others=1, bores=2,
                   in_line=True),
    "hanger rod": Made(("fastener",), ("holes", "twist_held_by"), ("bolt",),
                       "a rod goes through, with nut and washer at its ends", fastened=False, upright=True,
                       in_line=True),
    "let-in angle": Made(_STEEL, (*_LAID, "twist_held_by"), NAILED, "the angle is its other side", plates=1,
                         point="held", let_in=True, hangs=False),
    "toe-nails": Made(_WOOD, ("gap", "on_girder"), ("nail",), "they are nails driven aslant into the other side",
                      aslant=True, in_line=True),
    "rated hardware": Made(("rating",), ("fastener", "gap", "on_girder"), ANY,
                           "it holds what its report says and no more", fastened=False),
    "by others": Made((), ("confirmed_by", "on_girder"), (),
                      "somebody else answers for it and nothing of it is checked here", fastened=False),
    "holds nothing": Made((), (), (), "it counts for nothing, whatever it is", fastened=False, hangs=False,
                          holds=False),
})  # fmt: skip
PARTS = (
    "fastener", "holes", "plate", "other", "gap", "arm", "rating", "confirmed_by", "twist_held_by", "on_girder",
    "back",
)  # fmt: skip


def says_heights(manner: str) -> bool:
    """Whether a manner can say how high it sits on the side of what carries it."""
    return "on_girder" in MANNERS[manner].may


def kinds_for(manner: str) -> tuple[str, ...]:
    """The kinds of fastener that a manner takes; none for what has no fasteners of its own."""
    return MANNERS[manner].kinds if manner in MANNERS else ()
