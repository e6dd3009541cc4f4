"""What a test on site says of a timber: its modulus by a sag, its specific gravity by its weight, each as an interval.

A test tells which table rows the piece hardly can be of. It never shows strength, and takes no row out of what is
checked: a screened piece stays `refer`, whatever the test.
"""

from __future__ import annotations

from ....formulas.survey import site_tests as rules
from ....formulas.wood.deflection import shear_free_modulus
from ....model.conditions.survey import SagTest, Weighing, mean_sides
from ....model.stock import Stock
from ....records import dataclass
from ....units import show
from ....values.judgment import judgment
from ....values.lumber import DesignValues, read_size

TAPE = "tape on a side of timber"  # row of tables/judgment_survey.csv
OUT = 1.645  # deviations beyond which a piece hardly is of a row: 5 % of a normal distribution lie there


@dataclass(frozen=True)
class Interval:
    """What was found and between which bounds it lies."""

    low: float
    value: float
    high: float

    def __post_init__(self) -> None:
        if not 0.0 < self.low <= self.value <= self.high:
            raise ValueError(f"no interval: {self.low}, {self.value}, {self.high}")


def modulus_found(stock: Stock) -> Interval | None:
    """Modulus of elasticity beside tabulated ones (bending alone, NDS 2018 Appendix F), psi; None without a result.

    Weight, sag and sides go to the bad end together.
    """
    test = None if stock.survey is None else stock.survey.sag_test
    if test is None or test.sag is None or test.supports_sank is None or test.came_back is False:
        return None  # what did not go back was no bending of sound wood
    net, tape = test.sag - test.supports_sank, judgment(TAPE).value
    sides = sides_of(stock)
    return Interval(
        _modulus(sides, tape, test, test.weight - test.weight_off, net + test.sag_off),
        _modulus(sides, 0.0, test, test.weight, net),
        _modulus(sides, -tape, test, test.weight + test.weight_off, net - test.sag_off),
    )


def sides_of(stock: Stock) -> tuple[float, float]:
    """The sides that a test is worked out with."""
    size = read_size(stock.size)
    return (size.b, size.d) if stock.survey is None else mean_sides(stock.survey, size.b, size.d)


def _modulus(sides: tuple[float, float], tape: float, test: SagTest, P: float, net: float) -> float:
    b, d = sides[0] + tape, sides[1] + tape
    E = rules.modulus_from_sag(P=P, L=test.span, I=b * d**3 / 12.0, d=d, Delta=net)
    return float(E) / shear_free()


def shear_free() -> float:
    return float(shear_free_modulus(E=1.0))


def gravity_found(stock: Stock) -> Interval | None:
    """Specific gravity (ovendry weight and volume) by a weighing; None without one."""
    test = None if stock.survey is None else stock.survey.weighing
    if test is None or test.weight is None:
        return None
    b, d = sides_of(stock)
    b, d = test.breadth or b, test.depth or d
    off = test.tape_off
    return Interval(
        _gravity(test, test.weight - test.weight_off, b + off, d + off),
        _gravity(test, test.weight, b, d),
        _gravity(test, test.weight + test.weight_off, b - off, d - off),
    )


def _gravity(test: Weighing, P: float, b: float, d: float) -> float:
    rho = rules.density_from_weight(P=P, b=b, d=d, L=test.length)
    return float(rules.gravity_from_density(rho=rho, MC=test.moisture))


def unlikely(stock: Stock, values: DesignValues) -> str:
    """Why the piece hardly can be of that row, by its tests; '' where it may be.

    Single pieces scatter about the mean of their row: out is what lies beyond 1.645 deviations even at the near end of
    the test's interval.
    """
    why = []
    if (E := modulus_found(stock)) is not None and _beyond(E, values.E, judgment("scatter of the modulus").value):
        why.append(f"E {_round(E.low)} to {_round(E.high)} by its sag")
    G, scatter = gravity_found(stock), judgment("scatter of specific gravity").value
    if G is not None and values.G is not None and _beyond(G, values.G, scatter):
        why.append(f"G {G.low:.2f} to {G.high:.2f} by its weight")
    return " and ".join(why)


def _round(E: float) -> str:
    return show(round(E, -4), "stress")


def _beyond(found: Interval, mean: float, COV: float) -> bool:
    return found.high < mean * (1.0 - OUT * COV) or found.low > mean * (1.0 + OUT * COV)


def tests_words(stock: Stock) -> list[str]:
    """What the tests found, each in a sentence with what it does not show."""
    words = []
    if (E := modulus_found(stock)) is not None:
        came = stock.survey is not None and stock.survey.sag_test is not None and stock.survey.sag_test.came_back
        stayed = "" if came else " Whether the sag went back is not said: if it did not, the test says nothing."
        words.append(
            f"Sag test: E = {_round(E.value)}, between {_round(E.low)} and {_round(E.high)} with "
            f"the errors of tape and weight. It shows stiffness, never strength.{stayed}"
        )
    if (G := gravity_found(stock)) is not None:
        words.append(
            f"Weighing: specific gravity {G.value:.2f}, between {G.low:.2f} and {G.high:.2f}. It tells heavy woods "
            "from light ones; knots and dirt weigh too. It never shows strength."
        )
    return words
