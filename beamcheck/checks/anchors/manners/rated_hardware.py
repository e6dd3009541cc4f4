"""Rated hardware: the loads that a report publishes, in the directions and for the duration that it publishes them."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

import numpy as np

from ....calc.pad import Pad
from ....formulas.connections.ranges import LONGEST_LASTING
from ....model.anchors.anchor import Rating
from ....model.fields.evidence import read_evidence
from ....provenance import Source
from ....units import read, show
from ....values.factors import load_duration
from ....values.judgment import judgment
from ...core.context import Context
from ...core.result import Check
from ...core.trivial import negligible, trivial
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.material import is_unknown
from ...core.wood.moist import metered_wet
from ...core.wood.strength import Outcome
from ..far_side import far_side_checks
from ..group import Group, Part, round_force
from ..unsaid import Open, grade_open
from .base import Manner, wood_checks
from .report_words import said_of_others

Array = np.ndarray
RATED, CONDITIONS = "published rating", "conditions of the rating"
DIRECTIONS: tuple[tuple[Part, str], ...] = (
    ("down", "down"),
    ("up", "up"),
    ("along", "along the piece, out of the joint"),
)
COLUMNS = {"permanent": "D", "floor": "L", "snow": "S", "roof": "Lr", "wind": "W"}  # the load whose C_D a column has
_YEAR = re.compile(r"\b(?:19|20)\d\d\b")
_REPORT = re.compile(r"\b(?:report|approval|listing|evaluation|assessment|catalog|[A-Z]{2,5}R)\b", re.IGNORECASE)
_NUMBER = re.compile(r"(?:\b[Nn]o\.?|\b[Nn]umber|#|\b[Rr]eport)\s*[A-Z]*-?\d+|\b[A-Z]{2,6}[- ]?\d+")
_C_D = re.compile(r"C_?D\s*+(?:(?:=|of|:)\s*+)?(\d(?:\.\d+)?)", re.IGNORECASE)
_SAID = re.compile(r"\b(floor|snow|roof|wind|permanent)\b(?:\s+\w+)?\s+(?:loads?|column|figures?)", re.IGNORECASE)


class RatedHardware(Manner):
    """It holds what its report says and no more."""

    name = "rated hardware"

    def checks(self, group: Group, context: Context | None = None) -> list[Check]:
        return [*by_report(group, context), *far_side_checks(group)]

    def to_see(self, group: Group) -> tuple[str, ...]:
        source = group.anchor.rating.source if group.anchor.rating is not None else "its report"
        return (
            f"the mark on the hardware is that of its report: {source}",
            "every hole is filled with the fastener that the report lists, none changed, bent or left out",
            "the wood, its moisture and the distances are those of the report's conditions",
        )


def by_report(group: Group, context: Context | None = None) -> list[Check]:
    """The published loads against the forces, and whether the report is for this wood and joint."""
    return [
        *rated_checks(group), *_fits_the_report(group), *said_of_others(group, context), *wood_checks(group),
    ]  # fmt: skip


def rated_checks(group: Group) -> list[Check]:
    """The published loads against the forces, direction by direction and together."""
    rating = group.anchor.rating
    id = "anchor.rated"
    if rating is None:
        text = "no published loads are given (`rating`)"
        return [group.refers(id, "rating", RATED, Open(text, "rating", "rating.down"))]
    found = [*_source(group, rating), *_conditions(group, rating)]
    parts, covered = group.parts, []
    most_rated = max(filter(None, (rating.down, rating.up, rating.along)), default=0.0)
    for field, words in DIRECTIONS:
        most, allowed = float(np.max(parts[field])), getattr(rating, field)
        if most <= negligible():
            continue
        if allowed is not None:
            covered.append((words, parts[field], float(allowed)))
            found += _believable(group, words, float(allowed))
        elif not trivial(most, most_rated):
            text = f"the rating does not cover the load {words}, and {show(most, 'force')} come that way"
            answers = (round_force(1.5 * most), round_force(0.5 * most))
            open_ = Open(text, f"rated_{field}", f"rating.{field}", answers, {"load": show(most, "force")})
            found.append(group.refers(id, f"rated load {words}", RATED, open_))
    pressing = float(np.max(parts["pressing"]))
    if pressing > negligible() and not trivial(pressing, most_rated):
        text = "the piece is also pressed into the joint, for which the rating has no word here"
        found.append(group.refers(id, "pressing into the joint", RATED, Open(text, "rated_pressing")))
    found += [_rated(group, rating, words, [(force, allowed)]) for words, force, allowed in covered]
    if [words for words, _, _ in covered] != ["down", "up"] and len(covered) > 1:  # these two never come together
        together = [(force, most) for _, force, most in covered]
        found.append(_rated(group, rating, "in several directions at once", together))
    if not covered and all(check.holds for check in found):
        found.append(Check.keeps_rule(id, group.name, "rated load", RATED, "no force comes to it to speak of"))
    return found


# ---- where the figures come from ------------------------------------------------------------------------------------


def _source(group: Group, rating: Rating) -> Iterator[Check]:
    """A source that somebody else can find: a report by its number, and its year or edition."""
    missing = []
    if not (_REPORT.search(rating.source) and _NUMBER.search(rating.source)):
        missing.append("a report by its number")
    if not (_YEAR.search(rating.source) or "edition" in rating.source.casefold()):
        missing.append("its year or edition")
    if doubt := read_evidence(rating.source).doubt:
        missing.append(f"any figure yet: it says {doubt!r}")
    if missing:
        text = f"the source {rating.source!r} does not name {' and '.join(missing)}: nobody can look the figures up"
        yield group.refers(
            "anchor.rated_source", "source of the rating", RATED, Open(text, "rating_source", "rating.source")
        )


def _believable(group: Group, words: str, allowed: float) -> Iterator[Check]:
    """A figure beyond what hardware for sawn wood is rated for."""
    most = judgment("highest believable rating")
    if allowed > most.value:
        text = f"{show(allowed, 'force')} {words}: no hanger or strap for sawn wood is rated for that"
        yield group.refers("anchor.rated_figure", f"published figure {words}", RATED, Open(text, "rating_figure"))


def _conditions(group: Group, rating: Rating) -> Iterator[Check]:
    id = "anchor.rated_conditions"
    if rating.conditions_met is not True:
        said = f": {rating.conditions}" if rating.conditions.strip() else ""
        if rating.conditions_met is False:
            text = f"they are said not to be met{said}: the published loads do not hold"
            yield group.refers(id, CONDITIONS, RATED, Open(text, "conditions_not_met"))
            return
        text = f"nobody has said that they are met (`conditions_met`){said}"
        yield group.refers(id, CONDITIONS, RATED, Open(text, "conditions_met", "rating.conditions_met"))
    elif not rating.conditions.strip():
        text = "what they are is not written down (`conditions`)"
        yield group.refers(id, CONDITIONS, RATED, Open(text, "conditions", "rating.conditions"))
    else:
        yield Check.keeps_rule(id, group.name, CONDITIONS, RATED, f"said to be met: {rating.conditions}")


def _fits_the_report(group: Group) -> Iterator[Check]:
    """What published loads always take for granted of the wood, the joint and the slope of the piece."""
    anchor, rating = group.anchor, group.anchor.rating
    id, clause = "anchor.rated_fit", "evaluation report"
    if rating is None:
        return
    if is_unknown(group.stock):
        text = "the wood is not known, so nobody can say that the rating holds for it"
        yield group.refers(id, CONDITIONS, clause, grade_open(text, group.stock))
    if anchor.split == "check across the holes":
        text = "a check or split runs through the fastenings: the published loads do not hold there"
        yield group.refers(id, CONDITIONS, clause, Open(text, "split_seen"))
    elif anchor.split != "none seen":
        text = "look whether a check or split runs through the fastenings, and say so (`split`)"
        yield group.refers(id, CONDITIONS, clause, Open(text, "split", "split"))
    if anchor.gap > 0.0:
        text = f"a gap of {show(anchor.gap, 'length')} in the joint: published loads are for faces that touch"
        yield group.refers(id, CONDITIONS, clause, Open(text, "rated_gap"))
    stock = group.stock
    if stock.temperature <= 100.0 and stock.moisture == "dry" and stock.survey is None and metered_wet(stock):
        text = f"a meter reads {stock.metered:g} % in the wood, and published loads are for dry wood: it dries first"
        field = f"stock.{stock.name}.measured_moisture"
        yield group.refers(id, CONDITIONS, clause, Open(text, "moisture", field, of=stock.name))
    elif stock.temperature > 100.0 or stock.moisture != "dry" or metered_wet(stock):
        text = "the wood is not dry and cool in service: published loads are for wood that is"
        yield group.refers(id, CONDITIONS, clause, Open(text, "rated_wet"))
    slope = abs(group.slope)
    if slope > judgment("slope that a rating must name").value and (rating.slope or 0.0) < slope - 1e-6:
        text = (
            f"the piece slopes by {show(slope, 'slope')}; up to which slope the figures hold is not said, or it is less"
        )
        open_ = Open(text, "rating_slope", "rating.slope", (no_less(slope),), {"slope": show(slope, "slope")})
        yield group.refers(id, "slope of the piece", clause, open_)


def no_less(slope: float) -> str:
    """A slope in words for the job file, rounded up where words round it."""
    words = show(slope, "slope", "US")
    return words if read(words, "slope") >= slope - 1e-6 else show(math.ceil(10.0 * slope) / 10.0, "slope", "US")


# ---- the load duration of the figures -------------------------------------------------------------------------------


def basis_of(rating: Rating) -> float | None:
    """The C_D that the figures hold for, or up to which they may be raised; as a field or in the words of the report.

    None where nothing says so.
    """
    if rating.loads is not None:
        return float(load_duration(COLUMNS[rating.loads]).value)
    text = f"{rating.conditions} {rating.source}"
    given = [float(number) for number in _C_D.findall(text)]
    named = [float(load_duration(COLUMNS[word.casefold()]).value) for word in _SAID.findall(text)]
    found = given or named
    return max(found) if found else None


def _rated(group: Group, rating: Rating, words: str, loads: list[tuple[Array, float]]) -> Check:
    """One direction, or several together.

    Figures that include the duration are lowered for longer lasting loads and never raised; where it is to be applied,
    they are raised as far as the report says and no further. Where it does not say, the lowest that may be meant
    counts: that may pass, and where it does not, the report has to be asked.
    """
    basis, included = basis_of(rating), rating.duration == "included"
    longest = LONGEST_LASTING if included else 1.0
    cautious = _against(group, rating, words, loads, basis if basis is not None else longest)
    if basis is not None or cautious.holds:
        return cautious
    best = _against(group, rating, words, loads, 1.0 if included else LONGEST_LASTING)
    if not best.holds:
        return best
    text = (
        f"for which loads the figure holds is not said (`rating.loads`): {show(cautious.ratio or 0.0, 'ratio')} if for "
        f"the shortest, {show(best.ratio or 0.0, 'ratio')} if for floor loads" if included else
        "up to which load duration the report lets the figure be raised is not said (`rating.loads`)"
    )  # fmt: skip
    open_ = Open(text, "rating_loads", "rating.loads")
    return group.refers("anchor.rated", f"rated load {words}", RATED, open_)


def _against(group: Group, rating: Rating, words: str, loads: list[tuple[Array, float]], basis: float) -> Check:
    included, source = rating.duration == "included", Source(rating.source, "given")
    kind = "force" if len(loads) == 1 else "ratio"
    criterion = Criterion(group.name, f"rated load {words}", RATED, kind, id="anchor.rated")
    note = f"figure for C_D {basis:g}" if included else f"raised up to C_D {basis:g}"

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        C_D = duration(pad, group.forces.combinations, which)
        factor = np.minimum(C_D, min(basis, LONGEST_LASTING)) / (basis if included else 1.0)
        if not isinstance(which, slice) and factor != 1.0:
            pad.take("k_D", float(factor), note=f"{note}; lowered for loads that last longer, never raised beyond")
        used: float | Array = 0.0
        for force, allowed in loads:
            R = pad.take("R", at(force, which), "lbf", note=f"{words}; from the analysis")
            R_a = pad.take("R_a", allowed, "lbf", note="as published; nothing is added", source=source)
            if len(loads) == 1:
                return Outcome(R, R_a * factor, R / (R_a * factor))
            used = used + R / (R_a * factor)
        return Outcome(used, 1.0, used)

    return govern(criterion, group.forces.combinations, calculate)
