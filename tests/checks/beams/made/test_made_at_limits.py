"""Plies, holes by a report and loads that lift ply from ply: each rule at its limit and beside it. Figures by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.beams.made.plies import _nails
from beamcheck.checks.beams.record.figure import section_parts

from ..beams import Data, floor, result_of
from .test_plies import BOLTS, NAILS, WOOD, girder

D = 0.162  # 16d common (NDS 2018 Table L4, read)


def verdicts(by: Data, plies: int = 2, **more: Any) -> str:
    given = {key: value for key, value in by.items() if value is not None}
    piece = result_of(girder(given, plies, **more), wood=WOOD)
    return next(check for check in piece.checks if check.id == "beam.plies").verdict


@pytest.mark.parametrize(("by", "field", "least"), [
    (NAILS, "end", 10 * D), (NAILS, "edge", 2.5 * D), (NAILS, "row_spacing", 5 * D), (BOLTS, "end", 2.0),
    (BOLTS, "spacing", 2.0), (BOLTS, "edge", 2.0), (BOLTS, "row_spacing", 2.5),
])  # fmt: skip
def test_distances_of_a_schedule(by: Data, field: str, least: float) -> None:
    """Nails 10, 2 1/2 and 5 D, bolts 4 D and 5 D from row to row (NDS 2018 12.1, 12.5, commentary: memory)."""
    for inches, verdict in ((least + 1e-4, "passes"), (least - 0.01, "fails")):
        assert verdicts({**by, field: f"{inches} in"}) == verdict, (field, inches)


def test_nails_five_diameters_apart_and_less() -> None:
    """Fifteen where nothing is bored ahead is advised; below five there is no value."""
    for inches, verdict in ((15 * D, "passes"), (15 * D - 0.01, "refer"), (5 * D, "refer"), (5 * D - 0.01, "fails")):
        assert verdicts({**NAILS, "spacing": f"{inches:.6f} in"}) == verdict, inches


@pytest.mark.parametrize(("edge", "row", "rows", "fits"), [
    ("1 5/8 in", "4 in", 3, True), ("1 5/8 in", "4.01 in", 3, False), ("5 in", None, 1, True),
])  # fmt: skip
def test_rows_between_the_edges(edge: str, row: str | None, rows: int, fits: bool) -> None:
    """11 1/4 in less twice 1 5/8 in is 8 in: two spaces of 4 in."""
    assert (verdicts({**NAILS, "edge": edge, "row_spacing": row, "rows": rows}) != "fails") is fits


@pytest.mark.parametrize(("plies", "both", "verdict"), [(2, None, "passes"), (3, None, "refer"), (3, True, "passes")])
def test_outer_plies_have_their_own_nails(plies: int, both: bool | None, verdict: str) -> None:
    assert verdicts({**NAILS, "from_both_sides": both}, plies) == verdict


@pytest.mark.parametrize("plies", [2, 3])
def test_what_lifts_counts_by_its_size_and_kinds_add_up(plies: int) -> None:
    """D + L of two loads on a side, each kind by the most of it: w (n - 1)/n."""
    share = (plies - 1) / plies
    aside = {"applied": "side", "fastened": {"highest": "2 in", "lowest": "9 in"}}
    loads = [floor(dead="10 psf", live="40 psf", width="4 ft", **aside),
             {"what": "wall", "dead": "60 plf", **aside}]  # fmt: skip
    piece = result_of({**girder(NAILS, plies), "carries": loads}, wood=WOOD)
    check = next(one for one in piece.checks if one.what == "load from ply to ply")
    assert check.demand == pytest.approx((4 * 50 + 60) / 12 * share)


@pytest.mark.parametrize(("kind", "words"), [({"plies": 4}, "four plies"), ({"by": None}, "is not described")])
def test_what_is_not_run(kind: Data, words: str) -> None:
    made = {"by": NAILS, "plies": 2, **kind}
    piece = result_of(girder(**made), wood=WOOD)
    check = next(one for one in piece.checks if one.id == "beam.plies")
    assert check.verdict == "refer" and words in check.notes[0]


@pytest.mark.parametrize(("b", "size"), [
    (1.5, "10d common"), (1.18, None), (1.19, "10d common"), (1.81, "10d common"), (1.82, "16d common"),
    (2.20, "16d common"), (2.21, "20d common"), (2.47, "40d common"), (3.19, "40d common"), (3.21, None),
])  # fmt: skip
def test_the_nail_advised_is_the_shortest_that_lies_eight_diameters_in_either_ply(b: float, size: str | None) -> None:
    """Common nails of 3, 3 1/2, 4 and 5 in, 0.148, 0.162, 0.192 and 0.225 in thick (NDS 2018 Table L4, read)."""
    found = _nails(SimpleNamespace(size=SimpleNamespace(b=b, d=11.25)), 3, 8.0)  # type: ignore[arg-type]
    assert (found and found.size) == size


@pytest.mark.parametrize(("depth", "up"), [(11.25, 0.0), (11.0, 0.125), (9.0, 1.125)])
def test_the_plate_between_two_plies_is_drawn_in_the_middle_of_their_depth(depth: float, up: float) -> None:
    plate = SimpleNamespace(thickness=0.5, depth=depth)
    found = section_parts(SimpleNamespace(b=3.5, d=11.25, breadth_alone=1.5, round=False, plate=plate))  # type: ignore[arg-type]
    assert [(one.x, one.y, one.width, one.height) for one in found] == [
        (0.0, 0.0, 1.5, 11.25), (1.5, up, 0.5, depth), (2.0, 0.0, 1.5, 11.25),
    ]  # fmt: skip
