"""Pint at the door, and pint as the other method that checks every factor of our own unit list."""

import subprocess
import sys
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np
import pint
import pytest

from beamcheck.errors import UnitError, UnknownName
from beamcheck.units import KINDS, example, read, registry, to_pint
from beamcheck.units.unit_list import UNITS

IN_PINT = {  # our unit -> the same in pint's words; a kilogram per volume is taken as the weight of that mass
    "in": "inch", "ft": "foot", "mm": "mm", "cm": "cm", "m": "m",
    "lb": "lbf", "kip": "kip", "N": "N", "kN": "kN", "kgf": "kgf",
    "plf": "lbf/foot", "lb/ft": "lbf/foot", "pli": "lbf/inch", "lb/in": "lbf/inch", "klf": "kip/foot",
    "kip/ft": "kip/foot", "kip/in": "kip/inch", "N/m": "N/m", "kN/m": "kN/m", "N/mm": "N/mm", "kgf/m": "kgf/m",
    "psf": "lbf/foot**2", "lb/ft2": "lbf/foot**2", "ksf": "kip/foot**2", "kip/ft2": "kip/foot**2", "psi": "psi",
    "lb/in2": "lbf/inch**2", "ksi": "ksi", "kip/in2": "kip/inch**2", "Pa": "Pa", "N/m2": "N/m**2", "kPa": "kPa",
    "kN/m2": "kN/m**2", "MPa": "MPa", "N/mm2": "N/mm**2", "GPa": "GPa", "kN/mm2": "kN/mm**2", "kgf/m2": "kgf/m**2",
    "kgf/cm2": "kgf/cm**2",
    "lb-in": "lbf*inch", "lb-ft": "lbf*foot", "kip-in": "kip*inch", "kip-ft": "kip*foot", "N-m": "N*m", "kN-m": "kN*m",
    "pcf": "lbf/foot**3", "lb/ft3": "lbf/foot**3", "lb/in3": "lbf/inch**3", "kg/m3": "kgf/m**3", "kgf/m3": "kgf/m**3",
    "N/m3": "N/m**3", "kN/m3": "kN/m**3",
    "F": "degF", "C": "degC", "deg": "degree", "%": "percent",
    "in2": "inch**2", "ft2": "foot**2", "mm2": "mm**2", "cm2": "cm**2", "m2": "m**2",
    "in3": "inch**3", "ft3": "foot**3", "mm3": "mm**3", "cm3": "cm**3", "m3": "m**3",
    "in4": "inch**4", "ft4": "foot**4", "mm4": "mm**4", "cm4": "cm**4", "m4": "m**4",
    "kg": "kg", "kg/m": "kg/m", "kg/m2": "kg/m**2",
}  # fmt: skip
INNER_IN_PINT = {
    "length": "inch", "force": "lbf", "force per length": "lbf/inch", "force per area": "lbf/inch**2",
    "force times length": "lbf*inch", "weight per volume": "lbf/foot**3", "temperature": "degF", "angle": "degree",
    "percentage": "percent", "area": "inch**2", "length cubed": "inch**3", "length to the fourth": "inch**4",
    "mass": "kg", "mass per length": "kg/m", "mass per area": "kg/m**2",
}  # fmt: skip


@pytest.fixture(scope="module")
def own() -> Any:
    return pint.UnitRegistry()


def test_every_unit_is_compared() -> None:
    assert set(IN_PINT) == set(UNITS)


@pytest.mark.parametrize("name", UNITS)
def test_each_factor_is_pints(name: str, own: Any) -> None:
    unit = UNITS[name]
    for number in (0.0, 1.0, 37.0) if unit.offset else (1.0, 37.0):
        by_pint = own.Quantity(number, IN_PINT[name]).to(INNER_IN_PINT[unit.dimension]).magnitude
        assert float(unit.factor) * number + float(unit.offset) == pytest.approx(by_pint, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize(
    ("kind", "number", "unit", "inner"),
    [
        ("length", 14.5, "foot", 174),
        ("length", 2, "foot", 24),
        ("length", 2.3, "m", 2300 / 25.4),
        ("offset", -2.0, "inch", -2),
        ("force", 2.0, "kip", 2000),
        ("line load", 120.0, "lbf/foot", 10),
        ("area load", 144.0, "lbf/foot**2", 1),
        ("stress", 1.6, "Mpsi", 1.6e6),
        ("moment", 10.0, "lbf*foot", 120),
        ("density", 35.0, "lbf/foot**3", 35),
        ("density", 35.0, "lb/foot**3", 35),  # a mass per volume, as scales give it
        ("temperature", 32.0, "degC", 89.6),
        ("slope", 30.0, "degree", 30),
        ("angle", np.pi / 6, "radian", 30),
        ("moisture", 19.0, "percent", 19),
        ("area", 2.0, "foot**2", 288),
        ("section modulus", 115.0, "inch**3", 115),
        ("inertia", 560.0, "inch**4", 560),
        ("ratio", 0.85, "", 0.85),
        ("length", np.float64(3), "foot", 36),
        ("length", np.array(3.0), "foot", 36),
        ("length", Decimal("2.3"), "m", 2300 / 25.4),
        ("length", Fraction(1, 3), "foot", 4),
    ],
)
def test_pint_quantities_of_any_registry_read(kind: str, number: Any, unit: str, inner: float, own: Any) -> None:
    for units in (own, pint.get_application_registry()):  # type: ignore[no-untyped-call]
        found = read(units.Quantity(number, unit), kind)
        assert type(found) is float
        assert found == pytest.approx(inner, rel=1e-12)


@pytest.mark.parametrize(
    ("number", "unit", "value", "what"),
    [(40.0, "lbf/foot**2", 40 / 144, "area"), (120.0, "lbf/foot", 10, "line"), (-2.0, "kip", -2000, "point")],
)
def test_pint_loads_say_what_they_are(number: float, unit: str, value: float, what: str, own: Any) -> None:
    amount, found = read(own.Quantity(number, unit), "load")
    assert found == what
    assert amount == pytest.approx(value, rel=1e-12)


MASS_HINT = "; for pint a pound or kilogram is a mass: use lbf or kgf"
ONE_NUMBER = "a length in pint has one real number (int or float) as its magnitude, not"


@pytest.mark.parametrize(
    ("kind", "number", "unit", "message"),
    [
        (
            "length", 3, "lbf",
            "a pint quantity in force_pound has the dimension [length] * [mass] / [time] ** 2; a length needs the "
            "dimension length, for example '14 ft 6 in'",
        ),
        (
            "force", 3, "lb",
            "a pint quantity in pound has the dimension [mass]; a force needs the dimension force, "
            "for example '1,240 lb'" + MASS_HINT,
        ),
        (
            "load", 3, "kg/m**2",
            "a pint quantity in kilogram / meter ** 2 has the dimension [mass] / [length] ** 2; a load needs the "
            "dimension force per area, force per length or force, for example '40 psf'" + MASS_HINT,
        ),
        (
            "length", 3, "",
            "a pint quantity in dimensionless has the dimension dimensionless; a length needs the dimension length, "
            "for example '14 ft 6 in'",
        ),
        (
            "slope", 0.5, "",
            "a pint quantity in dimensionless has the dimension dimensionless; a slope needs the dimension angle, "
            "for example '6:12'",
        ),
        (
            "moisture", 0.19, "",
            "a pint quantity in dimensionless has the dimension dimensionless; a moisture needs the dimension "
            "percentage, for example '19 %'",
        ),
        (
            "angle", 19, "percent",
            "a pint quantity in percent has the dimension dimensionless; an angle needs the dimension angle, "
            "for example '30 deg'",
        ),
        (
            "temperature", 5, "delta_degF",  # a difference of temperatures is not a temperature
            "a pint quantity in delta_degree_Fahrenheit has the dimension [temperature]; a temperature needs the "
            "dimension temperature, for example '90 F'",
        ),
        ("length", np.array([1.0, 2.0]), "foot", f"{ONE_NUMBER} ndarray"),
        ("length", 1 + 1j, "foot", f"{ONE_NUMBER} complex"),
        ("temperature", Decimal(30), "degC", ONE_NUMBER.replace("length", "temperature") + " Decimal"),
        ("length", -3, "foot", "'-3 foot': a length has no sign, for example '14 ft 6 in'"),
        ("length", float("nan"), "foot", "'nan foot' is not a number; a length is, for example '14 ft 6 in'"),
        ("length", float("inf"), "foot", "'inf foot' is out of reason: a length here is from 0 to 1,000,000 in"),
        ("length", 1e300, "foot", "'1e+300 foot' is out of reason: a length here is from 0 to 1,000,000 in"),
        pytest.param("length", 10**5000, "inch", "the pint quantity is out of reason for a length", id="5001 digits"),
        ("length", 1e-15, "foot", "'1e-15 foot' is too small to be meant; for none write 0 with its unit"),
    ],
)  # fmt: skip
def test_wrong_pint_quantities_are_refused(kind: str, number: Any, unit: str, message: str, own: Any) -> None:
    quantity = own.Quantity(number, unit)
    with pytest.raises(UnitError) as caught:
        read(quantity, kind)
    assert str(caught.value) == message


def test_a_pint_unit_without_a_number_is_refused(own: Any) -> None:
    with pytest.raises(UnitError, match=r"or a pint quantity, not Unit$"):
        read(own.Unit("inch"), "length")


def test_something_that_only_looks_like_pint_is_refused() -> None:
    class Disguise:
        dimensionality = "[length]"

        def to(self, unit: str) -> float:
            return 3.0

    with pytest.raises(UnitError, match=r"or a pint quantity, not Disguise$"):
        read(Disguise(), "length")


@pytest.mark.parametrize("kind", KINDS)
def test_inner_values_go_to_pint_and_back(kind: str) -> None:
    inner: Any = read(example(kind), kind)
    quantity = to_pint(inner, kind)
    again: Any = read(quantity, kind)
    assert again == pytest.approx(inner) if kind != "load" else again == inner
    assert isinstance(quantity, pint.Quantity)


def test_arrays_go_to_pint() -> None:
    assert to_pint(np.array([12.0, 24.0]), "length").to("foot").magnitude == pytest.approx([1, 2])


def test_quantities_mix_with_those_of_the_process_registry() -> None:
    users: Any = pint.get_application_registry()  # type: ignore[no-untyped-call]
    assert (to_pint(12.0, "length") + users.Quantity(1, "foot")).to("foot").magnitude == pytest.approx(2)


def test_trade_units_are_known_to_the_registry() -> None:
    quantity = registry().Quantity
    for name, other, factor in [
        ("psf", "psi", 1 / 144),
        ("plf", "lbf/inch", 1 / 12),
        ("pcf", "lbf/inch**3", 1 / 1728),
        ("ksf", "psi", 1000 / 144),
        ("klf", "lbf/inch", 1000 / 12),
    ]:
        assert quantity(1.0, name).to(other).magnitude == pytest.approx(factor, rel=1e-12)
    assert read(quantity(40, "psf"), "area load") == pytest.approx(40 / 144)


@pytest.fixture
def registry_with_own_psf() -> Iterator[Any]:
    current: Any = pint.application_registry
    before = current.get()
    users: Any = pint.UnitRegistry()
    users.define("psf = 2 * lbf/foot**2")
    current.set(users)
    yield users
    current.set(before)


def test_a_users_own_unit_is_not_touched(registry_with_own_psf: Any) -> None:
    assert registry().Quantity(1.0, "psf").to("psi").magnitude == pytest.approx(2 / 144)
    assert registry().Quantity(1.0, "plf").to("lbf/inch").magnitude == pytest.approx(1 / 12)


def test_to_pint_names_what_is_unknown() -> None:
    with pytest.raises(UnknownName, match=r"^kind of quantity 'lenght' is not known"):
        to_pint(1.0, "lenght")
    with pytest.raises(UnknownName, match=r"^what a load is 'lines' is not known; did you mean 'line'\?$"):
        to_pint((1.0, "lines"), "load")


def test_text_is_read_without_importing_pint() -> None:
    code = (
        "import sys; from beamcheck.units import read, show\n"
        "assert show(read('14 ft 6 in', 'length'), 'length') == '14 ft 6 in'\n"
        "try: read(6, 'length')\n"
        "except ValueError: pass\n"
        "assert 'pint' not in sys.modules and 'numpy' not in sys.modules, 'heavy import'\n"
    )
    root = Path(__file__).parents[2]
    subprocess.run([sys.executable, "-c", code], cwd=root, check=True, timeout=60)
