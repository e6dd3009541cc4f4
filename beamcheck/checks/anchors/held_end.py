"""The end of a piece as an anchor group meets it: its wood, its forces, what carries it; of beams, rafters and ties."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from ...analysis.beams.combinations import Loaded
from ...analysis.roofs.roof_frame import RoofRun
from ...calc.pad import SilentPad
from ...model.anchors.anchor import Anchor
from ...model.anchors.manners import MANNERS
from ...model.beams import Beam
from ...model.posts import Post
from ...model.roofs import Rafter, Tie
from ...model.stock import Stock
from ...records import dataclass
from ..beams.beam import BeamRun, section_of
from ..core.context import AnyPiece, Context
from ..core.wood.material import WoodMaterial, is_unknown, named, reference_values, rows_to_screen, wood_of
from ..core.wood.strength import Section
from .group import Forces, Group, Turn, from_the_end, hole_places, holes_at, seat_takes
from .joint import weak_wood

Array = np.ndarray
STEP = 0.01  # of a span: so far from the support the slope of the deflected piece is read


@dataclass(frozen=True, eq=False)
class HeldEnd:
    """One end of a piece, or one of its supports, held by an anchor group.

    `piece`, `end`: name, and 'left' (or lower) or 'right' (or upper) end. `place`: of the support along the piece [in].
    `stock`, `wood`, `section`: of the piece. `into`: piece, existing entry or None: what carries this end. `forces`: of
    the piece on the group, in its own directions; `level_forces` makes them of plumb and level ones. `line`: from that
    end along the grain to the line of the support; None where there is none [in]. `slope`: of the piece from level,
    rising inwards from this end [deg]. `turn`: how the end turns as a hinge. `carries`: pieces that rest on it.
    `lands_at`: along the carrying piece [in]. `rests`: it has a seat beside the group. `support`: path of the support
    in the job file, such as 'beam.B1.supports.2'; '' where there is none.
    """

    piece: str
    end: str
    place: float
    stock: Stock
    wood: WoodMaterial
    section: Section
    into: AnyPiece | None
    forces: Forces
    line: float | None = None
    slope: float = 0.0
    turn: Turn | None = None
    carries: tuple[str, ...] = ()
    lands_at: float | None = None
    rests: bool = False
    support: str = ""


def level_forces(combinations: Sequence[Loaded], down: Array, out: Array, slope: float) -> Forces:
    """Forces on a group in the directions of a piece that rises inwards by `slope` degrees.

    `down`, `out`: (combinations,): what the piece does to the group: down, and level out of the joint (inwards along
    the piece) [lbf].
    """
    s, c = math.sin(math.radians(slope)), math.cos(math.radians(slope))
    return Forces(tuple(combinations), c * down + s * out, c * out - s * down)


def end_of_beam(beam: Beam, run: BeamRun, index: int, context: Context) -> HeldEnd:
    """Support `index` of a beam that has been solved."""
    support, solved = beam.supports[index], run.solved
    combinations, reactions = solved.each_reaction(index)
    end = "left" if support.at <= 0.5 * solved.length else "right"
    turning = None
    if support.holds == "fixed":
        # a beam that is held at its end hogs there: its inner part pushes the group down
        after, before = (solved.combined.line.at("M", support.at, side) for side in ("right", "left"))
        turning = np.asarray(after - before if end == "left" else before - after)
        turning = np.tile(turning, reactions.size // turning.size)  # the same in each way in which it was solved
    return HeldEnd(
        beam.name, end, support.at, context.stock(beam.stock), run.wood, run.section, context.under(support.on),
        Forces(combinations, reactions, np.zeros_like(reactions), turning), line=from_the_end(beam, index),
        turn=None if support.holds == "fixed" else _turn_of_beam(run, index, reactions.size),
        carries=tuple(dict.fromkeys(one.from_piece for one in context.transfers)), lands_at=support.lands_at,
        rests=support.holds == "rests", support=f"beam.{beam.name}.supports.{index + 1}",
    )  # fmt: skip


def _turn_of_beam(run: BeamRun, index: int, size: int) -> Turn | None:
    """Rotation of a beam at a support, and its softness there by the longest span beside it, far end fixed."""
    at = run.beam.supports[index].at
    left = at <= 0.5 * run.solved.length
    beside = [(a, b) for a, b in run.solved.spans if min(abs(a - at), abs(b - at)) < 1e-6 and not _free(run, a, b)]
    if not beside:
        return None
    inner = [span for span in beside if (span[0] >= at - 1e-6) == left] or beside
    a, b = inner[0]
    step = STEP * (b - a) * (1.0 if a >= at - 1e-6 else -1.0)
    v = run.solved.combined.line.at("v", np.array([at, at + step]))
    rotation = -(v[..., 1] - v[..., 0]) / abs(step)  # the inner part going down
    EI = run.E * float(run.section.inertia(SilentPad()))
    return Turn(np.tile(rotation, size // rotation.size), max(q - p for p, q in beside) / (4.0 * EI))


def _free(run: BeamRun, a: float, b: float) -> bool:
    """Whether a stretch is an overhang."""
    places = [support.at for support in run.beam.supports]
    return not all(any(abs(place - x) < 1e-6 for place in places) for x in (a, b))


def ends_of_tie(tie: Tie, rafter: Rafter, run: RoofRun, context: Context) -> tuple[HeldEnd, HeldEnd]:
    """Both ends of a tie, on its rafters."""
    stock, wood, section = _stick(tie, context)
    line = run.tie_line
    length = float(line.length)
    left = Forces(run.combinations, line.at("V", 0.0, "right"), line.at("N", 0.0, "right"))
    right = Forces(run.combinations, -line.at("V", length, "left"), line.at("N", length, "left"))
    if tie.ends_rest_on is not None:  # the plate bears what hangs on it: the group takes the pull alone
        left, right = (Forces(one.combinations, np.zeros_like(one.across), one.along) for one in (left, right))
    ends = (("left", 0.0, left), ("right", length, right))
    along = run.tail + tie.height / math.sin(math.radians(rafter.slope))  # up the rafter
    one, two = (
        HeldEnd(tie.name, end, place, stock, wood, section, rafter, forces, lands_at=along)
        for end, place, forces in ends
    )
    return one, two


def foot_of_rafter(rafter: Rafter, run: RoofRun, context: Context) -> HeldEnd:
    """The lower end of a rafter on its wall: what presses down, and what pushes outwards.

    A strap beside a seat takes what lifts; what presses and what pushes sideways stays with the seat and its nails.
    """
    stock, wood, section = _stick(rafter, context)
    wall, down, out = rafter.wall, run.wall_reactions, -run.thrust
    if wall.holds == "rests" and _published(context.anchor(wall.held_by)):
        down, out = np.minimum(down, 0.0), np.zeros_like(out)
    forces = level_forces(run.combinations, down, out, rafter.slope)
    return HeldEnd(
        rafter.name, "left", run.tail, stock, wood, section, context.under(wall.on), forces, line=run.tail,
        slope=rafter.slope, lands_at=wall.lands_at, rests=wall.holds == "rests", support=f"rafter.{rafter.name}.wall",
    )  # fmt: skip


def head_of_rafter(rafter: Rafter, run: RoofRun, context: Context) -> HeldEnd:
    """The upper end of a rafter on its ridge beam, which takes what comes down and no push."""
    stock, wood, section = _stick(rafter, context)
    up, seated = run.far_reactions, rafter.upper is not None and rafter.upper.bearing is not None
    if seated and _published(context.anchor(rafter.upper_held_by)):
        up = np.minimum(up, 0.0)  # what presses stays with the seat
    forces = level_forces(run.combinations, up, np.zeros_like(up), -rafter.slope)
    into = context.under(rafter.ridge_on) if rafter.ridge_on else None
    length = float(run.rafter_line.length)
    return HeldEnd(
        rafter.name, "right", length, stock, wood, section, into, forces, line=0.0, slope=-rafter.slope, rests=seated,
        support=f"rafter.{rafter.name}",
    )  # fmt: skip


def _published(anchor: Anchor | None) -> bool:
    """Whether somebody else answers for its loads, so that nothing of it is worked out here."""
    return anchor is not None and not (MANNERS[anchor.manner].fastened or MANNERS[anchor.manner].upright)


def ridge_of_pair(rafter: Rafter, run: RoofRun, context: Context) -> HeldEnd:
    """The upper end of a rafter at a ridge board: what pulls it away and what slides; that which presses, the board
    passes on from rafter to rafter."""
    stock, wood, section = _stick(rafter, context)
    pull = np.maximum(run.ridge_pull, 0.0)
    anchor = context.anchor(rafter.ridge_held_by)
    forces = level_forces(run.combinations, run.ridge_down, pull, -rafter.slope)
    into = context.structure.pieces.get(anchor.into) if anchor is not None and anchor.into else None
    length = float(run.rafter_line.length)
    return HeldEnd(
        rafter.name, "right", length, stock, wood, section, into, forces, line=0.0, slope=-rafter.slope,
        support=f"rafter.{rafter.name}",
    )  # fmt: skip


def end_of_post(
    post: Post, anchor: Anchor, wood: WoodMaterial, section: Section, combinations: Sequence[Loaded], lifted: Array,
    context: Context, *, head: bool,
) -> HeldEnd:  # fmt: skip
    """Head or foot of a post, which stands on a seat: what lifts there comes to the group.

    Published loads name that direction 'up', whichever way the piece stands; fasteners in the post take it along its
    grain.

    `lifted`: (combinations,): upward, lbf; pressing is negative.
    """
    up = np.maximum(lifted, 0.0)
    nothing = np.zeros_like(up)
    made = MANNERS[anchor.manner]
    along = made.fastened or made.upright
    forces = Forces(tuple(combinations), nothing if along else -up, up if along else nothing)
    into = (
        context.structure.pieces.get(anchor.into) if head and anchor.into else None if head else context.under(post.on)
    )
    end, place = ("right", post.height) if head else ("left", 0.0)
    return HeldEnd(
        post.name, end, place, context.stock(post.stock), wood, section, into, forces, line=0.0, rests=True,
        support=f"post.{post.name}",
    )  # fmt: skip


def _stick(piece: Rafter | Tie, context: Context) -> tuple[Stock, WoodMaterial, Section]:
    stock = context.stock(piece.stock)
    values = rows_to_screen(stock)[0] if is_unknown(stock) else reference_values(stock)
    section = section_of(context.size(piece.stock), piece.laid, piece.plies)
    return stock, wood_of(stock, values, laid=piece.laid, form="rafter"), section


def group_of(anchor: Anchor, held: HeldEnd, context: Context, beam: tuple[Beam, int] | None = None) -> Group:
    """An anchor group at a held end; `beam` with the number of its support where the layout is repeated along it.

    Raises OutOfRange if the layout does not say where the holes are; UnknownName if the tables do not list the wood.
    """
    x, y = hole_places(anchor.holes) if beam is None else holes_at(anchor, *beam)
    into_stock, into_wood = _other(anchor, held.into, context)
    wood = named(weak_wood(held.stock, held.wood), held.piece)
    group = Group(
        anchor, held.piece, held.end, held.place, held.stock, wood, held.section, held.into,
        into_stock, into_wood, held.forces, x, y, line=held.line, slope=held.slope, turn=held.turn,
        carries=held.carries, lands_at=held.lands_at, rests=held.rests, support=held.support,
        far_depth=_depth(held.into, context), kept_by=_kept_by(anchor, held, context), air=context.structure.air,
        described=tuple(one for one in context.structure.bolt_rows if one.on in (held.piece, anchor.name)),
    )  # fmt: skip
    bare = not (group.made.fastened or group.made.upright)
    return (
        Group(**{**group.__dict__, "forces": seat_takes(held.forces)})
        if held.rests and bare and not held.slope
        else group
    )


def _kept_by(anchor: Anchor, held: HeldEnd, context: Context) -> tuple[str, ...]:
    """The pieces that the words on what keeps it from turning name; not what turns, nor what it is fastened to."""
    words = anchor.twist_held_by
    if not words.strip():
        return ()
    none = (held.piece, held.into.name if held.into is not None else "")
    return tuple(name for name in context.structure.sticks_named(words) if name not in none)


def _depth(into: AnyPiece | None, context: Context) -> float | None:
    if not isinstance(into, Beam):
        return None
    return float(section_of(context.size(into.stock), into.laid, into.plies).d)


def _other(anchor: Anchor, into: AnyPiece | None, context: Context) -> tuple[Stock | None, WoodMaterial | None]:
    """The wood of the member on the other side, when it is wood of the job."""
    if anchor.other is None or anchor.other.stock is None or anchor.other.stock not in context.structure.stocks:
        return None, None
    stock = context.stock(anchor.other.stock)
    wood = None if is_unknown(stock) else wood_of(stock, reference_values(stock))
    return stock, named(wood, into.name) if wood is not None and into is not None else wood
