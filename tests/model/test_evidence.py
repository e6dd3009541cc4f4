"""What counts as evidence: who says it, and when or in which document; a stamp agrees with the grade of the entry."""

import pytest

from beamcheck.model.evidence import read_evidence, read_stamp, vouched


@pytest.mark.parametrize("words", [
    "letter of the engineer of record, 3 May 2025", "engineer's sheet S-1", "grading certificate 7, four faces",
    "frame engineer sheet S-4, 14 September 2026", "building department, letter of 3 May 2025",
    "by: the mason; date: 2026-03-04", "A. Example, report no. 12",
])  # fmt: skip
def test_somebody_in_a_document_or_on_a_day(words: str) -> None:
    assert vouched(words), read_evidence(words).missing


@pytest.mark.parametrize("words", [
    "", "TODO", "should be fine", "me", "the engineer", "letter", "3 May 2025", "engineer will send letter 3",
    "letter of the engineer to be written, 3 May 2025", "engineer not yet asked, 3 May 2025", "?", "looks strong",
])  # fmt: skip
def test_words_that_only_fill_the_place(words: str) -> None:
    assert not vouched(words) and (not words or read_evidence(words).missing)


@pytest.mark.parametrize(("words", "grade"), [
    ("stamp: agency mark, mill 12, No.2, Hem-Fir", "No.2"), ("stamp DF-L, S-DRY, mill 12", "No.1"),
    ("stamp DOUG FIR-L No.1", "No.1"), ("stamp NLGA SPF No.1/No.2 KD-HT", "No.2"), ("stamp #2 SYP KD", "No.2"),
    ("stamp, mill no. 1, No.2", "No.2"), ("stamp: mill 3, Select Structural", "Select Structural"),
])  # fmt: skip
def test_a_stamp_that_fits(words: str, grade: str) -> None:
    read = read_stamp(words, grade)
    assert not read.missing and not read.other_grade


@pytest.mark.parametrize(("words", "grade", "other"), [
    ("stamp says No.3", "No.2", "No.3"), ("stamp WCLIB No. 2", "Select Structural", "No.2"),
    ("stamp, mill 4, Utility", "No.2", "Utility"),
])  # fmt: skip
def test_a_stamp_of_another_grade(words: str, grade: str, other: str) -> None:
    assert read_stamp(words, grade).other_grade == other


@pytest.mark.parametrize("words", [
    "there is no stamp on it", "stamp seen", "unstamped", "stamp illegible", "TODO", "stamp should be No.2",
    "stamp painted over", "no grade stamp found",
])  # fmt: skip
def test_a_stamp_that_is_none(words: str) -> None:
    assert read_stamp(words, "No.2").missing
