"""Frames of which parts act one way only: supports that push up, bars that only push or only pull; after a gap or not.

Which of them act is found by trial (an active set): close those that are pressed through, open those that would have to
pull, until none is wrong. A frame that is stable without them has exactly one such answer. Below, a bar that acts one
way is a contact too: it is closed when it acts, its force is that in its middle, counted the way it acts, and its
opening what is left of its gap.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from ...errors import BeamcheckError, Unstable
from ...records import dataclass
from .chains import Flags
from .frame import FIELDS, Frame, Loads, Solution, Support, solve
from .polynomial import Array
from .structure import Hold

_SOFT = 1e-4  # of EI/size^3: soft enough to let a gap close, stiff enough to be solved with
_SOFT_BAR = 1e-6  # of the stiffest bar along itself: likewise, where bars act one way
TOLERANCE = 1e-9  # of the largest force, or of the largest displacement or gap, of the case


@dataclass(frozen=True, eq=False)
class Contact:
    """Something under a node that pushes up when the node has come down by more than the gap.

    gap : distance, or an array that broadcasts to (*F, n_cases). Below zero: wedged in before the load came.
    stiffness : True for rigid, or a spring (force per length; may have the axes *F).
    """

    node: int
    gap: float | Array
    stiffness: Hold = True


@dataclass(frozen=True, eq=False)
class ContactSolution:
    """A solution with contact. Cases cannot be combined afterwards: every case must already be a combination.

    The last axis runs over the contacts, then over the bars that act one way, both in their order.

    solution : Solution; its reactions are those of the frame's own supports.
    forces : (*lead, n_contacts) upward force on the frame, zero where open.
    closed : (*lead, n_contacts) whether the contact acts.
    opening : (*lead, n_contacts) what is left of the gap; below zero is the squeeze of a contact with a spring.
    """

    solution: Solution
    forces: Array
    closed: Flags
    opening: Array


def solve_contact(frame: Frame, loads: Loads, contacts: Sequence[Contact] = ()) -> ContactSolution:
    """Solve with one-sided supports and bars; every load case finds its own set of those that act.

    Raises Unstable: the frame would tip, lift off or come apart: with what still acts it can move freely; ValueError: a
    wrong node, a gap that is not finite, a contact where a support holds the node's height, two at one node;
    BeamcheckError: no consistent set of contacts was found (not seen so far; never an answer that was not checked).
    """
    trial = _Trial(frame, loads, contacts)
    none, every = (), tuple(range(trial.n))
    closed = np.zeros((*trial.lead, trial.n), dtype=bool)
    if isinstance(trial.of(none), Unstable):
        if isinstance(error := trial.of(every), Unstable):
            raise error
        # on next to nothing it cannot fall, and the search always ends: that gives the set to begin with
        soft = _SOFT * np.min(frame.EI, axis=-1) / frame.size**3
        if trial.one_way:
            soft = np.maximum(soft, _SOFT_BAR * np.max(frame.EA / frame.length, axis=-1))
        closed = _settled(_Trial(frame, loads, contacts, soft), closed).closed
    answer = _settled(trial, closed)
    trial.prove(answer)
    return answer


def _settled(trial: _Trial, closed: Flags) -> ContactSolution:
    """Close and open contacts, from the given set on, until none is wrong."""
    n = closed.shape[-1]
    before, one_by_one = closed, np.zeros(trial.lead, dtype=bool)
    for turn in range(50 + 10 * n):
        answer, unstable = trial.rows(closed)
        if answer is None or np.any(unstable):
            if np.any(unstable & one_by_one):
                one_way = " or comes apart" if trial.one_way else ""
                raise Unstable(
                    f"the frame tips or lifts off{one_way}: with what still acts it can move without resistance"
                )
            closed, one_by_one = np.where(unstable[..., None], before, closed), one_by_one | unstable
            continue
        wrong_by = trial.violation(answer, closed)
        wrong = wrong_by > TOLERANCE
        if not np.any(wrong):
            return answer
        # all at once settles soonest; the worst alone where that cannot stand or goes in circles; last the first alone,
        # which always ends (K. G. Murty 1974, for positive definite stiffness)
        which = np.argmax(wrong if turn > 30 + 3 * n else wrong_by, axis=-1)
        alone = one_by_one | (turn > 10)
        before = closed
        closed = closed ^ (wrong & (~alone[..., None] | (np.arange(n) == which[..., None])))
    raise BeamcheckError("the contacts do not settle on a state in which none pulls and none is pressed through")


class _Trial:
    """Solutions for given sets of acting contacts, kept so that each set is solved once.

    With `soft` an open contact is a spring of that stiffness instead of nothing: only to find a set to begin with.
    """

    def __init__(self, frame: Frame, loads: Loads, contacts: Sequence[Contact], soft: Array | None = None) -> None:
        self.frame, self.contacts, self.soft = frame, tuple(contacts), soft
        self._solved: dict[tuple[int, ...], ContactSolution | Unstable] = {}
        self.one_way = [i for i, bar in enumerate(frame.bars) if bar.acts != "both"]
        self.n = len(self.contacts) + len(self.one_way)
        if not self.n:
            raise ValueError("contacts: there is none; without contact use solve")
        taken: set[int] = set()
        own = {support.node: i for i, support in enumerate(frame.supports)}
        for i, contact in enumerate(self.contacts):
            frame.index(f"contact {i}: node", contact.node)
            if contact.node in taken:
                raise ValueError(f"contact {i}: node {contact.node} has a contact already")
            if contact.node in own and frame.held[own[contact.node], 1]:
                raise ValueError(f"contact {i}: a support holds the height of node {contact.node} already")
            if not np.all(np.isfinite(contact.gap)):
                raise ValueError(f"contact {i}: the gap {contact.gap} is not a finite number")
            k = contact.stiffness
            if not (k is True or (k is not False and np.all(np.asarray(k) > 0.0) and np.all(np.isfinite(k)))):
                raise ValueError(
                    f"contact {i}: a stiffness of {k!r} is none; give True for rigid, or a spring above zero"
                )
            taken.add(contact.node)
        self.node = np.array([contact.node for contact in self.contacts], dtype=np.intp)
        full = loads.full(frame)
        gaps = [np.asarray(contact.gap, dtype=float) for contact in self.contacts]
        gaps += [np.asarray(frame.bars[i].gap, dtype=float) for i in self.one_way]
        self.way = np.array([1.0 if frame.bars[i].acts == "push" else -1.0 for i in self.one_way])
        springs = [(*np.shape(contact.stiffness), 1) for contact in self.contacts]
        self.lead = np.broadcast_shapes(full[0].shape[:-2], *springs, *(gap.shape for gap in gaps))
        self.gap = np.stack([np.broadcast_to(gap, self.lead) for gap in gaps], axis=-1)
        own_lead = len(full[0].shape[:-2])
        self.nodal, self.bars, self.settlement = (np.broadcast_to(x, self.lead + x.shape[own_lead:]) for x in full)
        self.stretch = loads.stretched(frame, self.lead)

    def of(self, acting: tuple[int, ...]) -> ContactSolution | Unstable:
        """The solution, for all cases, when just these contacts act; or why the frame can then move freely."""
        if acting not in self._solved:
            self._solved[acting] = self._solve(acting)
        return self._solved[acting]

    def _solve(self, acting: tuple[int, ...]) -> ContactSolution | Unstable:
        supports, moved = list(self.frame.supports), [self.settlement]
        own = {support.node: i for i, support in enumerate(supports)}
        settlement, at = self.settlement.copy(), []
        n_contacts = len(self.contacts)
        standing = acting if self.soft is None else range(n_contacts)
        for i in (each for each in standing if each < n_contacts):
            contact, down = self.contacts[i], np.zeros((*self.lead, 1, 3))
            hold: Hold = contact.stiffness
            if i in acting:
                down[..., 0, 1] = -self.gap[..., i]
                at.append(own.get(contact.node, len(supports)))
            elif self.soft is not None:
                hold = self.soft
            if contact.node in own:
                supports[own[contact.node]] = replace(supports[own[contact.node]], uy=hold)
                settlement[..., own[contact.node], :] += down[..., 0, :]
            else:
                supports.append(Support(contact.node, uy=hold))
                moved.append(down)
        moved[0] = settlement
        bars, stretch = list(self.frame.bars), self.stretch.copy()
        for i, number in enumerate(self.one_way, n_contacts):
            if i in acting:
                bars[number] = replace(bars[number], acts="both")
                stretch[..., number] -= self.way[i - n_contacts] * self.gap[..., i]
            elif self.soft is not None:
                bars[number] = replace(bars[number], acts="both", slip_start=self.soft)
            else:
                bars[number] = replace(bars[number], acts="both", idle=True)
        frame = Frame(self.frame.nodes, bars, supports)
        try:
            solution = solve(frame, Loads(self.nodal, self.bars, np.concatenate(moved, axis=-2), stretch))
        except Unstable as error:
            return error
        forces = np.zeros_like(self.gap)
        under = [i for i in acting if i < n_contacts]
        forces[..., under] = solution.reactions[..., at, 1]
        reactions = solution.reactions[..., : len(self.frame.supports), :].copy()
        for i, place in zip(under, at, strict=True):
            if place < len(self.frame.supports):
                reactions[..., place, 1] -= forces[..., i]
        solution = replace(solution, frame=self.frame, reactions=reactions, linear=False)
        closed = np.zeros(self.gap.shape, dtype=bool)
        closed[..., list(acting)] = True
        forces[..., n_contacts:] = np.where(closed[..., n_contacts:], self._axial(solution), 0.0)
        return ContactSolution(solution, forces, closed, self.gap - self._nearing(solution))

    def _nearing(self, solution: Solution) -> Array:
        """(*lead, n) by how far each contact or bar has gone the way in which it acts."""
        moved = solution.displacements
        down = -moved[..., self.node, 1]
        along = np.zeros((*self.lead, len(self.one_way)))
        for k, number in enumerate(self.one_way):
            frame, bar = self.frame, self.frame.bars[number]
            c, s = frame.cos[..., None, number], frame.sin[..., None, number]
            for node, stub, sign in ((bar.start, bar.stub_start, -1.0), (bar.end, bar.stub_end, 1.0)):
                ux, uy, turn = moved[..., node, 0], moved[..., node, 1], np.nan_to_num(moved[..., node, 2])
                along[..., k] += sign * (c * (ux - turn * stub[1]) + s * (uy + turn * stub[0]))
        return np.concatenate([down, -self.way * along], axis=-1)

    def _axial(self, solution: Solution) -> Array:
        """(*lead, n of one way) force in the middle of each, counted the way it acts."""
        N, x = solution.N[..., self.one_way, :], self.frame.length[..., None, self.one_way] / 2.0
        return np.asarray(-self.way * (N[..., 0] + N[..., 1] * x + N[..., 2] * x**2))

    def rows(self, closed: Flags) -> tuple[ContactSolution | None, Flags]:
        """Every case with its own set of contacts; and the cases for which that set leaves the frame free to move."""
        unstable, answer = np.zeros(self.lead, dtype=bool), None
        for row in np.unique(closed.reshape(-1, closed.shape[-1]), axis=0):
            mine = np.all(closed == row, axis=-1)
            found = self.of(tuple(int(i) for i in np.flatnonzero(row)))
            if isinstance(found, Unstable):
                unstable |= mine
            else:
                answer = found if answer is None else _chosen(mine, found, answer)
        return answer, unstable

    def violation(self, answer: ContactSolution, closed: Flags) -> Array:
        """By how much a contact is wrong: pull over the largest force, or press-through over the largest movement."""
        pull = -answer.forces / self._largest_force(answer)
        through = -answer.opening / self._largest_movement(answer)
        return np.where(closed, pull, through)

    def _largest_force(self, answer: ContactSolution) -> Array:
        all_forces = np.concatenate([answer.forces, answer.solution.V[..., 0], answer.solution.N[..., 0]], axis=-1)
        most = np.max(np.abs(all_forces), axis=-1, keepdims=True)
        return np.where(most > 0.0, most, 1.0)

    def _largest_movement(self, answer: ContactSolution) -> Array:
        moved = answer.solution.displacements[..., :2].reshape(*self.lead, -1)
        most = np.max(np.abs(np.concatenate([moved, self.gap], axis=-1)), axis=-1, keepdims=True)
        return np.where(most > 0.0, most, 1.0)

    def prove(self, answer: ContactSolution) -> None:
        """Check the finished answer from its displacements: each contact gives the force its squeeze calls for."""
        lowered = self._nearing(answer.solution) - self.gap
        small = 10.0 * TOLERANCE * self._largest_movement(answer)
        little = 10.0 * TOLERANCE * self._largest_force(answer)
        right = answer.forces >= -little
        for i, contact in enumerate(self.contacts):
            if isinstance(contact.stiffness, (bool, np.bool_)):
                pressed = answer.forces[..., i] > little[..., 0]
                right[..., i] &= lowered[..., i] <= small[..., 0]
                right[..., i] &= ~pressed | (np.abs(lowered[..., i]) <= small[..., 0])
            else:
                k = np.asarray(contact.stiffness, dtype=float)[..., None]
                called_for = k * np.maximum(lowered[..., i], 0.0)
                right[..., i] &= np.abs(answer.forces[..., i] - called_for) <= little[..., 0] + k * small[..., 0]
        idle = ~answer.closed[..., len(self.contacts) :]
        right[..., len(self.contacts) :] &= ~idle | (lowered[..., len(self.contacts) :] <= small)
        if not np.all(right):
            raise BeamcheckError(f"contact {int(np.argwhere(~right)[0][-1])}: its force does not fit its squeeze")


def _chosen(where: Flags, first: ContactSolution, second: ContactSolution) -> ContactSolution:
    """`first` for the cases in `where`, `second` for the others."""

    def pick(name: str, a: Any, b: Any, tail: int) -> Any:
        return np.where(where[(..., *(None,) * tail)], getattr(a, name), getattr(b, name))

    fields = {name: pick(name, first.solution, second.solution, 2) for name in FIELDS}
    own = {name: pick(name, first, second, 1) for name in ("forces", "closed", "opening")}
    return ContactSolution(replace(first.solution, **fields), **own)
