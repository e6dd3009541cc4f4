"""Where in a job something is, as a path and in words: `beam "B1", supports 2, bearing`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel

Path = tuple[str | int, ...]  # keys and list places (from 0) that lead to a value of a job
Fault = tuple[Path, str]  # where, and a sentence that says what is wrong and what would be right
LONGEST_NAME = 80  # as in base.Name
SAME_PLACE = 0.01  # in; what is nearer stands at one place


def feet(inches: float) -> str:
    """A length for a message: feet and decimal inches."""
    whole, rest = divmod(inches, 12.0)
    return f"{whole:.0f} ft {rest:.4g} in" if rest >= 0.0005 else f"{whole:.0f} ft"


def inches(x: float) -> str:
    """A length for a message."""
    return f"{x:.5g} in"


def fields(thing: Any) -> Mapping[str, Any]:
    """The fields of a piece or of a table, by name; of anything else none."""
    if isinstance(thing, BaseModel):
        return vars(thing)  # asked for millions of times in a large job: nothing is copied
    return thing if isinstance(thing, Mapping) else {}


def entries(thing: Any) -> tuple[Any, ...]:
    """The entries of a list; of anything else none."""
    return tuple(thing) if isinstance(thing, (list, tuple)) else ()


def plain(key: object) -> str:
    """A key or name as it can be printed: short, and without characters that a terminal would obey."""
    text = str(key)
    text = text if len(text) <= LONGEST_NAME else text[: LONGEST_NAME - 3] + "..."
    return text if text.isprintable() else repr(text)


def place(path: Path, job: Any) -> str:
    """`path` in words. A piece is called by its name when it has one, and by its number in the file when not."""
    words: list[str] = []
    for step, key in enumerate(path):
        if isinstance(key, str) or not words:
            words.append(plain(key))
            continue
        name = None
        if step == 1:
            table = entries(fields(job).get(str(path[0])))
            name = fields(table[key]).get("name") if key < len(table) else None
        usable = isinstance(name, str) and name.strip() and plain(name) == name
        words[-1] += f' "{name}"' if usable else f" {key + 1}"
    return ", ".join(words)
