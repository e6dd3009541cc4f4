"""The command line: one function a command, `check` and those around it.

Only click is loaded here; each command loads what it needs when it runs.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from functools import partial
from typing import TYPE_CHECKING, Any, NamedTuple

import click

from .commands.ask import ask
from .commands.last import keep_question
from .commands.new import new
from .console import (
    COLOR,
    EXIT_STATUS,
    RECHECK,
    RECHECK_STATUS,
    STATUS,
    TABLE_STATUS,
    Doors,
    amount,
    amounts,
    checked,
    colored,
    progress,
    reasons,
    say,
    waiting,
    width,
)
from .page.command import page

if TYPE_CHECKING:
    from .checks.core.result import JobResult

Command = Callable[..., Any]
Maker = Callable[["JobResult"], str | bytes]
FINISHES = ("plaster", "gypsum board", "masonry veneer", "flexible", "none")
MOISTURE = click.Choice(["dry", "green", "wet"])
TOP_HELD = "'full length', 'ends only' or a spacing of braces"
FAMILIES = click.Choice(["bolt", "lag screw", "wood screw", "nail"])
GOALS = click.Choice(["fewest", "smallest"])
SYSTEMS = click.Choice(["US", "SI"])
SIZES_OF_BRACKETS = click.Choice(["least thickness", "largest projection", "largest load", "what would carry"])
DRAWN_IN = click.Choice(["in", "mm", "cm"])
OUTLINE_STATUS = """\b
Exit status:
  0  the outline was read, which is no verdict
  2  bad input or usage: no outline of a bracket could be read
  1  a fault in whatcarries itself
130  stopped from the keyboard"""

TEMPLATE_STATUS = """\b
Exit status:
  0  written, and the piece passes
  3  written, but an engineer or a grader has to decide about the piece or about what bears it
  4  written, but the piece fails: nothing is to be built from it
  2  bad input or usage, or a file that could not be read or written
  1  a fault in whatcarries itself
130  stopped from the keyboard"""


def _say_version(ctx: click.Context, _: click.Parameter, wanted: bool) -> None:
    if wanted:
        from .version import VERSION

        say(f"whatcarries {VERSION}\n")
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
    # no plugin that happens to be installed changes how a job file is read; and none need be looked for
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    if ctx.invoked_subcommand is None:
        say(ctx.get_help() + "\n", error=True)
        return 2
    return 0


def _outputs(command: Command) -> Command:
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


@main.command("check", short_help="Check every piece of a job file.", epilog=EXIT_STATUS)
@click.argument("job", metavar="JOB.toml")
@_outputs
@click.option(
    "--units", type=SYSTEMS, metavar="US|SI", help="Units of the words; otherwise those that the job asks for."
)
@click.option("--checks-csv", metavar="OUT.csv", help="Write one row a check, as CSV.")
@click.option("--hardware-csv", metavar="OUT.csv", help="Write the hardware list of all anchors and fixings, as CSV.")
@click.option("--xlsx", metavar="OUT.xlsx", help="Write both lists as a spreadsheet.")
@click.option("--shop", metavar="OUT.html|OUT.pdf", help="Write shop sheets, one page a piece, in large type.")
@click.option("--answers", is_flag=True, help="Find out what each plausible answer to each open question does.")
@click.option("--all", "all_", is_flag=True, help="Everything: each piece with all its checks; the short answer last.")
@click.option("--why", metavar="PIECE", help="One piece: what it was taken for, its checks, what would make it hold.")
@COLOR
def _check(
    job: str, sheet: str | None, pdf: str | None, json_: str | None, overwrite: bool, units: str | None,
    checks_csv: str | None, hardware_csv: str | None, xlsx: str | None, shop: str | None, answers: bool,
    all_steps: bool, all_: bool, why: str | None, color: str,
) -> int:  # fmt: skip
    """Check every piece of a job file.

    The short answer is the verdict, what fails and what cures it, what to find out, and what passes. Nothing is written
    unless the job could be read and checked.
    """
    lists = [("--pdf", pdf), ("--checks-csv", checks_csv), ("--hardware-csv", hardware_csv), ("--xlsx", xlsx)]
    lists.append(("--shop", shop))
    _check_targets([("the job file", job), ("--sheet", sheet), ("--json", json_), *lists], overwrite)
    more = [*_calc_sheets(sheet, pdf, all_steps), *_lists(checks_csv, hardware_csv, xlsx), *_shop(shop)]
    found = checked(job, units=units, what_ifs=answers, look=why is None and json_ != "-")
    return _deliver(found.result, json_, overwrite, more, Shown(job, all_, why, color), found.shown)


def _calc_sheets(sheet: str | None, pdf: str | None, all_steps: bool) -> Iterator[tuple[str, Maker]]:
    """The calc sheets that were asked for: page and PDF."""
    from .api import sheet_html, sheet_pdf

    if sheet is not None:
        yield sheet, partial(sheet_html, all_steps=all_steps)
    if pdf is not None:
        yield pdf, partial(sheet_pdf, all_steps=all_steps)


def _shop(shop: str | None) -> Iterator[tuple[str, Maker]]:
    """The shop sheets, if they were asked for."""
    if shop is not None:
        if not shop.casefold().endswith((".html", ".htm", ".pdf")):
            raise click.UsageError(f"--shop {shop}: the name must end in .html or .pdf")
        from .api import shop_sheets

        yield shop, lambda result: shop_sheets(result, shop)


def _lists(checks: str | None, hardware: str | None, xlsx: str | None) -> Iterator[tuple[str, Maker]]:
    """The flat lists that were asked for: where each goes, and what makes it."""
    if checks is not None:
        from .sheet.lists.csv_out import checks_csv

        yield checks, checks_csv
    if hardware is not None:
        from .sheet.lists.csv_out import hardware_csv

        yield hardware, hardware_csv
    if xlsx is not None:
        from .sheet.lists.xlsx_out import result_xlsx

        yield xlsx, result_xlsx


@main.command("recheck", short_help="Check a sheet again, and look for changes.", epilog=RECHECK_STATUS)
@click.argument("sheet", metavar="SHEET")
@click.option("--job", metavar="JOB.toml", help="The job file as it is now; left out: the one that the sheet carries.")
def _recheck(sheet: str, job: str | None) -> int:
    """Read SHEET back (HTML, PDF or JSON), work it out with this version, and report every difference.

    It says whether the sheet prints what it carries, what differs between its job and the one given, and which results
    this version works out otherwise. Nothing is written.
    """
    from .sheet.recheck.recheck import recheck

    found = recheck(sheet, job, tell=progress)
    say(str(found))
    return RECHECK[found.state]


@main.command("compare", short_help="What changed between two sheets or job files.", epilog=RECHECK_STATUS)
@click.argument("first", metavar="FIRST")
@click.argument("second", metavar="SECOND")
def _compare(first: str, second: str) -> int:
    """Report every difference between FIRST and SECOND: what changed since the engineer signed.

    Each is a job file, an HTML or PDF sheet, or a JSON result. Jobs are compared field by field, results check by
    check. Nothing is written.
    """
    from .sheet.recheck.compare import compare_files

    found = compare_files(first, second, tell=progress)
    say(str(found))
    return RECHECK[found.state]


def _loads(command: Command) -> Command:
    """The options that say what is carried, and what must not crack."""
    for option in (
        click.option(
            "--meant", multiple=True, callback=reasons, metavar="FIELD=REASON", help="Why an odd figure is right."
        ),
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
@click.option("--all", "all_", is_flag=True, help="Everything: all checks; the short answer last.")
@COLOR
def _span(
    size: str, sheet: str | None, pdf: str | None, json_: str | None, overwrite: bool, all_steps: bool, all_: bool,
    color: str, **question: Any,
) -> int:  # fmt: skip
    """Is this stick enough for that span, or how far does it go? One beam on two supports, without a job file.

    \b
    whatcarries span 2x10 --species Hem-Fir --grade No.2 --dead "10 psf" --live "40 psf" \\
        --spacing "16 in" --finish "gypsum board" --length "12 ft"

    What is not said is taken on the safe side and listed. Nobody answers for the supports here, so the answer is never
    a plain yes.
    """
    _check_targets([("--sheet", sheet), ("--pdf", pdf), ("--json", json_)], overwrite)
    from .sizing.span import span_question

    species, grade = question.pop("species"), question.pop("grade")
    with waiting(f"checking {size}"):
        result = span_question(size, species, grade, **question)
    keep_question(result.job_text)
    files = [*_calc_sheets(sheet, pdf, all_steps)]
    return _deliver(result, json_, overwrite, files, Shown(all=all_, color=color))


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
@click.option("--overwrite", is_flag=True, help="Replace files that whatcarries did not make.")
def _table(csv: str | None, html: str | None, overwrite: bool, **asked: Any) -> int:
    """The longest span of every species, grade, size and spacing, for loads per area.

    A table is arithmetic and no verdict: it holds only under the conditions that it prints.
    """
    _check_targets([("--csv", csv), ("--html", html)], overwrite)
    from .sizing.span_tables import span_table

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
    from .model.reading.reader import read_job
    from .sizing.anchors import fasteners_for, in_words

    say(in_words(group, fasteners_for(read_job(job), group, family, goal=goal)))
    return 0


@main.command(
    "bracket", short_help="How thick, how far out, how much, or what would carry: one bracket.", epilog=TABLE_STATUS
)
@click.argument("job", metavar="JOB.toml")
@click.argument("name", metavar="NAME")
@click.option("--goal", type=SIZES_OF_BRACKETS, default="least thickness", show_default=True, help="What is sought.")
def _bracket(job: str, name: str, goal: Any) -> int:
    """Seek a size for the [[bracket]] NAME of a job, or how much of its loads it carries, all else as it is.

    The answer and the size beyond it are checked with the whole job. `what would carry` looks for a profile, grain,
    thickness, rows or hidden steel that carries what the job puts on it. The answer is arithmetic: write it into the
    job file and check that.
    """
    from .model.reading.reader import read_job

    if goal == "what would carry":
        from .sizing import bracket_wish

        def told(words: str) -> None:
            click.echo(f"looking at {words}", err=True)

        say(bracket_wish.in_words(bracket_wish.what_would_carry(read_job(job), name, told)))
        return 0
    from .sizing.brackets import in_words, size_bracket

    say(in_words(size_bracket(read_job(job), name, goal)))
    return 0


@main.command("outline", short_help="Outline of a bracket from a DXF or SVG drawing.", epilog=OUTLINE_STATUS)
@click.argument("drawing", metavar="FILE")
@click.option("--units", type=DRAWN_IN, metavar="in|mm|cm", help="Unit of a drawing that does not say its own.")
def _outline(drawing: str, units: str | None) -> int:
    """Print the [bracket.shape] table of a job file from the side view in FILE, a DXF or SVG drawing.

    The drawing holds one closed outline, the wall on its left and the top edge above. Thickness and grain, which it
    does not tell, are to be filled in.
    """
    from .checks.core.result import CAUTION
    from .model.outlines.files import read_outline

    say(f"# {CAUTION}\n{read_outline(drawing, units).toml()}")
    return 0


@main.command("template", short_help="Full-size template of a bracket or a hole pattern.", epilog=TEMPLATE_STATUS)
@click.argument("job", metavar="JOB.toml")
@click.argument("piece", metavar="PIECE")
@click.option("--svg", metavar="OUT.svg", help="Write an SVG drawing at full size.")
@click.option("--dxf", metavar="OUT.dxf", help="Write a DXF drawing, layers CUT, DRILL, GRAIN, NOTES.")
@click.option("--pdf", metavar="OUT.pdf", help="Write full-size tiles for a printer.")
@click.option("--paper", type=click.Choice(["letter", "a4", "roll24", "roll36"]), default="letter", show_default=True,
              help="Of the tiles; roll24 and roll36 are rolls 24 and 36 in wide.")  # fmt: skip
@click.option("--units", type=click.Choice(["in", "mm"]), default="in", show_default=True, help="Of the drawings.")
@click.option("--overwrite", is_flag=True, help="Replace files made elsewhere, or edited since they were made.")
def _template(
    job: str, piece: str, svg: str | None, dxf: str | None, pdf: str | None, paper: str, units: str, overwrite: bool
) -> int:
    """Write the full-size template of PIECE, a [[bracket]] or [[anchor]] of the job: outline, holes, grain.

    The job is checked first and the template carries the verdict. Print the tiles at 100 %, no fitting, and lay a rule
    on the ruler that every page has.
    """
    named = [("--svg", svg), ("--dxf", dxf), ("--pdf", pdf)]
    paths = [path for _, path in named if path is not None]
    if not paths:
        raise click.UsageError("name a file to write: --svg, --dxf or --pdf")
    for what, path in named:
        if path is not None and not path.casefold().endswith(f".{what[2:]}"):
            raise click.UsageError(f"{what} {path}: the name must end in .{what[2:]}")
    _check_targets([("the job file", job), *named], overwrite)
    from .api import check_file, template_files

    result = check_file(job)
    made, stop = template_files(result, piece, paths, paper=paper, units=units)
    written = _write(made, overwrite)
    verdict = next(one.verdict for one in result.pieces if one.name == piece)
    from .sheet.document.standing_words import STOP

    said = f"{STOP}: " if stop else ""
    say(f"{said}{piece} {verdict}\n{result.caution}\n{result.sign_off}\n")
    say("".join(f"Written: {path}\n" for path in written))
    return STATUS["refer" if stop and verdict == "passes" else verdict]


@main.command("schema", short_help="JSON Schema of the job file, or of the result.")
@click.argument("what", type=click.Choice(["job", "result"]))
def _schema(what: str) -> int:
    """Print the JSON Schema of a job file, or of the JSON that --json writes."""
    import json

    if what == "job":
        from .model.reading.schema import job_schema as schema
    else:
        from .sheet.record.as_json import result_schema as schema
    say(json.dumps(schema(), indent=2) + "\n")
    return 0


@main.command("register", short_help="Every formula and every table, with sources.", epilog=TABLE_STATUS)
@click.argument("name", metavar="[NAME]", required=False)
@click.option("--html", metavar="OUT.html", help="Write the whole book as one HTML page.")
@click.option("--pdf", metavar="OUT.pdf", help="Write the whole book as a PDF.")
@click.option("--overwrite", is_flag=True, help="Replace files that whatcarries did not make.")
def _register(name: str | None, html: str | None, pdf: str | None, overwrite: bool) -> int:
    """The book of formulas and tables: symbol, equation, clause, how it is known, an example; each table's sources.

    With the NAME of a formula or a table all that is known of that one.
    """
    if name is not None and (html or pdf):
        raise click.UsageError("a file holds the whole book: leave the name out")
    _check_targets([("--html", html), ("--pdf", pdf)], overwrite)
    made: list[tuple[str, str | bytes]] = []
    if html is not None:
        from .sheet.register.page import register_html

        made.append((html, register_html()))
    if pdf is not None:
        from .sheet.register.pages import register_pdf

        made.append((pdf, register_pdf()))
    if made:
        say("".join(f"Written: {path}\n" for path in _write(made, overwrite)))
        return 0
    from .sheet.register.text import register_text

    say(register_text(name))
    return 0


class Shown(NamedTuple):
    """What is said of a result: the job file as it was named, everything or one piece, and the color."""

    source: str = ""
    all: bool = False
    why: str | None = None
    color: str = "auto"


def _deliver(
    result: JobResult, json_: str | None, overwrite: bool, more: Sequence[tuple[str, Maker]], shown: Shown,
    told: JobResult | None = None,
) -> int:  # fmt: skip
    """Make everything first, then write, then speak, of `told` where it knows more; the status is the verdict's."""
    said = _said(told or result, shown)  # a piece that is not there is told before anything is written
    made: list[tuple[str, str | bytes]] = []
    for path, make in more:
        progress(f"setting {path}")
        made.append((path, make(result)))
    text = ""
    if json_ is not None:
        from .sheet.record.as_json import result_json

        text = result_json(result)
        if json_ != "-":
            made.append((json_, text))
    written = _write(made, overwrite)
    if json_ == "-":
        say(text)
        return STATUS[result.verdict]
    places = "".join(f"Written: {path}\n" for path in written)
    say(f"{places}\n" if places else "")
    say(said)
    return STATUS[result.verdict]


def _said(result: JobResult, shown: Shown) -> str:
    """The words for a console."""
    from .sheet.terminal.look import painted
    from .sheet.terminal.short import short_text

    columns = width()
    if shown.why is not None:
        from .sheet.terminal.one_piece import why_text

        text = why_text(result, shown.why, width=columns)
    elif result.job_name == "span question":
        from .sheet.terminal.span import span_text

        text = span_text(result, width=columns)
    else:
        text = short_text(result, width=columns, source=shown.source)
    text = painted(text) if colored(shown.color) else text
    if not shown.all:
        return text
    from .sheet.terminal.everything import WIDEST, plain_text

    return f"{plain_text(result, width=columns or WIDEST, assumptions=True)}\n{'=' * min(columns, 80)}\n\n{text}"


def _write(made: Sequence[tuple[str, str | bytes]], overwrite: bool) -> list[str]:
    if made:
        from .api import write_outputs

        write_outputs(made, overwrite=overwrite)
    return [path for path, _ in made]


ENDINGS = {"--pdf": ".pdf"}  # a PDF under the name of a page would take the page's place


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
        if (ending := ENDINGS.get(what)) and not path.casefold().endswith(ending):
            raise click.UsageError(f"{what} {path}: the name must end in {ending}")
        if what.startswith("--"):
            from .api import check_target

            check_target(path, overwrite=overwrite)


def _same(one: str, other: str) -> bool:
    with suppress(OSError):
        return os.path.samefile(one, other)
    return os.path.realpath(one) == os.path.realpath(other)


main.add_command(page)
main.add_command(new)
main.add_command(ask)


@main.command("survey", short_help="The form for a survey of an old timber, blank or filled.")
@click.argument("out", metavar="OUT.pdf|OUT.html")
@click.option("--job", metavar="JOB.toml", help="Fill it with a survey of this job; left out: the blank form.")
@click.option("--stock", default="", metavar="NAME", help="The surveyed stock, where the job has several.")
@click.option(
    "--paper", type=click.Choice(["us-letter", "a4"]), default="us-letter", show_default=True, help="Of a PDF."
)
@click.option("--overwrite", is_flag=True, help="Replace the output even if this tool did not make it.")
def survey(out: str, job: str | None, stock: str, paper: str, overwrite: bool) -> int:
    """Write the survey form to OUT: a PDF to print and write on, or a page that a phone can fill in."""
    from .api import write_survey

    _check_targets([("the job file", job), ("the form", out)], overwrite)
    say(f"{write_survey(out, job=job, stock=stock, paper=paper, overwrite=overwrite)}\n")
    return 0
