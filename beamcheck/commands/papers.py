"""`schema`, `register` and `survey`: what can be printed without an answer to a job."""

from __future__ import annotations

import click

from ..console import (
    TABLE_STATUS,
    say,
)
from .outputs import check_targets, write


@click.command("schema", short_help="JSON Schema of the job file, or of the result.")
@click.argument("what", type=click.Choice(["job", "result"]))
def schema(what: str) -> int:
    """Print the JSON Schema of a job file, or of the JSON that --json writes."""
    import json

    if what == "job":
        from ..model.reading.schema import job_schema as schema
    else:
        from ..sheet.record.as_json import result_schema as schema
    say(json.dumps(schema(), indent=2) + "\n")
    return 0


@click.command("register", short_help="Every formula and every table, with sources.", epilog=TABLE_STATUS)
@click.argument("name", metavar="[NAME]", required=False)
@click.option("--html", metavar="OUT.html", help="Write the whole book as one HTML page.")
@click.option("--pdf", metavar="OUT.pdf", help="Write the whole book as a PDF.")
@click.option("--overwrite", is_flag=True, help="Replace files that whatcarries did not make.")
def register(name: str | None, html: str | None, pdf: str | None, overwrite: bool) -> int:
    """The book of formulas and tables: symbol, equation, clause, how it is known, an example; each table's sources.

    With the NAME of a formula or a table all that is known of that one.
    """
    if name is not None and (html or pdf):
        raise click.UsageError("a file holds the whole book: leave the name out")
    check_targets([("--html", html), ("--pdf", pdf)], overwrite)
    made: list[tuple[str, str | bytes]] = []
    if html is not None:
        from ..sheet.register.page import register_html

        made.append((html, register_html()))
    if pdf is not None:
        from ..sheet.register.pages import register_pdf

        made.append((pdf, register_pdf()))
    if made:
        say("".join(f"Written: {path}\n" for path in write(made, overwrite)))
        return 0
    from ..sheet.register.text import register_text

    say(register_text(name))
    return 0


@click.command("survey", short_help="The form for a survey of an old timber, blank or filled.")
@click.argument("out", metavar="OUT.pdf|OUT.html")
@click.option("--job", metavar="JOB.toml", help="Fill it with a survey of this job; left out: the blank form.")
@click.option("--stock", default="", metavar="NAME", help="The surveyed stock, where the job has several.")
@click.option(
    "--paper", type=click.Choice(["us-letter", "a4"]), default="us-letter", show_default=True, help="Of a PDF."
)
@click.option("--overwrite", is_flag=True, help="Replace the output even if this tool did not make it.")
def survey(out: str, job: str | None, stock: str, paper: str, overwrite: bool) -> int:
    """Write the survey form to OUT: a PDF to print and write on, or a page that a phone can fill in."""
    from ..api import write_survey

    check_targets([("the job file", job), ("the form", out)], overwrite)
    say(f"{write_survey(out, job=job, stock=stock, paper=paper, overwrite=overwrite)}\n")
    return 0
