"""Posts once more: what is asked of loads, seats that just fit, offsets by seats, plies off center. Figures by hand."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.core.context import Context
from beamcheck.checks.core.result import Check
from beamcheck.checks.posts.result import post_result
from beamcheck.model.reading.reader import job_from_data

from ..houses import FOOTING, SIX_BY_SIX, Data, beam, check, checked, given_stock, job, piece, post, seat
from . import test_glued as glued
from .by_hand import structure_of
from .test_plies_cuts_and_ends_of_posts import BOLTS, NAILS

OBLONG = given_stock('5 1/2" x 7 1/2"')
LOAD = {"what": "floor", "dead": "2000 lb", "live": "6000 lb"}


def asked(id: str, *, beams: list[Data] | None = None, more: Data | None = None, **of: Any) -> list[Check]:
    """What a post of 5 1/2 x 7 1/2 in refers by that check."""
    kinds = {"beam": beams} if beams else {}
    found = piece(checked(post=[post(stock="given", **of)], stock=[OBLONG], **kinds, **(more or {})), "P")
    return [one for one in found.checks if one.id == id and one.verdict == "refer"]


# ---- what its loads are ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("loads", "asks"), [
    ([{"dead": "2000 lb"}], True), ([{"dead": "2000 lb", "live": "0 lb"}], False), ([{"dead": "900 lb"}, LOAD], False),
    ([{"dead": "2000 lb", "roof_live": "0 lb"}], False), ([{"dead": "2000 lb", "snow": "0 lb"}], False),
    ([{"dead": "2000 lb", "wind": "300 lb"}], False),
])  # fmt: skip
def test_only_weight_that_stays(loads: list[Data], asks: bool) -> None:
    """Nobody said that no people and no snow come: asked for at its first load."""
    found = asked("post.loads", carries=[{"what": f"load {i}", **one} for i, one in enumerate(loads)])
    assert [one.questions[0].field for one in found] == ["post.P.carries.1.live"] * asks


def test_a_post_on_which_nothing_stands() -> None:
    (found,) = asked("post.loads", carries=[])
    assert found.questions[0].field == "post.P.role" and "nothing is said to stand" in found.notes[0]
    assert not asked("post.loads", carries=[], role="decorative", above="nothing")


def test_weight_that_a_beam_brings_is_asked_of_the_beam() -> None:
    only = beam(seat("0 ft", "P"), seat("12 ft", "wall"), carries=[{"what": "wall", "dead": "50 plf"}])
    assert not asked("post.loads", beams=[only], carries=[])


@pytest.mark.parametrize(("loads", "number"), [
    ([{"snow": "900 lb"}], 1), ([{"dead": "900 lb", "live": "10 lb"}, {"roof_live": "500 lb"}, {"snow": "1 lb"}], 2),
    ([{"snow": "900 lb"}, {"wind": "-10 lb"}], None), ([LOAD], None),
])  # fmt: skip
def test_wind_on_a_roof_over_a_post(loads: list[Data], number: int | None) -> None:
    """ASCE 7-16 27.3.2 (memory): asked at the first load that comes from a roof."""
    found = asked("post.wind", carries=[{"what": f"load {i}", **one} for i, one in enumerate(loads)])
    assert [one.questions[0].field for one in found] == ([f"post.P.carries.{number}.wind"] if number else [])


@pytest.mark.parametrize(("more", "what"), [
    ({"plies": 2}, "plies"), ({"fire": {"minutes": 60, "exposed": ["bottom"]}}, "fire"), ({}, ""),
    ({"cuts": [{"kind": "hole", "at": "4 ft", "depth": "1 in", "from_bottom": "3 in"}]}, "cuts"),
])  # fmt: skip
def test_what_is_not_run_of_a_glued_post_is_named(more: Data, what: str) -> None:
    found = [one.what for one in glued.post(**more).checks if one.id == "post.glued"]
    assert len(found) == bool(what) and all(what in one for one in found)


@pytest.mark.parametrize("top", ["pinned", "free"])
def test_a_name_of_engineered_wood_is_no_doubt_where_it_is_that(top: str) -> None:
    sawn = piece(checked(post=[post(called="glulam column", top_restraint=top, base_restraint="fixed")]), "P")
    made = glued.post(called="glulam column", top_restraint=top, base_restraint="fixed")
    doubts = [[one for one in each.checks if "it is called 'glulam column'" in "".join(one.notes)]
              for each in (sawn, made)]  # fmt: skip
    assert [len(found) for found in doubts] == [1, 0]


@pytest.mark.parametrize("top", ["pinned", "free"])
def test_wood_for_upright_use_only_is_no_doubt_in_a_post(top: str) -> None:
    """Pieces glued lengthwise for studs may stand, and not bend."""
    studs = {**SIX_BY_SIX, "name": "given", "evidence": f"{SIX_BY_SIX['evidence']}, VERTICAL USE ONLY"}
    result = checked(stock=[studs], post=[post(stock="given", top_restraint=top, base_restraint="fixed")])
    assert not [one for one in piece(result, "P").checks if "here it bends" in " ".join(one.notes)]
    lying = beam(seat("0 ft", "wall"), seat("8 ft", "wall"), stock="given")
    asked_ = piece(checked(stock=[studs], beam=[lying]), "B")
    assert [one for one in asked_.checks if "here it bends" in " ".join(one.notes)]


# ---- seats on its top ------------------------------------------------------------------------------------------------


def two(first: str, second: str) -> list[Data]:
    return [beam(seat("0 ft", "wall"), seat("8 ft", "P", bearing=long), name=name)
            for name, long in (("B1", first), ("B2", second))]  # fmt: skip


@pytest.mark.parametrize(("first", "second", "asks"), [
    ("3 3/4 in", "3 3/4 in", False), ("3 3/4 in", "3 13/16 in", True), ("7 1/2 in", "2 in", False),
    ("7 1/2 in", "2 1/16 in", True),
])  # fmt: skip
def test_seats_that_just_fit_on_the_top(first: str, second: str, asks: bool) -> None:
    """Beams of 5 1/2 in on 5 1/2 x 7 1/2 in, run the way in which they need less: 5 1/2 in by at most 5 1/2 in."""
    found = asked("post.seats_room", beams=two(first, second), carries=[])
    assert bool(found) is asks
    if asks:  # half of the longer side each
        assert {one.field: one.answers[0].says for one in found[0].questions} == {
            "beam.B1.supports.2.bearing": "3 3/4 in", "beam.B2.supports.2.bearing": "3 3/4 in"
        }  # fmt: skip


@pytest.mark.parametrize(("long", "asks"), [("7 1/2 in", False), ("7 9/16 in", True)])
def test_a_seat_as_long_as_the_top(long: str, asks: bool) -> None:
    found = asked("post.seat_length", beams=two(long, "1 in")[:1], carries=[])
    fields = [(one.questions[0].field, one.questions[0].answers[0].says) for one in found]
    assert fields == ([("beam.B1.supports.2.bearing", "7 1/2 in")] if asks else [])


@pytest.mark.parametrize(("first", "second", "stated", "asks"), [
    ("3 in", "2 1/2 in", "2.375 in", False), ("3 in", "2 1/2 in", "2.37 in", True),
    ("2 1/2 in", "3 in", "2.37 in", True), ("7 1/2 in", "7 1/2 in", "0 in", False),
])  # fmt: skip
def test_two_pieces_cannot_both_bear_on_the_middle(first: str, second: str, stated: str, asks: bool) -> None:
    """The shorter seat, the longer side: (7.5 - 2.5)/2 = 2 1/2 in off the middle, less 1/8 in of play (judgment)."""
    found = asked("post.eccentricity_and_seats", beams=two(first, second), carries=[], eccentricity=stated)
    assert bool(found) is asks
    if asks:
        assert "2 pieces share the top" in found[0].notes[0] and "2 1/2 in off center; 2 " in found[0].notes[0]
        (answer,) = found[0].questions[0].answers
        assert answer.says == "2 1/2 in" and found[0].questions[0].field == "post.P.eccentricity"


def test_a_load_of_its_own_shares_the_top_with_a_beam() -> None:
    """(7.5 - 3)/2 = 2 1/4 in of two pieces; a beam alone over half of 5 1/2 in: (5.5 - 3)/2 = 1 1/4 in."""
    for carries, off in (([LOAD], "2 1/4 in"), ([], "1 1/4 in")):
        (found,) = asked("post.eccentricity_and_seats", beams=two("3 in", "3 in")[:1], carries=carries)
        assert f"{off} off center; 0 in is stated" in found.notes[0]


@pytest.mark.parametrize(("at", "length", "end"), [
    ("0 ft", "12 ft", True), ("2.9 in", "12 ft", True), ("3 in", "12 ft", False), ("141 in", "12 ft", False),
    ("141.1 in", "12 ft", True), ("6 ft", "12 ft", False),
])  # fmt: skip
def test_a_beam_ends_on_a_post_where_it_goes_on_less_than_its_seat(at: str, length: str, end: bool) -> None:
    other = "6 in" if at in ("141 in", "141.1 in", "6 ft") else "11 ft"
    supports = sorted([seat(at, "P", bearing="3 in"), seat(other, "wall", bearing="5 1/2 in")],
                      key=lambda one: float(str(one["at"]).split()[0]) * (12 if "ft" in one["at"] else 1))  # fmt: skip
    lying = beam(*supports, length=length)
    assert bool(asked("post.eccentricity_and_seats", beams=[lying], carries=[])) is end


@pytest.mark.parametrize(("field", "edge"), [("eccentricity", "3 3/4 in"), ("eccentricity_weak", "2 3/4 in")])
def test_a_load_beyond_the_edge_is_offered_the_edge_and_not_the_middle(field: str, edge: str) -> None:
    """Half of 7 1/2 in and of 5 1/2 in: a middle that nobody measured would take the bending away."""
    (found,) = asked("post.eccentricity_beyond", **{field: "4 in"})
    assert [one.says for one in found.questions[0].answers] == [edge] and "4 in is beyond" in found.notes[0]
    assert asked("post.eccentricity_beyond", **{field: edge}) == []


# ---- plies off center ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("joined", "by", "K_f"), [("nailed", NAILS, 0.6), ("bolted", BOLTS, 0.75)])
def test_built_up_post_off_center_by_hand(joined: str, by: Data, K_f: float) -> None:
    """NDS 2018 15.4-1, 15.4-2 and 15.3 (memory), K_f in F_c' and in F_cE2; the edge tips by one ply of 1 1/2 in."""
    size, d, E_min = given_stock('1 1/2" x 5 1/2"'), 5.5, 5e5
    made = post(stock="given", height="6 ft", carries=[{"what": "load", "live": "3000 lb"}], plies=3,
                plies_joined=joined, plies_schedule=by, eccentricity="1 in")  # fmt: skip
    result = checked(stock=[size], post=[made])
    area = 4.5 * d
    f_c = (3000 + 5 * 6 * area / 144) / area
    F_cE1, F_cE2 = 0.822 * E_min / (72 / d) ** 2, K_f * 0.822 * E_min / (72 / 4.5) ** 2
    q = 0.822 * E_min / (72 / 4.5) ** 2 / 1000
    F_c = 1000 * K_f * ((1 + q) / 1.6 - (((1 + q) / 1.6) ** 2 - q / 0.8) ** 0.5)
    l_e = 1.63 * 72 + 3 * d  # Table 3.3.3, l_u/d = 13: any loading
    R_B2 = l_e * d / 1.5**2
    F_bE = 1.2 * E_min / R_B2
    a = F_bE / 1000
    C_L = (1 + a) / 1.9 - (((1 + a) / 1.9) ** 2 - a / 0.95) ** 0.5
    f_b = 6 * f_c / d
    sideways = check(result, "P", "load off center the deep way, sideways").ratio
    assert sideways == pytest.approx(f_c / F_cE2 + (f_b / F_bE) ** 2, rel=1e-6)
    along = check(result, "P", "load off center the deep way").ratio
    by_hand = (f_c / F_c) ** 2 + f_b * (1 + 0.234 * f_c / F_cE1) / (1000 * C_L * (1 - f_c / F_cE1))
    assert along == pytest.approx(by_hand, rel=1e-6)


def test_plies_bend_the_thin_way_each_by_itself() -> None:
    """15.4-1 the thin way: 6 e/d with d of one ply, 1 1/2 in, C_P K_f as before."""
    made = post(stock="given", height="6 ft", carries=[{"what": "load", "live": "3000 lb"}], plies=3,
                plies_joined="nailed", plies_schedule=NAILS, eccentricity_weak="1/4 in")  # fmt: skip
    found = check(checked(stock=[given_stock('1 1/2" x 5 1/2"')], post=[made]), "P", "load off center the thin way")
    area = 4.5 * 5.5
    f_c = (3000 + 5 * 6 * area / 144) / area
    q = 0.822 * 5e5 / 16**2 / 1000
    F_c = 600 * ((1 + q) / 1.6 - (((1 + q) / 1.6) ** 2 - q / 0.8) ** 0.5)
    F_cE2 = 0.6 * 0.822 * 5e5 / 16**2
    f_b = 6 * f_c * 0.25 / 1.5
    assert found.ratio == pytest.approx((f_c / F_c) ** 2 + f_b * (1 + 0.234 * f_c / F_cE2) / (1000 * (1 - f_c / F_cE2)))


# ---- what it hands on, and what it stands on -------------------------------------------------------------------------


def test_what_a_post_hands_down_by_kind() -> None:
    """Each kind by itself: what may be absent is nothing at least, what lifts nothing at most; 96 in of 5 lb/ft3."""
    loads = [{"what": "a", "dead": "300 lb", "live": "500 lb"}, {"what": "b", "wind": "-700 lb", "snow": "40 lb"}]
    whole = job_from_data(job(post=[post(stock="given", carries=loads)], stock=[OBLONG]))
    _, handed = post_result(whole.post[0], Context(structure_of(whole), ()))
    own = 5 / 1728 * 5.5 * 7.5 * 96
    ((under, transfer),) = handed.transfers
    assert under == "footing" and transfer.bearing == 5.5
    expected = {"D": (300 + own, 300 + own), "L": (500, 0), "S": (40, 0), "W": (0, -700)}
    assert {kind: pytest.approx(both) for kind, both in expected.items()} == transfer.forces
    (row,) = handed.rows
    assert row.largest == pytest.approx(300 + own + 500)
    assert row.least == pytest.approx(0.6 * (300 + own) - 0.6 * 700)


@pytest.mark.parametrize(("broad", "contact"), [('5 1/2" x 11 1/2"', 5.5 * 5.5), ('7 1/2" x 11 1/2"', 5.5 * 7.5)])
def test_a_post_on_a_beam_presses_on_the_smaller_of_both_ways(broad: str, contact: float) -> None:
    """Post of 5 1/2 x 7 1/2 in: across a beam of 5 1/2 in either 5 1/2 x 5 1/2 in of it lie on the wood or more."""
    under = given_stock(broad, name="under")
    floor = beam(seat("0 ft", "wall"), seat("8 ft", "wall"), stock="under")
    result = checked(stock=[OBLONG, under], beam=[floor], post=[post(stock="given", on="B", lands_at="4 ft")])
    found = check(result, "P", "bearing of B under P")
    assert found.demand == pytest.approx((8000 + 5 / 1728 * 5.5 * 7.5 * 96) / contact)


@pytest.mark.parametrize(("at", "braces", "l_p"), [
    (30.0, {}, 90.0), (90.0, {}, 90.0), (60.0, {}, 60.0), (30.0, {"braced_strong": "5 ft"}, 120.0),
    (30.0, {"braced_weak": "5 ft"}, 120.0), (None, {}, 120.0), (130.0, {}, 120.0),
])  # fmt: skip
def test_where_a_bracket_counts_on_a_post(at: float | None, braces: Data, l_p: float) -> None:
    """M = P a l_p/l, a to the axis (statics of hinged ends); between braces, or at no known height, all of it."""
    data = post(stock="given", height="10 ft", carries=[LOAD], **braces)
    whole = job_from_data(job(stock=[OBLONG], post=[data]))
    load = TransferredLoad("K", {"L": (500.0, 0.0)}, at=at, applied="side", off=5.0, pull=0.0)
    result, _ = post_result(whole.post[0], Context(structure_of(whole), (load,)))
    for way, side in (("deep", 7.5), ("thin", 5.5)):
        (found,) = [one for one in result.checks if one.what == f"brackets on its faces, the {way} way"]
        values = {step.symbol: step.value for step in found.steps}
        assert values["M"] == pytest.approx(500 * (5.0 + side / 2) * l_p / 120)
        S = 5.5 * 7.5**2 / 6 if way == "deep" else 7.5 * 5.5**2 / 6
        assert values["f_b1" if way == "deep" else "f_b2"] == pytest.approx(values["M"] / S)


# ---- what holds it ---------------------------------------------------------------------------------------------------

LIFT = [{"what": "roof", "dead": "500 lb", "snow": "20000 lb"}, {"what": "wind", "wind": "-2500 lb"}]


def test_what_is_asked_of_whatever_holds_its_head() -> None:
    """0.6 (2,500 - 500) = 1,200 lb: of existing work a quarter more, rounded up to 10 lb; else a group of its own."""
    frame = {"existing": [{**FOOTING, "name": "frame"}]}
    (found,) = asked("post.uplift_head", carries=LIFT, head_held_by="frame", more=frame)
    assert found.questions[0].field == "existing.frame.takes_uplift"
    assert [one.says for one in found.questions[0].answers] == ["1,500 lb"]
    assert found.questions[0].forces["pulls up"] == pytest.approx(1200.0) and "1,200 lb pulls up" in found.notes[0]
    (found,) = asked("post.uplift_head", carries=LIFT)
    assert found.questions[0].field == "post.P.head_held_by" and not found.questions[0].answers


@pytest.mark.parametrize(("takes", "verdict"), [("1,200 lb", "passes"), ("1,199 lb", "fails")])
@pytest.mark.parametrize("by", ["", "invented sheet S-1, engineer"])
def test_a_head_that_somebody_holds(takes: str, verdict: str, by: str) -> None:
    """Against what is stated; nobody who answers for it keeps it from passing."""
    frame = {**FOOTING, "name": "frame", "takes_uplift": takes, "confirmed_by": by}
    result = checked(post=[post(stock="given", carries=LIFT, head_held_by="frame")], stock=[OBLONG], existing=[frame])
    found = check(result, "P", "uplift at the head")
    assert found.ratio == pytest.approx(1200 / float(takes.split()[0].replace(",", "")))
    assert found.verdict == ("refer" if not by and verdict == "passes" else verdict)


def test_the_water_of_a_green_post_may_be_gone_one_day() -> None:
    """G 0.5 metered at 25 %, weighed at 12 % once it is dry (NDS Supplement 3.1.3, memory): the least of what lasts."""
    green = {**SIX_BY_SIX, "name": "given", "moisture": "green", "measured_moisture": "25 %"}
    loads = [{"what": "a", "dead": "300 lb", "live": "500 lb"}]
    whole = job_from_data(job(post=[post(stock="given", carries=loads)], stock=[green]))
    _, handed = post_result(whole.post[0], Context(structure_of(whole), ()))
    wet, dry = (62.4 * 0.5 / (1 + 0.5 * 0.009 * m) * (1 + m / 100) / 1728 * 5.5**2 * 96 for m in (25, 12))
    high, low = handed.transfers[0][1].forces["D"]
    assert (high, low) == pytest.approx((300 + wet, 300 + dry), rel=1e-4) and low < high
