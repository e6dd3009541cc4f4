"""What every table of a job file has in common."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from functools import cache
from typing import TYPE_CHECKING, Annotated, Any, ClassVar, Self, get_args

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    StringConstraints,
    ValidationError,
    WithJsonSchema,
    model_validator,
)
from pydantic.fields import FieldInfo

from ...errors import JobError, Problem, nearest
from .bounds import BOUNDS
from .evidence import LETTERS, PARTS, as_words
from .lookalikes import told_apart
from .places import Fault, place, plain
from .wording import PieceFaults, problems_of

_UNSEEN = ("Cc", "Cf", "Co", "Cs", "Zl", "Zp")  # control, direction and private characters, odd line breaks
_HARMLESS = "\n\r\t\u00ad\u200c\u200d"


def _seen(text: str) -> str:
    """Refuses characters that are not seen, or that turn what follows round: nobody can check such words."""
    for char in text:
        if unicodedata.category(char) in _UNSEEN and char not in _HARMLESS:
            what = f"it holds a character that is not seen (U+{ord(char):04X})"
            raise ValueError(f"{what}: delete it and type the words anew")
    return text


Words = Annotated[str, StringConstraints(max_length=5000), AfterValidator(_seen)]
Name = Annotated[
    str,
    StringConstraints(min_length=1, max_length=80, pattern=r"^[^\s].*[^\s]$|^[^\s]$"),
    AfterValidator(_seen),
    AfterValidator(told_apart),
]
_EMPTY = re.compile(
    r"\W*|(?:none|nothing|nobody\b.*+|no one\b.*+|no|not? (?:yet|known|sure|given|there)\b.*+|unknown|unclear|unsure"
    r"|tb[acd]|to be .*+|n\W?a|later|maybe\b.*+|ask .*+|(?:i )?do(?:n\W?t| not) know\b.*+|(?:a|my) guess\b.*+"
    r"|pending\b.*+|x+)\W*",
    re.IGNORECASE,
)


def _meant(text: str) -> str:
    """'' for words that only fill the place of an answer ('none', 'not yet', '?'): they are no evidence."""
    return "" if _EMPTY.fullmatch(text.strip()) or sum(map(str.isalnum, text)) < 3 else text


# Words that count as evidence: a filler counts as nothing said. What they say is read in evidence.py.
Answer = Annotated[
    Words,
    AfterValidator(_meant),
    BeforeValidator(as_words),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "string", "maxLength": 5000},
                {"type": "object", "properties": {part: {"type": "string"} for part in PARTS}, "minProperties": 1,
                 "additionalProperties": False},
            ]
        },
        mode="validation",
    ),
]  # fmt: skip


if TYPE_CHECKING:

    class _Kind(type):
        def __hash__(cls) -> int: ...

    class _Model(metaclass=_Kind):
        """What a type checker knows of a table: its fields have the types that they are read as, and are given as text.

        A checker that takes the fields for the arguments would refuse `at="12 ft"`, since what is read is a float.
        """

        model_config: ClassVar[ConfigDict]
        model_fields: ClassVar[dict[str, FieldInfo]]

        def __init__(self, **given: Any) -> None: ...
        @classmethod
        def model_validate(cls, obj: Any) -> Self: ...
        @classmethod
        def model_construct(cls, _fields_set: set[str] | None = None, **values: Any) -> Self: ...
        @classmethod
        def model_json_schema(cls, **how: Any) -> dict[str, Any]: ...
        def model_copy(self, *, update: Mapping[str, Any] | None = None) -> Self: ...
        def model_dump(self, **how: Any) -> dict[str, Any]: ...
        def model_dump_json(self, **how: Any) -> str: ...
        @property
        def model_fields_set(self) -> set[str]: ...

else:

    class _InOurWords(type(BaseModel)):
        """Bad arguments of a class are told in our own words. Reading a whole job does not come along here."""

        def __call__(cls, *args, **given):
            """Make a piece."""
            try:
                return super().__call__(*args, **given)
            except ValidationError as error:
                faults = problems_of(error.errors(include_url=False), given, cls)
            called = given.get("name")
            source = f'{cls.__name__} "{plain(called)}"' if isinstance(called, str) else cls.__name__
            raise JobError(source, [Problem(place(path, given), text) for path, text in faults])

    class _Model(BaseModel, metaclass=_InOurWords):
        """A pydantic model whose errors are told in our own words."""


class Piece(_Model):
    """Common rules: unknown fields are errors, text is never taken for a number."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, populate_by_name=True, defer_build=True)

    @model_validator(mode="before")
    @classmethod
    def _lists_are_tuples(cls, data: Any) -> Any:
        """Strict reading wants tuples; TOML and people write lists."""
        if not isinstance(data, dict):
            return data
        return {key: tuple(value) if isinstance(value, list) else value for key, value in data.items()}

    @model_validator(mode="after")
    def _fits_together(self) -> Self:
        if found := tuple(self.all_faults()):
            raise PieceFaults(found)
        return self

    def faults(self) -> Iterator[Fault]:
        """What does not go together in the fields of this class: path within it, and a sentence.

        A class that has something to say overrides it; what its bases say is asked of them apart.
        """
        yield from ()

    def all_faults(self) -> Iterator[Fault]:
        """Out of bounds, and what each class says of its fields, the bases first."""
        for cls in reversed(type(self).__mro__):
            for field, bound in BOUNDS.get(cls.__name__, {}).items():
                value = getattr(self, field)
                if isinstance(value, float) and not bound.admits(value):
                    yield (type(self).model_fields[field].alias or field,), bound.text(value)
            if issubclass(cls, Piece) and "faults" in vars(cls):
                yield from cls.faults(self)


class Insisting(Piece):
    """A table of a job that may say of an odd figure that it is meant."""

    meant: dict[str, Words] = Field(
        default_factory=dict,
        description="why an odd figure is right all the same, by its field",
        examples=[{"at": "niche, 13 in wide"}],
    )

    def faults(self) -> Iterator[Fault]:
        """A reason in words, for a field that there is."""
        known = field_names(type(self)) if self.meant else frozenset()
        for field, reason in self.meant.items():
            if field not in known:
                yield ("meant", field), f"there is no such field here; {nearest(field, sorted(known))}"
            elif sum(map(str.isalpha, reason)) < LETTERS:
                text = f"say why in at least {LETTERS} letters; it is printed with the piece"
                yield ("meant", field), f'{text}, for example "niche, 13 in wide"'

    def insists_on(self, field: str) -> bool:
        """Whether it is said why this figure is right though it looks like a slip."""
        return field in self.meant


@cache
def field_names(model: type[Piece]) -> frozenset[str]:
    """The words that a job file uses for the fields of a class, and of the tables within it."""
    found: set[str] = set()
    for name, info in model.model_fields.items():
        found.add(info.alias or name)
        for part in annotations_within(info.annotation):
            if isinstance(part, type) and issubclass(part, Piece):
                found |= field_names(part)
    return frozenset(found)


def annotations_within(annotation: Any) -> list[Any]:
    """An annotation and all that it is made of."""
    return [annotation, *(part for inner in get_args(annotation) for part in annotations_within(inner))]
