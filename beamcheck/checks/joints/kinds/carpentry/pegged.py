"""Wooden pegs through a tenon and both cheeks. Their strengths are from memory: figures are for screening, and a pull
on them waits for an engineer or a printed standard whatever the ratio.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from .....calc.core import Number, smallest
from .....calc.pad import Pad, SilentPad
from .....errors import BeamcheckError, UnknownName
from .....formulas.connections import tear_out
from .....formulas.connections.lateral import Yield
from .....formulas.joints.pegged import peg_in_double_shear
from .....formulas.joints.pegs import PEGS
from .....model.joints.parts import Pegs, Tenon
from .....records import dataclass
from .....units import show
from .....values.hardware.connections import connection_temperature
from .....values.hardware.pegs import peg_distances
from .....values.judgment import judgment
from .....values.refused import in_trade_words
from .....values.species import specific_gravity
from ....anchors.joint import gravity
from ....core.result import Check
from ....core.wood.govern import Criterion, at, duration, govern
from ....core.wood.material import shear_prime, tension_prime
from ....core.wood.strength import Outcome
from ...meeting import Arriving, Meeting, angle_between

Array = np.ndarray
WET = 0.7  # C_M of pegs, wet in service or put in green (memory; the recalled standard has 1.0 for green put in dry)
HAIR = 1e-6
SCREENING = "from memory: for screening, until the printed standard confirms it"


@dataclass(frozen=True, eq=False)
class Pegged:
    """A pegged tenon under the pull `T` of its piece, lbf by combination."""

    meeting: Meeting
    tenon: Tenon
    pegs: Pegs
    mortised: Arriving
    tenoned: Arriving
    T: Array

    @property
    def G_t(self) -> float:
        """Specific gravity of the frame: the lighter of the two pieces."""
        return min(gravity(one.stock, one.wood, one.name, [])[0] for one in (self.mortised, self.tenoned))

    @property
    def G_p(self) -> float:
        return float(specific_gravity(self.pegs.wood)[0])

    @property
    def theta(self) -> float:
        """Angle between the pull and the grain of the mortised piece, deg."""
        return angle_between(self.mortised, self.tenoned)

    @property
    def species(self) -> str:
        """Of the frame, for the distances: that of the mortised piece."""
        return self.mortised.stock.species

    def value(self, pad: Pad) -> Yield:
        """Reference value of one peg."""
        return peg_in_double_shear(
            pad, D=self.pegs.diameter, G_p=self.G_p, G_t=self.G_t, l_m=self.tenon.thickness, l_s=self.tenon.cheek,
            theta_m=0.0, theta_s=self.theta,
        )  # fmt: skip


def pegged_checks(one: Pegged) -> list[Check]:
    """Scope and distances, the pegs, the wood around them: each for screening."""
    outside = list(_scope(one))
    if outside:
        return outside
    try:
        found = [*_distances(one), _pegs(one), _relish(one), _tenon(one)]
    except UnknownName as error:
        return [_refers(one, "joint.peg_scope", "pegs", in_trade_words(error), "joint_peg_scope")]
    return [*found, *_screened(one)]


def _refers(one: Pegged, id: str, what: str, text: str, key: str, place: str = "") -> Check:
    return one.meeting.refers(id, what, PEGS, text, key, place, where=one.tenoned.name)


def _scope(one: Pegged) -> Iterator[Check]:
    """What nobody has tried has no value."""
    id, what = "joint.peg_scope", "pegs within what was tried"
    try:
        G_p, G_t = one.G_p, one.G_t
    except BeamcheckError as error:
        yield _refers(one, id, what, in_trade_words(error), "joint_peg_wood", "tenon.pegs.wood")
        return
    lean, low, high, thin = (
        judgment(name).value
        for name in (
            "leanest peg", "lightest timber with pegs", "heaviest timber with pegs", "thinnest tenon with pegs",
        )
    )  # fmt: skip
    D, tenon = one.pegs.diameter, one.tenon
    short = []
    if G_p < max(lean, G_t):
        short.append(f"pegs of {one.pegs.wood} (G {G_p:g}): hardwood of {lean:g} and more, not lighter than the frame")
    if not low <= G_t <= high:
        short.append(f"a frame of G {G_t:g}: {low:g} to {high:g} were tried")
    if not 0.75 - HAIR <= D <= 1.25 + HAIR:
        short.append(f"pegs {show(D, 'length')} thick: 3/4 in to 1 1/4 in were tried")
    if tenon.thickness < thin - HAIR:
        short.append(f"a tenon {show(tenon.thickness, 'length')} thick: {show(thin, 'length')} and more were tried")
    if tenon.cheek < tenon.thickness - HAIR:
        short.append("cheeks thinner than the tenon split")
    if one.pegs.count > judgment("most pegs that count").value:
        short.append(f"{one.pegs.count} pegs do not share the pull")
    if short:
        yield _refers(one, id, what, "; ".join(short), "joint_peg_scope")


def _distances(one: Pegged) -> Iterator[Check]:
    """Distances in multiples of the peg's diameter: with less there is no value."""
    least, D = peg_distances(one.species), one.pegs.diameter
    side = judgment("peg from the side of its tenon").value
    asked = [
        ("to the end of the tenon", one.pegs.end, least.end),
        (f"to the face of {one.mortised.name}", one.pegs.edge, least.edge),
        ("to the side of the tenon", one.pegs.side, side),
    ]
    if one.pegs.spacing is not None:
        asked.append(("from peg to peg", one.pegs.spacing, least.spacing))
    for words, actual, k in asked:
        criterion = Criterion(one.meeting.name, f"pegs: {words}", PEGS, "length", one.tenoned.name,
                              (f"{k:g} diameters in {least.wood}",), id="joint.peg_distance")  # fmt: skip

        def calculate(pad: Pad, which: int | slice, actual: float = actual, k: float = k) -> Outcome:
            needed = pad.take("a_req", k * D, "in", note=f"{k:g} diameters", source=least.source)
            return Outcome(needed, pad.take("a", actual, "in", note="as laid out"), needed / (actual + HAIR))

        yield govern(criterion, one.meeting.combinations[:1], calculate)


def _pegs(one: Pegged) -> Check:
    combinations, n = one.meeting.combinations, float(one.pegs.count)
    mode = one.value(SilentPad()).mode
    dry = all(piece.wood.dry for piece in (one.mortised, one.tenoned)) and one.meeting.joint.seasoned != "green"
    hot = connection_temperature(max(piece.stock.temperature for piece in (one.mortised, one.tenoned)), not dry)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        T = pad.take("T", at(one.T, which), "lbf", note=f"pull in {one.tenoned.name}")
        Z = one.value(pad).Z
        C_D = duration(pad, combinations, which)
        C_M = pad.take("C_M", 1.0 if dry else WET, note="dry" if dry else "green or wet: from memory, the safe one")
        C_t = pad.take("C_t", hot.value, note=hot.reason, source=hot.source)
        Z_all = pad.take("Z_prime", n * Z * C_D * C_M * C_t, "lbf", note=f"{one.pegs.count} pegs")
        return Outcome(T, Z_all, T / Z_all)

    criterion = Criterion(one.meeting.name, f"pull on the pegs, mode {mode}", PEGS, "force", one.tenoned.name,
                          (SCREENING,), id="joint.pegs")  # fmt: skip
    return govern(criterion, combinations, calculate)


def _relish(one: Pegged) -> Check:
    """Wood between pegs and the end of the tenon, as behind bolts (NDS 2018 Appendix E)."""
    combinations, n = one.meeting.combinations, float(one.pegs.count)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        T = pad.take("T", at(one.T, which), "lbf", note=f"pull in {one.tenoned.name}")
        C_D = duration(pad, combinations, which)
        F_v = shear_prime(pad, one.tenoned.wood, C_D)
        t, l_end = one.tenon.thickness, one.pegs.end
        single = pad(tear_out.row_tear_out, n=1.0, F_v_prime=F_v, t=t, s_crit=l_end)
        Z: Number = pad.take("Z_RT", n * single, "lbf", note=f"{one.pegs.count} pegs side by side")
        if one.pegs.spacing is not None:
            F_t = tension_prime(pad, one.tenoned.wood, C_D)
            A = pad(tear_out.area_between_rows, n_row=n, s_row=one.pegs.spacing, d_h=one.pegs.diameter, t=t)
            Z = smallest(Z, pad(tear_out.group_tear_out, Z_RT_1=single, Z_RT_2=single, F_t_prime=F_t, A_between=A))
        return Outcome(T, Z, T / Z)

    criterion = Criterion(one.meeting.name, "wood behind the pegs of the tenon", tear_out.ROW, "force",
                          one.tenoned.name, id="joint.peg_relish")  # fmt: skip
    return govern(criterion, combinations, calculate)


def _tenon(one: Pegged) -> Check:
    """The tenon in tension, less the holes of its pegs."""
    combinations, n = one.meeting.combinations, float(one.pegs.count)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        T = pad.take("T", at(one.T, which), "lbf", note=f"pull in {one.tenoned.name}")
        F_t = tension_prime(pad, one.tenoned.wood, duration(pad, combinations, which))
        A_g = pad.take("A_g", one.tenon.width * one.tenon.thickness, "in2", note="tenon")
        A_n = pad(tear_out.area_less_holes, A_g=A_g, n=n, d_h=one.pegs.diameter, t=one.tenon.thickness)
        Z = pad(tear_out.net_section_tension, F_t_prime=F_t, A_n=A_n)
        return Outcome(T, Z, T / Z)

    criterion = Criterion(one.meeting.name, "tenon in tension", tear_out.NET, "force", one.tenoned.name,
                          id="joint.peg_tenon")  # fmt: skip
    return govern(criterion, combinations, calculate)


def _screened(one: Pegged) -> Iterator[Check]:
    """A pull on pegs never passes by the figures alone."""
    most = show(float(np.max(one.T)), "force")
    text = f"{most} pull on pegs, whose strengths are from memory: an engineer, or the printed standard, has to confirm"
    yield _refers(one, "joint.peg_confirmed", "pegs that hold a pull", text, "joint_pegs")
    if one.theta > 45.0:
        deep = one.pegs.edge
        if deep < 0.5 * one.mortised.d - HAIR:
            text = (
                f"the pegs lie {show(deep, 'length')} behind the face from which {one.tenoned.name} pulls, in the near "
                f"half of {one.mortised.name}: that pulls its wood apart across the grain, which has no design value"
            )
            yield _refers(one, "joint.peg_across", f"{one.mortised.name} across its grain", text, "joint_peg_across")
    if one.pegs.straight is not True:
        text = "nobody has said that the pegs are clear, straight-grained, round and drier than the frame"
        yield _refers(one, "joint.peg_wood", "wood of the pegs", text, "joint_peg_straight", "tenon.pegs.straight")
