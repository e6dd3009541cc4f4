"""Rules that are looked up: effective lengths, what must be held, creep, deflection limits, printed spans of joists."""

from __future__ import annotations

from typing import Literal, get_args

from ..errors import OutOfRange, Unstable
from ..records import dataclass
from .found import Found
from .loader import Row, known, listed, numbers, row_of, rows, source_of
from .species import folded, known_species

Moisture = Literal["dry", "green", "wet"]
Member = Literal["floor", "roof"]
Finish = Literal["plaster", "gypsum board", "masonry veneer", "flexible", "none"]
SAME_ROW = 0.01  # share by which a spacing or a load may miss that of a row


@dataclass(frozen=True)
class EffectiveLength:
    """One case of NDS 2018 Table 3.3.3.

    l_e = `below_7` l_u when l_u/d < 7, else `from_7` l_u + `plus_d` d. Where `up_to` is set and l_u/d exceeds it,
    l_e = `beyond` l_u.
    """

    case: str
    loading: str
    below_7: float
    from_7: float
    plus_d: float
    up_to: float | None
    beyond: float | None


@dataclass(frozen=True)
class DeflectionLimits:
    """Span over these numbers, each the strictest of the codes, with its source and reason.

    `live`, `snow`, `wind`: deflection under that load alone; `total`: under dead load and it. A cantilever counts as
    twice its projection. `total_at_most` caps the total in inches. With `total_long_term` it includes creep (K_cr).
    """

    live: Found[int]
    snow: Found[int]
    wind: Found[int]
    total: Found[int]
    total_at_most: Found[float] | None = None
    total_long_term: bool = False


def effective_length_cases() -> tuple[str, ...]:
    """The cases that `effective_length` knows."""
    return listed("nds_2018_effective_length", "case")


def effective_length(case: str) -> Found[EffectiveLength]:
    """The coefficients of a case of NDS 2018 Table 3.3.3: 'simple_uniform', 'cantilever_tip', 'braced_2', 'any' ...

    Raises UnknownName for another case.
    """
    row = row_of("nds_2018_effective_length", "case", case, "effective length case")
    up_to, beyond = (float(row[name]) if row[name] else None for name in ("up_to", "beyond"))
    below_7, from_7, plus_d = numbers(row, "below_7", "from_7", "plus_d")
    length = EffectiveLength(case, row["loading"], below_7, from_7, plus_d, up_to, beyond)
    return Found(length, source_of(row), row["loading"])


def proportion_rule(ratio: float) -> Found[str]:
    """What must be held for C_L = 1.0 at a depth to breadth ratio: NDS 2018 4.4.1.2.

    Returns Found of str: 'nothing', 'ends', 'edge', 'edge and bridging' or 'both edges'; the reason says it in words.
    Raises OutOfRange above 7, where the rules end, and at zero or below.
    """
    for row in rows("nds_2018_proportion_rules"):
        if float(row["over"]) < ratio <= float(row["up_to"]):
            return Found(row["rule"], source_of(row), f"d/b = {ratio:.3g}: {row['text']}")
    raise OutOfRange(f"d/b = {ratio:.3g}: the proportion rules end at 7; calculate C_L", "NDS 2018 4.4.1.2")


def length_factor(base: str, top: str) -> Found[float]:
    """K_e of NDS 2018 Appendix G for ends that are 'fixed', 'pinned', 'guided' or 'free'; either may be the base.

    Raises Unstable for ends that leave a mechanism; UnknownName for another end.
    """
    table = rows("nds_2018_appendix_g_buckling_length")
    ends = sorted({row[end] for row in table for end in ("bottom", "top")})
    for given in (base, top):
        known(given, ends, "end of a post")
    for row in table:
        if {row["bottom"], row["top"]} == {base, top}:
            return Found(float(row["K_e"]), source_of(row), f"{base} at the base, {top} at the top")
    raise Unstable(f"a post {base} at its base and {top} at its top can move without resistance (NDS 2018 Appendix G)")


def creep(moisture: Moisture) -> Found[float]:
    """K_cr of NDS 2018 3.5.2 for wood installed and used 'dry', installed 'green', or 'wet' in service."""
    row = row_of("nds_2018_creep", "moisture", moisture, "moisture")
    return Found(float(row["K_cr"]), source_of(row), row["note"])


def dead_share_of_total(moisture: Moisture) -> Found[float]:
    """Share of the immediate dead-load deflection in D + L by IBC Table 1604.3, footnote d; K_cr is not added."""
    row = row_of("ibc_1604_3_dead_share", "moisture", moisture, "moisture")
    return Found(float(row["share"]), source_of(row), row["note"])


def deflection_limit(member: Member, finish: Finish, *, steep_rafter: bool = False) -> DeflectionLimits:
    """The stricter of IBC Table 1604.3 and IRC Table R301.7.

    `member`: 'floor' or 'roof'. `finish`: 'plaster', 'gypsum board', 'masonry veneer', 'flexible' or 'none': what is
    attached below, or rests on the piece and cracks when it bends. `steep_rafter`: a rafter steeper than 3:12 (IRC
    R301.7 lets it bend further when it has no ceiling). Raises UnknownName for another member or finish.
    """
    for given, allowed, what in ((member, Member, "member"), (finish, Finish, "finish")):
        known(given, get_args(allowed), what)
    ibc = next(
        row for row in rows("ibc_1604_3_deflection_limits")
        if row["member"] == member and finish in row["finishes"].split("; ")
    )  # fmt: skip
    irc = [_irc_row(member, finish, steep_rafter)]
    masonry = finish == "masonry veneer"
    if masonry:
        irc.append(_irc("masonry"))
    strict = [Found(int(row["limit"]), source_of(row), row["text"]) for row in irc]
    ibc_source, ibc_words = source_of(ibc), f"{member}, {ibc['ibc_finish']}"

    def strictest(column: str, others: list[Found[int]]) -> Found[int]:
        own = [Found(int(ibc[column]), ibc_source, ibc_words)] if ibc[column] else []
        return max([*own, *others], key=lambda found: found.value)

    variable = strictest("snow_wind", strict)
    limits = DeflectionLimits(strictest("live", strict), variable, variable, strictest("total", strict[1:]))
    if not masonry:
        return limits
    cap = rows("tms_402_masonry_support")[0]
    at_most = Found(float(cap["value"]), source_of(cap), "supports masonry or veneer")
    return DeflectionLimits(limits.live, limits.snow, limits.wind, limits.total, at_most, total_long_term=True)


def _irc_row(member: Member, finish: Finish, steep_rafter: bool) -> Row:
    if member == "floor":
        return _irc("floor")
    if finish == "plaster":
        return _irc("brittle ceiling")
    if finish in ("gypsum board", "flexible"):
        return _irc("flexible ceiling")
    return _irc("steep rafter" if steep_rafter and finish == "none" else "other")


def _irc(member: str) -> Row:
    return row_of("irc_r301_7_deflection_limits", "member", member, "member")


def code_joist_span(
    species: str, grade: str, size: str, spacing: float, live: float, dead: float
) -> Found[float] | None:
    """The clear span that IRC 2018 Table R502.3.1 prints for a floor joist, inches; None where no row is for it:
    to look across at, never a permission.

    `spacing`: inches. `live`, `dead`: Psf: the live load of the row, and no more dead load than the row has.
    """
    wood, wanted = known_species(species), folded(size.casefold().replace("dressed", "").strip())
    for row in rows("irc_2018_joist_spans"):
        same = row["species"] == wood and _of_grade(row, grade) and folded(row["size"]) == wanted
        if same and _for_loads(row, live, dead) and abs(float(row["spacing"]) - spacing) <= SAME_ROW * spacing:
            words = f"{row['size']} {row['species']} {row['grade']} at {row['spacing']} in, {row['live']} psf live"
            return Found(float(row["span"]), source_of(row), f"{words} and {row['dead']} psf dead")
    return None


def _of_grade(row: Row, grade: str) -> bool:
    return folded(grade) in {folded(row["grade"]), *(folded(part) for part in row["grade"].split("/"))}


def _for_loads(row: Row, live: float, dead: float) -> bool:
    return abs(float(row["live"]) - live) <= SAME_ROW * live and dead <= float(row["dead"]) * (1.0 + SAME_ROW)
