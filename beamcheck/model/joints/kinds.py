"""The kinds of joint: which parts each has, what each of its members is there, and what the job file must say.

How strong each is stands in `checks/joints/kinds/`; both sides find a kind by the name that the job file writes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from types import MappingProxyType
from typing import Literal

from ...records import dataclass

JointKind = Literal[
    "step", "bolted lap", "bolted between", "plates both sides", "knife plate", "strap", "mortise and tenon",
    "post base", "rated", "by others", "scarf", "bonded rods", "post cap", "ledger",
    "concrete anchor", "inclined screws",
]  # fmt: skip
Part = Literal[
    "notched",
    "landing",
    "between",
    "outside",
    "mortised",
    "tenoned",
    "strapped",
    "hung",
    "standing",
    "lying",
    "ledger",
    "behind",
]

_ANY = 12  # members that meet at one joint


@dataclass(frozen=True)
class MadeOf:
    """What a kind of joint is made of.

    `roles`: what a member is there, and how many of it there are, from and up to; empty where all are alike. `members`:
    how many members there are, from and up to. `needed`, `may`: fields that it must have, and may have beside them.
    `laid_out`: members say where their holes are. `plated`: members say which plate lies on them. `fasteners`: kinds of
    fastener that do. `why`: why the rest does not belong to it. `founded`: it may stand on something that is no member
    of it; what a cap or strap does not balance is a slip. `hung`: members say how high the hardware sits on their side.
    """

    members: tuple[int, int]
    why: str
    roles: Mapping[str, tuple[int, int]] = field(default_factory=dict)
    needed: tuple[str, ...] = ()
    may: tuple[str, ...] = ()
    laid_out: bool = False
    plated: bool = False
    fasteners: tuple[str, ...] = ()
    founded: bool = True
    hung: bool = False


_LAID = ("gap", "split", "seasoned", "clamped")
MADE: Mapping[str, MadeOf] = MappingProxyType({
    "step": MadeOf((2, 3), "one or two pieces press into a notch of another", {"notched": (1, 1), "landing": (1, 2)},
                   ("step",), ("rating",)),
    "bolted lap": MadeOf((2, 2), "two pieces lie side by side, bolted or screwed together", {}, ("fastener",),
                         (*_LAID, "twist_held_by"), laid_out=True, fasteners=("bolt", "lag screw", "wood screw")),
    "bolted between": MadeOf((2, 2), "a piece lies between two others, bolted right through",
                             {"between": (1, 1), "outside": (1, 1)}, ("fastener",), _LAID, laid_out=True,
                             fasteners=("bolt",)),
    "plates both sides": MadeOf((1, _ANY), "steel plates on both faces hold each piece by bolts of its own", {},
                                ("fastener",), _LAID, laid_out=True, plated=True, fasteners=("bolt",)),
    "knife plate": MadeOf((1, _ANY), "a steel plate in slots holds each piece by bolts or pins of its own", {},
                          ("fastener",), _LAID, laid_out=True, plated=True, fasteners=("bolt", "pin")),
    "strap": MadeOf((2, 2), "a strap under one piece hangs it on another", {"strapped": (1, 1), "hung": (1, 1)},
                    ("fastener", "strap"), _LAID, laid_out=True, fasteners=("bolt",), founded=False),
    "mortise and tenon": MadeOf((2, 2), "a tenon of one piece sits in a mortise of the other",
                                {"mortised": (1, 1), "tenoned": (1, 1)}, ("tenon",), ("split",)),
    "post base": MadeOf((1, 1), "a steel base carries the foot of a post above the floor", {}, ("base",),
                        ("fastener", *_LAID), laid_out=True, plated=True, fasteners=("bolt", "pin")),
    "post cap": MadeOf((2, 3), "one or two beams lie on a steel cap over a post", {"standing": (1, 1), "lying": (1, 2)},
                       ("cap",), ("fastener", *_LAID), laid_out=True, plated=True, fasteners=("bolt",), founded=False),
    "ledger": MadeOf((2, 2), "a ledger lies against a row of studs or a rim", {"ledger": (1, 1), "behind": (1, 1)},
                     ("fastener", "row"), (*_LAID, "confirmed_by"), laid_out=True,
                     fasteners=("bolt", "lag screw", "wood screw")),
    "concrete anchor": MadeOf((1, 1), "anchors hold a piece of wood on concrete, by their report", {},
                              ("fastener", "rating", "embedded"), (*_LAID, "twist_held_by"), laid_out=True,
                              fasteners=("bolt",)),
    "inclined screws": MadeOf((2, 2), "long screws at an angle hold two pieces by a report", {}, ("rating", "screws"),
                              ("split", "gap")),
    "rated": MadeOf((1, _ANY), "it holds what a report says and no more", {}, ("rating",), ("split",), hung=True),
    "by others": MadeOf((1, _ANY), "somebody else answers for it and nothing of it is checked here", {}, (),
                        ("confirmed_by",)),
    "scarf": MadeOf((2, 2), "two pieces are cut to hook into each other", {}, (), ("confirmed_by",)),
    "bonded rods": MadeOf((1, _ANY), "rods are glued into the wood", {}, (), ("confirmed_by", "fastener")),
})  # fmt: skip
PARTS = (
    "fastener", "step", "tenon", "strap", "base", "cap", "row", "screws", "embedded", "rating", "confirmed_by",
    "twist_held_by", "gap", "clamped",
)  # fmt: skip
