"""The class of each kind of table of a job file, loaded when a job has one: most jobs have no brackets and no frames.

What a thing is can be asked without loading its class, too: of a class that nobody has loaded there is no thing.
"""

from __future__ import annotations

import sys
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from typing_extensions import TypeIs

    from .anchors.anchor import Anchor
    from .brackets.bracket import Bracket, Trim
    from .fields.base import Piece
    from .frames.frame import Frame, FrameStick
    from .joints.joint import Joint

HEADS = ("job", "site")  # tables of which a job has one
_WHERE = {
    "job": ("job", "About"), "site": ("site", "Site"), "roof": ("site", "RoofArea"), "floor": ("site", "FloorArea"),
    "stock": ("stock", "Stock"), "beam": ("beams", "Beam"), "rafter": ("roofs", "Rafter"), "tie": ("roofs", "Tie"),
    "post": ("posts", "Post"), "frame": ("frames.frame", "Frame"), "existing": ("existing", "Existing"),
    "anchor": ("anchors.anchor", "Anchor"), "joint": ("joints.joint", "Joint"),
    "bracket": ("brackets.bracket", "Bracket"), "trim": ("brackets.bracket", "Trim"),
    "movement": ("conditions.movement", "Movement"), "answer": ("answers", "GivenAnswer"),
    "ruling": ("answers", "Ruling"),
}  # fmt: skip
KINDS = tuple(_WHERE)


@cache
def class_of(kind: str) -> type[Piece]:
    """The class of a kind of table."""
    module, name = _WHERE[kind]
    found: type[Piece] = getattr(import_module(f".{module}", __package__), name)
    return found


def type_of(kind: str) -> Any:
    """What stands in a job under the name of a kind: one table, or any number of them."""
    return class_of(kind) if kind in HEADS else tuple[class_of(kind), ...]  # type: ignore[misc]


def _is(thing: object, module: str, name: str) -> bool:
    loaded = sys.modules.get(f"{__package__}.{module}")
    return loaded is not None and isinstance(thing, getattr(loaded, name))


def is_anchor(thing: object) -> TypeIs[Anchor]:
    return _is(thing, "anchors.anchor", "Anchor")


def is_bracket(thing: object) -> TypeIs[Bracket]:
    return _is(thing, "brackets.bracket", "Bracket")


def is_trim(thing: object) -> TypeIs[Trim]:
    return _is(thing, "brackets.bracket", "Trim")


def is_frame(thing: object) -> TypeIs[Frame]:
    return _is(thing, "frames.frame", "Frame")


def is_member(thing: object) -> TypeIs[FrameStick]:
    return _is(thing, "frames.frame", "FrameStick")


def is_joint(thing: object) -> TypeIs[Joint]:
    return _is(thing, "joints.joint", "Joint")
