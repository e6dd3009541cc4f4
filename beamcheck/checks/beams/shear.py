"""Shear in a level piece: the whole section, near supports, at notches and at holes (NDS 2018 3.4)."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

import numpy as np

from ...analysis.beams.load_cases import Applied
from ...analysis.beams.solved_beam import SolvedBeam
from ...calc.pad import Pad, SilentPad
from ...formulas.wood import shear as sh
from ...model.beams import Beam
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import Question, ask
from ..core.result import Check
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.material import WoodMaterial
from ..core.wood.strength import Outcome, Section, notch_shear, shear
from .cuts import NOTCHES, Region, has_net_section, void_stress
from .load_entry import ask_applied
from .seats import Seat, ask_seat, told_apart

Array = np.ndarray
ALLOWANCE = (
    "near a seat under load on the top, line loads within the depth d are left out and point loads count x/d "
    "(NDS 2018 3.4.3.1)"
)
SPLITTING = "what a notch risks is splitting along the grain from its corner, long before bending tells"
NO_ALLOWANCE = "the full shear is taken: {}"


def shear_checks(
    beam: Beam, solved: SolvedBeam, seats: Sequence[Seat], regions: Sequence[Region], wood: WoodMaterial,
    section: Section,
) -> list[Check]:  # fmt: skip
    """Full section, then every cut."""
    return [
        _whole(beam, solved, seats, regions, wood, section),
        *(check for region in regions for check in _at_cut(beam, solved, seats, region, wood, section)),
    ]


def _why_full(
    beam: Beam, solved: SolvedBeam, seat: Seat, regions: Sequence[Region], section: Section
) -> tuple[str, list[Question]]:  # fmt: skip
    """Why nothing may be left out near this seat ('' when it may; NDS 2018 3.4.3.1, 3.4.3.2), and what was not said."""
    support, d = seat.support, section.d
    if solved.again is None:
        return "something props the beam", []
    if support.holds != "rests":
        return "the end is not shown to have a full seat", []
    if not support.bearing:
        return "the end is not shown to have a full seat", [ask_seat(beam, seat)]
    if support.bearing_width is not None and support.bearing_width < section.b:
        return "a seat is narrower than the piece", []
    if unsaid := [load for load in solved.loads if load.applied != "top"]:
        return "not all loads are said to bear on the top", [
            ask_applied(beam, load) for load in unsaid if load.applied == "unknown" and load.entry is not None
        ]
    if any(load.lifts for load in solved.loads):
        return "some load lifts", []
    if any(region.start < seat.end + d and region.end > seat.start - d for region in regions):
        return "there is a cut near the support", []
    return "", []


def _whole(
    beam: Beam, solved: SolvedBeam, seats: Sequence[Seat], regions: Sequence[Region], wood: WoodMaterial,
    section: Section,
) -> Check:  # fmt: skip
    """The largest shear anywhere, with what 3.4.3.1 lets one leave out next to each seat."""
    d = float(section.d)
    found = {seat.index: _why_full(beam, solved, seat, regions, section) for seat in seats}
    reasons = {index: why for index, (why, _) in found.items()}
    asks = tuple({one.id: one for _, questions in found.values() for one in questions}.values())
    worst, used, too_short = _Worst(solved), False, list[str]()
    for start, end in solved.spans:
        left = next((seat for seat in seats if seat.x == start and not reasons[seat.index]), None)
        right = next((seat for seat in seats if seat.x == end and not reasons[seat.index]), None)
        from_, to = (left.end + d if left else start), (right.start - d if right else end)
        if from_ >= to:  # all of it lies within d of a seat: then all of its load counts, in this stretch alone
            worst.between(start, end)
            if end - start > d and (left or right):
                too_short = ["a span is too short to leave anything out"]
            continue
        used = used or left is not None or right is not None
        worst.between(from_, to)
        faces = [*([(left.end, 1.0)] if left else []), *([(right.start, -1.0)] if right else [])]
        taken_off = partial(_left_out, within=(start, end), faces=faces, d=d)
        if left:
            worst.beside(left, right=True, taken_off=taken_off)
        if right:
            worst.beside(right, right=False, taken_off=taken_off)
    notes = [ALLOWANCE] if used else []
    notes += [NO_ALLOWANCE.format(why) for why in dict.fromkeys(filter(None, [*reasons.values(), *too_short]))]
    criterion = Criterion(beam.name, "shear", "NDS 2018 3.4.2", "stress", "", tuple(notes), id="beam.shear", ask=asks)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(worst.V, which), "lbf", note="" if isinstance(which, slice) else worst.words(which))
        return shear(pad, wood, section, V=V, C_D=duration(pad, solved.combinations, which))

    return govern(criterion, solved.combinations, calculate)


def _left_out(
    load: Applied, within: tuple[float, float], faces: Sequence[tuple[float, float]], d: float
) -> list[Applied]:  # fmt: skip
    """What 3.4.3.1 leaves out of a load between two supports before the reactions are worked out.

    All of a line load within d of the face of a seat, and of a point load that stands x from the face the part
    1 - x/d; over the seat itself all. `faces`: where they are, and 1 where the span lies to the right, else -1.
    """
    found = []
    for face, inward in faces:
        if load.is_point:
            if within[0] <= load.start <= within[1] and (x := inward * (load.start - face)) < d:
                share = SilentPad()(sh.point_load_share, x=max(x, 0.0), d=d)
                found.append(load.times(1.0 - float(share)))
            continue
        zone = (within[0], face + d) if inward > 0 else (face - d, within[1])
        found += filter(None, [load.part(*zone)])
    return found


class _Worst:
    """The largest shear so far under each combination, where it is, and whether something is left out of it."""

    def __init__(self, solved: SolvedBeam) -> None:
        self.solved = solved
        self.V: Array = np.zeros(len(solved.combinations))
        self.place, self.reduced = 0.0 * self.V, np.zeros(len(solved.combinations), dtype=bool)

    def between(self, start: float, end: float) -> None:
        """A stretch without its neighbors: just inside its ends."""
        low, s_low, high, s_high = self.solved.shears(start, end, both_sides=False)
        down = np.abs(low) > np.abs(high)
        self._take(np.where(down, np.abs(low), np.abs(high)), np.where(down, s_low, s_high), reduced=False)

    def beside(self, seat: Seat, *, right: bool, taken_off: Callable[[Applied], Sequence[Applied]]) -> None:
        """Next to a seat, with the loads near the seats of the span cut down before the analysis."""
        V = self.solved.shear_beside(seat.index, right=right, taken_off=taken_off)
        self._take(V, np.full_like(V, seat.x), reduced=True)

    def _take(self, size: Array, place: Array, *, reduced: bool) -> None:
        more = size > self.V
        self.V, self.place = np.where(more, size, self.V), np.where(more, place, self.place)
        self.reduced = np.where(more, reduced, self.reduced)

    def words(self, which: int) -> str:
        where = f"from the analysis, at {show(float(self.place[which]), 'length')}"
        return where + (", with the loads nearer than d cut down before it" if self.reduced[which] else "")


def _at_cut(
    beam: Beam, solved: SolvedBeam, seats: Sequence[Seat], region: Region, wood: WoodMaterial, section: Section
) -> list[Check]:
    """Shear where wood is missing, with the full shear of that stretch."""
    if not has_net_section(section, region.cut):
        return []  # the rules of cuts.py have already failed or referred it
    low, _, high, _ = solved.shears(region.start, region.end)
    V_all = np.maximum(np.abs(low), np.abs(high))
    notch = region.cut.kind in NOTCHES
    criterion = Criterion(
        beam.name, f"shear at {region.text}", "NDS 2018 3.4.3.2" if notch else "NDS 2018 3.1.2, 3.4.2",
        "force" if notch else "stress", notes=("the full shear is taken at a cut", *([SPLITTING] if notch else [])),
        id="beam.shear.cut",
    )  # fmt: skip
    pressed = _on_compression_side(solved, region, float(section.d))
    found = []
    if notch and any(seat.support.holds != "rests" for seat in seats if region.start <= seat.support.at <= region.end):
        text = "a notched end in a hanger: which edge is the tension side is not shown"
        question = told_apart(ask("hung_notch", beam.name, cut=region.text), region.text)
        what = f"end held at {region.text}"
        found.append(Check.refers("beam.hung_notch", beam.name, what, "NDS 2018 3.4.3.2", text, ask=question))

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_all, which), "lbf", note="largest at the cut, from the analysis")
        C_D = duration(pad, solved.combinations, which)
        if notch:
            return notch_shear(
                pad, wood, section, V=V, C_D=C_D, depth=region.cut.depth,
                pressed_past=region.past_seat if pressed else None,
            )  # fmt: skip
        return shear(pad, wood, section, V=V, C_D=C_D, stress=lambda pad, V: void_stress(pad, section, region.cut, V))

    return [govern(criterion, solved.combinations, calculate), *found]


def _on_compression_side(solved: SolvedBeam, region: Region, d: float) -> bool:
    """An end notch in the top, where no combination pulls on the top from the seat to a depth beyond the notch.

    Every other notch takes the rule of the tension side, which is the lower of the two.
    """
    if not region.at_end or region.cut.face != "top":
        return False
    low, *_ = solved.moments(max(region.start - d, 0.0), min(region.end + d, solved.length))
    return float(np.max(-low)) <= _small(solved)


def _small(solved: SolvedBeam) -> float:
    low, _, high, _ = solved.moments(0.0, solved.length)
    return judgment("moment that pulls on no edge").value * float(np.max(np.maximum(high, -low)))


def pulled_edges(solved: SolvedBeam, region: Region) -> tuple[str, ...]:
    """The edges that are in tension somewhere along a cut under some combination."""
    low, _, high, _ = solved.moments(region.start, region.end)
    found = (("bottom", float(np.max(high))), ("top", float(np.max(-low))))
    return tuple(edge for edge, moment in found if moment > _small(solved))
