"""`whatcarries span` and the functions behind it.

Expected spans come from the closed forms of a simple beam (M = wL2/8, 5wL4/384EI) with the design values of NDS
Supplement 2018 Table 4A for Hem-Fir No.2, 2x10: F_b 850 psi, C_F 1.1, E 1,300,000 psi (memory).
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from beamcheck import (
    CAUTION,
    Job,
    JobError,
    JobResult,
    OutOfRange,
    check_job,
    longest_span_of,
    read_job_text,
    span_question,
)
from beamcheck.checks.core.result import no_figure
from beamcheck.sizing.span import CENTIMETER

from .jobs import HEAD, PASSES, STOCK, WALL, joist

ASK = ["span", "--all", "2x10", "--species", "Hem-Fir", "--grade", "No.2", "--dead", "10 psf", "--live", "40 psf",
       "--finish", "gypsum board", "--spacing", "16 in"]  # fmt: skip
SURE = ["--moisture", "dry", "--top-held", "full length", "--seat", "4 in", "--grade-from", "stamp",
        "--evidence", "invented: Hem-Fir No.2 S-DRY"]  # fmt: skip
WORDS = {"dead": "10 psf", "live": "40 psf", "finish": "gypsum board", "spacing": "16 in"}
B, D = 1.5, 9.25  # in
S, I = B * D**2 / 6, B * D**3 / 12  # noqa: E741
G, MOISTURE = 0.43, 19.0
OWN = (
    62.4 * G / (1 + G * 0.009 * MOISTURE) * (1 + MOISTURE / 100) / 1728 * B * D
)  # lbf/in, NDS 2018 density formula (memory)


def flat(text: str) -> str:
    return " ".join(text.split())


def span_in_bending(psf: float, F_b: float = 850 * 1.1) -> float:
    return math.sqrt(8 * F_b * S / (psf / 144 * 16 + OWN))


def test_the_longest_span_is_that_of_the_closed_form(run) -> None:
    done = run(*ASK, *SURE)
    longest = math.floor(span_in_bending(50))
    assert 5 * 40 / 144 * 16 * longest**4 / (384 * 1.3e6 * I) < longest / 360  # bending governs, not deflection
    assert f"it holds up to {longest // 12} ft {longest % 12} in from middle to middle" in flat(done.stdout)
    assert done.exit_code == 3


@pytest.mark.parametrize(
    ("length", "status", "said"),
    [("13 ft", 3, "it is enough"), ("14 ft", 3, "Perhaps: as told it is not enough"), ("16 ft", 4, "No: it is not")],
)
def test_a_given_span_is_enough_or_not(length, status, said, run) -> None:
    """The closed form gives 13 ft 10 in; neighbors under one deck (C_r 1.15), of which nobody spoke, 14 ft 10 in."""
    assert 13 * 12 < span_in_bending(50) < 14 * 12
    done = run(*ASK, *SURE, "--length", length)
    assert done.exit_code == status
    assert said in flat(done.stdout)


@pytest.mark.parametrize("more", [[], SURE, [*SURE, "--length", "4 ft"], ["--length", "4 ft"]])
def test_it_is_never_a_plain_yes(more, run) -> None:
    """Nobody answers for the supports, however short the span and whatever the evidence."""
    done = run(*ASK, *more)
    said = flat(done.stdout)
    assert done.exit_code == 3
    assert said.startswith("REFER.") and "That is not a yes: what else is said here is still open" in said
    assert "nobody is named who answers for it" in said
    assert CAUTION in said and "Reviewed by licensed engineer" in said


def test_what_was_not_said_is_taken_on_the_safe_side_and_listed(run) -> None:
    bare, full = run(*ASK, "--length", "9 ft"), run(*ASK, *SURE, "--length", "9 ft")
    for words in ("Moisture was not said", "Who vouches for the grade was not said", "What holds the top edge",
                  "The length of the seats was not said"):  # fmt: skip
        assert words in flat(bare.stdout)
        assert words not in flat(full.stdout)
    assert "It is counted alone" in flat(full.stdout)

    def worst(**more: str) -> float:
        piece = span_question("2x10", "Hem-Fir", "No.2", length="9 ft", **WORDS, **more).pieces[0]
        return max(check.ratio for check in piece.checks if check.ratio is not None)

    assert worst() > worst(moisture="dry") > worst(moisture="dry", top_held="full length")


def test_members_that_share_the_load_reach_further() -> None:
    """C_r = 1.15 (NDS 2018 4.3.9) on bending."""
    words = {**WORDS, "moisture": "dry", "top_held": "full length"}
    alone = span_question("2x10", "Hem-Fir", "No.2", length="10 ft", **words).pieces[0]
    shared = span_question("2x10", "Hem-Fir", "No.2", length="10 ft", members=4, shared_by="boards", **words).pieces[0]
    ratio = {
        piece.assumptions: check.ratio for piece in (alone, shared) for check in piece.checks if check.what == "bending"
    }
    assert ratio[alone.assumptions] / ratio[shared.assumptions] == pytest.approx(1.15)


@pytest.mark.parametrize("units", ["US", "SI"])
def test_one_step_more_does_not_hold(units) -> None:
    job = read_job_text(span_question("2x10", "Hem-Fir", "No.2", length="9 ft", units=units, **WORDS).job_text)
    step = 1.0 if units == "US" else CENTIMETER
    longest = longest_span_of(job)
    assert longest / step == pytest.approx(round(longest / step), abs=1e-9)
    for steps, holds in ((0, True), (-1, True), (1, False)):
        beam = job.beam[0]
        far = beam.supports[1].model_copy(update={"at": longest + steps * step})
        moved = job.model_copy(update={"beam": (beam.model_copy(update={"supports": (beam.supports[0], far)}),)})
        checks = check_job(moved).pieces[0].checks
        assert all(check.verdict != "fails" and (check.ratio or 0.0) <= 1.0 for check in checks) is holds


def test_where_a_rule_ends_the_span_ends() -> None:
    """R_B at most 50 (NDS 2018 3.3.3.7), l_e = 1.63 l_u + 3 d (Table 3.3.3): beyond it there is no ratio, but a no."""
    b, d = 1.5, 13.25
    most = (50**2 * b**2 / d - 3 * d) / 1.63
    answer = span_question("2x14", "Hem-Fir", "No.2", dead="0.2 plf", finish="none")
    assert answer.pieces[0].inputs and answer.verdict == "refer"
    assert longest_span_of(read_job_text(answer.job_text)) == math.floor(most)


@pytest.mark.parametrize("ratio", [math.nan, math.inf, None])
def test_a_span_without_figures_does_not_hold(ratio, monkeypatch) -> None:
    """Beyond 100 in the checks are made to give no figure at all."""

    def cut_short(job: Job, **words: Any) -> JobResult:
        result = check_job(job, **words)
        if job.beam[0].supports[1].at <= 100.0:
            return result
        asked = (no_figure("the beam", "this span"),)
        checks = tuple(
            replace(check, ratio=ratio, verdict="refer", questions=asked) for check in result.pieces[0].checks
        )
        return replace(result, pieces=(replace(result.pieces[0], checks=checks),))

    job = read_job_text(span_question("2x10", "Hem-Fir", "No.2", length="9 ft", moisture="dry", **WORDS).job_text)
    assert longest_span_of(job) > 101.0
    monkeypatch.setattr("beamcheck.sizing.span.check_job", cut_short)
    assert longest_span_of(job) == 100.0


def test_wood_that_nobody_knows_is_judged_by_the_weakest_it_might_be() -> None:
    """Never a yes for unstamped wood, and a no only when the best it might be is not enough."""

    def asked(length: str | None, **more: Any) -> tuple[str, str]:
        size, species = '3 1/2" x 7 1/4"', "Eastern White Pine"
        answer = span_question(
            size, species, "unstamped", length=length, moisture="dry", top_held="full length", **WORDS, **more
        )
        return answer.verdict, answer.reasons[0].split(":")[0].split(" holds")[0]

    assert asked(None) == ("refer", "By the figures the weakest wood that it might be")
    assert asked("8 ft") == ("refer", "By the figures the weakest wood that it might be is enough")
    assert asked("13 ft") == ("refer", "The figures do not say that the weakest wood that it might be is enough")
    assert asked("40 ft", meant={"at": "an invented span that is too long"}) == ("fails", "No")


def test_no_span_at_all(run) -> None:
    """4,000 plf: w L / 2 on a seat of 1 in of 1.5 in is far over 405 psi even at 12 in."""
    done = run(
        "span",
        "2x4",
        "--species",
        "Hem-Fir",
        "--grade",
        "No.2",
        "--dead",
        "4000 plf",
        "--finish",
        "none",
        "--seat",
        "1 in",
    )
    assert done.exit_code == 4
    assert "By the figures it holds at no span from 12 in up" in flat(done.stdout)


def test_the_question_goes_with_the_answer_as_a_job_file() -> None:
    answer = span_question(
        "2x10", "Hem-Fir", "No.2", length="12 ft", evidence='says "No.2" \\ é 梁', grade_from="stamp", **WORDS
    )
    again = check_job(read_job_text(answer.job_text), text=answer.job_text, name=answer.job_name)
    assert again.pieces[0].checks == answer.pieces[0].checks
    assert again.fingerprint == answer.fingerprint


@settings(max_examples=40, deadline=None)
@given(
    st.text(
        st.characters(exclude_categories=("Cs", "Cc", "Cf", "Co", "Zl", "Zp"), include_characters="\u00ad\u200c\u200d"),
        min_size=1, max_size=30,
    )
)  # fmt: skip
def test_any_evidence_reads_back_as_it_was_written(text) -> None:
    answer = span_question("2x10", "Hem-Fir", "No.2", length="9 ft", evidence=text, grade_from="stamp", **WORDS)
    read = read_job_text(answer.job_text).stock[0].evidence
    assert read == text or (read == "" and sum(map(str.isalnum, text)) < 8)  # '0' or 'none' is no evidence


@given(st.text(max_size=10), st.characters(categories=("Cc", "Cf", "Co", "Zl", "Zp")))
def test_evidence_with_a_character_that_is_not_seen_is_refused(text, unseen) -> None:
    assume(unseen not in "\n\r\t\u00ad\u200c\u200d")
    with pytest.raises(JobError, match="character that is not seen"):
        span_question("2x10", "Hem-Fir", "No.2", length="9 ft", evidence=f"stamp{unseen}{text}", **WORDS)


def test_a_longest_span_is_no_longer_than_a_stick_that_is_sold(run) -> None:
    """By the closed form 20 plf would go farther than 40 ft on an 8x16; but such a timber is not sold."""
    done = run("span", "8x16 dressed", "--species", "Douglas Fir-Larch", "--grade", "No.1", "--dead", "20 plf",
               "--finish", "none", "--moisture", "dry", "--top-held", "full length")  # fmt: skip
    assert done.exit_code == 3
    assert "it holds up to 40 ft (longer ones were not tried)" in flat(done.stdout)


class TestMeant:
    """A figure that looks like a slip is refused, in a question as in a job file, and there is one way to insist."""

    LONG = ("--length", "40 ft")

    def test_a_span_of_many_depths_is_asked_about(self, run) -> None:
        done = run(*ASK, *self.LONG)
        assert done.exit_code == 2 and done.stdout == ""
        assert "did you mean 40 in?" in done.stderr and "meant = { at =" in done.stderr

    def test_with_a_reason_it_is_answered(self, run) -> None:
        done = run(*ASK, *self.LONG, "--meant", "at=an invented span")
        assert done.exit_code == 4
        assert "No: it is not enough for this span" in flat(done.stdout)

    def test_a_reason_for_the_wood_goes_to_the_wood(self) -> None:
        words = {**WORDS, "length": "9 ft", "grade_from": "stamp", "evidence": "invented stamp: agency mark, mill 12"}
        with pytest.raises(JobError, match="is the nominal size"):
            span_question('2" x 10"', "Hem-Fir", "No.2", **words)
        why = {"size": "measured so, in full"}
        answer = span_question('2" x 10"', "Hem-Fir", "No.2", meant=why, **words)
        assert read_job_text(answer.job_text).stock[0].meant == why

    @pytest.mark.parametrize(
        ("said", "told"),
        [("at", "is not of the form FIELD=REASON"), ("at=so", "say why in at least 8 letters"),
         ("span=an invented span", "there is no such field here"), ("a b=an invented span", "there is no such field")],
    )  # fmt: skip
    def test_a_reason_is_for_a_field_and_in_words(self, said, told, run) -> None:
        done = run(*ASK, *self.LONG, "--meant", said)
        assert done.exit_code == 2 and told in flat(done.stderr)


def test_pint_quantities_are_taken_as_well_as_text() -> None:
    from beamcheck.units import registry

    u = registry()
    given = {
        "dead": 10 * u.lbf / u.ft**2,
        "live": 40 * u.lbf / u.ft**2,
        "spacing": 16 * u.inch,
        "finish": "gypsum board",
    }
    told, measured = (
        span_question("2x10", "Hem-Fir", "No.2", length=length, **words).pieces[0]
        for length, words in (("12 ft", WORDS), (12 * u.ft, given))
    )
    assert [check.ratio for check in told.checks] == pytest.approx([check.ratio for check in measured.checks])


def test_si_answers_hold_no_other_units_in_the_answer(run) -> None:
    done = run(*ASK, *SURE, "--units", "SI")
    expected = math.floor(span_in_bending(50) * 2.54) / 100
    assert f"it holds up to {expected:g} m from middle to middle" in flat(done.stdout)


class TestSlips:
    @pytest.mark.parametrize(
        ("arguments", "said"),
        [
            (["--live", "40"], "Invalid value for '--live': '40' has no unit"),
            (["--length", "12"], "Invalid value for '--length'"),
            (["--length", "0 ft"], "the question: "),
            (["--finish", "gipsum"], "is not one of 'plaster', 'gypsum board'"),
            (["--species", "Hem-Fri"], "did you mean 'Hem-Fir'?"),
            (["--grade", "No.9"], "grade"),
            (["--width", "4 ft"], "spacing and width say the same thing: give one of them"),
            (["--members", "3"], "members share a load only through a deck"),
            (["--seats", "4 in"], "'--seat'"),
        ],
    )
    def test_a_slip_is_told(self, arguments, said, run) -> None:
        done = run(*ASK, *arguments)
        assert done.exit_code == 2 and done.stdout == ""
        assert said in done.stderr and "Traceback" not in done.stderr and ": line " not in done.stderr

    def test_without_a_load_it_asks_for_one(self, run) -> None:
        done = run("span", "2x10", "--species", "Hem-Fir", "--grade", "No.2", "--finish", "none", "--spacing", "16 in")
        assert done.exit_code == 2 and "what does it carry? Give at least one load" in done.stderr

    def test_a_load_per_area_needs_a_width(self) -> None:
        with pytest.raises(JobError, match="a load per area needs the width that comes to this piece"):
            span_question("2x10", "Hem-Fir", "No.2", dead="10 psf", finish="none", length="9 ft")

    @pytest.mark.parametrize(
        ("text", "said"),
        [
            (HEAD + STOCK + WALL, "that of a single beam without cuts on two supports"),
            (PASSES + joist("J2"), "that of a single beam without cuts on two supports"),
            (HEAD + STOCK + WALL + joist(more='length = "14 ft"'), "a beam that ends at its two supports"),
            (PASSES.replace('applied = "top"', 'applied = "top", from = "1 ft"'), "spread over the whole length"),
        ],
    )
    def test_the_longest_span_is_for_a_simple_beam(self, text, said) -> None:
        with pytest.raises(OutOfRange, match=said):
            longest_span_of(read_job_text(text))
