"""What is looked up for the loads of a place: factors of snow and wind, weights of layers, least loads of the codes.

Pressures are in lbf/in2 and lengths in inches; what a table prints in psf and feet is turned here.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from functools import cache

from ..errors import OutOfRange, UnknownName
from .found import Found
from .loader import known, listed, row_of, rows, source_of, weakest
from .species import folded

SQUARE_FOOT = 144.0  # in2
FOOT = 12.0
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
