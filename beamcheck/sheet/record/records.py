"""Records as JSON and as JSON Schema, from their own types: dataclasses and named tuples, a unit beside each number.

What a field is measured in stands in its type (`units/marks.py`). A number becomes `{"value": ..., "unit": ...}`, a
tuple of numbers one unit with its values; what is no finite number is null with a text that says what it is.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable, Mapping
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from ...calc.core import Formula
from ...checks.core.pictures.assembled import AssemblyPicture
from ...checks.core.pictures.others import HoleDrawing, Picture
from ...units import KINDS
from ...units.marks import In, InUnitOf, Named
from ...values.loader import rows

Json = Any
# pictures that the records of a result name without loading them
_DRAWN = {"AssemblyPicture": AssemblyPicture, "HoleDrawing": HoleDrawing, "Picture": Picture}
_NUMBER = {"$ref": "#/$defs/Number"}
NUMBERS: Mapping[str, Json] = {
    "Number": {
        "description": "A number and its unit ('' for a pure one); null with a text where it has no finite value.",
        "type": "object", "additionalProperties": False, "required": ["value", "unit"],
        "properties": {
            "value": {"type": ["number", "null"]}, "unit": {"type": "string"},
            "text": {"enum": ["infinite", "minus infinite", "not a number"]},
        },
    },
    "Column": {
        "description": "Numbers of one unit; null where there is none.",
        "type": "object", "additionalProperties": False, "required": ["unit", "values"],
        "properties": {
            "unit": {"type": "string"}, "values": {"type": "array", "items": {"type": ["number", "null"]}},
        },
    },
}  # fmt: skip


def number(value: float, unit: str) -> Json:
    """A number with its unit."""
    if math.isfinite(value):
        return {"value": float(value), "unit": unit}
    text = "not a number" if math.isnan(value) else "infinite" if value > 0 else "minus infinite"
    return {"value": None, "unit": unit, "text": text}


def record(one: Any) -> dict[str, Json]:
    """A dataclass or named tuple as JSON."""
    return _record(one, type(one))


def record_schema(cls: type, definitions: dict[str, Json]) -> Json:
    """The schema of a class; the schemas of what it holds are added to `definitions`."""
    return _schema(cls, (), definitions)


@cache
def _fields(cls: type) -> tuple[tuple[str, str, Any], ...]:
    """Name in Python, name in JSON and type of each field, and of the properties that the class lists in `also`."""
    hints = get_type_hints(cls, localns=_DRAWN, include_extras=True)
    if dataclasses.is_dataclass(cls):
        names = [field.name for field in dataclasses.fields(cls)]
    else:
        names = list(cls._fields)  # type: ignore[attr-defined]
    found = [(name, hints[name]) for name in names]
    for name in getattr(cls, "also", ()):
        found.append((name, get_type_hints(getattr(cls, name).fget, include_extras=True)["return"]))
    return tuple((name, _json_name(name, hint), hint) for name, hint in found)


def _json_name(name: str, hint: Any) -> str:
    marks = get_args(hint)[1:] if get_origin(hint) is Annotated else ()
    return next((mark.name for mark in marks if isinstance(mark, Named)), name)


def _record(one: Any, cls: type) -> dict[str, Json]:
    if not isinstance(one, cls):  # a plain tuple in the place of a named one
        one = cls(*one)
    return {written: _value(getattr(one, name), hint, (), one) for name, written, hint in _fields(cls)}


def _value(value: Any, hint: Any, marks: tuple[Any, ...], owner: Any) -> Json:
    if value is None:
        return None
    origin, parts, is_record = _taken_apart(hint)
    if origin is Annotated:
        return _value(value, parts[0], (*marks, *parts[1:]), owner)
    if origin in (Union, UnionType):
        some = [part for part in parts if part is not NoneType]
        fitting = some[0] if len(some) == 1 else type(value)
        return _value(value, fitting, marks, owner)
    if hint is Any:  # a value as a job file writes it
        return _as_written(value)
    if hint is float:
        return number(value, _unit(marks, owner))
    if hint is Formula:
        return value.name
    if is_record:
        return _record(value, hint)
    if origin is tuple:
        return _tuple(value, parts, marks, owner)
    if isinstance(value, Mapping):
        units = {name: _unit(marks, owner) for name in value} if marks and isinstance(marks[0], In) else {}
        return [
            {"symbol": name, "given": number(given, units.get(name, unit_of(name)))} for name, given in value.items()
        ]
    return value


@cache
def _taken_apart(hint: Any) -> tuple[Any, tuple[Any, ...], bool]:
    """What a type is of, its parts, and whether it is a record."""
    return get_origin(hint), get_args(hint), _is_record(hint)


def _tuple(value: Any, parts: tuple[Any, ...], marks: tuple[Any, ...], owner: Any) -> Json:
    if any(isinstance(mark, In) for mark in marks):
        unit = _unit(marks, owner)
        if parts[0] is float:
            return _column(value, unit)
        return {axis: _column([point[i] for point in value], unit) for i, axis in enumerate("xy")}
    if len(parts) == 2 and parts[1] is Ellipsis:
        return [_value(each, parts[0], (), owner) for each in value]
    return [_value(each, part, (), owner) for each, part in zip(value, parts, strict=True)]


def _as_written(value: Any) -> Json:
    if isinstance(value, Mapping):
        return {str(key): _as_written(each) for key, each in value.items()}
    if isinstance(value, (list, tuple)):
        return [_as_written(each) for each in value]
    return value if value is None or isinstance(value, (str, bool, int, float)) else str(value)


def _column(values: Any, unit: str) -> Json:
    finite = math.isfinite
    return {"unit": unit, "values": [float(value) if finite(value) else None for value in values]}


def _unit(marks: tuple[Any, ...], owner: Any) -> str:
    for mark in marks:
        if isinstance(mark, In):
            return mark.unit
        if isinstance(mark, InUnitOf):
            said = str(getattr(owner, mark.field))
            return KINDS[said].inner if mark.kind else said
    raise TypeError(f"a number of {type(owner).__name__} has no unit beside its type")


@cache
def _units_of_symbols() -> Mapping[str, str]:
    return {row["name"]: row["unit"] for row in rows("nomenclature")}


def unit_of(symbol: str) -> str:
    """The unit of a symbol, from tables/nomenclature.csv; '' for one that is not listed."""
    return _units_of_symbols().get(symbol, "")


def _is_record(hint: Any) -> bool:
    return isinstance(hint, type) and (
        dataclasses.is_dataclass(hint) or (issubclass(hint, tuple) and hasattr(hint, "_fields"))
    )


def _schema(hint: Any, marks: tuple[Any, ...], definitions: dict[str, Json]) -> Json:
    origin, parts = get_origin(hint), get_args(hint)
    if origin is Annotated:
        return _schema(parts[0], (*marks, *parts[1:]), definitions)
    if origin in (Union, UnionType):
        return {"anyOf": [_schema(part, marks, definitions) for part in parts]}
    if origin is Literal:
        return {"enum": list(parts)}
    if origin is tuple:
        return _tuple_schema(parts, marks, definitions)
    if _is_record(hint):
        return _record_schema(hint, definitions)
    if origin is Mapping:
        given = {"symbol": {"type": "string"}, "given": _NUMBER}
        return {"type": "array", "items": _closed(given)}
    return _PLAIN.get(hint, dict)()


_PLAIN: Mapping[Any, Callable[[], Json]] = {
    float: lambda: _NUMBER,
    str: lambda: {"type": "string"},
    bool: lambda: {"type": "boolean"},
    int: lambda: {"type": "integer"},
    NoneType: lambda: {"type": "null"},
    Formula: lambda: {"type": "string", "description": "name of the formula"},
}


def _tuple_schema(parts: tuple[Any, ...], marks: tuple[Any, ...], definitions: dict[str, Json]) -> Json:
    if any(isinstance(mark, In) for mark in marks):
        column = {"$ref": "#/$defs/Column"}
        return column if parts[0] is float else _closed({"x": column, "y": column})
    if len(parts) == 2 and parts[1] is Ellipsis:
        return {"type": "array", "items": _schema(parts[0], (), definitions)}
    each = [_schema(part, (), definitions) for part in parts]
    return {"type": "array", "prefixItems": each, "minItems": len(parts), "maxItems": len(parts)}


def _record_schema(cls: type, definitions: dict[str, Json]) -> Json:
    name = cls.__name__
    if name not in definitions:
        definitions[name] = {}  # a class that holds itself finds its own name here
        held = {written: _schema(hint, (), definitions) for _, written, hint in _fields(cls)}
        said = (cls.__doc__ or "").strip()
        told = {} if said.startswith(f"{name}(") else {"description": " ".join(said.split())}
        definitions[name] = {**told, **_closed(held)}
    return {"$ref": f"#/$defs/{name}"}


def _closed(properties: Mapping[str, Json]) -> Json:
    return {"type": "object", "additionalProperties": False, "required": list(properties), "properties": {**properties}}
