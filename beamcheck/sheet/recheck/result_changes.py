"""What differs between two results, check by check; numbers that differ by less than any sheet prints are the same."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ...units import from_inner, unit_label
from ..record.enclosed import Number, OneCheck, OnePiece, Result
from .difference import Difference, alike

SPAN_QUESTION = "span question"  # a job of that name gets its answer and its assumptions from outside its text
_GIVEN_ELSEWHERE = frozenset((
    "generator", "format", "digest", "verdict", "meaning", "reasons", "pieces", "sources", "job_file",
))  # fmt: skip
_OF_PIECE = frozenset(("name", "kind", "verdict", "checks", "decided_by"))
_LISTS = ("assumptions", "remedies", "to_see")
_KIND_OF_UNIT = {"psi": "stress", "lbf": "force", "in": "small length", "lbf*in": "moment"}
_SETTLED = 4  # significant digits that show nearly every difference


def result_changes(old: Result, new: Result, renamed: Mapping[str, str] | None = None) -> list[Difference]:
    """Differences of verdicts, checks, values taken from tables, and sources.

    `renamed`: names of pieces, old to new.
    """
    renamed = renamed or {}
    found = []
    if old.verdict != new.verdict:
        found.append(Difference("the whole job, verdict", old.verdict, new.verdict))
    news = {piece.name: piece for piece in new.pieces}
    known = {renamed.get(piece.name, piece.name) for piece in old.pieces}
    for piece in old.pieces:
        other = news.get(renamed.get(piece.name, piece.name))
        if other is None:
            found.append(Difference(f"{piece.kind} {piece.name}", _of_piece(piece)))
        else:
            found += _piece_changes(piece, other, new.units_of_texts)
    found += [Difference(f"{piece.kind} {piece.name}", "", _of_piece(piece)) for piece in new.pieces
              if piece.name not in known]  # fmt: skip
    was, now = ([f"{one.document} ({one.how}{', ' * bool(one.confidence)}{one.confidence})" for one in result.sources]
                for result in (old, new))  # fmt: skip
    return [*found, *_list_changes("sources", was, now)]


def _of_piece(piece: OnePiece) -> str:
    return f"verdict {piece.verdict}, {len(piece.checks)} checks"


def _piece_changes(old: OnePiece, new: OnePiece, units: str) -> Iterator[Difference]:
    name = new.name
    for what, was, now in (("kind", old.kind, new.kind), ("verdict", old.verdict, new.verdict)):
        if was != now:
            yield Difference(f"{name}, {what}", was, now)
    olds, news = _numbered(old), _numbered(new)
    for key, check in olds.items():
        if key not in news:
            yield Difference(f"{name}, {_place(check)}", _of_check(check, units))
        elif changed := list(_check_changes(check, news[key], units)):
            was, now = ("; ".join(f"{label} {pair[side]}" for label, *pair in changed) for side in (0, 1))
            yield Difference(f"{name}, {_place(news[key])}", was, now)
    for key, check in news.items():
        if key not in olds:
            yield Difference(f"{name}, {_place(check)}", "", _of_check(check, units))
    yield from _taken_changes(name, olds, news, units)


def _numbered(piece: OnePiece) -> dict[tuple[str, str, int], OneCheck]:
    """Each check under its subject (where that is not the piece) and name, and its number among those alike."""
    seen: Counter[tuple[str, str]] = Counter()
    found = {}
    for check in piece.checks:
        key = ("" if check.subject == piece.name else check.subject, check.what)
        found[(*key, seen[key])] = check
        seen[key] += 1
    return found


def _place(check: OneCheck) -> str:
    return f"{check.what}, {check.where}" if check.where and check.where not in check.what else check.what


def _of_check(check: OneCheck, units: str) -> str:
    ratio = f", ratio {_with_digits(check.ratio, _SETTLED, units)}" if check.ratio is not None else ""
    return f"verdict {check.verdict}{ratio}"


def _check_changes(old: OneCheck, new: OneCheck, units: str) -> Iterator[tuple[str, str, str]]:
    """(what, was, is) for every entry of a check that differs."""
    if old.verdict != new.verdict:
        yield "verdict", old.verdict, new.verdict
    for label in ("ratio", "demand", "capacity"):
        one, other = getattr(old, label), getattr(new, label)
        if not _same_number(one, other):
            yield label, *_pair(one, other, units)
    for label, text in (("combination", "governed by"), ("where", "place"), ("clause", "clause")):
        one, other = getattr(old, label), getattr(new, label)
        if one != other:
            yield text, one or "nothing", other or "nothing"
    if old.notes != new.notes:
        yield "note", " ".join(old.notes) or "none", " ".join(new.notes) or "none"


def _taken_changes(
    name: str, olds: Mapping[Any, OneCheck], news: Mapping[Any, OneCheck], units: str
) -> Iterator[Difference]:
    """Values that a check takes from a table or a letter, each once for the piece."""
    seen = set()
    for key in olds:
        if key not in news:
            continue
        was, now = (
            {step.symbol: step for step in check.steps if step.formula is None and step.source is not None}
            for check in (olds[key], news[key])
        )
        for symbol in was.keys() & now.keys():
            one, other = was[symbol].result, now[symbol].result
            pair = _pair(one, other, units)
            if not _same_number(one, other) and (symbol, pair) not in seen:
                seen.add((symbol, pair))
                source = now[symbol].source
                origin = f" (from {source.document})" if source is not None else ""
                yield Difference(f"{name}, value taken for {symbol}{origin}", *pair)


def _same_number(one: Number | None, other: Number | None) -> bool:
    if one is None or other is None:
        return one is other
    return one.unit == other.unit and one.text == other.text and alike(one.value, other.value)


def _pair(one: Number | None, other: Number | None, units: str) -> tuple[str, str]:
    """Both numbers with as many digits as it takes to tell them apart."""
    for digits in (_SETTLED, 7, 17):
        texts = _with_digits(one, digits, units), _with_digits(other, digits, units)
        if texts[0] != texts[1]:
            break
    return texts


def _with_digits(number: Number | None, digits: int, units: str) -> str:
    if number is None:
        return "none"
    if number.value is None:
        return number.text or "no number"
    value, label, kind = number.value, number.unit, _KIND_OF_UNIT.get(number.unit)
    if kind is not None:
        value, label = float(from_inner(value, kind, units)), unit_label(kind, units)
    return f"{value:.{digits}g} {label}".rstrip()


def text_changes(
    old: Mapping[str, Any], new: Mapping[str, Any], renamed: Mapping[str, str], *, everything: bool
) -> list[Difference]:
    """Differences of what surrounds the checks: assumptions, remedies, what to see.

    With `everything` (the jobs are the same) all else too: tables, drawings, texts at the head.
    """
    if SPAN_QUESTION in (one["job_file"]["name"] for one in (old, new)):
        return []
    found: list[Difference] = []
    news = {piece["name"]: piece for piece in new["pieces"]}
    for piece in old["pieces"]:
        other = news.get(renamed.get(piece["name"], piece["name"]))
        if other is None:
            continue
        for key in _LISTS:
            found += _list_changes(f"{other['name']}, {key.replace('_', ' ')}", piece.get(key, []), other.get(key, []))
        if everything:
            found += _rest_differs(piece, other, _OF_PIECE.union(_LISTS), other["name"])
    if everything:
        found += _rest_differs(old, new, _GIVEN_ELSEWHERE, "the whole job")
    return found


def _list_changes(where: str, old: Sequence[Any], new: Sequence[Any]) -> Iterator[Difference]:
    yield from (Difference(where, str(entry)) for entry in old if entry not in new)
    yield from (Difference(where, "", str(entry)) for entry in new if entry not in old)


def _rest_differs(
    old: Mapping[str, Any], new: Mapping[str, Any], but: frozenset[str], where: str
) -> Iterator[Difference]:
    for key in dict.fromkeys((*old, *new)):
        one, other = old.get(key), new.get(key)
        if key in but or alike(one, other):
            continue
        if key == "tables" and isinstance(one, list) and isinstance(other, list):
            yield from _tables_differ(where, one, other)
        else:
            yield Difference(f"{where}: {key.replace('_', ' ')} differ")


def _tables_differ(where: str, old: Sequence[Any], new: Sequence[Any]) -> Iterator[Difference]:
    """Tables of texts: the rows that are not in the other one."""
    was, now = ({table["title"]: table for table in tables} for tables in (old, new))
    for title in dict.fromkeys((*was, *now)):
        if title not in was or title not in now:
            yield Difference(f"{where}: table '{title}' {'is new' if title in now else 'is gone'}")
        elif was[title] != now[title]:
            rows = list(_list_changes(f"{where}: table '{title}', row", _rows(was[title]), _rows(now[title])))
            yield from rows or [Difference(f"{where}: table '{title}' differs")]


def _rows(table: Mapping[str, Any]) -> list[str]:
    return ["; ".join(map(str, row)) for row in table["rows"]]
