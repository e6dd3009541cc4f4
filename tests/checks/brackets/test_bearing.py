"""What presses on the top edge of a bracket, hangs on it, or lies where knots may be: figures by hand."""

from __future__ import annotations

import pytest

from beamcheck.checks.brackets.bearing import into_the_wall

from ..anchors.anchors import said
from .brackets import BENT, BRACED, CORBEL, SOLID, STRAP, Data, body_of, bracket, find, loaded_body, structure, those

SHAPES = {"braced": BRACED, "corbel": CORBEL, "bent": BENT}


@pytest.mark.parametrize("family", SHAPES)
@pytest.mark.parametrize("knots", [None, "in the throat", "not looked at"])
def test_knots_that_nobody_ruled_out_refer(family: str, knots: str | None) -> None:
    assert find(loaded_body(SHAPES[family], knots=knots), "knots in the throat").verdict == "refer"
    assert not those(loaded_body(SHAPES[family], knots="none in the throat"), "knots in the throat")


@pytest.mark.parametrize("family", SHAPES)
def test_what_presses_on_the_top_edge_is_checked(family: str) -> None:
    """100 lb on 0.01 in of the thickness, by division; no length is no answer."""
    thickness = {"braced": 2.5, "corbel": 3.5, "bent": 1.5}[family]
    pressed = find(loaded_body(SHAPES[family], {"bearing": "0.01 in"}), "bearing of shelf")
    assert pressed.demand == pytest.approx(100.0 / 0.01 / thickness, rel=1e-6)
    assert pressed.verdict == "fails"
    assert find(loaded_body(SHAPES[family]), "bearing of shelf").verdict == "passes"
    assert "`bearing`" in said([find(loaded_body(SHAPES[family], {"bearing": None}), "bearing of shelf")], "refer")


def test_bearing_across_the_grain_of_a_top_leg_by_hand() -> None:
    """625 psi of Douglas Fir-Larch (NDS Supplement Table 4A, memory): level grain, C_D does not count."""
    assert find(loaded_body(BRACED), "bearing of shelf").capacity == pytest.approx(625.0)


def test_end_grain_takes_three_quarters_without_a_plate() -> None:
    """F_c 1,500 psi x C_F 1.1 (6 in) x 0.75 (Table 4A and NDS 2018 3.10.1.3, memory)."""
    found = find(loaded_body(CORBEL), "bearing of shelf")
    assert found.capacity == pytest.approx(0.75 * 1500.0 * 1.1)
    shown = [[step.value for step in one.steps if step.symbol == "0.75 F_c*"] for one in (
        found, find(loaded_body(BRACED), "bearing of shelf"))]  # fmt: skip
    assert shown == [[pytest.approx(1237.5)], []]  # across the grain nothing is cut off


def test_loads_whose_seats_overlap_press_together() -> None:
    """Two times 100 lb on 2 in each, 1 in apart: 100 psi where both lie, with 3 1/2 in: 2 x 50/3.5."""
    two = [{"what": name, "live": "100 lb", "at": at, "bearing": "2 in"} for name, at in (("a", "1 in"), ("b", "2 in"))]
    here = structure()
    piece = bracket(CORBEL, carries=two)
    found = find(body_of(piece, here).checks, "bearing of a, b")
    assert found.demand == pytest.approx(100.0 / 3.5)


def test_half_of_a_seat_at_the_nose_hangs_in_the_air() -> None:
    """100 lb centered on the nose, 2 in long: 1 in of it lies on the block."""
    found = find(loaded_body(CORBEL, {"at": "3 1/2 in"}), "bearing of shelf")
    assert found.demand == pytest.approx(100.0 / 3.5)


def test_a_short_line_load_is_no_way_around_it() -> None:
    """1,200 lb per foot over 1/4 in: 100 lb/in on 3 1/2 in."""
    line = {"live": "1,200 plf", "at": None, "bearing": None, "from": "2 in", "to": "2.25 in"}
    assert find(loaded_body(CORBEL, line), "bearing of shelf").demand == pytest.approx(100.0 / 3.5)


@pytest.mark.parametrize("shape", [BRACED, CORBEL, BENT, STRAP], ids=["braced", "corbel", "bent", "steel core"])
def test_what_hangs_on_it_refers(shape: Data) -> None:
    assert find(loaded_body(shape, {"applied": "side", "bearing": None}), "hangs on its side").verdict == "refer"
    assert find(loaded_body(shape, {"applied": "below", "bearing": None}), "hangs below it").verdict == "refer"
    assert not those(loaded_body(shape, {"applied": "top"}), "hangs below it")


@pytest.mark.parametrize(
    ("at", "bearing", "inside"),
    [("1 in", "2 in", False), ("0.99 in", "2 in", True), ("0 in", "2 in", True), ("0 in", None, False),
     ("1 in", "1 in", False)],
)  # fmt: skip
def test_a_seat_that_would_begin_behind_the_face_of_the_wall_is_asked_about(
    at: str, bearing: str | None, inside: bool
) -> None:
    """Its middle is half of its length out at least."""
    load = {"what": "shelf", "live": "20 lb", "at": at, "applied": "top"} | ({"bearing": bearing} if bearing else {})
    sound = {"what": "row", "live": "20 lb", "at": "5 in", "bearing": "2 in", "applied": "top"}
    line = {"what": "books", "live": "5 plf", "applied": "top"}
    found = list(into_the_wall(bracket(SOLID, carries=[sound, line, load])))
    assert [(check.what, check.verdict) for check in found] == [("place of shelf", "refer")] * inside
    if inside:
        (asked,) = found[0].questions
        assert (asked.field, asked.id.endswith(" 3")) == ("bracket.K.carries.3.at", True)
        assert [answer.sets[0][1] for answer in asked.answers] == ["1 in"]
