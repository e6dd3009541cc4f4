"""Forces at the points of a frame: they balance, mirror, and no joint stiffens by slipping."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.analysis.trusses.plan import Stiffness
from beamcheck.analysis.trusses.record import SolvedFrame
from beamcheck.analysis.trusses.solved import Sized, solve_frame
from beamcheck.model.frames.frame import Frame

STIFF = Stiffness(1.6e6 * 41.25, 1.6e6 * 193.4, 1e5 * 41.25 / 1.2, 0.8)


def frame(kind: str, loads: list[dict[str, Any]], forces: list[dict[str, Any]], **more: Any) -> Frame:
    sorts = {
        "king post": ("rafters", "tie", "king post", "struts"),
        "queen post": ("rafters", "straining beam", "tie", "posts"),
        "scissor": ("rafters", "chords", "king post"), "collar tie": ("rafters", "collar"),
        "braced bent": ("posts", "beam", "braces"),
    }[kind]  # fmt: skip
    bent = kind == "braced bent"
    loaded = "beam" if bent else "rafters"
    ends = ("left foot", "right foot") if bent else ("left heel", "right heel")
    members = [{"name": name, "stock": "any", "carries": loads if name == loaded else []} for name in sorts]
    feet = [{"at": at, "on": "wall"} for at in ends]
    return Frame.model_validate(
        {"name": "f", "kind": kind, "spacing": "8 ft", "finish": "none", "members": members, "feet": feet,
         "carries": forces, **more}
    )  # fmt: skip


MEASURES: dict[str, dict[str, str]] = {
    "king post": {"span": "24 ft", "rise": "8 ft"},
    "queen post": {"span": "30 ft", "rise": "8 ft", "post_from_heel": "10 ft"},
    "scissor": {"span": "28 ft", "rise": "12 ft"},
    "collar tie": {"span": "24 ft", "rise": "8 ft", "collar_height": "3 ft"},
    "braced bent": {"span": "16 ft", "height": "9 ft", "brace_on_beam": "3 ft", "brace_on_post": "3 ft"},
}


def solved(one: Frame, softest: float = 20000.0) -> SolvedFrame:
    return solve_frame(one, [Sized(stick, 5.5, 7.5, STIFF) for stick in one.sticks], softest)


def balance(found: SolvedFrame) -> float:
    """The largest force or moment that is wanting at any point, over the largest force in the frame."""
    largest = max(float(np.max(np.abs(end.N))) for node in found.nodes.values() for end in node.ends)
    worst = 0.0
    for node in found.nodes.values():
        forces = np.sum([end.force for end in node.ends], axis=0) + node.load + node.reaction
        moments = np.sum([end.M for end in node.ends], axis=0) / 300.0
        worst = max(worst, float(np.max(np.abs(forces))), float(np.max(np.abs(moments))))
    return worst / largest


@settings(max_examples=8, deadline=None)
@given(
    kind=st.sampled_from(sorted(MEASURES)), dead=st.integers(1, 40), snow=st.integers(1, 60), wind=st.integers(-40, 40),
    start=st.integers(1, 24), push=st.integers(0, 900),
)  # fmt: skip
def test_forces_balance_at_every_point(kind: str, dead: int, snow: int, wind: int, start: int, push: int) -> None:
    """Statics: the forces of members, loads and supports add up to nothing at each point, run by run, to 1e-9."""
    loads = [
        {"what": "roof", "dead": f"{dead} psf", "snow": f"{snow} psf"},
        {"what": "wind", "wind": f"{wind} psf", "from": f"{start} in"}, {"what": "lamp", "dead": "40 lb", "at": "2 ft"},
    ]  # fmt: skip
    top = "left head" if kind == "braced bent" else "left post, head" if kind == "queen post" else "ridge"
    forces = [{"what": "purlin", "at": top, "dead": "300 lb", "snow": "500 lb", "wind_sideways": f"{push} lb"}]
    assert balance(solved(frame(kind, loads, forces, **MEASURES[kind]))) < 1e-9


@pytest.mark.parametrize("kind", sorted(MEASURES))
def test_a_mirrored_frame_mirrors(kind: str) -> None:
    """Loads alike on both sides: what the left half bears under snow on its side the right half bears under its own."""
    found = solved(frame(kind, [{"what": "roof", "dead": "12 psf", "snow": "30 psf"}], [], **MEASURES[kind]))
    names = [one.name for one in found.combinations]
    for stick, left in found.members.items():
        if not stick.startswith("left "):
            continue
        right = found.members[stick.replace("left ", "right ", 1)]
        for i, name in enumerate(names):
            j = names.index(
                name.replace("left half", "\\0").replace("right half", "left half").replace("\\0", "right half")
            )
            size = max(float(np.max(left.pressed)), float(np.max(left.pulled)), 1.0)
            assert left.pressed[i] == pytest.approx(right.pressed[j], abs=1e-6 * size)
            assert left.pulled[i] == pytest.approx(right.pulled[j], abs=1e-6 * size)


@pytest.mark.parametrize("kind", sorted(MEASURES))
def test_slip_never_stiffens(kind: str) -> None:
    """Work done by the loads (a softer part adds compliance): the drop under the loads grows as joints soften."""
    force = [{"what": "weight", "at": "left head" if kind == "braced bent" else "left rafter, middle"
              if kind in ("king post", "scissor") else "left post, head" if kind == "queen post" else "ridge",
              "live": "1000 lb"}]  # fmt: skip
    at = force[0]["at"]
    one = frame(kind, [], force, **MEASURES[kind])
    light = [Sized(stick, 5.5, 7.5, Stiffness(STIFF.EA, STIFF.EI, STIFF.GA_s, 0.0)) for stick in one.sticks]
    drops = []
    for softest in (1e9, 2e5, 5e4, 1e4):
        found = solve_frame(one, light, softest)
        soft = [i for i, each in enumerate(found.combinations) if "soft" in each.name and each.name.startswith("D + L")]
        drops.append([found.drop(at)[i] for i in soft])
    for before, after in pairwise(drops):
        assert all(b >= a - 1e-9 for a, b in zip(before, after, strict=True))


def test_a_rigid_tie_is_the_pair_of_rafters_of_before() -> None:
    """w L^2/(8 H) in the tie and w (L/2)^2/8 in the rafters (closed form), as of a pair with a tie at its feet."""
    members = [
        {"name": "rafters", "stock": "any", "carries": [{"what": "snow", "snow": "300 plf"}]},
        {"name": "tie", "stock": "any"},
    ]
    feet = [{"at": "left heel", "on": "wall"}, {"at": "right heel", "on": "wall", "slides": True}]
    one = Frame.model_validate(
        {"name": "f", "kind": "collar tie", "span": "24 ft", "rise": "8 ft", "collar_height": "0 ft",
         "finish": "none", "feet": feet, "members": members}
    )  # fmt: skip
    weightless = Stiffness(STIFF.EA, STIFF.EI, STIFF.GA_s, 0.0)
    found = solve_frame(one, [Sized(stick, 5.5, 7.5, weightless) for stick in one.sticks], 20000.0)
    w, i = 25.0, next(i for i, each in enumerate(found.combinations) if each.name.startswith("D + S ("))
    assert found.members["tie"].N_high[i, 0] == pytest.approx(w * 288**2 / (8 * 96), rel=1e-9)
    assert found.members["left rafter"].M_high[i, 0] == pytest.approx(w * 144**2 / 8, rel=1e-9)


def test_play_lets_the_post_come_down() -> None:
    """Row F263 of the reference, virtual work: with 1/16 in at both heels and at both ends of the post its foot comes
    down 0.21875 in (pins; rafters that run through resist a little, so they are made thin here)."""
    one = frame("king post", [{"what": "roof", "dead": "300 plf"}], [], **MEASURES["king post"])
    thin = Stiffness(STIFF.EA, 1.0, STIFF.GA_s, 0.0)
    sized = [Sized(stick, 5.5, 7.5, thin) for stick in one.sticks]
    found = solve_frame(one, sized, 1e9, {"tie": 0.125, "king post": 0.125})
    free = [i for i, each in enumerate(found.combinations) if "feet free, joints tight" in each.name]
    foot = list(found.nodes).index("foot of the king post")
    assert found.play[free[0], foot] == pytest.approx(0.21875, rel=1e-4)
    assert np.all(solve_frame(one, sized, 1e9).play == 0.0)
