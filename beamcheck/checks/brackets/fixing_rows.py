"""The rows of fasteners of a bracket: which of them hold it up, the pull on the top one, the heel on the wall."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from ...calc.pad import Pad, SilentPad
from ...formulas.connections import bolt_pattern as pattern
from ...formulas.steel import bolts as bolts
from ...formulas.wood.bearing import bearing_stress
from ...formulas.wood.section import round_area
from ...model.brackets import Bent, Braced, Bracket, Fixings, Solid, SteelCore
from ...units import show
from ...values.brackets import lever_arm_eta
from ...values.fasteners import bolt
from ...values.found import Found
from ...values.steels import bolt_steel
from ..core.govern import Criterion, at, govern, stated
from ..core.material import WoodMaterial, bearing_prime
from ..core.result import Check
from ..core.strength import Outcome
from .body import Body
from .loads import BracketLoads

Array = np.ndarray
RULE = "lever-arm rule for brackets"
NEGLIGIBLE = 0.5  # lbf: less is rounding of the analysis, as everywhere in the checks
LITTLE = 5.0  # lbf: a load that needs no hard wall behind it; judgement, no source
SOFT_WALLS = ("plaster", "gypsum board")
SEVERAL = 0.8  # of the shear comes to one row where there are several (0.5 to 0.8 in plane stress models; derived)


@dataclass(frozen=True, eq=False)
class Held:
    """The rows of a bracket ready to be checked: which of them hold it up, and the pull on the top one."""

    bracket: Bracket
    fixings: Fixings
    loads: BracketLoads
    height: float  # of the wall face
    thickness: float
    eta: Found[float]
    body_pull: Array | None

    @property
    def tight(self) -> list[int]:
        """Rows without slots: only those hold it up."""
        return [i for i, row in enumerate(self.fixings.rows) if row.slot is None]

    @property
    def top(self) -> int:
        return int(np.argmin([row.below_top for row in self.fixings.rows]))

    @property
    def shared(self) -> float:
        """What all tight rows together are checked for, over the load: then the smallest of them has its share."""
        counts = [self.fixings.rows[i].count for i in self.tight]
        return self.share * sum(counts) / min(counts) if counts else 0.0

    @property
    def share(self) -> float:
        """Of the load that comes to one row."""
        return SEVERAL if len(self.tight) > 1 else 1.0

    @property
    def h_1(self) -> float:
        """Height of the top row above the foot of the wall face, in."""
        return self.height - self.fixings.rows[self.top].below_top

    def pull(self, pad: Pad, which: int | slice) -> float | Array:
        """Pull on the top row, lbf."""
        M = at(np.maximum(self.loads.M_wall, 0.0), which)
        M = pad.take("M", M, "lbf*in", note="load times its distance from the wall")
        eta = pad.take("eta", self.eta.value, note=self.eta.reason, source=self.eta.source)
        T = pad(pattern.lever_arm_tension, M=M, eta=eta, h_1=self.h_1)
        if self.body_pull is None:
            return np.asarray(T, dtype=float) if isinstance(which, slice) else float(T)
        field = at(self.body_pull, which)
        if isinstance(which, slice):
            return np.asarray(np.maximum(T, field), dtype=float)
        return float(
            pad.take("T_1", max(float(T), float(field)), "lbf", note="the larger: the body's own statics give more")
        )

    def pulls(self) -> Array:
        return np.asarray(self.pull(SilentPad(), slice(None)), dtype=float)


def held_of(bracket: Bracket, loads: BracketLoads, body: Body) -> Held:
    """The rows with the lever arm that belongs to the shape."""
    assert bracket.fixings is not None
    shape = bracket.shape
    if isinstance(shape, SteelCore):
        height = shape.down
    elif isinstance(shape, Bent):
        height = (shape.inner_radius + shape.depth) * math.sin(math.radians(min(shape.sweep, 90.0)))
    else:
        height = shape.height
    thickness = shape.width if isinstance(shape, SteelCore) else shape.thickness
    if isinstance(shape, Solid):
        eta = lever_arm_eta(shape.soffit, shape.grain)
    else:
        eta = lever_arm_eta("block" if isinstance(shape, SteelCore) else "straight", None)
    return Held(bracket, bracket.fixings, loads, float(height), float(thickness), eta, body.pull)


def each_once(checks: Iterable[Check]) -> list[Check]:
    """The checks without those that say the very same of another row."""
    found = {(check.what, check.where, check.verdict, check.notes, check.ratio): check for check in checks}
    return list(found.values())


def lifts(loads: BracketLoads) -> bool:
    """Whether under some combination what stands beyond some section lifts it, or turns it upwards."""
    if float(np.min(loads.F, initial=0.0)) < -NEGLIGIBLE:
        return True
    places = {strip.start for i in range(len(loads.combinations)) for strip in loads.strips(i)}
    for x in sorted({0.0, *places}):
        force, moment = loads.beyond(x)
        if min(float(np.min(force, initial=0.0)), float(np.min(moment, initial=0.0))) < -NEGLIGIBLE:
            return True
    return False


def outward_pulls(held: Held) -> Iterator[tuple[str, float]]:
    """Pull on the top row when somebody pulls the nose outwards or sideways, lbf; downwards is among the loads."""
    force = held.bracket.accidental
    if isinstance(force, float) and force > 0.0:
        yield "outwards", force
        yield "sideways", force * held.loads.projection / (0.5 * held.thickness)


def bolt_checks(held: Held, T: Array) -> Iterator[Check]:
    """The steel of bolts in pull with shear (AISC 360-16 J3.7); screws are checked at their root elsewhere."""
    fastener, name, what = held.fixings.fastener, held.bracket.name, "pull on the bolts with shear"
    if fastener is None or fastener.kind != "bolt":
        return
    if not fastener.steel:
        text = "the grade of the bolts is not given (`fastener.steel`): their steel cannot be checked"
        yield stated(name, what, bolts.BOTH, "refer", text)
        return
    grade, D = bolt_steel(fastener.steel), bolt(fastener.size).value.D
    least = min((held.fixings.rows[i].count for i in held.tight), default=1)
    V, pull = np.maximum(held.loads.F, 0.0) * held.share / least, T / held.fixings.rows[held.top].count
    clear = fastener.threads == "clear of it"

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        t = pad.take("T", at(pull, which), "lbf", note="on one bolt of the top row")
        A_b = pad(round_area, symbol="A_b", D=D)
        f_rv = pad(bolts.bolt_shear_stress, V=pad.take("V", at(V, which), "lbf", note="on one bolt"), A_b=A_b)
        F_nt = pad.take("F_nt", grade.value.F_nt, "psi", note=grade.reason, source=grade.source)
        F_nv = grade.value.F_nv_threads_out if clear else grade.value.F_nv_threads_in
        F_nt = pad(bolts.bolt_tension_with_shear, F_nt=F_nt, F_nv=F_nv, f_rv=f_rv)
        T_a = pad(bolts.bolt_tension, F_nt=F_nt, A_b=A_b)
        return Outcome(t, T_a, t / T_a)

    yield govern(Criterion(name, what, bolts.BOTH, "force"), held.loads.combinations, calculate)


def heel_checks(held: Held, woods: Sequence[WoodMaterial | None]) -> Iterator[Check]:
    """The lower end presses on the wall with as much as the top row pulls; `woods` are the bracket's and the wall's."""
    name, wall, what = held.bracket.name, held.fixings.wall, "heel against the wall"
    T = held.pulls()
    most = float(np.max(T, initial=0.0))
    if most <= LITTLE:
        return
    if wall is None:
        yield stated(name, what, RULE, "refer", "what its back presses against is not said (`wall`)")
        return
    if wall in SOFT_WALLS or held.fixings.gap > 0.0:
        text = (
            f"its heel presses with {show(most, 'force')} on {wall if wall in SOFT_WALLS else 'the gap behind it'}, "
            "which crushes: go through to the wood behind it, or put hard shims there"
        )
        yield stated(name, what, RULE, "refer", text)
        return
    own, behind = woods
    if wall == "wood" and behind is None:
        yield stated(name, what, "NDS 2018 3.10.2", "refer", "the wood of the wall is not known (`other.stock`)")
    length = 2.0 * (1.0 - held.eta.value) * held.h_1
    if isinstance(shape := held.bracket.shape, Braced):
        slope = math.atan2(shape.brace_down - shape.top_leg, shape.brace_out - shape.wall_leg)
        length = min(length, shape.brace / max(math.cos(slope), 1e-6))
    for words, one in (("bracket", own), ("wall", behind if wall == "wood" else None)):
        if one is None:
            continue

        def calculate(pad: Pad, which: int | slice, one: WoodMaterial = one) -> Outcome:
            C = pad.take("C", at(T, which), "lbf", note="as much as the top row pulls")
            l_c = pad.take("l_c", length, "in", note="centred on the line of pressure that the lever arm supposes")
            f = pad(bearing_stress, R=C, b=held.thickness, l_b=l_c)
            allowed = bearing_prime(pad, one, 1.0)
            return Outcome(f, allowed, f / allowed)

        criterion = Criterion(name, f"{what}, wood of the {words}", "NDS 2018 3.10.2", "stress")
        yield govern(criterion, held.loads.combinations, calculate)
