"""Texts on their way to typst: on one line, with room to break long words, code and symbols apart."""

from __future__ import annotations

import re
from typing import Any

from ..document.prose import tied
from ..document.symbols import IN_TEXT, lettered
from .typefaces import Printable, printable

Data = dict[str, Any]
LONGEST_WORD, LONGEST_IN_CELL, LONGEST_IN_CODE = 40, 18, 48  # letters, after which a word may be broken
NOT_TEXT = frozenset(("math", "anchor", "to", "svg"))
MAY_BREAK = "\u200b"
_STEP = re.compile(r"[._](?=\w)")
_SPACES = re.compile(r"[ \t\r\n]+")  # not those that tie
_CODE_OR_SYMBOL = re.compile(rf"`([^`]+)`|{IN_TEXT}")


def prose(text: str, longest: int = LONGEST_WORD) -> list[Any]:
    """Text in pieces: plain, code (what stood in backticks), or a symbol such as F_b with its subscript."""
    line = tied(_SPACES.sub(" ", text.strip()))
    made: list[Any] = []
    end = 0
    for found in _CODE_OR_SYMBOL.finditer(line):
        code, symbol = found[1], None
        if code is None and (symbol := lettered(found[0])) is None:
            continue
        made.append(printable(line[end : found.start()], longest))
        made.append({"base": symbol[0], "sub": printable(symbol[1])} if symbol else {"code": _in_steps(code, longest)})
        end = found.end()
    made.append(printable(line[end:], longest))
    return [piece for piece in made if piece != ""]


def _in_steps(code: str, longest: int) -> Printable:
    """A path that is long for its cell breaks between its steps."""
    if len(code) <= longest:
        return printable(code, longest)
    return Printable(MAY_BREAK.join(printable(step, longest) for step in _STEP.sub(r"\g<0>\n", code).split("\n")))


def spoken(math: str) -> str:
    """An equation in one line for readers who do not see it: `f_b = frac(M, S) = ... psi`."""
    words = re.sub(r'"|&|\\\s|\b(?:thin|thick|med|quad)\b', " ", math).replace(" times ", " × ")
    return " ".join(words.split())


def cell_text(text: str) -> str:
    """Text of a narrow cell."""
    return printable(tied(" ".join(text.split())), LONGEST_IN_CELL)


def cut(text: str, letters: int) -> str:
    """On one line, at most so many letters."""
    line = " ".join(text.split())
    return line if len(line) <= letters else line[: letters - 1].rstrip() + "…"


def shown_text(value: Any) -> Any:
    """Every text made printable: the last door, so that none is forgotten."""
    if isinstance(value, str):
        return printable(value, LONGEST_WORD)
    if isinstance(value, list):
        return [shown_text(each) for each in value]
    if isinstance(value, dict):
        return {key: one if key in NOT_TEXT else shown_text(one) for key, one in value.items()}
    return value
