"""What is looked up for the loads of a place: factors of snow and wind, weights of layers, least loads of the codes.

Pressures are in lbf/in2 and lengths in inches; what a table prints in psf and feet is turned here.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from functools import cache

from ..errors import OutOfRange, UnknownName
from ..provenance import Source
from .found import Found
from .loader import known, listed, row_of, rows, source_of, weakest
from .species import folded

SQUARE_FOOT = 144.0  # in2
FOOT = 12.0
EDITIONS = ("7-16", "7-22")
SNOWY = 1.1  # C_t of the middle line of Fig. 7.4-1


def site_factor(factor: str, first: str, second: str = "", edition: str = "7-16") -> Found[float]:
    """A factor of ASCE 7 for snow: 'C_e' by surroundings and roof, 'C_t' by what is below, 'I_s' by risk category.

    Raises UnknownName if the table has no such row.
    """
    printed = [
        row for row in rows("asce_7_site_factors") if row["factor"] == factor and row["edition"] in (edition, "both")
    ]
    for row in printed:
        if folded(row["first"]) == folded(first) and folded(row["second"]) == folded(second):
            words = f"{first}, {second}" if second else first
            return Found(float(row["value"]), source_of(row), words)
    named = [f"{row['first']}, {row['second']}".rstrip(", ") for row in printed]
    raise UnknownName(f"row for {factor}", f"{first}, {second}".rstrip(", "), named)


def snow_knee(C_t: float, *, slippery: bool, insulated: bool, edition: str = "7-16") -> Found[float]:
    """Slope in degrees from which a roof holds less snow (Fig. 7.4-1).

    `slippery`: an unobstructed slippery surface. `insulated`: at least R-30, or R-20 where vented: without it a warm
    slippery roof counts as rough.
    """
    low = SNOWY if edition == "7-22" else 1.0
    line = "warm" if C_t <= low + 1e-9 else "cool" if C_t < 1.2 - 1e-9 else "cold"
    held = slippery and (line != "warm" or insulated)
    found = site_factor("knee", line, "slippery" if held else "rough", edition)
    return Found(found.value, found.source, f"{line} roof, {'slippery' if held else 'not slippery'}")


def thermal_factor_7_22(p_g: float, insulation: float) -> Found[float]:
    """C_t of a heated, unvented roof by ASCE 7-22, straight between the printed rows.

    `p_g`: strength-level ground snow, lbf/in2. `insulation`: R of the roof; over 50 it is 1.2, under 20 that of 20.
    """
    lines = rows("asce_7_22_7_3_3_thermal")
    resistances = sorted({float(row["insulation"]) for row in lines})
    source = source_of(lines[0])
    if insulation > resistances[-1]:
        return Found(1.2, source, f"R-{insulation:g}, over R-{resistances[-1]:g}")

    def of_roof(R: float) -> float:
        line = [row for row in lines if float(row["insulation"]) == R]
        return _between(p_g * SQUARE_FOOT, [float(row["p_g"]) for row in line], [float(row["C_t"]) for row in line])

    return Found(_between(insulation, resistances, [of_roof(R) for R in resistances]), source, f"R-{insulation:g}")


def exposure_at(exposure: str, z: float) -> Found[float]:
    """K_z of ASCE 7-16 Table 26.10-1 for a height in inches, straight between rows; up to 30 ft.

    Raises UnknownName, OutOfRange if the exposure is none of B, C, D, or the height is beyond the rows here.
    """
    line = [row for row in rows("asce_7_16_26_10_1_exposure") if row["exposure"] == exposure]
    known(exposure, listed("asce_7_16_26_10_1_exposure", "exposure"), "exposure")
    heights = [float(row["z"]) * FOOT for row in line]
    if not z <= heights[-1]:
        raise OutOfRange(f"K_z is known here up to {heights[-1] / FOOT:g} ft, given {z / FOOT:g} ft")
    return Found(
        _between(z, heights, [float(row["K_z"]) for row in line]), weakest(map(source_of, line)), f"exposure {exposure}"
    )


def wind_profile(exposure: str) -> tuple[float, float, Source]:
    """alpha and z_g in inches of an exposure."""
    row = row_of("asce_7_16_26_11_1_profile", "exposure", exposure, "exposure")
    return float(row["alpha"]), float(row["z_g"]) * FOOT, source_of(row)


def free_roof_coefficients(
    shape: str, slope: float, *, flow: str, case: str, direction: int = 0
) -> tuple[float, float]:  # fmt: skip
    """C_N of an open roof as a whole, of its windward and its lee half, straight between the slopes of the figure.

    `shape`: 'monoslope' or 'pitched'. `slope`: degrees, up to 45. Under 7.5 the row of a flat roof holds. `flow`:
    'clear' or 'obstructed'. `case`: 'A' or 'B'. `direction`: 0 or 180: of a monoslope: against its high or its low
    edge. Raises OutOfRange if it is steeper than the figure goes.
    """
    line = [row for row in rows("asce_7_16_27_3_free_roofs")
            if row["shape"] == shape and row["case"] == case and row["flow"] == flow
            and (shape == "pitched" or row["direction"] == str(direction))]  # fmt: skip
    slopes = [float(row["slope"]) for row in line]
    _within(slope, slopes)
    if slope < slopes[1]:
        slope = slopes[0]
    both = [_between(slope, slopes, [float(row[half]) for row in line]) for half in ("windward", "leeward")]
    return both[0], both[1]


def along_ridge_coefficient(band: str, *, flow: str, case: str) -> float:
    """C_N of wind along the ridge: 'up to h', 'h to 2h', 'over 2h' from the windward edge."""
    for row in rows("asce_7_16_27_3_7_along_ridge"):
        if (row["band"], row["flow"], row["case"]) == (band, flow, case):
            return float(row["C_N"])
    raise UnknownName("band", band, ("up to h", "h to 2h", "over 2h"))


def free_roof_extremes(shape: str, slope: float) -> tuple[float, float]:
    """The least and the largest C_N of an open roof as a whole: both flows, cases, directions, and along the ridge."""
    directions = (0, 180) if shape == "monoslope" else (0,)
    found = [one for flow in ("clear", "obstructed") for case in "AB" for direction in directions
             for one in free_roof_coefficients(shape, slope, flow=flow, case=case, direction=direction)]  # fmt: skip
    found += [float(row["C_N"]) for row in rows("asce_7_16_27_3_7_along_ridge")]
    return min(found), max(found)


def component_extremes(shape: str, slope: float, zone: int, area: float, a: float) -> tuple[float, float]:
    """The least and the largest C_N of a part of an open roof, the worse of both flows.

    `zone`: 1, 2 or 3: inside, edge, corner. `area`: effective wind area, in2. Over a^2 a corner counts as an edge, over
    4 a^2 all as inside. `a`: width of the edge strip, inches.
    """
    if area > 4 * a**2 * (1 + 1e-12):
        zone = 1
    elif area > a**2 * (1 + 1e-12):
        zone = min(zone, 2)
    lines = [row for row in rows("asce_7_16_30_7_free_roofs") if row["shape"] == shape and row["zone"] == str(zone)]
    slopes = sorted({float(row["slope"]) for row in lines})
    _within(slope, slopes)

    def of(way: str) -> float:
        return _between(slope, slopes, [float(row["C_N"]) for row in lines if row["way"] == way])

    return min(of("up clear"), of("up obstructed")), of("down clear")


def canopy_coefficient(way: str, area: float, height_ratio: float) -> float:
    """GC_pn of a canopy on a wall: 'up' or 'down', effective area in in2, its height over that of the eave."""
    square_feet = min(max(area / SQUARE_FOOT, 10.0), 100.0)
    for row in rows("asce_7_22_30_9_1b_canopies"):  # from the highest down: the first that it reaches
        least = float(row["h_c_over_h_e_from"] or 0.0)
        if row["way"] == way and (height_ratio > least or height_ratio == least == 0.9):
            at_10, at_100 = float(row["at_10_ft2"]), float(row["at_100_ft2"])
            return at_10 + (at_100 - at_10) * math.log10(square_feet / 10.0)
    raise UnknownName("way of the wind", way, ("up", "down"))


def prescriptive_uplift(V: float, roof_span: float, spacing: float, *, steep: bool) -> Found[float]:
    """Uplift at a rafter end of a closed house by IRC 2018 Table R802.11, lbf: allowable level, dead load taken off.

    Between rows the next larger counts. Not for open porches.

    Raises OutOfRange if span or speed are beyond the table.
    """
    lines = [row for row in rows("irc_r802_11_uplift") if row["pitch"] == (">=5:12" if steep else "<5:12")]
    fits = [row for row in lines if float(row["V"]) >= V - 1e-9 and float(row["roof_span"]) * FOOT >= roof_span - 1e-6]
    if not fits:
        raise OutOfRange("beyond IRC 2018 Table R802.11: 140 mph and 36 ft")
    row = min(fits, key=lambda row: (float(row["V"]), float(row["roof_span"])))
    return Found(float(row["uplift"]) * spacing / (2 * FOOT), source_of(row), f"{row['roof_span']} ft, {row['V']} mph")


def component_pressure_irc_2018(V: float, zone: int, q: float) -> Found[float]:
    """Coefficient of IRC 2018 Table R301.2(2) with the inside pressure, for its roof of 0 to 7 degrees and 10 ft2."""
    row = row_of("irc_2018_r301_2_2_coefficients", "zone", str(zone), "zone")
    return Found(0.6 * q * (float(row["GC_p"]) - 0.18), source_of(row), f"{V:g} mph, zone {zone}")


def prescriptive_roof_live(area: float, rise: float) -> Found[float]:
    """Roof live load of IRC Table R301.6, lbf/in2, by tributary area in in2 and rise in 12."""
    square_feet = area / SQUARE_FOOT
    for row in rows("irc_r301_6_roof_live"):
        steep = float(row["rise_from"]) <= rise and (not row["rise_below"] or rise < float(row["rise_below"]))
        wide = square_feet <= (float(row["area_to"]) if row["area_to"] else math.inf)
        if steep and wide:
            return Found(float(row["load"]) / SQUARE_FOOT, source_of(row), f"{rise:g} in 12, {square_feet:.4g} ft2")
    raise OutOfRange(f"a rise of {rise:g} in 12 is none")


@cache
def layer_names() -> tuple[str, ...]:
    """The layers of `layer_weight_of`."""
    return listed("dead_layers", "layer")


def layer_weight_of(layer: str) -> tuple[Found[float], float, bool]:
    """A layer's weight and the least of it that is sure to stay, lbf/in2, and whether it lies along the slope.

    Raises UnknownName if no such layer is listed.
    """
    row = row_of("dead_layers", "layer", layer, "layer", folded)
    found = Found(float(row["weight"]) / SQUARE_FOOT, source_of(row), f"{row['layer']}: {row['weight']} psf")
    return found, float(row["least"]) / SQUARE_FOOT, row["measured"] == "slope"


def assembly_names() -> tuple[str, ...]:
    """The whole assemblies that `assembly_weight` knows."""
    return listed("dead_assemblies", "assembly")


def assembly_weight(assembly: str) -> Found[float]:
    """A whole roof, floor or wall by its name, lbf/in2, framing included. Raises UnknownName if it is not listed."""
    row = row_of("dead_assemblies", "assembly", assembly, "assembly", folded)
    return Found(float(row["weight"]) / SQUARE_FOOT, source_of(row), f"{row['assembly']}: {row['weight']} psf")


def _within(value: float, places: Sequence[float]) -> None:
    if not 0.0 <= value <= places[-1]:
        raise OutOfRange(f"the figure goes from 0 to {places[-1]:g} degrees, given {value:g}")


def _between(x: float, places: Sequence[float], values: Sequence[float]) -> float:
    """Straight between points; beyond them the value of the last."""
    if x <= places[0]:
        return values[0]
    if x >= places[-1]:
        return values[-1]
    i = bisect_right(places, x)
    share = (x - places[i - 1]) / (places[i] - places[i - 1])
    return values[i - 1] + share * (values[i] - values[i - 1])
