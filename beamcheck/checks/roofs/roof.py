"""A rafter or a pair of rafters, and the tie that closes the pair: one frame, checked stick by stick."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ...analysis.frames.roof_frame import RoofRun, solve_roof
from ...model.pieces import Existing, Rafter, Tie
from ...units import show
from ..beams.beam import doubts
from ..beams.bracing import needs_end_restraint
from ..core.context import Context
from ..core.govern import stated
from ..core.material import WoodMaterial
from ..core.plausible import rafter_doubts
from ..core.result import Check
from ..core.seat import answered
from .member import LITTLE, FramedStick, framed, stick_checks
from .seat import wall_checks

STEEP = math.degrees(math.atan(3 / 12))  # IRC R301.7
TIE_ZONE = 1.0 / 3.0  # a tie above the lower third is no rafter tie (IRC R802.5.2, read)
THRUST = "IRC R802.5.2"


class Roof:
    """A rafter, its tie if there is one, and their frame, solved.

    Parameters
    ----------
    tie, tie_wood : Tie, Wood or None
        The tie that closes the pair, if there is one.

    Raises
    ------
    Unstable, OutOfRange
        If the frame can move, or a value lies outside the rules.
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
            *wall_checks(run, stick, self.context),
            *_thrust(run, self.tie),
            *_upper_end(run, self.context),
            *_roof_rules(run),
            *rafter_doubts(run.rafter),
            *doubts(run.rafter.name, stick.wood),
        ]

    def tie_checks(self) -> list[Check]:
        """Every check of the tie; none where there is no tie."""
        run, other, tie = self.run, self.other, self.tie
        if other is None or tie is None:
            return []
        return [
            *stick_checks(other, run, run.tie_line, free=0.0, steep=False),
            *_tie_rules(run, tie, other, self.context),
            *doubts(tie.name, other.wood),
        ]


def _thrust(run: RoofRun, tie: Tie | None) -> list[Check]:
    """What keeps the feet from spreading."""
    rafter, what = run.rafter, "thrust"
    if rafter.ridge == "beam":
        text = "the ridge beam carries the upper end: no thrust from upright loads as long as it holds"
        return [stated(rafter.name, what, "statics", "passes", text)]
    if tie is not None:
        rise = rafter.run * math.tan(math.radians(rafter.slope))
        spread = float(np.max(run.spreading))
        feet = f"; the feet move {show(spread, 'small length')} apart before creep" if tie.height > 0.0 else ""
        if tie.height > rise * TIE_ZONE:
            text = f"tie {tie.name} sits above the lower third: it bends the rafters and is no rafter tie by the code"
            return [stated(rafter.name, what, THRUST, "refer", text + feet)]
        text = f"taken by tie {tie.name}, which is checked as a piece of its own"
        return [stated(rafter.name, what, THRUST, "passes", text + feet)]
    outward = np.abs(run.thrust)
    worst = int(np.argmax(outward))
    text = (
        f"each pair pushes its walls apart with {show(float(outward[worst]), 'force')} under "
        f"{run.combinations[worst].name}"
    )
    if said := rafter.thrust_resisted_by.strip():
        text += f"; said to be resisted by {said!r}, which is not checked here"
        return [stated(rafter.name, what, THRUST, "refer", text)]
    return [stated(rafter.name, what, THRUST, "fails", f"{text}, and there is neither a tie nor a ridge beam")]


def _upper_end(run: RoofRun, context: Context) -> Iterator[Check]:
    """The joint or seat at the ridge, with the forces it has to pass."""
    rafter = run.rafter
    if rafter.ridge == "board" or rafter.ridge_on is None:
        axial = -run.rafter_line.at("N", float(run.rafter_line.length), "left")
        text = "the fastening at the ridge is not checked: " + _range_words(axial, "press on each other", "pull apart")
        yield stated(rafter.name, "joint at the ridge", "load path", "refer", text)
        return
    text = "the fastening or seat at the ridge beam is not checked: "
    text += _range_words(run.far_reactions, "each presses down", "each lifts")
    yield stated(rafter.name, f"upper end on {rafter.ridge_on}", "load path", "refer", text)
    under = context.under(rafter.ridge_on)
    if isinstance(under, Existing):
        yield answered(rafter.name, f"what carries the upper end on {under.name}", under)


def _range_words(values: np.ndarray, down: str, up: str) -> str:
    high, low = float(np.max(values)), float(np.min(values))
    text = f"the rafters {down} with up to {show(max(high, 0.0), 'force')}"
    return f"{text} and {up} with up to {show(-low, 'force')}" if low < -LITTLE else text


def _roof_rules(run: RoofRun) -> Iterator[Check]:
    """What is not worked out: the rest of the snow, and where the opposite rafter stands."""
    rafter = run.rafter
    if any(load.snow is not None for load in rafter.carries):
        text = (
            "the snow given is tried everywhere and on parts of the roof; the standard may ask for more on the lee "
            "side, for drifts and for sliding snow, which are not added here"
        )
        yield stated(rafter.name, "unbalanced and drifted snow", "ASCE 7-16 7.6, 7.7", "refer", text)
    if rafter.ridge == "board":
        text = (
            "taken as the mirror image of this one. What its foot rests on is not named: the same forces come down "
            "there, and no piece of this job is checked for them"
        )
        yield stated(rafter.name, "the opposite rafter", "load path", "refer", text)


def _tie_rules(run: RoofRun, tie: Tie, stick: FramedStick, context: Context) -> Iterator[Check]:
    """Its joints, and whether there is one at each pair."""
    N_low, _, N_high, _ = run.tie_line.extremes("N")
    pulls = int(np.argmax(N_high))
    force = f"{show(max(float(N_high[pulls]), 0.0), 'force')} under {run.combinations[pulls].name}"
    upright = ". It must also hold the ends upright: d/b is over 2"
    if (anchor := context.anchor(tie.ends_held_by)) is not None:
        text = f"{force} must pass through each end: by anchor {anchor.name}, a piece of its own here"
        if needs_end_restraint(stick.size, stick.section):
            yield stated(tie.name, "ends held upright", "NDS 2018 4.4.1.2", "refer", f"not shown{upright}")
        yield stated(tie.name, "joints at its ends", "NDS 2018 chapter 12", "passes", text)
        yield from _tie_at_each_pair(run, tie)
        return
    text = f"{force} must pass through each end ({tie.end_connection}); the joint is not checked"
    if float(np.min(N_low)) < -LITTLE:
        text += f", nor for the {show(-float(np.min(N_low)), 'force')} that press it"
    if needs_end_restraint(stick.size, stick.section):
        text += upright
    yield stated(tie.name, "joints at its ends", "NDS 2018 chapter 12", "refer", text)
    yield from _tie_at_each_pair(run, tie)


def _tie_at_each_pair(run: RoofRun, tie: Tie) -> Iterator[Check]:
    if tie.spacing is not None and tie.spacing > run.rafter.spacing * (1.0 + 1e-6):
        text = (
            f"ties are {show(tie.spacing, 'length')} apart and the pairs {show(run.rafter.spacing, 'length')}: the "
            "frame has a tie at each pair. A pair without one is not held, and a tie that serves several pulls harder"
        )
        yield stated(tie.name, "a tie at each pair", THRUST, "refer", text)
