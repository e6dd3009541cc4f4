"""What hangs on the faces of a post, brackets and ends of beams: it stands off the axis and bends the post.

Statics of a post hinged at both ends, as behind the side load of NDS 2018 15.4.2. That rule counts three quarters of
the moment at a bracket in the upper quarter, at mid-height; here all of it is taken at mid-height, for a bracket at any
height, which is no less than the exact beam-column.
"""

from __future__ import annotations

import numpy as np

from ...analysis.beams.member_loads import TransferredLoad
from ...calc.core import Number
from ...calc.pad import Pad
from ...formulas.brackets.post_with_bracket import side_bracket_moment, side_bracket_push
from ...model.anchors.manners import MANNERS
from ...model.beams import Beam
from ...model.brackets.bracket import Bracket
from ...model.sticks import Support
from ...records import dataclass
from ...values.judgment import judgment
from ..core.asking.question import ask
from ..core.result import Check
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.strength import Outcome, shear
from .post_run import PostRun

SIDE_BRACKETS = "NDS 2018 15.4.2"
FACE = (
    "on which face it hangs is not given: both ways are checked, all of them pushing the same way, their whole moment "
    "at mid-height (NDS 2018 15.4.2 counts three quarters of it there)"
)


@dataclass(frozen=True, eq=False)
class OnFace:
    """One bracket or end of a beam: `forces` (combinations,) lbf, up or down; `off` from the face, in; `l_p` to the
    farther end, in."""

    name: str
    forces: np.ndarray
    off: float
    l_p: float
    pull: np.ndarray | None  # (combinations,) on its top row, lbf; None where it is not known


def is_bracket(transfer: TransferredLoad) -> bool:
    """Whether it comes off a face of the post by a bracket, at a known distance."""
    return transfer.off is not None


def on_a_face(run: PostRun, transfer: TransferredLoad) -> bool:
    """Whether it comes off a face of the post, at a distance that is known or can be told."""
    return distance_off(run, transfer) is not None


def distance_off(run: PostRun, transfer: TransferredLoad) -> float | None:
    """How far its load stands off the face of the post, inches; None for what sits on the top, and where nothing
    tells."""
    if transfer.off is not None:
        return max(transfer.off, 0.0)
    beam = run.context.structure.pieces.get(transfer.from_piece)
    if transfer.applied != "side" or not isinstance(beam, Beam):
        return None
    size = run.context.size(beam.stock)
    broad = size.d if beam.laid == "flat" else size.b * beam.plies
    return max((_off_of_end(run, support, broad) for support in beam.supports if support.on == run.post.name),
               default=None)  # fmt: skip


def _off_of_end(run: PostRun, support: Support, broad: float) -> float:
    """Of a lap the middle of the beam; of an end that butts against the face the middle of what holds it."""
    anchor = run.context.anchor(support.held_by)
    if anchor is not None and MANNERS[anchor.manner].beside:
        return 0.5 * broad + anchor.gap
    far = max((x for _, x in anchor.holes.distances()), default=0.0) if anchor is not None and anchor.holes else 0.0
    seat = 0.5 * support.bearing if support.bearing else judgment("hung end off the face of a post").value
    return max(far, seat) + (anchor.gap if anchor is not None else 0.0)


def brackets_on(run: PostRun) -> list[OnFace]:
    """What hangs on the faces of a post."""
    braced = run.post.braced_strong is not None or run.post.braced_weak is not None
    found = []
    for transfer in run.context.transfers:
        off = distance_off(run, transfer)
        if off is None:
            continue
        forces = np.abs(run.comes_from(transfer.from_piece))
        l = run.post.height  # noqa: E741
        # between braces the moment spreads in another way than between the ends: then all of it counts on one side
        l_p = l if transfer.at is None or braced else max(transfer.at, l - transfer.at)
        most = float(np.max(forces, initial=0.0))
        pull = (
            None if transfer.pull is None else transfer.pull * (forces / most if most > 0.0 else np.ones_like(forces))
        )
        if not is_bracket(transfer):
            pull = np.zeros_like(forces)  # the end of a beam has no row that pulls
        found.append(OnFace(transfer.from_piece, forces, off, min(l_p, l), pull))
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
    """What brackets do to a post beside bending: shear between their rows."""
    brackets = brackets_on(run)
    name, what, id = run.post.name, "shear between the rows of a bracket", "post.bracket_shear"
    found = [
        Check.refers(id, name, what, "NDS 2018 3.4",
                     f"what the top row of {one.name} pulls with is not known: its fixings are not described",
                     ask=ask("bracket_fixings", one.name, f"bracket.{one.name}.fixings", post=name))
        for one in brackets if one.pull is None
    ]  # fmt: skip
    pulls = [one.pull for one in brackets if one.pull is not None]
    if not pulls or not np.any(pulls):
        return found
    V = np.sum(pulls, axis=0)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        force = pad.take("V", at(V, which), "lbf", note="pull of the top rows, as if all brackets stood at one height")
        return shear(pad, run.wood, run.column, V=force, C_D=duration(pad, run.combinations, which))

    return [*found, govern(Criterion(name, what, "NDS 2018 3.4", "stress", id=id), run.combinations, calculate)]


def sideways_push(run: PostRun) -> np.ndarray:
    """(combinations,) what top and foot of the post have to take sideways, lbf."""
    found = np.zeros(len(run.combinations))
    for one in brackets_on(run):
        found = found + np.asarray(side_bracket_push(one.forces, one.off + 0.5 * max(run.sides), run.post.height))
    return found


def only_decoration(run: PostRun, name: str) -> bool:
    """Whether a piece is a bracket that is not meant to carry: its own weight is no load stated for the post."""
    piece = run.context.structure.pieces.get(name)
    return isinstance(piece, Bracket) and piece.role != "carries"
