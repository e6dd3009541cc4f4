"""Brackets on the faces of a post: their loads stand off its axis and bend it between its ends.

Statics of a post hinged at both ends, as behind the side load of NDS 2018 15.4.2. That rule counts three quarters of
the moment at a bracket in the upper quarter, at mid-height; here all of it is taken at mid-height, for a bracket at any
height, which is no less than the exact beam-column.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ...analysis.beams.member_loads import TransferredLoad
from ...calc.core import Number
from ...calc.pad import Pad
from ...formulas.brackets.post_with_bracket import side_bracket_moment, side_bracket_push
from ...model.brackets import Bracket
from ...units import show
from ..core.govern import Criterion, at, duration, govern, stated
from ..core.result import Check
from ..core.strength import Outcome, shear
from .post_run import PostRun

SIDE_BRACKETS = "NDS 2018 15.4.2"
# of the post's load: what ends that hold a column must take sideways in any case; common practice, no source
BRACING_PART = 0.02
NEGLIGIBLE = 0.5  # lbf, as everywhere in the checks
FACE = (
    "on which face a bracket stands is not given: both ways are checked, all brackets pushing the same way, their "
    "whole moment at mid-height (NDS 2018 15.4.2 counts three quarters of it there)"
)


@dataclass(frozen=True, eq=False)
class OnFace:
    """One bracket: `forces` (combinations,) lbf, up or down; `off` from the face, in; `l_p` to the farther end, in."""

    name: str
    forces: np.ndarray
    off: float
    l_p: float
    pull: np.ndarray | None  # (combinations,) on its top row, lbf; None where it is not known


def is_bracket(transfer: TransferredLoad) -> bool:
    """Whether it comes off a face of the post, at a known distance."""
    return transfer.off is not None


def brackets_on(run: PostRun) -> list[OnFace]:
    """The brackets on the faces of a post."""
    braced = run.post.braced_strong is not None or run.post.braced_weak is not None
    found = []
    for transfer in filter(is_bracket, run.context.transfers):
        assert transfer.off is not None
        forces = np.abs(run.comes_from(transfer.from_piece))
        l = run.post.height  # noqa: E741
        # between braces the moment spreads in another way than between the ends: then all of it counts on one side
        l_p = l if transfer.at is None or braced else max(transfer.at, l - transfer.at)
        most = float(np.max(forces, initial=0.0))
        pull = (
            None if transfer.pull is None else transfer.pull * (forces / most if most > 0.0 else np.ones_like(forces))
        )
        found.append(OnFace(transfer.from_piece, forces, max(transfer.off, 0.0), min(l_p, l), pull))
    return found


def side_moment(run: PostRun, pad: Pad, which: int | slice, side: float) -> Number:
    """Moment in the post from its brackets, lbf in, when they push along one side of it."""
    total: Number = 0.0
    for one in brackets_on(run):
        P = pad.take("P", at(one.forces, which), "lbf", note=f"from {one.name}, on a face of the post")
        a = pad.take("a", one.off + 0.5 * side, "in", note="from the load to the face, and half the side")
        total = total + pad(
            side_bracket_moment, note=f"of {one.name}", P=P, a=a, l_p=one.l_p, l=run.post.height
        )  # fmt: skip
    return pad.take("M", total, "lbf*in", note="of all brackets together, the same way")


def bracket_checks(run: PostRun) -> list[Check]:
    """What brackets do to a post beside bending: shear between their rows, and the push at its ends."""
    brackets = brackets_on(run)
    if not brackets:
        return []
    return [*_shear(run, brackets), *_push(run, brackets)]


def _shear(run: PostRun, brackets: list[OnFace]) -> Iterator[Check]:
    """The pull of a top row and the heel below it shear the post between them."""
    name, what = run.post.name, "shear between the rows of a bracket"
    unknown = [one.name for one in brackets if one.pull is None]
    if unknown:
        text = f"what the top row of {', '.join(unknown)} pulls with is not known: its fixings are not described"
        yield stated(name, what, "NDS 2018 3.4", "refer", text)
    pulls = [one.pull for one in brackets if one.pull is not None]
    if not pulls:
        return
    V = np.sum(pulls, axis=0)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        force = pad.take("V", at(V, which), "lbf", note="pull of the top rows, as if all brackets stood at one height")
        return shear(pad, run.wood, run.column, V=force, C_D=duration(pad, run.combinations, which))

    yield govern(Criterion(name, what, "NDS 2018 3.4", "stress"), run.combinations, calculate)


def _push(run: PostRun, brackets: list[OnFace]) -> Iterator[Check]:
    """Each end pushes sideways; small against what holds a column in any case, or for an engineer."""
    name, what, side = run.post.name, "push of its brackets at top and foot", max(run.sides)
    H = sum(np.asarray(side_bracket_push(one.forces, one.off + 0.5 * side, run.post.height)) for one in brackets)
    most, worst = float(np.max(H)), int(np.argmax(H))
    small = most <= max(BRACING_PART * float(run.pressed[worst]), NEGLIGIBLE)
    text = f"top and foot must take {show(most, 'force')} sideways from {', '.join(one.name for one in brackets)}"
    if small:
        text += ", no more than what holds a column has to take in any case (2 % of its load, common practice)"
    else:
        text += ": what holds them there is not checked"
    yield stated(name, what, "statics", "passes" if small else "refer", text)


def only_decoration(run: PostRun, name: str) -> bool:
    """Whether a piece is a bracket that is not meant to carry: its own weight is no load stated for the post."""
    piece = run.context.structure.pieces.get(name)
    return isinstance(piece, Bracket) and piece.role != "carries"
