"""A piece as the page shows it: verdict, what is closest, checks of the member and of its joints apart, with bars."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import field
from decimal import ROUND_HALF_UP, Decimal

from ...checks.core.result import Check, JobResult, PieceResult, Verdict
from ...checks.core.summary import quantity
from ...checks.survey.findings import Finding, findings
from ...errors import BeamcheckError
from ...records import dataclass
from ...sheet.document.prose import capital
from ...sheet.document.short.checks_table import Merged, closest, merged
from ..desk import Checked

LONGEST = 1.3  # ratio at which a bar is full: layout
NEAR_ONE = (Decimal("0.98"), Decimal("1.02"))
WORDS: dict[Verdict, str] = {"passes": "passes", "fails": "fails", "refer": "waits for an answer"}
TEXT: dict[Verdict, str] = {"passes": "ok", "fails": "NO", "refer": "?"}


@dataclass(frozen=True)
class Row:
    """One check, or several with the same figures."""

    what: str
    place: str
    verdict: Verdict
    ratio: str
    width: float  # of the bar, of 100
    over: bool
    comes: str
    allowed: str
    notes: tuple[str, ...]
    clause: str
    combination: str
    number: int = 0  # of the check in its piece
    ask: tuple[str, ...] = ()


@dataclass(frozen=True)
class Shown:
    """A piece."""

    name: str
    kind: str
    title: str
    verdict: Verdict
    understood: str
    closest: str
    ratio: str
    member: tuple[Row, ...]
    joints: tuple[Row, ...]
    member_verdict: Verdict | None
    joints_verdict: Verdict | None
    remedies: tuple[str, ...] = ()
    questions: int = 0
    held_by: tuple[tuple[str, Verdict], ...] = ()
    finding: str = ""
    reason: str = ""
    link: str = field(default="")


def ratio_text(ratio: float | None) -> str:
    """Two decimals, half up; three near 1, so that no rounded 1.00 stands beside a verdict that it contradicts."""
    if ratio is None or math.isnan(ratio):
        return "–"
    if math.isinf(ratio):
        return "no limit"
    exact = Decimal(repr(ratio))
    near = NEAR_ONE[0] <= exact <= NEAR_ONE[1]
    shown = exact.quantize(Decimal("0.001" if near else "0.01"), ROUND_HALF_UP)
    if shown == 1 and ratio > 1.0:
        return "over 1"
    return str(shown)


def shown(piece: PieceResult, result: JobResult) -> Shown:
    """What the page shows of a piece."""
    order = {id(check): number for number, check in enumerate(piece.checks, start=1)}
    of_member = [one for one in piece.checks if piece.kind != "anchor" and one.part == "member"]
    others = [one for one in piece.checks if one not in of_member]
    nearest = closest(piece.checks)
    decides = nearest if piece.verdict != "fails" else piece.governing
    return Shown(
        piece.name, piece.kind, capital(piece.title), piece.verdict, piece.understood,
        "" if decides is None else decides.what, "" if decides is None else ratio_text(decides.ratio),
        tuple(rows(of_member, result.units, order)), tuple(rows(others, result.units, order)),
        piece.member_verdict, piece.joints_verdict, piece.remedies,
        len({asked.id for check in piece.checks if check.verdict == "refer" for asked in check.questions}),
        tuple((group.group, group.verdict) for group in piece.held_by), piece.finding, piece.reason,
    )  # fmt: skip


def rows(checks: Iterable[Check], units: str, order: dict[int, int]) -> list[Row]:
    """Checks as rows, what decides first."""
    return [_row(one, units, order) for one in merged(checks)]


def _row(one: Merged, units: str, order: dict[int, int]) -> Row:
    check = one.first
    more = f", and {len(one.others)} alike" if one.others else ""
    figures = check.demand is not None and not (check.kind == "ratio" and check.capacity == 1.0)
    width = 0.0 if check.ratio is None or math.isnan(check.ratio) else min(check.ratio / LONGEST, 1.0) * 100.0
    return Row(
        capital(check.what) + more, check.where, check.verdict, "" if check.ratio is None else ratio_text(check.ratio),
        round(max(width, 0.0), 1), check.ratio is not None and check.ratio > 1.0,
        quantity(check.demand, check.kind, units) if figures else "",
        quantity(check.capacity, check.kind, units) if figures and check.capacity is not None else "",
        () if check.verdict == "passes" else check.notes, check.clause, check.combination, order.get(id(check), 0),
        () if check.verdict != "refer" else tuple(question.ask for question in check.questions),
    )  # fmt: skip


def found_in(checked: Checked, name: str) -> dict[str, list[Finding]]:
    """What the survey of a stick says now, by whom it is for; empty without one."""
    stock = None if checked.job is None else next((one for one in checked.job.stock if one.name == name), None)
    if stock is None or stock.survey is None:
        return {}
    try:
        every = findings(stock)
    except BeamcheckError:
        return {}
    return {whom: [one for one in every if one.for_whom == whom] for whom in ("engineer", "grader", "nothing")}
