"""Members that meet, with forces given in numbers: which way is up, what goes through the joint, what is in balance."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.joints.groups import group_of, places_in, pulls
from beamcheck.checks.joints.kinds.others import ByOthers, Rated, _pushed_together
from beamcheck.checks.joints.meeting import _balance, _by_whom, _in_line, _weight_alone, angle_between, stick_beside
from beamcheck.checks.joints.results import of_unknown_wood, round_checks
from beamcheck.model.anchors.anchor import Holes

from ..houses import UNKNOWN
from .jobs import SHEET, Data, wood
from .meetings import arriving, meeting

R2 = math.sqrt(0.5)


@pytest.mark.parametrize(("degrees", "up"), [
    (0.0, (0.0, 1.0)), (45.0, (-R2, R2)), (90.0, (-1.0, 0.0)), (135.0, (R2, R2)), (180.0, (0.0, 1.0)),
    (225.0, (-R2, R2)), (270.0, (-1.0, 0.0)), (315.0, (R2, R2)), (90.1, (1.0, 0.0017453)), (269.9, (-1.0, 0.0017453)),
])  # fmt: skip
def test_the_upper_edge(degrees: float, up: tuple[float, float]) -> None:
    """Square to the member and upward; of an upright one to the left. What presses down goes the other way."""
    one = arriving("a", degrees, N=(30.0,), down=(40.0,), M=7.0)
    assert one.up == pytest.approx(up, abs=1e-5)
    assert one.N[1] == pytest.approx(30.0) and one.down[1] == pytest.approx(40.0) and one.size[1] == pytest.approx(50.0)
    turned = np.cross([*one.direction, 0.0], [*one.up, 0.0])[2]  # counter-clockwise from it to its upper edge
    assert one.turning[1] == pytest.approx(7.0 * turned)
    assert one.across(np.array([[0.0, -5.0]]))[0] == pytest.approx(5.0 * up[1], abs=1e-4)


@pytest.mark.parametrize(("one", "other", "between"), [
    (0.0, 30.0, 30.0), (0.0, 150.0, 30.0), (0.0, 180.0, 0.0), (10.0, 100.0, 90.0), (350.0, 10.0, 20.0),
])  # fmt: skip
def test_angle_between_lines(one: float, other: float, between: float) -> None:
    assert angle_between(arriving("a", one), arriving("b", other)) == pytest.approx(between, abs=1e-5)


def test_members_in_line_are_in_line_whatever_their_slope() -> None:
    """The product of two unit vectors may be more than one by rounding."""
    one, other = arriving("a", 0.0), arriving("b", 0.0)
    for degrees in range(0, 181, 3):
        along = np.array([math.cos(math.radians(degrees)), math.sin(math.radians(degrees))])
        for way in (along, -along):
            assert angle_between(replace(one, direction=along), replace(other, direction=way)) < 1e-5


def three(a: float = 1000.0, **more: Any) -> Any:
    return meeting(arriving("a", 0.0, N=(a,)), arriving("b", 180.0, N=(500.0,), number=2),
                   arriving("c", 90.0, N=(-200.0,), number=3), **more)  # fmt: skip


@pytest.mark.parametrize(("force", "most", "nothing"), [
    (0.5, 1.0, True), (0.6, 1.0, False), (20.0, 2000.0, True), (20.1, 3000.0, False), (15.0, 1500.0, True),
    (15.1, 1500.0, False),
])  # fmt: skip
def test_next_to_nothing_beside_the_largest_force(force: float, most: float, nothing: bool) -> None:
    """Half a pound is rounding; up to 20 lb and a hundredth of what else comes (judgment)."""
    assert meeting(arriving("a", 0.0, N=(most,))).next_to_nothing(force) is nothing
    assert three(most=0).most == 1000.0 and meeting(arriving("a", 0.0, N=(-70.0,))).most == 70.0


@pytest.mark.parametrize(("reaction", "more", "bears"), [
    ((0.0, 20.0), {}, None), ((0.0, 20.1), {}, False), ((-20.1, 0.0), {}, False),
    ((0.0, 20.1), {"bears_on": "a"}, True),
    ((0.0, 20.1), {"row": object()}, None), ((0.0, 900.0), {"row": object(), "bears_on": "a"}, None),
])  # fmt: skip
def test_into_which_member_goes_what_comes_from_outside(reaction: tuple[float, float], more: Data, bears: Any) -> None:
    """From two hundredths of the largest force on (judgment)."""
    assert three(reaction=reaction, **more).bears is bears


@pytest.mark.parametrize(("reaction", "bears"), [((0.4, 0.0), None), ((0.6, 0.0), False)])
def test_of_small_forces_half_a_pound_is_rounding(reaction: tuple[float, float], bears: Any) -> None:
    small = meeting(arriving("a", 0.0, N=(1.0,)), arriving("b", 0.0, number=2), reaction=reaction)
    assert small.bears is bears
    assert meeting(arriving("a", 0.0, N=(1.0,)), reaction=(50.0, 0.0)).bears is None


def test_what_comes_from_outside_goes_through_one_member() -> None:
    one = three(reaction=(10.0, 300.0), bears_on="c")
    a, _, c = one.members
    assert one.through(a)[1] == pytest.approx([1000.0, 0.0]) and one.through(c)[1] == pytest.approx([10.0, 100.0])
    all_ = one.with_what_comes_from_outside().members
    assert all_[2].force[1] == pytest.approx([10.0, 100.0]) and all_[0].force[1] == pytest.approx([1000.0, 0.0])


def test_forces_in_words_are_the_largest_of_each_way() -> None:
    one = meeting(
        arriving("a", 0.0, N=(900.0, -400.0), down=(-30.0, 0.5)), arriving("b", 90.0, N=(0.5, -0.5), number=2)
    )
    assert one.largest == pytest.approx({"a, pulls": 900.0, "a, pushes": 400.0, "a, square to it": 30.0})
    assert one.force_words == "a, pulls 900 lb; a, pushes 400 lb; a, square to it 30 lb"
    assert meeting(arriving("b", 90.0)).force_words == "no force"
    asked = one.asks("joint_forces_by", "forces_by")
    assert asked.field == "joint.J.forces_by" and not asked.forces
    ruled = one.asks("joint_forces")
    assert ruled.field == "ruling" and dict(ruled.forces) == one.largest


# ---- whose forces, and whether they are in balance -------------------------------------------------------------------


def verdicts(checks: Any) -> list[tuple[str, str]]:
    return [(one.verdict, "".join(asked.field for asked in one.questions)) for one in checks]


@pytest.mark.parametrize(("by", "expected"), [
    (SHEET, ("passes", "")), ("", ("refer", "joint.J.forces_by")), ("me", ("refer", "joint.J.forces_by")),
])  # fmt: skip
def test_whose_forces(by: str, expected: tuple[str, str]) -> None:
    (check,) = _by_whom(three(forces_by=by))
    assert verdicts([check]) == [expected]
    assert ("is not said" in check.notes[0]) is (by == "") and ("forces by 'me'" in check.notes[0]) is (by == "me")


def test_weight_alone_is_not_all() -> None:
    assert [one.verdict for one in _weight_alone(three(), {"dead"})] == ["refer"]
    assert not list(_weight_alone(three(), {"dead", "snow"})) and not list(_weight_alone(three(), set()))


@pytest.mark.parametrize(("reaction", "more", "expected", "words"), [
    ((20.0, 20.0), {}, ("passes", ""), "within 20 lb"),
    ((-20.1, 0.0), {}, ("refer", "ruling"), "20.1 lb are left over sideways"),
    ((0.0, -20.1), {"kind": "strap"}, ("refer", "ruling"), "left over up and down: the forces"),
    ((0.0, 30.0), {"kind": "bolted lap"}, ("refer", "joint.J.stands_on"), "what the joint stands on is not said"),
    ((0.0, 30.0), {"on": "sill"}, ("passes", ""), "within 20 lb; 30 lb go into sill"),
    ((0.0, 19.0), {"on": "sill"}, ("passes", ""), "within 20 lb"),
    ((30.0, 0.0), {"on": "sill"}, ("refer", "ruling"), "30 lb are left over sideways"),
])  # fmt: skip
def test_forces_in_balance(reaction: tuple[float, float], more: Data, expected: tuple[str, str], words: str) -> None:
    """Two hundredths of the largest force are rounding (judgment); up and down something may stand under it."""
    given = {"kind": "plates both sides", **more}
    (check,) = _balance(three(reaction=reaction, **given))
    assert verdicts([check]) == [expected] and words in check.notes[0]
    assert ("go into" in check.notes[0]) is (words.endswith("go into sill"))
    assert _balance(three(reaction=reaction, row=object(), **given)) == []


@pytest.mark.parametrize(("N", "more", "expected"), [
    (900.0, {}, [("refer", "joint.J.stands_on")]), (0.5, {}, []), (-0.6, {}, [("refer", "joint.J.stands_on")]),
    (900.0, {"on": "sill"}, [("passes", "")]), (900.0, {"confirmed_by": SHEET}, []),
    (900.0, {"confirmed_by": " "}, [("refer", "joint.J.stands_on")]),
])  # fmt: skip
def test_what_one_member_brings_goes_on(N: float, more: Data, expected: list[tuple[str, str]]) -> None:
    checks = _balance(meeting(arriving("a", 0.0, N=(N,)), **more))
    assert verdicts(checks) == expected
    assert all("900 lb" in one.notes[0] for one in checks if N == 900.0)


@pytest.mark.parametrize(("second", "more", "asked"), [
    (180.9, {}, True), (181.1, {}, False), (179.1, {}, True), (0.0, {}, False), (180.0, {"splices": "nothing"}, False),
])  # fmt: skip
def test_two_lengths_in_line(second: float, more: Data, asked: bool) -> None:
    """Within a degree (judgment), by a member of that slope and wood."""
    from beamcheck.model.reading.reader import job_from_data

    from ..frames.jobs import king

    frame = job_from_data(king()).frame[0]
    tie = {**wood("6x10", "5 1/2 in x 9 1/2 in")}
    two = meeting(arriving("a", 0.0, stock=tie), arriving("b", second, stock=tie, number=2), **more)
    found = list(_in_line(two, Context(Structure({}, {"truss": frame}))))
    assert bool(found) is asked
    third = meeting(*two.members, arriving("c", 90.0, number=3), **more)
    assert not list(_in_line(third, Context(Structure({}, {"truss": frame}))))


def test_a_stick_beside() -> None:
    context: Any = SimpleNamespace(stock=lambda name: f"stock {name}")
    none: Any = SimpleNamespace(base=None, step=None)
    assert stick_beside(none, context) is None
    step: Any = SimpleNamespace(base=None, step=SimpleNamespace(wide_from="big"))
    assert stick_beside(step, context) == "stock big"
    rods = SimpleNamespace(stock="sill")
    base: Any = SimpleNamespace(base=SimpleNamespace(rods=rods), step=None)
    assert stick_beside(base, context) == "stock sill"
    bare: Any = SimpleNamespace(base=SimpleNamespace(rods=None), step=None)
    assert stick_beside(bare, context) is None


# ---- fasteners of a member as a group --------------------------------------------------------------------------------


def test_a_group_takes_what_its_member_pulls_and_presses() -> None:
    one = arriving("a", 30.0, N=(400.0,), down=(90.0,), M=-70.0)
    got = group_of(meeting(one), one, "plates both sides", places=(np.array([3.0]), np.array([2.0])))
    assert [list(part) for part in (got.forces.along, got.forces.across, got.forces.turning)] == [
        pytest.approx([0.0, 400.0]), pytest.approx([0.0, 90.0]), pytest.approx([0.0, -70.0])]  # fmt: skip
    assert got.field("holes.rows") == "joint.J.members.1.holes.rows" and got.field("split") == "joint.J.split"


def test_rounding_of_directions_is_no_force() -> None:
    """A thousandth of a millionth of the largest force."""
    one = arriving("a", 30.0, N=(4e8,), down=(0.39,), M=3.9)
    got = group_of(meeting(one), one, "plates both sides", places=(np.array([3.0]), np.array([2.0])))
    assert got.forces.across[1] == 0.0 and got.forces.turning[1] == 0.0
    one = arriving("a", 30.0, N=(4e8,), down=(0.41,), M=4.2)
    got = group_of(meeting(one), one, "plates both sides", places=(np.array([3.0]), np.array([2.0])))
    assert got.forces.across[1] == pytest.approx(0.41, rel=1e-3) and got.forces.turning[1] == pytest.approx(4.2)


def test_of_two_outside_the_other_piece_is_one() -> None:
    one, outside = arriving("a", 0.0), arriving("b", 90.0, number=2, entry={"part": "outside"}, size="6 in x 10 in")
    place = (np.array([3.0]), np.array([2.0]))
    for other, thick in ((outside, 3.0), (arriving("c", 90.0, number=2, size="6 in x 10 in"), 6.0)):
        got = group_of(meeting(one, other), one, "wood side", places=place, other=other)
        assert got.anchor.other is not None and got.anchor.other.thickness == thick
    assert list(pulls(meeting(one), np.array([1.0, 5.0])).along) == [1.0, 5.0]


def test_one_layout_is_turned_into_every_member() -> None:
    """Two holes 4 in apart along a level piece lie across an upright one, the lower 2 in over its edge as said."""
    laid = Holes.model_validate({"rows": 1, "columns": 2, "spacing": "4 in", "end": "8 in", "edge": "5 in"})
    single = Holes.model_validate({"end": "7 in", "edge": "2 in"})
    level = arriving("a", 0.0, entry={"holes": laid})
    for degrees, x, y in (
        (90.0, [7.0, 7.0], [6.0, 2.0]),
        (180.0, [11.0, 7.0], [2.0, 2.0]),
        (0.0, [7.0, 11.0], [2.0, 2.0]),
    ):
        other = arriving("b", degrees, number=2, entry={"holes": single})
        for members in ((level, other), (other, level)):
            got = places_in(meeting(*members), other)
            assert [list(one) for one in got] == [pytest.approx(x), pytest.approx(y)]
            own = places_in(meeting(*members), level)
            assert [list(one) for one in own] == [[8.0, 12.0], [5.0, 5.0]]


# ---- what has no value here ------------------------------------------------------------------------------------------


def test_reports_say_nothing_of_what_presses_past_their_member() -> None:
    """Of three, the others that push; up to 20 lb beside 3,000 lb are next to nothing."""

    def others(*N: float) -> list[str]:
        members = [arriving("a", 0.0, N=(3000.0,))]
        members += [arriving("abc"[k], 90.0, N=(one,), number=k + 1) for k, one in enumerate(N, 1)]
        return [check.where for check in _pushed_together(meeting(*members))]

    assert others(-30.0, 30.0) == ["b"] and others(-20.0, -20.1) == ["c"] and others(-500.0) == []


@pytest.mark.parametrize(("N", "alone", "asked"), [(-900.0, False, True), (-900.0, True, False), (900.0, False, False)])
def test_a_push_of_the_member_of_the_report_goes_from_wood_to_wood(N: float, alone: bool, asked: bool) -> None:
    """Of one member by itself the report says what it presses."""
    from beamcheck.model.anchors.anchor import Rating

    from .kinds.test_by_report import RATING

    first = arriving("a", 0.0, N=(N,))
    members = (first,) if alone else (first, arriving("b", 90.0, number=2))
    found = Rated().checks(meeting(*members, rating=Rating.model_validate(RATING), seasoned=None))
    assert ("joint.pressed" in [one.id for one in found]) is asked
    pressing = [one for one in found if one.what == "pressing into the joint"]
    assert bool(pressing) is (alone and N < 0.0)


@pytest.mark.parametrize(("said", "verdict", "words"), [
    (SHEET, "passes", "for a, pulls 900 lb"), (f"{SHEET}: for 900 lb", "passes", ""),
    (f"{SHEET}: for 800 lb", "refer", "names 800 lb, and more comes to it: a, pulls 900 lb"),
    ("the carpenter", "refer", "'the carpenter': "), ("", "refer", "nobody who may answer for it is named"),
])  # fmt: skip
def test_who_answers_for_what_has_no_value(said: str, verdict: str, words: str) -> None:
    (check,) = ByOthers().checks(meeting(arriving("a", 0.0, N=(900.0,)), confirmed_by=said, kind="by others"))
    assert check.verdict == verdict and words in check.notes[0]
    assert [one.field for one in check.questions] == ([] if verdict == "passes" else ["joint.J.confirmed_by"])


# ---- what is not known of their wood ---------------------------------------------------------------------------------


@pytest.mark.parametrize(("ratio", "stock", "kind", "verdict"), [
    (2.0, UNKNOWN, "stress", "refer"), (2.0, wood("x", "4 in x 10 in"), "stress", "fails"),
    (2.0, UNKNOWN, "length", "fails"), (0.5, UNKNOWN, "stress", "passes"),
])  # fmt: skip
def test_figures_of_unknown_wood_wait(ratio: float, stock: Data, kind: str, verdict: str) -> None:
    one = meeting(arriving("a", 0.0, stock={**stock, "size": "4 in x 10 in"}))
    check = Check.of_ratio("joint.x", "J", "x", "c", demand=ratio, capacity=1.0, kind=kind)
    assert of_unknown_wood(check, one).verdict == verdict
    broken = Check.breaks_rule("joint.x", "J", "x", "c", "a rule")
    assert of_unknown_wood(broken, one).verdict == "fails"


def test_round_pieces_are_for_an_engineer() -> None:
    log = wood("log", "8 in round")
    (check,) = round_checks(meeting(arriving("a", 0.0), arriving("log", 0.0, stock=log, number=2)))
    assert check.verdict == "refer" and check.notes[0].startswith("round: log;")
    assert round_checks(meeting(arriving("a", 0.0))) == []
