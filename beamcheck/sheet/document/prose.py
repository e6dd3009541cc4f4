"""Words as they are set on a sheet: sentences begin with a capital and end with a stop."""

from __future__ import annotations

import re

_TITLE = 140  # characters of a title; the calc sheet has the whole one with the project data

_FIRST_WORD = re.compile(r"[^\s,;:.()]+")
_PLACE = re.compile(r"(span )?from (.+) to (.+)")


_UNIT = re.compile(r"(?<=[0-9]) (?=(?:in|ft|lb|psi|plf|psf|pcf|mm|m|kN|kPa|MPa|lb-ft|lbf|pli|%|°F|deg)(?![A-Za-z]))")
_FEET_AND_INCHES = re.compile(
    r"(?<=ft) (?=(?:[0-9]+ )?[0-9]+(?:/[0-9]+)?[ \u00a0]in)|(?<=[0-9]) (?=[0-9]+/[0-9]+[ \u00a0]in)"
)
_DAY = re.compile(
    r"(?<=[0-9]) (?=(?:January|February|March|April|May|June|July|August|September|October|November|December) [12])"
)
_FIELD = re.compile(r" \(`[^`]*`\)|`")
_TABLE = re.compile(r"\[\[?([a-z_]+)\]\]?")  # `[[anchor]]` of a job file
TIED = "\u00a0"


def tied(text: str) -> str:
    """The text with each unit tied to its number, and feet to inches, so that no unit stands alone on a line."""
    return _DAY.sub(TIED, _FEET_AND_INCHES.sub(TIED, _UNIT.sub(TIED, text)))


def capital(text: str) -> str:
    """The text with a capital first letter, unless it begins with a symbol (`d/b`, `l_u`) or a name in backticks."""
    word = _FIRST_WORD.match(text)
    if word and word[0].isalpha() and (len(word[0]) > 1 or word[0] == "a"):
        return text[:1].upper() + text[1:]
    return text


def sentence(text: str) -> str:
    """The text as a sentence; nothing stays nothing."""
    return ended(capital(text.strip()))


def ended(text: str) -> str:
    """The text with a stop at its end. For one that begins with a name, whose letters are not ours to change."""
    return text if not text or text.endswith((".", "!", "?", "…", ":")) else f"{text}."


def place(where: str) -> str:
    """Where a check looks, short: `at 5 ft`, `0 in to 14 ft`, `span 0 in to 14 ft`."""
    line = " ".join(where.split())
    if found := _PLACE.fullmatch(line):
        return f"{found[1] or ''}{found[2]} to {found[3]}"
    return f"at {line}" if line[:1].isdigit() and " to " not in line else line


def without_fields(text: str) -> str:
    """The text without names of fields and brackets of tables, which mean nothing to whoever saws and drills."""
    return _TABLE.sub(r"\1", _FIELD.sub("", text))


def short_title(title: str) -> str:
    """A title in one line for a head or a foot: a long one would push off the page what stands beside it."""
    line = " ".join(title.split())
    return line if len(line) <= _TITLE else line[: _TITLE - 1].rstrip() + "…"
