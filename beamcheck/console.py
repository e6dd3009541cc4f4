"""The console: text out in any encoding and through any pipe, errors in plain words, and what the exit status says."""

from __future__ import annotations

import gc
import os
import sys
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from shutil import get_terminal_size
from threading import Event, Thread
from typing import TYPE_CHECKING, Any, NamedTuple, NoReturn, TextIO

import click

from .errors import BeamcheckError, nearest
from .lettering import for_console, legible

if TYPE_CHECKING:
    from .checks.core.result import JobResult

FAULT, BAD_INPUT, STOPPED = 1, 2, 130
SECONDS = 0.3  # processor time for what answers do, beside the verdicts; what is not tried by then is not shown
STATUS = {"passes": 0, "refer": 3, "fails": 4}
EXIT_STATUS = """\b
Exit status:
  0  every piece passes
  3  refer: nothing fails, but an engineer or a grader has to decide something
  4  at least one piece fails
  2  bad input or usage, or a file that could not be read or written
  1  a fault in whatcarries itself: no verdict was reached
130  stopped from the keyboard"""
RECHECK = {"same": 0, "changed results": 3, "changed inputs": 3, "tampered": 4}
RECHECK_STATUS = """\b
Exit status (it says nothing about the verdict, which the report names):
  0  same: the same job, the same results, no sign of a change after writing
  3  changed inputs or results: an engineer has to look at them
  4  tampered: a sheet or result was changed after it was written
  2  bad input or usage, or a file that carries no job or result
  1  a fault in whatcarries itself
130  stopped from the keyboard"""
TABLE_STATUS = """\b
Exit status:
  0  an answer was worked out, which is no verdict
  2  bad input or usage, or a file that could not be written
  1  a fault in whatcarries itself
130  stopped from the keyboard"""


class Checked(NamedTuple):
    """A result, and the same one as it is shown."""

    result: JobResult
    shown: JobResult


class StoppedAt(KeyboardInterrupt):
    """Stopped from the keyboard; the text says in the middle of what."""


def say(text: str, *, error: bool = False) -> None:
    """Write a text to the console. A reader that has gone away (`| head`) is no fault; a full disk is.

    Raises OSError if standard output cannot be written.
    """
    stream = sys.stderr if error else sys.stdout
    if stream is None:  # started without a console
        return
    try:
        stream.write(for_console(text, stream.encoding))
        stream.flush()
    except OSError as problem:
        _let_go(stream)
        if not error and not isinstance(problem, BrokenPipeError):
            raise OSError(problem.errno, problem.strerror, "standard output") from None


COLOR = click.option(
    "--color", type=click.Choice(["auto", "always", "never"]), default="auto", show_default=True,
    help="Color of signs and verdict; auto: on a terminal, unless NO_COLOR is set.",
)  # fmt: skip


def colored(choice: str) -> bool:
    """Whether standard output gets color."""
    if choice != "auto":
        return choice == "always"
    if os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb" or sys.stdout is None:
        return False
    return sys.stdout.isatty()


def width() -> int:
    """Columns of the window; those of a page where there is none."""
    return get_terminal_size((80, 24)).columns


def checked(path: str, *, units: str | None = None, what_ifs: bool = False, look: bool = True) -> Checked:
    """A job file checked while somebody waits: verdicts first, then what answers do, as far as the time goes.

    With `look` the second result says what answers do; the first, which files are made of, is the same on each machine.
    """
    from .api import check_file, looked_ahead
    from .checks.pieces import Memory

    with waiting(f"checking {path}") as shown:
        memory = Memory(before_question=shown.question)
        memory.before_each = lambda name: shown.piece(name, memory.pieces)
        result = check_file(path, units=units, what_ifs=what_ifs, memory=memory)
        return Checked(result, looked_ahead(result, memory, seconds=SECONDS) if look and not what_ifs else result)


def answer(result: JobResult, source: str, color: str) -> None:
    """Say the short answer."""
    from .sheet.terminal.look import painted
    from .sheet.terminal.short import short_text

    text = short_text(result, width=width(), source=source)
    say(painted(text) if colored(color) else text)


class Shown:
    """What is being done, for the line that shows it."""

    def __init__(self, what: str) -> None:
        self.what = what
        self.now = ""
        self._met: set[str] = set()

    def __str__(self) -> str:
        return " ".join(legible(f"{self.what}{self.now}").split())

    def piece(self, name: str, of: int) -> None:
        """A piece is going to be worked out."""
        self._met.add(name)
        if not self.now.startswith(", question"):
            self.now = f", piece {min(len(self._met), of)} of {of}: {name}"

    def question(self, number: int, of: int) -> None:
        """A question is going to be answered for a try."""
        self.now = f", question {number} of {of}: what answers do"


@contextmanager
def waiting(what: str) -> Iterator[Shown]:
    """After half a second one line on standard error with what is done and for how long; wiped when it is over.

    On a terminal only. What it shows can be told while it waits; after a stop from the keyboard it stays to be read.
    """
    shown = Shown(what)
    if sys.stderr is None or not sys.stderr.isatty():
        try:
            yield shown
        except KeyboardInterrupt:
            raise StoppedAt(str(shown)) from None
        return
    over = Event()

    def show() -> None:
        if over.wait(0.5):
            return
        from rich.console import Console
        from rich.progress import Progress, TextColumn, TimeElapsedColumn

        columns = (TextColumn("{task.description}", markup=False), TimeElapsedColumn())
        with Progress(*columns, console=Console(stderr=True), transient=True) as line:
            task = line.add_task(str(shown), total=None)
            while not over.wait(0.1):
                line.update(task, description=str(shown))

    thread = Thread(target=show, daemon=True)
    thread.start()
    try:
        yield shown
    except KeyboardInterrupt:
        raise StoppedAt(str(shown)) from None
    finally:
        over.set()
        thread.join()


def _let_go(stream: TextIO) -> None:
    """Send what is left in the stream nowhere, or Python would complain about it at the end."""
    with suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)


def progress(text: str) -> None:
    """Tell somebody who waits at a terminal what is being done; nothing where standard error is no terminal."""
    if sys.stderr is not None and sys.stderr.isatty():
        say(f"{' '.join(legible(text).split())} ...\n", error=True)


class Doors(click.Group):
    """A group of commands that says what is wrong in plain words and ends with a status that means something."""

    def main(self, *args: Any, **kwargs: Any) -> NoReturn:
        """Run, and end the program; never with a traceback."""
        before = gc.get_threshold()
        alone = _start_light()
        kwargs["standalone_mode"] = False
        run = super().main
        status = _status(lambda: run(*args, **kwargs))
        if alone:
            gc.set_threshold(*before)  # whoever called this from a program of its own goes on living
            gc.freeze()  # all goes with the program: nothing is gained by looking it through for circles first
        sys.exit(status)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command of that name, or an error that offers the nearest."""
        name = args[0]
        if not name.startswith("-") and self.get_command(ctx, name) is None:
            if name.casefold().endswith(".toml"):
                ctx.fail(f"{name} is a job file and no command: did you mean `{ctx.command_path} check {name}`?")
            ctx.fail(f"there is no command {name!r}; {nearest(name, self.list_commands(ctx))}")
        return super().resolve_command(ctx, args)


def _start_light() -> bool:
    """Settings of a program that lives half a second; left alone inside a longer-lived one that has numpy loaded."""
    if "numpy" in sys.modules:
        return False
    # frames here are small: waking a thread for each solve costs more than it saves
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    gc.set_threshold(200_000, 20, 20)  # nearly all that is made lives to the end: looking through it is wasted
    return True


def _status(run: Callable[[], Any]) -> int:
    try:
        return int(run() or 0)
    except StoppedAt as stop:
        return _wrong(f"stopped while {stop}: nothing was decided, nothing written", STOPPED)
    except (click.Abort, KeyboardInterrupt):
        return _wrong("stopped: nothing was decided, nothing written", STOPPED)
    except click.UsageError as error:
        command = error.ctx.command_path if error.ctx else "whatcarries"
        return _wrong(f"{error.format_message()}\n`{command} --help` says what can be given.")
    except click.ClickException as error:
        return _wrong(error.format_message())
    except BeamcheckError as error:
        return _wrong(str(error))
    except OSError as error:
        return _wrong(": ".join(str(part) for part in (error.filename, error.strerror or error) if part))
    except Exception as error:
        place = traceback.extract_tb(error.__traceback__)[-1]
        where = f"{os.path.basename(place.filename)}, line {place.lineno}"
        said = f"{type(error).__name__}: {error} ({where})"
        return _wrong(
            f"this is a fault in whatcarries itself; no verdict was reached. Please report it:\n{said}", FAULT
        )


def _wrong(text: str, status: int = BAD_INPUT) -> int:
    say(f"whatcarries: {legible(text).replace(chr(13), ' ')}\n", error=True)
    return status


def amount(kind: str) -> Callable[[click.Context, click.Parameter, str | None], str | None]:
    """A callback for an option that takes a quantity: it is read, so that a slip is told with the option's name.

    The text goes on as it is. A slip raises click.BadParameter.
    """

    def one(_: click.Context, __: click.Parameter, value: str | None) -> str | None:
        if value is not None:
            _read(value, kind)
        return value

    return one


def amounts(kind: str) -> Callable[[click.Context, click.Parameter, tuple[str, ...]], tuple[str, ...]]:
    """The same for an option that may be given again and again."""

    def each(_: click.Context, __: click.Parameter, values: tuple[str, ...]) -> tuple[str, ...]:
        for value in values:
            _read(value, kind)
        return values

    return each


def reasons(_: click.Context, __: click.Parameter, values: tuple[str, ...]) -> dict[str, str]:
    """A callback for an option that says why figures are meant: FIELD=REASON, again and again."""
    found = {}
    for value in values:
        field, equals, why = value.partition("=")
        if not equals:
            raise click.BadParameter(f"{value!r} is not of the form FIELD=REASON, such as 'at=niche, 13 in wide'")
        found[field.strip()] = why.strip().strip('"')
    return found


def _read(value: str, kind: str) -> None:
    from .units import read

    try:
        read(value, kind)
    except BeamcheckError as error:
        raise click.BadParameter(str(error)) from None
