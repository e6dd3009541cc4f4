"""Wood of unknown species or grade: the same checks over everything it might plausibly be. The verdict stays refer."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from ..model.pieces import Stock
from ..units import show
from ..values.lumber import DesignValues
from .demand import stated
from .result import Check, Table
from .wood import Wood, rows_to_screen

MOST_ROWS = 40


@dataclass(frozen=True)
class Screened:
    """One candidate and how the piece would do if it were that."""

    values: DesignValues
    ratio: float
    governs: str


def screening_woods(stock: Stock, make: Callable[[DesignValues], Wood]) -> list[tuple[DesignValues, Wood]]:
    """Every plausible row with its wood; all take the heaviest candidate's weight, since weight loads the piece."""
    rows = rows_to_screen(stock)
    woods = [make(values) for values in rows]
    heaviest = max(float(wood.density) for wood in woods)
    return [(values, replace(wood, density=heaviest, doubts=())) for values, wood in zip(rows, woods, strict=True)]


def screen(
    name: str, stock: Stock, make: Callable[[DesignValues], Wood], check: Callable[[Wood], Sequence[Check]]
) -> tuple[list[Check], Table, list[Screened]]:
    """Run the checks for each candidate.

    Returns
    -------
    checks, table, screened
        The checks of the weakest candidate made into figures for information (none of them passes), the screening
        table, and its rows from the weakest to the strongest.
    """
    found = []
    shown: list[Check] = []
    for values, wood in screening_woods(stock, make):
        checks = list(check(wood))
        with_ratio = [one for one in checks if one.ratio is not None]
        governing = max(with_ratio, key=lambda one: one.ratio or 0.0, default=None)
        broken = next((one for one in checks if one.verdict == "fails" and one.ratio is None), None)
        ratio = float("inf") if governing is None or broken is not None else float(governing.ratio or 0.0)
        found.append(Screened(values, ratio, (broken or governing or checks[0]).what))
        if not shown or ratio >= max(one.ratio for one in found):
            shown = checks
    found.sort(key=lambda one: -one.ratio)
    best = found[-1]
    if best.ratio > 1.0:
        text = (
            f"even {best.values.species} {best.values.grade}, the best of {len(found)} candidates, gives "
            f"{show(best.ratio, 'ratio')} in {best.governs}: it cannot carry this whatever it is"
        )
        verdict = stated(name, "wood of unknown grade", "IRC R502.1", "fails", text)
    else:
        kept = sum(one.ratio <= 1.0 for one in found)
        text = (
            f"{kept} of {len(found)} candidates would stay within the limits; a grader or engineer must say what it is "
            "before it may carry"
        )
        verdict = stated(name, "wood of unknown grade", "IRC R502.1", "refer", text)
    checks = [verdict, *(_for_information(one, found[0]) for one in shown)]
    return checks, _table(found), found


def _for_information(check: Check, weakest: Screened) -> Check:
    """A check of the weakest candidate: its figures stay, but it cannot pass, and it does not fail the piece either."""
    words = f"figure for the weakest candidate, {weakest.values.species} {weakest.values.grade}; for information"
    missing = check.ratio is None
    verdict = check.verdict if missing else "refer"
    return replace(check, verdict=verdict, notes=check.notes if missing else (words, *check.notes))


def _table(found: Sequence[Screened]) -> Table:
    rows = tuple(
        (one.values.species, one.values.grade, f"{one.values.F_b:,.0f}", f"{one.values.E:,.0f}", show(one.ratio, "ratio"),
         one.governs, "within" if one.ratio <= 1.0 else "over")
        for one in found[:MOST_ROWS]
    )  # fmt: skip
    more = len(found) - len(rows)
    note = "Screening only: what the figures would be if the wood were of that species and grade. It is no permission."
    if more:
        note += f" The {more} strongest candidates are left out."
    heads = ("species", "grade", "F_b, psi", "E, psi", "largest ratio", "in", "limit")
    return Table("Screening over what the wood might be", heads, rows, note)
