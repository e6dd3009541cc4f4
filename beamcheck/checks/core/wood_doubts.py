"""What keeps wood from passing whatever its figures are: how its grade is known, its size, what was done to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ...model.evidence import read_evidence, read_stamp
from ...model.pieces import Stock
from ...values.judgment import judgment
from ...values.load_words import told
from ...values.lumber import DesignValues, Size, highest_values
from .question import PlausibleAnswer, Question, ask
from .result import Check


@dataclass(frozen=True)
class WoodDoubt:
    """One thing that is not known of a stock, and the question that would settle it."""

    text: str
    question: Question


def wood_evidence_checks(name: str, doubts: tuple[WoodDoubt, ...]) -> list[Check]:
    """Doubts about the wood of a piece: each keeps it from passing."""
    what, clause = "evidence for the wood", "NDS 2018 4.1"
    return [Check.refers("wood.evidence", name, what, clause, doubt.text, ask=doubt.question) for doubt in doubts]


def wood_doubts(stock: Stock, size: Size, values: DesignValues) -> Iterator[WoodDoubt]:
    """Everything that is in doubt about a stock whose species and grade are said."""
    yield from _grade(stock)
    yield from _letter(stock)
    if size.surface == "rough":
        field, sides = f"stock.{stock.name}.size", f"{size.b:g} in x {size.d:g} in"
        answers = [PlausibleAnswer(sides, ((field, sides), (f"stock.{stock.name}.meant.size", "measured, rough sawn")))]
        text = f"size {stock.size!r} is only a name: measure the least section and enter that"
        yield WoodDoubt(text, ask("measured_size", stock.name, field, answers=answers))
    if values.source.confidence == "low":
        text = f"{values.species} {values.grade}: the tabulated values are recalled with low confidence"
        wood = f"{values.species} {values.grade}"
        yield WoodDoubt(text, ask("low_confidence", stock.name, wood=wood))
    if stock.incised and size.size_class != "dimension":
        text = "incised timber: NDS 2018 4.3.8 gives incising factors for dimension lumber only"
        yield WoodDoubt(text, ask("incised_timber", stock.name))
    yield from _treatment(stock)


def treated_with(stock: Stock) -> str:
    """What treated wood was treated with, as a field or the words of its end tag say; '' where neither does."""
    return stock.treated_with or next((one.says for one in told(stock.evidence, "treatment")), "")


def _treatment(stock: Stock) -> Iterator[WoodDoubt]:
    """Preservative leaves the values as they are, incising apart; treatment against fire does not (NDS 2018 4.3.8)."""
    if not stock.treated or stock.values is not None:
        return
    with_ = treated_with(stock)
    if with_ == "preservative":
        return
    if not with_:
        text = "treated wood: what it was treated with is not said; against fire its values come from who treated it"
        yield WoodDoubt(text, ask("treated_with", stock.name, f"stock.{stock.name}.treated_with"))
    else:
        text = "treated against fire: its values come from who treated it (NDS 2018 4.3.8)"
        yield WoodDoubt(text, ask("fire_retardant", stock.name))


def _letter(stock: Stock) -> Iterator[WoodDoubt]:
    """Values by letter beyond all that the tables hold."""
    if stock.values is None:
        return
    above = judgment("values by letter over the highest of the tables").value
    high = [
        f"{name} {getattr(stock.values, name):,.0f} psi (the tables end at {most:,.0f})"
        for name, most in highest_values().items() if getattr(stock.values, name) > above * most
    ]  # fmt: skip
    if high:
        text = f"stock {stock.name!r}: the letter gives more than any sawn lumber has: {', '.join(high)}"
        yield WoodDoubt(text, ask("letter_values", stock.name))


def _grade(stock: Stock) -> Iterator[WoodDoubt]:
    """Who says what grade it is, and whether the words are evidence of it."""
    named, field = f"stock {stock.name!r}", f"stock.{stock.name}.evidence"
    if stock.grade_from is None:
        if stock.values is None:
            text = f"{named}: where the grade comes from is not said (stamp, certificate or engineer)"
            yield WoodDoubt(text, ask("grade_from", stock.name, f"stock.{stock.name}.grade_from"))
        return  # the letter that gives the values is the evidence
    if stock.grade_from == "assumed":
        text = f"PRELIMINARY: the grade of {named} is assumed; have it graded"
        yield WoodDoubt(text, ask("grade_assumed", stock.name, f"stock.{stock.name}.grade_from"))
        return
    if not stock.evidence.strip():
        text = f"{named}: the {stock.grade_from} is not described; copy its text into `evidence`"
        yield WoodDoubt(text, ask("evidence", stock.name, field, source=stock.grade_from))
        return
    stamp = read_stamp(stock.evidence, stock.grade)
    if stamp.other_grade:
        text = f"{named} is entered as {stock.grade}, and the evidence says {stamp.other_grade}: {stock.evidence!r}"
        answers = [PlausibleAnswer(stamp.other_grade, ((f"stock.{stock.name}.grade", stamp.other_grade),))]
        asked = ask("grade_differs", stock.name, f"stock.{stock.name}.grade", answers=answers, grade=stock.grade,
                    other=stamp.other_grade)  # fmt: skip
        yield WoodDoubt(text, asked)
        return
    missing = stamp.missing if stock.grade_from == "stamp" else read_evidence(stock.evidence).missing
    if missing:
        text = f"{named}: {stock.evidence!r} is no evidence of a {stock.grade_from}: {missing}"
        yield WoodDoubt(text, ask("evidence", stock.name, field, source=stock.grade_from))
