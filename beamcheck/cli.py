"""The command line: the group of commands.

Only click is loaded here; each command loads what it needs when it runs.
"""

from __future__ import annotations

import os

import click

from .commands.ask import ask
from .commands.check import check, compare, recheck
from .commands.new import new
from .commands.papers import register, schema, survey_form
from .commands.shapes import bracket, fasteners, outline, template
from .commands.sign import sign
from .commands.span import span, table
from .console import EXIT_STATUS, Doors, say
from .page.command import page


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


for command in (
    check, new, ask, page, recheck, compare, sign, span, table, fasteners, bracket, outline, template,
    schema, register, survey_form,
):  # fmt: skip
    main.add_command(command)
