"""What a sheet is made of: neutral blocks, without a word about HTML or PDF."""

from __future__ import annotations

from ...calc.pad import Step
from ...checks.core.pictures.assembled import AssemblyPicture
from ...checks.core.pictures.beams import LoadPath
from ...checks.core.pictures.others import HoleDrawing, Picture
from ...checks.core.result import Figure, Verdict
from ...provenance import Source
from ...records import dataclass
from .rich_blocks import RichBlock


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
    """`level` 2 for parts, 3 inside a piece. `anchor` is a name of our own, for links.

    `new_page`: on paper the part begins a page. `running`: what the head of the pages says of it, where `text` is long.
    """

    text: str
    level: int = 2
    anchor: str = ""
    new_page: bool = False
    running: str = ""


@dataclass(frozen=True)
class Caution:
    text: str


@dataclass(frozen=True)
class Paragraph:
    text: str


@dataclass(frozen=True)
class VerdictBlock:
    """A verdict in words; `large` for the whole job."""

    verdict: Verdict
    meaning: str
    reasons: tuple[str, ...] = ()
    large: bool = False


@dataclass(frozen=True)
class SignOff:
    """`fields` are labels with a line to write on; a box for the seal stands beside them.

    `outcomes`: what the engineer may find, each with a box to tick.
    """

    fields: tuple[str, ...]
    note: str
    outcomes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Contents:
    """The parts of the sheet: text and anchor."""

    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Pairs:
    """Labels with their text."""

    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class TableBlock:
    """Rows of text."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


@dataclass(frozen=True)
class SummaryRow:
    """One check with figures, `number` within its piece; `anchor` leads to its calculation."""

    piece: str
    number: str
    what: str
    anchor: str
    place: str
    verdict: Verdict
    ratio: str
    demand: str
    capacity: str
    governed: str


@dataclass(frozen=True)
class SummaryStatement:
    """The checks of one piece that have one verdict and no figures; `anchor` leads to the piece."""

    piece: str
    anchor: str
    verdict: Verdict
    names: tuple[str, ...]


@dataclass(frozen=True)
class Summary:
    """All checks of the job: `open`, those without figures that do not pass; then `rows`, largest ratio first; then
    `met`, those without figures that pass.
    """

    open: tuple[SummaryStatement, ...]
    rows: tuple[SummaryRow, ...]
    met: tuple[SummaryStatement, ...]


@dataclass(frozen=True)
class FigureBlock:
    figure: Figure | HoleDrawing | LoadPath | Picture | AssemblyPicture
    name: str
    units: str
    key: str
    caption: str
    part: str = ""  # of the drawing of a beam, where it is set in two


@dataclass(frozen=True)
class Beside:
    """Labels with their text, and a figure that stands beside them where there is room."""

    pairs: Pairs
    figure: FigureBlock


@dataclass(frozen=True)
class Entry:
    """A step with the number of its source (0: none) and a word of warning, such as 'memory', where there is one."""

    step: Step
    reference: int = 0
    mark: str = ""


@dataclass(frozen=True)
class Known:
    """Steps that stand already, worked out or taken, in an earlier check: said again with their values only."""

    label: str
    anchor: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True)
class Taken:
    """Values that were taken: one with its reason, or several that need none."""

    entries: tuple[Entry, ...]


@dataclass(frozen=True)
class Worked:
    """An equation, in symbols and numbers."""

    entry: Entry


Line = Taken | Worked


@dataclass(frozen=True)
class Lines:
    """A calculation: first what is known already, then its lines; `brief`: without what the symbols mean."""

    known: tuple[Known, ...]
    lines: tuple[Line, ...]
    brief: bool = False


@dataclass(frozen=True)
class CheckBlock:
    """One check with its verdict line and calculation; kept on one page where it fits."""

    title: str
    anchor: str
    verdict: Verdict
    line: str
    clause: str
    lines: Lines
    notes: tuple[str, ...] = ()
    short: bool = False


@dataclass(frozen=True)
class Statement:
    """A check without figures."""

    verdict: Verdict
    title: str
    text: str
    clause: str


@dataclass(frozen=True)
class Statements:
    title: str
    items: tuple[Statement, ...]


@dataclass(frozen=True)
class Reference:
    """A source with its number on the sheet; `used`: the symbols that rest on it, by piece."""

    number: int
    source: Source
    used: str


@dataclass(frozen=True)
class References:
    """Numbered sources: with everything known about them, or `short` after a piece, with a link to the long list."""

    title: str
    rows: tuple[Reference, ...]
    note: str = ""
    short: bool = False


@dataclass(frozen=True)
class Bullets:
    """Points of a list; `marked`: each has a letter of its own."""

    title: str
    items: tuple[str, ...]
    note: str = ""
    marked: bool = False


@dataclass(frozen=True)
class Symbols:
    """The symbols used, with their meaning."""

    names: tuple[str, ...]


@dataclass(frozen=True)
class JobText:
    """The job file, character by character; `printed`: on paper too, not only carried along."""

    name: str
    text: str
    printed: bool = True


@dataclass(frozen=True)
class Columns:
    """Blocks beside each other where there is room; `shares` of the room of the left and the right.

    `whole`: on one page. `flow`: what comes after; on paper it first fills the shorter side. `folds`: what the left
    and the tables that come after are called where a phone folds them; '' for what it does not.
    """

    left: tuple[Block, ...]
    right: tuple[Block, ...]
    shares: tuple[float, float] = (1.0, 1.0)
    whole: bool = True
    flow: tuple[Block, ...] = ()
    folds: tuple[str, str] = ("", "")


Block = (
    Masthead | Heading | Caution | Paragraph | VerdictBlock | SignOff | Contents | Pairs | TableBlock | Summary
    | FigureBlock | Beside | Lines | CheckBlock | Statements | References | Bullets | Symbols | JobText | Columns
    | RichBlock
)  # fmt: skip
