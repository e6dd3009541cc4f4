"""A piece of surveyed timber: what keeps it from passing, what a certificate lifts, what to confirm."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ...model.beams import Beam, beam_length
from ...model.conditions.air import Climate
from ...model.fields.evidence import days_in, person_in, read_evidence
from ...model.posts import Post
from ...model.stock import Stock
from ...units import show
from ..core.asking.question import ask
from ..core.result import Check, PieceResult, Table
from ..core.wood.material import is_unknown
from ..core.wood.site_tests import tests_words
from .findings import Finding, findings, judged
from .indicated import NOTE, indicated_table
from .profile import profile_table

SURVEY, STAMP = "survey of old timber", "IRC R502.1, R602.1"
SCREENS = (
    "A survey screens: it says what to ask, and feeds the least section that was measured into the checks. Only a "
    "grader's certificate or an engineer's letter, with name, date and number, lets a surveyed timber pass."
)


def with_survey(
    result: PieceResult, stock: Stock, piece: object = None, climate: Climate | None = None
) -> PieceResult:  # fmt: skip
    """The result of a piece with the survey of its timber; of one without a survey as it is."""
    if stock.survey is None or not result.checks:
        return result
    found = [*findings(stock), *_one_of_many(piece)]
    checks = (*result.checks, *survey_checks(result.name, stock, found))
    tables = [confirm_table(found, stock), *filter(None, [indicated_table(stock), profile_table(stock, climate)])]
    words = (SCREENS, NOTE, *tests_words(stock), *_longer_than(piece, stock))
    done = replace(result, tables=(*result.tables, *tables), assumptions=(*result.assumptions, *words))
    return done.with_checks(checks)


def _longer_than(piece: object, stock: Stock) -> Iterator[str]:
    """A timber that is longer than what is made of it."""
    long = beam_length(piece) if isinstance(piece, Beam) else piece.height if isinstance(piece, Post) else 0.0
    if stock.survey is not None and 0.0 < long < stock.survey.length - 1.0:
        yield (
            f"The timber is {show(stock.survey.length, 'length')} long and the piece {show(long, 'length')}: the piece "
            "begins at the left end of the timber, and what was found beyond it is cut off."
        )


def _one_of_many(piece: object) -> Iterator[Finding]:
    """A survey is of one timber: where the entry stands for a pair or a row, the others have to be as good."""
    pair, spacing = getattr(piece, "pair", False), getattr(piece, "spacing", None)
    if pair or spacing is not None:
        row = "a pair of them" if spacing is None else f"a row of them, {show(spacing, 'length')} apart"
        yield judged("one of many", 1.0, f"one timber was looked at, and the entry stands for {row}")


def survey_checks(name: str, stock: Stock, found: Sequence[Finding]) -> Iterator[Check]:
    """Each finding once: kept, where it is nothing or a certificate covers it; else a question."""
    assert stock.survey is not None
    if stock.survey.rejected.strip():
        text = f"rejected in writing: {stock.survey.rejected}"
        yield Check.breaks_rule("wood.written_no", name, "rejected timber", STAMP, text)
    graded, by_engineer = _papers(stock)
    if wanting := _wanting(stock):
        asked = ask("survey_certificate", stock.name, f"stock.{stock.name}.evidence")
        text = f"{_words(stock)!r} does not say {wanting}"
        yield Check.refers("wood.written", name, "certificate of the timber", STAMP, text, ask=asked)
    id, what, count = "wood.what_was_found", "found in the survey", Counter[str]()
    if clean := [one.text for one in found if one.for_whom == "nothing"]:
        yield Check.keeps_rule(id, name, f"{what}: {len(clean)} entries that ask for nobody", SURVEY, "; ".join(clean))
    for one in found:
        if one.for_whom == "nothing":
            continue
        if by_engineer or (graded and one.for_whom == "grader"):
            text = f"{one.text}; graded with it: {_words(stock)}"
            yield Check.keeps_rule(id, name, f"{what}: {one.entry}", SURVEY, text)
            continue
        count[one.entry] += 1
        key = f"survey_{one.for_whom}"
        at = f"stock.{stock.name}.evidence" if one.for_whom == "grader" else "ruling"
        asked = ask(key, name, at, finding=one.text, why=one.why)
        asked = replace(asked, id=f"{asked.id} of {one.entry}{f' {count[one.entry]}' if count[one.entry] > 1 else ''}")
        yield Check.refers(id, name, f"{what}: {one.entry}", SURVEY, f"{one.text}. {one.why}", ask=asked)


def _papers(stock: Stock) -> tuple[bool, bool]:
    """Whether a grader's certificate, and whether an engineer's letter, covers this timber: name, date and number."""
    words = _words(stock)
    if _wanting(stock) or (stock.values is None and stock.grade_from not in ("certificate", "engineer")):
        return False, False
    read = read_evidence(words)
    engineer = stock.grade_from != "certificate" and read.answers_for("structure")
    return read.answers_for("grade"), engineer


def _words(stock: Stock) -> str:
    """The words of its certificate or letter."""
    return stock.evidence if stock.values is None else stock.values.source


def _wanting(stock: Stock) -> str:
    """What is missing in a certificate or letter that is entered; '' where none is, or nothing is missing."""
    words = _words(stock)
    if stock.values is None and stock.grade_from not in ("certificate", "engineer"):
        return ""
    read = read_evidence(words)
    if read.doubt:
        return f"it for sure ({read.doubt!r})"
    if other := _another(words, stock.name):
        return f"that it is for {stock.name}: it names {other}"
    who = "by which person" if read.who else "who"
    parts = [(who, read.who and person_in(words)), ("when", read.when), ("under which number", read.what)]
    if wanting := " and ".join(word for word, there in parts if not there):
        return wanting
    seen = days_in("" if stock.survey is None else stock.survey.by)
    if seen and (signed := days_in(words)) and max(signed) < min(seen):
        return f"what was found on {min(seen):%d %B %Y}".replace(" 0", " ") + ": it is older than the survey"
    return ""


def _another(words: str, name: str) -> str:
    """The timber that a paper names by another number of the same kind, and not this one; '' where it names none."""
    stem = re.fullmatch(r"(.*[A-Za-z])[\s-]*\d+", name)
    if stem is None:
        return ""
    found: list[str] = re.findall(rf"\b{re.escape(stem[1])}[\s-]*\d+\b", words, re.IGNORECASE)
    plain = [re.sub(r"[\s-]", "", text).casefold() for text in found]
    return "" if re.sub(r"[\s-]", "", name).casefold() in plain else next(iter(found), "")


def confirm_table(found: Sequence[Finding], stock: Stock) -> Table:
    """Exactly what a grader or engineer must still confirm, the engineer's first."""
    graded, by_engineer = _papers(stock)
    still = [one for one in found if one.for_whom != "nothing" and not by_engineer]
    still = [one for one in still if not (graded and one.for_whom == "grader")]
    rows = [(one.for_whom, one.text, one.why) for one in sorted(still, key=lambda one: one.for_whom)]
    if is_unknown(stock):
        rows.insert(0, ("grader", f"species and grade of {stock.name}", "Without them no design value holds."))
    clean = sum(one.for_whom == "nothing" for one in found)
    note = f"{clean} more entries of the survey ask for nobody."
    return Table(
        "To be confirmed in writing", ("by a", "what", "why"), tuple(rows) or (("nobody", "nothing", ""),), note
    )
