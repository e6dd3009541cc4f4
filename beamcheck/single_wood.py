"""Single values of wood as a material: moisture, movement, what is seen in a timber, exposed wood in a fire.

As in `single.py` a value is no verdict, and clear-wood values are no design values.
"""

from __future__ import annotations

from typing import Literal

from .calc.pad import Pad
from .checks.movement.air import moisture_in
from .checks.survey.indicated import indicated
from .errors import BeamcheckError
from .formulas.fire import char
from .formulas.movement import shrinkage
from .formulas.survey import clear_wood as build_up
from .formulas.survey import strength_ratio as ratios
from .single import SingleValue
from .units import read
from .values.conditions import clear_wood as table
from .values.conditions import moisture as of_wood
from .values.conditions.fire import fire_factor
from .values.judgment import judgment

Place = Literal["edge of wide face", "center of wide face", "narrow face", "post face"]
_CLEAR: dict[str, table.ClearProperty] = {"bending": "MOR", "modulus": "MOE", "compression": "F_c", "shear": "F_v"}


def _percent(value: object, what: str, highest: float) -> float:
    """A percentage given as a number or as text with its sign."""
    number = float(read(value, "moisture")) if not isinstance(value, (int, float)) else float(value)
    if not 0.0 <= number <= highest:
        raise BeamcheckError(f"{what} is {number:g} %: it must be 0 to {highest:g} %")
    return number


def equilibrium_moisture(temperature: object, humidity: object) -> SingleValue:
    """Moisture content that wood takes on in still air, percent (Wood Handbook eq. 4-5), any species.

    Parameters
    ----------
    temperature : str or pint quantity
        Of the air, such as '70 F'.
    humidity : float, str or pint quantity
        Relative humidity in percent: 50 or '50 %'.

    Returns
    -------
    SingleValue
        Percent. Above 95 % humidity the equation is carried on beyond what was measured; the note says so.

    Raises
    ------
    BeamcheckError
        If the humidity is not 0 to 100 %, or the temperature is none of a house.
    """
    pad = Pad()
    T_air, h_rel = float(read(temperature, "temperature")), _percent(humidity, "the humidity", 100.0) / 100.0
    value = moisture_in(pad, T_air, h_rel)
    measured = judgment("humidity to which equilibrium moisture was measured").value
    note = f"over {measured:g} % humidity: beyond what was measured" if 100.0 * h_rel > measured else ""
    return SingleValue("equilibrium moisture content", value, "moisture", tuple(pad.steps), note)


def movement(
    size: object, *, from_moisture: object, to_moisture: object, species: str | None = None,
    way: of_wood.Way = "tangential", by: Literal["shrinkage", "coefficient"] = "shrinkage",
    shrinks: float | None = None, coefficient: float | None = None,
) -> SingleValue:  # fmt: skip
    """Change of a dimension across the grain between two moistures, in; what gets smaller is negative.

    Parameters
    ----------
    size : str or pint quantity
        The dimension at the first moisture.
    from_moisture, to_moisture : float, str or pint quantity
        Percent; over 30 % wood moves no more and 30 counts.
    species : str, optional
        Of several botanical species the one that moves most counts; None takes the most of all.
    way : 'tangential', 'radial' or 'mixed'
        Along the growth rings, square to them, or a timber with both.
    by : 'shrinkage' or 'coefficient'
        The equation for 0 to 30 % (Wood Handbook eq. 13-3), or the straight one for 6 to 14 % (eq. 13-2).
    shrinks, coefficient : float, optional
        Percent from green to ovendry, or change per point, in place of the tables.

    Returns
    -------
    SingleValue
        Inches, with its sign.

    Raises
    ------
    BeamcheckError
        If a unit is missing, a number is outside the rules, or no table knows the species.
    """
    pad, D = Pad(), float(read(size, "length"))
    M_i, M_f = (min(_percent(one, "the moisture", 200.0), 30.0) for one in (from_moisture, to_moisture))
    if coefficient is not None or by == "coefficient":
        if coefficient is None:
            S = shrinks if shrinks is not None else of_wood.shrinkage(species, way)[0].value
            coefficient = float(pad(shrinkage.coefficient_of_shrinkage, S_pct=S, FSP=30.0))
        value = pad(shrinkage.movement_linear, C_w=coefficient, M_i=M_i, M_f=M_f, D_i=D)
    else:
        if shrinks is None:
            found = of_wood.shrinkage(species, way)[0]
            shrinks = float(pad.take("S_pct", found.value, "%", note=found.reason, source=found.source))
        value = pad(shrinkage.movement_exact, S_pct=shrinks, M_i=M_i, M_f=M_f, D_i=D)
    return SingleValue("change across the grain", float(value), "small length", tuple(pad.steps))


def exclusion_value(
    *, species: str = "", of: Literal["bending", "compression", "shear"] = "bending", mean: object = None,
    deviation: object = None, variation: float | None = None,
) -> SingleValue:  # fmt: skip
    """Strength of green clear wood that 95 of 100 specimens exceed (ASTM D2555): mean less 1.645 deviations.

    Parameters
    ----------
    species : str
        Of several botanical species the lowest counts. Not needed where `mean` is given.
    of : 'bending', 'compression' or 'shear'
    mean, deviation : str or pint quantity, optional
        In place of the table.
    variation : float, optional
        Coefficient of variation in place of the deviation; without either that of ASTM D2555 for the property.

    Returns
    -------
    SingleValue
        psi.

    Raises
    ------
    BeamcheckError
        If the table has no such species, or a unit is missing.
    """
    pad = Pad()
    if mean is not None:
        B_mean = float(read(mean, "stress"))
        if deviation is not None:
            B_sd = float(read(deviation, "stress"))
        else:
            COV = variation if variation is not None else table.variation(_CLEAR[of]).value
            B_sd = float(pad(build_up.deviation_of_clear_wood, B_mean=B_mean, COV=COV))
        label = "clear wood"
    else:
        every = [found.value for found in table.clear_wood(species)]
        if not every:
            raise BeamcheckError(f"ASTM D2555 as tabulated here has no clear wood of {species!r}")
        worst = min(every, key=lambda one: getattr(one, _CLEAR[of])[0] - 1.645 * getattr(one, _CLEAR[of])[1])
        (B_mean, B_sd), label = getattr(worst, _CLEAR[of]), worst.species
    value = pad(build_up.exclusion_limit, B_mean=B_mean, B_sd=B_sd)
    return SingleValue(f"5 % exclusion value in {of} of {label}, green", float(value), "stress", tuple(pad.steps))


def slope_ratio(run: float, of: Literal["bending", "compression"] = "bending") -> SingleValue:
    """Strength ratio of a slope of grain of one in `run` (ASTM D245); tension as bending.

    Raises
    ------
    BeamcheckError
        If the grain is steeper than 1 in 6.
    """
    pad, found = Pad(), table.slope_ratio(float(run), of)
    pad.take("SR", found.value, note=found.reason, source=found.source)
    return SingleValue(f"strength ratio, grain 1 in {run:g}, {of}", found.value, "ratio", tuple(pad.steps))


def knot_ratio(knot: object, face: object, place: Place = "edge of wide face") -> SingleValue:
    """Strength ratio of a knot or cluster by its width across a face and that of the face (ASTM D245).

    Raises
    ------
    BeamcheckError
        If the knot is wider than the face, or a unit is missing.
    """
    pad, d_k, width = Pad(), float(read(knot, "length")), float(read(face, "length"))
    if place == "narrow face":
        value = pad(ratios.narrow_knot_ratio, d_k=d_k, b=width)
    elif place == "edge of wide face":
        value = pad(ratios.edge_knot_ratio, d_k=d_k, h=width)
    elif place in ("center of wide face", "post face"):
        value = pad(ratios.center_knot_ratio, d_k=d_k, h=width)
    else:
        raise BeamcheckError(f"there is no place {place!r}: edge or center of wide face, narrow face, post face")
    return SingleValue(f"strength ratio of a knot, {place}", float(value), "ratio", tuple(pad.steps))


def indicated_stress(
    species: str, of: Literal["bending", "tension", "compression", "shear", "modulus"], *, ratio: float = 1.0,
    depth: object = "12 in",
) -> SingleValue:  # fmt: skip
    """Stress that clear wood and a strength ratio indicate (ASTM D245, green); no design value, and it lifts nothing.

    Parameters
    ----------
    species : str
        Of several botanical species the lowest counts.
    of : str
    ratio : float
        Lowest strength ratio at the place.
    depth : str or pint quantity
        Of the timber, for bending.

    Raises
    ------
    BeamcheckError
        If the table has no such species, or a number is outside the rules.
    """
    every = [found.value for found in table.clear_wood(species)]
    if not every:
        raise BeamcheckError(f"ASTM D2555 as tabulated here has no clear wood of {species!r}")
    tried = [indicated(Pad(), one, of, ratio, float(read(depth, "length"))) for one in every]
    least = tried.index(min(tried))
    pad = Pad()
    value = indicated(pad, every[least], of, ratio, float(read(depth, "length")))
    what = f"indicated {of} of {every[least].species}, ratio {ratio:g}"
    return SingleValue(what, value, "stress", tuple(pad.steps), "indicated, green: not a design value")


def char_depth(minutes: float, *, effective: bool = True) -> SingleValue:
    """Char depth of exposed wood after so many minutes of a standard fire, in (NDS 2018 16.2.1).

    Parameters
    ----------
    minutes : float
        15 to 120.
    effective : bool
        With the fifth more that no longer counts.

    Raises
    ------
    BeamcheckError
        If the time is outside the method.
    """
    pad = Pad()
    nominal = judgment("char depth in the first hour")
    beta_t = pad.take("beta_t", nominal.value, "in", note=nominal.reason, source=nominal.source)
    value = pad(char.char_depth, beta_t=beta_t, t_fire=float(minutes) / 60.0)
    if effective:
        value = pad(char.effective_char_depth, a_char=value)
    what = "effective char depth" if effective else "char depth"
    return SingleValue(f"{what} after {minutes:g} min", float(value), "small length", tuple(pad.steps))


def residual_section(
    breadth: object, depth: object, minutes: float, *, sides: int = 2, faces: int = 1
) -> tuple[SingleValue, SingleValue]:
    """Breadth and depth left after a fire: `sides` of the two sides and `faces` of top and bottom are exposed.

    Raises
    ------
    BeamcheckError
        If nothing is left, or a number is outside the method.
    """
    pad, a_eff = Pad(), float(char_depth(minutes))
    b = pad(char.residual_breadth, b=float(read(breadth, "length")), n_sides=float(sides), a_eff=a_eff)
    d = pad(char.residual_depth, d=float(read(depth, "length")), n_faces=float(faces), a_eff=a_eff)
    first, second = tuple(pad.steps)
    return (SingleValue(f"breadth left after {minutes:g} min", float(b), "small length", (first,)),
            SingleValue(f"depth left after {minutes:g} min", float(d), "small length", (second,)))  # fmt: skip


def fire_value(
    reference: object, of: Literal["bending", "tension", "compression", "beam buckling", "column buckling"] = "bending"
) -> SingleValue:
    """Strength in a fire by a reference design value with its size factor, no C_D, C_M, C_t (NDS 2018 Table 16.2.2).

    Raises
    ------
    BeamcheckError
        For another property, or if a unit is missing.
    """
    pad, factor = Pad(), fire_factor(of)
    K = pad.take("K_fire", factor.value, note=factor.reason, source=factor.source)
    value = pad(char.fire_value, K_fire=K, F_ref=float(read(reference, "stress")))
    return SingleValue(f"{of} in a fire", float(value), "stress", tuple(pad.steps))
