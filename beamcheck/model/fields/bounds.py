"""Sizes and loads no house has. They are far outside of practice on purpose: what is beyond them is a slip of the unit.

A bound here says nothing about strength and is no limit of a formula; those are raised where the formula is used.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...records import dataclass
from .places import Fault


@dataclass(frozen=True)
class Bound:
    """`low` and `high` are in `unit`; one unit is `factor` of the inner unit."""

    low: float
    high: float
    unit: str
    factor: float = 1.0

    def admits(self, value: float) -> bool:
        """False also for a value that is not a number."""
        return self.low * self.factor <= value <= self.high * self.factor

    def text(self, value: float) -> str:
        """What to say about a value outside."""
        shown = f"{value / self.factor:,.9g} {self.unit}"
        return f"{shown} cannot be right: from {self.low:,.9g} to {self.high:,.9g} {self.unit} can be read"


def _feet(high: float, low: float = 0.0) -> Bound:
    return Bound(low, high, "ft", 12.0)


def _inches(high: float, low: float = 0.0) -> Bound:
    return Bound(low, high, "in")


def _psi(low: float, high: float) -> Bound:
    return Bound(low, high, "psi")


_THICK = _inches(24, low=1 / 8)  # of a bracket, side to side
_SIDE = _inches(120, low=1 / 2)  # of the box that a bracket fills
_PART = _inches(60, low=1 / 16)  # of one of its legs

# class -> field -> bound; the classes are those of the job file; a class has the bounds of its bases too
BOUNDS: dict[str, dict[str, Bound]] = {
    "GivenValues": {
        "F_b": _psi(10, 10_000), "F_t": _psi(10, 10_000), "F_v": _psi(5, 2_000), "F_c_perp": _psi(10, 5_000),
        "F_c": _psi(10, 10_000), "E": _psi(100_000, 5_000_000), "E_min": _psi(30_000, 3_000_000),
    },
    # no composite lumber of the trade has more; a digit too many is a slip
    "MakersReport": {
        "F_b": _psi(500, 5_000), "F_t": _psi(300, 4_000), "F_v": _psi(50, 600), "F_c_perp": _psi(200, 2_000),
        "F_c": _psi(500, 5_000), "E": _psi(800_000, 2_600_000), "E_min": _psi(300_000, 1_400_000),
        "d_0": _inches(48), "least_depth": _inches(24), "density": Bound(25, 60, "pcf"), "end_notch": _inches(24),
    },
    "FlitchPlate": {
        "thickness": _inches(2, low=0.1), "depth": _inches(24, low=2), "spacing": _inches(48), "edge": _inches(24),
        "end": _inches(48), "row_spacing": _inches(24),
    },
    "SagLimit": {"most": _inches(12, low=1 / 64)},
    "SteelShape": {
        "depth": _inches(44, low=3), "flange_width": _inches(18, low=1.5), "flange": _inches(4, low=0.1),
        "web": _inches(3, low=0.1),
    },
    "ReportHoles": {"largest": _inches(24), "from_seats": _inches(240), "from_edges": _inches(24)},
    "Stock": {
        "temperature": Bound(-60, 250, "deg F"), "density": Bound(5, 100, "pcf"),
        "measured_moisture": Bound(1, 200, "%"),
    },
    "Layer": {
        "length": _feet(200), "width": _inches(600), "thickness": _inches(24), "moisture": Bound(1, 200, "%"),
    },
    "Air": {"temperature": Bound(-40, 130, "deg F"), "humidity": Bound(0, 100, "%")},
    "Movement": {
        "across": _inches(120), "built_at": Bound(0, 200, "%"), "room": _inches(12), "lap": _inches(12),
    },
    "Station": {"at": _feet(200), "breadth": _inches(60), "depth": _inches(60)},
    "Reading": {"at": _feet(200), "moisture": Bound(0, 200, "%"), "deep": _inches(24)},
    "Knot": {"at": _feet(200), "width": _inches(60)},
    "Opening": {"start": _feet(200), "end": _feet(200), "depth": _inches(60), "other_side": _inches(60)},
    "Loss": {"start": _feet(200), "end": _feet(200), "depth": _inches(60)},
    "SagTest": {
        "span": _feet(200), "weight": Bound(0, 20_000, "lbf"), "weight_off": Bound(0, 20_000, "lbf"),
        "sag": _inches(24), "supports_sank": _inches(12, low=-12), "sag_off": _inches(2),
    },
    "Weighing": {
        "weight": Bound(0, 20_000, "lbf"), "weight_off": Bound(0, 20_000, "lbf"), "length": _feet(200),
        "breadth": _inches(60), "depth": _inches(60), "tape_off": _inches(2), "moisture": Bound(0, 200, "%"),
    },
    "Survey": {"length": _feet(200), "crushed": _inches(12), "sag": _inches(24, low=-24)},
    "Cut": {
        "at": _feet(200), "length": _feet(200), "depth": _inches(60), "width": _inches(60), "from_bottom": _inches(60),
    },
    "Load": {
        "width": _feet(200), "at": _feet(200), "start": _feet(200), "end": _feet(200), "bearing": _inches(120),
        "wall_at": _feet(200), "off_wall": _feet(200),
    },
    "Higher": {"step": _feet(200), "upper_length": _feet(1_000), "lower_length": _feet(500), "gap": _feet(200)},
    "SlidesFrom": {"slope": Bound(0, 85, "deg"), "eave_to_ridge": _feet(300), "step": _feet(200), "gap": _feet(200)},
    "RoofArea": {
        "slope": Bound(0, 85, "deg"), "eave_to_ridge": _feet(300), "parapet": _feet(20), "mean_height": _feet(200),
        "least_width": _feet(500),
    },
    "Support": {
        "at": _feet(200), "lands_at": _feet(200), "lands_from": _feet(200), "lands_to": _feet(200),
        "bearing": _inches(120), "bearing_width": _inches(60),
        "settles": _inches(12, low=-12),
    },
    "Stick": {"spacing": _feet(100), "top_held": _inches(2_400, low=1), "bottom_held": _inches(2_400, low=1)},
    "Beam": {"length": _feet(200), "clear": _feet(200)},
    "Rafter": {"run": _feet(100), "slope": Bound(0, 85, "deg"), "seat_cut": _inches(60)},
    "UpperEnd": {"bearing": _inches(60), "lands_from": _feet(200), "lands_to": _feet(200)},
    "Tie": {"height": _feet(100)},
    "Frame": {
        "span": _feet(120), "rise": _feet(60), "height": _feet(60), "post_from_heel": _feet(60),
        "collar_height": _feet(60), "brace_on_beam": _feet(30), "brace_on_post": _feet(30), "spacing": _feet(60),
        "joint_stiffness": Bound(1_000, 10_000_000, "lbf/in"), "joint_play": _inches(1),
    },
    "FramePoint": {"x": _feet(200), "y": _feet(100)},
    "FrameMember": {"top_held": _inches(2_400, low=1), "bottom_held": _inches(2_400, low=1)},
    "FrameFoot": {
        "lands_at": _feet(200), "bearing": _inches(120), "bearing_width": _inches(60), "cut": _inches(60),
        "wall_stiffness": Bound(10, 1_000_000, "lbf/in"),
    },
    "FrameForce": {
        "dead": Bound(0, 500_000, "lbf"), "live": Bound(0, 500_000, "lbf"), "roof_live": Bound(0, 500_000, "lbf"),
        "snow": Bound(0, 500_000, "lbf"), "wind": Bound(-500_000, 500_000, "lbf"),
        "wind_sideways": Bound(0, 500_000, "lbf"),
    },
    "Post": {
        "height": _feet(100), "lands_at": _feet(200), "braced_strong": _feet(100), "braced_weak": _feet(100),
        "eccentricity": _inches(60, low=-60), "eccentricity_weak": _inches(60, low=-60),
    },
    "PlySchedule": {
        "spacing": _inches(120), "row_spacing": _inches(60), "end": _inches(120), "edge": _inches(60),
    },
    # across the grain the species of the tables have 305 to 885 psi; what takes nothing or less is said by a rule
    "Existing": {
        "F_c_perp": _psi(100, 1_500), "takes": Bound(-500_000, 500_000, "lbf"),
        "takes_uplift": Bound(1, 500_000, "lbf"), "takes_sideways": Bound(1, 500_000, "lbf"),
    },
    "Place": {"x": _feet(200), "y": _inches(60)},
    "Holes": {
        "spacing": _inches(120), "row_spacing": _inches(60), "end": _feet(200), "edge": _inches(60),
    },
    "Fastener": {
        "length": _inches(72, low=0.25), "thread_length": _inches(72, low=0.125),
        "F_yb": _psi(10_000, 300_000), "washer": _inches(12, low=0.25),
        "counterbore": _inches(12, low=0.25), "counterbore_depth": _inches(60, low=1 / 16),
    },
    "Plate": {
        "thickness": _inches(4, low=1 / 64), "width": _inches(120, low=0.25), "length": _inches(240, low=0.25),
        "slot": _inches(12, low=1 / 64), "slot_length": _inches(240), "slot_height": _inches(60), "weld": _inches(2),
    },
    "Other": {"thickness": _inches(120, low=1 / 64), "end": _feet(200), "edge": _inches(120)},
    "Rating": {
        "down": Bound(1, 500_000, "lbf"), "up": Bound(1, 500_000, "lbf"), "along": Bound(1, 500_000, "lbf"),
        "slope": Bound(0, 85, "deg"),
    },
    "Step": {
        "depth": _inches(24), "behind": _feet(20), "contact": _inches(60), "reaction_off": _inches(120, low=-120),
        "wide": _inches(60),
    },
    "Pegs": {
        "diameter": _inches(3, low=0.25), "end": _inches(60), "edge": _inches(60), "side": _inches(60),
        "spacing": _inches(60),
    },
    "Tenon": {
        "thickness": _inches(24, low=0.25), "width": _inches(60), "length": _inches(60), "cheek": _inches(24),
        "housing": _inches(12), "under_housing": _feet(100),
    },
    "Strap": {
        "thickness": _inches(2, low=1 / 32), "width": _inches(24, low=0.25), "beyond": _inches(60),
        "from_end": _feet(200),
    },
    "Base": {
        "plate": _inches(4, low=1 / 32), "bears_wide": _inches(60), "bears_long": _inches(60),
        "stands_off": _inches(48), "stem_width": _inches(60), "stem_thickness": _inches(24),
        "sideways": Bound(0, 500_000, "lbf"),
    },
    "Rods": {
        "diameter": _inches(4, low=1 / 8), "hole": _inches(6, low=1 / 8), "plate": _inches(4, low=1 / 32),
        "along": _inches(60), "off": _inches(60), "edge": _inches(24), "takes": Bound(1, 200_000, "lbf"),
        "sideways": Bound(1, 200_000, "lbf"),
    },
    "Back": {"clear": _inches(24), "high": _inches(60)},
    "Cap": {
        "plate": _inches(4, low=1 / 32), "bears_long": _inches(60), "bears_wide": _inches(60), "beyond": _inches(24),
    },
    "Screws": {"angle": Bound(0, 90, "deg")},
    "StudRow": {"along": _feet(200), "spacing": _feet(10, low=0.25), "joists": _feet(20, low=0.25)},
    "StatedForce": {"pull": Bound(-500_000, 500_000, "lbf"), "down": Bound(-500_000, 500_000, "lbf")},
    "Member": {"direction": Bound(-360, 360, "deg"), "arm": _inches(120, low=-120), "shear": Bound(0, 500_000, "lbf"),
               "seat": _inches(120)},
    "Joint": {"gap": _inches(24), "embedded": _inches(48), "splice_at": _feet(200)},
    "OnGirder": {"highest": _inches(60), "lowest": _inches(60)},
    "Anchor": {"fire_cover": _inches(24), "gap": _inches(24), "arm": _inches(120)},
    "Point": {"x": _inches(120), "y": _inches(120)},
    "Pocket": {"top": _inches(120), "height": _inches(120), "depth": _inches(120), "width": _inches(24)},
    "Solid": {
        "thickness": _THICK, "height": _SIDE, "projection": _SIDE, "foot": _PART, "nose": _PART,
        "sagitta": _inches(60),
    },
    "Braced": {
        "thickness": _THICK, "height": _SIDE, "projection": _SIDE, "wall_leg": _PART, "top_leg": _PART,
        "brace": _PART, "brace_out": _SIDE, "brace_down": _SIDE, "sagitta": _inches(60), "housing": _inches(12),
        "behind_housing": _inches(120),
    },
    "LegJoint": {
        "end": _inches(24), "apart": _inches(24),
        "takes": Bound(0, 500_000, "lbf"), "takes_up": Bound(0, 500_000, "lbf"),
    },
    "JointRow": {"down": _inches(60)},
    "EndScrews": {"through": _inches(24)},
    "Bent": {
        "thickness": _THICK, "depth": _PART, "inner_radius": _inches(120, low=0.25), "lamination": _inches(12),
    },
    "SteelCore": {
        "width": _inches(24, low=0.25), "thickness": _inches(4, low=1 / 32), "projection": _SIDE, "down": _SIDE,
        "hole_at_bend": _inches(6), "gusset_depth": _inches(60), "gusset_thickness": _inches(4, low=1 / 32),
        "gusset_edge": _inches(120), "weld": _inches(2), "tip_clear": _inches(12),
    },
    "Corbel": {
        "thickness": _THICK, "height": _SIDE, "projection": _SIDE, "seat": _inches(12), "below_seat": _feet(100),
    },
    "Row": {"below_top": _inches(120), "apart": _inches(24), "from_side": _inches(24), "slot": _inches(24),
            "through": _inches(60), "length": _inches(60)},
    "RodInWood": {
        "out_from": _inches(120), "down_from": _inches(120), "out_to": _inches(120), "down_to": _inches(120),
        "bond": Bound(0, 1_000_000, "lbf/in"), "steel": Bound(0, 500_000, "lbf"), "across": Bound(0, 500_000, "lbf"),
        "head_from": Bound(0, 500_000, "lbf"), "head_to": Bound(0, 500_000, "lbf"),
    },
    "Fixings": {"through": _inches(60), "gap": _inches(24)},
    "Near": {
        "at": _feet(200), "gap": _inches(24), "slot": _inches(24), "pad": Bound(1, 1_000_000, "lbf/in"),
        "pad_squeezes": _inches(12), "sagged": _inches(24),
    },
    "Closing": {"height": _inches(240), "change": Bound(0, 60, "%")},
    "Cover": {
        "heads_stand_out": _inches(12), "heads_width": _inches(24), "heads_height": _inches(120),
        "hidden_moves": _inches(12), "change": Bound(0, 60, "%"), "reveal": _inches(12),
    },
    "Bracket": {"at": _feet(200), "deflects": _inches(12)},
    "Trim": {  # what is negative is said by a rule
        "weight": Bound(-1_000_000, 20_000, "lbf"), "stands_out": _inches(60), "height": _inches(240),
    },
}  # fmt: skip

GROUND_SNOW = Bound(0, 400, "psf", 1.0 / 144.0)


def ground_snow_faults(value: float, sort: str) -> Iterator[Fault]:
    """Ground snow that is no load per area, or does not occur."""
    if sort != "area":
        yield ("ground_snow",), 'ground snow is a load per area, for example ground_snow = "30 psf"'
    elif not GROUND_SNOW.admits(value):
        yield ("ground_snow",), f'{GROUND_SNOW.text(value)}; where no snow falls write ground_snow = "0 psf"'


# sort of load (as units.read names it) -> bound of its size
LOADS: dict[str, Bound] = {
    "area": Bound(0, 5_000, "psf", 1.0 / 144.0),
    "line": Bound(0, 100_000, "plf", 1.0 / 12.0),
    "point": Bound(0, 1_000_000, "lbf"),
}
