"""A beam with a bracket acting as a prop under it: ends that lift, hogging, stresses that grow, seats that get more."""

from __future__ import annotations

import pytest

from beamcheck.checks.brackets.props.beam import _strength

from ...beams import beams
from .near_a_beam import DEAD, DELTA, K_CR, LIVE, B, H, L, ask, asked, context, find, sag, unit, verdicts

SHRINKS = [{"what": "sill plates", "height": "8 in", "species": "Red Oak", "change": "12 %"}]


def test_end_uplift_and_hogging() -> None:
    """w L/2 - R (L - x)/L at the end, that times x less w x^2/2 over the bracket (statics)."""
    x = 24.0
    result = asked(context(beams.beam()), ask(gap="0 in", closing=SHRINKS, k=5e5))
    lift = 0.00369 * 12 * 8
    ends, moments = [], []
    for dead, live in ((DEAD, 0.0), (0.6 * DEAD, 0.0), (DEAD, LIVE), (DEAD, 0.75 * LIVE)):
        R = (K_CR * sag(dead) + sag(live) + lift) / (1 / 5e5 + unit())
        ends.append((dead + live) * L / 2 - R * (L - x) / L)
        moments.append(ends[-1] * x - (dead + live) * x**2 / 2)
    assert min(ends) < -1000.0
    uplift = find(result, "uplift of B at support 1")
    assert uplift.verdict == "fails"
    assert uplift.demand == pytest.approx(-min(ends), rel=1e-6)
    assert "nothing is said to hold it down" in uplift.notes[0]
    hog = find(result, "hogging of B over K1")
    assert hog.demand == pytest.approx(-min(moments), rel=1e-6)
    assert hog.verdict == "refer"
    assert "its top is in tension there" in hog.notes[0]


def test_bending_and_shear_that_grow() -> None:
    """The stress of the hogging moment over S, and 1.5 V/A, against the same values as in the beam's own checks."""
    result = asked(context(beams.beam()), ask(gap="0 in", closing=SHRINKS, k=5e5))
    hog = find(result, "hogging of B over K1")
    bent = find(result, "bending with the bottom edge pressed of B, propped")
    assert hog.demand is not None
    assert bent.demand == pytest.approx(hog.demand / (B * H**2 / 6), rel=1e-6)
    sheared = find(result, "shear of B, propped")
    total = (DEAD + LIVE) * L
    R = (DELTA + 0.00369 * 96) / (1 / 5e5 + unit())
    end = total / 2 - R * (L - 24.0) / L
    V = max(abs(end - (DEAD + LIVE) * 24), abs(end + R - (DEAD + LIVE) * 24))
    assert sheared.demand == pytest.approx(1.5 * V / (B * H), rel=1e-6)
    assert sheared.notes == ("with K1 acting as a prop",)


def test_an_end_that_is_held_down_refers() -> None:
    seats = [beams.seat(at, tied_down="invented strap") for at in ("0 ft", "12 ft")]
    result = asked(context(beams.beam(supports=seats)), ask(gap="0 in", closing=SHRINKS, k=5e5))
    check = find(result, "uplift of B at support 1")
    assert check.verdict == "refer"
    assert "said to be held down by 'invented strap', which is not checked here" in check.notes[0]


def test_nothing_fails_while_it_is_not_known_to_touch() -> None:
    result = asked(context(beams.beam()), ask(closing=SHRINKS, k=5e5))
    assert find(result, "uplift of B at support 1").verdict == "refer"
    assert "fails" not in verdicts(result).values()


def test_a_seat_that_gets_more() -> None:
    """Two spans: a prop near the far end of one lifts it and presses on the others."""
    three = beams.beam(supports=[beams.seat(at) for at in ("0 ft", "12 ft", "24 ft")])
    result = asked(context(three), ask(gap="0 in", closing=SHRINKS, k=5e5))
    check = find(result, "reaction of B at support 3")
    assert check.verdict == "refer"
    assert "are not checked for that" in check.notes[0]


def test_a_notch_in_the_top_is_at_its_tension_side_where_the_beam_hogs() -> None:
    """It is on the pressed edge of the beam alone; the bracket turns that around, and only then bends what is left."""
    cut = {"kind": "notch", "face": "top", "at": "30 in", "length": "3 in", "depth": "1 in"}
    place = context(beams.beam(cuts=[cut]))
    result = asked(place, ask(gap="0 in", closing=SHRINKS, k=5e5))
    at_cut = [one for one in result.checks if one.what.startswith("bending at ") and one.what.endswith("of B, propped")]
    assert len(at_cut) == 1
    free = asked(place, ask(gap="1 in"))
    assert not [one for one in free.checks if "propped" in one.what]


def test_a_bracket_that_only_relieves_says_nothing_more() -> None:
    """A soft one near the end takes a little: nothing in the beam gets worse, so there is no line about it."""
    result = asked(context(beams.beam()), ask(gap="0 in", k=500.0))
    assert set(verdicts(result)) == {"gap under B", "force that it attracts from B"}


def test_what_is_looked_at_again_with_a_prop() -> None:
    """Bending and shear of the whole and at each cut: there as in the beam's own checks, the whole in full, 1.5 V/A."""
    cut = {"kind": "notch", "face": "top", "at": "30 in", "length": "3 in", "depth": "1 in"}
    run = context(beams.beam(cuts=[cut])).structure.runs["B"]
    found = _strength(run, run.solved, "K1", simple=False)
    assert [what.split(" 1 in deep")[0] for what in found] == ["bending", "bending at notch", "shear at notch", "shear"]
    assert {check.subject for check in found.values()} == {"K1"}
    assert found["shear"].demand == pytest.approx(1.5 * (DEAD + LIVE) * L / 2.0 / (B * H))
