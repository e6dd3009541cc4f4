"""Frames in trade words: closed forms, both ends of what is not known, mirror, equilibrium, and what is refused."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import beamcheck as bc
from beamcheck.errors import BeamcheckError

WOOD: dict[str, Any] = {"size": "6x8 dressed", "E": "1600000 psi"}
BOTH = ("left rafter", "right rafter")


def king(P: tuple[float, float, float], **more: Any) -> bc.SolvedFrame:
    places = ("left rafter, middle", "ridge", "right rafter, middle")
    given: dict[str, Any] = {"down": {at: f"{p} lb" for at, p in zip(places, P, strict=True)}, "feet": "free"}
    return bc.solved_frame("king post", span="24 ft", rise="8 ft", **WOOD, **(given | more))


def test_a_king_post_truss_by_joints() -> None:
    """P on middles and ridge: struts -P/(2 sin), post P, tie V/tan, rafter -V/sin (statics of pins). Rafters that run
    through take a part of it by bending, here 1 to 5 percent; the moments about the ridge are exact."""
    found, P, slope = king((1800.0, 1800.0, 1800.0)), 1800.0, math.atan2(96, 144)
    V = 1.5 * P
    pinned = {
        "tie": V / math.tan(slope), "left rafter": -V / math.sin(slope), "left strut": -P / (2 * math.sin(slope)),
        "king post": P,
    }  # fmt: skip
    for name, N in pinned.items():
        stick = found.stick(name)
        assert (stick.N.high if N > 0 else stick.N.low) == pytest.approx(N, rel=0.06), name
        assert stick.N.size <= abs(N) * (1 + 1e-9), name
    tie, strut = (
        found.stick("tie"),
        found.stick("left strut").N.low,
    )  # left half about the ridge, the tie's bending with it
    held = 96 * tie.N.high + tie.M.high + 96 * math.cos(slope) * strut
    assert held == pytest.approx(V * 144 - P * 72, rel=1e-9)
    assert found.stick("left rafter").M.high == pytest.approx(found.stick("right rafter").M.high) and tie.M.high > 0.0
    for up in found.forces.up.values():
        assert up.low == pytest.approx(V)
    assert found.forces.thrust.size == pytest.approx(0.0, abs=1e-6)


def test_a_queen_post_truss_under_one_sided_load_hangs_on_the_bending_of_its_tie() -> None:
    """M = P a (L - 2a)/(2 L) at the feet of the posts, one post pushes P/2, the other pulls (closed form)."""
    found = bc.solved_frame(
        "queen post", span="30 ft", rise="8 ft", post_from_heel="10 ft", feet="free", **WOOD,
        down={"left post, head": "3000 lb"},
    )  # fmt: skip
    assert found.stick("tie").M.high == pytest.approx(3000 * 120 * 120 / 720, rel=0.03)
    assert found.stick("tie").M.low == pytest.approx(-60000, rel=0.03)
    assert found.stick("left post").N.low == pytest.approx(-1500, rel=0.03)
    assert found.stick("right post").N.high == pytest.approx(1500, rel=0.03)


@pytest.mark.parametrize("height", [32.0, 48.0, 70.0])
def test_a_collar_with_free_feet(height: float) -> None:
    """T = w L^2/(8 (H - h)), M = w x (L - x)/2 at the collar (statics)."""
    L, H, w = 288.0, 96.0, 25.0
    found = bc.solved_frame(
        "collar tie", span=f"{L} in", rise=f"{H} in", collar_height=f"{height} in", feet="free", **WOOD,
        on_plan=dict.fromkeys(BOTH, f"{w} lb/in"),
    )  # fmt: skip
    x = L * height / (2 * H)
    assert found.stick("collar").N.high == pytest.approx(w * L**2 / (8 * (H - height)), rel=1e-9)
    assert found.stick("left rafter").M.high == pytest.approx(w * x * (L - x) / 2, rel=1e-3)


def test_a_collar_turns_its_sign_with_the_feet_and_says_so() -> None:
    """5,400 lb pull with free feet, 3,337 push with held ones, between them with walls of 2,000 lb/in (derived, by two
    other methods without shear; the stiffness of the sticks is near that of theirs)."""
    found = bc.solved_frame(
        "collar tie", span="24 ft", rise="8 ft", collar_height="4 ft", wall_stiffness="2000 lb/in", **WOOD,
        on_plan=dict.fromkeys(BOTH, "25 lb/in"),
    )  # fmt: skip
    collar = found.stick("collar")
    assert collar.N.high == pytest.approx(5400, rel=1e-6) and collar.N.high_run == "feet free"
    assert collar.N.low == pytest.approx(-3337, rel=0.02) and collar.N.low_run == "feet held"
    assert collar.changes_sign and "pushes and pulls" in repr(found)
    assert found.forces.runs == ("feet free", "feet held", "walls of 2000 lb/in")
    assert found.forces.thrust.size_run == "feet held"


def test_a_tie_at_the_feet() -> None:
    """T = w L^2/(8 H), M = w (L/2)^2/8 in each rafter; nothing of it changes with the joints."""
    found = bc.solved_frame(
        "collar tie", span="24 ft", rise="8 ft", collar_height="0 in", feet="free", **WOOD,
        joint_stiffness="20000 lb/in", on_plan=dict.fromkeys(BOTH, "25 lb/in"),
    )  # fmt: skip
    assert (found.stick("tie").N.low, found.stick("tie").N.high) == pytest.approx((2700, 2700))
    assert found.stick("left rafter").M.high == pytest.approx(64800)


@pytest.mark.parametrize(("dry", "times"), [((), 1.0), (("left brace", "right brace"), 2.0)])
def test_dry_knee_braces_push_twice(dry: tuple[str, ...], times: float) -> None:
    """N = (H/2) h/(b cos 45), all of H where the windward brace opens (statics)."""
    found = bc.solved_frame(
        "braced bent", span="16 ft", height="10 ft", brace_on_beam="3 ft", brace_on_post="3 ft", only_push=dry, **WOOD,
        sideways={"left head": "1000 lb", "right head": "1000 lb"},
    )  # fmt: skip
    N = 1000 * 120 / (36 * math.cos(math.pi / 4))
    assert found.stick("right brace").N.low == pytest.approx(-times * N, rel=2e-3)
    left = found.stick("left brace")
    assert left.idle_in == (("feet held",) if dry else ())
    assert left.N.size == pytest.approx(0.0 if dry else N, rel=2e-3)
    assert ("opens with" in repr(found)) is bool(dry)


def test_a_scissor_spreads_or_thrusts() -> None:
    found = bc.solved_frame("scissor", span="28 ft", rise="140 in", **WOOD, down={"ridge": "1500 lb"})
    assert found.forces.spread.high > 0.0 and found.forces.spread.high_run == "feet free"
    assert found.forces.thrust.high > 100.0 and found.forces.thrust.high_run == "feet held"


MIRROR = {"left": "right", "right": "left"}


def mirrored(name: str) -> str:
    first, _, rest = name.partition(" ")
    return f"{MIRROR.get(first, first)} {rest}".strip()


@settings(max_examples=15, deadline=None)
@given(st.tuples(*[st.integers(0, 3000)] * 3), st.integers(0, 30), st.integers(0, 30))
def test_the_mirror_and_equilibrium(P: tuple[int, int, int], w_left: int, w_right: int) -> None:
    plan = {"left rafter": f"{w_left} lb/in", "right rafter": f"{w_right} lb/in"}
    more: dict[str, Any] = {"density": "35 pcf", "feet": "held"}
    one = king(P, on_plan=plan, **more)  # type: ignore[arg-type]
    other = king(P[::-1], on_plan={mirrored(k): v for k, v in plan.items()}, **more)  # type: ignore[arg-type]
    scale = max(stick.N.size for stick in one.sticks)
    for stick in one.sticks:
        twin = other.stick(mirrored(stick.name))
        assert (twin.N.low, twin.N.high) == pytest.approx((stick.N.low, stick.N.high), rel=1e-8, abs=1e-8 * scale)
    lengths = 288 + 2 * math.hypot(144, 96) + 96 + 2 * math.hypot(72, 48)
    total = sum(P) + 144 * (w_left + w_right) + 35 * 5.5 * 7.5 / 1728 * lengths
    assert sum(up.high for up in one.forces.up.values()) == pytest.approx(total, rel=1e-9)


def test_softer_joints_sag_more_and_never_less() -> None:
    drops = []
    for slip in ("600000 lb/in", "120000 lb/in", "20000 lb/in"):
        found = king((1800.0, 1800.0, 1800.0), joint_stiffness=slip)
        drops.append(found.forces.drops["foot of the king post"].high)
        assert found.forces.drops["foot of the king post"].high_run == "feet free, joints soft"
    assert drops == sorted(drops)


FREE = {
    "points": {"a": ("0 ft", "0 ft"), "b": ("10 ft", "0 ft"), "c": ("5 ft", "4 ft")},
    "sticks": {"tie": ["a", "b"], "left": ["a", "c"], "right": ["b", "c"]}, "feet_at": ["a", "b"],
    "down": {"c": "1000 lb"},
}  # fmt: skip


def test_a_free_form_is_the_same_as_its_trade_form() -> None:
    free = bc.solved_free_frame(**WOOD, **FREE)
    named = bc.solved_frame(
        "collar tie", span="10 ft", rise="4 ft", collar_height="0 in", down={"ridge": "1000 lb"}, **WOOD
    )
    assert free.stick("tie").N == named.stick("tie").N
    assert free.stick("left").N.low == pytest.approx(named.stick("left rafter").N.low)
    assert "Caution" in repr(free) and "Not looked at" in repr(free)


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"points": FREE["points"] | {"d": ("1 ft", "9 ft")}}, "'d': no stick reaches it"),  # type: ignore[operator]
        ({"points": FREE["points"] | {"c": ("0 ft", "0 ft")}}, "'left' has no length between 'a' and 'c'"),  # type: ignore[operator]
        ({"sticks": {"tie": ["a", "b"], "left": ["a", "x"]}}, "point of stick 'left' 'x' is not known"),
        ({"sticks": {"all": ["a", "c", "b"]}}, "not straight at 'c'"),
        ({"sticks": {"left": ["a", "c"], "right": ["b", "c"]}}, "the b can move sideways.*feet free"),
        ({"feet_at": []}, "stands on nothing"),
        ({"feet_at": ["a", "z"]}, "foot 'z' is not known"),
        ({"down": {"z": "10 lb"}}, "point 'z' is not known"),
        ({"on_plan": {"beam": "10 plf"}}, "stick 'beam' is not known"),
        ({"only_pull": ["beam"]}, "stick 'beam' is not known"),
        ({"sizes": {"beam": "6x8 dressed"}}, "stick 'beam' is not known"),
        ({"down": {"c": "1000"}}, "unit"),
        ({"feet": "loose"}, "way of the feet 'loose' is not known"),
        ({"joint_stiffness": "0 lb/in"}, "joint_stiffness must be greater than zero"),
        ({"only_push": ["tie"]}, "(can move|comes apart).*feet free"),
    ],
)
def test_a_frame_that_cannot_be_is_refused_in_words(changed: dict[str, Any], words: str) -> None:
    with pytest.raises(BeamcheckError, match=words):
        bc.solved_free_frame(**(WOOD | FREE | changed))


@pytest.mark.parametrize(
    ("form", "changed", "words"),
    [
        ("hall of mirrors", {}, "form of frame 'hall of mirrors' is not known"),
        ("king post", {"rise": None}, "needs its rise"),
        ("king post", {"collar_height": "3 ft"}, "has no collar_height"),
        ("king post", {"rise": "-3 ft"}, "a length has no sign"),
        ("king post", {"rise": "0 ft"}, "rise is 0 in: it must be greater"),
        ("queen post", {"post_from_heel": "13 ft"}, "less than half the span"),
        ("collar tie", {"collar_height": "9 ft"}, "less than the rise"),
        ("king post", {"only_push": ["tie"]}, "runs through a joint"),
        ("king post", {"only_push": ["king post"], "only_pull": ["king post"]}, "cannot both"),
    ],
)
def test_a_form_that_does_not_fit_is_refused_in_words(form: str, changed: dict[str, Any], words: str) -> None:
    given = {"span": "24 ft", "rise": "8 ft"} | changed
    with pytest.raises(BeamcheckError, match=words):
        bc.solved_frame(form, **WOOD, **{name: value for name, value in given.items() if value is not None})


def test_the_wall_of_a_bent_has_no_stiffness_here() -> None:
    with pytest.raises(BeamcheckError, match="no place here"):
        bc.solved_frame(
            "braced bent", span="16 ft", height="10 ft", brace_on_beam="3 ft", brace_on_post="3 ft", **WOOD,
            wall_stiffness="2000 lb/in",
        )  # fmt: skip
