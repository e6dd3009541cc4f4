"""How answers are known: what was found out and by whom, and what an engineer or a department ruled in writing.

The value of an answer stands in its field; its `[[answer]]` says who found it out, when and how. A `[[ruling]]` answers
what no field takes. Both hold only as long as their ground does: whether that has changed is for the checks.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field, StringConstraints

from .fields.base import Name, Piece, Words
from .fields.evidence import DOUBT, NOBODY
from .fields.places import Fault
from .fields.quantities import Force

How = Literal["tape", "meter", "camera", "stamp", "certificate", "report", "letter"]


def _day(value: Any) -> Any:
    """A date as text; TOML has dates of its own."""
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value.isoformat()
    if isinstance(value, str):
        try:
            return datetime.date.fromisoformat(value.strip()).isoformat()
        except ValueError:
            raise ValueError("a date is year-month-day, such as 2026-03-02") from None
    return value


def _somebody(value: str) -> str:
    """A name or a role."""
    if sum(map(str.isalpha, value)) < 2 or re.fullmatch(NOBODY, value) or DOUBT.search(value):
        raise ValueError(f"{value!r} is nobody: a name or a role is asked for, such as the grader")
    return value


def _said(value: Any) -> Any:
    """What was found out; a guess is no answer."""
    if isinstance(value, str) and (not value.strip() or DOUBT.search(value)):
        raise ValueError(f"{value!r} is no answer: leave the entry out until it is known")
    return value


Day = Annotated[str, BeforeValidator(_day)]
Key = Annotated[str, StringConstraints(min_length=1, max_length=400, pattern=r"^[^\s].*[^\s]$|^[^\s]$")]  # names in it
Somebody = Annotated[Name, AfterValidator(_somebody)]


class GivenAnswer(Piece):
    """One answer: which field it went into, what was found, and how that is known."""

    to: Key = Field(description="the field that it answers", examples=["bracket.K1.near.gap"])
    value: Annotated[str | bool | int | float, BeforeValidator(_said)] = Field(
        description="what was found, as it stands in that field", examples=["3/8 in"]
    )
    by: Somebody = Field(description="who found it out: a name or a role", examples=["the carpenter"])
    how: How = Field(description="how it is known", examples=["tape"])
    date: Day = Field(description="when, year-month-day", examples=["2026-03-02"])
    evidence: Words = Field(default="", description="photo or paper", examples=["photos/K1-gap-1.jpg"])

    @property
    def words(self) -> str:
        """How it is known, for people."""
        more = f" ({self.evidence})" if self.evidence else ""
        return f"{self.value}, {self.how}, {self.by}, {self.date}{more}"


class Ruling(Piece):
    """What an engineer or a building department answered in writing to what is not worked out here."""

    on: Name = Field(description="the piece", examples=["R1"])
    question: Key = Field(description="the short name of the question", examples=["ridge"])
    says: Annotated[str, StringConstraints(min_length=3, max_length=5000), BeforeValidator(_said)] = Field(
        description="what was ruled", examples=["detail S-4"]
    )
    up_to: dict[str, Force] = Field(
        default_factory=dict, description="the forces that it covers, by part", examples=[{"press": "450 lb"}]
    )
    by: Somebody = Field(description="name and license of the engineer, or the department", examples=["name, license"])
    date: Day = Field(description="when, year-month-day", examples=["2026-03-09"])
    document: Annotated[str, StringConstraints(min_length=3, max_length=2000)] = Field(
        description="where it is written", examples=["letters/R1-ridge.pdf"]
    )
    piece: Words = Field(
        default="",
        description="mark of the piece as it was ruled on; when the piece is changed the question opens again",
    )

    @property
    def answers(self) -> str:
        """The id of the question that it closes."""
        return f"{self.on}/{self.question}"

    @property
    def words(self) -> str:
        """The ruling in a line, for people."""
        return f"{self.says} ({self.by}, {self.date}, {self.document})"

    def faults(self) -> Iterator[Fault]:
        """A force that is covered is more than nothing."""
        for part, force in self.up_to.items():
            if force <= 0.0:
                yield ("up_to", part), "a ruling covers a force above zero"
