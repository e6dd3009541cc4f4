"""What is said and asked of the fixings of a bracket: every line of it, and none where nothing is given."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.brackets.asking import other_asked
from beamcheck.checks.brackets.families.registry import family_of
from beamcheck.checks.brackets.words import bracket_title, fixing_rows
from beamcheck.checks.core.context import Context
from beamcheck.model.brackets.bracket import Fixings
from beamcheck.model.posts import Post

from ..anchors.anchors import stock
from .brackets import SOLID, bracket, structure


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
