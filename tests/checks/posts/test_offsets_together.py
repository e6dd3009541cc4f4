"""Which offsets of a post are checked together, with brackets and cuts beside them, and what is asked of them."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.core.context import Context
from beamcheck.checks.core.result import Check, PieceResult
from beamcheck.checks.posts.result import post_result
from beamcheck.model.reading.reader import job_from_data

from ..houses import Data, beam, check, checked, given_stock, job, piece, post, seat
from .by_hand import structure_of

OBLONG = given_stock('5 1/2" x 7 1/2"')
LOAD = [{"what": "floor", "live": "2000 lb"}]
WAY = "load off center the {} way"


def of(offsets: tuple[float | None, float | None], *brackets: TransferredLoad, **more: Any) -> PieceResult:
    """A post of 5 1/2 x 7 1/2 in, 8 ft, with those offsets the deep and the thin way, in."""
    fields = zip(("eccentricity", "eccentricity_weak"), offsets, strict=True)
    data = {**post(stock="given", carries=LOAD, **more), **{name: f"{e} in" for name, e in fields if e is not None}}
    for name, e in zip(("eccentricity", "eccentricity_weak"), offsets, strict=True):
        if e is None:
            data.pop(name)
    whole = job_from_data(job(stock=[OBLONG], post=[data]))
    return post_result(whole.post[0], Context(structure_of(whole), brackets))[0]


BRACKET = TransferredLoad("K", {"L": (300.0, 0.0)}, at=60.0, applied="side", off=5.0, pull=0.0)


def whats(result: PieceResult, id: str = "post.eccentric") -> list[str]:
    return [one.what for one in result.checks if one.id == id]


def values(found: Check) -> dict[str, float]:
    return {step.symbol: step.value for step in found.steps}


@pytest.mark.parametrize(("offsets", "plain", "with_bracket"), [
    ((0.0, 0.0), [], ["brackets on its faces, the deep way", "brackets on its faces, the thin way"]),
    ((1.0, 0.0), [WAY.format("deep")],
     [f"{WAY.format('deep')}, brackets {way} way" for way in ("deep", "thin")]),
    ((0.0, 1.0), [WAY.format("thin")],
     [f"{WAY.format('thin')}, brackets {way} way" for way in ("deep", "thin")]),
    ((1.0, 0.5), ["load off center both ways"],
     [f"load off center both ways, brackets {way} way" for way in ("deep", "thin")]),
    ((None, None), [WAY.format("deep"), WAY.format("thin")],
     [f"{WAY.format(way)}, brackets {way} way" for way in ("deep", "thin")]),
    ((None, 0.0), [WAY.format("deep")], [f"{WAY.format('deep')}, brackets {way} way" for way in ("deep", "thin")]),
    ((None, 0.5), ["load off center both ways"],
     [f"load off center both ways, brackets {way} way" for way in ("deep", "thin")]),
])  # fmt: skip
def test_which_offsets_are_checked_together(
    offsets: tuple[float | None, float | None], plain: list[str], with_bracket: list[str]
) -> None:
    """What is given counts with what is assumed the other way; where neither is given one way after the other."""
    assert whats(of(offsets)) == plain and whats(of(offsets, BRACKET)) == with_bracket
    for one in of(offsets, BRACKET).checks:
        if one.id == "post.eccentric":
            assert ("15.4.2" in one.clause) and any("on which face it hangs" in note for note in one.notes)


@pytest.mark.parametrize(("offsets", "fields"), [
    ((None, None), ["eccentricity", "eccentricity_weak"]), ((1.0, None), ["eccentricity_weak"]),
    ((None, 1.0), ["eccentricity"]), ((1.0, 1.0), []),
])  # fmt: skip
def test_offsets_that_nobody_states_are_asked(offsets: tuple[float | None, float | None], fields: list[str]) -> None:
    found = [one for one in of(offsets).checks if one.id.startswith("post.eccentric")]
    assert found
    for one in found:
        assert [question.field for question in one.questions] == [f"post.P.{field}" for field in fields]


@pytest.mark.parametrize(("offsets", "sideways"), [
    ((1.0, 0.0), [WAY.format("deep")]), ((0.0, 1.0), []), ((1.0, 1.0), ["load off center both ways"]),
])  # fmt: skip
def test_sideways_is_asked_where_it_bends_the_deep_way(offsets: tuple[float, float], sideways: list[str]) -> None:
    """Eq. 15.4-2 of NDS 2018 (memory); with brackets the deep way, too."""
    assert whats(of(offsets), "post.eccentric_sideways") == [f"{one}, sideways" for one in sideways]
    pushed = whats(of((0.0, 0.0), BRACKET), "post.eccentric_sideways")
    assert pushed == ["brackets on its faces, the deep way, sideways"]


def assumed(seats: list[tuple[str, str]], **more: Any) -> list[str]:
    """The offsets taken where beams with such seats and breadths end on the post, and none is stated."""
    lying = [beam(seat("0 ft", "wall"), seat("8 ft", "P", bearing=long, **({"bearing_width": wide} if wide else {})),
                  name=f"B{i}") for i, (long, wide) in enumerate(seats)]  # fmt: skip
    data = post(stock="given", **{"carries": [], **more})
    del data["eccentricity"], data["eccentricity_weak"]
    result = piece(checked(stock=[OBLONG], beam=lying, post=[data]), "P")
    found = {one.what: one.notes[0] for one in result.checks if one.id == "post.eccentric"}
    return [found[WAY.format(way)].split(" way ")[1] for way in ("deep", "thin")]


@pytest.mark.parametrize(("seats", "taken"), [
    ([("7 1/2 in", "")], [("1 1/4 in", "a sixth"), ("15/16 in", "a sixth")]),  # 7.5/6 and 5.5/6
    ([("5 1/2 in", "")], [("1 1/4 in", "a sixth"), ("15/16 in", "a sixth")]),
    ([("3 in", "")], [("2 1/4 in", "at the edge"), ("1 1/4 in", "at the edge")]),  # (7.5 - 3)/2 and (5.5 - 3)/2
    ([("5 1/2 in", "2 in")], [("2 3/4 in", "at the edge"), ("1 3/4 in", "at the edge")]),
    ([("5 1/2 in", ""), ("2 in", "")], [("2 3/4 in", "at the edge"), ("1 3/4 in", "at the edge")]),
    ([("3 3/4 in", ""), ("3 3/4 in", "")], [("1 7/8 in", "a quarter"), ("1 3/8 in", "a quarter")]),
])  # fmt: skip
def test_offsets_that_are_taken_where_none_is_stated(
    seats: list[tuple[str, str]], taken: list[tuple[str, str]]
) -> None:
    """A sixth of the side, a quarter under two (common practice), and no less than a seat at the edge of the top."""
    for found, (inches, why) in zip(assumed(seats), taken, strict=True):
        assert found.startswith(f"{inches}: not stated") and why in found


def test_a_load_of_its_own_beside_a_beam_shares_the_top() -> None:
    assert all("a quarter" in one for one in assumed([("5 1/2 in", "")], carries=LOAD))


def test_a_bracket_on_a_face_shares_no_top() -> None:
    assert "a sixth" in next(one for one in of((None, None), BRACKET).checks if one.id == "post.eccentric").notes[0]


# ---- wood that is gone -----------------------------------------------------------------------------------------------

NOTCH = {"kind": "notch", "at": "4 ft", "depth": "1 1/2 in", "length": "4 in", "face": "top"}


@pytest.mark.parametrize(("offsets", "e_1", "e_2"), [
    ((0.0, 0.0), 0.75, 0.0), ((1.0, 0.0), 1.75, 0.0), ((0.0, 1.0), 0.75, 1.0), ((0.5, 1.0), 1.25, 1.0),
])  # fmt: skip
def test_a_notch_adds_to_the_offset_the_deep_way(offsets: tuple[float, float], e_1: float, e_2: float) -> None:
    """1 1/2 of 7 1/2 in are gone from one side: what is left lies 3/4 in off the middle."""
    (found,) = [one for one in of(offsets, cuts=[NOTCH]).checks if one.id == "post.eccentric" and "notch" in one.what]
    steps = values(found)
    assert (steps["e_1"], steps.get("e_2", 0.0)) == pytest.approx((e_1, e_2))
    assert any("3/4 in off the middle" in note or "0.75 in off the middle" in note for note in found.notes)
    hole = {"kind": "hole", "at": "4 ft", "depth": "1 in", "from_bottom": "3 3/4 in"}
    assert [one for one in whats(of((0.0, 0.0), cuts=[hole])) if "hole" in one] == []


def test_with_a_cut_the_worst_of_the_sets_is_told() -> None:
    """Neither offset stated: of the deep and of the thin way the larger ratio with what is left."""
    (found,) = [one for one in of((None, None), cuts=[NOTCH]).checks
                if one.id == "post.eccentric" and "notch" in one.what]  # fmt: skip
    alone = [next(one.ratio or 0.0 for one in of(offsets, cuts=[NOTCH]).checks
                  if one.id == "post.eccentric" and "notch" in one.what)
             for offsets in ((7.5 / 6, 0.0), (0.0, 5.5 / 6))]  # fmt: skip
    assert found.ratio == pytest.approx(max(alone)) and alone[0] != pytest.approx(alone[1])


@pytest.mark.parametrize(("more", "central"), [
    ({}, True), ({"eccentricity": None}, False), ({"eccentricity_weak": None}, True), ({"eccentricity": "1 in"}, False),
    ({"eccentricity_weak": "1 in"}, False),
])  # fmt: skip
def test_a_round_post_is_central_where_it_is_said(more: Data, central: bool) -> None:
    data = {key: value for key, value in {**post(stock="log"), **more}.items() if value is not None}
    result = checked(stock=[given_stock("8 in round", name="log")], post=[data])
    found = [one for one in piece(result, "P").checks if one.id == "post.eccentric"]
    assert [one.verdict for one in found] == ([] if central else ["refer"])
    if found:
        assert found[0].questions[0].forces["comes down"] == pytest.approx(8000 + 5 / 1728 * 3.14159265 * 16 * 96)


@pytest.mark.parametrize(("size", "held"), [('5 1/2" x 11"', True), ('5 1/2" x 11.1"', False)])
def test_a_post_of_two_to_one_does_not_tip(size: str, held: bool) -> None:
    """d/b up to 2 needs no sideways support (NDS 2018 4.4.1.2, memory): no F_bE; beyond it the whole height counts.

    On the flat beams and stringers have 0.9 of E_min (4.3.7, memory).
    """
    result = checked(stock=[given_stock(size)], post=[post(stock="given", eccentricity="2 in", carries=LOAD)])
    found = check(result, "P", f"{WAY.format('deep')}, sideways")
    d = float(size.split("x")[1].strip().rstrip('"'))
    f_c = (2000 + 5 / 1728 * 5.5 * d * 96) / (5.5 * d)
    plain = f_c / (0.822 * 0.9 * 5e5 / (96 / 5.5) ** 2)
    assert (found.ratio == pytest.approx(plain, rel=1e-9)) is held and (found.ratio or 0.0) >= plain * (1 - 1e-9)
