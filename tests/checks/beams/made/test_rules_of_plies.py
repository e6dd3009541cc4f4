"""What joins plies, rule by rule on sticks that are given: at each limit, just inside and just outside it.

Nails (NDS 2018 Table L4, read): 10d 0.148 x 3 in, 16d 0.162 x 3 1/2 in. Least distances, and what a nail reaches
into the next ply: NDS 2018 12.1.6, 12.5.1 and commentary (memory).
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.beams.made.plies import (
    _broken,
    _close,
    _Joined,
    _length_in_main,
    _nails,
    _unsaid,
    side_loads,
)
from beamcheck.model.links.hardware import diameter_and_length
from beamcheck.model.made.schedule import PlySchedule

from ..beams import Data, find, result_of, said
from .test_plies import BOLTS, NAILS, WOOD, girder

D = 0.162


def run(b: float = 1.5, d: float = 11.25, plies: int = 2) -> Any:
    return SimpleNamespace(size=SimpleNamespace(b=b, d=d), beam=SimpleNamespace(plies=plies))


def joined(by: Data, length: float | None = 3.5, thick: float = 1.5, thin: float = D) -> _Joined:
    schedule = PlySchedule.model_validate({key: value for key, value in by.items() if value is not None})
    return _Joined(schedule, thin, length, thick, 0.5, 90000.0, None)  # type: ignore[arg-type]


def broken(by: Data, **more: Any) -> str:
    stick = {key: more.pop(key) for key in ("b", "d", "plies") if key in more}
    return "; ".join(_broken(run(**stick), joined(by, **more)))


@pytest.mark.parametrize(("field", "least", "words"), [
    ("end", 10 * D, "from the end"), ("spacing", 5 * D, "in a row"), ("edge", 2.5 * D, "from the edge"),
    ("row_spacing", 5 * D, "from row to row"),
])  # fmt: skip
def test_nails_at_their_least_distances(field: str, least: float, words: str) -> None:
    """10 D, 5 D, 2 1/2 D and 5 D."""
    assert broken({**NAILS, field: f"{least!r} in"}) == ""
    assert words in broken({**NAILS, field: f"{least - 1e-4!r} in"})


@pytest.mark.parametrize(("field", "least"), [("end", 2.0), ("spacing", 2.0), ("edge", 2.0), ("row_spacing", 2.5)])
def test_bolts_at_their_least_distances(field: str, least: float) -> None:
    """4 D, 4 D, 4 D and 5 D of 1/2 in."""
    assert broken({**BOLTS, field: f"{least!r} in"}, length=None, thin=0.5) == ""
    assert "is needed" in broken({**BOLTS, field: f"{least - 1e-4!r} in"}, length=None, thin=0.5)


@pytest.mark.parametrize(("thick", "least"), [(1.5, 2.0), (2.2, 2.0), (3.0, 2.5), (3.5, 2.5), (2.6, 2.25)])
def test_bolts_through_thick_plies_stand_farther_apart(thick: float, least: float) -> None:
    """Under load across the grain they are rows: (5 l + 10 D)/8 for l/D of 2 to 6, then 5 D (Table 12.5.1D, memory)."""
    for apart, words in ((least, ""), (least - 1e-4, "in a row")):
        by = {**BOLTS, "spacing": f"{apart!r} in"}
        told = broken(by, b=thick, thick=thick, length=None, thin=0.5)
        assert words in told and bool(words) == bool(told)


@pytest.mark.parametrize(
    ("rows_", "between", "fits"), [(3, 4.125, True), (3, 4.126, False), (2, 8.25, True), (2, 8.251, False)]
)
def test_rows_fit_between_the_edges(rows_: int, between: float, fits: bool) -> None:
    """11 1/4 in less 1 1/2 in at either edge is 8 1/4 in."""
    assert ("do not fit" in broken({**NAILS, "rows": rows_, "row_spacing": f"{between!r} in"})) is not fits


@pytest.mark.parametrize(("length", "thick", "reaches"), [
    (1.5 + 6 * D, 1.5, True), (1.5 + 6 * D - 1e-4, 1.5, False), (9.0, 6 * D, True), (9.0, 6 * D - 1e-4, False),
])  # fmt: skip
def test_a_nail_reaches_six_diameters_into_the_next_ply(length: float, thick: float, reaches: bool) -> None:
    """No more counts than that ply is thick."""
    assert ("into the next ply" in broken(NAILS, length=length, thick=thick, b=thick)) is not reaches


def test_a_nail_too_short_for_one_ply_reaches_nothing_and_not_less() -> None:
    assert "reach 0 in into" in broken(NAILS, length=1.25) and "reach 0.5 in into" in broken(NAILS, length=2.0)


@pytest.mark.parametrize(("by", "plies", "words", "asked"), [
    ({**NAILS, "from_both_sides": None}, 2, "", None), ({**NAILS, "from_both_sides": False}, 2, "", None),
    ({**NAILS, "from_both_sides": None}, 3, "", "from_both_sides"),
    ({**NAILS, "from_both_sides": False}, 3, "its own nails", None), (NAILS, 3, "", None),
    ({**BOLTS, "washers": None}, 2, "", "washers"), ({**BOLTS, "washers": False}, 3, "need a washer", None),
    (BOLTS, 3, "", None),
])  # fmt: skip
def test_what_was_said_of_sides_and_washers(by: Data, plies: int, words: str, asked: str | None) -> None:
    """Three plies want nails from both sides, bolts want washers: no breaks the rule, silence is asked about."""
    bolts = by["kind"] == "bolt"
    one = joined(by, length=None if bolts else 3.5, thin=0.5 if bolts else D)
    told = "; ".join(_broken(run(plies=plies), one))
    assert (words in told) and bool(words) == bool(told)
    unsaid = _unsaid(run(plies=plies), one.by)
    assert (unsaid[0] if unsaid else None) == asked


@pytest.mark.parametrize(("inches", "close"), [(15 * D, False), (15 * D - 1e-4, True)])
def test_nails_closer_than_fifteen_diameters(inches: float, close: bool) -> None:
    assert bool(_close(joined({**NAILS, "spacing": f"{inches!r} in"}))) is close


@pytest.mark.parametrize(("length", "thick", "bears"), [
    (None, 1.5, 1.5), (3.0, 1.5, 1.5), (3.5, 1.5, 1.5), (2.999, 1.5, 2.999 - 1.5 - D), (2.6, 1.25, 1.25),
    (2.4, 1.25, 2.4 - 1.25 - D),
])  # fmt: skip
def test_the_point_of_a_nail_that_ends_in_the_next_ply_does_not_bear(
    length: float | None, thick: float, bears: float
) -> None:
    """NDS 2018 12.3.5.3 (memory): a nail that goes through, and a bolt, bear on all of it; else less one diameter."""
    assert _length_in_main(joined(NAILS, length, thick)) == pytest.approx(bears)


def test_sizes_of_nails_and_bolts() -> None:
    assert diameter_and_length("nail", "16d common") == (0.162, 3.5)
    assert diameter_and_length("bolt", "5/8 in") == (0.625, None)


@pytest.mark.parametrize(("d", "lines", "between"), [(11.25, 3, "4.125 in"), (11.25, 2, "8.25 in"), (5.5, 2, "2.5 in")])
def test_the_schedule_proposed_keeps_edges_and_ends(d: float, lines: int, between: str) -> None:
    """1 1/2 in at the edges, 3 in at the ends; of 40d nails, 0.225 in thick, ends are 10 D off as well."""
    found = _nails(run(d=d), lines, 8.0)
    assert found is not None and found.from_both_sides is True
    assert (found.kind, found.rows, found.spacing, found.edge, found.end) == ("nail", lines, 8.0, 1.5, 3.0)
    assert f"{found.row_spacing:g} in" == between


def test_which_loads_come_in_on_a_side() -> None:
    loads = [SimpleNamespace(applied=way) for way in ("top", "side", "below", "rod", "unknown")]
    assert [one.applied for one in side_loads(SimpleNamespace(solved=SimpleNamespace(loads=loads)))] == [  # type: ignore[arg-type]
        "side", "below", "rod"]  # fmt: skip


@pytest.mark.parametrize(("live", "lines", "apart"), [
    (40, 2, 12), (80, 3, 12), (120, 3, 8), (170, 3, 6), (250, 3, 4), (310, 0, 0),
])  # fmt: skip
def test_the_first_schedule_that_carries_is_proposed(live: int, lines: int, apart: int) -> None:
    """w/2 of 7 ft against rows Z'/s, Z = 118 lb of 10d common in 1 1/2 in of Douglas Fir (Table 12N, memory)."""
    heavy = girder(None, 2, f"{live} psf", meant={"live": "a store as heavy as that"})
    found = find(result_of(heavy, wood=WOOD), "fastening of the plies").questions[0]
    w, says = live * 7 / 12 / 2, f"10d common nails, {lines} rows every {apart} in"
    assert [one.says for one in found.answers if "10d" in one.says] == ([says] if lines else [])
    assert not lines or lines * 118 / apart > w


def test_without_a_nail_that_reaches_nothing_is_proposed() -> None:
    """Of plies 3 1/2 in thick no common nail goes eight diameters into the next."""
    found = find(result_of(girder(None, 2), wood={**WOOD, "size": "4x12"}), "fastening of the plies").questions[0]
    assert not any("nails" in one.says for one in found.answers)
    assert "is not described" in said(result_of(girder(None, 2), wood={**WOOD, "size": "4x12"}), "refer")
