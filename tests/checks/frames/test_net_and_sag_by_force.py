"""What cuts leave of a member, a member in a fire, how far a frame comes down: forces and sags given, figures by hand.

A 6x8 dressed (5 1/2 x 7 1/2 in), the left strut of the truss of `jobs.py`; F_b 1200, F_t 825, F_c 1000 psi (Table 4D,
read), snow, C_D 1.15.
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.trusses.record import MemberForces
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood.group_cut import GroupCut, Void
from beamcheck.checks.core.wood.material import reference_values, wood_of
from beamcheck.checks.frames.fire import fire_checks
from beamcheck.checks.frames.member import MadeOf, made_of
from beamcheck.checks.frames.net import net_checks
from beamcheck.checks.frames.sag import _against, _asked, _of_member, _spread
from beamcheck.model.fire import Fire
from beamcheck.model.sticks import Cut

from ..anchors.anchors import loaded
from .jobs import SHEET
from .test_member_by_hand import F_B, F_C, F_T, LONG, B, D, strut

TWO = (loaded("D", "D"), loaded("D + S", "S"))


def made(size: str = "6x8 dressed", **entry: Any) -> MadeOf:
    stick, wood = strut(**entry)
    wood = wood.model_copy(update={"size": size})
    return made_of(stick, wood_of(wood, reference_values(wood), laid="on edge"),
                   Context(Structure({wood.name: wood}, {})))  # fmt: skip


class Solved:
    """The same force all along; writes down where it was asked."""

    def __init__(self, N: tuple[float, float] = (0.0, 0.0), M: tuple[float, float] = (0.0, 0.0)) -> None:
        self.combinations, self.asked = TWO, list[tuple[float, float]]()
        self.forces = {name: [np.array([0.0, one]) for one in pair] for name, pair in (("N", N), ("M", M))}
        member = SimpleNamespace(pressed=np.array([0.0, max(-N[0], 0.0)]), pulled=np.array([0.0, max(N[1], 0.0)]))
        self.members = {"left strut": member}

    def between(self, stick: str, what: str, start: float, end: float) -> Any:
        self.asked.append((start, end))
        return self.forces[what]


def cut(kind: str = "notch", at: float = 40.0, **more: Any) -> Cut:
    given: dict[str, Any] = {"length": 4.0, "depth": 1.5, "width": None, "from_bottom": None, **more}
    given.setdefault("face", "top" if kind in ("notch", "taper") else "side")
    return Cut.model_construct(kind=kind, at=at, **given)


def net(one: Cut | GroupCut, solved: Any, size: str = "6x8 dressed") -> Check:
    (check,) = net_checks(made(size), solved, [one])
    return check


@pytest.mark.parametrize(("N", "M"), [
    ((-900.0, 5000.0), (-2000.0, 3000.0)), ((-9000.0, 50.0), (-3000.0, 2000.0)), ((-9000.0, -500.0), (100.0, 3000.0)),
    ((500.0, 5000.0), (-3000.0, -100.0)),
])  # fmt: skip
@pytest.mark.parametrize("kind", ["notch", "taper"])
def test_what_a_notch_leaves(N: tuple[float, float], M: tuple[float, float], kind: str) -> None:
    """Pull or push, the larger moment there and that of the force off the middle of what is left, half the depth of
    the cut (3.1.2, 3.9)."""
    check = net(cut(kind), Solved(N, M))
    pulled, pressed = max(N[1], 0.0), max(-N[0], 0.0)
    d = D - 1.5
    most = max(abs(M[0]), abs(M[1])) + 0.75 * max(pulled, pressed)
    f_b = most / (B * d**2 / 6)
    pull, push = pulled / (B * d) / F_T + f_b / F_B, pressed / (B * d) / F_C + f_b / F_B
    assert check.ratio == pytest.approx(max(pull, push), rel=1e-6) and check.combination == "D + S"


@pytest.mark.parametrize(("one", "shift"), [
    (cut("hole", depth=1.0, length=0.0, from_bottom=5.75), 2.0 * 5.5 * 1.0 / (5.5 * 7.5 - 5.5)),
    (cut("hole", depth=1.0, length=0.0, from_bottom=1.75), 2.0 * 5.5 * 1.0 / (5.5 * 7.5 - 5.5)),
    (cut("mortise", depth=3.0, width=1.5, from_bottom=4.75), 1.0 * 4.5 / (5.5 * 7.5 - 4.5)),
    (cut("hole", depth=1.0, length=0.0, from_bottom=3.75), 0.0), (cut("hole", depth=1.0, length=0.0, face="top"), 0.0),
    (cut("mortise", depth=3.0, width=9.0, from_bottom=4.75), 1.0 * 16.5 / (5.5 * 7.5 - 16.5)),
    (GroupCut("J", 40.0, 3.0, 0.5, (Void(5.75, 0.6, 5.0), Void(1.75, 0.6, 5.0)), D, 3.75), 0.0),
    (GroupCut("J", 40.0, 3.0, 0.5, (Void(5.75, 0.6, 5.0),), D, 3.75), 2.0 * 3.0 / (5.0 * 7.5 - 3.0)),
    (GroupCut("J", 40.0, 3.0, 0.0, (Void(1.75, 0.6, 5.5), Void(4.75, 1.0, 2.0)), D, 3.75),
     (2.0 * 3.3 - 1.0 * 2.0) / (5.5 * 7.5 - 5.3)),
])  # fmt: skip
def test_the_middle_of_what_is_left(one: Cut | GroupCut, shift: float) -> None:
    """By the areas that are missing: the force of 1,000 lb off it bends what is left."""
    check = net(one, Solved((0.0, 1000.0)))
    M = next(step.value for step in check.steps if step.symbol == "M")
    assert pytest.approx(1000.0 * shift, rel=1e-6, abs=1e-9) == M


@pytest.mark.parametrize(("one", "there"), [
    (cut(at=40.0, length=4.0), (38.0, 42.0)), (cut(at=1.0, length=4.0), (0.0, 3.0)),
    (cut(at=86.0, length=4.0), (84.0, LONG)),
    (cut("hole", at=40.0, length=0.0, depth=2.0, from_bottom=3.0), (39.0, 41.0)),
    (cut("hole", at=40.0, length=6.0, depth=2.0, from_bottom=3.0), (37.0, 43.0)),
    (cut("mortise", at=40.0, length=1.0, depth=2.0, width=1.5, from_bottom=3.0), (39.5, 40.5)),
    (GroupCut("J", 40.0, 3.0, 0.5, (), D, 3.75), (38.5, 41.5)),
])  # fmt: skip
def test_forces_are_those_over_the_cut(one: Cut | GroupCut, there: tuple[float, float]) -> None:
    solved = Solved((0.0, 1000.0))
    net(one, solved)
    assert solved.asked == [pytest.approx(there)] * 2


def test_what_leaves_nothing_is_asked_with_the_forces() -> None:
    check = net(GroupCut("J", 40.0, 3.0, 5.5, (), D, 3.75), Solved((-700.0, 900.0)))
    assert check.verdict == "refer" and dict(check.questions[0].forces) == {"pushes": 700.0, "pulls": 900.0}
    assert list(net_checks(made("8 in round"), Solved(), [cut()])) == []  # type: ignore[arg-type]


# ---- a member in a fire ----------------------------------------------------------------------------------------------


def test_wind_does_not_count_with_a_fire() -> None:
    """Half an hour on three faces: a = 1.2 x 1.5 x 0.5^0.813 in (NDS 2018 16.2, memory); forces under snow alone."""
    fire = Fire(minutes=30, exposed=("bottom", "left", "right"), others_covered_by=SHEET, bracing_lasts=SHEET)
    one = made()
    one = MadeOf(one.member.model_copy(update={"fire": fire}), one.size, one.section, one.wood)
    snow, wind = np.array([[1.0], [0.0]]), np.array([[0.0], [9.0]])
    both = snow + wind
    forces = MemberForces("left strut", (LONG,), -800.0 * both, 900.0 * both, 300.0 * both, -4000.0 * both,
                          5000.0 * both, np.zeros(2, bool), False)  # fmt: skip
    combinations = (loaded("D + S", "S"), loaded("D + W", "W"))
    solved: Any = SimpleNamespace(members={"left strut": forces}, combinations=combinations)
    found = list(fire_checks(one, solved, (60.0, "as given"), leans=False))
    a = 1.2 * 1.5 * 0.5**0.813
    b, d = B - 2 * a, D - a
    of = {check.what.partition(": ")[2]: check for check in found}
    assert of["tension"].demand == pytest.approx(900.0 / (b * d))
    assert of["shear"].demand == pytest.approx(1.5 * 300.0 / (b * d)) and of["shear"].id == "fire.shear"
    assert of["bending"].demand == pytest.approx(5000.0 / (b * d**2 / 6))
    assert of["bending, lower edge pressed"].demand == pytest.approx(4000.0 / (b * d**2 / 6))
    P = next(step.value for step in of["bending with compression"].steps if step.symbol == "P")
    assert P == 800.0 and {check.combination for check in found if check.ratio is not None} == {"D + S"}
    assert [check.id for check in found if check.ratio is None] == ["fire.cover", "fire.engineer"]


# ---- sag -------------------------------------------------------------------------------------------------------------


def frame(**more: Any) -> Any:
    return SimpleNamespace(name="truss", finish="none", joint_stiffness=None, joint_play=None, joints_by="", **more)


def sagging(kinds: tuple[str, ...] = ("D", "S"), run_of: tuple[int, ...] = (0, 0)) -> Any:
    dead = loaded("D", "D")
    return SimpleNamespace(combinations=(dead, loaded("D + S", "S"))[: len(run_of)], run_of=np.array(run_of),
                           cases=[SimpleNamespace(kind=kind) for kind in kinds])  # fmt: skip


def against(moved: Any, *, length: float = 288.0, K_cr: float = 1.5, play: Any = 0.0, solved: Any = None,
            **of_frame: Any) -> list[Check]:  # fmt: skip
    one = frame()
    for name, value in of_frame.items():
        setattr(one, name, value)
    return list(_against(one, solved or sagging(), "the frame", np.array(moved), length, K_cr, play))


def test_what_passes_and_all_with_creep() -> None:
    """Two places: dead load lets them down by 0.2 and 0.3 in, with snow by 0.9 and 0.6; L/240 and L/120 of 288 in."""
    passing, whole = against([[0.2, 0.3], [0.9, 0.6]])
    assert (passing.demand, passing.capacity) == (pytest.approx(0.7), pytest.approx(288 / 240))
    assert (whole.demand, whole.capacity) == (pytest.approx(0.9 + 0.5 * 0.2), pytest.approx(288 / 120))
    played = against([[0.2, 0.3], [0.9, 0.6]], play=np.array([[0.0, 0.0], [0.0, 0.4]]))
    assert played[0].demand == pytest.approx(0.7) and played[1].demand == pytest.approx(0.6 + 0.5 * 0.3 + 1.5 * 0.4)
    risen = against([[-0.2, -0.3], [-0.9, -0.6]])
    assert [one.demand for one in risen] == [0.0, 0.0]


@pytest.mark.parametrize(("kinds", "finish", "parts"), [
    (("D", "S"), "none", [240, 120]), (("D", "S"), "plaster", [360, 240]), (("D", "L"), "none", [360, 240]),
    (("D", "S"), "gypsum board", [240, 180]),
])  # fmt: skip
def test_limits_by_finish_and_people(kinds: tuple[str, ...], finish: str, parts: list[int]) -> None:
    """IBC Table 1604.3, IRC R301.7 (read)."""
    found = against([[0.1], [0.2]], solved=sagging(kinds), finish=finish)
    assert [one.capacity for one in found] == [pytest.approx(288.0 / part) for part in parts]


@pytest.mark.parametrize(("said", "ids"), [
    ({}, ["frame_slip"]), ({"joint_stiffness": 5e4}, ["frame_joints_by"]),
    ({"joint_play": 0.0}, ["frame_slip", "frame_joints_by"]),
    ({"joint_stiffness": 5e4, "joints_by": SHEET}, []), ({"joint_play": 0.0, "joints_by": SHEET}, ["frame_slip"]),
    ({"joint_stiffness": 5e4, "joints_by": "me"}, ["frame_joints_by"]),
])  # fmt: skip
def test_what_nobody_said_of_its_joints(said: dict[str, Any], ids: list[str]) -> None:
    one = frame()
    for name, value in said.items():
        setattr(one, name, value)
    assert [asked.id.partition("/")[2] for asked in _asked(one)] == ids


def test_a_member_bends_off_the_line_between_its_points() -> None:
    """Either way, panel by panel, no farther than it is long."""
    asked = []

    def sag(a: float, b: float) -> Any:
        asked.append((a, b))
        return np.array([-0.3, 0.0]), None, np.array([0.2, 0.1]), None

    line = SimpleNamespace(length=86.5, sag_between=sag)
    solved: Any = SimpleNamespace(members={"x": SimpleNamespace(panels=(40.0, 46.6))}, lines=lambda stick: [line, line])
    assert _of_member(solved, "x").tolist() == [[0.3, 0.3], [0.1, 0.1]] * 2
    assert asked[:2] == [(0.0, 40.0), (40.0, 86.5)]


def spread(left: tuple[float, float], right: tuple[float, float], finish: str) -> Check:
    """How far the feet move to the right under dead load alone and with snow; K_cr 1.5."""
    one = frame(shape=SimpleNamespace(feet=("a", "between", "b")))
    one.finish = finish
    moves = {"a": np.array(left), "b": np.array(right)}
    (check,) = _spread(one, SimpleNamespace(sideways=moves.__getitem__, **vars(sagging())), 1.5)  # type: ignore[arg-type]
    return check


@pytest.mark.parametrize(("left", "right", "finish", "verdict"), [
    ((0.0, 0.0), (0.1, 0.2), "plaster", "passes"), ((0.0, 0.0), (0.1, 0.21), "plaster", "refer"),
    ((-0.05, -0.11), (0.05, 0.1), "plaster", "refer"), ((0.0, 0.0), (0.1, 0.21), "none", "passes"),
    ((0.0, 0.0), (-0.1, -0.9), "plaster", "passes"),
])  # fmt: skip
def test_feet_part_by_a_quarter_of_an_inch(left: Any, right: Any, finish: str, verdict: str) -> None:
    """Half of what dead load does comes on top with creep: 0.2 + 0.5 x 0.1 in (judgment)."""
    check = spread(left, right, finish)
    assert check.verdict == verdict
    if right == (0.1, 0.2):
        assert check.notes[0].startswith("0.25 in with creep")
    if right[1] < 0:
        assert check.notes[0].startswith("0 in with creep")
