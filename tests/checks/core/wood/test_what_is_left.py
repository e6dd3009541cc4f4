"""Sections with wood missing against the same sections cut into thin layers: area, moment of area, modulus."""

from __future__ import annotations

import numpy as np
import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.core.wood.group_cut import (
    GroupCut,
    Void,
    breadth_left,
    height_lost,
    nothing_is_left,
    slot_net,
    slot_shear,
)  # fmt: skip
from beamcheck.checks.core.wood.lost import Lost, all_is_lost, lost_net
from beamcheck.checks.core.wood.section import Section
from beamcheck.errors import OutOfRange

LAYERS = 100_000
Figures = tuple[float, float, float]  # S, A, I


def layered(d: float, breadth: np.ndarray) -> Figures:
    """Of a section whose breadth is given at the middle of each of many layers, from the bottom up."""
    h = d / LAYERS
    y = (np.arange(LAYERS) + 0.5) * h
    A = float(breadth.sum()) * h
    middle = float((breadth * y).sum()) * h / A
    inertia = float((breadth * (y - middle) ** 2).sum()) * h
    there = np.flatnonzero(breadth > 0.0)  # nothing here takes an edge away
    return inertia / max(middle - there[0] * h, (there[-1] + 1) * h - middle), A, inertia


def heights(d: float) -> np.ndarray:
    return (np.arange(LAYERS) + 0.5) * d / LAYERS


def cut(width: float, *voids: Void) -> GroupCut:
    return GroupCut("A", 12.0, 6.0, width, voids, 9.25, 4.0)


VOIDS = [
    (0.0, [Void(4.625, 0.5625, 3.5)]), (0.3125, [Void(2.0, 0.5625, 3.1875)]), (0.3125, [Void(7.0, 1.25, 1.0)]),
    (0.5, [Void(2.0, 0.5, 3.0), Void(6.5, 0.5, 3.0)]), (0.0, [Void(1.0, 2.0, 3.0), Void(8.0, 1.0, 2.0)]),
]  # fmt: skip


@pytest.mark.parametrize(("width", "voids"), VOIDS)
def test_what_an_anchor_group_leaves(width: float, voids: list[Void]) -> None:
    """3 1/2 x 9 1/4 in: the slot takes breadth, each row takes breadth over its own height."""
    section, d = Section(3.5, 9.25, 3.5), 9.25
    breadth = np.full(LAYERS, 3.5 - width)
    for void in voids:
        breadth -= np.where(np.abs(heights(d) - void.y) < 0.5 * void.height, void.breadth, 0.0)
    one = cut(width, *voids)
    S, A, depth, inertia = slot_net(SilentPad(), section, one)
    assert (S, A, inertia) == pytest.approx(layered(d, breadth), rel=1e-4) and depth == d
    assert breadth_left(section, one) == 3.5 - width
    assert slot_shear(SilentPad(), section, one, 100.0) == pytest.approx(1.5 * 100.0 / layered(d, breadth)[1], rel=1e-4)


def test_a_slot_alone_leaves_a_narrower_section() -> None:
    S, A, d, inertia = slot_net(SilentPad(), Section(3.5, 9.25, 3.5), cut(0.5))
    assert (S, A, d, inertia) == pytest.approx((3.0 * 9.25**2 / 6, 3.0 * 9.25, 9.25, 3.0 * 9.25**3 / 12))
    doubled = Section(3.0, 9.25, 1.5)  # of two plies each side of the slot counts by itself as it did
    assert slot_net(SilentPad(), doubled, cut(0.5))[1] == pytest.approx(2.5 * 9.25)


def test_bores_at_the_height_of_a_row_take_no_height_of_their_own() -> None:
    row, bore, other = Void(2.0, 0.5, 3.0), Void(2.0, 1.25, 0.5), Void(6.0, 0.5, 3.0)
    assert height_lost(cut(0.0, row, bore, other)) == pytest.approx(1.25 + 0.5)
    assert (
        cut(0.5, row, bore).words
        == "slot 1/2 in wide with holes and bores, 6 in along the piece at 12 in, cut by anchor A"
    )
    assert cut(0.0, row).words == "holes, 6 in along the piece at 12 in, cut by anchor A"


@pytest.mark.parametrize(
    ("one", "nothing"),
    [(cut(3.5), True), (cut(3.4), False), (cut(0.0, Void(4.0, 9.25, 0.1)), True),
     (cut(0.0, Void(4.0, 9.2, 0.1)), False), (cut(0.0, Void(4.0, 4.625, 7.0)), True),
     (cut(0.0, Void(4.0, 4.625, 6.9)), False)],
)  # fmt: skip
def test_where_nothing_is_left(one: GroupCut, nothing: bool) -> None:
    """All breadth by the slot, all depth by the rows, or all area by bores that overlap."""
    assert nothing_is_left(Section(3.5, 9.25, 3.5), one) is nothing


def test_bores_that_overlap_leave_no_stiffness() -> None:
    with pytest.raises(OutOfRange, match="anchor A overlap"):
        slot_net(SilentPad(), Section(3.5, 9.25, 3.5), cut(0.0, Void(0.5, 1.0, 12.0), Void(8.75, 1.0, 12.0)))


CORNERS = [((2.0, False),), ((1.5, True),), ((2.0, False), (1.0, False)), ((1.0, True), (2.5, False), (0.5, True))]


@pytest.mark.parametrize("corners", CORNERS)
@pytest.mark.parametrize(("width", "depth"), [(0.0, 0.0), (0.5, 1.0)])
def test_what_a_survey_leaves(corners: tuple[tuple[float, bool], ...], width: float, depth: float) -> None:
    """8 x 10 in less faces and corners: each corner a triangle with two equal legs."""
    b, d = 8.0 - width, 10.0 - depth
    y = heights(d)
    breadth = np.full(LAYERS, b)
    for leg, top in corners:
        breadth -= np.maximum(leg - (d - y if top else y), 0.0)
    lost = Lost(60.0, 24.0, width, depth, corners, "as measured")
    S, A, d_n, inertia = lost_net(SilentPad(), Section(8.0, 10.0, 8.0), lost)
    assert (S, A, inertia) == pytest.approx(layered(d, breadth), rel=1e-4) and d_n == d


@pytest.mark.parametrize(
    ("width", "depth", "leg", "all_of_it"),
    [(8.0, 0.0, 0.0, True), (7.9, 0.0, 0.0, False), (0.0, 10.0, 0.0, True), (0.0, 9.9, 0.0, False),
     (0.0, 0.0, 4.0, True), (0.0, 0.0, 3.9, False), (1.0, 0.0, 3.5, True), (0.0, 3.0, 3.5, True)],
)  # fmt: skip
def test_where_all_is_lost(width: float, depth: float, leg: float, all_of_it: bool) -> None:
    """No side is left, or two corners of that leg meet on the lesser side."""
    lost = Lost(60.0, 24.0, width, depth, ((leg, False),) if leg else (), "as measured")
    assert all_is_lost(Section(8.0, 10.0, 8.0), lost) is all_of_it
    assert lost.words == "the least section from 4 ft to 6 ft (as measured)"
