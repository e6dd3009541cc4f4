"""What the fasteners of a bracket go into, said twice and not alike, or left out: it refers."""

from __future__ import annotations

import pytest

from ..brackets import CORBEL, OTHER, SOLID, STRAP, Data, body_of, bracket, find, held_on, structure, those


@pytest.mark.parametrize("material", ["masonry", "concrete", "steel", "other"])
@pytest.mark.parametrize("shape", [SOLID, STRAP], ids=["solid", "steel core"])
def test_wood_fasteners_into_a_wall_that_is_not_of_wood_refer(material: str, shape: Data) -> None:
    rows = [{"below_top": "1 in", "count": 1}, {"below_top": "3 in", "count": 1}]
    found = held_on(shape, on="wall", existing={"material": material}, rows=rows)
    into = find(found, "what the fasteners go into")
    (asked,) = into.questions
    assert (into.verdict, asked.field) == ("refer", "existing.wall.material")
    assert [answer.sets for answer in asked.answers] == [(("existing.wall.material", "wood"),)]
    assert not those(held_on(shape, on="wall", rows=rows), "what the fasteners go into")


@pytest.mark.parametrize("wall", ["masonry", "steel"])
def test_a_back_against_masonry_with_screws_into_wood_refers(wall: str) -> None:
    assert find(held_on(wall=wall), "wall and fasteners").verdict == "refer"
    assert not those(held_on(), "wall and fasteners")


def test_another_stock_than_that_of_the_post_refers() -> None:
    found = find(held_on(other={**OTHER, "stock": "thin", "thickness": "1 1/2 in"}), "what the fasteners go into")
    assert found.verdict == "refer" and "thin" in found.notes[0]


@pytest.mark.parametrize(("thickness", "kept"), [("3 1/2 in", True), ("5 1/2 in", True), ("4 1/2 in", False),
                                                 ("3 3/4 in", False), ("9 in", False)])  # fmt: skip
def test_a_thickness_that_the_post_does_not_have_refers(thickness: str, kept: bool) -> None:
    """A 4x6 is 3 1/2 x 5 1/2 in."""
    found = those(held_on(other={**OTHER, "thickness": thickness}), "wood behind")
    assert [check.verdict for check in found] == ([] if kept else ["refer"])


@pytest.mark.parametrize("wall", ["plaster", "gypsum board"])
def test_a_skin_of_no_thickness_refers(wall: str) -> None:
    """The fasteners lose its thickness of hold in the wood behind, so it must be given."""
    assert find(held_on(wall=wall), "thickness of the skin").verdict == "refer"
    assert not those(held_on(wall=wall, gap="1/2 in"), "thickness of the skin")


@pytest.mark.parametrize("at, end, verdicts", [
    (36.0, "24 in", []), (96.0, "24 in", ["fails"]), (91.0, "24 in", ["fails"]), (85.0, "24 in", ["refer"]),
    (85.0, "2 in", []), (78.0, "24 in", []),
])  # fmt: skip
def test_rows_stand_on_the_post_as_far_from_its_end_as_is_said(at: float, end: str, verdicts: list[str]) -> None:
    """Post of 96 in, back of 12 in, rows 3 in and 7 in below its top: from a foot at 85 in the upper is 94 in up.

    Of 3/8 in lag screws the end matters up to 7 D = 2.63 in (NDS 2018 Table 12.5.1A, memory): 2 in is less.
    """
    found = those(held_on(other={**OTHER, "end": end}, at=at), "rows on the post")
    assert [check.verdict for check in found] == verdicts


@pytest.mark.parametrize("at, below, kept", [(None, "12 in", True), (12.0, "12 in", True), (11.0, "12 in", False)])
def test_there_is_no_more_post_below_a_dap_than_stands_under_its_foot(at: float | None, below: str, kept: bool) -> None:
    here = structure()
    shape = {**CORBEL, "seat": "3/4 in", "below_seat": below}
    piece = bracket(shape, "100 lb", "2 in").model_copy(update={"at": at})
    found = body_of(piece, here).checks
    wrong = [one for one in those(found, "wood of the post below the dap") if one.verdict != "passes"]
    assert [one.verdict for one in wrong] == ([] if kept else ["refer"])
