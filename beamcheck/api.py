"""The Python door: a job file or its text in, a result out, and the result as a sheet or as JSON."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from .checks.core.asking.question import RULING
from .checks.core.result import JobResult
from .checks.job import check_job
from .checks.pieces import Memory
from .errors import BeamcheckError
from .lettering import legible
from .model.reading.reader import MOST_BYTES, read_job, read_job_text

FilePath = str | os.PathLike[str]


def check_text(text: str, name: str = "job", *, units: str | None = None) -> JobResult:
    """Check the text of a job file.

    Parameters
    ----------
    text : str
        TOML, as in a job file.
    name : str
        What messages and the sheet call it.
    units : 'US', 'SI' or None
        Units of the words in the result; None is what the job asks for.

    Raises
    ------
    JobError
        With every problem of the text.

    Examples
    --------
    >>> from beamcheck import check_text
    >>> result = check_text('''
    ... [job]
    ... title = "Invented shed"
    ... standard = "NDS 2018"
    ... loads = "ASCE 7-16"
    ... [[stock]]
    ... name = "joist stock"
    ... species = "Hem-Fir"
    ... grade = "No.2"
    ... size = "2x10"
    ... moisture = "dry"
    ... grade_from = "stamp"
    ... evidence = "invented: Hem-Fir No.2 S-DRY"
    ... [[existing]]
    ... name = "wall"
    ... what = "stone wall"
    ... [[beam]]
    ... name = "joist"
    ... stock = "joist stock"
    ... service = "floor"
    ... finish = "none"
    ... top_held = "full length"
    ... supports = [{ at = "0 ft", on = "wall", bearing = "4 in" }, { at = "12 ft", on = "wall", bearing = "4 in" }]
    ... carries = [{ what = "floor", dead = "10 psf", live = "40 psf", width = "16 in" }]
    ... ''')
    >>> result.verdict  # nobody answers for the wall yet
    'refer'
    """
    return check_job(read_job_text(text, name), text=text, name=name, units=units)


def check_file(
    path: FilePath, *, units: str | None = None, what_ifs: bool = False, memory: Memory | None = None
) -> JobResult:  # fmt: skip
    """Check a job file; the result carries its text, its name without folders, and its SHA-256.

    Parameters
    ----------
    path : str or path
    units : 'US', 'SI' or None
        Units of the words in the result; None is what the job asks for.
    what_ifs : bool
        Find out what each plausible answer to each open question does, by running the job with it.
    memory : Memory or None
        Of earlier runs of the job; it also tells how far the work has come.

    Raises
    ------
    JobError
        With every problem of the file.
    """
    source = os.fsdecode(path)
    try:
        with open(source, "rb") as file:
            text = file.read(MOST_BYTES + 1).decode("utf-8")
    except (OSError, ValueError):
        read_job(source)  # says why it cannot be read
        raise
    job = read_job_text(text, source)
    return check_job(job, text=text, name=legible(Path(source).name), units=units, what_ifs=what_ifs, memory=memory)


def looked_ahead(result: JobResult, memory: Memory, *, seconds: float) -> JobResult:
    """The same result, with what answers to its open questions do as far as that is found out in the time.

    `result`: of a job file, with its text. `memory`: of the run that made it. `seconds`: processor time at the most.
    """
    if not result.job_text or all(one.state == "idle" or one.question.field == RULING for one in result.questions):
        return result
    job = memory.known(read_job_text(result.job_text, result.job_name))
    found = check_job(
        job, text=result.job_text, name=result.job_name, units=result.units, what_ifs=True, seconds=seconds,
        memory=memory,
    )  # fmt: skip
    known = {one.id: one for one in found.questions}
    # in the order of the result: how far the time goes hangs on the machine, the order must not
    return replace(result, questions=tuple(known.get(one.id, one) for one in result.questions))


def sheet_html(result: JobResult, *, all_steps: bool = False) -> str:
    """The calc sheet of a result as one HTML page that asks for nothing from anywhere.

    With `all_steps` every derivation stands in it, folded; the result as JSON has them always.
    """
    from .sheet.html.render import render

    return render(result, all_steps=all_steps)


def write_sheet(
    result: JobResult, path: FilePath, *, overwrite: bool = False, all_steps: bool = False
) -> Path:  # fmt: skip
    """Write the calc sheet of a result to an HTML file, whole or not at all.

    Parameters
    ----------
    result : JobResult
    path : str or path
    all_steps : bool
        With every derivation.
    overwrite : bool
        Replace a file that was not made by whatcarries, or was signed or edited since. Others of its own are replaced.

    Returns
    -------
    Path
        Where it was written.

    Raises
    ------
    BeamcheckError
        If it cannot be written, or may not be; what stood there before is still there.
    """
    from .sheet.html.render import render_pieces

    check_target(path, overwrite=overwrite, of=result)
    return write_output(render_pieces(result, all_steps=all_steps), path, overwrite=overwrite)


def sheet_pdf(result: JobResult, *, all_steps: bool = False) -> bytes:
    """The calc sheet of a result as a PDF, with the job file and the result as attachments.

    With `all_steps` every derivation stands at its end.

    Raises
    ------
    BeamcheckError
        If typst or its typefaces are missing, or it cannot set the sheet.
    """
    from .sheet.pdf.render import sheet_pdf as made

    return made(result, all_steps=all_steps)


def write_pdf(result: JobResult, path: FilePath, *, overwrite: bool = False, all_steps: bool = False) -> Path:
    """Write the calc sheet of a result to a PDF file; parameters and errors are those of `write_sheet`."""
    from .sheet.pdf.render import sheet_pdf_pieces

    check_target(path, overwrite=overwrite, of=result)
    return write_output(sheet_pdf_pieces(result, all_steps=all_steps), path, overwrite=overwrite)


def write_json(result: JobResult, path: FilePath, *, overwrite: bool = False) -> Path:
    """Write a result to a JSON file; parameters and errors are those of `write_sheet`."""
    from .sheet.record.as_json import result_json_pieces

    check_target(path, overwrite=overwrite, of=result)
    return write_output(result_json_pieces(result), path, overwrite=overwrite)


def write_shop(result: JobResult, path: FilePath, *, overwrite: bool = False) -> Path:
    """Write the shop sheets of a result, one page a piece, to an HTML or PDF file; by the end of its name.

    Parameters and errors are those of `write_sheet`; also if the name ends otherwise, or the result has no job text.
    """
    check_target(path, overwrite=overwrite, of=result)
    return write_output(shop_sheets(result, path), path, overwrite=overwrite)


def shop_sheets(result: JobResult, path: FilePath) -> str | Iterable[bytes]:
    """The shop sheets for a file of that name, not written; parameters and errors are those of `write_shop`."""
    kind = Path(os.fsdecode(path)).suffix.casefold()
    if kind == ".pdf":
        from .sheet.shop.pdf import shop_pdf_pieces

        return shop_pdf_pieces(result)
    if kind in (".html", ".htm"):
        from .sheet.shop.html import shop_html

        return shop_html(result)
    raise BeamcheckError(f"{legible(os.fsdecode(path))}: shop sheets are written as .html or .pdf; end the name so")


def write_survey(
    path: FilePath, *, job: FilePath | None = None, stock: str = "", paper: str = "us-letter", overwrite: bool = False
) -> Path:
    """Write the survey form of an old timber: .pdf to print, .html for a phone; by the end of its name.

    `job`: a job file with a survey, which fills the form; left out: blank. `stock`: which surveyed stock, where the job
    has several. `paper`: 'us-letter' or 'a4'. `overwrite`: replace a file that this tool did not make. Raises
    BeamcheckError if the job cannot be read, has no such survey, or the file cannot be written.
    """
    from .sheet.survey.form import blank_form, filled_form
    from .sheet.survey.write import survey_html, survey_pdf

    check_target(path, overwrite=overwrite)
    if job is not None and os.path.exists(path) and os.path.exists(job) and os.path.samefile(path, job):
        raise BeamcheckError(f"{legible(os.fsdecode(path))} is the job file: give the form another name")
    if paper not in ("us-letter", "a4"):
        raise BeamcheckError(f"there is no paper {paper!r}: us-letter or a4")
    form = blank_form() if job is None else filled_form(read_job(job), stock)
    kind = Path(os.fsdecode(path)).suffix.casefold()
    if kind not in (".pdf", ".html", ".htm"):
        raise BeamcheckError(
            f"{legible(os.fsdecode(path))}: a survey form is written as .pdf or .html; end the name so"
        )
    made = survey_pdf(form, paper) if kind == ".pdf" else survey_html(form)  # type: ignore[arg-type]
    return write_output(made, path, overwrite=overwrite)


def write_template(
    job: FilePath | JobResult, piece: str, *paths: FilePath, paper: str = "letter", units: str = "in",
    overwrite: bool = False,
) -> tuple[Path, ...]:  # fmt: skip
    """Write the full-size template of a bracket or anchor group; the end of each name says what: .svg, .dxf or .pdf.

    Parameters
    ----------
    job : path or JobResult
        A job file, which is checked first: the template carries the verdict.
    piece : str
        Name of the bracket or anchor group.
    paths : str or path
    paper : 'letter', 'a4', 'roll24' or 'roll36'
        Of the tiles of the PDF; the last two are rolls 24 and 36 in wide.
    units : 'in' or 'mm'
        Of the drawings.
    overwrite : bool
        As for `write_sheet`.

    Returns
    -------
    tuple of Path
        Where they were written.

    Raises
    ------
    BeamcheckError
        If there is no such template, or a file cannot be written, or may not be.
    """
    if not paths:
        raise BeamcheckError("name at least one file for the template, ending in .svg, .dxf or .pdf")
    for path in paths:
        check_target(path, overwrite=overwrite)
    result = job if isinstance(job, JobResult) else check_file(job)
    for path in paths:
        check_target(path, overwrite=overwrite, of=result)
    made = template_files(result, piece, paths, paper=paper, units=units)[0]
    return tuple(write_outputs(made, overwrite=overwrite))


def template_files(
    result: JobResult, piece: str, paths: Sequence[FilePath], *, paper: str = "letter", units: str = "in"
) -> tuple[list[tuple[str, str | bytes]], bool]:
    """What goes into each file, none written, and whether it says that nothing may be built from it.

    Parameters and errors are those of `write_template`.
    """
    from .sheet.templates.piece import template_of

    template = template_of(result, piece)
    made: list[tuple[str, str | bytes]] = []
    for path in map(os.fsdecode, paths):
        kind = Path(path).suffix.casefold()
        if kind == ".svg":
            from .sheet.templates.svg import template_svg

            made.append((path, template_svg(template, units)))
        elif kind == ".dxf":
            from .sheet.templates.dxf import template_dxf

            made.append((path, template_dxf(template, units)))
        elif kind == ".pdf":
            from .sheet.templates.pdf import template_pdf

            made.append((path, template_pdf(template, paper)))
        else:
            raise BeamcheckError(f"{legible(path)}: templates are written as .svg, .dxf or .pdf; end the name so")
    return made, template.stop


def write_output(text: str | bytes | Iterable[bytes], path: FilePath, *, overwrite: bool = False) -> Path:
    """Write a text or file that was made here; parameters and errors are those of `write_sheet`."""
    return write_outputs([(path, text)], overwrite=overwrite)[0]


def write_outputs(
    files: Sequence[tuple[FilePath, str | bytes | Iterable[bytes]]], *, overwrite: bool = False
) -> list[Path]:
    """Write all files of one run, or none where one cannot be; parameters and errors are those of `write_sheet`."""
    from .sheet.write import write_together

    return write_together(files, overwrite=overwrite)


def check_target(path: FilePath, *, overwrite: bool = False, of: JobResult | None = None) -> None:
    """Whether a file may be written there, before any work is done for it; errors are those of `write_sheet`.

    Nothing that is made `of` a result goes over the job file that it was made of, whatever was allowed.
    """
    from .sheet.write import check_target as check

    if of is not None and _digest_at(path) == of.fingerprint:
        name = legible(os.fsdecode(path))
        raise BeamcheckError(f"{name} is the job file that this result was made of: give another name")
    check(path, overwrite=overwrite)


def _digest_at(path: FilePath) -> str | None:
    """SHA-256 of a file that may be a job file; None where there is none."""
    target = Path(path)
    with suppress(OSError, ValueError):
        if target.is_file() and target.stat().st_size <= MOST_BYTES:
            return hashlib.sha256(target.read_bytes()).hexdigest()
    return None
