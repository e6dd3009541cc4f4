"""Span tables: species by grade by size by spacing, as CSV and as one HTML page. Every cell is a longest span."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping, Sequence
from html import escape
from itertools import product

from ..checks.beams.deflection import counts_creep
from ..checks.core.result import CAUTION, SIGN_OFF
from ..errors import BeamcheckError, OutOfRange, UnknownName
from ..lettering import legible
from ..own_digest import BLANK, with_digest, with_room
from ..provenance import Source
from ..records import dataclass
from ..units import read, show
from ..values.factors import DeflectionLimits
from ..values.loader import CERTAINTY
from ..values.lumber import design_values, read_size, species_name
from ..version import VERSION
from .batch import CHECKS
from .simple_beam import FIELD_OF_KIND, PSF, Member, Ready, member, ready
from .sizing import LONGEST, Answer, longest_spans

LETTERS = dict(zip(CHECKS, "bsrlwt", strict=True))  # beside a span: the check that governs it
COLUMNS = (
    "species", "grade", "size", "spacing_in", "dead_psf", "live_psf", "roof_live_psf", "snow_psf", "limit_live",
    "limit_snow_or_roof_live", "limit_total", "span_in", "span", "search_ended_here", "governs", "combination", "ratio",
    "how_values_are_known", "from_memory", "in_doubt", "note",
)  # fmt: skip
STYLE = """
body { font: 15px/1.45 serif; color: #000; background: #fff; max-width: 62rem; margin: 1.5rem auto; padding: 0 1rem }
table { border-collapse: collapse; margin: 1rem 0; width: 100% }
th, td { border-bottom: 1px solid #888; padding: .25rem .5rem; text-align: left; vertical-align: top }
thead th { border-bottom: 2px solid #000 }
.caution { border: 2px solid #000; padding: .6rem .8rem }
.memory { font-weight: bold }
dt { font-weight: bold; margin-top: .4rem }
@media print { body { margin: 0; max-width: none } thead { display: table-header-group } tr { break-inside: avoid } }
"""


@dataclass(frozen=True)
class Cell:
    """One span of a table, or why there is none. Spacing in inches."""

    species: str
    grade: str
    size: str
    spacing: float
    answer: Answer | None
    why: str = ""

    @property
    def wood(self) -> str:
        """Size, species and grade in words."""
        return f"{self.size} {self.species} {self.grade}"


@dataclass(frozen=True)
class SpanTable:
    """A span table. `keys` are the six things without which a table says nothing, as label and text."""

    title: str
    keys: tuple[tuple[str, str], ...]
    cells: tuple[Cell, ...]
    loads: Mapping[str, float]  # kind to lbf/in2
    limits: DeflectionLimits
    caution: str = CAUTION
    sign_off: str = SIGN_OFF

    @property
    def answers(self) -> list[Answer]:
        """The spans, without the empty cells."""
        return [cell.answer for cell in self.cells if cell.answer is not None]

    @property
    def conditions(self) -> tuple[str, ...]:
        """What must be so for the table to hold; none of it was checked."""
        return tuple(dict.fromkeys(text for answer in self.answers for text in answer.conditions))

    @property
    def doubts(self) -> tuple[str, ...]:
        """What is doubtful about wood or finish of some rows."""
        return tuple(dict.fromkeys(text for answer in self.answers for text in answer.doubts))

    @property
    def notes(self) -> tuple[str, ...]:
        """What was assumed, and which cells are empty for want of values."""
        own = (f"{cell.wood}: {text}" for cell in self.cells if cell.answer for text in cell.answer.notes)
        empty = (f"{cell.wood}: no span, {cell.why}" for cell in self.cells if cell.answer is None)
        return tuple(dict.fromkeys((*own, *empty)))

    @property
    def sources(self) -> tuple[Source, ...]:
        """What the table rests on, from the least known to the best."""
        found = dict.fromkeys(source for answer in self.answers for source in answer.sources)
        return tuple(sorted(found, key=lambda source: -CERTAINTY.index(source.how)))

    def __repr__(self) -> str:
        keys = "; ".join(f"{label}: {text}" for label, text in self.keys)
        return "\n".join([self.title, keys, f"{len(self.answers)} spans", self.caution, self.sign_off])

    def csv(self) -> str:
        """The table as CSV: comment lines that begin with '#', a head, one line a cell. Lengths in inches."""
        out = io.StringIO()
        for label, text in with_room(self._head()):
            out.write(f"# {_line(label)}: {_line(text)}\n")
        lines = csv.writer(out, lineterminator="\n")
        lines.writerow(COLUMNS)
        lines.writerows(_record(cell, self) for cell in self.cells)
        return with_digest(out.getvalue())

    def _head(self) -> Iterator[tuple[str, str]]:
        yield "generator", f"whatcarries {VERSION}"
        yield "title", self.title
        yield "caution", self.caution
        yield "sign-off", self.sign_off
        yield from self.keys
        yield from (("condition", text) for text in self.conditions)

    def html(self) -> str:
        """The table as one HTML page: no script, no request to anywhere."""
        return with_digest("\n".join(_page(self)) + "\n")

    def _repr_html_(self) -> str:
        """For a notebook."""
        return "\n".join(_body(self))


def span_table(
    species: Sequence[str],
    grades: Sequence[str],
    sizes: Sequence[str],
    spacings: Sequence[object],
    *,
    finish: str,
    service: str,
    moisture: str,
    top_held: object,
    title: str = "",
    at_most: object = LONGEST,
    **more: object,
) -> SpanTable:
    """The longest span of every species, grade, size and spacing.

    Parameters
    ----------
    species, grades, sizes : sequence of str
    spacings : sequence of str or pint quantity
    finish, service, moisture, top_held, **more
        As for `member`: the loads, what shares them, seats, own deflection limits.
    title : str
        The heading; a plain one when left out.
    at_most : str or pint quantity
        Where the search for a span ends.

    Raises
    ------
    JobError
        With every problem of what was given.
    UnknownName, OutOfRange
        If a species is unknown, or there are values for none of the cells.
    UnitError
        If a size or a length cannot be read.
    """
    for name, given in (("species", species), ("grades", grades), ("sizes", sizes), ("spacings", spacings)):
        if isinstance(given, str) or not given:
            raise OutOfRange(f"{name} is a list, with one entry at least, such as {_EXAMPLES[name]}")
    said = {"finish": finish, "service": service, "moisture": moisture, "top_held": top_held, **more}
    found: list[Cell | Ready] = []
    first_error: BeamcheckError | None = None
    for one, grade, size, spacing in product(map(species_name, species), grades, sizes, spacings):
        try:
            design_values(one, grade, read_size(size))
            found.append(ready(member(one, grade, size, spacing=spacing, **said)))  # type: ignore[arg-type]
        except (UnknownName, OutOfRange) as error:
            first_error = first_error or error
            found.append(Cell(one, grade, size, read(spacing, "length"), None, str(error)))
    there = [one for one in found if isinstance(one, Ready)]
    if not there:
        assert first_error is not None
        raise first_error
    answers = iter(longest_spans([one.member for one in there], at_most=at_most))
    cells = tuple(one if isinstance(one, Cell) else _filled(one, next(answers)) for one in found)
    keys = {
        "Species": [cell.species for cell in cells], "Grade": [cell.grade for cell in cells],
        "Size": [cell.size for cell in cells], "Spacing": [_spacing(cell.spacing) for cell in cells],
        "Loads": [_loads(there[0].member)], "Deflection limit": [_limits(there[0].limits)],
    }  # fmt: skip
    return SpanTable(
        title or f"Longest spans, {service}",
        tuple((label, ", ".join(dict.fromkeys(texts))) for label, texts in keys.items()),
        cells,
        there[0].member.loads,
        there[0].limits,
    )


def _filled(one: Ready, answer: Answer) -> Cell:
    stock = one.member.stock
    return Cell(stock.species, stock.grade, stock.size, one.member.spacing, answer)


_EXAMPLES = {
    "species": "['Hem-Fir']", "grades": "['No.2']", "sizes": "['2x8', '2x10']", "spacings": "['16 in', '24 in']",
}  # fmt: skip


def _spacing(spacing: float) -> str:
    """Spacings are spoken of in inches: 24 in, not 2 ft."""
    return f"{spacing:.0f} in" if spacing == round(spacing) else show(spacing, "length")


def _loads(one: Member) -> str:
    words = [f"{FIELD_OF_KIND[kind].replace('_', ' ')} {show(load, 'area load')}" for kind, load in one.loads.items()]
    return f"{', '.join(words)}; own weight is added"


def _limits(limits: DeflectionLimits) -> str:
    cap = limits.total_at_most
    dead = "with creep" if counts_creep(limits) else "with the part of the dead load that comes with time"
    return (
        f"live load span/{limits.live.value}, snow or roof live load span/{limits.snow.value}, total {dead} "
        f"span/{limits.total.value}" + (f" and at most {show(cap.value, 'small length')}" if cap is not None else "")
    )


# ---- CSV ----------------------------------------------------------------------------------------------------------


def _line(text: str) -> str:
    return " ".join(legible(text).split())


def _text(text: str) -> str:
    """A text that no spreadsheet takes for a formula."""
    line = _line(text)
    return f"'{line}" if line[:1] in ("=", "+", "-", "@") else line


def _record(cell: Cell, table: SpanTable) -> list[str]:
    answer, limits = cell.answer, table.limits
    loads = [f"{table.loads[kind] / PSF:.10g}" if kind in table.loads else "" for kind in FIELD_OF_KIND]
    keys = [_text(cell.species), _text(cell.grade), _text(cell.size), f"{cell.spacing:.10g}", *loads]
    keys += [str(limits.live.value), str(limits.snow.value), str(limits.total.value)]
    if answer is None:
        return [*keys, *[""] * 9, _text(cell.why)]
    span = ["none", "none"] if answer.span is None else [f"{answer.span:.0f}", show(answer.span, "length")]
    values = answer.design_values
    return [
        *keys, *span, "yes" if answer.capped else "no", answer.governs, answer.combination, f"{answer.ratio:.6f}",
        values.how, _text("; ".join(dict.fromkeys(source.document for source in answer.recalled))),
        _text("; ".join(answer.doubts)), _text("; ".join(answer.notes)),
    ]  # fmt: skip


# ---- HTML ---------------------------------------------------------------------------------------------------------


def _safe(text: str) -> str:
    return escape(legible(text))


def _page(table: SpanTable) -> Iterator[str]:
    yield "<!DOCTYPE html>"
    yield '<html lang="en">'
    yield "<head>"
    yield '<meta charset="utf-8">'
    yield f'<meta name="generator" content="whatcarries {_safe(VERSION)}">'
    yield f'<meta name="digest" content="{BLANK}">'
    yield """<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">"""
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{_safe(table.title)}</title>"
    yield f"<style>{STYLE}</style>"
    yield "</head>"
    yield "<body>"
    yield from _body(table)
    yield "</body>"
    yield "</html>"


def _body(table: SpanTable) -> Iterator[str]:
    yield f"<h1>{_safe(table.title)}</h1>"
    yield f'<p class="caution" role="note"><strong>Caution.</strong> {_safe(table.caution)}</p>'
    yield "<dl>"
    yield from (f"<dt>{_safe(label)}</dt><dd>{_safe(text)}</dd>" for label, text in table.keys)
    yield "</dl>"
    yield from _spans(table)
    letters = ", ".join(f"{letter}: {check}" for check, letter in LETTERS.items())
    yield f"<p>Spans are rounded down to the inch. The letter names the check that governs. {_safe(letters)}. "
    yield "A plus sign: the search ended there.</p>"
    yield from _list("What must be so", table.conditions)
    yield from _list("In doubt", table.doubts)
    yield from _list("Notes", table.notes)
    yield "<h2>Sources</h2>"
    yield "<table><thead><tr><th>source</th><th>how it is known</th><th>note</th></tr></thead><tbody>"
    for source in table.sources:
        how = "memory: to be confirmed against the printed document" if source.how == "memory" else source.how
        kind = ' class="memory"' if source.how == "memory" else ""
        yield f"<tr><td>{_safe(source.document)}</td><td{kind}>{_safe(how)}</td><td>{_safe(source.note)}</td></tr>"
    yield "</tbody></table>"
    yield f"<p>{_safe(table.sign_off)}</p>"


def _spans(table: SpanTable) -> Iterator[str]:
    spacings = list(dict.fromkeys(cell.spacing for cell in table.cells))
    heads = ("species", "grade", "size", *map(_spacing, spacings))
    yield "<table><thead><tr>"
    yield from (f'<th scope="col">{_safe(head)}</th>' for head in heads)
    yield "</tr></thead><tbody>"
    lines: dict[tuple[str, str, str], dict[float, str]] = {}
    for cell in table.cells:
        lines.setdefault((cell.species, cell.grade, cell.size), {})[cell.spacing] = _cell(cell)
    for names, spans in lines.items():
        first = "".join(f'<th scope="row">{_safe(name)}</th>' for name in names)
        yield f"<tr>{first}{''.join(f'<td>{spans[spacing]}</td>' for spacing in spacings)}</tr>"
    yield "</tbody></table>"


def _cell(cell: Cell) -> str:
    if cell.answer is None:
        return "no values"
    letter = f" <small>{LETTERS[cell.answer.governs]}</small>"
    if cell.answer.span is None:
        return f"none{letter}"
    return f"{_safe(show(cell.answer.span, 'length'))}{'+' if cell.answer.capped else ''}{letter}"


def _list(head: str, texts: Sequence[str]) -> Iterator[str]:
    if texts:
        yield f"<h2>{head}</h2>"
        yield "<ul>"
        yield from (f"<li>{_safe(text)}</li>" for text in texts)
        yield "</ul>"
