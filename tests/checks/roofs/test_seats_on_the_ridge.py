"""Level seats on the top of a ridge beam under forces that are given, the seat that is proposed, and who is across.

The 2x10 at 6:12 of `test_ridge_by_force` (Hem-Fir No. 2: F_c 1300, F_c_perp 405, F_v 150 psi, Table 4A, read).
"""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.core.context import AREAS, Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.roofs.ridge import other_side_checks
from beamcheck.checks.roofs.upper_seat import upper_seat_checks, usual_seat
from beamcheck.model.beams import Beam
from beamcheck.model.loads import Load
from beamcheck.model.roofs import Rafter
from beamcheck.model.stock import Stock

from ..houses import Data, beam, given_stock, rafter, seat
from .test_ridge_by_force import ON_BEAM, TWO, Even, setting

S = math.sin(math.atan(0.5))


def placed(breadth: str = "5 1/2 in", **more: Any) -> tuple[Any, Any, Context]:
    """On a ridge beam of wood so broad."""
    stick, context = setting(**ON_BEAM, **more)
    wood = Stock.model_validate(given_stock(f"{breadth} x 24 in", name="ridge wood"))
    under = Beam.model_validate(beam(seat("0 ft", "wall"), seat("12 ft", "wall"), name="ridge", stock="ridge wood"))
    stocks = {**context.structure.stocks, "ridge wood": wood}
    return stick.piece, stick, Context(Structure(stocks, {**context.structure.pieces, "ridge": under}))


def found(up: float = 400.0, V: float = 100.0, breadth: str = "5 1/2 in", **more: Any) -> dict[str, Check]:
    piece, stick, context = placed(breadth, **more)
    run: Any = SimpleNamespace(rafter=piece, far_reactions=np.array([0.0, up]), rafter_line=Even(V), **vars(TWO))
    return {check.id: check for check in upper_seat_checks(run, stick, context)}


def test_bearing_and_shear_of_a_seat() -> None:
    """400 lb on 1 1/2 x 2 in at 63.4 deg to the grain (3.10.3), on 400 psi of the beam; shear beside the notch."""
    checks = found(upper={"bearing": "2 in", "restrained": True})
    theta, F_c = math.pi / 2 - math.atan(0.5), 1300.0 * 1.15
    F = F_c * 405.0 / (F_c * math.sin(theta) ** 2 + 405.0 * math.cos(theta) ** 2)
    assert checks["roof.ridge_seat"].demand == pytest.approx(400.0 / 3.0)
    assert checks["roof.ridge_seat"].capacity == pytest.approx(F, rel=1e-4)
    assert checks["seat.bearing_under"].demand == pytest.approx(400.0 / 3.0)
    assert checks["seat.bearing_under"].capacity == pytest.approx(400.0)
    d_n = 9.25 - 2.0 * S
    shear = checks["roof.ridge_notch_shear"]
    assert shear.demand == 100.0
    assert shear.capacity == pytest.approx(2 / 3 * 150 * 1.15 * 1.5 * d_n * (d_n / 9.25) ** 2)
    assert found(-400.0, upper={"bearing": "2 in"})["roof.ridge_seat"].demand == 0.0


@pytest.mark.parametrize(("slope", "bearing", "verdict", "sheared"), [
    ("30 deg", "4 5/8 in", "passes", True), ("30 deg", "4.626 in", "fails", True), ("30 deg", "18.4 in", "fails", True),
    ("30 deg", "18.6 in", "fails", False),
])  # fmt: skip
def test_a_notch_up_to_a_quarter_of_the_depth(slope: str, bearing: str, verdict: str, sheared: bool) -> None:
    """9 1/4 in / 4 (NDS 2018 4.4.3.1): half of the seat at 30 degrees."""
    checks = found(slope=slope, seat_cut="1 in", upper={"bearing": bearing, "restrained": True}, breadth="20 in")
    assert checks["roof.ridge_notch"].verdict == verdict and ("roof.ridge_notch_shear" in checks) is sheared


@pytest.mark.parametrize(("upper", "verdict"), [
    ({"restrained": True}, ""), ({"restrained": False}, "fails"), ({}, "refer"),
])  # fmt: skip
def test_deep_rafters_are_held_upright_there(upper: Data, verdict: str) -> None:
    checks = found(upper={"bearing": "2 in", **upper})
    assert ("roof.ends_held" in checks) is bool(verdict)
    if verdict:
        assert checks["roof.ends_held"].verdict == verdict
        fields = [one.field for one in checks["roof.ends_held"].questions]
        assert fields == (["rafter.R.upper.restrained"] if verdict == "refer" else [])
    assert found(stock="log", upper={"bearing": "2 in"}) == {}


@pytest.mark.parametrize(("breadth", "bearing", "verdict", "half"), [
    ("5 in", "2 1/2 in", "", ""), ("5 in", "2.51 in", "refer", "2 1/2 in"), ("5 in", "5 in", "refer", "2 1/2 in"),
    ("5 in", "5.01 in", "fails", ""),
])  # fmt: skip
def test_two_seats_share_the_breadth(breadth: str, bearing: str, verdict: str, half: str) -> None:
    checks = found(breadth=breadth, upper={"bearing": bearing, "restrained": True})
    assert ("roof.ridge_room" in checks) is bool(verdict)
    if verdict:
        check = checks["roof.ridge_room"]
        assert check.verdict == verdict and "and ridge 5 in broad" in check.notes[0]
        assert not half or check.questions[0].answers[0].sets == (("rafter.R.upper.bearing", half),)
    lapped = found(
        breadth=breadth, upper={"bearing": bearing, "restrained": True}, meant={"upper": "they lap past each other"}
    )
    assert ("roof.ridge_room" in lapped) is (verdict == "fails")


@pytest.mark.parametrize(("breadth", "more", "length"), [
    ("6 in", {}, "3 in"), ("5.9 in", {}, "2 1/2 in"), ("5 in", {}, "2 1/2 in"), ("4.9 in", {}, "2 in"),
    ("4 in", {}, "2 in"), ("3.9 in", {}, "1 1/2 in"), ("3 in", {}, "1 1/2 in"), ("2.9 in", {}, ""),
    ("3 in", {"pair": False}, "3 in"), ("12 in", {"slope": "60 deg", "seat_cut": "1 in"}, "2 1/2 in"),
    ("12 in", {"stock": "log"}, ""),
])  # fmt: skip
def test_the_longest_usual_seat_with_room_is_proposed(breadth: str, more: Data, length: str) -> None:
    """Half of the beam for one of a pair; a notch of 2 5/16 in is 2.67 in long at 60 degrees."""
    piece, stick, context = placed(breadth, **more)
    run: Any = SimpleNamespace(rafter=piece)
    answers = usual_seat(run, stick, context)
    expected = [("rafter.R.upper", {"bearing": length, "restrained": True})]
    assert [one for answer in answers for one in answer.sets] == (expected if length else [])


def test_what_is_said_of_the_upper_end_is_kept_and_other_carriers_get_no_seat() -> None:
    piece, stick, context = placed(upper={"restrained": False, "lands_from": "1 ft", "lands_to": "9 ft"})
    run: Any = SimpleNamespace(rafter=piece)
    ((_, value),) = usual_seat(run, stick, context)[0].sets
    assert value == {"bearing": "2 1/2 in", "restrained": False}
    stick, context = setting(**ON_BEAM)
    assert usual_seat(SimpleNamespace(rafter=stick.piece), stick, context) == []  # type: ignore[arg-type]


# ---- who is across ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("more", "shape", "other", "asked"), [
    ({}, "gable", None, True), ({}, "monoslope", None, False), ({}, None, None, False),
    ({"pair": True}, "gable", None, False), ({"meant": {"pair": "a dormer stands there"}}, "gable", None, False),
    ({}, "gable", "ridge", False), ({}, "gable", "other ridge", True),
])  # fmt: skip
def test_a_roof_of_two_slopes_brings_both_to_its_ridge(more: Data, shape: str | None, other: str | None,
                                                       asked: bool) -> None:  # fmt: skip
    load = Load.model_construct(what="roof", roof="main", snow=None)
    stick, context = setting(**{**ON_BEAM, "pair": False, **more})
    piece = stick.piece.model_copy(update={"carries": (load,)})
    pieces: dict[str, Any] = {"R": piece}
    if other is not None:
        pieces["R2"] = Rafter.model_validate(rafter(name="R2", ridge="beam", ridge_on=other))
    roofs = {} if shape is None else {"main": (SimpleNamespace(name="main", shape=shape),)}
    areas = SimpleNamespace(roofs=roofs, site=None)
    structure = Structure(context.structure.stocks, pieces, heads={AREAS: areas})
    run: Any = SimpleNamespace(rafter=piece)
    checks = list(other_side_checks(run, stick, Context(structure)))
    assert [one.id for one in checks] == (["roof.other_slope"] if asked else [])
    if asked:
        assert checks[0].questions[0].answers[0].sets == (("rafter.R.pair", True),)
        assert checks[0].notes[0] == "main has two slopes, and nothing of this job brings the other one to ridge"
