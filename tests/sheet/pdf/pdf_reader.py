"""Reads a PDF back: words page by page, attachments, bookmarks, and what it says of itself."""

from __future__ import annotations

import re
from io import BytesIO
from typing import Any

from pypdf import PdfReader
from pypdfium2 import PdfDocument

HIDDEN = dict.fromkeys(map(ord, "\u200b\u200e\u2060\u00ad"))


def squeezed(text: str) -> str:
    """The text without anything that setting it may change: spaces, breaks, subscripts, marks of code."""
    return re.sub(r"[\s_`]", "", text.translate(HIDDEN))


class Sheet:
    """A PDF, read without the code that wrote it."""

    def __init__(self, pdf: bytes) -> None:
        self.reader = PdfReader(BytesIO(pdf))
        with PdfDocument(pdf) as document:
            self.pages = [page.get_textpage().get_text_bounded().replace("\r\n", "\n") for page in document]
        self.text = "\n".join(self.pages)
        self.squeezed = squeezed(self.text)

    @property
    def body(self) -> str:
        """All pages without their head and foot, squeezed, so that what runs over a page end is in one piece."""
        foot = re.compile(r"\s*Caution\.[^\n]*(?:\n[^\n]*)*?page \d+ of \d+\s*\njob \w+ · [^\n]*$")
        return "".join(squeezed(foot.sub("", page.split("\n", 1)[1])) for page in self.pages)

    @property
    def attached(self) -> dict[str, bytes]:
        return {name: contents[0] for name, contents in self.reader.attachments.items()}

    @property
    def bookmarks(self) -> list[tuple[int, str, int]]:
        """Depth, title and page, counted from 1."""
        return list(self._walk(self.reader.outline, 1))

    def _walk(self, outline: Any, depth: int) -> Any:
        for one in outline:
            if isinstance(one, list):
                yield from self._walk(one, depth + 1)
            else:
                yield depth, one.title, self.reader.get_destination_page_number(one) + 1

    def page_of(self, title: str) -> int:
        (page,) = (page for _depth, name, page in self.bookmarks if name == title)
        return page
