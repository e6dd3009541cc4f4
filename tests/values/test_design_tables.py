"""The design value tables hold together: rules that every row obeys, and rows that were seen in print."""

from collections import Counter, defaultdict
from itertools import pairwise

import pytest

from beamcheck.values.loader import Row, rows
from beamcheck.values.lumber import PROPERTIES, species_names, specific_gravity

TABLES = ("4a", "4b", "4d")
EVERY = [(table, row) for table in TABLES for row in rows(f"nds_2018_supplement_{table}")]
STRONGER_FIRST = [
    ("Select Structural", "No.1 & Btr"),
    ("Select Structural", "No.1"),
    ("No.1 & Btr", "No.1"),
    ("No.1", "No.2"),
    ("No.2", "No.3"),
    ("Construction", "Standard"),
    ("Standard", "Utility"),
    ("Dense Select Structural", "Select Structural"),
    ("Select Structural", "Non-Dense Select Structural"),
    ("No.1 Dense", "No.1"),
    ("No.1", "No.1 Non-Dense"),
    ("No.2 Dense", "No.2"),
    ("No.2", "No.2 Non-Dense"),
    ("No.2", "No.3 and Stud"),
    ("Dense No.1", "No.1"),
    ("Dense No.2", "No.2"),
    ("Dense Structural 86", "Dense Structural 72"),
    ("Dense Structural 72", "Dense Structural 65"),
]


def place(row: Row) -> tuple[str, ...]:
    """What decides between rows of one grade: species and size."""
    return (row["species"], *(row[column] for column in ("size_class", "width_from", "width_to") if column in row))


def test_row_counts() -> None:
    """4A 182, 4B 53, 4D 150 from the reference, and two lower agency rows from its edition notes."""
    assert Counter(table for table, _ in EVERY) == {"4a": 182, "4b": 53, "4d": 152}


@pytest.mark.parametrize(("table", "row"), EVERY, ids=lambda part: part if isinstance(part, str) else part["grade"])
def test_E_min_follows_from_E(table: str, row: Row) -> None:
    """NDS 2018 Appendix D, memory: E_min = E (1 - 1.645 COV) 1.03/1.66, COV 0.25, to the nearest 10,000 psi."""
    exact = float(row["E"]) * (1 - 1.645 * 0.25) * 1.03 / 1.66
    assert abs(float(row["E_min"]) - exact) <= 5000.0
    assert float(row["E_min"]) % 10000 == 0


def test_tension_is_below_bending_and_every_value_is_a_step_of_5_psi() -> None:
    for _, row in EVERY:
        assert 0 < float(row["F_t"]) < float(row["F_b"])
        for name in ("F_b", "F_t", "F_v", "F_c_perp", "F_c"):
            assert 0 < float(row[name]) < 3000 and float(row[name]) % 5 == 0
        assert 600000 <= float(row["E"]) <= 2000000 and float(row["E"]) % 100000 == 0


def test_a_better_grade_is_never_weaker() -> None:
    grades: dict[tuple[str, ...], dict[str, list[Row]]] = defaultdict(lambda: defaultdict(list))
    for table, row in EVERY:
        grades[(table, *place(row))][row["grade"]].append(row)
    compared = 0
    for at, by_grade in grades.items():
        for better, worse in STRONGER_FIRST:
            for name in ("F_b", "F_t", "F_c", "E"):
                if better in by_grade and worse in by_grade:
                    high = min(float(row[name]) for row in by_grade[better])
                    low = min(float(row[name]) for row in by_grade[worse])
                    assert high >= low, (at, better, worse, name)
                    compared += 1
    assert compared > 400


def test_shear_does_not_depend_on_the_grade() -> None:
    """One F_v for a species in a table."""
    shear: dict[tuple[str, str], set[str]] = defaultdict(set)
    for table, row in EVERY:
        shear[table, row["species"]].add(row["F_v"])
    assert {at: values for at, values in shear.items() if len(values) > 1} == {}


def test_the_lower_figure_stands_where_recall_and_rule_differ() -> None:
    """Reference, disagreements 2 to 4: clear wood (ASTM D2555-06, read) by ASTM D245, or the other rows."""
    timbers = rows("nds_2018_supplement_4d")
    by_species = {
        name: {row["F_v"] for row in timbers if row["species"] == name} for name in ("Baldcypress", "Western Hemlock")
    }
    assert by_species == {"Baldcypress": {"150"}, "Western Hemlock": {"165"}}
    hemlock = {row["grade"]: row["E"] for row in timbers if row["species"] == "Eastern Hemlock"}
    assert hemlock == {"Select Structural": "1100000", "No.1": "1100000", "No.2": "900000"}
    pine = [row["F_c"] for row in timbers if (row["species"], row["grade"]) == ("Eastern White Pine", "No.2")]
    assert pine == ["350", "300"]


def test_southern_pine_falls_with_width_and_keeps_its_stiffness() -> None:
    """Size is built into Table 4B: from band to band strength never rises, and E, F_v, F_c_perp stay."""
    by_grade: dict[str, list[Row]] = defaultdict(list)
    for row in rows("nds_2018_supplement_4b"):
        by_grade[row["grade"]].append(row)
    for bands in by_grade.values():
        assert [int(row["width_to"]) for row in bands] == sorted(int(row["width_to"]) for row in bands)
        for narrow, wide in pairwise(bands):
            assert all(float(wide[name]) <= float(narrow[name]) for name in ("F_b", "F_t", "F_c"))
            assert all(wide[name] == narrow[name] for name in ("E", "E_min", "F_v", "F_c_perp"))


def test_one_row_for_each_grade_and_agency() -> None:
    seen = Counter((table, *place(row), row["grade"], row["agency"]) for table, row in EVERY)
    assert set(seen.values()) == {1}


# rows whose every value was seen in a record or course that quotes the table, or back-computed from printed values
SECOND_HAND = "read, second-hand"
SEEN = [
    (
        "4a",
        "Douglas Fir-Larch",
        "Select Structural",
        "",
        "WCLIB; WWPA",
        (1500, 1000, 180, 625, 1700, 1.9e6, 690000),
        SECOND_HAND,
    ),
    ("4a", "Douglas Fir-Larch", "No.1", "", "WCLIB; WWPA", (1000, 675, 180, 625, 1500, 1.7e6, 620000), SECOND_HAND),
    ("4a", "Douglas Fir-Larch", "No.2", "", "WCLIB; WWPA", (900, 575, 180, 625, 1350, 1.6e6, 580000), SECOND_HAND),
    ("4a", "Hem-Fir", "No.2", "", "WCLIB; WWPA", (850, 525, 150, 405, 1300, 1.3e6, 470000), SECOND_HAND),
    (
        "4d",
        "Douglas Fir-Larch",
        "No.1",
        "posts_and_timbers",
        "WCLIB; WWPA",
        (1200, 825, 170, 625, 1000, 1.6e6, 580000),
        SECOND_HAND,
    ),
    (
        "4d",
        "Douglas Fir-Larch",
        "No.2",
        "posts_and_timbers",
        "WCLIB",
        (750, 475, 170, 625, 700, 1.3e6, 470000),
        SECOND_HAND,
    ),
    (
        "4d",
        "Douglas Fir-Larch",
        "No.1",
        "beams_and_stringers",
        "WCLIB; WWPA",
        (1350, 675, 170, 625, 925, 1.6e6, 580000),
        "derived",
    ),
    (
        "4d",
        "Hem-Fir",
        "No.2",
        "beams_and_stringers",
        "WCLIB; WWPA",
        (675, 350, 140, 405, 500, 1.1e6, 400000),
        SECOND_HAND,
    ),
    ("4d", "Hem-Fir", "No.2", "posts_and_timbers", "WCLIB", (575, 375, 140, 405, 575, 1.1e6, 400000), SECOND_HAND),
]


@pytest.mark.parametrize(("table", "species", "grade", "size_class", "agency", "values", "how"), SEEN)
def test_rows_seen_second_hand(
    table: str, species: str, grade: str, size_class: str, agency: str, values: tuple[float, ...], how: str
) -> None:
    """Worked problems of courses, and design records that cite the 2024 Supplement, as the notes of the rows say."""
    (row,) = [
        row
        for row in rows(f"nds_2018_supplement_{table}")
        if (row["species"], row["grade"], row.get("size_class", "")) == (species, grade, size_class)
        and row["agency"] == agency
    ]
    assert tuple(float(row[name]) for name in PROPERTIES) == values
    assert (row["how"], row["confidence"]) == (how, "high")


def test_no_more_rows_claim_to_be_seen() -> None:
    assert Counter(row["how"] for _, row in EVERY) == {"memory": 378, SECOND_HAND: 8, "derived": 1}


def test_every_species_has_a_specific_gravity() -> None:
    for species in species_names():
        G, source = specific_gravity(species)
        assert 0.3 < G < 0.75
        assert source.how in ("read", "memory")
    assert len(species_names()) == 28


def test_timber_sizes_are_nominal_less_half_an_inch_green_and_less_still_when_dressed_dry() -> None:
    """PS 20, second-hand: green 1/2 in off; dry 1/2 in off up to 6 in, 3/4 in up to 15 in, 1 in from 16 in."""
    for row in rows("ps20_dressed_sizes"):
        nominal, dry, green = (float(row[column]) for column in ("nominal", "dry", "green"))
        assert dry <= green < nominal
        if row["item"] == "timbers":
            assert green == nominal - 0.5
            assert dry == nominal - (0.5 if nominal <= 6 else 0.75 if nominal < 16 else 1.0)
