"""Snow that lies unevenly on a rafter: when it is asked for, of whom, and with which figures (ASCE 7-16 7.6 to 7.9)."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.checks.core.context import HEAD, Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.checks.roofs.snow import snow_checks
from beamcheck.model.job import Snow
from beamcheck.model.loads import FormedLoad, Load
from beamcheck.model.roofs import Rafter

from ..houses import Data, rafter

PSF = 1 / 144
BY = "building department, letter of 3 May 2025"
SAID: Data = {"by": BY, "higher": "nothing", "slides": "counted"}
SNOW: Data = {"what": "roof", "dead": "10 psf", "snow": "20 psf"}


def found(*loads: Data | Load, ground: float | None = 20.0, snow: Data | None = SAID, **more: Any) -> dict[str, Check]:
    """By what each check is about; `ground` in psf."""
    one = Rafter.model_validate(rafter(**more))
    carries = tuple(load if isinstance(load, Load) else Load.model_validate(load) for load in loads)
    one = one.model_copy(update={"carries": carries})
    head = SimpleNamespace(ground_snow=None if ground is None else (ground * PSF, "area"), wind_by="",
                           snow=None if snow is None else Snow.model_validate(snow))  # fmt: skip
    run: Any = SimpleNamespace(rafter=one)
    return {check.what: check for check in snow_checks(run, Context(Structure({}, {}, heads={HEAD: head})))}


EDGE = "snow on one side"


def formed(formed_of: tuple[str, ...] = ("snow",), *, more: bool = False, snow: float = 20.0) -> FormedLoad:
    return FormedLoad.model_construct(what="roof", snow=(snow * PSF, "area"), formed=dict.fromkeys(formed_of, 0.1),
                                      more=more, dead=None)  # fmt: skip


def test_only_where_it_carries_snow() -> None:
    assert found({"what": "roof", "dead": "10 psf"}) == {} == found({**SNOW, "snow": "0 psf"})
    assert set(found(SNOW)) == {EDGE, "drifted snow", "sliding snow"}


@pytest.mark.parametrize(("loads", "told"), [
    ((formed(),), True), ((formed(()),), False), ((formed((), more=True),), True), ((formed(), SNOW), False),
    ((SNOW, formed()), False), ((formed(()), formed(())), False), ((formed(), formed((), more=True)), True),
    ((formed((), snow=0.0), formed()), True),
])  # fmt: skip
def test_all_that_follows_from_the_site_is_told(loads: tuple[Any, ...], told: bool) -> None:
    assert ("snow that lies unevenly" in found(*loads)) is told and (EDGE in found(*loads)) is not told


@pytest.mark.parametrize(("more", "asked"), [
    ({"slope": "2.38 deg"}, True), ({"slope": "2.37 deg"}, False), ({"slope": "30.2565 deg"}, True),
    ({"slope": "30.26 deg"}, False), ({"pair": False, "ridge": "beam", "ridge_on": "ridge"}, False),
])  # fmt: skip
def test_slopes_of_a_pair(more: Data, asked: bool) -> None:
    """1/2:12 to 7:12."""
    check = found(SNOW, ground=None, **more)[EDGE]
    assert (check.verdict == "refer") is asked and ("not asked for" in check.notes[0]) is not asked
    assert not asked or check.questions[0].field == "job.ground_snow"


@pytest.mark.parametrize(("ground", "verdict"), [(20.0, "passes"), (20.1, "fails"), (0.0, "passes"), (0.1, "passes")])
def test_as_much_is_given_as_falls_on_the_ground(ground: float, verdict: str) -> None:
    check = found(SNOW, ground=ground)[EDGE]
    assert check.verdict == verdict
    if ground:
        assert (check.demand, check.capacity) == (pytest.approx(ground * PSF), pytest.approx(20 * PSF))
        assert [one.field for one in check.questions] == ["rafter.R.carries.1.snow"]
        assert check.questions[0].answers[0].says == f"{ground:g} psf"


def test_snow_of_several_entries_is_added_up_and_the_first_of_them_asked() -> None:
    """What lies there by area; a force is none."""
    weight: Data = {"what": "boards", "dead": "3 psf"}
    heap: Data = {"what": "heap", "snow": "90 lb", "at": "3 ft"}
    check = found(weight, {**SNOW, "snow": "8 psf"}, heap, SNOW, ground=25.0)[EDGE]
    assert check.capacity == pytest.approx(28 * PSF) and check.questions[0].field == "rafter.R.carries.2.snow"


@pytest.mark.parametrize(("snow", "said"), [
    ({**SAID, "one_side": "15 psf"}, True), ({**SAID, "one_side": "15 psf", "by": ""}, False),
    ({**SAID, "one_side": "15 psf", "by": "a neighbor"}, False), (SAID, False), (None, False),
])  # fmt: skip
def test_the_lee_side_as_somebody_answers_for_it(snow: Data | None, said: bool) -> None:
    check = found(SNOW, ground=18.0, snow=snow)[EDGE]
    assert check.demand == pytest.approx((15 if said else 18) * PSF) and (BY in check.notes[0]) is said


@pytest.mark.parametrize(("run", "tail", "even"), [
    ("20 ft", "0 in", True), ("20 ft 1/16 in", "0 in", False), ("19 ft", "13.41 in", True),
    ("19 ft", "13.42 in", False),
])  # fmt: skip
def test_a_wide_roof_is_heaped_at_its_ridge(run: str, tail: str, even: bool) -> None:
    """20 ft from eave to ridge: 13.416 in along 6:12 are 12 in on plan."""
    check = found(SNOW, run=run, wall={"at": tail})[EDGE]
    assert (check.verdict != "refer") is even
    assert even or (
        check.questions[0].id == "R/snow_heaped" and check.notes[0].startswith(("20 ft 1/16 in", "20 ft from"))
    )


@pytest.mark.parametrize(("snow", "verdicts", "fields"), [
    (None, ("refer", "refer"), ("job.snow.higher", "job.snow.slides")),
    ({}, ("refer", "refer"), ("job.snow.higher", "job.snow.slides")),
    ({"higher": "nothing", "slides": "counted"}, ("refer", "refer"), ("job.snow.by", "job.snow.by")),
    ({"higher": "nothing", "slides": "counted", "by": "no"}, ("refer", "refer"), ("job.snow.by", "job.snow.by")),
    (SAID, ("passes", "passes"), ("", "")),
    ({"by": BY, "slides": "nothing"}, ("refer", "passes"), ("job.snow.higher", "")),
])  # fmt: skip
def test_what_a_higher_roof_brings(snow: Data | None, verdicts: tuple[str, str], fields: tuple[str, str]) -> None:
    checks = [found(SNOW, snow=snow)[what] for what in ("drifted snow", "sliding snow")]
    assert tuple(one.verdict for one in checks) == verdicts
    assert tuple("".join(asked.field for asked in one.questions) for one in checks) == fields
    if snow == SAID:
        assert checks[0].notes[0].startswith("none comes there, by") and checks[1].notes[0].startswith("it is in the")
