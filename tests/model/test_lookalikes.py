"""Names that a person cannot tell apart are refused, with the reason (letters: Unicode Technical Standard 39)."""

from __future__ import annotations

import pytest

from beamcheck import check_text
from beamcheck.errors import JobError

from ..doors.jobs import FAILS, HEAD, PASSES, STOCK, WALL, joist


def refused(text: str) -> str:
    with pytest.raises(JobError) as error:
        check_text(text)
    return str(error.value)


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("J\u200b1", "U+200B"),
        ("J1\u2060", "U+2060"),
        ("J\u200d1", "a character that is not seen (U+200D): delete it"),
        ("J\u00ad1", "a character that is not seen (U+00AD)"),
        ("J\ufe0f1", "a character that is not seen (U+FE0F)"),
        ("J\u202e1", "U+202E"),
        ("Joist \u0410", "U+0410, cyrillic capital letter a) only looks like the Latin 'A': type that one"),
        ("be\u0430m", "U+0430, cyrillic small letter a) only looks like the Latin 'a'"),
        ("J\u039f", "U+039F, greek capital letter omicron) only looks like the Latin 'O'"),
    ],
)
def test_a_name_that_passes_itself_off_as_another(name: str, why: str) -> None:
    assert why in refused(PASSES.replace('"J1"', f'"{name}"'))


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("BEAM", "\u0412\u0415\u0410\u041c"),
        ("north 1", "north  1"),
        ("north-1", "north\u20131"),
        ("wall's", "wall\u2019s"),
        ("B1", "\uff221"),
        ("caf\u00e9", "cafe\u0301"),
    ],
)
def test_two_names_that_look_the_same(one: str, other: str) -> None:
    said = refused(HEAD + STOCK + WALL + joist(one) + joist(other))
    assert "(the two look the same) is taken by beam 1 of the job: give each its own" in said


def test_case_does_not_count_as_before() -> None:
    assert "(case does not count) is taken by beam 1" in refused(FAILS.replace('"J2"', '"j1"'))


@pytest.mark.parametrize(
    "name", ["Балка 1", "δοκός 2", "קורה", "梁 3", "poutre d'en bas", "Träger Ö", "α1", "Балка σ", "beam 🪵"]
)
def test_names_in_any_one_script_are_names(name: str) -> None:
    assert check_text(PASSES.replace('"J1"', f'"{name}"')).pieces[0].name == name
