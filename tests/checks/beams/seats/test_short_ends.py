"""Ends that reach a hair beyond their support, by rounding of units or as sawn: the beam is solved all the same."""

from __future__ import annotations

import pytest

from beamcheck.checks.beams.seats import solved_at

from ..beams import LONG, SAWN, Data, beam, find, floor, known, result_of, seat, step

WOOD = known("4 in x 12 in", F_b=9000, F_v=1900, F_c_perp=4900)
OWN = 5 / 1728 * 48  # lb/in
SHORT = ("0.005 in", "0.01 in", "0.02 in", "1 mm", "1/16 in", "5 mm", "1/4 in", "2 in")
SPANS = ((36, 1), (144, 2), (262, 1), (262, 3), (1200, 1))  # in, and how many of them


def inches(text: str) -> float:
    """What a text of these says."""
    amount, unit = text.split()
    top, _, below = amount.partition("/")
    return float(top) / float(below or 1) / (25.4 if unit == "mm" else 1.0)


def reaching(left: float, span: float, many: int, right: float, **more: object) -> Data:
    """Even load on some spans, and this much beyond the first and the last support; in."""
    supports = [seat(f"{left + i * span!r} in", bearing="3 in", **more) for i in range(many + 1)]
    ends = {"length": f"{left + many * span + right!r} in", "meant": {**SAWN, **LONG}}
    return beam(supports=supports, carries=[floor(dead="132 plf")], **ends)


@pytest.mark.parametrize("short", SHORT)
def test_a_beam_with_short_ends_stands(short: str) -> None:
    """M = w (s^2/8 - ...) is w s^2/8 of one span but for (e/s)^2; the supports take no less than what lies on it."""
    e, turn = inches(short), SHORT.index(short)
    ways = ((e, 0.0), (0.0, e), (2 * e, e), (24.0, e))
    for number, (span, many) in enumerate(SPANS):
        left, right = ways[(number + turn) % 4]
        found = result_of(reaching(left, span, many, right), wood=WOOD)
        assert "beam.stands" not in {check.id for check in found.checks}, (span, many, left, right)
        taken = sum(step(find(found, f"bearing at support {i} on wall"), "R") for i in range(1, many + 2))
        assert taken >= (11 + OWN) * (left + many * span + right) * (1 - 1e-3), (span, many, left, right)
        if many == 1 and left != 24.0:
            most, near = (11 + OWN) * span**2 / 8, 2e-3 + (3 * e / span) ** 2
            assert step(find(found, "bending"), "M") == pytest.approx(most, rel=near)


@pytest.mark.parametrize(("x", "solved"), [(0.0287, 0.0), (0.0289, 0.0289), (143.9713, 144.0), (143.9711, 143.9711)])
def test_what_reaches_a_five_thousandth_of_the_length_beyond_is_no_end(x: float, solved: float) -> None:
    """0.0288 in of 12 ft."""
    assert solved_at(x, 144.0) == solved
