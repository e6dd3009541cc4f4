"""Shear in a level piece: the whole section, near supports, at notches and at holes (NDS 2018 3.4)."""

from __future__ import annotations

import numpy as np

from ..analysis.straight import Straight
from ..formulas import shear as sh
from ..formulas.pad import Pad, SilentPad
from ..model.pieces import Stick
from ..units import show
from .cuts import Region, void_stress
from .demand import Asked, at, govern, stated
from .result import Check
from .strength import Outcome, Section, notch_shear, shear
from .supports import Seat
from .wood import Wood

Array = np.ndarray
ALLOWANCE = (
    "near a seat under load on the top, line loads within the depth d are left out and point loads count x/d "
    "(NDS 2018 3.4.3.1)"
)
NO_ALLOWANCE = "the full shear is taken: {}"


def shear_checks(
    stick: Stick, straight: Straight, seats: list[Seat], regions: list[Region], wood: Wood, section: Section
) -> list[Check]:
    """Full section, then every cut."""
    return [
        _whole(stick, straight, seats, regions, wood, section),
        *(check for region in regions for check in _at_cut(stick, straight, seats, region, wood, section)),
    ]


def why_full(stick: Stick, straight: Straight, seat: Seat, regions: list[Region], d: float) -> str:
    """Why nothing may be left out near this seat; '' when it may (NDS 2018 3.4.3.1, 3.4.3.2)."""
    if seat.support.holds != "rests" or not seat.support.bearing:
        return "the end is not shown to have a full seat"
    if any(load.applied != "top" for load in straight.loads if load.what != "self weight"):
        return "not all loads are said to bear on the top"
    if any(region.start < seat.end + d and region.end > seat.start - d for region in regions):
        return "there is a cut near the support"
    return ""


def _whole(
    stick: Stick, straight: Straight, seats: list[Seat], regions: list[Region], wood: Wood, section: Section
) -> Check:
    """The largest shear anywhere, with what 3.4.3.1 lets one leave out next to each seat."""
    line, d = straight.combined.line, section.d
    reasons = {seat.index: why_full(stick, straight, seat, regions, d) for seat in seats}
    best: Array = np.zeros(len(straight.combinations))
    place: Array = np.zeros(len(straight.combinations))
    share = 0.0 * best
    for start, end in straight.spans:
        from_, to = start, end
        for seat in seats:
            if reasons[seat.index]:
                continue
            reach = 0.5 * (seat.end - seat.start) + d
            if seat.support.at == start and start + reach < end - 1e-6:
                from_ = start + reach
                best, place, share = _near(straight, seat.end, from_, 1.0, d, (best, place, share))
            if seat.support.at == end and end - reach > start + 1e-6:
                to = end - reach
                best, place, share = _near(straight, seat.start, to, -1.0, d, (best, place, share))
        if from_ < to:
            low, s_low, high, s_high = line.extremes("V", from_, to, both_sides=False)
            size = np.maximum(np.abs(low), np.abs(high))
            where = np.where(np.abs(low) > np.abs(high), s_low, s_high)
            best, place, share = (
                np.maximum(best, size),
                np.where(size > best, where, place),
                np.where(size > best, 0.0, share),
            )
    notes = [ALLOWANCE] if not all(reasons.values()) else []
    notes += [NO_ALLOWANCE.format(why) for why in dict.fromkeys(filter(None, reasons.values()))]
    asked = Asked(stick.name, "shear", "NDS 2018 3.4.2", "stress", "", tuple(notes))

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        note = "from the analysis" if isinstance(which, slice) else (
            f"from the analysis, at {show(float(place[which]), 'length')}"
            + (f", with {show(float(share[which]), 'force')} for point loads nearer than d" if share[which] else "")
        )  # fmt: skip
        V = pad.take("V", at(best, which), "lbf", note=note)
        return shear(pad, wood, section, V=V, C_D=at(straight.C_D, which))

    return govern(asked, straight.combinations, calculate)


def _near(
    straight: Straight, face: float, x: float, inward: float, d: float, so_far: tuple[Array, Array, Array]
) -> tuple[Array, Array, Array]:
    """The shear next to a seat: at d from its face, plus x/d of each point load between."""
    best, place, share = so_far
    V = inward * straight.combined.line.at("V", x, "right" if inward > 0 else "left")
    low, high = (face, x) if inward > 0 else (x, face)
    extra = np.zeros_like(best)
    for load_at, P in straight.point_loads_between(low, high):
        extra = extra + SilentPad()(sh.point_load_share, x=abs(load_at - face), d=d) * P
    size = np.abs(V + extra)
    more = size > best
    return np.where(more, size, best), np.where(more, x, place), np.where(more, extra, share)


def _at_cut(
    stick: Stick, straight: Straight, seats: list[Seat], region: Region, wood: Wood, section: Section
) -> list[Check]:
    """Shear where wood is missing, with the full shear of that stretch."""
    if section.round or region.cut.depth >= section.d:
        return []  # cuts.limits has already failed or referred it
    start, end = max(region.start, 0.0), min(region.end, straight.length)
    low, _, high, _ = straight.combined.line.extremes("V", start, end)
    V_all = np.maximum(np.abs(low), np.abs(high))
    notch = region.cut.kind in ("notch", "taper")
    asked = Asked(
        stick.name, f"shear at {region.text}", "NDS 2018 3.4.3.2" if notch else "NDS 2018 3.1.2, 3.4.2",
        "force" if notch else "stress", notes=("the full shear is taken at a cut",),
    )  # fmt: skip
    tension_side = region.cut.face == "bottom" or not region.at_end
    e = _reach(region, seats)
    notes = []
    if (
        notch
        and region.at_end
        and any(seat.support.holds != "rests" for seat in seats if region.start <= seat.support.at <= region.end)
    ):
        notes.append(stated(stick.name, f"end held at {region.text}", "NDS 2018 3.4.3.2", "refer",
                            "a notched end in a hanger: which edge is the tension side is not shown"))  # fmt: skip

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_all, which), "lbf", note="largest at the cut, from the analysis")
        C_D = at(straight.C_D, which)
        if notch:
            return notch_shear(pad, wood, section, V=V, C_D=C_D, depth=region.cut.depth, tension_side=tension_side, e=e)
        return shear(pad, wood, section, V=V, C_D=C_D, stress=lambda pad, V: void_stress(pad, section, region.cut, V))

    return [govern(asked, straight.combinations, calculate), *notes]


def _reach(region: Region, seats: list[Seat]) -> float:
    """How far an end notch runs past the inner edge of the seat, inches."""
    inner = [region.end - seat.end if region.start <= 0.0 else seat.start - region.start for seat in seats
             if region.start <= seat.support.at <= region.end]  # fmt: skip
    return max([0.0, *inner]) if inner else region.end - region.start
