"""Where a result goes: the options, what is looked at before any work, and what is written and said after it."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from functools import partial
from typing import TYPE_CHECKING, Any, NamedTuple

import click

from ..console import (
    STATUS,
    colored,
    progress,
    say,
    width,
)

if TYPE_CHECKING:
    from ..checks.core.result import JobResult

Command = Callable[..., Any]
Content = str | bytes | Iterable[bytes]
Maker = Callable[["JobResult"], Content]
SYSTEMS = click.Choice(["US", "SI"])
ENDINGS = {"--pdf": ".pdf"}  # a PDF under the name of a page would take the page's place


def outputs(command: Command) -> Command:
    """The options that say where a result goes."""
    for option in (
        click.option(
            "--overwrite", is_flag=True, help="Replace files made elsewhere, or signed or edited since they were made."
        ),
        click.option("--all-steps", is_flag=True, help="With every derivation in the calc sheet."),
        click.option("--json", "json_", metavar="OUT.json|-", help="Write the result as JSON; - for standard output."),
        click.option("--pdf", metavar="OUT.pdf", help="Write the calc sheet, one PDF for paper and signature."),
        click.option("--sheet", metavar="OUT.html", help="Write the calc sheet, one HTML file."),
    ):
        command = option(command)
    return command


class Shown(NamedTuple):
    """What is said of a result: the job file as it was named, everything or one piece, the color, what answers do."""

    source: str = ""
    all: bool = False
    why: str | None = None
    color: str = "auto"
    answers: bool = False


def calc_sheets(sheet: str | None, pdf: str | None, all_steps: bool) -> Iterator[tuple[str, Maker]]:
    """The calc sheets that were asked for: page and PDF."""
    if sheet is not None:
        from ..sheet.html.render import render_pieces

        yield sheet, partial(render_pieces, all_steps=all_steps)
    if pdf is not None:
        from ..sheet.pdf.render import sheet_pdf_pieces

        yield pdf, partial(sheet_pdf_pieces, all_steps=all_steps)


def deliver(
    result: JobResult, json_: str | None, overwrite: bool, more: Sequence[tuple[str, Maker]], shown: Shown,
    told: JobResult | None = None,
) -> int:  # fmt: skip
    """Make everything first, then write, then speak, of `told` where it knows more; the status is the verdict's."""
    said = _said(told or result, shown)  # a piece that is not there is told before anything is written
    made: list[tuple[str, Content]] = []
    for path, make in more:
        progress(f"setting {path}")
        made.append((path, make(result)))
    if json_ is not None:
        from ..sheet.record.as_json import result_json_pieces

        pieces = result_json_pieces(result)
        if json_ != "-":
            made.append((json_, pieces))
    written = write(made, overwrite)
    if json_ == "-":
        say(b"".join(pieces).decode("ascii"))
        return STATUS[result.verdict]
    places = "".join(f"Written: {path}\n" for path in written)
    say(f"{places}\n" if places else "")
    say(said)
    return STATUS[result.verdict]


def _said(result: JobResult, shown: Shown) -> str:
    """The words for a console."""
    from ..sheet.terminal.look import painted
    from ..sheet.terminal.short import short_text

    columns = width()
    if shown.why is not None:
        from ..sheet.terminal.one_piece import why_text

        text = why_text(result, shown.why, width=columns)
    elif result.job_name == "span question":
        from ..sheet.terminal.span import span_text

        text = span_text(result, width=columns)
    else:
        text = short_text(result, width=columns, source=shown.source)
    text = painted(text) if colored(shown.color) else text
    if not shown.all and not shown.answers:
        return text
    from ..sheet.terminal.everything import WIDEST, plain_text, questions_text

    if not shown.all:
        asked = questions_text(result, width=columns or WIDEST)
        return f"{asked}\n{text}" if asked else text
    return f"{plain_text(result, width=columns or WIDEST, assumptions=True)}\n{'=' * min(columns, 80)}\n\n{text}"


def write(made: Sequence[tuple[str, Content]], overwrite: bool) -> list[str]:
    if made:
        from ..api import write_outputs

        write_outputs(made, overwrite=overwrite)
    return [path for path, _ in made]


def check_targets(named: list[tuple[str, str | None]], overwrite: bool) -> None:
    """Before any work: no output may be the job file, nor two the same, nor a file of somebody else."""
    may_speak = (("--json", "-"), ("--csv", "-"))
    paths = [(what, path) for what, path in named if path is not None and (what, path) not in may_speak]
    for index, (what, path) in enumerate(paths):
        if path == "-" and what.startswith("--"):
            raise click.UsageError(f"{what} needs the name of a file: a page is not for standard output")
        for other, earlier in paths[:index]:
            if _same(path, earlier):
                raise click.UsageError(f"{what} {path} is the same file as {other}: give it another name")
        if (ending := ENDINGS.get(what)) and not path.casefold().endswith(ending):
            raise click.UsageError(f"{what} {path}: the name must end in {ending}")
        if what.startswith("--"):
            from ..api import check_target

            check_target(path, overwrite=overwrite)


def _same(one: str, other: str) -> bool:
    with suppress(OSError):
        return os.path.samefile(one, other)
    return os.path.realpath(one) == os.path.realpath(other)
