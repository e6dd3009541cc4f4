"""What anchor groups cut out of the beams that they hold, and the rods of pieces that hang from a beam."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...formulas.connections import tear_out as tear
from ...formulas.steel.holes import standard_hole
from ...model.anchors.anchor import Anchor, Fastener
from ...model.anchors.manners import MANNERS
from ...model.beams import Beam, beam_length
from ...model.links.hardware import diameter
from ...values.hardware.connections import THIN
from ..core.context import Context
from ..core.wood.group_cut import GroupCut, Void
from ..core.wood.strength import Section
from .group import hole_places, holes_at

NET = "NDS 2018 3.1.2"


def hole_of(fastener: Fastener) -> float:
    """Hole in the wood, inches; 0 for what is driven or screwed in and thinner than 1/4 in: no wood is taken off.

    Raises UnknownName if the tables do not list the size.
    """
    D = diameter(fastener.kind, fastener.size)
    if fastener.kind == "bolt":
        return float(tear.bolt_hole(D))
    return D if fastener.kind == "pin" or (fastener.kind != "nail" and D >= THIN) else 0.0


def anchor_cuts(anchor: Anchor, beam: Beam, index: int, section: Section) -> list[GroupCut]:
    """What the group that holds support `index` takes from the beam: nothing, or all of it as one cut.

    A slot counts through the full depth whatever its height, and every row of holes counts in one section: both are on
    the safe side.

    Raises UnknownName, OutOfRange if the tables do not list the fastener, or the layout does not say where the holes
    are.
    """
    made = MANNERS[anchor.manner]
    if made.aslant or made.in_the_end or not (made.fastened or made.upright):
        return []
    length, support = beam_length(beam), beam.supports[index]
    left = support.at <= 0.5 * length
    d = float(section.d)
    if made.upright:
        return [_rod(anchor, place if left else length - place, d) for place in _rod_places(anchor, beam, index)]
    slot, reach = _slot(anchor)
    x, y = holes_at(anchor, beam, index)
    voids = _voids(anchor, y, float(section.b) - slot)
    if not voids and not slot:
        return []
    across = max((void.height for void in voids), default=0.0)
    start = 0.0 if slot else float(np.min(x)) - 0.5 * across
    end = max([reach, float(np.max(x)) + 0.5 * across] if voids else [reach])
    middle = 0.5 * (start + end) if left else length - 0.5 * (start + end)
    low = 0.0 if slot else min(void.y - 0.5 * void.height for void in voids)
    high = d if slot else max(void.y + 0.5 * void.height for void in voids)
    return [GroupCut(anchor.name, middle, end - start, slot, voids, high - low, 0.5 * (low + high))]


def cuts_by_anchors(beam: Beam, context: Context, section: Section) -> list[GroupCut]:
    """All that anchors take from a beam: at its own supports, and rods of pieces that hang from it."""
    found: list[GroupCut] = []
    for index, support in enumerate(beam.supports):
        if (anchor := context.anchor(support.held_by)) is not None:
            found += anchor_cuts(anchor, beam, index, section)
    return [*found, *_rods_from_below(beam, context, section)]


def slot_width(anchor: Anchor | None) -> float:
    """Breadth that the slot of a concealed plate takes from the seat and the section, inches."""
    return 0.0 if anchor is None else _slot(anchor)[0]


def _slot(anchor: Anchor) -> tuple[float, float]:
    """Width of a slot, and how far it goes in from the end; where it is not said, at least as far as its plate."""
    plate = anchor.plate
    if plate is None or plate.slot is None:  # the rules of the model ask for it where a plate sits in one
        return 0.0, 0.0
    return plate.slot, plate.slot_length if plate.slot_length is not None else plate.length


def _voids(anchor: Anchor, y: np.ndarray, breadth: float) -> tuple[Void, ...]:
    """What each row takes: its holes through the breadth, and what the bores take beside that."""
    fastener = anchor.fastener
    if fastener is None or breadth <= 0.0:
        return ()
    d_h, bore, deep = hole_of(fastener), fastener.counterbore or 0.0, fastener.counterbore_depth or 0.0
    bored = min(deep * MANNERS[anchor.manner].faces_bored, breadth)
    found: list[Void] = []
    for height in dict.fromkeys(round(float(value), 6) for value in y):
        if bore > d_h and bored:
            found.append(Void(height, bore, bored))
        if d_h and breadth > bored:
            found.append(Void(height, d_h, breadth - (bored if bore > d_h else 0.0)))
    return tuple(found)


def _rod(anchor: Anchor, place: float, d: float) -> GroupCut:
    """An upright hole right through: a short slot as wide as the hole."""
    assert anchor.fastener is not None  # the rules of the model ask for it
    d_h = float(standard_hole(diameter(anchor.fastener.kind, anchor.fastener.size)))
    return GroupCut(anchor.name, place, d_h, d_h, (), d, 0.5 * d)


def _rod_places(anchor: Anchor, beam: Beam, index: int) -> list[float]:
    """From the end of the held piece; where nothing is said the rod is in the line of the support."""
    x, _ = hole_places(anchor.holes)
    if x.size:
        return list(dict.fromkeys(float(value) for value in x))
    length, at = beam_length(beam), beam.supports[index].at
    return [at if at <= 0.5 * length else length - at]


def _rods_from_below(beam: Beam, context: Context, section: Section) -> Iterator[GroupCut]:
    for other in context.structure.beams_on(beam.name):
        for support in other.supports:
            anchor = context.anchor(support.held_by)
            if (
                support.on != beam.name
                or anchor is None
                or not MANNERS[anchor.manner].upright
                or anchor.fastener is None
            ):
                continue
            place = 0.5 * beam_length(beam) if support.lands_at is None else min(support.lands_at, beam_length(beam))
            yield _rod(anchor, place, float(section.d))
            if other.spacing is not None:  # it stands for a row of pieces: one of them may hang anywhere
                yield _rod(anchor, 0.5 * beam_length(beam), float(section.d))
