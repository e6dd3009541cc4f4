"""`sign`: the engineer's own signature on a PDF sheet."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from ..console import progress, say
from .outputs import check_targets, write


@click.command("sign", short_help="Sign a PDF sheet with your own key.")
@click.argument("sheet", metavar="SHEET.pdf")
@click.option("--key", required=True, metavar="KEY.p12", help="Your key with its certificate, PKCS#12 (.p12 or .pfx).")
@click.option("--out", metavar="OUT.pdf", help="Where the signed sheet goes; left out: SHEET-signed.pdf beside it.")
@click.option("--reason", default="", metavar="WORDS", help='Words that are signed with it, such as "reviewed".')
def sign(sheet: str, key: str, out: str | None, reason: str) -> int:
    """Sign SHEET.pdf with a key of your own; the signed sheet is a file of its own, and is never written over.

    The password of the key is asked for; from a script it is the first line of standard input. Only a sheet that is as
    it was written is signed. `whatcarries recheck` says whose signature a sheet bears, and what it proves.
    """
    from ..sheet.record.enclosed import bytes_of
    from ..sheet.record.signatures import PROVES
    from ..sheet.sign import MOST_KEY, signed_pdf

    named = out or str(Path(sheet).with_name(f"{Path(sheet).stem}-signed.pdf"))
    check_targets([("the sheet", sheet), ("the key", key), ("--out", named)], overwrite=False)
    raw, kept = bytes_of(sheet), bytes_of(key, MOST_KEY)
    progress(f"signing {sheet}")
    write([(named, signed_pdf(raw, kept, _password(), name=sheet, reason=reason))], overwrite=False)
    say(f"Written: {named}\n\n{PROVES}\n")
    return 0


def _password() -> str:
    if sys.stdin is not None and sys.stdin.isatty():
        return str(click.prompt("Password of the key", hide_input=True, default="", show_default=False, err=True))
    return "" if sys.stdin is None else sys.stdin.readline().rstrip("\r\n")
