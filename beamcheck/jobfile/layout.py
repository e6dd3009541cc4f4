"""Lines of a job file changed in place: only those of one entry are given to tomlkit, which keeps their layout.

Tables of one kind may stand anywhere in a file, and tomlkit would gather them; so it never sees more than one entry,
and of what comes back only the lines that differ are taken.
"""

from __future__ import annotations

import itertools
import re
import tomllib
from collections.abc import Mapping
from contextlib import suppress
from difflib import SequenceMatcher
from typing import Any

from ..model.reading.lines import line_map
from .steps import Keys

Line = tuple[int, str]  # number from 1, and its text
_IDLE = re.compile(r"\s*(#.*)?")  # a line that says nothing to a machine
_CLOSES, _OPENS = re.compile(r"(?<=[^\s{])[ \t]*\}"), re.compile(r"\{[ \t]*(?=[^\s}])")


def split_lines(text: str) -> list[str]:
    """The lines with their ends, as TOML counts them."""
    return re.findall(r"[^\n]+\n?|\n", text)


def changed_lines(before: str, after: str) -> list[Line]:
    """The lines that are new or differ, as they stand now."""
    old, new = before.splitlines(), after.splitlines()
    matcher = SequenceMatcher(None, old, new, autojunk=False)
    spots = [spot for spot in matcher.get_opcodes() if spot[0] in ("replace", "insert")]
    return [(number + 1, new[number]) for _, _, _, first, last in spots for number in range(first, last)]


def with_entry(text: str, kind: str, entry: Mapping[str, Any]) -> str:
    """The text with one more [[kind]] at its end."""
    from tomlkit import document

    made = document()
    for key, value in entry.items():
        made[key] = _inline(value)
    end = _end_of(text)
    gap = "" if not text or text.endswith(2 * end) else end if text.endswith("\n") else 2 * end
    return text + gap + f"[[{kind}]]\n{made.as_string()}".replace("\n", end)


def without_entry(text: str, kind: str, index: int) -> str:
    """The text without an entry that stands under a header of its own, and without the empty lines before it."""
    first, last = block_of(text, [kind, index])
    lines = split_lines(text)
    while first > 0 and not lines[first - 1].strip():
        first -= 1
    return "".join([*lines[:first], *lines[last:]])


def block_of(text: str, keys: Keys) -> tuple[int, int]:
    """The lines of an entry, from 0, the last one excluded: its own and its tables', without what follows idle.

    An entry without a header of its own has the whole text.
    """
    lines = split_lines(text)
    starts = line_map(text.removeprefix("\ufeff"))
    entry = tuple(keys[:1] if keys[0] == "job" else keys[:2])
    begins = starts[entry]
    if not _header(lines[begins - 1]):
        return 0, len(lines)
    heads = [line for path, line in starts.items() if path[: len(entry)] != entry and _header(lines[line - 1])]
    ends = min((line for line in heads if line > begins), default=len(lines) + 1) - 1
    said = ends
    while said > begins and _IDLE.fullmatch(lines[said - 1].rstrip("\r\n")):
        said -= 1
    whole = _is_toml("".join(lines[begins - 1 : said]))  # or those lines were within a text of several lines
    return begins - 1, said if whole else ends


def _is_toml(text: str) -> bool:
    with suppress(tomllib.TOMLDecodeError):
        tomllib.loads(text.removeprefix("\ufeff"))
        return True
    return False


def _header(line: str) -> bool:
    return line.lstrip("\ufeff \t").startswith("[")


def block_with(block: str, keys: Keys, value: Any, *, tidy: bool) -> str:
    """The lines of an entry, or a whole text, with the value set; None takes it out.

    Lines that did not change are the very lines that were there. `tidy`: with one space inside the braces of a table in
    one line that grew or shrank, which tomlkit does not keep.
    """
    from tomlkit import parse

    old, bare = split_lines(block), split_lines(block.replace("\r\n", "\n"))
    document = parse("".join(bare))
    alone = keys[0] != "job" and _header(block)
    _put(document, [keys[0], 0, *keys[2:]] if alone else keys, value)
    new = split_lines(document.as_string())
    end = _end_of(block)
    made: list[str] = []
    for tag, i, j, first, last in SequenceMatcher(None, bare, new, autojunk=False).get_opcodes():
        changed = [_CLOSES.sub(" }", _OPENS.sub("{ ", line)) if tidy else line for line in new[first:last]]
        changed = [line.replace("\n", end) for line in changed]
        made += old[i:j] if tag == "equal" else changed
    return "".join(made)


def _end_of(text: str) -> str:
    return "\r\n" if "\r\n" in text else "\n"


def _put(document: Any, keys: Keys, value: Any) -> None:
    thing = document
    for key, following in itertools.pairwise(keys):
        if isinstance(key, int):
            if key == len(thing):
                _add(thing, {})
        elif key not in thing:
            thing[key] = _inline([] if isinstance(following, int) else {})
        thing = thing[key]
    last = keys[-1]
    if value is None:
        if isinstance(last, int) or last in thing:
            thing.pop(last)
    elif isinstance(last, int) and last == len(thing):
        _add(thing, value)
    else:
        thing[last] = _inline(value)


def _add(entries: Any, value: Any) -> None:
    """One more entry at the end of a list; where the others are tables of their own, so is it."""
    from tomlkit import table
    from tomlkit.items import AoT

    if not isinstance(entries, AoT):
        entries.append(_inline(value))
        return
    made = table()
    for key, one in value.items():
        made[key] = _inline(one)
    entries.append(made)


def _inline(value: Any) -> Any:
    """A value for tomlkit, tables within one line; more than two of them in a list stand below one another."""
    from tomlkit import array, inline_table

    if isinstance(value, Mapping):
        table = inline_table()
        for key, one in value.items():
            table[key] = _inline(one)
        return table
    if isinstance(value, (list, tuple)):
        entries = array()
        for one in value:
            entries.append(_inline(one))
        return entries.multiline(len(value) > 2 and isinstance(value[0], Mapping))
    return value
