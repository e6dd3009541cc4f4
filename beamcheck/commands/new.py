"""`new`: a job file from a ready situation, asked for at a terminal or answered by flags, and checked at once."""

from __future__ import annotations

import json
import os
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from ..console import COLOR, EXIT_STATUS, STATUS, answer, checked, say
from .talk import Stopped, asked, at_a_terminal

if TYPE_CHECKING:
    from ..situations.situation import Ask, Situation

SCHEMA_FILE = "whatcarries-job.schema.json"
NEW_STATUS = EXIT_STATUS.replace("Exit status:", "Exit status, of the job as it was written:")


@click.command(
    "new",
    short_help="A job file from a few questions.",
    epilog=NEW_STATUS,
    context_settings={"ignore_unknown_options": True},
)
@click.argument("words", metavar="[SITUATION] [FILE.toml] [--ANSWER VALUE ...]", nargs=-1, type=click.UNPROCESSED)
@click.option("--list", "list_", is_flag=True, help="List the situations, or the questions of SITUATION, and stop.")
@click.option("--ask/--no-ask", "ask", default=None, help="Ask what no flag answers; by default at a terminal only.")
@click.option("--print", "print_", is_flag=True, help="Print the job file and write nothing.")
@click.option("--from-last", is_flag=True, help="Make the last span question of this folder's user a job file.")
@click.option("--title", default="", metavar="TEXT", help="The title of the job.")
@COLOR
def new(
    words: Sequence[str], list_: bool, ask: bool | None, print_: bool, from_last: bool, title: str, color: str
) -> int:
    """Write a job file for one of the ready situations: 7 to 14 questions in words of the trade.

    \b
    whatcarries new                      picks the situation, and asks
    whatcarries new porch-beam           asks, and writes porch-beam.toml
    whatcarries new porch-beam my.toml --clear "9 6" --size "6x8 dressed" --roof-width 5
                                         the rest stays open, and is asked for by `ask`

    Lengths as they are spoken: 13 6, 13'-6, 162. Enter: not known yet, which becomes an open question.
    """
    from ..situations.situation import job_text, situation

    positional, given = _split(words)
    if list_:
        say(_listed(positional))
        return 0
    if from_last:
        return _from_last(positional, print_, color)
    talking = at_a_terminal() if ask is None else ask
    files = [word for word in positional if word.casefold().endswith(".toml")]
    names = [word for word in positional if word not in files]
    if len(files) > 1 or len(names) > 1:
        raise click.UsageError(f"one situation and one file: {' '.join(positional)!r} is more")
    try:
        of = situation(names[0]) if names else _picked(talking)
        target = Path(files[0] if files else f"{of.name}.toml")
        if not print_ and os.path.lexists(target):
            raise click.UsageError(f"{target} is there already: name another file, nothing was asked or written")
        answers = _answers(of, given, talking)
    except Stopped:
        say("Stopped: nothing was written.\n", error=True)
        return 130
    return _written(job_text(of, answers, title=title), target, print_, color)


def _split(words: Sequence[str]) -> tuple[list[str], dict[str, str]]:
    """Words that stand alone, and `--key value` or `--key=value`."""
    alone: list[str] = []
    given: dict[str, str] = {}
    rest = list(words)
    while rest:
        word = rest.pop(0)
        if not word.startswith("--"):
            alone.append(word)
            continue
        key, equals, value = word[2:].partition("=")
        if not equals:
            if not rest:
                raise click.UsageError(f'{word} needs a value, such as {word} "13 6"; `--list` shows what can be said')
            value = rest.pop(0)
        given[key] = value
    return alone, given


def _listed(names: Sequence[str]) -> str:
    from ..situations.situation import situation, situations

    if not names:
        width = max(len(one.name) for one in situations())
        lines = [f"{one.name:<{width}}  {one.fits}" for one in situations()]
        return "\n".join([*lines, "", "The questions of one: whatcarries new SITUATION --list", ""])
    of = situation(names[0])
    lines = [f"{of.title[:1].upper()}{of.title[1:]}. {of.fits}", f"Bring: {of.bring}.", ""]
    for one in of.asks:
        lines.append(f"--{one.option}  {one.ask}{'  (needed)' if one.needed else ''}")
        if one.choices:
            lines.append("    " + " | ".join(choice.says for choice in one.choices))
        elif one.ordinary:
            lines.append(f"    such as {one.ordinary}")
    return "\n".join(lines) + "\n"


def _picked(talking: bool) -> Situation:
    from ..situations.situation import situation, situations

    if not talking:
        raise click.UsageError("name a situation, such as porch-beam; `whatcarries new --list` shows them all")
    every = situations()
    half = (len(every) + 1) // 2
    say("What is it?\n")
    for left in range(half):
        pair = [f"{number + 1:>2}  {every[number].title}" for number in (left, left + half) if number < len(every)]
        say("".join(f"{text:<40}" for text in pair).rstrip() + "\n")

    def read(text: str) -> Situation:
        if text.isdecimal() and 1 <= int(text) <= len(every):
            return every[int(text) - 1]
        return situation(text)

    return asked("> ", read)


def _answers(of: Situation, given: dict[str, str], talking: bool) -> dict[str, Any]:
    """What the flags say, and what is typed; a flag that is no answer is told with its name."""
    from ..situations.situation import BadAnswer, read_answer

    answers: dict[str, Any] = {}
    for key, value in given.items():
        one = of.ask(key)
        try:
            answers[one.key] = read_answer(one, value)
        except BadAnswer as error:
            raise click.BadParameter(str(error), param_hint=f"--{one.option}") from None
    if talking:
        say(f"{of.title[:1].upper()}{of.title[1:]}. Bring: {of.bring}.\n")
        say("Enter: not known yet    q: stop, nothing written\n")
        for one in of.asks:
            if one.key not in answers and one in of.asked(answers):
                answers[one.key] = _typed(one)
    return answers


def _typed(one: Ask) -> Any:
    from ..situations.situation import read_answer

    for number, choice in enumerate(one.choices, start=1):
        if number == 1:
            say(f"{one.ask}?\n")
        say(f"    {number}  {choice.says}\n")
    such = f" (such as {one.ordinary})" if one.ordinary and not one.choices and one.kind != "yes-no" else ""
    prompt = "> " if one.choices else f"{one.ask}{' (y/n)' if one.kind == 'yes-no' else such}: "
    found = asked(prompt, lambda text: (text, read_answer(one, text)))
    text, value = found
    if one.kind in ("feet", "inches", "gap") and value is not None and value != text:
        say(f"    {value}\n")
    return value


def _written(text: str, target: Path, print_: bool, color: str) -> int:
    """Write the job, the schema beside it, and say what a check finds."""
    from ..api import check_text
    from ..jobfile.keep import save_new
    from ..model.reading.reader import read_job_text

    if print_:
        say(text)
        return STATUS[check_text(text, str(target)).verdict]
    read_job_text(text, str(target))  # a job that cannot be read is not written
    save_new(target, text)
    _schema_beside(target)
    say(f"written   {target}, {len(text.splitlines())} lines, each with a word on why it is there\n\n")
    found = checked(str(target))
    answer(found.shown, str(target), color)
    return STATUS[found.result.verdict]


def _schema_beside(target: Path) -> None:
    """The schema that the first line names, for editors; a file of that name is left as it is."""
    from ..model.reading.schema import job_schema
    from ..sheet.write import write_atomically

    place = target.parent / SCHEMA_FILE
    if not os.path.lexists(place):
        write_atomically(place, json.dumps(job_schema(), indent=1) + "\n")


def _from_last(positional: Sequence[str], print_: bool, color: str) -> int:
    """The last span question as a job file."""
    from .last import last_question

    text = last_question()
    if text is None:
        raise click.UsageError("no span question was asked yet: whatcarries span 2x10 ... first")
    target = Path(positional[0] if positional else "span.toml")
    if not print_ and os.path.lexists(target):
        raise click.UsageError(f"{target} is there already: name another file, nothing was written")
    return _written(f"#:schema ./{SCHEMA_FILE}\n{text}", target, print_, color)
