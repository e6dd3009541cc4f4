"""The command line: the group of commands.

Only click is loaded here; a command is loaded when it is called or listed, and loads what it needs when it runs.
"""

from __future__ import annotations

import os
from importlib import import_module

import click

from .console import EXIT_STATUS, Doors, say

_WHERE = {
    "check": "commands.check", "recheck": "commands.check", "compare": "commands.check", "new": "commands.new",
    "ask": "commands.ask", "page": "page.command", "sign": "commands.sign", "span": "commands.span",
    "table": "commands.span", "fasteners": "commands.shapes", "bracket": "commands.shapes",
    "outline": "commands.shapes", "template": "commands.shapes", "schema": "commands.papers",
    "register": "commands.papers", "survey": "commands.papers",
}  # fmt: skip


class _Commands(Doors):
    """The commands, each in its module under its own name."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted(_WHERE)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        where = _WHERE.get(cmd_name)
        if where is None:
            return None
        found: click.Command = getattr(import_module(f".{where}", __package__), cmd_name)
        return found


def _say_version(ctx: click.Context, _: click.Parameter, wanted: bool) -> None:
    if wanted:
        from .version import VERSION

        say(f"whatcarries {VERSION}\n")
        ctx.exit()


@click.group(
    cls=_Commands,
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
