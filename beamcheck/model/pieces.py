"""What stands in the house: stock, beams, rafters, posts, ties, and what they rest on. No computing here.

The same classes read the job file and serve the Python API. Quantities are text with a unit or pint quantities; inside
they are plain floats in inch, pound-force and psi. What each field means is its `description`; the schema and the
reader's messages print it. Rules that tie several fields of one piece together are in rules.py, those between pieces in
links.py.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, StringConstraints

from .anchors import Anchor
from .base import Answer, Name, Piece, Words
from .brackets import Bracket, Role, Trim
from .loads import Load
from .quantities import Density, Force, Length, LoadAmount, Moisture, PositiveLength, Slope, Stress, Temperature

Finish = Literal["plaster", "gypsum board", "masonry veneer", "flexible", "none"]
Evidence = Literal["stamp", "certificate", "engineer", "assumed"]
MOST_PIECES = 500  # of one kind in one job


def _plain_word(*words: str) -> BeforeValidator:
    """`Unknown` and `UNKNOWN` mean the word itself, not a species or grade of that name."""

    def fold(value: Any) -> Any:
        return value.strip().casefold() if isinstance(value, str) and value.strip().casefold() in words else value

    return BeforeValidator(fold)


class GivenValues(Piece):
    """Design values from a grader's or engineer's letter, in place of a table row."""

    F_b: Stress = Field(description="bending", examples=["900 psi"])
    F_t: Stress = Field(description="tension along the grain", examples=["575 psi"])
    F_v: Stress = Field(description="shear along the grain", examples=["125 psi"])
    F_c_perp: Stress = Field(description="bearing across the grain", examples=["350 psi"])
    F_c: Stress = Field(description="compression along the grain", examples=["700 psi"])
    E: Stress = Field(description="modulus of elasticity, the mean", examples=["1,100,000 psi"])
    E_min: Stress = Field(description="modulus of elasticity for stability", examples=["400,000 psi"])
    G: Annotated[float, Field(gt=0.1, lt=1.5)] | None = Field(
        default=None, description="specific gravity, oven-dry weight and volume", examples=[0.36]
    )
    source: Annotated[str, StringConstraints(min_length=8, max_length=2000)] = Field(
        description="who says so, in which letter, of which date", examples=["letter of the grader, 3 May 2025, no. 17"]
    )


class Stock(Piece):
    """A kind of stick: what the wood is and how that is known."""

    name: Name = Field(description="what this kind of stick is called in the job", examples=["old beam"])
    species: Annotated[Name, _plain_word("unknown")] = Field(
        description='a species of the tables, or "unknown"', examples=["Eastern White Pine"]
    )
    grade: Annotated[Name, _plain_word("unstamped")] = Field(
        description='a grade of the tables, or "unstamped"', examples=["No.2"]
    )
    size: Name = Field(
        description="measured breadth x depth, or a nominal size that says dressed or rough", examples=["8x10 rough"]
    )
    moisture: Literal["dry", "green", "wet"] = Field(
        description="dry: metered at 19 % or less, and staying so; green: put in wet; wet: wet in service",
        examples=["dry"],
    )
    grade_from: Evidence | None = Field(default=None, description="who says that it is that grade", examples=["stamp"])
    evidence: Answer = Field(default="", description="the stamp's text, the certificate's number, the letter")
    agency: Words = Field(default="", description="grading agency on the stamp")
    candidates: tuple[Name, ...] = Field(
        default=(), max_length=20, description="plausible species when the species is unknown"
    )
    values: GivenValues | None = Field(default=None, description="design values by letter, in place of the tables")
    graded_over: Literal["middle third", "whole length"] = Field(
        default="middle third", description="what the grade of a beam or stringer covers (NDS 4.2.5.5)"
    )
    incised: bool = Field(default=False, description="cut with small slits for preservative")
    treated: bool = Field(default=False, description="treated with preservative or fire retardant")
    temperature: Temperature = Field(default=100.0, description="highest sustained temperature in service")
    density: Density | None = Field(
        default=None, description="weight as weighed; otherwise from specific gravity and moisture"
    )
    measured_moisture: Moisture | None = Field(default=None, description="moisture content as metered")


class Cut(Piece):
    """Wood that is missing: a notch, mortise, hole or taper. It is never ignored."""

    kind: Literal["notch", "hole", "mortise", "taper"] = Field(description="what sort of cut", examples=["notch"])
    at: Length = Field(description="middle of the cut along the piece; of an end notch the end", examples=["7 ft"])
    length: Length = Field(default=0.0, description="extent along the piece")
    depth: PositiveLength = Field(
        description="notch, taper: how deep; hole: diameter; mortise: height", examples=["1 1/2 in"]
    )
    width: PositiveLength | None = Field(
        default=None, description="breadth across the piece of a mortise, or of a notch that is not cut right across"
    )
    face: Literal["top", "bottom", "side"] = Field(default="side", description="the face it is cut from")
    from_bottom: Length | None = Field(
        default=None,
        description="hole or mortise: from the bottom edge of the piece to the middle of the cut",
        examples=["4 in"],
    )


class Support(Piece):
    """What a piece rests on or hangs from, and how."""

    at: Length = Field(
        description="distance along the piece from its left end to the middle of the seat", examples=["14 ft"]
    )
    on: Name = Field(description="the name of another piece or of an [[existing]] entry", examples=["west post"])
    lands_at: Length | None = Field(
        default=None, description="where along the carrying beam it lands, from that beam's left end", examples=["3 ft"]
    )
    holds: Literal["rests", "hung", "fixed"] = Field(
        default="rests", description="rests: on a seat; hung: in a hanger; fixed: cannot turn"
    )
    bearing: PositiveLength | None = Field(default=None, description="length of the seat along this piece")
    bearing_width: PositiveLength | None = Field(
        default=None, description="breadth of the seat when less than the full breadth"
    )
    restrained: bool | None = Field(default=None, description="is the end held against turning over")
    settles: Length = Field(default=0.0, description="known settlement, down")
    tied_down: Answer = Field(default="", description="what resists uplift")
    held_by: Name | None = Field(
        default=None, description="the [[anchor]] group that holds this end", examples=["hidden plate A"]
    )


class Stick(Piece):
    """What beams, rafters and ties have in common."""

    name: Name = Field(description="what this piece is called in the job", examples=["B1"])
    stock: Name = Field(description="the name of its [[stock]] entry", examples=["old beam"])
    role: Role = Field(
        default="carries", description="carries; decorative: meant to bear nothing but itself; cover: hides hardware"
    )
    plies: Annotated[int, Field(ge=1, le=6)] = Field(
        default=1, description="sticks side by side that make up the piece"
    )
    laid: Literal["on edge", "flat"] = Field(default="on edge", description="which way the stick lies")
    carries: tuple[Load, ...] = Field(
        default=(), max_length=200, description="the loads on it, its own weight left out"
    )
    cuts: tuple[Cut, ...] = Field(default=(), max_length=200, description="wood that is missing")
    finish: Finish = Field(
        description="what is attached below or rests on it and cracks when it bends; sets the deflection limits",
        examples=["plaster"],
    )
    limit_live: Annotated[int, Field(ge=60, le=2000)] | None = Field(
        default=None, description="own deflection limit under live load: length over this number"
    )
    limit_total: Annotated[int, Field(ge=60, le=2000)] | None = Field(
        default=None, description="own deflection limit under total load: length over this number"
    )
    limit_why: Answer = Field(
        default="", description="why the usual limit is overridden", examples=["engineer's letter of 3 May 2025"]
    )
    spacing: PositiveLength | None = Field(
        default=None, description="from middle to middle of repeated members", examples=["16 in"]
    )
    members: Annotated[int, Field(ge=1, le=1000)] = Field(
        default=1, description="how many of them side by side share the load through a deck"
    )
    shared_by: Answer = Field(
        default="", description="the deck that shares load between them", examples=["3/4 in boards, nailed"]
    )
    top_held: Literal["full length", "at loads", "ends only"] | PositiveLength = Field(
        description="what keeps the top edge from moving sideways; a length is the spacing of braces",
        examples=["ends only"],
    )
    bottom_held: Literal["full length", "ends only"] | PositiveLength = Field(
        default="ends only", description="the same for the bottom edge"
    )


class Beam(Stick):
    """A level piece in bending."""

    length: PositiveLength | None = Field(
        default=None, description="over all; by default from 0 to the last support", examples=["14 ft"]
    )
    supports: tuple[Support, ...] = Field(
        max_length=50,
        description="what holds it, from left to right",
        examples=[[{"at": "0 ft", "on": "west post"}, {"at": "14 ft", "on": "east post"}]],
    )
    service: Literal["floor", "roof"] = Field(
        description="belongs to a floor or to a roof; sets the deflection limits", examples=["floor"]
    )


class Rafter(Stick):
    """A pair of rafters, or one rafter, with what holds it against spreading."""

    run: PositiveLength = Field(description="level distance from the wall's support to the ridge", examples=["12 ft"])
    slope: Slope = Field(description="rise to run, or degrees from level", examples=["6:12"])
    spacing: PositiveLength = Field(description="from middle to middle of the rafters", examples=["24 in"])
    ridge: Literal["beam", "board"] = Field(
        description="beam: carries the upper ends; board: the two rafters only lean on each other", examples=["beam"]
    )
    wall: Support = Field(
        description="the support at the wall; `at` is the distance up the slope and is normally 0",
        examples=[{"at": "0 ft", "on": "north wall plate"}],
    )
    ridge_on: Name | None = Field(
        default=None, description="the ridge beam that carries the upper ends", examples=["ridge beam"]
    )
    pair: bool = Field(default=True, description="another rafter leans on the ridge from the other side")
    tie: Name | None = Field(default=None, description="the tie that closes the pair")
    thrust_resisted_by: Answer = Field(default="", description="what takes the thrust when there is no tie")
    seat_cut: PositiveLength | None = Field(default=None, description="depth of the birdsmouth, square to the rafter")


class Tie(Stick):
    """A level tie between a pair of rafters: tension, with bending when something hangs on it."""

    height: Length = Field(description="above the rafters' wall supports", examples=["0 ft"])
    end_connection: Name = Field(default="unchecked", description="how its ends are joined to the rafters")
    ends_held_by: Name | None = Field(default=None, description="the [[anchor]] group at each of its ends")


class Post(Piece):
    """An upright piece in compression."""

    name: Name = Field(description="what this piece is called in the job", examples=["west post"])
    stock: Name = Field(description="the name of its [[stock]] entry", examples=["old beam"])
    role: Role = Field(
        default="carries", description="carries; decorative: meant to bear nothing but itself; cover: hides hardware"
    )
    height: PositiveLength = Field(description="from foot to top", examples=["8 ft"])
    on: Name = Field(description="what it stands on: a piece or an [[existing]] entry", examples=["west footing"])
    lands_at: Length | None = Field(
        default=None, description="where it stands on a beam, from that beam's left end", examples=["3 ft"]
    )
    base_restraint: Literal["pinned", "fixed"] = Field(default="pinned", description="how the foot is held")
    top_restraint: Literal["pinned", "fixed", "free"] = Field(
        description="how the top is held sideways; free: by nothing", examples=["pinned"]
    )
    plies: Annotated[int, Field(ge=1, le=6)] = Field(default=1, description="sticks side by side that make up the post")
    plies_joined: Literal["nailed", "bolted", "none"] = Field(default="none", description="how the plies are joined")
    braced_strong: PositiveLength | None = Field(
        default=None, description="spacing of braces against bending the deep way"
    )
    braced_weak: PositiveLength | None = Field(
        default=None, description="spacing of braces against bending the thin way"
    )
    carries: tuple[Load, ...] = Field(
        default=(), max_length=200, description="forces on its top beside those of the pieces that rest on it"
    )
    eccentricity: Length | None = Field(
        default=None, description="how far off centre the load arrives, the deep way", examples=["1 in"]
    )
    eccentricity_weak: Length | None = Field(default=None, description="the same, the thin way")
    bearing_plate: bool = Field(default=False, description="a metal plate spreads the load at its ends")
    cuts: tuple[Cut, ...] = Field(default=(), max_length=200, description="wood that is missing; `at` is from the foot")


class Existing(Piece):
    """Something that is there already or is somebody else's work: the end of what this tool checks."""

    name: Name = Field(description="what it is called in the job", examples=["west footing"])
    what: Words = Field(description="what it is, in words", examples=["stone footing under the west wall"])
    confirmed_by: Answer = Field(
        default="", description="who says in writing that it takes the load; without it the verdict is refer"
    )
    takes: Force | None = Field(
        default=None, description="what one seat on it may take, by whoever confirms it", examples=["8,000 lb"]
    )
    material: Literal["wood", "steel", "masonry", "concrete", "ground", "plaster", "board", "trim", "other"] = Field(
        default="other", description="what it is made of; plaster, board and trim carry nothing"
    )
    F_c_perp: Stress | None = Field(default=None, description="allowable bearing across the grain of a wooden seat")


class About(Piece):
    """The job: what a plan checker wants to see first."""

    title: Annotated[str, StringConstraints(min_length=1, max_length=5000)] = Field(
        description="what the job is", examples=["Boathouse, main room (invented)"]
    )
    standard: Literal["NDS 2018"] = Field(description="the wood standard the checks follow", examples=["NDS 2018"])
    loads: Literal["ASCE 7-16"] = Field(description="the loads standard of the combinations", examples=["ASCE 7-16"])
    address: Words = Field(default="", description="where the house stands")
    author: Words = Field(default="", description="who wrote the job file")
    date: Words = Field(default="", description="of the job file, as text", examples=["3 May 2025"])
    notes: Words = Field(default="", description="whatever a reader must know")
    local_code: Words = Field(default="", description="the local code and its edition")
    ground_snow: LoadAmount | None = Field(default=None, description="ground snow load, per area")
    wind_speed: Words = Field(default="", description="basic wind speed, as text with its unit", examples=["115 mph"])
    invented: bool = Field(default=False, description="demo data: printed on every page")
    units: Literal["US", "SI"] = Field(default="US", description="units of the sheets")


class Job(Piece):
    """One job file."""

    job: About = Field(
        description="what the job is and which standards hold",
        examples=[{"title": "Boathouse (invented)", "standard": "NDS 2018", "loads": "ASCE 7-16"}],
    )
    stock: tuple[Stock, ...] = Field(default=(), max_length=MOST_PIECES, description="kinds of stick")
    beam: tuple[Beam, ...] = Field(default=(), max_length=MOST_PIECES, description="level pieces in bending")
    rafter: tuple[Rafter, ...] = Field(default=(), max_length=MOST_PIECES, description="rafters")
    tie: tuple[Tie, ...] = Field(default=(), max_length=MOST_PIECES, description="ties between pairs of rafters")
    post: tuple[Post, ...] = Field(default=(), max_length=MOST_PIECES, description="upright pieces")
    existing: tuple[Existing, ...] = Field(
        default=(), max_length=MOST_PIECES, description="what is there already or is the work of others"
    )
    anchor: tuple[Anchor, ...] = Field(
        default=(),
        max_length=MOST_PIECES,
        description="what holds ends: groups of fasteners, plates, hangers",
    )
    bracket: tuple[Bracket, ...] = Field(
        default=(), max_length=MOST_PIECES, description="brackets and covers that stand out from a wall, post or beam"
    )
    trim: tuple[Trim, ...] = Field(
        default=(), max_length=MOST_PIECES, description="boxed beams, mouldings, ornaments: they carry nothing"
    )
