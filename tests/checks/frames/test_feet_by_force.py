"""The feet of a frame under forces that are given: who holds them, what lifts, what they push with, each at its limit.

The king-post truss of `jobs.py` on walls that are confirmed for 12,000 lb on each seat; D, then D + S.
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.context import JOINTS_OF, Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.frames.feet import _lifted, _thrust, _under, ask_thrust, held_by_nobodys_word, on_the_seat
from beamcheck.model.existing import Existing
from beamcheck.model.frames.frame import Frame
from beamcheck.model.reading.reader import job_from_data

from ..anchors.anchors import loaded
from .jobs import SHEET, king, wall

TWO = (loaded("D", "D"), loaded("D + S", "S"))
FREE = {"slides": False, "slides_by": ""}


def setting(feet: list[dict[str, Any]] | None = None, walls: dict[str, Any] | None = None,
            joints: tuple[Any, ...] = ()) -> tuple[Frame, Context]:  # fmt: skip
    """With other words about its feet and their walls; `walls` None: a wall of which nobody takes anything sideways."""
    frame = job_from_data(king()).frame[0]
    changed = tuple(foot.model_copy(update=more) for foot, more in zip(frame.feet, feet or [{}, {}], strict=True))
    frame = frame.model_copy(update={"feet": changed})
    under: dict[str, Any] = {name: Existing.model_validate(wall(name, **(walls or {}))) for name in
                             ("west wall", "east wall")}  # fmt: skip
    under["plate beam"] = SimpleNamespace(name="plate beam")
    return frame, Context(Structure({}, under, heads={f"{JOINTS_OF}truss": joints}))


def solved(left: tuple[float, float] = (0.0, 900.0), right: tuple[float, float] = (0.0, 900.0), **more: Any) -> Any:
    """Level and upward force of each wall, after a combination with nothing."""
    nodes = {name: SimpleNamespace(reaction=np.array([[0.0, 0.0], force]))
             for name, force in (("left heel", left), ("right heel", right))}  # fmt: skip
    return SimpleNamespace(nodes=nodes, combinations=TWO, held=(), leans=False, **more)


# ---- what it stands on -----------------------------------------------------------------------------------------------


def test_a_wall_of_others_is_answered_for_and_takes_what_presses() -> None:
    frame, context = setting()
    state = solved()
    reaction = state.nodes["left heel"].reaction
    found = list(_under(frame, frame.feet[0], state, reaction, context))
    assert [one.id for one in found] == ["seat.confirmed", "seat.takes"]
    assert (found[1].demand, found[1].capacity) == (900.0, 12000.0)


def on_a_beam(joints: tuple[Any, ...] = (), up: float = 900.0) -> Check:
    frame, context = setting([{"on": "plate beam"}, {}], joints=joints)
    reaction = np.array([[0.0, 0.0], [0.0, up]])
    (check,) = _under(frame, frame.feet[0], solved(), reaction, context)
    return check


@pytest.mark.parametrize(("kind", "at", "verdict"), [
    ("post base", "left heel", "passes"), ("by others", "left heel", "passes"), ("step", "left heel", "refer"),
    ("post base", "right heel", "refer"),
])  # fmt: skip
def test_a_foot_on_a_piece_of_the_job_has_a_joint_to_it(kind: str, at: str, verdict: str) -> None:
    """Two members meet at the heel: a step joins these, and says nothing of what is below."""
    assert on_a_beam((SimpleNamespace(kind=kind, at=at),)).verdict == verdict


@pytest.mark.parametrize(("up", "presses"), [(900.0, 900.0), (-900.0, 0.0)])
def test_a_foot_is_asked_with_what_presses(up: float, presses: float) -> None:
    check = on_a_beam(up=up)
    assert check.verdict == "refer" and dict(check.questions[0].forces) == {"presses": presses}


def test_one_member_alone_is_joined_to_what_it_stands_on() -> None:
    """The foot of a post with nothing beside it: any joint there is to the ground."""
    frame, context = setting([{"on": "plate beam", "at": "ridge"}, {}],
                             joints=(SimpleNamespace(kind="step", at="foot of the king post"),))  # fmt: skip
    foot = frame.feet[0].model_copy(update={"at": "right rafter, middle"})
    (check,) = _under(frame, foot, solved(), np.zeros((2, 2)), context)
    assert check.verdict == "refer"
    shape = SimpleNamespace(sticks=[SimpleNamespace(points=("a", "b"))])
    alone: Any = SimpleNamespace(name="truss", shape=shape)
    foot = frame.feet[0].model_copy(update={"at": "a"})
    context = setting(joints=(SimpleNamespace(kind="step", at="a"),))[1]
    (check,) = _under(alone, foot, solved(), np.zeros((2, 2)), context)
    assert check.verdict == "passes"


# ---- uplift ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("up", "on", "ids"), [
    (-1.0, "plate beam", []), (-1.1, "plate beam", ["frame.uplift"]), (900.0, "plate beam", []),
    (-1.1, "west wall", ["seat.takes_uplift"]), (-1.0, "west wall", []),
])  # fmt: skip
def test_what_lifts_by_more_than_rounding(up: float, on: str, ids: list[str]) -> None:
    frame, context = setting([{"on": on}, {}], {"takes_uplift": "500 lb"})
    found = list(_lifted(frame, frame.feet[0], np.array([[0.0, 0.0], [0.0, up]]), solved(), context))
    assert [one.id for one in found] == ids
    if ids == ["frame.uplift"]:
        assert dict(found[0].questions[0].forces) == {"lifts": 1.1} and found[0].notes[0].startswith(
            "it lifts with 1.1"
        )
    elif ids:
        assert (found[0].demand, found[0].capacity) == (1.1, 500.0)


# ---- thrust ----------------------------------------------------------------------------------------------------------


def thrust(H: float, feet: list[dict[str, Any]] | None = None, walls: dict[str, Any] | None = None, *,
           leans: bool = False, on: str = "") -> Check:  # fmt: skip
    feet = feet or [{}, {}]
    if on:
        feet = [{**feet[0], "on": on}, feet[1]]
    frame, context = setting(feet, walls)
    state = solved((H, 900.0), (-H, 900.0))
    state.leans = leans
    return _thrust(frame, frame.feet[0], state, context)


@pytest.mark.parametrize(("H", "none"), [(1.0, True), (-1.0, True), (1.1, False), (-1.1, False)])
def test_thrust_of_a_pound_is_none(H: float, none: bool) -> None:
    assert ("no thrust" in thrust(H, [FREE, FREE]).notes[0]) is none


@pytest.mark.parametrize(("slides", "by", "verdict"), [
    (True, f"{SHEET}: slotted holes", "passes"), (True, "", "refer"), (True, "the carpenter", "refer"),
    (False, "", "passes"),
])  # fmt: skip
def test_a_foot_that_slides_has_somebody_who_says_so(slides: bool, by: str, verdict: str) -> None:
    check = thrust(0.0, [FREE, {"slides": slides, "slides_by": by}])
    assert check.verdict == verdict
    assert [one.field for one in check.questions] == (["frame.truss.feet.2.slides_by"] if verdict == "refer" else [])


def test_thrust_against_what_the_wall_takes_sideways() -> None:
    check = thrust(-700.0, [FREE, FREE], {"takes_sideways": "1,000 lb"})
    assert (check.demand, check.capacity, check.combination) == (700.0, 1000.0, "D + S")


@pytest.mark.parametrize(("feet", "leans", "on", "words"), [
    ([FREE, FREE], False, "", "held feet push with up to 700 lb: neither is it said that one slides"),
    ([FREE, {}], False, "", "pushed level with up to 700 lb as the foot that is held: what west wall takes"),
    ([FREE, FREE], True, "", "it stands only as long as its feet are held, and pushes with up to 700 lb"),
    ([FREE, FREE], False, "plate beam", "held feet push with up to 700 lb"),
])  # fmt: skip
def test_thrust_of_which_nothing_is_said(feet: list[dict[str, Any]], leans: bool, on: str, words: str) -> None:
    check = thrust(700.0, feet, leans=leans, on=on)
    assert check.verdict == "refer" and check.notes[0].startswith(words)


@pytest.mark.parametrize(("feet", "leans", "on", "key", "answers"), [
    ([FREE, FREE], False, "", "frame_thrust", 2), ([FREE, {}], False, "", "frame_push", 1),
    ([FREE, FREE], True, "", "frame_push", 1), ([FREE, FREE], False, "plate beam", "frame_thrust", 1),
    ([FREE, {}], False, "plate beam", "frame_thrust_by_engineer", 0),
])  # fmt: skip
def test_who_is_asked_about_thrust(feet: list[dict[str, Any]], leans: bool, on: str, key: str, answers: int) -> None:
    """One foot may slide where none is held one way or another; walls of others may take it, to the next 100 lb."""
    if on:
        feet = [{**feet[0], "on": on}, feet[1]]
    frame, context = setting(feet)
    state = solved((701.0, 900.0), (-350.0, 900.0))
    state.leans = leans
    asked = ask_thrust(frame, state, context)
    assert asked.id == f"truss/{key}" and len(asked.answers) == answers and dict(asked.forces) == {"pushes": 701.0}
    if key == "frame_thrust":
        assert asked.answers[0].sets[0] == ("frame.truss.feet.2.slides", True)
    if answers and not on:
        assert asked.answers[-1].sets == (("existing.west wall.takes_sideways", "800 lb"),
                                          ("existing.east wall.takes_sideways", "800 lb"))  # fmt: skip


def test_two_feet_on_one_wall_are_asked_once_with_the_larger() -> None:
    frame, context = setting([{"on": "west wall", **FREE}, {"on": "west wall", **FREE}])
    asked = ask_thrust(frame, solved((300.0, 900.0), (-701.0, 900.0)), context)
    assert dict(asked.forces) == {"pushes": 701.0}
    assert asked.answers[-1].sets == (("existing.west wall.takes_sideways", "800 lb"),)
    small = ask_thrust(setting([FREE, FREE])[0], solved((1.0, 900.0), (-701.0, 900.0)), setting()[1])
    assert small.answers[-1].sets == (("existing.east wall.takes_sideways", "800 lb"),)


@pytest.mark.parametrize(("held", "takes", "nobody"), [
    ((True, False), False, True), ((False, False), False, False), ((True,), True, False),
])  # fmt: skip
def test_feet_run_as_held_though_nobody_said_so(held: tuple[bool, ...], takes: bool, nobody: bool) -> None:
    frame, context = setting(walls={"takes_sideways": "1,000 lb"} if takes else None)
    state = solved()
    state.held = held
    assert held_by_nobodys_word(frame, state, context) is nobody
    one = Context(Structure({}, {**context.structure.pieces, "east wall": SimpleNamespace(name="east wall")}))  # type: ignore[dict-item]
    assert held_by_nobodys_word(frame, state, one) is any(held)


# ---- which wood lies on the seat -------------------------------------------------------------------------------------


@pytest.mark.parametrize(("joint", "stick"), [
    (None, "tie"), (SimpleNamespace(at="left heel", bears_on="left rafter"), "left rafter"),
    (SimpleNamespace(at="left heel", bears_on="truss: left rafter"), "left rafter"),
    (SimpleNamespace(at="right heel", bears_on="left rafter"), "tie"),
    (SimpleNamespace(at="left heel", bears_on=None), "tie"),
])  # fmt: skip
def test_the_most_level_member_lies_on_the_seat_unless_another_is_said_to(joint: Any, stick: str) -> None:
    frame, context = setting(joints=() if joint is None else (joint,))
    made: Any = {one.stick: SimpleNamespace(member=one) for one in frame.sticks}
    assert on_the_seat(frame, frame.feet[0], made, context).member.stick == stick
