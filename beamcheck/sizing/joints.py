"""The fewest or smallest bolts or lag screws that hold a joint of members, each tried with the whole job."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import product
from typing import Literal

import numpy as np

from ..checks.core.result import CAUTION, SIGN_OFF, PieceResult
from ..checks.job import check_job
from ..errors import OutOfRange, UnknownName
from ..model.anchors.anchor import Fastener, Holes
from ..model.job import Job
from ..model.joints.joint import Joint
from ..model.joints.kinds import MADE
from ..model.joints.parts import Member
from ..model.links.hardware import diameter
from ..records import dataclass
from ..units import show
from ..values.hardware.fasteners import bolt_sizes, lag_screw_sizes
from ..values.judgment import judgment
from ..values.loader import rows as table_rows
from ..values.lumber import Size, read_size
from .anchor_layouts import STEP

MOST = 8  # bolts in one member: larger groups are an engineer's
Family = Literal["bolt", "lag screw"]
KINDS = ("bolted lap", "bolted between", "plates both sides", "knife plate")


@dataclass(frozen=True)
class JointProposal:
    """The fasteners of a joint as proposed; `joint` is None where none works. It is arithmetic and no verdict."""

    goal: str
    joint: Joint | None
    ratio: float
    governs: str
    refer: tuple[str, ...]
    tried: int
    family: Family = "bolt"
    caution: str = CAUTION
    sign_off: str = SIGN_OFF

    @property
    def words(self) -> str:
        """The answer in a sentence or two."""
        if self.joint is None or self.joint.fastener is None:
            return f"No {self.family}s of the trade fit: {self.tried} layouts were checked."
        said = "; ".join(f"in {one.name} {_layout(one.holes)}" for one in self.joint.members if one.holes is not None)
        size = self.joint.fastener.size
        if self.family == "lag screw" and self.joint.fastener.length is not None:
            size += f" x {show(self.joint.fastener.length, 'length')}"
        return f"{self.family}s {size}: {said}. Largest ratio {show(self.ratio, 'ratio')}, {self.governs}."


WORKED_OUT = "anchor.lateral"  # what fasteners bear sideways: without it nothing is known of them


def bolts_for(
    job: Job, name: str, family: Family = "bolt", *, goal: Literal["fewest", "smallest"] = "fewest"
) -> JointProposal:
    """Bolts, or lag screws where the kind of joint takes them, and their places for the [[joint]] of that name.

    Raises UnknownName if the job has no such joint; OutOfRange if the joint is of a kind that has none to lay out.
    """
    joint = next((one for one in job.joint if one.name == name), None)
    if joint is None:
        raise UnknownName("joint", name, [one.name for one in job.joint])
    if joint.kind not in KINDS or joint.fastener is None:
        raise OutOfRange(f"{joint.kind!r} has no bolts to lay out; {' or '.join(map(repr, KINDS))} have", "kind")
    if family not in MADE[joint.kind].fasteners:
        takes = " or ".join(MADE[joint.kind].fasteners)
        raise OutOfRange(f"{joint.kind!r} takes no {family}: it takes {takes}", "kind")
    tried = 0
    for as_given, (bare, rows, columns) in product((False, True), tuple(_orders(family, goal))):
        size = f"{bare} in"
        made = _with(job, joint, family, size, rows, columns, as_given=as_given)
        if made is None:
            continue
        tried += 1
        others = tuple(made if one is joint else one for one in job.joint)
        result = next(piece for piece in check_job(job.model_copy(update={"joint": others})).pieces
                      if piece.name == name)  # fmt: skip
        if _holds(result):
            worst = max((check for check in result.checks if check.ratio is not None), key=lambda one: one.ratio or 0.0)
            refer = tuple(check.notes[0] if check.notes else check.what for check in result.checks
                          if check.verdict == "refer")  # fmt: skip
            return JointProposal(goal, made, float(worst.ratio or 0.0), worst.what, refer, tried, family)
    return JointProposal(goal, None, math.nan, "", (), tried, family)


def _holds(result: PieceResult) -> bool:
    """It could be worked out, nothing fails, no figure is over, and no row pushes both ways across the grain."""
    over = any(check.verdict == "fails" or (check.ratio or 0.0) > 1.0 for check in result.checks)
    laid = any(check.id == "anchor.both_ways" for check in result.checks)
    return not over and not laid and any(check.id == WORKED_OUT and check.ratio is not None for check in result.checks)


def _orders(family: Family, goal: str) -> Iterator[tuple[str, int, int]]:
    shapes = sorted(((rows, columns) for rows in (1, 2) for columns in range(1, MOST + 1) if rows * columns <= MOST),
                    key=lambda shape: (shape[0] * shape[1], shape[0]))  # fmt: skip
    sizes = bolt_sizes() if family == "bolt" else lag_screw_sizes()
    if goal == "fewest":
        return ((size, *shape) for shape in shapes for size in sizes)
    return ((size, *shape) for size in sizes for shape in shapes)


def _with(
    job: Job, joint: Joint, family: Family, size: str, rows: int, columns: int, *, as_given: bool = False
) -> Joint | None:
    """The joint with these in the middle of each member, or as far from its edge as the job has them.

    None where a member is not deep enough for the rows.
    """
    D = diameter(family, size)
    k_end, k_row = (
        judgment("diameters from a bolt to the end, proposed").value,
        judgment("diameters between bolts").value,
    )
    apart = _up(k_row * D)
    first, members = joint.members[0], []
    shared = not MADE[joint.kind].plated
    for number, one in enumerate(joint.members):
        d = _depth(job, joint, one)
        x, y = np.meshgrid(np.arange(columns) * apart, np.arange(rows) * apart)
        along, across = x.ravel(), y.ravel()
        if shared and number and columns * rows > 1:
            turn = math.radians(_direction(job, joint, one) - _direction(job, joint, first))
            along, across = (math.cos(turn) * along + math.sin(turn) * across,
                             -math.sin(turn) * along + math.cos(turn) * across)  # fmt: skip
        edge = round(8.0 * (d - float(np.ptp(across)))) / 16.0  # as a tape reads
        if as_given and one.holes is not None and one.holes.edge is not None:
            edge = one.holes.edge
        if edge < 1.5 * D or (as_given and d - edge - float(np.ptp(across)) < 1.5 * D):
            return None
        was = one.holes.end if one.holes is not None and one.holes.end is not None else 0.0
        end = max(_up(k_end * D), was if one.passes or was > 2.0 * k_end * D else 0.0)
        lone = shared and number > 0
        holes = Holes.model_construct(
            rows=None if lone else rows, columns=None if lone else columns,
            spacing=apart if columns > 1 and not lone else None,
            row_spacing=apart if rows > 1 and not lone else None, end=end, edge=edge,
        )  # fmt: skip
        update: dict[str, object] = {"holes": holes}
        if one.plate is not None:
            long, wide = end + (columns - 1) * apart + _up(2.0 * D), (rows - 1) * apart + _up(4.0 * D)
            update["plate"] = one.plate.model_copy(update={
                "length": long, "width": max(wide, 0.0), "slot_length": long if one.plate.slot_length else None,
            })  # fmt: skip
        members.append(one.model_copy(update=update))
    assert joint.fastener is not None
    if family == "bolt":
        made = joint.fastener.model_copy(update={"kind": "bolt", "size": size, "length": _length(joint, D)})
    else:
        made = Fastener.model_construct(kind="lag screw", size=size, length=_lag_length(job, joint), threads=None,
                                        coating=joint.fastener.coating)  # fmt: skip
    return joint.model_copy(update={"members": tuple(members), "fastener": made})


def _lag_length(job: Job, joint: Joint) -> float:
    """The longest of the table that does not come out of the other member."""
    room = sum(_size(job, joint, one).b for one in joint.members)
    lengths = [float(row["L"]) for row in table_rows("nds_2018_l2_lag_threads")]
    return max((length for length in lengths if length < room), default=min(lengths))


def _length(joint: Joint, D: float) -> float | None:
    """As long as before, and two diameters more or less for a nut and washer of the other size."""
    assert joint.fastener is not None
    if joint.fastener.length is None:
        return None
    return _up(joint.fastener.length + 2.0 * (D - diameter(joint.fastener.kind, joint.fastener.size)))


def _depth(job: Job, joint: Joint, member: Member) -> float:
    return float(_size(job, joint, member).d)


def _size(job: Job, joint: Joint, member: Member) -> Size:
    return read_size(next(one for one in job.stock if one.name == _stock(job, joint, member)).size)


def _stock(job: Job, joint: Joint, member: Member) -> str:
    if member.stock is not None:
        return member.stock
    frame = next(one for one in job.frame if one.name == joint.in_frame)
    wanted = joint.spliced or f"{frame.name}: {member.name.removeprefix(f'{frame.name}: ')}"
    return next(stick.stock for stick in frame.sticks if stick.name == wanted)


def _direction(job: Job, joint: Joint, member: Member) -> float:
    """Which way a member goes from the joint, deg."""
    if member.direction is not None:
        return member.direction
    frame = next(one for one in job.frame if one.name == joint.in_frame)
    shape, at = frame.shape, str(joint.at)
    points = shape.stick(member.name.removeprefix(f"{frame.name}: ")).points
    place = points.index(at)
    (x_0, y_0), (x, y) = shape.points[at], shape.points[points[place + 1 if place + 1 < len(points) else place - 1]]
    return math.degrees(math.atan2(y - y_0, x - x_0))


def _up(length: float) -> float:
    return math.ceil(length / STEP - 1e-9) * STEP


def _layout(holes: Holes) -> str:
    many = f"{holes.rows} row{'s' if (holes.rows or 1) > 1 else ''} of {holes.columns}, " if holes.columns else ""
    between = holes.spacing or holes.row_spacing
    apart = f"{show(between, 'length')} apart, " if between else ""
    end, edge = show(holes.end or 0.0, "length"), show(holes.edge or 0.0, "length")
    return f"{many}{apart}{end} from its end, {edge} from its lower edge"
