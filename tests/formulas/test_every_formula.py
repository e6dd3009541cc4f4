"""What holds for every formula of the package, whichever it is: documents, tree, arrays, units, NaN."""

from __future__ import annotations

import doctest
import itertools
import math
import re
import subprocess
import sys

import numpy as np
import pytest

from beamcheck.calc.core import REGISTRY, Formula
from beamcheck.calc.describe import equation_text, meaning, typed, unit_of
from beamcheck.calc.trace import evaluate
from beamcheck.errors import OutOfRange
from beamcheck.values.loader import HOW, rows

from .samples import NAMES, POWERS, draw, units

# Formulas in which a number of the standard carries a unit. Their value changes when inches and pounds are replaced.
CONSTANTS_WITH_UNITS = {
    "volume_factor": "21 ft, 12 in, 5.125 in",
    "tension_notch_limit": "3 in",
    "size_factor_timber": "12 in, the depth of the reference value",
    "bearing_area_factor": "0.375 in of fibres beside the seat that help, and 6 in where they no longer do",
    "roof_area_reduction": "200 and 600 ft2",
    "roof_live_load": "the floor of 12 psf",
    "low_slope_minimum_snow": "20 psf",
    "rain_on_snow": "20 psf, 5 psf, feet",
    "sliding_pressure": "15 ft",
    "snow_density": "14 pcf, 30 pcf",
    "drift_height": "10 psf, feet",
    "drift_height_7_22": "psf, pcf, feet",
    "velocity_exposure": "15 ft",
    "velocity_pressure": "psf for miles per hour",
    "reduced_live_load": "400 ft2",
    "deck_live_load": "100 psf",
    "floor_frequency": "386.1 in/s2",
    "allowed_under_1_kn": "millimeters",
    "ponding_growth": "62.4 pcf, the weight of water",
    "timber_density": "62.4 pcf, the weight of water",
    "green_timber_density": "62.4 pcf, the weight of water",
    "density_at_moisture": "62.43 pcf, the weight of water",
    "dowel_bearing_parallel": "11,200 psi",
    "dowel_bearing_perpendicular": "6,100 psi, a diameter in inches",
    "dowel_bearing_small": "16,600 psi",
    "reduction_term_I": "K_D, and the limit of 1/4 in",
    "reduction_term_II": "K_D, and the limit of 1/4 in",
    "reduction_term_III_IV": "K_D, and the limit of 1/4 in",
    "withdrawal_lag": "1,800 psi, a diameter in inches",
    "withdrawal_wood_screw": "2,850 psi",
    "withdrawal_nail": "1,380 psi",
    "withdrawal_stainless_nail": "465 psi",
    "head_pull_through": "690 and 1,725 psi",
    "load_slip_wood": "180,000 lbf/in, a diameter in inches",
    "load_slip_metal": "270,000 lbf/in, a diameter in inches",
    "bolt_hole": "1/16 in",
    "standard_hole": "1/16 in, and 1/8 in from 1 in",
    "net_hole_width": "1/16 in",
    "peg_bearing_parallel": "4,770 psi",
    "peg_bearing_perpendicular": "4,900 psi",
    "peg_bending_yield": "24,850 psi",
    "peg_shear_strength": "4,850 psi",
    "front_of_double_step": "10 mm",
    "splitting_strength": "14 N/mm^1.5",
    "edge_knot_ratio": "1/24 and 1/2 in beside knot and face, and 12 in",
    "center_knot_ratio": "1/24 and 1/2 in beside knot and face, and 12 in",
    "narrow_knot_ratio": "1/24 and 1/2 in beside knot and face, and 6 in",
    "indicated_bending": "2 in, the depth of the clear specimens",
    "gravity_from_density": "62.4 pcf, the weight of water",
}


@pytest.mark.parametrize("name", NAMES)
def test_a_formula_says_what_it_is_and_its_help_the_rest(name: str) -> None:
    """One line of what it is, how known, an example; equation, units and ranges are put to it."""
    formula = REGISTRY[name]
    what, _notes, about, example = typed(formula)
    assert what.endswith(".") and formula.symbol and formula.clause and example
    assert formula.known.split(";")[0] in HOW
    assert set(about) <= {*formula.arguments, formula.symbol}
    shown = re.sub(r"\s+", " ", formula.__doc__ or "")
    assert f"{formula.symbol} = {equation_text(formula.tree)}" in shown
    assert f"{formula.clause}. How known: {formula.known}." in shown
    for argument in formula.arguments:
        allowed = "".join(f", {each.words()}" for each in formula.ranges[argument])
        assert f"{argument} : {unit_of(argument) or 'no unit'}{allowed} {meaning(argument)}" in shown
    assert f"Returns ------- {formula.symbol} : {formula.unit or 'no unit'}" in shown
    _the_equation_in_its_help_is_the_equation(name)


def _the_equation_in_its_help_is_the_equation(name: str) -> None:
    """Read back as arithmetic, it gives what the formula gives."""
    formula = REGISTRY[name]
    (inputs,) = draw(name, 1)
    text = re.sub(r"(.+?) where (.+?), else ", r"(\1) if (\2) else ", equation_text(formula.tree).replace("^", "**"))
    known = {"sqrt": math.sqrt, "abs": abs, "smallest": min, "largest": max}
    known |= {"sin": lambda x: math.sin(math.radians(x)), "cos": lambda x: math.cos(math.radians(x))}
    if "(where" not in text and text.count(" if ") <= 1:  # a branch inside an expression is not arithmetic
        assert eval(text, known, inputs) == pytest.approx(formula(**inputs), rel=1e-5)


def test_a_branch_and_a_product_are_written_as_they_are_read() -> None:
    shear = REGISTRY["point_load_share"]
    assert equation_text(shear.tree) == "x / d where x < d, else 1"
    assert equation_text(REGISTRY["end_notch_tension_shear"].tree) == "2 * F_v_prime * b * d_n / 3 * (d_n / d)^2"
    assert "x : in, 0 or more" in (shear.__doc__ or "") and "d : in, above 0" in (shear.__doc__ or "")


def test_nothing_of_the_help_is_made_before_it_is_asked_for() -> None:
    code = (
        "import sys; from beamcheck.formulas.wood import shear\n"
        "assert 'beamcheck.calc.describe' not in sys.modules and 'documentation' not in vars(shear.shear_stress)\n"
        "assert '3 * V / (2 * b * d)' in shear.shear_stress.__doc__"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
    assert "published equation" in (Formula.__doc__ or "")  # the class has its own


@pytest.mark.parametrize("name", NAMES)
def test_the_example_in_the_docstring_runs(name: str) -> None:
    formula = REGISTRY[name]
    names = dict(vars(sys.modules[formula.__module__]))
    example = doctest.DocTestParser().get_doctest(formula.__doc__ or "", names, name, None, None)
    assert example.examples
    said: list[str] = []
    result = doctest.DocTestRunner(verbose=False).run(example, out=said.append)
    assert result.failed == 0, "".join(said)


def test_the_units_are_those_of_the_nomenclature() -> None:
    listed = {row["name"]: row["unit"] for row in rows("nomenclature")}
    for name in NAMES:
        assert set(REGISTRY[name].arguments) <= set(listed)
        assert REGISTRY[name].unit == listed[REGISTRY[name].symbol], name
    assert set(listed.values()) <= set(POWERS)


def test_the_bounds_of_a_range_are_arguments() -> None:
    """A bound that names another argument names one that the formula has."""
    for formula in REGISTRY.values():
        for allowed in itertools.chain(*formula.ranges.values(), formula.result_ranges):
            for bound in (allowed.low, allowed.high):
                if isinstance(bound, str):
                    assert set(compile(bound, formula.name, "eval").co_names) <= set(formula.arguments)


@pytest.mark.parametrize("name", NAMES)
def test_the_tree_gives_the_number_that_the_function_gives(name: str) -> None:
    formula = REGISTRY[name]
    for inputs in draw(name, 20):
        assert evaluate(formula.tree, inputs) == pytest.approx(formula(**inputs), rel=1e-12, abs=1e-300)


def test_the_tree_holds_every_argument() -> None:
    for formula in REGISTRY.values():
        assert set(formula.tree.symbols()) == set(formula.arguments), formula.name


@pytest.mark.parametrize("name", NAMES)
def test_an_array_gives_what_its_elements_give(name: str) -> None:
    formula, drawn = REGISTRY[name], draw(name, 20)
    columns = {each: np.array([inputs[each] for inputs in drawn]) for each in formula.arguments}
    one_by_one = [formula(**inputs) for inputs in drawn]
    together = formula(**columns)
    assert isinstance(together, np.ndarray)
    np.testing.assert_allclose(together, one_by_one, rtol=1e-12)
    if len(columns) > 1:  # one argument an array, the others numbers, as in a sweep
        for swept in columns:
            mixed = {each: columns[each] if each == swept else drawn[0][each] for each in columns}
            try:
                assert np.asarray(formula(**mixed)).flat[0] == pytest.approx(one_by_one[0], rel=1e-12)
            except OutOfRange:  # a number that does not fit any element: raised at once, never a value
                pytest.fail(f"{name}: {swept} as an array refuses inputs that have a value")


@pytest.mark.parametrize("name", [name for name in NAMES if name not in CONSTANTS_WITH_UNITS])
def test_units_balance(name: str) -> None:
    """Measured with a shorter inch and a lighter pound, every result is the same quantity."""
    for scaled, same in _measured_otherwise(name):
        assert scaled == pytest.approx(same, rel=1e-9)


@pytest.mark.parametrize("name", CONSTANTS_WITH_UNITS)
def test_the_formulas_with_constants_that_carry_units_are_listed_rightly(name: str) -> None:
    assert any(scaled != pytest.approx(same, rel=1e-3) for scaled, same in _measured_otherwise(name))


def _measured_otherwise(name: str) -> list[tuple[float, float]]:
    """The formula with other units of length and force, and its result turned into them; NaN where it refuses."""
    length, force = 1.01, 1.05
    formula, of = REGISTRY[name], units(name)

    def scale(unit: str) -> float:
        lengths, forces = POWERS[unit]
        return length**lengths * force**forces

    pairs = []
    for inputs in draw(name, 10):
        same = formula(**inputs) * scale(formula.unit)
        try:
            scaled = formula(**{each: value * scale(of[each]) for each, value in inputs.items()})
        except OutOfRange:
            scaled = math.nan
        pairs.append((scaled, same))
    return pairs


@pytest.mark.parametrize("name", NAMES)
def test_a_missing_number_never_gives_a_value(name: str) -> None:
    """NaN raises or stays NaN, so that nothing passes on it; in an array it spoils its own element only."""
    formula = REGISTRY[name]
    inputs, other = draw(name, 2)
    for missing in formula.arguments:
        try:
            assert math.isnan(formula(**{**inputs, missing: math.nan}))
        except OutOfRange as refusal:
            assert missing.split("_")[0] in str(refusal)
        columns = {each: np.array([inputs[each], other[each]]) for each in formula.arguments}
        columns[missing] = np.array([math.nan, other[missing]])
        first, second = formula(**columns)
        assert math.isnan(first)
        assert second == pytest.approx(formula(**other), rel=1e-12)
