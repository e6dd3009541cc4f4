"""Thousands of solid brackets at once by the hand rule: where a search for a size may begin. Never an answer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..analysis.fields.outline import Outline
from ..checks.brackets.families.solid_comparison import noticed
from ..checks.brackets.families.solid_hand_rule import EdgeLoad, Moduli, section_rule
from ..checks.core.result import within
from ..formulas.brackets import fan_sections as fan
from ..formulas.wood import off_axis as oa
from ..formulas.wood.bearing import bearing_at_angle
from ..values.judgment import judgment

Array = np.ndarray
SECTIONS = 25
SLOPES = np.linspace(0.0, 90.0, 181)  # deg, at which the moments of the modulus are worked out; between them straight
FIRST = 1e-6  # of the projection: sections that start so near the wall face count as starting there


@dataclass(frozen=True)
class Strength:
    """What the wood bears, psi: F_t', F_c*, F_v', F_c_perp', and the borrowed figure for tension across the grain."""

    F_t: float
    F_c: float
    F_v: float
    F_c_perp: float
    F_t_perp: float


@dataclass(frozen=True, eq=False)
class Screened:
    """(n,) largest ratio by the hand rule; whether an edge in tension is short-grained; whether the rule holds."""

    ratio: Array
    short: Array
    holds: Array

    @property
    def fits(self) -> Array:
        return np.asarray(within(self.ratio) & ~self.short)


def screen(
    outline: Outline, moduli: Moduli, strength: Strength, presses: Sequence[tuple[Array, Array, Array]], *,
    thickness: Array, projection: Array, diagonal: bool,
) -> Screened:  # fmt: skip
    """The hand rule for n brackets of one profile, stretched to other projections.

    Parameters
    ----------
    outline : Outline
        Of the profile; its foot, nose and height stay, its soffit is stretched outwards.
    presses : sequence of (from, to, force)
        Loads on the top edge, (n,) each, in and lbf.
    thickness, projection : array
        (n,), in.
    """
    P, t = np.asarray(projection, float)[:, None], np.asarray(thickness, float)[:, None]
    u = np.linspace(0.0, float(len(outline.pieces)), SECTIONS + 2)[1:-1]
    point, way = outline.at(u), outline.direction(u)
    stretch = (P - outline.a) / max(outline.P - outline.a, FIRST)
    x_s = outline.a + (point[:, 0] - outline.a) * stretch
    y_s = np.broadcast_to(point[:, 1], x_s.shape)
    alpha = np.degrees(np.arctan2(-way[:, 1], way[:, 0] * stretch))
    x_0 = x_s - y_s * np.tan(np.radians(np.clip(alpha, 0.0, 90.0)) / 2.0)
    there = (alpha >= 0.0) & (alpha <= 90.0) & (x_0 >= -FIRST * P) & (x_0 < P * (1.0 - FIRST))
    order = np.argsort(np.where(there, x_0, np.inf), axis=1)  # the section next to the wall comes first
    x_s, y_s, alpha, x_0, there = (np.take_along_axis(one, order, axis=1) for one in (x_s, y_s, alpha, x_0, there))
    alpha, x_0 = np.clip(alpha, 0.0, 90.0), np.clip(x_0, 0.0, P)
    one = (moduli.E_L, moduli.E_T, moduli.G_LT, moduli.nu_LT)
    E_0, E_1, E_2 = (np.interp(alpha, SLOPES, np.asarray(E)) for E in fan.fan_moments(*one, moduli.grain, SLOPES))
    line = EdgeLoad([(start[:, None], end[:, None], force[:, None]) for start, end, force in presses], P)
    rule = section_rule(
        (x_0, x_s, y_s, alpha), _depth_below(outline, x_0, stretch), t, moduli, line,
        diagonal=diagonal, means=(E_0, E_1, E_2),
    )  # fmt: skip
    phi = min(abs(moduli.grain), 180.0 - abs(moduli.grain))
    across = rule.top * np.sin(np.radians(phi)) ** 2
    top = rule.top / float(np.asarray(oa.hankinson_tension(strength.F_t, strength.F_t_perp, phi)))
    soffit = rule.soffit / np.asarray(bearing_at_angle(strength.F_c, strength.F_c_perp, rule.phi))
    worst = np.maximum(np.maximum(top, soffit), rule.shear / strength.F_v)
    steep = phi > judgment("slope of grain at an edge in tension").value
    short = (across > judgment("tension across the grain").value) | ((rule.top > noticed()) & steep)
    none = ~there.any(axis=1)
    ratio = np.where(none, np.inf, np.max(np.where(there, worst, 0.0), axis=1))
    return Screened(ratio, np.any(short & there, axis=1), np.any(rule.holds & there, axis=1))


def _depth_below(outline: Outline, x_0: Array, stretch: Array) -> Array:
    """Depth below places of the top edge, of the stretched profile."""
    back = np.where(x_0 <= outline.a, x_0, outline.a + (x_0 - outline.a) / stretch)
    grid = np.linspace(0.0, outline.P, 200)
    depth = np.array([outline.depth(float(x)) for x in grid])
    return np.asarray(np.interp(back, grid, depth))
