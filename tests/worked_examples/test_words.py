"""Words of the worked examples: no symbol of a formula stands in them as it is typed in code."""

from __future__ import annotations

import pytest

from ..trials.words import raw_symbols
from .results import FOLDER, example


@pytest.mark.parametrize("name", sorted(path.stem for path in FOLDER.glob("*.toml")))
def test_no_symbol_stands_in_words_as_it_is_typed(name: str) -> None:
    assert raw_symbols(example(name), (FOLDER / f"{name}.toml").read_text(encoding="utf-8")) == []
