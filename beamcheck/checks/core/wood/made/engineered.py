"""Glued laminated timber by its layup, and composite lumber by the report of its maker, ready for a check of a beam.

Of a report nothing is taken but what it says: no bearing area factor, no notch, no hole, no factor for neighbors.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator, Mapping
from dataclasses import replace

from .....calc.core import Number
from .....calc.pad import Pad
from .....errors import OutOfRange
from .....formulas.engineered import glued as gl
from .....formulas.loads import weight as weights
from .....model.fields.evidence import days_in, read_evidence, vouched
from .....model.made.report import MakersReport
from .....model.stock import Stock
from .....provenance import Source
from .....units import show
from .....values import factors
from .....values.engineered import Layup, glued_factor, layup
from .....values.judgment import judgment
from .....values.lumber import DesignValues, read_size
from ...asking.question import PlausibleAnswer, ask
from ..record import ONE, Factor, Form, Property, Sharing, Volume, WoodMaterial
from ..wood_doubts import WoodDoubt, made_grades, stated_grade_doubts, treated_with

GLUED, COMPOSITE = "NDS 2018 chapter 5", "NDS 2018 chapter 8"
WORDS = {"glulam": "glued laminated timber", "composite": "structural composite lumber"}
NOTHING = 1.0  # psi; what a report does not give carries next to nothing, and a beam does not ask for it
_NAMED_REPORT = re.compile(
    r"\breport\b[\s:,]*+(?:(?:no\.?|nr\.?|number|#)\s*+)?(?:[A-Z]{1,5}-?)?(\d+)\b", re.IGNORECASE
)
_TREATED = re.compile(r"(?<!not )\btreated\b", re.IGNORECASE)
_FIGURES = re.compile(r"\d+")
_YEAR = re.compile(r"\b(?:19|20)\d\d\b")
_RUNS_OUT = re.compile(
    r"\b(?:until|till|expires?|expired|ends|ended|valid (?:to|through)|through|withdrawn)\b", re.IGNORECASE
)
NAMES = ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min")


def engineered_values(stock: Stock) -> DesignValues:
    """The reference values of a layup, or of the report; of an unbalanced layup with its tension face pulled."""
    size = read_size(stock.size)
    if stock.made == "glulam":
        found = layup(stock.grade)
        return DesignValues(
            F_b=found.F_b, F_t=found.F_t, F_v=found.F_v, F_c_perp=found.F_c_perp, F_c=found.F_c, E=found.E,
            E_min=found.E_min, G=found.G, species=stock.species, grade=found.name, table="5A",
            size_class=size.size_class, source=found.source,
        )  # fmt: skip
    report = _report(stock)
    E_min = report.E_min or judgment("E_min of E where a report gives none").value * report.E
    return DesignValues(
        report.F_b, report.F_t or NOTHING, report.F_v, report.F_c_perp, report.F_c or NOTHING, report.E,
        E_min, report.G, species=stock.species, grade=stock.grade, table="report", size_class=size.size_class,
        source=report_source(report),
    )  # fmt: skip


def _report(stock: Stock) -> MakersReport:
    if stock.report is None:
        raise OutOfRange(f"stock {stock.name!r}: the maker's report is not given", COMPOSITE)
    return stock.report


def report_source(report: MakersReport) -> Source:
    """Number and edition as the source of every value."""
    return Source(f"{report.number}, {report.edition}", "given")


def engineered_wood(
    stock: Stock, values: DesignValues, *, laid: str, sharing: Sharing | None, form: Form
) -> WoodMaterial:
    """The wood of a beam, and glued timber as post or rafter. What is not known counts on the safe side.

    Raises OutOfRange for any other piece, and for what lies flat.
    """
    words = WORDS[stock.made]
    if form == "" or (form != "beam" and stock.made != "glulam"):
        text = f"{words} is not counted in this piece here: an engineer answers for it"
        raise OutOfRange(text, GLUED if stock.made == "glulam" else COMPOSITE)
    if laid == "flat" and form != "post":
        raise OutOfRange(f"{words} laid flat has values of its own, not run here: an engineer answers for it", GLUED)
    limit = judgment("wettest glued laminated timber that counts as dry").value
    wet = stock.moisture != "dry" or (stock.metered is not None and stock.metered >= limit)
    K_cr, K_source, K_why = factors.creep("green" if wet else "dry")
    share, share_source, share_why = factors.dead_share_of_total("green" if wet else "dry")
    make = _glulam if stock.made == "glulam" else _composite
    made = make(stock, values, wet, sharing)
    if form == "post":
        made = _either_way(made, layup(stock.grade))
    if form in ("post", "rafter"):
        made = replace(made, doubts=(*made.doubts, *_few_laminations(stock)))
    return replace(
        made, K_cr=Factor(K_cr, K_why, K_source), dead_share=Factor(share, share_why, share_source), dry=not wet,
        label=f"{values.species} {values.grade}", c=0.9,
    )  # fmt: skip


def of_properties(of: Mapping[str, Property]) -> WoodMaterial:
    """A material of its seven values; all else as for nothing in particular."""
    return WoodMaterial(
        F_b=of["F_b"], F_t=of["F_t"], F_v=of["F_v"], F_c_perp=of["F_c_perp"], F_c=of["F_c"], E=of["E"],
        E_min=of["E_min"], K_cr=ONE,
    )  # fmt: skip


def _glulam(stock: Stock, values: DesignValues, wet: bool, sharing: Sharing | None) -> WoodMaterial:
    found = layup(stock.grade)

    def prop(name: str, value: float) -> Property:
        C_M, C_t = ONE, ONE
        if wet:
            factor = glued_factor("C_M", name)
            C_M = Factor(factor.value, factor.reason, factor.source)
        if factors.is_hot(stock.temperature):
            heat = factors.temperature(name, stock.temperature, wet)  # type: ignore[arg-type]
            C_t = Factor(heat.value, heat.reason, heat.source)
        return Property(value, C_M, C_t, source=found.source)

    cut = glued_factor("C_vr", "F_v")
    density, note = _density(stock, found.G, wet)
    notes = [note]
    if sharing is not None and sharing.members > 1:
        notes.append("neighbors that share the load raise nothing here: C_r is for sawn dimension lumber")
    return replace(
        of_properties({name: prop(name, getattr(values, name)) for name in NAMES}), density=density,
        G=found.G, made="glulam", volume=Volume(found.source, x_V=found.x_V),
        F_b_other=None if found.balanced else prop("F_b", found.F_b_other),
        C_vr=Factor(cut.value, cut.reason, cut.source), doubts=tuple(_doubts(stock, values, wet=False)),
        notes=tuple(notes),
    )  # fmt: skip


def _either_way(wood: WoodMaterial, found: Layup) -> WoodMaterial:
    """Of a post nobody says how its laminations lie: the least bending value counts both ways, with C_V."""
    least = min(found.F_b, found.F_b_other, found.F_b_y)
    note = "how its laminations lie is not asked: the least bending value and stiffness of its layup count both ways"
    return replace(wood, F_b=replace(wood.F_b, value=least), F_b_other=None, notes=(*wood.notes, note))


def _few_laminations(stock: Stock) -> Iterator[WoodDoubt]:
    """The values of a layup hold for four laminations and more."""
    least, size = judgment("least depth of four laminations"), read_size(stock.size)
    if max(size.b, size.d) < least.value:
        text = f"{stock.size} may have fewer than four laminations, and values of layups are for four and more"
        yield WoodDoubt(text, ask("few_laminations", stock.name))


def _composite(stock: Stock, values: DesignValues, wet: bool, sharing: Sharing | None) -> WoodMaterial:
    report = _report(stock)
    source = report_source(report)
    C_r = ONE
    if sharing is not None and not factors.not_repetitive(sharing.members, sharing.spacing, sharing.joined):
        many = f"{sharing.members} members that share the load, by the report"
        C_r = ONE if report.C_r == 1.0 else Factor(report.C_r, many, source)
    properties = {name: Property(getattr(values, name), source=source) for name in NAMES}
    properties["F_b"] = replace(properties["F_b"], C_r=C_r)
    density, note = _report_density(stock, report, wet)
    notes = [note, f"values, factors and what may be cut are those of {source.document}, and no others"]
    if report.E_min is None:
        notes.append(judgment("E_min of E where a report gives none").reason)
    if report.E_is is None:
        notes.append("whether E holds shear deflection is not said: shear deflection is added to it")
    if report.remarks:
        notes.append(f"the report says besides: {report.remarks}")
    return replace(
        of_properties(properties), density=density, G=report.G, made="composite",
        volume=Volume(source, d_0=report.d_0, m_V=report.power, least=report.least_depth),
        shear_free=report.E_is != "shear included",
        doubts=(*_doubts(stock, values, wet=wet), *_report_doubts(stock, report)), notes=tuple(notes),
    )  # fmt: skip


def _doubts(stock: Stock, values: DesignValues, *, wet: bool) -> Iterator[WoodDoubt]:
    yield from stated_grade_doubts(stock)
    if values.source.confidence == "low":
        text = f"{values.grade}: the tabulated values are recalled with low confidence"
        yield WoodDoubt(text, ask("low_confidence", stock.name, wood=values.grade))
    words, hot = WORDS[stock.made], stock.made == "composite" and factors.is_hot(stock.temperature)
    for wrong in (
        "treated" if stock.treated or stock.incised or treated_with(stock) or _TREATED.search(stock.evidence) else "",
        "put in wet, or wet in service" if wet else "",
        f"at {show(stock.temperature, 'temperature')}" if hot else "",
    ):
        if wrong:
            text = f"{words} {wrong}: only its maker can say what its values are then"
            yield WoodDoubt(text, ask("engineered_state", stock.name, kind=words, state=wrong))


def _bare(pattern: re.Pattern[str], text: str) -> set[str]:
    """The numbers in a text, without zeros before them."""
    return {found.lstrip("0") or "0" for found in pattern.findall(text)}


def _report_doubts(stock: Stock, report: MakersReport) -> Iterator[WoodDoubt]:
    """A report that the evidence does not name, and an edition that is still to come, in doubt or of long ago."""
    said, entered = _bare(_NAMED_REPORT, stock.evidence), _bare(_FIGURES, report.number)
    path, evidence = f"stock.{stock.name}", stock.evidence.strip()
    if said and not said & entered:
        other = f"report {' or '.join(sorted(said))}"
        text = f"stock {stock.name!r} has the values of {report.number}, and the evidence says {other}"
        asked = ask("made_grade_differs", stock.name, f"{path}.report.number", grade=report.number, other=other)
        yield WoodDoubt(text, asked)
    elif evidence and max(entered, key=len) not in _bare(_FIGURES, evidence):
        text = f"stock {stock.name!r} has the values of {report.number}, which the evidence does not name: {evidence!r}"
        answers = [PlausibleAnswer("it does", ((f"{path}.evidence", f"{evidence}, {report.number}"),))]
        asked = ask("report_named", stock.name, f"{path}.evidence", answers=answers, report=report.number)
        yield WoodDoubt(text, asked)
    most = max((float(one[:-1]) * 1e6 for one in made_grades("composite", stock.evidence)), default=report.E)
    over = report.E / most
    if over > judgment("modulus of a report over that of its make").value:
        text = f"its report gives E = {report.E:,.0f} psi, and the evidence names a make of {most:,.0f} psi"
        asked = ask("made_grade_differs", stock.name, f"{path}.report.E", grade=f"{report.E:,.0f} psi",
                    other=f"{most:,.0f} psi")  # fmt: skip
        yield WoodDoubt(text, asked)
    for field in ("number", "edition"):
        if doubt := read_evidence(getattr(report, field)).doubt:
            text = f"stock {stock.name!r}: {field} of its report says {doubt!r}, which is no answer yet"
            yield WoodDoubt(text, ask("report_edition", stock.name, f"{path}.report.{field}"))
            return
    if (why := _long_ago(report.edition, datetime.date.today())) and not vouched(report.holds_by):
        text = f"stock {stock.name!r}: the edition of its report, {report.edition}, {why}"
        asked = ask("report_in_force", stock.name, f"{path}.report.holds_by", edition=report.edition)
        yield WoodDoubt(text, asked)


def _long_ago(edition: str, today: datetime.date) -> str:
    """Why an edition may not be the one that holds: its day is long past, it has run out, or it has none."""
    years = [datetime.date(int(year), 12, 31) for year in _YEAR.findall(edition)]
    days = days_in(edition) or years
    if not days:
        return "names no day: whether it holds is not said"
    holds = 0.0 if _RUNS_OUT.search(edition) else judgment("years that a maker's report holds").value
    if (today - max(days)).days <= 365.25 * holds:
        return ""
    return f"is {'past' if holds == 0.0 else f'over {holds:g} years old'}: whether it holds for this wood is not said"


def _density(stock: Stock, G: float, wet: bool) -> tuple[float, str]:
    if stock.density is not None:
        return stock.density / 1728.0, f"weight as given: {show(stock.density, 'density')}"
    moisture = judgment("wettest wood that counts as dry").value if not wet else 30.0
    pcf = float(weights.timber_density(G, moisture))
    return pcf / 1728.0, f"own weight {show(pcf, 'density')} from G = {G:g} at {moisture:g} % moisture (assumed)"


def _report_density(stock: Stock, report: MakersReport, wet: bool) -> tuple[float, str]:
    given = stock.density or report.density
    if given is not None:
        return given / 1728.0, f"weight as given: {show(given, 'density')}"
    heavy = judgment("weight of composite lumber that no report gives")
    return heavy.value / 1728.0, heavy.reason


# ---- bending ----------------------------------------------------------------------------------------------------


def pulled_side(wood: WoodMaterial, stamp_up: bool | None, L: float, *, top: bool) -> WoodMaterial:
    """The wood for bending with one edge pressed over a length `L` between points of zero moment, inches.

    `top`: the top edge is pressed. Which face of an unbalanced layup is pulled hangs on how it lies; where that is not
    said the weaker counts.
    """
    if wood.volume is None:
        return wood
    wood = replace(wood, volume=replace(wood.volume, L=L))
    if wood.F_b_other is None or stamp_up is top:
        return wood
    return replace(wood, F_b=wood.F_b_other)


def adjusted(pad: Pad, volume: Volume, b: Number, d: Number, F_b_star: Number, C_L: Number) -> Number:
    """F_b' of glued or composite wood, psi."""
    if volume.x_V:
        L = pad.take("L", volume.L, "in", note="between points of zero moment, at most")
        x_V = pad.take("x_V", volume.x_V, note="power of the volume factor", source=volume.source)
        C_V = pad(gl.volume_factor, L=L, d=d, b=b, x_V=x_V)
    else:
        d_0 = pad.take("d_0", volume.d_0, "in", source=volume.source)
        m_V = pad.take("m_V", volume.m_V, source=volume.source)
        C_V = pad(gl.depth_factor, d=max(d, volume.least), d_0=d_0, m_V=m_V)
    return pad(gl.adjusted_bending_glued, F_b_star=F_b_star, C_L=C_L, C_V=C_V)
