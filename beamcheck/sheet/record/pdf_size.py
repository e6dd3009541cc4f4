"""How much a PDF unfolds to, found before its pages are read: a few bytes can stand for hours of work.

Streams are packed, and a page may draw a form that draws forms in turn. A sheet of ours draws none.
"""

from __future__ import annotations

import re
from collections import Counter
from typing import Any

from .read_error import ReadError

MOST_PAGES = 5_000
MOST_DRAWN = 150_000_000  # bytes of what all pages draw, each form as often as it is drawn
MOST_DEEP = 20  # forms within forms
_DRAWS = re.compile(rb"/([^\s/()<>\[\]{}%]{1,128})\s{1,8}Do\b")


def check_size(reader: Any, name: str) -> None:
    """Look at all pages of a PDF before they are read. Raises ReadError if they unfold to more than any sheet."""
    pages = reader.pages
    if len(pages) > MOST_PAGES:
        raise ReadError(f"{name} has {len(pages):,} pages: that is no sheet of whatcarries")
    known: dict[Any, int] = {}
    left = MOST_DRAWN
    for page in pages:
        contents = page.get_contents()
        if contents is None:
            continue
        left -= _drawn(contents.get_data(), page.get("/Resources"), known, name, MOST_DEEP)
        if left < 0:
            raise _too_much(name)


def _drawn(data: bytes, resources: Any, known: dict[Any, int], name: str, deep: int) -> int:
    """Bytes of a stream and of the forms in it."""
    if deep == 0:
        raise _too_much(name)
    total = len(data)
    forms = resources.get_object().get("/XObject") if resources is not None else None
    if not forms:
        return total
    forms = forms.get_object()
    for key, count in Counter(match[1].decode("latin-1") for match in _DRAWS.finditer(data)).items():
        reference = forms.raw_get(f"/{key}") if f"/{key}" in forms else None
        form = None if reference is None else reference.get_object()
        if form is None or form.get("/Subtype") != "/Form":
            continue
        which = getattr(reference, "idnum", id(form))
        if which not in known:
            known[which] = _drawn(form.get_data(), form.get("/Resources", resources), known, name, deep - 1)
        total += count * known[which]
        if total > MOST_DRAWN:
            raise _too_much(name)
    return total


def _too_much(name: str) -> ReadError:
    return ReadError(f"{name} unfolds to far more than a sheet has: it is no sheet of whatcarries, or was changed")
