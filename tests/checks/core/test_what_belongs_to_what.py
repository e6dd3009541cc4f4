"""Which pieces stand on, hang in or are named with another; what a single piece hands on is no row."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.analysis.site.areas import NO_AREAS
from beamcheck.checks.core.context import AREAS, HEAD, JOINTS, JOINTS_OF, MOVEMENT, Context, NoJoints, Site, Structure
from beamcheck.checks.core.draft import SupportForces
from beamcheck.model.beams import Beam
from beamcheck.model.brackets.bracket import Bracket, Trim
from beamcheck.model.posts import Post
from beamcheck.model.roofs import Rafter, Tie

from ..beams.beams import beam, seat
from ..houses import post, rafter


def structure() -> Structure:
    near: Any = SimpleNamespace(beam="B 1")
    found = [
        Beam.model_validate(beam(name="B 1", supports=[seat("0 ft", "P", held_by="G"), seat("9 ft", "B 2")])),
        Beam.model_validate(beam(name="B 2")),
        Rafter.model_validate(rafter(name="R+", wall={"held_by": "G"})), Post.model_validate(post(name="P")),
        Tie.model_construct(name="T", ends_held_by="G"), Tie.model_construct(name="U", ends_held_by=None),
        Bracket.model_construct(name="K", near=near), Trim.model_construct(name="M", near=None),
        Post.model_construct(name="Q", near=near),
    ]  # fmt: skip
    return Structure({}, {one.name: one for one in found})


@pytest.mark.parametrize(("words", "named"), [
    ("blocking to B 1", ("B 1",)), ("B 1, then B 2", ("B 1", "B 2")), ("B 12 and AB 1", ()), ("P", ("P",)),
    ("on the Post", ()), ("(R+)", ("R+",)), ("RR", ()), ("T; Q", ("T", "Q")), ("K and M", ()), ("b 1", ()), ("", ()),
])  # fmt: skip
def test_the_sticks_that_words_name(words: str, named: tuple[str, ...]) -> None:
    """Whole words, signs as they are; a bracket or a trim is no stick that keeps another from turning."""
    assert structure().sticks_named(words) == named


def test_what_stands_on_hangs_in_or_is_near_another() -> None:
    here = structure()
    assert [[one.name for one in here.beams_on(name)] for name in ("P", "B 2", "B 1")] == [["B 1"], ["B 1"], []]
    assert [one.name for one in here.sticks_held_by("G")] == ["B 1", "R+", "T"] and not here.sticks_held_by("H")
    assert [one.name for one in here.stand_under("B 1")] == ["K", "Q"] and not here.stand_under("B 2")


def test_a_piece_that_is_alone_is_one_every_nothing() -> None:
    assert SupportForces("wall", {}, 100.0, 0.0).spacing == 0.0


def test_what_the_head_of_a_job_says() -> None:
    """Of pieces without a job nothing is known of the place, the air, the joints and the bolt rows."""
    bare = Structure({}, {})
    assert bare.site == Site() and bare.air is None and bare.bolt_rows == bare.all_joints == bare.joints_of("F") == ()
    assert bare.joint_of_post("P") is None and bare.areas is NO_AREAS
    head: Any = SimpleNamespace(ground_snow=(0.2, "a map"), snow=None, wind_by="engineer", air="indoor air")
    joints: Any = [SimpleNamespace(post=name) for name in ("Q", "P")]
    rows: Any = tuple(SimpleNamespace(kind=kind) for kind in ("bolt row", "board", "bolt row"))
    here = Structure({}, {}, heads={HEAD: head, JOINTS: tuple(joints), MOVEMENT: rows, f"{JOINTS_OF}F": (joints[0],)})
    assert here.site == Site((0.2, "a map"), None, "engineer", NO_AREAS) and here.air == "indoor air"
    assert here.bolt_rows == (rows[0], rows[2]) and here.joint_of_post("P") is joints[1]
    assert here.all_joints == tuple(joints) and here.joints_of("F") == (joints[0],) and here.joints_of("G") == ()
    places: Any = SimpleNamespace(site=SimpleNamespace(ground_snow=(0.3, "its own")))
    assert replace(here, heads={**here.heads, AREAS: places}).site.ground_snow == (0.3, "its own")
    assert Context(here).anchor(None) is None and Context(here).anchor("A") is None and NoJoints().slot(None) == 0.0
