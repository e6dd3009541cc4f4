"""The kinds of checks: each id is a row of a table that says which part of a piece it is about."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from ...values.loader import rows, table_names

PARTS = ("member", "joints", "path")


@lru_cache(maxsize=1)
def check_kinds() -> Mapping[str, Mapping[str, str]]:
    """Every kind of check by its id: part, nature, what."""
    tables = (name for name in table_names() if name.startswith("checks_"))
    return {row["check"]: row for table in tables for row in rows(table)}


def part_of(id: str) -> str:
    """'member', 'joints' or 'path'; of what is in no table the member, whose verdict is the one that is read first."""
    row = check_kinds().get(id)
    return "member" if row is None else row["part"]
