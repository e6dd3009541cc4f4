"""A rafter or a pair of rafters, and the tie that closes the pair: one frame, checked stick by stick."""

from __future__ import annotations

import math

import numpy as np

from ...analysis.roofs.roof_frame import RoofRun, solve_roof
from ...model.roofs import Rafter, Tie
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import ask
from ..core.context import Context
from ..core.result import Check
from ..core.wood.material import WoodMaterial
from ..core.wood.wood_doubts import named_engineered, wood_evidence_checks
from ..loads.given import roof_doubts, tie_doubts
from .fire import fire_checks
from .framed_stick import framed
from .member import stick_checks
from .raised_tie import raised_tie_checks
from .ridge import other_side_checks, upper_end_checks
from .seat import wall_checks
from .snow import snow_checks
from .tie import tie_rules

STEEP = math.degrees(math.atan(3 / 12))  # IRC R301.7
THRUST = "IRC R802.5.2"


class Roof:
    """A rafter, its tie if there is one, and their frame, solved.

    `tie`, `tie_wood`: Tie, Wood or None: the tie that closes the pair, if there is one. Raises Unstable, OutOfRange if
    the frame can move, or a value lies outside the rules.
    """

    def __init__(
        self, rafter: Rafter, wood: WoodMaterial, tie: Tie | None, tie_wood: WoodMaterial | None, context: Context
    ) -> None:
        self.tie, self.context = tie, context
        self.stick = framed(rafter, wood, context)
        self.other = framed(tie, tie_wood, context) if tie is not None and tie_wood is not None else None
        self.run: RoofRun = solve_roof(rafter, tie, self.stick.stiff, self.other.stiff if self.other else None)

    def rafter_checks(self) -> list[Check]:
        """Every check of the rafter."""
        run, stick = self.run, self.stick
        return [
            *stick_checks(stick, run, run.rafter_line, free=run.tail, steep=run.rafter.slope > STEEP),
            *fire_checks(stick, run, run.rafter_line, self.context, free=run.tail),
            *wall_checks(run, stick, self.context),
            *_thrust(run, self.tie),
            *raised_tie_checks(run, self.tie, stick, self.context),
            *upper_end_checks(run, stick, self.context),
            *snow_checks(run, self.context),
            *other_side_checks(run, stick, self.context),
            *roof_doubts(run.rafter, self.context.structure.site),
            *wood_evidence_checks(run.rafter.name, stick.wood.doubts),
            *(named_engineered(run.rafter) if stick.wood.made == "sawn" else ()),
        ]

    def tie_checks(self) -> list[Check]:
        """Every check of the tie; none where there is no tie."""
        run, other, tie = self.run, self.other, self.tie
        if other is None or tie is None:
            return []
        return [
            *stick_checks(other, run, run.tie_line, free=0.0, steep=False),
            *fire_checks(other, run, run.tie_line, self.context, free=0.0),
            *tie_rules(run, tie, other, self.context),
            *tie_doubts(tie, run.rafter.spacing),
            *wood_evidence_checks(tie.name, other.wood.doubts),
            *(named_engineered(tie) if other.wood.made == "sawn" else ()),
        ]


def _thrust(run: RoofRun, tie: Tie | None) -> list[Check]:
    """What keeps the feet from spreading."""
    rafter, what, id = run.rafter, "thrust", "roof.thrust"
    if rafter.ridge == "beam":
        text = "the ridge beam carries the upper end: no thrust from upright loads as long as it holds"
        return [Check.keeps_rule(id, rafter.name, what, "statics", text)]
    outward = np.abs(run.thrust)
    worst = int(np.argmax(outward))
    forces = {"pushes out": float(outward[worst])}
    if tie is not None:
        rise = rafter.run * math.tan(math.radians(rafter.slope))
        spread = float(np.max(run.spreading))
        feet = f"; the feet move {show(spread, 'small length')} apart before creep" if tie.height > 0.0 else ""
        if tie.height > rise * judgment("lower part of a roof").value:
            text = f"tie {tie.name} sits above the lower third: it bends the rafters and is no rafter tie by the code"
            asked = ask("tie_height", rafter.name, tie=tie.name)
            return [Check.refers(id, rafter.name, what, THRUST, text + feet, ask=asked)]
        text = f"taken by tie {tie.name}, which is checked as a piece of its own"
        return [Check.keeps_rule(id, rafter.name, what, THRUST, text + feet)]
    force = show(float(outward[worst]), "force")
    text = f"each pair pushes its walls apart with {force} under {run.combinations[worst].name}"
    if said := rafter.thrust_resisted_by.strip():
        text += f"; said to be resisted by {said!r}, which is not checked here"
        asked = ask("thrust_taken", rafter.name, what=said, force=force, forces=forces)
        return [Check.refers(id, rafter.name, what, THRUST, text, ask=asked)]
    text += ", and neither a tie nor a ridge beam is described"
    asked = ask("thrust", rafter.name, f"rafter.{rafter.name}.tie", force=force, forces=forces)
    return [Check.refers(id, rafter.name, what, THRUST, text, ask=asked)]
