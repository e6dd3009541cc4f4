"""Rules of rafters, ties and ridges at their limits, and forces of the frame recomputed here. Invented roofs.

A 2x10 (1 1/2 x 9 1/4 in) over a run of 8 ft at 6:12, pairs 16 in apart, as in `houses.rafter`.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.checks.core.result import Check

from ..houses import Data, beam, checked, given_stock, piece, post, rafter, seat, tie
from . import test_raised_tie as raised
from . import test_upper_end as upper

RIDGE = {"name": "ridge", "what": "ridge beam", "confirmed_by": "invented sheet S-1, engineer"}
ON_BEAM: Data = {"ridge": "beam", "ridge_on": "ridge"}
LIGHT = given_stock('1 1/2" x 9 1/4"')
S = math.sin(math.atan(0.5))


def pair(about: Data | None = None, **more: Any) -> Any:
    of_tie = more.pop("tie", {})
    one = rafter(tie="T", **more)
    return checked(rafter=[one], tie=[tie(**of_tie)], stock=[LIGHT], **({"job": about} if about else {}))


def ids(result: Any, id: str, name: str = "R") -> list[Check]:
    return [one for one in piece(result, name).checks if one.id == id]


# ---- seats and cuts --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("seat", "cut", "depth", "asked"), [
    ("3 in", "1 1/2 in", 1.5, False), ("3.913 in", "1 1/2 in", 1.5, False), ("3.92 in", "1 1/2 in", 3.92 * S, True),
    ("2 in", "1 1/2 in", 1.5, False), ("3 in", None, 3.0 * S, False), (None, "1 1/2 in", 1.5, False),
])  # fmt: skip
def test_seat_and_cut_are_one_triangle(seat: str | None, cut: str | None, depth: float, asked: bool) -> None:
    """A quarter of an inch is no contradiction (judgment); beyond that the deeper of both counts in shear."""
    result = on_beam(wall={"bearing": seat}, seat_cut=cut)
    assert [one.verdict for one in ids(result, "roof.seat_closes")] == (["refer"] if asked else [])
    (shear,) = ids(result, "roof.notch_shear")
    d_n = 9.25 - depth
    F_v = (shear.capacity or 0.0) / (2 / 3 * 1.5 * d_n * (d_n / 9.25) ** 2)
    assert pytest.approx(round(F_v, 3), abs=2e-3) == F_v
    assert round(F_v / 150.0, 6) == pytest.approx(HEM_FIR_SHEAR, rel=1e-6)


HEM_FIR_SHEAR = 1.15  # 150 psi (Table 4A, read) with C_D of snow


def on_beam(**more: Any) -> Any:
    wall = dict(more.pop("wall", {}))
    one = rafter(**{**ON_BEAM, **{key: value for key, value in more.items() if value is not None}}, wall=wall)
    one["wall"] = {key: value for key, value in one["wall"].items() if value is not None}
    if "seat_cut" in more and more["seat_cut"] is None:
        del one["seat_cut"]
    return checked(rafter=[one], existing=[RIDGE])


@pytest.mark.parametrize(("cut", "fails"), [("2 5/16 in", False), ("2.32 in", True)])
def test_birdsmouth_up_to_a_quarter(cut: str, fails: bool) -> None:
    """NDS 2018 4.4.3.1: 9 1/4 in / 4 = 2 5/16 in."""
    found = [one.verdict for one in ids(on_beam(seat_cut=cut), "roof.birdsmouth")]
    assert found == (["fails"] if fails else [])


@pytest.mark.parametrize(("seat", "gone"), [("20.68 in", False), ("20.69 in", True)])
def test_seat_whose_cut_is_as_deep_as_the_rafter(seat: str, gone: bool) -> None:
    """20.684 in at 6:12 are 9 1/4 in deep."""
    found = ids(on_beam(wall={"bearing": seat}), "roof.birdsmouth")
    assert any("as deep as the rafter" in note for one in found for note in one.notes) is gone


@pytest.mark.parametrize(("wall", "l_b", "b"), [
    ({"bearing": "3 in"}, 3.0, 1.5), ({"bearing": "3 1/2 in"}, 1.5 / S, 1.5), ({"bearing": None}, 1.5 / S, 1.5),
    ({"bearing": "3 in", "bearing_width": "1 in"}, 3.0, 1.0), ({"bearing": "3 in", "bearing_width": "2 in"}, 3.0, 1.5),
])  # fmt: skip
def test_level_seat_that_counts(wall: Data, l_b: float, b: float) -> None:
    """The shorter of that given and that for which the cut leaves room; no broader than the rafter."""
    (seat,) = ids(on_beam(wall=wall), "roof.bearing")
    R = next(step.value for step in seat.steps if step.symbol == "R")
    assert seat.demand == pytest.approx(R / (l_b * b), rel=1e-6)
    theta = math.pi / 2 - math.atan(0.5)
    F_c, F_perp = 1300.0 * 1.15, 405.0  # Hem-Fir No. 2, 2x10, C_F 1.0 (Table 4A, read)
    F = F_c * F_perp / (F_c * math.sin(theta) ** 2 + F_perp * math.cos(theta) ** 2)
    assert seat.capacity == pytest.approx(F, rel=1e-4)


# ---- the ridge -------------------------------------------------------------------------------------------------------


def test_plumb_cut_against_the_board() -> None:
    """The rafters push each other with H = w L^2/8 over the rise of pairs on a tie (statics), on 1 1/2 x 9 1/4 in."""
    (check,) = ids(pair(), "roof.ridge_bearing")
    R = next(step.value for step in check.steps if step.symbol == "R")
    roof = (10.0 / math.cos(math.atan(0.5)) + 20.0) / 144 * 16 * 96  # one slope, dead load along it, lb
    own = 27.5 / 1728 * 1.5 * 9.25 * 96 / math.cos(math.atan(0.5))
    assert pytest.approx((roof + own) * 96 / 2 / 48.0, rel=0.05) == R
    assert check.demand == pytest.approx(R / (1.5 * 9.25)) and check.capacity == pytest.approx(405.0)


# ---- ties ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("spacing", "asked"), [("16 in", False), ("16.1 in", True), ("12 in", False)])
def test_a_tie_at_each_pair(spacing: str, asked: bool) -> None:
    found = [one.verdict for one in ids(pair(tie={"spacing": spacing}), "tie.spacing", "T")]
    assert found == (["refer"] if asked else [])


@pytest.mark.parametrize(("said", "verdict"), [(True, "passes"), (False, "fails"), (None, "refer")])
def test_ends_of_a_tie_upright(said: bool | None, verdict: str) -> None:
    of_tie = {} if said is None else {"ends_upright": said}
    assert [one.verdict for one in ids(pair(tie=of_tie), "tie.ends_upright", "T")] == [verdict]


def test_a_ceiling_joist_bears_half_of_what_hangs_on_it() -> None:
    """10 psf over 16 ft and 16 in, and itself, on 1 1/2 by 1 1/2 in of plate (IRC R502.6, memory)."""
    load = {"what": "ceiling", "dead": "10 psf", "width": "16 in"}
    found = pair(tie={"ends_rest_on": "wall", "carries": [load]})
    (check,) = ids(found, "tie.bearing", "T")
    R = next(step.value for step in check.steps if step.symbol == "R")
    own = R * 2 - 10 / 144 * 16 * 192
    assert 0.0 < own < 70.0 and check.demand == pytest.approx(R / 1.5**2)


@pytest.mark.parametrize(("highest", "lowest", "fails"), [
    ("2.175 in", "5 in", False), ("2.18 in", "5 in", True), ("2 in", "7.25 in", False), ("2 in", "7.26 in", True),
])  # fmt: skip
def test_fasteners_of_a_raised_tie(highest: str, lowest: str, fails: bool) -> None:
    """Above the lower 70 % of 7 1/4 in: from 2.175 in under the top; and in the rafter (judgment, 3.8.2)."""
    data = raised.roof(heights={"highest": highest, "lowest": lowest})
    found = [one for one in next(p for p in raised.checked(data).pieces if p.name == "rafters").checks
             if one.id == "roof.tie_on_rafter"]  # fmt: skip
    assert ("fails" in [one.verdict for one in found]) is fails


# ---- seats on a ridge beam -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("bearing", "verdict"), [
    ("2 3/4 in", ""), ("2.76 in", "refer"), ("5 1/2 in", "refer"), ("5.51 in", "fails"),
])  # fmt: skip
def test_room_for_two_seats_on_the_ridge_beam(bearing: str, verdict: str) -> None:
    """5 1/2 in for both of a pair, unless they lap."""
    data = upper.roof({"bearing": bearing, "restrained": True}, pair=True)
    found = [one.verdict for one in upper.piece(data).checks if one.id == "roof.ridge_room"]
    assert found == ([verdict] if verdict else [])
    alone = upper.roof({"bearing": bearing, "restrained": True}, pair=False)
    found = [one.verdict for one in upper.piece(alone).checks if one.id == "roof.ridge_room"]
    assert found == (["fails"] if verdict == "fails" else [])


# ---- snow ------------------------------------------------------------------------------------------------------------

BY = "building department, letter of 3 May 2025"


def snow(slope: str = "6:12", run: str = "8 ft", ground: str | None = "20 psf", one_side: str | None = None,
         tail: str = "0 ft") -> Check:  # fmt: skip
    from beamcheck.checks.job import check_job
    from beamcheck.model.reading.reader import job_from_data

    from ..houses import job

    one = rafter(tie="T", slope=slope, run=run, wall={"at": tail})
    data = job(rafter=[one], tie=[tie()])
    data["job"] |= {"snow": {"by": BY, "higher": "nothing", "slides": "nothing"}}
    if ground is not None:
        data["job"]["ground_snow"] = ground
    if one_side is not None:
        data["job"]["snow"]["one_side"] = one_side
    (check,) = ids(check_job(job_from_data(data)), "roof.snow_one_side")
    return check


@pytest.mark.parametrize(("slope", "asked"), [
    ("2.38 deg", True), ("2.37 deg", False), ("30.256 deg", True), ("30.26 deg", False),
])  # fmt: skip
def test_slopes_with_snow_on_one_side(slope: str, asked: bool) -> None:
    """1/2:12 to 7:12 (ASCE 7-16 7.6.1)."""
    assert ("not asked for" not in snow(slope).notes[0]) is asked


@pytest.mark.parametrize(("run", "tail", "even"), [
    ("20 ft", "0 ft", True), ("20 ft 1/16 in", "0 ft", False), ("19 ft", "13.4 in", True), ("19 ft", "13.5 in", False),
])  # fmt: skip
def test_roofs_up_to_twenty_feet_bear_it_evenly(run: str, tail: str, even: bool) -> None:
    """From eave to ridge on plan: 12 in of tail are 13.416 in along 6:12."""
    check = snow(run=run, tail=tail)
    assert (check.verdict != "refer") is even
    if even:
        assert check.demand == pytest.approx(20 / 144) and check.capacity == pytest.approx(20 / 144)


def test_lee_side_as_somebody_says_and_where_no_snow_falls() -> None:
    said = snow(one_side="15 psf")
    assert said.demand == pytest.approx(15 / 144) and said.capacity == pytest.approx(20 / 144)
    assert "no snow falls" in snow(ground="0 psf").notes[0]
    nobody = snow(ground=None)
    assert nobody.verdict == "refer" and nobody.questions[0].field == "job.ground_snow"


# ---- what a rafter hands on ------------------------------------------------------------------------------------------


def onto(wall: Data, **more: Any) -> Any:
    """Rafters whose feet stand on a beam of 12 ft."""
    held = beam(seat("0 ft", "wall"), seat("12 ft", "wall"), carries=[], service="roof", in_a_row=False)
    one = rafter(ridge="beam", ridge_on="ridge", wall={"on": "B", **wall}, **more)
    return checked(rafter=[one], beam=[held], existing=[RIDGE])


def puts_on(result: Any, first: str = "R") -> list[str]:
    (table,) = [one for one in result.tables if one.title == "Load path"]
    return [row[1] for row in table.rows if row[0] == first]


@pytest.mark.parametrize(("wall", "words"), [({}, "B, every 16 in"), ({"lands_at": "4 ft"}, "B")])
def test_a_rafter_stands_for_its_row_unless_its_place_is_named(wall: Data, words: str) -> None:
    """A row is an even load on the beam, R/16 in; one rafter at 4 ft a force there (statics)."""
    result = onto(wall)
    assert puts_on(result) == [words, "ridge, every 16 in"]
    (foot,) = ids(result, "roof.bearing")
    R = next(step.value for step in foot.steps if step.symbol == "R")
    bent = next(one for one in piece(result, "B").checks if one.id == "beam.bending")
    M = next(step.value for step in bent.steps if step.symbol == "M")
    own = 34.0 / 1728 * 5.5 * 11.5 * 144**2 / 8  # Douglas Fir at 15 % weighs about 34 pcf
    brought = R * 48 * 96 / 144 if wall else R / 16 * 144**2 / 8
    assert brought < M < brought + 1.1 * own


def test_one_rafter_on_a_post_is_one() -> None:
    posts = [post(name="P", stock="6x6", carries=[])]
    one = rafter(ridge="beam", ridge_on="ridge", wall={"on": "P"})
    assert puts_on(checked(rafter=[one], post=posts, existing=[RIDGE])) == ["P", "ridge, every 16 in"]


@pytest.mark.parametrize(("pair", "sides"), [(True, 2.0), (False, 1.0)])
def test_a_ridge_beam_takes_both_slopes_of_a_pair(pair: bool, sides: float) -> None:
    result = checked(rafter=[rafter(**ON_BEAM, pair=pair)], existing=[RIDGE])
    (table,) = [one for one in result.tables if one.title == "Load path"]
    foot, head = (float(row[3].split()[0].replace(",", "")) for row in table.rows if row[0] == "R")
    assert head == pytest.approx(sides * foot, rel=0.02)  # without a tail both ends of the rafter carry alike


@pytest.mark.parametrize(("said", "words"), [
    ("", "how they are fastened is not said"), ("glue", "is not said by 'glue': fasteners with their size or spacing"),
])  # fmt: skip
def test_what_is_said_of_the_fastening_of_plies(said: str, words: str) -> None:
    found = checked(rafter=[rafter(plies=2, **({"plies_fastened": said} if said else {}))])
    (check,) = [one for one in piece(found, "R").checks if one.id == "roof.plies"]
    assert check.verdict == "refer" and check.notes[0].endswith(words)


@pytest.mark.parametrize(("slope", "limit"), [("3:12", 240), ("3.01:12", 180)])
def test_rafters_steeper_than_three_in_twelve_may_sag_more(slope: str, limit: int) -> None:
    """L/180 instead of L/240 where no ceiling hangs on them (IRC R301.7, memory); L along the slope."""
    found = piece(checked(rafter=[rafter(slope=slope)]), "R").checks
    (sag,) = [one for one in found if one.id == "beam.deflection.snow"]
    rise = float(slope.split(":")[0])
    assert sag.capacity == pytest.approx(96.0 * math.hypot(1.0, rise / 12.0) / limit)
