"""Small values beside the split test: reach of a head, dowel, washer; from load to shape (the reference: derived)."""

from __future__ import annotations

import math

import pytest

from beamcheck.analysis.splits.holds import Held, Row, Seat
from beamcheck.analysis.splits.split import allowed
from beamcheck.formulas.brackets.split import head_reach
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


@pytest.mark.parametrize(
    ("P", "H", "leg", "parts", "lag", "at", "ratio"),
    [(8.0, 11.2, 3.0, (0.2, 0.65), LAG4, 6.0, 0.546939), (10.0, 14.0, 3.8, (0.15, 0.42, 0.7), LAG3, 7.5, 0.536905)],
)
def test_from_load_to_shape(
    P: float, H: float, leg: float, parts: tuple[float, ...], lag: dict[str, float], at: float, ratio: float
) -> None:
    """BC098, BC099: load allowed over the sum of the sideways values, heads in counterbores of 3/4 in."""
    shape = {"soffit": "straight", "H": H, "P": P, "a": leg, "b": leg}
    rows = []
    for part in parts:
        y = part * H
        front = P if y <= leg else P - (y - leg) / (H - leg) * (P - leg)
        rows.append(Row(y=y, head=front - 0.75, **{**lag, "T": max(lag["T"], 4.0 * lag["Z"])}))
    seat = Seat(at - 1.0, at + 1.0, at + 2.0 / 6.0)
    held = Held(outline(shape), 3.5, H, (seat,), tuple(rows), 180.0, 625.0, 625.0, 0.18)
    grain = math.degrees(math.atan2(H, P))
    found = allowed(held, grain, 7.0, 1.3, 40).load / sum(row.Z for row in rows)
    assert found == pytest.approx(ratio, rel=0.12)
    assert found >= 0.45  # what the search for a shape counts on
