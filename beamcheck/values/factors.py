"""Adjustment factors that are looked up: each with its source and the reason for its value.

Factors that are calculated (C_L, C_P, C_b, C_F of deep timbers) are formulas and not here.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal, get_args

from ..errors import OutOfRange
from ..provenance import Source
from .found import Found
from .grades import GradeKey, grade_key
from .limits import (
    DeflectionLimits,
    EffectiveLength,
    creep,
    dead_share_of_total,
    deflection_limit,
    effective_length,
    effective_length_cases,
    length_factor,
    proportion_rule,
)
from .loader import Row, known, listed, row_of, rows, source_of
from .lumber import NO_3, STUD, STUD_WIDTH, DesignValues, Size

__all__ = [
    "DeflectionLimits", "EffectiveLength", "Found", "Property", "creep", "dead_share_of_total", "deflection_limit",
    "effective_length", "effective_length_cases", "flat_use_factor", "incising", "is_hot", "least_repetitive",
    "length_factor", "load_duration", "load_duration_kinds", "not_repetitive", "proportion_rule", "repetitive_factor",
    "size_factor", "temperature", "wet_service",
]  # fmt: skip

Property = Literal["F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min"]

LIGHT: Mapping[GradeKey, str] = MappingProxyType(
    {grade_key("Construction"): "light", grade_key("Standard"): "light", grade_key("Utility"): "utility"}
)
SELECT = frozenset(grade_key(name) for name in ("Select Structural", "No.1 & Btr", "No.1", "No.2", "No.3", "No.1/No.2"))
GRAIN = frozenset({"open", "close", "grain"})
HOT = 100  # deg F: the first column of the table of C_t, in which all factors are 1


def load_duration_kinds() -> tuple[str, ...]:
    """The kinds of load that `load_duration` knows."""
    return listed("nds_2018_load_duration", "kind")


def load_duration(kind: str) -> Found[float]:
    """C_D for a load of one kind ('D', 'L', 'Lr', 'S', 'W', 'impact'): NDS 2018 Table 2.3.2.

    Raises UnknownName for another kind.
    """
    row = row_of("nds_2018_load_duration", "kind", kind, "kind of load")
    return Found(float(row["C_D"]), source_of(row), f"shortest load: {row['load']}")


def size_factor(values: DesignValues, size: Size, for_: Literal["F_b", "F_t", "F_c"]) -> Found[float | None]:
    """C_F of NDS 2018 4.3.6: tabulated for dimension lumber, 1 for timbers up to 12 in.

    The value is None where C_F is calculated, (12/d)^(1/9) on F_b of deeper timbers (round: over 13.5 in, with the
    square of equal area): that is a formula. Given values (a letter) are not raised; deep ones are reduced as timbers.

    Raises UnknownName if the property takes no size factor; OutOfRange if the table has no factor for that grade and
    width.
    """
    known(for_, ("F_b", "F_t", "F_c"), "property with a size factor")
    if values.table == "4A":
        return _size_factor_4a(values, size, for_)
    if values.table == "4B":
        return _size_factor_4b(size, for_)
    row = row_of("nds_2018_4d_size_factor", "shape", "round" if size.surface == "round" else "rectangle", "shape")
    source, limit = source_of(row), float(row["depth_over"])
    if for_ != "F_b":
        return Found(1.0, source, "timbers: C_F is on F_b only")
    if size.d > limit:
        return Found(None, source, f"depth {size.d:.4g} in is over {limit:g} in: calculated")
    return Found(1.0, source, f"depth {size.d:.4g} in is not over {limit:g} in")


def _size_factor_4a(values: DesignValues, size: Size, for_: str) -> Found[float | None]:
    key, width = grade_key(values.grade) - GRAIN, size.table_width
    group = LIGHT.get(key, "select")
    if key == STUD and width <= STUD_WIDTH:
        group = "stud"
    table = [row for row in rows("nds_2018_4a_size_factor") if row["group"] == group]
    if not _in_band(table[-1], width):
        raise OutOfRange(f"no size factor for {values.grade} {width:g} in wide", "NDS Supplement 2018 Table 4A")
    row = next(row for row in table if _in_band(row, width))
    if group == "utility":  # the one grade whose factors rise with the width
        row = next((row for row in reversed(table) if float(row["width_from"]) <= size.table_width_below), table[0])
    thick = size.table_thickness >= 4.0
    column = for_ if for_ != "F_b" else ("F_b_4_thick" if thick else "F_b_2_3_thick")
    if not row[column]:
        raise OutOfRange(f"no size factor for {values.grade} {size.text}", "NDS Supplement 2018 Table 4A")
    value, source = float(row[column]), source_of(row)
    if key not in SELECT | {STUD, NO_3, *LIGHT} and value > 1.0:
        return Found(1.0, source, f"the size factors do not name {values.grade}: no increase (safe reading)")
    reason = f"{values.grade}, nominal {_width(row)} in wide"
    if for_ == "F_b":
        reason += f", {'4' if thick else '2 to 3'} in thick"
    if key == STUD and group == "select":
        reason += ": Stud 8 in and wider takes the No.3 factor"
    return Found(value, source, reason)


def _size_factor_4b(size: Size, for_: str) -> Found[float | None]:
    value, reasons = 1.0, []
    table = {row["rule"]: row for row in rows("nds_2018_4b_size_factor")}
    source = source_of(table["thick"])
    thick, wide = table["thick"], table["wide"]
    if size.table_thickness >= float(thick["thickness_from"]) and size.table_width_below >= float(thick["width_from"]):
        value *= float(thick[for_])
        reasons += [thick["note"]] if float(thick[for_]) != 1.0 else []
    if size.table_width > float(wide["width_over"]):
        value *= float(wide[for_])
        source = source_of(wide)
        reasons.append(f"wider than 12 in: {wide[for_]} of the 12 in value")
    return Found(value, source, "; ".join(reasons) or "built into the Southern Pine values")


def flat_use_factor(values: DesignValues, size: Size, for_: Property) -> Found[float]:
    """C_fu of NDS 2018 4.3.7, for a piece loaded on its wide face.

    Dimension lumber: on F_b. Beams and stringers: a reduction of F_b, E and E_min (Table 4D). Posts and timbers: 1.
    A dimension piece with given values (a letter) takes no increase; given beams and stringers take the reduction.
    """
    known(for_, get_args(Property), "property")
    if size.size_class == "dimension":
        return _flat_dimension(values, size, for_)
    table = rows("nds_2018_4d_flat_use")
    if size.size_class == "posts_and_timbers":
        return Found(1.0, Source("NDS 2018 4.2.5.3", "memory"), "posts and timbers: the same on either face")
    if for_ not in ("F_b", "E", "E_min"):
        return Found(1.0, source_of(table[0]), "flat use changes F_b, E and E_min only")
    column = "F_b" if for_ == "F_b" else "E"
    key = grade_key(values.grade) - GRAIN
    base = [row for row in table if key - {"dense"} == grade_key(row["grade"])]
    row = base[0] if base else min(table, key=lambda row: float(row[column]))
    reason = "beam and stringer on the flat, " + (row["grade"] if base else "grade not in the table: lowest row")
    if not base or values.species == "Southern Pine" or "dense" in key:
        reason += " (safe reading)"
    return Found(float(row[column]), source_of(row), reason)


def _flat_dimension(values: DesignValues, size: Size, for_: Property) -> Found[float]:
    table = rows("nds_2018_4a_flat_use")
    if for_ != "F_b":
        return Found(1.0, source_of(table[0]), "flat use of dimension lumber changes F_b only")
    if values.table == "given":
        return Found(1.0, values.source, "given values are not raised for flat use")
    thickness = "4" if size.table_thickness > 3.0 else "2-3"
    band = [row for row in table if row["thickness"] == thickness]
    row = next((row for row in reversed(band) if float(row["width_from"]) <= size.table_width_below), band[0])
    return Found(float(row["C_fu"]), source_of(row), f"flat, nominal {_width(row)} in wide, {thickness} in thick")


def wet_service(values: DesignValues, size: Size, for_: Property, C_F: float = 1.0) -> Found[float]:
    """C_M of NDS 2018 4.3.3, for wood over 19 % moisture for an extended time.

    F_b up to 1150 psi and F_c up to 750 psi, each times its own `C_F`, keep their value in dimension lumber.

    Raises UnknownName for a property that is none.
    """
    known(for_, get_args(Property), "property")
    name = values.table if values.table != "given" else ("4A" if size.size_class == "dimension" else "4D")
    table = [row for row in rows("nds_2018_wet_service") if row["table"] == name]
    own = [row for row in table if row["species"] == values.species and values.table != "given"]
    row = (own or [row for row in table if not row["species"]])[0]
    limit = row.get(f"{for_}_C_F_up_to", "")
    if limit and getattr(values, for_) * C_F <= float(limit):
        return Found(1.0, source_of(row), f"wet, but {for_} C_F is not over {limit} psi")
    reason = f"wet service, Table {name}" + (f", {row['species']}: tabulated for wet or dry" if row["species"] else "")
    return Found(float(row["E" if for_ == "E_min" else for_]), source_of(row), reason)


def is_hot(T: float) -> bool:
    """Whether sustained heat of that many deg F lowers anything (NDS 2018 2.3.3)."""
    return T > HOT


def temperature(for_: Property, T: float, wet: bool) -> Found[float]:
    """C_t of NDS 2018 Table 2.3.3 for the highest sustained temperature `T`, deg F.

    Raises OutOfRange above 150 deg F, where the table ends.
    """
    known(for_, get_args(Property), "property")
    moisture = "wet" if wet else "dry"
    table = rows("nds_2018_temperature")
    row = next(row for row in table if for_ in row["properties"].split() and row["moisture"] == moisture)
    for limit in (HOT, 125, 150):
        if limit >= T:
            return Found(float(row[f"up_to_{limit}"]), source_of(row), f"up to {limit} deg F, {moisture}")
    raise OutOfRange(f"{T:g} deg F: no temperature factor for sustained heat above 150 deg F", "NDS 2018 2.3.3")


def incising(for_: Property) -> Found[float]:
    """C_i of NDS 2018 Table 4.3.8, for dimension lumber incised within the pattern that the note describes."""
    known(for_, get_args(Property), "property")
    row = next(row for row in rows("nds_2018_incising") if for_ in row["properties"].split())
    return Found(float(row["C_i"]), source_of(row), "incised")


def repetitive_factor(size: Size, members: int, spacing: float, shared: bool) -> Found[float]:
    """C_r of NDS 2018 4.3.9 on F_b.

    `members`: how many members share the load. `spacing`: center to center, inches; 0 when in contact. `shared`:
    whether a floor, roof or other element joins them so that they share it.
    """
    row = _repetitive()["C_r"]
    why_not = "not dimension lumber" if size.size_class != "dimension" else not_repetitive(members, spacing, shared)
    if why_not:
        return Found(1.0, source_of(row), f"no repetitive member factor: {why_not}")
    return Found(float(row["value"]), source_of(row), f"{members} members, {spacing:g} in apart, sharing load")


def not_repetitive(members: int, spacing: float, shared: bool) -> str:
    """Why neighbors are no repetitive members, whatever they are made of (NDS 2018 4.3.9); '' where they are."""
    least, widest = least_repetitive(), float(_repetitive()["spacing_up_to"]["value"])
    return (
        f"fewer than {least} members" if members < least
        else f"spaced more than {widest:g} in" if not spacing <= widest
        else "nothing joins them so that they share load" if not shared
        else ""
    )  # fmt: skip


def least_repetitive() -> int:
    """How many members share load at least."""
    return int(_repetitive()["members_from"]["value"])


def _repetitive() -> dict[str, Row]:
    return {row["rule"]: row for row in rows("nds_2018_repetitive_members")}


def _in_band(row: Row, width: float) -> bool:
    return not row["width_to"] or width <= float(row["width_to"])


def _width(row: Row) -> str:
    if not row["width_to"]:
        return f"{row['width_from']} and more"
    return row["width_from"] if row["width_from"] == row["width_to"] else f"{row['width_from']} to {row['width_to']}"
