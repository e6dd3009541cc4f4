"""What a drawing of a group is made of, each part worked out here: places, texts, neighbor, plate, fastener, forces.

Groups are invented. A bolt of 1/2 in has a washer of 1 3/8 in, 0.109 in thick (ASME B18.21.1, memory).
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.anchors.outputs import hole_drawing
from beamcheck.checks.core.pictures.others import (
    BoreSize,
    Dimension,
    FastenerSize,
    ForceMark,
    Hole,
    HoleDrawing,
    Neighbor,
    PlateEdges,
    ShortOf,
    SlotSize,
)
from beamcheck.checks.core.result import Check

from .anchors import HALF, Data, group, layout, stock

LAG: Data = {"kind": "lag screw", "size": "1/2 in", "length": "6 in"}
PLATE: Data = {"steel": "A36", "thickness": "1/4 in", "width": "6 in", "length": "10 in"}
FOUR: Data = {"rows": 2, "columns": 2, "end": "4 in", "edge": "3 in", "spacing": "3 in", "row_spacing": "4 in"}


def test_a_lap() -> None:
    """Shown to 1 1/4 in beyond the hole's far side and a tenth more: 1.1 x 4 1/2 + 1 1/4 = 6.2 in."""
    made = replace(group([500.0, -30.0, 0.0], [0.0, 0.0, 20.0], gap="1/4 in"), line=3.0)
    assert hole_drawing(made, 0) == HoleDrawing(
        name="A", end="left", length=pytest.approx(6.2), depth=11.25, breadth=1.5,  # type: ignore[arg-type]
        holes=(Hole(4.0, 6.0, 0.5, "1", True),),
        dimensions=(Dimension("x", 0.0, 4.0, "from the end"), Dimension("y", 0.0, 6.0, "from the bottom edge"),
                    Dimension("y", 6.0, 11.25, "to the top")),
        bored=1, other=Neighbor("post", 1.5), gap=0.25, texts=("1 x bolt 1/2 in, left end of B",),
        fastener=FastenerSize("bolt", 0.5, None, None, 1.375, 0.109), other_grain="across", line=3.0,
        forces=(ForceMark("down", 500.0), ForceMark("up", 30.0), ForceMark("out of the joint", 20.0)),
    )  # fmt: skip


def test_a_screwed_plate() -> None:
    """10 in long about the middle of the columns, 5 1/2 in from the end: to 10 1/2 in, and the piece to 12.8 in."""
    made = group([900.0], manner="plate one side", plate=PLATE, other=None, fastener=LAG, held=stock("6x12 dressed"),
                 holes=FOUR)  # fmt: skip
    found = hole_drawing(made)
    assert found.length == pytest.approx(1.1 * 10.5 + 1.25)
    assert (found.plate, found.plate_at, found.from_right) == (
        PlateEdges(0.5, 2.0, 10.5, 8.0, 0.25),
        "on one side",
        True,
    )
    assert [(hole.x, hole.y, hole.number, hole.governing) for hole in found.holes] == [
        (4.0, 3.0, "1", False), (7.0, 3.0, "2", False), (4.0, 7.0, "3", False), (7.0, 7.0, "4", False)]  # fmt: skip
    assert found.dimensions == (
        Dimension("x", 0.0, 4.0, "from the end"), Dimension("x", 0.0, 7.0, "from the end"),
        Dimension("y", 0.0, 3.0, "from the bottom edge"), Dimension("y", 0.0, 7.0, "from the bottom edge"),
        Dimension("y", 7.0, 11.5, "to the top"),
    )  # fmt: skip
    assert found.texts == (
        "4 x lag screw 1/2 in, left end of B", "plate 1/4 in x 6 in x 10 in",
        "The plate is drawn about the holes: the job does not place it.",
    )  # fmt: skip
    assert found.fastener == FastenerSize("lag screw", 0.5, 6.0, None, 1.375, 0.109)
    assert (found.other, found.other_grain, found.slot, found.bores) == (None, "", None, None)
    bolted = group([900.0], manner="plate one side", plate=PLATE, other=None, holes=FOUR)
    assert not hole_drawing(bolted).from_right, "the head of a bolt is on the wood"


def test_a_slot_with_its_plate_and_bores() -> None:
    """The slot reaches farthest: 11 in; where it is not said, as far as the plate, and through the whole depth."""
    bored = {**HALF, "counterbore": "1 1/2 in", "counterbore_depth": "1 in"}
    more: Data = {"manner": "concealed plate", "other": None, "fastener": bored, "held": stock("6x12 dressed")}
    said = {**PLATE, "slot": "5/16 in", "slot_length": "11 in", "slot_height": "9 in"}
    found = hole_drawing(group([900.0], plate=said, holes=FOUR, **more))
    assert (found.slot, found.bores, found.bored) == (SlotSize(0.3125, 11.0, 9.0), BoreSize(1.5, 1.0), 2)
    assert found.length == pytest.approx(1.1 * 11.0 + 1.25)
    assert found.texts[1:] == ("plate 1/4 in x 6 in x 10 in, slot 5/16 in wide",)
    bare = hole_drawing(group([900.0], plate={**PLATE, "slot": "5/16 in"}, holes=FOUR, **more))
    assert bare.slot == SlotSize(0.3125, 10.0, 11.5)
    assert (bare.plate, bare.plate_at, bare.from_right) == (PlateEdges(0.0, 2.0, 10.0, 8.0, 0.25), "in the slot", False)


def test_a_rod() -> None:
    rod = {"kind": "bolt", "size": "5/8 in", "steel": "A36", "length": "26 in"}
    found = hole_drawing(group([900.0], manner="hanger rod", fastener=rod, other=None, arm=None))
    assert found.upright and found.holes == (Hole(4.0, 0.0, 0.625, "1", False),)
    assert found.dimensions == (Dimension("x", 0.0, 4.0, "from the end"),)
    assert found.texts == ("1 x rod 5/8 in, left end of B",)
    assert found.fastener is not None and found.fastener[:3] == ("rod", 0.625, 26.0)
    nowhere = replace(group([900.0], manner="hanger rod", fastener=rod, other=None, arm=None), x=np.zeros(0),
                      y=np.zeros(0))  # fmt: skip
    assert hole_drawing(nowhere).texts == ("rod 5/8 in, left end of B", "The job gives no hole layout.")
    assert hole_drawing(nowhere).length == pytest.approx(1.1 * 0.625 + 1.25)


@pytest.mark.parametrize(("other", "neighbor", "grain"), [
    ({"material": "concrete", "thickness": "6 in", "grain": "along"}, Neighbor("concrete", 6.0), ""),
    ({"stock": "wood", "thickness": "3 1/2 in", "grain": "end"}, Neighbor("wood", 3.5), "end"),
])  # fmt: skip
def test_what_is_behind(other: Data, neighbor: Neighbor, grain: str) -> None:
    """By its name, or by what it is."""
    found = hole_drawing(group([100.0], other=other, into=None))
    assert (found.other, found.other_grain) == (Neighbor("post", neighbor.thickness), grain)
    made = group([100.0], other=other)
    made = replace(made, anchor=made.anchor.model_copy(update={"into": None}))
    assert hole_drawing(made).other == neighbor


def test_distances_that_are_not_kept_are_drawn() -> None:
    """1 1/2 in to the top edge where 4 D of 1/2 in are asked; what is kept, or no length, is not."""
    made = group([100.0], holes={"rows": 1, "columns": 1, "end": "4 in", "edge": "9 3/4 in"})
    checks = layout(made)
    (short,) = [check for check in checks if check.kind == "length" and not check.holds]
    found = hole_drawing(made, 0, checks)
    assert found.short == (ShortOf(short.what, pytest.approx(2.0), 1.5, "fails"),)  # type: ignore[arg-type]
    other = Check.of_ratio("x", "A", "stress", "", demand=2.0, capacity=1.0, kind="stress")
    assert hole_drawing(made, 0, [*checks, other, Check.breaks_rule("y", "A", "rule", "")]).short == found.short


def test_governing_hole_only() -> None:
    made: Any = group([900.0], holes=FOUR)
    assert [hole.governing for hole in hole_drawing(made, 2).holes] == [False, False, True, False]
