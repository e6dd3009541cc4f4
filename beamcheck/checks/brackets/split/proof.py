"""A test of each piece, for the engineer who wants a bracket that the split test refuses: why, and how it runs.

The size of what is pulled across the grain is information; it only tells a test that is worth while from a plain no.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from ....formulas.brackets.split import strength_over_time
from ....model.brackets.bracket import Bracket
from ....model.fields.evidence import vouched
from ....units import show
from ....values.judgment import judgment
from ...core.result import Check, Table
from ..asking import ask_engineer, sentence
from ..body import Body
from ..loads import BracketLoads
from .split import CLAUSE, ID, WHAT

if TYPE_CHECKING:
    from ....analysis.fields.field import Field

DAY = 24.0  # h
TEN_YEARS = 10 * 365.25 * DAY
TIMES = ("10 min", "1 h", "4 h", "24 h")


def stress_over_one_cubic_inch(fields: Iterable[Field]) -> float:
    """The largest over all fields that were run, psi."""
    from ....analysis.fields.size import across_over_one_cubic_inch

    k = judgment("exponent of the size effect").value
    return max(across_over_one_cubic_inch(field, k) for field in fields)


def information(sigma: float) -> tuple[str, str]:
    """A line of the inputs: never a permission."""
    clear = judgment("stress over one cubic inch, clear fir")
    bears = "would be expected to bear it; one check would not" if sigma <= clear.value else "would not either"
    clear_words = f"sound, dry fir without a check ({show(clear.value, 'stress')}, for information)"
    text = f"{show(sigma, 'stress')}; {clear_words} {bears}"
    return "tension across the grain as over 1 in3", text


def on_a_test(body: Body, bracket: Bracket, loads: BracketLoads, sigma: float) -> None:
    """Turns what the split test refuses into a question to the engineer, unless no test is worth while.

    The split test itself stays as it is: it says what a check of a later winter leaves.
    """
    refused = [check for check in body.checks if check.id == ID and check.verdict == "fails"]
    if not refused or not vouched(bracket.proof_test or "", "structure"):
        return
    clear = judgment("stress over one cubic inch, clear fir")
    if sigma > clear.value:
        text = (
            f"a test is not worth while: over 1 in3 it is pulled across the grain with {show(sigma, 'stress')}, more "
            f"than the {show(clear.value, 'stress')} that sound, dry fir is expected to bear"
        )
        body.checks.append(
            Check.breaks_rule("bracket.proof_test", bracket.name, "test of each piece", "weakest link", text)
        )
        return
    kinds = loads.by_kind()
    design = sum(most for most, _ in kinds.values())
    times = judgment("test load over design load")
    test = times.value * design
    text = (
        "the split test allows it less than its load: sound, dry wood without a check would be expected to bear it, "
        f"one check would not; each piece is tested with {show(test, 'force')} for 24 hours ({bracket.proof_test}), "
        "which says nothing of a check of a later winter, so a look in every heating season belongs to it"
    )
    asked = ask_engineer(bracket, "proof_test", why=sentence(text), forces={"test load": test})
    for check in refused:
        body.checks.remove(check)
    body.checks.append(Check.refers(ID, bracket.name, WHAT, CLAUSE, text, *refused[0].notes[:1], ask=asked))
    body.weak_grain = ""
    body.tables += [_steps(test, design), _record(test)]


def _steps(test: float, design: float) -> Table:
    back = judgment("sinking that comes back after a test")
    quarters = ", ".join(show(0.25 * i * test, "force") for i in (1, 2, 3))
    rows = (
        ("1", "the piece with its own fixings on the real wall or its like, wood and room as dry as they will be; look "
              "at all faces, end grain and bores with a lamp, photograph, mark the ends of checks in pencil, dated"),
        ("2", f"load as it will lie: {quarters}, then {show(test, 'force')}, 10 min each; read nose and top against "
              "the wall to 0.01 in; nobody under it, a catch 1 in below"),
        ("3", f"{show(test, 'force')} (twice the design load of {show(design, 'force')}) for 24 hours; read at 10 min, "
              "1, 4 and 24 hours; stop at a crack, a noise, a check that grows, or sinking that does not slow: in the "
              "last 20 hours more than in the first 4"),
        ("4", f"unload and read after 24 hours: {100 * back.value:.0f} percent of the sinking is back; then "
              f"{show(design, 'force')} for a week"),
        ("5", "every piece is tested, not a sample; look at each in every heating season and write it down. With "
              "the record belong species, grain, moisture, room, fixings with torque, checks before and after, names"),
    )  # fmt: skip
    of_duration = float(strength_over_time(DAY) / strength_over_time(TEN_YEARS))
    note = (
        f"Twice the design load for 24 hours, 75 percent back: IBC 1709.3.1 (memory). Of the twice {of_duration:.2f} "
        "stand for ten years of load against 24 hours (memory); the rest is margin."
    )
    return Table("Test of each piece: how it runs", ("step", "what is done"), rows, note)


def _record(test: float) -> Table:
    blank = "________"
    loads = [(show(0.25 * i * test, "force"), "10 min") for i in (1, 2, 3)]
    loads += [(show(test, "force"), when) for when in TIMES] + [("0", "24 h after"), ("design load", "a week")]
    rows = tuple((load, when, blank, blank, blank) for load, when in loads)
    rows += (("piece, moisture", blank, "tested by", blank, "date ________"),)
    note = (
        "Piece ________  species, grain ________  moisture ____ %  room ____ F  fixings with torque ________  checks "
        "before and after ________  names ________  date ________"
    )
    heads = ("load", "read at", "nose, in", "top off the wall, in", "seen, heard")
    return Table("Test of each piece: record", heads, rows, note)
