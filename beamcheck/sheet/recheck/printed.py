"""Does a sheet print what it carries? What shows that a sheet was changed after it was written, with the words changed.

A sheet of this very version is made anew from the job it carries and compared word by word. Of another version only the
verdicts, ratios and figures of its checks can be looked for.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher

from ...checks.core.result import JobResult
from ...checks.core.summary import quantity
from ...checks.job import check_job
from ...errors import BeamcheckError
from ...model.reading.reader import read_job_text
from ...records import dataclass
from ...version import VERSION
from ..document.calc_sheet import EVERY_STEP, EVERY_STEP_ANCHOR
from ..document.prose import capital
from ..record.as_json import result_json
from ..record.enclosed import Carried, OneCheck, read_record
from ..record.page_text import Page
from ..record.pdf_look import pages_that_look_otherwise
from ..record.pdf_read import pdf_pages
from .difference import Difference, Tell
from .job_changes import job_changes

_MOST_A_PART = 8  # differences told of one part or page
_AROUND = 3  # words told on both sides of words that were put in or taken out
_PRINTED_FROM = 0.5  # ratio, from which demand and capacity stand in every form of sheet
_REACH = 400  # letters from the title of a check to its ratio, spaces left out


@dataclass(frozen=True)
class Signs:
    """Signs of a change after writing, and what else a reader must know of the sheet."""

    differences: tuple[Difference, ...] = ()
    notes: tuple[str, ...] = ()


def signs_of_change(carried: Carried, *, tell: Tell = lambda _: None) -> Signs:
    """Look for signs that a sheet or a result was changed after it was written.

    `carried`: with a result. `tell`: is told what is being done.
    """
    assert carried.result is not None and carried.record is not None
    found = [Difference(fault) for fault in carried.faults]
    notes = list(carried.notes)
    if carried.printed_job is not None and carried.printed_job != carried.job_text:
        found += _job_printed(carried)
    if carried.kind == "JSON result":
        return Signs(tuple(found), tuple(notes))
    tell(f"working out {carried.name}")
    anew = _the_same_again(carried)
    if anew is None:
        notes.append(_only_checks(carried))
        found += _checks_not_printed(carried)
    else:
        tell(f"printing {carried.name} anew")
        found += _page_differs(carried, anew) if carried.kind == "HTML sheet" else _pdf_differs(carried, anew)
    return Signs(tuple(found), tuple(notes))


def _job_printed(carried: Carried) -> list[Difference]:
    """The job file that the sheet shows is not the one that its results follow from: in which fields."""
    what = "the job file in the sheet is not the one that its results follow from"
    try:
        changes = job_changes(carried.job_text, carried.printed_job or "", carried.name, carried.name)
    except BeamcheckError as error:
        return [Difference(f"{what}, and cannot be read ({error})")]
    return [Difference(what), *(Difference(f"job file, {one.where}", one.was, one.now) for one in changes.differences)]


def _the_same_again(carried: Carried) -> JobResult | None:
    """The result worked out again, if this version comes to the very same one, so that its sheet must be the same."""
    assert carried.result is not None and carried.record is not None
    if carried.result.generator != f"whatcarries {VERSION}":
        return None
    job, text = carried.result.job_file, carried.job_text
    try:
        made = check_job(read_job_text(text, job.name), text=text, name=job.name, units=carried.result.units_of_texts)
    except BeamcheckError:
        return None
    record = read_record(result_json(made))
    same = record.keys() == carried.record.keys() and all(
        record[key] == carried.record[key] for key in record if key != "digest"
    )
    return made if same else None


def _only_checks(carried: Carried) -> str:
    assert carried.result is not None
    version = carried.result.generator
    why = (
        f"It was made by {version}, and this is whatcarries {VERSION}"
        if version != f"whatcarries {VERSION}"
        else "This version does not come to the very same result"
    )
    return f"{why}: of what it prints, only the verdicts and figures of its checks were compared with what it carries."


def _page_differs(carried: Carried, anew: JobResult) -> Iterator[Difference]:
    from ..html.render import render

    printed = Page(carried.raw.decode("utf-8", errors="replace").removeprefix("\ufeff"))
    all_steps = any(part.key == EVERY_STEP_ANCHOR for part in printed.parts)
    expected = Page(render(anew, all_steps=all_steps))
    was = {part.key: part for part in expected.parts}
    now = {part.key: part for part in printed.parts}
    for key, part in was.items():
        if key not in now:
            yield Difference(f"{part.heading}: a part of the sheet is gone")
        else:
            yield from _words_differ(part.heading, part.text, now[key].text)
    for key, part in now.items():
        if key not in was:
            yield Difference(f"{part.heading}: a part was put in, {key!r}")
    if len(printed.parts) != len(now):
        yield Difference("a part of the sheet stands there twice")
    if printed.markup != expected.markup:
        yield Difference("markup or styles of the page differ from those it was written with: it may show other words")


def _pdf_differs(carried: Carried, anew: JobResult) -> Iterator[Difference]:
    from ..pdf.render import sheet_pdf

    printed = pdf_pages(carried.raw, carried.name)
    made = sheet_pdf(anew, all_steps=any(EVERY_STEP in page for page in printed))
    if made == carried.raw:
        return
    expected = pdf_pages(made, "the sheet made anew")
    if len(expected) != len(printed):
        yield Difference("number of pages", str(len(expected)), str(len(printed)))
    for number, (was, now) in enumerate(zip(expected, printed, strict=False), start=1):
        yield from _words_differ(f"page {number}", was, now)
    for number in pages_that_look_otherwise(made, carried.raw):
        yield Difference(f"page {number}: something is drawn over it, or is not drawn, beside its words")


def _words_differ(where: str, was: str, now: str) -> Iterator[Difference]:
    """Runs of words that differ: what the sheet must say, and what it says."""
    one, other = was.split(), now.split()
    if one == other or "".join(one) == "".join(other):
        return
    runs = [run for run in SequenceMatcher(None, one, other, autojunk=False).get_opcodes() if run[0] != "equal"]
    for what, i, i_end, j, j_end in runs[:_MOST_A_PART]:
        more = 0 if what == "replace" else _AROUND
        yield Difference(
            f"{where}: printed", _quoted(one[max(i - more, 0) : i_end + more]),
            _quoted(other[max(j - more, 0) : j_end + more]),
        )  # fmt: skip
    if len(runs) > _MOST_A_PART:
        yield Difference(f"{where}: {len(runs) - _MOST_A_PART} more places differ")


def _quoted(words: Sequence[str]) -> str:
    text = " ".join(words)
    return f"'{text}'" if len(text) <= 120 else f"'{text[:117]}...'"


def _checks_not_printed(carried: Carried) -> Iterator[Difference]:
    """Checks whose verdict and ratio are not found after their title, in the form of a full or of a short sheet."""
    assert carried.result is not None
    if carried.kind == "HTML sheet":
        page = Page(carried.raw.decode("utf-8", errors="replace").removeprefix("\ufeff"))
        text = _bare("".join(part.text for part in page.parts))
    else:
        text = _bare("".join(pdf_pages(carried.raw, carried.name)))
    near = f".{{0,{_REACH}}}?"
    for piece in carried.result.pieces:
        figured = (check for check in piece.checks if check.has_figures)
        for number, check in enumerate(figured, start=1):
            ratio = ""
            if check.ratio is not None:
                value = float("inf") if check.ratio.text == "infinite" else check.ratio.value
                ratio = quantity(value, "ratio", carried.result.units_of_texts)
            what = re.escape(_bare(capital(check.what)))
            word, figure = re.escape(check.verdict), re.escape(_bare(ratio))
            full = f"{number}\\.{what}{near}{word}{near}{'Ratio' if ratio else ''}{figure}(?![0-9])"
            row = f"{near}{figure}(?![0-9]){near}{word}"
            forms = (full, f"{what}{row}", *(f"also.{{0,200}}?{tail}{row}" for tail in _tails(check.what)))
            if not any(re.search(form, text, re.IGNORECASE) for form in forms):
                said = f"verdict {check.verdict}" + (f", ratio {ratio}" if ratio else "")
                yield Difference(f"{piece.name}, {check.what}: the sheet does not print what it carries, {said}")
            for label, figure in _figures(check, carried.result.units_of_texts):
                if _bare(figure) not in text:
                    said = f"{label} {figure}"
                    yield Difference(f"{piece.name}, {check.what}: the sheet does not print what it carries, {said}")


def _figures(check: OneCheck, units: str) -> Iterator[tuple[str, str]]:
    """Demand and capacity as every form of sheet prints them; of a check with much room some forms leave them out."""
    ratio = check.ratio.value if check.ratio is not None else None
    if check.kind in ("", "ratio") or ratio is None or ratio < _PRINTED_FROM:
        return
    for label, number in (("demand", check.demand), ("capacity", check.capacity)):
        if number is not None and number.value is not None:
            yield label, quantity(number.value, check.kind, units)


def _tails(what: str) -> Iterator[str]:
    """The ends of a title: a row for several checks names the others without the words with which they begin alike."""
    words = what.split()
    for start in range(max(len(words) - 1, 1)):
        yield re.escape(_bare(" ".join(words[start:])))


def _bare(text: str) -> str:
    """Without spaces, and without the lines that make subscripts, which a page sets otherwise."""
    return "".join(text.split()).replace("_", "").replace("\u00ad", "")
