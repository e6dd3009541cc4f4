"""Adjustment factors by look-up. Expected values: worked problems (read) where there are, else the tables in print."""

from dataclasses import replace
from itertools import pairwise
from typing import get_args

import pytest

from beamcheck.errors import OutOfRange, UnknownName
from beamcheck.provenance import Source
from beamcheck.values import factors
from beamcheck.values.factors import Property
from beamcheck.values.lumber import DesignValues, Size, design_values, read_size

PROPERTIES = get_args(Property)
SEEN = "read, second-hand"


def piece(species: str, grade: str, size: str) -> tuple[DesignValues, Size]:
    return design_values(species, grade, read_size(size)), read_size(size)


def letter(size: str, grade: str = "No.2") -> tuple[DesignValues, Size]:
    """Values from an invented grader's letter."""
    row, read = piece("DF-L", grade, size)
    return replace(row, table="given", source=Source("letter of an invented grader", "given")), read


def test_load_duration() -> None:
    """NDS 2018 Table 2.3.2 (second-hand)."""
    expected = {"D": 0.9, "L": 1.0, "S": 1.15, "Lr": 1.25, "W": 1.6, "impact": 2.0}
    assert {kind: factors.load_duration(kind).value for kind in factors.load_duration_kinds()} == expected
    value, source, reason = factors.load_duration("S")
    assert (value, source.how, reason) == (1.15, SEEN, "shortest load: two months (snow)")
    with pytest.raises(
        UnknownName, match="kind of load 'E' is not known; known are 'D', 'L', 'S', 'Lr', 'W', 'impact'"
    ):
        factors.load_duration("E")


@pytest.mark.parametrize(
    ("species", "grade", "size", "for_", "value"),
    [
        ("Hem-Fir", "No.2", "2x10", "F_b", 1.1),  # a course's worked problem (read)
        ("Hem-Fir", "No.2", "2x10", "F_t", 1.1),
        ("Hem-Fir", "No.2", "2x10", "F_c", 1.0),
        ("DF-L", "No.1", "4x8", "F_b", 1.3),  # a textbook's solution (read)
        ("DF-L", "No.2", "2x6", "F_b", 1.3),  # record of the 2024 Table 4A (read)
        ("DF-L", "No.1", "2x8", "F_b", 1.2),  # course example, 2006 (read)
        ("DF-L", "No.1", "2x8", "F_t", 1.2),
        ("SPF", "#2", "2x4", "F_b", 1.5),  # the span tables' C_F: 1.5 1.3 1.2 1.1 1.0 (reproduced)
        ("SPF", "#2", "2x6", "F_b", 1.3),
        ("SPF", "#2", "2x12", "F_b", 1.0),
        ("SPF", "#2", "2x14", "F_b", 0.9),  # grading agency rule book, 2013 (read), to the end of the list
        ("SPF", "#2", "4x14", "F_b", 1.0),
        ("SPF", "#2", "4x14", "F_t", 0.9),
        ("SPF", "#2", "2x5", "F_c", 1.1),
        ("SPF", "#2", "2x8", "F_c", 1.05),
        ("SPF", "#2", "4x4", "F_b", 1.5),
        ("SPF", "Stud", "2x4", "F_b", 1.1),
        ("SPF", "Stud", "2x4", "F_c", 1.05),
        ("SPF", "Stud", "2x6", "F_t", 1.0),
        ("SPF", "Stud", "2x10", "F_b", 1.1),  # the No.3 factor
        ("SPF", "Construction", "2x4", "F_b", 1.0),
        ("SPF", "Standard", "4x4", "F_c", 1.0),
        ("SPF", "Utility", "2x4", "F_b", 1.0),
        ("SPF", "Utility", "2x3", "F_b", 0.4),
        ("SPF", "Utility", "2x3", "F_c", 0.6),
        ("Redwood", "No.2, open grain", "2x10", "F_b", 1.1),
    ],
)
def test_size_factor_of_dimension_lumber(species: str, grade: str, size: str, for_: str, value: float) -> None:
    found = factors.size_factor(*piece(species, grade, size), for_)  # type: ignore[arg-type]
    assert found.value == value
    assert found.source.how == "read" and "rule book" in found.source.note


def test_size_factor_reasons() -> None:
    assert (
        factors.size_factor(*piece("DF-L", "#2", "2x10"), "F_b").reason == "No.2, nominal 10 in wide, 2 to 3 in thick"
    )
    assert factors.size_factor(*piece("DF-L", "#2", "2x14"), "F_c").reason == "No.2, nominal 14 and more in wide"
    assert factors.size_factor(*piece("DF-L", "Stud", "2x8"), "F_c").reason.endswith(
        "Stud 8 in and wider takes the No.3 factor"
    )


def test_size_factor_of_a_measured_piece_takes_the_wider_row() -> None:
    assert factors.size_factor(*piece("DF-L", "#2", "1 1/2 in x 8 1/2 in"), "F_b").value == 1.1  # as a 10 in piece
    assert factors.size_factor(*piece("DF-L", "#2", "1 1/2 in x 20 in"), "F_b").value == 0.9
    assert factors.size_factor(*piece("DF-L", "#2", "3.4 in x 9 1/4 in"), "F_b").value == 1.1  # not quite 4 in thick
    assert factors.size_factor(*piece("DF-L", "#2", "3 1/2 in x 9 1/4 in"), "F_b").value == 1.2
    assert (
        factors.size_factor(*piece("DF-L", "Utility", "1 1/2 in x 3.3 in"), "F_b").value == 0.4
    )  # not quite 4 in wide
    assert factors.size_factor(*piece("DF-L", "Utility", "1 1/2 in x 3 1/2 in"), "F_b").value == 1.0
    assert factors.size_factor(*piece("DF-L", "Utility", "1.46 in x 1.46 in"), "F_b").value == 0.4


@pytest.mark.parametrize("thick", ["2", "3", "4"])
@pytest.mark.parametrize("for_", ["F_b", "F_t", "F_c"])
def test_size_factor_never_rises_with_width(thick: str, for_: str) -> None:
    widths = [width for width in (2, 3, 4, 5, 6, 8, 10, 12, 14, 16) if width >= int(thick)]
    found = [factors.size_factor(*piece("DF-L", "#2", f"{thick}x{width}"), for_).value for width in widths]  # type: ignore[arg-type]
    assert all(narrow >= wide for narrow, wide in pairwise(found))  # type: ignore[operator]


@pytest.mark.parametrize(
    ("size", "values"),
    [
        ("2x10", (1.0, 1.0, 1.0)),
        ("4x6", (1.0, 1.0, 1.0)),
        ("4x8", (1.1, 1.0, 1.0)),
        ("2x14", (0.9, 0.9, 0.9)),
        ("4x14", (0.99, 0.9, 0.9)),
        ("1 1/2 in x 11 1/2 in", (1.0, 1.0, 1.0)),
        ("1 1/2 in x 12 1/4 in", (0.9, 0.9, 0.9)),
    ],
)
def test_size_factor_of_southern_pine(size: str, values: tuple[float, ...]) -> None:
    """NDS Supplement 2018 Table 4B (memory): built in; 1.1 on F_b of 4x8 and wider, 0.9 on all over 12 in."""
    found = [factors.size_factor(*piece("Southern Pine", "#2", size), for_) for for_ in ("F_b", "F_t", "F_c")]
    assert [one.value for one in found] == pytest.approx(values)
    assert found[0].source.how == "memory"


def test_size_factor_of_timbers_is_1_up_to_12_in_and_calculated_above() -> None:
    """NDS 2018 4.3.6.2 (second-hand), 4.3.6.3 (memory); F_t and F_c of timbers 1 (memory)."""
    assert factors.size_factor(*piece("DF-L", "#1", "6x12 dressed"), "F_b").value == 1.0
    assert factors.size_factor(*piece("DF-L", "#1", "6x12 rough"), "F_b").value == 1.0
    deep = factors.size_factor(*piece("DF-L", "#1", "6x14 dressed"), "F_b")
    assert (deep.value, deep.reason) == (None, "depth 13.5 in is over 12 in: calculated")
    assert factors.size_factor(*piece("Southern Pine", "#1", "8x16 dressed"), "F_b").value is None
    assert [factors.size_factor(*piece("DF-L", "#1", "6x14 dressed"), for_).value for for_ in ("F_t", "F_c")] == [
        1.0,
        1.0,
    ]
    assert factors.size_factor(*piece("DF-L", "#1", "13.5 in round"), "F_b").value == 1.0
    assert factors.size_factor(*piece("DF-L", "#1", "13.6 in round"), "F_b").value is None


def test_given_values_are_not_raised_for_size_but_reduced_when_deep() -> None:
    assert factors.size_factor(*letter("2x4"), "F_b").value == 1.0
    assert factors.size_factor(*letter("8x12 dressed"), "F_b").value == 1.0
    assert factors.size_factor(*letter("2x14"), "F_b").value is None
    assert factors.size_factor(*letter("2x14"), "F_c").value == 1.0


def test_size_factor_refusals() -> None:
    with pytest.raises(UnknownName, match="property with a size factor 'F_v' is not known; did you mean 'F_"):
        factors.size_factor(*piece("DF-L", "#2", "2x4"), "F_v")  # type: ignore[arg-type]
    utility, _ = piece("DF-L", "Utility", "2x4")
    with pytest.raises(OutOfRange, match=r"no size factor for Utility 6 in wide \(NDS Supplement 2018 Table 4A\)"):
        factors.size_factor(utility, read_size("2x6"), "F_b")
    thick = replace(read_size("2x3"), nominal_b=4.0)
    with pytest.raises(OutOfRange, match="no size factor for Utility 2x3"):
        factors.size_factor(utility, thick, "F_b")


def test_a_grade_that_the_size_factors_do_not_name_is_not_raised() -> None:
    found = factors.size_factor(*piece("Redwood", "Clear Structural", "2x6"), "F_b")
    assert found.value == 1.0 and found.reason.endswith("no increase (safe reading)")
    assert factors.size_factor(*piece("Redwood", "Clear Structural", "2x14"), "F_b").value == 0.9


@pytest.mark.parametrize(
    ("size", "value", "how"),
    [
        ("2x6", 1.15, SEEN), ("4x6", 1.05, SEEN), ("4x4", 1.0, SEEN), ("2x2", 1.0, "memory"),
        ("2x3", 1.0, "memory"), ("2x4", 1.1, "memory"), ("2x5", 1.1, "memory"),
        ("2x8", 1.15, "memory"), ("2x10", 1.2, "memory"),
        ("3x14", 1.2, "memory"), ("4x5", 1.05, "memory"), ("4x10", 1.1, "memory"),
        ("1 1/2 in x 7 in", 1.15, SEEN),  # measured between 6 (5 1/2 dressed) and 8 (7 1/4): as 6
        ("3 in x 9 in", 1.05, "memory"),  # thicker than a dressed 3: the 4 in column, and as 8 wide
        ("1.46 in x 1.46 in", 1.0, "memory"),
    ],
)  # fmt: skip
def test_flat_use_of_dimension_lumber(size: str, value: float, how: str) -> None:
    for species in ("DF-L", "Southern Pine"):
        found = factors.flat_use_factor(*piece(species, "#2", size), "F_b")
        assert (found.value, found.source.how) == (value, how)
    assert all(factors.flat_use_factor(*piece("DF-L", "#2", size), other).value == 1.0 for other in PROPERTIES[1:])


@pytest.mark.parametrize(
    ("species", "grade", "F_b", "E", "safe_reading"),
    [
        ("DF-L", "SS", 0.86, 1.0, False), ("DF-L", "#1", 0.74, 0.9, False), ("DF-L", "#2", 1.0, 1.0, False),
        ("DF-L", "Dense No.1", 0.74, 0.9, True), ("DF-L", "Dense Select Structural", 0.86, 1.0, True),
        ("Southern Pine", "No.1 Dense", 0.74, 0.9, True), ("Southern Pine", "SS", 0.86, 1.0, True),
        ("Southern Pine", "Dense Structural 86", 0.74, 0.9, True), ("Redwood", "Clear Structural", 0.74, 0.9, True),
    ],
)  # fmt: skip
def test_beams_and_stringers_on_the_flat_are_reduced(
    species: str, grade: str, F_b: float, E: float, safe_reading: bool
) -> None:
    """NDS Supplement 2018 Table 4D (memory); other grades by their base grade, or the lowest row (safe reading)."""
    values, size = piece(species, grade, "6x12 dressed")
    found = factors.flat_use_factor(values, size, "F_b")
    assert (found.value, found.source.how, "safe reading" in found.reason) == (F_b, "memory", safe_reading)
    assert factors.flat_use_factor(values, size, "E").value == factors.flat_use_factor(values, size, "E_min").value == E
    assert [factors.flat_use_factor(values, size, name).value for name in ("F_t", "F_v", "F_c_perp", "F_c")] == [
        1.0
    ] * 4


def test_flat_use_elsewhere() -> None:
    """Posts and timbers have none (NDS 2018 4.2.5.3, memory); given values are never raised, but reduced."""
    assert factors.flat_use_factor(*piece("DF-L", "#1", "8x8 dressed"), "F_b").value == 1.0
    assert factors.flat_use_factor(*piece("Southern Pine", "#1", "6x8 dressed"), "F_b").value == 1.0
    assert factors.flat_use_factor(*letter("2x10"), "F_b").value == 1.0
    assert factors.flat_use_factor(*letter("6x12 dressed", "No.1"), "F_b").value == 0.74
    with pytest.raises(UnknownName, match="property 'C_fu' is not known"):
        factors.flat_use_factor(*piece("DF-L", "#1", "2x4"), "C_fu")  # type: ignore[arg-type]


def test_wet_service_of_dimension_lumber() -> None:
    """Course example 2006 (read): wet 2x8, F_b C_F 1200 psi: 0.85 on F_b, 0.97 on F_v, none on F_t."""
    values, size = piece("DF-L", "#1", "2x8")
    expected = {"F_b": 0.85, "F_t": 1.0, "F_v": 0.97, "F_c_perp": 0.67, "F_c": 0.8, "E": 0.9, "E_min": 0.9}
    for name, value in expected.items():
        found = factors.wet_service(values, size, name, 1.2 if name == "F_b" else 1.0)  # type: ignore[arg-type]
        assert (found.value, found.source.how) == (value, SEEN), name


def test_weak_wet_dimension_lumber_keeps_F_b_and_F_c() -> None:
    """NDS Supplement 2018 Table 4A (second-hand): 1.0 when F_b C_F is not over 1150 psi, F_c C_F not over 750 psi."""
    values, size = piece("DF-L", "#2", "2x10")
    for name, limit in (("F_b", 1150.0), ("F_c", 750.0)):
        at = replace(values, **{name: limit / 1.1})  # type: ignore[arg-type]
        kept = factors.wet_service(at, size, name, 1.0999)  # type: ignore[arg-type]
        assert (kept.value, kept.reason) == (1.0, f"wet, but {name} C_F is not over {limit:g} psi")
        assert factors.wet_service(replace(values, **{name: limit}), size, name, 1.0).value == 1.0  # type: ignore[arg-type]
        assert factors.wet_service(at, size, name, 1.1001).value < 1.0  # type: ignore[arg-type]


def test_wet_service_of_timbers() -> None:
    """Worked 8x24 timber (read): F_b, F_v, E 1.0, F_c_perp 0.67; F_c 0.91, Southern Pine 1.0 (second-hand)."""
    values, size = piece("DF-L", "SS", "8x24 dressed")
    found = {name: factors.wet_service(values, size, name).value for name in PROPERTIES}
    assert found == {"F_b": 1.0, "F_t": 1.0, "F_v": 1.0, "F_c_perp": 0.67, "F_c": 0.91, "E": 1.0, "E_min": 1.0}
    southern = [factors.wet_service(*piece("Southern Pine", "#1", "8x8 dressed"), name) for name in PROPERTIES]
    assert {one.value for one in southern} == {1.0}
    assert southern[0].reason == "wet service, Table 4D, Southern Pine: tabulated for wet or dry"


def test_wet_service_of_southern_pine_dimension_and_of_given_values() -> None:
    assert factors.wet_service(*piece("Southern Pine", "SS", "2x8"), "F_b").value == 0.85
    assert factors.wet_service(*piece("Southern Pine", "#2", "2x8"), "F_b").value == 1.0  # 925 psi
    assert factors.wet_service(*letter("2x8"), "F_c_perp").value == 0.67
    values, size = letter("8x8 dressed")
    southern = replace(values, species="Southern Pine")  # a letter does not say that its values hold wet
    assert factors.wet_service(southern, size, "F_c").value == 0.91
    with pytest.raises(UnknownName, match="property 'G' is not known"):
        factors.wet_service(values, size, "G")  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("for_", "wet", "values"),
    [
        ("F_b", False, (1.0, 0.8, 0.7)), ("F_b", True, (1.0, 0.7, 0.5)), ("F_v", False, (1.0, 0.8, 0.7)),
        ("F_c", True, (1.0, 0.7, 0.5)), ("F_c_perp", False, (1.0, 0.8, 0.7)), ("F_t", False, (1.0, 0.9, 0.9)),
        ("F_t", True, (1.0, 0.9, 0.9)), ("E", False, (1.0, 0.9, 0.9)), ("E_min", True, (1.0, 0.9, 0.9)),
    ],
)  # fmt: skip
def test_temperature(for_: Property, wet: bool, values: tuple[float, ...]) -> None:
    """NDS 2018 Table 2.3.3 (memory; the steps for 100 to 125 F were seen)."""
    assert tuple(factors.temperature(for_, T, wet).value for T in (100.0, 125.0, 150.0)) == values
    assert tuple(factors.temperature(for_, T, wet).value for T in (-20.0, 100.1, 125.1)) == values


@pytest.mark.parametrize("T", [150.1, 400.0, float("nan")])
def test_temperature_ends_at_150(T: float) -> None:
    with pytest.raises(
        OutOfRange, match=r"no temperature factor for sustained heat above 150 deg F \(NDS 2018 2.3.3\)"
    ):
        factors.temperature("F_b", T, False)


def test_incising() -> None:
    """NDS 2018 Table 4.3.8 (second-hand)."""
    expected = {"F_b": 0.8, "F_t": 0.8, "F_v": 0.8, "F_c": 0.8, "F_c_perp": 1.0, "E": 0.95, "E_min": 0.95}
    assert {name: factors.incising(name).value for name in PROPERTIES} == expected
    assert "dimension lumber only" in factors.incising("F_b").source.note
    with pytest.raises(UnknownName, match="property 'F' is not known"):
        factors.incising("F")  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("size", "members", "spacing", "shared", "value", "says"),
    [
        ("2x10", 3, 24.0, True, 1.15, "3 members, 24 in apart, sharing load"),
        ("4x10", 5, 0.0, True, 1.15, "5 members, 0 in apart, sharing load"),
        ("2x10", 2, 16.0, True, 1.0, "fewer than 3 members"),
        ("2x10", 9, 24.1, True, 1.0, "spaced more than 24 in"),
        ("2x10", 9, float("nan"), True, 1.0, "spaced more than 24 in"),
        ("2x10", 9, 16.0, False, 1.0, "nothing joins them so that they share load"),
        ("6x10 dressed", 9, 16.0, True, 1.0, "not dimension lumber"),
    ],
)
def test_repetitive_members(size: str, members: int, spacing: float, shared: bool, value: float, says: str) -> None:
    """NDS 2018 4.3.9 (second-hand)."""
    found = factors.repetitive_factor(read_size(size), members, spacing, shared)
    assert found.value == value and says in found.reason and found.source.how == SEEN
