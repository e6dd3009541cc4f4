"""Hole layout, hardware, holes to drill, what to see, and the data of the drawing. All groups are invented.

Lengths are added up by hand beside the case; fasteners by NDS 2018 Tables L1 to L4 (read) and L6 (memory), holes by
12.1.3 to 12.1.6 (read; 12.1.5 memory).
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.checks.anchors.fastener import dowel_of
from beamcheck.checks.anchors.group import Group
from beamcheck.checks.anchors.hardware import _members
from beamcheck.checks.anchors.manners.registry import manner_of
from beamcheck.checks.anchors.outputs import anchor_inputs, anchor_tables, hole_drawing
from beamcheck.checks.core.result import Table
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.units import shown_in

from .anchors import Data, group, stock

HOLES = {"rows": 2, "columns": 2, "spacing": "3 in", "row_spacing": "2 1/2 in", "end": "5 1/4 in", "edge": "3 in"}
PLATE = {"steel": "A36", "thickness": "1/4 in", "width": "6 in", "length": "10 in"}
HIDDEN = {"kind": "bolt", "size": "3/4 in", "steel": "A307", "washer": "2 in", "counterbore": "2 1/4 in",
          "counterbore_depth": "1 1/2 in", "plugged": True, "coating": "stainless"}  # fmt: skip
LAG = {"kind": "lag screw", "size": "1/2 in", "length": "6 in"}
ROD = {"kind": "bolt", "size": "5/8 in", "steel": "A36"}
OLD = '7 1/4" x 9 3/4"'


def inspection(made: Group) -> tuple[str, ...]:
    return manner_of(made.anchor).to_see(made)


def knife(**more: Any) -> Group:
    return group(
        [2000.0], held=stock(OLD), manner="concealed plate", fastener=HIDDEN, other=None, holes=HOLES,
        plate={**PLATE, "slot": "5/16 in", "slot_length": "11 in"}, **more,
    )  # fmt: skip


def tables(made: Group) -> dict[str, Table]:
    """By the first word of the title."""
    return {table.title.split()[0]: table for table in anchor_tables(made) if not table.title.startswith("Holes to")}


def drilled(made: Group) -> list[tuple[str, ...]]:
    return next(list(table.rows) for table in anchor_tables(made) if table.title.startswith("Holes to"))


def bought(made: Group, what: str) -> tuple[str, ...]:
    return next(row for row in tables(made)["Hardware"].rows if row[0] == what)


def test_the_hole_table_gives_each_place_and_the_steps_between() -> None:
    table = tables(knife())["Holes"]
    assert table.heads[3:] == ("from the end", "from the bottom edge", "from the one before it in the row",
                               "from the row below")  # fmt: skip
    assert table.rows == (
        ("1", "1", "1", "5 1/4 in", "3 in", "–", "–"),
        ("2", "1", "2", "8 1/4 in", "3 in", "3 in", "–"),
        ("3", "2", "1", "5 1/4 in", "5 1/2 in", "–", "2 1/2 in"),
        ("4", "2", "2", "8 1/4 in", "5 1/2 in", "3 in", "2 1/2 in"),
    )
    assert "from the left end of B" in table.note


def test_hidden_bolts_are_as_long_as_wood_washers_and_nut_need_and_short_enough_for_plugs() -> None:
    """7 1/4 less two bores of 1 1/2, two washers of 0.148, a nut as high as the bolt is thick: 5.296, so 5 5/16."""
    made = knife()
    assert bought(made, "bolt") == (
        "bolt", "3/4 in", "4", "at least 5 5/16 in",
        "the parts, two washers and the nut; less than 7 1/4 in, so that plugs fit", "steel A307, stainless",
    )  # fmt: skip
    assert bought(made, "washer")[1:3] == ("2 in across", "8")
    assert bought(made, "nut")[2] == "4"
    # 1 1/2 less washer and nut: 0.602, rounded down
    assert bought(made, "plug")[1:4] == ("2 1/4 in across", "8", "at most 9/16 in")
    assert bought(made, "plate")[1:3] == ("1/4 in x 6 in x 10 in", "1")


def test_a_bore_without_room_for_its_plug_says_by_how_much() -> None:
    """Bore 3/4, washer 0.148 and nut 3/4: short by 0.148, so 3/16."""
    shallow = {**HIDDEN, "counterbore_depth": "3/4 in"}
    made = group([2000.0], held=stock(OLD), manner="concealed plate", fastener=shallow, other=None, holes=HOLES,
                 plate={**PLATE, "slot": "5/16 in"})  # fmt: skip
    assert bought(made, "plug")[3:5] == (
        "", "no room over head or nut: bore deeper by 3/16 in and the thickness of the plug",
    )  # fmt: skip


def test_a_lag_screw_needs_what_it_crosses_and_its_least_penetration() -> None:
    """1 1/2 side, gap 1/2, washer 0.109, 4 D and the tip of 5/16: 4.4215, so 4 7/16 in."""
    made = group([500.0], manner="ledger", fastener=LAG, gap="1/2 in",
                 other={"stock": "wood", "thickness": "5 1/2 in", "grain": "across"})  # fmt: skip
    assert bought(made, "lag screw")[3] == "6 in"
    assert bought(made, "lag screw")[4].startswith("needs at least 4 7/16 in")
    assert bought(made, "washer")[2] == "1"
    assert "nut" not in [row[0] for row in tables(made)["Hardware"].rows]


@pytest.mark.parametrize(
    "species, G, thread",
    [  # NDS 2018 12.1.4.2 (read): share of D = 1/2 in by G; Table 12.3.3A (read) for G
        ("Douglas Fir-Larch", "0.5", "0.2 in to 0.35 in (drill 11/32 in)"),
        ("Southern Pine", "0.55", "0.3 in to 0.375 in (drill 3/8 in)"),
        ("Red Oak", "0.67", "0.325 in to 0.425 in (drill 27/64 in)"),
    ],
)
def test_lead_holes_follow_the_specific_gravity(species: str, G: str, thread: str) -> None:
    other = stock("6x6 dressed", species=species, name="wood")
    made = group([500.0], into=other, manner="ledger", fastener=LAG,
                 other={"stock": "wood", "thickness": "5 1/2 in", "grain": "across"})  # fmt: skip
    rows = drilled(made)
    assert rows[0][0] == "B" and rows[0][2:4] == ("shank", "0.5 in (drill 1/2 in)")
    last = rows[-1]
    assert (last[0], last[2], last[3]) == ("post", "thread", thread)
    assert last[1].startswith(G)


def test_bolts_nails_and_wood_screws_have_their_own_holes() -> None:
    """Bolt: 1/32 to 1/16 over; nail of 0.162 at G 0.5: 75 percent; No. 10: 7/8 of 0.19 and 0.152, 0.7 of 0.152."""
    assert drilled(group([500.0]))[0][3] == "0.531 in to 0.562 in (drill 9/16 in)"
    nails = group([90.0], manner="toe-nails", fastener={"kind": "nail", "size": "16d common"})
    assert drilled(nails)[0][3:] == ("up to 0.121 in (drill 7/64 in)", "not needed; not wider")
    screws = group([90.0], fastener={"kind": "wood screw", "size": "No. 10", "length": "3 in"})
    shown = {(row[0], row[2]): row[3] for row in drilled(screws)}
    assert shown["B", "shank"].startswith("0.166 in")
    assert shown["post", "thread"].startswith("0.133 in")
    assert shown["post", "thread, where it is pulled"].startswith("up to 0.106 in")
    assert any("recalled from memory" in table.note for table in anchor_tables(screws))


@pytest.mark.parametrize(
    "more, said",
    [
        ({}, "wood dry, indoors, untreated: bare steel"),
        ({"treated": True}, "wood treated against rot or insects: hot-dip galvanized or stainless"),
        ({"moisture": "wet"}, "wood outdoors or damp: hot-dip galvanized or stainless"),
        ({"species": "Red Oak"}, "wood oak, chestnut, cedar, redwood: stainless or hot-dip galvanized"),
    ],
)
def test_the_coating_note_follows_the_wood(more: dict[str, Any], said: str) -> None:
    """Common trade practice (practice)."""
    note = tables(group([500.0], held=stock("6x12 dressed", **more)))["Hardware"].note
    assert said in note
    assert "the job does not say what the fasteners are coated with" in note


def test_what_to_see_counts_sizes_and_distances() -> None:
    """9 3/4 deep, the highest row at 3 + 2 1/2: 4 1/4 left to the top."""
    seen = "\n".join(inspection(knife()))
    for expected in (
        "4 bolts 3/4 in (A307, stainless), in 2 rows of 2", "a washer 2 in across under every head and nut",
        "5 1/4 in from the left end to the nearest hole", "3 in to the lowest row", "4 1/4 in from the highest row",
        "no split or check runs through a row", "the plate seated to the end of its slot",
        "bores plugged only after all of this was seen",
    ):  # fmt: skip
        assert expected in seen
    assert inspection(knife())[-2].startswith("bores plugged only after")


def test_what_others_and_reports_answer_for_is_seen_as_such() -> None:
    made = group([1.0])
    rating = {"source": "report 1 (invented), table 3", "down": "800 lbf", "duration": "included"}
    for manner, more, said in (
        ("by others", {}, "the work of others is in place"),
        ("holds nothing", {}, "something else holds B at this end"),
        ("rated hardware", {"rating": rating}, "report 1 (invented), table 3"),
    ):
        bare = replace(
            made, anchor=Anchor.model_validate({"name": "A", "manner": manner, **more}), x=made.x[:0], y=made.y[:0]
        )
        assert said in inspection(bare)[0]
        assert anchor_tables(bare) == []


def test_a_rod_is_seen_at_both_ends_and_a_gap_is_measured() -> None:
    rod = group([900.0], manner="hanger rod", fastener=ROD, other=None, arm=None)
    assert any("nut and washer on the top of post and under B" in line for line in inspection(rod))
    assert not any("edge distances" in line for line in inspection(rod))
    assert bought(rod, "nut")[2] == "2"
    gap = group([500.0], gap="1/4 in")
    assert any("no more than 1/4 in" in line for line in inspection(gap))
    assert any("in post: 6 in from its end and 5 in from its edge" in line for line in inspection(gap))


def test_the_drawing_marks_the_governing_fastener_and_holds_slot_plate_and_bores() -> None:
    made = replace(knife(), end="right")
    drawing = hole_drawing(made, 2)
    assert drawing.end == "right"
    assert [hole[3] for hole in drawing.holes if hole[4]] == ["3"]
    assert drawing.slot == (0.3125, 11.0, 9.75)
    # the plate begins at the end and lies about the middle of the rows, (3 + 5 1/2)/2
    assert drawing.plate == (0.0, 1.25, 10.0, 7.25, 0.25)
    assert drawing.bores == (2.25, 1.5) and drawing.bored == 2
    assert ("y", 5.5, 9.75, "to the top") in drawing.dimensions
    assert drawing.length > 11.0
    assert not any(hole[4] for hole in hole_drawing(made, None).holes)


def test_texts_are_in_the_units_of_the_sheet() -> None:
    with shown_in("SI"):
        table = tables(knife())["Holes"]
    assert table.rows[0][3:5] == ("133 mm", "76 mm")


@settings(max_examples=30, deadline=None)
@given(st.lists(st.tuples(st.integers(1, 40), st.integers(1, 10)), min_size=1, max_size=12, unique=True))
def test_every_hole_is_numbered_once_in_table_and_drawing(places: list[tuple[int, int]]) -> None:
    holes = {"places": [{"x": f"{x} in", "y": f"{y} in"} for x, y in places]}
    made = group([500.0], holes=holes)
    rows = tables(made)["Holes"].rows
    drawing = hole_drawing(made, 0)
    assert [row[0] for row in rows] == [hole[3] for hole in drawing.holes] == [str(i + 1) for i in range(len(places))]
    assert {(hole[0], hole[1]) for hole in drawing.holes} == {(float(x), float(y)) for x, y in places}
    assert sum(hole[4] for hole in drawing.holes) == 1


def test_what_the_job_says_of_a_group_word_by_word() -> None:
    """A hidden plate with all that can be said, and one of which nothing is."""
    assert dict(anchor_inputs(knife())) == {
        "manner": "concealed plate", "holds": "left end of B, at 0 in", "fastened to": "post",
        "fastener": "bolt 3/4 in", "steel": "A307", "threads": "not said", "coating": "stainless",
        "washers": "2 in across", "bores": "2 1/4 in across, 1 1/2 in deep, plugged",
        "fasteners": "4, in 2 rows along the grain",
        "plate": "A36, 1/4 in x 6 in x 10 in (thickness, across, along the piece)",
        "slot": "5/16 in wide, 11 in from the end", "weld": "not given", "arm": "0 in", "wood when put together": "dry",
        "checks and splits": "none seen",
    }  # fmt: skip
    bare = {"fastener": {"kind": "bolt", "size": "3/4 in", "threads": "clear of it", "F_yb": "45,000 psi",
                          "F_yb_from": "data sheet 12"},
            "arm": None, "seasoned": None, "split": None, "gap": "1/8 in"}  # fmt: skip
    rows = dict(anchor_inputs(group([100.0], **bare)))
    assert rows | {"manner": "", "holds": "", "fastened to": "", "fasteners": ""} == {
        "manner": "", "holds": "", "fastened to": "", "fasteners": "", "fastener": "bolt 3/4 in",
        "steel": "grade not given", "threads": "clear of it", "coating": "not said",
        "bending yield strength": "45,000 psi: data sheet 12", "other side": "wood, 1 1/2 in thick, grain across",
        "gap between the faces": "1/8 in", "arm": "not given", "wood when put together": "not said",
        "checks and splits": "not said",
    }  # fmt: skip


@pytest.mark.parametrize(("more", "said"), [
    ({}, {"rated loads": "900 lb down", "load duration": "in the figures already", "figures for": "not said",
          "conditions": "all nails in", "conditions met": "said to be met"}),
    ({"up": "600 lbf", "along": "50 lbf", "duration": "apply C_D", "loads": "wind", "conditions_met": False},
     {"rated loads": "900 lb down, 600 lb up, 50 lb along", "load duration": "C_D to be applied",
      "figures for": "wind loads", "conditions met": "said not to be met"}),
    ({"conditions_met": None, "conditions": ""}, {"conditions": "not written down", "conditions met": "not said"}),
])  # fmt: skip
def test_what_the_job_says_of_a_rating(more: dict[str, Any], said: dict[str, str]) -> None:
    rating = {"source": "report 1, 2025", "down": "900 lbf", "duration": "included", "conditions": "all nails in",
              "conditions_met": True, **more}  # fmt: skip
    anchor = Anchor.model_validate({"name": "A", "manner": "rated hardware", "rating": rating})
    rows = dict(anchor_inputs(replace(group([100.0]), anchor=anchor)))
    assert {key: rows[key] for key in said} == said and rows["rating from"] == "report 1, 2025"


def test_a_plate_on_a_face_is_drawn_about_the_middle_of_its_holes() -> None:
    """Columns 4 and 7 in from the end, rows 3 and 7 in up: 10 in long about 5 1/2 in, 6 in wide about 5 in."""
    holes = {"rows": 2, "columns": 2, "end": "4 in", "edge": "3 in", "spacing": "3 in", "row_spacing": "4 in"}
    plate = {key: value for key, value in PLATE.items() if key != "slot"}
    made = group([500.0], held=stock(OLD), manner="plate one side", other=None, plate=plate, holes=holes)
    found = hole_drawing(made, 0).plate
    assert found is not None and tuple(found) == pytest.approx((0.5, 2.0, 10.5, 8.0, 0.25))


@pytest.mark.parametrize(("manner", "where"), [
    ("plate one side", "on one side"), ("plates both sides", "on both sides"), ("concealed plate", "in the slot"),
])  # fmt: skip
def test_the_drawing_says_where_the_plate_lies(manner: str, where: str) -> None:
    plate = {**PLATE, "slot": "5/16 in"} if manner == "concealed plate" else PLATE
    made = group([500.0], held=stock(OLD), manner=manner, other=None, plate=plate, holes=HOLES)
    assert hole_drawing(made, 0).plate_at == where


@pytest.mark.parametrize(("fastener", "washer"), [(LAG, 0.109), ({**LAG, "kind": "bolt"}, 0.0)])
def test_a_lag_screw_is_measured_from_under_its_head_over_a_washer(fastener: Data, washer: float) -> None:
    """Washer 0.109, then 1 1/2 in of the side piece, a gap of 1/2 in, and the other piece to the point at 6 in."""
    made = group([500.0], manner="ledger", fastener=fastener, gap="1/2 in",
                 other={"stock": "wood", "thickness": "5 1/2 in", "grain": "across"})  # fmt: skip
    dowel = dowel_of(made.anchor.fastener)  # type: ignore[arg-type]
    side, far = _members(made, dowel)
    assert (side.start, side.end) == pytest.approx((washer, washer + 1.5), abs=1e-3)
    assert (far.start, far.end) == pytest.approx((washer + 2.0, 6.0), abs=1e-3)
