"""Glued and composite wood at the limits of what a layup or a report says; doubts, weights and factors by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.core.wood.made.engineered import adjusted, engineered_values, engineered_wood
from beamcheck.checks.core.wood.made.flitch_section import flitch_section
from beamcheck.checks.core.wood.record import ONE, Sharing, Volume
from beamcheck.checks.core.wood.section import Section
from beamcheck.errors import OutOfRange
from beamcheck.model.stock import Stock
from beamcheck.provenance import Source

Data = dict[str, Any]
REPORT: Data = {"number": "report no. 0417", "edition": "renewed 3 May 2026", "F_b": "2600 psi", "F_v": "285 psi",
                "F_c_perp": "750 psi", "E": "2,000,000 psi", "d_0": "12 in", "power": 0.136,
                "holds_by": "the maker, letter of 3 May 2026, no. 4"}  # fmt: skip
SHARED = Sharing(3, 24.0, True)


def lvl(report: Data | None = None, **more: Any) -> Stock:
    return Stock.model_validate({
        "name": "w", "made": "composite", "species": "LVL", "grade": "2.0E", "size": "1 3/4 in x 11 7/8 in",
        "moisture": "dry", "grade_from": "stamp", "evidence": "stamp: plant 7, LVL 2.0E, report 0417",
        "report": {**REPORT, **(report or {})}, **more,
    })  # fmt: skip


def glulam(**more: Any) -> Stock:
    return Stock.model_validate({
        "name": "w", "made": "glulam", "species": "Douglas Fir-Larch", "grade": "24F-V4/DF", "moisture": "dry",
        "size": "5 1/8 in x 18 in", "grade_from": "stamp", "evidence": "stamp: plant 31, 24F-V4/DF", **more,
    })  # fmt: skip


def wood(stock: Stock, sharing: Sharing | None = None, form: Any = "beam") -> Any:
    return engineered_wood(stock, engineered_values(stock), laid="on edge", sharing=sharing, form=form)


@pytest.mark.parametrize(("report", "sharing", "C_r"), [
    ({"C_r": 1.04}, SHARED, 1.04), ({"C_r": 1.04}, Sharing(2, 24.0, True), 1.0),
    ({"C_r": 1.04}, Sharing(3, 24.1, True), 1.0), ({"C_r": 1.04}, Sharing(3, 16.0, False), 1.0),
    ({"C_r": 1.04}, None, 1.0), ({}, SHARED, 1.0), ({"C_r": 1.04}, Sharing(4, 12.0, True), 1.04),
])  # fmt: skip
def test_neighbors_raise_what_the_report_says(report: Data, sharing: Sharing | None, C_r: float) -> None:
    """Three and more at 24 in and less, under a deck, where the report has a factor; of glued timber nothing."""
    found = wood(lvl(report), sharing)
    assert found.F_b.C_r.value == C_r and found.F_v.C_r.value == 1.0 and (found.F_b.C_r == ONE) is (C_r == 1.0)
    assert wood(glulam(), sharing).F_b.C_r.value == 1.0
    said = "neighbors that share the load raise nothing here" in " ".join(wood(glulam(), sharing).notes)
    assert said is (sharing is not None)
    assert "raise nothing" not in " ".join(wood(glulam(), Sharing(1, 24.0, True)).notes)


@pytest.mark.parametrize(("stock", "states"), [
    (lvl(), []), (lvl(treated=True, treated_with="preservative"), ["treated"]),
    (lvl(evidence="stamp: plant 7, LVL 2.0E, report 0417, treated"), ["treated"]),
    (lvl(evidence="stamp: plant 7, LVL 2.0E, report 0417, not treated"), []),
    (lvl(moisture="wet"), ["put in wet, or wet in service"]), (lvl(temperature="100 F"), []),
    (lvl(temperature="101 F"), ["at 101 °F"]), (glulam(temperature="101 F"), []), (glulam(moisture="wet"), []),
    (glulam(treated=True, treated_with="preservative"), ["treated"]),
])  # fmt: skip
def test_states_of_which_only_the_maker_knows(stock: Stock, states: list[str]) -> None:
    found = [one.text for one in wood(stock).doubts if "only its maker can say" in one.text]
    assert len(found) == len(states) and all(state in text for state, text in zip(states, found, strict=True))


@pytest.mark.parametrize(("stock", "pcf"), [
    (lvl(density="38 pcf"), 38.0), (lvl({"density": "41 pcf"}), 41.0),
    (lvl({"density": "41 pcf"}, density="38 pcf"), 38.0),
    (glulam(density="34 pcf"), 34.0), (glulam(), 62.4 * 0.5 / (1 + 0.5 * 0.009 * 19) * 1.19),
    (glulam(moisture="wet"), 62.4 * 0.5 / (1 + 0.5 * 0.009 * 30) * 1.3),
])  # fmt: skip
def test_weights(stock: Stock, pcf: float) -> None:
    """As given, of the piece before the report; of glued timber at 19 or 30 % (NDS Supplement 3.1.3, memory)."""
    assert wood(stock).density == pytest.approx(pcf / 1728.0)


def test_composite_lumber_whose_weight_nobody_gives_is_heavy() -> None:
    """50 pcf, more than LVL, PSL or LSL of softwood weighs (common practice)."""
    assert wood(lvl()).density * 1728.0 == pytest.approx(50.0)


@pytest.mark.parametrize(
    ("degrees", "wet", "C_t"), [("100 F", False, 1.0), ("110 F", False, 0.8), ("110 F", True, 0.7)]
)
def test_heat_of_glued_timber(degrees: str, wet: bool, C_t: float) -> None:
    """NDS 2018 Table 2.3.3 (memory): over 100 and up to 125 F 0.8 of F_b dry and 0.7 wet, 0.9 of E."""
    found = wood(glulam(temperature=degrees, moisture="wet" if wet else "dry"))
    assert found.F_b.C_t.value == C_t and found.E.C_t.value == (1.0 if C_t == 1.0 else 0.9)


@pytest.mark.parametrize(("report", "words"), [
    ({}, ["E_min", "whether E holds shear deflection is not said"]),
    ({"E_min": "1,000,000 psi"}, ["whether E holds shear deflection is not said"]),
    ({"E_min": "1,000,000 psi", "E_is": "shear included"}, []),
    ({"E_min": "1,000,000 psi", "E_is": "shear-free", "remarks": "no fire"}, ["the report says besides: no fire"]),
])  # fmt: skip
def test_what_a_report_leaves_open_is_noted(report: Data, words: list[str]) -> None:
    found = wood(lvl(report))
    said = [one for one in found.notes if any(word in one for word in ("E_min", "whether E", "says besides"))]
    assert len(said) == len(words) and all(word in one for word, one in zip(words, said, strict=True))
    assert found.shear_free is (report.get("E_is") != "shear included")


@pytest.mark.parametrize(("d", "C_V"), [(12.0, 1.0), (24.0, 0.5**0.136), (6.0, 2.0**0.136), (3.0, (12 / 3.5) ** 0.136)])
def test_depth_factor_of_a_report(d: float, C_V: float) -> None:
    """(d_0/d)^power, no depth below the least that it names."""
    volume = wood(lvl({"least_depth": "3 1/2 in"})).volume
    assert float(adjusted(SilentPad(), volume, 1.75, d, 1000.0, 1.0)) == pytest.approx(1000.0 * C_V)
    assert float(adjusted(SilentPad(), volume, 1.75, 12.0, 1000.0, 0.8)) == pytest.approx(800.0)


@pytest.mark.parametrize(("b", "d", "L"), [(5.125, 12.0, 252.0), (10.75, 24.0, 480.0), (5.125, 48.0, 252.0)])
def test_volume_factor_of_glued_timber(b: float, d: float, L: float) -> None:
    """(21/L)^(1/10) (12/d)^(1/10) (5.125/b)^(1/10), no more than 1, beside C_L the smaller (5.3.6, memory)."""
    volume = wood(glulam()).volume.__class__(wood(glulam()).volume.source, x_V=10.0, L=L)
    C_V = min((252.0 / L * 12.0 / d * 5.125 / b) ** 0.1, 1.0)
    assert float(adjusted(SilentPad(), volume, b, d, 1000.0, 1.0)) == pytest.approx(1000.0 * C_V)
    assert float(adjusted(SilentPad(), volume, b, d, 1000.0, 0.5)) == pytest.approx(500.0)


def test_without_its_report_composite_lumber_is_not_counted() -> None:
    with pytest.raises(OutOfRange, match="report is not given"):
        engineered_values(lvl().model_copy(update={"report": None}))


@pytest.mark.parametrize(("rows", "apart", "far"), [(1, None, [0.0]), (2, 5.0, [-2.5, 2.5]), (3, 3.0, [3.0] * 3)])
def test_a_flitch_section_less_the_holes_of_its_bolts(rows: int, apart: float | None, far: list[float]) -> None:
    """Holes of 9/16 in through wood and plate, each b h^3/12 + b h y^2, each as far out as the outermost;
    all as wood by 29 million psi over E."""
    plate: Any = SimpleNamespace(thickness=0.5, depth=11.0, bolt="1/2 in", rows=rows, row_spacing=apart)
    section = flitch_section(Section(3.0, 11.25, 1.5), plate, 1.6e6, 34.0 / 1728.0)
    h = 9.0 / 16.0
    wood, steel = (
        b * d**3 / 12.0 - sum(b * (h**3 / 12.0 + h * y**2) for y in far) for b, d in ((3.0, 11.25), (0.5, 11.0))
    )
    pad = SilentPad()
    assert (section.wood_inertia(pad), section.plate_inertia(pad)) == pytest.approx((wood, steel))
    whole = wood + steel * 29e6 / 1.6e6
    assert (section.inertia(pad), section.modulus(pad)) == pytest.approx((whole, whole / 5.625))
    assert section.wood_area == 33.75 and section.area(pad) == pytest.approx(33.75 + 490.0 / 34.0 * 5.5)


@pytest.mark.parametrize("volume", [Volume(Source("x", "given"), x_V=10.0), Volume(Source("x", "given"), d_0=12.0)])
def test_what_a_volume_factor_lacks_lets_nothing_pass(volume: Volume) -> None:
    """A length that nobody gave is no length of zero, and no power of zero either."""
    with pytest.raises(OutOfRange, match="finite"):
        adjusted(SilentPad(), volume, 5.125, 18.0, 1000.0, 1.0)
