"""What the drawings of all but beams need, as in `beams.py`; a job of beams does without.

A bracket is seen from its side: x out from the wall face, y down from its top.
"""

from __future__ import annotations

from typing import Annotated, Literal, NamedTuple

from ....records import dataclass
from ....units.marks import Degrees, In, Inches, Pounds, Psi
from .beams import CutMark, Dimension, Points, Span
from .board import BoardPicture
from .split import SplitPicture


class Hole(NamedTuple):
    """With `upright` holes x is along the piece and y is 0."""

    x: Inches
    y: Inches
    diameter: Inches
    number: str
    governing: bool


class SlotSize(NamedTuple):
    width: Inches
    length: Inches
    height: Inches


class PlateEdges(NamedTuple):
    """Drawn about the holes where the job does not place it."""

    left: Inches
    bottom: Inches
    right: Inches
    top: Inches
    thickness: Inches


class BoreSize(NamedTuple):
    diameter: Inches
    depth: Inches


class Neighbor(NamedTuple):
    """Wood or concrete beside the piece."""

    name: str
    thickness: Inches


class FastenerSize(NamedTuple):
    """Sizes of a fastener by the tables; 0 where there is none, None where it is not known.

    `kind`: 'bolt', 'lag screw', 'wood screw', 'nail', 'pin', 'rod'. `head` is that of a nail or screw.
    """

    kind: str
    diameter: Inches
    length: Inches | None
    head: Inches | None
    washer: Inches | None
    washer_thickness: Inches


class ForceMark(NamedTuple):
    """The largest force on a group in one direction: 'down', 'up', 'out of the joint', 'into the joint'."""

    way: str
    force: Pounds


class ShortOf(NamedTuple):
    """A distance or size that is not kept, or open: what is needed and what is there."""

    what: str
    needed: Inches
    there: Inches
    verdict: str


@dataclass(frozen=True)
class HoleDrawing:
    """What a drawing of an anchor group needs: the end of the held piece seen from its side, and an end view.

    x runs from the end of the piece along its grain, y up from its bottom edge. `end` is the end of the piece that the
    group holds; `length` is how much of the piece is shown. With `upright` the holes are rods that stand in the piece.
    `plate_at`: 'in the slot', 'on one side', 'on both sides'. `bores` are in the first `bored` faces of the piece,
    `other` is a `gap` away.
    """

    name: str
    end: Literal["left", "right"]
    length: Inches
    depth: Inches
    breadth: Inches
    holes: tuple[Hole, ...]
    dimensions: tuple[Dimension, ...]
    slot: SlotSize | None = None
    plate: PlateEdges | None = None
    plate_at: str = ""
    bores: BoreSize | None = None
    bored: int = 0
    other: Neighbor | None = None
    gap: Inches = 0.0
    upright: bool = False
    texts: tuple[str, ...] = ()
    fastener: FastenerSize | None = None
    from_right: bool = False  # the head is on the side of the plate or of the other member, right in the end view
    other_grain: str = ""  # 'along', 'across', 'end' as the job says it, '' where it is no wood
    line: Inches | None = None  # from the end of the piece to the line of its support
    forces: tuple[ForceMark, ...] = ()
    short: tuple[ShortOf, ...] = ()
    at_joint: bool = False  # drawn from its end at a joint, whichever end of the member that is


class Outline(NamedTuple):
    """A closed outline with a name: 'wall leg', 'brace', 'pocket' ..."""

    name: str
    outline: Points


class FastenerMark(NamedTuple):
    """How far down from the top, and how far into the wall."""

    below_top: Inches
    into_wall: Inches
    name: str


class BeamAbove(NamedTuple):
    gap: Inches | None
    name: str


class Cross(NamedTuple):
    """A section that the checks name."""

    x0: Inches
    y0: Inches
    x1: Inches
    y1: Inches
    name: str


class StressMark(NamedTuple):
    x: Inches
    y: Inches
    text: str


class Closing(NamedTuple):
    """What closes a gap, and by how much."""

    what: str
    closes: Inches


@dataclass(frozen=True)
class Elevation:
    """A bracket to scale.

    `parts`: closed outlines with a name ('', 'wall leg', 'top leg', 'brace', 'bar', 'gusset', 'skin', 'block', 'post');
    `grain`: the angle of the grain of each part, deg above level towards the nose, None where it is not known.
    `voids`: pockets and bores cut out, with a name. `anchors`: (y down from the top, how far into the wall, name).
    `loads`: (x from, x to, text), equal places for a point load. `beam`: (gap above the nose, name) of a beam above.
    `thickness`: seen from the front, where each of `front` is (y down from the top, x from its left side).
    `wall`: what is behind it. `dimensions`: (axis, from, to, what it is). `sections`: places named in the checks,
    (x0, y0, x1, y1, name).
    """

    name: str
    parts: tuple[Outline, ...]
    grain: tuple[Degrees | None, ...]
    height: Inches
    projection: Inches
    voids: tuple[Outline, ...] = ()
    anchors: tuple[FastenerMark, ...] = ()
    loads: tuple[Span, ...] = ()
    beam: BeamAbove | None = None
    wall: str = ""
    dimensions: tuple[Dimension, ...] = ()
    sections: tuple[Cross, ...] = ()
    thickness: Inches | None = None
    front: Points = ()
    picture: Literal["elevation"] = "elevation"


@dataclass(frozen=True)
class StressPicture:
    """A stress over a bracket: small cells with one value each, and marks at the extremes.

    `cells`: polygons; `values`: psi, one each. `left_out`: areas where no stress is read (inward corners, anchors,
    loads). `marks`: (x, y, text). `loads` and `anchors` as those of an elevation.
    """

    name: str
    what: str  # 'stress across the grain'
    outline: Points
    cells: tuple[Points, ...]
    values: Annotated[tuple[float, ...], In("psi")]
    limit: Psi  # psi: the value at which the scale has its mark
    left_out: tuple[Points, ...] = ()
    marks: tuple[StressMark, ...] = ()
    loads: tuple[Span, ...] = ()
    anchors: tuple[FastenerMark, ...] = ()
    picture: Literal["stress"] = "stress"


@dataclass(frozen=True)
class StrutPicture:
    """A braced bracket as a strut and two ties. `load` acts `x_L` out; the brace runs from `down` to `out`.

    `brace` is pressed, `level` pulls along the top leg, `upright` along the wall leg. `about_the_wall`: the moment
    about the wall face gives the force of the brace; else the face of the wall leg does.
    """

    name: str
    combination: str
    load: Pounds
    x_L: Inches
    out: Inches
    down: Inches
    slope: Degrees
    brace: Pounds
    level: Pounds
    upright: Pounds
    wall_leg: Inches
    top_leg: Inches
    about_the_wall: bool
    picture: Literal["strut"] = "strut"


@dataclass(frozen=True)
class GapPicture:
    """Beam above a bracket: the gap as left, what closes it bit by bit, and what is left or missing.

    `steps`: (what, how much it closes, lengths in).
    """

    name: str
    beam: str
    gap: Inches | None
    steps: tuple[Closing, ...]
    needed: Inches
    force: Pounds  # that it attracts; 0 while it stays free
    picture: Literal["gap"] = "gap"


class OnTop(NamedTuple):
    """What stands on a post: from whom, and how much at most."""

    name: str
    force: Pounds


class Way(NamedTuple):
    """One way in which a post may bow: its side, how far apart it is braced, and how far off center its load is."""

    name: str
    side: Inches
    braced: Inches | None
    offset: Inches | None


@dataclass(frozen=True)
class PostPicture:
    """A post from both sides. `force`: what arrives at its foot at most. `held`: how its top is held, and its foot."""

    name: str
    height: Inches
    ways: tuple[Way, ...]
    on: str
    top: tuple[OnTop, ...]
    force: Pounds
    held: tuple[str, str]
    cuts: tuple[CutMark, ...] = ()
    picture: Literal["post"] = "post"


@dataclass(frozen=True)
class RafterPicture:
    """A rafter, or a pair, at its slope.

    Lengths: `run` from the wall's support to the ridge, level; `tail` up the slope; `seat_cut` square to the rafter,
    `seat` level. `reaction`, `lift` at the wall, and along the stick `pressed`, `pulled`; `tied`: in the tie. `other`:
    what the opposite foot rests on, '' for nothing said.
    """

    name: str
    run: Inches
    slope: Degrees
    depth: Inches
    tail: Inches
    wall: str
    ridge: str
    pair: bool
    other: str
    reaction: Pounds
    lift: Pounds
    pressed: Pounds
    pulled: Pounds
    seat_cut: Inches | None = None
    seat: Inches | None = None
    tie: str = ""
    tie_height: Inches = 0.0
    tie_depth: Inches = 0.0
    tied: Pounds = 0.0
    loads: tuple[str, ...] = ()
    picture: Literal["rafter"] = "rafter"


class FrameBar(NamedTuple):
    """A member between its outer points, from left to right, with its largest push and pull."""

    name: str
    x0: Inches
    y0: Inches
    x1: Inches
    y1: Inches
    depth: Inches
    push: Pounds
    pull: Pounds


class FrameFootMark(NamedTuple):
    """A foot: what it stands on, its largest force up, the least (negative lifts), and its thrust either way."""

    x: Inches
    y: Inches
    on: str
    up: Pounds
    least: Pounds
    thrust: Pounds


@dataclass(frozen=True)
class FramePicture:
    """A frame to scale with the largest forces of its members under any combination; `shown` is drawn dark.

    `points`: where members meet, with a letter each. `loads`: in words.
    """

    name: str
    bars: tuple[FrameBar, ...]
    feet: tuple[FrameFootMark, ...]
    points: tuple[StressMark, ...]
    loads: tuple[str, ...] = ()
    shown: str = ""
    picture: Literal["frame"] = "frame"


@dataclass(frozen=True)
class FrameForces:
    """A frame under one combination, all its forces at once: of each member its push and pull along it, of each foot
    what stands under it. `under`: the combination."""

    name: str
    under: str
    bars: tuple[FrameBar, ...]
    feet: tuple[FrameFootMark, ...]
    points: tuple[StressMark, ...]
    picture: Literal["frame forces"] = "frame forces"


class JointHole(NamedTuple):
    """A fastener: right and up from the crossing of the axes, and its diameter."""

    x: Inches
    y: Inches
    D: Inches


class JointBar(NamedTuple):
    """A member at a joint: which way it goes (0 to the right, 90 up), its depth, whether it goes on, its largest push,
    pull and force square to it, its fasteners;
    `starts`: how far from the crossing it begins, where that is known."""

    name: str
    angle: Degrees
    depth: Inches
    passes: bool
    push: Pounds
    pull: Pounds
    across: Pounds
    holes: tuple[JointHole, ...]
    starts: Inches | None = None


@dataclass(frozen=True)
class JointPicture:
    """A joint seen square to its plane: its members to scale where their axes cross. `says`: its cuts in words."""

    name: str
    bars: tuple[JointBar, ...]
    on: str
    says: tuple[str, ...] = ()
    picture: Literal["joint"] = "joint"


Picture = (
    Elevation
    | StressPicture
    | GapPicture
    | StrutPicture
    | SplitPicture
    | PostPicture
    | RafterPicture
    | FramePicture
    | FrameForces
    | JointPicture
    | BoardPicture
)
