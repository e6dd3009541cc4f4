"""Flat rows for spreadsheets: one a check, and one for each kind of fastener, washer, nut and plate to be bought.

Numbers are in full precision, in the units that the job is shown in: in, lb, psi or mm, kN, MPa.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import fields

from ...checks.core.result import CAUTION, SIGN_OFF, Check, JobResult, PieceResult
from ...errors import BeamcheckError
from ...model.anchors.anchor import Fastener
from ...model.beams import Beam
from ...model.brackets.bracket import Bracket, Trim
from ...model.job import Job
from ...model.reading.reader import read_job_text
from ...model.roofs import Rafter, Tie
from ...records import dataclass
from ...units import from_inner, show, shown_in, unit_label

CHECK_HEADS = (
    "piece", "kind", "check", "clause", "verdict", "demand", "capacity", "unit", "ratio", "combination", "where",
    "notes",
)  # fmt: skip
HARDWARE_HEADS = (
    "group", "holds", "what", "size", "length", "steel and coating", "for each end", "ends", "in all", "note",
)  # fmt: skip
HARDWARE_NOTE = (
    "Quantities are for the ends that the job lists. A piece that the job lists once for several of them (repeated "
    "rafters, joists) needs as many times more; nothing is added for waste."
)
Cell = str | float | int | None


@dataclass(frozen=True)
class CheckRow:
    """One check; a number that is missing or not finite is None, or the word for it."""

    piece: str
    kind: str
    check: str
    clause: str
    verdict: str
    demand: float | str | None
    capacity: float | str | None
    unit: str
    ratio: float | str | None
    combination: str
    where: str
    notes: str

    @property
    def cells(self) -> tuple[Cell, ...]:
        return tuple(getattr(self, one.name) for one in fields(self))


@dataclass(frozen=True)
class HardwareRow:
    """One kind of hardware in one anchor group, bracket or piece of trim; `in_all` is None where it is not known."""

    group: str
    holds: str
    what: str
    size: str
    length: str
    steel: str
    each: int | str
    ends: int
    in_all: int | None
    note: str

    @property
    def cells(self) -> tuple[Cell, ...]:
        return tuple(getattr(self, one.name) for one in fields(self))


def head_lines(result: JobResult) -> tuple[tuple[str, str], ...]:
    """Label and text of what stands above the rows: what made it, the job, its fingerprint, caution, sign-off line."""
    return (
        ("generator", f"whatcarries {result.version}"),
        ("title", result.title),
        *((("invented data", "an example, not a real building"),) if result.invented else ()),
        ("job file", result.job_name),
        ("SHA-256 of the job file", result.fingerprint),
        ("verdict", result.verdict),
        ("caution", CAUTION),
        ("sign-off", SIGN_OFF),
    )


def check_rows(result: JobResult) -> tuple[CheckRow, ...]:
    """Every check of the job, in its order."""
    return tuple(_check_row(piece, check, result.units) for piece in result.pieces for check in piece.checks)


def _check_row(piece: PieceResult, check: Check, system: str) -> CheckRow:
    return CheckRow(
        piece.name, piece.kind, check.what, check.clause, check.verdict, _number(check.demand, check.kind, system),
        _number(check.capacity, check.kind, system),
        "" if check.demand is None and check.capacity is None else unit_label(check.kind, system),
        _number(check.ratio, "ratio", system), check.combination, check.where, " ".join(check.notes),
    )  # fmt: skip


def _number(value: float | None, kind: str, system: str) -> float | str | None:
    if value is None:
        return None
    if math.isnan(value):
        return "not a number"
    if math.isinf(value):
        return "infinite" if value > 0 else "minus infinite"
    return float(from_inner(value, kind, system))


def hardware_rows(result: JobResult, job: Job | None = None) -> tuple[HardwareRow, ...]:
    """The hardware of all anchor groups, brackets and pieces of trim.

    `job`: the job; otherwise it is read from the text that the result carries. Raises BeamcheckError if the result
    carries no job text and no job is given.
    """
    if job is None:
        if not result.job_text:
            raise BeamcheckError("the hardware list needs the job: this result was made without the text of a job file")
        job = read_job_text(result.job_text, result.job_name)
    with shown_in(result.units):
        return (*_of_anchors(result, job), *_of_fixings(job))


def _of_anchors(result: JobResult, job: Job) -> Iterator[HardwareRow]:
    """The hardware tables of the groups, times the ends that each group holds."""
    held: dict[str, list[str]] = {}
    for name, end in _ends(job):
        held.setdefault(name, []).append(end)
    for piece in result.pieces:
        ends = held.get(piece.name, []) if piece.kind == "anchor" else []
        if piece.kind == "joint":  # it is where it is, once
            ends = [piece.title]
        for table in piece.tables:
            if not ends or table.title != f"Hardware of {piece.name}":
                continue
            column = {head: number for number, head in enumerate(table.heads)}
            for row in table.rows:
                many = row[column["how many"]]
                each = int(many) if many.isdecimal() else many
                yield HardwareRow(
                    piece.name, "; ".join(ends), row[column["what"]], row[column["size"]], row[column["length"]],
                    row[column["steel and coating"]], each, len(ends),
                    each * len(ends) if isinstance(each, int) else None, row[column["note"]],
                )  # fmt: skip


def _ends(job: Job) -> Iterator[tuple[str, str]]:
    """The anchor group and the end that it holds, for all ends."""
    sticks: tuple[Beam | Rafter | Tie, ...] = (*job.beam, *job.rafter, *job.tie)
    for stick in sticks:
        if isinstance(stick, Beam):
            for number, support in enumerate(stick.supports, start=1):
                if support.held_by is not None:
                    yield support.held_by, f"{stick.name} at support {number}"
        elif isinstance(stick, Rafter):
            if stick.wall.held_by is not None:
                yield stick.wall.held_by, f"{stick.name} at the wall"
        elif stick.ends_held_by is not None:
            yield from ((stick.ends_held_by, f"{stick.name}, {end} end") for end in ("left", "right"))


def _of_fixings(job: Job) -> Iterator[HardwareRow]:
    """What fixes brackets and trim, and joins the pieces of a bracket, as the job gives it."""
    pieces: tuple[Bracket | Trim, ...] = (*job.bracket, *job.trim)
    for piece in pieces:
        fixings = piece.fixings
        if fixings is not None and fixings.fastener is not None:
            each = Counter(row.length or fixings.fastener.length for row in fixings.rows for _ in range(row.count))
            for length, n in (each or {fixings.fastener.length: 0}).items():
                yield from _bought(piece.name, piece.on, fixings.fastener, length, n)
        if isinstance(piece, Bracket):
            for holds, fastener, n in piece.shape.own_fasteners():
                yield from _bought(piece.name, holds, fastener, fastener.length, n)


def _bought(name: str, holds: str, fastener: Fastener, length: float | None, n: int) -> Iterator[HardwareRow]:
    """So many fasteners with their washers and nuts."""
    each: int | str = n or "not given"
    made = ", ".join(filter(None, (f"steel {fastener.steel}" if fastener.steel else "", fastener.coating or "")))
    long = show(length, "length") if length is not None else ""
    note = "as the job gives it; its length is not given" if length is None else "as the job gives it"
    yield HardwareRow(name, holds, fastener.kind, fastener.size, long, made, each, 1, n or None, note)
    if fastener.washer is not None:
        across = f"{show(fastener.washer, 'length')} across"
        note = "one under each head; a bolt has another under its nut" if fastener.kind == "bolt" else ""
        many = 2 * n if fastener.kind == "bolt" else n
        yield HardwareRow(name, holds, "washer", across, "", "", many or "not given", 1, many or None, note)
    if fastener.kind == "bolt":
        yield HardwareRow(name, holds, "nut", fastener.size, "", fastener.coating or "", each, 1, n or None, "")
