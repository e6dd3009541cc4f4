"""What fails over the span from middle to middle says what it would be over that of NDS 2018 3.2.1: clear, and half the
bearing length needed at each end (read). A beam of 6 x 12 in and 13 ft, worked out by statics.
"""

from __future__ import annotations

import pytest

from beamcheck.api import check_text
from beamcheck.checks.core.result import Check

from ..beams import SAWN, Data, beam, find, floor, known, result_of, seat

W, LONG = 800 / 12 + 5 / 1728 * 72, 156.0  # lb/in with the weight of the wood, in
OVER = "over the clear span and half the bearing length needed at each end (NDS 2018 3.2.1)"


def bending(*seats: Data, **more: str) -> Check:
    load = floor(**{"dead": "800 plf", **more})
    piece = result_of(
        beam(supports=list(seats), length="13 ft", carries=[load], meant=SAWN), wood=known("6 in x 12 in")
    )
    return find(piece, "bending")


def pressed(left: float, right: float) -> tuple[float, float]:
    """What the two seats take, lb."""
    second = W * LONG * (0.5 * LONG - left) / (right - left)
    return W * LONG - second, second


def ratio(left: float, right: float) -> float:
    """Largest moment between the seats over S = 144 in3 and 0.9 of 1,000 psi."""
    first, _ = pressed(left, right)
    return (first * (first / W - left) - W * (first / W) ** 2 / 2) / 144 / 900


@pytest.mark.parametrize(("left", "right", "moves"), [
    ({"bearing": "12 in"}, {"bearing": "12 in"}, (6.0, 6.0)), ({"bearing": "10 in"}, {"bearing": "8 in"}, (6.0, 6.0)),
    ({"bearing": "12 in", "bearing_width": "3 in"}, {"bearing": "12 in"}, (3.0, 6.0)),
    ({"bearing": "12 in"}, {"bearing": "12 in", "holds": "hung"}, (6.0, None)),
    ({"bearing": "12 in"}, {"bearing": None}, (6.0, None)), ({"bearing": "12 in"}, {"bearing": "2 in"}, (6.0, None)),
])  # fmt: skip
def test_over_the_span_of_the_standard(left: Data, right: Data, moves: tuple[float | None, float | None]) -> None:
    """An end moves in by half of what its seat is longer than the reaction needs at 400 psi; nothing else moves."""
    at, ends = (6.0, 150.0), []
    for one, place, b, force, way in zip((left, right), at, moves, pressed(*at), (1, -1), strict=True):
        spare = 0.0 if b is None else float(one["bearing"].split()[0]) - force / (400 * b)
        ends.append(place + way * max(0.5 * spare, 0.0))
    seats = [{key: value for key, value in {**seat(f"{place} in"), **one}.items() if value is not None}
             for place, one in zip(at, (left, right), strict=True)]  # fmt: skip
    found = bending(*seats)
    assert found.ratio == pytest.approx(ratio(*at))
    assert f"{OVER} it is at {ratio(*ends):.3g}" in found.notes[-1]


def test_a_support_that_is_no_end_does_not_move() -> None:
    """4 ft go on beyond the right one: only the left end moves."""
    found = bending(seat("6 in", bearing="12 in"), seat("108 in", bearing="12 in"))
    force, _ = pressed(6.0, 108.0)
    assert found.verdict == "passes" and OVER not in " ".join(found.notes)
    heavy = bending(seat("6 in", bearing="12 in"), seat("108 in", bearing="12 in"), dead="3000 plf")
    assert heavy.verdict == "fails"
    w = 3000 / 12 + 5 / 1728 * 72
    first = w / W * force
    left = 6.0 + 0.5 * (12 - first / 2400)
    first = w * LONG * (108.0 - 0.5 * LONG) / (108.0 - left)
    below = w * 48.0**2 / 2  # over the right support the overhang pulls more than the span presses
    between = first * (first / w - left) - w * (first / w) ** 2 / 2
    assert f"{OVER} it is at {max(between, 0.0) / 144 / 900:.3g}" in heavy.notes[-1] and below > between


def test_what_passes_and_seats_without_spare_length_say_nothing_of_it() -> None:
    light = bending(seat("6 in", bearing="12 in"), seat("150 in", bearing="12 in"), dead="100 plf")
    assert light.verdict == "passes" and OVER not in " ".join(light.notes)
    short = bending(seat("6 in", bearing="2 in"), seat("150 in", bearing="2 in"))
    assert short.verdict == "fails" and OVER not in " ".join(short.notes)


def test_where_every_check_of_the_span_fails_each_says_it() -> None:
    """Weak in shear and soft as well: 12 ft over seats of 12 in, and no overhang with a check that could pass."""
    seats = [seat("0 ft", bearing="12 in"), seat("12 ft", bearing="12 in")]
    result = result_of(beam(supports=seats, carries=[floor(dead="800 plf")], meant=SAWN),
                       wood=known("6 in x 12 in", F_v=40, E=2e5, E_min=1e5))  # fmt: skip
    found = [one for one in result.checks if one.id.startswith(("beam.bending", "beam.shear", "beam.deflection"))]
    assert [(one.what, one.verdict) for one in found] == [
        ("bending", "fails"), ("shear", "fails"), ("total deflection", "fails")]  # fmt: skip
    first = W * 144 / 2
    left = 0.5 * (12 - first / 2400)
    moment = first * (72 - left) - W * 72**2 / 2
    assert f"{OVER} it is at {moment / 144 / 900:.3g}" in found[0].notes[-1]
    assert all(OVER in one.notes[-1] for one in found)


HARDLY_LONGER = """
[job]
title = "Test (invented)"
standard = "NDS 2018"
loads = "ASCE 7-16"
[[stock]]
name = "wood"
species = "Eastern Hemlock-Tamarack"
grade = "No.1"
size = '7 1/2" x 9 1/2"'
moisture = "green"
grade_from = "stamp"
evidence = "invented stamp, mill 12"
[[existing]]
name = "wall"
what = "stud walls"
material = "wood"
F_c_perp = "405 psi"
takes = "15,000 lb"
confirmed_by = "letter of the engineer, 3 May 2025"
[[beam]]
name = "beam"
stock = "wood"
service = "floor"
finish = "plaster"
top_held = "full length"
supports = [
  { at = "0 in",  on = "wall", bearing = "3 1/2 in", restrained = true },
  { at = "SPAN", on = "wall", bearing = "3 1/2 in", restrained = true },
]
carries = [
  { what = "D", dead = "396 plf", applied = "top" },
  { what = "L", live = "305 plf", applied = "top" },
  { what = "Lr", roof_live = "326 plf", applied = "top" },
]
"""


@pytest.mark.parametrize("span", [261, 262, 263])
def test_a_seat_that_is_hardly_longer_than_needed_leaves_a_beam_that_stands(span: int) -> None:
    """An overhang of 0.01 in beside a span of 262 in was more than the solver balances: the beam "did not stand"."""
    (found,) = check_text(HARDLY_LONGER.replace("SPAN", f"{span} in")).pieces
    assert "beam.stands" not in {check.id for check in found.checks}
