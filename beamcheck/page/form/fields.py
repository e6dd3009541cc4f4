"""The form of an entry: every field of its class, the common ones and those that are filled in first."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import field
from typing import Any

from pydantic.fields import FieldInfo

from ...model.fields.base import Piece
from ...model.fields.places import place
from ...records import dataclass
from .kinds import UNITS, Kind, kind_of
from .words import FIRST, OF_NAMES, SECTIONS, in_feet, known, label

NONE_SEEN = "none: []"  # in the description of a list that may be looked for and empty
AT_ONCE = {("Survey", "stations"): 3}  # of a list with fewer nothing can be read
MANY = 6  # entries of one list; more are folded
_TAPE = re.compile(r"(?:(-?\d++)\s*+(?:ft|'))?\s*+(?:-?\s*+([\d.]+(?:\s++\d+/\d+)?|\d+/\d+)\s*+(?:in|\"))?")
_WITH_UNIT = re.compile(r"(-?[\d.,]+)\s*([A-Za-z%]+)")


@dataclass(frozen=True)
class Field:
    """One control. `path` says where its value goes; in a blank entry it is the key within that."""

    path: str
    name: str
    label: str
    help: str
    kind: Kind
    text: str
    where: str  # as messages call the place
    required: bool = False
    of_names: str = ""  # the list that it is chosen from
    in_feet: bool = False
    known: bool = False  # what it is called says enough: its help is for screen readers

    @property
    def tape(self) -> tuple[str, str] | None:
        """Feet and inches, where the text is such a length and the control is a tape."""
        if self.kind.quantity != "length" or self.kind.words:
            return None
        found = _TAPE.fullmatch(self.text.strip())
        return (found[1] or "", found[2] or "") if found else None

    @property
    def number(self) -> tuple[str, str] | None:
        """The number and its unit, where the text is that; an empty one has the usual unit."""
        units = UNITS.get(self.kind.quantity, ())
        if self.kind.control != "quantity" or self.kind.quantity == "length" or self.kind.words or not units:
            return None
        if not self.text:
            return "", units[0]
        found = _WITH_UNIT.fullmatch(self.text.strip())
        return (found[1], found[2]) if found and found[2] in units else None

    @property
    def units(self) -> tuple[str, ...]:
        return UNITS.get(self.kind.quantity, ())


@dataclass(frozen=True)
class Group:
    """Fields under one head. `remove` takes it away; `blank` is a form for one more, `add` where that goes."""

    legend: str
    first: tuple[Field | Group, ...]
    more: tuple[Field | Group, ...] = ()
    remove: str = ""
    blank: bool = False
    add: str = ""
    note: str = ""
    link: str = ""
    where: str = field(default="")
    none: str = ""  # where an empty list goes: looked at, and there is none


def sections(
    cls: type[Piece], data: Mapping[str, Any], path: str, keys: tuple[str | int, ...], whole: Any
) -> list[Group]:
    """The form of a piece under its heads; what has none comes last, folded."""
    found = {one.name if isinstance(one, Field) else name: one for name, one in _all(cls, data, path, keys, whole)}
    made = []
    for legend, names in SECTIONS.get(cls.__name__, ()):
        inside = {name: found.pop(name) for name in names if name in found}
        more = tuple(one for name, one in inside.items() if _can_wait(cls, name, data))
        here = tuple(one for one in inside.values() if one not in more)
        only = here[0] if len(here) == 1 else None
        if isinstance(only, Group) and not (only.remove or only.blank):
            here, more = only.first, (*only.more, *more)  # its own head would say the same
        made.append(Group(legend, here, more))
    common = tuple(found.pop(name) for name in FIRST.get(cls.__name__, ()) if name in found)
    if common:
        made.append(Group("What is known of it" if made else "", common))
    if found:
        made.append(Group("Everything else" if made else "", (), tuple(found.values())))
    return made


def _can_wait(cls: type[Piece], name: str, data: Mapping[str, Any]) -> bool:
    """Whether a field is none of those that are commonly filled in, and empty."""
    if name in data:
        return False
    supports = data.get("supports")
    if name == "clear" and isinstance(supports, list):
        return any(isinstance(one, Mapping) and "at" in one for one in supports)
    return name not in FIRST.get(cls.__name__, ()) and not cls.model_fields[name].is_required()


def _all(
    cls: type[Piece], data: Mapping[str, Any], path: str, keys: tuple[str | int, ...], whole: Any
) -> Iterator[tuple[str, Field | Group]]:
    for name, info in cls.model_fields.items():
        key = info.alias or name
        yield key, _one(cls, key, info, data.get(key), f"{path}.{key}" if path else key, (*keys, key), whole)


def _one(
    cls: type[Piece], key: str, info: FieldInfo, value: Any, path: str, keys: tuple[str | int, ...], whole: Any
) -> Field | Group:
    kind = kind_of(info)
    title = label(cls.__name__, key)
    if kind.control == "many":
        (one,) = kind.classes
        entries = value if isinstance(value, list) else []
        inside = [
            _entry(one, entry, f"{path}.{i + 1}", (*keys, i), whole, f"{_singular(title)} {i + 1}")
            for i, entry in enumerate(entries)
            if isinstance(entry, Mapping)
        ]
        if len(inside) > MANY:
            one_more = blank(one, f"{path}.{len(entries) + 1}")
            return Group(f"{title}, {len(inside)} of them", (one_more,), tuple(inside), note=_help(info))
        more = _blanks(one, path, len(entries), cls, key)
        looked = NONE_SEEN in _help(info)
        if looked and value == []:
            return Group(f"{title}: looked, there is none", (more,), remove=path, note=_help(info))
        return Group(title, (*inside, more), note=_help(info), none=path if looked and not entries else "")
    if kind.control in ("one", "either"):
        if isinstance(value, Mapping):
            return _entry(_which(kind, value), value, path, keys, whole, title, info)
        choices = tuple(blank(one, path, f"{_called(one)}") for one in kind.classes)
        return Group(title, choices, note=_help(info))
    return Field(
        path,
        key,
        title,
        _help(info),
        kind,
        "none" if value == [] and kind.words else _text(value),
        place(keys, whole),
        info.is_required(),
        OF_NAMES.get(key, ""),
        in_feet(cls.__name__, key),
        known(cls.__name__, key),
    )


def _entry(
    cls: type[Piece],
    data: Mapping[str, Any],
    path: str,
    keys: tuple[str | int, ...],
    whole: Any,
    title: str,
    info: FieldInfo | None = None,
) -> Group:
    found = dict(_all(cls, data, path, keys, whole))
    wanted = FIRST.get(cls.__name__) or tuple(found)
    first = tuple(found[name] for name in found if name in wanted or name in data)
    more = tuple(found[name] for name in found if name not in wanted and name not in data)
    return Group(title, first, more, path, note=_help(info) if info else "", where=place(keys, whole))


def _blanks(cls: type[Piece], path: str, there: int, of: type[Piece], key: str) -> Group:
    """A form for one more; for as many as there have to be at once, where that is more than one."""
    count = AT_ONCE.get((of.__name__, key), 1)
    if there or count == 1:
        return blank(cls, f"{path}.{there + 1}")
    fields = (Group(f"{_called(cls)} {i + 1}", tuple(_blank_fields(cls, f"{i + 1}.", 0))) for i in range(count))
    return Group(f"{count} {_called(cls)}s", tuple(fields), blank=True, add=path)


def blank(cls: type[Piece], path: str, title: str = "") -> Group:
    """A form for an entry that is not there yet: what it must say, and the common fields."""
    return Group(title or f"one more {_called(cls)}", tuple(_blank_fields(cls, "", 0)), blank=True, add=path)


def _blank_fields(cls: type[Piece], before: str, depth: int) -> Iterator[Field | Group]:
    wanted = FIRST.get(cls.__name__, ())
    for name, info in cls.model_fields.items():
        key = info.alias or name
        kind = kind_of(info)
        if key not in wanted and not info.is_required():
            continue
        if kind.control in ("many", "one", "either"):
            if depth < 2 and (info.is_required() or key in ("supports", "carries")) and kind.control != "either":
                title = label(cls.__name__, key)
                count = 2 if key == "supports" else 1
                for i in range(count if kind.control == "many" else 1):
                    inside = f"{before}{key}.{i + 1}." if kind.control == "many" else f"{before}{key}."
                    yield Group(f"{_singular(title)} {i + 1}", tuple(_blank_fields(kind.classes[0], inside, depth + 1)))
            continue
        yield Field(
            before + key,
            key,
            label(cls.__name__, key),
            _help(info),
            kind,
            "",
            "",
            info.is_required(),
            OF_NAMES.get(key, ""),
            in_feet(cls.__name__, key),
            known(cls.__name__, key),
        )


def _which(kind: Kind, value: Mapping[str, Any]) -> type[Piece]:
    """Of several classes the one that the entry says it is."""
    for cls in kind.classes:
        for name in ("family", "kind"):
            if name in cls.model_fields and value.get(name) in kind_of(cls.model_fields[name]).words:
                return cls
    return kind.classes[0]


def _called(cls: type[Piece]) -> str:
    words = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", cls.__name__).lower()
    return {"place": "hole", "row": "row of fasteners", "in plan": "place in the plan"}.get(words, words)


_SINGULAR = {
    "what holds it": "support", "what it carries": "load", "what is cut out of it": "cut",
    "sections: least of each side": "section", "moisture readings": "reading", "slope of grain, two faces": "face",
    "knots, the worst": "knot", "checks, shakes and splits": "opening", "wood that is gone": "loss",
    "old mortises, notches, holes": "old cut",
}  # fmt: skip


def _singular(title: str) -> str:
    return _SINGULAR.get(title, title)


def _help(info: FieldInfo) -> str:
    return info.description or ""


def _text(value: Any) -> str:
    """A value of a job file as the control shows it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return ", ".join(map(str, value))
    if isinstance(value, Mapping):
        return "; ".join(f"{key}: {one}" for key, one in value.items())
    return "" if value is None else str(value)
