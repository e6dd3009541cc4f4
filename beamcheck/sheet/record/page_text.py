"""An HTML sheet read back: its visible text in parts, its job text, and the result that it carries."""

from __future__ import annotations

from dataclasses import dataclass
from html.parser import HTMLParser

ELEMENT = "carried-result"  # id of the element with the result


@dataclass
class Part:
    """Some of the page, from one anchor to the next, and under which heading it stands."""

    key: str
    heading: str
    text: str = ""


class Page(HTMLParser):
    """The visible text of a page in parts, its job text, and the result it carries."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.parts = [Part("top", "head of the sheet")]
        self.job_text: str | None = None
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
        if self.job_text is not None:
            self.job_text = self.job_text.removeprefix("\n")  # as a browser does

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        key = dict(attrs).get("id") or ""
        self._equation += tag == "math"
        if not self._equation:
            self.markup.append(f"{tag} {[pair for pair in attrs if pair[0] != 'data-digest']}")
        if self._unseen == "pre" and tag == "b":  # a character that is shown by its number
            self._in_number = True
            self.job_text = (self.job_text or "") + _letter(dict(attrs).get("data-letter") or "")
        if not self._unseen and tag in ("head", "style", "template", "script"):
            self._unseen = "carried" if key == ELEMENT else tag
        elif key == "job-text":
            self.job_text, self._unseen = "", "pre"
        elif key and not self._unseen and tag in ("h2", "h3", "section"):
            self.parts.append(Part(key, self._above))
        if tag == "section":
            self._sections.append(key)
        if tag in ("h2", "h4"):
            self._heading = []
        self.parts[-1].text += " "

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
        self.parts[-1].text += " "

    def handle_data(self, data: str) -> None:
        if self._unseen == "pre" and self._in_number:
            self.markup.append(data)
        elif self._unseen == "pre":
            self.job_text = (self.job_text or "") + data
        elif self._unseen == "carried":
            self._packed.append(data)
        elif self._unseen:
            self.markup.append(data)
        elif not self._unseen:
            self.parts[-1].text += data
            if self._heading is not None:
                self._heading.append(data)


def _letter(number: str) -> str:
    """The character of a number in base 16; '' where there is none."""
    try:
        return chr(int(number, 16))
    except (ValueError, OverflowError):
        return ""
