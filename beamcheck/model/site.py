"""The place where a house stands, and its roofs and floors as areas: what the loads of its pieces follow from."""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import get_close_matches
from typing import Annotated, Literal

from pydantic import Field

from ..errors import BeamcheckError, nearest
from ..values.loads import live_load, live_load_uses, told
from ..values.lumber import read_size
from ..values.site import assembly_names, layer_names, layer_weight_of
from ..values.species import folded
from .fields.base import Answer, Insisting, Name, Piece, Words
from .fields.bounds import ground_snow_faults
from .fields.places import Fault
from .fields.quantities import Length, LoadAmount, PositiveLength, Slope

_SPEED = re.compile(r"\s*([\d.]+)\s*mph\b", re.IGNORECASE)
_ALLOWABLE = re.compile(r"\b(?:allowable|asd|v_?asd|service)\b", re.IGNORECASE)
_STRENGTH_SNOW = re.compile(r"\b7-22\b|\bstrength[ -]level\b", re.IGNORECASE)
_FRAMING = re.compile(r"(.+?) at ([\d.]+) ?in")
FASTEST = 250.0  # mph
NEAR = 0.82  # likeness of two names that are taken for the same layer; judgment
Surface = Literal["shingles", "metal", "slate", "glass", "smooth membrane", "other"]
SLIPPERY = ("metal", "slate", "glass", "smooth membrane")  # ASCE 7-16 7.4
Below = Literal["heated", "cold attic", "just above freezing", "unheated", "open air"]
OPEN_USES = ("deck", "balcony", "fire escape", "fire escape of one house", "roof garden")
Layers = Annotated[tuple[Words, ...], Field(max_length=30)]


class Site(Piece):
    """What the building department and the maps say of the place."""

    ground_snow: LoadAmount = Field(
        description="ground snow load, per area; 0 psf where none falls", examples=["30 psf"]
    )
    ground_snow_from: Answer = Field(
        default="", description="who says so, in which paper", examples=["building department, letter of 3 May 2025"]
    )
    snow_edition: Literal["ASCE 7-16", "ASCE 7-22"] | None = Field(
        default=None, description="the standard that the ground snow load belongs to: 7-22 is strength level"
    )
    risk_category: Literal["I", "II", "III", "IV"] = Field(default="II", description="houses are II")
    risk_by: Answer = Field(
        default="", description="of risk category I: who says that people are hardly ever in it, in which paper"
    )
    surroundings: Literal["suburb or woods", "open country", "open water"] | None = Field(
        default=None, description="for 1,500 ft around: exposure B, C or D; not said counts as the worse of them"
    )
    wind_speed: Words = Field(default="", description="basic wind speed, strength level", examples=["115 mph"])
    wind_speed_from: Answer = Field(default="", description="who says so, in which paper")
    flat_ground: bool | None = Field(default=None, description="no hill, ridge or cliff within half a mile")
    frost_depth: Words = Field(default="", description="frost depth, as text", examples=["42 in"])
    local_rules: Words = Field(default="", description="rules of the place, as text")
    local_rules_by: Answer = Field(
        default="", description="who says that the loads of this job keep those rules, in which paper"
    )

    def faults(self) -> Iterator[Fault]:
        """Ground snow that occurs, and a wind speed that can be read."""
        yield from ground_snow_faults(*self.ground_snow)
        if self.wind_speed.strip() and not 0.0 < self.speed <= FASTEST:
            yield ("wind_speed",), 'a basic wind speed in miles per hour, for example wind_speed = "115 mph"'
        if self.snow_edition != "ASCE 7-22" and (found := _STRENGTH_SNOW.search(self.ground_snow_from)):
            text = (
                f"{found.group()!r} is said here, and values of ASCE 7-22 are of strength level, those of 7-16 are not"
            )
            yield ("ground_snow_from",), f"{text}: give the value of 7-16, from the building department"
        for field in ("wind_speed", "wind_speed_from"):
            if found := _ALLOWABLE.search(getattr(self, field)):
                text = f"{found.group()!r} is said here, and the wind speed has to be the basic one, of strength level"
                yield (field,), f"{text}: ask the building department for that of ASCE 7-16"
        if self.snow_edition == "ASCE 7-22":
            text = (
                "a ground snow load of ASCE 7-22 is of strength level, and the combinations of this job are those of "
                "ASCE 7-16: give the value of 7-16, from the building department"
            )
            yield ("snow_edition",), text

    @property
    def speed(self) -> float:
        """Basic wind speed, mph; 0 where none can be read."""
        found = _SPEED.match(self.wind_speed)
        try:
            return float(found[1]) if found else 0.0
        except ValueError:
            return 0.0

    @property
    def exposure(self) -> str:
        """B, C or D for wind; not said counts as C (D near water has to be said)."""
        return {"suburb or woods": "B", "open water": "D"}.get(self.surroundings or "", "C")


class Higher(Piece):
    """Something that stands higher beside a roof, from which snow drifts onto it."""

    what: Words = Field(description="what it is", examples=["house wall and eave"])
    step: PositiveLength = Field(
        description="how much higher, from roof to roof or to the top of a wall", examples=["4 ft"]
    )
    upper_length: PositiveLength = Field(
        description="length of the upper roof away from the step: eave to eave", examples=["30 ft"]
    )
    lower_length: PositiveLength = Field(description="length of this roof away from the step", examples=["8 ft"])
    gap: Length = Field(default=0.0, description="gap between the two, level")


class SlidesFrom(Piece):
    """A sloped roof that sheds its snow onto this one."""

    slope: Slope = Field(description="slope of the upper roof", examples=["6:12"])
    eave_to_ridge: PositiveLength = Field(description="level distance from its eave to its ridge", examples=["15 ft"])
    surface: Surface = Field(description="what its snow lies on", examples=["shingles"])
    below: Below = Field(default="unheated", description="what is under the upper roof")
    step: Length = Field(default=0.0, description="how much higher its eave is")
    gap: Length = Field(default=0.0, description="gap between the two, level")


class RoofWind(Piece):
    """Wind on a roof by somebody who worked it out: net of both faces, up and down."""

    lifts: LoadAmount = Field(
        description="how hard it lifts, per area of roof, as a positive amount", examples=["20 psf"]
    )
    presses: LoadAmount = Field(description="how hard it presses", examples=["16 psf"])
    level: Literal["strength", "allowable"] = Field(
        description="strength (factored) or allowable (ASD) level", examples=["strength"]
    )
    by: Answer = Field(default="", description="who says so, in which paper", examples=["engineer, sheet S-3"])

    def faults(self) -> Iterator[Fault]:
        """Pressures, both positive."""
        for field in ("lifts", "presses"):
            value, sort = getattr(self, field)
            if sort != "area" or value < 0.0:
                yield (field,), 'a pressure, as a positive amount, for example "20 psf"'
        if self.level == "strength" and (found := _ALLOWABLE.search(self.by)):
            text = f"{found.group()!r} is said in `by`, and the level is said to be strength: one of the two is a slip"
            yield ("level",), f"{text}, and strength pressures are 1.67 times as large"


class Area(Insisting):
    """What roofs and floors have in common: a name, and what they weigh."""

    name: Name = Field(description="its own name", examples=["main roof"])
    layers: Layers = Field(
        default=(),
        description="what it is made of from top to bottom, framing left out: layers of the tables, or 'name: 3 psf'",
        examples=[["asphalt shingles, one layer", "felt", "1x boards"]],
    )
    assembly: Words = Field(default="", description="a whole assembly of the tables, in place of layers")
    framing: Words = Field(
        default="", description="joists or rafters under it, for the weight on beams", examples=["2x8 at 16 in"]
    )

    def faults(self) -> Iterator[Fault]:
        """Layers or an assembly that the tables have."""
        if bool(self.layers) == bool(self.assembly.strip()):
            text = 'say what it is made of: layers = [...] from top to bottom, or assembly = "...", one of the two'
            yield ("layers",), text
        for i, layer in enumerate(self.layers):
            name, own = parted(layer)
            if own is None and folded(name) not in map(folded, layer_names()):
                text = f"{name!r} is no layer of the tables; {nearest(name, layer_names())}"
                yield ("layers", i), f"{text}, or write its weight with it: '{name}: 3 psf'"
            elif own is not None and (known := _like(name)):
                least = min(layer_weight_of(one)[1] for one in known)
                if own < least * (1.0 - 1e-6) and not self.insists_on("layers"):
                    low, said = f"{least * 144.0:.3g} psf", f"{own * 144.0:.3g} psf"
                    text = f"{name!r} weighs {low} at least by the tables ({known[0]}), and {said} are said"
                    yield ("layers", i), f"{text}: leave the weight out, or name what is really there"
            elif own is not None and not self.insists_on("layers"):
                heavy = next((one for one in told(name, "layer") if (one.weight or 0.0) > own * (1.0 + 1e-6)), None)
                if heavy is not None:
                    low = f"{(heavy.weight or 0.0) * 144.0:.3g} psf"
                    text = (
                        f"{name!r} says {heavy.says}, which weighs {low} at least, and {own * 144.0:.3g} psf are said"
                    )
                    yield ("layers", i), f"{text}: correct it, or say in meant.layers why it is lighter"
        if self.assembly.strip() and folded(self.assembly) not in map(folded, assembly_names()):
            yield ("assembly",), f"{self.assembly!r} is not in the tables; {nearest(self.assembly, assembly_names())}"
        if self.framing.strip() and self.rhythm is None:
            yield ("framing",), 'a size and a spacing, for example framing = "2x8 at 16 in"'

    @property
    def rhythm(self) -> tuple[float, float] | None:
        """Area of one joist or rafter in2 and their spacing in; None where none can be read."""
        found = _FRAMING.fullmatch(" ".join(self.framing.split()))
        try:
            if not found or float(found[2]) <= 0.0:
                return None
            size = read_size(found[1])
        except (BeamcheckError, ValueError):
            return None
        return float(size.b) * float(size.d), float(found[2])


class RoofArea(Area):
    """A roof with one slope, or two that are alike."""

    shape: Literal["gable", "hip", "monoslope"] = Field(
        description="gable or hip; monoslope: one slope only, or flat", examples=["gable"]
    )
    slope: Slope = Field(description="rise to run", examples=["6:12"])
    eave_to_ridge: PositiveLength = Field(
        description="level distance from eave to ridge, or over all of a monoslope", examples=["12 ft"]
    )
    ridge: Literal["beam", "board", "ties or trusses"] | None = Field(
        default=None, description="what the rafters meet at; ties or trusses: they are no simple rafters"
    )
    surface: Surface = Field(default="other", description="what the snow lies on", examples=["shingles"])
    snow_slides_off: bool = Field(
        default=False, description="nothing holds the snow: no guards, no lower roof, room below the eave"
    )
    below: Below | None = Field(default=None, description="what is under it; not said counts as unheated")
    insulation: Annotated[int, Field(ge=0, le=100)] | None = Field(default=None, description="R of the roof")
    vented: bool | None = Field(
        default=None, description="vented above the insulation; not said counts as vented for what melts"
    )
    exposed: Literal["fully exposed", "partially exposed", "sheltered"] | None = Field(
        default=None, description="to the wind that clears it of snow; not said counts as sheltered"
    )
    higher: Higher | Literal["nothing"] | None = Field(
        default=None, description="what stands higher within 20 ft; nothing has to be said"
    )
    slides_from: SlidesFrom | Literal["nothing"] | None = Field(
        default=None, description="the sloped roof that sheds snow onto this one; nothing has to be said"
    )
    parapet: Length = Field(default=0.0, description="height of a parapet")
    wind: RoofWind | None = Field(default=None, description="wind by a sheet; else an open roof takes a safe envelope")
    mean_height: PositiveLength | None = Field(default=None, description="of an open roof over the ground")
    least_width: PositiveLength | None = Field(default=None, description="of an open roof, the smaller way")
    attached: Literal["no", "one side", "more"] | None = Field(
        default=None, description="of an open roof: how many of its sides have a wall"
    )

    @property
    def slippery(self) -> bool:
        """Whether its own snow slides off."""
        return self.surface in SLIPPERY and self.snow_slides_off

    def faults(self) -> Iterator[Fault]:
        """A gable has a ridge and rises."""
        if self.shape != "monoslope" and self.slope <= 0.0:
            yield ("slope",), 'a gable or hip rises: give its slope, or write shape = "monoslope"'


class FloorArea(Area):
    """A floor, deck or attic with one use."""

    use: Words = Field(description="its use, as the table of live loads has it", examples=["sleeping room"])
    outdoors: bool | None = Field(default=None, description="snow lies on it; of a deck or balcony it has to be said")
    partitions: LoadAmount | None = Field(default=None, description="movable partitions, per area", examples=["15 psf"])

    def faults(self) -> Iterator[Fault]:
        """A use with a load per area."""
        if folded(self.use) not in map(folded, live_load_uses()):
            yield ("use",), f"{self.use!r} is no use of the tables; {nearest(self.use, live_load_uses())}"
            return
        if folded(self.use) == "roof":
            yield ("use",), "a roof is no floor: write it as [[roof]], which takes its snow from the site"
            return
        try:
            live_load(self.use)
        except BeamcheckError as error:
            yield ("use",), str(error)
        if self.partitions is not None and (self.partitions[1] != "area" or self.partitions[0] < 0.0):
            yield ("partitions",), 'a load per area, for example partitions = "15 psf"'


def _like(name: str) -> list[str]:
    """The layers of the tables that a name may mean: the same, one whose words it has all, or all of whose it has."""
    if exact := [one for one in layer_names() if folded(one) == folded(name)]:
        return exact
    said = _stems(name)
    found = [one for one in layer_names() if said and (said <= _stems(one) or _stems(one) <= said)]
    near = get_close_matches(folded(name), [folded(one) for one in layer_names()], n=1, cutoff=NEAR)
    return found or [one for one in layer_names() if folded(one) in near]


def _stems(name: str) -> frozenset[str]:
    """Words of four letters and more, without their plural."""
    return frozenset(word.rstrip("s") for word in re.findall(r"[a-z]{4,}", name.casefold()))


def parted(layer: str) -> tuple[str, float | None]:
    """A layer's name, and its own weight in lbf/in2 where one is written behind it: 'old slate: 9 psf'."""
    name, colon, weight = layer.rpartition(":")
    found = re.fullmatch(r"\s*([\d.]+)\s*psf\s*", weight) if colon else None
    try:
        return (name.strip(), float(found[1]) / 144.0) if found else (layer.strip(), None)
    except ValueError:
        return layer.strip(), None
