"""What sort of control a field of the job file wants, read off its class in the model."""

from __future__ import annotations

from functools import lru_cache
from typing import Annotated, Any, Literal, get_args, get_origin

from pydantic import WithJsonSchema
from pydantic.fields import FieldInfo

from ...model.fields.base import Piece, annotations_within
from ...records import dataclass

Control = Literal["text", "number", "yes-no", "choice", "quantity", "names", "reasons", "one", "many", "either"]
_WITH_UNIT = " with its unit"
UNITS = {
    "length": ("in", "ft"), "load": ("psf", "plf", "lb"), "force": ("lb",), "stress": ("psi",), "moisture": ("%",),
    "temperature": ("F",), "density": ("pcf",), "line load": ("plf",), "slope": (), "angle": ("deg",),
}  # fmt: skip


@dataclass(frozen=True)
class Kind:
    """The control; of a quantity which, of a choice its words, of tables their classes."""

    control: Control
    quantity: str = ""
    words: tuple[str, ...] = ()
    classes: tuple[type[Piece], ...] = ()
    example: str = ""


def kind_of(info: FieldInfo) -> Kind:
    """What a field wants."""
    return _kind(_Key(info))


class _Key:
    """A field of a class is always the same object: it is known by that."""

    def __init__(self, info: FieldInfo) -> None:
        self.info = info

    def __hash__(self) -> int:
        return id(self.info)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Key) and other.info is self.info


@lru_cache(maxsize=2048)
def _kind(key: _Key) -> Kind:
    info = key.info
    annotation: Any = info.annotation
    parts = annotations_within(annotation)
    classes = tuple(dict.fromkeys(one for one in parts if isinstance(one, type) and issubclass(one, Piece)))
    example = str(info.examples[0]) if info.examples and isinstance(info.examples[0], (str, int, float)) else ""
    if classes:
        if len(classes) > 1:
            return Kind("either", classes=classes)
        return Kind("many" if tuple in (get_origin(part) for part in parts) else "one", classes=classes)
    if dict in (get_origin(part) for part in parts):
        return Kind("reasons")
    quantity = next(filter(None, map(_quantity, (*info.metadata, *_metadata(parts)))), "")
    words = tuple(
        str(word) for part in parts if get_origin(part) is Literal for word in get_args(part) if isinstance(word, str)
    )
    if quantity:
        return Kind("quantity", quantity, words, example=example)
    if any(_is_text(one) for one in (*info.metadata, *_metadata(parts))):
        return Kind("text", example=example)
    if tuple in (get_origin(part) for part in parts):
        return Kind("names", words=words, example=example)
    if words:
        return Kind("choice", words=words)
    if bool in parts:
        return Kind("yes-no")
    if (int in parts or float in parts) and str not in parts:
        return Kind("number", example=example)
    return Kind("text", example=example)


def _metadata(parts: list[Any]) -> list[Any]:
    return [one for part in parts if get_origin(part) is Annotated for one in get_args(part)[1:]]


def _is_text(part: Any) -> bool:
    """Of a field that is no text inside but is written as one, such as a spot in the plan."""
    return isinstance(part, WithJsonSchema) and (part.json_schema or {}).get("type") == "string"


def _quantity(part: Any) -> str:
    if isinstance(part, WithJsonSchema) and part.json_schema:
        said = str(part.json_schema.get("description", ""))
        return said.removesuffix(_WITH_UNIT) if said.endswith(_WITH_UNIT) else ""
    return ""
