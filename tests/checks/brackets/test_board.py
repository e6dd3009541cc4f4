"""How a bracket is laid on its board, against places worked out by hand."""

from __future__ import annotations

import math
from xml.etree import ElementTree

import numpy as np
import pytest

from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.core.pictures.board import BoardPicture
from beamcheck.model.brackets.bracket import Bracket
from beamcheck.model.stock import Stock
from beamcheck.sheet.figures.brackets.on_the_board import board_figure, describe

SVG = "{http://www.w3.org/2000/svg}"


def laid(grain: str | None, size: str = "4x12 dressed", **more: str) -> BoardPicture | None:
    shape = {
        "family": "solid",
        "thickness": "3 1/2 in",
        "height": "14 in",
        "projection": "12 in",
        "foot": "3 in",
        "nose": "2 1/2 in",
        "soffit": "concave",
        **({} if grain is None else {"grain": grain}),
        **more,
    }
    bracket = Bracket.model_validate(
        {"name": "K", "on": "post", "role": "decorative", "stock": "board", "shape": shape}
    )
    stock = Stock.model_validate({"name": "board", "size": size, "species": "Douglas Fir-Larch", "grade": "No.1",
                                  "moisture": "dry", "grade_from": "assumed"})  # fmt: skip
    return family_of(bracket).board(stock)


def test_a_grain_at_45_degrees_needs_the_diagonal() -> None:
    """Farthest across are (0, 14) and (3, 0), 17/sqrt 2 = 12.02 in; along (0, 0) and (12, 14), 26/sqrt 2 (by hand).

    Across are the corners of foot and nose against the top edge at the wall, along those of foot and nose.
    """
    found = laid("45 deg")
    assert found is not None
    assert (found.wide, found.long) == pytest.approx((17.0 / math.sqrt(2.0), 26.0 / math.sqrt(2.0)))
    assert found.breadth == 11.25


def test_upright_grain_needs_its_projection_across_and_its_height_along() -> None:
    found = laid("upright")
    assert found is not None
    assert (found.wide, found.long) == pytest.approx((12.0, 14.0))


@pytest.mark.parametrize("grain", ["level", "upright", "30 deg", "150 deg"])
def test_it_is_turned_and_keeps_its_size(grain: str) -> None:
    """Area by the shoelace formula; the top edge is as long as the bracket stands out, at the grain's angle."""
    found, level = laid(grain), laid("level")
    assert found is not None and level is not None

    def area(points: tuple[tuple[float, float], ...]) -> float:
        p, q = np.array(points), np.roll(np.array(points), -1, axis=0)
        return 0.5 * float(np.sum(p[:, 0] * q[:, 1] - q[:, 0] * p[:, 1]))

    assert area(found.outline) == pytest.approx(area(level.outline))
    (x0, y0), (x1, y1) = found.top
    assert math.hypot(x1 - x0, y1 - y0) == pytest.approx(12.0)
    assert math.degrees(math.atan2(y1 - y0, x1 - x0)) % 180.0 == pytest.approx(found.grain)
    assert np.array(found.outline).min(axis=0) == pytest.approx((0.0, 0.0))


def test_a_thick_one_lies_on_the_thin_side_of_its_stock() -> None:
    found = laid("upright", thickness="11 1/4 in")
    assert found is not None
    assert found.breadth == 3.5


def test_a_board_that_is_too_narrow_is_said_and_drawn() -> None:
    narrow, broad, unsaid = laid("45 deg"), laid("45 deg", "4x14 dressed"), laid(None)
    assert narrow is not None and broad is not None and unsaid is None
    assert "too narrow. Ask" in describe(narrow)
    assert "too narrow" not in describe(broad) and "breadth of 13 1/4 in" in describe(broad)
    seen = {text.text for text in ElementTree.fromstring(board_figure(narrow, "K")).iter(f"{SVG}text")}
    assert {"11 1/4 in", "18 3/8 in"} <= seen


def three_pieces(size: str) -> BoardPicture:
    shape = {"family": "braced", "height": "24 in", "projection": "24 in", "brace_out": "19 in", "brace_down": "19 in",
             "joints": "housed", "housing": "1/2 in"}  # fmt: skip
    shape |= dict.fromkeys(("thickness", "wall_leg", "top_leg", "brace"), "3 1/2 in")
    bracket = Bracket.model_validate({"name": "K", "on": "post", "role": "carries", "stock": "board", "shape": shape})
    stock = Stock.model_validate({"name": "board", "size": size, "species": "Douglas Fir-Larch", "grade": "No.1",
                                  "moisture": "dry", "grade_from": "assumed"})  # fmt: skip
    found = family_of(bracket).board(stock)
    assert found is not None
    return found


def test_three_sticks_lie_side_by_side_on_a_broad_board() -> None:
    """Three of 3 1/2 in and two cuts of 1/8 in.

    The brace at 45 degrees is 15 1/2 sqrt 2 along its axis, 3 1/2 more for its ends and sqrt 2 in its housings.
    """
    found = three_pieces("4x12 dressed")
    brace = 15.5 * math.sqrt(2.0) + 3.5 + 2 * 0.5 * math.sqrt(2.0)
    assert (found.wide, found.long) == pytest.approx((10.75, brace))
    assert [one.y for one in found.sticks] == pytest.approx([0.0, 3.625, 7.25])
    assert all(one.x == 0.0 for one in found.sticks) and found.outline == ()


def test_three_sticks_lie_one_after_another_on_a_stick_of_their_depth() -> None:
    found = three_pieces("4x4 dressed")
    brace = found.sticks[-1].long
    assert (found.wide, found.long) == pytest.approx((3.5, 48.25 + brace))
    drawn = board_figure(found, "K")
    assert ">wall leg</text>" in drawn and "(wall leg 2 ft, top leg 2 ft, brace" in describe(found)


@pytest.mark.parametrize(("size", "beside"), [('3 1/2" x 10 3/4"', True), ('3 1/2" x 10.7"', False)])
def test_three_sticks_that_just_fit_lie_side_by_side(size: str, beside: bool) -> None:
    found = three_pieces(size)
    assert (len({one.y for one in found.sticks}) == 3) is beside
    assert found.breadth == pytest.approx(10.75 if beside else 10.7)
