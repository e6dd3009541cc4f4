"""Asking at a terminal: a line out, a line in; what is no answer is said, and asked again."""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import TypeVar

from ..console import say
from ..errors import BeamcheckError, JobError

T = TypeVar("T")
STOP = ("q", "quit", "stop")


class Stopped(Exception):
    """Somebody has had enough, or there is nobody any more."""


def at_a_terminal() -> bool:
    """Whether somebody sits there."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))


def line_of(prompt: str) -> str:
    """A line that somebody types. Raises Stopped if it is `q`, or there are no more lines."""
    say(prompt)
    typed = "" if sys.stdin is None else sys.stdin.readline()
    if not typed:
        say("\n")
        raise Stopped
    text = typed.strip()
    if text.casefold() in STOP:
        raise Stopped
    return text


def asked(prompt: str, read: Callable[[str], T]) -> T:
    """What is typed, read; asked again until it can be."""
    while True:
        text = line_of(prompt)
        try:
            return read(text)
        except BeamcheckError as error:
            say(f"  {in_short(error)}\n")


def in_short(error: BeamcheckError) -> str:
    """What was wrong, without the name of the file that everybody knows."""
    return "; ".join(problem.text for problem in error.problems) if isinstance(error, JobError) else str(error)
