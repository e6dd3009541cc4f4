"""What a control sends, as a job file writes it; and which field of the model a path leads to."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from pydantic.fields import FieldInfo

from ...model.classes import KINDS, class_of
from ...model.fields.base import Piece
from ..guard.bodies import Refused
from .kinds import UNITS, Kind, kind_of

_NUMBER = re.compile(r"[-+]?\d[\d.,]*(?: \d+/\d+)?|\d+/\d+")
_SPOKEN = re.compile(r"(\d+)(?: |-|' ?-?)(\d+(?:\.\d+)?(?: \d+/\d+)?)\"?")
_DEEPEST = 6


def value_of(path: str, sent: Any, before: str = "") -> Any:
    """What was sent for a path: '' takes the field out, a table stands for a whole entry.

    `path`: as in `model/job_paths.py`. `before`: what stands there now: a bare number keeps its unit. Raises Refused if
    it is something else.
    """
    if sent is None:
        return None
    classes, info = _leads_to(path)
    if info is not None and kind_of(info).control == "many" and not path.rpartition(".")[2].isdecimal():
        if sent == "none":
            return []  # looked at, and there is none
        if isinstance(sent, dict) and sent and all(key.isdecimal() for key in sent):
            return [_table(classes, sent[key], 0) for key in sorted(sent, key=int) if isinstance(sent[key], dict)]
    if isinstance(sent, str):
        return _written(kind_of(info), sent, before) if info is not None else sent
    if isinstance(sent, dict):
        return _table(classes, sent, 0)
    raise Refused("this is not how the page asks")


def _leads_to(path: str) -> tuple[Sequence[type[Piece]], FieldInfo | None]:
    """The classes that stand at a path, and the field, read from its end: names of entries may hold dots."""
    kind, _, rest = path.partition(".")
    if kind not in KINDS:
        return (), None
    here: Sequence[type[Piece]] = (class_of(kind),)
    parts = rest.split(".") if rest else []
    for start in range(0 if kind == "job" else 1, len(parts)):
        found = _walk(here, parts[start:])
        if found is not None:
            return found
    return here, None


def _walk(classes: Sequence[type[Piece]], keys: Sequence[str]) -> tuple[Sequence[type[Piece]], FieldInfo | None] | None:
    info: FieldInfo | None = None
    for key in keys:
        if key.isdecimal():
            continue
        info = next(
            (one for cls in classes for name, one in cls.model_fields.items() if key in (name, one.alias)), None
        )
        if info is None:
            return None
        classes = kind_of(info).classes
    return classes, info


def _table(classes: Sequence[type[Piece]], sent: Mapping[str, Any], depth: int) -> dict[str, Any]:
    if depth > _DEEPEST or len(sent) > 60:
        raise Refused("this is not how the page asks")
    made: dict[str, Any] = {}
    for key, value in sent.items():
        info = next(
            (one for cls in classes for name, one in cls.model_fields.items() if key in (name, one.alias)), None
        )
        if info is None:
            raise Refused(f"there is no field {key[:40]!r} there")
        kind = kind_of(info)
        if isinstance(value, str):
            if value.strip():
                made[key] = _written(kind, value, "")
        elif isinstance(value, dict):
            made[key] = _table(kind.classes, value, depth + 1)
        elif isinstance(value, list) and len(value) <= 50 and all(isinstance(one, dict) for one in value):
            entries = [_table(kind.classes, one, depth + 1) for one in value]
            made[key] = [one for one in entries if one]
        else:
            raise Refused("this is not how the page asks")
    return {key: value for key, value in made.items() if value not in ([], {})}


def _written(kind: Kind, text: str, before: str) -> Any:
    text = " ".join(text.split())
    if not text:
        return None
    match kind.control:
        case "yes-no" if text in ("yes", "no"):
            return text == "yes"
        case "number":
            return _number(text)
        case "names" if kind.words and text.casefold() == "none":
            return []
        case "names":
            return [part.strip() for part in text.split(",") if part.strip()]
        case "quantity":
            return _with_unit(kind.quantity, text, before)
        case _:
            return text


def _number(text: str) -> Any:
    for reads in (int, float):
        try:
            return reads(text)
        except ValueError:
            continue
    return text


def _with_unit(quantity: str, text: str, before: str) -> str:
    """A bare number keeps the unit that stood there; two numbers are feet and inches, as they are spoken."""
    if quantity == "length" and (spoken := _SPOKEN.fullmatch(text)):
        return f"{spoken[1]} ft {spoken[2]} in"
    if not _NUMBER.fullmatch(text) or not UNITS.get(quantity):
        return text
    unit = next((one for one in UNITS[quantity] if re.search(rf"(?<![A-Za-z]){re.escape(one)}$", before.strip())), "")
    return f"{text} {unit or UNITS[quantity][0]}"
