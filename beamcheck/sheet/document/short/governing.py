"""What governs a member, line by line: the steps of a few checks as rows, the others of a long one by their values."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from ....calc.pad import Step
from ....checks.core.result import Check, PieceResult
from ....checks.core.summary import quantity
from ....values.judgment import judgment
from ..blocks import Block, CheckBlock, Entry, Known, Lines, Paragraph
from ..piece import SI_STEPS, verdict_line
from ..prose import capital, sentence
from ..repeated_steps import Ledger
from ..rich_blocks import FoldEnd, FoldStart
from .checks_table import leading, typeset
from .context import Sheet
from .factors import Factors

FULL_FORM = "the full form"


def governing_blocks(piece: PieceResult, factors: Factors, sheet: Sheet, anchor: str) -> Iterator[Block]:
    """The checks that are printed line by line, without the steps that the factor table shows."""
    ledger, units = Ledger(sheet.numbers), sheet.result.units
    checks = typeset(piece)
    if checks:
        yield FoldStart("What governs, line by line", printed=True)
    if checks and units != "US":
        yield Paragraph(SI_STEPS)
    for number, check in enumerate(checks, start=1):
        here = f"{anchor}-row-{number}"
        kept, others = _leading(check, factors.shown)
        used = [step for step in check.steps if id(step) in factors.ends]
        lines = ledger.enter(kept, check.what, here, brief=True)
        known = (
            *_said("the factor table", used, ledger, f"{anchor}-factors"), *lines.known,
            *_said(FULL_FORM, others, ledger, ""),
        )  # fmt: skip
        title = f"What governs: {check.what}" if check is leading(piece) else capital(check.what)
        notes = tuple(map(sentence, check.notes)) if check.verdict != "passes" else ()
        yield CheckBlock(
            title, here, check.verdict, _line(check, units), check.clause, Lines(known, lines.lines, brief=True),
            notes, short=True,
        )  # fmt: skip
    if checks:
        yield FoldEnd()


def _line(check: Check, units: str) -> str:
    """Ratio and loads; the table above has the rest. Where there is no ratio, all that is known."""
    if check.ratio is None:
        return verdict_line(check, units)
    ratio = quantity(check.ratio, "ratio", units)
    return f"Ratio {ratio}: {check.combination}." if check.combination else f"Ratio {ratio}."


def _said(label: str, steps: Sequence[Step], ledger: Ledger, anchor: str) -> tuple[Known, ...]:
    """Values that stand elsewhere."""
    entries: Mapping[str, Entry] = {step.symbol: ledger.entry(step) for step in steps}
    return (Known(label, anchor, tuple(entries.values())),) if entries else ()


def _leading(check: Check, shown: frozenset[int]) -> tuple[list[Step], list[Step]]:
    """The steps to be printed, and those of a long check that are named by their values only.

    Of a long check what it comes to leads, then what that takes, and so on; of several from which one is chosen only
    that. Steps that are `shown` elsewhere are passed through.
    """
    steps = [step for step in check.steps if id(step) not in shown]
    worked = [step for step in check.steps if step.formula is not None]
    printable = [step for step in worked if id(step) not in shown]
    most = int(judgment("most rows of a check on a short sheet").value)
    if len(printable) <= most:
        return steps, []
    kept: dict[int, Step] = {}
    seen: set[int] = set()
    open_ = _comes_to(check, worked) or [worked[-1]]
    while open_ and len(kept) < most:
        step = open_.pop(0)
        if id(step) in seen:
            continue
        seen.add(id(step))
        if id(step) not in shown:
            kept[id(step)] = step
        open_ += _taken_by(step, worked)
    needed = {name for step in kept.values() for name in step.inputs}
    printed = [
        step for step in steps
        if id(step) in kept or (step.formula is None and (step.symbol in needed or _is_result(step, check)))
    ]  # fmt: skip
    return printed, [step for step in printable if id(step) not in kept]


def _is_result(step: Step, check: Check) -> bool:
    """Whether what was taken is what comes or what is allowed, after all that was worked out."""
    return step.note != "" and any(
        value is not None and math.isclose(step.value, value, rel_tol=1e-9) for value in (check.demand, check.capacity)
    )


def _comes_to(check: Check, worked: Sequence[Step]) -> list[Step]:
    """The steps that give the ratio, the capacity and the demand of a check."""
    found = []
    for value in (check.ratio, check.capacity, check.demand):
        same = [step for step in worked if value is not None and math.isclose(step.value, value, rel_tol=1e-9)]
        found += same[-1:]
    return found


def _taken_by(step: Step, worked: Sequence[Step]) -> list[Step]:
    """The worked steps whose results a step takes; of several of one kind the one that it comes to."""
    before = worked[: next(i for i, one in enumerate(worked) if one is step)]
    found = []
    for name, value in step.inputs.items():
        same = [one for one in before if one.symbol == name and math.isclose(one.value, value, rel_tol=1e-12)]
        found += same[-1:]
    chosen = [one for one in found if math.isclose(one.value, step.value, rel_tol=1e-12)]
    return chosen[:1] if len(found) > 2 and chosen else found
