"""`whatcarries survey`: the form, blank and filled, for paper and phone."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path

import pytest

from beamcheck.errors import BeamcheckError
from beamcheck.model.conditions.survey import Survey
from beamcheck.model.reading.reader import read_job
from beamcheck.sheet.survey.form import Choice, Line, Rows, blank_form, filled_form
from beamcheck.sheet.survey.write import survey_html

from ..sheet.pdf.pdf_reader import Sheet, squeezed

JOB = Path(__file__).parents[2] / "worked_examples" / "old_timbers.toml"


def test_the_blank_form_has_room_for_everything_that_a_survey_holds() -> None:
    parts = [part for section in blank_form().sections for part in section.parts]
    assert all(not part.value for part in parts if isinstance(part, Line))
    assert all(not part.chosen and len(part.options) >= 2 for part in parts if isinstance(part, Choice))
    assert all(not any(cell for row in part.rows for cell in row) for part in parts if isinstance(part, Rows))
    # by, length, species_by ... : each entry of the model but the written no, which is a paper of its own
    assert len(parts) >= len(Survey.model_fields) - 1


def test_the_filled_form_shows_what_the_job_holds() -> None:
    form = filled_form(read_job(JOB), "timber 1")
    text = survey_html(form)
    for words in ("9 October 2026", "Eastern White Pine, Eastern Hemlock", "7 3/8 in", "1 1/2 in", "wane", "old holes",
                  "600 lb", "0.19 in", "182 lb", "INVENTED"):  # fmt: skip
        assert words.casefold() in text.casefold(), words
    assert "<script" not in text and "http" not in text.replace("http-equiv", "")
    assert sum('checked' in line for line in text.splitlines()) >= 8  # fmt: skip


def test_what_nobody_looked_at_is_not_printed_as_none() -> None:
    job = read_job(JOB)
    stock = next(one for one in job.stock if one.name == "timber 1")
    assert stock.survey is not None
    for seen, words in ((None, "not looked at"), ((), "none")):
        survey = stock.survey.model_copy(update={"knots": seen, "readings": ()})
        changed = job.model_copy(update={"stock": (stock.model_copy(update={"survey": survey}),)})
        parts = [part for section in filled_form(changed).sections for part in section.parts if isinstance(part, Rows)]
        assert next(part for part in parts if "edge or center" in part.heads).rows[0][0] == words
        assert next(part for part in parts if "reading %" in part.heads).rows[0][0] == "not looked at"


def test_the_page_for_the_phone_is_well_formed() -> None:
    open_tags: list[str] = []

    class Reader(HTMLParser):
        def handle_starttag(self, tag: str, attrs: object) -> None:
            if tag not in ("meta", "input"):
                open_tags.append(tag)

        def handle_endtag(self, tag: str) -> None:
            assert open_tags.pop() == tag

    Reader().feed(survey_html(blank_form()))
    assert open_tags == []


def test_the_command_writes_both(run, tmp_path: Path) -> None:
    for name in ("form.pdf", "form.html"):
        done = run("survey", str(tmp_path / name))
        assert done.exit_code == 0 and (tmp_path / name).is_file()
    filled = tmp_path / "filled.pdf"
    assert run("survey", str(filled), "--job", str(JOB), "--stock", "timber 2").exit_code == 0
    text = squeezed(Sheet(filled.read_bytes()).text)
    assert squeezed("Survey of an old timber: timber 2") in text and squeezed("grader's certificate") in text


@pytest.mark.parametrize(
    ("arguments", "text"),
    [(("--job", str(JOB)), "name one of timber 1"), (("--job", str(JOB), "--stock", "timber 9"), "timber 9"),
     (("--job", str(JOB.parent / "chart_room.toml")), "leave the job out for the blank form")],
)  # fmt: skip
def test_bad_usage(run, tmp_path: Path, arguments: tuple[str, ...], text: str) -> None:
    done = run("survey", str(tmp_path / "x.pdf"), *arguments)
    assert done.exit_code == 2 and text in done.stdout + done.stderr


def test_another_ending_is_refused(run, tmp_path: Path) -> None:
    assert run("survey", str(tmp_path / "x.docx")).exit_code == 2
    with pytest.raises(BeamcheckError):
        filled_form(read_job(JOB), "")
