"""What a sheet carries, and how it is read back. Digests are worked out a second time here, by FIPS 180-4 (SHA-256)."""

from __future__ import annotations

import base64
import hashlib
import json
import re
import zlib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from beamcheck import check_text, result_json, sheet_html
from beamcheck.sheet.record.canonical import digest_of
from beamcheck.sheet.record.enclosed import changed_since, read_back
from beamcheck.sheet.record.page_mark import with_result
from beamcheck.sheet.record.page_text import Page
from beamcheck.sheet.record.pdf_read import ReadError

from ...doors.jobs import FAILS, PASSES

STRANGE = PASSES.replace("Invented shed", "Shed <b>&amp;</b> № 7 </template></pre> ½″").replace("\n", "\r\n")


@pytest.fixture(scope="module")
def page() -> str:
    return sheet_html(check_text(FAILS, "job.toml"))


def of(tmp_path: Path, text: str | bytes, name: str = "x") -> Path:
    path = tmp_path / name
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return path


def test_the_digest_of_a_result_can_be_worked_out_anew() -> None:
    record = json.loads(result_json(check_text(FAILS)))
    said = record.pop("digest")

    def as_floats(thing: object) -> object:
        if isinstance(thing, dict):
            return {key: as_floats(value) for key, value in thing.items()}
        if isinstance(thing, list):
            return [as_floats(value) for value in thing]
        return float(thing) if isinstance(thing, int) and not isinstance(thing, bool) else thing

    text = json.dumps(as_floats(record), sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    assert said == hashlib.sha256(text.encode()).hexdigest()


def test_the_digest_outlives_another_writer_of_json() -> None:
    """Spaces, order of keys and 1 for 1.0 are free in JSON (RFC 8259); a value is not."""
    record = {"b": [1, 2.5, None, True], "a": "é"}
    assert digest_of(record) == digest_of(json.loads('{"a":"\\u00e9","digest":"x","b":[1.0,2.50,null,true]}'))
    assert digest_of(record) != digest_of({**record, "b": [1, 2.5, None, 1]})
    assert digest_of(record) != digest_of({**record, "b": [1.0000000000000002, 2.5, None, True]})


def test_a_result_is_written_with_what_holds_nothing_else_on_one_line() -> None:
    text = result_json(check_text(FAILS))
    record = json.loads(text)
    assert list(json.loads(text)) == list(record)
    every = [line.strip().rstrip(",") for line in text.splitlines()]
    for check in record["pieces"][0]["checks"]:
        assert f'"demand": {json.dumps(check["demand"])}' in every
    depth = 0
    for line in text.splitlines():  # each level is one space further in; brackets in texts are none
        bare = re.sub(r'"(?:[^"\\]|\\.)*"', "", line)
        opened, closed = len(re.findall(r"[\[{]", bare)), len(re.findall(r"[\]}]", bare))
        assert len(line) - len(line.lstrip()) == depth - (bare.strip()[:1] in ("]", "}"))
        depth += opened - closed
    assert depth == 0


def test_a_result_that_an_earlier_version_wrote_is_not_taken_for_an_edited_one() -> None:
    """They wrote each value on a line of its own."""
    record = json.loads(result_json(check_text(FAILS)))
    before = json.dumps(record, indent=1) + "\n"
    assert changed_since(before.encode()) == ""
    assert changed_since(before.replace(": 40.0", ": 41.0").replace('"fails"', '"passes"').encode()) != ""


@pytest.mark.parametrize("text", [PASSES, FAILS, STRANGE])
def test_page_and_json_give_the_job_and_the_result_back(text, tmp_path) -> None:
    result = check_text(text, "job.toml")
    for made, kind in ((sheet_html(result), "HTML sheet"), (result_json(result), "JSON result")):
        found = read_back(of(tmp_path, made))
        assert (found.kind, found.job_text, found.faults) == (kind, text, ())
        assert found.record == json.loads(result_json(result))
        assert found.printed_job in (None, text)
    assert read_back(of(tmp_path, text)).kind == "job file"


def test_any_program_can_take_the_result_out_of_the_page(page) -> None:
    """The element holds base64 (RFC 4648) of zlib data (RFC 1950) of the JSON."""
    element = re.search(r'<template id="carried-result"[^>]*>(.*?)</template>', page, re.DOTALL)
    assert element is not None
    assert zlib.decompress(base64.b64decode(element[1])).decode() == result_json(check_text(FAILS, "job.toml"))


def test_the_digest_of_a_page_is_over_all_of_it(page) -> None:
    said = re.search(r'data-digest="([0-9a-f]{64})"', page)
    assert said is not None
    blank = page.replace(said[1], "0" * 64)
    assert said[1] == hashlib.sha256(blank.encode()).hexdigest()


def test_line_ends_and_a_mark_at_the_start_do_not_count(page, tmp_path) -> None:
    """A mail program may change them."""
    found = read_back(of(tmp_path, "\ufeff" + page.replace("\n", "\r\n")))
    assert found.faults == () and found.job_text == FAILS


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_any_other_digit_in_a_page_is_noticed(page, data, tmp_path) -> None:
    body = page.index("<main>"), page.index("<template id=")
    places = [match.start() for match in re.finditer(r"[0-9]", page[body[0] : body[1]])]
    place = body[0] + data.draw(st.sampled_from(places))
    other = data.draw(st.sampled_from([digit for digit in "0123456789" if digit != page[place]]))
    changed = page[:place] + other + page[place + 1 :]
    assert "the digest of the page does not fit" in read_back(of(tmp_path, changed)).faults[0]
    assert changed_since(changed.encode()) == "was edited after whatcarries wrote it"


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        ('"verdict": "fails"', '"verdict": "passes"', "the digest of the result does not fit"),
        ('live = \\"40 psf\\"', 'live = \\"50 psf\\"', "the SHA-256 of the job file does not fit its text"),
        ('"digest": "', '"was": "', "the result has lost its digest"),
    ],
)
def test_a_changed_result_is_noticed(old, new, fault, tmp_path) -> None:
    text = result_json(check_text(FAILS))
    assert old in text
    assert any(fault in found for found in read_back(of(tmp_path, text.replace(old, new))).faults)


def test_a_second_result_in_a_page_is_noticed(page, tmp_path) -> None:
    twice = b"".join(with_result([page], [result_json(check_text(PASSES)).encode()])).decode()
    try:
        faults = read_back(of(tmp_path, twice)).faults
    except ReadError as error:
        faults = (str(error),)
    assert "changed" in faults[0]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("<!DOCTYPE html><p>a letter</p>", "carries no result: it is no calc sheet of whatcarries"),
        ('{"a": 1}', "is JSON, but no result written by `whatcarries check --json`"),
        ("{", "is not JSON that can be read"),
        ("[" * 100_000, "job file"),
        ("{" + '"a":[' * 100_000, "is not JSON that can be read"),
        ('{"generator": "whatcarries 9"}', "is not whole (format: Field required): it was changed"),
        (b"\xff\xfe\x00", "is no job file, HTML or PDF sheet or JSON result: it is not text in UTF-8"),
        (b"%PDF-1.7 broken", "cannot be read as a PDF"),
    ],
)
def test_what_carries_nothing_is_told(text, said, tmp_path) -> None:
    path = of(tmp_path, text)
    if said == "job file":
        assert read_back(path).kind == said
        return
    with pytest.raises(ReadError) as error:
        read_back(path)
    assert said in str(error.value) and str(path) in str(error.value)


def test_a_later_format_is_not_guessed_at(tmp_path) -> None:
    text = result_json(check_text(PASSES)).replace('"format": 2', '"format": 3')
    with pytest.raises(ReadError, match="has a result of format 3; this version reads format 2"):
        read_back(of(tmp_path, text))


@pytest.mark.parametrize(
    ("packed", "said"), [("AAAA", "cannot be unpacked"), ("!", "cannot be unpacked"), ("eJw=", "is cut short")]
)
def test_a_spoilt_element_is_told(packed, said, page, tmp_path) -> None:
    spoilt = re.sub(r'(data-digest="[0-9a-f]{64}">).*?(</template>)', rf"\g<1>{packed}\g<2>", page, flags=re.DOTALL)
    with pytest.raises(ReadError, match=said):
        read_back(of(tmp_path, spoilt))


def test_files_that_cannot_be_read_are_told(tmp_path) -> None:
    for path, said in ((tmp_path / "none.html", "No such file"), (tmp_path, "cannot be read"), ("a\0b", "null")):
        with pytest.raises(ReadError, match=said):
            read_back(path)


def test_a_page_in_parts_has_every_word_once() -> None:
    text = (
        "<head><title>no</title><style>no</style></head><body>a<h2 id=p>Beam B: 2x10</h2>b<section id=c><h4>1. Shear"
        "</h4>d<math><mi>F</mi></math></section>e<pre id=job-text>\n\nx&#13;\n</pre><template>no</template>f"
    )
    page = Page(text)
    assert [(part.key, part.heading, part.text.split()) for part in page.parts] == [
        ("top", "head of the sheet", ["a"]),
        ("p", "Beam B", ["Beam", "B:", "2x10", "b"]),
        ("c", "Beam B, 1. Shear", ["1.", "Shear", "d", "F"]),
        ("after c", "Beam B", ["e", "f"]),
    ]
    assert page.job_text == "\nx\r\n"
