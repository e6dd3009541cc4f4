"""Blocks of the short form: tables whose cells are more than text, the head of a member, its statics, and folds."""

from __future__ import annotations

from ...checks.core.result import Verdict
from ...checks.core.statics import StaticsLine
from ...records import dataclass


@dataclass(frozen=True)
class Marks:
    """Marks of members, each with the anchor of its page."""

    items: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Bar:
    """A ratio with its bar; `share` is the part of the bar that is filled, of which `LIMIT` is where 1 stands."""

    text: str
    share: float
    verdict: Verdict


@dataclass(frozen=True)
class Word:
    """The word of a verdict."""

    verdict: Verdict


@dataclass(frozen=True)
class Go:
    """Text that leads to a place of the sheet."""

    text: str
    anchor: str


@dataclass(frozen=True)
class PageOf:
    """The page of a place, on paper."""

    anchor: str


@dataclass(frozen=True)
class Symbol:
    """The symbol of a quantity."""

    name: str


@dataclass(frozen=True)
class Across:
    """A heading that runs across all columns of a table."""

    text: str


@dataclass(frozen=True)
class Strong:
    """Text that is set bold."""

    text: str


Cell = str | Marks | Bar | Word | Go | PageOf | Symbol | Across | Strong
LIMIT = 0.8  # of the length of a bar: where the ratio is 1


@dataclass(frozen=True)
class RichTable:
    """A table of cells. `widths`: shares of the room, 0 for a column that takes what it needs.

    `right`: numbers of the columns set to the right. `kind`: a name for the look of it.
    """

    title: str
    heads: tuple[Cell, ...]
    rows: tuple[tuple[Cell, ...], ...]
    widths: tuple[float, ...]
    right: tuple[int, ...] = ()
    note: str = ""
    kind: str = "checks"
    anchor: str = ""


@dataclass(frozen=True)
class Side:
    """Verdict of a part of a member, 'Member' or 'Joints and seats', and what decides or is closest there."""

    name: str
    verdict: Verdict
    told: str


@dataclass(frozen=True)
class PlanBar:
    """A bar of the key plan: shares of its width, the row from the top; `here`: the member; `end`: by others."""

    x0: float
    x1: float
    row: int
    here: bool
    end: bool


@dataclass(frozen=True)
class KeyPlan:
    """Where a member is in the load path. `lines`: share of the width, from which row to which."""

    bars: tuple[PlanBar, ...]
    lines: tuple[tuple[float, int, int], ...]
    rows: int


@dataclass(frozen=True)
class MemberHead:
    """The head of a member's page, with which a page begins: marks, title, verdicts, what it was taken for."""

    marks: tuple[str, ...]
    title: str
    anchor: str
    running: str
    verdict: Verdict
    sides: tuple[Side, ...]
    understood: str
    alike: tuple[str, ...] = ()
    plan: KeyPlan | None = None


@dataclass(frozen=True)
class StaticsBlock:
    """Lines to be done again with a pocket calculator."""

    words: str
    lines: tuple[StaticsLine, ...]


@dataclass(frozen=True)
class MemberList:
    """Every member by mark: stays at hand on a screen."""

    items: tuple[tuple[str, str, str, Verdict], ...]  # mark, name, anchor, verdict


@dataclass(frozen=True)
class FoldStart:
    """What follows, up to `FoldEnd`, is folded on a screen; `printed`: paper from a screen has it all the same."""

    title: str
    printed: bool = False


@dataclass(frozen=True)
class FoldEnd:
    pass


@dataclass(frozen=True)
class Decisions:
    """For each mark what the engineer decides: boxes to tick."""

    marks: tuple[str, ...]
    outcomes: tuple[str, ...]


RichBlock = RichTable | MemberHead | StaticsBlock | MemberList | FoldStart | FoldEnd | Decisions
