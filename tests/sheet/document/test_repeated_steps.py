"""Each step is printed whole once in a piece; nothing is lost where it is only named again."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from beamcheck.calc.pad import Pad, Step
from beamcheck.formulas.wood import bending, section
from beamcheck.provenance import Source
from beamcheck.sheet.document.blocks import Entry, Known, Lines, Taken, Worked
from beamcheck.sheet.document.mathematics import result_text
from beamcheck.sheet.document.repeated_steps import Ledger, warning

RECALLED = Source("Invented table", "memory", "made up", "low")
NUMBERS = {RECALLED: 4}


def steps() -> list[Step]:
    pad = Pad()
    M = pad.take("M", 262_500.0, "lbf*in", note="from the analysis")
    S = pad(section.rectangle_modulus, b=5.5, d=13.5)
    pad(bending.bending_stress, M=M, S=S)
    pad.take("F_b", 1050.0, "psi", source=RECALLED)
    pad.take("b_v", 2.0, "in")
    pad.take("C_L", 1.0, clause="NDS 2018 3.3.3")
    return pad.steps


def printed(lines: Lines) -> list[Step]:
    return [
        entry.step for line in lines.lines for entry in (line.entries if isinstance(line, Taken) else (line.entry,))
    ]


def named(lines: Lines) -> list[Step]:
    return [entry.step for known in lines.known for entry in known.entries]


def test_the_first_check_prints_all_in_its_order() -> None:
    lines = Ledger(NUMBERS).enter(steps(), "check 1", "a")
    assert lines.known == ()
    assert printed(lines) == steps()
    assert [type(line) for line in lines.lines] == [Taken, Worked, Worked, Taken, Taken]


def test_values_without_a_reason_share_a_line() -> None:
    shared = Ledger(NUMBERS).enter(steps(), "check 1", "a").lines[3]
    assert isinstance(shared, Taken)
    assert [entry.step.symbol for entry in shared.entries] == ["F_b", "b_v"]  # C_L has a clause, so its own line


def test_a_source_has_its_number_and_its_warning() -> None:
    ledger = Ledger(NUMBERS)
    assert ledger.entry(Step("F_b", 1.0, "psi", source=RECALLED)).mark == "memory, low confidence"
    assert ledger.entry(Step("F_b", 1.0, "psi", source=RECALLED)).reference == 4
    assert ledger.entry(Step("M", 1.0, "")) == Entry(Step("M", 1.0, ""))


def test_warnings() -> None:
    assert warning(Source("d", "read", confidence="high")) == ""
    assert warning(Source("d", "derived", confidence="low")) == "low confidence"
    assert warning(Source("d", "memory", confidence="high")) == "memory"
    assert warning(Source("d", "practice")) == "practice"


def test_a_later_check_names_what_stands_and_prints_what_is_new() -> None:
    ledger = Ledger(NUMBERS)
    ledger.enter(steps(), "check 1", "a")
    new = Step("V", 900.0, "lbf")
    lines = ledger.enter([*steps(), new], "check 2", "b")
    assert [(known.label, known.anchor) for known in lines.known] == [("check 1", "a")]
    assert named(lines) == steps() and printed(lines) == [new]
    third = ledger.enter([new, *steps()], "check 3", "c")
    assert [(known.label, named(Lines((known,), ()))) for known in third.known] == [
        ("check 2", [new]), ("check 1", steps()),
    ]  # fmt: skip


def test_within_a_check_a_step_stands_once() -> None:
    lines = Ledger(NUMBERS).enter([*steps(), *steps()], "check 1", "a")
    assert lines.known == () and printed(lines) == steps()


def test_another_value_input_note_or_source_is_another_step() -> None:
    whole = steps()[2]
    others = (
        replace(whole, value=whole.value * 1.0001), replace(whole, inputs={**whole.inputs, "M": 1.0}),
        replace(whole, note="elsewhere"), replace(whole, source=RECALLED), replace(whole, clause="another"),
        replace(whole, unit="psf"), replace(whole, symbol="f_b1"),
    )  # fmt: skip
    for other in others:
        ledger = Ledger(NUMBERS)
        ledger.enter([whole], "check 1", "a")
        assert ledger.enter([other], "check 2", "b").known == ()


def test_noise_of_double_precision_makes_no_new_step() -> None:
    whole = steps()[2]
    ledger = Ledger(NUMBERS)
    ledger.enter([whole], "check 1", "a")
    near = replace(whole, value=whole.value * (1 + 1e-14))
    assert named(ledger.enter([near], "check 2", "b")) == [near]


@given(st.lists(st.lists(st.sampled_from(range(12)), max_size=8), max_size=5))
def test_every_step_of_every_check_is_there_with_its_value(checks: list[list[int]]) -> None:
    """Printed whole in exactly one check, and in each other one named with the value it had."""
    pool = [Step(f"q_{i}", 1.5 * i, "psi", source=RECALLED if i % 2 else None) for i in range(12)]
    ledger, whole = Ledger(NUMBERS), []
    for number, wanted in enumerate(checks, start=1):
        lines = ledger.enter([pool[i] for i in wanted], f"check {number}", f"c{number}")
        shown = {(step.symbol, result_text(step)) for step in (*printed(lines), *named(lines))}
        assert shown == {(pool[i].symbol, result_text(pool[i])) for i in wanted}
        assert all(isinstance(known, Known) and int(known.label.split()[1]) < number for known in lines.known)
        whole += printed(lines)
    assert len(whole) == len({step.symbol for step in whole})
    assert {step.symbol for step in whole} == {pool[i].symbol for wanted in checks for i in wanted}
