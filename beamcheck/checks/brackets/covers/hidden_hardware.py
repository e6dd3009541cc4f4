"""What a cover hides: how large the hardware of those anchor groups is, and that they belong where it is fixed."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from ....errors import BeamcheckError
from ....model.anchors.anchor import Anchor
from ....model.anchors.manners import MANNERS
from ....model.beams import Beam
from ....model.brackets.bracket import Bracket, Cover
from ....model.frames.frame import Frame
from ....model.joints.joint import Joint
from ....model.links.hardware import diameter
from ....model.roofs import Rafter, Tie
from ....units import show
from ....values.hardware.fasteners import washer
from ....values.judgment import judgment
from ...anchors.group import hole_places
from ...core.asking.question import ask
from ...core.context import Context
from ...core.result import Check
from ..asking import ask_for, path_of
from ..fixings.heads import head_width

SIZE, WHERE = "size of the hidden hardware", "what it hides"


def hidden_checks(bracket: Bracket, cover: Cover, context: Context) -> Iterator[Check]:
    """Whether each hidden group belongs here, and is no larger than the cover says."""
    for name in cover.hides:
        joint = next((one for one in context.structure.all_joints if one.name == name), None)
        if joint is not None:
            yield from _joint_hidden(bracket, cover, joint, context)
            continue
        anchor = context.anchor(name)
        if anchor is None:
            text = f"{name} is not described: neither its place nor its size is known"
            asked = ask_for(bracket, "hides", "cover.hides")
            yield Check.refers("cover.hides", bracket.name, f"{WHERE}: {name}", "load path", text, ask=asked)
            continue
        holds = [(piece, on) for piece in context.structure.sticks_held_by(name) for on in _held_on(piece, name)]
        if anchor.into != bracket.on and not any(bracket.on in (piece.name, on) for piece, on in holds):
            where = f"into {anchor.into}" if anchor.into is not None else "not said into what"
            text = f"{name} is fastened {where} and holds nothing on {bracket.on}, to which this cover is fixed"
            answers = [anchor.into] if anchor.into is not None else []
            asked = ask("cover_on", bracket.name, path_of(bracket, "on"), answers=answers, anchor=name)
            yield Check.refers("cover.hides", bracket.name, f"{WHERE}: {name}", "load path", text, ask=asked)
        yield from _size(bracket, cover, anchor, [piece for piece, _ in holds])


def _joint_hidden(bracket: Bracket, cover: Cover, joint: Joint, context: Context) -> Iterator[Check]:
    """A joint of a frame or post: that it is of what the cover is fixed to, and no larger than the cover says."""
    places = [one for one in (joint.frame, joint.post, *(member.name for member in joint.members)) if one]
    if bracket.on not in (*places, joint.stands_on):
        text = f"{joint.name} joins {', '.join(places)}, and the cover is fixed to {bracket.on}"
        answers = [one for one in (joint.frame, joint.post) if one]
        asked = ask("cover_on", bracket.name, path_of(bracket, "on"), answers=answers, anchor=joint.name)
        what = f"{WHERE}: {joint.name}"
        yield Check.refers("cover.hides", bracket.name, what, "load path", text, ask=asked)
    from ...joints.hidden import hardware_of  # few covers hide one

    width = height = out = 0.0
    for anchor, angle in hardware_of(joint, context):
        along, across = hardware_size(anchor) or (0.0, 0.0)
        c, s = abs(math.cos(math.radians(angle))), abs(math.sin(math.radians(angle)))
        width, height = max(width, along * c + across * s), max(height, along * s + across * c)
        out = max(out, stands_out(anchor))
    needed = (("heads_width", width), ("heads_height", height), ("heads_stand_out", out))
    yield from _too_small(bracket, cover, joint.name, needed)


def on_a_frame(bracket: Bracket, most: float, context: Context) -> Iterator[Check]:
    """Nothing rests on a frame but what its own loads say: something light may hang there, else it is entered.

    most : the largest force of the cover on it, lbf.
    """
    if not isinstance(context.under(bracket.on), Frame):
        return
    id, what, light = "cover.weight", f"its weight on {bracket.on}", judgment("light trim")
    if most <= light.value:
        text = f"{show(most, 'force')}: no more than {show(light.value, 'force')} may hang on a frame unsaid (practice)"
        yield Check.keeps_rule(id, bracket.name, what, "common practice", text)
        return
    text = f"{show(most, 'force')} come to {bracket.on}, whose loads do not hold them"
    asked = ask("cover_weight", bracket.name, on=bracket.on, forces={"down": most})
    yield Check.refers(id, bracket.name, what, "load path", text, ask=asked)


def _held_on(piece: Beam | Rafter | Tie, anchor: str) -> Iterator[str]:
    """What the group holds this piece on ('' where a tie does not say); nothing where it does not hold it."""
    if isinstance(piece, Tie):
        yield from [""] if piece.ends_held_by == anchor else []
        return
    supports = piece.supports if isinstance(piece, Beam) else (piece.wall,)
    yield from (support.on for support in supports if support.held_by == anchor)


def _size(bracket: Bracket, cover: Cover, anchor: Anchor, held: Sequence[Beam | Rafter | Tie]) -> Iterator[Check]:
    """Heads or washers, rows and plates against the width and height that the cover gives."""
    found = hardware_size(anchor)
    if found is None:
        return
    along, across = found
    width, height = along, across
    for piece in held:
        if isinstance(piece, Rafter):  # the box around hardware that lies aslant
            s, c = math.sin(math.radians(piece.slope)), math.cos(math.radians(piece.slope))
            width, height = max(width, along * c + across * s), max(height, along * s + across * c)
    needed = (("heads_width", width), ("heads_height", height), ("heads_stand_out", stands_out(anchor)))
    yield from _too_small(bracket, cover, anchor.name, needed)


def _too_small(bracket: Bracket, cover: Cover, name: str, sizes: Sequence[tuple[str, float]]) -> Iterator[Check]:
    """What the cover gives against what is needed, field by field, in."""
    slack = judgment("rounding of a tape").value
    short = [
        (field, given, needed) for field, needed in sizes
        if (given := getattr(cover, field)) is not None and given < needed - slack
    ]  # fmt: skip
    if short:
        said = [f"`cover.{field}` is {show(given, 'length')}, {name} {show(needed, 'length')}"
                for field, given, needed in short]  # fmt: skip
        text = f"{'; '.join(said)} by its rows, heads or washers and plate: measure it again"
        asked = []
        for field, _, needed in short:
            up = f"{math.ceil(16.0 * needed) / 16.0:g} in"
            asked.append(ask_for(bracket, field, f"cover.{field}", [up], anchor=name))
        yield Check.refers("cover.hardware_size", bracket.name, f"{SIZE}: {name}", "geometry", text, ask=asked)


def stands_out(anchor: Anchor) -> float:
    """Head or nut, washer and plate in front of the wood at least, in; 0 of what is sunk, or not known."""
    fastener, plate = anchor.fastener, anchor.plate
    shows = plate is not None and not MANNERS[anchor.manner].in_a_slot
    out = plate.thickness if plate is not None and shows else 0.0
    if fastener is None or fastener.kind not in ("bolt", "lag screw"):
        return out
    try:
        D, thick = diameter(fastener.kind, fastener.size), washer(fastener.size).value.thickness
    except BeamcheckError:
        return out
    head = judgment("height of a hexagon head over diameter").value * D + (
        thick if fastener.washer is not None else 0.0
    )
    return max(out + head - (fastener.counterbore_depth or 0.0), 0.0)


def hardware_size(anchor: Anchor) -> tuple[float, float] | None:
    """Length along the grain of the held piece and height across it of all that shows, in; None where it is not said.

    A plate in a slot of the wood does not show.
    """
    along = across = 0.0
    if anchor.holes is not None and anchor.fastener is not None:
        try:
            x, y = hole_places(anchor.holes)
        except BeamcheckError:
            return None  # said where the group is checked
        if x.size:
            head = head_width(anchor.fastener)
            along, across = float(np.ptp(x)) + head, float(np.ptp(y)) + head
    if anchor.plate is not None and not MANNERS[anchor.manner].in_a_slot:
        along, across = max(along, anchor.plate.length), max(across, anchor.plate.width)
    return (along, across) if along > 0.0 else None
