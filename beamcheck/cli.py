"""The command line: `beamcheck check`, `beamcheck span`, `beamcheck table`, `beamcheck fasteners`, `beamcheck schema`.

Only click is loaded here; each command loads what it needs when it runs.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from contextlib import suppress
from shutil import get_terminal_size
from typing import TYPE_CHECKING, Any

import click

from .console import EXIT_STATUS, STATUS, TABLE_STATUS, Doors, amount, amounts, say

if TYPE_CHECKING:
    from .checks.result import JobResult

Command = Callable[..., Any]
FINISHES = ("plaster", "gypsum board", "masonry veneer", "flexible", "none")
MOISTURE = click.Choice(["dry", "green", "wet"])
TOP_HELD = "'full length', 'ends only' or a spacing of braces"
FAMILIES = click.Choice(["bolt", "lag screw", "wood screw", "nail"])
GOALS = click.Choice(["fewest", "smallest"])
SYSTEMS = click.Choice(["US", "SI"])


def _say_version(ctx: click.Context, _: click.Parameter, wanted: bool) -> None:
    if wanted:
        from .version import VERSION

        say(f"beamcheck {VERSION}\n")
        ctx.exit()


@click.group(
    cls=Doors,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog=EXIT_STATUS,
)
@click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_say_version,
    help="Say the version and stop.",
)
@click.pass_context
def main(ctx: click.Context) -> int:
    """Check reclaimed and sawn timber beams, posts, rafters and ties before they are covered up.

    A calculation aid, not an engineered design: a licensed engineer must review and sign off before anyone relies on
    it.
    """
    if ctx.invoked_subcommand is None:
        say(ctx.get_help() + "\n", error=True)
        return 2
    return 0


def _outputs(command: Command) -> Command:
    """The options that say where a result goes."""
    for option in (
        click.option("--overwrite", is_flag=True, help="Replace files that beamcheck did not make."),
        click.option("--json", "json_", metavar="OUT.json|-", help="Write the result as JSON; - for standard output."),
        click.option("--sheet", metavar="OUT.html", help="Write the calc sheet, one HTML file."),
    ):
        command = option(command)
    return command


@main.command("check", short_help="Check every piece of a job file.", epilog=EXIT_STATUS)
@click.argument("job", metavar="JOB.toml")
@_outputs
@click.option(
    "--units", type=SYSTEMS, metavar="US|SI", help="Units of the words; otherwise those that the job asks for."
)
def _check(job: str, sheet: str | None, json_: str | None, overwrite: bool, units: str | None) -> int:
    """Check every piece of a job file.

    The verdict comes first, then why, then each piece with all its checks, and what would make a failing one pass.
    Nothing is written unless the job could be read and checked.
    """
    _check_targets([("the job file", job), ("--sheet", sheet), ("--json", json_)], overwrite)
    from .api import check_file

    return _deliver(check_file(job, units=units), sheet, json_, overwrite)


def _loads(command: Command) -> Command:
    """The options that say what is carried, and what must not crack."""
    for option in (
        click.option("--service", type=click.Choice(["floor", "roof"]), default="floor", show_default=True),
        click.option("--finish", type=click.Choice(FINISHES), required=True, help="What is attached to it and cracks."),
        click.option("--roof-live", callback=amount("load"), metavar="LOAD", help="People and material on a roof."),
        click.option("--snow", callback=amount("load"), metavar="LOAD", help="Snow on the roof, per area of plan."),
        click.option("--live", callback=amount("load"), metavar="LOAD", help="People, furniture, storage: '40 psf'."),
        click.option("--dead", callback=amount("load"), metavar="LOAD", help="Weight that stays, such as '10 psf'."),
    ):
        command = option(command)
    return command


@main.command("span", short_help="Is a stick enough for a span, or how far does it go?", epilog=EXIT_STATUS)
@click.argument("size")
@click.option("--species", required=True, metavar="NAME", help="A species of the tables, or 'unknown'.")
@click.option("--grade", required=True, metavar="NAME", help="A grade of the tables, or 'unstamped'.")
@_loads
@click.option("--spacing", callback=amount("length"), metavar="LENGTH", help="Middle to middle of repeated beams.")
@click.option("--width", callback=amount("length"), metavar="LENGTH", help="Width of floor or roof that it carries.")
@click.option(
    "--length", callback=amount("length"), metavar="LENGTH", help="The span. Left out: the longest is sought."
)
@click.option("--seat", callback=amount("length"), metavar="LENGTH", help="Length of each seat along the beam.")
@click.option("--moisture", type=MOISTURE, help="Left out: green, the safe side.")
@click.option("--grade-from", type=click.Choice(["stamp", "certificate", "engineer", "assumed"]), help="Who says so.")
@click.option("--evidence", default="", metavar="TEXT", help="What the stamp, certificate or letter says.")
@click.option("--agency", default="", metavar="TEXT", help="Grading agency on the stamp.")
@click.option("--top-held", metavar="HOW", help=f"{TOP_HELD}. Left out: ends only.")
@click.option("--members", type=int, default=1, metavar="N", help="How many side by side share the load by a deck.")
@click.option("--shared-by", default="", metavar="TEXT", help="That deck, such as '3/4 in boards, nailed'.")
@_outputs
@click.option("--units", type=SYSTEMS, metavar="US|SI", default="US", show_default=True, help="Units of the words.")
def _span(size: str, sheet: str | None, json_: str | None, overwrite: bool, **question: Any) -> int:
    """Is this stick enough for that span, or how far does it go? One beam on two supports, without a job file.

    \b
    beamcheck span 2x10 --species Hem-Fir --grade No.2 --dead "10 psf" --live "40 psf" \\
        --spacing "16 in" --finish "gypsum board" --length "12 ft"

    What is not said is taken on the safe side and listed. Nobody answers for the supports here, so the answer is never
    a plain yes.
    """
    _check_targets([("--sheet", sheet), ("--json", json_)], overwrite)
    from .sweep.question import span_question

    species, grade = question.pop("species"), question.pop("grade")
    return _deliver(span_question(size, species, grade, **question), sheet, json_, overwrite)


@main.command("table", short_help="Longest spans by species, grade, size and spacing.", epilog=TABLE_STATUS)
@click.option("--species", multiple=True, required=True, metavar="NAME", help="Species; again for each.")
@click.option("--grade", "grades", multiple=True, required=True, metavar="NAME", help="Grade; again for each.")
@click.option(
    "--size", "sizes", multiple=True, required=True, metavar="SIZE", help="Size, such as 2x10; again for each."
)
@click.option(
    "--spacing",
    "spacings",
    multiple=True,
    required=True,
    callback=amounts("length"),
    metavar="LENGTH",
    help="Middle to middle, such as '16 in'; again for each.",
)
@_loads
@click.option("--moisture", type=MOISTURE, required=True, help="Dry: metered at 19 % or less, and staying so.")
@click.option("--top-held", required=True, metavar="HOW", help=f"{TOP_HELD}.")
@click.option("--shared-by", default="", metavar="TEXT", help="A deck by which three or more share the load.")
@click.option("--seat", callback=amount("length"), metavar="LENGTH", help="Length of each seat. Left out: the least.")
@click.option("--at-most", callback=amount("length"), metavar="LENGTH", help="Where the search ends. Left out: 40 ft.")
@click.option("--title", default="", metavar="TEXT", help="The heading.")
@click.option("--csv", metavar="OUT.csv|-", help="Write CSV; - for standard output, as when no file is named.")
@click.option("--html", metavar="OUT.html", help="Write one HTML page.")
@click.option("--overwrite", is_flag=True, help="Replace files that beamcheck did not make.")
def _table(csv: str | None, html: str | None, overwrite: bool, **asked: Any) -> int:
    """The longest span of every species, grade, size and spacing, for loads per area.

    A table is arithmetic and no verdict: it holds only under the conditions that it prints.
    """
    _check_targets([("--csv", csv), ("--html", html)], overwrite)
    from .sweep.tables import span_table

    table = span_table(**{name: value for name, value in asked.items() if value is not None})
    makers = {csv: table.csv, html: table.html}
    files = [(path, makers[path]()) for path in (csv, html) if path is not None and path != "-"]
    places = "".join(f"Written: {path}\n" for path in _write(files, overwrite))
    say(table.csv() if csv == "-" or not files else places)
    return 0


@main.command("fasteners", short_help="How many of which fasteners would hold an end.", epilog=TABLE_STATUS)
@click.argument("job", metavar="JOB.toml")
@click.argument("group", metavar="GROUP")
@click.option("--family", type=FAMILIES, default="bolt", show_default=True, help="What to fasten with.")
@click.option("--goal", type=GOALS, default="fewest", show_default=True, help="Fewest pieces, or smallest size.")
def _fasteners(job: str, group: str, family: Any, goal: Any) -> int:
    """Propose fasteners and their places for the [[anchor]] GROUP of a job: what works with the wood there is.

    A proposal is arithmetic and no verdict: write it into the job file and check that.
    """
    from .model.reader import read_job
    from .sweep.anchor_sizing import fasteners_for, in_words

    say(in_words(group, fasteners_for(read_job(job), group, family, goal=goal)))
    return 0


@main.command("schema", short_help="JSON Schema of the job file, or of the result.")
@click.argument("what", type=click.Choice(["job", "result"]))
def _schema(what: str) -> int:
    """Print the JSON Schema of a job file, or of the JSON that --json writes."""
    import json

    if what == "job":
        from .model.schema import job_schema as schema
    else:
        from .sheet.as_json import result_schema as schema
    say(json.dumps(schema(), indent=2) + "\n")
    return 0


def _deliver(result: JobResult, sheet: str | None, json_: str | None, overwrite: bool) -> int:
    """Make everything first, then write, then speak; the status is the verdict's."""
    made: list[tuple[str, str]] = []
    text = ""
    if sheet is not None:
        from .api import sheet_html

        made.append((sheet, sheet_html(result)))
    if json_ is not None:
        from .sheet.as_json import result_json

        text = result_json(result)
        if json_ != "-":
            made.append((json_, text))
    written = _write(made, overwrite)
    if json_ == "-":
        say(text)
        return STATUS[result.verdict]
    from .sheet.terminal import WIDEST, plain_text

    columns = get_terminal_size((WIDEST, 24)).columns
    places = "".join(f"Written: {path}\n" for path in written)
    say(plain_text(result, width=columns, assumptions=True) + (f"\n{places}" if places else ""))
    return STATUS[result.verdict]


def _write(made: list[tuple[str, str]], overwrite: bool) -> list[str]:
    from .errors import BeamcheckError

    written: list[str] = []
    for path, text in made:
        from .api import write_output

        try:
            write_output(text, path, overwrite=overwrite)
        except BeamcheckError as error:
            before = f" ({', '.join(written)} was written)" if written else ""
            raise click.ClickException(f"{error}{before}") from None
        written.append(path)
    return written


def _check_targets(named: list[tuple[str, str | None]], overwrite: bool) -> None:
    """Before any work: no output may be the job file, nor two the same, nor a file of somebody else."""
    may_speak = (("--json", "-"), ("--csv", "-"))
    paths = [(what, path) for what, path in named if path is not None and (what, path) not in may_speak]
    for index, (what, path) in enumerate(paths):
        if path == "-" and what.startswith("--"):
            raise click.UsageError(f"{what} needs the name of a file: a page is not for standard output")
        for other, earlier in paths[:index]:
            if _same(path, earlier):
                raise click.UsageError(f"{what} {path} is the same file as {other}: give it another name")
        if what.startswith("--"):
            from .api import check_target

            check_target(path, overwrite=overwrite)


def _same(one: str, other: str) -> bool:
    with suppress(OSError):
        return os.path.samefile(one, other)
    return os.path.realpath(one) == os.path.realpath(other)
