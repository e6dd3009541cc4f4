"""Sizes as the trade writes them: what is read, what is asked back, and the size class."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.errors import BeamcheckError, OutOfRange, UnitError
from beamcheck.values.lumber import Size, read_size

# actual sizes: PS 20 as a reference page and a state regulation print it (second-hand); textbook sections agree
DRESSED = [
    ("2x4", 1.5, 3.5, "dimension"),
    ("2x10", 1.5, 9.25, "dimension"),
    ("4x8", 3.5, 7.25, "dimension"),
    ("4x10", 3.5, 9.25, "dimension"),
    ("2x14", 1.5, 13.25, "dimension"),
    ("8x8 dressed", 7.5, 7.5, "posts_and_timbers"),
    ("6x16 dressed", 5.5, 15.5, "beams_and_stringers"),
    ("6x12 dressed", 5.5, 11.5, "beams_and_stringers"),
    ("6x8 dressed", 5.5, 7.5, "posts_and_timbers"),  # 2 in wider, not more: NDS 2018 4.1.3, memory
    ("8x10 dressed", 7.5, 9.5, "posts_and_timbers"),
    ("6x10 dressed", 5.5, 9.5, "beams_and_stringers"),
]


@pytest.mark.parametrize(("text", "b", "d", "size_class"), DRESSED)
def test_dressed_sizes(text: str, b: float, d: float, size_class: str) -> None:
    size = read_size(text)
    assert (size.b, size.d, size.surface, size.size_class) == (b, d, "dressed", size_class)
    assert (size.nominal_b, size.nominal_d) == tuple(float(side) for side in text.split()[0].split("x"))
    assert size.source.document.startswith("PS 20") and size.source.how == "read, second-hand"


@pytest.mark.parametrize(
    ("text", "less"),
    [("8x8 dressed", "1/4 in"), ("6x12 dressed", "1/4 in"), ("12x16 dressed", "1/2 in"), ("7x7 s4s", "1/4 in")],
)  # fmt: skip
def test_a_timber_dressed_when_dry_is_smaller_and_that_is_said(text: str, less: str) -> None:
    """PS 20, second-hand: 3/4 in off from nominal 7 in, 1 in off from 16 in, against 1/2 in when dressed green."""
    assert read_size(text).notes == (
        f"{text}: taken as dressed green; dressed when dry it is up to {less} less: measure it",
    )


@pytest.mark.parametrize("text", ["6x6 dressed", "5x6 dressed", "2x10", "4x12 dressed", "8 in x 8 in"])
def test_a_piece_that_has_one_dressed_size_needs_no_word(text: str) -> None:
    assert read_size(text).notes == ()


@pytest.mark.parametrize(
    "text", ["2x10", "2 x 10", "2X10", "2×10", "2 by 10", "2x10 dressed", "2x10, S4S", " 2x10  surfaced"]
)
def test_spellings_of_one_size(text: str) -> None:
    size = read_size(text)
    assert (size.b, size.d, size.surface) == (1.5, 9.25, "dressed")


@pytest.mark.parametrize("word", ["rough", "full sawn", "full-sawn", "rough sawn"])
def test_rough_is_taken_as_named_and_flagged(word: str) -> None:
    size = read_size(f"8x10 {word}")
    assert (size.b, size.d, size.nominal_b, size.nominal_d, size.surface) == (8.0, 10.0, 8.0, 10.0, "rough")
    assert size.notes == (
        f"8x10 {word}: taken as sawn full, both sides as named: measure the least section and enter that",
    )
    assert size.source.how == "given"


@pytest.mark.parametrize(
    ("text", "b", "d", "size_class"),
    [
        ("""7 1/4" x 9 3/4\"""", 7.25, 9.75, "beams_and_stringers"),  # 2 1/2 in wider
        ("""7 1/4" x 9 1/4\"""", 7.25, 9.25, "posts_and_timbers"),  # 2 in wider
        ("184 mm x 248 mm", 184 / 25.4, 248 / 25.4, "beams_and_stringers"),
        ("""8" x 12" rough""", 8.0, 12.0, "beams_and_stringers"),
        ("4 1/2 in x 4 1/2 in", 4.5, 4.5, "posts_and_timbers"),  # nominal 5x5, dressed: the thinnest timber
        ("4.45 in by 9 in", 4.45, 9.0, "dimension"),
        ("1.46 in x 5.4 in", 1.46, 5.4, "dimension"),  # a dressed 2x6 that went on drying
        ("200 mm x 250.8 mm", 200 / 25.4, 250.8 / 25.4, "posts_and_timbers"),  # 50.8 mm is 2 in, and not more
    ],
)
def test_measured_sizes(text: str, b: float, d: float, size_class: str) -> None:
    size = read_size(text)
    assert (size.b, size.d) == pytest.approx((b, d), rel=1e-12)
    assert (size.nominal_b, size.nominal_d, size.surface, size.size_class) == (None, None, "measured", size_class)
    assert size.source.document == "measured on the piece"


def test_round() -> None:
    size = read_size("10 in round")
    assert (size.b, size.d, size.surface, size.size_class) == (10.0, 10.0, "round", "posts_and_timbers")
    assert (size.nominal_b, size.nominal_d, size.proportion) == (None, None, 1.0)
    assert read_size("250 mm, round").d == pytest.approx(250 / 25.4)


def test_proportions_are_nominal_when_dressed_and_actual_otherwise() -> None:
    """NDS 2018 4.4.1.2: nominal d/b; a piece without nominal size by its actual sides (safe reading)."""
    assert read_size("2x8").proportion == 4.0  # actual 4.83
    assert read_size("6x12 dressed").proportion == 2.0  # actual 2.09
    assert read_size("6x12 rough").proportion == 2.0
    assert read_size('5 1/2" x 11 1/2"').proportion == pytest.approx(11.5 / 5.5)


def test_a_measured_piece_is_looked_up_on_the_safe_side() -> None:
    between = read_size("1 1/2 in x 8 1/2 in")
    assert (between.table_width, between.table_width_below) == (10.0, 8.0)
    ten = read_size("1 1/2 in x 9 1/4 in")
    assert (ten.table_width, ten.table_width_below, ten.table_thickness) == (10.0, 10.0, 2.0)
    full = read_size("4 in x 10 in")
    assert (full.table_width, full.table_width_below, full.table_thickness) == (10.0, 10.0, 4.5)
    assert read_size("3.4 in x 9 in").table_thickness == 3.5
    assert math.isinf(read_size("2 in x 20 in").table_width)
    assert read_size("1.46 in x 1.46 in").table_thickness == 2.0
    assert read_size("1.46 in x 1.46 in").table_width_below == 0.0


EITHER_WAY = (
    "size '8x10': dressed or rough? A piece 5 in or thicker comes both ways, and the difference decides; "
    "write '8x10 dressed', '8x10 rough', or the sides as measured with their unit"
)
NEEDS_UNITS = """a measured size has a unit on each side, as in '7 1/4" x 9 3/4"'"""


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("8x10", EITHER_WAY),
        ("", "is not a size; write '2x10', '8x10 dressed'"),
        ("oak", "size 'oak' is not two sides; write '2x10'"),
        ("2x10x12", "size '2x10x12' is not two sides"),
        ("8x", "size '8x' is not two sides"),
        ("2x10 green", "size '2x10 green': one side has a unit or a word that the other has not; write '2x10'"),
        ('8x10"', "one side has a unit or a word that the other has not"),
        ("7 1/4 x 9 3/4", f"size '7 1/4 x 9 3/4': {NEEDS_UNITS}"),
        ("7.25x9.75 rough", NEEDS_UNITS),
        ("2x10 measured", NEEDS_UNITS),
        ('8" x 10" dressed', "sides with a unit are measured, 'dressed' belongs to a nominal size"),
        ("10 round", "size '10 round': '10' has no unit"),
        ("8 furlongs x 10 in", "size '8 furlongs x 10 in':"),
        ("8 psi x 10 in", "size '8 psi x 10 in':"),
    ],
)
def test_what_cannot_be_read(text: str, says: str) -> None:
    with pytest.raises(UnitError) as caught:
        read_size(text)
    assert says in str(caught.value)


def test_a_number_is_no_size() -> None:
    with pytest.raises(UnitError, match="size 210 is not a size; write"):
        read_size(210)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("10x2", "size '10x2': the smaller side comes first; how the piece is laid is said elsewhere"),
        ("""9 3/4" x 7 1/4\"""", "the smaller side comes first"),
        ("0x4", "size '0x4': both sides must be above zero"),
        ("-2x4", "size '-2x4': both sides must be above zero"),
        ("0 in x 4 in", "both sides must be above zero"),
        ("1x6", "size '1x6': boards thinner than nominal 2 in have no design values here (NDS 2018 4.1.3)"),
        ("1x6 rough", "boards thinner than nominal 2 in"),
        ("1 in x 6 in", "size '1 in x 6 in': 1 in is thinner than dimension lumber (nominal 2 in, 1 1/2 in dressed)"),
        ("2x40", "size '2x40': nominal 40 in is no standard width (2, 2.5, 3,"),
        ("2x7", "nominal 7 in is no standard width"),
        ("6x13 dressed", "size '6x13 dressed': nominal 13 in is no standard width (5, 6, 7,"),
        ("13x14 dressed", "nominal 13 in is no standard thickness (5, 6, 7,"),
        ("90x100 rough", "size '90x100 rough': 100 in is no size of sawn lumber; check figure and unit"),
        ("184 in x 248 in", "248 in is no size of sawn lumber; check figure and unit"),
        ("4 in round", "size '4 in round': round pieces count as timbers from 4.5 in up (NDS 2018 4.1.3)"),
        ("10 ft round", "120 in is no size of sawn lumber; check figure and unit"),
    ],
)
def test_what_is_no_size_of_lumber(text: str, says: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        read_size(text)
    assert says in str(caught.value)


@given(b=st.integers(116, 700), more=st.integers(0, 500))
def test_the_class_follows_the_measured_sides(b: int, more: int) -> None:
    """NDS 2018 4.1.3 (memory) on sides in 1/80 in: timbers from 4 1/2 in, beams and stringers more than 2 in wider."""
    size = read_size(f"{b / 80} in x {(b + more) / 80} in")
    if b < 360:
        assert size.size_class == "dimension"
    else:
        assert size.size_class == ("beams_and_stringers" if more > 160 else "posts_and_timbers")


@given(st.text(max_size=40))
def test_any_text_is_a_size_or_an_error_of_ours(text: str) -> None:
    try:
        size = read_size(text)
    except BeamcheckError as error:
        assert "size" in str(error)
    else:
        assert isinstance(size, Size) and 0 < size.b <= size.d
