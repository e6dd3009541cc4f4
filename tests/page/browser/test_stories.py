"""Three people, each from the first page to what they came for."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from beamcheck.api import check_file, write_pdf

from ..pages import with_job

OUTLINE = """<svg xmlns="http://www.w3.org/2000/svg" width="10in" height="12in" viewBox="0 0 10 12">
<path d="M0 0 H10 V2 Q3 4 2 12 H0 Z" fill="none" stroke="black"/></svg>"""


def test_a_designer_from_an_outline_to_its_template(opened: Any, tmp_path: Path) -> None:
    (tmp_path / "hall_bracket.svg").write_text(OUTLINE)
    it = opened(1280)
    page = it.page
    page.get_by_role("link", name="hall_bracket.svg").click()
    said = {
        "title": "Shelf bracket (invented)", "thickness": "1 1/2", "width": "11 1/4", "species": "Douglas Fir-Larch",
        "grade": "No.2", "on": "oak post",
    }  # fmt: skip
    for key, text in said.items():
        page.locator(f'.f[data-key="{key}"] input').fill(text)
    page.get_by_text("no, it only looks so").click()
    page.get_by_label("Name of the job file").fill("bracket")
    it.accessible()
    it.shot("designer")
    page.get_by_role("button", name="Write the job and check it").click()
    page.wait_for_url("**/job/bracket")
    it.shot("designer")
    page.locator(".pieces a").first.click()
    page.wait_for_selector(".draw svg")
    it.accessible()
    it.shot("designer")
    page.get_by_role("link", name="bracket", exact=True).click()
    with page.expect_download() as made:
        page.get_by_role("link", name="SVG", exact=True).click()
    drawn = Path(made.value.path()).read_text()
    assert "<svg" in drawn and "DO NOT BUILD" in drawn.upper()  # what is not known yet is said on the template
    it.shot("designer")


def test_an_engineer_from_a_received_sheet_to_a_noted_decision(opened: Any, tmp_path: Path) -> None:
    job = with_job(tmp_path)
    write_pdf(check_file(job), tmp_path / "received.pdf")
    it = opened(1280)
    page = it.page
    page.get_by_role("link", name="Open the job").click()
    page.get_by_role("link", name="Engineer").click()
    page.get_by_role("button", name="Read it back").click()
    page.wait_for_selector("#compared h3")
    assert page.locator("#compared").inner_text().count("the same: job, results") == 2
    page.locator("summary .checkline").first.click()
    steps = page.locator("table.steps").first.inner_text()
    assert "NDS 2018" in steps and "f_b" in steps
    it.accessible()
    it.shot("engineer")
    page.get_by_text("accepted as noted").click()
    page.get_by_label("Note", exact=True).fill("Seats: confirm full contact.")
    page.get_by_label("Name, license number").fill("A. Poe, license 0000 (invented)")
    before = job.read_bytes()
    with page.expect_navigation():
        page.get_by_role("button", name="Keep it beside the job").click()
    assert job.read_bytes() == before
    assert "confirm full contact" in (tmp_path / "joists.seen.toml").read_text()
    it.shot("engineer")
    job.write_text(job.read_text().replace('dead = "10 psf"', 'dead = "12 psf"'))
    page.reload()
    page.get_by_role("button", name="Read it back").click()
    page.wait_for_selector("#compared h3")
    said = page.locator("#compared").inner_text()
    assert "the job is not the same any more" in said and "12 psf" in said
    assert "job changed since" in page.locator("table").first.inner_text()
    it.shot("engineer")
