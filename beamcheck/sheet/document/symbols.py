"""Names of quantities and units as typst source: from tables/nomenclature.csv, else by rule."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

from ...values.loader import Row, rows
from .box import ATOM, POWER, PRODUCT, Box

_GREEK = frozenset({
    "alpha", "beta", "gamma", "delta", "epsilon", "zeta", "eta", "theta", "kappa", "lambda", "mu", "nu", "xi", "pi",
    "rho", "sigma", "tau", "phi", "chi", "psi", "omega",
    "Gamma", "Delta", "Theta", "Lambda", "Xi", "Pi", "Sigma", "Phi", "Psi", "Omega",
})  # fmt: skip
_PARTS = {"perp": "perp", "par": "parallel", "parallel": "parallel"}
_RAISED = {"star": "*", "prime": "'"}
# a name of a symbol in running text, such as F_b or F_c_perp
IN_TEXT = r"\b([A-Za-z]{1,6})_([A-Za-z0-9]{1,9}(?:_(?:perp|par|star|prime|y|min))*)\b"
_LETTERS = {
    "alpha": "α", "beta": "β", "lambda": "λ", "delta": "δ", "gamma": "γ",
    "eta": "η", "theta": "θ", "mu": "μ", "rho": "ρ", "sigma": "σ", "tau": "τ", "phi": "φ",
    "Delta": "Δ", "perp": "⊥", "par": "∥", "star": "*", "prime": "′",
}  # fmt: skip
_POWERS = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


def quoted(text: str) -> str:
    """Upright text in typst mathematics."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def symbol_source(name: str) -> Box:
    """The symbol of a quantity, such as `F_b^*` for `F_b_star`."""
    row = _nomenclature().get(name)
    if row is None:
        return by_rule(name)
    source = row["typst"]
    return Box(source, POWER if re.search(r"[\^']", source) else ATOM, 0.3 + 0.4 * len(row["plain"]))


def plain_symbol(name: str) -> str:
    """The symbol as running text."""
    row = _nomenclature().get(name)
    return row["plain"] if row is not None else name


def meaning(name: str) -> str:
    """What the symbol stands for, '' when the table does not say."""
    row = _nomenclature().get(name)
    return row["meaning"] if row is not None else ""


def lettered(name: str) -> tuple[str, str] | None:
    """Base and subscript of a symbol for running text, `("F", "c⊥")` of `F_c_perp`; nothing for another word."""
    if not meaning(name):
        return None
    base, *rest = name.split("_")
    parts = ["Δ" if name == "C_delta" else _LETTERS.get(part, part) for part in rest]
    return _LETTERS.get(base, base), "".join(parts)


@lru_cache(maxsize=1)
def _nomenclature() -> Mapping[str, Row]:
    return {row["name"]: row for row in rows("nomenclature")}


def by_rule(name: str) -> Box:
    """For a name that the table does not hold: base and subscripts between underscores, `_star` and `_prime` raised."""
    width = 0.3 + 0.4 * len(name)
    if name.count("/") == 1 and all(name.split("/")):  # a ratio of two symbols, such as l_e/d
        over, under = (symbol_source(part) for part in name.split("/"))
        return Box(f'{over.source} "/" {under.source}', PRODUCT, over.width + under.width + 0.5)
    if not re.fullmatch(r"[A-Za-z][A-Za-z0-9]*(_[A-Za-z0-9]+)*", name):
        return Box(quoted(name), ATOM, width)
    base, *rest = name.split("_")
    lowered = [_part(part) for part in rest if part not in _RAISED]
    raised = [_RAISED[part] for part in rest if part in _RAISED]
    source = ("ell" if base == "l" else _part(base)) + "'" * raised.count(
        "'"
    )  # a prime after a subscript would join it
    if lowered:
        source += f"_{lowered[0]}" if len(lowered) == 1 else f"_({' thin '.join(lowered)})"
    if "*" in raised:
        source += "^*"
    return Box(source, POWER if raised else ATOM, width)


def unit_source(unit: str) -> Box:
    """A unit in upright type after a thin space; nothing for a bare number."""
    if not unit:
        return Box("", ATOM, 0.0)
    text = plain_unit(unit)
    return Box(f"thin {quoted(text)}", ATOM, 0.5 * len(text) + 0.2)


def plain_unit(unit: str) -> str:
    """A unit as running text, with raised powers and a centered dot: `in2` or `in^2` is in², `lbf*in` is lbf·in."""
    powers = re.sub(r"(?<=[a-z])(?:\*\*|\^)?(-?\d)", lambda found: found.group(1).translate(_POWERS), unit)
    return powers.replace("*", "·")


def _part(part: str) -> str:
    if part in _GREEK or (len(part) == 1 and part.isalpha()) or part.isdigit():
        return part
    return _PARTS.get(part) or quoted(part)
