"""What a sheet is made of: neutral blocks, without a word about HTML or PDF."""

from __future__ import annotations

from dataclasses import dataclass

from ..checks.result import Figure, Verdict
from ..formulas.pad import Step


@dataclass(frozen=True)
class Masthead:
    """Head of the sheet, and what runs along on every page. `title` is whole, `short` fits on a line or two."""

    title: str
    short: str
    tool: str
    fingerprint: str
    caution: str
    invented: bool


@dataclass(frozen=True)
class Heading:
    """`level` 2 for parts, 3 inside a piece. `anchor` is a name of our own, for links."""

    text: str
    level: int = 2
    anchor: str = ""


@dataclass(frozen=True)
class Caution:
    text: str


@dataclass(frozen=True)
class Paragraph:
    text: str


@dataclass(frozen=True)
class Item:
    """One line of the verdict: a piece, with a link to its part of the sheet."""

    verdict: Verdict
    name: str
    text: str
    anchor: str


@dataclass(frozen=True)
class VerdictBlock:
    """A verdict in words; `large` for the whole job."""

    verdict: Verdict
    meaning: str
    reasons: tuple[str, ...] = ()
    items: tuple[Item, ...] = ()
    large: bool = False


@dataclass(frozen=True)
class SignOff:
    """`fields` are labels with a line to write on; a box for the seal stands beside them."""

    fields: tuple[str, ...]
    note: str


@dataclass(frozen=True)
class Pairs:
    """Labels with their text."""

    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class TableBlock:
    """Rows of text. The cells of `verdict_column` are verdicts; `numeric` columns are set to the right."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""
    verdict_column: int = -1
    numeric: tuple[int, ...] = ()


@dataclass(frozen=True)
class FigureBlock:
    figure: Figure
    name: str
    units: str
    key: str
    caption: str


@dataclass(frozen=True)
class Steps:
    """Equations, each with its clause, note and source."""

    steps: tuple[Step, ...]


@dataclass(frozen=True)
class CheckBlock:
    """One check with its verdict line and calculation; kept on one page where it fits."""

    title: str
    verdict: Verdict
    line: str
    clause: str
    steps: Steps
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Bullets:
    title: str
    items: tuple[str, ...]
    note: str = ""


@dataclass(frozen=True)
class Symbols:
    """The symbols used, with their meaning."""

    names: tuple[str, ...]


@dataclass(frozen=True)
class JobText:
    """The job file, character by character."""

    name: str
    text: str


Block = (
    Masthead | Heading | Caution | Paragraph | VerdictBlock | SignOff | Pairs | TableBlock | FigureBlock | Steps
    | CheckBlock | Bullets | Symbols | JobText
)  # fmt: skip
