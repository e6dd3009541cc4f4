"""Shear in a level piece: the whole section, near supports, at notches and at holes (NDS 2018 3.4)."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ...analysis.beams.straight import Straight
from ...calc.pad import Pad, SilentPad
from ...formulas.wood import shear as sh
from ...model.pieces import Stick
from ...units import show
from ..core.govern import Criterion, at, duration, govern, stated
from ..core.material import WoodMaterial
from ..core.result import Check
from ..core.strength import Outcome, Section, notch_shear, shear
from .bearing import Seat
from .cuts import NOTCHES, Region, has_net_section, void_stress

Array = np.ndarray
STUB = 0.01  # of the largest moment: less than this, as the end of a piece beyond its seat brings, pulls on no edge
ALLOWANCE = (
    "near a seat under load on the top, line loads within the depth d are left out and point loads count x/d "
    "(NDS 2018 3.4.3.1)"
)
SPLITTING = "what a notch risks is splitting along the grain from its corner, long before bending tells"
NO_ALLOWANCE = "the full shear is taken: {}"


def shear_checks(
    stick: Stick,
    straight: Straight,
    seats: Sequence[Seat],
    regions: Sequence[Region],
    wood: WoodMaterial,
    section: Section,
) -> list[Check]:
    """Full section, then every cut."""
    return [
        _whole(stick, straight, seats, regions, wood, section),
        *(check for region in regions for check in _at_cut(stick, straight, seats, region, wood, section)),
    ]


def why_full(straight: Straight, seat: Seat, regions: Sequence[Region], section: Section) -> str:
    """Why nothing may be left out near this seat; '' when it may (NDS 2018 3.4.3.1, 3.4.3.2)."""
    support, d = seat.support, section.d
    if support.holds != "rests" or not support.bearing:
        return "the end is not shown to have a full seat"
    if support.bearing_width is not None and support.bearing_width < section.b:
        return "a seat is narrower than the piece"
    if any(load.applied != "top" for load in straight.loads):
        return "not all loads are said to bear on the top"
    if any(load.lifts for load in straight.loads):
        return "some load lifts"
    if any(region.start < seat.end + d and region.end > seat.start - d for region in regions):
        return "there is a cut near the support"
    return ""


def _whole(
    stick: Stick,
    straight: Straight,
    seats: Sequence[Seat],
    regions: Sequence[Region],
    wood: WoodMaterial,
    section: Section,
) -> Check:
    """The largest shear anywhere, with what 3.4.3.1 lets one leave out next to each seat."""
    d = float(section.d)
    reasons = {seat.index: why_full(straight, seat, regions, section) for seat in seats}
    worst = _Worst(straight)
    for start, end in straight.spans:
        left = [seat.end for seat in seats if seat.support.at == start and not reasons[seat.index]]
        right = [seat.start for seat in seats if seat.support.at == end and not reasons[seat.index]]
        from_, to = (left[0] + d if left else start), (right[0] - d if right else end)
        if from_ >= to:  # all of the span lies within d of a seat
            too_short = [seat.index for seat in seats if seat.support.at in (start, end)]
            reasons |= {index: reasons[index] or "a span is too short to leave anything out" for index in too_short}
            worst.between(start, end)
            continue
        worst.between(from_, to)
        if left:
            worst.near(left[0], from_, d)
        if right:
            worst.near(right[0], to, d)
    notes = [ALLOWANCE] if not all(reasons.values()) else []
    notes += [NO_ALLOWANCE.format(why) for why in dict.fromkeys(filter(None, reasons.values()))]
    criterion = Criterion(stick.name, "shear", "NDS 2018 3.4.2", "stress", "", tuple(notes))

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(worst.V, which), "lbf", note="" if isinstance(which, slice) else worst.words(which))
        return shear(pad, wood, section, V=V, C_D=duration(pad, straight.combinations, which))

    return govern(criterion, straight.combinations, calculate)


class _Worst:
    """The largest shear so far under each combination, where it is, and the part of it from point loads near a seat."""

    def __init__(self, straight: Straight) -> None:
        self.straight = straight
        self.V: Array = np.zeros(len(straight.combinations))
        self.place, self.share = 0.0 * self.V, 0.0 * self.V

    def between(self, start: float, end: float) -> None:
        """The span without its neighbours: just inside its ends."""
        low, s_low, high, s_high = self.straight.shears(start, end, both_sides=False)
        down = np.abs(low) > np.abs(high)
        self._take(np.where(down, np.abs(low), np.abs(high)), np.where(down, s_low, s_high), 0.0 * self.V)

    def near(self, face: float, x: float, d: float) -> None:
        """Next to a seat: the shear at d from its face, and x/d of each point load between."""
        inward = 1.0 if x > face else -1.0
        # a load that stands right at d counts in full: read before it, coming from the seat
        V = inward * self.straight.combined.line.at("V", x, "left" if inward > 0 else "right")
        share = 0.0 * V
        for load_at, P in self.straight.point_loads_between(min(face, x), max(face, x)):
            share = share + SilentPad()(sh.point_load_share, x=abs(load_at - face), d=d) * P
        self._take(np.abs(V + share), np.full_like(V, x), share)

    def _take(self, size: Array, place: Array, share: Array) -> None:
        more = size > self.V
        self.V = np.where(more, size, self.V)
        self.place, self.share = np.where(more, place, self.place), np.where(more, share, self.share)

    def words(self, which: int) -> str:
        where = f"from the analysis, at {show(float(self.place[which]), 'length')}"
        share = float(self.share[which])
        return where + (f", with {show(share, 'force')} for point loads nearer than d" if share else "")


def _at_cut(
    stick: Stick, straight: Straight, seats: Sequence[Seat], region: Region, wood: WoodMaterial, section: Section
) -> list[Check]:
    """Shear where wood is missing, with the full shear of that stretch."""
    if not has_net_section(section, region.cut):
        return []  # cut_rules.py has already failed or referred it
    low, _, high, _ = straight.shears(region.start, region.end)
    V_all = np.maximum(np.abs(low), np.abs(high))
    notch = region.cut.kind in NOTCHES
    criterion = Criterion(
        stick.name, f"shear at {region.text}", "NDS 2018 3.4.3.2" if notch else "NDS 2018 3.1.2, 3.4.2",
        "force" if notch else "stress", notes=("the full shear is taken at a cut", *([SPLITTING] if notch else [])),
    )  # fmt: skip
    tension_side = not _on_compression_side(straight, region, float(section.d))
    found = []
    if notch and any(seat.support.holds != "rests" for seat in seats if region.start <= seat.support.at <= region.end):
        found.append(stated(stick.name, f"end held at {region.text}", "NDS 2018 3.4.3.2", "refer",
                            "a notched end in a hanger: which edge is the tension side is not shown"))  # fmt: skip

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_all, which), "lbf", note="largest at the cut, from the analysis")
        C_D = duration(pad, straight.combinations, which)
        if notch:
            return notch_shear(
                pad, wood, section, V=V, C_D=C_D, depth=region.cut.depth, tension_side=tension_side,
                e=region.past_seat,
            )  # fmt: skip
        return shear(pad, wood, section, V=V, C_D=C_D, stress=lambda pad, V: void_stress(pad, section, region.cut, V))

    return [govern(criterion, straight.combinations, calculate), *found]


def _on_compression_side(straight: Straight, region: Region, d: float) -> bool:
    """An end notch in the top, where no combination pulls on the top from the seat to a depth beyond the notch.

    Every other notch takes the rule of the tension side, which is the lower of the two.
    """
    if not region.at_end or region.cut.face != "top":
        return False
    low, *_ = straight.moments(max(region.start - d, 0.0), min(region.end + d, straight.length))
    return float(np.max(-low)) <= _small(straight)


def _small(straight: Straight) -> float:
    low, _, high, _ = straight.moments(0.0, straight.length)
    return STUB * float(np.max(np.maximum(high, -low)))


def pulled_edges(straight: Straight, region: Region) -> tuple[str, ...]:
    """The edges that are in tension somewhere along a cut under some combination."""
    low, _, high, _ = straight.moments(region.start, region.end)
    found = (("bottom", float(np.max(high))), ("top", float(np.max(-low))))
    return tuple(edge for edge, moment in found if moment > _small(straight))
