"""Sizing answers: against published tables, against the checks of a job, by their properties, and what is refused."""

from __future__ import annotations

import csv
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from beamcheck.checks.beams.beam import check_beam, largest_ratio
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import CAUTION, SIGN_OFF
from beamcheck.checks.core.wood.material import reference_values, sharing_of, wood_of
from beamcheck.errors import JobError, OutOfRange, UnitError, UnknownName
from beamcheck.model.beams import Beam
from beamcheck.model.existing import Existing
from beamcheck.sizing.batch import CHECKS, check_simple
from beamcheck.sizing.simple_beam import FIELD_OF_KIND, PSF, Member, batch, member, ready
from beamcheck.sizing.sizing import Answer, largest_load, longest_span, longest_spans, smallest_size
from beamcheck.values.lumber import read_size
from beamcheck.values.sizes import listed_sizes

PUBLISHED = Path(__file__).parents[1] / "published" / "joist_spans.csv"
FLOORS = [
    row for row in csv.DictReader(PUBLISHED.read_text(encoding="utf-8").splitlines())
    if row["member"] == "floor joist" and row["how"] == "read"
]  # fmt: skip
quick = settings(max_examples=40, deadline=None)


def joist(**other: Any) -> Member:
    plain: dict[str, Any] = {
        "species": "Hem-Fir", "grade": "No.2", "size": "2x10", "spacing": "16 in", "finish": "none",
        "service": "floor", "moisture": "dry", "top_held": "full length", "dead": "10 psf", "live": "40 psf",
        "shared_by": "invented boards",
    }  # fmt: skip
    return member(**{**plain, **other})


woods = st.sampled_from(
    [("Hem-Fir", "No.2"), ("Douglas Fir-Larch", "Select Structural"), ("Southern Pine", "No.1"), ("Redwood", "No.3")]
)
psf = st.integers(1, 80)


@st.composite
def members(draw: st.DrawFn) -> Member:
    species, grade = draw(woods)
    kinds = draw(st.sets(st.sampled_from(["live", "roof_live", "snow"])))
    loads: dict[str, Any] = {kind: f"{draw(psf)} psf" for kind in sorted({"dead", *kinds})}
    return member(
        species, grade, draw(st.sampled_from(["2x6", "2x10", "3x8", "4x12"])),
        spacing=draw(st.sampled_from(["12 in", "24 in", "4 ft"])),
        finish=draw(st.sampled_from(["plaster", "masonry veneer", "none"])),
        service=draw(st.sampled_from(["floor", "roof"])), moisture=draw(st.sampled_from(["dry", "wet"])),
        top_held=draw(st.sampled_from(["full length", "ends only", "48 in"])), plies=draw(st.integers(1, 2)),
        meant=dict.fromkeys(loads, "an invented load of a test"), **loads,
    )  # fmt: skip


def ratio_by_job(one: Member, span: float) -> float:
    """The largest ratio that the checks of a job give for the same beam, with the full shear (loads at the side)."""
    loads = {FIELD_OF_KIND[kind]: f"{load / PSF:.12g} psf" for kind, load in one.loads.items()}
    held = one.beam.top_held if isinstance(one.beam.top_held, str) else f"{one.beam.top_held} in"
    beam = Beam.model_validate({
        **dict(one.beam), "spacing": f"{one.spacing} in", "top_held": held,
        "supports": [
            {"at": f"{x} in", "on": "wall", "bearing": f"{one.seat} in", "restrained": True} for x in (0.0, span)
        ],
        "carries": [{"what": "floor", "applied": "side", "width": f"{one.spacing} in", **loads}],
    })  # fmt: skip
    wall = Existing(name="wall", what="invented", material="steel", confirmed_by="invented sheet S-1, engineer")
    context = Context(Structure({one.stock.name: one.stock}, {"wall": wall, beam.name: beam}))
    wood = wood_of(one.stock, reference_values(one.stock), sharing=sharing_of(beam))
    # how a load at the side is fastened is no question of a size: those checks are left out
    return largest_ratio([one for one in check_beam(beam, wood, context)[1] if not one.id.startswith("beam.side_load")])


def ratios_at(one: Member, span: float) -> np.ndarray:
    return check_simple(batch([ready(one)], np.array([span]))).worst[:, 0]


# ---- from outside -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("row", FLOORS, ids=lambda row: row["id"])
def test_never_longer_than_the_published_floor_table_and_not_much_shorter(row: dict[str, str]) -> None:
    """IRC 2018 R502.3.1 (read). Own weight, shear deflection, and creep in the total deflection make ours shorter."""
    one = joist(
        species=row["species"], grade=row["grade"], size=row["size"], spacing=f"{row['spacing_in']} in",
        dead=f"{row['dead_psf']} psf", live=f"{row['live_psf']} psf",
    )  # fmt: skip
    ours = longest_span(one).span
    assert ours is not None
    assert 0.9 * float(row["published_in"]) <= ours <= float(row["published_in"])


@quick
@given(members())
def test_the_answer_holds_by_the_checks_of_a_job_and_an_inch_more_does_not(one: Member) -> None:
    answer = longest_span(one)
    if answer.span is None:
        assert not ratio_by_job(one, 12.0) <= 1.0
        return
    assert answer.span == int(answer.span)
    assert ratio_by_job(one, answer.span) == pytest.approx(answer.ratio, rel=1e-9)
    assert answer.ratio <= 1.0
    assert answer.capped == (answer.span == 480.0)
    if not answer.capped:
        assert not ratio_by_job(one, answer.span + 1.0) <= 1.0


@quick
@given(members(), st.integers(36, 240).map(float))
def test_the_largest_load_holds_and_a_pound_more_does_not(one: Member, span: float) -> None:
    answer = largest_load(one, f"{span} in", "snow")
    assert answer.load is not None
    if not answer.found:
        assert not ratio_by_job(one.with_load("S", 0.0), span) <= 1.0
        return
    psf = answer.load[1] / PSF
    assert psf == pytest.approx(round(psf))
    assert ratio_by_job(one.with_load("S", answer.load[1]), span) == pytest.approx(answer.ratio, rel=1e-9)
    assert answer.ratio <= 1.0
    if not answer.capped:
        assert not ratio_by_job(one.with_load("S", answer.load[1] + PSF), span) <= 1.0


@quick
@given(members(), st.integers(36, 240).map(float))
def test_no_smaller_size_would_have_done(one: Member, span: float) -> None:
    answer = smallest_size(one, f"{span} in")
    sizes = [read_size(name) for name in listed_sizes(read_size(one.stock.size))]
    chosen = read_size(answer.member.stock.size)
    assert (answer.ratio <= 1.0) == answer.found
    smaller = [size for size in sizes if size.b * size.d < chosen.b * chosen.d - 1e-9] if answer.found else sizes
    for size in smaller:
        assert not ratios_at(one.with_size(size.text), span).max() <= 1.0


# ---- properties ---------------------------------------------------------------------------------------------------


@quick
@given(members(), st.floats(24.0, 300.0), st.floats(1.0, 100.0))
def test_a_longer_span_never_lowers_a_ratio(one: Member, span: float, more: float) -> None:
    """By an inch or more: Table 3.3.3 itself steps down by 1 part in 1000 where l_u/d passes 7."""
    near, far = ratios_at(one, span), ratios_at(one, span + more)
    assume(not np.isnan(near).any())
    assert np.all((far >= near * (1 - 1e-12)) | np.isnan(far))


@quick
@given(members(), st.sampled_from(["D", "L", "Lr", "S"]), psf, st.floats(24.0, 300.0))
def test_a_larger_load_never_lowers_a_ratio(one: Member, kind: str, more: int, span: float) -> None:
    heavier = one.with_load(kind, one.loads.get(kind, 0.0) + more * PSF)
    before, after = ratios_at(one, span), ratios_at(heavier, span)
    np.testing.assert_array_equal(np.isnan(before), np.isnan(after))
    known = ~np.isnan(before)
    assert np.all(after[known] >= before[known] * (1 - 1e-12))


@quick
@given(members(), st.floats(36.0, 240.0), st.floats(1.02, 2.0))
def test_a_deeper_section_never_raises_the_bending_ratio(one: Member, span: float, scale: float) -> None:
    """Of the same breadth and C_F (a size factor that falls with the depth may do it, and is not meant)."""
    row = ready(one)
    beams = batch([row, row], np.full(2, span))
    deeper = beams.section.d * np.array([1.0, scale])
    section = type(beams.section)(beams.section.b, deeper, beams.section.breadth_alone)
    bent = check_simple(type(beams)(**{**vars(beams), "section": section})).worst[CHECKS.index("bending")]
    assume(not np.isnan(bent).any())
    assert bent[1] <= bent[0] * (1 + 1e-12)


def test_many_at_once_are_what_one_at_a_time_is() -> None:
    several = [joist(size=size, spacing=spacing) for size in ("2x6", "2x12") for spacing in ("12 in", "24 in")]
    together = longest_spans(several)
    assert [answer.words for answer in together] == [longest_span(one).words for one in several]


# ---- what an answer says ------------------------------------------------------------------------------------------


def test_an_answer_carries_caution_sign_off_conditions_and_sources() -> None:
    answer = longest_span(joist())
    text = repr(answer)
    assert CAUTION in text
    assert SIGN_OFF in text
    assert "stamped with this species and grade only: no evidence of the grade was asked for" in text
    assert "Both ends held against turning over" in text
    assert "Three or more side by side share the load (C_r): invented boards." in text
    assert {"NDS Supplement 2018 Table 4A", "ASCE 7-16 2.4.1"} <= {source.document for source in answer.sources}
    assert answer.recalled == ()
    recalled = longest_span(joist(grade="No.1")).recalled
    assert [source.document for source in recalled] == ["NDS Supplement 2018 Table 4A"]
    assert all(source.how == "memory" for source in recalled)


def test_the_words_of_each_question() -> None:
    assert longest_span(joist()).words.startswith(
        "2x10 Hem-Fir No.2 at 16 in, longest span: 14 ft 10 in (bending at 0.9"
    )
    assert smallest_size(joist(size="2x6"), "14 ft").words.startswith(
        "Hem-Fir No.2 at 16 in, smallest size over 14 ft: 2x10"
    )
    load = largest_load(joist(), "14 ft").words
    assert load.startswith("2x10 Hem-Fir No.2 at 16 in, largest live load over 14 ft: ")
    assert load.endswith(" psf (bending at 0.991, D + L)")


def test_nothing_holds() -> None:
    answer = longest_span(joist(dead="4,000 psf", meant={"dead": "an invented load"}))
    assert (answer.found, answer.span, answer.capped) == (False, None, False)
    assert ": none (bearing at " in answer.words
    load = largest_load(joist(dead="900 psf", meant={"dead": "an invented load"}), "20 ft")
    assert not load.found
    assert ": none (" in load.words
    size = smallest_size(joist(), "60 ft")
    assert not size.found
    assert ": none (" in size.words


def test_a_search_that_ends_at_its_limit_says_so() -> None:
    answer = longest_span(joist(), at_most="10 ft 6 1/2 in")
    assert (answer.span, answer.capped) == (126.0, True)
    assert "more may do, the search ended there" in answer.words


def test_doubts_about_the_wood_come_along() -> None:
    """NDS 2018 4.3.8 gives incising factors for dimension lumber only."""
    timber = joist(size="6x12 dressed", grade="No.1", incised=True, shared_by="")
    assert any("incised timber" in doubt for doubt in longest_span(timber).doubts)
    assert "In doubt: incised timber" in repr(longest_span(timber))


def test_doubts_about_the_finish_come_along() -> None:
    """What makes the same beam `refer` in a job: wood under masonry, and a limit of one's own that is laxer."""
    veneer = longest_span(joist(finish="masonry veneer"))
    assert any("lets wood carry masonry" in doubt for doubt in veneer.doubts)
    lax = longest_span(joist(limit_live=180, limit_why="invented letter of an engineer"))
    assert any("laxer than the length/360 of the tables" in doubt for doubt in lax.doubts)
    assert "Deflection limits of one's own: invented letter of an engineer." in lax.conditions


def test_doubts_about_the_loads_come_along() -> None:
    """What makes the same beam `refer` in a job: a floor without live load, one without weight, snow on a floor."""
    assert longest_span(joist()).doubts == ()
    assert any("no live load is given" in doubt for doubt in longest_span(joist(live=None)).doubts)
    assert any("snow stands on a floor" in doubt for doubt in longest_span(joist(snow="20 psf")).doubts)
    light = longest_span(joist(dead=None)).doubts
    assert len(light) == 1 and "weigh" in light[0]
    roof = {"service": "roof", "live": None, "dead": "15 psf"}
    assert any("neither snow nor roof live load" in doubt for doubt in longest_span(joist(**roof)).doubts)
    assert longest_span(joist(**roof, roof_live="20 psf")).doubts == ()


def test_the_doubts_of_a_largest_load_are_those_of_the_load_that_was_found() -> None:
    """What was said of the kind that is asked about does not count."""
    assert largest_load(joist(live=None), "10 ft").doubts == ()
    assert any("live load of" in doubt for doubt in largest_load(joist(), "24 ft").doubts)


def test_sizes_without_values_are_named() -> None:
    """Table 4A has Construction up to 4 in wide only."""
    answer = smallest_size(joist(grade="Construction", size="2x4"), "4 ft", among=["2x4", "2x10"])
    assert answer.member.stock.size == "2x4"
    assert any(note.startswith("2x10 left out: ") for note in answer.notes)


# ---- what is refused ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ({"spacing": "16"}, "spacing: '16' has no unit"),
        ({"spacing": 16}, "a bare number has no unit"),
        ({"finish": "non"}, "finish: 'non' is not allowed"),
        ({"service": "attic"}, "service: 'attic' is not allowed"),
        ({"live": "40 plf", "dead": None}, "give the load per area"),
        ({"live": "400 lb", "dead": None}, "a force has no tributary width"),
        ({"live": "-40 psf"}, "write this load as a positive amount"),
        ({"live": None, "dead": None}, "loads: a load without a kind"),
        ({"seat": "1 in"}, "seat: 1 in is too short: at least 1 1/2 in"),
        ({"top_held": "at loads"}, "top_held: there is no point load that could hold the edge"),
        ({"species": "Hemfurr"}, "species: species 'Hemfurr' is not known; did you mean 'Hem-Fir'?"),
        ({"grade": "No.9"}, "'No.9' is not known"),
        ({"species": "unknown"}, "species: sizing is for known wood"),
        ({"grade": "unstamped"}, "grade: the grade is unstamped"),
        ({"limit_live": 480}, "limit_why: missing"),
    ],
)
def test_a_question_that_cannot_be_asked(given: dict[str, Any], message: str) -> None:
    with pytest.raises(JobError) as error:
        joist(**given)
    assert "the sizing question: " in str(error.value)
    assert message in str(error.value)


def test_other_things_that_are_refused() -> None:
    with pytest.raises(UnknownName, match=r"grade of Hem-Fir 2x10 .* 'Construction' is not known"):
        smallest_size(joist(grade="Construction", size="2x4"), "12 ft", among=["2x10"])
    with pytest.raises(OutOfRange, match="a round piece on a flat seat is for an engineer"):
        longest_span(joist(size="10 in round", grade="No.1", shared_by=""))
    with pytest.raises(OutOfRange, match="at_most is 6 in: spans from 12 in up are tried"):
        longest_span(joist(), at_most="6 in")
    with pytest.raises(OutOfRange, match="the span must be above zero"):
        largest_load(joist(), "0 ft")
    with pytest.raises(UnitError, match="a bare number has no unit"):
        smallest_size(joist(), 12)
    with pytest.raises(
        UnknownName, match="kind of load 'wind' is not known; known are 'dead', 'live', 'roof_live', 'snow'"
    ):
        largest_load(joist(), "12 ft", "wind")


def test_an_outright_short_beam_is_not_blamed_on_a_missing_number() -> None:
    assert not math.isnan(longest_span(joist(dead="4,000 psf", meant={"dead": "an invented load"})).ratio)
    assert isinstance(longest_span(joist()), Answer)
