"""What the result of a joint says: its forces, its inputs with their units, a picture, what is not known."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.joints.results import _columns, _inputs, _title, joint_result, not_worked_out
from beamcheck.errors import OutOfRange
from beamcheck.model.joints.parts import Pegs, Step, Tenon

from .jobs import SHEET, Data, checked, joint, member, wood
from .kinds.test_fastened import between
from .kinds.test_tenon_and_base import POST, foot
from .meetings import arriving, meeting


@pytest.mark.parametrize(("down", "heads"), [
    (0.5, ["a, pull"]), (0.6, ["a, pull", "a, square to it"]), (-0.6, ["a, pull", "a, square to it"]),
])  # fmt: skip
def test_columns_of_forces(down: float, heads: list[str]) -> None:
    """Half a pound across a member is rounding."""
    found = _columns(meeting(arriving("a", 0.0, N=(300.0,), down=(down,))))
    assert list(found) == heads and found["a, pull"][0].tolist() == pytest.approx([0.0, 300.0])


def said(**more: Any) -> dict[str, str]:
    one = arriving("a", 0.0, entry={"part": "notched"}, passes=True)
    other = arriving("b", 90.0, number=2)
    given: Data = {"kind": "step", "forces_by": "", "at": None, **more}
    return dict(_inputs(meeting(one, other, **given)))


def test_inputs_of_members() -> None:
    found = said()
    assert found == {"kind": "step", "a": "notched: 4 in x 10 in Douglas Fir-Larch No.1, goes on",
                     "b": "4 in x 10 in Douglas Fir-Larch No.1"}  # fmt: skip
    assert said(frame="truss", at="heel")["where"] == "heel of truss"
    assert said(spliced="truss: tie")["splices"] == "truss: tie"
    assert said(spliced="truss: tie", splice_at=30.0)["splices"] == "truss: tie, 2 ft 6 in from its first point"
    assert said(forces_by=SHEET)["forces by"] == SHEET and said(embedded=4.0)["in the concrete"] == "4 in"
    assert said(fastener=SimpleNamespace(kind="bolt", size="3/4 in"))["fastener"] == "bolt 3/4 in"
    assert said(rating=SimpleNamespace(source="report 7"))["rating from"] == "report 7"


def test_inputs_of_cuts_with_their_units() -> None:
    """Nothing of what is not said, false or empty; parts within parts by their own names."""
    step = Step.model_validate({"depth": "1 3/4 in", "behind": "12 in", "metal": True})
    found = said(step=step)
    assert found["notch, depth"] == "1 3/4 in" and found["wood behind the notch"] == "12 in"
    assert (
        found["metal between the faces"] == "yes" and found["face of the notch"] == "halves the angle between the two"
    )
    assert "left wide at the notch" not in found and "bears on that face" not in found
    assert "metal between the faces" not in said(step=step.model_copy(update={"metal": False}))
    pegs = Pegs.model_validate({"wood": "White Oak", "diameter": "1 in", "count": 2, "end": "2 in", "edge": "4 in",
                                "side": "2 in", "spacing": "3 in"})  # fmt: skip
    tenon = Tenon.model_construct(thickness=1.5, width=5.0, length=4.0, cheek=2.0, housing=0.0, shoulder="tight",
                                  pegs=pegs, under_housing=None)  # fmt: skip
    found = said(tenon=tenon)
    assert found["tenon: thickness"] == "1 1/2 in" and found["tenon, pegs: count"] == "2"


def test_titles() -> None:
    names = SimpleNamespace(
        kind="step", members=[SimpleNamespace(name="a"), SimpleNamespace(name="b")], post=None, at=None
    )
    assert _title(names) == "step, a with b"  # type: ignore[arg-type]
    post = SimpleNamespace(kind="post base", members=[], post="P1", at=None)
    assert _title(post) == "post base, P1"  # type: ignore[arg-type]
    point = SimpleNamespace(kind="by others", members=[], post=None, at="heel")
    assert _title(point) == "by others, heel"  # type: ignore[arg-type]


def test_what_is_not_known_asks_for_forces_and_what_no_rule_covers_for_an_engineer() -> None:
    one: Any = SimpleNamespace(name="J", kind="step", members=[], post=None, at="heel")
    (check,) = not_worked_out(one, "the frame could not be worked out").checks
    assert check.verdict == "refer" and check.questions[0].id == "J/joint_forces"
    (check,) = not_worked_out(one, OutOfRange("no such rule", "NDS 2018 11.1")).checks
    assert (check.id, check.verdict) == ("piece.within_rules", "refer")


def test_two_members_and_more_are_drawn() -> None:
    alone, two = foot(), checked(between(), wood("rafter", "5 1/2 in x 7 1/2 in"), wood("plank", "1 1/2 in x 9 1/2 in"))
    assert alone.pictures == () and len(two.pictures) == 1
    assert any("Each action has one path" in one for one in two.assumptions)
    none = joint_result(_without_forces())
    assert none.checks == () and none.verdict == "refer"


def _without_forces() -> Any:
    one = meeting(arriving("a", 0.0), kind="by others", post=None, at=None, members=[SimpleNamespace(name="a")])
    return replace(one, combinations=())


def test_a_joint_without_any_force_asks_for_them() -> None:
    piece = checked(joint("by others", member("a", "post", 0.0), member("b", "post", 180.0), confirmed_by=SHEET), POST)
    assert [(one.id, one.verdict) for one in piece.checks] == [("joint.forces", "refer")] and piece.tables == ()
