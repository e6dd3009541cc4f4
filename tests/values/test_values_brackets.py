"""Look-ups for brackets: figures against the notes they come from, species against their rows, bad names refused."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest

from beamcheck.errors import BeamcheckError, OutOfRange, UnknownName
from beamcheck.values import brackets
from beamcheck.values.judgment import judgment
from beamcheck.values.loader import rows
from beamcheck.values.species import species_names

# the notes on brackets, section by section (how: practice where judged or fitted, memory where recalled)
FIGURES = [
    ("tension across the grain", 15.0), ("slope of grain at an edge in tension", 15.0),
    ("factor, stress along the top edge", 1.3), ("factor, stress along the wall edge", 1.3),
    ("factor, stress along the soffit", 1.2), ("factor, stress along the soffit, diagonal grain or ogee", 1.7),
    ("least arm over depth", 0.75), ("least distance of a load over depth", 0.5),
    ("zone not read at a clamped wall", 0.15), ("zone not read at anchors", 0.10), ("zone not read at a load", 0.5),
    ("divisor of the stiffness, lower value", 1.6), ("factor, sawn arc with straight grain", 1.6),
    ("radial tension, western species", 15.0), ("anchor stiffness, soft", 1e4), ("anchor stiffness, stiff", 5e4),
    ("offset of the force in a tight brace over its depth", (2.2 - 1) / 6), ("shear length over depth of a cut", 8.0),
    ("uneven shear", 1.5), ("tolerance of a gap", 1 / 16),
    ("slot over gap", 2.0),
    ("clearance around hidden heads", 1 / 8), ("wall of a pocket", 3 / 8), ("holding over weight of a cover", 4.0),
    ("moisture swing inside a heated house", 6.0),
    ("COV of E, visually graded", 0.25), ("stress in a bar over F_y", 0.6),
]  # fmt: skip


@pytest.mark.parametrize(("name", "value"), FIGURES)
def test_figures_of_judgment(name: str, value: float) -> None:
    found = judgment(name)
    assert found.value == pytest.approx(value, rel=1e-12)
    assert found.source.how in ("practice", "memory", "derived") and found.reason.startswith(f"{name}: ")


def test_figures_of_rules_that_stand_in_no_table_of_their_own() -> None:
    """End grain without a plate (NDS 2018 3.10.1.3), laminations (5.3.8), all recalled; steel by common practice."""
    known = {
        "end grain without a metal plate": 0.75, "radius over lamination, softwood": 125.0,
        "radius over lamination, hardwood": 100.0, "curvature factor": 2000.0, "E of steel": 29e6,
        "strength of weld metal": 70e3, "density of steel": 490 / 12**3, "share of the load on one row": 0.8,
    }  # fmt: skip
    assert {name: judgment(name).value for name in known} == pytest.approx(known)


def test_every_figure_says_what_it_rests_on() -> None:
    table = rows("judgment_brackets")
    assert {name for name, _ in FIGURES} < {row["figure"] for row in table}
    for row in table:
        assert row["meaning"] and row["source"], row["figure"]
        assert row["how"] in ("practice", "memory", "derived"), row["figure"]


def test_the_figure_for_tension_across_the_grain_is_doubtful_and_says_so() -> None:
    source = judgment("tension across the grain").source
    assert (source.how, source.confidence) == ("memory", "low") and "never raise" in source.note


@pytest.mark.parametrize(
    ("soffit", "grain", "eta"),
    [
        ("convex", 0.0, 0.70), ("ogee", 45.0, 0.70), ("straight", None, 0.70), ("full arc", 90.0, 0.70),
        ("concave", 90.0, 0.70), ("concave", 45.0, 0.65), ("concave", 0.0, 0.45), ("block", None, 0.9),
        # modelled at 0, 45 and 90 deg only: in between, the smaller share
        ("concave", 44.9, 0.45), ("concave", 89.9, 0.65), ("hollow arc", 60.0, 0.65), ("concave", 135.0, 0.45),
        ("points", 10.0, 0.45), ("concave", None, 0.45),
    ],
)  # fmt: skip
def test_lever_arms(soffit: str, grain: float | None, eta: float) -> None:
    """Plane elements with one-sided contact, table of section e1 of the notes (how: derived, marked practice here)."""
    assert brackets.lever_arm_eta(soffit, grain).value == eta


def test_a_lever_arm_without_grain_says_that_it_is_the_least() -> None:
    assert "the least, as the grain is not known" in brackets.lever_arm_eta("concave", None).reason
    assert "least" not in brackets.lever_arm_eta("concave", 0.0).reason


def test_accidental_loads() -> None:
    """200 lb of handrails, 250 lb of grab bars (second-hand), 300 lb judged; never a requirement."""
    found = brackets.accidental_loads()
    assert [each.value.load for each in found] == [200.0, 250.0, 300.0]
    assert [each.source.how for each in found] == ["read, second-hand", "read, second-hand", "practice"]
    assert all(each.value.directions == ("down at the nose", "outward", "sideways") for each in found)
    assert "common practice" in found[0].reason and found[0].reason.startswith("200 lb as for a handrail")


def test_elastic_ratios_of_the_notes() -> None:
    """Douglas-fir and northern red oak, Wood Handbook Tables 5-1 and 5-2 (second-hand; larch memory)."""
    fir, larch = brackets.elastic_ratios("Douglas Fir-Larch")
    assert fir.value == brackets.ElasticRatios("Douglas-fir", "softwood", 0.050, 0.068, 0.064, 0.078, 0.292, 0.449)
    assert larch.value.species == "Larch, western"
    (oak,) = brackets.elastic_ratios("Northern Red Oak")
    assert oak.value == brackets.ElasticRatios("Oak, red", "hardwood", 0.082, 0.154, 0.089, 0.081, 0.350, 0.448)
    assert (fir.source.how, larch.source.how) == ("read, second-hand", "memory")
    assert oak.reason == "Oak, red for Northern Red Oak"


def test_a_species_without_a_row_gets_all_rows_of_its_kind() -> None:
    table = rows(brackets.ELASTIC)
    for species, kind in (("Eastern White Pine", "softwood"), ("White Oak", "hardwood"), ("Hem-Fir", "softwood")):
        found = brackets.elastic_ratios(species)
        assert {each.value.species for each in found} == {row["species"] for row in table if row["kind"] == kind}
        assert all(each.reason.startswith(f"no row for {species}: one of all rows of {kind}s") for each in found)
    for unknown in (None, " "):
        everything = brackets.elastic_ratios(unknown)
        assert len(everything) == len(table) and everything[0].reason.startswith("species not known")


def test_every_species_of_the_stock_has_ratios_and_movement() -> None:
    for species in species_names():
        for found in (brackets.elastic_ratios(species), brackets.movement_coefficient(species)):
            assert found and all(each.source.document for each in found)
        assert {each.value.kind for each in brackets.elastic_ratios(species)} < {"softwood", "hardwood"}


def test_every_name_that_a_row_stands_for_is_a_species() -> None:
    """A slip of the pen in `stands_for` would send that species to the spread without a word."""
    others = {"White Ash", "Basswood", "Yellow Birch", "Black Cherry", "Sugar Maple", "Sweetgum", "Black Walnut"}
    known = {row["species"] for row in rows("nds_2018_table_12_3_3a_specific_gravity")} | {"Western Redcedar"} | others
    for table in (brackets.ELASTIC, brackets.MOVEMENT):
        stands = {name for row in rows(table) for name in row["stands_for"].split("; ") if name}
        assert stands <= known, table


def test_ratios_are_those_of_a_material_that_exists() -> None:
    """Work is needed to strain it: nu_ij^2 < E_i/E_j (orthotropic elasticity, how: memory); and what all woods show."""
    for row in rows(brackets.ELASTIC):
        E_T, E_R, G_LR, G_LT, nu_LR, nu_LT = (
            float(row[name]) for name in ("E_T", "E_R", "G_LR", "G_LT", "nu_LR", "nu_LT")
        )
        assert nu_LT**2 * E_T < 1 and nu_LR**2 * E_R < 1
        assert 0.02 < E_T < 0.1 and 0.05 < E_R < 0.2 and 0.02 < min(G_LR, G_LT) <= max(G_LR, G_LT) < 0.22


READ = [  # Wood Handbook Table 13-5, rows seen (how: read)
    ("Northern Red Oak", "radial", 0.00158), ("Northern Red Oak", "tangential", 0.00369),
    ("Oak, white", "radial", 0.00180), ("Oak, white", "tangential", 0.00365),
    ("Beech, American", "tangential", 0.00431),
    ("Birch, yellow", "radial", 0.00256), ("Red Maple", "tangential", 0.00289), ("Black Walnut", "tangential", 0.00274),
    ("fir, White", "tangential", 0.00245), ("Sugar Maple", "radial", 0.00165),
]  # fmt: skip


@pytest.mark.parametrize(("species", "direction", "C_w"), READ)
def test_movement_coefficients_that_were_read(species: str, direction: Any, C_w: float) -> None:
    found = brackets.movement_coefficient(species, direction)
    assert found[0].value == C_w
    assert found[0].source.how == "read"


def test_movement_of_a_mixed_stock_is_the_largest_first() -> None:
    """Douglas-fir coast 0.00267 (derived) and western larch 0.00323 (memory): the larch closes more of a gap."""
    found = brackets.movement_coefficient("DF-L")
    assert [each.value for each in found] == sorted((each.value for each in found), reverse=True)
    assert 0.00267 in [each.value for each in found] and found[0].value == 0.00323
    assert found[0].reason == "Larch, western, tangential: 0.00323 per point; Larch, western for DF-L"
    assert brackets.movement_coefficient("White Oak")[0].value == 0.00462  # overcup is sold as white oak too
    unknown = brackets.movement_coefficient(None)
    assert unknown[0].value == max(float(row["C_T"]) for row in rows(brackets.MOVEMENT))
    assert (
        "no row for Western Woods: one of all rows of softwoods"
        in brackets.movement_coefficient("Western Woods")[0].reason
    )


def test_tangential_is_the_larger() -> None:
    """So that it may stand for a direction that is not known."""
    assert all(float(row["C_T"]) > float(row["C_R"]) for row in rows(brackets.MOVEMENT))


@pytest.mark.parametrize(
    ("species", "S_R", "S_T"),
    [
        # Wood Handbook Table 4-3, shrinkage read, green to oven-dry, percent; beech with both of its figures read
        ("Beech, American", 5.5, 11.9), ("Cedar, yellow", 2.8, 6.0), ("Cedar, Atlantic white", 2.9, 5.4),
        ("Cedar, eastern redcedar", 3.1, 4.7), ("Cedar, incense", 3.3, 5.2), ("Cedar, northern white", 2.2, 4.9),
        ("Cedar, Port-Orford", 4.6, 6.9), ("Cedar, western redcedar", 2.4, 5.0), ("Douglas-fir, coast", 4.8, 7.6),
        ("Douglas-fir, interior north", 3.8, 6.9), ("Douglas-fir, interior west", 4.8, 7.5), ("Fir, balsam", 2.9, 6.9),
        ("Fir, California red", 4.5, 7.9), ("Fir, grand", 3.4, 7.5), ("Fir, noble", 4.3, 8.3),
        ("Fir, Pacific silver", 4.4, 9.2), ("Fir, white", 3.3, 7.0), ("Yellow-poplar", 4.6, 8.2),
        ("Fir, subalpine", 2.6, 7.4), ("Spruce, white", 4.7, 8.2),  # recalled, or the last digit is the larger one
    ],
)  # fmt: skip
def test_coefficients_follow_their_shrinkage(species: str, S_R: float, S_T: float) -> None:
    """C = S / (100 F - S (F - 10)), the rule behind Table 13-5 (derived): F, fiber saturation, is 30 % or 22 %."""
    (row,) = [row for row in rows(brackets.MOVEMENT) if row["species"] == species]
    F = 22.0 if species in ("Cedar, northern white", "Cedar, western redcedar") else 30.0
    hair = 0.51e-5 if row["how"] in ("derived", "read") else 1.1e-5
    for name, S in (("C_R", S_R), ("C_T", S_T)):
        assert float(row[name]) == pytest.approx(S / (100 * F - S * (F - 10)), abs=hair)


def test_rows_from_shrinkage_that_was_read_say_so() -> None:
    derived = [row for row in rows(brackets.MOVEMENT) if row["how"] == "derived"]
    assert len([row for row in derived if "% read" in row["note"]]) == 16
    assert {row["species"] for row in derived if "% read" not in row["note"]} == {"Hemlock, mountain"}


@pytest.mark.parametrize(
    ("call", "error", "told"),
    [
        (lambda: judgment("tolerance"), UnknownName, "figure of judgment 'tolerance' is not known"),
        (lambda: brackets.lever_arm_eta("cusp", 0.0), UnknownName, "soffit 'cusp' is not known; known are 'block'"),
        (lambda: brackets.lever_arm_eta("concave", 181.0), OutOfRange, "the grain must lie at 0 to 180 deg, given 181"),
        (lambda: brackets.elastic_ratios("Red Oke"), UnknownName, "species 'Red Oke' is not known; did you mean"),
        (lambda: brackets.movement_coefficient("plastic"), UnknownName, "species 'plastic' is not known"),
        (lambda: brackets.movement_coefficient("Red Oak", "along"), UnknownName,  # type: ignore[arg-type]
         "direction in the wood 'along' is not known; known are 'radial', 'tangential'"),
    ],
)  # fmt: skip
def test_refused(call: Callable[[], object], error: type[BeamcheckError], told: str) -> None:
    with pytest.raises(error, match=re.escape(told)):
        call()
