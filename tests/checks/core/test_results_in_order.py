"""Which check decides, what a ruling changes, what a result says of its wood and joints; numbers to four digits."""

from __future__ import annotations

import math

import pytest

from beamcheck.calc.pad import Pad
from beamcheck.checks.core.asking.question import TROUBLE, ask
from beamcheck.checks.core.asking.settling import _names, failing_names, settling_sentence
from beamcheck.checks.core.result import Check, Holding, JobResult, PieceResult, first_worst, judge, within, worst
from beamcheck.checks.core.statics import four, load_line, moment_line, terms
from beamcheck.provenance import Source
from beamcheck.values.lumber import design_values, read_size

OPEN = ask("moisture", "w", "stock.w.measured_moisture")
OTHER = ask("confirmed_by", "wall", "existing.wall.confirmed_by", what="wall")


def ratio(value: float | None, what: str = "a", **more: object) -> Check:
    demand = math.nan if value is None else value
    return Check.of_ratio("beam.bending", "B", what, "", demand=demand, capacity=1.0, kind="force", **more)  # type: ignore[arg-type]


PASSES, FAILS = ratio(0.5), ratio(1.5, "b")
RULE = Check.breaks_rule("beam.rule", "B", "rule", "")
ASKED = Check.refers("beam.asked", "B", "asked", "", ask=OPEN)
INFORMED = ratio(0.7, "c", pending=OPEN)


def piece(*checks: Check, kind: str = "beam", held: tuple[Holding, ...] = (), **more: str) -> PieceResult:
    verdict = worst([*(check.verdict for check in checks), *(one.verdict for one in held)])
    return PieceResult("B", kind, "", verdict, checks, (), held_by=held, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("value", "strict", "distance", "verdict"),
    [(1.0, False, False, "passes"), (1.0, True, False, "fails"), (math.nextafter(1.0, 2.0), False, False, "fails"),
     (math.nextafter(1.0, 0.0), True, False, "passes"), (0.0, False, False, "passes"), (-1e-300, False, False, "refer"),
     (math.inf, False, False, "refer"), (math.inf, False, True, "fails"), (-math.inf, False, True, "refer"),
     (math.nan, False, True, "refer"), (None, False, False, "refer")],
)  # fmt: skip
def test_a_ratio_becomes_a_verdict(value: float | None, strict: bool, distance: bool, verdict: str) -> None:
    assert judge(value, strict=strict, distance=distance) == verdict
    assert within(1.0) and not within(math.nextafter(1.0, 2.0))


def test_the_worst_of_verdicts() -> None:
    assert worst([]) == "refer" and worst(["passes"]) == "passes" and worst(["passes", "refer"]) == "refer"
    assert worst(["refer", "fails", "passes"]) == "fails"


def test_what_ranks_first() -> None:
    """Fails, refers, passes; the larger ratio first; without a ratio first of what refers, last of the rest."""
    every = [PASSES, INFORMED, ASKED, RULE, FAILS, ratio(2.5, "d"), ratio(0.6, "e"),
             Check.keeps_rule("beam.rule", "B", "kept", "")]  # fmt: skip
    order = [check.what for check in sorted(every, key=lambda check: check.rank)]
    assert order == ["d", "b", "rule", "asked", "c", "e", "a", "kept"]
    nothing = Check("B", "nan", "", "refer", ratio=math.nan, questions=(OPEN,))
    assert min([INFORMED, nothing], key=lambda check: check.rank) is nothing


def test_what_decides_and_what_is_closest() -> None:
    made = piece(PASSES, INFORMED, ASKED)
    assert made.governing is ASKED and made.closest is INFORMED and made.decided_by == "asked"
    assert piece().governing is None and piece().closest is None and piece().decided_by is None
    assert piece(ASKED).closest is None
    nothing = Check("B", "nan", "", "refer", ratio=math.nan, questions=(OPEN,))
    assert piece(FAILS, nothing, ratio(9.0)).closest is nothing
    assert made.questions == (OPEN,)


def test_the_group_that_holds_it_decides_where_no_check_of_its_own_does() -> None:
    held = (Holding("A", "passes"), Holding("C", "fails"))
    assert piece(PASSES, held=held).decided_by == "what holds it: C"
    assert piece(FAILS, held=held).decided_by == "b" and piece(PASSES, held=held[:1]).decided_by == "a"
    assert piece(PASSES, held=held).joints_verdict == "fails" and piece(PASSES, held=held).member_verdict == "passes"


def test_wood_and_joints_have_verdicts_of_their_own() -> None:
    seat = Check.breaks_rule("seat.least", "B", "seat", "")
    assert piece(PASSES, seat).member_verdict == "passes" and piece(PASSES, seat).joints_verdict == "fails"
    assert piece(seat).member_verdict is None and piece(PASSES).joints_verdict is None
    assert (
        piece(PASSES, kind="anchor").member_verdict is None and piece(PASSES, kind="anchor").joints_verdict == "passes"
    )


def test_other_checks_make_another_finding() -> None:
    carries = piece(PASSES, finding="carries", reason="it does")
    assert carries.with_checks((ratio(0.9),)).reason == "it does"
    asked = carries.with_checks((PASSES, ASKED))
    assert (asked.verdict, asked.finding, asked.reason) == ("refer", "not enough information", "")
    assert asked.with_checks((PASSES,)).finding == "carries"
    assert piece(PASSES).with_checks((ASKED,)).finding == ""
    assert piece(PASSES, held=(Holding("A", "fails"),)).with_checks((PASSES,)).verdict == "fails"


def test_a_ruling_closes_what_no_figure_speaks_against() -> None:
    ruled = ASKED.with_rulings(("engineer, letter 4: may stay",), (), ("more",))
    assert ruled.verdict == "passes" and ruled.questions == ()
    assert ruled.notes == ("with a ruling: engineer, letter 4: may stay", "more")
    assert ASKED.with_rulings((), (OTHER,), ()).verdict == "refer"
    assert ASKED.with_rulings((), (OTHER,), ()).questions == (OTHER,)
    over = ratio(1.2, "over").waits_for(OPEN)
    assert over.with_rulings(("engineer: yes",), (), ()).verdict == "refer"
    assert over.with_rulings(("engineer: yes",), (), ()).questions == (OPEN,)
    assert ratio(0.8).waits_for(OPEN).with_rulings(("engineer: yes",), (), ()).verdict == "passes"


def test_a_check_that_waits_keeps_its_figures_and_each_question_once() -> None:
    waits = ratio(0.8, ask=OPEN).waits_for(OTHER, OPEN, note="first")
    assert (waits.verdict, waits.ratio, waits.questions, waits.notes) == ("refer", 0.8, (OPEN, OTHER), ("first",))
    assert PASSES.waits_for(OPEN).notes == ()


@pytest.mark.parametrize(
    ("ratios", "place"),
    [([0.1, 0.5, 0.5], 1), ([0.5, 0.5 * (1.0 + 1e-10)], 0), ([0.5, 0.5 * (1.0 + 2e-9)], 1), ([math.inf, math.nan], 0),
     ([1.0, math.nan, math.inf], 1), ([-0.5, -0.5], 0)],
)  # fmt: skip
def test_the_first_of_the_largest(ratios: list[float], place: int) -> None:
    assert first_worst(ratios) == place


def test_whom_to_ask_first() -> None:
    """What one sees and measures oneself, then the yard, the grader, and at last engineer and department."""
    places = [[who for who, trouble in TROUBLE.items() if trouble == one] for one in sorted(set(TROUBLE.values()))]
    assert places == [["tape", "camera", "meter", "you"], ["supplier"], ["grader"], ["engineer", "department"]]


# ---- words that belong to numbers ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "text"),
    [(999.94, "999.9"), (1000.0, "1,000"), (2538.4, "2,538"), (-2538.4, "-2,538"), (0.62634, "0.6263")],
)
def test_numbers_with_four_digits(value: float, text: str) -> None:
    assert four(value) == text


def test_lines_for_a_pocket_calculator() -> None:
    assert load_line("w", "", 20.0).text == "240 plf" and moment_line("M", "", "", 1200.0).text == "100 lb-ft"
    assert terms([(1.0, 54.0), (0.75, 240.0)]) == "54 + 0.75 × 240"


def test_candidates_by_name() -> None:
    assert _names([]) == "" and _names(["a"]) == "a" and _names(["a", "b", "a"]) == "a and b"
    assert _names(["a", "b", "c"], "or") == "a, b or c"
    assert _names(list("abcdef")) == "a, b, c, d, e and f"
    assert _names(list("abcdefgh")) == "a, b, c, d, e, f and 2 more"
    values = design_values("Douglas Fir-Larch", "No.1", read_size("6x12 dressed"))
    assert failing_names([(values, True)]) == "" and failing_names([(values, False)]) == "Douglas Fir-Larch No.1"


def test_the_sentence_that_settles() -> None:
    why = "It is old. The grade settles it: a certificate would do. More"
    assert settling_sentence(why) == "The grade settles it: a certificate would do."
    assert settling_sentence("Species and grade together settle it: x.") == "Species and grade together settle it: x."
    assert settling_sentence("Nothing of that. It settles") == ""


def test_sources_behind_the_steps_of_a_piece_and_of_a_job() -> None:
    """Each once, in the order of first use; steps without one have none."""
    pad, one, two = Pad(), Source("a", "read"), Source("b", "memory")
    for symbol, source in (("x", one), ("y", None), ("z", two), ("w", one)):
        pad.take(symbol, 1.0, source=source)
    made = piece(ratio(0.5, steps=pad.steps), PASSES)
    assert made.sources == (one, two)
    assert JobResult("", "passes", (), (made, made), (), (), "", "", "", "").sources == (one, two)
