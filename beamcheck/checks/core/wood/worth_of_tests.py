"""What a test on site would be worth, worked out before anybody makes it: the result that would settle it, or that none
would. A test that is not planned yet is taken as it is usually made (`tables/judgment_survey.csv`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ....formulas.loads.weight import timber_density
from ....formulas.survey import site_tests as rules
from ....model.conditions.survey import SagTest, Weighing
from ....model.stock import Stock
from ....units import show
from ....values.judgment import judgment
from ....values.lumber import DesignValues
from ..asking.settling import failing_names
from .site_tests import OUT, TAPE, shear_free, sides_of

Tried = Sequence[tuple[DesignValues, bool]]  # the candidates, and whether each stays within the limits


def worth(stock: Stock, rows: Tried, moist: Tried = (), *, dry: bool = True) -> str:
    """What each test that was not made yet would be worth; '' without a survey.

    Both supports are watched in a sag test: its sag is what is left when their sinking is taken off. `moist` are the
    candidates as they would do were they not dry, or of wet wood dry: what a moisture profile may find.
    """
    return " ".join(filter(None, (_of_what_it_is(stock, rows), _of_a_profile(rows, moist, dry) if moist else "")))


def _of_what_it_is(stock: Stock, rows: Tried) -> str:
    survey = stock.survey
    if survey is None:
        return ""
    over, within = [one for one, holds in rows if not holds], [one for one, holds in rows if holds]
    sag, scale = survey.sag_test, survey.weighing
    open_sag, open_scale = sag is None or sag.sag is None, scale is None or scale.weight is None
    if not over or not within:
        return "A sag test would settle nothing: all candidates do alike." if sag is not None and open_sag else ""
    said = []
    if open_sag:
        said.append(_of_a_sag(stock, sag or _usual_sag(survey.length), over, within))
    if open_scale:
        said.append(_of_a_weighing(stock, scale or _usual_weighing(stock, survey.length), over, within))
    return " ".join(filter(None, said))


def _of_a_profile(rows: Tried, moist: Tried, dry: bool) -> str:
    """A moisture profile: what its core would add to the candidates that hold, or take from them."""
    limit, kept = judgment("wettest wood that counts as dry").value, sum(holds for _, holds in moist)
    now, every = sum(holds for _, holds in rows), len(rows)
    if dry:
        wet = f"A moisture profile that finds over {limit:g} % in the core"
        if kept == now:
            return f"{wet} would change nothing here: each candidate that holds dry holds wet."
        lost = failing_names([one for one, (_, held) in zip(moist, rows, strict=True) if held])
        return (
            f"{wet} would leave {kept} of {every} candidates within the limits, not {now}: {lost} would no longer hold."
        )
    found = f"Once a moisture profile reads {limit:g} % or less from face to core,"
    if kept == now:
        return f"{found} no further candidate would come within the limits."
    return f"{found} {kept} of {every} candidates would stay within the limits, not {now}."


def _usual_sag(length: float) -> SagTest:
    return SagTest.model_construct(span=length, weight=judgment("weight of a sag test").value,
                                   weight_off=judgment("error of a scale").value,
                                   sag_off=judgment("error of a sag").value)  # fmt: skip


def _usual_weighing(stock: Stock, length: float) -> Weighing:
    """At the moisture that was metered, as far as a weighing tells anything at it."""
    MC = min(stock.metered if stock.metered is not None else judgment("moisture at a weighing").value, 30.0)
    return Weighing.model_construct(length=length, weight=None, weight_off=judgment("error of a scale").value,
                                    breadth=None, depth=None, tape_off=judgment(TAPE).value, moisture=MC)  # fmt: skip


def _of_a_sag(stock: Stock, test: SagTest, over: Sequence[DesignValues], within: Sequence[DesignValues]) -> str:
    COV, tape = judgment("scatter of the modulus").value, judgment(TAPE).value
    b, d = sides_of(stock)
    needed = max(one.E for one in over) * (1.0 + OUT * COV)  # above it none of those that fail is left
    sag = _sag(test.weight - test.weight_off, test.span, (b + tape, d + tape), needed) - test.sag_off
    under = f"under {show(test.weight, 'force')} in the middle of {show(test.span, 'length')}"
    if sag <= test.sag_off:
        return (
            f"A sag test {under} would settle nothing: the sag that tells them apart is too small to read with an "
            f"error of {show(test.sag_off, 'small length')}. Put more weight on, or read finer."
        )
    if needed >= max(one.E for one in within) * (1.0 + OUT * COV):
        return (
            f"A sag test {under} would not leave only candidates that hold: stiff pieces of the weaker ones bend no "
            "more than pieces of the stronger ones. It can still rule some out."
        )
    less = f"A sag of less than {show(sag, 'small length')} {under}, what both supports sink taken off,"
    return f"{less} would leave only candidates that stay within the limits."


def _sag(P: float, span: float, sides: tuple[float, float], E: float) -> float:
    b, d = sides
    return float(rules.sag_of_modulus(P=P, L=span, I=b * d**3 / 12.0, d=d, E_test=E * shear_free()))


def _of_a_weighing(stock: Stock, test: Weighing, over: Sequence[DesignValues], within: Sequence[DesignValues]) -> str:
    """The weight above which only candidates are left that hold: heavier wood than any that fails may be."""
    heavy, good = [one.G for one in over if one.G is not None], [one.G for one in within if one.G is not None]
    if len(heavy) < len(over) or not good:
        return ""  # a row without a specific gravity is ruled out by no weighing
    COV = judgment("scatter of specific gravity").value
    needed = max(heavy) * (1.0 + OUT * COV)
    if needed >= max(good) * (1.0 + OUT * COV):
        return "Weighing it would not leave only candidates that hold: those that do not are as heavy."
    b, d = sides_of(stock)
    b, d = (test.breadth or b) + test.tape_off, (test.depth or d) + test.tape_off
    rho = float(timber_density(G=needed, MC=test.moisture))
    weight = math.ceil(rho * b * d * test.length / 1728.0 + test.weight_off)
    what = f"{show(test.length, 'length')} of it at {test.moisture:g} % moisture"
    more = f"{what} that weighs more than {show(float(weight), 'force')}"
    return f"{more} would leave only candidates that stay within the limits."
