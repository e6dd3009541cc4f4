"""A frame of members in one plane as the job file describes it: its form, its members, what it stands on, its loads."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Literal

from pydantic import Field

from ...errors import BeamcheckError, nearest
from ..fields.base import Answer, Insisting, Name, Piece, Words
from ..fields.marks import Marked
from ..fields.places import SAME_PLACE, Fault, feet
from ..fields.quantities import Force, Length, PositiveLength, Spring
from ..fire import Fire
from ..loads import Load, sort_of
from ..sticks import Cut, Finish, Stick, inside
from .forms import FORMS, Shape, StickPath, form
from .names import piece_name

FrameKind = Literal["king post", "queen post", "scissor", "collar tie", "braced bent", "hammer beam", "free form"]
BY_POINTS = ("hammer beam", "free form")
MEASURES = ("span", "rise", "height", "post_from_heel", "collar_height", "brace_on_beam", "brace_on_post")
FORCES = ("dead", "live", "roof_live", "snow", "wind", "wind_sideways")
UPRIGHT, PLUMB = 60.0, 85.0  # degrees from level; wind on a roof presses on what is flatter


class FramePoint(Piece):
    """A point at which members of a frame meet: where their axes cross in the drawing as it will be cut."""

    name: Name = Field(description="what the point is called", examples=["ridge"])
    x: Length = Field(description="level distance from the left end of the frame", examples=["12 ft"])
    y: Length = Field(description="height over the feet", examples=["8 ft"])


class FrameMember(Insisting):
    """A member of a frame, or all of one sort: "tie", "left rafter", "rafters"."""

    name: Name = Field(
        description="the member of the form, or a sort of them; of a free form its own name",
        examples=["rafters", "tie", "king post"],
    )
    stock: Name = Field(description="the name of its [[stock]] entry", examples=["old beam"])
    through: tuple[Name, ...] = Field(
        default=(), max_length=100, description="free form: the points that it runs through, in their order",
        examples=[["left heel", "ridge"]],
    )  # fmt: skip
    carries: tuple[Load, ...] = Field(
        default=(), max_length=200,
        description="what lies on it along its length, its own weight left out; places count from its first point, of "
        "a rafter from its foot",
    )  # fmt: skip
    cuts: tuple[Cut, ...] = Field(
        default=(), max_length=200, description="wood that is missing beside what its joints take out"
    )
    top_held: Literal["full length", "ends only"] | PositiveLength = Field(
        default="ends only",
        description="what keeps its upper edge from moving out of the plane of the frame; a length is the spacing of "
        "purlins or braces",
    )
    bottom_held: Literal["full length", "ends only"] | PositiveLength = Field(
        default="ends only", description="the same for its lower edge"
    )
    bears_nothing_else: Answer = Field(
        default="", description="of a level member: why nobody ever comes onto it, so that no live load is missing",
        examples=["lamps only: there is no floor and no attic over it"],
    )  # fmt: skip
    acts: Literal["both", "push", "pull"] = Field(
        default="both", description="push: dry shoulders, it cannot pull; pull: a rod or strap"
    )
    fire: Fire | None = Field(default=None, description="a fire that it must stand, where somebody asks for one")

    def faults(self) -> Iterator[Fault]:
        """Loads that a member of a frame can carry."""
        for i, load in enumerate(self.carries):
            if sort_of(load) == "point" and load.at is None and not load.moves:
                yield ("carries", i, "at"), 'missing: a force needs its place, for example at = "7 ft"'
            if load.moves:
                text = "a load that moves is put where it counts most on a frame: give its place with `at`"
                yield ("carries", i, "moves"), text
        if len(set(self.through)) < len(self.through):
            yield ("through",), "it runs through a point twice"


class FrameFoot(Insisting):
    """What a foot of a frame stands on."""

    at: Name = Field(description="the point of the frame that stands there", examples=["left heel"])
    on: Name = Field(description="the name of another piece or of an [[existing]] entry", examples=["west wall"])
    lands_at: Length | None = Field(
        default=None, description="where along the carrying beam it lands, from that beam's left end", examples=["3 ft"]
    )
    bearing: PositiveLength | None = Field(default=None, description="length of the seat along the span of the frame")
    bearing_width: PositiveLength | None = Field(
        default=None, description="breadth of the seat when less than the breadth of the member on it"
    )
    cut: PositiveLength | None = Field(
        default=None,
        description="where a rafter stands there by itself: depth of the level cut in it, square to it",
    )
    slides: bool | None = Field(
        default=None, description="can it move level on its seat: slotted holes, a base that slides"
    )
    slides_by: Answer = Field(default="", description="who answers for that, in which paper")
    wall_stiffness: Spring | None = Field(
        default=None, description="how stiff what it stands on is against thrust, where somebody answers for it",
        examples=["2000 lb/in"],
    )  # fmt: skip


class FrameForce(Insisting):
    """Forces at a point of a frame: purlins, ridge beams, what hangs there, wind that pushes a bent."""

    what: Words = Field(description="what it is, in words", examples=["purlin"])
    at: Name = Field(description="the point of the frame", examples=["ridge"])
    dead: Force | None = Field(default=None, description="weight that stays")
    live: Force | None = Field(default=None, description="people, furniture, storage")
    roof_live: Force | None = Field(default=None, description="people and material on a roof")
    snow: Force | None = Field(default=None, description="snow")
    wind: Force | None = Field(default=None, description="strength-level W, down; negative lifts")
    wind_sideways: Force | None = Field(
        default=None, description="strength-level W that pushes the point level, either way"
    )

    def faults(self) -> Iterator[Fault]:
        """Says what it is and how much."""
        if not self.what.strip():
            yield ("what",), 'it says nothing: what is it that loads the frame? For example what = "purlin"'
        given = [field for field in FORCES if getattr(self, field) is not None]
        if not given:
            yield (), 'a load without a kind: say dead, live, roof_live, snow or wind, for example dead = "600 lb"'
        for field in given:
            if getattr(self, field) < 0.0 and field != "wind":
                yield (field,), "only wind may be negative (it then lifts); write this load as a positive amount"


class Frame(Marked):
    """A frame or truss in one plane, with its members. Its joints are [[joint]] entries."""

    kind: FrameKind = Field(description="its form; free form: by its points", examples=["king post"])
    span: PositiveLength | None = Field(default=None, description="level, from foot to foot", examples=["24 ft"])
    rise: PositiveLength | None = Field(default=None, description="from the feet to the ridge", examples=["8 ft"])
    height: PositiveLength | None = Field(default=None, description="of a bent, from its feet to its beam")
    post_from_heel: PositiveLength | None = Field(default=None, description="queen posts: level from heel to post")
    collar_height: Length | None = Field(default=None, description="of the collar above the feet; 0 ft: a tie")
    brace_on_beam: PositiveLength | None = Field(default=None, description="knee braces: along the beam from the post")
    brace_on_post: PositiveLength | None = Field(default=None, description="knee braces: down the post from the beam")
    spacing: PositiveLength | None = Field(default=None, description="from frame to frame", examples=["8 ft"])
    points: tuple[FramePoint, ...] = Field(default=(), max_length=200, description="free form: its points")
    members: tuple[FrameMember, ...] = Field(
        max_length=200, description="its members, each or by sort",
        examples=[[{"name": "rafters", "stock": "old beam"}, {"name": "tie", "stock": "old beam"}]],
    )  # fmt: skip
    feet: tuple[FrameFoot, ...] = Field(
        max_length=20, description="what it stands on",
        examples=[[{"at": "left heel", "on": "west wall"}, {"at": "right heel", "on": "east wall"}]],
    )  # fmt: skip
    carries: tuple[FrameForce, ...] = Field(default=(), max_length=200, description="forces at its points")
    finish: Finish = Field(
        description="what is attached to it or rests on it and cracks when it bends; sets the deflection limits",
        examples=["none"],
    )
    upright_by: Answer = Field(
        default="", description="what holds it upright and its members out of the plane, and who answers for that",
        examples=["purlins and deck, bracing by engineer's sheet S-2 of 3 May 2025"],
    )  # fmt: skip
    sway_held_by: Answer = Field(
        default="", description="of a bent: which walls or panels keep it from swaying, and who answers for that"
    )
    joint_stiffness: Spring | None = Field(
        default=None, description="of its softest joint along a member, where that is known",
        examples=["60000 lb/in"],
    )  # fmt: skip
    joint_play: Length | None = Field(
        default=None, description="by how much a bolted joint lets go before it bears: bolt holes are bored larger",
        examples=["1/16 in"],
    )  # fmt: skip
    joints_by: Answer = Field(
        default="", description="who answers for joints that are stiffer, or have less play, than usual; in which paper"
    )
    role: Literal["carries"] = Field(default="carries", description="a frame carries")

    @property
    def measures(self) -> dict[str, float]:
        """The measures that are given, by name."""
        return {name: value for name in MEASURES if (value := getattr(self, name)) is not None}

    def _shape(self) -> Shape:
        if self.kind not in FORMS:
            points = {point.name: (point.x, point.y) for point in self.points}
            sticks = tuple(
                StickPath(one.name, one.through, slips=len(one.through) == 2, acts=one.acts) for one in self.members
            )
            return Shape(points, sticks, tuple(foot.at for foot in self.feet))
        shape = form(self.kind, self.measures)
        acts = {stick: one.acts for one in self.members for stick in meant(one.name, shape)}
        sticks = tuple(
            StickPath(one.name, one.points, one.hinged, one.slips, acts.get(one.name, "both")) for one in shape.sticks
        )
        return Shape(shape.points, sticks, tuple(foot.at for foot in self.feet), shape.anchored)

    @property
    def shape(self) -> Shape:
        """Points, sticks and feet; the feet from left to right."""
        return _made(_This(self))[0]

    @property
    def sticks(self) -> tuple[FrameStick, ...]:
        """Its members, one by one, as checked pieces: of the same frame always the same objects."""
        return _made(_This(self))[1]

    def faults(self) -> Iterator[Fault]:
        """Measures that belong to the form, members and feet that fit it, loads that lie on it."""
        if self.kind in BY_POINTS:
            yield from self._free_faults()
        else:
            if self.points:
                yield ("points",), f"a {self.kind} has its points by its measures: leave points out"
            for i, one in enumerate(self.members):
                if one.through:
                    yield ("members", i, "through"), f"a {self.kind} has its members by its form: leave through out"
        try:
            shape = self._shape()
        except BeamcheckError as error:
            yield (), f"{str(error).removesuffix('.')}"
            return
        found = list(shape.troubles())
        for about, text in found:
            yield self._where(about), text
        yield from self._members_faults(shape)
        if found:
            return
        yield from self._feet_faults(shape)
        for i, force in enumerate(self.carries):
            if force.at not in shape.points:
                yield ("carries", i, "at"), f"there is no point {force.at!r}; {nearest(force.at, list(shape.points))}"

    def _free_faults(self) -> Iterator[Fault]:
        for name in self.measures:
            yield (name,), f"a {self.kind} is given by its points: leave {name} out"
        if not self.points:
            yield (
                ("points",),
                f'missing: a {self.kind} needs its points, for example {{name = "ridge", x = "12 ft", ...}}',
            )
        seen: set[str] = set()
        for i, point in enumerate(self.points):
            if point.name in seen:
                yield ("points", i, "name"), f"the point {point.name!r} is there twice: give each its own name"
            seen.add(point.name)

    def _where(self, about: str) -> tuple[str | int, ...]:
        names = {"members": [one.name for one in self.members], "points": [one.name for one in self.points]}
        for field, of_field in names.items():
            if about in of_field:
                return (field, of_field.index(about))
        return next((("feet", i, "at") for i, foot in enumerate(self.feet) if foot.at == about), ())

    def _members_faults(self, shape: Shape) -> Iterator[Fault]:
        taken: dict[str, int] = {}
        for i, one in enumerate(self.members):
            sticks = meant(one.name, shape)
            if not sticks:
                names = [stick.name for stick in shape.sticks]
                yield ("members", i, "name"), f"a {self.kind} has no {one.name!r}; {nearest(one.name, names)}"
            for stick in sticks:
                if stick in taken:
                    text = f"{stick!r} is described by members {taken[stick] + 1} already: describe each once"
                    yield ("members", i, "name"), text
                taken.setdefault(stick, i)
                yield from self._on_stick(shape, stick, i, one)
        missing = [stick.name for stick in shape.sticks if stick.name not in taken]
        if missing and self.kind not in BY_POINTS:
            yield ("members",), f"missing: of what are {', '.join(missing)}? Each member of the form needs its stock"

    def _on_stick(self, shape: Shape, stick: str, i: int, one: FrameMember) -> Iterator[Fault]:
        path = shape.stick(stick)
        if one.acts != "both" and len(path.points) > 2 and path.hinged != "all":
            yield ("members", i, "acts"), f"{stick!r} runs through a joint: it cannot act one way only"
        try:
            length, slope = shape.length(stick), shape.slope(stick)
        except (KeyError, IndexError):
            return  # a point that there is not: said already
        for j, load in enumerate(one.carries):
            where = ("members", i, "carries", j)
            if sort_of(load) == "area" and load.width is None and self.spacing is None:
                text = "missing: a load per area needs the width that comes to this frame"
                yield (*where, "width"), f'{text}, for example width = "8 ft", or give the spacing of the frames'
            for value, name in ((load.at, "at"), (load.start, "from"), (load.end, "to")):
                if value is not None:
                    yield from inside((*where, name), value, length + SAME_PLACE, stick)
            if slope > PLUMB and sort_of(load) != "point" and (load.live or load.roof_live or load.snow or load.roof):
                yield where, "nothing lies along an upright member: give it as forces in carries of the frame"
            if load.wind is not None and slope > UPRIGHT:
                yield (*where, "wind"), "wind on an upright member goes into carries of the frame, as wind_sideways"
        for j, cut in enumerate(one.cuts):
            yield from inside(("members", i, "cuts", j, "at"), cut.at, length + SAME_PLACE, stick)

    def _feet_faults(self, shape: Shape) -> Iterator[Fault]:
        x = [shape.points[foot.at][0] for foot in self.feet]
        if len(self.feet) < 2:
            yield ("feet",), "a frame stands on two feet or more: name them, from left to right"
        elif max(x) - min(x) < SAME_PLACE:
            yield ("feet",), "its feet stand one over the other: nothing keeps it from tipping"
        seen: set[str] = set()
        for i, foot in enumerate(self.feet):
            if foot.at in seen:
                yield ("feet", i, "at"), f"the foot {foot.at!r} is there twice"
            seen.add(foot.at)
            if foot.slides and shape.anchored:
                yield ("feet", i, "slides"), "the feet of a bent are held: leave slides out"
        if sum(foot.slides is True for foot in self.feet) == len(self.feet) and len(self.feet) > 1:
            yield ("feet",), "if every foot slides nothing holds the frame level: leave slides out at one of them"


class FrameStick(Stick):
    """One member of a frame as a checked piece: made from its frame, never read from a file."""

    frame: str = Field(description="the frame that it is part of")
    stick: str = Field(description="its name in the frame")
    entry: int = Field(description="its entry among the members of the frame, from 0")
    length: float = Field(description="between its end points, inches")
    slope: float = Field(description="degrees from level")
    bears_nothing_else: str = Field(default="", description="why nobody ever comes onto it")
    to_ridge: bool = Field(description="whether its upper end is the highest point of the frame")


class _This:
    """A frame is known by itself: what has the same fields may be another."""

    def __init__(self, frame: Frame) -> None:
        self.frame = frame

    def __hash__(self) -> int:
        return id(self.frame)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _This) and other.frame is self.frame


@lru_cache(maxsize=512)
def _made(this: _This) -> tuple[Shape, tuple[FrameStick, ...]]:
    frame, shape = this.frame, this.frame._shape()
    feet = tuple(sorted(shape.feet, key=lambda at: shape.points[at][0]))
    shape = Shape(shape.points, shape.sticks, feet, shape.anchored)
    of = {stick: (i, one) for i, one in enumerate(frame.members) for stick in meant(one.name, shape)}
    return shape, tuple(_stick(frame, shape, path, *of[path.name]) for path in shape.sticks)


def meant(name: str, shape: Shape) -> list[str]:
    """The sticks that a name of the job file stands for: one, or all of a sort."""
    names = [stick.name for stick in shape.sticks]
    if name in names:
        return [name]
    if not name.endswith("s"):
        return []
    return [one for one in names if one.endswith(f" {name[:-1]}")]


def _stick(frame: Frame, shape: Shape, path: StickPath, entry: int, one: FrameMember) -> FrameStick:
    heights = [shape.points[point][1] for point in (path.points[0], path.points[-1])]
    top = max(y for _, y in shape.points.values())
    sloped = abs(heights[0] - heights[1]) > SAME_PLACE
    return FrameStick.model_construct(
        name=piece_name(frame.name, path.name), stock=one.stock, carries=one.carries, cuts=one.cuts,
        finish=frame.finish, spacing=frame.spacing, top_held=one.top_held, bottom_held=one.bottom_held,
        meant=one.meant, fire=one.fire, frame=frame.name, stick=path.name, entry=entry,
        length=shape.length(path.name), bears_nothing_else=one.bears_nothing_else,
        slope=shape.slope(path.name), to_ridge=sloped and max(heights) >= top - SAME_PLACE,
    )  # fmt: skip


def said_length(frame: Frame) -> str:
    """How far it spans, in words."""
    x = [frame.shape.points[foot][0] for foot in frame.shape.feet]
    return feet(max(x) - min(x))
