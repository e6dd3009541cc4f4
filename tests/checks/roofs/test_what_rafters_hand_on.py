"""What a rafter puts on its wall and its ridge beam, under forces that are given: how much, where, how broad, on what.

The 2x10 at 16 in of `test_ridge_by_force`; 1 1/2 in broad.
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.draft import Reactions
from beamcheck.checks.roofs.result import _rafter_reactions
from beamcheck.model.posts import Post

from ..houses import Data, post
from .test_ridge_by_force import ON_BEAM, setting

WALL = {"D": (100.0, 90.0), "S": (200.0, 0.0)}
FAR = {"D": (80.0, 70.0), "W": (30.0, -50.0)}


def handed(anchor: Any = None, **more: Any) -> Reactions:
    stick, context = setting(**more)
    run: Any = SimpleNamespace(
        rafter=stick.piece, by_kind=lambda far: FAR if far else WALL, wall_reactions=np.array([50.0, 300.0, -20.0]),
        far_reactions=np.array([40.0, 260.0, -30.0]),
    )  # fmt: skip
    pieces = {**context.structure.pieces, "P": Post.model_validate(post(carries=[]))}
    anchors = {} if anchor is None else {"A": anchor}
    return _rafter_reactions(run, Context(Structure(context.structure.stocks, pieces, anchors)))


def onto(found: Reactions, name: str) -> TransferredLoad:
    (load,) = [load for on, load in found.transfers if on == name]
    return load


def test_the_load_path_has_both_ends() -> None:
    """The ridge beam gets both slopes of a pair."""
    for pair, sides in ((True, 2.0), (False, 1.0)):
        found = handed(**ON_BEAM, pair=pair)
        wall, ridge = found.rows
        assert (wall.on, wall.by_kind, wall.largest, wall.least, wall.spacing) == ("wall", WALL, 300.0, -20.0, 16.0)
        far = {"D": (80.0 * sides, 70.0 * sides), "W": (30.0 * sides, -50.0 * sides)}
        assert (ridge.on, ridge.by_kind, ridge.spacing) == ("ridge", far, 16.0)
        assert (ridge.largest, ridge.least) == (260.0 * sides, -30.0 * sides)
        assert onto(found, "ridge").forces == far and onto(found, "ridge").by == "rafter"


def test_without_a_ridge_beam_the_other_wall_gets_what_the_far_foot_brings() -> None:
    found = handed()
    other = found.rows[1]
    assert (other.on, other.by_kind, other.largest, other.least, other.spacing) == ("", FAR, 260.0, -30.0, 16.0)
    assert [on for on, _ in found.transfers] == ["wall"]
    named = handed(other_wall="far wall", wall={"lands_at": "4 ft"})
    far = onto(named, "far wall")
    assert named.rows[1].on == "far wall" and (far.forces, far.at, far.spread) == (FAR, None, 16.0)


@pytest.mark.parametrize(("wall", "at", "spread", "spacing", "row"), [
    ({}, None, 16.0, 16.0, None), ({"lands_at": "4 ft"}, 48.0, None, 0.0, None),
    ({"lands_from": "1 ft", "lands_to": "9 ft"}, None, 16.0, 16.0, (12.0, 108.0)), ({"on": "P"}, None, None, 0.0, None),
])  # fmt: skip
def test_a_row_or_one_alone(wall: Data, at: float | None, spread: float | None, spacing: float, row: Any) -> None:
    found = handed(wall=wall, **ON_BEAM)
    load = onto(found, wall.get("on", "wall"))
    assert (load.at, load.spread, load.row, load.members) == (at, spread, row, 10)
    assert found.rows[0].spacing == spacing and load.forces == WALL


@pytest.mark.parametrize(("wall", "applied", "bearing"), [
    ({}, "top", 1.5), ({"bearing_width": "1 in"}, "top", 1.0), ({"bearing_width": "3 in"}, "top", 1.5),
    ({"holds": "hung"}, "side", None), ({"holds": "hung", "bearing_width": "1 in"}, "side", None),
])  # fmt: skip
def test_what_rests_lies_on_the_top_no_broader_than_it_is(wall: Data, applied: str, bearing: float | None) -> None:
    load = onto(handed(wall=wall, **ON_BEAM), "wall")
    assert (load.applied, load.bearing) == (applied, bearing)


HANGER = SimpleNamespace(name="A", on_girder=SimpleNamespace(highest=2.0, lowest=7.0))


@pytest.mark.parametrize(("upper", "held", "expected"), [
    (None, False, ("unknown", None, "", None, None)), (None, True, ("side", None, "A", (2.0, 7.0), None)),
    ({"bearing": "2 in"}, False, ("top", 1.5, "", None, None)),
    ({"bearing": "2 in"}, True, ("top", 1.5, "", None, None)),
    ({"lands_from": "1 ft", "lands_to": "9 ft"}, False, ("unknown", None, "", None, (12.0, 108.0))),
])  # fmt: skip
def test_how_the_upper_end_comes_to_the_ridge_beam(upper: Data | None, held: bool, expected: Any) -> None:
    more: Data = {**({} if upper is None else {"upper": upper}), **({"upper_held_by": "A"} if held else {})}
    load = onto(handed(HANGER if held else None, **ON_BEAM, **more), "ridge")
    assert (load.applied, load.bearing, load.held_by, load.fastened, load.row) == expected
    assert load.spread == 16.0 and load.members == 10


def test_a_hanger_of_which_no_heights_are_said() -> None:
    bare = SimpleNamespace(name="A", on_girder=None)
    load = onto(handed(bare, **ON_BEAM, upper_held_by="A"), "ridge")
    assert (load.applied, load.held_by, load.fastened) == ("side", "A", None)
