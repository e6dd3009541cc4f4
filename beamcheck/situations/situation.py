"""A ready situation: when it fits, what to bring, its questions, and the text of the job that the answers make."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any, Literal, NamedTuple

from ..errors import BeamcheckError, UnknownName
from ..records import dataclass
from ..units import read
from ..values.loads import live_load
from ..values.lumber import read_size
from ..values.species import species_name
from .spoken import spoken_amount, spoken_length

HERE = Path(__file__).with_name("ready")
SHARED = "shared"  # questions that several situations ask alike
Kind = Literal[
    "feet", "inches", "gap", "load", "line", "force", "percent", "slope", "count", "size", "wood", "text", "choice",
    "yes-no",
]  # fmt: skip
UNITS: Mapping[str, tuple[str, str]] = {
    "load": ("load", "psf"), "line": ("load", "plf"), "force": ("force", "lb"), "percent": ("moisture", "%"),
    "slope": ("slope", ""),
}  # fmt: skip
UNKNOWN = ("", "?", "unknown", "not known", "not known yet", "don't know")
Answers = Mapping[str, Any]  # by the key of the question; what is left out, or None, is not known yet


class Wood(NamedTuple):
    """What a stamp or a seller says: species and grade."""

    species: str
    grade: str

    def __str__(self) -> str:
        return f"{self.species} {self.grade}"


class BadAnswer(BeamcheckError, ValueError):
    """What was said is no answer to this question; the text says what would be right."""


@dataclass(frozen=True)
class Choice:
    """One of the answers that can be picked: the words for it, and what it stands for."""

    says: str
    value: str


@dataclass(frozen=True)
class Ask:
    """One question of a situation, in words of the trade."""

    key: str
    ask: str
    kind: Kind
    needed: bool = False  # without it there is nothing to check; all else may be left open
    choices: tuple[Choice, ...] = ()
    ordinary: str = ""  # an everyday answer, as an example
    hint: str = ""  # how to look or measure, in words
    when: str = ""  # asked only where another question has an answer ('top_held'), or a certain one ('carries=floor')

    @property
    def option(self) -> str:
        """How a flag on the command line is called."""
        return self.key.replace("_", "-")


@dataclass(frozen=True)
class Situation:
    """A ready situation."""

    name: str
    title: str  # 'a beam that carries a porch roof'
    fits: str  # when to take it, in a sentence
    bring: str  # what to have at hand
    asks: tuple[Ask, ...]
    template: str

    def ask(self, key: str) -> Ask:
        """The question with that key, also as a flag writes it. Raises UnknownName if it asks no such thing."""
        wanted = key.replace("-", "_")
        for one in self.asks:
            if one.key == wanted:
                return one
        raise UnknownName(f"question of {self.name}", key, [one.option for one in self.asks])

    def asked(self, answers: Answers) -> tuple[Ask, ...]:
        """The questions that are asked after these answers."""
        return tuple(one for one in self.asks if _applies(one, answers))


def _applies(one: Ask, answers: Answers) -> bool:
    key, equals, wanted = one.when.partition("=")
    if not key:
        return True
    given = answers.get(key)
    return str(given) in wanted.split("|") if equals else given is not None


@cache
def situations() -> tuple[Situation, ...]:
    """All ready situations, in the order in which they are offered."""
    files = [path for path in HERE.glob("*.toml") if path.stem != SHARED]
    found = [(tomllib.loads(path.read_text(encoding="utf-8")), path.stem) for path in files]
    return tuple(_situation(name, data) for data, name in sorted(found, key=lambda one: (one[0]["place"], one[1])))


def situation(name: str) -> Situation:
    """The situation of that name. Raises UnknownName if there is none; the nearest is offered."""
    for one in situations():
        if one.name == name.strip().casefold():
            return one
    raise UnknownName("situation", name, [one.name for one in situations()])


def _situation(name: str, data: Mapping[str, Any]) -> Situation:
    shared = _shared()
    asks = []
    for one in data["ask"]:
        given = {"key": one} if isinstance(one, str) else one
        of = {**shared.get(given.get("as", given["key"]), {}), **given}
        choices = tuple(Choice(says, value) for says, value in of.get("choices", {}).items())
        asks.append(
            Ask(of["key"], of["ask"], of["kind"], of.get("needed", False), choices, of.get("ordinary", ""),
                of.get("hint", ""), of.get("when", ""))
        )  # fmt: skip
    return Situation(name, data["title"], data["fits"], data["bring"], tuple(asks), data["job"])


@cache
def _shared() -> Mapping[str, Any]:
    return tomllib.loads((HERE / f"{SHARED}.toml").read_text(encoding="utf-8"))


def read_answer(ask: Ask, said: str) -> Any:
    """What somebody says, as the job file writes it; None where it is not known yet.

    A choice is picked by its number, its words or its value.

    Raises BadAnswer if it is no answer; the text says what would be.
    """
    text = " ".join(said.split())
    if text.casefold() in UNKNOWN:
        if ask.needed:
            raise BadAnswer(
                "without this there is nothing to check" + (f"; such as {ask.ordinary}" if ask.ordinary else "")
            )
        return None
    try:
        return _read(ask, text)
    except BeamcheckError as error:
        raise BadAnswer(str(error)) from None


def _read(ask: Ask, text: str) -> Any:
    match ask.kind:
        case "feet" | "inches" | "gap":
            return spoken_length(text, feet=ask.kind == "feet", none=ask.kind == "gap")
        case "load" | "line" | "force" | "percent" | "slope":
            if ask.choices and (picked := _picked(ask, text)):
                text = picked
            kind, unit = UNITS[ask.kind]
            return spoken_amount(text, kind, unit) if unit else (read(text, kind), text)[1]
        case "count":
            if not text.isdecimal() or not 1 <= int(text) <= 1000:
                raise BadAnswer(f"{text!r} is no count: a whole number, such as {ask.ordinary or '3'}")
            return int(text)
        case "size":
            read_size(text)
            return text
        case "wood":
            return _wood(text)
        case "choice":
            if picked := _picked(ask, text):
                return picked
            listed = ", ".join(f"{number} {one.says}" for number, one in enumerate(ask.choices, start=1))
            raise BadAnswer(f"{text!r} is none of: {listed}")
        case "yes-no":
            if text.casefold() in ("y", "yes", "n", "no"):
                return text.casefold().startswith("y")
            raise BadAnswer(f"{text!r}: y or n")
        case _:
            return text


def _wood(text: str) -> Wood:
    """Species and grade in one line: the longest beginning that names a species, and the rest."""
    words = text.replace(",", " ").split()
    for count in range(len(words) - 1, 0, -1):
        try:
            return Wood(species_name(" ".join(words[:count])), " ".join(words[count:]))
        except UnknownName:
            continue
    name = species_name(text)  # says what is wrong with it
    raise BadAnswer(f"{name}, and which grade? Such as {name} No.2; where nobody knows: Enter")


def _picked(ask: Ask, text: str) -> str:
    if text.isdecimal() and 1 <= int(text) <= len(ask.choices):  # no load is so small that its number would be one
        return ask.choices[int(text) - 1].value
    for one in ask.choices:
        if text.casefold() in (one.says.casefold(), one.value.casefold()):
            return one.value
    return ""


def job_text(of: Situation, answers: Answers, *, title: str = "") -> str:
    """The job file that the answers make: every line that says something has a comment on why it is there.

    Its first line names the JSON Schema, so that editors complete and check it. What is not known yet is left out, or
    written on the safe side and marked, so that it becomes an open question.

    Raises BadAnswer if a question that is needed has no answer.
    """
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    given = {one.key: answers.get(one.key) if _applies(one, answers) else None for one in of.asks}
    missing = [one.option for one in of.asks if one.needed and _applies(one, answers) and given[one.key] is None]
    if missing:
        raise BadAnswer(f"{of.name}: not said: {', '.join(missing)}; without it there is nothing to check")
    jinja = Environment(
        loader=FileSystemLoader(HERE), undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True,
        keep_trailing_newline=True, autoescape=False,
        line_comment_prefix=None,
    )  # fmt: skip
    jinja.filters["q"] = quoted
    jinja.globals.update(
        plus=_plus,
        half=_half,
        live=_live,
        low=_low,
        places=_places,
        thin=_thin,
        title=title or f"{of.title[:1].upper()}{of.title[1:]}",
    )
    head = '{% import "parts.jinja" as parts with context %}\n'
    text = jinja.from_string(head + of.template).render(given)
    return "\n".join(_without_gaps([line.rstrip() for line in text.strip().splitlines()])) + "\n"


def _without_gaps(lines: list[str]) -> list[str]:
    """One empty line before a table or the words above it, none elsewhere."""
    said = [line for line in lines if line]
    made: list[str] = []
    for line, before in zip(said, ["", *said], strict=False):
        opens = line.startswith("[") or (line.startswith("# ") and not line.startswith("# A job file"))
        if opens and before and not before.startswith("#"):
            made.append("")
        made.append(line)
    return made


def quoted(value: Any) -> str:
    """A value as TOML writes it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    return (
        str(value)
        if isinstance(value, (int, float))
        else json.dumps(str(value), ensure_ascii=False).replace("\x7f", "\\u007f")
    )


def _plus(*lengths: str) -> str:
    """The sum of lengths, in feet and inches."""
    total = sum(read(one, "offset") for one in lengths)
    return (
        f"{total:.6g} in"
        if abs(total * 16.0 - round(total * 16.0)) > 1e-6
        else spoken_length(f"{total!r} in", feet=True)
    )


def _half(length: str) -> str:
    return f"{0.5 * read(length, 'length'):.6g} in"


def _low(height: str) -> str:
    """The lower screw of a bracket, 2 in above its foot."""
    return f"{read(height, 'length') - 2.0:.6g} in"


def _places(length: str, apart: str) -> list[str]:
    """Studs behind a ledger, from 6 in beyond its left end."""
    end, step = read(length, "length"), read(apart, "length")
    count = int((end - 12.0) / step)
    return [f"{6.0 + step * index:.6g} in" for index in range(count + 1)]


def _thin(size: str) -> str:
    """The thickness of boards of that size."""
    found = read_size(size)
    return f"{min(found.b, found.d):.6g} in"


def _live(use: str) -> str:
    """The live load of a use, psf."""
    return f"{live_load(use, least=True).value * 144.0:.4g} psf"
