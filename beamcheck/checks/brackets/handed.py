"""What a bracket hands to what it is fixed to: its loads, and what a beam that comes down on it presses with."""

from __future__ import annotations

from typing import Any

import numpy as np

from ...analysis.beams.member_loads import TransferredLoad
from ...errors import BeamcheckError
from ...model.beams import Beam
from ...model.existing import Existing
from ...model.fields.evidence import vouched
from ...model.posts import Post
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import ask
from ..core.context import Context
from ..core.draft import Reactions, SupportForces
from ..core.result import Check
from ..core.seat import bears_nothing, nobody_answers
from ..core.wood.stated_capacity import enough
from .body import Body
from .family import Family
from .fixings.rows import outward_pulls, rows_of
from .loads import BracketLoads
from .props.prop import PropResult
from .under_beam import with_prop


class Handed:
    """The loads of a bracket as they come to what it is fixed to."""

    def __init__(
        self, family: Family[Any], context: Context, loads: BracketLoads, body: Body, prop: PropResult | None
    ) -> None:
        self.family, self.bracket, self.context, self.loads = family, family.bracket, context, loads
        self.rounding = judgment("force that is rounding").value
        self.whole, self.perhaps, self.pull = loads, "", _pull(family, loads, body)
        near = self.bracket.near
        if prop is None or near is None:
            return
        R = float(np.max(prop.R, initial=0.0))
        if self.rounding >= R:
            return
        if near.gap is None and not near.fixed_to_beam:
            self.perhaps = (
                f"{show(R, 'force')} of {near.beam} come here through {self.bracket.name} if there is no gap between "
                "them: the gap is not known"
            )
            self.open = prop.open
            return
        self.whole = with_prop(family, R, near, context, accidental=True)
        if self.pull is not None:
            self.pull = max(self.pull, _pull(family, self.whole, Body()) or 0.0)

    @property
    def off(self) -> float:
        """How far out the resultant acts at most, in. Where something lifts, its fixings refer."""
        x = self.whole.x_L[self.rounding < self.whole.F]
        return float(min(np.max(x, initial=0.0), self.whole.projection)) if x.size else self.whole.projection

    def existing(self) -> list[Check]:
        """What somebody else's wall must take: said in figures, and against what its seat is said to take."""
        bracket, under = self.bracket, self.context.under(self.bracket.on)
        if not isinstance(under, Existing) or bears_nothing(under):
            return []
        F, place, rows = self.whole.F, "its fixings", bracket.fixings.rows if bracket.fixings is not None else ()
        if rows:
            place = f"{show(min(row.below_top for row in rows), 'length')} below its top edge"
        pull = (
            f"{show(self.pull, 'force')} outwards, {place}" if self.pull is not None
            else "a pull outwards at its top that is not known, for its fixings are not described"
        )  # fmt: skip
        confirmed, down = under.confirmed, float(np.max(F, initial=0.0))
        text = (
            f"{under.name} must take {show(down, 'force')} down and {pull}"
            f"{f', confirmed by {confirmed}' if confirmed else f'; {nobody_answers(under)}'}"
        )
        id, what, clause = "bracket.existing_takes", f"what {under.name} must take", "load path"
        asked = []
        if not confirmed:
            forces = {"down": down, **({"outwards": self.pull} if self.pull is not None else {})}
            field = f"existing.{under.name}.confirmed_by"
            asked.append(ask("answers_for", under.name, field, why=f"{text}.", forces=forces))
        by_others = bracket.fixings is not None and vouched(bracket.fixings.confirmed_by)
        if self.pull is None and not by_others:  # who answers for the fixings answers for their pull
            asked.append(ask("fixings", bracket.name, f"bracket.{bracket.name}.fixings"))
        if self.perhaps:
            text = f"{text}. {self.perhaps}"
            asked += self.open
        said = (
            Check.refers(id, bracket.name, what, clause, text, ask=asked) if asked
            else Check.keeps_rule(id, bracket.name, what, clause, text)
        )  # fmt: skip
        return [said, *enough(bracket.name, f"what {under.name} takes", under, self.whole.combinations, F)]

    def reactions(self) -> Reactions:
        """The row holds its own loads only, so that the beam's, which come to its supports, are not added up twice."""
        bracket, under = self.bracket, self.context.under(self.bracket.on)
        by_kind, F = self.loads.by_kind(), self.loads.F
        row = SupportForces(bracket.on, by_kind, float(np.max(F)), float(np.min(F)))
        load = TransferredLoad(
            bracket.name, self.whole.by_kind(), at=bracket.at if isinstance(under, (Beam, Post)) else None,
            applied="side", off=self.off, pull=self.pull, perhaps=self.perhaps,
        )  # fmt: skip
        return Reactions(bracket.name, (row,), ((bracket.on, load),))


def _pull(family: Family[Any], loads: BracketLoads, body: Body) -> float | None:
    """Largest pull on the top row, lbf, somebody who pulls the nose outwards included; None where it is not known."""
    if family.bracket.fixings is None or not family.bracket.fixings.rows:
        return None
    try:
        rows = rows_of(family, loads, body)
        outward = [force for words, force in outward_pulls(rows) if words == "outwards"]
        return max([float(np.max(rows.pulls(), initial=0.0)), *outward])
    except BeamcheckError:
        return None
