"""Equations: what is printed is what is computed."""

from __future__ import annotations

import importlib
import math
import pkgutil
import random
import re

import numpy as np
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

import beamcheck.formulas
from beamcheck.calc.core import REGISTRY, Formula, largest, smallest, sqrt, where
from beamcheck.calc.pad import Pad, Step
from beamcheck.calc.trace import Term, evaluate
from beamcheck.errors import BeamcheckError
from beamcheck.sheet.document.mathematics import compile_mathml, digits_needed, equation, mathml
from beamcheck.sheet.document.numerals import rounded
from beamcheck.sheet.document.symbols import symbol_source

from ..typst_reader import read_back

for module in pkgutil.walk_packages(beamcheck.formulas.__path__, "beamcheck.formulas."):
    importlib.import_module(module.name)

FULL = 17  # digits that hold every double exactly


def step_of(function, symbol: str = "x", unit: str = "", **inputs: float) -> Step:
    """A step from a function that is no formula of the package (and is not registered)."""
    made = Formula(function, symbol, "invented", unit)
    return Step(symbol, float(evaluate(made.tree, inputs)), unit, "invented", made, inputs)


def in_range(formula: Formula) -> list[dict[str, float]]:
    """Random inputs for which the formula has a real value. Seeded: the same every time."""
    draw = random.Random(formula.name)
    found: list[dict[str, float]] = []
    for _attempt in range(400):
        inputs = {name: math.exp(draw.uniform(-2, 4)) for name in formula.arguments}
        try:
            with np.errstate(all="ignore"):
                value = evaluate(formula.tree, inputs)
        except ArithmeticError:
            continue
        if isinstance(value, complex) or not math.isfinite(value):
            continue
        found.append(inputs)
        if len(found) == 12:
            break
    return found


@pytest.mark.parametrize("name", sorted(REGISTRY))
class TestEveryFormulaOfThePackage:
    def test_its_numbers_give_its_result(self, name: str) -> None:
        """The typeset numbers, read back, give what the formula gives: right order, right brackets, right branch."""
        formula, tried = REGISTRY[name], 0
        for inputs in in_range(formula):
            value = evaluate(formula.tree, inputs)
            made = equation(Step(formula.symbol, float(value), formula.unit, "", formula, inputs), digits=FULL)
            numeric = made.numeric.source if made.numeric else made.result.source.split(" thin ")[0]
            assert read_back(numeric) == pytest.approx(value, rel=1e-9, abs=1e-12)
            tried += 1
        assert tried

    def test_its_symbols_give_its_result(self, name: str) -> None:
        """So does the form with symbols, once each symbol has its value; and no two inputs share a symbol."""
        formula = REGISTRY[name]
        for inputs in in_range(formula):
            value = evaluate(formula.tree, inputs)
            made = equation(Step(formula.symbol, float(value), formula.unit, "", formula, inputs))
            named = {symbol_source(argument).source: given for argument, given in inputs.items()}
            assert len(named) == len(inputs), f"two inputs of {name} are printed alike"
            symbolic = made.symbolic.source if made.symbolic else made.result.source.split(" thin ")[0]
            assert read_back(symbolic, named) == pytest.approx(value, rel=1e-9, abs=1e-12)

    def test_printed_digits_suffice(self, name: str) -> None:
        """A reader who types in the printed numbers gets the printed result to 0.05 %."""
        formula = REGISTRY[name]
        for inputs in in_range(formula):
            value = float(evaluate(formula.tree, inputs))
            digits = digits_needed(formula.tree, inputs)
            shown = {given: rounded(number, digits) for given, number in inputs.items()}
            assert float(evaluate(formula.tree, shown)) == pytest.approx(value, rel=5e-4, abs=1e-12)


def test_all_formulas_typeset_in_one_run() -> None:
    steps = []
    for formula in REGISTRY.values():
        inputs = in_range(formula)[0]
        steps.append(Step(formula.symbol, float(evaluate(formula.tree, inputs)), formula.unit, "", formula, inputs))
    made = mathml(steps)
    assert len(made) == len(REGISTRY)
    assert len(compile_mathml([equation(step).source() for step in steps])) == len(REGISTRY)  # the form for paper
    for each in made:
        assert each.startswith("<math") and each.endswith("</math>")
        assert len(re.findall("<math", each)) == len(re.findall("</math>", each))


# --- brackets: random expressions ----------------------------------------------------------------------------------

_leaf = st.one_of(
    st.sampled_from(["a", "b", "c", "F_b_prime", "l_e"]).map(Term.symbol),
    st.sampled_from([2, 3, 0.5, 1.9, 384, 1 / 9, -4, 1e-5, 2.5e9, math.pi, 7 * math.pi / 4]).map(Term.of),
)


def _grow(inner: st.SearchStrategy[Term]) -> st.SearchStrategy[Term]:
    two = st.tuples(inner, inner)
    return st.one_of(
        *(two.map(lambda pair, op=op: Term(op, pair)) for op in ("+", "-", "*", "/", "smallest", "largest")),
        inner.map(lambda one: Term("neg", (one,))),
        inner.map(lambda one: Term("abs", (one,))),
        inner.map(lambda one: Term("sqrt", (Term("abs", (one,)),))),
        inner.map(lambda one: Term("sin", (one,))),
        inner.map(lambda one: Term("^", (Term("cos", (one,)), Term.of(2)))),
        inner.map(lambda one: Term("^", (one, Term.of(2)))),
        inner.map(lambda one: Term("^", (Term("abs", (one,)), Term("/", (Term.of(1), Term.of(9)))))),
        st.tuples(inner, inner, inner, inner).map(lambda four: Term("where", (four[0] < four[1], four[2], four[3]))),
    )


@given(
    st.recursive(_leaf, _grow, max_leaves=12),
    st.tuples(*[st.sampled_from([-2.5, -1.0, 0.25, 3.0, 17.125])] * 3),
)
@example(Term("-", (Term.symbol("a"), Term("-", (Term.symbol("b"), Term.symbol("c"))))), (1.0, 2.0, 4.0))
@example(Term("^", (Term("neg", (Term.symbol("a"),)), Term.of(2))), (3.0, 1.0, 1.0))
@example(Term("/", (Term.symbol("a"), Term("*", (Term.symbol("b"), Term.symbol("c"))))), (1.0, 2.0, 4.0))
def test_any_expression_reads_back(tree: Term, abc: tuple[float, float, float]) -> None:
    inputs = dict(zip("abc", abc, strict=True)) | {"F_b_prime": 1234.5, "l_e": -0.75}
    try:
        with np.errstate(all="ignore"):
            value = evaluate(tree, inputs)
    except ArithmeticError:
        assume(False)
    assume(not isinstance(value, complex) and math.isfinite(value) and abs(value) < 1e60)
    formula = Formula(lambda: None, "x", "invented", "")
    formula.__dict__["tree"] = tree
    made = equation(Step("x", float(value), "", "", formula, inputs), digits=FULL)
    numeric = made.numeric or made.result
    try:
        back = read_back(numeric.source)
    except ZeroDivisionError:
        assume(False)
    assert back == pytest.approx(value, rel=1e-6, abs=1e-9)


# --- the look of single forms, written down by hand ----------------------------------------------------------------


def forms(step: Step) -> tuple[str, str, str]:
    made = equation(step)
    return (
        made.symbolic.source if made.symbolic else "",
        made.numeric.source if made.numeric else "",
        made.result.source,
    )


def test_fraction_power_and_unit() -> None:
    step = step_of(lambda b, d: b * d**2 / 6, "S", "in3", b=5.5, d=13.5)
    assert forms(step) == ("frac(b thin d^2, 6)", "frac(5.5 times 13.5^2, 6)", '167.1 thin "in³"')


def test_no_reordering_and_no_folding() -> None:
    """As written: 1.9 stays 1.9, the subtraction stays first minus second."""
    step = step_of(lambda a, b: (1 + a) / 1.9 - sqrt(b / 0.95), "y", a=1.0, b=0.5)
    assert forms(step)[0] == "frac(1 + a, 1.9) - sqrt(frac(b, 0.95))"


def test_negative_numbers_are_bracketed() -> None:
    step = step_of(lambda a, b: a - b * a, "y", a=-2.0, b=-3.0)
    assert forms(step) == ("a - b thin a", "-2 - (-3 times (-2))", "-8")


def test_root_of_a_denominator_in_an_exponent() -> None:
    """1/9 in the code is 0.111...; the standard prints 1/9."""
    step = step_of(lambda d: (12 / d) ** (1 / 9), "C_F", d=13.5)
    assert forms(step) == ("(frac(12, d))^(1 slash 9)", "(frac(12, 13.5))^(1 slash 9)", "0.9870")


def test_pi_and_its_parts_are_written_as_such() -> None:
    """math.pi / 4 in the code is one number; the standard prints the fraction."""
    step = step_of(lambda D: math.pi / 4 * D**2 + 690 * math.pi * D + math.pi, "A", "in2", D=2.0)
    assert forms(step)[0] == "frac(pi, 4) thin D^2 + 690 thin pi thin D + pi"
    assert forms(step)[1] == "frac(pi, 4) times 2^2 + 690 thin pi times 2 + pi"


def test_a_number_of_no_known_form_keeps_ten_digits() -> None:
    step = step_of(lambda a: math.sqrt(3) / 2 * a, "y", a=1.0)
    assert forms(step)[0] == "0.8660254038 thin a"


def test_sines_square_like_sines() -> None:
    step = step_of(lambda theta: Term("sin", (theta,)) ** 2, "y", theta=30.0)
    assert forms(step)[:2] == ("sin^2(theta)", "sin^2(30 degree)")


def test_only_the_branch_in_force_with_its_reason() -> None:
    def length(l_u, d):
        return where(l_u / d < 7, 2.06 * l_u, 1.63 * l_u + 3 * d)

    short, long = step_of(length, "l_e", "in", l_u=60.0, d=10.0), step_of(length, "l_e", "in", l_u=168.0, d=13.5)
    assert forms(short)[0] == "2.06 thin ell_u"
    assert [reason.source for reason in equation(short).reasons] == ["frac(ell_u, d) = 6 < 7"]
    assert forms(long)[0] == "1.63 thin ell_u + 3 thin d"
    assert [reason.source for reason in equation(long).reasons] == ["frac(ell_u, d) = 12.44 >= 7"]


def test_the_branch_not_taken_may_divide_by_zero() -> None:
    step = step_of(lambda a, b: where(b > 0, a / b, a), "y", a=3.0, b=0.0)
    assert forms(step)[0] == "a"
    assert [reason.source for reason in equation(step).reasons] == ["b = 0 <= 0"]


def test_a_branch_that_is_one_number_is_said_once() -> None:
    step = step_of(lambda d: where(d > 12, (12 / d) ** (1 / 9), 1.0), "C_F", d=9.75)
    assert [line.source for line in equation(step).lines()] == ["C_F = 1", '"because" thick d = 9.75 <= 12']


def test_what_fits_beside_what_stands_before_it_begins_no_line() -> None:
    step = step_of(lambda d: where(d > 12, 3.2 * d, 10 * d), "R_d", d=0.25)
    assert equation(step).source(40.0) == 'R_d &= 10 thin d = 10 times 0.25 = 2.5 quad "because" thick d = 0.25 <= 12'
    assert len(equation(step).source(9.0).split("\n")) > 1


def test_compound_conditions_name_the_part_that_decides() -> None:
    def rule(a, b):
        return where((a < 1) & (b < 1), 2 * a, a)

    both = equation(step_of(rule, "y", a=0.5, b=0.25)).reasons
    assert [reason.source for reason in both] == ['a = 0.5 < 1 thick "and" thick b = 0.25 < 1']
    one = equation(step_of(rule, "y", a=0.5, b=2.0)).reasons
    assert [reason.source for reason in one] == ["b = 2 >= 1"]


def test_a_condition_just_met_shows_enough_digits() -> None:
    step = step_of(lambda a: where(a > 7, a, 2 * a), "y", a=7.00001)
    assert equation(step).reasons[0].source == "a = 7.00001 > 7"


def test_smallest_and_largest() -> None:
    step = step_of(lambda a, b: smallest(a, b, 1.0) + largest(a, b), "y", a=2.0, b=3.0)
    assert forms(step)[:2] == ("min(a, b, 1) + max(a, b)", "min(2, 3, 1) + max(2, 3)")


def test_differences_of_near_numbers_get_more_digits() -> None:
    """1000.4 - 1000.1 with four digits would print 1,000 - 1,000 = 0.3."""
    step = step_of(lambda a, b: a - b, "y", "in", a=1000.4, b=1000.1)
    assert forms(step)[1] == '"1,000.4" - "1,000.1"'


def test_a_ratio_just_over_one_does_not_read_as_one() -> None:
    pad = Pad()
    pad.take("ratio", 1.00002)
    assert equation(pad.steps[0]).result.source == "1.00002"


def test_a_taken_value_is_one_line() -> None:
    pad = Pad()
    pad.take("F_b", 1250.0, "psi")
    assert [line.source for line in equation(pad.steps[0]).lines()] == ['F_b = "1,250" thin "psi"']


def test_long_equations_break_before_an_operator() -> None:
    names = [f"C_{letter}" for letter in "abcdefghij"]
    formula = Formula(lambda: None, "y", "invented", "")
    tree = Term.symbol(names[0])
    for name in names[1:]:
        tree = tree * Term.symbol(name)
    formula.__dict__["tree"] = tree
    inputs = dict.fromkeys(names, 1.2345)
    lines = equation(Step("y", 1.2345**10, "", "", formula, inputs)).lines()
    assert len(lines) > 3
    assert all(line.width <= 16.0 for line in lines[1:])
    assert all(line.source.startswith(("=", "times")) for line in lines[1:])
    assert " \\\n" in equation(Step("y", 1.2345**10, "", "", formula, inputs)).source()


def test_nothing_from_outside_gets_into_the_source() -> None:
    """A step's note and clause are not typeset; a symbol that is no name becomes quoted text."""
    step = Step('#panic("x") $', 1.0, "psi", "#clause", None, {}, "#note")
    assert equation(step).lines()[0].source == '"#panic(\\"x\\") $" = 1 thin "psi"'
    assert "panic" in mathml([step])[0]


def test_grouped_numbers_are_numbers_with_room_round_operators() -> None:
    made = compile_mathml(['frac("5,600" times "2,400", 3)'])[0]
    assert "<mn>5,600</mn><mo>×</mo><mn>2,400</mn>" in made


def test_primes_stand_on_the_letter_and_not_on_its_subscript() -> None:
    for name in ("F_b_prime", "F_c_perp_prime", "E_min_prime"):
        made = compile_mathml([symbol_source(name).source])[0]
        assert made.count("<msubsup>") == 1 and made.endswith('<mo class="prime">′</mo></msubsup></math>')


def test_a_bar_stands_over_its_letter() -> None:
    assert compile_mathml(["macron(y)"])[0].endswith("<mi>𝑦</mi><mo>¯</mo></mover></math>")


def test_a_value_that_is_missing_or_endless_is_said() -> None:
    assert equation(Step("x", math.nan, "psi")).result.source == '"no value" thin "psi"'
    assert equation(Step("x", math.inf, "")).result.source == "infinity"


def test_typst_errors_are_ours() -> None:
    with pytest.raises(BeamcheckError, match="an equation could not be typeset"):
        compile_mathml(["frac(1"])


def test_no_equation_no_run() -> None:
    assert mathml([]) == []


def test_a_branch_on_something_else_is_refused() -> None:
    step_inputs = {"a": 1.0}
    formula = Formula(lambda: None, "y", "invented", "")
    formula.__dict__["tree"] = Term("where", (Term.symbol("a"), Term.of(1), Term.of(2)))
    with pytest.raises(BeamcheckError, match="branches on 'symbol'; write it as an inequality"):
        equation(Step("y", 1.0, "", "", formula, step_inputs))


def test_an_unknown_operation_is_refused() -> None:
    formula = Formula(lambda: None, "y", "invented", "")
    formula.__dict__["tree"] = Term("%", (Term.of(1), Term.of(2)))
    with pytest.raises(BeamcheckError, match="holds '%', which has no form on the sheet"):
        equation(Step("y", 1.0, "", "", formula, {}))
