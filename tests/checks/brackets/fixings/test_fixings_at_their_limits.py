"""Rules for what holds a bracket at their limits and just beside them; 10 x 12 in and 3 1/2 in thick, on a post.

Its soffit runs straight from (3, 12) to (10, 3): so far down it is 3 + 7 (12 - y)/9 in deep.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from beamcheck.checks.brackets.evidence import into_checks, rows_on_the_post
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.fixings.fixings import inspection_of
from beamcheck.checks.brackets.fixings.heads import head_width
from beamcheck.checks.brackets.fixings.rows import FixingRows
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.model.anchors.anchor import Fastener
from beamcheck.model.brackets.bracket import Bracket
from beamcheck.model.existing import Existing

from ...anchors.anchors import stock
from ..brackets import BOLT, CORBEL, LAG, OTHER, SOLID, STRAP, Data, bracket, find, fixings, held, loads_of, structure


def one(down: float, count: int = 1, **more: Any) -> Data:
    return {"below_top": f"{down} in", "count": count, **more}


def said(
    shape: Data = SOLID, *, load: str = "100 lb", at: str = "3 in", role: str = "carries", **more: Any
) -> list[Check]:
    piece = bracket(shape, load, at, fixings=fixings(**more), role=role)
    return held(piece, structure())


def named(checks: list[Check], id: str) -> list[Check]:
    return [check for check in checks if check.id == id]


# ---- how deep the wood is ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("down", "deep"), [(1.0, 10.0), (3.0, 10.0), (4.8, 8.6), (7.5, 6.5), (11.1, 3.7), (12.0, 3.0), (12.1, None)]
)
def test_depth_of_the_wood_at_a_height(down: float, deep: float | None) -> None:
    found = family_of(bracket(SOLID)).depth_at(down)
    assert found == (None if deep is None else pytest.approx(deep, abs=1e-3))
    assert family_of(bracket(CORBEL)).depth_at(down) == 3.5
    assert family_of(bracket(STRAP)).depth_at(down) is None
    thin = family_of(bracket({**SOLID, "foot": "1/2 in"}))
    assert thin.depth_at(11.9) == pytest.approx(0.5 + 9.5 * 0.1 / 9.0, abs=1e-3)


@pytest.mark.parametrize(("through", "verdict"), [(6.519, None), (6.521, "refer")])
def test_no_row_goes_through_more_than_is_there_at_its_height(through: float, verdict: str | None) -> None:
    """7 1/2 in down it is 6 1/2 in deep: sizes are read to 1/50 in. The upper row has all of it."""
    long = {**LAG, "length": "10 in"}
    rows = [one(3.0), one(7.5)]
    found = said(through=f"{through} in", fastener=long, rows=rows)
    there = [check for check in named(found, "bracket.through") if check.what.startswith("wood that")]
    assert [check.verdict for check in there] == ([verdict] if verdict else [])
    if there:
        assert (there[0].where, there[0].questions[0].answers[0].sets[0][1]) == ("row 2", "6.5 in")
    own = said(fastener=long, rows=[one(3.0), one(7.5, through=f"{through} in")])
    own = [check for check in named(own, "bracket.through") if check.what.startswith("wood that")]
    assert [check.verdict for check in own] == (["fails"] if verdict else [])
    assert not own or own[0].where == "row 2"


@pytest.mark.parametrize(("through", "bore", "fits"), [(2.0, 1.5, True), (2.0, 1.51, False), (3.6, 0.0, False)])
def test_through_and_bore_are_no_more_than_the_bracket_is_deep(through: float, bore: float, fits: bool) -> None:
    """A corbel 3 1/2 in deep."""
    head = {**LAG, "length": "8 in"}
    if bore:
        head |= {"counterbore": "1 in", "counterbore_depth": f"{bore} in"}
    found = said(CORBEL, through=f"{through} in", fastener=head)
    assert ("fails" not in [check.verdict for check in named(found, "bracket.through")]) is fits


@pytest.mark.parametrize(("through", "hangs"), [(6.0, False), (6.15, True)])
def test_a_washer_does_not_hang_out_of_the_soffit(through: float, hangs: bool) -> None:
    """1 in across at 7 1/2 in down: at its lower edge, 8 in down, the wood ends 6.11 in out."""
    bolt = {**BOLT, "length": "12 in", "washer": "1 in"}
    found = named(said(through=f"{through} in", fastener=bolt, rows=[one(3.0), one(7.5)]), "bracket.through")
    seats = [check for check in found if check.what == "seat of the head"]
    assert bool(seats) is hangs
    assert not hangs or seats[0].questions[0].answers[0].sets[0][1] == "6 in"


@pytest.mark.parametrize(
    ("shape", "through", "inside"),
    [(SOLID, 1.0, False), (SOLID, 0.99, True), (CORBEL, 2.5, False), (CORBEL, 2.49, True)],
)
def test_a_head_does_not_lie_inside_the_wood(shape: Data, through: float, inside: bool) -> None:
    """Within an inch of the front of a block; of a carved bracket an inch of wood is believed with its bore unsaid."""
    found = [c for c in named(said(shape, through=f"{through} in"), "bracket.through") if c.verdict == "refer"]
    assert bool(found) is inside
    if inside:
        deep = 10.0 if shape is SOLID else 3.5
        bored, whole = found[0].questions[0].answers
        assert bored.sets[0][1] == f"{deep - through:.4g} in" and whole.sets[0][1] == f"{deep:.4g} in"
    bore = {**LAG, "counterbore": "1 in", "counterbore_depth": "1/2 in"}
    assert not [c for c in named(said(shape, through=f"{through} in", fastener=bore), "bracket.through")
                if "inside the wood" in " ".join(c.notes)]  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "size", "washer", "wide"),
    [
        ("bolt", "3/8 in", None, 1.75 * 0.375), ("bolt", "3/8 in", 1.5, 1.5), ("bolt", "3/8 in", 0.5, 1.75 * 0.375),
        ("wood screw", "No. 14", None, 2.0 * 0.242), ("pin", "3/8 in", None, 0.375), ("pin", "3/8 in", 0.5, 0.5),
        ("bolt", "9/7 in", None, 0.0), ("bolt", "9/7 in", 1.5, 1.5),
    ],
)  # fmt: skip
def test_how_wide_a_head_is(kind: Any, size: str, washer: float | None, wide: float) -> None:
    """Across the corners of a hexagon 1.75 D (ASME B18.2.1, memory), of a round head 2 D (practice); a pin has none."""
    assert head_width(Fastener.model_construct(kind=kind, size=size, washer=washer)) == pytest.approx(wide)
    assert head_width(None) == 0.0


# ---- pockets, single fasteners, steel ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("row", "width", "through_it"),
    [
        # 4 to 6 in down, with half a 3/8 in screw
        (one(3.81), None, False), (one(3.8125), None, False), (one(6.1875), None, False),
        (one(3.82), None, True), (one(6.18), None, True), (one(6.19), None, False),
        # 2 in wide in the middle of 3 1/2: half of it and half a screw, 1.1875 in from the middle
        (one(5.0, from_side="0.57 in"), "2 in", True), (one(5.0, from_side="0.5625 in"), "2 in", False),
        (one(5.0, from_side="0.56 in"), "2 in", False),
        (one(5.0, 2, apart="2.36 in"), "2 in", True), (one(5.0, 2, apart="2.38 in"), "2 in", False),
        (one(5.0, 3, apart="1.4 in"), "2 in", True), (one(5.0, 2, apart="1 in", from_side="0.4 in"), "2 in", True),
        (one(5.0, 2, apart="2.5 in", from_side="0.4 in"), "2 in", True),
    ],
)  # fmt: skip
def test_a_row_that_comes_out_in_the_pocket_holds_nothing(row: Data, width: str | None, through_it: bool) -> None:
    pocket = {"top": "4 in", "height": "2 in", "depth": "1 in"} | ({"width": width} if width else {})
    rows = [row, one(9.0)]
    found = named(said({**SOLID, "pocket": pocket}, rows=rows), "bracket.row_in_pocket")
    assert [check.where for check in found] == (["row 1"] if through_it else [])


@pytest.mark.parametrize(
    ("rows", "role", "shape", "alone"),
    [
        ([one(3.0)], "carries", SOLID, True), ([one(3.0, 2, apart="1 1/2 in")], "carries", SOLID, False),
        ([one(3.0), one(7.0, slot="1 in")], "carries", SOLID, True), ([one(3.0)], "decorative", SOLID, False),
        ([one(3.0)], "carries", {**CORBEL, "seat": "1/2 in", "below_seat": "9 in"}, False),
    ],
)  # fmt: skip
def test_one_fastener_alone_holds_no_bracket_up(rows: list[Data], role: str, shape: Data, alone: bool) -> None:
    found = named(said(shape, rows=rows, role=role, load="10 lb"), "bracket.rows_tight")
    assert ([check.verdict for check in found] == ["fails"]) is alone


def test_rows_that_are_all_slotted_hold_nothing_up() -> None:
    """A job file is refused for that; a row that an answer slots afterwards is told, and ends in no error."""
    piece = bracket(SOLID, "100 lb", "3 in", fixings=fixings())
    assert piece.fixings is not None
    rows = tuple(row.model_copy(update={"slot": 1.0}) for row in piece.fixings.rows)
    slotted = piece.model_copy(update={"fixings": piece.fixings.model_copy(update={"rows": rows})})
    (found,) = named(held(slotted, structure()), "bracket.rows_tight")
    assert found.verdict == "fails" and "every row stands in slots" in found.notes[0]


@pytest.mark.parametrize(
    ("steel", "threads", "F_nt", "F_nv"),
    [("A307", None, 45000.0, 27000.0), ("A307", "clear of it", 45000.0, 27000.0), ("A325", None, 90000.0, 54000.0),
     ("A325", "clear of it", 90000.0, 68000.0)],
)  # fmt: skip
@pytest.mark.parametrize("count", [1, 2])
def test_bolts_in_pull_with_shear(steel: str, threads: str | None, F_nt: float, F_nv: float, count: int) -> None:
    """AISC 360-16 J3.7: F_nt' = 1.3 F_nt - 2 F_nt/F_nv f_rv, at most F_nt (values of Table J3.2); 1/4 in bolts."""
    bolt = {"kind": "bolt", "size": "1/4 in", "length": "6 in", "steel": steel} | (
        {"threads": threads} if threads else {}
    )
    rows = [one(3.0, count, **({"apart": "1 1/2 in"} if count > 1 else {})), one(7.0)]
    found = find(said(fastener=bolt, rows=rows, load="800 lb"), "pull on the bolts with shear")
    area, V, T = math.pi / 64.0, 0.8 * 800.0, 2400.0 / 6.3 / count  # 0.8 of it on the smallest row, of one bolt
    with_shear = min(F_nt, 1.3 * F_nt - 2.0 * F_nt / F_nv * V / area)
    assert (found.demand, found.capacity) == pytest.approx((T, with_shear * area / 2.0))


def test_the_pull_is_the_larger_of_rule_and_body() -> None:
    piece = bracket(SOLID, "100 lb", "3 in", fixings=fixings())
    loads = loads_of(piece, structure())
    for body, pull in ((30.0, 300.0 / 6.3), (60.0, 60.0)):
        rows = FixingRows(family_of(piece), piece.fixings, loads, np.full(len(loads.combinations), body))  # type: ignore[arg-type]
        assert float(rows.pulls().max()) == pytest.approx(pull)


@pytest.mark.parametrize(("load", "asked"), [("41 lb", False), ("43 lb", True)])
def test_a_heel_that_presses_with_next_to_nothing_is_not_asked_about(load: str, asked: bool) -> None:
    """20 lb (judgment) of pull are 42 lb at 3 in over 6.3 in."""
    assert bool(named(said(wall=None, load=load), "bracket.heel")) is asked


def test_what_is_to_be_seen_before_it_is_covered() -> None:
    piece = bracket(SOLID, "100 lb", "3 in", fixings=fixings(rows=[one(3.0, 2, apart="1 in"), one(7.0, slot="1 in")]))
    first, snug, grain = inspection_of(family_of(piece))
    assert first.startswith("each 3/8 in lag screw in place and tight: 2 at 3 in, 1 at 7 in below the top edge")
    assert "snug" in snug and "grain" in grain
    block = bracket({**CORBEL, "seat": "1/2 in", "below_seat": "9 in"}, "10 lb", "2 in")
    assert [line.split(" ")[1] for line in inspection_of(family_of(block))] == ["direction", "foot"]
    near = {"beam": "B", "at": "10 in", "closing": []}
    shows = [bracket(SOLID, near={**near, "gap": gap}, role=role) for gap, role in
             ((None, "decorative"), ("1/4 in", "decorative"), ("1/4 in", "carries"))]  # fmt: skip
    gaps = [[line for line in inspection_of(family_of(one)) if line.startswith("the gap")] for one in shows]
    assert "as large as the calculation asks" in gaps[0][0] and "1/4 in" in gaps[1][0] and gaps[2] == []
    cover = bracket(SOLID, role="cover", cover={"hides": ["A", "C"]})
    assert inspection_of(family_of(cover))[-1].startswith("A, C inspected and photographed")


# ---- what they go into -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("thick", "right"),
    [
        (3.25, True),
        (3.24, False),
        (3.5625, True),
        (3.57, False),
        (5.25, True),
        (5.24, False),
        (5.5625, True),
        (5.57, False),
    ],
)
def test_the_wood_behind_is_as_thick_as_a_side_of_its_stock(thick: float, right: bool) -> None:
    """4x6 dressed: 3 1/2 or 5 1/2 in, up to 1/4 in thinner and 1/16 in thicker."""
    piece = bracket(SOLID, "100 lb", "3 in", fixings=fixings(other={**OTHER, "thickness": f"{thick} in"}))
    found = [check for check in into_checks(piece, structure()) if check.id == "bracket.wood_behind"]
    assert (not found) is right
    assert right or [answer.sets[0][1] for answer in found[0].questions[0].answers] == ["5.5 in", "3.5 in"]


def walled(material: str, other: Data, **more: Any) -> list[str]:
    """What is asked of fasteners into something on a wall of a material."""
    here = structure()
    wall = Existing.model_validate({"name": "wall", "what": "wall", "material": material})
    context = Context(Structure(here.structure.stocks, {**here.structure.pieces, "wall": wall}))
    piece = bracket(SOLID, "100 lb", "3 in", on="wall", fixings=fixings(other=other, **more))
    return [check.id.removeprefix("bracket.") for check in into_checks(piece, context)]


CONCRETE: Data = {"material": "concrete", "thickness": "6 in", "grain": "along"}


def test_what_fasteners_go_into_is_what_it_is_fixed_to() -> None:
    assert walled("wood", OTHER) == [] and walled("concrete", CONCRETE, wall="masonry") == []
    assert walled("masonry", OTHER) == ["into"] and walled("other", OTHER) == ["into"]
    assert walled("wood", CONCRETE) == ["into"]
    assert walled("wood", OTHER, wall="masonry") == ["wall_and_fasteners"]
    assert (
        walled("wood", OTHER, wall="plaster") == ["skin"] and walled("wood", OTHER, wall="plaster", gap="1/2 in") == []
    )
    assert walled("wood", OTHER, wall="gypsum board") == ["skin"] and walled("wood", OTHER, wall="wood") == []


def standing(at: float | None, end: str | None = "24 in", **more: Any) -> list[str]:
    """On a post 96 in high: rows 3 and 7 in below the top of a bracket of 12 in whose foot stands at a height."""
    other = {key: value for key, value in {**OTHER, "end": end}.items() if value is not None}
    data = {"name": "K", "role": "carries", "shape": SOLID, "on": "post", "stock": "wood",
            "fixings": fixings(other=other, **more)}  # fmt: skip
    piece = Bracket(**data, **({"at": f"{at} in"} if at is not None else {}))
    return [check.verdict for check in rows_on_the_post(piece, 12.0, structure())]


@pytest.mark.parametrize(
    ("at", "end", "found"),
    [(50.0, "24 in", []), (84.3, "24 in", []), (84.5, "24 in", ["refer"]), (84.5, "2.56 in", []), (84.5, None, []),
     (84.5, "2.57 in", ["refer"]), (86.8, "24 in", ["refer"]), (86.82, "24 in", ["fails"]), (90.0, None, ["fails"]),
     (None, "24 in", []), (86.8125, "24 in", ["fails"]), (84.5, "2.5625 in", []), (84.375, "24 in", [])],
)  # fmt: skip
def test_rows_meet_the_post_as_far_from_its_end_as_is_said(at: float | None, end: str | None, found: list[str]) -> None:
    """Seven diameters of 3/8 in, 2.625 in, are all that counts; half a diameter is no place at all."""
    assert standing(at, end) == found


def test_wood_of_another_stock_than_that_of_the_piece_it_is_fixed_to() -> None:
    here = structure(other=stock("4x6 dressed", name="other"))
    steel = bracket(STRAP).model_copy(update={"name": "bar"})
    place = Context(replace(here.structure, pieces={**here.structure.pieces, "bar": steel}))
    held_in = fixings(other={**OTHER, "stock": "other"})
    for on, of, answers in (("post", "of stock 'wood'", ["wood"]), ("bar", "of no stock that is named", [])):
        (found,) = into_checks(bracket(SOLID, "100 lb", "3 in", on=on, fixings=held_in), place)
        assert found.id == "bracket.into" and found.notes[0].endswith(f"but {on} is {of}")
        assert [answer.sets[0][1] for answer in found.questions[0].answers][: len(answers)] == answers
        assert found.questions[0].field == "bracket.K.fixings.other.stock"
    concrete = fixings(other=CONCRETE)
    (no,) = into_checks(bracket(SOLID, "100 lb", "3 in", fixings=concrete), place)
    assert "post is no such thing" in no.notes[0]


def test_a_fastener_of_no_known_size_comes_out_in_the_pocket_by_its_middle() -> None:
    """Its own width is not known: 4 to 6 in down is the pocket itself."""
    pocket = {"top": "4 in", "height": "2 in", "depth": "1 in"}
    unknown = {**LAG, "size": "9/7 in"}
    for down, inside in ((3.99, False), (4.01, True), (5.99, True), (6.01, False)):
        found = named(said({**SOLID, "pocket": pocket}, rows=[one(down), one(9.0)], fastener=unknown),
                      "bracket.row_in_pocket")  # fmt: skip
        assert bool(found) is inside, down


@pytest.mark.parametrize(
    ("fastener", "down", "found"),
    [({**LAG, "size": "1/4 in"}, 11.0, []), ({**LAG, "size": "1/4 in"}, 11.01, ["refer"]),
     ({**LAG, "size": "1/4 in"}, 11.5, ["refer"]), ({**LAG, "size": "1/4 in"}, 11.51, ["fails"]),
     ({"kind": "wood screw", "size": "No. 14", "length": "5 in"}, 11.9, [])],
)  # fmt: skip
def test_how_near_to_its_foot_the_lowest_row_stands(fastener: Data, down: float, found: list[str]) -> None:
    """Four diameters of 1/4 in, two at least (NDS 2018 Table 12.5.1A, memory); thinner ones go by the advice."""
    low = named(said(rows=[one(3.0), one(down)], fastener=fastener), "bracket.lowest_row")
    assert [check.verdict for check in low] == found
    if found == ["refer"]:
        (asked,) = low[0].questions
        assert (asked.field, asked.answers[0].sets[0][1]) == ("bracket.K.fixings.rows.2.below_top", "11 in")


def test_each_row_that_is_not_like_the_others_has_its_share() -> None:
    """0.8 of 100 lb on the smallest row, one screw; two screws of another row are checked for as much each."""
    rows = [one(3.0, 2, apart="1 1/2 in", through="2 1/4 in"), one(7.0)]
    for shape in (SOLID, {**SOLID, "grain": "level"}):
        found = [check for check in said(shape, rows=rows) if check.what.startswith("lateral load on")]
        assert {check.where: check.demand for check in found} == pytest.approx({"row 1": 80.0, "row 2": 80.0})
    alike = [check for check in said(rows=[one(3.0, 2, apart="1 1/2 in"), one(7.0)])
             if check.what.startswith("lateral load on")]  # fmt: skip
    assert [check.demand for check in alike] == [pytest.approx(80.0)]


def test_how_much_one_row_goes_through_is_asked_where_the_others_say_it() -> None:
    (asked,) = named(said(through=None, rows=[one(3.0, through="2 in"), one(7.0)]), "bracket.through")
    assert asked.questions[0].field == "bracket.K.fixings.through"


def test_a_slotted_top_row_is_pulled_without_a_lateral_load() -> None:
    """Nothing but its pull counts there; a row that holds up as well has more of both together."""
    ratios = []
    for slot in ({}, {"slot": "1 in"}):
        found = said(rows=[one(3.0, **slot), one(7.0)])
        ratios.append([find(found, what).ratio for what in ("pull and lateral load", "pull on the most loaded")])
    assert ratios[1][0] == pytest.approx(ratios[1][1]) and (ratios[0][0] or 0.0) > 2.0 * (ratios[0][1] or 0.0)


def test_bolts_of_the_top_row_share_what_somebody_pulls() -> None:
    """200 lb outwards on two bolts; 200 lb x 10 in over half of 3 1/2 in sideways."""
    bolt = {**BOLT, "length": "6 1/2 in"}
    made = fixings(fastener=bolt, rows=[one(3.0, 2, apart="1 1/2 in"), one(7.0)])
    piece = bracket(SOLID, "20 lb", "3 in", fixings=made, accidental="200 lb", accidental_from="the owner")
    pulls = {check.what.rpartition(" ")[2]: check.demand for check in held(piece, structure())
             if check.id == "bracket.bolt_steel" and "somebody" in check.what}  # fmt: skip
    assert pulls == pytest.approx({"outwards": 100.0, "sideways": 1000.0 / 1.75})


def test_the_heel_presses_across_the_grain() -> None:
    """625 psi of Douglas Fir-Larch without a factor for its length (NDS Supplement Table 4A, memory)."""
    heels = [check for check in said() if check.id == "bracket.heel"]
    assert [check.capacity for check in heels] == pytest.approx([625.0, 625.0])


@pytest.mark.parametrize("material", ["masonry", "concrete"])
def test_what_holds_in_a_wall_goes_by_its_report(material: str) -> None:
    """No equation of the wood standard gives it a value; of a rating the rows are asked, one as an answer."""
    here = structure()
    wall = Existing.model_validate({"name": "wall", "what": "wall", "material": material})
    place = Context(replace(here.structure, pieces={**here.structure.pieces, "wall": wall}))
    found = held(bracket(SOLID, "40 lb", "3 in", on="wall", fixings=fixings(other=None)), place)
    (asked,) = [check for check in found if check.id == "bracket.fixings_described"]
    assert asked.questions[0].field == "bracket.K.fixings.rating" and material in asked.notes[0]
    rating = {"source": "report ER-0000, 2025, table 3", "down": "500 lb", "along": "400 lb", "duration": "included",
              "loads": "floor", "conditions": "solid brick", "conditions_met": True}  # fmt: skip
    bare = bracket(SOLID, "40 lb", "3 in", on="wall", fixings={"rating": rating, "wall": "masonry"})
    (rows,) = named(held(bare, place), "bracket.rows")
    assert rows.questions[0].answers[0].sets == (
        ("bracket.K.fixings.rows", [{"below_top": "2 in", "count": 1}]),)  # fmt: skip
