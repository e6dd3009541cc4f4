"""What counts as evidence: who says it, and when or in which document; a stamp agrees with the grade of the entry."""

import pytest

from beamcheck.model.fields.evidence import read_evidence, vouched
from beamcheck.model.fields.stamp import read_stamp


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


@pytest.mark.parametrize("words", [
    "letter of the engineer of record says it does not take this load, 3 May 2025",
    "engineer: insufficient, report no. 5",
    "letter of engineer no. 12 withdrawn", "unsigned letter of engineer no. 3",
    "draft letter of the engineer, 3 May 2025",
    "letter requested from engineer of record 3 May 2025", "letter sent to engineer 3 May 2025",
    "lost letter of the engineer of 3 May 2025", "inspector rang on 3 May 2025, no answer",
    "engineer says the wall must be replaced, letter 3 May 2025", "report no. 5 of the engineer: overloaded",
    "engineer, 3 May 2099", "engineer 5/3/2099", "engineer, 2099-05-03", "engineer, May 2099", "engineer 1 Jan 1925",
    "verbal, engineer of record, 3 May 2025",
])  # fmt: skip
def test_words_that_deny_and_days_that_are_not_yet(words: str) -> None:
    assert not vouched(words) and read_evidence(words).missing


@pytest.mark.parametrize("words", [
    "letter of the engineer of record, only for the roof as it was, 3 May 2025",
    "letter of the engineer for the old load, 3 May 2025", "engineer's letter 3 of 3 May 2025, not for this beam",
    "letter of the engineer, 3 May 2025, subject to review", "letter 3 of the engineer, does not cover the floor",
    "engineer, 3 May 2025, for information only", "letter of the engineer of 3 May 2025 for another house",
    "letter 3 of the engineer for the roof only", "letter 3 of the engineer, new load not considered",
    "engineer's letter 3, holds once reinforced", "engineer's letter 3 for the previous owner",
])  # fmt: skip
def test_words_that_limit_themselves(words: str) -> None:
    assert not vouched(words, "structure") and "limits it" in read_evidence(words).missing_for("structure")


@pytest.mark.parametrize("words", [
    "letter of the engineer of record, 3 May 2025, for not only the floor but the roof as well",
    "engineer's sheet S-3 of 2025-05-03: takes 12,000 lb for the new load",
    "letter of engineer 3, old barn, 3 May 2025",
])  # fmt: skip
def test_words_that_limit_nothing(words: str) -> None:
    assert vouched(words, "structure"), read_evidence(words).missing_for("structure")


@pytest.mark.parametrize("words", [
    "letter of the engineer of record, 3 May 2025, valid until 1 Jan 2099", "engineer, letter 3 of 3 May",
    "by: A. Example, PE; document: report 12", "grader, 2025-05-03", "building department, permit no. 12",
    "maker's report no. 7",
])  # fmt: skip
def test_who_may_answer_for_what_carries(words: str) -> None:
    assert vouched(words, "structure"), read_evidence(words).missing_for("structure")


@pytest.mark.parametrize("words", [
    "the owner, 2025-05-03", "carpenter 5/5/25", "supplier of the sofa, invoice 33", "mill order no. 12 owner",
    "owner A. Example, 3 May 2025", "the maker, 3 May 2025", "by: the mason; date: 2025-03-04",
])  # fmt: skip
def test_who_answers_only_for_what_one_sees(words: str) -> None:
    assert vouched(words) and not vouched(words, "structure")
    assert "may answer" in read_evidence(words).missing_for("structure")


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
    ("stamp: mill 12, STAND&BTR", "No.2", "Standard"), ("stamp: mill 12, CONST", "No.1", "Construction"),
    ("stamp: mill 12, UTIL", "No.2", "Utility"), ("stamp: mill 12, STUD", "No.2", "Stud"),
])  # fmt: skip
def test_a_stamp_of_another_grade(words: str, grade: str, other: str) -> None:
    assert read_stamp(words, grade).other_grade == other


@pytest.mark.parametrize("words", [
    "there is no stamp on it", "stamp seen", "unstamped", "stamp illegible", "TODO", "stamp should be No.2",
    "stamp painted over", "no grade stamp found",
    "No.2", "the seller says No.2", "stamp looks like No.1 or No.2",
])  # fmt: skip
def test_a_stamp_that_is_none(words: str) -> None:
    assert read_stamp(words, "No.2").missing
