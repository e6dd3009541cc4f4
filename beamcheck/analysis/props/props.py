"""Brackets that a level beam may come to rest on: how far it sinks there, and what they take from it when it does.

Sinking is down positive and is measured from where the beam would lie without any load; forces of props on the beam are
up positive. Method: one-sided contact of the whole beam with all its props at once (`contact`), which for one prop is
R = max(0, (delta_0 - g)/(1/k + f_xx)). `softness` is by how much the beam is taken softer than it was solved with.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import field, replace
from functools import cached_property
from itertools import combinations, pairwise

import numpy as np

from ...errors import BeamcheckError, OutOfRange
from ...records import dataclass
from ...units import show
from ..beams.load_cases import SETTLED, Case
from ..beams.solved_beam import SolvedBeam
from ..frames.beam_frame import BeamLoad, LineLoad, PointLoad, Prop, Section, Settlement, beam_frame
from ..frames.contact import TOLERANCE, solve_contact
from ..frames.frame import Frame, Loads, Support, solve
from ..frames.member_line import BeamResult, Line, straight_beam

Array = np.ndarray
Gap = float | Array
APART = 0.5  # in; a nose is no sharper than this: props that stand closer are taken this far apart
SAME = 1e-6  # part by which two methods may differ
VANISHING = 1e-9  # lbf
NEIGHBORS = 4  # of a prop whose gap and stiffness are tried both ways; what others do dies away behind these


@dataclass(frozen=True, eq=False)
class Sinking:
    """How far a beam comes down at some places, in, down positive; negative where it rises.

    lasting, passing : (combinations, places) under dead load, and under all other load and settled supports, at once.
    live : (combinations, places) the part of `passing` under live load.
    resting, settled : (places,) under the whole of the dead load, and as far as settled supports lower it.
    """

    lasting: Array
    passing: Array
    live: Array
    resting: Array
    settled: Array

    def with_live_that_stays(self) -> Sinking:
        """The same where the live load is stored for years: then it creeps as well."""
        return replace(self, lasting=self.lasting + self.live, passing=self.passing - self.live)

    def long_term(self, K_cr: float) -> Array:
        """(combinations, places) with creep (NDS 2018 eq. 3.5-1); what lifts is not made larger by it."""
        return np.asarray(self.creep(K_cr) + self.lasting + self.passing)

    def creep(self, K_cr: float) -> Array:
        """(combinations, places) the part that comes with time."""
        return np.asarray((K_cr - 1.0) * np.maximum(self.lasting, 0.0))


@dataclass(frozen=True, eq=False)
class Touch:
    """One prop as far as it is known.

    `place`: from the left end of the beam [in]. `soonest`, `latest`: float or (combinations,) array: least and largest
    way of the beam until it touches, less all that comes with time [in]; below zero where that alone closes the gap.
    `latest` None: it may never touch; of one that is fixed to the beam: as `soonest`. `k_low`, `k_high`: least and
    largest stiffness; inf is rigid; a least one of 0 says that nothing is known of it [lbf/in]. `fixed`: fixed to the
    beam too: it pulls as well as pushes.
    """

    place: float
    soonest: Gap
    latest: Gap | None
    k_low: float
    k_high: float
    fixed: bool = False


@dataclass(frozen=True, eq=False)
class OnProps(SolvedBeam):
    """A beam with its props acting: moments, shears and reactions are those with the props.

    What is read from the cases one by one (`deflections`, `reaction_by_kind`) stays that of the beam without them.
    """

    acting: BeamResult = field(kw_only=True)

    @cached_property
    def combined(self) -> BeamResult:
        """The solution under each combination."""
        return self.acting


@dataclass(frozen=True, eq=False)
class Propped:
    """A beam with some props under every combination.

    forces : (combinations, props) up on the beam, lbf; below zero only where a prop is fixed to the beam too.
    reactions : (combinations, supports) of the beam's own supports, up positive.
    beam : the beam as the checks of strength read it.
    """

    forces: Array
    reactions: Array
    beam: OnProps


@dataclass(frozen=True, eq=False)
class Bounds:
    """What the props of one beam may take, whatever stiffness and gap they really have within what is known of them.

    touches : as given, but none in the place of another.
    largest, least : (combinations, props) lbf, up on the beam.
    relief : (combinations, props) how far the others lift the beam at each prop in the state of its largest force, in.
    unit_sag : (props, props) sinking at the first under a force of 1 lbf at the second, in/lbf.
    eager : for each prop the set of props that are early and stiff when its force is largest; the rest are late, soft.
    """

    straight: SolvedBeam
    touches: tuple[Touch, ...]
    softness: float
    largest: Array
    least: Array
    relief: Array
    unit_sag: Array
    eager: tuple[frozenset[int], ...]

    def acting(self, i: int) -> list[Propped]:
        """The beam with every prop early and stiff, and in the state of one prop's largest force; solved as a frame.

        Raises BeamcheckError if the frame does not give the largest force that was found.
        """
        found = [self._solved(eager) for eager in dict.fromkeys([frozenset(range(len(self.touches))), self.eager[i]])]
        most, known = np.max([one.forces[:, i] for one in found]), np.max(self.largest[:, i])
        if not abs(most - known) <= SAME * max(abs(known), float(np.max(np.abs(self.largest)))) + VANISHING:
            raise BeamcheckError(f"the force of a prop is {known:.6g} lb by one method and {most:.6g} lb by the other")
        return found

    def _solved(self, eager: Collection[int]) -> Propped:
        there, gaps, stiff = _state(self.touches, eager)
        found = prop_forces(
            self.straight, [self.touches[i].place for i in there], gaps, stiff,
            fixed=[self.touches[i].fixed for i in there], softness=self.softness,
        )  # fmt: skip
        forces = np.zeros((len(self.straight.combinations), len(self.touches)))
        forces[:, there] = found.forces
        return replace(found, forces=forces)


def sinking(straight: SolvedBeam, places: Sequence[float], softness: float = 1.0) -> Sinking:
    """How far a solved beam comes down at some places under each combination, shear deflection included.

    Raises OutOfRange: a place beyond the ends of the beam.
    """
    _on_beam(straight, places)
    kinds = np.array([case.kind for case in straight.cases])
    settles, stays = kinds == SETTLED, kinds == "D"
    # a support that settles takes the beam with it, however stiff that is
    down = -straight.cases_run.line.at("v", np.asarray(places, dtype=float))
    down = down * np.where(settles, 1.0, softness)[:, None]
    factors = straight.factors
    resting, settled = np.sum(down[stays], axis=0), np.sum(np.maximum(down[settles], 0.0), axis=0)
    lasting, live = (factors * stays) @ down, (factors * (kinds == "L")) @ down
    return Sinking(lasting, factors @ down - lasting, live, resting, settled)


def carried_down(straight: SolvedBeam, places: Sequence[float]) -> Array:
    """(supports, places): how far the beam comes down at some places when a support comes down by 1 in."""
    _on_beam(straight, places)
    cases = [[Settlement(i, 1.0)] for i in range(len(straight.supports))]
    supports = [(held.x, held.kind) for held in straight.supports]
    run = straight_beam(straight.length, supports, cases, sections=_stiffness(straight, 1.0))
    return np.asarray(-run.line.at("v", np.asarray(places, dtype=float)))


def unit_sags(straight: SolvedBeam, places: Sequence[float], softness: float = 1.0) -> Array:
    """(places, places): sinking at the first under a force of 1 lbf at the second, in/lbf, shear included."""
    _on_beam(straight, places)
    cases = [[PointLoad(x, 1.0)] for x in places]
    supports = [(held.x, held.kind) for held in straight.supports]
    run = straight_beam(straight.length, supports, cases, sections=_stiffness(straight, softness))
    return np.asarray(-run.line.at("v", np.asarray(places, dtype=float)).T)


def prop_forces(
    straight: SolvedBeam, places: Sequence[float], gaps: Sequence[Gap], stiffnesses: Sequence[float], *,
    fixed: Sequence[bool] = (), softness: float = 1.0,
) -> Propped:  # fmt: skip
    """Solve a beam again with all its props, under every combination.

    `places`: in any order [in]. `gaps`: sequence of float or (combinations,) array: how far the beam may sink before it
    touches; below zero: wedged in by that much [in]. `stiffnesses`: inf for a rigid prop [lbf/in]. `fixed`: which of
    them pull as well. Raises OutOfRange: a place off the beam or at one of its supports, a stiffness that is none.
    """
    if not places:
        raise OutOfRange("no prop is given")
    _check(straight, places, stiffnesses)
    fixed = tuple(fixed) or (False,) * len(places)
    places = _told_apart(straight, places)
    one_sided = [i for i, both_ways in enumerate(fixed) if not both_ways]
    two_sided = [i for i, both_ways in enumerate(fixed) if both_ways]
    frame, loads, contacts = beam_frame(
        straight.length, [(held.x, held.kind) for held in straight.supports],
        [_loads_of(straight, case) for case in straight.cases], None, np.inf, None, _stiffness(straight, softness),
        places, 0.0, [Prop(places[i], gaps[i], _hold(stiffnesses[i])) for i in one_sided],
    )  # fmt: skip
    loads = loads.combine(straight.factors)
    held = len(frame.supports)
    if two_sided:
        frame, loads = _with_springs(frame, loads, [(places[i], gaps[i], stiffnesses[i]) for i in two_sided])
    forces = np.zeros((len(straight.combinations), len(places)))
    if contacts:
        contact = solve_contact(frame, loads, contacts)
        solution = contact.solution
        forces[:, one_sided] = contact.forces
    else:
        solution = solve(frame, loads)
    forces[:, two_sided] = solution.reactions[:, held:, 1]
    own = solution.reactions[:, :held]
    acting = BeamResult(Line(solution, range(len(frame.bars))), own)
    beam = OnProps(
        straight.length, straight.supports, straight.loads, straight.cases, straight.combinations, straight.cases_run,
        {}, straight.softness, acting=acting,
    )  # fmt: skip
    return Propped(forces, np.asarray(own[..., 1]), beam)


def force_bounds(straight: SolvedBeam, touches: Sequence[Touch], softness: float = 1.0) -> Bounds:
    """The largest force that each prop may come to take, and the least of those that can pull.

    A prop takes most when it is stiff and touched soon, and when those that relieve it are soft, late or not there at
    all. But its neighbor's neighbor relieves that one, and one in the next span of a continuous beam loads it. So all
    choices of early and stiff, or late and soft, are tried for its nearest neighbors; those farther off count late and
    soft where they relieve it, early and stiff where they load it. What lies between the two ends of a neighbor is not
    tried; trials with random gaps and stiffnesses found more than this bound only for five stiff props in one span, on
    one that takes little beside the others.

    Raises OutOfRange as `prop_forces`.
    """
    _check(straight, [touch.place for touch in touches], [touch.k_high for touch in touches])
    for touch in touches:
        if not 0.0 <= touch.k_low <= touch.k_high:
            raise OutOfRange(f"the least stiffness of {touch.k_low} lb/in is not from 0 to {touch.k_high} lb/in")
    placed = _told_apart(straight, [touch.place for touch in touches])
    touches = [replace(touch, place=place) for touch, place in zip(touches, placed, strict=True)]
    f = unit_sags(straight, placed, softness)
    free = sinking(straight, placed, softness)
    sunk = free.lasting + free.passing

    def forces(eager: frozenset[int], touches: Sequence[Touch]) -> Array:
        there, gaps, stiff = _state(touches, eager)
        lacking = sunk[:, there] - np.stack(np.broadcast_arrays(sunk[:, 0], *gaps)[1:], axis=-1)
        soft = f[np.ix_(there, there)] + np.diag(1.0 / np.array(stiff))
        found = np.zeros_like(sunk)
        found[:, there] = _pressed(lacking, soft, np.array([touches[i].fixed for i in there]))
        return np.asarray(found)

    tried: dict[frozenset[int], Array] = {}
    every, shape = range(len(touches)), sunk.shape
    worst, largest, least, relief = [], np.full(shape, -np.inf), np.zeros(shape), np.zeros(shape)
    for i in every:
        most: dict[frozenset[int], float] = {}
        for eager in [frozenset(every), *(frozenset({i}) | some for some in _choices(placed, f, i))]:
            if eager not in tried:
                tried[eager] = forces(eager, touches)
            R = tried[eager]
            more = R[:, i] > largest[:, i]
            largest[more, i] = R[more, i]
            relief[more, i] = (R @ f[i] - R[:, i] * f[i, i])[more]
            most[eager] = float(np.max(R[:, i]))
        worst.append(max(most, key=lambda eager: most[eager]))
        if touches[i].fixed:  # late itself, but as stiff as it can be, while others lift the beam off it
            late = [replace(touch, k_low=touch.k_high) if j == i else touch for j, touch in enumerate(touches)]
            pulled = [forces(eager, late)[:, i] for eager in _choices(placed, -f, i)]
            least[:, i] = np.min([tried[frozenset(every)][:, i], *pulled], axis=0)
    return Bounds(straight, tuple(touches), softness, largest, least, relief, f, tuple(worst))


def _state(touches: Sequence[Touch], eager: Collection[int]) -> tuple[list[int], list[Gap], list[float]]:
    """Those in `eager` early and stiff, the others late and soft or not there: who is there, gaps, stiffnesses."""
    there = [i for i, touch in enumerate(touches) if i in eager or _is_there(touch)]
    gaps, stiff = [], []
    for i in there:
        touch = touches[i]
        late = touch.soonest if touch.latest is None else touch.latest
        gaps.append(touch.soonest if i in eager else late)
        stiff.append(touch.k_high if i in eager else touch.k_low)
    return there, gaps, stiff


def _pressed(lacking: Array, soft: Array, fixed: Array) -> Array:
    """Forces (rows, props) by the force method: soft R = lacking where they act; none pulls, none is pressed through.

    lacking : (rows, props) how far the beam would come down past the gaps. soft : (props, props) f + 1/k, positive
    definite: there is one answer, and turning over the first wrong one alone always ends (K. G. Murty 1974).
    """
    acting, n = np.ones(lacking.shape, dtype=bool), lacking.shape[1]
    for turn in range(50 + 2 ** min(n, 12)):
        R = np.zeros_like(lacking)
        for row in np.unique(acting, axis=0):
            mine, on = np.flatnonzero(np.all(acting == row, axis=1)), np.flatnonzero(row)
            R[np.ix_(mine, on)] = np.linalg.solve(soft[np.ix_(on, on)], lacking[np.ix_(mine, on)].T).T
        through = lacking - R @ soft
        little = TOLERANCE * np.max(np.abs(R), axis=1, keepdims=True)
        small = TOLERANCE * np.max(np.abs(lacking), axis=1, keepdims=True)
        wrong = np.where(acting, R + little < 0.0, through > small) & ~fixed
        if not np.any(wrong):
            return R
        if turn > 20:  # all at once settles soonest, but may go in circles
            wrong = wrong & (np.cumsum(wrong, axis=1) == 1)
        acting = acting ^ wrong
    raise BeamcheckError("the props do not settle on a state in which none pulls and none is pressed through")


def _choices(places: Sequence[float], f: Array, i: int) -> list[frozenset[int]]:
    """Which of the others are early and stiff: every choice among the nearest, with those farther off that load it."""
    others = sorted((j for j in range(len(places)) if j != i), key=lambda j: abs(places[j] - places[i]))
    near, far = others[:NEIGHBORS], others[NEIGHBORS:]
    loading = frozenset(j for j in far if f[i, j] < 0.0)
    return [loading.union(some) for n in range(len(near) + 1) for some in combinations(near, n)]


def _is_there(touch: Touch) -> bool:
    """Whether it takes part even at its softest and latest."""
    return touch.k_low > 0.0 and (touch.fixed or touch.latest is not None)


def _on_beam(straight: SolvedBeam, places: Sequence[float]) -> None:
    for x in places:
        if not 0.0 <= x <= straight.length:
            raise OutOfRange(f"{_place(x)} is not on the beam, which runs from 0 to {show(straight.length, 'length')}")


def _check(straight: SolvedBeam, places: Sequence[float], stiffnesses: Sequence[float]) -> None:
    _on_beam(straight, places)
    for x in places:
        if any(abs(x - held.x) < APART for held in straight.supports):
            raise OutOfRange(f"{_place(x)} is at a support of the beam: what stands there is part of the seat, no prop")
    for k in stiffnesses:
        if not k > 0.0:
            raise OutOfRange(f"a stiffness of {k} lb/in is none: it must be above 0")


def _place(x: float) -> str:
    return show(x, "length") if np.isfinite(x) else f"a place at {x}"


def _told_apart(straight: SolvedBeam, places: Sequence[float]) -> list[float]:
    """The places, those in one spot a little apart from each other: two noses side by side touch as two."""
    order = np.argsort(np.asarray(places, dtype=float), kind="stable")
    found = [float(x) for x in places]
    for before, after in pairwise(order):
        found[after] = max(found[after], found[before] + APART)
    for rank, i in enumerate(reversed(order)):
        found[i] = min(found[i], straight.length - rank * APART)
    for i in order:  # pushed onto a support: stay on the near side of it
        for held in straight.supports:
            if abs(found[i] - held.x) < APART:
                found[i] = held.x + (APART if places[i] > held.x else -APART)
    if np.any(np.diff(np.sort(found)) < 0.5 * APART):
        raise OutOfRange("so many brackets touch the beam at one place that they cannot be told apart")
    return found


def _hold(k: float) -> bool | float:
    return True if np.isinf(k) else float(k)


def _stiffness(straight: SolvedBeam, softness: float) -> list[Section]:
    """The stretches of a solved beam with their stiffness, as it is used now."""
    line, soft = straight.cases_run.line, softness * straight.softness
    bars = [line.solution.frame.bars[i] for i in line.bars]
    cuts = pairwise(line.stations.tolist())
    return [Section(a, b, bar.EI / soft, bar.GA_s / soft) for bar, (a, b) in zip(bars, cuts, strict=True)]


def _loads_of(straight: SolvedBeam, case: Case) -> list[BeamLoad]:
    if case.kind == SETTLED:
        return [Settlement(i, held.settles) for i, held in enumerate(straight.supports) if held.settles]
    return [
        PointLoad(load.start, load.P) if load.is_point
        else LineLoad(load.start, load.end, load.w_start, load.w_end) for load in case.loads
    ]  # fmt: skip


def _with_springs(frame: Frame, loads: Loads, springs: Sequence[tuple[float, Gap, float]]) -> tuple[Frame, Loads]:
    """The frame with springs that hold both ways, each with its far end as low as its gap."""
    nodal, bars, settlement = loads.full(frame)
    down = np.zeros((*settlement.shape[:-2], len(springs), 3))
    more = []
    for i, (x, gap, k) in enumerate(springs):
        more.append(Support(int(np.argmin(np.abs(frame.nodes[:, 0] - x))), uy=_hold(k)))
        down[..., i, 1] = -np.asarray(gap)
    held = Frame(frame.nodes, frame.bars, [*frame.supports, *more])
    return held, Loads(nodal, bars, np.concatenate([settlement, down], axis=-2))
