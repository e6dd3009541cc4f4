"""Records do what those of the standard library do."""

from __future__ import annotations

import copy
import dataclasses
import inspect
import pickle
from functools import cached_property
from typing import Any, ClassVar

import pytest

from beamcheck import records


def made(dataclass: Any) -> tuple[type, type, type, type]:
    """The same four classes by one maker."""

    @dataclass(frozen=True)
    class Plain:
        f1: int
        f0: float
        put: tuple[str, ...] = ()
        hash: str = "none"
        known: ClassVar[int] = 7

        @cached_property
        def sum(self) -> float:
            return self.f1 + self.f0

    @dataclass(frozen=True)
    class Under(Plain):
        f2: int = 5

        def __post_init__(self) -> None:
            if self.f2 < 0:
                raise ValueError("less than nothing")

    @dataclass(frozen=True, eq=False)
    class Own:
        """Itself alone."""

        thing: int

        def __repr__(self) -> str:
            return "mine"

    @dataclass(frozen=True)
    class Alike:
        words: str

        def __eq__(self, other: object) -> bool:
            return isinstance(other, Alike) and self.words.casefold() == other.words.casefold()

    return Plain, Under, Own, Alike


OURS, THEIRS = made(records.dataclass), made(dataclasses.dataclass)
NAN = float("nan")


def outcome(do: Any) -> object:
    try:
        return do()
    except (TypeError, ValueError, AttributeError) as error:
        return type(error)


@pytest.mark.parametrize(
    "do",
    [
        lambda plain, under, own, alike: [plain(1, 2.0), under(1, 2.0, f2=3, put=("a",)), own(4), alike("x")],
        lambda plain, under, own, alike: [vars(plain(f0=1, f1=2)), vars(under(hash="a", f0=1, f1=2))],  # in their order
        lambda plain, under, own, alike: [inspect.signature(one) for one in (plain, under, own, alike)],
        lambda plain, under, own, alike: [plain(1, 2.0) == plain(1, 2), plain(1, 2) == under(1, 2), own(1) == own(1)],
        lambda plain, under, own, alike: [plain(1, NAN) == plain(1, NAN), plain(1, 2) != plain(1, 3), plain(1, 2) == 1],
        lambda plain, under, own, alike: [alike("a") == alike("A"), alike("a") == alike("b"), hash(alike("a"))],
        lambda plain, under, own, alike: [hash(plain(1, 2)), hash(under(1, 2))],
        lambda plain, under, own, alike: hash(plain(1, 2, [])),
        lambda plain, under, own, alike: [plain(1, 2).sum, dataclasses.asdict(under(1, 2))],
        lambda plain, under, own, alike: dataclasses.replace(under(1, 2), f1=3),
        lambda plain, under, own, alike: [copy.copy(under(1, 2)), copy.deepcopy(plain(1, 2, ("a",)))],
        lambda plain, under, own, alike: [[one.name for one in dataclasses.fields(cls)] for cls in (plain, under, own)],
        lambda plain, under, own, alike: [under.__match_args__, own.__doc__, plain.__init__.__qualname__],
        lambda plain, under, own, alike: plain(1),
        lambda plain, under, own, alike: plain(1, 2, (), "", 5),
        lambda plain, under, own, alike: plain(1, 2, f1=3),
        lambda plain, under, own, alike: plain(1, 2, f3=3),
        lambda plain, under, own, alike: under(1, 2, f2=-1),
        lambda plain, under, own, alike: setattr(plain(1, 2), "f1", 3),
        lambda plain, under, own, alike: setattr(under(1, 2), "other", 3),
        lambda plain, under, own, alike: delattr(plain(1, 2), "f1"),
    ],
)
def test_what_is_made_is_as_the_standard_library_makes_it(do) -> None:
    ours, theirs = outcome(lambda: do(*OURS)), outcome(lambda: do(*THEIRS))
    assert repr(ours) == repr(theirs)
    assert isinstance(ours, type) == isinstance(theirs, type)


def test_a_needed_field_after_one_that_may_be_left_out_is_refused() -> None:
    class Wrong:
        first: int = 1
        second: int

    with pytest.raises(TypeError, match="without a default"):
        records.dataclass(frozen=True)(Wrong)


def test_what_is_special_is_made_by_the_standard_library() -> None:
    @records.dataclass(frozen=True)
    class Fresh:
        found: dict[str, int] = dataclasses.field(default_factory=dict)

    @records.dataclass
    class Open:
        count: int = 0

    assert Fresh().found is not Fresh().found
    thing = Open()
    thing.count += 1
    assert thing == Open(1)


def test_a_record_goes_to_another_process() -> None:
    from beamcheck.provenance import Source

    fields = {one.name: one.name for one in dataclasses.fields(Source)}
    assert pickle.loads(pickle.dumps(Source(**fields))) == Source(**fields)
