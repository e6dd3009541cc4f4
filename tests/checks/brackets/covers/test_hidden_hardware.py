"""How large the hardware of an anchor group is, by its holes, heads, washers and plate; covers that are too small."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.brackets.covers.hidden_hardware import (
    _joint_hidden,
    _too_small,
    hardware_size,
    hidden_checks,
    on_a_frame,
    stands_out,
)
from beamcheck.checks.core.result import Check
from beamcheck.model.anchors.anchor import Anchor, Fastener, Holes, Plate
from beamcheck.model.beams import Beam
from beamcheck.model.brackets.bracket import Cover
from beamcheck.model.frames.frame import Frame
from beamcheck.model.roofs import Rafter, Tie

from ...anchors.anchors import A36
from ..brackets import SOLID, Data, bracket, structure

HOLES: Data = {"rows": 2, "columns": 3, "row_spacing": "2 in", "spacing": "3 in", "end": "4 in", "edge": "2 in"}
SCREW: Data = {"kind": "wood screw", "size": "No. 14", "length": "3 in"}
BOLT: Data = {"kind": "bolt", "size": "1/2 in"}  # a head 1.75 D across the flats and 0.6 D high (ASME B18.2.1)


def anchor(manner: str = "wood side", **more: Any) -> Anchor:
    """Whatever else its manner asks for."""
    classes = {"holes": Holes, "fastener": Fastener, "plate": Plate}
    given = {"holes": HOLES, "fastener": BOLT, "plate": None, **more}
    made = {key: None if given[key] is None else of.model_validate(given[key]) for key, of in classes.items()}
    return Anchor.model_construct(name="A", manner=manner, into="post", **made)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("more", "along", "across"),
    [
        ({}, 6.875, 2.875), ({"fastener": {**BOLT, "washer": "1 3/8 in"}}, 7.375, 3.375),
        ({"fastener": {**BOLT, "washer": "1/2 in"}}, 6.875, 2.875),
        ({"fastener": {"kind": "lag screw", "size": "3/8 in", "length": "4 in"}}, 6.65625, 2.65625),
        ({"fastener": SCREW}, 6.484, 2.484),
        ({"fastener": SCREW, "holes": {"rows": 1, "columns": 1, "end": "4 in", "edge": "2 in"}}, 0.484, 0.484),
        ({"manner": "plate one side", "plate": A36}, 10.0, 6.0),
        ({"manner": "plate one side", "plate": {**A36, "length": "5 in", "width": "1 in"}}, 6.875, 2.875),
        ({"manner": "plate one side", "plate": A36, "fastener": None}, 10.0, 6.0),
        ({"manner": "plate one side", "plate": A36, "holes": None}, 10.0, 6.0),
        ({"manner": "concealed plate", "plate": A36}, 6.875, 2.875),  # in its slot it does not show
    ],
)  # fmt: skip
def test_what_shows_of_a_group(more: Data, along: float, across: float) -> None:
    """Three columns 3 in apart and two rows 2 in apart, with a head on every side; or the plate, where it is larger."""
    assert hardware_size(anchor(**more)) == pytest.approx((along, across))


@pytest.mark.parametrize("more", [{"fastener": None}, {"holes": None}])
def test_a_group_of_which_holes_or_fastener_are_not_said_has_no_size(more: Data) -> None:
    assert hardware_size(anchor(**more)) is None


@pytest.mark.parametrize(
    ("more", "out"),
    [
        ({}, 0.3), ({"fastener": {**BOLT, "washer": "1 3/8 in"}}, 0.3 + 0.109),
        ({"fastener": {**BOLT, "counterbore": "1 in", "counterbore_depth": "1/8 in"}}, 0.3 - 0.125),
        ({"fastener": {**BOLT, "counterbore": "1 in", "counterbore_depth": "1 in"}}, 0.0),
        ({"manner": "plate one side", "plate": A36}, 0.25 + 0.3), ({"manner": "concealed plate", "plate": A36}, 0.3),
        ({"manner": "plate one side", "plate": A36, "fastener": None}, 0.25),
        ({"manner": "plate one side", "plate": A36, "fastener": SCREW},
         0.25),
        ({"fastener": {"kind": "lag screw", "size": "3/8 in", "length": "4 in"}}, 0.225),
    ],
)  # fmt: skip
def test_how_far_it_stands_out(more: Data, out: float) -> None:
    """Plate, washer (1/2 in: 0.109 in thick, ASME B18.21.1) and head; what is sunk does not."""
    assert stands_out(anchor(**more)) == pytest.approx(out)


def test_a_cover_is_too_small_by_more_than_a_tape_errs() -> None:
    """1/32 in; what is asked is the next sixteenth."""
    piece = bracket(SOLID, role="cover", cover={"hides": ["A"]})
    for given, short in ((2.0, False), (1.97, False), (1.96875, False), (1.968, True)):
        cover = Cover.model_validate({"hides": ["A"], "heads_width": f"{given} in"})
        found = list(_too_small(piece, cover, "A", (("heads_width", 2.0), ("heads_height", 9.0))))
        assert bool(found) is short
    (check,) = _too_small(piece, cover, "A", (("heads_width", 2.01),))
    assert check.questions[0].answers[0].sets[0][1] == "2.0625 in"


@pytest.mark.parametrize("angle", [0.0, 30.0, 90.0, 150.0, -30.0])
def test_hardware_of_a_joint_is_as_large_as_the_box_around_each_member(
    angle: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Bolts of 6 7/8 x 2 7/8 in along a member aslant, beside what is 1/2 in across; to half of a tape's error."""
    small = anchor(fastener=SCREW, holes={"rows": 1, "columns": 1, "end": "4 in", "edge": "2 in"})
    c, s = abs(math.cos(math.radians(angle))), abs(math.sin(math.radians(angle)))
    sizes = {"heads_width": 6.875 * c + 2.875 * s, "heads_height": 6.875 * s + 2.875 * c, "heads_stand_out": 0.3}
    assert asked_of_a_joint([(small, 0.0), (anchor(), angle), (small, 90.0)], sizes, 0.0, monkeypatch) == []
    fields = [f"bracket.K.cover.{field}" for field in sizes]
    assert asked_of_a_joint([(anchor(), angle)], sizes, 0.05, monkeypatch) == fields


def test_a_joint_whose_hardware_has_no_size_is_not_compared(monkeypatch: pytest.MonkeyPatch) -> None:
    sizes = dict.fromkeys(("heads_width", "heads_height", "heads_stand_out"), 0.1)
    unsaid = anchor(holes=None, fastener=None)
    assert asked_of_a_joint([(unsaid, 0.0)], sizes, 0.0, monkeypatch) == []
    assert asked_of_a_joint([], sizes, 0.0, monkeypatch) == []


def asked_of_a_joint(
    hardware: list[tuple[Anchor, float]], sizes: dict[str, float], less: float, monkeypatch: pytest.MonkeyPatch
) -> list[str]:
    """Fields of the cover that are asked for, where each says that much less; it is fixed to what the joint joins."""
    monkeypatch.setattr("beamcheck.checks.joints.hidden.hardware_of", lambda joint, context: hardware)
    joint: Any = SimpleNamespace(name="J", frame=None, post="post", members=(), stands_on=None)
    cover = Cover.model_validate({"hides": ["J"]} | {field: f"{size - less} in" for field, size in sizes.items()})
    piece = bracket(SOLID, role="cover", cover={"hides": ["J"]})
    return [one.field for check in _joint_hidden(piece, cover, joint, structure()) for one in check.questions]


def seat(on: str, held_by: str | None = "A") -> Any:
    return SimpleNamespace(on=on, held_by=held_by)


def beam(*seats: Any, name: str = "B") -> Beam:
    return Beam.model_construct(name=name, supports=seats)


def rafter(slope: float = 0.0, on: str = "post") -> Rafter:
    return Rafter.model_construct(name="R", slope=slope, wall=seat(on))


def hides(into: str | None, *held: Any, cover: Data | None = None, on: str = "post") -> list[Check]:
    """A cover on the post of the group A, which holds those sticks."""
    group = anchor().model_copy(update={"into": into})
    structure: Any = SimpleNamespace(all_joints=[SimpleNamespace(name="J")], sticks_held_by=lambda name: held)
    here: Any = SimpleNamespace(structure=structure, anchor=lambda name: group if name == "A" else None)
    piece = bracket(SOLID, role="cover", cover={"hides": ["A"]}).model_copy(update={"on": on})
    return list(hidden_checks(piece, Cover.model_validate({"hides": ["A"], **(cover or {})}), here))


@pytest.mark.parametrize(
    ("into", "held", "on", "belongs"),
    [
        ("post", (), "post", True), ("slab", (), "post", False), (None, (), "post", False),
        ("slab", (beam(seat("slab", None), seat("post")),), "post", True),
        ("slab", (beam(seat("slab"), seat("post")),), "post", True),
        ("slab", (beam(seat("slab"), seat("post", None)),), "post", False),
        ("slab", (beam(seat("slab"), seat("post", "other")),), "post", False),
        ("slab", (beam(seat("slab")),), "B", True), ("slab", (beam(seat("slab", None)),), "B", False),
        ("slab", (rafter(),), "post", True), ("slab", (rafter(on="plate"),), "post", False),
        ("slab", (Tie.model_construct(name="T", ends_held_by="A"),), "T", True),
        ("slab", (Tie.model_construct(name="T", ends_held_by="other"),), "T", False),
    ],
)  # fmt: skip
def test_a_group_belongs_where_it_is_fastened_and_to_what_it_holds_there(
    into: str | None, held: tuple[Any, ...], on: str, belongs: bool
) -> None:
    found = hides(into, *held, on=on)
    assert (not found) is belongs
    if found:
        (asked,) = found[0].questions
        assert (f"into {into}" if into else "not said into what") in found[0].notes[0]
        assert [answer.sets for answer in asked.answers] == ([(("bracket.K.on", into),)] if into else [])


@pytest.mark.parametrize("slope", [0.0, 30.0, 60.0])
def test_hardware_along_a_rafter_is_as_large_as_the_box_around_it(slope: float) -> None:
    """6 7/8 x 2 7/8 in: level or aslant, whichever is larger, for how the group is drawn is not said."""
    c, s = math.cos(math.radians(slope)), math.sin(math.radians(slope))
    sizes = {"heads_width": max(6.875, 6.875 * c + 2.875 * s), "heads_height": max(2.875, 6.875 * s + 2.875 * c)}
    for less, fields in ((0.0, []), (0.05, [f"bracket.K.cover.{field}" for field in sizes])):
        given = {field: f"{size - less} in" for field, size in sizes.items()}
        found = hides("post", rafter(slope), beam(seat("post")), cover=given)
        assert [one.field for check in found for one in check.questions] == fields


@pytest.mark.parametrize(("most", "light"), [(50.0, True), (50.01, False)])
def test_up_to_fifty_pounds_may_hang_on_a_frame_unsaid(most: float, light: bool) -> None:
    frame: Any = SimpleNamespace(under=lambda name: Frame.model_construct(name=name))
    (found,) = on_a_frame(bracket(SOLID), most, frame)
    assert found.verdict == ("passes" if light else "refer")
    assert list(on_a_frame(bracket(SOLID), 500.0, structure())) == []


def test_one_fastener_of_no_known_size_has_no_size() -> None:
    one = {"rows": 1, "columns": 1, "end": "4 in", "edge": "2 in"}
    assert hardware_size(anchor(fastener={"kind": "bolt", "size": "9/7 in"}, holes=one)) is None
