"""Signs, bars and color of a console. Nothing is told by color: without it the same words stand there."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from decimal import ROUND_HALF_UP, Decimal
from textwrap import wrap

from ...checks.core.result import Verdict
from ...checks.core.summary import quantity
from ...lettering import legible

NARROWEST, USUAL, WIDEST = 40, 80, 100  # columns
SIGN: dict[Verdict, str] = {"passes": "ok", "fails": "NO", "refer": "?"}
CAUTION = (
    "A calculation aid, not an engineered design. Local codes decide. A licensed engineer must review and sign before "
    "anyone relies on it or covers the work."
)
SIGN_OFF = "Engineer ______________________  license no. ____________  date ____________"
WIDE = 72  # columns from which nothing needs to be broken up
BAR = 10  # letters of a bar up to its limit

_GREEN, _YELLOW, _BOLD, _NO, _PLAIN = "\x1b[32m", "\x1b[33m", "\x1b[1m", "\x1b[7;31m", "\x1b[0m"
_HEAD = re.compile(r"^(FAILS|NO)\b", re.MULTILINE)
_OPEN = re.compile(r"^(REFER\b|\?\d*)", re.MULTILINE)
_GOOD = re.compile(r"^(PASSES|ok)\b", re.MULTILINE)
_BARE = re.compile(r"(^| )[\d.,/]*\d$")  # a number whose unit, or the rest of whose size, is yet to come
_TYPED = re.compile(r"(whatcarries [a-z].*?|--(?:why|all|meant|top-held|moisture|members)\b)(?=   |$)", re.MULTILINE)


def painted(text: str) -> str:
    """The text with color on signs, verdict words and what is to be typed: 16 colors, no ground but behind a NO."""
    for pattern, color in ((_HEAD, _NO), (_OPEN, _YELLOW), (_GOOD, _GREEN), (_TYPED, _BOLD)):
        text = pattern.sub(lambda match, color=color: f"{color}{match[0]}{_PLAIN}", text)  # type: ignore[misc]
    return text


def columns(given: int) -> int:
    """A width that can be read."""
    return min(max(given, NARROWEST), WIDEST)


def line(text: str) -> str:
    """The text on one line, in ASCII where it can be, with nothing in it that steers a terminal."""
    plain = " ".join(legible(text).split())
    return plain.replace("–", "-").replace("×", "x").replace("’", "'")


def hung(first: str, text: str, width: int, most: int = 0) -> list[str]:
    """A paragraph behind its sign and name; at most so many lines, where that is given."""
    indent = " " * min(len(first), width // 3)
    lines = wrap(line(text), width, initial_indent=first if len(first) <= width // 3 else indent,
                 subsequent_indent=indent, break_on_hyphens=False) or [first.rstrip()]  # fmt: skip
    if len(first) > width // 3:
        lines = [first.rstrip(), *lines]
    if most and len(lines) > most and width >= WIDE:
        kept = lines[:most]
        kept[-1] = cut_short(f"{kept[-1]} {lines[most].strip()}", width)
        return kept
    return lines


def cut_short(text: str, room: int) -> str:
    """What of a text so many letters hold, up to the end of a word, and before a size that would be cut."""
    if len(text) <= room:
        return text
    end = text.rfind(" ", 0, room - 3)
    while (kept := text[: max(end, 0)].rstrip()) and (
        _BARE.search(kept) or (kept.endswith(" ft") and text[end + 1 : end + 2].isdigit())
    ):
        end = kept.rfind(" ")
    return f"{(kept or text[: room - 4]).rstrip(' ,;:')} ..."


def ratio_text(ratio: float | None) -> str:
    """Two decimals, half up; three near 1, so that no rounded 1.00 stands beside a verdict that it contradicts."""
    if ratio is None:
        return ""
    if not math.isfinite(ratio):
        return quantity(ratio, "ratio", None)
    exact = Decimal(repr(ratio))
    step = Decimal("0.001") if Decimal("0.98") <= exact <= Decimal("1.02") else Decimal("0.01")
    return f"{exact.quantize(step, ROUND_HALF_UP):,}"


def bar(ratio: float | None) -> str:
    """A bar whose limit is a stroke; what is beyond it stands behind."""
    if ratio is None or not ratio >= 0.0:
        return ""
    full = round(min(ratio, 1.0) * BAR)
    beyond = round((min(ratio, 1.5) - 1.0) * BAR) if ratio > 1.0 else 0
    return f"{'#' * full:<{BAR}}|{'#' * max(beyond, 1 if ratio > 1.0 else 0)}"


def closing(width: int) -> list[str]:
    """Caution and sign-off."""
    sign_off = SIGN_OFF if width >= len(SIGN_OFF) else "Engineer ________________ date ________"
    return [*wrap(CAUTION, width), sign_off]


def listed(names: Iterable[str], most: int = 4) -> str:
    """'B1 B2 B3', and how many more."""
    every = [line(name) for name in names]
    return " ".join(every[:most]) + (f" and {len(every) - most} more" if len(every) > most else "")
