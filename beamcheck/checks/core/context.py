"""What the checks of one piece know of the rest of the house: what arrives on it, and what it rests on."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, MutableMapping, Sequence
from dataclasses import field
from functools import partial
from typing import TYPE_CHECKING, Any, Protocol, TypeAlias

from ...analysis.beams.member_loads import TransferredLoad
from ...analysis.site.areas import NO_AREAS, Areas
from ...model.beams import Beam
from ...model.classes import is_bracket, is_trim
from ...model.posts import Post
from ...model.roofs import Rafter, Tie
from ...records import dataclass
from ...values.lumber import Size, read_size
from .result import PieceResult, Verdict
from .watched import belonging, choose

if TYPE_CHECKING:
    from ...model.anchors.anchor import Anchor
    from ...model.brackets.bracket import Bracket, Trim
    from ...model.conditions.air import Climate
    from ...model.conditions.movement import Movement
    from ...model.existing import Existing
    from ...model.frames.frame import Frame, FrameStick
    from ...model.job import Snow
    from ...model.joints.joint import Joint
    from ...model.stock import Stock
    from .wood.group_cut import GroupCut
    from .wood.strength import Section

HEAD, AREAS, JOINTS, JOINTS_OF, MOVEMENT = "job", "areas", "joints", "joints of ", "movement"
AnyPiece: TypeAlias = "Beam | Rafter | Tie | Post | Bracket | Trim | Existing | Frame | FrameStick"


@dataclass(frozen=True)
class Site:
    """The place where the house stands, as far as checks ask for it."""

    ground_snow: tuple[float, str] | None = None
    snow: Snow | None = None
    wind_by: str = ""
    areas: Areas = NO_AREAS


class Joints(Protocol):
    """What a beam asks of the anchor groups of its job: they are a room above, and whoever runs a job hands them in."""

    def cuts(self, beam: Beam, context: Context, section: Section) -> list[GroupCut]:
        """All that anchors take from a beam."""

    def slot(self, anchor: Anchor | None) -> float:
        """Breadth that a group takes from the seat and the section, inches."""

    def results(self, beam: Beam, run: Any, context: Context) -> list[PieceResult]:
        """The groups at the supports of a beam, checked; of a beam that could not be worked out (None) each says so."""


class NoJoints:
    """A job without anchor groups."""

    def cuts(self, beam: Beam, context: Context, section: Section) -> list[GroupCut]:
        return []

    def slot(self, anchor: Anchor | None) -> float:
        return 0.0

    def results(self, beam: Beam, run: Any, context: Context) -> list[PieceResult]:
        return []


@dataclass(frozen=True)
class Structure:
    """Pieces, stocks and anchor groups by name. What is left by one piece for another is of a room above this one.

    `groups` collects each anchor group as it is checked, with its forces: whoever asks for a layout starts from there.
    `heads` holds the head of the job, its roofs and floors, and the joints of each frame.
    `joints` answers for the anchor groups of beams.
    `runs` and `verdicts` keep the solved beams, for the brackets near them; `stiffness` that of those brackets, lbf/in.
    """

    stocks: Mapping[str, Stock]
    pieces: Mapping[str, AnyPiece]
    anchors: Mapping[str, Anchor] = field(default_factory=dict)
    groups: dict[str, list[Any]] = field(default_factory=dict)
    runs: MutableMapping[str, Any] = field(default_factory=dict)
    verdicts: MutableMapping[str, Verdict] = field(default_factory=dict)
    stiffness: MutableMapping[str, tuple[float, float]] = field(default_factory=dict)
    heads: Mapping[str, Any] = field(default_factory=dict)
    joints: Joints = field(default_factory=NoJoints)

    @property
    def areas(self) -> Areas:
        """Roofs and floors of the job, worked out from its site."""
        found: Areas = self.heads.get(AREAS, NO_AREAS)
        return found

    @property
    def all_joints(self) -> tuple[Joint, ...]:
        """The [[joint]] entries of the job."""
        found: tuple[Joint, ...] = self.heads.get(JOINTS, ())
        return found

    def joint_of_post(self, post: str) -> Joint | None:
        """The joint that carries the foot of a post."""
        return next((joint for joint in self.all_joints if joint.post == post), None)

    @property
    def site(self) -> Site:
        """What the head of the job says of the place where the house stands; of pieces without a job nothing."""
        head = self.heads.get(HEAD)
        if head is None:
            return Site(areas=self.areas)
        ground = head.ground_snow if self.areas.site is None else self.areas.site.ground_snow
        return Site(ground, head.snow, head.wind_by, self.areas)

    @property
    def air(self) -> Climate | None:
        """The air that the wood of the job lives in, where somebody says it."""
        head = self.heads.get(HEAD)
        found: Climate | None = None if head is None else head.air
        return found

    @property
    def bolt_rows(self) -> tuple[Movement, ...]:
        """The bolt rows that are [[movement]] entries."""
        found: tuple[Movement, ...] = self.heads.get(MOVEMENT, ())
        return tuple(one for one in found if one.kind == "bolt row")

    def joints_of(self, frame: str) -> tuple[Any, ...]:
        """The [[joint]] entries of a frame."""
        found: tuple[Any, ...] = self.heads.get(f"{JOINTS_OF}{frame}", ())
        return found

    def beams_on(self, name: str) -> tuple[Beam, ...]:
        """The beams with a support on that piece."""
        return tuple(piece for piece in belonging(self.pieces, "beams on", _on, name) if isinstance(piece, Beam))

    def sticks_held_by(self, anchor: str) -> tuple[Beam | Rafter | Tie, ...]:
        """The pieces with an end that this group holds."""
        found = belonging(self.pieces, "held by", _held_by, anchor)
        return tuple(piece for piece in found if isinstance(piece, (Beam, Rafter, Tie)))

    def sticks_named(self, words: str) -> tuple[str, ...]:
        """The beams, rafters, ties and posts that these words name."""
        found = choose(self.pieces, f"named in {words}", partial(_named, words))
        return tuple(piece.name for piece in found)

    def stand_under(self, beam: str) -> tuple[Bracket | Post | Trim, ...]:
        """What stands near that beam without being one of its supports."""
        found = belonging(self.pieces, "near", _near, beam)
        return tuple(piece for piece in found if isinstance(piece, Post) or is_bracket(piece) or is_trim(piece))


def _on(piece: AnyPiece) -> Iterator[str]:
    """What a beam rests on."""
    if isinstance(piece, Beam):
        yield from (support.on for support in piece.supports)


def _held_by(piece: AnyPiece) -> Iterator[str]:
    """The groups that hold an end of it."""
    if isinstance(piece, Tie):
        held = [piece.ends_held_by]
    elif isinstance(piece, Beam):
        held = [support.held_by for support in piece.supports]
    else:
        held = [piece.wall.held_by] if isinstance(piece, Rafter) else []
    yield from filter(None, held)


def _named(words: str, piece: AnyPiece) -> bool:
    sort = isinstance(piece, (Beam, Rafter, Tie, Post))
    return sort and re.search(rf"(?<!\w){re.escape(piece.name)}(?!\w)", words) is not None


def _near(piece: AnyPiece) -> Iterator[str]:
    """The beam that it stands near."""
    if isinstance(piece, Post) or is_bracket(piece) or is_trim(piece):
        yield from [] if piece.near is None else filter(None, [piece.near.beam])


@dataclass(frozen=True)
class Context:
    """The surroundings of one piece: the loads that other pieces bring, and the house itself.

    `sinks` is for a beam that stands on beams: by the number of its support how far that comes down under each pound
    (in/lbf) and under all else that the beam below carries (in).
    """

    structure: Structure
    transfers: Sequence[TransferredLoad] = field(default=())
    sinks: Mapping[int, tuple[float, float]] = field(default_factory=dict)

    def stock(self, name: str) -> Stock:
        return self.structure.stocks[name]

    def size(self, stock: str) -> Size:
        return read_size(self.structure.stocks[stock].size)

    def anchor(self, name: str | None) -> Anchor | None:
        """The group of that name; None where none is named, or where a single piece is looked at without its job."""
        return None if name is None else self.structure.anchors.get(name)

    def under(self, name: str) -> AnyPiece:
        return self.structure.pieces[name]
