"""Pint quantities in and out. Pint is imported only when somebody brings or asks for one."""

from __future__ import annotations

from typing import Any

from ..errors import UnitError
from .kinds import LOAD_KINDS, Kind, either, kind_of, load_part

# Trade units that pint does not know. `pli` is left out: pint reads it as a pico-link and keeps that reading.
_OWN = {"psf": "lbf/foot**2", "plf": "lbf/foot", "pcf": "lbf/foot**3", "ksf": "kip/foot**2", "klf": "kip/foot"}

# Degrees, percents and bare numbers are all without dimension for pint, so the unit itself is looked at.
_WITHOUT_DIMENSION = {"angle": ("degree", "radian"), "percentage": ("percent",), "pure number": ("dimensionless",)}
_MASSES = ("[mass]", "[mass] / [length]", "[mass] / [length] ** 2")


def is_quantity(value: object) -> bool:
    """Is this a pint quantity of any registry? Does not import pint for other objects."""
    if not (hasattr(value, "to") and hasattr(value, "dimensionality")):
        return False
    import pint

    return isinstance(value, pint.Quantity)


def said(quantity: Any) -> str:
    """A pint quantity as text for error messages, whatever format its registry is set to."""
    return f"{quantity.magnitude} {quantity.units:D}"


def registry() -> Any:
    """Pint's registry of this process, with psf, plf, pcf, ksf and klf defined if they were missing."""
    import pint

    units: Any = pint.get_application_registry()  # type: ignore[no-untyped-call]
    for name, definition in _OWN.items():
        try:
            units.Unit(name)
        except pint.UndefinedUnitError:
            units.define(f"{name} = {definition}")
    return units


def to_pint(value: Any, kind: str) -> Any:
    """A pint quantity of the process-wide registry.

    Parameters
    ----------
    value : float or array, or for 'load' a tuple of (float, str)
        In the kind's inner unit.
    kind : str
        A key of KINDS.

    Returns
    -------
    pint.Quantity
        In the kind's inner unit.

    Raises
    ------
    UnknownName
        If there is no such kind, or for 'load' no such part.
    """
    wanted = kind_of(kind)
    if kind == "load":
        amount, what = value
        return to_pint(amount, load_part(what))
    return registry().Quantity(value, wanted.pint)


def from_pint(quantity: Any, wanted: Kind) -> float:
    """The magnitude of one real pint quantity in the kind's inner unit.

    Raises UnitError if the dimension is wrong, or the magnitude is not one real number.
    """
    import pint

    allowed = _WITHOUT_DIMENSION.get(wanted.dimensions[0])
    if allowed and f"{quantity.units:D}" not in allowed:
        raise _wrong(quantity, wanted)
    # A density may come as weight or as mass per volume; pint keeps them apart.
    targets = [wanted.pint, "pound/foot**3"] if wanted.name == "density" else [wanted.pint]
    for target in targets:
        try:
            return _one_number(quantity.to(target), wanted)
        except pint.errors.PintError:
            continue
        except OverflowError:
            raise UnitError(f"the pint quantity is out of reason for {wanted.with_article}") from None
        except (TypeError, ValueError):
            raise _not_one(quantity, wanted) from None
    raise _wrong(quantity, wanted)


def load_from_pint(quantity: Any, wanted: Kind) -> tuple[float, str]:
    """Value in inner unit and dimension of a pint quantity that is an area load, a line load or a force.

    Raises UnitError if it is none of them.
    """
    for name in LOAD_KINDS.values():
        part = kind_of(name)
        if quantity.is_compatible_with(part.pint):
            return from_pint(quantity, part), part.dimensions[0]
    raise _wrong(quantity, wanted)


def _one_number(quantity: Any, wanted: Kind) -> float:
    if getattr(quantity.magnitude, "shape", ()) != ():
        raise _not_one(quantity, wanted)
    return float(quantity.magnitude)


def _not_one(quantity: Any, wanted: Kind) -> UnitError:
    given = type(quantity.magnitude).__name__
    return UnitError(f"{wanted.with_article} in pint has one real number (int or float) as its magnitude, not {given}")


def _wrong(quantity: Any, wanted: Kind) -> UnitError:
    given = str(quantity.dimensionality)
    hint = "; for pint a pound or kilogram is a mass: use lbf or kgf" if given in _MASSES else ""
    return UnitError(
        f"a pint quantity in {quantity.units:D} has the dimension {given}; {wanted.with_article} needs the dimension "
        f"{either(wanted.dimensions)}, for example {wanted.example!r}{hint}"
    )
