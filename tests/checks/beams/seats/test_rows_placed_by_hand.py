"""Where the rows of other pieces are taken to stand on a beam of 12 ft: places and spacings worked out in inches."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.beams.rows import PlacedRow, placed_rows, row_words
from beamcheck.model.beams import Beam

from ..beams import beam, seat

ALL_ALONG = "J lands every 16 in all along it: counted as an even load."
WHEREVER = "J lands every 16 in: counted as an even load all along it, wherever the row begins and ends."
UNSAID = "J lands every 16 in, from where to where is not said."


def placed(*at: float, bearing: str | None = "5 1/2 in", **more: Any) -> PlacedRow:
    ends = [{key: value for key, value in seat(f"{x} in", bearing=bearing).items() if value is not None} for x in at]
    piece = Beam.model_validate(beam(supports=ends, length="144 in", carries=[]))
    transfer = TransferredLoad("J", {"D": (10.0, 8.0)}, **{"spread": 16.0, **more})
    (found,) = placed_rows(piece, [transfer])
    assert row_words(piece, [transfer]) == ([found.taken] if found.taken and not found.open else [])
    return found


@pytest.mark.parametrize(("at", "members", "row"), [
    (73.0, 9, (9.0, 137.0)), (71.0, 9, (7.0, 135.0)), (72.0, 2, (64.0, 80.0)), (40.0, 3, (24.0, 56.0)),
    (72.0, 1, None), (8.0, 8, (-48.0, 64.0)), (136.0, 8, (80.0, 192.0)),
])  # fmt: skip
def test_a_row_that_is_not_placed_stands_about_its_middle(at: float, members: int, row: Any) -> None:
    """Each has half a spacing on either side. On one span an even load is the worst; on two it is asked for."""
    found = placed(0, 72, 144, at=at, members=members)
    assert (found.transfer.row, found.taken, found.open) == (row, UNSAID, True)
    found = placed(0, 144, at=at, members=members)
    assert (found.transfer.row, found.taken, found.open) == (None, WHEREVER, False)


@pytest.mark.parametrize("more", [{}, {"at": 72.0, "members": 9}, {"at": 71.0, "members": 10}])
def test_a_row_that_covers_the_beam_is_an_even_load(more: Any) -> None:
    """Nine at 16 in are 144 in."""
    for at in ((0, 72, 144), (0, 144)):
        found = placed(*at, **more)
        assert (found.transfer.row, found.taken, found.open) == (None, ALL_ALONG, False)


def test_one_piece_is_no_row() -> None:
    assert placed(0, 72, 144, spread=None, at=20.0).taken == ""


@pytest.mark.parametrize(("at", "row", "spread", "single"), [
    ((0, 40, 144), (56.0, 100.0), 16.0, False), ((0, 40, 144), (55.0, 100.0), 16.0, True),
    ((0, 104, 144), (10.0, 88.0), 16.0, False), ((0, 104, 144), (10.0, 89.0), 16.0, True),
    ((0, 40, 144), (0.0, 144.0), 10.0, False), ((0, 40, 144), (0.0, 144.0), 10.1, True),
    ((0, 144), (-50.0, -20.0), 16.0, False), ((0, 144), (0.0, 144.0), 36.0, False),
    ((0, 144), (0.0, 144.0), 36.1, True),
])  # fmt: skip
def test_a_row_of_few_counts_piece_by_piece(at: Any, row: Any, spread: float, single: bool) -> None:
    """Four to each span that it reaches, a spacing beyond its ends among it, are an even load (common practice)."""
    found = placed(*at, row=row, spread=spread)
    assert (found.transfer.single, found.transfer.row, found.taken) == (single, row, "")


@pytest.mark.parametrize(("at", "bearing", "open_"), [
    ((0.5, 144), None, True), ((0.5, 144), "1/2 in", False), ((0.5, 144), "1/4 in", True), ((0, 144), None, False),
    ((143.5, 0), None, True), ((143.5, 0), "1/2 in", False), ((0, 5, 144), "5 1/2 in", True),
])  # fmt: skip
def test_an_end_no_longer_than_its_seat_is_no_span(at: Any, bearing: str | None, open_: bool) -> None:
    """What lies between two supports is one, however short."""
    assert placed(*at, bearing=bearing, at=72.0, members=2).open is open_
