"""Species that words name, in the spellings of stamps and lists."""

from __future__ import annotations

import pytest

from beamcheck.values.species import species_in


@pytest.mark.parametrize(
    ("words", "named"),
    [
        ("Douglas Fir-Larch, dry, 10d nails in every hole", ("Douglas Fir-Larch",)),
        ("DF-L or SPF, full nailing", ("Douglas Fir-Larch", "Spruce-Pine-Fir")),
        ("Southern Yellow Pine", ("Southern Pine",)),
        ("all holes filled, dry wood", ()),
    ],
)
def test_species_in_words(words: str, named: tuple[str, ...]) -> None:
    assert species_in(words) == named
