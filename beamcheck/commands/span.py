"""`span` and `table`: one stick without a job file, and many."""

from __future__ import annotations

from typing import Any

import click

from ..console import (
    COLOR,
    EXIT_STATUS,
    TABLE_STATUS,
    amount,
    amounts,
    reasons,
    say,
    waiting,
)
from .last import keep_question
from .outputs import SYSTEMS, Command, Shown, calc_sheets, check_targets, deliver, outputs, write

FINISHES = ("plaster", "gypsum board", "masonry veneer", "flexible", "none")
MOISTURE = click.Choice(["dry", "green", "wet"])
TOP_HELD = "'full length', 'ends only' or a spacing of braces"


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


@click.command("span", short_help="Is a stick enough for a span, or how far does it go?", epilog=EXIT_STATUS)
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
@outputs
@click.option("--units", type=SYSTEMS, metavar="US|SI", default="US", show_default=True, help="Units of the words.")
@click.option("--all", "all_", is_flag=True, help="Everything: all checks; the short answer last.")
@COLOR
def span(
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
    check_targets([("--sheet", sheet), ("--pdf", pdf), ("--json", json_)], overwrite)
    from ..sizing.span import span_question

    species, grade = question.pop("species"), question.pop("grade")
    with waiting(f"checking {size}"):
        result = span_question(size, species, grade, **question)
    keep_question(result.job_text)
    files = [*calc_sheets(sheet, pdf, all_steps)]
    return deliver(result, json_, overwrite, files, Shown(all=all_, color=color))


@click.command("table", short_help="Longest spans by species, grade, size and spacing.", epilog=TABLE_STATUS)
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
def table(csv: str | None, html: str | None, overwrite: bool, **asked: Any) -> int:
    """The longest span of every species, grade, size and spacing, for loads per area.

    A table is arithmetic and no verdict: it holds only under the conditions that it prints.
    """
    check_targets([("--csv", csv), ("--html", html)], overwrite)
    from ..sizing.span_tables import span_table

    table = span_table(**{name: value for name, value in asked.items() if value is not None})
    makers = {csv: table.csv, html: table.html}
    files = [(path, makers[path]()) for path in (csv, html) if path is not None and path != "-"]
    places = "".join(f"Written: {path}\n" for path in write(files, overwrite))
    say(table.csv() if csv == "-" or not files else places)
    return 0
