"""The factor table of a member: each design value times its factors, read off the steps of its checks."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field

from ....calc.pad import Step
from ....checks.core.result import PieceResult
from ....provenance import Source
from ....records import dataclass
from ....values.judgment import judgment
from ..mathematics import result_text
from ..numerals import plain
from ..repeated_steps import warning
from ..rich_blocks import Cell, RichTable, Strong, Symbol
from ..symbols import lettered, plain_symbol

_FACTOR = re.compile(r"C_[A-Za-z0-9]+")
_FASTENER = re.compile(r"(?:^|, )row [0-9]{1,4}(?:, column [0-9]{1,4})?$")
_DIGITS = 4
ORDER = ("F_b", "F_v", "F_c_perp", "F_c", "F_t", "E", "E_min")
WORDS = ("of", "under")  # heads of columns, of those that have any words
REFERENCE = "reference"  # the head behind them
NARROW = 60  # letters of a column that need not give way
FRAME = ": "  # between the name of a frame and that of its member
NOTE = "† from memory: compare with the printed document."


@dataclass
class _Row:
    base: Step | None
    symbol: str
    value: float
    factors: dict[str, float]
    end: Step
    combinations: dict[str, None] = field(default_factory=dict)
    closest: float = 0.0  # largest ratio of a check that takes it
    used: set[int] = field(default_factory=set)  # ids of the steps that it shows
    ends: dict[int, Step] = field(default_factory=dict)
    fires: set[str] = field(default_factory=set)  # after which fire the checks look that take it; '' for none
    members: dict[str, None] = field(default_factory=dict)  # whose value it is; '' for the piece itself


@dataclass(frozen=True)
class Factors:
    """The table, and the steps that it shows, which need not be written once more."""

    table: RichTable | None
    shown: frozenset[int] = frozenset()  # ids of steps
    ends: Mapping[int, Step] = field(default_factory=dict)  # by id: the adjusted values


def factors_of(piece: PieceResult, numbers: Mapping[Source, int], anchor: str) -> Factors:
    """Read the factors off the steps of a piece."""
    rows: dict[tuple[object, ...], _Row] = {}
    extra = piece.statics.steps if piece.statics is not None else ()
    told = [(one.combination, one.steps, one.ratio or 0.0, _fire(one.what), one.where) for one in piece.checks]
    for combination, steps, ratio, fire, where in [*told, ("", extra, 0.0, "", "")]:
        for row, used in _chains(steps):
            changed = tuple(sorted((n, f"{v:.9g}") for n, v in row.factors.items() if v != 1.0))
            key = (row.symbol, f"{row.value:.9g}", row.base and row.base.source, changed, result_text(row.end))
            kept = rows.setdefault(key, row)
            kept.factors = row.factors | kept.factors
            kept.members[_member(row, where) or piece.name] = None
            if combination:
                kept.combinations[combination] = None
            kept.closest = max(kept.closest, ratio)
            kept.fires.add(fire)
            kept.used |= used
            kept.ends[id(row.end)] = row.end
    if not rows:
        return Factors(None)
    made = sorted(_leading(list(rows.values())), key=_in_order)
    shown = frozenset(one for row in made for one in row.used)
    ends = {name: step for row in made for name, step in row.ends.items()}
    return Factors(_table(made, len(rows) - len(made), numbers, anchor, piece.name), shown, ends)


def _fire(what: str) -> str:
    """'after 60 min of fire' of a check that looks at what a fire leaves."""
    start, colon, _ = what.partition(": ")
    return start if colon and start.startswith("after ") and start.endswith("fire") else ""


def _member(row: _Row, where: str) -> str:
    """Whose value it is: of wood as its step has it, of a fastener as the check says where it is; '' of the piece."""
    if row.symbol in ORDER:
        return row.base.note if row.base is not None else ""
    place = _FASTENER.search(where.partition("; ")[0])
    return where[: place.start()] if place else ""


def _in_order(row: _Row) -> tuple[int, str]:
    """Bending, shear, bearing, compression, tension, then stiffness, then what is not of wood."""
    return (ORDER.index(row.symbol) if row.symbol in ORDER else len(ORDER), "".join(sorted(row.fires)))


def _leading(rows: list[_Row]) -> list[_Row]:
    """Of one value under many combinations those under which it is closest to what comes."""
    most = int(judgment("most rows of a value in a factor table").value)
    kept: set[int] = set()
    for value in {(row.symbol, *row.members) for row in rows}:
        same = sorted((row for row in rows if (row.symbol, *row.members) == value), key=lambda row: -row.closest)
        kept |= {id(row) for row in same[:most]}
    return [row for row in rows if id(row) in kept]


def _chains(steps: Iterable[Step]) -> Iterator[tuple[_Row, set[int]]]:
    """Every value times factors only, one after another where one takes the result of the one before."""
    known: dict[str, Step] = {}
    made: dict[str, tuple[_Row, set[int]]] = {}
    taken_up: set[str] = set()
    ends: list[tuple[str, tuple[_Row, set[int]]]] = []
    for step in steps:
        factors = {name: value for name, value in step.inputs.items() if _FACTOR.fullmatch(name)}
        others = [name for name in step.inputs if name not in factors]
        if not factors or len(others) != 1 or not _times(step, factors, others[0]):
            known[step.symbol] = step
            continue
        base = known.get(others[0])
        row = _Row(base, others[0], step.inputs[others[0]], factors, step)
        used = {id(step), *(id(known[name]) for name in factors if name in known)}
        if before := made.get(others[0]):
            earlier, some = before
            taken_up.add(others[0])
            row = _Row(earlier.base, earlier.symbol, earlier.value, earlier.factors | factors, step)
            used |= some
        elif base is not None and base.formula is None:
            used.add(id(base))
        made[step.symbol] = row, used
        ends.append((step.symbol, made[step.symbol]))
    yield from (one for symbol, one in ends if symbol not in taken_up)


def _times(step: Step, factors: Mapping[str, float], base: str) -> bool:
    """Whether the step is its base times its factors and nothing else, by its own numbers."""
    product = step.inputs[base]
    for value in factors.values():
        product *= value
    return abs(product - step.value) <= 1e-9 * max(abs(step.value), 1.0)


def _table(rows: list[_Row], left_out: int, numbers: Mapping[Source, int], anchor: str, own: str) -> RichTable:
    names = list(dict.fromkeys(name for row in rows for name in row.factors))
    ones = [name for name in names if all(row.factors.get(name, 1.0) == 1.0 for row in rows)]
    columns = [name for name in names if name not in ones]
    values = [(row.symbol, *row.members) for row in rows]
    several = {value for value in values if values.count(value) > 1}
    whose = any(list(row.members) != list(rows[0].members) for row in rows)
    weak = False
    words: list[tuple[str, str]] = []
    made: list[tuple[Cell, ...]] = []
    for row in rows:
        source = row.base.source if row.base is not None else None
        dagger = "†" if source is not None and warning(source) else ""
        weak = weak or bool(dagger)
        number = f" [{numbers[source]}]" if source is not None and source in numbers else ""
        fire = "".join(row.fires) if len(row.fires) == 1 else ""
        value = (row.symbol, *row.members)
        alike = {tuple(other.combinations) for one, other in zip(values, rows, strict=True) if one == value}
        loads = "; ".join(row.combinations) if value in several and len(alike) > 1 else ""
        under = ", ".join(filter(None, (fire, loads)))
        base = result_text(row.base) if row.base is not None else plain(row.value, _DIGITS)
        cells = [_factor(row.factors.get(name)) for name in columns]
        words.append((", ".join(_bare(list(row.members))) if whose else "", under))
        made.append((f"{base}{dagger}{number}", *cells, Strong(result_text(row.end))))
    plain_ones = f"{', '.join(map(_named, ones))} {'is' if len(ones) == 1 else 'are'} 1.0." if ones else ""
    more = f"{left_out} more under other combinations: the full form." if left_out else ""
    note = " ".join(filter(None, (plain_ones, more, NOTE if weak else "")))
    said = [place for place in range(len(WORDS)) if any(one[place] for one in words)]
    told: list[tuple[Cell, ...]] = [
        (Symbol(row.symbol), *(one[place] for place in said)) for row, one in zip(rows, words, strict=True)
    ]
    heads: tuple[Cell, ...] = ("value", *(WORDS[one] for one in said), REFERENCE, *map(Symbol, columns), "allowed")
    wide = [float(max(len(each[one]) for each in words) > NARROW) for one in said]
    widths = (0.0, *wide, 0.0, *(0.0 for _ in columns), 0.0)
    right = tuple(range(1 + len(said), len(heads)))
    both = tuple((*some, *rest) for some, rest in zip(told, made, strict=True))
    return RichTable("Design values and factors", heads, both, widths, right, note, "factors", anchor)


def _bare(members: list[str]) -> list[str]:
    """Without the name of their frame, which the piece is at: `truss: tie` is the tie."""
    return [name.rpartition(FRAME)[2] for name in members]


def _named(name: str) -> str:
    """A factor in running text."""
    return name if lettered(name) is not None else plain_symbol(name)


def _factor(value: float | None) -> str:
    """A factor: a dash where it does not apply, 1.0 where it changes nothing."""
    return "–" if value is None else "1.0" if value == 1.0 else plain(value, _DIGITS)
