"""Three people, each from the first page to what they came for."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from beamcheck.api import check_file, write_pdf

from ..pages import with_job

PHOTO = (  # the smallest JPEG that is one
    b"\xff\xd8\xff\xe0\x00\x10JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x00\x00\xff\xdb\x00C\x00" + bytes([8] * 64)
    + b"\xff\xc0\x00\x0b\x08\x00\x01\x00\x01\x01\x01\x11\x00\xff\xc4\x00\x14\x00\x01" + bytes(15) + b"\x00"
    + b"\xff\xda\x00\x08\x01\x01\x00\x00?\x00\x7f\xff\xd9"
)  # fmt: skip


def test_a_carpenter_from_nothing_to_the_shop_sheet_on_a_phone(opened: Any, tmp_path: Path) -> None:
    it = opened(390)
    page = it.page
    it.accessible()
    it.shot("carpenter")
    page.get_by_role("link", name="A beam across a room").click()
    said = {
        "clear": "12 6", "seat": "3 1/2", "width": "4", "dead": "12", "size": "6x12 dressed",
        "wood": "Douglas Fir-Larch No.1", "evidence": "invented: WCLIB No.1 DOUG FIR-L", "meter": "15",
    }  # fmt: skip
    for key, text in said.items():
        page.locator(f'.f[data-key="{key}"] input').fill(text)
    for key, words in (("under", "wood"), ("upright", "yes"), ("room", "a bedroom"), ("finish", "gypsum board")):
        page.locator(f'.f[data-key="{key}"]').get_by_text(words, exact=True).click()
    page.locator('.f[data-key="top_held"]').get_by_text("boards").click()
    page.get_by_label("Name of the job file").fill("hall beam")
    it.accessible()
    it.shot("carpenter")
    page.get_by_role("button", name="Write the job and check it").click()
    page.wait_for_url("**/job/hall%20beam")
    it.accessible()
    it.shot("carpenter")
    page.locator(".pieces a").first.click()
    page.wait_for_selector("#bar .v")
    width = page.get_by_label("Width of floor or roof, feet").first
    width.fill("5")
    page.get_by_text("tried, written when you leave the field").wait_for()
    width.press("Tab")
    page.locator("#kept-said", has_text="written").and_(page.get_by_text("written", exact=True)).wait_for()
    assert '5 ft"' in (tmp_path / "hall beam.toml").read_text()
    width.fill("wide")
    page.wait_for_selector(".f.wrong-here .wrong:not([hidden])")
    assert "is not a length" in page.locator(".f.wrong-here .wrong").inner_text()
    width.fill("5")
    page.locator(".f.wrong-here").wait_for(state="detached")
    it.accessible()
    it.shot("carpenter")
    answer_all(it)
    it.shot("carpenter")
    assert check_file(tmp_path / "hall beam.toml").verdict == "passes"
    page.get_by_role("link", name="Shop", exact=True).click()
    it.shot("carpenter")
    page.locator(".pieces a").first.click()
    page.get_by_label("Who sees it").fill("J. Doe (invented)")
    with page.expect_navigation():
        page.locator(".tick input[type=checkbox]").first.click()
    with page.expect_navigation():
        page.locator(".tick input[type=file]").nth(1).set_input_files(
            {"name": "x.jpg", "mimeType": "image/jpeg", "buffer": PHOTO}
        )
    assert len(list((tmp_path / "photos").iterdir())) == 1
    kept = (tmp_path / "hall beam.seen.toml").read_text()
    assert "J. Doe" in kept and "photos/" in kept
    assert page.locator("#cover").inner_text().startswith("Do not cover it")
    it.accessible()
    it.shot("carpenter")
    screens = page.evaluate("document.documentElement.scrollHeight / 844")
    assert screens < 5.0  # with its form for photos; the sheet itself is four


def answer_all(it: Any) -> None:
    """Each open question answered with its best answer, as the page offers it."""
    page = it.page
    page.get_by_role("link", name="Questions", exact=True).click()
    for number in range(12):
        page.wait_for_selector("#effects-wait", state="detached")
        if not page.locator("form[data-question]").count():
            return
        form = page.locator("form[data-question]").first
        if number == 0:
            it.accessible()
            it.shot("carpenter")
        picks = form.locator("input[name=answer]")
        if picks.count():
            picks.first.check()
        elif form.locator("[name=document]").count():
            form.locator("[name=own]").fill("carries what comes, detail S-2")
            form.locator("[name=document]").fill("letters/S-2.pdf of 2026-03-02")
            forces = form.locator("[name=up_to]")
            if forces.count():
                forces.fill(forces.get_attribute("placeholder"))
        else:
            form.locator("[name=own]").fill("letter of A. Poe, licensed engineer, of 2 March 2026 (invented)")
        form.locator("[name=by]").fill("A. Poe, engineer, license 0000 (invented)")
        evidence = form.locator("[name=evidence]")
        if evidence.count():
            evidence.fill("photo 3 of 2026-03-02 (invented)")
        with page.expect_navigation():
            form.get_by_role("button", name="Write it into the job").click()
    raise AssertionError("still open: " + " ".join(page.locator("details.q b").all_inner_texts()))


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
