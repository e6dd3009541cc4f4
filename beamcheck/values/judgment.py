"""Single figures that decide something and stand in no standard: rows of `tables/judgment_*.csv`, with the reason."""

from __future__ import annotations

from functools import lru_cache

from ..errors import UnknownName
from .found import Found
from .loader import rows, source_of, table_names


def judgment_tables() -> tuple[str, ...]:
    """The tables that hold such figures."""
    return tuple(name for name in table_names() if name.startswith("judgment_"))


@lru_cache(maxsize=1024)
def judgment(name: str) -> Found[float]:
    """A figure by its name, in inner units (psi, deg, in, lbf, lbf/in, %), with its source and meaning.

    Raises UnknownName if no table lists it.
    """
    every = [row for table in judgment_tables() for row in rows(table)]
    for row in every:
        if row["figure"] == name:
            figure = f"{row['value']} {row['unit']}".rstrip()
            return Found(float(row["value"]), source_of(row), f"{name}: {figure}, {row['meaning']}")
    raise UnknownName("figure of judgment", name, [row["figure"] for row in every])
