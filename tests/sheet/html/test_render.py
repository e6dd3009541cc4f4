"""The page: whole, safe, self-contained, and faithful to the job file."""

from __future__ import annotations

import hashlib
import re
import subprocess
import sys
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from beamcheck.calc.pad import Step
from beamcheck.checks.core.result import CAUTION
from beamcheck.errors import BeamcheckError
from beamcheck.sheet.document.blocks import Entry, Heading, Lines, Masthead, Paragraph, Taken
from beamcheck.sheet.document.rich_blocks import RichTable, Strong, Symbol
from beamcheck.sheet.html.render import css_text, prose, reason, render
from beamcheck.sheet.write import made_here, write_atomically

from ..sample import JOB_TEXT, job

VOID = {"meta", "br", "hr", "img", "input", "link"}
EVIL = "<script>alert(1)</script> \"q\" 'q' </style></title></pre> {{ 7*7 }} {% endfor %} \\ שלום 🪵 \u202e"


class Page(HTMLParser):
    """Tags in order, text by tag; raises when a tag is closed that is not open."""

    def __init__(self, markup: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.texts: list[tuple[str, str]] = []
        self.feed(markup)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open, f"</{tag}> closes nothing"
        assert self.open.pop() == tag, f"</{tag}> closes another tag"

    def handle_data(self, data: str) -> None:
        if self.open:
            self.texts.append((self.open[-1], data))

    def text_of(self, tag: str) -> str:
        return "".join(text for inside, text in self.texts if inside == tag)

    @property
    def text(self) -> str:
        return " ".join("".join(text for inside, text in self.texts if inside != "style").split())


@pytest.fixture(scope="module", params=[False, True], ids=["short", "all steps"])
def page(request) -> Page:
    return Page(render(job(), all_steps=request.param))


@pytest.fixture(scope="module")
def full() -> Page:
    return Page(render(job(), all_steps=True))


def test_every_tag_is_closed(page: Page) -> None:
    assert page.open == []


def test_no_script_and_no_request(page: Page) -> None:
    tags = {tag for tag, _attributes in page.tags}
    assert not tags & {"script", "link", "img", "iframe", "object", "embed", "base", "form"}
    for tag, attributes in page.tags:
        assert not any(name.startswith("on") or name in ("src", "srcset", "style", "data") for name in attributes), tag
        assert (attributes.get("href") or "#").startswith("#")
    style = page.text_of("style")
    assert "url(" not in style and "@import" not in style and "http" not in style
    policy = next(attributes for _tag, attributes in page.tags if attributes.get("http-equiv"))
    assert policy["content"] == "default-src 'none'; style-src 'unsafe-inline'"


def test_caution_sign_off_and_mark_of_invented_data(page: Page) -> None:
    assert page.text.count(CAUTION) == 2
    for words in ("Reviewed by licensed engineer:", "License no.:", "Date:", "seal", "Invented data"):
        assert words in page.text
    style = page.text_of("style")
    assert "invented data" in style and 'counter(page) " of " counter(pages)' in style  # on every printed page


def test_the_running_caution_is_on_every_printed_page(page: Page) -> None:
    found = re.search(r'@bottom-left \{ content: "([^"]*)"', page.text_of("style"))
    assert found is not None
    assert re.sub(r"\\([0-9a-f]+) ", lambda code: chr(int(code[1], 16)), found[1]) == CAUTION


def test_verdicts_are_words(page: Page) -> None:
    for word in ("fails", "refer", "passes"):
        assert f" {word} " in page.text


def test_what_was_told_of_a_member_is_folded_on_a_phone_only(full: Page) -> None:
    """On a broad screen and on paper it stands open."""
    told = [attributes.get("class") for tag, attributes in full.tags if tag == "details"].count("rows told")
    assert told >= len(job().pieces)
    style = full.text_of("style")
    broad = style.index("@media (min-width: 40.01rem)")
    assert style.index("details.told::details-content { content-visibility: visible") > broad
    assert style.index("details.told > summary { display: none; }") > broad
    assert style.index("details.rows::details-content { content-visibility: visible") > style.index("@media print")


def test_every_step_is_folded_and_the_members_are_at_hand(full: Page) -> None:
    folds = [attributes.get("class") for tag, attributes in full.tags if tag == "details"]
    assert folds.count("steps") == len(job().pieces)  # left out on paper; what governs is folded, and printed
    assert set(folds) == {"steps", "rows", "rows told"}
    lists = [attributes for tag, attributes in full.tags if tag == "nav" and attributes.get("class") == "members"]
    assert len(lists) == 1
    style = full.text_of("style").partition("@media print")[2]
    assert ".members, details.steps, details.rows > summary { display: none; }" in style
    assert "steps" not in {attributes.get("class") for tag, attributes in Page(render(job())).tags if tag == "details"}


def test_links_lead_somewhere(page: Page) -> None:
    places = [attributes["id"] for _tag, attributes in page.tags if "id" in attributes]
    assert len(set(places)) == len(places)
    for _tag, attributes in page.tags:
        if (target := attributes.get("href")) is not None:
            assert target.removeprefix("#") in places
        for place in (attributes.get("aria-labelledby") or "").split():
            assert place in places


def test_the_job_file_comes_back_character_by_character() -> None:
    """Line ends, markup and blank first lines survive: the fingerprint can be checked from the sheet alone."""
    for text in (JOB_TEXT, JOB_TEXT.replace("\n", "\r\n"), "\n\n  first line blank\t<pre> & </pre>\r\n"):
        shown = Page(render(job(job_text=text))).text_of("pre")
        assert shown[0] == "\n"  # a browser drops the line end that follows <pre>
        assert shown[1:] == text
        assert hashlib.sha256(shown[1:].encode()).hexdigest() == job(job_text=text).fingerprint


@pytest.mark.parametrize("all_steps", [False, True])
def test_text_of_the_job_stays_text(all_steps: bool) -> None:
    piece = job().pieces[0]
    evil = replace(
        piece, name=EVIL, title=EVIL, inputs=((EVIL, EVIL),), assumptions=(EVIL,), remedies=(EVIL,),
        checks=(replace(piece.checks[0], what=EVIL, where=EVIL, combination=EVIL, clause=EVIL, notes=(EVIL,)),),
    )  # fmt: skip
    result = replace(
        job(title=EVIL, job_text=EVIL), pieces=(evil,), reasons=(EVIL,), about=((EVIL, EVIL),), version=EVIL
    )
    markup = render(result, all_steps=all_steps)
    page = Page(markup)
    assert page.open == []
    assert "script" not in {tag for tag, _attributes in page.tags}
    assert "<script" not in markup
    assert "{{ 7*7 }}" in page.text and "\u202e" not in page.text_of("h1")
    assert EVIL.removesuffix("\u202e") in page.text_of("pre") and '<b data-letter="202e">[U+202E]</b></pre>' in markup


@pytest.mark.parametrize("title", ["x" * 5000, "word " * 1000, "\x00\x07\ud800", "", "א" * 5000])
def test_any_title(title: str) -> None:
    markup = render(job(title=title))
    assert Page(markup).open == []
    markup.encode("utf-8")
    assert len(markup) - len(render(job(title=""))) < 25_000


def test_same_result_same_page() -> None:
    assert render(job()) == render(job())


def test_blocks_without_a_masthead_are_refused() -> None:
    with pytest.raises(BeamcheckError, match="a sheet begins with a Masthead block"):
        render([Heading("x")])


def test_a_sheet_of_a_few_blocks() -> None:
    head = Masthead("t", "t", "whatcarries 0", "abc", "c", invented=False)
    lines = Lines((), (Taken((Entry(Step("F_b", 900.0, "psi")),)),))
    markup = render([head, Paragraph("one & two"), lines])
    assert "<p>one &amp; two</p>" in markup and "<math" in markup
    assert "Invented" not in markup


def test_field_names_are_code_and_symbols_have_subscripts() -> None:
    assert prose("nobody is named (`confirmed_by`)") == "nobody is named (<code>confirmed_by</code>)"
    assert prose("except C_L and C_fu") == "except <i>C</i><sub>L</sub> and <i>C</i><sub>fu</sub>"
    assert prose("my_file and `a_b") == "my_file and `a_b"  # no symbol, no pair of backticks
    assert prose("`<b>`") == "<code>&lt;b&gt;</code>"


def test_beside_a_step_stand_meaning_note_and_clause() -> None:
    assert reason(Step("C_L", 1.0, "", clause="NDS 2018 3.3.3", note="d/b is 2 or less")) == (
        "Beam stability factor: d/b is 2 or less. NDS 2018 3.3.3."
    )
    assert reason(Step("q_zz", 1.0, "", note="from the analysis")) == "From the analysis."
    assert reason(Step("q_zz", 1.0, "")) == ""


def test_a_value_from_memory_says_so_beside_its_number_and_links_to_its_source(full: Page) -> None:
    assert "Reference bending design value. [1] memory, low confidence" in full.text
    targets = [attributes.get("href") for tag, attributes in full.tags if tag == "a"]
    assert "#source-1" in targets


def test_a_step_that_stands_in_an_earlier_check_is_named_with_its_value() -> None:
    piece = job().pieces[0]
    again = replace(piece.checks[0], what="bending of the other half")
    markup = render(replace(job(), pieces=(replace(piece, checks=(piece.checks[0], again)),)), all_steps=True)
    page = Page(markup)
    assert 'As in <a href="#piece-1-check-1">check 1</a>:' in markup
    assert "= 1,050 psi [1] memory, low confidence," in page.text  # the mark stays with the value
    assert page.text.count("Reference bending design value.") == 1


def test_css_text_cannot_leave_its_string() -> None:
    assert css_text('a"}</style>') == '"a\\22 \\7d \\3c \\2f style\\3e "'


def test_the_written_sheet_is_known_as_ours(tmp_path) -> None:
    """Also with the longest title: the mark stands before it."""
    path = write_atomically(tmp_path / "sheet.html", render(job(title="x" * 5000)))
    assert made_here(path)


def test_importing_the_sheet_loads_nothing_heavy() -> None:
    """typst, jinja2 and sympy are loaded when a sheet is made, not when the command starts."""
    code = (
        "import sys, beamcheck.sheet.html, beamcheck.sheet.write;"
        "print(sorted({'typst', 'jinja2', 'markupsafe', 'sympy', 'scipy', 'pint'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_factor_says_its_symbol_where_a_phone_shows_no_heads_and_a_table_without_rows_is_none() -> None:
    head = Masthead("A job", "A job", "tool", "f" * 64, "Caution text.", False)
    row = (Symbol("F_b"), "850 psi", "1.15", Strong("978 psi"))
    factors = RichTable("Values", ("value", "reference", Symbol("C_D"), "allowed"), (row,), (0.0, 0.0, 0.0, 0.0))
    rules = RichTable("Distances", ("rule",), (), (1.0,), note="Kept with room to spare.")
    page = render((head, factors, rules))
    assert 'data-head="CD"' in page
    assert page.count("<table") == 1
    assert "Distances" in page and "Kept with room to spare." in page
