"""What eye, tape, meter and a simple test found on one old timber. It belongs to the stock, which is then that timber.

Places run from the left end of the piece as it lies in the house; faces are named as it lies there, too. An entry that
is left out was not looked at: that is asked, never taken for clean.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field

from ...errors import BeamcheckError
from ..fields.base import Answer, Piece, Words
from ..fields.places import SAME_PLACE, Fault, Path, feet, inches
from ..fields.quantities import Force, Length, Moisture, PositiveLength
from ..sticks import Cut

Face = Literal["top", "bottom", "left", "right"]
Corner = Literal["top left", "top right", "bottom left", "bottom right"]
STATIONS = 3  # both ends and the middle


class Station(Piece):
    """The section as the tape reads it at one place: the least of each side."""

    at: Length = Field(description="from the left end", examples=["1 ft"])
    breadth: PositiveLength = Field(description="across, sound wood", examples=["7 3/8 in"])
    depth: PositiveLength = Field(description="in the plane of the load, sound wood", examples=["9 1/4 in"])


class Reading(Piece):
    """One reading of a moisture meter."""

    at: Length = Field(description="from the left end", examples=["6 ft"])
    moisture: Moisture = Field(description="as read, corrected for the species", examples=["13 %"])
    deep: PositiveLength | None = Field(default=None, description="depth of the pins; a quarter of the thickness")
    near: Literal["masonry", "roof", "neither"] = Field(default="neither", description="what is close to it there")


class Grain(Piece):
    """Slope of grain on one face, on its worst line."""

    face: Face = Field(description="the face it was scribed on", examples=["left"])
    one_in: Annotated[float, Field(ge=1, le=200)] = Field(
        description="how far the grain runs along for one across", examples=[14]
    )


class Knot(Piece):
    """The worst knot or cluster of one place."""

    at: Length = Field(description="from the left end", examples=["7 ft"])
    face: Face = Field(description="the face it is in", examples=["left"])
    place: Literal["edge", "center"] = Field(
        default="edge", description="of the wide face; what is not on the center line counts as at the edge"
    )
    width: PositiveLength = Field(description="across the face, between lines along its edges", examples=["1 1/2 in"])
    sound: bool = Field(default=True, description="false: loose or rotten")


class Opening(Piece):
    """A check, shake or split along the grain."""

    kind: Literal["check", "shake", "split"] = Field(description="split: it goes right through", examples=["check"])
    start: Length = Field(description="from the left end", examples=["0 ft"])
    end: Length = Field(description="where it ends", examples=["2 ft 6 in"])
    depth: PositiveLength | None = Field(default=None, description="as far as a feeler goes in", examples=["1 1/2 in"])
    other_side: Length = Field(default=0.0, description="depth of the one opposite it")
    at_bolts: bool = Field(default=False, description="it runs through a row of bolts or pegs")

    def faults(self) -> Iterator[Fault]:
        """It begins before it ends, and a check has a depth."""
        if self.end <= self.start:
            yield ("end",), f"it ends at {feet(self.end)}, where it begins: exchange the two, or measure again"
        if self.kind != "split" and self.depth is None:
            yield ("depth",), f'missing: how deep does a feeler go into the {self.kind}? For example depth = "1 in"'


class Loss(Piece):
    """Wood that is gone or no longer counts over a length."""

    what: Literal["wane", "hewing", "decay", "insects", "char"] = Field(description="why", examples=["wane"])
    start: Length = Field(description="from the left end", examples=["3 ft"])
    end: Length = Field(description="where it ends", examples=["9 ft"])
    where: Face | Corner = Field(description="the face, or for wane the corner", examples=["bottom left"])
    depth: PositiveLength = Field(
        description="from the face to sound wood; of wane the larger leg of the missing corner", examples=["1 in"]
    )

    def faults(self) -> Iterator[Fault]:
        """It has a length, and only wane is at a corner."""
        if self.end <= self.start:
            yield ("end",), f"it ends at {feet(self.end)}, where it begins: exchange the two, or measure again"
        if (" " in self.where) != (self.what == "wane"):
            text = "wane is missing from a corner, all else from a face"
            yield ("where",), f'{text}: for example where = "{"bottom left" if self.what == "wane" else "bottom"}"'


class SagTest(Piece):
    """A known weight in the middle of a simple span, and how far the middle came down for it.

    Without `sag` it is planned: the sheet then says what each result would be worth.
    """

    span: PositiveLength = Field(description="from middle to middle of the supports", examples=["13 ft 4 in"])
    weight: Force = Field(description="that was put on, in the middle", examples=["600 lb"])
    weight_off: Force = Field(default=0.0, description="how much that may be wrong, either way", examples=["15 lb"])
    sag: PositiveLength | None = Field(default=None, description="how far the middle came down", examples=["0.14 in"])
    supports_sank: Length | None = Field(
        default=None, description="mean of how far both supports came down meanwhile; both are watched"
    )
    sag_off: Length = Field(
        default=1 / 32, description="how much the difference of the readings may be wrong, either way"
    )
    came_back: bool | None = Field(default=None, description="the sag went back when the weight was taken off")

    def faults(self) -> Iterator[Fault]:
        """A weight, supports that were watched, and a result larger than its error."""
        if self.weight <= 0.0:
            yield ("weight",), "nothing was put on: give the weight"
        if self.weight_off >= self.weight > 0.0:
            yield ("weight_off",), "the weight may be wrong by all of it: weigh it"
        if self.sag is None:
            return
        if self.supports_sank is None:
            text = "missing: both supports have to be watched, or their sinking counts as bending"
            yield ("supports_sank",), f'{text}; where they stood still write supports_sank = "0 in"'
        elif self.sag - self.supports_sank <= self.sag_off:
            net = self.sag - self.supports_sank
            text = f"the beam itself bent {inches(net)} and that may be wrong by {inches(self.sag_off)}"
            yield ("sag",), f"{text}: put more weight on, or read finer; it says nothing so"


class Weighing(Piece):
    """The timber, or an offcut of it, on a scale.

    Without `weight` it is planned: the sheet then says what each result would be worth.
    """

    weight: Force | None = Field(default=None, description="as read", examples=["128 lb"])
    weight_off: Force = Field(default=0.0, description="how much that may be wrong, either way")
    length: PositiveLength = Field(description="of what was weighed", examples=["10 ft"])
    breadth: PositiveLength | None = Field(default=None, description="of what was weighed, where it is an offcut")
    depth: PositiveLength | None = Field(default=None, description="of what was weighed, where it is an offcut")
    tape_off: Length = Field(default=1 / 16, description="how much each side may be wrong, either way")
    moisture: Moisture = Field(description="of the wood when it was weighed", examples=["13 %"])

    def faults(self) -> Iterator[Fault]:
        """A weight that is larger than its error, of wood at a moisture that was read."""
        if self.weight is not None and (self.weight <= 0.0 or self.weight_off >= self.weight):
            yield ("weight",), "the weight is no larger than its error: it says nothing so"
        if self.moisture > 30.0:
            yield ("moisture",), "over 30 % the weight is mostly water: weigh it once it is drier"


class Survey(Piece):
    """What was found on one old timber."""

    by: Answer = Field(default="", description="who looked, and when", examples=["carpenter, 3 May 2025"])
    length: PositiveLength = Field(description="of the timber", examples=["14 ft"])
    species_by: Literal["laboratory sample", "look", "hearsay"] | None = Field(
        default=None, description="how the species, or the candidates, are known"
    )
    stations: tuple[Station, ...] = Field(default=(), max_length=50, description="sections at three places or more")
    meter: Literal["pins", "plate"] | None = Field(default=None, description="the kind of moisture meter")
    readings: tuple[Reading, ...] = Field(default=(), max_length=100, description="of the moisture meter")
    grain: tuple[Grain, ...] | None = Field(default=None, max_length=20, description="slope of grain, two faces")
    knots: tuple[Knot, ...] | None = Field(default=None, max_length=200, description="the worst ones; none: []")
    openings: tuple[Opening, ...] | None = Field(
        default=None, max_length=200, description="checks, shakes and splits; none: []"
    )
    heart_checks: Literal["no", "to an end or the tension face"] | None = Field(
        default=None, description="checks from a boxed heart that reach an end or the tension face"
    )
    losses: tuple[Loss, ...] | None = Field(
        default=None, max_length=200, description="wane, hewing, decay, insects, char; none: []"
    )
    cuts: tuple[Cut, ...] | None = Field(
        default=None, max_length=200, description="every old mortise, notch and hole; none: []"
    )
    decay: Literal["none", "dull, soft or short break", "rot"] | None = Field(
        default=None, description="by pick and hammer, at ends, under leaks, in masonry"
    )
    insects: Literal["none", "old holes", "active"] | None = Field(default=None, description="holes, fresh dust")
    metal: Literal["none", "sound", "loose or corroded"] | None = Field(
        default=None, description="bolts, straps, nails, by a magnet or detector"
    )
    crushed: Length | None = Field(default=None, description="how far a seat is pressed in; none: 0 in")
    fire: Literal["none", "smoke only", "char"] | None = Field(default=None, description="signs of a fire")
    chemicals: Literal["none", "seen"] | None = Field(default=None, description="white fuzz, salt, acid, odor")
    overload: Literal["none", "seen"] | None = Field(
        default=None, description="wrinkles on the pressed side, splinters below, crushed seats"
    )
    sag: Length | None = Field(default=None, description="how far the middle hangs below a line between the ends")
    use: Literal["as before", "more load, a new cut, or a support gone"] | None = Field(
        default=None, description="what is meant to change"
    )
    not_seen: tuple[Face | Literal["left end", "right end"], ...] | None = Field(
        default=None, max_length=6, description="what nobody could look at; all seen: []"
    )
    photographs: tuple[Words, ...] = Field(default=(), max_length=100, description="four faces, both ends, each defect")
    rejected: Answer = Field(default="", description="a grader's or engineer's written no, with its date and number")
    sag_test: SagTest | None = Field(default=None, description="a known weight in the middle")
    weighing: Weighing | None = Field(default=None, description="the timber on a scale")

    def faults(self) -> Iterator[Fault]:
        """All places lie on the timber, and stations are three."""
        if self.stations and len(self.stations) < STATIONS:
            text = f"{len(self.stations)} only: measure both sides at both ends and in the middle"
            yield ("stations",), f"{text}, for example three entries at 1 ft, 7 ft and 13 ft"
        elif self.stations and not self._spread():
            text = "all of them lie near one place: measure at both ends and in the middle"
            yield ("stations",), f"{text}, one in each third of {feet(self.length)}"
        for path, place in self._places():
            if place > self.length + SAME_PLACE:
                yield path, f"{feet(place)} is beyond the end: the timber is {feet(self.length)} long"
        if self.readings and self.meter is None:
            yield ("meter",), 'missing: which kind of meter read that? meter = "pins" or "plate"'

    def _spread(self) -> bool:
        """Whether a section was measured in each third of the length."""
        thirds = {min(int(STATIONS * station.at / self.length), STATIONS - 1) for station in self.stations}
        return len(thirds) == STATIONS

    def _places(self) -> Iterator[tuple[Path, float]]:
        for i, station in enumerate(self.stations):
            yield ("stations", i, "at"), station.at
        for i, reading in enumerate(self.readings):
            yield ("readings", i, "at"), reading.at
        for i, knot in enumerate(self.knots or ()):
            yield ("knots", i, "at"), knot.at
        for i, opening in enumerate(self.openings or ()):
            yield ("openings", i, "end"), opening.end
        for i, loss in enumerate(self.losses or ()):
            yield ("losses", i, "end"), loss.end
        for i, cut in enumerate(self.cuts or ()):
            yield ("cuts", i, "at"), cut.at


def mean_sides(survey: Survey, b: float, d: float) -> tuple[float, float]:
    """The mean section of the stations, for stiffness and weight; without any the size."""
    stations = survey.stations
    if not stations:
        return b, d
    return sum(s.breadth for s in stations) / len(stations), sum(s.depth for s in stations) / len(stations)


def too_large(survey: Survey, b: float, d: float) -> Iterator[Fault]:
    """Defects that are larger than the wood they are in; paths within the survey."""
    for i, knot in enumerate(survey.knots or ()):
        face = b if knot.face in ("top", "bottom") else d
        if knot.width > face:
            text = f"a knot of {inches(knot.width)} does not fit on a face of {inches(face)}"
            yield ("knots", i, "width"), f"{text}: measure it across the face, between lines along the edges"
    for i, opening in enumerate(survey.openings or ()):
        if (opening.depth or 0.0) + opening.other_side > max(b, d):
            text = f"{inches((opening.depth or 0.0) + opening.other_side)} deep in all, and the timber is"
            yield ("openings", i, "depth"), f'{text} {inches(max(b, d))} thick: a check right through is kind = "split"'
    for i, loss in enumerate(survey.losses or ()):
        side = b if loss.where in ("left", "right") else d if " " not in loss.where else min(b, d)
        if loss.depth >= side:
            text = f"{inches(loss.depth)} deep from the {loss.where}: nothing is left of {inches(side)}"
            yield ("losses", i, "depth"), text
    for i, station in enumerate(survey.stations):
        for name, measured, side in (("breadth", station.breadth, b), ("depth", station.depth, d)):
            if measured < 0.5 * side or measured > 1.5 * side:
                text = f"{inches(measured)} here, and the size of the stock says {inches(side)}"
                yield ("stations", i, name), f"{text}: one of the two is a slip"
    for i, reading in enumerate(survey.readings):
        if reading.deep is not None and reading.deep > min(b, d):
            text = f"pins {inches(reading.deep)} deep in a timber {inches(min(b, d))} thick"
            yield ("readings", i, "deep"), f"{text}: a quarter of the thickness is usual"
    yield from _no_wood(survey, b, d)
    test = survey.sag_test
    if test is not None and test.span > survey.length + SAME_PLACE:
        yield ("sag_test", "span"), f"a span of {feet(test.span)} in a timber {feet(survey.length)} long"


def _no_wood(survey: Survey, b: float, d: float) -> Iterator[Fault]:
    """Tests whose result no wood can give: a slip of the scale, the tape or the dial."""
    scale, test = survey.weighing, survey.sag_test
    if scale is None and test is None:
        return  # what a job does not have is not loaded
    from ...formulas.survey.site_tests import density_from_weight, gravity_from_density, modulus_from_sag
    from ...values.judgment import judgment

    if scale is not None:
        for name, side in (("breadth", b), ("depth", d)):
            measured = getattr(scale, name)
            if measured is not None and measured > 1.5 * side:
                text = f"{inches(measured)}, and the size of the stock says {inches(side)}"
                yield ("weighing", name), f"{text}: an offcut is no larger than its timber"
    b, d = mean_sides(survey, b, d)
    if scale is not None and scale.weight is not None and 0.0 <= scale.weight_off < scale.weight:
        sides, off = (scale.breadth or b, scale.depth or d), scale.tape_off
        try:
            for weight, more in ((scale.weight - scale.weight_off, off), (scale.weight + scale.weight_off, -off)):
                rho = density_from_weight(P=weight, b=sides[0] + more, d=sides[1] + more, L=scale.length)
                gravity_from_density(rho=rho, MC=scale.moisture)
        except BeamcheckError:
            rho = scale.weight / (sides[0] * sides[1] * scale.length) * 1728.0
            text = f"{rho:.3g} lb to the cubic foot, with the errors of tape and scale, is no wood"
            yield ("weighing", "weight"), f"{text}: see weight, length, sides and moisture again"
    if test is None or test.sag is None or test.supports_sank is None or test.sag <= test.supports_sank:
        return
    net, most = test.sag - test.supports_sank, judgment("stiffest wood").value
    E = float(modulus_from_sag(P=max(test.weight, 1e-9), L=test.span, I=b * d**3 / 12.0, d=d, Delta=net))
    if most < E:
        text = f"a sag of {net:.3g} in under {test.weight:,.0f} lb would be E = {E / 1e6:.2g} million psi"
        yield ("sag_test", "sag"), f"{text}, and no wood has over {most / 1e6:.2g}: see weight, span and reading again"
