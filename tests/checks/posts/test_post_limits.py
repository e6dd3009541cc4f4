"""Rules of posts at their limits: the schedule of plies, offsets, what lifts and what pushes. Figures by hand."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.core.result import Check
from beamcheck.checks.posts.plies import broken_rules, built_up_factor, ply_question
from beamcheck.model.posts import Post
from beamcheck.values.lumber import read_size

from ..houses import FOOTING, Data, beam, checked, given_stock, piece, post, seat
from .test_plies_cuts_and_ends_of_posts import BOLTS, NAILS

LIGHT = given_stock('5 1/2" x 7 1/2"')


# ---- plies -----------------------------------------------------------------------------------------------------------


def broken(size: str = '1 1/2" x 5 1/2"', plies: int = 3, joined: str = "nailed", **by: Any) -> str:
    schedule = {**(NAILS if joined == "nailed" else BOLTS), **by}
    said = {key: value for key, value in schedule.items() if value is not None}
    made = Post.model_validate(post(plies=plies, plies_joined=joined, plies_schedule=said))
    return "; ".join(broken_rules(made, read_size(size)))


D = 0.263  # 60d common (Table L4, read)


@pytest.mark.parametrize(("field", "least", "most"), [
    ("end", 15 * D, 18 * D), ("spacing", 20 * D, 9.0), ("row_spacing", 10 * D, 20 * D), ("edge", 5 * D, 20 * D),
])  # fmt: skip
def test_schedule_of_nails(field: str, least: float, most: float) -> None:
    """NDS 2018 15.3.3 (memory): multiples of the diameter, and six thicknesses of the thinnest ply."""
    for inches, words in ((least, ""), (most, ""), (least - 0.01, "is asked for"), (most + 0.01, "is asked for")):
        assert broken(**{field: f"{inches:.6f} in"}) == words or words in broken(**{field: f"{inches:.6f} in"})
        assert bool(broken(**{field: f"{inches:.6f} in"})) is bool(words), (field, inches)


@pytest.mark.parametrize(("field", "least", "most"), [
    ("end", 3.5, 4.2), ("spacing", 2.0, 9.0), ("row_spacing", 0.75, 5.0), ("edge", 0.75, 5.0),
])  # fmt: skip
def test_schedule_of_bolts(field: str, least: float, most: float) -> None:
    """NDS 2018 15.3.4 (memory), bolts of 1/2 in."""
    for inches, fits in ((least, True), (most, True), (least - 0.01, False), (most + 0.01, False)):
        assert (broken(joined="bolted", **{field: f"{inches} in"}) == "") is fits, (field, inches)


@pytest.mark.parametrize(("plies", "size", "words"), [
    (5, '1 1/2" x 5 1/2"', ""), (6, '1 1/2" x 5 1/2"', "5 at most"), (3, "8 in round", "round sticks"),
])  # fmt: skip
def test_how_many_and_how_thick(plies: int, size: str, words: str) -> None:
    found = broken(size, plies, "bolted")
    assert words in found and bool(found) is bool(words)


@pytest.mark.parametrize(("deep", "fits"), [('4 1/2"', True), ('4 9/16"', False)])
def test_one_row_up_to_three_thicknesses(deep: str, fits: bool) -> None:
    assert (broken(f'1 1/2" x {deep}', joined="bolted", rows=1, row_spacing=None) == "") is fits


@pytest.mark.parametrize(("thick", "fits"), [('2.18"', True), ('2.185"', False)])
def test_nails_three_quarters_into_the_last_ply(thick: str, fits: bool) -> None:
    """60d common are 6 in long: 2 3/4 plies of 2.18 in take 5.995 in."""
    assert (broken(f'{thick} x 5 1/2"') == "") is fits


@pytest.mark.parametrize(("size", "plies", "nail", "rows"), [
    ('1 1/2" x 5 1/2"', 2, "10d", 2), ('1 1/2" x 4 1/2"', 2, "10d", 1), ('1 1/2" x 5 1/2"', 3, "30d", 2),
    ('1 1/2" x 5 1/2"', 4, "60d", 2), ('1 1/2" x 5 1/2"', 5, None, 0), ('1 1/2" x 5 1/2"', 6, None, 0),
    ('1 1/2" x 11 1/4"', 2, "40d", 2), ('1 1/2" x 11.3"', 2, "50d", 2),  # 20 D to the edge: 25 D are half the depth
    ('1 1/2" x 2.07"', 3, "30d", 1), ('1 1/2" x 2.06"', 3, None, 0),  # and 5 D at the least
])  # fmt: skip
def test_the_schedule_that_is_offered_is_the_first_that_keeps_the_rule(
    size: str, plies: int, nail: str | None, rows: int
) -> None:
    """Common nails of 3 to 6 in and 0.148 to 0.263 in (Table L4, read), 3/4 of the last ply (15.3.3, memory)."""
    made = Post.model_validate(post(plies=plies))
    question = ply_question(made, read_size(size))
    offered = [dict(one.sets)["post.P.plies_schedule"] for one in question.answers] if question else []
    assert [(one["size"], one["rows"]) for one in offered] == ([(f"{nail} common", rows)] if nail else [])
    for by in offered:
        closed = Post.model_validate(post(plies=plies, plies_joined="nailed", plies_schedule=by))
        assert not broken_rules(closed, read_size(size)) and ply_question(closed, read_size(size)) is None
        assert ("row_spacing" in by) is (rows == 2)
    assert (question is None) is (plies > 5)


@pytest.mark.parametrize("joined", ["none", "nailed"])
def test_what_the_answer_about_plies_says_is_what_it_writes(joined: str) -> None:
    """16 D from the ends, 10 D between the rows, 36 D or six thicknesses from nail to nail, D = 0.148 in."""
    question = ply_question(Post.model_validate(post(plies=2, plies_joined=joined)), read_size('1 1/2" x 5 1/2"'))
    assert question is not None
    (answer,) = question.answers
    by = dict(answer.sets)["post.P.plies_schedule"]
    assert dict(answer.sets).get("post.P.plies_joined") == ("nailed" if joined == "none" else None)
    for field, inches in (("end", 16 * 0.148), ("row_spacing", 1.48), ("spacing", 36 * 0.148), ("edge", 2.01)):
        assert float(by[field].split()[0]) == pytest.approx(inches, rel=1e-3)
    assert answer.says.startswith("10d common nails in 2 rows, every 5.328 in, 2.368 in from the ends")


@pytest.mark.parametrize(("size", "asks"), [
    ('1 1/2" x 5 1/2"', True), ('1.49" x 5 1/2"', False), ("6 in round", False),
])  # fmt: skip
def test_plies_that_no_schedule_makes_one_are_not_asked(size: str, asks: bool) -> None:
    assert (ply_question(Post.model_validate(post(plies=2)), read_size(size)) is not None) is asks
    assert ply_question(Post.model_validate(post(plies=1)), read_size(size)) is None


def test_factors_of_built_up_posts() -> None:
    size = read_size('1 1/2" x 5 1/2"')
    for joined, by, K_f in (("nailed", NAILS, 0.6), ("bolted", BOLTS, 0.75)):
        for plies in (2, 3):
            made = Post.model_validate(post(plies=plies, plies_joined=joined, plies_schedule=by))
            assert built_up_factor(made, size) == K_f
    assert built_up_factor(Post.model_validate(post()), size) is None
    assert built_up_factor(Post.model_validate(post(plies=3, plies_joined="nailed")), size) is None


# ---- offsets ---------------------------------------------------------------------------------------------------------


def ids(
    id: str, *, beams: list[Data] | None = None, stock: Data = LIGHT, more: Data | None = None, **of: Any
) -> list[Check]:
    result = checked(
        post=[post(stock="given", **of)], stock=[stock], **{"beam": beams} if beams else {}, **(more or {})
    )
    return [one for one in piece(result, "P").checks if one.id == id]


@pytest.mark.parametrize(("field", "e", "beyond"), [
    ("eccentricity", "3.75 in", False), ("eccentricity", "3.8 in", True), ("eccentricity_weak", "2.75 in", False),
    ("eccentricity_weak", "2.8 in", True),
])  # fmt: skip
def test_load_beyond_the_edge(field: str, e: str, beyond: bool) -> None:
    found = ids("post.eccentricity_beyond", **{field: e})
    assert [one.questions[0].field for one in found] == ([f"post.P.{field}"] if beyond else [])


@pytest.mark.parametrize(("stated", "asked"), [("0.875 in", False), ("0.87 in", True)])
def test_offset_smaller_than_the_seat_allows(stated: str, asked: bool) -> None:
    """The end of one beam with 3 1/2 in on a post of 5 1/2 in: 1 in off the middle, less 1/8 in of play (judgment)."""
    lying = beam(seat("0 ft", "P", bearing="3 1/2 in"), seat("12 ft", "wall"))
    found = ids("post.eccentricity_and_seats", beams=[lying], eccentricity=stated, carries=[])
    assert [one.verdict for one in found] == (["refer"] if asked else [])


# ---- what lifts ------------------------------------------------------------------------------------------------------


def lifted(wind: str, **of: Any) -> list[Check]:
    loads = [{"what": "roof", "dead": "500 lb", "snow": "20000 lb"}, {"what": "wind", "wind": wind}]
    return ids("post.uplift_foot", carries=loads, **of)


@pytest.mark.parametrize(("wind", "verdict"), [("-450 lb", ""), ("-540 lb", "passes"), ("-600 lb", "refer")])
def test_a_foot_that_is_hardly_lifted(wind: str, verdict: str) -> None:
    """0.6 W against 0.6 D of 500 lb and 5 lb/ft3 of wood, 7 lb: 20 lb of thousands are next to nothing."""
    assert [one.verdict for one in lifted(wind)] == ([verdict] if verdict else [])


def test_what_holds_a_foot_down_is_asked_with_a_quarter_more() -> None:
    """0.6 (2,500 - 500 - 11.5 lb of wood): 1,193 lb, and 1.25 times that rounded up to 10 lb."""
    (check,) = lifted("-2500 lb")
    weight = 5 / 1728 * 5.5 * 7.5 * 96
    pull = 0.6 * (2500 - 500 - weight)
    asked = check.questions[0]
    assert asked.forces["pulls up"] == pytest.approx(pull, rel=1e-6)
    assert asked.answers[0].says == f"{10 * -(-1.25 * pull // 10):,.0f} lb"
    assert asked.field == "existing.footing.takes_uplift"


@pytest.mark.parametrize(("takes", "verdict"), [("1,200 lb", "passes"), ("1,190 lb", "fails")])
def test_footing_that_takes_uplift(takes: str, verdict: str) -> None:
    """1,193 lb, as above."""
    loads = [{"what": "roof", "dead": "500 lb", "snow": "20000 lb"}, {"what": "wind", "wind": "-2500 lb"}]
    slab = {"existing": [{**FOOTING, "name": "slab", "takes_uplift": takes}]}
    found = ids("post.uplift_foot", carries=loads, on="slab", more=slab)
    assert [one.verdict for one in found] == [verdict]


def test_post_in_tension() -> None:
    """What lifts on 5 1/2 x 7 1/2 in, C_D 1.6 on 600 psi (letter)."""
    loads = [{"what": "roof", "dead": "500 lb", "snow": "20000 lb"}, {"what": "wind", "wind": "-2500 lb"}]
    (check,) = ids("post.tension", carries=loads)
    assert check.demand == pytest.approx(0.6 * (2000 - 5 / 1728 * 41.25 * 96) / 41.25)
    assert check.capacity == pytest.approx(1.6 * 600.0)
