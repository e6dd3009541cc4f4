"""The last span question, kept for `new --from-last` in the user's own cache folder."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

NAME = "last-span.toml"


def _place() -> Path:
    root = os.environ.get("LOCALAPPDATA") or os.environ.get("XDG_CACHE_HOME") or os.path.expanduser("~/.cache")
    return Path(root) / "whatcarries" / NAME


def keep_question(text: str) -> None:
    """Remember a question; where nothing can be written it is not remembered, which is no fault."""
    from ..sheet.write import WriteError, write_atomically

    place = _place()
    with suppress(OSError, WriteError):
        place.parent.mkdir(parents=True, exist_ok=True)
        write_atomically(place, text, overwrite=True)


def last_question() -> str | None:
    """The text of the last question as a job; None where there is none."""
    with suppress(OSError, ValueError):
        return _place().read_text(encoding="utf-8")
    return None
