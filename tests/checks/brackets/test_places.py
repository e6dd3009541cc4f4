"""Where a bracket or cover stands against where beam and joint are: heights and places along a beam by hand.

A post 8x8 (7 1/2 in) 96 in high under a beam of 13 ft; the bracket is 12 in high and stands 10 in out.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from beamcheck.checks.beams.result import beam_result
from beamcheck.checks.brackets.covers.cover import cover_checks
from beamcheck.checks.brackets.covers.place import place_checks as cover_places
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.place import gap_by_sizes, likely_beams, noses, place_checks
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.model.anchors.anchor import Anchor, Holes, Other
from beamcheck.model.beams import Beam
from beamcheck.model.brackets.bracket import Bracket, Cover
from beamcheck.model.posts import Post

from ..anchors.anchors import stock
from .brackets import LAG, SOLID, Data, find, fixings, loads_of, structure

BEAM: Data = {
    "name": "B", "stock": "wood", "length": "13 ft", "service": "floor", "finish": "none", "top_held": "full length",
    "supports": [{"at": "3 3/4 in", "on": "post", "bearing": "6 in"},
                 {"at": "12 ft 8 in", "on": "slab", "bearing": "6 in"}],
}  # fmt: skip


def house(beam: Data | None = None, size: str = "8x8 dressed", **anchors: Anchor) -> Context:
    here = structure()
    post = Post.model_validate({"name": "post", "stock": "post wood", "height": "8 ft", "on": "slab",
                                "top_restraint": "pinned"})  # fmt: skip
    pieces = {"post": post, "slab": here.under("slab"), "B": Beam.model_validate({**BEAM, **(beam or {})})}
    stocks = {"wood": stock("4x10 dressed"), "post wood": stock(size)}
    return Context(Structure(stocks, pieces, anchors))


def standing(at: str | None = "6 ft", **more: Any) -> Bracket:
    data: Data = {"name": "K", "role": "decorative", "shape": SOLID, "on": "post", "stock": "wood", **more}
    return Bracket(**data, **({} if at is None else {"at": at}))


def near(at: str, gap: str | None) -> Data:
    return {"near": {"beam": "B", "at": at, "closing": []} | ({"gap": gap} if gap else {})}


def said(piece: Bracket, here: Context | None = None) -> list[Check]:
    return list(place_checks(family_of(piece), here or house()))


# ---- brackets ------------------------------------------------------------------------------------------------------


def test_where_its_nose_may_be() -> None:
    """3 3/4 in, half of the post and 10 in: 17 1/2 in; the other way is beyond the end of the beam."""
    piece, here = family_of(standing()), house()
    assert noses(piece, here.under("B"), here) == [17.5]  # type: ignore[arg-type]
    seats = [{"at": "60 in", "on": "post", "bearing": "6 in"}, {"at": "150 in", "on": "slab", "bearing": "6 in"}]
    inside = house({"supports": seats})
    assert noses(piece, inside.under("B"), inside) == [73.75, 46.25]  # type: ignore[arg-type]  # between supports first
    oblong = house({"supports": seats}, size="6x8 dressed")  # 5 1/2 x 7 1/2: which way it stands is not said
    assert noses(piece, oblong.under("B"), oblong) == [72.75, 73.75, 47.25, 46.25]  # type: ignore[arg-type]
    unsaid = house({"length": None, "supports": [{**seats[0], "at": "0 in"}, {**seats[1], "at": "14 in"}]})
    assert noses(piece, unsaid.under("B"), unsaid) == [13.75]  # type: ignore[arg-type]
    assert noses(family_of(standing(on="slab")), here.under("B"), here) == []  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("seat", "length", "found"),
    [(13.75, 156.0, [27.5, 0.0]), (13.5, 156.0, [27.25]), (142.25, 156.0, [128.5, 156.0]), (142.5, 156.0, [128.75]),
     (14.25, 156.0, [28.0, 0.5])],
)  # fmt: skip
def test_a_nose_at_the_very_end_of_the_beam_is_under_it(seat: float, length: float, found: list[float]) -> None:
    """13 3/4 in to either side of the seat on the post; the other seat is at 80 in, inside comes first."""
    seats = [{"at": f"{seat} in", "on": "post", "bearing": "6 in"}, {"at": "80 in", "on": "slab", "bearing": "6 in"}]
    here = house({"length": f"{length} in", "supports": sorted(seats, key=lambda one: float(one["at"].split(" ")[0]))})
    assert noses(family_of(standing()), here.under("B"), here) == found  # type: ignore[arg-type]


def test_a_nose_over_the_last_seat_counts_as_inside() -> None:
    """Seats at 60, 46 1/4 (13 3/4 in before it) and 73 3/4 in: places at the first and the last, in the order made."""
    for other, first in ((73.75, 73.75), (46.25, 46.25)):
        seats = [{"at": f"{at} in", "on": on, "bearing": "6 in"} for at, on in ((60.0, "post"), (other, "slab"))]
        here = house({"supports": sorted(seats, key=lambda one: one["at"])})
        assert noses(family_of(standing()), here.under("B"), here)[0] == first  # type: ignore[arg-type]


def test_the_gap_that_its_sizes_leave() -> None:
    """96 - 72 - 12 in; on a beam that hangs on the post it is not known."""
    piece, here = family_of(standing()), house()
    assert gap_by_sizes(piece, here.under("B"), here) == pytest.approx(12.0)  # type: ignore[arg-type]
    assert gap_by_sizes(family_of(standing(None)), here.under("B"), here) is None  # type: ignore[arg-type]
    hung = house({"supports": [{**BEAM["supports"][0], "holds": "hung"}, BEAM["supports"][1]]})
    assert gap_by_sizes(piece, hung.under("B"), hung) is None  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("at", "right"), [("17.5 in", True), ("19.5 in", True), ("19.6 in", False), ("15.4 in", False)]
)
def test_a_nose_somewhere_else_along_the_beam(at: str, right: bool) -> None:
    found = [one for one in said(standing(**near(at, "12 in"))) if one.what.startswith("where it stands")]
    assert (not found) is right
    assert right or [answer.sets[0][1] for answer in found[0].questions[0].answers] == ["17.5 in"]
    oblong = house(size="6x8 dressed")  # 16 1/2 or 17 1/2 in
    assert [one for one in said(standing(**near("18.6 in", "12 in")), oblong) if one.what.startswith("where")] == []


@pytest.mark.parametrize(
    ("at", "right"),
    [("139 in", True), ("145 in", True), ("133 in", True), ("132.9 in", False), ("17.5 in", False), ("165 in", True)],
)
def test_a_nose_at_the_wall_that_the_beam_rests_on(at: str, right: bool) -> None:
    """The slab is 152 - 3 in along and the nose 10 in before it; within 6 in; the other way 165 in."""
    found = said(standing(None, on="slab", **near(at, "1/2 in")))
    assert (not found) is right
    if not right:
        there, meant = found[0].questions[0].answers
        assert there.sets == (("bracket.K.near.at", "139 in"),)
        ((path, why),) = meant.sets
        assert path == "bracket.K.meant.near"
        assert not said(standing(None, on="slab", meant={"near": why}, **near(at, "1/2 in")))


@pytest.mark.parametrize(("seat", "other", "offered"), [
    (139.0, 152.0, ["152 in"]), (152.0, 139.0, ["139 in"]), (139.0, 151.0, ["152 in", "126 in"]),
])  # fmt: skip
def test_places_at_a_wall_inside_the_beam_are_offered_alone(seat: float, other: float, offered: list[str]) -> None:
    """The nose is half of its seat (3 in) and 10 in from its middle, both ways; the last support is inside still."""
    seats = [{"at": f"{at} in", "on": on, "bearing": "6 in"} for at, on in ((seat, "slab"), (other, "post"))]
    here = house({"supports": sorted(seats, key=lambda one: str(one["at"]))})
    (found,) = said(standing(None, on="slab", **near("60 in", "1/2 in")), here)
    assert [answer.sets[0][1] for answer in found.questions[0].answers[:-1]] == offered


def test_a_seat_of_which_no_length_is_said_is_a_point() -> None:
    here = house({"supports": [BEAM["supports"][0], {"at": "12 ft 8 in", "on": "slab"}]})
    (found,) = said(standing(None, on="slab", **near("60 in", "1/2 in")), here)
    assert found.questions[0].answers[0].sets[0][1] == "142 in"
    assert said(standing(None, on="slab"), here) == []  # with no beam named there is nothing to compare


@pytest.mark.parametrize(
    ("gap", "right"), [("12 in", True), ("11.75 in", True), ("11.74 in", False), ("12.26 in", False)]
)
def test_a_gap_that_its_sizes_contradict(gap: str, right: bool) -> None:
    found = [one for one in said(standing(**near("17.5 in", gap))) if one.what.startswith("gap under")]
    assert (not found) is right
    if not right:
        up, wide = found[0].questions[0].answers
        assert up.sets == (("bracket.K.at", f"{72.0 + 12.0 - float(gap.split(' ')[0]):.5g} in"),)
        assert wide.sets == (("bracket.K.near.gap", "12 in"),)
        assert "84 in" in found[0].notes[0] or "8 ft" in found[0].notes[0]


def test_no_gap_by_its_sizes_is_nothing_and_not_less() -> None:
    (found,) = [one for one in said(standing("7 ft 2 in", **near("17.5 in", "1 in"))) if one.what.startswith("gap")]
    assert "nothing is left under B" in found.notes[0]
    assert found.questions[0].answers[1].sets == (("bracket.K.near.gap", "0 in"),)


@pytest.mark.parametrize(("at", "left"), [("84 in", "nothing"), ("83.5 in", "1/2 in")])
def test_how_much_is_left_under_the_beam_in_words(at: str, left: str) -> None:
    (found,) = [one for one in said(standing(at, **near("17.5 in", "2 in"))) if one.what.startswith("gap")]
    assert f"{left} is left under B, not 2 in" in found.notes[0]


def test_beams_that_may_be_above_it_are_offered() -> None:
    seats = [{"at": "60 in", "on": "post", "bearing": "6 in"}, {"at": "150 in", "on": "slab", "bearing": "6 in"}]
    here = house({"supports": seats})  # with two places for its nose the inner one is offered
    assert [one.sets[0][1]["at"] for one in likely_beams(family_of(standing()), here)] == ["73.75 in"]
    here = house()
    (yes,) = likely_beams(family_of(standing()), here)
    assert yes.sets == (("bracket.K.near", {"beam": "B", "at": "17.5 in", "closing": [], "gap": "12 in"}),)
    (unsaid,) = likely_beams(family_of(standing(None)), here)
    assert unsaid.sets[0][1] == {"beam": "B", "at": "17.5 in", "closing": []}


def test_a_bracket_for_a_load_asks_where_the_beam_is() -> None:
    carries = {"role": "carries", "carries": [{"what": "shelf", "live": "20 lb", "at": "4 in"}]}
    (found,) = said(standing(**carries))
    assert found.verdict == "refer" and [answer.sets[0][0] for answer in found.questions[0].answers] == [
        "bracket.K.above", "bracket.K.near"]  # fmt: skip
    assert said(standing(above="nothing", **carries)) == [] and said(standing()) == []
    rests = {**BEAM["supports"][1], "on": "K", "lands_at": "5 in"}
    beam = {"supports": [BEAM["supports"][0], rests]}
    assert said(standing(**carries), house(beam)) == []  # which is its load


LIVE = {"what": "floor", "dead": "100 plf", "live": "200 plf", "applied": "top"}
LOADED: Data = {"role": "carries", "carries": [{"what": "shelf", "live": "20 lb", "at": "4 in"}]}


def comes_down(x: float) -> float:
    """3 1/2 x 9 1/4 in of E 1,700,000 psi less 1.645 x 25 %, on 148 1/4 in: 1.5 of all that may stay, and 1/16 in."""
    w, L, E = (300.0 + 34.0 * 3.5 * 9.25 / 144.0) / 12.0, 148.25, (1.0 - 1.645 * 0.25) * 1.7e6
    bent = w * x * (L**3 - 2.0 * L * x**2 + x**3) / (24.0 * E * 3.5 * 9.25**3 / 12.0)
    return 1.5 * (bent + w * x * (L - x) / (2.0 * E / 16.0 * 3.5 * 9.25 / 1.2)) + 1.0 / 16.0


@pytest.mark.parametrize(("more", "free"), [(0.27, True), (0.23, False), (0.0, False)])
@pytest.mark.parametrize("size", ["8x8 dressed", "6x8 dressed"])
def test_a_beam_that_stays_clear_by_the_sizes_is_not_asked_for(more: float, free: bool, size: str) -> None:
    """13 3/4 in from its support (of an oblong post the way in which it stands is not said: the farther counts), with
    the quarter of an inch that sizes may be wrong by."""
    here = house({"carries": [LIVE]}, size)
    beam_result(here.under("B"), here)  # type: ignore[arg-type]
    (found,) = said(standing(f"{84.0 - comes_down(13.75) - more} in", **LOADED), here)
    assert found.verdict == ("passes" if free else "refer")
    (unsaid,) = said(standing(None, **LOADED), here)
    assert unsaid.verdict == "refer" and "how far up its foot stands is not said either" in unsaid.notes[0]
    assert "not said either" not in found.notes[0]


# ---- covers --------------------------------------------------------------------------------------------------------


POCKET: Data = {"top": "2 in", "height": "4 in", "depth": "1 1/2 in"}


def group(into: str = "post", end: str | None = "20 in", grain: str = "along", **holes: Any) -> Anchor:
    held = {"rows": 2, "columns": 3, "row_spacing": "2 in", "spacing": "3 in", "end": "4 in", "edge": "2 in", **holes}
    other = {"stock": "wood", "thickness": "3 1/2 in", "grain": grain, "edge": "2 in"} | ({"end": end} if end else {})
    return Anchor.model_construct(name="A", manner="wood side", into=into, holes=Holes.model_validate(held),
                                  other=Other.model_validate(other), fastener=None, plate=None)  # fmt: skip


def covered(
    anchor: Anchor, at: str | None, pocket: Data | None = None, *, on: str = "post", **beam: Any
) -> list[Check]:
    shape = {**SOLID, "pocket": pocket} if pocket else SOLID
    piece = standing(at, role="cover", shape=shape, on=on, cover={"hides": ["A"]})
    assert isinstance(piece.cover, Cover)
    return list(cover_places(family_of(piece), piece.cover, house(beam, A=anchor)))


@pytest.mark.parametrize(
    ("anchor", "middle"),
    [(group(), 23.0), (group(grain="across"), 21.0), (group(end=None), None), (group("slab"), None)],
)  # fmt: skip
def test_a_joint_in_the_side_of_a_post_is_where_its_end_distance_says(anchor: Anchor, middle: float | None) -> None:
    """20 in from the end to the first of three 3 in apart (or of two 2 in apart); from which end is not said."""
    found = covered(anchor, None)
    if middle is None:
        assert found == []
        return
    (asked,) = found
    assert asked.notes[0].endswith(" up it")
    answers = [float(str(answer.sets[0][1]).split(" ")[0]) for answer in asked.questions[0].answers]
    assert answers == pytest.approx([96.0 - middle - 6.0, middle - 6.0])  # its middle is half of its 12 in up


@pytest.mark.parametrize(
    ("at", "pocket", "right"),
    [(17.0, None, True), (23.0, None, True), (11.0, None, True), (23.1, None, False), (10.9, None, False),
     (67.0, None, True), (15.0, POCKET, True), (16.0, POCKET, True), (16.1, POCKET, False), (14.0, POCKET, True),
     (13.9, POCKET, False)],
)  # fmt: skip
def test_a_cover_hides_what_lies_behind_its_pocket(at: float, pocket: Data | None, right: bool) -> None:
    """The joint lies 23 in up; the middle of the pocket 12 - 2 - 2 = 8 in above the foot, within 1 in."""
    assert (covered(group(), f"{at} in", pocket) == []) is right


def test_a_beam_that_rests_on_the_post_is_at_its_head() -> None:
    seats = [{**BEAM["supports"][0], "held_by": "A"}, BEAM["supports"][1]]
    (asked,) = covered(group("B"), None, supports=seats)
    assert asked.questions[0].answers[0].sets[0][1] == "90 in"


@pytest.mark.parametrize(("at", "right"), [(3.75, True), (5.5, True), (5.51, False), (2.0, True), (1.99, False)])
def test_along_a_beam_it_hides_half_of_its_thickness_to_either_side(at: float, right: bool) -> None:
    """The end of the beam that the group holds is at 3 3/4 in; the cover is 3 1/2 in thick."""
    seats = [{**BEAM["supports"][0], "held_by": "A"}, BEAM["supports"][1]]
    assert (covered(group("B"), f"{at} in", on="B", supports=seats) == []) is right
    (asked,) = covered(group("B"), None, on="B", supports=seats)
    assert [answer.sets[0][1] for answer in asked.questions[0].answers] == ["3.75 in"]
    assert asked.notes[0].endswith(" along it")


COVER: Data = {
    "hides": ["A"], "heads_stand_out": "3/4 in", "heads_width": "2 in", "heads_height": "3 in",
    "hidden_moves": "1/16 in", "change": "6 %", "fixed_at_one_line": True, "reveal": "1/8 in",
}  # fmt: skip


def movement(apart: float, **more: Any) -> list[Check]:
    lower = {"below_top": f"{2.0 + apart} in", "count": 1, **more.pop("second", {})}
    here, shape = structure(), {**SOLID, "grain": more.pop("grain", "level"), "pocket": POCKET}
    data: Data = {"name": "K", "role": "cover", "shape": shape, "on": "post", "stock": "wood",
                  "cover": {**COVER, **more},
                  "fixings": fixings(rows=[{"below_top": "2 in", "count": 1}, lower], fastener=LAG)}  # fmt: skip
    piece = Bracket(**data)
    return cover_checks(family_of(piece), loads_of(piece, here, 5.0), here)


@pytest.mark.parametrize(
    ("apart", "grain", "slot"),
    [
        (1.61, "level", False),
        (1.62, "level", True),
        (3.22, "45 deg", False),
        (3.24, "45 deg", True),
        (9.0, "upright", False),
    ],
)
def test_tight_rows_of_a_cover_move_apart_by_the_play_of_their_holes(apart: float, grain: str, slot: bool) -> None:
    """0.00323 x 6 points of what lies across the grain (western larch) is 1/32 in at 1.612 in."""
    found = [one for one in movement(apart, grain=grain) if one.what.endswith("tight rows")]
    assert bool(found) is slot
    assert not slot or found[0].questions[0].field == "bracket.K.fixings.rows.2.slot"
    assert not [one for one in movement(9.0, second={"slot": "1 in"}) if one.what.endswith("tight rows")]


def test_a_pocket_right_through_asks_for_three_eighths_beside_it() -> None:
    (asked,) = find(movement(1.0), "walls of the pocket").questions
    assert asked.answers[0].sets[0][1] == "2.75 in"  # 3 1/2 less twice 3/8 in


@pytest.mark.parametrize(("at", "right"), [(40.0, True), (41.7, True), (41.8, False), (3.75, False)])
def test_the_end_of_another_beam_is_where_it_lands(at: float, right: bool) -> None:
    """The group holds beam C on B, 40 in along it; what lands there by another group lies elsewhere."""
    here = house(A=group("C"))
    ends = [{"at": "0 ft", "on": "B", "lands_at": "40 in", "held_by": "A", "holds": "hung"},
            {"at": "8 ft", "on": "B", "lands_at": "60 in", "held_by": "other", "holds": "hung"}]  # fmt: skip
    other = Beam.model_validate({**BEAM, "name": "C", "length": None, "supports": ends})
    place = Context(replace(here.structure, pieces={**here.structure.pieces, "C": other}))
    piece = standing(f"{at} in", role="cover", on="B", cover={"hides": ["A"]})
    assert piece.cover is not None
    assert (list(cover_places(family_of(piece), piece.cover, place)) == []) is right
