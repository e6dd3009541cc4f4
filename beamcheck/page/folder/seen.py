"""What was seen before it was covered, and what an engineer noted: NAME.seen.toml beside the job, no part of it."""

from __future__ import annotations

import tomllib
from dataclasses import asdict, field
from pathlib import Path
from typing import Any

from ...records import dataclass
from ...sheet.write import write_atomically
from ..guard.bodies import Refused
from .listing import JOB, SEEN

HEAD = (
    "# What was seen before it was covered, and what an engineer noted. Written by whatcarries page;\n"
    "# it is no input of a calculation, and a note is no signature.\n"
)
DECISIONS = ("accepted", "accepted as noted", "not accepted")
MOST = 5000


@dataclass(frozen=True)
class Tick:
    """One point of a shop sheet, seen by somebody; `job` is the digest of the job file as it was then."""

    piece: str
    point: str
    by: str
    when: str  # 2026-03-02 15:02
    job: str
    photos: tuple[str, ...] = ()


@dataclass(frozen=True)
class Decision:
    """What an engineer noted about a piece: a note, not a signature."""

    piece: str
    decision: str
    note: str
    by: str
    when: str
    job: str


@dataclass(frozen=True)
class Seen:
    """All of it."""

    ticks: tuple[Tick, ...] = ()
    decisions: tuple[Decision, ...] = ()
    problem: str = field(default="")


def seen_path(job: Path) -> Path:
    """Beside its job."""
    return job.with_name(job.name.removesuffix(JOB) + SEEN)


def read_seen(job: Path) -> Seen:
    """What stands there; where it cannot be read, a sentence says so and nothing is written over it."""
    path = seen_path(job)
    if path.is_symlink():
        return Seen(problem=f"{path.name} is a link: it is not followed")
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8"))
        ticks = tuple(Tick(**{**one, "photos": tuple(one.get("photos", ()))}) for one in data.get("tick", ()))
        decisions = tuple(Decision(**one) for one in data.get("decision", ()))
    except FileNotFoundError:
        return Seen()
    except (OSError, ValueError, TypeError):
        return Seen(problem=f"{path.name} cannot be read as what was seen: mend it, or move it away")
    every: tuple[Tick | Decision, ...] = (*ticks, *decisions)
    if not all(isinstance(part, (str, tuple)) for one in every for part in asdict(one).values()):
        return Seen(problem=f"{path.name} holds something that is no text")
    return Seen(ticks, decisions)


def write_seen(job: Path, seen: Seen) -> None:
    """Write it whole or not at all.

    Raises Refused if what stands there cannot be read, or it would grow without end; WriteError if it cannot be
    written.
    """
    if seen.problem:
        raise Refused(f"{seen.problem}; nothing was written", 409)
    if len(seen.ticks) + len(seen.decisions) > MOST:
        raise Refused("there is too much in it already", 409)
    from tomlkit import aot, document, dumps, item

    made = document()
    for kind, entries in (("tick", seen.ticks), ("decision", seen.decisions)):
        tables = aot()
        for one in entries:
            tables.append(item(_plain(asdict(one))))
        if entries:
            made.add(kind, tables)
    write_atomically(seen_path(job), HEAD + dumps(made), overwrite=True)


def _plain(entry: dict[str, Any]) -> dict[str, Any]:
    return {key: list(value) if isinstance(value, tuple) else value for key, value in entry.items()}
