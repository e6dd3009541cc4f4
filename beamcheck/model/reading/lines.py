"""Which line of a job file a value stands on: a map from key path to line, for text that the TOML reader has accepted.

The standard library's reader gives no positions, so the text is walked once more. The walk trusts the text to be valid
and therefore needs only brackets, strings and commas.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping

from ..fields.places import Path

_DEPTH = 6  # no path of a job is longer than ("beam", 0, "supports", 1, "at"); a hostile file may nest deeper
_TOKEN = re.compile(
    r"""(?P<space>[ \t\r]+|\#[^\n]*) | (?P<newline>\n) | (?P<mark>[\[\]{}=,.])
      | (?P<string>\"\"\"(?:\\.|[^\\])*?\"{3,5} | '''.*?'{3,5} | "(?:\\.|[^"\\\n])*" | '[^'\n]*')
      | (?P<bare>[^\s\[\]{}=,."'\#]+) | (?P<other>.)""",
    re.VERBOSE | re.DOTALL,
)


class _Walk:
    """One pass over the text; `spot` counts tokens (kind or mark, text, line)."""

    def __init__(self, text: str) -> None:
        self.lines: dict[Path, int] = {}
        self.tokens: list[tuple[str, str, int]] = []
        self.spot = 0
        line = 1
        for match in _TOKEN.finditer(text):
            kind, piece = match.lastgroup or "other", match.group()
            if kind != "space":
                self.tokens.append((piece if kind == "mark" else kind, piece, line))
            line += piece.count("\n")
        self.tokens.append(("end", "", line))

    @property
    def kind(self) -> str:
        return self.tokens[self.spot][0]

    def step(self) -> tuple[str, str, int]:
        token = self.tokens[self.spot]
        self.spot = min(self.spot + 1, len(self.tokens) - 1)
        return token

    def skip(self, *kinds: str) -> None:
        while self.kind in kinds:
            self.step()

    def record(self, path: Path, line: int) -> None:
        for length in range(1, min(len(path), _DEPTH) + 1):
            self.lines.setdefault(path[:length], line)

    def key(self) -> list[str]:
        """A dotted key, up to the mark that ends it."""
        parts: list[str] = []
        while self.kind in ("bare", "string", "."):
            kind, piece, _ = self.step()
            if kind == "bare":
                parts.append(piece)
            elif kind == "string":
                parts.append(str(tomllib.loads(f"key = {piece}")["key"]))
        return parts

    def statements(self) -> None:
        base: Path = ()
        counts: dict[Path, int] = {}  # tables seen so far in each [[array of tables]]
        while self.kind != "end":
            if self.kind == "[":
                base = self.header(counts)
            elif self.kind in ("bare", "string"):
                self.pair(base)
            else:
                self.step()

    def header(self, counts: dict[Path, int]) -> Path:
        _, _, line = self.step()
        many = self.kind == "["
        self.skip("[")
        keys = self.key()
        self.skip("]")
        path: Path = ()
        for place, key in enumerate(keys, start=1):
            path = (*path, key)
            if many and place == len(keys):
                counts[path] = counts.get(path, 0) + 1
            if path in counts:
                path = (*path, counts[path] - 1)  # a header speaks of the latest table of an array
        self.record(path, line)
        return path

    def pair(self, base: Path) -> None:
        line = self.tokens[self.spot][2]
        path = (*base, *self.key())
        self.record(path, line)
        self.skip("=")
        self.value(path)

    def value(self, path: Path) -> None:
        if self.kind == "[":
            self.step()
            self.skip("newline")
            entry = 0
            while self.kind not in ("]", "}", "end"):
                self.record((*path, entry), self.tokens[self.spot][2])
                self.value((*path, entry))
                self.skip("newline", ",")
                entry += 1
            self.step()
        elif self.kind == "{":
            self.step()
            while self.kind not in ("]", "}", "end"):
                self.pair(path)
                self.skip("newline", ",")
            self.step()
        else:  # a text, number, date or truth value: all up to what ends it
            while self.kind not in (",", "]", "}", "newline", "end"):
                self.step()


def line_map(text: str) -> dict[Path, int]:
    """Line (from 1) of every key and list entry of valid TOML, down to six steps deep.

    `("beam", 0, "supports", 1, "at")` leads to the line on which the first beam's second support says `at`.
    """
    walk = _Walk(text.replace("\r\n", "\n"))
    walk.statements()
    return walk.lines


def line_of(lines: Mapping[Path, int], path: Path) -> int | None:
    """The line of `path`, or of the nearest thing around it (a missing field has the line of its table)."""
    for length in range(len(path), 0, -1):
        if path[:length] in lines:
            return lines[path[:length]]
    return None
