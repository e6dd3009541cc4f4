"""The checks of a member as a table: strength and stiffness first, geometry apart, what has no figures in words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from ....checks.core.kinds import check_kinds
from ....checks.core.result import Check, PieceResult
from ....checks.core.summary import by_gravity, quantity
from ....records import dataclass
from ....units import show
from ....values.judgment import judgment
from ..prose import TIED, capital, place, sentence, without_fields
from ..rich_blocks import LIMIT, Across, Bar, Cell, RichTable, Strong, Word
from .context import Sheet

HEADS = ("check", "where", "comes", "allowed", "ratio, stroke at 1", "verdict", "loads, clause")
PARTS = {"Member": ("member",), "Joints, seats and what they rest on": ("joints", "path")}
RULES = "Distances and sizes: what is needed, what is there"
SHORT_CLAUSE = 20  # letters
SEVERAL = 24  # letters of several places
SHORT = 15  # letters of a place that need no wide column
NAMES, WEIGHT = 2.3, 5.6  # share of the names of checks, and of them with loads and clauses
BOTH = 92  # letters of these and of the places on a line
_LONGEST = 1.25  # ratio at which a bar is full: layout
_SAME = 9  # significant digits to which two figures are one


@dataclass(frozen=True)
class Merged:
    """Checks that are one for a reader: the same figures under the same clause and loads."""

    first: Check
    others: tuple[Check, ...] = ()


def nature(check: Check) -> str:
    """'strength', 'stiffness', 'geometry' or 'evidence'."""
    row = check_kinds().get(check.id)
    return row["nature"] if row is not None else "evidence" if check.ratio is None else "strength"


def closest(checks: Iterable[Check]) -> Check | None:
    """What is closest to its limit, or farthest over it, of strength and stiffness."""
    with_ratio = [check for check in checks if check.ratio is not None and nature(check) != "geometry"]
    return min(with_ratio, key=lambda check: check.rank[1:], default=None)


def merged(checks: Iterable[Check]) -> list[Merged]:
    """The checks with those that say the same put together, what decides first."""
    found: dict[tuple[object, ...], list[Check]] = {}
    for check in by_gravity(tuple(checks)):
        found.setdefault(_key(check), []).append(check)
    return [Merged(first, tuple(others)) for first, *others in found.values()]


def _key(check: Check) -> tuple[object, ...]:
    if check.ratio is None:
        return (id(check),)
    figures = tuple(
        None if value is None else f"{value:.{_SAME}g}" for value in (check.demand, check.capacity, check.ratio)
    )
    return check.id, check.verdict, check.kind, check.clause, check.combination, figures, check.notes


def checks_tables(piece: PieceResult, sheet: Sheet) -> Iterator[RichTable]:
    """The tables of a member's checks: strength and stiffness, what is open, rules of geometry."""
    strength = [check for check in piece.checks if check.ratio is not None and nature(check) != "geometry"]
    open_ = [check for check in by_gravity(piece.checks) if check.ratio is None and check.verdict != "passes"]
    met = [check.what for check in by_gravity(piece.checks) if check.ratio is None and check.verdict == "passes"]
    small = judgment("ratio below which checks share a line").value
    rows: list[tuple[Cell, ...]] = []
    low: list[Check] = []
    for name, parts in PARTS.items():
        some = merged(check for check in strength if check.part in parts)
        shown = [one for one in some if not (_passes_at_most(one.first, small) and len(some) > 1)]
        low += [check for one in some if one not in shown for check in (one.first, *one.others)]
        if shown:
            rows.append((Across(name),))
            rows += [_row(one, sheet, _whole(piece)) for one in shown]
    notes = []
    if low:
        lines = Counter(f"{check.what} {quantity(check.ratio, 'ratio', sheet.result.units)}" for check in low)
        told = "; ".join(f"{line}{_alike(count)}" for line, count in lines.items())
        notes.append(sentence(f"small ratios: {told}"))
    if met:
        notes.append(f"Also met, without figures: {'; '.join(dict.fromkeys(met))}.")
    if rows or notes:
        places = [row[1] for row in rows if len(row) > 1 and isinstance(row[1], str)]
        where = 0.0 if max(map(len, places), default=0) <= SHORT else 1.6
        room = BOTH - max(map(len, places), default=0)
        names = _share_of_names([(row[0], row[-1]) for row in rows if len(row) > 1], room)
        widths = (names, where, 0.0, 0.0, 0.0, 0.0, WEIGHT - names)
        yield RichTable("Checks", HEADS, tuple(rows), widths, (2, 3), " ".join(notes), "checks")
    if open_:
        said = [
            (check.what, sentence(without_fields("; ".join(check.notes))), _questions(check, sheet), check.verdict)
            for check in open_
        ]
        made = tuple(
            (f"{capital(row[0])}{_alike(said.count(row))}", *row[1:3], Word(row[3])) for row in dict.fromkeys(said)
        )
        yield RichTable(
            "Without figures, and not met",
            ("what", "why", "question", "verdict"),
            made,
            (1.5, 4.2, 0.0, 0.0),
            (),
            "",
            "open",
        )
    yield from _rules(piece, sheet)


def _alike(count: int) -> str:
    return f", {count} alike" if count > 1 else ""


def _share_of_names(rows: Sequence[tuple[Cell, Cell]], room: int) -> float:
    """How much of the room names take beside loads and clauses, so that least lines break."""
    texts = [tuple(one.text if isinstance(one, Strong) else str(one) for one in row) for row in rows]

    def lines(share: float) -> tuple[int, float]:
        wide = (max(int(room * part / WEIGHT), 1) for part in (share, WEIGHT - share))
        name, loads = wide
        return sum(max(-(-len(one) // name), -(-len(other) // loads)) for one, other in texts), abs(share - NAMES)

    return min((round(NAMES + 0.1 * step, 1) for step in range(-4, 15)), key=lines)


def _rules(piece: PieceResult, sheet: Sheet) -> Iterator[RichTable]:
    """Geometry: in rows what is not kept or nearly so; what is kept with room in words, with its figures."""
    rules = merged(check for check in piece.checks if check.ratio is not None and nature(check) == "geometry")
    much = judgment("share of what is there up to which a distance is named in words").value
    if piece.kind == "anchor":  # whose distances are read beside its drawing
        much = judgment("share up to which a distance of an anchor group is named in words").value
    brief = [one for one in rules if _passes_at_most(one.first, much)]
    rows = tuple(_rule(one, sheet) for one in rules if one not in brief)
    told = "; ".join(_said(one, sheet) for one in brief)
    note = sentence(f"kept with room to spare, as needed and there: {told}") if told else ""
    heads = ("rule", "where", "needed", "there", "verdict", "clause") if rows else ("rule",)
    widths = (3.4, 1.1, 0.0, 0.0, 0.0, 1.4) if rows else (1.0,)
    if rules:
        yield RichTable(RULES, heads, rows, widths, (2, 3), note, "rules")


def _said(one: Merged, sheet: Sheet) -> str:
    check, units = one.first, sheet.result.units
    demand, capacity = (quantity(value, check.kind, units) for value in (check.demand, check.capacity))
    others = dict.fromkeys(_without_start(other.what, check.what) for other in one.others if other.what != check.what)
    names = ", ".join((check.what, *others))
    return f"{names} {demand}, {capacity}"


def _passes_at_most(check: Check, most: float) -> bool:
    return check.verdict == "passes" and check.ratio is not None and check.ratio < most


def bar(check: Check, units: str) -> Bar:
    """The ratio of a check with its bar."""
    ratio = check.ratio if check.ratio is not None else 0.0
    share = min(ratio, _LONGEST) * LIMIT if ratio == ratio else 0.0
    return Bar(quantity(check.ratio, "ratio", units), round(max(share, 0.0), 4), check.verdict)


def _whole(piece: PieceResult) -> str:
    """The words for the one span of a piece, or for all of it: a check that holds there need not say where."""
    if piece.figure is None or len(piece.figure.supports) != 2:
        return ""
    return " to ".join(show(mark.at, "length") for mark in piece.figure.supports).replace("0 in to", "0 to", 1)


def _row(one: Merged, sheet: Sheet, whole: str = "") -> tuple[Cell, ...]:
    check, units = one.first, sheet.result.units
    demand, capacity = _figures(check, units)
    loads = ", ".join(filter(None, (check.combination, _held_together(check.clause))))
    where = "; ".join(dict.fromkeys(filter(None, map(_where, (check, *one.others)))))
    where = where if len(where) <= SEVERAL else _where(check)
    return (
        _name(one, sheet),
        "span" if where and where == whole else where,
        demand,
        capacity,
        bar(check, units),
        Word(check.verdict),
        loads,
    )


def _held_together(clause: str) -> str:
    """Clauses that break into lines between each other only."""
    return ", ".join(part.replace(" ", TIED) if len(part) <= SHORT_CLAUSE else part for part in clause.split(", "))


def _rule(one: Merged, sheet: Sheet) -> tuple[Cell, ...]:
    check, units = one.first, sheet.result.units
    demand, capacity = (quantity(value, check.kind, units) for value in (check.demand, check.capacity))
    return (_name(one, sheet), _where(check), demand, capacity, Word(check.verdict), check.clause)


def _name(one: Merged, sheet: Sheet) -> Cell:
    """What is checked; where it does not pass, the questions that would settle it."""
    check = one.first
    others = dict.fromkeys(_without_start(other.what, check.what) for other in one.others if other.what != check.what)
    same = sum(other.what == check.what for other in one.others)
    also = f"; also {'; '.join(others)}" if others else ""
    name = f"{capital(check.what)}{_alike(same + 1)}{also}"
    if check.verdict == "passes":
        return name
    asked = _questions(check, sheet)
    return f"{name} (question {asked})" if asked else Strong(name)


def _without_start(text: str, like: str) -> str:
    """The text without the words with which both begin: `support 2 on east wall`."""
    words, others = text.split(), like.split()
    same = next((i for i, pair in enumerate(zip(words, others, strict=False)) if pair[0] != pair[1]), 0)
    start = same - 1 if same and words[same - 1] in ("support", "no.") else same
    return " ".join(words[start:])


def _questions(check: Check, sheet: Sheet) -> str:
    """The numbers of the questions that a check waits for."""
    return ", ".join(str(sheet.asked[one.id]) for one in check.questions if one.id in sheet.asked)


def _where(check: Check) -> str:
    where = place(check.where)
    return "" if where in check.what else where.removeprefix("span ").removeprefix("at ").replace("0 in to", "0 to", 1)


def _figures(check: Check, units: str) -> tuple[str, str]:
    """What comes and what is allowed; nothing where they would only repeat the ratio."""
    if check.kind == "ratio" and check.capacity == 1.0:
        return "", ""
    demand, capacity = (quantity(value, check.kind, units) for value in (check.demand, check.capacity))
    return demand, capacity


def leading(piece: PieceResult) -> Check | None:
    """What is closest to its limit of all that was worked out in steps."""
    return closest(check for check in piece.checks if check.steps)


def typeset(piece: PieceResult) -> Sequence[Check]:
    """The checks whose steps a short sheet shows: what governs, fails, refers on its own, or is over a ratio.

    Where a question holds for every figure (what wood is it?), each is for information: there only what governs is
    shown.
    """
    over = judgment("ratio over which a check is typeset").value
    governs = leading(piece)
    figured = [check for check in piece.checks if check.ratio is not None and check.part == "member"]
    every = [one.id for one in piece.questions if all(one in check.questions for check in figured)]
    found = []
    for one in merged(check for check in piece.checks if check.steps and nature(check) != "geometry"):
        check = one.first
        own = check.verdict == "refer" and any(asked.id not in every for asked in check.questions)
        much = check.ratio is not None and check.ratio > over
        if governs in (check, *one.others) or check.verdict == "fails" or own or much:
            found.append(check)
    return found
