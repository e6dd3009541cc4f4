"""Rules of a frame as a whole, forces given: form, sway, buckling, cuts at its feet, what it hands on, tables.

A 6x8 dressed (5 1/2 x 7 1/2 in; F_v 170 psi, Table 4D, read); D + S, C_D 1.15.
"""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood.material import modulus_min_prime, modulus_prime
from beamcheck.checks.frames.birdsmouth import birdsmouth_checks, seat_of
from beamcheck.checks.frames.result import _reactions
from beamcheck.checks.frames.tables import forces_table, frame_loads_table, reactions_table
from beamcheck.checks.frames.whole import (
    _buckling,
    _collar,
    _form,
    _one_way,
    _sway,
    _upright,
    eccentric,
    in_plane_length,
)
from beamcheck.model.frames.frame import FrameFoot, FrameForce
from beamcheck.model.loads import Load
from beamcheck.model.reading.reader import job_from_data

from .jobs import SHEET, king
from .test_net_and_sag_by_force import TWO, made


def frame(kind: str = "king post", **more: Any) -> Any:
    given: dict[str, Any] = {"name": "truss", "kind": kind, "upright_by": "", "sway_held_by": "", "rise": None,
                             "collar_height": None, **more}  # fmt: skip
    return SimpleNamespace(**given)


def shape(**more: Any) -> Any:
    given: dict[str, Any] = {"points": {"a": (0.0, 0.0), "b": (480.0, 9.0), "top": (200.0, 900.0)}, "feet": ("a", "b")}
    return SimpleNamespace(**{**given, **more})


@pytest.mark.parametrize(("kind", "b", "what"), [
    ("king post", 480.0, []), ("king post", 480.1, ["its span"]), ("hammer beam", 300.0, ["its form"]),
    ("hammer beam", -481.0, ["its form", "its span"]),
])  # fmt: skip
def test_form_and_span(kind: str, b: float, what: list[str]) -> None:
    """40 ft from foot to foot, whichever comes first."""
    at = shape(points={"a": (0.0, 0.0), "b": (b, 9.0), "top": (9000.0, 900.0)})
    found = list(_form(frame(kind, shape=at)))
    assert [one.what for one in found] == what and {one.verdict for one in found} <= {"refer"}


@pytest.mark.parametrize(("said", "verdict", "words"), [
    ("", "refer", "is not said"), ("the deck", "refer", "held by 'the deck'"),
    (f"purlins, {SHEET}", "passes", "purlins"),
])  # fmt: skip
def test_what_holds_it_upright_and_from_swaying(said: str, verdict: str, words: str) -> None:
    for found, field in ((_upright(frame(upright_by=said)), "upright_by"),
                         (next(_sway(frame("braced bent", sway_held_by=said), SWAYS)), "sway_held_by")):  # fmt: skip
        assert found.verdict == verdict and words in found.notes[0]
        assert [one.field for one in found.questions] == ([f"frame.truss.{field}"] if verdict == "refer" else [])


SWAYS: Any = SimpleNamespace(triangulated=False)


@pytest.mark.parametrize(("kind", "triangulated", "asked"), [
    ("braced bent", False, True), ("free form", False, True), ("hammer beam", False, True), ("king post", False, False),
    ("braced bent", True, False), ("free form", True, False),
])  # fmt: skip
def test_which_frames_sway(kind: str, triangulated: bool, asked: bool) -> None:
    assert bool(list(_sway(frame(kind), SimpleNamespace(triangulated=triangulated)))) is asked  # type: ignore[arg-type]


@pytest.mark.parametrize(("kind", "rise", "height", "asked"), [
    ("collar tie", 90.0, 29.9, False), ("collar tie", 90.0, 30.1, True), ("king post", 90.0, 60.0, False),
    ("collar tie", None, 60.0, False), ("collar tie", 90.0, None, False),
])  # fmt: skip
def test_collars_above_the_lower_third(kind: str, rise: Any, height: Any, asked: bool) -> None:
    assert bool(list(_collar(frame(kind, rise=rise, collar_height=height)))) is asked


@pytest.mark.parametrize(("acts", "idle", "asked"), [
    ("push", (False, True), True), ("push", (False, False), False), ("both", (False, True), False),
])  # fmt: skip
def test_a_dry_joint_that_opens(acts: str, idle: tuple[bool, bool], asked: bool) -> None:
    at = shape(sticks=[SimpleNamespace(name="strut", acts=acts)])
    solved: Any = SimpleNamespace(members={"strut": SimpleNamespace(idle=np.array(idle))}, combinations=TWO)
    found = list(_one_way(frame(shape=at), solved))
    assert bool(found) is asked and all("no part under D + S" in one.notes[0] for one in found)


@pytest.mark.parametrize(("kind", "stick", "slope", "triangulated", "collar", "length"), [
    ("king post", "left rafter", 33.0, True, None, 70.0),
    ("collar tie", "left rafter", 33.0, False, 30.0, 1.35 * 120.0),
    ("collar tie", "collar", 0.0, False, 30.0, 70.0), ("collar tie", "left rafter", 33.0, False, None, 70.0),
    ("king post", "left rafter", 33.0, True, 30.0, 70.0), ("braced bent", "left post", 90.0, False, None, 120.0),
    ("braced bent", "left post", 60.0, False, None, 70.0), ("braced bent", "left post", 60.1, False, None, 120.0),
    ("hammer beam", "wall post", 90.0, True, None, 120.0), ("free form", "x", 30.0, False, None, 120.0),
    ("free form", "x", 30.0, True, None, 70.0), ("hammer beam", "x", 30.0, False, None, 120.0),
    ("king post", "king post", 90.0, True, None, 70.0),
])  # fmt: skip
def test_length_that_buckles_in_its_plane(
    kind: str, stick: str, slope: float, triangulated: bool, collar: float | None, length: float
) -> None:
    """Panels of 50 and 70 in: the longest where triangles hold its points, else all of it."""
    at = shape(slope=lambda name: slope)
    solved: Any = SimpleNamespace(members={stick: SimpleNamespace(panels=(50.0, 70.0))}, triangulated=triangulated)
    found, why = in_plane_length(frame(kind, shape=at, collar_height=collar), solved, stick)
    assert found == pytest.approx(length) and why


@pytest.mark.parametrize(("slips", "points", "leans"), [(True, 2, True), (True, 3, False), (False, 2, False)])
def test_struts_lean(slips: bool, points: int, leans: bool) -> None:
    at = shape(stick=lambda name: SimpleNamespace(slips=slips, points=("a",) * points))
    assert eccentric(frame(shape=at), "x") is leans


@pytest.mark.parametrize(("kind", "triangulated", "acts", "factor", "checked"), [
    ("collar tie", False, "both", 4.0, True), ("collar tie", True, "both", 4.0, False),
    ("braced bent", False, "both", 4.0, False),
    ("free form", False, "both", 4.0, False), ("collar tie", False, "push", 4.0, False),
    ("collar tie", False, "both", math.inf, False),
])  # fmt: skip
def test_buckling_of_the_whole(kind: str, triangulated: bool, acts: str, factor: float, checked: bool) -> None:
    """The elastic factor times the least E_min'/E'."""
    at = shape(sticks=[SimpleNamespace(acts="both"), SimpleNamespace(acts=acts)])
    solved: Any = SimpleNamespace(triangulated=triangulated, buckling=lambda: (factor, 1), combinations=TWO)
    one, pad = made(), SilentPad()
    weak = made(stock="6x10")
    found = list(_buckling(frame(kind, shape=at), solved, {"a": one, "b": weak}))
    share = min(float(modulus_min_prime(pad, each.wood) / modulus_prime(pad, each.wood)) for each in (one, weak))
    assert [one.combination for one in found] == (["D + S"] if checked else [])
    assert not checked or (found[0].demand, found[0].capacity) == (1.0, pytest.approx(factor * share))


# ---- the level cut in a foot -----------------------------------------------------------------------------------------


def cut_at(slope: float, cut: float | None, size: str = "6x8 dressed", V: float = 900.0) -> list[Check]:
    one = made(size)
    one = type(one)(one.member.model_copy(update={"stick": "rafter"}), one.size, one.section, one.wood)
    object.__setattr__(one, "member", SimpleNamespace(slope=slope, stick="rafter"))
    foot = FrameFoot.model_construct(at="heel", on="wall", bearing=4.0, cut=cut)
    solved: Any = SimpleNamespace(members={"rafter": SimpleNamespace(V=np.array([[0.0, 0.0], [0.3 * V, V]]))},
                                  combinations=TWO)  # fmt: skip
    return list(birdsmouth_checks(frame(), 2, foot, one, solved))


@pytest.mark.parametrize(("slope", "size", "looked_at"), [
    (0.0, "6x8 dressed", False), (0.1, "6x8 dressed", True), (84.9, "6x8 dressed", True), (85.0, "6x8 dressed", False),
    (33.0, "8 in round", False),
])  # fmt: skip
def test_only_a_rafter_by_itself_is_cut(slope: float, size: str, looked_at: bool) -> None:
    assert bool(cut_at(slope, None, size)) is looked_at
    if not looked_at:
        (said,) = cut_at(slope, 1.0, size)
        assert said.verdict == "fails" and "uncut: leave cut out" in said.notes[0]


def test_a_cut_that_nobody_measured_is_asked_with_two_answers() -> None:
    """A quarter of 7 1/2 in down to an eighth; then half of that depth, which fails."""
    (check,) = cut_at(33.0, None)
    (asked,) = check.questions
    assert asked.field == "frame.truss.feet.2.cut" and [one.says for one in asked.answers] == ["1 7/8 in", "3 3/4 in"]


@pytest.mark.parametrize(("cut", "verdicts"), [
    (1.875, ["passes", "passes"]), (1.876, ["fails", "passes"]), (7.4, ["fails", "fails"]), (7.5, ["fails"]),
])  # fmt: skip
def test_a_cut_up_to_a_quarter_and_its_shear(cut: float, verdicts: list[str]) -> None:
    """(2/3) F_v' b d_n (d_n/d)^2 (3.4.3.2), with the largest shear anywhere in it."""
    found = cut_at(33.0, cut)
    assert [one.verdict for one in found] == verdicts and {one.where for one in found} == {"heel"}
    if len(found) > 1:
        d_n = 7.5 - cut
        assert found[1].demand == 900.0 and found[1].combination == "D + S"
        assert found[1].capacity == pytest.approx(2 / 3 * 170 * 1.15 * 5.5 * d_n * (d_n / 7.5) ** 2, rel=1e-6)


@pytest.mark.parametrize(("bearing", "cut", "long"), [
    (4.0, None, 4.0), (16.0, None, 15.0), (4.0, 1.0, 2.0), (1.5, 1.0, 1.5), (16.0, 8.0, 15.0),
])  # fmt: skip
def test_no_more_of_a_seat_than_the_rafter_touches(bearing: float, cut: float | None, long: float) -> None:
    """At 30 degrees 7 1/2 in of depth are 15 in level, and a cut of 1 in is 2 in long."""
    one = made()
    object.__setattr__(one, "member", SimpleNamespace(slope=30.0, stick="rafter"))
    foot = FrameFoot.model_construct(at="heel", on="wall", bearing=bearing, cut=cut)
    assert seat_of(one, foot) == pytest.approx(long)


# ---- what it hands on, and its tables --------------------------------------------------------------------------------


@pytest.mark.parametrize(("width", "breadth"), [(None, 5.5), (4.0, 4.0), (9.0, 5.5)])
def test_what_comes_to_each_foot(width: float | None, breadth: float) -> None:
    """By kind the most and least over all runs: of dead load as it is, of others no less than nothing."""
    truss = job_from_data(king()).frame[0]
    foot = truss.feet[0].model_copy(update={"bearing_width": width, "lands_at": 36.0})
    truss = truss.model_copy(update={"feet": (foot, truss.feet[1])})
    cases = [SimpleNamespace(kind=kind) for kind in "DSS"]
    by_case = {"left heel": np.array([[500.0, 300.0, -40.0], [450.0, 320.0, -60.0]]), "right heel": np.ones((2, 3))}
    nodes = {name: SimpleNamespace(reaction=np.array([[1.0, 900.0], [0.0, -20.0]])) for name in by_case}
    solved: Any = SimpleNamespace(cases=cases, by_case=by_case, nodes=nodes)
    of: Any = {one.stick: made() for one in truss.sticks}
    for name, one in of.items():
        object.__setattr__(one, "member", next(stick for stick in truss.sticks if stick.stick == name))
    found = _reactions(truss, solved, of, Context(Structure({}, {})))
    forces = {"D": (500.0, 450.0), "S": (320.0, -60.0)}
    row, (on, load) = found.rows[0], found.transfers[0]
    assert (row.on, row.by_kind, row.largest, row.least) == ("west wall", forces, 900.0, -20.0)
    assert (on, load.forces, load.at, load.applied, load.bearing) == ("west wall", forces, 36.0, "top", breadth)
    assert len(found.rows) == 2 and found.rows[1].by_kind == {"D": (1.0, 1.0), "S": (1.0, 0.0)}
    unknown = _reactions(truss, SimpleNamespace(by_case=None), of, Context(Structure({}, {})))  # type: ignore[arg-type]
    assert [load.unknown for _, load in unknown.transfers] == [True, True]


def test_tables_say_the_largest_of_each() -> None:
    one = SimpleNamespace(pressed=np.array([0.0, 90.0]), pulled=np.array([30.0, 0.0]),
                          M_high=np.array([[0.0, 120.0], [12.0, 24.0]]), M_low=np.array([[-240.0, 0.0], [0.0, 0.0]]),
                          V=np.array([[5.0, 1.0], [2.0, 9.0]]))  # fmt: skip
    bare = SimpleNamespace(pressed=np.zeros(2), pulled=np.zeros(2), M_high=np.zeros((2, 1)), M_low=np.zeros((2, 1)),
                           V=np.zeros((2, 1)))  # fmt: skip
    at = shape(sticks=[SimpleNamespace(name="a"), SimpleNamespace(name="b")])
    solved: Any = SimpleNamespace(members={"a": one, "b": bare}, combinations=TWO, runs=("feet free", ""), nodes={
        "heel": SimpleNamespace(reaction=np.array([[-70.0, 900.0], [50.0, -20.0]]))})  # fmt: skip
    table = forces_table(frame(shape=at), solved)
    assert table.rows == (("a", "90 lb", "D + S", "30 lb", "D", "20 lb-ft", "9 lb"),
                          ("b", "–", "–", "–", "–", "0 lb-ft", "0 lb"))  # fmt: skip
    assert table.note == "Runs: feet free."
    solved.runs = ("",)
    assert forces_table(frame(shape=at), solved).note == "Runs: one."
    feet = reactions_table(frame(feet=[SimpleNamespace(at="heel", on="wall")]), solved)
    assert feet.rows == (("heel", "wall", "900 lb", "\N{MINUS SIGN}20 lb", "70 lb"),)


def test_loads_as_they_are_given() -> None:
    """On plan unless they are weight along a slope; widths of areas alone."""
    force = FrameForce.model_construct(what="purlin", at="ridge", dead=100.0, live=None, roof_live=None, snow=250.0,
                                       wind=None, wind_sideways=None)  # fmt: skip
    bare = {"live": None, "roof_live": None, "snow": None, "wind": None, "dead": None, "width": None, "measured": None}
    own = Load.model_construct(**{**bare, "what": "roof", "dead": (10 / 144, "area"), "snow": (20 / 144, "area")})
    line = Load.model_construct(**{**bare, "what": "wall", "dead": (50 / 12, "line"), "width": 24.0})
    plan = Load.model_construct(
        **{**bare, "what": "deck", "dead": (10 / 144, "area"), "width": 24.0, "measured": "plan"}
    )
    members = [SimpleNamespace(name="rafters", carries=(own, line, plan))]
    table = frame_loads_table(frame(carries=(force,), members=members, spacing=96.0))
    assert [row[1:] for row in table.rows] == [
        ("dead", "100 lb", "ridge", "–"), ("snow", "250 lb", "ridge", "–"),
        ("dead", "10 psf", "rafters, along the slope", "8 ft"), ("snow", "20 psf", "rafters, on plan", "8 ft"),
        ("dead", "50 plf", "rafters, along the slope", "–"), ("dead", "10 psf", "rafters, on plan", "2 ft"),
    ]  # fmt: skip
    lone = frame_loads_table(frame(carries=(), members=members, spacing=None))
    assert [row[-1] for row in lone.rows] == ["–", "–", "–", "2 ft"]
