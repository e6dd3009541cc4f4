"""A digest has no key, so whoever changes a sheet can make one that fits: what is shown is compared all the same."""

from __future__ import annotations

import json
from io import BytesIO
from pathlib import Path

import pytest

from beamcheck import check_text, recheck, result_json, sheet_html
from beamcheck.sheet.pdf.render import sheet_pdf
from beamcheck.sheet.record.enclosed import read_back, read_record
from beamcheck.sheet.record.page_mark import page_digest
from beamcheck.sheet.record.pdf_mark import marked
from beamcheck.sheet.record.pdf_read import ReadError
from beamcheck.version import VERSION

from ...doors.jobs import FAILS, PASSES


def sealed(page: str) -> str:
    old = page.partition('data-digest="')[2][:64]
    return page.replace(old, page_digest(page.encode()))


@pytest.mark.parametrize("twice", ['"verdict": "passes",', '"verdict": "fails", "verdict": "passes",'])
def test_a_key_that_stands_there_twice_is_refused(twice: str, tmp_path: Path) -> None:
    """One reader takes the first and another the last (RFC 8259 section 4 leaves it open)."""
    path = tmp_path / "a.json"
    path.write_text(result_json(check_text(FAILS, "job.toml")).replace('"verdict": "fails",', f"{twice} {twice}", 1))
    with pytest.raises(ReadError, match="the key 'verdict' stands there twice: it was changed"):
        read_back(path)


def test_within_a_page_and_deep_down_too(tmp_path: Path) -> None:
    text = result_json(check_text(FAILS, "job.toml"))
    first = text.index('"ratio": {')
    with pytest.raises(ReadError, match="the key 'ratio' stands there twice"):
        read_record(f'{text[:first]}"ratio": null, {text[first:]}')


@pytest.mark.parametrize("figure", ["NaN", "Infinity", "-Infinity"])
def test_what_is_no_number_of_json_is_refused(figure: str) -> None:
    text = result_json(check_text(PASSES, "job.toml"))
    with pytest.raises(ReadError, match=f"{figure} is no number of JSON"):
        read_record(text.replace('"format": 2', f'"format": {figure}'))


def test_a_figure_with_more_digits_than_are_read_is_a_change(tmp_path: Path) -> None:
    """The digest counts what a reader of numbers takes; a person sees the digits."""
    path = tmp_path / "a.json"
    text = result_json(check_text(PASSES, "job.toml"))
    ratio = json.loads(text)["pieces"][0]["checks"][0]["ratio"]["value"]
    path.write_text(text.replace(repr(ratio), f"{ratio!r}00000000000000000000009", 1))
    found = recheck(path)
    assert found.state == "tampered"
    assert "a figure in it has digits that nobody reads" in str(found)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("</style>", "td { color: #fff }</style>"),
        ("</style>", 'h1::before { content: "PASSES " }</style>'),
        ("<main>", '<main style="filter: invert(1)">'),
        ("<h2", "<h2 hidden"),
        ("</main>", '<img src="data:image/png;base64,AAAA"></main>'),
    ],
)
def test_markup_that_shows_other_words(old: str, new: str, tmp_path: Path) -> None:
    path = tmp_path / "a.html"
    page = sheet_html(check_text(FAILS, "job.toml"))
    assert old in page
    path.write_text(sealed(page.replace(old, new, 1)), encoding="utf-8")
    found = recheck(path)
    assert found.state == "tampered" and "markup or styles of the page differ" in str(found)


@pytest.mark.parametrize("drawn", ["1 g 60 600 300 80 re f", "0 g 60 300 200 20 re f"])
def test_a_patch_over_a_page_under_a_digest_that_fits(drawn: str, tmp_path: Path) -> None:
    from pypdf import PdfReader, PdfWriter
    from pypdf.generic import DecodedStreamObject, NameObject

    text = FAILS
    writer = PdfWriter(clone_from=PdfReader(BytesIO(sheet_pdf(check_text(text, "job.toml")))))
    page = writer.pages[0]
    contents = page.get_contents()
    assert contents is not None
    patch = DecodedStreamObject()
    patch.set_data(b"q " + contents.get_data() + b" Q q 1 0 0 1 0 0 cm " + drawn.encode() + b" Q")
    page[NameObject("/Contents")] = writer._add_object(patch)
    out = BytesIO()
    writer.write(out)
    path = tmp_path / "a.pdf"
    path.write_bytes(marked(out.getvalue(), VERSION))
    found = recheck(path)
    assert found.state == "tampered"
    assert [one.where for one in found.tampered] == [
        "page 1: something is drawn over it, or is not drawn, beside its words"
    ]


def bomb(depth: int) -> bytes:
    """A PDF of a page that draws a form ten times, which draws a form ten times, and so on."""
    from pypdf import PdfReader, PdfWriter
    from pypdf.generic import DecodedStreamObject, DictionaryObject, NameObject

    writer = PdfWriter(clone_from=PdfReader(BytesIO(sheet_pdf(check_text(PASSES, "job.toml")))))
    inner = None
    for _ in range(depth):
        form = DecodedStreamObject()
        form[NameObject("/Type")], form[NameObject("/Subtype")] = NameObject("/XObject"), NameObject("/Form")
        form.set_data(b"/F Do " * 10 if inner is not None else b"BT (x) Tj ET " * 100)
        if inner is not None:
            forms = DictionaryObject({NameObject("/F"): inner})
            form[NameObject("/Resources")] = DictionaryObject({NameObject("/XObject"): forms})
        inner = writer._add_object(form)
    page = writer.pages[0]
    resources = page["/Resources"].get_object()
    resources[NameObject("/XObject")] = DictionaryObject({NameObject("/F"): inner})  # type: ignore[index]
    contents = page.get_contents()
    assert contents is not None
    stream = DecodedStreamObject()
    stream.set_data(contents.get_data() + b" /F Do")
    page[NameObject("/Contents")] = writer._add_object(stream)
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


@pytest.mark.parametrize("depth", [9, 40])
def test_a_few_bytes_that_unfold_to_hours(depth: int, tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    path.write_bytes(bomb(depth))
    with pytest.raises(ReadError, match="unfolds to far more than a sheet has"):
        recheck(path)


def test_a_page_whose_result_unfolds_without_end(tmp_path: Path) -> None:
    import base64
    import zlib

    page = sheet_html(check_text(PASSES, "job.toml"))
    before, _, rest = page.partition("<template")
    opening, _, after = rest.partition(">")
    packed = base64.encodebytes(zlib.compress(b" " * 300_000_000)).decode()
    path = tmp_path / "a.html"
    path.write_text(sealed(f"{before}<template{opening}>\n{packed}{after[after.index('</template>') :]}"))
    with pytest.raises(ReadError, match="larger than 40 MB: it is too large to be read back; check its job file again"):
        read_back(path)


@pytest.mark.parametrize(
    ("markup", "why"),
    [
        ("<a b='" * 100_000, "has a tag that is not closed"),  # each was looked through to the end of the page
        ('<a b="c>' * 100_000, "has a tag that is not closed"),
        ("<" * 100_000, "has a tag that is not closed"),
        ("<p>" * 2_600_000, "tags and attributes: too large to be read back"),
        (f"<p {'a ' * 2_600_000}>", "tags and attributes: too large to be read back"),
    ],
)
def test_markup_that_takes_hours_to_read(markup: str, why: str, tmp_path: Path) -> None:
    path = tmp_path / "a.html"
    page = sheet_html(check_text(PASSES))
    path.write_text(page.replace("</body>", f"{markup}</body>"), encoding="utf-8")
    with pytest.raises(ReadError, match=why):
        read_back(path)
