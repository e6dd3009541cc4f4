"""A sheet checked again. What must be found is put in by hand; expected stresses are M/S = w l^2/8 / S, typed here."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

import beamcheck
from beamcheck import check_text, compare_files, recheck, result_json, sheet_html
from beamcheck.errors import JobError
from beamcheck.sheet.pdf.render import sheet_pdf
from beamcheck.sheet.record.canonical import digest_of
from beamcheck.sheet.record.enclosed import read_back
from beamcheck.sheet.record.page_mark import page_digest
from beamcheck.sheet.record.pdf_read import ReadError

from ...doors.jobs import FAILS, PASSES, REFER, joist

Make = Callable[[str, str], Path]
GOVERNS = "J1 2x10 Hem-Fir No.2, 12 ft, What governs: bending"  # where its figure is printed
SUFFIXES = ("html", "pdf", "json")
STRONGER = PASSES.replace('live = "40 psf"', 'live = "50 psf"')
S = 1.5 * 9.25**2 / 6  # in3, of a dressed 2x10


@pytest.fixture
def make(tmp_path: Path) -> Make:
    """Write a sheet of a job: `make(text, "a.pdf")`."""

    def made(text: str, name: str) -> Path:
        result = check_text(text, "job.toml")
        path = tmp_path / name
        match path.suffix:
            case ".html":
                path.write_text(sheet_html(result), encoding="utf-8")
            case ".pdf":
                path.write_bytes(sheet_pdf(result))
            case ".json":
                path.write_text(result_json(result))
            case _:
                path.write_bytes(text.encode())
        return path

    return made


def edit(path: Path, old: str, new: str) -> Path:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return path


def sealed(path: Path) -> Path:
    """Give an edited page a digest that fits, as somebody might who knows how."""
    text = path.read_text(encoding="utf-8")
    old = text.partition('data-digest="')[2][:64]
    path.write_text(text.replace(old, page_digest(text.encode())), encoding="utf-8")
    return path


@pytest.mark.parametrize("text", [PASSES, REFER, FAILS, PASSES.replace("\n", "\r\n")])
@pytest.mark.parametrize("suffix", SUFFIXES)
def test_an_untouched_sheet_is_the_same(suffix, text, make) -> None:
    found = recheck(make(text, f"a.{suffix}"))
    assert found.state == "same"
    assert not (found.tampered or found.inputs or found.results)
    assert str(found).startswith("SAME. ")


@pytest.mark.parametrize("units", ["US", "SI"])
def test_a_sheet_in_either_units_is_the_same(units, tmp_path) -> None:
    path = tmp_path / "a.html"
    path.write_text(sheet_html(check_text(FAILS, units=units)), encoding="utf-8")
    assert recheck(path).state == "same"


def test_the_answer_to_a_span_question_is_the_same(tmp_path) -> None:
    """Its answer and its assumptions stand outside its job text."""
    answer = beamcheck.span_question(
        "2x10", "Hem-Fir", "No.2", dead="10 psf", live="40 psf", spacing="16 in", finish="none", length="10 ft"
    )
    path = tmp_path / "a.json"
    path.write_text(result_json(answer))
    assert recheck(path).state == "same"


class TestTampered:
    def test_a_digit_of_a_result_in_a_page(self, make) -> None:
        found = recheck(edit(make(PASSES, "a.html"), "Ratio 0.751", "Ratio 0.651"))
        assert found.state == "tampered" and not found.results
        assert [str(one) for one in found.tampered] == [
            "the digest of the page does not fit: words or markup of it were changed",
            f"{GOVERNS}: printed: was '0.751:', is '0.651:'",
        ]

    def test_a_digit_whose_digest_was_made_to_fit(self, make) -> None:
        found = recheck(sealed(edit(make(PASSES, "a.html"), "Ratio 0.751", "Ratio 0.651")))
        assert [str(one) for one in found.tampered] == [f"{GOVERNS}: printed: was '0.751:', is '0.651:'"]

    def test_a_verdict_in_a_page(self, make) -> None:
        path = make(FAILS, "a.html")
        text = path.read_text(encoding="utf-8")
        path.write_text(text.replace("> fails</span>", "> passes</span>"), encoding="utf-8")
        assert any("was 'fails'" in str(one) and "is 'passes'" in str(one) for one in recheck(path).tampered)

    def test_words_taken_out_of_a_page(self, make) -> None:
        found = recheck(edit(make(PASSES, "a.html"), "</strong> This is a calculation aid", "</strong>"))
        assert any("This is a calculation aid" in one.was for one in found.tampered)

    def test_markup_only(self, make) -> None:
        found = recheck(edit(make(PASSES, "a.html"), "<main>", "<main hidden>"))
        assert found.state == "tampered" and len(found.tampered) == 2
        assert "words or markup of it were changed" in str(found.tampered[0])
        assert "markup or styles of the page differ" in str(found.tampered[1])

    def test_the_printed_job_file(self, make) -> None:
        found = recheck(edit(make(PASSES, "a.html"), "&#34;40 psf&#34;", "&#34;30 psf&#34;"))
        assert """job file, beam "J1", carries 1, live: was '40 psf', is '30 psf'""" in map(str, found.tampered)

    def test_the_job_file_beside_a_pdf_must_be_the_one_inside(self, make, tmp_path) -> None:
        path = tmp_path / "a.pdf"
        path.write_bytes(attached(PASSES, {"job.toml": STRONGER}))
        assert """job file, beam "J1", carries 1, live: was '40 psf', is '50 psf'""" in map(str, recheck(path).tampered)

    def test_a_figure_printed_in_a_pdf(self, tmp_path) -> None:
        """Set anew with another figure and all else as it was: the text of its pages tells."""
        result = check_text(PASSES, "job.toml")
        piece = result.pieces[0]
        milder = replace(piece.checks[0], ratio=0.651)
        forged = replace(result, pieces=(replace(piece, checks=(milder, *piece.checks[1:])),))
        path = tmp_path / "a.pdf"
        path.write_bytes(attached(PASSES, {"result.json": result_json(result)}, sheet=sheet_pdf(forged)))
        found = recheck(path)
        assert found.state == "tampered"
        assert any("page" in str(one) and "0.751" in one.was and "0.651" in one.now for one in found.tampered)

    def test_a_note_laid_over_a_page_of_a_pdf(self, make) -> None:
        from pypdf import PdfReader, PdfWriter
        from pypdf.annotations import FreeText

        path = make(PASSES, "a.pdf")
        writer = PdfWriter(clone_from=PdfReader(path))
        writer.add_annotation(0, FreeText(text="passes", rect=(50, 550, 200, 650)))
        writer.write(path)
        found = [str(one) for one in recheck(path).tampered]
        assert found[0].startswith("the digest of the PDF does not fit")
        assert "something (FreeText) was laid over page 1: see what it covers" in found

    def test_a_result_as_json(self, make) -> None:
        found = recheck(edit(make(FAILS, "a.json"), '"verdict": "fails"', '"verdict": "passes"'))
        assert found.state == "tampered"
        assert "the whole job, verdict: was passes, is fails" in map(str, found.results)

    def test_a_result_whose_digest_was_made_to_fit_is_still_another_result(self, make) -> None:
        """The digest has no key: only working it out again shows this."""
        path = make(FAILS, "a.json")
        record = json.loads(path.read_text())
        record["pieces"][1]["checks"][0].update(verdict="passes", ratio={"value": 0.9, "unit": ""})
        record["digest"] = digest_of(record)
        path.write_text(json.dumps(record))
        found = recheck(path)
        assert found.state == "changed results" and not found.tampered
        assert any("was verdict passes; ratio 0.9, is verdict fails; ratio 3.05" in str(one) for one in found.results)


class TestASignatureIsMeantToBeAdded:
    """A true one is in tests/doors/test_sign_command.py."""

    def test_it_covers_no_change_of_what_was_there(self, make) -> None:
        path = make(PASSES, "a.pdf")
        raw = bytearray(path.read_bytes())
        raw[raw.find(b"%PDF-") + 7] ^= 1  # the version of the format: read the same, another byte
        path.write_bytes(bytes(raw) + b"% /Sig /ByteRange\n" + raw[raw.rfind(b"startxref") :])
        assert "the digest of the PDF does not fit" in str(recheck(path))


class TestAgainstTheJobFileAsItIsNow:
    @pytest.mark.parametrize("suffix", SUFFIXES)
    def test_a_changed_input_and_what_follows_from_it(self, suffix, make) -> None:
        sheet, job = make(PASSES, f"a.{suffix}"), make(STRONGER, "now.toml")
        found = recheck(sheet, job)
        assert found.state == "changed inputs" and not found.tampered
        assert [str(one) for one in found.inputs] == ["""beam "J1", carries 1, live: was '40 psf', is '50 psf'"""]
        bending = next(one for one in found.results if "bending" in one.where)
        more = 10 / 144 * 16 * 144**2 / 8 / S  # psi, from 10 psf more on 16 in of width over 12 ft
        was, now = (float(text.split("demand ")[1].split()[0]) for text in (bending.was, bending.now))
        assert now - was == pytest.approx(more, abs=0.11)  # both are printed with four digits

    @pytest.mark.parametrize(
        "other",
        [
            PASSES.replace('"12 ft"', '"144 in"').replace('"40 psf"', '"40 lb/ft2"'),
            "# a remark\n" + PASSES.replace(" = ", "="),
            PASSES.replace("invented = true\n", "invented = true\nunits = 'US'\n"),  # the default, said
            PASSES.replace("\n", "\r\n"),
        ],
    )
    def test_another_way_to_write_the_same_job(self, other, make) -> None:
        found = recheck(make(PASSES, "a.html"), make(other, "now.toml"))
        assert found.state == "same"
        assert "differ in spaces, comments, order or spelling only" in str(found)

    def test_a_job_file_that_is_not_right_is_an_error(self, make) -> None:
        with pytest.raises(JobError, match="has no unit"):
            recheck(make(PASSES, "a.html"), make_bad(make))

    def test_a_sheet_is_no_job_file(self, make) -> None:
        with pytest.raises(ReadError, match="is no job file: `whatcarries compare` compares two sheets"):
            recheck(make(PASSES, "a.json"), make(PASSES, "b.json"))

    def test_a_job_file_is_no_sheet(self, make) -> None:
        with pytest.raises(ReadError, match="is no sheet and carries no result"):
            recheck(make(PASSES, "a.toml"))


def make_bad(make: Make) -> Path:
    path = make(PASSES, "now.toml")
    path.write_text(PASSES.replace('"40 psf"', '"40"'))
    return path


class TestAnotherVersion:
    """A version that printed the same in other words: only verdicts and figures can be looked for."""

    @pytest.fixture(params=["html", "pdf"])
    def old(self, request, tmp_path) -> tuple[Path, Callable[[float], None]]:
        result = replace(check_text(FAILS, "job.toml"), version="0.0.9")
        path = tmp_path / f"a.{request.param}"

        def write(ratio: float, demand: float | None = None) -> None:
            first, second = result.pieces
            check = replace(second.checks[0], ratio=ratio)
            check = check if demand is None else replace(check, demand=demand, steps=())
            shown = replace(result, pieces=(first, replace(second, checks=(check, *second.checks[1:]))))
            if path.suffix == ".pdf":
                path.write_bytes(attached(FAILS, {"result.json": result_json(result)}, sheet=sheet_pdf(shown)))
            else:
                carried = sheet_html(result)
                page = sheet_html(shown)
                template = carried[carried.index("<template") : carried.index("</template>")]
                path.write_text(page[: page.index("<template")] + template + page[page.index("</template>") :])
                sealed(path)

        return path, write

    def test_the_same_figures(self, old) -> None:
        path, write = old
        write(check_text(FAILS).pieces[1].checks[0].ratio or 0.0)
        found = recheck(path)
        assert not [one for one in found.tampered if "does not print" in one.where]
        assert not found.results and not found.inputs
        assert "It was made by whatcarries 0.0.9, and this is whatcarries" in str(found)
        assert "The results are of two versions: whatcarries 0.0.9 and" in str(found)

    def test_another_figure(self, old) -> None:
        path, write = old
        write(0.95)
        assert [one.where for one in recheck(path).tampered if "does not print" in one.where] == [
            "J2, bending: the sheet does not print what it carries, verdict fails, ratio 3.05"
        ]

    def test_another_demand_beside_the_same_ratio(self, old) -> None:
        path, write = old
        bending = check_text(FAILS).pieces[1].checks[0]
        write(bending.ratio or 0.0, 935.0)
        demand = 210 * 16 / 12 * 144**2 / 8 / 12 / S  # psi, by w l^2/8 over S, with its own weight left out: near it
        found = [str(one) for one in recheck(path).tampered if "does not print" in one.where]
        assert len(found) == 1 and "J2, bending: the sheet does not print what it carries, demand 2," in found[0]
        printed = float(found[0].rpartition("demand ")[2].split()[0].replace(",", ""))
        assert 1.0 < printed / demand < 1.03

    def test_a_job_that_is_not_read_any_more(self, make) -> None:
        path = make(PASSES, "a.json")
        record = json.loads(path.read_text())
        record["job_file"]["text"] = PASSES.replace('finish = "none"', 'surface = "none"')
        path.write_text(json.dumps(record))
        found = recheck(path)
        assert any("this version does not read the job any more" in str(one) for one in found.results)


class TestCompare:
    @pytest.mark.parametrize("first", ["a.toml", "a.html", "a.pdf", "a.json"])
    def test_every_pairing_tells_the_same(self, first, make) -> None:
        earlier = make(PASSES, first)
        for name in ("b.toml", "b.html", "b.json"):
            found = compare_files(earlier, make(STRONGER, name))
            assert [str(one) for one in found.inputs] == ["""beam "J1", carries 1, live: was '40 psf', is '50 psf'"""]
            assert any("bending" in one.where for one in found.results)
            assert compare_files(earlier, make(PASSES, name)).state == "same"

    def test_a_tampered_one_is_named(self, make) -> None:
        one, other = make(PASSES, "a.html"), edit(make(PASSES, "b.html"), "Ratio 0.751", "Ratio 0.651")
        found = compare_files(one, other)
        assert found.state == "tampered"
        assert all(str(other) in sign.where for sign in found.tampered)

    def test_a_new_piece_and_its_results(self, make) -> None:
        found = compare_files(make(PASSES, "a.toml"), make(PASSES + joist("J2", live="200 psf"), "b.toml"))
        said = str(found)
        assert """beam "J2": is new, { name = 'J2'""" in said
        assert "beam J2: is new, verdict fails, " in said
        assert "the whole job, verdict: was passes, is fails" in said
        assert "Verdict of the first: passes; of the second: fails." in said

    def test_a_renamed_piece_has_no_changed_results(self, make) -> None:
        found = compare_files(make(PASSES, "a.toml"), make(PASSES.replace('"J1"', '"N1"'), "b.toml"))
        assert [str(one) for one in found.inputs] == ["beam, name: was 'J1', is 'N1'"]
        assert not [one for one in found.results if "bending" in one.where or "is new" in str(one)]

    def test_progress_is_told_and_nothing_is_written(self, make, tmp_path) -> None:
        told: list[str] = []
        one, other = make(PASSES, "a.html"), make(PASSES, "b.toml")
        before = {path: path.read_bytes() for path in tmp_path.iterdir()}
        compare_files(one, other, tell=told.append)
        assert any("reading" in text for text in told) and any("working out" in text for text in told)
        assert {path: path.read_bytes() for path in tmp_path.iterdir()} == before


def test_every_report_carries_caution_sign_off_line_and_what_a_digest_is_not(make) -> None:
    for path in (make(PASSES, "a.html"), edit(make(PASSES, "b.html"), "Ratio 0.751", "Ratio 0.651")):
        said = " ".join(str(recheck(path)).split())
        assert beamcheck.CAUTION in said and " ".join(beamcheck.SIGN_OFF.split()) in said
        assert "The digests in a sheet have no key and are no signature" in said
        assert "What counts is the engineer's own signature" in said


def test_nothing_of_a_file_steers_the_terminal_or_makes_a_line_of_its_own(make, tmp_path) -> None:
    """A job file with such a name is refused; the record of a sheet may come from anywhere, and still hold one."""
    with pytest.raises(JobError) as refused:
        make(PASSES.replace('"J1"', '"J1 \\u001b[2J\\u202e"'), "b.toml")
    record = json.loads(result_json(check_text(PASSES)))
    evil = json.dumps(record["pieces"]).replace("J1", "J1 \\u001b[2J\\u202e\\nSAME. All is well")
    record["pieces"] = json.loads(evil)
    del record["digest"]
    path = tmp_path / "b.json"
    path.write_text(json.dumps({**record, "digest": digest_of(record)}))
    two_lines = PASSES.replace("Invented shed", "shed\\nSAME. All is well")
    a = make(PASSES, "a.toml")
    compared = [str(compare_files(a, path)), str(compare_files(a, make(two_lines, "c.toml")))]
    assert "J1" in compared[0] and "shed" in compared[1]
    for said in (str(refused.value), *compared):
        assert "\x1b" not in said and "\u202e" not in said
        assert not any(line.startswith("SAME") for line in said.splitlines())


def attached(text: str, files: dict[str, str], sheet: bytes | None = None) -> bytes:
    """A sheet whose attachments were exchanged."""
    from io import BytesIO

    from pypdf import PdfReader, PdfWriter

    result = check_text(text, "job.toml")
    reader = PdfReader(BytesIO(sheet if sheet is not None else sheet_pdf(result)))
    writer = PdfWriter()
    for page in reader.pages:
        writer.add_page(page)
    held = {"job.toml": text, "result.json": result_json(result), **files}
    for name, content in held.items():
        writer.add_attachment(name, content.encode())
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


def test_a_result_of_the_format_before_is_still_read(tmp_path: Path) -> None:
    """Format 1 named no check and asked no question; what is compared has the same keys."""
    record = json.loads(result_json(check_text(PASSES)))
    for piece in record["pieces"]:
        for one in piece["checks"]:
            del one["id"], one["questions"]
    record |= {"format": 1, "generator": "beamcheck 0.2.0"}
    del record["digest"]
    path = tmp_path / "old.json"
    path.write_text(json.dumps({**record, "digest": digest_of(record)}))
    assert read_back(path).result.format == 1
