"""What a check knows of the wood of one piece: values, each with its factors, and what is in doubt."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Literal

from ....calc.core import Number
from ....provenance import Source
from ....records import dataclass
from .wood_doubts import WoodDoubt


@dataclass(frozen=True)
class Factor:
    """One factor with the reason for its value."""

    value: Number = 1.0
    why: str = ""
    source: Source | None = None


ONE = Factor()


@dataclass(frozen=True)
class Sharing:
    """Members side by side: how many, how far apart (in), and whether a deck joins them (NDS 2018 4.3.9)."""

    members: int
    spacing: float
    joined: bool


@dataclass(frozen=True)
class Property:
    """A reference design value and the factors that belong to it, apart from C_D, C_L, C_P and C_b."""

    value: Number
    C_M: Factor = ONE
    C_t: Factor = ONE
    C_F: Factor = ONE
    C_i: Factor = ONE
    C_fu: Factor = ONE
    C_r: Factor = ONE
    source: Source | None = None
    of: str = ""  # the member whose it is, where several stand in one calculation


Form = Literal["beam", "post", "rafter", ""]  # what glued and composite wood is asked for; "": for anything else


@dataclass(frozen=True)
class Volume:
    """What goes into C_V: of glued laminated timber the power `x_V` and the length `L` between points of zero moment.

    Of structural composite lumber depth `d_0` and power `m_V` of its report; below `least` in the factor grows no more.
    What is not given is no number, so that nothing passes by it.
    """

    source: Source
    x_V: float = 0.0
    d_0: float = math.nan
    m_V: float = math.nan
    least: float = math.nan
    L: float = math.nan


@dataclass(frozen=True, kw_only=True)
class WoodMaterial:
    """Everything a check needs to know of the wood. Values may be floats or arrays (a sweep)."""

    F_b: Property
    F_t: Property
    F_v: Property
    F_c_perp: Property
    F_c: Property
    E: Property
    E_min: Property
    K_cr: Factor
    dead_share: Factor = ONE  # of the dead-load deflection in the total of the code (IBC Table 1604.3, footnote d)
    density: Number = 0.0  # lbf/in3
    dry_density: Number = 0.0  # lbf/in3, once the water of green wood is gone; 0: as now
    dry: bool = True  # put in and used at 19 % or less
    c: float = 0.8  # NDS 2018 3.7.1, sawn lumber; the 0.85 of graded poles and piles is not given to round pieces here
    G: float | None = None
    made: str = "sawn"  # or glulam, composite
    F_b_other: Property | None = None  # of an unbalanced layup with the face pulled that is not made for tension
    volume: Volume | None = None
    C_vr: Factor = ONE  # on F_v at notches and connections (NDS 2018 5.3.10)
    shear_free: bool = False  # E is without shear deflection
    label: str = ""
    doubts: tuple[WoodDoubt, ...] = ()  # each one keeps the piece from passing
    notes: tuple[str, ...] = ()


PROPERTIES = ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min")


def named(wood: WoodMaterial, name: str) -> WoodMaterial:
    """The wood of the member of that name, so that its values are told from those of another beside it."""
    return replace(wood, **{one: replace(getattr(wood, one), of=name) for one in PROPERTIES})
