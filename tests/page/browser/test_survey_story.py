"""A carpenter walks round an old timber with a phone: the survey is begun, filled in, photographed and printed."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from ...sheet.pdf.pdf_reader import Sheet, squeezed
from ..pages import without_first_survey
from .test_stories import PHOTO

SURVEY = "stock.timber 1.survey"


def held(folder: Path) -> dict[str, Any]:
    found: dict[str, Any] = tomllib.loads((folder / "old.toml").read_text(encoding="utf-8"))["stock"][0]["survey"]
    return found


def add(it: Any, at: str, said: dict[str, str]) -> None:
    """A blank entry filled in and written; lengths are typed into their inches."""
    blank = it.page.locator(f'details[data-add="{SURVEY}{at}"]')
    blank.locator("summary").click()
    for key, text in said.items():
        field = blank.locator(f'.f[data-path="{key}"]')
        if field.locator("select:not(.u)").count():
            field.locator("select:not(.u)").select_option(text)
        else:
            field.locator("input.in, input.n, input.text").first.fill(text)
    with it.page.expect_navigation():
        blank.get_by_role("button", name="Write it into the job").click()


def test_a_survey_on_a_phone_from_nothing_to_its_paper(opened: Any, tmp_path: Path) -> None:
    without_first_survey(tmp_path)
    it = opened(390)
    page = it.page
    page.get_by_role("link", name="Open the job").click()
    page.locator('a[href="/job/old/stock/1"]').first.click()
    page.get_by_role("link", name="Survey of this timber, step by step").click()
    add(it, "", {"by": "carpenter, 3 May 2025 (invented)", "length": "168", "species_by": "look"})
    assert "not looked at: sections" in page.locator("#see").inner_text()
    it.accessible()
    it.shot("survey")
    sides = {f"{n}.{key}": text for n, at in ((1, "12"), (2, "84"), (3, "156"))
             for key, text in (("at", at), ("breadth", "7 1/2"), ("depth", "9 3/8"))}  # fmt: skip
    add(it, ".stations", sides)
    meter = page.locator(f'.f[data-path="{SURVEY}.meter"] select')
    meter.select_option("pins")
    page.locator("#kept-said", has_text="written").and_(page.get_by_text("written", exact=True)).wait_for()
    add(it, ".readings.1", {"at": "84", "moisture": "24", "deep": "3 3/4"})
    assert "wettest reading 24 %" in page.locator("#see").inner_text()
    with page.expect_navigation():
        page.locator(f'.do-none[data-none="{SURVEY}.knots"]').click()
    # what cannot be is told beside the entry, and not written
    blank = page.locator(f'details[data-add="{SURVEY}.losses.1"]')
    blank.locator("summary").click()
    for key, text in (("start", "40"), ("end", "200"), ("depth", "1")):
        blank.locator(f'.f[data-path="{key}"] input.in').fill(text)
    blank.locator('.f[data-path="what"] select').select_option("decay")
    where = blank.locator('.f[data-path="where"]')
    where.locator("select, input.text").first.fill("bottom") if where.locator("input.text").count() else (
        where.locator("select").select_option("bottom")
    )
    blank.get_by_role("button", name="Write it into the job").click()
    blank.locator(".inner > .wrong:not([hidden])", has_text="beyond the end").wait_for()
    assert "losses" not in held(tmp_path)
    page.locator("#survey-photo").set_input_files({"name": "x.jpg", "mimeType": "image/jpeg", "buffer": PHOTO})
    page.locator(".photo .kept", has_text="kept as").wait_for()
    page.locator("#kept-said", has_text="written").and_(page.get_by_text("written", exact=True)).wait_for()
    it.accessible()
    it.shot("survey")
    found = held(tmp_path)
    assert [one["depth"] for one in found["stations"]] == ["9 3/8 in"] * 3 and found["meter"] == "pins"
    assert found["readings"][0]["deep"] == "3 3/4 in" and found["knots"] == [] and len(found["photographs"]) == 1
    with page.expect_download() as made:
        page.get_by_role("link", name="The survey as a page to print, PDF").click()
    paper = Sheet(Path(made.value.path()).read_bytes()).squeezed
    assert squeezed("carpenter, 3 May 2025") in paper and squeezed("9 3/8") in paper
