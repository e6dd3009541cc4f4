"""A result as it is written, and the digest over it."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from typing import Any

_on_one_line = json.JSONEncoder(allow_nan=False).encode
FORMAT = 2  # of the result as JSON; counted up when a key changes its name or meaning


def digest_of(record: Mapping[str, Any]) -> str:
    """SHA-256 over a result without `digest` as canonical JSON: sorted keys, no spaces, ASCII, all numbers floats.

    A value may be an iterator of entries, each of which is made only when its turn has come.
    """
    made = hashlib.sha256(b"{")
    for number, key in enumerate(sorted(record.keys() - {"digest"})):
        value = record[key]
        made.update(f"{',' * bool(number)}{json.dumps(key)}:".encode("ascii"))
        if isinstance(value, (list, tuple, Iterator)):
            made.update(b"[")
            for place, entry in enumerate(value):
                made.update(b"," * bool(place) + _canonical(entry))
            made.update(b"]")
        else:
            made.update(_canonical(value))
    made.update(b"}")
    return made.hexdigest()


def _canonical(value: Any) -> bytes:
    plain = json.loads(json.dumps(value), parse_int=float)
    return json.dumps(plain, sort_keys=True, separators=(",", ":")).encode("ascii")


def record_text(record: Mapping[str, Any]) -> str:
    """A result as it is written: JSON in ASCII, with a line end."""
    return lines_of(record) + "\n"


def record_text_before(record: Mapping[str, Any]) -> str:
    """The same as versions before 0.3 wrote it, so that a file of theirs is not taken for one that was edited."""
    return json.dumps(record, indent=1, allow_nan=False) + "\n"


def lines_of(value: Any, margin: str = "") -> str:
    """JSON in ASCII, what holds no other list or record on one line; `margin`: of what holds it all."""
    if isinstance(value, dict) and any(map(_holds, value.values())):
        ends, inside = "{}", [f"{json.dumps(key)}: {lines_of(one, margin + ' ')}" for key, one in value.items()]
    elif isinstance(value, list) and any(map(_holds, value)):
        ends, inside = "[]", [lines_of(one, margin + " ") for one in value]
    else:
        return _on_one_line(value)
    joint = f"\n{margin} "
    return f"{ends[0]}{joint}{f',{joint}'.join(inside)}\n{margin}{ends[1]}"


def _holds(value: Any) -> bool:
    return isinstance(value, (dict, list))
