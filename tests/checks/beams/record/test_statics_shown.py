"""The closed forms that a sheet shows for a simple beam, and where it shows stations instead. Figures by hand."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.core.statics import Statics

from ..beams import beam, floor, known, result_of, seat

L, E, I_X = 144.0, 1.4e6, 6 * 12**3 / 12  # 6x12 in over 12 ft
OWN, GA = 5 / 1728 * 72, E / 16 * 5 / 6 * 72
WOOD = known("6 in x 12 in", F_b=4000, F_v=800)


def statics(**more: Any) -> Statics:
    usual = {"carries": [floor(dead="10 psf", live="40 psf", width="6 ft", snow="20 psf")]}
    found = result_of(beam(**{**usual, **more}), wood=WOOD).statics
    assert found is not None
    return found


def sag(w: float) -> float:
    """Of bending at 1.03 E and of shear, in."""
    return 5 * w * L**4 / (384 * 1.03 * E * I_X) + w * L**2 / (8 * GA)


def test_closed_forms_of_an_even_load() -> None:
    """D + 0.75 L + 0.75 S = 60 + 180 + 90 lb/ft against D + L = 300: w L/2, w L^2/8; each kind sags for itself."""
    lines = {one.symbol: one.value for one in statics().lines}
    w = (10 + 0.75 * 40 + 0.75 * 20) * 6 / 12 + OWN
    assert lines == {symbol: pytest.approx(value, rel=1e-6) for symbol, value in (
        ("w", w), ("R", w * L / 2), ("M", w * L**2 / 8), ("Delta_D", sag(5 + OWN)), ("Delta_L", sag(20)),
        ("Delta_S", sag(10)))}  # fmt: skip


@pytest.mark.parametrize(("more", "why"), [
    ({"supports": [seat("0 ft"), seat("6 ft"), seat("12 ft")]}, "more than one span"),
    ({"supports": [seat("0 ft"), seat("10 ft")], "length": "12 ft"}, "reaches beyond a support"),
    ({"supports": [seat("2 ft"), seat("12 ft")], "length": "12 ft"}, "reaches beyond a support"),
    ({"carries": [floor(live="900 lb", moves=True)]}, "a load moves"),
    ({"carries": [floor(wind="40 plf")]}, "wind acts"),
    ({"carries": [floor(live="40 plf", to="11 ft")]}, "not uniform"),
    ({"carries": [floor(live="40 plf", **{"from": "1 ft"})]}, "not uniform"),
    ({"carries": [floor(live="900 lb", at="6 ft", bearing="4 in")]}, "not uniform"),
])  # fmt: skip
def test_where_no_closed_form_holds_stations_stand(more: Any, why: str) -> None:
    found = statics(**more)
    assert not found.lines and why in found.words and found.stations is not None and found.stations.rows
