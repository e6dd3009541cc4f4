"""Text that people wrote stays text in the PDF, whatever is in it, and none of it is lost without a word."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from beamcheck.lettering import legible
from beamcheck.sheet.pdf.render import sheet_pdf
from beamcheck.sheet.pdf.text import prose
from beamcheck.sheet.pdf.typefaces import BREAK, FACES, LEFT_TO_RIGHT, held, in_drawing, printable

from ..html.test_render import EVIL
from ..sample import job
from .pdf_reader import Sheet, squeezed

TYPST = '#let x = 1; $ x^2 $ @ref <label> *bold* _it_ = head // no /* yes */ \\u{41} #panic("a") #pdf.attach("x", "y")'
WORSE = f"{EVIL} {TYPST} ال 12.5 👩\u200d🔧 木材"
CODES = re.compile(r"\[(U\+[0-9A-F]{4,6}(?: U\+[0-9A-F]{4,6})*)\]")


def decoded(text: str) -> str:
    """What a reader makes of the numbers in brackets."""
    return CODES.sub(lambda found: "".join(chr(int(code[2:], 16)) for code in found[1].split()), text)


@pytest.mark.parametrize(("all_steps", "often"), [(False, 5), (True, 10)])
def test_hostile_text_in_every_place_is_printed_as_text(all_steps: bool, often: int) -> None:
    piece = job().pieces[0]
    evil = replace(
        piece, name=WORSE, title=WORSE, inputs=((WORSE, WORSE),), assumptions=(WORSE,), remedies=(WORSE,),
        to_see=(WORSE,),
        checks=(replace(piece.checks[0], what=WORSE, where=WORSE, combination=WORSE, clause=WORSE, notes=(WORSE,)),
                replace(piece.checks[0], what=WORSE, steps=(), demand=None, capacity=None, ratio=None)),
    )  # fmt: skip
    result = replace(
        job(title=WORSE, job_text=WORSE), pieces=(evil,), reasons=(WORSE,), version=WORSE, job_name=WORSE,
        caution=WORSE, sign_off=WORSE, about=((WORSE, WORSE), ("author", WORSE), ("date", WORSE)),
    )  # fmt: skip
    sheet = Sheet(sheet_pdf(result, all_steps=all_steps))
    assert sheet.attached.keys() == {"job.toml", "result.json"}
    for words in ("<script>alert(1)</script>", "{{ 7*7 }}", "$ x^2 $", "@ref <label>", "*bold*", '#panic("a")',
                  "/* yes */", "\\u{41}", "[U+1F469 U+200D U+1F527]", "[U+6728 U+6750]"):  # fmt: skip
        assert sheet.squeezed.count(squeezed(words)) > often, words
    # one reader turns a bracket round that follows Hebrew; what stands in the file is read by the other
    assert "".join(squeezed(page.extract_text()) for page in sheet.reader.pages).count("[U+1FAB5]") > often
    assert "\u202e" not in sheet.text


@pytest.mark.parametrize(
    "title",
    [
        "x" * 5000,
        "word " * 1000,
        "\x00\x07\ud800",
        "",
        " ",
        "א" * 5000,
        "🪵" * 5000,
        "\u0301" * 3000,
        "a\n\n\tb",
        "$#@",
    ],
    ids=["long word", "many words", "no letters", "none", "blank", "Hebrew", "emoji", "accents", "lines", "signs"],
)
def test_any_title(title: str) -> None:
    sheet = Sheet(sheet_pdf(job(title=title)))
    assert len(sheet.pages) < 25
    assert "Buckling" in sheet.text


def test_nothing_of_a_long_note_is_lost_and_no_line_leaves_the_page() -> None:
    words = [f"word{number}" for number in range(1000)]
    note, unbroken = " ".join(words), "".join(chr(ord("a") + i % 26) for i in range(5000))
    sheet = Sheet(sheet_pdf(replace(job(), about=(("notes", note), ("more", unbroken)))))
    assert all(word in sheet.text for word in words)
    assert unbroken in sheet.body
    begins: list[float] = []
    for page in sheet.reader.pages:
        page.extract_text(visitor_text=lambda text, cm, tm, *_rest: begins.append(tm[4]) if text.strip() else None)
    assert begins and all(0 <= x < 612 for x in begins)


@pytest.mark.parametrize("count", [140, 141])
def test_a_title_that_is_cut_stands_whole_with_the_project(count: int) -> None:
    sheet = Sheet(sheet_pdf(job(title="t" * count)))
    assert ("Title in full" in sheet.text) == (count > 140)


def test_letters_that_typst_has_are_printed_and_read_back() -> None:
    shown = "Façade Łódź Ωμέγα Привет 1½″ × 3′ ≤ ∞ → ☐ ½"
    sheet = Sheet(sheet_pdf(replace(job(), about=(("notes", shown),))))
    assert squeezed(shown) in sheet.squeezed


def test_a_number_after_right_to_left_text_stays_after_it() -> None:
    """A mark closes what reads from the right; without it a ratio would be set on the wrong side of a name."""
    assert printable("שלום 1.35") == f"שלום{LEFT_TO_RIGHT} 1.35"
    assert printable("1.35 שלום, 2") == f"1.35 שלום{LEFT_TO_RIGHT}, 2"


def test_numbers_in_place_of_letters() -> None:
    assert printable("oak 🪵 beam") == "oak [U+1FAB5] beam"
    assert printable("木材") == "[U+6728 U+6750]"
    assert printable("a\u200bb") == "a[U+200B]b"  # a letter that does not show can hide a word
    assert printable("a\u0301\u0301\u0301") == "a\u0301\u0301[U+0301]"
    assert printable("plain – “text”, 3 × 4 ≤ 5") == "plain – “text”, 3 × 4 ≤ 5"
    assert in_drawing("oak 🪵木") == "oak □□"


def test_long_words_may_be_broken() -> None:
    assert printable("a" * 10, 4) == f"aaaa{BREAK}aaaa{BREAK}aa"
    assert printable("aaaa bbbb", 4) == "aaaa bbbb"
    once = printable("b" * 9, 4)
    assert printable(once, 2) is once  # what is ready is not looked at again


_text = st.text(st.characters(exclude_categories=("Cs",)), max_size=60)


@given(_text)
@example("\u061c\ufeff\u202e[")
def test_nothing_is_lost(text: str) -> None:
    """Whoever turns the numbers back gets the text as it was, but for what no page can hold."""
    shown = printable(text)
    if "[U+" not in text:
        assert decoded(shown.replace(LEFT_TO_RIGHT, "")) == text
    assert all(held(letter) or letter == LEFT_TO_RIGHT for letter in shown)


@given(_text)
def test_drawings_keep_the_length_of_their_text(text: str) -> None:
    shown = in_drawing(text).replace(LEFT_TO_RIGHT, "")
    assert len(shown) == len(legible(text))


@given(_text, st.integers(1, 12))
def test_breaks_add_nothing_else(text: str, longest: int) -> None:
    broken = printable(text, longest)
    assert broken.replace(BREAK, "") == printable(text)
    assert all(len(word) <= longest for word in re.split(rf"[\s{BREAK}]", broken))


def test_every_letter_that_we_call_held_is_held() -> None:
    """typst itself refuses a letter without a shape when it sets a file for archives."""
    import typst

    letters = [chr(number) for number in range(0x20, 0x20000) if not 0xD800 <= number < 0xE000 and held(chr(number))]
    faces = ", ".join(f'"{face}"' for face in FACES)
    source = f'#set document(title: "t")\n#set text(font: ({faces}))\n#read("letters.txt")'
    files = {"main.typ": source.encode(), "letters.txt": " ".join("a" + letter for letter in letters).encode()}
    made = typst.compile(files, ignore_system_fonts=True, timestamp=0, pdf_standards=["a-3a"])
    assert len(letters) > 5000 and made.startswith(b"%PDF")
    for missing in ("🪵", "木"):
        assert not held(missing)
        with pytest.raises(typst.TypstError, match="could not be displayed"):
            files["letters.txt"] = missing.encode()
            typst.compile(files, ignore_system_fonts=True, timestamp=0, pdf_standards=["a-3a"])


def test_symbols_and_code_in_running_text() -> None:
    assert prose("except C_L and `top_held` are 1") == [
        "except ", {"base": "C", "sub": "L"}, " and ", {"code": "top_held"}, " are 1",
    ]  # fmt: skip
    assert prose("my_file and `a_b") == ["my_file and `a_b"]


@pytest.mark.parametrize(
    ("said", "shown", "noted"),
    [("Ωμέγα δοκός", "Ωμέγα δοκός", False), ("Балка из дуба", "Балка из дуба", False),
     ("木材", "[U+6728 U+6750]", True), ("목재", "[U+BAA9 U+C7AC]", True)],
)  # fmt: skip
def test_letters_of_other_scripts_print_or_a_note_says_how_they_stand(said: str, shown: str, noted: bool) -> None:
    sheet = Sheet(sheet_pdf(replace(job(), about=(("notes", said),))))
    assert squeezed(shown) in sheet.squeezed
    assert (squeezed("are printed as their Unicode numbers") in sheet.squeezed) is noted


def test_a_path_breaks_between_its_steps() -> None:
    """And nowhere else, so that it can be read; nothing of it is printed as a number."""
    (made,) = prose("`bracket.K2.fixings.rows.1.below_top`", 18)
    assert made["code"].split("\u200b") == ["bracket.", "K2.", "fixings.", "rows.", "1.", "below_", "top"]
    assert prose("`near.gap`", 18)[0]["code"] == "near.gap"
