"""The PDF: it carries all that was found, reads back, and is the same for the same result."""

from __future__ import annotations

import hashlib
import json
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from beamcheck.checks.core.result import CAUTION, JobResult
from beamcheck.checks.core.summary import INVENTED, quantity
from beamcheck.errors import BeamcheckError
from beamcheck.sheet.document.blocks import FigureBlock
from beamcheck.sheet.document.calc_sheet import compose
from beamcheck.sheet.document.prose import capital, sentence
from beamcheck.sheet.figures.drawers import drawn
from beamcheck.sheet.pdf.data import job_day, sheet_data
from beamcheck.sheet.pdf.render import sheet_pdf
from beamcheck.sheet.pdf.typeset import _faces
from beamcheck.sheet.record.as_json import result_json

from ...worked_examples.results import example
from ..sample import JOB_TEXT, beam_drawing, job
from .pdf_reader import Sheet, squeezed

DEMO = Path(__file__).parents[3] / "worked_examples" / "net_loft.toml"


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    return Sheet(sheet_pdf(job(), all_steps=True))


@pytest.fixture(scope="module")
def demo() -> JobResult:
    return example("net_loft")


@pytest.fixture(scope="module")
def demo_sheet(demo: JobResult) -> Sheet:
    return Sheet(sheet_pdf(demo, all_steps=True))


class TestTheDemo:
    def test_every_check_of_the_carried_result_is_printed(self, demo_sheet: Sheet) -> None:
        """Read back from the PDF alone: title, verdict and ratio of each check, as the JSON has them."""
        carried = json.loads(demo_sheet.attached["result.json"])
        printed, checks = demo_sheet.body, 0
        for piece in carried["pieces"]:
            printed = printed[printed.index(squeezed(f"{piece['name']}, every step: {piece['title']}")) :]
            number = 0
            for check in piece["checks"]:
                checks += 1
                with_figures = check["steps"] or any(check[key] for key in ("ratio", "demand", "capacity"))
                if not with_figures:
                    told = " ".join(map(sentence, check["notes"]))
                    assert squeezed(f"{check['verdict']} {capital(check['what'])}. {told}") in printed
                    continue
                number += 1
                ratio = "No ratio"
                if check["ratio"]:
                    value = check["ratio"]["value"]
                    value = float("inf") if value is None else value
                    ratio = f"Ratio {quantity(value, 'ratio', 'US')}"
                line = squeezed(f"{number}. {capital(check['what'])} {check['verdict']} {ratio}")
                assert line in printed, f"{piece['name']}: {line}"
        assert checks > 100

    def test_what_was_found_is_on_the_first_page(self, demo: JobResult, demo_sheet: Sheet) -> None:
        """And the signature follows what is open, on the same page or the next."""
        first = squeezed(demo_sheet.pages[0])
        assert squeezed(demo.verdict.upper()) in first and squeezed(CAUTION) in first
        signed = first + squeezed(demo_sheet.pages[1])
        for outcome in ("Reviewed", "Reviewed with corrections", "Not accepted"):
            assert squeezed(outcome) in signed
        assert "seal" in signed and squeezed("License no.:") in signed

    def test_every_taken_value_says_where_it_comes_from_and_how_sure_it_is(self, demo: JobResult) -> None:
        """On the page itself, wherever it is printed whole: number, document, how it is known."""
        for entry, source in _sourced(demo):
            assert re.fullmatch("[0-9]+", entry["number"]) and entry["to"] == f"source-{entry['number']}"
            told = _plain(entry["reason"]) + entry["document"]
            assert squeezed(source.document) in squeezed(told)
            assert source.how in entry["mark"] + entry["how"]
            if source.confidence:
                assert f"{source.confidence} confidence" in entry["mark"] + entry["how"]

    def test_values_from_memory_are_marked(self, demo_sheet: Sheet) -> None:
        assert re.search(r"\[\d+\] NDS Supplement 2018 Table 4D,\s+memory,\s+medium\s+confidence", demo_sheet.text)

    def test_pieces_have_their_page_in_the_key(self, demo: JobResult, demo_sheet: Sheet) -> None:
        """The schedule lists every member, with the page on which its part begins."""
        first = demo_sheet.page_of("Member schedule")
        schedule = squeezed("".join(demo_sheet.pages[first - 1 : first + 1]))
        starts = {title.replace("\u00a0", " "): page for _depth, title, page in demo_sheet.bookmarks}
        for piece in demo.pieces:
            title = next(one for one in starts if one.endswith(f"{piece.name}: {piece.title}"))
            assert re.search(rf"{re.escape(squeezed(piece.name))}:.*?{piece.verdict}{starts[title]}", schedule)

    def test_the_head_of_each_page_names_its_piece(self, demo: JobResult, demo_sheet: Sheet) -> None:
        starts = [(page, title) for depth, title, page in demo_sheet.bookmarks if depth == 1]
        for piece, after in zip(demo.pieces, demo.pieces[1:], strict=False):
            first, last = (
                next(page for page, title in starts if title.endswith(f"{one.name}, every step: {one.title}"))
                for one in (piece, after)
            )
            for page in demo_sheet.pages[first - 1 : last - 1]:
                assert re.search(rf"· [A-Z][0-9]+ {piece.name}", page.split("\n", 1)[0])


def _plain(pieces: list[Any]) -> str:
    return "".join(piece if isinstance(piece, str) else "".join(piece.values()) for piece in pieces)


def _sourced(result: JobResult) -> Any:
    """Each step that is printed whole and has a source: its data and the source."""
    sources = result.sources
    for block in sheet_data(result, compose(result, all_steps=True))["blocks"]:
        for line in block.get("lines", ()) if block["kind"] == "CheckBlock" and not block["short"] else ():
            for entry in line.get("entries", [line] if line["kind"] == "worked" else []):
                if entry["number"]:
                    yield entry, sources[int(entry["number"]) - 1]


def test_every_page_has_number_fingerprint_title_date_and_caution(sheet: Sheet) -> None:
    for number, page in enumerate(sheet.pages, start=1):
        assert f"page {number} of {len(sheet.pages)}" in page
        assert f"job {job().fingerprint[:12]}" in page
        assert page.startswith("Invented boathouse, main room ·")
        assert squeezed(f"{INVENTED} · 2026-01-31") in squeezed(page)
        assert squeezed(CAUTION) in squeezed(page)


def test_bookmarks_lead_to_every_part_and_check(sheet: Sheet) -> None:
    titles = [(depth, title) for depth, title, _page in sheet.bookmarks]
    for title in ("Contents", "Design basis", "Member schedule", "Key plan and load path", "Summary of all checks",
                  "Sources", "B1, every step: 6x14 rough invented pine, 14 ft", "Symbols", "The job file"):  # fmt: skip
        assert (1, title) in titles
    assert (2, "Checks of B1") in titles and (3, "1. Bending") in titles


def test_the_contents_have_the_pages_of_the_parts(sheet: Sheet) -> None:
    contents = sheet.pages[sheet.page_of("Contents") - 1]
    for depth, title, page in sheet.bookmarks:
        if depth == 1:
            assert re.search(rf"{re.escape(title)} ?[. \u2060]*{page}\b", contents), title


def test_the_file_says_what_it_is(sheet: Sheet) -> None:
    told = sheet.reader.metadata
    assert told is not None
    assert told.title == "Invented boathouse, main room" and told.author == "invented"
    assert "whatcarries 0.1.0" in told["/Keywords"] and job().fingerprint in told["/Keywords"]
    assert told["/CreationDate"].startswith("D:20260131")


def test_the_text_is_tagged_and_has_a_language(sheet: Sheet) -> None:
    root: Any = sheet.reader.root_object
    assert root["/MarkInfo"]["/Marked"] is True or root["/MarkInfo"]["/Marked"] == True  # noqa: E712
    assert root["/Lang"] == "en" and "/StructTreeRoot" in root


def test_nothing_in_it_runs_or_leads_out(sheet: Sheet) -> None:
    root: Any = sheet.reader.root_object
    assert "/OpenAction" not in root and "/AA" not in root and "/AcroForm" not in root
    for page in sheet.reader.pages:
        for link in page.get("/Annots") or ():
            one = link.get_object()
            assert one["/Subtype"] == "/Link" and "/URI" not in one.get("/A", {})


def test_job_file_and_result_come_back_as_they_were() -> None:
    text = JOB_TEXT.replace("\n", "\r\n") + "# 木 🪵 #\t$x$\n"
    result = job(job_text=text)
    attached = Sheet(sheet_pdf(result)).attached
    assert attached["job.toml"].decode() == text
    assert hashlib.sha256(attached["job.toml"]).hexdigest() == result.fingerprint
    assert attached["result.json"].decode() == result_json(result)


def test_the_same_result_gives_the_same_bytes_in_another_process() -> None:
    code = (
        "import hashlib; from tests.sheet.sample import job; from beamcheck.sheet.pdf.render import sheet_pdf;"
        "print(hashlib.sha256(sheet_pdf(job())).hexdigest())"
    )
    root = Path(__file__).parents[3]
    done = subprocess.run([sys.executable, "-c", code], cwd=root, capture_output=True, text=True, check=True)
    assert done.stdout.strip() == hashlib.sha256(sheet_pdf(job())).hexdigest()


@pytest.mark.parametrize(
    ("date", "day"), [("2026-01-31", (2026, 1, 31)), ("2026-02-30", None), ("last week", None), ("", None)]
)
def test_the_date_of_the_job(date: str, day: tuple[int, int, int] | None) -> None:
    found = job_day(replace(job(), about=(("date", date),)))
    assert (None if found is None else (found.year, found.month, found.day)) == day


def test_a_job_without_a_date_or_from_before_clocks_is_set_too() -> None:
    for date in ("", "1066-10-14"):
        made = Sheet(sheet_pdf(replace(job(), about=(("date", date),))))
        assert made.reader.metadata is not None and made.reader.metadata["/CreationDate"].startswith("D:1970")


def test_a_sheet_in_si_is_on_the_other_paper() -> None:
    sizes = {units: Sheet(sheet_pdf(job(units=units))).reader.pages[0].mediabox for units in ("US", "SI")}
    assert (sizes["US"].width, sizes["US"].height) == (612, 792)  # 8.5 in by 11 in
    assert float(sizes["SI"].height) == pytest.approx(297 / 25.4 * 72, abs=0.01)


def test_drawings_are_set_as_drawings_with_their_words(sheet: Sheet) -> None:
    """Text in them is text, in a typeface that typst has; what they show is said for those who do not see it."""
    assert "dead: plaster ceiling, 10 psf × 4 ft" in sheet.text
    shown = next(
        block for block in sheet_data(job(), compose(job(), all_steps=True))["blocks"] if block["kind"] == "Beside"
    )
    assert "sans-serif" not in shown["figure"]["svg"] and "Libertinus Serif" in shown["figure"]["svg"]
    assert shown["figure"]["alt"].startswith("Length 14 ft, depth 13.5 in.")


def test_what_was_told_of_a_member_stands_on_the_page_that_its_drawing_does_not_fit_on() -> None:
    sheet = Sheet(sheet_pdf(example("net_loft")))
    (page,) = (page for _depth, title, page in sheet.bookmarks if "2x10 Hem-Fir No.2 rafter" in title)
    told, drawn = sheet.pages[page - 1 : page + 1]
    assert "What governs: what timber wall takes" in told and "Shares load" in told
    assert "Birdsmouth: cut" not in told and "Birdsmouth: cut" in drawn


def test_a_drawing_of_another_kind_is_set_as_well(monkeypatch: pytest.MonkeyPatch) -> None:
    """A block that only the page knows how to draw comes along by its SVG."""

    class Another:
        figure = beam_drawing()
        name, units, key, caption = "B1", "US", "another", "A caption of its own."

    blocks = compose(job())
    data = sheet_data(job(), (*blocks[:6], Another(), *blocks[6:]))  # type: ignore[arg-type]
    (shown,) = next(block for block in data["blocks"] if block["kind"] == "Figures")["figures"]
    assert shown["caption"] == "A caption of its own."
    same = FigureBlock(beam_drawing(), "B1", "US", "another", "")
    assert shown["svg"].count("<path") == drawn(same).count("<path")


def test_an_empty_job_is_set() -> None:
    empty = JobResult("t", "refer", ("no piece",), (), (), (), "", "empty.toml", "0" * 64, "0.1.0")
    text = Sheet(sheet_pdf(empty)).text
    assert "REFER" in text and "Nothing was checked." in text


def test_a_missing_typst_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    _faces.cache_clear()  # looked up by the tests before
    monkeypatch.setitem(sys.modules, "typst", None)
    with pytest.raises(BeamcheckError, match="a PDF needs the package typst"):
        sheet_pdf(job())


def test_missing_typefaces_are_said(monkeypatch: pytest.MonkeyPatch) -> None:
    import typst

    class Bare:
        def __init__(self, **_how: Any) -> None: ...

        def families(self) -> list[str]:
            return ["Libertinus Serif", "New Computer Modern"]

    _faces.cache_clear()
    monkeypatch.setattr(typst, "Fonts", Bare)
    with pytest.raises(BeamcheckError, match="without its typefaces New Computer Modern Math, DejaVu Sans Mono"):
        sheet_pdf(job())


def test_trouble_in_typst_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("beamcheck.sheet.pdf.pages.SOURCE", Path(__file__))
    with pytest.raises(BeamcheckError, match=r"typst could not set the sheet: .*version 0\.15 is expected"):
        sheet_pdf(job())


def test_importing_it_loads_nothing_heavy() -> None:
    code = (
        "import sys, beamcheck.sheet.pdf.render;"
        "print(sorted({'typst', 'jinja2', 'markupsafe', 'sympy', 'scipy', 'pint', 'pypdf'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
