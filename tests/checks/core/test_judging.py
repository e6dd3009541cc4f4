"""What is no measure of anything is referred with a question; what was not said never makes a pass out of a failure."""

from __future__ import annotations

import math

import numpy as np
import pytest

from beamcheck.analysis.beams.combinations import combine
from beamcheck.analysis.beams.load_cases import Applied, cases_for
from beamcheck.calc.pad import Pad
from beamcheck.checks.core.asking.question import Question, ask
from beamcheck.checks.core.result import Check, first_worst, worst_of
from beamcheck.checks.core.wood.govern import Criterion, figures_only, govern
from beamcheck.checks.core.wood.strength import Outcome

OPEN: Question = ask("moisture", "old beam", "stock.old beam.measured_moisture")


def ratio(demand: float, capacity: float, **more: object) -> Check:
    return Check.of_ratio("x.y", "B", "force", "", demand=demand, capacity=capacity, kind="force", **more)  # type: ignore[arg-type]


class TestNoMeasure:
    @pytest.mark.parametrize(
        ("demand", "capacity"), [(5.0, 0.0), (0.0, 0.0), (5.0, -1.0), (-5.0, 1.0), (math.nan, 1.0)]
    )
    def test_it_is_referred_with_a_question(self, demand: float, capacity: float) -> None:
        """Nothing can be compared with a capacity of nothing, one below nothing, or a number that is none."""
        check = ratio(demand, capacity)
        assert check.verdict == "refer"
        assert [asked.who for asked in check.questions] == ["engineer"]

    def test_a_distance_of_nothing_is_measured(self) -> None:
        """No gap where one is needed is too small a gap, not an unknown one."""
        check = Check.of_ratio("x.y", "B", "gap", "", demand=0.2, capacity=0.0, kind="length")
        assert (check.verdict, check.questions) == ("fails", ())

    @pytest.mark.parametrize("capacity", [0.0, -3.0])
    @pytest.mark.parametrize("written", [True, False])
    def test_under_all_combinations(self, capacity: float, written: bool) -> None:
        """The same where the worst of many combinations is looked for, with steps and without; and no crash."""
        combinations = combine(cases_for([Applied("D", 0.0, 0.0, P=5.0)], [(0.0, 10.0)], 1.0))

        def calculate(pad: Pad, which: int | slice) -> Outcome:
            R = pad.take("R", 5.0, "lbf") if isinstance(which, int) else np.full(len(combinations), 5.0)
            return Outcome(R, capacity, R / capacity)

        asked = Criterion("B", "force", "load path", "force", id="x.y")
        if written:
            check = govern(asked, combinations, calculate)
        else:
            with figures_only():
                check = govern(asked, combinations, calculate)
        assert (check.verdict, check.id) == ("refer", "x.y")
        assert check.questions


class TestWhatWasNotSaid:
    def test_a_safe_assumption_that_holds_passes_and_keeps_its_question(self) -> None:
        check = ratio(1.0, 2.0, ask=OPEN)
        assert (check.verdict, check.questions) == ("passes", (OPEN,))

    def test_figures_for_information_do_not_pass(self) -> None:
        assert ratio(1.0, 2.0, pending=OPEN).verdict == "refer"
        assert ratio(3.0, 2.0, pending=OPEN).verdict == "fails"

    def test_a_check_that_refers_needs_a_question(self) -> None:
        with pytest.raises(ValueError, match="without a question"):
            Check.refers("x.y", "B", "what", "", ask=())


class TestTies:
    def test_what_differs_by_rounding_only_is_named_by_its_order(self) -> None:
        """Mirrored spans: which of them is named must not hang on the machine."""
        assert first_worst([0.2, 0.5, 0.5 + 1e-16, 0.1]) == first_worst([0.2, 0.5 + 1e-16, 0.5, 0.1]) == 1

    def test_what_is_no_number_outweighs_all(self) -> None:
        assert first_worst([3.0, math.nan, math.inf]) == 1
        broken = Check.breaks_rule("x.z", "B", "rule", "")
        assert worst_of([ratio(9.0, 1.0), broken]) is broken


@pytest.mark.parametrize(("answer", "read"), [
    ("3.5 in", "3 1/2 in"), ("1 in", "1 in"), ("2.25 in", "2 1/4 in"), ("0.3125 in", "5/16 in"), ("0 in", "0 in"),
    ("3.01 in", "3.01 in"), ("12.0625 in", "12 1/16 in"), ("40 lb", "40 lb"),
])  # fmt: skip
def test_inches_of_an_answer_are_read_out_as_on_a_tape(answer: str, read: str) -> None:
    """Whole inches and sixteenths; what a tape does not show stays as it is written."""
    (asked,) = ask("moisture", "old beam", "stock.old beam.measured_moisture", answers=[answer]).answers
    assert asked.says == read
