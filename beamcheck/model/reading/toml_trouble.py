"""A carpenter's words for what the TOML reader finds wrong."""

from __future__ import annotations

import re
import tomllib

_CURLY = re.compile("[“”„‟‘’‚]")
_PAIR = re.compile(r"^\s*([\w.\-\"']+)\s*=\s*(.*?)\s*(?:#.*)?$")
_BEGINS = re.compile(r"\s*[\w.\-\"']+\s*=")
_STRING = re.compile(r"\"(?:\\.|[^\"\\])*\"|'[^']*'")
_BARE_PAIR = re.compile(r"([\w.\-]+)\s*=\s*([^\s,\[\]{}\"'=#][^,\[\]{}\"=#]*)")
MOST_OF_A_LINE = 1_000  # letters: what is guessed of a longer one is of no use, and takes its time
LIST_OPEN = "a list [ ] is not closed, or a comma between two of its entries is missing here or on the line before"
IN_WORDS = 'write feet and inches as words, such as "7 ft 6 1/2 in", so that no quote mark stands inside'


def begins_value(line_text: str) -> bool:
    """Whether a line begins a `name = value`: what is left open at the end of a file began there."""
    return bool(_BEGINS.match(line_text))


def toml_trouble(message: str, line_text: str) -> str:
    """The TOML reader's message in plain words, with the corrected words where they can be guessed."""
    message, line_text = message[:MOST_OF_A_LINE], line_text[:MOST_OF_A_LINE]
    if any(sign in message for sign in ("Expected newline", "Invalid value", "Unclosed", "Unterminated")):
        if _CURLY.search(_STRING.sub("", line_text)):
            return 'curly quotes, as a word processor makes them, are not read: type straight quotes, such as "12 ft"'
        if bare := _unquoted(line_text):
            return bare
    if line_text.lstrip().startswith("[") and ("Expected newline" in message or "Expected ']" in message):
        return "a table's name stands between two brackets, such as [job], or twice two, such as [[beam]]"
    if "Expected newline" in message or "Invalid value" in message:
        return _bad_value(line_text)
    if "Unclosed inline table" in message or ("Invalid initial character" in message and "{" in line_text):
        return (
            "an entry in braces { } must stand on one line, with a comma between its items, none after the last, "
            "and a closing brace"
        )
    if "Unclosed array" in message:
        return LIST_OPEN
    if "Unterminated string" in message or "Illegal character '\\n'" in message:
        return 'a text in quotes is not closed: it must end with the quote it began with, such as "12 ft"'
    if "Unescaped" in message:
        return "a backslash has a meaning of its own in \"...\": leave it out, or put the text in single quotes '...'"
    if "Expected '='" in message:
        return 'not of the form name = value, such as height = "8 ft" (an equals sign, no colon; no space in the name)'
    if "Cannot overwrite a value" in message or "Duplicate inline table key" in message:
        return "a name is given twice in the same table: delete one of them"
    if twice := re.search(r"Cannot declare \((.*?),?\) twice", message):
        name = ".".join(re.findall(r"'([^']*)'", twice[1]))
        each = "" if name == "job" else f", or write [[{name}]] above each piece"
        return f"the table [{name}] stands here a second time: put its lines together{each}"
    if "Cannot mutate immutable" in message:
        return "this table was given on one line already: write all of it there, or all of it as tables of its own"
    if "Illegal character" in message or "Invalid statement" in message or "Invalid initial" in message:
        return 'this line cannot be read: a job file has lines such as [[beam]] and name = "B1"'
    return f"{message[:1].lower()}{message[1:]}"


def _unquoted(line_text: str) -> str | None:
    """The first value of a line that should stand in quotes."""
    for key, value in _BARE_PAIR.findall(_STRING.sub('""', line_text)):
        try:
            tomllib.loads(f"x = {value}")
        except (ValueError, RecursionError):
            if "'" in value:
                return f"put quantities and text in quotes; {IN_WORDS}"
            return f'put quantities and text in quotes: {key} = "{value.strip()}"'
    return None


def _is_right_by_itself(line_text: str) -> bool:
    try:
        tomllib.loads(line_text)
    except (ValueError, RecursionError):
        return False
    return True


def _bad_value(line_text: str) -> str:
    pair = _PAIR.match(line_text)
    if _is_right_by_itself(line_text):
        return "this line is right by itself, so a list [ ] above it is not closed"
    if pair is None:
        return 'put quantities and text in quotes, such as "12 ft"'
    if not pair[2]:
        return f'{pair[1]} has no value: write {pair[1]} = "..."'
    if pair[2][0] == "[":
        return LIST_OPEN
    if pair[2][0] in "'\"":
        return f"the text ended at its second quote and something follows; {IN_WORDS}"
    if pair[2].count('"') % 2:
        return f"put quantities and text in quotes; {IN_WORDS}"
    return f'the value of {pair[1]} cannot be read: put quantities and text in quotes, such as "12 ft"'
