"""A result may be used again while all that was looked up for it is the same."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from beamcheck.checks.core.watched import Entries, Log, LookedBeyond, Watched, belonging, choose


class Thing:
    """Something that is only the same as itself."""

    def __init__(self, big: bool = False) -> None:
        self.big = big


def test_what_was_read_must_be_the_same() -> None:
    a, b = Thing(), Thing()
    log = Log()
    seen = Watched("things", {"a": a, "b": b}, log)
    assert seen["a"] is a and seen.get("c") is None
    assert log.holds({"things": {"a": a, "b": Thing()}})  # nobody looked at b
    assert not log.holds({"things": {"a": Thing(), "b": b}})
    assert not log.holds({"things": {"a": a, "b": b, "c": Thing()}})  # what was not there is there now


def test_all_of_it() -> None:
    a, b = Thing(), Thing()
    log = Log()
    assert list(Watched("things", {"a": a, "b": b}, log).values()) == [a, b]
    assert log.holds({"things": {"a": a, "b": b}})
    assert not log.holds({"things": {"a": a, "b": b, "c": Thing()}})
    assert not log.holds({"things": {"b": b, "a": a}})  # another order may matter


def test_what_fits_alone_counts() -> None:
    a, b = Thing(big=True), Thing()
    log = Log()
    assert choose(Watched("things", {"a": a, "b": b}, log), "big", lambda one: one.big) == (a,)
    assert choose({"a": a, "b": b}, "big", lambda one: one.big) == (a,)
    assert log.holds({"things": {"a": a, "b": Thing(), "c": Thing()}})
    assert not log.holds({"things": {"a": a, "b": b, "c": Thing(big=True)}})


def test_what_it_wrote_itself_is_no_question_to_others() -> None:
    log, shared = Log(), dict[str, float]()
    left = Watched("stiffness", shared, log)
    assert "K" not in left
    left["K"] = 2.0
    assert left["K"] == 2.0 and shared == {"K": 2.0}
    assert log.writes == {("stiffness", "K"): 2.0}
    assert log.holds({"stiffness": {}}) and not log.holds({"stiffness": {"K": 2.0}})


def test_numbers_and_words_by_value() -> None:
    log = Log()
    seen = Watched("left", {"a": (1.5, "passes")}, log)
    assert seen["a"] == (1.5, "passes")
    assert log.holds({"left": {"a": (1.5, "passes")}})
    assert not log.holds({"left": {"a": (1.5, "fails")}})


NUMBERS = {"a": 4, "b": 9, "c": 12}


def divisors(of: int) -> list[str]:
    return [str(one) for one in (2, 3) if of % one == 0]


@pytest.mark.parametrize("numbers", [NUMBERS, Entries(NUMBERS), Entries(NUMBERS, frozenset({"d"}))])
def test_what_belongs_and_what_fits_in_any_mapping(numbers: Mapping[str, int]) -> None:
    """A part of a job answers for what belongs to a key, though not for all that there is."""
    for which in (numbers, Watched("numbers", numbers, Log())):  # type: ignore[arg-type]
        assert [belonging(which, "divides", divisors, key) for key in "235"] == [(4, 12), (9, 12), ()]
        assert choose(which, "over 4", lambda one: one > 4) == (9, 12)


def test_what_was_left_out_of_a_part_is_not_looked_for() -> None:
    part = Entries(NUMBERS, frozenset({"d"}))
    assert part["a"] == 4 and part.get("e") is None and "e" not in part
    for look in (lambda: part["d"], lambda: part.get("d"), lambda: "d" in part, lambda: list(part), part.values,
                 part.items):  # fmt: skip
        with pytest.raises(LookedBeyond):
            look()
    whole = Entries(NUMBERS)
    assert list(whole) == ["a", "b", "c"] and "d" not in whole and dict(whole.items()) == NUMBERS


def test_each_of_several_choices_and_reads_must_be_the_same() -> None:
    log, things = Log(), {"a": 1, "b": 2}
    seen = Watched("things", things, log)
    assert choose(seen, "one", lambda one: one == 1) == (1,) and choose(seen, "two", lambda one: one == 2) == (2,)
    assert log.holds({"things": {"a": 1, "b": 2, "c": 3}})
    assert not log.holds({"things": {"a": 1, "b": 3}}) and not log.holds({"things": {"a": 3, "b": 2}})
    assert not log.holds({"things": {"a": True, "b": 2}})  # equal, and not the same
