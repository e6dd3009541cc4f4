"""Rafters and ties in a fire under forces that are given: what is left by hand, no wind, seat, cut, tail, steel.

Half an hour on three faces of a 6x12 dressed (5 1/2 x 11 1/2 in) of a letter: a = 1.2 x 1.5 x 0.5^0.813 in off both
sides and the bottom (NDS 2018 16.2, memory); shear and bearing with the values of the cold wood.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood.material import reference_values, wood_of
from beamcheck.checks.roofs.fire import fire_checks
from beamcheck.checks.roofs.framed_stick import FramedStick, framed
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.model.beams import Beam
from beamcheck.model.existing import Existing
from beamcheck.model.roofs import Rafter, Tie
from beamcheck.model.sticks import Cut
from beamcheck.model.stock import Stock

from ..anchors.anchors import loaded
from ..houses import WALL, Data, given_stock, rafter, tie

A = 1.2 * 1.5 * 0.5**0.813
B, D = 5.5 - 2 * A, 11.5 - A
SHEET = "engineer's sheet S-6 of 3 May 2025"
HOT: Data = {"minutes": 30, "exposed": ["bottom", "left", "right"], "others_covered_by": f"3 in plank, {SHEET}",
             "bracing_lasts": f"3 in plank, {SHEET}"}  # fmt: skip
WOOD = given_stock("6x12 dressed", name="wood")
TWO = (loaded("D + S", "S"), loaded("D + W", "W"))


class Line:
    """The same force all along: of each kind under snow, then under wind."""

    length = 130.0

    def __init__(self, **forces: Sequence[float]) -> None:
        self.forces = forces

    def extremes(self, what: str, *places: float) -> tuple[np.ndarray, ...]:
        one = np.array(self.forces.get(what, (0.0, 0.0)))
        return np.minimum(one, 0.0), one, np.maximum(one, 0.0), one


@dataclass
class Run:
    rafter: Rafter
    combinations: tuple[Any, ...]
    wall_reactions: np.ndarray
    tail: float
    rafter_line: Line


def burning(
    *, line: Line | None = None, up: Sequence[float] = (0.0, 0.0), tail: float = 0.0, fire: Data | None = None,
    stick: Data | None = None, under: Data | None = None, of_tie: Data | None = None, **more: Any,
) -> list[Check]:  # fmt: skip
    """Of the rafter, or of the tie where one is given; `stick`: what is changed of it, `under`: other pieces."""
    stock = Stock.model_validate(WOOD)
    one = Rafter.model_validate(rafter(stock="wood", fire={**HOT, **(fire or {})}, **more))
    pieces: dict[str, Any] = {"wall": Existing.model_validate(WALL), "R": one, **(under or {})}
    anchor = Anchor.model_construct(name="A", fire_cover=2.0, fire_covered_by="")
    context = Context(Structure({"wood": stock}, pieces, {"A": anchor}))
    piece: Any = one if of_tie is None else Tie.model_validate(tie(stock="wood", fire=HOT, **of_tie))
    made: FramedStick = replace(framed(piece, wood_of(stock, reference_values(stock), form="rafter"), context),
                                **(stick or {}))  # fmt: skip
    line = line or Line()
    on = one if of_tie is None else one.model_copy(update={"fire": None})
    run: Any = Run(on, TWO, np.array(up), tail, line)
    return list(fire_checks(made, run, line, context, free=tail))  # type: ignore[arg-type]


def of(found: list[Check], id: str, what: str = "") -> Check:
    (check,) = [one for one in found if one.id == id and what in one.what]
    return check


def test_wind_does_not_count_with_a_fire() -> None:
    """T/(b d), 1 1/2 V/(b d) and 6 M/(b d^2) under snow, though wind brings more."""
    found = burning(line=Line(N=(900.0, 9000.0), V=(400.0, 4000.0), M=(20000.0, 90000.0)))
    assert of(found, "fire.roof", "fire: tension").demand == pytest.approx(900.0 / (B * D))
    shear = next(one for one in found if one.id == "fire.shear" and one.what.endswith("fire: shear"))
    assert shear.demand == pytest.approx(1.5 * 400.0 / (B * D)) and shear.capacity == pytest.approx(150.0)
    bent = next(one for one in found if one.id == "fire.roof" and one.what.endswith("fire: bending"))
    assert bent.demand == pytest.approx(6 * 20000.0 / (B * D**2))
    assert {one.combination for one in (bent, shear)} == {"D + S"}


@pytest.mark.parametrize(("change", "asked"), [
    ({}, False), ({"plies": 2}, True), ({"old_cuts": (Cut.model_construct(kind="notch"),)}, True),
    ({"cuts": [{"kind": "notch", "at": "3 ft", "depth": "1 in", "length": "2 in", "face": "top"}]}, True),
    ({"made": "glulam"}, True),
])  # fmt: skip
def test_what_no_rule_of_a_fire_covers(change: Data, asked: bool) -> None:
    change = dict(change)
    stick = {"old_cuts": change.pop("old_cuts")} if "old_cuts" in change else {}
    if made := change.pop("made", None):
        stock = Stock.model_validate(WOOD)
        stick["wood"] = replace(wood_of(stock, reference_values(stock), form="rafter"), made=made)
    assert ("fire.engineer" in [one.id for one in burning(stick=stick, **change)]) is asked


@pytest.mark.parametrize(("bearing", "exposed", "l_b"), [
    ("4 in", ["bottom", "left", "right"], 4.0 - A), ("1.0245 in", ["bottom", "left", "right"], None),
    ("2 in", ["bottom", "left", "right"], 2.0 - A), ("1 in", ["left", "right"], 1.0),
])  # fmt: skip
def test_a_seat_burns_from_its_inner_side(bearing: str, exposed: list[str], l_b: float | None) -> None:
    """Where the fire reaches the bottom; the level seat of 5 1/2 in less two sides, 500 lb on it."""
    fire = {"exposed": exposed}
    (check,) = [one for one in burning(up=(500.0, 5000.0), fire=fire, wall={"bearing": bearing}, seat_cut="3 in")
                if one.id == "fire.bearing"]  # fmt: skip
    if l_b is None:
        assert check.verdict == "refer" and "burns from its inner side" in check.notes[0]
    else:
        assert check.demand == pytest.approx(500.0 / (B * l_b), rel=1e-6) and check.combination == "D + S"


def test_a_seat_of_which_a_little_is_left_is_judged_by_what_presses_on_it() -> None:
    (check,) = [one for one in burning(up=(500.0, 0.0), wall={"bearing": "1.03 in"}) if one.id == "fire.bearing"]
    assert check.verdict == "refer" and "burns from its inner side" not in check.notes[0]
    lifted = [one for one in burning(up=(-500.0, 0.0), wall={"bearing": "2 in"}) if one.id == "fire.bearing"]
    assert [one.demand for one in lifted] == [0.0]


@pytest.mark.parametrize(("cut", "checked"), [("3 in", True), ("10.47 in", True), ("10.48 in", False)])
def test_shear_at_the_birdsmouth_of_what_is_left(cut: str, checked: bool) -> None:
    """(2/3) F_v' b d_n (d_n/d)^2 (3.4.3.2) of what is left: 10.4755 in deep."""
    found = [one for one in burning(line=Line(V=(90.0, 9000.0)), seat_cut=cut, wall={"bearing": "4 in"})
             if "birdsmouth" in one.what]  # fmt: skip
    assert len(found) == (1 if checked else 0)
    if cut == "3 in":
        d_n = D - 3.0
        assert found[0].demand == pytest.approx(90.0)
        assert found[0].capacity == pytest.approx(2 / 3 * 150.0 * B * d_n * (d_n / D) ** 2)


@pytest.mark.parametrize(("tail", "asked"), [(0.0, False), (0.5, True), (30.0, True)])
def test_the_tail_over_the_wall_in_a_fire(tail: float, asked: bool) -> None:
    bent, wall = Line(M=(-2000.0, -90000.0)), {"at": f"{tail} in"}
    found = [one for one in burning(tail=tail, line=bent, wall=wall, bottom_held="full length")
             if "bending of the tail" in one.what]  # fmt: skip
    assert len(found) == asked
    if asked:
        d_n, F_b = D - 1.5, 1000.0 * 2.85  # Table 16.2.2 (memory); held, C_L 1
        assert (found[0].id, found[0].combination, found[0].capacity) == ("fire.roof", "D + S", 1.0)
        assert found[0].ratio == pytest.approx(2000.0 / (B * d_n**2 / 6) / F_b, rel=1e-6)


def test_all_that_carries_it_stands_as_long() -> None:
    def beam(name: str) -> Beam:
        return Beam.model_construct(name=name)

    def carriers(found: list[Check]) -> list[str]:
        return [one.what.rpartition(" ")[2] for one in found if one.id == "fire.carrier"]

    under = {name: beam(name) for name in ("plate", "ridge", "far")}
    on = {"on": "plate"}
    assert carriers(burning(under=under, wall=on, ridge="beam", ridge_on="ridge")) == ["plate", "ridge"]
    under["T"] = Tie.model_construct(name="T")  # type: ignore[assignment]
    assert carriers(burning(under=under, wall=on, other_wall="far", tie="T")) == ["plate", "far", "T"]
    assert carriers(burning(of_tie={})) == ["R"]


@pytest.mark.parametrize(("more", "held"), [
    ({"wall": {"held_by": "A"}}, True), ({}, False), ({"of_tie": {"ends_held_by": "A"}}, True), ({"of_tie": {}}, False),
])  # fmt: skip
def test_steel_that_holds_it_needs_as_much_wood_over_it_as_chars(more: Data, held: bool) -> None:
    found = [one for one in burning(**more) if one.id == "fire.steel"]
    assert len(found) == held
    assert not held or (found[0].demand, found[0].capacity) == (pytest.approx(A), 2.0)


def test_a_piece_of_which_no_fire_is_asked_or_of_which_nothing_is_left() -> None:
    stock = Stock.model_validate(WOOD)
    one = Rafter.model_validate(rafter(stock="wood"))
    context = Context(Structure({"wood": stock}, {"R": one}))
    made = framed(one, wood_of(stock, reference_values(stock), form="rafter"), context)
    run: Any = Run(one, TWO, np.zeros(2), 0.0, Line())
    assert list(fire_checks(made, run, Line(), context, free=0.0)) == []  # type: ignore[arg-type]
    gone = burning(fire={"minutes": 120})
    assert [one.id for one in gone] == ["fire.cover", "fire.section"]  # 6.3 in of the 5 1/2 in burn
