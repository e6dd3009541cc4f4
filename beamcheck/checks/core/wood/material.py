"""The wood of one stick, ready for a check: values, factors with their reasons, and what is in doubt about it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Literal

from ....calc.core import Number
from ....calc.pad import Pad
from ....formulas.engineered import glued as gl
from ....formulas.loads import weight as weights
from ....formulas.wood import adjustment as adj
from ....formulas.wood.section import equal_area_square
from ....model.fields.said import shares_load
from ....model.sticks import Stick
from ....model.stock import Stock
from ....provenance import Source
from ....units import show
from ....values import factors
from ....values.judgment import judgment
from ....values.loads import told
from ....values.lumber import (
    DesignValues,
    Size,
    SizeClass,
    design_values,
    lowest,
    read_size,
    screening_rows,
    specific_gravity,
)
from ..asking.question import Question, ask
from .record import ONE as ONE
from .record import Factor as Factor
from .record import Form as Form
from .record import Property as Property
from .record import Sharing as Sharing
from .record import WoodMaterial as WoodMaterial
from .record import named as named
from .wood_doubts import agency_of, wood_doubts

UNGRADED = ("unstamped", "unknown")  # words for a grade that nobody knows


def _noted(pad: Pad, symbol: str, factor: Factor) -> Number:
    """Write a factor down when it says something."""
    if factor.why or factor.source:
        return pad.take(symbol, factor.value, note=factor.why, source=factor.source)
    return factor.value


def _start(pad: Pad, symbol: str, given: Property) -> dict[str, Number]:
    found: dict[str, Number] = {symbol: pad.take(symbol, given.value, "psi", note=given.of, source=given.source)}
    found["C_M"] = _noted(pad, "C_M", given.C_M)
    found["C_t"] = _noted(pad, "C_t", given.C_t)
    found["C_i"] = _noted(pad, "C_i", given.C_i)
    return found


def bending_star(pad: Pad, wood: WoodMaterial, C_D: Number) -> Number:
    """F_b with all factors except C_L and C_fu, psi (NDS 2018 3.3.3.8)."""
    C_F, C_r = _noted(pad, "C_F", wood.F_b.C_F), _noted(pad, "C_r", wood.F_b.C_r)
    return pad(adj.adjusted_bending_star, **_start(pad, "F_b", wood.F_b), C_D=C_D, C_F=C_F, C_r=C_r)


def shear_prime(pad: Pad, wood: WoodMaterial, C_D: Number) -> Number:
    """Adjusted shear design value, psi."""
    return pad(adj.adjusted_shear, **_start(pad, "F_v", wood.F_v), C_D=C_D)


def shear_prime_at_cut(pad: Pad, wood: WoodMaterial, C_D: Number) -> Number:
    """Adjusted shear design value at a notch or connection, psi: of glued laminated timber times C_vr."""
    F_v_prime = shear_prime(pad, wood, C_D)
    if wood.C_vr.source is None:
        return F_v_prime
    return pad(gl.shear_at_cut, F_v_prime=F_v_prime, C_vr=_noted(pad, "C_vr", wood.C_vr))


def tension_prime(pad: Pad, wood: WoodMaterial, C_D: Number) -> Number:
    """Adjusted tension design value parallel to grain, psi."""
    C_F = _noted(pad, "C_F", wood.F_t.C_F)
    return pad(adj.adjusted_tension, **_start(pad, "F_t", wood.F_t), C_D=C_D, C_F=C_F)


def compression_star(pad: Pad, wood: WoodMaterial, C_D: Number) -> Number:
    """F_c with all factors except C_P, psi."""
    C_F = _noted(pad, "C_F", wood.F_c.C_F)
    return pad(adj.adjusted_compression_star, **_start(pad, "F_c", wood.F_c), C_D=C_D, C_F=C_F)


def bearing_prime(pad: Pad, wood: WoodMaterial, C_b: Number) -> Number:
    """Adjusted compression perpendicular to grain, psi. C_D does not apply (NDS 2018 Table 4.3.1)."""
    return pad(adj.adjusted_bearing, **_start(pad, "F_c_perp", wood.F_c_perp), C_b=C_b)


def modulus_prime(pad: Pad, wood: WoodMaterial) -> Number:
    """Adjusted modulus of elasticity, psi."""
    C_fu = _noted(pad, "C_fu", wood.E.C_fu)
    return pad(adj.adjusted_modulus, **_start(pad, "E", wood.E), C_fu=C_fu)


def modulus_min_prime(pad: Pad, wood: WoodMaterial) -> Number:
    """Adjusted modulus of elasticity for stability, psi. C_T is for truss chords only and stays 1."""
    C_fu = _noted(pad, "C_fu", wood.E_min.C_fu)
    return pad(adj.adjusted_modulus_min, **_start(pad, "E_min", wood.E_min), C_fu=C_fu, C_T=1.0)


def is_unknown(stock: Stock) -> bool:
    """True when neither a letter nor a table row gives this stock its values."""
    if stock.made != "sawn":
        return False
    return stock.values is None and (stock.species.casefold() == "unknown" or stock.grade.casefold() in UNGRADED)


def rows_to_screen(stock: Stock) -> list[DesignValues]:
    """The table rows that wood of unknown species or grade might be."""
    size = read_size(stock.size)
    candidates = stock.candidates or (() if stock.species.casefold() == "unknown" else (stock.species,))
    return screening_rows(list(candidates), size, "" if stock.grade.casefold() in UNGRADED else stock.grade)


def reference_values(stock: Stock) -> DesignValues:
    """The design values of a stock whose species and grade are known: the user's letter, or the table row."""
    if stock.made == "steel":
        from .made.steel_section import steel_values

        return steel_values(stock)
    if stock.made != "sawn":
        from .made.engineered import engineered_values

        return engineered_values(stock)
    size = read_size(stock.size)
    if stock.values is not None:
        given = stock.values
        return DesignValues(
            F_b=given.F_b, F_t=given.F_t, F_v=given.F_v, F_c_perp=given.F_c_perp, F_c=given.F_c, E=given.E,
            E_min=given.E_min, G=given.G, species=stock.species, grade=stock.grade, table="given",
            size_class=size.size_class, source=Source(given.source, "given"), lowered=(),
        )  # fmt: skip
    found = design_values(stock.species, stock.grade, size, agency_of(stock, size))
    return found if stock.graded_as is None or size.size_class == "dimension" else _as_graded(stock, size, found)


def _as_graded(stock: Stock, size: Size, by_size: DesignValues) -> DesignValues:
    """A timber whose certificate names its class: that class decides, and where its size says the other, the lower."""
    classes: dict[str, SizeClass] = {
        "beams and stringers": "beams_and_stringers", "posts and timbers": "posts_and_timbers",
    }  # fmt: skip
    wanted = classes[str(stock.graded_as)]
    if wanted == size.size_class:
        return by_size
    by_class = design_values(stock.species, stock.grade, replace(size, size_class=wanted), stock.agency)
    why = f"graded as {stock.graded_as}, by its size of the other class: lowest of each property of both"
    return replace(lowest([by_size, by_class], why), size_class=size.size_class)


def sharing_of(stick: Stick) -> Sharing:
    """What the job says about neighbors that share load with this stick."""
    return Sharing(stick.members, stick.spacing or 0.0, shares_load(stick.shared_by))


def ask_what_shares(stick: Stick) -> tuple[Question, ...]:
    """Which deck makes neighbors share, where the words name none: C_r is then 1."""
    if stick.members == 1 or shares_load(stick.shared_by):
        return ()
    return (ask("shared_by", stick.name, f"{type(stick).__name__.casefold()}.{stick.name}.shared_by"),)


def wood_of(
    stock: Stock, values: DesignValues, *, laid: str = "on edge", sharing: Sharing | None = None, form: Form = ""
) -> WoodMaterial:
    """Resolve factors for one stock. What is not known is taken on the safe side and said in `notes` or `doubts`.

    `sharing` tells of repeated members side by side, for C_r; `form` what it is for.

    Raises OutOfRange if glued or composite wood is asked for what it is not counted in here.
    """
    if stock.made == "steel":
        from .made.steel_section import steel_material

        return steel_material(stock, values, laid=laid, level=form == "beam")
    if stock.made != "sawn":
        from .made.engineered import engineered_wood

        return engineered_wood(stock, values, laid=laid, sharing=sharing, form=form)
    size = read_size(stock.size)
    wet, K_cr, dead_share, notes = _moisture(stock, size)
    timber = size.size_class != "dimension"

    def factor(found: tuple[Any, Source, str] | None) -> Factor:
        return ONE if found is None else Factor(found[0], found[2], found[1])

    def prop(
        name: factors.Property, value: float, C_F: Factor = ONE, C_fu: Factor = ONE, C_r: Factor = ONE
    ) -> Property:
        C_M = factor(factors.wet_service(values, size, name, float(C_F.value))) if wet else ONE
        C_t = factor(factors.temperature(name, stock.temperature, wet)) if factors.is_hot(stock.temperature) else ONE
        C_i = factor(factors.incising(name)) if stock.incised and not timber else ONE
        return Property(value, C_M, C_t, C_F, C_i, C_fu, C_r, values.source)

    on_flat = laid == "flat" and size.surface != "round"
    fu_b = factor(factors.flat_use_factor(values, size, "F_b")) if on_flat else ONE
    fu_E = factor(factors.flat_use_factor(values, size, "E")) if on_flat else ONE
    C_F_b = ONE if on_flat and timber else _size_factor(values, size, "F_b")  # on the flat C_fu stands in its place
    C_F_t, C_F_c = _size_factor(values, size, "F_t"), _size_factor(values, size, "F_c")
    C_r = ONE
    if sharing is not None and sharing.members > 1:
        C_r = factor(factors.repetitive_factor(size, sharing.members, sharing.spacing, sharing.joined))
    density, weight_note = _density(stock, values, wet)
    dry_density = _dry_density(stock, values, density) if wet else 0.0
    return WoodMaterial(
        F_b=prop("F_b", values.F_b, C_F=C_F_b, C_r=C_r, C_fu=fu_b),
        F_t=prop("F_t", values.F_t, C_F=C_F_t),
        F_v=prop("F_v", values.F_v),
        F_c_perp=prop("F_c_perp", values.F_c_perp),
        F_c=prop("F_c", values.F_c, C_F=C_F_c),
        E=prop("E", values.E, C_fu=fu_E),
        E_min=prop("E_min", values.E_min, C_fu=fu_E),
        K_cr=K_cr,
        dead_share=dead_share,
        density=density,
        dry_density=dry_density,
        dry=not wet,
        G=values.G,
        label=f"{values.species} {values.grade}",
        doubts=tuple(wood_doubts(stock, size, values)),
        notes=(*notes, *size.notes, *values.lowered, weight_note),
    )


def _size_factor(values: DesignValues, size: Size, name: Literal["F_b", "F_t", "F_c"]) -> Factor:
    """C_F, looked up, or calculated where the standard gives a formula (deep timbers: NDS 2018 4.3.6.2, 4.3.6.3)."""
    found = factors.size_factor(values, size, name)
    if found.value is not None:
        return Factor(found.value, found.reason, found.source)
    depth = float(equal_area_square(size.d)) if size.surface == "round" else size.d
    square = ", the square of equal area" if size.surface == "round" else ""
    return Factor(adj.size_factor_timber(depth), f"(12/{depth:.4g})^(1/9){square}: {found.reason}", found.source)


def sold_dry(stock: Stock, size: Size) -> bool:
    """Dressed dimension lumber that nobody metered comes stamped S-DRY, unless its stamp says that it was green."""
    as_sold = size.size_class == "dimension" and size.surface == "dressed" and stock.metered is None
    return as_sold and not told(stock.evidence, "seasoning")


def _moisture(stock: Stock, size: Size) -> tuple[bool, Factor, Factor, list[str]]:
    """Whether wet service factors apply, the creep factor, the share of dead load in a total, and what was assumed."""
    metered = stock.metered is not None and stock.metered <= judgment("wettest wood that counts as dry").value
    notes = []
    if stock.moisture == "dry" and stock.metered is not None and not metered:
        notes.append(f"declared dry but metered at {stock.metered:g} %: taken as wet")
    dry = stock.moisture == "dry" and (metered or sold_dry(stock, size))
    green = next((one.words for one in told(stock.evidence, "seasoning")), "")
    if stock.moisture == "dry" and stock.metered is None and green:
        notes.append(f"declared dry and stamped {green}, with no moisture reading: taken as wet")
    elif stock.moisture == "dry" and stock.metered is None and not dry:
        notes.append("no moisture reading is given for this piece: wet service factors and creep factor 2.0 are used")
    if stock.moisture == "green":
        notes.append("installed green: wet service factors are kept until a reading shows 19 % or less")
    condition: Literal["dry", "green"] = "dry" if dry else "green"
    value, source, why = factors.creep(condition)
    share, share_source, share_why = factors.dead_share_of_total(condition)
    return not dry, Factor(value, why, source), Factor(share, share_why, share_source), notes


def _unmetered(stock: Stock) -> float:
    """Moisture for the weight of wood that was not metered, percent, on the heavy side."""
    return judgment(
        "moisture of unmetered dry wood" if stock.moisture == "dry" else "moisture of unmetered green wood"
    ).value


def _dry_density(stock: Stock, values: DesignValues, density: float) -> float:
    """Weight per volume of the same wood once it has dried, never above that of today, lbf/in3."""
    dried = judgment("moisture of wood that has dried").value
    if stock.density is not None:  # weighed wet: less the water
        now = stock.metered if stock.metered is not None else _unmetered(stock)
        return min(density, density * (100.0 + dried) / (100.0 + now))
    G = values.G if values.G is not None else specific_gravity(values.species)[0]
    return min(density, float(weights.timber_density(G, dried)) / 1728.0)


def _density(stock: Stock, values: DesignValues, wet: bool) -> tuple[float, str]:
    """Weight per volume in lbf/in3, and the words for it."""
    if stock.density is not None:
        return stock.density / 1728.0, f"weight as given: {show(stock.density, 'density')}"
    moisture, why = stock.metered, "metered"
    if moisture is None:
        moisture, why = (_unmetered(stock) if wet else judgment("wettest wood that counts as dry").value), "assumed"
    G = values.G if values.G is not None else specific_gravity(values.species)[0]
    formula = weights.timber_density if moisture <= 30.0 else weights.green_timber_density
    pcf = float(formula(G, moisture))
    return pcf / 1728.0, f"own weight {show(pcf, 'density')} from G = {G:g} at {moisture:g} % moisture ({why})"
