"""What anchor groups cut out of the wood: slots, holes, bores; of the beams that they hold, and rods from below.

One group is one cut: its slot goes through the full depth and takes breadth, each row of holes goes through the breadth
and takes depth. All rows are counted in one section, wherever along the piece they stand.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from ...calc.core import Number
from ...calc.pad import Pad
from ...errors import OutOfRange
from ...formulas.connections import tear_out as tear
from ...formulas.steel.holes import standard_hole
from ...formulas.wood import section as sc
from ...formulas.wood import shear as sh
from ...model.anchor_links import diameter
from ...model.anchor_manners import MANNERS
from ...model.anchors import Anchor, Fastener
from ...model.pieces import Beam
from ...model.rules import beam_length
from ...units import show
from ...values.connections import THIN
from ...values.judgment import judgment
from ..core.context import Context
from ..core.strength import Section
from .group import hole_places, holes_at

NET = "NDS 2018 3.1.2"


@dataclass(frozen=True)
class Void:
    """Wood that one row of holes or bores takes: middle above the bottom edge, height, breadth, inches."""

    y: float
    height: float
    breadth: float


@dataclass(frozen=True)
class GroupCut:
    """All that one anchor group takes away, inches. The names of the fields are those of a `Cut` of the job file.

    `at` is the middle along the piece, `width` the breadth of the slot (0: none), `voids` what the rows take besides.
    `depth` and `from_bottom` say what a drawing shows.
    """

    by: str
    at: float
    length: float
    width: float
    voids: tuple[Void, ...]
    depth: float
    from_bottom: float
    kind: Literal["slot"] = "slot"
    face: Literal["side"] = "side"

    @property
    def words(self) -> str:
        """What it is, in a carpenter's words."""
        parts = [f"slot {show(self.width, 'length')} wide"] if self.width else []
        if self.voids:
            parts.append("holes" + (" and bores" if len({void.y for void in self.voids}) < len(self.voids) else ""))
        long = f", {show(self.length, 'length')} along the piece" if self.length else ""
        return f"{' with '.join(parts)}{long} at {show(self.at, 'length')}, cut by anchor {self.by}"


def broadest() -> float:
    """Share of the breadth that a slot may take without an engineer's word."""
    return judgment("slot, share of the breadth").value


def highest() -> float:
    """Share of the depth that rows of holes may take without an engineer's word."""
    return judgment("rows of holes, share of the depth").value


def breadth_left(section: Section, cut: GroupCut) -> float:
    """Beside the slot, inches."""
    return float(section.b) - cut.width


def height_lost(cut: GroupCut) -> float:
    """Of all rows together, bores counted as high as they are, inches."""
    rows: dict[float, float] = {}
    for void in cut.voids:
        rows[void.y] = max(rows.get(void.y, 0.0), void.height)
    return sum(rows.values())


def nothing_is_left(section: Section, cut: GroupCut) -> bool:
    """Whether the slot takes all breadth or the rows all depth."""
    return breadth_left(section, cut) <= 0.0 or height_lost(cut) >= section.d or _area(section, cut) <= 0.0


def _area(section: Section, cut: GroupCut) -> float:
    return breadth_left(section, cut) * float(section.d) - sum(void.breadth * void.height for void in cut.voids)


def slot_net(pad: Pad, section: Section, cut: GroupCut) -> tuple[Number, Number, Number, Number]:
    """Lesser section modulus (in3), area (in2), depth (in), second moment of area (in4) of what is left.

    Raises
    ------
    OutOfRange
        If the rows and bores overlap so much that nothing stiff is left.
    """
    b_n, d = pad.take("b_n", breadth_left(section, cut), "in", note="breadth beside the slot"), float(section.d)
    if not cut.voids:
        left = Section(b_n, section.d, min(float(section.breadth_alone), float(b_n)))
        return left.modulus(pad), left.area(pad), section.d, left.inertia(pad)
    A = pad.take("A_n", _area(section, cut), "in2", clause=NET, note="less all rows of holes, in one section")
    first = float(b_n) * d * d / 2.0 - sum(void.breadth * void.height * void.y for void in cut.voids)
    y_bar = pad.take("y_bar", first / float(A), "in", note="centroid above the bottom edge")
    own = float(pad(sc.rectangle_inertia, symbol="I", b=b_n, d=section.d))
    I_n = own + float(b_n) * d * (0.5 * d - float(y_bar)) ** 2 - sum(
        void.breadth * (void.height**3 / 12.0 + void.height * (void.y - float(y_bar)) ** 2) for void in cut.voids
    )  # fmt: skip
    if I_n <= 0.0:
        raise OutOfRange(f"the holes and bores of anchor {cut.by} overlap: no section is left", NET)
    I_net = pad.take("I_n", I_n, "in4", clause=NET, note="of what is left")
    S = I_n / max(float(y_bar), d - float(y_bar))
    return pad.take("S_n", S, "in3", clause=NET, note="the smaller of bottom and top"), A, section.d, I_net


def slot_shear(pad: Pad, section: Section, cut: GroupCut, V: Number) -> Number:
    """Shear stress at the group, psi: 3/2 of the mean on what is left. NDS 2018 3.4.3.3 is asked in the group."""
    b_n = pad.take("b_n", breadth_left(section, cut), "in", note="breadth beside the slot")
    lost = sum(void.breadth * void.height for void in cut.voids) / float(b_n)
    d_n = pad.take("d_n", float(section.d) - lost, "in", note="depth less the rows of holes")
    return pad(sh.shear_stress, V=V, b=b_n, d=d_n)


# ---- from the groups to their cuts ---------------------------------------------------------------------------------


def hole_of(fastener: Fastener) -> float:
    """Hole in the wood, inches; 0 for what is driven or screwed in and thinner than 1/4 in: no wood is taken off.

    Raises
    ------
    UnknownName
        If the tables do not list the size.
    """
    D = diameter(fastener.kind, fastener.size)
    if fastener.kind == "bolt":
        return float(tear.bolt_hole(D))
    return D if fastener.kind == "pin" or (fastener.kind != "nail" and D >= THIN) else 0.0


def anchor_cuts(anchor: Anchor, beam: Beam, index: int, section: Section) -> list[GroupCut]:
    """What the group that holds support `index` takes from the beam: nothing, or all of it as one cut.

    A slot counts through the full depth whatever its height, and every row of holes counts in one section: both are on
    the safe side.

    Raises
    ------
    UnknownName, OutOfRange
        If the tables do not list the fastener, or the layout does not say where the holes are.
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
    if plate is None or (not MANNERS[anchor.manner].in_a_slot and plate.slot is None):
        return 0.0, 0.0
    reach = plate.slot_length if plate.slot_length is not None else plate.length
    return max(plate.slot or 0.0, plate.thickness), reach


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
