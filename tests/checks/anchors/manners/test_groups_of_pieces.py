"""Which groups of a piece are checked, and what becomes of those whose piece or fastener could not be worked out."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.calc.pad import Pad
from beamcheck.checks.anchors.couple import couple_of
from beamcheck.checks.anchors.manners.base import Fastened
from beamcheck.checks.anchors.manners.no_joint import ByOthers, HoldsNothing
from beamcheck.checks.anchors.manners.registry import REGISTRY, manner_of, resolved
from beamcheck.checks.anchors.results import (
    anchors_of_beam,
    anchors_of_post,
    anchors_of_rafter,
    anchors_of_tie,
)
from beamcheck.checks.core.asking.question import RULING
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood.strength import Section
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.model.beams import Beam
from beamcheck.model.posts import Post
from beamcheck.model.roofs import Rafter, Tie

from ... import houses
from ...beams.beams import beam, seat
from ..anchors import HALF, PLATE, Data, beside, group, loaded, stock

BY_OTHERS = Anchor.model_validate({"name": "A", "manner": "by others"})


def context(**anchors: Anchor) -> Any:
    footing: Any = SimpleNamespace(name="footing")
    return Context(Structure({"2x10": stock("2x10 dressed"), "wood": stock()}, {"footing": footing}, anchors))


# ---- the groups of a piece -------------------------------------------------------------------------------------------


def test_groups_of_what_could_not_be_worked_out() -> None:
    """Each says so, and which end it is; ends that no group holds have none."""
    held = Beam.model_validate(beam(supports=[seat("0 ft", held_by="A"), seat("6 ft"), seat("12 ft", held_by="B")]))
    two = anchors_of_beam(held, None, context(A=BY_OTHERS, B=BY_OTHERS))
    assert [one.title for one in two] == ["by others, support 1 of B", "by others, support 3 of B"]
    assert all(one.verdict == "refer" and "could not be worked out" in one.checks[0].notes[0] for one in two)
    rafter = Rafter.model_validate(houses.rafter(name="R", wall={"held_by": "A"}, ridge_held_by="A"))
    found = anchors_of_rafter(rafter, None, context(A=BY_OTHERS), ridge="A")
    assert [one.title for one in found] == [
        "by others, foot of R", "by others, upper end of R", "by others, ridge of R"]  # fmt: skip
    assert [one.title for one in anchors_of_rafter(rafter, None, context(A=BY_OTHERS))] == [
        "by others, foot of R", "by others, ridge of R"]  # fmt: skip
    assert anchors_of_rafter(Rafter.model_validate(houses.rafter(name="R")), None, context(A=BY_OTHERS)) == []
    tie = Tie.model_validate(houses.tie(name="T", ends_held_by="A"))
    (one,) = anchors_of_tie(tie, rafter, None, context(A=BY_OTHERS))
    assert one.title == "by others, ends of T" and one.verdict == "refer"
    assert anchors_of_tie(Tie.model_validate(houses.tie(name="T")), rafter, None, context(A=BY_OTHERS)) == []


@pytest.mark.parametrize(("more", "titles"), [
    ({}, []), ({"foot_held_by": "A"}, ["by others, left end of P"]), ({"head_held_by": "A"}, [
        "by others, right end of P"]),
    ({"foot_held_by": "A", "head_held_by": "A"}, ["by others, left end of P", "by others, right end of P"]),
])  # fmt: skip
def test_groups_of_a_post(more: Data, titles: list[str]) -> None:
    """200 lb lift at its foot, 300 at its head."""
    made = group([0.0])
    post = Post.model_validate(houses.post(name="P", height="8 ft", stock="wood", **more))
    lifts = {"foot": np.array([200.0]), "head": np.array([300.0])}
    found = anchors_of_post(post, made.wood, made.section, (loaded("W"),), lifts, context(A=BY_OTHERS))
    assert [one.title for one in found] == titles
    for one in found:
        force = "200 lb up" if "left" in one.title else "300 lb up"
        assert force in one.checks[0].notes[0]


def test_a_layout_that_does_not_say_where_leaves_the_group_referred() -> None:
    """Holes without their distance from the end: said where the group is, and nothing else is lost."""
    bolts = group([0.0]).anchor
    assert bolts.holes is not None
    lost = bolts.model_copy(update={"holes": bolts.holes.model_copy(update={"end": None})})
    made = group([0.0])
    post = Post.model_validate(houses.post(name="P", height="8 ft", stock="wood", foot_held_by="A"))
    lifts = {"foot": np.array([200.0]), "head": np.array([300.0])}
    (one,) = anchors_of_post(post, made.wood, made.section, (loaded("W"),), lifts, context(A=lost))
    assert one.title == "wood side, foot of P" and "needs the distance from the end" in one.checks[0].notes[0]


# ---- what has no value -----------------------------------------------------------------------------------------------


def test_steel_does_not_wait_for_what_is_not_known_of_the_wood() -> None:
    """Stainless bolts without the strength of their maker: the plate and its holes are checked all the same."""
    bolt = {**HALF, "steel": "A307", "coating": "stainless"}
    made = group([100.0], manner="plate one side", plate=PLATE, other=None, fastener=bolt)
    found = manner_of(made.anchor).checks(made, context())
    assert found[0].id == "anchor.lateral" and found[0].questions[0].field == "anchor.A.fastener.F_yb"
    assert {"anchor.plate_holes", "anchor.bolt_shear"} <= {check.id for check in found}
    bare = replace(made, x=np.zeros(0), y=np.zeros(0))
    without = manner_of(bare.anchor).checks(bare, context())
    assert "anchor.plate_holes" not in {check.id for check in without}


@pytest.mark.parametrize(("change", "verdict", "field"), [
    ({"fastener": {"kind": "bolt", "size": "9/16 in"}}, "refer", RULING),
    ({"fastener": {"kind": "nail", "size": "16d"}}, "refer", "anchor.A.fastener.size"),
    ({"fastener": {**HALF, "counterbore": "1 1/2 in", "counterbore_depth": "1 1/2 in"}}, "fails", ""),
])  # fmt: skip
def test_a_joint_without_a_value(change: Data, verdict: str, field: str) -> None:
    """A size of no table is for an engineer; what is not said is asked; wood that is used up fails."""
    found = resolved(group([100.0], **change))
    assert isinstance(found, Check) and found.id == "anchor.lateral"
    assert found.verdict == verdict and [one.field for one in found.questions] == ([field] if field else [])


def test_round_pieces_and_groups_without_fasteners() -> None:
    made = group([100.0])
    found = resolved(replace(made, section=Section(8.0, 8.0, 8.0, round=True)))
    assert isinstance(found, Check) and found.questions[0].field == RULING and "round piece" in found.notes[0]
    bare = resolved(replace(made, anchor=made.anchor.model_copy(update={"fastener": None})))
    assert isinstance(bare, Check) and bare.questions[0].field == "anchor.A.fastener.size"


@pytest.mark.parametrize(("manner", "drawn"), [
    ("wood side", True), ("into the end", False), ("hanger rod", True), ("by others", False), ("rated hardware", False),
    ("holds nothing", False), ("concealed plate", True),
])  # fmt: skip
def test_what_can_be_drawn(manner: str, drawn: bool) -> None:
    assert REGISTRY[manner].drawn is drawn


@pytest.mark.parametrize(("force", "verdict"), [(0.5, "refer"), (0.51, "fails"), (200.0, "fails")])
def test_what_holds_nothing(force: float, verdict: str) -> None:
    made = replace(group([force]), anchor=Anchor.model_validate({"name": "A", "manner": "holds nothing"}))
    (check,) = HoldsNothing().checks(made)
    assert check.verdict == verdict and (verdict == "fails") is ("come to it" in check.notes[0])


@pytest.mark.parametrize(("by", "words"), [
    ("the engineer, sheet S-1", "confirmed: the engineer, sheet S-1. Not checked: it must take up to 100 lb"),
    ("", "nobody is named who answers for it"), ("a friend", "nobody is named who answers for it"),
])  # fmt: skip
def test_the_work_of_others(by: str, words: str) -> None:
    anchor = Anchor.model_validate({"name": "A", "manner": "by others", "confirmed_by": by})
    (check,) = ByOthers().checks(replace(group([100.0]), anchor=anchor))
    assert check.verdict == "refer" and words in check.notes[0] and check.questions[0].field == RULING


# ---- couples ---------------------------------------------------------------------------------------------------------


def test_who_holds_a_couple() -> None:
    """Something that is answered for takes it off the fasteners, and off the plate; else they hold it."""
    told = "blocking, engineer's sketch 3 of 2026-01-12"
    for manner, plate in (("wood side", None), ("plate one side", PLATE)):
        more: Data = {"manner": manner, **({"plate": plate, "other": None} if plate else {})}
        free, kept = (group([300.0], held=stock("6x12 dressed"), fastener={**HALF, "steel": "A307"}, twist_held_by=by,
                            **more) for by in ("", told))  # fmt: skip
        (check,) = [one for one in beside(kept) if one.id == "anchor.couple"]
        assert check.verdict == "passes" and told in check.notes[0]
        manner_ = manner_of(kept.anchor)
        assert isinstance(manner_, Fastened) and not manner_.counts_couple(kept) and manner_.counts_couple(free)
        ids = [{one.id for one in manner_.checks(made, context())} for made in (free, kept)]
        assert "anchor.bolt_pull" in ids[0] and "anchor.bolt_pull" not in ids[1]
        assert ("anchor.plate_twist" in ids[0]) is (plate is not None) and "anchor.plate_twist" not in ids[1]
    assert beside(group([0.0], [300.0])) == [], "no couple without a load across"
    fixed = replace(group([300.0]), kept_by=("joist",))
    assert fixed.kept_from_turning and not group([300.0]).kept_from_turning


def test_pull_of_a_couple_step_by_step() -> None:
    """Pressed down the top row pulls with M/(0.7 h) over its two, lifted the lowest; what is written is the same."""
    holes = {"rows": 2, "columns": 2, "end": "4 in", "edge": "2 in", "row_spacing": "6 in", "spacing": "3 in"}
    found = couple_of(group([1000.0, -500.0], holes=holes), 2.0)
    down, up = 2000 / (0.7 * 8.0) / 2, 1000 / (0.7 * 9.25) / 2
    for k, which, pull in ((0, 0, 0.0), (3, 0, down), (0, 1, up), (3, 1, 0.0)):
        assert found.pull(Pad(), k, which) == pytest.approx(pull)
        assert found.pull(Pad(), k, slice(None))[which] == pytest.approx(pull)  # type: ignore[index]
    assert found.counts == (2, 2) and list(found.down) == [True, False]
    level = couple_of(group([0.0]), 2.0)
    assert list(level.down) == [True] and float(level.each.max()) == 0.0
