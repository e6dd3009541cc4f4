"""The order in which sticks go together, of small invented frames: what comes first, what waits, and what is told."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.frames.assembly import _hosts, _notes, _shut_out, assembly_of, order_of

Parts = dict[str, str]


def joint(at: str | None, kind: str = "step", **parts: str) -> Any:
    """A joint at a point; its members with their parts, '' for none."""
    members = [SimpleNamespace(name=name, part=part) for name, part in parts.items()]
    return SimpleNamespace(name=f"{kind} at {at}", kind=kind, at=at, members=members)


def frame(slopes: dict[str, float], points: dict[str, tuple[str, str]] | None = None) -> Any:
    paths = {name: SimpleNamespace(name=name, points=(points or {}).get(name, ("p", "q"))) for name in slopes}
    shape = SimpleNamespace(sticks=list(paths.values()), slope=slopes.__getitem__, stick=paths.__getitem__,
                            points={"p": (0.0, 0.0), "q": (30.0, 40.0), "r": (60.0, 0.0)})  # fmt: skip
    return SimpleNamespace(name="F", shape=shape)


@pytest.mark.parametrize(("slopes", "joints", "first"), [
    ({"a": 33.0, "b": 0.0, "c": 0.0}, [("b", "a")], "b"), ({"a": 33.0, "b": 1.0, "c": 1.1}, [("c", "a")], "b"),
    ({"a": 33.0, "b": 0.0, "c": 0.0}, [("a", "c"), ("c", "b"), ("a", "c")], "c"),
    ({"a": 33.0, "b": 20.0, "c": 5.0}, [("a", "b"), ("b", "c")], "b"),
    ({"a": 33.0, "b": 20.0, "c": 5.0}, [("a", "b"), ("c", "c")], "a"),
])  # fmt: skip
def test_first_lies_a_level_stick_with_most_joints(slopes: Any, joints: list[Any], first: str) -> None:
    """Level within a degree; of those alike the first by name in the form."""
    made = [joint("p", **dict.fromkeys(names, "")) for names in joints]
    assert order_of(frame(slopes), made)[0] == first


def test_what_is_joined_to_nothing_that_lies_there_comes_last() -> None:
    of = frame({"tie": 0.0, "far": 90.0, "post": 90.0, "strut": 30.0})
    found = order_of(of, [joint("p", tie="", post=""), joint("q", post="", strut="")])
    assert found == ["tie", "post", "strut", "far"]


def test_of_those_beside_it_what_closes_most_joints_comes_first() -> None:
    of = frame({"tie": 0.0, "a": 30.0, "b": 60.0})
    joints = [joint("p", tie="", a="", b=""), joint("q", tie="", b=""), joint("r", tie="", b="")]
    assert order_of(of, joints) == ["tie", "b", "a"]


def tenons(*hosts: str) -> list[Any]:
    return [joint("p", "mortise and tenon", **{host: "mortised", "brace": "tenoned"}) for host in hosts]


def test_a_stick_with_tenons_at_both_ends_lies_before_the_second_host() -> None:
    of = frame({"beam": 0.0, "post": 90.0, "brace": 45.0})
    joints = [*tenons("beam", "post"), joint("q", beam="", post=""), joint("r", beam="", post="")]
    assert order_of(of, joints) == ["beam", "brace", "post"]  # though the post closes more
    assert _shut_out(of, joints, ["beam", "post"]) == ["brace"] and _shut_out(of, joints, ["beam"]) == []
    assert _shut_out(of, joints, ["beam", "post", "brace"]) == []
    assert _hosts(of, joints, "brace") == ["beam", "post"] and _hosts(of, joints, "post") == []
    assert _hosts(of, [joint("p", beam="mortised", brace="landing")], "brace") == []
    assert _hosts(of, [joint("p", beam="notched", brace="tenoned")], "brace") == []


@pytest.mark.parametrize(("before", "words"), [
    (["beam", "post"], "its tenons go into beam and post at once: leave one of these loose until then"), (["beam"],
    ""), ([], ""),
])  # fmt: skip
def test_two_hosts_that_lie_already(before: list[str], words: str) -> None:
    of = frame({"beam": 0.0, "post": 90.0, "brace": 45.0})
    assert "; ".join(_notes(of, "brace", before, tenons("beam", "post"))) == words


@pytest.mark.parametrize(("stick", "before", "told"), [
    ("rafter", ["tie"], True), ("rafter", [], False), ("tie", ["rafter"], False), ("tie", ["tie"], False),
])  # fmt: skip
def test_a_foot_is_set_into_the_notch_that_lies_there(stick: str, before: list[str], told: bool) -> None:
    of = frame({"tie": 0.0, "rafter": 33.0})
    found = list(_notes(of, stick, before, [joint("p", tie="notched", rafter="landing")]))
    assert found == (["set into its notch, step at p, and held there until the frame is closed"] if told else [])


def test_table_and_panels() -> None:
    """A joint closes with its last stick; straps, plates and caps are put on then."""
    of = frame({"tie": 0.0, "post": 90.0, "a": 53.0}, {"tie": ("p", "r"), "post": ("q", "q"), "a": ("p", "q")})
    joints = (joint("p", tie="notched", a="landing"), joint("q", "strap", post="", a=""), joint(None, tie="", a=""),
              joint("r", "post cap", tie="", post="", a=""))  # fmt: skip
    context: Any = SimpleNamespace(structure=SimpleNamespace(joints_of=lambda name: joints if name == "F" else ()))
    made = assembly_of(of, {"tie": 10.0, "post": 4.0, "a": 5.0}, context)
    assert made is not None
    table, picture = made
    assert table.rows == (
        ("1", "tie", "–", "–", "–"),
        ("2", "a", "step at p", "–", "set into its notch, step at p, and held there until the frame is closed"),
        ("3", "post", "–", "strap at q, post cap at r", "–"),
    )
    assert picture.steps == (
        "tie", "a; closes step at p; set into its notch, step at p, and held there until the frame is closed",
        "post; then put on strap at q, post cap at r",
    )  # fmt: skip
    laid = {one.name: one for one in picture.laid}
    assert laid["a"].points == (pytest.approx((2.0, 1.5)), pytest.approx((32.0, -38.5)), pytest.approx((28.0, -41.5)),
                                pytest.approx((-2.0, -1.5)))  # fmt: skip
    assert [(one.name, one.step) for one in picture.laid if one.what == "joint"] == [
        ("step at p", 2), ("strap at q", 3), ("post cap at r", 3)]  # fmt: skip
    assert laid["strap at q"].points == ((30.0, -40.0),) and [laid[one].step for one in ("tie", "a", "post")] == [
        1,
        2,
        3,
    ]
    empty: Any = SimpleNamespace(structure=SimpleNamespace(joints_of=lambda name: (joint(None, tie="", a=""),)))
    assert assembly_of(of, {}, empty) is None
