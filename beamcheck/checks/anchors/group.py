"""An anchor group ready to be checked: where its fasteners are, in which wood, and what force comes to it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cached_property
from typing import Literal

import numpy as np

from ...analysis.beams.combinations import Loaded
from ...errors import OutOfRange
from ...model.anchors.anchor import Anchor, Holes
from ...model.anchors.manners import MANNERS, Made
from ...model.beams import Beam, beam_length
from ...model.conditions.air import Climate
from ...model.conditions.movement import Movement
from ...model.fields.evidence import vouched
from ...model.posts import Post
from ...model.stock import Stock
from ...records import dataclass
from ...units import show
from ..core.asking.question import RULING, PlausibleAnswer, Question, ask
from ..core.context import AnyPiece
from ..core.result import Check
from ..core.trivial import negligible
from ..core.wood.material import WoodMaterial
from ..core.wood.strength import Section
from .unsaid import Open

Array = np.ndarray
Part = Literal["down", "up", "along", "pressing"]
SAME_ROW = 1e-6  # in; holes whose heights differ by less stand in one row
PART_WORDS: dict[Part, str] = {
    "down": "down", "up": "up", "along": "out of the joint", "pressing": "into the joint",
}  # fmt: skip


@dataclass(frozen=True, eq=False)
class Forces:
    """What the held piece does to the group, per combination, lbf.

    across : (combinations,) down on the group, square to the grain of the held piece; negative lifts.
    along : (combinations,) out of the joint along the grain; negative presses into it.
    turning : (combinations,) moment of the piece on the group in the plane of its face, beside that of its arm, lb-in;
        turning the inner end of the piece up is positive. None: no such moment.
    """

    combinations: tuple[Loaded, ...]
    across: Array
    along: Array
    turning: Array | None = None


@dataclass(frozen=True, eq=False)
class Turn:
    """How the held end turns where nothing keeps it from that.

    rotation : (combinations,) of the end as a hinge, radians; the inner part going down is positive.
    softness : rotation of that end under a moment of 1 lb-in on it, radians.
    """

    rotation: Array
    softness: float


@dataclass(frozen=True, eq=False)
class Group:
    """One anchor group at one end of one piece.

    `x` and `y` place the holes in the held piece: from its end along the grain, and up from its bottom edge, inches;
    hole k stands in row `row[k]` (0 is the lowest) and column `column[k]` (0 is next to the end). Of fasteners into the
    end of the piece x is from its side.
    """

    anchor: Anchor
    piece: str
    end: str  # 'left' or 'right': which end of the piece
    place: float  # of the support along the piece
    stock: Stock
    wood: WoodMaterial
    section: Section
    into: AnyPiece | None
    into_stock: Stock | None  # wood of the other side, when it is wood of the job
    into_wood: WoodMaterial | None
    forces: Forces
    x: Array
    y: Array
    path: str = ""  # of its fields in the job file, where it is no [[anchor]]
    support: str = ""  # path of the support that it holds, where there is one
    line: float | None = None  # from the end of the piece along its grain to the line of its support; None: not known
    slope: float = 0.0  # of the held piece from level, rising inwards, deg
    turn: Turn | None = None  # None where nothing is known of how the end turns
    carries: tuple[str, ...] = ()  # the pieces that rest on the held piece
    lands_at: float | None = None  # along the carrying piece
    rests: bool = False  # the end has a seat beside the group
    far_depth: float | None = None  # of the piece that carries it, where that is level wood of the job
    kept_by: tuple[str, ...] = ()  # pieces of the job that are said to keep it from turning out of its plane
    air: Climate | None = None  # of the job, where somebody says it
    described: tuple[Movement, ...] = ()  # bolt rows of the held piece that are entries of their own

    @property
    def name(self) -> str:
        return self.anchor.name

    @property
    def made(self) -> Made:
        """What its manner is made of."""
        return MANNERS[self.anchor.manner]

    @property
    def along_in_plane(self) -> Array:
        """(combinations,) out of the joint, across the fasteners: of those into the end it is pull along them, lbf."""
        return np.asarray(self.forces.along, float) * (0.0 if self.made.in_the_end else 1.0)

    @property
    def far(self) -> str:
        """What it is fastened to, by name."""
        return self.into.name if self.into is not None else self.anchor.into or "the other member"

    @property
    def kept_from_turning(self) -> bool:
        """Somebody answers for what else holds it in its plane, or it is a piece of this job."""
        return bool(self.kept_by) or vouched(self.anchor.twist_held_by)

    @property
    def on_a_girder(self) -> bool:
        """It is fastened to the side of a level piece of this job."""
        return isinstance(self.into, Beam)

    @property
    def on_a_post(self) -> bool:
        """It is fastened to a post of this job."""
        return isinstance(self.into, Post)

    # ---- questions

    def field(self, name: str) -> str:
        """The place of a field of the group in the job file."""
        return f"{self.path or f'anchor.{self.name}'}.{name}"

    @property
    def support_field(self) -> str:
        """The place of the support in the job file; nothing where only an engineer can say."""
        return f"{self.support}.at" if self.support else RULING

    def asks(
        self, key: str, field: str = "", *, answers: tuple[PlausibleAnswer | str, ...] | None = None, why: str = "",
        **words: str,
    ) -> Question:  # fmt: skip
        """A question about the group; without a field it asks for a ruling, which has to cover the forces."""
        if answers is not None:  # places within the group become places in the job file
            answers = tuple(self._placed(answer) for answer in answers)
        known = {"piece": self.piece, "far": self.far, "end": self.end, "force": self.force_words, **words}
        at = self.field(field) if field else RULING
        return ask(key, self.name, at, answers=answers, why=why, forces=None if field else self.largest, **known)

    def _placed(self, answer: PlausibleAnswer | str) -> PlausibleAnswer | str:
        if isinstance(answer, str) or all("." in path for path, _ in answer.sets):
            return answer
        return PlausibleAnswer(answer.says, tuple((self.field(path), value) for path, value in answer.sets))

    def question(self, open_: Open) -> Question:
        """The question of something that is not said."""
        if open_.of:
            return ask(open_.key, open_.of, open_.field, answers=open_.answers, **open_.words)
        return self.asks(open_.key, open_.field, answers=open_.answers, **open_.words)

    def refers(self, id: str, what: str, clause: str, open_: Open, where: str = "") -> Check:
        """A check that waits for something that is not said."""
        return Check.refers(id, self.name, what, clause, open_.text, ask=self.question(open_), where=where)

    # ---- forces

    @property
    def parts(self) -> dict[Part, Array]:
        """(combinations,) forces on the group by direction, each 0 or more, lbf; of a sloping piece level and plumb."""
        down, out = self.forces.across, self.forces.along
        if self.slope:
            s, c = math.sin(math.radians(self.slope)), math.cos(math.radians(self.slope))
            down, out = c * down - s * out, s * down + c * out
        return {
            "down": np.maximum(down, 0.0), "up": np.maximum(-down, 0.0), "along": np.maximum(out, 0.0),
            "pressing": np.maximum(-out, 0.0),
        }  # fmt: skip

    @property
    def largest(self) -> dict[str, float]:
        """The largest force in each direction in which one comes, lbf."""
        found = {PART_WORDS[key]: float(np.max(part)) for key, part in self.parts.items()}
        return {words: force for words, force in found.items() if force > negligible()}

    @property
    def force_words(self) -> str:
        """'up to 1,200 lb down and 300 lb up'."""
        found = [f"{show(force, 'force')} {words}" for words, force in self.largest.items()]
        return "up to " + " and ".join(found) if found else "no force under any combination"

    # ---- places

    @property
    def arm(self) -> float | None:
        """From the middle of the group to the line on which the other side takes the load, towards the end, in.

        By the holes and the place of the support; as it is said where that place is not known.
        """
        if self.made.in_line or self.x.size == 0:
            return 0.0
        if self.line is not None:
            return float(np.mean(self.x)) - self.line
        return self.anchor.arm

    @cached_property
    def row(self) -> Array:
        """(holes,) numbers of the rows, from the bottom."""
        heights = levels(self.y)
        return np.array([int(np.argmin(np.abs(heights - one))) for one in self.y])

    @cached_property
    def column(self) -> Array:
        """(holes,) numbers within the row, from the end of the piece inwards."""
        found = np.zeros(self.x.size, dtype=int)
        for members in self.rows:
            found[members] = np.arange(members.size)
        return found

    @cached_property
    def rows(self) -> list[Array]:
        """Indices of the holes of each row, lowest row first, each from the end inwards."""
        found = [np.flatnonzero(self.row == number) for number in range(int(self.row.max(initial=-1)) + 1)]
        return [members[np.argsort(self.x[members])] for members in found]

    def name_of(self, k: int) -> str:
        """'row 1, column 2', counted from the bottom and from the end."""
        return f"row {int(self.row[k]) + 1}, column {int(self.column[k]) + 1}"


def round_force(force: float) -> str:
    """A plausible figure of a letter or report: rounded up to 10 lb."""
    return f"{10.0 * math.ceil(force / 10.0):,.0f} lbf"


def seat_takes(forces: Forces) -> Forces:
    """The forces of an end that rests on a seat: what presses down stays in the seat."""
    return Forces(forces.combinations, np.minimum(forces.across, 0.0), forces.along)


def hole_places(holes: Holes | None) -> tuple[Array, Array]:
    """Coordinates of the holes: place by place, or from rows and columns.

    Raises OutOfRange if the layout does not say where the holes are.
    """
    if holes is None:
        return np.zeros(0), np.zeros(0)
    if holes.places:
        return np.array([p.x for p in holes.places]), np.array([p.y for p in holes.places])
    rows, columns = holes.rows or 1, holes.columns or 1
    if holes.end is None or holes.edge is None:
        raise OutOfRange("the layout needs the distance from the end and from the bottom edge (`end`, `edge`)")
    if (columns > 1 and holes.spacing is None) or (rows > 1 and holes.row_spacing is None):
        raise OutOfRange("more than one fastener in a row needs `spacing`, more than one row `row_spacing`")
    x = holes.end + np.arange(columns) * (holes.spacing or 0.0)
    y = holes.edge + np.arange(rows) * (holes.row_spacing or 0.0)
    return np.tile(x, rows), np.repeat(y, columns)


def from_the_end(beam: Beam, index: int) -> float:
    """Of a support from the end of the beam that is nearer to it, in."""
    at, length = beam.supports[index].at, beam_length(beam)
    return at if at <= 0.5 * length else length - at


def holes_at(anchor: Anchor, beam: Beam, index: int) -> tuple[Array, Array]:
    """Coordinates of the holes at one support of a beam, from the end that is nearer to it.

    A group that holds several supports of one beam is laid out alike at each: as given where it fits best, and at the
    others as far from the end as that support is.

    Raises OutOfRange if the layout does not say where the holes are.
    """
    x, y = hole_places(anchor.holes)
    alike = [i for i, support in enumerate(beam.supports) if support.held_by == anchor.name]
    if not x.size or len(alike) < 2:
        return x, y
    home = min(alike, key=lambda i: abs(float(np.mean(x)) - from_the_end(beam, i)))
    return x + from_the_end(beam, index) - from_the_end(beam, home), y


def nearest_apart(x: Array, y: Array) -> float:
    """The least distance between two holes, from middle to middle, in; infinite where there is one only."""
    apart = np.hypot(x[:, None] - x[None, :], y[:, None] - y[None, :])
    np.fill_diagonal(apart, np.inf)
    return float(apart.min(initial=np.inf))


def pairs_closer(x: Array, y: Array, least: float) -> Iterator[tuple[int, int]]:
    """Pairs of holes that are closer to each other than that."""
    apart = np.hypot(x[:, None] - x[None, :], y[:, None] - y[None, :])
    for i, j in np.argwhere(np.triu(apart < least, 1)):
        yield int(i), int(j)


def levels(values: Array) -> Array:
    """The places that differ, in order."""
    ordered: list[float] = []
    for value in sorted(float(v) for v in values):
        if not ordered or value - ordered[-1] > SAME_ROW:
            ordered.append(value)
    return np.array(ordered)
