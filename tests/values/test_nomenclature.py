"""One symbol list for code, sheet and documents: each name once, each symbol typesettable."""

import importlib
import pkgutil

import pytest
import typst

from beamcheck import formulas
from beamcheck.calc.core import REGISTRY
from beamcheck.values.loader import rows


def test_names_are_python_names_and_each_is_listed_once() -> None:
    names = [row["name"] for row in rows("nomenclature")]
    assert all(name.isidentifier() for name in names)
    assert len(set(names)) == len(names)


def test_every_row_is_complete() -> None:
    for row in rows("nomenclature"):
        assert row["typst"] and row["plain"] and row["kind"] and row["meaning"], row["name"]
        assert (row["unit"] == "") == (row["kind"] == "ratio"), row["name"]


def test_no_two_names_are_typeset_alike() -> None:
    """G and G_0 apart: different texts in the documents for one quantity; here the printed symbols differ as well."""
    symbols = [row["typst"] for row in rows("nomenclature")]
    assert len(set(symbols)) == len(symbols)


def test_typst_compiles_every_symbol() -> None:
    lines = [f"$ {row['typst']} $" for row in rows("nomenclature")]
    page = typst.compile("\n".join(lines).encode(), format="pdf")
    assert page[:5] == b"%PDF-"


@pytest.mark.parametrize(
    ("name", "symbol"),
    [
        ("F_b_star", "F_b^*"),
        ("F_b_prime", "F'_b"),
        ("F_c_perp_prime", "F'_(c perp)"),
        ("F_bE", 'F_"bE"'),
        ("E_min_prime", 'E\'_"min"'),
        ("l_e", "ell_e"),
    ],
)
def test_symbols_as_the_standard_prints_them(name: str, symbol: str) -> None:
    (row,) = [row for row in rows("nomenclature") if row["name"] == name]
    assert row["typst"] == symbol


def test_no_prime_stands_after_a_subscript() -> None:
    """typst hangs a prime that comes last on the subscript; before it, the prime stands on the letter."""
    for row in rows("nomenclature"):
        assert "_" not in row["typst"].rpartition("'")[0], row["name"]


def test_the_temperature_factor_is_that_of_wood_and_of_snow() -> None:
    """NDS 2018 2.3.3 and ASCE 7-16 7.3.2 use one symbol (how: memory)."""
    (row,) = [row for row in rows("nomenclature") if row["name"] == "C_t"]
    assert "wood" in row["meaning"] and "snow" in row["meaning"]


def test_every_symbol_and_argument_of_a_formula_is_listed() -> None:
    """A new formula with a new symbol: add its row to tables/nomenclature.csv and renew the manifest line."""
    for module in pkgutil.walk_packages(formulas.__path__, f"{formulas.__name__}."):
        importlib.import_module(module.name)
    listed = {row["name"] for row in rows("nomenclature")}
    used = {name: formula.name for formula in REGISTRY.values() for name in (formula.symbol, *formula.arguments)}
    assert {name: where for name, where in used.items() if name not in listed} == {}
