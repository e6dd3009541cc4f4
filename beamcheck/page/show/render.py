"""Templates filled in: every text from a job is printed as text; the sign of a verdict."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ...checks.core.result import CAUTION, SIGN_OFF
from ...lettering import legible
from . import rows

if TYPE_CHECKING:
    from jinja2 import Environment

_DECIMAL = re.compile(r"(?<![\d.,])(\d+\.\d+) in\b")
ROOM = Path(__file__).resolve().parent.parent


def rendered(template: str, **values: Any) -> str:
    """A page, or a part of one."""
    return _environment().get_template(f"{template}.jinja").render(**values)


def as_on_a_tape(text: str) -> str:
    """Decimals of an inch as fractions, where a tape has them: '0.3125 in' is 5/16 in."""

    def fraction(found: re.Match[str]) -> str:
        whole, part = divmod(Fraction(found[1]), 1)
        return f"{whole} {part} in".removeprefix("0 ") if part.denominator in (2, 4, 8, 16, 32) else found[0]

    return _DECIMAL.sub(fraction, text)


@lru_cache(maxsize=1)
def _environment() -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined
    from markupsafe import Markup

    made = Environment(
        loader=FileSystemLoader(ROOM / "templates"), autoescape=True, undefined=StrictUndefined, trim_blocks=True,
        lstrip_blocks=True, finalize=lambda value: legible(value) if type(value) is str else value,
    )  # fmt: skip
    made.filters["drawing"] = Markup  # our own SVG, which escapes what it letters
    made.filters["tape"] = as_on_a_tape
    made.globals.update(
        sign=lambda verdict: Markup(sign(verdict)), caution=CAUTION, sign_off=SIGN_OFF, words=rows.WORDS
    )
    return made


_BOX = '<svg class="sign" viewBox="0 0 26 22" aria-hidden="true" fill="none" stroke="currentColor" stroke-width="3.4">'
_ASKED = (
    '<text x="18.6" y="21.4" font-size="16.5" font-weight="700" text-anchor="middle" fill="currentColor" '
    'stroke="none">?</text>'
)
_DRAWN = {
    "passes": '<path d="M5 21V5M21 21V5M1 4.6H25"/>',
    "fails": '<path d="M5 21V6M21 21V6M1.5 1.8L13 14.2 24.5 1.8"/>',
    "refer": f'<path d="M5 21V5M1 4.6H25"/>{_ASKED}',
}


def sign(verdict: str) -> str:
    """An `<svg>` element; the word stands beside it."""
    return f"{_BOX}{_DRAWN[verdict]}</svg>"
