"""Rods that are proposed under a base, by hand: as many as there is room for, in a plate that does not pry.

A plate that does not pry is sqrt(6.68 T b'/(p F_u)) thick (AISC Manual part 9, memory), b' = 1 1/2 - 5/16 in, A36.
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.joints.kinds.post_ends.base_rods import _rods, rod_checks
from beamcheck.checks.joints.kinds.post_ends.post_base import _push, _slot
from beamcheck.model.stock import Stock

from ...houses import UNKNOWN
from ..jobs import Data, wood
from ..meetings import arriving, meeting


def base(**more: Any) -> Any:
    given: Data = {"steel": "A36", "plate": 0.375, "stands_off": 1.0, "stem": "bar", "stem_width": 3.0,
                   "stem_thickness": 0.5, "bears_wide": 6.0, "bears_long": 5.0, "rods": None, **more}  # fmt: skip
    return SimpleNamespace(**given)


def proposed(lifts: float, level: float = 0.0, **more: Any) -> list[Data]:
    return [one.sets[0][1] for one in _rods("J", base(**more), lifts, np.array([0.0, level]))]  # type: ignore[misc]


def test_four_rods_in_a_plate_that_does_not_pry_then_two_in_one_like_that_above() -> None:
    """9,600 lb: 2,400 lb each, three times that; sqrt(6.68 x 2400 x 1.1875/(1.5 x 58000)) = 0.468 in."""
    four, two = proposed(9600.0)
    same = {"diameter": "5/8 in", "hole": "11/16 in", "along": "3 in", "off": "1 1/2 in", "edge": "1 1/4 in",
            "takes_by": "evaluation report ER-0000, 2025 edition, table 3"}  # fmt: skip
    assert four == {**same, "count": 4, "plate": "1/2 in", "takes": "7,200 lbf"}
    assert two == {**same, "count": 2, "plate": "3/8 in", "takes": "5,760 lbf"}
    assert proposed(400.0)[0]["plate"] == "1/4 in"


def test_a_level_force_tips_the_base_and_pushes_its_rods() -> None:
    """800 lb at 1 in: across, 2 x 1.5 + 0.5 + 1.25 in by 0.9 on one side; along, 2.25 in (two rods: 1.5 in) on two."""
    four, two = proposed(2400.0, 800.0)
    tipped = 800.0 / (0.9 * 2.25) / 2
    assert (four["takes"], four["sideways"]) == (f"{-(-3 * (600 + tipped) // 10) * 10:,.0f} lbf", "600 lbf")
    tipped = 800.0 / (0.9 * 1.5) / 2
    assert (two["takes"], two["sideways"]) == (f"{-(-1.2 * (1200 + tipped) // 10) * 10:,.0f} lbf", "480 lbf")
    assert proposed(0.0, 800.0, stands_off=0.0)[0]["takes"] == "200 lbf"  # no less than what pushes one
    assert "sideways" not in proposed(2400.0, 2.0)[0] and "sideways" in proposed(2400.0, 2.1)[0]
    far = proposed(0.0, 800.0, stem_width=30.0)[0]["takes"]  # wide: across decides
    assert far == f"{-(-3 * (800.0 / (0.9 * 4.75) / 2) // 10) * 10:,.0f} lbf"


@pytest.mark.parametrize(("stem", "count", "along"), [
    ({"stem_width": 1.5}, 4, "3 in"), ({"stem_width": 1.4}, 2, "3 in"), ({"stem_width": 4.0}, 4, "4 in"),
    ({"stem": "full", "stem_width": None, "stem_thickness": None}, 4, "5 in"),
])  # fmt: skip
def test_as_many_as_stand_beside_what_pulls(stem: Data, count: int, along: str) -> None:
    """Two on a side of 3 in stand 1 1/2 in apart; what is as wide as the plate counts with its lesser side."""
    first = proposed(2400.0, **stem)[0]
    assert (first["count"], first["along"]) == (count, along)


def rods(**more: Any) -> Any:
    given: Data = {"count": 4, "diameter": 0.625, "hole": 0.6875, "plate": 0.375, "along": 6.0, "off": 1.5,
                   "edge": 1.25, "takes": 6000.0, "on": "concrete", "sideways": None, "stock": None,
                   "takes_by": "evaluation report ER-0000, 2025 edition, table 3", **more}  # fmt: skip
    return SimpleNamespace(**given)


def found(lifts: float, level: float, beside: Data | None = None, **of_base: Any) -> dict[str, Any]:
    one = meeting(arriving("post", 90.0, N=(lifts,)), beside=None if beside is None else Stock.model_validate(beside))
    made = base(**of_base)
    made.bears_wide = made.bears_long = 6.0
    checks = rod_checks(one, made, np.array([0.0, level]))
    return {f"{check.id} {check.what}" if check.id == "joint.base_rods" else check.id: check for check in checks}


@pytest.mark.parametrize(("lifts", "level", "words"), [
    (300.0, 200.0, "300 lb lift the post"), (200.0, 300.0, "300 lb push its foot"), (300.0, 300.0, "300 lb push its"),
    (-300.0, 0.0, ""), (0.5, 0.5, ""), (0.6, 0.0, "0.6 lb lift"),
])  # fmt: skip
def test_the_larger_of_both_is_told(lifts: float, level: float, words: str) -> None:
    check = found(lifts, level).get("joint.base_rods what holds the base down")
    assert (check is not None) is bool(words)
    assert check is None or (
        check.notes[0].startswith(words) and check.questions[0].why.startswith(words[:6]) is not None
    )


@pytest.mark.parametrize(("on", "beside", "asked"), [
    ("wood", UNKNOWN, True), ("wood", wood("sill", "6x6 dressed"), False), ("concrete", UNKNOWN, False),
    ("wood", None, False),
])  # fmt: skip
def test_wood_under_the_plate_that_nobody_knows_is_asked(on: str, beside: Data | None, asked: bool) -> None:
    checks = found(300.0, 0.0, beside, rods=rods(on=on))
    assert ("joint.wood" in checks) is asked and ("anchor.pried_wood" in checks) is (
        on == "wood" and beside is not None
    )


@pytest.mark.parametrize(("level", "both"), [(0.5, False), (20.0, True), (21.0, True)])
def test_pull_and_level_force_together(level: float, both: bool) -> None:
    """20 lb beside 300 lb are more than a hundredth."""
    checks = found(300.0, level, rods=rods(sideways=1000.0))
    assert ("joint.base_rods_both" in checks) is both
    asked = found(300.0, 801.0, rods=rods())["joint.base_rods_both"]
    assert [one.says for one in asked.questions[0].answers] == ["810 lbf"]  # four times what pushes one


def test_what_lifts_a_post_presses_on_no_plate() -> None:
    for N, pressed in ((-900.0, 900.0), (900.0, 0.0)):
        assert _push(meeting(arriving("post", 90.0, N=(N,)))).tolist() == pytest.approx([0.0, pressed])


@pytest.mark.parametrize(("plate", "slot"), [
    (None, 0.0), ((None, 0.25), 0.25), ((0.375, 0.25), 0.375), ((0.1875, 0.25), 0.25),
])  # fmt: skip
def test_what_a_plate_takes_of_the_end_grain(plate: tuple[float | None, float] | None, slot: float) -> None:
    """The wider of plate and slot; nothing without a plate."""
    made = None if plate is None else SimpleNamespace(slot=plate[0], thickness=plate[1])
    assert _slot(meeting(arriving("post", 90.0, entry={"plate": made}))) == slot
