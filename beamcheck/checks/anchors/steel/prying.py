"""A plate or leg that fasteners hold down while something pulls at what stands on it: prying (AISC Manual part 9).

The leg bends between what pulls and the fasteners; its edge then presses beside them, and they are pulled by more than
the load. Against wood, which crushes under an edge, the lever of that is taken short.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from ....analysis.beams.combinations import Loaded
from ....calc.core import Number
from ....calc.pad import Pad, SilentPad
from ....formulas.joints import prying
from ....records import dataclass
from ....values.hardware.steels import steel
from ....values.judgment import judgment
from ...core.result import Check
from ...core.wood.govern import Criterion, at, govern
from ...core.wood.material import WoodMaterial, bearing_prime
from ...core.wood.strength import Outcome

Array = np.ndarray
NO_C_D = "steel takes no factor for duration"


@dataclass(frozen=True)
class PriedLeg:
    """A leg with the fasteners on one side of what pulls at it; inches.

    b is from the middle of a fastener to the face of what pulls, a to the edge of the leg, s from one fastener to the
    next along it. `wood` is what the edge presses on, where that is wood.
    """

    steel: str
    t: float
    D: float
    d_h: float
    a: float
    b: float
    s: float
    wood: WoodMaterial | None = None

    def _shape(self, pad: Pad) -> tuple[Number, Number, Number]:
        a = self.a
        if self.wood is not None:
            short = judgment("lever of prying on wood")
            a = pad.take("a", min(a, short.value), "in", note=short.reason, source=short.source)
        b_p = pad(prying.prying_arm, b=self.b, D=self.D)
        a_p = pad(prying.prying_lever, a=a, b=self.b, D=self.D)
        return b_p, a_p, pad(prying.prying_length, s=self.s, b=self.b)

    def allowed(self, pad: Pad, B: Number) -> Number:
        """Allowable pull at one fastener, of which B is what it bears without prying, lbf."""
        F_u = self._F_u(pad)
        b_p, a_p, p_b = self._shape(pad)
        delta = pad(prying.prying_net_share, d_h=self.d_h, p_b=p_b)
        t_c = pad(prying.prying_full_thickness, B=B, b_p=b_p, p_b=p_b, F_u=F_u)
        alpha = pad(prying.prying_share, t_c=t_c, t=self.t, delta_p=delta, b_p=b_p, a_p=a_p)
        return pad(prying.pull_with_prying, B=B, t=self.t, t_c=t_c, delta_p=delta, alpha_p=alpha)

    def edge(self, pad: Pad, T: Number) -> tuple[Number, Number]:
        """Pressure of the edge on wood and what that bears, psi, under a pull of T at one fastener."""
        assert self.wood is not None
        F_u = self._F_u(pad)
        b_p, a_p, p_b = self._shape(pad)
        Q = pad(prying.prying_force, T=T, t=self.t, b_p=b_p, a_p=a_p, p_b=p_b, F_u=F_u)
        wide = min(self.a, judgment("lever of prying on wood").value)
        f = pad.take("f", Q / (p_b * wide), "psi", note=f"on {wide:.3g} in of wood beside each fastener")
        return f, bearing_prime(pad, self.wood, 1.0)

    def thick_enough(self, T: float) -> float:
        """Thickness from which on a pull of T at one fastener is not pried, in."""
        pad = SilentPad()
        b_p, _, p_b = self._shape(pad)
        return float(prying.thickness_without_prying(T, b_p, p_b, steel(self.steel).value.F_u))

    def _F_u(self, pad: Pad) -> Number:
        found = steel(self.steel)
        return pad.take("F_u", found.value.F_u, "psi", note=found.reason, source=found.source)


def pried_checks(
    name: str, what: str, leg: PriedLeg, T: Array, B: float, combinations: Sequence[Loaded], *, note: str = "",
) -> Iterator[Check]:  # fmt: skip
    """The pull at one fastener against what leg and fastener bear together; the wood under the edge of the leg."""

    def pulled(pad: Pad, which: int | slice) -> Outcome:
        pull = pad.take("T", at(T, which), "lbf", note=f"at {note or 'one fastener'}")
        allowed = leg.allowed(pad, pad.take("B", B, "lbf", note=f"pull that {note or 'one fastener'} bears"))
        return Outcome(pull, allowed, pull / allowed)

    notes = (f"from {leg.thick_enough(float(np.max(T))):.3g} in of {leg.steel} on nothing pries", NO_C_D)
    criterion = Criterion(name, f"{what}: pull with prying", prying.MANUAL, "force", notes=notes, id="anchor.pried")
    yield govern(criterion, combinations, pulled)
    if leg.wood is None:
        return

    def pressed(pad: Pad, which: int | slice) -> Outcome:
        f, allowed = leg.edge(pad, pad.take("T", at(T, which), "lbf", note=f"at {note or 'one fastener'}"))
        return Outcome(f, allowed, f / allowed)

    criterion = Criterion(name, f"{what}: wood under its edge", f"{prying.MANUAL}; NDS 2018 3.10.2", "stress",
                          id="anchor.pried_wood")  # fmt: skip
    yield govern(criterion, combinations, pressed)
