"""Sizes of fasteners and grades of steel, as a job writes them, against those of the tables."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, get_args

from ...errors import BeamcheckError, UnknownName
from ...values.hardware.fasteners import NailKind, bolt, lag_screw, nail, nail_sizes, wood_screw
from ...values.hardware.steels import bolt_grades, bolt_steel, steel, steel_grades
from ..fields.places import Fault, Path


def fastener_faults(path: Path, fastener: Mapping[str, Any], *, rod: bool = False) -> Iterator[Fault]:
    """A size and a grade that no table has; on plain data, so that all faults come at once.

    `rod`: whether a bar of plate steel will do, as it does for a pin.
    """
    kind, size, grade = fastener.get("kind"), fastener.get("size"), fastener.get("steel")
    if isinstance(size, str) and size.strip() and isinstance(kind, str):
        try:
            diameter(kind, size)
        except BeamcheckError as error:
            yield (*path, "size"), str(error)
    if isinstance(grade, str) and grade.strip() and kind in ("bolt", "pin"):
        rod = rod or kind == "pin"
        try:
            if not (rod and grade.casefold() in map(str.casefold, steel_grades())):
                bolt_steel(grade)
        except BeamcheckError:
            known = (*bolt_grades(), *steel_grades()) if rod else bolt_grades()
            yield (*path, "steel"), str(UnknownName(f"grade of a {kind}", grade, known))


def steel_faults(path: Path, grade: object) -> Iterator[Fault]:
    """A grade of a plate or bar that no table has."""
    if isinstance(grade, str) and grade.strip():
        try:
            steel(grade)
        except BeamcheckError as error:
            yield path, str(error)


def diameter(kind: str, size: str) -> float:
    """Nominal diameter of a fastener of a job, inches; 0 for a kind that does not exist, which is said elsewhere.

    Raises UnknownName if the tables do not list the size.
    """
    if kind in ("bolt", "pin"):
        return bolt(size).value.D
    if kind == "lag screw":
        return lag_screw(size).value.D
    if kind == "wood screw":
        return wood_screw(size).value.D
    return nail(*nail_name(size)).value.D if kind == "nail" else 0.0


def nail_name(size: str) -> tuple[NailKind, str]:
    """Kind and pennyweight of a nail written as '16d common'.

    Raises UnknownName if it is not the name of a nail of the tables.
    """
    words = size.casefold().split()
    kinds: tuple[NailKind, ...] = get_args(NailKind)
    for kind in kinds:
        if kind in words:
            rest = " ".join(word for word in words if word not in (kind, "nail", "nails"))
            if rest in nail_sizes(kind):
                return kind, rest
    raise UnknownName("size of a nail", size, [f"{weight} {kind}" for kind in kinds for weight in nail_sizes(kind)])


def diameter_and_length(kind: str, size: str) -> tuple[float, float | None]:
    """Of a nail or bolt by its trade size; the length where that says it too, inches."""
    if kind == "bolt":
        return bolt(size).value.D, None
    made = nail(*nail_name(size)).value
    return made.D, made.L
