"""What every table of a job file has in common."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Annotated, Any, Self

from pydantic import AfterValidator, BaseModel, ConfigDict, StringConstraints, model_validator

from .bounds import BOUNDS
from .places import Fault

Name = Annotated[str, StringConstraints(min_length=1, max_length=80, pattern=r"^[^\s].*[^\s]$|^[^\s]$")]
Words = Annotated[str, StringConstraints(max_length=5000)]
_EMPTY = re.compile(
    r"\W*|(?:none|nothing|nobody\b.*|no one\b.*|no|not? (?:yet|known|sure|given|there)\b.*|unknown|unclear|unsure"
    r"|tb[acd]|to be .*|n\W?a|later|maybe\b.*|ask .*|(?:i )?do(?:n\W?t| not) know\b.*|(?:a|my) guess\b.*|pending\b.*"
    r"|x+)\W*",
    re.IGNORECASE,
)


def _meant(text: str) -> str:
    """'' for words that only fill the place of an answer ('none', 'not yet', '?'): they are no evidence."""
    return "" if _EMPTY.fullmatch(text.strip()) or sum(map(str.isalnum, text)) < 3 else text


Answer = Annotated[Words, AfterValidator(_meant)]  # words that count as evidence: a filler counts as nothing said


class PieceFaults(ValueError):
    """What is wrong with one piece: all of it, each fault with its path within the piece."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("; ".join(f"{', '.join(map(str, path))}: {text}" if path else text for path, text in faults))


class Piece(BaseModel):
    """Common rules: unknown fields are errors, text is never taken for a number."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, populate_by_name=True)

    @model_validator(mode="before")
    @classmethod
    def _lists_are_tuples(cls, data: Any) -> Any:
        """Strict reading wants tuples; TOML and people write lists."""
        if not isinstance(data, dict):
            return data
        return {key: tuple(value) if isinstance(value, list) else value for key, value in data.items()}

    @model_validator(mode="after")
    def _fits_together(self) -> Self:
        if found := tuple(self._all_faults()):
            raise PieceFaults(found)
        return self

    def faults(self) -> Iterator[Fault]:
        """What does not go together in the fields of this class: path within it, and a sentence.

        A class that has something to say overrides it; what its bases say is asked of them apart.
        """
        yield from ()

    def _all_faults(self) -> Iterator[Fault]:
        """Out of bounds, and what each class says of its fields, the bases first."""
        for cls in reversed(type(self).__mro__):
            for field, bound in BOUNDS.get(cls.__name__, {}).items():
                value = getattr(self, field)
                if isinstance(value, float) and not bound.admits(value):
                    yield (type(self).model_fields[field].alias or field,), bound.text(value)
            if issubclass(cls, Piece) and "faults" in vars(cls):
                yield from cls.faults(self)
