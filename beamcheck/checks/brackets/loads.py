"""What a bracket carries, under every combination: its top edge as a cantilever from the wall face; who hangs on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property
from itertools import pairwise

import numpy as np

from ...analysis.beams.combinations import Loaded
from ...analysis.beams.load_cases import Applied
from ...analysis.beams.member_loads import SELF_WEIGHT, applied_loads, transferred_loads
from ...analysis.beams.solved_beam import BeamSupport, SolvedBeam, solve_beam
from ...model.brackets.bracket import Bracket, Trim
from ...records import dataclass
from ...values.brackets import accidental_loads
from ...values.judgment import judgment
from ..core.asking.question import PlausibleAnswer
from ..core.context import Context
from ..core.result import Check
from .asking import ask_for, path_of

Array = np.ndarray
ACCIDENTAL = "somebody who hangs on it"
PARTS = 8  # even strips that stand for a line load whose intensity changes
STIFF = 1.0e9  # lbf in2 and lbf: forces on a cantilever do not depend on its stiffness


@dataclass(frozen=True)
class Strip:
    """A force spread evenly over part of the top edge, lbf, down positive."""

    start: float
    end: float
    force: float
    own: bool = False  # part of the bracket's own weight
    stiff: bool = False  # one thing on a seat, whose pressure shifts as it settles


@dataclass(frozen=True, eq=False)
class BracketLoads:
    """Forces on a bracket; arrays have one entry per combination. x is measured from the wall face, in."""

    projection: float
    loads: tuple[Applied, ...]
    straight: SolvedBeam

    @property
    def combinations(self) -> tuple[Loaded, ...]:
        return self.straight.combinations

    @property
    def C_D(self) -> Array:
        return self.straight.C_D

    @cached_property
    def F(self) -> Array:
        """All the load, lbf, down positive."""
        return self.straight.reactions(0)

    @cached_property
    def M_wall(self) -> Array:
        """Moment of the load about the wall face, lbf in, positive when the nose is pressed down."""
        return self.beyond(0.0)[1]

    @cached_property
    def x_L(self) -> Array:
        """How far out its resultant acts, in; 0 without load."""
        x = np.divide(self.M_wall, self.F, out=np.zeros_like(self.F), where=np.abs(self.F) > 1e-9)
        return np.asarray(x)

    def beyond(self, x: float) -> tuple[Array, Array]:
        """Force outboard of a cut at x, lbf, and its moment about the cut, lbf in; each load in its very place."""
        by_case = np.array([_beyond(case.loads, x) for case in self.straight.cases])
        force, moment = (self.straight.factors @ by_case).T
        return force, moment

    def strips(self, combination: int) -> list[Strip]:
        """The load of one combination as even strips on the top edge."""
        return self._strips[combination]

    @cached_property
    def _strips(self) -> list[list[Strip]]:
        by_case = [[strip for load in case.loads for strip in self._spread(load)] for case in self.straight.cases]
        found = []
        for one in self.combinations:
            factored = zip(one.factors, by_case, strict=True)
            found.append([replace(s, force=factor * s.force) for factor, strips in factored if factor for s in strips])
        return found

    def _spread(self, load: Applied) -> list[Strip]:
        if load.is_point:
            # beyond the nose nothing bears: a seat that were moved in whole would bring the load nearer to the wall
            least, room = judgment("least width of a load on a bracket").value, 2.0 * (self.projection - load.start)
            width = min(max(min(load.bearing or 0.0, room), least), self.projection)
            start = min(max(load.start - 0.5 * width, 0.0), self.projection - width)
            return [Strip(start, start + width, load.P, load.own, stiff=True)]
        edges = np.linspace(load.start, load.end, (PARTS if load.w_start != load.w_end else 1) + 1)
        parts = (load.part(float(low), float(high)) for low, high in pairwise(edges))
        return [Strip(part.start, part.end, part.total, load.own) for part in parts if part is not None]

    def by_kind(self) -> dict[str, tuple[float, float]]:
        """Largest and least force of each kind, lbf, unfactored."""
        return self.straight.reaction_by_kind(0)

    @property
    def only_own_weight(self) -> bool:
        return all(load.own for load in self.loads)

    @property
    def most(self) -> dict[str, float]:
        """The largest force down, and the largest up where there is any, lbf: what a ruling has to cover."""
        down, up = float(np.max(self.F, initial=0.0)), -float(np.min(self.F, initial=0.0))
        return {"down": down} | ({"up": up} if up > judgment("force that is rounding").value else {})

    @cached_property
    def lifts(self) -> bool:
        """Whether under some combination what stands beyond some section lifts it, or turns it upwards."""
        least = judgment("force that is rounding").value
        if float(np.min(self.F)) < -least:
            return True
        places = {strip.start for i in range(len(self.combinations)) for strip in self.strips(i)}
        for x in sorted({0.0, *places}):
            force, moment = self.beyond(x)
            if min(float(np.min(force)), float(np.min(moment))) < -least:
                return True
        return False


def _beyond(loads: Sequence[Applied], x: float) -> tuple[float, float]:
    """Force of some loads outboard of x, lbf, and their moment about it, lbf in."""
    force = moment = 0.0
    for load in loads:
        if load.is_point:
            if load.start >= x:
                force, moment = force + load.P, moment + load.P * (load.start - x)
        elif (part := load.part(x, load.end)) is not None:
            force, moment = force + part.total, moment + part.moment_about(x)
    return force, moment


def bracket_loads(
    bracket: Bracket, context: Context, weight: Sequence[tuple[float, float, float]],
    *, accidental: bool = True, more: Sequence[Applied] = (),
) -> BracketLoads:  # fmt: skip
    """Loads of the job file, of what rests on it, of its own weight and of somebody who hangs on its nose.

    `weight`: sequence of (from, to, weight): own weight of the bracket in strips, in and lbf. `accidental`: whether the
    accidental force of the job file is counted, as a live load at the nose. `more`: sequence of Applied: further loads,
    such as the force of a beam that comes down on it.
    """
    projection = bracket.shape.stands_out
    found = [*applied_loads(bracket.carries, projection), *transferred_loads(context.transfers, projection), *more]
    for start, end, W in weight:
        found.append(
            Applied("D", start, end, w_start=W / (end - start), w_end=W / (end - start), what=SELF_WEIGHT, own=True)
        )
    if accidental and isinstance(bracket.accidental, float):
        found.append(Applied("L", projection, projection, P=bracket.accidental, what=ACCIDENTAL, applied="top"))
    straight = solve_beam(
        projection, [BeamSupport(0.0, "fixed")], found, depth=projection, EI=STIFF, GA_s=STIFF
    )  # fmt: skip
    return BracketLoads(projection, tuple(found), straight)


WHAT_IF = "somebody who hangs on it"
CLAUSE = "common practice, no source"
NOT_FOR_LOAD = "not for load"


def accidental_checks(piece: Bracket | Trim) -> Iterator[Check]:
    """The usual figures are offered, never taken."""
    id, name = "bracket.accidental", piece.name
    if piece.accidental is None:
        usual = "; ".join(one.reason for one in accidental_loads())
        text = (
            'not decided (`accidental`): give a force, or write "not for load" where it is labeled so and comes off '
            f"harmlessly. No code asks for it; {CLAUSE}: {usual}"
        )
        at, chosen = path_of(piece, "accidental"), path_of(piece, "accidental_from")
        answers = [PlausibleAnswer("no: it is labeled so and comes off harmlessly", ((at, NOT_FOR_LOAD),))]
        for one in accidental_loads():
            force = f"{one.value.load:g} lb"
            says = f"yes, {force} as for a {one.value.as_for}"
            answers.append(PlausibleAnswer(says, ((at, force), (chosen, f"the owner, as for a {one.value.as_for}"))))
        yield Check.refers(id, name, WHAT_IF, CLAUSE, text, ask=ask_for(piece, "accidental", "accidental", answers))
    elif piece.accidental == NOT_FOR_LOAD:
        text = "declared not for load: label it so, and see that it comes off without hurting anybody"
        yield Check.keeps_rule(id, name, WHAT_IF, CLAUSE, text)
    elif not piece.accidental_from.strip():
        text = "who chose that force is not said (`accidental_from`)"
        asked = ask_for(piece, "accidental_from", "accidental_from")
        yield Check.refers(id, name, WHAT_IF, CLAUSE, text, ask=asked)
