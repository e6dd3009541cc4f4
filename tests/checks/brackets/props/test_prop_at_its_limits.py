"""Brackets near a beam: what is refused, beams that stand on others, limits from just beside, and what is told."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from beamcheck.checks.brackets.props.prop import PropAsk, PropResult, prop_result
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.units import show

from ...beams import beams
from .near_a_beam import (
    DEAD,
    DELTA,
    K_CR,
    LIVE,
    NEEDED,
    OWN,
    TOL,
    L,
    ask,
    asked,
    context,
    find,
    floor,
    largest,
    midspan,
    near,
    sag,
    unit,
    verdicts,
)


@pytest.fixture(scope="module")
def simple() -> Context:
    """People and furniture: nothing on it stays for years."""
    return context(beams.beam(carries=[beams.floor(dead="10 psf", live="40 psf", width="6 ft", stays=False)]))


def refusal(result: PropResult) -> str:
    check = find(result, "gap under B")
    assert check.verdict == "refer"
    assert (result.picture, result.g_needed, result.R.size, result.combinations) == (None, None, 0, ())
    assert (result.touches, result.free) == (False, False)
    return check.notes[0]


def test_a_beam_that_was_not_worked_out() -> None:
    place = Context(Structure({}, {}))
    assert refusal(asked(place, ask(gap="1 in"))) == (
        "B could not be worked out, so how far it comes down is not known"
    )


def test_wood_that_is_not_known() -> None:
    old = {**beams.stock(), "species": "unknown", "grade": "unstamped", "candidates": ["Eastern White Pine"]}
    for key in ("agency", "grade_from", "evidence"):
        old.pop(key)
    assert "the wood of B is not known" in refusal(asked(context(beams.beam(), wood=old), ask(gap="1 in")))


@pytest.mark.parametrize(
    ("at", "more", "text"),
    [
        ("1 in", {}, "the nose of K1 stands at 1 in of B, in the seat of support 1 on wall"),
        ("20 ft", {}, "20 ft is not on the beam, which runs from 0 to 12 ft"),
        (
            "2 ft",
            {"closing": [{"what": "sill", "height": "3 in", "change": "60 %"}]},
            "must be 0 to 30 points, given 60 %",
        ),
        ("2 ft", {"closing": [{"what": "sill", "height": "3 in", "species": "Oka", "change": "6 %"}]}, "'Oka'"),
    ],
)
def test_refused(simple: Context, at: str, more: dict[str, object], text: str) -> None:
    assert text in refusal(asked(simple, ask(at=at, **more)))


@pytest.mark.parametrize("name", ["gap", "sagged"])
@pytest.mark.parametrize("size", [-0.125, math.nan, math.inf])
def test_lengths_that_are_none(simple: Context, name: str, size: float) -> None:
    wrong = PropAsk("K1", near(gap="1 in").model_copy(update={name: size}), 8e3, 8e3)
    assert refusal(asked(simple, wrong)) == f"K1: {name} must be 0 or more, given {size:g} in"


def test_a_stiffness_that_is_none(simple: Context) -> None:
    assert "the least stiffness of 9000.0 lb/in" in refusal(asked(simple, ask(gap="0 in", k=8e3, k_low=9e3)))


def test_a_bracket_that_is_not_among_them(simple: Context) -> None:
    with pytest.raises(ValueError, match="'K9' is not among the brackets"):
        prop_result([ask()], "K9", simple)


# what stays, and what the beam stands on


def test_stored_load_creeps() -> None:
    """NDS 2018 3.5.2: K_cr goes with the long-term part, so with all of it where the live load stays for years."""
    stored = asked(context(beams.beam(carries=floor(True))), ask(gap="1/2 in"))
    assert stored.g_needed == pytest.approx(K_CR * (sag(DEAD) + sag(LIVE)) + TOL, rel=1e-6)


def test_whether_it_stays_is_asked_only_where_it_matters() -> None:
    both = K_CR * (sag(DEAD) + sag(LIVE)) + TOL
    not_said = context(beams.beam(carries=floor(None)))
    wide, between = (asked(not_said, ask(gap=f"{gap} in")) for gap in (1.01 * both, 0.5 * (both + NEEDED)))
    assert verdicts(wide) == {"gap under B": "passes"} and wide.free
    assert verdicts(between) == {"gap under B": "passes", "gap under B if its load stays": "refer"}
    (question,) = between.checks[-1].questions
    assert (question.id, question.field) == ("B/stays", "beam.B.carries.1.stays")
    assert not between.free


def on_a_girder(stays: bool | None) -> Context:
    """The end at 12 ft stands at midspan of a girder of 12 ft that carries nothing else."""
    ends = [beams.seat("0 ft"), beams.seat("12 ft", on="G", lands_at="6 ft")]
    return context(beams.beam(carries=floor(stays), supports=ends), beams.beam(name="G", carries=[]))


@pytest.mark.parametrize("stays", [True, None])
def test_what_stays_on_it_stays_on_the_girder_below(stays: bool | None) -> None:
    """Both sag half as much more under it: a sixth of the girder's sag comes to the nose."""
    dead, live = DEAD * L / 2, LIVE * L / 2
    own = K_CR * (sag(DEAD) + sag(LIVE)) + TOL
    short = own + (K_CR * midspan(dead, OWN) + midspan(live, 0.0)) / 6
    long = own + K_CR * (midspan(dead, OWN) + midspan(live, 0.0)) / 6
    place = on_a_girder(stays)
    if stays:
        assert asked(place, ask(gap="2 in")).g_needed == pytest.approx(long, rel=1e-4)
        return
    for gap, refers in ((0.5 * (short + long), True), (1.01 * long, False)):
        found = asked(place, ask(gap=f"{gap} in"))
        assert ("gap under B if its load stays" in verdicts(found)) is refers and found.free is not refers


def test_a_beam_that_stands_on_a_beam_comes_down_with_it() -> None:
    """The end at 12 ft stands at midspan of a girder of 12 ft: 24 in out of 144 the nose comes down by a sixth of that.

    The girder carries its share w L/2 of B in one place, besides its own weight: sag P L^3/(48 EI) + shear P L/(4 G A).
    """
    alone = asked(context(beams.beam(carries=floor(False))), ask(gap="1/2 in")).g_needed
    moved = asked(on_a_girder(False), ask(gap="1/2 in"))
    dead, live = DEAD * L / 2, LIVE * L / 2
    sixth = (K_CR * midspan(dead, OWN) + midspan(live, 0.0)) / 6
    assert alone is not None
    assert moved.g_needed == pytest.approx(alone + sixth, rel=1e-4)
    assert "with its supports" in " ".join(
        one.note for one in find(moved, "gap under B").steps if one.symbol == "Delta_ST"
    )


@pytest.mark.parametrize(("at", "in_seat"), [(2.75, True), (2.76, False), (141.25, True), (141.24, False)])
def test_a_nose_up_to_the_very_edge_of_a_seat_stands_in_it(simple: Context, at: float, in_seat: bool) -> None:
    """Seats of 5 1/2 in, their middles at 0 and 12 ft."""
    result = asked(simple, ask(at=f"{at} in", gap="1/2 in"))
    assert ("in the seat of" in find(result, "gap under B").notes[0]) is in_seat


def test_slots_of_exactly_twice_the_gap_needed_free_it(simple: Context) -> None:
    needed = asked(simple, ask()).g_needed
    assert needed is not None
    for slot, free in ((2.0 * needed, True), (2.0 * needed * (1.0 - 1e-9), False)):
        exact = PropAsk("K1", near(gap="0 in").model_copy(update={"slot": slot}), 8e3, 8e3)
        assert asked(simple, exact).free is free


def test_what_does_not_swell_takes_no_step(simple: Context) -> None:
    plain = find(asked(simple, ask(gap="1/2 in")), "gap under B")
    assert "dMC" not in {step.symbol for step in plain.steps} and plain.notes == ("1/4 in keeps it free",)
    wood = find(asked(simple, ask(gap="1/2 in", height_above_fixing=2.0)), "gap under B")
    assert "dMC" in {step.symbol for step in wood.steps}
    picture = asked(simple, ask(gap="1/4 in", sagged="0 in")).picture
    assert picture is not None and [name for name, size in picture.steps if not size] == []
    assert {name for name, _ in picture.steps} == {"dead load", "creep", "all other load", "tolerance"}


def test_force_on_a_girder_that_gives() -> None:
    """R = drop/(1/k + f_xx + a sixth squared of what the girder gives under a pound in its middle)."""
    dead, live = DEAD * L / 2, LIVE * L / 2
    drop = DELTA + (K_CR * midspan(dead, OWN) + midspan(live, 0.0)) / 6
    result = asked(on_a_girder(False), ask(gap="0 in"))
    expected = drop / (1 / 8000 + unit() + midspan(1.0, 0.0) / 36)
    assert largest(result) == pytest.approx(expected, rel=1e-4)
    force = find(result, "force")
    assert beams.step(force, "R") == pytest.approx(expected, rel=1e-4)
    assert beams.step(force, "f_xx") == pytest.approx(unit() + midspan(1.0, 0.0) / 36, rel=1e-4)
    assert beams.step(force, "Delta_0") == pytest.approx(drop, rel=1e-4)
    assert result.picture is not None
    assert dict(result.picture.steps)["supports come down"] == pytest.approx(drop - DELTA, rel=1e-4)
    padded = asked(on_a_girder(False), ask(gap="1/2 in", pad="200 lb/in", pad_squeezes="3/8 in"))
    assert largest(padded) == pytest.approx(drop / (1 / 8000 + 1 / 200 + unit() + midspan(1.0, 0.0) / 36), rel=1e-3)


@pytest.mark.parametrize(("more", "crooked"), [(0.24, False), (0.26, True)])
def test_supports_that_settled_explain_how_far_a_beam_had_come_down(more: float, crooked: bool) -> None:
    """Both seats a quarter of an inch, and the dead load with its creep."""
    seats = [beams.seat(at, settles="1/4 in") for at in ("0 ft", "12 ft")]
    place = context(beams.beam(supports=seats, carries=floor(False)))
    result = asked(place, ask(gap="2 in", sagged=f"{K_CR * sag(DEAD) + more} in"))
    found = [check for check in result.checks if check.what.startswith("how far B had come down")]
    assert len(found) == crooked
    if crooked:
        answers = [answer.sets[0][1] for answer in found[0].questions[0].answers]
        assert answers == [f"{math.floor(1000.0 * (K_CR * sag(DEAD) + 0.25)) / 1000.0:g} in", "0 in"]


def test_what_is_left_in_the_gap_is_asked_at_its_own_entry() -> None:
    sill = {"what": "sill plates", "height": "3 in", "change": "6 %"}
    shims = {"what": "shims left in place", "height": "1 in", "change": "6 %"}
    result = asked(context(beams.beam()), ask(gap="1 in", closing=[sill, shims]))
    (asks,) = find(result, "what is left in the gap").questions
    assert asks.field == "bracket.K1.near.closing.2.what"
    assert [answer.sets[0][0] for answer in asks.answers] == [asks.field, "bracket.K1.near.gap"]


@pytest.mark.parametrize("rises", [45.0, 30.0, None])
def test_a_bracket_that_is_fixed_to_the_beam_as_well_is_a_knee_brace(simple: Context, rises: float | None) -> None:
    """It pushes with R/tan of its slope."""
    made = replace(ask(fixed_to_beam=True), rises=rises)
    force = find(asked(simple, made), "force")
    said = [note for note in force.notes if note.startswith("as a knee brace")]
    assert len(said) == (rises is not None)
    if rises is not None:
        thrust = (force.demand or 0.0) / math.tan(math.radians(rises))
        assert f"with {show(thrust, 'force')}: " in said[0]
    free = replace(ask(gap="0 in"), rises=45.0)
    assert not [note for note in find(asked(simple, free), "force").notes if "knee" in note]


def notes_of(check: Check) -> dict[str, str]:
    return {step.symbol: step.note for step in check.steps}


def test_steps_say_where_their_figures_come_from(simple: Context) -> None:
    stored = context(beams.beam(carries=floor(True)))
    for place, words in ((simple, "dead load, "), (stored, "dead load and what is stored, ")):
        assert notes_of(find(asked(place, ask(gap="1/2 in")), "gap under B"))["Delta_LT"].startswith(words)
    unsaid, said = (notes_of(find(asked(simple, ask(gap="1/2 in", **more)), "gap under B"))["Delta_in"]
                    for more in ({}, {"sagged": "1/32 in"}))  # fmt: skip
    assert unsaid.startswith("not given") and said.startswith("as given")
    gaps = [({"gap": "1/16 in"}, "as left"), ({}, "not known: taken as closed"), ({"fixed_to_beam": True}, "screwed"),
            ({"gap": "1/2 in", "pad": "200 lb/in", "pad_squeezes": "3/8 in"}, "filled by the pad")]  # fmt: skip
    for more, words in gaps:
        assert notes_of(find(asked(simple, ask(**more)), "force"))["g"].startswith(words)


def test_what_is_assumed_is_told(simple: Context) -> None:
    def told(**more: object) -> str:
        return " ".join(asked(simple, ask(gap="1/2 in", **more)).assumptions)

    assert "all of that is still to come" in told() and "all of that is still to come" not in told(sagged="1/32 in")
    assert "fill the gap" in told(pad="200 lb/in", pad_squeezes="3/8 in") and "fill the gap" not in told()
    assert "snug" in told(slot="1/2 in") and "snug" not in told()
