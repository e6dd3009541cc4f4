"""Covers: room around hidden hardware, seasonal movement, what happens when somebody hangs on them."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.brackets.covers.cover import cover_checks
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.loads import accidental_checks
from beamcheck.checks.core.context import JOINTS, Context
from beamcheck.checks.core.result import Check

from ...anchors.anchors import said
from ..brackets import SOLID, Data, bracket, find, loads_of, structure

POCKET: Data = {"top": "2 in", "height": "4 in", "depth": "1 1/2 in", "width": "2 1/2 in"}
COVER: Data = {
    "hides": ["hidden plate A"], "heads_stand_out": "3/4 in", "heads_width": "2 in", "heads_height": "3 in",
    "hidden_moves": "1/16 in", "change": "6 %", "fixed_at_one_line": True, "reveal": "1/8 in",
}  # fmt: skip


def checks(pocket: Data | None = None, grain: str | None = "upright", **cover: Any) -> list[Check]:
    here = structure()
    shape = {**SOLID, "grain": grain, "pocket": {**POCKET, **(pocket or {})}}
    piece = bracket(shape, role="cover", cover={**COVER, **cover}, accidental="not for load")
    return cover_checks(family_of(piece), loads_of(piece, here, 5.0), here)


def test_room_by_hand() -> None:
    """Hardware, 1/8 in, movement of the hidden joint, and C dMC h.

    C = 0.00323, tangential, of western larch: the most of Douglas Fir-Larch (Wood Handbook Table 13-5, memory).
    """
    found = checks()
    depth = find(found, "depth of the pocket")
    assert depth.demand == pytest.approx(0.75 + 0.125 + 0.0625 + 0.00323 * 6 * 1.5, abs=2e-4)
    width = find(found, "width of the pocket")
    assert width.demand == pytest.approx(2.0 + 2.0 * (0.125 + 0.0625 + 0.00323 * 6 * 2.5), abs=1e-3)
    height = find(found, "height of the pocket")
    assert height.demand == pytest.approx(3.0 + 2.0 * (0.125 + 0.0625 + 0.00323 * 6 * 4.0), abs=1e-3)
    assert depth.verdict == height.verdict == width.verdict == "passes"
    assert find(found, "walls of the pocket").verdict == "passes"  # 1/2 in on each side


def test_tight_pockets_fail() -> None:
    assert find(checks(heads_width="2 3/8 in"), "width of the pocket").verdict == "fails"
    assert find(checks({"width": "3 in"}), "walls of the pocket").verdict == "fails"
    assert find(checks({"width": "3 1/2 in"}), "walls of the pocket").verdict == "fails"
    assert find(checks({"top": "1/4 in"}), "wood around the pocket").verdict == "fails"


def test_a_pocket_that_comes_out_of_the_soffit_fails() -> None:
    """The soffit runs straight from (3, 12) to (10, 3): at 7 5/8 in out it is 12 - 9 x 4.625/7 = 6.05 in down."""
    assert find(checks({"depth": "6 5/8 in"}), "wood around the pocket").verdict == "passes"
    assert find(checks({"depth": "7 1/4 in"}), "wood around the pocket").verdict == "fails"


def test_a_pocket_right_through_refers() -> None:
    assert find(checks({"width": None}), "walls of the pocket").verdict == "refer"


@pytest.mark.parametrize("field", ["heads_stand_out", "heads_width", "heads_height", "hidden_moves", "change"])
def test_what_is_not_given_refers(field: str) -> None:
    assert f"`cover.{field}`" in said(checks(**{field: None}), "refer")


def test_no_pocket_and_nothing_hidden_refer() -> None:
    here = structure()
    piece = bracket({**SOLID, "pocket": None}, role="cover", cover=COVER)
    assert "`shape.pocket`" in said(cover_checks(family_of(piece), loads_of(piece, here, 5.0), here), "refer")
    assert "`cover.hides`" in said(checks(hides=[]), "refer")


def test_groups_and_joints_where_it_is_fixed_are_offered_as_what_it_hides() -> None:
    """Of the joints of a frame those of the frame or post that the cover is on."""
    groups: Any = {"A": SimpleNamespace(into="post"), "B": SimpleNamespace(into="slab")}
    joints = tuple(
        SimpleNamespace(name=name, frame=frame, post=post)
        for name, frame, post in (("J", "post", None), ("foot", None, "post"), ("far", "T", "P2"))
    )
    here = structure()
    place = Context(replace(here.structure, anchors=groups, heads={JOINTS: joints}))
    piece = bracket(SOLID, role="cover", cover={**COVER, "hides": []})
    (asked,) = cover_checks(family_of(piece), loads_of(piece, here, 5.0), place)[0].questions
    offered = [(answer.says, answer.sets) for answer in asked.answers]
    assert offered == [(name, (("bracket.K.cover.hides", [name]),)) for name in ("A", "J", "foot")]


def test_reveal() -> None:
    """Level grain moves over its height: 12 in x 0.00323 x 6 = 0.233 in, upright grain hardly; the joint sinks 1/16."""
    assert find(checks(), "reveal").verdict == "passes"
    level = find(checks(grain="level"), "reveal")
    assert level.demand == pytest.approx(0.23256 + 0.0625, abs=1e-3)
    assert level.verdict == "fails"
    assert find(checks(grain="level", reveal="5/16 in"), "reveal").verdict == "passes"
    assert find(checks(grain="level", reveal="0 in"), "reveal").verdict == "fails"
    assert find(checks(grain=None), "reveal").verdict == "refer"
    assert find(checks(reveal=None), "reveal").verdict == "refer"


@pytest.mark.parametrize("line", [None, False])
def test_a_cover_that_cannot_move_refers(line: bool | None) -> None:
    assert find(checks(fixed_at_one_line=line), "free to shrink").verdict == "refer"


def test_more_movement_never_needs_less_room() -> None:
    needed = [find(checks(change=f"{c} %"), "height of the pocket").demand or 0.0 for c in (0, 2, 4, 8)]
    assert needed == sorted(needed)
    assert needed[0] < needed[-1]


@pytest.mark.parametrize(
    ("force", "by", "verdict"),
    [(None, "", "refer"), ("not for load", "", "passes"), (200.0, "", "refer"), (200.0, "the owner", None)],
)
def test_somebody_hangs_on_it(force: float | str | None, by: str, verdict: str | None) -> None:
    piece = bracket(SOLID).model_copy(update={"accidental": force, "accidental_from": by})
    found = [check.verdict for check in accidental_checks(piece)]
    assert found == ([verdict] if verdict else [])


def test_walls_and_reveal_of_nothing_break_a_rule_and_have_no_ratio() -> None:
    none = find(checks({"width": "3 1/2 in"}), "walls of the pocket")
    assert (none.verdict, none.ratio) == ("fails", None)
    tight = find(checks(grain="level", reveal="0 in"), "reveal")
    assert (tight.verdict, tight.ratio) == ("fails", None)


def test_upright_grain_over_a_joint_that_does_not_sink_needs_no_reveal() -> None:
    for reveal in ("0 in", "1/8 in"):
        still = find(checks(hidden_moves="0 in", reveal=reveal), "reveal")
        assert still.verdict == "passes" and "the grain stands upright" in still.notes[0]
    assert find(checks(hidden_moves="1/16 in", reveal="0 in"), "reveal").verdict == "fails"


@pytest.mark.parametrize(("thick", "offered"), [("3/4 in", []), ("7/8 in", ["0.125 in"])])
def test_a_cover_as_thick_as_two_walls_has_no_room_for_a_pocket(thick: str, offered: list[str]) -> None:
    """3/8 in beside it on either side."""
    here = structure()
    pocket = {key: value for key, value in POCKET.items() if key != "width"}
    piece = bracket({**SOLID, "thickness": thick, "pocket": pocket}, role="cover", cover=COVER)
    asked = find(cover_checks(family_of(piece), loads_of(piece, here, 5.0), here), "walls of the pocket")
    assert [answer.sets[0][1] for answer in asked.questions[0].answers] == offered


@pytest.mark.parametrize(
    ("grain", "more", "needed"),
    [("45 deg", {}, 0.5 * 0.23256 + 0.0625), ("60 deg", {}, 0.25 * 0.23256 + 0.0625), ("upright", {}, 0.0625),
     ("level", {"change": "0 %"}, 0.0625), ("level", {"hidden_moves": None}, 0.23256)],
)  # fmt: skip
def test_what_lies_across_the_grain_moves_its_height(grain: str, more: Data, needed: float) -> None:
    """12 in x 0.00323 x 6 points, of grain aslant cos^2 of it; nothing sinks where nobody says so."""
    found = find(checks(grain=grain, reveal="1/2 in", **more), "reveal")
    assert (found.demand, found.capacity) == pytest.approx((needed, 0.5), abs=1e-3)
