"""A result as JSON: everything in it, full precision, the unit beside each number; and the JSON Schema of that.

Numbers are in inner units (in, lbf, psi). What is no finite number is null with a text that says what it is. Everything
outside ASCII is escaped, so that no console or file encoding can change it, and keys keep their order: the same job
gives the same bytes.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import Any, Literal

from pydantic import Field

from ... import provenance
from ...calc import pad
from ...checks.core import result as found
from ...checks.core.summary import MEANING, by_gravity
from ...units import KINDS
from ...values.loader import rows
from .enclosed import FORMAT, digest_of
from .json_pictures import LoadPath, Picture, load_path, picture
from .json_values import Column, NoNumber, Quantity, Record, column, maybe, quantity

Verdict = Literal["passes", "fails", "refer"]


class Source(Record):
    """Where a value comes from."""

    document: str
    how: str = Field(description="read, derived, memory, given or practice")
    confidence: str
    note: str


class Input(Record):
    """One input of a formula."""

    symbol: str
    given: Quantity | NoNumber


class Step(Record):
    """One line of a calculation: a formula with its inputs, or (formula null) a value taken from somewhere."""

    symbol: str
    result: Quantity | NoNumber
    formula: str | None = Field(description="name of the formula in beamcheck.formulas")
    clause: str
    inputs: tuple[Input, ...]
    note: str
    source: Source | None


class Check(Record):
    """One question and its answer; demand, capacity and ratio are null where the check has no numbers."""

    subject: str
    what: str
    verdict: Verdict
    ratio: Quantity | NoNumber | None = Field(description="demand over capacity; more than 1 fails")
    demand: Quantity | NoNumber | None
    capacity: Quantity | NoNumber | None
    combination: str
    where: str
    clause: str
    notes: tuple[str, ...]
    steps: tuple[Step, ...]


class Label(Record):
    """A label and its text."""

    label: str
    text: str


class Table(Record):
    """A small table of texts, in the units of the texts."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str


class FigureSupport(Record):
    at: Quantity | NoNumber
    name: str
    holds: str


class FigureLoad(Record):
    start: Quantity | NoNumber
    end: Quantity | NoNumber
    text: str
    kind: str
    shape: str


class FigureCut(Record):
    start: Quantity | NoNumber
    end: Quantity | NoNumber
    from_bottom: Quantity | NoNumber
    depth: Quantity | NoNumber
    text: str


class FigureMark(Record):
    curve: str
    at: Quantity | NoNumber
    text: str


class Figure(Record):
    """What a drawing of the piece needs; the curves are envelopes over all combinations at the stations `x`."""

    length: Quantity | NoNumber
    depth: Quantity | NoNumber
    slope: Quantity | NoNumber
    supports: tuple[FigureSupport, ...]
    loads: tuple[FigureLoad, ...]
    cuts: tuple[FigureCut, ...]
    x: Column
    V_high: Column
    V_low: Column
    M_high: Column
    M_low: Column
    sag: Column
    marks: tuple[FigureMark, ...]


class Hole(Record):
    x: Quantity | NoNumber
    y: Quantity | NoNumber
    diameter: Quantity | NoNumber
    number: str
    governing: bool


class Dimension(Record):
    axis: Literal["x", "y"]
    start: Quantity | NoNumber
    end: Quantity | NoNumber
    text: str


class Slot(Record):
    width: Quantity | NoNumber
    length: Quantity | NoNumber
    height: Quantity | NoNumber


class Plate(Record):
    left: Quantity | NoNumber
    bottom: Quantity | NoNumber
    right: Quantity | NoNumber
    top: Quantity | NoNumber
    thickness: Quantity | NoNumber
    place: str


class Bores(Record):
    diameter: Quantity | NoNumber
    depth: Quantity | NoNumber
    faces: int


class Beside(Record):
    name: str
    thickness: Quantity | NoNumber


class HoleDrawing(Record):
    """What a drawing of an anchor group needs: x from the end of the held piece along its grain, y from its bottom."""

    name: str
    end: Literal["left", "right"]
    length: Quantity | NoNumber = Field(description="of the piece, as much as is shown")
    depth: Quantity | NoNumber
    breadth: Quantity | NoNumber
    holes: tuple[Hole, ...]
    dimensions: tuple[Dimension, ...]
    slot: Slot | None
    plate: Plate | None
    bores: Bores | None
    beside: Beside | None = Field(description="wood or concrete on the other side")
    gap: Quantity | NoNumber
    upright: bool = Field(description="rods that stand upright in the piece")
    texts: tuple[str, ...]


class Piece(Record):
    """Everything about one piece."""

    name: str
    kind: str
    title: str
    verdict: Verdict
    decided_by: str | None = Field(description="the check that weighs most")
    checks: tuple[Check, ...]
    remedies: tuple[str, ...] = Field(description="what would make a failing piece pass")
    assumptions: tuple[str, ...]
    inputs: tuple[Label, ...]
    tables: tuple[Table, ...]
    figure: Figure | None
    drawing: HoleDrawing | None
    to_see: tuple[str, ...] = Field(description="to see and photograph before the work is covered")
    finding: str = Field(description="of a bracket: what it is in truth, whatever it is declared to be")
    pictures: tuple[Picture, ...] = Field(description="what the drawings of a bracket hold")


class JobFile(Record):
    """The job file from which all of this follows."""

    name: str
    sha256: str
    text: str


class Result(Record):
    """The result of checking one job."""

    generator: str
    format: int
    verdict: Verdict
    meaning: str
    caution: str
    sign_off: str
    reasons: tuple[str, ...] = Field(description="why it is not 'passes'")
    invented: bool = Field(description="demo data, not a real building")
    title: str
    units_of_texts: Literal["US", "SI"] = Field(description="numbers are always in inner units; this is for the texts")
    about: tuple[Label, ...]
    pieces: tuple[Piece, ...]
    tables: tuple[Table, ...]
    sources: tuple[Source, ...]
    path: LoadPath | None
    job_file: JobFile
    digest: str = Field(
        default="",
        description="SHA-256 over all else here as JSON: sorted keys, no spaces, ASCII only, all numbers floats",
    )


def result_json(result: found.JobResult) -> str:
    """The result as JSON text in ASCII, with a line end.

    Parameters
    ----------
    result : JobResult

    Returns
    -------
    str
        `result_schema` describes it. Units: in, lbf, psi and what is made of them, named beside each number.
    """
    record = _result(result).model_dump(mode="json")
    record["digest"] = digest_of(record)
    return json.dumps(record, indent=1, allow_nan=False) + "\n"


def result_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of `result_json`, without an address; the same on every call."""
    schema = Result.model_json_schema(mode="serialization")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema, "title": "whatcarries result"}


def _result(result: found.JobResult) -> Result:
    return Result(
        generator=f"whatcarries {result.version}", format=FORMAT,
        verdict=result.verdict, meaning=MEANING[result.verdict], caution=result.caution, sign_off=result.sign_off,
        reasons=result.reasons, invented=result.invented, title=result.title,
        units_of_texts="SI" if result.units == "SI" else "US", about=_labels(result.about),
        pieces=tuple(map(_piece, result.pieces)), tables=_tables(result.tables),
        sources=tuple(map(_source, result.sources)),
        path=None if result.path is None else load_path(result.path),
        job_file=JobFile(name=result.job_name, sha256=result.fingerprint, text=result.job_text),
    )  # fmt: skip


def _piece(piece: found.PieceResult) -> Piece:
    worst = next(iter(by_gravity(piece.checks)), None)
    return Piece(
        name=piece.name, kind=piece.kind, title=piece.title, verdict=piece.verdict,
        decided_by=None if worst is None else worst.what, checks=tuple(map(_check, piece.checks)),
        remedies=piece.remedies, assumptions=piece.assumptions, inputs=_labels(piece.inputs),
        tables=_tables(piece.tables), figure=None if piece.figure is None else _figure(piece.figure),
        drawing=None if piece.drawing is None else _drawing(piece.drawing), to_see=piece.to_see,
        finding=piece.finding, pictures=tuple(map(picture, piece.pictures)),
    )  # fmt: skip


def _check(check: found.Check) -> Check:
    unit = KINDS[check.kind].inner
    return Check(
        subject=check.subject, what=check.what, verdict=check.verdict, ratio=maybe(check.ratio, ""),
        demand=maybe(check.demand, unit), capacity=maybe(check.capacity, unit), combination=check.combination,
        where=check.where, clause=check.clause, notes=check.notes, steps=tuple(map(_step, check.steps)),
    )  # fmt: skip


def _step(step: pad.Step) -> Step:
    units = _units_of_symbols()
    return Step(
        symbol=step.symbol, result=quantity(step.value, step.unit),
        formula=None if step.formula is None else step.formula.name, clause=step.clause,
        inputs=tuple(Input(symbol=name, given=quantity(value, units[name])) for name, value in step.inputs.items()),
        note=step.note, source=None if step.source is None else _source(step.source),
    )  # fmt: skip


def _source(source: provenance.Source) -> Source:
    return Source(document=source.document, how=source.how, confidence=source.confidence, note=source.note)


def _figure(figure: found.Figure) -> Figure:
    def inches(value: float) -> Quantity | NoNumber:
        return quantity(value, "in")

    return Figure(
        length=inches(figure.length), depth=inches(figure.depth), slope=quantity(figure.slope, "deg"),
        supports=tuple(FigureSupport(at=inches(x), name=name, holds=holds) for x, name, holds in figure.supports),
        loads=tuple(FigureLoad(start=inches(x0), end=inches(x1), text=text, kind=kind, shape=shape)
                    for x0, x1, text, kind, shape in figure.loads),
        cuts=tuple(FigureCut(start=inches(x0), end=inches(x1), from_bottom=inches(y), depth=inches(depth), text=text)
                   for x0, x1, y, depth, text in figure.cuts),
        x=column(figure.x, "in"), V_high=column(figure.V_high, "lbf"), V_low=column(figure.V_low, "lbf"),
        M_high=column(figure.M_high, "lbf*in"), M_low=column(figure.M_low, "lbf*in"), sag=column(figure.sag, "in"),
        marks=tuple(FigureMark(curve=curve, at=inches(x), text=text) for curve, x, text in figure.marks),
    )  # fmt: skip


def _drawing(drawing: found.HoleDrawing) -> HoleDrawing:
    def inches(value: float) -> Quantity | NoNumber:
        return quantity(value, "in")

    slot, plate, bores, other = drawing.slot, drawing.plate, drawing.bores, drawing.other
    return HoleDrawing(
        name=drawing.name, end=drawing.end, length=inches(drawing.length), depth=inches(drawing.depth),
        breadth=inches(drawing.breadth),
        holes=tuple(Hole(x=inches(x), y=inches(y), diameter=inches(D), number=number, governing=governing)
                    for x, y, D, number, governing in drawing.holes),
        dimensions=tuple(Dimension(axis=axis, start=inches(start), end=inches(end), text=text)
                         for axis, start, end, text in drawing.dimensions),
        slot=None if slot is None else Slot(width=inches(slot[0]), length=inches(slot[1]), height=inches(slot[2])),
        plate=None if plate is None else Plate(
            left=inches(plate[0]), bottom=inches(plate[1]), right=inches(plate[2]), top=inches(plate[3]),
            thickness=inches(plate[4]), place=drawing.plate_at,
        ),
        bores=None if bores is None else Bores(diameter=inches(bores[0]), depth=inches(bores[1]), faces=drawing.bored),
        beside=None if other is None else Beside(name=other[0], thickness=inches(other[1])),
        gap=inches(drawing.gap), upright=drawing.upright, texts=drawing.texts,
    )  # fmt: skip


def _labels(pairs: Iterable[tuple[str, str]]) -> tuple[Label, ...]:
    return tuple(Label(label=label, text=text) for label, text in pairs)


def _tables(tables: Iterable[found.Table]) -> tuple[Table, ...]:
    return tuple(Table(title=one.title, heads=one.heads, rows=one.rows, note=one.note) for one in tables)


@lru_cache(maxsize=1)
def _units_of_symbols() -> Mapping[str, str]:
    return {row["name"]: row["unit"] for row in rows("nomenclature")}
