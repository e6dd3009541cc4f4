"""What rafters and posts put on the group that holds their ends: forces turned into the stick by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.anchors.held_end import end_of_post, ends_of_tie, foot_of_rafter, head_of_rafter, ridge_of_pair
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.model.posts import Post
from beamcheck.model.roofs import Rafter, Tie
from beamcheck.values.lumber import read_size

from .. import houses
from .anchors import group, loaded, made, stock

C, S = math.cos(math.radians(30.0)), math.sin(math.radians(30.0))
DOWN, OUT = np.array([300.0, -200.0]), np.array([50.0, -20.0])
RATING = {"source": "report 1, 2025", "up": "900 lbf", "conditions": "all nails in", "duration": "included"}
STRAP = Anchor.model_validate({"name": "A", "manner": "rated hardware", "rating": RATING})
BOLTS = group([100.0]).anchor
ON_RIDGE = {"ridge": "beam", "ridge_on": "ridge", "upper_held_by": "A"}


def run() -> Any:
    line = SimpleNamespace(
        length=120.0,
        at=lambda what, x, side: {
            ("V", 0.0, "right"): np.array([30.0, 20.0]),
            ("V", 120.0, "left"): np.array([-40.0, -10.0]),
            ("N", 0.0, "right"): np.array([500.0, -90.0]),
            ("N", 120.0, "left"): np.array([501.0, -91.0]),
        }[what, x, side],
    )
    return SimpleNamespace(
        tie_line=line, tail=12.0, combinations=(loaded("D"), loaded("W")), wall_reactions=DOWN, thrust=-OUT,
        far_reactions=DOWN, ridge_pull=OUT, ridge_down=DOWN, rafter_line=SimpleNamespace(length=100.0),
    )  # fmt: skip


def context(anchor: Anchor | None) -> Any:
    pieces = {"ridge": "the ridge", "post": "the post"}
    return SimpleNamespace(
        stock=lambda name: stock(), size=lambda name: read_size("2x12 dressed"), under=pieces.get,
        anchor=lambda name: anchor if name else None, structure=SimpleNamespace(pieces=pieces),
    )  # fmt: skip


def rafter(**more: Any) -> Rafter:
    return Rafter.model_validate(houses.rafter(slope="30 deg", **more))


def forces(held: Any) -> tuple[list[float], list[float]]:
    return list(held.forces.across), list(held.forces.along)


@pytest.mark.parametrize(("anchor", "holds", "down", "out"), [
    (None, "rests", DOWN, OUT), (BOLTS, "rests", DOWN, OUT), (STRAP, "hung", DOWN, OUT),
    (STRAP, "rests", np.minimum(DOWN, 0.0), 0.0 * OUT),
])  # fmt: skip
def test_foot_of_a_rafter(anchor: Anchor | None, holds: str, down: Any, out: Any) -> None:
    """Plumb and level forces square to a stick of 30 degrees and along it; a strap takes what lifts alone."""
    held = foot_of_rafter(rafter(wall={"held_by": "A", "holds": holds}), run(), context(anchor))
    assert forces(held) == (pytest.approx(C * down + S * out), pytest.approx(C * out - S * down))
    assert (held.end, held.place, held.line, held.slope, held.rests) == ("left", 12.0, 12.0, pytest.approx(30.0),
                                                                         holds == "rests")  # fmt: skip


@pytest.mark.parametrize(("anchor", "upper", "down", "rests"), [
    (STRAP, {"bearing": "2 in"}, np.minimum(DOWN, 0.0), True), (STRAP, {"restrained": True}, DOWN, False),
    (STRAP, None, DOWN, False), (BOLTS, {"bearing": "2 in"}, DOWN, True), (None, {"bearing": "2 in"}, DOWN, True),
])  # fmt: skip
def test_head_of_a_rafter(anchor: Anchor | None, upper: Any, down: Any, rests: bool) -> None:
    """On its ridge beam: no push; with a seat a strap takes what lifts alone."""
    made_of = rafter(**ON_RIDGE, **({"upper": upper} if upper else {}))
    held = head_of_rafter(made_of, run(), context(anchor))
    assert forces(held) == (pytest.approx(C * down), pytest.approx(S * down))
    assert (held.end, held.place, held.line, held.into) == ("right", 100.0, 0.0, "the ridge")
    assert held.rests is rests and held.slope == pytest.approx(-30.0)


def test_rafters_that_meet_at_a_board() -> None:
    """Only what pulls them apart, and what slides; what presses goes from rafter to rafter."""
    held = ridge_of_pair(rafter(ridge_held_by="A"), run(), context(BOLTS))
    pull = np.maximum(OUT, 0.0)
    assert forces(held) == (pytest.approx(C * DOWN - S * pull), pytest.approx(C * pull + S * DOWN))
    assert (held.end, held.place, held.line, held.into) == ("right", 100.0, 0.0, "the post")


@pytest.mark.parametrize(("anchor", "head", "across", "along"), [
    (BOLTS, True, [0.0, 0.0], [0.0, 200.0]), (BOLTS, False, [0.0, 0.0], [0.0, 200.0]),
    (STRAP, True, [0.0, -200.0], [0.0, 0.0]), (STRAP, False, [0.0, -200.0], [0.0, 0.0]),
])  # fmt: skip
def test_ends_of_a_post(anchor: Anchor, head: bool, across: list[float], along: list[float]) -> None:
    """What lifts: fasteners take it along the grain, a rating calls it up; what presses stays with the seat."""
    one = Post.model_validate(houses.post(height="8 ft"))
    size = read_size("6x6 dressed")
    held = end_of_post(one, anchor, made(stock()), size, run().combinations, -DOWN, context(anchor), head=head)
    assert forces(held) == (across, along)
    assert held.end == ("right" if head else "left") and held.place == (96.0 if head else 0.0)


@pytest.mark.parametrize("rests", [True, False])
def test_ends_of_a_tie(rests: bool) -> None:
    """Its pull and what hangs on it; on a plate the pull alone. They land 12 in + 24 in/sin 30 deg up the rafter."""
    more = {"height": "0 in", "ends_rest_on": "post"} if rests else {"height": "24 in"}
    one = Tie.model_validate(houses.tie(**more))
    left, right = ends_of_tie(one, rafter(tie="T"), run(), context(None))
    assert forces(left) == ([0.0, 0.0] if rests else [30.0, 20.0], [500.0, -90.0])
    assert forces(right) == ([0.0, 0.0] if rests else [40.0, 10.0], [501.0, -91.0])
    assert (left.end, left.place, right.end, right.place) == ("left", 0.0, "right", 120.0)
    assert left.lands_at == right.lands_at == pytest.approx(12.0 if rests else 60.0)
