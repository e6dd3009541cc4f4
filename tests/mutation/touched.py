"""Which lines each test runs, found once and kept until the project changes."""

from __future__ import annotations

import hashlib
import json
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from types import FrameType
from typing import Any, NamedTuple

TOP = Path(__file__).parents[2]
KEPT = Path(tempfile.gettempdir()) / "whatcarries-mutation"
Lines = dict[str, set[int]]  # of a file from the top of the project


class Run(NamedTuple):
    """How a test ran without any error in the project."""

    seconds: float  # of processor time
    lines: Lines
    fails: bool = False  # without any error put in: it tells nothing


class Watch:
    """Notes the lines of a floor that run, by the interpreter's own trace."""

    def __init__(self, floor: str) -> None:
        self.under, self.lines = str(TOP / "beamcheck" / floor) + "/", Lines()

    def start(self) -> None:
        self.lines = Lines()
        sys.settrace(self._call)

    def stop(self) -> Lines:
        sys.settrace(None)
        return self.lines

    def _call(self, frame: FrameType, event: str, arg: Any) -> Callable[[FrameType, str, Any], Any] | None:
        name = frame.f_code.co_filename
        if not name.startswith(self.under):
            return None
        add = self.lines.setdefault(name[len(str(TOP)) + 1 :], set()).add

        def line(frame: FrameType, event: str, arg: Any) -> Callable[[FrameType, str, Any], Any]:
            add(frame.f_lineno)
            return line

        add(frame.f_lineno)
        return line


def digest(file: str) -> str:
    """Of all that the tests of a file can see: the project, and what is no test beside it."""
    found = hashlib.sha256(file.encode())
    for folder in ("beamcheck", "tables", "tests", "worked_examples"):
        for path in sorted((TOP / folder).rglob("*")):
            if path.suffix not in (".py", ".csv", ".toml", ".txt", ".jinja") or "mutation" in path.parts:
                continue
            if path.name.startswith("test_") and path != TOP / file:
                continue
            found.update(path.relative_to(TOP).as_posix().encode() + path.read_bytes())
    return found.hexdigest()[:24]


def kept(name: str) -> dict[str, Run] | None:
    """What was found the last time."""
    try:
        was = json.loads((KEPT / f"{name}.json").read_text(encoding="utf-8"))
        return {
            item: Run(seconds, {file: set(lines) for file, lines in by.items()}, fails)
            for item, (seconds, by, fails) in was.items()
        }
    except (OSError, ValueError):
        return None  # none was, or by another version of this


def keep(name: str, runs: dict[str, Run]) -> None:
    """For the next time."""
    KEPT.mkdir(exist_ok=True)
    now = {
        item: (run.seconds, {file: sorted(lines) for file, lines in run.lines.items()}, run.fails)
        for item, run in runs.items()
    }
    (KEPT / f"{name}.json").write_text(json.dumps(now), encoding="utf-8")
