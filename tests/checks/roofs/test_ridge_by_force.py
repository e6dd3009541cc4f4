"""The upper end of a rafter under forces that are given: what is asked, by which force, on either side of each limit.

A 2x10 (1 1/2 x 9 1/4 in) of a letter with F_c_perp 40 psi bears 555 lb across the grain, a hundredth of it 5.55 lb; one
of Hem-Fir 5,619 lb. Less than a pound is rounding, up to 20 lb and that hundredth is next to nothing (judgment).
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood.material import reference_values, wood_of
from beamcheck.checks.roofs.framed_stick import FramedStick, framed
from beamcheck.checks.roofs.ridge import other_side_checks, upper_end_checks
from beamcheck.model.existing import Existing
from beamcheck.model.roofs import Rafter
from beamcheck.model.stock import Stock

from ..anchors.anchors import loaded
from ..houses import TWO_BY_TEN, WALL, Data, given_stock, rafter

STOCKS = (
    TWO_BY_TEN, given_stock('1 1/2" x 9 1/4"', name="weak", F_c_perp=40), given_stock('1 1/2" x 9 1/4"'),
    given_stock("8 in round", name="log"),
)  # fmt: skip
RIDGE: Data = {"name": "ridge", "what": "ridge beam", "confirmed_by": "invented sheet S-1, engineer"}
FAR: Data = {"name": "far wall", "what": "wall", "confirmed_by": "invented sheet S-1, engineer", "takes": "500 lb"}
ON_BEAM: Data = {"ridge": "beam", "ridge_on": "ridge"}
TWO = SimpleNamespace(combinations=(loaded("D", "D"), loaded("D + S", "S")))


class Even:
    """A rafter with the same shear all along."""

    length = 107.0

    def __init__(self, V: float = 100.0) -> None:
        self.V = np.array([0.0, V])

    def extremes(self, what: str, *places: float) -> tuple[np.ndarray, ...]:
        return -self.V, self.V, self.V, self.V


def setting(*, stock: str = "2x10", **more: Any) -> tuple[FramedStick, Context]:
    """The rafter of `houses.rafter` with its wood, and what it stands on."""
    stocks = {one["name"]: Stock.model_validate(one) for one in STOCKS}
    piece = Rafter.model_validate(rafter(stock=stock, **more))
    under = {one["name"]: Existing.model_validate(one) for one in (WALL, RIDGE, FAR)}
    context = Context(Structure(stocks, {**under, piece.name: piece}))
    return framed(piece, wood_of(stocks[stock], reference_values(stocks[stock]), form="rafter"), context), context


def checks(which: Any, stick: FramedStick, context: Context, **forces: float) -> list[Check]:
    """Two combinations: nothing, and the forces."""
    arrays = {name: np.array([0.0, forces.get(name, 0.0)]) for name in ("ridge_pull", "ridge_down", "far_reactions")}
    if "lifts" in forces:
        arrays["far_reactions"] = np.array([forces.get("presses", 0.0), -forces["lifts"]])
    run: Any = SimpleNamespace(rafter=stick.piece, rafter_line=Even(), tail=0.0, **vars(TWO), **arrays)
    return list(which(run, stick, context))


def board(*, stock: str = "2x10", **forces: float) -> dict[str, Check]:
    stick, context = setting(stock=stock)
    return {one.id: one for one in checks(upper_end_checks, stick, context, **forces)}


@pytest.mark.parametrize(("pull", "pressed"), [(-0.9, False), (-1.0, False), (-1.1, True), (1.1, False)])
def test_a_plumb_cut_is_pressed_by_more_than_rounding(pull: float, pressed: bool) -> None:
    found = board(ridge_pull=pull)
    assert ("roof.ridge_bearing" in found) is pressed
    if pressed:
        assert found["roof.ridge_bearing"].demand == pytest.approx(-pull / (1.5 * 9.25))
    assert "roof.ridge_bearing" not in board(ridge_pull=pull, stock="log")


@pytest.mark.parametrize(("forces", "verdict"), [
    ({"ridge_pull": 1.0, "ridge_down": -1.0}, ""), ({"ridge_down": 1.1}, "passes"), ({"ridge_down": -1.1}, "passes"),
    ({"ridge_pull": 1.1}, "passes"), ({"ridge_down": 20.0}, "passes"), ({"ridge_down": -20.1}, "refer"),
    ({"ridge_pull": 20.1}, "refer"), ({"ridge_pull": -900.0}, ""),
])  # fmt: skip
def test_what_pulls_or_slides_at_a_board_needs_a_joint(forces: dict[str, float], verdict: str) -> None:
    found = board(**forces)
    assert ("roof.ridge_joint" in found) is bool(verdict)
    assert not verdict or found["roof.ridge_joint"].verdict == verdict


@pytest.mark.parametrize(("slides", "verdict"), [(5.5, "passes"), (5.6, "refer")])
def test_next_to_nothing_is_a_hundredth_of_what_the_wood_bears(slides: float, verdict: str) -> None:
    assert board(ridge_down=slides, stock="weak")["roof.ridge_joint"].verdict == verdict


def test_the_joint_at_a_board_is_asked_with_each_force() -> None:
    pulled = board(ridge_pull=300.0, ridge_down=-80.0)["roof.ridge_joint"]
    assert dict(pulled.questions[0].forces) == {"pulls": 300.0, "slides": 80.0, "presses": 0.0}
    assert "pull apart with up to 300 lb" in pulled.notes[0] and "with up to 80 lb" in pulled.notes[0]
    assert "300 lb" in pulled.questions[0].why
    pressed = board(ridge_pull=-300.0, ridge_down=80.0)["roof.ridge_joint"]
    assert dict(pressed.questions[0].forces) == {"pulls": 0.0, "slides": 80.0, "presses": 300.0}
    assert "pull apart with up to 0 lb" in pressed.notes[0] and "80 lb" in pressed.questions[0].why


def at_the_beam(upper: Data | None, *, stock: str = "2x10", **forces: float) -> dict[str, Check]:
    stick, context = setting(stock=stock, **ON_BEAM, **({} if upper is None else {"upper": upper}))
    return {one.id: one for one in checks(upper_end_checks, stick, context, **forces)}


SEAT: Data = {"bearing": "1 1/2 in", "restrained": True}


@pytest.mark.parametrize(("lifts", "words"), [(0.9, False), (1.0, False), (1.1, True)])
def test_a_lift_of_a_pound_is_rounding(lifts: float, words: bool) -> None:
    check = at_the_beam(None, presses=250.0, lifts=lifts)["roof.upper_end"]
    assert check.verdict == "refer" and "presses down with up to 250 lb" in check.notes[0]
    assert ("lifts with up to" in check.notes[0]) is words
    assert dict(check.questions[0].forces) == {"presses down": 250.0, "lifts": lifts}


@pytest.mark.parametrize(("presses", "lifts", "force"), [(250.0, 80.0, "250 lb"), (80.0, 250.0, "250 lb")])
def test_hardware_at_the_beam_is_asked_by_the_larger_force(presses: float, lifts: float, force: str) -> None:
    asked = at_the_beam(None, presses=presses, lifts=lifts)["roof.upper_end"].questions[0]
    assert asked.why.startswith(force)


@pytest.mark.parametrize(("lifts", "stock", "strap"), [
    (0.0, "2x10", False), (20.0, "2x10", False), (20.1, "2x10", True), (5.5, "weak", False), (5.6, "weak", True),
])  # fmt: skip
def test_a_seat_needs_a_strap_where_more_than_next_to_nothing_lifts(lifts: float, stock: str, strap: bool) -> None:
    """Beside what it presses with, however much that is; the same limit asks what is under it."""
    found = at_the_beam(SEAT, stock=stock, presses=250.0, lifts=lifts)
    check = found["roof.upper_end"]
    assert check.verdict == ("refer" if strap else "passes")
    assert not strap or ((check.questions[0].id == "R/upper_strap" and "5.6 lb" in check.questions[0].why)
                         or "20.1 lb" in check.questions[0].why)  # fmt: skip
    assert ("seat.takes_uplift" in found) is strap and found["seat.confirmed"].verdict == "passes"


def test_uplift_of_the_ridge_beam_of_others_is_what_one_rafter_lifts_with() -> None:
    check = at_the_beam(SEAT, presses=250.0, lifts=80.0)["seat.takes_uplift"]
    assert check.verdict == "refer" and "80 lb pulls up on ridge" in check.notes[0]


@pytest.mark.parametrize(("other", "ids"), [
    ("wall", ["roof.other_wall"]), ("far wall", ["roof.other_wall", "seat.confirmed", "seat.takes"]),
])  # fmt: skip
def test_the_opposite_wall_is_looked_at_once(other: str, ids: list[str]) -> None:
    """The wall of this foot is looked at with this foot."""
    stick, context = setting(other_wall=other)
    found = checks(other_side_checks, stick, context, far_reactions=400.0)
    assert [one.id for one in found] == ids
    if len(ids) > 1:
        assert found[-1].demand == 400.0 and found[-1].capacity == 500.0


def test_the_opposite_wall_that_is_not_named_is_asked_with_this_one() -> None:
    stick, context = setting()
    (check,) = checks(other_side_checks, stick, context, far_reactions=400.0)
    (asked,) = check.questions
    assert check.verdict == "refer" and asked.field == "rafter.R.other_wall"
    assert [one.says for one in asked.answers] == ["wall"]
