"""Single figures that decide something and stand in no standard: rows of `tables/judgment_*.csv`, with the reason."""

from __future__ import annotations

from functools import cache, lru_cache

from ..errors import UnknownName
from .found import Found
from .loader import Row, rows, source_of, table_names


def judgment_tables() -> tuple[str, ...]:
    """The tables that hold such figures."""
    return tuple(name for name in table_names() if name.startswith("judgment_"))


@lru_cache(maxsize=1024)
def judgment(name: str) -> Found[float]:
    """A figure by its name, in inner units (psi, deg, in, lbf, lbf/in, %), with its source and meaning.

    Raises UnknownName if no table lists it.
    """
    row = _figures().get(name)
    if row is None:
        raise UnknownName("figure of judgment", name, list(_figures()))
    figure = f"{row['value']} {row['unit']}".rstrip()
    return Found(float(row["value"]), source_of(row), f"{name}: {figure}, {row['meaning']}")


@cache
def _figures() -> dict[str, Row]:
    return {row["figure"]: row for table in judgment_tables() for row in rows(table)}
