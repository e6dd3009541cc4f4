"""Which row of which table stands for a piece: spellings, widths, classes, agencies, refusals."""

import pytest

from beamcheck.errors import OutOfRange, UnknownName
from beamcheck.values.lumber import (
    PROPERTIES,
    DesignValues,
    design_values,
    fallback,
    grades_for,
    lowest,
    read_size,
    screening_rows,
    species_name,
    species_names,
    specific_gravity,
)


def found(species: str, grade: str, size: str, agency: str = "") -> DesignValues:
    return design_values(species, grade, read_size(size), agency)


def numbers(values: DesignValues) -> tuple[float, ...]:
    return tuple(getattr(values, name) for name in PROPERTIES)


# Rows seen whole, second-hand, or derived from printed LRFD values: see test_design_tables.py
SEEN = [
    ("Douglas Fir-Larch", "No.2", "2x10", "", (900, 575, 180, 625, 1350, 1.6e6, 580000), "4A", "read, second-hand"),
    ("Douglas Fir-Larch", "No.1", "4x8", "", (1000, 675, 180, 625, 1500, 1.7e6, 620000), "4A", "read, second-hand"),
    ("Hem-Fir", "No.2", "2x10", "", (850, 525, 150, 405, 1300, 1.3e6, 470000), "4A", "read, second-hand"),
    (
        "Douglas Fir-Larch",
        "No.1",
        "10x10 dressed",
        "",
        (1200, 825, 170, 625, 1000, 1.6e6, 580000),
        "4D",
        "read, second-hand",
    ),
    (
        "Douglas Fir-Larch",
        "No.2",
        "8x8 dressed",
        "WCLIB",
        (750, 475, 170, 625, 700, 1.3e6, 470000),
        "4D",
        "read, second-hand",
    ),
    ("Douglas Fir-Larch", "No.1", "6x14 dressed", "", (1350, 675, 170, 625, 925, 1.6e6, 580000), "4D", "derived"),
    ("Hem-Fir", "No.2", "6x14 dressed", "WCLIB", (675, 350, 140, 405, 500, 1.1e6, 400000), "4D", "read, second-hand"),
]


@pytest.mark.parametrize(("species", "grade", "size", "agency", "values", "table", "how"), SEEN)
def test_rows_seen_second_hand(
    species: str, grade: str, size: str, agency: str, values: tuple[float, ...], table: str, how: str
) -> None:
    row = found(species, grade, size, agency)
    assert numbers(row) == values
    assert (row.table, row.source.how, row.source.confidence, row.lowered) == (table, how, "high", ())
    assert row.source.document == f"NDS Supplement 2018 Table {table}"


# Published with the span tables they reproduce to the inch (memory + reproduced): F_b of Southern Pine by width, psi
SOUTHERN = {
    "Select Structural": (2350, 2100, 1950, 1700, 1600), "No.1": (1500, 1350, 1250, 1050, 1000),
    "No.2": (1100, 1000, 925, 800, 750), "No.3": (650, 575, 525, 475, 450),
}  # fmt: skip


@pytest.mark.parametrize("grade", SOUTHERN)
def test_southern_pine_by_width(grade: str) -> None:
    sizes = ("2x4", "2x6", "2x8", "2x10", "2x12")
    assert tuple(found("Southern Pine", grade, size).F_b for size in sizes) == SOUTHERN[grade]


def test_southern_pine_wider_than_12_in_starts_from_the_12_in_values() -> None:
    assert found("Southern Pine", "No.2", "2x14").F_b == found("Southern Pine", "No.2", "2x12").F_b
    assert found("Southern Pine", "No.2", '1 1/2" x 8"').F_b == found("Southern Pine", "No.2", "2x8").F_b
    # measured between two bands: the wider one, which is weaker
    assert found("Southern Pine", "No.2", '1 1/2" x 8 1/4"').F_b == found("Southern Pine", "No.2", "2x10").F_b


@pytest.mark.parametrize(
    ("given", "name"),
    [
        ("douglas fir larch", "Douglas Fir-Larch"),
        ("DF-L", "Douglas Fir-Larch"),
        ("dfl", "Douglas Fir-Larch"),
        ("D.F.-L.", "Douglas Fir-Larch"),
        ("hem fir", "Hem-Fir"),
        ("HF", "Hem-Fir"),
        ("S-P-F", "Spruce-Pine-Fir"),
        ("spruce pine fir (south)", "Spruce-Pine-Fir (South)"),
        ("SPFs", "Spruce-Pine-Fir (South)"),
        ("SYP", "Southern Pine"),
        ("EWP", "Eastern White Pine"),
        ("eastern  white pine", "Eastern White Pine"),
        ("Yellow-Poplar", "Yellow Poplar"),
    ],
)
def test_species_spellings(given: str, name: str) -> None:
    assert species_name(given) == name


def test_every_species_answers_to_its_own_name() -> None:
    for name in species_names():
        assert species_name(name.upper()) == name


@pytest.mark.parametrize(
    ("given", "grade"),
    [
        ("No.2", "No.2"),
        ("no. 2", "No.2"),
        ("#2", "No.2"),
        ("# 2", "No.2"),
        ("2", "No.2"),
        ("NO 2", "No.2"),
        ("Number 2", "No.2"),
        ("SS", "Select Structural"),
        ("Sel. Str.", "Select Structural"),
        ("select structural", "Select Structural"),
        ("No.1 & Btr", "No.1 & Btr"),
        ("#1 and better", "No.1 & Btr"),
        ("1&btr", "No.1 & Btr"),
        ("STUD", "Stud"),
        ("Const", "Construction"),
        ("Stand.", "Standard"),
        ("Util", "Utility"),
    ],
)
def test_grade_spellings(given: str, grade: str) -> None:
    assert found("DF-L", given, "2x4").grade == grade


@pytest.mark.parametrize(
    ("species", "given", "size", "grade"),
    [
        ("SYP", "dense #2", "2x6", "No.2 Dense"),
        ("SYP", "No.2 Dense", "8x8 dressed", "No.2 Dense"),
        ("SYP", "No.1 nondense", "2x6", "No.1 Non-Dense"),
        ("SYP", "non dense select structural", "2x6", "Non-Dense Select Structural"),
        ("SYP", "DSS", "2x6", "Dense Select Structural"),
        ("SYP", "Stud", "2x6", "No.3 and Stud"),
        ("SYP", "#3", "2x6", "No.3 and Stud"),
        ("DF-L", "No.1 Dense", "8x8 dressed", "Dense No.1"),
        ("SPF", "#2", "2x6", "No.1/No.2"),
        ("SPF", "No.1", "2x6", "No.1/No.2"),
        ("SPF", "No.1/No.2", "2x6", "No.1/No.2"),
    ],
)
def test_grades_of_several_words(species: str, given: str, size: str, grade: str) -> None:
    assert found(species, given, size).grade == grade


def test_the_size_class_picks_the_row() -> None:
    """Douglas Fir-Larch No.1: beams and stringers F_b 1350 (derived from print), posts 1200 (second-hand)."""
    assert [found("DF-L", "#1", size).F_b for size in ("6x12 dressed", "6x8 dressed", "10 in round")] == [
        1350,
        1200,
        1200,
    ]
    southern = [found("Southern Pine", "No.1", size) for size in ("6x12 dressed", "8x8 dressed")]
    assert numbers(southern[0]) == numbers(southern[1])  # one row for all timbers
    assert [row.size_class for row in southern] == ["beams_and_stringers", "posts_and_timbers"]


def test_a_piece_measured_at_the_limit_of_two_classes_takes_the_lower_of_both() -> None:
    """A full-sawn 8x10 (posts and timbers) may measure 8 by 10 1/8, and is no beam and stringer for that (practice)."""
    row = found("DF-L", "#1", "8 in x 10 1/8 in")
    assert (row.F_b, row.F_t, row.F_c, row.size_class) == (1200, 675, 925, "beams_and_stringers")
    assert row.lowered == ("measured at the limit of two size classes: lowest of each property of both",)
    assert found("DF-L", "#1", "8 in x 10 1/4 in").F_b == 1200
    assert found("DF-L", "#1", "8 in x 10 3/8 in").F_b == 1350
    exact = found("DF-L", "#1", "8 in x 10 in")
    assert (exact.F_c, exact.lowered) == (1000, ())


def test_stud_8_in_and_wider_takes_the_No_3_values() -> None:
    """NDS Supplement 2018 Table 4A, adjustment factors (grading agency rule book of 2013, read)."""
    wide, no_3 = found("DF-L", "Stud", "2x8"), found("DF-L", "No.3", "2x8")
    assert numbers(wide) == numbers(no_3)
    assert wide.grade == "Stud"
    assert wide.lowered == ("Stud 8 in and wider takes the No.3 values and the No.3 size factor (Table 4A)",)
    narrow = found("DF-L", "Stud", "2x6")
    assert numbers(narrow) != numbers(no_3) and narrow.lowered == ()
    assert no_3.grade == "No.3"


# Agency rows, from the edition notes of the reference (memory; the WCLIB rows of No.2 second-hand): F_b, F_t, F_c
@pytest.mark.parametrize(
    ("species", "size", "grade", "agency", "values"),
    [
        ("DF-L", "8x8 dressed", "No.2", "WCLIB", (750, 475, 700)),
        ("DF-L", "8x8 dressed", "No.2", "WWPA", (700, 475, 475)),
        ("DF-L", "8x8 dressed", "No.2", "", (700, 475, 475)),
        ("DF-L", "8x8 dressed", "No.2", "W.C.L.I.B. mill 99 invented", (750, 475, 700)),
        ("DF-L", "8x8 dressed", "No.2", "PLIB", (700, 475, 475)),  # a later name: not one of the 2018 rows
        ("DF-L", "8x8 dressed", "No.2", "WCLIB or WWPA", (700, 475, 475)),
        ("Hem-Fir", "8x8 dressed", "No.2", "WCLIB", (575, 375, 575)),
        ("Hem-Fir", "8x8 dressed", "No.2", "", (525, 350, 375)),
        ("Hem-Fir", "6x14 dressed", "No.2", "WCLIB", (675, 350, 500)),
        ("Hem-Fir", "6x14 dressed", "No.2", "WWPA", (675, 325, 475)),
        ("Hem-Fir", "6x14 dressed", "No.2", "", (675, 325, 475)),
        ("Hem-Fir", "6x14 dressed", "Select Structural", "WCLIB", (1300, 750, 925)),
        ("Hem-Fir", "6x14 dressed", "Select Structural", "", (1250, 725, 925)),
    ],
)
def test_the_stamp_decides_between_agencies_and_else_the_lowest(
    species: str, size: str, grade: str, agency: str, values: tuple[float, ...]
) -> None:
    row = found(species, grade, size, agency)
    assert (row.F_b, row.F_t, row.F_c) == values


def test_what_was_lowered_is_said() -> None:
    row = found("DF-L", "No.2", "8x8 dressed")
    assert row.lowered == (
        "agencies have rows of their own (WCLIB / WWPA) and the stamp does not decide: lowest of each property",
    )
    assert (row.source.how, row.source.confidence) == ("memory", "low")
    assert "Whole row in a design record" in row.source.note and "lower WWPA row" in row.source.note


def test_a_stamp_of_an_agency_without_a_row_is_said() -> None:
    row = found("DF-L", "No.1", "2x6", "NELMA")
    assert row.lowered == ("the stamp names NELMA, the table has this grade from WCLIB, WWPA only",)
    assert found("DF-L", "No.1", "2x6", "my own mill").lowered == ()


def test_redwood_without_its_grain_takes_the_lowest() -> None:
    open_grain, close_grain = found("Redwood", "No.2 open grain", "2x6"), found("Redwood", "No.2, close grain", "2x6")
    row = found("Redwood", "No.2", "2x6")
    assert numbers(row) == tuple(map(min, numbers(open_grain), numbers(close_grain)))
    assert row.lowered == ("the grain is not said: lowest of each property of the rows 'No.2' / 'No.2, open grain'",)
    assert open_grain.lowered == close_grain.lowered == ()
    assert row.source.confidence == "low"


def test_a_figure_that_was_seen_in_a_recalled_row_is_noted() -> None:
    row = found("DF-L", "Select Structural", "6x18 dressed")
    assert row.source.how == "memory" and row.source.note.startswith("E also in a course solution (second-hand)")
    joist = found("Southern Pine", "No.2", "2x10")
    assert joist.source.how == "memory" and "F_b worked out from printed spans (2018 IRC)" in joist.source.note


@pytest.mark.parametrize(
    ("species", "grade", "size", "says"),
    [
        (
            "Eastern White Pin",
            "No.2",
            "2x6",
            "species 'Eastern White Pin' is not known; did you mean 'Eastern White Pine'",
        ),
        ("oak", "No.2", "2x6", "species 'oak' is not known; "),
        ("Douglas Fir", "No.2", "2x6", "did you mean 'Douglas Fir-South' or 'Douglas Fir-Larch'?"),
        (
            "EWP",
            "No.4",
            "8x8 dressed",
            "grade of Eastern White Pine 8x8 dressed (posts and timbers) 'No.4' is not "
            "known; did you mean 'No.2' or 'No.1'?",
        ),
        ("EWP", "clear", "8x8 dressed", "known are 'Select Structural', 'No.1', 'No.2'"),
        (
            "DF-L",
            "Utility",
            "2x6",
            "grade of Douglas Fir-Larch 2x6 (dimension lumber) 'Utility' is not known; "
            "known are 'Select Structural', 'No.1 & Btr', 'No.1', 'No.2', 'No.3', 'Stud'",
        ),
        ("SYP", "Construction", "2x6", "grade of Southern Pine 2x6 (dimension lumber) 'Construction' is not known"),
        ("DF-L", "No.2 and better", "2x6", "'No.2 and better' is not known"),
        ("DF-L", "unstamped", "2x6", "'unstamped' is not known; known are"),
    ],
)
def test_unknown_names(species: str, grade: str, size: str, says: str) -> None:
    with pytest.raises(UnknownName) as caught:
        found(species, grade, size)
    assert says in str(caught.value)


@pytest.mark.parametrize(
    ("species", "size", "says"),
    [
        (
            "Western Woods",
            "2x6",
            "no design values for 'Western Woods': its rows of the printed Supplement are not in "
            "these tables. Do not put another species in its place: enter the printed values or an engineer's "
            "letter as given values",
        ),
        ("Mixed Southern Pine", "2x6", "no design values for 'Mixed Southern Pine'"),
        ("DF-L (N)", "2x6", "no design values for 'Douglas Fir-Larch (North)'"),
        ("Sitka Spruce", "8x8 dressed", "no design values for 'Sitka Spruce'"),
        ("Mountain Hemlock", "2x6", "no design values for 'Mountain Hemlock': it has no rows of its own"),
        (
            "Eastern Hemlock",
            "2x6",
            "no values for Eastern Hemlock 2x6: as dimension lumber there is none, only beams "
            "and stringers, posts and timbers. Eastern Hemlock by itself is in Table 4D only; 2-4 in stock is sold as",
        ),
        (
            "Yellow Poplar",
            "8x8 dressed",
            "no values for Yellow Poplar 8x8 dressed: as posts and timbers there is none, "
            "only dimension lumber (NDS Supplement 2018",
        ),
    ],
)
def test_species_without_values_are_refused_and_not_replaced(species: str, size: str, says: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        found(species, "No.2", size)
    assert says in str(caught.value)


def test_grades_for() -> None:
    assert grades_for("EWP", read_size("8x8 dressed")) == ("Select Structural", "No.1", "No.2")
    assert "Utility" in grades_for("EWP", read_size("2x4")) and "Utility" not in grades_for("EWP", read_size("2x6"))


def test_screening_lists_every_grade_of_every_candidate() -> None:
    size = read_size("8x8 rough")
    some = screening_rows(["EWP", "eastern hemlock", "EWP"], size)
    assert [(row.species, row.grade) for row in some] == [
        (species, grade)
        for species in ("Eastern White Pine", "Eastern Hemlock")
        for grade in ("Select Structural", "No.1", "No.2")
    ]
    no_timbers = {"Cottonwood", "Yellow Poplar", "Eastern Softwoods", "Eastern Hemlock-Balsam Fir"}
    assert {row.species for row in screening_rows([], size)} == set(species_names()) - no_timbers
    assert {row.species for row in screening_rows([], read_size("2x6"))} >= {"Southern Pine", "Cottonwood", "Redwood"}
    assert [row.grade for row in screening_rows(["SPF", "DF-L"], read_size("2x6"), "#2")] == ["No.1/No.2", "No.2"]


def test_screening_never_drops_a_candidate_in_silence() -> None:
    with pytest.raises(OutOfRange, match="no values for Eastern Hemlock 2x6"):
        screening_rows(["EWP", "Eastern Hemlock"], read_size("2x6"))
    with pytest.raises(UnknownName, match="species 'mystery' is not known"):
        screening_rows(["mystery"], read_size("2x6"))


def test_the_lowest_of_several_rows() -> None:
    one, two = found("EWP", "No.2", "8x8 dressed"), found("Hem-Fir", "No.2", "8x8 dressed", "WCLIB")
    low = lowest([one, two], "either")
    assert numbers(low) == tuple(map(min, numbers(one), numbers(two)))
    assert low.G == 0.36 and low.lowered[-1] == "either"
    assert low.source.how == "memory"


def test_fallback_assumptions() -> None:
    assert fallback("grade").value == "No.2"
    assert fallback("moisture").value == "19" and fallback("moisture").source.how == "memory"
    with pytest.raises(
        UnknownName, match="assumption about 'color' is not known; known are 'species among candidates'"
    ):
        fallback("color")


def test_specific_gravity() -> None:
    """Wood Structural Design Data, 1992 (read), and NDS 2018 Table 12.3.3A; White Oak and Baldcypress are recalled."""
    expected = {
        "Douglas Fir-Larch": 0.50,
        "EWP": 0.36,
        "Southern Pine": 0.55,
        "White Oak": 0.73,
        "Northern White Cedar": 0.31,
    }
    assert {name: specific_gravity(name)[0] for name in expected} == expected
    hows = {name: specific_gravity(name)[1].how for name in ("Douglas Fir-Larch", "EWP", "White Oak", "Baldcypress")}
    assert hows == {"Douglas Fir-Larch": "read", "EWP": "read", "White Oak": "memory", "Baldcypress": "memory"}
    assert specific_gravity("Western Woods")[0] == 0.36  # known for fasteners although it has no design values here
    with pytest.raises(UnknownName, match="species 'Balsa' is not known; did you mean 'Balsam Fir'"):
        specific_gravity("Balsa")


def test_rows_are_found_once() -> None:
    assert found("DF-L", "#2", "2x10") is found("DF-L", "#2", "2x10")
