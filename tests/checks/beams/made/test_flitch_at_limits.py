"""Flitch beams at the limits of their distances; several kinds of load, wet wood and heat on their bolts. By hand.

Bolts of 1/2 in: 4 D = 2 in from edges, ends and in a row, 1 1/2 D from the edge of the plate, 5 D from row to row (NDS
2018 12.5.1, AISC 360-16 J3.4; memory). The plate is 1/2 x 11 in between two of 1 1/2 x 11 1/4 in.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from beamcheck.checks.core.result import Check

from ..beams import Data, find, floor, result_of, seat
from .test_flitch import E_S, E_W, F_Y, I_S, I_W, WOOD, flitch

SHARE = E_S * I_S / (E_S * I_S + E_W / 1.5 * I_W)
SEATS = {"supports": [seat("0 ft", bearing="5 1/2 in"), seat("16 ft", bearing="5 1/2 in")],
         "carries": [floor(dead="12 psf", live="40 psf", width="4 ft")]}  # fmt: skip


def of(id: str, plate: Data | None = None, wood: Data = WOOD, **more: Any) -> list[Check]:
    made = flitch(plate, **{**SEATS, **more})
    made["flitch"] = {key: value for key, value in made["flitch"].items() if value is not None}
    return [one for one in result_of(made, wood=wood).checks if one.id == id]


@pytest.mark.parametrize(("plate", "words"), [
    ({"edge": "2 in", "row_spacing": "5 in"}, ""), ({"edge": "1.99 in", "row_spacing": "5 in"}, "edge of the wood"),
    ({"spacing": "2 in"}, ""), ({"spacing": "1.99 in"}, "in a row"), ({"end": "2 in"}, ""),
    ({"end": "1.99 in", "end_bolts": 2}, "from the end"),
    ({"depth": "6.75 in"}, ""), ({"depth": "6.74 in"}, "edge of the plate"),  # 3 - (11.25 - 6.75)/2 = 0.75 in
    ({"row_spacing": "2 1/2 in"}, ""), ({"row_spacing": "2.49 in"}, "from row to row"),
    ({"row_spacing": "5 1/4 in"}, ""), ({"row_spacing": "5.26 in"}, "do not fit"),  # 11.25 - 2 x 3
    ({"rows": 1, "row_spacing": None, "edge": "5 5/8 in", "end_bolts": 1}, ""),
])  # fmt: skip
def test_distances_of_bolts_and_plate(plate: Data, words: str) -> None:
    (found,) = of("beam.flitch", plate)
    assert (found.verdict, words in found.notes[0]) == ("fails" if words else "passes", True)


@pytest.mark.parametrize(("plate", "seat_", "words"), [
    ({"spacing": "2.5 in"}, "5 1/2 in", ""), ({"spacing": "2.49 in"}, "5 1/2 in", "in a row"),
    ({"end_bolts": 4}, "4 1/2 in", ""), ({"end_bolts": 4}, "4.49 in", "do not stand over it"),
])  # fmt: skip
def test_bolts_through_plies_of_three_and_a_half_inches(plate: Data, seat_: str, words: str) -> None:
    """l/D = 7: rows of bolts that are loaded across the grain stand 5 D apart along it (NDS 2018 Table 12.5.1D)."""
    supports = [seat("0 ft", bearing=seat_), seat("16 ft", bearing=seat_)]
    (found,) = of("beam.flitch", plate, {**WOOD, "size": "4x12"}, supports=supports)
    assert (found.verdict, words in found.notes[0]) == ("fails" if words else "passes", True)


@pytest.mark.parametrize(("plate", "turns"), [
    ({"spacing": "34.7 in"}, False), ({"spacing": "34.9 in"}, True),
    ({"spacing": "8.6 in", "thickness": "1/4 in"}, False), ({"spacing": "8.8 in", "thickness": "1/4 in"}, True),
])  # fmt: skip
def test_a_plate_turns_over_between_bolts_that_stand_far_apart(plate: Data, turns: bool) -> None:
    """L_b d/t^2 up to 1.9 E/F_y = 1,530.6 (AISC 360-16 eq. F11-2 at M_y, memory): 34.8 in of 1/2 in, 8.7 of 1/4 in."""
    (found,) = of("beam.flitch", plate)
    assert ("may turn over" in found.notes[0]) is turns


def test_kinds_of_load_on_the_bolts_add_up_by_their_factors() -> None:
    """D + 0.75 L + 0.75 S of 4 ft of 12, 40 and 60 psf, and its own weight: along the beam and over its seats."""
    loads = [floor(dead="12 psf", live="40 psf", snow="60 psf", width="4 ft")]
    (along,) = [one for one in of("beam.flitch.bolts", carries=loads) if one.what == "bolts into the plate"]
    (light,) = [one for one in of("beam.flitch.bolts", carries=[floor(dead="12 psf", width="4 ft")])
                if one.what == "bolts into the plate"]  # fmt: skip
    assert along.demand is not None and light.demand is not None
    assert along.demand - light.demand == pytest.approx(0.75 * (40 + 60) * 4 / 12 * SHARE, rel=1e-6)
    assert along.combination == "D + 0.75 L + 0.75 S"
    ends = [one for one in of("beam.flitch.bolts", carries=loads) if one.what.startswith("bolts over")]
    assert [one.demand for one in ends] == pytest.approx([along.demand * 96] * 2, rel=1e-6)


def test_what_lifts_pulls_on_the_bolts_as_well() -> None:
    load = [floor(what="roof", dead="12 psf", snow="1 psf", wind="-200 psf", width="4 ft")]
    (along,) = [one for one in of("beam.flitch.bolts", carries=load, service="roof") if "into" in one.what]
    over = [one for one in of("beam.flitch.bolts", carries=load, service="roof") if "over" in one.what]
    assert along.combination.startswith(("D + 0.6W", "D + 0.6 W", "0.6D", "0.6 D")) and over[0].demand
    assert along.demand is not None and along.demand > 0.6 * 200 * 4 / 12 * SHARE


GREEN = {"evidence": WOOD["evidence"].replace("S-DRY", "S-GRN")}
ONE_ROW = {"rows": 1, "row_spacing": None, "edge": "5 5/8 in", "end_bolts": 1}


@pytest.mark.parametrize(("wood", "plate", "factor"), [
    ({}, None, 1.0), ({"moisture": "wet", **GREEN}, None, 0.7), ({"temperature": "120 F"}, None, 0.8),
    ({"moisture": "green", **GREEN}, None, 0.4), ({"moisture": "green", **GREEN}, ONE_ROW, 0.7),
])  # fmt: skip
def test_wet_wood_and_heat_on_the_bolts(wood: Data, plate: Data | None, factor: float) -> None:
    """C_t 0.8 dry at 120 F; C_M 0.7 of bolts in wood that stays wet, 0.4 of rows in wood that dries in its place: what
    is put in green may do either (NDS 2018 Tables 11.3.3, 11.3.4; memory)."""
    cold, now = (next(one for one in of("beam.flitch.bolts", plate, wood={**WOOD, **more}) if "into" in one.what)
                 for more in ({}, wood))  # fmt: skip
    assert now.capacity == pytest.approx(factor * (cold.capacity or 0.0))


def test_the_plate_at_first_yield() -> None:
    """F_y I/(h/2)/1.67 of the plate less its holes, and its share of M."""
    found = find(result_of(flitch(**SEATS), wood=WOOD), "bending of the plate")
    assert found.capacity == pytest.approx(F_Y * I_S / 5.5 / 1.67) and math.isfinite(found.ratio or math.inf)


@pytest.mark.parametrize(("more", "words"), [
    ({}, ""), ({"fire": {"minutes": 60, "exposed": ["bottom"]}}, "in a fire"),
    ({"supports": [seat("2 ft"), seat("14 ft")], "length": "16 ft"}, "overhanging"),
    ({"supports": [{**seat("0 ft"), "holds": "fixed"}, seat("16 ft")]}, "clamped"),
])  # fmt: skip
def test_flitch_beams_for_an_engineer(more: Data, words: str) -> None:
    found = [one for one in of("beam.flitch", **more) if one.verdict == "refer"]
    assert [words in one.notes[0] for one in found] == ([True] if words else [])
