"""A beam and the brackets near it in numbers: how far it comes down on each, the gap that outlasts it, what they take.

The gap has to outlast creep, all loads, and wood that moves, with the beam as soft as one piece in twenty is. The force
is the largest that brackets as stiff as these may be can attract, all of them together.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cached_property

import numpy as np

from ....analysis.props.props import Bounds, OnProps, Touch, force_bounds, sinking
from ....calc.core import Number
from ....calc.pad import Pad, SilentPad
from ....errors import OutOfRange
from ....formulas.brackets import prop as pr
from ....formulas.wood import shrinkage as mv
from ....model.brackets.near import Near
from ....records import dataclass
from ....units import show
from ....values.brackets import movement_coefficient
from ....values.judgment import judgment
from ...beams.beam import BeamRun
from ...core.wood.material import modulus_prime, named
from .supports import Moving, with_supports

Array = np.ndarray
BY_FRAME = "from the frame analysis with E_05, shear included"


@dataclass(frozen=True)
class PropAsk:
    """A bracket near a beam, or what else is under one and not meant to carry it.

    `name`, `near`: str, Near. `k_low`, `k_high`: least and largest stiffness at its nose, fixings included; 0 and inf
    where nothing is known [lbf/in]. `height_above_fixing`: its own wood across the grain between its upper fixing and
    its nose, which swells; 0 where the grain stands upright [in]. `species`: of that wood; None takes the one that
    moves most. `carries`: whether it is meant to carry: then the force is no fault. `rises`: from its foot to its nose,
    above level; None where it pushes nothing aside [deg].
    """

    name: str
    near: Near
    k_low: float
    k_high: float
    height_above_fixing: float = 0.0
    species: str | None = None
    carries: bool = False
    rises: float | None = None
    kind: str = "bracket"  # of piece, in the job file

    def path(self, field: str) -> str:
        """Its field as a question names it."""
        return f"{self.kind}.{self.name}.near.{field}"


class Nearby:
    """A solved beam and all brackets near it. Numbers `i` are those of `asks`; lengths in, forces lbf.

    supports : how each support moves that stands on a beam itself; nothing where none does.
    live_stays : whether the live load is stored for years, and creeps.
    before : (combinations, brackets) how far the beam had come down when the gap was set, as far as that counts.
    carried, gives : (brackets,) how far it comes down with its supports, and by how much more under each pound there.
    needed : (combinations, brackets) gap that keeps it free.

    Raises OutOfRange, UnknownName: a bracket that stands in a seat or off the beam, a negative gap, an unknown species.
    """

    def __init__(
        self, run: BeamRun, asks: Sequence[PropAsk], supports: Sequence[Moving] = (), *, live_stays: bool = False
    ) -> None:
        self.run, self.asks, self.beam = run, tuple(asks), run.beam.name
        for ask in self.asks:
            self._refuse_nonsense(ask)
        silent = SilentPad()
        self.K_cr = float(run.wood.K_cr.value)
        self.softness = float(modulus_prime(silent, run.wood) / self.soft_modulus(silent))
        places = [ask.near.at for ask in self.asks]
        self.sink = sinking(run.with_shear, places, self.softness)
        if live_stays:
            self.sink = self.sink.with_live_that_stays()
        self.live_stays = live_stays
        self.carried, self.gives = with_supports(run, supports, places)
        self.long_term = self.sink.long_term(self.K_cr) + self.carried
        # no more than what the load that stays explains: the rest was there before, as in a crooked beam
        sagged = np.array([ask.near.sagged or 0.0 for ask in self.asks])
        self.before = np.minimum(sagged, self.K_cr * np.maximum(self.sink.lasting, 0.0))
        self.closing = [self.movements(silent, ask) for ask in self.asks]
        self.s_close = np.array([sum(size for _, size in moving) for moving in self.closing])
        self.needed = np.stack([self.gap(silent, slice(None), i) for i in range(len(self.asks))], axis=-1)

    def _refuse_nonsense(self, ask: PropAsk) -> None:
        near, where = ask.near, show(ask.near.at, "length")
        for name, value in (("gap", near.gap), ("sagged", near.sagged), ("height", ask.height_above_fixing)):
            if value is not None and not 0.0 <= value < math.inf:
                raise OutOfRange(f"{ask.name}: {name} must be 0 or more, given {value:g} in")
        for seat in self.run.seats:
            if seat.start <= near.at <= seat.end:
                raise OutOfRange(
                    f"the nose of {ask.name} stands at {where} of {self.beam}, in the seat of {seat.name}: there it "
                    "takes part of the reaction, which is not worked out here"
                )

    # the gap

    def soft_modulus(self, pad: Pad) -> Number:
        """E of one beam in twenty, psi."""
        found = judgment("COV of E, visually graded")
        E = modulus_prime(pad, named(self.run.wood, self.beam))
        return pad(pr.softened_modulus, E=E, COV=pad.take("COV", found.value, note=found.reason, source=found.source))

    def movements(self, pad: Pad, ask: PropAsk) -> list[tuple[str, float]]:
        """Wood that closes the gap: what it is, and by how much."""
        moving = [(one.what, one.species, one.change, one.height) for one in ask.near.closing or ()]
        if ask.height_above_fixing > 0.0:
            swing = judgment("moisture swing inside a heated house")
            dMC = float(pad.take("dMC", swing.value, "%", note=swing.reason, source=swing.source))
            moving.append((f"{ask.name} above its upper fixing", ask.species, dMC, ask.height_above_fixing))
        found = []
        for what, species, dMC, h in moving:
            most = movement_coefficient(species)[0]
            C_w = pad.take("C_w", most.value, note=f"{what}: {most.reason}", source=most.source)
            found.append((what, float(pad(mv.cross_grain_movement, note=what, C_w=C_w, dMC=dMC, h=h))))
        return found

    def gap(self, pad: Pad, which: int | slice, i: int) -> Array:
        """Gap needed under one combination, or under all of them. What lifts is not enlarged by creep."""
        lasting, passing = self.sink.lasting[which, i], self.sink.passing[which, i]
        creep, tol = self.run.wood.K_cr, judgment("tolerance of a gap")
        K_cr = pad.take("K_cr", self.K_cr, note=creep.why, source=creep.source)
        stays = "dead load and what is stored" if self.live_stays else "dead load"
        Delta_LT = pad.take("Delta_LT", np.maximum(lasting, 0.0), "in", note=f"{stays}, {BY_FRAME}")
        Delta_ST = np.maximum(passing + np.minimum(lasting, 0.0), 0.0) + self.carried[i]
        note = f"all other load, {BY_FRAME}"
        if self.carried[i]:
            note += f"; {show(float(self.carried[i]), 'small length')} of it with its supports, their creep included"
        Delta_ST = pad.take("Delta_ST", Delta_ST, "in", note=note)
        s_close = pad.take("s_close", self.s_close[i], "in", note="all movements that close the gap")
        g_tol = pad.take("g_tol", tol.value, "in", note=tol.reason, source=tol.source)
        Delta_in = pad.take("Delta_in", self.before[which, i], "in", note=self._why_before(i))
        parts = {"Delta_LT": Delta_LT, "Delta_ST": Delta_ST, "Delta_in": Delta_in, "s_close": s_close, "g_tol": g_tol}
        return np.asarray(pad(pr.gap_needed, K_cr=K_cr, **parts))

    def _why_before(self, i: int) -> str:
        if self.asks[i].near.sagged is None:
            return "not given how far it had come down when the gap was set"
        return "as given, up to K_cr times the deflection under dead load"

    def g_needed(self, i: int) -> float:
        """Gap needed under the worst combination."""
        return float(np.max(self.needed[:, i]))

    def slot_needed(self, i: int) -> float:
        """Length of slots that let it slide as far."""
        return float(judgment("slot over gap").value) * self.g_needed(i)

    def slides(self, i: int) -> bool:
        """Whether slots free it."""
        near = self.asks[i].near
        return near.slot is not None and not near.fixed_to_beam and near.slot >= self.slot_needed(i)

    def crooked(self, i: int) -> bool:
        """Whether it is said to have come down further than its dead load explains."""
        return (self.asks[i].near.sagged or 0.0) > self.explained(i)

    def explained(self, i: int) -> float:
        """How far its dead load, settled supports and those that stand on beams may have brought it down, in."""
        own = self.K_cr * max(float(self.sink.resting[i]), 0.0)
        return own + float(self.sink.settled[i]) + float(self.carried[i])

    def clear(self, i: int) -> bool:
        """Whether the beam stays clear of it."""
        near = self.asks[i].near
        return self.slides(i) or (self.wide_enough(i) and near.pad is None)

    def wide_enough(self, i: int) -> bool:
        """Whether the gap as left is what is needed, or more."""
        near = self.asks[i].near
        return near.gap is not None and not near.fixed_to_beam and self.g_needed(i) <= near.gap

    # what touches

    @cached_property
    def there(self) -> list[int]:
        """The brackets that may be touched: those that do not slide."""
        return [i for i in range(len(self.asks)) if not self.slides(i)]

    @cached_property
    def _solved(self) -> tuple[Bounds, set[int]]:
        """What those in `there` take, and which pads count: those that are not squeezed flat."""
        soft = {i for i in self.there if self.asks[i].near.pad is not None}
        while True:
            touches = [self._touch(i, padded=i in soft) for i in self.there]
            found = force_bounds(self.run.with_shear, touches, self.softness)
            forces = {i: float(np.max(found.largest[:, at])) for at, i in enumerate(self.there)}
            flat = {i for i in soft if not forces[i] / _pad(self.asks[i]) <= (self.asks[i].near.pad_squeezes or 0.0)}
            if not flat:
                return found, soft
            soft -= flat

    def _touch(self, i: int, *, padded: bool) -> Touch:
        ask, near = self.asks[i], self.asks[i].near
        come = self.before[:, i] - self.sink.creep(self.K_cr)[:, i] - self.carried[i]
        soonest = come - self.s_close[i] + self.gap_counted(i)
        latest = None if near.gap is None else come + near.gap
        if near.fixed_to_beam:  # it pulls most if all that the dead load does was there when it was screwed on
            latest = self.sink.lasting[:, i]
        k_low, k_high = ask.k_low, ask.k_high
        if self.gives[i]:  # what the beam stands on gives as well: as if the bracket were softer by so much
            k_low, k_high = (pad_in_series(k, 1.0 / self.gives[i]) for k in (k_low, k_high))
        if near.pad is not None:  # the least stiffness always with the pad, the largest only while that is soft
            k_low = pad_in_series(k_low, near.pad)
            k_high = pad_in_series(k_high, near.pad) if padded else k_high
        return Touch(near.at, soonest, latest, k_low, k_high, near.fixed_to_beam)

    def gap_counted(self, i: int) -> float:
        """The gap that counts for the force: none where it is not known, filled by a pad, or screwed shut."""
        near = self.asks[i].near
        return 0.0 if near.gap is None or near.pad is not None or near.fixed_to_beam else near.gap

    def forces(self, i: int) -> tuple[Array, Array]:
        """(combinations,) largest and least force of the beam on a bracket, down positive."""
        if i not in self.there:
            return np.zeros(len(self.needed)), np.zeros(len(self.needed))
        bounds, at = self._solved[0], self.there.index(i)
        return bounds.largest[:, at], bounds.least[:, at]

    def padded(self, i: int) -> bool:
        """Whether its pad counts."""
        return i in self.there and i in self._solved[1]

    def write_force(self, pad: Pad, which: int, i: int) -> float:
        """The largest force of one combination, step by step."""
        bounds, at, ask = self._solved[0], self.there.index(i), self.asks[i]
        R = float(bounds.largest[which, at])
        come = float(self.long_term[which, i] - self.before[which, i] + self.s_close[i])
        relief, f_xx = float(bounds.relief[which, at]), float(bounds.unit_sag[at, at])
        note = f"long-term deflection less what was there, with all that closes the gap, {BY_FRAME}"
        if relief:
            note += f"; the other brackets relieve it by {show(relief, 'small length')}"
        Delta_0 = pad.take("Delta_0", come - relief, "in", note=note)
        g = pad.take("g", self.gap_counted(i), "in", note=self._why_gap(i))
        more = ", what its supports give included" if self.gives[i] else ""
        f_xx = float(pad.take("f_xx", f_xx + float(self.gives[i]), "in/lbf", note=BY_FRAME + more))
        k_n = ask.k_high
        if self.padded(i):
            k_pad = pad.take("k_pad", _pad(ask), "lbf/in", note="as given")
            if math.isinf(k_n):
                k_n = pad.take("k_n", k_pad, "lbf/in", note="the pad alone: the stiffness of the bracket is not known")
            else:
                k_n = pad(pr.pad_in_series, k_n=k_n, k_pad=k_pad)
        elif math.isinf(k_n):
            return float(pad.take("R", R, "lbf", note="of a rigid bracket: its stiffness is not known"))
        else:
            k_n = pad.take("k_n", k_n, "lbf/in", note="largest that the bracket with its fixings may have")
        return float(pad(pr.prop_force, Delta_0=Delta_0, g=g, k_n=k_n, f_xx=f_xx))

    def _why_gap(self, i: int) -> str:
        near = self.asks[i].near
        if near.fixed_to_beam:
            return "screwed to the beam"
        if near.pad is not None:
            return "filled by the pad"
        return "not known: taken as closed" if near.gap is None else "as left"

    def states(self, i: int) -> list[tuple[OnProps, str]]:
        """The beam with all brackets acting, and in the state of this one's largest force; and who acts in each."""
        bounds, at = self._solved[0], self.there.index(i)
        found, rounding = [], judgment("force that is rounding").value
        for state in bounds.acting(at):
            acting = [
                self.asks[j].name for k, j in enumerate(self.there) if np.max(np.abs(state.forces[:, k])) > rounding
            ]
            found.append((state.beam, " and ".join(acting)))
        return found


def pad_in_series(k: float, k_pad: float) -> float:
    """Stiffness of a bracket with a pad, whatever the bracket's own is, 0 and inf included, lbf/in."""
    if k == 0.0 or math.isinf(k):
        return 0.0 if k == 0.0 else k_pad
    return float(pr.pad_in_series(k, k_pad))


def _pad(ask: PropAsk) -> float:
    return ask.near.pad if ask.near.pad is not None else math.inf
