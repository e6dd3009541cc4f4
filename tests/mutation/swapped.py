"""An error put into functions that are imported already: quick, where what they did on import does not matter."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from types import CodeType, FunctionType

Swaps = list[tuple[FunctionType, CodeType]]


def swaps(path: str, raw: bytes, wrong: bytes) -> Swaps:
    """Which functions of a file get which code; none where that cannot be told, or names would be missing."""
    pairs = list(_differing(*(compile(each, path, "exec", dont_inherit=True) for each in (raw, wrong))))
    found: Swaps = []
    for function in gc.get_objects():
        if isinstance(function, FunctionType) and function.__code__.co_filename == path:
            for old, new in pairs:
                if function.__code__ == old:
                    if old.co_freevars != new.co_freevars:
                        return []
                    found.append((function, new))
    return found


def _differing(old: CodeType, new: CodeType) -> Iterator[tuple[CodeType, CodeType]]:
    """The code of functions, and of what stands inside them, that is not what it was."""
    for one, other in zip(
        *([c for c in each.co_consts if isinstance(c, CodeType)] for each in (old, new)), strict=True
    ):
        if one != other:
            yield one, other
            yield from _differing(one, other)
