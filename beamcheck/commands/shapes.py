"""`fasteners`, `bracket`, `outline` and `template`: sizes and shapes for pieces of a job."""

from __future__ import annotations

from typing import Any

import click

from ..console import (
    STATUS,
    TABLE_STATUS,
    say,
)
from .outputs import check_targets, write

FAMILIES = click.Choice(["bolt", "lag screw", "wood screw", "nail"])
GOALS = click.Choice(["fewest", "smallest"])
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


@click.command("fasteners", short_help="How many of which fasteners would hold an end.", epilog=TABLE_STATUS)
@click.argument("job", metavar="JOB.toml")
@click.argument("group", metavar="GROUP")
@click.option("--family", type=FAMILIES, default="bolt", show_default=True, help="What to fasten with.")
@click.option("--goal", type=GOALS, default="fewest", show_default=True, help="Fewest pieces, or smallest size.")
def fasteners(job: str, group: str, family: Any, goal: Any) -> int:
    """Propose fasteners and their places for the [[anchor]] or [[joint]] GROUP of a job, in the wood there is.

    Joints get bolts, laps lag screws too. A proposal is arithmetic and no verdict: write it into the job file and
    check that.
    """
    from ..model.reading.reader import read_job
    from ..sizing.anchors import fasteners_for, in_words

    found = read_job(job)
    if any(one.name == group for one in found.joint):
        from ..sizing.joints import bolts_for

        say(in_words(group, bolts_for(found, group, family, goal=goal)))
        return 0
    say(in_words(group, fasteners_for(found, group, family, goal=goal)))
    return 0


@click.command(
    "bracket", short_help="How thick, how far out, how much, or what would carry: one bracket.", epilog=TABLE_STATUS
)
@click.argument("job", metavar="JOB.toml")
@click.argument("name", metavar="NAME")
@click.option("--goal", type=SIZES_OF_BRACKETS, default="least thickness", show_default=True, help="What is sought.")
def bracket(job: str, name: str, goal: Any) -> int:
    """Seek a size for the [[bracket]] NAME of a job, or how much of its loads it carries, all else as it is.

    The answer and the size beyond it are checked with the whole job. `what would carry` looks for a profile, grain,
    thickness, rows or hidden steel that carries what the job puts on it. The answer is arithmetic: write it into the
    job file and check that.
    """
    from ..model.reading.reader import read_job

    if goal == "what would carry":
        from ..sizing import bracket_wish

        def told(words: str) -> None:
            click.echo(f"looking at {words}", err=True)

        say(bracket_wish.in_words(bracket_wish.what_would_carry(read_job(job), name, told)))
        return 0
    from ..sizing.brackets import in_words, size_bracket

    say(in_words(size_bracket(read_job(job), name, goal)))
    return 0


@click.command("outline", short_help="Outline of a bracket from a DXF or SVG drawing.", epilog=OUTLINE_STATUS)
@click.argument("drawing", metavar="FILE")
@click.option("--units", type=DRAWN_IN, metavar="in|mm|cm", help="Unit of a drawing that does not say its own.")
def outline(drawing: str, units: str | None) -> int:
    """Print the [bracket.shape] table of a job file from the side view in FILE, a DXF or SVG drawing.

    The drawing holds one closed outline, the wall on its left and the top edge above. Thickness and grain, which it
    does not tell, are to be filled in.
    """
    from ..checks.core.result import CAUTION
    from ..model.outlines.files import read_outline

    say(f"# {CAUTION}\n{read_outline(drawing, units).toml()}")
    return 0


@click.command("template", short_help="Full-size template of a bracket, joint or hole pattern.", epilog=TEMPLATE_STATUS)
@click.argument("job", metavar="JOB.toml")
@click.argument("piece", metavar="PIECE")
@click.option("--svg", metavar="OUT.svg", help="Write an SVG drawing at full size.")
@click.option("--dxf", metavar="OUT.dxf", help="Write a DXF drawing, layers CUT, DRILL, GRAIN, NOTES.")
@click.option("--pdf", metavar="OUT.pdf", help="Write full-size tiles for a printer.")
@click.option("--paper", type=click.Choice(["letter", "a4", "roll24", "roll36"]), default="letter", show_default=True,
              help="Of the tiles; roll24 and roll36 are rolls 24 and 36 in wide.")  # fmt: skip
@click.option("--units", type=click.Choice(["in", "mm"]), default="in", show_default=True, help="Of the drawings.")
@click.option("--overwrite", is_flag=True, help="Replace files made elsewhere, or edited since they were made.")
def template(
    job: str, piece: str, svg: str | None, dxf: str | None, pdf: str | None, paper: str, units: str, overwrite: bool
) -> int:
    """Write the full-size template of PIECE, a [[bracket]], [[joint]] or [[anchor]] of the job: outline, holes, grain.

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
    check_targets([("the job file", job), *named], overwrite)
    from ..api import check_file, template_files

    result = check_file(job)
    made, stop = template_files(result, piece, paths, paper=paper, units=units)
    written = write(made, overwrite)
    verdict = next(one.verdict for one in result.pieces if one.name == piece)
    from ..sheet.document.standing_words import STOP

    said = f"{STOP}: " if stop else ""
    say(f"{said}{piece} {verdict}\n{result.caution}\n{result.sign_off}\n")
    say("".join(f"Written: {path}\n" for path in written))
    return STATUS["refer" if stop and verdict == "passes" else verdict]
