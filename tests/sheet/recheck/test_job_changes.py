"""Two job files compared field by field; what differs was put in by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.errors import JobError
from beamcheck.sheet.recheck.difference import Comparison, Difference, alike
from beamcheck.sheet.recheck.job_changes import job_changes

from ...doors.jobs import FAILS, PASSES, joist

CUT = 'cuts = [{ kind = "hole", at = "3 ft", depth = "1 in", from_bottom = "4 in" }]'


def said(old: str, new: str) -> list[str]:
    return [str(one) for one in job_changes(old, new).differences]


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ('"40 psf"', '"50 psf"', ["""beam "J1", carries 1, live: was '40 psf', is '50 psf'"""]),
        ('title = "Invented shed"', 'title = "Shed"', ["job, title: was 'Invented shed', is 'Shed'"]),
        ("invented = true", "invented = false", ["job, invented: was true, is false"]),
        ('grade = "No.2"', 'grade = "No.1"', ["""stock "joist stock", grade: was 'No.2', is 'No.1'"""]),
        ('agency = ""', "", []),
        ('finish = "none"', 'finish = "none"\nspacing = "16 in"', ["""beam "J1", spacing: is new, '16 in'"""]),
        ('material = "masonry"\n', "", ["""existing "wall", material: is gone, was 'masonry'"""]),
        ('finish = "none"', 'finish = "none"\n' + CUT, [
            """beam "J1", cuts: is new, [{ kind = 'hole', at = '3 ft', depth = '1 in', from_bottom = '4 in' }]""",
        ]),
    ],
)  # fmt: skip
def test_a_field(old, new, expected) -> None:
    base = PASSES.replace('grade_from = "stamp"\n', 'grade_from = "stamp"\nagency = ""\n')
    assert said(base, base.replace(old, new)) == expected


def test_the_other_way_round_says_the_opposite() -> None:
    changed = PASSES.replace('"40 psf"', '"50 psf"') + joist("J2")
    for one, other in zip(
        job_changes(PASSES, changed).differences, job_changes(changed, PASSES).differences, strict=True
    ):
        assert (one.was, one.now) == (other.now, other.was)


def test_an_entry_put_in_first_does_not_make_the_others_differ() -> None:
    new = PASSES.replace("carries = [{", 'carries = [{ what = "lamp", dead = "20 lb", at = "6 ft" }, {')
    assert said(PASSES, new) == [
        """beam "J1", carries 1: is new, { what = 'lamp', dead = '20 lb', at = '6 ft' }""",
    ]


def test_pieces_are_known_by_name_not_by_place() -> None:
    one, other = PASSES + joist("J2", span="10 ft"), PASSES.replace(joist(), joist("J2", span="10 ft") + joist())
    changes = job_changes(one, other)
    assert changes.differences == () and "order" in changes.notes[0]


def test_a_renamed_piece_and_who_refers_to_it() -> None:
    changes = job_changes(PASSES, PASSES.replace('"wall"', '"west wall"'))
    assert changes.renamed == {"wall": "west wall"}
    assert [str(one) for one in changes.differences] == [
        "existing, name: was 'wall', is 'west wall'",
        """beam "J1", supports 1, on: was 'wall', is 'west wall'""",
        """beam "J1", supports 2, on: was 'wall', is 'west wall'""",
    ]


@pytest.mark.parametrize("again", ["144 in", "12'", "3.6576 m", "12 ft 0 in"])
def test_the_same_quantity_in_other_words_is_no_change(again) -> None:
    """12 ft = 144 in = 3.6576 m by definition of the inch (25.4 mm)."""
    changes = job_changes(PASSES, PASSES.replace("12 ft", again))
    assert changes.differences == () and len(changes.notes) == 1


def test_a_thousandth_of_an_inch_is_a_change() -> None:
    assert said(PASSES, PASSES.replace("12 ft", "144.001 in")) != []


def test_jobs_that_this_version_does_not_take_are_compared_as_written() -> None:
    old = PASSES.replace('finish = "none"', 'surface = "none"')
    assert said(old, old.replace("12 ft", "144 in")) == [
        """beam "J1", supports 2, at: was '12 ft', is '144 in'""",
    ]


@pytest.mark.parametrize("bad", ["this is no job file", "a = [", "beam = 3\nbeam = 4"])
def test_what_is_no_toml_is_an_error(bad) -> None:
    with pytest.raises(JobError, match=r"^later: 1 problem"):
        job_changes(PASSES, bad, "job", "later")


def test_a_job_that_is_torn_apart_is_told_and_no_fault() -> None:
    assert said("beam = 3", "beam = [1, 2]") == ["beam: was 3, is [1, 2]"]
    assert said("[[beam]]\nname = 3", "[[beam]]\nname = 4") == ["beam 1, name: was 3, is 4"]
    assert said("[[beam]]\n[[beam]]", "[[beam]]") == ["beam 2: is gone, was {  }"]
    assert said("[beam]\na = 1", "[[beam]]\na = 1") == ["beam: was { a = 1 }, is [{ a = 1 }]"]


@given(st.sampled_from([PASSES, FAILS]), st.integers(0, 40))
def test_remarks_and_blank_lines_anywhere_are_no_change(text, place) -> None:
    lines = text.split("\n")
    outside = [i for i, line in enumerate(lines) if line.startswith("[") or (" = " in line and line[0].isalpha())]
    at = outside[place % len(outside)]
    assert job_changes(text, "\n".join([*lines[:at], "", "# a remark", *lines[at:]])).differences == ()


numbers = st.floats(allow_nan=False, allow_infinity=False, width=32)
plain = st.recursive(
    st.none() | st.booleans() | numbers | st.text(max_size=3),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=2), inner, max_size=3),
    max_leaves=8,
)


@given(plain)
def test_everything_is_like_itself(thing) -> None:
    assert alike(thing, thing)


@given(plain, plain)
def test_being_alike_goes_both_ways(one, other) -> None:
    assert alike(one, other) is alike(other, one)


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        (1.0, 1.0000005, True), (1.0, 1.00001, False), (0.0, 1e-9, True), (1000.0, 1000.01, False), (1, True, False),
        ([1], [1, 2], False), ({"a": 1}, {"b": 1}, False), ("1", 1, False), (float("inf"), float("inf"), True),
        (float("nan"), float("nan"), False), (None, 0.0, False),
    ],
)  # fmt: skip
def test_what_is_alike(one, other, expected) -> None:
    assert alike(one, other) is expected


@pytest.mark.parametrize(
    ("tampered", "inputs", "results", "state"),
    [
        (1, 1, 1, "tampered"), (1, 0, 0, "tampered"), (0, 1, 1, "changed inputs"), (0, 0, 1, "changed results"),
        (0, 0, 0, "same"),
    ],
)  # fmt: skip
def test_the_gravest_finding_gives_the_state(tampered, inputs, results, state) -> None:
    one = Difference("somewhere")
    found = Comparison("a", "b", (one,) * tampered, (one,) * inputs, (one,) * results)
    assert found.state == state
    assert str(found).startswith(state.upper() + ". ")
    assert str(found).count("  - somewhere") == tampered + inputs + results
