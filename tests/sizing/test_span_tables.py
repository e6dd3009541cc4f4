"""Span tables: cell by cell what `longest_span` says, and what each page and each file must carry."""

from __future__ import annotations

import csv
from html.parser import HTMLParser
from typing import Any

import pytest

from beamcheck.checks.core.result import CAUTION, SIGN_OFF
from beamcheck.errors import JobError, OutOfRange, UnitError, UnknownName
from beamcheck.sizing.simple_beam import member
from beamcheck.sizing.sizing import longest_span
from beamcheck.sizing.span_tables import COLUMNS, LETTERS, SpanTable, span_table

COMMON: dict[str, Any] = {
    "finish": "gypsum board", "service": "floor", "moisture": "dry", "top_held": "full length", "dead": "10 psf",
    "live": "40 psf", "shared_by": "invented boards",
}  # fmt: skip


def table(**other: Any) -> SpanTable:
    given = {
        "species": ["Hem-Fir", "Douglas Fir-Larch"], "grades": ["Select Structural", "No.2"],
        "sizes": ["2x8", "2x10"], "spacings": ["16 in", "24 in"], **COMMON, **other,
    }  # fmt: skip
    return span_table(**given)


class Page(HTMLParser):
    """Tags, attributes and text of a page; refuses tags that do not close."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: dict[str, str | None] = {}
        self.said: list[str] = []
        self._open: list[str] = []
        self.feed(text)
        assert self._open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes.update(attrs)
        if tag != "meta":
            self._open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.said.append(data.strip())

    @property
    def text(self) -> str:
        return " ".join(filter(None, self.said))


def records(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("# ")))


def test_every_cell_is_the_longest_span_of_its_member() -> None:
    made = table()
    lines = records(made.csv())
    assert len(lines) == len(made.cells) == 16
    for cell, line in zip(made.cells, lines, strict=True):
        one = member(cell.species, cell.grade, cell.size, spacing=f"{cell.spacing} in", **COMMON)
        alone = longest_span(one)
        assert cell.answer is not None
        assert cell.answer.words == alone.words
        assert (line["species"], line["grade"], line["size"]) == (cell.species, cell.grade, cell.size)
        assert float(line["span_in"]) == alone.span
        assert line["governs"] == alone.governs
        assert float(line["ratio"]) <= 1.0


def test_csv_carries_generator_caution_and_keys() -> None:
    text = table(title="Joists\nof an invented house").csv()
    lines = text.splitlines()
    assert lines[0].startswith("# generator: whatcarries ")
    assert "# title: Joists of an invented house" in lines
    assert f"# caution: {CAUTION}" in lines
    assert any(line.startswith("# sign-off: Reviewed by licensed engineer") for line in lines)
    for key in ("Species", "Grade", "Size", "Spacing", "Loads", "Deflection limit"):
        assert any(line.startswith(f"# {key}: ") for line in lines)
    assert "# Loads: dead 10 psf, live 40 psf; own weight is added" in lines
    first = records(text)[0]
    assert tuple(first) == COLUMNS
    assert (first["dead_psf"], first["live_psf"], first["snow_psf"]) == ("10", "40", "")
    assert first["how_values_are_known"] == "memory"
    assert first["from_memory"] == "NDS Supplement 2018 Table 4A"
    number_2 = next(row for row in records(text) if row["grade"] == "No.2")
    assert (number_2["how_values_are_known"], number_2["from_memory"]) == ("read, second-hand", "")


def test_the_page_carries_everything_and_asks_for_nothing() -> None:
    made = table()
    text = made.html()
    page = Page(text)
    assert page.attributes["name"] == "viewport"
    assert 'name="generator" content="whatcarries ' in text[:4096]
    assert CAUTION in page.text
    assert " ".join(SIGN_OFF.split()) in " ".join(page.text.split())
    for label, value in made.keys:
        assert label in page.said
        assert value in page.said
    assert [label for label, _ in made.keys] == ["Species", "Grade", "Size", "Spacing", "Loads", "Deflection limit"]
    assert "live load span/360" in page.text
    assert "memory: to be confirmed against the printed document" in page.text
    assert "stamped with this species and grade only" in page.text
    assert not {"script", "link", "img", "iframe"} & set(page.tags)
    assert "http" not in text.replace("http-equiv", "")
    answer = made.cells[0].answer
    assert answer is not None
    assert LETTERS[answer.governs] in page.said


def test_what_the_user_types_stays_text() -> None:
    page = Page(table(title='<script>alert("x")</script>\x1b\u202e', shared_by="<b>boards</b> & nails").html())
    assert not {"script", "b"} & set(page.tags)
    assert '<script>alert("x")</script>[U+001B][U+202E]' in page.said
    assert any("<b>boards</b> & nails" in text for text in page.said)


def test_no_cell_is_a_formula_for_a_spreadsheet() -> None:
    """A grade is found without regard to its signs, so a typed one could begin with '='."""
    lines = records(table(grades=["=No.2", "+No.1"], species=["Hem-Fir"]).csv())
    assert {line["grade"] for line in lines} == {"'=No.2", "'+No.1"}


def test_cells_without_values_say_why() -> None:
    """Table 4A has Construction up to 4 in wide only."""
    made = table(grades=["No.2", "Construction"], species=["Hem-Fir"])
    empty = [cell for cell in made.cells if cell.answer is None]
    assert {cell.grade for cell in empty} == {"Construction"}
    assert all("'Construction' is not known" in cell.why for cell in empty)
    assert "no values" in Page(made.html()).said
    assert any("2x8 Hem-Fir Construction: no span, grade of Hem-Fir 2x8" in note for note in made.notes)
    line = records(made.csv())[-1]
    assert (line["grade"], line["span_in"], line["governs"]) == ("Construction", "", "")
    assert "'Construction' is not known" in line["note"]


def test_spans_that_end_the_search_or_do_not_exist_are_marked() -> None:
    capped = table(at_most="6 ft")
    assert "6 ft+" in Page(capped.html()).said
    assert {line["search_ended_here"] for line in records(capped.csv())} == {"yes"}
    none = table(dead="4,000 psf", meant={"dead": "an invented load"})
    assert "none" in Page(none.html()).said
    assert {line["span_in"] for line in records(none.csv())} == {"none"}


def test_doubts_are_printed() -> None:
    timbers = table(sizes=["6x12 dressed"], grades=["No.1"], incised=True, shared_by="")
    assert any("incised timber" in text for text in timbers.doubts)
    assert "In doubt" in Page(timbers.html()).said
    assert all("incised timber" in line["in_doubt"] for line in records(timbers.csv()))


def test_repr_and_notebook_carry_the_caution() -> None:
    made = table()
    assert CAUTION in repr(made)
    assert SIGN_OFF in repr(made)
    assert "Spacing: 16 in, 24 in" in repr(made)
    assert CAUTION in made._repr_html_()


def test_a_cap_in_inches_is_among_the_limits() -> None:
    """TMS 402: what carries masonry veneer bends at most 0.3 in."""
    assert "and at most 0.3 in" in dict(table(finish="masonry veneer").keys)["Deflection limit"]


@pytest.mark.parametrize(
    ("given", "error", "message"),
    [
        ({"species": "Hem-Fir"}, OutOfRange, r"species is a list, with one entry at least, such as \['Hem-Fir'\]"),
        ({"spacings": []}, OutOfRange, r"spacings is a list, .*\['16 in', '24 in'\]"),
        ({"species": ["Hemfurr"]}, UnknownName, "species 'Hemfurr' is not known; did you mean 'Hem-Fir'"),
        ({"grades": ["No.9"]}, UnknownName, r"'No\.9' is not known"),
        ({"sizes": ["2 by nothing"]}, UnitError, "size '2 by nothing'"),
        ({"sizes": ["10 in round"], "grades": ["No.1"]}, OutOfRange, "a round piece on a flat seat is for an engineer"),
        ({"spacings": ["16"]}, JobError, "spacing: '16' has no unit"),
        ({"finish": "non"}, JobError, "finish: 'non' is not allowed"),
        ({"dead": "10"}, JobError, "dead: '10' has no unit"),
    ],
)
def test_what_is_refused(given: dict[str, Any], error: type[Exception], message: str) -> None:
    with pytest.raises(error, match=message):
        table(**given)


def test_the_limit_says_what_counts_of_the_dead_load() -> None:
    """IBC Table 1604.3, footnote d: the part that comes with time; creep for masonry and a limit of one's own."""
    own = {"limit_live": 360, "limit_total": 240, "limit_why": "invented letter of an engineer"}
    for more, words in (
        ({}, "total with the part of the dead load that comes with time span/240"),
        ({"finish": "masonry veneer"}, "total with creep span/600 and at most"),
        (own, "total with creep span/240"),
    ):
        assert words in dict(table(**more).keys)["Deflection limit"]
