"""An HTML sheet read back: its visible text in parts, its job text, and the result that it carries."""

from __future__ import annotations

import re
from dataclasses import field
from html.parser import HTMLParser

from ...records import dataclass

ELEMENT = "carried-result"  # id of the element with the result
MOST_TAGS = 2_500_000  # tags and attributes of a page; a short sheet has some 2,000 a member, one with every step 7,000
# A tag as our pages have them: closed, its quotes too. What is not makes a reader of HTML look through all the rest.
_TAG = re.compile(r"""<[^<>"']*+(?:"[^"<>]*+"[^<>"']*+|'[^'<>]*+'[^<>"']*+)*+>""")
_PART = re.compile(r"[\s/]")  # what parts the attributes of a tag


def broken(text: str) -> str:
    """Why a page is not worth reading: it has more tags than any sheet, or one that is not closed; '' otherwise."""
    count = text.count("<")
    if count <= MOST_TAGS:
        closed = [len(_PART.findall(found.group())) for found in _TAG.finditer(text)]
        if len(closed) != count:
            return "has a tag that is not closed: it was changed"
        count += sum(closed)
    return f"has more than {MOST_TAGS:,} tags and attributes: too large to be read back" if count > MOST_TAGS else ""


@dataclass
class Part:
    """Some of the page, from one anchor to the next, and under which heading it stands."""

    key: str
    heading: str
    pieces: list[str] = field(default_factory=list)

    @property
    def text(self) -> str:
        return "".join(self.pieces)


class Page(HTMLParser):
    """The visible text of a page in parts, its job text, and the result it carries."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.parts = [Part("top", "head of the sheet")]
        self._job_text: list[str] | None = None
        self.packed = ""
        self.markup: list[str] = []  # elements with what steers how they show, and styles; equations left out
        self._equation = 0
        self._in_number = False
        self._packed: list[str] = []
        self._unseen = ""  # the element whose text does not show
        self._sections: list[str] = []  # ids of those that are open
        self._above = self.parts[0].heading
        self._heading: list[str] | None = None
        self.feed(text.replace("\r\n", "\n"))
        self.close()
        self.packed = "".join(self._packed)
        self.job_text = None if self._job_text is None else "".join(self._job_text).removeprefix("\n")  # as a browser

    def _job(self, text: str) -> None:
        if self._job_text is not None:
            self._job_text.append(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        key = dict(attrs).get("id") or ""
        self._equation += tag == "math"
        if not self._equation:
            self.markup.append(f"{tag} {[pair for pair in attrs if pair[0] != 'data-digest']}")
        if self._unseen == "pre" and tag == "b":  # a character that is shown by its number
            self._in_number = True
            self._job(_letter(dict(attrs).get("data-letter") or ""))
        if not self._unseen and tag in ("head", "style", "template", "script"):
            self._unseen = "carried" if key == ELEMENT else tag
        elif key == "job-text":
            self._job_text, self._unseen = [], "pre"
        elif key and not self._unseen and tag in ("h2", "h3", "section"):
            self.parts.append(Part(key, self._above))
        if tag == "section":
            self._sections.append(key)
        if tag in ("h2", "h4"):
            self._heading = []
        self.parts[-1].pieces.append(" ")

    def handle_endtag(self, tag: str) -> None:
        self._equation -= tag == "math"
        if tag == "b":
            self._in_number = False
        if tag == self._unseen or (tag, self._unseen) == ("template", "carried"):
            self._unseen = ""
        heading = " ".join("".join(self._heading or ()).split())
        if tag == "h2" and self._heading is not None:
            self.parts[-1].heading = self._above = heading.partition(": ")[0]
        if tag == "h4" and self._heading is not None:
            self.parts[-1].heading = f"{self._above}, {heading}"
        if tag in ("h2", "h4"):
            self._heading = None
        if tag == "section" and self._sections and (key := self._sections.pop()):
            self.parts.append(Part(f"after {key}", self._above))
        self.parts[-1].pieces.append(" ")

    def handle_data(self, data: str) -> None:
        if self._unseen == "pre" and self._in_number:
            self.markup.append(data)
        elif self._unseen == "pre":
            self._job(data)
        elif self._unseen == "carried":
            self._packed.append(data)
        elif self._unseen:
            self.markup.append(data)
        elif not self._unseen:
            self.parts[-1].pieces.append(data)
            if self._heading is not None:
                self._heading.append(data)


def _letter(number: str) -> str:
    """The character of a number in base 16; '' where there is none."""
    try:
        return chr(int(number, 16))
    except (ValueError, OverflowError):
        return ""
