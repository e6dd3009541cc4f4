"""Wood of unknown species or grade: the same checks over all it might plausibly be. At best the verdict is refer."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

from ...model.stock import Stock
from ...records import dataclass
from ...units import show
from ...values.lumber import DesignValues
from .asking.question import Question
from .asking.settling import failing_names, settling_fact
from .result import Check, Table, within
from .wood.govern import figures_only
from .wood.grade_asked import ask_grade
from .wood.material import WoodMaterial, rows_to_screen
from .wood.moist import core_readings, otherwise_moist
from .wood.site_tests import tests_words, unlikely
from .wood.worth_of_tests import worth

MOST_ROWS = 40


@dataclass(frozen=True)
class Screened:
    """One candidate and how the piece would do if it were that; `broken` names the rules it breaks without a ratio."""

    values: DesignValues
    ratio: float
    governs: str
    broken: tuple[str, ...] = ()
    unlikely: str = ""  # why the piece hardly can be this, by a test that was made on it

    @property
    def holds(self) -> bool:
        """Whether it would stay within the limits."""
        return within(self.ratio) and not self.broken


def screening_woods(
    stock: Stock, make: Callable[[DesignValues], WoodMaterial]
) -> list[tuple[DesignValues, WoodMaterial]]:
    """Every plausible row with its wood; all take the heaviest candidate's weight, since weight loads the piece."""
    woods = [(values, make(values)) for values in rows_to_screen(stock)]
    heaviest = max(float(wood.density) for _, wood in woods)
    return [(values, replace(wood, density=heaviest, doubts=())) for values, wood in woods]


def screen(
    name: str,
    stock: Stock,
    make: Callable[[DesignValues], WoodMaterial],
    check: Callable[[WoodMaterial], Sequence[Check]],
) -> tuple[list[Check], Table, list[Screened]]:
    """Run the checks for each candidate.

    Returns checks, table, screened: the checks of the weakest candidate made into figures for information (none of them
    passes), the screening table, and its rows from the weakest to the strongest.
    """
    woods = screening_woods(stock, make)
    with figures_only():
        tried = [(_judged(values, check(wood)), wood) for values, wood in woods]
    tried.sort(key=lambda one: -one[0].ratio)
    found = [replace(one, unlikely=unlikely(stock, one.values)) for one, _ in tried]
    weakest, wood = tried[0]
    asked = ask_grade(stock)
    planned = worth(stock, [(one.values, one.holds) for one in found], _otherwise_moist(stock, tried, check),
                    dry=wood.dry)  # fmt: skip
    if fact := " ".join(filter(None, (settled_by(found), planned))):
        asked = replace(asked, why=fact)
    shown = [_for_information(one, weakest, found[-1], asked) for one in check(wood)]
    return [_verdict(name, found, asked, planned), *shown], _table(found, stock, planned), found


def _otherwise_moist(
    stock: Stock, tried: Sequence[tuple[Screened, WoodMaterial]], check: Callable[[WoodMaterial], Sequence[Check]]
) -> list[tuple[DesignValues, bool]]:
    """The candidates of a surveyed timber as they would do in the other moisture; none where its core was metered."""
    if stock.survey is None or stock.moisture == "wet" or core_readings(stock):
        return []
    with figures_only():
        woods = [(one.values, otherwise_moist(wood, stock, one.values)) for one, wood in tried]
        return [(values, _judged(values, check(wood)).holds) for values, wood in woods]


def settled_by(found: Sequence[Screened]) -> str:
    """The one fact that settles it, over the candidates that a test has left; over all where it has left none."""
    left = [one for one in found if not one.unlikely] or found
    return settling_fact([(one.values, one.holds) for one in left])


def _judged(values: DesignValues, checks: Sequence[Check]) -> Screened:
    """The governing ratio; infinite when a rule is broken that has none, and when a ratio is not a number."""
    broken = tuple(dict.fromkeys(one.what for one in checks if one.verdict == "fails" and one.ratio is None))
    ratios = {one.what: math.inf if math.isnan(one.ratio) else one.ratio for one in checks if one.ratio is not None}
    if broken or not ratios:
        return Screened(values, math.inf, broken[0] if broken else "nothing could be worked out", broken)
    governs = max(ratios, key=lambda what: ratios[what])
    return Screened(values, ratios[governs], governs)


def _verdict(name: str, found: Sequence[Screened], asked: Question, planned: str) -> Check:
    best = found[-1]
    id, what, clause = "wood.unknown", "wood of unknown grade", "IRC R502.1"
    if best.broken:
        text = f"whatever the wood is, it fails in {' and in '.join(best.broken)}"
        return Check.breaks_rule(id, name, what, clause, text)
    if not within(best.ratio):
        text = (
            f"even {best.values.species} {best.values.grade}, the best of {len(found)} candidates, gives "
            f"{show(best.ratio, 'ratio')} in {best.governs}: it cannot carry this whatever it is"
        )
        return Check.breaks_rule(id, name, what, clause, text)
    kept = sum(within(one.ratio) for one in found)
    text = (
        f"{kept} of {len(found)} candidates would stay within the limits; a grader or engineer must say what it is "
        "before it may carry"
    )
    gone = sum(bool(one.unlikely) for one in found)
    if gone:
        text += f". Tests on site speak against {gone} of the {len(found)} candidates"
    lost = failing_names([(one.values, one.holds) for one in found])
    more = (f"would not hold: {lost}" if lost else "", settled_by(found), planned)
    return Check.refers(id, name, what, clause, text, *filter(None, more), ask=asked)


def _for_information(check: Check, weakest: Screened, best: Screened, asked: Question) -> Check:
    """A check of the weakest candidate: its figures stay, but it cannot pass, and it does not fail the piece either.

    A rule that is broken without a ratio fails the piece if the best candidate breaks it too; else it is the wood's.
    """
    words = f"figure for the weakest candidate, {weakest.values.species} {weakest.values.grade}; for information"
    if check.ratio is not None:
        return check.waits_for(asked, note=words)
    if check.verdict == "fails" and check.what not in best.broken:
        return check.waits_for(asked, note=words)
    return check


def _table(found: Sequence[Screened], stock: Stock, planned: str) -> Table:
    tested = any(one.unlikely for one in found)
    rows = tuple(
        (one.values.species, one.values.grade, show(one.values.F_b, "stress"), show(one.values.E, "stress"),
         show(one.ratio, "ratio"), one.governs, "within" if one.holds else "over",
         *((one.unlikely or "may be",) if tested else ()))
        for one in found[:MOST_ROWS]
    )  # fmt: skip
    more = len(found) - len(rows)
    note = "Screening only: what the figures would be if the wood were of that species and grade. It is no permission."
    if more:
        note += f" The {more} strongest candidates are left out."
    lost = failing_names([(one.values, one.holds) for one in found])
    words = [f"Would not hold: {lost}." if lost else "", settled_by(found), *tests_words(stock)]
    words.append(planned)
    note = " ".join([note, *filter(None, words)])
    heads = ("species", "grade", "F_b", "E", "largest ratio", "in", "limit", *(("by the tests",) if tested else ()))
    return Table("Screening over what the wood might be", heads, rows, note)
