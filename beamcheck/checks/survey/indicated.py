"""Grade and stresses that a survey indicates (ASTM D245 on clear wood of ASTM D2555). No check is made with them.

The lowest strength ratio of all that was measured counts, wherever along the timber it is: no relief in the outer
thirds, no credit for a large section, for age, for having stood.
"""

from __future__ import annotations

from ...calc.pad import Pad, SilentPad
from ...errors import BeamcheckError
from ...formulas.survey import clear_wood as build_up
from ...formulas.survey import strength_ratio as ratios
from ...model.conditions.survey import Survey
from ...model.stock import Stock
from ...records import dataclass
from ...units import show
from ...values.conditions import clear_wood as table
from ...values.judgment import judgment
from ...values.lumber import Size, design_values, read_size
from ...values.species import species_name
from ..core.result import Table
from .findings import steepest

HEART = "heart checks to the ends or the tension face"
NONE = "none"
NOTE = (
    "Indicated by what was seen (ASTM D245 on green clear wood, ASTM D2555, parts of it memory): no design values, no "
    "check is made with them, and they lift nothing. The lowest strength ratio anywhere along the timber counts. No "
    "credit is given for a section larger than its size, for age or for having stood."
)


@dataclass(frozen=True)
class Seen:
    """The strength ratios of a timber: in bending and tension, in compression, and what makes them."""

    bending: float
    compression: float
    bending_by: str
    compression_by: str


def strength_ratios(survey: Survey, size: Size) -> Seen | None:
    """The lowest ratios of grain and knots; None where grain is too steep for a ratio, or nothing was measured."""
    slope = steepest(survey)
    if slope is None or survey.knots is None:
        return None
    try:
        found = table.slope_ratio(1.0 / slope)
        along = table.slope_ratio(1.0 / slope, "compression")
    except BeamcheckError:
        return None
    bending, compression = [(found.value, found.reason)], [(along.value, along.reason)]
    for knot in survey.knots:
        said = f"{show(knot.width, 'length')} knot at {show(knot.at, 'length')}"
        if knot.face in ("top", "bottom"):
            ratio = float(ratios.narrow_knot_ratio(d_k=knot.width, b=size.b))
        elif knot.place == "edge":
            ratio = float(ratios.edge_knot_ratio(d_k=knot.width, h=size.d))
        else:
            ratio = float(ratios.center_knot_ratio(d_k=knot.width, h=size.d))
        face = size.b if knot.face in ("top", "bottom") else size.d
        bending.append((ratio, said))
        compression.append((float(ratios.center_knot_ratio(d_k=knot.width, h=face)), said))
    lowest, by = min(bending)
    least, why = min(compression)
    return Seen(lowest, least, by, why)


def indicated_table(stock: Stock) -> Table | None:
    """Each candidate species with the grade and stresses that the survey indicates beside the listed ones."""
    survey, size = stock.survey, read_size(stock.size)
    if survey is None:
        return None
    heads = ("species", "clear wood of", "ratio", "indicated grade", "F_b", "F_t", "F_v", "F_c", "E", "listed F_b, E")
    seen = strength_ratios(survey, size)
    if seen is None or not seen.bending > 0.0 or not seen.compression > 0.0:
        why = "slope of grain and knots were not both measured, or the grain is too steep for a strength ratio"
        return Table("What the survey indicates", ("indicated grade",), ((NONE,),), f"{why}. {NOTE}")
    found = table.indicated_grade(seen.bending, size.size_class)
    grade = NONE if found is None else found.value
    rows: list[tuple[str, ...]] = []
    left_out: list[str] = []
    for species in stock.candidates or ((stock.species,) if stock.species != "unknown" else ()):
        try:
            clear = [one.value for one in table.clear_wood(species)]
        except BeamcheckError:
            clear = []
        rows += [_row(species, one, seen, size, survey, grade) for one in clear]
        left_out += [] if clear else [species]
    by = f"Lowest ratio {seen.bending:.2f} by {seen.bending_by}; in compression {seen.compression:.2f}."
    more = (
        f" No clear wood is tabulated here for {', '.join(left_out)}: nothing is indicated for it." if left_out else ""
    )
    if not rows:
        return Table("What the survey indicates", ("indicated grade",), ((grade,),), f"{by}{more} {NOTE}")
    lowest = [_lowest(rows)] if len(rows) > 1 else []
    return Table("What the survey indicates", heads, (*rows, *lowest), f"{by}{more} {NOTE}")


def _row(
    species: str, wood: table.ClearWood, seen: Seen, size: Size, survey: Survey, grade: str
) -> tuple[str, ...]:  # fmt: skip
    heart = judgment(HEART).value if survey.heart_checks == "to an end or the tension face" else 1.0
    bends = seen.bending * heart
    pad = SilentPad()
    values = (
        indicated(pad, wood, "bending", bends, size.d),
        indicated(pad, wood, "tension", bends),
        indicated(pad, wood, "shear"),
        indicated(pad, wood, "compression", seen.compression),
    )
    E = indicated(pad, wood, "modulus", seen.bending)
    return (
        species, wood.species, f"{bends:.2f}", grade, *(show(round(value), "stress") for value in values),
        show(round(E, -4), "stress"),
        _listed(species, grade, size),
    )  # fmt: skip


def indicated(pad: Pad, wood: table.ClearWood, of: str, ratio: float = 1.0, depth: float = 12.0) -> float:
    """The build-up for one botanical species on a pad, psi (ASTM D245): no design value."""
    if of == "modulus":
        q = table.modulus_quality(ratio)
        return float(pad(build_up.indicated_modulus, B_mean=wood.MOE[0], q_E=q.value))
    clear = {"bending": wood.MOR, "tension": wood.MOR, "shear": wood.F_v, "compression": wood.F_c}
    mean, sd = clear[of]
    B_05 = pad(build_up.exclusion_limit, B_mean=mean, B_sd=sd)
    n = table.divisor(of, wood.kind)
    n_f = pad.take("n_f", n.value, note=n.reason, source=n.source)
    if of == "bending":
        return float(pad(build_up.indicated_bending, B_05=B_05, SR=ratio, d=depth, n_f=n_f))
    if of == "tension":
        return float(pad(build_up.indicated_tension, B_05=B_05, SR=ratio, n_f=n_f))
    if of == "shear":
        return float(pad(build_up.indicated_shear, B_05=B_05, n_f=n_f))
    return float(pad(build_up.indicated_compression, B_05=B_05, SR=ratio, n_f=n_f))


def _listed(species: str, grade: str, size: Size) -> str:
    """The tabulated values of that grade, for comparison."""
    try:
        values = design_values(species_name(species), grade, size)
    except BeamcheckError:
        return NONE
    return f"{show(values.F_b, 'stress')}, {show(values.E, 'stress')}"


def _lowest(rows: list[tuple[str, ...]]) -> tuple[str, ...]:
    """The lowest of each, for wood that may be any of them."""

    def figure(text: str) -> float:
        return float(text.split()[0].replace(",", ""))

    columns = list(zip(*rows, strict=True))
    return ("lowest of each", "", *(min(column, key=figure) if i != 1 else columns[3][0]
            for i, column in enumerate([columns[2], columns[3], *columns[4:9]])), "")  # fmt: skip
