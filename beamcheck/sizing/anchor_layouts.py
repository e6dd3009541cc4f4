"""Layouts of fasteners that keep the distances for which C_delta is 1, for the wood that is there."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import numpy as np

from ..checks.anchors.fasteners.distances import Need, needs
from ..checks.anchors.fasteners.spread import spread_of
from ..checks.anchors.group import Group
from ..checks.anchors.joint import Joint
from ..checks.anchors.manners.registry import manner_of
from ..model.anchors.anchor import Holes
from ..records import dataclass
from ..units import show
from ..values.hardware.connections import distance
from ..values.sizes import read_size

STEP = 0.25  # in: distances of a proposal are whole quarters of an inch, rounded up
ROUNDS = 6  # of fitting a layout to its own demands
SAME_LINE = 1.0  # in: so far, as in checks.anchor_piece, the line of the support and that of the group may lie apart
BORED_AHEAD = ("not prebored", "prebored")


@dataclass(frozen=True)
class Layout:
    """Rows along the grain and fasteners in each; distances in inches. `top` is what is asked above the highest row."""

    rows: int
    columns: int
    spacing: float
    row_spacing: float
    end: float
    edge: float
    top: float

    @property
    def length(self) -> float:
        return (self.columns - 1) * self.spacing

    @property
    def height(self) -> float:
        return (self.rows - 1) * self.row_spacing

    def words(self) -> str:
        """'2 rows of 3, 4 in apart in the row, rows 3 in apart, 5 in from the end, 2 in from the bottom edge'."""
        row = f"{self.rows} row{'s' if self.rows > 1 else ''} of {self.columns}"
        apart = f", {show(self.spacing, 'length')} apart in the row" if self.columns > 1 else ""
        between = f", rows {show(self.row_spacing, 'length')} apart" if self.rows > 1 else ""
        place = f"{show(self.end, 'length')} from the end, {show(self.edge, 'length')} from the bottom edge"
        return f"{row}{apart}{between}, {place}"


class TooLittleWood(Exception):
    """A layout that the wood has no room for; the text says what is asked and what is there."""


def placed(group: Group, layout: Layout) -> Group:
    """The group with its holes laid out so; the line on which the other side takes the load stays where it was."""
    x = layout.end + np.arange(layout.columns) * layout.spacing
    y = layout.edge + np.arange(layout.rows) * layout.row_spacing
    x, y = np.tile(x, layout.rows), np.repeat(y, layout.columns)
    anchor = group.anchor
    if anchor.arm is not None and not group.made.in_line:
        anchor = anchor.model_copy(update={"arm": max(float(np.mean(x)) - line_of(group), 0.0)})
    many: dict[str, Any] = {"spacing": layout.spacing} if layout.columns > 1 else {}
    many |= {"row_spacing": layout.row_spacing} if layout.rows > 1 else {}
    holes = Holes.model_construct(rows=layout.rows, columns=layout.columns, end=layout.end, edge=layout.edge, **many)
    return replace(group, anchor=anchor.model_copy(update={"holes": holes}), x=x, y=y)


def line_of(group: Group) -> float:
    """From the end of the held piece to the line on which the other side takes the load, inches."""
    return group.line if group.line is not None else float(np.mean(group.x)) - (group.arm or 0.0)


def layouts(asked: Group, trial: Group, rows: int, columns: int) -> Iterator[Layout]:
    """Layouts of so many fasteners that fit the wood, the rows as near to the unloaded edge as may be first.

    `asked`: as the job has it; its line of support counts. `trial`: the same with the fastener that is tried. Raises
    TooLittleWood if there is none; NotSaid, UnknownName, OutOfRange if the fastener has no value at all in this joint.
    """
    joint = manner_of(trial.anchor).joint_of(trial)
    if joint.dowel.large and not trial.made.aslant:
        fitted = [_fitted(asked, trial, joint, rows, columns)]
    else:
        fitted = [_thin(asked, trial, joint, rows, columns, bored) for bored in BORED_AHEAD]
    short: list[str] = []
    for layout in fitted:
        short = _no_room(asked, trial, joint, layout)
        if not short:
            yield from _heights(trial, layout)
            return
    raise TooLittleWood("; ".join(short))


def _heights(trial: Group, layout: Layout) -> Iterator[Layout]:
    """The layout at the lowest, middle and highest place that the wood and the plate leave it."""
    low, high = _between(trial, layout)
    low = math.ceil(low / STEP - 1e-9) * STEP
    lifted = float(np.sum(trial.forces.across < 0.0)) > 0.5 * trial.forces.across.size
    steps = (0.0, 0.5, 1.0) if not lifted else (1.0, 0.5, 0.0)
    rise = [math.floor((high - low) * step / STEP + 1e-9) * STEP for step in steps]
    yield from (replace(layout, edge=low + up) for up in dict.fromkeys(rise))


def _between(trial: Group, layout: Layout) -> tuple[float, float]:
    """Lowest and highest place of the lowest row; a plate, which lies about the holes, stays on the piece."""
    d, plate = float(trial.section.d), trial.anchor.plate
    low, high = layout.edge, d - layout.top - layout.height
    if plate is not None:
        half = 0.5 * (plate.width - layout.height)
        low, high = max(low, half), min(high, d - half - layout.height)
    return low, high


def _no_room(asked: Group, trial: Group, joint: Joint, layout: Layout) -> list[str]:
    """What the wood, the plate or the member on the other side has no room for."""
    anchor, d, D = trial.anchor, float(trial.section.d), joint.dowel.D
    name, found = f"{layout.rows} x {layout.columns}", []
    low, high = _between(trial, layout)
    if high - math.ceil(low / STEP - 1e-9) * STEP < -1e-9:
        asks = d + low - high
        found.append(
            f"{name} asks for {show(asks, 'length')} of depth with edges and plate; there are {show(d, 'length')}"
        )
    last = layout.end + layout.length
    if trial.made.in_a_slot and anchor.plate is not None:
        reach = min(anchor.plate.length, anchor.plate.slot_length or anchor.plate.length)
        if last + 1.5 * D > reach + 1e-9:
            found.append(f"{name} reaches {show(last, 'length')} from the end; plate and slot {show(reach, 'length')}")
    width, other = other_width(trial), anchor.other
    if width is not None and other is not None and other.grain != "along":
        asks = layout.length + 3.0 * D
        if asks > width + 1e-9:
            found.append(
                f"{name} asks for {show(asks, 'length')} of the other member; it is {show(width, 'length')} wide"
            )
    off = abs(layout.end + 0.5 * layout.length - line_of(asked))
    if trial.made.in_line and off > SAME_LINE:
        found.append(f"the middle of {name} would lie {show(off, 'length')} off the line of the support")
    return found


def other_width(group: Group) -> float | None:
    """Width of the wood on the other side, across its grain, inches; None where it is not known."""
    other, stock = group.anchor.other, group.into_stock
    if other is None or stock is None or other.material != "wood":
        return None
    size = read_size(stock.size)
    return size.d if abs(other.thickness - size.b) <= abs(other.thickness - size.d) else size.b


def _fitted(asked: Group, trial: Group, joint: Joint, rows: int, columns: int) -> Layout:
    """Distances that meet what 12.5.1 asks of this very layout, in every member."""
    D = joint.dowel.D
    layout = Layout(rows, columns, _up(3.0 * D), _up(1.5 * D), _up(2.0 * D), _up(1.5 * D), _up(1.5 * D))
    turned = {part.name for part in joint.woods if part.grain == "across"}
    held = next((part.name for part in joint.woods if part.grain == "held"), "")
    for _ in range(ROUNDS):
        there = placed(trial_line(asked, trial), at_line(asked, layout))
        wanted = layout
        for need in needs(there, joint, spread_of(there)):
            wanted = _raised(wanted, need, need.member in turned, need.member == held)
        if wanted == layout:
            break
        layout = wanted
    return at_line(asked, layout)


def trial_line(asked: Group, trial: Group) -> Group:
    """The trial group with the holes of the asked one, from which the line of support is measured."""
    return replace(trial, x=asked.x, y=asked.y)


def at_line(asked: Group, layout: Layout) -> Layout:
    """Moved in from the end, where that is needed to keep the line of support within the group."""
    return replace(layout, end=max(layout.end, math.ceil((line_of(asked) - 0.5 * layout.length) / STEP - 1e-9) * STEP))


def _raised(layout: Layout, need: Need, turned: bool, held: bool) -> Layout:
    """The layout with one distance raised to what is asked: in full where there is a reduced value."""
    asked = float(np.max(need.least if need.full is None else np.maximum(need.least, need.full)))
    if need.rule == "edge":
        if not held:
            return layout  # the other member's edge is where the job says it is
        field = "top" if need.what.endswith("top edge") else "edge"
    elif need.rule == "end":
        if not held:
            return layout
        field = "end"
    else:
        own_grain = need.what in ("spacing along the grain", "distance between rows across the grain")
        field = "spacing" if own_grain != turned else "row_spacing"
    return replace(layout, **{field: max(getattr(layout, field), _up(asked))})


def _thin(asked: Group, trial: Group, joint: Joint, rows: int, columns: int, bored: str) -> Layout:
    """Below 1/4 in: what the commentary advises, with lead holes or without."""
    D = joint.dowel.D

    def advised(rule: str) -> float:
        return _up(distance("thin", bored, rule).value.least * D)

    pulled = bool((trial.forces.along > 0.0).any()) or columns * rows > 1  # a moment pulls some towards the end
    end = advised("end tension" if pulled else "end compression")
    between = max(advised("spacing across"), advised("rows in line"))
    layout = Layout(rows, columns, advised("spacing along"), between, end, advised("edge"), advised("edge"))
    return at_line(asked, layout)


def _up(length: float) -> float:
    return math.ceil(length / STEP - 1e-9) * STEP
