"""What to buy and what to drill for each kind of fastener, each length and diameter summed here. Groups are invented.

1/2 in bolts and lag screws have washers of 1 3/8 in, 0.109 in thick (memory); a lag screw of 6 in has 3 1/2 in of
thread and a tip of 5/16 in (Appendix L, read). Diameters to drill: NDS 2018 12.1.3 to 12.1.7, G 0.50.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.anchors.hardware import Member, _deep, _range, bores_in_all, looked_up, wood_conditions
from beamcheck.checks.anchors.outputs import anchor_tables

from .anchors import HALF, Data, group, stock

PLATE: Data = {"steel": "A36", "thickness": "1/4 in", "width": "6 in", "length": "10 in"}
FAR: Data = {"stock": "wood", "thickness": "5 1/2 in", "grain": "across", "end": "6 in", "edge": "5 in"}
BOLT: Data = {"kind": "bolt", "size": "1/2 in"}
LAG: Data = {"kind": "lag screw", "size": "1/2 in", "length": "6 in"}
SCREW: Data = {"kind": "wood screw", "size": "No. 10", "length": "3 in"}
NAIL: Data = {"kind": "nail", "size": "16d common"}
BORED: Data = {**BOLT, "counterbore": "1 1/2 in", "counterbore_depth": "1/2 in"}
TIMBER = stock("6x12 dressed")


def listed(**more: Any) -> dict[str, tuple[str, ...]]:
    """The rows of the hardware list by what they are."""
    (table,) = [one for one in anchor_tables(group([100.0], **more)) if one.title == "Hardware of A"]
    return {row[0]: row[1:] for row in table.rows}


def drilled(**more: Any) -> list[tuple[str, str, str, str]]:
    """(member, part, drill, how deep)."""
    (table,) = [one for one in anchor_tables(group([100.0], **more)) if one.title == "Holes to drill for A"]
    return [(row[0], row[2], row[3], row[4]) for row in table.rows]


@pytest.mark.parametrize(("more", "length", "why"), [
    # 1 1/2 + 5 1/2 in of wood, 1/4 in apart; a pin is as long as the wood
    ({"fastener": {**BOLT, "kind": "pin"}, "other": FAR, "gap": "1/4 in"}, "at least 7 1/4 in",
     "as long as the wood it crosses"),
    # two washers and a nut of 1/2 in: 7.968, so 8 in; two bores of 1/2 in less: 6.718, so 6 3/4
    ({"fastener": {**BOLT}, "other": FAR, "gap": "1/4 in"}, "at least 8 in", "the parts, two washers and the nut"),
    ({"fastener": BORED, "other": FAR}, "at least 6 3/4 in", "the parts, two washers and the nut"),
    # plates of 1/4 in, on both sides 1/8 in off the wood: 1 1/2 + 3/4 + 0.718 = 2.968
    ({"fastener": BOLT, "manner": "plates both sides", "plate": PLATE, "other": None, "gap": "1/8 in"}, "at least 3 in",
     "the parts, two washers and the nut"),
    # into concrete: by its report
    ({"fastener": BOLT, "other": {"material": "concrete", "thickness": "6 in", "grain": "along"}}, "", ""),
    # 1 1/2 + 1/4 + 0.109 and, in the point, 4 x 1/2 + 5/16 in: 4.17
    ({"fastener": LAG, "other": FAR, "gap": "1/4 in"}, "6 in",
     "needs at least 4 3/16 in: what it crosses and 2 5/16 in in the wood that holds its point"),
    # 5 1/2 in of post before the end of the piece: 7.92
    ({"fastener": LAG, "other": FAR, "manner": "into the end"}, "6 in",
     "needs at least 7 15/16 in: what it crosses and 2 5/16 in in the wood that holds its point"),
    # through a plate of 1/4 in: 2.67
    ({"fastener": LAG, "manner": "plate one side", "plate": PLATE, "other": None}, "6 in",
     "needs at least 2 11/16 in: what it crosses and 2 5/16 in in the wood that holds its point"),
    # no washer under a wood screw; 6 D = 1.14 in: 2.64; a nail 6 D = 0.972 in: 2.472
    ({"fastener": SCREW, "other": FAR}, "3 in",
     "needs at least 2 11/16 in: what it crosses and 1 1/8 in in the wood that holds its point"),
    ({"fastener": NAIL, "other": FAR}, "3 1/2 in",
     "needs at least 2 1/2 in: what it crosses and 1 in in the wood that holds its point"),
    ({"fastener": NAIL, "other": FAR, "manner": "toe-nails"}, "3 1/2 in", ""),
    ({"fastener": BOLT, "other": None, "arm": None, "manner": "hanger rod"}, "",
     "through both pieces, from nut to nut"),
])  # fmt: skip
def test_length_of_each_fastener(more: Data, length: str, why: str) -> None:
    kind = "rod, threaded" if more.get("manner") == "hanger rod" else more["fastener"]["kind"]
    assert listed(**more)[kind][2:4] == (length, why)


def test_washers_nuts_plates_and_welds() -> None:
    both = listed(manner="plates both sides", plate={**PLATE, "weld": "3/16 in"}, other=None,
                  fastener={**BOLT, "coating": "stainless", "washer": "2 in", "steel": "A307"},
                  holes={"rows": 1, "columns": 2, "end": "4 in", "edge": "5 in", "spacing": "3 in"})  # fmt: skip
    assert both["bolt"][:2] == ("1/2 in", "2") and both["bolt"][4] == "steel A307, stainless"
    assert both["washer"] == ("2 in across", "4", "", "as given", "")
    assert both["nut"] == ("1/2 in", "2", "", "", "stainless")
    weld = "fillet weld 3/16 in on both sides of its base"
    assert both["plate"] == ("1/4 in x 6 in x 10 in", "2", "", weld, "steel A36")
    one = listed(fastener=LAG, other=FAR)
    assert one["washer"] == ("1 3/8 in across", "1", "", "standard cut washer of that size", "")
    assert set(one) == {"lag screw", "washer"} and one["lag screw"][4] == ""
    assert set(listed(fastener=NAIL, other=FAR)) == {"nail"} and set(listed(fastener=SCREW, other=FAR)) == {
        "wood screw"
    }
    rod = listed(fastener=BOLT, manner="hanger rod", other=None, arm=None)
    assert (rod["rod, threaded"][1], rod["washer"][1], rod["nut"][1]) == ("1", "2", "2")


def test_an_anchor_in_concrete_has_one_washer_and_one_nut() -> None:
    found = listed(fastener=BOLT, other={"material": "concrete", "thickness": "6 in", "grain": "along"})
    assert (found["washer"][1], found["nut"][1]) == ("1", "1")
    bored = {**BORED, "counterbore_depth": "7/8 in", "plugged": True}
    assert (
        listed(fastener=bored, other={"material": "concrete", "thickness": "6 in", "grain": "along"})["plug"][1] == "1"
    )
    assert listed(fastener=BOLT, other=FAR)["washer"][1] == "2"


def test_how_many_where_no_hole_is_given() -> None:
    made = group([100.0], fastener=BOLT, other=FAR)
    for manner, many in (("wood side", "as the report says"), ("hanger rod", "1")):
        bare = replace(made, anchor=made.anchor.model_copy(update={"manner": manner}), x=np.zeros(0), y=np.zeros(0))
        (table,) = [one for one in anchor_tables(bare) if one.title == "Hardware of A"]
        assert (table.rows[0][2], table.rows[1][2]) == (many, "2")


@pytest.mark.parametrize(("manner", "kind", "bores"), [
    ("wood side", "bolt", 2), ("wood side", "pin", 2), ("wood side", "lag screw", 1), ("plate one side", "bolt", 1),
    ("concealed plate", "bolt", 2),
])  # fmt: skip
def test_bores_of_one_fastener(manner: str, kind: str, bores: int) -> None:
    """Over head and nut where both lie on wood; screws have no nut."""
    fastener = {**BORED, "kind": kind, **({"length": "6 in"} if kind == "lag screw" else {})}
    plate = None if manner == "wood side" else {**PLATE, **({"slot": "5/16 in"} if manner == "concealed plate" else {})}
    made = group([100.0], manner=manner, fastener=fastener, plate=plate, other=FAR if plate is None else None)
    assert bores_in_all(made.anchor) == bores
    assert bores_in_all(group([100.0]).anchor) == 0


@pytest.mark.parametrize(("kind", "deep", "note"), [
    # a pin has neither washer nor nut over it: 1/2 in; a bolt has 0.109 + 1/2 in: short by 1/8 in, or 7/8 - 0.609
    ("pin", "at most 1/2 in", "over head and nut, put in last"),
    ("bolt", "", "no room over head or nut: bore deeper by 1/8 in and the thickness of the plug"),
])  # fmt: skip
def test_room_for_plugs(kind: str, deep: str, note: str) -> None:
    plug = listed(fastener={**BORED, "kind": kind, "plugged": True}, other=FAR)["plug"]
    assert plug == ("1 1/2 in across", "2", deep, note, "")
    if kind == "bolt":
        deeper = {**BORED, "counterbore_depth": "7/8 in", "plugged": True}
        assert listed(fastener=deeper, other=FAR)["plug"][2] == "at most 1/4 in"
        long = listed(fastener=deeper, other=FAR)["bolt"]  # 7 less 1 3/4 in with washers and nut 5.968, plugs over 7 in
        assert long[2:4] == ("at least 6 in", "the parts, two washers and the nut; less than 7 in, so that plugs fit")
    just = {**BORED, "counterbore_depth": "0.609 in", "plugged": True}  # as deep as washer and nut are high
    assert listed(fastener=just, other=FAR)["plug"][2:4] == (
        "", "no room over head or nut: bore deeper by 0 in and the thickness of the plug")  # fmt: skip
    assert "plug" not in listed(fastener=BORED, other=FAR)


def test_holes_for_bolts_and_pins() -> None:
    """1/32 to 1/16 in over a bolt, to 1/32 in under a pin; a standard hole, 1/16 in over, in a plate."""
    assert drilled(fastener=BOLT, other=FAR) == [
        (name, "hole", "0.531 in to 0.562 in (drill 9/16 in)", "right through") for name in ("B", "post")]  # fmt: skip
    assert drilled(fastener={**BOLT, "kind": "pin"}, other=FAR)[0][2] == "0.469 in to 0.5 in (drill 1/2 in)"
    concrete = {"material": "concrete", "thickness": "6 in", "grain": "along"}
    assert [row[0] for row in drilled(fastener=BOLT, other=concrete)] == ["B"]
    plated = drilled(fastener=BOLT, manner="plates both sides", plate=PLATE, other=None)
    assert plated[1:] == [("plate", "hole", "0.562 in", "standard hole")]
    screwed = drilled(fastener=LAG, manner="plate one side", plate=PLATE, other=None, held=TIMBER)
    assert screwed[-1] == ("plate", "hole", "0.5 in", "not less")
    inch = drilled(fastener={**BOLT, "size": "1 in"}, manner="plates both sides", plate=PLATE, other=None)
    assert inch[-1] == ("plate", "hole", "1.12 in", "standard hole")


SHANK, THREAD = "0.5 in (drill 1/2 in)", "0.2 in to 0.35 in (drill 11/32 in)"


@pytest.mark.parametrize(("more", "rows"), [
    # shank 2 1/2 in, washer 0.109, wood to 1.609, gap to 1.859: 0.641 in of it in the post, point at 6 in
    ({"other": FAR, "gap": "1/4 in"}, [
        ("B", "shank", SHANK, "right through"), ("post", "shank", SHANK, "5/8 in deep"),
        ("post", "thread", THREAD, "on to 4 1/8 in from its face, at least as deep as the thread")]),
    # from a bore of 1/2 in: the post begins at 1.109
    ({"other": FAR, "fastener": {**LAG, "counterbore": "1 1/2 in", "counterbore_depth": "1/2 in"}}, [
        ("B", "shank", SHANK, "right through"), ("post", "shank", SHANK, "1 3/8 in deep"),
        ("post", "thread", THREAD, "on to 4 7/8 in from its face, at least as deep as the thread")]),
    # first the post, 5 1/2 in: the shank ends in it; the piece is reached at 5.609
    ({"other": FAR, "manner": "into the end"}, [
        ("post", "shank", SHANK, "2 3/8 in deep"),
        ("B", "thread", THREAD, "on to 3/8 in from its face, at least as deep as the thread")]),
    # through a plate of 1/4 in: the piece begins at 0.359 and the screw ends in it
    ({"other": None, "manner": "plate one side", "plate": PLATE, "held": TIMBER}, [
        ("B", "shank", SHANK, "2 1/8 in deep"),
        ("B", "thread", THREAD, "on to 5 1/2 in from its face, at least as deep as the thread"),
        ("plate", "hole", "0.5 in", "not less")]),
    # the whole shank in thick wood: none reaches the post
    ({"other": FAR, "held": stock("4x12 dressed")}, [
        ("B", "shank", SHANK, "2 3/8 in deep"),
        ("post", "thread", THREAD, "on to 2 3/8 in from its face, at least as deep as the thread")]),
])  # fmt: skip
def test_holes_for_a_lag_screw(more: Data, rows: list[tuple[str, ...]]) -> None:
    """The shank as wide as it is, 0.4 to 0.7 D for the thread (12.1.4), each from the face of its member."""
    assert drilled(**{"fastener": LAG, **more}) == rows


def test_holes_for_screws_and_nails() -> None:
    """7/8 of D and of D_r sideways, 0.7 D_r where it is pulled (12.1.5); nails up to 3/4 D (12.1.6)."""
    assert drilled(fastener=SCREW, other=FAR) == [
        ("B", "shank", "0.166 in", "the part without thread"), ("post", "shank", "0.166 in", "the part without thread"),
        ("post", "thread", "0.133 in", "the thread"),
        ("post", "thread, where it is pulled", "up to 0.106 in (drill 3/32 in)", "the thread"),
    ]  # fmt: skip
    nails = ("hole", "up to 0.121 in (drill 7/64 in)", "not needed; not wider")
    assert drilled(fastener=NAIL, other=FAR) == [("B", *nails), ("post", *nails)]
    assert drilled(fastener=NAIL, other=FAR, manner="toe-nails") == [("B", *nails), ("post", *nails)]


@pytest.mark.parametrize(("low", "high", "text"), [
    (0.2, 0.35, "0.2 in to 0.35 in (drill 11/32 in)"), (0.5, 0.5, "0.5 in (drill 1/2 in)"), (0.166, 0.166, "0.166 in"),
    (0.0, 0.1215, "up to 0.121 in (drill 7/64 in)"), (0.0, 0.01, "up to 0.01 in"), (0.015625, 0.015625,
                                                                                 "0.016 in (drill 1/64 in)"),
])  # fmt: skip
def test_the_largest_drill_that_lies_within(low: float, high: float, text: str) -> None:
    """In steps of 1/64 in; none where none does."""
    assert _range(low, high) == text


def test_what_the_wood_does_to_steel() -> None:
    wet_oak = stock(treated=True, treated_with="preservative", species="Red Oak", grade="No.2", moisture="wet")
    assert wood_conditions(wet_oak) == [
        "treated against rot or insects", "oak, chestnut, cedar, redwood", "outdoors or damp"]  # fmt: skip
    assert wood_conditions(stock()) == ["dry, indoors, untreated"]
    (table,) = [one for one in anchor_tables(group([100.0], into=stock(moisture="wet"), fastener={
        **HALF, "coating": "hot-dip galvanized"})) if one.title == "Hardware of A"]  # fmt: skip
    assert "outdoors or damp" in table.note and "dry, indoors" not in table.note, "the harsher wood counts"
    assert "does not say" not in table.note


def test_a_strength_that_is_missing_is_no_reason_to_list_nothing() -> None:
    """A stainless bolt has no bending yield strength in the tables; a nail whose kind is not said has no size."""
    found = looked_up(group([100.0], fastener={**BOLT, "coating": "stainless"}).anchor)
    assert found is not None and found.D == 0.5
    assert looked_up(group([100.0], fastener={"kind": "nail", "size": "16d"}).anchor) is None


def test_specific_gravity_is_shown_with_its_doubt() -> None:
    (table,) = [one for one in anchor_tables(group([100.0], other={**FAR, "stock": None})) if "drill" in one.title]
    assert [("(in doubt)" in row[1]) for row in table.rows] == [False, True]
    assert table.rows[0][1].startswith("0.5, of Douglas Fir-Larch")
    assert table.note.endswith("within is named."), "holes for bolts are read"
    (table,) = [one for one in anchor_tables(group([100.0], fastener=NAIL)) if "drill" in one.title]
    assert table.note.endswith("Some of these holes are recalled from memory.")


@pytest.mark.parametrize(("start", "end", "point", "shank", "thread"), [
    # 6 in with 3 1/2 in of thread: 2 1/2 in of shank below the head
    (0.1, 1.6, False, "right through", "on to 1 1/2 in"), (0.1, 2.5, False, "right through", None),
    (0.1, 2.6, False, "2 3/8 in deep", "on to 2 1/2 in"), (2.5, 6.0, True, None, "on to 3 1/2 in"),
    (2.4, 6.0, True, "1/8 in deep", "on to 3 5/8 in"), (3.0, 7.0, True, None, "on to 3 in"),
    (6.0, 9.0, True, None, None),
    (0.1, 2.0, True, "1 7/8 in deep", None),
])  # fmt: skip
def test_how_deep_shank_and_thread_come(
    start: float, end: float, point: bool, shank: str | None, thread: str | None
) -> None:
    """Into a member from so far to so far below the head."""
    dowel = looked_up(group([1.0], fastener=LAG).anchor)
    assert dowel is not None
    member = Member("x", None, None, start, end, point)
    assert _deep(dowel, "shank", member) == shank
    found = _deep(dowel, "thread", member)
    if end <= 2.5 or start >= 6.0:
        assert found is None
    else:
        assert found is not None and (thread is None or found.startswith(thread))
