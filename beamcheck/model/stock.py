"""A kind of stick: what the wood is, how that is known, and design values by letter."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, StringConstraints, model_validator

from ..errors import BeamcheckError
from ..units import read
from ..values.lumber import read_size
from .conditions.survey import Survey, too_large
from .fields.base import Answer, Insisting, Name, Piece, Words
from .fields.places import Fault
from .fields.quantities import Density, Moisture, Stress, Temperature
from .fields.seldom import Seldom
from .made.report import MakersReport
from .made.shapes import SteelShape

Evidence = Literal["stamp", "certificate", "engineer", "assumed"]
LARGEST_SHARE = 0.55  # E_min of E: 0.51 for machine-stress-rated lumber, COV 0.11 (NDS 2018 Appendix D, memory)


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

    def faults(self) -> Iterator[Fault]:
        """Two moduli that fit together."""
        if self.E_min >= self.E:
            yield ("E_min",), "E_min (for stability) is always less than E (the mean): are the two exchanged?"
        elif self.E_min > LARGEST_SHARE * self.E:
            text = "E_min (for stability) is about 0.37 of E for sawn lumber graded by eye, and never over 0.55"
            yield ("E_min",), f"{text} (NDS 2018 Appendix D); here it is {self.E_min / self.E:.2f} of E"


def steel_says(shape: Any) -> dict[str, str]:
    """The size that the name or the measures of a shape give, as text; nothing where they cannot be read."""
    given = shape if isinstance(shape, Mapping) else getattr(shape, "__dict__", {})
    try:
        if isinstance(name := given.get("shape"), str):
            from ..values.hardware.sections import w_shape

            found = w_shape(name)
            return {"size": f"{found.b_f:g} in x {found.d:g} in"}
        broad, deep = (read(given[field], "length") for field in ("flange_width", "depth"))
    except (BeamcheckError, KeyError, TypeError):
        return {"size": "1.5 in x 1.5 in"}  # what is wrong with the shape is told beside it
    return {"size": f"{broad} in x {deep} in"}


class Stock(Insisting):
    """A kind of stick: what the wood is and how that is known."""

    name: Name = Field(description="what this kind of stick is called in the job", examples=["old beam"])
    made: Literal["sawn", "glulam", "composite", "steel"] = Field(
        default="sawn",
        description="sawn; glulam: glued laminated, layup as grade; composite: LVL, PSL or LSL by its report; steel",
    )
    steel: Seldom[SteelShape] | None = Field(
        default=None, description="the shape of a steel beam; its grade is the stock's"
    )
    report: Seldom[MakersReport] | None = Field(default=None, description="the maker's report of composite lumber")
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
    values: Seldom[GivenValues] | None = Field(
        default=None, description="design values by letter, in place of the tables"
    )
    graded_over: Literal["middle third", "whole length"] = Field(
        default="middle third", description="what the grade of a beam or stringer covers (NDS 4.2.5.5)"
    )
    graded_as: Literal["beams and stringers", "posts and timbers"] | None = Field(
        default=None,
        description="the class that the certificate of a timber names; by default its size decides (NDS 4.1.3)",
    )
    incised: bool = Field(default=False, description="cut with small slits for preservative")
    treated: bool = Field(default=False, description="treated with preservative or fire retardant")
    treated_with: Literal["preservative", "fire retardant"] | None = Field(
        default=None, description="what treated wood was treated with, as its end tag says"
    )
    temperature: Temperature = Field(default=100.0, description="highest sustained temperature in service")
    density: Density | None = Field(
        default=None, description="weight as weighed; otherwise from specific gravity and moisture"
    )
    measured_moisture: Moisture | None = Field(default=None, description="moisture content as metered")

    survey: Seldom[Survey] | None = Field(
        default=None, description="what was found on it: the stock is then this one timber, of one piece of the job"
    )

    assumed: tuple[Literal["moisture"], ...] = Field(
        default=(), max_length=1, description="nobody has said it and the safe side is written: asked where it decides"
    )

    @property
    def metered(self) -> float | None:
        """The wettest reading, percent; None where none was taken."""
        found = [] if self.survey is None else [reading.moisture for reading in self.survey.readings]
        found += [] if self.measured_moisture is None else [self.measured_moisture]
        return max(found, default=None)

    @model_validator(mode="before")
    @classmethod
    def _steel_says_the_rest(cls, data: Any) -> Any:
        """Of steel its shape gives the size; it has no species and no moisture."""
        if not isinstance(data, Mapping) or data.get("made") != "steel":
            return data
        return {**steel_says(data.get("steel")), "species": "steel", "moisture": "dry", **data}

    def faults(self) -> Iterator[Fault]:
        """A grade says who vouches for it."""
        yield from self._of_the_survey()
        yield from self._of_its_make()
        if self.assumed and self.moisture == "dry":
            text = 'dry is not the safe side: what nobody has said is entered as "green", or leave assumed out'
            yield ("assumed",), text
        if self.species != "unknown" and self.candidates:
            yield ("candidates",), 'only for species = "unknown"; leave them out when the species is known'
        if self.treated_with is not None and not self.treated:
            text = "treated_with says what it was treated with: write treated = true beside it, or leave it out"
            yield ("treated",), text
        if self.values is not None:
            return  # the letter that gives the values is the evidence
        if self.grade == "unstamped":
            if self.grade_from in ("stamp", "certificate", "engineer"):
                yield (
                    ("grade_from",),
                    f"the grade is unstamped, so no {self.grade_from} can vouch for it: write the grade",
                )
        elif self.grade_from is None:
            text = 'missing: who says that it is that grade; for example grade_from = "stamp"'
            yield ("grade_from",), f'{text} (allowed are "stamp", "certificate", "engineer" and "assumed")'

    def _of_its_make(self) -> Iterator[Fault]:
        if self.steel is not None and self.made != "steel":
            yield ("steel",), 'a shape is for steel: write made = "steel", or leave it out'
        if self.made == "steel" and self.steel is None:
            yield ("steel",), 'missing: the shape, for example steel = { shape = "W8x18" }'
        if self.made == "sawn":
            if self.report is not None:
                yield (
                    ("report",),
                    'a maker\'s report is for composite lumber: write made = "composite", or leave it out',
                )
            return
        for field in ("values", "survey", "graded_as"):
            if getattr(self, field) is not None:
                yield (field,), f'{field} is for sawn wood: leave it out, or write made = "sawn"'
        if self.made == "composite" and self.report is None:
            text = "missing: of composite lumber only the report of its maker has values"
            yield ("report",), f'{text}; for example report = {{ number = "...", edition = "...", F_b = "2600 psi" }}'
        if self.made in ("glulam", "steel") and self.report is not None:
            yield ("report",), "a maker's report is for composite lumber: leave it out"

    def _of_the_survey(self) -> Iterator[Fault]:
        if self.survey is None:
            return
        try:
            size = read_size(self.size)
        except BeamcheckError:
            return  # told where sizes are looked at
        if size.surface == "round":
            yield ("survey",), "a survey is of sawn or hewn timber with flat sides; a round one is for an engineer"
            return
        for path, text in too_large(self.survey, size.b, size.d):
            yield ("survey", *path), text
