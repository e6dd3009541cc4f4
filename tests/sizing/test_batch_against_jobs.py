"""The batch against `check_job`: the same beams, one by one through frame analysis and sheet, give the same ratios.

The other way is independent in its forces (a frame solver and exact polynomials against closed forms) and in the
choice of combinations (all of them against those that can govern).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.checks.beams.beam import check_beam
from beamcheck.checks.beams.bracing import Span, bracing_of
from beamcheck.checks.beams.deflection import limits_of, total_counts
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood.material import reference_values, sharing_of, wood_of
from beamcheck.checks.core.wood.strength import Section
from beamcheck.checks.job import check_job
from beamcheck.errors import OutOfRange, UnknownName
from beamcheck.model.beams import Beam
from beamcheck.model.existing import Existing
from beamcheck.model.job import About, Job
from beamcheck.model.stock import Stock
from beamcheck.sizing.batch import CHECKS, KINDS, Beams, check_simple, each_combination
from beamcheck.sizing.batch_rows import bare_wood, numbers_of, stacked
from beamcheck.values.lumber import read_size

WOODS = [
    ("Hem-Fir", "No.2", "2x10"), ("Douglas Fir-Larch", "Select Structural", "2x12"), ("Southern Pine", "No.2", "2x8"),
    ("Spruce-Pine-Fir", "No.3", "2x4"), ("Douglas Fir-Larch", "No.1", "4x12"),
    ("Douglas Fir-Larch", "No.1", "6x16 dressed"), ("Eastern Hemlock-Tamarack", "No.1", '7 1/2" x 9 1/2"'),
    ("Douglas Fir-Larch", "No.2", "8x8 rough"),
]  # fmt: skip
FIELDS = {"D": "dead", "L": "live", "Lr": "roof_live", "S": "snow"}
ABOUT = About(title="invented beams", standard="NDS 2018", loads="ASCE 7-16", invented=True)
WALL = Existing(name="wall", what="invented wall", material="concrete", confirmed_by="invented sheet S-1, engineer")

quick = settings(max_examples=60, deadline=None)
inches = st.integers(30, 300).map(float)
plf = st.integers(1, 400).map(float)


@st.composite
def members(draw: st.DrawFn) -> tuple[Stock, Beam]:
    """A beam on two seats with spread loads on its top."""
    species, grade, size = draw(st.sampled_from(WOODS))
    wood = {
        "name": "wood", "species": species, "grade": grade, "size": size, "grade_from": "stamp",
        "evidence": "invented stamp, mill 12", "moisture": draw(st.sampled_from(["dry", "green", "wet"])),
        "incised": draw(st.booleans()), "measured_moisture": draw(st.sampled_from([None, "12 %"])),
    }  # fmt: skip
    kinds = draw(st.sets(st.sampled_from(sorted(FIELDS))))
    span, seat = draw(inches), draw(st.sampled_from([1.5, 3.5, 5.5]))
    beam = {
        "name": "beam", "stock": "wood", "service": draw(st.sampled_from(["floor", "roof"])),
        "finish": draw(st.sampled_from(["plaster", "gypsum board", "masonry veneer", "flexible", "none"])),
        "plies": draw(st.integers(1, 3)), "meant": {"at": "an invented span of any length", "spacing": "invented"},
        "top_held": draw(st.sampled_from(["full length", "ends only", "16 in", "60 in", "200 in"])),
        "supports": [
            {"at": f"{x} in", "on": "wall", "bearing": f"{seat} in", "restrained": True} for x in (0.0, span)
        ],
        "carries": [{"what": kind, "applied": "top", FIELDS[kind]: f"{draw(plf)} plf"} for kind in sorted(kinds)],
    }  # fmt: skip
    if draw(st.booleans()):
        beam |= {"members": 3, "spacing": "16 in", "shared_by": "invented deck"}
    return Stock.model_validate(wood), Beam.model_validate(beam)


def batch_of(pieces: list[tuple[Stock, Beam]]) -> Beams:
    """The same beams as arrays."""
    rows = []
    for stock, beam in pieces:
        size = read_size(stock.size)
        section = Section(beam.plies * size.b, size.d, size.b)
        uniform = Applied("D", 0.0, math.inf, w_start=1.0, w_end=1.0)
        bracing = bracing_of(
            beam, size, section, Span(0.0, math.inf, False, upright=True), [uniform], simple=True, top=True
        )
        limits = limits_of(beam, beam.service)
        loads = dict.fromkeys(KINDS, 0.0)
        for load in beam.carries:
            loads[load.what] += getattr(load, FIELDS[load.what])[0]
        rows.append(
            (section, wood_of(stock, reference_values(stock), sharing=sharing_of(beam)), bracing, limits, loads, beam)
        )

    def each(value: Callable[..., Any]) -> np.ndarray:
        return np.array([value(*row) for row in rows])

    return Beams(
        section=Section(
            each(lambda s, *_: s.b), each(lambda s, *_: s.d), each(lambda s, *_: s.breadth_alone),
        ),
        wood=stacked([row[1] for row in rows]),
        span=each(lambda *row: row[5].supports[1].at),
        seat=each(lambda *row: row[5].supports[0].bearing),
        loads={kind: each(lambda *row, kind=kind: row[4][kind]) for kind in KINDS},
        held=each(lambda *row: row[2].held),
        braces=each(lambda *row: math.inf if row[2].held else row[2].l_u),
        limit_live=each(lambda *row: row[3].live.value),
        limit_roof=each(lambda *row: row[3].snow.value),
        limit_total=each(lambda *row: row[3].total.value),
        dead_counts=each(lambda *row: float(total_counts(row[3], row[1]).value)),
        total_at_most=each(lambda *row: row[3].total_at_most.value if row[3].total_at_most else math.inf),
        near_seats=True,
    )  # fmt: skip


def checks_of(stock: Stock, beam: Beam) -> list[Check]:
    """The checks that `check_job` makes of a beam, without the advice that takes it ten times as long."""
    context = Context(Structure({stock.name: stock}, {WALL.name: WALL, beam.name: beam}))
    return check_beam(beam, wood_of(stock, reference_values(stock), sharing=sharing_of(beam)), context)[1]


def compare(batch: Beams, row: int, checks: Sequence[Check]) -> None:
    found, each = check_simple(batch), each_combination(batch)
    for k, what in enumerate(CHECKS):
        check = next((check for check in checks if check.what.startswith(what)), None)
        ratio = float(found.worst[k, row])
        if check is None:  # no such load, or next to nothing: a job leaves that out
            assert ratio < 1e-3, what
        elif check.ratio is None:
            assert math.isnan(ratio), what
            assert check.verdict == "fails"
        else:
            assert ratio == pytest.approx(check.ratio, rel=1e-9), what
            # two combinations may tie, so it is the ratio under the combination named by the other that is compared
            named = each.combinations.index(check.combination)
            assert each.ratios[k, named, row] == pytest.approx(ratio, rel=1e-9), what


@quick
@given(st.lists(members(), min_size=1, max_size=3))
def test_a_batch_is_what_the_checks_of_a_job_say(pieces: list[tuple[Stock, Beam]]) -> None:
    batch = batch_of(pieces)
    for row, (stock, beam) in enumerate(pieces):
        compare(batch, row, checks_of(stock, beam))


@settings(max_examples=4, deadline=None)
@given(members())
def test_a_beam_is_what_check_job_says(piece: tuple[Stock, Beam]) -> None:
    stock, beam = piece
    result = check_job(Job(job=ABOUT, stock=(stock,), existing=(WALL,), beam=(beam,)))
    compare(batch_of([piece]), 0, result.pieces[0].checks)


def own(batch: Beams, row: int) -> Beams:
    """One row of a batch as a batch of its own."""

    def one(value: Any) -> Any:
        return value[row : row + 1] if isinstance(value, np.ndarray) else value

    numbers = {name: one(value) for name, value in numbers_of(batch.wood).items()}
    return replace(
        batch, section=Section(one(batch.section.b), one(batch.section.d), one(batch.section.breadth_alone)),
        wood=bare_wood(numbers), loads={kind: one(load) for kind, load in batch.loads.items()},
        **{name: one(getattr(batch, name)) for name in (
            "span", "seat", "held", "braces", "limit_live", "limit_roof", "limit_total", "dead_counts", "total_at_most",
        )},
    )  # fmt: skip


@quick
@given(st.lists(members(), min_size=2, max_size=8))
def test_together_or_one_at_a_time_is_the_same(pieces: list[tuple[Stock, Beam]]) -> None:
    batch = batch_of(pieces)
    together = check_simple(batch)
    for row in range(len(pieces)):
        alone = check_simple(own(batch, row))
        np.testing.assert_array_equal(alone.worst[:, 0], together.worst[:, row])
        assert alone.words(0) == together.words(row)


def test_blocks_make_no_difference(monkeypatch: pytest.MonkeyPatch) -> None:
    rng = np.random.default_rng(7)
    batch = some(600, rng)
    whole = check_simple(batch)
    monkeypatch.setattr("beamcheck.sizing.batch.BLOCK", 7)
    small = check_simple(batch)
    np.testing.assert_array_equal(small.worst, whole.worst)
    np.testing.assert_array_equal(small.under, whole.under)


def test_the_worst_of_each_combination_governs() -> None:
    batch = some(300, np.random.default_rng(8))
    found, each = check_simple(batch), each_combination(batch)
    np.testing.assert_allclose(each.ratios.max(axis=1), found.worst, rtol=1e-12)


def some(n: int, rng: np.random.Generator) -> Beams:
    """Random beams, some without snow, some held."""
    b, d = rng.uniform(1.5, 8.0, n), rng.uniform(5.5, 14.0, n)
    stock = Stock(
        name="wood",
        species="Hem-Fir",
        grade="No.2",
        size="2x10",
        moisture="dry",
        grade_from="stamp",
        evidence="invented stamp, mill 12",
    )
    loads = {"L": rng.uniform(1.0, 20.0, n), "S": rng.uniform(1.0, 20.0, n) * (rng.random(n) > 0.3), "Lr": 3.0}
    return Beams(
        Section(b, d, b), wood_of(stock, reference_values(stock)), rng.uniform(48.0, 240.0, n), 3.5, loads,
        rng.random(n) > 0.5, 360.0, 240.0, 240.0,
    )  # fmt: skip


class TestWhatIsRefused:
    batch = some(4, np.random.default_rng(9))

    def test_a_row_outside_a_rule_never_fits_and_stops_no_other(self) -> None:
        """Over R_B = 50 (NDS 2018 3.3.3.7) the second of two joists has no C_L; braced, it has one."""
        thin = replace(
            self.batch, section=Section(1.5, 11.25, 1.5), span=np.array([90.0, 300.0]), held=False,
            loads={"L": np.array([1.0, 1.0])},
        )  # fmt: skip
        found = check_simple(thin)
        assert found.fits.tolist() == [True, False]
        assert np.isnan(found.ratio).tolist() == [False, True]
        assert found.words(1)[0] == "bending"
        assert not np.isnan(check_simple(replace(thin, braces=24.0)).ratio).any()

    @pytest.mark.parametrize(
        "name", ["span", "seat", "limit_live", "limit_roof", "limit_total", "dead_counts", "total_at_most", "braces"]
    )
    @pytest.mark.parametrize("bad", [math.nan, -1.0, 0.0, -math.inf])
    def test_a_value_that_cannot_be_is_not_a_number_in_its_row_only(self, name: str, bad: float) -> None:
        changed: dict[str, Any] = {"held": False, name: np.array([100.0, bad, 100.0, 100.0])}
        found = check_simple(replace(self.batch, **changed))
        assert np.isnan(found.ratio).tolist() == [False, True, False, False]
        assert not found.fits[1]

    @pytest.mark.parametrize("bad", [math.nan, -1.0, math.inf])
    @pytest.mark.parametrize("kind", KINDS)
    def test_a_load_that_cannot_be(self, kind: str, bad: float) -> None:
        loads = {**self.batch.loads, kind: np.array([1.0, bad, 1.0, 1.0])}
        assert np.isnan(check_simple(replace(self.batch, loads=loads)).ratio).tolist() == [False, True, False, False]

    @pytest.mark.parametrize("name", ["F_b", "F_v", "F_c_perp", "E", "F_b C_M", "F_b C_r", "F_v C_i", "E C_fu"])
    @pytest.mark.parametrize("bad", [math.nan, -1.0, 0.0])
    def test_a_value_of_the_wood_that_cannot_be(self, name: str, bad: float) -> None:
        numbers = {**numbers_of(self.batch.wood), name: np.array([1.0, bad, 1.0, 1.0])}
        found = check_simple(replace(self.batch, wood=bare_wood(numbers)))
        assert np.isnan(found.ratio).tolist() == [False, True, False, False]

    @pytest.mark.parametrize("bad", [math.nan, -1.0, math.inf])
    def test_a_weight_that_cannot_be(self, bad: float) -> None:
        """A negative one would lift the beam."""
        numbers = {**numbers_of(self.batch.wood), "density": np.array([0.02, bad, 0.02, 0.02])}
        found = check_simple(replace(self.batch, wood=bare_wood(numbers)))
        assert np.isnan(found.ratio).tolist() == [False, True, False, False]

    def test_what_holds_for_the_whole_batch_is_an_error(self) -> None:
        with pytest.raises(OutOfRange, match="l_b must be a finite number above 0, given -1"):
            check_simple(replace(self.batch, seat=-1.0))
        with pytest.raises(OutOfRange, match="load D must be a finite number, 0 or more, given -1"):
            check_simple(replace(self.batch, loads={"D": -1.0}))

    def test_shapes_must_agree(self) -> None:
        with pytest.raises(OutOfRange, match=r"span has the shape \(3,\): .* one for each of the 4"):
            check_simple(replace(self.batch, span=np.ones(3)))
        with pytest.raises(OutOfRange, match=r"seat has the shape \(2, 2\)"):
            check_simple(replace(self.batch, seat=np.ones((2, 2))))
        with pytest.raises(OutOfRange, match="span must be a number or an array of numbers, not str"):
            check_simple(replace(self.batch, span="12 ft"))

    def test_held_is_yes_or_no(self) -> None:
        """A NaN would count as held, and that would be on the unsafe side."""
        with pytest.raises(OutOfRange, match="held must be True or False"):
            check_simple(replace(self.batch, held=np.array([1.0, math.nan, 0.0, 1.0])))

    def test_wind_and_round_pieces_are_for_check_job(self) -> None:
        with pytest.raises(
            UnknownName, match="kind of load in a batch 'W' is not known; known are 'D', 'L', 'Lr', 'S'"
        ):
            check_simple(replace(self.batch, loads={"W": 1.0}))
        with pytest.raises(OutOfRange, match="round"):
            check_simple(replace(self.batch, section=Section(8.0, 8.0, 8.0, round=True)))

    def test_no_wood_to_put_together(self) -> None:
        with pytest.raises(OutOfRange, match="no wood"):
            stacked([])


def test_a_beam_too_short_for_the_allowance_keeps_its_full_shear() -> None:
    """NDS 2018 3.4.3.1(a) leaves nothing over where no load lies farther than d from both faces: no credit for that."""
    short = replace(some(1, np.random.default_rng(3)), span=np.array([20.0]), section=Section(3.5, 9.25, 3.5))
    full = check_simple(short).worst[CHECKS.index("shear")]
    assert check_simple(replace(short, near_seats=True)).worst[CHECKS.index("shear")] == full
    longer = replace(short, span=np.array([80.0]))
    near = check_simple(replace(longer, near_seats=True)).worst[CHECKS.index("shear")]
    # by hand: the shear at d from the face over that at the end
    share = ((80.0 - 3.5) / 2 - 9.25) / (80.0 / 2)
    assert near == pytest.approx(check_simple(longer).worst[CHECKS.index("shear")] * share, rel=1e-12)


def test_numbers_of_a_wood_come_back_under_their_names() -> None:
    """Own weight once went into another field of the wood, and every span table left it out."""
    stock = Stock(
        name="wood",
        species="Hem-Fir",
        grade="No.2",
        size="2x10",
        moisture="green",
        grade_from="stamp",
        evidence="invented stamp: agency mark, mill 12",
        incised=True,
    )
    wood = wood_of(stock, reference_values(stock))
    assert numbers_of(bare_wood(numbers_of(wood))) == numbers_of(wood)
    assert bare_wood(numbers_of(wood)).density == wood.density > 0.0
    assert stacked([wood, wood]).density == wood.density


def test_own_weight_is_all_that_a_bare_beam_carries() -> None:
    """By hand: M = wL2/8 with w = density b d, against F_b' = 850 x 1.1 x 0.9 psi (NDS 2018 Table 4A, C_F, C_D)."""
    bare = replace(
        some(1, np.random.default_rng(3)), span=np.array([144.0]), section=Section(1.5, 9.25, 1.5), held=True
    )
    found = check_simple(replace(bare, loads={}))
    w = float(bare.wood.density) * 1.5 * 9.25
    by_hand = w * 144.0**2 / 8 / (1.5 * 9.25**2 / 6) / (850 * 1.1 * 0.9)
    assert w > 0.0
    assert found.worst[CHECKS.index("bending"), 0] == pytest.approx(by_hand, rel=1e-9)
