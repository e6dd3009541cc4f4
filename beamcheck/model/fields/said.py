"""Words about the work that a figure relies on: whether they name it, or only hope for it."""

from __future__ import annotations

import re

from ...values.loads import told
from .evidence import DOUBT, LETTERS

_FIGURE = re.compile(r"\d")


def undone(text: str) -> bool:
    """Whether words say that it is not there yet, is gone, or is only hoped for."""
    return bool(told(text, "undone") or DOUBT.search(text))


def shares_load(shared_by: str) -> bool:
    """Whether words name what spreads load over neighbors: a deck, and not only gypsum board or strapping."""
    return bool(told(shared_by, "deck")) and not undone(shared_by)


def fastens(plies_fastened: str) -> bool:
    """Whether words name nails, screws or bolts that are in, with a size, a number or a spacing."""
    named = told(plies_fastened, "fastening") and _FIGURE.search(plies_fastened)
    return bool(named) and not undone(plies_fastened)


def gives_a_reason(text: str) -> bool:
    """Whether words are long enough to say why, and more than a hope."""
    return sum(map(str.isalpha, text)) >= LETTERS and not undone(text)
