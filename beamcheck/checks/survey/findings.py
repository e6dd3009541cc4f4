"""Entries of a survey held against thresholds: nothing, a matter for a grader, or one for an engineer.

The thresholds are rows of `tables/survey_thresholds.csv`; what is measured here is what those rows name.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Literal

from ...model.conditions.survey import Opening, Survey
from ...model.fields.evidence import days_in
from ...model.stock import Stock
from ...records import dataclass
from ...units import show
from ...values.judgment import judgment
from ...values.loader import Row, rows
from ...values.lumber import Size, read_size
from ..core.wood.lost import share_lost
from ..core.wood.material import is_unknown, reference_values
from ..core.wood.site_tests import unlikely

For = Literal["nothing", "grader", "engineer"]
TABLE = "survey_thresholds"
HAIR = 1e-9
# what a whole survey holds; in the words of the form
ENTRIES = {
    "by": "who looked, and when", "stations": "sections at three places", "readings": "moisture readings",
    "grain": "slope of grain", "knots": "knots", "openings": "checks, shakes and splits",
    "heart_checks": "heart checks",
    "losses": "wane, hewing, decay, insects, char", "cuts": "old mortises, notches, holes", "decay": "decay",
    "insects": "insects", "metal": "metal", "crushed": "crushed seats", "fire": "fire", "chemicals": "chemicals",
    "overload": "signs of overload", "sag": "sag", "use": "what is meant to change", "not_seen": "faces not seen",
    "species_by": "how the species is known",
}  # fmt: skip


@dataclass(frozen=True)
class Finding:
    """One entry and what it means: for whom it is, in words, and why."""

    entry: str
    for_whom: For
    text: str
    why: str


@lru_cache(maxsize=1)
def thresholds() -> dict[str, Row]:
    return {row["entry"]: row for row in rows(TABLE)}


def judged(entry: str, measured: float, text: str) -> Finding:
    """A measure held against its row: the engineer's threshold first."""
    row = thresholds()[entry]
    for whom in ("engineer", "grader"):
        if row[whom] and _beyond(measured, float(row[whom]), row["counts"]):
            return Finding(entry, whom, text, row["why"])
    return Finding(entry, "nothing", text, row["why"])


def _beyond(measured: float, limit: float, counts: str) -> bool:
    return measured >= limit * (1.0 - 1e-4) if counts == "from" else measured > limit + HAIR


def findings(stock: Stock) -> list[Finding]:
    """Everything that the survey of a stock says, each entry once; none without a survey."""
    if stock.survey is None:
        return []
    survey, size = stock.survey, read_size(stock.size)
    return [
        *_completeness(survey, stock), *_moisture(survey, size), *_grain(survey), *_knots(survey, size),
        *_openings(survey, size), *_section(stock), *_signs(survey), *_tests(survey, stock),
    ]  # fmt: skip


def missing(survey: Survey) -> list[str]:
    """What was not looked at, in words."""
    return [words for field, words in ENTRIES.items() if getattr(survey, field) in (None, (), "")
            and not (field in ("grain", "knots", "openings", "losses", "cuts", "not_seen")
                     and getattr(survey, field) is not None)]  # fmt: skip


def _completeness(survey: Survey, stock: Stock) -> Iterator[Finding]:
    absent = missing(survey)
    if survey.grain == ():
        absent.append("slope of grain")
    if survey.by and not days_in(survey.by):
        absent.append("on which day it was looked at")
    yield judged("not looked at", len(absent), f"not looked at: {', '.join(absent) or 'nothing'}")
    unseen = survey.not_seen or ()
    yield judged("faces not seen", len(unseen), f"not seen: {', '.join(unseen) or 'nothing'}")
    wanted = int(judgment("photographs of a survey").value)
    text = f"{len(survey.photographs)} photographs, {wanted} are wanted"
    yield judged("photographs", max(wanted - len(survey.photographs), 0), text)
    if survey.species_by is not None:
        by_eye = float(survey.species_by != "laboratory sample")
        yield judged("species by look", by_eye, f"species {stock.species}, known by {survey.species_by}")


def _moisture(survey: Survey, size: Size) -> Iterator[Finding]:
    if not survey.readings:
        return
    wettest = max(survey.readings, key=lambda one: one.moisture)
    near = "" if wettest.near == "neither" else f", near the {wettest.near}"
    text = f"wettest reading {wettest.moisture:g} % at {show(wettest.at, 'length')}{near}"
    yield judged("moisture", wettest.moisture, text)
    least = judgment("depth of a reading that counts").value * min(size.b, size.d)
    depths = [one.deep for one in survey.readings if one.deep is not None]
    if len(depths) == len(survey.readings):
        shallow = float(max(depths) < least * (1.0 - 1e-6))
        text = f"deepest reading {show(max(depths), 'length')}; {show(least, 'length')} are wanted"
        yield judged("readings near the face", shallow, text)
    if survey.meter is not None:
        kind = {"pins": "pin meter", "plate": "plate meter"}[survey.meter]
        low, high = (judgment(f"{kind}, {end}").value for end in ("least", "most"))
        outside = [one for one in survey.readings if not low <= one.moisture <= high]
        said = ", ".join(f"{one.moisture:g} %" for one in outside)
        text = f"outside what a {kind} can tell ({low:g} to {high:g} %): {said}" if outside else f"all within {kind}"
        yield judged("outside the meter", len(outside), text)


def steepest(survey: Survey) -> float | None:
    """The slope of grain, rise over run; of two faces that meet both together. None where none was measured."""
    if not survey.grain:
        return None
    sides = [1.0 / one.one_in for one in survey.grain if one.face in ("left", "right")]
    others = [1.0 / one.one_in for one in survey.grain if one.face in ("top", "bottom")]
    return float((max(sides, default=0.0) ** 2 + max(others, default=0.0) ** 2) ** 0.5)


def _grain(survey: Survey) -> Iterator[Finding]:
    slope = steepest(survey)
    if slope is None:
        return
    text = f"slope of grain 1 in {1.0 / slope:.3g}, the faces together"
    yield judged("slope of grain", slope, text)


def _knots(survey: Survey, size: Size) -> Iterator[Finding]:
    for knot in survey.knots or ():
        where = f"{show(knot.width, 'length')} knot, {knot.face} face, at {show(knot.at, 'length')}"
        if knot.face in ("top", "bottom"):
            yield judged("narrow face knot", knot.width / size.b, where)
        elif knot.place == "edge":
            yield judged("edge knot", knot.width / size.d, f"{where}, at the edge")
        if not knot.sound:
            yield judged("unsound knot", 1.0, f"{where}, loose or rotten")


def _openings(survey: Survey, size: Size) -> Iterator[Finding]:
    zone = judgment("end zone of checks, in depths").value * size.d
    for one in survey.openings or ():
        long = show(one.end - one.start, "length")
        where = f"{one.kind} {long} long from {show(one.start, 'length')}"
        if one.at_bolts:
            yield judged("split at bolts", 1.0, f"{where}, through a row of bolts")
        deep = (one.depth or 0.0) + one.other_side
        if one.kind == "split" or deep >= size.b * (1.0 - 1e-6):  # checks from both sides that meet are a split
            if _at_an_end(one, survey):
                yield judged("end split", (one.end - one.start) / size.d, f"{where}, at an end")
            else:
                yield judged("split away from the ends", 1.0, where)
        elif one.start < zone or one.end > survey.length - zone:
            yield judged("checks at the ends", deep / size.b, f"{where}, {show(deep, 'length')} deep, both sides added")
    if survey.heart_checks is not None:
        reach = float(survey.heart_checks != "no")
        yield judged("heart checks", reach, f"heart checks: {survey.heart_checks}")


def _at_an_end(one: Opening, survey: Survey) -> bool:
    return one.start <= 0.5 or one.end >= survey.length - 0.5


def _section(stock: Stock) -> Iterator[Finding]:
    worst = max(share_lost(stock), key=lambda one: max(one[1], one[2]), default=None)
    if worst is not None:
        lost, S, A = worst
        text = f"{lost.words}: {100.0 * S:.0f} % of the section modulus and {100.0 * A:.0f} % of the area are gone"
        yield judged("section lost", max(S, A), text)


def _signs(survey: Survey) -> Iterator[Finding]:
    losses = {loss.what for loss in survey.losses or ()}
    rot = survey.decay not in (None, "none") or "decay" in losses
    if survey.decay is not None or rot:
        said = survey.decay if survey.decay not in (None, "none") else "as measured" if rot else "none"
        yield judged("decay", float(rot), f"decay: {said}")
    if survey.insects is not None or "insects" in losses:
        old = survey.insects == "old holes" or ("insects" in losses and survey.insects != "active")
        yield judged("insects, old", float(old), "insects: old holes" if old else "insects: no old holes")
        yield judged("insects, active", float(survey.insects == "active"), f"insects: {survey.insects or 'old holes'}")
    if survey.metal is not None:
        yield judged("metal", float(survey.metal == "loose or corroded"), f"metal: {survey.metal}")
    if survey.crushed is not None:
        yield judged("seat crushed", survey.crushed, f"seats pressed in by {show(survey.crushed, 'length')}")
    if survey.fire is not None or "char" in losses:
        burnt = survey.fire not in (None, "none") or "char" in losses
        yield judged("fire", float(burnt), f"fire: {survey.fire or 'char'}")
    for field in ("chemicals", "overload"):
        if (said := getattr(survey, field)) is not None:
            yield judged(field, float(said == "seen"), f"{field}: {said}")
    if survey.sag is not None:
        yield judged("sag", abs(survey.sag) / survey.length, f"hangs {show(survey.sag, 'length')} in the middle")
    if survey.use is not None:
        yield judged("use", float(survey.use != "as before"), f"use: {survey.use}")
    cuts = survey.cuts or ()
    if survey.cuts is not None:
        yield judged("old cuts", len(cuts), f"{len(cuts)} old mortises, notches and holes")


def _tests(survey: Survey, stock: Stock) -> Iterator[Finding]:
    test = survey.sag_test
    if test is not None and test.sag is not None:
        stayed = test.came_back is False
        yield judged(
            "sag that stayed", float(stayed), "sag test: the middle did not come back" if stayed else "sag test"
        )
    if not is_unknown(stock):
        why = unlikely(stock, reference_values(stock))
        text = f"{stock.species} {stock.grade}: {why or 'nothing that was tested speaks against it'}"
        if test is not None or survey.weighing is not None:
            yield judged("tests against the grade", float(bool(why)), text)
