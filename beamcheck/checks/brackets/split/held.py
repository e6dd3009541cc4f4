"""A wooden bracket as its strips see it: outline, wood, rows, load; one answer for one block, whatever it is called."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from ....analysis.splits.holds import Held, Ledge, Rod, Row, Seat
from ....calc.pad import SilentPad
from ....formulas.wood.bearing import bearing_at_angle
from ....model.brackets.bracket import Solid
from ....values.judgment import judgment
from ...core.wood.govern import duration
from ...core.wood.material import WoodMaterial, bearing_prime, compression_star, shear_prime
from ..family import OnePiece
from ..loads import BracketLoads

Array = np.ndarray
FLAT = 0.004  # in: no straight piece of an outline leaves a curve by more
WALL = ("masonry", "steel")


def outline_with_pocket(shape: Solid) -> Array:
    """(n, 2) closed outline, the pocket taken out of it over the whole thickness."""
    from ....analysis.fields.outline import outline_of

    outline = outline_of(shape)
    soffit = _thinned(outline.soffit[::-1])
    points = [[0.0, 0.0], [outline.P, 0.0], *soffit.tolist(), [0.0, outline.H]]
    if (pocket := shape.pocket) is not None:
        low, high = pocket.top + pocket.height, pocket.top
        points += [[0.0, low], [pocket.depth, low], [pocket.depth, high], [0.0, high]]
    return np.array(points)


def _thinned(curve: Array) -> Array:
    """As few points of a curve as keep within a hair of it."""
    keep, start = [0], 0
    for end in range(2, len(curve)):
        (ax, ay), (bx, by) = curve[start], curve[end]
        between = curve[start + 1 : end]
        off = np.abs((bx - ax) * (between[:, 1] - ay) - (by - ay) * (between[:, 0] - ax))
        if float(off.max()) > FLAT * max(float(np.hypot(bx - ax, by - ay)), 1e-12):
            start = end - 1
            keep.append(start)
    return curve[[*keep, len(curve) - 1]]


def seats_of(loads: BracketLoads, combination: int, shift: float) -> tuple[tuple[Seat, ...], float]:
    """Where the load lies without the own weight, and how much it is, lbf; `shift` moves it out, in."""
    strips = [one for one in loads.strips(combination) if not one.own and one.force > 0.0]
    total = sum(one.force for one in strips)
    out = judgment("load on its outer part").value
    places: dict[tuple[float, float, bool], float] = {}  # loads of several kinds on one seat are one thing
    for one in strips:
        place = one.start + shift, one.end + shift, one.stiff
        places[place] = places.get(place, 0.0) + one.force
    seats = tuple(
        Seat(x0, x1, 0.5 * (x0 + x1) + out * (x1 - x0) if stiff else None, force / total)
        for (x0, x1, stiff), force in places.items()
    )
    return seats, total


def held_of(
    family: OnePiece[Any], wood: WoodMaterial, behind: WoodMaterial | None, loads: BracketLoads, combination: int,
    rows: Sequence[Row], *, grain: float, seats: tuple[Seat, ...],
) -> Held:  # fmt: skip
    """The bracket under one combination."""
    bracket, shape, pad = family.bracket, family.shape, SilentPad()
    fixings, back = bracket.fixings, shape.in_the_dap
    assert fixings is not None
    C_D = duration(pad, loads.combinations, combination)
    F_perp, F_star = float(bearing_prime(pad, wood, 1.0)), float(compression_star(pad, wood, C_D))
    end = judgment("end grain without a metal plate").value
    theta = min(grain % 180.0, 180.0 - grain % 180.0)
    own = min(float(bearing_at_angle(F_c_star=F_star, F_c_perp_prime=F_perp, theta=theta)), end * F_star)
    wall = own if fixings.wall in WALL or behind is None else min(own, float(bearing_prime(pad, behind, 1.0)))
    ledge = None
    if back > 0.0:
        foot = min(float(bearing_at_angle(F_c_star=F_star, F_c_perp_prime=F_perp, theta=90.0 - theta)), end * F_star)
        under = end * float(compression_star(pad, behind, C_D)) if behind is not None else foot
        ledge = Ledge(back, min(foot, under))
    rods = tuple(
        Rod((one.out_from + back, one.down_from), (one.out_to + back, one.down_to), one.bond, one.steel, one.across,
            one.head_from, one.head_to)
        for one in bracket.rods
    )  # fmt: skip
    return Held(
        family.cut_outline(), shape.thickness, shape.height, seats, tuple(rows),
        float(shear_prime(pad, wood, C_D)), F_perp, wall, judgment("lean on a check").value, rods, ledge,
        tuple((point.x + back, point.y) for point in bracket.checks or ()), strict=True,
    )  # fmt: skip
