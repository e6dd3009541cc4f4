"""Fire, boards against it, reports of makers and other people's walls: figures of wood by hand, limits and words."""

from __future__ import annotations

import datetime
import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood.burnt import (
    burning_wood,
    burnt,
    carrier_checks,
    lasts,
    left_as_size,
    steel_check,
    without_wind,
)  # fmt: skip
from beamcheck.checks.core.wood.made.engineered import (
    _few_laminations,
    _long_ago,
    _report_doubts,
    engineered_values,
    engineered_wood,
    pulled_side,
)  # fmt: skip
from beamcheck.checks.core.wood.section import Section
from beamcheck.checks.core.wood.stated_capacity import enough, uplift_taken
from beamcheck.errors import OutOfRange
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.model.existing import Existing
from beamcheck.model.fire import Fire
from beamcheck.model.stock import Stock
from beamcheck.provenance import Source
from beamcheck.values.lumber import read_size

from ...anchors.anchors import loaded, made
from ...anchors.anchors import stock as sawn

Data = dict[str, Any]


# ---- fire (NDS 2018 16.2) -------------------------------------------------------------------------------------------


def fire(minutes: float, *exposed: str, **more: Any) -> Fire:
    return Fire.model_validate({"minutes": minutes, "exposed": list(exposed), **more})


@pytest.mark.parametrize(
    ("minutes", "exposed", "b", "d"),
    [(60.0, ("bottom", "left", "right"), 7.5 - 3.6, 11.5 - 1.8), (60.0, ("top", "bottom", "left", "right"), 3.9, 7.9),
     (60.0, ("left",), 5.7, 11.5), (30.0, ("bottom",), 7.5, 11.5 - 1.8 * 0.5**0.813),
     (120.0, ("top",), 7.5, 11.5 - 1.8 * 2.0**0.813)],
)  # fmt: skip
def test_what_a_fire_leaves(minutes: float, exposed: tuple[str, ...], b: float, d: float) -> None:
    """1.5 in in the first hour, times the hours to the power 0.813, times 1.2: off each face that it reaches."""
    left = burnt(fire(minutes, *exposed), Section(7.5, 11.5, 7.5))
    assert (left.section.b, left.section.d, left.section.breadth_alone) == pytest.approx((b, d, b))
    assert left.a_eff == pytest.approx(1.8 * (minutes / 60.0) ** 0.813)
    turned = left_as_size(read_size("8x12 dressed"), Section(9.0, 4.0, 9.0))
    assert (turned.b, turned.d, turned.nominal_b, turned.surface) == (4.0, 9.0, None, "measured")


@pytest.mark.parametrize(
    ("b", "d", "gone"), [(3.59, 11.5, True), (3.61, 11.5, False), (7.5, 1.79, True), (7.5, 1.81, False)]
)
def test_where_nothing_is_left(b: float, d: float, gone: bool) -> None:
    burns = fire(60.0, "left", "right", "bottom")
    if not gone:
        assert burnt(burns, Section(b, d, b)).section.b > 0.0
        return
    with pytest.raises(OutOfRange, match="nothing is left") as said:
        burnt(burns, Section(b, d, b))
    assert ("2 sides of a breadth" in str(said.value)) is (b < 4.0)
    with pytest.raises(OutOfRange, match="round"):
        burnt(burns, Section(8.0, 8.0, 8.0, round=True))


def test_strengths_in_a_fire() -> None:
    """Table 16.2.2: 2.85 of bending and tension, 2.58 of compression, 2.03 of E_min; nothing else than the table's."""
    cold = made(sawn("6x12 dressed", moisture="green", measured_moisture=None, temperature="130 F"))
    hot = burning_wood(cold)
    for name, factor in (("F_b", 2.85), ("F_t", 2.85), ("F_c", 2.58), ("E_min", 2.03)):
        was, now = getattr(cold, name), getattr(hot, name)
        assert now.value == pytest.approx(factor * was.value)
        assert (now.C_M.value, now.C_t.value, now.C_r.value) == (1.0, 1.0, 1.0), name
    assert hot.F_v is cold.F_v
    assert list(without_wind([loaded("D + L"), loaded("D + 0.6W", "W")])) == [1.0, 0.0]


PAPER = "boards, engineer's sheet no. 4 of 3 May 2025"


@pytest.mark.parametrize(
    ("said", "minutes", "holds"),
    [(PAPER, 60.0, True), (f"{PAPER}, 60 min", 60.0, True), (f"{PAPER}, 59 minutes", 60.0, False),
     (f"{PAPER}, 1 h", 60.0, True), (f"{PAPER}, 1 hour", 61.0, False),
     (f"{PAPER}, 30 min, 2 hr", 90.0, False), (f"{PAPER}, 90 min, 2 hr", 90.0, True),
     (f"{PAPER}, 1 h 30 min", 90.0, True), (f"{PAPER}, 1 hour and 29 minutes", 90.0, False),
     (f"{PAPER}, 1.5 hrs", 90.0, True),
     (f"{PAPER}, 1.5 h", 90.0, True), ("gypsum board", 60.0, False), ("", 60.0, False)],
)  # fmt: skip
def test_what_lasts_as_long_as_is_asked(said: str, minutes: float, holds: bool) -> None:
    assert lasts(said, minutes) is holds


def steel(cover: float | None, said: str = "", a_eff: float = 1.8, b: float = 7.5) -> Check:
    anchor = Anchor.model_construct(name="A", manner="wood side", fire_cover=cover, fire_covered_by=said)
    return steel_check("B", anchor, fire(60.0, "bottom"), a_eff, Section(b, 11.5, b))


@pytest.mark.parametrize(
    ("cover", "verdict"),
    [(1.8, "passes"), (1.79, "fails"), (0.0, "refer"), (None, "refer"), (3.75, "passes"), (3.76, "refer")],
)
def test_wood_over_steel(cover: float | None, verdict: str) -> None:
    """As much of it as chars, 1.8 in; nowhere in a stick of 7 1/2 in is more than half of that."""
    found = steel(cover)
    assert found.verdict == verdict
    if verdict == "refer":
        assert [answer.sets[0][1] for answer in found.questions[0].answers] == ["1 13/16 in"]  # to the next sixteenth
    assert steel(cover, PAPER).verdict == "passes"
    thin = steel(None, b=3.5)  # which has that nowhere: boards
    assert "has nowhere" in thin.notes[0] and "boards of 1 13/16 in" in str(thin.questions[0].answers[0].sets[0][1])


def test_what_carries_it_stands_as_long() -> None:
    class Beam:
        name, fire = "G", None

    class Existing:
        name = "wall"

    class Bracket(Beam):
        name = "K"

    (asked,) = carrier_checks("B", [Beam(), Existing()], fire(60.0, "bottom"))
    assert asked.questions[0].answers[0].sets == (("beam.G.fire.minutes", 60.0),
                                                  ("beam.G.fire.exposed", ["bottom", "left", "right"]))  # fmt: skip
    for minutes, enough_of_it in ((60.0, True), (59.0, False)):
        Beam.fire = fire(minutes, "bottom")  # type: ignore[assignment]
        found = list(carrier_checks("B", [Beam()], fire(60.0, "bottom")))
        assert (not found) is enough_of_it
        assert enough_of_it or found[0].questions[0].answers[0].sets == (("beam.G.fire.minutes", 60.0),)
    Beam.fire = None
    assert [one.questions[0].who for one in carrier_checks("B", [Bracket()], fire(60.0, "bottom"))] == ["engineer"]


# ---- glued and composite wood -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("edition", "today", "says"),
    [
        ("renewed 3 May 2025", (2030, 5, 3), ""), ("renewed 3 May 2025", (2030, 5, 4), "over 5 years old"),
        ("2025", (2030, 12, 31), ""), ("2025", (2031, 1, 1), "over 5 years old"),
        ("valid until 3 May 2020", (2020, 5, 3), ""), ("valid until 3 May 2020", (2020, 5, 4), "is past"),
        ("renewed 3 May 2018, expires 3 May 2020", (2020, 5, 4), "is past"), ("third", (2026, 1, 1), "names no day"),
    ],
)  # fmt: skip
def test_how_long_an_edition_holds(edition: str, today: tuple[int, int, int], says: str) -> None:
    """Five years of 365 1/4 days (judgment), or to the day on which it runs out."""
    found = _long_ago(edition, datetime.date(*today))
    assert says in found and bool(found) is bool(says)


REPORT: Data = {"number": "report no. 0417", "edition": "renewed 3 May 2025", "F_b": "2600 psi", "F_v": "285 psi",
                "F_c_perp": "750 psi", "E": "2,000,000 psi", "d_0": "12 in", "power": 0.136}  # fmt: skip


def lvl(evidence: str = "stamp: plant 7, LVL 2.0E, report 0417", **report: Any) -> Stock:
    return Stock.model_validate({
        "name": "w", "made": "composite", "species": "LVL", "grade": "2.0E", "size": "1 3/4 in x 11 7/8 in",
        "moisture": "dry", "grade_from": "stamp", "evidence": evidence,
        "report": {**REPORT, "holds_by": "the maker, letter of 3 May 2026, no. 4", **report},
    })  # fmt: skip


def doubts(stock: Stock) -> list[str]:
    assert stock.report is not None
    return [one.question.field.rsplit(".", 1)[1] for one in _report_doubts(stock, stock.report)]


def test_what_is_in_doubt_of_a_report() -> None:
    """Another number, a modulus of over 1.1 times that of the make; zeros before a number are none."""
    assert doubts(lvl()) == [] and doubts(lvl("stamp: plant 7, LVL 2.0E, report 417")) == []
    assert doubts(lvl("stamp: plant 7, LVL 2.0E, report 0418")) == ["number"]
    assert doubts(lvl("stamp: plant 7, LVL 2.0E")) == ["evidence"] and doubts(lvl("")) == []
    assert doubts(lvl(E="2,200,000 psi")) == [] and doubts(lvl(E="2,210,000 psi")) == ["E"]
    assert doubts(lvl(edition="renewed 3 May 2025, to be confirmed")) == ["edition"]
    assert doubts(lvl(number="to be confirmed, 0417")) == ["number"]
    for by, asked in (("", ["holds_by"]), ("the maker, letter of 3 May 2026, no. 4", [])):
        assert doubts(lvl(edition="renewed 3 May 2012", holds_by=by)) == asked
        assert doubts(lvl(edition="renewed 3 May 2026", holds_by=by)) == []
    two = {"number": "report no. 0417, part 2"}  # its longest number is to be named, not just any
    assert doubts(lvl("stamp: plant 2, LVL 2.0E", **two)) == ["evidence"]
    assert doubts(lvl("stamp: plant 7, 0417", **two)) == []
    for E, asked in (("2,080,000 psi", []), ("2,100,000 psi", ["E"])):  # over 1.1 times 1.9 million
        assert doubts(lvl("stamp: plant 7, LVL 1.9E, report 0417", E=E)) == asked
        assert (
            doubts(lvl("stamp: LVL 1.9E, report 0417, or 1.55E", E=E)) == asked
        )  # the best of the makes that it names


def test_values_that_a_report_does_not_give() -> None:
    """E_min 0.36 of E (judgment); tension and compression that are not given carry next to nothing."""
    values = engineered_values(lvl())
    assert (values.E_min, values.F_t, values.F_c, values.F_b) == pytest.approx((0.36 * 2e6, 1.0, 1.0, 2600.0))
    given = engineered_values(lvl(E_min="1,000,000 psi", F_t="1,600 psi", F_c="2,400 psi"))
    assert (given.E_min, given.F_t, given.F_c) == (1e6, 1600.0, 2400.0)


@pytest.mark.parametrize(("wood", "low"), [("composite", True), ("composite", False), ("glulam", True)])
def test_values_of_low_confidence_are_asked_about(wood: str, low: bool) -> None:
    stock = lvl() if wood == "composite" else glulam()
    values = replace(engineered_values(stock), source=Source("x", "memory", "", "low" if low else ""))
    found = engineered_wood(stock, values, laid="on edge", sharing=None, form="beam")
    assert any(one.question.id.endswith("low_confidence") for one in found.doubts) is low


def glulam(size: str = "5 1/8 in x 18 in", **more: Any) -> Stock:
    return sawn(size, made="glulam", grade="24F-V4/DF", **more)


def wood(stock: Stock, form: str = "beam", laid: str = "on edge") -> Any:
    return engineered_wood(stock, engineered_values(stock), laid=laid, sharing=None, form=form)  # type: ignore[arg-type]


@pytest.mark.parametrize(("metered", "dry"), [("15.9 %", True), ("16 %", False), (None, True)])
def test_glued_wood_is_wet_from_sixteen_percent(metered: str | None, dry: bool) -> None:
    found = wood(glulam(measured_moisture=metered))
    assert found.dry is dry and found.K_cr.value == (1.5 if dry else 2.0) and found.c == 0.9
    assert found.F_b.C_M.value == (1.0 if dry else 0.8)  # NDS Supplement Table 5A, memory
    assert found.dead_share.value == (0.5 if dry else 1.0)  # IBC Table 1604.3 note d: of seasoned wood half
    assert wood(glulam(moisture="wet", measured_moisture=None)).dry is False


def test_where_made_wood_is_counted() -> None:
    for form, laid, counted in (("beam", "on edge", True), ("beam", "flat", False), ("post", "flat", True),
                                ("rafter", "on edge", True), ("", "on edge", False)):  # fmt: skip
        if counted:
            assert wood(glulam(), form, laid).made == "glulam"
        else:
            with pytest.raises(OutOfRange):
                wood(glulam(), form, laid)
    with pytest.raises(OutOfRange, match="composite"):
        wood(lvl(), "post")
    assert wood(lvl()).volume.d_0 == 12.0 and wood(lvl()).volume.m_V == 0.136


@pytest.mark.parametrize(("size", "few"), [("5 1/8 in x 5 1/2 in", False), ("5 1/8 in x 5.49 in", True)])
def test_a_glued_post_of_few_laminations(size: str, few: bool) -> None:
    assert bool(list(_few_laminations(glulam(size)))) is few
    assert len(wood(glulam(size), "post").doubts) - len(wood(glulam(size)).doubts) == int(few)


def test_which_face_of_an_unbalanced_layup_is_pulled() -> None:
    """24F-V4: 2,400 with its stamped face up where the top is pressed; 1,850 otherwise, or where nobody looked."""
    beam = wood(glulam())
    for up, top, value in ((True, True, 2400.0), (True, False, 1850.0), (False, True, 1850.0), (False, False, 2400.0),
                           (None, True, 1850.0)):  # fmt: skip
        found = pulled_side(beam, up, 240.0, top=top)
        assert found.F_b.value == value and found.volume is not None and found.volume.L == 240.0
    cold = made(sawn())
    assert pulled_side(cold, None, 240.0, top=True) is cold
    post = wood(glulam(), "post")
    assert post.F_b_other is None and post.F_b.value <= 1850.0


# ---- other people's walls -------------------------------------------------------------------------------------


def wall(**more: Any) -> Existing:
    return Existing.model_validate({"name": "wall", "what": "wall", "material": "masonry", "takes": "1,000 lb",
                                    "confirmed_by": "engineer, letter no. 4 of 3 May 2025", **more})  # fmt: skip


def test_what_a_wall_is_said_to_take() -> None:
    combinations = [loaded("case 1"), loaded("case 2")]
    (over,) = enough("B", "what", wall(), combinations, np.array([500.0, 1000.5]))
    assert (over.demand, over.capacity, over.verdict, over.combination) == (1000.5, 1000.0, "fails", "case 2")
    (up,) = enough("B", "what", wall(), combinations, np.array([-500.0, -10.0]))
    assert up.demand == 0.0 and enough("B", "what", wall(takes=None), combinations, np.array([500.0, 0.0])) == []


@pytest.mark.parametrize(
    ("up", "more", "verdict"),
    [
        (20.0, {}, "passes"), (20.1, {}, "refer"), (20.0, {"material": "concrete"}, "passes"),
        (20.0, {"material": "wood"}, "refer"), (20.0, {"confirmed_by": ""}, "refer"), (20.0, {"takes": None}, "refer"),
        (300.0, {"takes_uplift": "300 lb"}, "passes"), (300.1, {"takes_uplift": "300 lb"}, "fails"),
    ],
)  # fmt: skip
def test_what_may_pull_up_on_a_wall(up: float, more: Data, verdict: str) -> None:
    """A fiftieth of what a heavy wall is confirmed for downward, which its weight holds (common practice)."""
    (found,) = uplift_taken("B", "what", wall(**more), [loaded("case 1"), loaded("case 2")], np.array([0.0, up]))
    assert found.verdict == verdict
    assert math.isclose(found.demand or up, up)
