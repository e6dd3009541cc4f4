"""How the supports of a beam over a bracket come down: those on brackets, and those that are beams of somebody else."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from beamcheck.checks.brackets.props.supports import (
    Moving,
    beams_of_others,
    live_that_stays,
    moving_supports,
    with_supports,
)
from beamcheck.checks.core.context import Context
from beamcheck.model.beams import Beam
from beamcheck.model.existing import Existing

from ...beams import beams
from ..brackets import SOLID, Data, bracket, structure


def house(**pieces: Any) -> Context:
    here = structure()
    return Context(replace(here.structure, pieces={**here.structure.pieces, **pieces}))


def beam(*seats: Data, **more: Any) -> Beam:
    return Beam.model_validate(beams.beam(supports=list(seats), **more))


@pytest.mark.parametrize(("deflects", "sags"), [("1/4 in", 0.25), (None, 0.0)])
def test_a_seat_on_a_bracket_comes_down_as_far_as_its_nose_may_sink(deflects: str | None, sags: float) -> None:
    on = beam(beams.seat("0 ft", "slab"), beams.seat("12 ft", "K", lands_at="9 in"))
    place = house(K=bracket(SOLID, "20 lb", "4 in", **({"deflects": deflects} if deflects else {})))
    assert moving_supports(on, place, live_stays=False) == ([Moving(), Moving(sags, 0.0)], "")


def test_a_beam_below_that_was_not_worked_out_is_not_known() -> None:
    girder = Beam.model_validate(beams.beam(name="G"))
    on = beam(beams.seat("0 ft", "slab"), beams.seat("12 ft", "G", lands_at="6 ft"))
    assert moving_supports(on, house(G=girder), live_stays=False) == ([Moving()], "G")
    unsaid = beam(beams.seat("0 ft", "slab"), beams.seat("12 ft", "G"))
    assert moving_supports(unsaid, house(G=girder), live_stays=False) == ([Moving(), Moving()], "")


@pytest.mark.parametrize(
    ("what", "settles", "found"),
    [("old girder", None, True), ("steel beam under the wall", None, True), ("wall under the beam", None, False),
     ("old girder", "1/4 in", False), ("", None, False), ("girder: two joists", None, True)],
)  # fmt: skip
def test_a_beam_of_somebody_else_by_its_words(what: str, settles: str | None, found: bool) -> None:
    other = Existing.model_construct(name="old", what=what, material="wood")
    seat = beams.seat("12 ft", "old", **({"settles": settles} if settles else {}))
    place = house(old=other)
    assert beams_of_others(beam(beams.seat("0 ft", "slab"), seat), place) == (["old"] if found else [])
    assert beams_of_others(beam(beams.seat("0 ft", "old"), beams.seat("12 ft", "old")), place) == (
        ["old"] if found or settles else [])  # fmt: skip


def test_whether_a_live_load_stays() -> None:
    def of(*loads: Data, **pieces: Any) -> tuple[bool | None, list[str]]:
        stays, asked = live_that_stays(
            beam(beams.seat("0 ft"), beams.seat("12 ft"), carries=list(loads)), house(**pieces)
        )
        return stays, [one.field for one in asked]

    dead, live = beams.floor(dead="10 psf", width="4 ft"), beams.floor(live="40 psf", width="4 ft")
    assert of(dead) == (False, []) and of({**live, "stays": False}) == (False, [])
    assert of(dead, live) == (None, ["beam.B.carries.2.stays"])
    assert of(live, {**live, "what": "books", "stays": True}) == (True, [])
    over = beam(beams.seat("0 ft", "B", lands_at="2 ft"), beams.seat("12 ft"), name="C", carries=[live])
    assert of(dead, C=over) == (None, ["beam.C.carries.1.stays"])


def test_a_support_counts_by_how_much_it_brings_down_and_never_where_it_lifts() -> None:
    """12 ft on two seats: 3 ft from the left three quarters of that one and a quarter of the other come along."""
    from .near_a_beam import context

    run = context(beams.beam()).structure.runs["B"]
    sags, gives = with_supports(run, [Moving(0.4, 1e-5), Moving(0.2, 2e-5)], [36.0])
    assert float(sags[0]) == pytest.approx(0.75 * 0.4 + 0.25 * 0.2)
    assert float(gives[0]) == pytest.approx(0.75**2 * 1e-5 + 0.25**2 * 2e-5)
    still = with_supports(run, [Moving(), Moving()], [36.0, 40.0])
    assert [list(one) for one in still] == [[0.0, 0.0], [0.0, 0.0]]


@pytest.mark.parametrize(("what", "free"), [("old girder", False), ("wall", True)])
def test_a_gap_that_is_enough_is_not_free_over_a_beam_of_somebody_else(what: str, free: bool) -> None:
    """How far that girder comes down is not known: the bracket below is not shown to stay clear of the beam."""
    from .near_a_beam import ask, asked, context

    seats = [beams.seat("0 ft"), beams.seat("12 ft", on="old")]
    place = context(beams.beam(supports=seats, carries=[]), existing=[{**beams.LETTER, "name": "old", "what": what}])
    found = asked(place, ask(gap="2 in"))
    said = {check.what: check.verdict for check in found.checks}
    assert said == {"gap under B": "passes", **({} if free else {"gap under B: old": "refer"})}
    if not free:
        assert "B stands on old, by its words" in found.checks[-1].questions[0].why
    assert (found.free, found.touches) == (free, False)
    tight = asked(place, ask(gap="0 in"))  # fails as it is: nothing more to ask
    assert "gap under B: old" not in [check.what for check in tight.checks]


def test_a_girder_on_a_girder_brings_down_what_both_sag() -> None:
    """Of 12 ft each, each with an end on the middle of the next: half of what the lowest sags comes to the middle."""
    from .near_a_beam import DEAD, K_CR, LIVE, OWN, L, context, floor, midspan

    def on(name: str) -> list[Data]:
        return [beams.seat("0 ft"), beams.seat("12 ft", on=name, lands_at="6 ft")]

    middle, lowest = beams.beam(name="G", carries=[], supports=on("H")), beams.beam(name="H", carries=[])
    place = context(beams.beam(carries=floor(False), supports=on("G")), middle, lowest)
    dead, live, own = DEAD * L / 2, LIVE * L / 2, OWN * L / 2
    upper = K_CR * midspan(dead, OWN) + midspan(live, 0.0)
    lower = K_CR * midspan(dead / 2 + own, OWN) + midspan(live / 2, 0.0)
    (still, moves), unknown = moving_supports(place.structure.runs["B"].beam, place, live_stays=False)
    assert (still, unknown) == (Moving(), "")
    assert moves.sags == pytest.approx(upper + lower / 2, rel=1e-4)
    assert moves.gives == pytest.approx(1.25 * midspan(1.0, 0.0), rel=1e-4)
    (_, stored), _ = moving_supports(place.structure.runs["B"].beam, place, live_stays=True)
    creep = (K_CR - 1.0) * (midspan(live, 0.0) + midspan(live / 2, 0.0) / 2)
    assert stored.sags == pytest.approx(moves.sags + creep, rel=1e-4)


@pytest.mark.parametrize(("many", "known"), [(9, True), (14, False)])
def test_beams_on_beams_are_followed_down_twelve_times(many: int, known: bool) -> None:
    """Each stands with its end on the middle of the next; more than that nobody builds, and no circle runs for ever."""
    from .near_a_beam import context

    names = [f"B{i}" for i in range(many)]
    made = [
        beams.beam(name=name, carries=[], supports=[
            beams.seat("0 ft"), beams.seat("12 ft", **({"on": below, "lands_at": "6 ft"} if below else {})),
        ])
        for name, below in zip(names, [*names[1:], ""], strict=True)
    ]  # fmt: skip
    place = context(*made)
    found, unknown = moving_supports(place.structure.runs["B0"].beam, place, live_stays=False)
    assert (len(found) == 2 and found[1].sags > 0.0, bool(unknown)) == (known, not known)
