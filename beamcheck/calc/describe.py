"""What `help` shows of a formula: its equation as text, each argument with unit and range, where it comes from.

The author types one line of what it is, what an engineer must know, and an example. A line `name: words` there says
more of that argument than tables/nomenclature.csv does; the rest is put together here, on first look.
"""

from __future__ import annotations

import inspect
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from textwrap import fill
from typing import Any, Protocol

from .ranges import Range
from .trace import Term

WIDTH = 100
_WHERE, _JOINED, _COMPARED, _SUM, _PRODUCT, _POWER, _ATOM = range(7)
_LEVELS = {
    "where": _WHERE, "and": _JOINED, "or": _JOINED, "<": _COMPARED, "<=": _COMPARED, ">": _COMPARED, ">=": _COMPARED,
    "+": _SUM, "-": _SUM, "*": _PRODUCT, "/": _PRODUCT, "neg": _PRODUCT, "^": _POWER,
}  # fmt: skip


class Declared(Protocol):
    """What a formula declares (see `core.Formula`)."""

    symbol: str
    clause: str
    unit: str
    known: str
    arguments: tuple[str, ...]
    function: Any

    @property
    def ranges(self) -> Mapping[str, tuple[Range, ...]]: ...

    @property
    def result_ranges(self) -> tuple[Range, ...]: ...

    @property
    def tree(self) -> Term: ...


def equation_text(term: Term) -> str:
    """An expression in one line, in the order in which it is written: `3 * V / (2 * b * d)`."""
    if term.op == "symbol":
        return str(term.value)
    if term.op == "number":
        simple = Fraction(term.value).limit_denominator(64)
        return (
            f"({simple})" if float(simple) == term.value and simple.denominator not in (1, 2, 4) else f"{term.value:g}"
        )
    if term.op == "where":
        condition, yes, no = term.args
        return f"{_at_least(yes, _JOINED)} where {equation_text(condition)}, else {equation_text(no)}"
    if term.op == "neg":
        return f"-{_at_least(term.args[0], _POWER)}"
    if term.op == "^":
        return f"{_at_least(term.args[0], _ATOM)}^{_at_least(term.args[1], _ATOM)}"
    if term.op in _LEVELS:
        level = _LEVELS[term.op]
        left, right = term.args
        # on the right of - and / the same level needs brackets
        return f"{_at_least(left, level)} {term.op} {_at_least(right, level + (term.op in '-/'))}"
    return f"{term.op}({', '.join(map(equation_text, term.args))})"


def documentation(formula: Declared) -> str:
    """The whole text in numpydoc form."""
    what, notes, about, example = typed(formula)

    def words(name: str) -> str:
        return ": ".join(each for each in (meaning(name), about.get(name, "")) if each)

    arguments = [_entry(name, _allowed(unit_of(name), formula.ranges[name]), words(name)) for name in formula.arguments]
    result = _allowed(formula.unit, formula.result_ranges)
    parts = [
        what,
        fill(
            f"{formula.symbol} = {equation_text(formula.tree)}",
            WIDTH,
            initial_indent=" " * 4,
            subsequent_indent=" " * 8,
        ),
        f"{formula.clause}. How known: {formula.known}.",
        _section("Parameters", "\n".join(arguments)),
        _section("Returns", _entry(formula.symbol, result, words(formula.symbol))),
        _section("Raises", _entry("OutOfRange", "", "Outside a range said above; in an array that element is NaN.")),
        _section("Notes", "\n".join(fill(note, WIDTH) for note in notes)) if notes else "",
        _section("Examples", example) if example else "",
    ]
    return "\n\n".join(part for part in parts if part)


def typed(formula: Declared) -> tuple[str, list[str], dict[str, str], str]:
    """What the author wrote: the line of what it is, notes, what is said of single arguments, the example."""
    text, _, example = inspect.cleandoc(formula.function.__doc__ or "").partition(">>> ")
    what, *paragraphs = [" ".join(each.split()) for each in _sentences(text, formula)]
    about: dict[str, str] = {}
    notes: list[str] = []
    for paragraph in paragraphs:
        name, colon, words = paragraph.partition(": ")
        names = name.split(", ")
        if colon and all(each in (*formula.arguments, formula.symbol) for each in names):
            about |= dict.fromkeys(names, words)
        else:
            notes.append(paragraph)
    example = f">>> {example}".rstrip() if example else ""
    if notes and notes[-1].endswith(":"):  # leads to the example
        example = f"{fill(notes.pop(), WIDTH)}\n\n{example}"
    return what, notes, about, example


@cache
def _nomenclature() -> dict[str, tuple[str, str]]:
    from ..values.loader import rows

    return {row["name"]: (row["meaning"], row["unit"]) for row in rows("nomenclature")}


def meaning(name: str) -> str:
    """What a symbol stands for, of tables/nomenclature.csv."""
    return _nomenclature().get(name, ("", ""))[0]


def unit_of(name: str) -> str:
    """Unit of a symbol, of tables/nomenclature.csv ('' for none)."""
    return _nomenclature().get(name, ("", ""))[1]


def _sentences(text: str, formula: Declared) -> list[str]:
    """Paragraphs; a line `name: words` begins one of its own."""
    found: list[str] = [""]
    for line in text.splitlines():
        head = line.partition(": ")[0].split(", ")
        if not line.strip():
            found.append("")
        elif ": " in line and all(each in (*formula.arguments, formula.symbol) for each in head):
            found.append(line)
        else:
            found[-1] += f" {line}"
    return [each for each in found if each.strip()]


def _allowed(unit: str, ranges: tuple[Range, ...]) -> str:
    return ", ".join([unit or "no unit", *(allowed.words() for allowed in ranges)])


def _at_least(term: Term, level: int) -> str:
    text = equation_text(term)
    return text if _LEVELS.get(term.op, _ATOM) >= level else f"({text})"


def _section(title: str, text: str) -> str:
    return f"{title}\n{'-' * len(title)}\n{text}"


def _entry(name: str, kind: str, words: str) -> str:
    return f"{name} : {kind}\n    {words}" if kind else f"{name}\n    {words}"
