"""Small values beside the split test: reach of a head, dowel, washer; from load to shape (the reference: derived)."""

from __future__ import annotations

import math

import pytest

from beamcheck.analysis.splits.holds import Held, Row, Seat
from beamcheck.analysis.splits.split import allowed
from beamcheck.formulas.brackets.split import dowel_across_a_gap, dowel_bearing_force, head_reach, strength_over_time
from beamcheck.formulas.connections.dowel_bearing import dowel_bearing_perpendicular
from beamcheck.formulas.connections.washer import round_washer_area, washer_bearing
from beamcheck.formulas.wood.bearing import bearing_at_angle

from .shapes import LAG3, LAG4, outline


@pytest.mark.parametrize(
    ("grain", "head", "y", "at", "reach"),
    [(59.0, 9.95, 2.5, 8.0, 2.95907), (59.0, 2.0, 10.0, 8.0, 0.00737694), (90.0, 3.0, 9.0, 10.5, -7.5),
     (46.5, 2.0, 20.0, 21.67, -0.501022)],
)  # fmt: skip
def test_reach_of_a_head(grain: float, head: float, y: float, at: float, reach: float) -> None:
    """BC046 to BC049."""
    assert float(head_reach(head, at, y, grain)) == pytest.approx(reach, rel=0.005, abs=1e-5)


@pytest.mark.parametrize(("grain", "pull"), [(90.0, 1010.51), (59.0, 1195.5)])
def test_what_a_washer_bears(grain: float, pull: float) -> None:
    """BC055, BC056: Hankinson at the grain angle, since the pull is level."""
    F = bearing_at_angle(1500.0, 625.0, grain)
    assert float(washer_bearing(F, round_washer_area(1.5, 0.4375))) == pytest.approx(pull, rel=0.005)


STRUT2, STRUT3, LEVEL4 = (0.2, 0.65), (0.15, 0.42, 0.7), (0.08, 0.26, 0.45, 0.7)
BOLT = {"T": 2000.0, "Z": 350.0, "q": 316.0, "M": 234.0, "washer": 2.0}


@pytest.mark.parametrize(
    ("soffit", "P", "H", "leg", "parts", "lag", "at", "ratio", "counts_on"),
    [
        ("straight", 8.0, 11.2, 3.0, STRUT2, LAG4, 6.0, 0.546939, 0.45),
        ("straight", 10.0, 14.0, 3.8, STRUT3, LAG3, 7.5, 0.536905, 0.45),
        ("block", 12.0, 19.2, 0.0, STRUT2, BOLT, 9.0, 0.600571, 0.5),
        ("level", 10.0, 14.0, 3.8, LEVEL4, LAG4, 7.5, 0.515816, 0.45),
    ],
)  # fmt: skip
def test_from_load_to_shape(
    soffit: str, P: float, H: float, leg: float, parts: tuple[float, ...], lag: dict[str, float], at: float,
    ratio: float, counts_on: float,
) -> None:  # fmt: skip
    """BC098 to BC101: load allowed over the sum of the sideways values, heads in bores of 3/4 in; level: deep."""
    shape = {"soffit": "block" if soffit == "block" else "straight", "H": H, "P": P, "a": leg, "b": leg}
    rows = []
    for part in parts:
        y = part * H
        front = P if soffit == "block" or y <= leg else P - (y - leg) / (H - leg) * (P - leg)
        head = 3.0 if soffit == "level" else front - 0.75
        rows.append(Row(y=y, head=head, **{**lag, "T": max(lag["T"], 4.0 * lag["Z"])}))
    seat = Seat(at - 1.0, at + 1.0, at + 2.0 / 6.0)
    held = Held(outline(shape), 3.5, H, (seat,), tuple(rows), 180.0, 625.0, 625.0, 0.18)
    grain = {"straight": math.degrees(math.atan2(H, P)), "block": 90.0, "level": 0.0}[soffit]
    found = allowed(held, grain, 7.0, 1.3, 40).load / sum(row.Z for row in rows)
    assert found == pytest.approx(ratio, rel=0.12)
    assert found >= counts_on  # what the search for a shape counts on


@pytest.mark.parametrize(
    ("q", "M", "gap", "force"),
    [
        (270.0, 35.0, 0.0, 137.477),
        (316.0, 95.0, 0.0, 245.031),
        (270.0, 35.0, 0.5, 85.6543),
        (316.0, 234.0, 1.0, 257.755),
    ],
)
def test_a_dowel_from_wood_to_wood(q: float, M: float, gap: float, force: float) -> None:
    """BC050 to BC053."""
    assert float(dowel_across_a_gap(q, M, gap)) == pytest.approx(force, rel=0.005)


def test_a_dowel_on_wood() -> None:
    """BC054, with the bearing strength as the standard's table prints it, to 50 psi: 3,650 for 3,646."""
    F_e = float(dowel_bearing_perpendicular(0.5, 0.375))
    assert float(dowel_bearing_force(F_e, 0.375, 5.0, 1.0)) == pytest.approx(273.453, rel=0.005)


def test_strength_over_time() -> None:
    """BC067, BC068: over that at ten years, which has 0.62 of five minutes (read)."""
    ten_years = float(strength_over_time(10 * 365.25 * 24.0))
    assert float(strength_over_time(24.0)) / ten_years == pytest.approx(1.32653, rel=0.005)
    assert float(strength_over_time(1.0)) / ten_years == pytest.approx(1.49041, rel=0.005)
    assert ten_years / float(strength_over_time(1 / 12)) == pytest.approx(0.62, abs=0.02)
