"""Whether what is said of an anchor group can be: what contradicts itself, or is less than usual, refers."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...errors import BeamcheckError
from ...units import show
from ...values import fasteners
from ..core.govern import stated
from ..core.material import is_unknown
from ..core.result import Check
from .fastener import FAMILIES, dowel_of
from .group import Group
from .steel import PLATED, margins_of

LEAST_EDGE = (
    1.5  # D, from a hole to the edge of a plate; AISC 360-16 Table J3.4 has 1.25 to 1.5 D for these sizes (memory)
)
TOE_NAIL_APART = 10.0  # D: commentary value for nails not bored ahead (memory)
ABOVE_TABLE = 1.25  # times the bending yield strength of the table: beyond that the maker's paper is to be seen
HAIR = 1e-6


def sense_checks(group: Group) -> list[Check]:
    """Contradictions and oddities of a group, each a check that refers."""
    name = group.anchor.name
    texts = [*_moisture(group), *_plate(group), *_fastener(group), *_stands_off(group), *_rated(group)]
    return [stated(name, what, clause, "refer", text) for what, clause, text in texts]


Doubt = tuple[str, str, str]


def _moisture(group: Group) -> Iterator[Doubt]:
    if group.anchor.seasoned != "dry":
        return
    for stock in (group.stock, group.into_stock):
        if stock is not None and stock.moisture != "dry":
            yield (
                "wood put together dry", "NDS 2018 11.3.3",
                f"the group is said to be put together dry, but stock {stock.name!r} is {stock.moisture}",
            )  # fmt: skip


def _plate(group: Group) -> Iterator[Doubt]:
    anchor, plate = group.anchor, group.anchor.plate
    if plate is None or anchor.manner not in PLATED or group.x.size == 0:
        return
    if plate.slot_length is not None and plate.slot_length < plate.length - HAIR:
        yield (
            "plate in its slot", "geometry",
            f"the plate is {show(plate.length, 'length')} long and its slot {show(plate.slot_length, 'length')}: how "
            "much of it lies in the wood, and how far it stands out, is not given",
        )  # fmt: skip
    if plate.slot is not None and anchor.gap > max(plate.slot - plate.thickness, 0.0) + HAIR:
        yield (
            "gap beside the plate", "geometry",
            f"a gap of {show(anchor.gap, 'length')} does not fit a slot of {show(plate.slot, 'length')} with a plate "
            f"of {show(plate.thickness, 'length')} in it",
        )  # fmt: skip
    try:
        margins, D = margins_of(group, plate), dowel_of(anchor.fastener).D if anchor.fastener else 0.0
    except BeamcheckError:
        return  # said where the plate is checked
    if min(margins.across, margins.along) < LEAST_EDGE * D - HAIR:
        yield (
            "holes near the edge of the plate", "AISC 360-16 Table J3.4 (memory)",
            f"{show(min(margins.across, margins.along), 'length')} from the middle of a hole to the edge of the plate; "
            f"less than {LEAST_EDGE:g} times the diameter is not taken here",
        )  # fmt: skip


def _fastener(group: Group) -> Iterator[Doubt]:
    anchor, fastener = group.anchor, group.anchor.fastener
    if fastener is None:
        return
    try:
        dowel = dowel_of(fastener)
    except BeamcheckError:
        return  # said where it is looked up
    if fastener.washer is not None and fastener.kind in ("bolt", "lag screw"):
        standard = fasteners.washer(fastener.size).value.outer
        if fastener.washer < standard - HAIR:
            yield (
                "washers", "NDS 2018 12.1.3",
                f"{show(fastener.washer, 'length')} across is less than a standard cut washer of that size "
                f"({show(standard, 'length')})",
            )  # fmt: skip
    if fastener.F_yb is not None:
        try:
            usual = fasteners.bending_yield(FAMILIES[fastener.kind], dowel.D).value
        except BeamcheckError:
            usual = 0.0
        if fastener.F_yb > ABOVE_TABLE * usual:
            yield (
                "bending yield strength", "NDS 2018 Appendix I",
                f"{show(fastener.F_yb, 'stress')} is far above the table's {show(usual, 'stress')} for that fastener: "
                "an engineer must see the maker's document",
            )  # fmt: skip
    if anchor.manner == "toe-nails":
        yield from _toe_nails(group, dowel.D)
    if anchor.manner == "hanger rod":
        yield from _rod(group, dowel.washer or 0.0)


def _toe_nails(group: Group, D: float) -> Iterator[Doubt]:
    if D >= 0.25 - HAIR:
        yield (
            "toe-nails",
            "NDS 2018 12.1.6",
            "nails of 1/4 in and more driven aslant may split the wood",
        )
    apart = np.hypot(group.x[:, None] - group.x[None, :], group.y[:, None] - group.y[None, :])
    np.fill_diagonal(apart, np.inf)
    if apart.size and float(apart.min()) < TOE_NAIL_APART * D:
        yield (
            "toe-nails", "NDS 2018 12.1.6",
            f"{show(float(apart.min()), 'length')} apart: within {TOE_NAIL_APART:g} diameters they may split it",
        )  # fmt: skip


def _rod(group: Group, washer: float) -> Iterator[Doubt]:
    if washer > float(group.section.b) + HAIR:
        yield (
            "washer of the rod", "NDS 2018 3.10.2",
            f"the washer is {show(washer, 'length')} across, the piece {show(float(group.section.b), 'length')}",
        )  # fmt: skip
    if group.anchor.split == "check across the holes":
        yield "checks and splits at the rod", "NDS 2018 11.1", "a check or split runs through the hole of the rod"


def _stands_off(group: Group) -> Iterator[Doubt]:
    anchor = group.anchor
    if anchor.manner == "ledger" and anchor.arm is not None and anchor.arm <= 0.0:
        yield (
            "couple between load and wall", "statics",
            "a seat on a ledger cannot lie in the face of the wall: give how far its middle is (`arm`)",
        )  # fmt: skip


def _rated(group: Group) -> Iterator[Doubt]:
    anchor, rating = group.anchor, group.anchor.rating
    if anchor.manner != "rated hardware" or rating is None:
        return
    what, clause = "conditions of the rating", "evaluation report"
    if not any(map(str.isdigit, rating.source)):
        yield what, clause, f"the source {rating.source!r} names no report by its number"
    if is_unknown(group.stock):
        yield what, clause, "the wood is not known, so nobody can say that the rating holds for it"
    if anchor.split != "none seen":
        yield what, clause, "look whether a check or split runs through the fastenings, and say so (`split`)"
    if anchor.gap > 0.0:
        yield (
            what,
            clause,
            f"a gap of {show(anchor.gap, 'length')} in the joint: published loads are for faces that touch",
        )
    if group.stock.temperature > 100.0 or group.stock.moisture != "dry":
        yield (
            what,
            clause,
            "the wood is not dry and cool in service: published loads are for wood that is",
        )
