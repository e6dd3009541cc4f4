"""A carpenter's words for what the validation library finds wrong with a job, or with one class in Python."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from ...errors import nearest
from .places import LONGEST_NAME, Fault, Path, fields

# words people try, and what to say of them: anywhere, among the tables of the job, within a piece that names a stock
OUT_OF_SCOPE = {
    "seismic": "seismic", "earthquake": "seismic", "quake": "seismic", "rain": "rain", "ponding": "rain",
    "flood": "flood", "soil": "earth pressure", "ice": "ice", "blast": "blast", "vibration": "vibration",
}  # fmt: skip
TABLES = {
    "joist": "beam", "header": "beam", "lintel": "beam", "girder": "beam", "purlin": "beam", "column": "post",
    "stud": "post", "collar": "tie", "wall": "existing", "footing": "existing", "foundation": "existing",
    "corbel": "bracket", "knee": "bracket", "gusset": "bracket", "cover": "bracket", "molding": "trim",
    "moulding": "trim", "ornament": "trim",
}  # fmt: skip
Model = type[BaseModel]
OF_STOCK = ("size", "species", "grade", "moisture", "depth", "width")


def shorten(value: Any) -> str:
    """What was given, fit for one line of a message."""
    try:
        shown = value if isinstance(value, str) else repr(value)
    except (ValueError, RecursionError):  # a whole number of more digits than Python writes out, or deep nesting
        return "that"
    shown = shown if len(shown) <= 60 else shown[:57] + "..."
    return repr(shown) if isinstance(value, str) else shown


def as_toml(value: Any) -> str:
    """An example value as one would write it in a job file."""
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {as_toml(item)}" for key, item in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(as_toml(item) for item in value) + "]"
    return json.dumps(value, ensure_ascii=False)


def listed(words: Sequence[str]) -> str:
    """'a', 'b' or 'c'."""
    quoted = [repr(word) for word in words]
    return " or ".join([", ".join(quoted[:-1]), quoted[-1]]) if len(quoted) > 1 else quoted[0]


class PieceFaults(ValueError):
    """What is wrong with one piece: all of it, each fault with its path within the piece."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("; ".join(f"{', '.join(map(str, path))}: {text}" if path else text for path, text in faults))


def _is_job(model: Model) -> bool:
    return "job" in model.model_fields


def _within(annotation: Any) -> list[Any]:
    """An annotation and all that it is made of."""
    return [annotation, *(part for inner in get_args(annotation) for part in _within(inner))]


def _models_in(annotation: Any) -> list[Model]:
    return [a for a in _within(annotation) if isinstance(a, type) and issubclass(a, BaseModel)]


def _tag(info: FieldInfo | None) -> str:
    """The field that tells the classes of a field apart, '' where there is but one."""
    return info.discriminator if info is not None and isinstance(info.discriminator, str) else ""


def _model_of(info: FieldInfo, value: Any) -> Model | None:
    """The class of what stands in a field: where it may be of several, the one that its tag names."""
    models = _models_in(info.annotation)
    if tag := _tag(info):
        told = fields(value).get(tag)
        models = [model for model in models if told in literals_of(model.model_fields[tag])] or models
    return models[0] if models else None


def fields_of(model: type[BaseModel]) -> dict[str, tuple[str, FieldInfo]]:
    """Fields of a class by the word a job file uses, and by their name in Python."""
    named = {info.alias or name: (name, info) for name, info in model.model_fields.items()}
    return {**{name: (name, info) for name, info in model.model_fields.items()}, **named}


def field_at(path: Path, data: Any, root: Model) -> tuple[Model, FieldInfo | None]:
    """The class that holds the field at `path` within `root`, and the field (None when there is no such field)."""
    model = root
    info: FieldInfo | None = None
    for key in path:
        if not isinstance(key, int):
            if info is not None:
                model = _model_of(info, data) or model
            info = fields_of(model).get(key, (key, None))[1]
        try:
            data = value_at(data, (key,))
        except (LookupError, AttributeError, TypeError):
            data = None
    return model, info


def literals_of(info: FieldInfo) -> list[str]:
    """The words a field allows, if it is a choice between words."""
    return [word for part in _within(info.annotation) if get_origin(part) is Literal for word in get_args(part)]


def quantity_of(info: FieldInfo) -> str | None:
    """An example of the quantity a field takes beside its words, such as a length."""
    for part in (info, *_within(info.annotation)):
        for extra in getattr(part, "__metadata__", getattr(part, "metadata", ())):
            schema = getattr(extra, "json_schema", None)
            if isinstance(schema, dict) and schema.get("examples"):
                return str(schema["examples"][0])
    return None


def value_at(data: Any, path: Path) -> Any:
    """What was given at `path`."""
    for key in path:
        data = getattr(data, str(key)) if isinstance(data, BaseModel) else data[key]
    return data


def real_path(data: Any, loc: Sequence[str | int], kind: str, root: Model) -> Path:
    """A pydantic location without the parts that pydantic adds for unions and converters."""
    path: list[str | int] = []
    whole, is_tag = data, False
    for place, key in enumerate(loc):
        if is_tag:  # the name of a class, which pydantic puts in where a field may be of several
            is_tag = False
            continue
        try:
            data = value_at(data, (key,))
        except (LookupError, AttributeError, TypeError):
            if kind == "missing" and place == len(loc) - 1:
                path.append(key)
            break
        path.append(key)
        if not isinstance(data, (Mapping, list, tuple, BaseModel)):
            break
        is_tag = isinstance(key, str) and bool(_tag(field_at(tuple(path), whole, root)[1]))
    return tuple(path)


def missing(path: Path, info: FieldInfo | None) -> str:
    """What a missing field is for, with an example."""
    key = str(path[-1])
    if path == ("job",):
        return f"missing: the [job] table says {info.description if info else 'what the job is'}"
    if info is None or not info.examples:
        return "missing"
    words = literals_of(info)
    allowed = (
        f" (allowed: {listed(words)})"
        if len(words) > 1 and info.description and words[0] not in info.description
        else ""
    )
    return f"missing: {info.description}; for example {key} = {as_toml(info.examples[0])}{allowed}"


def unknown(path: Path, model: Model) -> str:
    """What to say about a field that does not exist: where the thing is said, or the nearest field."""
    key, word = str(path[-1]), str(path[-1]).casefold()
    allowed = [info.alias or name for name, info in model.model_fields.items()]
    within = [
        name for name, info in model.model_fields.items()
        if not _is_job(model) and name != "meant" and _has(info, key)
    ]  # fmt: skip
    what = "no such table" if _is_job(model) else "no such field"
    if word in OUT_OF_SCOPE:
        return f"{OUT_OF_SCOPE[word]} is out of scope: an engineer must do that"
    if _is_job(model) and (table := TABLES.get(word) or TABLES.get(word.removesuffix("s"))):
        return f"{what}; write it as [[{table}]]"
    if "stock" in model.model_fields and not _is_job(model) and word in OF_STOCK:
        return f"{what}; the {word} belongs to the [[stock]] entry that this piece names"
    if within:
        return f"{what} here; write it within {' or '.join(f'`{name}`' for name in within)}"
    if word == "span":
        return f"{what}; a span follows from the places of the supports"
    return f"{what}; {nearest(key, allowed)}" if len(key) <= LONGEST_NAME else what


def _has(info: FieldInfo, key: str) -> bool:
    """Whether a field holds one table, no list of them, that has this field."""
    listed_ones = any(get_origin(part) is tuple for part in _within(info.annotation))
    return not listed_ones and any(key in model.model_fields for model in _models_in(info.annotation))


def wrong(errors: Sequence[Mapping[str, Any]], path: Path, given: Any, info: FieldInfo | None) -> str:
    """One sentence about a value, from all that pydantic says of it (a choice of two types gives two errors)."""
    words = literals_of(info) if info is not None and isinstance(path[-1], str) else []
    if words:
        quantity = quantity_of(info) if info is not None else None
        also = f", or a quantity such as {quantity!r}" if quantity else ""
        why = [text for error in errors if error["type"] != "literal_error" and (text := _plain(error, given))]
        if quantity and why and isinstance(given, str) and given.lstrip("+-\u2212 ")[:1].isdecimal():
            return f"{why[0]}; or write {listed(words)}"  # meant as a quantity, and not one of the words
        because = f" (as a quantity: {why[0]})" if quantity and why and isinstance(given, str) else ""
        guess = nearest(given, words) if isinstance(given, str) and len(given) <= LONGEST_NAME else ""
        guess = f"; {guess}" if guess.startswith("did you mean") else ""
        return f"{shorten(given)} is not allowed: write {listed(words)}{also}{guess}{because}"
    return _plain(errors[0], given)


def _plain(error: Mapping[str, Any], given: Any) -> str:
    kind, context = str(error["type"]), error.get("ctx", {})
    shown = shorten(given)
    match kind:
        case "value_error":
            return str(context["error"]) if isinstance(given, str) else f"{shown}: {context['error']}"
        case "greater_than" | "greater_than_equal" | "less_than" | "less_than_equal":
            bound = {"gt": "greater than", "ge": "at least", "lt": "less than", "le": "at most"}
            text = next(f"{phrase} {context[key]:g}" for key, phrase in bound.items() if key in context)
            return f"{shown} is not allowed: it must be {text}"
        case "string_type":
            return f"{shown} is not text: put it in quotes"
        case "string_too_short":
            return f"{shown} is too short: at least {context['min_length']} character(s) are needed"
        case "string_too_long":
            return f"too long: at most {context['max_length']} characters are read"
        case "string_pattern_mismatch":
            return f"{shown} must be one line without spaces at its ends"
        case "int_type" | "int_from_float" | "int_parsing_size":
            return f"{shown} is not a whole number; write it without quotes and without a unit"
        case "float_type" | "finite_number":
            return f"{shown} is not a number; write it without quotes and without a unit"
        case "bool_type":
            return f"{shown} is neither true nor false (without quotes)"
        case "too_long":
            return f"more than {context['max_length']} entries cannot be read"
        case "tuple_type" if isinstance(given, Mapping):
            return "this is a list: write its tables with two brackets, [[...]], or as [{ ... }, { ... }]"
        case "tuple_type":
            return f"{shown} is not a list: write [ ... ]"
        case "model_type" | "model_attributes_type" | "dict_type" if isinstance(given, (list, tuple)):
            return "there is only one of this: write its table with one bracket, [...], or as { ... }"
        case "model_type" | "model_attributes_type" | "dict_type":
            return f"{shown} is not a table: write {{ name = value, ... }}"
    return f"{shown}: {str(error['msg'])[:1].lower()}{str(error['msg'])[1:]}"


def _of_no_class(path: Path, data: Any, root: Model) -> Fault:
    """The field that tells classes apart is missing or wrong: which words it takes."""
    _, info = field_at(path, data, root)
    tag = _tag(info)
    models = _models_in(info.annotation) if info is not None else []
    words = [word for model in models for word in literals_of(model.model_fields[tag])]
    where = (*path, tag)
    given = fields(value_at(data, path)).get(tag)
    if given is None:
        what = f"missing: which {tag} it is; for example {tag} = {as_toml(words[0])}"
        return where, f"{what} (allowed: {listed(words)})"
    guess = nearest(given, words) if isinstance(given, str) and len(given) <= LONGEST_NAME else ""
    guess = f"; {guess}" if guess.startswith("did you mean") else ""
    return where, f"{shorten(given)} is not allowed: write {listed(words)}{guess}"


def problems_of(exc_errors: Sequence[Mapping[str, Any]], data: Any, root: Model) -> list[Fault]:
    """Every error of the validation library as (path within `root`, sentence), one for each place."""
    by_place: dict[Path, list[Mapping[str, Any]]] = {}
    found: list[Fault] = []
    for error in exc_errors:
        kind = str(error["type"])
        path = real_path(data, error["loc"], kind, root)
        cause = error.get("ctx", {}).get("error")
        if isinstance(cause, PieceFaults):
            found.extend(((*path, *inner), text) for inner, text in cause.faults)
        elif kind == "missing":
            found.append((path, missing(path, field_at(path, data, root)[1])))
        elif kind == "invalid_key":
            found.append((path[:-1], f"{shorten(path[-1])} is not the name of a field: names are text"))
        elif kind == "extra_forbidden":
            found.append((path, unknown(path, field_at(path, data, root)[0])))
        elif kind in ("union_tag_invalid", "union_tag_not_found"):
            found.append(_of_no_class(path, data, root))
        else:
            by_place.setdefault(path, []).append(error)
    for path, errors in by_place.items():
        given = value_at(data, path)
        if _is_job(root) and len(path) == 1 and path[0] != "job" and not isinstance(given, (list, tuple)):
            found.append((path, f"write each {path[0]} as a table of its own under [[{path[0]}]], with two brackets"))
            continue
        if _is_job(root) and path == ("job",):
            found.append((path, "there is one job in a file: write its table as [job], with one bracket"))
            continue
        info = field_at(path, data, root)[1]
        found.append((path, wrong(errors, path, given, info) if path else _plain(errors[0], given)))
    return found
