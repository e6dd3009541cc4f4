"""What is said and asked of the fixings of a bracket: every line of it, and none where nothing is given."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.checks.brackets.asking import other_asked, sentence
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.loads import bracket_loads
from beamcheck.checks.brackets.words import bracket_inputs, bracket_title, fixing_rows, loads_on_bracket
from beamcheck.checks.core.context import Context
from beamcheck.model.brackets.bracket import Fixings
from beamcheck.model.brackets.near import Near
from beamcheck.model.posts import Post

from ..anchors.anchors import stock
from .brackets import SOLID, Data, bracket, structure


def said(**more: Any) -> list[tuple[str, str]]:
    return [(name, str(words)) for name, words in fixing_rows(Fixings.model_validate(more))]


LAGS, BOLTS = {"kind": "lag screw", "size": "3/8 in"}, {"kind": "bolt", "size": "3/8 in"}


@pytest.mark.parametrize(
    ("given", "rows"),
    [
        ({}, [("back presses against", "not said")]),
        ({"wall": "masonry"}, [("back presses against", "masonry")]),
        ({"confirmed_by": "letter of 3 May"},
         [("back presses against", "not said"), ("fixings by others", "confirmed: letter of 3 May")]),
        ({"by_hand": "glue"}, [("back presses against", "not said"), ("held by", "glue")]),
        ({"fastener": BOLTS}, [("fasteners", "3/8 in bolt"), ("back presses against", "not said")]),
        ({"fastener": {**LAGS, "length": "5 in"}, "rows": [{"below_top": "3 in", "count": 2, "apart": "2 in"},
                                                          {"below_top": "7 in", "count": 1, "slot": "1/2 in"}]},
         [("fasteners", "3/8 in x 5 in lag screw"), ("row 1", "2 at 3 in below the top"),
          ("row 2", "1 at 7 in below the top, slots 1/2 in long"), ("back presses against", "not said")]),
    ],
)  # fmt: skip
def test_fixings_in_words(given: dict[str, Any], rows: list[tuple[str, str]]) -> None:
    assert said(**given) == rows
    assert fixing_rows(None) == [("fixings", "not given")]


@pytest.mark.parametrize("role", ["carries", "decorative", "cover"])
def test_the_wood_and_the_role_are_in_the_title(role: str) -> None:
    said = {"carries": "declared to carry", "decorative": "declared decorative", "cover": "declared a cover"}[role]
    title = bracket_title(family_of(bracket(SOLID).model_copy(update={"role": role})), structure())
    assert title.endswith(f", Douglas Fir-Larch No.1, {said}")


def behind(size: str | None) -> Context:
    """A post of that size behind it, or a slab that is of no stock."""
    context = structure(**({"of the post": stock(size)} if size else {}))
    if size:
        post = context.structure.pieces["post"]
        assert isinstance(post, Post)
        context.structure.pieces["post"] = post.model_copy(update={"stock": "of the post"})
    return context


def test_what_the_fasteners_go_into_is_offered_with_the_wood_behind() -> None:
    """A 6x10 is 9 1/2 in deep; its middle is 2 3/4 in from the edges of its breadth of 5 1/2 in."""
    asked = other_asked(bracket(SOLID), behind("6x10 dressed"))
    assert asked.field == "bracket.K.fixings.other" and len(asked.answers) == 1
    ((field, other),) = asked.answers[0].sets
    assert field == "bracket.K.fixings.other" and asked.answers[0].says.startswith("post, ")
    assert other == {"stock": "wood", "thickness": "9.5 in", "grain": "along", "edge": "2.75 in", "end": "12 in"}
    on_slab = bracket(SOLID).model_copy(update={"on": "slab"})
    assert other_asked(on_slab, behind(None)).answers == ()


def inputs(**more: Any) -> list[tuple[str, str]]:
    """What is said of a bracket, without its shape, its wood and its fixings."""
    here, shown = structure(), ("role", "its foot", "knots", "if somebody", "under", "gap", "pad", "closes")
    rows = bracket_inputs(family_of(bracket(SOLID).model_copy(update={"role": "decorative", **more})), here)
    assert ("fixed to", "post") in rows and "Douglas Fir-Larch" in " ".join(words for _, words in rows)
    return [row for row in rows if row[0].startswith(shown) and row[0] != "role"]


@pytest.mark.parametrize(
    ("given", "rows"),
    [
        ({}, [("knots in the throat", "not said")]),
        ({"knots": "none in the throat"}, [("knots in the throat", "none in the throat")]),
        ({"at": 30.0}, [("its foot stands at", "2 ft 6 in"), ("knots in the throat", "not said")]),
        ({"accidental": 200.0, "accidental_from": "the owner"},
         [("knots in the throat", "not said"), ("if somebody hangs on it", "200 lb (chosen by: the owner)")]),
        ({"accidental": "not for load"},
         [("knots in the throat", "not said"), ("if somebody hangs on it", "not for load")]),
    ],
)  # fmt: skip
def test_a_bracket_in_words(given: dict[str, Any], rows: list[tuple[str, str]]) -> None:
    assert inputs(**given) == rows


def test_its_role_and_its_shape_in_words() -> None:
    here = structure()
    rows = dict(bracket_inputs(family_of(bracket(SOLID)), here))
    assert rows["role"] == "meant to carry" and rows["fixed to"] == "post" and rows["fixings"] == "not given"
    assert (rows["grain"], rows["foot"]) == ("90 deg above level, towards the nose", "3 in")
    assert dict(bracket_inputs(family_of(bracket({**SOLID, "grain": None})), here))["grain"] == "not given"


PLATES: Data = {"what": "plates", "height": "3 in", "change": "6 %"}


@pytest.mark.parametrize(
    ("given", "gap", "more"),
    [
        ({}, "not given", [("closes the gap", "not said")]),
        ({"gap": "1/4 in", "closing": []}, "1/4 in", [("closes the gap", "nothing, it is said")]),
        ({"gap": "1/4 in", "pad": "2,000 lb/in", "closing": [PLATES, {**PLATES, "what": "sill"}]}, "1/4 in",
         [("pad in the gap", "2,000 lb/in"),
          ("closes the gap", "plates: 3 in across the grain, 6 %; sill: 3 in across the grain, 6 %")]),
    ],
)  # fmt: skip
def test_the_beam_above_in_words(given: Data, gap: str, more: list[tuple[str, str]]) -> None:
    near = Near.model_validate({"beam": "B", "at": "2 ft", **given})
    rows = inputs(near=near, knots="not looked at")[1:]
    assert rows == [("under", "B, 2 ft from its left end"), ("gap as left", gap), *more]


@pytest.mark.parametrize(
    ("strips", "own"),
    [
        ([], []), ([(0.0, 10.0, 6.0)], [("self weight", "D", "6 lb", "from 0 in to 10 in")]),
        ([(0.0, 5.0, 6.0), (5.0, 10.0, 2.0)],
         [("self weight", "D", "8 lb", "along the top edge, as it is thick there")]),
    ],
)  # fmt: skip
def test_what_a_bracket_carries_in_words(strips: list[tuple[float, float, float]], own: list[tuple[str, ...]]) -> None:
    """A point load by its place, a line load by its stretch and its sum, own weight in one row."""
    books = Applied("L", 2.0, 6.0, w_start=5.0, w_end=10.0, what="books")
    force = Applied("D", 4.0, 4.0, P=20.0)
    (table,) = loads_on_bracket(bracket_loads(bracket(SOLID), structure(), strips, more=[books, force]))
    stated = (("books", "L", "30 lb", "from 2 in to 6 in"), ("load", "D", "20 lb", "at 4 in from the wall"))
    assert table.rows == (*stated, *own)


def test_a_note_becomes_the_reason_of_a_question() -> None:
    assert sentence("its wood is not dry") == "Its wood is not dry." and sentence("B lifts") == "B lifts."
