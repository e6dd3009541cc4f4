"""Shop sheets: the words on them, what stops whoever builds, and both renderings. Figures are those of the demo job."""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from beamcheck.api import check_text, write_shop
from beamcheck.checks.core.result import CAUTION, JobResult
from beamcheck.cli import main
from beamcheck.errors import BeamcheckError
from beamcheck.sheet.document.standing_words import STOP, UNSIGNED, held_up_by
from beamcheck.sheet.shop.html import page_of, shop_html
from beamcheck.sheet.shop.pdf import pdf_of, shop_pdf
from beamcheck.sheet.shop.shop import ShopPage, shop_pages
from beamcheck.sheet.templates.piece import job_of

from ...worked_examples.results import example

LOFT = Path(__file__).parents[3] / "worked_examples" / "net_loft.toml"
TRAP = '<script>x</script> #panic("read") ]{$ \\ & {{ 1 }}'


@pytest.fixture(scope="module")
def loft() -> JobResult:
    return example("net_loft")


@pytest.fixture(scope="module")
def pages(loft: JobResult) -> dict[str, ShopPage]:
    return {page.name: page for page in shop_pages(loft)}


def test_a_page_a_piece_in_the_order_of_the_job(loft: JobResult, pages: dict[str, ShopPage]) -> None:
    assert list(pages) == [piece.name for piece in loft.pieces]


def test_only_what_passes_down_to_the_ground_may_be_built(loft: JobResult, pages: dict[str, ShopPage]) -> None:
    verdicts = {piece.name: piece.verdict for piece in loft.pieces}
    for name, page in pages.items():
        assert page.stop == page.banner.startswith(STOP)
        assert page.stop or verdicts[name] == "passes"
        assert page.stop or all(verdicts[one] == "passes" for one in held_up_by(job_of(loft), name))
    # the alcove beam passes by itself, but hangs on a plate that fails, and its verdict is that of both
    alcove = next(piece for piece in loft.pieces if piece.name == "alcove beam")
    assert alcove.member_verdict == "passes" and {check.verdict for check in alcove.checks} == {"passes"}
    assert verdicts["alcove beam"] == verdicts["plate drilled low"] == "fails"
    assert pages["alcove beam"].stop and "plate drilled low (fails)" in pages["alcove beam"].reasons[0]
    assert not pages["gallery beam"].stop
    assert any("The job as a whole does not pass" in one for one in pages["gallery beam"].reasons)


def test_bearers_are_followed_to_the_ground(loft: JobResult) -> None:
    """As the job file links them: landing beam - rod - gallery beam - hidden plate; ledger - its lags."""
    assert set(held_up_by(job_of(loft), "landing beam")) == {
        "rod", "gallery beam", "hidden plate", "ledger", "ledger lags",
    }  # fmt: skip
    assert held_up_by(job_of(loft), "old beam north") == ()
    assert set(held_up_by(job_of(loft), "plaster beam west")) == {"post"}


def test_stick_is_cut_long_enough_for_its_seats(pages: dict[str, ShopPage]) -> None:
    """11 ft from middle to middle of two 6 in seats is 11 ft 6 in of wood; hung 4 1/2 in inside its end, 3 in more."""
    assert dict(pages["old beam north"].sizes.rows)["Cut it at least"].startswith("11 ft 6 in long")
    assert dict(pages["gallery beam"].sizes.rows)["Cut it at least"].startswith("10 ft 3 in long")
    assert dict(pages["ledger"].sizes.rows)["Length"] == "2 ft 6 in"


def test_gaps_hardware_drills_do_nots_and_ticks(pages: dict[str, ShopPage]) -> None:
    plate = pages["hidden plate"]
    slot, rows = plate.gaps.items
    assert slot == "Slot 7/16 in wide, 9 1/2 in long, the full depth."
    assert rows.startswith("Held piece gallery beam: 3 1/2 in between the outer rows shrink by 0.067 in")
    assert ("2", "bolt", "5/8 in", "7 in", "steel A307, hot-dip galvanized") in plate.hardware.rows
    assert any("drill 11/16 in" in row[2] for row in plate.drills.rows)
    assert any(one.startswith("Do not move a hole") for one in plate.do_not.items)
    assert any("welds" in one.casefold() for one in plate.ticks.items)
    beam = pages["old beam north"]
    assert any("Do not hang from it" in one and "sleeping loft" in one for one in beam.do_not.items)
    assert any("Do not cut" in one for one in beam.do_not.items)
    assert any(one.startswith("Cut measured: mortise") for one in beam.ticks.items)
    lags = pages["ledger lags"]  # two ends of two lag screws each
    assert ("4", "lag screw", "5/8 in", "10 in", "hot-dip galvanized") in lags.hardware.rows
    assert lags.do_not.items[0].startswith("Do not build from this page")


def test_each_stick_of_a_frame_says_how_its_wood_moves() -> None:
    members = [page for page in shop_pages(example("plated_truss")) if page.name.startswith("truss: ")]
    assert members and all(any("Movement from" in one for one in page.gaps.items) for page in members)


def test_every_page_is_drawn_but_those_without_a_drawing(pages: dict[str, ShopPage]) -> None:
    assert "0" in re.findall(r">([^<]*)</text>", pages["old beam north"].drawing)
    assert not {name for name, page in pages.items() if not page.drawing}


def test_places_count_from_the_real_end_of_the_stick(pages: dict[str, ShopPage]) -> None:
    """The mortise is 4 in long about 2 ft 6 in from the middle of a seat of 6 in, which the stick covers whole."""
    page = pages["old beam north"]
    assert "from 2 ft 7 in to 2 ft 11 in, 3 in high, 3 1/2 in up from the bottom" in page.drawing
    assert ("Cut", "mortise, 3 in, 2 ft 9 in from the real left end") in page.sizes.rows
    assert "at 2 ft 6 in" not in page.drawing
    assert not any("2 ft 6 in" in text for text in page.ticks.items)


def test_a_page_that_says_stop_says_what_helps_and_whom_to_ask(pages: dict[str, ShopPage]) -> None:
    assert any(text.startswith("What would make it hold: ") for text in pages["old beam south"].reasons)
    assert any(text.startswith(("Ask ", "Find out")) for text in pages["rafters"].reasons)


BRACKET = """
[job]
title = "Invented"
standard = "NDS 2018"
loads = "ASCE 7-16"
[[existing]]
name = "studs"
what = "studs"
material = "wood"
takes = "3,000 lb"
[[bracket]]
name = "hook plate"
role = "decorative"
on = "studs"
[bracket.shape]
family = "steel core"
steel = "A36"
width = "2 in"
thickness = "1/2 in"
projection = "9 in"
down = "8 in"
tip_clear = "1/4 in"
[bracket.fixings]
fastener = { kind = "lag screw", size = "3/8 in", length = "4 in" }
rows = [{ below_top = "2 in", count = 1 }, { below_top = "7 in", count = 1, slot = "1 in" }]
"""


def test_decorative_bracket_says_that_nothing_hangs_from_it() -> None:
    (page,) = shop_pages(check_text(BRACKET))
    assert "Do not hang from it, do not stand on it, do not rest anything on it." in page.do_not.items
    assert "Row 2: upright slots 1 in long." in page.gaps.items
    assert ("2", "lag screw", "3/8 in", "4 in", "") in page.hardware.rows
    assert dict(page.sizes.rows)["Role"] == "decoration: carries nothing"


def test_both_renderings_carry_caution_and_sign_off_on_every_page(loft: JobResult) -> None:
    reader = PdfReader(BytesIO(shop_pdf(loft)))
    assert len(reader.pages) == len(loft.pieces)  # one page a piece
    for page, piece in zip(reader.pages, loft.pieces, strict=True):
        text = " ".join(page.extract_text().split())
        assert piece.name in text and "Reviewed by licensed engineer:" in text and CAUTION in text
        assert not re.search(r"\d\s*[=<>]\s*\d|\b[FfCMVE]_[A-Za-z]", text)  # no equations, no symbols
    made = shop_html(loft)
    assert made.count(CAUTION) == len(loft.pieces)
    assert made.count("Reviewed by licensed engineer:") == len(loft.pieces)
    assert "<script" not in made and "http" not in re.sub(r"http-equiv|http://www\.w3\.org/2000/svg", "", made)


def test_what_is_not_signed_is_said_in_the_letters_of_the_verdict(loft: JobResult, pages: dict[str, ShopPage]) -> None:
    """One class of letters for both in HTML; on paper both stand on each page, whether it says stop or not."""
    html = page_of(loft, tuple(pages.values()))
    assert html.count(f'<p class="banner plain">{UNSIGNED}</p>') == len(pages)
    some = {page.stop: page for page in pages.values()}
    assert set(some) == {True, False}
    for page in PdfReader(BytesIO(pdf_of(loft, tuple(some.values())))).pages:
        assert UNSIGNED in " ".join(page.extract_text().split())


def test_text_of_the_job_is_text(loft: JobResult, pages: dict[str, ShopPage]) -> None:
    page = replace(pages["post"], name=TRAP, title=TRAP, banner=TRAP, reasons=(TRAP,), caption=TRAP)
    made = page_of(loft, (page,))
    assert "<script>x" not in made and "&lt;script&gt;x" in made and "{{ 1 }}" in made
    text = "".join(one.extract_text() for one in PdfReader(BytesIO(pdf_of(loft, (page,)))).pages)
    assert '#panic("read")' in " ".join(text.split())


def test_long_title_leaves_the_sign_off_on_the_page(loft: JobResult, pages: dict[str, ShopPage]) -> None:
    long = replace(loft, title="word " * 900)
    made = PdfReader(BytesIO(pdf_of(long, (pages["post"],)))).pages
    seen: list[float] = []

    def note(text: str, cm: list[float], tm: list[float], *_: object) -> None:
        if text.strip():
            seen.append(tm[5] * cm[3] + cm[5])

    text = " ".join(" ".join(one.extract_text(visitor_text=note) for one in made).split())
    assert len(made) == 1 and "…" in text and "Reviewed by licensed engineer" in text
    assert min(seen) > 0.0  # the lowest line is above the edge of the paper
    assert "…" in page_of(long, (pages["post"],))


def test_same_result_is_the_same_file(loft: JobResult, pages: dict[str, ShopPage]) -> None:
    one = (pages["post"],)
    assert pdf_of(loft, one) == pdf_of(loft, one) and page_of(loft, one) == page_of(loft, one)


def test_files_of_others_are_kept(loft: JobResult, tmp_path: Path) -> None:
    out = tmp_path / "shop.html"
    assert write_shop(loft, out) == write_shop(loft, out)  # its own is replaced
    out.write_text("somebody's notes")
    with pytest.raises(BeamcheckError, match="was not made by whatcarries"):
        write_shop(loft, out)
    assert out.read_text() == "somebody's notes"


def test_result_without_its_job_is_refused(loft: JobResult) -> None:
    with pytest.raises(BeamcheckError, match="without the text of a job file"):
        shop_pages(replace(loft, job_text=""))


def test_command_writes_shop_sheets(tmp_path: Path) -> None:
    out = tmp_path / "shop.html"
    run = CliRunner().invoke(main, ["check", str(LOFT), "--shop", str(out)])
    assert run.exit_code == 4 and out.read_text(encoding="utf-8").count("<section") == 18
    run = CliRunner().invoke(main, ["check", str(LOFT), "--shop", str(tmp_path / "shop.txt")])
    assert run.exit_code == 2 and "the name must end in .html or .pdf" in run.output
