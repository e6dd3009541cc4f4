"""One job file: its head and all its tables."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Annotated, Any, Literal

from pydantic import Field, StringConstraints

from .beams import Beam
from .classes import KINDS, class_of
from .conditions.air import Climate
from .existing import Existing
from .fields.base import Answer, Insisting, Piece, Words
from .fields.bounds import ground_snow_faults
from .fields.places import Fault
from .fields.quantities import LoadAmount
from .posts import Post
from .roofs import Rafter, Tie
from .stock import Stock

if TYPE_CHECKING:
    from .anchors.anchor import Anchor
    from .answers import GivenAnswer, Ruling
    from .brackets.bracket import Bracket, Trim
    from .conditions.movement import Movement
    from .frames.frame import Frame, FrameStick
    from .joints.joint import Joint
    from .site import FloorArea, RoofArea, Site

MOST_PIECES = 500  # of one kind in one job


class Snow(Piece):
    """How the snow on the roofs is known, beside the figures that the pieces carry."""

    by: Answer = Field(
        default="",
        description="who says that the snow given on the roofs is right for this site, in which paper",
        examples=["building department, letter of 3 May 2025"],
    )
    one_side: LoadAmount | None = Field(
        default=None, description="snow on the lee side alone, per area of plan, where that is a case of its own"
    )
    higher: Literal["nothing", "counted"] | None = Field(
        default=None,
        description="roofs or walls that stand higher within 20 ft: nothing; counted: their drift is in the loads",
    )
    slides: Literal["nothing", "counted"] | None = Field(
        default=None, description="roofs that slide onto a roof of this job: nothing; counted: it is in the loads"
    )


class Revision(Piece):
    """What was changed in a job that had been given out."""

    mark: Words = Field(description="its mark", examples=["A"])
    date: Words = Field(default="", description="the day, as text", examples=["9 May 2025"])
    what: Words = Field(description="what was changed", examples=["seat on the west wall 5 1/2 in"])
    by: Words = Field(default="", description="who changed it")


class About(Insisting):
    """The job: what a plan checker wants to see first."""

    title: Annotated[str, StringConstraints(min_length=1, max_length=5000)] = Field(
        description="what the job is", examples=["Boathouse, main room (invented)"]
    )
    standard: Literal["NDS 2018", "NDS 2024"] = Field(
        description="the wood standard the checks follow", examples=["NDS 2018"]
    )
    loads: Literal["ASCE 7-16", "ASCE 7-22"] = Field(
        description="the loads standard of the combinations", examples=["ASCE 7-16"]
    )
    address: Words = Field(default="", description="where the house stands")
    author: Words = Field(default="", description="who wrote the job file")
    date: Words = Field(default="", description="of the job file, as text", examples=["3 May 2025"])
    project: Words = Field(default="", description="the project number", examples=["2025-014"])
    designed_by: Words = Field(default="", description="who designed what is checked here")
    checked_by: Words = Field(default="", description="who went over the job file before the engineer")
    revision: tuple[Revision, ...] = Field(
        default=(), max_length=50, description="revisions, the first first",
        examples=[[{"mark": "A", "date": "9 May 2025", "what": "seat on the west wall 5 1/2 in", "by": "J. M."}]],
    )  # fmt: skip
    notes: Words = Field(default="", description="whatever a reader must know")
    local_code: Words = Field(default="", description="the local code and its edition")
    ground_snow: LoadAmount | None = Field(default=None, description="ground snow load, per area")
    wind_speed: Words = Field(default="", description="basic wind speed, as text with its unit", examples=["115 mph"])
    invented: bool = Field(default=False, description="demo data: printed on every page")
    units: Literal["US", "SI"] = Field(default="US", description="units of the sheets")

    snow: Snow | None = Field(default=None, description="how the snow on the roofs of this job is known")
    wind_by: Answer = Field(
        default="",
        description="who answers for wind and uplift where no wind load is given here, in which paper",
        examples=["engineer's sheet S-3 of 3 May 2025: rafter straps"],
    )

    air: Climate | None = Field(
        default=None, description="the air that the wood of this job lives in, for its movement"
    )

    def faults(self) -> Iterator[Fault]:
        """Ground snow that is a load per area and occurs."""
        if self.ground_snow is not None:
            yield from ground_snow_faults(*self.ground_snow)


class Job(Piece):
    """One job file. Classes that most jobs do without are loaded when a job is read that has them (`classes`)."""

    job: About = Field(
        description="what the job is and which standards hold",
        examples=[{"title": "Boathouse (invented)", "standard": "NDS 2018", "loads": "ASCE 7-16"}],
    )
    site: Site | None = Field(default=None, description="the place: ground snow, wind, surroundings")
    roof: tuple[RoofArea, ...] = Field(default=(), max_length=MOST_PIECES, description="roofs as areas with loads")
    floor: tuple[FloorArea, ...] = Field(default=(), max_length=MOST_PIECES, description="floors as areas with loads")
    stock: tuple[Stock, ...] = Field(default=(), max_length=MOST_PIECES, description="kinds of stick")
    beam: tuple[Beam, ...] = Field(default=(), max_length=MOST_PIECES, description="level pieces in bending")
    rafter: tuple[Rafter, ...] = Field(default=(), max_length=MOST_PIECES, description="rafters")
    tie: tuple[Tie, ...] = Field(default=(), max_length=MOST_PIECES, description="ties between pairs of rafters")
    post: tuple[Post, ...] = Field(default=(), max_length=MOST_PIECES, description="upright pieces")
    frame: tuple[Frame, ...] = Field(
        default=(), max_length=MOST_PIECES, description="frames and trusses of members in one plane"
    )
    existing: tuple[Existing, ...] = Field(
        default=(), max_length=MOST_PIECES, description="what is there already or is the work of others"
    )
    anchor: tuple[Anchor, ...] = Field(
        default=(),
        max_length=MOST_PIECES,
        description="what holds ends: groups of fasteners, plates, hangers",
    )
    joint: tuple[Joint, ...] = Field(
        default=(), max_length=MOST_PIECES, description="what holds the members of frames, and posts, where they meet"
    )
    bracket: tuple[Bracket, ...] = Field(
        default=(), max_length=MOST_PIECES, description="brackets and covers that stand out from a wall, post or beam"
    )
    trim: tuple[Trim, ...] = Field(
        default=(), max_length=MOST_PIECES, description="boxed beams, moldings, ornaments: they carry nothing"
    )
    movement: tuple[Movement, ...] = Field(
        default=(), max_length=MOST_PIECES, description="parts that must have room to move with their moisture"
    )
    answer: tuple[GivenAnswer, ...] = Field(
        default=(), max_length=10 * MOST_PIECES, description="how answers to open questions are known"
    )
    ruling: tuple[Ruling, ...] = Field(
        default=(), max_length=MOST_PIECES, description="what an engineer or a department ruled in writing"
    )

    @property
    def members(self) -> Mapping[str, FrameStick]:
        """The members of all frames by their names as pieces."""
        return {stick.name: stick for frame in self.frame for stick in frame.sticks}

    if not TYPE_CHECKING:

        @classmethod
        def model_rebuild(cls, **how: Any) -> bool | None:
            """What reads a job as a whole, or says its schema, is made on first use, from the classes of all kinds."""
            kinds = {found.__name__: found for found in map(class_of, KINDS)}
            return super().model_rebuild(**{**how, "_types_namespace": kinds})
