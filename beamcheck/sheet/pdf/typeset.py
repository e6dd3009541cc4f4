"""Pages set by typst from a source of ours and plain data, with its own typefaces only."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from contextlib import suppress
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

from ...errors import BeamcheckError
from .typefaces import FACES

if TYPE_CHECKING:
    import typst

_REMEMBERS = 10  # runs
_MUCH = 100_000  # letters of data, about: some 5 pages, or drawings for which typst takes 300 MB


def set_pdf(
    source: Path, data: Any, day: date | tuple[int, int, int] | None, *, what: str = "pages",
    held: Mapping[str, bytes] | None = None, data_name: str = "data.json", standards: Sequence[str] = (),
    tags: bool = True, forgets: bool | None = None,
) -> bytes:  # fmt: skip
    """A PDF from a typst source of ours and data; the same bytes for the same data.

    `source`: the typst source; it reads its data from `data_name`. `data`: what json can write, or its text. `day`:
    date, or year, month and day, or None: what the file says of its time. `what`: what is set, for the error. `held`:
    more files by name, which the source may attach. `standards`: PDF standards to keep to. `tags`: for readers who do
    not see it. `forgets`: have typst forget what it remembers of them; None: of much data. Raises BeamcheckError if
    typst or its typefaces are missing, or it cannot set the pages.
    """
    faces = _faces()
    import typst

    text = data if isinstance(data, str) else json.dumps(data)
    files = {"main.typ": source.read_bytes(), data_name: text.encode("ascii"), **(held or {})}
    if isinstance(day, date):
        day = (day.year, day.month, day.day)
    clock = 0 if day is None else max(int(datetime(*day, tzinfo=UTC).timestamp()), 0)
    more: dict[str, Any] = {"pdf_standards": list(standards)} if standards else {}
    more |= {} if tags else {"pdf_tags": False}
    try:
        # it takes files by name, which its types do not say
        made = typst.compile(cast(Any, files), format="pdf", font_paths=faces, timestamp=clock, **more)
    except typst.TypstError as error:
        raise BeamcheckError(f"typst could not set the {what}: {error}; version 0.15 is expected") from error
    pdf = bytes(made)
    if len(text) > _MUCH if forgets is None else forgets:
        del made
        forget()
    return pdf


@cache
def _faces() -> typst.Fonts:
    """The typefaces that typst brings along, looked up once: each run would do it again."""
    try:
        import typst
    except ImportError as error:
        raise BeamcheckError(f"a PDF needs the package typst 0.15: {error}") from error
    faces = typst.Fonts(include_system_fonts=False)
    missing = [face for face in FACES if face not in faces.families()]
    if missing:
        raise BeamcheckError(f"typst came without its typefaces {', '.join(missing)}: install typst from its wheel")
    return faces


def forget() -> None:
    """Have typst let go of what it remembers of earlier pages, 5 to 8 MB a page: it does after ten more runs."""
    import ctypes

    import typst

    faces = _faces()
    for _ in range(_REMEMBERS + 1):
        typst.compile(cast(Any, {"main.typ": b""}), format="pdf", font_paths=faces)
    with suppress(AttributeError, OSError, TypeError):  # only where the C library can give room back to the system
        ctypes.CDLL(None).malloc_trim(0)
