"""Splices and plates under forces that are given: stated against those of the frame, couples, straps, hardware.

Wood of `jobs.wood`: F_b 1350, F_t 825, F_c 1150, F_c_perp 625 psi; members of 4 x 10 in; live load, C_D 1.
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.result import Check, Table
from beamcheck.checks.joints.hardware import in_one_list
from beamcheck.checks.joints.kinds.base import into_which
from beamcheck.checks.joints.kinds.fastened import off_its_axis, once
from beamcheck.checks.joints.kinds.plated import StrapJoint, _arms, bent_by, couple_from_others, hanging
from beamcheck.checks.joints.kinds.post_ends.post_cap import PostCap, _from, _pressed
from beamcheck.checks.joints.splice import _against_the_frame, _pushed, _there

from ..meetings import BEFORE, HERE, arriving, meeting

STICK: Any = SimpleNamespace(name="truss: tie", stick="tie")
S = 4.0 * 10.0**2 / 6


# ---- splices ---------------------------------------------------------------------------------------------------------


def held_against(pull: float, push: float, V: float, *, at: float | None = None, N: tuple[float, ...] = (500.0, -300.0),
                 down: tuple[float, ...] = (40.0, -40.0)) -> dict[str, Check]:  # fmt: skip
    """What the frame puts through the member, against what is stated for the splice."""
    two = meeting(arriving("a", 180.0, N=N, down=down), arriving("b", 0.0, N=N, number=2), splice_at=at)
    member = SimpleNamespace(pulled=np.array([0.0, pull, 0.0]), pressed=np.array([0.0, 0.0, push]),
                             V=np.array([[0.0, 0.0], [0.1 * V, V], [0.0, 0.0]]))  # fmt: skip

    def between(stick: str, what: str, start: float, end: float) -> Any:
        assert (stick, start, end) == ("tie", at, at)
        high = {"N": np.array([0.0, pull, -push]), "V": np.array([0.0, -V, 0.1 * V])}[what]
        return high, high

    solved: Any = SimpleNamespace(members={"tie": member}, combinations=two.combinations, between=between)
    return {check.what.partition(" of truss")[0]: check for check in _against_the_frame(two, STICK, solved)}


@pytest.mark.parametrize("at", [None, 60.0])
def test_stated_forces_are_no_less_than_those_of_the_frame(at: float | None) -> None:
    found = held_against(600.0, 200.0, 30.0, at=at)
    assert {words: (one.demand, one.capacity, one.verdict) for words, one in found.items()} == {
        "pull": (600.0, 500.0, "fails"), "push": (200.0, 300.0, "passes"),
        "square to it": (30.0, 40.0, "passes")}  # fmt: skip
    assert found["pull"].ratio == pytest.approx(1.2)


@pytest.mark.parametrize(("pull", "asked"), [(5.0, False), (5.1, True)])
def test_next_to_nothing_needs_no_statement(pull: float, asked: bool) -> None:
    """A hundredth of the 500 lb of the joint."""
    assert set(held_against(pull, 0.0, 0.0, down=(0.0, 0.0))) == ({"pull"} if asked else set())


@pytest.mark.parametrize(("stated", "judged"), [(-5.0, False), (-5.1, True)])
def test_next_to_nothing_is_no_statement(stated: float, judged: bool) -> None:
    check = held_against(0.0, 5.2, 0.0, N=(500.0, stated), down=(0.0, 0.0))["push"]
    assert (check.ratio is not None) is judged and check.verdict == "fails"
    assert judged or check.notes[0] == "5.2 lb come there by the frame, and next to nothing is stated"


def test_the_force_at_a_place_is_the_larger_beside_it() -> None:
    low, high = np.array([-5.0, -2.0, 3.0]), np.array([4.0, 2.5, 3.0])
    solved: Any = SimpleNamespace(between=lambda *_: (low, high))
    assert _there(solved, STICK, "N", 3.0).tolist() == [-5.0, 2.5, 3.0]


@pytest.mark.parametrize(("N", "asked"), [(-5.0, False), (-5.1, True), (500.0, False)])
def test_a_push_through_a_splice_is_asked(N: float, asked: bool) -> None:
    """Where it is more than a hundredth of the largest force."""
    two = meeting(arriving("a", 180.0, N=(500.0, N)), arriving("b", 0.0, N=(500.0, N), number=2))
    found = list(_pushed(two, STICK))
    assert bool(found) is asked and all(one.notes[0].startswith("5.1 lb push") for one in found)


# ---- couples ---------------------------------------------------------------------------------------------------------


def test_a_couple_bends_its_member_beside_what_is_in_it() -> None:
    """N/(b d) over the lesser of F_t and F_c, M/S over F_b; of a frame with what is in it there already."""
    one = arriving("a", 0.0, N=(-1000.0,))
    two = meeting(one, arriving("b", 90.0, number=2))
    couple = np.array([0.0, 6000.0])
    assert bent_by(two, one, couple, "b").ratio == pytest.approx(1000.0 / 40.0 / 825.0 + 6000.0 / S / 1350.0)
    there = (np.array([0.0, 3000.0]), np.array([0.0, 500.0]))
    framed = arriving("a", 0.0, N=(-1000.0,), in_it=there)
    two = meeting(framed, arriving("b", 90.0, number=2))
    assert bent_by(two, framed, couple, "b").ratio == pytest.approx(3000.0 / 40.0 / 825.0 + 6500.0 / S / 1350.0)


def test_couples_of_the_others_add_up_whichever_way_they_turn() -> None:
    a = arriving("a", 0.0, down=(100.0,), entry={"arm": 5.0})
    b = arriving("b", 0.0, down=(-300.0,), number=2, entry={"arm": -4.0})
    c = arriving("c", 90.0, down=(50.0,), number=3, entry={"arm": None})
    three = meeting(a, b, c)
    assert couple_from_others(three, c).tolist() == pytest.approx([0.0, 500.0 + 1200.0])
    assert couple_from_others(three, a).tolist() == pytest.approx([0.0, 1200.0])
    pushed = meeting(a, c, reaction=(0.0, -60.0), bears_on="a")
    assert couple_from_others(pushed, c).tolist() == pytest.approx([0.0, 5.0 * 160.0])


@pytest.mark.parametrize(("down", "entry", "asked"), [
    (20.0, {"holes": object()}, False), (20.5, {"holes": object()}, True), (-20.5, {"holes": object()}, True),
    (500.0, {"holes": object(), "arm": 0.0}, False), (500.0, {}, False),
])  # fmt: skip
def test_the_arm_of_a_group_is_asked_once_anything_comes_across(down: float, entry: Any, asked: bool) -> None:
    """From two hundredths of its force on (judgment): 1,000 lb along it."""
    one = arriving("a", 0.0, N=(1000.0,), down=(down,), entry=entry)
    assert not list(_arms(meeting(arriving("a", 0.0, N=(10.0,), entry=entry))))
    found = list(_arms(meeting(one)))
    assert [check.questions[0].field for check in found] == (["joint.J.members.1.arm"] if asked else [])


# ---- straps ----------------------------------------------------------------------------------------------------------


def strapped(hangs: float, *, on: str = "", reaction: tuple[float, float] = (0.0, 0.0), from_end: float = 30.0) -> Any:
    """A tie of 10 in depth that hangs in a strap of 2 in under a post of 3 x 6 in."""
    post = arriving("post", 90.0, N=(hangs,), size="3 in x 6 in", entry={"part": "strapped"})
    tie = arriving("tie", 0.0, down=(hangs,), number=2, entry={"part": "hung"})
    return meeting(post, tie, on=on, reaction=reaction, strap=SimpleNamespace(width=2.0, from_end=from_end))


@pytest.mark.parametrize(("on", "reaction", "hangs"), [
    ("", (0.0, 0.0), 900.0), ("", (0.0, -70.0), 970.0), ("sill", (0.0, -70.0), 900.0),
])  # fmt: skip
def test_what_hangs_in_a_strap(on: str, reaction: tuple[float, float], hangs: float) -> None:
    """With what comes from outside, unless something stands under it."""
    assert hanging(strapped(900.0, on=on, reaction=reaction))[1] == pytest.approx(hangs)


@pytest.mark.parametrize(("from_end", "C_b"), [(3.9, 1.0), (4.0, 2.375 / 2.0)])
def test_a_strap_presses_under_what_hangs(from_end: float, C_b: float) -> None:
    """R/(b l_b) with C_b = (l_b + 3/8)/l_b from 3 in from the end on (3.10.4)."""
    (check,) = StrapJoint._under(strapped(900.0, from_end=from_end))
    assert check.demand == pytest.approx(900.0 / 8.0) and check.capacity == pytest.approx(625.0 * C_b)
    (none,) = StrapJoint._under(strapped(-900.0))
    assert none.demand == 0.0


@pytest.mark.parametrize(("hangs", "pressed"), [(-1.0, False), (-1.1, True), (-900.0, True), (900.0, False)])
def test_what_presses_on_a_hung_piece_goes_from_wood_to_wood(hangs: float, pressed: bool) -> None:
    """On 3 in, the lesser breadth, by 6 in."""
    found = list(StrapJoint._pressed(strapped(hangs)))
    assert [one.demand for one in found] == ([pytest.approx(-hangs / 18.0)] if pressed else [])
    assert all(one.capacity == pytest.approx(625.0) for one in found)


# ---- caps ------------------------------------------------------------------------------------------------------------


def capped(*down: float, N: float = -900.0) -> Any:
    """A post of 4 x 10 in that is pushed, and a beam on it for each force."""
    post = arriving("post", 270.0, N=(N,), entry={"part": "standing"})
    beams = [
        arriving(f"beam {k}", 0.0, down=(one,), number=k + 2, entry={"part": "lying"}) for k, one in enumerate(down)
    ]
    return meeting(post, *beams, cap=SimpleNamespace(bears_long=9.0, bears_wide=5.0))


def test_what_presses_on_a_cap() -> None:
    """Of a lone beam no less than the post is pushed with; of two each its own; what lifts presses on nothing."""
    alone = [((500.0,), -900.0, [900.0]), ((1200.0,), -900.0, [1200.0]), ((-500.0,), 300.0, [0.0])]
    two = [((500.0, 300.0), -900.0, [500.0, 300.0]), ((500.0, -300.0), -900.0, [500.0, 0.0])]
    for down, N, expected in (*alone, *two):
        one = capped(*down, N=N)
        assert [_from(one, beam)[1] for beam in one.all("lying")] == pytest.approx(expected)
        assert _pressed(one)[1] == pytest.approx(max(-N, 0.0))


def test_where_two_beams_meet_on_a_cap_nothing_is_driven_in() -> None:
    for down, met in (((500.0,), False), ((500.0, 300.0), True)):
        seen = list(PostCap().to_see(capped(*down)))
        assert any("where two beams meet" in line for line in seen) is met and "each beam on 9 in x 5 in" in seen[0]


# ---- groups beside the axis of their member --------------------------------------------------------------------------


@pytest.mark.parametrize(("y", "along", "ratio"), [
    ((5.125, 5.125), 1000.0, None), ((5.26, 5.26), 0.5, None), ((7.0, 9.0), 1000.0, 3.0), ((1.0, 3.0), -1000.0, 3.0),
    ((3.0, 7.0), 1000.0, None),
])  # fmt: skip
def test_fasteners_beside_the_axis_bend_their_member(y: tuple[float, float], along: float, ratio: float | None) -> None:
    """More than 1/8 in off (judgment): N e beside N, as pull or push, whichever bears less."""
    one = arriving("a", 0.0)
    forces = SimpleNamespace(along=np.array([0.0, along]), combinations=(BEFORE, HERE))
    group: Any = SimpleNamespace(section=one.section, x=np.array([3.0, 6.0]), y=np.array(y), forces=forces,
                                 wood=one.wood, piece="a")  # fmt: skip
    found = list(off_its_axis(meeting(one), group))
    expected = [] if ratio is None else [pytest.approx(1000.0 / 40.0 / 825.0 + 1000.0 * ratio / S / 1350.0)]
    assert [check.ratio for check in found] == expected


# ---- each check and each part once -----------------------------------------------------------------------------------


def test_what_members_share_is_said_once_and_figures_of_each() -> None:
    def figure(where: str) -> Check:
        return Check.of_ratio("a.b", "J", "x", "c", demand=1.0, capacity=2.0, kind="force", where=where)

    def rule(where: str, text: str = "kept") -> Check:
        return Check.keeps_rule("a.c", "J", "x", "c", text, where=where)

    checks = [figure("a"), figure("b"), figure("a"), rule("a"), rule("b"), rule("b", "another")]
    assert [(one.id, one.where, one.notes) for one in once(checks)] == [
        ("a.b", "a", ()), ("a.b", "b", ()), ("a.c", "a", ("kept",)), ("a.c", "b", ("another",))]  # fmt: skip


HEADS = ("how many", "what", "size", "steel and coating", "note")


def listed(*rows: tuple[str, ...], times: int = 1, piece: str = "a", more: Any = ()) -> list[tuple[str, ...]]:
    found = [(SimpleNamespace(piece=piece), Table("Hardware", HEADS, rows, ""))]
    found += [(SimpleNamespace(piece=name), Table("Hardware", HEADS, others, "")) for name, others in more]
    (table,) = in_one_list(found, times)  # type: ignore[arg-type]
    return list(table.rows)


def test_hardware_of_all_members_in_one_list() -> None:
    bolt, nut = ("4", "bolt", "3/4 in", "A307", ""), ("4", "nut", "3/4 in", "", "")
    plate = ("2", "plate", "7 x 20 in", "A36", "")
    assert listed(bolt, nut, ("2", *bolt[1:]), times=3) == [("18", *bolt[1:]), ("12", *nut[1:])]
    assert listed(("as drawn", *bolt[1:]), bolt) == [("4", *bolt[1:])]
    assert listed(bolt, plate) == [bolt, plate]
    assert list(in_one_list([], 1)) == []
    both = listed(bolt, plate, more=[("b", (bolt, ("2", "plate", "5 x 9 in", "A572", "")))])
    whole = ("2", "plate, in one piece over all", "7 x 20 in on a; 5 x 9 in on b", "A36, A572", "")
    assert both == [("8", *bolt[1:]), whole]


# ---- which way what comes from outside goes; caps with bolts ---------------------------------------------------------


@pytest.mark.parametrize(("kind", "answers"), [("bolted lap", ["a", "b"]), ("plates both sides", ["a", "b", "steel"])])
def test_into_which_member_is_answered_by_its_name_or_the_steel(kind: str, answers: list[str]) -> None:
    (asked,) = into_which(meeting(arriving("a", 0.0), arriving("b", 90.0, number=2), kind=kind)).questions
    assert [one.says for one in asked.answers] == answers


@pytest.mark.parametrize(("laid", "fastener", "bolted"), [
    (("holes plate", "holes plate"), True, True), (("holes plate", "holes"), True, False),
    (("holes plate", "plate"), True, False),
    (("holes plate", ""), True, False), (("holes plate", "holes plate"), False, False),
])  # fmt: skip
def test_a_cap_is_bolted_where_every_piece_says_its_holes_and_plates(
    laid: tuple[str, ...], fastener: bool, bolted: bool
) -> None:
    members = [arriving(name, 0.0, entry=dict.fromkeys(said.split(), object()), number=k + 1)
               for k, (name, said) in enumerate(zip("ab", laid, strict=True))]  # fmt: skip
    assert PostCap.bolted(meeting(*members, fastener=object() if fastener else None)) is bolted
