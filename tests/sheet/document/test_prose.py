"""Words as they are set: capitals, stops and short places."""

from __future__ import annotations

import pytest

from beamcheck.sheet.document.prose import capital, ended, place, sentence, tied, without_fields


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("the end lifts", "The end lifts"),
        ("a cut", "A cut"),
        ("d/b is 2 or less", "d/b is 2 or less"),  # symbols and field names keep their letters
        ("l_u is the span", "l_u is the span"),
        ("x is the place", "x is the place"),
        ("`at` is the middle of a seat", "`at` is the middle of a seat"),
        ("6 of 6 candidates", "6 of 6 candidates"),
        ("", ""),
    ],
)
def test_capitals(text: str, shown: str) -> None:
    assert capital(text) == shown


def test_sentences_end_once() -> None:
    assert sentence(" kept ") == "Kept."
    assert sentence("Is it dry?") == "Is it dry?"
    assert ended("b1: kept.") == "b1: kept."
    assert sentence("") == ""


@pytest.mark.parametrize(
    ("where", "shown"),
    [
        ("5 ft", "at 5 ft"),
        ("from 0 in to 14 ft", "0 in to 14 ft"),
        ("span from 0 in to 14 ft", "span 0 in to 14 ft"),
        ("0 in to 14 ft", "0 in to 14 ft"),
        ("at the west post", "at the west post"),
        ("", ""),
    ],
)
def test_places(where: str, shown: str) -> None:
    assert place(where) == shown


def test_names_of_fields_are_left_out_for_whoever_saws() -> None:
    assert without_fields("nobody has said that they are met (`conditions_met`): dry") == (
        "nobody has said that they are met: dry"
    )
    assert without_fields("said to be 'pegged', which is no value (`legs_joint`).").endswith("no value.")
    assert without_fields("look whether a split runs through, and say so (`split`).") == (
        "look whether a split runs through, and say so."
    )


@pytest.mark.parametrize("size", ["7 ft 1/4 in", "10 ft 7 3/8 in", "2 ft 6 in", "5 1/2 in", "1,148 lb"])
def test_no_part_of_a_size_stands_alone_on_a_line(size: str) -> None:
    assert " " not in tied(size) and tied(f"at {size} from it").split(" ") == ["at", tied(size), "from", "it"]
