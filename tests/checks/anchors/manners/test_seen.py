"""What to see and to photograph of a group before the cover goes on, and what its job says: word by word. Invented."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.anchors.manners.registry import manner_of
from beamcheck.checks.anchors.outputs import anchor_inputs, anchor_tables
from beamcheck.model.anchors.anchor import Anchor

from ..anchors import Data, group, stock

PLATE: Data = {"steel": "A36", "thickness": "1/4 in", "width": "6 in", "length": "10 in"}
FAR: Data = {"stock": "wood", "thickness": "5 1/2 in", "grain": "across", "end": "6 in", "edge": "5 in"}
LAG: Data = {"kind": "lag screw", "size": "1/2 in", "length": "6 in"}
BOLT: Data = {"kind": "bolt", "size": "1/2 in"}
NAIL: Data = {"kind": "nail", "size": "16d common"}
FOUR: Data = {"rows": 2, "columns": 2, "end": "4 in", "edge": "3 in", "spacing": "3 in", "row_spacing": "4 in"}
TIMBER = stock("6x12 dressed")
SPLIT = "no split or check runs through a row of holes or from a hole to the end; stop and ask where one does"
METER = "moisture of the wood metered on the day, the meter in the picture"
RULE = "; a rule or caliper in the picture"
TOUCH = "the faces touch: no board, plaster or shim between them"
FLAT = "the plate seated flat, nothing between it and the wood but what the job says"


def seen(**more: Any) -> list[str]:
    made = group([100.0], **more)
    return list(manner_of(made.anchor).to_see(made))


def test_a_bolted_lap() -> None:
    assert seen(fastener={**BOLT, "steel": "A307", "coating": "hot-dip galvanized"}, other=FAR, holes=FOUR) == [
        f"count and size: 4 bolts 1/2 in (A307, hot-dip galvanized), in 2 rows of 2{RULE}",
        "a washer 1 3/8 in across under every head and nut, nuts drawn tight, the thread out",
        "end distance measured: 4 in from the left end to the nearest hole",
        "edge distances measured: 3 in to the lowest row from the bottom edge, "
        "4 1/4 in from the highest row to the top",
        "the same distances measured in post: 6 in from its end and 5 in from its edge", SPLIT, TOUCH, METER,
    ]  # fmt: skip


def test_one_bolt_coated_with_nothing_in_wood_that_nobody_measured() -> None:
    bare = {"stock": "wood", "thickness": "5 1/2 in", "grain": "across"}
    found = seen(fastener={**BOLT, "coating": "none", "length": "8 in"}, other=bare, gap="1/8 in")
    assert found[0] == f"count and size: 1 bolt 1/2 in{RULE}"
    assert found[2] == "one bolt beside a rule before it goes in: its length of 8 in"
    assert "the same distances measured in post" in found
    assert "the gap between the faces measured: no more than 1/8 in" in found and TOUCH not in found
    concrete = seen(fastener=BOLT, other={"material": "concrete", "thickness": "6 in", "grain": "along"})
    assert not [one for one in concrete if one.startswith("the same distances")]
    only = seen(fastener=BOLT, other={**bare, "end": "6 in"})
    assert "the same distances measured in post: 6 in from its end" in only


@pytest.mark.parametrize(("fastener", "lines"), [
    (LAG, ["a washer 1 3/8 in across under every head",
           "lead holes drilled to the size in the table; screws turned in, none driven with a hammer",
           "one lag screw beside a rule before it goes in: its length of 6 in"]),
    ({"kind": "wood screw", "size": "No. 10", "length": "3 in"},
     ["lead holes drilled to the size in the table; screws turned in, none driven with a hammer",
      "one wood screw beside a rule before it goes in: its length of 3 in"]),
    (NAIL, []), ({**NAIL, "length": "3 1/2 in"}, ["one nail beside a rule before it goes in: its length of 3 1/2 in"]),
    ({**BOLT, "kind": "pin"},
     ["pins driven tight, none loose in its hole; the two clamping bolts of the joint in place"]),
])  # fmt: skip
def test_each_kind_of_fastener(fastener: Data, lines: list[str]) -> None:
    found = seen(fastener=fastener, other=FAR)
    at = next(index for index, one in enumerate(found) if one.startswith("end distance"))
    assert found[1:at] == lines and found[0].startswith(f"count and size: 1 {fastener['kind']} {fastener['size']}")


def test_plates() -> None:
    """10 x 6 in, 1/4 in thick; welded; in a slot of 5/16 in."""
    one = seen(manner="plate one side", plate=PLATE, other=None, fastener=BOLT)
    plate = "the plate, 1/4 in thick, 6 in by 10 in, before it is out of sight"
    assert one[-3:] == [plate, FLAT, METER]
    welded = seen(manner="plate one side", plate={**PLATE, "weld": "3/16 in"}, other=None, fastener=BOLT)
    assert welded[-2] == "welds 3/16 in on both sides, whole length, before paint"
    slot = seen(manner="concealed plate", plate={**PLATE, "slot": "5/16 in"}, other=None, fastener=BOLT, held=TIMBER)
    assert slot[-3:] == [
        plate, "the plate seated to the end of its slot, the slot no wider than 5/16 in and clean at its end", METER
    ]  # fmt: skip


def test_bores_and_plugs() -> None:
    bored = {**BOLT, "counterbore": "1 1/2 in", "counterbore_depth": "3/4 in"}
    found = seen(fastener=bored, other=FAR, held=TIMBER)
    assert found[-2] == "bores 1 1/2 in across and no deeper than 3/4 in"
    plugged = seen(fastener={**bored, "plugged": True}, other=FAR, held=TIMBER)
    assert plugged[-2] == "bores plugged only after all of this was seen, photographed and the nuts drawn once more"


def test_toe_nails_rods_and_fasteners_in_an_end() -> None:
    toe = seen(manner="toe-nails", fastener=NAIL, other=FAR)
    assert "nails driven at about 30 degrees, begun a third of their length from the end, wood not split" in toe
    into = seen(manner="into the end", fastener=LAG, other=FAR, holes={"rows": 1, "columns": 1, "end": "3/4 in",
                                                                       "edge": "5 in"})  # fmt: skip
    assert "distance measured: 3/4 in from the side to the nearest hole in the end" in into
    rod = seen(manner="hanger rod", fastener={**BOLT, "length": "26 in"}, other=None, arm=None)
    assert rod == [
        f"count and size: 1 rod 1/2 in{RULE}",
        "a washer 1 3/8 in across under every head and nut, nuts drawn tight, the thread out",
        "one rod beside a rule before it goes in: its length of 2 ft 2 in",
        "end distance measured: 4 in from the left end to the nearest hole", SPLIT,
        "nut and washer on the top of post and under B; the rod straight and plumb", METER,
    ]  # fmt: skip


def test_no_hole_is_given() -> None:
    made = group([100.0], manner="hanger rod", fastener=BOLT, other=None, arm=None)
    bare = replace(made, x=np.zeros(0), y=np.zeros(0))
    found = manner_of(bare.anchor).to_see(bare)
    assert found[0] == f"count and size: all rods 1/2 in{RULE}" and not [one for one in found if "end distance" in one]
    assert [table.title for table in anchor_tables(bare)] == ["Hardware of A", "Holes to drill for A"]


def test_rows_of_unlike_length_are_told() -> None:
    places = [{"x": f"{x} in", "y": f"{y} in"} for x, y in ((4, 3), (7, 3), (4, 7))]
    found = seen(fastener=BOLT, other=FAR, holes={"places": places})
    assert found[0] == f"count and size: 3 bolts 1/2 in, in 2 rows of 2 and 1{RULE}"
    one = seen(
        fastener=BOLT, other=FAR, holes={"rows": 1, "columns": 2, "end": "4 in", "edge": "5 in", "spacing": "3 in"}
    )
    assert one[0] == f"count and size: 2 bolts 1/2 in, in 1 row of 2{RULE}"


# ---- what its job says -----------------------------------------------------------------------------------------------


def test_what_a_job_says_of_hardware_of_others_and_of_what_keeps_it() -> None:
    told = group([100.0], twist_held_by="blocking", on_girder={"highest": "2 in", "lowest": "9 in"})
    rows = dict(anchor_inputs(told))
    assert rows["on the side of the girder"] == "from 2 in to 9 in under its top"
    assert rows["kept from turning by"] == "blocking" and "confirmed by" not in rows
    assert "kept from turning by" not in dict(anchor_inputs(group([100.0])))
    for by, said in (("", "nobody"), ("the engineer", "the engineer")):
        anchor = Anchor.model_validate({"name": "A", "manner": "by others", "confirmed_by": by})
        made = replace(group([100.0]), anchor=anchor, x=np.zeros(0), y=np.zeros(0))
        assert dict(anchor_inputs(made)) == {"manner": "by others", "holds": "left end of B, at 0 in",
                                             "fastened to": "not said", "confirmed by": said}  # fmt: skip


def test_holes_of_a_rod_have_no_height() -> None:
    made = group([100.0], manner="hanger rod", fastener=BOLT, other=None, arm=None,
                 holes={"rows": 1, "columns": 2, "end": "4 in", "edge": "2 in", "spacing": "3 in"})  # fmt: skip
    (table,) = [one for one in anchor_tables(made) if one.title.startswith("Holes in")]
    assert table.title == "Holes in B, left end"
    assert [row[3:] for row in table.rows] == [("4 in", "–", "–", "–"), ("7 in", "–", "3 in", "–")]
