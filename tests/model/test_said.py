"""Words about the work that a figure relies on: a deck, a fastening, a reason."""

import pytest

from beamcheck.model.fields.said import fastens, gives_a_reason, shares_load


@pytest.mark.parametrize("words", [
    "3/4 in subfloor glued and nailed to every joist", "boards", "roof deck", "plywood, drywall below", "1x6 boards",
    "tongue and groove", "roof sheathing", "deck",
])  # fmt: skip
def test_a_deck(words: str) -> None:
    assert shares_load(words)


@pytest.mark.parametrize("words", [
    "no deck yet", "strapping at midspan", "hope", "drywall below", "subfloor to be decided", "furring strips",
    "open joists, no deck", "the deck was removed", "1x6 boards loose laid", "gypsum board", "nothing yet", "",
])  # fmt: skip
def test_no_deck(words: str) -> None:
    """NDS 2018 4.3.9 (memory): joined by load distributing elements that are adequate for the load."""
    assert not shares_load(words)


@pytest.mark.parametrize("words", ["10d nails", "10d nails, two rows, 24 in apart", "1/2 in through bolts at 16 in"])
def test_a_fastening(words: str) -> None:
    assert fastens(words)


@pytest.mark.parametrize("words", [
    "not nailed", "glue", "a few nails", "nails", "will be nailed", "duct tape", "clamped only", "no nails, 2 clamps",
    "10d nails, missing so far", "screws of some kind", "",
])  # fmt: skip
def test_no_fastening(words: str) -> None:
    """IRC Table R602.3(1) (memory): which fasteners, and how far apart."""
    assert not fastens(words)


@pytest.mark.parametrize(("words", "said"), [
    ("there is no floor and no attic over it", True), ("hope", False),
    ("trust me", False), ("we hope for the best", False),
])  # fmt: skip
def test_a_reason(words: str, said: bool) -> None:
    assert gives_a_reason(words) is said
