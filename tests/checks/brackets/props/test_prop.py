"""Brackets near a beam: gap and force by the closed forms of brackets.md sec. f, and every way in which it may end."""

from __future__ import annotations

import math

import numpy as np
import pytest

from beamcheck.checks.brackets.props.prop import PropAsk
from beamcheck.checks.core.context import Context
from beamcheck.model.brackets.near import Near
from beamcheck.units import shown_in

from ...beams import beams
from .near_a_beam import (
    DEAD,
    DELTA,
    K_CR,
    NEEDED,
    SOFT,
    E,
    across,
    ask,
    asked,
    context,
    find,
    largest,
    near,
    sag,
    unit,
    verdicts,
)


@pytest.fixture(scope="module")
def simple() -> Context:
    """People and furniture: nothing on it stays for years."""
    return context(beams.beam(carries=[beams.floor(dead="10 psf", live="40 psf", width="6 ft", stays=False)]))


def test_gap_by_closed_form(simple: Context) -> None:
    """g_req = K_cr delta_sust + delta_short + tol under D + L, with E(1 - 1.645 COV) and shear (brackets.md sec. f)."""
    result = asked(simple, ask(gap="1/2 in"))
    check = find(result, "gap under B")
    assert result.g_needed == pytest.approx(NEEDED, rel=1e-6)
    assert (check.demand, check.capacity) == (pytest.approx(NEEDED, rel=1e-6), 0.5)
    assert check.ratio == pytest.approx(NEEDED / 0.5, rel=1e-6)
    assert check.combination == "D + L"
    assert (check.verdict, result.free, result.touches, result.remedies) == ("passes", True, False, ())
    assert not result.R.any()
    assert beams.step(check, "g_req") == pytest.approx(result.g_needed, rel=1e-12)
    assert beams.step(check, "E_05") == pytest.approx(SOFT * E, rel=1e-9)


def test_words_of_the_remedy(simple: Context) -> None:
    """Rounded up to what a tape shows: sixteenths, the slot twice as long."""
    sixteenths = math.ceil(NEEDED * 16)
    assert sixteenths == 4
    result = asked(simple, ask(gap="1/16 in"))
    assert result.remedies == (
        "leave 1/4 in (or slot the upper fixing 1/2 in and let an engineer confirm that it slides)",
    )
    light = context(beams.beam(carries=[beams.floor(dead="10 psf", live="40 psf", width="3 ft")]))
    words = "leave 3/16 in (or slot the upper fixing 3/8 in and let an engineer confirm that it slides)"
    assert asked(light, ask(gap="1/16 in")).remedies == (words,)
    with shown_in("SI"):
        mm = math.ceil(NEEDED * 25.4)
        words = f"leave {mm} mm (or slot the upper fixing {2 * mm} mm and let an engineer confirm that it slides)"
        assert asked(simple, ask(gap="1/16 in")).remedies == (words,)


def test_gap_exactly_as_needed_is_enough(simple: Context) -> None:
    needed = asked(simple, ask()).g_needed
    assert needed is not None
    for gap, verdict in ((needed, "passes"), (needed * (1 - 1e-9), "fails")):
        exact = PropAsk("K1", near().model_copy(update={"gap": gap}), 8e3, 8e3)
        found = asked(simple, exact)
        assert find(found, "gap under B").verdict == verdict
        assert (found.free, found.touches) == (verdict == "passes", verdict == "fails")


def test_gap_within_the_tolerance_is_not_shown_to_be_free(simple: Context) -> None:
    gap = (DELTA + NEEDED) / 2
    result = asked(simple, PropAsk("K1", near().model_copy(update={"gap": gap}), 8e3, 8e3))
    assert verdicts(result) == {"gap under B": "fails"}
    assert find(result, "gap under B").notes == (
        "too small to be sure, though by the figures it just stays open; 1/4 in keeps it free",
    )
    assert result.touches
    assert largest(result) == 0.0


def test_movements_close_the_gap(simple: Context) -> None:
    """C x dMC x height, red oak tangential 0.00369 (Wood Handbook Table 13-5, read)."""
    sill = {"what": "sill plates", "height": "3 in", "species": "Red Oak", "change": "6 %"}
    result = asked(simple, ask(gap="1/4 in", closing=[sill]))
    assert result.g_needed == pytest.approx(NEEDED + 0.00369 * 6 * 3, rel=1e-6)
    assert find(result, "gap under B").verdict == "fails"
    assert result.picture is not None
    assert dict(result.picture.steps)["sill plates"] == pytest.approx(0.00369 * 6 * 3)


def test_wood_above_the_fixing_swells(simple: Context) -> None:
    """6 points in a heated house (practice); white oak 0.00365, overcup oak sold as such 0.00462 (read)."""
    own = asked(simple, ask(gap="1/4 in", height_above_fixing=2.0, species="White Oak")).g_needed
    unknown = asked(simple, ask(gap="1/4 in", height_above_fixing=2.0)).g_needed
    assert own == pytest.approx(NEEDED + 0.00462 * 6 * 2, rel=1e-6)
    assert unknown == pytest.approx(own)


def test_movements_that_are_not_stated_refer(simple: Context) -> None:
    result = asked(simple, ask(gap="1/2 in", closing=None))
    assert find(result, "gap under B").verdict == "passes"
    assert find(result, "movements").verdict == "refer"
    assert "`[]` says that there is none" in find(result, "movements").notes[0]
    assert not result.free


def test_what_had_come_down_already(simple: Context) -> None:
    before = 1 / 32
    assert before < K_CR * sag(DEAD)
    result = asked(simple, ask(gap="1/4 in", sagged="1/32 in"))
    assert result.g_needed == pytest.approx(NEEDED - before, rel=1e-6)
    assert find(result, "gap under B").verdict == "passes"


def test_more_than_the_dead_load_explains_does_not_count(simple: Context) -> None:
    result = asked(simple, ask(gap="1/4 in", sagged="1/2 in"))
    assert result.g_needed == pytest.approx(NEEDED - K_CR * sag(DEAD), rel=1e-6)
    check = find(result, "how far B had come down")
    assert check.verdict == "refer"
    assert "said to have come down 1/2 in there, which is more than its dead load explains" in check.notes[0]


def test_picture_adds_up(simple: Context) -> None:
    sill = {"what": "sill plates", "height": "3 in", "change": "6 %"}
    picture = asked(simple, ask(gap="1/4 in", sagged="1/32 in", closing=[sill])).picture
    assert picture is not None
    assert sum(size for _, size in picture.steps) == pytest.approx(picture.needed, rel=1e-12)
    assert dict(picture.steps)["creep"] == pytest.approx(0.5 * sag(DEAD), rel=1e-6)
    assert (picture.name, picture.beam, picture.gap) == ("K1", "B", 0.25)


# slots


def test_slots_free_it_without_any_gap(simple: Context) -> None:
    for gap in ("0 in", None):
        result = asked(simple, ask(gap=gap, slot="1/2 in"))
        check = find(result, "slots that free it from B")
        assert check.ratio == pytest.approx(2 * NEEDED / 0.5, rel=1e-6)
        assert (check.verdict, result.free, largest(result)) == ("passes", True, 0.0)
        assert any("snug" in text for text in result.assumptions)


def test_slots_that_are_too_short(simple: Context) -> None:
    result = asked(simple, ask(gap="0 in", slot="1/4 in"))
    check = find(result, "gap under B")
    assert check.verdict == "fails"
    assert "its slots of 1/4 in do not free it; 1/2 in may, if an engineer confirms" in check.notes[0]
    assert largest(result) > 100.0


# the force


def test_force_by_closed_form(simple: Context) -> None:
    """R = (delta_0 - g)/(1/k + f_xx) (brackets.md sec. f, derived)."""
    result = asked(simple, ask(gap="1/16 in"))
    expected = (DELTA - 1 / 16) / (1 / 8000 + unit())
    assert expected > 100.0
    assert largest(result) == pytest.approx(expected, rel=1e-6)
    check = find(result, "force that it attracts")
    assert check.verdict == "fails"
    assert check.demand == pytest.approx(expected, rel=1e-6)
    assert check.notes[0].endswith("of B rests on K1: it acts as a prop: treat it as structural or free it")
    assert beams.step(check, "R") == pytest.approx(largest(result), rel=1e-9)
    assert [one.name for one in result.combinations][int(np.argmax(result.R))] == "D + L"
    assert (result.touches, result.free) == (True, False)


def test_gap_not_known(simple: Context) -> None:
    """It refers, and says what would come if there is none."""
    result = asked(simple, ask())
    assert set(verdicts(result).values()) == {"refer"}
    (gap,) = {asked.id: asked for one in result.checks for asked in one.questions}.values()  # one fact, one question
    assert (gap.id, gap.field) == ("K1/gap", "bracket.K1.near.gap")
    assert [one.says for one in gap.answers] == ["1/4 in", "1/8 in", "0 in"]
    check = find(result, "gap under B")
    assert check.ratio is None
    assert check.notes == ("the gap between K1 and B is not known; 1/4 in keeps it free",)
    assert largest(result) == pytest.approx(DELTA / (1 / 8000 + unit()), rel=1e-6)
    assert "if there is no gap: measure the gap, or free it" in find(result, "force").notes[0]
    assert (result.touches, result.free) == (False, False)


def test_pair(simple: Context) -> None:
    """f_xx + f_x,L-x in the place of f_xx; both known to be tight (brackets.md sec. f, derived)."""
    pair = [ask("K1", gap="0 in"), ask("K2", at="10 ft", gap="0 in")]
    expected = DELTA / (1 / 8000 + unit() + across())
    results = [asked(simple, *pair), asked(simple, *pair[::-1])]
    assert [largest(one) for one in results] == pytest.approx([expected] * 2, rel=1e-6)
    check = find(results[0], "force")
    assert beams.step(check, "R") == pytest.approx(expected, rel=1e-6)
    assert "the other brackets relieve it" in next(one.note for one in check.steps if one.symbol == "Delta_0")
    assert expected < largest(asked(simple, pair[0]))


@pytest.mark.parametrize("other", [{"gap": None}, {"gap": "1 in"}, {"gap": "0 in", "slot": "1 in"}])
def test_a_neighbor_that_may_not_be_touched_relieves_nothing(simple: Context, other: dict[str, object]) -> None:
    alone = largest(asked(simple, ask(gap="0 in")))
    result = asked(simple, ask(gap="0 in"), ask("K2", at="10 ft", **other))
    assert largest(result) == pytest.approx(alone, rel=1e-9)


def test_brackets_near_another_beam_are_left_out() -> None:
    place = context(beams.beam(), beams.beam(name="C"))
    other = PropAsk("K2", Near.model_validate({"beam": "C", "at": "10 ft", "gap": "0 in", "closing": []}), 8e3, 8e3)
    assert largest(asked(place, ask(gap="0 in"), other)) == pytest.approx(largest(asked(place, ask(gap="0 in"))))


def test_the_stiffer_end_counts_and_rigid_where_nothing_is_known(simple: Context) -> None:
    stiff = asked(simple, ask(gap="0 in", k=20000.0, k_low=1000.0))
    assert largest(stiff) == pytest.approx(DELTA / (1 / 20000 + unit()), rel=1e-6)
    unknown = asked(simple, ask(gap="0 in", k=math.inf, k_low=0.0))
    assert largest(unknown) == pytest.approx(DELTA / unit(), rel=1e-6)
    step = find(unknown, "force").steps[-1]
    assert (step.symbol, step.value) == ("R", pytest.approx(largest(unknown)))
    assert "its stiffness is not known" in step.note


def test_movement_adds_to_the_force(simple: Context) -> None:
    sill = {"what": "sill plates", "height": "3 in", "species": "Red Oak", "change": "6 %"}
    result = asked(simple, ask(gap="0 in", closing=[sill]))
    assert largest(result) == pytest.approx((DELTA + 0.00369 * 18) / (1 / 8000 + unit()), rel=1e-6)


# pads, screws


def test_fixed_to_the_beam_it_always_props(simple: Context) -> None:
    result = asked(simple, ask(fixed_to_beam=True))
    check = find(result, "gap under B")
    assert check.verdict == "fails"
    assert check.notes == (
        "K1 is fixed to B and to what is behind it, so it works both ways: treat it as structural or free it",
    )
    assert largest(result) == pytest.approx(DELTA / (1 / 8000 + unit()), rel=1e-6)
    assert result.remedies[0].startswith("take out what fixes it to B, and leave 1/4 in")
    assert not [one for one in result.checks if one.what.startswith("pull")]  # nothing here ever lifts


def test_fixed_to_a_beam_that_lifts_it_is_pulled() -> None:
    """Wind up 50 psf on 6 ft, counted 0.6: what the wind lifts over 1/k + f_xx, on a beam screwed on as it lay."""
    seats = [beams.seat(at, tied_down="invented strap") for at in ("0 ft", "12 ft")]
    roof = [beams.floor(dead="10 psf", live="40 psf", wind="-50 psf", width="6 ft")]
    result = asked(context(beams.beam(carries=roof, supports=seats)), ask(fixed_to_beam=True))
    expected = sag(0.6 * 25.0) / (1 / 8000 + unit())
    assert float(np.min(result.R_least)) == pytest.approx(-expected, rel=1e-6)
    assert find(result, "pull from B").verdict == "fails"
    assert find(result, "pull from B").demand == pytest.approx(expected, rel=1e-6)


def test_one_that_carries_and_touches_is_no_neighbor(simple: Context) -> None:
    """Its share is worked out only as a support; until then it refers, whatever it could bear."""
    result = asked(simple, ask(carries=True, gap="1/16 in"))
    force = find(result, "force")
    assert force.verdict == "refer"
    assert force.questions[0].id == "K1/share_of_beam"
    assert "never counted in favor of the beam" in force.notes[0]
    assert asked(simple, ask(carries=True, gap="1/2 in")).free


# without the bracket, refused
