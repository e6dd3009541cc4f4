"""Jobs and drawings broken in ways that people, editors and mischief break them; the same seed breaks them the same."""

from __future__ import annotations

import re
from pathlib import Path
from random import Random

HERE = Path(__file__).resolve().parents[1]
LARGEST = 9_000  # bytes of a job to begin from
QUICK = ("[[bracket]]", "[[trim]]", "[[rafter]]", "[site]")  # jobs without these are checked soon
ONE_IN = 40  # jobs with them, and jobs that are broken in one place only
ODD = (
    '"', "'", '"""', "'''", "[", "]", "[[", "]]", "{", "}", "=", "#", ",", ".", "\\", "\n", "\r\n", "\t", "\0",
    "\x1b[31m", "\x7f", "\u202e", "\u2066", "\u200b", "\ufeff", "\u0430", "\u05d0\u0627", "\U0001f600",
    "e\u0301", "\ud7ff", "“", "−", "½", "′", "nan", "inf", "-inf", "1e999", "-0", "0", "1e-300", "9" * 40,
    "true", "1979-05-27", "0x1F", " ft", " psf", " in", " lb", "ft in", "1/0 in", "-12 ft", "1e5 psf", "=cmd()",
    "@x", "<script>", "&amp;", "{{ 7*7 }}", "%s", "../..", "a" * 300, " " * 300, "(" * 60, "[" * 60, "a." * 40,
    '"' * 41, "name = ", "at = ", "[job]\n", "[[beam]]\n", "on = ",
)  # fmt: skip
FIGURE = re.compile(r"\d+(?:\.\d+)?")
TEXT = re.compile(r'"[^"\n]*"')
FIGURES = (
    "0",
    "-1",
    "1e9",
    "1e-9",
    "0.0000001",
    "99999999999",
    "1e400",
    "7/0",
    "1/3",
    "13 6",
    "nan",
    "3,5",
    "1,000,000",
    "",
)


def bases() -> tuple[list[str], list[str]]:
    """The jobs to begin from, those that are checked soon and all: examples and trials that are not large."""
    files = [*HERE.parent.glob("worked_examples/*.toml"), *HERE.glob("trials/*/*.toml")]
    texts = [file.read_text(encoding="utf-8") for file in sorted(files)]
    every = [text for text in texts if len(text) < LARGEST]
    return [text for text in every if not any(word in text for word in QUICK) and len(text) < LARGEST // 4], every


def broken_job(jobs: tuple[list[str], list[str]], chance: Random) -> str:
    """One broken job: mostly a small one, in several places."""
    quick, every = jobs
    if chance.randrange(ONE_IN):
        text = broken(chance.choice(quick), chance)
        return text if chance.randrange(4) == 0 else broken(text, chance)
    return broken(chance.choice(every), chance)


def broken(text: str, chance: Random) -> str:
    """The job with one to four things wrong in it (or by chance none)."""
    for _ in range(chance.choice((1, 1, 1, 2, 3, 4))):
        text = chance.choice(WAYS)(text, chance)
    return text


def _odd(text: str, chance: Random) -> str:
    place = chance.randrange(len(text) + 1)
    return text[:place] + chance.choice(ODD) + text[place:]


def _cut(text: str, chance: Random) -> str:
    place = chance.randrange(len(text) + 1)
    return text[:place] + text[place + chance.choice((1, 1, 2, 8, 60, 600)) :]


def _line_gone(text: str, chance: Random) -> str:
    lines = text.split("\n")
    del lines[chance.randrange(len(lines))]
    return "\n".join(lines)


def _line_twice(text: str, chance: Random) -> str:
    lines = text.split("\n")
    lines.insert(chance.randrange(len(lines)), chance.choice(lines))
    return "\n".join(lines)


def _lines_swapped(text: str, chance: Random) -> str:
    lines = text.split("\n")
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]
    return "\n".join(lines)


def _figure(text: str, chance: Random) -> str:
    found = list(FIGURE.finditer(text))
    if not found:
        return text
    one = chance.choice(found)
    return text[: one.start()] + chance.choice(FIGURES) + text[one.end() :]


def _texts_swapped(text: str, chance: Random) -> str:
    found = list(TEXT.finditer(text))
    if len(found) < 2:
        return text
    one, other = sorted(chance.sample(found, 2), key=lambda match: match.start())
    between = text[one.end() : other.start()]
    return text[: one.start()] + other.group() + between + one.group() + text[other.end() :]


def _text_odd(text: str, chance: Random) -> str:
    found = list(TEXT.finditer(text))
    if not found:
        return text
    one = chance.choice(found)
    return text[: one.start()] + f'"{chance.choice(ODD)}"' + text[one.end() :]


def _part_twice(text: str, chance: Random) -> str:
    parts = re.split(r"(?m)^(?=\[)", text)
    parts.insert(chance.randrange(len(parts) + 1), chance.choice(parts))
    return "".join(parts)


def _part_gone(text: str, chance: Random) -> str:
    parts = re.split(r"(?m)^(?=\[)", text)
    if len(parts) > 1:
        del parts[chance.randrange(len(parts))]
    return "".join(parts)


WAYS = (
    _odd, _odd, _cut, _line_gone, _line_gone, _line_twice, _lines_swapped, _figure, _figure, _figure, _texts_swapped,
    _text_odd, _text_odd, _part_twice, _part_gone,
)  # fmt: skip
