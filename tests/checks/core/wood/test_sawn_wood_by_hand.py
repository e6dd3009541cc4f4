"""Sawn wood: its moisture, weight and factors at the limits of the rules; what it is when nobody says."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from beamcheck.calc.pad import Pad
from beamcheck.checks.core.wood.material import (
    _dry_density,
    ask_what_shares,
    bending_star,
    is_unknown,
    reference_values,
    rows_to_screen,
    sharing_of,
    wood_of,
)  # fmt: skip
from beamcheck.checks.core.wood.record import ONE, Factor, Property, Sharing
from beamcheck.model.beams import Beam
from beamcheck.model.stock import Stock
from beamcheck.provenance import Source
from beamcheck.values.lumber import design_values, lowest, read_size

from ...anchors.anchors import made
from ...anchors.anchors import stock as sawn
from ...beams.beams import beam, known


def pcf(G: float, moisture: float) -> float:
    """NDS Supplement 3.1.3 (memory)."""
    return 62.4 * G / (1.0 + G * 0.009 * moisture) * (1.0 + moisture / 100.0)


def unmetered(size: str = "6x12 dressed", **more: Any) -> Any:
    return made(sawn(size, **{"measured_moisture": None, **more}))


def test_weight_of_wood_by_its_moisture() -> None:
    """G 0.50 as metered; dressed dimension lumber comes at 19 %; what is weighed counts as weighed."""
    assert made(sawn("6x12 dressed", measured_moisture="12 %")).density == pytest.approx(pcf(0.5, 12.0) / 1728.0)
    assert unmetered("2x10").density == pytest.approx(pcf(0.5, 19.0) / 1728.0)
    assert made(sawn(density="40 pcf")).density == pytest.approx(40.0 / 1728.0)
    wet = made(sawn("6x12 dressed", moisture="green", measured_moisture="25 %"))
    assert wet.density == pytest.approx(pcf(0.5, 25.0) / 1728.0)
    assert wet.dry_density == pytest.approx(pcf(0.5, 12.0) / 1728.0, rel=0.05) and wet.dry_density < wet.density
    weighed = made(sawn("6x12 dressed", moisture="green", measured_moisture="25 %", density="45 pcf"))
    assert weighed.dry_density == pytest.approx(45.0 / 1728.0 * (wet_share(wet.dry_density) + 100.0) / 125.0, rel=1e-3)
    assert made(sawn("6x12 dressed")).dry_density == 0.0


def wet_share(density: float) -> float:
    """The moisture at which wood of G 0.50 has a weight, percent."""
    low, high = 0.0, 30.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if pcf(0.5, middle) / 1728.0 < density else (low, middle)
    return low


@pytest.mark.parametrize(
    ("stock", "dry", "says"),
    [
        (sawn("6x12 dressed", measured_moisture="19 %"), True, ""),
        (sawn("6x12 dressed", measured_moisture="19.1 %"), False, "declared dry but metered"),
        (sawn("6x12 dressed", measured_moisture=None), False, "no moisture reading is given"),
        (sawn("2x10", measured_moisture=None), True, ""),
        (sawn("2x10 rough", measured_moisture=None), False, "no moisture"),
        (sawn("2x10", measured_moisture=None, evidence="stamp: mill 12, No.1, S-GRN"), False, "stamped S-GRN"),
        (sawn("6x12 dressed", moisture="green", measured_moisture="15 %"), False, "installed green"),
    ],
)  # fmt: skip
def test_what_counts_as_dry(stock: Stock, dry: bool, says: str) -> None:
    """19 % at most as metered; NDS 4.3.3 for the rest; K_cr 1.5 dry and 2.0 wet (3.5.2)."""
    found = made(stock)
    assert found.dry is dry and found.K_cr.value == (1.5 if dry else 2.0)
    assert says in " ".join(found.notes) and ("taken as wet" not in " ".join(found.notes) or not dry)


def test_neighbors_flat_use_heat_and_incising() -> None:
    """C_r 1.15 of dimension lumber, three and more at 24 in and less; C_fu of a 2x10 1.2; C_i 0.80, 0.95; C_t 0.7."""
    from beamcheck.checks.core.wood.material import reference_values, wood_of
    from beamcheck.checks.core.wood.record import Sharing

    joist, timber = sawn("2x10"), sawn("6x12 dressed")

    def C_r(stock: Stock, members: int, spacing: float, joined: bool = True) -> float:
        sharing = Sharing(members, spacing, joined)
        return float(wood_of(stock, reference_values(stock), sharing=sharing).F_b.C_r.value)

    assert C_r(joist, 3, 24.0) == 1.15 and C_r(joist, 2, 24.0) == 1.0 and C_r(joist, 3, 24.1) == 1.0
    assert C_r(joist, 3, 16.0, joined=False) == 1.0 and C_r(timber, 5, 16.0) == 1.0
    flat = wood_of(joist, reference_values(joist), laid="flat")
    assert flat.F_b.C_fu.value == 1.2 and made(joist).F_b.C_fu.value == 1.0 and flat.E.C_fu.value == 1.0
    hot = made(sawn("2x10", temperature="130 F"))
    assert (
        hot.F_b.C_t.value == 0.7
        and hot.E.C_t.value == 0.9
        and made(sawn("2x10", temperature="100 F")).F_b.C_t.value == 1.0
    )
    cut = made(sawn("2x10", incised=True, treated=True, treated_with="preservative"))
    assert cut.F_b.C_i.value == 0.8 and cut.E.C_i.value == 0.95 and cut.F_c_perp.C_i.value == 1.0
    whole = made(sawn("6x12 dressed", incised=True, treated=True, treated_with="preservative"))
    assert whole.F_b.C_i.value == 1.0 and any("incised timber" in one.text for one in whole.doubts)
    deep = made(sawn("6x14 dressed"))
    assert deep.F_b.C_F.value == pytest.approx((12.0 / 13.5) ** (1.0 / 9.0))


SAID = {"metered": "declared dry but metered at", "stamped": "and stamped", "unmetered": "no moisture reading is given",
        "green": "installed green"}  # fmt: skip
GREEN = "stamp: mill 12, No.1, S-GRN"


@pytest.mark.parametrize(("size", "moisture", "metered", "evidence", "said"), [
    ("6x12 dressed", "dry", "19 %", GREEN, []), ("6x12 dressed", "dry", "25 %", GREEN, ["metered"]),
    ("6x12 dressed", "dry", None, GREEN, ["stamped"]), ("2x10", "dry", None, GREEN, ["stamped"]),
    ("6x12 dressed", "dry", None, "stamp: mill 12", ["unmetered"]), ("2x10", "dry", None, "stamp: mill 12", []),
    ("2x10", "dry", "25 %", "stamp: mill 12", ["metered"]), ("2x10", "green", "25 %", GREEN, ["green"]),
    ("2x10", "green", None, GREEN, ["green"]), ("2x10", "wet", None, GREEN, []), ("2x10", "wet", "25 %", "x", []),
])  # fmt: skip
def test_what_is_said_of_its_moisture(
    size: str, moisture: str, metered: str | None, evidence: str, said: list[str]
) -> None:
    found = made(sawn(size, moisture=moisture, measured_moisture=metered, evidence=evidence))
    assert [name for name, words in SAID.items() if any(words in note for note in found.notes)] == said
    assert found.dry is (not said and moisture == "dry")


@pytest.mark.parametrize(("metered", "G", "today", "dried"), [
    ("25 %", 0.5, pcf(0.5, 25.0), pcf(0.5, 12.0)), ("30 %", 0.5, pcf(0.5, 30.0), pcf(0.5, 12.0)),
    ("32 %", 0.5, pcf(0.5, 30.0) / 1.3 * 1.32, pcf(0.5, 12.0)),  # over 30 % it swells no more
    (None, 0.5, pcf(0.5, 30.0) / 1.3 * 1.6, pcf(0.5, 12.0)),  # 60 % where nobody metered it (common practice)
    ("10 %", 0.5, pcf(0.5, 10.0), pcf(0.5, 10.0)),  # never heavier than today
    ("25 %", None, pcf(0.5, 25.0), pcf(0.5, 12.0)), ("25 %", 0.4, pcf(0.4, 25.0), pcf(0.4, 12.0)),
])  # fmt: skip
def test_weight_today_and_once_it_has_dried(metered: str | None, G: float | None, today: float, dried: float) -> None:
    """By the gravity of its row; where that has none by that of its species, 0.50 (NDS Table 12.3.3A, memory)."""
    stock = sawn("6x12 dressed", moisture="green", measured_moisture=metered)
    found = wood_of(stock, replace(reference_values(stock), G=G))
    assert (found.density * 1728.0, found.dry_density * 1728.0) == pytest.approx((today, dried))
    assert found.G == G and f"from G = {0.5 if G is None else G:g} at" in found.notes[-1]
    assert ("metered" in found.notes[-1]) is (metered is not None)


@pytest.mark.parametrize(("metered", "moisture", "dried"), [
    ("25 %", "green", 45.0 * 112.0 / 125.0), (None, "green", 45.0 * 112.0 / 160.0), (None, "dry", 45.0 * 112.0 / 130.0),
    ("8 %", "wet", 45.0),
])  # fmt: skip
def test_what_was_weighed_wet_dries_by_its_water(metered: str | None, moisture: str, dried: float) -> None:
    """To 12 %, from what was metered or else from 60 % of green wood, 30 % of dry (common practice)."""
    stock = sawn("6x12 dressed", moisture=moisture, measured_moisture=metered, density="45 pcf")
    assert _dry_density(stock, reference_values(stock), 45.0) == pytest.approx(dried)
    assert "weight as given: 45 lb/ft" in made(stock).notes[-1] or "45 pcf" in made(stock).notes[-1]


def test_size_factor_of_deep_flat_and_round_timbers() -> None:
    """NDS 2018 4.3.6 (memory): (12/d)^(1/9), of a round one by the square of equal area; on the flat C_fu instead."""
    for size, depth in (("6x12 dressed", 12.0), ("6x14 dressed", 13.5), ("15 in round", 15.0 * 0.7853982**0.5)):
        for laid in ("on edge", "flat"):
            stock = sawn(size, measured_moisture="12 %")
            wood = wood_of(stock, reference_values(stock), laid=laid)
            flat = laid == "flat" and "round" not in size
            assert wood.F_b.C_F.value == pytest.approx(1.0 if flat else (12.0 / depth) ** (1.0 / 9.0)), (size, laid)
            assert (wood.F_b.C_fu == ONE) is (not flat)
            assert ("square of equal area" in wood.F_b.C_F.why) is ("round" in size)
    joist = sawn("2x10")
    assert wood_of(joist, reference_values(joist), laid="flat").F_b.C_F.value == 1.1  # Table 4A, No.1, 10 in wide


@pytest.mark.parametrize(("sharing", "why"), [
    (None, ""), (Sharing(1, 16.0, True), ""), (Sharing(2, 16.0, True), "fewer than 3 members"),
    (Sharing(3, 25.0, True), "spaced more than 24 in"), (Sharing(3, 16.0, False), "nothing joins them"),
    (Sharing(3, 16.0, True), "3 members, 16 in apart, sharing load"),
])  # fmt: skip
def test_why_neighbors_do_or_do_not_count(sharing: Sharing | None, why: str) -> None:
    """NDS 2018 4.3.9; of one that is alone nothing is said."""
    joist = sawn("2x10")
    C_r = wood_of(joist, reference_values(joist), sharing=sharing).F_b.C_r
    assert why in C_r.why and (C_r == ONE) is (not why)


def test_a_factor_with_a_reason_or_a_source_is_written_down() -> None:
    wood = made(sawn())
    for factor, written in (
        (ONE, False),
        (Factor(0.9, "why"), True),
        (Factor(0.9, "", Source("letter", "given")), True),
    ):
        pad = Pad()
        bending_star(pad, replace(wood, F_b=Property(1000.0, C_M=factor)), 1.0)
        assert ("C_M" in [step.symbol for step in pad.steps]) is written


# ---- what it is -----------------------------------------------------------------------------------------------------

UNSTAMPED: Any = {"grade": "unstamped", "grade_from": None, "evidence": ""}
UNKNOWN: Any = {**UNSTAMPED, "species": "unknown"}
LETTER = Stock.model_validate(known("6 in x 12 in"))
GLUED = sawn("5 1/8 in x 12 in", made="glulam", grade="24F-V4/DF")


@pytest.mark.parametrize(("stock", "unknown"), [
    (sawn(), False), (sawn(**UNSTAMPED), True), (LETTER, False),
    (sawn(**{**UNKNOWN, "candidates": ["Hem-Fir"]}), True), (GLUED, False),
])  # fmt: skip
def test_wood_that_nothing_gives_its_values(stock: Stock, unknown: bool) -> None:
    assert is_unknown(stock) is unknown


def test_the_rows_that_it_might_be() -> None:
    """Said candidates, else its species, else every one; a grade that is said alone."""

    def rows(**more: Any) -> list[tuple[str, str]]:
        return [(row.species, row.grade) for row in rows_to_screen(sawn("6x12 dressed", **{**UNSTAMPED, **more}))]

    fir = rows()
    assert {species for species, _ in fir} == {"Douglas Fir-Larch"} and len({grade for _, grade in fir}) > 2
    assert rows(grade="No.1", grade_from="assumed") == [("Douglas Fir-Larch", "No.1")]
    both = rows(**{**UNKNOWN, "candidates": ["Hem-Fir", "Douglas Fir-Larch"]})
    assert {species for species, _ in both} == {"Hem-Fir", "Douglas Fir-Larch"} and set(fir) <= set(both)
    assert {species for species, _ in rows(**{**UNKNOWN, "candidates": []})} > {"Hem-Fir", "Eastern White Pine"}


def test_values_by_letter_are_those_of_the_letter() -> None:
    found, given = reference_values(LETTER), LETTER.values
    assert given is not None and (found.table, found.source, found.lowered) == (
        "given", Source(given.source, "given"), ())  # fmt: skip
    for name in ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min"):
        assert getattr(found, name) == getattr(given, name)


@pytest.mark.parametrize(("size", "graded", "lower"), [
    ("6x12 dressed", None, False), ("6x12 dressed", "beams and stringers", False),
    ("6x12 dressed", "posts and timbers", True), ("10x10 dressed", "beams and stringers", True),
    ("10x10 dressed", "posts and timbers", False), ("2x10", "posts and timbers", False),
])  # fmt: skip
def test_a_class_by_certificate(size: str, graded: str | None, lower: bool) -> None:
    """NDS 2018 4.1.3: the lowest of each property of both classes where they differ; lumber has no such class."""
    found, beams, posts = (reference_values(sawn(one, graded_as=graded if one == size else None))
                           for one in (size, "6x12 dressed", "10x10 dressed"))  # fmt: skip
    if lower:
        both = lowest([beams, posts], "")
        assert (found.F_b, found.F_t, found.F_c) == (both.F_b, both.F_t, both.F_c) and found.lowered
        assert found.size_class == reference_values(sawn(size)).size_class
    else:
        assert found == design_values("Douglas Fir-Larch", "No.1", read_size(size))


def test_neighbors_as_a_job_says_them() -> None:
    """A stick that is alone asks for no deck; three do until theirs is said."""
    three, plywood = {"members": 3, "spacing": 16.0}, "3/4 in plywood, nailed"
    for more, sharing, asks in (
        ({}, Sharing(1, 0.0, False), 0), (three, Sharing(3, 16.0, False), 1),
        ({**three, "members": 2}, Sharing(2, 16.0, False), 1),
        ({**three, "shared_by": plywood}, Sharing(3, 16.0, True), 0),
    ):  # fmt: skip
        stick = Beam.model_validate(beam()).model_copy(update=more)
        assert sharing_of(stick) == sharing
        assert [one.field for one in ask_what_shares(stick)] == ["beam.B.shared_by"] * asks
