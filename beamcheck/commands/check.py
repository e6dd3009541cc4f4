"""`check`, `recheck` and `compare`: a job file, a sheet, and two of either."""

from __future__ import annotations

from collections.abc import Iterator

import click

from ..console import (
    COLOR,
    EXIT_STATUS,
    RECHECK,
    RECHECK_STATUS,
    checked,
    progress,
    say,
)
from .outputs import SYSTEMS, Maker, Shown, calc_sheets, check_targets, deliver, outputs


@click.command("check", short_help="Check every piece of a job file.", epilog=EXIT_STATUS)
@click.argument("job", metavar="JOB.toml")
@outputs
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
def check(
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
    check_targets([("the job file", job), ("--sheet", sheet), ("--json", json_), *lists], overwrite)
    more = [*calc_sheets(sheet, pdf, all_steps), *_lists(checks_csv, hardware_csv, xlsx), *_shop(shop)]
    found = checked(job, units=units, what_ifs=answers, look=why is None and json_ != "-")
    return deliver(found.result, json_, overwrite, more, Shown(job, all_, why, color, answers), found.shown)


def _shop(shop: str | None) -> Iterator[tuple[str, Maker]]:
    """The shop sheets, if they were asked for."""
    if shop is not None:
        if not shop.casefold().endswith((".html", ".htm", ".pdf")):
            raise click.UsageError(f"--shop {shop}: the name must end in .html or .pdf")
        from ..api import shop_sheets

        yield shop, lambda result: shop_sheets(result, shop)


def _lists(checks: str | None, hardware: str | None, xlsx: str | None) -> Iterator[tuple[str, Maker]]:
    """The flat lists that were asked for: where each goes, and what makes it."""
    if checks is not None:
        from ..sheet.lists.csv_out import checks_csv

        yield checks, checks_csv
    if hardware is not None:
        from ..sheet.lists.csv_out import hardware_csv

        yield hardware, hardware_csv
    if xlsx is not None:
        from ..sheet.lists.xlsx_out import result_xlsx

        yield xlsx, result_xlsx


@click.command("recheck", short_help="Check a sheet again, and look for changes.", epilog=RECHECK_STATUS)
@click.argument("sheet", metavar="SHEET")
@click.option("--job", metavar="JOB.toml", help="The job file as it is now; left out: the one that the sheet carries.")
def recheck(sheet: str, job: str | None) -> int:
    """Read SHEET back (HTML, PDF or JSON), work it out with this version, and report every difference.

    It says whether the sheet prints what it carries, what differs between its job and the one given, and which results
    this version works out otherwise. Nothing is written.
    """
    from ..sheet.recheck.recheck import recheck

    found = recheck(sheet, job, tell=progress)
    say(str(found))
    return RECHECK[found.state]


@click.command("compare", short_help="What changed between two sheets or job files.", epilog=RECHECK_STATUS)
@click.argument("first", metavar="FIRST")
@click.argument("second", metavar="SECOND")
def compare(first: str, second: str) -> int:
    """Report every difference between FIRST and SECOND: what changed since the engineer signed.

    Each is a job file, an HTML or PDF sheet, or a JSON result. Jobs are compared field by field, results check by
    check. Nothing is written.
    """
    from ..sheet.recheck.compare import compare_files

    found = compare_files(first, second, tell=progress)
    say(str(found))
    return RECHECK[found.state]
