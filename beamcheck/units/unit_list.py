"""The units that text may use: a short list of our own with exact factors.

Text is never handed to an expression parser. Exact definitions (international yard and pound of 1959, standard
gravity): 1 in = 0.0254 m, 1 lb = 0.45359237 kg, g_n = 9.80665 m/s2. In this trade lb is a force.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from ..records import dataclass

INCH_IN_M = Fraction("0.0254")
POUND_IN_KG = Fraction("0.45359237")
STANDARD_GRAVITY = Fraction("9.80665")  # m/s2


@dataclass(frozen=True)
class Unit:
    """One unit: inner value = factor * number + offset. `metric` marks units of the metric system."""

    name: str
    dimension: str
    factor: Fraction
    metric: bool = False
    offset: Fraction = Fraction(0)


_MM = Fraction("0.001") / INCH_IN_M  # in
_CM, _M = 10 * _MM, 1000 * _MM
_KGF = 1 / POUND_IN_KG  # lbf
_N = _KGF / STANDARD_GRAVITY  # lbf
_KIP, _KN = 1000, 1000 * _N
_FT = 12  # in


def _group(dimension: str, us: dict[str, Fraction | int], metric: dict[str, Fraction]) -> list[Unit]:
    return [Unit(name, dimension, Fraction(factor)) for name, factor in us.items()] + [
        Unit(name, dimension, factor, metric=True) for name, factor in metric.items()
    ]


_ALL = [
    *_group("length", {"in": 1, "ft": _FT}, {"mm": _MM, "cm": _CM, "m": _M}),
    *_group("force", {"lb": 1, "kip": _KIP}, {"N": _N, "kN": _KN, "kgf": _KGF}),
    *_group(
        "force per length",
        {
            "plf": Fraction(1, _FT), "lb/ft": Fraction(1, _FT), "pli": 1, "lb/in": 1,
            "klf": Fraction(_KIP, _FT), "kip/ft": Fraction(_KIP, _FT), "kip/in": _KIP,
        },
        {"N/m": _N / _M, "kN/m": _KN / _M, "N/mm": _N / _MM, "kgf/m": _KGF / _M},
    ),
    *_group(
        "force per area",
        {
            "psf": Fraction(1, _FT**2), "psi": 1, "ksi": _KIP, "ksf": Fraction(_KIP, _FT**2),
            "lb/ft2": Fraction(1, _FT**2), "lb/in2": 1, "kip/ft2": Fraction(_KIP, _FT**2), "kip/in2": _KIP,
        },
        {
            "Pa": _N / _M**2, "kPa": _KN / _M**2, "MPa": _N / _MM**2, "GPa": _KN / _MM**2,
            "N/m2": _N / _M**2, "kN/m2": _KN / _M**2, "N/mm2": _N / _MM**2, "kN/mm2": _KN / _MM**2,
            "kgf/m2": _KGF / _M**2, "kgf/cm2": _KGF / _CM**2,
        },
    ),
    *_group(
        "force times length",
        {"lb-in": 1, "lb-ft": _FT, "kip-in": _KIP, "kip-ft": _KIP * _FT},
        {"N-m": _N * _M, "kN-m": _KN * _M},
    ),
    *_group(
        "weight per volume",  # pcf; kg/m3 is taken as the weight of that mass
        {"pcf": 1, "lb/ft3": 1, "lb/in3": _FT**3},
        {
            "kg/m3": _KGF / (_M / _FT) ** 3, "kgf/m3": _KGF / (_M / _FT) ** 3,
            "N/m3": _N / (_M / _FT) ** 3, "kN/m3": _KN / (_M / _FT) ** 3,
        },
    ),
    Unit("F", "temperature", Fraction(1)),
    Unit("C", "temperature", Fraction(9, 5), metric=True, offset=Fraction(32)),
    Unit("deg", "angle", Fraction(1)),
    Unit("%", "percentage", Fraction(1)),
    *_group("area", {"in2": 1, "ft2": _FT**2}, {"mm2": _MM**2, "cm2": _CM**2, "m2": _M**2}),
    *_group("length cubed", {"in3": 1, "ft3": _FT**3}, {"mm3": _MM**3, "cm3": _CM**3, "m3": _M**3}),
    *_group("length to the fourth", {"in4": 1, "ft4": _FT**4}, {"mm4": _MM**4, "cm4": _CM**4, "m4": _M**4}),
    # Known only to say that a mass is not a load; factors in kg.
    *_group("mass", {}, {"kg": Fraction(1)}),
    *_group("mass per length", {}, {"kg/m": Fraction(1)}),
    *_group("mass per area", {}, {"kg/m2": Fraction(1)}),
]  # fmt: skip
UNITS: Mapping[str, Unit] = MappingProxyType({unit.name: unit for unit in _ALL})

# Other spellings of one word, in lower case.
_SPELLINGS = {
    "in": "inch inches \"",
    "ft": "foot feet '",
    "mm": "millimeter millimeters millimetre millimetres",
    "cm": "centimeter centimeters centimetre centimetres",
    "m": "meter meters metre metres",
    "lb": "lbs lbf pound pounds",
    "kip": "kips",
    "n": "newton newtons",
    "kg": "kilogram kilograms",
    "f": "degf fahrenheit",
    "c": "degc celsius",
    "deg": "degree degrees °",
    "%": "percent",
}  # fmt: skip
_WORDS = {other: word for word, others in _SPELLINGS.items() for other in others.split()}
_EXPONENTS = str.maketrans("²³⁴", "234")


def _key(text: str) -> str:
    """One form for all spellings of a unit: 'Pounds per sq. ft' -> 'lb/ft2', 'ft-lb' -> 'ft*lb'."""
    key = text.translate(_EXPONENTS).lower().replace(".", "").strip()
    key = re.sub(r"(?:\*\*|\^)(?=[2-4])", "", key)
    key = re.sub(r"\b(?:square|sq) ?([a-z]+)", r"\g<1>2", key)
    key = re.sub(r"\b(?:cubic|cu) ?([a-z]+)", r"\g<1>3", key)
    key = re.sub(r"^(?:deg|degrees?|°) ?(f|c|fahrenheit|celsius)$", r"\1", key)
    key = re.sub(r" ?(?:/|\bper\b) ?", "/", key)
    key = re.sub(r" ?[-*·⋅×] ?| ", "*", key)
    return "/".join("*".join(sorted(_word(word) for word in part.split("*"))) for part in key.split("/"))


def _word(word: str) -> str:
    power = word[-1:] if word[-1:] in "234" else ""
    stem = word[: len(word) - len(power)]
    return _WORDS.get(stem, stem) + power


_BY_KEY = {_key(name): unit for name, unit in UNITS.items()} | {
    "nm": UNITS["N-m"],
    "knm": UNITS["kN-m"],
    "lbft": UNITS["lb-ft"],
    "ftlb": UNITS["lb-ft"],
}
_MILLI = re.compile(r"\bm(?=Pa|N)")  # 'mPa' is a thousand-millionth of 'MPa': never taken for it


def find_unit(text: str) -> Unit | None:
    """The unit written as `text`, in any of its spellings and letter cases; None if it is not known."""
    return None if _MILLI.search(text) else _BY_KEY.get(_key(text))


def unit_names(dimensions: tuple[str, ...]) -> tuple[str, ...]:
    """The names of all units of these dimensions."""
    return tuple(unit.name for dimension in dimensions for unit in UNITS.values() if unit.dimension == dimension)


def unit_spellings(dimensions: tuple[str, ...]) -> tuple[str, ...]:
    """The names of all units of these dimensions and the words for them, for suggestions."""
    names = unit_names(dimensions)
    folded = {name.lower() for name in names}
    return (*names, *(word for word, stem in _WORDS.items() if stem in folded and word.isalpha()))
