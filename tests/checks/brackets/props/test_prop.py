"""Brackets near a beam: gap and force by the closed forms of brackets.md sec. f, and every way in which it may end."""

from __future__ import annotations

import copy
import math
from dataclasses import replace

import numpy as np
import pytest

from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.beams.result import beam_result
from beamcheck.checks.brackets.props.prop import PropAsk, PropResult, prop_result
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.model.brackets.near import Near
from beamcheck.model.reading.reader import job_from_data
from beamcheck.units import show, shown_in

from ...beams import beams

L, B, H = 144.0, 5.5, 11.5  # 6x12 dressed
E, G_OVER = 1.4e6, 16.0
SOFT = 1.0 - 1.645 * 0.25  # NDS 2018 Appendix F, visually graded (memory)
EI, GA_S = SOFT * E * B * H**3 / 12, SOFT * E / G_OVER * B * H / 1.2
OWN = 5.0 / 1728.0 * B * H  # 5 pcf
DEAD, LIVE = 5.0 + OWN, 20.0  # lb/in: 10 and 40 psf on 6 ft
K_CR, TOL = 1.5, 0.0625


def sag(w: float, x: float = 24.0) -> float:
    """brackets.md sec. f, with shear (derived)."""
    return w * x * (L**3 - 2 * L * x**2 + x**3) / (24 * EI) + w * x * (L - x) / (2 * GA_S)


def unit(x: float = 24.0) -> float:
    return x**2 * (L - x) ** 2 / (3 * EI * L) + x * (L - x) / (GA_S * L)


def across(x: float = 24.0) -> float:
    """Sinking at x under a force at L - x: that of the pair, x^2 (3 L - 4 x)/(6 EI), less f_xx; shear x x/(G A_s L)."""
    return x**2 * (3 * L - 4 * x) / (6 * EI) - x**2 * (L - x) ** 2 / (3 * EI * L) + x * x / (GA_S * L)


DELTA = K_CR * sag(DEAD) + sag(LIVE)
NEEDED = DELTA + TOL


def context(*made: beams.Data, **more: object) -> Context:
    more = {"wood": beams.known("6x12 dressed", E=E), **more}
    job = job_from_data(copy.deepcopy(beams.job(*made, **more)))  # type: ignore[arg-type]
    pieces = {piece.name: piece for piece in (*job.beam, *job.existing)}
    structure = Structure({one.name: one for one in job.stock}, pieces, {one.name: one for one in job.anchor})
    come: dict[str, list[TransferredLoad]] = {}
    for piece in job.beam:  # what rests on a beam is written before it
        _, handed = beam_result(piece, Context(structure, tuple(come.get(piece.name, ()))))
        for under, load in handed.transfers:
            come.setdefault(under, []).append(load)
    return Context(structure)


@pytest.fixture(scope="module")
def simple() -> Context:
    """People and furniture: nothing on it stays for years."""
    return context(beams.beam(carries=[beams.floor(dead="10 psf", live="40 psf", width="6 ft", stays=False)]))


def near(at: str = "2 ft", **more: object) -> Near:
    return Near.model_validate({"beam": "B", "at": at, "closing": [], **more})


def ask(name: str = "K1", k: float = 8000.0, **more: object) -> PropAsk:
    own = {key: more.pop(key) for key in ("k_low", "height_above_fixing", "species", "carries") if key in more}
    return PropAsk(name, near(**more), own.pop("k_low", k), k, **own)  # type: ignore[arg-type]


def asked(place: Context, *asks: PropAsk) -> PropResult:
    return prop_result(asks, asks[0].name, place)


def find(result: PropResult, begins: str) -> Check:
    found = [check for check in result.checks if check.what.startswith(begins)]
    assert len(found) == 1, [check.what for check in result.checks]
    return found[0]


def verdicts(result: PropResult) -> dict[str, str]:
    return {check.what: check.verdict for check in result.checks}


def largest(result: PropResult) -> float:
    return float(np.max(result.R))


# the gap


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


def floor(stays: bool | None) -> list[beams.Data]:
    return [beams.floor(dead="10 psf", live="40 psf", width="6 ft", **({} if stays is None else {"stays": stays}))]


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


def midspan(P: float, w: float) -> float:
    """Sag of a girder of 12 ft under P in its middle and w along it: P L^3/(48 EI) + P L/(4 G A), and those of w."""
    bent = P * L**3 / (48 * EI) + 5 * w * L**4 / (384 * EI)
    return bent + P * L / (4 * GA_S) + w * L**2 / (8 * GA_S)


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
