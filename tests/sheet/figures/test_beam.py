"""The beam drawing: everything named, everything inside, nothing that breaks XML."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from beamcheck.checks.core.pictures.beams import SectionPart, SupportMark
from beamcheck.checks.core.result import Figure
from beamcheck.sheet.figures.beam import beam_figure, describe
from beamcheck.sheet.figures.svg import clipped, fixed, legible, text_width

from ..sample import beam_drawing

SVG = "{http://www.w3.org/2000/svg}"


def drawn(figure: Figure, name: str = "B1", system: str = "US") -> ElementTree.Element:
    return ElementTree.fromstring(beam_figure(figure, name, system))


def words(root: ElementTree.Element) -> list[str]:
    return [text.text or "" for text in root.iter(f"{SVG}text")]


def test_loads_supports_cuts_and_curves_are_named() -> None:
    seen = " | ".join(words(drawn(beam_drawing())))
    for expected in ("dead: plaster ceiling", "snow: roof snow", "west post", "hidden plate A (hung)", "a: mortise",
                     "Shear V", "Moment M", "Long-term sag", "11 ft", "3 ft"):  # fmt: skip
        assert expected in seen


def test_extremes_carry_value_and_unit_in_both_systems() -> None:
    """Simple beam, 12 lbf/in on 168 in: V = wL/2 = 1008 lbf, M = wL²/8 = 42,336 lbf-in = 3,528 lb-ft (closed form)."""
    assert {"1,008 lb", "3,528 lb-ft, D + S", "0.6 in"} <= set(words(drawn(beam_drawing())))
    assert {"4.48 kN", "4.78 kN·m, D + S", "15.2 mm"} <= set(words(drawn(beam_drawing(), system="SI")))


def test_without_marks_highest_and_lowest_are_labelled() -> None:
    seen = words(drawn(replace(beam_drawing(), marks=())))
    assert "3,528 lb-ft" in seen  # M = wL²/8, closed form
    assert "−333 lb-ft" in seen  # the lower envelope was set to 0.3 M - 4000 lbf-in


def test_a_mark_names_its_side_of_the_envelope() -> None:
    """Shear of the sample: 12 (84 - x) lbf above, 0.4 of it less 150 below; at x = 42 in 504 and 51.6 lbf."""
    marked = replace(beam_drawing(), marks=(("V_high", 42.0, "D + S"), ("V_low", 42.0, "0.6 D"), ("M_low", 0.0, "D")))
    seen = words(drawn(marked))
    assert {"504 lb, D + S", "51.6 lb, 0.6 D", "−333 lb-ft, D"} <= set(seen)


def test_the_text_of_a_cut_wraps() -> None:
    text = "mortise 3 in deep, 6 in long on the side at 5 ft from the left end of the piece"
    seen = words(drawn(replace(beam_drawing(), cuts=((56.0, 64.0, 4.0, 5.0, text),))))
    assert f"a: {text}" in " ".join(" ".join(seen).split())


def test_the_words_for_readers_who_do_not_see_it() -> None:
    text = describe(beam_drawing())
    assert text.startswith("Length 14 ft, depth 13.5 in.")
    assert "hidden plate A at 11 ft (hung)." in text
    assert "Moment M, envelope of all combinations: 3,528 lb-ft, D + S at 7 ft." in text
    root = drawn(beam_drawing())
    title, about = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None and about is not None and about.text == text
    assert root.get("aria-labelledby") == f"{title.get('id')} {about.get('id')}"


def test_slope_is_drawn_as_a_triangle_and_said() -> None:
    seen = words(drawn(beam_drawing(slope=26.565051177078)))  # atan(6/12)
    assert "slope 6:12, drawn straight" in seen
    assert not any("slope" in text for text in words(drawn(beam_drawing())))


def test_lifting_loads_are_told_apart() -> None:
    lifted = replace(beam_drawing(), loads=((50.0, 50.0, "uplift at the eave, 300 lb", "wind up", "point"),))
    assert any(text.startswith("wind up ↑: uplift") for text in words(drawn(lifted)))


def test_curves_with_gaps_say_so() -> None:
    bad = replace(beam_drawing(), sag=(float("nan"),) * 61, V_high=(), V_low=(), x=beam_drawing().x)
    seen = words(drawn(bad))
    assert seen.count("not computed") == 2  # sag and shear; the moment is there
    assert "3,528 lb-ft, D + S" in seen


def test_a_beam_without_load_has_flat_curves() -> None:
    zero = (0.0,) * 61
    flat = replace(beam_drawing(), V_high=zero, V_low=zero, M_high=zero, M_low=zero, sag=zero, marks=(), loads=())
    assert "not computed" not in words(drawn(flat))


def test_numbers_are_plain_and_nothing_leaves_the_frame() -> None:
    many = tuple((12.0 * i, 12.0 * i, "w" * 400, "dead", "point") for i in range(14))
    wide = replace(
        beam_drawing(), loads=many, supports=tuple(SupportMark(12.0 * i, "support " * 20, "rests") for i in range(15))
    )
    markup = beam_figure(wide, "B1")
    assert not re.search(r"\d[eE][-+]?\d|nan|inf\b|-0[ \"]", re.sub(r">[^<]*<|#[0-9a-f]+", "><", markup))
    root = ElementTree.fromstring(markup)
    left, top, width, height = map(float, (root.get("viewBox") or "").split())
    for text in root.iter(f"{SVG}text"):
        x, y = float(text.get("x", "")), float(text.get("y", ""))
        wide_text = text_width(text.text or "")
        start = {"start": x, "middle": x - wide_text / 2, "end": x - wide_text}[text.get("text-anchor", "")]
        assert left <= start and start + wide_text <= left + width + 0.1
        assert top <= y <= top + height


def test_no_color_is_needed() -> None:
    """Only grays: red, green and blue parts are the same."""
    for color in re.findall(r'(?:fill|stroke)="(#[0-9a-f]+)"', beam_figure(beam_drawing(), "B1")):
        digits = color[1:]
        third = len(digits) // 3
        assert len({digits[i * third : (i + 1) * third] for i in range(3)}) == 1


@pytest.mark.parametrize("text", ["</text><script>x</script>", "a\"b'c&d", "a\x00b\x1b", "\ud800", "שלום", "🪵" * 40])
def test_any_text_is_safe(text: str) -> None:
    figure = replace(beam_drawing(), supports=(SupportMark(0.0, text, "rests"), SupportMark(168.0, text, "hung")))
    root = drawn(figure, name=text)
    assert root.find(f".//{SVG}script") is None
    beam_figure(figure, text).encode("utf-8")


def test_clipping() -> None:
    assert clipped("short", 100) == "short"
    assert clipped("x" * 5000, 100).endswith("…")
    assert text_width(clipped("x" * 5000, 100)) <= 100
    assert clipped("two\nlines", 200) == "two lines"


def test_marks_that_force_direction_are_shown_by_their_number() -> None:
    assert legible("a\u202eb\x07") == "a[U+202E]b[U+0007]"


@pytest.mark.parametrize(("number", "text"), [(1.0, "1"), (-0.001, "0"), (1234567.891, "1234567.89"), (0.5, "0.5")])
def test_fixed_numbers(number: float, text: str) -> None:
    assert fixed(number) == text


def test_a_seat_is_as_long_as_it_is_and_the_section_is_drawn_and_said() -> None:
    """Two plies of 1 1/2 in about a plate of 1/2 in by 11 in: the whole is 3 1/2 in by 11 1/4 in (added up by hand)."""
    plies = (SectionPart(0.0, 0.0, 1.5, 11.25, "wood"), SectionPart(1.5, 0.125, 0.5, 11.0, "steel"),
             SectionPart(2.0, 0.0, 1.5, 11.25, "wood"))  # fmt: skip
    seen = " ".join(words(drawn(replace(beam_drawing(), section=plies))))
    assert "2 plies of 1 1/2 in: 3 1/2 in by 11 1/4 in" in seen.replace("\u00a0", " ")
    assert "steel plate 1/2 in by 11 in between them" in seen.replace("\u00a0", " ")
    assert "seat 4 in" in seen


def test_two_parts_say_all_that_the_whole_says() -> None:
    parts = [ElementTree.fromstring(beam_figure(beam_drawing(), "B1", part=part)) for part in ("sketch", "diagrams")]
    assert [text for part in parts for text in words(part)] == words(drawn(beam_drawing()))
    assert " ".join(describe(beam_drawing(), part=part) for part in ("sketch", "diagrams")) == describe(beam_drawing())
