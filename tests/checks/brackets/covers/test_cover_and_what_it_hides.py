"""A cover, the group of fasteners that it hides, and its own screws: sizes, places and movement by hand."""

from __future__ import annotations

import pytest

from beamcheck.checks.brackets.body import Body
from beamcheck.checks.brackets.covers.cover import cover_checks
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.fixings.fixings import fixing_checks
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.model.beams import Beam

from ..brackets import LAG, OTHER, SOLID, Data, bracket, find, fixings, loads_of, structure, those, wood

POCKET: Data = {"top": "2 in", "height": "6 in", "depth": "1 1/2 in", "width": "2 1/2 in"}
HIDING: Data = {"hides": ["A"], "heads_stand_out": "3/4 in", "heads_width": "1 1/2 in", "heads_height": "4 1/2 in",
                "hidden_moves": "1/16 in", "change": "6 %", "fixed_at_one_line": True, "reveal": "1/4 in"}  # fmt: skip
ROW: Data = {"below_top": "1 in", "count": 1}


def cover(
    said_of: Data | None = None, group: Data | None = None, *, support: Data | None = None, grain: str = "upright",
    rows: list[Data] | None = None, holder: str | None = "A",
) -> list[Check]:  # fmt: skip
    """A cover on the post; group A: two lags with washers of 1 1/2 in, 3 in above each other, holding a beam there."""
    here = structure()
    anchor = Anchor.model_validate({
        "name": "A", "manner": "wood side", "into": "post", "fastener": {**LAG, "washer": "1 1/2 in"},
        "holes": {"rows": 2, "columns": 1, "row_spacing": "3 in", "end": "4 in", "edge": "2 in"}, "other": OTHER,
            **(group or {}),
    })  # fmt: skip
    beam = Beam.model_validate({
        "name": "B", "stock": "wood", "service": "floor", "finish": "none", "top_held": "full length",
        "supports": [
            {"at": "0 ft", "on": "post", "holds": "hung", "held_by": holder, **(support or {})},
            {"at": "8 ft", "on": "slab", "bearing": "3 in"},
        ],
    })  # fmt: skip
    context = Context(Structure(here.structure.stocks, {**here.structure.pieces, "B": beam}, {"A": anchor}))
    piece = bracket(
        {**SOLID, "grain": grain, "pocket": POCKET}, role="cover", accidental="not for load",
        cover={**HIDING, **(said_of or {})}, fixings=fixings(rows=rows or [ROW]),
    )  # fmt: skip
    loads, family, made = loads_of(piece, context, 5.0), family_of(piece), wood(context)
    return [*cover_checks(family, loads, context), *fixing_checks(family, loads, Body(), made, context)]


@pytest.mark.parametrize(
    ("change", "number"), [({"heads_width": "1 1/4 in"}, "1-1/4"), ({"heads_height": "3 in"}, "3")]
)
def test_hidden_hardware_larger_than_said_refers(change: Data, number: str) -> None:
    """Washers of 1 1/2 in, 3 in apart: 1 1/2 in wide and 4 1/2 in high, by addition."""
    found = find(cover(change), "size of the hidden hardware")
    assert found.verdict == "refer"
    assert number in found.notes[0].replace(" ", "-")
    assert not those(cover(), "size of the hidden hardware")


def test_a_plate_counts_with_its_own_size() -> None:
    plate = {"steel": "A36", "thickness": "1/4 in", "width": "4 in", "length": "6 in"}
    found = find(
        cover(group={"manner": "plate one side", "plate": plate, "other": None}), "size of the hidden hardware"
    )
    assert "6" in found.notes[0] and found.verdict == "refer"


def test_hidden_work_belongs_to_what_the_cover_is_fixed_to() -> None:
    assert not those(cover(), "what it hides")
    assert not those(cover(group={"into": "slab"}), "what it hides")  # it holds a beam on the post
    elsewhere = find(cover(group={"into": "slab"}, support={"on": "slab"}), "what it hides")
    assert elsewhere.verdict == "refer"
    assert find(cover(group={"into": None}, holder=None), "what it hides").verdict == "refer"
    assert find(cover({"hides": ["no such"]}), "what it hides").verdict == "refer"


@pytest.mark.parametrize(("below", "fails"), [("1 in", False), ("3 in", True), ("7 in", True), ("9 in", False)])
def test_a_screw_through_the_pocket_fails(below: str, fails: bool) -> None:
    """The pocket is from 2 to 8 in below the top edge, 2 1/2 in wide in the middle."""
    found = those(cover(rows=[{"below_top": below, "count": 1}]), "fasteners through the pocket")
    assert [check.verdict for check in found] == (["fails"] if fails else [])


def test_two_tight_rows_are_not_one_line() -> None:
    """Level grain, 8 in apart: 8 x 0.00323 x 6 = 0.155 in; in slots, and along upright grain, it may move."""
    rows: list[Data] = [ROW, {"below_top": "9 in", "count": 1}]
    found = find(cover(grain="level", rows=rows), "free to shrink and swell")
    assert found.verdict == "refer"
    slotted = [ROW, {"below_top": "9 in", "count": 1, "slot": "1 in"}]
    assert not those(cover(grain="level", rows=slotted), "free to shrink")
    assert not those(cover(rows=rows), "free to shrink")
